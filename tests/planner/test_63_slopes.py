"""Recesses with sloping walls: plunged over the floor, then each slope cut with the insert's corner."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.parts import part_of
from support.recorder import run_of

from planner import default_shop, parse_shop, plan_part
from planner.cuts.ground import ground_of
from planner.cuts.taper import core_of, corner_shift
from planner.steps import Cut, GrooveCycle
from postproc import Heading, compare_program, dialects, judge, write_program


def shop(radius=0.0, width=3.0, more=""):
    text = f'units = "mm"\n[[tools]]\nstation = 3\nwidth = {width}\nmax_depth = 12\ncorner_radius = {radius}\n{more}'
    return parse_shop(text, "s", "mm")


def tapered(near=-10.0, far=-16.0, floor=34.0, run=1.0, **more):
    return (near, far, floor, {"shape": "tapered", "run": run, **more})


def stop(part, the_shop):
    (found,) = [f for f in plan_part(part, the_shop).findings if f.stops]
    return found.code, found.message


PART = part_of([tapered()])


def core(part, number=1, the_shop=None):
    groove = part.grooves[number - 1]
    return core_of(groove, ground_of(part, groove), the_shop or shop())


def test_the_core_is_what_lies_over_the_floor():
    found = core(PART)
    assert (found.z_near, found.z_far, found.floor_diameter) == (pytest.approx(-11.0), pytest.approx(-15.0), 34.0)


def test_plunges_then_slopes():
    plan = plan_part(PART, shop())
    (operation,) = plan.operations
    (cycle,) = [s for s in operation.steps if isinstance(s, GrooveCycle)]
    assert (operation.start_z, cycle.end_z) == (-14_000, -15_000)
    # The near corner ends at Z-11 on the floor, the far one at Z-15; the insert is 3 wide and Z is its far edge.
    assert [s for s in operation.steps if isinstance(s, Cut)] == [
        Cut(800, x=34_000, z=-14_000),
        Cut(800, x=34_000, z=-15_000),
    ]
    assert any("sloping walls" in why for why in operation.why)


def test_every_dialect_compares_right():
    part = part_of([tapered(), (-20, -23, 34), tapered(near=-30, far=-38, run=0.7)])
    plan = plan_part(part, shop(0.1))
    for dialect in dialects().values():
        text = write_program(plan, dialect, Heading("part.dxf", "0" * 64)).text
        assert compare_program(part, text, shop(0.1), dialect).agree


@given(st.floats(0.0, 1.0), st.floats(0.1, 3.0), st.floats(0.5, 5.0))
def test_the_shift_makes_the_arc_touch_the_slope(radius, run, deep):
    tool = shop().tools[0]
    tool = replace(tool, corner_radius=radius)
    lean = math.atan(run / deep)
    # The slope runs through the origin, metal lies at greater z; the sharp corner stands beyond it along z at height 0.
    corner = corner_shift(tool, run, deep)
    centre = (corner - radius, radius)
    distance = -(centre[0] * math.cos(lean) - centre[1] * math.sin(lean))
    assert distance == pytest.approx(radius, abs=1e-9)


@given(
    st.floats(3.2, 9.0),
    st.floats(1.0, 5.0),
    st.floats(0.05, 0.9),
    st.floats(0.0, 0.2),
    st.sampled_from(["near", "far"]),
)
@settings(max_examples=40, deadline=None)
def test_what_is_planned_compares_right(width, deep, run, radius, reference):
    width, deep, run = round(width, 2), round(deep, 2), round(min(run, (width - 1.2) / 2), 2)
    part = part_of([tapered(far=-10 - width, floor=round(40 - 2 * deep, 2), run=run)])
    the_shop = shop(round(radius, 2), 1.0, f'reference = "{reference}"\n')
    plan = plan_part(part, the_shop)
    if plan.stopped:
        assert {f.code for f in plan.findings if f.stops} == {"recess-not-planned"}
    else:
        verdict = judge(part, run_of(plan), the_shop)
        assert verdict.agree, verdict


def test_a_floor_narrower_than_the_insert():
    assert stop(part_of([tapered(far=-14, run=1.0)]), shop())[0] == "groove-too-narrow"


def test_slopes_too_flat_for_one_cut_are_stepped_and_followed():
    part = part_of([tapered(far=-20, run=3.0)])
    plan = plan_part(part, shop())
    floors = {s.floor_x for s in plan.steps if isinstance(s, GrooveCycle)}
    assert len(floors) == 3, "the floor and two steps up either slope"
    assert judge(part, run_of(plan), shop()).agree


def test_slopes_that_no_insert_at_hand_follows():
    code, message = stop(part_of([tapered(far=-20, run=4.7)]), shop(0.2))
    assert code == "recess-not-planned"
    assert "slopes too flat" in message
    assert "or take an insert 0.500 mm wide" in message


def test_a_point_at_the_bottom_has_no_core():
    part = part_of([(-10, -13, 34, {"shape": "tapered"})])
    assert core(part) is None
    assert stop(part, shop())[0] == "recess-not-planned"


def test_beside_a_shoulder_it_is_not_planned():
    part = part_of([tapered()], steps=[(0, 40), (-17, 50)])
    assert core(part) is None


def test_what_the_outline_shows_besides_counts():
    outline = (*PART.outline[:3], (-13.0, 17.0), (-13.0, 16.5), *PART.outline[3:])
    part = replace(PART, outline=outline)
    assert core(part) is None


def test_unlike_slopes_over_like_floors_don_t_share_a_row():
    part = part_of([tapered(), tapered(near=-19.5, far=-26.5, run=1.5), tapered(near=-30, far=-36)], length=80)
    plan = plan_part(part, shop())
    assert [o.grooves for o in plan.operations] == [(1, 3), (2,)]


@pytest.mark.parametrize(("wider", "rows"), [(0.0, [(1, 2)]), (0.019, [(1, 2)]), (0.021, [(1,), (2,)])])
@pytest.mark.parametrize("mouth", [5.995, 6.0])
def test_slopes_are_alike_whose_mouths_are_so_within_two_hundredths(mouth, wider, rows):
    """Whatever digit the one or the other would be rounded to; the core of both is 4 wide."""
    one = tapered(near=-10, far=-10 - mouth, run=mouth / 2 - 2)
    other = tapered(near=-20, far=-20 - mouth - wider, run=(mouth + wider) / 2 - 2)
    part = part_of([one, other])
    plan = plan_part(part, shop())
    assert [o.grooves for o in plan.operations] == rows
    assert judge(part, run_of(plan), shop()).agree


def test_the_tolerance_of_the_floor_is_kept():
    part = part_of([tapered(tolerances={"floor_diameter": (-0.02, 0.0), "width": (0.0, 0.2)})])
    (cycle,) = [s for s in plan_part(part, shop()).steps if isinstance(s, GrooveCycle)]
    assert cycle.floor_x == 33_990


def test_with_the_built_in_shop():
    plan = plan_part(PART, default_shop("mm"))
    assert judge(PART, run_of(plan), default_shop("mm")).agree
