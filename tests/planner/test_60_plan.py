"""Plans as a setter would check them: places, starts, ways in and out, the fewest tools, order and reasons."""

import pytest
from support.parts import part_of, row

from planner import default_shop, parse_shop, plan_part
from planner.steps import Coolant, Cut, Dwell, GrooveCycle, Rapid, Spindle, SpindleClamp, ToolCall

INCH = (
    'units = "in"\n[machine]\nstick_out = 8\n[[tools]]\nstation = 3\nwidth = 0.125\npeck = 0.04\nmax_depth = 0.5\n'
    'corner_radius = 0.005\nreference = "{}"\n'
)
MM = 'units = "mm"\n[machine]\nstick_out = 200\n'


def tool(station, width, **more):
    lines = [f"station = {station}", f"width = {width}", "max_depth = 20"]
    lines += [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in more.items()]
    return "[[tools]]\n" + "\n".join(lines) + "\n"


def planned(part, text):
    plan = plan_part(part, parse_shop(text, "s", part.units))
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    return plan


def cycles(plan):
    return [step for step in plan.steps if isinstance(step, GrooveCycle)]


class TestTheCaseOfTheTrade:
    """Common practice, no source: grooves from Z-0.225 at 0.200 on 1.500 across with 0.050 clearance."""

    def plan(self, count, reference="far"):
        part = part_of(row(count, -0.1, 0.2, 0.125, 1.3), diameter=1.5, length=3, units="in")
        return planned(part, INCH.format(reference))

    def test_two_grooves(self):
        (cycle,) = cycles(self.plan(2))
        assert (cycle.end_z, cycle.shift, cycle.peck, cycle.floor_x) == (-4250, 2000, 0, 13000)

    def test_four_grooves_change_nothing_but_the_end(self):
        two, four = cycles(self.plan(2))[0], cycles(self.plan(4))[0]
        assert four.end_z == -8250
        assert (four.floor_x, four.peck, four.shift, four.retract, four.feed) == (
            two.floor_x,
            two.peck,
            two.shift,
            two.retract,
            two.feed,
        )

    def test_the_start_is_a_clearance_above_the_part(self):
        (operation,) = self.plan(4).operations
        assert (operation.start_x, operation.start_z) == (16000, -2250)

    def test_the_near_edge_shifts_z_by_the_insert(self):
        (operation,) = self.plan(4, "near").operations
        assert operation.start_z == -1000
        assert cycles(self.plan(4, "near"))[0].end_z == -7000

    def test_one_operation_by_the_cycle(self):
        (operation,) = self.plan(4).operations
        assert (operation.form, operation.grooves, operation.tool.name) == ("cycle", (1, 2, 3, 4), "T0303")


def test_the_example_of_the_contract():
    plan = planned(part_of(row(4, -10, 5, 3, 34)), MM + tool(3, 3.0))
    (operation,) = plan.operations
    assert (operation.start_x, operation.start_z) == (42000, -13000)
    assert [(s.grooves, s.pitch) for s in plan.sets] == [((1, 2, 3, 4), 5.0)]


def test_the_frame_of_a_program():
    plan = planned(part_of([(-10, -13, 34)]), MM + tool(3, 3.0))
    kinds = [type(step) for step in plan.before]
    assert kinds == [Rapid, Rapid, ToolCall, SpindleClamp, Spindle, Coolant]
    assert plan.before[0] == Rapid(x=200_000)
    assert plan.after == (Rapid(x=200_000), Rapid(z=100_000), Coolant(False), ToolCall(3, 0))


def test_no_coolant_where_the_shop_has_none():
    plan = planned(part_of([(-10, -13, 34)]), MM + "coolant = false\n" + tool(3, 3.0))
    assert not any(isinstance(step, Coolant) for step in plan.steps)


def test_home_is_never_lower_than_the_part():
    plan = planned(part_of([(-10, -13, 294)], diameter=300, length=60), MM + tool(3, 3.0))
    assert plan.before[0] == Rapid(x=320_000)


def test_z_comes_first_then_x():
    plan = planned(part_of([(-10, -13, 34)]), MM + tool(3, 3.0))
    assert plan.operations[0].steps[:2] == (Rapid(z=-13_000), Rapid(x=42_000))


