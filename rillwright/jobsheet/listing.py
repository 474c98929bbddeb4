"""The program as listed: numbered lines, each split into words and comments, with what every word means.

The splitting here is for show alone; nothing is concluded from it. Meanings come from `postproc` and are left out
where it has none for a line.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import groupby
from types import MappingProxyType
from typing import Any

from extractor.grouping import grouped
from extractor.values import dataclass
from postproc.verdict import Match
from rillwright.jobsheet.labels import span_words
from rillwright.jobsheet.scene import lines_of_each, set_of_each
from rillwright.records.record import Record

FOLDED = 3
"""Remarks in a row that are folded into one line; fewer take no room."""

NOTHING: Mapping[int, Any] = MappingProxyType({})
"""What is known of no line and no word."""

PIECES = re.compile(r"\([^)]*\)?|;.*|[A-Za-z][^A-Za-z(;\s]*|\s+|[^A-Za-z(;\s]+")
"""A comment, a word (address and number), blanks, or anything else."""


@dataclass(frozen=True)
class LinePart:
    """A stretch of one line: `kind` is word, comment or plain; `meaning` is one sentence or empty."""

    text: str
    kind: str
    meaning: str = ""


@dataclass(frozen=True)
class ListedLine:
    """One line of the program with its grooves, the index of their set, and what the block does in one sentence.

    `folded` is true for one of several remarks in a row; the first of them has their number in `folds`.
    """

    number: int
    pieces: tuple[LinePart, ...]
    grooves: tuple[int, ...] = ()
    set_index: int | None = None
    sentence: str = ""
    folds: int = 0
    folded: bool = False

    @property
    def remark(self) -> bool:
        """True for a line that holds a remark and nothing else."""
        told = [piece.kind for piece in self.pieces if piece.text.strip()]
        return bool(told) and set(told) == {"comment"}

    @property
    def names(self) -> str:
        """The numbers of its grooves as people say them."""
        return span_words(self.grooves)

    @property
    def text(self) -> str:
        """The line as it stands in the program."""
        return "".join(piece.text for piece in self.pieces)


def pieces_of(text: str, meanings: Mapping[int, str] = NOTHING) -> tuple[LinePart, ...]:
    """The pieces of one line; `meanings` by column, counted from 1. Nothing of the text is lost.

    >>> [(p.text, p.kind) for p in pieces_of("G01 X-.5 (DOWN)")]
    [('G01', 'word'), (' ', 'plain'), ('X-.5', 'word'), (' ', 'plain'), ('(DOWN)', 'comment')]
    """
    found = []
    for match in PIECES.finditer(text):
        piece = match.group()
        kind = "comment" if piece[0] in "(;" else "word" if piece[0].isalpha() else "plain"
        found.append(LinePart(piece, kind, meanings.get(match.start() + 1, "") if kind == "word" else ""))
    return tuple(found)


def listing(
    text: str,
    record: Record | None,
    meanings: Mapping[int, Mapping[int, str]] = NOTHING,
    sentences: Mapping[int, str] = NOTHING,
) -> list[ListedLine]:
    """Every line of the program; `meanings` by line, then column, `sentences` by line, all counted from 1.

    `record` says which grooves a line cuts, None where it speaks of another program.
    """
    sets = set_of_each(record.part) if record else {}
    by_line = _grooves_by_line(record.matches) if record else {}
    rows = []
    for number, line in enumerate(text.splitlines(), start=1):
        grooves = by_line.get(number, ())
        owners = {sets.get(g) for g in grooves}
        owner = owners.pop() if len(owners) == 1 else None
        rows.append(
            ListedLine(
                number, pieces_of(line, meanings.get(number, NOTHING)), grooves, owner, sentences.get(number, "")
            )
        )
    return _with_folds(rows)


def _with_folds(rows: list[ListedLine]) -> list[ListedLine]:
    """The rows, with remarks of which several stand in a row marked."""
    found: list[ListedLine] = []
    for remark, run in groupby(rows, key=lambda row: row.remark):
        together = list(run)
        if remark and len(together) >= FOLDED:
            together = [replace(row, folded=True) for row in together]
            together[0] = replace(together[0], folds=len(together))
        found += together
    return found


def _grooves_by_line(matches: Iterable[Match]) -> dict[int, tuple[int, ...]]:
    """For each program line that cuts, the grooves it cuts."""
    cut = sorted(lines_of_each(matches).items())
    by_line = grouped((line, groove) for groove, lines in cut for line in lines)
    return {line: tuple(grooves) for line, grooves in by_line.items()}
