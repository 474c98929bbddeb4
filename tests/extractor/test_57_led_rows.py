"""Callouts at leaders: counts that are as large as a depth by chance, and a floor's row at the corner of a mouth.

Ways of writing: common practice, no source.
"""

import pytest
from support.ties import HERE, bar, tied

from extractor.sheet import Dimension, DimensionKind

TWO = bar((-10, -14, 36), (-30, -34, 36))
"""Two grooves 4 wide and 2 deep: `2x` may be their count or their depth."""
UNLIKE = bar((-10, -14, 36), (-30, -34, 34))
"""The second is 3 deep, and as wide."""
BOTH = {"width": (-0.05, 0.05), "floor_diameter": (-0.05, 0.05)}


def led(words, tip):
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)


def read(part, *dimensions):
    of, findings = tied(part, *dimensions)
    return [dict(g.tolerances) for g in of.grooves], [f.code.value for f in findings if f.level.value != "note"]


@pytest.mark.parametrize(
    "words",
    [
        "2x Ø36 ±0.05\nx 4 ±0.05 WIDE", "2x 4 ±0.05 WIDE x Ø36 ±0.05", "2x 4 +0.05 -0.05 WIDE\nØ36 ±0.05",
        "2x Ø36 ±0.05 x 4 ±0.05 WIDE",
    ],
)  # fmt: skip
def test_a_count_as_large_as_the_depth_takes_no_tolerance_away(words):
    assert read(TWO, led(words, (-12.0, 18.0))) == ([BOTH, BOTH], [])


def test_where_the_rest_is_not_alike_it_is_told():
    """Counted, the width would be that of both; as a depth, of the first alone."""
    kept, told = read(UNLIKE, led("2x 4 ±0.05 WIDE", (-12.0, 18.0)))
    assert (kept, told) == ([{}, {}], ["tolerance-unread"])


@pytest.mark.parametrize(
    ("tip", "words", "kept"),
    [
        ((-10.0, 20.0), "Ø36 ±0.05", True),
        ((-14.0, 20.0), "Ø36 ±0.05", True),
        ((-14.0, -20.0), "Ø36 ±0.05", True),
        ((-16.0, 20.0), "Ø36 ±0.05", False),
        ((-10.0, 20.0), "Ø37 ±0.05", False),
    ],
)
def test_a_floor_may_be_led_from_the_corner_of_its_mouth(tip, words, kept):
    tolerances, told = read(TWO, led(words, tip))
    assert (tolerances[0].get("floor_diameter"), told) == (
        ((-0.05, 0.05), []) if kept else (None, ["dimension-contradicts"])
    )


def test_a_land_s_diameter_there_stays_that_of_the_land():
    assert read(TWO, led("Ø40 ±0.05", (-10.0, 20.0))) == ([{}, {}], [])
