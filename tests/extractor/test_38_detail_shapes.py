"""A shape is found among strokes that draw it larger, whatever it is made of; one that is drawn otherwise is not.

Strokes are worked out here from the shape's own numbers, or drawn by `support.enlarged` on whole sheets.
"""

import cmath
import math

import numpy as np
import pytest
from support.enlarged import KINDS, LIES, enlarged

from extractor import read_drawing
from extractor.sizing.details.same_shape import DetailStrokes, Shape

VEE = [-5 + 0j, -2 + 0j, -3j, 2 + 0j, 5 + 0j]
TRAPEZOID = [-5 + 0j, -3 + 0j, -2 - 2j, 2 - 2j, 3 + 0j, 5 + 0j]
RECTANGLE = [-5 + 0j, -1 + 0j, -1 - 2j, 1 - 2j, 1 + 0j, 5 + 0j]
AWAY = 100 - 40j


def bowl(radius=2.0, chords=24):
    """A half circle between lands."""
    turns = [cmath.exp(1j * math.pi * (1 + k / chords)) for k in range(chords + 1)]
    return [-5 + 0j, *(radius * turn for turn in turns), 5 + 0j]


def drawn(line, times=4.0, bulges=()):
    """The strokes of a line, larger and elsewhere."""
    places = times * np.array(line) + AWAY
    bulge = np.zeros(len(line) - 1)
    bulge[: len(bulges)] = bulges
    return DetailStrokes(places[:-1], places[1:], bulge)


def joined(*strokes):
    return DetailStrokes(*(np.concatenate(rows) for rows in zip(*strokes, strict=True)))


def fits(line, strokes, reach=4.0, snap=0.02, middle=-1j, times=4.0):
    """True if the line is found in the strokes once, as far off as they were drawn."""
    ways = Shape([line], middle, reach, snap).ways(strokes, times)
    assert all(abs(way - AWAY) <= 2 * times * snap for way in ways)
    return len(ways) == 1


ARC = [-5 + 0j, -2 + 0j, 2 + 0j, 5 + 0j]
"""Lands with a half circle between, of one stroke."""


@pytest.mark.parametrize("line", [VEE, TRAPEZOID, RECTANGLE, [z.conjugate() for z in VEE]])
def test_a_shape_of_lines_is_found_where_it_is_drawn_so_large(line):
    assert fits(line, drawn(line))
    assert fits(line, drawn(line[::-1]))
    assert not fits(line, drawn(line, times=4.2))


def test_a_round_floor_is_found_in_an_arc_or_in_its_chords():
    for row in (drawn(ARC, bulges=(0.0, 1.0)), drawn(ARC[::-1], bulges=(0.0, -1.0)), drawn(bowl(chords=30))):
        assert fits(bowl(), row)
    for bulge in (-1.0, 0.95, 1.05):
        assert not fits(bowl(), drawn(ARC, bulges=(0.0, bulge)))
    assert not fits(bowl(), drawn([-5, -2, -2 - 2j, 2 - 2j, 2, 5]))


@pytest.mark.parametrize(
    ("line", "other"),
    [
        (VEE, [-5, -2, -3.1j, 2, 5]),
        (VEE, [-5, -2.1, -3j, 2.1, 5]),
        (TRAPEZOID, [-5, -3, -2 - 2.1j, 2 - 2.1j, 3, 5]),
        (TRAPEZOID, [-5, -3, -2.1 - 2j, 2.1 - 2j, 3, 5]),
        (RECTANGLE, [-5, -1, -1.1 - 2j, 1 - 2j, 1, 5]),
        (RECTANGLE, [-5, -1, -1 - 2j, 1 - 2j, 1 + 0.1j, 5 + 0.1j]),
    ],
)
def test_a_tenth_of_a_unit_deeper_wider_or_steeper_is_another_shape(line, other):
    assert not fits(line, drawn([complex(z) for z in other]))


@pytest.mark.parametrize(("off", "same"), [(0.019, True), (0.021, False)])
def test_how_far_an_edge_may_lie_off(off, same):
    """By the snap, 0.02."""
    higher = [z - 1j * off if z.imag else z for z in RECTANGLE]
    lands = [-5 + 0j, -1 + 0j], [1 + 0j, 5 + 0j]
    rest = drawn([-1 + 0j, -1 - 3j]), drawn([1 + 0j, 1 - 3j]), *map(drawn, lands)
    assert fits(RECTANGLE, joined(*rest, drawn(higher[2:4]))) is same


