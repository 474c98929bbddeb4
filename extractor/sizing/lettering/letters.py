"""Sizes that are given by letters, for a table or a legend to resolve, and legends of one text: `A = 3`."""

import re
from typing import NamedTuple

from extractor.grammar import BY, DIAMETER, PLACES, normalised, tolerances

LETTER = re.compile(r"(?:Ø\s*|⌀\s*)?([A-Za-z](?:\d{1,2})?)")
"""A size given by letter: one letter, with a number where there are several of a kind (common practice, no source)."""

COUNT = rf"\d+\s*(?:{BY}|(?i:OFF\b|{PLACES}))[\s)]*"
LETTERED = re.compile(rf"[\s(]*(?:{COUNT})?(?:(?i:{DIAMETER})\s*)?{LETTER.pattern}[\s()*]*(?:{COUNT})?")
"""Such a size with its count, its sign and its brackets, and nothing else."""

NO_SIZE = re.compile(r"[RCM]\d{1,2}|(?i:[f-hkmnp])(?:[5-9]|1[0-3])")
"""Radii, chamfers, steels and threads, and the usual tolerance classes, are written like that and are no names of sizes
(ISO 129-1, EN 10027-1, ISO 965-1 and ISO 286-1, from memory)."""
NAME = re.compile(r"(?<!\w)([A-Za-z]\d{0,2})\s*[=:]\s*(?=[Ø⌀]?\s*\.?\d)")
"""A letter before its figure, as in `A = 3`."""
FIGURE = re.compile(r"[Ø⌀]?\s*(?:\d+(?:\.\d+)?|\.\d+)\s*(?:mm\b)?[\s,;.]*", re.I)
"""A size and nothing else but what parts it from the next."""
HEADING = re.compile(r"[^=\d]*(?:\d[^=:]*)?:\s*$")
"""What a legend is headed with."""


class ByName(NamedTuple):
    """A printed size that is a letter, with what stands before it and behind it."""

    before: str
    name: str
    behind: str


def by_letter(text: str) -> ByName | None:
    """The size that a text is, if that is a letter with its tolerance or its count."""
    line = normalised(text)
    found = LETTERED.fullmatch(_without_tolerances(line))
    if found is None or NO_SIZE.fullmatch(found[1]):
        return None
    return ByName(line[: found.start(1)], found[1], line[found.end(1) :])


def pairs_of(text: str) -> list[tuple[str, str]]:
    """The letters with their figures, and the tolerances of these, that a text is made of; none of any other text.

    >>> pairs_of("d2 = Ø32 h11, m: 3 +0.1/0"), pairs_of("A = 3 WIDE")
    ([('d2', 'Ø32 h11'), ('m', '3 +0.1/0')], [])
    """
    line = normalised(text)
    names = list(NAME.finditer(line))
    if not names or (names[0].start() and not HEADING.fullmatch(line[: names[0].start()])):
        return []
    ends = [*(name.start() for name in names[1:]), len(line)]
    figures = [line[name.end() : end] for name, end in zip(names, ends, strict=True)]
    if not all(FIGURE.fullmatch(_without_tolerances(figure)) for figure in figures):
        return []
    return [(name[1], figure.strip(" ,;.")) for name, figure in zip(names, figures, strict=True)]


def is_figure(words: str) -> bool:
    """True for a size alone, with its tolerance or without."""
    return FIGURE.fullmatch(_without_tolerances(normalised(words)).strip()) is not None


def _without_tolerances(line: str) -> str:
    """A line with blanks in the place of its tolerances."""
    for one in tolerances(line):
        line = line[: one.start] + " " * (one.end - one.start) + line[one.end :]
    return line
