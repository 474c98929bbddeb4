"""Sizes across flats, of a part that was read round: at a dimension or a leader, and in notes.

Rules: one on a land as wide is that land's. A note that no leader ties to the part is of flats milled into it, if it is
smaller than the part; lines that cross over a flat (ISO 128-3, from memory) show that they are drawn.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.sheet import Sheet
from extractor.sizing.lettering.flat_sizes import flat_size
from extractor.sizing.lettering.pointers import led, said
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import tie_of

ROUND = ("land_diameter", "step_diameter", "floor_diameter")
"""What a dimension or a leader may measure that is no hexagon where it was read round."""
LEAST = 0.3
"""Share of a part's diameter that flats milled into it leave at least: less is the square end of another thing, or a
tolerance of how square a face is."""


def flat_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each size across flats on a dimension or a leader of a land that was read round, and is as wide."""
    sized = [d for d in sheet.dimensions if d.measured > 0 and d.text and flat_size(d.text)]
    notes = said(sheet, lambda words: flat_size(words) is not None)
    for dimension in (*sized, *(led(note.words, note.tip, note.at) for note in notes if note.tip is not None)):
        words, tie = dimension.text or "", tie_of(dimension, features)
        flat, figure = flat_size(words), parse(words)
        if flat is None or tie is None or tie.field not in ROUND or figure.sign:
            continue
        both = (replace(figure, size=one, sizes=(one,)) for one in (flat.size, flat.over_corners))
        if any(features.fits(one, tie.true) for one in both):
            what = "the side of a square" if flat.shape == "square" else "a size across flats"
            told = (
                f'"{normalised(words)}" is {what} where the part was read round, {tie.true:.6g} across: see what it is '
                "of."
            )
            yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, told, dimension.points[0])


def free_flats(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each note of a size across flats that the part may have, if no lines cross as over flats."""
    across = features.part.outer_diameter
    for note in said(sheet, lambda words: flat_size(words) is not None):
        flat = flat_size(note.words)
        if flat is None or note.tip is not None or parse(note.words).sign or not LEAST * across <= flat.size < across:
            continue
        if _crossed(sheet, features):
            return
        told = (
            f'The note "{normalised(note.words)}" gives a size across flats, and the part was read round: see whether '
            "they are on it, and whether they reach a groove."
        )
        yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, told, note.at)


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
