"""How deep an insert must reach, and how far its holder may stand out beside a groove: figures and sentences."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from extractor.limits import EPS, aims_of
from extractor.part import Groove, Part
from planner.cuts.form import FORMS
from planner.cuts.ground import JUST_OFF, ground_of
from planner.fit import bore_needed, highest_beside, holder_beside
from planner.increment import dust
from planner.shop import Shop, Tool
from planner.words import size

# Halvings of a stretch of some millimetres until it is far below a control's step.
HALVINGS = 40


def reach_needed(groove: Groove, tool: Tool, part: Part, shop: Shop) -> float:
    """The reach that a tool like this needs, to the step above: from the highest land that its holder meets.

    Down to the least depth that the drawing allows, or to the floor as drawn. What lies behind a groove in a bore that
    the bar can't go into asks for another holder, not for reach.
    """
    floor = aims_of(groove, shop.machine.tolerance).floor
    least = floor.high if floor.given and groove.shape not in FORMS else groove.floor
    per = shop.increments.per_length
    return ceil((_land(groove, tool, part, shop) - least) / groove.side.up * per - EPS * per) / per


def too_deep(groove: Groove, tools: Sequence[Tool], part: Part, shop: Shop) -> str:
    """That no insert reaches the floor, or that the holder of the one that does meets what lies behind."""
    tool, units = max(tools, key=lambda one: one.max_depth), part.units
    depth, insert = reach_needed(groove, tool, part, shop), f"({tool.name}, {size(tool.width, units)} wide)"
    if depth <= tool.max_depth + dust(part.units):
        stands = "is taken to stand" if tool.holder_far is None else "stands"
        room, out = room_behind(groove, tool, part), holder_beside(tool.holder_far, units)
        return (
            f"Groove {groove.id} ends {size(room, units)} before the bottom or a step of the bore, and the holder of "
            f"the insert that would fit {insert} {stands} out {size(out, units)} beyond it there"
        )
    least = " at least" if aims_of(groove, 0.0).floor.given and groove.shape not in FORMS else ""
    beside = (
        "" if _land(groove, tool, part, shop) <= groove.mouth + EPS else ", measured from the higher land beside it,"
    )
    return (
        f"Groove {groove.id} is {size(depth, units)} deep{least}{beside} and the insert that would fit {insert} "
        f"reaches {size(tool.max_depth, units)}"
    )


def thinner_holder(groove: Groove, tools: Sequence[Tool], part: Part, shop: Shop) -> str | None:
    """What it takes where only the holder is in the way at the end of a bore; None elsewhere."""
    tool = max(tools, key=lambda one: one.max_depth)
    if reach_needed(groove, tool, part, shop) > tool.max_depth + dust(part.units):
        return None
    room = room_behind(groove, tool, part)
    if room < 1 / shop.increments.per_length:
        return "no holder has room there: program it by hand"
    return f"one that stands out less than {size(room, part.units)} on the chuck side (holder_far) is needed"


def assumed_holder(groove: Groove, tools: Sequence[Tool], part: Part, shop: Shop) -> str:
    """The keys to give where a holder meets a higher land only as far as it is taken to stand out; else nothing."""
    tool = max(tools, key=lambda one: one.max_depth)
    flush = replace(tool, holder_near=tool.holder_near or 0.0, holder_far=tool.holder_far or 0.0)
    land = _land(groove, flush, part, shop)
    sides = (("holder_near", replace(flush, holder_near=None)), ("holder_far", replace(flush, holder_far=None)))
    given = {"holder_near": tool.holder_near, "holder_far": tool.holder_far}
    keys = [key for key, out in sides if given[key] is None and _land(groove, out, part, shop) > land + EPS]
    if not keys:
        return ""
    out = size(holder_beside(None, part.units), part.units)
    return (
        f"give {' and '.join(keys)} in the shop file if the holder stands out less than the {out} assumed there, else "
    )


def room_behind(groove: Groove, tool: Tool, part: Part) -> float:
    """How far a holder may stand out behind a groove until the land there rises above what the tool reaches over."""
    ground, limit = ground_of(part, groove), groove.floor + groove.side.up * tool.max_depth
    low, high = 0.0, groove.side.along * holder_beside(tool.holder_far, part.units)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if ground.highest(groove.far - middle, groove.near) > limit else (middle, high)
    return high / groove.side.along


def _land(groove: Groove, tool: Tool, part: Part, shop: Shop) -> float:
    """The highest land that the holder meets, but for one behind a groove in a bore that the bar can't go into."""
    highest = highest_beside(groove, tool, part)
    if not groove.side.hollow or -highest >= bore_needed(tool, shop):
        return highest
    return highest_beside(replace(groove, z_far=groove.z_far + JUST_OFF), replace(tool, holder_far=0.0), part)
