"""Ties the sheet's dimensions to the grooves they measure: tolerances and distances go in, contradictions come out.

Rules: what dimensions say comes first, then radius notes at corners, then what like grooves share. General tolerances
fill in last, marked: first the sizes that are printed, then those that nothing else settles. They limit the place of
a wall only where a dimension names that place.
"""

from dataclasses import replace
from functools import partial

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.limits import deviations, floors_given, overlap, with_deviations
from extractor.part import Deviation, Groove, Part
from extractor.sheet import Dimension, Sheet
from extractor.sizing import general
from extractor.sizing.chains import chain_findings
from extractor.sizing.corners import corner_tolerances
from extractor.sizing.details import heard_at_the_view
from extractor.sizing.doubt import doubt
from extractor.sizing.like import carry, carry_depths
from extractor.sizing.note_checks import note_findings
from extractor.sizing.note_limits import keep_limits
from extractor.sizing.off_outline import off_outline, said_length
from extractor.sizing.other_notes import angle_findings, other_findings
from extractor.sizing.pointers import led_sizes
from extractor.sizing.printed import parse
from extractor.sizing.running import running_sizes
from extractor.sizing.said import SaidSoFar
from extractor.sizing.ties import Features, at_view, tie_of
from extractor.sizing.unheard import unheard

ZONE = 3.0
"""A diameter at a leader is a size of what the leader points to if that is at most so many times as large."""
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
    heard, unlike = heard_at_the_view(sheet, features)
    sheet = replace(sheet, dimensions=heard)
    stated = general.called_up([t.text for t in (*sheet.texts, *sheet.around)])
    noted = stated[0] if len(stated) == 1 and (stated[0].tolerance_class or stated[0].uniform) else None
    said = SaidSoFar(features, noted)
    pointed = led_sizes(sheet)
    led = [(text, leader) for text, leader in pointed if _of_a_size(leader, features)]
    known = [text for text, _ in led]
    heard_too = (*(one for _, one in led), *running_sizes(sheet, features))
    own = {(d.text, d.at) for d in sheet.dimensions if d.at is not None and at_view(d, features)}
    said.dimensions(
        [*sheet.dimensions, *heard_too], [t for t in sheet.texts if t not in known and (t.text, t.at) not in own]
    )
    at_corners = (*sheet.dimensions, *(one for text, one in pointed if parse(text.text).sign == "radius"))
    corners, corner_findings = corner_tolerances(at_corners, sheet.texts, features)
    for number, deviation in corners.items():
        said.keep(number, "corner_radius", deviation)
    noted_here = list(note_findings(sheet, features, partial(keep_limits, said), said.withhold))
    findings = [*unlike, *said.findings, *corner_findings, *carry(part.grooves, said.given, said.sized)]
    findings += (
        *noted_here,
        *other_findings(sheet, features),
        *chain_findings(sheet, features),
        *off_outline(sheet, features),
        *said_length(sheet, features),
        *unheard(replace(sheet, dimensions=(*sheet.dimensions, *heard_too)), features),
    )
    findings += angle_findings(sheet.dimensions, features)
    carry_depths(part.grooves, said.sized)
    grooves = tuple(_toleranced(groove, said) for groove in part.grooves)
    findings += [odd for groove in grooves if (odd := _at_odds(groove, part)) is not None]
    if noted is not None:
        grooves = tuple(_general(g, noted, said, part.unit) for g in grooves)
        words = f"General tolerances {noted.words} stand for the sizes without a tolerance of their own."
        findings.append(Finding(Level.NOTE, DrawingCode.GENERAL_TOLERANCES, words))
    elif stated:
        words = (
            f"The sheet names general tolerances, {' and '.join(s.words for s in stated)}, of which nothing here tells "
            "which counts for a size: none was applied; ask which is meant."
        )
        findings.append(Finding(Level.CAUTION, DrawingCode.GENERAL_TOLERANCES, words))
    read = replace(part, grooves=grooves, distances=tuple(said.distances))
    doubted = None if any(f.stops for f in findings) else doubt(sheet, features)
    return read, tuple(dict.fromkeys((*findings, *([doubted] if doubted is not None else []))))


def _of_a_size(leader: Dimension, features: Features) -> bool:
    """True for a diameter led to one; a far smaller one is the zone of a tolerance of form (ISO 1101, from memory)."""
    tie, printed = tie_of(leader, features), parse(leader.text).size
    return tie is not None and printed is not None and tie.true <= ZONE * printed


def _toleranced(groove: Groove, said: SaidSoFar) -> Groove:
    """The groove with what was said of it."""
    given, classed = said.given.get(groove.id, {}), said.general.get(groove.id, set())
    groove = replace(groove, printed=frozenset(said.sized.get(groove.id, ())))
    groove = with_deviations(groove, {field: pair for field, pair in given.items() if field not in classed})
    return with_deviations(groove, {field: pair for field, pair in given.items() if field in classed}, "class")


def _at_odds(groove: Groove, part: Part) -> Finding | None:
    """The stop for a floor whose own tolerance and that of its depth have nothing in common."""
    firm = [one for one in floors_given(groove) if one.source == "dimension"]
    if len(firm) < 2 or overlap(firm) is not None or part.frame is None:
        return None
    spans = (sorted(groove.side.sign * end for end in (one.low, one.high)) for one in firm)
    floor, depth = (f"{low:.6g} to {high:.6g}" for low, high in spans)
    words = (
        f"The floor of groove {groove.id} may be {floor} by its own tolerance and {depth} by that of its depth: ask "
        "which is meant."
    )
    at = part.frame.on_sheet(groove.middle, groove.floor_diameter / 2)
    return Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at, groove=groove.id)


def _general(groove: Groove, noted: general.CallUp, said: SaidSoFar, unit: float) -> Groove:
    """The groove with general tolerances where nothing else settles a size; `unit`: its length in mm."""
    printed, unread = said.sized.get(groove.id, set()), said.unread.get(groove.id, set())
    settled_by = SETTLED_BY if groove.side.axial else SETTLED_BY_ON_FACES
    given: dict[str, Deviation] = dict(deviations(groove))
    first = [field for field in PRINTED_SIZES if field in printed]
    for field in (*first, *(f for f in SIZES[groove.where] if f not in printed)):
        others = () if field in printed else settled_by.get(field, ())
        if field in given or field in unread or any(fields <= given.keys() for fields in others):
            continue
        of_size = noted.radius if field == "corner_radius" else noted.linear
        deviation = of_size(getattr(groove, field), unit)
        if deviation is not None:
            given[field] = deviation
    return with_deviations(groove, given, "class")
