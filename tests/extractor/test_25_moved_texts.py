"""Dimensions of loose lines whose text was moved out over a tail or behind it, whatever room there is between.

The shaft has two grooves 3 and 4 wide, their floors 34 and 30 across; every size here is worked out from these four.
The front is at X0, so a line of the floor 30 across runs out of the part over its end face.
"""

import math
from functools import cache

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing.arrows import arrows
from extractor.viewing.in_line import BESIDE, OVER
from extractor.viewing.roles import with_loose

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


@all_pairs(
    ("drawn", "words", "other", "field"),
    [(floor, "Ø30 0/-0.05", "Ø29.5 0/-0.05", "floor_diameter"), (width, "3 0/-0.05", "3.5 0/-0.05", "width")],
    between=[False, True],
    form=HEADS,
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


@each_in_turn(form=HEADS, gone=["tail", "head"])
def test_lines_at_the_same_place_that_no_two_tails_mark_still_stop(form, gone):
    """Without the lower tail, or with nothing to end it, the lines over the end face may be edges of something."""
    rows, text = floor(form, "Ø30 0/-0.05")
    lower = len(head(form, (0, 0), (0, 1)))
    marks = (2,) if gone == "tail" else tuple(range(4, 4 + lower))
    assert stops(read(rows, text)) == []
    assert stops(read(without(rows, *marks), text)) != []


@cache
def lacking(k):
    """The shaft without one of its lines, read by itself."""
    whole = side_view(SHAFT)
    return read([], view=Ink(solid=without(whole.solid, k), centre=whole.centre))


@pytest.mark.parametrize("drawn", [floor, width])
def test_a_line_missing_from_the_outline_still_stops(drawn):
    """One by one each line of the upper half: of the ends, the lands, the walls and the floors."""
    sizes = [drawn(form, {floor: "Ø30 0/-0.05", width: "3 0/-0.05"}[drawn]) for form in HEADS]
    whole = side_view(SHAFT)
    upper = [k for k, (_, y0, _, y1, _) in enumerate(whole.solid) if min(y0, y1) >= 0 or y0 * y1 < 0]
    for k in upper:
        view = Ink(solid=without(whole.solid, k), centre=whole.centre)
        rows, text = sizes[k % len(sizes)]
        reading = read(rows, text, view=view)
        assert stops(lacking(k)) == [] or stops(reading) != [], whole.solid[k]
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


def sized(rows, text):
    """The dimensions that are put together from lines and a text alone."""
    sheet = sheet_of(Ink(solid=[(*row, 0.0) for row in rows]), texts=(text,))
    return [(d.text, round(d.measured, 6)) for d in with_loose(sheet).dimensions]


@pytest.mark.parametrize("form", HEADS)
def test_tails_that_end_at_no_other_line_measure_nothing(form):
    rows, text = floor(form, "Ø30")
    assert sized(rows, text) == [("Ø30", 30.0)]
    assert sized(rows[2:], text) == []


@pytest.mark.parametrize(
    ("begin", "foot", "known"),
    [
        (9.0, 22.0, False),
        (12.1, 22.0, True),
        (12.0 + BESIDE * HIGH - 0.1, 22.0, True),
        (12.0 + BESIDE * HIGH + 0.1, 22.0, False),
        (12.5, 35.1 - HIGH / 2, False),
        (12.5, 34.9 - HIGH / 2, True),
    ],
)
def test_a_text_square_to_a_tail_is_of_its_line_if_it_stands_right_beside_it(begin, foot, known):
    """A level figure beside the upright tail that runs from 15 to 35; one that the tail runs through is not."""
    rows, text = floor("closed", "Ø30")
    assert sized(rows, Text(text.text, (begin, foot), HIGH)) == ([("Ø30", 30.0)] if known else [])


@pytest.mark.parametrize("form", HEADS)
def test_a_line_between_two_tails_that_is_marked_at_one_end_only_is_passed_over(form):
    """A leader in line with the tails points the way that the upper one does."""
    rows, text = floor(form, "Ø29 0/-0.05")
    inner = [(12.0, 5.0, 12.0, 9.0), *head(form, (12.0, 5.0), (0.0, 1.0)), (8.0, 5.0, 16.0, 5.0)]
    assert sized([*rows, *inner], text) == [("Ø29 0/-0.05", 30.0)]


def test_a_long_text_behind_the_far_tail_is_found_by_its_end():
    rows, _ = floor("closed", "", long=TAIL)
    words = "Ø30 0/-0.05 TURNED"
    begin = -15.0 - TAIL - 1.0 - 0.7 * HIGH * len(words)
    assert sized(rows, Text(words, (12.0 + HIGH / 2, begin), HIGH, angle=90.0)) == [(words, 30.0)]


def test_a_small_radius_over_a_tail_is_no_size_of_its_line():
    rows, text = floor("closed", "R0.5")
    assert sized(rows, text) == []


@pytest.mark.parametrize("form", ["open", "closed", "fan"])
def test_heads_with_a_line_between_need_no_text(form):
    """However far apart: the lines end at the heads, and those square to them are extension lines."""
    rows, _ = floor(form, "", between=True)
    told = arrows(Strokes(np.array(rows), np.zeros(len(rows)), np.arange(len(rows))), 1e-6)
    assert (told.lines, told.extensions) == ({4}, {0, 1})


@pytest.mark.parametrize(("share", "filled"), [(0.96, True), (0.94, False), (1.04, True), (1.06, False)])
def test_a_line_of_a_fan_ends_at_its_base(share, filled):
    """Both halves of the amid ones as long as said against the length of the head along its line."""
    rows = [(0.0, 0.0, 20.0, 0.0), *head("fan", (0.0, 0.0), (1.0, 0.0))]
    rows[2], rows[4] = ((*r[:2], share * r[2], share * r[3]) for r in (rows[2], rows[4]))
    told = arrows(Strokes(np.array(rows), np.zeros(len(rows)), np.arange(len(rows))), 1e-6)
    assert (told.heads == {1, 2, 3, 4, 5}) is filled


@pytest.mark.parametrize("words", ["12", "12.5", "20"])
def test_a_line_with_heads_at_both_ends_is_no_tail_of_the_next(words):
    """From its far end to that of the narrow place beside it are 20; the tail of that ends clear of it."""
    rows, other = width("closed", "3")
    rows += [(x, 20.5, x, 27.0) for x in (-30.0, -42.0)] + [(-42.0, 26.0, -30.0, 26.0)]
    rows += head("closed", (-42.0, 26.0), (1.0, 0.0)) + head("closed", (-30.0, 26.0), (-1.0, 0.0))
    assert sized(rows, Text(words, (-34.0 - 0.35 * HIGH * len(words), 26.8), HIGH)) == [(words, 12.0)]
    assert sized(rows, other) == [("3", 3.0)]


@pytest.mark.parametrize("form", HEADS)
def test_a_text_over_a_tail_is_nearer_to_its_line_than_to_the_next_one(form):
    """Two lines of one size 5 apart, their middles about as far from either text."""
    rows, text = floor(form, "Ø30 h11", between=True)
    more, other = floor(form, "Ø30", at=17.0, between=True)
    ink = Ink(solid=[(*row, 0.0) for row in (*rows, *more)])
    told = with_loose(sheet_of(ink, texts=(text, other))).dimensions
    assert [(d.text, {x for row in d.drawn for x in ink.solid[row][::2][:1]} & {12.0, 17.0}) for d in told] == [
        ("Ø30 h11", {12.0}),
        ("Ø30", {17.0}),
    ]
