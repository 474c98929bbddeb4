"""Grooves whose walls are not upright, corner radii, edge chamfers: held against the drawing's own form."""

from collections.abc import Callable
from itertools import pairwise
from math import atan, degrees, sqrt
from typing import Any

import numpy as np
import pytest
from support.moves import Moves, shop, tool
from support.parts import groove_of, part_of

from extractor.part import Part
from planner.increment import Increments
from postproc import judge
from postproc.cutting.metal import Metal
from postproc.judging.form import _as_tolerated, _off, corner_line
from postproc.judging.line import DrawnLine
from postproc.judging.measure import MeasuredCut
from postproc.judging.overlay import Overlay
from postproc.judging.target import target_of
from postproc.verdict import State, Verdict

Cuts = list[tuple[float, float]]
Cutting = Callable[[Cuts], tuple[Part, Moves]]
VEE = part_of([(-10, -13, 34, {"shape": "vee"})])
# A vee 3 wide and 3 deep.
ANGLE = degrees(2 * atan(1.5 / 3))


@pytest.mark.parametrize(("width", "z"), [(3.0, -13.0), (1.0, -12.0)])
@pytest.mark.parametrize("shape", ["vee", "tapered"])
def test_a_square_insert_straight_into_another_form_is_named(width, z, shape):
    part = part_of([(-10, -13, 34, {"shape": shape})])
    _, _, found = only(part, Moves().plunge(z, 34), tool(width=width, corner_radius=0.1))
    (message,) = [f.message for f in found.findings if f.stops and f.groove == 1]
    assert message.startswith(f"Groove 1 is drawn {shape}, and T0303, which goes straight in, has a square end; take")


def test_a_square_insert_is_not_blamed_where_the_walls_lean_by_less_than_the_tolerance():
    """The walls run out by 0.01, and the shop's tolerance is 0.02."""
    part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.01})])
    _, _, found = only(part, Moves().plunge(-13, 34), tool(corner_radius=0.0))
    assert found.agree
    assert found.findings == ()


@pytest.mark.parametrize("pointed", [True, False])
def test_no_square_insert_is_blamed_for_a_path_or_a_point(pointed):
    """A path that leaves metal, and a point out of its place."""
    path = Moves().rapid(42, -11).feed(39, -11.25).rapid(42)
    moves, insert = (Moves().plunge(-13.1, 34), tool(edge="vee", angle=ANGLE)) if pointed else (path, tool(width=1.0))
    _, _, found = only(VEE, moves, insert)
    assert not found.agree
    assert "square end" not in " ".join(f.message for f in found.findings)


def test_a_square_insert_in_an_upright_groove_is_not_blamed_for_the_pointed_one_before_it():
    moves = Moves(station=5, offset=5).plunge(-12, 36)
    moves.fields |= {"station": 3, "offset": 3}
    part = part_of([(-10, -13, 34)])
    _, _, found = only(
        part, moves.plunge(-13, 35), tool(), tool(station=5, offset=5, width=1.0, edge="vee", angle=60.0)
    )
    assert not found.agree
    assert "square end" not in " ".join(f.message for f in found.findings)


def round_part() -> Part:
    """A half-round groove of radius 1.5, its outline in chords as a reader gives it."""
    plain = part_of([(-10, -13, 37, {"shape": "round"})])
    arc = [(-11.5 + 1.5 * (1 - i / 40), 20 - 1.5 * sqrt(max(0.0, 1 - (1 - i / 40) ** 2))) for i in range(81)]
    outline = ((0.0, 20.0), *arc, (-60.0, 20.0))
    return Part(units="mm", outer_diameter=40.0, length=60.0, grooves=plain.grooves, outline=outline, lands=plain.lands)


def only(part: Part, moves: Moves, *tools, **machine):
    found = judge(part, moves.run(), shop(*tools, **machine))
    return found.matches[0], {f.code for f in found.findings if f.stops}, found


@pytest.mark.parametrize(
    ("z", "floor", "angle", "state"),
    [
        (-13.0, 34.0, ANGLE, State.MATCHES),
        (-13.1, 34.0, ANGLE, State.POSITION),
        (-13.0, 33.9, ANGLE, State.DEPTH),
        (-13.0, 34.1, ANGLE, State.WIDTH),
        (-13.0, 34.0, 45.0, State.WIDTH),
    ],
)
def test_a_vee_insert_in_a_vee_groove(z, floor, angle, state):
    match, _, _ = only(VEE, Moves().plunge(z, floor), tool(edge="vee", angle=angle))
    assert match.state is state


