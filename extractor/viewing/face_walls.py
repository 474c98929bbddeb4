"""Walls of grooves in an end face in a view from outside, where hidden lines are drawn plain and edges cross them.

Two lines run from an end face into the metal and end on one line across the part: the edge of the groove's floor, which
runs on to the axis there. Edges of chamfers and of other grooves cut what lies between them into cells.
"""

from collections.abc import Sequence, Set
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.geometry.network import Face, Network

THREADED = 4.0
"""The lines of a thread are at least so many times longer than they lie apart (common practice, no source)."""


class _Wall(NamedTuple):
    """A line along the axis: z of the end face where it begins, z where it ends, and its radius."""

    face: float
    end: float
    r: float

    def beside(self, other: "_Wall", fine: float) -> bool:
        """True if both begin at one face and end as deep."""
        return abs(self.face - other.face) <= fine and abs(self.end - other.end) <= fine


def between_walls(network: Network, mine: Sequence[Face], outer: Set[int], fine: float) -> list[Face]:
    """The metal faces of one half at the floor of what may be a groove in an end face, one for each groove.

    `outer` are the edges of the half's rim. What lies between the lines of a thread is long and thin, and the edge of a
    chamfer runs on to the outline.
    """
    side = 1 if not mine or mine[0].inside[1] > 0 else -1
    walls = _walls(network, side, outer, fine)
    found = []
    for one, two in pairwise(walls):
        if not one.beside(two, fine) or two.r - one.r <= fine or abs(one.face - one.end) >= THREADED * (two.r - one.r):
            continue
        floor = _line(network, side, one.end, fine)
        if floor and floor[0] < one.r - fine and abs(floor[1] - two.r) <= fine:
            found += [f for f in mine if _at_floor(f, one, two, fine)][:1]
    return found


def _walls(network: Network, side: int, outer: Set[int], fine: float) -> list[_Wall]:
    """The lines that run from an end face into the metal and end there, face by face, each by its end from the axis."""
    found = []
    feet = {n for k in outer if network.level(k, 0, fine) for n in network.edges[k][:2]}
    nodes, straight = network.table
    level = straight & (np.abs(network.nodes[nodes[:, 0], 1] - network.nodes[nodes[:, 1], 1]) <= fine)
    leaving = {n for k in np.flatnonzero(level).tolist() if k not in outer for n in network.edges[k][:2]}
    for foot in feet & leaving:
        z, r = network.point(foot)
        if r * side <= fine:
            continue
        for way in (1, -1):
            node = _run(network, foot, way, outer, fine)
            if node not in feet:
                found.append(_Wall(z, network.point(node)[0], r * side))
    faces, ends = (_steps([w[k] for w in found], fine) for k in (0, 1))
    return [w for *_, w in sorted(zip(faces, ends, found, strict=True), key=lambda row: (*row[:2], row[2].r))]


def _steps(places: Sequence[float], fine: float) -> list[int]:
    """For each place the number of its step among them all in order; what lies within `fine` is one step."""
    values = np.array(places, dtype=float)
    order = np.argsort(values)
    number = np.zeros(len(values), dtype=np.int64)
    number[order[1:]] = np.cumsum(np.diff(values[order]) > fine)
    return [int(k) for k in number]


def _run(network: Network, node: int, way: int, outer: Set[int], fine: float) -> int:
    """The node where the line along the axis ends that leaves a node within the metal, the node itself without one."""
    while True:
        z, _ = network.point(node)
        level = (k for k in network.around[node] if k not in outer and network.level(k, 1, fine))
        further = [n for k in level for n in network.edges[k][:2] if (network.point(n)[0] - z) * way > fine]
        if not further:
            return node
        node = further[0]


def _line(network: Network, side: int, z: float, fine: float) -> tuple[float, float] | None:
    """The radii from where to where the line across the part at z runs in one half, None without one."""
    nodes = {n for k in network.level_edges(0, z, fine) for n in network.edges[k][:2]}
    radii = [r for n in nodes if (r := network.point(n)[1] * side) > -fine]
    return (min(radii), max(radii)) if radii else None


def _at_floor(face: Face, one: _Wall, two: _Wall, fine: float) -> bool:
    """True if a face lies between two walls, at the end of them."""
    low, bottom, high, top = face.bounds
    bottom, top = sorted((abs(bottom), abs(top)))
    reach = high if one.face < one.end else low
    between = abs(bottom - one.r) <= fine and abs(top - two.r) <= fine
    return bool(between and abs(reach - one.end) <= fine)
