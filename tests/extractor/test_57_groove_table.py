"""A table of grooves, numbered by balloons at them: held against what is drawn, and no list of an assembly's items.

How such tables are headed is common practice, no source. The ring has grooves 3 and 4 wide, 10 and 25 from its face,
34 across at their floors.
"""

import re
from dataclasses import replace

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import LETTER, Circle, Dimension, DimensionKind, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
LAYER = Source("1", "CIRCLE", "0")
HEAD = ("NO", "WIDTH", "DIA", "FROM FACE")
ROWS = [("1", "3", "34", "10"), ("2", "4", "Ø34", "25")]
TWO = ((-11.5, 18.0), (-27.0, 17.0))


def read(rows, head=HEAD, tips=TWO, gap=6.0, sunk=0.0, labels="12", more=(), part=RING, lines=(), sized=(), **options):
    """The ring with a balloon for each tip and a table beside it, rows `gap` apart, all but their labels `sunk`."""
    ink, circles, texts = side_view(part), [], list(more)
    for k, (z, r) in enumerate(tips):
        at = z - 10.0 * k
        circles.append(Circle((at, 45.0), 3.0, LAYER))
        texts.append(Text(labels[k], (at - 0.8, 43.8), 2.5))
        ink.solid.append((at, 42.0, z, r, 0.0))
    for k, row in enumerate([head, *rows]):
        texts += [Text(cell, (40.0 + 22 * c, 60.0 - gap * k - sunk * bool(c)), 2.5) for c, cell in enumerate(row)]
    ink.solid += lines
    sheet = sheet_of(ink, circles=tuple(circles), texts=tuple(texts), dimensions=sized)
    return read_sheet(sheet, ReadOptions(units="mm", **options))


def told(reading):
    return [f.code for f in reading.findings]


@pytest.mark.parametrize(
    "head",
    [
        HEAD,
        ("NR.", "BREITE", "Ø", "ABSTAND"),
        ("GROOVE", "W", "FLOOR DIA", "Z"),
        ("N°", "LARGHEZZA", "DIAMETRO", "DISTANZA"),
        ("ID", "WIDTH B", "Ø (mm)", "L [mm]"),
        ("Rep.", "Largeur", "Ø fond", "Distance"),
        ("NR", "B", "D", "POS"),
        ("Rowek", "Szerokość", "Ø", "Z"),
        ("Groef", "Breedte", "Bodem", "Afstand"),
        ("Spår", "Bredd", "Ø botten", "Avstånd"),
        ("Drážka", "Šířka", "Průměr", "Vzdálenost"),
    ],
    ids=lambda head: head[1],
)
def test_a_table_that_agrees_says_no_more(head):
    reading = read(ROWS, head)
    assert (told(reading), len(reading.part.grooves)) == ([], 2)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (("1", "3.5", "34", "10"), "No. 1 of the table of grooves prints width 3.5 where the drawing measures 3"),
        (("1", "3", "33", "10"), "prints floor diameter 33 where the drawing measures 34"),
        (("1", "3", "34", "11"), "prints distance 11 where the drawing has its near wall 10 behind the front face"),
    ],
    ids=["width", "floor", "distance"],
)
def test_one_wrong_value_stops_with_both_figures(row, words):
    reading = read([row, ROWS[1]])
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, stop.groove) == ("note-contradicts", 1)
    assert words in stop.message


LETTERED = [("A", "3", "34", "10"), ("B", "4", "34", "25")]


def test_letters_may_label_the_grooves_and_head_the_columns():
    """And stand elsewhere on the sheet as well: the labels in the balloons say that no part numbers are meant."""
    more = [Text(letter, (60.0, -40.0 - 9 * k), 2.5) for k, letter in enumerate("WDZ")]
    assert told(read(LETTERED, ("POS", "W", "D", "Z"), labels="AB", more=more)) == []
    wrong = [(*LETTERED[0][:3], "11"), LETTERED[1]]
    assert "note-contradicts" in told(read(wrong, ("POS", "W", "D", "Z"), labels="AB", more=more))
    assert told(read(LETTERED, ("POS", "W", "D", "Z"), labels="AB", more=more, tips=())) == ["variants"]


