"""Where two lines of (z, radius) lie apart: two halves of a view, or two views of one part."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from extractor.part import ProfilePoints
from extractor.sheet import Floats


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """A stretch of z, from `near` back to `far`, along which two lines show two radii."""

    near: float
    far: float
    one: float
    two: float

    @property
    def length(self) -> float:
        """How long it is."""
        return self.near - self.far

    @property
    def area(self) -> float:
        """The area between the two lines, on both sides of the axis."""
        return 2 * self.length * abs(self.one - self.two)


def stretches(one: ProfilePoints, two: ProfilePoints, fine: float) -> list[Stretch]:
    """The stretches longer than `fine` along which two lines lie farther apart than that, from the front back.

    >>> stretches(((0, 5), (-4, 5), (-4, 8), (-9, 8)), ((0, 5), (-5, 5), (-5, 8), (-9, 8)), 0.01)
    [Stretch(near=-4.0, far=-5.0, one=8.0, two=5.0)]
    """
    a, b = np.array(one, dtype=float), np.array(two, dtype=float)
    places = np.unique(np.round(np.concatenate([a[:, 0], b[:, 0]]), 9))[::-1]
    found: list[Stretch] = []
    for near, far in pairwise(places.tolist()):
        if near - far <= fine:
            continue
        at = np.array([near - fine / 4, (near + far) / 2, far + fine / 4])
        first, second = radii(a, at), radii(b, at)
        if np.abs(first - second).min() > fine:
            found.append(Stretch(near=near, far=far, one=float(first[1]), two=float(second[1])))
    return list(_joined(found))


def radii(line: Floats, at: Floats) -> Floats:
    """The radii of a line, float (n, 2), at places along z; the two ends of a wall lie a hair apart."""
    step = np.arange(len(line)) * 1e-12 * max(1.0, float(np.ptp(line[:, 0])))
    return np.interp(-at, -line[:, 0] + step, line[:, 1])


def _joined(found: list[Stretch]) -> Iterator[Stretch]:
    """The stretches with those in one that go on with the same radii."""
    last: Stretch | None = None
    for this in found:
        if last is not None and (last.far, last.one, last.two) == (this.near, this.one, this.two):
            last = Stretch(near=last.near, far=this.far, one=last.one, two=last.two)
            continue
        if last is not None:
            yield last
        last = this
    if last is not None:
        yield last
