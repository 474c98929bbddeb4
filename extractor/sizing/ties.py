"""Finds the feature of a recognised part that a dimension measures.

Rules: a dimension is brought into the part's own z and radius first. Along the axis it is tied by where its ends lie,
across the axis by the radii it spans and the place it stands at. What measures nothing of the part is left alone.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from extractor.finding import Point
from extractor.part import Frame, Groove, Part
from extractor.sheet import Dimension, DimensionKind

STRAIGHT = 0.9999
"""Cosine from which a direction counts as along or across the axis (0.8 degrees)."""
SNAP_SHARE = 5e-4
"""Ends of dimensions lie on their feature within this share of the part's size."""


@dataclass(frozen=True)
class Tie:
    """What a dimension measures: `field` of the grooves numbered in `grooves`, of true size `true`.

    `field` is a groove's field, "land_diameter", "length" or "distance" (the last three with no groove of their own).
    `half`: only half of a diameter is spanned. `loose`: tied by value, not by place.
    """

    field: str
    grooves: tuple[int, ...]
    true: float
    half: bool = False
    loose: bool = False


@dataclass(frozen=True)
class Places:
    """A part's features as looked up by dimensions."""

    part: Part
    frame: Frame
    snap: float

    @classmethod
    def of(cls, part: Part, frame: Frame) -> "Places":
        """Features of a part; ends snap within a share of its size, less where grooves are finer."""
        fine = [min(g.width, g.depth) for g in part.grooves]
        snap = min([SNAP_SHARE * max(part.length, part.outer_diameter), *(0.2 * f for f in fine)])
        return cls(part, frame, snap)

    def turned(self, point: Point) -> tuple[float, float]:
        """Place along the axis (z) and signed radius of a sheet point."""
        dx, dy = point[0] - self.frame.origin[0], point[1] - self.frame.origin[1]
        along = dx * self.frame.axis[0] + dy * self.frame.axis[1]
        out = dx * self.frame.up[0] + dy * self.frame.up[1]
        return along / self.frame.scale, out / self.frame.scale

    def near(self, a: float, b: float) -> bool:
        """True if two places along or across the axis are one."""
        return abs(a - b) <= self.snap

    def in_view(self, z: float, r: float) -> bool:
        """True if a place belongs to the view, dimension helpers beside it included."""
        reach = self.part.outer_diameter
        return -self.part.length - reach <= z <= reach and abs(r) <= 0.75 * reach + self.snap


def tie_of(dimension: Dimension, places: Places) -> Tie | None:
    """The feature a dimension measures, None where it measures none."""
    if dimension.kind is DimensionKind.ANGULAR:
        return None
    ends = [places.turned(p) for p in dimension.points[:2]]
    if dimension.kind is DimensionKind.LEADER:
        return _at_tip(*ends[0], places)
    true = dimension.measured / places.frame.scale
    if dimension.kind is DimensionKind.RADIUS:
        return _corner(ends, true, places)
    turn = math.radians(dimension.angle)
    direction = (math.cos(turn), math.sin(turn))
    if all(places.in_view(*end) for end in ends):
        if abs(_dot(direction, places.frame.axis)) >= STRAIGHT:
            return _along(ends[0][0], ends[1][0], true, places)
        if abs(_dot(direction, places.frame.up)) >= STRAIGHT:
            return _across(ends, true, places)
    return tie_by_value(true, places) if dimension.kind is DimensionKind.DIAMETER else None


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _along(a: float, b: float, true: float, places: Places) -> Tie | None:
    """A distance along the axis: a groove's width, a wall's place, the length, or between two other places."""
    front, back = max(a, b), min(a, b)
    for groove in places.part.grooves:
        if places.near(front, groove.z_near) and places.near(back, groove.z_far):
            return Tie("depth" if groove.where == "face" else "width", (groove.id,), true)
    if places.near(front, 0.0):
        for groove in places.part.grooves:
            for field in ("z_near", "z_far"):
                if places.near(back, getattr(groove, field)):
                    return Tie(field, (groove.id,), true)
        if places.near(back, -places.part.length):
            return Tie("length", (), true)
    stations = _stations(places.part)
    known = [any(places.near(z, s) for s in stations) for z in (front, back)]
    return Tie("distance", (), true) if all(known) else None


