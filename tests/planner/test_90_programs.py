"""From plan to text and back: forty rows of grooves, and a few hard parts, written and compared in every dialect."""

import pytest
from support.parts import part_of, row
from support.programs import run_of
from support.rows import TABLE

from planner import default_shop, parse_shop, plan_part
from planner.steps import GrooveCycle
from postproc import Heading, compare_program, dialects, lower, write_program

HEADING = Heading("part.dxf", "0" * 64)
SHOP = (
    'units = "mm"\n[[tools]]\nstation = 3\nwidth = 0.2\nmax_depth = 2\ncorner_radius = 0.0\nfeed = 0.01\npeck = 0.5\n'
)


def check(part, shop):
    """The plan of a part, whose program compares right and reads back as the same steps in each dialect."""
    plan = plan_part(part, shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    for name, dialect in dialects().items():
        text = write_program(plan, dialect, HEADING).text
        verdict = compare_program(part, text, shop, dialect)
        assert verdict.agree, (name, [m for m in verdict.matches if m.state != "matches"], verdict.findings)
        assert run_of(text, dialect, part.units).steps == lower(plan.steps, dialect)
    return plan


@pytest.mark.parametrize(("places", "count"), [row[1:] for row in TABLE], ids=[row[0] for row in TABLE])
def test_each_row_of_the_table_is_planned_in_as_many_sets(places, count):
    part = part_of([(-5 - p / 50, -5.2 - p / 50, 38) for p in places], length=500)
    plan = check(part, parse_shop(SHOP, "s", "mm"))
    assert len(plan.operations) == len(plan.sets) == count
    cycles = [step for step in plan.steps if isinstance(step, GrooveCycle)]
    assert len(cycles) == count, "one call of the cycle a set"


HARD = {
    "a row over a collar": part_of(row(2, -10, 40, 3, 34), steps=[(0, 40), (-20, 60), (-40, 40)], length=80),
    "reliefs at shoulders": part_of([(-27, -30, 36), (-57, -60, 46)], steps=[(0, 40), (-30, 50), (-60, 58)], length=90),
    "wide and narrow": part_of([(-5, -6.3, 38), (-10, -22, 34), (-30, -33.5, 33)]),
    "thirds of an inch": part_of(row(12, -0.1, 1 / 3, 0.125, 1.3), diameter=1.5, length=5, units="in"),
    "wide, in a row": part_of(row(4, -5, 12, 8, 30), length=70),
    "two hundred": part_of(row(200, -5, 3, 1.5, 38), length=620),
    "a bore and a bar": part_of([(-10, -13, 24, {"where": "inside"}), (-20, -23, 36)], bore=20),
}


@pytest.mark.parametrize("name", HARD)
def test_hard_parts_in_every_dialect(name):
    part = HARD[name]
    check(part, default_shop(part.units))


@pytest.mark.parametrize("finish", [0.0, 0.1])
@pytest.mark.parametrize("reference", ["near", "far"])
def test_either_edge_with_and_without_finishing(reference, finish):
    text = (
        f'units="mm"\n[[tools]]\nstation=3\nwidth=3\nmax_depth=9\nreference="{reference}"\nfinish={finish}\ndwell=2\n'
    )
    tolerances = {"tolerances": {"floor_diameter": (-0.05, 0.0)}}
    check(part_of([(-10, -18, 30), (-25, -28, 34, tolerances), (-35, -39, 34)]), parse_shop(text, "s", "mm"))
