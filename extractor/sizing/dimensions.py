"""Ties the sheet's dimensions to the grooves they measure: tolerances and distances go in, contradictions come out.

Rules: what dimensions say comes first, then radius notes at corners, then what like grooves share. General tolerances
fill in last, marked: first the sizes that are printed, then those that nothing else settles. They limit the place of
a wall only where a dimension names that place.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache, partial

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.late import late
from extractor.limits import deviations, floors_given, may_lack, overlap, with_deviations
from extractor.part import Groove, Part
from extractor.sheet import Dimension, Sheet, Text
from extractor.sizing.details.details import heard_at_the_view
from extractor.sizing.lettering.groove_notes import ONE, capitals
from extractor.sizing.lettering.note_words import WHICH
from extractor.sizing.lettering.pointers import led_sizes, middle_of
from extractor.sizing.lettering.pointers import said as notes_of
from extractor.sizing.lettering.printed import parse
from extractor.sizing.lettering.sheet_words import phrases
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import carry, carry_depths, carry_unread, kin_of, limited_in_part, listed
from extractor.sizing.measured.ties import at_view, tie_of
from extractor.sizing.notes.corners import corner_tolerances
from extractor.sizing.notes.flat_notes import flat_findings
from extractor.sizing.notes.groove_forms import form_findings
from extractor.sizing.notes.led_corners import led_corner_findings
from extractor.sizing.notes.led_words import led_words_findings
from extractor.sizing.notes.lettered_notes import lettered_findings
from extractor.sizing.notes.note_checks import note_findings
from extractor.sizing.notes.note_places import led_to
from extractor.sizing.notes.other_notes import angle_findings, on_another_side, other_findings
from extractor.sizing.remaining.in_step import step_findings
from extractor.sizing.remaining.lost_limits import lost_limits
from extractor.sizing.remaining.no_scale import drawn_only
from extractor.sizing.remaining.note_limits import keep_limits, own_notes
from extractor.sizing.remaining.of_several import several_findings
from extractor.sizing.remaining.unheard import BARE, unheard
from extractor.sizing.remaining.words_beside import words_findings
from extractor.sizing.sentences import general
from extractor.sizing.sentences.broken_lines import broken_notes
from extractor.sizing.sizes.bore_words import bore_words
from extractor.sizing.sizes.chains import chain_findings, sum_findings
from extractor.sizing.sizes.doubt import doubt
from extractor.sizing.sizes.end_circles import OTHER_SIZE, ties_at_circles
from extractor.sizing.sizes.hollow_stock import hollow_stock
from extractor.sizing.sizes.land_notes import land_findings
from extractor.sizing.sizes.named_sizes import named_sizes
from extractor.sizing.sizes.odd_signs import odd_signs
from extractor.sizing.sizes.off_outline import off_outline, torn_off
from extractor.sizing.sizes.running import odd_noughts, running_sizes
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.sizes.said_whole import said_whole
from extractor.sizing.sizes.stock import stock_findings
from extractor.sizing.tables.named_columns import with_named_columns
from extractor.sizing.tables.named_rows import with_named_rows
from extractor.sizing.tables.table_rows import groove_table
from extractor.sizing.tables.tolerance_tables import fit_rows, fits_findings, without_rows

SINGLE = late(rf"\b(?:{phrases('this_alone')})\b|{ONE.pattern}")
"""What says of a size that it is that of one groove (common practice, no source)."""
SIZES = {
    "outside": ("width", "floor_diameter"),
    "inside": ("width", "floor_diameter"),
    "face": ("mouth_diameter", "floor_diameter", "depth"),
}
"""Sizes that general tolerances stand for though no dimension prints them; of a face groove the two wall diameters."""
PRINTED_SIZES = ("width", "mouth_diameter", "floor_diameter", "depth", "corner_radius")
"""Sizes that they stand for where a dimension prints them."""
SETTLED_BY: dict[str, tuple[set[str], ...]] = {
    "width": ({"z_near", "z_far"},),
    "floor_diameter": ({"depth"},),
}
SETTLED_BY_ON_FACES: dict[str, tuple[set[str], ...]] = {
    "mouth_diameter": ({"width", "floor_diameter"},),
    "floor_diameter": ({"width", "mouth_diameter"},),
    "depth": ({"z_near"}, {"z_far"}),
}
"""Sets of toleranced fields any of which leaves an unprinted size without a general tolerance: they settle it."""


def tie_dimensions(sheet: Sheet, part: Part) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the tolerances that the sheet gives to its grooves, and what the dimensions contradict."""
    if part.frame is None:
        return part, ()
    features = Features.of(part)
    sheet, unlike = heard_at_the_view(sheet, features)
    features = replace(features, called=own_notes(sheet, features))
    rows = fit_rows(sheet)
    cells = {text for row in groove_table(sheet)[1] for text in row.texts}
    sheet, asked = with_named_rows(with_named_columns(sheet, cells), cells, features)
    texts = tuple(text for text in sheet.texts if text not in cells)
    sheet = replace(sheet, texts=without_rows(texts, [row for row in rows if row.called]))
    stated = general.called_up(sheet.everywhere)
    noted = stated[0] if len(stated) == 1 and stated[0].known else None
    said, heard_too, corner_findings = _hear(sheet, features, noted)
    whole = replace(sheet, dimensions=(*sheet.dimensions, *heard_too))
    noted_here = [
        *(finding for note in said.notes for finding in keep_limits(said, *note)),
        *note_findings(sheet, features, partial(keep_limits, said), said.withhold),
    ]
    findings = [
        *unlike,
        *asked,
        *said.findings,
        *fits_findings(rows, said),
        *corner_findings,
        *carry(features, said.given, _shared(sheet, said)),
        *limited_in_part(said.shared, said.given),
    ]
    noted_at = {f.at for f in noted_here}
    findings += (*noted_here, *_held(sheet, whole, features))
    findings += unheard(whole, features, noted_at)
    findings += words_findings(sheet.dimensions, said, tuple(findings))
    findings += lost_limits(sheet, whole.dimensions, said, tuple(findings))
    findings += several_findings(whole, said, tuple(findings))
    findings += step_findings(whole, said, tuple(findings))
    carry_unread(features, said.unread, said.sized)
    carry_depths(features, said.sized)
    grooves = tuple(_toleranced(groove, said) for groove in part.grooves)
    findings += [stop for groove in grooves for stop in _impossible(groove, features)]
    findings += drawn_only(sheet, grooves)
    if noted is not None:
        plain, grooves = grooves, tuple(_general(g, noted, said) for g in grooves)
        findings += _generally(noted, plain, grooves, said)
    elif stated:
        findings.append(_not_applied(stated))
    read = replace(part, grooves=grooves, distances=tuple(said.distances))
    doubted = None if any(f.stops for f in findings) else doubt(sheet, features)
    return read, tuple(dict.fromkeys((*findings, *([doubted] if doubted is not None else []))))


