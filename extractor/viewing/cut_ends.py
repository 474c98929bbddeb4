"""What an end view shows cut into a round end, as a keyseat or a small flat, of which the view read has no line."""

from collections.abc import Set

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.part import ProfilePoints
from extractor.sheet import Pen, Sheet
from extractor.viewing.alike import ONE_PLACE, ONE_SIZE
from extractor.viewing.clusters import Ink
from extractor.viewing.end_views import as_large, one_size
from extractor.viewing.pictures import is_picture
from extractor.viewing.round_ends import is_round, nearest, round_about
from extractor.viewing.views import View

DENT = 0.01
"""Share of its radius by which a rim comes nearer its middle where something is cut into it: chords do by far less."""

LEVEL = 1e-3
"""Rise of a line over its length along the axis, at most."""


def cut_end(
    ink: Ink, sheet: Sheet, view: View, known: frozenset[int], outline: ProfilePoints, hollow: Set[float]
) -> Finding | None:
    """The caution for an end view that something is cut into, None where there is none or the view shows it as well.

    Clusters in `known` are views themselves; `hollow`: the radii of the bore and of recesses in the end faces.
    """
    for k, cluster in enumerate(ink.clusters):
        if k in known or not cluster.closed or cluster.plain:
            continue
        rim = ink.boundary(cluster)
        if not as_large(sheet, view, rim, plain=False) or not is_round(rim):
            continue
        middle, radius = round_about(rim)
        depth = radius - nearest(rim)
        if depth > DENT * radius and not is_picture(ink, sheet.segments, cluster):
            return None if _shown(sheet, view, outline, hollow) else _told(middle, radius)
    return None


def _shown(sheet: Sheet, view: View, outline: ProfilePoints, hollow: Set[float]) -> bool:
    """True if the view has a circle, or a line along its axis that is no edge of what was turned.

    A hidden line on one side alone is no edge of a bore.
    """
    if any(view.covers(c.centre) for c in sheet.circles if c.source.pen in (Pen.SOLID, Pen.HIDDEN)):
        return True
    near, line = ONE_PLACE * view.size, np.array(outline[::-1])
    solid, hidden = (_levels(sheet, view, pen) for pen in (Pen.SOLID, Pen.HIDDEN))
    alone = [(z, r) for z, r in hidden if not any(abs(r + other) <= near for _, other in hidden)]
    rows = [(z, r, hollow) for z, r in (*solid, *hidden)] + [(z, r, frozenset[float]()) for z, r in alone]
    return any(
        abs(r) > ONE_SIZE * view.reach
        and not any(one_size(abs(r), own) for own in (float(np.interp(z, *line.T)), *known))
        for z, r, known in rows
    )


def _levels(sheet: Sheet, view: View, pen: Pen) -> list[tuple[float, float]]:
    """The middle (z, r) of each line that runs along the axis in a view."""
    near = ONE_PLACE * view.size
    ends = sheet.segments.ends[sheet.segments.of(lambda source: source.pen is pen) & (sheet.segments.bulge == 0)]
    ends = ends[view.covering(ends[:, :2], near) & view.covering(ends[:, 2:], near)]
    a, b = view.axis.fold(ends[:, :2]), view.axis.fold(ends[:, 2:])
    level = np.abs(a[:, 1] - b[:, 1]) <= LEVEL * np.abs(a[:, 0] - b[:, 0])
    return [(z, r) for z, r in ((a + b) / 2)[level].tolist()]


def _told(middle: tuple[float, float], radius: float) -> Finding:
    words = (
        f"The end view at {place_words(middle)}, {2 * radius:.5g} across, has something cut into it, as a keyseat, of "
        "which the view read has no line: it was read as round; see what is milled there, and when."
    )
    return Finding(Level.CAUTION, DrawingCode.VIEWS_DIFFER, words, middle)
