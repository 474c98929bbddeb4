"""Notes at grooves held against the grooves that they are tied to: by a leader's tip, else by where they stand.

Rules: a note with a reading that fits what is drawn raises nothing. One that fits in no reading is a stop with
both figures, and so is a count that no set of like grooves has. Depth is radial, below either land. Widths are held for
grooves with straight walls only: at others nobody can tell where the width is taken.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import DIAMETER, normalised
from extractor.part import Groove, Part
from extractor.sheet import Dimension, Sheet
from extractor.sizing.lettering import note_words
from extractor.sizing.lettering.corner_words import is_corner_note
from extractor.sizing.lettering.groove_notes import (
    LONGEST,
    GrooveNote,
    behind_words,
    capitals,
    groove_note,
    is_count,
    like_a_note,
    pitch_alone,
    without_item,
)
from extractor.sizing.lettering.note_figures import without_tolerances
from extractor.sizing.lettering.note_kinds import kinds_of
from extractor.sizing.lettering.note_meanings import WALLS, Meaning
from extractor.sizing.lettering.pointers import PointedNote, led, said_anywhere
from extractor.sizing.lettering.printed import TYPICAL, Printed, is_finish, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import steps
from extractor.sizing.measured.ties import middle, tie_alone, tie_of
from extractor.sizing.notes.callouts import Faults, called_out
from extractor.sizing.notes.count_notes import count_asked, of_count
from extractor.sizing.notes.dimension_notes import is_classed, understood
from extractor.sizing.notes.note_faults import COUNTS, counts_all, hold
from extractor.sizing.notes.note_findings import note_nowhere, note_stop, note_unread, tolerance_unread
from extractor.sizing.notes.note_places import led_to, on_part, tied_to, told_at
from extractor.sizing.notes.short_notes import in_short, is_short, may_be_short
from extractor.sizing.sentences import could_size
from extractor.sizing.sentences.broken_lines import with_sentences
from extractor.sizing.sentences.general import SIZES
from extractor.sizing.sentences.not_on_sheet import points_away

NAMED = re.compile(rf"\b{note_words.GROOVE}|\bPITCH\b|\d\s*(?:{note_words.WIDE}|{note_words.DEEP})")
"""What says of a text without a leader that it sizes the groove where it stands."""
OF_ONE = re.compile(rf"{note_words.JOINED}|^\W*\d+\s*[X×*]\s*\(")
"""A size by the name of a groove's, or how often what stands in brackets occurs."""
OF_GROOVES = re.compile(
    rf"{could_size.ABOUT_GROOVE.pattern}|{OF_ONE.pattern}|^\W*(?!{SIZES}\b)(?:{note_words.WIDE}|{note_words.DEEP})\W*(?:TOL\w*\W*)?[±+H0-]"
)
"""What says of a tolerance without a size that it is of grooves; those of all widths are general ones."""
HOLE = 3.0
"""A diameter is that of a hole if every floor's is more than so many times as large."""
ACROSS = re.compile(rf"{DIAMETER}|\b(?:FLOORS?|DURCHMESSER|GRUND|FONDS?|DIAMETR\w*)\b", re.I)
"""What names a floor or its diameter."""
UNSIGNED = re.compile(r"\W*\d+\s*Ø")
"""A width by a floor's diameter without a sign between them, or holes counted."""


def is_note(words: str) -> bool:
    """True for a text that may be a note at a groove; a place, a change, what points away is held by itself."""
    line = without_item(capitals(words))
    if any(form.fullmatch(line) for form in note_words.HELD_ALONE) or (
        groove_note(words) is None and points_away(words)
    ):
        return False
    if is_corner_note(words) and groove_note(words) is None:
        return False
    known = like_a_note(words) or is_count(words) or groove_note(words) is not None or called_out(words) is not None
    return known or of_tolerance(words) or could_size.strange(words) or is_short(words)


def _each_kind(note: PointedNote) -> Iterator[PointedNote]:
    """A note, or those that it is made of where it gives several kinds of grooves: they tell nothing of its place."""
    kinds = kinds_of(note.words)
    yield from (replace(note, words=words, tip=None, on_paper=True) for words in kinds) if kinds else (note,)


def _may_be_note(words: str) -> bool:
    """True for a note, or for one that is a note at a leader alone."""
    return is_note(words) or may_be_short(words)


def _behind_words(note: PointedNote, features: Features) -> GrooveNote | None:
    """A note led to a groove that it fits, behind words that nobody here knows."""
    groove = led_to(note, features) if behind_words(note.words) is not None else None
    return None if groove is None else understood(note.words, [groove], features)


def read_behind_words(sheet: Sheet, features: Features) -> set[str]:
    """The notes of which the sizes are read behind words that nobody here knows."""
    notes = said_anywhere(sheet, lambda words: behind_words(words) is not None)
    return {note.words for note in notes if _behind_words(note, features)}


