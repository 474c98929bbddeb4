"""Sizes of grooves that nothing prints on a sheet which says that it is drawn to no scale.

The shaft is 80 long and 40 across with three grooves 4 wide, 34 at the floor. That lines of such a sheet count for
nothing is common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

CUTS = (Cut(-15.0, 4.0, 34.0), Cut(-25.0, 4.0, 34.0), Cut(-40.0, 6.0, 34.0))
SHAFT = Turned(((80.0, 40.0),), CUTS)


def along(start, end, text=None):
    return Dimension(DimensionKind.LINEAR, ((start, 20.0), (end, 20.0), (end, 40.0)), 0.0, abs(end - start), text)


def across(z, size, text):
    return Dimension(DimensionKind.LINEAR, ((z, -size / 2), (z, size / 2), (z + 30.0, 0.0)), 90.0, size, text)


WHOLE = (along(0.0, -80.0), along(0.0, -15.0), across(-80.0, 40.0, "%%c40"))
WIDTHS = (along(-15.0, -19.0), along(-40.0, -46.0))
FLOORS = (across(-17.0, 34.0, "%%c34"),)
DEEP = (Dimension(DimensionKind.LINEAR, ((-17.0, 17.0), (-17.0, 20.0), (9.0, 18.0)), 90.0, 3.0, None),)


def told(*sizes, notes=("NOT TO SCALE",)):
    texts = tuple(Text(words, (-60.0, 60.0 + 9.0 * k), 2.5) for k, words in enumerate(notes))
    sheet = sheet_of(side_view(SHAFT), dimensions=(*WHOLE, *sizes), texts=texts)
    findings = read_sheet(sheet, ReadOptions(units="mm")).findings
    assert not [f for f in findings if f.stops]
    return [f.message for f in findings if f.code == "sheet-scale"]


@pytest.mark.parametrize(
    "words",
    ["NOT TO SCALE", "1. DRAWING IS NOT TO SCALE", "N.T.S.", "NICHT MASSSTÄBLICH", "Zeichnung nicht maßstäblich"],
)
def test_grooves_of_which_nothing_is_printed_are_named(words):
    (caution,) = told(notes=(words,))
    assert "the width of grooves 1, 2 and 3 or the floor of grooves 1, 2 and 3:" in caution


@pytest.mark.parametrize("floors", [FLOORS, DEEP], ids=["floor", "depth"])
def test_what_is_printed_of_one_is_that_of_its_like(floors):
    assert told(*WIDTHS, *floors) == []


@pytest.mark.parametrize(
    ("sizes", "named"),
    [
        ((*WIDTHS[:1], *FLOORS), "prints the width of groove 3:"),
        (WIDTHS, "prints the floor of grooves 1, 2 and 3:"),
        (FLOORS, "prints the width of grooves 1, 2 and 3:"),
    ],
)
def test_what_is_not_printed_is_named(sizes, named):
    (caution,) = told(*sizes)
    assert named in caution


@pytest.mark.parametrize("note", ["3 GROOVES 3 DEEP", "3x 4 WIDE"])
def test_a_note_with_a_size_of_grooves_may_be_about_all(note):
    assert told(notes=("NOT TO SCALE", note)) == []


@pytest.mark.parametrize(
    "words",
    [
        "DO NOT SCALE",
        "SCALE 1:1",
        "DETAIL A NOT TO SCALE",
        "DEBURR",
        "ISO VIEW NTS",
        "NTS-4711",
        "SYMBOLS NOT TO SCALE",
        "UNDERLINED DIMENSIONS ARE NOT TO SCALE",
    ],
)
def test_other_notes_say_nothing_of_the_kind(words):
    assert told(notes=(words,)) == []
