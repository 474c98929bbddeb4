"""Parts as values through every room to a record, as `make` would write it, with no drawing and no file."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from extractor.part import Part, Reading
from planner import default_shop, parse_shop, plan_part
from planner.shop import Shop
from postproc import compare_program, find_dialect, interpret, parse_program, write_program
from postproc.program import Heading
from rillwright.outcome import Outcome
from rillwright.records.recording import record_of
from rillwright.settings import Settings
from support.forms import form

EVERY_SIDE = Path(__file__).with_name("every_side.toml")


def every_side() -> Shop:
    """The shop of that file."""
    return parse_shop(EVERY_SIDE.read_text("utf-8"), "shop.toml", "mm")


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
