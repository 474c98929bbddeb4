"""Like grooves onto the control's grid: whole counts for insert, plunges within a groove, and every groove's place.

A place is the count along u of the insert's far edge when it touches the near wall; the offsets of the layout lead from
it toward lower u. Axes and the reference edge come in at the very end (`rapid`, `cut`).
"""

import math
from collections.abc import Sequence
from functools import cached_property
from typing import Any

from extractor.limits import EPS, Aims, aims_of, common_aim
from extractor.part import Groove
from extractor.side import Side
from extractor.values import dataclass
from planner.cuts.contour import Contour
from planner.cuts.form import FORMS
from planner.cuts.ground import Ground
from planner.cuts.sweep import layout_of
from planner.cuts.walls import near_wall
from planner.cuts.widen import Layout, common_count
from planner.fit import Fit
from planner.increment import Increments
from planner.rows.even import Window, narrowed
from planner.rows.partition import fewest_rows
from planner.shop import Shop, Tool
from planner.steps import Cut, Rapid

Bands = tuple[tuple[float, float], ...]
"""Low and high of width and floor."""


@dataclass(frozen=True)
class Placed:
    """Like grooves in a row on the grid: numbers from the front, far edge of the first plunge at each in counts.

    `notes`: sentences on how the row came to be.
    `floor` is a height and `width` the insert's along u, both in counts of the side's frame, `layout` the plunges
    within one groove, `error` the greatest distance of a groove's centre from its aim in drawing units, `ground` the
    side of the part. `contour`: roughing and finishing path of a recess that plain plunges don't make. `even`: the
    evenly pitched rows that were joined to this one.
    """

    grooves: tuple[int, ...]
    tool: Tool
    width: int
    places: tuple[int, ...]
    layout: Layout
    floor: int
    error: float
    ground: Ground
    notes: tuple[str, ...] = ()
    contour: Contour | None = None
    even: tuple["Placed", ...] = ()

    @cached_property
    def worked_out(self) -> dict[object, Any]:
        """What has been worked out of the row so far, which is asked for again and again; no part of its value."""
        return {}

    @property
    def shift(self) -> int:
        """Counts between neighbouring grooves, 0 for one, and where they lie at several pitches."""
        return self.places[0] - self.places[1] if len(self.places) > 1 and not self.even else 0

    @property
    def lowest(self) -> int:
        """The far edge of the insert in the plunge at the lowest u."""
        return self.places[-1] - self.layout.span

    @property
    def floor_across(self) -> int:
        """The floor's diameter in counts, of a face groove its inner wall's."""
        return self.side.sign * self.floor if self.side.axial else self.lowest

    @property
    def side(self) -> Side:
        """The side that the row is cut into."""
        return self.ground.side

    def reference(self, far_edge: int) -> int:
        """The place along u of the reference edge when the insert's far edge is at a count."""
        return far_edge if self.tool.reference == "far" else far_edge + self.width

    def rapid(self, far_edge: int | None = None, height: int | None = None) -> Rapid:
        """A rapid move of the insert's far edge to a count along u, of its edge to a height, or both."""
        x, z = self._machine(far_edge, height)
        return Rapid(x=x, z=z)

    def cut(self, feed: int, far_edge: int | None = None, height: int | None = None) -> Cut:
        """A cut of the insert's far edge to a count along u, of its edge to a height, or both."""
        x, z = self._machine(far_edge, height)
        return Cut(feed, x=x, z=z)

    def _machine(self, far_edge: int | None, height: int | None) -> tuple[int | None, int | None]:
        """X and Z of a place, None for an axis that stays."""
        u = None if far_edge is None else self.reference(far_edge)
        if not self.side.axial:
            return u, height
        return None if height is None else self.side.sign * height, u


