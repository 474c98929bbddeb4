"""Cross holes on the outline: where a hole is drilled square to the axis, the silhouette dips between its walls.

At a height R a hole of radius a takes the silhouette down to sqrt(R^2 - (a^2 - z^2)), z from the hole's middle, so it
is deepest in the middle, by R - sqrt(R^2 - a^2). A recess of just that width and depth is a hole, not a groove.
"""

import math
from collections.abc import Sequence

from extractor.recess.shapes import Measured


def is_cross_hole(m: Measured, fine: float) -> bool:
    """True for a recess, not straight-walled, as wide and deep as the mouth of a cross hole.

    >>> walls = dict(z_near=1.5, z_far=-1.5, near_land=10.0, far_land=10.0)
    >>> hole = Measured(shape="round", **walls, mouth=10.0, floor=10.0 - 0.1131392)
    >>> is_cross_hole(hole, 1e-3)
    True
    """
    half = (m.z_near - m.z_far) / 2
    if m.shape in ("rectangular", "relief") or half >= 0.9 * m.mouth:
        return False
    depth = m.mouth - math.sqrt(m.mouth**2 - half**2)
    return abs(m.depth - depth) <= 0.02 * depth + fine / 2


def split_holes(row: Sequence[Measured], fine: float) -> tuple[tuple[Measured, ...], tuple[Measured, ...]]:
    """The recesses that are none, and the cross holes; what lies within one goes with it."""
    holes = [m for m in row if is_cross_hole(m, fine)]
    within = [m for m in row if any(h.z_near + fine >= m.z_near and m.z_far >= h.z_far - fine for h in holes)]
    return tuple(m for m in row if m not in within), tuple(holes)
