"""Callouts at a groove whose lines are texts of their own, and callouts that begin with words nobody here knows.

The shaft is 40 across; grooves 3 wide, 34 across at the floor, and 5 wide. How callouts are written in other languages
is from memory. Lines of a paragraph stand 1.5 to 1.7 letter heights apart (common practice, no source).
"""

from itertools import pairwise

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

SHAFT = Turned(((60.0, 40.0),), (Cut(-14.0, 3.0, 34.0), Cut(-40.0, 5.0, 32.0)))
BOTH = {"width": (0.0, 0.1), "floor_diameter": (-0.1, 0.0)}
HIGH = 2.5


def read(lines, loose=False, step=4.0, off=0.0, more=(), strokes=(), part=SHAFT):
    """The shaft with lines of text, each a text of its own, the first with a leader to the groove 3 wide."""
    ink = side_view(part)
    path, leaders = ((-15.5, 17.0), (-8.0, 47.0), (-6.0, 47.0)), ()
    texts = [Text(words, (-5.0 + off * k, 45.75 - step * k), HIGH) for k, words in enumerate(lines)]
    if loose:
        ink.solid += [(*a, *b, 0.0) for a, b in pairwise(path)]
    else:
        leaders = (Dimension(DimensionKind.LEADER, path, 0.0, 0.0, lines[0]),)
    ink.solid += [(*row, 0.0) for row in strokes]
    return read_sheet(sheet_of(ink, texts=(*texts, *more), dimensions=leaders), ReadOptions(units="mm"))


def outcome(reading):
    groove = reading.part.grooves[0]
    return dict(groove.tolerances), [f.code for f in reading.findings if f.level != "note"]


IN_LINES = [
    ("Канавка 3 +0,1/0", "Ø34 0/-0,1"), ("O-RING GROOVE", "WIDTH 3 +0.1/0", "DIA 34 0/-0.1"),
    ("Einstich für O-Ring", "Breite 3 +0,1", "Durchmesser 34 -0,1"), ("GROOVE", "3 +0.1/0", "x Ø34 0/-0.1"),
    ("Gorge largeur 3 +0,1/0", "Ø34 0/-0,1 à fond de gorge"), ("Ranura ancho 3 +0,1", "Ø34 0/-0,1 fondo"),
    ("Ranura ancho 3 +0,1", "槽底 Ø34 0/-0.1"), ("Ranura ancho 3 +0,1", "溝底径 Ø34 0/-0.1"),
    ("Not bredde 3 +0,1", "bund Ø34 0/-0,1"), ("Ranura ancho 3 +0,1", "d=Ø34 0/-0,1"),
    ("Kanavka шириной 3 +0,1", "до Ø34-0,1"), ("GROOVE 3 +0.1/0 WIDE", "çap Ø34-0.1"),
    ("GROOVE 3 +0.1/0 WIDE", "pohja Ø34-0.1"),
]  # fmt: skip


@each_in_turn(loose=[False, True], lines=IN_LINES)
def test_lines_under_a_text_with_a_leader_are_of_its_callout(lines, loose):
    assert outcome(read(lines, loose)) == (BOTH, [])


@each_in_turn(loose=[False, True], lines=[*IN_LINES, ("3 +0.1/0 x Ø34", "pohja Ø34"), ("Hornyka 3", "Ø34")])
def test_a_false_diameter_in_one_is_a_stop(lines, loose):
    false = (*lines[:-1], lines[-1].replace("34", "33"))
    stops = [f for f in read(false, loose).findings if f.stops]
    assert stops
    assert all("33" in f.message and "34" in f.message for f in stops)


@pytest.mark.parametrize(
    "words",
    ["Ra 1.6", "HRC 58", "M5 x 10 DEEP", "1x45°", "DIN 471", "SHEET 2", "REV 2", "WEIGHT 0.4 KG", "4. NOTE",
     "Ø40 h7", "SEE NOTE 3", "PART NO 4711", "2768-m"],
)  # fmt: skip
def test_what_else_stands_under_one_changes_nothing(words):
    assert outcome(read(("GROOVE 3 +0.1/0 x Ø34 0/-0.1", words))) == (BOTH, [])


def test_a_general_tolerance_under_one_is_that_of_the_sheet():
    """ISO 2768-1 table 1, class m, from memory: 34 within 0.3."""
    given, codes = outcome(read(("GROOVE 3 +0.1/0 WIDE", "ISO 2768-m")))
    assert (given["width"], given["floor_diameter"], codes) == ((0.0, 0.1), (-0.3, 0.3), [])


def test_a_line_about_a_groove_of_its_own_is_another_callout():
    given, _ = outcome(read(("GROOVE 3 +0.1/0 x Ø34 0/-0.1", "GROOVE 5 +0.2/0 WIDE")))
    assert given == BOTH


def test_so_is_one_with_a_leader_of_its_own():
    """The second line is led to the groove 5 wide and 4 deep."""
    lines = ("GROOVE 3 +0.1/0 WIDE", "5 +0.2/0 x 4")
    own = [(-42.0, 16.0, -30.0, 42.4), (-30.0, 42.4, -6.0, 42.4)]
    grooves = read(lines, strokes=own).part.grooves
    assert [dict(g.tolerances) for g in grooves] == [{"width": (0.0, 0.1)}, {"width": (0.0, 0.2)}]


