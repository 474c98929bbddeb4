"""Clusters: what hangs together on the sheet, and what each looks like about a line.

The strokes that may be outline are noded once; each connected component is a cluster: a view, a half of a section, a
border with its title block, a letter. Telling them apart is the business of `views`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from extractor.geometry.arcs import circular, length
from extractor.geometry.network import Face, Network, Strokes, rim, without_boxes
from extractor.geometry.noding import node
from extractor.sheet import Dimension, Floats, Ints, Pen, Segments, Sheet
from extractor.viewing.arrows import arrows
from extractor.viewing.axis import NO_OUTLINE, Axis
from extractor.viewing.exploded import aside, loose_dimensions
from extractor.viewing.gaps import Closed, close, typical_size
from extractor.viewing.hatching import loose_hatching
from extractor.viewing.letters import without_letters
from extractor.viewing.links import links
from extractor.viewing.marks import texture_marks

DUST = 1e-9
"""Shorter than this share of all that is drawn is a dot, and a bulge rising less is none."""

NEAR = 1e-5
"""Noding distance as a share of the size of what is drawn: rounded angles and last digits, 1e-6 to 1e-4 mm in
drawings that were measured, and far below the smallest chamfer."""

PARTNER = {True: 1e-2, False: 3e-3}
"""A point has a mirror image if a line runs within this share of the cluster's diagonal of it; more is allowed about
an axis that is drawn, where the teeth of a thread stand half a pitch apart."""


def solid_strokes(segments: Segments) -> Strokes:
    """The strokes that may be outline: visible edges, not part of a dimension, leader or hatch."""
    fit = np.array([s.pen is Pen.SOLID and s.owner not in NO_OUTLINE for s in segments.sources], dtype=bool)
    index: Ints = np.flatnonzero(fit[segments.source]) if len(segments) else np.zeros(0, dtype=np.int64)
    return _cleaned(Strokes(segments.ends[index], segments.bulge[index], index.astype(np.int64)))


def _cleaned(strokes: Strokes) -> Strokes:
    """The strokes without dots; arcs that rise by next to nothing are straight."""
    if not len(strokes):
        return strokes
    xy = strokes.ends.reshape(-1, 2)
    dust = DUST * float(np.hypot(*(xy.max(axis=0) - xy.min(axis=0))))
    chord = np.hypot(strokes.ends[:, 2] - strokes.ends[:, 0], strokes.ends[:, 3] - strokes.ends[:, 1])
    bulge = np.where(np.abs(strokes.bulge) * chord / 2 > dust, strokes.bulge, 0.0)
    return Strokes(strokes.ends, bulge, strokes.label).pick(chord > dust)


@dataclass(frozen=True)
class Cluster:
    """One connected component of the network.

    `edges` are its edge indices, `rim` those of its boundary (all if it encloses nothing), `samples` float (m, 2)
    points along the rim with the length each stands for in `weights`, `box` float (4,) its bounds.
    """

    edges: tuple[int, ...]
    rim: tuple[int, ...]
    closed: bool
    samples: Floats
    weights: Floats
    box: Floats

    @property
    def diagonal(self) -> float:
        """Diagonal of the box."""
        return float(np.hypot(self.box[2] - self.box[0], self.box[3] - self.box[1]))

    def holds(self, other: "Cluster") -> bool:
        """True if the other lies strictly within this one's box."""
        return bool((other.box[:2] > self.box[:2]).all() and (other.box[2:] < self.box[2:]).all())

    @cached_property
    def plain(self) -> bool:
        """True if its boundary is a plain rectangle, upright or not."""
        if not self.closed:
            return False
        margin = 1e-4 * self.diagonal
        return bool((shapely.distance(shapely.points(self.samples), shapely.boundary(self.frame)) <= margin).all())

    @cached_property
    def frame(self) -> shapely.Geometry:
        """The least rectangle round its boundary, upright or not."""
        return shapely.MultiPoint(self.samples).minimum_rotated_rectangle


