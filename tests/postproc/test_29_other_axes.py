"""Places of axes besides X and Z: a second spindle's way, the angle of the spindle, a driven tool's height (ISO 841).

What they move is the machine's own: alone in a block they move no tool along X or Z; beside these nobody knows the way.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of
from support.programs import codes, run_of

from postproc import compare_program, find_dialect
from postproc.converting.carry import Means
from postproc.converting.convert import convert

PART = part_of([(-10, -13, 34)], length=60)
HEAD = "G21 G99 G40\nG28 U0 W0\nT0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\n"
CUT = "G01 X34. F.08\nG00 X42.\n"
AWAY = "G28 U0 W0\n"
AXIS = "other-axis"


def compared(text):
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    return found.agree, [(f.code, f.level.value, f.line) for f in found.findings if f.code == AXIS or f.stops]


@pytest.mark.parametrize("block", ["G28 B0", "G00 B-120.", "G53 G00 B-300.5", "G00 C90.", "G28 Y0", "A45."])
def test_another_axis_alone_moves_no_tool(block):
    agree, told = compared(f"{HEAD}{CUT}{AWAY}{block}\n{block}\nM30\n")
    assert (agree, told) == (True, [(AXIS, "caution", 10)])


@pytest.mark.parametrize(
    ("block", "told"),
    [
        ("G01 X43. F.5\nC90.", AXIS),
        ("G01 X43. C0. F.5", AXIS),
        ("G00 X43. Y0.", AXIS),
        ("G28 H0", AXIS),
        ("C0.\nH45.", AXIS),
        ("H45.", "unknown-word"),
        ("C0.\nG01 X43. C1. F.5\nZ-14.", "cycle-not-followed"),
        ("M05\nG01 X43. C1. F.5\nZ-14.", "cycle-not-followed"),
        ("G01 X43. C90. F.5", "corner-word"),
    ],
)
def test_an_angle_of_the_spindle_is_no_chamfer(block, told):
    """Alone, at 0, with the spindle stopped, or after another move of C; else `C90.` is a chamfer that can't be."""
    found = compared(f"{HEAD}{block}\nG00 X42. Z-13. M03\n{CUT}{AWAY}M30\n")
    assert (found[0], [code for code, _, _ in found[1]][-1:]) == (told == AXIS, [told])


@pytest.mark.parametrize(("block", "right"), [("G00 Y-10.", False), ("Y.001", False), ("Y0.", True), ("G28 Y0", True)])
def test_an_insert_off_the_centre_cuts_another_floor(block, right):
    """10 beside the centre an insert at X34 leaves a floor of 2 sqrt(17^2 + 10^2) = 39.4 (Pythagoras)."""
    assert compared(f"{HEAD}{block}\n{CUT}{AWAY}M30\n")[0] is right


def test_the_way_home_of_another_axis_leaves_the_tool_where_it_is():
    ends = [(m.x1, m.z1) for m in run_of(f"{HEAD}G28 B0\nG53 C0\nM30\n").motions]
    assert ends[-1] == (42_000, -13_000)
    beside = [(m.x1, m.z1) for m in run_of(f"{HEAD}G28 U0 B0\nM30\n").motions]
    assert beside[-1][0] > 1_000_000


@pytest.mark.parametrize("block", ["G00 X42. Z-13. B-120.", "G00 X42. C90.", "G28 U0 W0 B0"])
def test_beside_x_or_z_an_insert_that_is_judged_goes_a_way_that_nobody_knows(block):
    agree, told = compared(f"{HEAD}{CUT}{block}\n{AWAY}M30\n")
    assert (agree, told) == (False, [(AXIS, "caution", 9), ("cycle-not-followed", "stop", 9)])


def test_a_driven_tool_beside_the_inserts_is_only_told():
    driven = "T1010\nG97 S800 M03\nG00 X60. Z5. C90.\nG28 U0 W0\nT0303"
    agree, told = compared(HEAD.replace("T0303", driven) + f"{CUT}{AWAY}M30\n")
    assert (agree, told) == (True, [(AXIS, "caution", 5)])


def test_each_axis_is_told_once_and_a_chamfer_by_its_letter_is_none():
    assert codes(run_of(f"{HEAD}G00 B1.\nC2.\nB3.\nC4.\nM30\n")) == [(AXIS, 7), (AXIS, 8)]
    assert codes(run_of(f"{HEAD}G01 Z-20. C1. F.1\nM30\n")) == [("corner-word", 7)]


def test_another_control_has_another_axis():
    text = f"{HEAD}{CUT}G28 B0\nM30\n"
    made = convert(text, find_dialect("two-block"), find_dialect("plunge"), Means(500, (200_000, 100_000)), "mm")
    assert made.program is None
    assert any("line 9: " in reason for reason in made.refusals)
