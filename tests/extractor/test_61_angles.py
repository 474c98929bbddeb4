"""A dimension of an angle that prints another than the walls of a groove have between them."""

import math

import pytest
from support.ties import HERE, bar, tied

from extractor.sheet import Dimension, DimensionKind

VEE = bar((-10, -16, 34, {"shape": "vee"}))


def between(angle, text, *, tip=False, at=(-13.0, 17.0)):
    """The angle between two walls that meet at a place: by two points on each, or by the tip and one on each."""
    half = math.radians(angle / 2)
    ends = [(at[0] + side * 2 * math.sin(half), at[1] + 2 * math.cos(half)) for side in (-1, 1)]
    rows = [*ends, at] if tip else [at, ends[0], at, ends[1]]
    return Dimension(DimensionKind.ANGULAR, tuple(HERE.on_sheet(*p) for p in rows), 0.0, 0.0, text)


def stops(*dimensions):
    return [f.code for f in tied(VEE, *dimensions)[1] if f.stops]


@pytest.mark.parametrize("tip", [False, True])
@pytest.mark.parametrize(
    ("angle", "text", "alarm"),
    [
        (36, "36°", False),
        (38, "36°", True),
        (36.51, "36°", False),
        (36.53, "36°", True),
        (36.069, "36.0°", False),
        (36.071, "36.0°", True),
        (120, "60°", False),  # the angle beside it
        (38, None, False),
        (38, "<>", False),
        (38, "36", False),
        (36.5, "36°30'", False),
    ],
)
def test_an_angle_is_what_lies_between_its_legs(angle, text, alarm, tip):
    assert stops(between(angle, text, tip=tip)) == (["dimension-contradicts"] if alarm else [])


def test_an_angle_beside_the_view_is_none_of_the_part():
    assert stops(between(38, "36°", at=(-13.0, 200.0))) == []


@pytest.mark.parametrize("tip", [False, True])
@pytest.mark.parametrize("text", ["90°", "70°", "60°"])
def test_a_false_angle_stops_by_its_tip_as_well(text, tip):
    assert stops(between(60, text, tip=tip)) == ["dimension-contradicts"] * (text != "60°")


@pytest.mark.parametrize("text", ["<> ±0.5°", "±1°", "60° ±0.5°", "2x 60° ±1°"])
def test_a_tolerance_behind_an_angle_is_none(text):
    assert stops(between(60, text)) == []
