"""A count before a costly search: how many pairs it would find, at least or at most, without finding them."""

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import shapely

from extractor.geometry.boxes import box_of
from extractor.sheet import Floats, Ints

MOST_PAIRS = 2_000_000
"""More neighbouring pairs than this are a picture, not a drawing of a part."""

MOST_CROSSINGS = 250_000
"""Most crossings of lines that are worked out: each takes some 20 microseconds and a kilobyte on its way to a part."""

AT_ONCE = 2_000_000
"""Pairs that one query finds at most, or a single box with all others, before they are counted."""

MOST_CELLS = 2**31
"""Cells along one side of a grid that can be numbered; finer grids are made as coarse as this."""

ASKEW = np.array([math.cos(0.4321), math.sin(0.4321)])
"""A direction that nothing is drawn square to, as a rule."""

FEW_BESIDE = 8
"""Up to so many neighbours along it for each point are looked at one by one; a matter of speed alone."""


class TooDenseError(Exception):
    """So much lies on top of one another that working it out would take minutes."""


def cells(points: Floats, size: float) -> tuple[Ints, Ints, Ints]:
    """The square cells of a grid that hold points, float (n, 2).

    For each cell, in any order, the first point in it and how many there are, int (m,); for each point its cell, int
    (n,). No grid is finer than MOST_CELLS along a side.

    >>> [a.tolist() for a in cells(np.array([[0.0, 0.0], [5.0, 5.0], [0.5, 0.5]]), 1.0)]
    [[0, 1], [2, 1], [0, 1, 0]]
    """
    low_x, low_y, high_x, high_y = box_of(points).tolist()
    step = max(size, (high_x - low_x) / MOST_CELLS, (high_y - low_y) / MOST_CELLS) or 1.0
    column, row = np.floor((points - (low_x, low_y)) / step).astype(np.int64).T
    _, first, home, count = np.unique(
        column * MOST_CELLS + row, return_index=True, return_inverse=True, return_counts=True
    )
    return first.astype(np.int64), count.astype(np.int64), home.reshape(-1).astype(np.int64)


def refuse_crowds(points: Floats, reach: float) -> None:
    """Raise TooDenseError where more than MOST_PAIRS pairs of points, float (n, 2), share a cell of `reach`.

    >>> refuse_crowds(np.zeros((10, 2)), 1.0)
    """
    if len(points) ** 2 > 2 * MOST_PAIRS:
        _, count, _ = cells(points, reach)
        if float((count.astype(np.float64) ** 2).sum()) > 2 * MOST_PAIRS:
            raise TooDenseError


def close_pairs(points: Floats, reach: float) -> Ints:
    """All pairs, int (2, m), of points, float (n, 2), no farther apart than `reach`, each both ways round, in order.

    They are put in order along ASKEW, so that few lie beside one another; where many do, a tree is asked.

    >>> close_pairs(np.array([[0.0, 0.0], [5.0, 5.0], [0.3, 0.4]]), 0.5).tolist()
    [[0, 2], [2, 0]]
    """
    along = (points - points.min(axis=0, initial=np.inf)) @ ASKEW
    order = np.argsort(along, kind="stable")
    most = along[order] + reach + 4 * np.spacing(along.max(initial=reach))
    count = np.searchsorted(along[order], most, "right") - np.arange(1, len(points) + 1)
    if count.sum() > FEW_BESIDE * len(points):
        drawn = shapely.points(points)
        one, two = shapely.STRtree(drawn).query(drawn, predicate="dwithin", distance=reach)
        one, two = one[one != two], two[one != two]
    else:
        first = np.repeat(np.arange(len(points)), count)
        second = first + np.arange(len(first)) - np.repeat(np.cumsum(count) - count, count) + 1
        near = np.hypot(*(points[order[first]] - points[order[second]]).T) <= reach
        a, b = order[first[near]], order[second[near]]
        one, two = np.append(a, b), np.append(b, a)
    found: Ints = np.vstack([one, two])[:, np.lexsort((two, one))].astype(np.int64)
    return found


def most_overlaps(low: Floats, high: Floats) -> int:
    """At most so many pairs of boxes, corners float (n, 2), overlap: those that do along either axis.

    >>> most_overlaps(np.array([[0.0, 0.0], [1.0, 0.0], [5.0, 0.0]]), np.array([[2.0, 9.0], [3.0, 9.0], [6.0, 9.0]]))
    1
    """
    return (int(_beside(low, high).sum()) - len(low)) // 2


def _beside(low: Floats, high: Floats) -> Ints:
    """For each box the fewer of those, itself among them, that it overlaps along one axis and along the other."""
    count = [
        np.searchsorted(np.sort(low[:, k]), high[:, k], "right") - np.searchsorted(np.sort(high[:, k]), low[:, k])
        for k in (0, 1)
    ]
    fewer: Ints = np.minimum(*count).astype(np.int64)
    return fewer


def overlapping(low: Floats, high: Floats, most: int = MOST_PAIRS) -> Iterator[Ints]:
    """Pairs int (2, m) of boxes, corners float (n, 2), that overlap, each pair once, in batches.

    Raises TooDenseError where there are more than `most`.
    """
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    tree = shapely.STRtree(boxes)
    batch = np.cumsum(_beside(low, high)) // AT_ONCE
    total = 0
    for start, end in pairwise([*np.flatnonzero(np.diff(batch, prepend=-1)).tolist(), len(boxes)]):
        one, two = tree.query(boxes[start:end])
        one = one + start
        found = np.vstack([one, two])[:, one < two].astype(np.int64)
        total += found.shape[1]
        if total > most:
            raise TooDenseError
        yield found


__all__ = [
    "MOST_CROSSINGS",
    "MOST_PAIRS",
    "TooDenseError",
    "cells",
    "close_pairs",
    "most_overlaps",
    "overlapping",
    "refuse_crowds",
]
