"""Letters drawn stroke by stroke: on a large sheet they are most of what is drawn, and none of it is outline.

A piece joined by its ends and tiny against the largest such piece is a letter, unless it touches something that
is none (the walls of a small groove may end in the middle of a long line) or a centre line (a small part).
"""

import math

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.boxes import diagonal_of
from extractor.geometry.crowds import cells, close_pairs
from extractor.geometry.joining import components
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints
from extractor.viewing.gaps import extents

MANY = 15_000
"""A sheet of fewer strokes is read with all of them: they cost next to nothing."""

LETTER = 0.06
"""A piece smaller than this share of the largest may be a letter."""

TOUCH = 1e-3
"""Ends nearer to one another than this share of all that is drawn may be meant to meet: the most that a gap can be."""

THIN = 0.125
"""Points in one square cell of this share of the reach are taken for one: small enough that the reach, which makes up
for it, is hardly longer."""


def without_letters(strokes: Strokes, centre: Floats) -> Strokes:
    """The strokes of a large sheet without its letters; `centre` float (m, 4) are the ends of centre lines."""
    if len(strokes) < MANY:
        return strokes
    reach = TOUCH * diagonal_of(strokes.ends.reshape(-1, 2))
    home = _pieces(strokes, reach)
    least, most = extents(strokes, home)
    sizes = np.hypot(*(most - least).T)
    small = sizes[home] < LETTER * sizes.max()
    kept = np.unique(home[small][_touching(strokes, small, centre, reach)])
    return strokes.pick(~small | np.isin(home, kept))


def _pieces(strokes: Strokes, reach: float) -> Ints:
    """Number what hangs together by its ends, int (n,)."""
    at = strokes.ends.reshape(-1, 2)
    # Of points that lie much nearer to one another than that, one stands for all: a curve has thousands.
    first, _, cell = cells(at, THIN * reach)
    one, two = close_pairs(at[first], (1 + 2 * math.sqrt(2) * THIN) * reach)
    ends = cell.reshape(-1, 2)
    piece = components(len(first), np.append(one, ends[:, 0]), np.append(two, ends[:, 1]))
    home: Ints = piece[cell[::2]]
    return home


def _touching(strokes: Strokes, small: npt.NDArray[np.bool_], centre: Floats, reach: float) -> npt.NDArray[np.bool_]:
    """Which of the small strokes lie on one of the others or on a centre line."""
    lines = shapely.linestrings(strokes.ends.reshape(-1, 2, 2))
    rise = np.abs(strokes.bulge) * shapely.length(lines) / 2
    far = reach + float(rise[~small].max(initial=0.0))
    found = np.zeros(int(small.sum()), dtype=bool)
    others = np.append(lines[~small], shapely.linestrings(centre.reshape(-1, 2, 2)))
    near, _ = shapely.STRtree(others).query(lines[small], predicate="dwithin", distance=far)
    found[near] = True
    return found
