"""Tolerances that a line leads to a groove: each is read or told, and no general one stands for what was not read.

Ways of writing: common practice, no source. General tolerances: ISO 2768-1 table 1, class m: 3 within 0.1, 32 within
0.3.
"""

import pytest
from support.ties import HERE, across, along, bar
from support.weighing import NO_SEGMENTS

from extractor.grammar import normalised
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

PART = bar((-15, -18, 32), (-30, -33, 32), (-45, -49, 30))
"""Two grooves 3 wide and 4 deep, and one 4 wide."""
GENERAL = {"width": (-0.1, 0.1), "floor_diameter": (-0.3, 0.3)}


def led(words, tip=(-16.5, 16.0)):
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)


def read(*dimensions):
    """The widths and floors of the two like grooves, and whether a tolerance was told as unread."""
    texts = (Text("ISO 2768-m", HERE.on_sheet(-80.0, -80.0), 2.5),)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=dimensions)
    part, findings = tie_dimensions(sheet, PART)
    kept = [{k: v for k, v in g.tolerances.items() if k in GENERAL} for g in part.grooves[:2]]
    return kept, any(f.code in ("tolerance-unread", "dimension-unclear") for f in findings)


@pytest.mark.parametrize(
    "words", ["3 TOL. ±0.05", "3 tol +0.1/-0", "3 ±0.05 *", "3 P9", "3 +0.1 ONLY", "3 ±0.1 THICK", "W3-0,1 LG"]
)
def test_an_unread_width_gets_no_general_tolerance_at_any_like_groove(words):
    assert read(led(words)) == ([{"floor_diameter": (-0.3, 0.3)}] * 2, True)


@pytest.mark.parametrize("words", ["Ø32 (32.0-31.9)", "d=32-0,1", "o32 0/-0.1", "Ø32.00 ±0.05 THRU", "Ø32 (32/31.9)"])
def test_nor_does_an_unread_floor(words):
    assert read(led(words)) == ([{"width": (-0.1, 0.1)}] * 2, True)


@pytest.mark.parametrize(
    ("words", "width", "floor"),
    [
        ("3 ±0.05 (E)", (-0.05, 0.05), None),
        ("3 H13 Ⓔ", (0.0, 0.14), None),
        ("3(+0.1,0)", (0.0, 0.1), None),
        ("3 PLUS 0.1 MINUS 0", (0.0, 0.1), None),
        ("3 ±50um", (-0.05, 0.05), None),
        ("3 +100/0 um", (0.0, 0.1), None),
        ("3+0,1 x Ø32-0,1", (0.0, 0.1), (-0.1, 0.0)),
        ("3 x Ø32-0,1", None, (-0.1, 0.0)),
        ("3±0.1xØ32-0.2", (-0.1, 0.1), (-0.2, 0.0)),
        ("3+0.1x4", (0.0, 0.1), None),
        ("Ø32 h11", None, (-0.16, 0.0)),
        ("3 WIDE PLUS 0.1 MINUS 0", (0.0, 0.1), None),
        ("3 breit plus 0,1", (0.0, 0.1), None),
        ("3 WIDE MINUS 0.1, Ø32", (-0.1, 0.0), None),
        ("GROOVE W=3 +0.1/0 D=Ø32", (0.0, 0.1), None),
        ("W=3 +0.1/0, D = Ø32 0/-0.1", (0.0, 0.1), (-0.1, 0.0)),
        ("b=3 H13 d=Ø32", (0.0, 0.14), None),
    ],
)
def test_what_is_read_is_told_by_nobody(words, width, floor):
    wanted = {"width": width or GENERAL["width"], "floor_diameter": floor or GENERAL["floor_diameter"]}
    assert read(led(words)) == ([wanted] * 2, False)


@pytest.mark.parametrize(
    "words", ["Ø3 ±0.1 THRU", "Ø5 H7 THRU 3", "Ra 0.8", "0.02 A-B", "1x45° ±0.1", "2.2 ±0.1 PIN", "3.2 N8", "M3 x 0.5"]
)
def test_the_tolerance_of_another_thing_asks_nothing(words):
    assert read(led(words)) == ([GENERAL] * 2, False)


def test_a_line_beside_the_groove_asks_nothing():
    assert read(led("3 P9", tip=(-25.0, 20.0))) == ([GENERAL] * 2, False)


@pytest.mark.parametrize("words", ["3 MIN", "3 +3/0"])
def test_like_grooves_of_a_dimension_that_was_not_read(words):
    kept, told = read(along(-15, -18, words))
    assert (kept, told) == ([{"floor_diameter": (-0.3, 0.3)}] * 2, True)


