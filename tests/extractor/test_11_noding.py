"""Noding: crossings, ends on lines, doubles and arcs; a general geometry library is the oracle for straight lines."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from extractor.geometry.crowds import TooDenseError, close_pairs
from extractor.geometry.network import Edge, Network, Strokes, rim, without_boxes
from extractor.geometry.noding import node

NEAR = 1e-6


def strokes(*rows):
    """Strokes from (x0, y0, x1, y1) or (x0, y0, x1, y1, bulge) rows, labelled in order."""
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float).reshape(-1, 5)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


BOX = ((0, 0, 10, 0), (10, 0, 10, 5), (10, 5, 0, 5), (0, 5, 0, 0))


def areas(network):
    return sorted(round(f.polygon.area, 6) for f in network.faces)


def test_four_lines_enclose_one_face():
    assert areas(node(strokes(*BOX), NEAR)) == [50.0]


def test_a_line_that_ends_in_the_middle_of_another_splits_the_face():
    assert areas(node(strokes(*BOX, (4, 0, 4, 5)), NEAR)) == [20.0, 30.0]


def test_lines_whose_squares_are_nought_are_cut_where_others_end_on_them():
    rows = np.array([*BOX, (4, 0, 4, 5)]) * 1e-300
    assert len(node(strokes(*rows), 1e-306).edges) == 7


def test_a_line_that_crosses_splits_the_face_and_sticks_out():
    assert areas(node(strokes(*BOX, (4, -1, 4, 6)), NEAR)) == [20.0, 30.0]


@pytest.mark.parametrize("double", [(0, 0, 10, 0), (10, 0, 0, 0), (2, 0, 7, 0), (-3, 0, 4, 0), (0, 0, 0, 0)])
def test_doubles_overlaps_and_dots_change_nothing(double):
    network = node(strokes(*BOX, double), NEAR)
    assert areas(network) == [50.0]
    pairs = [frozenset(e[:2]) for e in network.edges]
    assert len(pairs) == len(set(pairs))


def test_an_arc_is_cut_by_a_line_and_stays_an_arc():
    network = node(strokes((0, 0, 2, 0, 1.0), (0, 0, 2, 0), (1, 0, 1, -3)), NEAR)
    assert len(network.faces) == 2
    curved = [e for e in network.edges if e.bulge]
    assert len(curved) == 2
    assert all(abs(e.bulge) == pytest.approx(np.tan(np.pi / 8)) for e in curved)


def test_two_arcs_cut_one_another():
    network = node(strokes((0, 0, 2, 0, -1.0), (1, 0, 3, 0, -1.0), (0, 0, 3, 0)), NEAR)
    assert len(network.faces) == 3


def test_a_tangent_arc_joins_a_line_without_a_sliver():
    quarter = float(np.tan(np.pi / 8))
    network = node(strokes((0, 0, 5, 0), (5, 0, 6, 1, quarter), (6, 1, 6, 4), (6, 4, 0, 4), (0, 4, 0, 0)), NEAR)
    assert len(network.faces) == 1


def test_labels_say_which_stroke_an_edge_was_cut_from():
    network = node(strokes(*BOX, (4, -1, 4, 6)), NEAR)
    assert sorted({e.label for e in network.edges}) == [0, 1, 2, 3, 4]
    assert sum(e.label == 4 for e in network.edges) == 3


def test_a_face_as_thin_as_numbers_go_is_none_to_fail_on():
    thin = np.array([(3, 0), (16, 5e-324), (23.6, 0)])
    network = Network(thin, tuple(Edge(k, (k + 1) % 3, 0.0, k) for k in range(3)))
    assert len(network.faces) == 1


def test_the_rim_of_two_faces_leaves_out_what_they_share():
    network = node(strokes(*BOX, (4, 0, 4, 5)), NEAR)
    assert len(rim(list(network.faces))) == 6


def test_faces_closed_by_marked_strokes_alone_fall_away():
    network = node(strokes(*BOX, (0, 5, 0, 9), (0, 9, 10, 9), (10, 9, 10, 5)), NEAR)
    assert sorted(f.polygon.area for f in without_boxes(network, network.faces, frozenset({4, 5, 6}))) == [50.0]
    assert len(without_boxes(network, network.faces, frozenset({4, 5}))) == 2


def test_edges_with_labels_below_zero_join_no_pieces():
    rows = strokes((0, 0, 1, 0), (2, 0, 3, 0), (1, 0, 2, 0))
    network = node(Strokes(rows.ends, rows.bulge, np.array([0, 1, -1])), NEAR)
    assert len(network.pieces()) == 2


def test_a_picture_of_strokes_is_refused():
    many = np.linspace(0, 1, 2100)
    rows = [(x, 0.0, 1 - x, 1.0) for x in many]
    with pytest.raises(TooDenseError):
        node(strokes(*rows), NEAR)


lines = st.lists(st.tuples(*[st.integers(0, 12)] * 4), min_size=1, max_size=14)


@settings(max_examples=60)
@given(lines)
def test_faces_are_those_of_a_general_geometry_library(rows):
    rows = [r for r in rows if r[:2] != r[2:]]
    if not rows:
        return
    network = node(strokes(*rows), NEAR)
    union = shapely.unary_union([shapely.LineString([r[:2], r[2:]]) for r in rows])
    expected = shapely.get_parts(shapely.polygonize([union]))
    assert areas(network) == pytest.approx(sorted(p.area for p in expected), abs=1e-4)
    total = sum(np.hypot(*(network.nodes[e.b] - network.nodes[e.a])) for e in network.edges)
    assert total == pytest.approx(union.length, abs=1e-3)


def test_no_strokes_make_an_empty_network():
    network = node(strokes(), NEAR)
    assert (network.edges, network.faces) == ((), ())


SQUARE = np.array([-np.sin(0.4321), np.cos(0.4321)])
"""Square to the line along which places are put in order: all that lie so have one place along it."""
FAR_APART = np.random.default_rng(6).uniform(0, 1e8, (400, 2))
PLACES = {
    "scattered": np.random.default_rng(3).uniform(0, 20, (300, 2)),
    "doubled": np.repeat(np.random.default_rng(4).uniform(0, 90, (100, 2)), 3, axis=0),
    "square to the order": np.arange(200)[:, None] / 3 * SQUARE,
    "far from the origin": np.random.default_rng(5).uniform(0, 20, (300, 2)) + 1e8,
    "in order at the very reach": np.vstack([FAR_APART, FAR_APART - 0.75 * np.array([SQUARE[1], -SQUARE[0]])]),
    "none": np.zeros((0, 2)),
}


@pytest.mark.parametrize("name", PLACES)
def test_places_near_one_another_are_those_that_a_plain_measure_finds(name):
    places = PLACES[name]
    apart = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    one, two = np.nonzero(apart <= 0.75)
    assert close_pairs(places, 0.75).tolist() == [one[one != two].tolist(), two[one != two].tolist()]


def test_places_just_within_reach_are_near_and_just_beyond_are_not():
    places = np.array([[0.0, 0.0], [0.9999, 0.0], [0.9999, 1.0001]])
    assert close_pairs(places, 1.0).tolist() == [[0, 1], [1, 0]]


def test_a_network_cuts_its_edges_into_chords_one_after_the_other():
    network = node(strokes(*BOX, (20, 0, 30, 0, 1.0), (12, 0, 14, 0)), NEAR)
    points, edge = network.chorded
    rows = [points[edge == k].tolist() for k in range(len(network.edges))]
    assert rows == [[list(p) for p in network.line(e)] for e in network.edges]
    assert max(map(len, rows)) > 20


def test_the_edges_of_a_hole_are_edges_of_a_face_but_not_of_its_outer_ring():
    inner = [tuple(v / 4 + 1 for v in row) for row in BOX]
    large = max(node(strokes(*BOX, *inner), NEAR).faces, key=lambda face: face.area)
    assert (len(large.edges), len(large.outer), large.area, large.bounds) == (8, 4, 46.875, (0.0, 0.0, 10.0, 5.0))
