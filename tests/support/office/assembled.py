"""Family f: sheets that hold more than one part, one state or one size of it, so that none may be answered."""

from dataclasses import replace

from support.ink import Line, extent, moved, number
from support.office.desk import Desk, desk, finish
from support.office.model import Part
from support.office.place import Place
from support.office.stock import Wish
from support.office.truth import Answer, Case, Truth, answer, in_turn
from support.office.views import outside, section

PLAIN = Wish(grooves=(1, 4), bore=False, plain=True)


def _hub(d: Desk) -> tuple[Part, float]:
    """A hub for one of the shaft's lands, and where it begins."""
    part, u = d.part, d.paper.u
    index = d.rng.randrange(len(part.steps))
    start = part.steps[index - 1][0] if index else 0.0
    end, dia = part.steps[index]
    a = start + d.rng.choice((0.0, 2 * u))
    width = max((end - a) * d.rng.choice((0.4, 0.6)), 8 * u)
    outer = dia + d.rng.choice((12, 16, 24)) * u
    return Part(((round(width, 4), outer),), (), ((round(width, 4), dia),), (0.0, 0.0), part.units), a


def shaft_in_hub(seed: int) -> Case:
    """A shaft through a hub in section, with or without item numbers."""
    d = desk("f", seed, PLAIN)
    hub, a = _hub(d)
    ink = outside(d.part, d.place, replace(d.look, lines=d.rng.choice(("split", "smooth", "whole"))))
    place = replace(d.place, x=d.place.x - a)
    ring = [i for i in section(hub, place) if i.role in ("outline", "hatch")]
    if d.rng.random() < 0.5:
        ring = [
            i
            for i in ring
            if not (isinstance(i, Line) and abs(i.a[0] - i.b[0]) < 1e-9 and (i.a[1] - place.y) * (i.b[1] - place.y) < 0)
        ]
    d.show([*ink, *ring], None)
    balloons = d.rng.random() < 0.6
    h, top = d.paper.h, hub.diameter / 2
    if balloons:
        for k, (s, r) in enumerate(((a + hub.length / 2, top * 0.9), (d.part.length * 0.9, 0.0))):
            d.paper.balloon(d.place.at(s, r), d.place.at(s - 4 * h, top + 8 * h), str(k + 1))
    kind = "shaft in a hub" + (", item numbers" if balloons else "")
    return finish(d, kind, Truth("stop", more=(d.truth(),)), extras=0.2)


def items(seed: int) -> Case:
    """Two parts side by side on one axis under item numbers, with a parts list."""
    d = desk("f", seed, PLAIN)
    ink = outside(d.part, d.place, d.look)
    bush = Part(((20 * d.paper.u, d.part.diameter + 10 * d.paper.u),), (), (), (0.0, 0.0), d.part.units)
    touching = d.rng.random() < 0.6
    gap = 0.0 if touching else 3 * d.paper.u
    second = replace(d.place, x=d.place.x + gap + bush.length)
    more = [i for i in outside(bush, second, d.look) if i.role != "centre"]
    d.show(ink, d.truth())
    d.show(more, answer(bush, "right"))
    h, top = d.paper.h, d.part.diameter / 2 + 6 * d.paper.u
    d.paper.balloon(d.place.at(d.part.length * 0.5, top * 0.3), d.place.at(d.part.length * 0.5, top + 9 * h), "1")
    d.paper.balloon(second.at(bush.length / 2, 0), second.at(bush.length / 2, top + 9 * h), "2")
    x0, y0, _, _ = extent(d.paper.ink)
    for k, row in enumerate(("2  BUSH  1  CuSn8", "1  SHAFT  1  C45", "ITEM  NAME  QTY  MATERIAL")):
        d.paper.write((x0, y0 - (12 - 2.2 * k) * h), row)
    kind = "two items on one axis" + (", touching" if touching else "")
    return finish(d, kind, Truth("stop", more=(d.truth(),)), extras=0.2)


def older(seed: int) -> Case:
    """The outline of an older state left under the new one: a groove, a step or the length has moved."""
    d = desk("f", seed, PLAIN)
    part, rng, u = d.part, d.rng, d.paper.u
    what = rng.choice(("groove moved", "groove moved", "groove deeper", "longer"))
    g = rng.choice(part.outside())
    if what == "groove moved":
        old = part.with_groove(g, replace(g, near=g.near + rng.choice((1.0, 1.5, -1.0, -2.0)) * u))
    elif what == "groove deeper":
        old = part.with_groove(g, replace(g, floor=g.floor - 1.0 * u))
    else:
        old = replace(part, steps=(*part.steps[:-1], (part.steps[-1][0] + 4 * u, part.steps[-1][1])))
    role = rng.choice(("outline", "old"))
    ghost = [moved(i, role) for i in outside(old, d.place, d.look) if i.role == "outline"]
    d.show([*outside(part, d.place, d.look), *ghost], None)
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    return finish(
        d, f"older outline, {what}, as {role}", Truth("stop", more=(d.truth(), answer(old, "right"))), extras=0.2
    )


