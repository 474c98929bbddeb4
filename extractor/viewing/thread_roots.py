"""Roots of threads: those drawn as hidden lines count as the thin lines that they should be (ISO 6410-1).

Rules: a line along the axis under one land, long and not deep below it, is the root of a thread on that land if
it ends at a full line that comes in from the land, where the land has no corner. So the end of a thread is drawn (from
memory); the floor of a bore would be hidden as well, and reach no land. Where a thread is named it may run to a corner
of the land as well, a shoulder or a relief, but not to the end of the part only, as a bore does; nothing lies over that
land then, as over the walls of a groove in the face. A line that another hidden line meets is no root.
"""

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.network import Strokes
from extractor.sheet import Floats

THREADED = 4.0
"""A thread's root line is at least so many times longer than it lies deep (common practice, no source)."""

DEEPEST = 0.25
"""A thread's root lies no deeper under its land than this share of the land's radius (ISO 261: M3 has 0.19)."""


def thread_roots(lines: Strokes, laid: Strokes, hidden: Strokes, near: float, *, named: bool) -> npt.NDArray[np.bool_]:
    """Which of some strokes are roots of threads, among what is `laid` in full lines and what is `hidden`.

    All strokes are laid along z, one place within `near`. `named`: a text of the sheet names a thread.
    """
    lands, edges = laid.ends[_along(laid, 1, near)], laid.ends[_along(laid, 0, near)]
    found = _along(lines, 1, near) & _may_be_root(lines.ends, lands, near)
    if not len(edges) or not found.any():
        return np.zeros(len(lines), dtype=bool)
    first, last = edges[:, 0].min(), edges[:, 0].max()
    edges = edges[(edges[:, 0] > first + near) & (edges[:, 0] < last - near)]  # none of the end faces
    edges = edges if named else edges[_within_lands(edges, lands, near)]
    begins, ends = (_is_there(lines.ends[:, k], edges, near) for k in (0, 2))
    found &= begins | ends
    for k in np.flatnonzero(found).tolist():
        others = hidden.ends[hidden.label != lines.label[k]].reshape(-1, 2)
        root = _is_root(lines.ends[k], lands, edges, near, named=named)
        found[k] = root and not _meets(lines.ends[k], others, near)
    return found


def _within_lands(edges: Floats, lands: Floats, near: float) -> npt.NDArray[np.bool_]:
    """Which edges begin or end on a line along the axis that goes on there: of the walls of a row of grooves, none."""
    tree = shapely.STRtree(shapely.linestrings(lands.reshape(-1, 2, 2)))
    on = [[_met(tree, edges[:, k : k + 2] + (by, 0.0), near) for by in (-2 * near, 2 * near)] for k in (0, 2)]
    return np.asarray((on[0][0] & on[0][1]) | (on[1][0] & on[1][1]))


def _met(tree: shapely.STRtree, places: Floats, near: float) -> npt.NDArray[np.bool_]:
    """Which places lie on a line of a tree."""
    hits = tree.query(shapely.points(places), predicate="dwithin", distance=near)[0]
    return np.isin(np.arange(len(places)), hits)


def _along(strokes: Strokes, way: int, near: float) -> npt.NDArray[np.bool_]:
    """Which strokes stay at one z (`way` 0) or at one radius (1)."""
    return np.asarray((np.abs(strokes.ends[:, way] - strokes.ends[:, way + 2]) <= near) & (strokes.bulge == 0))


def _is_there(z: Floats, edges: Floats, near: float) -> npt.NDArray[np.bool_]:
    """Which places along z have an edge right across at them."""
    at = np.sort(edges[:, 0])
    return np.asarray(np.searchsorted(at, z - 2 * near) < np.searchsorted(at, z + 2 * near))


def _meets(line: Floats, places: Floats, near: float) -> bool:
    """True if one of some places is an end of a line: the floor of a bore begins there, or a step of it."""
    return bool((np.abs(places[:, None] - line.reshape(2, 2)).max(axis=2) <= near).any())


def _may_be_root(lines: Floats, lands: Floats, near: float) -> npt.NDArray[np.bool_]:
    """Which lines along the axis are long and not deep enough for a root under the nearest height of any land."""
    heights, radii = np.append(np.sort(np.abs(lands[:, 1])), np.inf), np.abs(lines[:, 1])
    top = heights[np.searchsorted(heights, radii + near, side="right")]
    long = np.abs(lines[:, 0] - lines[:, 2])
    return np.asarray(((top - radii) * THREADED <= long) & (radii >= (1 - DEEPEST) * top))


def _is_root(line: Floats, lands: Floats, edges: Floats, near: float, *, named: bool) -> bool:
    """True if a line along the axis ends at an edge that comes in from the land over it, which goes on there."""
    low, high, radius = min(line[0], line[2]), max(line[0], line[2]), float(line[1])
    middle, tops = (low + high) / 2, lands[:, 1] * np.sign(radius)
    over = (np.minimum(lands[:, 0], lands[:, 2]) <= middle) & (middle <= np.maximum(lands[:, 0], lands[:, 2]))
    top = float(tops[over & (tops > abs(radius) + near)].min(initial=np.inf))
    deep = top - abs(radius)
    if not deep * THREADED <= high - low or deep > DEEPEST * top or (named and tops[over].max() > top + near):
        return False
    height = top * float(np.sign(radius))
    level = np.sort(lands[np.abs(lands[:, 1] - height) <= near][:, [0, 2]], axis=1)
    ends = [z for z in (low, high) if _ends_at(edges[np.abs(edges[:, 0] - z) <= near][:, [1, 3]], height, radius, near)]
    return any(named or _goes_on(level, z, near) for z in ends)


def _ends_at(feet: Floats, height: float, radius: float, near: float) -> bool:
    """True if one of some edges, float (n, 2) from foot to foot, comes in from a height or above as far as a radius."""
    from_land = (feet * np.sign(radius) >= abs(height) - near).any(axis=1)
    reaches = (feet * np.sign(radius) <= abs(radius) + near).any(axis=1)
    return bool((from_land & reaches).any())


def _goes_on(level: Floats, z: float, near: float) -> bool:
    """True if lines at one height, float (n, 2) their ends along z in rising order, lie before and behind a place."""
    before = (level[:, 0] < z - near) & (level[:, 1] >= z - near)
    behind = (level[:, 1] > z + near) & (level[:, 0] <= z + near)
    return bool(before.any() and behind.any())
