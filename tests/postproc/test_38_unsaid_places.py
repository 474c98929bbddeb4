"""Stops and cautions about a program that leaves for the reference point never name where that is taken to be."""

import re

import pytest
from support.moves import shop, tool
from support.parts import part_of, row

from postproc import compare_program

PART = part_of(row(4, -10, 5, 3, 34))
HEAD = "G21 G99\nT0303\nG97 S900 M03\nG00 Z-13.\nX42.\nG01 X34. F.08\n"


@pytest.mark.parametrize(
    "blocks",
    [
        "G28 U0 W0",
        "G28 W0",
        "G28 W0\nG28 U0",
        "G53 X0 Z0",
        "G53 Z0",
        "G28 U0 W0\nG00 X20.\nG00 Z-20.",
        "G28 U0\nG00 W-5.\nG00 X20.",
        "G28 W0\nG00 U-5.\nG00 Z-5.",
        "G28 U0 W0\nG00 U-5. W-5.",
        "G28 U0 W0\nG01 Z-14. X30. F.1",
        "G28 U0 W0\nT0404\nG00 Z-20. X30.",
    ],
)
def test_the_reference_point_is_named_and_not_numbered(blocks):
    found = compare_program(PART, f"{HEAD}{blocks}\nM30", shop(tool())).findings
    said = [number for f in found for number in re.findall(r"[0-9.]*[0-9]", f.message)]
    assert not [number for number in said if float(number) > 900]


def test_a_rapid_home_out_of_a_groove_says_where_it_goes():
    (hit,) = [f for f in compare_program(PART, f"{HEAD}G28 U0 W0\nM30", shop(tool())).findings if f.stops]
    assert "The rapid from X34. Z-13. to the reference point runs 3 deep into metal" in hit.message


@pytest.mark.parametrize(
    ("home", "line", "told"),
    [
        ("G28 W0", 7, "from X44. Z-13. to the reference point runs 3 deep into metal"),
        ("G28 U0", 7, "from X44. Z-13. to the reference point runs into metal"),
        ("G28 U0\nG28 W0", 8, "The rapid to the reference point runs into metal"),
    ],
)
def test_a_bar_home_through_the_wall_is_given_no_depth_that_nobody_knows(home, line, told):
    """Along the axis it stays 3 deep in the wall; outward nothing says how far it goes."""
    part = part_of([(-10, -13, 44, {"where": "inside", "mouth_diameter": 38.0})], diameter=80, bore=38.0)
    head = HEAD.replace("G00 Z-13.\nX42.\nG01 X34.", "G00 X36.\nZ-13.\nG01 X44.")
    found = compare_program(part, f"{head}{home}\nM30", shop(tool(where="inside"))).findings
    (message,) = [f.message for f in found if f.code == "rapid-into-material" and f.line == line]
    assert told in message


# A collar of 60 in front, 10 long, and two grooves behind it on 40; every way of X42 along Z would run 9 into it.
COLLAR = part_of([(-20, -23, 34), (-30, -33, 34)], steps=[(0, 60), (-10, 40)])
SET = "G21 G99\nT0303\nG97 S900 M03\n"
CUT = "G01 X34. F.08\nG00 X42.\nZ-33.\nG01 X34.\nG00 X42.\n"


@pytest.mark.parametrize(
    ("before", "after", "line"),
    [
        ("G00 X62.\nZ-23.\nX42.\n", "G28 U0\nG28 W0\n", None),
        ("G00 X62.\nZ-23.\nX42.\n", "G28 U0 W0\n", 12),
        ("G00 X62.\nZ-23.\nX42.\n", "G53 X0 Z0\n", 12),
        ("G00 X62.\nZ-23.\nX42.\n", "X62.\nG28 U0 W0\n", None),
        ("G28 U0 W0\nG00 X42. Z-23.\n", "G28 U0\n", 5),
        ("G53 X0 Z0\nG00 X42. Z-23.\n", "G28 U0\n", 5),
        ("G53 Z0\nG00 X42. Z-23.\n", "G28 U0\n", 5),
        ("G00 X42. Z-23.\n", "G28 U0\n", 4),
        ("G53 X0 Z0\nG00 X62. Z-23.\nX42.\n", "G28 U0\n", None),
    ],
)
def test_both_axes_past_metal_from_or_to_a_place_nobody_said_is_a_stop(before, after, line):
    """Which way a rapid of both axes goes hangs on where the reference point lies, and on the control."""
    found = compare_program(COLLAR, f"{SET}{before}{CUT}{after}M30", shop(tool())).findings
    assert [(f.line, f.code) for f in found if f.stops] == ([] if line is None else [(line, "rapid-bends")])
    said = "no block says where that is" if after != "G28 U0\n" else "no block says where it starts"
    assert all(said in f.message for f in found if f.stops)


