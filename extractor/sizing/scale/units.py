"""Millimetres or inches, and at which scale: all the evidence on the sheet is weighed together.

Rules: what the user says settles it. An outright statement with nothing against it is enough; one against the balance,
or a lead too small, is a conflict; nothing but likelihood is no answer. Weights: `unit_evidence`.
"""

from collections.abc import Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import ReadOptions, Units
from extractor.sheet import Dimension, Sheet
from extractor.sizing.scale.sheet_scale import drawn_scale, scale_overridden, sizes_at
from extractor.sizing.scale.unit_evidence import Vote, other_unit, votes
from extractor.values import dataclass

OUTRIGHT = 3.0
"""Weight from which a vote is a statement."""
ENOUGH = 2.0
"""Weight that written evidence must reach where the header says nothing."""
LEAD = 1.5
"""Weight by which one unit must lead."""
EXPLICIT = 4.0
"""Weight of a note that says what all sizes are in."""
PLAIN_LEAD = 3.0
"""Weight by which the header's unit must lead for nothing to be said of a habit of the other one."""
LEAST_LEAD = 0.5
"""Weight by which such a note must lead: against hints alone it is not asked about."""

HEADER_WORDS = {None: "names no unit", 0: "names no unit", 6: "says metre (a library's default)", 5: "says centimetre"}


@dataclass(frozen=True)
class UnitsAnswer:
    """Units (None where the drawing doesn't say), drawn length of one true unit, and what there is to say about it."""

    units: Units | None
    scale: float
    findings: tuple[Finding, ...] = ()


def weigh_units(
    sheet: Sheet,
    diameter_drawn: float,
    options: ReadOptions,
    dimensions: Sequence[Dimension],
    headed: float | None = None,
) -> UnitsAnswer:
    """Weigh units and sheet scale of the view that is `diameter_drawn` across as drawn.

    `dimensions` are those that belong to the view, `headed` is the scale in its own heading.
    """
    scale, scale_findings = drawn_scale(sheet, dimensions, diameter_drawn, headed)
    if options.scale:
        agree = sizes_at(scale, dimensions)
        scale, scale_findings = options.scale, scale_overridden(options.scale, scale, scale_findings, agree)
    across = diameter_drawn / scale
    cast = votes(sheet, dimensions, across, scale)
    if options.units is not None:
        return UnitsAnswer(options.units, scale, (*scale_findings, *_against(options.units, cast)))
    if odd := other_unit(text.text for text in sheet.everywhere):
        words = f'A note says "{odd}", a unit that is not read here: {question(across)}'
        stop = Finding(Level.STOP, DrawingCode.UNITS_CONFLICT, words)
        return UnitsAnswer(None, scale, (*scale_findings, stop))
    units, finding = decide(cast, across, sheet.insunits)
    return UnitsAnswer(units, scale, (*scale_findings, *([finding] if finding else [])))


def question(across: float) -> str:
    """What a person has to say of a part that is so far across as drawn."""
    return f"{across:.4g} mm or {across:.4g} in across? Give --units mm or --units in."


def decide(cast: Sequence[Vote], across: float, insunits: int | None) -> tuple[Units | None, Finding | None]:
    """The units that the votes agree on, or a stop that names both readings."""
    mm, inch = ([v for v in cast if v.units == unit] for unit in ("mm", "in"))
    for_mm, for_inch = sum(v.weight for v in mm), sum(v.weight for v in inch)
    winner, best, other = (mm, for_mm, for_inch) if for_mm >= for_inch else (inch, for_inch, for_mm)
    if not any(v.said for v in cast):
        header = HEADER_WORDS.get(insunits, f"has the unit code {insunits}")
        return None, Finding(
            Level.STOP,
            DrawingCode.UNITS_UNKNOWN,
            f"The header {header} and no text says mm or inch: {question(across)}",
        )
    loser = inch if winner is mm else mm
    lead = LEAST_LEAD if any(v.said and v.weight >= EXPLICIT for v in winner) else LEAD
    if any(v.said and v.weight >= OUTRIGHT for v in loser) or best - other < lead:
        return None, Finding(Level.STOP, DrawingCode.UNITS_CONFLICT, f"{_sides(mm, inch)}: {question(across)}")
    if best < ENOUGH or not any(v.said for v in winner):
        return None, Finding(
            Level.STOP, DrawingCode.UNITS_UNKNOWN, f"Too little says mm or inch ({_words(cast)}): {question(across)}"
        )
    units = winner[0].units
    odd = best - other < PLAIN_LEAD and any(v.said and v.weight >= ENOUGH for v in loser)
    if any(v.words.startswith("the header") for v in winner):
        words = f"{_sides(mm, inch)}; read as {'mm' if units == 'mm' else 'inch'}."
        return units, Finding(Level.CAUTION, DrawingCode.UNITS_WEIGHED, words) if odd else None
    header = HEADER_WORDS.get(insunits, f"has the unit code {insunits}")
    words = f"The header {header}; read as {'mm' if units == 'mm' else 'inch'} because {_words(winner)}."
    level = Level.NOTE if any(v.said and v.weight >= OUTRIGHT for v in winner) else Level.CAUTION
    return units, Finding(level, DrawingCode.UNITS_WEIGHED, words)


def _sides(mm: Sequence[Vote], inch: Sequence[Vote]) -> str:
    """Both sides of a conflict in words."""
    return f"Units disagree: for mm, {_words(mm) or 'nothing'}; for inch, {_words(inch) or 'nothing'}"


def _words(cast: Sequence[Vote]) -> str:
    """The heaviest reasons first, three at most."""
    return ", ".join(v.words for v in sorted(cast, key=lambda v: -v.weight)[:3])


def _against(units: Units, cast: Sequence[Vote]) -> tuple[Finding, ...]:
    """A caution where the user's word stands against an outright statement of the drawing."""
    others = [v for v in cast if v.units != units and v.said and v.weight >= OUTRIGHT]
    if not others:
        return ()
    words = f"Read in {'mm' if units == 'mm' else 'inch'} as told, although {_words(others)}."
    return (Finding(Level.CAUTION, DrawingCode.UNITS_OVERRIDDEN, words),)
