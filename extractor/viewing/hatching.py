"""Hatching: loose lines that must not cut the outline up, and what both kinds of hatching say about a section.

Loose hatch lines are told from the slanting lines of an outline by their ends: they stop in the middle of other lines,
while a chamfer or a vee's wall meets its neighbours end to end. At least four of one slant, evenly spaced, make a
hatching; a slant is measured against the direction that most of the drawing runs in.
"""

import math
from collections.abc import Sequence

import numpy as np
import shapely

from extractor.sheet import Floats, Segments
from extractor.viewing.network import Strokes

LEAST = 4
"""Fewest lines that make a hatching."""


def loose_hatching(strokes: Strokes, near: float) -> frozenset[int]:
    """Labels of the strokes that are hatch lines drawn one by one; `near` is the noding distance."""
    straight = np.flatnonzero(strokes.bulge == 0)
    if len(straight) < LEAST:
        return frozenset()
    d = strokes.ends[straight, 2:] - strokes.ends[straight, :2]
    size = np.hypot(*d.T)
    angle = np.mod(np.arctan2(d[:, 1], d[:, 0]), math.pi)
    slant = np.abs(np.mod(angle - _main_direction(angle, size) + math.pi / 4, math.pi / 2) - math.pi / 4)
    free = _free_ended(strokes, near)[straight]
    some = np.flatnonzero((slant > math.radians(15)) & free & (size > 10 * near))
    found: set[int] = set()
    for family in _families(angle[some]):
        rows = straight[some[family]]
        if len(rows) >= LEAST and _even(strokes.ends[rows], float(np.median(angle[some[family]])), near):
            found |= set(strokes.label[rows].tolist())
    return frozenset(found)


def _main_direction(angle: Floats, size: Floats) -> float:
    """The direction, mod a quarter turn, that most length runs in."""
    folded = np.mod(angle, math.pi / 2)
    steps = np.round(folded / math.radians(0.5)).astype(np.int64) % 180
    weight = np.bincount(steps, weights=size, minlength=180)
    best = int(weight.argmax())
    mine = steps == best
    return float(np.average(folded[mine], weights=size[mine]))


def _free_ended(strokes: Strokes, near: float) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
    """True for strokes neither of whose ends lies at another stroke's end."""
    tips = strokes.ends.reshape(-1, 2)
    points = shapely.points(tips)
    one, two = shapely.STRtree(points).query(points, predicate="dwithin", distance=2 * near)
    other = one // 2 != two // 2
    shared = np.zeros(len(tips), dtype=bool)
    shared[one[other]] = True
    free = np.logical_not(shared.reshape(-1, 2).any(axis=1))
    return free


def _families(angle: Floats) -> "list[np.ndarray[tuple[int], np.dtype[np.int64]]]":
    """Indices of strokes of one slant, within a tenth of a degree or so."""
    if not len(angle):
        return []
    order = np.argsort(angle)
    cuts = np.flatnonzero(np.diff(angle[order]) > math.radians(0.1)) + 1
    return list(np.split(order, cuts))


def _even(ends: Floats, angle: float, near: float) -> bool:
    """True if most neighbours of a family stand one spacing, or whole spacings, apart."""
    across = np.array([-math.sin(angle), math.cos(angle)])
    offsets = np.sort((ends[:, :2] + ends[:, 2:]) / 2 @ across)
    gaps = np.diff(offsets)
    gaps = gaps[gaps > 20 * near]
    if len(gaps) < LEAST - 1:
        return False
    ratio = gaps / np.median(gaps)
    return bool((np.abs(ratio - np.round(ratio)) < 0.15).mean() > 0.7)


def hatch_shapes(segments: Segments, loose: frozenset[int]) -> list[shapely.Geometry]:
    """What is hatched, on the sheet: polygons of HATCH boundaries, and loose hatch lines."""
    owned = np.array([s.owner == "HATCH" for s in segments.sources], dtype=bool)
    border = segments.ends[owned[segments.source]] if len(segments) else np.zeros((0, 4))
    lines = [shapely.LineString(e.reshape(2, 2)) for e in border]
    polygons = list(shapely.get_parts(shapely.polygonize([shapely.unary_union(lines)]))) if lines else []
    return [*polygons, *(shapely.LineString(segments.ends[k].reshape(2, 2)) for k in sorted(loose))]


def is_hatched(face: shapely.Polygon, shapes: Sequence[shapely.Geometry]) -> bool:
    """True if a face lies in a hatched polygon, or three loose hatch lines have their middle in it."""
    inside = face.representative_point()
    lines = 0
    for shape in shapes:
        if shape.geom_type == "Polygon" and shape.contains(inside):
            return True
        lines += shape.geom_type == "LineString" and face.contains(shape.interpolate(0.5, normalized=True))
    return lines > 2
