"""Grooves that `n x p (= n*p)` counts and that are not drawn: made where all agrees, with a caution; else a stop.

Source: ISO 129-1 as course pages quote it; n gaps, so n + 1 grooves.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind


def read(text, cuts=(8.0, 40.0), length=32.0, steps=((70.0, 40.0),), floors=(34.0, 34.0), widths=(3.0, 3.0), more=()):
    """A bar with the first and the last groove of a row, and the row's size between their front walls."""
    ends = zip(cuts, widths, floors, strict=True)
    part = Turned(steps, (*(Cut(-z, width, floor) for z, width, floor in ends), *more))
    points = ((-cuts[0], 20.0), (-cuts[0] - length, 20.0))
    dimension = Dimension(DimensionKind.LINEAR, points, 0.0, length, text)
    return read_sheet(sheet_of(side_view(part), dimensions=(dimension,)), ReadOptions(units="mm"))


def codes(reading, level="stop"):
    return [f.code for f in reading.findings if f.level == level]


def test_a_row_of_which_the_ends_are_drawn_is_made_with_a_caution_for_each():
    reading = read("4x 8 (=32)")
    grooves = reading.part.grooves
    assert [g.id for g in grooves] == [1, 2, 3, 4, 5]
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in grooves] == [
        (z, z - 3, 34) for z in (-8, -16, -24, -32, -40)
    ]
    assert codes(reading) == []
    cautions = [f for f in reading.findings if f.code == "groove-undrawn"]
    assert [f.groove for f in cautions] == [2, 3, 4]
    assert 'Groove 2, Z-16 to Z-19, is not drawn: "4x 8 (=32)" counts it' in cautions[0].message
    # The outline has them too: a hand's breadth behind each wall it lies at the floor, between them at the land.
    steps = [z for z, r in reading.part.outline if r == 17.0]
    assert steps == [-8, -11, -16, -19, -24, -27, -32, -35, -40, -43]
    assert [z for z, _ in reading.part.outline] == sorted((z for z, _ in reading.part.outline), reverse=True)
    assert {r for _, r in reading.part.lands} == {0.0, 20.0}


LEFT = {
    "a sum that is not so": {"text": "4x 8 (=33)"},
    "a distance that is not the sum": {"text": "4x 8 (=32)", "cuts": (8.0, 41.0), "length": 33.0},
    "a pitch that is not so": {"text": "2x 9 (=32)"},
    "another floor at the end": {"text": "4x 8 (=32)", "floors": (34.0, 36.0)},
    "another width at the end": {"text": "4x 8 (=32)", "widths": (3.0, 4.0)},
    "a step between": {"text": "4x 8 (=32)", "steps": ((30.0, 40.0), (40.0, 44.0))},
    "no room for them": {"text": "16x 2 (=32)"},
}


@pytest.mark.parametrize("how", LEFT.values(), ids=LEFT)
def test_where_anything_speaks_against_it_none_is_made(how):
    reading = read(**how)
    assert len(reading.part.grooves) == 2
    assert "groove-undrawn" not in codes(reading, "caution")


@pytest.mark.parametrize("z", [20.0, 16.0])
def test_where_something_is_drawn_between_none_is_made(z):
    """A groove elsewhere, or one of the row: then the others are missing, or the count is wrong."""
    reading = read("4x 8 (=32)", more=(Cut(-z, 3.0, 34.0),))
    assert len(reading.part.grooves) == 3
    assert "chain-differs" in codes(reading)


@pytest.mark.parametrize("text", ["4x 8", "4x", "32", "TYP"])
def test_a_count_without_its_sum_makes_none(text):
    assert "groove-undrawn" not in codes(read(text), "caution")
