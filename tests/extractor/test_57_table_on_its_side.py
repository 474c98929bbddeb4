"""A table of grooves on its side, a column for each groove: the same as an upright one.

How such tables are headed is common practice, no source. The ring has grooves 3 and 4 wide, 10 and 25 from its face,
34 across at their floors.
"""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
HEAD = ("NO", "WIDTH", "DIA", "FROM FACE")
ROWS = [("1", "3", "34", "10"), ("2", "4", "Ø34", "25")]
TWO = ((-11.5, 18.0), (-27.0, 17.0))


def on_its_side(rows, head=HEAD, gap=6.0, tips=TWO, labels="12", more=(), under=1, part=RING):
    """The ring with a balloon for each tip, and each row as a column; its label is over it, or under it (-1)."""
    ink, circles, texts = side_view(part), [], list(more)
    for k, (z, r) in enumerate(tips):
        at = z - 10.0 * k
        circles.append(Circle((at, 45.0), 3.0, Source("1", "CIRCLE", "0")))
        texts.append(Text(labels[k], (at - 0.8, 43.8), 2.5))
        ink.solid.append((at, 42.0, z, r, 0.0))
    for c, column in enumerate([head, *rows]):
        texts += [Text(cell, (40.0 + 22 * c, 60.0 - under * gap * k), 2.5) for k, cell in enumerate(column) if cell]
    return read_sheet(sheet_of(ink, circles=tuple(circles), texts=tuple(texts)), ReadOptions(units="mm"))


def told(reading):
    return [f.code for f in reading.findings]


SIDEWAYS = [
    (("Nut", "Breite", "Ø", "Abstand"), "AB"),
    (("Gola", "Larghezza", "Diametro", "Quota"), "AB"),
    (("Spår", "Bredd", "Ø botten", "Läge"), "AB"),
    (("POS", "W", "D", "Z"), "AC"),
    (("NO", "WIDTH", "DIA", "L"), "BD"),
]


def labelled(rows, labels):
    return [(label, *row[1:]) for label, row in zip(labels, rows, strict=True)]


@each_in_turn(("head", "labels"), SIDEWAYS, under=[1, -1])
def test_a_table_on_its_side_is_the_same_table(head, labels, under):
    """A column for each groove, its label over the sizes or under them."""
    false = [("1", "3", "34", "10"), ("2", "4.5", "34", "25")]
    assert told(on_its_side(labelled(ROWS, labels), head, labels=labels, under=under)) == []
    (found,) = on_its_side(labelled(false, labels), head, labels=labels, under=under).findings
    assert (found.code, found.groove) == ("note-contradicts", 2)
    assert f"No. {labels[1]} of the table of grooves prints width 4.5 where the drawing measures 4" in found.message


NOT_HELD = {
    "a word in a cell": ([("1", "3 LOOSE", "34", "10"), ROWS[1]], HEAD),
    "a tolerance at a place": ([("1", "3", "34", "10 ±0.1"), ROWS[1]], HEAD),
    "a column without a balloon": ([*ROWS, ("3", "4", "34", "50")], HEAD),
    "a line under a heading that is not known": ([(*row, "5") for row in ROWS], (*HEAD, "R")),
}


@pytest.mark.parametrize(("rows", "head"), NOT_HELD.values(), ids=NOT_HELD)
def test_what_was_not_held_of_a_table_on_its_side_is_said(rows, head):
    assert told(on_its_side(rows, head)) == ["groove-table"]


LIMITED = [
    (HEAD, [("1", "3 +0.1/0", "34", "10"), ("2", "4", "Ø34 h11", "25")]),
    (
        ("NO", "WIDTH", "TOL.", "DIA", "TOL.", "FROM FACE"),
        [("1", "3", "+0,1/0", "34", "", "10"), ("2", "4", "", "34", "h11", "25")],
    ),
]


@pytest.mark.parametrize("blank", [False, True])
@pytest.mark.parametrize(("head", "rows"), LIMITED)
def test_tolerances_in_a_table_on_its_side_are_those_of_their_sizes(head, rows, blank):
    """ISO 286-2: h11 of 34 is 0/-0.16. ISO 2768-1, m: 4 within 0.1, 34 within 0.3. Their line need no heading."""
    head = tuple("" if blank and cell == "TOL." else cell for cell in head)
    reading = on_its_side(rows, head, more=[Text("ISO 2768-m", (90.0, -60.0), 2.5)])
    assert told(reading) == ["general-tolerances"]
    first, second = (g.tolerances for g in reading.part.grooves)
    assert (first["width"], second["floor_diameter"]) == (pytest.approx((0.0, 0.1)), pytest.approx((-0.16, 0.0)))
    assert (first["floor_diameter"], second["width"]) == ((-0.3, 0.3), (-0.1, 0.1))


@pytest.mark.parametrize("under", [1, -1])
@pytest.mark.parametrize("upright", [False, True])
def test_a_tolerance_beside_the_size_in_its_cell_is_the_size_s(upright, under):
    """That of the first width: it stands in the line under the labels, or in that over them; upright, right of them."""
    rows = (
        [("NO", "1", "2"), ("WIDTH", "3", "4"), ("DIA", "34", "34")] if upright else [HEAD[:3], *(r[:3] for r in ROWS)]
    )
    more = [Text("+0.1/0", (67.0, 60.0 - 6.0 * under), 2.5), Text("ISO 2768-m", (90.0, -60.0), 2.5)]
    reading = on_its_side(rows[1:], rows[0], more=more, under=under)
    assert told(reading) == ["general-tolerances"]
    first, second = (g.tolerances for g in reading.part.grooves)
    assert (first["width"], second["width"]) == (pytest.approx((0.0, 0.1)), (-0.1, 0.1))
    assert first["floor_diameter"] == second["floor_diameter"] == (-0.3, 0.3)


