"""Puts grooves on lands and lands on a part, at random from a seed."""

import random
from dataclasses import dataclass

from support.independent.parts import (
    Corner,
    Made,
    TrueGroove,
    TurnedPart,
    Workshop,
    inverted,
    rectangular,
    rounded,
    tapered,
    vee,
)

# DIN 471 shaft diameter, groove diameter d2, width m: `outside-checks` section 1, two sources agreeing.
RINGS = ((10, 9.6, 1.1), (12, 11.5, 1.1), (15, 14.3, 1.1), (17, 16.2, 1.1), (20, 19.0, 1.3), (25, 23.9, 1.3))
RINGS += ((30, 28.6, 1.6), (35, 33.0, 1.6), (40, 37.5, 1.85), (50, 47.0, 2.15), (60, 57.0, 2.15), (80, 76.5, 2.65))


@dataclass(frozen=True)
class Wishes:
    """What a random part may have; `plain` keeps to sharp rectangular grooves.

    `valleys` lets a low land lie between higher ones, which is a wide groove to some and a journal to others.
    """

    units: str = "mm"
    plain: bool = False
    shapes: tuple[str, ...] = ("rectangular",)
    bored: bool = False
    inside: bool = False
    face: bool = False
    steps: int = 4
    grain: float = 0.0
    valleys: bool = False


def random_part(seed: int, wishes: Wishes) -> TurnedPart:
    """A part of one to `steps` lands with grooves on most of them."""
    rng = random.Random(seed)
    grain = wishes.grain or (0.05 if wishes.units == "mm" else 0.005)
    shop = Workshop(rng, wishes.units, grain)
    radii = _radii(shop, wishes, rng.randint(1, wishes.steps))
    corners: list[Corner] = []
    grooves: list[TrueGroove] = []
    z = 0.0
    for index, radius in enumerate(radii):
        length, made = _land(shop, wishes, z, radius, min(radii))
        chamfer = _end_chamfer(shop, wishes, index in (0, len(radii) - 1))
        corners.append(Corner(z, radius, chamfer=chamfer if index == 0 or radius > radii[index - 1] else 0.0))
        for groove_corners, truth in made:
            corners.extend(groove_corners)
            grooves.append(truth)
        z = round(z - length, 6)
        last = index == len(radii) - 1
        fillet = 0.0
        if not last and radii[index + 1] > radius and not wishes.plain and rng.random() < 0.4:
            room = int((radii[index + 1] - radius) * 0.4 / grain)
            fillet = round(grain * min(rng.randint(1, 6), room), 6)
        corners.append(Corner(z, radius, round=fillet, chamfer=chamfer if last else 0.0))
    bore, inside = _bore(shop, wishes, -z, min(radii), grooves)
    corners.insert(0, Corner(0.0, bore[0].r if bore else 0.0))
    corners.append(Corner(z, bore[-1].r if bore else 0.0))
    front = _face_groove(shop, wishes, bore, radii[0])
    corners[1:1] = front[0]
    solid = corners if bore else corners[1:-1]
    whole = sorted([*grooves, *inside, *front[1]], key=lambda g: -g.z_near)
    return TurnedPart(wishes.units, -z, tuple(solid), tuple(bore), tuple(whole), grain)


def _radii(shop: Workshop, wishes: Wishes, count: int) -> list[float]:
    """Land radii, rising to one land and falling from it; where `valleys` are wished, in any order."""
    radii = [shop.pick(9, 30)]
    for _ in range(count - 1):
        radii.append(round(radii[-1] + shop.pick(1, 6), 6))
    if wishes.valleys:
        shop.rng.shuffle(radii)
        return radii
    top = shop.rng.randint(0, count - 1)
    behind = shop.rng.sample(radii[:-1], min(top, count - 1)) if top else []
    front = [r for r in radii if r not in behind]
    return front + sorted(behind, reverse=True)


def _end_chamfer(shop: Workshop, wishes: Wishes, at_end: bool) -> float:
    if wishes.plain or not at_end or shop.rng.random() < 0.4:
        return 0.0
    return shop.pick(0.4, 0.8)


