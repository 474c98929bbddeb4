"""Heights over z cell by cell, a cell for every count of z: what stands, how low an insert may go, what it leaves.

Heights are radial, in counts, on the part's side turned so that the tool comes from above (`planner.cuts.side`). Cell k
lies between k and k + 1 counts from the start of its field. A place for the insert is never lower than any point of the
line permits, give or take half a count of z where the line has a corner between two counts.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, floor, sqrt
from typing import NamedTuple

import numpy as np

from extractor.sheet import Floats
from extractor.values import dataclass
from planner.cuts.form import edge_height
from planner.increment import Increments
from planner.shop import Tool

# A place this near to a count is at the count: reading a drawing leaves errors in the last digits.
NEAR = 0.01
# So many cells of an edge tell roughly how low it gets.
SAMPLES = 33
# A diameter this little over a whole count is that count: less than a tenth of it is never worth a count more.
SLACK = 0.1


@dataclass(frozen=True, eq=False)
class InsertEdge:
    """The lower side of an insert, cell by cell from its far flank: `low` and `high` within each, the lowest 0.

    `low`, `high`: float (n,), heights in counts, n the width in counts; `ends`: float (n + 1,), between the cells.
    """

    ends: Floats
    low: Floats
    high: Floats

    @property
    def width(self) -> int:
        """The insert's width."""
        return len(self.low)


@lru_cache(maxsize=64)
def edge_of(tool: Tool, increments: Increments) -> InsertEdge:
    """The cutting edge of a tool's insert: with its corners, its nose, or round."""
    width, per = increments.count(tool.width), increments.per_length
    ends = np.array([_height(tool, k / per) * per for k in range(width + 1)])
    low, high = np.minimum(ends[:-1], ends[1:]), np.maximum(ends[:-1], ends[1:])
    low[width // 2 - (1 - width % 2) : width // 2 + 1] = 0.0
    return InsertEdge(ends, low, high)


def _height(tool: Tool, along: float) -> float:
    """Height of an insert's edge so far from its far flank, in drawing units."""
    if tool.edge != "square":
        return edge_height(tool, along - tool.width / 2)
    radius = min(tool.corner_radius, tool.width / 2)
    inward = max(0.0, radius - min(along, tool.width - along))
    return radius - sqrt(max(0.0, radius**2 - inward**2))


class Heights(NamedTuple):
    """Heights of a line cell by cell: at either end of each, and the least and the greatest within; float (n,)."""

    left: Floats
    right: Floats
    low: Floats
    high: Floats


def raster(line: Sequence[tuple[float, float]], start: int, cells: int) -> Heights:
    """The heights of a line of (z, height) points in counts, z never falling."""
    z, heights = (np.array(values) for values in zip(*line, strict=True))
    at = start + np.arange(cells)
    left, right = np.interp(at + NEAR, z, heights), np.interp(at + 1 - NEAR, z, heights)
    low, high = np.minimum(left, right), np.maximum(left, right)
    cell = np.floor(z).astype(np.int64) - start
    inner = (cell >= 0) & (cell < cells) & (z - np.floor(z) > NEAR) & (np.ceil(z) - z > NEAR)
    np.maximum.at(high, cell[inner], heights[inner])
    np.minimum.at(low, cell[inner], heights[inner])
    return Heights(left, right, low, high)


def sliding_max(values: Floats, count: int) -> Floats:
    """Greatest of every `count` neighbours; `count` - 1 values fewer."""
    done, out = 1, values
    while 2 * done <= count:
        out = np.maximum(out[:-done], out[done:])
        done *= 2
    size, rest = len(values) - count + 1, count - done
    return np.maximum(out[:size], out[rest : rest + size])


def sliding_min(values: Floats, count: int) -> Floats:
    """Least of every `count` neighbours; `count` - 1 values fewer."""
    return -sliding_max(-values, count)


def permitted(drawn: Heights, edge: InsertEdge) -> Floats:
    """The lowest place that a line permits an insert, for every place of its far flank on the grid.

    Line and edge are compared at both ends of every cell, so a smooth touch is missed by far less than a count.
    """
    return np.maximum(lowest_places(drawn.left, edge.ends[:-1]), lowest_places(drawn.right, edge.ends[1:]))


def least_place(drawn: Heights, edge: InsertEdge) -> float:
    """A height that no permitted place lies below: what some cells of the edge would permit by themselves."""
    size = len(drawn.left) - edge.width + 1
    some = np.unique(np.linspace(0, edge.width - 1, SAMPLES).astype(np.int64)).tolist()
    return float(np.max([drawn.left[k : k + size] - edge.ends[k] for k in some], axis=0).min())


def lowest_places(standing: Floats, edge: Floats) -> Floats:
    """How low an insert may go at each place of its far flank: the greatest of what stands, less the edge above it."""
    size = len(standing) - len(edge) + 1
    found = np.full(size, -np.inf)
    for first, height, count in _level_runs(edge):
        if count == 1:
            np.maximum(found, standing[first : first + size] - height, out=found)
            continue
        under = sliding_max(standing[first : first + size + count - 1], count)
        np.maximum(found, under - height, out=found)
    return found


def left_standing(places: Floats, edge: Floats) -> Floats:
    """What an insert leaves over each cell that was at a height at each place; infinite where it never was."""
    found = np.full(len(places) + len(edge) - 1, np.inf)
    for first, height, count in _level_runs(edge):
        if count == 1:
            under = found[first : first + len(places)]
            np.minimum(under, places + height, out=under)
            continue
        padded = np.concatenate([np.full(count - 1, np.inf), places, np.full(count - 1, np.inf)])
        over = sliding_min(padded, count) + height
        reach = found[first : first + len(over)]
        np.minimum(reach, over, out=reach)
    return found


def _level_runs(edge: Floats) -> list[tuple[int, float, int]]:
    """The cells of an edge as first, height and number of neighbours of one height."""
    firsts = np.concatenate([[0], np.flatnonzero(edge[1:] != edge[:-1]) + 1])
    counts = np.diff(np.append(firsts, len(edge)))
    return list(zip(firsts.tolist(), edge[firsts].tolist(), counts.tolist(), strict=True))


def spread(values: Floats, reach: int) -> tuple[Floats, Floats]:
    """Least and greatest of every value and its neighbours up to `reach` away on either side."""
    if not reach:
        return values, values
    padded = np.pad(values, reach, mode="edge")
    return sliding_min(padded, 2 * reach + 1), sliding_max(padded, 2 * reach + 1)


def closed(standing: Floats, radius: float) -> Floats:
    """The heights with every hollow corner filled to a radius in counts: what a corner of that radius may leave."""
    half = ceil(radius)
    if radius < 1:
        return standing
    aside = np.arange(-half, half) + 0.5
    edge = radius - np.sqrt(np.maximum(0.0, radius**2 - aside**2))
    padded = np.pad(standing, 2 * half, mode="edge")
    filled = left_standing(lowest_places(padded, edge), edge)
    return filled[2 * half : 2 * half + len(standing)]


def whole(height: float) -> int:
    """The diameter count next above a radial height in counts, give or take what reading leaves."""
    return ceil(2 * height - SLACK)


def cell_at(place: float) -> int:
    """The count at or below a place."""
    return floor(place + NEAR)
