"""Legends that size grooves by a letter, and the letter at each groove. Ways of writing: common practice, no source."""

import numpy as np
import pytest
from support.ties import HERE, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Pen, Segments, Sheet, Source, Text
from extractor.sizing.dimensions import tie_dimensions

OUTSIDE = bar((-10, -14, 34), (-20, -24, 34), (-30, -34, 32))
INSIDE = bar((-10, -14, 30, {"where": "inside"}), bore=26.0)


def told(legend, *letters, part=OUTSIDE, segments=NO_SEGMENTS):
    """What is told of a legend far from the part, with letters (letter, z, radius) at it."""
    texts = [Text(name, HERE.on_sheet(z - 0.8, r), 2.5) for name, z, r in letters]
    texts += [Text(legend, HERE.on_sheet(-150.0, -90.0), 2.5)]
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, segments, texts=tuple(texts)), part)[1]
    codes = ("note-contradicts", "tolerance-unread")
    return [(f.code.value, f.groove) for f in found if f.code in codes and legend in f.message]


@pytest.mark.parametrize(
    ("legend", "wrong"),
    [
        ("A = 4 x Ø34", False),
        ("A = 4 x Ø33", True),
        ("A = 4 x 3", False),
        ("A: 5 x 3", True),
        ("A = 4 WIDE x 3 DEEP", False),
        ("A = 4 WIDE x 2 DEEP", True),
        ("A: 4 breit, 3.5 tief", True),
        ("A = 2x 4 x Ø34", False),
    ],
)
@pytest.mark.parametrize("r", [22.5, -25.0])
def test_a_legend_is_held_at_each_groove_with_its_letter(legend, wrong, r):
    assert told(legend, ("A", -12, r), ("A", -22, r)) == [("note-contradicts", 1), ("note-contradicts", 2)] * wrong
    assert told(legend, ("A", -60 - 30, r)) == []
    assert told(legend, ("B", -12, r)) == []


def test_each_letter_has_its_own_legend():
    assert told("B1 = 4 x Ø34", ("A", -12, 22.5), ("B1", -32, 22.5)) == [("note-contradicts", 3)]
    assert told("B1 = 4 x Ø32", ("A", -12, 22.5), ("B1", -32, 22.5)) == []


def test_a_letter_led_to_a_groove_of_the_bore():
    rows = np.array([(*HERE.on_sheet(-12.0, 26.0), *HERE.on_sheet(-12.0, 14.5))])
    segments = Segments(rows, np.zeros(1), np.zeros(1, dtype=np.int64), (Source("1", "LINE", "0", Pen.SOLID),))
    at = ("A", -12, 27.0)
    assert told("A = 4 x Ø30", at, part=INSIDE, segments=segments) == []
    assert told("A = 4 x Ø31", at, part=INSIDE, segments=segments) == [("note-contradicts", 1)]


@pytest.mark.parametrize("legend", ["R2 = 4 x Ø33", "A = VIEW", "A = SECTION 2:1", "A-A", "A = ISO 2768"])
def test_what_is_no_legend_of_grooves_is_left_alone(legend):
    name = legend[:2] if legend[0] == "R" else "A"
    assert told(legend, (name, -12, 22.5)) == []


def test_a_tolerance_in_a_legend_is_given_to_nobody():
    assert ("tolerance-unread", None) in told("A = 4 +0.1 x Ø34", ("A", -12, 22.5))
