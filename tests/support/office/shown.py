"""Family n: views as hands show them: marks of symmetry, turned sections, breaks, marks of the paper, plates."""

import math
from dataclasses import replace
from itertools import pairwise

from support.ink import Arc, Circle, Curve, Hatch, Ink, Line, Path, Text, extent
from support.office.desk import Desk, desk, finish
from support.office.model import Groove, outer_half
from support.office.second import cutting_plane, titled
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn
from support.office.views import axis, crossed, section

PLAIN = Wish(grooves=(1, 4), bore=False)


def _usual(d: Desk, kind: str) -> Case:
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.5)
    return finish(d, kind, Truth("read", d.truth()), extras=0.2)


def half_marked(seed: int) -> Case:
    """Half a view with two short strokes across each end of the axis (ISO 128-3, from memory)."""
    d = desk("n", seed, PLAIN)
    part, place, h = d.part, d.place, d.paper.h
    ink: list[Ink] = [place.piece(p, 1) for p in outer_half(part)]
    for s, tip in ((0.0, outer_half(part)[0][0][1]), (part.length, outer_half(part)[-1][1][1])):
        ink.append(place.line(s, tip, s, 0))
    for s, r in [(g.near, part.land(g.near) / 2) for g in part.outside() if d.rng.random() < 0.5]:
        ink.append(place.line(s, r, s, 0))
    for s, way in ((0.0, -1), (part.length, 1)):
        for k in (1.2, 1.7):
            (x, y) = place.at(s + way * k * d.paper.lane, 0)
            ink.append(Line((x, y - 0.7 * h), (x, y + 0.7 * h), "thin"))
    d.show([*ink, axis(part, place, 3 * d.paper.lane)], d.truth())
    d.paper.overall()
    for g in part.outside():
        d.paper.to_groove(g, "front", up=True)
    return finish(d, "half a view with marks of symmetry", Truth("read", d.truth()), extras=0.0)


def turned_section(seed: int) -> Case:
    """A cross section turned into the view on a land, in thin lines, hatched (ISO 128-3, from memory)."""
    d = desk("n", seed, PLAIN)
    d.main_view()
    part, place = d.part, d.place
    start, end, dia = max(
        ((a, b, dd) for (a, _), (b, dd) in pairwise(((0.0, 0.0), *part.steps))), key=lambda row: row[1] - row[0]
    )
    clear = [g for g in part.outside() if start <= g.near < end]
    s = (start + min((g.near for g in clear), default=end)) / 2
    r = min(dia / 2, 0.45 * (min((g.near for g in clear), default=end) - start)) * d.rng.choice((0.6, 0.8))
    middle = place.at(s, 0.0)
    ring = tuple((middle[0] + r * math.cos(t * 0.2), middle[1] + r * math.sin(t * 0.2)) for t in range(32))
    d.paper.add([Circle(middle, r, "thin"), Hatch((ring,), 2 * d.paper.u)])
    return _usual(d, "a section turned into the view")


def drawn_out_section(seed: int) -> Case:
    """A cross section with a keyway drawn out under the view, on the line of its plane."""
    d = desk("n", seed, PLAIN)
    d.main_view()
    part, place, h = d.part, d.place, d.paper.h
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    s = part.length * 0.9 if not any(g.near < part.length * 0.9 < g.far for g in part.outside()) else part.length * 0.95
    r = part.steps[-1][1] / 2
    x, _ = place.at(s, 0.0)
    _, y0, _, _ = extent(d.paper.ink)
    y = y0 - 6 * h - r
    a = math.asin(0.25)
    key = [(x - r * 0.25, y + r * math.cos(a)), (x - r * 0.25, y + r * 0.6), (x + r * 0.25, y + r * 0.6)]
    key.append((x + r * 0.25, y + r * math.cos(a)))
    ink: list[Ink] = [Line(p, q) for p, q in pairwise(key)]
    turn = math.degrees(a)
    ink.append(Arc((x, y), r, 90 + turn, 90 - turn + 360))
    rim = [
        (x + r * math.cos(t), y + r * math.sin(t))
        for t in (math.radians(90 + turn + k * (360 - 2 * turn) / 40) for k in range(41))
    ]
    ink.append(Hatch(((*rim, key[2], key[1]),), 2.5 * d.paper.u))
    d.show([*ink, *crossed((x, y), r + 3 * d.paper.u)], None)
    titled(d, ink, d.rng.choice(("A-A", "SECTION B-B")))
    for side in (1, -1):
        d.paper.add([Text(place.at(s, side * (d.part.diameter / 2 + 3 * d.paper.lane)), "A", h)])
    return finish(d, "a cross section under the view", Truth("read", d.truth()), extras=0.0)


