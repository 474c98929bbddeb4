"""Balloons: circles with a label whose lines end in a view, for items of an assembly or grooves of a table.

Numbers beside the dimensions, as inspectors write them, have no line into the view. Where some stand so, those that
have one number what is measured as well.
"""

import re
from collections.abc import Iterator

import numpy as np
import shapely

from extractor.finding import Point
from extractor.sheet import Circle, Pen, Sheet
from extractor.sizing.lettering.pointers import LedLabel
from extractor.viewing.axis import NO_OUTLINE
from extractor.viewing.views import View

NUMBER = re.compile(r"\d{1,3}")
"""What stands in a balloon: a part's number in the list of items (common practice, no source)."""

LETTER = re.compile(r"[A-Z]\d{0,2}")
"""The same for a row of a table of grooves (common practice, no source)."""

SMALL = 0.15
"""A balloon is smaller than this share of the view."""

WRITTEN = 1.2
"""A balloon's number begins within so many radii of its middle: one of three figures begins at the rim."""

AWAY = 2.0
"""Its line ends farther off than so many radii: what is shorter is the circle's own centre line."""

TOUCH = 1.1
"""A balloon's line begins within so many radii of its middle."""

BESIDE = 3.0
"""A number of a size stands, or its line ends, within so many radii of the size's lines: its text parts them."""


def balloons(sheet: Sheet, view: View) -> tuple[LedLabel, ...]:
    """The labelled circles whose lines end in a view, in the order of the file."""
    labels = [t.at for t in sheet.texts if _is_label(t.text)]
    small = [c for c in sheet.circles if c.radius < SMALL * view.size]
    if not labels or not small:
        return ()
    spots, reach = shapely.points([c.centre for c in small]), [WRITTEN * c.radius for c in small]
    holding = shapely.STRtree(shapely.points(labels)).query(spots, predicate="dwithin", distance=reach)[0]
    held = (small[k] for k in np.unique(holding).tolist() if not view.covers(small[k].centre))
    made = ((c, label, _tip(sheet, c, view)) for c in held if (label := ringed(sheet, c)))
    return tuple(LedLabel(label, c.centre, tip) for c, label, tip in made if tip is not None)


def led_elsewhere(sheet: Sheet, view: View) -> tuple[LedLabel, ...]:
    """The numbered circles whose lines end in other closed figures than a view: another part drawn beside it."""
    small = [c for c in sheet.circles if c.radius < SMALL * view.size and not view.covers(c.centre)]
    tips = [(c, foot) for c in small if NUMBER.fullmatch(ringed(sheet, c)) for foot in _feet(sheet, c)]
    away = [(c, foot) for c, foot in tips if not view.covers(foot)]
    if not away:
        return ()
    solid = sheet.segments.of(lambda s: s.pen is Pen.SOLID and s.owner not in NO_OUTLINE)
    lines = shapely.node(shapely.multilinestrings(shapely.linestrings(sheet.segments.ends[solid].reshape(-1, 2, 2))))
    faces, here = shapely.get_parts(shapely.polygonize([lines])), shapely.Point(view.middle)
    figures = [f for f in faces if not shapely.Polygon(f.exterior).contains(here)]
    return tuple(
        LedLabel(ringed(sheet, c), c.centre, foot)
        for c, foot in away
        if any(f.contains(shapely.Point(foot)) for f in figures)
    )


def number_sizes(sheet: Sheet, view: View) -> bool:
    """True if a numbered circle stands beside a dimension and leads nowhere, or leads to one: sizes are numbered.

    Those of an assembly's items all lead to parts, so none ends at a dimension's line clear of the view.
    """
    sizes = [d.line for d in sheet.dimensions if d.measured > 0 and not d.drawn]
    loose = sheet.segments.ends[sorted(sheet.measuring)].reshape(-1, 2, 2).tolist()
    lines = shapely.union_all(shapely.linestrings(np.array([*sizes, *loose]).reshape(-1, 2, 2)))
    small = [c for c in sheet.circles if c.radius < SMALL * view.size and not view.covers(c.centre)]
    for circle in small:
        if NUMBER.fullmatch(ringed(sheet, circle)):
            at = next(_feet(sheet, circle), circle.centre)
            if not view.covers(at) and shapely.dwithin(shapely.Point(at), lines, BESIDE * circle.radius):
                return True
    return False


def _is_label(text: str) -> bool:
    """True for what stands in a balloon."""
    return bool(NUMBER.fullmatch(text.strip()) or LETTER.fullmatch(text.strip()))


def ringed(sheet: Sheet, circle: Circle) -> str:
    """The label that alone stands in a circle, "" where there is none."""
    x, y = circle.centre
    inside = [t.text.strip() for t in sheet.texts if np.hypot(t.at[0] - x, t.at[1] - y) <= WRITTEN * circle.radius]
    return inside[0] if len(inside) == 1 and _is_label(inside[0]) else ""


def _tip(sheet: Sheet, circle: Circle, view: View) -> Point | None:
    """Where a line from a circle's rim or middle ends in the view."""
    return next((foot for foot in _feet(sheet, circle) if view.covers(foot)), None)


def _feet(sheet: Sheet, circle: Circle) -> Iterator[Point]:
    """Where lines from a circle's rim or middle end, in the order of the file."""
    for start, end in ((0, 2), (2, 0)):
        tips, feet = sheet.segments.ends[:, start : start + 2], sheet.segments.ends[:, end : end + 2]
        away = np.hypot(*(tips - np.array(circle.centre)).T)
        off = np.hypot(*(feet - np.array(circle.centre)).T) > AWAY * circle.radius
        yield from map(tuple, feet[off & (away <= TOUCH * circle.radius)].tolist())
