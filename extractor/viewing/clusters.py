"""Clusters: what is connected on the sheet, and what each looks like about a line.

The strokes that may be outline are noded once; each connected component is a cluster: a view, a half of a section, a
border with its title block, a letter. Telling them apart is the business of `views`.
"""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import circular, length
from extractor.geometry.boxes import box_of
from extractor.geometry.crowds import ASKEW
from extractor.geometry.network import Face, Network, Strokes, rim, without_boxes
from extractor.grouping import grouped
from extractor.sheet import Floats, Segments
from extractor.values import dataclass
from extractor.viewing.axis import Axis, centre_segments
from extractor.viewing.gaps import Closed, close
from extractor.viewing.hatching import hatch_shapes
from extractor.viewing.links import links
from extractor.viewing.radial_holes import RadialHole, with_mouths
from extractor.viewing.roles import Roles, cleaned

PARTNER = {True: 1e-2, False: 3e-3}
"""A point has a mirror image if a line runs within this share of the cluster's diagonal of it; more is allowed about
an axis that is drawn, where the teeth of a thread stand half a pitch apart."""

CLOSE_BY = 0.001
"""A mirror image that is there at all mostly lies within this share of that distance."""
MANY = 1_000
"""Of more samples of a figure some are looked at before the others; a matter of speed alone."""
WIDER = 10.0
"""So many times as far is looked next; a matter of speed alone."""
PLAIN = 1e-4
"""Share of a rectangle's diagonal by which what is drawn may stand off it: rounding."""
SAMPLED = (0.1, 0.5, 0.9)
"""The places along an edge, as shares of it, that stand for it."""


