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
PAIR = re.compile(r"(?<!\w)([A-Za-z]\d{0,2})\s*[=:]\s*[Ø⌀]?\s*(\d+(?:[.,]\d+)?)(?![.,]?\d)")
"""A letter with its figure, as in `A = 3`."""


class ByName(NamedTuple):
    """A printed size that is a letter, with what stands before it and behind it."""

    before: str
    name: str
    behind: str


def by_letter(text: str) -> ByName | None:
    """The size that a text is, if that is a letter with its tolerance or its count."""
    line = bare = normalised(text)
    for one in tolerances(line):
        bare = bare[: one.start] + " " * (one.end - one.start) + bare[one.end :]
    found = LETTERED.fullmatch(bare)
    if found is None or NO_SIZE.fullmatch(found[1]):
        return None
    return ByName(line[: found.start(1)], found[1], line[found.end(1) :])


def pairs_of(text: str) -> list[tuple[str, str]]:
    """The letters with their figures that a text is made of, none of any other text."""
    pairs = PAIR.findall(text)
    return pairs if not re.search(r"\w", PAIR.sub("", text)) else []