def _land(shop: Workshop, wishes: Wishes, z: float, radius: float, least: float) -> tuple[float, list[Made]]:
    """Length of one land from z, and the grooves on it: none, one, some, or a row of equal ones."""
    rng, made = shop.rng, []
    at = round(z - shop.pick(2.5, 8), 6)
    kind = rng.choices(("none", "one", "some", "row", "ring"), (1, 3, 2, 3, 2))[0]
    if kind == "ring" and wishes.units == "mm":
        at = _ring(shop, at, radius, made)
    if kind in ("one", "some"):
        for _ in range(1 if kind == "one" else rng.randint(2, 3)):
            width, depth = _size(shop, radius, least)
            made.append(_any_shape(shop, wishes, at, radius, width, depth))
            at = round(at - width - shop.pick(1.5, 6), 6)
    if kind == "row":
        width, depth = _size(shop, radius, least)
        pitch = round(width + shop.pick(1.5, 5), 6)
        state = rng.getstate()
        for index in range(rng.randint(2, 7)):
            rng.setstate(state)
            made.append(_any_shape(shop, wishes, round(at - index * pitch, 6), radius, width, depth))
        at = round(at - len(made) * pitch, 6)
    return round(z - at + shop.pick(2.5, 8), 6), made


def _ring(shop: Workshop, at: float, radius: float, made: list[Made]) -> float:
    """A retaining-ring groove of the row nearest the land."""
    d1, d2, width = min(RINGS, key=lambda row: abs(row[0] - 2 * radius))
    made.append(rectangular(shop, at, radius, width, round((d1 - d2) / 2, 6), plain=True))
    return round(at - width, 6)


def _size(shop: Workshop, radius: float, least: float) -> tuple[float, float]:
    """Width and depth; no floor comes nearer the axis than half of the thinnest land."""
    width = shop.pick(1, 8)
    depth = shop.pick(0.5, 5)
    room = round(max(shop.grain * 2, radius - least * 0.6) / shop.grain) * shop.grain
    return width, round(min(depth, room), 6)


def _any_shape(shop: Workshop, wishes: Wishes, z: float, mouth: float, width: float, depth: float) -> Made:
    shape = shop.rng.choice(wishes.shapes)
    if shape == "vee":
        return vee(z, mouth, width, depth)
    if shape == "round":
        return rounded(z, mouth, width, depth)
    if shape == "tapered" and width > 8 * shop.grain and depth > 8 * shop.grain:
        return tapered(shop, z, mouth, width, depth)
    return rectangular(shop, z, mouth, width, depth, wishes.plain)


def _bore(
    shop: Workshop, wishes: Wishes, length: float, least: float, grooves: list[TrueGroove]
) -> tuple[list[Corner], list[TrueGroove]]:
    """A through bore that leaves a wall everywhere, with grooves of its own where wished."""
    if not wishes.bored:
        return [], []
    floor = min([least, *(g.floor_diameter / 2 for g in grooves)])
    radius = round(round(floor * 0.45 / shop.grain) * shop.grain, 6)
    corners, truths = [Corner(0.0, radius)], []
    if wishes.inside:
        width, depth = shop.pick(1.2, 4), round(round(floor * 0.2 / shop.grain) * shop.grain, 6)
        at = round(-shop.pick(2, 5), 6)
        if at - width > -length + shop.grain * 20:
            made, truth = inverted(rectangular(shop, at, radius, width, depth, wishes.plain), radius)
            corners.extend(made)
            truths.append(truth)
    corners.append(Corner(-length, radius))
    return corners, truths


def _face_groove(
    shop: Workshop, wishes: Wishes, bore: list[Corner], radius: float
) -> tuple[list[Corner], list[TrueGroove]]:
    """A square groove in the front face between bore and rim."""
    inner = bore[0].r if bore else 0.0
    low, width, depth = round(inner + shop.pick(2, 2), 6), shop.pick(1.5, 2.5), shop.pick(1, 1.4)
    if not wishes.face or low + width > radius - shop.pick(1.8, 1.8):
        return [], []
    high = round(low + width, 6)
    corners = [Corner(0.0, low), Corner(-depth, low), Corner(-depth, high), Corner(0.0, high)]
    return corners, [TrueGroove("face", ("rectangular",), 0.0, -depth, 2 * high, 2 * low)]
