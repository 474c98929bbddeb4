"""A count alone that a leader leads to a groove counts those like it. Ways of writing: common practice, no source."""

import pytest
from support.ties import HERE, bar, tied

from extractor.sheet import Dimension, DimensionKind

PART = bar((-10, -12.5, 27), (-30, -34, 36), (-43, -47, 36), (-56, -60, 36), diameter=42, length=90)
"""Three grooves 4 wide, 13 apart, and a fourth of another kind before them."""


def told(words, z=-32, r=18.0):
    """Levels and codes of what is said of such a leader."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, r), HERE.on_sheet(z + 10, 40)), 0.0, 0.0, words)
    return [(f.level.value, f.code.value) for f in tied(PART, leader)[1]]


WAYS = ["{n}x", "x{n}", "x {n}", "{n} PLACES", "IN {n} POSITIONS", "TYP {n} POSNS", "{n} EQUALLY SPACED",
        "{n} OFF THUS", "{n} AS SHOWN", "QTY {n}", "{n}-fach", "{n} Stellen", "ANZAHL {n}", "{n} volte", "{n} ggr",
        "{n} szt.", "{n} ks", "{n} adet", "{n}处"]  # fmt: skip


@pytest.mark.parametrize("way", WAYS)
def test_a_count_is_that_of_the_grooves_like_its_own(way):
    """Four are there of all kinds, which may be meant."""
    said = [told(way.format(n=n)) for n in (2, 3, 4, 5)]
    wrong = [("stop", "count-differs")]
    assert said == [wrong, [], [("caution", "count-differs")], wrong]


@pytest.mark.parametrize(
    ("words", "asked"), [("(2)", True), ("(3)", False), ("(1)", False), ("(19)", True), ("(20)", False)]
)
def test_a_figure_in_brackets_may_be_a_count_or_the_number_of_something(words, asked):
    assert told(words) == [("caution", "count-differs")] * asked


@pytest.mark.parametrize(
    ("words", "stops"),
    [("EQ SP @ 13", False), ("EQ SP @ 12", True), ("EQUALLY SPACED AT 13", False), ("EVENLY SPACED AT 14", True)],
)
def test_even_spaces_of_a_pitch_at_a_leader_are_held(words, stops):
    assert told(words) == [("stop", "note-contradicts")] * stops


@pytest.mark.parametrize(("z", "read"), [(-11, "1 such groove was read"), (-32, "3 such grooves were read")])
def test_one_groove_is_told_as_one(z, read):
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, 18.0), HERE.on_sheet(z + 10, 40)), 0.0, 0.0, "9x")
    assert [read in f.message for f in tied(PART, leader)[1] if f.stops] == [True]
