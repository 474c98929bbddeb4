"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

Rules: a heading names a detail's letter and scale (`DETAIL Z (5:1)`), the same letter stands at a ring round a place of
the view, which may be an oval by hand (ISO 128-3, from memory), or a leader to a groove names the detail (`SEE DETAIL
Z`). The outline within the ring must be in the detail, that
many times as large; where no scale is printed, so many times as the one usual scale says that fits. Then what is
dimensioned there is dimensioned at the view; a detail that shows something else is another drawing of the same place,
so one of the two is wrong.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Pen, Segments, Sheet, Text
from extractor.sizing.details.headings import HEADING, LETTER, NAMED, led_letter, titled
from extractor.sizing.details.same_shape import SHORT, DetailStrokes, Shape, sizes_apart
from extractor.sizing.lettering.pointers import NO_LEADER, PointedNote, said
from extractor.sizing.lettering.sheet_words import folded
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.led_words import led_texts
from extractor.values import dataclass

USUAL = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 25.0, 50.0)
"""The scales tried where the one that is printed does not fit, or none is (ISO 5455 and those between, from memory)."""

LETTER_AT = 3.0
"""Letter heights beyond its rim within which a ring's letter stands, at most."""

SMOOTH = 42.0
"""Degrees by which the line of a ring turns at each of its points, at most: a frame of eight corners is none."""

WITHIN = 0.85
"""Share of a ring's radius within which the outline must be in the detail: the rim may cut off what is farther."""

ROUND_IT = 1.05
"""The ring that a leader to a groove stands for holds the groove in so many times the reach that its corners need."""

REACH = 4.0
"""A detail lies within so many radii of its ring, as large as it is drawn, of its heading, and what is sized in it
within so many of the ring's middle: more is drawn than the ring holds."""

BESIDE = 6.0
"""And so many letter heights more: sizes stand between them."""

QUARTERS = (1j, -1j)
"""A quarter turn one way and the other: a detail may stand so beside a part drawn upright, and is then told of."""


class _DetailRing(NamedTuple):
    """A ring round a place of the view: how near its middle its line comes, and how far from it that goes."""

    centre: Point
    radius: float
    outer: float


def heard_at_the_view(sheet: Sheet, features: Features) -> tuple[Sheet, tuple[Finding, ...]]:
    """The sheet with what is printed at its details brought to the view, and the details that contradict it."""
    headings = titled(sheet.texts)
    every = [*_details(sheet, headings, features)]
    held = [detail for detail in every if len(detail.ways) == 1]
    findings = [odd for detail in held for odd in detail.corners_unlike()]
    lost = _letters_lost(sheet, headings, features)
    unheard = {t.at: " ".join(t.text.split()) for t in headings if _is_headed(t, sheet.texts, features, lost)}
    for detail in every:
        other = "" if detail.ways else detail.other
        unheard[detail.heading.at] = " ".join(detail.heading.text.split())
        if other or detail in held:
            unheard.pop(detail.heading.at)
        if other:
            at = detail.ring.centre
            words = (
                f"Detail {detail.letter}, by its heading {detail.times:.4g} times as large as the view, {other} "
                f"the view within its ring at {place_words(at)}{detail.sizes_apart}: ask which of the two is meant."
            )
            spots = (detail.heading.at,)
            findings.append(Finding(Level.STOP, DrawingCode.DETAIL_DIFFERS, words, at, spots=spots))
    told = {detail.letter for detail in every if detail.heading.at not in unheard}
    for note, _ in _led(sheet, features) if told else ():
        if led_letter(note.words) in told:
            unheard.pop(note.at, None)  # what a leader says is no heading of its own
    for at, heading in unheard.items():
        words = (
            f'"{heading}" could not be matched with a place on the view, so no size at it was read: compare the groove '
            "with it, and read its tolerances yourself."
        )
        findings.append(Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, at))
    loose = [(text, led) for text, led in led_texts(sheet) if not NAMED.fullmatch(folded(text.text))]
    led = [(text, moved) for text, d in loose for moved in _at_the_view(d, held) if moved is not d]
    used, titles = [text for text, _ in led], {detail.heading.at for detail in held}
    letters = {detail.letter for detail in held}
    texts = tuple(t for t in sheet.texts if not (t in used or t.at in titles or led_letter(t.text) in letters))
    own = [d for d in sheet.dimensions if d.kind is not DimensionKind.LEADER or led_letter(d.text or "") not in letters]
    dimensions = [moved for d in own for moved in _at_the_view(d, held)]
    return replace(sheet, dimensions=(*dimensions, *(moved for _, moved in led)), texts=texts), tuple(findings)


