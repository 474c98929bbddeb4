"""A table of fits held against ISO 286 and against the tolerances that dimensions print.

ISO 286-2: 34 h11 is 0 to -0.160 and 3 H13 is 0 to +0.140, as in two published tables.
"""

from dataclasses import replace

import pytest
from support.ties import across, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

FLOOR, WIDTH = across(34, "Ø34 h11"), along(-10, -13, "3 H13")
HIGH = 2.5


def told(rows, *dimensions, step=22.0, at=(0.0, -40.0)):
    """Codes and messages of a sheet with a table, whose cells are words or words with how far they stand off a row."""
    cells = [
        (c, k, (cell, 0.0) if isinstance(cell, str) else cell)
        for k, row in enumerate(rows)
        for c, cell in enumerate(row)
    ]
    texts = [Text(words, (at[0] + step * c, at[1] - 6 * k + off), HIGH) for c, k, (words, off) in cells]
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=dimensions or (FLOOR, WIDTH), texts=tuple(texts))
    part, findings = tie_dimensions(sheet, bar((-10, -13, 34), (-20, -24, 30)))
    return [(f.code, f.message) for f in findings if f.level in ("stop", "caution")], dict(part.grooves[0].tolerances)


AGREE = {
    "deviations": [("34 h11", "0", "-0.160"), ("3 H13", "+0.14", "0")],
    "with its sign": [("Ø34 h11", "0", "-0,16"), ("3 H13", "+0,14", "0")],
    "in one cell": [("34 h11", "0 / -0.160"), ("3 H13", "+0.140 / 0")],
    "in one text": [("3 H13 +0.14 0",)],
    "size and class apart": [("Ø34", "h11", "0", "-0.160"), ("3", "H13", "+0.14", "0")],
    "micrometres": [("34 h11", "0", "-160"), ("3 H13", "+140", "0")],
    "limits": [("34 h11", "34.000", "33.840"), ("3 H13", "3.14", "3.00")],
    "both": [("34 h11", "0", "-0.16", "34.00", "33.84")],
    "over one another": [("34 h11", ("0", 2.2), ("-0.16", -2.2))],
    "rounded": [("34 h11", "0", "-0.2"), ("3 H13", "+0.1", "0")],
    "one behind another": [("34 h11", "0", "-0.160", "3 H13", "+0.14", "0")],
    "headed": [("FIT", "MAX", "MIN"), ("34 h11", "0", "-0.160")],
}


@pytest.mark.parametrize("rows", AGREE.values(), ids=AGREE)
def test_one_that_agrees_says_no_more(rows):
    found, kept = told(rows)
    assert found == []
    assert kept == {"floor_diameter": (-0.16, 0.0), "width": (0.0, 0.14)}


DIFFER = {
    "limit far off": [("34 h11", "34.0", "17.1")],
    "deviations": [("34 h11", "0", "-0.155")],
    "nought is off": [("34 h11", "-0.01", "-0.16")],
    "in one cell": [("34 h11", "0 / -0.150")],
    "before another": [("34 h11", "0", "-0.150", "3 H13", "+0.14", "0")],
    "size and class apart": [("Ø34", "h11", "0", "-0.150")],
    "micrometres": [("34 h11", "0", "-159")],
    "limits": [("34 h11", "34.000", "33.850")],
    "over one another": [("34 h11", ("0", 2.2), ("-0.15", -2.2))],
    "second row": [("3 H13", "+0.14", "0"), ("34 h11", "0", "-0.150")],
    "just past rounding": [("34 h11", "0", "-0.1")],
}


@pytest.mark.parametrize("rows", DIFFER.values(), ids=DIFFER)
def test_one_that_gives_a_class_other_deviations_is_a_stop(rows):
    ((code, message),) = told(rows)[0]
    assert code == "dimension-contradicts"
    assert message.startswith("A table gives 34 h11 as ")
    assert message.endswith(" and its class h11 is -0.16 to +0: ask which is meant.")


@pytest.mark.parametrize(
    ("row", "printed", "odd"),
    [
        (("34 h11", "0", "-0.160"), across(34, "Ø34 0/-0.1"), "the floor diameter of groove 1 has -0.1 to +0"),
        (("3 H13", "+0.14", "0"), along(-10, -13, "3 +0.1/0"), "the width of groove 1 has +0 to +0.1"),
        (("34 t11", "0", "-0.160"), across(34, "Ø34 0/-0.1"), "the floor diameter of groove 1 has -0.1 to +0"),
    ],
)
def test_one_that_no_dimension_calls_up_is_held_against_what_grooves_of_its_size_have(row, printed, odd):
    ((code, message),) = told([row], printed)[0]
    assert (code, odd in message) == ("dimension-contradicts", True)


@pytest.mark.parametrize(
    ("row", "printed"),
    [
        (("34 H11", "+0.16", "0"), across(34, "Ø34 0/-0.1")),  # a hole's class is of no floor outside
        (("34 h11", "0", "-0.16"), across(34, "Ø34")),
        (("34 h11", "10", "25"), across(34, "Ø34 h11")),  # sizes in line with one
        (("34 h11", "17.0", "34.0"), across(34, "Ø34 h11")),
        (("50 h11", "0", "-0.16"), across(34, "Ø34 0/-0.1")),
        (("h11", "0", "-0.150", "34"), across(34, "Ø34")),  # nothing stands before the class
        (("34 REF h11", "0", "-0.150"), across(34, "Ø34")),
    ],
)
def test_one_that_is_about_nothing_here_is_left_to_the_notes(row, printed):
    assert {code for code, _ in told([row], printed)[0]} <= {"tolerance-unread", "dimension-unclear"}


