"""Dimensions of loose lines whose text was moved out over a tail or behind it, whatever room there is between.

The shaft has two grooves 3 and 4 wide, their floors 34 and 30 across; every size here is worked out from these four.
The front is at X0, so a line of the floor 30 across runs out of the part over its end face.
"""

import math

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.in_line import OVER

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 30.0)))
HIGH, SIZE, TAIL = 2.5, 2.5, 5.0
HALF = 0.167
HEADS = {"open": (-1, 1), "closed": (-1, 1), "fan": (-1, -0.5, 0, 0.5, 1), "tick": ()}


def head(form, at, back):
    """A head or a tick at a place; `back` is the way from its point through it, 1 long."""
    (x, y), (u, v) = at, back
    if form == "tick":
        k = 0.35 * HIGH
        return [(x - k * (u - v), y - k * (v + u), x + k * (u - v), y + k * (v + u))]
    sides = [(x + SIZE * (u - share * HALF * v), y + SIZE * (v + share * HALF * u)) for share in HEADS[form]]
    rows = [(x, y, *side) for side in sides]
    return [*rows, (*sides[0], *sides[1])] if form == "closed" else rows


def outside(form, low, high, *, between, long=20.0):
    """Tails at both ends, the one beyond `high` as long as the text over it, and a line between them or none."""
    apart = math.dist(low, high)
    u, v = (high[0] - low[0]) / apart, (high[1] - low[1]) / apart
    rows = [(low[0] - TAIL * u, low[1] - TAIL * v, *low), (*high, high[0] + long * u, high[1] + long * v)]
    rows += [(*low, *high)] if between else []
    return [*rows, *head(form, low, (-u, -v)), *head(form, high, (u, v))]


def floor(form, words, at=12.0, **more):
    """The diameter of the second floor, in front of the end face, with its text over the upper tail."""
    more = {"between": False, **more}
    rows = [(-42.0, side * 15.0, at + 1.0, side * 15.0) for side in (1, -1)]
    rows += outside(form, (at, -15.0), (at, 15.0), **more)
    return rows, Text(words, (at - 0.35 * HIGH, 15.0 + TAIL), HIGH, angle=90.0)


def width(form, words, at=26.0, **more):
    """The width of the first groove above it, with its text over the tail toward the front."""
    more = {"between": False, **more}
    rows = [(x, 20.5, x, at + 1.0) for x in (-10.0, -13.0)] + outside(form, (-13.0, at), (-10.0, at), **more)
    return rows, Text(words, (-10.0 + TAIL, at + 0.35 * HIGH), HIGH)


def read(rows, *texts, view=None):
    ink = Ink(solid=[(*row, 0.0) for row in rows])
    return read_sheet(sheet_of(mixed(view or side_view(SHAFT), ink), texts=texts), ReadOptions(units="mm"))


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


def told(reading):
    return [f.code for f in reading.findings]


@pytest.mark.parametrize("between", [False, True])
@pytest.mark.parametrize("form", HEADS)
@pytest.mark.parametrize(
    ("drawn", "words", "other", "field"),
    [(floor, "Ø30 0/-0.05", "Ø29.5 0/-0.05", "floor_diameter"), (width, "3 0/-0.05", "3.5 0/-0.05", "width")],
)
def test_a_size_over_a_tail_is_held_and_its_tolerance_kept(drawn, words, other, field, form, between):
    """Of the diameter the heads stand 30 apart, which is twelve times their length."""
    reading = read(*drawn(form, words, between=between))
    assert told(reading) == []
    assert [g.tolerances.get(field) for g in reading.part.grooves if field in g.printed] == [(-0.05, 0.0)]
    assert stops(read(*drawn(form, other, between=between))) == ["dimension-contradicts"]


@pytest.mark.parametrize("form", HEADS)
def test_a_size_behind_a_tail_is_that_of_its_line(form):
    rows, text = floor(form, "Ø30 h11", long=TAIL)
    reading = read(rows, Text(text.text, (12.0 + HIGH / 2, 15.0 + TAIL + 1.0), HIGH, angle=90.0))
    # ISO 286-2: h11 of 18 to 30 is 0/-0.13.
    assert (told(reading), reading.part.grooves[1].tolerances["floor_diameter"]) == ([], pytest.approx((-0.13, 0.0)))


