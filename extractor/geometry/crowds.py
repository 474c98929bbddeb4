"""A count before a costly search: how many pairs of points it would find, at least, without finding them."""

import numpy as np

from extractor.sheet import Floats, Ints

MOST_PAIRS = 2_000_000
"""More neighbouring pairs than this are a picture, not a drawing of a part."""

MOST_CELLS = 2**31
"""Cells along one side of a grid that can be numbered; finer grids are made as coarse as this."""


class TooDenseError(Exception):
    """So much lies on top of one another that working it out would take minutes."""


def cells(points: Floats, size: float) -> tuple[Ints, Ints, Ints]:
    """The square cells of a grid that hold points, float (n, 2).

    For each cell, in any order, the first point in it and how many there are, int (m,); for each point its cell, int
    (n,). No grid is finer than MOST_CELLS along a side.

    >>> [a.tolist() for a in cells(np.array([[0.0, 0.0], [5.0, 5.0], [0.5, 0.5]]), 1.0)]
    [[0, 1], [2, 1], [0, 1, 0]]
    """
    span = float(np.ptp(points, axis=0).max())
    step = max(size, span / MOST_CELLS) or 1.0
    column, row = np.floor((points - points.min(axis=0)) / step).astype(np.int64).T
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


__all__ = ["MOST_PAIRS", "TooDenseError", "cells", "refuse_crowds"]
