"""Family l: customs of drafting: phantom neighbours, plot scales, layers switched off, chains, notes in other words."""

from dataclasses import replace
from itertools import pairwise

from support.ink import Circle, Path, Text, extent, moved, number
from support.office.desk import desk, finish
from support.office.fronts import word_at
from support.office.notes import measures, tie
from support.office.place import Place
from support.office.stock import Wish, random_part
from support.office.truth import Case, Truth, answer, in_turn
from support.office.views import outside

PLAIN = Wish(grooves=(1, 4), bore=False, plain=True)


def phantom(seed: int) -> Case:
    """A neighbouring part or the blank in long-dash double-dot lines round the part."""
    d = desk("l", seed, PLAIN)
    d.main_view()
    part, u, rng = d.part, d.paper.u, d.rng
    top = part.diameter / 2
    if rng.random() < 0.5:
        out, end = 2 * u, part.length + 2 * u
        ring = ((-out, top + out), (end, top + out), (end, -top - out), (-out, -top - out))
        d.paper.add([Path(tuple(d.place.at(*p) for p in ring), closed=True, role="phantom")])
        kind = "the blank in phantom lines"
    else:
        a, b = part.length * 0.3, part.length * 0.6
        for side in (1, -1):
            low, high = side * (top + 0.5 * u), side * (top + 9 * u)
            ring = ((a, low), (a, high), (b, high), (b, low))
            d.paper.add([Path(tuple(d.place.at(*p) for p in ring), closed=rng.random() < 0.5, role="phantom")])
        kind = "a neighbour in phantom lines"
    d.paper.above += 10 * u
    d.paper.below -= 10 * u
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.4)
    return finish(d, kind, Truth("read", d.truth()), extras=0.2)


def plot_scale(seed: int) -> Case:
    """SCALE 2:1 is how the sheet is plotted: drawn at true size, as every printed size says."""
    d = desk("l", seed, PLAIN, dims=("entity", "loose"))
    d.main_view()
    d.paper.overall()
    for g in d.part.outside():
        d.paper.to_groove(g, "front", up=True)
    d.paper.outer(d.part.steps[-1][0] - d.part.chamfers[1], d.part.steps[-1][1])
    label = d.rng.choice(("SCALE 2:1", "SCALE 1:2", "MASSSTAB 5:1", "SCALE: 1:5"))
    d.paper.write(d.place.at(d.part.length * 0.8, d.paper.below - 8 * d.paper.lane), label)
    return finish(replace(d, noted=d.noted), f"{label} of the plot", Truth("read", d.truth(), scale=1.0001), extras=0.2)


def switched_off(seed: int) -> Case:
    """The older state lies on a layer that is off or frozen: nobody sees it."""
    d = desk("l", seed, PLAIN)
    part, g, u = d.part, d.part.outside()[0], d.paper.u
    old = part.with_groove(g, replace(g, near=g.near + 1.5 * u))
    d.main_view()
    d.paper.add([moved(i, "off") for i in outside(old, d.place, d.look)])
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    return finish(d, "older state on a layer that is off", Truth("read", d.truth()), extras=0.2)


def chain(seed: int) -> Case:
    """A chain of lengths from end to end: it says nothing of the front."""
    d = desk("l", seed, PLAIN)
    d.main_view()
    part = d.part
    stops = sorted({0.0, part.length, *(s for g in part.outside() for s in (g.near, g.far))})
    level = d.paper.above + 2 * d.paper.lane
    ends = {0.0: part.chamfers[0], part.length: part.chamfers[1]}
    for a, b in pairwise(stops):
        tips = [part.land(v) / 2 - ends.get(v, 0.0) for v in (a, b)]
        pa, pb = d.place.at(a, tips[0]), d.place.at(b, tips[1])
        d.paper.size(pa, pb, d.place.at((a + b) / 2, level), 0)
    d.paper.above = level + 3 * d.paper.lane
    d.paper.overall()
    return finish(d, "a chain of lengths", Truth("read", d.truth(), ("assumed",)), extras=0.2)


def detail_sized(seed: int) -> Case:
    """A detail at 5:1 with sizes of its own, true ones."""
    d = desk("l", seed, PLAIN, dims=("entity", "loose"))
    d.main_view()
    part, h, rng = d.part, d.paper.h, d.rng
    d.paper.usual_sizes(rng.choice(("front", None)), share=0.3)
    g = rng.choice(part.outside())
    k = rng.choice((4.0, 5.0))
    x0, y0, _, _ = extent(d.paper.ink)
    top, f = part.land(g.near) / 2, g.floor / 2
    place = Place(x0 + 70 * d.paper.u + k * g.far, y0 - 14 * h - k * top, "right", k)
    a, b = g.near - g.width, g.far + g.width
    pts = [(a, top), (g.near, top), (g.near, f), (g.far, f), (g.far, top), (b, top)]
    ink = [place.line(*p, *q) for p, q in pairwise(pts)]
    wave = [place.at(a + (b - a) * t / 8, f - (top - f) * (0.5 if t % 2 else 0.8)) for t in range(9)]
    ink.append(Path((place.at(a, top), *wave, place.at(b, top)), role="thin"))  # type: ignore[arg-type]
    d.show(list(ink), None)
    p, q = place.at(g.near, top), place.at(g.far, top)
    d.paper.size(p, q, (p[0], p[1] + 3 * h), 0, number(g.width))
    p, q = place.at(g.far, top), place.at(g.far, f)
    d.paper.size(p, q, (place.at(b, 0)[0] - 3 * h, p[1]), 90, number((top * 2 - g.floor) / 2))
    middle = d.place.at((g.near + g.far) / 2, top)
    d.paper.add([Circle(middle, g.width, "dim"), Text((middle[0] + g.width, middle[1] + g.width), "B", h)])
    d.paper.write((place.at(b, 0)[0], place.at(0, f - (top - f))[1] - 4 * h), f"DETAIL B ({number(k)}:1)")
    return finish(d, "detail with its own sizes", Truth("read", d.truth()), extras=0.2)


