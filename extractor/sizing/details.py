"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

Rules: a heading names a detail's letter and scale (`DETAIL Z (5:1)`), the same letter stands at a ring round a place of
the view (ISO 128-3, from memory). The walls and levels within the ring must be in the detail, that many times as far
apart. Then what is dimensioned there is dimensioned at the view; a detail that shows only the walls or only the levels
is another drawing of the same place, so one of the two is wrong.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.part import Frame, Part
from extractor.sheet import Circle, Dimension, Floats, Sheet, Text
from extractor.sizing.ties import SQUARE, Features
from extractor.values import dataclass

HEADING = re.compile(
    r"\W*(?:[^\W\d_]{4,}|X?)\W*\b([A-Z])\b\W*(?:M|[^\W\d_]{3,})?\W*(\d+(?:[.,]\d+)?)\s*:\s*(\d+(?:[.,]\d+)?)\W*",
    re.I,
)
"""Letter and scale of a detail, with or without a word, in any language, before each of them."""

NAMED = re.compile(
    r"\W*(?:D[ÉE]TAIL|EINZELHEIT|DETTAGLIO|PARTICOLARE|DETALLE|DETALJ|SZCZEG[ÓO][ŁL])\W*\b[A-Z]\b\W*"
    r"(?:[^\W\d_]+\W*)?(?:\d+(?:[.,]\d+)?\s*:\s*\d+(?:[.,]\d+)?)?\W*",
    re.I,
)
"""The heading of a detail by its word, with its scale or without."""

LETTER_AT = 3.0
"""Letter heights beyond its rim within which a ring's letter stands, at most."""

WITHIN = 0.85
"""Share of a ring's radius within which a wall or level must be in the detail: the rim may cut off what is farther."""

REACH = 4.0
"""A detail lies within so many radii of its ring, as large as it is drawn, of its heading."""

BESIDE = 6.0
"""And so many letter heights more: sizes stand between them."""

LEAST = 2
"""Walls, or levels, that a ring must hold: one alone fits anywhere."""

ALONG, ACROSS = 0, 1
"""Along the axis, where walls lie, and across it, where levels do."""

SHORT = 0.05
"""Share of a ring's radius that a wall or level is long at least: shorter strokes are corners and arrow heads."""


@dataclass(frozen=True)
class Detail:
    """A detail: its heading, its scale against the view, and the ring on the view that it enlarges."""

    heading: Text
    letter: str
    times: float
    ring: Circle

    @property
    def reach(self) -> float:
        """The farthest that anything belonging to the detail lies from the heading."""
        return REACH * self.times * self.ring.radius + BESIDE * self.heading.height


def heard_at_the_view(sheet: Sheet, part: Part) -> tuple[tuple[Dimension, ...], tuple[Finding, ...]]:
    """The dimensions of a sheet, those of its details brought to the view, and the details that contradict it."""
    dimensions, findings = list(sheet.dimensions), []
    frame = part.frame
    if frame is None:
        return sheet.dimensions, ()
    unheard = {t.at: t for t in sheet.texts if NAMED.fullmatch(" ".join(t.text.split()))}
    for detail in _details(sheet, part, frame):
        marks = _Marks(detail, sheet, part, frame)
        ways = marks.ways()
        other = [] if ways else marks.missing()
        if len(ways) == 1:
            dimensions = [_moved(d, detail, ways[0], part, frame) for d in dimensions]
        if other:
            findings.append(_differs(detail, " and ".join(other)))
        if other or len(ways) == 1:
            unheard.pop(detail.heading.at, None)
    return tuple(dimensions), (*findings, *map(_not_compared, unheard.values()))


