"""A size with its tolerance and the same in the other unit in brackets: `.094 +.005/-.000 [2.39 +0.13/0]`.

Ways of writing: common practice, no source. An inch is 25.4 mm.
"""

import pytest
from support.ties import HERE, along, bar, tied

from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.lettering.printed import parse

INCH = bar((-0.5, -0.594, 1.75), (-1.0, -1.094, 1.75), diameter=2.0, length=3.0, units="in")
"""Two grooves .094 wide."""
METRIC = bar((-10, -13, 34), (-30, -33, 34))


def read(part, dimension):
    of, findings = tied(part, dimension)
    return [dict(g.tolerances).get("width") for g in of.grooves], [
        f.code.value for f in findings if f.level.value != "note"
    ]


@pytest.mark.parametrize(
    "words",
    [
        ".094 +.005/-.000 [2.39 +0.13/0]",
        ".094 +.005/-.000 (2.39 +0.13/0)",
        ".094+.005-.000 [2.39+.13-.00]",
        "2X .094 +.005/-.000 [2.39 +0.13/0]",
        ".094 +.005/-.000 [2.39 +0.13/0] 2 PLACES",
        ".099/.094 [2.51/2.39]",
        ".099/.094 (2.51/2.39)",
        ".094-.099 [2.39-2.51] 2 PLACES",
        ".094 +.005/-.000 [2.39]",
    ],
)
@pytest.mark.parametrize("led", [False, True])
def test_the_tolerance_of_both_units_is_that_of_the_first(words, led):
    size = along(-0.5, -0.594, words, r=1.0)
    if led:
        places = HERE.on_sheet(-0.55, 0.875), HERE.on_sheet(0.5, 2.0)
        size = Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words)
    assert read(INCH, size) == ([pytest.approx((0.0, 0.005))] * 2, [])


def test_in_mm_first():
    for words in ("3 ±0.1 [.118 ±.004]", "3 ±0.1 (.118 ±.004)", "3.1/2.9 [.122/.114]"):
        assert read(METRIC, along(-10, -13, words)) == ([pytest.approx((-0.1, 0.1))] * 2, [])


@pytest.mark.parametrize(
    "words", [".094 +.005/-.000 [2.39 +0.5/0]", ".094 [2.39 +0.13/0]", ".094 +.005/-.000 [2.39 +0.15/0]"]
)
def test_other_limits_in_brackets_are_told(words):
    assert "tolerance-unread" in read(INCH, along(-0.5, -0.594, words, r=1.0))[1]


def test_another_size_in_brackets_stops():
    assert read(INCH, along(-0.5, -0.594, ".094 +.005/-.000 [2.93 +0.13/0]", r=1.0))[1] == ["dimension-contradicts"]
    assert read(INCH, along(-0.5, -0.594, ".099/.094 [3.51/3.39]", r=1.0))[1] == ["dimension-contradicts"]


@pytest.mark.parametrize(
    ("words", "second"),
    [("3 H13 (3.14/3)", None), ("3 +0.1 (4)", None), ("5 (.197)", 0.197), ("4x5 (=20)", 20.0), ("3 (4)", None)],
)
def test_limits_and_counts_in_brackets_are_no_second_size(words, second):
    assert (parse(words).bracketed or (None,))[0] == second


@pytest.mark.parametrize("led", [False, True])
@pytest.mark.parametrize(
    ("words", "codes"),
    [
        (".094 [2.39] WIDE x \u00d81.75 [44.45]", []),
        (".094 [2.39] x \u00d81.75 [44.45]", []),
        (".094 [2.36] WIDE x \u00d81.75 [44.45]", ["dimension-contradicts"]),
        (".094 [2.39] WIDE x \u00d81.75 [44.95]", ["dimension-contradicts"]),
        (".094 [2.93] WIDE x \u00d81.75 [44.45]", ["dimension-contradicts"]),
    ],
)
def test_each_of_several_sizes_is_held_against_its_own_brackets(words, codes, led):
    size = along(-0.5, -0.594, words, r=1.0)
    if led:
        places = HERE.on_sheet(-0.55, 0.875), HERE.on_sheet(0.5, 2.0)
        size = Dimension(DimensionKind.LEADER, places, 0.0, 0.0, words)
    assert read(INCH, size)[1] == codes
