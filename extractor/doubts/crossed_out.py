"""Two lines that cross over a groove or over the whole view: a hand crossed that out (common practice, no source).

Both slant, are about as long as one another, cross in their middles and hang free at their ends. The diagonals of a
flat end in its corners, and the cross in the middle of a hole runs along and across.
"""

import math
from collections.abc import Sequence

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.boxes import box_of
from extractor.recess.recognise import Found
from extractor.recess.shapes import Measured
from extractor.sheet import Floats, Segments
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
