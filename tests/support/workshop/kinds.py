"""What the workshop puts on its sheets: one kind of sheet each, true or with one fault."""

import math
from collections.abc import Callable
from dataclasses import replace

from support.office.truth import Answer, Case, Truth, View
from support.workshop.sheets import Board, done, fresh, number, outside_rings, truth_of
from support.workshop.turned import Ring


def _usual(b: Board, rings: int = 2) -> None:
    """Overall length, a few places and widths, and the diameters at the ends."""
    part = b.part
    b.length(0.0, -part.length, up=True)
    for ring in outside_rings(b)[:rings]:
        b.length(0.0, ring.near, up=True)
        if b.rng.random() < 0.6 and any(abs(p - ring.far) < 1e-9 for p, _ in part.line):
            b.length(ring.near, ring.far, up=False)
    for near, far, d in part.lands[:2]:
        if b.rng.random() < 0.6:
            b.across((near + far) / 2 + 0.7, d)


def _view(b: Board, answer: Answer | None) -> View:
    return View(b.box(), answer)


def _finish(b: Board, seed: int, kind: str, truth: Truth, views: tuple[View, ...] = ()) -> Case:
    b.title("1:1")
    return done(b, seed, kind, truth, (_view(b, truth.right), *views))


def plain(seed: int) -> Case:
    b = fresh(seed)
    b.outside()
    _usual(b)
    return _finish(b, seed, "front view", Truth("read", truth_of(b)))


def spoken(seed: int) -> Case:
    """A word at an end says which is the front; the words lead to either end."""
    b = fresh(seed)
    b.way = b.rng.choice((1, -1))
    b.outside()
    clamp = b.rng.random() < 0.4
    z = -b.part.length if clamp else 0.0
    r = (b.part.line[-1] if clamp else b.part.line[0])[1]
    text = b.words["clamp"] if clamp else b.rng.choice(b.words["front"])
    b.note((z, 0.6 * r), text, (z + (-14 if clamp else 14), b.part.across / 2 + 16))
    if b.rng.random() < 0.5:
        b.length(0.0, -b.part.length, up=True)
    return _finish(b, seed, f"word {text}", Truth("read", truth_of(b), by=("words", "dimensions")))


def in_half(seed: int) -> Case:
    b = fresh(seed, bored=True)
    b.section((1,))
    b.outside((-1,), hidden=False)
    _usual(b)
    return _finish(b, seed, "half section", Truth("read", truth_of(b)))


def in_section(seed: int) -> Case:
    b = fresh(seed, bored=True)
    b.section()
    _usual(b)
    return _finish(b, seed, "section", Truth("read", truth_of(b)))


def both(seed: int) -> Case:
    """The view and, in line above or below it, the section."""
    b = fresh(seed, bored=True)
    b.outside(hidden=b.rng.random() < 0.5)
    _usual(b)
    right, first = truth_of(b), b.box()
    away = (b.up if b.rng.random() < 0.5 else -b.down) + b.part.across / 2 + 25
    b.y += away if b.rng.random() < 0.5 else -away
    b.section()
    b.text(b.at(-b.part.length / 2, b.part.across / 2 + 6), b.words["section"])
    second = _view(b, right)
    b.down -= away
    b.title("1:1")
    return done(b, seed, "view and section", Truth("read", right), (View(first, right), second))


def ended(seed: int) -> Case:
    """The round end view, at the side that first or third angle puts it, with a bolt circle now and then."""
    b = fresh(seed)
    b.outside()
    _usual(b)
    side = b.rng.choice((1, -1))
    r = b.part.across / 2
    x = b.at(0, 0)[0] + r + 40 if side > 0 else b.at(-b.part.length, 0)[0] - r - 40
    look = {"layer": b.layers["body"]}
    for d in {d for _, _, d in b.part.lands}:
        b.msp.add_circle((x, b.y), d / 2, dxfattribs=look)
    if b.rng.random() < 0.3:
        for k in range(4):
            t = math.radians(45 + 90 * k)
            b.msp.add_circle((x + 0.7 * r * math.cos(t), b.y + 0.7 * r * math.sin(t)), 0.06 * r, dxfattribs=look)
    for p, q in (((x - r - 4, b.y), (x + r + 4, b.y)), ((x, b.y - r - 4), (x, b.y + r + 4))):
        b.msp.add_line(p, q, dxfattribs={"layer": b.layers["axis"]})
    return _finish(b, seed, "end view", Truth("read", truth_of(b)))


