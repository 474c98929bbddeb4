"""The metal as a polygon in (z, radius): a square insert swept along every leg is taken out of it."""

import math
from dataclasses import dataclass

from shapely import LineString, MultiPoint, Point, Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from support.second_opinion import swept_out
from support.wholes.lathe import Leg

from .values import Insert, Piece, Recess

QUARTER = 16
LONG = 1e3


def blank(piece: Piece) -> Polygon:
    """The half section with no recess cut."""
    parts, z = [], 0.0
    for end, across in piece.steps:
        parts.append(box(-end, piece.bore / 2, -z, across / 2))
        z = end
    return unary_union(parts)


def tip(insert: Insert) -> Polygon:
    """The insert with its programmed point at (0, 0): as wide as it is, endlessly long away from the metal.

    The programmed edge is the one toward the front (`near`) or the chuck (`far`); on a face the outer or the inner one.
    """
    w, c, low = insert.width, insert.corner, 0.0 if insert.reference == "far" else -insert.width
    angles = [math.pi / 2 * step / QUARTER for step in range(QUARTER + 1)]
    corner = [(c - c * math.cos(a), c - c * math.sin(a)) for a in angles] if c else [(0.0, 0.0)]
    left = [(low + u, v) for u, v in corner]
    right = [(low + w - u, v) for u, v in reversed(corner)]
    points = [(low, LONG), *left, *right, (low + w, LONG)]
    if insert.where == "inside":
        return Polygon([(u, -v) for u, v in points])
    return Polygon([(v, u) for u, v in points]) if insert.where == "face" else Polygon(points)


@dataclass(frozen=True)
class Cut:
    """The metal that is left, and the lines whose rapid moves went through metal."""

    metal: BaseGeometry
    crashes: tuple[int, ...]


def cut(piece: Piece, legs: list[Leg], inserts: tuple[Insert, ...], hair: float) -> Cut:
    """Cuts a blank; `hair` is how much a rapid may scrape, for rounding."""
    metal, crashes = swept_out(blank(piece), legs, {insert.station: tip(insert) for insert in inserts}, hair)
    return Cut(metal, tuple(leg.line for leg, _ in crashes))


class Gauge:
    """Measures one recess in the metal that is left: u along its bottom, v into the metal from the land."""

    def __init__(self, metal: BaseGeometry, recess: Recess) -> None:
        self.recess = recess
        if recess.where == "face":
            self.near, self.far, self.deep = recess.near / 2, recess.far / 2, recess.floor
            ring = lambda z, r: (r, -z)  # noqa: E731
        else:
            self.near, self.far = -recess.near, -recess.far
            self.deep = abs(recess.land - recess.floor) / 2
            side = 1.0 if recess.where == "inside" else -1.0
            ring = lambda z, r: (z, side * (r - recess.land / 2))  # noqa: E731
        self.reach = (self.near - self.far) / 2 + 1.5 * min(self.near - self.far, self.deep)
        polygons = getattr(metal, "geoms", [metal])
        turned = [
            Polygon([ring(*p) for p in one.exterior.coords], [[ring(*p) for p in h.coords] for h in one.interiors])
            for one in polygons
            if not one.is_empty
        ]
        middle = (self.near + self.far) / 2
        self.middle = middle
        window = box(middle - self.reach, -self.deep, middle + self.reach, self.deep * 3)
        self.metal = unary_union([one.buffer(0).intersection(window) for one in turned])
        self.air = self.open(window.difference(self.metal))

    def open(self, air: BaseGeometry, u: float | None = None) -> BaseGeometry:
        """What of the air is open to the mouth of the recess, at its middle or at u."""
        mouth = Point(self.middle if u is None else u, -self.deep / 2)
        return next((one for one in getattr(air, "geoms", [air]) if one.intersects(mouth)), Polygon())

    def walls(self, share: float) -> tuple[float, float] | None:
        """Where the metal begins on either side of the middle, at a share of the drawn depth; None where uncut."""
        v = self.deep * share
        air = LineString([(self.middle - self.reach, v), (self.middle + self.reach, v)]).intersection(self.air)
        for piece in getattr(air, "geoms", [air]):
            if piece.length and piece.bounds[0] < self.middle < piece.bounds[2]:
                return piece.bounds[2], piece.bounds[0]
        return None

    def floor(self, inset: float) -> tuple[float, float] | None:
        """The shallowest and the deepest place between the walls, kept `inset` away from them."""
        walls = self.walls(0.5)
        if walls is None or walls[0] - walls[1] <= 2 * inset:
            return None
        strip = box(walls[1] + inset, -self.deep, walls[0] - inset, self.deep * 3)
        air = self.open(strip.intersection(self.air), sum(walls) / 2)
        return strip.intersection(self.metal).bounds[1], air.bounds[3]

    def corners(self) -> tuple[float, float] | None:
        """The radius at the far and the near corner of the floor, from how far the metal stands on their bisectors."""
        walls, listed = self.walls(0.5), []
        if walls is None:
            return None
        floor = self.floor((walls[0] - walls[1]) * 0.45)
        if floor is None:
            return None
        for wall, way in ((walls[1], 1.0), (walls[0], -1.0)):
            long = (walls[0] - walls[1]) / 2
            ray = LineString([(wall, floor[1]), (wall + way * long, floor[1] - long)]).intersection(self.metal)
            points = MultiPoint([p for g in getattr(ray, "geoms", [ray]) for p in getattr(g, "coords", [])])
            far = 0.0 if points.is_empty else max(math.hypot(p.x - wall, p.y - floor[1]) for p in points.geoms)
            listed.append(far / (math.sqrt(2) - 1))
        return listed[0], listed[1]
