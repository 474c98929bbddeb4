"""What is milled and drilled of a turned part, each as the solids to cut from it; none of it is a ring groove."""

import itertools
import math
import random
from dataclasses import dataclass

from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakePolygon, BRepBuilderAPI_Transform
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.TopoDS import TopoDS_Shape
from support.independent.parts import TurnedPart

AXIS = gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0))


@dataclass(frozen=True)
class Land:
    """A plain stretch of the outside: front and back z, radius."""

    front: float
    back: float
    radius: float

    @property
    def span(self) -> float:
        return self.front - self.back

    @property
    def middle(self) -> float:
        return (self.front + self.back) / 2


@dataclass(frozen=True)
class Bench:
    """One part on the mill: what its features are cut from, and the dice."""

    part: TurnedPart
    rng: random.Random

    @property
    def bore(self) -> float:
        """Radius of all that is hollow about the axis."""
        return max((c.r for c in self.part.bore), default=0.0)

    @property
    def lands(self) -> list[Land]:
        floors = {round(g.floor_diameter / 2, 6) for g in self.part.grooves}
        runs = itertools.pairwise(self.part.outside_run())
        lands = [Land(a[0], b[0], a[1]) for a, b in runs if a[1] == b[1] and a[0] > b[0]]
        return [one for one in lands if round(one.radius, 6) not in floors]

    @property
    def land(self) -> Land:
        return max(self.lands, key=lambda one: one.span)

    def thinnest(self, depth: float) -> float:
        """Least radius of the outside within this depth of the front face."""
        return min(r for z, r, _ in self.part.outside_run() if z >= -depth - 1e-6 and r > self.bore + 1e-9)

    def angle(self) -> float:
        return self.rng.choice((0.0, 90.0, 180.0, 270.0, 45.0, 30.0, self.rng.uniform(0, 360)))


def turned(shape: TopoDS_Shape, degrees: float) -> TopoDS_Shape:
    """The shape turned about the part's axis."""
    turn = gp_Trsf()
    turn.SetRotation(AXIS, math.radians(degrees))
    return BRepBuilderAPI_Transform(shape, turn, True).Shape()


def _box(x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]) -> TopoDS_Shape:
    return BRepPrimAPI_MakeBox(gp_Pnt(x[0], y[0], z[0]), gp_Pnt(x[1], y[1], z[1])).Shape()


def _rod(at: tuple[float, float, float], way: tuple[float, float, float], radius: float, size: float) -> TopoDS_Shape:
    return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(*at), gp_Dir(*way)), radius, size).Shape()


def _both(one: TopoDS_Shape, other: TopoDS_Shape) -> TopoDS_Shape:
    return BRepAlgoAPI_Fuse(one, other).Shape()


def _drilled(y: float, z: float, radius: float, depth: float, tip: bool) -> TopoDS_Shape:
    """A hole from the front face, its tip of 118 degrees where it is blind."""
    hole = _rod((1.0, y, z), (-1, 0, 0), radius, depth + 1.0)
    if not tip:
        return hole
    frame = gp_Ax2(gp_Pnt(-depth, y, z), gp_Dir(-1, 0, 0))
    cone = BRepPrimAPI_MakeCone(frame, radius, 0.0, radius / math.tan(math.radians(59))).Shape()
    return _both(hole, cone)


def pitch_holes(bench: Bench) -> list[TopoDS_Shape]:
    """Holes off the axis in the front face, through or blind."""
    rng, part = bench.rng, bench.part
    through = rng.random() < 0.4
    depth = part.length + 1 if through else part.length * rng.uniform(0.15, 0.6)
    faces = [g for g in part.grooves if g.where == "face"]
    inner = max([bench.bore, *(max(g.mouth_diameter, g.floor_diameter) / 2 for g in faces)])
    outer = bench.thinnest(depth * 1.3)
    room = outer - inner
    radius = room * rng.uniform(0.15, 0.35)
    at = inner + room * rng.uniform(0.45, 0.55) if inner else outer * rng.uniform(0.5, 0.6)
    radius = min(radius, (outer - at) * 0.7, at * 0.5)
    if radius < part.grain:
        return []
    count, phase = rng.randint(1, 6), bench.angle()
    made = []
    for k in range(count):
        turn = math.radians(phase + k * 360 / count)
        made.append(
            _drilled(at * math.cos(turn), at * math.sin(turn), radius, depth, not through and rng.random() < 0.9)
        )
        if count > 1 and at * math.sin(math.pi / count) < radius * 1.1:
            break
    return made


def centre_hole(bench: Bench) -> list[TopoDS_Shape]:
    """A blind hole on the axis of a solid part."""
    if bench.bore:
        return []
    depth = bench.part.length * bench.rng.uniform(0.15, 0.5)
    return [_drilled(0, 0, bench.thinnest(depth * 1.3) * bench.rng.uniform(0.2, 0.45), depth, bench.rng.random() < 0.8)]


