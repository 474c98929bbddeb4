"""Family d: notes at grooves, with a leader or beside them, that agree with what is drawn or do not."""

from dataclasses import replace

from support.ink import number
from support.office.desk import Desk, desk, finish
from support.office.model import Groove, Part
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn

ONE = Wish(grooves=(1, 4), plain=True)


def tie(d: Desk, g: Groove, text: str, led: bool, size: str = "") -> None:
    """The note at the groove: with a leader to its floor, or written close above it."""
    h, place, part = d.paper.h, d.place, d.part
    s = (g.near + g.far) / 2
    side = d.rng.choice((1, -1)) if led else 1
    if led:
        tip = place.at(s, side * g.floor / 2)
        to = place.at(
            s + d.rng.choice((-5, 5, 8)) * h, (d.paper.above + 3 * h) if side > 0 else (d.paper.below - 3 * h)
        )
        d.paper.lead(tip, text, to)
    else:
        x, y = place.at(s, part.land(g.near) / 2)
        d.paper.write((x - len(text) * h * 0.35, y + d.rng.choice((0.8, 1.5)) * h), text)


def note_texts(g: Groove, part: Part, w: float, depth: float) -> list[tuple[str, str]]:
    """Ways to write width and depth; the second says what the note holds."""
    floor = part.land(g.near) - 2 * depth
    n = number
    return [
        (f"{n(w)} WIDE x {n(depth)} DEEP", "both"),
        (f"{n(w)}x{n(depth)}", "both"),
        (f"{n(w)} x {n(depth)}", "both"),
        (f"{n(w)} WIDE %%c{n(floor)}", "both"),
        (f"GROOVE {n(w)} WIDE", "width"),
        (f"GROOVE {n(w)} WIDE x {n(depth)} DEEP", "both"),
        (f"NUT {n(w)} BREIT, {n(depth)} TIEF", "both"),
    ]


def measures(g: Groove, part: Part) -> tuple[float, float]:
    return g.width, round((part.land(g.near) - g.floor) / 2, 6)


def right_note(seed: int) -> Case:
    d = desk("d", seed, ONE)
    d.main_view()
    for g in d.rng.sample(d.part.outside(), min(2, len(d.part.outside()))):
        text, _ = d.rng.choice(note_texts(g, d.part, *measures(g, d.part)))
        tie(d, g, text, d.rng.random() < 0.7)
        d.paper.above += 3 * d.paper.h
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    return finish(d, "notes that agree", Truth("read", d.truth()))


def wrong_note(seed: int) -> Case:
    """A width or depth in the note that is not the drawn one."""
    d = desk("d", seed, ONE)
    d.main_view()
    part, u = d.part, d.paper.u
    g = d.rng.choice(part.outside())
    w, depth = measures(g, part)
    while True:
        by, what = d.rng.choice((0.2, 0.5, -0.5, 1.0)) * u, d.rng.choice(("width", "depth"))
        nw, nd = (round(w + by, 6), depth) if what == "width" else (w, round(depth + by, 6))
        if nw > 0.5 * u and nd > 0.2 * u and (nw, nd) != (depth, w):
            break
    text, holds = d.rng.choice(note_texts(g, part, nw, nd))
    if holds == "width" and what == "depth":
        text = f"{number(nw)} WIDE x {number(nd)} DEEP"
    tie(d, g, text, True)
    if what == "width":
        facts = ((nw, w),)
    else:
        facts = ((nd, depth), (part.land(g.near) - 2 * nd, g.floor), (nd, g.floor), (part.land(g.near) - 2 * nd, depth))
    return finish(
        d, f"the note {text} for {number(w)} x {number(depth)}", Truth("stop", facts=facts, more=(d.truth(),))
    )


def reversed_note(seed: int) -> Case:
    """DEPTHxWIDTH: only the reverse of what such a note means fits."""
    d = desk("d", seed, ONE)
    d.main_view()
    part = d.part
    g = d.rng.choice(part.outside())
    w, depth = measures(g, part)
    if abs(w - depth) < 0.2 * d.paper.u:
        return right_note(seed)
    text = f"{number(depth)}x{number(w)}"
    tie(d, g, text, True)
    facts = ((text,), (depth, w))
    return finish(d, "depth by width", Truth("stop", facts=facts, more=(d.truth(),)))


def _row(seed: int, alike: tuple[int, ...] = (4, 5, 6)) -> Desk:
    return desk("d", seed, Wish(alike=alike[seed % len(alike)], bore=False, plain=True, lop=False))


def equally(seed: int) -> Case:
    """12 GROOVES 3 WIDE EQUALLY SPACED: right, a wrong count, or one groove out of step."""
    d = _row(seed)
    rng, part = d.rng, d.part
    row = part.outside()
    n, w = len(row), row[0].width
    fault = rng.choice(("", "", "count", "step"))
    if fault == "step":
        off = replace(row[1], near=row[1].near + 0.5 * d.paper.u)
        d.paper.part = part.with_groove(row[1], off)
    d.main_view()
    said = n + rng.choice((-1, 1, 2)) if fault == "count" else n
    text = f"{said} GROOVES {number(w)} WIDE" + rng.choice((" EQUALLY SPACED", ", EQUI-SPACED", " EQ. SPACED"))
    tie(d, row[rng.choice((0, n - 1))], text, True)
    d.paper.overall()
    if not fault:
        return finish(d, "equally spaced", Truth("read", d.truth()))
    facts = ((said, n),) if fault == "count" else (("SPACED",), ("pitch",), ("evenly",))
    return finish(d, f"equally spaced, {fault} wrong", Truth("stop", facts=facts, more=(d.truth(),)))


