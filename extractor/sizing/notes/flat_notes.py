"""Sizes across flats, of a part that was read round: at a dimension or a leader, and in notes.

Rules: one on a land as wide is that land's. Any other at the part, and a note that stands free if it is smaller than
the part, is of flats milled into it; lines that cross over a flat (ISO 128-3, from memory) show that they are drawn.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering.flat_sizes import flat_size
from extractor.sizing.lettering.pointers import PointedNote, led, said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import about, folded
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import tie_of
from extractor.sizing.notes.note_findings import note_unread
from extractor.sizing.notes.note_places import led_to, on_part

ROUND = ("land_diameter", "step_diameter", "floor_diameter")
"""What a dimension or a leader may measure that is no hexagon where it was read round."""
LEAST = 0.3
"""Share of a part's diameter that flats milled into it leave at least: less is the square end of another thing, or a
tolerance of how square a face is."""


def flat_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each size across flats on a dimension of what was read round and is as wide, or in a note.

    A note is told if the part may have such flats and no lines cross as over them; one at the part also if it is larger
    than that, but for the bar that it is made of.
    """
    sized = [d for d in sheet.dimensions if d.measured > 0 and d.text and flat_size(d.text)]
    yield from (found for found in (_of_a_land(dimension, features) for dimension in sized) if found is not None)
    for note in said(sheet, lambda words: flat_size(words) is not None):
        own = _of_a_land(led(note.words, note.tip, note.at), features) if note.tip is not None else None
        if own is not None:
            yield own
        elif _may_be_milled(note, sheet, features):
            groove, words, at = led_to(note, features), normalised(note.words), note.tip or note.at
            told = (
                f'The note "{words}" gives a size across flats, and the part was read round: see whether they are on '
                "it, and whether they reach a groove."
            )
            unread = Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, told, at)
            yield note_unread(words, at, groove) if groove else unread


def _of_a_land(dimension: Dimension, features: Features) -> Finding | None:
    """The caution for a size across flats on a dimension or a leader of what was read round, and is as wide."""
    words, tie = dimension.text or "", tie_of(dimension, features)
    flat, figure = flat_size(words), parse(words)
    if flat is None or tie is None or tie.field not in ROUND or figure.sign:
        return None
    if not any(
        features.fits(replace(figure, size=one, sizes=(one,)), tie.true) for one in (flat.size, flat.over_corners)
    ):
        return None
    what = "the side of a square" if flat.shape == "square" else "a size across flats"
    told = f'"{normalised(words)}" is {what} where the part was read round, {tie.true:.6g} across: see what it is of.'
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, told, dimension.points[0])


def _may_be_milled(note: PointedNote, sheet: Sheet, features: Features) -> bool:
    """True for a note of flats that the part may have, or that it can not have, at it, and that are not drawn."""
    flat, across = flat_size(note.words), features.part.outer_diameter
    here = note.tip is not None and on_part(note.tip, features)
    if flat is None or (note.tip and not here) or parse(note.words).sign or about(folded(note.words), "bar"):
        return False
    if flat.size >= across:
        return here
    return (here or flat.size >= LEAST * across) and not _crossed(sheet, features)


def _crossed(sheet: Sheet, features: Features) -> bool:
    """True if two straight lines of the view cross in their middles, one the mirror image of the other."""
    ends = sheet.segments.ends[sheet.segments.bulge == 0].reshape(-1, 2).tolist()
    places = np.array([features.frame.on_part((x, y)) for x, y in ends]).reshape(-1, 2, 2)
    runs = places[:, 1] - places[:, 0]
    slanted = (np.abs(runs) > features.snap).all(axis=1)
    rows = np.column_stack([places.mean(axis=1), np.abs(runs)])[slanted]
    leans = (runs[slanted].prod(axis=1) > 0).tolist()
    found = set(zip(map(tuple, np.round(rows / features.snap).tolist()), leans, strict=True))
    return any((row, not lean) in found for row, lean in found)