@pytest.mark.parametrize("start", ["", "G28 U0 W0\n", "G00 X42.\n", "G00 Z-9.\nG28 U0\n"])
@pytest.mark.parametrize("end", ["X34. Z-13.", "Z-13. X34."])
def test_of_a_slope_in_from_nowhere_only_the_end_is_taken_for_cut(start, end):
    part = part_of([(-10, -13, 34)])
    found = compare_program(part, f"{SET}{start}G01 {end} F.08\nG00 X42.\nG28 U0 W0\nM30", shop(tool()))
    (told,) = [f for f in found.findings if f.stops]
    assert (told.code, told.line) == ("place-unknown", 4 + start.count("\n"))
    assert "The feed to X34. Z-13. begins where no block has said" in told.message
    assert [str(match.state) for match in found.matches] == ["matches"]


@pytest.mark.parametrize(
    ("end", "told"), [("X42. Z-13.", False), ("X39.97 Z5.", False), ("X39.979 Z-13.", True), ("X39.98 Z-13.", False)]
)
def test_a_slope_from_nowhere_that_ends_clear_of_all_metal_is_right(end, told):
    """The shop's tolerance of 0.02 is taken for nothing."""
    text = f"{SET}G28 U0 W0\nG01 {end} F.08\nG00 X42.\nZ-13.\nG01 X34.\nG00 X42.\nG28 U0 W0\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), text, shop(tool())).findings
    assert [f.code for f in found if f.stops] == (["place-unknown"] if told else [])


def test_a_slope_from_nowhere_into_a_bore_runs_through_its_face():
    part = part_of([(-10, -13, 44, {"where": "inside", "mouth_diameter": 38.0})], diameter=80, bore=38.0)
    text = f"{SET}G28 U0 W0\nG01 X36. Z-13. F.08\nX44.\nX36.\nG00 Z5.\nG28 U0\nM30"
    found = compare_program(part, text, shop(tool(where="inside"))).findings
    assert [(f.code, f.line) for f in found if f.stops] == [("place-unknown", 5)]


HOLLOW = part_of([(-10, -13, 44, {"where": "inside", "mouth_diameter": 38.0})], diameter=80, bore=38.0)
BORED = SET + "G00 X36.\nZ5.\nZ-13.\nG01 X44. F.08\nG00 X36.\n"
GROOVED = SET + "G00 X42.\nZ-13.\nG01 X34. F.08\n"


@pytest.mark.parametrize(
    ("text", "part", "told"),
    [
        (GROOVED, PART, {("stopped-in-groove", "stop")}),
        (GROOVED + "G00 X42.\n", PART, {("index-near-part", "caution")}),
        (GROOVED + "G00 X60.\n", PART, {("index-near-part", "caution")}),
        (GROOVED + "G00 X60.002\n", PART, set()),
        (GROOVED + "G00 X42.\nZ10.\n", PART, set()),
        (GROOVED + "G00 X42.\nG28 U0\n", PART, set()),
        (BORED, HOLLOW, {("index-near-part", "stop")}),
        (BORED + "G00 Z5.\n", HOLLOW, {("index-near-part", "caution")}),
        (BORED + "G00 Z10.\n", HOLLOW, set()),
        (BORED + "G28 W0\n", HOLLOW, set()),
        (BORED + "G28 U0\n", HOLLOW, set()),
    ],
)
@pytest.mark.parametrize(
    ("end", "what", "more"),
    [("M30", "ends", set()), ("M02", "ends", set()), ("M99", "starts over", {("endless", "caution")})],
)
def test_where_the_program_ends_a_hand_takes_the_part_out(text, part, told, end, what, more):
    """In the groove the insert breaks as the spindle stops; within 10 of the part it is in the way."""
    insert = tool(where="inside") if part is HOLLOW else tool()
    found = [f for f in compare_program(part, text + end, shop(insert)).findings if f.line == text.count("\n") + 1]
    assert {(str(f.code), f.level.value) for f in found} == told | more
    assert all(f"program {what}" in f.message for f in found if f.code != "endless")


