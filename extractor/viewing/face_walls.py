"""Walls of grooves in an end face in a view from outside, where the edge of the floor and other edges cross them.

Two lines run from an end face into the metal and end on one line across the part: the edge of the groove's floor, which
runs on to the axis there. Edges of chamfers and of other grooves cut what lies between them into cells. Where all of it
is hidden lines it is a groove; lines in the pen of edges may as well be what is seen from outside.
"""

from collections.abc import Sequence, Set
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.geometry.network import Face, Network, rim
from extractor.sheet import Flags, Floats, Ints

THREADED = 4.0
"""The lines of a thread are at least so many times longer than they lie apart (common practice, no source)."""

SOCKET = 1.0
"""A blind socket or an internal spline is deeper than its lines lie apart, times this: a key holds in none that is not
(common practice, no source). A groove of hidden lines that is no deeper is none of these."""

HALF_WAY = 0.01
"""A wall at half the radius of the one outside it, within this share of that, may be an edge of a hexagon's socket seen
over its corners: those two stand at the sine of 30 degrees."""


class _Wall(NamedTuple):
    """A line along the axis: z of the end face where it begins, its radius, and where it ends.

    `end` and `foot`, z and radius, are those behind the curve of a corner radius.
    """

    face: float
    end: float
    r: float
    foot: float

    def beside(self, other: "_Wall", fine: float) -> bool:
        """True if both begin at one face and end as deep."""
        return abs(self.face - other.face) <= fine and abs(self.end - other.end) <= fine


def between_walls(network: Network, mine: Sequence[Face], outer: Set[int], fine: float) -> list[Face]:
    """The metal faces of one half at the floor of what may be a groove in an end face, one for each groove.

    `outer` are the edges of the half's rim. What lies between the lines of a thread is long and thin, and the edge of a
    chamfer runs on to the outline.
    """
    side = 1 if not mine or mine[0].inside[1] > 0 else -1
    walls = _walls(network, side, outer, outer, fine)
    found = []
    for one, two in pairwise(walls):
        if not one.beside(two, fine) or two.r - one.r <= fine or abs(one.face - one.end) >= THREADED * (two.r - one.r):
            continue
        floor = _spans(network, side, one.end, fine)
        runs_in = any(low < one.foot - fine <= high <= one.foot + fine for low, high in floor)
        if runs_in and abs(max(high for _, high in floor) - two.foot) <= fine:
            found += [f for f in mine if _at_floor(f, one, two, fine)][:1]
    return found


class _Uprights(NamedTuple):
    """Lines square to the axis on one side of it, rising along z: edges, z and radius of their middles, if hidden."""

    edges: Ints
    z: Floats
    r: Floats
    hidden: Flags

    def within(self, some: slice) -> "_Uprights":
        """Some of them."""
        return _Uprights(self.edges[some], self.z[some], self.r[some], self.hidden[some])


def floors_run_on(network: Network, fine: float, hidden: Set[int]) -> set[int]:
    """The edges by which hidden floors of grooves in end faces run on over the metal within, where nothing ends on it.

    `hidden` are the labels of hidden lines. Seen from the side the floor, a ring, is a line from its outer wall on one
    side of the axis to that on the other, and so are the edges of its corner radii; an edge of the outside may hide it.
    From the outermost wall inward two walls at a time bound a groove.
    """
    found: set[int] = set()
    veiled = {k for k, edge in enumerate(network.edges) if edge.label in hidden}
    plain = set(range(len(network.edges))) - veiled
    across = [k for k in range(len(network.edges)) if network.level(k, 0, fine)]
    for side in (1, -1):
        outer = rim([f for f in network.faces if f.inside[1] * side > 0])
        rows: list[list[_Wall]] = []
        for wall in _walls(network, side, outer, outer | plain, fine):
            if rows and rows[-1][0].beside(wall, fine):
                rows[-1].insert(0, wall)
            else:
                rows.append([wall])
        upright = _upright(network, side, across, veiled)
        found = found.union(*(_runs_on(network, row, upright, fine) for row in rows if len(row) > 1))
    return found


def _upright(network: Network, side: int, across: Sequence[int], veiled: Set[int]) -> _Uprights:
    """Those edges of some that lie on one side of the axis."""
    z, r = np.array([network.mid(network.edges[k]) for k in across]).reshape(-1, 2).T * ((1,), (side,))
    order = np.argsort(z)
    order = order[r[order] > 0]
    edges = np.array(across, dtype=np.int64)[order]
    return _Uprights(edges, z[order], r[order], np.isin(edges, list(veiled)))


