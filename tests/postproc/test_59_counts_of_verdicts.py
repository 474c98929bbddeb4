"""How a cut is measured, to the count: profiles through points that were worked out by hand.

One count is 0.001 mm, heights are diameters: two counts of height are as long as one along u. The tolerance is 20.
"""

import math
import re
from itertools import pairwise

import pytest
from support.moves import Moves, shop, tool
from support.parts import groove_of, part_of

from extractor.side import OUTSIDE
from planner.increment import Increments
from postproc import judge, laid_over
from postproc.cutting.metal import Metal
from postproc.judging.broken_edge import broken_remark, find_mouth
from postproc.judging.edges import edge_remarks
from postproc.judging.form import _off, measure_corners
from postproc.judging.line import DrawnLine
from postproc.judging.matching import find_recesses, pair
from postproc.judging.measure import MeasuredCut, _floor, _uneven, _walls
from postproc.judging.overlay import Overlay
from postproc.judging.target import target_of
from postproc.verdict import State

MM, INCH = Increments.of("mm"), Increments.of("in")
DROP = 20
PART = part_of([(-10, -13, 34)])
TARGET = target_of(PART.grooves[0], MM, 0.02)


def over(*points):
    """A cut through (u, h) points over a land of 40 000 from -20 000 to 0."""
    line = [(-20_000, 40_000), *points, (0, 40_000)]
    pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(line) if b > a]
    return Overlay.of(Metal([(-20_000, 40_000, 0, 40_000)]).profile(), Metal(pieces).profile(), -20_000, 0)


class TestOverlay:
    def test_a_cut_that_comes_below_the_land_by_less_than_a_count_along_it_is_no_stretch(self):
        assert over((-10, 41_000), (-10, 41_000), (0, 39_999)).below_land(0) == []

    def test_a_slope_is_below_the_land_from_where_it_meets_it(self):
        cut = over((-6000, 40_000), (-6000, 41_000), (-4000, 37_000), (-2000, 41_000), (-2000, 40_000))
        assert cut.below_land(0) == [(-5500, -2500)]

    @pytest.mark.parametrize("ends", [(40_000, 39_999), (39_999, 40_000)])
    def test_a_slope_that_ends_one_count_below_the_land_is_below_it(self, ends):
        cut = over((-6000, 40_000), (-6000, ends[0]), (-4000, ends[1]), (-4000, 40_000))
        assert cut.below_land(0) == [(-6000, -4000)]

    @pytest.mark.parametrize(("below", "slopes"), [(34_000, False), (34_001, True)])
    def test_only_a_slope_that_goes_below_a_height_counts(self, below, slopes):
        assert over((-13_000, 36_000), (-12_000, 34_000)).sloping((-13_000, -12_000), below) is slopes

    @pytest.mark.parametrize(
        ("window", "lowest"), [((-9000, -7000), 36_000), ((-7000, -5000), 39_000), ((-9000, 0), 36_000)]
    )
    def test_the_lowest_land_of_a_window_is_that_of_the_lower_end_of_each_stretch(self, window, lowest):
        land = Metal([(-9000, 40_000, -7000, 36_000), (-7000, 39_000, 0, 40_000)]).profile()
        assert Overlay.of(land, land, -9000, 0).top(window) == lowest