@pytest.mark.parametrize("arc", ["X34. Z-13. R20.", "X34. Z-13. R2.", "X34. Z-13. I-2. K3.", "X34. W-2. R20."])
@pytest.mark.parametrize("start", ["G28 U0 W0\n", "G00 X42.\n"])
def test_an_arc_from_nowhere_is_told_once(arc, start):
    """Where it begins nobody knows, so neither can its radius be wrong."""
    text = f"{SET}{start}G02 {arc} F.08\nG00 X42.\nZ-13.\nG01 X34.\nG00 X42.\nG28 U0 W0\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), text, shop(tool())).findings
    (told,) = [f for f in found if f.stops]
    assert (told.code, told.line) == ("place-unknown", 5)
    assert told.message.startswith("This cut is made at ")


@pytest.mark.parametrize(("arc", "lines"), [("X42. Z-13. R20.", [5]), ("U-2. W-2. R20.", [5, 6])])
def test_where_an_arc_from_nowhere_ends_is_known_if_it_says_so(arc, lines):
    text = f"{SET}G28 U0 W0\nG02 {arc} F.08\nG01 U-8.\nG00 X42.\nG28 U0 W0\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), text, shop(tool())).findings
    assert [f.line for f in found if f.code == "place-unknown"] == lines


@pytest.mark.parametrize(
    ("z", "told"),
    [("-0.001", "inside the part; bring"), ("0.", "beside the part; move"), ("5.", "beside the part"), ("10.", "")],
)
def test_a_bar_goes_clear_of_the_face_before_the_turret_turns(z, told):
    text = f"{BORED}G00 Z{z}\nT0505\nG28 U0 W0\nM30"
    found = compare_program(HOLLOW, text, shop(tool(where="inside"))).findings
    messages = [f.message for f in found if f.code == "index-near-part" and f.stops]
    assert [told in message for message in messages] == ([True] if told else [])


@pytest.mark.parametrize(
    ("last", "code"), [("G01 X34. F.08", "stopped-in-groove"), ("G00 X42.", "index-near-part"), ("G00 X60.002", None)]
)
def test_a_program_cut_off_is_judged_where_it_ends(last, code):
    found = compare_program(PART, f"{GROOVED}G00 X42.\n{last}\n", shop(tool())).findings
    assert {str(f.code) for f in found if f.line == 8} == {"no-end", *([code] if code else [])}


def test_an_arc_by_increments_from_nowhere_ends_nowhere_and_hides_nothing_else():
    text = "G71 G90 G95\nT0303\nG97 S900 M03\nG91 G02 X-2. Z-2. R20.\nG01 X-8. F.1\nG90 G00 X42.\nG28 X42. Z5.\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), text, shop(tool())).findings
    assert [f.line for f in found if f.code == "place-unknown"] == [4, 5]
    assert [f.line for f in found if f.code == "no-feed"] == [4]


def test_a_turret_that_turns_while_it_may_wait_in_a_groove_is_a_stop():
    found = compare_program(PART, f"{GROOVED}M01 T0505\nG28 U0 W0\nM30", shop(tool())).findings
    assert {(str(f.code), f.level.value) for f in found if f.line == 7} >= {
        ("stopped-in-groove", "caution"),
        ("index-near-part", "stop"),
    }
