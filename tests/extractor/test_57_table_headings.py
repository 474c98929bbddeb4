"""Headings of tables of grooves in more languages, and lists that give sizes or points by name without such headings.

How such tables are headed is common practice, no source. The ring has grooves 3 and 4 wide, 10 and 25 from its face,
34 across at their floors.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
TRUE = ("1", "3", "34", "10"), ("2", "4", "34", "25")
WRONG = ("1", "3", "34", "11"), TRUE[1]


def told(*rows):
    """The codes of what is told of the ring with such a table beside it."""
    texts = tuple(
        Text(cell, (50.0 + 26.0 * c, 60.0 - 6.0 * k), 2.5) for k, row in enumerate(rows) for c, cell in enumerate(row)
    )
    reading = read_sheet(sheet_of(side_view(RING), texts=texts), ReadOptions(units="mm"))
    return [f.code.value for f in reading.findings]


HEADS = [
    ("POS", "BREITE", "Ø GRUND", "MASS VON STIRN"),
    ("Nut", "Breite", "Grund", "Abstand von der Stirnfläche"),
    ("N°", "LARG.", "Ø FOND", "COTE"),
    ("GOLA", "LARGHEZZA", "FONDO", "POSIZIONE"),
    ("RANHURA", "LARGURA", "FUNDO", "POSIÇÃO"),
    ("KANAL", "GENİŞLİK", "DİP ÇAPI", "MESAFE"),
    ("溝", "幅", "底径", "位置"),
    ("槽", "宽", "底径", "距离"),
    ("ITEM", "GROOVE W", "GROOVE D", "DIST"),
    ("КАНАВКА", "ШИРИНА", "ДНО", "РАССТОЯНИЕ"),
    ("Ura", "Leveys", "Pohja", "Etäisyys"),
    ("Horony", "Szélesség", "Ø", "Távolság"),
]


@pytest.mark.parametrize("head", HEADS, ids=lambda head: head[1])
def test_headings_in_other_languages_are_known(head):
    """Of two rows without labels at the grooves one that fits none leaves the table open."""
    assert told(head, *TRUE) == []
    assert told(head, *WRONG) == ["groove-table"]


def test_a_groove_s_letter_d_heads_diameters_or_depths():
    assert told(("NO", "GROOVE W", "GROOVE D"), ("1", "3", "3"), ("2", "4", "3")) == []
    assert told(("NO", "GROOVE W", "GROOVE D", "MASS"), ("1", "3", "3", "10"), ("2", "4", "3", "25")) == [
        "groove-table"
    ]


@pytest.mark.parametrize(
    ("cells", "codes"),
    [
        ((("P1", "40", "-10"), ("P2", "34", "-10"), ("P3", "34", "-13")), []),
        ((("P1", "40", "-10"), ("P2", "33", "-10"), ("P3", "34", "-13")), ["groove-table"]),
        ((("P1", "40", "-10"), ("P2", "34", "-10"), ("P3", "34", "-14")), ["groove-table"]),
    ],
)
def test_points_by_their_coordinates_are_all_on_the_part_or_told(cells, codes):
    assert told(("COORD", "X", "Z"), *cells) == codes


@pytest.mark.parametrize(("size", "codes"), [("4", []), ("4.5", ["note-contradicts"])])
def test_the_name_of_a_row_that_is_held_is_no_open_text(size, codes):
    assert told(("INSPECTION", "NOMINAL"), ("LENGTH", "60"), ("OD", "40"), ("GROOVE WIDTH", size)) == codes