def larger(seed: int) -> Case:
    """The same part again, larger, on the same axis; nothing says which is at true size."""
    d = desk("f", seed, PLAIN)
    k = d.rng.choice((2.0, 2.5))
    d.show(outside(d.part, d.place, d.look), d.truth())
    x0, _, _, _ = extent(d.paper.ink)
    place = Place(x0 - 15 * d.paper.u, d.place.y, "right", k)
    ink = outside(d.part, place, d.look)
    if d.rng.random() < 0.5:
        ink = [i for i in ink if i.role != "centre"]
        d.paper.add([Line(d.place.at(0, 0), place.at(d.part.length + 4 * d.paper.u, 0), "centre")])
    grown = _grown(d.truth(), k)
    d.show(ink, grown)
    return finish(
        d, f"the same {number(k)} times larger on one axis", Truth("stop", more=(d.truth(), grown)), extras=0.0
    )


def _grown(a: Answer, k: float) -> Answer:
    grooves = tuple(replace(g, near=g.near * k, far=g.far * k, floor=g.floor * k) for g in a.grooves)
    return replace(a, length=a.length * k, diameter=a.diameter * k, grooves=grooves)


def variants(seed: int) -> Case:
    """A table of variants: letters for sizes, a row for each part number."""
    d = desk("f", seed, PLAIN, dims=("entity", "loose"))
    d.main_view()
    part, rng, u = d.part, d.rng, d.paper.u
    letters = rng.choice((("L", "D"), ("A", "B"), ("L1", "d1")))
    d.paper.overall(letters[0])
    d.paper.outer(part.steps[-1][0] - part.chamfers[1], part.steps[-1][1], rng.choice(("%%c", "")) + letters[1])
    for g in part.outside()[:2]:
        d.paper.to_groove(g, "front", up=True)
    x0, y0, _, _ = extent(d.paper.ink)
    h, wide = d.paper.h, 12 * d.paper.h
    rows = [("PART NO", *letters)]
    for k in range(rng.randint(2, 4)):
        rows.append((f"4711-{k + 1:02d}", number(part.length + 10 * k * u), number(part.steps[-1][1] + 2 * k * u)))
    _table(d, (x0, y0 - 5 * h), rows, wide)
    return finish(d, "table of variants", Truth("stop", code="variants", more=(d.truth(),)), extras=0.3)


def _table(d: Desk, at: tuple[float, float], rows: list[tuple[str, ...]], wide: float) -> None:
    h = d.paper.h
    x, y = at
    for k, row in enumerate(rows):
        for c, cell in enumerate(row):
            d.paper.write((x + c * wide + h * 0.6, y - (k + 1) * 2 * h + 0.5 * h), cell)
    width = wide * len(rows[0])
    lines = [Line((x, y - 2 * h * k), (x + width, y - 2 * h * k), "frame") for k in range(len(rows) + 1)]
    lines += [Line((x + wide * c, y), (x + wide * c, y - 2 * h * len(rows)), "frame") for c in range(len(rows[0]) + 1)]
    d.paper.add(lines)


def _sixth(size: float) -> tuple[float, float]:
    """IT6, and the lower limit of k6, in mm: ISO 286-1 for sizes over 3 to 180, from memory."""
    rows = ((6, 0.008, 0.001), (10, 0.009, 0.001), (18, 0.011, 0.001), (30, 0.013, 0.002), (50, 0.016, 0.002))
    rows += ((80, 0.019, 0.002), (120, 0.022, 0.003), (180, 0.025, 0.003))
    return next((grade, low) for step, grade, low in rows if size <= step)


def fits(seed: int) -> Case:
    """A table of fits, of revisions or of coordinates is no table of variants."""
    d = desk("f", seed, Wish(grooves=(1, 4), bore=False, plain=True, metric=True))
    d.main_view()
    d.paper.usual_sizes("front", share=0.5)
    x0, y0, _, _ = extent(d.paper.ink)
    (first, h6, _), (last, k6, off) = ((f"%%c{number(x)}", *_sixth(x)) for x in (d.part.steps[k][1] for k in (0, -1)))
    tables = (
        ("fits", [("Passma\u00df", "oberes", "unteres"), (f"{first} h6", "0", f"-{h6}"), ("3 H9", "+0.025", "0")]),
        ("revisions", [("REV", "DATE", "CHANGE"), ("A", "2031-01-02", "FIRST ISSUE"), ("B", "2031-03-04", "R ADDED")]),
        ("fits", [("FIT", "MAX", "MIN"), (f"{last} k6", f"+{number(k6 + off)}", f"+{off}")]),
    )
    kind, rows = d.rng.choice(tables)
    _table(d, (x0, y0 - 5 * d.paper.h), rows, 14 * d.paper.h)
    return finish(d, f"table of {kind}", Truth("read", d.truth()), extras=0.2)


sheet = in_turn(shaft_in_hub, shaft_in_hub, items, older, older, larger, variants, fits, step=3)
