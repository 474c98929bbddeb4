"""How a cut is measured, to the count: profiles through points that were worked out by hand.

One count is 0.001 mm, heights are diameters: two counts of height are as long as one along u. The tolerance is 20.
"""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from support.moves import Moves, shop, tool
from support.parts import groove_of, part_of

from extractor.part import LeftToOthers
from extractor.side import FACE, INSIDE, OUTSIDE
from planner.increment import Increments
from postproc import compare_program, judge, laid_over
from postproc.cutting.metal import Metal
from postproc.judging.broken_edge import broken_remark, find_mouth
from postproc.judging.edges import edge_remarks
from postproc.judging.form import _off, measure_corners
from postproc.judging.lands import _lands, general
from postproc.judging.leftover import left_standing
from postproc.judging.line import DrawnLine
from postproc.judging.matching import find_recesses, pair
from postproc.judging.measure import MeasuredCut, _floor, _uneven
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

    @pytest.mark.parametrize(("below", "slopes"), [(34_000, False), (34_001, True)])
    def test_only_a_slope_that_goes_below_a_height_counts(self, below, slopes):
        assert over((-13_000, 36_000), (-12_000, 34_000)).sloping((-13_000, -12_000), below) is slopes


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
            (found,) = edge_remarks(TARGET, given, over(), (-13_000, -10_000), shop(sharp_corner=0.2), DROP)
            assert found.sentence.startswith("T0505 leaves a corner radius of 0.6")

    @pytest.mark.parametrize(("chamfer", "told"), [(0.02, False), (0.021, True)])
    def test_a_chamfer_is_one_from_twice_the_tolerance_on(self, chamfer, told):
        target = target_of(groove_of(edge_chamfer=chamfer), MM, 0.02)
        assert bool(edge_remarks(target, [], over(), (-13_000, -10_000), shop(), DROP)) is told

    @pytest.mark.parametrize(
        ("recess", "told"),
        [((-13_020, -9_980), False), ((-13_019, -9_980), True), ((-13_020, -9_981), True), ((-13_500, -9_500), False)],
    )
    def test_a_chamfer_is_cut_if_the_mouth_is_wider_than_the_groove_on_both_sides(self, recess, told):
        target = target_of(groove_of(edge_chamfer=0.5), MM, 0.02)
        assert bool(edge_remarks(target, [], over(), recess, shop(), DROP)) is told


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


def hollow(*points):
    """A part with one groove that was read, and a recess through more points (z, radius) that was not."""
    return replace(PART, outline=tuple(sorted([*PART.outline, *points], key=lambda p: -p[0])))


def stops(part, moves, *tools):
    return [f.code for f in judge(part, moves.run(), shop(*tools)).findings if f.stops]


def left(where="outside", why="overhang", near=-30.0, far=-33.0, floor=34.0):
    return LeftToOthers(where=where, near=near, far=far, floor=floor, mouth=40.0, why=why)