def _shared(sheet: Sheet, known: SaidSoFar) -> dict[int, set[str]]:
    """What is printed of each groove, but of those that words single out: theirs is no other's."""
    features = known.features
    led = (led_to(note, features) for note in notes_of(sheet, _singles_out))
    alone = {groove.id for groove in led if groove is not None}
    ties = (tie_of(d, features) for d in sheet.dimensions if _singles_out(d.text or ""))
    alone |= {number for tie in ties if tie is not None for number in tie.grooves}
    return {number: fields for number, fields in known.sized.items() if number not in alone}


def _singles_out(words: str) -> bool:
    """True for words that are about one groove and no other."""
    line = capitals(words)
    return SINGLE.search(line) is not None or WHICH.match(line) is not None


def _held(sheet: Sheet, whole: Sheet, features: Features) -> Iterator[Finding]:
    """What notes, chains and sizes beside the part contradict or leave open; `whole` has the loose sizes too."""
    yield from other_findings(sheet, features)
    yield from on_another_side(sheet, features)
    yield from form_findings(sheet, features)
    yield from flat_findings(sheet, features)
    yield from led_words_findings(sheet, features)
    yield from led_corner_findings(sheet, features)
    yield from lettered_findings(sheet, features)
    yield from chain_findings(sheet, features)
    yield from sum_findings(sheet, features)
    yield from odd_noughts(whole.dimensions, features)
    yield from odd_signs(sheet.dimensions, features)
    yield from off_outline(whole, features)
    yield from torn_off(whole, features)
    yield from named_sizes(sheet, features)
    yield from bore_words(sheet, features)
    yield from land_findings(sheet, features)
    yield from said_whole(sheet, features)
    yield from stock_findings(sheet, features)
    yield from hollow_stock(sheet, features)
    yield from angle_findings(sheet.dimensions, features)


