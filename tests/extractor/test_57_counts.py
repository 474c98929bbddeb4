"""Counts beside sizes that are typical, at four like grooves 8 apart: `3x Ø37 TYP`.

Ways of writing: common practice, no source.
"""

import numpy as np
import pytest
from support.ties import HERE, across, along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Pen, Segments, Sheet, Source, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.groove_notes import groove_note

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


WAYS = [
    "{n}x Ø37 TYP",
    "Ø37 (TYP {n})",
    "{n} PLACES Ø37 TYP",
    "Ø37 TYP {n} PLACES",
    "Ø37 TYP. {n}x",
    "{n}x Ø37 h11 TYP",
    "TYP {n}x Ø37",
]


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


SIZED = [
    "3 +0.1/0 TYP ({n}) PLCS", "3 +0.1/0 ({n}) PLCS", "({n}) 3 +0.1/0", "3 +0.1/0 {n} PLACES", "3-3.1 {n} PLACES",
    "3/3.1 ({n}) PLCS", "({n}) 3-3.1", "3.1^3 {n}x", "({n}) PLACES 3 +0.1/0", "3 +0.1/0 AT {n} PLACES",
    "3 +0.1/0 {n}-PLCS", "3 +0.1/0 x{n}", "3.1 MAX/3 MIN {n} OFF",
]  # fmt: skip


@pytest.mark.parametrize("words", SIZED)
def test_a_count_in_any_place_and_form_goes_with_the_tolerance(words):
    """The limits are 3 and 3.1 in all; nothing is said where the count is right."""
    part, findings = tied(THREE, along(-6, -9, words.format(n=4)))
    assert [dict(g.tolerances) for g in part.grooves] == [{"width": (0.0, pytest.approx(0.1))}] * 4
    assert [f for f in findings if f.level.value != "note"] == []
    assert counted(THREE, along(-6, -9, words.format(n=5))) != []


@pytest.mark.parametrize("words", ["({n}) 3", "3 ({n}) PLCS", "3 {n} OFF", "3 ({n} PLACES)", "{n} PLCS 3"])
def test_and_of_a_bare_size(words):
    assert counted(THREE, along(-6, -9, words.format(n=4))) == []
    assert counted(THREE, along(-6, -9, words.format(n=5))) != []


@pytest.mark.parametrize("words", ["(3) 5", "5 - 12 4 PLACES", "(3) 2x45°", "3 DEEP x4"])
def test_what_is_no_count_of_the_size_gives_it_no_limits(words):
    assert all(not g.tolerances for g in tied(THREE, along(-6, -9, words))[0].grooves)


TWO = bar((-5, -6.3, 37), (-35, -36.3, 37))


@pytest.mark.parametrize(
    ("words", "kept"),
    [("2-1.3 +0.14/0", True), ("2-1.3", True), ("3-1.3", True), ("2-1.4", False), ("2 - 1.3", True)],
)
def test_a_count_may_stand_before_a_dash(words, kept):
    """`2-1.3` counts two grooves 1.3 wide, as `4-M6` counts threads."""
    part, findings = tied(TWO, along(-5, -6.3, words))
    assert (not any(f.code == "dimension-contradicts" for f in findings)) is kept
    assert [g.tolerances.get("width") for g in part.grooves] == ([(0.0, 0.14)] * 2 if "+" in words else [None] * 2)
    assert (counted(TWO, along(-5, -6.3, words)) != []) is (words == "3-1.3")


@pytest.mark.parametrize("words", ["2-4", "2-2.9"])
def test_a_figure_before_a_dash_that_is_drawn_is_no_count(words):
    """Along a groove 2 wide."""
    part, findings = tied(bar((-5, -7, 37), (-35, -37, 37)), along(-5, -7, words))
    assert counted(part, along(-5, -7, words)) == []
    assert [f.code for f in findings] == ["dimension-unclear"]


def test_a_typical_spacing_with_a_wrong_count_is_that_of_like_grooves_alone():
    """Behind three grooves 3 wide and 8 apart stands one 5 wide at the same pitch; five fit neither row."""
    part, findings = tied(
        bar((-6, -9, 37), (-14, -17, 37), (-22, -25, 37), (-30, -35, 37)), along(-6, -14, "5x 8 ±0.1 TYP")
    )
    assert [(one.start.groove, one.end.groove) for one in part.distances] == [(1, 2), (2, 3)]
    assert "count-differs" in [f.code for f in findings]


OF_THREE = bar((-10, -14, 34), (-20, -24, 34), (-30, -34, 34))


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize(
    ("words", "tips", "codes"),
    [
        ("2x 4 x Ø34", (-12, -22), []),
        ("2x 4 x Ø34", (-12, -32), []),
        ("3x 4 x Ø34", (-12, -22), []),  # like ones are meant too
        ("2x 4 x Ø34", (-12,), ["count-differs"]),
        ("4x 4 x Ø34", (-12, -22), ["count-differs"] * 2),
        ("2x 4 x Ø33", (-12, -22), ["note-contradicts"] * 2),
        ("2 x 5 x 3", (-12, -22), ["note-contradicts"] * 2),
    ],
)
def test_a_count_may_be_that_of_the_leaders_of_its_text(words, tips, codes, side):
    """Of three alike two are meant, where two lines lead from one text."""
    ends = [(*HERE.on_sheet(5.0, side * 32.0), *HERE.on_sheet(tip, side * 17.0)) for tip in tips]
    rows = np.array([(*HERE.on_sheet(8.0, side * 32.0), *HERE.on_sheet(5.0, side * 32.0)), *ends])
    source = np.zeros(len(rows), dtype=np.int64)
    segments = Segments(rows, np.zeros(len(rows)), source, (Source("1", "LINE", "0", Pen.SOLID),))
    text = Text(words, HERE.on_sheet(8.5, side * 32.0 - 1.0), 2.5)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, segments, texts=(text,)), OF_THREE)[1]
    assert [f.code for f in found if f.level != "note"] == codes


BOTH_SIDES = bar((-6, -9, 36), (-20, -23, 36), (-30, -33, 24, {"where": "inside", "mouth_diameter": 20}), bore=20)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("3 GROOVES", False), ("2 GROOVES", False), ("4 GROOVES", True), ("5 GROOVES", True), ("3 NUTEN", False),
        ("3 GROOVES 3 WIDE", False), ("4 GROOVES 3 WIDE", True), ("3 GROOVES 3 WIDE x 2 DEEP", False),
        ("3x 3 WIDE", False),
    ],
)  # fmt: skip
def test_a_free_note_may_count_the_grooves_of_all_sides(words, told):
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(words, HERE.on_sheet(60.0, -70.0), 2.5),))
    found = [f.code for f in tie_dimensions(sheet, BOTH_SIDES)[1] if f.level == "stop"]
    assert bool(found) is told


@pytest.mark.parametrize(("figure", "count"), [("5", 5), ("99", 99), ("100", None), ("800", None)])
def test_a_figure_behind_n_is_a_count_up_to_two_places_and_a_speed_beyond(figure, count):
    note = groove_note(f"GROOVE 3 x 3 N={figure}")
    assert (note.meanings[0].count if note else None) == count
