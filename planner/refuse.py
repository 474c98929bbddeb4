"""Refusals: why a groove can't be planned with the tools at hand, and what insert it would take."""

from collections.abc import Sequence

from extractor.finding import Finding, Level
from extractor.limits import EPS, aims_of
from extractor.part import Groove, Part
from extractor.side import OUTSIDE
from planner.codes import PlanCode
from planner.counts import between_counts
from planner.cuts.form import FORMS, form_needed, greatest_nose, has_form, round_needed
from planner.cuts.ground import ground_of
from planner.cuts.upright import is_square
from planner.fit import PROGRAMMED, Fit, Misfit, bore_at, bore_needed, greatest_corner
from planner.reach import assumed_holder, reach_needed, thinner_holder, too_deep
from planner.shop import Shop, Tool
from planner.words import size

# What stands in the way, the nearest to fitting first, with the code of its stop.
CODES: dict[str, PlanCode] = {
    "reach": PlanCode.GROOVE_TOO_DEEP,
    "bore": PlanCode.BORE_TOO_SMALL,
    "corner": PlanCode.CORNER_TOO_SHARP,
    "count": PlanCode.LIMITS_TOO_FINE,
    "width": PlanCode.GROOVE_TOO_NARROW,
    "sweep": PlanCode.FACE_CURVE,
    "form": PlanCode.RECESS_NOT_PLANNED,
    "slope": PlanCode.RECESS_NOT_PLANNED,
    "round": PlanCode.RECESS_NOT_PLANNED,
    "kind": PlanCode.NO_TOOL,
}
# Width and depth over the tolerance below which a groove can't be checked.
LEAST_SIZE = 2.0
SHAPES = {"vee": "a vee recess", "round": "a round recess", "tapered": "a recess with sloping walls"}


def not_programmed(groove: Groove, drawn: Groove, part: Part, tolerance: float) -> Finding | None:
    """A stop for a recess of a kind that no plan is made for, by name; None for the others.

    A recess with sloping walls comes as its core, which then differs from what is drawn.
    """
    if min(drawn.width, drawn.depth) < LEAST_SIZE * tolerance:
        return _too_small(drawn, part, tolerance)
    if groove.shape == "tapered" and groove is not drawn:
        return None
    if groove.shape not in PROGRAMMED or (groove.shape in FORMS and not groove.side.axial):
        place = f" {groove.side.place}".rstrip()
        return _left_out(groove, f"is {SHAPES.get(groove.shape, 'a recess of no usual shape')}{place}")
    if not groove.side.axial:
        return None if faces_front(groove, part, tolerance) else _left_out(groove, "is in a face turned from the front")
    if groove.side.hollow and not part.bore:
        return _left_out(groove, "is an inside groove of a part that shows no bore")
    if groove.shape in FORMS or is_square(groove, ground_of(part, groove), tolerance):
        return None
    return _left_out(groove, "has walls that aren't upright or a floor that isn't level")


def _too_small(groove: Groove, part: Part, tolerance: float) -> Finding:
    """A stop for a groove that the tolerance can't tell from none."""
    deep, wide, units = groove.depth, groove.width, part.units
    what = f"{size(deep, units)} deep" if deep <= wide else f"{size(wide, units)} wide"
    message = (
        f"Groove {groove.id} is {what}, which a tolerance of {size(tolerance, units)} can hardly tell from none; "
        "give a smaller tolerance in the shop file, or correct the drawing."
    )
    return Finding(Level.STOP, PlanCode.GROOVE_TOO_SMALL, message, groove=groove.id)


def _left_out(groove: Groove, what: str) -> Finding:
    """A stop that the user may answer for: the groove is then left out of the program."""
    message = (
        f"Groove {groove.id} at Z{groove.z_near:.3f} {what}, which can't be planned here; program it by hand, "
        f"or --accept {PlanCode.RECESS_NOT_PLANNED} to leave it out of this program."
    )
    return Finding(Level.STOP, PlanCode.RECESS_NOT_PLANNED, message, groove=groove.id)


def refusal(groove: Groove, answers: Sequence[Fit | Misfit], part: Part, shop: Shop) -> Finding | None:
    """The stop for a groove that nothing fits, or None: what is in the way of the best insert, and what it would take.

    A recess that needs a kind of tool that the shop doesn't have at all may be left out.
    """
    misfits = [answer for answer in answers if isinstance(answer, Misfit)]
    if len(misfits) < len(answers):
        return None
    reasons = {misfit.reason for misfit in misfits}
    why = next((reason for reason in CODES if reason in reasons), "kind")
    if why == "count":
        return between_counts(groove, aims_of(groove, shop.machine.tolerance), shop.increments, width=True)
    tools = [misfit.tool for misfit in misfits if misfit.reason == why]
    message = f"{_fault(groove, why, tools, part, shop)}; {_needed(groove, tools, part, shop, why)}"
    if why in ("kind", "form", "slope", "round") and (
        groove.side != OUTSIDE or groove.shape not in ("rectangular", "relief")
    ):
        message += f", or --accept {PlanCode.RECESS_NOT_PLANNED} to leave it out of this program"
        return Finding(Level.STOP, PlanCode.RECESS_NOT_PLANNED, f"{message}.", groove=groove.id)
    return Finding(Level.STOP, CODES[why], f"{message}.", groove=groove.id)


