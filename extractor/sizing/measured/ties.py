"""Finds the feature of a recognised part that a dimension measures.

Rules: a dimension is brought into the part's own z and radius first. Along the axis it is tied by where its ends lie,
across the axis by the radii it spans and the place it stands at. What measures nothing of the part is left alone.
"""

import math
from itertools import chain, pairwise

from extractor.finding import Point
from extractor.part import Frame, Groove, Part
from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.lettering.printed import Printed, Sign, parse
from extractor.sizing.measured.features import SNAP_SHARE, Features, within_walls
from extractor.sizing.measured.landmarks import Landmark, gap, nearest
from extractor.values import dataclass

LENGTHS = (DimensionKind.LINEAR, DimensionKind.ALIGNED)
"""Dimensions between two places that are drawn as a line."""
STRAIGHT = 0.9999
"""Cosine from which a direction counts as along or across the axis (0.8 degrees)."""
BY_VALUE = 1e-4
"""Share of a diameter within which one that stands elsewhere is that of a feature."""
GAP = 0.05
"""Share of the part's size along the axis by which an extension line begins beside the level it is of, at most: a gap,
a chamfer; beyond the ends of the part any."""
WALLS = ("mouth_diameter", "floor_diameter")
"""The fields that hold the diameters of outer and inner wall of a face groove."""


@dataclass(frozen=True)
class Tie:
    """What a dimension measures: `field` of the grooves numbered in `grooves`, of true size `true`.

    `field` is a groove's field, "land_diameter", "step_diameter", "length" or "distance" (these without a groove).
    `half`: only half of a diameter is spanned. `loose`: tied by value, not by place. `ends`: of a place or a distance
    the two landmarks, front one or inner one first; `twice` where a diameter is measured and they lie on one radius.
    `floors`: the grooves whose floors a "distance_across" ends on, which is no diameter and no depth: a wall or a step.
    """

    field: str
    grooves: tuple[int, ...]
    true: float
    half: bool = False
    loose: bool = False
    ends: tuple[Landmark, Landmark] | None = None
    twice: bool = False
    floors: tuple[int, ...] = ()

    def printable(self, sign: Sign) -> tuple[float, ...]:
        """The sizes that may be printed with a sign: over half of a diameter the whole or the radius."""
        halves = {"diameter": (self.true,), "radius": (self.true / 2,)}
        return halves.get(sign, (self.true, self.true / 2)) if self.half else (self.true,)


def tie_of(dimension: Dimension, features: Features) -> Tie | None:
    """The feature a dimension measures, None where it measures none."""
    if dimension not in features.known:
        features.known[dimension] = _tie_of(dimension, features)
    tie: Tie | None = features.known[dimension]
    return tie


def _tie_of(dimension: Dimension, features: Features) -> Tie | None:
    """The same, worked out."""
    if dimension.kind is DimensionKind.ANGULAR:
        return None
    ends = [features.frame.on_part(p) for p in dimension.points[:2]]
    if dimension.kind is DimensionKind.LEADER:
        printed = parse(dimension.text)
        at_tip = _at_tip(*ends[0], printed, features)
        return at_tip or (_in_air(*ends[0], features) if printed.sign == "diameter" else None)
    true = dimension.measured / features.frame.scale
    if dimension.kind is DimensionKind.RADIUS:
        return _corner(ends, true, features) or _about_axis(dimension, ends, true, features)
    if at_home := view_ends(dimension, features):
        if measures(dimension, features.frame.axis):
            return _along(at_home, true, features)
        if measures(dimension, features.frame.up):
            return _across(at_home, true, features)
    return tie_by_value(true, features) if dimension.kind is DimensionKind.DIAMETER else None


def at_view(dimension: Dimension, features: Features) -> bool:
    """True for a dimension whose ends lie where those of the view do."""
    return bool(view_ends(dimension, features))


def view_ends(dimension: Dimension, features: Features) -> list[tuple[float, float]]:
    """The ends of a dimension in z and radius, none where they are not those of the view.

    One of them may lie off, square to what is measured: on the axis, which goes on, or on an extension line that goes
    on as that of another size. It is taken to lie beside the other.
    """
    ends = [features.frame.on_part(p) for p in dimension.points[:2]]
    within = [features.in_view(*end) for end in ends]
    if all(within) or not any(within):
        return ends if all(within) else []
    (z, r), (off_z, off_r) = ends if within[0] else ends[::-1]
    if measures(dimension, features.frame.axis) and features.in_view(off_z, r):
        moved = off_z, r
    elif measures(dimension, features.frame.up) and features.near(off_r, 0.0):
        moved = z, off_r
    else:
        return []
    return [end if here else moved for end, here in zip(ends, within, strict=True)]


def measures(dimension: Dimension, direction: Point) -> bool:
    """True for a dimension that measures along a direction, which is 1 long."""
    turn = math.radians(dimension.angle)
    return abs(direction[0] * math.cos(turn) + direction[1] * math.sin(turn)) >= STRAIGHT