@pytest.mark.parametrize(
    ("place", "one"), [({"step": 5.4}, True), ({"step": 5.6}, False), ({"off": 1.2}, True), ({"off": 1.3}, False)]
)
def test_lines_of_a_callout_stand_close_at_one_edge(place, one):
    """2.2 letter heights, 5.5, below each other, with edges half a letter height, 1.25, apart at most."""
    given, _ = outcome(read(("GROOVE 3 +0.1/0", "Ø34 0/-0.1 AND ITS CORNERS SHARP"), **place))
    assert ("width" in given) == one


@pytest.mark.parametrize("y", [43.5])
def test_a_ruled_line_between_them_parts_a_table(y):
    cells = [(-7.0, y, 40.0, y)]
    given, _ = outcome(read(("GROOVE 3 +0.1/0", "Ø34 0/-0.1 AND ITS CORNERS SHARP"), strokes=cells))
    assert "width" not in given


@pytest.mark.parametrize(
    "words", ["Podcięcie 3+0,1 x Ø34-0,1", "Cava anello 3+0,1 x Ø34-0,1", "Ranhura 3 +0,1/0 x Ø34 0/-0,1"]
)
def test_words_that_nobody_knows_take_nothing_from_the_sizes_behind_them(words):
    given, codes = outcome(read((words,)))
    assert given == BOTH
    # They may say that the groove is not to be cut: a person reads them.
    assert codes in ([], ["note-unread"])


@pytest.mark.parametrize(
    ("words", "kept"),
    [
        ("Podcięcie 3+0,1 x Ø33-0,1", False), ("Podcięcie 4+0,1 x Ø34-0,1", False), ("BEARING 3+0,1 x Ø34-0,1", False),
        ("Nut entfällt 3+0,1 x Ø34-0,1", True), ("Only for a long word 3+0,1 x Ø34-0,1", False),
    ],
)  # fmt: skip
def test_false_ones_and_other_things_are_told(words, kept):
    given, codes = outcome(read((words,)))
    assert ("width" in given) == kept
    assert codes


@pytest.mark.parametrize(
    ("lines", "given", "codes"),
    [
        (("O-RING 34x3", "3 +0.1 WIDE", "Ø34 -0.1"), BOTH, []),
        (("O-RING 34x3", "3 WIDE", "Ø33"), {}, ["note-contradicts"]),
        (("DIN 471 - 40x2.5", "3 WIDE"), {}, ["note-contradicts"]),
        (("Ra 0.8", "Ø33"), {}, ["dimension-contradicts"]),
        (("CIRCLIP 40x2.5", "WIDTH 3 +0.1"), {"width": (0.0, 0.1)}, ["note-contradicts"]),
        (("Ø34 -0.1", "R0.8"), {"floor_diameter": (-0.1, 0.0)}, ["corner-not-drawn"]),
        (("3 +0.1 WIDE", "R0.8", "Ø34 -0.1"), BOTH, ["corner-not-drawn"]),
        (("Ø34 -0.1", "R0.2 MAX"), {"floor_diameter": (-0.1, 0.0), "corner_radius": (0.0, 0.2)}, []),
    ],
)
def test_a_ring_a_standard_a_finish_and_a_radius_in_a_callout_are_heard_by_themselves(lines, given, codes):
    """The groove is 3 wide and 34 across with sharp corners; DIN 471 gives a ring of 40 another one (from memory)."""
    assert outcome(read(lines, loose=True)) == (given, codes)


@pytest.mark.parametrize("loose", [False, True])
@pytest.mark.parametrize("place", [1, 2, 3])
def test_a_radius_is_heard_in_every_line_of_a_callout(place, loose):
    """Of three other lines, behind which it stands first to last; the corners are drawn sharp."""
    for radius, corner, told in (("R0.2 MAX", {"corner_radius": (0.0, 0.2)}, []), ("R0.8", {}, ["corner-not-drawn"])):
        lines = ["GROOVE", "3 +0.1", "Ø34 -0.1"]
        lines.insert(place, radius)
        assert outcome(read(lines, loose)) == ({**BOTH, **corner}, told)


@pytest.mark.parametrize("loose", [False, True])
def test_a_leader_says_which_of_two_like_floors_a_diameter_by_its_letter_is(loose):
    assert outcome(read(("D=Ø34 -0.1",), loose)) == ({"floor_diameter": (-0.1, 0.0)}, [])


@pytest.mark.parametrize("words", ["before plating", "nach Plating", "beschichtet", "Gehärtet"])
def test_sizes_that_may_be_those_of_another_state_are_not_given_to_both(words):
    for loose in (False, True):
        given, codes = outcome(read((f"{words} 3+0,1 x Ø34-0,1",), loose))
        assert "width" not in given
        assert "tolerance-unread" in codes


@pytest.mark.parametrize(("floor", "told"), [("34", "The sizes in the note "), ("33", "")])
def test_words_before_sizes_that_were_read_are_told_as_such(floor, told):
    """The other groove has the same floor, so that the diameter alone says nothing of either."""
    part = Turned(((60.0, 40.0),), (Cut(-14.0, 3.0, 34.0), Cut(-30.0, 4.0, 34.0)))
    reading = read((f"Ravnyka 3+0.1 x Ø{floor}-0.1",), loose=True, part=part)
    assert dict(reading.part.grooves[0].tolerances) == (BOTH if told else {})
    messages = [f.message for f in reading.findings if f.level != "note"]
    assert messages
    assert not told or all(message.startswith(told) for message in messages)
