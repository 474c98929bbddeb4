"""Slips that change no metal, or all of it: each is named, at its line, in words that say what to look at."""

from dataclasses import replace
from decimal import Decimal

import pytest
from support.parts import part_of

from planner import parse_shop
from postproc import compare_program

SHOP = parse_shop(
    """
units = "mm"

[machine]
dialect = "two-block"
max_rpm = 3000
stick_out = 95.0

[material]
name = "C45 steel"
cutting_speed = 120.0

[[tools]]
station = 3
width = 3.0
corner_radius = 0.2
max_depth = 12.0
reference = "far"
feed = 0.08
""",
    "shop.toml",
    "mm",
)
PART = part_of([(-10, -13, 34), (-20, -23, 34), (-30, -35, 32)])
RIGHT = """%
O0001
G21 G99
G00 X200. Z100.
T0303
G50 S3000
G96 S120 M03
G00 Z-13.
G00 X42.
G75 R0.5
G75 X34. Z-23. P1000 Q10000 F0.08
G00 Z-33.
G75 R0.5
G75 X32. Z-35. P1000 Q2000 F0.08
G00 X200.
G00 Z100.
M30
%
"""


def told(text):
    """{code: (line, message)} of all stops and cautions."""
    verdict = compare_program(PART, text, SHOP)
    return {f.code: (f.line, f.message) for f in verdict.findings if f.level != "note"}, verdict.agree


def changed(old, new):
    """The right program with one thing in it changed."""
    assert old in RIGHT
    return RIGHT.replace(old, new)


def test_the_program_is_right_before_it_is_changed():
    assert told(RIGHT) == ({}, True)


def test_a_spindle_that_turns_the_other_way_is_told_once_where_it_cuts():
    found, agree = told(changed("M03", "M04"))
    assert agree
    assert set(found) == {"spindle-reverse"}
    assert found["spindle-reverse"][0] == 11
    assert "M04" in found["spindle-reverse"][1]


@pytest.mark.parametrize("turn", ["T0404\nT0303\n", "T0404\nG04 X1.\nT0303\n"])
def test_a_turret_that_turns_beside_the_part_is_told_though_the_other_tool_never_moves(turn):
    found, agree = told(changed("G00 Z-33.", f"{turn}G00 Z-33."))
    assert not agree
    assert found["index-near-part"][0] == 12
    assert "X42. Z-13." in found["index-near-part"][1]


@pytest.mark.parametrize(
    ("place", "level"),
    [("X42. Z-13.", "stop"), ("X50. Z-13.", "stop"), ("X50.002 Z-13.", "caution"), ("X60.002 Z-13.", None)],
)
def test_the_first_call_of_a_tool_beside_the_part_may_turn_the_turret_too(place, level):
    """Which station stands at the part when a program begins nobody knows (common practice, no source)."""
    late = changed("T0303\nG50 S3000\nG96 S120 M03\n", f"G50 S3000\nG96 S120 M03\nG00 {place}\nT0303\n")
    found = [f for f in compare_program(PART, late, SHOP).findings if f.code == "index-near-part"]
    assert [f.level.value for f in found] == ([level] if level else [])
    assert all(f.line == 8 and place in f.message for f in found)


def test_the_first_call_at_a_place_that_nobody_gave_is_not_held_against_the_part():
    at_home = changed("G00 X200. Z100.\nT0303", "T0303\nG00 X200. Z100.")
    assert "index-near-part" not in told(at_home)[0]
    in_the_move = changed("T0303\nG50", "G50").replace("G00 Z-13.\nG00 X42.", "G00 X42. Z-13. T0303")
    assert "index-near-part" not in told(in_the_move)[0]


def test_the_same_tool_called_again_turns_nothing():
    assert told(changed("G00 Z-33.", "T0303\nG00 Z-33.")) == ({}, True)


