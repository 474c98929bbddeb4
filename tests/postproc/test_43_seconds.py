"""The time of the written program is the time that was planned, within two in a hundred.

The plan works with its steps, `run_seconds` with the motions read back from the text; they share no code.
"""

import pytest
from support.parts import part_of, row
from support.programs import run_of

from planner import default_shop, plan_part
from postproc import Heading, find_dialect, run_seconds, write_program

PARTS = {
    "a row": part_of(row(4, -10, 5, 3, 34)),
    "a wide one": part_of([(-10, -24, 30)]),
    "deep on a step": part_of([(-10, -13, 24), (-40, -46, 40)], steps=[(0, 40), (-30, 56)], length=70),
    "inch": part_of(row(5, -0.25, 0.2, 0.125, 1.25), diameter=1.5, length=3, units="in"),
}


@pytest.mark.parametrize("name", PARTS)
@pytest.mark.parametrize("dialect", ["two-block", "one-block", "plunge"])
def test_the_program_takes_as_long_as_planned(name, dialect):
    """In the one-block form the control sets the retract, so the shop's figure for it counts on both sides."""
    part = PARTS[name]
    shop = default_shop(part.units)
    plan = plan_part(part, shop, cycles=find_dialect(dialect).cycles)
    assert not plan.stopped
    text = write_program(plan, find_dialect(dialect), Heading("a.dxf", "0" * 64)).text
    run = run_of(text, dialect, part.units)
    assert run_seconds(run, shop.machine) == pytest.approx(plan.seconds, rel=0.02)