@pytest.mark.parametrize(("gap", "codes"), [(29.9, ["dimension-contradicts"]), (30.1, [])])
def test_cells_of_one_row_stand_near_one_another(gap, codes):
    """`34 h11` is 6 letters of 1.75, and twelve letter heights are 30."""
    assert [code for code, _ in told([("34 h11", "0 / -0.1")], step=6 * 1.75 + gap)[0]] == codes


@pytest.mark.parametrize(("off", "codes"), [(2.24, ["dimension-contradicts"]), (2.26, [])])
def test_cells_of_one_row_stand_level(off, codes):
    assert [code for code, _ in told([("34 h11", ("0", off), ("-0.15", -off))])[0]] == codes


def test_a_row_whose_class_is_called_up_is_not_about_other_sizes_alike():
    texts = [Text(words, (22.0 * k, -40.0), HIGH) for k, words in enumerate(("34 h11", "0", "-0.160"))]
    sheet = Sheet(
        "x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(FLOOR, across(34, "Ø34 0/-0.1", z=-23)), texts=tuple(texts)
    )
    assert [f for f in tie_dimensions(sheet, bar((-10, -13, 34), (-20, -24, 34)))[1] if f.stops] == []


@pytest.mark.parametrize(("low", "codes"), [("-.0063", []), ("-.0062", ["dimension-contradicts"])])
def test_a_class_of_an_inch_drawing_is_held_in_inches(low, codes):
    """0.160 mm is .0063 in."""
    texts = [Text(words, (0.5 * k, -2.0), 0.1) for k, words in enumerate(("1.34 h11", "0", low))]
    part = bar((-0.4, -0.52, 1.34), diameter=1.5, length=2.4, units="in")
    floor = across(1.34, "Ø1.34 h11", z=-0.52)
    findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(floor,), texts=tuple(texts)), part)[1]
    assert [f.code for f in findings if f.stops] == codes


def test_a_row_that_is_wrong_twice_is_told_once():
    ((code, message),) = told([("3 H13", "+0.2", "0")], along(-10, -13, "3 +0.1/0"))[0]
    assert (code, "its class H13 is +0 to +0.14" in message) == ("dimension-contradicts", True)


def test_the_text_of_a_dimension_is_no_cell():
    place = (0.0, -40.0)
    own = replace(along(-30, -34, "34 h11"), at=place)
    found, _ = told([("34 h11", "0", "-0.150")], own, FLOOR)
    assert not any("A table gives" in words for _, words in found)


def test_sizes_with_their_classes_in_a_line_are_no_limits_of_one_another():
    assert told([("34 h11", "20 h11", "3 H13")])[0] == []
    assert told([("3 H13", "4 H13")])[0] == []


NOTES = [
    "NOTES:\n1. DEBURR\n2. GROOVES 3 H13\n3. HARDEN 58 HRC",
    "HINWEISE:\n1. Entgraten\n2. Einstiche 3 H13\n3. Härten 58+2 HRC",
    "1. NUTEN 3 H13\n2. Rz 16\n3. ISO 2768-mK",
    "1. GORGES 3 H13\n2. TREMPE 58 HRC\n3. CHANFREINS 0.5",
    "GOLE 3 H13\n1 SMUSSO 0.5\n2 TEMPRA 58 HRC",
    "FLOORS Ø34 h11, GROUND TO Ra 0.8 WITHIN 3.2",
    "GROOVES 3 H13 DEEP 3 AT 10",
    "GROOVES 3 H13 2.5 4.6 HRC",
]


@pytest.mark.parametrize("words", NOTES)
def test_notes_with_a_class_and_other_figures_are_no_table(words):
    found, _ = told([(words,)])
    assert not any("A table gives" in message for _, message in found)


@pytest.mark.parametrize("off", ["34 h11 0 -0.155", "34 h11 ES 0 EI -0.155", "34 h11: max 34.0, min 33.845"])
def test_the_lines_of_a_paragraph_are_rows(off):
    """The one that is wrong is told, and only that."""
    ((code, message),) = told([(f"FITS\n3 H13 +0.14 0\n{off}",)])[0]
    assert (code, "34 h11 as" in message) == ("dimension-contradicts", True)
    assert told([("FITS\n3 H13 +0.14 0\n34 h11 0 -0.16",)])[0] == []


def test_a_size_over_its_deviations_is_one_cell():
    assert told([("34 h11\n0\n-0.16",)])[0] == []
    ((code, _),) = told([("34 h11\n0\n-0.15",)])[0]
    assert code == "dimension-contradicts"


@pytest.mark.parametrize(
    ("limits", "codes"),
    [
        (("34.0", "50.9"), ["dimension-contradicts"]),
        (("34.0", "51.1"), []),
        (("17.1", "34.0"), ["dimension-contradicts"]),
    ],
)
def test_how_far_off_a_limit_may_be(limits, codes):
    """Half of 34 above and below it: 51 and 17."""
    assert [code for code, words in told([("34 h11", *limits)])[0] if "A table" in words] == codes
