"""Sheets whose letters are drawn as lines: two letters of a word are no section, and what is printed is asked for."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Turned, box, full_outline, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Pen, Segments, Source, Text

MM = ReadOptions(units="mm")
PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))


def letter(x, y, high=4.0, top=0.4):
    """A letter as lines: a triangle like the A of a stroke font, 0.8 as wide as high, its top so far across."""
    corners = [(x, y), (x + 0.8 * high, y), (x + top * high, y + high)]
    return [(*a, *b, 0.0) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]


def stops(reading):
    return [f.code.value for f in reading.findings if f.stops]


def lettered(count, high=4.0, at=-45.0, pen="solid", options=MM, **more):
    """The part with so many letters in a row below it, or within it; numbers made up."""
    ink = full_outline(PART)
    getattr(ink, pen).extend(row for k in range(count) for row in letter(-60.0 + 1.2 * high * k, at - high, high))
    return read_sheet(sheet_of(ink, **more), options)


SIZE = math.hypot(60.0, 40.0)
HIGH = 0.1 * SIZE / math.hypot(1.0, 0.8)
"""A letter of this height is as large as any may be."""
WRITTEN = Text("SHAFT", (0.0, -50.0), 3.5, Source("1", "TEXT", "0", Pen.SOLID))
SHEETS = {
    "many": ({"count": 20}, True),
    "a few": ({"count": 19}, False),
    "as large as letters are": ({"count": 20, "high": 0.97 * HIGH}, True),
    "larger": ({"count": 20, "high": 1.03 * HIGH}, False),
    "on a sheet with a text": ({"count": 20, "texts": (WRITTEN,)}, False),
    "in another pen": ({"count": 20, "pen": "hidden"}, False),
    "with the scale given": ({"count": 20, "options": replace(MM, scale=1.0)}, False),
}


@pytest.mark.parametrize(("sheet", "asked"), SHEETS.values(), ids=SHEETS)
def test_what_a_sheet_prints_in_lines_is_asked_for(sheet, asked):
    reading = lettered(**sheet)
    assert stops(reading) == ["sheet-scale"] * asked
    assert [g.floor_diameter for g in reading.part.grooves] == pytest.approx([34.0])
    assert [f.scales for f in reading.findings if f.stops] == [(1.0,)] * asked


def test_letters_are_small_against_the_largest_view_whichever_is_pointed_to():
    """A pin a sixth as large as the part is as small as the letters: 20 of them are letters all the same."""
    ink = full_outline(PART)
    for drawn in ("solid", "centre"):
        pin = getattr(full_outline(Turned(((10.0, 6.0),), (Cut(-3.0, 1.0, 4.0),))), drawn)
        getattr(ink, drawn).extend([(a, b + 60.0, c, d + 60.0, e) for a, b, c, d, e in pin])
    ink.solid.extend(row for k in range(20) for row in letter(-60.0 + 4.8 * k, -49.0))
    reading = read_sheet(sheet_of(ink), replace(MM, at=(-5.0, 60.0)))
    assert (reading.part.length, stops(reading)) == (pytest.approx(10.0), ["sheet-scale"])


@pytest.mark.parametrize(("role", "count", "asked"), [("dimension", 20, True), ("dimension", 19, False)])
def test_letters_on_a_layer_named_for_dimensions_are_letters(role, count, asked):
    drawn = sheet_of(full_outline(PART))
    rows = [row for k in range(count) for row in letter(-60.0 + 5.0 * k, -50.0)]
    own = drawn.segments
    ends, bulge = np.array([row[:4] for row in rows]), np.zeros(len(rows))
    source = np.full(len(rows), len(own.sources), dtype=np.int64)
    segments = Segments(
        np.vstack([own.ends, ends]),
        np.append(own.bulge, bulge),
        np.append(own.source, source),
        (*own.sources, Source("9", "LINE", "DIM", role=role)),
    )
    assert stops(read_sheet(replace(drawn, segments=segments), MM)) == ["sheet-scale"] * asked


def spelt(third, size=4.0):
    """The part with edges across it, and two letters that mirror one another side by side, with a third figure."""
    ink = side_view(PART)
    ink.centre.clear()
    rows = [letter(-40.0, -60.0, size, 0.2), letter(-40.0 + 1.4 * size, -60.0, size, 0.6), *third(size)]
    ink.solid += [row for rows in rows for row in rows]
    return read_sheet(sheet_of(ink), MM)


def hyphen(size):
    """A short flat box half-way between the two letters, at half their height."""
    x, y = -40.0 + 1.1 * size, -60.0 + size / 2
    return box(x - 0.3, y - 0.2, x + 0.3, y + 0.2).solid


WORDS = {
    "a hyphen between": (lambda s: [hyphen(s)], True),
    "a third letter in their row": (lambda s: [letter(-40.0 + 2.8 * s, -60.0, s)], True),
    "one off their row": (lambda s: [letter(-40.0 + 2.8 * s, -60.0 - 1.03 * 0.1 * s, s)], False),
    "hardly off it": (lambda s: [letter(-40.0 + 2.8 * s, -60.0 - 0.97 * 0.1 * s, s)], True),
    "nothing": (lambda s: [], False),
}


@pytest.mark.parametrize(("third", "word"), WORDS.values(), ids=WORDS)
def test_two_letters_of_a_word_are_no_section_in_two_halves(third, word):
    reading = spelt(third)
    assert stops(reading) == ([] if word else ["several-parts"])


PAIR = 0.3 * SIZE / math.hypot(1.0, 2.2)
"""Two letters of this height, as `spelt` sets them, are as large as any pair may be."""


@pytest.mark.parametrize(("size", "word"), [(0.97 * PAIR, True), (1.03 * PAIR, False)])
def test_a_pair_of_larger_figures_may_be_a_part(size, word):
    reading = spelt(WORDS["a hyphen between"][0], size)
    assert stops(reading) == ([] if word else ["several-parts"])


ROUND = (
    *((0.843, 0.0), (0.8295, 0.1157), (0.789, 0.2169), (0.7215, 0.3035), (0.6269, 0.3755)),
    *((0.5067, 0.4322), (0.362, 0.4727), (0.193, 0.4969), (0.0, 0.505)),
)
"""A quarter of a nought as a stroke font draws it, 1.7 high and lying on its side."""


def nought(middle):
    """A whole one about a place on the y axis, as 32 chords."""
    half = [*ROUND, *((-x, y) for x, y in ROUND[-2::-1])]
    rim = [(x, middle + y) for x, y in (*half, *((-x, -y) for x, y in half[1:-1]), half[0])]
    return [(*a, *b, 0.0) for a, b in pairwise(rim)]


def test_a_bore_of_specks_between_the_strokes_of_a_figure_is_none():
    """0.0 up a sheet and nothing else: whatever is said of it, it is said in a finding."""
    ink = full_outline(PART)
    point = [(0.535, 0.8522), (0.535, 1.059), (0.8114, 1.059), (0.8114, 0.8522), (0.535, 0.8522)]
    ink.solid[:] = [*nought(0.0), *((*a, *b, 0.0) for a, b in pairwise(point)), *nought(1.9124)]
    ink.centre[:] = []
    reading = read_sheet(sheet_of(ink), MM)
    assert reading.part is None or not reading.part.grooves
