"""Plunges without pecks, planned, written and judged: a program of our own never contradicts itself."""

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part
from postproc import Heading, compare_program, write_program
from postproc.dialects import dialects

SHOP = (
    'units = "mm"\n[machine]\nstick_out = 90\n[material]\nname = "C45"\n'
    "[[tools]]\nstation = 3\nwidth = 4.0\npeck = {}\nmax_depth = 9\n"
)


def verdict(name, depth, peck, typed=None):
    """What compare says of a written program for a groove 4 wide; `typed` takes the place of its first P word."""
    dialect = dialects()[name]
    part, shop = part_of([(-10, -14, 40 - 2 * depth)]), parse_shop(SHOP.format(peck), "s", "mm")
    plan = plan_part(part, shop, cycles=dialect.cycles)
    assert not plan.stopped, plan.findings
    text = write_program(plan, dialect, Heading("ring.dxf", "00" * 32)).text
    if typed:
        assert typed[0] in text
        text = text.replace(*typed)
    return compare_program(part, text, shop, dialect)


@pytest.mark.parametrize("name", dialects())
@pytest.mark.parametrize("depth", [0.6, 2.0, 3.9, 4.0, 4.01])
@pytest.mark.parametrize("peck", [0.2, 0.3, 1.0])
def test_what_is_planned_without_pecks_agrees(name, depth, peck):
    found = verdict(name, depth, peck)
    assert found.agree, found.findings


@pytest.mark.parametrize(("depth", "told"), [(4.0, True), (4.01, True)])
def test_a_peck_out_by_ten_is_told_still(depth, told):
    # The tool's peck is 0.3; a digit slipped makes 3.0 of it, which is not the whole way from X42.
    whole = f"P{round((depth + 1) * 1000)}" if depth <= 4.0 else "P300"
    found = verdict("two-block", depth, 0.3, (whole, "P3000"))
    assert ("peck-out-by-ten" in {f.code for f in found.findings}) is told
    assert not found.agree


def test_the_whole_way_as_a_peck_is_told_where_it_is_deeper_than_wide():
    found = verdict("two-block", 4.01, 0.3, ("P300", "P5010"))
    assert "peck-out-by-ten" in {f.code for f in found.findings}
