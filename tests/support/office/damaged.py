"""Family h: files with a fault in one stroke, views that lack a stroke, printed sizes that are not the drawn ones."""

from dataclasses import replace

from support.ink import Ink, Line, number
from support.office.desk import Desk, desk, finish
from support.office.stock import Wish
from support.office.style import FileKind
from support.office.truth import Case, Truth, in_turn
from support.office.views import outside

PLAIN = Wish(grooves=(2, 5), plain=True, bore=False)


def _floor(d: Desk) -> Line:
    """The stroke of one groove's floor."""
    g = d.rng.choice(d.part.outside())
    side = d.rng.choice((1, -1))
    want = {d.place.at(g.near, side * g.floor / 2), d.place.at(g.far, side * g.floor / 2)}
    return next(i for i in d.paper.ink if isinstance(i, Line) and _same({i.a, i.b}, want))


def _same(a: set[tuple[float, float]], b: set[tuple[float, float]]) -> bool:
    return all(any(abs(p[0] - q[0]) + abs(p[1] - q[1]) < 1e-7 for q in b) for p in a)


def _record(text: str, number_of: int) -> tuple[int, int]:
    """Start and end of the n-th LINE among the entities."""
    at = text.index("ENTITIES")
    for _ in range(number_of + 1):
        at = text.index("  0\nLINE\n", at + 1)
    return at, text.index("\n  0\n", at + 3) + 1


def broken_record(seed: int) -> Case:
    """One wrong group code, a coordinate that is no number, or half a record, in a groove's floor."""
    d = desk("h", seed, PLAIN, dims=("loose",))
    d.look = replace(d.look, lines=d.rng.choice(("whole", "split", "smooth")))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    floor = _floor(d)
    lines = [i for i in d.paper.ink if isinstance(i, Line)]
    index = lines.index(floor)
    if d.file.writer == "library":
        d.file = FileKind("plain", "R2000", d.file.insunits)
    what = d.rng.choice(("code", "nan", "half", "letter", "code"))

    def spoil(text: str) -> str:
        start, end = _record(text, index)
        record = text[start:end]
        x = record.index("\n 11\n")
        if what == "code":
            record = record[:x] + d.rng.choice(("\n 12\n", "\n 41\n", "\n 71\n", "\n 13\n")) + record[x + 5 :]
        elif what == "nan":
            stop = record.index("\n", x + 5)
            record = record[:x] + "\n 11\nnan" + record[stop:]
        elif what == "letter":
            stop = record.index("\n", x + 5)
            record = record[:x] + "\n 11\n#####" + record[stop:]
        else:
            record = record[: x + 1]
        return text[:start] + record + text[end:]

    d.views = [replace(v, answer=None) for v in d.views]
    kind = {"code": "a wrong group code", "nan": "NaN", "half": "half a record", "letter": "no number"}[what]
    return finish(d, f"{kind} in a groove's floor", Truth("stop", more=(d.truth(),)), extras=0.0, spoil=spoil)


def _without(d: Desk, gone: list[Ink]) -> None:
    d.paper.ink = [i for i in d.paper.ink if not any(i is g for g in gone)]


def no_face(seed: int) -> Case:
    """The face of a chamfered end is not there; the printed length still starts at it."""
    d = desk("h", seed, PLAIN)
    d.paper.part = part = replace(d.part, chamfers=(d.paper.u * d.rng.choice((1.0, 1.5, 2.0)), d.part.chamfers[1]))
    d.look = replace(d.look, lines=d.rng.choice(("whole", "split")))
    d.main_view()
    d.paper.overall()
    for g in part.outside()[:2]:
        d.paper.to_groove(g, "front", up=True)
    x = d.place.at(0, 0)[0]
    face = [
        i
        for i in d.paper.ink
        if isinstance(i, Line) and i.role == "outline" and abs(i.a[0] - x) < 1e-9 and abs(i.b[0] - x) < 1e-9
    ]
    _without(d, face)
    keep = d.rng.random() < 0.5
    if not keep:
        edge = d.place.at(part.chamfers[0], 0)[0]
        stubs = [
            i
            for i in d.paper.ink
            if isinstance(i, Line)
            and i.role == "outline"
            and {round(i.a[0], 7), round(i.b[0], 7)} == {round(x, 7), round(edge, 7)}
        ]
        _without(d, stubs)
    kind = "front face missing" + ("" if keep else " with its chamfer")
    c = part.chamfers[0]
    whole = d.truth()
    short = replace(
        whole, length=whole.length - c, grooves=tuple(replace(g, near=g.near + c, far=g.far + c) for g in whole.grooves)
    )
    return finish(d, kind, Truth("stop", None, more=(whole,) if keep else (whole, short)), extras=0.2)


