"""Slips of the pen about the axis: halves that stand a hair off their centre line, or a centre line beside the middle.

Either way all diameters are read about another line than the one that was meant.
"""

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.recess.crossings import centre_lines
from extractor.recess.recognise import Found
from extractor.sheet import Sheet
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