def test_a_square_insert_makes_no_vee():
    match, codes, found = only(VEE, Moves().plunge(-13, 34), tool())
    assert match.state is State.DEPTH
    assert codes == {"form"}
    assert "drawn vee" in found.findings[0].message


def test_a_vee_left_out_is_missing():
    match, _, _ = only(VEE, Moves(), tool())
    assert match.state is State.MISSING


def test_a_round_insert_in_a_round_groove():
    assert only(round_part(), Moves().plunge(-13, 37), tool(edge="round"))[0].state is State.MATCHES
    assert only(round_part(), Moves().plunge(-13, 36.9), tool(edge="round"))[0].state is not State.MATCHES
    assert only(round_part(), Moves().plunge(-13, 37), tool(corner_radius=0.4))[0].state is not State.MATCHES


def test_a_tapered_groove_cut_along_its_walls():
    """Walls that slope 0.5 over 3 of depth; floor 2 wide, cut by a 1 mm insert wall by wall."""
    groove = groove_of(shape="tapered", near_land_diameter=40.0, far_land_diameter=40.0)
    outline = ((0.0, 20.0), (-10.0, 20.0), (-10.5, 17.0), (-12.5, 17.0), (-13.0, 20.0), (-60.0, 20.0))
    part = Part(
        units="mm",
        outer_diameter=40.0,
        length=60.0,
        grooves=(groove,),
        outline=outline,
        lands=((0.0, 20.0), (-60.0, 20.0)),
    )
    narrow = tool(width=1.0, side_depth=3.5)
    moves = Moves().rapid(42, -12.5).feed(34).feed(None, -11.5).rapid(42)
    moves.rapid(None, -13.0).feed(40).feed(34, -12.5).rapid(42)
    moves.rapid(None, -11.0).feed(40).feed(34, -11.5).rapid(42)
    assert only(part, moves, narrow)[0].state is State.MATCHES
    upright = Moves().rapid(42, -12.5).feed(34).feed(None, -11.5).rapid(42)
    assert only(part, upright, narrow)[0].state is not State.MATCHES


@pytest.mark.parametrize(
    ("drawn", "radius", "limit", "level"),
    [
        (0.0, 0.2, 0.2, None),
        (0.0, 0.4, 0.2, "caution"),
        (0.0, 0.4, 0.0, None),
        (0.4, 0.4, 0.2, None),
        (0.4, 0.42, 0.2, None),
        (0.4, 0.8, 0.2, "stop"),
    ],
)
def test_the_inserts_corner_against_the_drawn_one(drawn, radius, limit, level):
    part = part_of([(-10, -13, 34, {"corner_radius": drawn})])
    match, _, found = only(part, Moves().plunge(-13, 34), tool(corner_radius=radius), sharp_corner=limit)
    assert match.state is State.MATCHES
    assert [(f.code, f.level.value) for f in found.findings] == ([("corner-radius", level)] if level else [])


def test_like_grooves_share_one_remark():
    part = part_of([(-10 - 5 * i, -13 - 5 * i, 34) for i in range(4)])
    moves = Moves()
    for i in range(4):
        moves.plunge(-13 - 5 * i, 34)
    found = judge(part, moves.run(), shop(tool(corner_radius=0.4), sharp_corner=0.2))
    assert [f.message.split(":")[0] for f in found.findings] == ["Grooves 1 to 4"]


def chamfered(moves: Moves, size: float) -> Moves:
    """A plunge and both edges broken at 45 degrees by the insert's corners."""
    moves.plunge(-13, 34)
    moves.rapid(42, -13 - size - 0.5).feed(40 + 1.0).feed(40 - 2 * size, -13 + 0.0).rapid(42)
    return moves.rapid(None, -13 + size + 0.5).feed(40 + 1.0).feed(40 - 2 * size, -13 + 0.0).rapid(42)


def test_edge_chamfers_that_are_drawn():
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})])
    match, _, found = only(part, chamfered(Moves(), 0.5), tool())
    assert (match.state, found.findings) == (State.MATCHES, ())
    match, _, found = only(part, Moves().plunge(-13, 34), tool())
    assert (match.state, [f.code for f in found.findings]) == (State.MATCHES, ["edge-chamfer"])
    match, _, _ = only(part, chamfered(Moves(), 0.8), tool())
    assert match.state is State.WIDTH


def test_edge_chamfers_that_are_not_drawn_are_a_width():
    match, _, _ = only(part_of([(-10, -13, 34)]), chamfered(Moves(), 0.5), tool())
    assert match.state is State.WIDTH


