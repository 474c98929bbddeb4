"""How fast a tool that the shop file doesn't have is fed where it turns metal.

Handbooks give half of the nose radius as the most (common practice, no source), and 2.4 (3/32 in) is the largest nose:
over 1.2 a turn is told, over 2.4 stops. Part: 40 across, 60 long, a groove at Z-10 to Z-13.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

PART = part_of([(-10, -13, 34)], length=60)
INCH = part_of([(-0.5, -0.625, 1.3)], diameter=1.6, length=2.4, units="in")
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\nM05\n"
INCH_GROOVE = "T0303\nG50 S3000\nG96 S400 M03\nG00 X1.7 Z-.625\nG01 X1.3 F.003\nG00 X1.7\nX8. Z4.\nM05\n"


def told(cuts, **more):
    text = f"G21 G99 G40\nG28 U0 W0\nT0101\nG50 S3000\n{cuts}G00 X150.\nZ50.\n{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2), **more).findings
    return [(f.code, f.level.value, f.line) for f in found if f.code.startswith("feed")]


STOP, CAUTION = ("feed-too-great", "stop"), ("feed-unusual", "caution")


@pytest.mark.parametrize(
    ("feed", "said"), [("F.25", None), ("F1.2", None), ("F1.21", CAUTION), ("F2.4", CAUTION), ("F2.41", STOP)]
)
@pytest.mark.parametrize(
    ("way", "line"),
    [
        ("G00 X40. Z2.\nG01 Z-59. {}\n", 7),
        ("G00 X44. Z0.\nG01 X-1. {}\n", 7),
        ("G00 X42. Z2.\nG90 X40. Z-20. {}\n", 7),
    ],
)
def test_no_turning_tool_bears_more_each_turn_than_its_nose(way, line, feed, said):
    assert told("G97 S800 M03\n" + way.format(feed)) == ([] if said is None else [(*said, line)])


@pytest.mark.parametrize(
    ("way", "stock", "cuts"),
    [
        ("G00 X42. Z2.\nG01 Z-59. F5.\n", None, False),
        ("G00 X42. Z2.\nG01 Z-59. F5.\n", 44.0, True),
        ("G00 X44. Z2.\nG01 Z-59. F5.\n", 44.0, False),
        ("G00 X40. Z-59.\nG01 Z2. F5.\n", None, False),
        ("G00 X0. Z5.\nG01 Z1. F5.\n", None, False),
        ("G00 X44. Z5.\nG92 X39. Z-8. F5.\n", None, False),
        ("G00 X0. Z5.\nG84 Z-20. F5.\n", None, False),
    ],
)
def test_a_way_through_air_and_a_lead_are_no_cut_of_a_turning_tool(way, stock, cuts):
    found = told(f"G97 S800 M03\n{way}G00 Z5.\n", stock=stock)
    assert found == [(*STOP, 7)] * cuts


@pytest.mark.parametrize(
    ("spindle", "feed", "said"),
    [
        ("G97 S1000", "F1200", None),
        ("G97 S1000", "F1201", CAUTION),
        ("G97 S1000", "F2400", CAUTION),
        ("G97 S1000", "F2401", STOP),
        ("G97 S1", "F3", STOP),
        ("G97 S0", "F3", None),
        # 125.664 m/min on 40 across are 1000 turns a minute.
        ("G96 S125.664", "F1199", None),
        ("G96 S125.664", "F1202", CAUTION),
        ("G96 S125.664", "F2402", STOP),
    ],
)
def test_a_feed_per_minute_counts_by_the_turns_of_the_spindle(spindle, feed, said):
    found = told(f"{spindle} M03\nG98\nG00 X40. Z2.\nG01 Z-59. {feed}\nG99\n")
    assert found == ([] if said is None else [(*said, 8)])


@pytest.mark.parametrize(("feed", "said"), [("F.047", None), ("F.0471", CAUTION), ("F.094", CAUTION), ("F.0941", STOP)])
def test_inches_have_their_own_measure(feed, said):
    cuts = f"T0101\nG97 S800 M03\nG00 X1.6 Z.1\nG01 Z-2.3 {feed}\nG00 X8.\nZ4.\n"
    text = f"G20 G99 G40\nG28 U0 W0\n{cuts}{INCH_GROOVE}M30\n"
    mine = shop(tool(width=0.125, corner_radius=0.008, feed=0.003), units="in", sharp_corner=0.008)
    found = [(f.code, f.level.value, f.line) for f in compare_program(INCH, text, mine).findings]
    assert [one for one in found if one[0].startswith("feed")] == ([] if said is None else [(*said, 6)])


def test_inches_are_told_to_five_places():
    """60 in a minute at 1010 turns are 0.0594059 a turn."""
    cuts = "T0101\nG97 S1010 M03\nG00 X1.6 Z.1\nG01 Z-2.3 F60.\nG00 X8.\nZ4.\n"
    text = f"G20 G98 G40\nG28 U0 W0\n{cuts}G99\n{INCH_GROOVE}M30\n"
    mine = shop(tool(width=0.125, corner_radius=0.008, feed=0.003), units="in", sharp_corner=0.008)
    (found,) = [f.message for f in compare_program(INCH, text, mine).findings if f.code == "feed-unusual"]
    assert found == (
        "F60 is read per minute: that is 0.05941 in each turn of the tool in station 1, and turning tools bear 0.047 "
        "at most; check the feed mode and the decimal point."
    )


def test_millimetres_are_told_to_three_places():
    """1300 in a minute at 1010 turns are 1.287128 a turn."""
    cuts = "T0101\nG97 S1010 M03\nG98\nG00 X40. Z2.\nG01 Z-59. F1300.\nG00 X150.\nZ50.\nG99\n"
    text = f"G21 G99 G40\nG28 U0 W0\n{cuts}{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2)).findings
    assert ["that is 1.287 mm each turn" in f.message for f in found if f.code == "feed-unusual"] == [True]


def test_each_feed_of_a_station_is_told_once():
    """Two tools, each with two feeds."""
    way = "G00 X40. Z2.\nG01 Z-20. F3.\nZ-30.\nZ-40. F4.\nZ-59. F3.\nG00 X150.\nZ50.\n"
    assert [line for *_, line in told(f"G97 S800 M03\n{way}T0202\n{way}")] == [7, 9, 15, 17]


@pytest.mark.parametrize(
    ("call", "cuts", "line"),
    [
        ("T0101", "G00 X42. Z2.\nG01 Z-59. F.2\n", None),
        ("T0100", "G00 X42. Z2.\nG01 Z-59. F.2\n", 7),
        ("T0100", "G00 X46. Z0.\nG01 X-1. F.2\n", 7),
        ("T0100", "G00 X46. Z2.\nG90 X42. Z-20. F.2\nX40.\n", 7),
        # Through air alone, and where the offset is only cancelled at the end.
        ("T0100", "G00 X46. Z2.\nG01 Z-59. F.2\n", None),
        ("T0101", "G00 X42. Z2.\nG01 Z-59. F.2\nG00 X150. Z50.\nT0100\n", None),
    ],
)
def test_a_tool_that_turns_with_no_offset_is_told_once(call, cuts, line):
    text = f"G21 G99 G40\nG28 U0 W0\n{call}\nG50 S3000\nG97 S800 M03\n{cuts}G00 X150.\nZ50.\n{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2), stock=44.0).findings
    assert [(f.level.value, f.line) for f in found if f.code == "offset"] == ([("caution", line)] if line else [])
    assert "tool-idle" not in {f.code for f in found} or line is None


@pytest.mark.parametrize(("z", "stock", "safe"), [(-71.9, 44.0, True), (-72.1, 44.0, False), (-72.1, None, False)])
@pytest.mark.parametrize("x", [40, 42])
def test_a_pass_below_the_surface_of_the_bar_keeps_clear_of_the_jaws(x, z, stock, safe):
    """75 stick out, 3 mm of gap before the jaws: Z-72, whatever of the bar is still to be turned."""
    cuts = f"G00 X{x}. Z2.\nG01 Z{z} F.2\nG00 X48.\n"
    text = f"G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 M03\n{cuts}G00 X150.\nZ50.\n{GROOVE}M30\n"
    used = shop(tool(corner_radius=0.2), sharp_corner=0.2, stick_out=75.0)
    found = compare_program(PART, text, used, stock=stock).findings
    assert [f.line for f in found if f.code == "into-jaws"] == ([] if safe else [6])


@pytest.mark.parametrize(
    ("way", "slow"),
    [
        # 5 m/min on 40 across are 39.8 turns a minute.
        ("G97 S40 M03\nG00 X40. Z2.\nG01 Z-59. F.1\n", False),
        ("G97 S39 M03\nG00 X40. Z2.\nG01 Z-60. F.1\n", True),
        ("G96 S4.9 M03\nG00 X40. Z2.\nG01 Z-60. F.1\n", True),
        ("G50 S18\nG96 S120 M03\nG00 X44. Z0.\nG01 X-1. F.1\n", True),
        # Toward the axis the greatest diameter counts, and a drill or a tap has none.
        ("G97 S200 M03\nG00 X44. Z0.\nG01 X2. F.1\nX-1.\n", False),
        ("G97 S18 M03\nG00 X0. Z5.\nG01 Z-20. F.1\nG00 Z5.\n", False),
        ("G97 S18 M03\nG00 X0. Z5.\nG84 Z-20. F1.\n", False),
    ],
)
def test_a_speed_at_which_nothing_turns_metal_is_told(way, slow):
    text = f"G21 G99 G40\nG28 U0 W0\nT0101\nG50 S3000\n{way}G00 X150.\nZ50.\n{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2)).findings
    assert [f.level.value for f in found if f.code == "speed-unusual"] == ["caution"] * slow


@pytest.mark.parametrize(("sense", "said"), [("M03", "its shape and its holder"), ("M04", "meant to cut with M04")])
def test_a_tool_followed_as_a_point_is_told_to_turn_the_other_way(sense, said):
    text = f"G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 {sense}\nG00 X40. Z2.\nG01 Z-60. F.1\nG28 U0 W0\n{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2)).findings
    assert [said in f.message for f in found if f.code == "tool-not-followed"] == [True]


def test_a_land_turned_at_a_diameter_that_nobody_gave_is_not_measured():
    text = f"G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 M03\nG00 Z2.\nG01 Z-60. F.1\nG28 U0 W0\n{GROOVE}M30\n"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2)).findings
    assert {f.code.value for f in found if f.stops} == {"place-unknown"}
