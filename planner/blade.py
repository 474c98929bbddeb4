"""How far the blade under an outside insert bends: as a figure where the shop describes the blade, and as a limit.

A blade is taken as a plate fixed where it leaves its holder and loaded at its end. The cutting force bends it down by
4 F L^3 / (E t h^3), a force on one side bends it aside by 4 F L^3 / (E h t^3), L how far it stands out, h its height, t
its thickness (a beam of rectangular section, I = t h^3 / 12; any text on the strength of materials).
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from extractor.finding import Finding, Level
from extractor.limits import EPS, aims_of
from extractor.part import Groove, Units
from extractor.side import OUTSIDE
from planner.codes import PlanCode
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cutting import MM_PER_UNIT
from planner.load import tool_force
from planner.shop import Shop, Tool
from planner.words import numbers, size

# Height of a blade that the shop file doesn't describe (common practice: 26 and 32 mm, the lower taken).
USUAL_HEIGHT: dict[Units, float] = {"mm": 26.0, "in": 1.0}
# Thickness of a blade over the width of its insert, so that it clears the walls (common practice, no source).
THICKNESS = 0.8
# Share of the cutting force that pushes a blade aside where metal stands on one side only (common practice, no source).
ASIDE = 0.1
# How far below the centre an edge may come (tool catalogues: centre height within 0.1 mm or 0.004 in).
BELOW_CENTRE: dict[Units, float] = {"mm": 0.1, "in": 0.004}
# Young's modulus of steel in N/mm2 (handbook value).
STEEL = 210e3


class Give(NamedTuple):
    """How far a blade gives at a full plunge, down and, loaded on one side, aside; in drawing units."""

    down: float
    aside: float


def plate(force: float, reach: float, height: float, thickness: float) -> float:
    """How far a steel plate gives at its end along its height, in mm; force in N, lengths in mm.

    >>> round(1000 * plate(500, 30, 26, 2.4), 1), round(1000 * plate(50, 30, 2.4, 26), 1)
    (6.1, 71.5)
    """
    return 4 * force * reach**3 / (STEEL * thickness * height**3)


def blade_gives(tool: Tool, shop: Shop) -> Give:
    """What the blade of an outside insert gives; it stands out as far as the insert reaches."""
    scale, force = MM_PER_UNIT[shop.units], tool_force(tool, shop)
    reach, height = tool.max_depth * scale, height_of(tool, shop.units) * scale
    thick = THICKNESS * tool.width * scale
    return Give(plate(force, reach, height, thick) / scale, plate(ASIDE * force, reach, thick, height) / scale)


def height_of(tool: Tool, units: Units) -> float:
    """The blade's height as the shop file has it, else the usual one."""
    return tool.blade_height or USUAL_HEIGHT[units]


def one_sided(row: Placed) -> bool:
    """True if some plunge of a row has metal on one side only: neither the first of its groove nor a rib."""
    return row.contour is None and not row.layout.ribs and len(row.layout.offsets) > 1


def allowed_on_walls(groove: Groove, setting: Setting) -> float:
    """How far a blade may give aside before a wall may be out: a quarter of the width's room."""
    width = aims_of(groove, setting.shop.machine.tolerance).width
    return (width.high - width.low) / groove.side.along / 4


def stiff(tool: Tool, shop: Shop) -> bool:
    """True if an insert stays near enough to centre height; its reach counts only where the shop file gives it."""
    reach_said = f"{tool.name} max_depth" not in shop.unsaid
    return tool.side != OUTSIDE or not reach_said or blade_gives(tool, shop).down <= BELOW_CENTRE[shop.units] + EPS


def blade_reasons(row: Placed, setting: Setting) -> Iterator[str]:
    """What the blade gives, where the shop file describes it."""
    tool, units = row.tool, setting.part.units
    if row.side != OUTSIDE or not tool.blade_height:
        return
    give = blade_gives(tool, setting.shop)
    more = f", and {size(give.aside, units)} aside where metal stands on one side only" if one_sided(row) else ""
    yield f"Its blade gives about {size(give.down, units)} down{more}."


def blade_findings(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """The blade that bends most for what is allowed, if too much; aside only if the shop file describes it."""
    units, worst = setting.part.units, dict[float, tuple[Placed, str]]()
    for row in (row for row in rows if row.side == OUTSIDE):
        give, tool = blade_gives(row.tool, setting.shop), row.tool
        if not stiff(tool, setting.shop):
            told = (
                f"{size(give.down, units)} below the centre, and {size(BELOW_CENTRE[units], units)} is the usual limit"
            )
            worst.setdefault(give.down / BELOW_CENTRE[units], (row, told))
        least = min(allowed_on_walls(setting.part.grooves[number - 1], setting) for number in row.grooves)
        if tool.blade_height and one_sided(row) and give.aside > least + EPS:
            told = f"{size(give.aside, units)} aside in its second plunge, where its wall allows {size(least, units)}"
            worst.setdefault(give.aside / max(least, EPS), (row, told))
    if worst:
        row, told = worst[max(worst)]
        assumed = "" if row.tool.blade_height else ", taken as high as most are"
        height = size(height_of(row.tool, units), units)
        message = (
            f"{numbers(row.grooves)}: the blade of {row.tool.name}, {height} high{assumed}, gives about {told}: take a "
            "wider insert or one that stands out less, or lower the feed."
        )
        yield Finding(Level.CAUTION, PlanCode.BLADE_BENDS, message, groove=row.grooves[0])
