"""Sizes that speak of several grooves, held against each that they can speak of: `4 TYP`, `GROOVES 4 WIDE`.

Rules: a size is typical by its words, or a note names grooves without a count, or their width or depth as such. It then
holds for every groove like one that has it, but for those that any other text gives a size of their own, or gives one
that is drawn alike. A groove is like another that differs from it in this size alone, and by less than one kind of
groove does from the next; what differs more is of another kind. A size beside one groove speaks of that alone.
"""

import math
from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import NUMBER, normalised
from extractor.late import late
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.sizing.lettering.groove_notes import GrooveNote, capitals, groove_note
from extractor.sizing.lettering.note_words import DEEP, GROOVE, JOINED, OF_THE, WHICH, WIDE
from extractor.sizing.lettering.pointers import PointedNote, said_anywhere
from extractor.sizing.lettering.printed import TYPICAL, Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import SETTLE, alike, same, sizes_drawn
from extractor.sizing.measured.ties import middle, tie_of
from extractor.sizing.notes.callouts import called_out
from extractor.sizing.notes.note_faults import NAMES, hold
from extractor.sizing.notes.note_findings import note_stop
from extractor.sizing.notes.note_places import tied_to
from extractor.sizing.remaining.unheard import BARE
from extractor.sizing.sentences.could_size import GROOVES
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.tolerances.tolerance import as_shown
from extractor.values import dataclass

NEAR = 0.19
"""Share of a size by which a groove of the same kind may be drawn off: of usual widths the next is a fifth less."""
BESIDES = {
    "width": (("floor_diameter", "depth"),),
    "floor_diameter": (("width",), ("mouth_diameter",)),
    "depth": (("width",),),
}
"""By size what else a groove of the same kind has alike: of each row one."""
OF_THEM = late(rf"\b(?:{WIDE}|{DEEP})\W*(?:(?:{OF_THE}|\s+)?{GROOVE})?\W*{NUMBER}|{JOINED}")
"""A width or a depth by its name before the figure: it is that of grooves as such."""


@dataclass(frozen=True, kw_only=True)
class _Speaks:
    """A size of one of some grooves that is said to be that of all like it; `note`: by a note, else by a dimension."""

    text: PointedNote | Dimension
    field: str
    figure: Printed
    grooves: Sequence[Groove]


def several_findings(sheet: Sheet, said: SaidSoFar, told: Sequence[Finding]) -> Iterator[Finding]:
    """A stop for each size that speaks of several grooves and does not hold for one; none for what was `told`."""
    features = said.features
    if len(features.part.grooves) < 2:
        return
    notes = said_anywhere(sheet, lambda words: groove_note(words) is not None or called_out(words) is not None)
    speaking = [*_of_dimensions(sheet, features), *(one for note in notes for one in _of_note(note, features))]
    for note in notes:
        yield from _of_likeness(note, features)
    stops = [finding.message for finding in told if finding.stops]
    for one in speaking:
        words = normalised(one.text.words if isinstance(one.text, PointedNote) else one.text.text or "")
        odd = None if any(f'"{words}"' in message for message in stops) else _unlike(one, sheet, notes, said)
        if odd is not None:
            yield _stop(one, words, odd)


def _stop(one: _Speaks, words: str, odd: Groove) -> Finding:
    """The stop for a size that does not hold for one groove."""
    name, drawn = NAMES.get(one.field, one.field), float(getattr(odd, one.field))
    if isinstance(one.text, PointedNote):
        fault = f"prints {name} {one.figure.value:g} where the drawing measures {drawn:.6g}"
        return note_stop(words, (fault,), odd, one.text.tip or one.text.at)
    message = (
        f'A dimension prints "{words}" for groove {one.grooves[0].id} and all like it, and the {name} of groove '
        f"{odd.id}, which has no size of its own, measures {drawn:.6g}: ask which is meant."
    )
    return Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, message, middle(one.text), groove=odd.id)


def _of_likeness(note: PointedNote, features: Features) -> Iterator[Finding]:
    """The stop for a note that says grooves are like one another which are not."""
    sizes, firsts = groove_note(note.words), {g.where: g for g in reversed(features.part.grooves)}
    unlike = ((firsts[g.where], g) for g in features.part.grooves if not alike(firsts[g.where], g))
    first, odd = next(unlike, (None, None)) if sizes is not None and sizes.alike else (None, None)
    if first is None or odd is None:
        return
    off = next((name for name in BESIDES if not same(getattr(first, name), getattr(odd, name))), "")
    drawn = [f"{getattr(g, off):.6g}" if off else g.shape for g in (first, odd)]
    told = f"groove {first.id} has the {NAMES.get(off, off) or 'shape'} {drawn[0]} and this {drawn[1]}"
    yield note_stop(normalised(note.words), (f"says that grooves are alike, and {told}",), odd, note.tip or note.at)


