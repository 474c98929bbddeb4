"""Grooves wider than the insert: where the plunges go, in what order, and what is left for a finishing pass.

Plunges overlap so that their flat parts meet. Where it takes no more plunges, full ones come first with ribs
between them, then the ribs: so both corners of the insert carry the same load. A rib is never thinner than a quarter of
the insert, because a thin one bends away (common practice: ribs 0.6 to 0.8 of the width). Everything in counts along u.
"""

import math
from collections.abc import Sequence

from extractor.limits import EPS, Limits, common_aim
from extractor.values import dataclass
from planner.increment import Increments
from planner.shop import Tool

# Greatest step between two plunges in a row as a share of the insert's width (common practice: 70 to 85 %).
GREATEST_STEP = 0.8
# Least overlap of the flat parts of two neighbouring plunges, as a share of the width.
LEAST_LAP = 0.02
# Least lap of the two halves of a finishing pass over the floor, as a share of the width (common practice, no source).
FINISH_LAP = 0.1
# Least distance of neighbours, as a share of the width, that leaves a rib a quarter of the width thick.
RIB_STEP = 0.625


@dataclass(frozen=True)
class Layout:
    """Plunges within one groove: far-edge offsets from that of the insert at the near wall, positive toward lower u.

    `span`: the far wall's offset. `gap`: distance of even neighbours, 0 where they are not even. `ribs`: full plunges
    first, then the ribs. `finish`: metal left on walls and floor, as a length. `outward`: the last plunge comes first.
    """

    offsets: tuple[int, ...]
    span: int
    gap: int = 0
    ribs: bool = False
    finish: int = 0
    outward: bool = False

    @property
    def order(self) -> tuple[int, ...]:
        """The offsets in the order of cutting."""
        if self.ribs:
            return self.offsets[::2] + self.offsets[1::2]
        return self.offsets[::-1] if self.outward else self.offsets


def finish_lap(tool: Tool, increments: Increments) -> int:
    """Counts by which the halves of a finishing pass lap over the floor: at least both corners of the insert."""
    return increments.count(max(2 * tool.corner_radius, FINISH_LAP * tool.width))


def gaps_for(span: float, tool: Tool, ribs: bool = True) -> tuple[int, bool]:
    """How many gaps between plunges a span takes, and whether full plunges with ribs do it; 0 where nothing can.

    `ribs`: whether full plunges with ribs may be taken at all.

    >>> from planner.settings.builtin import built_in_tools
    >>> gaps_for(5.0, built_in_tools("mm")[11])
    (2, True)
    """
    if span <= EPS:
        return 1, False
    flat = (1 - LEAST_LAP) * tool.width - 2 * tool.corner_radius
    step = min(GREATEST_STEP * tool.width, flat)
    if step <= EPS:
        return 0, False
    plain, ribbed = math.ceil((span - EPS) / step), 2 * math.ceil((span - EPS) / (2 * flat))
    if ribs and ribbed <= plain and span / ribbed >= RIB_STEP * tool.width:
        return ribbed, True
    return max(1, plain), False


def layout(
    widths: Sequence[Limits], tool: Tool, increments: Increments, along: int = 1, may_rib: bool = True
) -> Layout:
    """The layout for grooves that share one width; `widths` are the limits of each, along u.

    `along`: how often a length counts along u. Even steps are for a cycle, which there is along Z alone.
    """
    per, width = increments.per_length, along * tool.width
    spans = [one.moved(-width) for one in widths]
    span = common_count(spans, common_aim(spans), increments)
    finish = increments.count(tool.finish)
    if finish:
        return _with_finish(span, finish, tool, increments, along, may_rib)
    gaps, ribs = gaps_for(increments.length(span) / along, tool, may_rib)
    most_wide, least_wide = min(one.high for one in spans) * per, max(one.low for one in spans) * per
    room = max(0.0, min(most_wide - span, span - least_wide) / 2)
    even = round(span / gaps)
    if even and abs(even * gaps - span) <= (room if along == 1 else 0):
        return Layout(tuple(range(0, even * gaps + 1, even)), even * gaps, even, ribs)
    return Layout(tuple(round(i * span / gaps) for i in range(gaps + 1)), span, 0, ribs)


def _with_finish(span: int, finish: int, tool: Tool, increments: Increments, along: int, may_rib: bool) -> Layout:
    """Plunges that keep off both walls by the allowance or a little more, evenly."""
    off = along * finish
    rough = span - 2 * off
    if rough <= off:
        # One plunge in the middle leaves half as much again at most: a second one would hardly cut.
        return Layout((span // 2,), span, 0, False, finish)
    gaps, ribs = gaps_for(increments.length(rough) / along, tool, may_rib)
    even = rough // gaps
    first = off + (rough - even * gaps) // 2
    if not even:
        return Layout((span // 2,), span, 0, False, finish)
    return Layout(tuple(range(first, first + even * gaps + 1, even)), span, even, ribs, finish)


def common_count(limits: Sequence[Limits], aim: float, increments: Increments) -> int:
    """The aim's count, kept an increment inside all limits where there is room; the nearest count if nothing fits."""
    inside = increments.within(max(one.low for one in limits), min(one.high for one in limits))
    nearest = increments.count(aim)
    if not inside:
        return nearest
    spare = min(1, (len(inside) - 1) // 2)
    return min(max(nearest, inside[0] + spare), inside[-1] - spare)
