"""The drawn line of one recess, finer than the chords of the outline, and what may stand over it in its corners.

u in counts, h on the diameter, in the frame of the side (`postproc.cutting.insert`); a wall is two points of one u.
"""

from dataclasses import replace
from functools import cached_property

import numpy as np
import shapely

from extractor.finding import Point
from extractor.part import Groove
from extractor.sheet import Floats, Ints
from extractor.values import dataclass
from planner.cuts.curves import filleted, printed_radius, smooth
from planner.cuts.ground import Ground
from planner.cuts.hollow import deepened
from planner.increment import Increments

Places = Ints | Floats
# Chords of the line lie off its arcs by no more than so many counts.
CHORD = 0.1
# Straight pieces in a quarter of a circle that fills a corner.
QUARTER = 32
# Radii that a line is lengthened by on all sides while its corners are filled: any more than one would do.
MARGIN = 4


@dataclass(frozen=True, eq=False)
class DrawnLine:
    """Points (u, h) along rising u, with lands beside the recess as far as the outline's own lines reach."""

    points: tuple[Point, ...]

    @staticmethod
    def of(groove: Groove, ground: Ground, increments: Increments, reach: float) -> "DrawnLine":
        """The line of an outside or inside groove and what lies within a reach of it (drawing units).

        A corner radius that is printed and not drawn is put in.
        """
        per = increments.per_length
        drawn = ground.stretch(groove.z_far - reach, groove.z_near + reach)
        points = [(z * per, half * per) for z, half in reversed(drawn)]
        rounded = smooth(tuple(filleted(points, printed_radius(groove) * per, CHORD)), CHORD)
        return DrawnLine(tuple((u, 2 * half) for u, half in rounded))

    @cached_property
    def _arrays(self) -> tuple[Floats, Floats]:
        """Places and heights as arrays."""
        return np.array([u for u, _ in self.points]), np.array([h for _, h in self.points])

    @property
    def places(self) -> Ints:
        """Whole counts nearest to the points."""
        return np.unique(np.rint(self._arrays[0]).astype(np.int64))

    def range(self, u0: float, u1: float) -> tuple[float, float]:
        """Least and greatest height between two places."""
        (low,), (high,) = self.ranges(np.array([u0]), np.array([u1]))
        return float(low), float(high)

    def ranges(self, u0: Places, u1: Places) -> tuple[Floats, Floats]:
        """Least and greatest height between each pair of places: (n,), (n,)."""
        u, h = self._arrays
        first, last = np.searchsorted(u, u0, side="left"), np.searchsorted(u, u1, side="right")
        ends = np.interp(np.stack([u0, u1]), u, h)
        return np.fmin(ends.min(axis=0), _each(np.fmin, h, first, last)), np.fmax(
            ends.max(axis=0), _each(np.fmax, h, first, last)
        )

    def moved(self, walls: tuple[float, float], floor: float, mouth: float) -> "DrawnLine":
        """The line with its lower and upper half moved along u, and its deepest place in height; the mouth stays."""
        low = min(h for _, h in self.points)
        deepest = [u for u, h in self.points if h <= low + 1]
        middle = (deepest[0] + deepest[-1]) / 2
        places = np.maximum.accumulate([u + walls[0 if u <= middle else 1] for u, _ in self.points])
        heights = deepened(self.points, mouth, floor, middle)
        return replace(self, points=tuple(zip(places.tolist(), heights, strict=True)))

    def filled(self, radius: float) -> "DrawnLine":
        """The line with every hollow corner filled up to a radius in counts."""
        if radius < 1:
            return self
        halves, wide = [(u, h / 2) for u, h in self.points], MARGIN * radius
        (u0, h0), (u1, h1) = halves[0], halves[-1]
        heights = [h for _, h in halves]
        bottom = min(heights) - wide
        upper = [(u0 - wide, h0), *halves, (u1 + wide, h1)]
        # A width of nothing takes away the spikes that a moved line may have.
        metal = shapely.Polygon([*upper, (u1 + wide, bottom), (u0 - wide, bottom)]).buffer(0)
        closed = metal.buffer(radius, quad_segs=QUARTER).buffer(-radius, quad_segs=QUARTER)
        area = closed.union(metal).intersection(shapely.box(u0, bottom, u1, max(heights)))
        # In its normal form a ring begins at the lower left and goes over the top to the lower right.
        over = list(shapely.normalize(area).exterior.coords)[1:-2]
        return DrawnLine(tuple((u, 2 * h) for u, h in over))


def _each(of: np.ufunc, heights: Floats, first: Ints, last: Ints) -> Floats:
    """The least or greatest of each stretch of heights from `first` up to `last`, not a number where it is empty."""
    bounds = np.stack([first, last], axis=1).ravel()
    found: Floats = of.reduceat(np.append(heights, np.nan), bounds)[::2]
    return np.where(first < last, found, np.nan)