def test_a_turret_that_turns_at_home_is_as_it_should_be():
    assert told(changed("G00 Z100.\nM30", "G00 Z100.\nT0400\nM30"))[1]


@pytest.mark.parametrize(
    "text",
    [
        RIGHT.replace("Z-", "Z"),
        RIGHT.replace("Z-13.", "Z57.").replace("Z-23.", "Z47.").replace("Z-33.", "Z37.").replace("Z-35.", "Z35."),
    ],
    ids=["no minus", "zero at the back"],
)
def test_cuts_that_are_all_before_the_face_ask_for_the_sign_or_the_zero(text):
    found, agree = told(text)
    assert not agree
    assert set(found) == {"before-the-face"}
    assert found["before-the-face"][0] == 11


@pytest.mark.parametrize(
    ("place", "floor", "told_of"),
    [("Z-0.001", 39.99, False), ("Z0.", 39.99, True), ("Z23.", 34, True), ("Z23.", 40, False)],
)
def test_one_plunge_in_front_of_the_face_is_told(place, floor, told_of):
    """Z is set to the edge on the chuck side: from Z0 on the insert is clear of the face. The part is 40 across."""
    air = f"G00 {place}\nG01 X{floor} F0.08\nG00 X42.\n"
    found, _ = told(changed("G00 Z-33.", f"{air}G00 Z-33."))
    assert ("before-the-face" in found) is told_of


@pytest.mark.parametrize("on", ["G01 Z-1.\nG00 X42.", "G01 X42. Z-1."])
def test_a_way_down_before_the_face_to_what_lies_behind_it_is_none(on):
    """Down in front of the face and along, or aslant, into the metal: what stands there is cut."""
    found, _ = told(changed("G00 Z-33.", f"G00 Z3.\nG01 X36. F0.08\n{on}\nG00 Z-33."))
    assert "before-the-face" not in found


def test_a_bar_that_is_fed_to_its_bore_and_back_is_no_plunge_in_front_of_the_face():
    moves = "G00 Z10.\nG00 X60.\nT0505\nG01 X15. F0.08\nG00 X60.\nT0303\n"
    tools = (*SHOP.tools, replace(SHOP.tools[0], station=5, offset=5, where="inside", min_bore=10.0))
    verdict = compare_program(PART, changed("G00 Z-33.", f"{moves}G00 Z-33."), replace(SHOP, tools=tools))
    assert "before-the-face" not in {finding.code for finding in verdict.findings}


def test_where_z_is_not_known_no_plunge_is_in_front_of_the_face():
    found, _ = told(changed("G00 X200. Z100.\n", "").replace("G00 Z-13.\n", "G00 X42.\nG01 X34. F0.08\n", 1))
    assert "place-unknown" in found
    assert "before-the-face" not in found


def test_no_number_of_our_own_making_is_told_of_a_cycle_from_nowhere():
    for text in (
        changed("G00 X200. Z100.\n", "G28 U0. W0.\n").replace("G00 X42.\n", ""),
        changed("G00 X200. Z100.\n", "G28 U0. W0.\n").replace("G00 Z-13.\n", "G00 W-10.\n"),
    ):
        found, agree = told(text)
        assert not agree
        assert "far-place" not in found
        assert "cycle-in-air" not in found
        assert "span-not-whole" not in found


TURNED = "T0101\nG50 S3000\nG96 S180 M03\nG00 X40. Z2.\nG01 Z-70. F0.2\nX46.\nG00 X200. Z100.\nT0303\n"


def test_a_turning_tool_that_cuts_into_the_jaws():
    found, agree = told(changed("T0303\n", TURNED))
    assert agree
    assert set(found) == {"tool-not-followed"}
    found, agree = told(changed("T0303\n", TURNED.replace("Z-70.", "Z-99.")))
    assert not agree
    assert found["into-jaws"][0] == 9
    assert "station 1 comes to X40. Z-99." in found["into-jaws"][1]


