"""From one DXF entity to plane strokes at sheet coordinates.

Rules: `matrix` takes the entity's own world to the sheet (the product of the block references around it). Heights are
dropped; what an extrusion of (0, 0, -1) or a mirrored, stretched or tilted block does to a curve is done here, exactly.
"""

import math
from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
from ezdxf.math import OCS, Z_AXIS, BSpline, Matrix44, Vec3

from extractor.finding import Point
from extractor.opening.line_rows import LineRow
from extractor.opening.splines import Curve, Stroke
from extractor.opening.strokes import Chain, Conic
from extractor.opening.tapers import with_tapers
from extractor.rounding import LAST_DIGITS, ROUNDING
from extractor.sheet import Floats

MOST_FIT_POINTS = 2000
"""Points that a curve without control points is fitted through, at most: the fit's cost grows with their square."""
OFF_THE_SHEET = 1e-3
"""Share of a line's length by which it may rise out of the sheet; more, and it is an edge of a wire model."""

BODY_KINDS = frozenset(
    {"3DSOLID", "REGION", "BODY", "SURFACE", "EXTRUDEDSURFACE", "LOFTEDSURFACE", "REVOLVEDSURFACE", "SWEPTSURFACE"}
    | {"PLANESURFACE", "NURBSURFACE", "MESH", "3DFACE"}
)
"""Bodies that hold no flat outline: named and left out."""
UNREADABLE_KINDS = frozenset(
    {"ACAD_PROXY_ENTITY", "OLEFRAME", "OLE2FRAME", "IMAGE", "PDFUNDERLAY", "DGNUNDERLAY", "DWFUNDERLAY", "PDFREFERENCE"}
    | {"SHAPE"}
)
"""Kinds that show something on the sheet which can't be read: pictures, foreign objects, shapes from font files."""