def _details(sheet: Sheet, part: Part, frame: Frame) -> Iterator[Detail]:
    """Every detail whose letter stands once at a ring on the view, and that is drawn larger."""
    for text in sheet.texts:
        found = HEADING.fullmatch(" ".join(text.text.split()))
        if found is None:
            continue
        top, bottom = (float(number.replace(",", ".")) for number in found.groups()[1:])
        times = top / bottom / frame.scale if bottom > 0 else 0.0
        letter = found[1].upper()
        rings = [
            c
            for c in sheet.circles
            if _on_view(c.centre, c.radius, part, frame) and any(_at_ring(t, letter, c) for t in sheet.texts)
        ]
        if times > 1 and len(rings) == 1 and not _on_view(text.at, rings[0].radius, part, frame):
            yield Detail(text, letter, times, rings[0])


def _on_view(at: Point, margin: float, part: Part, frame: Frame) -> bool:
    """True if a place lies on the view or within a margin of it, which is smaller than the part."""
    (z, r), margin = frame.on_part(at), margin / frame.scale
    reach = part.outer_diameter / 2 + margin
    return -part.length - margin <= z <= margin and abs(r) <= reach < 2 * part.outer_diameter


def _at_ring(text: Text, letter: str, ring: Circle) -> bool:
    """True for a ring's letter."""
    beyond = math.dist(text.at, ring.centre) - ring.radius
    return text.text.strip().upper() == letter and abs(beyond) <= LETTER_AT * text.height


class _Marks:
    """The walls and levels within a detail's ring, and the strokes of the detail that may be they, in z and radius."""

    def __init__(self, detail: Detail, sheet: Sheet, part: Part, frame: Frame) -> None:
        """Bring the ring, and the strokes near the heading, into the part's frame."""
        self.times, self.snap = detail.times, Features.of(part, frame).snap
        self._middle, self._reach = frame.on_part(detail.ring.centre), detail.ring.radius / frame.scale
        self._part, lines = part, sheet.segments.ends[sheet.segments.bulge == 0].reshape(-1, 2, 2)
        close = np.hypot(*(lines - np.array(detail.heading.at)).transpose(2, 0, 1)).max(axis=1) <= detail.reach
        near = [
            [frame.on_part(p) for p in (a, b)]
            for a, b in lines[close].tolist()
            if not _on_view(a, detail.ring.radius, part, frame)
        ]
        self._strokes: Floats = np.array(near, dtype=float).reshape(-1, 2, 2)

    def ways(self) -> list[tuple[float, float]]:
        """Every way to lay the detail on the view, enlarged: how far along the axis, and how far across it."""
        ways = [(along, up) for up in self._shifts(ACROSS) for along in self._shifts(ALONG, self._heights(up))]
        far = 2 * self.times * self.snap
        return [w for k, w in enumerate(ways) if all(math.dist(w, other) > far for other in ways[:k])]

    def missing(self) -> list[str]:
        """What of the ring the detail has not, if it has no way to lie; nothing where either holds too little.

        Where neither walls nor heights are there, fewer strokes than the ring has are another thing beside the heading.
        """
        axes = {"walls": ALONG, "heights": ACROSS}
        wanted = {what: len(self._wanted(axis)) for what, axis in axes.items()}
        drawn = {what: len(np.unique(np.round(self._drawn(axis) / self.snap))) for what, axis in axes.items()}
        other = [what for what, axis in axes.items() if not self._shifts(axis)]
        if min(wanted.values()) < LEAST or (len(other) > 1 and any(drawn[what] < wanted[what] for what in axes)):
            return []
        return other or ["walls"]

    def _shifts(self, axis: int, between: tuple[float, float] = (-math.inf, math.inf)) -> list[float]:
        """How far a detail's walls (ALONG) or levels (ACROSS) may lie off the view's, enlarged from the part's origin.

        `between`: where the ends of those strokes lie, along the other axis.
        """
        wanted, drawn = [place for place, _, _ in self._wanted(axis)], self._drawn(axis, between)
        if len(wanted) < LEAST or not len(drawn):
            return []
        near = self.times * self.snap
        tried = {float(d - self.times * wanted[0]) for d in drawn}
        return [s for s in tried if all(np.abs(drawn - (self.times * mark + s)).min() <= near for mark in wanted)]

    def _heights(self, up: float) -> tuple[float, float]:
        """Between which heights a detail's walls stand; extension lines and break lines reach beyond them.

        Anywhere where a wall of the view itself does.
        """
        levels = [place for place, _, _ in self._wanted(ACROSS)]
        slack = SHORT * (levels[-1] - levels[0])
        low, high = levels[0] - slack, levels[-1] + slack
        if any(bottom < low or top > high for _, bottom, top in self._wanted(ALONG)):
            return -math.inf, math.inf
        return self.times * low + up, self.times * high + up

    def _wanted(self, axis: int) -> list[tuple[float, float, float]]:
        """Where the walls or the levels within the ring lie, and between what their ends do along the other axis."""
        found: list[tuple[float, float, float]] = []
        for line in (self._part.outline, self._part.bore or ()):
            for side in (1, -1):
                for a, b in pairwise((z, side * r) for z, r in line):
                    fit = self._square(np.array([(a, b)]), axis, self._reach).all() and self._through(a, b)
                    if fit and all(abs(a[axis] - other) > self.snap for other, _, _ in found):
                        ends = a[1 - axis], b[1 - axis]
                        found.append((a[axis], min(ends), max(ends)))
        return sorted(found)

    def _through(self, a: Point, b: Point) -> bool:
        """True if a stretch comes well within the ring."""
        stretch = shapely.LineString([a, b])
        return bool(stretch.distance(shapely.Point(self._middle)) <= WITHIN * self._reach)

    @staticmethod
    def _square(strokes: Floats, axis: int, radius: float) -> npt.NDArray[np.bool_]:
        """Which strokes, float (n, 2, 2), run as walls or levels do and are no corners, chords or arrow heads."""
        run = strokes[:, 1] - strokes[:, 0]
        size = np.hypot(*run.T)
        return np.asarray((np.abs(run[:, axis]) <= SQUARE * size) & (size >= SHORT * radius))

    def _drawn(self, axis: int, between: tuple[float, float] = (-math.inf, math.inf)) -> Floats:
        """Where the detail's strokes that run as walls or levels do lie."""
        others = self._strokes[:, :, 1 - axis]
        fit = self._square(self._strokes, axis, self.times * self._reach)
        fit &= (between[0] <= others.min(axis=1)) & (others.max(axis=1) <= between[1])
        return np.asarray(self._strokes[fit][:, 0, axis], dtype=float)


