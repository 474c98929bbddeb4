"""Figures about centre lines of their own that cross: end views and cross-sections, wherever they stand on a sheet.

A cross-section that is moved out of its view stands anywhere under its letters, and so does a view by an arrow (ISO
128-3, from memory). What stands in line with a view on its axis and is no cross-section is an end view as projected.
"""

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import shapely

from extractor.finding import Point
from extractor.late import late
from extractor.sheet import Flags, Floats, Pen, Sheet, Text
from extractor.sizing.lettering.sheet_words import DETAIL, RATIO, SCALE, SECTION, VIEW
from extractor.sizing.lettering.sheet_words import folded as in_plain
from extractor.values import dataclass
from extractor.viewing.alike import ONE_PLACE, SQUARE
from extractor.viewing.axis import centre_segments
from extractor.viewing.clusters import Ink
from extractor.viewing.outline import Folded
from extractor.viewing.views import View

SCALED = rf"(?:\W+(?:{SCALE}|m)?\W*{RATIO})?\W*"
CUT = late(
    rf"\W*(?:[^\W\d_]{{2,}}\W*)?(?:\b([^\W\d_])\d? ?[-–—] ?\1\d?|{SECTION}\W+([^\W\d_]))\b"
    rf"(?:\W*[^\W\d_]{{2,}})?{SCALED}"
)
"""What heads a cross-section: its letter twice, or once behind the word (ISO 128-3, from memory)."""
SEEN = late(rf"\W*(?:[^\W\d_]+\W+)?{VIEW}\W+[^\W\d_]+{SCALED}")
"""What heads a view by an arrow."""
NEAR_TEXT = 6.0
"""A heading stands within so many letter heights of its figure."""
BETWEEN = 0.1
"""Centre lines cross in the middle of a figure within this share of its size, where a flat moves the middle."""
BESIDE_MARK = 2.5
"""A letter stands within so many letter heights of its mark, the end of the cutting plane."""
UPRIGHT = 0.01
"""A mark leans against the plane by no more than this share of its length."""
AS_HIGH = 0.05
"""A figure in line with another that is as high as one of its circles, within this share, is the end of that."""
DIPS = 0.98
"""The rim of a round figure comes nowhere nearer its middle than this share of its radius: its arcs are chords."""
LEAST = 0.4
"""A figure under no heading is no end of the part if it is smaller than this share of it: a hole, a symbol."""


@dataclass(frozen=True)
class RoundFigure:
    """A figure about crossed centre lines: its rim, float (n, 2), none where it is circles alone, and their radii.

    `letter`: of the cutting plane whose section it is; `times`: how many times as large the heading says that it is.
    """

    middle: Point
    rings: tuple[float, ...]
    rim: Floats
    heading: str = ""
    letter: str = ""
    times: float = 1.0

    @property
    def reach(self) -> float:
        """Its greatest radius."""
        return max(*self.rings, _reach(self.rim, self.middle), 0.0)

    @property
    def is_round(self) -> bool:
        """True for circles alone, and for a rim that stays on a circle."""
        return not len(self.rim) or is_on_circle(self.rim, self.middle)


class _Cross(NamedTuple):
    """Where two centre lines cross squarely, and their ends."""

    at: Point
    ends: tuple[list[float], list[float]]


