"""Plane strokes that entities are made of, and how they become straight and arc segments.

Rules: everything here is already flat and in sheet coordinates. A conic is the affine image of a circle, so a circle
seen through a stretched or tilted block stays exact until it is cut into segments; one that is still a circle becomes
an arc, one seen edge-on becomes a straight line, the rest chords.
"""

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.finding import Point
from extractor.rounding import ROUNDING
from extractor.sheet import Floats

EXACT = 1e-7
"""Relative deviation within which a curve counts as the line or arc it imitates (float noise of writers, not shape)."""
MOST_CHORDS = 720
"""Chords per turn or span at most, so that no single curve floods the sheet."""

Piece = tuple[float, float, float, float, float]
"""One segment: start x, start y, end x, end y, bulge."""


class Chain(NamedTuple):
    """Points joined by straight or bulged edges; `bulges` has one value per edge."""

    points: tuple[Point, ...]
    bulges: tuple[float, ...]


class Lines(NamedTuple):
    """Straight lines that look alike, each an entity of its own: float (n, 4) and n handles."""

    ends: Floats
    handles: tuple[str, ...]


class Conic(NamedTuple):
    """The points centre + u cos t + v sin t for t from `start` to `end` (radians, end above start)."""

    centre: Point
    u: Point
    v: Point
    start: float
    end: float

    @property
    def whole(self) -> bool:
        """True for a closed circle or ellipse."""
        return self.end - self.start >= 2 * math.pi - ROUNDING

    @property
    def radius(self) -> float | None:
        """Radius if the conic is a circle or an arc of one, else None."""
        ru, rv = math.hypot(*self.u), math.hypot(*self.v)
        square = abs(self.u[0] * self.v[0] + self.u[1] * self.v[1])
        return ru if ru > 0 and abs(ru - rv) <= EXACT * ru and square <= EXACT * ru * rv else None

    @property
    def edge_on(self) -> bool:
        """True for a circle or an ellipse whose plane is seen from the side."""
        cross = self.u[0] * self.v[1] - self.u[1] * self.v[0]
        return abs(cross) <= EXACT * (math.hypot(*self.u) ** 2 + math.hypot(*self.v) ** 2)

    @property
    def oval(self) -> bool:
        """True for a closed ellipse that is neither a circle nor a line."""
        return self.whole and self.radius is None and not self.edge_on

    def at(self, t: float) -> Point:
        """The point at parameter `t`."""
        c, s = math.cos(t), math.sin(t)
        return self.centre[0] + self.u[0] * c + self.v[0] * s, self.centre[1] + self.u[1] * c + self.v[1] * s


def conic_pieces(conic: Conic, chord_error: float) -> tuple[list[Piece], bool]:
    """Segments of a conic, and whether they are chords rather than exact."""
    if conic.radius is not None:
        cross = conic.u[0] * conic.v[1] - conic.u[1] * conic.v[0]
        return list(arc_pieces(conic, 1.0 if cross > 0 else -1.0)), False
    if conic.edge_on:
        return _edge_on(conic), False
    size = max(math.hypot(*conic.u), math.hypot(*conic.v))
    count = chord_count(size, conic.end - conic.start, chord_error)
    ts = np.linspace(conic.start, conic.end, count + 1)
    return straight_pieces([conic.at(float(t)) for t in ts]), True


def arc_pieces(conic: Conic, turn: float) -> Iterator[Piece]:
    """Exact arc segments of at most half a turn each."""
    span = conic.end - conic.start
    count = max(1, math.ceil(span / math.pi - ROUNDING))
    for k in range(count):
        a, b = conic.at(conic.start + span * k / count), conic.at(conic.start + span * (k + 1) / count)
        yield (*a, *b, turn * math.tan(span / count / 4))


def _edge_on(conic: Conic) -> list[Piece]:
    """A conic whose plane is seen from the side: the straight line between its extremes."""
    ts = [conic.start, conic.end]
    direction = max((conic.u, conic.v), key=lambda p: math.hypot(*p))
    peak = math.atan2(_dot(conic.v, direction), _dot(conic.u, direction))
    ts += [peak + k * math.pi for k in range(-4, 5) if conic.start <= peak + k * math.pi <= conic.end]
    points = sorted((conic.at(t) for t in ts), key=lambda p: _dot(p, direction))
    return [(*points[0], *points[-1], 0.0)]


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def chord_count(radius: float, span: float, chord_error: float) -> int:
    """Chords of an arc so that each stays within `chord_error` (sagitta r(1 - cos(a/2)), common geometry)."""
    if chord_error <= 0 or radius <= chord_error:
        return 8
    step = 2 * math.acos(1 - chord_error / radius)
    return max(4, min(MOST_CHORDS, math.ceil(span / step)))


def straight_pieces(points: list[Point]) -> list[Piece]:
    """Straight segments through the points in turn."""
    return [(*a, *b, 0.0) for a, b in pairwise(points)]
