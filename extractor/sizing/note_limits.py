"""Tolerances in the notes at grooves, given to the grooves that a note speaks of, as a dimension's are.

Rules: a note speaks of the groove that it is tied to, or of as many like it as it counts; of all where it says so, or
names grooves without a count. Where two readings give a tolerance to different sizes, a count fits two sets of grooves,
or nothing ties the note to one, nobody can tell which is meant: that is a caution. Other limits than those that the
sheet also gives are a stop. The depth is radial: taken from another land than that of the groove's mouth, it is turned
into deviations of the floor's diameter, twice as large and, outside, the other way round.
"""

from collections.abc import Iterator, Sequence
from itertools import chain

from extractor.finding import Finding
from extractor.part import Deviation, Groove, Part
from extractor.sizing.groove_notes import GrooveNote, PrintedFigure
from extractor.sizing.like import same
from extractor.sizing.note_checks import (
    GROOVES,
    agrees_with,
    faults_of,
    kin_of,
    sizes_drawn,
    tolerance_unread,
)
from extractor.sizing.pointers import PointedNote, led
from extractor.sizing.said import SaidSoFar, is_shaft
from extractor.sizing.tolerance import Size, deviations_of
from extractor.sizing.unheard import beside

Sizes = tuple[tuple[str, PrintedFigure], ...]


def keep_limits(said: SaidSoFar, note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove]) -> Iterator[Finding]:
    """Keep the tolerances of a note that fits, and tell what of them is open or contradicts; `tied` as it stands."""
    grooves, limited = _spoken_of(note, sizes, tied, said) or ((), ())
    told = [_kept(said, note, groove, *one) for groove in grooves for one in limited]
    yield from chain.from_iterable(findings for findings in told if findings is not None)
    if sizes.bare and (note.tip is None or not tied) and beside(note.middle, said.features.part):
        tied = [g for g in said.features.part.grooves if _may_be_of(sizes, g, said.features.part)]
    if (grooves or tied or sizes.sure) and (None in told or len(limited) < sizes.limited):
        for groove in (*grooves, *tied):
            for name in _limited_names(sizes, groove, said.features.part):
                said.withhold([groove.id], "floor_diameter" if name == "across" else name)
        yield tolerance_unread(sizes.words, note.at)


def _limited_names(sizes: GrooveNote, groove: Groove, part: Part) -> set[str]:
    """The sizes of a groove that a note gives a tolerance, by every reading that fits it."""
    fit = [m for m in sizes.meanings if not faults_of(m, groove, part)]
    return {name for meaning in fit for name, figure in meaning.sizes if figure.limited is not None}


def _may_be_of(bare: GrooveNote, groove: Groove, part: Part) -> bool:
    """True if a bare size is one of a groove, or the distance of one of its walls from the front face."""
    name, figure = bare.meanings[0].sizes[0]
    if name == "across":
        return agrees_with(figure, groove.floor_diameter, part)
    places = [-z for z in (groove.z_near, groove.z_far) if groove.side.axial]
    return any(agrees_with(figure, place, part) for place in places) or any(
        not faults_of(meaning, groove, part) for meaning in bare.meanings
    )


def _spoken_of(
    note: PointedNote, sizes: GrooveNote, tied: Sequence[Groove], said: SaidSoFar
) -> tuple[tuple[Groove, ...], Sizes] | None:
    """The grooves that a note speaks of, and its sizes with tolerances; None if that is open."""
    part, counted = said.features.part, any(m.count is not None for m in sizes.meanings)
    every = sizes.every or (not counted and GROOVES.search(sizes.words.upper()) is not None)
    asked = part.grooves if every or (counted and not tied) else tied[: 1 if note.tip is not None else None]
    found: dict[tuple[int, ...], set[Sizes]] = {}
    for groove in asked:
        for meaning in (m for m in sizes.meanings if not faults_of(m, groove, part)):
            kin = kin_of(groove, [name for name, _ in meaning.sizes], part)
            own = next((k for k in kin if len(k) == meaning.count), [groove])
            limited = tuple(one for one in meaning.sizes if one[1].limited is not None)
            found.setdefault(tuple(g.id for g in own), set()).add(limited)
    readings = set().union(*found.values())
    if len(readings) != 1 or (len(found) > 1 and not every):
        return None
    return tuple(part.grooves[k - 1] for numbers in found for k in numbers), readings.pop()


def _kept(
    said: SaidSoFar, note: PointedNote, groove: Groove, name: str, figure: PrintedFigure
) -> tuple[Finding, ...] | None:
    """Keep one size's tolerance at one groove; None if it is applied to nothing, and findings on what contradicts."""
    assert figure.limited is not None
    part, scale = said.features.part, said.features.frame.scale
    drawn = next((size for size in sizes_drawn(name, groove, part) if agrees_with(figure, size, part)), None)
    if drawn is None:
        return None
    if name == "across" and not same(drawn, groove.floor_diameter):
        return ()
    field = "floor_diameter" if name == "across" or (name == "depth" and not same(drawn, groove.depth)) else name
    size = Size(true=drawn, feature=drawn, units=part.units, shaft=is_shaft(groove, field), scale=scale)
    pointer = led(note.words, note.tip or note.at, note.at)
    given, finding = deviations_of(figure.limited, pointer, size)
    if given is None:
        return (finding,) if finding is not None else None
    if name == "depth" and field != "depth":
        given = _as_floor(given, groove)
    against = said.twice(groove.id, field, given, pointer)
    if not against:
        said.keep(groove.id, field, given)
    return tuple(against)


def _as_floor(depth: Deviation, groove: Groove) -> Deviation:
    """Deviations of a radial depth as those of the floor's diameter."""
    low, high = (2.0 * one for one in depth)
    return (-high + 0.0, -low + 0.0) if groove.side.sign > 0 else (low, high)
