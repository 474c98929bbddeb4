"""The metal that each side begins with and what is taken of it, at ends of pieces and between the sides, by hand."""

import random
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.moves import Moves, tool
from support.parts import part_of

from extractor.side import FACE, INSIDE, OUTSIDE
from planner.increment import Increments
from postproc import cut_profile
from postproc.cutting.corners import rounded_profile
from postproc.cutting.insert import _lower_hull, insert_of
from postproc.cutting.metal import FAR, CutProfile, Metal
from postproc.cutting.stock import Bench, _closed, _upper, drawn_metal, part_pieces
from postproc.cutting.turned import Turned
from postproc.judging.unsafe_room import _InFront
from postproc.motion import THREADS, Motion

MM = Increments.of("mm")


@pytest.mark.parametrize(
    ("part", "across"),
    [
        # half of 40; the same where the profile comes up the face from the axis; half-way between a bore and 40
        (part_of([], diameter=40), 20.0),
        (replace(part_of([], diameter=40), lands=((0.0, 0.0), (0.0, 20.0), (-60.0, 20.0))), 20.0),
        (part_of([], diameter=40, bore=20.0), 30.0),
        (replace(part_of([], diameter=40, bore=20.0), bore=((0.0, 10.0), (-60.0, 15.0))), 30.0),
        # of a stepped one its first land counts, whatever comes behind
        (part_of([], steps=[(0, 40), (-20, 60)]), 20.0),
        (part_of([], steps=[(0, 40), (-20, 30)], bore=20.0), 30.0),
    ],
)
def test_a_point_is_in_the_bore_nearer_to_it_than_to_the_outside(part, across):
    for x, inside in ((across - 0.001, True), (across, False)):
        count = MM.count(x)
        assert Turned(part, MM).follow(Motion("feed", count, 5, count, -5, 1, 9, 9)) is inside


def test_a_piece_is_taken_off_the_land_below_it_alone():
    part = part_of([], steps=[(0, 40), (-30, 56)], length=60)
    bench = Bench(part, [tool()], MM, stock=70.0)
    assert bench.turn((-30_000, 60_000, 5_000, 60_000), 7) == [(-30_000, 60_000, 0, 60_000)]
    assert _upper((0, 40, 10, 40), (10, 30, 20, 30)) == _upper((10, 40, 20, 40), (0, 30, 10, 30)) == []


def test_a_groove_is_closed_between_pieces_that_end_at_its_walls():
    pieces = [(-60, -20, -13, -20), (-13, -26, -10, -26), (-10, -20, 0, -22)]
    assert _closed(pieces, [(-13, -10, -20)]) == [(-60, -20, -13, -20), (-13, -20, -10, -20), (-10, -20, 0, -22)]
    # Half a piece is left on either side, level with its own end.
    assert _closed([(-60, -20, 0, -22)], [(-13, -10, -30)]) == [
        (-60, -20, -13, -20),
        (-13, -30, -10, -30),
        (-10, -22, 0, -22),
    ]


@pytest.mark.parametrize("seed", range(40))
def test_closed_stretches_stand_as_if_closed_one_by_one(seed):
    # Count by count, as a list of heights; stretches overlap, touch, and lie within one another.
    rng = random.Random(seed)
    ends = sorted(rng.sample(range(-60, 1), rng.randrange(3, 9)))
    pieces = [(a, height, b, height) for a, b in pairwise(ends) for height in (-rng.randrange(20, 26),)]
    heights = {u: height for a, height, b, _ in pieces for u in range(a, b)}
    stretches = []
    for _ in range(rng.randrange(1, 7)):
        far, near = sorted(rng.sample(range(ends[0], ends[-1] + 1), 2))
        stretches.append((far, near, -rng.randrange(26, 40)))
        heights |= dict.fromkeys(range(far, near), stretches[-1][2])
    closed = _closed(pieces, stretches)
    assert all(one[2] == other[0] for one, other in pairwise(closed))
    assert {u: height for a, height, b, end in closed for u in range(a, b) if height == end} == heights