@dataclass(frozen=True)
class Ink:
    """The strokes that may be outline, gaps closed, with their network, what was closed, what is aside, hatch lines.

    `told` are the dimensions that were drawn as loose lines.
    """

    strokes: Strokes
    network: Network
    near: float
    size: float
    closed: tuple[Closed, ...]
    aside: frozenset[int] = frozenset()
    hatching: frozenset[int] = frozenset()
    told: tuple[Dimension, ...] = ()

    @cached_property
    def links(self) -> frozenset[int]:
        """The edges that join figures which have nothing to do with one another."""
        return links(self.network, self.aside)

    @cached_property
    def clusters(self) -> tuple[Cluster, ...]:
        """All clusters, largest first."""
        pieces = self.network.pieces(self.aside, self.links)
        home: dict[int, int] = {e: k for k, edges in enumerate(pieces) for e in edges}
        faces: dict[int, list[Face]] = {}
        for face in without_boxes(self.network, self.network.faces, self.aside):
            for k in {home[e] for e in face.outer if e in home}:
                faces.setdefault(k, []).append(face)
        found = [_cluster(self.network, edges, faces.get(k, [])) for k, edges in enumerate(pieces)]
        return tuple(sorted(found, key=lambda c: -c.diagonal))

    @cached_property
    def tree(self) -> shapely.STRtree:
        """All edges but centre lines as chords, to ask what lies near a point."""
        return shapely.STRtree([shapely.LineString(self.network.line(e)) for e in self.network.edges if e.label >= 0])

    def mirrored(self, cluster: Cluster, axis: Axis) -> float:
        """Share of a cluster's boundary that has its mirror image about the axis somewhere on the sheet."""
        images = shapely.points(axis.mirror(cluster.samples))
        hit, _ = self.tree.query(images, predicate="dwithin", distance=PARTNER[bool(axis.drawn)] * cluster.diagonal)
        found = np.zeros(len(images), dtype=bool)
        found[hit] = True
        return float(cluster.weights[found].sum() / cluster.weights.sum())


def prepare(sheet: Sheet) -> Ink:
    """Node the strokes that may be outline and close their gaps. Raises TooDenseError."""
    strokes = solid_strokes(sheet.segments)
    size = _size(strokes)
    strokes = without_letters(strokes, sheet.segments.ends[_centre_segments(sheet.segments)])
    if not len(strokes):
        return Ink(strokes, Network(np.zeros((0, 2)), ()), 0.0, 0.0, ())
    near = NEAR * typical_size(strokes)
    strokes = strokes.pick(~np.isin(strokes.label, list(texture_marks(strokes, near))))
    pointed = arrows(strokes, near)
    told = loose_dimensions(sheet, strokes, near, pointed)
    beside = aside(sheet, strokes, near, pointed)
    strokes = strokes.pick(~np.isin(strokes.label, list(pointed.heads | pointed.lines)))
    hatching = loose_hatching(strokes, near)
    strokes = strokes.pick(~np.isin(strokes.label, list(hatching)))
    # Where a dimension's line lies on the outline the outline's own stroke must win: the noder keeps the first.
    order = np.argsort(np.isin(strokes.label, list(beside)), kind="stable")
    every, closed = close(_with_centre_lines(strokes.pick(order), sheet.segments), near)
    return Ink(every.pick(every.label >= 0), node(every, near), near, size, closed, beside, hatching, told)


def _with_centre_lines(strokes: Strokes, segments: Segments) -> Strokes:
    """The strokes and the centre lines, these labelled below 0: halves that end on the axis are closed by it."""
    index = _centre_segments(segments)
    lines = _cleaned(Strokes(segments.ends[index], segments.bulge[index], -1 - index))
    return Strokes(
        np.vstack([strokes.ends, lines.ends]),
        np.append(strokes.bulge, lines.bulge),
        np.append(strokes.label, lines.label),
    )


def _centre_segments(segments: Segments) -> Ints:
    """The straight centre lines, as indices."""
    centre = np.array([s.pen is Pen.CENTRE and s.owner not in NO_OUTLINE for s in segments.sources], dtype=bool)
    index: Ints = np.flatnonzero(centre[segments.source] & (segments.bulge == 0)).astype(np.int64)
    return index


def _size(strokes: Strokes) -> float:
    """Diagonal of everything drawn."""
    if not len(strokes):
        return 0.0
    xy = strokes.ends.reshape(-1, 2)
    return float(np.hypot(*(xy.max(axis=0) - xy.min(axis=0))))


def _cluster(network: Network, edges: Sequence[int], faces: list[Face]) -> Cluster:
    """A cluster from its edges and the faces that they enclose, with the help of centre lines or not."""
    mine = frozenset(edges)
    outer = tuple(k for k in rim(faces) if k in mine) or tuple(edges)
    samples, weights = [], []
    for k in outer:
        edge = network.edges[k]
        a, b = network.point(edge.a), network.point(edge.b)
        size = length(a, b, edge.bulge) / 3
        for t in (0.1, 0.5, 0.9):
            at = (
                circular(a, b, edge.bulge).at(t) if edge.bulge else (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
            )
            samples.append(at)
            weights.append(size)
    xy = np.array(samples + [network.point(n) for k in outer for n in network.edges[k][:2]])
    box = np.concatenate([xy.min(axis=0), xy.max(axis=0)])
    return Cluster(tuple(edges), outer, bool(faces), np.array(samples), np.array(weights), box)
