"""Splines: evaluated, sorted into lines, arcs and true curves, and cut into chords.

Rules: a spline is its control points in sheet coordinates, since an affine map of the points maps the curve. What is
really a straight line or a circular arc, as a whole or between two knots, becomes one; the rest becomes chords within
the error asked for.
"""

import math
from collections.abc import Sequence
from itertools import groupby

import numpy as np

from extractor.opening.strokes import EXACT, MOST_CHORDS, Chain, Conic, Lines, Piece, straight_pieces
from extractor.rounding import LAST_DIGITS, ROUNDING
from extractor.sheet import Flags, Floats
from extractor.values import dataclass

SPAN_SAMPLES = 65
"""Samples between two knots to tell whether a spline is a line or an arc there."""
FEW_SAMPLES = 9
"""Samples between two knots where there are too many to tell each apart."""
MOST_TOLD_APART = 200
"""Spans of a spline up to which each is looked at on its own."""
MOST_POINTS = 400_000
"""Points of a run of spans at most while chords are sought."""
ARC_FIT = 1e-3
"""Writers that know no rational splines fit an arc so well, in units of the page: the usual tolerance of modelling
kernels; 6e-4 is the most that was measured, on 500 of them."""
LARGEST_SLACK = 0.005
"""An arc may be off by this share of its radius at most. Fitted arcs of 0.2 are off by up to 0.003, ellipses seen
aslant by 0.01 and more."""
LEAST_TURN = math.radians(5.0)
"""Flatter pieces fit any circle; they are chords."""
LIKELY = 1e-6
"""Share of its size, and radians past a whole turn, that an exact arc written with few digits may be off."""


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
        return [int(k) for k in inside[widths > LAST_DIGITS * whole]]

    def sampled(self, spans: Sequence[int], count: int) -> Floats:
        """Evenly spaced points (spans, count, 2) of each span, both knots included (de Boor's algorithm, 1972)."""
        p, knots, at = self.degree, self.knots, np.array(spans)
        share = np.linspace(0.0, 1.0, count)[None, :, None]
        ts = knots[at][:, None, None] * (1 - share) + knots[at + 1][:, None, None] * share
        weighted = np.column_stack([self.control * self.weights[:, None], self.weights])
        rows = [np.repeat(weighted[at - p + j][:, None, :], count, axis=1) for j in range(p + 1)]
        for r in range(1, p + 1):
            for j in range(p, r - 1, -1):
                low, high = knots[at - p + j][:, None, None], knots[at + 1 + j - r][:, None, None]
                part = (ts - low) / (high - low)
                rows[j] = (1 - part) * rows[j - 1] + part * rows[j]
        points: Floats = rows[p][..., :2] / rows[p][..., 2:]
        return points


Stroke = Chain | Lines | Conic | Curve


def curve_pieces(curve: Curve, chord_error: float) -> tuple[list[Piece], bool]:
    """Segments of a spline: one line or arc if it is one, else span by span; True if any span had to become chords."""
    spans = curve.spans()
    if not spans:
        return [], False
    per_span = SPAN_SAMPLES if len(spans) <= MOST_TOLD_APART else FEW_SAMPLES
    sampled = curve.sampled(spans, per_span)
    slack = max(chord_error / 4, ARC_FIT)
    likely = _likely_exact(sampled, slack)
    exact = as_line_or_arc(_joined(sampled), slack) if likely.all() else None
    if exact is not None:
        return exact, False
    found: dict[int, list[Piece] | None] = {}
    if len(spans) <= MOST_TOLD_APART:
        found = {int(k): as_line_or_arc(sampled[k], slack) for k in np.flatnonzero(likely)}
    pieces: list[Piece] = []
    chords = False
    for told, run in groupby(range(len(spans)), key=lambda k: found.get(k) is not None):
        members = list(run)
        chords = chords or not told
        if told:
            pieces += [piece for k in members for piece in found[k] or ()]
        else:
            pieces += _chords(curve, [spans[k] for k in members], sampled[members], chord_error)
    return pieces, chords


def _likely_exact(sampled: Floats, slack: float) -> Flags:
    """For each of (spans, n, 2) whether its quarter points lie on the circle or line through ends and middle."""
    first, *others = (sampled[:, k] for k in np.linspace(0, sampled.shape[1] - 1, 5).astype(int))
    q1, b, q3, c = (point - first for point in others)
    size = np.abs(sampled - first[:, None]).max(axis=(1, 2))
    det = 2 * (b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0])
    flat = np.abs(det) <= ROUNDING * size * size
    bb, cc = (b * b).sum(axis=1), (c * c).sum(axis=1)
    over = np.where(flat, 1.0, det)
    centre = np.column_stack([c[:, 1] * bb - b[:, 1] * cc, b[:, 0] * cc - c[:, 0] * bb]) / over[:, None]
    radius = np.hypot(centre[:, 0], centre[:, 1])
    off = np.maximum(*(np.abs(np.hypot(*(q - centre).T) - radius) for q in (q1, q3)))
    likely: Flags = flat | (off <= np.maximum(slack, LIKELY * size))
    return likely


