"""Ties the sheet's dimensions to the grooves they measure: tolerances in, contradictions out.

Rules: the drawn geometry is the nominal; a dimension adds deviations or, where it prints another number, a stop. Equal
grooves are dimensioned once, as drawings do. General tolerances fill in last and are marked.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from extractor import general
from extractor.finding import Finding, Level, Point
from extractor.part import Deviation, Groove, Part, Units
from extractor.printed import Printed, parse
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.ties import Places, Tie, tie_of
from extractor.tolerance import agrees, deviations_of, unit_factor
from extractor.unit_evidence import INCH

SAME = 1e-4
"""Relative difference within which two grooves have one size."""
SHAFT_FIELDS = frozenset({"floor_diameter", "land_diameter", "mouth_diameter"})
SHARED_FIELDS = frozenset({"width", "floor_diameter", "depth", "corner_radius"})
"""Fields that one dimension can give to several grooves."""
GENERAL_FIELDS = ("width", "floor_diameter", "z_near")

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
    grooves = tuple(_with(g, tolerances, part.grooves) for g in part.grooves)
    noted = general.general_class([t.text for t in sheet.texts])
    if noted is not None:
        grooves = tuple(_general(g, noted, part.units) for g in grooves)
        words = f"General tolerances ISO 2768-{noted} stand for the sizes without a tolerance of their own."
        findings.append(Finding(Level.NOTE, "general-tolerances", words))
    return replace(part, grooves=grooves), tuple(findings)


def _judged(dimension: Dimension, tie: Tie, part: Part, tolerances: Tolerances) -> Iterable[Finding]:
    """Hold one dimension against what it measures; its deviations go into `tolerances`."""
    printed = parse(dimension.text)
    if printed.sign in ("angle", "thread") or _not_its_size(printed, tie, dimension):
        return
    factor = unit_factor(printed, dimension, tie.true)
    if printed.sizes and not printed.measured and not _agrees(printed, tie, factor, part.units):
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
    """The grooves a dimension speaks for: those tied, or all of that size where `4x` counts them or it is typical."""
    equal = _of_that_size(tie, part)
    return equal if printed.typical or printed.count == len(equal) > 1 else tie.grooves


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


def _agrees(printed: Printed, tie: Tie, factor: float, units: Units) -> bool:
    """True if the text prints the size, or half of it where only half a diameter is spanned."""
    halves = (tie.true, tie.true / 2) if tie.half and printed.sign != "diameter" else (tie.true,)
    return any(agrees(printed, true, factor, units) for true in halves)


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
    return Finding(level, "dimension-contradicts", words, at=_middle(dimension), groove=groove)


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
    equal = len(_of_that_size(tie, part))
    if equal != printed.count:
        feature = tie.field.replace("_", " ")
        words = f"A dimension says {printed.count} times, but {equal} grooves of that {feature} were read."
        yield Finding(Level.CAUTION, "count-differs", words, at=_middle(dimension), groove=tie.grooves[0])


def _same(a: float, b: float) -> bool:
    return abs(a - b) <= SAME * max(abs(a), abs(b))


def _with(groove: Groove, tolerances: Mapping[int, Mapping[str, Deviation]], grooves: Iterable[Groove]) -> Groove:
    """The groove with its own tolerances, and those of equal grooves where it has none."""
    found = dict(groove.tolerances)
    found.update(tolerances.get(groove.id, {}))
    for other in grooves:
        if other.id != groove.id and _equal(groove, other):
            shared = {k: v for k, v in tolerances.get(other.id, {}).items() if k not in ("z_near", "z_far")}
            found = shared | found
    return replace(groove, tolerances=found)


def _equal(a: Groove, b: Groove) -> bool:
    """True for grooves of one kind and size."""
    sizes = ("width", "floor_diameter", "mouth_diameter")
    return (a.where, a.shape) == (b.where, b.shape) and all(_same(getattr(a, s), getattr(b, s)) for s in sizes)


def _general(groove: Groove, tolerance_class: str, units: Units) -> Groove:
    """The groove with general tolerances where it has none of its own; the table is in mm."""
    unit = 1.0 if units == "mm" else INCH
    added: dict[str, Deviation] = {}
    for field in GENERAL_FIELDS:
        deviation = general.linear(abs(getattr(groove, field)) * unit, tolerance_class)
        if field not in groove.tolerances and deviation is not None:
            added[field] = (deviation[0] / unit, deviation[1] / unit)
    return replace(groove, tolerances={**groove.tolerances, **added}, general=frozenset(added))
