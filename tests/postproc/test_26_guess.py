"""Whose words a program speaks."""

import pytest
from support.programs import EVERY_KIND, FOUR_GROOVES, plan_of
from support.tongues import FIVE

from postproc import Heading, dialects, guess_dialect, parse_program, write_program
from postproc.reading import guess
from postproc.reading.guess import _only_cycles, _with_numbers, read_in
from postproc.reading.renaming import parse_as

TWO_BLOCK = "G21 G99\nG75 R.5\nG75 X34. Z-28. P1000 Q5000 F.08"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("G75 R.5\nG75 X34. Z-28. P1000 Q5000 F.08", "two-block"),
        ("G75 X34. P1000 F.08", "two-block"),
        ("G75 X34. F.08", "two-block"),
        ("G75 X34. Z-28. I1. K5. F.08", "one-block"),
        ("g75x34.i1.f.08", "one-block"),
        ("G75 X34. Z-28. I1. K5. R.5 F.08", "one-block"),
        ("G75 R.5\nG75 X34. F.08", "two-block"),
        ("G02 X30. I2. K0\nG75 R.5\nG75 X34. P1000", "two-block"),
        ("G21 G99\nG01 X34. F.08", "plunge"),
        ("G71 G90 G95\nG01 X34. F.08", "plunge"),
        ("G01 X34. F.08", "plunge"),
        ("G21 G99\nG90 X38. Z-20.", "two-block"),
        ("G50 S2000\nG94 X30.", "two-block"),
        ("X34. Z0.", None),
        ("T0303\nM08", None),
    ],
)
def test_by_its_own_words(text, name):
    guessed = guess_dialect(parse_program(text))
    assert (guessed and guessed.name) == name


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("G92 X38. Z-8. F1.5", {92}),
        ("G92 X38. Z-8.", set()),
        ("G92 S2000 F1.", set()),
        ("G90 X38. Z-20.\nG94 X30.", {90, 94}),
        ("G90 G01 X38.", set()),
        ("G90 X38. S1", {90}),
    ],
)
def test_a_number_with_places_and_no_motion_word_is_a_cycle_and_tells_nothing(text, numbers):
    assert _only_cycles(parse_program(text)) == numbers


def test_a_number_behind_another_letter_is_no_g_word():
    parsed = parse_program("G01 X75\nG75 X34.\nX75 T75")
    assert [block.line for block in _with_numbers(parsed, {75, 76})] == [2]
    assert _with_numbers(parsed, {76}) == []


@pytest.mark.parametrize("name", list(dialects(())))
@pytest.mark.parametrize("steps", [FOUR_GROOVES, EVERY_KIND])
def test_what_we_write_is_known_again(name, steps):
    dialect = dialects(())[name]
    text = write_program(plan_of(steps), dialect, Heading("ring.dxf", "0" * 64)).text
    assert guess_dialect(parse_program(text)) is dialect


@pytest.mark.parametrize("name", ["stored-groove", "numbered-values", "two-points"])
def test_a_dialect_of_another_package_is_known_by_the_pattern_of_its_cycle(name):
    at_hand = {**dialects(()), **FIVE}
    text = write_program(plan_of(FOUR_GROOVES), FIVE[name], Heading("ring.dxf", "0" * 64)).text
    assert guess_dialect(parse_program(text), at_hand) is FIVE[name]
    assert (
        guess_dialect(parse_program("G21 G99\nG75 R.5\nG75 X34. Z-28. P1000 Q5000 F.08"), at_hand).name == "two-block"
    )
    assert guess_dialect(parse_program("G86 X34. F.08"), at_hand).name == "plunge"


@pytest.mark.parametrize("name", ["stored-groove", "numbered-values", "two-points"])
def test_a_program_whose_words_tell_another_package_s_dialect_is_parsed_in_it(name, monkeypatch):
    """Its own lines and assignments are no blocks of ours."""
    monkeypatch.setattr(guess, "dialects", lambda: {**dialects(()), **FIVE})
    text = write_program(plan_of(FOUR_GROOVES), FIVE[name], Heading("ring.dxf", "0" * 64)).text
    parsed, spoken, told = read_in(text, None)
    assert (spoken, told) == (FIVE[name], True)
    assert parsed == parse_as(text, FIVE[name])
    ours, spoken, told = read_in(TWO_BLOCK, None)
    assert (spoken.name, told, ours) == ("two-block", True, parse_program(TWO_BLOCK))
