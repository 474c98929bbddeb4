"""Every plunge of a plan as a row of a table, in the order in which they are cut."""

from collections.abc import Iterator, Sequence

from planner.increment import Increments
from planner.plan import Operation, Plan
from planner.steps import Cut, GrooveCycle, Rapid
from postproc.vocabulary.cycle import places
from rillwright.spreadsheet import Decimal, table_bytes

COLUMNS = ("operation", "tool", "form", "plunge", "z", "from_diameter", "to_diameter", "peck", "retract", "feed")
"""Diameters are full, z is that of the reference edge, peck and retract are radial; peck 0 is straight to the floor."""


def plunges_csv(plan: Plan, decimal: Decimal) -> bytes:
    """The table for a spreadsheet, with a line of headings; lengths in the drawing's units."""
    return table_bytes(COLUMNS, _rows(plan), decimal)


def _rows(plan: Plan) -> Iterator[Sequence[object]]:
    """A row for each plunge."""
    x: int | None = None
    z: int | None = None
    for step in plan.before:
        if isinstance(step, Rapid):
            x, z = x if step.x is None else step.x, z if step.z is None else step.z
    for number, operation in enumerate(plan.operations, 1):
        for count, row in enumerate(_plunges(operation, x, z), 1):
            yield number, operation.tool.name, operation.form, count, *_lengths(row, plan.increments)
        for step in operation.steps:
            if isinstance(step, Rapid | Cut):
                x, z = x if step.x is None else step.x, z if step.z is None else step.z


Row = tuple[int, int, int, int, int, int]
"""Counts: z, diameters from and to, peck, retract, feed."""


def _plunges(operation: Operation, x: int | None, z: int | None) -> Iterator[Row]:
    """The plunges of one operation: those of its cycles, and single cuts toward the floor along X."""
    for step in operation.steps:
        if isinstance(step, GrooveCycle) and x is not None and z is not None:
            for place in places(z, step.end_z, step.shift):
                yield place, x, step.floor_x, step.peck, step.retract, step.feed
        elif isinstance(step, Rapid | Cut):
            if isinstance(step, Cut) and step.x is not None and step.z is None and None not in (x, z):
                yield z or 0, x or 0, step.x, 0, 0, step.feed
            x, z = x if step.x is None else step.x, z if step.z is None else step.z


def _lengths(row: Row, increments: Increments) -> tuple[float, ...]:
    """A row in the drawing's units."""
    z, start, floor, peck, retract, feed = row
    return (*map(increments.length, (z, start, floor, peck, retract)), increments.feed_length(feed))
