"""Doubles go first: ink drawn twice counts once, and thousands of lines on top of one another stop any reader.

A segment drawn again by the same pen on the same layer, either way round, is dropped. Where many lines lie on one line,
as no draughtsman draws them, those that lie wholly within another go too. What is seen does not change.
"""

import numpy as np

from extractor.geometry.boxes import diagonal_of
from extractor.sheet import Floats, Ints, Segments, Source

CROWD = 100
"""More straight lines than this on one carrier are doubles in pieces; a drawing has some dozens (hatching, dashes)."""

SAME_LINE = 1e-7
"""Lines lie on one carrier if their directions and places, rounded to this share of the sheet, are the same."""

MIX = np.uint64(0x9E3779B97F4A7C15)
"""An odd number that spreads the bits of what is multiplied by it: 2^64 by the golden ratio."""


def without_doubles(segments: Segments) -> Segments:
    """The segments without those that add no ink, the first of each kept, in their order."""
    if len(segments) < 2:
        return segments
    looks = looks_of(segments.sources)
    kept = _first_of_each(segments, looks)
    kept = kept[_not_within(segments, looks, kept)]
    return Segments(segments.ends[kept], segments.bulge[kept], segments.source[kept], segments.sources)


def looks_of(sources: tuple[Source, ...]) -> Ints:
    """A number for the look of each source: pen, layer, what it was expanded from, its role, how wide it is inked.

    What is filled looks like nothing else: areas side by side share a line, and each needs its whole border.
    """
    numbers: dict[tuple[object, ...], int] = {}
    looks = [(s.pen, s.layer, s.owner, s.curve, s.role, s.width, s.filled and s.handle) for s in sources]
    return np.array([numbers.setdefault(look, len(numbers)) for look in looks], dtype=np.int64)


def _first_of_each(segments: Segments, looks: Ints) -> Ints:
    """Rows of the segments that are not an earlier one again, in order."""
    e, look = segments.ends, looks[segments.source]
    turned = (e[:, 0] > e[:, 2]) | ((e[:, 0] == e[:, 2]) & (e[:, 1] > e[:, 3]))
    ends = np.where(turned[:, None], e[:, [2, 3, 0, 1]], e)
    bulge = np.where(turned, -segments.bulge, segments.bulge)
    first = _first_alike(np.column_stack([ends, bulge, look]) + 0.0)
    return np.flatnonzero(first == np.arange(len(first)))


def _first_alike(rows: Floats) -> Ints:
    """For each row, float (n, m), the number of the first row that is the same one, int (n,)."""
    mixed = np.zeros(len(rows), dtype=np.uint64)
    for column in np.ascontiguousarray(rows.T):
        mixed = (mixed ^ column.view(np.uint64)) * MIX
        mixed ^= mixed >> np.uint64(29)
    _, first, inverse = np.unique(mixed, return_index=True, return_inverse=True)
    found = first[inverse.reshape(-1)]
    same = (rows[found] == rows).all(axis=1)
    return np.where(same, found, np.arange(len(rows))).astype(np.int64)


def _not_within(segments: Segments, looks: Ints, rows: Ints) -> Ints:
    """Of the rows, the indices of those that no other straight line of a crowd on the same carrier covers."""
    e = segments.ends[rows]
    d = e[:, 2:] - e[:, :2]
    length = np.hypot(*d.T)
    straight = np.flatnonzero((segments.bulge[rows] == 0) & (length > 0))
    if len(straight) <= CROWD:
        return np.arange(len(rows))
    size = diagonal_of(e.reshape(-1, 2))
    look = looks[segments.source[rows]][straight]
    along = d[straight] / length[straight, None]
    along[(along[:, 0] < -SAME_LINE) | ((np.abs(along[:, 0]) <= SAME_LINE) & (along[:, 1] < 0))] *= -1
    mid = e.reshape(-1, 2).mean(axis=0)
    start, end = e[straight, :2] - mid, e[straight, 2:] - mid
    across = start[:, 1] * along[:, 0] - start[:, 0] * along[:, 1]
    group = _first_alike(
        np.column_stack([look, np.round(along / SAME_LINE), np.round(across / (SAME_LINE * size))]) + 0.0
    )
    count = np.bincount(group)
    low, high = ((p * along).sum(axis=1) for p in (start, end))
    low, high = np.minimum(low, high), np.maximum(low, high)
    drop = np.zeros(len(rows), dtype=bool)
    order = np.argsort(group, kind="stable")
    for members in np.split(order, np.cumsum(count[count > 0])[:-1]):
        if len(members) <= CROWD:
            continue
        drop[straight[members[_covered(low[members], high[members])]]] = True
    return np.flatnonzero(~drop)


def _covered(low: Floats, high: Floats) -> Ints:
    """Indices of the stretches that lie within another one; of equal ones all but one."""
    order = np.lexsort((-high, low))
    reached = np.maximum.accumulate(high[order])
    within = np.zeros(len(order), dtype=bool)
    within[1:] = high[order][1:] <= reached[:-1]
    return order[within].astype(np.int64)


__all__ = ["CROWD", "looks_of", "without_doubles"]