def without_rings(sheet: Sheet, features: Features, findings: Sequence[Finding]) -> list[Finding]:
    """Findings but those for closed lines that were left out and are the ring of a detail that is held."""
    if not any(f.code == DrawingCode.LEFT_OUT for f in findings):
        return list(findings)
    rings = [d.ring for d in _details(sheet, titled(sheet.texts), features) if len(d.ways) == 1]
    return [
        f
        for f in findings
        if f.code != DrawingCode.LEFT_OUT or f.at is None or not any(_in_ring(f.at, r) for r in rings)
    ]


def _in_ring(at: Point, ring: _DetailRing) -> bool:
    """True for a place within a ring."""
    return math.dist(at, ring.centre) <= ring.outer


def _at_the_view(dimension: Dimension, held: Sequence["_Detail"]) -> list[Dimension]:
    """A dimension of a detail as it would stand at each ring of the detail that it lies in; others as they are."""
    own = min(held, key=lambda detail: detail.off(dimension), default=None)
    if own is None or own.off(dimension) > REACH:
        return [dimension]
    return [detail.moved(dimension) for detail in held if detail.heading.at == own.heading.at]


def _is_headed(text: Text, texts: Sequence[Text], features: Features, lost: bool) -> bool:
    """True for the heading of a detail: by its word, or by its scale if its letter stands at the view alone.

    Or nowhere, where the letter of a ring is `lost`: that of no heading.
    """
    line = folded(text.text)
    scaled = HEADING.fullmatch(line)
    if scaled is None or NAMED.fullmatch(line):
        return NAMED.fullmatch(line) is not None
    top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
    own = [t for t in texts if folded(t.text) == scaled[1]]
    at_view = any(_on_view(t.at, LETTER_AT * t.height, features) for t in own)
    return top > bottom * features.frame.scale and (at_view or (lost and not own))


def _letters_lost(sheet: Sheet, headings: Sequence[Text], features: Features) -> bool:
    """True if a letter at a ring on the view is that of no heading on a sheet that has some."""
    lines = [folded(text.text) for text in headings]
    named = [found[1].upper() for line in lines if (found := HEADING.fullmatch(line) or NAMED.fullmatch(line))]
    return bool(named) and any(
        note.words.strip().upper() not in named and any(_at_ring(note, ring) for ring in _rings(sheet, features))
        for note in _letters(sheet)
    )


def _letters(sheet: Sheet) -> tuple[PointedNote, ...]:
    """The texts that may be the letter of a ring."""
    return said(sheet, lambda words: LETTER.fullmatch(words.strip()) is not None)


def _rings(sheet: Sheet, features: Features) -> list[_DetailRing]:
    """The rings on the view, ovals by hand last."""
    round_ones = (_DetailRing(c.centre, c.radius, c.radius) for c in sheet.circles)
    ovals = _ovals(sheet.segments, features.snap * features.frame.scale)
    return [c for c in (*round_ones, *ovals) if _on_view(c.centre, c.outer, features)]


def _details(sheet: Sheet, headings: Sequence[Text], features: Features) -> Iterator["_Detail"]:
    """Every detail whose letter stands at a ring on the view, and that is drawn larger; at several, if it fits all.

    Where the letter stands nowhere, it may be drawn as lines: its ring is the only one without that the detail fits.
    """
    on_view = _rings(sheet, features) if headings else []
    letters = _letters(sheet) if on_view else ()
    led = _led(sheet, features) if headings else []
    bare = [c for c in on_view if c.radius == c.outer and not any(_at_ring(note, c) for note in letters)]
    lines = _lines(sheet)
    for text in headings:
        scaled, named = HEADING.fullmatch(folded(text.text)), NAMED.fullmatch(folded(text.text))
        found = scaled or named
        if found is None or any(note.at == text.at for note, _ in led):
            continue
        letter, scales = found[1].upper(), [*USUAL]
        if scaled is not None:
            top, bottom = (float(number.replace(",", ".")) for number in scaled.groups()[1:])
            scales = [top / bottom if bottom > 0 else 0.0]
        own = [note for note in letters if note.words.strip().upper() == letter]
        rings = [c for c in on_view if any(_at_ring(t, c) for t in own)]
        rings += {c: None for note, c in led if led_letter(note.words) == letter and c not in rings}
        clear = [c for c in (rings if own or rings else bare) if not _on_view(text.at, c.radius, features)]
        larger = [times for scale in scales if (times := scale / features.frame.scale) > 1]
        made = [_Detail(features, text, letter, times, ring, lines) for times in larger for ring in clear]
        made = made if (own or rings) and scaled else [detail for detail in made if len(detail.ways) == 1]
        each = len({detail.ring for detail in made}) == len(made) == len(rings or made)
        if each and (len(made) == 1 or (rings and all(len(detail.ways) == 1 for detail in made))):
            yield from made