def middle(dimension: Dimension) -> Point:
    """A place for a finding: half way between the measured points, or at a leader's tip."""
    if dimension.kind is DimensionKind.LEADER:
        return dimension.points[0]
    (ax, ay), (bx, by) = dimension.points[:2]
    return (ax + bx) / 2, (ay + by) / 2


def along(dimension: Dimension, frame: Frame) -> bool:
    """True for a length measured along the axis."""
    return dimension.kind in LENGTHS and measures(dimension, frame.axis)


def _along(ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """A distance along the axis: a groove's width, a wall's place, the length, or between two other places."""
    (back, beside_back), (front, beside_front) = sorted(ends)
    if features.near(front, back):
        return None
    beside = abs(beside_front), abs(beside_back)
    here = features.between(front, back)
    if here:
        groove = min(here, key=lambda g: sum(gap(g.radii, r) for r in beside))
        return Tie("width" if groove.side.axial else "depth", (groove.id,), true)
    one, two = features.along_at(front, beside[0]), features.along_at(back, beside[1])
    return _between(one, two, true, features.part) if one is not None and two is not None else None


def _between(one: Landmark, two: Landmark, true: float, part: Part) -> Tie:
    """What lies between two landmarks along the axis, the front one first."""
    spots = tuple(m.place.spot if m.place is not None else "" for m in (one, two))
    if spots == ("front", "back"):
        return Tie("length", (), true)
    floor = one.floor or two.floor
    if floor:
        return Tie(part.grooves[floor - 1].floor_field, (floor,), true, ends=(one, two))
    if spots in (("front", "near"), ("front", "far")):
        return Tie(f"z_{spots[1]}", (two.groove,), true, ends=(one, two))
    return Tie("distance", (), true, ends=(one, two))


def _across(ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """A distance across the axis: a diameter, half of one, a depth, or of a face groove a width or a wall's place."""
    (za, ra), (zb, rb) = ends
    if features.near(ra, -rb) and abs(ra) > features.snap:
        return _diameter((za, zb), true, features, half=False)
    for axis_r, r in ((ra, rb), (rb, ra)):
        if features.near(axis_r, 0.0) and abs(r) > features.snap:
            return _diameter((za, zb), 2 * true, features, half=True)
    radial = _radial(sorted(((abs(ra), za), (abs(rb), zb))), true, features) if ra * rb > 0 else None
    return radial or _span(ends, true, features)


def _span(ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """From a floor or a level to another radius: a wall that is left, a step, or over the axis to a land."""
    on_floor = [
        [
            g.id
            for g in features.part.grooves
            if g.side.axial and within_walls(g, z, features.snap) and _on(abs(r), g, features)
        ]
        for z, r in ends
    ]
    levels = [any(features.near(abs(r), mark.at) for mark in features.across) for _, r in ends]
    here = any(on_floor) or all(_at_level(z, abs(r), features) for z, r in ends)
    if not here or not all(on or at for on, at in zip(on_floor, levels, strict=True)):
        return None
    return Tie("distance_across", (), true, floors=tuple(number for on in on_floor for number in on))


def _at_level(z: float, radius: float, features: Features) -> bool:
    """True if a land, or a stretch of the bore, of a radius lies at a place along the axis."""
    z, room = min(0.0, max(-features.part.length, z)), GAP * features.size
    return any(
        features.near(a[1], radius) and features.near(b[1], radius) and b[0] - room <= z <= a[0] + room
        for line in features.land_lines
        for a, b in pairwise(line)
    )


def _on(radius: float, groove: Groove, features: Features) -> bool:
    """True for the radius of a groove's floor."""
    return features.near(radius, groove.floor_diameter / 2)


def _diameter(zs: tuple[float, float], diameter: float, features: Features, *, half: bool) -> Tie | None:
    """Floors and face grooves' walls at the place come first, then lands, then any of them of that diameter.

    Of these one that lies a gap off the lines is meant, if any does. An edge alone, as that of a chamfer, has a
    diameter at its own place; elsewhere it comes last.
    """
    found = _of_diameter(features, diameter, 2 * features.snap)
    here = [(field, g) for field, g in found if any(within_walls(g, z, features.snap) for z in zs)]
    if here:
        return _tie_of_all(here, diameter, half=half)
    corners = [c for line in features.land_lines for c in line if _as_wide(c[1], diameter, features)]
    on_edge = any(features.near(corner, z) for corner, _ in corners for z in zs)
    if on_edge or _level(diameter, features) or (corners and not found):
        return Tie("land_diameter", (), diameter, half)
    if found:
        close = [(field, g) for field, g in found if any(within_walls(g, z, max(g.width, g.depth)) for z in zs)]
        return _tie_of_all(close or found, diameter, half=half)
    if any(abs(2 * r - diameter) <= 2 * features.snap for _, r in features.steps):
        return Tie("step_diameter", (), diameter, half)
    axis, middle = features.across[0], nearest(features.across, diameter / 2, zs[0], features.snap)
    if middle is None or not middle.named:
        return None
    return Tie("distance", (), diameter, half, ends=(axis, middle), twice=True)


def _as_wide(radius: float, diameter: float, features: Features) -> bool:
    return abs(2 * radius - diameter) <= 2 * features.snap


def _level(diameter: float, features: Features) -> bool:
    """True if a land, or a stretch of the bore, has a diameter."""
    level = [
        a
        for line in features.land_lines
        for a, b in pairwise(line)
        if features.near(a[1], b[1]) and not features.near(a[0], b[0])
    ]
    return any(_as_wide(r, diameter, features) for _, r in level)


def _of_diameter(features: Features, diameter: float, slack: float) -> list[tuple[str, Groove]]:
    """The floors, and of face grooves the walls, that have a diameter: field and groove."""
    fields = [(f, g) for g in features.part.grooves for f in (WALLS[1:] if g.side.axial else WALLS)]
    return [(field, g) for field, g in fields if abs(getattr(g, field) - diameter) <= slack]


def _tie_of_all(found: list[tuple[str, Groove]], diameter: float, *, half: bool = False, loose: bool = False) -> Tie:
    """One tie for all features of a diameter: several leave open which is meant."""
    return Tie(found[0][0], tuple(g.id for _, g in found), diameter, half, loose)


def _radial(ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """From floor to mouth of one groove, from wall to wall of a face groove, or to a wall from elsewhere."""
    (low, z_low), (high, z_high) = ends
    for g in features.part.grooves:
        bottom, top = g.radii
        spans = features.near(low, bottom) and features.near(high, top)
        if spans and any(within_walls(g, z, max(g.width, g.depth)) for z in (z_low, z_high)):
            return Tie("depth" if g.side.axial else "width", (g.id,), true)
    one = nearest(features.across, low, z_low, features.snap)
    two = nearest(features.across, high, z_high, features.snap)
    if one is None or two is None or not (one.named or two.named):
        return None
    return Tie("distance", (), true, ends=(one, two))


def _corner(ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """A radius at a groove's floor corner."""
    for g in features.part.grooves:
        if g.corner_radius and abs(g.corner_radius - true) <= features.snap:
            r_low, r_high = g.radii
            if any(within_walls(g, z, true) and r_low - true <= abs(r) <= r_high + true for z, r in ends):
                return Tie("corner_radius", (g.id,), true)
    return None


def _about_axis(dimension: Dimension, ends: list[tuple[float, float]], true: float, features: Features) -> Tie | None:
    """A radius from the axis square to it, as a distance across the axis is."""
    (za, ra), (zb, rb) = ends
    square = features.near(za, zb) and features.near(min(abs(ra), abs(rb)), 0.0)
    return _across(ends, true, features) if square and at_view(dimension, features) else None


def _at_tip(z: float, r: float, printed: Printed, features: Features) -> Tie | None:
    """The floor, the wall of a face groove, the land or the stretch of the bore that a leader's arrow touches.

    Where it touches the corner of a groove's mouth, and not the land but the floor is as printed, it means the groove.
    """
    slack = max(features.snap, 2 * SNAP_SHARE * features.part.outer_diameter)
    found = [
        (field, g) for field, g in _of_diameter(features, 2 * abs(r), 2 * slack) if within_walls(g, z, features.snap)
    ]
    if found:
        field, g = min(found, key=lambda one: abs(getattr(one[1], one[0]) / 2 - abs(r)))
        return Tie(field, (g.id,), getattr(g, field))
    for (z1, r1), (z2, r2) in chain(pairwise(features.part.outline), pairwise(features.part.bore or ())):
        if r1 == r2 and z2 - features.snap <= z <= z1 + features.snap and abs(abs(r) - r1) <= slack:
            of_corner = (g for g in features.part.grooves if min(abs(z - g.z_near), abs(z - g.z_far)) <= slack)
            meant = [g for g in of_corner if g.side.axial and features.fits(printed, g.floor_diameter)]
            if meant and printed.sign == "diameter" and not features.fits(printed, 2 * r1):
                return Tie("floor_diameter", (meant[0].id,), meant[0].floor_diameter)
            return Tie("land_diameter", (), 2 * r1)
    return None


def _in_air(z: float, r: float, features: Features) -> Tie | None:
    """The floor of the groove in whose air the arrow of a diameter's leader ends."""
    for g in features.part.grooves:
        (low, high), over = g.radii, g.z_far < z < g.z_near
        if g.side.axial and over and low < abs(r) < high:
            return Tie("floor_diameter", (g.id,), g.floor_diameter)
    return None


def tie_alone(printed: Printed, features: Features) -> Tie | None:
    """A diameter that stands alone: tied by its value, or by that of a floor between its limits."""
    floors = (g.floor_diameter for g in features.part.grooves if features.agrees(printed, g.floor_diameter))
    return tie_by_value(next(floors, 0.0) if printed.limits else printed.size or 0.0, features)


def tie_by_value(diameter: float, features: Features) -> Tie | None:
    """A diameter dimension elsewhere (an end view): tied if only one kind of feature has this diameter."""
    slack = BY_VALUE * diameter
    found = _of_diameter(features, diameter, slack)
    lands = any(abs(2 * r - diameter) <= slack for _, r in features.part.lands)
    return _tie_of_all(found, diameter, loose=True) if found and not lands else None