def _words(b: Board, ring: Ring, wrong: str = "") -> tuple[str, tuple[float, ...]]:
    """A note at a groove in the workshop's tongue, and where it is wrong the printed and the true figure."""
    wide, floor = ring.near - ring.far, ring.floor
    deep = b.part.radius(ring.near) - floor / 2
    w, t, d = wide + 0.5 * (wrong == "width"), deep + 0.4 * (wrong == "depth"), floor + 1.0 * (wrong == "floor")
    patterns = b.words["note"]
    fit = [p for p in patterns if {"width": "{w}", "depth": "{t}", "floor": "{d}"}.get(wrong, "") in p]
    text = b.rng.choice(fit).format(w=b.say(w), t=b.say(t), d=b.say(d))
    figures = {"width": (w, wide), "depth": (t, deep), "floor": (d, floor)}.get(wrong, ())
    return text, tuple(round(f, 4) for f in figures)


def _noted(seed: int, wrong: str) -> Case:
    b = fresh(seed)
    tops = [z for z, r in b.part.line if all(r > ring.floor / 2 + 0.01 for ring in b.part.rings if ring.far == z)]
    rings = [r for r in outside_rings(b) if r.far in tops]
    if not rings:
        return plain(seed)
    b.outside()
    ring = b.rng.choice(rings)
    text, figures = _words(b, ring, wrong)
    middle = (ring.near + ring.far) / 2
    b.note((middle, ring.floor / 2), text, (middle + b.rng.choice((12, -12)), b.part.across / 2 + 12))
    b.up += 8
    _usual(b, rings=0)
    if wrong:
        return _finish(b, seed, f"wrong note {text}", Truth("stop", facts=(figures,), more=(truth_of(b),)))
    return _finish(b, seed, f"note {text}", Truth("read", truth_of(b)))


def noted(seed: int) -> Case:
    return _noted(seed, "")


