"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

Rules: a heading names a detail's letter and scale (`DETAIL Z (5:1)`), the same letter stands at a ring round a place of
the view (ISO 128-3, from memory). The walls and levels within the ring must be in the detail, that many times as far
apart. Then what is dimensioned there is dimensioned at the view; a detail that shows only the walls or only the levels
is another drawing of the same place, so one of the two is wrong.
"""

import math
import re
from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import replace
from itertools import product

import numpy as np
import numpy.typing as npt
import shapely

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.sheet import Circle, Dimension, Floats, Sheet, Text
from extractor.sizing.pointers import PointedNote, said
from extractor.sizing.sheet_words import DETAIL, RATIO, SCALE, folded
from extractor.sizing.ties import SQUARE, Features

HEADING = re.compile(rf"\W*(?:[^\W\d_]{{4,}}|x?)\W*\b([a-z])\b\W*(?:m|[^\W\d_]{{3,}})?\W*{RATIO}\W*")
"""Letter and scale of a detail, with or without a word, in any language, before each of them."""

NAMED = re.compile(rf"\W*{DETAIL}\W*\b[a-z]\b\W*(?:[^\W\d_]+\W*)?(?:{RATIO})?\W*")
"""The heading of a detail by its word, with its scale or without."""

LETTER = re.compile(r"[A-Z]", re.I)
"""What names a ring (ISO 128-3, from memory)."""

LONE_SCALE = re.compile(rf"\W*(?:{SCALE}\b|m\b)?\W*{RATIO}\W*")
"""A scale in a text of its own, which is under its heading as a rule."""

NEXT_LINE = 3.0
"""Letter heights of the larger text from a heading to its scale, at most, where each is a text of its own."""

LETTER_AT = 3.0
"""Letter heights beyond its rim within which a ring's letter stands, at most."""

WITHIN = 0.85
"""Share of a ring's radius within which a wall or level must be in the detail: the rim may cut off what is farther."""

REACH = 4.0
"""A detail lies within so many radii of its ring, as large as it is drawn, of its heading."""

BESIDE = 6.0
"""And so many letter heights more: sizes stand between them."""

QUARTERS = (1, -1), (-1, 1)
"""The signs of both coordinates once they are exchanged: a quarter turn one way and the other."""

LEAST = 2
"""Walls, or levels, that a ring must hold: one alone fits anywhere."""

ALONG, ACROSS = 0, 1
"""Along the axis, where walls lie, and across it, where levels do."""

SHORT = 0.05
"""Share of a ring's radius that a wall or level is long at least: shorter strokes are corners and arrow heads. By so
much the tip of a leader that holds its letter itself may be off the ring."""


def heard_at_the_view(sheet: Sheet, features: Features) -> tuple[tuple[Dimension, ...], tuple[Finding, ...]]:
    """The dimensions of a sheet, those of its details brought to the view, and the details that contradict it."""
    dimensions, findings = list(sheet.dimensions), []
    headings = titled(sheet.texts)
    unheard = {t.at: " ".join(t.text.split()) for t in headings if NAMED.fullmatch(folded(t.text))}
    for detail in _details(sheet, headings, features):
        ways = detail.ways()
        other = [] if ways or detail.lies_otherwise() else detail.missing()
        unheard[detail.heading.at] = " ".join(detail.heading.text.split())
        if other or len(ways) == 1:
            del unheard[detail.heading.at]
        if len(ways) == 1:
            dimensions = [detail.moved(d, ways[0]) for d in dimensions]
        if other:
            at = detail.ring.centre
            words = (
                f"Detail {detail.letter}, by its heading {detail.times:.4g} times as large as the view, has other "
                f"{' and '.join(other)} than the view within its ring at {place_words(at)}: ask which of the two is "
                "meant."
            )
            spots = (detail.heading.at,)
            findings.append(Finding(Level.STOP, DrawingCode.DETAIL_DIFFERS, words, at, spots=spots))
    for at, heading in unheard.items():
        words = (
            f'"{heading}" could not be matched with a place on the view, so no size at it was read: compare the groove '
            "with it, and read its tolerances yourself."
        )
        findings.append(Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, at))
    return tuple(dimensions), tuple(findings)


def titled(texts: Sequence[Text]) -> tuple[Text, ...]:
    """The texts, those with which a detail is headed joined with the scale that stands as a text under or over them."""
    scales = [t for t in texts if LONE_SCALE.fullmatch(folded(t.text))]
    found = []
    for text in texts:
        headed = scales and (LETTER.fullmatch(text.text.strip()) or NAMED.fullmatch(folded(text.text)))
        scale = min(
            (s for s in scales if headed and _is_next(s, text)), key=lambda s: math.dist(s.at, text.at), default=None
        )
        joined = text if scale is None else replace(text, text=f"{text.text} {scale.text}")
        found.append(joined if HEADING.fullmatch(folded(joined.text)) else text)
    return tuple(found)