def counted(seed: int) -> Case:
    """5x on four grooves, 4x %%c34 TYP, 4x 3 on a width: counts that hold or do not."""
    d = _row(seed)
    rng, part = d.rng, d.part
    row = part.outside()
    n, g = len(row), row[0]
    d.main_view()
    said = n + rng.choice((0, 0, 1, -1))
    form = rng.choice(
        (
            f"{said}x %%c{number(g.floor)} TYP",
            f"{said}x %%c{number(g.floor)}",
            f"{said}x {number(g.width)}",
            f"{said}X {number(g.width)} TYP",
        )
    )
    if "%%c" in form or rng.random() < 0.5:
        tie(d, g, form, True)
    else:
        d.paper.along(g.near, -part.land(g.near) / 2, g.far, -part.land(g.near) / 2, form, up=False)
    if said == n:
        return finish(d, "a count that holds", Truth("read", d.truth()))
    return finish(d, f"{form} on {n}", Truth("stop", facts=((said, n),), more=(d.truth(),)))


def spaced(seed: int) -> Case:
    """5x 8 (=40): all drawn, only the first and the last drawn, or a sum, distance or count that is not so."""
    d = _row(seed)
    rng, part = d.rng, d.part
    row = part.outside()
    n, pitch = len(row), round(row[1].near - row[0].near, 6)
    fault = rng.choice(("", "", "undrawn", "undrawn", "undrawn sum", "sum", "count", "undrawn far"))
    spaces, step, total = n - 1, pitch, round(pitch * (n - 1), 6)
    drawn = part
    if "undrawn" in fault:
        drawn = replace(part, grooves=(row[0], row[-1]))
    if fault == "undrawn far":
        last = replace(row[-1], near=row[-1].near + d.paper.u)
        drawn = replace(part, grooves=(row[0], last))
    if "sum" in fault:
        total = round(total + rng.choice((1, -1, 2)) * d.paper.u, 6)
    if fault == "count":
        spaces, total = n, round(pitch * n, 6)
    whole, d.paper.part = d.truth(), drawn
    d.main_view()
    ends = drawn.outside()
    edge = part.land(row[0].near) / 2
    x = rng.choice(("x", "X", " x "))
    text = (
        f"{spaces}{x}{number(step)} (={number(total)})"
        if "x " not in x
        else f"{spaces} x {number(step)} (= {number(total)})"
    )
    d.paper.along(ends[0].near, edge, ends[-1].near, edge, text)
    d.paper.to_groove(ends[0], "front", up=True)
    d.paper.overall()
    if fault == "":
        return finish(d, "n x p with all drawn", Truth("read", whole))
    if fault == "undrawn":
        return finish(d, "n x p, first and last drawn", Truth("either", whole))
    figures = {"sum": total, "undrawn sum": total, "count": total, "undrawn far": total}[fault]
    return finish(d, f"n x p, {fault}", Truth("stop", facts=((figures,), (text,)), more=(d.truth(), whole)))


UNDERCUTS = (
    (0.6, 0.3, 2.5, 18, 80),
    (0.8, 0.3, 2.5, 18, 80),
    (0.4, 0.2, 2.0, 3, 18),
    (1.6, 0.3, 4.0, 50, 80),
)  # r, t1, f, d1 of DIN 509


def undercut(seed: int) -> Case:
    """DIN 509 form E at a shoulder (sizes: a stored extract of the standard), called out right or wrong."""
    d = desk("d", seed, Wish(metric=True))
    rng = d.rng
    r, t1, f, _, _ = rng.choice([u for u in UNDERCUTS if u[3] >= 18])
    small, big = float(rng.randrange(20, 48, 2)), float(rng.randrange(52, 64, 2))
    shoulder = float(rng.randrange(24, 46))
    ring = Groove(float(rng.randrange(6, 12)), 2.0, small - 3)
    hollow = Groove(shoulder - f, f, round(small - 2 * t1, 6), shape="undercut", radius=r)
    d.paper.part = Part(((shoulder, small), (shoulder + rng.randrange(20, 40), big)), (ring, hollow), (), (1.0, 1.0))
    d.paper.above, d.paper.below = big / 2 + 2 * d.paper.h, -big / 2 - 2 * d.paper.h
    d.main_view()
    wrong = rng.random() < 0.4
    told = rng.choice([u for u in UNDERCUTS if u[1] != t1 or u[0] != r]) if wrong else (r, t1)
    comma = lambda v: number(v).replace(".", ",")  # noqa: E731
    forms = (
        f"DIN 509 - E {comma(told[0])} x {comma(told[1])}",
        f"DIN 509-E{comma(told[0])}x{comma(told[1])}",
        f"DIN 509 - E{told[0]}x{told[1]}",
    )
    text = rng.choice(forms)
    tie(d, hollow, text, True)
    d.paper.overall()
    if not wrong:
        return finish(d, f"undercut {text}", Truth("read", replace(d.truth(), free=())))
    return finish(d, f"undercut {text} for {r} x {t1}", Truth("stop", facts=(("509",),), more=(d.truth(),)))


sheet = in_turn(right_note, right_note, wrong_note, reversed_note, equally, counted, spaced, spaced, undercut, step=5)
