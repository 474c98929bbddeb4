"""Lines and arrows drawn by their outlines: rings as wide as a pen are lines, lands and keys are not."""

import math

import numpy as np
import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.viewing.broad_lines import broad_lines

MM = ReadOptions(units="mm", scale=1.0)
NEAR = 1e-6
SIZE = [(0, 0, 60, 0)]
"""The longest stroke of the sheets below; a pen is wide or narrow against what is drawn."""


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def ring(*places):
    return [(*one, *two) for one, two in zip(places, (*places[1:], places[0]), strict=True)]


def strip(x, y, length, width, turn=0.0):
    """A line from (x, y) on, drawn by its outline."""
    return turned(ring((0, -width / 2), (length, -width / 2), (length, width / 2), (0, width / 2)), x, y, turn)


def arrow(x, y, length, width, head, opened, turn=0.0):
    """A line of some length with a head on it; the head's barbs lie somewhat behind its foot."""
    w, o = width / 2, opened / 2
    back = length - 0.2 * head
    places = (0, -w), (length, -w), (back, -o), (length + head, 0), (back, o), (length, w), (0, w)
    return turned(ring(*places), x, y, turn)


def turned(rows, x, y, turn):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    place = lambda a, b: (x + c * a - s * b, y + s * a + c * b)  # noqa: E731
    return [(*place(*row[:2]), *place(*row[2:4]), *row[4:]) for row in rows]


def found(*rows):
    return broad_lines(strokes(*SIZE, *rows), NEAR)


@pytest.mark.parametrize("turn", [0, 90, 33])
def test_the_lines_of_one_dimension_are_three_rings_of_one_width(turn):
    rows = [*strip(5, 5, 10, 0.3, turn), *strip(5, 20, 10, 0.3, turn), *arrow(30, 20, 6, 0.3, 2, 1.4, turn)]
    assert found(*rows) == frozenset(range(1, 16))


def test_an_arrow_may_end_on_a_line_and_nothing_else_may():
    """The point of a head stands in the middle of the extension line; the floor of a groove ends on a land."""
    lines = [*strip(5, 5, 10, 0.3, 90), *strip(25, 5, 10, 0.3, 90)]
    pointing = arrow(13, 10, -6, 0.3, -2, 1.4)
    assert found(*lines, *pointing) == frozenset(range(1, 16))
    assert found(*lines, *pointing, (4.85, 12, 0, 12)) == frozenset()
    assert found(*lines, *pointing, (4.85 - 3 * NEAR, 12, 0, 12)) == frozenset(range(1, 16))
    assert found(*lines, *pointing, (0, 12, 50, 12)) == frozenset(range(1, 16)), "it crosses them"


@pytest.mark.parametrize(("others", "are"), [((0.3, 0.3), True), ((0.3, 0.31), False), ((0.3,), False)])
def test_three_of_one_width_are_lines(others, are):
    rows = strip(5, 5, 10, 0.3) + [row for k, w in enumerate(others) for row in strip(5, 8 + 3 * k, 10, w)]
    assert bool(found(*rows)) is are


@pytest.mark.parametrize(("length", "are"), [(1.21, True), (1.19, False)])
def test_a_line_is_four_times_as_long_as_wide(length, are):
    assert bool(found(*(row for y in (5, 8, 11) for row in strip(5, y, length, 0.3)))) is are


@pytest.mark.parametrize(("width", "are"), [(0.59, True), (0.63, False)])
def test_a_pen_is_no_wider_than_a_hundredth_of_the_sheet(width, are):
    """60 by 11 is drawn, 61 across the corners."""
    assert bool(found(*(row for y in (5, 8, 11) for row in strip(5, y, 10, width)))) is are


@pytest.mark.parametrize(("opened", "are"), [(4.7, True), (4.9, False)])
def test_a_head_is_no_wider_than_twice_its_length(opened, are):
    """The head is 2 long and its barbs stand 0.4 farther back."""
    assert bool(found(*(row for y in (5, 20, 35) for row in arrow(5, y, 6, 0.3, 2, opened)))) is are