def verdict_of(radius: float, overlap: float) -> Verdict:
    far = -16 + overlap
    part = part_of([(-10, far, 34)])
    return judge(part, Moves().plunge(-13, 34).plunge(far, 34).run(), shop(tool(corner_radius=radius)))


@pytest.mark.parametrize("radius", [0.1, 0.2, 0.4])
@pytest.mark.parametrize("share", [0.2, 0.9, 1.5, 2.0])
def test_the_ridge_between_two_plunges(radius, share):
    """Height of the ridge by the circle's equation; told exactly where it passes the tolerance."""
    overlap = round(radius * share, 3)
    aside = max(0.0, radius - overlap / 2)
    ridge = 2 * (radius - sqrt(radius**2 - aside**2))
    if abs(ridge - 0.02) > 0.003:
        assert verdict_of(radius, overlap).agree is (ridge < 0.02)


def test_a_vee_in_a_bore():
    """Three wide and 1.5 deep at 90 degrees, cut outward from a bore of 20."""
    groove = groove_of(
        where="inside",
        shape="vee",
        mouth_diameter=20.0,
        floor_diameter=23.0,
        near_land_diameter=20.0,
        far_land_diameter=20.0,
    )
    bore = ((0.0, 10.0), (-10.0, 10.0), (-11.5, 11.5), (-13.0, 10.0), (-40.0, 10.0))
    outside = ((0.0, 25.0), (-40.0, 25.0))
    part = Part(
        units="mm", outer_diameter=50.0, length=40.0, grooves=(groove,), outline=outside, lands=outside, bore=bore
    )
    vee = tool(where="inside", edge="vee", angle=90.0)

    def cut(floor: float, insert):
        return only(part, Moves(18, 5).rapid(18, -13).feed(floor).rapid(18).rapid(None, 5), insert)

    assert cut(23.0, vee)[0].state is State.MATCHES
    assert cut(22.8, vee)[0].state is State.WIDTH
    assert cut(23.0, tool(where="inside"))[0].state is State.DEPTH


def test_the_land_between_two_chamfers_is_left_by_the_corner_radius():
    """Chamfers 0.5 wide on either side of a land 1.06 wide; the path is offset for the radius 0.2 (2 - sqrt 2)."""
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5}), (-14.06, -17.06, 34, {"edge_chamfer": 0.5})])
    more, moves = 0.2 * (2 - sqrt(2)), Moves()
    for z in (-13.0, -17.06):
        moves.plunge(z, 34)
        for side in (-1, 1):
            begin = z + side * (0.5 + more + 0.5)
            moves.rapid(42, begin).feed(41.0).feed(41.0 - 2 * (1.0 + more), z).rapid(42)
    _, codes, found = only(part, moves, tool(corner_radius=0.2), sharp_corner=0.2)
    assert found.agree, found
    assert codes == set()


def test_a_chamfer_close_over_a_large_corner_radius_is_no_width():
    """Depth 1.07, corner radius 0.8 and chamfer 0.3 leave no upright wall; the path is offset for the radius."""
    part = part_of([(-10, -13, 40 - 2.14, {"edge_chamfer": 0.3, "corner_radius": 0.8})])
    more, moves = 0.1 * (2 - sqrt(2)), Moves().plunge(-13, 40 - 2.14)
    for side in (-1, 1):
        moves.rapid(42, -13 + side * (0.3 + more + 0.5)).feed(41.0).feed(41.0 - 2 * (0.8 + more), -13.0).rapid(42)
    _, codes, found = only(part, moves, tool(corner_radius=0.1), sharp_corner=0.2)
    assert found.agree, found
    assert codes == set()


@pytest.mark.parametrize("depth", [0.45, 0.53, 0.8])
def test_a_shallow_chamfered_groove_hardly_deeper_than_the_inserts_corner(depth):
    part = part_of([(-10, -13, 40 - 2 * depth, {"edge_chamfer": 0.3})])
    more, moves = 0.2 * (2 - sqrt(2)), Moves().plunge(-13, 40 - 2 * depth)
    for side in (-1, 1):
        begin = -13 + side * (0.3 + more + 0.5)
        moves.rapid(42, begin).feed(41.0).feed(40 - 2 * (0.3 + more), begin - side * (0.8 + more)).rapid(42)
    _, codes, found = only(part, moves, tool(corner_radius=0.2), sharp_corner=0.2)
    assert found.agree, found
    assert codes == set()