class TestLeftover:
    @pytest.mark.parametrize(("where", "told"), [("outside", []), ("inside", ["recess-left"])])
    def test_a_recess_that_is_left_to_others_on_this_side_may_stand(self, where, told):
        part = hollow((-30.0, 20.0), (-30.0, 17.0), (-33.0, 17.0), (-33.0, 20.0))
        assert stops(replace(part, left_to_others=(left(where),)), Moves().plunge(-13, 34)) == told

    @pytest.mark.parametrize(("far", "told"), [(-30.06, []), (-30.061, ["recess-left"])])
    def test_a_recess_counts_from_more_than_a_rim_s_breadth_on(self, far, told):
        part = hollow((-30.0, 20.0), (-30.0, 17.0), (far, 17.0), (far, 20.0))
        assert stops(part, Moves().plunge(-13, 34)) == told

    def test_a_recess_with_sloping_walls_is_told_with_its_lowest_place(self):
        part = hollow((-30.0, 20.0), (-31.5, 17.0), (-33.0, 20.0))
        (found,) = judge(part, Moves().plunge(-13, 34).run(), shop()).findings
        assert found.message.startswith("The drawing goes down to X34 between")

    @pytest.mark.parametrize("piece", [0, 2])
    def test_a_recess_at_either_end_of_the_face_is_looked_at(self, piece):
        places = [0, 10_000, 20_000, 30_000]
        line = [
            (a, -3000 if k == piece else 0, b, -3000 if k == piece else 0) for k, (a, b) in enumerate(pairwise(places))
        ]
        land = Metal([(0, 0, 30_000, 0)]).profile()
        drawn = Overlay.of(land, Metal(line).profile(), 0, 30_000)
        found = [*left_standing(PART, FACE, [], drawn, Overlay.of(land, land, 0, 30_000), DROP)]
        assert [f.code for f in found] == ["recess-left"]

    STEPS = ((0, 40), (-20, 36), (-40, 40))
    LOW = (left(why="turned", near=-20.0, far=-40.0, floor=36.0),)

    def low(self, *spots, lands=LOW, steps=STEPS):
        return replace(part_of([*spots], steps=steps), left_to_others=lands)

    def test_only_a_land_that_is_left_to_turning_must_be_made_whole(self):
        other = (left(why="overhang", near=-20.0, far=-40.0, floor=36.0),)
        moves = Moves().plunge(-8, 34).plunge(-30, 36)
        assert stops(self.low((-5, -8, 34)), moves) == ["land-partly-cut"]
        assert "land-partly-cut" not in stops(self.low((-5, -8, 34), lands=other), moves)

    def test_a_way_along_one_low_land_is_a_cut_though_another_lies_lower(self):
        steps = ((0, 40), (-10, 36), (-20, 40), (-40, 30), (-50, 40))
        lands = (
            left(why="turned", near=-10.0, far=-20.0, floor=36.0),
            left(why="turned", near=-40.0, far=-50.0, floor=30.0),
        )
        way = Moves().plunge(-31, 34).rapid(42, -18).feed(38, -16).feed(36, -15).feed(None, -17).rapid(42)
        assert stops(self.low((-28, -31, 34), lands=lands, steps=steps), way) == ["land-partly-cut"]

    def test_a_land_too_deep_in_one_place_is_told_as_that_though_the_rest_is_as_high_as_it_may_be(self):
        moves = Moves().plunge(-8, 34)
        for z in (*range(-23, -40, -2), -40):
            moves.plunge(z, 36.02)
        moves.plunge(-30, 35.8)
        found = [f.message for f in judge(self.low((-5, -8, 34)), moves.run(), shop()).findings if f.stops]
        assert len(found) == 1
        assert "is cut into and cut too deep:" in found[0]

    def test_between_a_rim_and_a_groove_that_meet_nothing_is_looked_at(self):
        """The rim of the land goes to Z-39.94, and that is where what belongs to the groove begins."""
        moves = Moves().plunge(-8, 34)
        for z in (*range(-23, -39, -2), -39.9):
            moves.plunge(z, 36)
        moves.plunge(-39.88, 30).plunge(-39.9, 36)
        assert stops(self.low((-5, -8, 34), (-36.88, -39.88, 30)), moves) == []


class TestLands:
    @pytest.mark.parametrize(("across", "counts"), [(1.0, 39), (1.2, 59), (4.0, 59), (5.0, 79)])
    def test_general_tolerances_of_an_inch_part(self, across, counts):
        """ISO 2768-1 class f: 0.1 up to 30 mm, 0.15 up to 120, 0.2 above; a count is 0.0001 in (from memory)."""
        assert general(INCH.count(across), INCH) == counts

    @pytest.mark.parametrize(("far", "ends"), [(-11.6, []), (-11.601, [(-10_800, -10_801, 36_000)])])
    def test_a_land_is_held_that_is_longer_than_both_its_ends(self, far, ends):
        part = part_of([], steps=[(0, 40), (-10, 36), (far, 40)])
        assert [one for one in _lands(part, OUTSIDE, MM) if one[2] == 36_000] == ends

    def test_the_ends_of_a_land_of_an_inch_part_are_as_long(self):
        """0.8 mm are 0.0315 in."""
        part = part_of([], diameter=1.5, length=2.0, units="in")
        assert [*_lands(part, OUTSIDE, INCH)] == [(-315, -19_685, 15_000)]


