"""Family i: sheets that anybody can read, at which a reader may stumble for nothing."""

from dataclasses import replace

from support.ink import Circle, Curve, Hatch, Ink, Line, Path, Text, number
from support.office.desk import Desk, desk, finish
from support.office.stock import Wish
from support.office.strokes import stroked
from support.office.truth import Case, Truth, in_turn
from support.office.views import bore_lines, crossed

SOLID = Wish(bore=False)


def broken_out(seed: int) -> Case:
    """A local section at the front: bore lines and hatch, bounded by a freehand line across the view."""
    d = desk("i", seed, Wish(bore=True, grooves=(1, 4)))
    part, rng, u, place = d.part, d.rng, d.paper.u, d.place
    d.look = replace(d.look, hidden=False)
    depth, bore = part.bores[0]
    d.main_view()
    cut = min(max(8 * u, part.length * 0.2), part.steps[0][0] - 4 * u)
    while any(g.near - u <= cut <= g.far + u for g in part.outside()):
        cut -= 1.5 * u
    if cut < 4 * u or cut >= depth:
        return crossing(seed)
    top, low = part.steps[0][1] / 2, bore / 2
    side = rng.choice((1, -1))
    wave = [place.at(cut + (0.6 * u if k % 2 else -0.4 * u), side * (low + (top - low) * k / 6)) for k in range(1, 6)]
    wave = [place.at(cut, side * low), *wave, place.at(cut, side * top)]
    d.paper.add([Curve(tuple(wave), "thin") if rng.random() < 0.5 else Path(tuple(wave), role="thin")])
    d.paper.add([place.line(0, side * low, cut, side * low)])
    d.paper.add(
        [
            i
            for i in bore_lines(part, place, "hidden")
            if not (isinstance(i, Line) and abs(i.a[1] - place.at(0, side * low)[1]) < 1e-9)
        ]
    )
    d.paper.add([place.line(cut, side * low, depth, side * low, "hidden")])
    c = part.chamfers[0]
    start = next((g.near for g in part.outside() if g.near < cut), cut)
    ring = [
        place.at(0, side * low),
        place.at(0, side * (top - c)),
        place.at(c, side * top),
        place.at(min(start, cut), side * top),
        *reversed(wave[1:-1]),
    ]
    if start >= cut:
        d.paper.add([Hatch((tuple(ring),), 2 * u)])
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    return finish(d, "broken-out section", Truth("read", d.truth()))


def crossing(seed: int) -> Case:
    """Holes off the axis: cross holes as circles, others as hidden lines with centre lines of their own."""
    d = desk("i", seed, SOLID)
    part, rng, u, place = d.part, d.rng, d.paper.u, d.place
    d.main_view()
    what = rng.choice(("circle", "across", "flange", "tapped"))
    spans = [(a, b) for a, b in _clear(d) if b - a > 8 * u] or [(0.0, 4 * u)]
    a, b = max(spans, key=lambda t: t[1] - t[0])
    s, r = (a + b) / 2, min(2.0 * u, (b - a) / 6)
    top = part.land(s) / 2
    if what in ("circle", "tapped"):
        c = place.at(s, 0)
        d.paper.add([Circle(c, r), *crossed(c, r + 2 * u)[1:]])
        if what == "tapped":
            d.paper.add([Circle(c, r * 1.25, "thin")])
    elif what == "across":
        d.paper.add([place.line(s - r, top, s - r, -top, "hidden"), place.line(s + r, top, s + r, -top, "hidden")])
        d.paper.add([place.line(s, top + 3 * u, s, -top - 3 * u, "centre")])
    else:
        deep = min(part.steps[0][0], 10 * u)
        floor = min([g.floor for g in part.outside() if g.near < deep + u] + [part.steps[0][1]]) / 2
        off = floor * 0.6
        for side in (1, -1):
            for k in (-1, 1):
                d.paper.add([place.line(0, side * off + k * r * 0.6, deep, side * off + k * r * 0.6, "hidden")])
            d.paper.add([place.line(deep, side * off - r * 0.6, deep, side * off + r * 0.6, "hidden")])
            d.paper.add([place.line(-2 * u, side * off, deep + 2 * u, side * off, "centre")])
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    return finish(d, f"hole off the axis, {what}", Truth("read", d.truth()))


def _clear(d: Desk) -> list[tuple[float, float]]:
    found, here = [], 0.0
    stops = sorted([(g.near, g.far) for g in d.part.outside()] + [(e, e) for e, _ in d.part.steps])
    for a, b in stops:
        found.append((here + d.paper.u, a - d.paper.u))
        here = b
    return found


