"""The notes of a list, each a note of its own without its number: `1. DEBURR`, `2) LENGTH 80`, `- OIL`.

Rules: a note is one of a list where a number or a mark stands before a word, wherever it is; where a figure follows,
as `3. 5`, only if another line of the paragraph, or another text of the sheet, begins so. What stands before the first
of a paragraph heads it, and a line without number or mark goes on the note before. A number in brackets, or before a
dash, may be a count, `(5) GROOVES`, `5-GROOVES`: it is a note's only where all numbers from 1 up to it stand so.

Source: common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator, Set
from dataclasses import replace

from extractor.remembered import remembered
from extractor.sheet import Sheet, Text

LINE = 1.6
"""Distance of lines of text as a share of the letters' height, about."""
LISTED = re.compile(r"\s*(?:\(?\d{1,2}[.):]|[-*\u2022])\s+(?=\S)")
"""How a note of a list begins: with its number or a mark."""
NUMBERED = re.compile(r"\s*(?:\d{1,2}[.)]|\(?[a-hA-H]\))\s*(?=[^\W\d]{2})")
"""How else one may begin where a word follows: with a number close to it, or with a letter in brackets."""
COUNTED = re.compile(r"\s*(?:\((\d{1,2})[.:]?\)|(\d{1,2})\s*-)\s*(?=[^\W\d]{2})")
"""A number before a word that may count it."""
LEAST_LISTED = 2
"""Notes that make a list, at least."""


def items_of(text: Text) -> tuple[Text, ...]:
    """The notes of a list, each where it stands and with the lines that go on it; any other text is one note."""
    lines = text.text.split("\n")
    heads = [k for k, line in enumerate(lines) if LISTED.match(line)]
    return tuple(_parted(text, lines, heads)) if len(heads) >= LEAST_LISTED else (text,)


@remembered
def with_items(sheet: Sheet) -> Sheet:
    """The sheet with each note of its lists as a text of its own, without number or mark."""
    texts, around = tuple(_bare(sheet.texts)), tuple(_bare(sheet.around))
    return sheet if texts == sheet.texts and around == sheet.around else replace(sheet, texts=texts, around=around)


def _bare(texts: tuple[Text, ...]) -> Iterator[Text]:
    """The texts with the notes of lists one by one."""
    lines = [text.text.split("\n") for text in texts]
    counts = {found.groups() for row in lines for line in row if (found := COUNTED.match(line))}
    marks = [[_mark(line, counts) for line in row] for row in lines]
    several = sum(map(any, marks)) >= LEAST_LISTED
    for text, row, own in zip(texts, lines, marks, strict=True):
        heads = [k for k, mark in enumerate(own) if mark]
        if heads and (several or len(heads) >= LEAST_LISTED or row[0][own[0] :][:2].isalpha()):
            starts = heads if heads[0] == 0 else (0, *heads)
            for k, one in zip(starts, _parted(text, row, starts), strict=True):
                yield replace(one, text=one.text[own[k] :])
        else:
            yield text


def _mark(line: str, counts: Set[tuple[str | None, ...]]) -> int:
    """Letters of the number or mark that a line begins with, 0 where it has none; `counts`: all that may be counts."""
    if counted := COUNTED.match(line):
        last = int(counted[1] or counted[2])
        run = {tuple(n and str(k) for n in counted.groups()) for k in range(1, max(last, LEAST_LISTED) + 1)}
        return counted.end() if run <= counts else 0
    found = LISTED.match(line) or NUMBERED.match(line)
    return found.end() if found else 0


def _parted(text: Text, lines: list[str], heads: Iterable[int]) -> Iterator[Text]:
    """The parts of a text that begin with some of its lines."""
    starts = list(heads)
    for k, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        yield replace(text, text="\n".join(lines[k:end]), at=text.place(0.0, -k * LINE * text.height))