def _of_dimensions(sheet: Sheet, features: Features) -> Iterator[_Speaks]:
    """The dimensions, and leaders with a bare size, that print what they measure of grooves as typical."""
    for dimension in (d for d in sheet.dimensions if TYPICAL.search(normalised(d.text or ""))):
        if dimension.kind is DimensionKind.LEADER and groove_note(dimension.text or "") is not None:
            continue
        printed, tie = as_shown(parse(dimension.text), dimension), tie_of(dimension, features)
        if tie is None or tie.half or tie.field not in BESIDES:
            continue
        figure = Printed.of(f"{tie.true:.2f}") if printed.measured else printed
        kin = [g for g in features.part.grooves if features.fits(figure, *sizes_drawn(tie.field, g, features))]
        if features.fits(figure, tie.true) and not 1 < printed.count <= len(kin):
            grooves = [features.part.grooves[number - 1] for number in tie.grooves]
            yield _Speaks(text=dimension, field=tie.field, figure=figure, grooves=grooves)


def _of_note(note: PointedNote, features: Features) -> Iterator[_Speaks]:
    """The sizes of a note that speaks of several grooves, and those that have them."""
    sizes, line = groove_note(note.words), capitals(note.words)
    if sizes is None or WHICH.match(line) or any(m.count is not None for m in sizes.meanings[:1]):
        return
    tied = tied_to(note, features, sure=True)
    free = not tied and sizes.sure and OF_THEM.search(line) is not None
    if not (TYPICAL.search(line) or GROOVES.search(line) or free):
        return
    fit = [g for g in tied or features.part.grooves if not hold(sizes, g, features)]
    for name, figure in _sizes(sizes, fit, features):
        yield _Speaks(text=note, field=name, figure=figure, grooves=fit)


def _sizes(sizes: GrooveNote, fit: Sequence[Groove], features: Features) -> list[tuple[str, Printed]]:
    """The sizes of a note by field, as it is read at the first of the grooves that it fits."""
    for meaning in sizes.meanings if fit else ():
        named = [("floor_diameter" if name == "across" else name, figure) for name, figure in meaning.sizes]
        if all(features.fits(figure, *sizes_drawn(name, fit[0], features)) for name, figure in named):
            return [(name, figure) for name, figure in named if name in BESIDES]
    return []


def _unlike(one: _Speaks, sheet: Sheet, notes: Sequence[PointedNote], said: SaidSoFar) -> Groove | None:
    """The first groove that a size can speak of and that it does not fit, None for none."""
    features, field = said.features, one.field
    grooves = [g for g in features.part.grooves if g.side.axial]
    off = [g for g in grooves if not features.fits(one.figure, *sizes_drawn(field, g, features)) and _near(one, g)]
    off = [g for g in off if any(_of_one_kind(g, like, field) for like in one.grooves)]
    return next((g for g in off if not _has_own(g, field, sheet, notes, said)), None)


def _near(one: _Speaks, groove: Groove) -> bool:
    """True if a groove's size is near enough to that of another for the same to be meant; a floor's by its depth."""
    field = "depth" if one.field == "floor_diameter" else one.field
    return any(
        math.isclose(getattr(groove, field), getattr(like, field), rel_tol=0.0, abs_tol=NEAR * getattr(like, field))
        for like in one.grooves
    )


def _of_one_kind(one: Groove, other: Groove, field: str) -> bool:
    """True for two grooves that differ in one size alone."""
    rows = BESIDES[field]
    beside = all(any(same(getattr(one, name), getattr(other, name)) for name in names) for names in rows)
    return (one.where, one.shape) == (other.where, other.shape) and beside


def _has_own(groove: Groove, field: str, sheet: Sheet, notes: Sequence[PointedNote], said: SaidSoFar) -> bool:
    """True if a size of a groove, or of one drawn alike, stands anywhere on the sheet."""
    features, fields = said.features, {field, SETTLE.get(field, field)}
    kin = [g for g in features.part.grooves if alike(g, groove)]
    if any(fields & said.sized.get(g.id, set()) or g.id in features.called for g in kin):
        return True
    ends = {(at.groove, at.spot) for distance in said.distances for at in (distance.start, distance.end)}
    if field == "width" and any({(g.id, "near"), (g.id, "far")} <= ends for g in kin):
        return True
    drawn = [size for name in fields for size in sizes_drawn(name, groove, features)]
    noted = (groove_note(note.words) for note in notes)
    figures = [
        f for n in noted if n is not None for m in n.meanings for name, f in m.sizes if name in fields | {"across"}
    ]
    figures += [
        parse(t.text)
        for t in sheet.texts
        if BARE.fullmatch(normalised(t.text)) and (features.beside(t.at) or "." in t.text)
    ]
    if any(features.fits(figure, *drawn) for figure in figures if figure.sizes):
        return True
    standing = (tied_to(note, features, sure=True) for note in notes if called_out(note.words) is not None)
    return any(g.id == one.id for those in standing for one in those for g in kin)
