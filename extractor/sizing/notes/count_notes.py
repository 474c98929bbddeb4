"""Counts in notes: one that stands alone at a leader, and one that is hid among sizes which fit all the same."""

import re
from collections.abc import Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.grammar import normalised
from extractor.part import Groove
from extractor.sizing.lettering.groove_notes import GrooveNote
from extractor.sizing.lettering.note_words import IN_BRACKETS
from extractor.sizing.lettering.pointers import PointedNote
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import like
from extractor.sizing.notes.note_faults import count_hid, count_words, hold
from extractor.sizing.notes.note_findings import note_stop
from extractor.sizing.notes.note_places import led_to


def of_count(note: PointedNote, features: Features) -> Iterator[Finding]:
    """What a count and nothing else contradicts at the groove that its leader touches."""
    found, groove = re.search(r"\d+", note.words), led_to(note, features)
    if found is None or groove is None:
        return
    equal, at = like(groove, ["width"], features), note.tip or note.at
    if int(found[0]) in equal:
        return
    fault = count_words(found[0], max(equal))
    if int(found[0]) in like(groove, [], features) or IN_BRACKETS.fullmatch(note.words):
        message = f'The note "{normalised(note.words)}" {fault}: see whether it counts those, or what else it means.'
        yield Finding(Level.CAUTION, DrawingCode.COUNT_DIFFERS, message, at, groove=groove.id)
    else:
        yield note_stop(normalised(note.words), (fault,), groove, at)


def count_asked(note: GrooveNote, groove: Groove, features: Features, at: Point) -> Iterator[Finding]:
    """The caution for a note that fits a groove and whose count, if it is one, is wrong."""
    fault = "" if hold(note, groove, features) else count_hid(note, groove, features)
    if fault:
        message = f'The note "{note.words}" may be meant otherwise than it fits: then it {fault}; see which it is.'
        yield Finding(Level.CAUTION, DrawingCode.COUNT_DIFFERS, message, at, groove=groove.id)
