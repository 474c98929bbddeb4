"""A recess is open: a level line with an upright one at both its ends, and none over both."""

import numpy as np
import pytest

from extractor.sizing.details.same_shape import DetailStrokes, recesses

NEAR = 0.05
WIDTH, DEPTH = 6.0, 4.0


def found(*more, deep=DEPTH):
    """What is found of a floor, two walls of which one may be higher, and more lines."""
    lines = [(0j, WIDTH + 0j), (0j, DEPTH * 1j), (WIDTH + 0j, WIDTH + deep * 1j), *more]
    start, end = (np.array([line[k] for line in lines]) for k in (0, 1))
    return recesses(DetailStrokes(start, end, np.zeros(len(lines))), NEAR)


@pytest.mark.parametrize(
    "more",
    [
        (),
        ((-5 + DEPTH * 1j, DEPTH * 1j), (WIDTH + DEPTH * 1j, 12 + DEPTH * 1j)),  # lands beside it
        ((0 + 4.06j, WIDTH + 4.06j),),  # just over a hair above
        ((0.06 + DEPTH * 1j, WIDTH + DEPTH * 1j),),  # a line that does not reach one wall
    ],
)
def test_lines_beside_its_mouth_leave_it_open(more):
    assert (WIDTH, DEPTH) in found(*more)


@pytest.mark.parametrize(
    "lid", [(DEPTH * 1j, WIDTH + DEPTH * 1j), (-9 + 4.04j, 20 + 4.04j), (WIDTH + DEPTH * 1j, 0.04 + DEPTH * 1j)]
)
def test_one_that_a_line_shuts_is_a_frame(lid):
    assert (WIDTH, DEPTH) not in found(lid)


def test_of_two_walls_the_lower_one_says_how_deep_it_is():
    assert found(deep=7.0) == {(WIDTH, DEPTH)}
