"""Two code systems in one program, a spindle whose speed nothing says when surface speed ends, and missing points."""

from math import pi

import pytest
from support.moves import shop
from support.parts import part_of
from support.programs import run_of

from extractor.finding import Level
from planner.steps import Spindle
from postproc import compare_program


def told(run):
    return [(f.code, f.line, f.level) for f in run.findings]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("G21 G99\nG00 X42. Z0.\nG91\nG00 X1.\nG90\nM30", 3),
        ("G21 G90 G95\nG00 X42. Z0.\nG50 S900\nM30", 3),
        ("G21 G99\nG00 X42. Z0.\nM30", None),
        ("G21 G90 G95\nG92 S900\nG91\nM30", None),
    ],
)
def test_words_that_no_one_control_is_sure_to_take_are_told_where_a_dialect_reads_both(text, line):
    """Feed per turn by G99 is the trade's, incremental places by G91 are ISO 6983's (ISO 6983-1, from memory)."""
    run = run_of(text, "plunge")
    assert told(run) == ([("code-systems-mixed", line, Level.CAUTION)] if line else [])


HEAD = "G21 G99\nT0303\nG50 S3000\nG96 S120 M03\n"


@pytest.mark.parametrize(("clamp", "across"), [(3000, 44), (600, 44), (3000, 30)])
def test_the_spindle_keeps_its_speed_where_surface_speed_ends_with_no_s(clamp, across):
    """n = 1000 v / (pi D), never above the clamp (handbook formula)."""
    turns = min(clamp, 1000 * 120 / (pi * across))
    run = run_of(HEAD.replace("3000", str(clamp)) + f"G00 X{across}. Z-13.\nG97\nG01 X34. F.1\nM30")
    assert told(run) == [("speed-not-said", 6, Level.CAUTION)]
    assert f"the {turns:.0f} rev/min that the spindle has at X{across}," in run.findings[0].message
    assert run.motions[-1].speed == pytest.approx(turns)
    assert not run.motions[-1].surface
    assert Spindle("rpm", round(turns)) in run.steps


def test_where_it_is_not_known_on_what_diameter_it_keeps_none():
    run = run_of(HEAD + "G97\nG00 X44. Z-13.\nG01 X34. F.1\nM30")
    assert told(run) == [("speed-not-said", 5, Level.CAUTION)]
    assert run.motions[-1].speed == 0


def test_a_spindle_that_stands_has_no_speed_to_keep():
    run = run_of(HEAD + "G00 X44. Z-13.\nM05\nG97\nG01 X34. F.1\nM30")
    assert run.motions[-1].speed == 0


def test_a_spindle_speed_said_before_counts():
    run = run_of(HEAD + "G97 S500\nG96 S120\nG00 X44. Z-13.\nG97\nG01 X34. F.1\nM30")
    assert not told(run)
    assert run.motions[-1].speed == 500


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("X34",), "X34 has no decimal point and makes sense of this drawing as whole units, not as least increments"),
        (("X42", "X34"), "X42 and 1 more word have no decimal point and make sense of this drawing as whole units"),
        (("X42", "Z-13", "X34"), "X42 and 2 more words have no decimal point and make sense of this drawing"),
    ],
)
def test_how_many_words_have_no_point(words, told):
    text = HEAD + "G00 X42. Z-13.\nG01 X34. F.08\nG00 X44.\nG28 U0\nM30"
    for word in words:
        text = text.replace(f"{word}.", word)
    found = compare_program(part_of([(-10, -13, 34)]), text, shop())
    assert [f.code for f in found.findings if f.stops] == ["no-decimal-point"]
    assert told in found.findings[0].message
