"""Words that are led to a groove and that no rule here takes up: what they ask for is told, and left to a person.

Rules: harmless words (`harmless`), a number of an item or of another note ask for nothing that is not drawn. Any other
may, as `DELETED`, `ONLY FOR TYPE B` and `KEYWAY 3x2` do; so does a detail that is not on the sheet.
"""

import re
from collections.abc import Iterator

from extractor.finding import Finding
from extractor.grammar import WORDED, normalised
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.lettering.corner_words import is_corner_note, led_corners
from extractor.sizing.lettering.groove_notes import capitals, groove_note, is_count
from extractor.sizing.lettering.note_kinds import kinds_of
from extractor.sizing.lettering.note_sides import sided
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.pointers import led, led_sizes, said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import DETAIL, VIEW, about, folded, meant
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.callouts import called_out
from extractor.sizing.notes.groove_forms import form_said
from extractor.sizing.notes.note_checks import is_note
from extractor.sizing.notes.note_findings import note_unread
from extractor.sizing.notes.note_places import led_to
from extractor.sizing.notes.other_notes import is_other_note
from extractor.sizing.sentences.could_size import ABOUT_GROOVE, WORD
from extractor.sizing.sentences.harmless import LED
from extractor.sizing.sentences.void_words import asks

NAMED = late(rf"\b\w*?{GROOVE}", re.I)
"""A groove by its name, with what it is for before it in one word or not."""
USUAL_ANGLES = (15, 20, 30, 45, 60, 75, 90, 120)
"""Degrees of chamfers, walls and points (common practice, no source): a ? behind one is a sign that was lost."""
LOST_SIGN = "".join(rf"(?<!(?<![\d.,]){angle})" for angle in USUAL_ANGLES)
QUERIED = late(rf"(?<![^\W\d_]){LOST_SIGN}\?(?!\w)|\bs[./]b\b")
"""A question in the place of a figure or behind it, or what it should be (`s/b`), in a folded line.

What an export put in the place of a letter, or of the sign behind an angle, is none.
"""
ASKED = late(r"\W*\?\W*")
"""A question and nothing else."""
FIGURE = late(r"\d")
ON_SHEET = late(rf"\b(?:{DETAIL}|{VIEW})\W*(?P<letter>[a-z])\b")
"""A detail or a view by its letter."""


def led_words_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each note led to a groove that has a word nobody here knows."""
    texts = [folded(text.text) for text in sheet.texts]
    for note in said(sheet, _strange):
        groove = led_to(note, features)
        rounded = groove is not None and groove.shape == "round" and about(folded(note.words), "full_radius")
        if groove is not None and not rounded and not _shown(folded(note.words), texts):
            yield note_unread(normalised(note.words), note.tip or note.at, groove)


def led_texts(sheet: Sheet) -> Iterator[tuple[Text, Dimension]]:
    """The texts of notes and of sizes that loose lines lead to a place, each as the leader that it is."""
    yield from led_sizes(sheet)
    texts = {(text.at, text.text): text for text in sheet.texts}
    own = {(d.text, d.points[0]) for d in sheet.dimensions if d.kind is DimensionKind.LEADER}
    for note in said(sheet, lambda words: is_note(words) or _strange(words)):
        text = texts.get((note.at, note.words))
        if text is not None and note.tip is not None and (note.words, note.tip) not in own:
            yield text, led(note.words, note.tip, note.at)


@remembered
def _strange(words: str) -> bool:
    """True for words of which no rule takes up all, and that are no harmless ones alone."""
    if queried(words) or ASKED.fullmatch(words):
        return True
    if form_said(words) is not None:
        return False
    understood = groove_note(words) is not None or called_out(words) is not None or is_count(words)
    understood = understood or bool(kinds_of(words))
    if not understood and about(folded(words), "to_suit"):
        return True
    # What names no groove may be in any language: others ask where its figure may be a size.
    asked = is_note(words) and (understood or not ABOUT_GROOVE.search(capitals(words)))
    held = asked or is_corner_note(words) or led_corners(words) or is_other_note(words) or asks(words)
    return not held and has_strange(words)


def queried(words: str) -> bool:
    """True for a size that is left open, or marked up with what it should be.

    >>> queried("4 x ?"), queried("s/b 4.5"), queried("1x45?"), queried("H?HE 4")
    (True, True, False, False)
    """
    return QUERIED.search(folded(words)) is not None and FIGURE.search(words) is not None


@remembered
def has_strange(words: str) -> bool:
    """True for words among which is one that nobody here knows, but for those of a bare size."""
    sized = parse(words).sign and WORDED.fullmatch(normalised(words))
    if sized or not WORD.search(words):
        return False
    line = meant("groove_bent").sub(" ", folded(NAMED.sub(" ", sided(capitals(words))[0])))
    return WORD.search(LED.sub(" ", line)) is not None


def _shown(line: str, texts: list[str]) -> bool:
    """True for a line that is about nothing but a detail or a view which some other text heads."""
    found = ON_SHEET.search(line)
    if found is None or WORD.search(LED.sub(" ", ON_SHEET.sub(" ", line))):
        return False
    heads = (one for one in texts if one != line)
    return any(re.fullmatch(rf"\W*(?:{DETAIL}|{VIEW})?\W*{found['letter']}\b[\W\d]*", one) for one in heads)
