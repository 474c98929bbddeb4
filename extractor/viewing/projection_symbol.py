"""The symbol of first or third angle projection: a truncated cone beside the circles of its ends.

ISO 5456-2 (from memory) has it with both circles about the cone's axis, in the title block, at no given scale. A taper
that somebody turns is drawn alike, so a symbol is only what stands on a sheet beside another view and has no size.
"""

from collections.abc import Sequence

import numpy as np
import shapely

from extractor.finding import Point
from extractor.sheet import Circle, Sheet
from extractor.viewing.clusters import Ink
from extractor.viewing.evidence import ON_AXIS, is_plain
from extractor.viewing.views import View

AS_DRAWN = 0.05
"""The circles are as large as the ends within this share of the larger: symbols are drawn by hand as well."""

TAPERED = 0.9
"""The smaller end is no more than this share of the larger: half of it as a rule."""

BESIDE = 3.0
"""The middle of the circles is no farther from the cone than so many of its larger diameters."""

FINE = 2e-3
"""Share of a cone's size within which its lines run from corner to corner, and its smaller end is a point."""


def without_symbols(sheet: Sheet, ink: Ink, found: Sequence[View], at: Point | None) -> list[View]:
    """The views without those that are symbols, where another view is left; all of them where one is pointed to."""
    symbols = [v for v in found if at is None and is_symbol(sheet, ink, v)]
    mine = {k for v in symbols for k in v.members}
    left = [v for v in found if v not in symbols and not mine & set(v.members)]
    return left if any(not is_plain(ink, v) for v in left) else list(found)


def is_symbol(sheet: Sheet, ink: Ink, view: View) -> bool:
    """True for a truncated cone with nothing in it but its axis, beside two circles as large as its ends."""
    beside = [c for c in sheet.circles if _beside(view, c)]
    ends = _cone(ink, view) if beside else None
    if ends is None:
        return False
    near = AS_DRAWN * max(ends)
    pairs = [[c for c in beside if abs(c.radius - end) <= near] for end in ends]
    both = [(a, b) for a in pairs[0] for b in pairs[1] if np.hypot(*np.subtract(a.centre, b.centre)) <= near]
    if not both:
        return False
    sized = [p for d in sheet.dimensions for p in d.points]
    rings = [c for pair in both for c in pair]
    return not any(view.covers(p, near) or any(_covers(c, p, near) for c in rings) for p in sized)


def _cone(ink: Ink, view: View) -> tuple[float, float] | None:
    """Half the heights of the ends of a truncated cone; None where a view is no such."""
    if len(view.members) != 1 or view.halves != "both":
        return None
    cluster = ink.clusters[view.members[0]]
    rim = view.axis.fold(ink.boundary(cluster))
    fine = FINE * view.size
    low, high = (float(np.abs(rim[np.abs(rim[:, 0] - z) <= fine, 1]).max(initial=0.0)) for z in (view.low, view.high))
    if not fine < min(low, high) <= TAPERED * max(low, high):
        return None
    corners = [(view.low, low), (view.high, high), (view.high, -high), (view.low, -low)]
    outline = shapely.Polygon(corners).exterior
    edges = [ink.network.edges[k] for k in cluster.edges]
    inner = view.axis.fold(np.array([p for e in edges for p in (*map(ink.network.point, e[:2]), ink.network.mid(e))]))
    on_axis = np.abs(inner[:, 1]) <= ON_AXIS * view.size
    drawn = np.vstack([rim, inner[~on_axis]])
    return (low, high) if (shapely.distance(shapely.points(drawn), outline) <= fine).all() else None


def _beside(view: View, circle: Circle) -> bool:
    """True for a circle on the axis of a view, not far before or behind it."""
    along = float(view.axis.fold(np.array([circle.centre]))[0, 0])
    off, clear = view.about(circle)
    gap = max(view.low - along, along - view.high)
    return clear and off <= AS_DRAWN * view.reach and gap <= BESIDE * 2 * view.reach


def _covers(circle: Circle, at: Point, near: float) -> bool:
    return float(np.hypot(*np.subtract(circle.centre, at))) <= circle.radius + near
