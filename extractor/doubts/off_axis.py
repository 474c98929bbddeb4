"""Slips about the axis: halves or faces a hair off their centre line, or a centre line beside the middle or an end.

Either way all diameters are read about another line than the one that was meant. A half view may be drawn a little
beyond its centre line where no mark says that it is one (ISO 128-3, from memory), but then by some millimetres, and not
by a share of one. A part that is the same at both its ends may be drawn to its middle, where a centre line runs across.
"""

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.recess.crossings import centre_lines
from extractor.recess.recognise import Found
from extractor.sheet import Pen, Sheet
from extractor.viewing.outline import Folded

SLIT = 0.02
"""A straight bore of less than this share of the part's diameter is a gap: a drill of 1 through 50 is a rare one
(common practice, no source), and it has its size."""


def off_axis(sheet: Sheet, folded: Folded, found: Found) -> list[Finding]:
    """What is said of a view that may not stand on the axis that was meant."""
    told = [_slit(sheet, folded, found), _line_beside(folded, found)]
    return [one for one in told if one is not None]


def _slit(sheet: Sheet, folded: Folded, found: Found) -> Finding | None:
    """The stop for a bore right through, all of one small width, that no size gives."""
    if found.bore is None:
        return None
    radii = [r for _, r in found.bore]
    wide = 2 * max(radii)
    sized = any(abs(d.measured - wide) <= folded.close for d in sheet.dimensions)
    if wide - 2 * min(radii) > folded.close or wide >= SLIT * found.across or sized:
        return None
    at = folded.place(found.bore[0][0], 0.0)
    words = (
        f"The outline stands {max(radii):.3g} as drawn off the centre line at {place_words(at)}, which would be a bore "
        f"of {wide:.3g} right through: move the outline onto its centre line, or accept the bore if it is meant."
    )
    return Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, words, at)


def _line_beside(folded: Folded, found: Found) -> Finding | None:
    """The caution for a centre line along the view, beside a middle that has none."""
    if folded.view.axis.drawn:
        return None
    near, front, back = folded.close, found.outline[0][0], found.outline[-1][0]
    lines = [r for high, low, r in centre_lines(folded, 0) if high >= front - near and low <= back + near]
    within = np.array([r for r in lines if abs(r) < folded.view.reach])
    alone = [r for r in within.tolist() if np.abs(within + r).min() > near]
    if not alone:
        return None
    at = folded.place((front + back) / 2, alone[0])
    words = (
        f"The centre line at {place_words(at)} runs along the view {abs(alone[0]):.3g} as drawn beside its middle, and "
        "the part was read about the middle: see which of the two is meant."
    )
    return Finding(Level.CAUTION, DrawingCode.OUTLINE_DOUBTFUL, words, at)


MEANT = 0.01
"""Faces that run on by more than this share of the view's size are drawn beyond the centre line on purpose."""


def half_drawn(folded: Folded, found: Found) -> list[Finding]:
    """The cautions for a view that shows half of the part, or may do so."""
    return [f for f in (_off_ends(folded, found), _to_its_middle(folded, found)) if f is not None]


def _off_ends(folded: Folded, found: Found) -> Finding | None:
    """The caution for both faces of half a part that end alike beside the centre line, None where they don't."""
    if folded.view.halves == "both" or found.bore is not None:
        return None
    front, back = found.outline[0][0], found.outline[-1][0]
    offs = [_inner_end(folded, found.side, z) for z in (front, back)]
    if None in offs:
        return None
    one, two = (float(off) for off in offs if off is not None)
    if abs(one - two) > folded.close or not folded.fine < abs(one) <= MEANT * folded.view.size:
        return None
    at, size = folded.place(front, 0.0), abs(one + two)
    ends, other = ("short of", "less") if one > 0 else ("beyond", "more")
    words = (
        f"The end faces of the half at {place_words(at)} both end {{:.4g}} {ends} the line it was read about: "
        f"if that should lie at their ends, all diameters are {{:.4g}} {other}; see which is meant."
    )
    return Finding.measured(Level.CAUTION, DrawingCode.OUTLINE_DOUBTFUL, words, (size / 2, size), at)


def _to_its_middle(folded: Folded, found: Found) -> Finding | None:
    """The caution for a centre line right along an end face and out beyond it, None where there is none."""
    out, ends = found.across / 2 + folded.close, (found.outline[0][0], found.outline[-1][0])
    for top, bottom, z in centre_lines(folded, 1):
        if bottom < -out < out < top and min(abs(z - end) for end in ends) <= folded.close:
            at = folded.place(z, 0.0)
            words = (
                f"A centre line runs along the end face at {place_words(at)} and out on its sides, as where a part is "
                "drawn to its middle alone: see that nothing lies behind it."
            )
            return Finding(Level.CAUTION, DrawingCode.OUTLINE_DOUBTFUL, words, at)
    return None


def _inner_end(folded: Folded, side: int, z: float) -> float | None:
    """How far from the axis the lines of a face begin as they were drawn, toward their half; None where none stands."""
    segments, near = folded.drawn, folded.close
    mine = segments.of(lambda s: s.pen is Pen.SOLID and s.owner in ("", "INSERT")) & (segments.bulge == 0)
    mine[sorted(folded.aside)] = False
    z0, r0, z1, r1 = folded.axis.fold(segments.ends[mine].reshape(-1, 2)).reshape(-1, 4).T
    square = (np.abs(z0 - z) <= near) & (np.abs(z1 - z) <= near) & (np.maximum(side * r0, side * r1) > near)
    return float(np.minimum(side * r0, side * r1)[square].min()) if square.any() else None
