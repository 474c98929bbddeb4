"""Parts with everything on them: steps, cones, necks, grooves of every kind side by side, recesses in steps."""

import math
import random
from dataclasses import replace

from support.second_hand.lathe import Extra, Lathe, Recess, TurnedPart, finish

Source = random.Random


def _nice(rng: Source, low: float, high: float, grid: float = 0.1) -> float:
    return round(round(rng.uniform(low, high) / grid) * grid, 4)


def leaning(lathe: Lathe, width: float, depth: float, near_angle: float, far_angle: float) -> None:
    """A groove with walls that lean outward by their own angles (degrees); width at the mouth."""
    near, top, d = lathe.z, lathe.r, lathe.deep
    low = top + d * depth
    runs = [depth * math.tan(math.radians(a)) for a in (near_angle, far_angle)]
    lathe.to(near - runs[0], low).to(near - width + runs[1], low).to(near - width, top)
    where = "inside" if lathe.inside else "outside"
    shapes = frozenset({"tapered", "other"})
    lathe.recesses.append(Recess(where, near, near - width, 2 * top, 2 * low, shapes))


def stepped_mouth(lathe: Lathe, width: float, depth: float, far_land: float) -> None:
    """A groove between two lands of different height: the far land lies `far_land` lower or higher."""
    near, top = lathe.z, lathe.r
    low = min(top, top + far_land) - depth
    lathe.to(near, low).to(near - width, low).to(near - width, top + far_land)
    shapes = frozenset({"rectangular", "relief"} if abs(far_land) > depth else {"rectangular"})
    lathe.recesses.append(Recess("outside", near, near - width, 2 * min(top, top + far_land), 2 * low, shapes))


def double_step(lathe: Lathe, width: float, depth: float) -> None:
    """A groove with a narrower one in its floor: to be told, its numbers are a matter of taste."""
    near, top = lathe.z, lathe.r
    a, b = near - width / 4, near - 3 * width / 4
    low, lower = top - depth, top - 2 * depth
    lathe.to(near, low).to(a, low).to(a, lower).to(b, lower).to(b, low).to(near - width, low).to(near - width, top)
    shapes = frozenset({"rectangular", "other"})
    lathe.recesses.append(Recess("outside", near, near - width, 2 * top, 2 * lower, shapes, loose=True))


def _outside_feature(rng: Source, lathe: Lathe) -> None:
    kind = rng.choice(("ring", "ring", "seal", "vee", "hollow", "leaning", "stepped", "double", "narrow"))
    deep = min(4.0, lathe.r / 4)
    if kind == "ring":
        lathe.ring(_nice(rng, 0.9, 5), _nice(rng, 0.3, deep), rim=rng.choice((0.0, 0.0, 0.2)))
    elif kind == "seal":
        corner = rng.choice((0.2, 0.4, 0.6))
        lathe.ring(_nice(rng, 2.4, 7), _nice(rng, 1.2, deep), corner, rng.choice((0.0, 0.1)), rng.random() < 0.5)
    elif kind == "vee":
        lathe.trapeze(_nice(rng, 1, 6), deep, rng.choice((20, 30, 45)))
    elif kind == "hollow":
        radius = _nice(rng, 0.5, deep)
        lathe.hollow(radius, radius * rng.choice((1.0, 0.7)))
    elif kind == "leaning":
        leaning(lathe, _nice(rng, 4, 7), _nice(rng, 1, deep), rng.choice((0.0, 5.0, 15.0)), rng.choice((5.0, 15.0)))
    elif kind == "stepped":
        stepped_mouth(lathe, _nice(rng, 1.5, 5), _nice(rng, 0.5, deep), rng.choice((-1.0, 1.0, 2.0)))
    elif kind == "double":
        double_step(lathe, _nice(rng, 4, 8), deep / 2)
    else:
        lathe.ring(_nice(rng, 0.5, 0.9), _nice(rng, 0.3, 0.8))


def everything(rng: Source) -> TurnedPart:
    """A shaft or bush with three to eight recesses of any kind, steps and cones between them."""
    bored = rng.random() < 0.4
    start = _nice(rng, 14, 40, 0.5)
    hole = _nice(rng, 4, start / 2, 0.5) if bored else 0.0
    lathe = Lathe(0.0, hole).step(start, rng.choice((0.0, 0.5, 1.0)))
    lathe.land(_nice(rng, 3, 8))
    for _ in range(rng.randint(3, 8)):
        _outside_feature(rng, lathe)
        lathe.land(_nice(rng, 1.0, 9))
        turn = rng.random()
        if turn < 0.15:
            lathe.step(lathe.r + _nice(rng, 3, 8, 0.5), rng.choice((0.0, 0.5))).land(_nice(rng, 3, 8))
        elif turn < 0.3:
            rise = _nice(rng, 1, 4)
            lathe.to(lathe.z - _nice(rng, 4, 10), lathe.r + rise).land(_nice(rng, 3, 6))
    lathe.land(_nice(rng, 2, 5)).to(lathe.z, hole)
    part = finish(lathe, _bore(rng, lathe, hole) if bored else None)
    return replace(part, recesses=tuple(_told(r) for r in part.recesses))


def _told(recess: Recess) -> Recess:
    """A wide shallow recess may be called turned: its name is a matter of taste."""
    width, depth = recess.near - recess.far, abs(recess.mouth - recess.floor) / 2
    return replace(recess, loose=recess.loose or width > 4 * depth)


def _bore(rng: Source, lathe: Lathe, hole: float) -> Lathe:
    """A bore with up to three snap grooves, its ends chamfered or with a thread."""
    bore = Lathe(0.0, hole, inside=True)
    length = -lathe.z
    room = min(3.0, (14 - hole / 2) / 4)
    at = _nice(rng, 3, 6)
    for _ in range(rng.randint(0, 3)):
        width = _nice(rng, 1, 3)
        if -bore.z + at + width + 4 > length:
            break
        bore.land(at).ring(width, _nice(rng, 0.4, max(0.5, room), 0.1))
        at = _nice(rng, 3, 9)
    bore.to(lathe.z, bore.r)
    return bore


def centred(rng: Source) -> TurnedPart:
    """A shaft with 60 degree centre holes in both ends and grooves."""
    lathe = Lathe(0.0, 0.0).step(_nice(rng, 10, 25, 0.5), 1.0).land(_nice(rng, 5, 9))
    for _ in range(rng.randint(1, 3)):
        lathe.ring(_nice(rng, 1, 3), _nice(rng, 0.5, 1.5)).land(_nice(rng, 5, 15))
    lathe.chamfer(1.0, False).to(lathe.z, 0.0)
    part = finish(lathe)
    holes = (Extra("centre hole", 0.0, -5.0, 2.0, 4.0), Extra("centre hole", lathe.z, lathe.z + 5.0, 2.0, 4.0))
    return replace(part, extras=holes)
