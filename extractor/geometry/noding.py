"""Noding: strokes are cut wherever they meet, and ends that touch become one node.

Two ends touch if they are within `near`; an end within `near` of another stroke cuts it there. A crossing cuts both.
Lines and arcs stay lines and arcs. `near` only absorbs the last digits of a file: real gaps are `gaps` of viewing.
"""

from collections.abc import Iterator

import numpy as np

from extractor.finding import Point
from extractor.geometry.arcs import Circular, circular, distance, meet_arcs, meet_line_arc, part_of
from extractor.geometry.crowds import MOST_CROSSINGS, TooDenseError, close_pairs, overlapping
from extractor.geometry.joining import components
from extractor.geometry.network import Edge, Network, Strokes
from extractor.rounding import ROUNDING
from extractor.sheet import Floats, Ints


class _Cuts:
    """Where each stroke is to be cut: stroke, share of its length, point."""

    def __init__(self, strokes: Strokes) -> None:
        """Begin with both ends of every stroke."""
        n = len(strokes)
        index = np.arange(n, dtype=np.int64)
        self.stroke: list[Ints] = [index, index]
        self.share: list[Floats] = [np.zeros(n), np.ones(n)]
        self.at: list[Floats] = [strokes.ends[:, :2], strokes.ends[:, 2:]]

    def add(self, stroke: Ints, share: Floats, at: Floats) -> None:
        """Add cuts as arrays of one length."""
        self.stroke.append(stroke)
        self.share.append(share)
        self.at.append(at)


def node(strokes: Strokes, near: float) -> Network:
    """Cut all strokes where they meet.

    `near` is a length as drawn. Raises TooDenseError for a picture made of strokes.
    """
    keep = strokes.chord_lengths > near
    strokes = strokes.pick(keep)
    if not len(strokes):
        return Network(np.zeros((0, 2)), ())
    cuts = _Cuts(strokes)
    pairs = np.hstack([np.zeros((2, 0), dtype=np.int64), *overlapping(*boxes(strokes, near))])
    curved = (strokes.bulge[pairs[0]] != 0) | (strokes.bulge[pairs[1]] != 0)
    _cut_lines(strokes, pairs[:, ~curved], near, cuts)
    _cut_curves(strokes, pairs[:, curved], near, cuts)
    return _assemble(strokes, cuts, near)


def boxes(strokes: Strokes, near: float) -> tuple[Floats, Floats]:
    """The least and the greatest corner of the box round each stroke, float (n, 2); an arc's is widened by its rise."""
    e = strokes.ends
    rise = np.abs(strokes.bulge) * strokes.chord_lengths / 2
    wide = (np.where(np.abs(strokes.bulge) > 1, rise + strokes.chord_lengths, rise) + near)[:, None]
    return np.minimum(e[:, :2], e[:, 2:]) - wide, np.maximum(e[:, :2], e[:, 2:]) + wide


def _cut_lines(strokes: Strokes, pairs: Ints, near: float, cuts: _Cuts) -> None:
    """Cut straight strokes at crossings and where an end lies on another."""
    i, j = pairs
    for end in (0, 2):
        _cut_at_ends(strokes, i, j, end, near, cuts)
        _cut_at_ends(strokes, j, i, end, near, cuts)
    p, q = strokes.ends[i, :2], strokes.ends[j, :2]
    d, e = strokes.ends[i, 2:] - p, strokes.ends[j, 2:] - q
    cross = d[:, 0] * e[:, 1] - d[:, 1] * e[:, 0]
    one, two = np.hypot(*d.T), np.hypot(*e.T)
    # Lines that lie on one another within `near` are cut at their ends alone: a crossing somewhere along them would
    # be a node that a third line on top of both knows nothing of, and leave slivers.
    ok = np.abs(cross) > np.maximum(ROUNDING * one * two, 2 * near * np.maximum(one, two))
    i, j, p, q, d, e, cross = i[ok], j[ok], p[ok], q[ok], d[ok], e[ok], cross[ok]
    w = q - p
    t = (w[:, 0] * e[:, 1] - w[:, 1] * e[:, 0]) / cross
    u = (w[:, 0] * d[:, 1] - w[:, 1] * d[:, 0]) / cross
    inside = (t > 0) & (t < 1) & (u > 0) & (u < 1)
    if inside.sum() > MOST_CROSSINGS:
        raise TooDenseError
    i, j, t, u, p, d = i[inside], j[inside], t[inside], u[inside], p[inside], d[inside]
    at = p + t[:, None] * d
    cuts.add(i, t, at)
    cuts.add(j, u, at)


def _cut_at_ends(strokes: Strokes, cut: Ints, by: Ints, end: int, near: float, cuts: _Cuts) -> None:
    """Cut the strokes `cut` where the ends (0 start, 2 finish) of the strokes `by` lie on them."""
    tip = strokes.ends[by, end : end + 2]
    base, d = strokes.ends[cut, :2], strokes.ends[cut, 2:] - strokes.ends[cut, :2]
    size = np.hypot(*d.T)
    w, way = tip - base, d / size[:, None]
    along = (w * way).sum(axis=1)
    off = np.abs(w[:, 0] * way[:, 1] - w[:, 1] * way[:, 0])
    on = (off <= near) & (along > near) & (size - along > near)
    cuts.add(cut[on], along[on] / size[on], tip[on])


