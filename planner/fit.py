"""Which insert cuts which groove, and in how many plunges; or what stands in the way, and which insert would be needed.

An insert within the limits of the groove's width needs one plunge. A narrower one takes overlapping
plunges whose ends meet both walls; two neighbours overlap by at least both corner radii, so that the floor comes out
flat. The reach is measured from the highest land that the holder would meet.
"""

from extractor.limits import EPS, Aims, aims_of, corner_limits
from extractor.part import Groove, Part, Units
from extractor.values import dataclass
from planner.counts import missed
from planner.cuts.form import FORMS, makes
from planner.cuts.ground import ground_of
from planner.cuts.sweep import layout_of
from planner.cuts.widen import gaps_for
from planner.increment import dust
from planner.shop import Shop, Tool

# A holder whose body is not described is taken to stand out so far beyond its insert on either side.
UNKNOWN_HOLDER: dict[Units, float] = {"mm": 2.0, "in": 0.08}
PROGRAMMED = ("rectangular", "relief", *FORMS)


@dataclass(frozen=True)
class Fit:
    """An insert that cuts a groove: how many plunges, and the lowest floor (a height) that its reach allows there.

    `corner_off`: how far its corner radius is from the one drawn, or from the shop's usual one where none is drawn.
    `path`: cut by roughing and a finishing path; `plunges` then counts the moves of that too.
    """

    tool: Tool
    plunges: int
    deepest: float
    corner_off: float = 0.0
    path: bool = False


@dataclass(frozen=True)
class Misfit:
    """What keeps an insert from cutting a groove: "kind", "form", "width", "reach", "corner", "bore", or as follows.

    "slope": a slope too flat; "round": other corners under a slope; "load": too much metal from the side; "count": no
    step of the control lies between the limits of the width.
    """

    tool: Tool
    reason: str


def fit(
    groove: Groove, tool: Tool, part: Part, shop: Shop, aims: Aims | None = None, *, to_limits: bool = False
) -> Fit | Misfit:
    """Whether and how one insert cuts one groove; `aims` are the groove's, for a caller who tries many inserts.

    `to_limits`: the insert may be as wide as the groove's limits allow, where no other does.
    """
    if tool.where != groove.where or tool.edge != FORMS.get(groove.shape, "square"):
        return Misfit(tool, "kind")
    if groove.shape in FORMS:
        return _fit_form(groove, tool, part, shop)
    aims, side = aims or aims_of(groove, shop.machine.tolerance), groove.side
    wide = as_wide(tool, groove, aims, shop, to_limits=to_limits)
    if side.along * tool.width > aims.width.aim and not wide:
        return Misfit(tool, "width")
    if tool.corner_radius > greatest_corner(groove, shop) + dust(part.units):
        return Misfit(tool, "corner")
    if side.hollow and bore_needed(tool, shop) > bore_at(groove, part) + dust(part.units):
        return Misfit(tool, "bore")
    deepest = highest_beside(groove, tool, part) - side.up * tool.max_depth
    if deepest > aims.floor.high + dust(part.units):
        return Misfit(tool, "reach")
    if not wide and missed(aims.width.moved(-side.along * tool.width), shop.increments):
        return Misfit(tool, "count")
    gaps, _ = (0, False) if wide else gaps_for(aims.width.aim / side.along - tool.width, tool)
    if not gaps and not wide:
        return Misfit(tool, "width")
    # Along the axis an insert may begin anywhere.
    if not side.axial and layout_of([groove], tool, shop.increments, shop.machine.tolerance, wide=wide) is None:
        return Misfit(tool, "sweep")
    return Fit(tool, 1 + gaps, deepest, corner_off(groove, tool, shop))


def corner_off(groove: Groove, tool: Tool, shop: Shop) -> float:
    """How far an insert's corner radius is from the one wanted; a stronger corner where the drawing leaves it open."""
    wanted = groove.corner_radius if groove.corner_radius > EPS else shop.machine.sharp_corner
    return abs(tool.corner_radius - wanted)


def _fit_form(groove: Groove, tool: Tool, part: Part, shop: Shop) -> Fit | Misfit:
    """Hold an insert of the right kind against a vee or round recess."""
    if not makes(tool, groove, ground_of(part, groove), shop.machine.tolerance):
        return Misfit(tool, "form")
    if groove.side.hollow and bore_needed(tool, shop) > bore_at(groove, part) + dust(part.units):
        return Misfit(tool, "bore")
    deepest = highest_beside(groove, tool, part) - groove.side.up * tool.max_depth
    return Misfit(tool, "reach") if deepest > groove.floor + dust(part.units) else Fit(tool, 1, deepest)


def bore_at(groove: Groove, part: Part) -> float:
    """The narrowest bore on the way to an inside groove; a bottom or a step just behind it is not on the way."""
    return -ground_of(part, groove).within(groove.far, groove.near)


def bore_needed(tool: Tool, shop: Shop) -> float:
    """The least bore for an inside tool: DMIN, and room for the tip to start a clearance away from the wall."""
    clearance = shop.machine.clearance
    return max(tool.min_bore + clearance, 2 * clearance + 2 * EPS)


def greatest_corner(groove: Groove, shop: Shop) -> float:
    """Greatest insert corner radius that the groove allows: as drawn, with its tolerance.

    A corner drawn sharp is nearly always just not drawn: then the shop's `sharp_corner` is the limit.
    """
    if groove.corner_radius <= EPS:
        return shop.machine.sharp_corner
    return corner_limits(groove, shop.machine.tolerance).high


def highest_beside(groove: Groove, tool: Tool, part: Part) -> float:
    """The highest land (a height) that the holder meets, or touches, while the insert is at the groove's walls."""
    side = groove.side
    near, far = (side.along * holder_beside(own, part.units) for own in (tool.holder_near, tool.holder_far))
    return max(groove.mouth, ground_of(part, groove).highest(groove.far - far, groove.near + near))


def holder_beside(own: float | None, units: Units) -> float:
    """How far a holder stands out on one side, as its tool says or as is taken where it doesn't."""
    return UNKNOWN_HOLDER[units] if own is None else own


def as_wide(tool: Tool, groove: Groove, aims: Aims, shop: Shop, *, to_limits: bool) -> bool:
    """True if one plunge makes the width: as drawn within the shop's tolerance, or well within the drawing's own.

    `to_limits`: or just within the drawing's own.
    """
    width = groove.side.along * tool.width
    drawn = abs(width - (groove.near - groove.far)) <= shop.machine.tolerance + EPS
    slack = dust(shop.units)
    return (drawn and aims.width.holds(width, slack)) or (aims.width if to_limits else aims.width.inner).holds(
        width, slack
    )
