"""Limits and places at their edges: each comparison just inside and just outside, each rule where only it decides.

The values are worked out by hand beside each test, from the rules of `extractor.limits` and `extractor.places`; those
of the fits are common geometry: in least squares each wish gives way by its share of the miss, its spread squared.
"""

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from support.parts import part_of
from support.ties import along, bar, tied

from extractor import places
from extractor.distance import Distance, Place, Placing
from extractor.limits import (
    EPS,
    Limits,
    aims_of,
    common_aim,
    corner_limits,
    is_limited,
    overlap,
    with_deviations,
    without_deviations,
)
from extractor.part import Groove
from extractor.places import contradictions, with_distances
from extractor.sizing.measured.landmarks import Landmark
from extractor.sizing.measured.ties import Tie
from extractor.sizing.sizes.spacing import size_read

FRONT, AXIS = Place(groove=0, spot="front"), Place(groove=0, spot="axis")
GROOVE = Groove(
    id=1, where="outside", shape="rectangular", z_near=-10.0, z_far=-13.0, mouth_diameter=40.0, floor_diameter=34.0
)
INSIDE = replace(GROOVE, where="inside", mouth_diameter=20.0, floor_diameter=26.0)
FACE = Groove(id=1, where="face", shape="rectangular", z_near=0.0, z_far=-4.0, mouth_diameter=36.0, floor_diameter=30.0)


def limits(low, aim, high, source="dimension"):
    return Limits(low=low, aim=aim, high=high, source=source)


def numbers(one):
    return one.low, one.aim, one.high


def at(groove, spot):
    return Place(groove=groove, spot=spot)


def printed(start, end, nominal, *deviations):
    source = "dimension" if deviations else "shop"
    return Distance(start=start, end=end, nominal=nominal, deviations=deviations or None, source=source)


class TestLimits:
    def test_a_value_on_a_limit_with_its_slack_is_allowed_and_one_beyond_is_not(self):
        held = limits(1.0, 1.5, 2.0)
        assert [held.holds(v, 0.5) for v in (0.499, 0.5, 2.5, 2.501)] == [False, True, True, False]

    def test_the_spread_is_to_the_nearer_limit(self):
        assert (limits(5.0, 6.0, 8.0).spread, limits(5.0, 7.0, 8.0).spread) == (1.0, 1.0)

    def test_three_quarters_are_kept_to_nominal_where_the_shop_sets_the_limits(self):
        assert numbers(limits(0.0, 4.0, 8.0, "shop").inner) == (3.0, 4.0, 5.0)

    def test_limits_that_miss_each_other_by_rounding_alone_have_a_value_in_common(self):
        below = limits(-1.0, -0.5, 0.0)
        touching = overlap([below, limits(EPS, 0.5, 1.0)])
        assert touching is not None
        assert (touching.low, touching.high) == (EPS, EPS)
        assert overlap([below, limits(1.5e-6, 0.5, 1.0)]) is None

    def test_aims_that_differ_by_rounding_alone_are_one(self):
        wide = limits(-1.0, 0.0, 3.0)
        assert common_aim([wide, limits(-1.0, EPS, 3.0)]) == pytest.approx(EPS / 2, abs=1e-9)
        assert common_aim([wide, limits(-1.0, 1.5e-6, 3.0)]) == 1.0
        assert common_aim([limits(10.0, 10.25, 11.0)] * 2) == 10.25

    def test_who_limits_a_size(self):
        by_depth = replace(GROOVE, tolerances={"depth": (0.0, 0.1)})
        assert [is_limited(by_depth, field) for field in ("floor_diameter", "width", "depth")] == [True, False, True]
        assert not is_limited(GROOVE, "floor_diameter")

    def test_a_class_limits_what_nothing_printed_does_and_is_told_from_it(self):
        classed = with_deviations(
            replace(GROOVE, tolerances={"width": (0.0, 0.1)}), {"floor_diameter": (-0.3, 0.3)}, "class"
        )
        aims = aims_of(classed, 0.02)
        assert (aims.width.source, aims.floor.source, aims.corner.source) == ("dimension", "class", "shop")

    @pytest.mark.parametrize(
        ("own", "source", "wanted"),
        [((-0.2, 0.0), "dimension", (33.9, 33.95, 34.0)), ((-0.3, 0.3), "class", (33.9, 34.0, 34.1))],
    )
    def test_a_printed_depth_is_kept_beside_a_printed_floor_and_before_one_by_a_class(self, own, source, wanted):
        # A depth of 3 +/-0.05 is 0.1 either way on the diameter.
        both = with_deviations(replace(GROOVE, tolerances={"depth": (-0.05, 0.05)}), {"floor_diameter": own}, source)
        assert numbers(aims_of(both, 0.02).floor) == pytest.approx(wanted)

    def test_a_core_has_none_of_the_walls_deviations(self):
        limited = with_deviations(GROOVE, {"width": (0.0, 0.1), "depth": (-0.1, 0.1)}, "class")
        core = without_deviations(limited, ["width"])
        assert (core.tolerances, core.general) == ({"depth": (-0.1, 0.1)}, {"depth"})

    def test_no_radius_is_aimed_below_nothing(self):
        tight = replace(GROOVE, corner_radius=0.1, tolerances={"corner_radius": (-0.5, 0.0)})
        assert numbers(corner_limits(tight, 0.02)) == pytest.approx((0.0, 0.0, 0.1))