def test_a_like_groove_with_a_size_of_its_own_has_its_tolerance():
    kept, _ = read(along(-15, -18, "3 MIN"), along(-30, -33, "3"), across(32, "Ø32", z=-16.0))
    assert [one.get("width") for one in kept] == [None, (-0.1, 0.1)]


def test_a_comma_between_two_decimal_numbers_parts_them():
    assert [normalised(one) for one in ("3(+0,1,0)", "0,1,-0,2", "12,5", "1,5 x 2,5")] == [
        "3(+0.1, 0)",
        "0.1, -0.2",
        "12.5",
        "1.5 x 2.5",
    ]


@pytest.mark.parametrize(
    ("words", "given"),
    [
        ("3 x Ø32 BOTH ±0.05", ["width", "floor_diameter"]), ("3 WIDE, Ø32, TOL ±0.05", ["width", "floor_diameter"]),
        ("3 x Ø32 (±0.05 BOTH)", ["width", "floor_diameter"]), ("3 x 4 (±0.05 BOTH)", ["width", "depth"]),
        ("3 x Ø32 beide ±0,05", ["width", "floor_diameter"]), ("3 x Ø32 ±0.05", ["floor_diameter"]),
        ("3 x Ø32 ±0.05 BOTH SIDES", ["floor_diameter"]), ("3 WIDE x 4 DEEP ±0.05", ["depth"]),
    ],
)  # fmt: skip
def test_one_tolerance_for_both_sizes_is_that_of_each(words, given):
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(led(words),))
    part, findings = tie_dimensions(sheet, PART)
    assert part.grooves[0].tolerances == dict.fromkeys(given, (-0.05, 0.05))
    assert not [f for f in findings if f.stops]


def test_of_two_tolerances_each_stays_with_its_size():
    part, _ = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(led("3 ±0.1 x Ø32 ±0.05 BOTH"),)), PART)
    assert part.grooves[0].tolerances == {"width": (-0.1, 0.1), "floor_diameter": (-0.05, 0.05)}


@pytest.mark.parametrize("words", ["3 WIDE PLUS 0.5 CHAMFER", "3 WIDE PLUS 1 DEEP", "GROOVE W=4 +0.1/0 D=Ø32"])
def test_what_else_stands_behind_plus_is_no_tolerance_and_a_false_width_is_told(words):
    kept, _ = read(led(words))
    assert [one.get("width") for one in kept] != [(0.0, 0.1)] * 2
    texts = (Text("ISO 2768-m", HERE.on_sheet(-80.0, -80.0), 2.5),)
    _, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=(led(words),)), PART)
    assert {f.code for f in findings} & {"note-unread", "note-contradicts", "tolerance-unread"}


BOTH = {"width": (0.0, 0.1), "depth": (0.0, 0.1)}


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("2x 3 x 4 (+0.1 BOTH)", []),
        ("2 OFF 3 x 4 (+0.1 BOTH)", []),
        ("3 x 4 (+0.1 BOTH)", []),
        ("3x 3 x 4 (+0.1 BOTH)", ["count-differs"]),
    ],
)
def test_a_tolerance_for_both_sizes_is_none_of_their_count(words, codes):
    part, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(led(words),)), PART)
    told = [f.code for f in findings if f.level != "note"]
    assert (told, [dict(g.tolerances) for g in part.grooves[:2]]) == (codes, [{} if codes else BOTH] * 2)


@pytest.mark.parametrize(
    "words", ["3 MIN", "MIN. 3", "max 3", "≥3", "3 mm min.", "GROOVE MIN 3 WIDE", "3 WIDE x 4 MAX"]
)
def test_a_size_that_is_but_a_limit_is_told_wherever_it_is_written(words):
    for dimension in (led(words), *([] if "WIDE" in words else [along(-15, -18, words)])):
        sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(dimension,))
        part, findings = tie_dimensions(sheet, PART)
        assert {f.code for f in findings if f.level == "caution"} & {"tolerance-unread", "note-unread"}
        assert not any(g.tolerances for g in part.grooves)


@pytest.mark.parametrize("words", ["GROOVE 3 WIDE, R0.2 MAX", "MAX R0.2", "Ra 1.6"])
def test_what_else_is_at_most_so_large_asks_nothing_of_the_sizes(words):
    _, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(led(words),)), PART)
    assert not {f.code for f in findings} & {"tolerance-unread", "note-unread"}