class TestDrawnLine:
    def test_the_halves_of_a_line_part_in_the_middle_of_its_floor(self):
        """What lies no more than a count above the lowest place is floor: from -16 000 to -12 000."""
        heights = [40_000, 34_002, 34_001, 34_001, 34_000, 40_000]
        places = [-20_000, -18_000, -16_000, -14_000, -12_000, -10_000]
        line = DrawnLine(tuple((float(u), float(h)) for u, h in zip(places, heights, strict=True)))
        moved = [u for u, _ in line.moved((-10.0, 20.0), 0.0, 40_000.0).points]
        assert moved == [-20_010, -18_010, -16_010, -14_010, -11_980, -9_980]

    SQUARE = DrawnLine(
        tuple(
            (float(u), float(h))
            for u, h in (
                (-13_500, 40_000),
                (-13_000, 40_000),
                (-13_000, 34_000),
                (-10_000, 34_000),
                (-10_000, 41_000),
                (-9_700, 41_000),
            )
        )
    )

    @pytest.mark.parametrize(("radius", "changes"), [(0.99, False), (1.0, True), (1.5, True)])
    def test_a_corner_of_less_than_a_count_is_left_as_it_is(self, radius, changes):
        assert (self.SQUARE.filled(radius) is not self.SQUARE) is changes

    def test_hollow_corners_are_filled_with_an_arc_and_nothing_else_is(self):
        """At d off the wall an arc of 500 stands 500 - sqrt(500^2 - (500 - d)^2) high, twice that on the diameter."""
        filled = self.SQUARE.filled(500.0)
        assert (filled.points[0], filled.points[-1]) == ((-13_500, 40_000), (-9_700, 41_000))
        assert [u for u, _ in filled.points] == sorted(u for u, _ in filled.points)
        for off in (50, 146, 300, 450):
            high = 34_000 + 2 * (500 - math.sqrt(500**2 - (500 - off) ** 2))
            for u in (-13_000 + off, -10_000 - off):
                assert filled.range(u, u) == pytest.approx((high, high), abs=0.6)
        assert filled.range(-12_500, -10_500) == pytest.approx((34_000, 34_000), abs=0.6)
        assert filled.range(-13_400, -13_001) == (40_000, 40_000)
        assert filled.range(-9_999, -9_800) == (41_000, 41_000)


class TestBand:
    @staticmethod
    def off(line, cut, window):
        drawn = DrawnLine(tuple((float(u), float(h)) for u, h in line))
        pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(cut) if b > a]
        profile = Metal(pieces).profile()
        return _off(Overlay.of(profile, profile, cut[0][0], cut[-1][0]), (drawn, drawn), window, DROP)

    @pytest.mark.parametrize(("by", "told"), [(22, False), (23, True), (-22, False), (-23, True)])
    def test_a_slope_may_be_two_counts_of_height_farther_off_for_rounding(self, by, told):
        """Two counts of height for one along u; within a count to either side the cut comes two counts nearer."""
        line, cut = [(0, 0), (5000, 10_000), (10_000, 20_000)], [(-500, -1000 - 2 * by), (10_500, 21_000 - 2 * by)]
        assert (self.off(line, cut, (100, 9900)) is not None) is told

    @pytest.mark.parametrize(("by", "told"), [(20, False), (-20, False), (23, True), (-23, True)])
    def test_a_wall_that_falls_may_be_off_along_u(self, by, told):
        line = [(0, 6000), (5000, 6000), (5000, 0), (10_000, 0)]
        cut = [(0, 6000), (5000 + by, 6000), (5000 + by, 0), (10_000, 0)]
        assert (self.off(line, cut, (100, 9900)) is not None) is told

    @pytest.mark.parametrize("way", [1, -1])
    @pytest.mark.parametrize(("by", "told"), [(15, False), (-15, False), (23, True), (-23, True)])
    def test_a_wall_may_be_off_along_u_whichever_way_it_faces(self, way, by, told):
        """The line within 20 to either side of a place is what holds there."""
        heights = [0, 0, 6000, 6000][::way]
        line = [*zip((0, 5000, 5000, 10_000), heights, strict=True)]
        cut = [*zip((0, 5000 + by, 5000 + by, 10_000), heights, strict=True)]
        assert (self.off(line, cut, (100, 9900)) is not None) is told

    @pytest.mark.parametrize("way", [1, -1])
    @pytest.mark.parametrize("by", [1, -1])
    def test_a_wall_that_leans_a_little_may_be_off_by_as_much(self, way, by):
        """From 8 to 15 beside the wall: nothing of the line is as high or low there, and 20 to one side it is."""
        line = [(-5000, 6000), (0, 6000), (0, 0), (5000, 0)]
        low, high = ((8, 6000), (15, 5990)) if by > 0 else ((-15, 10), (-8, 0))
        cut = [(-5000, 6000), (low[0], 6000), low, high, (high[0], 0), (5000, 0)]
        line, cut = ([(way * u, h) for u, h in one][::way] for one in (line, cut))
        assert self.off(line, cut, (-4900, 4900)) is None

    def test_a_place_is_held_in_height_against_the_line_right_there(self):
        """A notch of the line 25 deep at one place, 5 a count beside it: more than 20 are left in it."""
        line = [(0, -5), (4999, -5), (5000, -25), (5001, -5), (10_000, -5)]
        assert self.off(line, [(-500, 0), (10_500, 0)], (100, 9900)) is not None

    @pytest.mark.parametrize(
        ("cut", "window"),
        [
            ([(0, 60), (101, 60), (101, 0), (10_000, 0)], (100, 9900)),
            ([(0, 0), (9899, 0), (9899, 60), (10_000, 60)], (100, 9900)),
        ],
    )
    def test_the_ends_of_a_window_are_not_looked_at(self, cut, window):
        line = [(0, 0), (100, 0), (9900, 0), (10_000, 0)]
        assert self.off(line, cut, window) is None
        assert self.off(line, cut, (window[0] - 2, window[1] + 2)) is not None


