"""Classification: what kind of recess it is, and its measures.

A recess is climbed twice, from the floor to the land on either side. Both climbs are turned so that they go outward
and up: a corner at the floor is then an arc that turns left, a rim at the mouth one that turns right.

    rectangular  two radial walls and a level floor, whatever the lands beside it
    relief       a sloping or curved wall, where the other runs on up a shoulder by more than the recess is deep
    tapered      a level floor with at least one sloping wall
    vee          sloping walls that meet in a point or a small radius
    round        arcs, with or without radial walls above
    other        anything else: shelves, overhangs, grooves within it
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from extractor.geometry.arcs import chords
from extractor.geometry.profile import Piece
from extractor.part import Shape
from extractor.recess.levels import Recess
from extractor.values import dataclass

RADIAL = 1e-3
"""A wall leaning less than one in a thousand is radial (common practice: no insert holds less)."""

BEVEL = 0.02
"""Share of its height that a chamfer at 45 degrees may be off in width."""

MOST_CORNER = 1.75
"""Turn (radians, 100 degrees) up to which an arc at a floor is its corner; what turns more is no corner."""

OFF_LEVEL = 0.05
"""Share of a corner's radius by which its centre may stand off the place where the floor ends."""

UPRIGHT = 1e-3
"""Share of its length by which an upright wall may run back toward the front, as drawn by hand; more is an overhang."""

CONE = 4.0
"""A line running more than four times its rise is a conical land, not a lead-in at the mouth."""

FAR = 4.0
"""A line that runs on so many times as far as the wall below it is tall breaks no edge (common practice, no source)."""

