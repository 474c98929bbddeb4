"""Notes of a list that a letter at a leader, or a number in a ring, ties to a groove.

The ring has grooves 3 and 4 wide, 10 and 25 from its face, 34 across at their floors; letters are 2.5 high. How such
notes are written is common practice, no source. ISO 286-1: H13 up to 3 is +0.14/0.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
LAYER = Source("1", "CIRCLE", "0")
TIPS = ((-11.5, 17.0), (-27.0, 17.0))
LIST = ("NOTES:", "1. BREAK EDGES", "2. Ra 3.2", "3. GROOVE 3 +0.1/0 WIDE x Ø34 0/-0.1")
BOTH = {"width": (0.0, 0.1), "floor_diameter": (-0.1, 0.0)}


def figure(corners):
    return [(*a, *b, 0.0) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]


def triangle(x, y, size=4.0):
    return figure([(x - size, y - 3.0), (x + size, y - 3.0), (x, y + size)])


def square(x, y, size=3.0):
    return figure([(x - size, y - size), (x + size, y - size), (x + size, y + size), (x - size, y + size)])


def read(labels, notes, about=triangle, size=3.5, gap=0.0, tips=TIPS, more=(), paragraph=False):
    """Labels over the ring with a line from each to a groove, each in a figure, and a list of notes."""
    ink, circles, texts = side_view(RING), [], list(more)
    for k, (label, tip) in enumerate(zip(labels, tips, strict=False)):
        at = tip[0] - 30.0 * k
        if about is Circle:
            circles.append(Circle((at, 60.0), size, LAYER))
        elif about is not None:
            ink.solid += about(at, 60.0, size)
        foot = 60.0 - (3.0 if about is triangle else size)
        ink.solid.append((at, foot - gap, *tip, 0.0))
        texts.append(Text(label, (at - 0.8, 58.8), 2.5))
    lines = ["\n".join(notes)] if paragraph else notes
    texts += [Text(line, (40.0, 60.0 - 5.0 * k), 2.5) for k, line in enumerate(lines)]
    return read_sheet(sheet_of(ink, circles=tuple(circles), texts=tuple(texts)), ReadOptions(units="mm"))


def given(reading):
    return [dict(groove.tolerances) for groove in reading.part.grooves]


def told(reading):
    return [f.code for f in reading.findings if f.level != "note"]


@all_pairs(paragraph=[False, True], about=[triangle, square, Circle], label=["3", "(3)"])
def test_a_number_in_a_ring_leads_the_note_of_its_number_to_its_groove(about, label, paragraph):
    reading = read([label], LIST, about, paragraph=paragraph)
    assert (given(reading), told(reading)) == ([BOTH, {}], [])


@pytest.mark.parametrize("label", ["NOTE 3", "SEE NOTE 3", "NOTE (3)", "HINWEIS 3"])
def test_so_do_the_words_that_it_is_a_note(label):
    reading = read([label], LIST, None)
    assert (given(reading), told(reading)) == ([BOTH, {}], [])


def test_a_bare_number_may_be_a_size_and_leads_nothing():
    reading = read(["3"], LIST, None)
    assert (given(reading), told(reading)) == ([{}, {}], ["tolerance-unread"])


@pytest.mark.parametrize(
    ("notes", "widths"),
    [
        (("A: 3 H13 WIDE", "B: 4 +0.2/0 WIDE"), [(0.0, 0.14), (0.0, 0.2)]),
        (("A) 3 +0.1/0 x 3", "B) 4 +0.2/0 x 3"), [(0.0, 0.1), (0.0, 0.2)]),
        (("NOTE A. 3 WIDE +0.1/0", "NOTE B. 4 WIDE"), [(0.0, 0.1), None]),
        (("A: GROOVE", "3 +0.1/0 WIDE", "B: 4 +0.2/0 WIDE"), [(0.0, 0.1), (0.0, 0.2)]),
    ],
)
@pytest.mark.parametrize("paragraph", [False, True])
def test_a_letter_at_a_leader_leads_the_note_of_its_letter(notes, widths, paragraph):
    reading = read("AB", notes, None, paragraph=paragraph)
    assert ([one.get("width") for one in given(reading)], told(reading)) == (widths, [])


def test_a_label_that_stands_twice_leads_its_note_to_both():
    assert given(read("AA", ["A: Ø34 0/-0.1"], None)) == [{"floor_diameter": (-0.1, 0.0)}] * 2


@pytest.mark.parametrize(
    ("labels", "notes", "codes"),
    [
        ("AB", ["A: 3 WIDE", "B: 3 +0.2/0 WIDE"], ["note-contradicts"]),
        ("33", ["3. 3 +0.1/0 WIDE"], ["note-contradicts"]),
        ("3", ["3. DO NOT CUT"], ["note-unread"]),
        ("3", ["3. R0.8"], ["corner-not-drawn"]),
        ("3", ["3. WIDTH AFTER PLATING 3 +0.1"], ["note-unread"]),
        ("AB", ["A: ONLY ON TYPE 2", "B: BREAK EDGES"], ["note-unread"]),
    ],
)
def test_what_such_a_note_says_wrongly_or_asks_is_told(labels, notes, codes):
    assert told(read(labels, notes, triangle if labels.isdigit() else None)) == codes


@pytest.mark.parametrize("about", [triangle, Circle])
@pytest.mark.parametrize(
    "words",
    ["ALL DIMENSIONS IN MM", "HARDEN 58 HRC", "DEBURR", "NO BURRS PERMITTED", "Ra 0.8", "TOLERANCES ISO 2768-m"],
)
def test_a_flagged_note_about_other_matters_asks_nothing_and_stays_what_it_is(words, about):
    reading = read(["1"], ["1. " + words], about)
    assert told(reading) == []
    # ISO 2768-1 table 1, class m: 3 within 0.1 (from memory).
    assert given(reading)[0].get("width") == ((-0.1, 0.1) if "2768" in words else None)


def test_two_notes_of_one_label_are_none():
    reading = read("A", ["A: 3 +0.1/0 WIDE", "A: 3 +0.2/0 WIDE"], None)
    assert (given(reading), told(reading)) == ([{}, {}], ["tolerance-unread"] * 2)


def test_numbers_of_a_table_of_grooves_are_its_rows():
    """The table gives the one numbered 2 the width 4; the note of that number is about edges and sizes."""
    cells = (("NO", "WIDTH", "DIA"), ("1", "3", "34"), ("2", "4", "34"))
    table = [Text(c, (40.0 + 22 * k, 20.0 - 6 * n), 2.5) for n, row in enumerate(cells) for k, c in enumerate(row)]
    assert told(read("12", ["1. BREAK EDGES", "2. GROOVE 3 WIDE"], Circle, more=table)) == []


@pytest.mark.parametrize(("gap", "led"), [(1.2, True), (1.3, False)])
def test_the_leader_begins_at_the_ring(gap, led):
    """Half a letter's height, 1.25, off it at most."""
    assert bool(given(read(["3"], LIST, square, size=8.0, gap=gap))[0]) == led


