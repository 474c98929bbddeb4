"""Chamfers at the mouth: cut with the corner, offset for its radius, left alone where they can't be."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.parts import part_of
from support.recorder import run_of

from planner import parse_shop, plan_part
from planner.cuts.chamfers import CORNER_SHARE, chamfered, cuttable
from planner.cuts.ground import ground_of
from planner.steps import Cut, Rapid
from postproc import judge


def shop(radius=0.2, width=3.0, more=""):
    text = f'units = "mm"\n[[tools]]\nstation = 3\nwidth = {width}\nmax_depth = 12\ncorner_radius = {radius}\n{more}'
    return parse_shop(text, "s", "mm")


def cuts(part, the_shop):
    plan = plan_part(part, the_shop)
    assert not plan.stopped
    assert judge(part, run_of(plan), the_shop).agree
    return plan, [step for step in plan.steps if isinstance(step, Cut)]


PART = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})])


def test_a_sharp_corner_follows_the_line():
    plan, moves = cuts(PART, shop(radius=0.0))
    assert moves == [Cut(800, x=39_000, z=-13_000), Cut(800, x=39_000, z=-13_000)]
    way = [s for s in plan.operations[0].steps if isinstance(s, Rapid) and s.z is not None]
    # From a clearance of 1 above the land, so 1 farther out along Z as well: 45 degrees.
    assert [s.z for s in way[-2:]] == [-13_000 + 1500, -13_000 - 1500]


def test_a_radius_goes_farther_in():
    # An arc that touches a line at 45 degrees: r (2 - sqrt 2) along either axis, geometry of a tangent arc.
    _, moves = cuts(PART, shop(radius=0.2))
    assert {m.x for m in moves} == {40_000 - 2 * (500 + math.ceil(200 * (2 - math.sqrt(2))))}


@given(st.floats(0.0, 1.0), st.floats(0.1, 2.0))
def test_the_offset_makes_the_arc_touch_the_line(radius, leg):
    # Sharp corner at (leg + share r, 0) before a line x + y = leg: its arc's centre is r in from both sides.
    centre = (leg + CORNER_SHARE * radius - radius, -radius)
    distance = (leg - (centre[0] + centre[1])) / math.sqrt(2)
    assert distance == pytest.approx(radius)


@pytest.mark.parametrize("width", [2.0, 3.0])
@pytest.mark.parametrize("reference", ["near", "far"])
def test_either_edge_and_a_wider_groove(width, reference):
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.3}), (-20, -23, 34, {"edge_chamfer": 0.3})])
    _, moves = cuts(part, shop(width=width, more=f'reference = "{reference}"\n'))
    assert len(moves) == 4


@given(st.floats(0.15, 0.8), st.floats(0, 0.2), st.floats(3.0, 9.0))
@settings(max_examples=30, deadline=None)
def test_what_is_cut_compares_right(leg, radius, width):
    leg, width = round(leg, 2), round(width, 2)
    part = part_of([(-10, -10 - width, 34, {"edge_chamfer": leg})])
    _, moves = cuts(part, shop(radius=round(radius, 2)))
    assert len(moves) == 2


def test_drawn_on_one_side_only():
    outline = ((0.0, 20.0), (-9.5, 20.0), (-10.0, 19.5), (-10.0, 17.0), (-13.0, 17.0), (-13.0, 20.0), (-60.0, 20.0))
    part = replace(PART, outline=outline)
    assert chamfered(part.grooves[0], ground_of(part, part.grooves[0]), 0.02) == (True, False)
    plan = plan_part(part, shop(radius=0.0))
    assert len([s for s in plan.steps if isinstance(s, Cut)]) == 1


def test_a_rounded_rim_is_not_a_chamfer():
    arc = [(-9.5 - 0.5 * math.sin(t), 19.5 + 0.5 * math.cos(t)) for t in (0.0, 0.4, 0.8, 1.2, math.pi / 2)]
    outline = ((0.0, 20.0), *arc, (-10.0, 17.0), (-13.0, 17.0), (-13.0, 20.0), (-60.0, 20.0))
    part = replace(PART, outline=outline)
    assert chamfered(part.grooves[0], ground_of(part, part.grooves[0]), 0.02) == (False, False)


def test_no_room_beside_a_shoulder():
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})], steps=[(0, 40), (-14, 50)])
    side = ground_of(part, part.grooves[0])
    assert cuttable(part.grooves[0], side, shop().tools[0], shop()) == (True, False)
    plan = plan_part(part, shop())
    assert "chamfer-not-cut" in {f.code for f in plan.findings}


def test_too_shallow_for_the_corner():
    part = part_of([(-10, -13, 38.8, {"edge_chamfer": 0.5})])
    assert cuttable(part.grooves[0], ground_of(part, part.grooves[0]), shop().tools[0], shop()) == (False, False)


def test_the_reason_says_how():
    plan, _ = cuts(PART, shop())
    assert any("0.117 mm farther in along each axis for its radius" in why for why in plan.operations[0].why)


def test_a_start_above_a_collar_comes_down_to_the_land_first():
    spots = [(-10, -13, 34, {"edge_chamfer": 0.5}), (-50, -53, 34, {"edge_chamfer": 0.5})]
    # A low collar: over a high one the row would be parted, and each part start at the land.
    part = part_of(spots, steps=[(0, 40), (-20, 42), (-40, 40)], length=80)
    plan, moves = cuts(part, shop(radius=0.0))
    assert len(moves) == 4
    assert [s.x for s in plan.operations[0].steps if isinstance(s, Rapid) and s.x].count(42_000) == 4
