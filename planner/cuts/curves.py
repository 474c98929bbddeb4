"""Finds the arcs in an outline that shows them as chords, and draws them finer.

A chord of an arc lies inside it by r (1 - cos(a / 2)), a the angle of the chord: 0.02 mm for 7.5 degrees of a radius of
10, as much as a shop holds. A run of points counts as an arc if they lie on one circle as exactly as chords of a true
arc do: four chords of it, or three that are alike. Fewer may just as well be the lines that were drawn.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import acos, asin, atan2, ceil, cos, dist, hypot, pi, sin, sqrt, tan

from extractor.finding import Point
from extractor.part import Groove, ProfilePoints
from extractor.rounding import ROUNDING

Circle = tuple[Point, float]
# A greater angle than this between two points of a run is no chord of an arc but a line of its own.
WIDEST = pi / 9
# A line that turns by more than this goes back along itself: no corner that could be round.
FOLDED = 0.95 * pi
# How far a point may lie off the circle, as a share of what its chords lie off it; less than any drawn polygon would.
OFF = 1e-3
# Chords of one arc are of one length but for rounding; by this share of it three of them may differ.
LIKE_CHORDS = 1e-6
# Chords that make an arc, if they are alike; of more than so many none need be.
FEWEST = 3
# Shapes whose corner radius is that of all their corners.
ONE_RADIUS = ("rectangular", "relief", "tapered")


def smooth(points: ProfilePoints, error: float) -> ProfilePoints:
    """The line with its arcs in chords that lie off them by no more than an error; all points given stay.

    >>> from math import radians
    >>> arc = tuple((5 * cos(radians(7.5 * i)), 5 * sin(radians(7.5 * i))) for i in range(13))
    >>> finer = smooth(arc, 0.001)
    >>> len(finer) > 30, max(abs(hypot(x, y) - 5) for x, y in finer) < 1e-9
    (True, True)
    """
    found: list[Point] = list(points[:1])
    first = 0
    while first < len(points) - 1:
        last, circle = _run(points, first)
        if circle is None:
            found.append(points[first + 1])
            first += 1
            continue
        for a, b in pairwise(points[first : last + 1]):
            found += _between(a, b, circle, error)
        first = last
    return tuple(found)


def printed_radius(groove: Groove) -> float:
    """The radius to put into a recess's sharp corners: its own where all of its corners have one radius.

    The drawing of another shape may show one corner round and one sharp, and means it.
    """
    return groove.corner_radius if groove.shape in ONE_RADIUS else 0.0


def filleted(points: Sequence[Point], radius: float, error: float) -> list[Point]:
    """The line with an arc of a radius in each sharp corner that turns left and has room for it.

    Run along rising z with the metal below, those are the hollow corners. Chords of an arc are none: they turn less.

    >>> [(round(x, 3), round(y, 3)) for x, y in filleted([(0, 2), (0, 0), (2, 0)], 1.0, 0.2)]
    [(0, 2), (0.0, 1.0), (0.293, 0.293), (1.0, 0.0), (2, 0)]
    """
    backs = _setbacks(points, radius)
    found = list(points[:1])
    for k in range(1, len(points) - 1):
        a, b, c = points[k - 1 : k + 2]
        back, before, after = backs[k], dist(a, b), dist(b, c)
        if not 0 < back <= min(before - backs[k - 1], after - backs[k + 1]) + ROUNDING:
            found.append(b)
            continue
        start = (b[0] + (a[0] - b[0]) * back / before, b[1] + (a[1] - b[1]) * back / before)
        end = (b[0] + (c[0] - b[0]) * back / after, b[1] + (c[1] - b[1]) * back / after)
        left = (-(b[1] - a[1]) / before, (b[0] - a[0]) / before)
        centre = (start[0] + radius * left[0], start[1] + radius * left[1])
        found += [start, *_between(start, end, (centre, radius), error)]
    return [*found, *points[-1:]] if len(points) > 1 else found


def _setbacks(points: Sequence[Point], radius: float) -> list[float]:
    """How far from each point an arc of a radius would begin, 0 where the line doesn't turn left sharply."""
    backs = [0.0] * len(points)
    for k in range(1, len(points) - 1):
        a, b, c = points[k - 1 : k + 2]
        turn = atan2(_cross(a, b, c), (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]))
        backs[k] = radius * tan(turn / 2) if WIDEST < turn < FOLDED else 0.0
    return backs


def _run(points: ProfilePoints, first: int) -> tuple[int, Circle | None]:
    """The last point of the arc that begins at a point, and its circle; None where no arc begins."""

    def circle(chords: int) -> Circle | None:
        """The circle of so many chords from the point, None where they have none or the line ends before."""
        end = first + chords
        return _on_circle(points[first : end + 1]) if end < len(points) else None

    # Twice as far each time, then halved: every part of an arc lies on its circle.
    good, found = FEWEST, circle(FEWEST)
    if found is None:
        return first, None
    while longer := circle(2 * good):
        good, found = 2 * good, longer
    bad = 2 * good
    while bad - good > 1:
        middle = (good + bad) // 2
        if longer := circle(middle):
            good, found = middle, longer
        else:
            bad = middle
    lengths = [dist(a, b) for a, b in pairwise(points[first : first + good + 1])]
    if good > FEWEST or max(lengths) - min(lengths) <= LIKE_CHORDS * max(lengths):
        return first + good, found
    return first, None


def _on_circle(run: Sequence[Point]) -> Circle | None:
    """The circle of a run of points as its chords say, None if they are no chords of one arc."""
    circle = _circle(run[0], run[len(run) // 2], run[-1])
    if circle is None:
        return None
    centre, radius = circle
    turns = [_cross(a, b, centre) > 0 for a, b in pairwise(run)]
    widest = max(dist(a, b) for a, b in pairwise(run))
    if widest > 2 * radius * sin(WIDEST / 2) or any(turns) != all(turns):
        return None
    sagitta = radius - sqrt(radius**2 - widest**2 / 4)
    return circle if all(abs(dist(p, centre) - radius) <= OFF * sagitta + ROUNDING for p in run) else None


def _cross(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle, positive counter-clockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _circle(a: Point, b: Point, c: Point) -> Circle | None:
    """The circle through three points, None where they lie on a line."""
    area = 2 * _cross(a, b, c)
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    if abs(area) <= ROUNDING * max(hypot(bx, by), hypot(cx, cy)) ** 2:
        return None
    bb, cc = bx * bx + by * by, cx * cx + cy * cy
    x, y = (cy * bb - by * cc) / area, (bx * cc - cx * bb) / area
    return (a[0] + x, a[1] + y), hypot(x, y)


def _between(a: Point, b: Point, circle: Circle, error: float) -> list[Point]:
    """Points of the arc after `a`, up to and with `b`."""
    (x, y), radius = circle
    turn = 2 * asin(min(1.0, dist(a, b) / (2 * radius))) * (1 if _cross(a, b, circle[0]) > 0 else -1)
    parts = max(1, ceil(abs(turn) / (2 * acos(max(-1.0, 1 - error / radius)))))
    begin = atan2(a[1] - y, a[0] - x)
    inner = [begin + turn * i / parts for i in range(1, parts)]
    return [*((x + radius * cos(t), y + radius * sin(t)) for t in inner), b]
