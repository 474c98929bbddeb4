"""Holes beside and across the axis, which look like recesses.

Where one is drilled square to the axis, the silhouette dips between its walls. One drilled along the axis, beside it,
shows in a face as a groove would, but has a centre line of its own (ISO 128-2 line 04, from memory).

At a height R, a hole of radius a lowers the silhouette to sqrt(R^2 - (a^2 - z^2)), z from the hole's middle, so it
is deepest in the middle, by R - sqrt(R^2 - a^2). A recess of exactly that width and depth is a hole, not a groove.
"""

import math
from collections.abc import Sequence

import numpy as np

from extractor.recess.shapes import Measured
from extractor.recess.turnings import FaceRecess
from extractor.sheet import Pen
from extractor.viewing.outline import Folded

WIDE_HOLE = 0.9
"""A recess with a half width above this share of the mouth's radius is no hole: one would part the piece."""

LIKE_HOLE = 0.02
"""Share of the depth within which a recess is as deep as the hole of its width: exports draw the mouth in chords."""


def is_cross_hole(m: Measured, fine: float) -> bool:
    """True for a recess, not straight-walled, as wide and deep as the mouth of a cross hole.

    >>> walls = dict(z_near=1.5, z_far=-1.5, near_land=10.0, far_land=10.0)
    >>> hole = Measured(shape="round", **walls, mouth=10.0, floor=10.0 - 0.1131392)
    >>> is_cross_hole(hole, 1e-3)
    True
    """
    half = (m.z_near - m.z_far) / 2
    if m.shape in ("rectangular", "relief") or half >= WIDE_HOLE * m.mouth:
        return False
    depth = m.mouth - math.sqrt(m.mouth**2 - half**2)
    return abs(m.depth - depth) <= LIKE_HOLE * depth + fine / 2


def split_holes(row: Sequence[Measured], fine: float) -> tuple[tuple[Measured, ...], tuple[Measured, ...]]:
    """The recesses that are not cross holes, and the cross holes; what lies within one goes with it."""
    holes = [m for m in row if is_cross_hole(m, fine)]
    within = [m for m in row if any(h.z_near + fine >= m.z_near and m.z_far >= h.z_far - fine for h in holes)]
    return tuple(m for m in row if m not in within), tuple(holes)


def centre_lines_along(folded: Folded) -> list[tuple[float, float, float]]:
    """The centre lines along the axis and beside it: z of their ends, the greater first, and signed radius."""
    drawn = folded.drawn
    centre = np.array([s.pen is Pen.CENTRE for s in drawn.sources], dtype=bool)
    mine = drawn.ends[centre[drawn.source] & (drawn.bulge == 0)]
    rows = np.hstack([folded.axis.fold(mine[:, :2]), folded.axis.fold(mine[:, 2:])]).tolist()
    level = [row for row in rows if abs(row[1] - row[3]) <= folded.fine < min(abs(row[1]), abs(row[0] - row[2]))]
    return [(max(a, c), min(a, c), (b + d) / 2) for a, b, c, d in level]


def has_its_own_axis(f: FaceRecess, sign: int, lines: Sequence[tuple[float, float, float]], near: float) -> bool:
    """True if a centre line runs along the middle of a recess in a face, from end to end: it is a hole, no groove."""
    middle, (low, high) = sign * (f.outer + f.inner) / 2, sorted((f.z_face, f.z_floor))
    return any(abs(r - middle) <= near and a >= high - near and b <= low + near for a, b, r in lines)
