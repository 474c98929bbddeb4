"""The part of a family: what is milled, drilled and threaded in a random turned part besides its grooves."""

import random
from dataclasses import replace

from cad_parts import CadShape, random_shape


def _cuts(rng: random.Random, shape: CadShape) -> CadShape:
    """Keyways, flats and cross holes on a free stretch of a land."""
    unit = 1.0 if shape.units == "mm" else 0.05
    free = _free(shape, 8 * unit)
    if not free:
        return shape
    low, high, d = rng.choice(free)
    near, far = low + (high - low) * 0.2, low + (high - low) * 0.8
    kind, turn = rng.choice((("key", 0.0), ("key", 90.0), ("hole", 0.0), ("hole", 90.0), ("flat", 90.0)))
    near, far = round(near, 2 if unit == 1 else 3), round(far, 2 if unit == 1 else 3)
    if kind == "hole":
        cut = {"kind": kind, "at": (near + far) / 2, "d": min(d * 0.2, (far - near) * 0.6), "turn": turn}
    elif kind == "key":
        cut = {"kind": kind, "near": near, "far": far, "width": d * 0.22, "floor": d / 2 - d * 0.1, "turn": turn}
    else:
        cut = {"kind": kind, "near": near, "far": far, "floor": d / 2 - d * 0.06, "turn": turn}
    return replace(shape, cuts=[cut])


def _free(shape: CadShape, least: float) -> list[tuple[float, float, float]]:
    """Stretches of lands with no groove in them: (from, to, diameter)."""
    free, start = [], 0.0
    for end, d in shape.steps:
        rings = sorted(r.near for r in shape.of("outside") if start <= r.near < end)
        walls = sorted(r.far for r in shape.of("outside") if start <= r.near < end)
        edges = [start, *walls], [*rings, end]
        free += [(a, b, d) for a, b in zip(*edges, strict=True) if b - a > least]
        start = end
    return free


def _threaded(shape: CadShape) -> CadShape:
    end, d = shape.steps[0]
    unit = 1.0 if shape.units == "mm" else 0.05
    first = min([r.near - (r.size if r.form == "bevelled" else 0) for r in shape.of("outside")] + [end])
    long = round(first - 2 * unit, 3)
    return (
        replace(shape, thread=(long, d, round(0.06 * d, 2)), chamfer=max(shape.chamfer, unit))
        if long > 5 * unit
        else shape
    )


def _bolted(rng: random.Random, shape: CadShape) -> CadShape:
    """A circle of holes through the flange, where there is room."""
    at, (end, wide) = max(enumerate(shape.steps), key=lambda s: s[1][1])
    start = shape.steps[at - 1][0] if at else 0.0
    hub = max([d for d in (s[1] for s in shape.steps) if d < wide] + [b for _, b in shape.bores] + [0.0])
    floor = min([r.floor for r in shape.of("outside") if start <= r.near < end] + [wide])
    room = (floor - hub) / 2
    if room < 12 or shape.of("face"):
        return shape
    d = round(room * 0.35, 1)
    count = rng.choice((4, 6))
    hole = {"kind": "bolt", "near": start, "far": end, "d": d, "pcd": round((floor + hub) / 2, 1), "count": count}
    return replace(shape, cuts=[{**hole, "start": 0.0 if rng.random() < 0.6 else 180 / count}])


def shape_for(rng: random.Random, family: str) -> CadShape:
    kind = {"faces": rng.choice(("disc", "flange")), "offset": "flange"}.get(family)
    kind = kind or rng.choices(("shaft", "flange", "disc"), (6, 2, 1))[0]
    units = "in" if family == "inch" else "mm"
    hollow = family in ("half", "offset", "faces", "section") or (family != "front" and rng.random() < 0.6)
    hollow = hollow or (family == "front" and rng.random() < 0.2)
    shape = random_shape(rng, kind, units, hollow)
    if family == "cuts" or (family == "sheet" and rng.random() < 0.3):
        shape = _cuts(rng, shape)
    if family == "threads":
        shape = _threaded(shape)
    if family == "offset" or (kind == "flange" and family == "sheet" and rng.random() < 0.4):
        shape = _bolted(rng, shape)
    return shape
