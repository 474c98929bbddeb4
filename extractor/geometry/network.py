"""The planar graph of a drawing: nodes, and edges between them that remember the segment they were cut from.

Whatever is measured later is measured on the drawn segment, not on a snapped copy. Nothing here knows about
turned parts, and nothing here decides what touches: that is `noding`.
"""

from collections import Counter
from collections.abc import Sequence, Set
from functools import cached_property
from itertools import chain
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import chords, middle
from extractor.geometry.joining import components
from extractor.grouping import grouped
from extractor.sheet import Box, Floats, Ints
from extractor.values import dataclass


@dataclass(frozen=True, eq=False)
class Strokes:
    """Segments to be noded: `ends` float (n, 4), `bulge` float (n,), `label` int (n,) naming each for the caller.

    They are equal only to themselves, so that what was worked out about them can be stored under them.
    """

    ends: Floats
    bulge: Floats
    label: Ints

    def __len__(self) -> int:
        """Number of strokes."""
        return len(self.ends)

    def pick(self, which: Ints | npt.NDArray[np.bool_]) -> "Strokes":
        """The strokes at the given indices or under the given mask."""
        return Strokes(self.ends[which], self.bulge[which], self.label[which])

    def plus(self, more: "Strokes") -> "Strokes":
        """The strokes and others after them."""
        return Strokes(
            np.vstack([self.ends, more.ends]), np.append(self.bulge, more.bulge), np.append(self.label, more.label)
        )

    def with_line(self, a: Point, b: Point, label: int) -> "Strokes":
        """The strokes and one more, a straight one."""
        return self.plus(Strokes(np.array([[*a, *b]]), np.zeros(1), np.array([label], dtype=np.int64)))

    @property
    def chord_lengths(self) -> Floats:
        """How far the two ends of each lie apart, float (n,)."""
        lengths: Floats = np.hypot(self.ends[:, 2] - self.ends[:, 0], self.ends[:, 3] - self.ends[:, 1])
        return lengths


class Edge(NamedTuple):
    """A piece of a stroke between two nodes; `bulge` runs from `a` to `b`, `label` is the stroke's."""

    a: int
    b: int
    bulge: float
    label: int


