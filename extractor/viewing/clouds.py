"""Revision clouds: a ring of small arcs drawn round what was changed (common practice, no source).

All its arcs bulge one way and meet in cusps, so that the line turns back at most of its joints. No part has such a ring
for an outline, but the end of a knob with lobes has: its cusps lie on a circle. A row of beads is as narrow as one.
"""

import numpy as np
import shapely

from extractor.geometry.joining import groups
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints
from extractor.viewing.tips import Tips, tips_of

ARCS = 8
"""A cloud has at least so many: a small one, two or three to a side."""

BACK = np.radians(20.0)
"""At a cusp the line turns back against its arcs by more than this; an outline's arcs run into one another."""

CUSPS = 0.5
"""At least this share of the joints are cusps: at a corner the arcs may run on, and a small cloud has as many of those
as others."""

WIDE = 1.5
"""The cusps lie at least so many arcs apart across the cloud: beads in a row lie less than one."""

ROUND = 0.95
"""Lobes about one middle: no cusp lies nearer to it than this share of the farthest one."""


def clouds(strokes: Strokes, near: float) -> frozenset[int]:
    """Labels of the strokes of revision clouds; `near` is the noding distance."""
    arcs = strokes.pick(strokes.bulge != 0)
    if len(arcs) < ARCS:
        return frozenset()
    tips = tips_of(arcs, near)
    rows = groups((a // 2, b // 2) for a, b in tips.pairs.T.tolist())
    rings = [ring for row in rows if len(row) >= ARCS for ring in [_in_order(tips, row)] if len(ring)]
    return frozenset(int(k) for ring in rings if _is_cloud(arcs, ring) for k in arcs.label[ring // 2])


def _in_order(tips: Tips, row: list[int]) -> Ints:
    """The tips at which the arcs of a closed ring begin, in order along it; none if it is no ring."""
    if any(len(tips.beside.get(t, ())) != 1 for k in row for t in (2 * k, 2 * k + 1)):
        return np.zeros(0, dtype=np.int64)
    way = [2 * row[0]]
    while len(way) < len(row):
        way.append(tips.beside[way[-1] ^ 1][0])
    return np.array(way)


def _is_cloud(arcs: Strokes, ring: Ints) -> bool:
    """True for a ring of arcs that bulge one way, most of whose joints are cusps, neither round nor narrow."""
    ends = arcs.ends.reshape(-1, 2)
    places, onward = ends[ring], ends[ring ^ 1]
    half = 2 * np.arctan(arcs.bulge[ring // 2] * np.where(ring % 2, -1, 1))
    if not (np.all(half > 0) or np.all(half < 0)):
        return False
    chord = onward - places
    along = np.arctan2(chord[:, 1], chord[:, 0])
    # A tangent leans from its chord by half of what its arc turns: back at its start, on at its end.
    turn = np.roll(along - half, -1) - (along + half)
    back = np.sign(half[0]) * (np.mod(turn + np.pi, 2 * np.pi) - np.pi)
    long = float(np.median(np.hypot(*chord.T)))
    return bool((back < -BACK).mean() >= CUSPS) and _broad(places, WIDE * long)


def _broad(places: Floats, wide: float) -> bool:
    """True for places that lie on no circle and are so far apart in every direction."""
    hull = shapely.multipoints(places)
    middle = shapely.minimum_bounding_circle(hull).centroid
    away = np.hypot(*(places - (middle.x, middle.y)).T)
    box = shapely.get_coordinates(shapely.minimum_rotated_rectangle(hull))
    sides = np.hypot(*np.diff(box, axis=0).T)
    return bool(away.min() < ROUND * away.max() and sides.min() >= wide)
