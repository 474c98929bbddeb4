"""Long rows of pieces, looked over as a whole first, give what going through them piece by piece gives.

Oracle: the same search with no row long enough for that; where corners meet, a general geometry library.
"""

import math
import random
from itertools import pairwise

import pytest
import shapely

from extractor.geometry import curves, profile
from extractor.geometry.profile import Piece, joined, sharpen

FINE = 1e-3
ROW = [(-float(k), 20.0 - 2.0 * (k % 4 in (1, 2))) for k in range(301)]
"""Corners of a row of slots, 301 of them."""


def chain(corners, bulges=()):
    """Pieces through corners; `bulges` by the number of the piece."""
    bulges = dict(bulges)
    return [Piece(a, b, bulges.get(k, 0.0)) for k, (a, b) in enumerate(pairwise(corners))]


def between(k, off, share=0.5):
    """The row with one corner more on a piece, off it by so much."""
    (z0, r0), (z1, r1) = ROW[k : k + 2]
    return [*ROW[: k + 1], (z0 + share * (z1 - z0), r0 + share * (r1 - r0) + off), *ROW[k + 1 :]]


def arc(count, total=math.pi / 2):
    """Corners of so many chords of a circle of radius 1, from where the row ends on."""
    z, r = ROW[-1]
    steps = (total * k / count for k in range(1, count + 1))
    return [(z - math.sin(a), r + 1 - math.cos(a)) for a in steps]


ROWS = {
    "plain": (chain(ROW), 300),
    "a corner on a line": (chain(between(151, 0.0)), 300),
    "just within half the tolerance": (chain(between(151, 0.00049)), 300),
    "just beyond it": (chain(between(151, 0.00051)), 301),
    "a speck": (chain(between(151, 0.0, 9e-7)), 300),
    "two arcs of one circle": (chain(between(151, 0.0), {151: 0.3, 152: 0.3}), None),
    "a speck between arcs": (chain(between(151, 0.0, 9e-7), {150: 0.3, 152: 0.3}), 300),
    "two arcs of one circle at its end": (
        chain([*ROW, *arc(2)], {300: -math.tan(math.pi / 16), 301: -math.tan(math.pi / 16)}),
        301,
    ),
    "a shallow arc": (chain(ROW, {40: 0.01}), 300),
}


@pytest.mark.parametrize("name", ROWS)
def test_a_long_row_is_joined_as_a_short_one(name, monkeypatch):
    pieces, count = ROWS[name]
    found = joined(pieces, FINE)
    monkeypatch.setattr(profile, "MANY", 10_000)
    assert found == joined(pieces, FINE)
    assert count is None or len(found) == count


def test_a_row_of_fewer_pieces_is_gone_through(monkeypatch):
    looked = []
    monkeypatch.setattr(profile, "columns", lambda row: looked.append(len(row)))
    joined(chain(ROW[:100]), FINE)
    assert not looked
    with pytest.raises(TypeError):
        joined(chain(ROW[:101]), FINE)
    assert looked == [100]


@pytest.mark.parametrize("count", [2, 3, 6, 40, 1500])
@pytest.mark.parametrize("total", [math.pi / 2, 0.6])
def test_chords_at_the_end_of_a_long_row_become_what_they_do_at_the_end_of_a_short_one(count, total, monkeypatch):
    corners = arc(count, total)
    z, r = corners[-1]
    pieces = chain([*ROW, *corners, (z, r + 5), (z - 5, r + 5)])
    found = curves.rounded(pieces, FINE)
    monkeypatch.setattr(curves, "MANY", 10_000)
    assert found == curves.rounded(pieces, FINE)


def test_a_flattened_curve_of_wide_turns_becomes_an_arc_at_the_end_of_a_long_row():
    z, r = ROW[-1]
    turns = [math.radians(46 * k) for k in range(4)]
    corners = [(z - 1 + math.cos(a), r + math.sin(a)) for a in turns]
    curve = [Piece(a, b, 0.0, True) for a, b in pairwise([(z, r), *corners[1:]])]
    found = curves.rounded([*chain(ROW), *curve], FINE)
    assert len(found) == 301
    assert found[-1].bulge == pytest.approx(math.tan(math.radians(138 / 4)))


def test_corners_lie_where_the_drawn_lines_meet():
    rng = random.Random(5)
    drawn = [Piece(*((z + rng.uniform(-0.01, 0.01), r) for z, r in p.ends)) for p in chain(ROW)]
    found = sharpen(chain(ROW), drawn, 0.05)
    for k in range(len(found) - 1):
        one, two = (shapely.affinity.scale(shapely.LineString(drawn[n].ends), 9, 9) for n in (k, k + 1))
        corner = shapely.intersection(one, two)
        assert math.dist(found[k].end, (corner.x, corner.y)) < 1e-9
        assert found[k].end == found[k + 1].start
    assert found[0].start == ROW[0]


@pytest.mark.parametrize(("reach", "moves"), [(0.0101, True), (0.0099, False)])
def test_a_corner_moves_no_farther_than_it_may(reach, moves):
    pieces = chain([(0.0, 10.0), (-5.0, 10.0), (-5.0, 12.0)])
    drawn = [pieces[0], Piece((-5.01, 9.0), (-5.01, 12.0))]
    assert (sharpen(pieces, drawn, reach)[0].end == (-5.01, 10.0)) is moves


@pytest.mark.parametrize(("degrees", "moves"), [(5.0, True), (4.97, False)])
def test_lines_nearly_in_line_keep_their_corner(degrees, moves):
    turn = math.radians(degrees)
    pieces = chain([(0.0, 10.0), (-5.0, 10.0), (-9.0, 10.4)])
    drawn = [Piece((0.0, 10.01), (-5.0, 10.01)), Piece((-5.0, 10.0), (-5.0 - math.cos(turn), 10.0 + math.sin(turn)))]
    assert (sharpen(pieces, drawn, 1.0)[0].end != (-5.0, 10.0)) is moves


@pytest.mark.parametrize("bulges", [(0.0, 0.2), (0.2, 0.0)])
def test_an_arc_keeps_its_corners(bulges):
    pieces = chain([(0.0, 10.0), (-5.0, 10.0), (-5.0, 12.0)])
    drawn = [pieces[0]._replace(bulge=bulges[0]), Piece((-5.01, 9.0), (-5.01, 12.0), bulges[1])]
    assert sharpen(pieces, drawn, 1.0) == pieces