class TestWalls:
    @pytest.mark.parametrize(("land", "stays"), [(40.2, False), (40.5, False), (40.6, True), (42.0, True)])
    def test_a_step_that_the_tolerance_can_hardly_tell_is_no_shoulder(self, land, stays):
        # 0.25 of the shop is half of it on a diameter.
        spots = aims_of(replace(GROOVE, near_land_diameter=40.0, far_land_diameter=land), 0.25).spots
        assert set(spots) == ({"far"} if stays else set())

    def test_no_land_is_no_shoulder(self):
        assert not aims_of(INSIDE, 0.02).spots

    def test_a_shoulder_says_nothing_where_a_place_or_a_wall_is_printed(self):
        stepped = replace(GROOVE, near_land_diameter=40.0, far_land_diameter=50.0)
        named = replace(stepped, places=(Placing(spot="near", aim=-10.0),))
        assert set(aims_of(named, 0.02).spots) == {"near"}
        assert set(aims_of(replace(stepped, tolerances={"z_near": (-0.1, 0.1)}), 0.02).spots) == {"near"}

    def test_limits_of_the_drawing_come_before_the_shop_s_at_one_place(self):
        wide = replace(GROOVE, tolerances={"z_near": (0.0, 0.2)}, places=(Placing(spot="near", aim=-9.9),))
        assert numbers(aims_of(wide, 0.02).near) == pytest.approx((-10.0, -9.9, -9.8))

    def test_two_limits_of_one_place_are_kept_both_and_the_last_one_s_aim_stays(self):
        place = Placing(spot="near", aim=-9.95, deviations=(-0.1, 0.1), source="dimension")
        both = replace(GROOVE, tolerances={"z_near": (0.0, 0.2)}, places=(place,))
        assert numbers(aims_of(both, 0.02).spots["near"]) == pytest.approx((-10.0, -9.95, -9.85))

    def test_of_two_limits_with_nothing_in_common_the_first_counts(self):
        place = Placing(spot="near", aim=-11.0, deviations=(-0.1, 0.1), source="dimension")
        torn = replace(GROOVE, tolerances={"z_near": (0.0, 0.2)}, places=(place,))
        assert numbers(aims_of(torn, 0.02).spots["near"]) == pytest.approx((-10.0, -9.9, -9.8))

    @pytest.mark.parametrize(
        ("width", "wanted"),
        [
            ((-0.2, 0.05), (3.0, 3.0, 3.05)),
            ((0.05, 0.5), (3.05, 3.2, 3.2)),
            ((0.1, 0.12), (3.1, 3.11, 3.12)),
            ((0.3, 0.5), (3.3, 3.3, 3.2)),
        ],
    )
    def test_a_width_between_two_limited_walls_is_held_by_all_three(self, width, wanted):
        # The walls alone leave 3.0 to 3.2.
        held = replace(GROOVE, tolerances={"z_near": (0.0, 0.1), "z_far": (-0.1, 0.0), "width": width})
        assert numbers(aims_of(held, 0.02).width) == pytest.approx(wanted)

    def test_one_limited_wall_of_a_face_groove_and_a_bare_one_make_the_width(self):
        # Outer wall 36.0 to 36.2, inner one 30 with the shop's 0.02: from 5.98 to 6.22 across.
        aims = aims_of(replace(FACE, tolerances={"mouth_diameter": (0.0, 0.2)}), 0.02)
        assert numbers(aims.width) == pytest.approx((5.98, 6.1, 6.22))
        assert aims.width.source == "dimension"

    def test_a_width_with_limits_beside_one_limited_wall_stays_its_own(self):
        tolerances = {"mouth_diameter": (0.0, 0.2), "width": (0.1, 0.2)}
        aims = aims_of(replace(FACE, tolerances=tolerances, printed=frozenset({"floor_diameter"})), 0.02)
        assert numbers(aims.width) == pytest.approx((6.2, 6.3, 6.4)), "twice along u"
        # The limited wall stays at its middle, 36.1; the bare one lies the width from it, and the shop's about there.
        assert (aims.near.aim, aims.far.aim) == pytest.approx((36.1, 29.8))
        assert (aims.far.low, aims.far.high) == pytest.approx((29.78, 29.82))
        tolerances = {"floor_diameter": (-0.2, 0.0), "width": (0.1, 0.2)}
        aims = aims_of(replace(FACE, tolerances=tolerances, printed=frozenset({"mouth_diameter"})), 0.02)
        assert (aims.near.aim, aims.far.aim) == pytest.approx((36.2, 29.9))

    def test_a_bore_s_floor_is_turned_round(self):
        floor = aims_of(replace(INSIDE, tolerances={"floor_diameter": (0.1, 0.3)}), 0.02).floor
        assert numbers(floor) == pytest.approx((-26.3, -26.2, -26.1))


