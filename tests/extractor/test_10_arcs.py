"""Arithmetic of arcs: circles against their own definition, splitting and joining back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.geometry.arcs import chords, circular, distance, length, meet_arcs, meet_line_arc, middle, part_of

coordinate = st.floats(-1000, 1000)
points = st.tuples(coordinate, coordinate)
bulges = st.floats(0.01, 3.0) | st.floats(-3.0, -0.01)


@given(points, points, bulges)
def test_every_point_of_an_arc_is_as_far_from_the_centre(a, b, bulge):
    if distance(a, b) < 1e-3:
        return
    arc = circular(a, b, bulge)
    for p in (a, b, middle(a, b, bulge), *chords(a, b, bulge)):
        assert distance(arc.centre, p) == pytest.approx(arc.radius, rel=1e-6, abs=1e-6)


@given(points, points, bulges, st.floats(0.1, 0.9))
def test_a_split_arc_keeps_its_length(a, b, bulge, t):
    if distance(a, b) < 1e-3:
        return
    cut = circular(a, b, bulge).at(t)
    parts = length(a, cut, part_of(bulge, 0, t)) + length(cut, b, part_of(bulge, t, 1))
    assert parts == pytest.approx(length(a, b, bulge), rel=1e-6)


def test_a_quarter_circle():
    arc = circular((1.0, 0.0), (0.0, 1.0), math.tan(math.pi / 8))
    assert arc.centre == pytest.approx((0.0, 0.0))
    assert arc.radius == pytest.approx(1.0)
    assert arc.sweep == pytest.approx(math.pi / 2)
    assert middle((1.0, 0.0), (0.0, 1.0), math.tan(math.pi / 8)) == pytest.approx((math.sqrt(0.5), math.sqrt(0.5)))


def test_share_runs_from_start_to_end_whichever_way_it_turns():
    for bulge in (1.0, -1.0):
        arc = circular((0.0, 0.0), (2.0, 0.0), bulge)
        assert [round(arc.share(p), 9) for p in ((0.0, 0.0), arc.at(0.25), (2.0, 0.0))] == [0.0, 0.25, 1.0]


def test_a_line_meets_a_circle_twice_once_or_never():
    arc = circular((0.0, 0.0), (2.0, 0.0), 1.0)
    assert len(meet_line_arc((-5.0, 0.5), (5.0, 0.5), arc, 1e-9)) == 2
    assert meet_line_arc((-5.0, 1.0), (5.0, 1.0), arc, 1e-9) == [pytest.approx((1.0, 1.0))]
    assert meet_line_arc((-5.0, 1.1), (5.0, 1.1), arc, 1e-9) == []


def test_two_circles_meet_twice_once_or_never():
    one = circular((0.0, 0.0), (2.0, 0.0), 1.0)
    assert len(meet_arcs(one, circular((1.0, 0.0), (3.0, 0.0), 1.0), 1e-9)) == 2
    assert meet_arcs(one, circular((2.0, 0.0), (4.0, 0.0), 1.0), 1e-9) == [pytest.approx((2.0, 0.0))]
    assert meet_arcs(one, circular((5.0, 0.0), (7.0, 0.0), 1.0), 1e-9) == []
    assert meet_arcs(one, one, 1e-9) == []


@pytest.mark.parametrize(("bulge", "points"), [(1.1e-9, 3), (1e-9, 2), (-1e-9, 2), (5e-324, 2), (0.0, 2)])
def test_an_arc_flatter_than_arithmetic_is_exact_is_its_chord(bulge, points):
    found = chords((0.0, 0.0), (3.0, 4.0), bulge)
    assert (len(found), found[0], found[-1]) == (points, (0.0, 0.0), (3.0, 4.0))