def arc(wall, way, radius):
    """A quarter of a circle from a wall down to a floor of 34 000, on the diameter."""
    turns = [math.radians(4.5 * k) for k in range(21)]
    return [
        (round(wall + way * radius * (1 - math.cos(t))), round(34_000 + 2 * radius * (1 - math.sin(t)))) for t in turns
    ]


@pytest.mark.parametrize(("radii", "near"), [((400, 700), -13_000), ((700, 400), -10_000)])
def test_of_two_corners_the_one_that_is_farther_off_is_told(radii, near):
    target = target_of(part_of([(-10, -13, 34, {"corner_radius": 1.0})]).grooves[0], MM, 0.02)
    low, high = arc(-13_000, 1, radii[0]), arc(-10_000, -1, radii[1])
    cut = over((-13_000, 40_000), *low, *reversed(high), (-10_000, 40_000))
    measured = MeasuredCut(u0=-13_000, u1=-10_000, floor=34_000, state=State.MATCHES, difference={})
    (found,) = measure_corners(target, cut, measured, DROP).findings
    place = float(found.message.split("at Z")[1].split(" ")[0])
    assert abs(1000 * place - near) < 1000


@pytest.mark.parametrize(("chamfer", "wall"), [(0.48, -12_900), (0.481, -13_000)])
def test_between_chamfer_and_corner_a_wall_is_measured_as_long_as_one_is_left(chamfer, wall):
    """1.5 deep with corners of 1: from 39 020 on the walls are upright, and 39 020 is as high as 0.48 leaves them."""
    target = target_of(groove_of(floor_diameter=37.0, corner_radius=1.0, edge_chamfer=chamfer), MM, 0.02)
    broken = round(1000 * chamfer)
    window = (-13_000 - broken, -10_000 + broken)
    cut = over(
        (window[0], 40_000),
        (-12_900, 39_100),
        (-12_900, 37_000),
        (-10_000, 37_000),
        (-10_000, 39_100),
        (window[1], 40_000),
    )
    assert _walls(target, cut, cut, window, DROP, 0) == (wall, -10_000)


