"""Right programs with habits of experienced hands, each written out in full: none of them is an alarm.

Common practice, no source. The part: 40 across, a row of three grooves 3 wide, and one 8 wide; the shop's insert is
3 wide, set to its far edge, with a radius of 0.2.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

PART = part_of([(-10, -13, 34), (-15, -18, 34), (-20, -23, 34), (-30, -38, 32, {"corner_radius": 0.2})], length=60)
SHOP = shop(tool(corner_radius=0.2), tool(station=5, offset=5, width=3.0, reference="near"), sharp_corner=0.2)
HEAD = "%\nO0100 (PART 12)\nG21 G40 G99\nG28 U0\nG28 W0\nT0303\nG50 S2500\nG96 S110 M03\n"
TAIL = "G00 X150.\nG28 U0 W0\nM05\nM30\n%\n"

ROW = "G00 X42. Z-13. M08\nG75 R0.3\nG75 X34. Z-23. P1500 Q5000 F0.07\n"
SINGLES = "".join(f"G0 Z-{z}.\nG1 X37. F.06\nG0 X37.5\nG1 X34.\nG4 P300\nG0 X42.\n" for z in (13, 18, 23))
SINGLES_FROM_BEHIND = "G0 X42. Z-23.\n" + "".join(f"G0 Z-{z}.\nG1 X34. F.06\nG0 X42.\n" for z in (23, 18, 13))
WIDE_CYCLE = "G00 X42. Z-38.\nG75 R0.3\nG75 X32. Z-33. P1500 Q2500 F0.07\n"
WIDE_PLUNGES = "".join(f"G0 X42. Z{z}\nG1 X32. F.07\nG0 X42.\n" for z in ("-38.", "-35.6", "-33.2", "-33."))
WIDE_FINISHED = (
    "".join(f"G0 X42. Z{z}\nG1 X32.3 F.08\nG0 X42.\n" for z in ("-37.8", "-35.5", "-33.2"))
    + "G0 Z-38.\nG1 X32. F.05\nG1 Z-35.\nG0 X42.\nG0 Z-33.\nG1 X32. F.05\nG1 Z-36.\nG1 X32.4\nG0 X42.\n"
)
WIDE_TURNED = (
    "G0 X42. Z-37.9\nG1 X38. F.07\nG1 Z-33.1 F.1\nG1 X36. F.07\nG1 Z-37.9 F.1\nG1 X34. F.07\nG1 Z-33.1 F.1\n"
    "G1 X32.1 F.07\nG1 Z-37.9 F.1\nG0 X42.\nG0 Z-38.\nG1 X32. F.05\nG1 Z-33.\nG1 X42. F.2\n"
)
PER_MINUTE = "G98 G97 S900\nG0 X42. Z-13.\n" + "".join(f"G0 Z-{z}.\nG1 X34. F63.\nG0 X42.\n" for z in (13, 18, 23))
SUBPROGRAM = "G0 X42. Z-8.\nM98 P30200\n"
SUBPROGRAM_BODY = "O0200\nG0 W-5.\nG1 X34. F.07\nG0 X42.\nM99\n%\n"
OTHER_INSERT = "G0 X150.\nG28 U0 W0\nT0505\nG50 S2500\nG96 S110 M03\n" + "".join(
    f"G0 X42. Z{z}\nG1 X32. F.07\nG0 X42.\n" for z in ("-30.", "-32.4", "-34.8", "-35.")
)
PART_OFF = "G0 X42. Z-63.\nG1 X-0.4 F.05\nG0 X42.\n"
CLOSE_RAPID = "G0 X42. Z-13.\nG0 X40.2\nG1 X34. F.07\nG0 X40.2\nZ-18.\nG1 X34.\nG0 X40.2\nZ-23.\nG1 X34.\nG0 X42.\n"
FED_OUT = "".join(f"G0 X41. Z-{z}.\nG1 X34. F.07\nG1 X41. F.5\n" for z in (13, 18, 23))
PECKS_WITHOUT_CLEARANCE = "".join(
    f"G0 X42. Z-{z}.\nG1 X38. F.07\nG0 X42.\nG0 X38.\nG1 X36.\nG0 X42.\nG0 X36.\nG1 X34.\nG0 X42.\n"
    for z in (13, 18, 23)
)

PROGRAMS = {
    "cycle for the row, cycle for the wide one": HEAD + ROW + WIDE_CYCLE + TAIL,
    "single plunges with a dwell": HEAD + "G0 X42. Z2.\n" + SINGLES + WIDE_PLUNGES + TAIL,
    "from behind": HEAD + SINGLES_FROM_BEHIND + WIDE_PLUNGES + TAIL,
    "wide one rough and finished": HEAD + ROW + WIDE_FINISHED + TAIL,
    "wide one turned side to side": HEAD + ROW + WIDE_TURNED + TAIL,
    "feed per minute at a fixed speed": HEAD + PER_MINUTE + "G99 G96 S110\n" + WIDE_PLUNGES + TAIL,
    "subprogram called three times": HEAD + SUBPROGRAM + WIDE_PLUNGES + TAIL.replace("%\n", "") + SUBPROGRAM_BODY,
    "wide one with the other insert's near edge": HEAD + ROW + OTHER_INSERT + TAIL,
    "rapid close over the land": HEAD + CLOSE_RAPID + WIDE_CYCLE + TAIL,
    "fed out fast": HEAD + FED_OUT + WIDE_CYCLE + TAIL,
    "pecks that go back to the metal at rapid": HEAD + PECKS_WITHOUT_CLEARANCE + WIDE_PLUNGES + TAIL,
}


@pytest.mark.parametrize("name", PROGRAMS)
def test_a_right_program_agrees(name):
    found = compare_program(PART, PROGRAMS[name], SHOP)
    assert found.agree, (found.findings, [m for m in found.matches if m.state.value != "matches"])
    assert not [f for f in found.findings if f.level.value == "stop"]


def test_parting_off_at_the_end():
    long_insert = shop(tool(corner_radius=0.2, max_depth=25.0), sharp_corner=0.2)
    found = compare_program(PART, HEAD + ROW + WIDE_CYCLE + PART_OFF + TAIL, long_insert)
    assert found.agree
    assert "parts-off" in {f.code for f in found.findings}


@pytest.mark.parametrize("name", PROGRAMS)
def test_the_same_with_one_groove_deeper_is_told(name):
    assert "X34." in PROGRAMS[name]
    assert not compare_program(PART, PROGRAMS[name].replace("X34.", "X33.9", 1), SHOP).agree


@pytest.mark.parametrize("name", PROGRAMS)
def test_the_same_set_to_the_other_edge_is_told(name):
    other = shop(tool(corner_radius=0.2, reference="near"), tool(station=5, offset=5), sharp_corner=0.2)
    assert not compare_program(PART, PROGRAMS[name], other).agree
