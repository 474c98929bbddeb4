"""Reading a drawing from end to end: sheet, view, outline, recesses, units, part, dimensions.

`read_drawing` is the door of this room. Whatever is odd becomes a finding; only a file that is no drawing at all
raises.
"""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from extractor.axis import Axis, centre_lines, dimensioned_axes
from extractor.build import build, shape_findings
from extractor.choice import Candidate, choose
from extractor.clusters import Ink, prepare
from extractor.dimensions import tie_dimensions
from extractor.dxf import load_sheet
from extractor.evidence import says_diameter
from extractor.finding import Finding, Level, accept
from extractor.noding import TooDenseError
from extractor.outline import Folded, lay
from extractor.part import Front, Part, Reading, ReadOptions
from extractor.recognise import Found, recognise
from extractor.sheet import Dimension, Sheet
from extractor.units import UnitsAnswer, weigh_units
from extractor.views import Halves, View, views

AS_DRAWN = ReadOptions()
"""Nothing answered for beforehand."""

FINE = 2e-5
"""Lengths below this share of the view's diagonal are drawing noise."""


def read_drawing(path: Path, options: ReadOptions = AS_DRAWN) -> Reading:
    """Read one drawing. Raises DrawingError where the file can't be read at all."""
    return read_sheet(load_sheet(path), options)


def read_sheet(sheet: Sheet, options: ReadOptions = AS_DRAWN) -> Reading:
    """Recognise the turned part on a sheet and its grooves."""
    findings = list(sheet.findings)
    answer = UnitsAnswer(None, 1.0)
    part: Part | None = None
    try:
        found = _view_of(sheet, options, findings)
    except TooDenseError:
        found = None
        words = "Too many lines lie across each other to be the drawing of a part; send the part's view alone."
        findings.append(Finding(Level.STOP, "too-dense", words))
    if found is not None:
        part, answer = _part_of(sheet, options, *found, findings)
    return Reading(sheet.file, sheet.sha256, answer.units, part, _settled(findings, options, answer))


def _settled(findings: Sequence[Finding], options: ReadOptions, answer: UnitsAnswer) -> tuple[Finding, ...]:
    """The findings with those accepted that the user answers for; unknown units can only be given, not accepted."""
    fixed = [replace(f, unsafe=True) if f.stops and answer.units is None and "units" in f.code else f for f in findings]
    return accept(fixed, options.accept)


def _view_of(sheet: Sheet, options: ReadOptions, findings: list[Finding]) -> tuple[Folded, Found] | None:
    """The view chosen on a sheet and what it shows; None with a stop among the findings."""
    ink = prepare(sheet)
    if not len(ink.strokes):
        words = (
            "The sheet shows no visible lines or arcs that could be a part's outline; draw the outline in model space."
        )
        findings.append(Finding(Level.STOP, "no-outline", words))
        return None
    centres = centre_lines(sheet.segments, ink.size)
    stated = dimensioned_axes(sheet.dimensions, says_diameter)
    choice = choose(sheet, ink, views(ink, centres, stated), centres, options.at)
    findings += choice.findings
    if choice.chosen is None:
        return None
    axis = _toward_front(choice.chosen.view, options.front)
    if axis is None:
        at = choice.chosen.view.axis.at
        words = (
            f"The part does not lie so that its front face could be at the {options.front}; give its other direction."
        )
        findings.append(Finding(Level.STOP, "front-impossible", words, at))
        return None
    return _fold(ink, sheet, choice.chosen, axis, findings)


def _toward_front(view: View, front: Front | None) -> Axis | None:
    """The view's axis turned toward the front face, right or top unless told otherwise; None if it can't be."""
    dx, dy = view.axis.direction
    level = abs(dx) >= abs(dy)
    front = front or ("right" if level else "top")
    along = {"right": dx, "left": -dx, "top": dy, "bottom": -dy}[front]
    if abs(along) < 0.5:
        return None
    return view.axis if along > 0 else replace(view.axis, direction=(-dx, -dy))


def _fold(
    ink: Ink, sheet: Sheet, chosen: Candidate, axis: Axis, findings: list[Finding]
) -> tuple[Folded, Found] | None:
    """Lay the view along its axis, moved to the middle of both halves, and recognise what it shows."""
    view = _turned(chosen.view, axis)
    fine = max(FINE * view.size, 2 * ink.near)
    gaps = [c for c in ink.closed if view.covers(c.at, 0.01 * view.size)]
    folded = lay(ink, sheet.segments, view, axis, fine)
    found = recognise(folded)
    if found is None:
        at = gaps[0].at if gaps else axis.at
        words = f"The outline at X{at[0]:.4g} Y{at[1]:.4g} does not close; join its lines there."
        findings.append(Finding(Level.STOP, "outline-open", words, at))
        return None
    if gaps:
        widest = max(gaps, key=lambda g: g.width)
        words = (
            f"{len(gaps)} gap{'s' * (len(gaps) > 1)} of up to {widest.width:.3g} in the outline closed, "
            f"the widest at X{widest.at[0]:.4g} Y{widest.at[1]:.4g}."
        )
        findings.append(Finding(Level.NOTE, "gaps-closed", words, widest.at))
    findings += found.findings
    if len(found.faces) > 1 and not (chosen.evidence.strong or found.outside):
        words = (
            "The view would be a disc with rings in its face, or the section of a comb; nothing but its centre line "
            "says that it is turned: give a diameter sign or an end view."
        )
        findings.append(Finding(Level.STOP, "not-turned", words, axis.at))
    return folded, found


def _turned(view: View, axis: Axis) -> View:
    """The view seen along its axis turned round."""
    if axis.direction == view.axis.direction:
        return view
    swapped: dict[Halves, Halves] = {"both": "both", "up": "down", "down": "up"}
    return replace(view, axis=axis, low=-view.high, high=-view.low, halves=swapped[view.halves])


def _part_of(
    sheet: Sheet, options: ReadOptions, folded: Folded, found: Found, findings: list[Finding]
) -> tuple[Part, UnitsAnswer]:
    """The part at true size, with units, tolerances and the findings on them."""
    length = found.outline[0][0] - found.outline[-1][0]
    answer = weigh_units(sheet, found.across, length, options, _dimensions_of(sheet, folded.view))
    findings += answer.findings
    part = build(folded, found, answer.units or "mm", answer.scale)
    findings += shape_findings(part)
    part, tied = tie_dimensions(sheet, part)
    findings += tied
    return part, answer


def _dimensions_of(sheet: Sheet, view: View) -> tuple[Dimension, ...]:
    """The dimensions that measure something in the view."""
    return tuple(d for d in sheet.dimensions if d.points and any(view.covers(p, 0.02 * view.size) for p in d.points))


__all__ = ["read_drawing", "read_sheet"]
