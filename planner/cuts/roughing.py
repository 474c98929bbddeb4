"""Plunges that take most of the metal out of a recess before a finishing path: level ones, then steps up its slopes.

Each goes as deep as the finishing path comes within the allowance of its place, square by square. The level ones lie
side by side over the floor, full ones first with ribs between where that takes no more of them; then steps follow up
either slope or corner as long as more than a share of the insert's width would be left for the finishing path.
"""

from math import ceil
from typing import NamedTuple

import numpy as np

from extractor.sheet import Floats
from extractor.values import dataclass
from planner.cuts.field import spread, whole
from planner.cuts.widen import gaps_for
from planner.increment import Increments
from planner.shop import Tool

# A level stretch no wider than this share of the insert's width takes one plunge in its middle.
LITTLE = 0.1


class Plunge(NamedTuple):
    """A plunge: offset of its far edge and height above the floor on the diameter, in counts."""

    offset: int
    rise: int


@dataclass(frozen=True)
class Rough:
    """Plunges in the order of cutting, offsets from the place at the far wall toward the front.

    The first `level` of them are level and even, `ribs` if full ones come first.
    """

    plunges: tuple[Plunge, ...]
    level: int
    ribs: bool

    @property
    def farthest(self) -> int:
        """The level plunge nearest to the far wall."""
        return min(plunge.offset for plunge in self.plunges[: self.level])

    def places(self, size: int, floor: int) -> Floats:
        """Radial heights of the insert at each place, infinite where no plunge is."""
        heights = np.full(size, np.inf)
        for offset, rise in self.plunges:
            heights[offset] = (floor + rise) / 2
        return heights


def rough_plunges(
    lowest: Floats, stock: Floats, tool: Tool, increments: Increments, floor: int, allowance: int, share: float
) -> Rough:
    """The plunges over a path of lowest places (radial counts); `stock` stands over it from two cells before it.

    `floor` on the diameter; `share` of the insert's width may be left for the path at either wall.
    """
    aside = min(allowance, (lowest.size - 1) // 4)
    safe = spread(lowest, aside)[1] + allowance
    first, last = aside, lowest.size - 1 - aside
    low = first + np.flatnonzero(safe[first : last + 1] <= safe[first : last + 1].min() + 0.5)
    offsets, ribs = _level(int(low[0]), int(low[-1]), tool, increments)
    width = increments.count(tool.width)
    most = max(1, int(share * width))
    steps = [*_steps(max(offsets), lowest.size - 1, most), *_steps(min(offsets), 0, most)]
    steps = [min(max(step, first), last) for step in steps]
    outer = [k for k in steps if stock[k + 2 : k + 2 + width].max() > safe[k] + allowance]
    level = max(whole(float(safe[k])) for k in offsets) - floor
    plunges = [Plunge(k, level) for k in offsets] + [Plunge(k, whole(float(safe[k])) - floor) for k in outer]
    return Rough(tuple(plunges), len(offsets), ribs)


def _level(low: int, high: int, tool: Tool, increments: Increments) -> tuple[list[int], bool]:
    """Even plunges over a level stretch from its near end, in the order of cutting, and whether ribs come last."""
    width = increments.count(tool.width)
    if high - low <= LITTLE * width:
        return [(low + high) // 2], False
    gaps, ribs = gaps_for(increments.length(high - low), tool)
    gaps = gaps or ceil(2 * (high - low) / width)
    gap = (high - low) // gaps
    if not gap:
        return [(low + high) // 2], False
    first = high - (high - low - gap * gaps) // 2
    offsets = [first - k * gap for k in range(gaps + 1)]
    return (offsets[::2] + offsets[1::2] if ribs else offsets), ribs


def _steps(start: int, wall: int, most: int) -> list[int]:
    """Even steps from a plunge toward a wall, none where no more than `most` is left there."""
    count = ceil(abs(wall - start) / most) - 1
    return [start + round((wall - start) * k / (count + 1)) for k in range(1, count + 1)]
