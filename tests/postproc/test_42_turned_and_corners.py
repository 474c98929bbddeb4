"""Where a point is, and what it turns; and which of its cuts an insert with round corners makes anew.

Every place is worked out by hand. A part of 40 with a bore of 20: half-way between the two lies a diameter of 30.
"""

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from extractor.side import SIDES
from planner.increment import Increments
from postproc import judge
from postproc.cutting.corners import rounded_profile
from postproc.cutting.metal import FAR
from postproc.cutting.stock import Bench
from postproc.cutting.turned import Point, Turned, way
from postproc.motion import Motion

MM = Increments.of("mm")
HOLLOW = part_of([], bore=20.0)
ENDLESS = 1_073_741_824


def motion(x0: float, z0: float, x1: float, z1: float, **fields) -> Motion:
    usual = {"line": 1, "station": 9, "offset": 9}
    return Motion("feed", *(MM.count(v) for v in (x0, z0, x1, z1)), **usual | fields)


@pytest.mark.parametrize(
    ("x0", "z0", "known", "inside"),
    [
        (29.998, -5, {}, True),
        (29.999, -5, {}, True),
        (30, -5, {}, False),
        (18, -0.001, {}, True),
        (18, 0, {}, False),
        (18, -5, {"x0_known": False}, False),
        (18, -5, {"z0_known": False}, False),
    ],
)
def test_a_point_that_begins_behind_the_face_is_in_the_bore_by_where_it_stands(x0, z0, known, inside):
    turned = Turned(HOLLOW, MM)
    assert turned.at == Point(0, inside=False)
    assert turned.follow(motion(x0, z0, x0, 5, **known)) is inside
    assert turned.at == Point(9, inside)


@pytest.mark.parametrize(("z1", "inside"), [(0.001, False), (0, False), (-0.001, True)])
def test_a_point_is_in_the_bore_once_it_is_behind_the_face(z1, inside):
    assert Turned(HOLLOW, MM).follow(motion(18, 5, 18, z1)) is inside


@pytest.mark.parametrize(("known", "inside"), [({}, True), ({"x0_known": False}, False), ({"z0_known": False}, False)])
def test_a_way_from_a_place_never_said_comes_in_where_it_ends(known, inside):
    """From 0 in front by 10 to 42 behind by 10 it passes the face at 21."""
    assert Turned(HOLLOW, MM).follow(motion(0, 10, 42, -10, **known)) is inside


@pytest.mark.parametrize(("x1", "inside"), [(41.998, True), (42, False)])
def test_a_slope_comes_in_at_the_diameter_that_it_has_at_the_face(x1, inside):
    """From 18 in front by 10 to 42 behind by 10: half-way at 30, which is no bore any more."""
    assert Turned(HOLLOW, MM).follow(motion(18, 10, x1, -10)) is inside


def test_a_point_stays_where_it_came_in_till_another_station_is_at_work():
    turned = Turned(HOLLOW, MM)
    assert turned.follow(motion(18, 5, 18, -10))
    assert turned.follow(motion(18, -10, 36, -10))
    assert turned.follow(motion(36, -10, 18, 5))
    assert not turned.follow(motion(42, -10, 36, -10, station=8))
    assert turned.follow(motion(18, -10, 18, -12, station=9))


def test_nothing_is_turned_before_the_first_cut():
    """Outside is a bar without end up to the face, inside a solid down to the axis."""
    turned = Turned(HOLLOW, MM)
    for inside, height in ((False, ENDLESS), (True, 0)):
        profile = turned.profile(inside)
        assert profile.u.tolist() == [-FAR, -ENDLESS, 0, FAR]
        assert profile.start.tolist() == profile.end.tolist() == [-FAR, height, -FAR]


def test_a_point_takes_all_above_its_way_on_its_own_side():
    turned = Turned(HOLLOW, MM)
    for one in (motion(18, 5, 18, -10, line=4), motion(36, 5, 40, -10, station=8, line=5)):
        turned.follow(one)
        turned.cut(one)
    bore, outside = turned.profile(True), turned.profile(False)
    assert bore.within(-20_000, 0).u.tolist() == [-20_000, -10_000, 0]
    assert bore.within(-20_000, 0).start.tolist() == [0, -18_000]
    assert bore.within(-20_000, 0).line.tolist() == [0, 4]
    # From 36 at 5 to 40 at -10: at the face it is 5/15 of the way, on 37.333.
    cut = outside.within(-10_000, 0)
    assert (cut.start.tolist(), cut.end.tolist(), cut.line.tolist()) == ([40_000], [37_333], [5])


