"""One sheet for a family, a kind of sheet and a number, with what is to be expected of a reader."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from support.second_hand import systems, views
from support.second_hand.families import FAMILIES
from support.second_hand.furniture import Dimensions, marks_on, title_block
from support.second_hand.lathe import Recess, TurnedPart
from support.second_hand.marks import VISIBLE, Dim, Line, Mark, Note, Place, box, placed
from support.second_hand.negatives import assembly, flat_part
from support.second_hand.rawdxf import Tag, write

READ, REFUSE, EITHER = "read", "refuse", "either"


@dataclass(frozen=True)
class Case:
    """A drawing with its truth: `options` for the reader, `expect` read, refuse or either (never a wrong reading).

    `given`: the deviations that dimensions give, by number of the recess in the part and name of the size.
    """

    name: str
    data: bytes
    part: TurnedPart | None
    expect: str = READ
    options: dict[str, object] = field(default_factory=dict)
    tolerance: float = 0.002
    given: dict[tuple[int, str], tuple[float, float]] = field(default_factory=dict)


@dataclass
class Draft:
    """What a sheet maker hands back: views already in place, and what differs from the usual."""

    views: list[list[Mark]]
    part: TurnedPart | None
    expect: str = READ
    options: dict[str, object] = field(default_factory=dict)
    notes: list[Mark] = field(default_factory=list)
    scale: str = "1:1"
    spoken: str = "auto"
    factor: float = 1.0
    dimensioned: Place | None = field(default_factory=Place)
    tell: bool = False


Source = random.Random
Maker = Callable[[Source, TurnedPart, float], Draft]


def scaled(part: TurnedPart, factor: float, units: str) -> TurnedPart:
    """All lengths times a factor, in other units."""

    def row(points: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
        return tuple((z * factor, r * factor) for z, r in points)

    recesses = tuple(
        replace(
            r,
            near=r.near * factor,
            far=r.far * factor,
            mouth=r.mouth * factor,
            floor=r.floor * factor,
            radius=r.radius * factor,
        )
        for r in part.recesses
    )
    extras = tuple(
        replace(e, near=e.near * factor, far=e.far * factor, size=e.size * factor, radius=e.radius * factor)
        for e in part.extras
    )
    return replace(part, outside=row(part.outside), bore=row(part.bore), recesses=recesses, extras=extras, units=units)


def turned_round(part: TurnedPart) -> TurnedPart:
    """The truth where the other end counts as the front face (contours stay as they are)."""
    length = part.length

    def swap(r: Recess) -> Recess:
        return replace(r, near=-length - r.far, far=-length - r.near)

    return replace(part, recesses=tuple(swap(r) for r in part.recesses))


def beside(part: TurnedPart, unit: float) -> tuple[float, float]:
    """How far a second view must be shifted right of, and under, the first."""
    return part.diameter / 2 + 25 * unit, part.diameter + 20 * unit


def front_end(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Front view with an end view beside it."""
    across, _ = beside(part, unit)
    front = views.front_view(part, merged=rng.random() < 0.6)
    end = placed(views.end_view(part), Place((across, 0.0)))
    return Draft([front, end] if rng.random() < 0.8 else [front], part)


