"""Counts beside sizes that are typical, at four like grooves 8 apart: `3x Ø37 TYP`.

Ways of writing: common practice, no source.
"""

import pytest
from support.ties import HERE, across, along, bar, tied

from extractor.sheet import Dimension, DimensionKind

STARTS = (-6, -14, -22, -30)
NARROW = bar(*((z, z - 1.5, 37) for z in STARTS))
THREE = bar(*((z, z - 3, 37) for z in STARTS))
"""Grooves as wide as what counts may be."""
ALONE = bar((-6, -9, 37))


def counted(part, dimension):
    return [f.level.value for f in tied(part, dimension)[1] if f.code == "count-differs"]


def on_floor(words, led):
    if not led:
        return across(37, words, z=-6.5)
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(-6.5, 18.5), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)


WAYS = ["{n}x Ø37 TYP", "{n} PLACES Ø37 TYP", "Ø37 TYP {n} PLACES", "Ø37 TYP. {n}x", "{n}x Ø37 h11 TYP", "TYP {n}x Ø37"]


@pytest.mark.parametrize("led", [False, True])
@pytest.mark.parametrize("words", WAYS)
@pytest.mark.parametrize("part", [NARROW, THREE])
def test_a_wrong_count_of_a_typical_floor_is_told(part, words, led):
    assert counted(part, on_floor(words.format(n=3), led)) != []
    assert counted(part, on_floor(words.format(n=4), led)) == []


@pytest.mark.parametrize("led", [False, True])
def test_a_width_by_a_floor_is_no_count(led):
    for words in ("3 x Ø37", "3 x Ø37 TYP", "3xØ37 TYP", "Ø37 TYP"):
        assert counted(THREE, on_floor(words, led)) == []
    assert counted(ALONE, on_floor("3x Ø37 TYP", led)) == []


@pytest.mark.parametrize(
    ("words", "told"), [("3x 8 TYP", 0), ("8 TYP", 0), ("2x 8 TYP", 1), ("4x 8 TYP", 1), ("2x 8", 1)]
)
def test_so_are_spacings(words, told):
    assert len(counted(NARROW, along(-6, -14, words))) == told


def test_all_spacings_get_the_tolerance_of_a_typical_one():
    part, _ = tied(NARROW, along(-6, -14, "3x 8 ±0.1 TYP"))
    assert [one.deviations for one in part.distances] == [(-0.1, 0.1)] * 3