def other_words(seed: int) -> Case:
    """Notes at grooves as people also write them."""
    d = desk("l", seed, PLAIN)
    d.main_view()
    g = d.rng.choice(d.part.outside())
    w, depth = (number(v) for v in measures(g, d.part))
    f = number(g.floor)
    texts = [f"{w} WIDE GROOVE, {depth} DEEP", f"GROOVE {w} x {depth}", f"NUT {w}x{depth}", f"{w} wide x {depth} deep"]
    texts += [f"%%C{f} x {w} WIDE", f"GROOVE %%c{f} x {w}", f"EINSTICH {w} BREIT", f"{w} W x {depth} D"]
    texts.append(f"\u00d8{f} GROOVE")
    text = d.rng.choice(texts)
    tie(d, g, text, True)
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.3)
    return finish(d, f"the note {text}", Truth("read", d.truth()), extras=0.2)


def wrong_leader(seed: int) -> Case:
    """The note fits another groove than the one its leader points to."""
    d = desk("l", seed, replace(PLAIN, grooves=(2, 5)))
    d.main_view()
    part = d.part
    sizes = {g: measures(g, part) for g in part.outside()}
    pairs = [(a, b) for a in sizes for b in sizes if abs(sizes[a][0] - sizes[b][0]) > 0.4 * d.paper.u]
    if not pairs:
        return other_words(seed)
    a, b = d.rng.choice(pairs)
    text = f"{number(sizes[b][0])} WIDE x {number(sizes[b][1])} DEEP"
    tie(d, a, text, True)
    truth = Truth("stop", facts=((sizes[b][0], sizes[a][0]),), more=(d.truth(),))
    return finish(d, f"the note {text} led to the wrong groove", truth, extras=0.2)


SURE = ("front face", "Z 0", "Z0.0", "Front face (Z0)", "Z0 = FRONT FACE")
ODD = ("vordere Planfl\u00e4che", "W0 / Z0")


def odd_word(seed: int) -> Case:
    """The word for the front in other letters, or beside its face without a leader."""
    d = desk("l", seed, PLAIN, ("right", "left"))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    h = d.paper.h
    word = d.rng.choice((*SURE, *ODD))
    more = (d.truth().turned(),) if word in ODD else ()
    if word in SURE and d.rng.random() < 0.5:
        x, y = d.place.at(0, 0)
        wide = len(word) * h * 0.75
        d.paper.write((x + 2 * h if d.place.front == "right" else x - 2 * h - wide, y + h), word)
        kind = f"{word} beside its face"
    else:
        word_at(d, word, d.place.front)
        kind = f"the word {word}"
    return finish(d, kind, Truth("read", d.truth(), ("words",), more=more), extras=0.2)


def two_parts(seed: int) -> Case:
    """Two different parts on one sheet: each can be pointed to."""
    d = desk("l", seed, PLAIN)
    d.main_view()
    d.paper.overall()
    other = random_part(d.rng, replace(PLAIN, metric=True))
    while other.units != d.part.units:
        other = random_part(d.rng, PLAIN)
    _, y0, _, _ = extent(d.paper.ink)
    place = Place(d.place.x + d.rng.choice((0.0, 30 * d.paper.u)), y0 - 14 * d.paper.h - other.diameter / 2)
    d.show(outside(other, place, d.look), answer(other, "right"))
    truth = Truth("stop", more=(d.truth(), answer(other, "right")))
    return finish(d, "two parts on one sheet", truth, extras=0.2)


def cut_off(seed: int) -> Case:
    """The file ends in the middle of its strokes."""
    d = desk("l", seed, PLAIN)
    d.main_view()
    share = d.rng.uniform(0.3, 0.9)

    def spoil(text: str) -> str:
        start = text.rindex("ENTITIES")
        return text[: start + int((len(text) - start) * share)]

    return finish(d, "the file is cut off", Truth("stop"), extras=0.0, spoil=spoil)


sheet = in_turn(
    phantom,
    plot_scale,
    switched_off,
    chain,
    detail_sized,
    other_words,
    wrong_leader,
    odd_word,
    two_parts,
    cut_off,
    step=3,
)
