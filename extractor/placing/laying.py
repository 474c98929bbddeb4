"""One view laid along z: turned to its front face, centred between its halves, recognised."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from extractor.codes import DrawingCode
from extractor.doubts.combs import hardly_turned
from extractor.doubts.labelled import item_numbers
from extractor.doubts.off_axis import off_axis
from extractor.finding import Finding, Level, Point, place_words
from extractor.front import Front, FrontEnd
from extractor.geometry.network import rim
from extractor.ink import InkLedger
from extractor.part import Frame, Units
from extractor.placing.twins import Twin
from extractor.recess.recognise import Found, recognise
from extractor.sheet import INCHES, Sheet
from extractor.sizing.ends.ends import Ends, begins, end_named
from extractor.sizing.ends.front import FrontAnswer, decide_front, not_understood
from extractor.sizing.ends.front_words import front_marks, may_tell, sided, strange, strange_at_other, strange_marks
from extractor.sizing.lettering.pointers import said
from extractor.values import dataclass
from extractor.viewing.axis import Axis
from extractor.viewing.breaks import broken
from extractor.viewing.choice import Candidate, ChosenViews
from extractor.viewing.clusters import Ink
from extractor.viewing.evidence import names_thread
from extractor.viewing.gaps import Closed, decimal_step
from extractor.viewing.knurls import says_knurl
from extractor.viewing.outline import Folded, Said, carelessly_drawn, holes_end_on, lay, open_ends
from extractor.viewing.views import Halves, View

FINE = 2e-5
"""Lengths below this share of the view's diagonal are drawing noise."""

MEANT_SHUT = {"mm": 0.05, "in": 0.002}
"""A gap no wider than this, in true units, is careless drawing; in a wider one an edge break may be missing. Common
practice, no source: smaller breaks than this are not drawn."""

STUB = 0.1
"""An end stands on before its chamfer by at most this share of its diameter where it may be an older one; a short dog
point is about a third of its own long (ISO 4028, from memory)."""

AT_VIEW = 0.01
"""Share of a view's size beyond its box within which a closed gap is one of its own: lines at its rim may stand off."""

ROUNDED_APART = 1.05
"""Last places by which equal coordinates may differ that were rounded each for itself: one, and the dust of a file."""

GRAIN = 1e-4
"""Rounding is finer than this share of a view."""

WHOLE = 1.0
"""And finer than this, in drawing units: who draws in whole ones means them, however large the view."""

TRACED = 8
"""So many joints that stand open are a hand's: a slip leaves one or two, and a corner of both halves four."""

OFF = 3e-3
"""An axis drawn off the middle of its halves by less than this share of the view is moved there."""

TOWARD = 0.5
"""A front lies at one side of the sheet where the axis points there within 60 degrees: their cosine."""


@dataclass(frozen=True)
class LaidView:
    """A view laid along z and what it shows, or None where that failed, and the findings on the way.

    `front` says which end is the front face and `ink` what explains the drawn lines, None where there is no view;
    `gaps` are those closed by moving lines of the outline, their widths as drawn; `choice` is that of the view among
    those found; `twins` are other views of the part that was read, `headed` its scale if one of them is at another
    and a heading says so; `closed`: so many views that may each be another part have an outline that closes.
    """

    folded: Folded | None
    found: Found | None
    findings: tuple[Finding, ...]
    front: FrontEnd | None = None
    ink: InkLedger | None = None
    gaps: tuple[Closed, ...] = ()
    choice: ChosenViews | None = None
    twins: tuple[Twin, ...] = ()
    headed: float | None = None
    closed: int = 0

    def with_findings(self, *more: Finding) -> "LaidView":
        """The same view with more findings."""
        return replace(self, findings=(*self.findings, *more))


def no_view(code: DrawingCode, words: str, at: Point) -> LaidView:
    """A view that could not be laid, with the reason."""
    return LaidView(None, None, (Finding(Level.STOP, code, words, at),))


def lay_view(ink: Ink, sheet: Sheet, chosen: Candidate, front: Front | None) -> LaidView:
    """One view turned to its front, laid and recognised; of one that is open in one half the other half."""
    laid, view = _laid(ink, sheet, chosen, front), chosen.view
    if view.halves != "both" or all(f.code != DrawingCode.OUTLINE_OPEN for f in laid.findings):
        return laid
    halves = (replace(chosen, view=replace(view, halves=half)) for half in ("up", "down"))
    whole = [one for one in (_laid(ink, sheet, half, front) for half in halves) if _whole(one)]
    return whole[0] if len(whole) == 1 else laid


