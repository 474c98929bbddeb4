"""Where a face insert may plunge first: its body is curved to clear the walls of the ring that it cuts.

A plunge into solid metal needs an outer diameter between the insert's own limits (`face_min`, `face_max`). So the first
one is at the outer wall if that lies between them, else at the inner wall, and the others follow beside it. Full
plunges with ribs between them are all into solid: they come only where the limits allow each.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from extractor.limits import aims_of
from extractor.part import Groove
from planner.cuts.walls import near_wall
from planner.cuts.widen import Layout, layout
from planner.increment import Increments, dust
from planner.shop import Tool


def layout_of(
    grooves: Sequence[Groove], tool: Tool, increments: Increments, tolerance: float, *, wide: bool
) -> Layout | None:
    """The plunges of like grooves, None where a face insert may begin at neither wall; `wide`: one plunge makes it.

    `tolerance` is the shop's.
    """
    side, widths = grooves[0].side, [aims_of(groove, tolerance).width for groove in grooves]
    found = Layout((0,), 0) if wide else layout(widths, tool, increments, side.along)
    if side.axial:
        return found
    ends = _ends(grooves, found, tool, increments, tolerance)
    if found.ribs and not (all(ends) and tool.face_max):
        found = layout(widths, tool, increments, side.along, may_rib=False)
        ends = _ends(grooves, found, tool, increments, tolerance)
    if ends[0]:
        return found
    return replace(found, outward=True) if ends[1] else None


def _ends(
    grooves: Sequence[Groove], found: Layout, tool: Tool, increments: Increments, tolerance: float
) -> tuple[bool, bool]:
    """Whether the insert may begin with the outermost plunge of a layout, and with the innermost."""
    cut = found.span / increments.per_length + grooves[0].side.along * tool.width
    outer = [near_wall(groove, aims_of(groove, tolerance), cut, tolerance)[1] for groove in grooves]
    first, last = (
        all(_allows(tool, wall - increments.length(offset), dust(increments.units)) for wall in outer)
        for offset in (found.offsets[0], found.offsets[-1])
    )
    return first, last


def _allows(tool: Tool, outer: float, off: float) -> bool:
    """True if the insert may plunge into solid metal with its outer edge on a diameter, give or take `off`."""
    return tool.face_min - off <= outer <= (tool.face_max or math.inf) + off