def test_two_digits_that_no_turret_has_as_a_station_are_station_and_offset():
    found, agree = told(changed("T0303", "T33"))
    assert agree
    assert found["tool-word"] == (5, "T33 was read as station 3 with offset 3; write all four digits.")


SUB = "O0100\nG01 U-8. F0.08\nG00 U8.\nM99\n"
CALLS = "G00 X42.\nM98 P0100\nG00 Z-23.\nM98 P10100\nG00 Z-33."


@pytest.mark.parametrize("first", [True, False])
def test_the_program_that_another_calls_is_not_the_main_one(first):
    cycle = RIGHT[RIGHT.index("G00 X42.") : RIGHT.index("G00 Z-33.") + len("G00 Z-33.")]
    main = RIGHT.replace(cycle, CALLS)
    text = main.replace("%\nO0001", f"%\n{SUB}O0001") if first else main.replace("M30\n", f"M30\n{SUB}")
    assert told(text) == ({}, True)


def test_a_drill_goes_as_deep_as_it_likes():
    drilled = TURNED.replace("G00 X40. Z2.\nG01 Z-70. F0.2\nX46.", "G97 S800\nG00 X0. Z2.\nG01 Z-110. F0.2\nG00 Z2.")
    assert told(changed("T0303\n", drilled))[1]


def test_iso_units_and_places_are_none_of_the_cycles_of_their_numbers():
    """Units and absolute places by ISO beside the trade's clamp: read peck by peck, as the shop says."""
    hand = changed("G21 G99\n", "G71\nG90 G95\n").split("G75 R0.5")[0]
    hand += "G01 X34. F0.08\nG00 X42.\nG90 G00 Z-23.\nG01 X34.\nG00 X42.\nZ-33.\nG01 X32.\nG00 X42.\nZ-35.\nG01 X32.\n"
    hand += "G00 X42.\nX200.\nG00 Z100.\nM30\n%\n"
    found, agree = told(hand)
    assert agree, found
    assert "unknown-word" not in found


def test_a_shift_with_three_digits_missing():
    found, agree = told(changed("Q2000", "Q2"))
    assert not agree
    assert found["shift-out-by-ten"][0] == 14
    assert "0.002" in found["shift-out-by-ten"][1]


def test_a_feed_per_minute_under_constant_surface_speed_swings():
    found, agree = told(RIGHT.replace("G99", "G98").replace("F0.08", "F80."))
    assert agree
    assert set(found) == {"feed-swings"}
    steady = RIGHT.replace("G99", "G98").replace("F0.08", "F80.").replace("G96 S120", "G97 S950")
    assert told(steady) == ({}, True)


@pytest.mark.parametrize(
    ("blocks", "axis"),
    [
        ("G00 X200.\nZ-13.\nT0303\nX42.\nG01 X34. F0.08", "Z"),
        ("G00 X200.\nZ-13.\nT0303\nX42.\nG75 R0.5\nG75 X34. P1000 F0.08", "Z"),
        ("G00 X42.\nT0303\nZ-13.\nG75 R0.5\nG75 X34. P1000 F0.08", "X"),
        ("G00 X200.\nZ-13.\nT0303\nX42. Z-13.\nG01 X34. F0.08", None),
        ("G00 X200.\nZ-13. T0303\nX42.\nG01 X34. F0.08", None),
        ("T0303\nG00 X42.\nZ-13.\nG01 X34. F0.08\nG00 X42.\nT0303\nG01 X34.", None),
        ("T0303\nG00 X42.\nZ-13.\nG01 X34. F0.08\nG00 X42.\nT0300\nT0303\nG01 X34.", None),
        ("T0303\nG00 X42.\nZ-13.\nG01 X34. F0.08\nG00 X42.\nT0300\nZ-13.01\nT0303\nG01 X34.", "Z"),
        ("G50 X200. Z-13.\nT0303\nG00 X42.\nG01 X34. F0.08", "Z"),
        ("T0303\nG00 X60.\nG28 W0.\nT0300\nT0303\nX42.\nG00 Z-13.\nG01 X34. F0.08", None),
    ],
)
def test_a_cut_at_a_place_said_before_the_offset_is_called(blocks, axis):
    """Many controls make up for an offset when its axis moves next (common practice, no source)."""
    text = f"%\nO0001\nG21 G99\nG97 S900 M03\n{blocks}\nG00 X200.\nZ100.\nM30\n%\n"
    found, _ = told(text)
    assert ("offset-after-place" in found) is (axis is not None)
    if axis:
        line, message = found["offset-after-place"]
        last = max(n for n, row in enumerate(text.split("\n"), 1) if " X34." in row or row == "G01 X34.")
        assert (line, message[0]) == (last, axis)
        assert f"so say {axis} again after the call" in message