@pytest.mark.parametrize(("size", "held"), [(0.19, False), (0.21, True)])
def test_how_long_an_edge_is_at_least(size, held):
    """A twentieth of the reach, 4: shorter ones of the view need not be in the detail."""
    floor, rim = [-5 + 0j, -1 + 0j, -1 - 2j, 1 - 2j, 1 - 1j], [1.4 - 1j, 1.4 + 0j, 5 + 0j]
    stepped = [*floor, 1.2 - 1j, 1.2 - (1 + size) * 1j, 1.4 - (1 + size) * 1j, *rim[1:]]
    assert fits(stepped, drawn(stepped))
    assert fits(stepped, drawn([*floor, *rim])) is not held


@pytest.mark.parametrize(("size", "held"), [(0.7, False), (0.72, True)])
def test_how_long_a_slanting_edge_is_at_least(size, held):
    """A quarter of the reach, 4: chamfers of 0.7 are 0.99 long, and a detail may show them as sharp corners."""
    chamfered = [-5 + 0j, -1 - size + 0j, -1 - size * 1j, -1 - 2j, 1 - 2j, 1 + 0j, 5 + 0j]
    assert fits(chamfered, drawn(chamfered))
    assert fits(chamfered, drawn(RECTANGLE)) is not held


@pytest.mark.parametrize(("overlap", "found"), [(0.19, False), (0.21, True)])
def test_how_far_an_edge_and_its_stroke_run_together(overlap, found):
    """A twentieth of the reach, 4, at least."""
    rest = joined(*(drawn(RECTANGLE[k : k + 2]) for k in (0, 2, 3, 4)))
    assert fits(RECTANGLE, joined(rest, drawn([-1 - (2 - overlap) * 1j, -1 - 4j]))) is found


@pytest.mark.parametrize(("radius", "held"), [(0.69, False), (0.7, True)])
def test_how_long_an_arc_is_at_least(radius, held):
    """A quarter of the reach, 4, that is 11 chords of 0.0903 and 0.0916: by as many as it has inner corners."""
    turns = [radius * (1 + 1j + cmath.exp(1j * math.pi * (1 + k / 24))) for k in range(13)]
    line = [-5 + 1j, -1 + 1j, *(-1 - 2j + turn for turn in turns), 1 - 2j, 1 + 1j, 5 + 1j]
    sharp = [-5 + 1j, -1 + 1j, -1 - 2j, 1 - 2j, 1 + 1j, 5 + 1j]
    assert fits(line, drawn(line), reach=4.0)
    assert fits(line, drawn(sharp)) is not held


@pytest.mark.parametrize(("cut", "same"), [(0.97, True), (1.03, False)])
def test_how_far_a_corner_may_be_broken(cut, same):
    """A quarter of the reach, 4."""
    blunt = [-5, -2, -3j + cut * 1j - cut * 2 / 3, -3j + cut * 1j + cut * 2 / 3, 2, 5]
    assert fits(VEE, drawn([complex(z) for z in blunt])) is same


def unlike(line, other, snap=0.02):
    """Where a line differs from strokes that draw another, as it is laid on them."""
    shape, strokes = Shape([line], -1j, 4.0, snap), drawn([complex(z) for z in other])
    (way,) = shape.ways(strokes, 4.0)
    return shape.unlike(strokes, way, 4.0)


def chamfered(size):
    """The rectangle with broken rims."""
    return [-5 + 0j, -1 - size + 0j, -1 - size * 1j, -1 - 2j, 1 - 2j, 1 - size * 1j, 1 + size + 0j, 5 + 0j]


def rounded(radius):
    """The rectangle with rounded corners of its floor."""
    turns = [cmath.exp(1j * math.pi * (1 + k / 24)) for k in range(13)]
    left = [-1 - 2j + radius * (1 + 1j + turn) for turn in turns]
    return [-5 + 0j, -1 + 0j, *left, *(-z.conjugate() for z in reversed(left)), 1 + 0j, 5 + 0j]


@pytest.mark.parametrize(
    ("line", "other", "at"),
    [
        (RECTANGLE, chamfered(0.3), 1),
        (chamfered(0.3), RECTANGLE, 1.15 - 0.15j),
        (chamfered(0.3), chamfered(0.2), 1.15 - 0.15j),
        (RECTANGLE, rounded(0.3), 1 - 2j),
        (rounded(0.3), RECTANGLE, 1 - 0.3 + 0.3 / math.sqrt(2) - 1j * (2 - 0.3 + 0.3 / math.sqrt(2))),
        (rounded(0.2), rounded(0.3), 1 - 0.2 + 0.2 / math.sqrt(2) - 1j * (2 - 0.2 + 0.2 / math.sqrt(2))),
    ],
)
def test_a_corner_drawn_otherwise_is_told_where_it_is(line, other, at):
    """At the sharp corner, or amid what eases it: there the two lie farthest apart."""
    found = unlike(line, other)
    assert complex(abs(found.real), found.imag) == pytest.approx(at)


