"""Family m: sizes as hands print them: running, framed, in brackets, with fits, in tables, in other languages."""

from itertools import pairwise

from support.ink import Circle, Line, Path, Text, arrow, extent, number
from support.office.desk import Desk, desk, finish
from support.office.fronts import word_at
from support.office.model import Groove
from support.office.notes import measures, tie
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn

PLAIN = Wish(grooves=(1, 4), bore=False, plain=True)
FRONTS = ("FRONTFLÄCHE", "VORDERE PLANFLÄCHE", "FACE AVANT", "FACCIA ANTERIORE", "CARA FRONTAL", "NULLPUNKT", "Z = 0")
BACKS = ("SPANNSEITE", "FUTTERSEITE", "CHUCK SIDE", "SERRER ICI", "SERRARE QUI", "CLAMPED HERE", "BACK FACE")


def _with_comma(text: str) -> str:
    return text.replace(".", ",")


def running_line(seed: int) -> Case:
    """Running sizes of ISO 129-1 (from memory): one line from a ring at the origin, a head and a number at each."""
    d = desk("m", seed, PLAIN)
    d.main_view()
    part, place, h = d.part, d.place, d.paper.h
    level = d.paper.above + 2 * d.paper.lane
    stops = sorted({part.length, *(s for g in part.outside() for s in (g.near, g.far))})
    start = place.at(0.0, level)
    last = start
    for s in stops:
        tip = place.at(s, level)
        edge = (part.land(s) / 2 if s < part.length else part.steps[-1][1] / 2 - part.chamfers[1]) + 0.3 * d.paper.lane
        d.paper.add([Line(place.at(s, edge), place.at(s, level + 0.5 * d.paper.lane), "dim"), Line(last, tip, "dim")])
        d.paper.add(arrow(tip, last, h, "dim", "open"))
        d.paper.add([Text((tip[0] + 0.3 * h, tip[1] + 0.8 * h), number(s), h, 90.0, role="dim")])
        last = tip
    d.paper.add([Circle(start, 0.5 * h, "dim"), Text((start[0] + 0.6 * h, start[1] + h), "0", h, role="dim")])
    d.paper.add([place.line(0.0, part.steps[0][1] / 2 - part.chamfers[0] + 0.3 * d.paper.lane, 0.0, level, "dim")])
    d.paper.above = level + 4 * d.paper.lane
    return finish(d, "running sizes on one line", Truth("read", d.truth()), extras=0.3)


def framed(seed: int) -> Case:
    """Theoretically exact sizes in frames, a tolerance frame led to a land (ISO 1101, from memory)."""
    d = desk("m", seed, PLAIN, dims=("loose", "inline"))
    d.main_view()
    part, h = d.part, d.paper.h
    for g in part.outside():
        d.paper.to_groove(g, "front", up=True)
    for item in [i for i in d.paper.ink if isinstance(i, Text)]:
        wide, tall = (len(item.text) * 0.8 + 0.6) * h / 2, 0.9 * h
        wide, tall = (tall, wide) if item.angle else (wide, tall)
        x, y = item.at
        d.paper.add(
            [Path(tuple((x + a * wide, y + b * tall) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))), True, "dim")]
        )
    d.paper.overall(up=False)
    x, y = d.place.at(part.length * 0.1, part.land(part.length * 0.1) / 2)
    to = (x + 8 * h, y + d.rng.choice((6, 9)) * h)
    d.paper.add(
        [
            Line((x, y), (to[0] - 2 * h, to[1] + h), "leader"),
            Line((to[0] - 2 * h, to[1] + h), (to[0], to[1] + h), "leader"),
        ]
    )
    for k, (text, wide) in enumerate((("\u25ce", 2.0), ("\u00d80.05", 4.5), ("A", 2.0))):
        at = to[0] + (0.0, 2.0, 6.5)[k] * h
        box = ((at, to[1]), (at + wide * h, to[1]), (at + wide * h, to[1] + 2 * h), (at, to[1] + 2 * h))
        d.paper.add([Path(box, True, "dim"), Text((at + 0.4 * h, to[1] + 0.5 * h), text, h)])
    return finish(d, "framed sizes and a tolerance frame", Truth("read", d.truth()), extras=0.2)


def fitted(seed: int) -> Case:
    """Fits, stacked and signed deviations, decimal commas."""
    d = desk("m", seed, Wish(grooves=(1, 4), bore=False, plain=True, metric=True))
    d.main_view()
    part, rng = d.part, d.rng
    for g in part.outside():
        w, f = _with_comma(number(g.width)), _with_comma(number(g.floor))
        edge = part.land(g.near) / 2
        text = rng.choice((f"{w} H11", f"{w}H13", f"{w} +0,1/0", f"{w} +0,14", f"{w} \u00b10,1", f"{w}"))
        d.paper.along(g.near, -edge, g.far, -edge, text, up=False)
        if rng.random() < 0.6:
            s = (g.near + g.far) / 2
            text = rng.choice((f"%%c{f} h11", f"%%c{f} h12", f"%%c{f} 0/-0,1", f"%%c{f}", f"\u00d8{f} -0,05/-0,15"))
            d.paper.across(s, g.floor, part.length + (5 + 3 * len(d.extras)) * d.paper.lane, text)
            d.extras.append("floor")
        d.paper.to_groove(g, "front", up=True)
    d.paper.overall(f"{_with_comma(number(part.length))} \u00b10,2")
    return finish(d, "fits and decimal commas", Truth("read", d.truth()), extras=0.2)