def test_a_place_along_an_axis_that_went_home_is_said_by_nobody():
    text = "T0303\nG00 X42.\nZ-13.\nG28 U0.\nT0300\nT0303\nG00 Z-23.\nG01 U-8. F0.08\nM30\n"
    found, _ = told(f"G21 G99\nG97 S900 M03\n{text}")
    assert "place-unknown" in found
    assert "offset-after-place" not in found


@pytest.mark.parametrize(
    ("block", "told_of"),
    [
        ("G28 X0 Z0", True),
        ("G00 X60.\nG28 X0.", True),
        ("G30 X0 W0", True),
        ("G28 X0.001", False),
        ("G28 X60. Z5.", False),
        ("G28 U0 W0", False),
        ("G00 X60. Z5.\nG28 X0.", False),
    ],
)
def test_a_way_home_through_the_axis_is_told(block, told_of):
    """X and Z beside G28 name a place that is gone to first; U0 and W0 name the one where the tool is (from memory)."""
    text = f"G21 G99\n{block}\nT0303\nG97 S900 M03\nG00 X42. Z-13.\nG01 X34. F0.08\nG00 X42.\nG28 U0\nM30\n"
    found, _ = told(text)
    assert ("home" in found) is told_of
    if told_of:
        assert found["home"][0] == 2 + block.count("\n")
        assert "the tool goes to the spindle's axis first" in found["home"][1]


def test_by_increments_a_way_home_begins_where_the_tool_is():
    """G91 G28 X0 Z0 is what controls with ISO words are given (common practice, no source)."""
    text = "G71 G95\nG91 G28 X0 Z0\nG90\nT0303\nG97 S900 M03\nG00 X42. Z-13.\nG01 X34. F0.08\nG00 X42.\nM30\n"
    assert "home" not in told(text)[0]


def looped(first, step, sign, end):
    """Four grooves 3 wide on a 40 bar, and a loop over them by variables; lengths are texts."""
    places = [Decimal(first) + k * Decimal(step) for k in range(4)]
    part = part_of([(-float(z - 3), -float(z), 34) for z in places])
    text = (
        f"G21 G99\nT0303\nG97 S900 M03\nG00 X42. Z-{first}\n#1=-{first}\nWHILE[#1{sign}-{end}]DO1\nG00 Z#1\n"
        f"G01 X34. F.08\nG00 X42.\n#1=#1-{step}\nEND1\nG28 U0\nM30\n"
    )
    verdict = compare_program(part, text, SHOP)
    return verdict.agree, [(f.line, f.message) for f in verdict.findings if f.code == "macro-rounding"]


