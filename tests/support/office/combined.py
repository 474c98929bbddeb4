"""Family j: full sheets with words, notes, sizes and second views; sound ones, and ones with a single fault."""

from dataclasses import replace

from support.ink import number
from support.office.desk import Desk, desk, dressed, finish
from support.office.fronts import CLAMP_WORDS, FRONT_WORDS, datum, word_at
from support.office.notes import measures, note_texts, tie
from support.office.place import OPPOSITE
from support.office.second import beside, cutting_plane, titled
from support.office.stock import Wish
from support.office.truth import Answer, Case, Truth, answer, in_turn
from support.office.views import outside, section

Fact = tuple[str | float, ...]


def _sheet(seed: int) -> Desk:
    return desk(
        "j",
        seed,
        Wish(grooves=(2, 5), bore_groove=seed % 3 == 0, plain=seed % 2 == 0),
        ("right", "right", "left", "left", "top", "bottom"),
        ("entity", "loose", "inline"),
    )


def _front_words(d: Desk) -> None:
    if d.rng.random() < 0.7:
        word_at(d, d.rng.choice(FRONT_WORDS), d.place.front)
    else:
        word_at(d, d.rng.choice(CLAMP_WORDS), OPPOSITE[d.place.front])
    if d.rng.random() < 0.3:
        datum(d)


def _sound_notes(d: Desk) -> None:
    plain = [g for g in d.part.outside() if g.shape == "rectangular"]
    for g in d.rng.sample(plain, min(len(plain), d.rng.choice((0, 1, 2)))):
        text, _ = d.rng.choice(note_texts(g, d.part, *measures(g, d.part)))
        tie(d, g, text, True)
        d.paper.above += 3 * d.paper.lane
        d.paper.below -= 3 * d.paper.lane


def _views(d: Desk) -> None:
    """The view from outside, and a section under it where the bore has something to show."""
    if not d.part.inside():
        d.main_view()
        return
    bare = replace(d.part, grooves=d.part.outside())
    d.show(outside(bare, d.place, d.look), d.truth())


def _section_below(d: Desk, part: object = None, reads: Answer | None = None) -> None:
    cut = section(d.part if part is None else part, beside(d, "under"), d.look)  # type: ignore[arg-type]
    d.show(cut, reads or d.truth())
    cutting_plane(d, "A")
    titled(d, cut, "SECTION A-A")


def sound(seed: int) -> Case:
    """All true."""
    d = _sheet(seed)
    _views(d)
    d.paper.usual_sizes(d.rng.choice(("front", "front", None)), share=0.6)
    _sound_notes(d)
    _front_words(d)
    if d.part.inside() or d.rng.random() < 0.3:
        _section_below(d)
    for _ in range(d.rng.choice((0, 1))):
        dressed(d)
    return finish(d, "all true", Truth("read", d.truth(), ("words",)), extras=0.5)


def _fault_note(d: Desk) -> tuple[Fact, ...]:
    g = d.rng.choice([g for g in d.part.outside() if g.shape == "rectangular"])
    w, depth = measures(g, d.part)
    shown = round(w + d.rng.choice((0.5, 1.0)) * d.paper.u, 6)
    tie(d, g, f"{number(shown)} WIDE x {number(depth)} DEEP", True)
    return ((shown, w),)


def _fault_overall(d: Desk) -> tuple[Fact, ...]:
    shown = round(d.part.length + d.rng.choice((1, -1, 3)) * d.paper.u, 6)
    d.paper.overall(number(shown))
    return ((shown, d.part.length),)


def _fault_words(d: Desk) -> tuple[Fact, ...]:
    first, second = d.rng.sample(("FRONT FACE", "Z0", "Planseite"), 2)
    word_at(d, first, d.place.front)
    word_at(d, second, OPPOSITE[d.place.front])
    return ((first, second),)


def _fault_width(d: Desk) -> tuple[Fact, ...]:
    g = d.rng.choice([g for g in d.part.outside() if g.shape == "rectangular"])
    shown = round(g.width + d.rng.choice((0.2, 0.5, 1.0)) * d.paper.u, 6)
    edge = d.part.land(g.near) / 2
    d.paper.along(g.near, -edge, g.far, -edge, number(shown), up=False)
    return ((shown, g.width),)


def _fault_place(d: Desk) -> tuple[Fact, ...]:
    g = d.rng.choice(d.part.outside())
    shown = round(g.near + d.rng.choice((0.5, 1.0, -1.0)) * d.paper.u, 6)
    d.paper.to_groove(g, "front", True, number(shown))
    return ((shown, g.near), (shown,))


FAULTS = (_fault_note, _fault_overall, _fault_words, _fault_width, _fault_place)


def faulty(seed: int) -> Case:
    """One thing on the sheet is not so."""
    d = _sheet(seed)
    if not any(g.shape == "rectangular" for g in d.part.outside()):
        return sound(seed)
    _views(d)
    fault = d.rng.choice(FAULTS)
    facts = fault(d)
    d.paper.above += 4 * d.paper.lane
    d.paper.usual_sizes(None, share=0.5)
    if fault is not _fault_words and d.rng.random() < 0.5:
        _front_words(d)
    if d.part.inside():
        _section_below(d)
    right = d.truth()
    kind = fault.__name__.removeprefix("_fault_")
    return finish(d, f"one fault: {kind}", Truth("stop", facts=facts, more=(right, right.turned())), extras=0.5)


def views_disagree(seed: int) -> Case:
    """The section shows one outside groove elsewhere, or of another floor, than the view from outside."""
    d = desk("j", seed, Wish(grooves=(2, 4), plain=True), ("right", "left"))
    word = d.rng.random() < 0.5
    seen = lambda a: a if word or a.front == "right" else a.turned()  # noqa: E731
    d.show(outside(d.part, d.place, d.look), seen(d.truth()))
    d.paper.usual_sizes(d.rng.choice((None, "front")), share=0.4)
    rng, u = d.rng, d.paper.u
    g = rng.choice(d.part.outside())
    if rng.random() < 0.5:
        other = replace(g, near=g.near + rng.choice((0.5, 1.0)) * u)
        facts: tuple[Fact, ...] = (
            (-g.near, -other.near),
            (g.near, other.near),
            (-g.far, -other.far),
            (g.far, other.far),
        )
    else:
        other = replace(g, floor=round(g.floor - rng.choice((0.4, 1.0)) * u, 6))
        facts = ((g.floor, other.floor), (g.floor / 2, other.floor / 2))
    second = d.part.with_groove(g, other)
    _section_below(d, second, seen(answer(second, d.place.front)))
    if word:
        word_at(d, "FRONT FACE", d.place.front)
    more = (d.truth(), d.truth().turned(), answer(second, d.place.front), answer(second, d.place.front).turned())
    return finish(d, "section and view differ at a groove", Truth("stop", facts=facts, more=more), extras=0.2)


sheet = in_turn(sound, faulty, sound, views_disagree, sound, faulty)