def bracketed(seed: int) -> Case:
    """A closed chain whose last link, or the overall length, stands in brackets."""
    d = desk("m", seed, PLAIN)
    d.main_view()
    part = d.part
    stops = [0.0, *sorted(s for g in part.outside() for s in (g.near, g.far)), part.length]
    level = d.paper.above + 2 * d.paper.lane
    for k, (a, b) in enumerate(pairwise(stops)):
        ends = [(part.land(min(v, part.length - 1e-6)) / 2) for v in (a, b)]
        ends[0] -= part.chamfers[0] if k == 0 else 0.0
        ends[1] -= part.chamfers[1] if b == part.length else 0.0
        text = f"({number(b - a)})" if b == part.length else ""
        d.paper.size(d.place.at(a, ends[0]), d.place.at(b, ends[1]), d.place.at((a + b) / 2, level), 0, text)
    d.paper.above = level + 3 * d.paper.lane
    d.paper.overall(f"({number(part.length)})" if d.rng.random() < 0.5 else "")
    return finish(d, "a size in brackets", Truth("read", d.truth()), extras=0.2)


def tabled(seed: int) -> Case:
    """A list of the grooves beside the view, numbers led to them; its rows say what is drawn."""
    d = desk("m", seed, PLAIN)
    d.main_view()
    part, h = d.part, d.paper.h
    d.paper.overall()
    x0, y0, _, _ = extent(d.paper.ink)
    heads = d.rng.choice((("NO.", "WIDTH", "FLOOR"), ("NR.", "BREITE", "GRUND"), ("POS", "LARGEUR", "FOND")))
    rows = [heads, *((str(k), number(g.width), f"%%c{number(g.floor)}") for k, g in enumerate(part.outside(), 1))]
    top, wide, tall = y0 - 8 * h, 9 * h, 2.2 * h
    for k in range(len(rows) + 1):
        d.paper.add([Line((x0, top - k * tall), (x0 + 3 * wide, top - k * tall), "frame")])
    for k in range(4):
        d.paper.add([Line((x0 + k * wide, top), (x0 + k * wide, top - len(rows) * tall), "frame")])
    for k, row in enumerate(rows):
        for n, cell in enumerate(row):
            d.paper.write((x0 + n * wide + 0.5 * h, top - (k + 1) * tall + 0.6 * h), cell)
    for k, g in enumerate(part.outside(), 1):
        tip = d.place.at((g.near + g.far) / 2, part.land(g.near) / 2)
        d.paper.write((tip[0] - 0.3 * h, tip[1] + 1.5 * h), str(k))
    return finish(d, "a list of the grooves", Truth("read", d.truth()), extras=0.1)


def _marked(d: Desk, g: Groove) -> None:
    """A texture mark that stands on a groove's wall or floor."""
    h = d.paper.h
    r = (part_land := d.part.land(g.near) / 2) - (part_land - g.floor / 2) / 2
    x, y = d.place.at(g.far, r) if d.rng.random() < 0.5 else d.place.at((g.near + g.far) / 2, g.floor / 2)
    k = 0.25 * h
    d.paper.add([Path(((x - 0.5 * k, y + 0.87 * k), (x, y), (x + k, y + 1.74 * k)), role="dim")])
    d.paper.add([Text((x + 1.2 * k, y + k), "Ra 1,6", k, role="dim")])


def roughened(seed: int) -> Case:
    """Texture marks on walls and floors of grooves."""
    d = desk("m", seed, PLAIN)
    d.main_view()
    for g in d.part.outside():
        _marked(d, g)
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.6)
    return finish(d, "texture marks in grooves", Truth("read", d.truth()), extras=0.2)


def fronted(seed: int) -> Case:
    """The front, or the end held in the chuck, named in other languages and words."""
    d = desk("m", seed, Wish(), ("right", "left", "right", "left", "top"))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    if d.rng.random() < 0.5:
        word_at(d, d.rng.choice(FRONTS), d.place.front)
    else:
        word_at(d, d.rng.choice(BACKS), {"right": "left", "left": "right", "top": "bottom"}[d.place.front])
    word = d.paper.said[-1]
    return finish(d, f"{word} with a leader", Truth("read", d.truth(), ("words",)), extras=0.2)


def noted(seed: int) -> Case:
    """Notes at grooves in other languages, one of them of another size than drawn or not."""
    d = desk("m", seed, PLAIN)
    d.main_view()
    g = d.rng.choice(d.part.outside())
    w, depth = measures(g, d.part)
    wrong = d.rng.random() < 0.4
    shown = round(w * 1.5, 4) if wrong else w
    a, b, f = (_with_comma(number(v)) for v in (shown, depth, g.floor))
    texts = [f"GORGE {a} x {b}", f"GOLA {a} x {b}", f"GORGE LARGEUR {a} PROF. {b}", f"EINSTICH {a} x {b}"]
    texts += [f"NUT {a} BREIT {b} TIEF", f"GOLA LARGHEZZA {a}", f"RANURA {a} ANCHO x {b} PROF.", f"NUT b={a} t={b}"]
    texts += [f"EINSTICH {a}x%%c{f}", f"GORGE {a} x %%c{f}"]
    tie(d, g, d.rng.choice(texts), led=True)
    d.paper.usual_sizes(None, share=0.3)
    kind = f"{'a wrong' if wrong else 'a right'} note: {d.paper.said[0]}"
    truth = Truth("stop", facts=((shown, w),)) if wrong else Truth("read", d.truth())
    return finish(d, kind, truth, extras=0.2)


sheet = in_turn(running_line, framed, fitted, bracketed, tabled, roughened, fronted, noted)