class TestBand:
    """How far a cut may lie off a drawn line: the tolerance in height, or the tolerance along u, not both added up."""

    DROP = 20

    @staticmethod
    def off(line, cut):
        """What a cut through (u, h) points is off a drawn line through others."""
        drawn = DrawnLine(tuple((float(u), float(h)) for u, h in line))
        pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(cut) if b > a]
        profile = Metal(pieces).profile()
        overlay = Overlay.of(profile, profile, cut[0][0], cut[-1][0])
        return _off(overlay, (drawn, drawn), (line[0][0] + 100, line[-1][0] - 100), TestBand.DROP)

    def test_the_cut_beside_a_place_is_looked_at_a_count_to_either_side(self):
        """By hand: a slope of 3 in 1, a step of 40 at 20, a level; over the window's ends nothing is looked at."""
        pieces = [(0, 0, 20, 60), (20, 100, 30, 100)]
        profile = Metal(pieces).profile()
        low, high = Overlay.of(profile, profile, 0, 30).beside(np.array([0, 1, 19, 20, 21, 30]))
        assert low.tolist() == [0, 0, 54, 57, 100, 100]
        assert high.tolist() == [3, 6, 60, 100, 100, 100]

    @pytest.mark.parametrize(("by", "told"), [(20, False), (-20, False), (21, True), (-21, True)])
    def test_a_level_line_in_height(self, by, told):
        found = self.off([(0, 0), (5000, 0), (10_000, 0)], [(0, by), (10_000, by)])
        assert (found is not None) is told
        if found:
            assert found[1] == by

    @pytest.mark.parametrize(("by", "told"), [(20, False), (-20, False), (23, True), (-23, True)])
    def test_an_upright_wall_along_u(self, by, told):
        line = [(0, 0), (5000, 0), (5000, 6000), (10_000, 6000)]
        cut = [(0, 0), (5000 + by, 0), (5000 + by, 6000), (10_000, 6000)]
        assert (self.off(line, cut) is not None) is told

    @pytest.mark.parametrize(("by", "told"), [(20, False), (-20, False), (23, True), (-23, True)])
    def test_a_slope_by_whichever_is_nearer(self, by, told):
        # Two counts of height for one along u: moved by so much along u it is twice that off in height.
        line, cut = [(0, 0), (5000, 10_000), (10_000, 20_000)], [(-500, -1000 - 2 * by), (10_500, 21_000 - 2 * by)]
        assert (self.off(line, cut) is not None) is told


def test_a_drawn_line_moves_each_wall_by_its_own_and_keeps_its_mouth():
    """A level floor of 2000 between walls that lean alike; each half goes with its wall."""
    line = DrawnLine(((-14_000, 40_000), (-13_000, 34_000), (-11_000, 34_000), (-10_000, 40_000)))
    moved = line.moved((-10.0, 20.0), -100.0, 40_000.0)
    assert moved.points == ((-14_010, 40_000), (-13_010, 33_900), (-10_980, 33_900), (-9_980, 40_000))


SLOPING = DrawnLine(((-14_000, 40_000), (-13_000, 34_000), (-11_000, 34_000), (-10_000, 40_000)))


@pytest.mark.parametrize(
    ("tolerances", "moved", "deeper"),
    [
        ({}, False, False),
        ({"width": (0.0, 0.2)}, True, False),
        ({"z_near": (-0.1, 0.1)}, True, False),
        ({"floor_diameter": (-0.2, 0.0)}, False, True),
        ({"depth": (0.0, 0.1)}, False, True),
        ({"width": (0.0, 0.2), "floor_diameter": (-0.2, 0.0)}, True, True),
    ],
)
def test_the_drawn_line_goes_along_with_what_the_drawing_itself_gives_a_tolerance(tolerances, moved, deeper):
    groove = part_of([(-10, -14, 34, {"shape": "tapered", "tolerances": tolerances})]).grooves[0]
    target = target_of(groove, Increments.of("mm"), 0.02)
    line = _as_tolerated(target, SLOPING, (-14_030, -9_980), 33_900)
    assert line.points[0][0] == (-14_030 if moved else -14_000)
    assert line.points[-1][0] == (-9_980 if moved else -10_000)
    assert line.points[1][1] == (33_900 if deeper else 34_000)


def test_a_line_with_round_corners_stands_between_walls_and_floor_as_measured():
    found = MeasuredCut(u0=-13_000, u1=-10_000, floor=34_000, state=State.MATCHES, difference={})
    assert corner_line(found, 40_000, 0).points == (
        (-13_000, 40_000),
        (-13_000, 34_000),
        (-10_000, 34_000),
        (-10_000, 40_000),
    )
    # A radius of 500 counts: half-way round, the arc stands 500 (1 - cos 45) off wall and floor; twice on the diameter.
    low, high = corner_line(found, 40_000, 500).range(-13_000 + 146.4, -13_000 + 146.5)
    assert (low, high) == pytest.approx((34_000 + 2 * 146.4, 34_000 + 2 * 146.4), abs=1.0)