def standing(*places):
    """Letters without a line, 2.5 high, their middles at places (letter, z, radius)."""
    return [Text(letter, (z - LETTER * 1.25, r - 1.25), 2.5) for letter, z, r in places]


@pytest.mark.parametrize(
    ("places", "held"),
    [
        ((("A", -11.5, 24.0), ("B", -27.0, 24.0)), True),
        ((("A", -11.5, -24.0), ("B", -27.0, -24.0)), True),
        ((("A", -11.5, 34.9), ("B", -27.0, 34.9)), True),
        ((("A", -11.5, 35.1), ("B", -27.0, 35.1)), False),  # six letter heights over the part
        ((("A", -7.6, 24.0), ("B", -31.4, 24.0)), True),
        ((("A", -7.4, 24.0), ("B", -31.6, 24.0)), False),  # a letter height beside the walls
        ((("A", -11.5, 24.0), ("A", -11.5, -24.0), ("B", -27.0, 24.0), ("B", -27.0, -24.0)), False),
    ],
)
def test_letters_that_stand_alone_at_the_grooves_name_them(places, held):
    """Two of one letter may mark a cutting plane."""
    letters = [("A", "3", "34"), ("B", "4", "34")]
    swapped = [("A", "4", "34"), ("B", "3", "34")]
    stops = [
        [f.groove for f in read(rows, HEAD[:3], tips=(), more=standing(*places)).findings if f.stops]
        for rows in (letters, swapped)
    ]
    assert stops == [[], [1, 2] if held else []]


def test_a_letter_d_heads_diameters_or_depths_but_one_of_them_alone():
    deep = [(row[0], row[1], "3", row[3]) for row in ROWS]
    assert told(read(deep, ("NO", "W", "D", "Z"))) == []
    assert "note-contradicts" in told(read([ROWS[0], deep[1]], ("NO", "W", "D", "Z")))


def test_one_balloon_alone_is_held_if_a_row_has_its_label():
    one = ((-11.5, 18.0),)
    assert "note-contradicts" in told(read([("1", "3.5", "34", "10")], tips=one))
    assert told(read([], tips=one)) == []


@pytest.mark.parametrize(("places", "stop"), [(("13", "29"), False), (("11.5", "27"), False), (("13", "27"), True)])
def test_a_distance_is_that_to_one_spot_of_every_groove(places, stop):
    """To both far walls or both middles, not to one of each."""
    rows = [(*row[:3], at) for row, at in zip(ROWS, places, strict=True)]
    assert ("note-contradicts" in told(read(rows))) is stop


def test_the_numbers_tie_the_rows_and_not_their_order():
    assert told(read(ROWS[::-1])) == []
    assert "note-contradicts" in told(read([("2", *ROWS[0][1:]), ("1", *ROWS[1][1:])]))


NOT_HELD = {
    "no table": ([], HEAD),
    "a word in a cell": ([("1", "3 LOOSE", "34", "10"), ROWS[1]], HEAD),
    "a tolerance at a place": ([("1", "3", "34", "10 ±0.1"), ROWS[1]], HEAD),
    "a row without a balloon": ([*ROWS, ("3", "4", "34", "50")], HEAD),
    "strange headings": (ROWS, ("NO", "K1", "K2", "K3")),
}


@pytest.mark.parametrize(("rows", "head"), NOT_HELD.values(), ids=NOT_HELD)
def test_what_was_not_held_is_said(rows, head):
    reading = read(rows, head)
    assert told(reading) == ["groove-table"]
    (words,) = [f.message for f in reading.findings if f.code == "groove-table"]
    no_table = "2 numbers are led to grooves, and no table that says what they stand for was read" in words
    some = re.search(r"^[1-3] of [1-3] rows of the table of grooves were held", words) is not None
    assert [no_table, some] == [not rows, bool(rows) and head is HEAD]