def test_a_start_clears_the_higher_land_that_the_set_passes():
    part = part_of([*row(2, -10, 40, 3, 34)], steps=[(0, 40), (-20, 42), (-40, 40)], length=80)
    (operation,) = planned(part, MM + tool(3, 3.0)).operations
    assert operation.grooves == (1, 2)
    assert operation.start_x == 44_000


def test_beside_a_shoulder_the_tool_comes_down_off_the_face_and_goes_sideways_to_it():
    part = part_of([(-27, -30, 34)], steps=[(0, 40), (-30, 50)])
    (operation,) = planned(part, MM + tool(3, 3.0)).operations
    assert (operation.start_x, operation.start_z) == (42_000, -29_000)
    assert operation.steps == (
        Rapid(z=-29_000),
        Rapid(x=42_000),
        Cut(800, z=-30_000),
        GrooveCycle(floor_x=34_000, end_z=-30_000, peck=0, shift=0, retract=200, feed=800),
        Rapid(z=-29_000),
    )


def test_a_shoulder_farther_off_doesn_t_raise_the_start():
    part = part_of([(-20, -23, 34)], steps=[(0, 40), (-30, 50)])
    (operation,) = planned(part, MM + tool(3, 3.0)).operations
    assert operation.start_x == 42_000


def test_from_set_to_set_over_what_stands_between():
    part = part_of([(-10, -13, 34), (-50, -53, 32)], steps=[(0, 40), (-20, 60), (-40, 40)], length=80)
    second = planned(part, MM + tool(3, 3.0)).operations[1]
    assert second.steps[:3] == (Rapid(x=62_000), Rapid(z=-53_000), Rapid(x=42_000))


def test_no_needless_rapids_on_a_plain_land():
    part = part_of([(-10, -13, 34), (-50, -53, 32)])
    second = planned(part, MM + tool(3, 3.0)).operations[1]
    assert [type(s) for s in second.steps] == [Rapid, GrooveCycle]


def test_a_single_groove_is_a_plunge_with_no_shift():
    plan = planned(part_of([(-10, -13, 34)]), MM + tool(3, 3.0))
    assert plan.operations[0].form == "plunges"
    assert cycles(plan) == [GrooveCycle(floor_x=34_000, end_z=-13_000, peck=0, shift=0, retract=200, feed=800)]


def test_where_every_plunge_is_written_out_no_cycle_is_told():
    part, shop_text = part_of(row(4, -10, 5, 3, 34)), MM + tool(3, 3.0)
    for cycles_had, form, told in (("full", "cycle", "one cycle for all 4"), ("none", "plunges", "one row for all 4")):
        (operation,) = plan_part(part, parse_shop(shop_text, "s", "mm"), cycles=cycles_had).operations
        assert operation.form == form
        assert told in operation.why[0]


def test_irregular_ones_go_one_by_one_from_the_front():
    places = [-5, -12, -28, -33.5, -51]
    spots = [(z, z - 3, 34 - i) for i, z in enumerate(places)]
    plan = planned(part_of(spots), MM + tool(3, 3.0))
    assert [o.grooves for o in plan.operations] == [(1,), (2,), (3,), (4,), (5,)]
    assert {o.form for o in plan.operations} == {"plunges"}


def test_a_third_of_an_inch_cuts_no_groove_too_many():
    part = part_of(row(10, -0.1, 1 / 3, 0.125, 1.3), diameter=1.5, length=4, units="in")
    for cycle, operation in zip(cycles(plan := planned(part, INCH.format("far"))), plan.operations, strict=True):
        span = operation.start_z - cycle.end_z
        assert span % cycle.shift == 0
        assert span // cycle.shift + 1 == len(operation.grooves)
        for k, number in enumerate(operation.grooves):
            true = part.grooves[number - 1].z_far
            assert abs((operation.start_z - k * cycle.shift) / 10_000 - true) <= 0.001


def test_a_tight_tolerance_splits_what_the_grid_can_t_hold():
    tight = {"tolerances": {"z_far": (-0.00005, 0.00005)}}
    spots = row(10, -0.1, 1 / 3, 0.125, 1.3, **tight)
    plan = planned(part_of(spots, diameter=1.5, length=4, units="in"), INCH.format("far"))
    assert len(plan.operations) > 1
    for operation in plan.operations:
        z = operation.start_z
        for number in operation.grooves:
            assert abs(z / 10_000 + 0.1 + (number - 1) / 3 + 0.125) <= 0.000051
            z -= next(s.shift for s in operation.steps if isinstance(s, GrooveCycle))


