"""Notes led to a groove that give its sizes in two or three signs: `t=2.5`, `4 (3x)`, `3/35`, `4/2.5`.

Rules: a depth stands behind its letter; what is counted may be a width or a depth; of two figures with a stroke between
them the first is the width and the other the floor's diameter, or the depth where the groove has one of the two. Others
of that form are limits, roughnesses or fractions of an inch (common practice, no source).
"""

import re
from dataclasses import replace

from extractor.grammar import FRACTION, NUMBER, coarsest, normalised
from extractor.part import Groove
from extractor.sizing.lettering import note_words
from extractor.sizing.lettering.groove_notes import GrooveNote, capitals, groove_note
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.lettering.printed import FINISH, Printed
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import sizes_drawn
from extractor.sizing.notes.note_places import led_to
from extractor.sizing.sentences.could_size import could_be

BY_LETTER = re.compile(
    r"\W*(?:(?P<before>\d+)\s*[x×]\s*)?t\s*=\s*(?P<deep>\d.*?)(?:\s*\(\s*(?P<behind>\d+)\s*[x×]\s*\))?\s*", re.I
)
"""The depth of a groove by its letter, as tables of rings have it (DIN 471 and DIN 3771, from memory)."""
COUNTED_BEHIND = re.compile(rf"\W*(?P<size>{NUMBER})\s*\(\s*(?P<count>\d+)\s*(?:[X×]|{note_words.GROOVE})\s*\)\W*")
"""A size with how many grooves have it, which may be their width or their depth."""
BY_STROKE = re.compile(rf"\W*(?P<wide>{NUMBER})\s*/\s*(?P<other>{NUMBER})\W*")
FLOOR_OVER = 3.0
"""A floor's diameter over a width is more than so many times as large: limits and roughnesses are not."""


def is_short(words: str) -> bool:
    """True for a note of one of these forms, but for a width and a depth, which are one only at a leader.

    >>> [is_short(one) for one in ("t=2.5", "4 (3x)", "3/35", "4/2.5")]
    [True, True, True, False]
    """
    short = BY_LETTER.fullmatch(words) or COUNTED_BEHIND.fullmatch(capitals(words)) or _over_a_floor(words)
    return bool(short)


def may_be_short(words: str) -> bool:
    """True for a note of any of these forms.

    >>> [may_be_short(one) for one in ("4 (3x)", "4/2.5", "3/4", "4/3.9", "3.2/1.6", "4x2.5")]
    [True, True, False, False, False, False]
    """
    return is_short(words) or _by_stroke(words) is not None


def in_short(note: PointedNote, features: Features) -> GrooveNote | None:
    """What such a note gives of the groove that it is led to, None where it is led to none or gives nothing."""
    groove = led_to(note, features)
    if groove is None:
        return None
    if found := BY_LETTER.fullmatch(note.words):
        count = found["before"] or found["behind"]
        return groove_note(f"GROOVE T={found['deep']} {count}x" if count else f"DEPTH {found['deep']}")
    if found := COUNTED_BEHIND.fullmatch(capitals(note.words)):
        one, deep = (groove_note(f"GROOVE {found['size']} {what} ({found['count']}x)") for what in ("WIDE", "DEEP"))
        both = (*one.meanings, *deep.meanings) if one and deep else ()
        return replace(one, words=normalised(note.words), meanings=both) if one else None
    over = _by_stroke(note.words)
    if over is None:
        return None
    if _over_a_floor(note.words):
        return groove_note(f"{over['wide']} x Ø{over['other']}")
    sized = groove_note(f"{over['wide']} x {over['other']}") if _is_depth(over, groove, features) else None
    return replace(sized, words=normalised(note.words)) if sized else None


def _by_stroke(words: str) -> re.Match[str] | None:
    """Two figures with a stroke between them that are no fraction, no limits and no roughnesses."""
    found = BY_STROKE.fullmatch(normalised(words))
    one, other = (float(found["wide"]), float(found["other"])) if found else (0.0, 0.0)
    fraction = found is not None and one < other and FRACTION.fullmatch(found[0].strip())
    limits = 0 < abs(one - other) <= coarsest(max(one, other))
    return None if fraction or limits or (one in FINISH and other in FINISH) else found


def _over_a_floor(words: str) -> bool:
    """True for two figures of which the one may be the width of a groove and the other its floor."""
    found = _by_stroke(words)
    return found is not None and float(found["other"]) > FLOOR_OVER * float(found["wide"])


def _is_depth(over: re.Match[str], groove: Groove, features: Features) -> bool:
    """True where one figure is the width or the depth of a groove, and the other may be meant for the other of both."""
    wide, other = Printed.of(over["wide"]), Printed.of(over["other"])
    widths, depths = (sizes_drawn(field, groove, features) for field in ("width", "depth"))
    by_width = features.fits(wide, *widths) and could_be(other.value, *depths)
    return by_width or (features.fits(other, *depths) and could_be(wide.value, *widths))
