"""How strokes are moved about on a sheet: mirrored, made larger, turned and shifted."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from support.ink import Arc, Block, Circle, Dim, Hatch, Ink, Line, Path, Point, Spline, Text, Vertex


@dataclass(frozen=True)
class Move:
    """Mirror about the x axis first where wanted, then scale, turn and shift."""

    shift: Point = (0.0, 0.0)
    turn: float = 0.0
    size: float = 1.0
    mirror: bool = False

    def point(self, p: Point) -> Point:
        x, y = p[0] * self.size, (-p[1] if self.mirror else p[1]) * self.size
        quarter = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}.get(self.turn % 360)
        c, s = quarter or (math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn)))
        return (x * c - y * s + self.shift[0], x * s + y * c + self.shift[1])

    def angle(self, degrees: float) -> float:
        return (-degrees if self.mirror else degrees) + self.turn

    def points(self, points: Iterable[Vertex]) -> tuple[Vertex, ...]:
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
            case Path():
                return replace(item, points=self.points(item.points))
            case Hatch():
                return replace(item, loops=tuple(map(self.points, item.loops)))
            case Spline():
                return replace(item, poles=tuple(self.point(p) for p in item.poles))
            case Text():
                return replace(item, at=self.point(item.at), height=item.height * self.size)
            case Dim():
                ends = (self.point(item.a), self.point(item.b), self.point(item.base))
                return replace(item, a=ends[0], b=ends[1], base=ends[2], angle=self.angle(item.angle))
            case Block():
                return replace(item, at=self.point(item.at), turned=self.angle(item.turned))