class TestTolerances:
    def floor(self, deviations):
        part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": deviations}})])
        return cycles(planned(part, MM + tool(3, 3.0)))[0].floor_x

    def test_the_floor_is_aimed_at_the_middle(self):
        assert self.floor((-0.1, 0.0)) == 33_950
        assert self.floor((-0.05, 0.05)) == 34_000

    def test_a_tolerance_on_the_depth(self):
        part = part_of([(-10, -13, 34, {"tolerances": {"depth": (0.0, 0.1)}})])
        assert cycles(planned(part, MM + tool(3, 3.0)))[0].floor_x == 33_900

    def test_an_insert_inside_the_width_s_tolerance_is_one_plunge(self):
        part = part_of([(-10, -11.3, 34, {"tolerances": {"width": (0.0, 0.14)}})])
        plan = planned(part, MM + tool(3, 1.4, corner_radius=0.1))
        assert len(cycles(plan)) == 1
        assert cycles(plan)[0].end_z == -11_350, "half of what it is wider goes to either side"

    def test_a_wall_whose_place_is_toleranced(self):
        part = part_of([(-10, -13, 34, {"tolerances": {"z_far": (0.0, 0.2)}})])
        assert cycles(planned(part, MM + tool(3, 3.0)))[0].end_z == -12_900

    def test_unlike_tolerances_share_a_set_where_one_floor_serves(self):
        spots = row(3, -10, 10, 3, 34)
        spots[1] = (*spots[1][:3], {"tolerances": {"floor_diameter": (-0.04, 0.06)}})
        plan = planned(part_of(spots), MM + tool(3, 3.0))
        assert len(plan.operations) == 1
        assert cycles(plan)[0].floor_x == 34_000, "nominal, because two of them have no tolerance"

    def test_nominal_on_a_limit_is_not_shared(self):
        spots = row(3, -10, 10, 3, 34)
        spots[1] = (*spots[1][:3], {"tolerances": {"floor_diameter": (-0.05, 0.0)}})
        plan = planned(part_of(spots), MM + tool(3, 3.0))
        assert [o.grooves for o in plan.operations] == [(1, 3), (2,)]
        assert [c.floor_x for c in cycles(plan)] == [34_000, 33_975]

    def test_an_insert_on_the_edge_of_a_wide_tolerance_isn_t_one_plunge(self):
        # A general tolerance of 0.1 (ISO 2768-m, 0.5 to 3) is for the check, not for the plan to spend.
        part = part_of([(-10, -11.1, 36, {"tolerances": {"width": (-0.1, 0.1)}})])
        plan = planned(part, MM + tool(3, 1.0, corner_radius=0.1))
        (cycle,) = cycles(plan)
        assert (plan.operations[0].start_z, cycle.end_z) == (-11_000, -11_100)

    def test_unlike_tolerances_part_a_set_where_none_does(self):
        spots = row(3, -10, 10, 3, 34)
        spots[1] = (*spots[1][:3], {"tolerances": {"floor_diameter": (-0.2, -0.1)}})
        assert [o.grooves for o in planned(part_of(spots), MM + tool(3, 3.0)).operations] == [(1, 3), (2,)]


def test_tolerances_as_wide_as_the_pitch_are_neither_slow_nor_spent():
    # General tolerances of a long part (ISO 2768-c, over 120: 1.2) on grooves 3 apart.
    wide = {"tolerances": {"z_far": (-1.2, 1.2)}}
    spots = [(-5 - 3 * i - 0.1 * (i % 3), -6 - 3 * i - 0.1 * (i % 3), 36, wide) for i in range(24)]
    plan = planned(part_of(spots, length=120), MM + tool(3, 1.0, corner_radius=0.1))
    for operation in plan.operations:
        shift = next(s.shift for s in operation.steps if isinstance(s, GrooveCycle))
        for k, number in enumerate(operation.grooves):
            assert abs((operation.start_z - k * shift) / 1000 - spots[number - 1][1]) <= 0.75