class TestDistances:
    def test_a_distance_lies_between_two_places(self):
        assert printed(FRONT, at(1, "near"), 0.5).nominal == 0.5
        for start, end, nominal in ((FRONT, at(1, "near"), 0.0), (at(1, "near"), at(1, "near"), 1.0)):
            with pytest.raises(ValueError, match="between two places"):
                printed(start, end, nominal)

    def test_deviations_may_be_one_number_and_never_the_wrong_way_round(self):
        assert printed(FRONT, at(1, "near"), 1.0, 0.1, 0.1).deviations == (0.1, 0.1)
        with pytest.raises(ValueError, match="wrong way round"):
            printed(FRONT, at(1, "near"), 1.0, 0.1, 0.09)

    def test_only_the_shop_gives_none(self):
        for deviations, source in ((None, "class"), ((0.0, 0.1), "shop")):
            with pytest.raises(ValueError, match="never by the shop"):
                Distance(start=FRONT, end=at(1, "near"), nominal=1.0, deviations=deviations, source=source)

    def test_an_end_belongs_to_no_groove_and_a_wall_to_one(self):
        for groove, spot in ((1, "front"), (0, "near")):
            with pytest.raises(ValueError, match="no such place"):
                Place(groove=groove, spot=spot)


class TestPlaces:
    FACED = ((-10, -13, 34), (0, -4, 22, {"where": "face", "mouth_diameter": 30}))

    @pytest.mark.parametrize(
        ("start", "end", "places"),
        [
            (FRONT, ("outside", "near"), True),
            (AXIS, ("face", "near"), True),
            (FRONT, ("face", "near"), False),
            (AXIS, ("outside", "near"), False),
            (("outside", "near"), ("face", "near"), False),
        ],
    )
    def test_a_distance_places_what_lies_along_its_own_line_alone(self, start, end, places):
        part = part_of(self.FACED)
        number = {g.where: g.id for g in part.grooves}
        start, end = (p if isinstance(p, Place) else at(number[p[0]], p[1]) for p in (start, end))
        placed = with_distances(part, [printed(start, end, 10.0 if start == FRONT else 15.0)])
        assert any(g.places for g in placed.grooves) is places
        assert len(placed.distances) == 1

    def test_least_squares_by_hand(self):
        # The wall 10 +0.2/0 (10.1 give or take 0.1), the middle 11.5 and the width 3, each give or take 0.1: 0.1 too
        # little, shared as 1 : 1 : 1/2 of 1 + 1 + 1/4.
        part = part_of([(-10, -13, 34, {"tolerances": {"width": (-0.1, 0.1)}})])
        told = [printed(FRONT, at(1, "near"), 10.0, 0.0, 0.2), printed(FRONT, at(1, "centre"), 11.5, -0.1, 0.1)]
        places = {p.spot: p.aim for p in with_distances(part, told).grooves[0].places}
        assert places["near"] == pytest.approx(-10.1 + 0.1 / 2.25, abs=1e-6)
        assert places["centre"] == pytest.approx(-11.5 - 0.1 / 2.25, abs=1e-6)

    def test_a_place_without_deviations_weighs_as_one_within_a_thousandth(self):
        # 10 and 17, bare, and 7.0024 give or take 0.002 between: shares of 1, 1 and 4 of 0.0024.
        part = part_of([(-10, -12, 34), (-17, -19, 34)])
        told = [
            printed(FRONT, at(1, "near"), 10.0),
            printed(FRONT, at(2, "near"), 17.0),
            printed(at(1, "near"), at(2, "near"), 7.0, 0.0004, 0.0044),
        ]
        one, two = (g.places[0].aim for g in with_distances(part, told).grooves)
        assert (one, two) == pytest.approx((-9.9996, -17.0004), abs=2e-5)

    @pytest.mark.parametrize(("least", "told"), [(0.0098, False), (0.00991, False), (0.00997, True)])
    def test_a_thousandth_of_the_deviations_must_be_left_for_cutting(self, least, told):
        # 0.005 + 0.005 + 0.05 of room for `least` + 0.05: all used up at 0.01, all but a thousandth at 0.00994.
        part = part_of([(-10, -12, 34), (-17, -19, 34)])
        distances = [
            printed(FRONT, at(1, "near"), 10.0, -0.005, 0.005),
            printed(FRONT, at(2, "near"), 17.0, -0.005, 0.005),
            printed(at(1, "near"), at(2, "near"), 7.0, least, least + 0.1),
        ]
        assert bool(contradictions(with_distances(part, distances))) is told

    def test_a_place_s_deviations_hold_where_it_is_aimed_at_though_its_distance_can_t_be_kept(self):
        part = part_of([(-10, -12, 34), (-17, -19, 34)])
        told = [
            printed(FRONT, at(1, "near"), 10.0, -0.005, 0.005),
            printed(FRONT, at(2, "near"), 17.0, -0.005, 0.005),
            printed(at(1, "near"), at(2, "near"), 7.0, 0.5, 0.6),
        ]
        pairs = [p.deviations for g in with_distances(part, told).grooves for p in g.places]
        assert len(pairs) == 4
        assert all(low <= 0.0 <= high for low, high in pairs)

    @pytest.mark.parametrize(("off", "told"), [(0.125, False), (0.1875, True), (-0.125, False), (-0.1875, True)])
    def test_a_bare_place_off_by_just_what_it_may_give_way_is_kept(self, monkeypatch, off, told):
        monkeypatch.setattr(places, "BARE", {"mm": 0.125})
        part = replace(part_of([(-10, -13, 34)]), distances=(printed(FRONT, at(1, "near"), 10.0),))
        monkeypatch.setattr(places, "_solved", lambda *_: {1: (-13.0 - off, -10.0 - off)})
        assert bool(contradictions(part)) is told

    @pytest.mark.parametrize(
        ("wider", "told"), [(-0.375, True), (-0.25, False), (0.0, False), (0.625, False), (0.75, True)]
    )
    def test_a_width_off_its_limits_by_just_what_two_places_may_leave_it(self, monkeypatch, wider, told):
        """From 0.125 less to 0.5 more, and 0.125 beside."""
        monkeypatch.setattr(places, "BARE", {"mm": 0.125})
        part = part_of([(-10, -13, 34, {"tolerances": {"width": (-0.125, 0.5)}})])
        part = replace(part, distances=(printed(FRONT, at(1, "near"), 10.0),))
        monkeypatch.setattr(places, "_solved", lambda *_: {1: (-13.0 - wider, -10.0)})
        assert bool(contradictions(part)) is told

    @pytest.mark.parametrize(("wall", "own", "toward"), [(-10.0, 2, 1), (-20.0, 1, -1)])
    def test_a_middle_lies_between_its_walls(self, wall, own, toward):
        """One groove's middle is at -15; the other has its near wall a little before or behind that."""
        part = part_of([(-14, -16, 34), (wall, wall - 2, 30)])
        one = printed(at(own, "centre"), at(3 - own, "near"), 5.0)
        assert places._sign(part, one) == toward
        assert places._sign(part, replace(one, start=one.end, end=one.start)) == -toward

    @pytest.mark.parametrize(("wanted", "found"), [(1.4984, 0.49947), (1.5, 0.75)])
    def test_wishes_weigh_more_where_one_of_them_is_left_by_all_its_spread(self, wanted, found):
        """Three of one place, 0, 0 and `wanted`: at their mean the last is left by two thirds of it.

        Up to 0.999 that will do; else each weighs by what it is left: 1/2, 1/2 and 1.
        """
        met = places._met(np.ones((3, 1)), np.array([0.0, 0.0, wanted]), 3)
        assert met.tolist() == [pytest.approx(found, abs=1e-5)]

    @pytest.mark.parametrize(("wanted", "found"), [(0.75, 0.25), (0.78125, 0.390625)])
    def test_wishes_left_by_just_what_may_be_left_are_met(self, monkeypatch, wanted, found):
        monkeypatch.setattr(places, "LEAST_ROOM", 0.5)
        met = places._met(np.ones((3, 1)), np.array([0.0, 0.0, wanted]), 3)
        assert met.tolist() == [pytest.approx(found, abs=1e-9)]

    def test_what_is_not_printed_weighs_as_before(self):
        """Printed 0 and 1.6, wished 0: left by 0.533 and 1.067 of it at their mean, so they weigh 1/2, 1 and 1."""
        assert places._met(np.ones((3, 1)), np.array([0.0, 1.6, 0.0]), 2).tolist() == [pytest.approx(0.64)]

    @pytest.mark.parametrize(("off", "told"), [(0.9990005, False), (0.9990015, True)])
    def test_a_distance_may_be_off_its_middle_by_its_room_and_rounding(self, monkeypatch, off, told):
        part = replace(part_of([(-10, -13, 34)]), distances=(printed(FRONT, at(1, "near"), 10.0, -1.0, 1.0),))
        monkeypatch.setattr(places, "_solved", lambda *_: {1: (-13.0 - off, -10.0 - off)})
        assert bool(contradictions(part)) is told

    def test_a_radius_counts_twice_on_the_wall_of_a_face_groove(self):
        part = part_of(self.FACED)
        number = next(g.id for g in part.grooves if g.where == "face")
        one = printed(AXIS, at(number, "near"), 15.0)
        assert places._off(part, one, {number: (22.0, 30.5)}) == 0.25

    def test_both_walls_with_places_and_a_width_keep_the_width_s_middle(self):
        # Walls 8 and 11 +0.2/0, width 3, each with its spread: all give way by the square of theirs.
        part = part_of([(-8, -11, 34, {"tolerances": {"width": (-0.05, 0.05)}})])
        told = [
            printed(FRONT, at(1, "near"), 8.0, -0.1, 0.1),
            printed(FRONT, at(1, "far"), 11.0, 0.0, 0.2),
        ]
        near, far = (p.aim for p in with_distances(part, told).grooves[0].places)
        # 0.1 too much: shares 0.01 : 0.01 : 0.0025 of 0.0225.
        share = 0.1 / 0.0225
        assert (near, far) == pytest.approx((-8.0 - 0.01 * share, -11.1 + 0.01 * share), abs=1e-6)


