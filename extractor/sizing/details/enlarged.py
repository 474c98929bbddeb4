"""A detail drawn larger: the ring on the view that it enlarges, its strokes, and how they lie on the view."""

import math
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Pen, Segments, Sheet, Text
from extractor.sizing.details.same_shape import DetailStrokes, Shape, sizes_apart
from extractor.sizing.lettering.pointers import NO_LEADER
from extractor.sizing.measured.features import Features
from extractor.values import dataclass

USUAL = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 25.0, 50.0)
"""The scales tried where the one that is printed does not fit, or none is (ISO 5455 and those between, from memory)."""

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


class DetailRing(NamedTuple):
    """A ring round a place of the view: how near its middle its line comes, and how far from it that goes."""

    centre: Point
    radius: float
    outer: float


def in_ring(at: Point, ring: DetailRing) -> bool:
    """True for a place within a ring."""
    return math.dist(at, ring.centre) <= ring.outer


def round_groove(groove: Groove, features: Features, side: float) -> DetailRing:
    """The ring that holds a groove, on the side of the axis where a radius lies."""
    long, deep = abs(groove.z_near - groove.z_far), abs(groove.mouth_diameter - groove.floor_diameter) / 2
    r = math.copysign((groove.mouth_diameter + groove.floor_diameter) / 4, side)
    radius = ROUND_IT * math.hypot(long, deep) / 2 / WITHIN * features.frame.scale
    return DetailRing(features.frame.on_sheet((groove.z_near + groove.z_far) / 2, r), radius, radius)


def edge_lines(sheet: Sheet) -> Segments:
    """The strokes of a sheet that may be edges."""
    drawn = sheet.segments
    fit = drawn.of(lambda source: source.pen is Pen.SOLID and source.owner not in NO_LEADER)
    fit[list(sheet.measuring)] = False
    return Segments(drawn.ends[fit], drawn.bulge[fit], drawn.source[fit], drawn.sources)


def on_the_view(at: Point, margin: float, features: Features) -> bool:
    """True if a place lies on the view or within a margin of it, which is smaller than the part."""
    (z, r), margin, part = features.frame.on_part(at), margin / features.frame.scale, features.part
    reach = part.outer_diameter / 2 + margin
    return -part.length - margin <= z <= margin and abs(r) <= reach < 2 * part.outer_diameter


class _Way(NamedTuple):
    """How a detail lies on the view: how far off, enlarged, once it is mirrored about the axis or not."""

    shift: complex
    mirrored: bool


@dataclass(frozen=True, eq=False)
class Detail:
    """A detail: its heading, its scale against the view, the ring on the view that it enlarges, the sheet's strokes."""

    features: Features
    heading: Text
    letter: str
    times: float
    ring: DetailRing
    lines: Segments

    @property
    def reach(self) -> float:
        """The farthest that anything belonging to it lies from the heading."""
        return REACH * self.times * self.ring.radius + BESIDE * self.heading.height

    def has(self, at: Point) -> bool:
        """True for a place so near that it may belong to the detail."""
        return math.dist(at, self.heading.at) <= self.reach

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
        near = [k for k in close if not on_the_view(ends[k, 0], self.ring.radius, self.features)]
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
        held = [g for g, z, r in middles if in_ring(frame.on_sheet(z, side * r), self.ring)]
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
        if not ends or any(on_the_view(p, self.ring.radius, self.features) for p in ends):
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
