"""Every sample drawing in every dialect: written, read back as the very same steps, and cut as drawn."""

from pathlib import Path

import pytest

from extractor import read_drawing
from planner import default_shop, plan_part
from postproc import Heading, compare_program, dialects, interpret, lower, parse_program, write_program

SAMPLES = sorted((Path(__file__).parents[2] / "drawings").glob("*.dxf"))


@pytest.fixture(scope="module", params=SAMPLES, ids=lambda path: path.stem)
def planned(request):
    """A sample's part with its plan."""
    part = read_drawing(request.param).part
    plan = plan_part(part, default_shop(part.units))
    assert not plan.stopped
    return part, plan


@pytest.mark.parametrize("name", list(dialects(())))
def test_written_and_read_back(planned, name):
    part, plan = planned
    dialect = dialects(())[name]
    heading = Heading("sample.dxf", "0123456789" * 6)
    program = write_program(plan, dialect, heading)
    assert write_program(plan, dialect, heading) == program
    run = interpret(parse_program(program.text), dialect)
    assert run.steps == lower(plan.steps, dialect)
    assert run.units == part.units
    assert not run.findings
    assert compare_program(part, program.text, plan.shop, dialect).agree


def test_there_are_samples():
    assert len(SAMPLES) >= 8