@dataclass(frozen=True)
class Cluster:
    """One connected component of the network.

    `edges` are its edge indices, `rim` those of its boundary (all if it encloses nothing), `samples` float (m, 2)
    points along the rim with the length each stands for in `weights`, `boundary` float (k, 2) those and the corners
    between, `box` float (4,) its bounds.
    """

    edges: tuple[int, ...]
    rim: tuple[int, ...]
    closed: bool
    samples: Floats
    weights: Floats
    box: Floats
    boundary: Floats

    @cached_property
    def diagonal(self) -> float:
        """Diagonal of the box."""
        return float(np.hypot(self.box[2] - self.box[0], self.box[3] - self.box[1]))

    def holds(self, other: "Cluster") -> bool:
        """True if the other lies strictly within this one's box."""
        return bool((other.box[:2] > self.box[:2]).all() and (other.box[2:] < self.box[2:]).all())

    @cached_property
    def middle(self) -> Point:
        """Middle of the box."""
        x0, y0, x1, y1 = self.box.tolist()
        return (x0 + x1) / 2, (y0 + y1) / 2

    @cached_property
    def plain(self) -> bool:
        """True if its boundary is a plain rectangle, upright or not."""
        if not self.closed:
            return False
        margin, border = PLAIN * self.diagonal, shapely.boundary(self.frame)
        some = self.samples[:: 1 + len(self.samples) // MANY]  # most figures show by few that they are none
        return all((shapely.distance(shapely.points(row), border) <= margin).all() for row in (some, self.samples))

    @cached_property
    def frame(self) -> shapely.Geometry:
        """The least rectangle round its boundary, upright or not."""
        return shapely.linestrings(self.samples).minimum_rotated_rectangle


@dataclass(frozen=True)
class Ink:
    """The strokes that may be outline, gaps closed, with their network: what was closed, is aside, is hatched.

    `holes`: those drilled into one half whose mouths were closed.
    """

    strokes: Strokes
    network: Network
    near: float
    size: float
    closed: tuple[Closed, ...]
    aside: frozenset[int] = frozenset()
    hatched: tuple[shapely.Geometry, ...] = ()
    holes: tuple[RadialHole, ...] = ()

    @cached_property
    def links(self) -> frozenset[int]:
        """The edges that join otherwise unrelated figures."""
        return links(self.network, self.aside)

    @cached_property
    def kept(self) -> npt.NDArray[np.bool_]:
        """Which edges are of no stroke that is set aside."""
        return np.array([e.label not in self.aside for e in self.network.edges], dtype=bool)

    @cached_property
    def clusters(self) -> tuple[Cluster, ...]:
        """All clusters, largest first."""
        pieces = self.network.pieces(self.aside, self.links)
        home: dict[int, int] = {e: k for k, edges in enumerate(pieces) for e in edges}
        whole = without_boxes(self.network, self.network.faces, self.aside)
        faces = grouped((k, face) for face in whole for k in {home[e] for e in face.outer if e in home})
        found = [_cluster(self.network, edges, faces.get(k, [])) for k, edges in enumerate(pieces)]
        return tuple(sorted(found, key=lambda c: -c.diagonal))

    @cached_property
    def tree(self) -> shapely.STRtree:
        """All edges but centre lines as chords, to ask what lies near a point."""
        points, edge = self.network.chorded
        drawn = np.array([e.label >= 0 for e in self.network.edges], dtype=bool)[edge]
        return shapely.STRtree(
            shapely.linestrings(points[drawn], indices=np.unique(edge[drawn], return_inverse=True)[1])
        )

    def boundary(self, cluster: Cluster) -> Floats:
        """A cluster's boundary as points, float (n, 2), its arcs in chords."""
        points, edge = self.network.chorded
        return points[np.isin(edge, cluster.rim)]

    def mirrored(self, clusters: Sequence[Cluster], axis: Axis) -> list[float]:
        """Share of each of these clusters' boundary that has its mirror image about the axis somewhere on the sheet."""
        keys = [(id(cluster), axis.at, axis.direction, bool(axis.drawn)) for cluster in clusters]
        fresh = [(key, cluster) for key, cluster in zip(keys, clusters, strict=True) if key not in self._shares]
        shares = self._mirrored([cluster for _, cluster in fresh], axis)
        self._shares.update((key, share) for (key, _), share in zip(fresh, shares, strict=True))
        return [self._shares[key] for key in keys]

    @cached_property
    def _shares(self) -> dict[tuple[int, Point, Point, bool], float]:
        """What is known of clusters about axes: the same are asked for in turn by those who look for views."""
        return {}

    def _mirrored(self, clusters: Sequence[Cluster], axis: Axis) -> list[float]:
        """The same worked out."""
        if not clusters:
            return []
        images = axis.mirror(np.vstack([cluster.samples for cluster in clusters]))
        sizes = [len(cluster.samples) for cluster in clusters]
        within = PARTNER[bool(axis.drawn)] * np.repeat([cluster.diagonal for cluster in clusters], sizes)
        found = np.split(self.near_line(images, within), np.cumsum(sizes)[:-1])
        return [float(c.weights[near].sum() / c.weights.sum()) for c, near in zip(clusters, found, strict=True)]

    @cached_property
    def _marks(self) -> tuple[Floats, Floats]:
        """Places on straight edges but centre lines, float (n, 2), in the order in which they lie along ASKEW."""
        ends, straight = self.network.table
        ends = ends[straight & np.array([e.label >= 0 for e in self.network.edges], dtype=bool)]
        a, b = self.network.nodes[ends].transpose(1, 0, 2)
        places = np.vstack([a + share * (b - a) for share in SAMPLED])
        order = np.argsort(along := places @ ASKEW)
        return places[order], along[order]

    def near_line(self, places: Floats, within: Floats) -> npt.NDArray[np.bool_]:
        """Which places, float (n, 2), have a line within a distance of their own.

        Most images of samples are samples. Of many places a long search finds every line of a long row about each: it
        is left to those that no shorter one serves, each search WIDER than the one before.
        """
        marks, along = self._marks
        met = np.zeros(len(places), dtype=bool)
        for by in (0, 1) if len(marks) else ():
            beside = (np.searchsorted(along, places @ ASKEW) - by).clip(0, len(marks) - 1)
            met |= np.hypot(*(marks[beside] - places).T) <= within
        rest = np.flatnonzero(~met)
        share = CLOSE_BY if len(rest) > MANY else 1.0
        while len(rest):
            distance = min(share, 1.0) * within[rest]
            points = shapely.points(places[rest])
            met[rest[self.tree.query(points, predicate="dwithin", distance=distance)[0]]] = True
            rest = rest[~met[rest]] if share < 1.0 else rest[:0]
            share *= WIDER
        return met


def prepare(roles: Roles, segments: Segments, *, set_aside: bool = True) -> Ink:
    """Close the gaps of the strokes that may be outline and node them. Raises TooDenseError.

    `set_aside`: strokes that are likely something else close nothing by themselves.
    """
    strokes, near = roles.strokes, roles.near
    if not len(strokes):
        return Ink(strokes, Network(np.zeros((0, 2)), ()), 0.0, 0.0, ())
    beside = roles.aside if set_aside else frozenset[int]()
    # Where a dimension's line lies on the outline the outline's own stroke must win: the noder keeps the first.
    order = np.argsort(np.isin(strokes.label, list(beside)), kind="stable")
    index = centre_segments(segments)
    lines = cleaned(Strokes(segments.ends[index], segments.bulge[index], -1 - index))
    drawn, holes = with_mouths(strokes.pick(order), lines.ends, near)
    # With the centre lines, labelled below 0: halves that end on the axis are closed by it.
    every, closed, network = close(drawn.plus(lines), near)
    solid = every.pick(every.label >= 0)
    hatched = tuple(hatch_shapes(segments, roles.hatching))
    return Ink(solid, network, near, roles.size, closed, beside, hatched, holes)


def _cluster(network: Network, edges: Sequence[int], faces: list[Face]) -> Cluster:
    """A cluster from its edges and the faces that they enclose, with the help of centre lines or not."""
    mine = frozenset(edges)
    outer = tuple(k for k in rim(faces) if k in mine) or tuple(edges)
    edged = [network.edges[k] for k in outer]
    a, b = (network.nodes[np.array([e[side] for e in edged])][:, None] for side in (0, 1))
    along = a + np.array(SAMPLED)[None, :, None] * (b - a)
    sizes = []
    for k, e in enumerate(edged):
        start, end = network.point(e.a), network.point(e.b)
        sizes.append(length(start, end, e.bulge) / len(SAMPLED))
        if e.bulge:
            along[k] = [circular(start, end, e.bulge).at(t) for t in SAMPLED]
    samples, weights = along.reshape(-1, 2), np.repeat(sizes, len(SAMPLED))
    xy = np.vstack([samples, network.nodes[sorted({n for e in edged for n in e[:2]})]])
    return Cluster(tuple(edges), outer, bool(faces), samples, weights, box_of(xy), xy)
