"""Family g, first half: what is no turned part, however much it looks like one."""

from collections.abc import Callable

from support.ink import Circle, Ink, Line, Path, Point, extent
from support.office.desk import Desk, desk, finish
from support.office.stock import Wish
from support.office.truth import Case, Truth
from support.office.views import crossed

PLAIN = Wish(plain=True, bore=False)


def _closed(d: Desk, points: list[Point]) -> list[Ink]:
    x, y = d.place.x, d.place.y
    pts = [(round(x + a * d.paper.u, 6), round(y + b * d.paper.u, 6)) for a, b in points]
    if d.rng.random() < 0.5:
        return [Path(tuple(pts), closed=True)]
    return [Line(p, q) for p, q in zip(pts, pts[1:] + pts[:1], strict=True)]


def _stop(d: Desk, ink: list[Ink], kind: str) -> Case:
    d.show(ink, None)
    x0, y0, x1, y1 = extent(ink)
    if d.rng.random() < 0.6:
        d.paper.size((x0, y0), (x1, y0), (x0, y0 - 4 * d.paper.h), 0)
        d.paper.size((x1, y0), (x1, y1), (x1 + 4 * d.paper.h, y0), 90)
    return finish(d, kind, Truth("stop"), extras=0.0)


def comb(seed: int) -> Case:
    """A comb: even slots from one side, or from both sides of a bar."""
    d = desk("g", seed, PLAIN)
    rng = d.rng
    n, slot, tooth = rng.randint(3, 9), rng.choice((2, 3, 4)), rng.choice((3, 4, 6))
    tall, deep = rng.randrange(20, 50, 2), rng.randrange(4, 14)
    pts: list[Point] = [(0, 0)]
    x = float(tooth + rng.choice((0, 2)))
    pts.append((0, tall))
    for _ in range(n):
        pts += [(x, tall), (x, tall - deep), (x + slot, tall - deep), (x + slot, tall)]
        x += slot + tooth
    pts += [(x, tall), (x, 0)]
    ink = _closed(d, pts)
    if rng.random() < 0.4:
        u, p = d.paper.u, d.place
        ink.append(Line((p.x - 3 * u, p.y + tall / 2 * u), (p.x + (x + 3) * u, p.y + tall / 2 * u), "centre"))
    return _stop(d, ink, "comb")


def ring_face(seed: int) -> Case:
    """A flat ring seen on its face: circles under crossed centre lines."""
    d = desk("g", seed, PLAIN)
    c, u, rng = (d.place.x, d.place.y), d.paper.u, d.rng
    big = rng.randrange(20, 50)
    radii = sorted({big, big - rng.randrange(3, 10), *([big - 12] if rng.random() < 0.4 else [])})
    ink: list[Ink] = [Circle(c, r * u) for r in radii]
    ink += crossed(c, (big + 5) * u)
    return _stop(d, ink, "flat ring's face")


def scrap(seed: int) -> Case:
    """A few strokes under crossed centre lines."""
    d = desk("g", seed, PLAIN)
    rng, u = d.rng, d.paper.u
    c = (d.place.x, d.place.y)
    w, t = rng.randrange(10, 30), rng.randrange(6, 20)
    at = lambda a, b: (c[0] + a * u, c[1] + b * u)  # noqa: E731
    kinds: list[list[Ink]] = [
        [Line(at(-w, t), at(w, t)), Line(at(-w, -t), at(w, -t))],
        [Line(at(-w, t), at(w, t)), Line(at(-w, -t), at(w, -t)), Line(at(w, t), at(w, -t))],
        [
            Line(at(-w, t), at(w, t)),
            Line(at(-w, -t), at(w, -t)),
            Line(at(-4, t), at(-4, t - 3)),
            Line(at(4, t), at(4, t - 3)),
            Line(at(-4, t - 3), at(4, t - 3)),
        ],
        [Path((at(-w, t), at(-5, t), at(-5, t - 3), at(5, t - 3), at(5, t), at(w, t))), Path((at(-w, -t), at(w, -t)))],
    ]
    ink = [*rng.choice(kinds), *crossed(c, (w + 8) * u)]
    return _stop(d, ink, "scrap under crossed centre lines")


def stock(seed: int) -> Case:
    """A rectangle of stock, with or without a centre line."""
    d = desk("g", seed, PLAIN)
    w, t = d.rng.randrange(30, 120), d.rng.randrange(10, 60)
    ink = _closed(d, [(0, 0), (w, 0), (w, t), (0, t)])
    if d.rng.random() < 0.5:
        u, p = d.paper.u, d.place
        ink.append(Line((p.x - 3 * u, p.y + t / 2 * u), (p.x + (w + 3) * u, p.y + t / 2 * u), "centre"))
    return _stop(d, ink, "rectangle of stock")


def plate(seed: int) -> Case:
    """A plate with holes, and with notches at both edges."""
    d = desk("g", seed, PLAIN)
    rng, u, p = d.rng, d.paper.u, d.place
    w, t = rng.randrange(50, 120), rng.randrange(30, 60)
    a, b, deep = w * 0.4, w * 0.4 + 6, 4
    notched: list[Point] = [
        (0, 0),
        (a, 0),
        (a, deep),
        (b, deep),
        (b, 0),
        (w, 0),
        (w, t),
        (b, t),
        (b, t - deep),
        (a, t - deep),
        (a, t),
        (0, t),
    ]
    ink = _closed(d, notched if rng.random() < 0.6 else [(0, 0), (w, 0), (w, t), (0, t)])
    for fx, fy in ((0.15, 0.25), (0.15, 0.75), (0.85, 0.25), (0.85, 0.75)):
        c = (p.x + w * fx * u, p.y + t * fy * u)
        ink += [Circle(c, 3 * u), *crossed(c, 4 * u)]
    if rng.random() < 0.5:
        ink.append(Line((p.x - 3 * u, p.y + t / 2 * u), (p.x + (w + 3) * u, p.y + t / 2 * u), "centre"))
    return _stop(d, ink, "plate with four holes")


def beam(seed: int) -> Case:
    """The section of an I beam or a slotted bar: symmetric about two crossed centre lines."""
    d = desk("g", seed, PLAIN)
    rng = d.rng
    w, t = rng.randrange(30, 60, 2), rng.randrange(30, 60, 2)
    web, flange = rng.choice((4, 6, 8)), rng.choice((5, 6, 8))
    pts: list[Point] = [
        (0, 0),
        (w, 0),
        (w, flange),
        (w / 2 + web / 2, flange),
        (w / 2 + web / 2, t - flange),
        (w, t - flange),
        (w, t),
        (0, t),
    ]
    pts += [(0, t - flange), (w / 2 - web / 2, t - flange), (w / 2 - web / 2, flange), (0, flange)]
    u, p = d.paper.u, d.place
    c = (p.x + w / 2 * u, p.y + t / 2 * u)
    return _stop(d, [*_closed(d, pts), *crossed(c, (max(w, t) / 2 + 4) * u)], "section of an I beam")


FLAT: tuple[Callable[[int], Case], ...] = (comb, ring_face, scrap, stock, plate, beam)