def full_section(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Section A-A, with the end view that shows the cut."""
    across, _ = beside(part, unit)
    end = placed(views.end_view(part), Place((across, 0.0)))
    note = Note((-part.length / 2, part.diameter / 2 + 12 * unit), 1.6 * unit, "A-A", role="text")
    return Draft([views.section(part), end], part, notes=[note])


def half_section(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Half section."""
    return Draft([views.half_section(part)], part)


def front_and_section(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Front view, full section under it, end view."""
    across, under = beside(part, unit)
    section = placed(views.section(part), Place((0.0, -under)))
    end = placed(views.end_view(part), Place((across, 0.0)))
    return Draft([views.front_view(part), section, end], part)


def with_detail(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Front view and one groove enlarged."""
    if not part.recesses:
        return front_end(rng, part, unit)
    recess, factor = rng.choice(part.recesses), rng.choice((2.0, 5.0, 10.0))
    high = box(views.detail(part, recess, factor))[3]
    if high > 60 * unit:
        factor, high = 2.0, high * 2 / factor
    across, under = beside(part, unit)
    where = (-part.length / 2, -under / 2 - high - 10 * unit) if rng.random() < 0.5 else (across + high, 0.0)
    enlarged = placed(views.detail(part, recess, factor), Place(where))
    low = box(enlarged)[3]
    note = Note(
        (where[0], low + 2 * unit), 1.6 * unit, rng.choice(("X ({:g}:1)", "DETAIL X {:g}:1", "Z {:g}:1")).format(factor)
    )
    view = views.section(part) if recess.where == "inside" else views.front_view(part)
    return Draft([view, enlarged], part, notes=[note])


def half_view(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Only the upper half is drawn."""
    return Draft([views.half_view(part, rng.random() < 0.5)], part)


def upright(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """The part stands, its front face up."""
    place = Place(turn=90.0)
    return Draft([placed(views.front_view(part), place)], part, dimensioned=place)


def mirrored(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """The front face lies to the left; half of the time the reader is told."""
    place = Place(mirror=True)
    view = placed(views.front_view(part), place)
    if rng.random() < 0.5:
        return Draft([view], part, options={"front": "left"}, dimensioned=place)
    return Draft([view], turned_round(part), dimensioned=place)


def broken(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """A long shaft with a piece left out: only its dimensions tell the length."""
    cut = rng.uniform(0.3, 0.7)
    view = views.broken(part, cut, rng.choice(("wavy", "zigzag", "line")))
    if view is None:
        return front_end(rng, part, unit)
    x0 = min(m.a[0] for m in view if isinstance(m, Line) and m.role == VISIBLE)
    line = (0.0, -part.diameter / 2 - 5 * unit)
    told = Dim((x0, -part.outside[-2][1]), (0.0, -part.outside[1][1]), line, 0.0, part.length, f"{part.length:g}")
    return Draft([view], part, EITHER, notes=[told] if rng.random() < 0.8 else [], dimensioned=None)


def sheet_scale(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Drawn at 1:2, 1:5, 2:1 or 5:1; the dimensions tell true size."""
    shown, word = rng.choice(((0.5, "1:2"), (0.2, "1:5"), (2.0, "2:1"), (5.0, "5:1")))
    place = Place(scale=shown)
    spoken = rng.choice(("auto", "lettered"))
    told = rng.random() < 0.5
    options: dict[str, object] = {"scale": shown} if told else {}
    return Draft(
        [placed(views.front_view(part), place)],
        part,
        READ if told else EITHER,
        options,
        scale=word,
        spoken=spoken,
        factor=1 / shown,
        dimensioned=place,
    )


def two_parts(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Two different parts on one sheet."""
    other = FAMILIES[rng.choice(("ring_shaft", "alternating", "seal_piston"))](rng)
    if part.units == "in":
        other = scaled(other, 1 / 32, "in")
    under = (part.diameter + other.diameter) / 2 + 30 * unit
    second = placed(views.front_view(other), Place((0.0, -under)))
    return Draft([views.front_view(part), second], None, REFUSE, dimensioned=None)


def an_assembly(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """The part with other parts on it: bushes, discs, a housing."""
    return Draft([assembly(rng, part)], None, REFUSE, dimensioned=None)


def flat(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """A plate, a bracket, a sheet-metal blank: no turned part."""
    return Draft([flat_part(rng, part.diameter)], None, REFUSE, dimensioned=None)


def kernel_views(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """Front, top, end and isometric view of the true solid."""
    from support.second_hand import kernel

    body = kernel.solid(part)
    across, under = beside(part, unit)
    with_hidden = rng.random() < 0.6
    front = [*kernel.project(body, kernel.FRONT, with_hidden), views.centre_line(part)]
    made = [front]
    if rng.random() < 0.7:
        made.append(placed(kernel.project(body, kernel.END, False), Place((across, 0.0))))
    if rng.random() < 0.5:
        top = [*kernel.project(body, kernel.TOP, with_hidden), views.centre_line(part)]
        made.append(placed(top, Place((0.0, -under))))
    if rng.random() < 0.6:
        made.append(placed(kernel.project(body, kernel.ISO, False), Place((across + part.length, -under))))
    return Draft(made, part if with_hidden else outside_only(part))


def outside_only(part: TurnedPart) -> TurnedPart:
    """The truth of a sheet that shows neither bore nor face grooves in the side view."""
    return replace(part, recesses=tuple(r for r in part.recesses if r.where == "outside"))


def kernel_section(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """The true solid cut in half, its cut faces hatched."""
    from support.second_hand import kernel
    from support.second_hand.marks import Fill

    half = kernel.halved(kernel.solid(part), part)
    fill = Fill(views.cut_face(part))
    whole = [*kernel.project(half, kernel.FRONT, False), views.centre_line(part)]
    whole += [fill, *views.below([fill])] if not part.extras else []
    across, _ = beside(part, unit)
    return Draft([whole, placed(views.end_view(part), Place((across, 0.0)))], part)


def kernel_half(rng: Source, part: TurnedPart, unit: float) -> Draft:
    """The true solid with a quarter cut away."""
    from support.second_hand import kernel
    from support.second_hand.marks import Fill

    quarter = kernel.halved(kernel.solid(part), part, quarter=True)
    marks = [*kernel.project(quarter, kernel.FRONT, rng.random() < 0.3), views.centre_line(part)]
    return Draft([marks + ([Fill(views.cut_face(part))] if not part.extras else [])], part)


SHEETS: dict[str, Maker] = {
    "front_end": front_end,
    "full_section": full_section,
    "half_section": half_section,
    "front_and_section": front_and_section,
    "with_detail": with_detail,
    "half_view": half_view,
    "upright": upright,
    "mirrored": mirrored,
    "broken": broken,
    "sheet_scale": sheet_scale,
    "two_parts": two_parts,
    "assembly": an_assembly,
    "flat": flat,
    "kernel_views": kernel_views,
    "kernel_section": kernel_section,
    "kernel_half": kernel_half,
}


def header(rng: Source, units: str) -> tuple[tuple[Tag, ...], str]:
    """Header tags for the units, and how far they can be trusted: good, none, wrong."""
    code, other = (4, 1) if units == "mm" else (1, 4)
    kind = rng.choice(("good",) * 6 + ("none", "zero", "metre", "wrong"))
    value = {"good": code, "zero": 0, "metre": 6, "wrong": other}.get(kind)
    tags: list[Tag] = [(9, "$EXTMIN"), (10, 0.0), (20, 0.0), (30, 0.0)] if rng.random() < 0.3 else []
    if value is not None:
        tags += [(9, "$INSUNITS"), (70, value)]
    if rng.random() < 0.5:
        tags += [(9, "$MEASUREMENT"), (70, 1 if units == "mm" else 0)]
    if rng.random() < 0.3:
        tags += [(9, "$DIMSCALE"), (40, 1.0), (9, "$LTSCALE"), (40, rng.choice((1.0, 10.0, 25.4)))]
    return tuple(tags), kind


Given = dict[tuple[int, str], tuple[float, float]]


def renumbered(given: Given, part: TurnedPart, shown: TurnedPart | None) -> Given:
    """The deviations by number in the part that the sheet shows, which may lack some recesses."""
    if shown is None or len(shown.recesses) == len(part.recesses):
        return given
    kept = {shown.recesses.index(r): k for k, r in enumerate(part.recesses) if r in shown.recesses}
    return {(new, name): given[old, name] for new, old in kept.items() for name in FIELDS if (old, name) in given}


FIELDS = ("width", "floor_diameter")

Tweak = Callable[[systems.System], systems.System]


def make(
    family: str, sheet: str, number: int, tweak: Tweak | None = None, lettered: bool = True, framed: bool = True
) -> Case:
    """The case of a family on a kind of sheet; the same number gives the same bytes.

    `tweak` changes the system, `lettered` False leaves dimensions out, `framed` False the title block.
    """
    rng = random.Random(f"{family}/{sheet}/{number}")
    part = FAMILIES[family](rng)
    inch = rng.random() < 0.15
    if inch:
        part = scaled(part, 1 / 32, "in")
    unit = max(part.diameter, part.length) / 40
    draft = SHEETS[sheet](rng, part, unit)
    tags, trust = header(rng, part.units)
    system = systems.random_system(rng, tags)
    if tweak:
        system = tweak(system)
    around: list[Mark] = list(draft.notes)
    given: Given = {}
    if draft.dimensioned and rng.random() < (0.7 if sheet != "sheet_scale" else 2.0):
        spoken = draft.spoken if sheet == "sheet_scale" else rng.choice(("auto", "auto", "lettered"))
        maker = Dimensions(rng, part, draft.factor, spoken)
        dims = placed(maker.all(unit), draft.dimensioned)
        around += dims if lettered else []
        given = renumbered(maker.given, part, draft.part) if lettered else {}
    if draft.dimensioned and rng.random() < 0.4:
        dressed = placed(marks_on(rng, part, unit), draft.dimensioned)
        around += dressed if lettered else []
    tell = (trust != "good" and rng.random() < 0.7) or rng.random() < 0.3
    if rng.random() < 0.6 or tell:
        # A cramped sheet has its border laid round the views alone, across whatever stands beside them.
        cramped = random.Random(f"border/{family}/{sheet}/{number}").random() < 0.08
        area = box([*(m for v in draft.views for m in v), *([] if cramped else around)])
        word = "mm" if part.units == "mm" else rng.choice(("INCHES", "inches"))
        block = title_block(rng, area, unit, draft.scale, word, tell)
        around += block if framed else []
    expect, options = draft.expect, dict(draft.options)
    if expect == READ and trust != "good":
        if rng.random() < 0.5:
            options["units"] = part.units
        else:
            expect = EITHER
    place = Place((round(rng.uniform(-50, 300), rng.choice((0, 3))), round(rng.uniform(-50, 300), 2)))
    shifted = [placed(v, place) for v in draft.views]
    drawn = unit / draft.factor if sheet == "sheet_scale" else unit
    doc = systems.document(system, shifted, placed(around, place), drawn)
    rough = 0.02 if system.curves == "chords" or system.spelling.digits == "{:.4f}" else 0.002
    size = 1.0 if part.units == "mm" else 1 / 25.4
    name = f"{family}/{sheet}/{number}"
    return Case(name, write(doc, system.spelling), draft.part, expect, options, rough * size, given)