def _hear(
    sheet: Sheet, features: Features, noted: general.CallUp | None
) -> tuple[SaidSoFar, tuple[Dimension, ...], tuple[Finding, ...]]:
    """What dimensions, loose sizes and notes of corners say; the loose sizes; and what corners contradict."""
    said, pointed = SaidSoFar(features, noted), led_sizes(sheet)
    at_ends = ties_at_circles(sheet, [*sheet.dimensions, *(leader for _, leader in pointed)], features)
    led = [(text, leader) for text, leader in pointed if leader in at_ends or _of_a_size(leader, features)]
    known = [text for text, _ in led]
    loose = (*(one for _, one in led), *running_sizes(sheet, features))
    own = {(d.text, d.at) for d in sheet.dimensions if d.at is not None and at_view(d, features)}
    halves = {half for d in sheet.dimensions if "^" in (d.text or "") for half in (d.text or "").split("^")}
    bare = [t for t in sheet.texts if t not in known and (t.text, t.at) not in own and t.text not in halves]
    said.dimensions([(d, at_ends.get(d) or tie_of(d, features)) for d in (*sheet.dimensions, *loose)], bare)
    if noted is not None and noted.by_places:
        _keep_loose_places(bare, said)
    at_corners = (*sheet.dimensions, *(one for text, one in pointed if parse(text.text).sign == "radius"))
    corners, findings = corner_tolerances(at_corners, (*sheet.everywhere, *broken_notes(sheet)), features)
    for number, deviation in corners.items():
        said.keep(number, "corner_radius", deviation)
    return said, loose, findings


def _keep_loose_places(texts: Sequence[Text], said: SaidSoFar) -> None:
    """Keep the decimals of bare sizes beside the part, if all agree, for what no dimension prints of grooves."""
    beside = [t for t in texts if BARE.fullmatch(normalised(t.text)) and said.features.beside(middle_of(t))]
    printed = [one for one in (parse(t.text) for t in beside) if not one.reference]
    fit = cache(lambda size: {p.decimals for p in printed if said.features.fits(p, size)})
    for groove in said.features.part.grooves:
        for field in set(SIZES[groove.where]) - said.sized.get(groove.id, set()):
            places = fit(float(getattr(groove, field)))
            if len(places) == 1:
                said.places.setdefault(groove.id, {})[field] = min(places)


def _not_applied(stated: Sequence[general.CallUp]) -> Finding:
    """The caution for general tolerances that are not read, or of which nobody can say which counts for a size."""
    several = len(stated) > 1
    words = (
        f"The sheet names general tolerances, {' and '.join(s.words for s in stated)}, "
        f"{'and nothing says which applies' if several else 'that are not read here'}: none was "
        f"applied; {'ask which is meant' if several else 'read them yourself'}."
    )
    return Finding(Level.CAUTION, DrawingCode.GENERAL_TOLERANCES, words)


def _of_a_size(leader: Dimension, features: Features) -> bool:
    """True for a diameter led to one; a far smaller one is the zone of a tolerance of form (ISO 1101, from memory)."""
    tie, printed = tie_of(leader, features), parse(leader.text).size
    return tie is not None and printed is not None and tie.true <= OTHER_SIZE * printed