def test_grooves_that_one_insert_cuts_alike_share_a_cycle_whatever_corners_are_drawn():
    corners = [0.0, 0.2, 0.4, 0.2]
    spots = [(-10 - 6 * k, -13 - 6 * k, 34, {"corner_radius": r}) for k, r in enumerate(corners)]
    plan = planned(part_of(spots), MM + tool(3, 3.0, corner_radius=0.2))
    assert [o.grooves for o in plan.operations] == [(1, 2, 3, 4)]
    said = {f.code: f.message for f in plan.findings}
    assert said["corner-sharp-as-drawn"].startswith("Groove 1: ")
    assert said["corner-smaller"].startswith("Groove 3: corners are drawn 0.400 mm round")


class TestWhichInsert:
    def names(self, spots, text):
        return [(o.grooves, o.tool.name) for o in planned(part_of(spots, length=120), MM + text).operations]

    def test_the_one_as_wide_as_the_groove(self):
        assert self.names([(-10, -13, 34)], tool(1, 2.0) + tool(2, 3.0) + tool(3, 1.5)) == [((1,), "T0202")]

    def test_fewest_tool_changes_come_before_fewest_plunges(self):
        spots = [(-10, -13, 34), (-20, -24, 34)]
        assert {name for _, name in self.names(spots, tool(1, 3.0) + tool(2, 4.0))} == {"T0101"}

    def test_a_second_tool_where_one_can_t_do_both(self):
        spots = [(-10, -11.3, 36), (-20, -30, 8)]
        text = tool(1, 3.0) + tool(2, 1.3, max_depth_dummy=0).replace("max_depth_dummy = 0\n", "")
        text = text.replace("width = 1.3\nmax_depth = 20", "width = 1.3\nmax_depth = 3")
        assert self.names(spots, text) == [((1,), "T0202"), ((2,), "T0101")]

    def test_a_needle_is_not_asked_to_widen_a_trench(self):
        spots = [(-10, -11.1, 36), (-20, -32, 34)]
        assert dict(self.names(spots, tool(1, 1.1) + tool(2, 5.0))) == {(1,): "T0101", (2,): "T0202"}

    def test_the_nearer_corner_radius(self):
        spots = [(-10, -13, 34, {"corner_radius": 0.4})]
        text = tool(1, 3.0, corner_radius=0.2) + tool(2, 3.0, corner_radius=0.4)
        assert self.names(spots, text) == [((1,), "T0202")]

    def test_either_edge_of_one_insert(self):
        text = tool(3, 3.0, reference="near")
        plan = planned(part_of([(-10, -13, 34)]), MM + text)
        assert plan.operations[0].start_z == -10_000


class TestOrder:
    def test_each_tool_once_and_from_the_front(self):
        spots = [(-5, -6.3, 37), (-10, -22, 34), (-25, -26.3, 37), (-30, -42, 34)]
        text = tool(1, 1.3, corner_radius=0.1) + tool(2, 4.0)
        plan = planned(part_of(spots), MM + text)
        assert [o.tool.name for o in plan.operations] == ["T0101", "T0202"]
        calls = [s for s in plan.steps if isinstance(s, ToolCall)]
        assert [(c.station, c.offset) for c in calls] == [(1, 1), (2, 2), (2, 0)]

    def test_a_tool_change_happens_at_home(self):
        spots = [(-5, -6.3, 37), (-10, -22, 34)]
        plan = planned(part_of(spots), MM + tool(1, 1.3, corner_radius=0.1) + tool(2, 4.0))
        steps = plan.operations[1].steps
        assert steps[:3] == (Rapid(x=200_000), Rapid(z=100_000), ToolCall(2, 2))
        assert isinstance(steps[3], SpindleClamp)
        assert isinstance(steps[4], Spindle)

    def test_shallow_before_deep_beside_a_thin_land(self):
        spots = [(-10, -13, 24), (-15, -18, 34), (-20, -23, 24)]
        plan = planned(part_of(spots), MM + tool(3, 3.0))
        assert [o.grooves for o in plan.operations] == [(2,), (1, 3)]
        wide_apart = [(-10, -13, 24), (-25, -28, 34), (-40, -43, 24)]
        assert [o.grooves for o in planned(part_of(wide_apart), MM + tool(3, 3.0)).operations] == [(1, 3), (2,)]

    def test_what_weakens_the_part_comes_last(self):
        plan = planned(part_of([(-5, -8, 12), (-20, -23, 34), (-30, -33, 33)]), MM + tool(3, 3.0))
        assert [o.grooves for o in plan.operations] == [(2,), (3,), (1,)]
        assert any("only 30 % of the diameter is left" in why for why in plan.operations[-1].why)