def _led(sheet: Sheet, features: Features) -> list[tuple[PointedNote, _DetailRing]]:
    """The notes that name a detail by a leader to a groove, each with the ring that it stands for."""
    found = []
    for note in said(sheet, lambda words: bool(led_letter(words))):
        at = features.frame.on_part(note.tip) if note.tip is not None else None
        found += [
            (note, _round_groove(g, features, at[1]))
            for g in features.part.grooves
            if at and _holds(g, at, features.snap)
        ][:1]
    return found


def _holds(groove: Groove, at: Point, near: float) -> bool:
    """True if a place (z, radius) lies between the walls of a groove and its mouth and floor, or on one of them."""
    low, high = sorted((groove.mouth_diameter / 2, groove.floor_diameter / 2))
    near_it = groove.z_far - near <= at[0] <= groove.z_near + near
    return near_it and low - near <= abs(at[1]) <= high + near


def _round_groove(groove: Groove, features: Features, side: float) -> _DetailRing:
    """The ring that holds a groove, on the side of the axis where a radius lies."""
    long, deep = abs(groove.z_near - groove.z_far), abs(groove.mouth_diameter - groove.floor_diameter) / 2
    r = math.copysign((groove.mouth_diameter + groove.floor_diameter) / 4, side)
    radius = ROUND_IT * math.hypot(long, deep) / 2 / WITHIN * features.frame.scale
    return _DetailRing(features.frame.on_sheet((groove.z_near + groove.z_far) / 2, r), radius, radius)


def _lines(sheet: Sheet) -> Segments:
    """The strokes of a sheet that may be edges."""
    drawn = sheet.segments
    fit = drawn.of(lambda source: source.pen is Pen.SOLID and source.owner not in NO_LEADER)
    fit[list(sheet.measuring)] = False
    return Segments(drawn.ends[fit], drawn.bulge[fit], drawn.source[fit], drawn.sources)


def _on_view(at: Point, margin: float, features: Features) -> bool:
    """True if a place lies on the view or within a margin of it, which is smaller than the part."""
    (z, r), margin, part = features.frame.on_part(at), margin / features.frame.scale, features.part
    reach = part.outer_diameter / 2 + margin
    return -part.length - margin <= z <= margin and abs(r) <= reach < 2 * part.outer_diameter


def _ovals(drawn: Segments, near: float) -> Iterator[_DetailRing]:
    """Every smooth line that is drawn in one and closes: a ring by hand, an ellipse."""
    starts = np.flatnonzero(np.diff(drawn.source, prepend=-1))
    counts = np.diff(starts, append=len(drawn))
    for first, count in zip(starts[counts > 2].tolist(), counts[counts > 2].tolist(), strict=True):
        own = slice(first, first + count)
        start, end = drawn.ends[own].view(np.complex128).T
        half = np.exp(2j * np.arctan(drawn.bulge[own]))
        turns = np.angle(np.roll((end - start) / half, -1) * np.conj((end - start) * half), deg=True)
        if np.abs(np.roll(start, -1) - end).max() <= near and np.abs(turns).max() <= SMOOTH:
            middle = complex(start.mean())
            off = np.abs(start - middle)
            if drawn.sources[drawn.source[first]].owner not in NO_LEADER:
                yield _DetailRing((middle.real, middle.imag), float(off.min()), float(off.max()))


def _at_ring(note: PointedNote, ring: _DetailRing) -> bool:
    """True for a letter at a ring, or one that is led to it."""
    reach = max(LETTER_AT * note.height, SHORT * ring.radius)
    away = [math.dist(at, ring.centre) for at in (note.at, note.tip or note.at)]
    return any(ring.radius - reach <= off <= ring.outer + reach for off in away)


class _Way(NamedTuple):
    """How a detail lies on the view: how far off, enlarged, once it is mirrored about the axis or not."""

    shift: complex
    mirrored: bool


