"""Family c: the two halves of a view that agree, nearly agree, or do not."""

from dataclasses import replace

from support.office.desk import desk, finish
from support.office.model import Groove
from support.office.stock import Wish
from support.office.truth import Case, Truth, answer, in_turn
from support.office.views import outside

STEPS = (0.04, 0.1, 0.25, 0.5, 1.0)


def _wrong(g: Groove, what: str, by: float) -> Groove:
    """The groove as the other half draws it."""
    if what == "place":
        return replace(g, near=g.near + by)
    if what == "floor":
        return replace(g, floor=g.floor - 2 * by)
    return replace(g, width=g.width + by)


def differing(seed: int) -> Case:
    """One groove of one half a little off."""
    d = desk("c", seed, Wish(plain=d_plain(seed)))
    d = replace(d, look=replace(d.look, hidden=False))
    part, rng = d.part, d.rng
    g = rng.choice(part.outside())
    what, by = rng.choice(("place", "floor", "width")), rng.choice(STEPS) * d.paper.u * rng.choice((1, -1))
    if g.width + by <= g.width * 0.5 and what == "width":
        by = abs(by)
    if what == "floor" and part.land(g.near) - g.floor + 2 * by < 0.3 * d.paper.u:
        by = abs(by)
    other = _wrong(g, what, by)
    lower = part.with_groove(g, other)
    if rng.random() < 0.5:
        part, lower = lower, part
    d.show(outside(part, d.place, d.look, lower), None)
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4) if rng.random() < 0.5 else None
    facts = _figures(g, other)
    truths = (answer(part, "right"), answer(lower, "right"))
    return finish(d, f"halves differ in {what} by {by:g}", Truth("stop", facts=facts, more=truths))


def d_plain(seed: int) -> bool:
    return seed % 2 == 0


def _figures(a: Groove, b: Groove) -> tuple[tuple[str | float, ...], ...]:
    """Each way of naming the two figures that differ."""
    ways = [
        (-a.near, -b.near),
        (a.near, b.near),
        (-a.far, -b.far),
        (a.far, b.far),
        (a.floor, b.floor),
        (a.floor / 2, b.floor / 2),
    ]
    ways += [(a.width, b.width)]
    return tuple((round(x, 6), round(y, 6)) for x, y in ways if abs(x - y) > 1e-9)


def agreeing(seed: int) -> Case:
    """Halves drawn one by one that agree to a thousandth of what counts."""
    d = desk("c", seed)
    d = replace(d, look=replace(d.look, hidden=False))
    g = d.rng.choice(d.part.outside())
    noise = d.rng.choice((1e-6, 1e-5, 1e-4)) * d.paper.u
    d.show(outside(d.part, d.place, d.look, d.part.with_groove(g, replace(g, near=g.near + noise))), d.truth())
    d.paper.usual_sizes(d.rng.choice(("front", None)))
    return finish(d, "halves agree but for noise", Truth("read", d.truth()))


def keyed(seed: int) -> Case:
    """A keyseat or flat on one half only: no groove, and the rest stands."""
    d = desk("c", seed, Wish(plain=True))
    d = replace(d, look=replace(d.look, hidden=False))
    part, rng = d.part, d.rng
    u = d.paper.u
    spots = [(a + 3 * u, b - 3 * u) for a, b in _gaps(part) if b - a > 16 * u]
    if not spots:
        return differing(seed)
    a, b = rng.choice(spots)
    near = a + rng.uniform(0, (b - a) * 0.2)
    wide = min(b - near, rng.choice((10, 12, 14)) * u)
    key = Groove(round(near, 2), round(wide, 2), part.land(near) - 2 * rng.choice((2, 3)) * u)
    d.show(outside(replace(part, grooves=(*part.grooves, key)), d.place, d.look, part), d.truth())
    free = replace(d.truth(), free=((-key.far - u, -key.near + u),))
    return finish(d, "a keyseat on one half", Truth("either", free))


def _gaps(part) -> list[tuple[float, float]]:
    """Stretches of one land between grooves."""
    found, start = [], 0.0
    for end, _ in part.steps:
        here = start
        for g in part.outside():
            if start <= g.near < end:
                found.append((here, g.near))
                here = g.far
        found.append((here, end))
        start = end
    return found


sheet = in_turn(differing, differing, differing, agreeing, differing, keyed)