def round_figures(sheet: Sheet, ink: Ink, view: View, known: frozenset[int]) -> list[RoundFigure]:
    """The figures clear of a view, the outermost of each place; clusters in `known` are views themselves.

    In line with the axis of the view only cross-sections; none that stands in line with a view of another part.
    """
    crosses = list(_crosses(sheet, view))
    if not crosses:
        return []
    closed = np.array([c.closed and k not in view.members for k, c in enumerate(ink.clusters)], dtype=bool)
    boxes = np.array([c.box for c in ink.clusters]).reshape(-1, 4)
    about = [np.flatnonzero(closed & _about(boxes, cross.at)) for cross in crosses]
    closed[[k for rows in about for k in rows]] = False
    found = list[tuple[RoundFigure, _Cross]]()
    for cross, rows in zip(crosses, about, strict=True):
        rims = [ink.boundary(ink.clusters[k]) for k in rows.tolist() if k not in known]
        figure = _figure(sheet, view, cross.at, sorted(rims, key=lambda rim: _reach(rim, cross.at)))
        found += [(figure, cross)] if figure is not None else []
    found.sort(key=lambda row: -row[0].reach)
    outermost = [row for k, row in enumerate(found) if not any(_holds(o, row[0]) for o, _ in found[:k])]
    headed = [(_headed(f, sheet.texts), cross) for f, cross in outermost]
    sides = [ink.clusters[k].samples for k in np.flatnonzero(closed)]
    return [f for f, cross in headed if f and (f.letter or (_astray(f, view) and not _end_of(sides, cross, f)))]


def _holds(one: RoundFigure, two: RoundFigure) -> bool:
    return math.dist(one.middle, two.middle) < one.reach


def _astray(figure: RoundFigure, view: View) -> bool:
    """True for what may be an end view and does not stand as one is projected."""
    in_line = abs(view.axis.place(figure.middle)[1]) <= ONE_PLACE * view.size
    return not in_line and (bool(figure.heading) or figure.reach >= LEAST * view.reach)


def _crosses(sheet: Sheet, view: View) -> Iterator[_Cross]:
    """Where centre lines cross squarely outside of a view, each place once."""
    ends = sheet.segments.ends[centre_segments(sheet.segments)]
    lines = shapely.linestrings(ends.reshape(-1, 2, 2))
    one, two = shapely.STRtree(lines).query(lines, "intersects")
    one, two = one[one < two], two[one < two]
    (x, y), size = (ends[:, 2:] - ends[:, :2]).T, np.hypot(*(ends[:, 2:] - ends[:, :2]).T)
    square = np.abs(x[one] * y[two] - y[one] * x[two]) > math.sin(SQUARE) * size[one] * size[two]
    one, two = one[square], two[square]
    places = shapely.get_coordinates(shapely.centroid(shapely.intersection(lines[one], lines[two])))
    clear = ~view.covering(places, ONE_PLACE * view.size)
    seen = set[Point]()
    for (px, py), a, b in zip(places[clear].tolist(), one[clear].tolist(), two[clear].tolist(), strict=True):
        at = round(px, 6) + 0.0, round(py, 6) + 0.0
        if at not in seen:
            seen.add(at)
            yield _Cross(at, (ends[a].tolist(), ends[b].tolist()))


def _about(boxes: Floats, at: Point) -> Flags:
    """Which boxes, float (n, 4), have their middle at a place, or so near as those of a round with a flat."""
    low, high = boxes[:, :2], boxes[:, 2:]
    off = np.abs((low + high) / 2 - at).max(axis=1)
    about: Flags = (low < at).all(axis=1) & (high > at).all(axis=1) & (off <= BETWEEN * np.hypot(*(high - low).T))
    return about


def _figure(sheet: Sheet, view: View, at: Point, rims: Sequence[Floats]) -> RoundFigure | None:
    """What is drawn about a place, with the rims of what closes there, the outermost last.

    None where nothing is, or where it reaches into the view.
    """
    near, solid = ONE_PLACE * view.size, (c for c in sheet.circles if c.source.pen is Pen.SOLID)
    rings = [c.radius for c in solid if math.dist(c.centre, at) <= near]
    outer = rims[-1] if rims and _reach(rims[-1], at) >= max(rings, default=0.0) - near else np.zeros((0, 2))
    rings += [_reach(rim, at) for rim in rims if rim is not outer and is_on_circle(rim, at)]
    if not rings and not len(outer):
        return None
    figure = RoundFigure(at, tuple(rings), outer)
    along, across = view.axis.place(at)
    apart = max(view.low - along, along - view.high, abs(across) - view.reach) >= figure.reach - near
    return figure if apart else None


def _reach(rim: Floats, at: Point) -> float:
    return float(np.hypot(*(rim - at).T).max(initial=0.0))