def test_the_way_of_a_point_is_in_the_frame_of_its_side():
    one = motion(18, 5, 20, -10)
    assert way(one, False) == [(-10_000, 20_000, 5_000, 18_000)]
    assert way(one, True) == [(-10_000, -20_000, 5_000, -18_000)]
    assert way(motion(18, 5, 20, 5), False) == []
    assert way(motion(18, 5, 20, 5.001), False) == [(5_000, 18_000, 5_001, 20_000)]


def rounded(moves: Moves, where: str, part=HOLLOW):
    """The profile of one side with the corners of an insert 3 wide, 0.2 round."""
    bench = Bench(part, [tool(where=where, corner_radius=0.2)], MM)
    for one in moves.motions:
        if one.kind == "feed":
            bench.cut(one, bench.insert(one))
    return rounded_profile(moves.motions, bench, part, SIDES[where])


@pytest.mark.parametrize(
    ("where", "deep", "out", "short", "floor"),
    [("outside", 34, 42, 38, 34_000), ("inside", 26, 18, 22, -26_000)],
)
def test_a_cut_that_begins_at_its_floor_counts_by_that(where, deep, out, short, floor):
    """Out at feed from its floor, then in again less deep at the same place: the floor stays where it was."""
    moves = Moves(deep, -13).feed(out).feed(short).rapid(out)
    at = rounded(moves, where).within(-12_000, -11_000)
    assert at.start.tolist() == at.end.tolist() == [floor]
    assert at.line.tolist() == [moves.motions[0].line]


def test_a_face_is_cut_by_the_deepest_along_z():
    moves = Moves(24, -4).feed(None, 2).feed(None, -1).rapid(None, 2)
    # Its outer edge lies 3 farther out on the radius: what is level between its corners runs from 24.4 to 29.6.
    at = rounded(moves, "face", part_of([], bore=20.0)).within(25_000, 29_000)
    assert at.start.tolist() == at.end.tolist() == [-4_000]


def test_the_same_cut_made_again_leaves_the_line_of_the_first():
    moves = Moves(42, -13).feed(34).rapid(42).feed(34).rapid(42)
    at = rounded(moves, "outside").within(-12_000, -11_000)
    assert at.line.tolist() == [moves.motions[0].line]


@pytest.mark.parametrize("land", [30_000, 36_000, 40_000])
def test_a_bar_is_turned_down_to_its_land_by_a_way_over_it_on_it_or_below_it(land):
    """A bar of 50 over a land of 36: nothing is taken below the land, and nothing more when it is gone over again."""
    bench = Bench(part_of([], diameter=36), [tool()], MM, stock=50.0)
    for taken in [(-10_000, max(land, 36_000), 0, max(land, 36_000))], []:
        assert bench.turn((-10_000, land, 5_000, land), 7) == taken
    at = bench.outside.profile().within(-20_000, 0)
    assert at.u.tolist() == [-20_000, -10_000, 0]
    assert at.start.tolist() == [50_000, max(land, 36_000)]


def test_a_way_that_crosses_a_land_takes_what_lies_over_both():
    """From 40 behind by 10 down to 32 at the face: on 36 half-way."""
    bench, other = (Bench(part_of([], diameter=36), [tool()], MM, stock=50.0) for _ in range(2))
    taken = [(-10_000, 40_000, -5_000, 36_000), (-5_000, 36_000, 0, 36_000)]
    assert bench.turn((-10_000, 40_000, 0, 32_000), 7) == taken
    assert other.turn((-10_000, 40_000, 0, 36_000), 7) == [(-10_000, 40_000, 0, 36_000)]
    assert Bench(part_of([], diameter=36), [tool()], MM).turn((-10_000, 40_000, 0, 40_000), 7) == []


def test_the_deeper_of_two_cuts_in_a_bore_counts_wherever_they_begin():
    at = rounded(Moves(16, -13).feed(26).rapid(18).feed(22).rapid(18), "inside").within(-12_000, -11_000)
    assert at.start.tolist() == [-26_000]


def test_a_slope_is_made_anew_beside_a_deeper_one_from_the_same_place():
    moves = Moves(42, -13).feed(34, -20).rapid(42, -13).feed(30, -14).rapid(42)
    at = rounded(moves, "outside").within(-19_000, -18_500)
    # On the way to 34 it leaves less than 36.5 there; its corner of 0.2 stands on the far side of that.
    assert int(at.start.max()) < 36_500


