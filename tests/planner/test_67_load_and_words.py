"""What a plan says of load, clamp, chatter and holding; figures worked out by hand from handbook formulas."""

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part

MM = 'units = "mm"\n[machine]\nstick_out = 55\n'


def shop(machine="", **more):
    tool = {"station": 3, "width": 3.0, "max_depth": 20, "corner_radius": 0.2} | more
    lines = [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in tool.items()]
    return parse_shop(f"{MM}{machine}\n[[tools]]\n" + "\n".join(lines), "s", "mm")


def said(part, the_shop):
    plan = plan_part(part, the_shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    return [why for operation in plan.operations for why in operation.why], {f.code: f.message for f in plan.findings}


def test_force_power_and_torque_at_both_ends():
    # 1675 * 3 * 0.08^0.76 N, times 120 m/min / 60000, times D / 2000: Kienzle, groups of VDI 3323 (outside checks, 7).
    why, _ = said(part_of([(-10, -13, 20)]), shop())
    assert "A full plunge takes about 740 N, 1.5 kW, 15 Nm on 40.000 and 7.4 Nm on 20.000, give or take a third." in why


def test_where_the_clamp_rules():
    # 120 m/min at 3000 rev/min is 12.732 across; on 8 across 3000 rev/min are 75 m/min: n = 1000 vc / (pi D).
    why, _ = said(part_of([(-10, -13, 8)], diameter=24), shop())
    sentence = (
        "Below 12.732 across the spindle turns at its limit of 3000 rev/min, and the cutting speed falls to 75 m/min."
    )
    assert sentence in why
    why, _ = said(part_of([(-10, -13, 20)]), shop())
    assert not any("its limit" in one for one in why)


def test_a_dwell_is_explained():
    part = part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.1, 0.0)}})])
    sentence = "It dwells for 2 turns at the floor, whose tolerance the drawing gives."
    assert sentence in said(part, shop(dwell=2))[0]
    assert sentence not in said(part_of([(-10, -13, 34)]), shop(dwell=2))[0]


def test_a_form_insert_is_not_called_as_wide_as_the_groove():
    part = part_of([(-10, -12, 38, {"shape": "vee"})])
    why, _ = said(part, shop(width=4.0, edge="vee", angle=90, corner_radius=0.0))
    assert "The insert has the groove's own form: one plunge." in why


@pytest.mark.parametrize(("across", "tailstock", "told"), [(13, 0, True), (14, 0, False), (5, 4, True), (6, 4, False)])
def test_how_far_a_part_may_stand_out(across, tailstock, told):
    # 55 out of the jaws: 4 times its diameter without a centre, 10 times with one.
    part = part_of([(-10, -13, across - 1)], diameter=across)
    assert ("stick-out" in said(part, shop(f"tailstock = {tailstock}"))[1]) == told


@pytest.mark.parametrize(
    ("floor", "cuts", "told"),
    [
        (28, {"peck": 1.0, "retract": 0}, True),
        (28, {"peck": 1.0, "retract": 0.001}, False),
        (28, {"peck": 1.0}, False),
        (28, {"peck": 0, "retract": 0}, False),
        (34, {"peck": 3.0, "retract": 0}, False),
    ],
)
def test_a_peck_after_which_the_tool_stays_in_the_cut_is_a_caution(floor, cuts, told):
    """Six deep in pecks of one, with or without a way back; and three deep, which one peck reaches."""
    _, found = said(part_of([(-10, -13, floor)]), shop(**cuts))
    assert ("peck-without-retract" in found) is told
    assert not told or "pecks by 1.000 mm with a retract of 0" in found["peck-without-retract"]


def test_a_second_plunge_that_hardly_cuts_is_noted():
    part = part_of([(-10, -13, 34, {"tolerances": {"width": (0.01, 0.03)}})])
    _, found = said(part, shop())
    assert "takes only 0.020 mm off a wall" in found["thin-cut"]
    assert "thin-cut" not in said(part_of([(-10, -14, 34)]), shop())[1]


def test_a_bar_that_fills_the_bore():
    part = part_of([(-10, -13, 26, {"where": "inside"})], bore=20)
    bar = {"where": "inside", "max_depth": 5}
    assert "nearly fills the bore of 20.000 mm" in said(part, shop(min_bore=18.5, **bar))[1]["chip-room"]
    assert "chip-room" not in said(part, shop(min_bore=16, **bar))[1]


def test_a_neck_of_a_hollow_part_is_told_by_its_wall():
    # 30 outside a bore of 28: 1 of 6 mm of wall is left.
    part = part_of([(-10, -13, 30)], bore=28)
    assert "only a wall of 1.000 mm is left" in said(part, shop())[1]["thin-neck"]


def test_thin_lands_are_told_once_with_the_thinnest():
    # 1 and 0.8 thick between grooves 6 deep: less than a fifth of their height.
    part = part_of([(-10, -13, 28), (-14, -17, 28), (-17.8, -20.8, 28), (-30, -33, 28)])
    assert said(part, shop())[1]["thin-land"] == (
        "The land between grooves 2 and 3 is 0.800 mm thick and 6.000 mm high, the thinnest of 2 such: "
        "it may bend while the second one is cut, so measure it."
    )
    assert "thin-land" not in said(part_of([(-10, -13, 28), (-14.3, -17.3, 28)]), shop())[1]