def test_slopes_beside_closed_stretches_are_level_with_their_own_ends():
    assert _closed([(-60, -20, 0, -32)], [(-50, -40, -40), (-30, -20, -40)]) == [
        (-60, -20, -50, -20),
        (-50, -40, -40, -40),
        (-40, -20, -30, -20),
        (-30, -40, -20, -40),
        (-20, -32, 0, -32),
    ]


@pytest.mark.parametrize("place", range(-60, 0))
def test_what_stands_before_a_place_in_a_bore_is_the_highest_of_all_that_does(place):
    pieces = [(-60, -20, -50, -20), (-50, -26, -30, -22), (-30, -30, -29, -30), (-29, -24, -5, -34), (-5, -33, 0, -33)]
    ends = [h + (k - h) * (u - a) / (b - a) for a, h, b, k in pieces for u in (max(a, place), b) if b > place]
    assert _InFront(Metal(pieces)).highest(place) == pytest.approx(max(ends), abs=0.5)


def test_a_finished_bore_has_the_grooves_of_the_bore():
    inner = (-30, -33, 26, {"where": "inside", "mouth_diameter": 20.0})
    part = part_of([(-10, -13, 34), inner], bore=20.0)
    found = drawn_metal(part, MM, INSIDE).profile().within(-60_000, 0)
    assert found.u.tolist() == [-60_000, -33_000, -30_000, 0]
    assert found.start.tolist() == [-20_000, -26_000, -20_000]