def _joined(sampled: Floats) -> Floats:
    """Points of spans in a row as one run, (n, 2), knots between them once."""
    joined: Floats = np.concatenate([sampled[0, :1], sampled[:, 1:].reshape(-1, 2)])
    return joined


def _chords(curve: Curve, spans: Sequence[int], sampled: Floats, chord_error: float) -> list[Piece]:
    """Chords of spans in a row: the fewest, by powers of two, that leave the points between them within the error."""
    count = sampled.shape[1] - 1
    for stride in (8, 4, 2, 1):
        if count % (2 * stride) == 0 and off_chords(sampled, 2 * stride) <= chord_error:
            return _straight(sampled[:, :: 2 * stride])
    most = min(MOST_CHORDS, MOST_POINTS // len(spans))
    while count < most and off_chords(sampled, 2) > chord_error:
        count *= 2
        sampled = curve.sampled(spans, count + 1)
    return _straight(sampled)


def _straight(sampled: Floats) -> list[Piece]:
    return straight_pieces([(x, y) for x, y in _joined(sampled).tolist()])


def off_chords(points: Floats, step: int) -> float:
    """Largest distance of (spans, n, 2) points from the chords that join every `step`-th of them."""
    pieces = points[:, :-1].reshape(len(points), -1, step, 2)
    start, end = pieces[:, :, :1], points[:, step::step][:, :, None]
    chord, arm = end - start, pieces - start
    square = (chord * chord).sum(axis=3)
    along = np.clip((arm * chord).sum(axis=3) / np.where(square > 0, square, 1.0), 0.0, 1.0)
    off = arm - along[..., None] * chord
    return float(np.hypot(off[..., 0], off[..., 1]).max())


def as_line_or_arc(points: Floats, slack: float) -> list[Piece] | None:
    """The line or the arcs that all samples (n, 2) lie on, None where they lie on neither.

    A line must be exact; an arc may be off by `slack`, as writers that know no arcs fit them with splines.
    """
    first, last = points[0], points[-1]
    size = float(np.ptp(points, axis=0).max())
    if size == 0:
        return [_piece(first, last, 0.0)]
    along = last - first
    length = float(np.hypot(*along))
    if length > EXACT * size:
        off = np.abs(along[0] * (points[:, 1] - first[1]) - along[1] * (points[:, 0] - first[0])) / length
        steps = (points - first) @ along
        if off.max() <= EXACT * size and (np.diff(steps) >= -EXACT * length * length).all():
            return [_piece(first, last, 0.0)]
    return _as_arc(points, size, slack)


def _piece(a: Floats, b: Floats, bulge: float) -> Piece:
    return float(a[0]), float(a[1]), float(b[0]), float(b[1]), bulge


def _as_arc(points: Floats, size: float, slack: float) -> list[Piece] | None:
    """Arcs of half a turn at most through samples that all lie on one circle and turn one way, ends unmoved."""
    middle = len(points) // 2
    centre = _circle_centre(
        points[0], points[middle], points[-1 if np.ptp(points[[0, -1]]) > EXACT * size else middle // 2]
    )
    if centre is None:
        return None
    arms = points - centre
    radii = np.hypot(arms[:, 0], arms[:, 1])
    radius = float(radii.mean())
    if np.abs(radii - radius).max() > max(EXACT * radius, min(slack, LARGEST_SLACK * radius)):
        return None
    turns = np.diff(np.unwrap(np.arctan2(arms[:, 1], arms[:, 0])))
    total = float(turns.sum())
    one_way = (turns > 0).all() or (turns < 0).all()
    if not one_way or not LEAST_TURN <= abs(total) <= 2 * math.pi + LIKELY:
        return None
    if abs(total) <= math.pi:
        return [_piece(points[0], points[-1], math.tan(total / 4))]
    early = float(turns[:middle].sum())
    halves = ((points[0], points[middle], early), (points[middle], points[-1], total - early))
    return [_piece(a, b, math.tan(turn / 4)) for a, b, turn in halves]


def _circle_centre(a: Floats, b: Floats, c: Floats) -> Floats | None:
    """Centre of the circle through three points, None where they are in line."""
    matrix = 2 * np.array([b - a, c - a])
    if abs(float(np.linalg.det(matrix))) <= LAST_DIGITS * float(np.abs(matrix).max()) ** 2:
        return None
    centre: Floats = a + np.linalg.solve(matrix, np.array([(b - a) @ (b - a), (c - a) @ (c - a)]))
    return centre
