"""Profiles: joining, splitting, corners, chords made arcs again, the lines handed on."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from extractor.geometry.curves import rounded
from extractor.geometry.profile import Piece, joined, points, sharpen, tidy
from extractor.recess.lands import from_outside, from_within, lands
from extractor.recess.levels import recesses

FINE = 1e-3
QUARTER = math.tan(math.pi / 8)


def chain(*corners):
    """Pieces through (z, radius) or (z, radius, bulge to the next) corners."""
    return [Piece(a[:2], b[:2], a[2] if len(a) > 2 else 0.0) for a, b in pairwise(corners)]


def arc_in_chords(count, radius=2.0, sweep=math.pi / 2, curve=False):
    """A quarter circle from (0, 0) in chords."""
    turn = [sweep * k / count for k in range(count + 1)]
    corners = [(-radius * math.sin(t), radius * (1 - math.cos(t))) for t in turn]
    return [Piece(a, b, 0.0, curve) for a, b in pairwise(corners)]


def test_pieces_of_one_line_are_joined_and_dots_dropped():
    row = joined(chain((0, 5), (-2, 5), (-2, 5), (-7, 5), (-7, 3)), FINE)
    assert [(p.start, p.end) for p in row] == [((0, 5), (-7, 5)), ((-7, 5), (-7, 3))]


def test_pieces_of_one_circle_are_joined():
    half = math.tan(math.pi / 16)
    middle = (-math.sin(math.pi / 4), 1 - math.cos(math.pi / 4))
    (arc,) = joined(chain((0.0, 0.0, -half), (*middle, -half), (-1.0, 1.0)), FINE)
    assert arc.bulge == pytest.approx(-QUARTER)


def test_an_arc_is_split_where_it_is_lowest():
    low, rise = tidy(chain((0, 2, -1.0), (-4, 2)), FINE)
    assert low.end == pytest.approx((-2, 0))
    assert rise.start == pytest.approx((-2, 0))
    assert low.rise < 0 < rise.rise


def test_corners_go_where_the_drawn_lines_meet():
    snapped = chain((0, 10), (-4.98, 10), (-5.0, 8))
    drawn = chain((0, 10), (-4.98, 10)) + chain((-5.0, 9.97), (-5.0, 8))
    first, second = sharpen(snapped, drawn, 0.1)
    assert first.end == second.start == pytest.approx((-5.0, 10.0))
    assert sharpen(snapped, drawn, 0.001)[0].end == (-4.98, 10)


@pytest.mark.parametrize(("count", "curve"), [(4, False), (8, False), (24, False), (3, True), (20, True)])
def test_chords_on_a_circle_become_an_arc(count, curve):
    (arc,) = rounded(arc_in_chords(count, curve=curve), FINE)
    assert arc.arc.radius == pytest.approx(2.0, abs=1e-6)
    assert abs(arc.arc.sweep) == pytest.approx(math.pi / 2)


def test_a_polygon_and_a_chamfer_stay_lines():
    assert all(p.bulge == 0 for p in rounded(arc_in_chords(2), FINE))
    assert all(p.bulge == 0 for p in rounded(chain((0, 0), (-1, 0), (-2, 1), (-2, 2), (-3, 3)), FINE))


def test_a_floor_and_its_corner_are_told_apart():
    corner = [
        Piece((a[0] - 6, a[1]), (b[0] - 6, b[1]), 0.0, True) for a, b in [(p.start, p.end) for p in arc_in_chords(9)]
    ]
    floor, arc = rounded([Piece((0.0, 0.0), (-6.0, 0.0), 0.0, True), *corner], FINE)
    assert (floor.bulge, floor.end) == (0.0, (-6.0, 0.0))
    assert arc.arc.radius == pytest.approx(2.0, abs=1e-6)


def test_points_hold_both_ends_of_a_wall():
    assert points(chain((0, 5), (-2, 5), (-2, 3))) == ((0, 5), (-2, 5), (-2, 3))


radii = st.lists(st.integers(1, 9), min_size=2, max_size=9)


@settings(max_examples=100)
@given(radii)
def test_lands_fill_what_is_lower_than_both_sides(steps):
    """Oracle: water poured on the staircase, step by step."""
    corners = [c for k, r in enumerate(steps) for c in ((-float(k), float(r)), (-float(k + 1), float(r)))]
    profile = tidy(chain(*corners), FINE)
    if not profile:
        return
    line = lands(profile, recesses(profile, FINE))
    level = [min(max(steps[: k + 1]), max(steps[k:])) for k in range(len(steps))]
    for k, expected in enumerate(level):
        assert _at(line, -k - 0.5) == pytest.approx(expected)
    assert all(b[0] <= a[0] for a, b in pairwise(line))


def _at(line, z):
    return next(
        a[1] + (b[1] - a[1]) * (a[0] - z) / (a[0] - b[0])
        for a, b in pairwise(line)
        if b[0] <= z <= a[0] and a[0] > b[0]
    )


def test_a_groove_in_the_end_face_is_covered_as_seen_from_outside():
    line = ((0.0, 0.0), (0.0, 4.0), (-2.0, 4.0), (-2.0, 6.0), (0.0, 6.0), (0.0, 9.0), (-9.0, 9.0))
    assert from_outside(line) == ((0.0, 9.0), (-9.0, 9.0))


def test_an_overhang_in_a_bore_is_covered_as_seen_from_within():
    line = ((0.0, 3.0), (-2.0, 3.0), (-1.5, 5.0), (-4.5, 5.0), (-4.0, 3.0), (-6.0, 3.0))
    seen = from_within(line)
    assert all(b[0] <= a[0] for a, b in pairwise(seen))
    assert _at(seen, -1.8) == 3.0
    assert _at(seen, -3.0) == 5.0


def test_a_line_that_never_runs_back_is_handed_on_as_it_is():
    line = ((0.0, 3.0), (-2.0, 3.0), (-2.0, 1.0), (-5.0, 2.0))
    assert from_outside(line) == from_within(line) == line