@pytest.mark.parametrize(("rows", "labels"), [(ROWS, "15"), ([ROWS[0], ("3", *ROWS[1][1:])], "12"), (ROWS[:1], "12")])
def test_a_number_at_a_groove_that_names_no_row_is_told(rows, labels):
    """The rows are tied by their figures then, and each of them is right."""
    (found,) = read(rows, labels=labels).findings
    stray = next(label for label in labels if label not in {row[0] for row in rows})
    assert (found.level, found.code) == ("caution", "groove-table")
    assert found.message.startswith(f"{stray} names a groove, and no row of the table of grooves is named so")


@pytest.mark.parametrize(("gap", "held"), [(14.9, True), (15.1, False)])
def test_rows_follow_one_another_within_six_letter_heights(gap, held):
    assert ("groove-table" not in told(read(ROWS, gap=gap))) is held


TIPS = {
    "both in one groove": ((-11.5, 18.0), (-12.0, 17.5)),
    "one on a land": ((-11.5, 18.0), (-20.0, 15.0)),
    "one under its floor": ((-11.5, 18.0), (-27.0, 16.9)),
}


@pytest.mark.parametrize("tips", TIPS.values(), ids=TIPS)
def test_numbers_that_point_elsewhere_are_those_of_parts(tips):
    assert "assembly" in told(read(ROWS, tips=tips))


FIGURES_ALONE = {
    "all true": ((), []),
    "a width": (("3.5", "34", "10"), ["prints width 3.5 where the drawing measures 3 (groove 1)"]),
    "a floor": (("3", "34.5", "10"), ["prints floor diameter 34.5 where the drawing measures 34 (groove 1)"]),
    "a distance": (("3", "34", "11"), ["its near wall 10 behind the front face (groove 1)"]),
    "two of three": (("3.5", "34", "11"), None),
}


@pytest.mark.parametrize("name", FIGURES_ALONE)
def test_rows_without_balloons_are_tied_by_their_figures(name):
    """Most of them must be wholly true, and one that isn't may have one wrong figure of three."""
    part, (row, words) = replace(RING, cuts=(*RING.cuts, Cut(-40.0, 5.0, 32.0))), FIGURES_ALONE[name]
    rows = [("1", *row) if row else ROWS[0], ROWS[1], ("3", "5", "32", "40")]
    reading = read(rows, tips=(), part=part)
    assert told(reading) == (["groove-table"] if words is None else ["note-contradicts"] * len(words))
    assert all(one in f.message for one, f in zip(words or (), reading.findings, strict=False))
    assert told(read(rows[:2], tips=())) == (["groove-table"] if row else [])


def test_of_like_grooves_the_nearest_is_meant_by_a_wrong_distance():
    part = replace(RING, cuts=(*RING.cuts, Cut(-40.0, 3.0, 34.0)))
    reading = read([*ROWS, ("3", "3", "34", "41")], tips=(), part=part)
    assert [(f.code, f.groove) for f in reading.findings] == [("note-contradicts", 3)]


def test_a_number_beside_a_groove_that_labels_a_row_is_no_size():
    """8 is no length of the ring."""
    labels = [Text(words, (z, 24.0), 2.5) for words, z in (("8", -11.5), ("9", -27.0))]
    rows = [("8", *ROWS[0][1:]), ("9", *ROWS[1][1:])]
    assert told(read(rows, tips=(), more=labels)) == []
    assert told(read(ROWS, tips=(), more=labels)) == ["dimension-unclear"] * 2


def test_distances_from_elsewhere_tie_no_row():
    assert told(read([(*row[:3], f"{60 - float(row[3]):g}") for row in ROWS], tips=())) == ["groove-table"]