@dataclass(frozen=True, eq=False)
class _Detail:
    """A detail: its heading, its scale against the view, the ring on the view that it enlarges, the sheet's strokes."""

    features: Features
    heading: Text
    letter: str
    times: float
    ring: _DetailRing
    lines: Segments

    @property
    def reach(self) -> float:
        """The farthest that anything belonging to it lies from the heading."""
        return REACH * self.times * self.ring.radius + BESIDE * self.heading.height

    @cached_property
    def shape(self) -> Shape:
        """What the view shows within the ring."""
        frame, part = self.features.frame, self.features.part
        drawn = [line for line in (part.outline, part.bore) if line]
        sides = [[complex(z, side * r) for z, r in line] for side in (1, -1) for line in drawn]
        reach = WITHIN * self.ring.radius / frame.scale
        return Shape(sides, complex(*frame.on_part(self.ring.centre)), reach, self.features.snap)

    @cached_property
    def strokes(self) -> DetailStrokes:
        """The strokes near the heading, in the part's frame."""
        frame, ends = self.features.frame, self.lines.ends.reshape(-1, 2, 2)
        close = np.flatnonzero(np.hypot(*(ends - self.heading.at).transpose(2, 0, 1)).max(axis=1) <= self.reach)
        near = [k for k in close if not _on_view(ends[k, 0], self.ring.radius, self.features)]
        start, end = np.array([[complex(*frame.on_part(p)) for p in ends[k]] for k in near]).reshape(-1, 2).T
        turned = frame.axis[0] * frame.up[1] < frame.axis[1] * frame.up[0]
        return DetailStrokes(start, end, self.lines.bulge[near] * (-1 if turned else 1))

    @cached_property
    def ways(self) -> list[_Way]:
        """Every way to lay it on the view: as it is seen, else mirrored about the axis."""
        ways = [_Way(shift, False) for shift in self.shape.ways(self.strokes, self.times)]
        return ways or [_Way(shift, True) for shift in self.shape.ways(self.strokes.mirrored(), self.times)]

    @property
    def other(self) -> str:
        """How one that has no way to lie differs from the view; fewer strokes than that has are another thing."""
        scales = (scale / self.features.frame.scale for scale in USUAL)
        fits = [f"{times:.4g}" for times in scales if replace(self, times=times).ways]
        if fits:
            return f"is drawn {' or '.join(fits)} times as large as"
        told = self.shape.firm and len(self.strokes.bulge) >= self.shape.pieces
        turned = told and any(self.shape.ways(self.strokes.turned(turn), self.times) for turn in QUARTERS)
        return "is drawn otherwise than" if told and not turned else ""

    @property
    def sizes_apart(self) -> str:
        """In what it differs, where a groove of the view lies in the ring and one like it in the detail."""
        frame, side = self.features.frame, math.copysign(1.0, self.features.frame.on_part(self.ring.centre)[1])
        middles = (
            (g, (g.z_near + g.z_far) / 2, (g.mouth_diameter + g.floor_diameter) / 4) for g in self.features.part.grooves
        )
        held = [g for g, z, r in middles if _in_ring(frame.on_sheet(z, side * r), self.ring)]
        apart = sizes_apart(held[0], side, self.strokes, self.times, self.features.snap) if len(held) == 1 else ""
        return apart and f", {apart}"

    def corners_unlike(self) -> list[Finding]:
        """The caution for a corner, or what eases one, that it shows otherwise than the view, which is what is cut."""
        (way,) = self.ways
        strokes = self.strokes.mirrored() if way.mirrored else self.strokes
        place = self.shape.unlike(strokes, way.shift, self.times)
        if place is None:
            return []
        at = self.features.frame.on_sheet(place.real, place.imag)
        words = (
            f"Detail {self.letter} shows a corner, its radius or its chamfer otherwise than the view does at "
            f"{place_words(at)}: the view was read; see which is meant."
        )
        return [Finding(Level.CAUTION, DrawingCode.DETAIL_DIFFERS, words, at, spots=(self.heading.at,))]

    def off(self, dimension: Dimension) -> float:
        """How far from the ring's middle a dimension lies by the detail, in radii; one of the view inf."""
        ends = dimension.points[: 1 if dimension.kind is DimensionKind.LEADER else 2]
        if not ends or any(_on_view(p, self.ring.radius, self.features) for p in ends):
            return math.inf
        frame = self.features.frame
        laid = (frame.on_sheet(place.real, place.imag) for place in map(self._laid, ends))
        return max(math.dist(at, self.ring.centre) for at in laid) / self.ring.radius

    def moved(self, dimension: Dimension) -> Dimension:
        """A dimension of the detail as it would stand at the view."""
        laid = (self._laid(p) for p in dimension.points)
        points = tuple(self.features.frame.on_sheet(place.real, place.imag) for place in laid)
        size, factor = dimension.measured / self.times, dimension.factor * self.times
        return replace(dimension, points=points, measured=size, factor=factor)

    def _laid(self, at: Point) -> complex:
        """Where a place of the detail lies on the part."""
        ((shift, mirrored),) = self.ways
        z, r = self.features.frame.on_part(at)
        return (complex(z, -r if mirrored else r) - shift) / self.times