@pytest.mark.parametrize(
    ("aside", "foot", "state"),
    [
        (0.6, 34.0, State.MATCHES),  # both walls down to the floor: corners sharper than drawn
        (0.6, 35.2, State.DEPTH),  # 0.6 by 0.6 left, where a radius of 0.8 leaves 0.235 in the diagonal
        (0.1, 34.8, State.MATCHES),  # at 0.1 from the wall the circle stands 0.413 high
        (0.1, 35.0, State.DEPTH),
    ],
)
@pytest.mark.parametrize("where", ["outside", "inside", "face"])
def test_a_step_left_in_a_corner_drawn_round_is_metal_left(aside, foot, state, where):
    """The circle of radius 0.8 stands 0.8 - sqrt(0.8**2 - (0.8 - a)**2) high at a distance a from its wall."""
    cuts = [(0, foot - 34), (aside, 0), (1.5, 0), (3 - aside, 0), (3, foot - 34)]
    match, codes, _ = only(*RINGED[where](cuts), tool(corner_radius=0.2, where=where))
    assert (match.state, codes) == (state, set() if state is State.MATCHES else {"form"})


def _along_z(floor: float, home: float, way: int, **part: Any) -> Cutting:
    """A groove 6 wide from Z-10, and a path that plunges at distances behind its near wall to heights on the floor."""

    def made(cuts: Cuts) -> tuple[Part, Moves]:
        moves = Moves().rapid(home, 2)
        for aside, high in cuts:
            moves.plunge(-13 - aside, floor + way * high, home)
        where = "inside" if "bore" in part else "outside"
        return part_of([(-10, -16, floor, {"corner_radius": 0.8, "where": where})], **part), moves

    return made


def _in_face(cuts: Cuts) -> tuple[Part, Moves]:
    """The like in the face, between the diameters 22 and 34 and 4 deep, plunged from the inner wall outward."""
    moves = Moves().rapid(22, 2)
    for aside, high in cuts:
        moves.rapid(22 + 2 * aside).feed(z=-4 + high / 2).rapid(z=2)
    return part_of([(0, -4, 22, {"where": "face", "mouth_diameter": 34.0, "corner_radius": 0.8})]), moves


RINGED: dict[str, Cutting] = {
    "outside": _along_z(34, 42, 1),
    "inside": _along_z(46, 38, -1, diameter=60.0, bore=40.0),
    "face": _in_face,
}


def faced(shape: str, depth: float, radius: float = 0.0) -> Part:
    """A groove in the face between the diameters 24 and 32."""
    return part_of(
        [(0, -depth, 24, {"where": "face", "shape": shape, "mouth_diameter": 32.0, "corner_radius": radius})]
    )


def into_face(part: Part, depth: float, edge: str, width: float = 4.0):
    moves = Moves().rapid(24, 2).feed(z=-depth).rapid(z=2)
    return only(part, moves, tool(where="face", edge=edge, width=width, max_depth=9.0))


@pytest.mark.parametrize("depth", [2.0, 3.5])
@pytest.mark.parametrize(("edge", "state"), [("round", State.MATCHES), ("square", State.DEPTH)])
def test_a_half_round_floor_in_a_face_is_made_by_a_round_insert(depth, edge, state):
    match, codes, _ = into_face(faced("round", depth, 2.0), depth, edge)
    assert (match.state, codes) == (state, {"form"} if edge == "square" else set())


@pytest.mark.parametrize(
    ("shape", "depth", "radius", "held"),
    [
        ("round", 3.0, 2.02, True),
        ("round", 3.0, 2.021, False),
        ("round", 1.98, 2.0, True),
        ("round", 1.979, 2.0, False),
        ("vee", 3.0, 0.0, False),
        ("tapered", 3.0, 0.0, False),
        ("other", 3.0, 0.0, False),
    ],
)
def test_a_form_in_a_face_of_which_no_line_is_kept_is_taken_for_no_cut(shape, depth, radius, held):
    """The shop's tolerance is 0.02: so far the radius may be off half the width, and the depth short of the radius."""
    match, _, found = into_face(faced(shape, depth, radius), depth, "round")
    assert held is not any("not held against a cut there" in f.message for f in found.findings if f.stops)
    assert held or match.state is not State.MATCHES