def of_tolerance(words: str) -> bool:
    """True for words that give grooves a tolerance and no size: `ALL GROOVE WIDTHS +0.1 -0`."""
    line = note_words.ELSEWHERE.sub("", capitals(words))
    if len(line) > LONGEST or not (OF_GROOVES.search(line) and note_words.TOLERANCE_ALONE.search(line)):
        return False
    return re.search(r"\d", note_words.TOLERANCE_ALONE.sub("", without_tolerances(line))) is None


Keep = Callable[[PointedNote, GrooveNote, Sequence[Groove]], Iterable[Finding]]
"""Takes a note that fits and has tolerances, with the grooves that it is tied to."""
Withhold = Callable[[Iterable[int], str], None]
"""Takes numbers of grooves and a field of theirs whose tolerance is not applied."""
FIELDS = {"across": "floor_diameter", "pitch": "z_near"}
"""The field of a groove that a size is of, where its name is another."""


def note_findings(sheet: Sheet, features: Features, keep: Keep, withhold: Withhold) -> Iterator[Finding]:
    """What the notes of a sheet contradict on a part; the tolerances of others go to `keep`, or to `withhold`."""
    dimensioned = {d.text for d in sheet.dimensions if d.measured > 0}
    # Strokes beside the text of a dimension that was put together are its own, and no leader.
    placed = {(d.text, d.at) for d in sheet.dimensions if d.at is not None}
    whole = said_anywhere(with_sentences(sheet, lambda words: groove_note(words) is not None), _may_be_note)
    for note in chain.from_iterable(map(_each_kind, whole)):
        sizes = groove_note(note.words) or in_short(note, features) or _behind_words(note, features)
        bare = sizes is not None and (sizes.bare or is_classed(note.words, sizes, features.part.grooves, features))
        finish = sizes if is_finish(parse(note.words)) else None
        if finish is not None and all(hold(finish, g, features) for g in features.part.grooves):
            continue
        if note.words in dimensioned and (bare or note.tip is None or (note.words, note.at) in placed):
            continue
        if is_count(note.words):
            yield from of_count(note, features)
        elif not (bare and _is_dimension(note, features)):
            yield from _of_note(note, sizes, features, keep, withhold)
    for dimension in (d for d in sheet.dimensions if d.measured > 0 and d.text):
        words, groove = dimension.text or "", _of_more(dimension, features)
        if groove_note(words) is None and (groove or could_size.sizes_some(TYPICAL.sub(" ", words), features)):
            yield note_unread(normalised(words), middle(dimension), groove)
        yield from _of_a_row(dimension, features)


def _of_a_row(dimension: Dimension, features: Features) -> Iterator[Finding]:
    """The stop for a dimension from groove to groove with a pitch and a count that no row of them has."""
    sizes, tie = groove_note(dimension.text or ""), tie_of(dimension, features)
    if sizes is None or tie is None or tie.ends is None or pitch_alone(dimension.text or "") is None:
        return
    faults = [hold(sizes, groove, features) for groove in _about(sizes, features)]
    counts = [fault for fault in faults if fault and fault[0].startswith(COUNTS)]
    if counts and all(faults):
        yield note_stop(sizes.words, counts[0], None, middle(dimension))


def _of_more(dimension: Dimension, features: Features) -> Groove | None:
    """The groove of a dimension that prints, beside its size, a figure that may size it but does not, or None."""
    words, tie = dimension.text or "", tie_of(dimension, features)
    if tie is None or parse(words).unread or parse(words).count > 1:
        return None
    rest, grooves = without_tolerances(capitals(words)), [g for g in features.part.grooves if g.id in tie.grooves]
    measured = {features.fits(Printed.of(n), tie.true) for n in could_size.ANY_FIGURE.findall(rest)}
    told = (
        bool(grooves) and len(measured) > 1 and all(could_size.may_size(rest, groove, features) for groove in grooves)
    )
    return grooves[0] if told else None


def _is_dimension(note: PointedNote, features: Features) -> bool:
    """True for a bare diameter that is heard as a dimension is: by what its leader touches, or else by its value."""
    if parse(note.words).sign != "diameter":
        return False
    at_tip = tie_of(led(note.words, note.tip, note.at), features) if note.tip is not None else None
    return (at_tip or tie_alone(parse(note.words), features)) is not None


def _of_every(note: PointedNote, features: Features, withhold: Withhold) -> Iterator[Finding]:
    """The caution for a tolerance of the sizes of grooves that a note names, or of all: they get no general one."""
    line = capitals(note.words)
    forms = {"width": could_size.ABOUT_WIDTH, "depth": could_size.ABOUT_DEPTH, "floor_diameter": ACROSS}
    for field in [name for name, form in forms.items() if form.search(line)] or forms:
        withhold([g.id for g in features.part.grooves], field)
    yield tolerance_unread(normalised(note.words), note.tip or note.at)


