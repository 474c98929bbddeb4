"""A recess that plain plunges can't leave as drawn: roughed by plunges, then finished along a path of the edge.

The path is the lowest place that the true profile permits the insert at every z (`planner.cuts.field`), so it is offset
for corner radius, nose or round edge by itself. It goes down from the near wall over the floor, out, down from the far
wall and a little back over the floor; never upward into metal. What it leaves is held against the profile before any of
it is planned, and so is the metal that it would have to take from the side.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, cos, sin
from typing import Literal, NamedTuple

import numpy as np

from extractor.rounding import ROUNDING
from extractor.sheet import Floats
from extractor.values import dataclass
from planner.cuts.field import (
    Heights,
    InsertEdge,
    cell_at,
    closed,
    edge_of,
    least_place,
    left_standing,
    permitted,
    raster,
    spread,
    whole,
)
from planner.cuts.hollow import Hollow
from planner.cuts.roughing import Plunge, rough_plunges
from planner.cuts.trace import Move, along, traced
from planner.cuts.widen import finish_lap
from planner.increment import Increments
from planner.shop import Tool

Obstacle = Literal["width", "form", "load"]
# Share of the tolerance that a planned profile may be off; the rest is for the place of a row and for wear.
SHARE = 0.7
# Share of the tolerance that the path may leave the line of lowest places for fewer moves.
PATH_SHARE = 0.125
# A fall of more than this from one count of z to the next, in radial counts, is a wall that the path goes down.
WALL = 8
# Shares of the insert's width that the roughing may leave at a wall; the next where too much would come from the side.
LEFT = (0.5, 0.25, 0.125)
# Heights as near as this, in counts, are one level: a floor's, not those of a curve beside its lowest place.
LEVEL = 1e-6


class Bounds(NamedTuple):
    """What a contour is held to, in counts.

    `tolerance`: farthest off square to the profile; `sharp`: radius that may stay in corners drawn sharp; `bears`:
    deepest sideways cut; `allowance`: metal left by the roughing.
    """

    tolerance: int
    sharp: float
    bears: int
    allowance: int


@dataclass(frozen=True)
class Contour:
    """How one recess is cut, relative to the row's place (the insert's far edge where it comes down at the near wall).

    `plunges`: the roughing in the order of cutting; the first `level` of them are level and even, `ribs` full ones
    first. `near`, `far`: moves of the finishing path, z from the place, x above the floor on the diameter; the first of
    each comes down from the start height. `span`: from the place to that of the far wall. `lead`: the place's z from
    that of an insert at the near wall. All in counts.
    """

    plunges: tuple[Plunge, ...]
    level: int
    ribs: bool
    near: tuple[Move, ...]
    far: tuple[Move, ...]
    span: int
    lead: int

    @property
    def moves(self) -> int:
        """Plunges and moves of the path together."""
        return len(self.plunges) + len(self.near) + len(self.far)


@lru_cache(maxsize=512)
def contour_of(hollow: Hollow, tool: Tool, increments: Increments, bounds: Bounds) -> Contour | Obstacle:
    """How a tool cuts a recess, or why it can't: no room, a different form left, too much metal taken sideways.

    The hollow's floor is a whole count of the diameter.
    """
    edge = edge_of(tool, increments)
    if not hollow.falls:
        return "form"
    far, near = _ends(hollow, edge)
    if far > near:
        return "width"
    start, cells = far - 2, near - far + edge.width + 4
    drawn = raster(hollow.line, start, cells)
    # Nor may the path be lower than any place by more than its error, and what rounding makes of it.
    if least_place(drawn, edge) - _error(bounds) - 1 > _deep_enough(drawn, bounds):
        return "form"
    lowest = permitted(drawn, edge)[2 : 3 + near - far]
    floor = round(2 * hollow.floor)
    stock = _stock(hollow, start, cells, drawn.high)
    roughs = [rough_plunges(lowest, stock, tool, increments, floor, bounds.allowance, share) for share in LEFT]
    lap = finish_lap(tool, increments)
    reason: Obstacle = "form"
    for meet, end in _meetings(lowest, roughs[0].farthest, lap):
        paths = _path(far, lowest - floor / 2, bounds, meet, end)
        tops = [_tops(path, far, near, floor) for path in paths]
        if not _as_drawn(hollow, edge, drawn, np.minimum(*tops), start, bounds):
            continue
        reason = "load"
        for rough in roughs:
            standing = np.minimum(stock, _left(rough.places(lowest.size, floor), edge.high))
            if _load(standing, tops, edge) <= bounds.bears:
                return _relative(rough.plunges, rough.level, rough.ribs, paths, far, near, edge.width)
    return reason


def _meetings(lowest: Floats, roughed: int, lap: int) -> list[tuple[int, int]]:
    """Where the first half may end and the second, as numbers of places from the far one; the better one first.

    Over a level floor the first half goes as far as the roughing did, `roughed`, and the second meets it with a `lap`:
    no end of the edge is fed into a wall that still stands. Down to a lowest place both go; where that lies at the far
    wall, the first stops short of the wall, and what is left there goes with the second half.
    """
    low = np.flatnonzero(lowest <= lowest.min() + LEVEL)
    least, most = (int(low[0]), int(low[-1])) if low.size > 2 else (int(lowest.argmin()),) * 2
    meet = min(max(least, roughed), most)
    found = [(meet, min(most, meet + lap))]
    return [*found, (roughed, most)] if roughed > most else found


def _ends(hollow: Hollow, edge: InsertEdge) -> tuple[int, int]:
    """Least and greatest place of the insert's far flank: where it comes down at the far and at the near wall.

    There its edge touches the mouth's end with the slope that the wall has.
    """
    far, near = hollow.mouth
    return -cell_at(-(far - edge.width + _touch(edge, hollow.leans[0]))), cell_at(near - _touch(edge, hollow.leans[1]))


def _touch(edge: InsertEdge, lean: float) -> int:
    """How far from the other flank an edge touches a wall that leans so."""
    reach = np.arange(edge.width + 1) * sin(lean) - edge.ends * cos(lean)
    return edge.width - int(np.argmax(reach[::-1] >= reach.max() - ROUNDING))


def _path(first: int, above: Floats, bounds: Bounds, meet: int, end: int) -> tuple[tuple[Move, ...], tuple[Move, ...]]:
    """The moves from the near wall to where the halves meet and from the far wall to the end of that half.

    z as in the hollow, x above its floor. `above`: radial heights of the lowest places above the floor.
    """
    error = _error(bounds)
    points = np.column_stack([first + np.arange(above.size), above])
    return _half(points[meet:][::-1], error), _half(points[: end + 1], error)


def _error(bounds: Bounds) -> float:
    """How far the path may leave the lowest places, square to it, in counts."""
    return max(2.0, PATH_SHARE * bounds.tolerance)


def _half(points: Floats, error: float) -> tuple[Move, ...]:
    """The moves of one half, with every wall within it walked down from the corner at its top."""
    parts, begin = [], 0
    for k in (np.flatnonzero(points[:-1, 1] - points[1:, 1] > WALL) + 1).tolist():
        above, (z, height) = points[k - 1, 1], points[k]
        down = np.linspace(above, height, max(2, ceil((above - height) / WALL)), endpoint=False)
        parts += [points[begin:k], np.column_stack([np.full(down.size, z), down])]
        begin = k
    line = np.concatenate([*parts, points[begin:]])
    moves = (Move(round(line[0, 0]), whole(float(line[0, 1]))), *traced(line, error))
    return (_at_quarter(moves[0], moves[1]), *moves[1:]) if len(moves) > 1 else moves


def _at_quarter(top: Move, arc: Move) -> Move:
    """Where a wall ends above a quarter of a circle: at the circle's own height, which one count of z hardly tells."""
    height = arc.x + 2 * arc.radius
    quarter = arc.radius and abs(abs(arc.z - top.z) - arc.radius) <= 1
    return top._replace(x=height) if quarter and 0 < height - top.x <= 2 * WALL else top


