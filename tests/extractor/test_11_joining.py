"""What hangs together, held against networkx; what is looked for along the axis, against looking through all."""

import networkx as nx
import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from extractor.geometry.joining import components
from extractor.recess.lands import outermost
from extractor.recess.levels import LevelStretch, Recess
from extractor.recess.pairing import pair
from extractor.recess.shapes import Measured

PLACES = st.integers(0, 40)
PAIRS = st.lists(st.tuples(st.integers(0, 19), st.integers(0, 19)), max_size=30)


@given(PAIRS)
def test_components_are_those_of_a_graph_numbered_by_their_least_member(pairs):
    graph = nx.Graph(pairs)
    graph.add_nodes_from(range(20))
    parts = sorted(nx.connected_components(graph), key=min)
    found = components(20, *np.array(pairs, dtype=np.int64).reshape(-1, 2).T)
    assert found.tolist() == [next(k for k, part in enumerate(parts) if n in part) for n in range(20)]


def test_a_long_chain_is_one_component():
    order = np.random.default_rng(1).permutation(20_000)
    assert components(len(order), order[:-1], order[1:]).max() == 0


def recess(near, far):
    """A recess between two vertices, its floor as good as unlike every other's."""
    middle = (near + far) // 2
    return Recess(
        LevelStretch(near, near, 5.0), LevelStretch(middle, middle, near + far / 100), LevelStretch(far, far, 5.0)
    )


@given(st.sets(st.tuples(PLACES, PLACES).filter(lambda ends: ends[0] < ends[1]), max_size=20).map(sorted))
def test_the_outermost_recesses_are_those_that_lie_in_no_other(spans):
    rows = [recess(*span) for span in spans]
    alone = [s for s in spans if not any(o != s and o[0] <= s[0] and o[1] >= s[1] for o in spans)]
    assert [(r.near.last, r.far.first) for r in outermost(rows)] == alone


def measured(at, floor):
    """A groove 2 wide."""
    return Measured(
        shape="rectangular", z_near=at, z_far=at - 2, mouth=10.0, floor=floor, near_land=10.0, far_land=10.0
    )


ROW = st.lists(st.builds(measured, st.integers(-30, 0).map(float), st.sampled_from([7.0, 7.25, 8.0])), max_size=9)


@given(ROW, ROW)
def test_recesses_are_paired_with_the_nearest_that_is_left(one, two):
    near, left, paired = 1.0, list(two), []
    for m in one:
        apart = [(max(abs(m.z_near - o.z_near), abs(m.floor - o.floor)), k) for k, o in enumerate(left)]
        if apart and min(apart)[0] <= near:
            other = left.pop(min(apart)[1])
            paired.append(((m.z_near + other.z_near) / 2, (m.floor + other.floor) / 2))
    found = pair(one, two, near, 5.0)
    assert [(m.z_near, m.floor) for m in found.both] == paired
