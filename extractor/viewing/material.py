"""Which faces of a half are metal: not the bores, not the grooves under a mouth line, not boxes beside the part."""

from collections.abc import Sequence

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.network import Face, Network, less, rim, without_boxes
from extractor.values import dataclass
from extractor.viewing.bores import bored, grouped
from extractor.viewing.face_walls import between_walls
from extractor.viewing.pockets import pockets
from extractor.viewing.put_in import put_in
from extractor.viewing.undercut_cells import undercut_cells

PIECE = 0.02
"""A piece smaller than this share of the main one is a mark."""

BEYOND = 0.01
"""And one that reaches beyond the main one by no more than this share of its length lies beside it or in it."""

PAST = 1.01
"""A ray ends so many times as far from the axis as anything drawn, where it has met all that there is."""


@dataclass(frozen=True)
class MetalFaces:
    """The metal faces of one half, and places (z, radius) of what was set apart.

    `beside`: faces that only this half has; `pieces`: others that hang together with none of the rest; `inner`: lines
    that may be a bore or a thread; `mouths`: grooves whose mouth line runs on; `long`: the same, but maybe a thread;
    `knurl`: rows of cells; `crossed`: cells between walls behind an end face that a line runs across;
    `boxed`: what lines close off beside the bore of a section; `put_in`: the faces of rings that stand in a groove.
    """

    faces: tuple[Face, ...]
    beside: tuple[Point, ...] = ()
    pieces: tuple[Point, ...] = ()
    inner: tuple[Point, ...] = ()
    mouths: tuple[Point, ...] = ()
    long: tuple[Point, ...] = ()
    knurl: tuple[Point, ...] = ()
    crossed: tuple[Point, ...] = ()
    boxed: tuple[Point, ...] = ()
    put_in: tuple[Face, ...] = ()


@dataclass(frozen=True)
class Shown:
    """What is known of a view: whether both halves are drawn, and how far it reaches.

    `aside`, `hidden` and `roots` are the labels of strokes set aside, of hidden lines and of threads' roots, `hatched`
    what is hatched.
    """

    paired: bool
    reach: float
    aside: frozenset[int] = frozenset()
    hidden: frozenset[int] = frozenset()
    hatched: tuple[shapely.Geometry, ...] = ()
    roots: frozenset[int] = frozenset()


def material(network: Network, side: int, fine: float, shown: Shown) -> MetalFaces:
    """Sort the faces above (side 1) or below (-1) the axis."""
    mine = [f for f in network.faces if f.inside[1] * side > 0]
    mine, pieces = _largest_blob(without_boxes(network, mine, shown.aside))
    sole: list[Face] = []
    if shown.paired:
        others = shapely.STRtree([f.polygon for f in network.faces if f.inside[1] * side < 0])
        sole = less(mine, _matched(mine, others, shown.reach))
        # A face on the axis is the part's body: then the other half is open there, and nothing may be left out.
        body = network.level_edges(1, 0.0, fine)
        pieces += [f for f in sole if f.edges & body]
        mine = less(mine, sole)
    rings = put_in(network, mine, shown.hatched, fine)
    mine = less(mine, rings)
    outer = rim(mine)
    empty = bored(network, mine, fine, shown.hidden, shown.hatched)
    mine = less(mine, empty.faces)
    found = pockets(network, mine, fine, shown.roots)
    mine = less(mine, (*found.grooves, *found.long, *found.rings))
    mine = less(mine, undercut_cells(network, mine, fine))
    return MetalFaces(
        tuple(mine),
        _places(sole),
        _places(pieces),
        tuple((z, abs(r)) for z, r in empty.unclear),
        _places(found.grooves),
        _places(found.long),
        _places(found.knurl),
        _places(between_walls(network, mine, outer, fine)),
        tuple((z, abs(r)) for z, r in empty.boxed),
        tuple(rings),
    )


def _largest_blob(faces: Sequence[Face]) -> tuple[list[Face], list[Face]]:
    """The faces that hang together by edges and reach farthest along z, and one of each piece that lies beyond them.

    Small marks that only touch the outline fall away, and so does what lies beside or within it.
    """
    blobs = sorted(grouped(faces), key=_stretch, reverse=True)
    if not blobs:
        return [], []
    size = _area(blobs[0])
    low, high = _span(blobs[0])
    margin = BEYOND * (high - low)
    beyond = [b for b in blobs[1:] if _span(b)[0] < low - margin or _span(b)[1] > high + margin]
    return blobs[0], [blob[0] for blob in beyond if _area(blob) > PIECE * size]


def _area(faces: Sequence[Face]) -> float:
    """Area of faces together."""
    return float(sum(f.area for f in faces))


def _span(faces: Sequence[Face]) -> tuple[float, float]:
    """The stretch along z that faces take up."""
    bounds = [f.bounds for f in faces]
    return float(min(b[0] for b in bounds)), float(max(b[2] for b in bounds))


def _stretch(faces: Sequence[Face]) -> float:
    """How far faces reach along z."""
    low, high = _span(faces)
    return high - low


def _places(faces: Sequence[Face]) -> tuple[Point, ...]:
    """A point (z, radius) within each face."""
    return tuple((f.inside[0], abs(f.inside[1])) for f in faces)


def _matched(faces: Sequence[Face], others: shapely.STRtree, reach: float) -> list[Face]:
    """The faces as far out as which the other half reaches, seen from the axis."""
    z, r = np.array([f.inside for f in faces]).reshape(-1, 2).T
    ends = np.column_stack([z, -r, z, -np.sign(r) * PAST * np.maximum(reach, np.abs(r))])
    met = others.query(shapely.linestrings(ends.reshape(-1, 2, 2)), predicate="intersects")[0]
    return [faces[k] for k in np.unique(met).tolist()]
