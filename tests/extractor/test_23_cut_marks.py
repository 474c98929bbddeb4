"""Marks of a cutting plane as short strokes above and below a view, with letters and without heads, are no outline."""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.roles import assign

HIGH = 3.0
UPPER, LOWER = (-30.0, 24.0, -30.0, 34.0), (-30.0, -24.0, -30.0, -34.0)
ARMS = (-30.0, 34.0, -24.0, 34.0), (-30.0, -34.0, -24.0, -34.0)


def sheet(*rows, letters="AA", beside=2.0, more=()):
    """A shaft of 60 by 40 with a groove, with rows and a letter at each of the first two."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    ink.solid += [(*row, 0.0) for row in (*rows, *more)]
    texts = [
        Text(letter, (row[0] - beside - 0.7 * HIGH, row[3] - 1.0), HIGH)
        for letter, row in zip(letters, rows, strict=False)
    ]
    return sheet_of(ink, texts=tuple(texts))


def stops(drawn):
    return [f.code.value for f in read_sheet(drawn, ReadOptions(units="mm")).findings if f.stops]


def marked(drawn):
    (claim,) = [c for c in assign(drawn).claims if "cutting plane" in c.reason]
    return len(claim.labels)


@pytest.mark.parametrize("more", [(), ARMS, ARMS[:1]])
def test_short_strokes_in_line_with_one_letter_are_no_outline(more):
    drawn = sheet(UPPER, LOWER, more=more)
    assert (marked(drawn), stops(drawn)) == (2 + len(more), [])
    assert stops(sheet(UPPER, LOWER, letters="", more=more)) == ["outline-open"]


def moved(row, x=0.0, y=0.0, inner=0.0):
    return (row[0] + x, row[1] + y + inner, row[2] + x, row[3] + y)


NONE = {
    "two letters": (sheet(UPPER, LOWER, letters="AB"), True),
    "small letters": (sheet(UPPER, LOWER, letters="aa"), True),
    "figures": (sheet(UPPER, LOWER, letters="11"), True),
    "words": (sheet(UPPER, LOWER, letters=("AX", "AX")), True),
    "one alone": (sheet(UPPER), False),
    "out of line": (sheet(UPPER, moved(LOWER, x=1.0)), False),
    "on one side": (sheet(UPPER, (-30.0, 46.0, -30.0, 36.0)), False),
    "one on the part": (sheet(UPPER, moved(LOWER, inner=4.0)), False),
    "both on the part": (sheet(moved(UPPER, inner=-4.0), moved(LOWER, inner=4.0)), True),
    "a long arm": (sheet(UPPER, LOWER, more=((-30.0, 34.0, -14.0, 34.0),)), True),
    "a slanting arm": (sheet(UPPER, LOWER, more=((-30.0, 34.0, -24.0, 35.0),)), False),
    "an arm that goes on": (sheet(UPPER, LOWER, more=(ARMS[0], (-24.0, 34.0, -24.0, 30.0))), True),
    "from line to line": (sheet(UPPER, LOWER, more=[(-40.0, y, -20.0, y) for y in (34.0, -34.0)]), True),
    "two arms": (sheet(UPPER, LOWER, more=(ARMS[0], (-30.0, 34.0, -36.0, 34.0))), True),
}


@pytest.mark.parametrize(("drawn", "stop"), NONE.values(), ids=NONE)
def test_what_is_no_mark(drawn, stop):
    """Where it is alike on both sides of the axis it is asked about as ever."""
    assert marked(drawn) == 0
    assert bool(stops(drawn)) is stop


@pytest.mark.parametrize(("long", "known"), [(14.9, True), (15.1, False)])
def test_a_mark_is_at_most_five_heights_long(long, known):
    rows = [(-30.0, s * (39.0 - long), -30.0, s * 39.0) for s in (1, -1)]
    assert bool(marked(sheet(*rows))) is known


@pytest.mark.parametrize(("away", "known"), [(5.9, True), (6.1, False)])
def test_its_letter_stands_within_two_heights(away, known):
    assert bool(marked(sheet(UPPER, LOWER, beside=away))) is known
