"""Texts that name the size of the whole part, held against it: its length, its outside diameter, any diameter.

Rules: a length that is called the whole one, and a diameter called that of the outside, is the part's. A bare one may
be that of something on it or of its stock, and is the part's where it is about as large; of a diameter that is a
caution, for it may be a mating part's. What a leader leads somewhere is about that, but for a length that is called the
whole one. Where another text names the size that was read, nothing is told. `SIZE 45 x 90` may be that of the stock:
it is told where one of the two is the part's and the other is not, or where a part so large can't be made of it.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.sheet import DimensionKind, Sheet
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.measured.features import Features

TOTAL = re.compile(
    rf"\W*(?:(?P<sure>{phrases('overall_length')})|(?P<bare>L)|{phrases('some_length')}"
    rf"|(?P<outside>{phrases('outside_diameter')})|(?P<across>{phrases('some_diameter')}))"
    rf"\s*[=:]?\s*Ø?\s*(?P<size>{NUMBER})\s*(?:MM|IN\.?|\")?\W*",
    re.I,
)
"""A text that names the length of the part, or its outside diameter; of stock and raw parts it says so."""
LENGTH_LAST = re.compile(
    rf"\W*(?:(?:{phrases('a_shaft')}|PART)\W+)?(?P<whole>(?:TOTAL|OVERALL|GESAMT)\W+)?(?P<size>{NUMBER})\s*(?:MM\b\s*)?"
    r"(?P<behind>O\.?/?A\.?\W+)?(?:LONG|LG|LANG|LARGO|LUNGO)\b"
    r"(?P<after>\W+(?:OVER[- ]?ALL|O\.?/?A|TOTAL|GESAMT)\b)?\W*",
    re.I,
)
"""A length before its name, which words for all of it may make that of the whole."""
ABOUT = {True: 0.1, False: 0.25}
"""A bare `L = 105` is the part's length if it is so within this share of it, and so is a `LENGTH 105`, or a `DIAMETER
42`, within another; else it is that of something on it, or of its stock: a longer one is told."""


BOTH = late(
    rf"\W*(?:{phrases('part_size')})\s*[=:]?\s*Ø?\s*(?P<one>{NUMBER})\s*{BY}\s*Ø?\s*(?P<other>{NUMBER})(?:\s*MM)?\W*",
    re.I,
)
"""A text that gives the part, or its stock, by one figure across and one along."""
LEAST = 0.5
"""Share of a size of the part from which a smaller figure is meant for it; less is another thing's, or in inches."""


class _Said(NamedTuple):
    """A line that names such a size, where it stands, and what was found in it."""

    words: str
    at: Point
    found: re.Match[str]

    @property
    def size(self) -> Printed:
        """The size."""
        return Printed.of(self.found["size"])


def is_overall(words: str) -> bool:
    """True for a text that says how long the part is, or how large across, or both, and nothing else."""
    return _total(words) is not None or BOTH.fullmatch(without_item(plain(normalised(words)))) is not None


def said_whole(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """What is said of texts that name another length, or diameter, than was read, unless another names that."""
    yield from _both_wrong(sheet, features)
    said, part = _said(sheet), features.part
    across = [one for one in said if one.found["outside"]]
    any_across = [one for one in said if one.found["across"]]
    long = [one for one in said if one not in across and one not in any_across]
    yield from _of_length(long, features)
    lands = {part.outer_diameter, *(2 * r for _, r in part.lands)}
    if not any(features.fits(one.size, *lands) for one in across):
        yield from (_differs(one, max(lands), "across", DrawingCode.NOTE_CONTRADICTS, Level.STOP) for one in across)
    drawn = {2 * mark.at for mark in features.across} if any_across else set[float]()
    drawn |= {d for groove in part.grooves for d in (groove.floor_diameter, groove.mouth_diameter)}
    for one in any_across:
        near = one.size.value / part.outer_diameter > 1 - ABOUT[False]
        if near and not features.fits(one.size, *drawn):
            yield _differs(one, part.outer_diameter, "across", DrawingCode.NOTE_UNREAD, Level.CAUTION)


def _both_wrong(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each line that gives the part by two figures one of which is wrong."""
    drawn = features.part.outer_diameter, features.part.length
    for text in sheet.everywhere:
        for line in text.text.split("\n"):
            if found := BOTH.fullmatch(without_item(plain(normalised(line)))):
                figures = [Printed.of(one) for one in found.group("one", "other")]
                ways = [list(zip(way, drawn, strict=True)) for way in (figures, figures[::-1])]
                way = max(ways, key=lambda pairs: sum(features.fits(one, size) for one, size in pairs))
                odd = [(one, size) for one, size in way if not features.fits(one, size)]
                small = any(LEAST * size <= one.value < size for one, size in odd)
                if len(odd) == 1 or (odd and small):
                    words = (
                        f'The sheet says "{normalised(line)}", but the part was read {drawn[0]:.6g} across and '
                        f"{drawn[1]:.6g} long: see which of them is wrong."
                    )
                    yield Finding(Level.CAUTION, DrawingCode.OVERALL_DIFFERS, words, text.at)


def _total(words: str) -> re.Match[str] | None:
    """What names such a size in a line, with its number in a list or without."""
    line = without_item(plain(normalised(words)))
    if (last := LENGTH_LAST.fullmatch(line)) is not None:
        line = f"{'TOTAL LENGTH' if last['whole'] or last['behind'] or last['after'] else 'L'} {last['size']}"
    return TOTAL.fullmatch(line)


def _said(sheet: Sheet) -> list[_Said]:
    """The lines of a sheet that name such a size: those with a leader only for a length of the whole."""
    dimensioned = {d.text for d in sheet.dimensions}
    free = [(line, t.at) for t in sheet.everywhere if t.text not in dimensioned for line in t.text.split("\n")]
    led = [(d.text, d.points[0]) for d in sheet.dimensions if d.kind is DimensionKind.LEADER and d.text]
    found = [_Said(words, at, total) for words, at in free if (total := _total(words))]
    return found + [_Said(words, at, total) for words, at in led if (total := _total(words)) and total["sure"]]


def _of_length(said: list[_Said], features: Features) -> Iterator[Finding]:
    """What is said of texts that name a length, none of which is the part's."""
    length = features.part.length
    if any(features.fits(one.size, length) for one in said):
        return
    for one in said:
        off = one.size.value / length - 1
        firm = one.found["sure"] or abs(off) <= ABOUT[bool(one.found["bare"])]
        # Nothing on the part can be longer than it; its stock may be.
        if firm or off > 0:
            yield _differs(one, length, "long", DrawingCode.OVERALL_DIFFERS, Level.STOP if firm else Level.CAUTION)


def _differs(one: _Said, drawn: float, what: str, code: DrawingCode, level: Level) -> Finding:
    """What is said of a size that the part has not."""
    words = (
        f'The sheet says "{normalised(one.words)}", but the part was read {drawn:.6g} {what}: a line of it may be '
        "missing; ask which is meant."
    )
    return Finding(level, code, words, one.at)
