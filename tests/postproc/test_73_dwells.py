"""The dwell that the shop file asks for at floors with a tolerance, held against programs written by hand.

What is told, and where, is worked out by hand beside each program; that such a floor wants a turn or two of the spindle
is common practice, no source.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

LIMITS = {"tolerances": {"floor_diameter": (-0.1, 0.1)}}
PART = part_of([(-10, -13, 34, LIMITS), (-20, -23, 34, LIMITS), (-30, -33, 34)])
HEAD = "G21 G99\nT0303\nG50 S2500\nG96 S120 M03\nG00 X42. Z-13.\n"
TAIL = "G00 X150. Z50.\nM30\n"
PLUNGES = "G01 X34. F.08\nG00 X42.\nZ-23.\nG01 X34.\nG00 X42.\nZ-33.\nG01 X34.\nG00 X42.\n"
WAITS = PLUNGES.replace("G01 X34. F.08\n", "G01 X34. F.08\nG04 P150\n").replace("G01 X34.\n", "G01 X34.\nG04 P150\n")
FIRST = PLUNGES.replace("G01 X34. F.08\n", "G01 X34. F.08\nG04 P150\n")
ABOVE = PLUNGES.replace("G00 X42.\n", "G00 X42.\nG04 P150\n")
LOOP = "#1=0\nWHILE [#1 LT 3] DO1\nG00 Z[-13.-10.*#1]\nG01 X34. F.08\n{wait}G00 X42.\n#1=#1+1\nEND1\n"


def told(cuts, part=PART, **fields):
    """[(line, message)] of the cautions about dwells; the program makes the drawing with them or without."""
    verdict = compare_program(part, HEAD + cuts + TAIL, shop(tool(**{"dwell": 2.0, **fields})))
    assert verdict.agree, verdict.findings
    return [(f.line, f.message) for f in verdict.findings if f.code == "dwell-missing"]


@pytest.mark.parametrize(
    ("cuts", "which", "line"),
    [
        (PLUNGES, "Grooves 1, 2:", 6),
        (WAITS, "", 0),
        (FIRST, "Groove 2:", 10),
        (ABOVE, "Grooves 1, 2:", 6),
        (LOOP.format(wait=""), "Grooves 1, 2:", 9),
        (LOOP.format(wait="G04 P150\n"), "", 0),
        ("G75 R.5\nG75 X34. Z-33. P1000 Q10000 F.08\n", "Grooves 1, 2:", 7),
    ],
    ids=["none", "all", "the first alone", "above the part", "in a loop", "in a loop with it", "by the cycle"],
)
def test_floors_with_a_tolerance_that_are_left_without_the_dwell(cuts, which, line):
    found = told(cuts)
    assert [where for where, _ in found] == ([line] if which else [])
    assert all(message.startswith(which) for _, message in found)


def test_a_way_along_the_floor_of_another_groove_excuses_no_plunge():
    part = part_of([(-10, -13, 34, LIMITS), (-20, -23, 34, LIMITS), (-30, -33, 34), (-40, -45, 34)])
    wide = "Z-43.\nG01 X34.\nG00 X42.\nZ-45.\nG01 X34.\nZ-43.\nG00 X42.\n"
    assert [line for line, _ in told(PLUNGES + wide, part)] == [6]


def test_it_says_how_many_turns_the_shop_asks_for():
    assert "gives T0303 a dwell of 2 turns there" in told(PLUNGES)[0][1]
    assert "a dwell of 1 turn there" in told(PLUNGES, dwell=1.0)[0][1]


# S120 at diameter 34 is 1000 x 120 / (pi x 34) = 1123.4 rev/min, 18.72 a second: 2 turns last 107 ms, 1.5 of them 80.1.
@pytest.mark.parametrize(
    ("wait", "has"),
    [("P81", ""), ("P80", "1.5 turns."), ("P50", "0.94 turns."), ("X1", "0.02 turns."), ("P50\nG04 P31", "")],
)
def test_a_dwell_much_shorter_than_the_shop_asks_for_is_told(wait, has):
    found = told(WAITS.replace("P150", wait), dwell=2.0)
    said = "Grooves 1, 2: the floor has a tolerance, and the shop file gives T0303 a dwell of 2 turns there; "
    assert [message for _, message in found] == ([f"{said}the program's is {has}"] if has else [])


def test_of_the_dwells_in_a_groove_the_longest_counts():
    """Two plunges for a groove 5 wide, each with 60 ms: 1.12 turns in either place, and 1.5 are wanted."""
    part = part_of([(-10, -15, 34, LIMITS)])
    cuts = "G01 X34. F.08\nG04 P60\nG00 X42.\nZ-15.\nG01 X34.\nG04 P60\nG00 X42.\n"
    assert [message.endswith(" is 1.12 turns.") for _, message in told(cuts, part)] == [True]
    assert not told(cuts.replace("P60", "P81", 1), part)


def test_a_dwell_on_the_axis_of_the_part_is_no_fault():
    assert not told(WAITS + "G00 Z2.\nG01 X0 F.08\nG04 P150\nG00 X42.\n")


# 600 rev/min are 10 turns a second, the clamp of 300 is 5.
@pytest.mark.parametrize(
    ("spin", "wait", "short"),
    [
        ("G97 S600", "P150", False),
        ("G97 S600", "P149", True),
        ("G50 S300\nG96 S120", "P300", False),
        ("G50 S300\nG96 S120", "P299", True),
    ],
)
def test_its_turns_are_those_of_the_speed_in_force(spin, wait, short):
    cuts = WAITS.replace("P150", wait)
    text = HEAD.replace("G96 S120", spin) + cuts + TAIL
    found = compare_program(PART, text, shop(tool(dwell=2.0))).findings
    assert [f.line for f in found if f.code == "dwell-missing"] == ([6 + spin.count("\n")] if short else [])


def test_a_line_that_waits_long_once_is_long_enough():
    loop = LOOP.format(wait="G04 P[150-70*#1]\n")
    assert [message[:6] for _, message in told(loop)] == []


def test_nothing_is_told_where_nobody_asks_for_a_dwell():
    assert told(PLUNGES, dwell=0.0) == []
    assert told(PLUNGES, part_of([(-10, -13, 34), (-20, -23, 34), (-30, -33, 34)])) == []


def test_a_floor_that_a_pass_goes_along_needs_none():
    broad = part_of([(-10, -14, 34, LIMITS)])
    plunges = "G01 X34.{deep} F.08\nG00 X42.\nZ-14.\nG01 X34.\n{along}G00 X42.\n"
    assert told(plunges.format(deep="", along="Z-13.\n"), broad) == []
    assert [line for line, _ in told(plunges.format(deep="", along=""), broad)] == [9]
    assert told(plunges.format(deep=2, along="Z-13.\n"), broad) == []


def test_a_face_groove_has_its_floor_across():
    limits = {"where": "face", "mouth_diameter": 30.0, "tolerances": {"depth": (-0.1, 0.1)}}
    face, cuts = part_of([(0, -4, 24, limits)], length=60), "G00 X24. Z2.\nG01 Z-4. F.08\n{more}G00 Z2.\n"
    used = tool(where="face", dwell=2.0)
    for more, missing in (("", True), ("G04 P150\n", False), ("X24.2\nX24.\n", False)):
        text = f"{HEAD.replace('G00 X42. Z-13.', 'G00 X42. Z2.')}{cuts.format(more=more)}G00 Z50.\n{TAIL}"
        found = compare_program(face, text, shop(used)).findings
        assert any(f.code == "dwell-missing" for f in found) is missing, (more, found)
