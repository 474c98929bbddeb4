"""Where two lines of (z, radius) lie apart: two halves of a view, or two views of one part."""

from collections.abc import Iterator
from dataclasses import field, replace

import numpy as np
import shapely

from extractor.part import ProfilePoints
from extractor.rounding import LAST_DIGITS
from extractor.sheet import Floats
from extractor.values import dataclass

DUST = 1e-9
"""Places along z are one to so many digits."""


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """A stretch of z, from `near` back to `far`, along which two lines show two radii.

    `area` is that between the two lines, on both sides of the axis.
    """

    near: float
    far: float
    one: float
    two: float
    area: float = field(default=0.0, repr=False)

    @property
    def length(self) -> float:
        """How long it is."""
        return self.near - self.far


def stretches(one: ProfilePoints, two: ProfilePoints, fine: float) -> list[Stretch]:
    """The stretches longer than `fine` along which two lines lie farther apart than that, from the front back.

    Pieces no longer than `fine` are chords of a curve: they count together, with the radii where they differ most.
    What lies within `fine` of the other line all along is its wall, drawn a hair beside it.

    >>> stretches(((0, 5), (-4, 5), (-4, 8), (-9, 8)), ((0, 5), (-5, 5), (-5, 8), (-9, 8)), 0.01)
    [Stretch(near=-4.0, far=-5.0, one=8.0, two=5.0)]
    """
    a, b = np.array(one, dtype=float), np.array(two, dtype=float)
    places = np.unique(np.round(np.concatenate([a[:, 0], b[:, 0]]), 9))[::-1]
    near, far = places[:-1], places[1:]
    first, second = radii(a, (near + far) / 2), radii(b, (near + far) / 2)
    off = np.abs(first - second)
    rows = np.column_stack([near, far, first, second, 2 * off * (near - far)])[off > fine].tolist()
    found = [Stretch(near=n, far=f, one=r, two=s, area=between) for n, f, r, s, between in rows]
    return [s for s in _joined(found, fine) if s.length > fine and apart(a, b, s.near, s.far, fine)]


def apart(one: Floats, two: Floats, near: float, far: float, fine: float) -> bool:
    """True if a corner of either line from one place along z back to another lies beyond `fine` of the other line.

    Held against its pieces nearby: lines of a row of thousands of grooves have ten thousands.
    """
    for points, other in ((one, two), (two, one)):
        mine = points[(points[:, 0] <= near + DUST) & (points[:, 0] >= far - DUST)]
        pieces = shapely.STRtree(shapely.linestrings(np.stack([other[:-1], other[1:]], axis=1)))
        met = pieces.query(shapely.points(mine), predicate="dwithin", distance=fine)[0]
        if len(np.unique(met)) < len(mine):
            return True
    return False


def radii(line: Floats, at: Floats) -> Floats:
    """The radii of a line, float (n, 2), at places along z; the two ends of a wall lie a hair apart."""
    step = np.arange(len(line)) * LAST_DIGITS * max(1.0, float(np.ptp(line[:, 0])))
    return np.interp(-at, -line[:, 0] + step, line[:, 1])


def _joined(found: list[Stretch], fine: float) -> Iterator[Stretch]:
    """The stretches with those in one that go on with the same radii, and chords that go on at all."""
    last: Stretch | None = None
    chord = False
    for this in found:
        short = this.length <= fine
        alike = last is not None and ((last.one, last.two) == (this.one, this.two) or (short and chord))
        if last is not None and last.far == this.near and alike:
            wider = max(last, this, key=lambda s: abs(s.one - s.two))
            last = replace(wider, near=last.near, far=this.far, area=last.area + this.area)
            continue
        if last is not None:
            yield last
        last, chord = this, short
    if last is not None:
        yield last
