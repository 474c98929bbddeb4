"""A groove in a bore that a view shows where it is broken out in section, and nowhere else.

What is seen from outside has no bore, so its lines there enclose nothing: a line along the axis, a dip away from the
axis and a line again, all within the metal that was read.
"""

import numpy as np
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, place_words
from extractor.geometry.joining import groups
from extractor.sheet import Floats
from extractor.viewing.outline import Folded

LONG = 0.02
"""Such a line is longer than this share of the view's size: the chords of a curve are shorter."""

SIDES = 2
"""So many lines along the axis at least stand beside a dip, one on each side."""


def dip_in_metal(folded: Folded, lines: Floats, shapes: np.ndarray, metal: shapely.Geometry) -> Finding | None:
    """The stop for such a dip, None where there is none: ends and middle of each line laid along z, float (n, 6).

    The lines on either side of it lie along the axis, nearer to it than what hangs together with both between them.
    """
    near = folded.close
    level = (np.ptp(lines[:, [1, 3]], axis=1) <= near) & (np.abs(lines[:, 1]) > near)
    level &= np.ptp(lines[:, [0, 2]], axis=1) > LONG * folded.view.size
    if level.sum() < SIDES:
        return None
    rows = np.flatnonzero(shapely.contains(metal.buffer(near), shapes))
    mine = shapes[rows]
    for group in groups(shapely.STRtree(mine).query(mine, "dwithin", near).T.tolist()):
        held = rows[group]
        sides = held[level[held]]
        low, high = np.sort(lines[sides][:, [0, 2]], axis=1).T
        for z, r in lines[held, 4:].tolist():
            below = np.abs(lines[sides, 5]) < abs(r) - near
            if (below & (high < z - near)).any() and (below & (low > z + near)).any():
                at = folded.place(z, r)
                return Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, DIPS.format(place_words(at)), at)
    return None


DIPS = (
    "The lines at {} dip away from the axis within the metal, as a groove in a bore does where a view is broken out in "
    "section: draw the bore right through, by hidden lines or in section, or accept them if they are no edges of one."
)
