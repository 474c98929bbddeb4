"""Random parts in round numbers. Inch parts are the same numbers over twenty, which keeps them round."""

import random
from dataclasses import dataclass, replace
from itertools import pairwise

from support.office.model import Groove, Part

WIDTHS = (1.3, 1.6, 2.0, 2.15, 2.5, 3.0, 4.0)
DEPTHS = (0.5, 0.8, 1.0, 1.5, 2.0, 2.5, 3.0)
INCH = 20.0  # so many of the metric numbers make an inch


@dataclass(frozen=True)
class Wish:
    """What a sheet needs of its part."""

    grooves: tuple[int, int] = (1, 5)
    alike: int = 0  # so many like grooves at one pitch, beside nothing else
    bore: bool | None = None
    bore_groove: bool = False
    metric: bool = False
    steps: tuple[int, int] = (1, 3)
    plain: bool = False  # rectangular sharp grooves only
    lop: bool = True  # the grooves must not lie the same seen from either end


def random_part(rng: random.Random, wish: Wish = Wish()) -> Part:
    """A part whose grooves nobody would call journals or threads."""
    while True:
        part = _try(rng, wish)
        if part is not None and (not wish.lop or lopsided(part)):
            return part if wish.metric or rng.random() < 0.78 else inched(part)


def lopsided(part: Part) -> bool:
    """Whether the grooves lie otherwise seen from the other end."""
    mine = sorted((g.where, round(g.near, 6), g.width, g.floor) for g in part.grooves)
    other = sorted((g.where, round(part.length - g.far, 6), g.width, g.floor) for g in part.grooves)
    return mine != other


def inched(part: Part) -> Part:
    cut = lambda v: round(v / INCH, 6)  # noqa: E731
    grooves = (
        replace(g, near=cut(g.near), width=cut(g.width), floor=cut(g.floor), radius=cut(g.radius)) for g in part.grooves
    )
    return Part(
        tuple((cut(e), cut(d)) for e, d in part.steps),
        tuple(grooves),
        tuple((cut(e), cut(d)) for e, d in part.bores),
        (cut(part.chamfers[0]), cut(part.chamfers[1])),
        "in",
    )


def _steps(rng: random.Random, wish: Wish) -> tuple[tuple[float, float], ...]:
    count = rng.randint(*wish.steps)
    top = float(rng.randrange(24, 62, 2))
    drops = sorted(rng.sample(range(4, 12, 2), count - 1)) if count > 1 else []
    peak = rng.randrange(count)
    dias = [top - 2 * d for d in reversed(drops[:peak])] + [top] + [top - 2 * d for d in drops[peak:]]
    steps, end = [], 0.0
    for d in dias:
        end += rng.randrange(18, 52)
        steps.append((end, max(d, 12.0)))
    return tuple(steps)


def _try(rng: random.Random, wish: Wish) -> Part | None:
    steps = _steps(rng, wish)
    if any(a[1] == b[1] for a, b in pairwise(steps)):
        return None  # no edge between the two
    chamfers = (rng.choice((0.0, 1.0, 1.0, 1.5)), rng.choice((0.0, 0.0, 1.0)))
    grooves = _row(rng, steps, wish) if wish.alike else _loose(rng, steps, wish)
    if grooves is None:
        return None
    part = Part(steps, tuple(grooves), (), chamfers)
    wants = rng.random() < 0.3 if wish.bore is None else wish.bore
    return _bored(rng, part, wish) if wants or wish.bore_groove else part


def _groove(rng: random.Random, near: float, land: float, plain: bool) -> Groove:
    width, depth = rng.choice(WIDTHS), rng.choice(DEPTHS)
    while depth > land * 0.13 or width > 4.1 * depth or depth > 2.0 * width:
        width, depth = rng.choice(WIDTHS), rng.choice(DEPTHS)
    roll = rng.random()
    floor = round(land - 2 * depth, 6)
    if plain or roll < 0.75:
        return Groove(near, width, floor)
    if roll < 0.88 and width >= 2 and depth >= 1:
        return Groove(near, width, floor, shape="rounded", radius=rng.choice((0.2, 0.4)))
    return Groove(near, round(2 * depth, 6), floor, shape="vee")


def _loose(rng: random.Random, steps: tuple[tuple[float, float], ...], wish: Wish) -> list[Groove] | None:
    found: list[Groove] = []
    start = 0.0
    spans = []
    for end, d in steps:
        spans.append((start, end, d))
        start = end
    for _ in range(rng.randint(*wish.grooves)):
        for _ in range(20):
            a, b, d = rng.choice(spans)
            near = rng.randrange(int(2 * a) + 8, int(2 * b) - 14) / 2
            g = _groove(rng, near, d, wish.plain)
            clear = g.far < b - 3.5 and all(g.near > o.far + 3 or g.far < o.near - 3 for o in found)
            if clear:
                found.append(g)
                break
    return found if len(found) >= wish.grooves[0] else None


def _row(rng: random.Random, steps: tuple[tuple[float, float], ...], wish: Wish) -> list[Groove] | None:
    start = 0.0
    for end, d in steps:
        pattern = _groove(rng, 0.0, d, plain=True)
        pitch = float(max(rng.choice((5, 6, 8)), int(pattern.width) + 3))
        run = pitch * (wish.alike - 1) + pattern.width
        if end - start > run + 10:
            first = start + rng.randrange(4, int(end - start - run - 4))
            return [replace(pattern, near=first + pitch * k) for k in range(wish.alike)]
        start = end
    return None


def _bored(rng: random.Random, part: Part, wish: Wish) -> Part | None:
    floor = min([d for _, d in part.steps] + [g.floor for g in part.grooves])
    most = int(floor - (8 if wish.bore_groove else 4)) // 2 * 2
    if most < 6 or (wish.bore_groove and most < 10):
        return None
    bore = float(rng.randrange(6 if not wish.bore_groove else 10, most + 1, 2))
    depth = part.length if rng.random() < 0.6 else float(int(part.length * 0.6))
    part = replace(part, bores=((depth, bore),))
    if not wish.bore_groove:
        return part
    if depth < 18:
        return None
    cut = rng.choice((0.5, 1.0, 1.5))
    inner = Groove(float(rng.randrange(6, int(depth) - 8)), rng.choice((1.3, 1.6, 2.0, 3.0)), bore + 2 * cut, "inside")
    return replace(part, grooves=(*part.grooves, inner))
