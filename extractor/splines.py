"""Splines: evaluated, told apart into lines, arcs and true curves, and cut into chords.

Rules: a spline is its control points at sheet coordinates, since an affine map of them is that of the curve. What is
really a straight line or a circular arc, as a whole or between two knots, becomes one; the rest becomes chords within
the error asked for.
"""

import math
from dataclasses import dataclass

import numpy as np

from extractor.finding import Point
from extractor.sheet import Floats
from extractor.strokes import EXACT, MOST_CHORDS, Chain, Conic, Piece, arc_pieces, straight_pieces

SPAN_SAMPLES = 65
"""Samples between two knots to tell whether a spline is a line or an arc there."""
MOST_SAMPLES = 6500
"""Such samples of one whole spline, about."""


@dataclass(frozen=True)
class Curve:
    """A spline: `control` (n, 2) at sheet coordinates, `weights` (n,), `knots` (n + degree + 1,) never falling."""

    degree: int
    knots: Floats
    control: Floats
    weights: Floats

    def __post_init__(self) -> None:
        """Refuse arrays that don't belong together and knots that fall."""
        count = len(self.control)
        if not 0 < self.degree < count or len(self.knots) != count + self.degree + 1 or len(self.weights) != count:
            raise ValueError("a spline needs degree + 1 control points and as many knots as both and one")
        if not (np.isfinite(self.knots).all() and (np.diff(self.knots) >= 0).all() and (self.weights > 0).all()):
            raise ValueError("knots must not fall and weights be positive")

    def spans(self) -> list[int]:
        """Index of the first knot of every span that has a length."""
        inside = np.arange(self.degree, len(self.control))
        widths = self.knots[inside + 1] - self.knots[inside]
        whole = self.knots[len(self.control)] - self.knots[self.degree]
        return [int(k) for k in inside[widths > 1e-12 * whole]]

    def sampled(self, span: int, count: int) -> Floats:
        """Evenly spaced points (count, 2) of one span, both knots included (de Boor's algorithm, 1972)."""
        p, knots = self.degree, self.knots
        ts = np.linspace(knots[span], knots[span + 1], count)[:, None]
        weighted = np.column_stack([self.control * self.weights[:, None], self.weights])
        rows = [np.broadcast_to(weighted[span - p + j], (count, 3)) for j in range(p + 1)]
        for r in range(1, p + 1):
            for j in range(p, r - 1, -1):
                low, high = knots[span - p + j], knots[span + 1 + j - r]
                share = (ts - low) / (high - low)
                rows[j] = (1 - share) * rows[j - 1] + share * rows[j]
        points: Floats = rows[p][:, :2] / rows[p][:, 2:]
        return points


Stroke = Chain | Conic | Curve


def curve_pieces(curve: Curve, chord_error: float) -> tuple[list[Piece], bool]:
    """Segments of a spline: one line or arc if it is one, else span by span; True if any span had to become chords."""
    spans = curve.spans()
    per_span = max(9, min(SPAN_SAMPLES, MOST_SAMPLES // max(1, len(spans))))
    sampled = [curve.sampled(span, per_span) for span in spans]
    if not sampled:
        return [], False
    exact = _as_line_or_arc(np.concatenate([sampled[0], *(span[1:] for span in sampled[1:])]))
    if exact is not None:
        return exact, False
    pieces: list[Piece] = []
    chords = False
    for span, points in zip(spans, sampled, strict=True):
        exact = _as_line_or_arc(points)
        chords = chords or exact is None
        pieces += exact if exact is not None else _chords(curve, span, chord_error)
    return pieces, chords


def _chords(curve: Curve, span: int, chord_error: float) -> list[Piece]:
    """Chords of one span, sampled ever closer until the points between lie within half the error."""
    count = 8
    while True:
        points = curve.sampled(span, 2 * count + 1)
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
    return list(arc_pieces(conic, turn))


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