def is_on_circle(rim: Floats, at: Point) -> bool:
    """True if no corner of a rim, and no edge of its hull, lies off a circle about a place."""
    hull = shapely.multipoints(rim).convex_hull
    least = min(float(np.hypot(*(rim - at).T).min()), float(hull.boundary.distance(shapely.Point(at))))
    return bool(hull.contains(shapely.Point(at)) and least >= DIPS * _reach(rim, at))


def _end_of(sides: Sequence[Floats], cross: _Cross, figure: RoundFigure) -> bool:
    """True if one of other figures stands in line with it on a centre line, as high as one of its circles."""
    sizes = np.array([*figure.rings, figure.reach])
    for a, b, c, d in cross.ends:
        across = np.array([b - d, c - a]) / math.hypot(c - a, d - b)
        spans = ((off.min(), off.max()) for off in ((side - figure.middle) @ across for side in sides))
        for low, high in spans:
            half = (high - low) / 2
            if abs(low + high) / 2 <= AS_HIGH * half and (np.abs(sizes - half) <= AS_HIGH * half).any():
                return True
    return False


def _headed(figure: RoundFigure, texts: Iterable[Text]) -> RoundFigure | None:
    """The figure with what the nearest heading beside it says, None where that names a detail."""
    rows = []
    for text in texts:
        away = shapely.LineString([text.at, text.end]).distance(shapely.Point(figure.middle)) - figure.reach
        if text.height > 0 and away <= NEAR_TEXT * text.height and (head := _read(in_plain(text.text))) is not None:
            rows.append((away, text.text.strip(), head))
    if not rows:
        return figure
    _, words, (letter, times) = min(rows)
    if letter == NO_END:
        return None
    return replace(figure, heading=words, letter=letter, times=times)


NO_END = "detail"
_DETAIL = late(rf"\W*{DETAIL}\b.*")
_RATIO = re.compile(RATIO)


def _read(words: str) -> tuple[str, float] | None:
    """The letter of a section, nothing for a view, and the scale in a heading; None for other words."""
    cut = CUT.fullmatch(words)
    ratio = _RATIO.search(words)
    top, bottom = (float(n.replace(",", ".")) for n in ratio.groups()) if ratio else (1.0, 1.0)
    times = top / bottom if top and bottom else 1.0
    if _DETAIL.fullmatch(words):
        return NO_END, times
    if cut is not None:
        return (cut[1] or cut[2]).upper(), times
    return ("", times) if SEEN.fullmatch(words) else None


def planes(sheet: Sheet, folded: Folded, letter: str) -> list[float]:
    """Where along the axis of a view the cutting plane of a letter is marked: at both its letters, else at one."""
    view = folded.view
    texts = [t for t in sheet.texts if t.height > 0 and t.text.strip().upper() == letter and not view.covers(t.at)]
    rows = [row for row in (_marks(sheet, folded, t) for t in texts) if row]
    near = ONE_PLACE * view.size
    both = [z for k, row in enumerate(rows) for z in row for o in rows[k + 1 :] if min(abs(z - w) for w in o) <= near]
    return both or [z for row in rows for z in row]


def _marks(sheet: Sheet, folded: Folded, text: Text) -> list[float]:
    """Where along the axis lines square to it end beyond the view beside a letter."""
    ends, view = sheet.segments.ends[sheet.segments.bulge == 0], folded.view
    a, b = folded.axis.fold(ends[:, :2]), folded.axis.fold(ends[:, 2:])
    size = np.hypot(*(b - a).T)
    fit = (np.abs(a[:, 0] - b[:, 0]) <= UPRIGHT * size) & (size > 0)
    fit &= np.maximum(np.abs(a[:, 1]), np.abs(b[:, 1])) > view.reach + ONE_PLACE * view.size
    rows = np.flatnonzero(fit)
    lines = shapely.linestrings(ends[rows].reshape(-1, 2, 2))
    beside = shapely.dwithin(lines, shapely.LineString([text.at, text.end]), BESIDE_MARK * text.height)
    found: list[float] = a[rows[beside], 0].tolist()
    return found
