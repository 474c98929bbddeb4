"""Even spacing as `n x p (= n*p)`: n gaps, so n + 1 grooves; sum, drawn distance and grooves must agree.

Source: ISO 129-1 as course pages quote it (number of gaps times gap, the sum in brackets); the count of n + 1 follows.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from support.ties import HERE, along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.sizes.chains import chain_of, sum_wrong

FIVE = [(-8 - 8 * k, -11 - 8 * k, 34) for k in range(5)]
"""Five grooves 3 wide at a pitch of 8: 32 from first to last."""


def said(text, part=None, a=-8, b=-40):
    """The stops of a spacing between two places."""
    return [f for f in tied(part or bar(*FIVE), along(a, b, text))[1] if f.stops]


SPELT = [
    "4x 8 (=32)",
    "4 x 8 (= 32)",
    "4X8(=32)",
    "4 x 8 = (32)",
    "4x8 (32)",
    "4 × 8 ( 32 )",
    "4 x 8 = 32",
    "4×8 (=32)",
    "32 (=4x8)",
    "32 = 4 x 8",
    "4 x 8,0 (= 32,0)",
    "4x 8 (=<>)",
    "<> (= 4 x 8.0)",
    "32 (4 x 8)",
    "4x8 = 32 ±0.1",
    "4x8 ±0.02 (=32)",
    "32 +0.1/0 (= 4x8)",
    "4x 8 (=32 mm)",
    "4 SPACES OF 8 = 32",
    "4 PITCHES 8 (32)",
    "4 Teilungen 8 = 32",
    "4 EQ. SP. @ 8 = 32",
]


@pytest.mark.parametrize("text", SPELT)
def test_a_spacing_that_holds_is_no_alarm(text):
    assert said(text) == []
    assert said(text, a=-11, b=-43) == []
    assert said(text, a=-9.5, b=-41.5) == []
    assert said(text, a=-40, b=-8) == []


WRONG = {
    "4 x 8 (= 33)": "4 times 8 is 32, not 33",
    "3 x 8 (= 24)": "measures 32 there, not 24",
    "5 x 8 (= 40)": "measures 32 there, not 40",
    "4 x 9 (= 36)": "measures 32 there, not 36",
    "8 x 4 (= 32)": "make 9 grooves, but 5 were read",
    "2 x 16 (= 32)": "make 3 grooves, but 5 were read",
    "4 x 7.9 (= 32)": "measures 8 for each, not 7.9",
    "4 x 7.99 (= 32)": "measures 8 for each, not 7.99",
    "4x8 = 32.05 +0.1/0": "4 times 8 is 32, not 32.05",
    "4x8 ±0.02 (=32.05)": "4 times 8 is 32, not 32.05",
    "32.05 ±0.1 (=4x8)": "4 times 8 is 32, not 32.05",
    "4x8 (=32.05 mm)": "4 times 8 is 32, not 32.05",
    "32 (4 x 8.01)": "measures 8 for each, not 8.01",
    "4 SPACES OF 8 = 32.05": "4 times 8 is 32, not 32.05",
    "4 PITCHES 8 (32.05)": "4 times 8 is 32, not 32.05",
    "4 Teilungen 8 = 32.05": "4 times 8 is 32, not 32.05",
    "4 EQ. SP. @ 8 = 32.05": "4 times 8 is 32, not 32.05",
    "4x 7.9 (=<>)": "measures 8 for each, not 7.9",
    "<> (= 4 x 7.5)": "4 times 7.5 is 30, not 32",
}


@pytest.mark.parametrize("text", WRONG)
def test_a_spacing_that_does_not_hold_stops_with_the_fact(text):
    (stop,) = said(text)
    assert stop.code == "chain-differs"
    assert WRONG[text] in stop.message


@pytest.mark.parametrize(("measured", "decimals"), [(32.0, -1), (32.0004, -1), (31.9996, -1), (32.004, 2)])
def test_a_measured_sum_is_as_the_dimension_prints_it(measured, decimals):
    for text, stop in (("4x 8 (=<>)", False), ("4x 7.8 (=<>)", True)):
        dimension = replace(along(-8, -40, text), measured=measured, decimals=decimals)
        assert any(f.code == "chain-differs" for f in tied(bar(*FIVE), dimension)[1]) is stop


def test_four_gaps_of_ten_are_forty_and_five_grooves():
    five = bar(*[(-8 - 10 * k, -11 - 10 * k, 34) for k in range(5)])
    four = bar(*[(-8 - 10 * k, -11 - 10 * k, 34) for k in range(4)])
    assert said("4 x 10 (= 40)", five, b=-48) == []
    assert len(said("4 x 10 (= 41)", five, b=-48)) == 1
    assert len(said("4 x 10 (= 40)", four, b=-38)) == 1
    assert said("3 x 10 (= 30)", four, b=-38) == []


def test_a_groove_out_of_step_is_no_row():
    part = bar(*FIVE[:2], (-24.5, -27.5, 34), *FIVE[3:])
    (stop,) = said("4 x 8 (= 32)", part)
    assert "1 of the 5 grooves there are out of step" in stop.message


@pytest.mark.parametrize(("total", "alarm"), [("10", False), ("10.0", False), ("9.99", True), ("9.9", True)])
def test_thirds_may_be_rounded(total, alarm):
    """Three times 3.33 is 9.99; printed to hundredths each gap may be off by 0.005."""
    part = bar(*[(-8 - 10 / 3 * k, -9 - 10 / 3 * k, 34) for k in range(4)])
    assert bool(said(f"3 x 3.33 (= {total})", part, b=-18)) is alarm


@pytest.mark.parametrize(("text", "wrong"), [("3 x 3.33 (= 10.00)", False), ("3 x 3.3 (= 10.0)", True)])
def test_a_pitch_of_one_place_is_not_rounded(text, wrong):
    """Either sum is off by more than half of its own last place: 0.01 by 0.005, and 0.1 by 0.05."""
    assert bool(sum_wrong(chain_of(text))) is wrong


def test_it_may_span_something_else():
    assert said("4 x 10 (= 40)", bar(*FIVE), a=0, b=-40) == []


def bare(text):
    """The stops of a spacing that no dimension carries."""
    note = Text(text, HERE.on_sheet(-30, 40), 2.5)
    return [
        f.code for f in tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(note,)), bar(*FIVE))[1] if f.stops
    ]


@pytest.mark.parametrize(
    ("text", "alarm"),
    [("4 x 8 (= 32)", 0), ("5 x 8 (= 40)", 1), ("4 x 8 (= 33)", 1), ("3 x 8 (= 24)", 0), ("5 x 7 (= 35)", 0)],
)
def test_a_bare_text_is_held_against_the_rows_there_are(text, alarm):
    """Three gaps are part of the row; a pitch that no row has may be of anything."""
    assert bare(text) == ["chain-differs"] * alarm


@pytest.mark.parametrize(
    "text", ["4 x 8", "4x2", "0x 8 (=0)", "0 (=0x 8)", "= 32", "40", "4 x M8 (= 32)", "", None, "4 x 8 32"]
)
def test_other_texts_are_no_spacing(text):
    assert chain_of(text) is None


def in_a_row(*printed, places=(0.0, -10.05, -13.05, -60.05)):
    """The stops of three lengths one behind another and one across them, of a bar as long as they reach."""
    part = replace(bar((-10.05, -13.05, 34)), length=60.05, outline=((0.0, 20.0), (-60.05, 20.0)))
    pairs = [*pairwise(places), (places[0], places[-1])]
    lengths = [along(a, b, text) for (a, b), text in zip(pairs, printed, strict=True)]
    return [f.message for f in tied(part, *lengths)[1] if f.code == "chain-differs"]


@pytest.mark.parametrize(
    ("printed", "total"),
    [
        (("10.05", "3", "47", "60.05"), None),
        (("10.05", "3", "47", "60"), "60.05"),
        (("10", "3", "47", "60.05"), "60"),
        (("10.05 ±0.02", "3 H11", "47 +0.1/0", "(60)"), "60.05"),
        (("10", "3", "47", "60"), None),
        (("10.1", "3", "47", "60"), None),
        (("10.05", "3", None, "60"), None),
        (("10.05", "3", "47.5", "60"), None),  # which is told by itself
    ],
)
def test_lengths_in_a_row_make_what_is_printed_across_them(printed, total):
    """Each fits what is drawn, 10.05 and 3 and 47, as far as it may be rounded."""
    told = in_a_row(*printed)
    assert len(told) == (total is not None)
    assert all(f"make {total} where {printed[-1].strip('()')} is printed" in message for message in told)


@pytest.mark.parametrize(
    ("printed", "wrong"), [(("10.05", "3", "47", "60.07"), False), (("10.05", "3", "47", "60.08"), True)]
)
def test_how_far_a_sum_may_be_rounded(printed, wrong):
    """By half a hundredth for each of the four figures, of which three are read as 3.00 and so on: 0.02."""
    assert bool(in_a_row(*printed, places=(0.0, -10.05, -13.05, -60.075))) is wrong


@pytest.mark.parametrize(("printed", "wrong"), [(".063", False), (".064", True)])
def test_a_length_of_three_places_is_rounded_beside_one_of_four(printed, wrong):
    """Half a thousandth, and half a ten-thousandth for 1.9375 and for 2: the sums are off by 0.0005 and by 0.0015."""
    part = replace(bar((-0.0635, -0.5, 3.5)), length=2.001, outline=((0.0, 2.0), (-2.001, 2.0)), units="in")
    row = along(0, -0.0635, printed), along(-0.0635, -2.001, "1.9375"), along(0, -2.001, "2")
    assert any(f.code == "chain-differs" for f in tied(part, *row)[1]) is wrong


def test_lengths_that_leave_a_gap_or_overlap_are_no_row():
    gap = along(0, -10.05, "10"), along(-13.05, -60.05, "47"), along(0, -60.05, "60.05")
    part = bar((-10.05, -13.05, 34))
    assert not [f for f in tied(part, *gap)[1] if f.code == "chain-differs"]
    assert not in_a_row("10", "50", "3", "60.05", places=(0.0, -10.05, -60.05, -13.05))


@pytest.mark.parametrize(
    ("text", "alarm"),
    [("32 IN 4 EQUAL SPACES", 0), ("32 IN 5 EQUAL SPACES", 1), ("32 IN 3 EQ. SPACES", 1), ("32 = 4 SPACES", 0),
     ("32 mm IN 4 EQ SP", 0), ("33 IN 4 EQUAL SPACES", 1), ("32 IN 5 GLEICHEN TEILUNGEN", 1)],
)  # fmt: skip
def test_a_length_in_so_many_equal_spaces_is_one_too(text, alarm):
    assert [f.code for f in said(text, bar(*FIVE)) if f.code == "chain-differs"] == ["chain-differs"] * alarm


def test_a_length_in_spaces_of_which_only_the_ends_are_drawn_has_no_pitch_to_bear_it_out():
    assert [f.code for f in said("32 IN 4 EQUAL SPACES", bar(FIVE[0], FIVE[4])) if f.stops] == ["chain-differs"]
