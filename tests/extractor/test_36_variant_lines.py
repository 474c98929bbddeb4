"""How far texts of a table may stand off the line of their row or column, in letter heights: by hand, no source."""

import pytest

from extractor.sheet import Text
from extractor.viewing.variant_tables import _beside


@pytest.mark.parametrize(("way", "off", "beside"), [(0, 2.4, True), (0, 2.6, False), (1, 7.4, True), (1, 7.6, False)])
def test_a_figure_is_in_the_row_or_in_the_column_of_a_name(way, off, beside):
    """Letters are 2.5 high: one height off a row, three off a column."""
    cell = Text("-01", (0.0, 0.0), 2.5)
    at = (40.0, off) if way == 0 else (off, 40.0)
    assert _beside(Text("80", at, 2.5), cell, way) is beside
    assert not _beside(cell, cell, way)
