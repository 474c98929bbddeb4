"""Loose leaders followed from a text to their tip, at every threshold: just inside and just outside."""

import math
from itertools import pairwise

import numpy as np
import pytest
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Pen, Segments, Sheet, Source, Text
from extractor.sizing.lettering.pointers import LooseLeaders, said

HEIGHT = 2.0
WORDS = "10"
"""Two letters 2 high: their box ends at x 2.8."""
RIGHT = 2.8


def tips(*lines, owner="", words=WORDS):
    """Where the loose leaders of the text end that are drawn as these lines (x0, y0, x1, y1)."""
    ends = np.array(lines, dtype=float).reshape(-1, 4)
    source = np.zeros(len(ends), dtype=np.int64)
    segments = Segments(ends, np.zeros(len(ends)), source, (Source("1", "LINE", "0", Pen.SOLID, owner),))
    return LooseLeaders(segments).tips(Text(words, (0.0, 0.0), HEIGHT))


@pytest.mark.parametrize(
    ("gap", "y", "found"), [(5.9, 4.0, 1), (6.1, 4.0, 0), (9.9, 2.9, 1), (10.1, 2.9, 0), (6.1, 3.1, 0), (6.1, -1.1, 0)]
)
def test_a_leader_begins_within_three_letter_heights_of_its_text_and_in_line_with_it_within_five(gap, y, found):
    """In line is what lies half a height under the text to half a height over it; its box ends at 2.4."""
    start = RIGHT + (gap if y <= 2.4 else (gap**2 - (y - 2.4) ** 2) ** 0.5)
    assert tips((start, y, start + 10.0, 9.0)) == ((start + 10.0, 9.0),) * found


@pytest.mark.parametrize(("words", "low"), [("10", -0.4), ("10\n20", -5.6)])
@pytest.mark.parametrize(("gap", "found"), [(5.95, 1), (6.05, 0)])
def test_a_text_reaches_a_fifth_of_a_letter_below_its_line_and_more_below_several(words, low, gap, found):
    """A second line stands 1.6 letter heights lower, and the area ends 1.2 below it."""
    assert len(tips((1.0, low - gap, 20.0, low - gap - 9.0), words=words)) == found


@pytest.mark.parametrize(("off", "tip"), [(3.9e-5, 40.0), (4.1e-5, 20.0)])
def test_strokes_of_a_leader_meet_within_a_millionth_of_the_sheet(off, tip):
    """The sheet is 40 across."""
    assert tips((RIGHT + 1.0, 0.0, 20.0, 9.0), (20.0 + off, 9.0, 40.0, 9.0)) == ((tip, 9.0),)


def test_what_begins_in_line_with_a_text_is_its_leader_before_anything_nearer():
    assert tips((RIGHT + 6.0, 1.0, 20.0, 9.0), (RIGHT, 4.0, 20.0, -9.0)) == ((20.0, 9.0),)


@pytest.mark.parametrize(("more", "found"), [(0.9, 2), (1.1, 1)])
def test_a_second_leader_begins_at_most_half_a_height_farther_off(more, found):
    first, second = RIGHT + 1.0, RIGHT + 1.0 + more
    assert len(tips((first, 0.0, 20.0, -9.0), (second, 2.0, 20.0, 9.0))) == found


@pytest.mark.parametrize(("size", "found"), [(1.9, 0), (2.1, 1)])
def test_what_is_no_longer_than_a_letter_is_high_is_no_leader(size, found):
    assert len(tips((RIGHT + 1.0, 0.0, RIGHT + 1.0 + size, 0.0))) == found


@pytest.mark.parametrize(("strokes", "found"), [(3, 1), (4, 0)])
def test_a_leader_has_three_strokes_at_most(strokes, found):
    places = [(RIGHT + 1.0 + 4.0 * k, 3.0 * (k % 2)) for k in range(strokes + 1)]
    lines = [(*a, *b) for a, b in pairwise(places)]
    assert tips(*lines) == (places[-1],) * found