class TestFloor:
    def test_corners_that_meet_leave_only_the_lowest_point(self):
        cut = over((-13_000, 40_000), (-13_000, 37_000), (-11_500, 34_000), (-10_000, 37_000), (-10_000, 40_000))
        assert _floor(cut, (-13_000, -10_000), 1500) == (34_000, 34_000)
        assert _floor(cut, (-13_000, -10_000), 1499) == (34_000, 37_000)

    @pytest.mark.parametrize(("wide", "said"), [(399, "metal beside a floor corner"), (400, "the floor has a step")])
    def test_what_stands_just_inside_a_corner_is_told_from_a_step(self, wide, said):
        start = -10_400 - wide
        cut = over((-13_000, 40_000), (-13_000, 34_000), (start, 34_000), (start, 34_100), (-10_000, 34_100))
        (found,) = _uneven(TARGET, cut, (-13_000, -10_000), (34_000, 34_100), DROP, 400)
        assert said in found.message

    def test_a_step_at_the_far_wall_is_no_rib(self):
        cut = over((-13_000, 40_000), (-13_000, 34_100), (-12_000, 34_100), (-12_000, 34_000), (-10_000, 34_000))
        (found,) = _uneven(TARGET, cut, (-13_000, -10_000), (34_000, 34_100), DROP, 400)
        assert "the floor has a step that stands 0.1 too high on the diameter between Z-12 and Z-12.6" in found.message

    @pytest.mark.parametrize(("floor", "told"), [(34.02, False), (34.021, True)])
    def test_a_floor_is_uneven_from_more_than_the_tolerance_on(self, floor, told):
        found = judge(part_of([(-10, -15.5, 34)]), Moves().plunge(-15, 34).plunge(-13, floor).run(), shop())
        assert found.matches[0].state is State.WIDTH
        assert ("floor-uneven" in {f.code for f in found.findings}) is told


class TestRecesses:
    @staticmethod
    def found(part, moves, side=OUTSIDE):
        land = Metal([(-60_000, 40_000, 0, 40_000)]).profile()
        bench = laid_over(part, moves.run(), shop(tool(side_depth=9.0)), filled=True)
        assert bench.u[0] == land.u[1]
        drawn = [target_of(groove, MM, 0.02) for groove in part.grooves]
        return find_recesses(bench, drawn, DROP, DROP).recesses

    @pytest.mark.parametrize("spots", [[(-20, -23, 34), (-30, -33, 34)], [(-7, -10, 34), (-20, -23, 34)]])
    def test_a_cut_that_only_touches_another_groove_is_not_taken_apart(self, spots):
        """From Z-10 to Z-30 with a rib half-way up, over one groove whole and up to the wall of another."""
        moves = Moves().rapid(42, -30).feed(39).feed(None, -13).rapid(42).plunge(-30, 36).plunge(-13, 36)
        assert self.found(part_of(spots), moves) == ((-30_000, -10_000),)

    def test_a_shallow_cut_is_taken_apart_by_the_shallowest_groove_below_it(self):
        part = part_of([(-10, -13, 38), (-20, -23, 34)])
        moves = Moves().rapid(42, -23).feed(39.5).feed(None, -13).rapid(42).plunge(-13, 38).plunge(-23, 34)
        assert self.found(part, moves) == ((-23_000, -20_000), (-13_000, -10_000))

    @pytest.mark.parametrize(
        ("far", "near", "joined"), [(-17.02, -9.98, True), (-17.021, -9.98, False), (-17.02, -9.979, False)]
    )
    def test_pieces_are_one_recess_as_long_as_they_lie_within_the_groove_and_the_tolerance(self, far, near, joined):
        moves = Moves().plunge(far, 34).plunge(near - 3, 34)
        whole = ((round(1000 * far), round(1000 * near)),)
        assert (self.found(part_of([(-10, -17, 34)]), moves) == whole) is joined

    @pytest.mark.parametrize("recess", [(-57_000, -56_000), (-30_000, -29_000)])
    def test_a_narrow_cut_may_be_a_wide_groove_farther_off_than_its_own_width(self, recess):
        """The middles lie 13.5 apart, and 1.5 times 10 is allowed, whatever the widths of others."""
        drawn = [target_of(one, MM, 0.02) for one in part_of([(-10, -12, 34), (-38, -48, 34)]).grooves]
        assert pair(drawn, [recess], DROP).pairs == ((1, 0),)

    @pytest.mark.parametrize(("off", "kept"), [(20, True), (21, False)])
    def test_a_groove_is_kept_whose_walls_are_off_by_the_tolerance_in_sum(self, off, kept):
        """Else each of both recesses would be given to the groove before it, which costs less in sum."""
        drawn = [target_of(one, MM, 0.02) for one in part_of([(-10, -13, 34), (-14, -17, 34)]).grooves]
        found = pair(drawn, [(-17_000 - off, -14_000 - off), (-21_000, -18_000)], DROP)
        assert (found.pairs == ((1, 0),)) is kept


