"""Whole programs: tools that the shop file doesn't have pass where they stay off the grooves' metal, and only there.

Turning and drilling before grooving: common practice, no source.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

PART = part_of([(-10, -13, 34)], length=60)
STEPPED = part_of([(-10, -13, 34)], steps=[(0, 40), (-30, 50)], length=60)
HOLLOW = part_of([(-10, -13, 34)], length=60, bore=20.0)
SHOP = shop(tool(corner_radius=0.2), sharp_corner=0.2)
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG0 X42. Z-13.\nG1 X34. F.08\nG0 X42.\nG00 X100.\nZ50.\nM30\n%\n"
CLEAR = {
    "drill": "G0 X0 Z5.\nG1 Z-20. F.1\nG0 Z5.\n",
    "turning along the land": "G0 X40. Z2.\nG1 Z-50. F.2\nG0 X45. Z5.\n",
    "facing": "G0 X45. Z0.\nG1 X-1. F.15\nG0 Z5.\n",
    "front edge broken": "G0 X39.2 Z0.5\nG1 Z0 F.1\nX40. Z-0.4\nG0 X45.\nZ5.\n",
    "profile under compensation": "G0 X45. Z2.\nG42 G0 X39.2\nG1 Z0 F.1\nX40. Z-.4\nZ-50.\nG40 G0 X45.\nZ5.\n",
    "parting tool begun": "G0 X45. Z-63.\nG1 X8. F.05\nG0 X45.\nZ5.\n",
}
INTO = {
    "plunge beside the groove": "G0 X45. Z-40.\nG1 X34. F.05\nG0 X45.\nZ5.\n",
    "plunge in the groove": "G0 X45. Z-13.\nG1 X30. F.05\nG0 X45.\nZ5.\n",
    "turned too small": "G0 X39. Z2.\nG1 Z-50. F.2\nG0 X45. Z5.\n",
    "cycle": "G0 X45. Z-40.\nG75 R.5\nG75 X34. Z-50. P1000 Q5000 F.05\nG0 Z5.\n",
}


def compared(cuts, part=PART):
    head = "%\nO1\nG21 G99\nT0101\nG97 S800 M3\n"
    return compare_program(part, head + cuts + "G0 X100. Z50.\n" + GROOVE, SHOP)


def levels(found):
    return {f.code: f.level.value for f in found.findings if f.code.startswith("tool-")}


@pytest.mark.parametrize("name", CLEAR)
def test_a_tool_that_stays_off_the_grooves_is_a_caution(name):
    found = compared(CLEAR[name])
    assert found.agree, found.findings
    assert levels(found) == {"tool-not-followed": "caution"}


@pytest.mark.parametrize("name", INTO)
def test_a_tool_that_comes_into_the_part_is_a_stop(name):
    found = compared(INTO[name])
    assert not found.agree
    assert levels(found) == {"tool-unknown": "stop"}


def test_a_shoulder_is_faced_and_a_bore_is_bored():
    shoulder = "G0 X55. Z2.\nG0 Z-30.\nG1 X40. F.1\nG1 Z2.\nG0 X55. Z5.\n"
    assert levels(compared(shoulder, STEPPED)) == {"tool-not-followed": "caution"}
    assert levels(compared("G0 X55. Z2.\nG0 Z-30.1\nG1 X40. F.1\nG0 X55.\nZ5.\n", STEPPED)) == {"tool-unknown": "stop"}
    assert levels(compared("G0 X20. Z2.\nG1 Z-60. F.1\nG0 X18.\nZ5.\n", HOLLOW)) == {"tool-not-followed": "caution"}
    assert levels(compared("G0 X21. Z2.\nG1 Z-60. F.1\nG0 X18.\nZ5.\n", HOLLOW)) == {"tool-unknown": "stop"}


def test_a_groove_that_only_an_unknown_tool_cuts_is_missing():
    text = "%\nO1\nG21 G99\nT0101\nG97 S800 M3\nG0 X40. Z2.\nG1 Z-50. F.2\nG0 X45. Z5.\nM30\n%\n"
    assert [m.state.value for m in compare_program(PART, text, SHOP).matches] == ["missing"]


def test_compensation_that_is_still_on_when_the_insert_cuts_is_a_stop():
    found = compared(CLEAR["profile under compensation"].replace("G40 ", ""))
    assert [(f.code, f.line) for f in found.findings if f.stops] == [("radius-compensation", 18)]
