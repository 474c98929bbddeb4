"""Ink drawn a second time a hair beside the first: the copy goes, as each of its lines would be a line of its own.

One shift brings nearly every line of one pen and layer onto another of them, lines of two directions among them. No
part looks so: where walls lie so near one another, they lie to both sides. The first of each stays.
"""

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.geometry.boxes import diagonal_of
from extractor.opening.doubles import looks_of
from extractor.sheet import Floats, Ints, Segments

ENOUGH = 8
"""So many lines of one look may be drawn twice, at least: the outline of a plain disc and its copy are eight."""

TINY = 5e-4
"""A copy lies beside the first by this share of what is drawn so, at most: 0.05 on a part of 100, a slip of a hand."""

NEARLY = 0.9
"""Share of the lines that have a twin: a line or two were added or trimmed since."""

SAME = 1e-6
"""Share of what is drawn so within which two places are one: shifts of equal lines that went through a file."""

WAYS = 2
"""Lines drawn twice run in so many directions: those of a dense hatching run in one."""

PROBES = 8
"""So many of the longest lines are asked for twins first; where half of them have none, nothing was drawn twice."""


def without_copies(segments: Segments) -> tuple[Segments, list[Finding]]:
    """The segments without second copies of all that is drawn alike, and the caution for them."""
    if len(segments) < ENOUGH:
        return segments, []
    look = looks_of(segments.sources)[segments.source]
    counts = np.bincount(look)
    rows = [np.flatnonzero(look == k) for k in np.flatnonzero(counts >= ENOUGH).tolist()]
    copies = [own[_copies(segments.ends[own], segments.bulge[own])] for own in rows]
    gone = np.concatenate([np.zeros(0, dtype=np.int64), *copies])
    if not len(gone):
        return segments, []
    kept = np.setdiff1d(np.arange(len(segments)), gone)
    x, y = segments.ends[gone.min(), :2].tolist()
    words = (
        f"{len(gone)} lines are drawn twice, the second time a hair beside the first, one of them at "
        f"{place_words((x, y))}: the first of each was read; take the copies away."
    )
    left = Segments(segments.ends[kept], segments.bulge[kept], segments.source[kept], segments.sources)
    return left, [Finding(Level.CAUTION, DrawingCode.DRAWN_TWICE, words, (x, y))]


def _copies(ends: Floats, bulge: Floats) -> Ints:
    """Rows of segments of one look, ends float (n, 4), that are the copy of another, none where few are.

    Nor where one copy has another beside it: so the lines of a filling follow one another.
    """
    back = (ends[:, 0] > ends[:, 2]) | ((ends[:, 0] == ends[:, 2]) & (ends[:, 1] > ends[:, 3]))
    ends, bulge = np.where(back[:, None], ends[:, [2, 3, 0, 1]], ends), np.where(back, -bulge, bulge)
    across, none = diagonal_of(ends.reshape(-1, 2)), np.zeros(0, dtype=np.int64)
    form = np.column_stack([ends[:, 2:] - ends[:, :2], bulge * across])
    shift = _shift(ends, form, across)
    if shift is None:
        return none
    middles = (ends[:, :2] + ends[:, 2:]) / 2
    first, second = shapely.STRtree(shapely.points(middles)).query(
        shapely.points(middles + shift), "dwithin", SAME * across
    )
    like = (np.abs(form[first] - form[second]).max(axis=1) <= SAME * across) & (first < second)
    first, second = first[like], second[like]
    paired = np.union1d(first, second)
    if (
        len(paired) < NEARLY * len(ends)
        or len(np.intersect1d(first, second))
        or np.linalg.matrix_rank(form[paired, :2], SAME * across) < WAYS
    ):
        return none
    return np.unique(second)


def _shift(ends: Floats, form: Floats, across: float) -> Floats | None:
    """The shift from first to second that most of the longest lines have to a twin a hair beside them, float (2,)."""
    found = list[Floats]()
    probes = np.argsort(-np.hypot(form[:, 0], form[:, 1]), kind="stable")[:PROBES]
    for k in probes.tolist():
        beside = ends[:, :2] - ends[k, :2]
        twin = (np.abs(form - form[k]).max(axis=1) <= SAME * across) & (np.hypot(*beside.T) <= TINY * across)
        twin[k] = False
        found += [beside[j] if j > k else -beside[j] for j in np.flatnonzero(twin).tolist()]
    if 2 * len(found) < len(probes):
        return None
    alike = [sum(np.abs(one - other).max() <= SAME * across for other in found) for one in found]
    return found[int(np.argmax(alike))]
