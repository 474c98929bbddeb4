"""Where a face insert may come down first: its body is curved to pass the walls of the ring that it cuts.

A plunge into solid metal needs an outer diameter between the insert's own limits (`face_min`, `face_max`). So the first
one is at the outer wall if that lies between them, else at the inner wall, and the others follow beside it. Full
plunges with ribs between them are all into solid: they come only where the limits allow each.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from extractor.limits import EPS, Aims
from extractor.side import Side
from planner.cuts.widen import Layout, layout
from planner.increment import Increments
from planner.shop import Tool


def layout_of(
    aims: Sequence[Aims], tool: Tool, increments: Increments, side: Side, *, wide: bool = False
) -> Layout | None:
    """The plunges of like grooves, None where a face insert may begin at neither wall; `wide`: one plunge makes it."""
    widths = [one.width for one in aims]
    found = Layout((0,), 0) if wide else layout(widths, tool, increments, side.along)
    if side.axial:
        return found
    outer = max(one.near.aim for one in aims)
    ends = [_allows(tool, outer - increments.length(offset)) for offset in (found.offsets[0], found.offsets[-1])]
    if found.ribs and not (all(ends) and tool.face_max):
        found = layout(widths, tool, increments, side.along, may_rib=False)
    if ends[0]:
        return found
    return replace(found, outward=True) if ends[1] else None


def _allows(tool: Tool, outer: float) -> bool:
    """True if the insert may plunge into solid metal with its outer edge on a diameter."""
    return tool.face_min - EPS <= outer <= (tool.face_max or math.inf) + EPS