def _cut_curves(strokes: Strokes, pairs: Ints, near: float, cuts: _Cuts) -> None:
    """Cut pairs of which at least one is an arc."""
    found: list[tuple[int, float, Point]] = []
    arcs: dict[int, Circular] = {}
    for i, j in pairs.T.tolist():
        for k in (i, j):
            if strokes.bulge[k] != 0 and k not in arcs:
                arcs[k] = circular(*_ends(strokes, k), float(strokes.bulge[k]))
        for at in _meetings(strokes, arcs, i, j, near):
            for k in (i, j):
                share = _share(strokes, arcs, k, at)
                found.append((k, share, at))
    if found:
        stroke, shares, points = zip(*found, strict=True)
        cuts.add(np.array(stroke, dtype=np.int64), np.array(shares), np.array(points))


def _ends(strokes: Strokes, k: int) -> tuple[Point, Point]:
    """Both ends of one stroke."""
    x0, y0, x1, y1 = strokes.ends[k].tolist()
    return (x0, y0), (x1, y1)


def _meetings(strokes: Strokes, arcs: dict[int, Circular], i: int, j: int, near: float) -> Iterator[Point]:
    """Points that lie on both strokes: ends of one on the other, else crossings."""
    tips = [tip for k, other in ((i, j), (j, i)) for tip in _ends(strokes, k) if _on(strokes, arcs, other, tip, near)]
    yield from tips
    if i in arcs and j in arcs:
        crossings = meet_arcs(arcs[i], arcs[j], near)
    else:
        line, arc = (j, i) if i in arcs else (i, j)
        crossings = meet_line_arc(*_ends(strokes, line), arcs[arc], near)
    for at in crossings:
        fresh = all(distance(at, tip) > 10 * near for tip in tips)
        if fresh and _on(strokes, arcs, i, at, near) and _on(strokes, arcs, j, at, near):
            yield at


def _share(strokes: Strokes, arcs: dict[int, Circular], k: int, at: Point) -> float:
    """Share of the length of stroke `k` at which a point lies."""
    if k in arcs:
        return arcs[k].share(at)
    a, b = _ends(strokes, k)
    dx, dy = b[0] - a[0], b[1] - a[1]
    return ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy)


def _on(strokes: Strokes, arcs: dict[int, Circular], k: int, at: Point, near: float) -> bool:
    """True if a point lies on stroke `k` within `near`."""
    a, b = _ends(strokes, k)
    if min(distance(a, at), distance(b, at)) <= near:
        return True
    share = _share(strokes, arcs, k, at)
    if not 0 <= share <= 1:
        return False
    if k in arcs:
        return abs(distance(arcs[k].centre, at) - arcs[k].radius) <= near
    return distance(at, (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))) <= near


def _assemble(strokes: Strokes, cuts: _Cuts, near: float) -> Network:
    """Merge the cut points into nodes and string the strokes through them."""
    stroke, share, at = np.concatenate(cuts.stroke), np.concatenate(cuts.share), np.vstack(cuts.at)
    names, nodes = _merge(at, near)
    order = np.lexsort((share, stroke))
    stroke, share, names = stroke[order], share[order], names[order]
    fresh = np.append(True, (stroke[1:] != stroke[:-1]) | (names[1:] != names[:-1]))
    stroke, share, names = stroke[fresh], share[fresh], names[fresh]
    on = np.flatnonzero(stroke[1:] == stroke[:-1])
    a, b, bulge, label = names[on], names[on + 1], strokes.bulge[stroke[on]] + 0.0, strokes.label[stroke[on]]
    rise = np.zeros(len(on), dtype=np.int64)
    for k in np.flatnonzero(bulge).tolist():
        bulge[k] = part_of(float(bulge[k]), max(0.0, float(share[on[k]])), min(1.0, float(share[on[k] + 1])))
        (ax, ay), (bx, by) = nodes[[a[k], b[k]]].tolist()
        rise[k] = round(float(bulge[k]) * distance((ax, ay), (bx, by)) / (2 if a[k] < b[k] else -2) / (20 * near))
    heights, height = np.unique(rise, return_inverse=True)
    same = (np.minimum(a, b) * len(nodes) + np.maximum(a, b)) * len(heights) + height
    kept = np.sort(np.unique(same, return_index=True)[1])  # the same edge, either way round, once
    columns = (column[kept].tolist() for column in (a, b, bulge, label))
    return Network(nodes, tuple(map(Edge, *columns)))


def _merge(at: Floats, near: float) -> tuple[Ints, Floats]:
    """Number the points so that those within `near` share a node; a node lies on the first of its points."""
    places = np.ascontiguousarray(at).view(np.complex128).reshape(-1)
    _, first, names = np.unique(places, return_index=True, return_inverse=True)
    names, unique = names.reshape(-1), at[first]
    one, two = close_pairs(unique, near)
    home = components(len(unique), one[one < two], two[one < two])
    order = np.lexsort((first, home))
    chosen = order[np.unique(home[order], return_index=True)[1]]
    return home[names], unique[chosen]