@pytest.mark.parametrize(
    ("first", "step", "sign", "end", "agrees", "other"),
    [
        # 6.4 + 5.6 * 3 is 23.2, and 23.200000000000003 in binary fractions (IEEE 754, by any interpreter).
        ("6.4", "5.6", "GE", "23.2", False, "it agrees with the drawing"),
        ("6.4", "5.6", "GE", "26.", True, None),
        ("6.4", "5.6", "GE", "23.201", True, None),
        # 5 + 5.6 * 3 is 21.8, and 21.799999999999997 there: the last groove is cut by a hair.
        ("5.", "5.6", "GT", "21.8", True, "it cuts something else"),
        ("5.", "5.6", "GE", "21.8", True, None),
        # Halves are whole in binary fractions.
        ("6.5", "5.5", "GE", "23.", True, None),
    ],
)
def test_a_loop_whose_end_hangs_on_the_last_digits_of_its_sums(first, step, sign, end, agrees, other):
    """Whether a control takes them for equal only its maker knows (common practice, no source)."""
    agree, found = looped(first, step, sign, end)
    assert agree is agrees
    assert len(found) == (other is not None)
    for line, message in found:
        assert line == 6
        assert f"takes them for equal {other}, so leave half a step to spare" in message


def test_pecks_that_stop_at_the_floor_hang_on_no_digit():
    """The last one is held to the floor, whether it is made twice or not."""
    text = (
        "G21 G99\nT0303\nG97 S900 M03\nG00 X42. Z-13.\n#1=40.\nWHILE[#1GT34.4]DO1\n#1=#1-1.4\n"
        "IF[#1LT34.4]THEN #1=34.4\nG01 X#1 F.08\nG00 U.6\nEND1\nG00 X42.\nG28 U0\nM30\n"
    )
    assert 40.0 - 1.4 - 1.4 - 1.4 - 1.4 != 34.4
    verdict = compare_program(part_of([(-10, -13, 34.4)]), text, SHOP)
    assert verdict.agree
    assert "macro-rounding" not in {f.code for f in verdict.findings}


@pytest.mark.parametrize(
    ("word", "what"),
    [
        ("M05", "stops the spindle"),
        ("M04", "turns the spindle the other way"),
        ("M14", "turns the spindle the other way"),
        ("M19", "stops the spindle"),
        ("M03", None),
        ("M13", None),
        ("M08", None),
    ],
)
@pytest.mark.parametrize("in_groove", [True, False])
def test_a_spindle_that_comes_to_a_stand_with_the_insert_in_the_groove(word, what, in_groove):
    """One that turns the other way stands still on its way there."""
    cut, out = "G01 X34. F0.08", "G00 X42."
    blocks = f"{cut}\n{word}\n{out}" if in_groove else f"{cut}\n{out}\n{word}"
    text = f"G21 G99\nT0303\nG97 S900 M03\nG00 X42.\nZ-13.\n{blocks}\nX200.\nZ100.\nM30\n"
    found, _ = told(text)
    assert ("stopped-in-groove" in found) is (in_groove and what is not None)
    if "stopped-in-groove" in found:
        line, message = found["stopped-in-groove"]
        assert line == 7
        assert message.startswith(f"The program {what} here with the insert at X34. Z-13., in the groove")


def test_a_spindle_that_stands_can_not_be_stopped_in_a_groove():
    text = "G21 G99\nT0303\nG97 S900 M03\nG00 X42.\nZ-13.\nG01 X34. F0.08\nM05\nM03\nG00 X42.\nM30\n"
    stops = [f for f in compare_program(PART, text, SHOP).findings if f.code == "stopped-in-groove"]
    assert [f.line for f in stops] == [7]


@pytest.mark.parametrize("dwell", ["G04 X-0.2", "G04 P-200", "G04 U-.2", "G04 S-3", "G04 F-.2"])
def test_a_dwell_with_a_sign_is_a_stop(dwell):
    text = f"G21 G99\nT0303\nG97 S900 M03\nG00 X42.\nZ-13.\nG01 X34. F0.08\n{dwell}\nG00 X42.\nG28 U0\nM30\n"
    found, agree = told(text)
    assert not agree
    assert found["signed-amount"] == (7, f"{dwell[4:]} has a sign, and a dwell has none.")
    assert "signed-amount" not in told(text.replace(dwell, dwell.replace("-", "")))[0]
