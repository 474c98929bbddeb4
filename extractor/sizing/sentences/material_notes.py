"""What the sheet says the part is made of: a note that begins with a word for it, or a cell of the title block.

A label is a text that is only such a word ("Werkstoff", "MATERIAL:"). Its value stands to the right of it on the same
line, or below it. Where something stands at both, the one in larger letters counts; else what is below at the label's
own margin is the next label in a column. What is written is passed on word for word: whether it is known is decided
where the figures are. Distances are in heights of the larger of both texts.
"""

import math
import re
from collections.abc import Iterator, Sequence

import numpy as np

from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.part import MaterialNote
from extractor.sheet import LETTER, Sheet, Text
from extractor.sizing.lettering.note_words import BEFORE
from extractor.sizing.lettering.sheet_words import folded, meant, phrases, plain

_WORD = (
    r"(?:RAW\s+|PART\s+|BASE\s+)?(?:MATERIAL|MATERIALE|MATERIAU|MATÉRIAU|MATIERE|MATIÈRE|WERKSTOFF|WERKST\.?|WST\.?"
    r"|MAT'?L\.?|MAT\.|MATERIÁL|MATERIAŁ|МАТЕРИАЛ|МАТЕРІАЛ|ANYAG|MALZEME|MATERIAAL[IT]?|MATERIJAL|MATERJAL|MATÉRIA-PRIMA|ΥΛΙΚΟ|ΥΛΙΚΌ|材[質质料])"
)
_BOTH = rf"{_WORD}(?:\s*/\s*{_WORD})*(?:\s*\(\s*{_WORD}\s*\))?"
# "Material no." is as often the number of an article: only a steel number counts behind it.
_NUMBERED = late(r"(?:WERKSTOFF|MATERIAL|MAT\.?|W\.?)\s*-?\s*(?:NR|NO|NUMMER|NUMBER|#)\.?\s*[:=]?\s*(.*)", re.I | re.S)
STEEL_NUMBER = late(r"(?<![\d.])\d\.\d{4}(?!\d)")
_LABEL = late(rf"\s*{_BOTH}\s*[:：=]?\s*", re.I)
_TAG = late(rf"{_BOTH}|MAT(?:ERIAL)?[_-]?\d?", re.I)
"""The name by which a block asks for a material."""
_MARKED = late(rf"\s*(?:\d+[.)]\s*)?(?:{_BOTH}|MAT)\s*[:：=]\s*(\S.*)", re.I)
_PLAIN = late(rf"\s*(?:\d+[.)]\s*)?{_BOTH}(?:\s+|(?<=[質质料])\s*)(?:IS\s+|AUS\s+)?(\S.*)", re.I)
# Without a colon only a name is taken, no sentence: so many words, and none of these.
MOST_WORDS = 4
_SENTENCE = late(
    r"\b(?:TO|MUST|SHALL|SHOULD|MAY|IS|ARE|FREE|CONDITION|CERTIFICATE|CERT|REMOVAL|REMOVED|THICKNESS|SPEC\w*|LIST|CODE|GROUP"
    r"|SURFACE|HARDNESS|WEIGHT|COST|AND|OR|NR|NO|NUMBER|NUMMER|ZEUGNIS|PRÜF\w*|NACH|PER|SEE|SIEHE|FINISH|TREATMENT|BY)\b",
    re.I,
)
_BEFORE = late(
    rf"[\s,;(\[]*(?<![^\W\d_])(?:{BEFORE}|CHANGED FROM|ANCIEN\w*|VORMALS|VORHER|(?<!^)EX)(?![^\W\d_]):?\s+"
    r"(?:(?:EN|AW|AISI|SAE|DIN|BS|STEEL)[ -])*(?!\S*(?:HRC|HV|HB))(?=\S*\d)[^\s,;/()]{2,}\s*[)\].]?\s*$",
    re.I,
)
"""What the material was before, a name at the end: what is said of more than that, as of a hardness, is left whole."""
_EMPTY = late(
    r"(?:[-–—./*?\s]+|N/?A|NONE|TB[CD]|VARIOUS|DIVERSE?|ANY|OPTIONAL|FREE ISSUE|BEIGESTELLT|CUSTOMER\b.*|BY\b.*|PER\b.*"
    r"|(?:SEE|SIEHE|S\.|AS|ACC|WIE|NACH|LAUT)(?:\s.*)?)",
    re.I,
)
_OTHER_LABEL = late(
    r"\s*(?:SCALE|MA(?:SS|ß)STAB|DATE|DATUM|TITLE|TITEL|BENENNUNG|DRAWN|CHECKED|APPROVED|GEZ\w*|GEPR\w*|BEARB\w*|NAME|NORM|SHEET"
    r"|BLATT|REV\w*|SIZE|FORMAT|WEIGHT|GEWICHT|MASSE?|FINISH|SURFACE|OBERFLÄCHE|TOL\w*|UNITS?|DWG\w*|DRAWING\w*|ZEICHN\w*"
    r"|PART\w*|TEIL\w*|POS\.?|ITEM|QTY\.?|MENGE|STÜCK|NO\.?|NR\.?|PROJE\w*|CUSTOMER|KUNDE|HARDNESS|HÄRTE|HEAT\b.*|TREATMENT"
    r"|HALBZEUG|STOCK|ROHTEIL|DESCRIPTION|CODE|QUANTITY|INDEX|STATUS|[^:]{1,30}:)\s*:?\s*(?:NO\.?|NR\.?|BY|NAME)?\s*",
    re.I,
)
_PIECE = rf"(?:Ø|\b(?:DIA(?:METER)?|RD|{phrases('bar', 'round', 'raw')})\b\.?)"
_SIZES = late(
    rf"(?=.*(?:Ø|DIA|RD|\d\s*{BY}|[A-Z]{{3}}))(?:\W*{_PIECE})*\W*{NUMBER}(?:\W*(?:MM|LG|LONG|LANG|[HK]\d+|{_PIECE}))*"
    rf"(?:\s*{BY}\W*(?:{_PIECE}\W*)*{NUMBER}(?:\W*(?:MM|LG|LONG|LANG))*)*\W*",
    re.I,
)
"""The sizes of a bar or a tube, which a cell for the raw material has as well as its name."""
# AISI and aluminium numbers have three or four digits, those of GB and GOST two, those of CSN two and three.
_NUMBER = late(r"\d{2,4}|\d{2} ?\d{3}")
_LABELS = late(r"\s*[^\W\d_][^\d\n]{2,30}:?\s*")
_DATE_OR_SCALE = late(r"[\d\s./:-]+")
# How far a value may begin from its label: to the right of its end, below it, aside of its begin; and off its line.
RIGHT, BELOW, ASIDE, LEVEL = 30.0, 4.5, 6.0, 0.7
# A value in letters so much higher than the label's is one beyond doubt (ISO 7200 has the label small, from memory).
HIGHER = 1.15
# A text at the label's own margin, within so many heights, is of the same column.
MARGIN = 0.5
_NO_VALUE = late(
    r"\b(?:DIMENSIONS?|MASSE|MA(?:SS|ß)E|MILLIMET\w*|INCH\w*|TOLERANC\w*|TOLERANZ\w*|ANGLE|PROJECTION|UNLESS|BREAK|DEBURR"
    r"|ENTGRATEN|EDGES?|KANTEN|ASSEMBLY|COPYRIGHT|CONFIDENTIAL)\b",
    re.I,
)
LONGEST = 80
# So many lines with words stand on no sheet of one part.
MOST_LINES = 500
# What a name has: two letters, one and two digits, or the number of a steel.
_LETTERS = late(r"[^\W\d_].*[^\W\d_]|[^\W\d_]\d\d|\d\.\d{4}")


