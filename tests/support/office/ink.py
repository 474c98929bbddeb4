"""What lies on a sheet: strokes, texts and sizes, each with its role. Lengths in drawing units, degrees."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

Point = tuple[float, float]


@dataclass(frozen=True)
class Line:
    a: Point
    b: Point
    role: str = "outline"


@dataclass(frozen=True)
class Arc:
    """Counter-clockwise from `start` to `end`."""

    centre: Point
    radius: float
    start: float
    end: float
    role: str = "outline"


@dataclass(frozen=True)
class Circle:
    centre: Point
    radius: float
    role: str = "outline"


@dataclass(frozen=True)
class Path:
    points: tuple[Point, ...]
    closed: bool = False
    role: str = "outline"


@dataclass(frozen=True)
class Curve:
    """A freehand line through points: a spline where the file can hold one."""

    points: tuple[Point, ...]
    role: str = "thin"


@dataclass(frozen=True)
class Solid:
    """A filled arrow head."""

    points: tuple[Point, Point, Point]
    role: str = "dim"


@dataclass(frozen=True)
class Text:
    """Starts at `at`, or stands in the middle of it where `middle` says so."""

    at: Point
    text: str
    height: float
    angle: float = 0.0
    middle: bool = False
    role: str = "text"


@dataclass(frozen=True)
class Dim:
    """One size: `angle` 0 measures along x, 90 along y; an empty text is the measured one."""

    a: Point
    b: Point
    base: Point
    angle: float
    text: str
    height: float
    role: str = "dim"

    def measured(self) -> float:
        return abs(self.b[0] - self.a[0]) if self.angle == 0 else abs(self.b[1] - self.a[1])


@dataclass(frozen=True)
class Ordinate:
    """A running size along x or y, from `origin` to `feature`, its text at `end`."""

    origin: Point
    feature: Point
    end: Point
    along_x: bool
    text: str
    height: float
    role: str = "dim"


@dataclass(frozen=True)
class Leader:
    """From the arrow head on."""

    points: tuple[Point, ...]
    size: float
    role: str = "leader"


@dataclass(frozen=True)
class Callout:
    """A leader and its text as one thing, where the file can hold one; points from the arrow head on."""

    points: tuple[Point, ...]
    at: Point
    text: str
    height: float
    role: str = "leader"


@dataclass(frozen=True)
class Hatch:
    """Section lining inside closed loops."""

    loops: tuple[tuple[Point, ...], ...]
    spacing: float
    role: str = "hatch"


@dataclass(frozen=True)
class Block:
    """Strokes kept as a block and put in place with `at` as its base; `mirrored` flips it about the line y = at[1]."""

    items: tuple["Ink", ...]
    at: Point
    mirrored: bool = False
    role: str = "outline"


Ink = Line | Arc | Circle | Path | Curve | Solid | Text | Dim | Ordinate | Leader | Callout | Hatch | Block


def minor_arc(p: Point, q: Point, centre: Point, role: str = "outline") -> Arc:
    """The arc of less than half a turn between two points."""
    a, b = (math.degrees(math.atan2(t[1] - centre[1], t[0] - centre[0])) for t in (p, q))
    if (b - a) % 360 > 180:
        a, b = b, a
    return Arc(centre, math.dist(p, centre), a % 360, b % 360, role)


def number(value: float, places: int = 4) -> str:
    """A size as people write it: no trailing zeros."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def arrow(tip: Point, back: Point, size: float, role: str, kind: str) -> list[Ink]:
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


def exploded(dim: Dim, kind: str = "open", gap: float = 0.3, role: str | None = None) -> list[Ink]:
    """A size as strokes and a text: extension lines (`gap` heights off the part), dimension line, arrows."""
    role, h = role or dim.role, dim.height
    flat = dim.angle == 0
    foot = (lambda p: (p[0], dim.base[1])) if flat else (lambda p: (dim.base[0], p[1]))
    found: list[Ink] = []
    for p in (dim.a, dim.b):
        f = foot(p)
        run = math.dist(p, f)
        if run > gap * h + 1e-9:
            u = ((f[0] - p[0]) / run, (f[1] - p[1]) / run)
            start = (p[0] + u[0] * gap * h, p[1] + u[1] * gap * h)
            found.append(Line(start, (f[0] + u[0] * h * 0.5, f[1] + u[1] * h * 0.5), role))
    a, b = foot(dim.a), foot(dim.b)
    found.append(Line(a, b, role))
    found += arrow(a, b, h, role, kind) + arrow(b, a, h, role, kind)
    text = (dim.text or "<>").replace("<>", number(dim.measured()))
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    at = (middle[0], middle[1] + h * 0.8) if flat else (middle[0] - h * 0.8, middle[1])
    return [*found, Text(at, text, h, 0.0 if flat else 90.0, middle=True, role=role if role != "outline" else "text")]


def led(leader: Leader, kind: str = "solid") -> list[Ink]:
    """A leader as strokes with an arrow head."""
    lines: list[Ink] = [Line(p, q, leader.role) for p, q in pairwise(leader.points)]
    return lines + arrow(leader.points[0], leader.points[1], leader.size, leader.role, kind)


def taken_apart(item: Callout) -> list[Ink]:
    """Leader and text apart."""
    return [*led(Leader(item.points, item.height, item.role)), Text(item.at, item.text, item.height)]


def moved(item: Ink, role: str) -> Ink:
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
            flip = -1 if item.mirrored else 1
            inner = [p for i in item.items for p in points_of(i)]
            return [(x, item.at[1] + flip * (y - item.at[1])) for x, y in inner]
        case Callout():
            return [*item.points, *points_of(Text(item.at, item.text, item.height))]
        case Ordinate():
            return [item.feature, item.end]
        case Hatch():
            return [p for loop in item.loops for p in loop]
        case _:
            return list(item.points)