def without(rows, *gone):
    left = [row for k, row in enumerate(rows) if k not in gone]
    assert len(left) == len(rows) - len(gone)
    return left


@pytest.mark.parametrize("form", HEADS)
@pytest.mark.parametrize("gone", ["tail", "head"])
def test_lines_at_the_same_place_that_no_two_tails_mark_still_stop(form, gone):
    """Without the lower tail, or with nothing to end it, the lines over the end face may be edges of something."""
    rows, text = floor(form, "Ø30 0/-0.05")
    lower = len(head(form, (0, 0), (0, 1)))
    marks = (2,) if gone == "tail" else tuple(range(4, 4 + lower))
    assert stops(read(rows, text)) == []
    assert stops(read(without(rows, *marks), text)) != []


@pytest.mark.parametrize("form", HEADS)
@pytest.mark.parametrize("drawn", [floor, width])
def test_a_line_missing_from_the_outline_still_stops(drawn, form):
    """One by one each line of the upper half: of the ends, the lands, the walls and the floors."""
    rows, text = drawn(form, {floor: "Ø30 0/-0.05", width: "3 0/-0.05"}[drawn])
    whole = side_view(SHAFT)
    upper = [k for k, (_, y0, _, y1, _) in enumerate(whole.solid) if min(y0, y1) >= 0 or y0 * y1 < 0]
    for k in upper:
        view = Ink(solid=without(whole.solid, k), centre=whole.centre)
        reading = read(rows, text, view=view)
        bare = read([], view=view)
        assert stops(bare) == [] or stops(reading) != [], whole.solid[k]
        assert [g.floor_diameter for g in reading.part.grooves] == [34.0, 30.0] or stops(reading), whole.solid[k]


FAN = [
    (-42.0, side * 15.0, -42.0 + share * HALF * SIZE, side * (15.0 - SIZE))
    for side in (1, -1)
    for share in HEADS["fan"]
]
"""Two heads that point out of the second groove, each drawn as five lines from its point."""


@pytest.mark.parametrize("gone", [None, 0, 1, 3, 4, 5, 6, 8, 9])
def test_a_lone_line_where_a_fan_would_have_one_still_stops(gone):
    """It begins at the floor and ends in the metal: without its mirror image it fills no head."""
    rows = FAN if gone is None else without(FAN, gone)
    text = Text("Ø30", (-42.0 - 0.35 * HIGH, -3.0), HIGH, angle=90.0)
    told = stops(read([(-42.0, -15.0, -42.0, 15.0), *rows], text))
    assert told == ([] if gone is None else ["outline-unclear"])


@pytest.mark.parametrize(("up", "known"), [(OVER - 0.02, True), (OVER + 0.02, False)])
def test_how_far_over_its_tail_a_text_stands(up, known):
    """From the tail to the middle of the text."""
    rows, text = floor("closed", "Ø30 0/-0.05")
    reading = read(rows, Text(text.text, (12.0 - (up - 0.5) * HIGH, text.at[1]), HIGH, angle=90.0))
    assert (stops(reading) == []) is known


@pytest.mark.parametrize(("middle", "known"), [(0.1, True), (20.0 + HIGH - 0.1, True), (20.0 + HIGH + 0.1, False)])
def test_a_text_has_its_middle_over_its_tail_or_just_beyond(middle, known):
    """The tail runs from the end of the line 20 out; letters are 0.7 of their height wide."""
    rows, text = floor("closed", "Ø30 0/-0.05")
    begin = 15.0 + middle - 0.35 * HIGH * len(text.text)
    reading = read(rows, Text(text.text, (text.at[0], begin), HIGH, angle=90.0))
    assert (stops(reading) == []) is known


@pytest.mark.parametrize("words", ["R30", "R30 h11"])
def test_a_radius_printed_where_the_diameter_is_contradicts(words):
    rows, text = floor("closed", words)
    assert stops(read(rows, text)) == ["dimension-contradicts"]
