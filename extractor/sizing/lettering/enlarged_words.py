"""The heading of a groove drawn larger that names it, as `DETAIL OF GROOVE 5X`: no note of how many or how wide."""

import re

from extractor.late import late
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import DETAIL, RATIO, SCALE, VIEW, folded, phrases

TIMES = late(rf"{RATIO}|\bx ?\d+(?:[.,]\d+)?\b|\b\d+(?:[.,]\d+)? ?(?:x\b|{phrases('times')})")
"""How many times as large."""
A_GROOVE = late(rf"\b(?:{GROOVE}|{phrases('groove_bent')})\b", re.I)
ENLARGED = late(rf"\b(?:{phrases('enlarged')})\b")
NAMES = late(rf"\b(?:{DETAIL}|{VIEW}|{SCALE})\b")
"""What a heading is of, or its scale."""
LITTLE = late(
    r"\b(?:of|the|in|at|to|full|size|drawn|shown|typ(?:ical|isch|ique)?|de[rsl]?|d[il]?|della?|l[ae]|as|[a-z])\b"
)
"""What may stand between."""
PREFIX = late(rf"\W*(?:{DETAIL}\W+)?\(?[^\W\d_]\)?\W*\(?{RATIO}\)?\W+(?=.*[^\W\d_]{{4}})", re.I)
"""The letter and the scale of a detail before what is said of the groove in it."""


def heads_a_groove(words: str) -> bool:
    """True for the heading of a groove drawn larger.

    >>> [heads_a_groove(words) for words in ("DETAIL OF GROOVE 5X", "RILLE VERGRÖSSERT", "GROOVE SCALE 5:1")]
    [True, True, True]
    >>> [heads_a_groove(words) for words in ("GROOVE 5X", "GROOVE DETAIL 5 WIDE", "SEE DETAIL X", "3 GROOVES 5:1")]
    [False, False, False, False]
    """
    line = folded(words)
    if A_GROOVE.search(line) is None:
        return False
    bare, scales = TIMES.subn(" ", line)
    enlarged = ENLARGED.search(bare) is not None
    if any(map(str.isdecimal, bare)) or not (enlarged or (scales and (NAMES.search(bare) or ":" in line))):
        return False
    for known in (ENLARGED, NAMES, A_GROOVE, LITTLE):
        bare = known.sub(" ", bare)
    return scales <= 1 and not any(map(str.isalpha, bare))


def without_heading(words: str) -> str:
    """What is said of the groove behind the letter and the scale of its detail.

    >>> without_heading("X 5:1 GROOVE TYP 3 PL"), without_heading("X 5:1"), without_heading("4 x 3 GROOVE")
    ('GROOVE TYP 3 PL', 'X 5:1', '4 x 3 GROOVE')
    """
    found = PREFIX.match(words)
    return words if found is None or ":" not in found[0] else words[found.end() :]
