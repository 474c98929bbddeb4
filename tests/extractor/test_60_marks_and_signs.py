"""Marks of notes elsewhere, notes on all grooves, signs of a dimension's own deviations, and ranges of a radius.

Ways of writing: common practice, no source. General tolerances: ISO 2768-1 table 1, class m.
"""

from dataclasses import replace

import pytest
from support.ties import HERE, along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.printed import parse

PART = bar((-15, -18, 32), (-30, -33, 32))
WIDTH, FLOOR = (-0.1, 0.1), (-0.3, 0.3)


def read(words, *notes, **fields):
    """The sizes of the two grooves with a tolerance, and what is told."""
    texts = [Text(one, HERE.on_sheet(-80.0, -60.0 - 20 * k), 2.5) for k, one in enumerate(("ISO 2768-m", *notes))]
    size = replace(along(-15, -18, words), **fields)
    part, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(texts), dimensions=(size,)), PART)
    return [set(g.tolerances) for g in part.grooves], [f for f in findings if f.level.value != "note"]


@pytest.mark.parametrize("words", ["3¹", "3²", "3 (A)", "3 1)", "3 <1>", "3*", "3Δ"])
def test_a_mark_behind_a_size_is_told_and_leaves_it_without_a_general_tolerance(words):
    kept, told = read(words)
    assert (kept, len(told)) == ([{"floor_diameter"}] * 2, 1)


@pytest.mark.parametrize("words", ["3", "(3)", "3 (E)", "2x 3", "3 (2x)", "3 ±0.1 (E)"])
def test_what_is_no_mark_is_read(words):
    kept, told = read(words)
    assert (kept, told) == ([{"width", "floor_diameter"}] * 2, [])


@pytest.mark.parametrize(
    ("note", "left"),
    [
        ("GROOVE WIDTH TOLERANCE +0.05/0", {"floor_diameter"}),
        ("NUTBREITEN +0,05/0", set()),
        ("Tolérance des gorges : +0,05/0", set()),
        ("ALL GROOVE FLOORS h11", {"width"}),
    ],
)
def test_a_tolerance_of_all_grooves_leaves_none_a_general_one(note, left):
    kept, told = read("3", note)
    assert [f.code for f in told] == ["tolerance-unread"]
    assert all(one <= {"width", "floor_diameter"} and "width" not in one - left for one in kept)


@pytest.mark.parametrize(("pair", "stops"), [((0.05, -0.1), True), ((-0.1, 0.05), False), ((0.1, 0.0), True)])
def test_an_upper_deviation_below_the_lower_one_stops(pair, stops):
    kept, told = read(None, deviations=pair)
    assert [f.code for f in told] == ["dimension-contradicts"] * stops
    assert all(("width" in one) is not stops for one in kept)
    assert all("-0.1" in f.message or "+0" in f.message for f in told)


@pytest.mark.parametrize(
    ("text", "low", "high"), [("R0.3-0.5", 0.3, 0.5), ("R0.3...0.5", 0.3, 0.5), ("R0.3 TO 0.5", 0.3, 0.5)]
)
def test_a_rising_range_of_a_radius_has_two_limits(text, low, high):
    printed = parse(text)
    assert (printed.limits, sorted(printed.sizes)) == (True, [low, high])
    assert parse("R0.5-0.2").limits is False


def test_no_tolerance_without_notes():
    part, findings = tied(PART, along(-15, -18, "3"))
    assert (findings, part.grooves[0].tolerances) == ((), {})