def _fault(groove: Groove, why: str, tools: Sequence[Tool], part: Part, shop: Shop) -> str:
    """What is wrong with the tools at hand, with the figures."""
    units, who = part.units, f"Groove {groove.id}"
    if why == "width":
        wide, narrowest = size(groove.width, units), min(tool.width for tool in tools)
        return f"{who} is {wide} wide and the narrowest insert is {size(narrowest, units)}"
    if why == "reach":
        return too_deep(groove, tools, part, shop)
    if why == "corner":
        least = min(tool.corner_radius for tool in tools)
        drawn = "sharp" if groove.corner_radius <= EPS else f"{size(groove.corner_radius, units)} round"
        return f"{who} has corners drawn {drawn} and the insert that would fit has {size(least, units)}"
    if why == "bore":
        least = min(bore_needed(tool, shop) for tool in tools)
        bore = size(bore_at(groove, part), units)
        return f"{who} lies behind a bore of {bore} and the smallest bar that would cut it needs {size(least, units)}"
    if why == "sweep":
        across = size(groove.mouth_diameter, units)
        return f"{who} is {across} across outside and no face insert may begin there or at its inner wall"
    if why == "round":
        drawn = size(groove.corner_radius, units)
        return f"{who} has sloping walls over corners drawn {drawn} round, which no insert at hand leaves"
    if why == "slope":
        return f"{who} has slopes too flat for one cut of any insert at hand"
    place = groove.side.name
    if groove.shape in FORMS:
        return (
            f"{who} is a {groove.shape} recess and no {groove.shape} insert for {place} in the shop makes it as drawn"
        )
    return f"{who} needs a square grooving insert for {place} and the shop has none"


def faces_front(groove: Groove, part: Part, tolerance: float) -> bool:
    """True if a face groove is cut into metal that begins at its face, seen from the front."""
    ground = ground_of(part, groove)
    planes = [ground.highest(wall, wall) for wall in (groove.far, groove.near)]
    return max(planes) <= groove.mouth + tolerance and groove.floor < min(planes)


def _needed(groove: Groove, tools: Sequence[Tool], part: Part, shop: Shop, why: str) -> str:
    """The insert that the groove would take; `tools` are those nearest to it."""
    units = part.units
    if groove.shape in FORMS and not has_form(groove, ground_of(part, groove), shop.machine.tolerance):
        return f"no straight {groove.shape} insert leaves both its walls as drawn: program it by hand"
    if groove.shape in FORMS:
        least = f"{size(groove.width, units)} wide or more"
        if groove.shape == "round":
            least = f"{size(2 * round_needed(groove), units)} wide"
        nose = size(greatest_nose(groove, shop.machine.tolerance), units)
        tip = f", a nose radius up to {nose} (a larger one shows)" if groove.shape == "vee" else ""
        return f"{form_needed(groove)}, {least}{tip} and a reach of {size(groove.depth, units)} is needed"
    if why == "sweep":
        across = size(groove.mouth_diameter, units)
        return f"a face insert with face_min up to {across} and face_max from {across} on is needed"
    width = max(groove.width, aims_of(groove, 0.0).width.high / groove.side.along)
    own = [tool for tool in tools if tool.where == groove.where]
    if why == "reach" and (thin := thinner_holder(groove, own, part, shop)):
        return thin
    reach = min((reach_needed(groove, tool, part, shop) for tool in own), default=groove.depth)
    corner = greatest_corner(groove, shop)
    first = assumed_holder(groove, own, part, shop) if why == "reach" else ""
    return (
        f"{first}an insert of {size(width, units)} or narrower with a reach of {size(reach, units)} "
        f"and a corner radius up to {size(corner, units)} is needed{_bar(groove, part, shop) if why == 'bore' else ''}"
    )


def _bar(groove: Groove, part: Part, shop: Shop) -> str:
    """What bar a bore takes: the insert starts off the wall, so the bar needs that much more room."""
    clearance = shop.machine.clearance
    least, off = size(max(0.0, bore_at(groove, part) - clearance), part.units), size(clearance, part.units)
    return f" on a bar with a min_bore up to {least}, the clearance of {off} less than the bore"