def _stations(part: Part) -> list[float]:
    """Every z at which the outside or inside of the part has a corner, and the walls of its grooves."""
    walls = [z for g in part.grooves for z in (g.z_near, g.z_far, (g.z_near + g.z_far) / 2)]
    return [z for z, _ in (*part.outline, *(part.bore or ()))] + walls


def _across(ends: list[tuple[float, float]], true: float, places: Places) -> Tie | None:
    """A distance across the axis: a diameter, half of one, or a depth."""
    (za, ra), (zb, rb) = ends
    if places.near(ra, -rb) and abs(ra) > places.snap:
        return _diameter((za, zb), true, places, half=False)
    for axis_r, r in ((ra, rb), (rb, ra)):
        if places.near(axis_r, 0.0) and abs(r) > places.snap:
            return _diameter((za, zb), 2 * true, places, half=True)
    return _depth((za, zb), sorted((abs(ra), abs(rb))), true, places) if ra * rb > 0 else None


def _diameter(zs: Iterable[float], diameter: float, places: Places, *, half: bool) -> Tie | None:
    """Floors at the place come first, then lands, then any floor of that diameter."""
    slack = 2 * places.snap
    floors = [g for g in places.part.grooves if g.where != "face" and abs(g.floor_diameter - diameter) <= slack]
    here = [g for g in floors if any(_beside(g, z, places.snap) for z in zs)]
    if here:
        return Tie("floor_diameter", tuple(g.id for g in here), diameter, half)
    radii = {r for _, r in (*places.part.lands, *(places.part.bore or ()))}
    if any(abs(2 * r - diameter) <= slack for r in radii):
        return Tie("land_diameter", (), diameter, half)
    return Tie("floor_diameter", tuple(g.id for g in floors), diameter, half) if floors else None


def _beside(groove: Groove, z: float, snap: float) -> bool:
    """True if a place along the axis lies within a groove, its walls included."""
    return groove.z_far - snap <= z <= groove.z_near + snap


def _depth(zs: tuple[float, float], radii: list[float], true: float, places: Places) -> Tie | None:
    """From floor to mouth of one groove, on one side."""
    for g in places.part.grooves:
        low, high = sorted((g.floor_diameter / 2, g.mouth_diameter / 2))
        spans = places.near(radii[0], low) and places.near(radii[1], high)
        if g.where != "face" and spans and any(_beside(g, z, g.width) for z in zs):
            return Tie("depth", (g.id,), true)
    return None


def _corner(ends: list[tuple[float, float]], true: float, places: Places) -> Tie | None:
    """A radius at a groove's floor corner."""
    for g in places.part.grooves:
        if g.corner_radius and abs(g.corner_radius - true) <= places.snap:
            r_low, r_high = sorted((g.floor_diameter / 2, g.mouth_diameter / 2))
            if any(_beside(g, z, true) and r_low - true <= abs(r) <= r_high + true for z, r in ends):
                return Tie("corner_radius", (g.id,), true)
    return None


def _at_tip(z: float, r: float, places: Places) -> Tie | None:
    """The floor or land that a leader's arrow touches."""
    slack = max(places.snap, 2 * SNAP_SHARE * places.part.outer_diameter)
    for g in places.part.grooves:
        if g.where != "face" and _beside(g, z, places.snap) and abs(abs(r) - g.floor_diameter / 2) <= slack:
            return Tie("floor_diameter", (g.id,), g.floor_diameter)
    for (z1, r1), (z2, r2) in zip(places.part.outline, places.part.outline[1:], strict=False):
        if r1 == r2 and z2 - places.snap <= z <= z1 + places.snap and abs(abs(r) - r1) <= slack:
            return Tie("land_diameter", (), 2 * r1)
    return None


def tie_by_value(diameter: float, places: Places) -> Tie | None:
    """A diameter dimension elsewhere (an end view): tied where one kind of feature has just this diameter."""
    slack = max(1e-4 * diameter, 1e-6)
    floors = tuple(g.id for g in places.part.grooves if abs(g.floor_diameter - diameter) <= slack)
    lands = any(abs(2 * r - diameter) <= slack for _, r in places.part.lands)
    return Tie("floor_diameter", floors, diameter, loose=True) if floors and not lands else None
