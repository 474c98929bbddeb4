"""The insert as the metal sees it: the convex lower side of its cutting edge, in whole increments.

A cut is worked out in its side's own frame, so that one simulation serves every side of the part (`extractor.side`).

Everything above the cutting edge goes with it (insert and holder follow), so a cut leaves a height over u.
Curved edges are chords whose error stays under one increment.
"""

from collections.abc import Callable
from functools import cached_property, lru_cache
from itertools import pairwise
from math import acos, ceil, cos, pi, radians, sin, tan

from extractor.side import SIDES, Side, Where
from extractor.values import dataclass
from planner.increment import Increments
from planner.shop import USUAL_ANGLE, Tool

Corner = tuple[int, int]
"""u and h of a corner of the edge, from the point that the offset sets."""

Piece = tuple[int, int, int, int]
"""u and h where a straight piece of an underside begins and ends, u rising."""


@dataclass(frozen=True)
class Insert:
    """One insert in its side's frame: `corners` of its lower side, u rising, h least at the cutting edge.

    `width` along u, `reach` in h counts from the cutting edge to where the insert's shank ends (CDX).
    """

    where: Where
    corners: tuple[Corner, ...]
    width: int
    reach: int

    @cached_property
    def side(self) -> Side:
        """The side that it cuts."""
        return SIDES[self.where]

    @cached_property
    def left(self) -> int:
        """Place of the lower flank, from the reference point."""
        return self.corners[0][0]

    @cached_property
    def right(self) -> int:
        """Place of the upper flank, from the reference point."""
        return self.corners[-1][0]

    @cached_property
    def flat(self) -> bool:
        """True for a square edge whose corner radius is left out."""
        return len(self.corners) == 2

    @cached_property
    def place(self) -> Callable[[int, int], tuple[int, int]]:
        """The reference point as u and h, at a place X diameter and Z on the machine."""
        return self.side.frame

    def underside(self, u0: int, h0: int, u1: int, h1: int) -> list[Piece]:
        """The lower boundary of everything that the edge sweeps on a straight move.

        A convex edge moved along a straight line sweeps the convex hull of its two ends.
        """
        if u0 == u1:
            low = min(h0, h1)
            points = [(u0 + du, low + dh) for du, dh in self.corners]
        else:
            ends = [(u + du, h + dh) for u, h in ((u0, h0), (u1, h1)) for du, dh in self.corners]
            points = _lower_hull(sorted(ends))
        return [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(points) if b > a]


def _lower_hull(points: list[Corner]) -> list[Corner]:
    """Lower side of the convex hull of sorted points (monotone chain, Andrew 1979)."""
    hull: list[Corner] = []
    for point in points:
        while len(hull) > 1 and _turn(hull[-2], hull[-1], point) <= 0:
            hull.pop()
        if hull and hull[-1][0] == point[0]:
            continue
        hull.append(point)
    return hull


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """Positive where a, b, c turn to the left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


@lru_cache(maxsize=256)
def insert_of(tool: Tool, increments: Increments, rounded: bool = False) -> Insert:
    """The insert of a tool; `rounded` with the corner radius RE, else with sharp corners.

    A round edge is round either way, and so is the nose of a vee.
    """
    along, up = SIDES[tool.where].along, SIDES[tool.where].up
    width = increments.count(tool.width) * along
    left = 0 if tool.reference == "far" else -width
    edge = _edge(tool, increments, rounded)
    corners = tuple((left + round(u * along), round(h * up)) for u, h in edge)
    return Insert(tool.where, corners, width, increments.count(tool.max_depth) * up)


def _edge(tool: Tool, increments: Increments, rounded: bool) -> list[tuple[float, float]]:
    """Points of the lower side in counts of length, from the left flank, the lowest at 0."""
    width = tool.width * increments.per_length
    radius = width / 2 if tool.edge == "round" else min(tool.corner_radius * increments.per_length, width / 2)
    if tool.edge == "vee":
        return _vee(width, radius, radians(tool.angle or USUAL_ANGLE) / 2)
    if radius < 1 or (tool.edge == "square" and not rounded):
        return [(0.0, 0.0), (width, 0.0)]
    rise = [(radius - radius * sin(t), radius - radius * cos(t)) for t in _fan(radius, pi / 2)]
    return _both_sides(rise, width)


def _vee(width: float, radius: float, half: float) -> list[tuple[float, float]]:
    """A point of half angle `half` with its nose radius, no more than half the width, cut off at the full width."""
    nose = [(width / 2 - radius * sin(t), radius - radius * cos(t)) for t in _fan(radius, pi / 2 - half)]
    side, lift = nose[0]
    return _both_sides([(0.0, lift + side / tan(half)), *nose], width)


def _fan(radius: float, reach: float) -> list[float]:
    """Angles from `reach` down to 0 whose chords stay within half an increment of the arc."""
    if radius < 1:
        return [0.0]
    steps = ceil(reach / (2 * acos(1 - 0.5 / radius)))
    return [reach * i / steps for i in range(steps, -1, -1)]


def _both_sides(rise: list[tuple[float, float]], width: float) -> list[tuple[float, float]]:
    """The left half of an edge with its mirror image."""
    mirrored = [(width - u, h) for u, h in reversed(rise)]
    return rise + (mirrored[1:] if mirrored[0] == rise[-1] else mirrored)
