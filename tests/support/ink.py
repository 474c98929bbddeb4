"""What lies on a sheet: strokes, texts and sizes, each with its role. Lengths in drawing units, degrees.

A role is a word, to which an office gives a layer and a line type, or a `Look` that says both.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.ops import unary_union

Point = tuple[float, float]
Vertex = tuple[float, float, float]
"""With the bulge of the edge that follows: the tangent of a quarter of its angle."""


@dataclass(frozen=True)
class Look:
    """Layer and linetype of a stroke; an empty linetype is the layer's own."""

    layer: str = "0"
    linetype: str = ""


Role = str | Look
PLAIN = Look()


@dataclass(frozen=True)
class Line:
    a: Point
    b: Point
    role: Role = "outline"


@dataclass(frozen=True)
class Arc:
    """Counter-clockwise from `start` to `end`."""

    centre: Point
    radius: float
    start: float
    end: float
    role: Role = "outline"


@dataclass(frozen=True)
class Circle:
    centre: Point
    radius: float
    role: Role = "outline"


@dataclass(frozen=True)
class Path:
    """A polyline; `old` writes it as POLYLINE with vertices."""

    points: tuple[Point, ...] | tuple[Vertex, ...]
    closed: bool = False
    role: Role = "outline"
    old: bool = False


@dataclass(frozen=True)
class Curve:
    """A freehand line through points: a spline where the file can hold one."""

    points: tuple[Point, ...]
    role: Role = "thin"


@dataclass(frozen=True)
class Spline:
    """A clamped B-spline."""

    degree: int
    knots: tuple[float, ...]
    poles: tuple[Point, ...]
    weights: tuple[float, ...] = ()
    role: Role = "outline"


@dataclass(frozen=True)
class Solid:
    """A filled arrow head."""

    points: tuple[Point, Point, Point]
    role: Role = "dim"


@dataclass(frozen=True)
class Text:
    """Starts at `at`, or stands in the middle of it where `middle` says so; `multi` writes it as MTEXT."""

    at: Point
    text: str
    height: float = 2.5
    angle: float = 0.0
    middle: bool = False
    role: Role = "text"
    multi: bool = False


@dataclass(frozen=True)
class Dim:
    """One size measured along `angle`, its line through `base`; an empty text is the measured one."""

    a: Point
    b: Point
    base: Point
    angle: float
    text: str = ""
    height: float = 2.5
    role: Role = "dim"

    def feet(self) -> tuple[Point, Point]:
        """Where the dimension line ends: below `a` and below `b`."""
        c, s = {0: (1.0, 0.0), 90: (0.0, 1.0)}.get(self.angle) or _unit(self.angle)
        along = [(p[0] - self.base[0]) * c + (p[1] - self.base[1]) * s for p in (self.a, self.b)]
        first, last = ((self.base[0] + t * c, self.base[1] + t * s) for t in along)
        return first, last

    def measured(self) -> float:
        return math.dist(*self.feet())


@dataclass(frozen=True)
class Ordinate:
    """A running size along x or y, from `origin` to `feature`, its text at `end`."""

    origin: Point
    feature: Point
    end: Point
    along_x: bool
    text: str
    height: float
    role: Role = "dim"


@dataclass(frozen=True)
class Leader:
    """From the arrow head on."""

    points: tuple[Point, ...]
    size: float
    role: Role = "leader"


@dataclass(frozen=True)
class Callout:
    """A leader and its text as one thing, where the file can hold one; points from the arrow head on."""

    points: tuple[Point, ...]
    at: Point
    text: str
    height: float
    role: Role = "leader"


@dataclass(frozen=True)
class Hatch:
    """Section lining inside closed loops; lines so far apart, or the pattern of a library where that is 0."""

    loops: tuple[tuple[Point, ...] | tuple[Vertex, ...], ...]
    spacing: float = 0.0
    role: Role = "hatch"