class TestEdges:
    def test_the_insert_with_the_largest_corner_is_the_one_that_tells(self):
        tools = tool(corner_radius=0.1), tool(corner_radius=0.6, station=5, offset=5)
        for given in (tools, tools[::-1]):
            (found,) = edge_remarks(TARGET, given, (over(), over()), (-13_000, -10_000), shop(sharp_corner=0.2), DROP)
            assert found.sentence.startswith("T0505 leaves a corner radius of 0.6")

    @pytest.mark.parametrize(("chamfer", "told"), [(0.02, False), (0.021, True)])
    def test_a_chamfer_is_one_from_twice_the_tolerance_on(self, chamfer, told):
        target = target_of(groove_of(edge_chamfer=chamfer), MM, 0.02)
        assert bool(edge_remarks(target, [], (over(), over()), (-13_000, -10_000), shop(), DROP)) is told

    @pytest.mark.parametrize(
        ("recess", "told"),
        [
            ((-13_020, -9_980), ["cut to less than half that size"]),
            ((-13_019, -9_980), ["not cut", "cut to less than half that size"]),
            ((-13_020, -9_981), ["not cut", "cut to less than half that size"]),
            ((-13_230, -9_770), []),
            ((-13_229, -9_770), ["cut to less than half that size"]),
            ((-13_230, -9_771), ["cut to less than half that size"]),
            ((-13_500, -9_500), []),
        ],
    )
    def test_a_chamfer_is_cut_if_the_mouth_is_wider_than_the_groove_on_both_sides(self, recess, told):
        """By 20, which count for nothing, it is cut; by 230, half of 500 less those 20, it is cut enough."""
        target = target_of(groove_of(edge_chamfer=0.5), MM, 0.02)
        remarks = edge_remarks(target, [], (over(), over()), recess, shop(), DROP)
        assert [re.search(r"(?:is|are) (.*) here", one.sentence)[1] for one in remarks] == told

    @pytest.mark.parametrize(("recess", "wall"), [((23_900, 31_000), "inner"), ((23_000, 30_100), "outer")])
    def test_a_chamfer_of_a_face_groove_is_that_of_its_inner_or_outer_wall(self, recess, wall):
        groove = groove_of(
            where="face", z_near=0.0, z_far=-3.0, mouth_diameter=30.0, floor_diameter=24.0, edge_chamfer=0.5
        )
        (remark,) = edge_remarks(target_of(groove, MM, 0.02), [], (over(), over()), recess, shop(), DROP)
        assert f"on the {wall} wall is cut to less than half that size here" in remark.sentence