def _toleranced(groove: Groove, said: SaidSoFar) -> Groove:
    """The groove with what was said of it."""
    given, classed = said.given.get(groove.id, {}), said.general.get(groove.id, set())
    printed = frozenset(said.sized.get(groove.id, ()))
    groove = groove if groove.printed == printed else replace(groove, printed=printed)
    groove = with_deviations(groove, {field: pair for field, pair in given.items() if field not in classed})
    return with_deviations(groove, {field: pair for field, pair in given.items() if field in classed}, "class")


def _impossible(groove: Groove, features: Features) -> Iterator[Finding]:
    """The stop for a floor whose own tolerance and that of its depth have nothing in common, or for limits of none."""
    firm = [one for one in floors_given(groove) if one.source == "dimension"]
    if len(firm) > 1 and overlap(firm) is None:
        spans = (sorted(groove.side.sign * end for end in (one.low, one.high)) for one in firm)
        floor, depth = (f"{low:.6g} to {high:.6g}" for low, high in spans)
        words = (
            f"The floor of groove {groove.id} may be {floor} by its own tolerance and {depth} by that of its depth: "
            "ask which is meant."
        )
    elif what := may_lack(groove):
        words = f"By its tolerance groove {groove.id} may have no {what} at all: ask which tolerance is meant."
    else:
        return
    at = features.frame.on_sheet(groove.middle, groove.floor_diameter / 2)
    yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at, groove=groove.id)


def _generally(
    noted: general.CallUp, grooves: Sequence[Groove], given: Sequence[Groove], said: SaidSoFar
) -> Iterator[Finding]:
    """What is to be said of general tolerances, from the grooves without them and with them."""
    sizes = "sizes printed with so many decimals" if noted.by_places else "sizes"
    if given != grooves or said.general or not noted.by_places:
        words = f"General tolerances {noted.words} stand for the {sizes} without a tolerance of their own."
        yield Finding(Level.NOTE, DrawingCode.GENERAL_TOLERANCES, words)
    left = [f"{f.replace('_', ' ')} of groove {g.id}" for g in given for f in _open_sizes(g, said)]
    if noted.by_places and (left or said.without_places):
        words = (
            f"General tolerances {noted.words} go by the decimals that a size is printed with, and tell nothing here "
            f"of the {listed([*left, *dict.fromkeys(said.without_places)])}: none was applied there; read it yourself."
        )
        yield Finding(Level.CAUTION, DrawingCode.GENERAL_TOLERANCES, words)


def _open_sizes(groove: Groove, said: SaidSoFar) -> list[str]:
    """The sizes of a groove that general tolerances may stand for, in their order; those that are printed first."""
    printed, unread = said.sized.get(groove.id, set()), said.unread.get(groove.id, set())
    settled_by = SETTLED_BY if groove.side.axial else SETTLED_BY_ON_FACES
    first = [field for field in PRINTED_SIZES if field in printed]
    given = deviations(groove).keys()
    return [
        field
        for field in (*first, *(f for f in SIZES[groove.where] if f not in printed))
        if field not in given and field not in unread
        if field in printed or not any(fields <= given for fields in settled_by.get(field, ()))
    ]


def _general(groove: Groove, noted: general.CallUp, said: SaidSoFar) -> Groove:
    """The groove with general tolerances where nothing else settles a size."""
    tried: set[str] = set()
    while field := next((f for f in _open_sizes(groove, said) if f not in tried), None):
        tried.add(field)
        of_size = noted.radius if field == "corner_radius" else noted.linear
        deviation = of_size(getattr(groove, field), said.features.part.unit, _places(groove, field, said))
        groove = groove if deviation is None else with_deviations(groove, {field: deviation}, "class")
    return groove


def _places(groove: Groove, field: str, said: SaidSoFar) -> int | None:
    """The decimals that a size of a groove is printed with, there or at those like it; None where they differ."""
    if field in said.sized.get(groove.id, ()):
        return said.places.get(groove.id, {}).get(field)
    _, kin, _ = kin_of(groove, [field], said.features)
    (places, *others) = {said.places.get(g.id, {}).get(field) for g in kin} - {None} or {None}
    return None if others else places
