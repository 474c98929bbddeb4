"""Plane strokes that entities are made of, and their way to straight and arc segments.

Rules: everything here is flat and at sheet coordinates already. A conic is the affine image of a circle, so a circle
seen through a stretched or tilted block stays exact until it is cut into segments; one that is still a circle becomes
an arc, one seen edge-on becomes a straight line, the rest chords. Curves that are really arcs or lines become those.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from extractor.finding import Point
from extractor.sheet import Floats

EXACT = 1e-7
"""Relative deviation within which a curve counts as the line or arc it imitates (float noise of writers, not shape)."""
MOST_CHORDS = 720
"""Chords per turn or span at most, so that no single curve floods the sheet."""
SPAN_SAMPLES = 65
"""Samples between two knots to tell whether a spline is a line or an arc there."""
MOST_SAMPLES = 6500
"""Such samples of one whole spline, about."""

Piece = tuple[float, float, float, float, float]
"""One segment: start x, start y, end x, end y, bulge."""


@dataclass(frozen=True)
class Chain:
    """Points joined by straight or bulged edges; `bulges` has one value per edge."""

    points: tuple[Point, ...]
    bulges: tuple[float, ...]


@dataclass(frozen=True)
class Conic:
    """The points centre + u cos t + v sin t for t from `start` to `end` (radians, end above start)."""

    centre: Point
    u: Point
    v: Point
    start: float
    end: float

    @property
    def whole(self) -> bool:
        """True for a closed circle or ellipse."""
        return self.end - self.start >= 2 * math.pi - 1e-9

    @property
    def radius(self) -> float | None:
        """Radius if the conic is a circle or an arc of one, else None."""
        ru, rv = math.hypot(*self.u), math.hypot(*self.v)
        square = abs(self.u[0] * self.v[0] + self.u[1] * self.v[1])
        return ru if ru > 0 and abs(ru - rv) <= EXACT * ru and square <= EXACT * ru * rv else None

    def at(self, t: float) -> Point:
        """The point at parameter `t`."""
        c, s = math.cos(t), math.sin(t)
        return self.centre[0] + self.u[0] * c + self.v[0] * s, self.centre[1] + self.u[1] * c + self.v[1] * s


@dataclass(frozen=True)
class Curve:
    """A spline: `place` gives its points (n, 2) at parameters, `spans` the parameters between two knots each.

    `box`: smallest x, smallest y, largest x, largest y of its control points, which hold the curve (convex hull).
    """

    place: Callable[[Floats], Floats]
    spans: tuple[tuple[float, float], ...]
    box: tuple[float, float, float, float]


Stroke = Chain | Conic | Curve


def conic_pieces(conic: Conic, chord_error: float) -> tuple[list[Piece], bool]:
    """Segments of a conic and whether they are chords instead of exact."""
    cross = conic.u[0] * conic.v[1] - conic.u[1] * conic.v[0]
    if conic.radius is not None:
        return list(_arc_pieces(conic, 1.0 if cross > 0 else -1.0)), False
    if abs(cross) <= EXACT * (math.hypot(*conic.u) ** 2 + math.hypot(*conic.v) ** 2):
        return _edge_on(conic), False
    size = max(math.hypot(*conic.u), math.hypot(*conic.v))
    count = chord_count(size, conic.end - conic.start, chord_error)
    ts = np.linspace(conic.start, conic.end, count + 1)
    return straight_pieces([conic.at(float(t)) for t in ts]), True


def _arc_pieces(conic: Conic, turn: float) -> Iterator[Piece]:
    """Exact arc segments of at most half a turn each."""
    span = conic.end - conic.start
    count = max(1, math.ceil(span / math.pi - 1e-9))
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


def curve_pieces(curve: Curve, chord_error: float) -> tuple[list[Piece], bool]:
    """Segments of a spline: one line or arc if it is one, else span by span; True if any span had to become chords."""
    per_span = max(9, min(SPAN_SAMPLES, MOST_SAMPLES // len(curve.spans)))
    sampled = [curve.place(np.linspace(a, b, per_span)) for a, b in curve.spans]
    exact = _as_line_or_arc(np.concatenate([sampled[0], *(span[1:] for span in sampled[1:])]))
    if exact is not None:
        return exact, False
    pieces: list[Piece] = []
    chords = False
    for span, points in zip(curve.spans, sampled, strict=True):
        exact = _as_line_or_arc(points)
        chords = chords or exact is None
        pieces += exact if exact is not None else _chords(curve, span, chord_error)
    return pieces, chords


def _chords(curve: Curve, span: tuple[float, float], chord_error: float) -> list[Piece]:
    """Chords of one span, sampled ever closer until the points between lie within half the error."""
    count = 8
    while True:
        points = curve.place(np.linspace(*span, 2 * count + 1))
        if count >= MOST_CHORDS or _off_chords(points) <= chord_error / 2:
            return straight_pieces(thin(points, chord_error / 2))
        count *= 2


def _off_chords(points: Floats) -> float:
    """Largest distance of every second point from the chord of its neighbours."""
    a, middle, b = points[:-2:2], points[1::2], points[2::2]
    chord, arm = b - a, middle - a
    length = np.hypot(chord[:, 0], chord[:, 1])
    cross = np.abs(chord[:, 0] * arm[:, 1] - chord[:, 1] * arm[:, 0])
    return float(np.where(length > 0, cross / np.where(length > 0, length, 1.0), np.hypot(arm[:, 0], arm[:, 1])).max())


def _as_line_or_arc(points: Floats) -> list[Piece] | None:
    """The line or the arcs that all samples lie on, None where they lie on neither."""
    first, last = points[0], points[-1]
    size = float(np.ptp(points, axis=0).max())
    if size == 0:
        return [(float(first[0]), float(first[1]), float(last[0]), float(last[1]), 0.0)]
    along = last - first
    length = float(np.hypot(*along))
    if length > EXACT * size:
        off = np.abs(along[0] * (points[:, 1] - first[1]) - along[1] * (points[:, 0] - first[0])) / length
        steps = (points - first) @ along
        if off.max() <= EXACT * size and (np.diff(steps) >= -EXACT * length * length).all():
            return [(float(first[0]), float(first[1]), float(last[0]), float(last[1]), 0.0)]
    return _as_arc(points, size)


def _as_arc(points: Floats, size: float) -> list[Piece] | None:
    """Arcs of at most about half a turn through samples that all lie on one circle and turn one way."""
    centre = _circle_centre(points[0], points[len(points) // 3], points[2 * len(points) // 3])
    if centre is None:
        return None
    arms = points - centre
    radii = np.hypot(arms[:, 0], arms[:, 1])
    radius = float(radii.mean())
    if radius > 1e3 * size or np.abs(radii - radius).max() > EXACT * radius:
        return None
    turns = np.diff(np.unwrap(np.arctan2(arms[:, 1], arms[:, 0])))
    total = float(turns.sum())
    if not ((turns >= 0).all() or (turns <= 0).all()) or abs(total) > 2 * math.pi + 1e-6:
        return None
    start = math.atan2(arms[0, 1], arms[0, 0])
    turn = 1.0 if total > 0 else -1.0
    conic = Conic(
        (float(centre[0]), float(centre[1])),
        (radius, 0.0),
        (0.0, turn * radius),
        turn * start,
        turn * start + abs(total),
    )
    return list(_arc_pieces(conic, turn))


def _circle_centre(a: Floats, b: Floats, c: Floats) -> Floats | None:
    """Centre of the circle through three points, None where they are in line."""
    matrix = 2 * np.array([b - a, c - a])
    if abs(float(np.linalg.det(matrix))) < 1e-12 * max(1e-300, float(np.abs(matrix).max()) ** 2):
        return None
    centre: Floats = a + np.linalg.solve(matrix, np.array([(b - a) @ (b - a), (c - a) @ (c - a)]))
    return centre


def thin(points: Floats, chord_error: float) -> list[Point]:
    """Fewest samples so that the ones left out lie within `chord_error` of the chords (Douglas and Peucker 1973)."""
    keep = {0, len(points) - 1}
    work = [(0, len(points) - 1)]
    while work:
        i, j = work.pop()
        if j <= i + 1:
            continue
        a, b = points[i], points[j]
        chord, arms = b - a, points[i + 1 : j] - a
        length = float(np.hypot(*chord))
        off = (
            np.abs(chord[0] * arms[:, 1] - chord[1] * arms[:, 0]) / length
            if length
            else np.hypot(arms[:, 0], arms[:, 1])
        )
        k = int(off.argmax())
        if off[k] > chord_error:
            keep.add(i + 1 + k)
            work += [(i, i + 1 + k), (i + 1 + k, j)]
    return [(float(points[k, 0]), float(points[k, 1])) for k in sorted(keep)]
