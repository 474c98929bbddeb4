"""Threads beside the grooves: none is kept of a drawing, so each that cuts is told with its place and depth."""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

PART = part_of([(-10, -13, 34)], length=60)
HEAD = "G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 M03\n"
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\nM30\n"
AWAY = "G00 X150. Z50.\n"


def compared(cuts, part=PART):
    return compare_program(part, HEAD + cuts + GROOVE, shop(tool(corner_radius=0.2), sharp_corner=0.2))


def told(found, level):
    return {f.code for f in found.findings if f.level.value == level}


@pytest.mark.parametrize(
    ("passes", "words"),
    [
        ("G00 X44. Z4.\nG92 X39. Z-8. F1.5\nX38.2\n", "A thread 0.9 deep with a lead of 1.5 is cut from Z0 to Z-8; "),
        ("G00 X44. Z4.\nG92 X39. Z-12. F1.5\nX38.2\n", "A thread 0.9 deep with a lead of 1.5 is cut from Z0 to Z-12; "),
        (
            "G00 X44. Z4.\nG92 X39. Z-8. F1.5\nX38.2 Z-9.\n",
            "A thread 0.9 deep with a lead of 1.5 is cut from Z0 to Z-9; ",
        ),
        (
            "G00 X44. Z4.\nG92 X39. Z-9. F1.5\nX38.2 Z-8.\n",
            "A thread 0.9 deep with a lead of 1.5 is cut from Z0 to Z-9; ",
        ),
        ("G00 X44. Z4.\nG92 X38.2 Z-13. F1.5\n", "A thread 0.9 deep with a lead of 1.5 is cut from Z0 to Z-13; "),
        ("G00 X44. Z4.\nG92 X38.2 Z-13.001 F1.5\n", "is cut from Z0 to Z-13.001, over groove 1; "),
        ("G00 X44. Z-10.\nG92 X38.2 Z-20. F1.5\n", "is cut from Z-10 to Z-20; "),
        ("G00 X44. Z-9.999\nG92 X38.2 Z-75. F1.5\n", "is cut from Z-9.999 to Z-60, over groove 1; "),
    ],
)
def test_a_thread_is_told_with_its_place_for_the_drawing_keeps_none(passes, words):
    """The part is 40 across and 60 long, its groove from Z-10 to Z-13: one that a thread runs out in is no doubt."""
    found = [f for f in compared(passes + AWAY).findings if f.code == "thread-not-held"]
    assert [(f.line, f.level.value) for f in found] == [(6, "caution")]
    assert words in found[0].message


def test_a_thread_that_cuts_nothing_is_told_as_that_alone():
    assert "thread-not-held" not in told(compared("G00 X44. Z4.\nG92 X40.2 Z-8. F1.5\n" + AWAY), "caution")


def test_a_thread_in_a_bore_runs_over_no_groove_outside():
    bored = part_of([(-10, -13, 34)], length=60, bore=20.0)
    found = compared("G00 X18. Z4.\nG92 X21. Z-20. F1.5\n" + AWAY, bored).findings
    (told,) = [f for f in found if f.code == "thread-not-held"]
    assert "A thread 0.5 deep with a lead of 1.5 is cut from Z0 to Z-20; " in told.message