def test_a_bore_that_no_tool_cuts_is_solid():
    found = cut_profile(Moves().motions, [tool()], part_of([]), MM, side=INSIDE)
    assert found.u.tolist() == [-FAR, -FAR // 2, 0, FAR]
    assert found.start.tolist() == found.end.tolist() == [-FAR, 0, -FAR]


@pytest.mark.parametrize(
    ("x", "fields", "left"),
    [
        (40, {}, 40_000),
        (10, {}, 50_000),
        (40, {"foreign": min(THREADS)}, 50_000),
        (40, {"kind": "rapid"}, 50_000),
    ],
)
def test_a_point_turns_a_bar_outside_by_its_feed_moves_alone(x, fields, left):
    one = Motion("feed", x * 1000, 5_000, x * 1000, -10_000, 1, 9, 9)._replace(**fields)
    found = cut_profile([one], [tool()], part_of([], diameter=36), MM, stock=50.0).within(-9_000, -1_000)
    assert found.start.tolist() == [left]


def test_only_the_inserts_of_a_side_cut_it():
    part = part_of([], diameter=40, bore=20.0)
    tools = [tool(corner_radius=0.2), tool(station=5, offset=5, where="inside", corner_radius=0.2)]
    moves = Moves(42, -13).feed(34).rapid(42)
    other = Moves(18, -33, station=5, offset=5).feed(26).rapid(18)
    stranger = Moves(42, -43, station=9, offset=9).feed(30).rapid(42)
    every = [*moves.motions, *other.motions, *stranger.motions]
    bench = Bench(part, tools, MM)
    for one in every:
        insert = bench.insert(one)
        if one.kind == "feed" and insert is not None:
            bench.cut(one, insert)
    outside, inside = (rounded_profile(every, bench, part, side) for side in (OUTSIDE, INSIDE))
    # Between its corners each floor is level; beside its insert each side is as it was.
    for profile, heights in ((outside, (34_000, 40_000, 40_000)), (inside, (-20_000, -26_000, -20_000))):
        found = [profile.within(z + 1_000, z + 2_000).start.tolist() for z in (-13_000, -33_000, -43_000)]
        assert found == [[height] for height in heights]


@pytest.mark.parametrize("u", [[0, 0, 1], [0, 1, 1], [0, 2, 1]])
def test_breakpoints_rise(u):
    with pytest.raises(ValueError, match="rise"):
        CutProfile(np.array(u), *[np.zeros(2, dtype=np.int64)] * 3)


def test_what_an_edge_sweeps_has_no_piece_of_no_length_and_none_in_two():
    assert insert_of(tool(), MM).underside(0, 7, 5_000, 7) == [(0, 7, 8_000, 7)]
    tiny = insert_of(tool(corner_radius=0.001), MM, rounded=True)
    for u1 in (0, 5):
        pieces = tiny.underside(0, 7, u1, 7)
        assert (pieces[0][0], pieces[-1][2]) == (0, 3_000 + u1)
        assert all(a < b for a, _, b, _ in pieces)


def test_a_nose_more_than_half_as_wide_as_its_vee_still_has_flanks():
    """1 wide with a nose of 0.4: at 60 the nose spans 0.4 * cos 30 = 0.346 of the half of 0.5."""
    corners = insert_of(tool(width=1.0, edge="vee", angle=60.0, corner_radius=0.4), MM).corners
    assert (corners[0][0], corners[-1][0]) == (0, 1_000)
    # The flanks meet 0.4 / sin 30 - 0.4 = 0.4 below the nose and rise by 0.5 / tan 30 = 0.866 from there.
    assert corners[0][1] / 2 == pytest.approx(466, abs=1)


@pytest.mark.parametrize(
    ("part", "pieces"),
    [
        (part_of([], diameter=40), [(0, 0, 40_000, 0)]),
        (part_of([], diameter=40, bore=20.0), [(20_000, 0, 40_000, 0)]),
        (
            part_of([], steps=[(0, 30), (-10, 40), (-20, 36), (-30, 50)]),
            [(0, 0, 30_000, 0), (30_000, -10_000, 40_000, -10_000), (40_000, -30_000, 50_000, -30_000)],
        ),
    ],
)
def test_a_face_is_seen_from_the_front_from_axis_or_bore_outward(part, pieces):
    """What lies behind a higher shoulder is not seen."""
    assert part_pieces(part, MM, FACE) == pieces


def test_a_solid_part_has_a_bore_of_no_width():
    assert part_pieces(part_of([], length=60.0), MM, INSIDE) == [(-60_000, 0, 0, 0)]


@pytest.mark.parametrize(
    ("piece", "land", "upper"),
    [
        ((0, 41, 10, 0), (0, 40, 10, 100), [(0, 41, 10, 100)]),
        ((0, 0, 10, 41), (0, 100, 10, 40), [(0, 100, 10, 41)]),
        ((0, 40, 10, 20), (0, 20, 10, 40), [(0, 40, 5, 30), (5, 30, 10, 40)]),
    ],
)
def test_a_way_that_crosses_a_land_within_half_a_count_of_an_end_lies_on_one_side_of_it(piece, land, upper):
    """The upper of 41 and 40 there, never the lower; and no piece of no length."""
    assert _upper(piece, land) == _upper(land, piece) == upper


def test_a_corner_of_a_hull_is_kept_however_little_it_turns():
    """From (0, 0) by (1, 0) to (2, 1) it turns by one count of area; by (1, 1) to (2, 2) it is straight."""
    assert _lower_hull([(0, 0), (1, 0), (2, 1)]) == [(0, 0), (1, 0), (2, 1)]
    assert _lower_hull([(0, 0), (1, 1), (2, 2)]) == [(0, 0), (2, 2)]
    assert _lower_hull([(0, 0), (1, 2), (2, 1)]) == [(0, 0), (2, 1)]


def test_a_flat_of_less_than_a_count_between_two_corners_is_no_piece():
    """3 wide with corners of 1.4998: the flat of 0.4 counts has both its ends at 1500."""
    insert = insert_of(tool(corner_radius=1.4998), MM, rounded=True)
    assert [u for u, _ in insert.corners].count(1500) == 2
    pieces = insert.underside(0, 7, 0, 3)
    assert all(a < b for a, _, b, _ in pieces)
    assert (pieces[0][0], pieces[-1][2]) == (0, 3000)
    assert min(h for _, h, _, _ in pieces) == 3