def mistold(seed: int) -> Case:
    return _noted(seed, ("width", "depth", "floor")[seed // 16 % 3])


def enlarged(seed: int) -> Case:
    """Drawn 2 times its size or at half of it; the sizes are typed or scaled, the title block says so."""
    b = fresh(seed)
    b.k, scale = b.rng.choice(((2.0, "2:1"), (0.5, "1:2")))
    b.outside()
    _usual(b, rings=3)
    b.title(scale)
    right = truth_of(b)
    return done(b, seed, f"scale {scale}", Truth("read", right, scale=b.k), (_view(b, right),))


def keyed(seed: int) -> Case:
    """A keyway in the upper half of the longest land, closed at both ends, and its section drawn beside."""
    b = fresh(seed, bored=False)
    near, far, d = max(b.part.lands, key=lambda land: land[0] - land[1])
    free = [(near, far)]
    for r in (r for r in outside_rings(b) if far <= r.near <= near):
        free = [p for a, z in free for p in ((a, r.near), (r.far, z))]
    a, z = max(free, key=lambda p: p[0] - p[1])
    b.outside()
    _usual(b)
    if a - z > 12:
        b.line((a - 3, d / 2 - 3), (z + 3, d / 2 - 3), "hidden")
        b.line((a - 3, d / 2), (a - 3, d / 2 - 3), "hidden")
        b.line((z + 3, d / 2), (z + 3, d / 2 - 3), "hidden")
    return _finish(b, seed, "hidden keyway", Truth("read", truth_of(b)))


def holed(seed: int) -> Case:
    """A cross hole seen as a circle with its centre lines, and a flat's crossed thin lines."""
    b = fresh(seed, bored=False)
    b.outside()
    _usual(b)
    near, far, d = max(b.part.lands, key=lambda land: land[0] - land[1])
    spots = [(near + far) / 2 + k for k in (0, 2, -2, 4, -4)]
    clear = [z for z in spots if all(not r.far - 3 < z < r.near + 3 for r in outside_rings(b))]
    if clear:
        at = b.at(clear[0], 0.0)
        b.msp.add_circle(at, min(2.0, d / 8), dxfattribs={"layer": b.layers["body"]})
        b.msp.add_line((at[0], at[1] - 5), (at[0], at[1] + 5), dxfattribs={"layer": b.layers["axis"]})
    return _finish(b, seed, "cross hole", Truth("read", truth_of(b)))


def opened(seed: int) -> Case:
    """A broken-out section: a freehand line in one half, hatched on its metal side; the bore ring shows there."""
    b = fresh(seed, bored=True)
    b.outside(hidden=False)
    deep = -b.part.hole[-1][0]
    end = -min(deep, b.part.length) * 0.8
    hole, top = b.part.hole[0][1], b.part.radius(end)
    b.line((0.0, hole), (end, hole))
    wavy = [(end + 0.6 * math.sin(k), hole + (top - hole) * k / 8) for k in range(9)]
    b.msp.add_spline([b.at(*p) for p in wavy], dxfattribs={"layer": b.layers["hatch"]})
    right = truth_of(b)
    out = replace(right, grooves=tuple(c for c in right.grooves if c.where == "outside"))
    return _finish(b, seed, "broken out", Truth("either", out, more=(right,)))


def misprinted(seed: int) -> Case:
    b = fresh(seed)
    b.outside()
    rings = outside_rings(b)
    ring = b.rng.choice(rings) if rings else None
    if ring is None:
        return plain(seed)
    by = b.rng.choice((0.1, 0.5, -0.2, 1.0))
    b.length(0.0, -b.part.length, up=True)
    b.length(0.0, ring.near, up=True, text=b.say(-ring.near + by))
    facts = ((round(-ring.near + by, 4), round(-ring.near, 4)),)
    return _finish(b, seed, f"misprint by {by}", Truth("stop", facts=facts, more=(truth_of(b),)))


def unlike(seed: int) -> Case:
    """One half's groove or shoulder stands a little off the other's."""
    b = fresh(seed, bored=False)
    other = replace(b.part, line=list(b.part.line))
    by = b.rng.choice((0.05, 0.1, 0.3, 1.0))
    rings = outside_rings(b)
    if not rings:
        return plain(seed)
    ring = b.rng.choice(rings)
    low = {(z, ring.floor / 2) for z in (ring.near, ring.far)}
    other.line = [(z, r - by) if (z, r) in low else (z, r) for z, r in other.line]
    b.outside((1,), hidden=False)
    mine, b.part = b.part, other
    b.outside((-1,), hidden=False)
    b.part = mine
    b.length(0.0, -b.part.length, up=True)
    return _finish(b, seed, f"floors {by} apart", Truth("stop", more=(truth_of(b),)))


def broken(seed: int) -> Case:
    """A long land drawn shortened between two freehand lines."""
    b = fresh(seed, bored=False)
    _, far, d = b.part.lands[-1]
    b.outside()
    z = far + 5
    for at in (z, z + 2.5):
        wavy = [(at + 0.9 * math.sin(2 * math.pi * k / 10), d / 2 * (1 - k / 5)) for k in range(11)]
        b.msp.add_spline([b.at(*p) for p in wavy], dxfattribs={"layer": b.layers["hatch"]})
    b.length(0.0, -b.part.length, up=True, text=b.say(b.part.length + 120))
    return _finish(b, seed, "broken view", Truth("stop", more=(truth_of(b),)))


def tabled(seed: int) -> Case:
    """A table of sizes by part number."""
    b = fresh(seed)
    b.outside()
    b.length(0.0, -b.part.length, up=True, text="L")
    head = {"de": "Teile-Nr", "en": "PART NO", "fr": "REFERENCE"}[b.tongue]
    x, y = b.at(-b.part.length / 2, b.down - 12)
    rows = [(head, "L"), ("4711-1", b.say(b.part.length)), ("4711-2", b.say(b.part.length + 20))]
    for k, (one, two) in enumerate(rows):
        b.text((x, y - 6 * k), one)
        b.text((x + 40, y - 6 * k), two)
    b.down -= 35
    return _finish(b, seed, "table of lengths", Truth("stop", code="variants", more=(truth_of(b),)))


def counted(seed: int) -> Case:
    """A count of like grooves without a leader, in words: true or one too many."""
    b = fresh(seed)
    b.outside()
    _usual(b, rings=1)
    rings = outside_rings(b)
    wide = round(rings[0].near - rings[0].far, 6) if rings else 0.0
    n = sum(abs(r.near - r.far - wide) < 1e-6 for r in rings)
    if not rings or n < 1:
        return plain(seed)
    true = seed % 2 == 0 and n > 1
    text = b.words["spaced"].format(n=n if true else n + 1, w=number(wide, b.tongue))
    b.text(b.at(-b.part.length / 2, b.down - 8), text)
    b.down -= 16
    if true:
        return _finish(b, seed, f"{text}", Truth("read", truth_of(b)))
    return _finish(b, seed, f"{text} on {n}", Truth("stop", more=(truth_of(b),)))


KINDS: tuple[Callable[[int], Case], ...] = (
    plain,
    spoken,
    in_half,
    in_section,
    both,
    ended,
    noted,
    mistold,
    enlarged,
    keyed,
    holed,
    opened,
    misprinted,
    unlike,
    broken,
    tabled,
    counted,
)


def sheet(seed: int) -> Case:
    return KINDS[seed % len(KINDS)](seed)
