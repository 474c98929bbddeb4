"""Tables in line with the turning axis of a shaft 60 long and 40 across, just inside and outside of each mark."""

import pytest
from support.draw import Ink, mixed, shaft, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text


def stops(columns, rows, lettered, lean=0.0):
    """What stops a sheet with so many columns and rows on the axis, so many of their cells lettered from the top."""
    ink, texts = side_view(shaft()), []
    ink.centre.append((0.0, 0.0, 12.0 + 15 * columns, 0.0, 0.0))
    right, top = 10.0 + 15 * columns, 3.0 * rows
    table = Ink(solid=[(10.0, top - 6 * k, right, top - 6 * k, 0.0) for k in range(rows + 1)])
    for k in range(columns + 1):
        slant = lean if 0 < k < columns else 0.0
        table.solid.append((10.0 + 15 * k - slant, -top, 10.0 + 15 * k + slant, top, 0.0))
    for k in range(lettered):
        texts.append(Text("Pos", (12.0 + 15 * (k % columns), top - 6 * (k // columns) - 4.5), 2.5))
    reading = read_sheet(sheet_of(mixed(ink, table), texts=tuple(texts)), ReadOptions(units="mm"))
    assert reading.part is None or len(reading.part.grooves) == 3
    return [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    ("columns", "rows", "lettered", "table"),
    [
        (2, 2, 4, True),
        (2, 2, 0, False),
        (2, 2, 3, False),
        (1, 3, 3, False),
        (1, 4, 4, True),
        (2, 4, 4, True),
        (3, 3, 4, False),
    ],
)
def test_a_table_has_four_cells_with_texts_and_texts_in_half_of_them(columns, rows, lettered, table):
    assert stops(columns, rows, lettered) == ([] if table else ["several-parts"])


@pytest.mark.parametrize(("lean", "table"), [(0.25, True), (0.35, False)])
def test_its_cells_are_upright(lean, table):
    """A line that leans by 0.3 over a row takes 0.15 off a cell, of whose box of 15.3 by 6 it is a hundredth."""
    assert stops(2, 2, 4, lean) == ([] if table else ["several-parts"])
