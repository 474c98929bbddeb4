"""Half a turned part drawn by itself, without a centre line, and the line about which it would be turned.

For the lathe a profile is often drawn alone: one open line from the middle of one face to the middle of the other, or
one that is closed along the axis (common practice, no source). Nothing on such a sheet says
that a part is turned, so the line found here is a question, never an answer.

        +--+  +--+  +-----+
        |  +--+  +--+     |
        |                 |
    ....o                 o....   open: both ends on the line, all else on one side of it
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from extractor.finding import Point
from extractor.geometry.boxes import box_of
from extractor.sheet import Floats, Pen, Segments, Sheet, Source
from extractor.values import dataclass
from extractor.viewing.alike import ONE_PLACE
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import Cluster, Ink
from extractor.viewing.views import View

ALONE = 0.4
"""No other figure on the sheet has so large a share of the half's size: it would be another view of it."""

ENDS = 2
"""An open profile has so many loose ends."""

OUT = 0.05
"""The centre line is taken to run out of the half by this share of its size at either end."""

Line = tuple[Point, Point]


def half_axis(ink: Ink, centres: Sequence[Axis]) -> Line | None:
    """The line, level or upright, on which the one figure of a sheet stands as half a part would; None where none is.

    From one end of the figure to the other, in sheet coordinates. A sheet with centre lines has its axes drawn; frames
    of the sheet and what is likely no outline are passed over. Of several lines it is the one on the sheet's own zero.
    """
    figures = [c for c in ink.clusters if not (c.plain and any(c.holds(other) for other in ink.clusters))]
    if not figures or any(line.marked for line in centres):
        return None
    shapes = sorted((_shape(ink, c) for c in figures), key=lambda shape: -shape.size)
    half = shapes[0]
    if not half.size or any(other.size > ALONE * half.size for other in shapes[1:]):
        return None
    found = [line for way in (0, 1) for line in _lines(ink, half, way)]
    found = found if len(found) == 1 else [line for line in found if _on_zero(line, ONE_PLACE * half.size)]
    return found[0] if len(found) == 1 else None


def _on_zero(line: Line, within: float) -> bool:
    """True for a line along one of the sheet's own axes."""
    return bool((np.abs(line).max(axis=0) <= within).any())


@dataclass(frozen=True)
class _Shape:
    """A figure without what is likely no outline: its points and its loose ends, float (n, 2), and its box."""

    cluster: Cluster
    points: Floats
    ends: Floats

    @cached_property
    def box(self) -> Floats:
        """Smallest x and y, largest x and y, float (4,)."""
        points = self.points if len(self.points) else np.zeros((1, 2))
        return box_of(points)

    @property
    def size(self) -> float:
        """Diagonal of the box."""
        return float(np.hypot(*(self.box[2:] - self.box[:2])))


def _shape(ink: Ink, cluster: Cluster) -> _Shape:
    """A figure without the strokes that are set aside."""
    edges = [ink.network.edges[k] for k in cluster.edges if ink.network.edges[k].label not in ink.aside]
    met = Counter(n for edge in edges for n in edge[:2])
    ends = [ink.network.point(n) for n, times in met.items() if times == 1]
    points = [p for edge in edges for p in ink.network.line(edge)]
    return _Shape(cluster, np.array(points).reshape(-1, 2), np.array(ends).reshape(-1, 2))


def with_axis(sheet: Sheet, line: Line) -> Sheet:
    """The sheet with a centre line along a line, after all that is drawn; it is of no kind, as nobody drew it."""
    (x0, y0), (x1, y1) = line
    dx, dy = OUT * (x1 - x0), OUT * (y1 - y0)
    old = sheet.segments
    segments = Segments(
        np.vstack([old.ends, [x0 - dx, y0 - dy, x1 + dx, y1 + dy]]),
        np.append(old.bulge, 0.0),
        np.append(old.source, len(old.sources)),
        (*old.sources, Source("", "", "", Pen.CENTRE)),
    )
    return replace(sheet, segments=segments)


def _lines(ink: Ink, half: _Shape, way: int) -> list[Line]:
    """The lines along x (`way` 0) or along y (1) that the figure could be turned about."""
    within = ONE_PLACE * half.size
    found = _open(half, way, within) or _closed(ink, half, way, within)
    low, high = half.box[way::2].tolist()
    return [((low, at), (high, at)) if way == 0 else ((at, low), (at, high)) for at in found]


def _open(half: _Shape, way: int, within: float) -> list[float]:
    """Where both ends of an open figure lie, if they are its outermost points and all else is on one side of them."""
    ends = half.ends
    if len(ends) != ENDS or abs(ends[0, 1 - way] - ends[1, 1 - way]) > within:
        return []
    level = float(ends[:, 1 - way].mean())
    across = half.points[:, 1 - way] - level
    one_sided = min(across.max(), -across.min()) <= within
    on_line = half.points[np.abs(across) <= within, way]
    off_ends = np.abs(on_line[:, None] - ends[:, way]).min(axis=1)
    whole = np.ptp(ends[:, way]) >= np.ptp(half.box[way::2]) - within
    return [level] if one_sided and whole and off_ends.max() <= within else []


def _closed(ink: Ink, half: _Shape, way: int, within: float) -> list[float]:
    """Where the one straight side of a closed figure lies; it may run out of it."""
    found = _straight_sides(ink, half.cluster, way) if half.cluster.closed else []
    off = np.abs(half.ends[:, 1 - way] - found[0]).max(initial=0.0) if len(found) == 1 else math.inf
    return found if off <= within else []


def is_one_sided(ink: Ink, view: View) -> bool:
    """True for one figure that is straight along all of one side and not of the other: as good as half a part."""
    way = int(abs(view.axis.direction[1]) > abs(view.axis.direction[0]))
    alone = view.halves == "both" and len(view.members) == 1
    return alone and len(_straight_sides(ink, ink.clusters[view.members[0]], way)) == 1


def _straight_sides(ink: Ink, figure: Cluster, way: int) -> list[float]:
    """Where the sides of a closed figure lie that are straight along all of it, along x (`way` 0) or y (1)."""
    within, found = ONE_PLACE * figure.diagonal, list[float]()
    for level in figure.box[1 - way :: 2].tolist():
        covered = 0.0
        for k in figure.rim:
            ends = np.array(ink.network.ends(k))
            on = ink.network.edges[k].bulge == 0 and np.abs(ends[:, 1 - way] - level).max() <= within
            covered += float(np.ptp(ends[:, way])) if on else 0.0
        if covered >= np.ptp(figure.box[way::2]) - within:
            found.append(level)
    return found