def test_two_figures_of_a_row_are_both_true_or_tie_none():
    rows = [("1", "3.5", "34"), ("2", "4", "34"), ("3", "5", "32")]
    part = replace(RING, cuts=(*RING.cuts, Cut(-40.0, 5.0, 32.0)))
    assert told(read(rows, HEAD[:3], tips=(), part=part)) == ["groove-table"]
    assert told(read([("1", "3", "34"), *rows[1:]], HEAD[:3], tips=(), part=part)) == []


@pytest.mark.parametrize(("sunk", "whole"), [(1.2, True), (1.3, False)])
def test_cells_of_a_row_stand_on_one_line_within_half_a_letter(sunk, whole):
    """Letters are 2.5 high."""
    assert ("groove-table" not in told(read(ROWS, sunk=sunk))) is whole


@pytest.mark.parametrize(("columns", "held"), [(2, False), (3, True)])
def test_two_columns_of_sizes_make_a_table_of_grooves(columns, held):
    """Beside the labels; a list with one may be of anything."""
    rows = [("1", "3.5", "34")[:columns], ("2", "4", "34")[:columns]]
    assert ("note-contradicts" in told(read(rows, HEAD[:columns]))) is held


def test_the_lines_of_a_ruled_table_are_no_view():
    """Not even where a size in a cell is taken for that of the line beside it: the table is as high as a floor is."""
    left, top, step = 29.0, 68.0, 34 / 3
    lines = [(left, top - step * k, left + 88, top - step * k, 0.0) for k in range(4)]
    lines += [(left + 22 * k, top, left + 22 * k, top - 34, 0.0) for k in range(5)]
    high = Dimension(DimensionKind.LINEAR, ((left + 66, 34.0), (left + 66, 68.0)), 90.0, 34.0, "%%c34")
    assert told(read(ROWS, gap=step, lines=lines, sized=(high,))) == []


STRANGE = ("Uurre", "Leveys", "Pohja", "Etu")


@pytest.mark.parametrize(
    ("rows", "head", "said"),
    [
        (ROWS, STRANGE, ["groove-table"]),
        (ROWS[:1], STRANGE, []),
        ([(*row[:2], "steel", row[3]) for row in ROWS], STRANGE, []),
        ([row[:2] for row in ROWS], STRANGE[:2], []),
        ([row[:3] for row in ROWS], STRANGE[:3], ["groove-table"]),
        (ROWS, ("HOLE", *STRANGE[1:]), []),
        (ROWS, ("1", *STRANGE[1:]), []),
    ],
    ids=["numbers", "one row", "words in a cell", "two columns", "three columns", "of holes", "no headings"],
)
def test_a_table_of_numbers_under_strange_headings_is_told(rows, head, said):
    """Its first groove is printed 3.5 wide, which nobody holds against the drawing."""
    rows = [("1", "3.5", *rows[0][2:]), *rows[1:]]
    found = [f for f in read(rows, head, tips=()).findings if f.code == "groove-table"]
    assert [f.code for f in found] == said
    assert all("headings of a table of numbers are not understood" in f.message for f in found)


def test_the_figures_of_dimensions_over_one_another_are_no_table():
    """Rows of chains that were put together: each figure stands over its own line."""
    cells = [(40.0 + 22 * c, 60.0 - 6.0 * k) for k in range(1, 3) for c in range(4)]
    sized = tuple(
        Dimension(DimensionKind.LINEAR, ((x - 5, y - 200), (x + 5, y - 200)), 0.0, 10.0, "10", at=(x, y))
        for x, y in cells
    )
    assert "groove-table" in told(read(ROWS, STRANGE, tips=()))
    assert "groove-table" not in told(read(ROWS, STRANGE, tips=(), sized=sized))


