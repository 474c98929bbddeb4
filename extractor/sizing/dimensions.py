"""Ties the sheet's dimensions to the grooves they measure: tolerances in, contradictions out.

Rules: the drawn geometry is the nominal; a dimension adds deviations or, where it prints another number, a stop. It
speaks for the groove it measures, for others only where its text counts them. General tolerances fill in last, marked.
"""

from collections.abc import Iterable
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.part import Deviation, Groove, Part, Units
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing import general
from extractor.sizing.corners import corner_tolerances
from extractor.sizing.doubt import doubt
from extractor.sizing.printed import Printed, parse
from extractor.sizing.ties import Places, Tie, tie_by_value, tie_of
from extractor.sizing.tolerance import agrees, deviations_of, unit_factor
from extractor.sizing.unit_evidence import INCH

SAME = 1e-4
"""Relative difference within which two grooves have one size."""
SHAFT_FIELDS = frozenset({"floor_diameter", "land_diameter", "mouth_diameter"})
SHARED_FIELDS = frozenset({"width", "floor_diameter", "depth", "corner_radius"})
"""Fields that one dimension can give to several grooves."""
GENERAL_FIELDS = ("width", "floor_diameter", "z_near")
SETTLED_BY: dict[str, tuple[set[str], ...]] = {
    "width": ({"width"}, {"z_near", "z_far"}),
    "floor_diameter": ({"floor_diameter"}, {"depth"}),
    "z_near": ({"z_near"}, {"z_far"}),
}
"""Sets of toleranced fields any of which leaves a field without a general tolerance: it is no size of its own then."""
LONGEST_NOTE = 40
"""Letters of a text that can be a dimension's."""

Tolerances = dict[int, dict[str, Deviation]]