def material_notes(sheet: Sheet) -> tuple[MaterialNote, ...]:
    """Every material that the sheet names, each once, those on it before those of the layouts around."""
    on_sheet = list(_in(sheet.texts))
    on_paper = [MaterialNote(note.text) for note in _in(sheet.around)]
    seen: dict[str, MaterialNote] = {}
    for note in (*on_sheet, *on_paper):
        seen.setdefault("".join(note.text.split()).upper(), note)
    return tuple(seen.values())


def lines_of(sheet: Sheet) -> tuple[MaterialNote, ...]:
    """Lines of text that may be the name of a material by themselves, each once; most are not.

    What stands behind or under a label of another matter, in smaller letters or with a colon, is a value of that. Where
    there are more than MOST_LINES, none counts.
    """
    found: dict[str, tuple[Text, bool]] = {}
    for texts, on_sheet in ((sheet.texts, True), (sheet.around, False)):
        for text in texts:
            for line in map(str.strip, text.text.split("\n")):
                if len(line) <= LONGEST and _LETTERS.search(line) and len(found) <= MOST_LINES:
                    found.setdefault(line, (text, on_sheet))
    if len(found) > MOST_LINES:
        return ()
    labels = {on_sheet: _Labels(texts) for texts, on_sheet in ((sheet.texts, True), (sheet.around, False))}
    return tuple(
        MaterialNote(line, text.at if on_sheet else None)
        for line, (text, on_sheet) in found.items()
        if not labels[on_sheet].name(text)
    )


