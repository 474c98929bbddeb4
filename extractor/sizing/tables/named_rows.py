"""Rows of lists that name a size of a groove and give it in the next cell, as lists for inspection do.

Rules: the name says nothing else, the next cell to its right is one figure, and a tolerance may have a cell of its own
behind it. The row is then the note that it would be on one line, `GROOVE WIDTH 4 +0.1` (common practice, no source).
"""

import re
from collections.abc import Iterator, Sequence, Set
from dataclasses import replace

from extractor.grammar import normalised
from extractor.late import late
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import DEEP, GROOVE, OF_THE, WIDE
from extractor.sizing.sentences.broken_lines import BARE
from extractor.sizing.tables.table_lines import ALONE, DIAMETER, FLOOR, lines_of
from extractor.sizing.tables.tolerance_tables import GAP

OF_A_GROOVE = rf"{GROOVE}|(?:NUT|EINSTICH|RILLEN|GROF)(?=\w)|{FLOOR}"
SIZE = rf"{WIDE}|{DEEP}|\b{DIAMETER}|\b\w+GRUND"
NAMED = late(rf"(?=.*\b(?:{OF_A_GROOVE}))(?=.*(?:{SIZE}))\W*(?:(?:{OF_A_GROOVE}|{SIZE}|{OF_THE})\W*)+", re.I)
"""The name of a size of a groove in plain capitals, and nothing else."""
FIGURE = late(r"\d")


def with_named_rows(sheet: Sheet, cells: Set[Text]) -> Sheet:
    """The sheet with such rows as the texts of their names; `cells` belong to other tables."""
    names = {t for t in sheet.texts if t not in cells and _is_name(t.text)}
    whole = dict(_rows(sheet, names)) if names else {}
    return replace(sheet, texts=tuple(whole.get(text, text) for text in sheet.texts)) if whole else sheet


def _is_name(words: str) -> bool:
    """True for the name of a size of a groove."""
    return FIGURE.search(words) is None and NAMED.fullmatch(capitals(words)) is not None


def _rows(sheet: Sheet, names: Set[Text]) -> Iterator[tuple[Text, Text]]:
    """The names that head a row, each with the note that it is."""
    for lines, stood in lines_of(sheet):
        for line in lines:
            row = sorted(line, key=lambda text: text.at[0])
            for k, text in enumerate(row):
                own = stood.get(text, text)
                if own in names and (size := _size(text, row[k + 1 : k + 3])):
                    yield own, replace(own, text=f"{own.text} {size}")


def _size(name: Text, cells: Sequence[Text]) -> str:
    """The size in the cells behind a name, with its tolerance; "" for none."""
    first, *more = [normalised(cell.text) for cell in cells] or [""]
    if not first or BARE.fullmatch(first) is None or cells[0].at[0] - name.end[0] > GAP * name.height:
        return ""
    return f"{first} {more[0]}" if more and ALONE.fullmatch(more[0]) else first