@pytest.mark.parametrize("tips", [TWO, ()])
def test_a_dimension_may_print_the_heading_of_a_column(tips):
    """Whose cells have tolerances, so that no figure stands alone in them."""
    width = Dimension(DimensionKind.LINEAR, ((-10.0, 20.0), (-13.0, 20.0)), 0.0, 3.0, "B")
    rows = [("1", "3 H13", "34", "10"), ("2", "4 H13", "34", "25")]
    assert "variants" not in told(read(rows, ("NO", "B", "DIA", "FROM FACE"), tips=tips, sized=(width,)))


LIMITED = [
    (HEAD, [("1", "3 +0.1/0", "34", "10"), ("2", "4", "Ø34 h11", "25")]),
    (
        ("NO", "WIDTH", "TOL.", "DIA", "TOL.", "FROM FACE"),
        [("1", "3", "+0,1/0", "34", "", "10"), ("2", "4", "", "34", "h11", "25")],
    ),
    (("NO", "DIA", "TOL.", "WIDTH", "TOL."), [("1", "34", "", "3", "+0.1 0"), ("2", "34", "h11", "4", "")]),
    (HEAD, [("1", "3/3.1", "34", "10"), ("2", "4", "Ø34 0/-0.16", "25")]),
]


@pytest.mark.parametrize(("head", "rows"), LIMITED)
def test_a_tolerance_in_a_cell_or_behind_it_is_that_of_its_size(head, rows):
    """ISO 286-2: h11 of 34 is 0/-0.16. ISO 2768-1, m: 3 and 4 within 0.1, 34 within 0.3."""
    reading = read(rows, head, more=[Text("ISO 2768-m", (90.0, -60.0), 2.5)])
    assert [code for code in told(reading) if code != "general-tolerances"] == []
    first, second = (g.tolerances for g in reading.part.grooves)
    assert (first["width"], second["floor_diameter"]) == (pytest.approx((0.0, 0.1)), pytest.approx((-0.16, 0.0)))
    assert (first["floor_diameter"], second["width"]) == ((-0.3, 0.3), (-0.1, 0.1))


@pytest.mark.parametrize("cell", ["3.5 +0.1/0", "3.6/3.5", "3.5 H13"])
def test_a_false_size_with_its_tolerance_stops(cell):
    assert "note-contradicts" in told(read([("1", cell, "34", "10"), ROWS[1]]))


def test_limits_other_than_those_of_a_dimension_stop():
    rows = [("1", "3 +0.1/0", "34", "10"), ROWS[1]]
    for words, stop in (("3 +0.1/0", False), ("3 +0.2/0", True), ("3", False)):
        size = Dimension(DimensionKind.LINEAR, ((-13.0, 20.0), (-10.0, 20.0)), 0.0, 3.0, words)
        reading = read(rows, sized=(size,))
        assert ("note-contradicts" in told(reading)) is stop
        assert stop or reading.part.grooves[0].tolerances["width"] == (0.0, 0.1)


@pytest.mark.parametrize(("head", "asked"), [("R", True), ("REMARK", True), ("LAGE", False), ("QUOTA", False)])
def test_a_figure_under_a_heading_that_is_not_known_is_told(head, asked):
    assert ("groove-table" in told(read(ROWS, (*HEAD[:3], head)))) is asked
    wrong = read([(*ROWS[0][:3], "11"), ROWS[1]], (*HEAD[:3], head))
    assert ("note-contradicts" in told(wrong)) is not asked


def test_a_heading_of_the_diameter_s_sign_and_a_letter_is_a_diameter():
    rows = [("1", "3", "Ø34 0/-0.1", "10"), ("2", "4", "34", "25")]
    reading = read(rows, ("NO", "WIDTH", "ØD", "FROM FACE"))
    assert told(reading) == []
    assert reading.part.grooves[0].tolerances["floor_diameter"] == pytest.approx((-0.1, 0.0))


