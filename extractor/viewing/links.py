"""Lines that alone join two closed figures: the leader between a part and a tolerance frame, or a frame's and a border.

An outline is closed, so no piece of it is the only way from one closed figure to another; what is lies between figures
that have nothing to do with one another. Ends that hang in the air and outlines that are open altogether are no links.
"""

import networkx as nx

from extractor.geometry.network import Network


def links(network: Network, loose: frozenset[int] = frozenset()) -> frozenset[int]:
    """Indices of the edges that are links. Edges labelled in `loose` don't count, centre lines close what they meet."""
    every = [(k, e) for k, e in enumerate(network.edges) if e.label not in loose]
    graph: nx.Graph[int] = nx.Graph()
    doubled = set()
    for k, e in every:
        if graph.has_edge(e.a, e.b):
            doubled.add(frozenset((e.a, e.b)))
        graph.add_edge(e.a, e.b, edge=k)
    only = [pair for pair in nx.bridges(graph) if frozenset(pair) not in doubled]
    if not only:
        return frozenset()
    named = {frozenset(pair): int(graph.edges[pair]["edge"]) for pair in only}
    graph.remove_edges_from(only)
    home = {n: i for i, nodes in enumerate(nx.connected_components(graph)) for n in nodes}
    closed = {home[n] for n in graph if graph.degree(n)}
    return frozenset(k for k in _between(only, named, home, closed) if network.edges[k].label >= 0)


def _between(
    only: list[tuple[int, int]], named: dict[frozenset[int], int], home: dict[int, int], closed: set[int]
) -> set[int]:
    """The edges left once those that lead to no closed figure are taken away from the ends inward."""
    tree: nx.Graph[int] = nx.Graph()
    for a, b in only:
        tree.add_edge(home[a], home[b], edge=named[frozenset((a, b))])
    ends = [n for n in tree if tree.degree(n) == 1 and n not in closed]
    while ends:
        n = ends.pop()
        (beside,) = tree[n]
        tree.remove_node(n)
        if tree.degree(beside) == 1 and beside not in closed:
            ends.append(beside)
        elif not tree.degree(beside):
            ends = [m for m in ends if m != beside]
    return {int(edge) for _, _, edge in tree.edges(data="edge")}
