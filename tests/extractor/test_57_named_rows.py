"""Lists that give sizes of grooves by name in rows of cells, as those for inspection do.

The part has two grooves 3 and 4 wide, 3 deep and 34 across. Such lists: common practice, no source.
"""

import pytest
from support.ties import across, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

PART = bar((-10, -13, 34), (-20, -24, 34))
HIGH = 2.5
HEADS = ("NO", "CHARACTERISTIC", "NOMINAL", "TOL")


def told(*cells, step=24.0, heads=HEADS, dimensions=(), part=PART):
    """Codes and grooves' tolerances of a list with a row of such cells."""
    rows = [heads, *([(str(k), *row) for k, row in enumerate(cells, 1)])]
    texts = tuple(
        Text(words, (150.0 + step * c, -60.0 - 7.0 * k), HIGH)
        for k, row in enumerate(rows)
        for c, words in enumerate(row)
    )
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=dimensions)
    part, findings = tie_dimensions(sheet, part)
    return [f.code.value for f in findings], [dict(g.tolerances) for g in part.grooves]


@pytest.mark.parametrize(
    ("name", "true", "false", "code"),
    [
        ("GROOVE WIDTH", "3", "3.5", "note-contradicts"),
        ("WIDTH OF GROOVE", "4", "5", "note-contradicts"),
        ("GROOVE DEPTH", "3", "2", "note-contradicts"),
        ("GROOVE DIA", "34", "33", "dimension-unclear"),
        ("FLOOR DIA", "34", "33", "dimension-unclear"),
        ("Nutbreite", "3,0", "3,5", "note-unread"),
        ("PROFONDEUR DE GORGE", "3", "2", "note-contradicts"),
        ("LARGHEZZA GOLA", "3", "3,5", "note-contradicts"),
        ("Groefbreedte", "3", "3,5", "note-unread"),
        ("GROOVE DIAMETER", "34", "35", "dimension-unclear"),
    ],
)
def test_a_size_that_no_groove_has_is_told(name, true, false, code):
    assert told((name, true))[0] == []
    assert code in told((name, false))[0]


@pytest.mark.parametrize("name", ["GROOVE WIDTH", "Nutbreite"])
def test_its_tolerance_is_that_of_all_grooves_or_told(name):
    alike = bar((-10, -13, 34), (-20, -23, 34))
    assert told((name, "3", "H11"), part=alike) == ([], [{"width": (0.0, 0.06)}] * 2)
    assert told((name, "3", "H11")) == (["tolerance-unread"], [{}, {}])


def test_one_that_a_dimension_prints_too_must_agree():
    width, alike = along(-10, -13, "3 +0.1/0"), bar((-10, -13, 34), (-20, -23, 34))
    assert told(("GROOVE WIDTH", "3", "+0.1"), dimensions=(width,), part=alike)[0] == []
    assert "dimension-contradicts" in told(("GROOVE WIDTH", "3", "+0.2"), dimensions=(width,), part=alike)[0]


@pytest.mark.parametrize(
    "row",
    [
        ("WIDTH", "3.5"), ("GROOVE SHAFT", "33"), ("GROOVE", "2"), ("GROOVE WIDTH", "see drawing"),
        ("GROOVE WIDTH", "B3"), ("NUT", "M8"), ("PITCH DIA", "33"), ("GROOVE WIDTH GAUGE", "3.5"), ("GROOVE WIDTH",),
        ("KEYWAY WIDTH", "5"), ("DIAMETER", "33"),
    ],
)  # fmt: skip
def test_rows_about_other_things_say_nothing(row):
    assert told(row)[0] == []


@pytest.mark.parametrize(("step", "there"), [(46.0, True), (53.0, False)])
def test_the_next_cell_is_near(step, there):
    """The name of 12 letters is 21 long, and cells stand within 12 heights."""
    assert bool(told(("GROOVE WIDTH", "3.5"), step=step)[0]) is there


@pytest.mark.parametrize(
    ("row", "asked"),
    [
        (("42 h6", "0 / -0.016"), True), (("40 h6", "0 / -0.016"), False), (("34 h11", "0 / -0.16"), False),
        (("3 H11", "+0.06 / 0"), False), (("6 H7", "+0.012 / 0"), True), (("5 H11", "+0.075 / 0"), True),
    ],
)  # fmt: skip
def test_a_fit_of_a_size_that_is_nowhere_on_the_sheet_is_asked_about(row, asked):
    """ISO 286-2, as two published tables have it; a hole of 6 is asked about unless it is printed where it is drawn."""
    assert told(row)[0] == ["dimension-unclear"] * asked
    hole = across(34, f"\u00d8{row[0].split()[0]} THRU", z=-200.0)
    assert told(row, dimensions=(hole,))[0].count("dimension-unclear") <= asked


PLAIN = ("NO", "CHARACTERISTIC")
"""Headings that say nothing of what stands behind the names."""


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        (("GROOVE WIDTH", "5", "3.0"), []),
        (("GROOVE DEPTH", "6", "3.0"), []),
        (("GROOVE WIDTH", "1", "3"), []),
        (("GROOVE WIDTH", "4", "7"), []),
        (("Nutbreite", "5", "3,0"), []),
        (("LARGHEZZA GOLA", "7", "2", "4,0"), []),
        (("GROOVE DIA", "5", "34"), []),
        (("GROOVE WIDTH", "5", "3.5"), ["note-contradicts"]),
        (("PROFONDEUR DE GORGE", "6", "2,5"), ["note-contradicts"]),
        (("WIDTH OF GROOVE", "2"), ["note-unread"]),
        (("GROOVE DEPTH", "5", "6"), ["note-unread"]),
        (("GROOVE WIDTH", "3"), []),
    ],
)
def test_the_number_of_a_row_is_no_size(cells, expected):
    assert told(cells, heads=PLAIN, step=27.0)[0] == expected


@pytest.mark.parametrize(
    ("heads", "expected"),
    [
        (("QTY", "NOMINAL"), ["note-contradicts"]), (("NOMINAL", "MEASURED"), []), (("SOLL", "IST"), []),
        (("ANZAHL", "NENNMASS"), ["note-contradicts"]), (("QTE", "PAGE"), []), (("COTE", "PAGE"), []),
    ],
)  # fmt: skip
def test_a_heading_decides(heads, expected):
    """3 is the width of a groove, and 7 is none."""
    assert told(("GROOVE WIDTH", "3", "7"), heads=(*PLAIN, *heads), step=27.0)[0] == expected


@pytest.mark.parametrize("limits", [("H11",), ("+0.06 / 0",)])
def test_a_tolerance_goes_with_the_size_that_it_stands_behind(limits):
    alike = bar((-10, -13, 34), (-20, -23, 34))
    (codes, given) = told(("GROOVE WIDTH", "5", "3", *limits), heads=PLAIN, part=alike, step=27.0)
    assert (codes, given) == ([], [{"width": (0.0, 0.06)}] * 2)
