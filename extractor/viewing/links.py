"""Lines that alone join two closed figures: a leader from a part to a tolerance frame, or from a frame to a border.

An outline is closed, so no piece of it is the only way from one closed figure to another; what is lies between figures
that have nothing to do with one another. Ends that hang in the air and outlines that are open altogether are no links.
"""

from collections.abc import Sequence

import numpy as np

from extractor.geometry.joining import bridges, components
from extractor.geometry.network import Network


def links(network: Network, loose: frozenset[int] = frozenset()) -> frozenset[int]:
    """Indices of the edges that are links. Edges labelled in `loose` don't count, centre lines close what they meet."""
    every = [(k, e) for k, e in enumerate(network.edges) if e.label not in loose]
    only = set(bridges([(e.a, e.b) for _, e in every]))
    if not only:
        return frozenset()
    ends = np.array([(e.a, e.b) for i, (_, e) in enumerate(every) if i not in only], dtype=np.int64).reshape(-1, 2)
    home = components(len(network.nodes), ends[:, 0], ends[:, 1])
    closed = set(home[ends[:, 0]].tolist())
    places = home.tolist()
    ways = [(places[every[i][1].a], places[every[i][1].b], every[i][0]) for i in only]
    return frozenset(k for k in _between(ways, closed) if network.edges[k].label >= 0)


def _between(ways: Sequence[tuple[int, int, int]], closed: set[int]) -> set[int]:
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
