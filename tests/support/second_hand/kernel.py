"""Views of the true solid: the profile revolved, cut, milled, and projected with hidden lines by a solid kernel."""

import math
from collections.abc import Iterator

from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.BRepLib import BRepLib
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeRevol
from OCP.GC import GC_MakeArcOfCircle
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape

from support.second_hand.lathe import Extra, TurnedPart
from support.second_hand.marks import HIDDEN, TANGENT, VISIBLE, XY, Arc, Circle, Curve, Line, Mark, arc_of, stretches
from support.second_hand.views import cut_face

Solid = TopoDS_Shape

# Direction of sight and the sheet's x, in the solid's space (turning axis along X, front face at X 0).
FRONT = ((0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
TOP = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
END = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
ISO = ((1.0, -1.0, 1.0), (1.0, 1.0, 0.0))


def solid(part: TurnedPart) -> Solid:
    """The part as a solid, with its keyways, cross holes and flats."""
    wire = BRepBuilderAPI_MakeWire()
    for a, b, bulge in stretches(cut_face(part)):
        if math.dist(a, b) > 1e-9:
            wire.Add(_edge(a, b, bulge))
    face = BRepBuilderAPI_MakeFace(wire.Wire()).Face()
    body = BRepPrimAPI_MakeRevol(face, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0))).Shape()
    for extra in part.extras:
        tool = _milled(extra)
        if tool is not None:
            body = BRepAlgoAPI_Cut(body, tool).Shape()
    return body


def _edge(a: XY, b: XY, bulge: float) -> TopoDS_Shape:
    p, q = gp_Pnt(a[0], a[1], 0), gp_Pnt(b[0], b[1], 0)
    if not bulge:
        return BRepBuilderAPI_MakeEdge(p, q).Edge()
    (cx, cy), radius, first, last = arc_of(a, b, bulge)
    middle = math.radians(first + ((last - first) % 360) / 2)
    via = gp_Pnt(cx + radius * math.cos(middle), cy + radius * math.sin(middle), 0)
    return BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(p, via, q).Value()).Edge()


def _milled(extra: Extra) -> Solid | None:
    near, far, size, r = extra.near, extra.far, extra.size, extra.radius
    if extra.kind == "keyway":
        low = gp_Pnt(far, -size / 2, r - size / 2)
        return BRepPrimAPI_MakeBox(low, gp_Pnt(near, size / 2, r + 20)).Shape()
    if extra.kind == "flat":
        return BRepPrimAPI_MakeBox(gp_Pnt(far, -r - 1, 0.8 * r), gp_Pnt(near, r + 1, r + 20)).Shape()
    if extra.kind == "cross hole":
        middle = gp_Pnt((near + far) / 2, 0, -r - 5)
        return BRepPrimAPI_MakeCylinder(gp_Ax2(middle, gp_Dir(0, 0, 1)), size / 2, 2 * r + 10).Shape()
    return None


def halved(body: Solid, part: TurnedPart, quarter: bool = False) -> Solid:
    """The solid with the near half (or quarter) cut away, for a view of kind FRONT."""
    big = part.diameter
    low = gp_Pnt(-part.length - 5, -big, 0.0 if quarter else -big)
    return BRepAlgoAPI_Cut(body, BRepPrimAPI_MakeBox(low, gp_Pnt(5, 0, big)).Shape()).Shape()


def project(body: Solid, sight: tuple[tuple[float, ...], tuple[float, ...]], hidden: bool) -> list[Mark]:
    """The edges and silhouettes that a hidden-line projection draws."""
    plane = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*sight[0]), gp_Dir(*sight[1]))
    algo = HLRBRep_Algo()
    algo.Add(body)
    algo.Projector(HLRAlgo_Projector(plane))
    algo.Update()
    algo.Hide()
    shapes = HLRBRep_HLRToShape(algo)
    made: list[Mark] = []
    layers = [(shapes.VCompound(), VISIBLE), (shapes.OutLineVCompound(), VISIBLE), (shapes.Rg1LineVCompound(), TANGENT)]
    if hidden:
        layers += [(shapes.HCompound(), HIDDEN), (shapes.OutLineHCompound(), HIDDEN)]
    for compound, role in layers:
        if compound is not None and not compound.IsNull():
            BRepLib.BuildCurves3d_s(compound)
            made += [m for edge in _edges(compound) if (m := _mark(edge, role))]
    return made


def _edges(shape: TopoDS_Shape) -> Iterator[TopoDS_Shape]:
    walk = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_EDGE)
    while walk.More():
        yield TopoDS.Edge_s(walk.Current()) if hasattr(TopoDS, "Edge_s") else TopoDS.Edge(walk.Current())
        walk.Next()


def _mark(edge: TopoDS_Shape, role: str) -> Mark | None:
    curve = BRepAdaptor_Curve(edge)
    first, last = curve.FirstParameter(), curve.LastParameter()
    a, b = (_flat(curve.Value(t)) for t in (first, last))
    kind = curve.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        return Line(a, b, role) if math.dist(a, b) > 1e-7 else None
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        circle = curve.Circle()
        centre, radius = _flat(circle.Location()), circle.Radius()
        if last - first > 2 * math.pi - 1e-9:
            return Circle(centre, radius, role)
        return _arc(centre, radius, a, _flat(curve.Value((first + last) / 2)), b, role)
    return _recognised(tuple(_flat(curve.Value(first + (last - first) * k / 16)) for k in range(17)), role)


def _recognised(row: tuple[XY, ...], role: str) -> Mark | None:
    """A free curve told as what it is: a line where an edge is seen end on, an arc, else a curve."""
    ends = max(((p, q) for p in row for q in row), key=lambda pq: math.dist(*pq))
    width = math.dist(*ends)
    if width < 1e-6:
        return None
    (ax, ay), (bx, by) = ends
    if max(abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) for x, y in row) < 1e-5 * width:
        return Line(*ends, role=role)
    centre = _middle(row[0], row[8], row[16])
    if centre is not None:
        radius = math.dist(centre, row[0])
        if max(abs(math.dist(centre, p) - radius) for p in row) < 2e-5:
            return _arc(centre, radius, row[0], row[8], row[16], role)
    return Curve(row, role)


def _middle(a: XY, b: XY, c: XY) -> XY | None:
    """The centre of the circle through three points."""
    twice = 2 * (a[0] * (b[1] - c[1]) + b[0] * (c[1] - a[1]) + c[0] * (a[1] - b[1]))
    if abs(twice) < 1e-12:
        return None
    aa, bb, cc = (p[0] ** 2 + p[1] ** 2 for p in (a, b, c))
    x = (aa * (b[1] - c[1]) + bb * (c[1] - a[1]) + cc * (a[1] - b[1])) / twice
    y = (aa * (c[0] - b[0]) + bb * (a[0] - c[0]) + cc * (b[0] - a[0])) / twice
    return x, y


def _arc(centre: XY, radius: float, a: XY, middle: XY, b: XY, role: str) -> Arc:
    angle = [math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) for p in (a, middle, b)]
    forward = (angle[1] - angle[0]) % 360 < (angle[2] - angle[0]) % 360
    return Arc(centre, radius, *((angle[0], angle[2]) if forward else (angle[2], angle[0])), role=role)


def _flat(p: gp_Pnt) -> XY:
    return p.X(), p.Y()
