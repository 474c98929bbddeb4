"""Where level texts stand: what tells of a note whether it is a title, or a cell of a table."""

from collections.abc import Sequence
from functools import cache

import numpy as np
import shapely

from extractor.late import late
from extractor.sheet import Floats, Text
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.sentences.broken_lines import BESIDE, LEVEL

TITLE = late(r"\W*[^\W\d_]+(?:\W+[^\W\d_]+)?\W*")
"""A title: two words at most, and no figure."""
APART = 3.0
"""Letter heights from a title to the line about the sheet above or below it, at most."""
CELLS = 3
"""Texts in a row, no farther from one another than cells are, that make a table."""


class TextPlaces:
    """The places of some texts, looked up by those of a note."""

    def __init__(self, texts: Sequence[Text], about: Sequence[bool]) -> None:
        """Take the texts of a sheet, and which of them are about the sheet."""
        spans = np.array([(*t.at, *t.end) for t in texts]).reshape(-1, 4)
        self._spans: Floats = spans[spans[:, 1].argsort(kind="stable")]
        self._about = shapely.STRtree(shapely.points(spans[np.array(about, dtype=bool), :2]))
        self._tables = cache(self._rows)

    def title(self, note: PointedNote) -> bool:
        """True for a short one with a line about the sheet right above or below it, at one left edge."""
        if TITLE.fullmatch(note.words) is None:
            return False
        (x, y), height = note.at, note.height
        here = shapely.box(x - height, y - APART * height, x + height, y + APART * height)
        return bool(len(self._about.query(here, predicate="intersects")))

    def cell(self, note: PointedNote) -> bool:
        """True for one that stands in a row of several."""
        x, y = note.at
        rows = y - LEVEL * note.height, y + LEVEL * note.height
        low, high = (np.searchsorted(self._spans[:, 1], rows[k], ("left", "right")[k]) for k in (0, 1))
        firsts, lasts = self._tables(int(low), int(high), note.height)
        k = int(np.searchsorted(firsts, x, "right")) - 1
        return k >= 0 and bool(x <= lasts[k])

    def _rows(self, low: int, high: int, height: float) -> tuple[Floats, Floats]:
        """Where the rows of several texts at one level begin and where the last of each begins."""
        row = self._spans[low:high]
        row = row[row[:, 0].argsort(kind="stable")]
        breaks = np.flatnonzero(row[1:, 0] - row[:-1, 2] > BESIDE * height) + 1
        runs = [run for run in np.split(row[:, 0], breaks) if len(run) >= CELLS]
        return np.array([run[0] for run in runs]), np.array([run[-1] for run in runs])