def test_no_deviation_is_less_than_nothing_in_a_document():
    """-0.0 is 0 to a machine and a puzzle to a reader."""
    for text, ends in (("10 +0.2/0", (0, -10)), ("10 0/-0.2", (0, -10)), ("47 0/-0.2", (-60, -13))):
        part, _ = tied(bar(), along(*ends, text))
        found = [*part.distances[0].deviations, *(v for pair in part.grooves[0].tolerances.values() for v in pair)]
        assert all(math.copysign(1.0, value) > 0 for value in found if value == 0), text
    # From a shoulder they turn round.
    for groove, a, b in (((-40, -43, 42), -30, -40), ((-20, -23, 34), -20, -30)):
        for text in ("10 +0.2/0", "10 0/-0.2"):
            part, _ = tied(bar(groove, steps=[(0, 40), (-30, 50)], length=60), along(a, b, text, r=25))
            assert all(math.copysign(1.0, v) > 0 for v in part.distances[0].deviations if v == 0), text


def mark(at):
    """A place that has no name."""
    return Landmark(at, None, (at, at), 0)


@pytest.mark.parametrize(
    ("tie", "size"),
    [
        (Tie("length", (), 59.9), 60.0),
        (Tie("land_diameter", (), 39.9), 40.0),
        (Tie("land_diameter", (), 50.1), 50.0),
        (Tie("land_diameter", (), 12.2), 12.0),
        (Tie("floor_diameter", (2,), 30.0), 32.0),
        (Tie("floor_diameter", (1, 2), 30.0), None),
        (Tie("distance", (), 9.9, ends=(mark(0.0), mark(-10.0))), 10.0),
        (Tie("distance_across", (), 16.9, ends=(mark(17.0), mark(0.0))), 17.0),
        (Tie("distance_across", (), 33.9, ends=(mark(17.0), mark(0.0)), twice=True), 34.0),
    ],
)
def test_the_size_that_a_dimension_measures_is_read_from_the_outline(tie, size):
    """Ends may have been picked by eye: a land's diameter is that of the land nearest to it, a radius counts twice."""
    part = part_of([(-10, -13, 34), (-20, -23, 32)], steps=[(0, 40), (-30, 50)], bore=12.0)
    features = SimpleNamespace(part=part)
    assert size_read(tie, features) == size