def _of_note(
    note: PointedNote, sizes: GrooveNote | None, features: Features, keep: Keep, withhold: Withhold
) -> Iterator[Finding]:
    """What one note contradicts."""
    check, at, words = called_out(note.words), told_at(note, features), normalised(note.words)
    if of_tolerance(note.words):
        yield from _of_every(note, features, withhold)
        return
    grooves = tied_to(note, features, sure=check is not None or (sizes is not None and sizes.sure))
    pointed = note.tip is not None and not grooves and on_part(note.tip, features)
    if check is not None:
        yield from _of_callout(note, check, grooves, features)
    elif sizes is None or of_no_groove(sizes, features.part):
        worded = note.tip is not None or could_size.WORD.search(note.words) or NAMED.search(capitals(note.words))
        if grooves and worded and all(could_size.may_size(note.words, g, features) for g in grooves):
            yield note_unread(words, at, grooves[0])
        elif not grooves and note.tip is None and sizes is None and could_size.sizes_some(note.words, features):
            yield note_unread(words, at)
    elif not grooves and (other := _counted_otherwise(sizes, features)):
        yield Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, other, at)
    elif wrong := _wrong(note, sizes, grooves or _by_number(sizes, features), features):
        for name, _ in sizes.meanings[0].sizes if sizes.limited else ():
            withhold([g.id for g in grooves or features.part.grooves], FIELDS.get(name, name))
        yield note_stop(words, *wrong, at, limited=sizes.limited > 0)
    elif _fits_nothing(note, sizes, grooves, features):
        yield note_unread(words, at)
    elif pointed and sizes.sure and not (sizes.every or _of_several_that_fit(sizes, features)):
        yield note_nowhere(words, at)
    else:
        yield from keep(note, sizes, grooves) if sizes.limited else ()
        for groove in grooves[:1]:
            yield from count_asked(sizes, groove, features, at)


def _of_callout(note: PointedNote, check: Faults, grooves: Sequence[Groove], features: Features) -> Iterator[Finding]:
    """What the call-out of a standard groove, or of the ring in it, contradicts; a ring that stands free is a part."""
    at, words, line = note.tip or note.at, normalised(note.words), capitals(note.words)
    faults = [check(groove, features.part) for groove in grooves or features.part.grooves]
    if grooves and all(faults):
        yield note_stop(words, faults[0], grooves[0], at)
    elif not grooves and note.tip is not None and on_part(note.tip, features):
        yield note_nowhere(words, at)
    elif not grooves and all(faults) and (could_size.ABOUT_GROOVE.search(line) or note_words.UNDERCUT.search(line)):
        message = f'The note "{words}" fits no groove that was read: see which it asks for.'
        yield Finding(Level.CAUTION, DrawingCode.NOTE_WITHOUT_GROOVE, message, at)


def _of_several_that_fit(sizes: GrooveNote, features: Features) -> bool:
    """True for a note on several grooves that fits some: it may point to a land between them."""
    several = bool(could_size.GROOVES.search(capitals(sizes.words))) or any((m.count or 0) > 1 for m in sizes.meanings)
    return several and not all(hold(sizes, groove, features) for groove in features.part.grooves)


def _by_number(sizes: GrooveNote, features: Features) -> Sequence[Groove]:
    """The groove that a note names by its number, as counted from the front; none where it names none."""
    found = note_words.WHICH.match(capitals(sizes.words))
    number = int(found[1]) if found else 0
    return features.part.grooves[number - 1 : number] if number else ()


def _counted_otherwise(sizes: GrooveNote, features: Features) -> str:
    """In words that a note fits another groove than the one of its number, which there may not be; "" where not."""
    found, named = note_words.WHICH.match(capitals(sizes.words)), _by_number(sizes, features)
    if found is None or not all(hold(sizes, groove, features) for groove in named):
        return ""
    if all(hold(sizes, groove, features) for groove in features.part.grooves):
        return ""
    return (
        f'The note "{sizes.words}" does not fit groove {found[1]} as counted from the front, but another: see which it '
        "means."
    )


def _wrong(
    note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove], features: Features
) -> tuple[tuple[str, ...], Groove | None] | None:
    """What a note that gives sizes contradicts on the grooves that it is tied to, or on all, and on which."""
    grooves = _about(sizes, features) if sizes.every or not tied else tied
    faults = (_but_counted(note, hold(sizes, g, features)) for g in grooves)
    if sizes.every:
        return next(((odd, g) for odd, g in zip(faults, grooves, strict=True) if odd), None)
    # A tip beside the part is that of a stroke that begins at the text by chance, as a line of a table does.
    led = note.tip is not None and on_part(note.tip, features)
    at_none = led or not _of_all(sizes, over=_over(note, features))
    if (sizes.bare and note.tip is None) if tied else at_none:
        return None
    found = list(faults)
    if not found or not all(found) or (not tied and counts_all(sizes, features)):
        return None
    counts = [f for f in found if f[0].startswith(COUNTS)]
    if not tied:
        return (min(counts or found, key=len), None) if counts or sizes.sure else None
    return found[0], grooves[0]