def _runs_on(network: Network, walls: Sequence[_Wall], upright: _Uprights, fine: float) -> set[int]:
    """The edges that cross the metal between some grooves, none if not all of `walls` bound such grooves.

    `walls`: those that begin at one face and end as deep, the outermost first.
    """
    pairs = list(zip(walls[::2], walls[1::2], strict=False))
    (face, end, *_), found = walls[0], set[int]()
    if any(abs(face - end) > SOCKET * (a.r - b.r) + fine or abs(b.r - a.r / 2) <= HALF_WAY * a.r for a, b in pairs):
        return found
    low, high = np.searchsorted(upright.z, [min(face, end) - fine, max(face, end) + fine])
    edges, z, r, hidden = upright.within(slice(low, high))
    floor, over = np.abs(z - end) <= fine, (np.abs(z - face) > fine) & (r < walls[0].r)
    bottoms = [floor & (b.foot < r) & (r < a.foot) for a, b in pairs]
    if not all(bottom.any() for bottom in bottoms) or r[floor & hidden].max(initial=0.0) > walls[0].foot:
        return found
    for bottom, (a, b) in zip(bottoms, pairs, strict=True):
        over &= ~(bottom | ~floor & (b.r < r) & (r < a.r))
    for step in np.split(np.arange(len(z)), np.flatnonzero(np.diff(z) > fine) + 1):
        mine = set(edges[step[over[step]]].tolist())
        ends = {n for k in mine for n in network.edges[k][:2]}
        ends -= {n for k in edges[step[~over[step]]].tolist() for n in network.edges[k][:2]}
        if all(_passed(network, n, fine) for n in ends):
            found |= mine
        elif floor[step].any():
            return set()
    return found


def _passed(network: Network, node: int, fine: float) -> bool:
    """True if as many lines along the axis leave a node on one side as on the other, or it lies on the axis."""
    z, r = network.point(node)
    level = (k for k in network.around[node] if network.level(k, 1, fine))
    ways = [max(p[0] for p in network.ends(k)) > z + fine for k in level]
    return abs(r) <= fine or 2 * sum(ways) == len(ways)


def _walls(network: Network, side: int, outer: Set[int], barred: Set[int], fine: float) -> list[_Wall]:
    """The lines that run from an end face into the metal and end there, face by face, each by its end from the axis.

    `outer` are the edges of the half's rim; no wall runs along those in `barred`.
    """
    found = []
    feet = {n for k in outer if network.level(k, 0, fine) for n in network.edges[k][:2]}
    nodes, straight = network.table
    level = straight & (np.abs(network.nodes[nodes[:, 0], 1] - network.nodes[nodes[:, 1], 1]) <= fine)
    leaving = {n for k in np.flatnonzero(level).tolist() if k not in barred for n in network.edges[k][:2]}
    for foot in feet & leaving:
        z, r = network.point(foot)
        if r * side <= fine:
            continue
        for way in (1, -1):
            node = _run(network, foot, way, barred, fine)
            if node not in feet:
                end, bottom = network.point(_round_corner(network, node, way, fine))
                found.append(_Wall(z, end, r * side, bottom * side))
    faces, ends = (_steps([w[k] for w in found], fine) for k in (0, 1))
    return [w for *_, w in sorted(zip(faces, ends, found, strict=True), key=lambda row: (*row[:2], row[2].r))]


def _steps(places: Sequence[float], fine: float) -> list[int]:
    """For each place the number of its step among them all in order; what lies within `fine` is one step."""
    values = np.array(places, dtype=float)
    order = np.argsort(values)
    number = np.zeros(len(values), dtype=np.int64)
    number[order[1:]] = np.cumsum(np.diff(values[order]) > fine)
    return [int(k) for k in number]


def _run(network: Network, node: int, way: int, barred: Set[int], fine: float) -> int:
    """The node where the line along the axis ends that leaves a node within the metal, the node itself without one."""
    while True:
        z, _ = network.point(node)
        level = (k for k in network.around[node] if k not in barred and network.level(k, 1, fine))
        further = [n for k in level for n in network.edges[k][:2] if (network.point(n)[0] - z) * way > fine]
        if not further:
            return node
        node = further[0]


def _round_corner(network: Network, node: int, way: int, fine: float) -> int:
    """The node where the curve ends that goes on from a wall's end, in chords or not, the node itself without one."""
    while True:
        z, _ = network.point(node)
        slanting = (k for k in network.around[node] if not network.level(k, 0, fine) and not network.level(k, 1, fine))
        further = [n for k in slanting for n in network.edges[k][:2] if (network.point(n)[0] - z) * way > 0]
        if not further:
            return node
        node = further[0]


def _spans(network: Network, side: int, z: float, fine: float) -> list[tuple[float, float]]:
    """The radii from where to where each edge across the part at z runs in one half."""
    ends = (network.ends(k) for k in network.level_edges(0, z, fine))
    rows = (sorted((a[1] * side, b[1] * side)) for a, b in ends)
    return [(low, high) for low, high in rows if high > fine]


def _at_floor(face: Face, one: _Wall, two: _Wall, fine: float) -> bool:
    """True if a face lies between two walls, at the end of them."""
    low, bottom, high, top = face.bounds
    bottom, top = sorted((abs(bottom), abs(top)))
    reach = high if one.face < one.end else low
    between = abs(bottom - one.r) <= fine and abs(top - two.r) <= fine
    return bool(between and abs(reach - one.end) <= fine)
