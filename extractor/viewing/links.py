"""Lines that alone join two closed figures: a leader from a part to a tolerance frame, or from a frame to a border.

An outline is closed, so no piece of it is the only way from one closed figure to another; what is lies between figures
that have nothing to do with one another. Ends that hang in the air and outlines that are open altogether are no links.
"""

from collections.abc import Iterable

import numpy as np

from extractor.geometry.joining import bridges, components
from extractor.geometry.network import Network


def links(network: Network, loose: frozenset[int] = frozenset()) -> frozenset[int]:
    """Indices of the edges that are links. Edges labelled in `loose` don't count, centre lines close what they meet."""
    nodes, count = network.table[0], len(network.nodes)
    kept = ~np.isin(network.labels, list(loose))
    # What bounds a face is on a way round, and no link: only ways between such figures are left to walk along.
    left = set(np.flatnonzero(~kept).tolist())
    round_faces = {k for face in network.faces if left.isdisjoint(face.edges) for k in face.edges}
    closed_off = np.zeros(len(nodes), dtype=bool)
    closed_off[list(round_faces)] = True
    figure = components(count, *nodes[closed_off].T)
    rest = np.flatnonzero(kept & ~closed_off)
    only = rest[list(bridges(figure[nodes[rest]].tolist()))]
    if not len(only):
        return frozenset()
    kept[only] = False
    home = components(count, *nodes[kept].T)
    closed = set(home[nodes[kept, 0]].tolist())
    ways = zip(*home[nodes[only]].T.tolist(), only.tolist(), strict=True)
    return frozenset(k for k in _between(ways, closed) if network.edges[k].label >= 0)


def _between(ways: Iterable[tuple[int, int, int]], closed: set[int]) -> set[int]:
    """The edges left once those that lead to no closed figure are taken away from the ends inward.

    `ways` are the two figures that an edge joins, and its index; together they make trees.
    """
    beside: dict[int, dict[int, int]] = {}
    for a, b, k in ways:
        beside.setdefault(a, {})[b] = k
        beside.setdefault(b, {})[a] = k
    ends = [n for n, others in beside.items() if len(others) == 1 and n not in closed]
    while ends:
        n = ends.pop()
        for other in beside.pop(n):
            del beside[other][n]
            if len(beside[other]) == 1 and other not in closed:
                ends.append(other)
    return {k for others in beside.values() for k in others.values()}
