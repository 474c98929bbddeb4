"""Dimensions whose sign says another thing than what they measure: R along a width, an inch mark on a sheet in mm."""

import pytest
from support.draw import Cut, Turned, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 30.0, corner=0.5)))
TOLD = ["dimension-unclear"]


def told(text, points=((-40.0, 20.0), (-44.0, 20.0)), angle=0.0, factor=1.0, part=PART, units="mm"):
    (x, y), (u, v) = points
    size = Dimension(DimensionKind.LINEAR, points, angle, abs(x - u) if angle == 0.0 else abs(y - v), text, factor)
    ink = section(part) if part.bore else side_view(part)
    reading = read_sheet(sheet_of(ink, dimensions=[size]), ReadOptions(units=units))
    return [f.code.value for f in reading.findings if f.level != "note"]


DEPTH = {"points": ((-42.0, 15.0), (-42.0, 20.0)), "angle": 90.0}


@pytest.mark.parametrize(
    ("text", "more"),
    [
        ('<>"', {}),
        ('4"', {}),
        ("R<>", {}),
        ("R4", {}),
        ("R2", {}),
        ("R<>", DEPTH),
        ('5"', DEPTH),
        ('<>"', {"points": ((0.0, 20.0), (-40.0, 20.0))}),
        ('<>"', {"part": Turned(PART.steps, PART.cuts, bore=16.0)}),
    ],
)
def test_a_sign_of_another_thing_is_told(text, more):
    assert told(text, **more) == TOLD


@pytest.mark.parametrize(
    ("text", "more"),
    [
        ("<>", {}),
        ("<> mm", {}),
        ('<>"', {"units": "in"}),
        ('<>"', {"factor": 1 / 25.4}),
        ('.157"', {}),
        ("R0.5", {"points": ((-40.0, 15.0), (-40.5, 15.0))}),
        ("R<>", {"points": ((-20.0, 0.0), (-20.0, 20.0)), "angle": 90.0}),
    ],
    ids=["plain", "mm", "inch part", "shown in inches", "typed in inches", "corner", "half a diameter"],
)
def test_a_sign_of_what_is_measured_is_not(text, more):
    assert told(text, **more) == []
