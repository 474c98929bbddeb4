"""Where a dimension takes hold of a piece, and where its line stands."""

import math
from dataclasses import dataclass

from .values import Piece, Point, Recess


@dataclass(frozen=True)
class Spot:
    """The two points of a dimension; `drawn` where they are apart by more than the one size printed."""

    first: Point
    second: Point
    angle: float
    inner: bool = False
    drawn: float = 0.0


def mouth(recess: Recess, wall: str) -> Point:
    """Where a wall meets the land."""
    if recess.where == "face":
        return 0.0, getattr(recess, wall) / 2
    return -getattr(recess, wall), recess.land / 2


def middle(recess: Recess) -> Point:
    near, far = mouth(recess, "near"), mouth(recess, "far")
    return (near[0] + far[0]) / 2, (near[1] + far[1]) / 2


def spots_of(piece: Piece, name: str, i: int, j: int | None = None) -> Spot:
    """The points of a measure of recess `i`, or between it and `j`."""
    recess = piece.recesses[i]
    inner = recess.where == "inside"
    if j is not None:
        ends = {"land": ("far", "near"), "pitch": ("near", "near"), "far pitch": ("far", "far")}
        pair = recess, piece.recesses[j]
        if name == "centre pitch":
            first, second = map(middle, pair)
        else:
            first, second = (mouth(r, wall) for r, wall in zip(pair, ends[name], strict=True))
        drawn = abs(first[0] - second[0])
        return Spot(first, second, 0.0, inner, drawn)
    if recess.where == "face":
        return face_spot(recess, name)
    edge = 0.0, (piece.bore if inner else piece.steps[0][1]) / 2
    back = -piece.length, (piece.bore if inner else piece.steps[-1][1]) / 2
    near, far, centre = mouth(recess, "near"), mouth(recess, "far"), middle(recess)
    floor = -(recess.near + recess.far) / 2, recess.floor / 2
    horizontal = {
        "width": (near, far),
        "near": (edge, near),
        "far": (edge, far),
        "centre": (edge, centre),
        "near from back": (back, near),
        "far from back": (back, far),
    }
    if name in horizontal:
        return Spot(*horizontal[name], 0.0, inner)
    if name == "floor":
        return Spot(floor, (floor[0], -floor[1]), 90.0, inner)
    if name == "depth":
        return Spot((far[0], recess.land / 2), (floor[0], floor[1]), 90.0, inner)
    return corner_spot(recess)


def face_spot(recess: Recess, name: str) -> Spot:
    """Diameters across the axis, width on one side of it, depth along it."""
    near, far = mouth(recess, "near"), mouth(recess, "far")
    if name in ("near", "far"):
        point = mouth(recess, name)
        return Spot(point, (point[0], -point[1]), 90.0)
    if name == "centre":
        point = middle(recess)
        return Spot(point, (point[0], -point[1]), 90.0)
    if name == "width":
        return Spot(near, far, 90.0)
    if name == "floor":
        return Spot(near, (-recess.floor, (recess.near + recess.far) / 4), 0.0)
    return corner_spot(recess)


def corner_spot(recess: Recess) -> Spot:
    """Centre and middle of the arc at the near wall."""
    c, turn = recess.corner, math.sqrt(0.5)
    if recess.where == "face":
        centre, toward = (-recess.floor + c, recess.near / 2 - c), (-turn, turn)
    else:
        up = 1.0 if recess.where == "inside" else -1.0
        centre, toward = (-recess.near - c, recess.floor / 2 - up * c), (turn, up * turn)
    return Spot(centre, (centre[0] + c * toward[0], centre[1] + c * toward[1]), 0.0)


def line_of(spot: Spot, piece: Piece, number: int) -> Point:
    """A place of its own for each dimension line: in levels above or below the part, left or right of it."""
    unit = 1.0 if piece.units == "mm" else 0.04
    top = max(across for _, across in piece.steps) / 2
    out = (8 + 7 * (number // 2)) * unit
    if spot.angle == 0.0:
        return (spot.first[0] + spot.second[0]) / 2, (top + out) * (1 if number % 2 == 0 else -1)
    if abs(spot.first[1] + spot.second[1]) > 1e-9:
        return spot.second[0] - (0.3 * unit if spot.first[0] else -12 * unit), spot.second[1]
    x = 10 * unit + out if number % 2 or spot.first[0] == 0 else -piece.length - out
    return x, 0.0