def _whole(laid: LaidView) -> bool:
    """True for a half that was read from end to end of its view."""
    if laid.found is None or laid.folded is None:
        return False
    (front, _), (back, _), view = laid.found.outline[0], laid.found.outline[-1], laid.folded.view
    return front - back >= view.high - view.low - laid.folded.close


def _laid(ink: Ink, sheet: Sheet, chosen: Candidate, front: Front | None) -> LaidView:
    """One view or one half of it, turned to its front, laid and recognised."""
    axis = _toward_front(chosen.view, front)
    if axis is None:
        words = f"The part does not lie so that its front face could be at the {front}; give its other direction."
        return no_view(DrawingCode.FRONT_IMPOSSIBLE, words, chosen.view.axis.at)
    folded, found = _centred(ink, sheet, _turned(chosen.view, axis))
    told = _front(sheet, folded, found, front)
    if told.turn:
        folded, found = _centred(ink, sheet, _turned(chosen.view, _reversed(axis)))
    gaps = _gaps_at(ink, folded.view)
    if found is None:
        ends = open_ends(folded)
        at = next(iter(ends), gaps[0].at if gaps else axis.at)
        words = f"The outline at {place_words(at)} does not close; join its lines there."
        return LaidView(None, None, (Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, words, at, spots=tuple(ends[1:])),))
    cut = broken(folded)
    shown = _for_open_joints(gaps) if _torn_by_hand(gaps, found) else found.findings
    findings = [*([cut] if cut else []), *told.findings, *shown, *item_numbers(sheet, folded, found)]
    findings += [
        *(hardly_turned(chosen, found) or _hollow(chosen, folded, found)),
        *_ended_twice(sheet, folded, found),
        *off_axis(sheet, folded, found),
    ]
    findings += [
        *carelessly_drawn(folded, [seen.half for seen in found.halves]),
        *_knurled(sheet, folded),
        *_drilled(ink, folded),
        *holes_end_on(folded),
    ]
    front_end = FrontEnd(end_named(folded.axis.direction), told.by)
    mine = {folded.network.edges[k].label for seen in found.halves for k in rim(list(seen.half.material.faces))}
    return LaidView(folded, found, tuple(findings), front_end, gaps=tuple(c for c in gaps if c.labels & mine))


def _torn_by_hand(gaps: Sequence[Closed], found: Found) -> bool:
    """True if two halves disagree in a view so many of whose joints stand open that this may be all there is to it."""
    return len(gaps) >= TRACED and any(f.code == DrawingCode.HALVES_DISAGREE for f in found.findings)


def _for_open_joints(gaps: Sequence[Closed]) -> tuple[Finding, ...]:
    """The stop for a view drawn or traced by hand, in place of what its halves seem to show then."""
    widest = max(gaps, key=lambda g: g.width)
    words = (
        f"The lines of the view stand up to {widest.width:.3g} apart at {len(gaps)} corners, the widest at "
        f"{place_words(widest.at)}, and its two halves don't agree then: trim and join the lines at their corners."
    )
    return (Finding(Level.STOP, DrawingCode.HALVES_DISAGREE, words, widest.at),)


def _gaps_at(ink: Ink, view: View) -> list[Closed]:
    """The closed gaps that lie on a view."""
    return [gap for gap in ink.closed if view.covers(gap.at, AT_VIEW * view.size)]


def gap_findings(gaps: Sequence[Closed], units: Units, scale: float, pen: float) -> list[Finding]:
    """What is said of the gaps closed in a view: a note, or a caution where one may have held a broken edge.

    Or where a line leans by more than two halves may differ: it may be a wall's place. `scale` is the drawn length of
    one true unit, `pen` the pen's error as drawn.
    """
    if not gaps:
        return []
    widest = max(gaps, key=lambda g: g.width)
    words = (
        f"{len(gaps)} gap{'s' * (len(gaps) > 1)} of up to {widest.width:.3g} in the outline closed, the widest at "
        f"{place_words(widest.at)}"
    )
    leans = max(gaps, key=lambda g: g.aside)
    if leans.aside > pen:
        words += (
            f", and the end of the line at {place_words(leans.at)} moved sideways by {leans.aside:.3g}; see that the "
            "walls there stand alike in both halves, and no broken edge or radius is missing."
        )
        return [Finding(Level.CAUTION, DrawingCode.GAPS_CLOSED, words, leans.at)]
    if widest.width <= MEANT_SHUT[units] * scale:
        return [Finding(Level.NOTE, DrawingCode.GAPS_CLOSED, f"{words}.", widest.at)]
    words += "; see that no broken edge or radius is missing there."
    return [Finding(Level.CAUTION, DrawingCode.GAPS_CLOSED, words, widest.at)]


