"""Family e: other views of the same part, that add to the first, say nothing of it, or differ from it."""

from dataclasses import replace
from itertools import pairwise

from support.ink import Circle, Ink, Line, Path, Text, extent, number
from support.office.desk import Desk, desk, finish
from support.office.model import Groove, Part
from support.office.place import Place
from support.office.stock import Wish
from support.office.truth import Case, Truth, answer, in_turn
from support.office.views import crossed, end_view, isometric, outside, section

BORED = Wish(grooves=(1, 4), bore_groove=True)


def beside(d: Desk, where: str) -> Place:
    """The place of a second view: under the first ("under"), past its back ("past"), or out of line ("off")."""
    x0, y0, x1, _ = extent(d.paper.ink)
    part, place, gap = d.part, d.place, 10 * d.paper.h
    r = part.diameter / 2
    if where == "under" and not place.lying:
        return replace(place, x=x1 + gap + r)
    if where == "under":
        return replace(place, y=y0 - gap - r)
    if where == "past":
        return replace(place, x=x0 - gap)
    return replace(place, x=x1 + gap + part.length, y=y0 - gap - r)


def titled(d: Desk, ink: list[Ink], text: str) -> None:
    x0, y0, x1, _ = extent(ink)
    d.paper.write(((x0 + x1) / 2 - len(text) * d.paper.h * 0.35, y0 - 3 * d.paper.h), text)


def cutting_plane(d: Desk, letter: str) -> None:
    """The trace of the section along the axis, letters at its ends."""
    place, h, part = d.place, d.paper.h, d.part
    for s in (-4 * h, part.length + 4 * h):
        x, y = place.at(s, 0)
        tick = Line((x, y - h), (x, y + 2 * h), "cut") if place.lying else Line((x - h, y), (x + 2 * h, y), "cut")
        d.paper.add([tick, Text((x + 0.4 * h, y + 1.2 * h), letter, h)])


def in_section(seed: int) -> Case:
    """The bore's groove shows only in the section."""
    d = desk("e", seed, BORED)
    rng = d.rng
    shown = rng.choice(("none", "hidden bore"))
    bare = replace(d.part, grooves=d.part.outside())
    look = replace(d.look, hidden=shown != "none")
    d.show(outside(bare, d.place, look), d.truth())
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    where = rng.choice(("under", "under", "past", "off"))
    cut = section(d.part, beside(d, where), d.look)
    d.show(cut, d.truth())
    if rng.random() < 0.8 or where == "off":
        cutting_plane(d, "A")
        titled(d, cut, "SECTION A-A" if rng.random() < 0.7 else "SCHNITT A-A")
    must = "either" if where == "off" else "read"
    return finish(d, f"bore groove in the section, {where}", Truth(must, d.truth()), extras=0.3)


def round_end(seed: int) -> Case:
    """One or two round end views in line."""
    d = desk("e", seed, Wish(bore=None))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    for side in d.rng.choice(((1,), (-1,), (1, -1))):
        x0, _, x1, _ = extent(d.paper.ink)
        r, gap = d.part.diameter / 2, 10 * d.paper.h
        ink = end_view(d.part, (x1 + gap + r if side > 0 else x0 - gap - r, d.place.y))
        if d.rng.random() < 0.4:
            ink += _bolt_holes(d, ink[0])
        d.show(ink, None)
    return finish(d, "round end views", Truth("read", d.truth()), extras=0.2)


def _bolt_holes(d: Desk, ring: Ink) -> list[Ink]:
    """Small circles on a dashed pitch circle."""
    c, r = ring.centre, d.part.diameter * 0.38  # type: ignore[union-attr]
    found: list[Ink] = [Circle(c, r, "centre")]
    for dx, dy in ((0, 1), (1, 0), (0, -1), (-1, 0)):
        found.append(Circle((c[0] + dx * r, c[1] + dy * r), d.part.diameter * 0.04))
    return found


