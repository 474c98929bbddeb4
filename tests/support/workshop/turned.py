"""A workshop's part: a silhouette of (z, radius) points from the front face back, with the rings cut into it."""

import random
from dataclasses import dataclass, field

Spot = tuple[float, float]


@dataclass(frozen=True)
class Ring:
    """A groove that the truth knows: z of both walls, floor diameter, and whether it is cut in the bore."""

    near: float
    far: float
    floor: float
    where: str = "outside"


@dataclass
class Turned:
    """Silhouette `line` and bore `hole` as (z, radius) from the front back, z falling; `edges` are z with a line.

    `lands` are (near, far, diameter), `threads` (near, far, root radius).
    """

    line: list[Spot] = field(default_factory=list)
    hole: list[Spot] = field(default_factory=list)
    edges: list[float] = field(default_factory=list)
    lands: list[tuple[float, float, float]] = field(default_factory=list)
    threads: list[tuple[float, float, float]] = field(default_factory=list)
    rings: list[Ring] = field(default_factory=list)

    @property
    def length(self) -> float:
        return -self.line[-1][0]

    @property
    def across(self) -> float:
        return 2 * max(r for _, r in self.line)

    def radius(self, z: float) -> float:
        """Of the land at a place; rings count as filled."""
        return next(d / 2 for near, far, d in self.lands if far - 1e-9 <= z <= near + 1e-9)


WIDTHS = (1.1, 1.3, 1.85, 2.2, 2.65, 3.15, 4.15)
"""Widths of the grooves of retaining rings (DIN 471, from memory), and two more."""


def random_turned(rng: random.Random) -> Turned:
    """Two to four lands up to a collar and down again, a ring in most of them, a relief at some shoulders."""
    part, z = Turned(), 0.0
    count = rng.randint(2, 4)
    top = rng.randrange(count)
    sizes = sorted(rng.sample(range(18, 60, 3), count))
    dias = [*sizes[: top + 1][:top], sizes[-1], *sorted(sizes[top:-1], reverse=True)] if count > 1 else sizes
    dias = dias[:count]
    cham = rng.choice((0.0, 1.0, 1.6))
    for k, d in enumerate(dias):
        z = _land(rng, part, z, float(d), first=k == 0, cham=cham, following=dias[k + 1] if k + 1 < count else None)
    end = rng.choice((0.0, 1.0))
    zb, rb = part.line[-1]
    if end:
        part.line[-1] = (zb + end, rb)
        part.line.append((zb, rb - end))
        part.edges.append(zb + end)
    if rng.random() < 0.45:
        _bore(rng, part)
    return part


def _land(rng, part, z, d, *, first, cham, following) -> float:
    r, long = d / 2, float(rng.randint(14, 34))
    start = z
    if first and cham:
        part.line += [(0.0, r - cham), (-cham, r)]
        part.edges.append(-cham)
    else:
        part.line.append((z, r))
        if not first:
            part.edges.append(z)
    far = z - long
    at = z - (cham if first else 0.0) - rng.choice((3.0, 4.5, 6.0))
    if rng.random() < 0.75:
        _ring(rng, part, at, r, far + 6.0)
    relief = following is not None and following > d and rng.random() < 0.3
    if relief:
        wide, deep = rng.choice(((2.0, 0.8), (2.5, 1.0), (3.0, 1.5)))
        part.line += [(far + wide, r), (far + wide, r - deep), (far, r - deep)]
        part.edges.append(far + wide)
        part.rings.append(Ring(far + wide, far, d - 2 * deep))
    else:
        part.line.append((far, r))
        if first and rng.random() < 0.3 and not any(ring.far < -cham for ring in part.rings):
            part.threads.append((-cham, far + 4.0, r - min(cham or 1.0, 1.2)))
    part.lands.append((start, far, d))
    return far


def _ring(rng, part, at, r, last) -> None:
    for _ in range(rng.choice((1, 1, 2))):
        wide = rng.choice(WIDTHS)
        if at - wide < last:
            return
        deep = rng.choice([d for d in (0.6, 0.9, 1.25, 1.75, 2.25) if d <= 0.12 * 2 * r and d >= wide / 4] or [0.7])
        part.line += [(at, r), (at, r - deep), (at - wide, r - deep), (at - wide, r)]
        part.edges += [at, at - wide]
        part.rings.append(Ring(at, round(at - wide, 6), round(2 * (r - deep), 6)))
        at = round(at - wide - 3.5, 6)


def _bore(rng, part) -> None:
    least = min(r for _, r in part.line)
    most = int(least - 3)
    if most < 5:
        return
    r = float(rng.randint(4, most))
    deep = part.length if rng.random() < 0.6 else float(int(part.length * 0.55))
    part.hole = [(0.0, r)]
    if rng.random() < 0.5 and deep > 18:
        z, wide, cut = -float(rng.randint(4, 9)), rng.choice((1.3, 1.85, 2.65)), rng.choice((0.7, 1.0))
        part.hole += [(z, r), (z, r + cut), (z - wide, r + cut), (z - wide, r)]
        part.rings.append(Ring(z, round(z - wide, 6), 2 * (r + cut), "inside"))
    part.hole.append((-deep, r))
    if deep < part.length:
        part.hole.append((-deep, 0.0))