@pytest.mark.parametrize(("size", "led"), [(9.9, True), (10.1, False)])
def test_a_ring_is_made_of_short_strokes(size, led):
    """Eight letter heights, 20, at most: the foot of the triangle is twice its size."""
    assert bool(given(read(["3"], LIST, triangle, size=size))[0]) == led


@pytest.mark.parametrize(
    ("about", "size", "led"), [(square, 8.2, True), (square, 9.6, False), (Circle, 7.4, True), (Circle, 7.6, False)]
)
def test_a_ring_stands_close_about_its_number(about, size, led):
    """Three letter heights, 7.5, from the letters to its strokes, or the radius of a circle."""
    assert bool(given(read(["3"], LIST, about, size=size))[0]) == led


@pytest.mark.parametrize(
    ("label", "notes", "widths"),
    [
        ("A", ["A = 3 +0.1/0 x Ø34"], (0.0, 0.1)),
        ("A", ["A=3 +0.1/0 x Ø34"], (0.0, 0.1)),
        ("1", ["1  GROOVE 3 +0.1/0 WIDE x 3 DEEP"], (0.0, 0.1)),
    ],
)
def test_a_legend_and_a_number_with_a_gap_behind_it_name_notes_too(label, notes, widths):
    reading = read([label], notes, Circle if label == "1" else None)
    assert (given(reading)[0].get("width"), told(reading)) == (widths, [])
    false = read([label], [notes[0].replace("34", "33").replace("3 DEEP", "2 DEEP")], Circle if label == "1" else None)
    assert told(false) == ["note-contradicts"]