def _is_next(text: Text, heading: Text) -> bool:
    """True for a text in the line under or over a heading, one beginning where the other does or amid it."""
    (begin, up), (end, _) = heading.seen(text.at), heading.seen(text.end)
    level = text.angle == heading.angle and 0 < abs(up) <= NEXT_LINE * max(text.height, heading.height)
    return level and begin <= math.dist(heading.at, heading.end) and end >= 0


def _details(sheet: Sheet, headings: Sequence[Text], features: Features) -> Iterator["_Detail"]:
    """Every detail whose letter stands once at a ring on the view, and that is drawn larger.

    Where the letter stands nowhere, it may be drawn as lines: its ring is the only one without that the detail fits.
    """
    on_view = [c for c in sheet.circles if _on_view(c.centre, c.radius, features)]
    letters = said(sheet, lambda words: LETTER.fullmatch(words.strip()) is not None) if headings and on_view else ()
    bare = [c for c in on_view if not any(_at_ring(note, c) for note in letters)]
    lines = sheet.segments.ends[sheet.segments.bulge == 0].reshape(-1, 2, 2)
    for text in headings:
        found = HEADING.fullmatch(folded(text.text))
        if found is None:
            continue
        top, bottom = (float(number.replace(",", ".")) for number in found.groups()[1:])
        times = top / bottom / features.frame.scale if bottom > 0 else 0.0
        letter = found[1].upper()
        named = [note for note in letters if note.words.strip().upper() == letter]
        rings = [c for c in on_view if any(_at_ring(t, c) for t in named)]
        clear = [c for c in (rings if named else bare) if times > 1 and not _on_view(text.at, c.radius, features)]
        made = [_Detail(features, text, letter, times, ring, lines) for ring in clear]
        made = made if named else [detail for detail in made if len(detail.ways()) == 1]
        if len(made) == 1 == len(rings or made):
            yield made[0]


def _on_view(at: Point, margin: float, features: Features) -> bool:
    """True if a place lies on the view or within a margin of it, which is smaller than the part."""
    (z, r), margin, part = features.frame.on_part(at), margin / features.frame.scale, features.part
    reach = part.outer_diameter / 2 + margin
    return -part.length - margin <= z <= margin and abs(r) <= reach < 2 * part.outer_diameter


def _at_ring(note: PointedNote, ring: Circle) -> bool:
    """True for a letter at a ring, or one that is led to it."""
    reach = max(LETTER_AT * note.height, SHORT * ring.radius)
    return any(abs(math.dist(at, ring.centre) - ring.radius) <= reach for at in (note.at, note.tip or note.at))


def _square(strokes: Floats, axis: int, radius: float) -> npt.NDArray[np.bool_]:
    """Which strokes, float (n, 2, 2), run as walls or levels do and are no corners, chords or arrow heads."""
    run = strokes[:, 1] - strokes[:, 0]
    size = np.hypot(*run.T)
    return np.asarray((np.abs(run[:, axis]) <= SQUARE * size) & (size >= SHORT * radius))