def strokes_of(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """The strokes of an entity, none for kinds that draw no line."""
    make = MAKERS.get(entity.dxftype())
    return make(entity, matrix) if make else []


def tilted(entity: Any, matrix: Matrix44) -> int:
    """How many lines rise out of the sheet by more than a thousandth of their length, as in a wire model."""
    if isinstance(entity, LineRow):
        return entity.tilted(OFF_THE_SHEET)
    if entity.dxftype() != "LINE":
        return 0
    run = matrix.transform_direction(Vec3(entity.dxf.end) - Vec3(entity.dxf.start))
    return int(abs(run.z) > OFF_THE_SHEET * run.magnitude)


def drawn_width(entity: Any, matrix: Matrix44) -> float:
    """How wide a polyline is drawn where it is narrowest, 0.0 for all else and for one that tapers to a point."""
    widths = _widths(entity, matrix)
    # The last corner of an open line has widths that nothing is drawn with.
    widths = widths[:-1] if len(widths) > 1 and not entity.is_closed else widths
    return min((w for pair in widths for w in pair), default=0.0)


def _widths(entity: Any, matrix: Matrix44) -> list[tuple[float, float]]:
    """How wide the line that leaves each corner of a polyline begins and ends, on the sheet; none where it has none."""
    kind, own = entity.dxftype(), vars(entity.dxf)
    if kind == "LWPOLYLINE":
        constant, each = float(own.get("const_width", 0.0)), _corners(entity)[:, 2:4]
        held = [(constant, constant)] * len(each) if constant else each.tolist() if each.any() else []
        widths = [(start, end) for start, end in held]
    elif kind == "POLYLINE":
        whole = [float(own.get(name, 0.0)) for name in ("default_start_width", "default_end_width")]
        corners = [v for v in entity.vertices if not int(v.dxf.get("flags", 0)) & 16]
        rows = ([float(vars(v.dxf).get(n, w)) for n, w in zip(WIDTHS, whole, strict=True)] for v in corners)
        widths = [(start, end) for start, end in rows]
    else:
        return []
    times = float(matrix.transform_direction(Vec3(1, 0, 0)).magnitude)
    return [(start * times, end * times) for start, end in widths]


WIDTHS = ("start_width", "end_width")
"""Attributes of a corner: how wide the line is that leaves it, and where that ends."""


def needed(entity: Any, name: str) -> Any:
    """An attribute that the entity can't be drawn without; a default of the reader library would be a guess."""
    value = vars(entity.dxf).get(name)
    if value is None:
        raise ValueError(f"{entity.dxftype()} without {name}")
    return value


def facing(entity: Any) -> Vec3:
    """The extrusion of an entity, straight from its own values: the library's way to the default takes long."""
    extrusion = vars(entity.dxf).get("extrusion")
    return Z_AXIS if extrusion is None else Vec3(extrusion)


SHEET = OCS()


def plane_of(entity: Any) -> OCS:
    """The plane that an entity is given in, nearly always the sheet."""
    direction = facing(entity)
    return SHEET if direction is Z_AXIS else OCS(direction)


def flat(point: Vec3) -> Point:
    """The point on the sheet under a point in space."""
    return float(point.x), float(point.y)


def _line(entity: Any, matrix: Matrix44) -> list[Stroke]:
    if isinstance(entity, LineRow):
        return [entity.flat()]
    a, b = (flat(matrix.transform(Vec3(p))) for p in (needed(entity, "start"), needed(entity, "end")))
    return [Chain((a, b), (0.0,))]


def _circle(entity: Any, matrix: Matrix44) -> list[Stroke]:
    return [_conic_in_ocs(entity, matrix, 0.0, 2 * math.pi)]


def _arc(entity: Any, matrix: Matrix44) -> list[Stroke]:
    start, end = math.radians(needed(entity, "start_angle")), math.radians(needed(entity, "end_angle"))
    return [_conic_in_ocs(entity, matrix, start, after(start, end))]


TURN_DIGITS = 2e-5
"""A turn written with four decimals or more (6.2832) is off by less, radians."""


def after(start: float, end: float) -> float:
    """The end parameter, above the start by at most one turn; a turn written with few digits is a whole one.

    >>> after(0.0, 6.283186) == after(0.0, 6.28318) == 2 * math.pi
    True
    """
    if not (math.isfinite(start) and math.isfinite(end)):
        raise ValueError("an arc's ends must be numbers")
    span = (end - start) % (2 * math.pi)
    whole = span <= LAST_DIGITS or abs(end - start - 2 * math.pi) <= TURN_DIGITS
    return start + (2 * math.pi if whole else span)


def _conic_in_ocs(entity: Any, matrix: Matrix44, start: float, end: float) -> Conic:
    """Circle or arc given in the plane of its extrusion."""
    ocs, radius = plane_of(entity), abs(float(needed(entity, "radius")))
    centre = matrix.transform(ocs.to_wcs(Vec3(needed(entity, "center"))))
    u = matrix.transform_direction(ocs.to_wcs(Vec3(radius, 0, 0)))
    v = matrix.transform_direction(ocs.to_wcs(Vec3(0, radius, 0)))
    return Conic(flat(centre), flat(u), flat(v), start, end)


def _ellipse(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """DXF ellipses are given in world coordinates; the minor axis is extrusion x major axis x ratio."""
    major, ratio = Vec3(needed(entity, "major_axis")), float(needed(entity, "ratio"))
    minor = facing(entity).normalize().cross(major) * ratio
    centre = matrix.transform(Vec3(needed(entity, "center")))
    start, end = float(entity.dxf.start_param), float(entity.dxf.end_param)
    u, v = matrix.transform_direction(major), matrix.transform_direction(minor)
    return [Conic(flat(centre), flat(u), flat(v), start, after(start, end))]


def _lwpolyline(entity: Any, matrix: Matrix44) -> list[Stroke]:
    elevation = float(entity.dxf.get("elevation", 0.0))
    vertices = [(Vec3(x, y, elevation), bulge) for x, y, _, _, bulge in _corners(entity).tolist()]
    return with_tapers(bulged(vertices, bool(entity.closed), plane_of(entity), matrix), _widths(entity, matrix))


def _corners(entity: Any) -> Floats:
    """The corners of a light polyline, float (n, 5): x, y, both widths and the bulge of what leaves each."""
    return np.array(entity.lwpoints.values, dtype=np.float64).reshape(-1, 5)


def _polyline(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """Old-style polylines; points that only steer a fitted curve (vertex flag 16) are not on it."""
    vertices = [
        (Vec3(v.dxf.location), float(v.dxf.get("bulge", 0.0)) if entity.is_2d_polyline else 0.0)
        for v in entity.vertices
        if not int(v.dxf.get("flags", 0)) & 16
    ]
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        return []
    ocs = plane_of(entity) if entity.is_2d_polyline else SHEET
    return with_tapers(bulged(vertices, bool(entity.is_closed), ocs, matrix), _widths(entity, matrix))


def bulged(vertices: Iterable[tuple[Vec3, float]], closed: bool, ocs: OCS, matrix: Matrix44) -> list[Stroke]:
    """A chain through vertices with the bulge of the edge that leaves each; stretched edges become conics."""
    listed = list(vertices)
    points = list(matrix.transform_vertices(ocs.points_to_wcs(p for p, _ in listed)))
    bulges = [b for _, b in listed]
    if len(points) < 2:
        return []
    if closed:
        points, bulges = [*points, points[0]], [*bulges, 0.0]
    turn = _similarity(ocs, matrix)
    if turn is not None or not any(bulges):
        return [Chain(tuple(map(flat, points)), tuple((turn or 1.0) * b for b in bulges[:-1]))]
    local = [p for p, _ in listed] + ([listed[0][0]] if closed else [])
    edges = zip(local, local[1:], bulges, strict=False)
    return [_stretched_edge(a, b, bulge, ocs, matrix) for a, b, bulge in edges]


def _similarity(ocs: OCS, matrix: Matrix44) -> float | None:
    """1 if the way to the sheet keeps circles round, -1 if it mirrors too, None if it stretches or tilts."""
    u = matrix.transform_direction(ocs.to_wcs(Vec3(1, 0, 0)))
    v = matrix.transform_direction(ocs.to_wcs(Vec3(0, 1, 0)))
    size = math.hypot(u.x, u.y)
    if abs(math.hypot(v.x, v.y) - size) > ROUNDING * size or abs(u.x * v.x + u.y * v.y) > ROUNDING * size * size:
        return None
    return 1.0 if u.x * v.y - u.y * v.x > 0 else -1.0


def _stretched_edge(a: Vec3, b: Vec3, bulge: float, ocs: OCS, matrix: Matrix44) -> Stroke:
    """One polyline edge under a map that does not keep circles round."""
    chord = b - a
    if abs(bulge) < LAST_DIGITS or chord.magnitude == 0:
        return Chain((flat(matrix.transform(ocs.to_wcs(a))), flat(matrix.transform(ocs.to_wcs(b)))), (0.0,))
    centre = a + chord * 0.5 + Vec3(-chord.y, chord.x, 0) * ((1 - bulge * bulge) / (4 * bulge))
    arm, sweep = a - centre, 4 * math.atan(abs(bulge))
    side = Vec3(-arm.y, arm.x, 0) * math.copysign(1, bulge)
    u, v = (flat(matrix.transform_direction(ocs.to_wcs(d))) for d in (arm, side))
    middle = matrix.transform(ocs.to_wcs(Vec3(centre.x, centre.y, a.z)))
    return Conic(flat(middle), u, v, 0.0, sweep)


def _spline(entity: Any, matrix: Matrix44) -> list[Stroke]:
    if entity.control_point_count() == 0 and entity.fit_point_count() > MOST_FIT_POINTS:
        raise ValueError("too many points to fit a curve through")
    control = [Vec3(p) for p in entity.control_points]
    places = {tuple(p) for points in (control, entity.fit_points) for p in points}
    if len(places) == 1:  # an edge smaller than the digits that were written: it draws no more than a line of no length
        return []
    if entity.dxf.degree == 1 and len(set(entity.knots)) == 1:  # so small that its knots were written alike
        return [Chain(tuple(flat(matrix.transform(p)) for p in control), (0.0,) * (len(control) - 1))]
    return spline_stroke(entity.construction_tool(), matrix.transform)


def spline_stroke(curve: BSpline, place: Callable[[Vec3], Vec3]) -> list[Stroke]:
    """A spline put in place."""
    control = np.array([flat(place(p)) for p in curve.control_points])
    weights = np.array(list(curve.weights()) or [1.0] * len(control))
    return [Curve(curve.degree, np.array(list(curve.knots())), control, weights)]


def _multiline(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """Parallel lines drawn as one entity."""
    return [stroke for part in entity.virtual_entities() for stroke in strokes_of(part, matrix)]


def _solid(entity: Any, matrix: Matrix44) -> list[Stroke]:
    """Filled quadrilaterals; their third and fourth corner stand crosswise in the file."""
    ocs = plane_of(entity)
    corners = [Vec3(entity.dxf.get(f"vtx{k}")) for k in (0, 1, 3, 2) if entity.dxf.hasattr(f"vtx{k}")]
    points = [flat(matrix.transform(ocs.to_wcs(c))) for c in corners]
    loop = tuple(p for k, p in enumerate(points) if k == 0 or p != points[k - 1])
    return [Chain((*loop, loop[0]), (0.0,) * len(loop))] if len(loop) > 2 else []


MAKERS: dict[str, Callable[[Any, Matrix44], list[Stroke]]] = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "SPLINE": _spline,
    "HELIX": _spline,
    "MLINE": _multiline,
    "SOLID": _solid,
    "TRACE": _solid,
}
"""Entity kinds that draw lines, each with its way to strokes."""