class TestJudge:
    def test_the_moves_that_were_followed_are_counted_without_those_missed(self):
        moves = Moves().plunge(-13, 34).feed(50, 20, followed=False).feed(60, 20, followed=False)
        followed = judge(PART, replace(moves.run(), skipped=5), shop()).followed
        assert (followed.moves, followed.not_followed) == (3, 2 + 5)

    def test_what_a_program_in_other_units_does_as_a_point_is_not_counted(self):
        text = "G20 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nM30\n"
        found = compare_program(PART, text, shop())
        assert [f.code for f in found.findings if f.stops] == ["units-differ"]
        assert found.followed.as_point == 0

    def test_a_skipped_cut_is_told_of_a_program_that_disagrees_either_way(self):
        part = part_of([(-10, -13, 34), (-20, -23, 34)])
        text = (
            "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG01 X35. F.08\nG00 X42.\nZ-23.\n/G01 X34.\nG00 X42.\nM30\n"
        )
        (told,) = [f for f in compare_program(part, text, shop()).findings if f.code == "block-skip"]
        assert "are left out and it cuts something else;" in told.message

    def test_a_side_that_no_tool_cuts_is_laid_over_as_drawn(self):
        part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
        run = Moves(18, 5).rapid(18, -13).feed(26).rapid(18).rapid(None, 5).run()
        outside, inside = shop(tool()), shop(tool(where="inside"))
        assert laid_over(part, run, inside, side=INSIDE, filled=True).below_land(0) == [(-13_000, -10_000)]
        assert laid_over(part, run, outside, side=INSIDE, filled=True).below_land(0) == []
        plunged = Moves().plunge(-13, 34).run()
        assert laid_over(PART, plunged, outside, filled=True).below_land(0) == [(-13_000, -10_000)]

    def test_a_vee_that_is_called_rectangular_is_held_against_its_outline(self):
        vee = part_of([(-10, -13, 34, {"shape": "vee"})])
        called = replace(vee, grooves=(replace(vee.grooves[0], shape="rectangular"),))
        assert judge(called, Moves().plunge(-13, 34).run(), shop()).matches[0].state is State.DEPTH

    def test_parting_off_with_a_wider_shallow_cut_beside_it_goes_through(self):
        moves = Moves().plunge(-13, 34).plunge(-65, 36).rapid(42, -63).feed(-0.5).rapid(42)
        found = judge(PART, moves.run(), shop(tool(max_depth=25.0)))
        assert [f.code for f in found.findings if f.code in ("parts-off", "cuts-behind-part")] == ["parts-off"]

    def test_whole_units_make_sense_where_they_agree_though_no_more_grooves_are_right(self):
        """Without a point X200 is 0.2 and the way there runs into the part; the grooves are right either way."""
        text = "G21 G99\nT0303\nG50 S2500\nG96 S110 M03\nG0 X42. Z-13.\nG1 X34. F.08\nG0 X42.\nG0 X200\nM30\n"
        found = compare_program(PART, text, shop())
        (told,) = [f for f in found.findings if f.code == "no-decimal-point"]
        assert "as whole units they make sense of this drawing" in told.message

    @pytest.mark.parametrize(("x", "code"), [(22.0, "parts-off"), (22.001, "cuts-behind-part")])
    def test_a_part_is_off_where_the_cut_meets_the_back_end_of_its_bore(self, x, code):
        part = replace(part_of([(-10, -13, 34)], bore=20.0), bore=((0.0, 10.0), (-59.0, 10.0), (-60.0, 11.0)))
        moves = Moves().plunge(-13, 34).rapid(42, -63).feed(x).rapid(42)
        found = judge(part, moves.run(), shop(tool(max_depth=25.0)))
        assert [f.code for f in found.findings if f.code in ("parts-off", "cuts-behind-part")] == [code]