class _Labels:
    """Texts that may be labels: words without figures."""

    def __init__(self, texts: Sequence[Text]) -> None:
        """Their places, heights, lengths and directions as columns."""
        some = [text for text in texts if _LABELS.fullmatch(text.text) and text.height > 0]
        rows = [(*t.at, t.height, LETTER * len(t.text.strip()) * t.height, math.radians(t.angle)) for t in some]
        self._rows = np.array(rows, dtype=float).reshape(-1, 5).T
        self._marked = np.array([text.text.rstrip().endswith((":", "：")) for text in some], dtype=bool)

    def name(self, text: Text) -> bool:
        """True if one in smaller letters or with a colon stands at the left of a text on its line, or over it."""
        x, y, height, length, angle = self._rows
        tall = np.maximum(height, text.height)
        run, rise = text.at[0] - x, text.at[1] - y
        along = (run * np.cos(angle) + rise * np.sin(angle)) / tall
        up = (rise * np.cos(angle) - run * np.sin(angle)) / tall
        behind = along - length / tall
        beside = (np.abs(up) <= LEVEL) & (behind >= -1.0) & (behind <= RIGHT)
        over = (up >= -BELOW) & (up < -LEVEL) & (np.abs(along) <= ASIDE)
        return bool(((beside | over) & (self._marked | (height * HIGHER <= text.height))).any())


def _in(texts: Sequence[Text]) -> Iterator[MaterialNote]:
    """The materials that texts of one space name."""
    for text in texts:
        lines = text.text.split("\n")
        for place, line in enumerate(lines):
            value = material_said(line)
            if value is None and text.tag and _TAG.fullmatch(text.tag):
                value = None if meant("standard").fullmatch(folded(line)) else _worth(line)
            elif value is None and _LABEL.fullmatch(line):
                value = _worth(lines[place + 1]) if place + 1 < len(lines) else _in_cell(text, texts)
            if value:
                yield MaterialNote(value, text.at)


def material_said(line: str) -> str | None:
    """The material that one line names behind its word for it."""
    if found := _NUMBERED.match(line.strip()):
        return found[1].strip()[:LONGEST] if STEEL_NUMBER.match(found[1].strip()) else None
    if found := _MARKED.fullmatch(line):
        return _worth(found[1])
    found = _PLAIN.fullmatch(line)
    if found and not _SENTENCE.search(found[1]) and len(found[1].split()) <= MOST_WORDS:
        return _worth(found[1])
    return None


def _worth(value: str) -> str | None:
    """A value that may name a material, None for a dash, a hint elsewhere, a date or a scale."""
    value = _BEFORE.sub("", " ".join(value.split()))[:LONGEST]
    if not value or _EMPTY.fullmatch(value) or _SIZES.fullmatch(plain(normalised(value))):
        return None
    if _DATE_OR_SCALE.fullmatch(value) and not STEEL_NUMBER.search(value):
        return value if _NUMBER.fullmatch(value) else None
    return value


def _in_cell(label: Text, texts: Sequence[Text]) -> str | None:
    """What stands in the cell that a label names, to the right of it on its line or below it."""
    right, below = list[tuple[float, Text]](), list[tuple[float, Text]]()
    for text in texts:
        tall = max(label.height, text.height)
        if text is label or min(label.height, text.height) <= 0 or abs(label.angle - text.angle) > 1.0:
            continue
        along, up = _apart(label, text)
        behind = along - LETTER * len(label.text.strip()) * label.height / tall
        if abs(up) <= LEVEL and -1.0 <= behind <= RIGHT:
            right.append((max(0.0, behind), text))
        if -BELOW <= up < -LEVEL and abs(along) <= ASIDE:
            below.append((-up + abs(along) / 2, text))
    found = [_value_of(min(near, key=lambda one: one[0], default=(0.0, None))[1]) for near in (right, below)]
    if None not in found:
        # The one in larger letters counts, else what is below at the label's own margin is the next label in a column.
        larger = [text is not None and text.height > HIGHER * label.height for text in found]
        at_margin = found[1] is not None and abs(_apart(label, found[1])[0]) <= MARGIN
        first = larger[0] if larger[0] is not larger[1] else at_margin
        found = found[:1] if first else found[1:]
    value = next((text for text in found if text is not None), None)
    return None if value is None else _worth(value.text.split("\n")[0])


def _value_of(text: Text | None) -> Text | None:
    """A text that may be a label's value, None for another label or a sentence."""
    line = "" if text is None else text.text.split("\n")[0]
    is_label = (
        _OTHER_LABEL.fullmatch(line) or _LABEL.fullmatch(line) or _SENTENCE.search(line) or _NO_VALUE.search(line)
    )
    return None if is_label else text


def _apart(label: Text, text: Text) -> tuple[float, float]:
    """How far a text begins along a label's line and above it, in heights of the larger of both."""
    (along, up), tall = label.seen(text.at), max(label.height, text.height)
    return along / tall, up / tall
