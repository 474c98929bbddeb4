"""What a line means by its linetype, and what its layer's name hints at.

Rules: the dash pattern as drawn says most, the linetype's name speaks where there is no pattern, a layer's name is only
a hint. BYLAYER and BYBLOCK are resolved before anything is asked here. Meaning of the patterns: ISO 128-20 lines 01
(continuous), 02 (dashed), 04 (long-dashed dotted: centre lines), 05 (long-dashed double-dotted: adjacent parts).
"""

import re
from collections.abc import Sequence

from extractor.sheet import Pen

SHORT_SHARE = 0.5
"""A dash no longer than this share of the longest of its pattern counts as short (ISO: 24, 6 and 0.5 line widths)."""

CENTRE_NAMES = re.compile(
    r"cent|axis|axes|dash_?dot|dot_?dash|chain|iso0?4w|iso0?8w|iso10w|mitt|achse|strichpunkt", re.I
)
PHANTOM_NAMES = re.compile(r"phantom|divide|dashdotdot|iso0?5w|iso0?9w|iso12w", re.I)
HIDDEN_NAMES = re.compile(r"hidden|dash|dot|verdeckt|strichl|gestrich|iso0?2w|iso0?3w|iso0?7w|invis", re.I)

ROLES: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("hatch", re.compile(r"hatch|schraff|剖面线|hachur|tratteg|kreskow|штрих", re.I)),
    (
        "dimension",
        re.compile(
            r"\bdim|dimension|bema(ß|ss)|标注|cotas?\b|cotation|quot[ae]|wymiar|\bk[oó]t[ay]\b|размер|maße?\b", re.I
        ),
    ),
    (
        "centre",
        re.compile(r"cent(er|re|ro)|\bax(is|es|e|a)\b|achse|mittel|中心|eje\b|\bejes\b|asse\b|osie?\b|ось|осев", re.I),
    ),
    ("hidden", re.compile(r"hidden|verdeckt|虚线|消隐|cach[eé]|ocult|nascost|niewid|невид", re.I)),
    ("thread", re.compile(r"thread|gewinde|螺纹|filet|rosca|gwint|резьб", re.I)),
    (
        "border",
        re.compile(r"border|frame|title|rahmen|plankopf|schriftfeld|图框|标题|cartiglio|cartouche|ramka|рамк", re.I),
    ),
    (
        "construction",
        re.compile(r"constr|konstr|hilfs|\baux|help|costruz|constru(cc|ç|c)|辅助|pomocn|вспомог", re.I),
    ),
    ("text", re.compile(r"text|note|anno|schrift|文字|texte|testo|napis|текст|symbol|符号", re.I)),
)
"""Layer names seen in drawings of several offices and languages (common practice, no source)."""


def pen_of_pattern(elements: Sequence[float]) -> Pen | None:
    """The pen that a dash pattern draws, None where the pattern is empty.

    `elements`: dash lengths above 0, gaps below 0, dots 0, over one period (DXF group 49).

    >>> pen_of_pattern([24.0, -3.0, 0.5, -3.0]), pen_of_pattern([12.0, -3.0])
    (<Pen.CENTRE: 'centre'>, <Pen.HIDDEN: 'hidden'>)
    """
    marks = [length for length in elements if length >= 0]
    if not marks or len(marks) == len(elements):
        return None
    longest = max(marks)
    short = sum(1 for length in marks if length <= longest * SHORT_SHARE)
    if longest == 0 or short == 0:
        return Pen.HIDDEN
    return Pen.PHANTOM if short >= 2 * (len(marks) - short) else Pen.CENTRE


def pen_of_name(name: str) -> Pen | None:
    """The pen that a linetype's name stands for, None where the name means nothing.

    >>> pen_of_name("CENTERX2"), pen_of_name("LT00017")
    (<Pen.CENTRE: 'centre'>, None)
    """
    for pen, names in ((Pen.PHANTOM, PHANTOM_NAMES), (Pen.CENTRE, CENTRE_NAMES), (Pen.HIDDEN, HIDDEN_NAMES)):
        if names.search(name):
            return pen
    return None


def pen_of(name: str, elements: Sequence[float]) -> Pen:
    """The pen of a resolved linetype: its pattern first, then its name, else solid."""
    return pen_of_pattern(elements) or pen_of_name(name) or Pen.SOLID


def role_of_layer(name: str) -> str:
    """What a layer's name says is drawn on it, "" where it says nothing.

    >>> role_of_layer("3中心线层"), role_of_layer("Hidden (ISO)"), role_of_layer("0")
    ('centre', 'hidden', '')
    """
    return next((role for role, names in ROLES if names.search(name)), "")