class _Detail:
    """A detail: its heading, its scale against the view, the ring on the view that it enlarges.

    `wanted`: of the walls, and of the levels, within the ring where each lies, and between what its ends do along the
    other axis, in z and radius. `strokes`: those of the detail that may be they, likewise.
    """

    def __init__(
        self, features: Features, heading: Text, letter: str, times: float, ring: Circle, lines: Floats
    ) -> None:
        """Bring the ring, and the strokes near the heading, into the part's frame."""
        self.features, self.heading, self.letter, self.times, self.ring = features, heading, letter, times, ring
        # The farthest that anything belonging to the detail lies from the heading.
        self.reach = REACH * times * ring.radius + BESIDE * heading.height
        self.radius = ring.radius / features.frame.scale
        close = np.hypot(*(lines - np.array(heading.at)).transpose(2, 0, 1)).max(axis=1) <= self.reach
        own = [ends for ends in lines[close].tolist() if not _on_view(ends[0], ring.radius, features)]
        near = [[features.frame.on_part(p) for p in ends] for ends in own]
        self.strokes: Floats = np.array(near, dtype=float).reshape(-1, 2, 2)
        self.wanted = self._wanted(ALONG), self._wanted(ACROSS)
        self.marks = [w for w, _, _ in self.wanted[ALONG]], self._levels()

    def _wanted(self, axis: int) -> list[tuple[float, float, float]]:
        """The walls (ALONG) or levels (ACROSS) that come well within the ring."""
        found: list[tuple[float, float, float]] = []
        middle = shapely.Point(self.features.frame.on_part(self.ring.centre))
        for side, (one, two) in product((1, -1), self.features.part.edges):
            a, b = (one[0], side * one[1]), (two[0], side * two[1])
            inside = shapely.LineString([a, b]).distance(middle) <= WITHIN * self.radius
            fit = inside and _square(np.array([(a, b)]), axis, self.radius).all()
            if fit and all(abs(a[axis] - other) > self.features.snap for other, _, _ in found):
                low, high = sorted((a[1 - axis], b[1 - axis]))
                found.append((a[axis], low, high))
        return sorted(found)

    def _levels(self) -> list[float]:
        """Where the levels lie within the ring; of fewer than it takes, with what its walls run from and to."""
        levels = {place for place, _, _ in self.wanted[ACROSS]}
        ends = {end for wall in self.wanted[ALONG] for end in wall[1:]} if len(levels) < LEAST else set()
        return sorted(levels | ends)

    def ways(self, behind: Sequence[bool] = (False, True)) -> list[Point]:
        """Every way to lay the detail on the view, enlarged: how far along the axis, and how far across it.

        By walls that end at floor and land, else, `behind`, by edges that all go on behind them toward the axis.
        """
        far = 2 * self.times * self.features.snap
        for going_on in behind:
            rows = [(up, self._heights(up)) for up in self._shifts(ACROSS)]
            ways = [(along, up) for up, between in rows for along in self._shifts(ALONG, between, going_on=going_on)]
            if ways:
                return [w for k, w in enumerate(ways) if all(math.dist(w, other) > far for other in ways[:k])]
        return []

    def lies_otherwise(self) -> bool:
        """True if the detail fits once it is turned by a quarter, as one of a part drawn upright may be."""
        turned = [copy(self) for _ in QUARTERS]
        for one, signs in zip(turned, QUARTERS, strict=True):
            one.strokes = self.strokes[:, :, ::-1] * signs
        return any(one.ways((False,)) for one in turned)

    def missing(self) -> list[str]:
        """What of the ring the detail has not, if it has no way to lie; nothing where either holds too little.

        Where neither walls nor heights are there, fewer strokes than the ring has are another thing beside the heading.
        """
        axes, snap = {"walls": ALONG, "heights": ACROSS}, self.features.snap
        few = [len(np.unique(np.round(self._drawn(axis) / snap))) < len(self.wanted[axis]) for axis in axes.values()]
        other = [what for what, axis in axes.items() if not self._shifts(axis)]
        if min(map(len, self.wanted)) < LEAST or (len(other) > 1 and any(few)):
            return []
        return other or ["walls"]

    def _shifts(
        self, axis: int, between: tuple[float, float] = (-math.inf, math.inf), *, going_on: bool = False
    ) -> list[float]:
        """How far a detail's walls (ALONG) or levels (ACROSS) may lie off the view's, enlarged from the part's origin.

        `between`: where the ends of those strokes lie, along the other axis; or beyond it toward the axis, `going_on`.
        """
        wanted, drawn = self.marks[axis], self._drawn(axis, between, going_on=going_on)
        if len(wanted) < LEAST or not len(drawn):
            return []
        near = self.times * self.features.snap
        tried = {float(d - self.times * wanted[0]) for d in drawn}
        return [s for s in tried if all(np.abs(drawn - (self.times * mark + s)).min() <= near for mark in wanted)]

    def _heights(self, up: float) -> tuple[float, float]:
        """Between which heights a detail's walls stand; extension lines and break lines reach beyond them.

        Anywhere where a wall of the view itself does.
        """
        levels = self.marks[ACROSS]
        slack = SHORT * (levels[-1] - levels[0])
        low, high = levels[0] - slack, levels[-1] + slack
        if any(bottom < low or top > high for _, bottom, top in self.wanted[ALONG]):
            return -math.inf, math.inf
        return self.times * low + up, self.times * high + up

    def _drawn(
        self, axis: int, between: tuple[float, float] = (-math.inf, math.inf), *, going_on: bool = False
    ) -> Floats:
        """Where the detail's strokes that run as walls or levels do lie."""
        others = self.strokes[:, :, 1 - axis]
        fit = _square(self.strokes, axis, self.times * self.radius)
        above, below = between[0] <= others.min(axis=1), others.max(axis=1) <= between[1]
        if going_on and sum(self.marks[ACROSS]) > 0:
            above = ~above
        elif going_on:
            below = ~below
        return np.asarray(self.strokes[fit & above & below][:, 0, axis], dtype=float)

    def moved(self, dimension: Dimension, shift: Point) -> Dimension:
        """A dimension of the detail as it would stand at the view; others as they are."""
        ends, frame = dimension.points[:2], self.features.frame
        near = [math.dist(p, self.heading.at) <= self.reach for p in ends]
        if not ends or not all(near) or any(_on_view(p, self.ring.radius, self.features) for p in ends):
            return dimension
        places = [frame.on_part(p) for p in dimension.points]
        moved = (frame.on_sheet((z - shift[0]) / self.times, (r - shift[1]) / self.times) for z, r in places)
        size, factor = dimension.measured / self.times, dimension.factor * self.times
        return replace(dimension, points=tuple(moved), measured=size, factor=factor)
