"""Pictures of a part seen at a slant: its circles are ellipses of one shape and direction, one behind the other.

All parallel circles are seen alike in a parallel projection (ISO 5456-3, from memory), whatever their size. A cam or an
oval tube seen from its end has ellipses about one middle; a picture has those of its steps along its axis.
"""

from collections import defaultdict
from itertools import combinations

import numpy as np

from extractor.sheet import Floats, Segments
from extractor.values import dataclass
from extractor.viewing.clusters import Cluster, Ink

LEAST_POINTS = 8
"""Points of a curve that an ellipse is fitted to, at least: five settle it, the others show whether it is one."""

FIT = 2e-3
"""They lie on it within this share of its size."""

SHOWN = 1.0
"""Of an ellipse that is told by a piece of it, this share of half its length is drawn at least."""

OBLATE = 0.95
"""A rounder ellipse is a circle seen squarely."""

ONE_SHAPE = 0.02
"""Ellipses are seen from one side if their ratios differ by no more than this, and their lie in radians."""

BEHIND = 0.02
"""The middles of two, one behind the other, are farther apart than this share of the longer one's half length."""


@dataclass(frozen=True)
class SeenCircle:
    """Middle, half length, ratio of its axes and angle of the longer one, radians."""

    middle: Floats
    half: float
    ratio: float
    angle: float

    def behind(self, other: "SeenCircle") -> bool:
        """True if both are circles of one part seen at a slant, at two places along it."""
        turn = abs((self.angle - other.angle + np.pi / 2) % np.pi - np.pi / 2)
        alike = abs(self.ratio - other.ratio) <= ONE_SHAPE and turn <= ONE_SHAPE
        return bool(alike and np.hypot(*(self.middle - other.middle)) > BEHIND * max(self.half, other.half))


def is_picture(ink: Ink, segments: Segments, cluster: Cluster) -> bool:
    """True if a figure holds two ellipses of one shape and direction, one behind the other, as edges of a body appear.

    The edge of a body runs from its outline into it; the profile of an oval end or groove is outline all along.
    """
    curves: dict[int, list[Floats]] = defaultdict(list)
    where: dict[int, set[bool]] = defaultdict(set)
    rim = set(cluster.rim)
    for k in cluster.edges:
        edge = ink.network.edges[k]
        if edge.label >= 0 and segments.sources[segments.source[edge.label]].curve:
            source = int(segments.source[edge.label])
            curves[source] += [np.asarray(p) for p in ink.network.line(edge)]
            where[source].add(k in rim)
    seen = {k: ellipse_through(np.unique(np.array(points), axis=0)) for k, points in curves.items()}
    found = [(one, where[k]) for k, one in seen.items() if one is not None]
    pairs = combinations(found, 2)
    return any(one.behind(two) and (a | b) == {True, False} for (one, a), (two, b) in pairs)


def ellipse_through(points: Floats) -> SeenCircle | None:
    """The ellipse through points (n, 2), None where there is none or it is round."""
    if len(points) < LEAST_POINTS:
        return None
    at, size = points.mean(axis=0), float(np.ptp(points, axis=0).max())
    x, y = ((points - at) / size).T
    a, b, c, d, e = np.linalg.lstsq(np.column_stack([x * x, x * y, y * y, x, y]), np.ones(len(x)), rcond=None)[0]
    matrix, linear = np.array([[a, b / 2], [b / 2, c]]), np.array([d, e])
    if 4 * a * c - b * b <= 0 or a <= 0:
        return None
    middle = -np.linalg.solve(matrix, linear) / 2
    steep, lie = np.linalg.eigh(matrix / (1 + middle @ matrix @ middle))
    # In lengths of its half axes all of it lies at 1.
    placed = (np.column_stack([x, y]) - middle) @ lie * np.sqrt(steep)
    ratio = float(np.sqrt(steep[0] / steep[1]))
    if np.abs(np.hypot(*placed.T) - 1).max() > FIT or np.ptp(placed[:, 0]) < SHOWN or ratio > OBLATE:
        return None
    angle = float(np.arctan2(lie[1, 0], lie[0, 0]))
    return SeenCircle(at + middle * size, size / float(np.sqrt(steep[0])), ratio, angle)
