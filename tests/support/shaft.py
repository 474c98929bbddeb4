"""One plain shaft, 40 x 60 with a groove 3 wide and 34 across its floor at Z-10, drawn anew for each oddity.

read(lambda d: d.note("ISO 2768-mK"))      -> the reading of the usual sheet with one thing more on it
"""

import tempfile
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

from ezdxf.math import Matrix44

from extractor.part import Reading, ReadOptions
from extractor.reading import read_drawing
from support.sheets import blank

PROFILE = [(0, 0), (0, 20), (47, 20), (47, 17), (50, 17), (50, 20), (60, 20), (60, 0)]
"""Upper half, rear face at x = 0, front face at x = 60, axis along x."""
GROOVE = (-10.0, -13.0, 34.0)


class Drawing:
    """A document under way, with the words a draughtsman would use."""

    def __init__(self, version: str = "R2010", units: int | None = 4, scale: float = 1.0) -> None:
        self.doc: Any = blank(version, units)
        self.msp = self.doc.modelspace()
        self.scale = scale

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place at the sheet's scale."""
        return x * self.scale, y * self.scale

    def body(self, space: Any = None, layer: str = "OUTLINE", linetype: str = "CENTER") -> None:
        """The side view with its centre line, in model space or another layout or block."""
        space = self.msp if space is None else space
        for side in (1, -1):
            points = [self.at(x, side * y) for x, y in PROFILE]
            for a, b in pairwise(points):
                space.add_line(a, b, dxfattribs={"layer": layer})
        for x in (47, 50):
            space.add_line(self.at(x, -17), self.at(x, 17), dxfattribs={"layer": layer})
        space.add_line(self.at(-5, 0), self.at(65, 0), dxfattribs={"linetype": linetype, "layer": "AXIS"})

    def note(self, text: str, at: tuple[float, float] = (0, -60), **attributes: Any) -> None:
        """A line of text."""
        self.msp.add_text(text, height=2.5, dxfattribs={"insert": self.at(*at), **attributes})

    def dim(self, a: tuple[float, float], b: tuple[float, float], text: str = "<>", **override: Any) -> None:
        """A linear dimension along or across the axis."""
        angle = 90 if a[0] == b[0] else 0
        base = self.at(a[0] + 30, a[1] + 30)
        self.msp.add_linear_dim(
            base, self.at(*a), self.at(*b), text=text, angle=angle, dimstyle="Standard", override=override
        ).render()

    def turned(self, matrix: Matrix44) -> None:
        """Everything drawn so far moved, turned or mirrored."""
        for entity in self.msp:
            entity.transform(matrix)


def read(
    odd: Callable[[Drawing], object], *, body: bool = True, options: ReadOptions | None = None, **sheet: Any
) -> Reading:
    """The reading of the shaft's sheet with one oddity."""
    drawing = Drawing(**sheet)
    if body:
        drawing.body()
    odd(drawing)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shaft.dxf"
        drawing.doc.saveas(path)
        return read_drawing(path, options or ReadOptions())


def grooves(reading: Reading) -> list[tuple[float, float, float]]:
    """Near wall, far wall and floor diameter of each groove read, rounded to a tenth of a micrometre."""
    found = reading.part.grooves if reading.part else ()
    return [(round(g.z_near, 4), round(g.z_far, 4), round(g.floor_diameter, 4)) for g in found]


def stops(reading: Reading) -> list[str]:
    """Codes of the stops."""
    return [f.code for f in reading.findings if f.stops]