class TestForms:
    ANGLE = math.degrees(2 * math.atan(1.5 / 3))

    @pytest.mark.parametrize(("floor", "state"), [(33.93, State.DEPTH), (33.91, State.WIDTH)])
    def test_each_wall_of_a_vee_may_be_off_by_the_tolerance(self, floor, state):
        """A vee as wide as deep: 0.035 and 0.045 deeper it is as much wider, and twice 0.02 is allowed."""
        part = part_of([(-10, -13, 34, {"shape": "vee"})])
        insert = tool(width=4.0, edge="vee", angle=self.ANGLE)
        assert judge(part, Moves().plunge(-13.5, floor).run(), shop(insert)).matches[0].state is state

    @pytest.mark.parametrize(("radius", "state"), [(0.2, State.MATCHES), (0.5, State.DEPTH)])
    def test_in_corners_of_leaning_walls_no_more_may_stand_than_is_drawn(self, radius, state):
        """As in `test_59_edges_of_verdicts`: the path of an insert's corner down a wall that leans 0.5 over 3."""
        more = {"corner_radius": 0.2, "tolerances": {"width": (-0.3, 0.3)}}
        part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.5} | more)])
        out = radius * (1 + 0.5 / 3 - math.hypot(3, 0.5) / 3)
        moves = Moves().rapid(42, -12.5).feed(34).feed(None, -11.5).rapid(42)
        moves.rapid(None, -13.0 - out).feed(40).feed(34, -12.5 - out).rapid(42)
        moves.rapid(None, -11.0 + out).feed(40).feed(34, -11.5 + out).rapid(42)
        insert = tool(width=1.0, side_depth=3.5, corner_radius=radius)
        found = judge(part, moves.run(), shop(insert, sharp_corner=0.2))
        assert found.matches[0].state is state, found

    def test_a_cone_beside_the_mouth_is_cut_with_the_groove(self):
        """Walls that lean 0.5 over 3, the far one with a cone of 0.5 over 0.5 at its mouth, which is 1 lower there."""
        part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.5})])
        outline = [
            (0.0, 20.0),
            (-10.0, 20.0),
            (-10.5, 17.0),
            (-12.5, 17.0),
            (-13.0, 19.5),
            (-13.5, 20.0),
            (-60.0, 20.0),
        ]
        part = replace(part, outline=tuple(outline))
        moves = Moves().rapid(42, -12.5).feed(34).feed(None, -11.5).rapid(42)
        moves.rapid(None, -13.5).feed(40).feed(39, -13.0).feed(34, -12.5).rapid(42)
        moves.rapid(None, -11.0).feed(40).feed(34, -11.5).rapid(42)
        found = judge(part, moves.run(), shop(tool(width=1.0, side_depth=3.5)))
        assert found.matches[0].state is State.MATCHES, found

    @pytest.mark.parametrize("way", [1, -1])
    def test_a_single_corner_that_is_followed_has_the_other_one_held_too(self, way):
        """6 wide with corners of 1; a sharp insert goes round one of them and leaves the other one square."""
        part = part_of([(-10, -16, 34, {"corner_radius": 1.0})])
        wall, other = (-16.0, -13.0) if way > 0 else (-13.0, -16.0)
        moves = Moves().plunge(other, 34).rapid(42, wall).feed(36)
        for k in range(1, 21):
            t = math.radians(4.5 * k)
            moves.feed(36 - 2 * math.sin(t), wall + way * (1 - math.cos(t)))
        moves.feed(34, other).rapid(42)
        found = judge(part, moves.run(), shop(tool(side_depth=3.5)))
        assert found.matches[0].state is State.DEPTH
        assert "corners drawn 1 round" in next(f.message for f in found.findings if f.code == "form")