def _knurled(sheet: Sheet, folded: Folded) -> list[Finding]:
    """What is said of lines that were set aside as a knurl: a note where the sheet names one, else a caution."""
    if not folded.texture.stretches:
        return []
    low, high = folded.texture.stretches[0]
    at = folded.place((low + high) / 2, 0.0)
    where = f"The lines on the land at {place_words(at)} were read as a knurl, which is not cut here"
    if says_knurl(sheet.everywhere):
        return [Finding(Level.NOTE, DrawingCode.KNURL, f"{where}.", at)]
    return [Finding(Level.CAUTION, DrawingCode.KNURL, f"{where}; no note names one: see what they are.", at)]


def _drilled(ink: Ink, folded: Folded) -> list[Finding]:
    """What is said of holes drilled into one half: what lies there was read from the other half."""
    return [
        Finding(
            Level.CAUTION,
            DrawingCode.CROSS_HOLE,
            f"The gap {hole.width:.4g} wide at {place_words(hole.at)} is in one half only and was read as a hole "
            "drilled from the side, which is not cut here.",
            hole.at,
        )
        for hole in ink.holes
        if folded.view.covers(hole.at, folded.close)
    ]


def _hollow(chosen: Candidate, folded: Folded, found: Found) -> list[Finding]:
    """A stop for a hollow drawn like an outside: neither hatched, nor dashed, nor with the edge of its mouth.

    So the cross-section of a slide or a rail shows a dovetail or a slot; nothing lies behind it that has an edge.
    """
    told = chosen.evidence.strong or chosen.evidence.signed or any(f.stops for f in found.findings)
    if told or found.bore is None or found.dashed or folded.hatched or folded.view.halves != "both":
        return []
    mouths = [z for z, r in (found.bore[0], found.bore[-1]) if r > folded.pen]
    through = min(r for _, r in found.bore) > folded.pen  # two pieces about an axis are a section
    if not mouths or through or any(_line_across(folded, z) for z in mouths):
        return []
    at = folded.place(mouths[0], 0.0)
    words = (
        f"The hollow at {place_words(at)} is drawn without hatching and without the edge of its mouth, as in the "
        "cross-section of a bar, and nothing but its centre line or its symmetry says that the part is turned: give a "
        "diameter sign or an end view."
    )
    return [Finding(Level.STOP, DrawingCode.NOT_TURNED, words, at)]


def _line_across(folded: Folded, z: float) -> bool:
    """True if a line square to the axis meets it at z."""
    network, near = folded.network, folded.close
    ends = ((network.point(e.a), network.point(e.b)) for e in network.edges if not e.bulge and e.label >= 0)
    return any(
        max(abs(p[0] - z), abs(q[0] - z)) <= near < abs(p[1] - q[1])
        and min(p[1], q[1]) <= near
        and max(p[1], q[1]) >= -near
        for p, q in ends
    )


def _ended_twice(sheet: Sheet, folded: Folded, found: Found) -> list[Finding]:
    """A stop for an end whose face stands before a chamfer's edge, as an older face does that was left standing.

    So does a short dog point; then a size of the sheet begins at its face.
    """
    for line in (found.outline, found.outline[::-1]):
        face, side = line[0][0], [r for z, r in line if abs(z - line[0][0]) <= folded.close]
        if len(line) < len(side) + 2:  # a disc so thin that its other face is as near
            continue
        (z0, r0), (z1, r1) = line[len(side) : len(side) + 2]
        long = abs(z0 - face)
        foot = abs(r0 - side[-1]) <= folded.close < min(abs(z1 - z0), r1 - r0)
        if not foot or long > STUB * 2 * r0 or not _line_across(folded, z0):
            continue
        if any(abs(z - face) <= folded.close for d in sheet.dimensions for z in _along(folded, d.points[:2])):
            continue
        at = folded.place((face + z0) / 2, 0.0)
        words = (
            f"The part ends at {place_words(at)} in a land {long:.4g} long as drawn that is no higher than the foot of "
            "the chamfer behind it, and no size begins at its face: an older end face may have been left standing; "
            "take it away, or accept it if it is meant."
        )
        return [Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at)]
    return []


