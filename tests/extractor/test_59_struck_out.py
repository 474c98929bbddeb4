"""Sizes that a hand struck out are told; ticks, extension lines, frames and underlines at a text are not.

Ways of marking: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))
HIGH, LONG = 3.0, 4.2
"""Height of the letters, and how long `12` is at 0.7 of that a letter."""
AT = (-22.0, 26.0)


def told(*strokes, words="12", at=AT):
    """What is said of strokes given from where the text begins, in mm."""
    ink = full_outline(SHAFT)
    ink.solid += [(x + a, y + b, x + c, y + d, *(bulge or [0.0])) for x, y in [at] for a, b, c, d, *bulge in strokes]
    reading = read_sheet(sheet_of(ink, texts=(Text(words, at, HIGH),)), ReadOptions(units="mm"))
    return [f.message for f in reading.findings if "A stroke runs through" in f.message]


SLANT, OTHER, LEVEL = (0.2, 0.2, 4.0, 2.8), (0.2, 2.8, 4.0, 0.2), (-0.5, 1.5, 4.7, 1.5)


@pytest.mark.parametrize("strokes", [[SLANT], [OTHER], [LEVEL], [SLANT, OTHER], [(2.1, -1.0, 2.1, 4.0)]])
def test_a_stroke_through_the_figures_is_told_once(strokes):
    (message,) = told(*strokes)
    assert message == (
        'A stroke runs through "12" at X-22 Y26, as where a size is struck out: see whether it still holds.'
    )


@pytest.mark.parametrize(
    "strokes",
    [
        [(0.0, -0.6, LONG, -0.6)],
        [(0.0, -0.8, LONG, -0.8), (LONG, -0.8, LONG, 3.8), (LONG, 3.8, 0.0, 3.8), (0.0, 3.8, 0.0, -0.8)],
        [(2.1, -6.0, 2.1, 9.0)],
        [LEVEL, (4.7, -3.0, 4.7, 6.0)],
        [LEVEL, (2.0, -6.0, 2.0, 9.0)],
        [LEVEL, (2.0, -1.0, 2.0, 4.0), (2.0, -1.0, 30.0, -1.0)],
        [(0.2, 0.2, 4.0, 2.8, 0.4)],
        [],
    ],
    ids=["underline", "frame", "a line that goes on", "a tail", "a tick", "the end of a line", "an arc", "nothing"],
)
def test_other_lines_at_a_text_are_not(strokes):
    assert told(*strokes) == []


@pytest.mark.parametrize(("stroke", "struck"), [((1.4, 1.5, 2.9, 1.5), True), ((1.4, 1.5, 2.8, 1.5), False)])
def test_it_is_half_as_long_as_the_shorter_side(stroke, struck):
    assert bool(told(stroke)) is struck


@pytest.mark.parametrize(("beyond", "struck"), [(2.3, True), (2.5, False)])
def test_across_it_goes_no_farther_than_four_fifths_of_a_letter(beyond, struck):
    assert bool(told((2.1, -0.6 - beyond, 2.1, 3.6 + beyond))) is struck


@pytest.mark.parametrize(
    ("beyond", "rise", "struck"), [(1.0, 0.0, True), (1.1, 0.0, False), (1.1, 0.5, False), (1.1, 0.7, True)]
)
def test_along_it_ends_about_where_the_text_does(beyond, rise, struck):
    """A third of a letter beyond it; one that rises by a tenth of its length or more goes across."""
    assert bool(told((-beyond, 1.5 - rise / 2, LONG + beyond, 1.5 + rise / 2))) is struck


@pytest.mark.parametrize(("up", "struck"), [(0.8, True), (0.7, False), (2.2, True), (2.3, False)])
def test_it_runs_through_the_middle_half(up, struck):
    assert bool(told((-0.5, up, 4.7, up))) is struck


@pytest.mark.parametrize(("words", "at"), [("TYP", AT), ("12", (-22.0, 90.0))])
def test_words_and_what_stands_elsewhere_are_left(words, at):
    assert told(SLANT, words=words, at=at) == []
