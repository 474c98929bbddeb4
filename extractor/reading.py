"""Reading a drawing from end to end: sheet, view, outline, recesses, units, part, dimensions.

`read_drawing` is the door of this room. Whatever is odd becomes a finding; only a file that is no drawing at all
raises.
"""

from dataclasses import replace
from pathlib import Path

from extractor.codes import DrawingCode
from extractor.distance import Distance
from extractor.dxf import load_sheet
from extractor.finding import Finding, Level, accept
from extractor.front import FrontEnd
from extractor.geometry.crowds import TooDenseError
from extractor.laying import gap_findings
from extractor.part import Part, Reading, ReadOptions
from extractor.places import contradictions, with_distances
from extractor.placing import LaidView, place
from extractor.recess.build import alone, build, left_findings, shape_findings
from extractor.recess.recognise import Found
from extractor.recess.sized import all_wanted, sized_as_grooves
from extractor.sheet import Dimension, Sheet
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.material_notes import material_notes
from extractor.sizing.off_outline import sized_as_rings
from extractor.sizing.undrawn import with_undrawn
from extractor.sizing.units import UnitsAnswer, weigh_units
from extractor.viewing.outline import Folded
from extractor.viewing.roles import assign
from extractor.viewing.views import View

AS_DRAWN = ReadOptions()
"""Nothing answered for beforehand."""


def read_drawing(path: Path, options: ReadOptions = AS_DRAWN) -> Reading:
    """Read one drawing. Raises DrawingError where the file can't be read at all."""
    return read_sheet(load_sheet(path), options)


def read_sheet(sheet: Sheet, options: ReadOptions = AS_DRAWN) -> Reading:
    """Recognise the turned part on a sheet and its grooves."""
    sheet, placed = _placed(sheet, options)
    findings = list(sheet.findings)
    answer = UnitsAnswer(None, 1.0)
    part: Part | None = None
    findings += placed.findings
    if placed.folded is not None and placed.found is not None:
        part, answer = _part_of(sheet, options, placed.folded, placed.found, findings)
        findings += gap_findings(placed.gaps, part.units, answer.scale)
    front = placed.front if part is not None else None
    if front is not None and front.by == "option" and "front" in options.answered:
        front = FrontEnd(front.end, "answer")
    told = accept(findings, options.accept, part=part is not None)
    return Reading(sheet.file, sheet.sha256, answer.units, part, told, front, placed.ink if part is not None else None)


def _placed(sheet: Sheet, options: ReadOptions) -> tuple[Sheet, LaidView]:
    """The sheet with its loose dimensions put together, and the view on it that was chosen."""
    try:
        roles = assign(sheet)
        sheet = roles.told.put_together(sheet)
        return sheet, place(sheet, roles, options)
    except TooDenseError:
        words = "Too many lines lie across each other to be the drawing of a part; send the part's view alone."
        return sheet, LaidView(None, None, (Finding(Level.STOP, DrawingCode.TOO_DENSE, words),))


def _part_of(
    sheet: Sheet, options: ReadOptions, folded: Folded, found: Found, findings: list[Finding]
) -> tuple[Part, UnitsAnswer]:
    """The part at true size, with units, tolerances and the findings on them."""
    answer = weigh_units(sheet, found.across, options, _dimensions_of(sheet, folded.view))
    findings += answer.findings
    wanted = all_wanted if options.grooved else sized_as_grooves(sheet.dimensions, folded)
    part, undrawn = with_undrawn(sheet, build(folded, found, answer.units or "mm", answer.scale, wanted))
    findings += undrawn
    findings += left_findings(folded, found, part.units, answer.scale, wanted)
    findings += shape_findings(part)
    part, tied = tie_dimensions(sheet, part)
    rings = tuple(sized_as_rings(sheet, part, alone(found, answer.scale)))
    # A diameter that is that of a recess of one half says nothing of another outline.
    findings += [f for f in tied if not (rings and f.code == DrawingCode.OUTLINE_DOUBTFUL)]
    findings += rings
    part = replace(with_distances(part, part.distances), materials=material_notes(sheet))
    findings += [_at_odds(one) for one in contradictions(part)]
    return part, answer


def _at_odds(one: Distance) -> Finding:
    """The stop for a printed distance that can't be kept together with the others."""
    low, high = (one.nominal + deviation for deviation in one.deviations or (0.0, 0.0))
    number = one.end.groove or one.start.groove
    limits = f"{low:g} to {high:g}" if low < high else f"{low:g}"
    words = (
        f"The distance of {limits} at groove {number} can't be kept together with the other places and widths that the "
        "drawing prints; correct the drawing."
    )
    return Finding(Level.STOP, DrawingCode.PLACES_CONTRADICT, words, groove=number)


def _dimensions_of(sheet: Sheet, view: View) -> tuple[Dimension, ...]:
    """The dimensions that measure something in the view."""
    return tuple(d for d in sheet.dimensions if d.points and any(view.covers(p, 0.02 * view.size) for p in d.points))


__all__ = ["read_drawing", "read_sheet"]