def _tops(path: Sequence[Move], first: int, last: int, floor: int) -> Floats:
    """Radial heights of the insert along a path at each place from first to last, infinite where it doesn't go."""
    corners = along((path[0].z, path[0].x), path[1:])
    z, x = np.array([c[0] for c in corners]), np.array([c[1] for c in corners], dtype=np.float64)
    order = slice(None, None, -1) if z[0] > z[-1] else slice(None)
    heights = np.interp(np.arange(first, last + 1), z[order], x[order], left=np.inf, right=np.inf)
    np.minimum.at(heights, z - first, x)
    return (heights + floor) / 2


def _left(places: Floats, edge: Floats) -> Floats:
    """What stands over the cells of the grid, two cells wider on either side than the insert reaches."""
    return np.pad(left_standing(places, edge), 2, constant_values=np.inf)


def _as_drawn(hollow: Hollow, edge: InsertEdge, drawn: Heights, tops: Floats, start: int, bounds: Bounds) -> bool:
    """True if what the path leaves lies within the tolerance of the profile, along z or in height, everywhere."""
    aside, up = int(SHARE * bounds.tolerance), SHARE * bounds.tolerance / 2
    least, _ = spread(drawn.low, aside)
    _, most = spread(closed(drawn.high, bounds.sharp), aside)
    left = _left(tops, edge.high)
    gone = np.minimum(_left(tops, edge.low), drawn.high) < least - up
    inside = np.arange(len(left)) + start
    inner = (inside >= hollow.mouth[0]) & (inside + 1 <= hollow.mouth[1])
    deep = left.min() <= _deep_enough(drawn, bounds)
    return bool(deep and not gone.any() and not (left[inner] > most[inner] + up).any())


def _deep_enough(drawn: Heights, bounds: Bounds) -> float:
    """The radial height that the deepest place of a path must reach."""
    return float(drawn.low.min()) + SHARE * bounds.tolerance / 2


def _stock(hollow: Hollow, start: int, cells: int, drawn: Floats) -> Floats:
    """What stands before the first cut: the lands, and over the mouth the higher of its ends."""
    at = np.arange(cells) + start
    top = max(hollow.tops)
    return np.where((at + 1 > hollow.mouth[0]) & (at < hollow.mouth[1]), np.maximum(top, drawn), drawn)


def _load(standing: Floats, tops: Sequence[Floats], edge: InsertEdge) -> float:
    """The most metal over the leading end of the edge on the way along both halves, radial counts."""
    near, far = tops
    ahead = standing[2 : 2 + near.size]
    loads = [(ahead - near)[np.isfinite(near)][:-1]]
    standing = np.minimum(standing, _left(near, edge.high))
    ahead = standing[1 + edge.width : 1 + edge.width + far.size]
    loads.append((ahead - far)[np.isfinite(far)][1:])
    return max((float(load.max()) for load in loads if load.size), default=0.0)


def _relative(
    plunges: Sequence[Plunge],
    level: int,
    ribs: bool,
    paths: tuple[Sequence[Move], Sequence[Move]],
    far: int,
    near: int,
    width: int,
) -> Contour:
    """Everything from the place at the near wall."""
    first, second = (tuple(move._replace(z=move.z - near) for move in path) for path in paths)
    cuts = tuple(Plunge(near - far - plunge.offset, plunge.rise) for plunge in plunges)
    return Contour(cuts, level, ribs, first, second, near - far, near + width)
