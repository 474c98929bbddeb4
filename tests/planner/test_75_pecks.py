"""Pecks and retracts where the shop leaves them open: common practice, no source; each limit from either side."""

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part
from planner.choose import WORTH, Choice, saves
from planner.fit import Fit
from planner.settings.builtin import usual_retract
from planner.steps import Cut, Dwell, GrooveCycle

TEXT = (
    'units = "mm"\n[machine]\nstick_out = 90\n[material]\nname = "{}"\n'
    "[[tools]]\nstation = 3\nwidth = 3.0\n{}max_depth = 9\n"
)


def plan(depth, material="C45", tool="", cycles="full", **more):
    part = part_of([(-10, -13, 40 - 2 * depth, more)])
    return plan_part(part, parse_shop(TEXT.format(material, tool), "s", "mm"), cycles=cycles)


def peck(depth, material):
    (cycle,) = (step for step in plan(depth, material).steps if isinstance(step, GrooveCycle))
    return cycle.peck


@pytest.mark.parametrize("material", ["C45", "EN-GJL-250"])
def test_in_steel_and_iron_no_pecks_down_to_the_width(material):
    assert [peck(depth, material) for depth in (3.0, 3.01)] == [0, 1000]


def test_the_depth_that_is_cut_decides():
    # Drawn 3 deep and aimed at 3.025, the middle of 0/-0.1 on the diameter.
    limits = {"tolerances": {"floor_diameter": (-0.1, 0.0)}}
    (cycle,) = (step for step in plan(3.0, **limits).steps if isinstance(step, GrooveCycle))
    assert (cycle.floor_x, cycle.peck) == (33_950, 1000)


@pytest.mark.parametrize("material", ["1.4301", "6082", "titanium", "58 HRC", "POM"])
def test_elsewhere_as_the_tool_says(material):
    assert [peck(depth, material) for depth in (1.5, 3.01)] == [1000, 1000]


@pytest.mark.parametrize(
    ("pecking", "retract"), [(0.45, 0.1), (0.5, 0.1), (0.55, 0.11), (2.45, 0.49), (2.5, 0.5), (2.55, 0.5)]
)
def test_a_fifth_of_the_peck_within_limits(pecking, retract):
    assert usual_retract(pecking, "mm") == pytest.approx(retract)


@pytest.mark.parametrize(("pecking", "retract"), [(0.019, 0.004), (0.021, 0.0042), (0.099, 0.0198), (0.11, 0.02)])
def test_in_inch(pecking, retract):
    assert usual_retract(pecking, "in") == pytest.approx(retract)


def test_a_retract_that_the_shop_gives_stands():
    assert [tool.retract for tool in parse_shop(TEXT.format("C45", "retract = 0.7\n"), "s", "mm").tools] == [0.7]


@pytest.mark.parametrize("cycles", ["full", "own retract", "none"])
def test_a_dwell_belongs_to_the_last_peck(cycles):
    limits = {"tolerances": {"floor_diameter": (-0.05, 0.0)}}
    steps = plan(4.0, tool="dwell = 2.0\n", cycles=cycles, **limits).steps
    place = next(n for n, step in enumerate(steps) if isinstance(step, Dwell))
    assert steps[place - 1].x == min(step.x for step in steps if isinstance(step, Cut))
    floor = [step for step in steps if isinstance(step, Cut) and step.x == steps[place - 1].x]
    assert len(floor) == 1, "the floor is cut once, not once more for the dwell"
    assert not [step for step in steps if isinstance(step, GrooveCycle)]


@pytest.mark.parametrize(("saved", "told"), [(WORTH - 0.01, False), (WORTH + 0.01, True)])
def test_what_is_worth_a_word(saved, told):
    shop = parse_shop(TEXT.format("C45", "") + "[[tools]]\nstation = 4\nwidth = 2.0\n", "s", "mm")
    one, two = (Fit(tool, 1, 0.0) for tool in shop.tools)
    assert bool(saves(Choice({1: one, 2: one}, 20.0), Choice({1: one, 2: two}, 20.0 - saved), shop)) is told
