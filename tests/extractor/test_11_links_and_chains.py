"""Bridges, groups, links and chains of the outline, against the same worked out by a graph library."""

import random
from itertools import pairwise

import networkx as nx
import numpy as np

from extractor.geometry.joining import bridges, groups
from extractor.geometry.network import Edge, Network
from extractor.viewing.links import links
from extractor.viewing.outline import _chains

SEEDS = range(400)


def pairs_of(seed):
    """Random pairs of a few things: paths and rings for odd seeds, anything for even ones, some pairs twice."""
    rng = random.Random(seed)
    count = rng.randrange(2, 13)
    if seed % 2:
        order = rng.sample(range(count), count)
        row = [(a, b) if rng.random() < 0.5 else (b, a) for a, b in pairwise(order)]
        row = [pair for pair in row if rng.random() < 0.8]
    else:
        row = [tuple(rng.sample(range(count), 2)) for _ in range(rng.randrange(1, 2 * count))]
    return rng.sample(row, len(row))


def network_of(pairs, seed):
    rng = random.Random(seed)
    nodes = np.array([(rng.randrange(4), rng.random()) for _ in range(13)])
    return Network(nodes, tuple(Edge(a, b, 0.0, rng.randrange(-1, 5)) for a, b in pairs))


def runs(network, edges):
    """By the edges of each part of a rim that one run goes through: where the library says that such a run begins."""
    graph = nx.MultiGraph([(*network.edges[k][:2], k) for k in edges])
    parts = [graph.subgraph(nodes) for nodes in nx.connected_components(graph)]
    ends = [(part, [n for n, degree in part.degree if degree % 2]) for part in parts if nx.has_eulerian_path(part)]
    return {frozenset(k for *_, k in part.edges(keys=True)): max(odd or part, key=network.point) for part, odd in ends}


def test_bridges_are_the_librarys():
    for seed in SEEDS:
        pairs = pairs_of(seed)
        graph, kinds = nx.Graph(pairs), [frozenset(pair) for pair in pairs]
        alone = {frozenset(pair) for pair in nx.bridges(graph)} if pairs else set()
        assert set(bridges(pairs)) == {k for k, kind in enumerate(kinds) if kind in alone and kinds.count(kind) == 1}


def test_groups_are_the_librarys_in_its_order():
    for seed in SEEDS:
        pairs, graph = pairs_of(seed), nx.Graph()
        graph.add_nodes_from(range(3))
        graph.add_edges_from(pairs)
        assert [set(row) for row in groups(pairs, alone=range(3))] == list(nx.connected_components(graph))


def test_a_link_is_a_bridge_on_a_way_between_two_rings():
    for seed in SEEDS:
        network = network_of(pairs_of(seed), seed)
        every = {k: e for k, e in enumerate(network.edges) if e.label != 4}
        graph = nx.MultiGraph([(e.a, e.b, k) for k, e in every.items()])
        alone = set(bridges([(e.a, e.b) for e in every.values()]))
        only = [k for i, k in enumerate(every) if i in alone]
        rings = graph.copy()
        rings.remove_edges_from([(every[k].a, every[k].b, k) for k in only])
        wanted = set()
        for k in only:
            left = graph.copy()
            left.remove_edge(every[k].a, every[k].b, k)
            sides = [nx.node_connected_component(left, n) for n in every[k][:2]]
            if all(any(rings.degree(n) for n in side) for side in sides) and every[k].label >= 0:
                wanted.add(k)
        assert links(network, frozenset({4})) == wanted


def test_chains_run_through_each_edge_once_where_the_library_says_that_one_can():
    for seed in SEEDS:
        network = network_of(pairs_of(seed), seed)
        edges = random.Random(seed).sample(range(len(network.edges)), len(network.edges))
        chains, wanted = _chains(network, edges), runs(network, edges)
        assert len(chains) == len(wanted)
        for chain in chains:
            ways = [network.edges[k][:2] if forward else network.edges[k][1::-1] for k, forward in chain]
            assert wanted[frozenset(k for k, _ in chain)] == ways[0][0]
            assert len({k for k, _ in chain}) == len(chain)
            assert all(one[1] == two[0] for one, two in pairwise(ways))
