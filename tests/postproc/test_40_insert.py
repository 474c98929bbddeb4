"""The insert's lower side: where its edges are, how its corners are rounded, what it sweeps.

Oracle: shapely's buffers and convex hulls.
"""

from dataclasses import replace
from math import atan, degrees, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPoint, Point
from support.moves import tool

from planner.increment import Increments
from postproc.cutting.insert import Insert, insert_of

MM, INCH = Increments.of("mm"), Increments.of("in")


@pytest.mark.parametrize(("reference", "left", "right"), [("far", 0, 3000), ("near", -3000, 0)])
def test_the_reference_edge_says_to_which_side_the_insert_lies(reference, left, right):
    insert = insert_of(tool(reference=reference), MM)
    assert (insert.left, insert.right, insert.width, insert.flat) == (left, right, 3000, True)


@pytest.mark.parametrize(
    ("where", "place", "reach"), [("outside", (-7, 40), 24000), ("inside", (-7, -40), 24000), ("face", (40, -7), 12000)]
)
def test_each_side_has_its_own_frame(where, place, reach):
    insert = insert_of(tool(where=where), MM)
    assert insert.place(40, -7) == place
    assert insert.reach == reach


def test_a_face_insert_is_twice_as_wide_on_the_diameter():
    assert insert_of(tool(where="face"), MM).width == 6000


def test_widths_in_inch_are_counted_in_ten_thousandths():
    assert insert_of(tool(width=0.125), INCH).width == 1250


def off_the_arc(insert: Insert, radius: float) -> float:
    """How far the chords of the left corner lie from its arc, in counts (heights halved to radii)."""
    corner = [(u, h / 2) for u, h in insert.corners if u <= radius + 0.5]
    chords = LineString(corner)
    arc = Point(radius, radius).buffer(radius, quad_segs=2000).exterior
    return max(arc.distance(Point(chords.interpolate(i / 200, normalized=True))) for i in range(201))


@pytest.mark.parametrize("radius", [0.05, 0.2, 0.4, 0.8, 1.2])
def test_rounded_corners_stay_within_an_increment_of_the_arc(radius):
    insert = insert_of(tool(corner_radius=radius), MM, rounded=True)
    assert off_the_arc(insert, radius * 1000) < 1.0
    assert insert.corners[0] == (0, round(2000 * radius))
    assert insert.corners[-1] == (3000, round(2000 * radius))


@pytest.mark.parametrize(("radius", "chords"), [(0.001, 1), (0.2, 12), (0.19, 11), (1.2, 28)])
def test_corners_have_no_more_chords_than_half_an_increment_asks_for(radius, chords):
    """At 0.2, 200 counts: 12 chords of 7.5 degrees leave 200 * (1 - cos 3.75) = 0.43 each, 11 would leave 0.51.

    At 0.19 it is 11 and 0.48, at 1.2 it is 28 and 0.47, at one count one chord of 90 degrees leaves 0.29.
    """
    assert len(insert_of(tool(corner_radius=radius), MM, rounded=True).corners) == 2 * (chords + 1)


def test_the_nose_of_a_vee_has_no_more_chords_than_half_an_increment_asks_for():
    """At 60 the nose turns by 60 to its lowest: 8 chords of 7.5 degrees, and a flank on either side."""
    assert len(insert_of(tool(edge="vee", angle=60.0, corner_radius=0.2), MM).corners) == 2 * 8 + 1 + 2


def test_a_nose_wider_than_its_vee_is_as_wide():
    wide, widest = (tool(width=0.5, edge="vee", angle=60.0, corner_radius=radius) for radius in (0.4, 0.25))
    assert insert_of(wide, MM).corners == insert_of(widest, MM).corners


def test_a_round_insert_is_a_half_circle_with_or_without_its_corners_counted():
    round_edge = tool(edge="round")
    insert = insert_of(round_edge, MM)
    assert insert.corners == insert_of(round_edge, MM, rounded=True).corners
    assert off_the_arc(insert, 1500) < 1.0
    assert min(insert.corners, key=lambda c: c[1]) == (1500, 0)


