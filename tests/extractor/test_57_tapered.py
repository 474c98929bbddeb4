"""Widths that are printed for grooves with sloping walls: at the mouth or at the floor, and with limits between.

Two grooves 6 wide at the mouth and 2 at the floor, 4 deep in a bar 40 across (worked out by hand).
"""

import pytest
from support.draw import Drawn, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind


def sloping(start):
    return [(start, 20.0), (start - 2.0, 16.0), (start - 4.0, 16.0), (start - 6.0, 20.0)]


BELT = Drawn(((0.0, 20.0), *sloping(-10.0), *sloping(-25.0), (-60.0, 20.0)))


def read(*dimensions):
    return read_sheet(sheet_of(side_view(BELT), dimensions=dimensions), ReadOptions(units="mm"))


def over_mouth(words):
    return Dimension(DimensionKind.LINEAR, ((-10.0, 20.0), (-16.0, 20.0)), 0.0, 6.0, words)


def led(words):
    return Dimension(DimensionKind.LEADER, ((-13.0, 16.0), (-5.0, 40.0)), 0.0, 0.0, words)


def stops(reading):
    return [str(f.code) for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    "words", ["2x 8", "8", "(2x) 8", "TYP 8", "2x 6.2", "2x 1.8", "2x 5", "2x 3", "2x 2", "2x 2 x 4 DEEP"]
)
def test_a_false_width_over_the_mouth_is_a_stop_counted_or_not(words):
    assert stops(read(over_mouth(words)))


@pytest.mark.parametrize(
    "words", ["2x 8 x Ø32", "GROOVE 6.2 WIDE", "2x 1.8 x Ø32", "2x 6 x Ø31", "2x 4 x Ø32", "4 WIDE"]
)
def test_so_is_one_in_a_callout(words):
    assert stops(read(led(words))) == ["note-contradicts"]


@pytest.mark.parametrize(
    ("words", "width"),
    [
        ("2x 6 +0.1 x Ø32 -0.1", (0.0, 0.1)),
        ("6 H13 WIDE", (0.0, 0.18)),
        ("2 +0.1/0 WIDE", None),
        ("4 +0.1/0 WIDE", None),
    ],
)
def test_the_width_of_the_mouth_is_that_of_the_groove(words, width):
    """ISO 286-1: H13 over 3 up to 6 is +0.18/0. That of the floor, or one between, is told."""
    reading = read(led(words))
    assert stops(reading) == []
    assert [g.tolerances.get("width") for g in reading.part.grooves] == [width] * 2
    told = {str(f.code) for f in reading.findings} & {"tolerance-unread", "note-unread"}
    assert bool(told) == (width is None)


@pytest.mark.parametrize("words", ["2x 6", "2x 6 x 4 DEEP", "6 x Ø32", "2x 4 DEEP"])
def test_a_true_one_over_the_mouth_is_none(words):
    assert stops(read(over_mouth(words))) == []


def over_floor(words):
    return Dimension(DimensionKind.LINEAR, ((-12.0, 16.0), (-14.0, 16.0)), 0.0, 2.0, words)


@pytest.mark.parametrize(
    "words", ["2x 2.5 +0.1/0", "2.5 +0.1/0", "2x 1.5 +0.1", "3 H13", "2x 3 H13", "2x 2.5", "2 x 4 +0.1", "2x 6 ±0.1"]
)
def test_a_false_width_over_the_floor_is_a_stop_whether_counted_or_limited(words):
    """The count is as large as the floor is wide."""
    assert stops(read(over_floor(words))) == ["dimension-contradicts"]


@pytest.mark.parametrize(("words", "told"), [("2x 2", False), ("2", False), ("2 +0.1/0", True), ("2x 2 H13", True)])
def test_of_a_true_one_the_tolerance_is_told(words, told):
    """Nothing holds a program to the width of such a floor."""
    reading = read(over_floor(words))
    assert stops(reading) == []
    assert ("tolerance-unread" in [f.code for f in reading.findings]) is told
