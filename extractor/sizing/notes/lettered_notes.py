"""Legends that size grooves by a letter, held where the letter stands at a groove: `A = 4 x Ø33`, and an A over it.

Rules: the legend has two sizes at least, or names them; a single figure is that of dimensions, which `viewing.variants`
resolves. A letter of a standing text is of the groove beside which it stands, one with a leader of what that touches.
A tolerance in such a legend is given to no groove.
"""

import re
from collections.abc import Iterator

from extractor.finding import Finding
from extractor.grammar import normalised
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import GrooveNote, capitals, groove_note
from extractor.sizing.lettering.letters import NO_SIZE
from extractor.sizing.lettering.lists import with_items
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.pointers import said
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.note_faults import COUNTS, hold
from extractor.sizing.notes.note_findings import note_stop, tolerance_unread
from extractor.sizing.notes.note_places import tied_to

LEGEND = re.compile(rf"\W*(?:{GROOVE}\W+)?(?P<name>[A-Z]\d?)\s*[=:]\s*(?P<sizes>.+)")
"""A letter, with a number where there are several of a kind, and what it stands for (common practice, no source)."""


def lettered_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A stop for each letter at a groove that its legend does not fit, a caution for a tolerance in such a legend."""
    legends = _legends(sheet)
    sized = {d.at for d in sheet.dimensions if d.at is not None}
    places = said(sheet, lambda words: normalised(words) in legends) if legends else ()
    for place in (note for note in places if note.at not in sized):
        words, note = legends[normalised(place.words)]
        for groove in tied_to(place, features, sure=True)[:1]:
            faults = tuple(fault for fault in hold(note, groove, features) if not fault.startswith(COUNTS))
            at = place.tip or place.at
            if faults:
                yield note_stop(words, faults, groove, at, limited=note.limited > 0)
            elif note.limited:
                yield tolerance_unread(words, at)


def _legends(sheet: Sheet) -> dict[str, tuple[str, GrooveNote]]:
    """By letter the legend of each that has only one, as it is written, and the note that it stands for."""
    found: dict[str, dict[str, GrooveNote]] = {}
    for text in with_items(sheet).everywhere:
        legend = LEGEND.fullmatch(capitals(text.text))
        note = groove_note(legend["sizes"]) if legend and not NO_SIZE.fullmatch(legend["name"]) else None
        if legend and note and (note.sure or len(note.meanings[0].sizes) > 1):
            found.setdefault(legend["name"], {})[normalised(text.text)] = note
    return {name: next(iter(notes.items())) for name, notes in found.items() if len(notes) == 1}
