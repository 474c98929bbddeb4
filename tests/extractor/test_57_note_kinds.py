"""Notes that give two kinds of grooves in one text: each kind is held, and has its own tolerance.

The shaft has two grooves 4 wide and 3 deep and three of 3 by 2. Ways of writing: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

CUTS = [*((z, 4.0, 34.0) for z in (-10.0, -20.0)), *((z, 3.0, 36.0) for z in (-40.0, -50.0, -60.0))]
SHAFT = Turned(((90.0, 40.0),), tuple(Cut(*one) for one in CUTS))


def read(words, tip=None):
    texts = () if tip else (Text(words, (-60.0, -70.0), 2.5),)
    leaders = (Dimension(DimensionKind.LEADER, (tip, (20.0, 60.0)), 0.0, 0.0, words),) if tip else ()
    return read_sheet(sheet_of(side_view(SHAFT), texts=texts, dimensions=leaders), ReadOptions(units="mm"))


def told(words, tip=None):
    """Codes of what is said of it."""
    return [f.code.value for f in read(words, tip).findings if f.level != "note"]


@pytest.mark.parametrize(
    "words",
    [
        "2 GROOVES 4 WIDE, 3 GROOVES 3 WIDE", "GROOVES 4 x 3 (2x) AND 3 x 2 (3x)", "2 NUTEN 4x3 und 3 NUTEN 3x2",
        "2 Nuten 4 breit, 3 Nuten 3 breit", "2 gorges 4x3 et 3 gorges 3x2", "2 gole 4x3 e 3 gole 3x2",
        "2 ranuras 4x3 y 3 ranuras 3x2", "2 groeven 4x3 en 3 groeven 3x2", "2 GROOVES Ø34; 3 GROOVES Ø36",
        "2 GROOVES 4 WIDE, 3 DEEP",
    ],
)  # fmt: skip
def test_two_kinds_as_drawn_are_quiet(words):
    assert told(words) == told(words, (-12.0, 17.0)) == []


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("3 GROOVES 4 WIDE, 3 GROOVES 3 WIDE", "count-differs"),
        ("2 GROOVES 4 WIDE, 2 GROOVES 3 WIDE", "count-differs"),
        ("2 GROOVES 4 WIDE, 3 GROOVES 3.5 WIDE", "note-contradicts"),
        ("GROOVES 4 x 3 (2x) AND 3 x 2.5 (3x)", "note-contradicts"), ("2 Nuten 4x3 und 2 Nuten 3x2", "count-differs"),
        ("2 gole 4x3 e 3 gole 3x2,5", "note-contradicts"),
        ("2 GROOVES 4 WIDE; 3 GROOVES 3 WIDE; 1 GROOVE 2 WIDE", "note-contradicts"),
    ],
)  # fmt: skip
def test_one_of_them_that_is_not_so_stops(words, code):
    assert told(words) == told(words, (-12.0, 17.0)) == [code]


def test_each_kind_has_its_own_tolerance():
    grooves = read("2 GROOVES 4 +0.1 WIDE, 3 GROOVES 3 +0.2 WIDE").part.grooves
    assert [g.tolerances.get("width") for g in grooves] == [(0.0, 0.1)] * 2 + [(0.0, 0.2)] * 3


@pytest.mark.parametrize("words", ["WIDE GROOVES Ø34, NARROW GROOVES Ø36", "BREITE NUTEN Ø36, SCHMALE NUTEN Ø34"])
def test_wide_grooves_and_narrow_ones_are_asked_about(words):
    assert told(words) == ["note-unread"]


@pytest.mark.parametrize("words", ["NARROW GROOVES 3 WIDE", "WIDE GROOVES 4 x 3"])
def test_one_kind_alone_is_held(words):
    assert told(words) == []
    assert told(words.replace("3 W", "2 W").replace("4 x", "5 x")) == ["note-contradicts"]