def place(
    grooves: Sequence[Groove], fits: Sequence[Fit], ground: Ground, shop: Shop, increments: Increments
) -> list[Placed]:
    """The fewest rows for like grooves, front to back, that one insert cuts in the same number of plunges."""
    tool = fits[0].tool
    aims = [aims_of(groove, shop.machine.tolerance) for groove in grooves]
    plunges = layout_of(grooves, tool, increments, shop.machine.tolerance, wide=fits[0].plunges == 1)
    if plunges is None:
        raise ValueError(f"{tool.name} may begin at no wall of groove {grooves[0].id}")
    cut = ground.side.along * tool.width + increments.length(plunges.span)
    spots = [
        spot_of(groove, aim, cut, tool, shop, groove.shape in FORMS) for groove, aim in zip(grooves, aims, strict=True)
    ]
    floor = common_floor(aims, max(f.deepest for f in fits), increments)
    return placed_rows(grooves, tool, spots, plunges, floor, ground, increments)


def placed_rows(
    grooves: Sequence[Groove],
    tool: Tool,
    spots: Sequence[tuple[Window, float]],
    plunges: Layout,
    floor: int,
    ground: Ground,
    increments: Increments,
) -> list[Placed]:
    """The fewest rows of grooves whose first plunges may lie in given windows, rising toward the chuck."""
    targets = [target for _, target in spots]
    windows = narrowed([window for window, _ in spots], targets)
    width, per = ground.side.along * increments.count(tool.width), increments.per_length
    placed = []
    for row in fewest_rows(windows, targets):
        counts = [row.start + k * row.shift for k in range(len(row.members))]
        error = max(abs(count - targets[m]) for count, m in zip(counts, row.members, strict=True))
        numbers = tuple(grooves[m].id for m in row.members)
        places = tuple(-count for count in counts)
        placed.append(Placed(numbers, tool, width, places, plunges, floor, error / per, ground))
    return placed


def same_limits(grooves: Sequence[Groove], tolerance: float, increments: Increments) -> list[list[Groove]]:
    """Divide like grooves into groups in which one width and one floor lie well within the limits of every groove."""
    groups: list[tuple[Bands, list[Groove]]] = []
    step = increments.length(1) * (1 - EPS)
    for groove in grooves:
        aims = aims_of(groove, tolerance)
        own = tuple((one.inner.low, one.inner.high) for one in (aims.width, aims.floor))
        for place, (bands, members) in enumerate(groups):
            both = tuple((max(a, c), min(b, d)) for (a, b), (c, d) in zip(bands, own, strict=True))
            if all(high - low >= step for low, high in both):
                groups[place] = both, members
                members.append(groove)
                break
        else:
            groups.append((own, [groove]))
    return [members for _, members in groups]


def spot_of(
    groove: Groove, aims: Aims, cut: float, tool: Tool, shop: Shop, middle: bool = False
) -> tuple[Window, float]:
    """The window and the true place, rising toward the chuck, of the first plunge's far edge for a cut of this width.

    `middle`: an insert of the recess's own form comes down in its middle, and the walls are as drawn.
    Where the sheet names no wall, the centre may be off by the tolerance less half the error of the width.
    """
    increments, insert = shop.increments, groove.side.along * tool.width
    per = increments.per_length
    cut = groove.width if middle else cut
    # The place of a far edge that the reference edge tells is as far from it as the whole counts of the width.
    counted = 0.0 if tool.reference == "far" else groove.side.along * increments.dropped(tool.width)
    lead = ((cut + insert) / 2 if middle else insert) - counted
    low, target, high = near_wall(groove, aims, cut, shop.machine.tolerance)
    # Half a count less on either side, so that no later rounding can pass the limit.
    window = (math.ceil((lead - high) * per + 0.5 - EPS), math.floor((lead - low) * per - 0.5 + EPS))
    nearest = round((lead - target) * per)
    return (window if window[0] <= nearest <= window[1] else (nearest, nearest)), (lead - target) * per


def common_floor(aims: Sequence[Aims], deepest: float, increments: Increments) -> int:
    """The floor's height in counts for all: kept within every groove's limits and the tool's reach."""
    heights = [one.floor for one in aims]
    return common_count(heights, max(common_aim(heights), deepest), increments)