def not_round(seed: int) -> Case:
    """The end view is a square or a plate's rectangle: nothing here is turned."""
    d = desk("e", seed, Wish(bore=False, plain=True))
    d.show(outside(d.part, d.place, replace(d.look, lines="smooth", hidden=False)), None)
    if d.rng.random() < 0.4:
        d.paper.ink = [i for i in d.paper.ink if i.role != "centre"]
    _, _, x1, _ = extent(d.paper.ink)
    tall = d.part.diameter
    wide = tall if d.rng.random() < 0.5 else round(tall * d.rng.choice((0.25, 0.4, 2.0)), 2)
    gap = 12 * d.paper.h
    c = (x1 + gap + wide / 2, d.place.y)
    box = tuple((c[0] + a * wide / 2, c[1] + b * tall / 2) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    sides: list[Ink] = (
        [Path(box, closed=True)]
        if d.rng.random() < 0.5
        else [Line(p, q) for p, q in zip(box, box[1:] + box[:1], strict=True)]
    )
    if d.rng.random() < 0.5:
        sides += crossed(c, max(wide, tall) / 2 + 4 * d.paper.u)
    d.show(sides, None)
    d.paper.along(0.0, d.part.steps[0][1] / 2, d.part.length, d.part.steps[-1][1] / 2)
    return finish(d, f"end view {number(wide)} x {number(tall)}", Truth("stop"), extras=0.0)


def detail(seed: int) -> Case:
    """A groove drawn again, larger, under a letter."""
    d = desk("e", seed, Wish(grooves=(2, 4), plain=True))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    part, h = d.part, d.paper.h
    g = d.rng.choice(part.outside())
    k = d.rng.choice((2.0, 4.0, 5.0))
    letter = d.rng.choice("BXZ")
    middle = d.place.at((g.near + g.far) / 2, part.land(g.near) / 2)
    reach = max(g.width, 3 * d.paper.u) * 0.9
    d.paper.add([Circle(middle, reach, "dim"), Text((middle[0] + reach, middle[1] + reach), letter, h)])
    x0, y0, _, _ = extent(d.paper.ink)
    ink = _enlarged(
        part, g, Place(x0 + 60 * d.paper.u, y0 - 12 * h - k * part.land(g.near) / 2 - 20 * d.paper.u, scale=k), reach
    )
    d.show(ink, None)
    scale = number(k)
    titled(
        d,
        ink,
        d.rng.choice(
            (f"DETAIL {letter} ({scale}:1)", f"DETAIL {letter} SCALE {scale}:1", f"EINZELHEIT {letter} {scale}:1")
        ),
    )
    return finish(d, "detail of a groove", Truth("read", d.truth()), extras=0.3)


def _enlarged(part: Part, g: Groove, place: Place, reach: float) -> list[Ink]:
    top, f = part.land(g.near) / 2, g.floor / 2
    a, b = g.near - reach * 0.7, g.far + reach * 0.7
    pts = [(a, top), (g.near, top), (g.near, f), (g.far, f), (g.far, top), (b, top)]
    ink: list[Ink] = [place.line(*p, *q) for p, q in pairwise(pts)]
    low = f - (top - f) * 0.8
    wavy = [place.at(a + (b - a) * t / 8, low + (0.25 if t % 2 else 0.0) * (top - f)) for t in range(9)]
    return [*ink, Path((place.at(a, top), *wavy, place.at(b, top)), role="thin")]


def picture(seed: int) -> Case:
    """An isometric picture beside the view."""
    d = desk("e", seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.5)
    x0, y0, x1, _ = extent(d.paper.ink)
    size = max(d.part.length, d.part.diameter)
    at = d.rng.choice(((x1 + size, d.place.y), (x1 + size, y0 - size), ((x0 + x1) / 2, y0 - size * 1.3)))
    d.show(isometric(d.part, at, d.rng.choice((0.7, 1.0))), None)
    return finish(d, "isometric picture", Truth("read", d.truth()), extras=0.2)


def same_again(seed: int) -> Case:
    """Front and top view of a turned part are alike, in line: one part."""
    d = desk("e", seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    d.show(outside(d.part, beside(d, "under"), d.look), d.truth())
    return finish(d, "two views alike, in line", Truth("read", d.truth()), extras=0.2)


def flattened(seed: int) -> Case:
    """The second view in line shows flats, or the section lies off the axis: at one stretch the heights differ."""
    d = desk("e", seed, Wish(bore=False, plain=True))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    part, rng, u = d.part, d.rng, d.paper.u
    index = rng.randrange(len(part.steps))
    end, big = part.steps[index]
    start = part.steps[index - 1][0] if index else 0.0
    small = big - rng.choice((2, 4, 6)) * u
    other = tuple((e, small if k == index else v) for k, (e, v) in enumerate(part.steps))
    kept = tuple(g for g in part.grooves if not start <= g.near < end)
    second = replace(part, steps=other, grooves=kept)
    low = min(v for _, v in other) / 2
    second = replace(second, chamfers=tuple(min(c, low * 0.2) for c in part.chamfers))  # type: ignore[arg-type]
    where = rng.choice(("under", "past"))
    maker = rng.choice((outside, section))
    d.show(maker(second, beside(d, where), d.look), answer(second, "right"))
    facts = ((round(small, 6), big),)
    return finish(
        d,
        f"views differ, {number(small)} for {number(big)}, {where}",
        Truth("stop", facts=facts, more=(d.truth(), answer(second, "right"))),
        extras=0.0,
    )


sheet = in_turn(in_section, in_section, round_end, not_round, detail, picture, same_again, flattened, flattened, step=4)