def test_a_vee_insert_has_the_angle_it_is_given():
    insert = insert_of(tool(edge="vee", angle=90.0), MM)
    assert insert.corners == ((0, 3000), (1500, 0), (3000, 3000))


@pytest.mark.parametrize("angle", [35.0, 55.0, 60.0, 90.0])
def test_the_nose_of_a_vee_is_round_and_touches_its_flanks(angle):
    insert = insert_of(tool(edge="vee", angle=angle, corner_radius=0.2), MM)
    (u0, h0), (u1, h1) = insert.corners[:2]
    assert 2 * degrees(atan((u1 - u0) / ((h0 - h1) / 2))) == pytest.approx(angle, abs=0.2)
    nose = [(u, h / 2) for u, h in insert.corners[1:-1]]
    flank = LineString([(u0, h0 / 2), (u1, h1 / 2)])
    assert flank.distance(Point(1500, 200)) == pytest.approx(200, abs=1.5)
    assert max(abs(hypot(u - 1500, h - 200) - 200) for u, h in nose) < 1.5
    assert [u + v for (u, _), (v, _) in zip(insert.corners, reversed(insert.corners), strict=True)] == [3000] * len(
        insert.corners
    )


EDGES = st.sampled_from(
    [tool(), tool(corner_radius=0.2), tool(edge="round"), tool(edge="vee", angle=60.0, corner_radius=0.1)]
)
PLACES = st.integers(-20_000, 20_000)


@given(EDGES, PLACES, PLACES, PLACES, PLACES)
def test_a_straight_move_sweeps_the_convex_hull_of_its_ends(which, u0, h0, u1, h1):
    """Outside check: shapely's convex hull."""
    insert = insert_of(which, MM, rounded=True)
    ends = [(u + du, h + dh) for u, h in ((u0, h0), (u1, h1)) for du, dh in insert.corners]
    hull = MultiPoint([*ends, *((u, h + 10**6) for u, h in ends)]).convex_hull
    for a, ha, b, hb in insert.underside(u0, h0, u1, h1):
        assert a < b
        middle = Point((a + b) / 2, (ha + hb) / 2)
        assert hull.exterior.distance(middle) < 1e-6
    pieces = insert.underside(u0, h0, u1, h1)
    assert pieces[0][0] == min(u for u, _ in ends)
    assert pieces[-1][2] == max(u for u, _ in ends)


def test_an_insert_too_narrow_for_its_radius_is_round():
    narrow = insert_of(tool(width=0.3, corner_radius=0.2), MM, rounded=True)
    # A half circle 0.3 across: 0.15 up at its ends, which is 0.3 on the diameter, and lowest half-way.
    assert (narrow.corners[0], narrow.corners[-1]) == ((0, 300), (300, 300))
    assert min(narrow.corners, key=lambda c: c[1]) == (150, 0)
    assert replace(tool(), width=0.3).width == 0.3


@pytest.mark.parametrize(("radius", "first"), [(0.0009, (0, 0)), (0.001, (0, 2))])
def test_a_corner_is_round_from_a_radius_of_one_count_on(radius, first):
    """One count up on the radius is two on the diameter."""
    insert = insert_of(tool(corner_radius=radius), MM, rounded=True)
    assert insert.corners[0] == first
    assert insert.flat is (radius < 0.001)


@pytest.mark.parametrize("radius", [0.0009, 0.001, 0.1])
def test_the_point_of_a_vee_is_its_lowest_whatever_its_nose(radius):
    corners = insert_of(tool(edge="vee", angle=90.0, corner_radius=radius), MM).corners
    assert min(corners, key=lambda c: c[1]) == (1500, 0)
    # At 90 a flank rises by a count for a count; a nose of r lowers its ends by r * (1 / sin 45 - 1) at most.
    assert corners[0][1] / 2 == pytest.approx(1500 - 1000 * radius * (2**0.5 - 1), abs=1)