def paper_marks(seed: int) -> Case:
    """Centring marks, fold marks, zone letters and numbers round the border (ISO 5457, from memory)."""
    d = desk("n", seed, PLAIN)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.5)
    x0, y0, x1, y1 = extent(d.paper.ink)
    h = d.paper.h
    m = 9 * h
    x0, y0, x1, y1 = x0 - m, y0 - m, x1 + m, y1 + m
    for k in (0.0, 2 * h):
        box = ((x0 - k, y0 - k), (x1 + k, y0 - k), (x1 + k, y1 + k), (x0 - k, y1 + k))
        d.paper.add([Path(box, closed=True, role="frame")])
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    for a, b in (
        ((cx, y1 + 2 * h), (cx, y1 - h)),
        ((cx, y0 - 2 * h), (cx, y0 + h)),
        ((x0 - 2 * h, cy), (x0 + h, cy)),
        ((x1 + 2 * h, cy), (x1 - h, cy)),
    ):
        d.paper.add([Line(a, b, "frame")])
    zones = 6
    for k in range(zones):
        x = x0 + (x1 - x0) * k / zones
        y = y0 + (y1 - y0) * k / zones
        d.paper.add([Line((x, y1), (x, y1 + 2 * h), "frame"), Line((x, y0), (x, y0 - 2 * h), "frame")])
        d.paper.add([Line((x0, y), (x0 - 2 * h, y), "frame"), Line((x1, y), (x1 + 2 * h, y), "frame")])
        d.paper.write((x + (x1 - x0) / zones / 2, y1 + 0.6 * h), str(k + 1))
        d.paper.write((x0 - 1.4 * h, y + (y1 - y0) / zones / 2), "ABCDEF"[k])
    return finish(replace(d, noted=d.noted), "marks of the paper", Truth("read", d.truth()), extras=0.2)


def two_ended(seed: int) -> Case:
    """A bore through with a groove near either end, in section."""
    d = desk("n", seed, Wish(grooves=(1, 3), bore=True, plain=True))
    part = d.part
    bore = part.bores[0][1]
    if part.length < 40 * d.paper.u:
        return half_marked(seed + 8)
    cut = d.rng.choice((1.0, 2.0)) * d.paper.u
    w = d.rng.choice((1.6, 2.0, 3.0)) * (1.0 if part.units == "mm" else 0.05)
    near = d.rng.choice((3.0, 4.0, 6.0)) * d.paper.u
    rings = (
        Groove(near, w, round(bore + 2 * cut, 6), "inside"),
        Groove(round(part.length - 1.5 * near - w, 6), w, round(bore + 2 * cut, 6), "inside"),
    )
    low = min([x for _, x in part.steps] + [g.floor for g in part.outside()])
    if bore + 2 * cut > low - 2 * d.paper.u:
        rings = tuple(replace(g, floor=round((bore + low) / 2, 3)) for g in rings)
    d.paper.part = replace(part, grooves=(*part.outside(), *rings), bores=((part.length, bore),))
    d.show(section(d.part, d.place, d.look, lower_outside=d.rng.random() < 0.4), d.truth())
    return _usual(d, "a bore with a groove at either end")


def plane_across(seed: int) -> Case:
    """A cutting plane with arrows and letters along the axis, but no section on the sheet."""
    d = desk("n", seed, PLAIN)
    d.main_view()
    cutting_plane(d, d.rng.choice("ABX"))
    return _usual(d, "a cutting plane without its section")


def broken_long(seed: int) -> Case:
    """A long part whose middle is left out between two freehand lines."""
    d = desk("n", seed, PLAIN)
    part, place, u = d.part, d.place, d.paper.u
    d.main_view()
    spans = [(a, b, dd) for (a, _), (b, dd) in pairwise(((0.0, 0.0), *part.steps))]
    free = [
        (lo, hi, dd)
        for a, b, dd in spans
        for lo, hi in pairwise(
            [a + 2 * u, *(v for g in part.outside() if a <= g.near < b for v in (g.near - u, g.far + u)), b - 2 * u]
        )
        if hi - lo > 6 * u and not any(lo < g.near < hi for g in part.outside())
    ]
    if not free:
        return half_marked(seed + 8)
    lo, hi, dia = max(free, key=lambda row: row[1] - row[0])
    for s in ((lo + hi) / 2 - u, (lo + hi) / 2 + u):
        wave = [place.at(s + 0.8 * u * math.sin(3 * t * math.pi / 8 + 0.4), dia / 2 * (1 - t / 4)) for t in range(9)]
        d.paper.add([Curve(tuple(wave), "thin")])
    d.paper.overall(f"{part.length + 60 * u:g}")
    return finish(d, "a view with a break", Truth("stop"), extras=0.0)


def slotted_plate(seed: int) -> Case:
    """A flat plate with slots from both edges, about a centre line, its thickness said in words or in a side view."""
    d = desk("n", seed, PLAIN)
    d.main_view()
    part = d.part
    d.paper.usual_sizes("front", share=0.0)
    if d.rng.random() < 0.5:
        word = d.rng.choice(("PLATE, 8 THICK", "THICKNESS 6", "BLECH t=4", "EP. 5", "DICKE 10"))
        d.paper.write(d.place.at(part.length * 0.8, d.paper.below - 4 * d.paper.lane), word)
    else:
        word = "edge view"
        top = d.paper.below - 5 * d.paper.lane
        y = d.place.at(0.0, top)[1]
        a, b = d.place.at(0.0, 0.0)[0], d.place.at(part.length, 0.0)[0]
        box = ((a, y), (b, y), (b, y - 6 * d.paper.u), (a, y - 6 * d.paper.u))
        d.show([Path(box, closed=True)], None)
    return finish(d, f"a slotted plate, {word}", Truth("stop"), extras=0.0)


sheet = in_turn(
    half_marked, turned_section, drawn_out_section, paper_marks, two_ended, plane_across, broken_long, slotted_plate
)