@pytest.mark.parametrize(("lean", "found"), [(0.0, 1), (0.7, 1), (0.9, 0)])
def test_strokes_of_a_leader_that_go_on_in_line_are_one(lean, found):
    """Shelf, knee and a leg that is drawn in two, the second of which may lean by 0.81 degrees against the first."""
    turn = math.radians(lean)
    end = 20.0 + 4.0 * math.cos(turn), 3.0 - 4.0 * math.sin(turn)
    places = [(RIGHT + 1.0, 1.0), (RIGHT + 5.0, 1.0), (12.0, 3.0), (20.0, 3.0), end]
    assert tips(*((*a, *b) for a, b in pairwise(places))) == (end,) * found


@pytest.mark.parametrize("owner", ["DIMENSION", "HATCH", "LEADER", "MULTILEADER", "TEXT"])
def test_a_stroke_of_a_composite_is_no_loose_leader(owner):
    assert tips((RIGHT + 1.0, 1.0, 20.0, 9.0), owner=owner) == ()


def test_a_text_without_a_leader_points_to_nothing():
    (note,) = said(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(WORDS, (0.0, 0.0), HEIGHT),)))
    assert (note.tip, note.words) == (None, WORDS)


@pytest.mark.parametrize(("off", "notes"), [(3.9, 1), (4.1, 2)])
def test_a_leader_that_holds_its_text_as_well_ends_within_four_letter_heights_of_it(off, notes):
    leader = Dimension(DimensionKind.LEADER, ((50.0, 50.0), (-off * HEIGHT, 0.0)), 0.0, 0.0, WORDS)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(WORDS, (0.0, 0.0), HEIGHT),), dimensions=(leader,))
    assert len(said(sheet)) == notes


@pytest.mark.parametrize(("y", "found"), [(-0.95, 1), (-1.05, 0), (2.95, 1), (3.05, 0)])
def test_a_shelf_that_a_text_stands_on_may_end_far_behind_it_where_a_leg_goes_on(y, found):
    """Half a letter height below the foot of the text, or over its head; 60 letters would fit on the shelf."""
    shelf, leg = (-12.0, y, 80.0, y), (-12.0, y, -30.0, -30.0)
    assert tips(shelf, leg) == ((-30.0, -30.0),) * found
    assert tips(shelf) == ()
    # A line of a table goes on both ways, and so does a dimension's whose other lines end on it.
    assert tips(shelf, leg, (80.0, y, 80.0, 20.0), (80.0, y, 120.0, y)) == ()


SHELF = (RIGHT + 1.0, 0.0, 10.0, 0.0)


@pytest.mark.parametrize(
    ("lines", "found"),
    [
        ([(10, 0, 20, 9), (10, 0, 20, -9)], [(20, 9), (20, -9)]),
        ([(20, 9, 10, 0), (10, 0, 20, -9), (10, 0, 25, 0)], [(20, 9), (20, -9), (25, 0)]),
        # Heads at both tips, as strokes: no longer than 1.2 letter heights.
        ([(10, 0, 20, 9), (20, 9, 18, 8), (20, 9, 19, 7), (10, 0, 20, -9)], [(20, 9), (20, -9)]),
        ([(10, 0, 20, 9), (20, 9, 20, 11.5), (20, 9, 19, 7), (10, 0, 20, -9)], [(10, 0)]),
        # The corner of an outline.
        ([(10, 0, 20, 0), (20, 0, 20, 9), (10, 0, 10, 9)], [(10, 0)]),
        # Legs of two letter heights.
        ([(10, 0, 14.1, 0), (10, 0, 20, -9)], [(14.1, 0), (20, -9)]),
        ([(10, 0, 13.9, 0), (10, 0, 20, -9)], [(10, 0)]),
    ],
)
def test_a_forked_leader_has_a_tip_at_each_leg(lines, found):
    assert sorted(tips(SHELF, *lines)) == sorted(found)