def _along(folded: Folded, places: Sequence[Point]) -> list[float]:
    """Where places lie along the axis."""
    return [float(z) for z, _ in folded.axis.fold(np.array(places).reshape(-1, 2))]


def _front(sheet: Sheet, folded: Folded, found: Found | None, given: Front | None) -> FrontAnswer:
    """Which end of a laid view is the front face."""
    if found is None:
        return FrontAnswer(turn=False, by="assumed")
    front, back = (pick(z for z, _ in found.outline) for pick in (max, min))
    frame = Frame(folded.place(front, 0.0), folded.axis.direction, folded.axis.up)
    walls = tuple(z - front for m in (*found.outside, *found.inside) for z in (m.z_near, m.z_far))
    ends = Ends(frame=frame, length=front - back, reach=found.across / 2, walls=walls)
    notes = said(sheet, may_tell)
    lengths = begins(sheet.dimensions, notes, ends)
    told, begun = sided(sheet.everywhere, ends)
    answer = decide_front(ends, (*front_marks(notes, ends), *told), lengths, "option" if given else None)
    if answer.by not in ("assumed", "dimensions") or answer.findings:
        return answer
    odd, assumed = said(sheet, strange), answer.by == "assumed"
    marks = (*(strange_marks if assumed else strange_at_other)(odd, ends), *begun)
    asked = not_understood(ends, marks, "as is usual" if assumed else "as all lengths begin there")
    return replace(answer, findings=(asked,)) if asked is not None else answer


def _reversed(axis: Axis) -> Axis:
    """The same axis toward its other end."""
    dx, dy = axis.direction
    return replace(axis, direction=(-dx, -dy))


def _toward_front(view: View, front: Front | None) -> Axis | None:
    """The view's axis turned toward the front face, right or top unless told otherwise; None if it can't be."""
    dx, dy = view.axis.direction
    level = abs(dx) >= abs(dy)
    front = front or ("right" if level else "top")
    along = {"right": dx, "left": -dx, "top": dy, "bottom": -dy}[front]
    if along <= -TOWARD:
        return _reversed(view.axis)
    return view.axis if along >= TOWARD else None


def _turned(view: View, axis: Axis) -> View:
    """The view seen along its axis turned round."""
    if axis.direction == view.axis.direction:
        return view
    swapped: dict[Halves, Halves] = {"both": "both", "up": "down", "down": "up"}
    return replace(view, axis=axis, low=-view.high, high=-view.low, halves=swapped[view.halves])


def _centred(ink: Ink, sheet: Sheet, view: View) -> tuple[Folded, Found | None]:
    """The view laid along its axis, and once more along the middle of its halves if the axis was drawn beside it."""
    fine = max(FINE * view.size, 2 * ink.near, _grain(ink, view))
    said = Said(inch=sheet.insunits == INCHES, knurled=says_knurl(sheet.everywhere), threaded=names_thread(sheet))
    folded = lay(ink, sheet.segments, view, fine, said)
    found = recognise(folded)
    if found is None or not fine / 100 < abs(found.off) <= OFF * view.size:
        return folded, found
    moved = replace(view, axis=replace(view.axis, at=view.axis.unfold(0.0, found.off)))
    again = lay(ink, sheet.segments, moved, fine, said)
    found_again = recognise(again)
    return (folded, found) if found_again is None else (again, found_again)


def _grain(ink: Ink, view: View) -> float:
    """The length by which rounding to the last decimal place sets corners off, 0.0 where that isn't small.

    Coarser places than a ten-thousandth of the view are a grid that was drawn on, not rounding.
    """
    lines = ink.strokes.ends[ink.strokes.bulge == 0]
    step = decimal_step(lines[view.covering(lines[:, :2]) & view.covering(lines[:, 2:])])
    return ROUNDED_APART * step if step <= GRAIN * view.size and step < WHOLE else 0.0
