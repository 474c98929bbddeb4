"""A turned part, or a comb, a rack or a plate with slots, of which the picture is the same.

Asked where nothing but its symmetry or its centre line says that the part is turned: of slots in its face, and of slots
in its sides where lengths are printed but no diameter. Words that name a plate or a bar: `viewing.flat_words`.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import ProfilePoints
from extractor.recess.recognise import Found
from extractor.sheet import Dimension, Pen, Sheet
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.ties import LENGTHS
from extractor.viewing.alike import ONE_PLACE, ONE_SIZE
from extractor.viewing.axis import NO_OUTLINE, union
from extractor.viewing.choice import Candidate
from extractor.viewing.evidence import ALL_ALONG, names_thread
from extractor.viewing.flat_words import one_size, spans
from extractor.viewing.views import NEAR_VIEW, View

EVEN_RINGS = 2
"""Face rings that are four slots of a comb: of one alone, two slots, nobody can say whether they are even."""

EVENLY = 0.01
"""Slots stand evenly within this share of their step: a comb's are drawn by one offset."""


DEPTHS = 2
"""A comb has so many levels above its back: that of its teeth and that of its slots."""
ROUND_AT = 4
"""Levels are one to so many places of the greatest."""


def hardly_turned(chosen: Candidate, found: Found) -> list[Finding]:
    """A stop for what looks turned by its symmetry or its centre line alone and is as likely something else."""
    at, evidence = chosen.view.axis.at, chosen.evidence
    if evidence.strong or found.outside:
        return []
    code, words = DrawingCode.NOT_TURNED, ""
    if _even(found):
        code = DrawingCode.NOT_ROUND
        words = (
            "The slots in the face are alike and stand in even steps across the middle, as those of a comb do; nothing "
            "but its centre line or its symmetry says that the part is turned: give a diameter sign or an end view."
        )
    elif len(found.faces) > (1 if evidence.centre_line or chosen.view.axis.drawn else 0):
        words = (
            "The view would be a disc with rings in its face, or the section of a comb; nothing but its centre line or "
            "its symmetry says that it is turned: give a diameter sign or an end view."
        )
    elif chosen.plain and not found.inside and found.bore is None and not found.main.slight:
        words = (
            "The view is a plain rectangle about a centre line: it may be stock, or a plate; nothing is grooved in it: "
            "give a diameter sign or an end view if it is a turned part."
        )
    return [Finding(Level.STOP, code, words, at)] if words else []


def _even(found: Found) -> bool:
    """True if four slots or more, rings with their images, are alike and evenly spaced from one side to the other."""
    places = sorted((f.outer + f.inner) / 2 for f in found.faces)
    if len(places) < EVEN_RINGS:
        return False
    step = (places[-1] - places[0]) / (len(places) - 1)
    widths = [f.outer - f.inner for f in found.faces]
    first = step / 2 if found.bore is None else step  # of an odd number one lies on the axis, as a bore
    off = [abs(b - a - step) for a, b in pairwise(places)] + [abs(places[0] - first)]
    return max(*off, max(widths) - min(widths)) <= EVENLY * step


def comb_or_plate(sheet: Sheet, view: View, outline: ProfilePoints, *, shown: bool, slotted: bool) -> Finding | None:
    """What is said of grooves in the outside where no diameter is printed: they may be slots in the sides of a plate.

    `outline` is as drawn; `shown`: more than a centre line shows that the part is turned; `slotted`: its grooves are
    alike, in even steps (`recess.recognise`, which stops itself where one half alone has them).
    """
    heights = () if shown else (d for d in sheet.dimensions if _is_height(d, view))
    # Neither shoulder nor chamfer: the teeth of a comb are as high as one another, and its slots as deep.
    comb = slotted and len({round(r / view.reach, ROUND_AT) for _, r in outline} - {0.0}) == DEPTHS
    high = next((_as_high(d, view, comb=comb) for d in heights), None)
    if high is not None or shown or not comb:
        return high
    whole = view.halves == "both"
    return _as_comb(sheet, view) if whole != view.axis.marked and (whole or _is_backed(sheet, view)) else None


def _is_backed(sheet: Sheet, view: View) -> bool:
    """True for half a part whose outline goes on all along its centre line."""
    edges = sheet.segments.ends[sheet.segments.of(lambda s: s.pen is Pen.SOLID and s.owner not in NO_OUTLINE)]
    folded = view.axis.fold(edges.reshape(-1, 2)).reshape(-1, 2, 2)
    along = folded[np.abs(folded[:, :, 1]).max(axis=1, initial=0.0) <= ONE_PLACE * view.size, :, 0]
    back = replace(view.axis, drawn=union((float(a), float(b)) for a, b in np.sort(along, axis=1)))
    return back.drawn_within(view.low, view.high) > ALL_ALONG


def _as_comb(sheet: Sheet, view: View) -> Finding | None:
    """The stop for a view with even slots whose lengths are printed and of which no size says that it is turned.

    Any sign but that of an angle does, and a size across that is no length as drawn, as a diameter is at half a part.
    """
    here = [d for d in sheet.dimensions if d.points and view.covers(d.points[0], NEAR_VIEW * view.size)]
    spans = [(d, np.ptp(view.axis.fold(np.array(d.points[:2])), axis=0).tolist(), parse(d.text)) for d in here]
    sized = [d for d, (along, across), _ in spans if d.kind in LENGTHS and along > across]
    turned = any(p.sign not in ("", "angle") for _, _, p in spans) or any(
        across > along and not p.measured and not one_size(p.value, d.measured) for d, (along, across), p in spans
    )
    if not sized or turned or names_thread(sheet):
        return None
    half = "on one side of a line along an edge", "in one side, or half a turned part"
    where, what = ("on both sides", "in both sides, or a turned part") if view.halves == "both" else half
    words = (
        f"Evenly spaced slots stand {where}, and lengths are printed but no diameter: it may be a plate with slots "
        f"{what}; give the diameters their sign, or accept it if it is turned."
    )
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, sized[0].points[0])


def _is_height(dimension: Dimension, view: View) -> bool:
    """True for a size without a sign across a view, or from its axis to the rim where half is drawn."""
    printed = parse(dimension.text)
    from_axis = np.abs(view.axis.fold(np.array(dimension.points[:2]))[:, 1]).min() <= ONE_SIZE * view.reach
    plain = not printed.sign and (printed.measured or one_size(printed.value, dimension.measured))
    return bool(spans(dimension, view) and plain and (view.halves == "both" or from_axis))


def _as_high(dimension: Dimension, view: View, *, comb: bool) -> Finding:
    """What is said of a size that may be a plate's height: a stop where it would be half a diameter.

    Or where the outline is that of a `comb` on both sides and nobody drew a centre line.
    """
    size, at = dimension.text or format(dimension.measured, ".6g"), dimension.points[0]
    if view.halves == "both" and (view.axis.marked or not comb):
        shown = "centre line shows" if view.axis.marked else "symmetry says"
        words = (
            f'Only its {shown} that this is a turned part: "{size}" has no diameter sign, and no edge runs '
            "right across; check whether it is one, or a plate with slots in both sides."
        )
        return Finding(Level.CAUTION, DrawingCode.TURNED_BY_SYMMETRY, words, at)
    sides, where = (
        ("both sides", "across") if view.halves == "both" else ("one side", "from the centre line to the edge")
    )
    words = (
        f'"{size}" is the size {where}, and no diameter is printed: the part may be a plate with slots in {sides}; '
        "give the diameters their sign, or accept it if it is turned."
    )
    return Finding(Level.STOP, DrawingCode.NOT_TURNED, words, at)