def tie_dimensions(sheet: Sheet, part: Part) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the tolerances that the sheet gives to its grooves, and what the dimensions contradict."""
    if part.frame is None:
        return part, ()
    places = Places.of(part, part.frame)
    findings: list[Finding] = []
    tolerances: Tolerances = {}
    for dimension in sheet.dimensions:
        tie = tie_of(dimension, places)
        if tie is not None:
            findings += _judged(dimension, tie, part, tolerances)
    for text in sheet.texts:
        _read_note(text, part, places, tolerances)
    corners, corner_findings = corner_tolerances(sheet.dimensions, sheet.texts, places)
    findings += corner_findings
    for number, deviation in corners.items():
        tolerances.setdefault(number, {}).setdefault("corner_radius", deviation)
    grooves = tuple(replace(g, tolerances={**g.tolerances, **tolerances.get(g.id, {})}) for g in part.grooves)
    noted = general.called_up([t.text for t in (*sheet.texts, *sheet.around)])
    if noted is not None:
        grooves = tuple(_general(g, noted, part.units) for g in grooves)
        words = f"General tolerances {noted.words} stand for the sizes without a tolerance of their own."
        findings.append(Finding(Level.NOTE, DrawingCode.GENERAL_TOLERANCES, words))
    doubted = None if any(f.stops for f in findings) else doubt(sheet, part)
    return replace(part, grooves=grooves), (*findings, *([doubted] if doubted is not None else []))


def _read_note(text: Text, part: Part, places: Places, tolerances: Tolerances) -> None:
    """A bare text such as `Ø34 h11`, as exploded dimensions leave it: tied where only floors have that diameter."""
    printed = parse(text.text) if len(text.text) <= LONGEST_NOTE else Printed()
    if printed.sign != "diameter" or printed.size is None or printed.reference:
        return
    tie = tie_by_value(printed.size, places)
    if tie is not None:
        bare = Dimension(DimensionKind.LEADER, (text.at, text.at), 0.0, 0.0, text.text)
        given, _ = deviations_of(printed, bare, printed.size, part.units, shaft=True)
        for number in _meant(printed, tie, part) if given is not None else ():
            tolerances.setdefault(number, {}).setdefault("floor_diameter", given or (0.0, 0.0))


def _judged(dimension: Dimension, tie: Tie, part: Part, tolerances: Tolerances) -> Iterable[Finding]:
    """Hold one dimension against what it measures; its deviations go into `tolerances`."""
    printed = parse(dimension.text)
    if printed.sign in ("angle", "thread") or _not_its_size(printed, tie, dimension):
        return
    factor = unit_factor(printed, dimension, tie.true)
    if printed.sizes and not printed.measured and not _agrees(printed, tie, factor, part):
        yield _contradiction(dimension, printed, tie)
        return
    given, finding = deviations_of(printed, dimension, tie.true, part.units, shaft=tie.field in SHAFT_FIELDS)
    if finding is not None:
        yield finding
    if given is not None:
        for number in _meant(printed, tie, part):
            tolerances.setdefault(number, {}).setdefault(tie.field, given)
    yield from _count_caution(dimension, printed, tie, part)


def _meant(printed: Printed, tie: Tie, part: Part) -> tuple[int, ...]:
    """The groove a dimension measures, or all of that size where `4x` counts them or it is typical of them.

    A size tied by value alone to several grooves says of none which it means.
    """
    equal = _of_that_size(tie, part)
    if printed.typical or printed.count == len(equal) > 1:
        return equal
    return tie.grooves if len(tie.grooves) == 1 else ()


def _of_that_size(tie: Tie, part: Part) -> tuple[int, ...]:
    """Numbers of the grooves of one kind that share the size tied to the first; places are never shared."""
    if not tie.grooves or tie.field not in SHARED_FIELDS:
        return tie.grooves
    first = part.grooves[tie.grooves[0] - 1]
    value = getattr(first, tie.field)
    return tuple(g.id for g in part.grooves if g.where == first.where and _same(getattr(g, tie.field), value))


def _not_its_size(printed: Printed, tie: Tie, dimension: Dimension) -> bool:
    """True for a leader that names no diameter, or a radius text on a diameter and the like."""
    if dimension.kind is DimensionKind.LEADER:
        return printed.sign != "diameter"
    return printed.sign == "radius" and tie.field != "corner_radius"


def _agrees(printed: Printed, tie: Tie, factor: float, part: Part) -> bool:
    """True if the text prints the size, or half of it where only half a diameter is spanned."""
    halves = (tie.true, tie.true / 2) if tie.half and printed.sign != "diameter" else (tie.true,)
    scale = part.frame.scale if part.frame is not None else 1.0
    return any(agrees(printed, true, factor, part.units, scale) for true in halves)


def _contradiction(dimension: Dimension, printed: Printed, tie: Tie) -> Finding:
    """The stop, or for a dimension tied by value alone a caution."""
    feature = f"groove {tie.grooves[0]} " if tie.grooves else ""
    size = printed.size if printed.size is not None else printed.sizes[0]
    words = (
        f"A dimension prints {size:g} where the drawing measures {tie.true:.6g} "
        f"({feature}{tie.field.replace('_', ' ')}): ask which is meant."
    )
    level = Level.CAUTION if tie.loose else Level.STOP
    groove = tie.grooves[0] if tie.grooves else None
    return Finding(level, DrawingCode.DIMENSION_CONTRADICTS, words, at=_middle(dimension), groove=groove)


def _middle(dimension: Dimension) -> Point:
    """A place for a finding: half way between the measured points, or at a leader's tip."""
    if dimension.kind is DimensionKind.LEADER:
        return dimension.points[0]
    (ax, ay), (bx, by) = dimension.points[:2]
    return (ax + bx) / 2, (ay + by) / 2


def _count_caution(dimension: Dimension, printed: Printed, tie: Tie, part: Part) -> Iterable[Finding]:
    """A caution where `4x` stands before a size that another number of grooves have."""
    if printed.count < 2 or not tie.grooves or tie.field not in SHARED_FIELDS:
        return
    equal, first = len(_of_that_size(tie, part)), part.grooves[tie.grooves[0] - 1]
    if any(_same(printed.count, size) for size in (first.width, first.depth)):
        return  # `3 x 2` is width by depth
    if equal != printed.count:
        feature = tie.field.replace("_", " ")
        words = f"A dimension says {printed.count} times, but {equal} grooves of that {feature} were read."
        yield Finding(Level.CAUTION, DrawingCode.COUNT_DIFFERS, words, at=_middle(dimension), groove=tie.grooves[0])


def _same(a: float, b: float) -> bool:
    return abs(a - b) <= SAME * max(abs(a), abs(b))


def _general(groove: Groove, noted: general.CallUp, units: Units) -> Groove:
    """The groove with general tolerances where nothing else settles a size; the table is in mm."""
    unit = 1.0 if units == "mm" else INCH
    added: dict[str, Deviation] = {}
    for field in GENERAL_FIELDS:
        deviation = noted.linear(abs(getattr(groove, field)), unit)
        if deviation is not None and not any(others <= groove.tolerances.keys() for others in SETTLED_BY[field]):
            added[field] = deviation
    return replace(groove, tolerances={**groove.tolerances, **added}, general=frozenset(added))
