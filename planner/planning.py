"""A part and a shop become a plan: fit, choose, place, order, steps, time. What can't be planned is a stop finding."""

from extractor.finding import Finding, Level, stopped
from extractor.part import Groove, Part
from planner.assembly import assembled
from planner.cautions import cautions
from planner.choose import choose
from planner.face import fit_face, place_face
from planner.fit import Fit, fit
from planner.increment import Increments
from planner.moves import Setting
from planner.order import in_order
from planner.place import Placed, place, same_limits
from planner.plan import Plan
from planner.refuse import not_programmed, refusals
from planner.room import room_findings
from planner.sets import LIKE_WITHIN, group_grooves, like_groups
from planner.shop import Shop
from planner.side import side_of


def plan_part(part: Part, shop: Shop) -> Plan:
    """The plan for a part. A plan whose findings stop has no operation and is never written."""
    increments = Increments.of(part.units)
    findings = _before_planning(part, shop)
    if stopped(findings):
        return _empty(part, shop, increments, findings)
    fits, refused = _fits(part, shop)
    if refused:
        return _empty(part, shop, increments, (*findings, *refused))
    setting = Setting(part, shop, increments)
    rows = _rows(fits, setting)
    faces = [place_face(groove, fits[groove.id], setting) for groove in part.grooves if groove.where == "face"]
    findings += (*room_findings(setting, rows), *cautions(setting, rows, faces))
    if stopped(findings):
        return _empty(part, shop, increments, findings)
    return assembled(setting, in_order(rows, faces, part), findings)


def _before_planning(part: Part, shop: Shop) -> tuple[Finding, ...]:
    """What stands before any insert is looked at."""
    if part.units != shop.units:
        raise ValueError("the shop must be in the part's units")
    if not part.grooves:
        return (Finding(Level.STOP, "no-grooves", "The part has no groove, so there is nothing to program."),)
    found = (not_programmed(groove, part, shop.machine.tolerance) for groove in part.grooves)
    return tuple(f for f in found if f)


def _empty(part: Part, shop: Shop, increments: Increments, findings: tuple[Finding, ...]) -> Plan:
    """A plan with nothing in it but the reasons."""
    return Plan(increments, shop, group_grooves(part), (), (), (), 0.0, findings)


def _fits(part: Part, shop: Shop) -> tuple[dict[int, Fit], tuple[Finding, ...]]:
    """The chosen insert of every groove, or the stops for those that none fits."""
    found = {
        groove.id: [(fit_face if groove.where == "face" else fit)(groove, tool, part, shop) for tool in shop.tools]
        for groove in part.grooves
    }
    refused = tuple(f for g in part.grooves if (f := refusals(g, found[g.id], part, shop)))
    if refused:
        return {}, refused
    fitting = {number: [f for f in answers if isinstance(f, Fit)] for number, answers in found.items()}
    return choose(part.grooves, fitting), ()


def _rows(fits: dict[int, Fit], setting: Setting) -> list[Placed]:
    """All rows of grooves that are cut along X."""
    part, shop, increments = setting.part, setting.shop, setting.increments
    groups: dict[tuple[str, int], list[Groove]] = {}
    for groove in (g for g in part.grooves if g.where != "face"):
        chosen = fits[groove.id]
        groups.setdefault((chosen.tool.name, chosen.plunges), []).append(groove)
    return [
        row
        for grooves in groups.values()
        for like in like_groups(grooves, LIKE_WITHIN[part.units])
        for group in same_limits(like, shop.machine.tolerance, increments)
        for row in place(group, [fits[g.id] for g in group], side_of(part, group[0]), shop, increments)
    ]