@dataclass(frozen=True)
class Block:
    """Strokes kept as a block whose `base` is put at `at`, larger by `size` (mirrored where below nought), turned."""

    items: tuple["Ink", ...]
    at: Point
    base: Point = (0.0, 0.0)
    size: tuple[float, float] = (1.0, 1.0)
    turned: float = 0.0
    role: Role = "outline"
    name: str = ""


Ink = Line | Arc | Circle | Path | Curve | Spline | Solid | Text | Dim | Ordinate | Leader | Callout | Hatch | Block


def minor_arc(p: Point, q: Point, centre: Point, role: Role = "outline") -> Arc:
    """The arc of less than half a turn between two points."""
    a, b = (math.degrees(math.atan2(t[1] - centre[1], t[0] - centre[0])) for t in (p, q))
    if (b - a) % 360 > 180:
        a, b = b, a
    return Arc(centre, math.dist(p, centre), a % 360, b % 360, role)


def number(value: float, places: int = 4) -> str:
    """A size as people write it: no trailing zeros."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def arrow(tip: Point, back: Point, size: float, role: Role, kind: str) -> list[Ink]:
    """An arrow head as strokes: "solid", "open" (two strokes), "closed" (three) or "tick"."""
    angle = math.atan2(back[1] - tip[1], back[0] - tip[0])
    wing = [(tip[0] + size * math.cos(angle + t), tip[1] + size * math.sin(angle + t)) for t in (0.16, -0.16)]
    if kind == "solid":
        return [Solid((tip, wing[0], wing[1]), role)]
    if kind == "tick":
        d = size * 0.35
        return [Line((tip[0] - d, tip[1] - d), (tip[0] + d, tip[1] + d), role)]
    strokes: list[Ink] = [Line(tip, wing[0], role), Line(tip, wing[1], role)]
    return strokes if kind == "open" else [*strokes, Line(wing[0], wing[1], role)]


def exploded(dim: Dim, kind: str = "open", gap: float = 0.3, role: Role | None = None) -> list[Ink]:
    """A size along x or y as strokes and a text: extension lines (`gap` heights off the part), its line, arrows."""
    role, h = role or dim.role, dim.height
    a, b = dim.feet()
    found: list[Ink] = []
    for p, f in ((dim.a, a), (dim.b, b)):
        run = math.dist(p, f)
        if run > gap * h + 1e-9:
            u = ((f[0] - p[0]) / run, (f[1] - p[1]) / run)
            start = (p[0] + u[0] * gap * h, p[1] + u[1] * gap * h)
            found.append(Line(start, (f[0] + u[0] * h * 0.5, f[1] + u[1] * h * 0.5), role))
    found.append(Line(a, b, role))
    found += arrow(a, b, h, role, kind) + arrow(b, a, h, role, kind)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    at = (middle[0], middle[1] + h * 0.8) if dim.angle == 0 else (middle[0] - h * 0.8, middle[1])
    text = (dim.text or "<>").replace("<>", number(dim.measured()))
    return [*found, Text(at, text, h, dim.angle, middle=True, role=role if role != "outline" else "text")]


def barely_exploded(dim: Dim) -> Iterator[Ink]:
    """A size at any angle as bare programs leave it: lines from the part to the ends of its line, short arrows."""
    feet, role = dim.feet(), dim.role
    (x, y), size = _unit(dim.angle), max(0.2, dim.measured() * 0.03)
    for p, foot in zip((dim.a, dim.b), feet, strict=True):
        yield Line(p, foot, Look(role.layer) if isinstance(role, Look) else role)
    yield Line(*feet, role)
    for foot, sign in zip(feet, (1, -1), strict=True):
        for lean in (0.3, -0.3):
            yield Line(foot, (foot[0] + sign * size * (x - lean * y), foot[1] + sign * size * (y + lean * x)), role)
    text = (dim.text or "<>").replace("<>", f"{dim.measured():g}")
    yield Text(((feet[0][0] + feet[1][0]) / 2, (feet[0][1] + feet[1][1]) / 2), text, role=role)


def _unit(degrees: float) -> Point:
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def led(leader: Leader, kind: str = "solid") -> list[Ink]:
    """A leader as strokes with an arrow head."""
    lines: list[Ink] = [Line(p, q, leader.role) for p, q in pairwise(leader.points)]
    return lines + arrow(leader.points[0], leader.points[1], leader.size, leader.role, kind)


def taken_apart(item: Callout) -> list[Ink]:
    """Leader and text apart."""
    return [*led(Leader(item.points, item.height, item.role)), Text(item.at, item.text, item.height)]


def moved(item: Ink, role: Role) -> Ink:
    """The same ink in another role."""
    return replace(item, role=role)


def extent(items: list[Ink]) -> tuple[float, float, float, float]:
    """Box of all points named: left, bottom, right, top."""
    xs, ys = [], []
    for item in items:
        for x, y in points_of(item):
            xs.append(x)
            ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def points_of(item: Ink) -> list[Point]:
    """Points that span an item."""
    match item:
        case Line(a, b):
            return [a, b]
        case Arc(c, r) | Circle(c, r):
            return [(c[0] - r, c[1] - r), (c[0] + r, c[1] + r)]
        case Text():
            wide = len(item.text) * item.height * 0.8
            if item.angle:
                wide, tall = item.height, wide
            else:
                tall = item.height
            x, y = (item.at[0] - wide / 2, item.at[1] - tall / 2) if item.middle else item.at
            return [(x, y), (x + wide, y + tall)]
        case Dim():
            return [item.a, item.b, item.base]
        case Block():
            inner = [p for i in item.items for p in points_of(i)]
            return [tuple(item.at[k] + item.size[k] * (p[k] - item.base[k]) for k in (0, 1)) for p in inner]
        case Callout():
            return [*item.points, *points_of(Text(item.at, item.text, item.height))]
        case Ordinate():
            return [item.feature, item.end]
        case Hatch():
            return [p for loop in item.loops for p in loop]
        case _:
            return list(item.points)


def bulge_arc(a: Point, b: Point, bulge: float, role: Role = "outline") -> Arc:
    """The arc from `a` to `b` whose quarter angle has this tangent."""
    chord = math.dist(a, b)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    height = radius * (1 - bulge * bulge) / (1 + bulge * bulge)
    side = 1.0 if bulge > 0 else -1.0
    ux, uy = (b[0] - a[0]) / chord, (b[1] - a[1]) / chord
    centre = ((a[0] + b[0]) / 2 - side * uy * height, (a[1] + b[1]) / 2 + side * ux * height)
    first, last = (math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) for p in (a, b))
    return Arc(centre, radius, first, last, role) if bulge > 0 else Arc(centre, radius, last, first, role)


def strokes(points: Sequence[Vertex], closed: bool, role: Role) -> list[Ink]:
    """A path as single lines and arcs."""
    run = [*points, points[0]] if closed and points else points
    return [
        bulge_arc((x, y), (u, v), bulge, role) if bulge else Line((x, y), (u, v), role)
        for (x, y, bulge), (u, v, _) in pairwise(run)
        if (x, y) != (u, v)
    ]


def hatch_lines(item: Hatch) -> list[Line]:
    """Loose strokes at 45 degrees inside the loops."""
    area = unary_union([Polygon([p[:2] for p in loop]).buffer(0) for loop in item.loops])
    x0, y0, x1, y1 = area.bounds
    found: list[Line] = []
    step, tall = item.spacing * math.sqrt(2), y1 - y0
    for k in range(int((x1 - x0 + tall) / step) + 1):
        x = x0 - tall + (k + 0.37) * step
        shape = area if isinstance(area, MultiPolygon) else MultiPolygon([area])
        cut = LineString([(x, y0), (x + tall, y1)]).intersection(shape)
        for part in getattr(cut, "geoms", [cut]):
            if part.geom_type == "LineString" and not part.is_empty:
                ends = list(part.coords)
                found.append(Line(ends[0], ends[-1], item.role))
    return found
