"""Views: which clusters together show one turned part about one axis.

A view has both halves (clusters that are their own mirror image, or each other's) or one half (a cluster on one side
of a drawn centre line). Borders drop out because they only enclose; title blocks, notes and details because they are
symmetric about no axis that carries a part. Layer names play no role here.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import numpy as np

from extractor.axis import Axis, direction_of
from extractor.clusters import Cluster, Ink
from extractor.finding import Point
from extractor.sheet import Floats

MOST_CLUSTERS = 60
"""Only the largest clusters are tried as views; the rest are letters and arrow heads."""

SYMMETRIC = 0.75
"""Least share of a boundary that must have its mirror image."""

Halves = Literal["both", "up", "down"]


@dataclass(frozen=True)
class View:
    """One turned part as drawn: axis, stretch along it, greatest distance from it, which halves are drawn.

    `share` is how much of the boundary is symmetric (1.0 for a half view), `members` indexes the clusters.
    """

    axis: Axis
    low: float
    high: float
    reach: float
    halves: Halves
    share: float
    members: tuple[int, ...]

    @property
    def size(self) -> float:
        """Diagonal of the whole view."""
        return float(np.hypot(self.high - self.low, 2 * self.reach))

    def covers(self, at: Point, margin: float = 0.0) -> bool:
        """True if a sheet point lies within the view's box."""
        along, across = self.axis.fold(np.array([at]))[0].tolist()
        return bool(self.low - margin <= along <= self.high + margin and abs(across) <= self.reach + margin)


@dataclass(frozen=True)
class _Member:
    """A cluster about an axis."""

    index: int
    low: float
    high: float
    least: float
    most: float
    share: float


def views(ink: Ink, centres: Iterable[Axis]) -> list[View]:
    """All views that the sheet may hold, those with both halves first, largest first."""
    big = _big(ink)
    axes = list(centres)
    axes += [a for a in _symmetry_axes(ink, big) if not any(_same(a, b, ink.size) for b in axes)]
    full = [v for axis in axes for v in _full_views(ink, big, axis)]
    full = _best(full)
    taken = {k for v in full for k in v.members}
    half = [v for axis in axes if axis.drawn for v in _half_views(ink, big, axis, taken)]
    return full + _best(half)


def _big(ink: Ink) -> list[int]:
    """Indices of the clusters worth a try."""
    clusters = ink.clusters
    return [k for k in range(min(len(clusters), MOST_CLUSTERS)) if clusters[k].diagonal > 0.01 * clusters[0].diagonal]


def _same(one: Axis, two: Axis, size: float) -> bool:
    """True if two axes are one line as near as makes no difference."""
    off = abs(float(one.fold(np.array([two.at]))[0, 1]))
    return bool(one.angle_to(two.direction) < 1e-3 and off <= 1e-5 * size)


def _symmetry_axes(ink: Ink, big: list[int]) -> list[Axis]:
    """Middle lines of clusters, and of pairs of clusters of one size."""
    found: list[Axis] = []
    for k in big:
        cluster = ink.clusters[k]
        if cluster.closed:
            found += [_middle_line(cluster.samples, d) for d in _directions(ink, cluster)]
    for i, j in combinations(big[:20], 2):
        one, two = ink.clusters[i], ink.clusters[j]
        if one.closed and two.closed and abs(one.diagonal - two.diagonal) <= 0.02 * one.diagonal:
            for d in _directions(ink, one):
                found.append(_middle_line(np.vstack([one.samples, two.samples]), d))
    fresh: list[Axis] = []
    for axis in found:
        if not any(_same(axis, other, ink.size) for other in fresh):
            fresh.append(axis)
    return fresh


def _directions(ink: Ink, cluster: Cluster) -> list[Point]:
    """Directions that an axis of the cluster may have: level, upright and those of its longest lines."""
    found: list[Point] = [(1.0, 0.0), (0.0, 1.0)]
    lines = [ink.network.edges[k] for k in cluster.rim if ink.network.edges[k].bulge == 0]
    ends = [(ink.network.point(e.a), ink.network.point(e.b)) for e in lines]
    ends.sort(key=lambda ab: -float(np.hypot(ab[1][0] - ab[0][0], ab[1][1] - ab[0][1])))
    for a, b in ends[:6]:
        dx, dy = direction_of(a, b)
        for d in ((dx, dy), direction_of((0.0, 0.0), (-dy, dx))):
            if all(abs(d[0] * e[1] - d[1] * e[0]) > 1e-3 for e in found):
                found.append(d)
    return found[:6]


