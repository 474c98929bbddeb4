"""The notes of a list, each a note of its own without its number: `1. DEBURR`, `2) LENGTH 80`, `- OIL`.

Rules: a note is one of a list where a number or a mark stands before a word, wherever it is; where a figure follows,
as `3. 5`, only if another line of the paragraph, or another text of the sheet, begins so. What stands before the first
of a paragraph heads it, and a line without number or mark goes on the note before. A number in brackets, or before a
dash, may be a count, `(5) GROOVES`, `5-GROOVES`, and one before a groove or a set-up its own, `4. NUT`, `1. SEITE`: it
is a note's only where all numbers from 1 up to it stand so, and not all of them before such words. Lines of one text
that run so, or the first under a heading, are notes one by one, whatever the words: all of set-ups or all of grooves
keep their numbers.

Source: common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import replace
from itertools import pairwise

from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.sheet_words import folded, phrases, plain

LINE = 1.6
"""Distance of lines of text as a share of the letters' height, about."""
LISTED = re.compile(r"\s*(?:\(?\d{1,2}[.):]|[-*\u2022])\s+(?=\S)")
"""How a note of a list begins: with its number or a mark."""
NUMBERED = re.compile(r"\s*(?:\d{1,2}[.)]|\(?[a-hA-H]\))\s*(?=[^\W\d]{2})")
"""How else one may begin where a word follows: with a number close to it, or with a letter in brackets."""
COUNTED = re.compile(r"\s*(?:\((\d{1,2})[.:]?\)|(\d{1,2})\s*-)\s*(?=[^\W\d]{2})")
"""A number before a word that may count it."""
ORDINAL = late(rf"\s*(\d{{1,2}})\.\s*(?=(?:{phrases('groove_name')}|{phrases('set_up').upper()})(?![^\W\d_]))")
"""A number before a word, in plain capitals, that it may be the number of."""
OF_SET_UPS = late(rf"\s*\d{{1,2}}\.\s*(?:{phrases('set_up').upper()})(?![^\W\d_])")
"""The same of a set-up."""
NUMBER = late(r"\s*(\d{1,2})[.)]\s*(?=[^\W\d])")
"""The number of a note that is about something else."""
IN_LINE = late(r"(?:^|(?<=\s))\(?(\d{1,2})[.)]\s+(?=\S)")
"""The number of a note within a line."""
HEADED = late(rf"\s*(?:(?:{phrases('heads_a_list')})\W*)?")
"""What may stand, in a folded line, before the first of a line: one word that heads the list."""
LEAST_LISTED = 2
"""Notes that make a list, at least."""


@remembered
def with_items(sheet: Sheet) -> Sheet:
    """The sheet with each note of its lists as a text of its own, without number or mark."""
    texts, around = tuple(_bare(sheet.texts)), tuple(_bare(sheet.around))
    return sheet if texts == sheet.texts and around == sheet.around else replace(sheet, texts=texts, around=around)


def _bare(texts: tuple[Text, ...]) -> Iterator[Text]:
    """The texts with the notes of lists one by one."""
    texts = tuple(map(_in_lines, texts))
    lines = [text.text.split("\n") for text in texts]
    counts = {found.groups() for row in lines for line in row if (found := COUNTED.match(line))}
    ordinals = _ordinals([line for row in lines for line in row])
    marks = [_marks(row, ordinals, counts) for row in lines]
    several = sum(map(any, marks)) >= LEAST_LISTED
    for text, row, own in zip(texts, lines, marks, strict=True):
        heads = [k for k, mark in enumerate(own) if mark is not None]
        if heads and (several or len(heads) >= LEAST_LISTED or row[0][own[0] or 0 :][:2].isalpha()):
            starts = heads if heads[0] == 0 else (0, *heads)
            for k, one in zip(starts, _parted(text, row, starts), strict=True):
                yield replace(one, text=one.text[own[k] or 0 :])
        else:
            yield text


def _in_lines(text: Text) -> Text:
    """A text of one line whose notes run on behind one another, each in a line of its own."""
    found = [*IN_LINE.finditer(text.text)]
    numbers = [int(one[1]) for one in found]
    if len(found) < LEAST_LISTED or numbers != [*range(1, len(found) + 1)] or "\n" in text.text:
        return text
    cuts = [one.start() for one in found]
    if not HEADED.fullmatch(folded(text.text[: cuts[0]])):
        return text
    parts = [text.text[a:b].strip() for a, b in pairwise([0, *cuts, len(text.text)])]
    return replace(text, text="\n".join(filter(None, parts)))


def _marks(row: Sequence[str], ordinals: Set[str], counts: Set[tuple[str | None, ...]]) -> list[int | None]:
    """Letters before what each line of a text says as a note: none where it keeps its number, None for no note."""
    own = {line: int(found[1]) for line in row if line in ordinals and (found := NUMBER.match(line))}
    headed = bool(own) and row[0].rstrip().endswith(":")
    if list(own.values()) != list(range(1, len(own) + 1)) or len(own) < (1 if headed else LEAST_LISTED):
        return [None if line in ordinals else _mark(line, counts) or None for line in row]
    of_ends = [OF_SET_UPS.match(plain(line).upper()) is not None for line in own]
    keep = own if all(of_ends) or not any(of_ends) else {}
    return [0 if line in keep else _mark(line, counts) or None for line in row]


def _ordinals(lines: Sequence[str]) -> set[str]:
    """The lines whose number is that of the groove or the set-up behind it: they are no notes of a list.

    In one all numbers up to theirs stand before notes too, and some of them before other words.
    """
    found = {line: int(ordinal[1]) for line in lines if (ordinal := ORDINAL.match(plain(line).upper()))}
    notes = {line: int(number[1]) for line in lines if found and (number := NUMBER.match(line))}
    listed = set(notes.values()) if notes.keys() - found.keys() else set[int]()
    return {line for line, number in found.items() if not set(range(1, number + 1)) <= listed}


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