@dataclass(frozen=True)
class Network:
    """Nodes float (k, 2) and the edges between them, no two edges the same."""

    nodes: Floats
    edges: tuple[Edge, ...]

    @cached_property
    def places(self) -> list[Point]:
        """The nodes as plain numbers, from which a single one is taken far faster."""
        return [(x, y) for x, y in self.nodes.tolist()]

    def labelled(self, labels: Ints) -> "Network":
        """The same network where each label is a number in `labels`, and becomes what stands there."""
        names = labels.tolist()
        return Network(self.nodes, tuple(Edge(a, b, bulge, names[k]) for a, b, bulge, k in self.edges))

    def without(self, edges: Set[int]) -> "Network":
        """The same network without the edges of some indices."""
        return Network(self.nodes, tuple(edge for k, edge in enumerate(self.edges) if k not in edges))

    def point(self, node: int) -> Point:
        """Where a node lies."""
        return self.places[node]

    @cached_property
    def spans(self) -> list[tuple[Point, Point]]:
        """Where both ends of each edge lie."""
        places = self.places
        return [(places[a], places[b]) for a, b, _, _ in self.edges]

    def ends(self, k: int) -> tuple[Point, Point]:
        """Where both ends of the edge of an index lie."""
        return self.spans[k]

    def level(self, k: int, axis: int, fine: float) -> bool:
        """True for a straight edge at one place along the axis (0), or at one distance from it (1)."""
        one, two = self.spans[k]
        return self.edges[k].bulge == 0 and abs(one[axis] - two[axis]) <= fine

    def mid(self, edge: Edge) -> Point:
        """The point half-way along an edge."""
        return middle(self.point(edge.a), self.point(edge.b), edge.bulge)

    def line(self, edge: Edge) -> list[Point]:
        """An edge as chords."""
        return chords(self.point(edge.a), self.point(edge.b), edge.bulge)

    @cached_property
    def around(self) -> dict[int, list[int]]:
        """The indices of the edges at each node."""
        return grouped((node, i) for i, edge in enumerate(self.edges) for node in (edge.a, edge.b))

    @property
    def loose(self) -> list[int]:
        """Nodes on which a single edge ends, and nothing else, in the order of their edges."""
        ends = self.table[0].ravel()
        return ends[np.bincount(ends)[ends] == 1].tolist() if len(ends) else []

    @cached_property
    def table(self) -> tuple[Ints, npt.NDArray[np.bool_]]:
        """The nodes of each edge, int (n, 2), and whether it is straight."""
        columns = np.fromiter(chain.from_iterable(self.edges), np.float64, 4 * len(self.edges)).reshape(-1, 4)
        return columns[:, :2].astype(np.int64), columns[:, 2] == 0

    @cached_property
    def labels(self) -> Ints:
        """The label of each edge."""
        return np.fromiter((edge.label for edge in self.edges), np.int64, len(self.edges))

    def own(self, aside: Set[int]) -> npt.NDArray[np.bool_]:
        """Which edges are of strokes of the part's own, none of those labelled in `aside` and no centre line."""
        return (self.labels >= 0) & ~np.isin(self.labels, list(aside))

    @cached_property
    def chorded(self) -> tuple[Floats, Ints]:
        """All edges as chords, one after the other: points float (m, 2), and the edge that each is on, int (m,)."""
        ends, straight = self.table
        bent = {k: self.line(self.edges[k]) for k in np.flatnonzero(~straight).tolist()}
        count = np.full(len(ends), 2)
        count[list(bent)] = [len(line) for line in bent.values()]
        first = np.cumsum(count) - count
        points = np.empty((int(count.sum()), 2))
        points[first], points[first + count - 1] = self.nodes[ends[:, 0]], self.nodes[ends[:, 1]]
        for k, line in bent.items():
            points[first[k] : first[k] + count[k]] = line
        return points, np.repeat(np.arange(len(ends)), count)

    def level_edges(self, axis: int, at: float, fine: float) -> set[int]:
        """Indices of edges that stay at one distance `at` within `fine`: from the axis (1), or along it (0)."""
        ends, straight = self.table
        places = np.abs(self.nodes[:, axis]) if axis else self.nodes[:, axis]
        near = (np.abs(places[ends] - at) <= fine).all(axis=1)
        bent = np.flatnonzero(near & ~straight).tolist()
        sides = [k for k in bent if abs((abs if axis else float)(self.mid(self.edges[k])[axis]) - at) > fine]
        return set(np.flatnonzero(near).tolist()) - set(sides)

    def pieces(
        self, loose: frozenset[int] = frozenset(), links: frozenset[int] = frozenset()
    ) -> tuple[tuple[int, ...], ...]:
        """Indices of the edges of each connected component.

        Edges labelled below 0 or in `loose` join nothing, nor do those whose indices are in `links`.
        """
        mine = [(i, e) for i, e in enumerate(self.edges) if e.label >= 0 and e.label not in loose and i not in links]
        ends = np.array([(e.a, e.b) for _, e in mine], dtype=np.int64).reshape(-1, 2)
        home = components(len(self.nodes), ends[:, 0], ends[:, 1]).tolist()
        return tuple(map(tuple, grouped((home[edge.a], i) for i, edge in mine).values()))

    @cached_property
    def _strings(self) -> Ints:
        """Of each edge the number of the string that it is on: an edge and those after it, where no other meets them.

        What looks for faces takes five times as long over the edges of an outline as over the outline.
        """
        ends = self.table[0]
        count = np.bincount(ends.ravel(), minlength=1)
        apart = (ends[:-1, 1] != ends[1:, 0]) | (count[ends[:-1, 1]] != 2)
        strings: Ints = np.append(0, np.cumsum(apart)).astype(np.int64)
        return strings

    @cached_property
    def faces(self) -> tuple["Face", ...]:
        """The faces that the edges enclose, each with the indices of its edges (of its holes too)."""
        points, index = self.chorded
        found = shapely.get_parts(shapely.polygonize(shapely.linestrings(points, indices=self._strings[index])))
        if not len(found):
            return ()
        rings, face = shapely.get_rings(found, return_index=True)
        corners, ring = shapely.get_coordinates(rings, return_index=True)
        names = np.unique(np.vstack([points, corners]).view(np.complex128), return_inverse=True)[1].reshape(-1)
        drawn, home = _chords(names[: len(points)], index, len(names))
        order = np.argsort(drawn, kind="stable")
        chord, ring = _chords(names[len(points) :], ring, len(names))
        at = np.searchsorted(drawn[order], chord, "right") - 1
        met = drawn[order][at] == chord
        edges, ring = home[order][at[met]].tolist(), ring[met]
        first = np.searchsorted(face, np.arange(len(found)))  # the outer ring comes first
        cuts = [np.searchsorted(ring, k).tolist() for k in (first, first + 1, np.append(first[1:], len(rings)))]
        with np.errstate(all="ignore"):  # on its way the library divides by the width of a sliver
            inside = [(x, y) for x, y in shapely.get_coordinates(shapely.point_on_surface(found)).tolist()]
        bounds = map(tuple, shapely.bounds(found).tolist())
        rows = zip(found, *cuts, inside, bounds, shapely.area(found).tolist(), strict=True)
        return tuple(
            Face(polygon, frozenset(edges[low:high]), frozenset(edges[low:outer]), *more)
            for polygon, low, outer, high, *more in rows
        )


@dataclass(frozen=True)
class Face:
    """A bounded face: its polygon (arcs in chords), the edges round it and its holes, those of its outer ring.

    `inside`: a point within; `bounds`: its smallest x and y, its largest.
    """

    polygon: shapely.Polygon
    edges: frozenset[int]
    outer: frozenset[int]
    inside: Point
    bounds: Box
    area: float


def _chords(names: Ints, line: Ints, count: int) -> tuple[Ints, Ints]:
    """The chords between points named below `count`: a number for each, whichever way it runs, and its line."""
    on = np.flatnonzero(line[1:] == line[:-1])
    low, high = np.minimum(names[on], names[on + 1]), np.maximum(names[on], names[on + 1])
    return low * count + high, line[on]


def rim(faces: list[Face]) -> set[int]:
    """Edges that bound exactly one of the faces: the boundary of their union."""
    once: set[int] = set()
    for face in faces:
        once ^= face.edges
    return once


def without_boxes(network: Network, faces: Sequence[Face], aside: Set[int]) -> list[Face]:
    """Leave out faces that nothing but strokes labelled in `aside` close: boxes between a part and its dimensions.

    Edges labelled below 0 don't count, nor does what lies round about: a sheet's border encloses all.
    """
    kept = list(faces)
    while kept:
        count = Counter(k for f in kept for k in f.outer if network.edges[k].label >= 0)
        outer = {k for k, faces in count.items() if faces == 1}
        boxes = [f for f in kept if f.outer & outer and all(network.edges[k].label in aside for k in f.outer & outer)]
        if not boxes or len(boxes) == len(kept):
            return kept
        kept = less(kept, boxes)
    return kept


def less(faces: Sequence[Face], without: Sequence[Face]) -> list[Face]:
    """The faces without some of them, compared by identity and not by shape."""
    drop = {id(f) for f in without}
    return [f for f in faces if id(f) not in drop]
