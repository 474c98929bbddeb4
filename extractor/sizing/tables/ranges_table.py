"""A table of general tolerances: ranges of sizes that follow on one another, a deviation in the cell behind each.

Rules: a range stands in one cell or two, before its deviation in the row or over it in the column. The next one begins
where the last ends, and its deviation is no smaller (ISO 2768-1 has such tables, from memory): no two sizes that are
printed with tolerances of their own do so.
"""

import re
from collections.abc import Sequence

from extractor.grammar import normalised
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.note_figures import NUMBERS
from extractor.values import dataclass

DEVIATION = re.compile(r"±\s*(\d*\.?\d+)")
OFF = 0.9
"""Letter heights by which a cell may stand off its row, or its column."""
GAP = 15.0
"""Letter heights between the beginnings of two cells of one row at most; a column has its cells nearer."""


@dataclass(frozen=True)
class RangeRow:
    """A range with its deviation, and the texts that give them."""

    low: float
    high: float
    deviation: float
    texts: tuple[Text, ...]


def range_rows(sheet: Sheet) -> list[RangeRow]:
    """The rows of a table of general tolerances, none where there is none."""
    lines = [(t, normalised(t.text)) for t in sheet.texts if t.height > 0]
    alone = [(t, float(own[1])) for t, line in lines if (own := DEVIATION.fullmatch(line))]
    figured = [(t, line) for t, line in lines if NUMBERS.search(line) and not DEVIATION.search(line)]
    for across in (1, 0) if len(alone) > 1 else ():
        found = [_row(text, deviation, figured, across) for text, deviation in alone]
        rows = sorted((row for row in found if row), key=lambda row: row.low)
        runs: list[list[RangeRow]] = []
        for row in rows:
            last = runs[-1][-1] if runs else None
            if last and last.high == row.low and last.deviation <= row.deviation:
                runs[-1].append(row)
            else:
                runs.append([row])
        if best := [row for run in runs if len(run) > 1 for row in run]:
            return best
    return []


def _row(text: Text, deviation: float, figured: Sequence[tuple[Text, str]], across: int) -> RangeRow | None:
    """The range in the cells before a deviation in its row, across 1, or over it in its column, across 0."""
    way = 1 if across else -1
    level = [
        (way * (text.at[1 - across] - t.at[1 - across]), t, line)
        for t, line in figured
        if abs(t.at[across] - text.at[across]) <= OFF * text.height
    ]
    cells, figures, last = [text], list[float](), 0.0
    for off, cell, line in sorted((one for one in level if one[0] > 0), key=lambda one: one[0]):
        if off - last > GAP * text.height or len(figures) > 1:
            break
        last, figures = off, [*map(float, NUMBERS.findall(line)), *figures]
        cells.append(cell)
    if len(figures) != 2:
        return None
    return RangeRow(figures[0], figures[1], deviation, tuple(cells))
