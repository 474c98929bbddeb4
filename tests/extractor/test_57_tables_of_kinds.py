"""Tables that give how many grooves there are of each kind, and tables with more rows than there are grooves.

How such tables are headed is common practice, no source. The ring has three grooves 4 wide, 34 across at their floors,
and one 2.5 wide and 37 across.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

RING = Turned(((70.0, 40.0),), (*(Cut(z, 4.0, 34.0) for z in (-20.0, -32.0, -44.0)), Cut(-8.0, 2.5, 37.0)))


def told(head, *rows):
    """What is told of the ring with a table beside it: code, and how the sentence begins."""
    texts = tuple(
        Text(cell, (100.0 + 28.0 * c, 60.0 - 6.0 * k), 2.5)
        for k, row in enumerate((head, *rows))
        for c, cell in enumerate(row)
    )
    reading = read_sheet(sheet_of(side_view(RING), texts=texts), ReadOptions(units="mm"))
    assert len(reading.part.grooves) == len(RING.cuts)
    return [f"{f.code.value}: {f.message}" for f in reading.findings], reading.part.grooves


KINDS = [
    (("QTY", "WIDTH", "DEPTH"), ("3", "4", "3"), ("1", "2.5", "1.5")),
    (("WIDTH", "DEPTH", "NO. OFF"), ("4", "3", "3"), ("2.5", "1.5", "1")),
    (("Anzahl", "Breite", "Grund-Ø"), ("3x", "4", "34"), ("1x", "2,5", "37")),
    (("NB", "LARGEUR", "PROFONDEUR"), ("3", "4", "3"), ("1", "2.5", "1.5")),
    (("GROOVES", "QTY", "W x D"), ("A", "3", "4 x 3"), ("B", "1", "2.5 x 1.5")),
    (("NUT", "STK", "B x T"), ("1", "3", "4 x 3"), ("2", "1", "2,5 x 1,5")),
    (("QTY", "GROOVE SIZE"), ("3", "4 x Ø34"), ("1", "2.5 x Ø37")),
    (("NO", "QTY", "WIDTH", "DIA"), ("1", "3", "4", "34"), ("2", "1", "2.5", "37")),
]


@pytest.mark.parametrize("rows", KINDS, ids=lambda rows: " ".join(rows[0]))
def test_a_count_and_sizes_of_each_kind_are_held(rows):
    head, first, second = rows
    assert told(*rows)[0] == []
    many = next(k for k, cell in enumerate(first) if cell.startswith("3"))
    many = head.index("QTY") if "QTY" in head else many if head[0] != "WIDTH" else 2
    more = tuple(cell.replace("3", "4") if k == many else cell for k, cell in enumerate(first))
    (found,) = told(head, more, second)[0]
    assert found.startswith("count-differs:")
    assert "counts 4 where 3 such grooves were read" in found
    odd = tuple(cell.replace("2.5", "2.8").replace("2,5", "2,8") for cell in second)
    assert any("table of grooves" in one for one in told(head, first, odd)[0])


def test_the_tolerance_of_a_kind_is_that_of_all_its_grooves():
    found, grooves = told(("QTY", "WIDTH", "DEPTH"), ("3", "4 +0.1/0", "3"), ("1", "2.5", "1.5"))
    assert found == []
    assert [g.tolerances.get("width") for g in grooves] == [None, *[pytest.approx((0.0, 0.1))] * 3]
    _, grooves = told(("GROOVE", "WIDTH", "DEPTH"), ("A", "4 +0.1/0", "3"), ("B", "2.5", "1.5"))
    assert [g.tolerances.get("width") for g in grooves] == [None, *[pytest.approx((0.0, 0.1))] * 3]


COLUMNS = (("GROOVE", "1", "2", "3", "4"), ("WIDTH", "2.5", "4", "4", "4"), ("DEPTH", "1.5", "3", "3", "3"))


@pytest.mark.parametrize(("wide", "deep", "number"), [("4", "3", 4), ("2.5", "1.5", 2)])
@pytest.mark.parametrize("upright", [True, False])
def test_more_rows_than_grooves_of_their_sizes_are_told(wide, deep, number, upright):
    def table(*rows):
        return told(*(zip(*rows, strict=True) if upright else rows))[0]

    assert table(*COLUMNS) == []
    (found,) = table(*((*row, more) for row, more in zip(COLUMNS, ("5", wide, deep), strict=True)))
    assert found.startswith(f"count-differs: {number} rows of the table of grooves")


@pytest.mark.parametrize(
    "rows",
    [
        (("ITEM", "QTY", "SIZE"), ("1", "4", "34 x 3"), ("2", "1", "M8 x 20")),
        (("QTY", "LENGTH", "DIA"), ("2", "75", "45"), ("1", "80", "45")),
        (("QTY", "L", "D"), ("2", "75", "45"), ("1", "80", "45")),
        (("ITEM", "QTY", "DESCRIPTION"), ("1", "4", "O-RING 34 x 3"), ("2", "1", "PLUG")),
        (("REV", "NO. OFF", "DATE"), ("A", "5", "12.3.26"), ("B", "5", "14.3.26")),
    ],
    ids=lambda rows: " ".join(rows[0]),
)
def test_counts_of_other_things_say_nothing(rows):
    assert told(*rows)[0] == []


@pytest.mark.parametrize(
    ("rows", "code"),
    [
        ((("O-RING", "GROOVE"), ("36x3.5", "4 x 3")), ""),
        ((("O-RING", "GROOVE"), ("36x3.5", "4.8 x 2.7")), "note-contradicts"),
        ((("RING", "Nut"), ("B", "2,5 x 1,5"), ("A", "4,5 x 3")), "note-unread"),
        ((("GORGE", "JOINT"), ("4 x 3", "36 x 3.5")), ""),
        ((("HOLE", "SLOT NO"), ("4.8 x 2.7", "1")), ""),
        ((("DIM", "TOL", "MEASURED"), ("GROOVE 4.5", "+0.1", "-"), ("DIA 40", "h9", "-")), "note-unread"),
        ((("DIM", "TOL", "MEASURED"), ("GROOVE 4", "+0.1", "-"), ("DIA 40", "h9", "-")), ""),
        ((("PLACE", "TOL", "MEASURED"), ("GROOVE 20", "+0.1", "-"), ("GROOVE 3", "h9", "-")), ""),
    ],
    ids=lambda one: one if isinstance(one, str) else " ".join(one[1]),
)
def test_a_cell_that_names_a_groove_is_held_or_told(rows, code):
    found = told(*rows)[0]
    assert [one.partition(":")[0] for one in found] == [code] * bool(code)
