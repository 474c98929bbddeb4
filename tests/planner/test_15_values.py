"""The small values that everything stands on: increments, aims and limits, heights over the part, words."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.moves import tool
from support.parts import groove_of, part_of

from extractor.limits import Limits, aims_of, common_aim
from extractor.part import Groove
from planner.cuts.clearance import highest_land
from planner.cuts.ground import ground_of
from planner.cuts.sweep import _allows
from planner.cuts.upright import is_square
from planner.increment import Increments, dust
from planner.words import figure, numbers, size, times

GROOVE = Groove(
    id=1, where="outside", shape="rectangular", z_near=-10.0, z_far=-13.0, mouth_diameter=40.0, floor_diameter=34.0
)
FACE = Groove(id=1, where="face", shape="rectangular", z_near=0.0, z_far=-4.0, mouth_diameter=36.0, floor_diameter=30.0)


def with_limits(**tolerances):
    return replace(GROOVE, tolerances=tolerances)


def limits(low, aim, high, source="dimension"):
    return Limits(low=low, aim=aim, high=high, source=source)


class TestIncrements:
    def test_least_increments(self):
        # Common practice, from memory: 0.001 mm and 0.0001 in.
        assert Increments.of("mm").count(1.0) == 1000
        assert Increments.of("in").count(1.0) == 10_000

    def test_the_trade_s_numbers(self):
        # Common practice, no source: 0.040 in is P400 and 0.200 in is Q2000.
        assert (Increments.of("in").count(0.04), Increments.of("in").count(0.2)) == (400, 2000)

    @given(st.integers(-(10**7), 10**7), st.sampled_from(["mm", "in"]))
    def test_a_count_comes_back(self, count, units):
        increments = Increments.of(units)
        assert increments.count(increments.length(count)) == count
        assert increments.feed_count(increments.feed_length(count)) == count


class TestAims:
    def test_nominal_where_nothing_is_given(self):
        aims = aims_of(GROOVE, 0.02)
        assert (aims.near.aim, aims.far.aim, aims.floor.aim) == (-10.0, -13.0, 34.0)
        assert aims.width == Limits(low=2.98, aim=3.0, high=3.02, source="shop")
        assert not aims.limited

    def test_the_middle_where_limits_are_given(self):
        aims = aims_of(with_limits(width=(0.0, 0.14), floor_diameter=(-0.2, 0.0)), 0.02)
        assert aims.width.aim == pytest.approx(3.07)
        assert aims.floor.aim == pytest.approx(33.9)
        assert (aims.near.aim, aims.far.aim) == (pytest.approx(-9.965), pytest.approx(-13.035))

    def test_a_wall_with_limits_carries_the_width(self):
        aims = aims_of(with_limits(z_near=(0.0, 0.2), width=(0.0, 0.1)), 0.02)
        assert aims.limited
        assert (aims.near.aim, aims.far.aim) == (pytest.approx(-9.9), pytest.approx(-12.95))
        aims = aims_of(with_limits(z_far=(-0.2, 0.0)), 0.02)
        assert (aims.near.aim, aims.far.aim) == (pytest.approx(-10.1), pytest.approx(-13.1))

    def test_two_walls_with_limits_make_a_width(self):
        aims = aims_of(with_limits(z_near=(0.0, 0.1), z_far=(-0.1, 0.0)), 0.02)
        assert (aims.width.low, aims.width.aim, aims.width.high) == pytest.approx((3.0, 3.1, 3.2))

    def test_two_walls_and_a_width_hold_all_three(self):
        aims = aims_of(with_limits(z_near=(0.0, 0.1), z_far=(-0.1, 0.0), width=(0.0, 0.05)), 0.02)
        assert (aims.width.low, aims.width.high) == pytest.approx((3.0, 3.05))

    def test_depth_limits_turn_round(self):
        floor = aims_of(with_limits(depth=(0.0, 0.1)), 0.02).floor
        assert (floor.low, floor.aim, floor.high) == pytest.approx((33.8, 33.9, 34.0))

    def test_depth_limits_of_an_inside_groove_don_t(self):
        inside = groove_of(where="inside", mouth_diameter=20.0, floor_diameter=24.0, tolerances={"depth": (0.0, 0.1)})
        floor = aims_of(inside, 0.02).floor
        # As heights: the deeper, the lower.
        assert (floor.low, floor.aim, floor.high) == pytest.approx((-24.2, -24.1, -24.0))

    def test_the_floor_s_own_limits_come_before_the_depth_s(self):
        floor = aims_of(with_limits(depth=(0.0, 0.1), floor_diameter=(-0.02, 0.0)), 0.02).floor
        assert (floor.low, floor.high) == pytest.approx((33.98, 34.0))

    def test_the_shop_s_tolerance_is_of_the_size_that_is_printed(self):
        def floor(*printed):
            found = aims_of(replace(GROOVE, printed=frozenset(printed)), 0.02).floor
            return found.low, found.aim, found.high

        assert floor("depth") == pytest.approx((33.96, 34.0, 34.04))
        assert floor() == floor("floor_diameter") == floor("depth", "floor_diameter")
        assert floor() == pytest.approx((33.98, 34.0, 34.02))

    def test_a_face_groove_s_wall_that_nothing_prints_follows_from_the_width(self):
        def aims(*printed, **tolerances):
            found = aims_of(replace(FACE, printed=frozenset(printed), tolerances=tolerances), 0.02)
            return {spot: (one.low, one.aim, one.high) for spot, one in found.spots.items()}, found

        walls = {"near": pytest.approx((35.98, 36.0, 36.02)), "far": pytest.approx((29.98, 30.0, 30.02))}
        for printed in ((), ("mouth_diameter",), ("mouth_diameter", "floor_diameter", "width")):
            assert aims(*printed)[0] == walls
        # A bare inner wall stands, and what the width may grow goes to the outer one.
        spots, found = aims("width", "floor_diameter", width=(0.1, 0.2))
        assert spots == {"far": walls["far"]}
        assert (found.far.aim, found.near.aim) == pytest.approx((30.0, 36.3))
        # The outer wall has limits and the width is bare: the inner wall's own place is nowhere printed.
        spots, found = aims("width", "mouth_diameter", mouth_diameter=(0.0, 0.2))
        assert spots == {"near": pytest.approx((36.0, 36.1, 36.2))}
        assert (found.near.aim, found.far.aim) == pytest.approx((36.1, 30.1))
        assert (found.width.low, found.width.high) == pytest.approx((5.96, 6.04)), "twice along u"

    def test_limits_of_a_corner_radius(self):
        corner = aims_of(replace(with_limits(corner_radius=(-0.1, 0.3)), corner_radius=0.5), 0.02).corner
        assert (corner.low, corner.aim, corner.high) == pytest.approx((0.4, 0.6, 0.8))
        assert corner.source == "dimension"
        corner = aims_of(replace(with_limits(corner_radius=(-0.6, 0.0)), corner_radius=0.5), 0.02).corner
        assert (corner.low, corner.aim, corner.high) == pytest.approx((0.0, 0.2, 0.5)), "no radius is below nothing"
        corner = aims_of(replace(GROOVE, corner_radius=0.5), 0.02).corner
        assert (corner.low, corner.aim, corner.high, corner.source) == (0.0, 0.5, 0.52, "shop")

    def test_a_form_goes_to_nominal(self):
        vee = replace(with_limits(floor_diameter=(-0.2, 0.0)), shape="vee")
        assert aims_of(vee, 0.02).floor.aim == 34.0

    def test_a_common_aim_is_the_middle_of_what_all_allow(self):
        given_, free = limits(1.0, 2.0, 3.0), limits(0.9, 1.0, 1.1, "shop")
        assert common_aim([given_, free]) == pytest.approx(1.05)
        assert common_aim([given_, limits(1.0, 3.0, 5.0)]) == 2.0

    def test_a_common_aim_of_what_has_nothing_in_common_is_the_mean(self):
        assert common_aim([limits(1.0, 2.0, 3.0), limits(4.0, 5.0, 6.0)]) == 3.5

    @given(st.floats(-1, 0), st.floats(0.001, 1))
    def test_the_inner_limits_keep_a_fifth_of_the_band_free(self, low, band):
        limits = Limits(low=low, aim=low + band / 2, high=low + band)
        assert limits.inner.low == pytest.approx(low + 0.2 * band)
        assert limits.inner.high == pytest.approx(low + 0.8 * band)
        assert limits.holds(limits.inner.low)
        assert limits.holds(limits.inner.high)


STEPPED = ((0.0, 20.0), (-30.0, 20.0), (-30.0, 25.0), (-60.0, 25.0))
CONE = ((0.0, 10.0), (-20.0, 20.0), (-40.0, 20.0))


class TestHeights:
    @pytest.mark.parametrize(
        ("low", "high", "height"),
        [(-20, -10, 20), (-29.9, -10, 20), (-30, -27, 25), (-31, -27, 25), (-70, -61, 0), (1, 5, 0), (-80, 10, 25)],
    )
    def test_over_a_shoulder(self, low, high, height):
        assert highest_land(STEPPED, low, high) == height

    def test_over_a_cone(self):
        assert highest_land(CONE, -10.0, -5.0) == pytest.approx(15.0)
        assert highest_land(CONE, -5.0, -1.0) == pytest.approx(12.5)

    def test_where_there_is_nothing(self):
        assert highest_land(STEPPED, 5, 6, nothing=-1.0) == -1.0

    @given(st.floats(-60, -1), st.floats(0, 30))
    def test_a_longer_stretch_is_never_lower(self, low, more):
        assert highest_land(STEPPED, low, low + 1 + more) >= highest_land(STEPPED, low, low + 1)

    def test_inside_the_narrowest_bore_is_the_highest(self):
        part = part_of([(-10, -13, 26, {"where": "inside"})], bore=20)
        ground = ground_of(part, part.grooves[0])
        assert ground.side.hollow
        assert ground.highest(-13, -10) == -20.0

    def test_a_groove_is_not_a_land(self):
        part = part_of([(-10, -13, 26, {"where": "inside"})], bore=20)
        bore = ((0.0, 10.0), (-10.0, 10.0), (-10.0, 13.0), (-13.0, 13.0), (-13.0, 10.0), (-60.0, 10.0))
        side = ground_of(replace(part, bore=bore), part.grooves[0])
        assert side.lands == ((0.0, -10.0), (-10.0, -10.0), (-13.0, -10.0), (-60.0, -10.0))
        assert side.outline[2] == (-10.0, -13.0)

    def test_a_stretch_of_the_outline_takes_in_its_neighbours(self):
        part = part_of([(-10, -13, 34), (-20, -23, 34), (-30, -33, 34)])
        points = ground_of(part, part.grooves[1]).stretch(-23, -20)
        assert {z for z, _ in points} == {-13, -20, -23, -30}


class TestSquare:
    def check(self, *points, **more):
        part = part_of([(-10, -13, 34, more)])
        lying = replace(part, outline=((0.0, 20.0), (-10.0, 20.0), *points, (-13.0, 20.0), (-60.0, 20.0)))
        return is_square(part.grooves[0], ground_of(lying, part.grooves[0]), 0.02)

    def test_as_drawn(self):
        assert self.check((-10.0, 17.0), (-13.0, 17.0))

    @pytest.mark.parametrize(
        "points",
        [
            [(-11.5, 17.0)],
            [(-10.5, 17.0), (-12.5, 17.0)],
            [(-10.5, 17.0), (-13.0, 17.0)],
            [(-10.0, 17.0), (-11.5, 17.0), (-11.5, 18.0), (-11.5, 17.0), (-13.0, 17.0)],
            [(-10.0, 17.0), (-13.0, 16.9)],
            [(-10.0, 17.0), (-11.5, 17.0), (-11.5, 17.1), (-13.0, 17.1)],
            [(-10.0, 16.0), (-13.0, 16.0)],
        ],
        ids=["vee", "tapered", "leaning wall", "standing line", "sloping floor", "stepped floor", "deeper than told"],
    )
    def test_what_isn_t(self, points):
        assert not self.check(*points)

    def test_corner_radii_are_square(self):
        arc = [(-10.4 + 0.4 * math.cos(t), 17.4 - 0.4 * math.sin(t)) for t in (0.0, 0.4, 0.8, 1.2, math.pi / 2)]
        assert self.check(*arc, (-13.0, 17.0), corner_radius=0.4)
        assert not self.check(*arc, (-13.0, 17.0))

    def test_chamfers_at_the_mouth_are_square(self):
        part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})])
        assert (-9.5, 20.0) in part.outline
        assert is_square(part.grooves[0], ground_of(part, part.grooves[0]), 0.02)

    def test_an_outline_that_shows_nothing_is_believed(self):
        part = part_of([(-10, -13, 34)])
        assert is_square(part.grooves[0], ground_of(replace(part, outline=part.lands), part.grooves[0]), 0.02)


class TestWords:
    def test_sizes(self):
        assert (size(1.23456, "mm"), size(1.23456, "in"), figure(-2, "in")) == ("1.235 mm", "1.2346 in", "-2.0000")

    @pytest.mark.parametrize(
        ("grooves", "phrase"),
        [
            ([2], "Groove 2"),
            ([2, 3], "Grooves 2 and 3"),
            ([2, 3, 4], "Grooves 2 to 4"),
            ([2, 4, 6], "Grooves 2, 4 and 6"),
        ],
    )
    def test_numbers(self, grooves, phrase):
        assert numbers(grooves) == phrase

    def test_times(self):
        assert (times(1, "cycle"), times(2, "cycle")) == ("one cycle", "2 cycles")


def test_a_face_is_seen_from_the_axis_or_the_bore_out():
    spots = [(0.0, -4.0, 30.0, {"where": "face", "mouth_diameter": 36.0})]
    solid, hollow = part_of(spots, steps=[(0, 60)]), part_of(spots, steps=[(0, 60)], bore=20.0)
    assert ground_of(solid, solid.grooves[0]).lands == ((60.0, 0.0), (0.0, 0.0))
    assert ground_of(hollow, hollow.grooves[0]).lands == ((60.0, 0.0), (20.0, 0.0))


@pytest.mark.parametrize(("least", "most"), [(30.0, 36.0), (30.0, 0.0), (0.0, 36.0), (0.0, 0.0)])
def test_a_face_insert_may_begin_between_its_two_diameters_ends_included(least, most):
    insert = tool(where="face", face_min=least, face_max=most)
    assert [_allows(insert, across, dust("mm")) for across in (29.999, 30.0, 36.0, 36.001)] == [
        not least,
        True,
        True,
        not most,
    ]
