"""What lies on a sheet: flat marks with a role; a system decides how each is written."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

XY = tuple[float, float]

VISIBLE, HIDDEN, CENTRE, TANGENT, THIN, HATCH, DIMENSION, TEXT, BORDER, PHANTOM = (
    "visible",
    "hidden",
    "centre",
    "tangent",
    "thin",
    "hatch",
    "dimension",
    "text",
    "border",
    "phantom",
)


@dataclass(frozen=True)
class Line:
    """A straight mark."""

    a: XY
    b: XY
    role: str = VISIBLE


@dataclass(frozen=True)
class Arc:
    """A circular arc, counter-clockwise from `start` to `end` (degrees)."""

    centre: XY
    radius: float
    start: float
    end: float
    role: str = VISIBLE


@dataclass(frozen=True)
class Circle:
    """A full circle."""

    centre: XY
    radius: float
    role: str = VISIBLE


@dataclass(frozen=True)
class Path:
    """Corners joined by lines, or by arcs where a bulge is not 0 (DXF meaning: tan of a quarter of the sweep)."""

    points: tuple[XY, ...]
    bulges: tuple[float, ...] = ()
    closed: bool = False
    role: str = VISIBLE


@dataclass(frozen=True)
class Curve:
    """A free curve, known by a dense row of points on it (spline, ellipse of a projection)."""

    points: tuple[XY, ...]
    role: str = VISIBLE


@dataclass(frozen=True)
class Note:
    """A text; `kind` text or mtext."""

    at: XY
    height: float
    text: str
    kind: str = "text"
    turned: float = 0.0
    role: str = TEXT


@dataclass(frozen=True)
class Dim:
    """A linear dimension between two points, `line` on its line; `angle` its direction, `picture` its block."""

    a: XY
    b: XY
    line: XY
    angle: float
    shown: float
    text: str = ""
    factor: float = 1.0
    picture: str = ""
    role: str = DIMENSION


@dataclass(frozen=True)
class Fill:
    """A hatched area, its rim a closed path."""

    rim: Path
    role: str = HATCH


Mark = Fill | Line | Arc | Circle | Path | Curve | Note | Dim


def arc_of(a: XY, b: XY, bulge: float) -> tuple[XY, float, float, float]:
    """Centre, radius, start and end angle (counter-clockwise, degrees) of a bulged stretch."""
    chord = math.dist(a, b)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    rise = (1 - bulge * bulge) / (4 * bulge)
    centre = ((a[0] + b[0]) / 2 - rise * (b[1] - a[1]), (a[1] + b[1]) / 2 + rise * (b[0] - a[0]))
    first = math.degrees(math.atan2(a[1] - centre[1], a[0] - centre[0]))
    last = math.degrees(math.atan2(b[1] - centre[1], b[0] - centre[0]))
    return (centre, radius, first, last) if bulge > 0 else (centre, radius, last, first)


def stretches(path: Path) -> Iterable[tuple[XY, XY, float]]:
    """The stretches of a path with their bulges."""
    points = path.points + (path.points[:1] if path.closed else ())
    bulges = path.bulges or (0.0,) * len(points)
    yield from zip(points, points[1:], bulges, strict=False)


def pieces(path: Path) -> list[Mark]:
    """A path taken to pieces: lines and arcs."""
    made: list[Mark] = []
    for a, b, bulge in stretches(path):
        if math.dist(a, b) < 1e-12:
            continue
        made.append(Arc(*arc_of(a, b, bulge), role=path.role) if bulge else Line(a, b, path.role))
    return made


def arc_points(arc: Arc, step: float) -> tuple[XY, ...]:
    """Points along an arc, at most `step` degrees apart."""
    sweep = (arc.end - arc.start) % 360.0 or 360.0
    count = max(1, math.ceil(sweep / step))
    angles = [math.radians(arc.start + sweep * k / count) for k in range(count + 1)]
    return tuple((arc.centre[0] + arc.radius * math.cos(t), arc.centre[1] + arc.radius * math.sin(t)) for t in angles)


@dataclass(frozen=True)
class Place:
    """A similarity: mirror x first, then scale, turn (degrees), shift."""

    shift: XY = (0.0, 0.0)
    turn: float = 0.0
    scale: float = 1.0
    mirror: bool = False

    def point(self, p: XY) -> XY:
        """The image of a point."""
        x, y = (-p[0] if self.mirror else p[0]) * self.scale, p[1] * self.scale
        if self.turn % 90 == 0:
            c, s = ((1, 0), (0, 1), (-1, 0), (0, -1))[round(self.turn / 90) % 4]
        else:
            c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))  # type: ignore[assignment]
        return (c * x - s * y + self.shift[0], s * x + c * y + self.shift[1])

    def bulges(self, path: Path) -> tuple[float, ...]:
        """The bulges of a path's image: a mirror turns them round."""
        return tuple(-b for b in path.bulges) if self.mirror else path.bulges

    def __call__(self, mark: Mark) -> Mark:
        """The image of a mark."""
        if isinstance(mark, Arc):
            ends = (180 - mark.end, 180 - mark.start) if self.mirror else (mark.start, mark.end)
            first, last = (e + self.turn for e in ends)
            return Arc(self.point(mark.centre), mark.radius * self.scale, first % 360, last % 360, mark.role)
        if isinstance(mark, Circle):
            return Circle(self.point(mark.centre), mark.radius * self.scale, mark.role)
        if isinstance(mark, Path):
            return replace(mark, points=tuple(map(self.point, mark.points)), bulges=self.bulges(mark))
        if isinstance(mark, Line):
            return Line(self.point(mark.a), self.point(mark.b), mark.role)
        if isinstance(mark, Curve):
            return Curve(tuple(map(self.point, mark.points)), mark.role)
        if isinstance(mark, Fill):
            return Fill(replace(mark.rim, points=tuple(map(self.point, mark.rim.points)), bulges=self.bulges(mark.rim)))
        if isinstance(mark, Note):
            return replace(mark, at=self.point(mark.at))
        along = (180 - mark.angle if self.mirror else mark.angle) + self.turn
        return replace(mark, a=self.point(mark.a), b=self.point(mark.b), line=self.point(mark.line), angle=along % 180)


def placed(marks: Iterable[Mark], place: Callable[[Mark], Mark]) -> list[Mark]:
    """Every mark put in its place."""
    return [place(m) for m in marks]


def box(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Least and greatest x and y (roughly, by points) of the marks."""
    points: list[XY] = []
    for mark in marks:
        if isinstance(mark, Line | Dim):
            points += [mark.a, mark.b]
        elif isinstance(mark, Arc | Circle):
            x, y = mark.centre
            points += [(x - mark.radius, y - mark.radius), (x + mark.radius, y + mark.radius)]
        elif isinstance(mark, Path | Curve):
            points += mark.points
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)
