"""Tolerances in the notes at grooves, given to the grooves that a note speaks of, as a dimension's are.

Rules: a note speaks of the groove that it is tied to, or of as many like it as it counts; of all where it says so, or
names grooves without a count. Where two readings give a tolerance to different sizes, a count fits two sets of grooves,
or nothing ties the note to one, nobody can tell which is meant: that is a caution. Other limits than those that the
sheet also gives are a stop. The depth is radial: taken from another land than that of the groove's mouth, it is turned
into deviations of the floor's diameter, twice as large and, outside, the other way round.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

from extractor.finding import Finding
from extractor.late import late
from extractor.part import Groove
from extractor.remembered import remembered
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import GrooveNote, capitals, groove_note
from extractor.sizing.lettering.note_words import JOINED
from extractor.sizing.lettering.pointers import PointedNote, led
from extractor.sizing.lettering.pointers import said as said_at
from extractor.sizing.lettering.printed import Printed, is_finish
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import alike, along_axis, kin_of, same, sizes_drawn
from extractor.sizing.notes.note_checks import FIELDS
from extractor.sizing.notes.note_faults import faults_of, hold
from extractor.sizing.notes.note_findings import tolerance_unread
from extractor.sizing.notes.note_places import led_to
from extractor.sizing.remaining.unheard import sizes_of
from extractor.sizing.sentences.could_size import ABOUT_GROOVE, ACROSS, GROOVES, could_be
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.tolerances.tolerance import deviations_of, is_shaft

Sizes = tuple[tuple[str, Printed], ...]
OF_A_GROOVE = late(rf"{ABOUT_GROOVE.pattern}|{JOINED}")
"""A groove by its name, or the name of its size joined to it."""


def keep_limits(said: SaidSoFar, note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove]) -> Iterator[Finding]:
    """Keep the tolerances of a note that fits, and tell what of them is open or contradicts; `tied` as it stands.

    One bare size without a leader is no depth: it stood at a dimension line, most likely along the axis.
    """
    features, whole = said.features, sizes
    if sizes.bare and note.tip is None:
        flat = tuple(m for m in sizes.meanings if m.sizes[0][0] != "depth")
        sizes = replace(sizes, meanings=flat or sizes.meanings)
    grooves, limited = _spoken_of(note, sizes, tied, features) or ((), ())
    told = [_kept(said, note, groove, *one) for groove in grooves for one in limited]
    yield from chain.from_iterable(findings for findings in told if findings is not None)
    if sizes.bare and (note.tip is None or not tied) and features.beside(note.middle):
        tied = [g for g in features.part.grooves if _may_be_of(whole, g, features)]
    open_to = (
        grooves or tied or sizes.sure or _of_no_size(note, whole, features) or _of_two_sizes(note, whole, features)
    )
    if open_to and (None in told or len(limited) < sizes.limited):
        for groove in (*grooves, *tied) or features.part.grooves:
            fit = [m for m in whole.meanings if not faults_of(m, groove, features)]
            for name in {name for meaning in fit for name, figure in meaning.sizes if figure.limited}:
                said.withhold([groove.id], FIELDS.get(name, name))
        yield tolerance_unread(sizes.words, note.at)


def own_notes(sheet: Sheet, features: Features) -> frozenset[int]:
    """The grooves to each of which a note with two sizes or more is led that counts no others."""
    grooves = (led_to(note, features) for note in said_at(sheet, _of_one))
    return frozenset(groove.id for groove in grooves if groove is not None)


@remembered
def _of_one(words: str) -> bool:
    """True for words that size one groove and count none."""
    note = groove_note(words)
    return note is not None and not note.every and all(m.count is None and len(m.sizes) > 1 for m in note.meanings)


def _of_two_sizes(note: PointedNote, sizes: GrooveNote, features: Features) -> bool:
    """True for two sizes of one groove that nothing leads to: wherever they stand, their tolerance is that groove's."""
    whole = [m for m in sizes.meanings if len(m.sizes) > 1] if note.tip is None else []
    return any(not faults_of(m, groove, features) for groove in features.part.grooves for m in whole)