@pytest.mark.parametrize(
    "spoil",
    [
        pytest.param(lambda _: ring((0, -0.15), (10, -0.15), (4, 0.15), (0, 0.15)), id="one side longer"),
        pytest.param(lambda r: r[:-1], id="open"),
        pytest.param(lambda r: [*r, (0.0, 0.15, -3.0, 4.0)], id="led on from a corner"),
        pytest.param(lambda _: ring((0, 0), (10, 0), (10.18, 0.24), (0.18, 0.24)), id="aslant"),
        pytest.param(lambda r: [(*r[0], 0.2), *r[1:]], id="a bent side"),
        pytest.param(lambda r: [r[0], (*r[1], 0.2), *r[2:]], id="a bent end"),
        pytest.param(lambda r: [r[0], (*r[1], 0.2), r[2], (*r[3], 0.2)], id="bent ends"),
    ],
)
def test_a_ring_of_another_shape_is_no_line(spoil):
    others = *strip(5, 5, 10, 0.3), *strip(5, 8, 10, 0.3)
    assert found(*others, *strip(20, 11, 10, 0.3)) != frozenset()
    assert found(*others, *turned(spoil(strip(0, 0, 10, 0.3)), 20, 11, 0)) == frozenset()


def test_a_head_beside_the_middle_is_none():
    lopsided = ring((0, -0.15), (6, -0.15), (6, -0.8), (8, 0.5), (6, 0.8), (6, 0.15), (0, 0.15))
    rows = [row for y in (5, 10, 15) for row in turned(lopsided, 5, y, 0)]
    assert found(*rows) == frozenset()


def test_many_strokes_in_a_ring_are_no_arrow():
    """A head of curved sides in 30 pieces each is one, in 31 none: with the line's three strokes more than 64."""

    def curved(pieces):
        side = [(6 + 2 * k / pieces, 0.7 * (1 - k / pieces) ** 2) for k in range(pieces + 1)]
        places = [(0, -0.15), (6, -0.15), *((x, -y) for x, y in side), *side[-2::-1], (6, 0.15), (0, 0.15)]
        return [row for y in (5, 10, 15) for row in turned(ring(*places), 5, y, 0)]

    assert len(found(*curved(30))) == 3 * 65
    assert found(*curved(32)) == frozenset()


def test_no_strokes_are_no_lines():
    assert broad_lines(Strokes(np.zeros((0, 4)), np.zeros(0), np.zeros(0, dtype=np.int64)), NEAR) == frozenset()


LANDS = Turned(((60.0, 40.0),), tuple(Cut(-5.0 - 2.4 * k, 2.0, 34.0) for k in range(5)))


def test_a_dimension_drawn_by_its_outlines_is_no_second_part():
    """Both extension lines of a diameter, and both halves of its line, are each other's image about the axis."""
    ink = side_view(LANDS)
    rows = [*strip(2, 20, 15, 0.5), *strip(2, -20, 15, 0.5), *arrow(14, 4, 13.4, 0.5, 2.5, 1.8, 90)]
    rows += arrow(14, -4, 13.4, 0.5, 2.5, 1.8, -90)
    ink.solid += [(*row, 0.0) for row in rows]
    reading = read_sheet(sheet_of(ink), MM)
    assert not [f.message for f in reading.findings if f.stops]
    assert [(g.z_near, g.width, g.floor_diameter) for g in reading.part.grooves] == [
        (pytest.approx(-5.0 - 2.4 * k), pytest.approx(2.0), 34.0) for k in range(5)
    ]


def test_narrow_lands_seen_from_the_side_stay_lands():
    """Each land is a ring 0.4 wide and 40 high, with the floors of its grooves ending on it."""
    reading = read_sheet(sheet_of(side_view(LANDS)), MM)
    assert len(reading.part.grooves) == 5
    assert not [f.message for f in reading.findings if f.stops]
