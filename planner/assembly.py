"""Rows to operations: approach, cuts, time and reasons; framed by the moves from home and back."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from extractor.finding import Finding, Level
from planner.codes import PlanCode
from planner.cuts.beside import start_of
from planner.cuts.moves import Setting, Spot, calls, clamp_for, come, go_home, hop, leave
from planner.cuts.place import Placed
from planner.cuts.strokes import cutting_steps, form_of
from planner.duration import Clock
from planner.faces import face_reasons
from planner.order import order_findings, order_reasons
from planner.plan import GrooveSet, Operation, Plan, Restart
from planner.reasons import reasons
from planner.shop import Tool
from planner.steps import Coolant, GrooveCycle, Halt, Remark, Step, ToolCall, WorkOffset
from planner.tidy import tidied
from planner.words import numbers, size

# Grooves of a row up to which it is told how to go on from each.
MOST_RESTARTS = 40


def assembled(setting: Setting, rows: Sequence[Placed], findings: tuple[Finding, ...]) -> Plan:
    """The whole plan of rows in the order of cutting."""
    clock = setting.clock()
    before = (*_zero(setting), *go_home(setting), *_called(rows[0].tool, rows, setting))
    clock.run(before)
    operations = [_operation(row, last, rows, clock, setting) for last, row in pairwise((None, *rows)) if row]
    dry = (Coolant(False),) if setting.shop.machine.coolant else ()
    # The last tool's offset is cancelled where it stands free, so that nothing that follows moves under it.
    after = (*_left(rows[-1], setting), *dry, ToolCall(rows[-1].tool.station, 0))
    before, *inner, after = tidied([before, *(operation.steps for operation in operations), after])
    clock = setting.clock()
    seconds = [clock.run(steps) for steps in (before, *inner, after)]
    operations = [
        replace(operation, steps=(*_remark(number, operation, setting), *steps), seconds=took)
        for number, (operation, steps, took) in enumerate(zip(operations, inner, seconds[1:-1], strict=True), start=1)
    ]
    even, length = [one for row in rows for one in row.even or (row,)], setting.increments.length
    sets = tuple(GrooveSet(row.grooves, length(row.shift)) for row in sorted(even, key=lambda r: r.grooves))
    done = _with_order(operations, rows, setting)
    plan = Plan(setting.increments, setting.shop, sets, before, done, after, sum(seconds), findings)
    more = (*order_findings(_along(rows), setting.part), *_unsaid_retract(plan, setting), *_batch(plan))
    return replace(plan, findings=(*findings, *more))


def _along(rows: Sequence[Placed]) -> list[Placed]:
    """The rows cut along X."""
    return [row for row in rows if row.side.axial]


def _with_order(operations: Sequence[Operation], rows: Sequence[Placed], setting: Setting) -> tuple[Operation, ...]:
    """The operations with why each comes when it does."""
    along = iter(order_reasons(_along(rows), setting.part))
    return tuple(
        replace(operation, why=(*operation.why, *next(along))) if row.side.axial else operation
        for operation, row in zip(operations, rows, strict=True)
    )


def _unsaid_retract(plan: Plan, setting: Setting) -> tuple[Finding, ...]:
    """A note where the time stands on a retract that neither program nor shop file says."""
    cycles = any(isinstance(step, GrooveCycle) and step.peck for step in plan.steps)
    if setting.cycles != "own retract" or not cycles or "cycle_retract" not in setting.shop.unsaid:
        return ()
    taken = size(setting.shop.machine.cycle_retract, setting.part.units)
    message = (
        f"The control sets how far its cycle backs off after a peck; the time was worked out with {taken}, because "
        "the shop file gives no cycle_retract."
    )
    return (Finding(Level.NOTE, PlanCode.CYCLE_RETRACT_UNKNOWN, message),)


def _batch(plan: Plan) -> tuple[Finding, ...]:
    """A note with the hours of the batch, where the shop says how many pieces it is."""
    machine = plan.shop.machine
    if not machine.batch:
        return ()
    handling = f"{machine.handling:g} s of handling each" if machine.handling else "no handling counted"
    hours = plan.hours(machine.batch, machine.handling)
    message = (
        f"A batch of {machine.batch} takes about {hours:.1f} h of grooving at {plan.seconds:.0f} s a piece, {handling}."
    )
    return (Finding(Level.NOTE, PlanCode.BATCH_HOURS, message),)


def _operation(row: Placed, last: Placed | None, rows: Sequence[Placed], clock: Clock, setting: Setting) -> Operation:
    """One row with its way there from the last one; `clock` stands where that one ended, and moves along."""
    start = start_of(row, setting)
    cuts = cutting_steps(row, setting)
    way = come(start, row, setting)
    if last is not None and row.tool == last.tool:
        way = hop(Spot(clock.x or 0, clock.z or 0), start, row, setting)
    elif last is not None:
        way = (*_left(last, setting), *_called(row.tool, rows, setting), *way)
    if last is not None and setting.shop.machine.optional_stops:
        # Whoever looks at the part needs the tool away; after a stop all that the cut needs is said again.
        called = _called(row.tool, rows, setting)
        way = (*_left(last, setting), Halt(optional=True), *called, *come(start, row, setting))
    steps, form = (*way, *cuts), form_of(row, setting)
    why = reasons(row, start.x, _along(rows), setting) if row.side.axial else face_reasons(row, setting)
    again = tuple(_restarts(row, rows, cuts, setting))
    return Operation(row.grooves, row.tool, form, start.x, start.z, steps, clock.run(steps), why, again)


def _left(row: Placed, setting: Setting) -> tuple[Step, ...]:
    """The way home from the last cut of a row."""
    return leave(start_of(row, setting), row, setting)


def _restarts(row: Placed, rows: Sequence[Placed], cuts: tuple[Step, ...], setting: Setting) -> Iterator[Restart]:
    """How to go on from each groove of a row, whose `cuts` are known, of a very long one from its first alone."""
    for place in range(len(row.places) if len(row.places) <= MOST_RESTARTS else 1):
        rest = replace(row, grooves=row.grooves[place:], places=row.places[place:])
        start = start_of(rest, setting)
        head = (*_zero(setting), *go_home(setting, row.tool), *_called(row.tool, rows, setting))
        (steps,) = tidied([(*head, *come(start, row, setting), *(cutting_steps(rest, setting) if place else cuts))])
        yield Restart(row.grooves[place], steps)


def _zero(setting: Setting) -> tuple[Step, ...]:
    """The work offset, where the shop names one."""
    offset = setting.shop.machine.work_offset
    return (WorkOffset(offset),) if offset else ()


def _remark(number: int, operation: Operation, setting: Setting) -> tuple[Step, ...]:
    """What an operation is, as a remark, where the shop wants one."""
    words = f"{number}. {numbers(operation.grooves)}, {operation.tool.name}"
    return (Remark(words),) if setting.shop.machine.remarks else ()


def _called(tool: Tool, rows: Sequence[Placed], setting: Setting) -> tuple[Step, ...]:
    """A tool called with the clamp that all its rows need."""
    least = min(least_across(row, setting) for row in rows if row.tool == tool)
    return calls(tool, clamp_for(tool, least, setting), setting)


def least_across(row: Placed, setting: Setting) -> float:
    """The least diameter on which a row's tool cuts, 0 at the axis."""
    side, length = row.side, setting.increments.length
    if not side.axial:
        return max(0.0, min(length(row.reference(row.lowest)), length(row.lowest)))
    return min(abs(length(start_of(row, setting).x)), abs(length(side.sign * row.floor)))
