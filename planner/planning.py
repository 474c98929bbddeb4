"""A part and a shop become a plan: fit, choose, place, order, steps, time. What can't be planned is a stop finding."""

from collections.abc import Sequence
from itertools import pairwise

from extractor.finding import Finding, Level, stopped
from extractor.part import Groove, Part
from planner.cautions import cautions
from planner.choose import choose
from planner.duration import Clock
from planner.fit import Fit, fit
from planner.increment import Increments
from planner.moves import Setting, Spot, calls, come, go_home, hop, start_of
from planner.order import in_order
from planner.place import Placed, place, same_limits
from planner.plan import GrooveSet, Operation, Plan
from planner.reasons import reasons
from planner.refuse import not_programmed, refusals
from planner.room import room_findings
from planner.sets import LIKE_WITHIN, group_grooves, like_groups
from planner.shop import Shop
from planner.side import side_of
from planner.steps import Coolant, Step
from planner.strokes import cutting_steps, form_of


def plan_part(part: Part, shop: Shop) -> Plan:
    """The plan for a part. A plan whose findings stop has no operation and is never written."""
    increments = Increments.of(part.units)
    findings = _before_planning(part, shop)
    if stopped(findings):
        return _empty(part, shop, increments, findings)
    fits, refused = _fits(part, shop)
    if refused:
        return _empty(part, shop, increments, (*findings, *refused))
    rows = _rows(part, fits, shop, increments)
    setting = Setting(part, shop, increments)
    findings += (*room_findings(part, rows, shop, increments), *cautions(setting, rows))
    if stopped(findings):
        return _empty(part, shop, increments, findings)
    return _assembled(setting, rows, findings)


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
    found = {groove.id: [fit(groove, tool, part, shop) for tool in shop.tools] for groove in part.grooves}
    refused = tuple(f for g in part.grooves if (f := refusals(g, found[g.id], part, shop)))
    if refused:
        return {}, refused
    fitting = {number: [f for f in answers if isinstance(f, Fit)] for number, answers in found.items()}
    return choose(part.grooves, fitting), ()


def _rows(part: Part, fits: dict[int, Fit], shop: Shop, increments: Increments) -> list[Placed]:
    """All rows in the order of cutting."""
    groups: dict[tuple[str, int], list[Groove]] = {}
    for groove in part.grooves:
        chosen = fits[groove.id]
        groups.setdefault((chosen.tool.name, chosen.plunges), []).append(groove)
    rows = [
        row
        for grooves in groups.values()
        for like in like_groups(grooves, LIKE_WITHIN[part.units])
        for group in same_limits(like, shop.machine.tolerance, increments)
        for row in place(group, [fits[g.id] for g in group], side_of(part, group[0]), shop, increments)
    ]
    return in_order(rows, part)


def _assembled(setting: Setting, rows: Sequence[Placed], findings: tuple[Finding, ...]) -> Plan:
    """Rows to operations, framed by the way from and to home."""
    clock = Clock(setting.increments, setting.shop.machine)
    before = (*go_home(setting), *calls(rows[0].tool, setting))
    seconds = clock.run(before)
    operations = [_operation(row, last, rows, clock, setting) for last, row in pairwise((None, *rows)) if row]
    after = (*go_home(setting, rows[-1].tool), *((Coolant(False),) if setting.shop.machine.coolant else ()))
    seconds += sum(operation.seconds for operation in operations) + clock.run(after)
    sets = tuple(_set_of(row, setting) for row in sorted(rows, key=lambda r: r.grooves))
    return Plan(setting.increments, setting.shop, sets, before, tuple(operations), after, seconds, findings)


def _operation(row: Placed, last: Placed | None, rows: Sequence[Placed], clock: Clock, setting: Setting) -> Operation:
    """One row with its way there from the last one; `clock` stands where that one ended, and moves along."""
    start = start_of(row, setting)
    way: tuple[Step, ...] = come(start, row.side, setting)
    if last is not None and row.tool != last.tool:
        way = (*go_home(setting, last.tool), *calls(row.tool, setting), *way)
    elif last is not None:
        way = hop(Spot(clock.x or 0, clock.z or 0), start, row, setting)
    steps = (*way, *cutting_steps(row, start.x, setting))
    took, why = clock.run(steps), reasons(row, start.x, rows, setting)
    return Operation(row.grooves, row.tool, form_of(row), start.x, start.z, steps, took, why)


def _set_of(row: Placed, setting: Setting) -> GrooveSet:
    """The set that a row cuts, its pitch as cut."""
    return GrooveSet(row.grooves, setting.increments.length(row.shift))
