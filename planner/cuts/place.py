"""Like grooves onto the control's grid: whole counts for insert, plunges within a groove, and every groove's place.

A place is the count of z of the insert's far edge when it touches the near wall; the offsets of the layout lead from it
toward the chuck. The reference edge comes in at the very end (`reference`).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from extractor.distance import Spot
from extractor.limits import EPS, Aims, aims_of, common_aim
from extractor.part import Groove
from planner.cuts.contour import Contour
from planner.cuts.form import FORMS
from planner.cuts.side import Side
from planner.cuts.widen import Layout, common_count, layout
from planner.fit import Fit
from planner.increment import Increments
from planner.rows.even import Window, narrowed
from planner.rows.partition import fewest_rows
from planner.shop import Shop, Tool

Bands = tuple[tuple[float, float], ...]
"""Low and high of width and floor."""


@dataclass(frozen=True)
class Placed:
    """Like grooves in a row on the grid: numbers from the front, far edge of the first plunge at each in counts.

    `notes`: sentences on how the row came to be.
    `floor_x` is a diameter count, `width` the insert's, `layout` the plunges within one groove, `error` the greatest
    distance of a groove's centre from its aim in drawing units, `side` the side of the part. `contour`: roughing and
    finishing path of a recess that plain plunges don't make.
    """

    grooves: tuple[int, ...]
    tool: Tool
    width: int
    places: tuple[int, ...]
    layout: Layout
    floor_x: int
    error: float
    side: Side
    notes: tuple[str, ...] = ()
    contour: Contour | None = None

    @property
    def shift(self) -> int:
        """Counts between neighbouring grooves, 0 for one."""
        return self.places[0] - self.places[1] if len(self.places) > 1 else 0

    @property
    def lowest(self) -> int:
        """The far edge of the insert in the plunge nearest the chuck."""
        return self.places[-1] - self.layout.span

    def reference(self, far_edge: int) -> int:
        """Z of the reference edge when the insert's far edge is at a count."""
        return far_edge if self.tool.reference == "far" else far_edge + self.width


def place(
    grooves: Sequence[Groove], fits: Sequence[Fit], side: Side, shop: Shop, increments: Increments
) -> list[Placed]:
    """The fewest rows for like grooves, front to back, that one insert cuts in the same number of plunges."""
    tool = fits[0].tool
    aims = [aims_of(groove, shop.machine.tolerance) for groove in grooves]
    width = increments.count(tool.width)
    plunges = Layout((0,), 0) if fits[0].plunges == 1 else layout([a.width for a in aims], tool, increments)
    cut = (width + plunges.span) / increments.per_length
    spots = [
        spot_of(groove, aim, cut, width, shop, increments, groove.shape in FORMS)
        for groove, aim in zip(grooves, aims, strict=True)
    ]
    floor_x = common_floor(aims, max(f.deepest for f in fits), side, increments)
    return placed_rows(grooves, tool, spots, plunges, floor_x, side, increments)


def placed_rows(
    grooves: Sequence[Groove],
    tool: Tool,
    spots: Sequence[tuple[Window, float]],
    plunges: Layout,
    floor_x: int,
    side: Side,
    increments: Increments,
) -> list[Placed]:
    """The fewest rows of grooves whose first plunges may lie in given windows, rising toward the chuck."""
    targets = [target for _, target in spots]
    windows = narrowed([window for window, _ in spots], targets)
    width, per = increments.count(tool.width), increments.per_length
    placed = []
    for row in fewest_rows(windows, targets):
        counts = [row.start + k * row.shift for k in range(len(row.members))]
        error = max(abs(count - targets[m]) for count, m in zip(counts, row.members, strict=True))
        numbers = tuple(grooves[m].id for m in row.members)
        places = tuple(-count for count in counts)
        placed.append(Placed(numbers, tool, width, places, plunges, floor_x, error / per, side))
    return placed


def same_limits(grooves: Sequence[Groove], tolerance: float, increments: Increments) -> list[list[Groove]]:
    """Share like grooves out so that one width and one floor lie well within the limits of every groove of a group."""
    groups: list[tuple[Bands, list[Groove]]] = []
    step = increments.length(1) * (1 - EPS)
    for groove in grooves:
        own = _bands(aims_of(groove, tolerance))
        for place, (bands, members) in enumerate(groups):
            both = tuple((max(a, c), min(b, d)) for (a, b), (c, d) in zip(bands, own, strict=True))
            if all(high - low >= step for low, high in both):
                groups[place] = (both, [*members, groove])
                break
        else:
            groups.append((own, [groove]))
    return [members for _, members in groups]


def _bands(aims: Aims) -> Bands:
    """The inner limits of width and floor."""
    return tuple((one.inner.low, one.inner.high) for one in (aims.width, aims.floor))


def spot_of(
    groove: Groove, aims: Aims, cut: float, width: int, shop: Shop, increments: Increments, middle: bool = False
) -> tuple[Window, float]:
    """The window and the true place, rising toward the chuck, of the first plunge's far edge for a cut so wide.

    `middle`: an insert of the recess's own form comes down in its middle, and the walls are as drawn.
    Where the sheet names no wall, the centre may be off by the tolerance less half of what the width is off.
    """
    per, insert = increments.per_length, width / increments.per_length
    cut = groove.width if middle else cut
    lead = (cut + insert) / 2 if middle else insert
    low, target, high = _near_wall(groove, aims, cut, shop.machine.tolerance)
    # Half a count less on either side, so that no later rounding can pass the limit.
    window = (math.ceil((lead - high) * per + 0.5 - EPS), math.floor((lead - low) * per - 0.5 + EPS))
    nearest = round((lead - target) * per)
    return (window if window[0] <= nearest <= window[1] else (nearest, nearest)), (lead - target) * per


def _near_wall(groove: Groove, aims: Aims, cut: float, tolerance: float) -> tuple[float, float, float]:
    """Where the near wall of a cut so wide may lie and should: least, aim, greatest.

    A place with deviations comes before one that the sheet only names.
    """
    if not aims.spots:
        slack = max(0.0, tolerance - abs(cut - groove.width) / 2)
        aim = (groove.near + groove.far + cut) / 2
        return aim - slack, aim, aim + slack
    ahead: dict[Spot, float] = {"near": 0.0, "centre": cut / 2, "far": cut}
    spots = {spot: one for spot, one in aims.spots.items() if one.given or not aims.limited}
    moved = [one.moved(ahead[spot]) for spot, one in spots.items()]
    low, high = max(one.inner.low for one in moved), min(one.inner.high for one in moved)
    if low > high:
        low = high = (low + high) / 2
    return low, min(max(sum(one.aim for one in moved) / len(moved), low), high), high


def common_floor(aims: Sequence[Aims], deepest: float, side: Side, increments: Increments) -> int:
    """The floor's diameter count for all: the mean aim, kept within every groove's limits and the tool's reach."""
    heights = [one.floor for one in aims]
    return side.sign * common_count(heights, max(common_aim(heights), deepest), increments)
