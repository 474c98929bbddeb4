"""Rows of lists that name a size of a groove and give it in the next cell, as lists for inspection do.

Rules: the name says nothing else, a cell to its right is one figure, and a tolerance may have a cell of its own behind
it. The row is then the note that it would be on one line, `GROOVE WIDTH 4 +0.1` (common practice, no source). Figures
may also number the row, or count: the size is that under a heading which says so, else the one that a groove has, else
the first with decimals; of a whole number alone that no groove has nobody can tell, and it is asked about.
"""

import re
from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.late import late
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import DEEP, GROOVE, OF_THE, WIDE
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import sizes_drawn
from extractor.sizing.sentences.broken_lines import BARE
from extractor.sizing.sentences.could_size import ABOUT_DEPTH, ABOUT_WIDTH
from extractor.sizing.tables.table_lines import ALONE, APART, DIAMETER, FLOOR, lines_of
from extractor.sizing.tables.tolerance_tables import GAP

OF_A_GROOVE = rf"{GROOVE}|(?:NUT|EINSTICH|RILLEN|GROF)(?=\w)|{FLOOR}"
SIZE = rf"{WIDE}|{DEEP}|\b{DIAMETER}|\b\w+GRUND"
NAMED = late(rf"(?=.*\b(?:{OF_A_GROOVE}))(?=.*(?:{SIZE}))\W*(?:(?:{OF_A_GROOVE}|{SIZE}|{OF_THE})\W*)+", re.I)
"""The name of a size of a groove in plain capitals, and nothing else."""
FIGURE = late(r"\d")
NOMINAL, NUMBERS = late(phrases("nominal_size")), late(phrases("row_number", "count_column", "label_column"))
"""What heads the sizes of such a list, and what its numbers and counts."""


class _Cell(NamedTuple):
    """What a cell says, and what heads its column, "" for nothing."""

    words: str
    head: str


class _NamedRow(NamedTuple):
    """A name with the cells behind it."""

    name: Text
    cells: list[_Cell]


def with_named_rows(sheet: Sheet, cells: Set[Text], features: Features) -> tuple[Sheet, tuple[Finding, ...]]:
    """The sheet with such rows as the texts of their names, and what is asked; `cells` belong to other tables."""
    names = {t for t in sheet.texts if t not in cells and _is_name(t.text)}
    rows = list(_rows(sheet, names)) if names else []
    if not rows:
        return sheet, ()
    sizes = {row.name: _size(row, features) for row in rows}
    whole = {name: replace(name, text=f"{name.text} {size}") for name, size in sizes.items() if size}
    texts = tuple(whole.get(text, text) for text in sheet.texts)
    return replace(sheet, texts=texts), tuple(_asked(row) for row in rows if sizes[row.name] is None)


def row_names(sheet: Sheet) -> Set[str]:
    """The words that head such rows."""
    names = {text for text in sheet.texts if _is_name(text.text)}
    return {row.name.text for row in _rows(sheet, names)} if names else set()


def _is_name(words: str) -> bool:
    """True for the name of a size of a groove."""
    return FIGURE.search(words) is None and NAMED.fullmatch(capitals(words)) is not None


def _rows(sheet: Sheet, names: Set[Text]) -> Iterator[_NamedRow]:
    """The rows that a name heads, with what stands in the cells behind it and over each."""
    for lines, stood in lines_of(sheet):
        for up, line in enumerate(lines):
            row = sorted(line, key=lambda text: text.at[0])
            for k, text in enumerate(row):
                own = stood.get(text, text)
                if own in names and (cells := list(_cells(row[k:], lines[:up]))):
                    yield _NamedRow(own, cells)


def _cells(row: Sequence[Text], above: Sequence[Sequence[Text]]) -> Iterator[_Cell]:
    """The figures and the tolerances behind a name, as far as they stand near one another, with their headings."""
    for before, text in pairwise(row):
        words = normalised(text.text)
        if text.at[0] - before.end[0] > GAP * text.height or not (BARE.fullmatch(words) or ALONE.fullmatch(words)):
            return
        over = [one for line in reversed(above) for one in line if FIGURE.search(one.text) is None]
        head = next((one for one in over if abs(one.at[0] - text.at[0]) <= APART * text.height), None)
        yield _Cell(words, "" if head is None else capitals(head.text).strip(" .:"))


def _size(row: _NamedRow, features: Features) -> str | None:
    """The size of a row, with its tolerance; "" for none, None for a figure of which nobody can tell."""
    following = [*(cell.words for cell in row.cells[1:]), ""]
    figures = [
        (cell.words, limit if ALONE.fullmatch(limit) else "", re.fullmatch(NOMINAL.pattern, cell.head) is not None)
        for cell, limit in zip(row.cells, following, strict=True)
        if not ALONE.fullmatch(cell.words) and not re.fullmatch(NUMBERS.pattern, cell.head)
    ]
    fits = [one for one in figures if features.fits(parse(one[0]), *_drawn(row.name, features))]
    headed = [one for one in figures if one[2]]
    exact = [one for one in figures if not one[0].isdecimal()]
    words, limit, _ = next(iter(headed or fits or exact or figures), ("", "", False))
    if words and not (headed or fits or exact):
        return None
    return f"{words} {limit}".strip()


def _drawn(name: Text, features: Features) -> list[float]:
    """The sizes of all grooves that the name is that of."""
    words, grooves = capitals(name.text), features.part.grooves
    field = "width" if ABOUT_WIDTH.search(words) else "depth" if ABOUT_DEPTH.search(words) else "floor_diameter"
    return [size for groove in grooves for size in sizes_drawn(field, groove, features)]


def _asked(row: _NamedRow) -> Finding:
    """The caution for a figure behind a name that no groove has, and that may be a number or a count."""
    words = (
        f'"{normalised(row.name.text)}" has {row.cells[0].words} behind it, which no groove has and which may be a '
        "number of the list: see which size it gives."
    )
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, words, row.name.at)