class TestWideGrooves:
    def cuts(self, width, insert=3.0, floor=34, count=1, **more):
        part = part_of(row(count, -10, width + 5, width, floor), length=200)
        return planned(part, MM + tool(3, insert, corner_radius=0.2, **more))

    def test_two_plunges_meet_both_walls(self):
        (cycle,) = cycles(self.cuts(5))
        assert (cycle.end_z, cycle.shift) == (-15_000, 2000)
        assert self.cuts(5).operations[0].start_z == -13_000

    def test_an_even_shift_is_one_cycle(self):
        plan = self.cuts(6.1)
        assert len(cycles(plan)) == 1
        assert plan.operations[0].form == "cycle"

    def test_ribs_come_after_the_full_plunges(self):
        full, rib = cycles(self.cuts(8))
        assert (full.end_z, full.shift) == (-18_000, 5000)
        assert (rib.end_z, rib.shift) == (-15_500, 0)

    def test_neighbouring_plunges_leave_no_ridge(self):
        for width in (3.5, 4.2, 5, 6.6, 7.9, 9.3, 12, 15.5, 20):
            places = set()
            plan = self.cuts(width)
            z = plan.operations[0].start_z
            for step in plan.operations[0].steps:
                z = step.z if isinstance(step, Rapid) and step.z is not None else z
                if isinstance(step, GrooveCycle):
                    places |= set(range(step.end_z, z + 1, step.shift)) if step.shift else {z}
            gaps = [b - a for a, b in zip(sorted(places), sorted(places)[1:], strict=False)]
            assert all(gap <= 3000 - 2 * 200 for gap in gaps), width
            assert abs(max(places) + 13_000) <= 5
            assert abs(min(places) - (-10_000 - round(width * 1000))) <= 10

    def test_many_wide_grooves_go_along_the_row(self):
        plan = self.cuts(5, count=4)
        assert [(c.shift, c.end_z) for c in cycles(plan)] == [(10_000, -43_000), (10_000, -45_000)]

    def test_a_finishing_pass_goes_wall_floor_wall(self):
        plan = self.cuts(8, finish=0.1)
        moves = [s for s in plan.operations[0].steps if isinstance(s, Cut)]
        down, along, down_again, back = moves
        assert (down.x, along.z, down_again.x) == (34_000, along.z, 34_000)
        assert along.z is not None
        assert back.z is not None
        assert back.z > -18_000
        assert all(c.floor_x == 34_200 for c in cycles(plan))
        assert plan.operations[0].form == "cycle"

    def test_a_groove_hardly_wider_is_roughed_in_its_middle(self):
        plan = self.cuts(3.1, finish=0.1)
        assert [(c.end_z, c.shift) for c in cycles(plan)] == [(-13_050, 0)]

    def test_a_second_roughing_plunge_that_would_hardly_cut_is_left_out(self):
        plan = self.cuts(3.3, finish=0.1)
        assert [(c.end_z, c.shift) for c in cycles(plan)] == [(-13_150, 0)]
        assert len(cycles(self.cuts(3.4, finish=0.1))) == 1, "one cycle of two plunges"
        assert any("rough it out." in why for why in self.cuts(3.4, finish=0.1).operations[0].why)

    def test_the_last_of_a_deep_plunge_goes_slower(self):
        part = part_of([(-10, -13, 20), (-20, -23, 34)])
        plan = planned(part, MM + tool(3, 3.0, last_feed=0.5))
        deep, shallow = plan.operations
        assert not any(isinstance(s, Cut) for s in shallow.steps)
        pecks = [Cut(800 if x >= 26_000 else 400, x=x) for x in range(38_000, 18_000, -2000)]
        assert [s for s in deep.steps if isinstance(s, Cut)] == pecks
        # Where the slow part begins within a peck only the feed changes there: the eleventh of 0.8 ends at 22.4.
        odd = planned(part, MM + tool(3, 3.0, last_feed=0.5, peck=0.8)).operations[0].steps
        place = odd.index(Cut(800, x=26_000))
        assert odd[place - 2 : place + 2] == (
            Cut(800, x=27_200),
            Rapid(x=27_520),
            Cut(800, x=26_000),
            Cut(400, x=25_600),
        )
        assert any("at 50 % of the feed" in why for why in deep.why)

    def test_a_dwell_at_a_toleranced_floor(self):
        part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.05, 0.0)}}), (-20, -23, 30)])
        plan = planned(part, MM + tool(3, 3.0, dwell=2.0))
        first, second = plan.operations
        (pause,) = [s for s in first.steps if isinstance(s, Dwell)]
        # Two turns at 120 m/min on 33.975: 60 * 2 / n seconds, n = 1000 vc / (pi D); handbook formulas.
        assert pause.milliseconds == pytest.approx(60_000 * 2 / (120_000 / (3.14159265 * 33.975)), abs=1)
        assert not any(isinstance(s, Dwell) for s in second.steps)