@pytest.mark.parametrize(("off", "kept"), [(14.9, True), (15.1, False)])
def test_a_tolerance_far_beside_a_table_is_none_of_its_last_column(off, kept):
    """Six letter heights from where the column begins."""
    more = [Text("+0.1/0", (84.0 + off, 54.0), 2.5)]
    reading = on_its_side([row[:3] for row in ROWS], HEAD[:3], more=more)
    assert (reading.part.grooves[1].tolerances.get("width") is not None) is kept
    upright = on_its_side([("WIDTH", "3", "4"), ("DIA", "34", "34")], ("NO", "1", "2"), more=more)
    assert (upright.part.grooves[0].tolerances.get("floor_diameter") is not None) is kept


@pytest.mark.parametrize(("gap", "held"), [(14.9, True), (15.1, False)])
def test_lines_of_a_table_on_its_side_follow_within_six_letter_heights(gap, held):
    false = [("1", "3.5", "34", "10"), ROWS[1]]
    assert ("note-contradicts" in told(on_its_side(false, gap=gap))) is held


def test_the_second_line_of_places_is_that_of_distances():
    head = ("POS", "W", "D", "POS")
    false = [("1", "3", "34", "11"), ROWS[1]]
    assert (told(on_its_side(ROWS, head)), told(on_its_side(false, head))) == ([], ["note-contradicts"])


def test_a_line_without_figures_ends_no_table_on_its_side():
    rows = [("1", "3", "", "34", "11"), ("2", "4", "", "34", "25")]
    assert told(on_its_side(rows, ("NO", "WIDTH", "REMARK", "DIA", "FROM FACE"))) == ["note-contradicts"]


def test_labels_that_stand_again_begin_another_table():
    """Of holes, say, whose sizes stop nothing; sizes like the labels are sizes."""
    more = [("NO", "1", "2"), ("WIDTH", "7", "8"), ("DIA", "7", "8")]
    cells = [Text(c, (40.0 + 22 * n, 30.0 - 6 * k), 2.5) for k, line in enumerate(more) for n, c in enumerate(line)]
    assert told(on_its_side(ROWS, more=cells)) == []
    part = replace(RING, cuts=(Cut(-10.0, 1.0, 34.0), Cut(-25.0, 2.0, 34.0)))
    tips = ((-10.5, 18.0), (-26.0, 17.5))
    rows = [("1", "1", "34", "10"), ("2", "2", "33", "25")]
    assert told(on_its_side(rows, part=part, tips=tips)) == ["note-contradicts"]


@pytest.mark.parametrize(("count", "held"), [(1, False), (2, True)])
def test_two_columns_make_a_table_on_its_side(count, held):
    """One may be the list of what the whole part is."""
    false = [("1", "3.5", "34", "10"), ROWS[1]]
    assert ("note-contradicts" in told(on_its_side(false[:count]))) is held


STRANGE = ("Uurre", "Leveys", "Pohja", "Etu")


@pytest.mark.parametrize(
    ("rows", "head", "said"),
    [
        (ROWS, STRANGE, True),
        (labelled(ROWS, "AB"), STRANGE, True),
        (ROWS, ("NO", *STRANGE[1:]), True),
        (labelled(ROWS, "CE"), STRANGE, False),
        ([(*row[:2], "steel", row[3]) for row in ROWS], STRANGE, False),
        (ROWS, ("HOLE", *STRANGE[1:]), False),
    ],
)
def test_strange_headings_of_a_table_on_its_side_are_told(rows, head, said):
    """Labels in order tell such a table where no heading is known."""
    assert ("groove-table" in told(on_its_side(rows, head, tips=()))) is said


@all_pairs(
    ("corner", "named"),
    [("", "A B"), ("", "Nut A,Nut B"), ("", "GROOVE 1,GROOVE 2"), ("NO", "GROOVE NO. 1,GROOVE NO. 2")],
    under=[1, -1],
    side=[True, False],
)
def test_a_blank_corner_and_labels_by_the_name_of_a_groove(corner, named, side, under):
    """On its side, and upright: there the columns are exchanged with the rows. ISO 286-2: h11 of 34 is 0/-0.16."""
    one, two = named.split("," if "," in named else " ")
    rows = [(corner, "WIDTH", "DIA"), (one, "3 +0.1/0", "34"), (two, "4", "34 h11")]
    head, *rest = rows if side else zip(*rows, strict=True)
    reading = on_its_side(rest, head, labels=one[-1] + two[-1], under=under)
    assert told(reading) == []
    first, second = (g.tolerances for g in reading.part.grooves)
    assert (first, second) == ({"width": pytest.approx((0.0, 0.1))}, {"floor_diameter": pytest.approx((-0.16, 0.0))})


def test_without_such_labels_a_blank_corner_makes_no_table():
    assert told(on_its_side([("x", "3.5 +0.1/0", "34"), ("y", "4", "34 h11")], ("", "WIDTH", "DIA"), labels="AB")) == []
