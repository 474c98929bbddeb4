"""Family k: the same kind of part drawn in every other way, all true: half views, blocks, half sections, upright."""

from dataclasses import replace

from support.ink import Block, Ink, Line, Path
from support.office.desk import Desk, desk, finish
from support.office.model import outer_half
from support.office.stock import Wish
from support.office.truth import Case, Truth, in_turn
from support.office.views import axis, loop, outside, section


def _usual(d: Desk, kind: str) -> Case:
    d.paper.usual_sizes(d.rng.choice(("front", "front", None)), share=0.6)
    return finish(d, kind, Truth("read", d.truth()), extras=0.4)


def mirrored(seed: int) -> Case:
    """One half as a block, put in place twice."""
    d = desk("k", seed)
    d.look = replace(d.look, lines="mirrored")
    d.main_view()
    return _usual(d, "a half as a block, mirrored")


def blocked(seed: int) -> Case:
    """The whole view in a block."""
    d = desk("k", seed)
    ink = outside(d.part, d.place, d.look)
    d.show([Block(tuple(ink), d.place.at(0, 0), d.place.at(0, 0))], d.truth())
    return _usual(d, "the view in a block")


def half_section(seed: int) -> Case:
    """Upper half cut, lower half from outside; the bore's groove shows in the cut half alone."""
    d = desk("k", seed, Wish(grooves=(1, 4), bore_groove=seed % 2 == 0, bore=True))
    d.show(section(d.part, d.place, d.look, lower_outside=True), d.truth())
    return _usual(d, "half section")


def full_section(seed: int) -> Case:
    """Nothing but a section."""
    d = desk("k", seed, Wish(grooves=(1, 4), bore_groove=seed % 2 == 0, bore=True))
    d.show(section(d.part, d.place, d.look), d.truth())
    return _usual(d, "section only")


def half_only(seed: int) -> Case:
    """The upper half alone over its centre line."""
    d = desk("k", seed, Wish(bore=False))
    part, place = d.part, d.place
    ink: list[Ink] = [place.piece(p, 1) for p in outer_half(part)]
    if d.rng.random() < 0.4:
        ink = [Path((*loop(part, place), loop(part, place)[0]))]
    else:
        for s, tip in ((0.0, outer_half(part)[0][0][1]), (part.length, outer_half(part)[-1][1][1])):
            ink.append(place.line(s, tip, s, 0))
    d.show([*ink, axis(part, place, d.look.axis)], d.truth())
    for g in part.outside()[:2]:
        d.paper.to_groove(g, "front", up=True)
    d.paper.overall()
    return finish(d, "half view", Truth("read", d.truth()), extras=0.0)


def upright(seed: int) -> Case:
    """The axis stands upright, the front at the top."""
    d = desk("k", seed, fronts=("top",))
    d.main_view()
    return _usual(d, "upright")


def unmarked(seed: int) -> Case:
    """The centre line is a plain line like all others, or is not drawn."""
    d = desk("k", seed, Wish(bore=False))
    ink = outside(d.part, d.place, replace(d.look, hidden=False))
    drop = d.rng.random() < 0.5
    kept = [replace(i, role="outline") if isinstance(i, Line) and i.role == "centre" else i for i in ink]
    if drop:
        kept = [i for i in ink if i.role != "centre"]
    d.show(kept, d.truth())
    d.paper.usual_sizes("front", share=0.8)
    for end, dia in d.part.steps[-1:]:
        d.paper.outer(end - d.part.chamfers[1], dia)
    return finish(d, "centre line " + ("missing" if drop else "plain"), Truth("either", d.truth()), extras=0.2)


def noisy(seed: int) -> Case:
    """Coordinates with the noise of rounded angles and conversions."""
    d = desk("k", seed)
    noise = d.rng.choice((1e-6, 1e-5, 2e-4)) * d.paper.u
    shift = lambda p: (p[0] + d.rng.uniform(-noise, noise), p[1] + d.rng.uniform(-noise, noise))  # noqa: E731
    ink = outside(d.part, d.place, replace(d.look, lines=d.rng.choice(("whole", "split", "smooth"))))
    d.show([Line(shift(i.a), shift(i.b), i.role) if isinstance(i, Line) else i for i in ink], d.truth())
    return _usual(d, f"noise of {noise:g}")


sheet = in_turn(mirrored, blocked, half_section, full_section, half_only, upright, unmarked, noisy, step=3)