def test_every_operation_says_why():
    plan = planned(part_of([*row(4, -10, 5, 3, 34), (-50, -58, 30)]), MM + tool(3, 3.0))
    first, second = plan.operations
    assert "Grooves 1 to 4 are alike and 5.000 mm apart: one cycle for all 4." in first.why
    assert (
        "X starts at 42.000: 1.000 mm a side above 40.000, the highest land that the insert passes or stands beside."
        in first.why
    )
    assert any("one insert cuts the whole part" in why for why in first.why)
    assert any("ribs" in why for why in second.why)
    assert any("kW, 15 Nm on 40.000 and 11 Nm on 30.000" in why for why in second.why)
    assert "No other groove has the size of groove 5, so it is cut by itself." in second.why


def test_an_insert_within_the_width_s_tolerance_is_told_as_such():
    part = part_of([(-10, -12.9, 34, {"tolerances": {"width": (0.0, 0.2)}})])
    plan = planned(part, MM + tool(3, 3.0))
    assert any("within what the groove's may be, 2.900 to 3.100" in why for why in plan.operations[0].why)
    assert "width-near-limit" not in {f.code for f in plan.findings}
    part = part_of([(-10, -13, 34, {"tolerances": {"width": (0.0, 0.2)}})])
    assert "width-near-limit" in {f.code for f in planned(part, MM + tool(3, 3.0)).findings}


def test_a_groove_off_the_pitch_says_so():
    plan = planned(part_of([*row(3, -10, 10, 3, 34), (-45, -48, 34)]), MM + tool(3, 3.0))
    assert "Groove 4 lies off the pitch of those like it, so it is cut by itself." in plan.operations[1].why


def test_the_hours_of_a_batch_are_told():
    part = part_of([(-10, -13, 34)])
    shop = parse_shop(MM + tool(3, 3.0), "s", "mm", ["batch=250", "handling=12"])
    plan = plan_part(part, shop)
    (note,) = [f for f in plan.findings if f.code == "batch-hours"]
    hours = 250 * (plan.seconds + 12) / 3600
    assert f"A batch of 250 takes about {hours:.1f} h of grooving" in note.message
    assert "12 s of handling each" in note.message
    assert "batch-hours" not in {f.code for f in plan_part(part, parse_shop(MM + tool(3, 3.0), "s", "mm")).findings}


def test_hours_of_a_batch():
    plan = planned(part_of([(-10, -13, 34)]), MM + tool(3, 3.0))
    assert plan.hours(100, handling=20) == pytest.approx(100 * (plan.seconds + 20) / 3600)


def test_retaining_ring_grooves():
    # DIN 471, rows of the table in the outside checks (section 1): d1, d2, lower deviation of d2, m.
    table = [
        (20, 19.0, -0.13, 1.3),
        (25, 23.9, -0.21, 1.3),
        (30, 28.6, -0.21, 1.6),
        (40, 37.5, -0.25, 1.85),
        (50, 47.0, -0.25, 2.15),
    ]
    for d1, d2, lower, m in table:
        tolerances = {"floor_diameter": (lower, 0.0), "width": (0.0, 0.14)}
        part = part_of([(-5, -5 - m, d2, {"tolerances": tolerances})], diameter=d1)
        plan = plan_part(part, default_shop("mm"))
        (operation,) = plan.operations
        assert operation.tool.width == m, "width m H13 is cut by the insert of that width in one plunge"
        (cycle,) = cycles(plan)
        assert d2 + lower <= cycle.floor_x / 1000 <= d2


def test_speed_of_tool_over_that_of_the_material():
    plan = planned(part_of([(-10, -13, 34)]), MM + tool(3, 3.0, cutting_speed=80))
    assert next(s for s in plan.steps if isinstance(s, Spindle)).speed == 80
