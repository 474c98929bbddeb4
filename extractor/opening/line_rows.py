"""Plain lines that stand one after the other in a file and look alike, held as numbers: most lines of a sheet do.

Rules: such a row stands among the entities of model space in the place of its lines, and is made into entities where
they are wanted one by one.
"""

from collections.abc import Iterator
from typing import Any, ClassVar

import numpy as np
from ezdxf.entities.dxfns import DXFNamespace
from ezdxf.entities.line import Line
from ezdxf.math import Vec3

from extractor.opening.strokes import Lines
from extractor.sheet import Floats
from extractor.values import dataclass


@dataclass(frozen=True, eq=False)
class LineRow:
    """Lines that say the same of themselves but for handle and ends; `first` is the first of them as an entity.

    `ends`: float (n, 6), start and end in space.
    """

    is_alive: ClassVar[bool] = True
    first: Line
    handles: tuple[str, ...]
    ends: Floats

    def __len__(self) -> int:
        """Number of lines."""
        return len(self.handles)

    @property
    def dxf(self) -> DXFNamespace:
        """What all of the lines say, with the handle and the ends of the first."""
        return self.first.dxf

    def dxftype(self) -> str:
        """The kind of each."""
        return self.first.dxftype()

    def lines(self) -> Iterator[Line]:
        """The lines as entities."""
        held = self.first.dxfattribs()
        for handle, (*start, end_x, end_y, end_z) in zip(self.handles, self.ends.tolist(), strict=True):
            line = Line()
            line.doc = self.first.doc
            vars(line.dxf).update(held, handle=handle, start=Vec3(start), end=Vec3(end_x, end_y, end_z))
            yield line

    def flat(self) -> Lines:
        """The lines on the sheet under them."""
        return Lines(self.ends[:, [0, 1, 3, 4]] + 0.0, self.handles)

    def tilted(self, most: float) -> int:
        """How many rise out of the sheet by more than `most` of their length."""
        with np.errstate(all="ignore"):
            run = self.ends[:, 3:] - self.ends[:, :3]
            return int((np.abs(run[:, 2]) > most * np.sqrt((run**2).sum(axis=1))).sum())


def count_of(entity: Any) -> int:
    """How many entities stand here: the lines of a row, else one."""
    return len(entity) if isinstance(entity, LineRow) else 1
