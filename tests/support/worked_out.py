"""Parts as values through every room to a record, as `make` would write it, with no drawing and no file."""

from datetime import UTC, datetime
from typing import Any

from extractor.part import Part, Reading
from planner import default_shop, parse_shop, plan_part
from planner.shop import Shop
from postproc import compare_program, find_dialect, interpret, parse_program, write_program
from postproc.program import Heading
from rillwright.outcome import Outcome
from rillwright.recording import record_of
from rillwright.settings import Settings
from support.forms import form

EVERY_SIDE = """
units = "mm"
[machine]
stick_out = 60.0
[[tools]]
station = 2
width = 3.0
corner_radius = 0.1
max_depth = 12.0
[[tools]]
station = 4
width = 3.0
corner_radius = 0.1
max_depth = 8.0
where = "face"
face_min = 20.0
face_max = 80.0
[[tools]]
station = 10
width = 2.0
where = "inside"
corner_radius = 0.1
max_depth = 6.0
min_bore = 16.0
reference = "near"
"""
"""A shop file with a tool for each side."""


def every_side() -> Shop:
    """The shop of that file."""
    return parse_shop(EVERY_SIDE, "shop.toml", "mm")


def worked_out(part: Part, name: str, shop: Shop | None = None) -> tuple[dict[str, Any], str | None]:
    """The record of a part as `make` would write it, by way of JSON, and the program's text."""
    shop, dialect = shop or default_shop(part.units), find_dialect(name)
    plan = plan_part(part, shop)
    reading = Reading("part.dxf", "0" * 64, part.units, part)
    if plan.stopped:
        outcome, text = Outcome(reading, plan.sets, plan, findings=plan.findings), None
    else:
        program = write_program(plan, dialect, Heading("part.dxf", "0" * 64))
        verdict = compare_program(part, program.text, shop, dialect)
        motions = interpret(parse_program(program.text), dialect, part.units).motions
        outcome, text = Outcome(reading, plan.sets, plan, program, verdict, motions, plan.findings), program.text
    return form(record_of(outcome, Settings(), "part.nc", datetime(2031, 3, 4, tzinfo=UTC))), text