COLUMNS = {
    "named by their letters": ("WIDTH", "DIA", "TOL W", "TOL D"),
    "named before": ("WIDTH", "DIA", "WIDTH TOL", "DIA TOL"),
    "named behind": ("WIDTH", "DIA", "TOL. WIDTH", "Tol. Ø"),
    "the other way round": ("WIDTH", "DIA", "TOL D", "TOL W"),
    "behind their sizes": ("WIDTH", "TOL.", "DIA", "TOLERANCE"),
    "in one word": ("Nutbreite", "Toleranz", "Nutgrund-Ø", "Toleranz"),
    "in Chinese": ("宽度", "TOL", "直径", "TOL"),
    "two deviations": ("WIDTH", "UPPER", "LOWER", "DIA", "UPPER", "LOWER"),
    "two limits": ("WIDTH MIN", "WIDTH MAX", "DIA MAX", "DIA MIN"),
    "limits by letters": ("W MIN", "W MAX", "D MIN", "D MAX"),
}
OF_CELLS = {
    "WIDTH": "3", "Nutbreite": "3", "宽度": "3", "DIA": "34", "Nutgrund-Ø": "34", "直径": "34",
    "TOL W": "+0.1/0", "WIDTH TOL": "+0.1/0", "TOL. WIDTH": "+0.1/0",
    "TOL D": "0/-0.2", "DIA TOL": "0/-0.2", "Tol. Ø": "0/-0.2",
    "WIDTH MIN": "3.0", "WIDTH MAX": "3.1", "W MIN": "3.0", "W MAX": "3.1",
    "DIA MIN": "33.8", "DIA MAX": "34.0", "D MIN": "33.8", "D MAX": "34.0",
}  # fmt: skip
BEHIND = {"3": {"": "+0.1/0", "UPPER": "+0.1", "LOWER": "0"}, "34": {"": "0/-0.2", "UPPER": "0", "LOWER": "-0.2"}}


def cells_of(head):
    """A row of the groove 3 wide: what stands behind a size by no name of its own is of that."""
    row = []
    for name in head:
        last = next((cell for cell in reversed(row) if cell in BEHIND), "")
        row.append(OF_CELLS.get(name) or BEHIND[last].get(name, BEHIND[last][""]))
    return tuple(row)


@each_in_turn(angle=[0.0, 90.0, 270.0], name=COLUMNS)
def test_what_a_column_holds_of_a_size_is_that_size_s(name, angle):
    """The ring's second groove is as the first; all of the table may stand on its side, too."""
    ring = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 3.0, 34.0)))
    head, row = COLUMNS[name], cells_of(COLUMNS[name])
    texts = []
    for k, cells in enumerate([("NO", *head), ("1", *row), ("2", *row)]):
        for c, cell in enumerate(cells):
            frame = Text(cell, (200.0, 100.0), 2.5, angle=angle)
            texts.append(replace(frame, at=frame.place(22.0 * c, -6.0 * k)))
    reading = read([], head=(), more=texts, part=ring)
    assert told(reading) == []
    for groove in reading.part.grooves:
        assert groove.tolerances["width"] == pytest.approx((0.0, 0.1))
        assert groove.tolerances["floor_diameter"] == pytest.approx((-0.2, 0.0))


@pytest.mark.parametrize(
    ("head", "row"),
    [
        (("WIDTH", "DIA", "FINE TOL", "TOL D"), ("3", "34", "+0.1/0", "0/-0.2")),
        (("WIDTH", "UPPER", "LOWER", "DIA"), ("3", "0.1", "0", "34")),
        (("WIDTH", "UPPER", "DIA"), ("3", "+0.1", "34")),
        (("WIDTH MAX", "DIA", "R"), ("3.1", "34", "0.4")),
    ],
)
def test_what_of_such_columns_can_t_be_placed_is_told_and_given_to_no_size(head, row):
    reading = read([("1", *row), ("2", *row)], ("NO", *head), part=Turned(RING.steps, (RING.cuts[0],)), tips=())
    assert "groove-table" in told(reading)
    assert "width" not in reading.part.grooves[0].tolerances
