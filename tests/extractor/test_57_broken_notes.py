"""Sentences that stand on lines of their own: held whole, where they are one sentence, and else line by line.

The bar is 60 long and 40 across with one groove 3 wide and 3 deep, 10 from its front.
"""

from dataclasses import replace

import numpy as np
import pytest
from support.draw import Cut, Turned, full_outline, sheet_of
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Segments, Text
from extractor.sizing.lettering.sheet_words import folded
from extractor.sizing.sentences.broken_lines import GOING_ON, HANGING, broken_notes

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
TALL = 4.0


def under(*lines, step=6.0, off=0.0, angle=0.0, height=TALL, centred=False):
    """Texts under each other, `step` apart, each `off` to the right of the one before it."""
    first = Text("", (-60.0, -50.0), TALL, angle=angle)
    widths = [0.35 * TALL * len(words) if centred else 0.0 for words in lines]
    return tuple(
        Text(words, first.place(k * off - wide, -k * step), height if k else TALL, angle=angle)
        for k, (words, wide) in enumerate(zip(lines, widths, strict=True))
    )


def sheet(*texts, ruled=()):
    """The bar with texts, and with lines ruled between them."""
    drawn = sheet_of(full_outline(PART), texts=texts)
    if not ruled:
        return drawn
    old = drawn.segments
    ends = np.vstack([old.ends, ruled])
    more = np.zeros(len(ruled))
    source = np.concatenate([old.source, more.astype(np.int64)])
    return replace(drawn, segments=Segments(ends, np.concatenate([old.bulge, more]), source, old.sources))


def read(*lines, **more):
    """What is said of lines under each other, by code and level."""
    told = read_sheet(sheet(*under(*lines, **more)), ReadOptions(units="mm")).findings
    return {(f.code.value, f.level.value) for f in told if not f.code.value.startswith("front")}


WRONG, UNREAD = ("note-contradicts", "stop"), ("note-unread", "caution")


@each_in_turn(
    ("lines", "told"),
    [
        (("ALLE EINSTICHE", "4 BREIT"), WRONG),
        (("GROOVES ARE TO BE MADE", "4 MM WIDE"), WRONG),
        (("ALL GROOVES", "4 WIDE x 2 DEEP"), WRONG),
        (("TOUTES LES GORGES", "LARGEUR 4 PROFONDEUR 3"), WRONG),
        (("TUTTE LE", "GOLE LARGHEZZA 4"), WRONG),
        (("TODAS LAS RANURAS SON DE", "ANCHO 4"), WRONG),
        (("4 WIDE", "GROOVES"), WRONG),
        (("MASSE NACH DEM", "VERCHROMEN"), UNREAD),
        (("DIMENSIONS APPLY", "AFTER PLATING"), UNREAD),
        (("ALL SIZES ARE", "AFTER", "PLATING"), UNREAD),
        (("COTES APRÈS", "CHROMAGE"), UNREAD),
        (("QUOTE DOPO", "CROMATURA"), UNREAD),
        (("ALL GROOVES", "R0.8 IN CORNERS"), ("corner-not-drawn", "caution")),
        (("THE GROOVE IS", "NOT REQUIRED"), UNREAD),
    ],
    angle=[0.0, 90.0],
)
def test_a_sentence_over_lines_is_heard_whole(lines, told, angle):
    assert read(*lines, angle=angle) == {told}