def _but_counted(note: PointedNote, faults: tuple[str, ...]) -> tuple[str, ...]:
    """The faults of a note but for a count of its own leaders: `2x` with two of them means those, of three alike."""
    return tuple(f for f in faults if note.leaders == 1 or not f.startswith(f"{COUNTS} {note.leaders} "))


def _fits_nothing(note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove], features: Features) -> bool:
    """True for a size by the name of a groove's, one counted, or a width and a depth so, that no groove has.

    One may be meant all the same; the name may be that of a keyway.
    """
    first, grooves = sizes.meanings[0], _about(sizes, features)
    here = first.count is not None and (_over(note, features) or _with_floor(first))
    whole = len(first.sizes) > 1 and (sizes.sure or here)
    named = OF_ONE.search(capitals(note.words)) is not None or _of_pitch(sizes)
    counted = len(first.sizes) == 1 and first.count is not None and _over(note, features)
    if (
        note.tip is not None
        or tied
        or not (whole or named or counted)
        or not all(hold(sizes, g, features) for g in grooves)
    ):
        return False
    if whole or named:
        return any(
            could_size.may_size(note.words, g, features) or could_size.may_space(first, g, features) for g in grooves
        )
    return any(could_size.may_count(first, g, features) for g in grooves)


def _with_floor(meaning: Meaning) -> bool:
    """True for a width with the diameter of a floor, which nothing else has."""
    return {"width", "floor_diameter"} <= {name for name, _ in meaning.sizes}


def _about(note: GrooveNote, features: Features) -> Sequence[Groove]:
    """The grooves that a note which is tied to none may be about: on its side, of a pitch alone those that have one."""
    grooves = features.part.grooves
    own = [g for g in grooves if note.meanings[0].where in (None, g.where)] or grooves
    return [g for g in own if not _of_pitch(note) or steps(g, features)]


def _of_pitch(note: GrooveNote) -> bool:
    """True for a note that prints a pitch alone."""
    return all([name for name, _ in meaning.sizes] == ["pitch"] for meaning in note.meanings)


def of_no_groove(note: GrooveNote, part: Part) -> bool:
    """True if no groove of the part can have what a note prints: `40 x 60` is stock, `WIDTH 60` a part's own size.

    A note that names a groove, or its width and its depth, is held all the same: one of its figures is wrong then.
    """
    line = capitals(note.words)
    if could_size.ABOUT_GROOVE.search(line) or (
        could_size.ABOUT_WIDTH.search(line) and could_size.ABOUT_DEPTH.search(line)
    ):
        return False
    sizes = note.meanings[-1 if UNSIGNED.match(line) else 0].sizes
    if not sizes:
        return False
    name, figure = sizes[0]
    floors = [g.floor_diameter * part.unit for g in part.grooves]
    hole = name in WALLS and HOLE * figure.value < min(floors, default=0.0)
    return hole or all(_beyond(meaning, part) for meaning in note.meanings)


def _beyond(meaning: Meaning, part: Part) -> bool:
    """True in mm if grooves so wide are longer than the part, both figures reach its axis, or a floor none of it."""
    sizes = dict(meaning.sizes)
    width, depth, floor = (sizes[name].value if name in sizes else 0.0 for name in ("width", "depth", "floor_diameter"))
    across = part.outer_diameter * part.unit
    long = width * (meaning.count or 1) >= part.length * part.unit
    return long or min(width, depth) >= across / 2 or floor >= across


def _of_all(note: GrooveNote, *, over: bool) -> bool:
    """True for a note that stands at no groove and is about some all the same: it counts or names them."""
    first, line = note.meanings[0], capitals(note.words)
    named = {name for name, _ in first.sizes} & {"width", "depth", "pitch"}
    sized = bool(named) and (note_words.TURNED.search(line) is not None or (note.sure and _of_pitch(note)))
    typical = note.sure and TYPICAL.search(line) is not None
    counted = first.count is not None and (note.sure or over)
    return counted or sized or typical or could_size.GROOVES.search(line) is not None


def _over(note: PointedNote, features: Features) -> bool:
    """True for a note over or under the view, as a dimension's text is."""
    z, r = features.frame.on_part(note.middle)
    return -features.part.length <= z <= 0 and abs(r) <= 2 * features.part.outer_diameter