def _cross(bench: Bench, through: bool) -> list[TopoDS_Shape]:
    land, rng = bench.land, bench.rng
    radius = min(land.span * 0.35, land.radius * 0.6) * rng.uniform(0.2, 0.9)
    z, reach = land.middle + land.span * rng.uniform(-0.1, 0.1), 2 * bench.part.outer_diameter
    start = -reach if through else 0.0
    return [turned(_rod((z, 0, start), (0, 0, 1), radius, reach - start), bench.angle())]


def cross(bench: Bench) -> list[TopoDS_Shape]:
    """A hole right across."""
    return _cross(bench, through=True)


def radial(bench: Bench) -> list[TopoDS_Shape]:
    """A hole from one side to the axis or into the bore, sometimes several round the part."""
    one, count = _cross(bench, through=False), bench.rng.choice((1, 1, 2, 3, 4))
    return [turned(shape, k * 360 / count) for shape in one for k in range(count)]


def flat(bench: Bench) -> list[TopoDS_Shape]:
    """One flat on a land."""
    land, rng, reach = bench.land, bench.rng, bench.part.outer_diameter
    low = max(bench.bore * 1.1, land.radius * rng.uniform(0.75, 0.92))
    front = 1.0 if land.front > -1e-6 and rng.random() < 0.5 else land.middle + land.span * rng.uniform(0.2, 0.4)
    return [turned(_box((land.middle - land.span * 0.3, front), (-reach, reach), (low, reach)), bench.angle())]


def flats(bench: Bench) -> list[TopoDS_Shape]:
    """Two flats opposite, four or six: a spanner's place."""
    count = bench.rng.choice((2, 4, 6))
    low = math.cos(math.pi / count) if count > 2 else 0.85
    land, reach = bench.land, bench.part.outer_diameter
    low = max(low, 0.8 if count != 4 else 0.7) * land.radius
    if low < bench.bore * 1.05:
        return []
    front = 1.0 if land.front > -1e-6 and bench.rng.random() < 0.7 else land.middle + land.span * 0.3
    one = _box((land.middle - land.span * 0.3, front), (-reach, reach), (low, reach))
    phase = bench.rng.choice((0.0, 30.0, 45.0, 90.0))
    return [turned(one, phase + k * 360 / count) for k in range(count)]


def keyway(bench: Bench) -> list[TopoDS_Shape]:
    """A keyway of an end mill, rounded at both ends or open to the front."""
    land, rng, reach = bench.land, bench.rng, bench.part.outer_diameter
    half = min(land.radius * 0.3, land.span * 0.2) * rng.uniform(0.6, 1.0)
    low = max(land.radius * rng.uniform(0.7, 0.85), bench.bore * 1.05)
    a, b = land.middle - land.span * 0.3 + half, land.middle + land.span * 0.3 - half
    if land.front > -1e-6 and rng.random() < 0.3:
        b = 1.0
    if a > b:
        return []
    shape = _both(_box((a, b), (-half, half), (low, reach)), _rod((a, 0, low), (0, 0, 1), half, reach))
    return [turned(_both(shape, _rod((b, 0, low), (0, 0, 1), half, reach)), bench.angle())]


def woodruff(bench: Bench) -> list[TopoDS_Shape]:
    """A keyway of a disc cutter."""
    land, rng = bench.land, bench.rng
    radius = min(land.span * 0.35, land.radius * 0.5)
    half = radius * rng.uniform(0.15, 0.3)
    return [turned(_rod((land.middle, -half, land.radius), (0, 1, 0), radius * 0.8, 2 * half), bench.angle())]


def slot(bench: Bench) -> list[TopoDS_Shape]:
    """A slot across the front face."""
    reach, rng = bench.part.outer_diameter, bench.rng
    depth = min(max(bench.lands, key=lambda one: one.front).span, bench.part.length * 0.2) * rng.uniform(0.3, 0.7)
    half = bench.thinnest(depth) * rng.uniform(0.06, 0.15)
    return [turned(_box((-depth, 1.0), (-reach, reach), (-half, half)), bench.angle())]


def socket(bench: Bench) -> list[TopoDS_Shape]:
    """A hexagon socket in the front face."""
    if bench.bore:
        return []
    depth = bench.part.length * bench.rng.uniform(0.1, 0.3)
    radius, phase = bench.thinnest(depth) * bench.rng.uniform(0.3, 0.5), bench.rng.choice((0.0, 30.0))
    maker = BRepBuilderAPI_MakePolygon()
    for k in range(6):
        turn = math.radians(phase + 60 * k)
        maker.Add(gp_Pnt(1.0, radius * math.cos(turn), radius * math.sin(turn)))
    maker.Close()
    face = BRepBuilderAPI_MakeFace(maker.Wire()).Face()
    return [BRepPrimAPI_MakePrism(face, gp_Vec(-depth - 1.0, 0, 0)).Shape()]


FEATURES = {
    f.__name__: f for f in (pitch_holes, centre_hole, cross, radial, flat, flats, keyway, woodruff, slot, socket)
}
