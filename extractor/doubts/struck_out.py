"""Sizes that a hand struck out: a stroke through the figures that ends at them on both sides.

Rules: the stroke runs through the middle of the text, over half of it or of its height, hangs free at both ends and
meets nothing but another such stroke. One that goes on farther is of the drawing, one that meets another is its tick or
its extension line, and one under the text, or round it, marks it otherwise (common practice, no source).
"""

from collections.abc import Iterator

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.grammar import normalised
from extractor.part import Part
from extractor.sheet import Floats, Sheet, Text
from extractor.sizing.lettering.pointers import box_of, middle_of
from extractor.sizing.measured.features import Features
from extractor.viewing.roles import solid_strokes
from extractor.viewing.tips import Tips, tips_of

OVER = 0.8
"""Letter heights by which such a stroke may go beyond the text."""
ALONG = 0.35
"""The same of a stroke along the text."""
LEVEL = 0.1
"""Rise of such a stroke over its length, at most."""
CORE = 0.25
"""Share of a text, of its length and of its height, that lies outside of its middle on either side."""
LEAST = 0.5
"""Share of a text's shorter side that such a stroke is long at least."""
MEET = 1e-4
"""Ends of strokes within so much, at true size, are one."""


def struck_out(sheet: Sheet, part: Part) -> Iterator[Finding]:
    """A caution for each size beside the part that is struck out."""
    if part.frame is None:
        return
    features = Features.of(part)
    texts = [t for t in sheet.texts if t.height > 0 and any(c.isdigit() for c in t.text)]
    texts = [t for t in texts if features.beside(middle_of(t))]
    if not texts:
        return
    strokes = solid_strokes(sheet.segments)
    tips = tips_of(strokes, MEET * features.frame.scale)
    lines = shapely.linestrings(tips.at.reshape(-1, 2, 2))
    boxes = np.array([box_of(text) for text in texts])
    grown = shapely.buffer(boxes, np.array([OVER * t.height for t in texts]), join_style="mitre")
    of_text, of_line = shapely.STRtree(lines).query(grown, predicate="contains")
    cores = np.array([_core(text) for text in texts])[of_text]
    sides = np.array([min(t.height, t.width) for t in texts])[of_text]
    through = shapely.intersects(cores, lines[of_line]) & (shapely.length(lines[of_line]) >= LEAST * sides)
    through &= strokes.bulge[of_line] == 0
    for k in np.unique(of_text[through]).tolist():
        text, over = texts[k], set(of_line[through & (of_text == k)].tolist())
        free = {j for j in over if all(tips.hangs(tip, over, text.height) for tip in (2 * j, 2 * j + 1))}
        if not any(_met(j, tips) <= free and not _is_foot(tips.at[2 * j : 2 * j + 2], text) for j in free):
            continue
        words = (
            f'A stroke runs through "{normalised(text.text)}" at {place_words(text.at)}, as where a size is struck '
            "out: see whether it still holds."
        )
        yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, text.at)


def _met(stroke: int, tips: Tips) -> set[int]:
    """The strokes that one meets, itself among them."""
    line = shapely.LineString(tips.at[2 * stroke : 2 * stroke + 2])
    return set(tips.tree.query(line, predicate="intersects").tolist())


def _is_foot(ends: Floats, text: Text) -> bool:
    """True for a stroke along a text that goes on beyond it, as an extension line does in whose way it stands."""
    (a, up), (b, other) = text.seen(ends[0]), text.seen(ends[1])
    beyond = max(-min(a, b), max(a, b) - text.width)
    return abs(other - up) <= LEVEL * abs(b - a) and beyond > ALONG * text.height


def _core(text: Text) -> shapely.Polygon:
    """The middle of a text of one line, or of its first."""
    low, high = CORE, 1.0 - CORE
    corners = ((low, low), (high, low), (high, high), (low, high))
    return shapely.Polygon([text.place(along * text.width, up * text.height) for along, up in corners])
