"""The lines of a piece: straight ones and corner arcs, x to the right from the front face, y up from the axis."""

import itertools
import math

from support.ink import Arc, Line, Vertex

from .values import Piece, Point, Recess


def mirrored(stroke: Line | Arc) -> Line | Arc:
    """The same below the axis."""
    if isinstance(stroke, Line):
        return Line((stroke.a[0], -stroke.a[1]), (stroke.b[0], -stroke.b[1]))
    return Arc((stroke.centre[0], -stroke.centre[1]), stroke.radius, -stroke.end, -stroke.start)


def toward(a: Point, b: Point, far: float) -> Point:
    long = math.dist(a, b)
    return a[0] + (b[0] - a[0]) * far / long, a[1] + (b[1] - a[1]) * far / long


def strokes(path: list[Vertex]) -> list[Line | Arc]:
    """Lines and arcs of a run of points; each carries the radius of its rounded right-angled corner, 0 for sharp."""
    listed: list[Line | Arc] = []
    at = path[0][:2]
    for (px, py, _), (x, y, r), (nx, ny, _) in zip(path, path[1:], path[2:], strict=False):
        if not r:
            listed.append(Line(at, (x, y)))
            at = (x, y)
            continue
        first, last = toward((x, y), (px, py), r), toward((x, y), (nx, ny), r)
        centre = first[0] + last[0] - x, first[1] + last[1] - y
        angles = [math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) % 360 for p in (first, last)]
        start, end = angles if (angles[1] - angles[0]) % 360 < 180 else angles[::-1]
        listed += [Line(at, first), Arc(centre, r, start, end)]
        at = last
    listed.append(Line(at, path[-1][:2]))
    return [s for s in listed if isinstance(s, Arc) or math.dist(s.a, s.b) > 1e-9]


def slot(recess: Recess) -> list[Vertex]:
    """The four corners of a recess from its near wall to its far wall; on a face from the inner wall outward."""
    a, b, floor, land, c = recess.near, recess.far, recess.floor / 2, recess.land / 2, recess.corner
    if recess.where == "face":
        return [(0.0, b / 2, 0.0), (-recess.floor, b / 2, c), (-recess.floor, a / 2, c), (0.0, a / 2, 0.0)]
    return [(-a, land, 0.0), (-a, floor, c), (-b, floor, c), (-b, land, 0.0)]


def outer(piece: Piece) -> list[Vertex]:
    """From the front face's edge to the back face's edge."""
    path: list[Vertex] = []
    z = 0.0
    for end, across in piece.steps:
        path.append((-z, across / 2, 0.0))
        for recess in sorted(piece.recesses, key=lambda r: r.near):
            if recess.where == "outside" and z <= recess.near < end:
                path += slot(recess)
        path.append((-end, across / 2, 0.0))
        z = end
    return path


def front(piece: Piece) -> list[Vertex]:
    """From the bore or the axis outward along the front face."""
    path: list[Vertex] = [(0.0, piece.bore / 2, 0.0)]
    for recess in sorted(piece.recesses, key=lambda r: r.far):
        if recess.where == "face":
            path += slot(recess)
    return [*path, (0.0, piece.steps[0][1] / 2, 0.0)]


def inner(piece: Piece) -> list[Vertex]:
    """From the front face along the bore to the back face."""
    path: list[Vertex] = [(0.0, piece.bore / 2, 0.0)]
    for recess in sorted(piece.recesses, key=lambda r: r.near):
        if recess.where == "inside":
            path += slot(recess)
    return [*path, (-piece.length, piece.bore / 2, 0.0)]


def edges(piece: Piece) -> list[Line]:
    """Edge circles seen from the side as lines across: shoulders and groove walls outside."""
    seen = {0.0: piece.steps[0][1], piece.length: piece.steps[-1][1]}
    for (end, before), (_, behind) in itertools.pairwise(piece.steps):
        seen[end] = max(before, behind)
    for recess in piece.recesses:
        if recess.where == "outside":
            seen |= {recess.near: recess.land, recess.far: recess.land}
    return [Line((-z, across / 2), (-z, -across / 2)) for z, across in seen.items()]


def bore_edges(piece: Piece) -> list[Line]:
    """Edge circles seen through the bore of a section."""
    seen = {0.0, piece.length}
    for recess in piece.recesses:
        if recess.where == "inside":
            seen |= {recess.near, recess.far}
    return [Line((-z, piece.bore / 2), (-z, -piece.bore / 2)) for z in sorted(seen)] if piece.bore else []