def _middle_line(samples: Floats, direction: Point) -> Axis:
    """The line in a direction half-way across the points."""
    axis = Axis((0.0, 0.0), direction)
    folded = axis.fold(samples)
    across = (folded[:, 1].min() + folded[:, 1].max()) / 2
    along = (folded[:, 0].min() + folded[:, 0].max()) / 2
    return Axis(axis.unfold(float(along), float(across)), direction)


def _member(ink: Ink, index: int, axis: Axis) -> _Member:
    """How a cluster lies about an axis."""
    folded = axis.fold(_boundary(ink, ink.clusters[index]))
    low, least = folded.min(axis=0).tolist()
    high, most = folded.max(axis=0).tolist()
    return _Member(index, low, high, least, most, ink.mirrored(ink.clusters[index], axis))


def _boundary(ink: Ink, cluster: Cluster) -> Floats:
    """Sample points and corners of a cluster's boundary."""
    nodes = np.unique([n for k in cluster.rim for n in ink.network.edges[k][:2]])
    points: Floats = np.vstack([cluster.samples, ink.network.nodes[nodes]])
    return points


def _full_views(ink: Ink, big: list[int], axis: Axis) -> list[View]:
    """Views with both halves on one axis."""
    near = [k for k in big if _could_be_symmetric(ink.clusters[k], axis)]
    members = [m for m in (_member(ink, k, axis) for k in near) if m.share >= SYMMETRIC]
    members = _without_frames(ink, members, axis)
    found = []
    for group in _groups(members):
        reach = max(max(m.most, -m.least) for m in group)
        weight = sum(m.share * (m.high - m.low) for m in group) / sum(m.high - m.low for m in group)
        if any(ink.clusters[m.index].closed for m in group) and reach > 0:
            low, high = min(m.low for m in group), max(m.high for m in group)
            found.append(View(axis, low, high, reach, "both", weight, tuple(m.index for m in group)))
    return found


def _could_be_symmetric(cluster: Cluster, axis: Axis) -> bool:
    """Cheap test: the cluster's mirrored box meets some of the sheet near it (any distance up to ten diagonals)."""
    middle = (cluster.box[:2] + cluster.box[2:]) / 2
    across = abs(float(axis.fold(middle[None, :])[0, 1]))
    return across <= 10 * cluster.diagonal


def _without_frames(ink: Ink, members: list[_Member], axis: Axis) -> list[_Member]:
    """Leave out borders: plain rectangles with another closed member inside and the centre line ending inside."""
    kept = []
    for m in members:
        frame = ink.clusters[m.index]
        inner = any(frame.holds(ink.clusters[o.index]) and ink.clusters[o.index].closed for o in members)
        ends_inside = all(m.low < a and b < m.high for a, b in axis.drawn)
        if not (inner and frame.is_box() and ends_inside):
            kept.append(m)
    return kept


def _groups(members: list[_Member]) -> list[list[_Member]]:
    """Members whose stretches along the axis overlap, grouped."""
    groups: list[list[_Member]] = []
    end = -np.inf
    for m in sorted(members, key=lambda m: m.low):
        if groups and m.low < end:
            groups[-1].append(m)
        else:
            groups.append([m])
            end = -np.inf
        end = max(end, m.high)
    return groups


def _half_views(ink: Ink, big: list[int], axis: Axis, taken: set[int]) -> list[View]:
    """Views with one half, above or below a drawn centre line."""
    found: list[View] = []
    for side in (1.0, -1.0):
        members = []
        for k in big:
            if k in taken:
                continue
            folded = axis.fold(_boundary(ink, ink.clusters[k])) * (1.0, side)
            low, least = folded.min(axis=0).tolist()
            high, most = folded.max(axis=0).tolist()
            margin = 1e-3 * ink.clusters[k].diagonal
            if least >= -margin and most > margin and axis.drawn_within(low, high) >= 0.5:
                members.append(_Member(k, low, high, least, most, 1.0))
        for group in _groups(members):
            low, high = min(m.low for m in group), max(m.high for m in group)
            reach = max(m.most for m in group)
            indices = tuple(m.index for m in group)
            found.append(View(axis, low, high, reach, "up" if side > 0 else "down", 1.0, indices))
    return found


def _best(found: list[View]) -> list[View]:
    """Of views that share clusters keep the best: a drawn axis first, then the more symmetric, then the longer."""
    found.sort(key=lambda v: (not v.axis.marked, not v.axis.drawn, -round(v.share, 2), -(v.high - v.low)))
    kept: list[View] = []
    for view in found:
        if not any(set(view.members) & set(other.members) for other in kept):
            kept.append(view)
    return kept
