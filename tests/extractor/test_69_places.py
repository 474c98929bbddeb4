"""Printed distances to places: the values of a chain worked out by hand, and who gives way to whom."""

from dataclasses import replace

import pytest
from support.parts import part_of

from extractor.distance import Distance, Place
from extractor.limits import aims_of
from extractor.places import apart, contradictions, with_distances
from extractor.side import SIDES

FRONT, BACK = Place(groove=0, spot="front"), Place(groove=0, spot="back")


def at(groove, spot):
    return Place(groove=groove, spot=spot)


def printed(start, end, nominal, *deviations):
    source = "dimension" if deviations else "shop"
    return Distance(start=start, end=end, nominal=nominal, deviations=deviations or None, source=source)


def placed(spots, *distances):
    return with_distances(part_of(spots), distances)


def wall(part, number, tolerance=0.02):
    return aims_of(part.grooves[number - 1], tolerance)


def test_a_distance_grows_away_from_the_front():
    # 10 +0.2/0 lets the wall lie from z -10.2 to -10 (ISO 129-1, from memory: nominal plus deviation).
    aims = wall(placed([(-10, -13, 34)], printed(FRONT, at(1, "near"), 10.0, 0.0, 0.2)), 1)
    assert (aims.near.low, aims.near.aim, aims.near.high) == pytest.approx((-10.2, -10.1, -10.0))
    assert aims.far.aim == pytest.approx(-13.1)


def test_a_distance_from_the_back_grows_toward_the_front():
    # The part is 60 long: 47 +0.2/0 from the back face to the wall at z -13 lets it lie from -13 to -12.8.
    aims = wall(placed([(-10, -13, 34)], printed(BACK, at(1, "far"), 47.0, 0.0, 0.2)), 1)
    assert (aims.far.low, aims.far.aim, aims.far.high) == pytest.approx((-13.0, -12.9, -12.8))


def test_a_named_wall_stays_and_the_other_one_takes_the_width():
    part = part_of([(-10, -13, 34, {"tolerances": {"width": (0.0, 0.2)}})])
    aims = wall(with_distances(part, [printed(FRONT, at(1, "near"), 10.0)]), 1)
    assert (aims.near.aim, aims.far.aim) == pytest.approx((-10.0, -13.1))
    assert (aims.near.low, aims.near.high) == pytest.approx((-10.02, -9.98))
    aims = wall(with_distances(part, [printed(FRONT, at(1, "far"), 13.0)]), 1)
    assert (aims.near.aim, aims.far.aim) == pytest.approx((-9.9, -13.0))


def test_a_named_middle_keeps_the_groove_about_it():
    part = part_of([(-10, -13, 34, {"tolerances": {"width": (0.0, 0.2)}})])
    aims = wall(with_distances(part, [printed(FRONT, at(1, "centre"), 11.5, -0.3, 0.1)]), 1)
    assert (aims.near.aim + aims.far.aim) / 2 == pytest.approx(-11.4)
    assert aims.near.aim - aims.far.aim == pytest.approx(3.1)


def test_a_pitch_adds_up_along_the_row():
    # Four grooves at 7 +0.2/+0.1: aimed at 7.15 each, so the fourth lies 21.45 behind the first.
    spots = [(-10 - 7 * k, -12 - 7 * k, 34) for k in range(4)]
    row = [printed(at(k, "near"), at(k + 1, "near"), 7.0, 0.1, 0.2) for k in (1, 2, 3)]
    part = placed(spots, printed(FRONT, at(1, "near"), 10.0), *row)
    assert [wall(part, k).near.aim for k in (1, 2, 3, 4)] == pytest.approx([-10.0, -17.15, -24.3, -31.45])
    # A spacing's room is shared by its two grooves, so whatever either does within its own, the spacing is kept.
    two, three = wall(part, 2).near, wall(part, 3).near
    assert (two.low - three.high, two.high - three.low) == pytest.approx((7.1, 7.2))


def test_a_row_without_a_place_of_its_own_stays_where_its_first_groove_is_drawn():
    spots = [(-10, -12, 34), (-17, -19, 34)]
    part = placed(spots, printed(at(1, "centre"), at(2, "centre"), 7.0, 0.1, 0.3))
    one, two = wall(part, 1), wall(part, 2)
    assert (one.near.aim + one.far.aim) / 2 - (two.near.aim + two.far.aim) / 2 == pytest.approx(7.2)
    assert (one.near.aim + one.far.aim) / 2 == pytest.approx(-11.0)
    assert set(one.fixed) == {"centre"}
    assert not two.fixed
    assert two.spots


def test_places_that_pull_against_each_other_meet_between():
    # 10 +/-0.1 and 17 +/-0.1 with 7 +0.2/+0.1 between: all three can be kept, near 9.93 and 17.07.
    spots = [(-10, -12, 34), (-17, -19, 34)]
    distances = [
        printed(FRONT, at(1, "near"), 10.0, -0.1, 0.1),
        printed(FRONT, at(2, "near"), 17.0, -0.1, 0.1),
        printed(at(1, "near"), at(2, "near"), 7.0, 0.1, 0.2),
    ]
    part = placed(spots, *distances)
    one, two = -wall(part, 1).near.aim, -wall(part, 2).near.aim
    assert 9.9 < one < 10
    assert 17 < two < 17.1
    assert 7.1 < two - one < 7.2
    assert not contradictions(part)
    # Off its middle a place has more room on one side, and its limits are the printed ones all the same.
    own = [next(p for p in groove.places if not p.relative) for groove in part.grooves]
    assert [(p.aim + p.deviations[0], p.aim + p.deviations[1]) for p in own] == [
        pytest.approx((-10.1, -9.9)),
        pytest.approx((-17.1, -16.9)),
    ]