def _moved(dimension: Dimension, detail: Detail, shift: tuple[float, float], part: Part, frame: Frame) -> Dimension:
    """A dimension of a detail as it would stand at the view; others as they are."""
    ends = dimension.points[:2]
    own = all(
        math.dist(p, detail.heading.at) <= detail.reach and not _on_view(p, detail.ring.radius, part, frame)
        for p in ends
    )
    if not ends or not own:
        return dimension
    places = [frame.on_part(p) for p in dimension.points]
    moved = (frame.on_sheet((z - shift[0]) / detail.times, (r - shift[1]) / detail.times) for z, r in places)
    size, factor = dimension.measured / detail.times, dimension.factor * detail.times
    return replace(dimension, points=tuple(moved), measured=size, factor=factor)


def _not_compared(heading: Text) -> Finding:
    """The caution for a detail that could not be laid on the view, or was not found."""
    words = (
        f'What "{" ".join(heading.text.split())}" shows could not be held against the view: see that the groove is as '
        "it is drawn and sized there."
    )
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, heading.at)


def _differs(detail: Detail, what: str) -> Finding:
    """The stop for a detail that is drawn otherwise than the view."""
    heading, (x, y) = detail.heading.at, detail.ring.centre
    words = (
        f"Detail {detail.letter}, by its heading {detail.times:.4g} times as large as the view, has other {what} than "
        f"the view within its ring at X{x:.4g} Y{y:.4g}: ask which of the two is meant."
    )
    return Finding(Level.STOP, DrawingCode.DETAIL_DIFFERS, words, (x, y), spots=(heading,))
