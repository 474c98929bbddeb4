"""No tolerance of a groove's size is lost in silence, however it is printed and whatever stands round it.

The oracle knows what was printed: either the groove has just these deviations, or a finding tells of the text.
"""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.ties import HERE, across, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.remaining.lost_limits import limited

PART = bar((-10, -13, 34), (-30, -35, 28))
CLASS = Text("GENERAL TOLERANCES ISO 2768-m", (0.0, -500.0), 2.5)
PRINTED = {
    "±0.05": (-0.05, 0.05), "± .05": (-0.05, 0.05), "+0.2/0": (0.0, 0.2), "+0.2 0": (0.0, 0.2),
    "-0.05/-0.15": (-0.15, -0.05), "+0.2^-0.1": (-0.1, 0.2), "+0,1": (0.0, 0.1), "+/-0.05": (-0.05, 0.05),
    "(+0.1/-0.1)": (-0.1, 0.1), "[±0.05]": (-0.05, 0.05), "mm +0.1/0": (0.0, 0.1),
}  # fmt: skip
WORDS = st.text("ABDEFGHIKLNOPSTUVWYaeiou .,:;()[]#*~?/", max_size=8)
SIZES = ((1, "width", "3"), (1, "floor_diameter", "Ø34"), (2, "width", "5"), (2, "floor_diameter", "Ø28"))


def free(words):
    """A text over the part that nothing leads from."""
    return Text(words, HERE.on_sheet(-20.0, 30.0), 2.5)


def tied(*dimensions, texts=()):
    """The part with its tolerances, and the findings; the first of the texts may be general tolerances."""
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=dimensions, texts=tuple(texts))
    return tie_dimensions(sheet, PART)


def dimension(number, field, words):
    """The dimension that measures a size of one of both grooves."""
    near, far, floor = {1: (-10, -13, 34), 2: (-30, -35, 28)}[number]
    return along(near, far, words) if field == "width" else across(floor, words, z=(near + far) / 2)


def held(part, number, field, pair):
    """Whether a size has deviations as they were printed, in this order."""
    own = part.grooves[number - 1].tolerances.get(field)
    return own is not None and own == pytest.approx(pair, abs=1e-9)


def told(findings, text):
    """Whether a finding tells of a text that counts: a stop or a caution."""
    line = " ".join(re.sub(r"(?<=\d),(?=\d)", ".", text).replace("+/-", "±").split())
    return [f for f in findings if f.level != "note" and (f'"{text}"' in f.message or line in f.message)]


@settings(deadline=None, max_examples=100)
@given(st.sampled_from(SIZES), st.sampled_from(sorted(PRINTED)), WORDS, WORDS, st.booleans())
def test_a_dimension_s_tolerance_is_kept_or_told(size, printed, before, behind, classed):
    number, field, figure = size
    text = f"{before} {figure} {printed} {behind}".strip()
    part, findings = tied(dimension(number, field, text), texts=[CLASS] if classed else ())
    assert held(part, number, field, PRINTED[printed]) or told(findings, text), (text, part.grooves[number - 1])


@settings(deadline=None, max_examples=100)
@given(st.sampled_from(SIZES), st.sampled_from(sorted(PRINTED)), WORDS, WORDS)
def test_a_tolerance_that_stands_free_is_kept_or_told(size, printed, before, behind):
    number, field, figure = size
    text = free(f"{before} {figure} {printed} {behind}".strip())
    part, findings = tied(texts=[text])
    assert held(part, number, field, PRINTED[printed]) or told(findings, text.text), text


LOST = "prints a tolerance that was given to no size"


def test_one_that_nothing_measures_is_told_and_gets_no_general_tolerance():
    text = free("V 3 +0.2/0")
    part, findings = tied(texts=[CLASS, text])
    (finding,) = [f for f in findings if f.code == "tolerance-unread"]
    assert finding.message == (
        f'"V 3 +0.2/0" {LOST}; it may be for the width of groove 1, 3: see which size it is for.'
    )
    assert finding.at == text.at
    assert "width" not in part.grooves[0].tolerances
    assert "width" in part.grooves[1].tolerances


@pytest.mark.parametrize(
    ("words", "lost"),
    [
        ("3 +0.2/0", True), ("3 H13", True), ("3.02/3.00", True), ("3", False), ("7 +0.2/0", False),
        ("Ø3 +0.1", False), ("M3 +0.2", False), ("3 - 2", False), ("3 +0.75", True), ("3 +0.76", False),
        ("3.1-2.9", True), ("3.3-3.0", True), ("3.31-3.0", False), ("3-2", False), ("3.31/3.0", False),
        ("3.3/3.0", True), ("6.1^3.0", False), ("3.4^2.9", True), ("5.7^2.9", True),
        ("3 P9", True), ("6 H11", False), ("6 +0.1", True),
        ("R3 +0.1", False), ("5-1", False), ("5-0.7", True), ("5-0.8", False), ("5 -0.8/0", True),
        ("5 -1.2/-0.9", True), ("5 +0.8", True),
    ],
)  # fmt: skip
def test_only_a_size_of_a_groove_with_a_tolerance_is_lost(words, lost):
    _, findings = tied(texts=[free(f"V {words} X")])
    assert any(LOST in f.message for f in findings) is lost