@pytest.mark.parametrize(
    "lines",
    [
        ("ALLE EINSTICHE", "3 BREIT"),
        ("GROOVES ARE TO BE MADE", "3 MM WIDE"),
        ("TOUTES LES GORGES", "LARGEUR 3"),
        ("TUTTE LE", "GOLE LARGHEZZA 3"),
        ("TODAS LAS RANURAS", "ANCHO 3"),
        ("TEILE VOR DEM", "VERCHROMEN PRÜFEN."),
        ("DEBURR GROOVES", "4 HOLES DIA 5"),
        ("DEBURR GROOVES", "2 OFF"),
        ("CLEAN GROOVES", "4 LETTERS HIGH"),
        ("GROOVES GROUND.", "4 WIDE KEYWAY"),
        ("DO NOT MACHINE BORE", "GROOVE 3 WIDE"),
        ("NO SHARP EDGES", "GROOVES"),
        ("1. DEBURR ALL GROOVES", "2. 4 HOLES"),
        ("GROOVES", "H 4"),
        ("TYPE", "A4"),
    ],
)
def test_what_is_right_or_no_sentence_says_nothing(lines):
    assert not read(*lines)


@pytest.mark.parametrize(
    ("more", "one"),
    [
        ({}, True),
        ({"centred": True}, True),
        ({"step": 8.7}, True),
        ({"step": 8.9}, False),
        ({"off": 1.9}, True),
        ({"off": 2.1}, False),
        ({"height": 3.9}, False),
    ],
)
def test_its_lines_stand_under_each_other(more, one):
    """From line to line 2.2 letter heights at most, from edge to edge half of one."""
    assert bool(broken_notes(sheet(*under("ALL GROOVES ARE", "4 WIDE", **more)))) is one


@pytest.mark.parametrize(("off", "one"), [(15.9, True), (16.1, False)])
def test_behind_a_number_the_lines_may_be_indented(off, one):
    lines = under("1. ALL GROOVES ARE TO BE", "4 WIDE", off=off)
    assert bool(broken_notes(sheet(*lines))) is one


@pytest.mark.parametrize(("last", "lines"), [(12.3, 3), (12.5, 2)])
def test_its_lines_stand_evenly(last, lines):
    first, second, third = under("THE GROOVES ARE TO BE", "4 WIDE AND", "3 DEEP")
    (found,) = broken_notes(sheet(first, second, replace(third, at=first.place(0.0, -last))))
    assert len(found.text.split("\n")) == lines


def test_cells_are_no_lines_of_a_sentence():
    lines = under("THE GROOVES ARE", "4 WIDE")
    between = [(-70.0, -52.0, 0.0, -52.0)]
    assert broken_notes(sheet(*lines))
    assert not broken_notes(sheet(*lines, ruled=between))
    assert broken_notes(sheet(*lines, ruled=[(-70.0, -58.0, 0.0, -58.0)]))


@pytest.mark.parametrize(("up", "one"), [(0.49, False), (0.51, True), (-0.49, False), (-0.51, True)])
def test_what_stands_in_line_may_be_half_a_letter_higher_or_lower(up, one):
    lines = under("ALL GROOVES ARE", "4 WIDE")
    cell = Text("12.5", lines[0].place(lines[0].end[0] - lines[0].at[0] + 5 * TALL, up * TALL), TALL)
    assert bool(broken_notes(sheet(*lines, cell))) is one


@pytest.mark.parametrize(("gap", "one"), [(11.9, False), (12.1, True)])
@pytest.mark.parametrize("row", [0, 1])
@pytest.mark.parametrize("before", [True, False])
def test_rows_of_tables_are_none(gap, one, row, before):
    lines = under("THE GROOVES ARE", "4 WIDE")
    cell = Text("12.5", (0.0, 0.0), TALL)
    off = -gap * TALL - cell.end[0] if before else lines[row].end[0] - lines[row].at[0] + gap * TALL
    cell = replace(cell, at=lines[row].place(off, 0.0))
    assert bool(broken_notes(sheet(*lines, cell))) is one


def test_a_sentence_has_four_lines_at_most():
    (found,) = broken_notes(sheet(*under("THE", "GROOVES OF THE", "PART ARE TO", "BE FREE OF", "BURRS")))
    assert found.text.count("\n") == 3


def test_a_number_begins_a_note_of_its_own():
    texts = under("1. GROOVES TO BE MADE BY", "2. 4 WIDE")
    assert not broken_notes(sheet(*texts))


