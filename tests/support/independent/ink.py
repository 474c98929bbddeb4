"""Strokes on a sheet: lines, arcs, paths, notes and dimensions, and how they are moved about.

Lengths in drawing units, angles in degrees counter-clockwise, arcs counter-clockwise from `start` to `end`.
"""

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

XY = tuple[float, float]


@dataclass(frozen=True)
class Look:
    """Layer and linetype of a stroke; an empty linetype is the layer's own."""

    layer: str = "0"
    linetype: str = ""


PLAIN = Look()


@dataclass(frozen=True)
class Line:
    a: XY
    b: XY
    look: Look = PLAIN


@dataclass(frozen=True)
class Arc:
    centre: XY
    radius: float
    start: float
    end: float
    look: Look = PLAIN


@dataclass(frozen=True)
class Circle:
    centre: XY
    radius: float
    look: Look = PLAIN


@dataclass(frozen=True)
class Path:
    """A polyline of (x, y, bulge); `old` writes it as POLYLINE with vertices."""

    points: tuple[tuple[float, float, float], ...]
    closed: bool = False
    look: Look = PLAIN
    old: bool = False


@dataclass(frozen=True)
class Spline:
    """A clamped B-spline."""

    degree: int
    knots: tuple[float, ...]
    poles: tuple[XY, ...]
    weights: tuple[float, ...] = ()
    look: Look = PLAIN


@dataclass(frozen=True)
class Note:
    text: str
    at: XY
    height: float = 2.5
    look: Look = PLAIN
    turned: float = 0.0
    multi: bool = False


@dataclass(frozen=True)
class Dim:
    """A linear dimension between `a` and `b` measured along `angle`, its line through `at`; "" prints the measure."""

    a: XY
    b: XY
    at: XY
    angle: float
    text: str = ""
    look: Look = PLAIN
    diameter: bool = False


@dataclass(frozen=True)
class Hatch:
    """A hatched area within one closed path."""

    points: tuple[tuple[float, float, float], ...]
    look: Look = PLAIN


@dataclass(frozen=True)
class Insert:
    """A block put on the sheet; `items` are what the block of this name holds."""

    name: str
    items: tuple["Ink", ...]
    at: XY
    size: tuple[float, float] = (1.0, 1.0)
    turned: float = 0.0
    look: Look = PLAIN


Ink = Line | Arc | Circle | Path | Spline | Note | Dim | Hatch | Insert


@dataclass(frozen=True)
class Move:
    """Mirror about the x axis first where wanted, then scale, turn and shift."""

    shift: XY = (0.0, 0.0)
    turn: float = 0.0
    size: float = 1.0
    mirror: bool = False

    def point(self, p: XY) -> XY:
        x, y = p[0] * self.size, (-p[1] if self.mirror else p[1]) * self.size
        quarter = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}.get(self.turn % 360)
        c, s = quarter or (math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn)))
        return (x * c - y * s + self.shift[0], x * s + y * c + self.shift[1])

    def angle(self, degrees: float) -> float:
        return (-degrees if self.mirror else degrees) + self.turn

    def points(self, points: Iterable[tuple[float, float, float]]) -> tuple[tuple[float, float, float], ...]:
        sign = -1.0 if self.mirror else 1.0
        return tuple((*self.point((x, y)), sign * bulge) for x, y, bulge in points)

    def arc(self, arc: Arc) -> Arc:
        ends = (self.angle(arc.start), self.angle(arc.end))
        start, end = reversed(ends) if self.mirror else ends
        return replace(arc, centre=self.point(arc.centre), radius=arc.radius * self.size, start=start, end=end)

    def all(self, items: Iterable[Ink]) -> list[Ink]:
        return [self.one(item) for item in items]

    def one(self, item: Ink) -> Ink:
        match item:
            case Line():
                return replace(item, a=self.point(item.a), b=self.point(item.b))
            case Arc():
                return self.arc(item)
            case Circle():
                return replace(item, centre=self.point(item.centre), radius=item.radius * self.size)
            case Path() | Hatch():
                return replace(item, points=self.points(item.points))
            case Spline():
                return replace(item, poles=tuple(self.point(p) for p in item.poles))
            case Note():
                return replace(item, at=self.point(item.at), height=item.height * self.size)
            case Dim():
                ends = (self.point(item.a), self.point(item.b), self.point(item.at))
                return replace(item, a=ends[0], b=ends[1], at=ends[2], angle=self.angle(item.angle))
            case Insert():
                return replace(item, at=self.point(item.at), turned=self.angle(item.turned))


def bulge_arc(a: XY, b: XY, bulge: float, look: Look = PLAIN) -> Arc:
    """The arc from `a` to `b` whose quarter angle has this tangent."""
    chord = math.dist(a, b)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    height = radius * (1 - bulge * bulge) / (1 + bulge * bulge)
    side = 1.0 if bulge > 0 else -1.0
    ux, uy = (b[0] - a[0]) / chord, (b[1] - a[1]) / chord
    centre = ((a[0] + b[0]) / 2 - side * uy * height, (a[1] + b[1]) / 2 + side * ux * height)
    first, last = (math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) for p in (a, b))
    return Arc(centre, radius, first, last, look) if bulge > 0 else Arc(centre, radius, last, first, look)


def strokes(points: Iterable[tuple[float, float, float]], closed: bool, look: Look) -> list[Ink]:
    """A path as single lines and arcs."""
    run = list(points)
    pairs = zip(run, run[1:] + run[:1], strict=True) if closed else itertools.pairwise(run)
    return [
        bulge_arc((x, y), (u, v), bulge, look) if bulge else Line((x, y), (u, v), look)
        for (x, y, bulge), (u, v, _) in pairs
        if (x, y) != (u, v)
    ]