def test_a_rapid_cuts_nothing_anew():
    at = rounded(Moves(42, -13).rapid(34).rapid(42).rapid(None, -33).feed(34).rapid(42), "outside")
    assert [at.within(z, z + 1_000).start.tolist() for z in (-12_000, -32_000)] == [[40_000], [34_000]]


@pytest.mark.parametrize("floor", [34.4, 34.398, 34.1, 34.002, 34.0])
def test_a_rib_between_two_plunges_goes_with_a_third_cut_that_does_not_reach_their_floor(floor):
    """Corners of 0.2 leave a rib of 0.4 on the diameter where 3 wide meets 3 wide; a cut over it takes what is higher.

    The third lies with its middle over the rib, far from its own corners.
    """
    moves = Moves().plunge(-16, 34).plunge(-13, 34).plunge(-14.5, floor)
    for order in (moves.motions, moves.motions[6:] + moves.motions[:6]):
        one = Moves()
        one.motions = list(order)
        rib = rounded(one, "outside").within(-13_100, -12_900)
        assert max(*rib.start.tolist(), *rib.end.tolist()) == round(1000 * floor)


def test_a_rib_in_a_bore_and_on_a_face_goes_with_a_third_cut_too():
    """In a bore of 20 floors of 26 leave a rib up to 25.6; on a face 4 deep, 3 wide on the radius, one of 0.2."""
    bore = Moves(18, -16).feed(26).rapid(18).rapid(None, -13).feed(26).rapid(18)
    face = Moves(24, 2).feed(None, -4).rapid(None, 2).rapid(30).feed(None, -4).rapid(None, 2)
    for over in (False, True):
        if over:
            bore.rapid(None, -14.5).feed(25.9).rapid(18)
            face.rapid(27).feed(None, -3.95).rapid(None, 2)
        ribs = [rounded(bore, "inside").within(-13_100, -12_900), rounded(face, "face").within(29_900, 30_100)]
        assert [int(one.end.max()) for one in ribs] == ([-25_900, -3_950] if over else [-25_600, -3_800])


def test_a_cut_as_high_over_a_floor_as_its_corners_leaves_no_line_there():
    """What it takes stood no higher than what the others leave: the wall, the rib and the floor are of theirs."""
    moves = Moves().plunge(-16, 34).plunge(-13, 34).plunge(-14.5, 34.4)
    lines = rounded(moves, "outside").within(-15_900, -10_100).line.tolist()
    assert set(lines) == {moves.motions[1].line, moves.motions[4].line}


@pytest.mark.parametrize(("floor", "uneven"), [(34.02, False), (34.022, True)])
def test_going_over_a_floor_within_the_tolerance_is_enough(floor, uneven):
    """What stands is within 0.02 then, as the floor may be (`support.moves.shop`)."""
    moves = Moves().plunge(-16, 34).plunge(-13, 34).plunge(-14.5, floor)
    told = judge(part_of([(-10, -16, 34)]), moves.run(), shop(tool(corner_radius=0.2))).findings
    assert ("floor-uneven" in [f.code for f in told]) is uneven


def test_a_rib_is_as_high_as_the_largest_corner_of_its_side():
    """Corners of 0.4 leave 0.8 on the diameter; another insert with corners of 0.1 takes what is over 0.5 of it."""
    large, small = tool(corner_radius=0.4), tool(station=5, offset=5, corner_radius=0.1)
    moves = Moves().plunge(-16, 34).plunge(-13, 34)
    over = Moves(station=5, offset=5).plunge(-14.5, 34.5)
    bench = Bench(part_of([]), [large, small], MM)
    every = [*moves.motions, *over.motions]
    for one in every:
        if one.kind == "feed":
            bench.cut(one, bench.insert(one))
    rib = rounded_profile(every, bench, part_of([]), SIDES["outside"]).within(-13_100, -12_900)
    assert max(*rib.start.tolist(), *rib.end.tolist()) == 34_500


def test_ways_across_a_face_from_one_place_are_all_made_anew():
    """Along 4 behind the face from 24 to 30, then 5 behind it to 27: 3 wide on the radius is 6 across."""
    moves = Moves(24, 2).feed(None, -4).feed(30).rapid(None, 2).rapid(24).feed(None, -5).feed(27).rapid(None, 2)
    face = rounded(moves, "face")
    found = [face.within(x, x + 500) for x in (30_000, 34_000)]
    assert [(one.start.tolist(), one.end.tolist()) for one in found] == [([-5_000], [-5_000]), ([-4_000], [-4_000])]
