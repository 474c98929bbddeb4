"""What a hand crossed out, a groove or the whole view, and sizes that it struck out (common practice, no source).

The two lines of a cross slant, are about as long as one another, cross in their middles and hang free at their ends.
The diagonals of a flat end in its corners, and the cross in the middle of a hole runs along and across.

A stroke through a size runs through the middle of the text, over half of it or of its height, hangs free at both ends
and meets nothing but another such stroke. One that goes on farther is of the drawing, one that meets another is its
tick or its extension line, and one under the text, or round it, marks it otherwise.
"""

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.boxes import box_of
from extractor.grammar import normalised
from extractor.part import Part
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.sheet import Floats, Segments, Sheet, Text
from extractor.sizing.lettering.pointers import box_of as text_box
from extractor.sizing.lettering.pointers import middle_of
from extractor.sizing.measured.features import Features
from extractor.viewing.outline import Folded
from extractor.viewing.roles import solid_strokes
from extractor.viewing.tips import Tips, tips_of

SLANT = math.radians(15.0)
"""Least lean of either line against the axis and against what is square to it."""

AMID = 0.1
"""Share of a line's length within which both have their middles."""

AS_LONG = 1.25
"""One line over the other, at most."""

OVER = 0.5
"""A cross over this share of the view's length at least, from about its middle, is over the view."""


def crossed_out(segments: Segments, folded: Folded, found: Found) -> Finding | None:
    """The stop for a cross over a groove or over the view, None where there is none."""
    for middle, box in _crosses(tips_of(solid_strokes(segments), folded.near), folded):
        wide, (z, _) = box[2] - box[0], middle
        view = folded.view
        if wide >= OVER * (view.high - view.low) and view.low <= z <= view.high:
            return _told("the view", folded.place(*middle))
        if _recess_under(middle, box, (*found.outside, *found.inside), folded.close) is not None:
            return _told("the groove", folded.place(*middle))
    return None


def _crosses(tips: Tips, folded: Folded) -> list[tuple[Point, Floats]]:
    """The crosses at a view: the middle (z, r) of each and its box, least and greatest z and r, float (4,)."""
    if not len(tips.strokes):
        return []
    ends = folded.axis.fold(tips.at).reshape(-1, 2, 2)
    run = ends[:, 1] - ends[:, 0]
    lean = np.arctan2(np.abs(run[:, 1]), np.abs(run[:, 0]))
    fit = (tips.strokes.bulge == 0) & (lean >= SLANT) & (lean <= math.pi / 2 - SLANT)
    rows = np.flatnonzero(fit)
    middles = shapely.points(ends[rows].mean(axis=1))
    one, two = rows[shapely.STRtree(middles).query(middles, "dwithin", AMID * tips.sizes[rows])]
    pairs = (one < two) & (run[one].prod(axis=1) * run[two].prod(axis=1) < 0)
    sizes = np.sort(np.column_stack([tips.sizes[one], tips.sizes[two]]), axis=1)
    pairs &= sizes[:, 1] <= AS_LONG * sizes[:, 0]
    made = list[tuple[Point, Floats]]()
    for pair in np.column_stack([one, two])[pairs].tolist():
        if all(tips.hangs(tip, set(pair)) for k in pair for tip in (2 * k, 2 * k + 1)):
            places = ends[pair].reshape(-1, 2)
            z, r = places.mean(axis=0).tolist()
            made.append(((z, r), box_of(places)))
    return made


def _recess_under(middle: Point, box: Floats, row: Sequence[Measured], near: float) -> Measured | None:
    """The recess that a cross lies over: its middle between the walls, and its box over floor or mouth or between."""
    low, high = sorted((abs(box[1]), abs(box[3])))
    low = 0.0 if box[1] < 0 < box[3] else low
    for m in row:
        inner, outer = sorted((m.floor, m.mouth))
        if m.z_far - near <= middle[0] <= m.z_near + near and low <= outer + near and high >= inner - near:
            return m
    return None


def _told(what: str, at: Point) -> Finding:
    words = (
        f"Two lines cross over {what} at {place_words(at)}, as where something is crossed out: ask whether it is to be "
        "made; take them away, or accept it if they say something else."
    )
    return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words, at)


BEYOND = 0.8
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
    boxes = np.array([text_box(text) for text in texts])
    grown = shapely.buffer(boxes, np.array([BEYOND * t.height for t in texts]), join_style="mitre")
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