@pytest.mark.parametrize("words", ["3 +0.2/0", "3 +0.2 0", "3 +.2/-.0"])
def test_a_text_whose_tolerance_a_groove_of_that_size_has_is_not_lost(words):
    part, findings = tied(along(-10, -13, "3 +0.2/0"), texts=[free(f"V {words} X")])
    assert part.grooves[0].tolerances["width"] == (0.0, 0.2)
    assert not any(LOST in f.message for f in findings)


@pytest.mark.parametrize(
    ("words", "lost"), [("3 +0.1/0", True), ("3 +0.20/0", False), ("3 +0.21/0", True), ("V 3 +0.2/-0.1", True)]
)
def test_another_tolerance_than_a_groove_of_that_size_has_is_lost(words, lost):
    # 0.204 may be printed as 0.20, and as no other figure of two decimals.
    _, findings = tied(along(-10, -13, "3 +0.204/0"), texts=[free(f"V {words} X")])
    assert any(LOST in f.message for f in findings) is lost


@pytest.mark.parametrize("words", ["Ø40 h9", "40 -0.1/-0.2", "60 ±0.1"])
def test_a_tolerance_of_what_is_no_groove_says_nothing(words):
    _, findings = tied(across(40, words, z=-20.0) if "60" not in words else along(0, -60, words))
    assert not any(LOST in f.message for f in findings)


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("3 +0.1/0", [(3.0, (0.0, 0.1))]),
        ("3 (±0.1)", [(3.0, (-0.1, 0.1))]),
        (".094 +.005/-.000 [2.39 +0.13/0]", [(0.094, (0.0, 0.005)), (2.39, (0.0, 0.13))]),
        ("2 x 3 -0.1", [(3.0, (-0.1, 0.0))]),
        ("Ø34 h11", [(34.0, None)]),
        ("3.1/2.9", [(3.1, None)]),
        ("12 x 45°", []),
        ("2x3 -0.1", [(3.0, (-0.1, 0.0))]),
        ("K.H 5 mm +0.1/0", [(5.0, (0.0, 0.1))]),
        ("34 H11 +0.2", [(34.0, None)]),
        ("M12 x 1.5", []),
    ],
)
def test_figures_with_a_tolerance(line, found):
    assert [(one.figure.value, one.deviations) for one in limited(line)] == found


@pytest.mark.parametrize(
    ("words", "lost"), [("3 +0.3/0", True), ("3 +0.1/0", False), ("3 0/-0.1", True), ("3 ±0.05", True)]
)
def test_a_depth_is_held_by_the_floor_only_with_the_same_limits(words, lost):
    """A groove 3 wide and 3 deep: a depth of +0.1 is a floor of -0.2."""
    sizes = along(-10, -13, "3 +0.2/0"), across(34, "Ø34 0/-0.2", z=-11.5)
    _, findings = tied(*sizes, texts=[free(f"V {words} X")])
    assert any(LOST in f.message for f in findings) is lost


@pytest.mark.parametrize(("words", "lost"), [(".118 +.008/0", False), (".118 +.012/0", True)])
def test_a_tolerance_in_the_other_unit_is_held_as_it_is_rounded(words, lost):
    """0.118 in is 3 mm, and 0.008 in is 0.2032 mm: 0.2, as the half of its last figure is 0.0127."""
    _, findings = tied(along(-10, -13, "3 +0.2/0"), texts=[free(f"V {words} X")])
    assert any(LOST in f.message for f in findings) is lost


@pytest.mark.parametrize(
    ("words", "lost"),
    [
        ("FITS SHAFT 34 H7", False), ("HOUSING BORE Ø34 H7", False), ("MATES WITH 34 H7", False),
        ("SEAL SEAT 34 H7", True), ("34 H7 FIT", True), ("FITS SHAFT 34 +0.1/0", True),
        ("FOR SEAL 34 H7", True), ("FOR BEARING 34 H7", False),
    ],
)  # fmt: skip
def test_the_class_of_what_is_fitted_there_is_not_that_of_a_groove(words, lost):
    assert any(LOST in f.message for f in tied(texts=[free(words)])[1]) is lost
