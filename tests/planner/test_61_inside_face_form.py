"""Grooves in bores and faces, and recesses of a form: planned where the shop can, refused by name elsewhere."""

import math
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from support.moves import tool as usual_tool
from support.parts import groove_of, part_of
from support.recorder import run_of

from extractor.part import Groove, Part
from planner import default_shop, parse_shop, plan_part
from planner.cuts.form import edge_height, form_needed, makes
from planner.cuts.ground import ground_of
from planner.steps import Cut, GrooveCycle, Rapid, Spindle
from postproc import judge

INSIDE = {"where": "inside"}


def shop(*tools, units="mm", machine=""):
    lines = [f'units = "{units}"', "[machine]", machine]
    for station, tool in enumerate(tools, start=1):
        lines += ["[[tools]]", f"station = {station}"]
        lines += [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in tool.items()]
    return parse_shop("\n".join(lines), "s", units)


def planned(part, the_shop):
    """The plan, held against the simulation."""
    plan = plan_part(part, the_shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    verdict = judge(part, run_of(plan), the_shop)
    assert verdict.agree, ([m for m in verdict.matches if m.state != "matches"], verdict.findings)
    return plan


def stop(part, the_shop):
    (found,) = [f for f in plan_part(part, the_shop).findings if f.stops]
    return found.code, found.message


BAR = {"width": 3.0, "where": "inside", "max_depth": 5.0, "min_bore": 16.0}


class TestInside:
    def part(self, *spots, bore=20.0):
        return part_of([(*spot, INSIDE) for spot in spots], bore=bore)

    def test_the_cycle_starts_inside_the_bore(self):
        plan = planned(self.part((-10, -13, 26), (-20, -23, 26)), shop(BAR))
        (operation,) = plan.operations
        assert (operation.start_x, operation.start_z) == (18_000, -13_000)
        (cycle,) = [s for s in operation.steps if isinstance(s, GrooveCycle)]
        assert (cycle.floor_x, cycle.end_z, cycle.shift) == (26_000, -23_000, 10_000)

    def test_into_the_bore_x_first_and_out_of_it_z_first(self):
        plan = planned(self.part((-10, -13, 26)), shop(BAR))
        assert plan.operations[0].steps[:2] == (Rapid(x=18_000), Rapid(z=-13_000))
        assert plan.after[:2] == (Rapid(z=100_000), Rapid(x=200_000))

    def test_the_floor_is_aimed_at_the_middle(self):
        # DIN 472, bore 20: groove 21 H11 (+0.13/0), from the table of good rows in the outside checks.
        part = part_of([(-5, -6.1, 21.0, INSIDE | {"tolerances": {"floor_diameter": (0.0, 0.13)}})], bore=20)
        plan = planned(part, default_shop("mm"))
        (cycle,) = [s for s in plan.steps if isinstance(s, GrooveCycle)]
        assert cycle.floor_x == 21_065

    def test_the_way_in_counts(self):
        # A neck of 16 before a chamber of 24: the tip starts inside the neck's 16, and the reach is counted from there.
        groove = groove_of(
            where="inside",
            z_near=-20.0,
            z_far=-23.0,
            mouth_diameter=24.0,
            floor_diameter=28.0,
            near_land_diameter=24,
            far_land_diameter=24,
        )
        bore = (
            (0.0, 8.0),
            (-10.0, 8.0),
            (-10.0, 12.0),
            (-20.0, 12.0),
            (-20.0, 14.0),
            (-23.0, 14.0),
            (-23.0, 12.0),
            (-60.0, 12.0),
        )
        lands = ((0.0, 20.0), (-60.0, 20.0))
        part = Part(
            units="mm", outer_diameter=40.0, length=60.0, grooves=(groove,), outline=lands, lands=lands, bore=bore
        )
        code, message = stop(part, shop(BAR | {"min_bore": 10.0}))
        assert code == "groove-too-deep"
        assert "6.000 mm deep, measured from the higher land beside it," in message
        plan = planned(part, shop(BAR | {"min_bore": 10.0, "max_depth": 6.0}))
        # In along the middle of the hole of 16, a clearance off it all round, then to a clearance off the bore of 24.
        assert [s.x for s in plan.operations[0].steps if isinstance(s, Rapid) and s.x is not None][:2] == [
            14_000,
            22_000,
        ]
        assert plan.operations[0].start_x == 22_000

    @pytest.mark.parametrize(("step", "least"), [(-23.0, 18_000), (-22.999, 18_000), (-22.998, 14_000)])
    def test_a_step_just_behind_the_groove_is_not_on_the_way(self, step, least):
        """A bore of 20 to the groove's far wall and of 16 behind it: a bar for 18 would strike across 20 below X16.

        A count of the step within the insert's stretch is rounding; two are metal that it would run into.
        """
        groove = groove_of(
            where="inside",
            z_near=-20.0,
            z_far=-23.0,
            mouth_diameter=20.0,
            floor_diameter=24.0,
            near_land_diameter=20,
            far_land_diameter=16,
        )
        bore = ((0.0, 10.0), (-20.0, 10.0), (-20.0, 12.0), (step, 12.0), (step, 8.0), (-60.0, 8.0))
        lands = ((0.0, 20.0), (-60.0, 20.0))
        part = Part(
            units="mm", outer_diameter=40.0, length=60.0, grooves=(groove,), outline=lands, lands=lands, bore=bore
        )
        plan = plan_part(part, shop(BAR | {"min_bore": 18.0}))
        heights = [s.x for s in plan.operations[0].steps if isinstance(s, Rapid) and s.x is not None]
        assert min(heights) == least

    def test_a_bar_too_thick_for_the_bore(self):
        code, message = stop(self.part((-10, -13, 26), bore=16.5), shop(BAR))
        assert code == "bore-too-small"
        assert "a bore of 16.500 mm and the smallest bar that would cut it needs 17.000 mm" in message

    def test_no_inside_tool(self):
        code, message = stop(self.part((-10, -13, 26)), shop({"width": 3.0}))
        assert code == "recess-not-planned"
        assert "for the bore and the shop has none" in message

    def test_a_centre_in_the_way(self):
        code, message = stop(self.part((-10, -13, 26)), shop(BAR, machine="tailstock = 12"))
        assert code == "tailstock"
        assert "the tailstock's centre is in its way" in message

    def test_a_part_that_shows_no_bore(self):
        whole = self.part((-10, -13, 26))
        part = Part(
            units=whole.units,
            outer_diameter=40.0,
            length=60.0,
            grooves=whole.grooves,
            outline=whole.outline,
            lands=whole.lands,
            bore=None,
        )
        assert "shows no bore" in stop(part, shop(BAR))[1]

    def test_outside_before_inside(self):
        part = part_of([(-10, -13, 26, INSIDE), (-20, -23, 36)], bore=20)
        plan = planned(part, shop(BAR, {"width": 3.0}))
        assert [o.tool.where for o in plan.operations] == ["outside", "inside"]

    def test_slower_inside(self):
        # Trade rule in tool catalogues: 20 to 30 % less inside and on faces.
        plan = planned(self.part((-10, -13, 26)), shop(BAR))
        assert next(s for s in plan.steps if isinstance(s, Spindle)).speed == 90

    def test_wide_and_finished(self):
        plan = planned(self.part((-10, -18, 26)), shop(BAR | {"finish": 0.1}))
        cycles = [s for s in plan.steps if isinstance(s, GrooveCycle)]
        assert {c.floor_x for c in cycles} == {25_800}
        assert {c.x for c in plan.steps if isinstance(c, Cut) and c.x is not None} == {26_000}

    def test_cautions_of_the_bar(self):
        codes = {f.code for f in planned(self.part((-10, -13, 26)), shop(BAR | {"min_bore": 0.0})).findings}
        assert "bore-unchecked" in codes
        part = part_of([(-55, -58, 26, INSIDE)], bore=20)
        assert "bar-overhang" in {f.code for f in planned(part, shop(BAR)).findings}


FACE = {"width": 3.0, "where": "face", "max_depth": 6.0}


def begins(lands, diameter):
    """The z at which metal begins on a diameter, seen from the front."""
    part = replace(face_part(), lands=lands, outline=lands)
    return ground_of(part, part.grooves[0]).highest(diameter, diameter)


def face_part(outer=40.0, inner=34.0, deep=4.0, **more):
    steps = more.pop("steps", [(0, 60)])
    top = steps[-1][0]
    return part_of([(top, top - deep, inner, {"where": "face", "mouth_diameter": outer, **more})], steps=steps)


class TestFace:
    def test_one_plunge_along_z(self):
        plan = planned(face_part(), shop(FACE | {"reference": "near", "peck": 2.0}))
        (operation,) = plan.operations
        assert (operation.form, operation.start_x, operation.start_z) == ("plunges", 40_000, 1000)
        assert operation.steps == (
            Rapid(x=40_000),
            Rapid(z=1000),
            Cut(800, z=-2000),
            Rapid(z=-1600),
            Cut(800, z=-4000),
            Rapid(z=100_000),
        )
        assert plan.after[0] == Rapid(x=200_000), "out of the face along Z, all the way in one, then X"

    def test_the_inner_edge_as_reference(self):
        assert planned(face_part(), shop(FACE)).operations[0].start_x == 34_000

    def test_a_wider_groove_goes_from_the_outer_wall_inward(self):
        plan = planned(face_part(outer=50), shop(FACE | {"reference": "near"}))
        places = [s.x for s in plan.operations[0].steps if isinstance(s, Rapid) and s.x is not None]
        assert places == [50_000, 46_667, 43_333, 40_000], "one beside the other, because nothing is known of its curve"
        plan = planned(face_part(outer=50), shop(FACE | {"reference": "near", "face_min": 35, "face_max": 60}))
        places = [s.x for s in plan.operations[0].steps if isinstance(s, Rapid) and s.x is not None]
        assert places == [50_000, 40_000, 45_000], "full plunges at both walls, then the rib between"

    def test_the_insert_s_curve_may_ask_for_the_inner_wall_first(self):
        plan = planned(face_part(outer=50), shop(FACE | {"reference": "near", "face_min": 30, "face_max": 42}))
        assert plan.operations[0].start_x == 40_000

    def test_no_place_for_the_first_plunge(self):
        code, message = stop(face_part(), shop(FACE | {"face_min": 50, "face_max": 90}))
        assert code == "face-curve"
        assert "40.000 mm across outside and no face insert may begin there" in message

    def test_on_a_shoulder(self):
        part = face_part(steps=[(0, 20), (-15, 60)])
        assert planned(part, shop(FACE)).operations[0].start_z == -14_000

    def test_in_a_face_that_looks_to_the_chuck(self):
        part = part_of([(-11, -15, 34, {"where": "face", "mouth_diameter": 40})], steps=[(0, 60), (-15, 30)])
        assert "in a face turned from the front" in stop(part, shop(FACE))[1]

    def test_deeper_than_the_reach_and_narrower_than_the_insert(self):
        assert stop(face_part(deep=7), shop(FACE))[0] == "groove-too-deep"
        assert stop(face_part(outer=38), shop(FACE))[0] == "groove-too-narrow"

    def test_its_tolerances(self):
        plan = planned(face_part(tolerances={"depth": (0.0, 0.2)}), shop(FACE))
        assert min(s.z for s in plan.steps if isinstance(s, Cut)) == -4100
        plan = planned(face_part(tolerances={"z_far": (0.0, 0.2)}), shop(FACE))
        assert min(s.z for s in plan.steps if isinstance(s, Cut)) == -3900

    def test_with_outside_grooves(self):
        part = part_of([(0, -4, 34, {"where": "face", "mouth_diameter": 40}), (-20, -23, 50)], steps=[(0, 60)])
        plan = planned(part, shop(FACE, {"width": 3.0, "max_depth": 6}))
        assert [o.tool.where for o in plan.operations] == ["face", "outside"]

    def test_a_vee_in_a_face_is_refused(self):
        assert stop(face_part(shape="vee"), shop(FACE))[0] == "recess-not-planned"

    def test_the_curve_unchecked_is_said(self):
        assert "face-curve-unchecked" in {f.code for f in planned(face_part(), shop(FACE)).findings}

    @pytest.mark.parametrize(("diameter", "z"), [(10, 0.0), (30, 0.0), (40, -20.0), (60, -20.0)])
    def test_where_metal_begins(self, diameter, z):
        assert begins(((0.0, 15.0), (-20.0, 15.0), (-20.0, 30.0), (-60.0, 30.0)), diameter) == z

    def test_where_metal_begins_behind_a_chamfer(self):
        assert begins(((0.0, 10.0), (-2.0, 12.0), (-60.0, 12.0)), 22) == pytest.approx(-1.0)

    def test_a_shoulder_in_the_shade_of_a_larger_one_is_not_seen(self):
        lands = ((0.0, 15.0), (-10.0, 15.0), (-10.0, 30.0), (-20.0, 30.0), (-20.0, 20.0), (-60.0, 20.0))
        assert [begins(lands, d) for d in (29, 31, 40, 60)] == [0.0, -10.0, -10.0, -10.0]


def vee(angle=90.0, **more):
    return {"width": 4.0, "edge": "vee", "angle": angle, "max_depth": 5.0, "corner_radius": 0.0, **more}


class TestForms:
    def test_a_vee_insert_of_the_same_angle(self):
        plan = planned(part_of([(-10, -12, 38, {"shape": "vee"})]), shop(vee()))
        (cycle,) = [s for s in plan.steps if isinstance(s, GrooveCycle)]
        assert (cycle.floor_x, cycle.end_z) == (38_000, -13_000), "its middle stands in the middle of the groove"

    @pytest.mark.parametrize("angle", [60.0, 84.0, 96.0])
    def test_another_angle_is_refused(self, angle):
        code, message = stop(part_of([(-10, -12, 38, {"shape": "vee"})]), shop(vee(angle)))
        assert code == "recess-not-planned"
        assert "a vee insert of 90.0 degrees, 2.000 mm wide or more" in message

    @pytest.mark.parametrize(("width", "plain"), [(1.5, False), (1.96, False), (1.97, True), (2.0, True)])
    def test_one_plunge_takes_an_insert_as_wide_as_the_vee(self, width, plain):
        # A drawn point may be off 0.02 and a tenth is left for rounding: 2 less 2 x 0.018 is 1.964 wide (by hand).
        groove = part_of([(-10, -12, 38, {"shape": "vee"})]).grooves[0]
        part = part_of([(-10, -12, 38, {"shape": "vee"})])
        (tool,) = shop(vee(width=width)).tools
        assert makes(tool, groove, ground_of(part, groove), 0.02) is plain

    def test_a_round_floor_below_upright_walls_asks_for_half_its_width(self):
        deep = {"id": 1, "where": "outside", "shape": "round", "z_near": -10.0, "z_far": -14.0, "mouth_diameter": 40.0}
        for floor, radius in ((32.0, "2.000"), (36.2, "2.003"), (38.0, "2.500")):
            # Below half its width an arc: (d2 + 4) / 2 d of its depth d (chord and sagitta, by hand).
            assert form_needed(Groove(**deep, floor_diameter=floor)) == f"a round insert of radius {radius}"

    def test_a_nose_that_shows(self):
        assert (
            stop(part_of([(-10, -12, 38, {"shape": "vee"})]), shop(vee(corner_radius=0.4)))[0] == "recess-not-planned"
        )

    def test_the_greatest_nose_is_told_and_just_does(self):
        part = part_of([(-10, -12, 38, {"shape": "vee"})])
        _, message = stop(part, shop(vee(60.0)))
        # 0.9 of 0.02 times cos 45 / (1 - sin 45): geometry of a tangent arc.
        assert "a nose radius up to 0.043 mm (a larger one shows)" in message
        planned(part, shop(vee(corner_radius=0.043)))
        assert stop(part, shop(vee(corner_radius=0.045)))[0] == "recess-not-planned"

    @given(st.floats(40, 120), st.floats(0, 0.08), st.floats(0.5, 1.9), st.floats(-2, 2))
    @example(70.0, 0.046875, 1.0, -1.0)  # beside the nose 0.024 along the axis, though only 0.0198 square to the flank
    @settings(max_examples=60, deadline=None)
    def test_a_vee_is_cut_right_or_refused(self, angle, nose, half, error):
        deep = half / math.tan(math.radians(angle) / 2)
        part = part_of([(-10, round(-10 - 2 * half, 3), round(40 - 2 * deep, 3), {"shape": "vee"})])
        the_shop = shop(vee(angle + error, corner_radius=nose, max_depth=12.0))
        plan = plan_part(part, the_shop)
        if plan.stopped:
            assert {f.code for f in plan.findings if f.stops} == {"recess-not-planned"}
        else:
            verdict = judge(part, run_of(plan), the_shop)
            assert verdict.agree, verdict

    def test_a_vee_insert_narrower_than_the_vee_goes_down_either_wall(self):
        plan = planned(part_of([(-10, -16, 34, {"shape": "vee"})]), shop(vee()))
        assert any("follows" in why for why in plan.operations[0].why)
        assert stop(part_of([(-10, -16, 34, {"shape": "vee"})]), shop(vee(100.0)))[0] == "recess-not-planned"

    def test_a_row_of_vees_is_one_cycle(self):
        spots = [(-10 - 5 * i, -12 - 5 * i, 38, {"shape": "vee"}) for i in range(4)]
        assert [o.grooves for o in planned(part_of(spots), shop(vee())).operations] == [(1, 2, 3, 4)]

    def test_a_round_insert_of_the_same_radius(self):
        deep = 2.0 - math.sqrt(4.0 - 1.5**2)
        part = part_of([(-10, -13, 40 - 2 * deep, {"shape": "round"})])
        drawn = replace(part, grooves=(replace(part.grooves[0], corner_radius=2.0),))
        for shown in (part, drawn):
            plan = planned(shown, shop({"width": 4.0, "edge": "round", "max_depth": 5.0}))
            assert not [f for f in plan.findings if f.code.startswith("corner")]
        assert plan.operations[0].start_z == -13_500
        code, message = stop(part, shop({"width": 5.0, "edge": "round", "max_depth": 5.0}))
        assert code == "recess-not-planned"
        assert "a round insert of radius 2.000" in message

    @pytest.mark.parametrize(("units", "scale"), [("mm", 1.0), ("in", 1 / 25.4)])
    def test_the_built_in_round_inserts_follow_a_rounder_floor(self, units, scale):
        deep = (5.0 - math.sqrt(25.0 - 3.5**2)) * scale
        across, near, far = 40 * scale, -10 * scale, -17 * scale
        more = {"shape": "round", "corner_radius": 5.0 * scale}
        part = part_of([(near, far, across - 2 * deep, more)], diameter=across, length=60 * scale, units=units)
        plan = planned(part, default_shop(units))
        assert [o.tool.edge for o in plan.operations] == ["round"]

    def test_no_form_insert_at_all(self):
        code, message = stop(part_of([(-10, -12, 38, {"shape": "vee"})]), shop({"width": 2.0}))
        assert code == "recess-not-planned"
        assert "no vee insert for the outside in the shop" in message

    def test_a_tolerance_of_the_floor_doesn_t_widen_the_mouth(self):
        part = part_of([(-10, -12, 38, {"shape": "vee", "tolerances": {"floor_diameter": (-0.2, 0.0)}})])
        (cycle,) = [s for s in planned(part, shop(vee())).steps if isinstance(s, GrooveCycle)]
        assert 37_990 <= cycle.floor_x <= 38_000

    @given(st.floats(20, 150), st.floats(0.01, 0.8), st.floats(-2, 2))
    @settings(max_examples=60)
    def test_the_edge_of_a_vee_is_smooth_and_symmetric(self, angle, nose, aside):
        tool = usual_tool(width=4.0, corner_radius=nose, max_depth=5.0, edge="vee", angle=angle)
        assert edge_height(tool, aside) == edge_height(tool, -aside)
        assert edge_height(tool, 0) == pytest.approx(0.0, abs=1e-12)
        joint = nose * math.cos(math.radians(angle) / 2)
        assert edge_height(tool, joint + 1e-9) == pytest.approx(edge_height(tool, joint), abs=1e-6)

    @given(st.floats(30, 140), st.floats(0.05, 0.4), st.floats(0.8, 1.9))
    @example(42.75, 0.25, 1.0)
    @settings(max_examples=60)
    def test_the_form_asked_for_is_the_form_that_was_drawn(self, angle, nose, half):
        tool = usual_tool(width=4.0, corner_radius=nose, max_depth=5.0, edge="vee", angle=angle)
        deep = edge_height(tool, half)
        groove = groove_of(shape="vee", z_far=-10.0 - 2 * half, floor_diameter=40.0 - 2 * deep, corner_radius=nose)
        words = form_needed(groove).split()
        assert [*words[:4], words[5]] == ["a", "vee", "insert", "of", "degrees"]
        # One decimal: where the next is a five, the last digit of a float decides.
        assert float(words[4]) == pytest.approx(angle, abs=0.05 + 1e-6)
