"""Item balloons: numbered circles whose lines end in a view say that it shows several parts put together.

Numbers beside the dimensions, as inspectors write them, have no line into the view.
"""

import re

import numpy as np

from extractor.finding import Point
from extractor.sheet import Circle, Sheet
from extractor.viewing.views import View

NUMBER = re.compile(r"\d{1,3}")
"""What stands in a balloon: a part's number in the list of items (common practice, no source)."""

SMALL = 0.15
"""A balloon is smaller than this share of the view."""

TOUCH = 1.1
"""A balloon's line begins within so many radii of its middle."""


def balloons(sheet: Sheet, view: View) -> tuple[Point, ...]:
    """The middles of the numbered circles whose lines end in a view."""
    small = [c for c in sheet.circles if c.radius < SMALL * view.size and _numbered(sheet, c)]
    return tuple(c.centre for c in small if not view.covers(c.centre) and _points_into(sheet, c, view))


def _numbered(sheet: Sheet, circle: Circle) -> bool:
    """True if a number and nothing else stands in a circle."""
    x, y = circle.centre
    inside = [t.text.strip() for t in sheet.texts if np.hypot(t.at[0] - x, t.at[1] - y) <= 1.2 * circle.radius]
    return len(inside) == 1 and bool(NUMBER.fullmatch(inside[0]))


def _points_into(sheet: Sheet, circle: Circle, view: View) -> bool:
    """True if a line runs from a circle's rim or middle into the view."""
    for start, end in ((0, 2), (2, 0)):
        tips, feet = sheet.segments.ends[:, start : start + 2], sheet.segments.ends[:, end : end + 2]
        away = np.hypot(*(tips - np.array(circle.centre)).T)
        off = np.hypot(*(feet - np.array(circle.centre)).T) > 2 * circle.radius
        if (off & (away <= TOUCH * circle.radius) & view.covering(feet)).any():
            return True
    return False
