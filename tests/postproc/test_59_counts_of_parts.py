"""What is left and what is said of a whole part, to the count: lands, recesses that nobody read, forms, verdicts.

Worked out by hand beside each row. Shop, insert and part as in `support.moves`: the tolerance is 0.02 on the diameter.
"""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from support.moves import Moves, down_leaning_walls, shop, tool
from support.parts import part_of

from extractor.part import LeftToOthers
from extractor.side import FACE, INSIDE, OUTSIDE
from planner.increment import Increments
from postproc import compare_program, judge, laid_over
from postproc.cutting.metal import Metal
from postproc.judging.lands import _lands, general
from postproc.judging.leftover import left_standing
from postproc.judging.overlay import Overlay
from postproc.verdict import State

MM, INCH = Increments.of("mm"), Increments.of("in")
DROP = 20
PART = part_of([(-10, -13, 34)])


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

    def test_moves_of_a_tool_that_the_shop_file_has_not_are_counted_as_those_of_a_point(self):
        moves = Moves().plunge(-13, 34).rapid(200, 100)
        moves.fields |= {"station": 9, "offset": 9}
        assert judge(PART, moves.rapid(150).rapid(160, followed=False).rapid(170).run(), shop()).followed.as_point == 2

    def test_moves_before_any_tool_is_called_are_those_of_no_point(self):
        assert judge(PART, Moves(station=0, offset=0).rapid(150).run(), shop()).followed.as_point == 0

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

    def test_marked_blocks_that_change_nothing_are_not_told_though_the_program_stops(self):
        """The rapid into the part is there either way."""
        text = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX39. Z-20.\n/M08\nX42.\nM30\n"
        found = [f.code for f in compare_program(PART, text, shop()).findings]
        assert "rapid-into-material" in found
        assert "block-skip" not in found

    def test_a_side_that_no_tool_cuts_is_laid_over_as_drawn(self):
        part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
        run = Moves(18, 5).rapid(18, -13).feed(26).rapid(18).rapid(None, 5).run()
        outside, inside = shop(tool()), shop(tool(where="inside"))
        assert laid_over(part, run, inside, side=INSIDE, filled=True).below_land(0) == [(-13_000, -10_000)]
        assert laid_over(part, run, outside, side=INSIDE, filled=True).below_land(0) == []
        plunged = Moves().plunge(-13, 34).run()
        assert laid_over(PART, plunged, outside, filled=True).below_land(0) == [(-13_000, -10_000)]

    def test_a_bar_that_nothing_turns_is_laid_over_as_it_stands_though_no_tool_cuts_outside(self):
        """8 on the diameter stand all along over the land of 40."""
        part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
        run = Moves(18, 5).rapid(18, -13).feed(26).rapid(18).rapid(None, 5).run()
        laid = laid_over(part, run, shop(tool(where="inside")), stock=48.0)
        assert laid.off((-50_000, -1000)) == (8000, 8000)

    def test_a_face_that_no_tool_cuts_is_laid_over_as_drawn(self):
        laid = laid_over(PART, Moves().plunge(-13, 34).run(), shop(tool()), side=FACE)
        assert laid.off((1000, 39_000)) == (0, 0)

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
        assert told.message.startswith("X200 has no decimal point and makes sense of this drawing as whole units")
        wrong = compare_program(PART, text.replace("X34.", "X35."), shop())
        assert not any("as whole units" in f.message for f in wrong.findings), "neither way is the groove right"

    @pytest.mark.parametrize(("x", "code"), [(0.0, "parts-off"), (0.001, "cuts-behind-part")])
    def test_a_solid_part_is_off_at_the_axis(self, x, code):
        moves = Moves().plunge(-13, 34).rapid(42, -63).feed(x).rapid(42)
        found = judge(PART, moves.run(), shop(tool(max_depth=25.0)))
        assert [f.code for f in found.findings if f.code in ("parts-off", "cuts-behind-part")] == [code]

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
        """The path of an insert's corner down a wall that leans 0.5 over 3."""
        more = {"corner_radius": 0.2, "tolerances": {"width": (-0.3, 0.3)}}
        part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.5} | more)])
        moves = down_leaning_walls(radius)
        insert = tool(width=1.0, side_depth=3.5, corner_radius=radius)
        found = judge(part, moves.run(), shop(insert, sharp_corner=0.2))
        assert found.matches[0].state is state, found

    @pytest.mark.parametrize(("chamfer", "clearance"), [(0.0, 1.0), (0.5, 0.2)])
    def test_a_cone_beside_the_mouth_is_cut_with_the_groove(self, chamfer, clearance):
        """Walls that lean 0.5 over 3, the far one with a cone of 0.5 over 0.5 at its mouth, which is 1 lower there."""
        part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.5})])
        part = replace(part, grooves=(replace(part.grooves[0], edge_chamfer=chamfer),))
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
        found = judge(part, moves.run(), shop(tool(width=1.0, side_depth=3.5), clearance=clearance))
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
