"""Dots, small circles about the ends of dimension lines, in the place of arrow heads (ISO 129-1, from memory)."""

from collections.abc import Sequence

import numpy as np

from extractor.geometry.boxes import diagonal_of
from extractor.sheet import Circle, Floats
from extractor.viewing.tips import Tips

DOT = 0.02
"""A dot is no wider than this share of the diagonal of all that is drawn: larger circles are holes."""


def small_circles(tips: Tips, circles: Sequence[Circle]) -> list[Circle]:
    """The circles small enough to be dots."""
    most = DOT / 2 * diagonal_of(tips.at)
    return [c for c in circles if c.radius <= most]


def dots_among(tips: Tips, circles: Sequence[Circle]) -> Floats:
    """The middles of those, float (n, 2)."""
    return np.array([c.centre for c in small_circles(tips, circles)]).reshape(-1, 2)
