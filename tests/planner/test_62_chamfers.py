"""Chamfers at the mouth: cut with the corner, offset for its radius, left alone where they can't be."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, box, unary_union
from shapely.affinity import translate
from support.parts import part_of
from support.recorder import run_of

from planner import parse_shop, plan_part
from planner.cuts.chamfers import CORNER_SHARE, chamfered, cuttable
from planner.cuts.ground import ground_of
from planner.steps import Arc, Cut, GrooveCycle, Rapid
from postproc import Heading, compare_program, dialects, judge, write_program


def shop(radius=0.2, width=3.0, more=""):
    text = f'units = "mm"\n[[tools]]\nstation = 3\nwidth = {width}\nmax_depth = 12\ncorner_radius = {radius}\n{more}'
    return parse_shop(text, "s", "mm")


INSERT = "station = 3\nwidth = 3.0\nmax_depth = 12\ncorner_radius = 0.2\n"


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


def rounded(radius, near=-10.0, far=-13.0, floor=34.0, ways=(1, -1), across=40.0, turn=math.pi / 2):
    """A part whose mouth is rounded off at its near side (1), at its far side (-1) or at both."""
    steps = [k * turn / 24 for k in range(25)]
    out = radius * math.sin(turn), radius * (1 - math.cos(turn))
    ease = [(near + out[0] - radius * math.sin(t), across / 2 - radius * (1 - math.cos(t))) for t in steps]
    rear = [(far - out[0] + radius * math.sin(t), across / 2 - radius * (1 - math.cos(t))) for t in reversed(steps)]
    line = [(0.0, across / 2), *(ease if 1 in ways else [(near, across / 2)]), (near, floor / 2), (far, floor / 2)]
    line += [*(rear if -1 in ways else [(far, across / 2)]), (-60.0, across / 2)]
    part = part_of([(near, far, floor, {"edge_chamfer": radius})], diameter=across)
    return replace(part, outline=tuple(line))


def swept_by(steps, tool):
    """What the insert takes away at feed, as shapely areas over z and radius: its outline moved in small steps."""
    low = box(-1e-9, 0, tool.width, 60)
    if tool.corner_radius:
        low = box(tool.corner_radius, tool.corner_radius, tool.width - tool.corner_radius, 60).buffer(
            tool.corner_radius, quad_segs=64
        )
    shift = 0.0 if tool.reference == "far" else -tool.width
    x, z, areas = 0.0, 0.0, []
    for step in steps:
        if isinstance(step, Rapid | Cut | Arc):
            x1, z1 = (x if step.x is None else step.x / 1000), (z if step.z is None else step.z / 1000)
            if not isinstance(step, Rapid):
                areas += [translate(low, at[0] + shift, at[1]) for at in way(step, (z, x / 2), (z1, x1 / 2))]
            x, z = x1, z1
        if isinstance(step, GrooveCycle):
            areas += [translate(low, z + shift, step.floor_x / 2000)]
    return unary_union(areas)


def way(step, start, end):
    """Places along a straight move, or along the quarter circle between two places by its centre."""
    if isinstance(step, Cut):
        return [tuple(a + (b - a) * k / 80 for a, b in zip(start, end, strict=True)) for k in range(81)]
    assert step.radius / 1000 == pytest.approx(abs(end[0] - start[0])) == pytest.approx(abs(end[1] - start[1]))
    centre, radius = (start[0], end[1]), step.radius / 1000
    # Seen with z to the right and x up, from the top of a circle to its left is counterclockwise (G03).
    assert step.clockwise is (end[0] > start[0])
    sense = 1 if end[0] > start[0] else -1
    return [
        (centre[0] + sense * radius * math.sin(t), centre[1] + radius * math.cos(t))
        for t in (k * math.pi / 160 for k in range(81))
    ]


@pytest.mark.parametrize(
    ("size", "radius", "ways", "reference"),
    [
        *((0.2, 0.2, (1,), "near"), (0.5, 0.2, (-1,), "far"), (0.5, 0.0, (1, -1), "near"), (1.0, 0.15, (1, -1), "far")),
        (0.5, 0.2, (1,), "far"),
    ],
)
def test_a_radius_at_the_mouth_is_cut_along_its_line(size, radius, ways, reference):
    part, the_shop = rounded(size, ways=ways), shop(radius, more=f'reference = "{reference}"\n')
    plan = plan_part(part, the_shop)
    assert not plan.stopped
    assert "radius-not-cut" not in {str(f.code) for f in plan.findings}
    arcs = [step for step in plan.steps if isinstance(step, Arc)]
    assert len(arcs) == len(ways)
    taken = swept_by(plan.steps, the_shop.tools[0])
    for side in ways:
        edge = -10.0 if side == 1 else -13.0
        for share in (0.02, 0.25, 0.5, 0.75, 0.98):
            turn = share * math.pi / 2
            aside, up = math.sin(turn), math.cos(turn)
            centre = edge + side * size, 20 - size
            spot = [Point(centre[0] - side * r * aside, centre[1] + r * up) for r in (size - 0.004, size + 0.004)]
            assert [taken.contains(one) for one in spot] == [False, True], (side, share)
    for name, dialect in dialects().items() if (size, len(ways)) == (1.0, 2) else ():
        written = plan_part(part, the_shop, cycles=dialect.cycles)
        text = write_program(written, dialect, Heading("a.dxf", "0" * 64)).text
        assert compare_program(part, text, the_shop, dialect).agree, name


def test_what_is_no_quarter_circle_is_named():
    told = {f.code: f.message for f in plan_part(rounded(0.5, turn=math.pi / 3), shop()).findings}
    assert "neither at 45 degrees nor by a quarter circle: this program leaves it sharp" in told["chamfer-not-cut"]
    deep = plan_part(rounded(0.5, floor=38.7), shop())
    assert "radius of 0.500 mm" in {f.code: f.message for f in deep.findings}["radius-not-cut"], (
        "the corner would go below the floor"
    )


@pytest.mark.parametrize(("floor", "cut"), [(38.59, True), (38.62, False)])
def test_how_deep_a_radius_is_cut(floor, cut):
    # 0.5 and the corner's 0.2 are less than 0.705 and more than 0.690.
    assert any(isinstance(step, Arc) for step in plan_part(rounded(0.5, floor=floor), shop()).steps) is cut


@pytest.mark.parametrize(("out", "told"), [(17.63, False), (17.60, True)])
def test_the_way_down_to_a_chamfer_counts_at_the_jaws(out, told):
    # The insert's far edge goes out to 13 + 0.5 + 0.2 (2 - sqrt 2) + 1 of clearance, and 3 are kept to the jaws.
    the_shop = parse_shop(f'units = "mm"\n[machine]\nstick_out = {out}\n[[tools]]\n{INSERT}', "s", "mm")
    plan = plan_part(PART, the_shop)
    assert ("jaws" in {f.code for f in plan.findings}) is told
    assert told or judge(PART, run_of(plan), the_shop).agree


def test_in_a_bore_the_arcs_turn_the_other_way():
    spot = {"where": "inside", "edge_chamfer": 0.5}
    part = part_of([(-10, -13, 26, spot)], bore=20.0, diameter=50)
    near = [(-9.5 - 0.5 * math.sin(t), 10.5 - 0.5 * math.cos(t)) for t in (k * math.pi / 48 for k in range(25))]
    far = [(-23.0 - z, r) for z, r in reversed(near)]
    part = replace(part, bore=((0.0, 10.0), *near, (-10.0, 13.0), (-13.0, 13.0), *far, (-60.0, 10.0)))
    the_shop = shop(more='where = "inside"\nmin_bore = 8\n')
    plan, _ = cuts(part, the_shop)
    assert [(s.x, s.z, s.radius, s.clockwise) for s in plan.steps if isinstance(s, Arc)] == [
        (21_400, -13_000, 700, True),
        (21_400, -13_000, 700, False),
    ]


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
