"""Axes that are not drawn: the middle lines of clusters, and of pairs of clusters of one size."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from extractor.finding import Point
from extractor.sheet import Floats
from extractor.viewing.alike import ONE_SIZE, SKEW
from extractor.viewing.axis import Axis, direction_of
from extractor.viewing.clusters import Cluster, Ink

MOST_PAIRED = 20
"""Only so many of the largest clusters are tried in pairs."""


NEAR_LINE = 1e-5
"""Parallel axes no farther apart than this share of all that is drawn are one line."""


def fresh(lines: Sequence[Axis], size: float, known: Sequence[Axis] = ()) -> list[Axis]:
    """The axes that are one line with no earlier one, nor with one of those known, near enough to make no difference.

    `size` is the diagonal of all that is drawn.
    """
    every = (*known, *lines)
    lie = np.array([(a.at, a.direction) for a in every]).reshape(-1, 2, 2)
    kept = list(range(len(known)))
    for k, axis in enumerate(every[len(known) :], len(known)):
        off, turn = np.abs((lie[kept] - [axis.at, (0.0, 0.0)]) @ np.array(axis.up)).T
        if not ((off <= NEAR_LINE * size) & (turn < SKEW)).any():
            kept.append(k)
    return [every[k] for k in kept[len(known) :]]


def symmetry_axes(ink: Ink, big: Sequence[int], least: float) -> list[Axis]:
    """Middle lines of the clusters `big` (indices) and of pairs of them, about which one has its mirror image.

    `least` is the share of its boundary that must have one.
    """
    found: list[Axis] = []
    closed = [ink.clusters[k] for k in big if ink.clusters[k].closed]
    pairs = combinations(closed[:MOST_PAIRED], 2)
    alike = [(one, two) for one, two in pairs if abs(one.diagonal - two.diagonal) <= ONE_SIZE * one.diagonal]
    for some in (*((cluster,) for cluster in closed), *alike):
        samples = np.vstack([cluster.samples for cluster in some])
        axes = [middle_line(samples, d) for d in _directions(ink, some[0])]
        found += [axis for axis in axes if ink.mirrored(some[:1], axis)[0] >= least]
    return found


def _directions(ink: Ink, cluster: Cluster) -> list[Point]:
    """Directions that an axis of the cluster may have: level, upright and those of its longest lines."""
    found: list[Point] = [(1.0, 0.0), (0.0, 1.0)]
    lines = [ink.network.edges[k] for k in cluster.rim if ink.network.edges[k].bulge == 0]
    run, rise = (ink.network.nodes[[e.b for e in lines]] - ink.network.nodes[[e.a for e in lines]]).T
    for k in np.argsort(-np.hypot(run, rise), kind="stable")[:6].tolist():
        dx, dy = direction_of(ink.network.point(lines[k].a), ink.network.point(lines[k].b))
        for d in ((dx, dy), direction_of((0.0, 0.0), (-dy, dx))):
            if all(abs(d[0] * e[1] - d[1] * e[0]) > SKEW for e in found):
                found.append(d)
    return found[:6]


def middle_line(samples: Floats, direction: Point) -> Axis:
    """The line in a direction half-way across the points."""
    axis = Axis((0.0, 0.0), direction)
    folded = axis.fold(samples)
    across = (folded[:, 1].min() + folded[:, 1].max()) / 2
    along = (folded[:, 0].min() + folded[:, 0].max()) / 2
    return Axis(axis.unfold(float(along), float(across)), direction)