class TestBrokenEdges:
    """A groove from -13 000 to -10 000, 6000 deep on the diameter, with a bevel at its far edge."""

    @staticmethod
    def mouth(wide, deep, level=0):
        begin = -13_000 - wide - level
        cut = over(
            (begin, 40_000),
            (begin + wide, 40_000 - deep),
            (-13_000, 40_000 - deep),
            (-13_000, 34_000),
            (-10_000, 34_000),
            (-10_000, 40_000),
        )
        return find_mouth(TARGET, cut, (begin, -10_000), DROP)

    @pytest.mark.parametrize(("wide", "small"), [(320, True), (321, False)])
    def test_a_broken_edge_is_small_up_to_three_tenths_and_the_tolerance(self, wide, small):
        assert self.mouth(wide, 2 * wide).small is small

    @pytest.mark.parametrize(("wide", "broken"), [(20, False), (21, True)])
    def test_a_bevel_is_one_from_more_than_the_tolerance_on(self, wide, broken):
        assert (self.mouth(wide, 2 * wide) is not None) is broken

    @pytest.mark.parametrize(("level", "broken"), [(20, True), (21, False)])
    def test_a_bevel_runs_level_for_no_more_than_the_tolerance(self, level, broken):
        assert (self.mouth(200, 400, level) is not None) is broken

    @pytest.mark.parametrize(
        ("deep", "broken"),
        # 200 wide is 400 on the diameter: four times as steep is 1600 deep, a quarter as steep 100.
        [(100, False), (101, True), (1599, True), (1600, False)],
    )
    def test_a_bevel_is_no_steeper_and_no_flatter_than_four_to_one(self, deep, broken):
        assert (self.mouth(200, deep) is not None) is broken

    def test_walls_below_a_break_are_those_a_quarter_up_from_the_floor(self):
        """A ledge of 100 stands on the floor, a sixth of the depth high."""
        cut = over(
            (-13_200, 40_000),
            (-13_000, 39_600),
            (-13_000, 35_000),
            (-12_900, 35_000),
            (-12_900, 34_000),
            (-10_000, 34_000),
            (-10_000, 40_000),
        )
        assert find_mouth(TARGET, cut, (-13_200, -10_000), DROP).walls == (-13_000, -10_000)

    @pytest.mark.parametrize(("far", "near", "small"), [(200, 200, True), (200, 600, False), (600, 200, False)])
    def test_the_greater_of_two_breaks_tells_whether_they_are_small(self, far, near, small):
        cut = over(
            (-13_000 - far, 40_000),
            (-13_000, 40_000 - 2 * far),
            (-13_000, 34_000),
            (-10_000, 34_000),
            (-10_000, 40_000 - 2 * near),
            (-10_000 + near, 40_000),
        )
        found = find_mouth(TARGET, cut, (-13_000 - far, -10_000 + near), DROP)
        assert (found.small, found.broken) == (small, max(far, near))

    @pytest.mark.parametrize(("wide", "small"), [(620, True), (622, False)])
    def test_a_broken_edge_of_a_face_groove_is_small_up_to_as_much(self, wide, small):
        """Along u the diameter counts: 0.3 are 600, and 20 more; heights along z count once."""
        face = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 30.0})]).grooves[0]
        points = [(24_000 - wide, 0), (24_000, -wide // 2), (24_000, -4000), (30_000, -4000), (30_000, 0), (40_000, 0)]
        pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise([(10_000, 0), *points]) if b > a]
        cut = Overlay.of(Metal([(10_000, 0, 40_000, 0)]).profile(), Metal(pieces).profile(), 10_000, 40_000)
        found = find_mouth(target_of(face, MM, 0.02), cut, (24_000 - wide, 30_000), DROP)
        assert (found.broken, found.small) == (wide, small)

    @pytest.mark.parametrize(("wide", "small"), [(140, True), (141, False)])
    def test_a_broken_edge_of_an_inch_part_is_small_up_to_twelve_thousandths(self, wide, small):
        groove = groove_of(z_near=-0.4, z_far=-0.6, mouth_diameter=2.0, floor_diameter=1.8)
        points = [(-6000 - wide, 20_000), (-6000, 20_000 - 2 * wide), (-6000, 18_000), (-4000, 18_000), (-4000, 20_000)]
        pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise([(-9000, 20_000), *points, (0, 20_000)]) if b > a]
        cut = Overlay.of(Metal([(-9000, 20_000, 0, 20_000)]).profile(), Metal(pieces).profile(), -9000, 0)
        assert find_mouth(target_of(groove, INCH, 0.001), cut, (-6000 - wide, -4000), DROP).small is small

    def test_a_break_of_a_face_groove_is_told_as_long_as_it_is(self):
        face = part_of([(0, -4, 24, {"where": "face", "mouth_diameter": 30.0})]).grooves[0]
        assert "by up to 0.2 where" in broken_remark(target_of(face, MM, 0.02), 400).sentence
