"""Boundaries of hatches as strokes: in sections they are sometimes all that draws the outline.

Rules: every boundary path is kept, polyline or edge by edge; of the pattern inside only which way its lines run. Arc
and ellipse edges are held counter-clockwise by the reader library, whatever their direction in the file.
"""

import math
from itertools import pairwise
from typing import Any

from ezdxf.math import OCS, Matrix44, Vec3

from extractor.opening.entities import after, bulged, flat, spline_stroke
from extractor.opening.splines import Stroke
from extractor.opening.strokes import Chain, Conic


def hatch_strokes(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """All boundary paths of a HATCH or MPOLYGON."""
    ocs = OCS(entity.dxf.extrusion)
    height = float(Vec3(entity.dxf.get("elevation", (0, 0, 0))).z)
    strokes: list[Stroke] = []
    for path in entity.paths:
        if hasattr(path, "vertices"):
            vertices = [(Vec3(v[0], v[1], height), float(v[2]) if len(v) > 2 else 0.0) for v in path.vertices]
            strokes += bulged(vertices, bool(path.is_closed), ocs, matrix)
        else:
            for edge in path.edges:
                strokes += _edge(edge, _Plane(ocs, height, matrix))
    return strokes


def is_triangle(strokes: list[Stroke]) -> bool:
    """True for a border of three straight edges and no more."""
    chains = [stroke for stroke in strokes if isinstance(stroke, Chain)]
    edges = [end for chain in chains for end in pairwise(chain.points)]
    straight = len(chains) == len(strokes) and not any(bulge for chain in chains for bulge in chain.bulges)
    return straight and sum(a != b for a, b in edges) == SIDES


SIDES = 3
"""The edges of a triangle."""

ONE_WAY = math.radians(0.1)
"""Lines of a pattern run one way within this angle: their angles are written with a few decimals."""


def hatch_lean(entity: Any, matrix: Matrix44) -> float | None:
    """Which way all lines of a hatch's pattern run on the sheet, radians from 0 to pi; None if more ways, or no lines.

    The file gives the angle of each line with that of the pattern in it (DXF reference, group code 53, from memory).
    """
    pattern = getattr(entity, "pattern", None)
    plane = _Plane(OCS(entity.dxf.extrusion), 0.0, matrix)
    angles = [math.radians(float(line.angle)) for line in pattern.lines] if pattern is not None else []
    ways = [math.atan2(y, x) % math.pi for x, y in (plane.direction(math.cos(a), math.sin(a)) for a in angles)]
    one = all(abs((way - ways[0] + math.pi / 2) % math.pi - math.pi / 2) <= ONE_WAY for way in ways)
    return ways[0] if ways and one else None


class _Plane:
    """The way from a hatch's own plane to the sheet."""

    def __init__(self, ocs: OCS, height: float, matrix: Matrix44) -> None:
        self._ocs, self._height, self._matrix = ocs, height, matrix

    def point(self, p: Any) -> Vec3:
        """A place in the plane."""
        return Vec3(self._matrix.transform(self._ocs.to_wcs(Vec3(p[0], p[1], self._height))))

    def direction(self, x: float, y: float) -> tuple[float, float]:
        """A direction in the plane."""
        return flat(self._matrix.transform_direction(self._ocs.to_wcs(Vec3(x, y, 0))))


def _edge(edge: Any, plane: _Plane) -> list[Stroke]:
    kind = type(edge).__name__
    if kind == "LineEdge":
        return [Chain((flat(plane.point(edge.start)), flat(plane.point(edge.end))), (0.0,))]
    if kind == "ArcEdge":
        start, end = math.radians(edge.start_angle), math.radians(edge.end_angle)
        u, v = plane.direction(edge.radius, 0), plane.direction(0, edge.radius)
        return [Conic(flat(plane.point(edge.center)), u, v, start, after(start, end))]
    if kind == "EllipseEdge":
        x, y = edge.major_axis
        u, v = plane.direction(x, y), plane.direction(-y * edge.ratio, x * edge.ratio)
        start = edge.start_param
        return [Conic(flat(plane.point(edge.center)), u, v, start, after(start, edge.end_param))]
    return spline_stroke(edge.construction_tool(), plane.point) if kind == "SplineEdge" else []