Conical = Literal["none", "flat", "any"]
"""Which slanting line above a wall may be a conical land: none, a flat one (CONE), or any that is long for its wall."""


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A recess with its measures; radii, not diameters.

    `chamfers` is the rim at the near and far mouth, `bevels` whether either one is a straight line at 45 degrees,
    `bends` whether it is an arc,
    `inner` how many recesses lie in it, `level` whether its floor is a land rather than a point, `overhang` whether it
    widens below its mouth, `foot` the z of its floor's ends with the corners taken as square, `reach` the z between
    which all of it lies.
    """

    shape: Shape
    z_near: float
    z_far: float
    mouth: float
    floor: float
    near_land: float
    far_land: float
    corners: tuple[float, float] = (0.0, 0.0)
    chamfers: tuple[float, float] = (0.0, 0.0)
    inner: int = 0
    level: bool = True
    overhang: bool = False
    foot: tuple[float, float] = (0.0, 0.0)
    bevels: tuple[bool, bool] = (False, False)
    bends: tuple[bool, bool] = (False, False)
    reach: tuple[float, float] = (0.0, 0.0)

    @property
    def width(self) -> float:
        """Width between the walls."""
        return self.z_near - self.z_far

    @property
    def depth(self) -> float:
        """Radial depth below the lower land."""
        return self.mouth - self.floor

    @property
    def rim(self) -> tuple[float, bool]:
        """The larger of both rims, and whether it is an arc."""
        return max(zip(self.chamfers, self.bends, strict=True))


@dataclass(frozen=True)
class Climb:
    """One side of a recess: `kind` straight, slanted, curved or mixed; `wall` is the z of a straight wall."""

    kind: str
    wall: float
    land: float
    corner: float = 0.0
    rim: float = 0.0
    bevel: bool = False
    bend: bool = False


def measure(profile: Sequence[Piece], recess: Recess, fine: float) -> Measured | None:
    """Shape and measures of a recess; None where its walls meet before the mouth (no opening)."""
    near_side = [p.back() for p in reversed(profile[recess.near.last : recess.floor.first])]
    far_side = [_mirrored(p) for p in profile[recess.floor.last : recess.far.first]]
    near, far = _level(near_side, far_side, recess.mouth, fine)
    mouth = min(near.land, far.land)
    floor = recess.floor.radius
    shape = "other" if recess.back else _shape(recess, near, far, fine)
    straight = shape in ("rectangular", "relief")
    z_near = near.wall if straight and near.kind == "straight" else _crossing(near_side, mouth, fine)
    z_far = -(far.wall if straight and far.kind == "straight" else _crossing(far_side, mouth, fine))
    if not z_near > z_far + fine or mouth - floor <= fine:
        return None
    return Measured(
        shape=shape,
        z_near=z_near,
        z_far=z_far,
        mouth=mouth,
        floor=floor,
        near_land=near.land,
        far_land=far.land,
        corners=(near.corner, far.corner),
        chamfers=(near.rim, far.rim),
        inner=len(recess.inner),
        level=recess.floor.first != recess.floor.last,
        overhang=recess.back,
        foot=_foot(profile, recess, near.corner, far.corner),
        bevels=(near.bevel, far.bevel),
        bends=(near.bend, far.bend),
        reach=_reach(profile[recess.near.last : recess.far.first]),
    )


def is_open(profile: Sequence[Piece], recess: Recess) -> bool:
    """True if a recess has a mouth, however narrow: the way from one land to the other never runs back."""
    pieces = profile[recess.near.last : recess.far.first]
    return all(p.run <= p.size * UPRIGHT for p in pieces) and pieces[0].start[0] > pieces[-1].end[0]


def _reach(pieces: Sequence[Piece]) -> tuple[float, float]:
    """The greatest and the least z of some pieces."""
    places = [z for piece in pieces for z, _ in piece.ends]
    return max(places), min(places)


def _foot(profile: Sequence[Piece], recess: Recess, near: float, far: float) -> tuple[float, float]:
    """Where the floor begins and ends, its corner radii taken as square corners."""
    floor = profile[recess.floor.first : max(recess.floor.last, recess.floor.first + 1)]
    if recess.floor.first == recess.floor.last:
        return floor[0].start[0], floor[0].start[0]
    return floor[0].start[0] + near, floor[-1].end[0] - far


def _mirrored(piece: Piece) -> Piece:
    """The piece with z turned round."""
    (z0, r0), (z1, r1) = piece.start, piece.end
    return Piece((-z0, r0), (-z1, r1), -piece.bulge, piece.curve)


def _level(near: Sequence[Piece], far: Sequence[Piece], mouth: float, fine: float) -> tuple[Climb, Climb]:
    """Both sides taken apart, so that the lands beside them are of one height if they can be.

    A slanting line above a short wall may be a chamfer of the edge or a conical land that begins there. A cone that
    begins below the mouth (the lower of the levels on either side) is no land: it lies in the recess.
    """
    near, far = _off_cone(near, far, fine), _off_cone(far, near, fine)
    ways: list[tuple[Conical, Conical]] = [("flat", "flat"), ("flat", "any"), ("any", "flat"), ("any", "any")]
    climbs = ((climb(near, fine, a), climb(far, fine, b)) for a, b in ways)
    alike = (c for c in climbs if abs(c[0].land - c[1].land) <= fine)
    chosen = next(alike, None) or (_alone(near, fine), _alone(far, fine))
    first, last = (
        taken if taken.land > mouth - fine else climb(side, fine, "none")
        for side, taken in zip((near, far), chosen, strict=True)
    )
    return first, last


def _alone(side: Sequence[Piece], fine: float) -> Climb:
    """One side taken apart without the other: what slants far beyond its wall breaks no edge, but for 45 degrees."""
    taken = climb(side, fine, "flat")
    long = taken.rim and not (taken.bevel or taken.bend) and taken.rim > FAR * side[-2].rise
    return climb(side, fine, "any") if long else taken


def _off_cone(side: Sequence[Piece], other: Sequence[Piece], fine: float) -> Sequence[Piece]:
    """One side without the line at its mouth if that runs toward the other mouth: both are cut into one cone."""
    (z0, r0), (z1, r1) = side[-1].ends if side else ((0.0, 0.0), (0.0, 0.0))
    run, rise = z1 - z0, r1 - r0
    if len(side) < 2 or not other or side[-1].bulge or run <= 0 or abs(run - abs(rise)) <= BEVEL * abs(rise):
        return side
    z, r = other[-1].end
    return side[:-1] if abs(r0 + rise * (-z - z0) / run - r) <= fine else side


def climb(side: Sequence[Piece], fine: float, conical: Conical) -> Climb:
    """Take one side apart: corner, wall, rim and the land above; `conical`: which slanting line may be that land."""
    pieces = [p for p in side if p.size > fine]
    if len(pieces) > 1 and _is_cone(pieces[-1], pieces[-2], fine, conical):
        pieces = pieces[:-1]
    if not pieces:
        return Climb("mixed", side[-1].end[0], side[-1].end[1]) if side else Climb("mixed", 0.0, 0.0)
    land = pieces[-1].end[1]
    corner = _corner(pieces, fine)
    rest = pieces[1:] if corner else pieces
    rim = _rim(rest, fine)
    last = pieces[-1]
    bevel = bool(rim) and last.bulge == 0 and abs(last.run - last.rise) <= max(fine, BEVEL * last.rise)
    rest = rest[:-1] if rim else rest
    kind = _kind(rest, fine)
    if kind != "straight" and rim and last.bulge == 0:
        rim, kind, bevel = 0.0, "mixed", False
    wall = (rest[0].start[0] + rest[0].end[0]) / 2 if kind == "straight" else pieces[-1].end[0]
    return Climb(kind, wall, land, corner, rim, bevel, bend=bool(rim) and last.bulge < 0)


def _is_cone(last: Piece, wall: Piece, fine: float, conical: Conical) -> bool:
    """True for a line above a wall that is a cone: flat, or if it may be one far longer than the wall is tall."""
    if last.bulge or last.run <= 0 or conical == "none":
        return False
    return last.run > CONE * last.rise or (conical == "any" and _radial(wall, fine) and last.run > 2 * wall.rise)


def _radial(piece: Piece, fine: float) -> bool:
    """True for a straight radial wall."""
    return piece.bulge == 0 and abs(piece.run) <= max(fine, RADIAL * abs(piece.rise))


def _corner(pieces: Sequence[Piece], fine: float) -> float:
    """Radius of the floor corner, 0.0 for a sharp one: an arc that leaves the floor and turns up into the wall."""
    first = pieces[0]
    if first.bulge <= 0 or abs(first.arc.sweep) > MOST_CORNER:
        return 0.0
    level = abs(first.arc.centre[0] - first.start[0]) <= max(OFF_LEVEL * first.arc.radius, fine)
    return first.arc.radius if level else 0.0


def _rim(rest: Sequence[Piece], fine: float) -> float:
    """Axial size of what breaks the edge at the mouth: a chamfer above a radial wall, or a rounding."""
    if len(rest) < 2:
        return 0.0
    last = rest[-1]
    if last.bulge < 0:
        return abs(last.run)
    if last.bulge == 0 and _radial(rest[-2], fine) and not _radial(last, fine) and last.run > 0:
        return last.run
    return 0.0


def _kind(rest: Sequence[Piece], fine: float) -> str:
    """What is left between corner and rim."""
    if all(p.bulge != 0 or p.curve for p in rest):
        return "curved"
    if len(rest) != 1 or rest[0].run < -fine:
        return "mixed"
    return "straight" if _radial(rest[0], fine) else "slanted"


def _shape(recess: Recess, near: Climb, far: Climb, fine: float) -> Shape:
    """The shape from the kinds of both sides, the floor and the lands."""
    kinds = {near.kind, far.kind}
    pointed = recess.floor.first == recess.floor.last
    if "mixed" in kinds:
        return "other"
    if kinds == {"straight"}:
        return "round" if pointed else "rectangular"
    depth = min(near.land, far.land) - recess.floor.radius
    level_lands = abs(near.land - far.land) <= max(fine, depth)
    higher = near if near.land > far.land else far
    if not level_lands and higher.kind == "straight":
        return "relief"
    if "curved" in kinds:
        return "round" if "slanted" not in kinds else "other"
    return "vee" if pointed else "tapered"


def _crossing(side: Sequence[Piece], mouth: float, fine: float) -> float:
    """The z at which a side first reaches the mouth."""
    for piece in side:
        if piece.end[1] < mouth - fine / 10:
            continue
        if abs(piece.end[1] - mouth) <= fine / 10:
            return piece.end[0]
        line = chords(piece.start, piece.end, piece.bulge, math.pi / 2000)
        for (z0, r0), (z1, r1) in pairwise(line):
            if r1 >= mouth:
                return z0 + (z1 - z0) * (mouth - r0) / (r1 - r0) if r1 != r0 else z1
    return side[-1].end[0] if side else math.nan
