"""Dimension lines that end on the base of their filled heads, as CAD programs trim them (no source)."""

import math

import numpy as np
import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.viewing.arrows import HALF, LIKE, ON_BASE, to_points

MM = ReadOptions(units="mm")
SIZE, WIDE = 3.0, 0.5
"""A head is so long and half so wide."""
SIDE = math.hypot(SIZE, WIDE)


def head(at, toward, wide=WIDE):
    """The three sides of a filled head with its point at a place on an upright line, seen along it: 1 up, -1 down."""
    x, y = at
    corners = [(x, y), (x - wide, y - toward * SIZE), (x + wide, y - toward * SIZE)]
    return [(*a, *b, 0.0) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]


def measured(short=0.0, beside=0.0, wide=WIDE):
    """A shaft of 30 with a groove 3 wide to 24, whose diameter is measured in it by loose lines: numbers made up.

    The line ends `short` of both bases and `beside` their middles.
    """
    ink = full_outline(Turned(((40.0, 30.0),), (Cut(-10.0, 3.0, 24.0),)))
    for way in (1, -1):
        ink.solid += head((-11.5, 12.0 * way), way, wide)
    end = 12.0 - SIZE - short
    ink.solid.append((-11.5 + beside, -end, -11.5 + beside, end, 0.0))
    return read_sheet(sheet_of(ink), MM)


def stops(reading):
    return [f.code.value for f in reading.findings if f.stops]


REACH = ON_BASE * SIDE
ENDS = {
    "on the base": ({}, True),
    "a little short of it": ({"short": 0.97 * REACH}, True),
    "short of it": ({"short": 1.03 * REACH}, False),
    "a little beside its middle": ({"beside": 0.97 * REACH}, True),
    "beside its middle": ({"beside": 1.03 * REACH}, False),
    "as wide as a head may be": ({"wide": SIZE * math.tan(0.97 * HALF[1])}, True),
    "wider": ({"wide": SIZE * math.tan(1.03 * HALF[1])}, False),
}


@pytest.mark.parametrize(("change", "known"), ENDS.values(), ids=ENDS)
def test_a_dimension_line_that_ends_on_the_base_of_its_head_is_none_of_the_part(change, known):
    reading = measured(**change)
    assert ("lines-unexplained" not in stops(reading)) is known
    if known:
        (groove,) = reading.part.grooves
        assert (groove.z_near, groove.z_far, groove.floor_diameter) == pytest.approx((-10.0, -13.0, 24.0))


@pytest.mark.parametrize(
    ("lean", "bulge", "sides", "moved"),
    [
        (0.0, 0.0, 3, True),
        (0.97 * LIKE[1] / 2, 0.0, 3, True),
        (1.03 * LIKE[1] / 2, 0.0, 3, False),
        (0.0, 0.2, 3, False),
        (0.0, 0.0, 2, False),
        (math.pi, 0.0, 3, False),
    ],
    ids=["in line", "leaning a little", "leaning", "an arc", "a head without a base", "within the head"],
)
def test_only_a_straight_line_behind_a_closed_head_is_drawn_on_to_its_point(lean, bulge, sides, moved):
    line = (0.0, -SIZE, -20.0 * math.sin(lean), -SIZE - 20.0 * math.cos(lean), bulge)
    rows = np.array([line, *head((0.0, 0.0), 1)[:sides]])
    if sides == 2:  # both sides, which meet in the point
        rows[2] = head((0.0, 0.0), 1)[2]
    strokes = Strokes(rows[:, :4], rows[:, 4], np.arange(len(rows)))
    ends = to_points(strokes, 1e-3).ends
    assert ends[0].tolist() == pytest.approx([0.0, 0.0 if moved else -SIZE, *line[2:4]])
    assert ends[1:].tolist() == rows[1:, :4].tolist()


def test_a_head_that_has_its_line_takes_no_other():
    """In a chain of narrow dimensions the next line may end where the base of a head lies."""
    rows = np.array([(0.0, -SIZE, 0.0, -20.0), (0.0, 0.0, 0.0, -8.0), *(row[:4] for row in head((0.0, 0.0), 1))])
    strokes = Strokes(rows, np.zeros(len(rows)), np.arange(len(rows)))
    assert to_points(strokes, 1e-3) is strokes
