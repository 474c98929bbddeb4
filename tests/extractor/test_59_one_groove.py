"""Words that single out one groove: its tolerance is no other's, however alike; and a count of one.

Ways of writing: common practice, no source. General tolerances: ISO 2768-1 table 1, class m.
"""

import pytest
from support.ties import HERE, along, bar, tied

from extractor.sheet import Dimension, DimensionKind

PART = bar((-15, -18, 32), (-30, -33, 32))
GENERAL = (-0.1, 0.1)


def led(words, tip=(-31.5, 16.0)):
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)


def widths(*dimensions):
    part, findings = tied(PART, *dimensions, notes=["ISO 2768-m"])
    assert [f for f in findings if f.stops] == []
    return [g.tolerances.get("width") for g in part.grooves]


@pytest.mark.parametrize(
    "words",
    [
        "3 +0.1/0 THIS GROOVE ONLY",
        "THIS GROOVE 3 +0.1/0",
        "GROOVE 2: 3 +0.1/0 x Ø32 0/-0.1",
        "NUR DIESE NUT 3 +0.1/0",
        "1x 3 +0.1/0",
    ],
)
def test_the_tolerance_of_one_groove_stays_with_it(words):
    assert widths(led(words)) == [GENERAL, (0.0, 0.1)]


@pytest.mark.parametrize("words", ["3 +0.1/0", "GROOVE 3 +0.1/0", "2x 3 +0.1/0"])
def test_any_other_is_shared_by_the_like_one(words):
    assert widths(led(words)) == [(0.0, 0.1)] * 2


def test_on_a_dimension_too():
    assert widths(along(-30, -33, "3 +0.1/0 ONLY THIS ONE"))[0] != (0.0, 0.1)
    assert widths(along(-30, -33, "3 +0.1/0"))[0] == (0.0, 0.1)
    assert widths(along(-30, -33, "1x 3 +0.1/0")) == [GENERAL, (0.0, 0.1)]


def test_three_is_no_count_of_one():
    part, findings = tied(PART, led("1x 5 +0.1/0"))
    assert [f.code for f in findings if f.stops] == ["note-contradicts"]
    assert not part.grooves[0].tolerances


def test_two_limits_that_both_have_the_sign_are_one_size():
    """Over each other, as texts of their own beside the dimension that they are read of."""
    size = Dimension(
        DimensionKind.LINEAR, (HERE.on_sheet(-31.5, 16.0), HERE.on_sheet(-31.5, -16.0)), 90.0, 32.0, "Ø32.0^Ø31.9"
    )
    part, _ = tied(PART, size, notes=["Ø32.0", "Ø31.9", "ISO 2768-m"])
    assert [g.tolerances["floor_diameter"] for g in part.grooves] == [pytest.approx((-0.1, 0.0))] * 2