def _of_no_size(note: PointedNote, sizes: GrooveNote, features: Features) -> bool:
    """True for a tolerance beside the part at a size that the part has nowhere.

    A diameter may be that of a hole, and a roughness with its grade is no size.
    """
    figures = [(name, figure) for meaning in sizes.meanings for name, figure in meaning.sizes if figure.limited]
    limited = [(name, figure) for name, figure in figures if not is_finish(figure)]
    floors = [g.floor_diameter for g in features.part.grooves]
    hole = all(name == "across" and not could_be(figure.value, *floors, shares=ACROSS) for name, figure in limited)
    drawn = sizes_of(features) if features.beside(note.middle) and not hole else ()
    return bool(drawn) and not any(features.fits(figure, *drawn) for _, figure in limited)


def _may_be_of(bare: GrooveNote, groove: Groove, features: Features) -> bool:
    """True if a bare size is one of a groove, or the distance of one of its walls from the front face."""
    name, figure = bare.meanings[0].sizes[0]
    if name == "across":
        return features.fits(figure, groove.floor_diameter)
    places = [-z for z in (groove.z_near, groove.z_far) if groove.side.axial]
    return features.fits(figure, *places) or any(not faults_of(meaning, groove, features) for meaning in bare.meanings)


def _spoken_of(
    note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove], features: Features
) -> tuple[tuple[Groove, ...], Sizes] | None:
    """The grooves that a note speaks of, and its sizes with tolerances; None if that is open."""
    all_grooves, counted = features.part.grooves, any(m.count is not None for m in sizes.meanings)
    line = capitals(sizes.words)
    one_fits_all = not tied and OF_A_GROOVE.search(line) and not any(hold(sizes, g, features) for g in all_grooves)
    every = sizes.every or (not counted and bool(GROOVES.search(line) or one_fits_all))
    asked = all_grooves if every or (counted and not tied) else tied[: 1 if note.tip is not None else None]
    found: dict[tuple[int, ...], set[Sizes]] = {}
    for groove in asked:
        for meaning in (m for m in sizes.meanings if not faults_of(m, groove, features)):
            kin = kin_of(groove, [name for name, _ in meaning.sizes], features)
            own = next((k for k in kin if len(k) == meaning.count), [groove])
            limited = tuple(one for one in meaning.sizes if one[1].limited)
            found.setdefault(tuple(g.id for g in own), set()).add(limited)
    readings = set().union(*found.values())
    several = set[int]().union(*found)
    # Of readings that give the same to more grooves or fewer, those in all are meant in any case; like ones share it.
    sure = several if every else several.intersection(*map(set, found))
    shared = all(any(alike(all_grooves[k - 1], all_grooves[one - 1]) for one in sure) for k in several - sure)
    if len(readings) != 1 or not sure or not shared:
        return None
    return tuple(all_grooves[k - 1] for k in sorted(sure)), readings.pop()


def _kept(said: SaidSoFar, note: PointedNote, groove: Groove, name: str, figure: Printed) -> tuple[Finding, ...] | None:
    """Keep one size's tolerance at one groove; None if it is applied to nothing, and findings on what contradicts."""
    features, name = said.features, along_axis(groove) if name == "along" else name
    drawn = next((size for size in sizes_drawn(name, groove, features) if features.fits(figure, size)), None)
    if drawn is None or (name == "width" and not same(drawn, groove.width)):
        return None
    of_land = name == "across" and not same(drawn, groove.floor_diameter)
    if of_land or (name == "mouth_diameter" and groove.side.axial):
        return ()
    field = "floor_diameter" if name == "across" or (name == "depth" and not same(drawn, groove.depth)) else name
    pointer = led(note.words, note.tip or note.at, note.at)
    given, finding = deviations_of(figure, pointer, features.sized(drawn, drawn, shaft=is_shaft(groove, field)))
    if given is None:
        return (finding,) if finding is not None else None
    if name == "depth" and field != "depth":
        # The radial depth from another land, as the floor's diameter.
        low, high = (2.0 * one for one in given)
        given = (-high + 0.0, -low + 0.0) if groove.side.sign > 0 else (low, high)
    against = said.twice(groove.id, field, given, pointer)
    if not against:
        said.keep(groove.id, field, given)
    return tuple(against)