def test_a_paragraph_is_heard_over_its_lines_too():
    text = Text("DEBURR\nMASSE NACH DEM\nVERCHROMEN\nISO 2768", (-60.0, -50.0), TALL)
    told = read_sheet(sheet(text), ReadOptions(units="mm")).findings
    assert any(f.code == "note-unread" and '"MASSE NACH DEM VERCHROMEN"' in f.message for f in told)


def test_what_a_line_says_itself_is_told_once():
    told = read_sheet(sheet(*under("DIMENSIONS AFTER PLATING", "AND GRINDING")), ReadOptions(units="mm")).findings
    assert [f.code.value for f in told].count("note-unread") == 1


@pytest.mark.parametrize("line", ["nach dem", "to be", "après", "le quote sono", "las ranuras son de", "voor het"])
def test_words_that_end_no_sentence(line):
    assert HANGING.fullmatch(folded(line))


@pytest.mark.parametrize("line", ["DWG NO", "GROOVE A", "3 BREIT", "DEBURR", "ALL DIMENSIONS IN MM"])
def test_words_that_end_one(line):
    assert not HANGING.fullmatch(folded(line))


@pytest.mark.parametrize(
    ("line", "one"),
    [
        ("nach dem Verchromen", True),
        ("nach dem Verchromen schleifen", False),
        ("sind 4 breit", True),
        ("SECTION", False),
    ],
)
def test_words_that_begin_none(line, one):
    assert bool(GOING_ON.fullmatch(folded(line))) is one


def tolerances(*lines, **more):
    """The tolerances of the groove by the lines under each other, and the codes of what is told."""
    reading = read_sheet(sheet(*under(*lines, **more)), ReadOptions(units="mm"))
    told = [f.code.value for f in reading.findings if f.level.value != "note"]
    return dict(reading.part.grooves[0].tolerances), told


@pytest.mark.parametrize("heading", ["O-RING GROOVE", "GROOVE", "EINSTICH", "SEAL GROOVE"])
def test_sizes_under_the_name_of_a_groove_are_its_callout(heading):
    held = {"width": pytest.approx((0.0, 0.1)), "floor_diameter": pytest.approx((-0.1, 0.0))}
    assert tolerances(heading, "3 +0.1/0", "Ø34 0/-0.1") == (held, [])


@pytest.mark.parametrize(
    "lines",
    [
        pytest.param(("HOUSING", "3 +0.1/0"), id="another thing"),
        pytest.param(("SHAFT GROOVE", "3 +0.1/0"), id="a groove and another thing"),
        pytest.param(("GROOVE 2", "3 +0.1/0"), id="a name with a figure"),
        pytest.param(("GROOVE.", "3 +0.1/0"), id="the sentence ends"),
        pytest.param(("Ø34 +0.1", "Ø33.9"), id="figures without words"),
    ],
)
def test_sizes_under_other_lines_are_lines_of_their_own(lines):
    assert broken_notes(sheet(*under(*lines))) == ()


@pytest.mark.parametrize("paragraph", [True, False], ids=["paragraph", "lines"])
@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("1 GROOVE {}", "WIDE 3 DEEP"),
        ("1 GROOVE 3 DEEP {}", "WIDE"),
        ("GROOVE {}", "WIDE x 3 DEEP"),
        ("1 NUT {} MM", "BREIT"),
        ("GORGE {}", "LARGE"),
    ],
)
def test_a_break_between_a_figure_and_the_word_for_its_side_parts_no_note(first, second, paragraph):
    for width, told in (("3", set()), ("3.5", {WRONG})):
        lines = first.format(width), second
        assert (read("\n".join(lines)) if paragraph else read(*lines)) == told


@pytest.mark.parametrize("second", ["WIDTH 3", "DEPTH 3", "BREITE 3"])
def test_a_side_with_a_figure_of_its_own_begins_a_line(second):
    assert len(broken_notes(sheet(*under("GROOVE 1", second)))) == 0