@pytest.mark.parametrize(("least", "told"), [(0.0, False), (0.0097, False), (0.0103, True), (0.05, True)])
def test_places_that_can_t_all_be_kept_are_told(least, told):
    # 10 and 17, each +/-0.005, leave 6.99 to 7.01 between: just enough for 7 and a little more, or not.
    spots = [(-10, -12, 34), (-17, -19, 34)]
    distances = [
        printed(FRONT, at(1, "near"), 10.0, -0.005, 0.005),
        printed(FRONT, at(2, "near"), 17.0, -0.005, 0.005),
        printed(at(1, "near"), at(2, "near"), 7.0, least, least + 0.1),
    ]
    assert bool(contradictions(placed(spots, *distances))) is told


@pytest.mark.parametrize(("least", "told"), [(-0.1, False), (0.0, False), (0.019, False), (0.021, True), (0.1, True)])
def test_two_bare_walls_and_a_width_that_they_leave_no_room_for_are_told(least, told):
    """A shop keeps a place without deviations to about 0.02 (common practice, no source)."""
    spots = [(-10, -13, 34, {"tolerances": {"width": (least, 0.2)}})]
    distances = [printed(FRONT, at(1, "near"), 10.0), printed(FRONT, at(1, "far"), 13.0)]
    assert [one.end.spot for one in contradictions(placed(spots, *distances))] == (["near", "far"] if told else [])
    assert not contradictions(placed(spots, distances[0])), "the other wall is free"


@pytest.mark.parametrize(("units", "give"), [("mm", 0.02), ("in", 0.001)])
@pytest.mark.parametrize(("share", "told"), [(0.95, False), (1.05, True)])
def test_how_far_bare_distances_may_be_off_what_others_leave(units, give, share, told):
    """Two places without deviations and a third distance between them: each gives way by a third of what they miss."""
    part = replace(part_of([(-10, -12, 34), (-17, -19, 34)]), units=units)
    off = 3 * give * share
    distances = (printed(FRONT, at(1, "near"), 10.0), printed(FRONT, at(2, "near"), 17.0))
    part = with_distances(part, (*distances, printed(at(1, "near"), at(2, "near"), 7.0 + off)))
    assert bool(contradictions(part)) is told


def test_a_distance_from_the_axis_places_the_middle_of_a_face_groove():
    face = {"where": "face", "mouth_diameter": 36.0, "tolerances": {"width": (0.0, 0.1)}}
    part = part_of([(0, -2, 30, face)])
    aims = wall(with_distances(part, [printed(Place(groove=0, spot="axis"), at(1, "centre"), 16.5, 0.0, 0.1)]), 1)
    # Walls 3.05 apart along the radius about a middle of 33.1 across.
    assert (aims.near.aim, aims.far.aim) == pytest.approx((33.1 + 3.05, 33.1 - 3.05))


FACE_AND_OUTSIDE = [(0, -2, 30, {"where": "face", "mouth_diameter": 36.0}), (-10, -13, 34)]


def test_each_groove_counts_along_the_line_of_its_own_side():
    """Across a face a place is a diameter, and a printed length along the radius is half of what it counts."""
    part = part_of(FACE_AND_OUTSIDE)
    axis = Place(groove=0, spot="axis")
    assert apart(part, printed(axis, at(1, "centre"), 16.5), 0.0, 33.0) == pytest.approx(16.5)
    assert apart(part, printed(FRONT, at(2, "near"), 10.0), 0.0, -10.0) == pytest.approx(10.0)
    aims = wall(with_distances(part, [printed(FRONT, at(2, "near"), 10.0, 0.0, 0.2)]), 2)
    assert (aims.near.low, aims.near.high) == pytest.approx((-10.2, -10.0))


@pytest.mark.parametrize("side", SIDES.values(), ids=lambda side: side.where)
def test_a_place_on_the_machine_comes_back_from_the_frame_of_a_side(side):
    assert side.machine(*side.frame(42_000, -13_000)) == (42_000, -13_000)


def test_taking_the_distances_out_takes_the_places_out():
    part = placed([(-10, -13, 34)], printed(FRONT, at(1, "near"), 10.0, 0.0, 0.2))
    assert part.grooves[0].places
    assert not with_distances(replace(part), ()).grooves[0].places


def test_a_land_between_two_grooves_moves_the_second_one_and_no_width():
    # 8 to the near wall of the first, a land of 4 +0.2/+0.1 behind it: both stay 3 wide, the second lies at 15.15.
    part = placed(
        [(-8, -11, 34), (-15, -18, 34)],
        printed(FRONT, at(1, "near"), 8.0),
        printed(at(1, "far"), at(2, "near"), 4.0, 0.1, 0.2),
    )
    one, two = wall(part, 1), wall(part, 2)
    assert (one.near.aim, one.far.aim, one.width.aim) == pytest.approx((-8.0, -11.0, 3.0), abs=1e-3)
    assert (two.near.aim, two.width.aim) == pytest.approx((-15.15, 3.0), abs=1e-3)
    assert (two.width.low, two.width.high) == pytest.approx((2.98, 3.02))


def test_walls_that_both_have_places_of_their_own_make_the_width():
    part = placed(
        [(-8, -11, 34)], printed(FRONT, at(1, "near"), 8.0, 0.0, 0.1), printed(FRONT, at(1, "far"), 11.0, 0.1, 0.3)
    )
    aims = wall(part, 1)
    assert (aims.near.aim, aims.far.aim) == pytest.approx((-8.05, -11.2))
    assert (aims.width.low, aims.width.high) == pytest.approx((3.0, 3.3))
