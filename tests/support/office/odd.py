"""Family g: turned parts that look odd, and (`flat`) what is not turned."""

from dataclasses import replace
from itertools import pairwise

from support.ink import Ink, Line, number
from support.office.desk import Desk, desk, finish
from support.office.flat import FLAT
from support.office.model import Groove, Part
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn
from support.office.views import outside


def _turned(
    d: Desk, kind: str, free: tuple[tuple[float, float], ...] = (), must: str = "read", more: tuple[Part, ...] = ()
) -> Case:
    part = d.part
    d.paper.above, d.paper.below = part.diameter / 2 + 2 * d.paper.h, -part.diameter / 2 - 2 * d.paper.h
    d.paper.beyond["back"] = part.length + 4 * d.paper.h
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.3)
    right = replace(d.truth(), free=free)
    others = []
    for other in more:
        d.paper.part = other
        others.append(replace(d.truth(), free=free))
    d.paper.part = part
    return finish(d, kind, Truth(must, right, more=tuple(others)), extras=0.3)


def barb(seed: int) -> Case:
    """A hose barb: three or four teeth like a saw's, and one ring groove behind them."""
    d = desk("g", seed, Wish(metric=True))
    rng = d.rng
    small, big, run, n = float(rng.randrange(16, 26, 2)), 0.0, float(rng.choice((5, 6, 8))), rng.randint(3, 4)
    big = small + rng.choice((2.0, 3.0, 4.0))
    collar = big + 8
    start = n * run
    g = Groove(start + rng.randrange(6, 10) + 10, 2.0, collar - 3)
    teeth = Part(((start + 6, small), (start + 40, collar)), (g,), (), (0.0, 0.0))
    d.paper.part = teeth
    place = d.place
    pts = []
    for k in range(n):
        pts += [(k * run, small / 2), ((k + 1) * run, big / 2), ((k + 1) * run, small / 2)]
    chain = [*pts, (start + 6, small / 2)]
    ink = [
        i
        for i in outside(teeth, place, replace(d.look, lines="split", hidden=False))
        if not _on(i, place.at(start + 6, 0)[0], place.x, small / 2, place.y)
    ]
    for side in (1, -1):
        ink += [place.line(a, side * r, b, side * q) for (a, r), (b, q) in pairwise(chain)]
    ink += [place.line((k + 1) * run, big / 2, (k + 1) * run, -big / 2) for k in range(n)]
    right = replace(d.truth(), free=((-start - 6, 0.0),))
    d.show(ink, right)
    return finish(d, f"hose barb of {n} teeth", Truth("either", right), extras=0.2)


def _on(item: Ink, x0: float, x1: float, r: float, y: float) -> bool:
    """Whether a stroke is one of the two straight sides that the teeth replace."""
    if not isinstance(item, Line) or item.role != "outline":
        return False
    flat = abs(abs(item.a[1] - y) - r) < 1e-9 and abs(item.a[1] - item.b[1]) < 1e-9
    return flat and min(item.a[0], item.b[0]) >= x0 - 1e-9 and max(item.a[0], item.b[0]) <= x1 + 1e-9


def neck(seed: int) -> Case:
    """A neck with a radial wall right under a head."""
    d = desk("g", seed, Wish(metric=True))
    rng = d.rng
    shank, head = float(rng.randrange(12, 24, 2)), float(rng.randrange(30, 40, 2))
    long, tall = float(rng.randrange(40, 70)), float(rng.randrange(10, 18))
    width, depth = rng.choice((2.0, 3.0, 4.0)), rng.choice((1.0, 1.5))
    d.paper.part = Part(
        ((long, shank), (long + tall, head)), (Groove(long - width, width, shank - 2 * depth),), (), (1.0, 1.0)
    )
    return _turned(d, "neck under a head")


def beside_shoulder(seed: int) -> Case:
    """Two radial walls of unlike height and a level floor beside a shoulder."""
    d = desk("g", seed, Wish(metric=True))
    rng = d.rng
    small, big = float(rng.randrange(24, 36, 2)), float(rng.randrange(40, 56, 2))
    first, width, depth = float(rng.randrange(20, 40)), rng.choice((2.0, 3.0, 4.0)), rng.choice((1.0, 2.0, 2.5))
    g = Groove(first - width, width, small - 2 * depth)
    other = Groove(first + 10, 3.0, big - 5)
    d.paper.part = Part(((first, small), (first + 30, big)), (g, other), (), (1.0, 0.0))
    return _turned(d, "groove beside a shoulder")


def wide(seed: int) -> Case:
    """A wide groove whose width and floor are both printed as a groove's are."""
    d = desk("g", seed, Wish(metric=True))
    rng = d.rng
    dia, width, depth = float(rng.randrange(36, 60, 2)), float(rng.randrange(8, 15)), rng.choice((2.0, 3.0))
    near = float(rng.randrange(15, 30))
    g = Groove(near, width, dia - 2 * depth)
    small = Groove(near + width + 12, 2.0, dia - 3)
    d.paper.part = Part(((near + width + 30, dia),), (g, small), (), (1.0, 1.0))
    d.paper.below = -dia / 2 - 2 * d.paper.h
    d.paper.along(g.near, -dia / 2, g.far, -dia / 2, f"{number(width)} +0.1/0", up=False)
    d.paper.across(near + width / 2, g.floor, near + width / 2, f"%%c{number(g.floor)} h9")
    return _turned(d, "wide groove with its sizes")


sheet = in_turn(*FLAT, barb, neck, beside_shoulder, wide, step=7)