@pytest.mark.parametrize("line", [RECTANGLE, VEE, chamfered(0.3), rounded(0.3), bowl()])
def test_corners_drawn_alike_are_not_told(line):
    assert unlike(line, line) is None


@pytest.mark.parametrize(("cut", "same"), [(0.028, True), (0.029, False)])
def test_how_far_a_corner_may_lie_off(cut, same):
    """By the snap, 0.02: a chamfer of 0.02 times the root of two comes so near its corner."""
    assert (unlike(RECTANGLE, chamfered(cut)) is None) is same


@pytest.mark.parametrize(("turn", "arc"), [(7.8, True), (7.9, False)])
def test_how_far_chords_of_an_arc_turn(turn, arc):
    """A twenty-third of half a circle, 7.83 degrees."""
    turns = [2 * cmath.exp(1j * math.radians(turn) * k) for k in range(-6, 7)]
    shape = Shape([[-1j * z for z in turns]], -2j, 4.0, 0.02)
    assert any(spot.size == 0 for spot in shape.spots) is arc


@pytest.mark.parametrize(("longer", "arc"), [(0.9e-6, True), (1.1e-6, False)])
def test_how_even_the_chords_of_an_arc_are(longer, arc):
    """To a millionth: else a wall that runs into an arc is taken for a chord of it."""
    turn = math.radians(7.5)
    row = [0j, 1 + 0j, 1 + (1 + longer) * cmath.exp(1j * turn)]
    shape = Shape([row], 1 + 0j, 2.0, 0.02)
    assert any(spot.size == 0 for spot in shape.spots) is arc


@pytest.mark.parametrize(("apart", "firm"), [(0.3, True), (0.2, False)])
def test_how_firmly_lines_tie_a_shape(apart, firm):
    """Two walls close beside one another and a floor: the least singular value, of walls 0.3 apart 0.0529."""
    line = [-apart / 2 + 2j, -apart / 2 + 0j, apart / 2 + 0j, apart / 2 + 2j]
    assert Shape([line], 0j, 4.0, 0.02).firm is firm


@pytest.mark.parametrize("line", [VEE[1:4], RECTANGLE[1:3], [-5 + 0j, 5 + 0j]])
def test_what_fits_at_any_scale_is_no_shape(line):
    shape = Shape([line], -3j, 4.0, 0.02)
    assert not shape.firm
    assert shape.ways(drawn(line), 4.0) == []


def test_strokes_that_do_not_run_as_the_shape_does_are_none_of_it():
    assert Shape([VEE], -1j, 4.0, 0.02).ways(drawn(RECTANGLE), 4.0) == []


def test_two_that_are_drawn_alike_are_two_ways():
    two = joined(drawn(VEE), drawn([z + 20 for z in VEE]))
    ways = Shape([VEE], -1j, 4.0, 0.02).ways(two, 4.0)
    assert sorted(round(way.real) for way in ways) == [100, 180]


SEEDS = (0, 36, 39, 45, 51, 53)
"""Sheets with every kind of groove and every way that `support.enlarged` draws a detail."""


def read(tmp_path, seed, lie=""):
    path = tmp_path / "sheet.dxf"
    path.write_text(enlarged(seed, lie).text)
    return read_drawing(path)


def test_the_sheets_are_of_every_kind_and_way():
    sheets = [enlarged(seed) for seed in SEEDS]
    assert {sheet.kind for sheet in sheets} == set(KINDS)
    assert set().union(*(sheet.ways for sheet in sheets)) == {"partial", "below", "mirrored", "unscaled"}


@pytest.mark.parametrize("seed", [*SEEDS, 4])
def test_a_true_detail_of_any_groove_is_read_without_a_word(tmp_path, seed):
    reading = read(tmp_path, seed)
    assert not [f.message for f in reading.findings if f.stops or "could not be matched" in f.message]
    assert len(reading.part.grooves) == len(enlarged(seed).grooves)


@pytest.mark.parametrize("lie", [lie for lie in LIES if lie])
@pytest.mark.parametrize("seed", SEEDS)
def test_a_false_size_scale_or_shape_in_a_detail_stops(tmp_path, seed, lie):
    code = "dimension-contradicts" if lie == "size" else "detail-differs"
    assert code in [f.code for f in read(tmp_path, seed, lie).findings if f.stops]