def no_wall(seed: int) -> Case:
    """One wall of a groove is not there, on one half or on both."""
    d = desk("h", seed, PLAIN)
    d.look = replace(d.look, lines=d.rng.choice(("split", "smooth")))
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)), share=0.4)
    g = d.rng.choice(d.part.outside())
    s = d.rng.choice((g.near, g.far))
    sides = d.rng.choice(((1,), (-1,), (1, -1)))
    x = d.place.at(s, 0)[0]
    walls = []
    for item in d.paper.ink:
        if (
            isinstance(item, Line)
            and item.role == "outline"
            and abs(item.a[0] - x) < 1e-9
            and abs(item.b[0] - x) < 1e-9
        ):
            ends = [item.a[1] - d.place.y, item.b[1] - d.place.y]
            if any(
                min(ends) * side > 0 and max(ends) * side > 0 and max(abs(e) for e in ends) > g.floor / 2 + 1e-6
                for side in sides
            ):
                walls.append(item)
    _without(d, walls)
    rings = tuple(d.place.at(s, side * r) for side in sides for r in (g.floor / 2, d.part.land(s) / 2))
    return finish(
        d, f"a groove's wall missing on {len(sides)} half", Truth("either", d.truth(), rings=rings), extras=0.2
    )


def overall_differs(seed: int) -> Case:
    """The printed overall length or diameter is not the drawn one."""
    d = desk("h", seed, PLAIN)
    d.main_view()
    part, rng, u = d.part, d.rng, d.paper.u
    by = rng.choice((1, -1, 2, 0.5, 5)) * u
    length = rng.random() < 0.6
    if length:
        shown, true = round(part.length + by, 6), part.length
        d.paper.overall(number(shown))
    else:
        index = rng.randrange(len(part.steps))
        end, true = part.steps[index]
        shown = round(true + by, 6)
        d.paper.outer(end - (part.chamfers[1] if end == part.length else 0.0), true, f"%%c{number(shown)}")
    for g in part.outside()[:1]:
        d.paper.to_groove(g, "front", up=True)
    what = "length" if length else "diameter"
    return finish(
        d,
        f"{what} {number(shown)} on {number(true)}",
        Truth("stop", facts=((shown, true),), more=(d.truth(),)),
        extras=0.3,
    )


def off_the_end(seed: int) -> Case:
    """The overall size is measured from a point off the outline, as after a face was moved and its size was not."""
    d = desk("h", seed, PLAIN)
    d.main_view()
    part, u = d.part, d.paper.u
    off = d.rng.choice((1.0, 1.5, 2.0)) * u
    tip = part.steps[0][1] / 2 - part.chamfers[0]
    d.paper.along(-off, tip, part.length, part.steps[-1][1] / 2 - part.chamfers[1])
    for g in part.outside()[:2]:
        d.paper.along(-off, tip, g.near, part.land(g.near) / 2)
    return finish(
        d,
        f"lengths start {number(off)} off the face",
        Truth("stop", facts=((part.length + off, part.length), (part.length + off,)), more=(d.truth(),)),
        extras=0.2,
    )


def ghost_line(seed: int) -> Case:
    """An outline whose other half has lost its whole groove to a straight line, with the floor's size still there."""
    d = desk("h", seed, PLAIN)
    part = d.part
    g = d.rng.choice(part.outside())
    d.show(outside(part, d.place, replace(d.look, hidden=False), part.with_groove(g, None)), None)
    d.paper.across((g.near + g.far) / 2, g.floor, (g.near + g.far) / 2)
    d.paper.along(g.near, part.land(g.near) / 2, g.far, part.land(g.near) / 2)
    return finish(d, "a groove drawn on one half, sized as a ring", Truth("stop", more=(d.truth(),)), extras=0.2)


sheet = in_turn(
    broken_record, broken_record, no_face, no_wall, overall_differs, off_the_end, ghost_line, no_face, step=3
)
