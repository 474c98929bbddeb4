"""Family b: bare numbers and texts beside the outline, and sizes exploded to strokes in the outline's layer."""

from support.ink import Line, Path, Text, arrow, number
from support.office.desk import Desk, desk, finish
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn

BARE = ("12", "2.5", "1", "40", "3", "7", "0.8", "A", "B", "1.6", "N8", "x", "15")


def _default(d: Desk) -> Truth:
    return Truth("read", d.truth(), ("assumed", "dimensions"))


def bare(seed: int) -> Case:
    """Bare numbers beside lands, as copying and deleting leave them."""
    d = desk("b", seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None, None)), share=0.4)
    h, part = d.paper.h, d.part
    for _ in range(d.rng.choice((1, 1, 2, 3))):
        s = d.rng.uniform(0.05, 0.95) * part.length
        r = part.land(s) / 2
        far = d.rng.choice((0.4, 0.6, 1.0, 2.0)) * h
        side = d.rng.choice((1, 1, -1))
        at = d.place.at(s, side * (r + far + (0 if side > 0 else h)))
        text = d.rng.choice((*BARE, number(part.land(s)), number(part.length)))
        d.paper.add([Text(at, text, h, role=d.rng.choice(("text", "dim", "outline")))])
    return finish(d, "bare numbers", _default(d))


def beside_end(seed: int) -> Case:
    """A bare number before an end face, which is a line as long as a dimension line."""
    d = desk("b", seed)
    d.main_view()
    h, part = d.paper.h, d.part
    s, sign = d.rng.choice(((0.0, -1), (part.length, 1)))
    x, y = d.place.at(s + sign * d.rng.choice((0.6, 1.0, 1.6)) * h, 0)
    shown = d.rng.choice((number(part.land(s)), "2", "35", number(part.length)))
    d.paper.add([Text((x, y), shown, h, 90.0, middle=True, role=d.rng.choice(("text", "dim")))])
    return finish(d, "a number before a face", _default(d))


def inline(seed: int) -> Case:
    """Every size exploded into the outline's own layer."""
    d = desk("b", seed, dims=("inline",))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", "front", None)))
    return finish(d, "sizes as strokes in the outline's layer", _default(d))


def within(seed: int) -> Case:
    """Diameters exploded inside the view: dimension lines across lands and floors look like edges."""
    d = desk("b", seed, dims=("inline", "loose"))
    d.main_view()
    for g in d.part.outside():
        if g.shape != "vee" and g.width > 1.5 * d.paper.u and d.rng.random() < 0.7:
            d.paper.across((g.near + g.far) / 2, g.floor, (g.near + g.far) / 2)
    start = 0.0
    for end, dia in d.part.steps:
        s = start + 3 * d.paper.u
        d.paper.across(s, dia, s)
        start = end
    return finish(d, "diameters as strokes inside the view", _default(d))


def orphan(seed: int) -> Case:
    """A size whose number is gone, or strokes of one left over."""
    d = desk("b", seed, dims=("loose", "inline"))
    d.main_view()
    d.paper.usual_sizes("front", share=0.5)
    h, part = d.paper.h, d.part
    level = d.paper.above + 2 * h
    a, b = d.place.at(part.length * 0.2, level), d.place.at(part.length * 0.55, level)
    role = d.rng.choice(("dim", "outline"))
    d.paper.add([Line(a, b, role), *arrow(a, b, h, role, "open"), *arrow(b, a, h, role, "open")])
    if d.rng.random() < 0.5:
        d.paper.add([Text(((a[0] + b[0]) / 2, a[1] + h * 0.4), d.rng.choice(("12", "??", "3.5")), h, role="text")])
    return finish(d, "a dimension line without extension lines", _default(d))


def marks(seed: int) -> Case:
    """Surface marks, weld-like flags and underlined texts in the outline's layer."""
    d = desk("b", seed, Wish(grooves=(2, 5)))
    d.main_view()
    h, part = d.paper.h, d.part
    for _ in range(2):
        s = d.rng.uniform(0.1, 0.9) * part.length
        if any(g.near - 2 * d.paper.u < s < g.far + 2 * d.paper.u for g in part.outside()):
            continue
        x, y = d.place.at(s, part.land(s) / 2)
        if d.rng.random() < 0.5:
            tick = ((x - 0.5 * h, y + 0.87 * h), (x, y), (x + h, y + 1.74 * h))
            d.paper.add([Path(tick, role="outline"), Text((x + 1.1 * h, y + h), "1.6", h * 0.7)])
        else:
            d.paper.add([Text((x, y + h), number(part.land(s)), h), Line((x, y + 0.7 * h), (x + 2.2 * h, y + 0.7 * h))])
    return finish(d, "marks in the outline's layer", _default(d))


sheet = in_turn(bare, bare, beside_end, inline, inline, within, orphan, marks, step=3)
