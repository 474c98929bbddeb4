"""Cells of a title block that say how large the part is, what it is made from, how many grooves it has, or its state.

The part is 90 long, 42 across and has three grooves. How title blocks are lettered: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

SHAFT = Turned(((90.0, 42.0),), tuple(Cut(z, 4.0, 36.0) for z in (-30.0, -43.0, -56.0)))


def told(*texts, around=()):
    """The codes of what is told of the shaft with such texts, and the names of its materials."""
    sheet = sheet_of(side_view(SHAFT), texts=texts, around=tuple(around))
    reading = read_sheet(sheet, ReadOptions(units="mm"))
    return [f.code.value for f in reading.findings], [note.text for note in reading.part.materials]


def block(*rows, step=36.0, high=2.5):
    """A title block with rows of cells."""
    return [
        Text(cell, (150.0 + step * c, -60.0 - 6.5 * k), high)
        for k, row in enumerate((("TITLE", "SHAFT"), ("MATERIAL", "C45"), *rows))
        for c, cell in enumerate(row)
    ]


CELLS = [
    ("LENGTH", "90", "99", "overall-differs"),
    ("Länge:", "90 mm", "85 mm", "overall-differs"),
    ("LONGUEUR TOTALE", "90", "120", "overall-differs"),
    ("LUNGHEZZA", "90", "99", "overall-differs"),
    ("OD", "42", "45", "note-contradicts"),
    ("OUTSIDE DIA.", "Ø42", "Ø40", "note-contradicts"),
    ("Außendurchmesser", "42", "45", "note-contradicts"),
    ("DIAMETER", "36", "45", "note-unread"),
    ("STOCK", "Ø45 BAR", "Ø38 BAR", "dimension-unclear"),
    ("BLANK SIZE", "Ø45 x 95", "Ø45 x 85", "dimension-unclear"),
    ("Rohteil", "Rd 45 x 95", "Rd 40 x 95", "dimension-unclear"),
    ("SIZE", "42 x 90", "45 x 90", "overall-differs"),
    ("Abmessungen", "Ø42 x 90", "Ø42 x 95", "overall-differs"),
    ("SIZE", "45 x 95", "40 x 95", "overall-differs"),
    ("NO. OF GROOVES", "3", "4", "count-differs"),
    ("Anzahl Nuten", "3", "2", "count-differs"),
    ("NOMBRE DE GORGES", "3", "5", "count-differs"),
    ("GROOVES", "3", "4", "count-differs"),
    ("STATE", "FINISHED", "ROUGH TURNED", "note-unread"),
    ("Zustand", "fertig", "vorgedreht", "note-unread"),
]


@pytest.mark.parametrize(("label", "true", "false", "code"), CELLS)
def test_a_cell_is_held_as_the_note_that_it_and_its_label_are(label, true, false, code):
    assert told(*block((label, true)))[0] == []
    assert told(*block((label, false)))[0] == [code]
    assert told(around=block((label, false)))[0] == [code]


@pytest.mark.parametrize(("high", "down", "there"), [(2.9, 6.0, True), (2.5, 6.0, False), (2.9, 14.0, False)])
def test_a_value_stands_under_its_label_in_larger_letters(high, down, there):
    cells = Text("LENGTH", (150.0, -80.0), 2.5), Text("99", (152.0, -80.0 - down), high)
    assert told(*cells)[0] == ["overall-differs"] * there


@pytest.mark.parametrize(("step", "there"), [(70.0, True), (72.0, False)])
def test_a_value_is_near_its_label(step, there):
    """The label of six letters is 10.5 long (`LETTER`), and a cell stands within 24 heights of it."""
    assert told(*block(("LENGTH", "99"), step=step))[0] == ["overall-differs"] * there


@pytest.mark.parametrize(
    "rows",
    [
        [("RAW MATERIAL", "BAR"), ("DIAMETER", "45"), ("LENGTH", "95")],
        [("3", "LENGTH", "80")],
        [("LENGTH", "80", "79.95")],
        [("QTY", "MATERIAL", "LENGTH"), ("1", "C45", "95")],
        [("LENGTH", "SEE NOTE 4")],
        [("SIZE", "A3")],
        [("SIZE", "210 x 297")],
        [("STOCK", "25 PCS")],
        [("GROOVE", "2")],
        [("STATE", "RELEASED")],
        [("STOCK", "IN HOUSE")],
    ],
    ids=lambda rows: " ".join(rows[-1]),
)
def test_cells_of_other_things_say_nothing(rows):
    assert told(*block(*rows))[0] == []


def tagged(tag, words, k=0):
    return Text(words, (150.0, -90.0 - 6.0 * k), 2.5, tag=tag)


@pytest.mark.parametrize(
    ("tag", "words", "code"),
    [
        ("LENGTH", "99", "overall-differs"),
        ("OVERALL_LENGTH", "99", "overall-differs"),
        ("STOCK", "Ø38", "dimension-unclear"),
        ("NO_OF_GROOVES", "4", "count-differs"),
        ("SHEET", "99", ""),
        ("SIZE", "A2", ""),
        ("LENGTH", "", ""),
    ],
)
def test_a_value_is_labelled_by_the_name_that_its_block_asks_for_it_by(tag, words, code):
    assert told(tagged(tag, words))[0] == [code] * bool(code)


@pytest.mark.parametrize(
    ("second", "names"),
    [
        (("MAT2", "C45"), ["EN-GJL-250", "C45"]),
        (("MATERIAL2", "EN 10277"), ["EN-GJL-250"]),
        (("MATCH", "C45"), ["EN-GJL-250"]),
    ],
)
def test_a_material_is_known_by_its_name_in_a_block(second, names):
    assert told(tagged("MATERIAL", "EN-GJL-250"), tagged(*second, k=1))[1] == names
