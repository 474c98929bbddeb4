"""Marks of a cutting plane as short strokes above and below a view, with letters and without heads, are no outline."""

import math

import pytest
from support.draw import Cut, Turned, half_profile, sheet_of, side_view

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


ON_LANDS = {
    "the upper": (moved(UPPER, inner=-4.0), LOWER),
    "the lower": (UPPER, moved(LOWER, inner=4.0)),
    "both": (moved(UPPER, inner=-4.0), moved(LOWER, inner=4.0)),
}


@pytest.mark.parametrize("rows", ON_LANDS.values(), ids=ON_LANDS)
@pytest.mark.parametrize("more", [(), ARMS])
def test_a_mark_may_reach_a_land_and_end_on_it(rows, more):
    assert (marked(sheet(*rows, more=more)), stops(sheet(*rows, more=more))) == (2 + len(more), [])


NONE = {
    "two letters": (sheet(UPPER, LOWER, letters="AB"), True),
    "small letters": (sheet(UPPER, LOWER, letters="aa"), True),
    "figures": (sheet(UPPER, LOWER, letters="11"), True),
    "words": (sheet(UPPER, LOWER, letters=("AX", "AX")), True),
    "one alone": (sheet(UPPER), False),
    "out of line": (sheet(UPPER, moved(LOWER, x=1.0)), False),
    "on one side": (sheet(UPPER, (-30.0, 46.0, -30.0, 36.0)), False),
    "both on a corner of the part": (
        sheet(*(moved(r, 20.0, inner=i) for r, i in ((UPPER, -4.0), (LOWER, 4.0)))),
        True,
    ),
    "both aslant on the part": (sheet((-30.0, 20.0, -31.0, 34.0), (-29.143, -20.0, -28.143, -34.0)), False),
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


@pytest.mark.parametrize("turn", [43.0, 45.0, 50.0])
@pytest.mark.parametrize("draw", [side_view, half_profile])
def test_the_letter_of_a_plane_is_no_size_of_a_leader_that_ends_on_a_land(draw, turn):
    """The leader of a tolerance's frame begins amid a side of that and leans like a tick against both."""
    ink = draw(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    x, y = -35.0 + 25.5 / math.tan(math.radians(turn)), 45.5
    frame = [(x, y - 3.5, x + 30, y - 3.5), (x + 30, y - 3.5, x + 30, y + 3.5), (x + 30, y + 3.5, x, y + 3.5)]
    rows = [UPPER, LOWER, (x, y, -35.0, 20.0), *frame, (x, y + 3.5, x, y - 3.5)]
    ink.solid += [(*row, 0.0) for row in rows]
    texts = [Text("A", (-28.3, 32.0), HIGH), Text("A", (-28.3, -36.0), HIGH)]
    texts += [Text("//", (x + 2.0, y - 1.7), HIGH), Text("A", (x + 27.0, y - 1.7), HIGH)]
    drawn = sheet_of(ink, texts=tuple(texts))
    assert (marked(drawn), stops(drawn)) == (2, [])
