"""Turned parts as true solids, and the lines that hidden-line removal leaves of them.

The part is revolved by an open solid-modelling kernel, cut where it has cross holes or flats, and projected by the
kernel's own exact hidden-line removal; the strokes come out as that projector makes them: split, in any order,
curves as arcs, splines or short lines. Nothing of the drawing is taken from the part's numbers.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.BRepLib import BRepLib
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeRevol
from OCP.GC import GC_MakeArcOfCircle
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.GeomAbs import GeomAbs_BSplineCurve, GeomAbs_Circle, GeomAbs_Line
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape

from support.independent.parts import Bent, TurnedPart
from support.ink import Arc, Ink, Line, Look, Path, Spline

XY = tuple[float, float]
VISIBLE = Look("VISIBLE")
# By view: the direction toward the viewer, and what points to the right on the sheet.
DIRECTIONS = {
    "side": ((0.0, -1.0, 0.0), (1.0, 0.0, 0.0)),
    "end": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "corner": ((1.0, -1.0, 1.0), (1.0, 1.0, 0.0)),
}


@dataclass(frozen=True)
class Cuts:
    """What is milled and drilled across the turned solid, drawing units; none of it is a ring groove.

    `flats`: (z front, z back, distance of the flat from the axis), facing the viewer or, if `above`, on top;
    `holes`: (z, radius) through the axis along the view, or if `above` at right angles to it.
    `seam` turns the place where the revolution closes, degrees.
    """

    flats: tuple[tuple[float, float, float], ...] = ()
    holes: tuple[tuple[float, float], ...] = ()
    above: bool = False
    seam: float = 37.0


@dataclass(frozen=True)
class Sight:
    """How the view is drawn: layers for kinds of edges; None leaves a kind out.

    `chord` flattens arcs too if above 0; `straight` makes one line of a curve seen edge-on, as most programs do.
    """

    sharp: Look = VISIBLE
    smooth: Look | None = None
    hidden: Look | None = None
    chord: float = 0.0
    straight: bool = True
    direction: str = "side"


def solid(part: TurnedPart, cuts: Cuts) -> TopoDS_Shape:
    """Revolve the part about its axis (world x, front face at 0) and make the cuts."""
    face = BRepBuilderAPI_MakeFace(_wire(part.loop(), cuts.seam)).Face()
    axis = gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0))
    shape = BRepPrimAPI_MakeRevol(face, axis).Shape()
    reach = part.outer_diameter * 2
    for front, back, distance in cuts.flats:
        corner, other = gp_Pnt(back, -reach, distance), gp_Pnt(front, reach, reach)
        if not cuts.above:
            corner, other = gp_Pnt(back, -reach, -reach), gp_Pnt(front, -distance, reach)
        shape = BRepAlgoAPI_Cut(shape, BRepPrimAPI_MakeBox(corner, other).Shape()).Shape()
    for z, radius in cuts.holes:
        way = (gp_Pnt(z, 0, -reach), gp_Dir(0, 0, 1)) if cuts.above else (gp_Pnt(z, -reach, 0), gp_Dir(0, 1, 0))
        along = gp_Ax2(*way)
        shape = BRepAlgoAPI_Cut(shape, BRepPrimAPI_MakeCylinder(along, radius, 2 * reach).Shape()).Shape()
    return shape


def quarter_cut(shape: TopoDS_Shape, part: TurnedPart, whole: bool) -> TopoDS_Shape:
    """Take away the near half (a full section) or the near upper quarter (a half section)."""
    reach = part.outer_diameter * 2
    low = -reach if whole else 0.0
    tool = BRepPrimAPI_MakeBox(gp_Pnt(-part.length - reach, -reach, low), gp_Pnt(reach, 0.0, reach)).Shape()
    return BRepAlgoAPI_Cut(shape, tool).Shape()


def _wire(loop: list[Bent], seam: float) -> object:
    """The closed half section as a wire, in a plane turned by `seam` about the axis."""
    c, s = math.cos(math.radians(seam)), math.sin(math.radians(seam))
    place = lambda z, r: gp_Pnt(z, r * c, r * s)  # noqa: E731
    maker = BRepBuilderAPI_MakeWire()
    for (z, r, bulge), (v, q, _) in zip(loop, loop[1:] + loop[:1], strict=True):
        if math.hypot(z - v, r - q) < 1e-9:
            continue
        if bulge:
            middle = place(*_middle((z, r), (v, q), bulge))
            edge = BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(place(z, r), middle, place(v, q)).Value())
        else:
            edge = BRepBuilderAPI_MakeEdge(place(z, r), place(v, q))
        maker.Add(edge.Edge())
    return maker.Wire()


def _middle(a: XY, b: XY, bulge: float) -> XY:
    """The middle of the arc from a to b."""
    return (a[0] + b[0]) / 2 + bulge * (b[1] - a[1]) / 2, (a[1] + b[1]) / 2 - bulge * (b[0] - a[0]) / 2


def project(shape: TopoDS_Shape, sight: Sight) -> list[Ink]:
    """One view by exact hidden-line removal; from the side: world x to the right, world z up."""
    toward, right = DIRECTIONS[sight.direction]
    frame = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*toward), gp_Dir(*right))
    remover = HLRBRep_Algo()
    remover.Add(shape, 0)
    remover.Projector(HLRAlgo_Projector(frame))
    remover.Update()
    remover.Hide()
    found = HLRBRep_HLRToShape(remover)
    kinds = [(found.VCompound, sight.sharp), (found.OutLineVCompound, sight.sharp)]
    if sight.smooth is not None:
        kinds += [(found.Rg1LineVCompound, sight.smooth)]
    if sight.hidden is not None:
        kinds += [(found.HCompound, sight.hidden), (found.OutLineHCompound, sight.hidden)]
    ink: list[Ink] = []
    for compound, look in kinds:
        lines = compound()
        if lines is not None and not lines.IsNull():
            BRepLib.BuildCurves3d_s(lines)
            ink += [stroke for curve in _curves(lines) for stroke in _strokes(curve, look, sight)]
    return ink


def _curves(shape: TopoDS_Shape) -> Iterator[BRepAdaptor_Curve]:
    explorer = TopExp_Explorer(shape, TopAbs_EDGE)
    while explorer.More():
        edge = TopoDS.Edge(explorer.Current())
        if not BRep_Tool.Degenerated_s(edge):
            yield BRepAdaptor_Curve(edge)
        explorer.Next()


def _strokes(curve: BRepAdaptor_Curve, look: Look, sight: Sight) -> list[Ink]:
    first, last = curve.FirstParameter(), curve.LastParameter()
    a, b = _xy(curve.Value(first)), _xy(curve.Value(last))
    kind = curve.GetType()
    if kind == GeomAbs_Line:
        return [Line(a, b, look)] if math.dist(a, b) > 1e-9 else []
    if kind == GeomAbs_Circle and not sight.chord:
        return [_arc(curve, look)]
    points = GCPnts_QuasiUniformDeflection(curve, sight.chord or 0.001, first, last)
    places = [_xy(points.Value(index + 1)) for index in range(points.NbPoints())]
    if math.dist(places[0], places[-1]) < 1e-9 and len(places) < 4:
        return []
    if sight.straight and _flat(places):
        return [Line(places[0], places[-1], look)]
    if kind == GeomAbs_BSplineCurve and not sight.chord:
        return [_spline(curve, look)]
    return [Path(tuple((x, y, 0.0) for x, y in places), False, look)]


def _spline(curve: BRepAdaptor_Curve, look: Look) -> Spline:
    """The piece of a B-spline that the edge covers."""
    whole = curve.BSpline()
    whole.Segment(curve.FirstParameter(), curve.LastParameter())
    knots = [whole.Knot(i + 1) for i in range(whole.NbKnots()) for _ in range(whole.Multiplicity(i + 1))]
    poles = tuple(_xy(whole.Pole(i + 1)) for i in range(whole.NbPoles()))
    weights = tuple(whole.Weight(i + 1) for i in range(whole.NbPoles())) if whole.IsRational() else ()
    return Spline(whole.Degree(), tuple(knots), poles, weights, look)


def _flat(places: list[XY]) -> bool:
    """True if all places lie on the line through the outermost two."""
    (ax, ay), (bx, by) = places[0], places[-1]
    size = math.hypot(bx - ax, by - ay)
    return size > 1e-9 and all(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) < 1e-7 * size for x, y in places)


def _arc(curve: BRepAdaptor_Curve, look: Look) -> Ink:
    circle = curve.Circle()
    centre, first, last = _xy(circle.Location()), curve.FirstParameter(), curve.LastParameter()
    ends = [_xy(curve.Value(t)) for t in (first, last)]
    angles = [math.degrees(math.atan2(y - centre[1], x - centre[0])) for x, y in ends]
    if circle.Axis().Direction().Z() < 0:
        angles.reverse()
    return Arc(centre, circle.Radius(), angles[0], angles[1], look)


def _xy(point: gp_Pnt) -> XY:
    return point.X(), point.Y()
