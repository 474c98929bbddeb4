"""Words that ask for nothing that is not drawn, in the text of a groove's size and in a note led to it.

Rules: what the size is of or meant for, how often it occurs, that it is typical or for information, how the surface is
finished. In a note led to a groove also what is done to its edges and after it is turned, what is drilled across it,
and where more is said: beside a size such words may change it, as `3 AFTER PLATING` does.

The words are those of `lettering/words.toml`.
"""

import re

from extractor.grammar import NUMBER, PLACES, chamfer, normalised
from extractor.late import late
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import DEEP, GROOVE, NO_GROOVE, SPACED, WIDE
from extractor.sizing.lettering.sheet_words import about, folded, phrases

COMMON = phrases("size", "feature", "surface", "little") + f"|{PLACES}"

BESIDE = late(
    rf"\b(?:{COMMON}|{phrases('by_a_figure')})\b\.?|\b(?:{GROOVE}|{WIDE}|{DEEP}|{phrases('spacing')})|{SPACED.pattern}"
    rf"|{chamfer().pattern}",
    re.I,
)
"""Harmless beside a size."""
TREATED = phrases(
    *("burrs", "deburred", "edges", "clean", "hardness_figure", "finish", "paint", "walls", "chamfers", "rounds"),
    "processed",
)
"""How a groove is finished, and its edges."""
LED = late(rf"\b(?:{COMMON}|{TREATED}|{phrases('holes', 'through', 'across', 'referred')})\b", re.I)
"""Harmless in a note led to a groove."""
FORM_OF_GROOVES = late(rf"\b(?:{phrases('surface', 'clean', 'form', 'tools')})\b", re.I)
"""One word of these says what a folded text is about that names a groove and has a figure: no size and no shape."""
MATTERS_AT_GROOVES = late(
    rf"{FORM_OF_GROOVES.pattern}|\b(?:{phrases('burrs', 'deburred', 'edges', 'handled')})\b", re.I
)
"""The same of one without a figure."""
MATTERS = f"{TREATED}|" + phrases(
    *("feature", "surface", "paper", "order", "form", "tools", "hardness", "joined", "marks", "raw", "bar", "material"),
    "handled",
    "fellows",
)
OTHER_MATTERS = late(rf"\b(?!bottom|walls?\b|sharp\b)(?:{MATTERS})\b", re.I)
"""The same of one that names none and stands free."""
ALTERED = late(
    rf"{NUMBER}\s*(?:mm\s+|in(?:ch)?\s+)?(?:{phrases('compared')})\b"
    rf"|\b(?:{phrases('altered')})\b.*\b(?:by|de)\s+{NUMBER}(?![\w.]|\s*%)",
    re.I,
)
"""By how much a size is to be another than is drawn: no word about a shaft or a sheet quiets that."""
OF_OTHERS = late(rf"{NO_GROOVE.pattern}|\b(?:{phrases('holes', 'tools', 'joined', 'raw', 'bar', 'material')})\b", re.I)
"""What such a size is of beside the part, its grooves and what goes with it."""
OTHER_QUANTITY = late(
    r"(?<!\d)(?:\d{1,2}[./-]){2}\d{2,4}(?!\d)|\d{4}-\d{2}-\d{2}"
    r"|\d\s*(?:k?g|lbs?|n ?m|bar|psi|[kmg]?pa|k?n|eur|usd|°?\s?c|deg\w* ?c|m/min|rpm|%|hrc|h[vb]"
    r"|pcs|stk|off|sets|micro\w+|sq\W{0,2}[ckm]?m)(?!\w)",
    re.I,
)
"""A figure of what is no length: a weight, a torque, a temperature, a number of pieces, a date."""


def alters(words: str) -> bool:
    """True for a line that wants a size of the part larger or smaller than drawn, by a figure.

    >>> alters("SHAFT 5 LONGER"), alters("BURRS NOT LARGER THAN 0.05"), alters("BAR 5 LONGER")
    (True, False, False)
    """
    line = folded(normalised(words))
    other = about(capitals(words), "cut_off") or about(line, "before_it") or OF_OTHERS.search(line)
    return ALTERED.search(line) is not None and other is None
