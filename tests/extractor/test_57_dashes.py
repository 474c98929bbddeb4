"""A floor's diameter with a figure behind a minus: its deviation, or a dash before the groove's width or depth.

Ways of writing: common practice, no source. Tolerances of grade 16 (ISO 286-1, from memory), mm by the middle of the
step of sizes.
"""

import math

import pytest
from support.ties import HERE, across, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.grammar import coarsest
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

GRADE_16 = {(3, 6): 0.75, (10, 18): 1.1, (30, 50): 1.6, (80, 120): 2.2, (180, 250): 2.9}
WIDE = bar((-10, -13, 34), (-30, -33, 34))
"""Two grooves 3 wide and 3 deep."""
OTHER = bar((-10, -14, 34), (-30, -34, 34))
"""Two 4 wide and 3 deep."""
NARROW = bar((-10, -11.1, 34), (-30, -31.1, 34))
"""Two 1.1 wide, as for a ring."""
TIGHT = bar((-10, -10.4, 34))


def read(part, words, led=False):
    """The tolerances of the first groove, and the codes of what is said, for words on its floor's diameter."""
    size = across(34, words, z=-10.2)
    if led:
        places = HERE.on_sheet(-10.2, 17.0), HERE.on_sheet(5.0, 38.0)
        size = Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words)
    of, findings = tied(part, size)
    return dict(of.grooves[0].tolerances), [f.code.value for f in findings if f.level.value != "note"]


def test_the_coarsest_tolerance_is_that_of_the_standard():
    for (low, high), width in GRADE_16.items():
        assert coarsest(math.sqrt(low * high)) == pytest.approx(width, rel=0.04)


@pytest.mark.parametrize("led", [False, True])
@pytest.mark.parametrize("words", ["Ø34-3", "Ø34 -3", "Ø34 - 3", "2x Ø34-3"])
def test_a_dash_before_the_drawn_width_gives_no_tolerance(words, led):
    assert read(WIDE, words, led) == ({}, [])


@pytest.mark.parametrize("led", [False, True])
def test_what_stands_behind_the_width_is_its_own(led):
    assert read(WIDE, "Ø34-3 H13", led) == ({"width": (0.0, 0.14)}, [])
    assert read(WIDE, "Ø34-3 ±0.1", led) == ({"width": (-0.1, 0.1)}, [])
    assert read(WIDE, "Ø34h11-3", led) == ({"floor_diameter": (-0.16, 0.0)}, [])
    assert read(OTHER, "Ø34-3 H13", led)[1] == ["note-contradicts"]


@pytest.mark.parametrize("words", ["34-3", "34 DIA -3", "<>-3", "Ø<>-3"])
def test_nor_where_the_measured_size_or_no_sign_stands_before_it(words):
    assert read(WIDE, words) == ({}, [])
    assert read(bar((-10, -14, 32)), words.replace("34", "32"))[0] == {}


def test_a_ring_groove_of_more_than_a_millimetre():
    assert read(NARROW, "Ø34-1.1") == ({}, [])
    assert read(NARROW, "Ø34 -1.1") == ({}, [])
    assert read(NARROW, "Ø34-1.2") == ({"floor_diameter": (-1.2, 0.0)}, [])


@pytest.mark.parametrize(("words", "low"), [("Ø34-0.3", -0.3), ("Ø34 -0.3", -0.3), ("34 -0.3", -0.3)])
def test_a_deviation_is_one_though_the_groove_is_so_wide(words, low):
    """Up to grade 13 (0.39 there) it is one even where the groove is as wide; above it is the width."""
    assert read(bar((-10, -10.3, 34)), words)[0] == {"floor_diameter": (low, 0.0)}
    assert read(TIGHT, words.replace("0.3", "0.4"))[0] == {}


@pytest.mark.parametrize("words", ["Ø34 0/-3", "Ø34 -3/0", "Ø34 +0.1 -3"])
def test_a_second_limit_makes_it_a_deviation(words):
    assert read(WIDE, words)[0]["floor_diameter"][0] == -3.0


@pytest.mark.parametrize(("words", "told"), [("<> -1.4", False), ("<> -1.6", True), ("<>-2.5", True)])
def test_what_is_neither_drawn_nor_a_tolerance_is_asked_about(words, told):
    tolerances, codes = read(OTHER, words)
    assert (tolerances == {}, "tolerance-unread" in codes) == (told, told)


def test_in_inch_a_width_below_one_as_well():
    inch = bar((-0.4, -0.525, 1.34), (-1.2, -1.325, 1.34), units="in", length=2.4, diameter=1.59)
    size = across(1.34, "Ø1.34-.125", z=-0.45)
    assert dict(tied(inch, size)[0].grooves[0].tolerances) == {}
    (other,) = [f.code.value for f in tied(inch, across(1.34, "Ø1.34-.15", z=-0.45))[1] if f.level.value != "note"]
    assert other == "tolerance-unread"
    small = across(1.34, "Ø1.34-.01", z=-0.45)
    assert dict(tied(inch, small)[0].grooves[0].tolerances) == {"floor_diameter": (-0.01, 0.0)}


@pytest.mark.parametrize(
    ("words", "told"), [("3 H13 x Ø34", 1), ("3 x Ø34 h11", 1), ("3 +0.1 x 3", 1), ("3 H13 x Ø20", 0), ("3 H13 x 9", 0)]
)
def test_the_tolerance_of_two_sizes_that_a_groove_has_is_not_lost_where_nothing_leads_to_it(words, told):
    texts = (Text(words, HERE.on_sheet(90.0, -70.0), 2.5),)
    _, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts), WIDE)
    assert [f.code.value for f in findings].count("tolerance-unread") == told


def test_a_second_line_from_such_a_text_asks_nothing():
    """One leads to the groove, the other into the air."""
    words = "3 H13 x Ø34"
    tips = (-10.2, 17.0), (80.0, 40.0)
    leaders = [
        Dimension(DimensionKind.LEADER, (HERE.on_sheet(*t), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words) for t in tips
    ]
    part, findings = tied(WIDE, *leaders)
    assert part.grooves[0].tolerances["width"] == (0.0, 0.14)
    assert [f.code for f in findings if f.level.value != "note"] == []
