"""What heads a detail drawn larger, and what names one elsewhere on the sheet: its letter, with a word and a scale."""

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from extractor.sheet import Text
from extractor.sizing.lettering.sheet_words import DETAIL, RATIO, SCALE, folded

ONE = r"\b([^\W\d_])\b"
"""A letter by itself, of any alphabet."""

HEADING = re.compile(rf"\W*(?:{DETAIL}|[^\W\d_]{{4,}}|x?)\W*{ONE}\W*(?:m|[^\W\d_]{{3,}})?\W*{RATIO}\W*")
"""Letter and scale of a detail, with or without a word, in any language, before each of them."""

NAMED = re.compile(rf"\W*{DETAIL}\W*{ONE}\W*(?:[^\W\d_]+\W*)?(?:{RATIO})?\W*")
"""The heading of a detail by its word, with its scale or without."""

LED = re.compile(rf"\W*(?:[^\W\d_]+\W+)?{DETAIL}\W*{ONE}\W*")
"""What a leader to a groove says in the place of a ring, with a word for seeing before it or without."""

LETTER = re.compile(r"[^\W\d_]")
"""What names a ring (ISO 128-3, from memory)."""

LETTERED = re.compile(rf"\W*(?:[^\W\d_]{{4,}}\W+)?{ONE}\W*")
"""What heads a detail or a view where its scale is a text of its own beside it."""

TIMES = re.compile(r"\b(?:x ?(?P<times>\d+(?:[.,]\d+)?)|\d+(?:[.,]\d+)? ?x)\b", re.I)
"""A scale as so many times the size, `x5`, or `5x`, which may count such places as well: a detail drawn so tells."""

LONE_SCALE = re.compile(rf"\W*(?:(?:{SCALE}|{DETAIL})\b|m\b)?\W*{RATIO}\W*")
"""A scale in a text of its own, which is under its heading as a rule."""

NEXT_LINE = 3.0
"""Letter heights of the larger text from a heading to its scale, at most, where each is a text of its own."""

NARROW = 0.6
"""Share of the likely width of a heading from which a scale in its line begins: its letters may be narrow."""


def titled(texts: Sequence[Text]) -> tuple[Text, ...]:
    """The texts, those with which a detail is headed joined with the scale that stands as a text under or over them."""
    texts = [_in_ratio(t) for t in texts]
    scales = [t for t in texts if LONE_SCALE.fullmatch(folded(t.text))]
    found = []
    for text in texts:
        line = folded(text.text) if scales else ""
        headed = LETTERED.fullmatch(line) or NAMED.fullmatch(line)
        scale = min(
            (s for s in scales if headed and _is_next(s, text)), key=lambda s: math.dist(s.at, text.at), default=None
        )
        joined = text if scale is None else replace(text, text=f"{text.text} {scale.text}")
        found.append(joined if HEADING.fullmatch(folded(joined.text)) else text)
    return tuple(found)


def _in_ratio(text: Text) -> Text:
    """A heading with its scale as a ratio, and without what may be a count."""
    times = TIMES.search(text.text)
    if times is None:
        return text
    line = TIMES.sub(f"{times['times']}:1" if times["times"] else " ", text.text, count=1)
    return replace(text, text=line) if NAMED.fullmatch(folded(line)) else text


def _is_next(text: Text, heading: Text) -> bool:
    """True for a text in the line under or over a heading, beginning where the other does or amid it, or behind it."""
    (begin, up), (end, _) = heading.seen(text.at), heading.seen(text.end)
    near, long = NEXT_LINE * max(text.height, heading.height), math.dist(heading.at, heading.end)
    behind = NARROW * long <= begin <= long + near and abs(up) <= heading.height
    return text.angle == heading.angle and (behind or (0 < abs(up) <= near and begin <= long and end >= 0))


def led_letter(words: str) -> str:
    """The letter of the detail that a note names, "" of one that names none."""
    named = LED.fullmatch(folded(words))
    return named[1].upper() if named else ""
