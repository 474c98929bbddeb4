"""Turning axes: the lines about which a view may be symmetric, and how to fold about them.

Candidates come from centre lines (told by their pen; a layer name is only weak evidence) and from symmetry. A centre
line may be one piece or many, stick out at either end or only beyond one face, and not every centre line is the axis of
a part: symmetry decides.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

import numpy as np

from extractor.finding import Point
from extractor.geometry.network import Strokes
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind, Floats, Ints, Pen, Segments
from extractor.values import dataclass
from extractor.viewing.alike import ALONG

NO_OUTLINE = frozenset({"DIMENSION", "LEADER", "HATCH", "MLEADER", "MULTILEADER", "TEXT"})
"""Composites whose strokes are never outline."""

IN_LINE = 2e-5
"""Share of the sheet's diagonal within which pieces lie on one centre line: it is drawn in one go."""

UPRIGHT = 1e-9
"""A unit vector that points left by no more than this is upright: it is off by rounding alone."""


DUST = 1e-9
"""Shorter than this share of all that is drawn is a dot, and a bulge rising less is none."""


@dataclass(frozen=True)
class Axis:
    """A line on the sheet: a point, a unit direction, and the stretches where it is drawn (empty if it isn't).

    `marked` is true if its pen says that it is a centre line, `stated` if a diameter dimension has it in its middle.
    """

    at: Point
    direction: Point
    drawn: tuple[tuple[float, float], ...] = ()
    marked: bool = False
    stated: bool = False

    @property
    def up(self) -> Point:
        """Unit vector square to the axis, a quarter turn counter-clockwise from it."""
        return -self.direction[1], self.direction[0]

    def fold(self, xy: Floats) -> Floats:
        """Points (n, 2) on the sheet as (along, across)."""
        (ux, uy), place = self.direction, np.asarray(xy)
        dx, dy = place[:, 0] - self.at[0], place[:, 1] - self.at[1]
        folded: Floats = np.empty((len(place), 2))
        folded[:, 0], folded[:, 1] = dx * ux + dy * uy, dy * ux - dx * uy
        return folded

    def place(self, at: Point) -> Point:
        """One point on the sheet as (along, across)."""
        (ux, uy), dx, dy = self.direction, at[0] - self.at[0], at[1] - self.at[1]
        return dx * ux + dy * uy, dy * ux - dx * uy

    def unfold(self, along: float, across: float) -> Point:
        """The sheet point of a place along and across."""
        (ux, uy), (vx, vy) = self.direction, self.up
        return self.at[0] + along * ux + across * vx, self.at[1] + along * uy + across * vy

    def mirror(self, xy: Floats) -> Floats:
        """Points (n, 2) mirrored about the axis."""
        folded = self.fold(xy)
        mirrored: Floats = np.asarray(xy) - 2 * folded[:, 1:] * np.array(self.up)
        return mirrored

    def angle_to(self, direction: Point) -> float:
        """Angle between the axis and a direction, radians, 0 to a quarter turn."""
        cross = self.direction[0] * direction[1] - self.direction[1] * direction[0]
        return math.asin(min(1.0, abs(cross)))

    def drawn_within(self, low: float, high: float) -> float:
        """The share of the stretch low..high that the drawn line covers."""
        covered = sum(max(0.0, min(b, high) - max(a, low)) for a, b in self.drawn)
        return covered / (high - low) if high > low else 0.0


def direction_of(a: Point, b: Point) -> Point:
    """Unit vector from one point to another, turned so that it points right, or straight up."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = math.hypot(dx, dy)
    dx, dy = dx / size, dy / size
    if dx < -UPRIGHT or (abs(dx) <= UPRIGHT and dy < 0):
        dx, dy = -dx, -dy
    return dx, dy


def centre_lines(segments: Segments, size: float) -> list[Axis]:
    """Centre lines of a sheet, pieces of one line merged, longest first; `size` is the diagonal of the sheet."""
    found: list[Axis] = []
    index, marked = centre_segments(segments, hinted=True), segments.of(lambda s: s.pen is Pen.CENTRE)
    lengths = np.hypot(*(segments.ends[index, 2:] - segments.ends[index, :2]).T)
    for k in index[np.argsort(-lengths, kind="stable")].tolist():
        ends = segments.ends[k].reshape(2, 2)
        (x0, y0), (x1, y1) = ends.tolist()
        direction, half = direction_of((x0, y0), (x1, y1)), math.dist(*ends) / 2
        line = Axis(((x0 + x1) / 2, (y0 + y1) / 2), direction, ((-half, half),), bool(marked[k]))
        for i, other in enumerate(found):
            along, across = other.fold(ends).T
            if np.abs(across).max() <= IN_LINE * size and other.angle_to(direction) < ALONG:
                spans = union((*other.drawn, (float(along.min()), float(along.max()))))
                found[i] = replace(other, drawn=spans, marked=other.marked or line.marked)
                break
        else:
            found.append(line)
    return found


@remembered
def centre_segments(segments: Segments, *, hinted: bool = False) -> Ints:
    """The straight centre lines longer than a dot, as indices; `hinted`: also what lies on a layer named for them."""
    centre = segments.of(
        lambda s: (s.pen is Pen.CENTRE or (hinted and s.role == "centre")) and s.owner not in NO_OUTLINE
    )
    size = np.hypot(*(segments.ends[:, 2:] - segments.ends[:, :2]).T)
    tiny = DUST * float(np.ptp(segments.ends)) if len(segments) else 0.0
    index: Ints = np.flatnonzero(centre & (segments.bulge == 0) & (size > tiny)).astype(np.int64)
    return index


def drawn_along(strokes: Strokes, axis: Axis, size: float) -> tuple[tuple[float, float], ...]:
    """The stretches of a line along which straight strokes of any pen lie; `size` is the diagonal of the sheet."""
    ends = strokes.ends[strokes.bulge == 0].reshape(-1, 2)
    folded = axis.fold(ends).reshape(-1, 2, 2)
    on = folded[np.abs(folded[:, :, 1]).max(axis=1, initial=0.0) <= IN_LINE * size, :, 0]
    return union((float(a), float(b)) for a, b in np.sort(on, axis=1))


def dimensioned_axes(
    dimensions: Iterable[Dimension], says_diameter: Callable[[str], bool], centres: Sequence[Axis] = ()
) -> list[Axis]:
    """Axes that diameter dimensions imply: square to each, through the middle between the measured points.

    One that begins on a centre line measures half a diameter from there.
    """
    found: list[Axis] = []
    for d in dimensions:
        if (
            d.kind in (DimensionKind.LINEAR, DimensionKind.ALIGNED)
            and len(d.points) >= 2
            and says_diameter(d.text or "")
        ):
            (x0, y0), (x1, y1) = d.points[:2]
            turn = math.radians(d.angle) if d.kind is DimensionKind.LINEAR else math.atan2(y1 - y0, x1 - x0)
            across = (math.cos(turn), math.sin(turn))
            square = direction_of((0.0, 0.0), (-across[1], across[0]))
            size = abs((x1 - x0) * across[0] + (y1 - y0) * across[1])
            lines = [line for line in centres if line.angle_to(square) < ALONG]
            half = any(abs(line.place(at)[1]) <= IN_LINE * size for line in lines for at in d.points[:2])
            if size > 0 and not half:
                found.append(Axis(((x0 + x1) / 2, (y0 + y1) / 2), square, stated=True))
    return found


def union(spans: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Overlapping stretches joined."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1]:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        else:
            joined.append((low, high))
    return tuple(joined)