def doubled(seed: int) -> Case:
    """Drawn at 2:1, 5:1 or 1:2; the title says so and all printed sizes bear it out."""
    k = (2.0, 2.0, 5.0, 0.5)[seed % 4]
    d = desk("i", seed, Wish(grooves=(2, 4), plain=True), scale=k)
    d.main_view()
    part = d.part
    d.paper.overall()
    for g in part.outside()[:3]:
        d.paper.to_groove(g, "front", up=True)
    g = part.outside()[0]
    d.paper.along(g.near, -part.land(g.near) / 2, g.far, -part.land(g.near) / 2, up=False)
    d.paper.outer(part.steps[-1][0] - part.chamfers[1], part.steps[-1][1])
    label = f"{number(k)}:1" if k > 1 else f"1:{number(1 / k)}"
    d.paper.write(
        d.place.at(part.length * 0.8, d.paper.below - 8 * d.paper.lane),
        d.rng.choice((f"SCALE {label}", f"MASSSTAB {label}")),
    )
    return finish(d, f"scale {label} borne out", Truth("read", d.truth(), scale=k), extras=0.2)


def lettered(seed: int) -> Case:
    """All texts are strokes in the outline's layer, or in the texts' own."""
    d = desk("i", seed, SOLID, dims=("loose",))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", "front", None)))
    d.paper.write(
        d.place.at(d.part.length * 0.7, d.paper.below - 4 * d.paper.h),
        d.rng.choice(("DEBURR ALL EDGES", "Ra 1.6", "4711-08")),
    )
    role = d.rng.choice(("outline", "dim"))
    kept: list[Ink] = []
    for item in d.paper.ink:
        kept += stroked(item, role) if isinstance(item, Text) else [item]
    d.paper.ink = kept
    d.noted = False
    return finish(
        replace(d, file=replace(d.file, insunits=4 if d.part.units == "mm" else 1, writer="plain")),
        f"texts as strokes in {role}",
        Truth("read", d.truth()),
        extras=0.0,
    )


def doubles(seed: int) -> Case:
    """Strokes drawn twice, over one another, or cut in two."""
    d = desk("i", seed, SOLID)
    d.look = replace(d.look, lines=d.rng.choice(("whole", "split", "smooth")))
    d.main_view()
    rng = d.rng
    found: list[Ink] = []
    for item in d.paper.ink:
        if isinstance(item, Line) and item.role == "outline":
            roll, cut = rng.random(), rng.choice((0.3, 0.5))
            middle = (item.a[0] + (item.b[0] - item.a[0]) * cut, item.a[1] + (item.b[1] - item.a[1]) * cut)
            if roll < 0.15:
                found += [item, Line(item.b, item.a, item.role)]
                continue
            if roll < 0.3:
                found += [Line(item.a, middle, item.role), Line(middle, item.b, item.role)]
                continue
            if roll < 0.4:
                found += [item, Line(item.a, middle, item.role)]
                continue
        found.append(item)
    d.paper.ink = found
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.5)
    return finish(d, "doubles and overlaps", Truth("read", d.truth()))


def loose_end(seed: int) -> Case:
    """One stroke ends short of its neighbour: closed, or the two ends ringed."""
    d = desk("i", seed, replace(SOLID, plain=True))
    d.look = replace(d.look, lines="smooth")
    d.main_view()
    rng, u = d.rng, d.paper.u
    lines = [i for i in d.paper.ink if isinstance(i, Line) and i.role == "outline"]
    gap = rng.choice((0.002, 0.02, 0.1, 0.3, 1.0)) * u
    victims = [i for i in lines if abs(i.a[1] - i.b[1]) < 1e-9 and abs(i.a[0] - i.b[0]) > 4 * gap]
    item = rng.choice(victims)
    t = 1 - gap / abs(item.b[0] - item.a[0])
    short = Line(item.a, (item.a[0] + (item.b[0] - item.a[0]) * t, item.b[1]), item.role)
    d.paper.ink = [short if i is item else i for i in d.paper.ink]
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    return finish(d, f"a loose end, {gap:g} short", Truth("either", d.truth(), rings=(short.b, item.b)), extras=0.2)


def two_sizes(seed: int) -> Case:
    """3 WIDE %%c34 and a bore's or a hole's size with a leader into the view."""
    d = desk("i", seed, Wish(bore=True, grooves=(1, 4), plain=True))
    d.main_view()
    part, place, h = d.part, d.place, d.paper.h
    depth, bore = part.bores[0]
    text = d.rng.choice(
        (
            f"%%c{number(bore)} THRU" if depth == part.length else f"%%c{number(bore)} x {number(depth)} DEEP",
            f"%%c{number(bore)} H7",
            f"DRILL %%c{number(bore)}",
        )
    )
    d.paper.lead(place.at(0, bore / 2), text, place.at(-6 * h, d.paper.above + 3 * h))
    g = d.rng.choice(part.outside())
    d.paper.lead(
        place.at((g.near + g.far) / 2, -g.floor / 2),
        f"{number(g.width)} WIDE %%c{number(g.floor)}",
        place.at(g.far + 4 * h, d.paper.below - 4 * h),
    )
    d.paper.below -= 6 * h
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    return finish(d, "two sizes in one text, a bore's size", Truth("read", d.truth()))


sheet = in_turn(broken_out, crossing, crossing, doubled, lettered, doubles, loose_end, loose_end, two_sizes, step=4)
