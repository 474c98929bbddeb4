"""Like grooves and their even sets, as `read` shows them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.parts import part_of, row

from planner import group_grooves
from planner.rows.sets import alike


def sets(part):
    return [(s.grooves, s.pitch) for s in group_grooves(part)]


def test_four_at_one_pitch():
    assert sets(part_of(row(4, -10, 5, 3, 34))) == [((1, 2, 3, 4), 5.0)]


def test_a_lone_groove_is_a_set_of_one():
    assert sets(part_of([(-10, -13, 34)])) == [((1,), 0.0)]


def test_no_groove_no_set():
    assert sets(part_of([])) == []


def test_two_interleaved_pitches():
    part = part_of([*row(4, -10, 10, 3, 34), *row(3, -14, 10, 3, 34)], length=80)
    assert sets(part) == [((1, 3, 5, 7), 10.0), ((2, 4, 6), 10.0)]


@pytest.mark.parametrize(
    ("other", "why"),
    [
        ((-20, -23.5, 34), "width"),
        ((-20, -23, 33), "floor"),
        ((-20, -23, 34, {"corner_radius": 0.4}), "corner radius"),
        ((-20, -23, 34, {"edge_chamfer": 0.3}), "chamfer"),
        ((-20, -23, 34, {"shape": "vee"}), "shape"),
    ],
)
def test_what_makes_grooves_unlike(other, why):
    assert sets(part_of([(-10, -13, 34), other])) == [((1,), 0.0), ((2,), 0.0)], why


def test_equal_floors_on_unequal_lands_are_unlike():
    part = part_of(row(2, -10, 30, 3, 34), steps=[(0, 40), (-30, 44)])
    assert len(group_grooves(part)) == 2


def test_equal_pitch_at_unequal_depths_is_two_sets():
    part = part_of([*row(3, -10, 10, 3, 34), *row(3, -15, 10, 3, 30)])
    assert sets(part) == [((1, 3, 5), 10.0), ((2, 4, 6), 10.0)]


def test_a_relief_at_a_shoulder_is_unlike_an_open_groove():
    part = part_of([(-10, -13, 34), (-27, -30, 34)], steps=[(0, 40), (-30, 50)])
    assert len(group_grooves(part)) == 2


def test_thirds_of_an_inch_stay_even():
    part = part_of(row(9, -0.2, 1 / 3, 0.125, 1.3), diameter=1.5, length=4, units="in")
    assert sets(part) == [(tuple(range(1, 10)), 0.333333)]


@pytest.mark.parametrize(("off", "count"), [(0.015, 1), (0.05, 2)])
def test_how_far_a_groove_may_be_off_pitch(off, count):
    spots = row(5, -10, 8, 3, 34)
    spots[2] = (spots[2][0] + off, spots[2][1] + off, 34)
    assert len(group_grooves(part_of(spots))) == count


def test_inside_and_outside_don_t_mix():
    part = part_of([(-10, -13, 34), (-20, -23, 26, {"where": "inside"})], bore=20)
    assert len(group_grooves(part)) == 2


def test_alike_needs_one_side_and_shape():
    one, other = part_of([(-10, -13, 34), (-20, -23, 34)]).grooves
    assert alike(one, other, 0.02)


@given(st.lists(st.integers(1, 40), min_size=1, max_size=12), st.integers(1, 3))
@settings(max_examples=60)
def test_every_groove_is_in_exactly_one_set(gaps, floors):
    place, spots = 0, []
    for number, gap in enumerate(gaps):
        place += gap + 3
        spots.append((-place, -place - 2, 30 + number % floors))
    part = part_of(spots, length=place + 20)
    found = group_grooves(part)
    assert sorted(n for s in found for n in s.grooves) == list(range(1, len(gaps) + 1))
    for s in found:
        ends = [part.grooves[n - 1].z_near for n in s.grooves]
        assert all(abs(ends[0] - k * s.pitch - z) < 0.03 for k, z in enumerate(ends))


def test_a_thousand_grooves():
    part = part_of(row(1000, -1, 2, 1, 38), length=2010)
    assert [s.count for s in group_grooves(part)] == [1000]
