"""Corners drawn rounder than an insert leaves them: a rounder insert first, else the user answers for it."""

import pytest
from support.parts import part_of

from planner import default_shop, inserts_for, parse_shop, plan_part

TOOL = "[[tools]]\nstation = {}\nwidth = 3.0\nmax_depth = 9.0\ncorner_radius = {}\n"
SHOP = 'units = "mm"\n[machine]\nstick_out = 100\n' + TOOL.format(3, 0.2)
ROUND = SHOP + TOOL.format(5, 0.8)


def grooved(radius, **more):
    return part_of([(-10, -14, 34, {"corner_radius": radius} | more)])


def planned(part, text, accepted=()):
    return plan_part(part, parse_shop(text, "s", "mm"), accepted)


def codes(plan, level):
    return [f.code for f in plan.findings if f.level == level]


def test_a_corner_plainly_sharper_is_refused_and_the_sentence_says_what_it_takes():
    plan = planned(grooved(1.0), SHOP)
    (finding,) = [f for f in plan.findings if f.stops]
    assert (finding.code, finding.groove, finding.code.acceptable) == ("corner-smaller", 1, True)
    assert finding.message == (
        "Groove 1 has corners drawn 1.000 mm round and the insert that would fit leaves 0.200 mm, which cuts away "
        "metal that the drawing has; an insert with a corner radius of 0.700 mm to 1.000 mm is needed, "
        "or take an insert 2.500 mm wide with a corner radius of 0.200 mm and a reach of 3.000 mm that follows its "
        "line in a finishing path, or --accept corner-smaller if that does."
    )
    assert not plan.operations
    # No insert is said to cut a groove that is refused.
    assert [inserts_for(grooved(1.0), parse_shop(text, "s", "mm"))[0] for text in (SHOP, ROUND)] == [
        {},
        {1: ("T0505",)},
    ]


def test_the_user_can_answer_for_it():
    plan = planned(grooved(1.0), SHOP, {"corner-smaller"})
    assert plan.operations
    assert "corner-smaller" in codes(plan, "caution")


@pytest.mark.parametrize("radius", [0.2, 0.3, 0.4, 0.5])
def test_a_little_sharper_passes(radius):
    plan = planned(grooved(radius), SHOP)
    assert plan.operations
    assert ("corner-smaller" in codes(plan, "caution")) == (radius - 0.2 > 0.05 * 3.0)


def test_a_tolerance_on_the_radius_counts():
    # The insert leaves 0.2: just allowed, and a hair below what is.
    assert planned(grooved(1.0, tolerances={"corner_radius": (-0.8, 0.0)}), SHOP).operations
    assert "corner-smaller" in codes(planned(grooved(1.0, tolerances={"corner_radius": (-0.79, 0.0)}), SHOP), "stop")


def test_a_rounder_insert_is_taken_even_for_one_groove_of_several():
    part = part_of([(-10, -14, 34, {"corner_radius": 1.0}), (-20, -23, 34)])
    plan = planned(part, ROUND)
    assert {op.tool.station for op in plan.operations if 1 in op.grooves} == {5}
    assert {op.tool.station for op in plan.operations if 2 in op.grooves} == {3}


@pytest.mark.parametrize(("width", "radius"), [(3.6, 0.6), (4.8, 0.6), (7.1, 0.6), (9.5, 1.0)])
def test_housings_of_round_seals_are_planned_with_the_built_in_shop(width, radius):
    # Widths and floor radii of static housings by section, second table seen for ISO 3601-2 (housing table by section).
    part = part_of([(-10, -10 - width, 34, {"corner_radius": radius})])
    plan = plan_part(part, default_shop("mm"))
    assert plan.operations, [f.message for f in plan.findings]
    assert "corner-smaller" not in codes(plan, "stop")
