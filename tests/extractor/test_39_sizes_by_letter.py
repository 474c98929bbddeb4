"""A size given by a letter that no table on the sheet resolves is asked about: the drawing stands for several parts."""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.viewing.variants import with_legend

SHAFT = Turned(((55.0, 36.0),), (Cut(-9.0, 2.0, 31.0), Cut(-21.0, 2.0, 31.0)))


def codes(text, kind=DimensionKind.LINEAR, measured=2.0):
    dimension = Dimension(kind, ((-9.0, 18.0), (-11.0, 18.0)), 0.0, measured, text)
    found = read_sheet(sheet_of(full_outline(SHAFT), dimensions=(dimension,)), ReadOptions(units="mm")).findings
    return [f.code for f in found if f.stops]


@pytest.mark.parametrize(
    "text",
    [
        "B",
        "b",
        "L1",
        "d2",
        "X",
        "ØD",
        "dia D",
        "DIA. d",
        "2x DIAM D",
        "B H13",
        "B1 ±0,1",
        "B*",
        "(B)",
        "2x B",
        "B (2x)",
        "K +0,1/0",
        "H4",
        "H14",
    ],
)
def test_a_letter_is_no_size(text):
    assert codes(text) == ["variants"]


def lettered(text, *figures):
    """A sheet with a width by its letter and legends for that letter: the places and figures of each."""
    name = next(c for c in reversed(text) if c.isalpha())
    texts = [Text(one, at, 3.0) for at, figure, place in figures for one, at in ((name, at), (figure, place))]
    dimension = Dimension(DimensionKind.LINEAR, ((-9.0, 18.0), (-11.0, 18.0)), 0.0, 2.0, text)
    return sheet_of(full_outline(SHAFT), dimensions=(dimension,), texts=tuple(texts))


@pytest.mark.parametrize(
    ("notes", "text", "read"),
    [
        (["A = 1.7"], "A", "1.7"),
        (["a=1,7 b=30"], "a", "1.7"),
        (["A: Ø30", "B: 1.7"], "2x ØA H11", "2x Ø30 H11"),
        (["A = 1.7", "A = 1.8"], "A", "A"),
        (["A = 1.7 TYP"], "A", "A"),
        (["BA = 1.7"], "A", "A"),
        (["a = 1.7 +0.1/0"], "a", "1.7 +0.1/0"),
        (["a: 1.7+0.1 mm"], "a", "1.7+0.1 mm"),
        (["a = 1,7 mm +0,1/0"], "a", "1.7 mm +0.1/0"),
        (["d = Ø30 h11"], "d", "Ø30 h11"),
        (["d = Ø30 h11"], "Ø d", "Ø 30 h11"),
        (["b1 = 1.7 H13", "d3 = 30"], "b1", "1.7 H13"),
        (["DIN 471: d2 = 30 h11, m = 1.7 H13"], "m", "1.7 H13"),
        (["SIZES: m = 1.7; n = 2"], "m", "1.7"),
        (["FOR SIZE 3 m = 1.7"], "m", "m"),
        (["m = 1.7 OR 1.8"], "m", "m"),
    ],
)
def test_a_legend_in_one_text_is_read(notes, text, read):
    sheet = replace(lettered(text), texts=tuple(Text(note, (0.0, -60.0), 2.5) for note in notes))
    assert [d.text for d in with_legend(sheet).dimensions] == [read]


@pytest.mark.parametrize(
    ("legend", "given"),
    [("a = 2 +0.1/0", (0.0, 0.1)), ("a: 2 ±0.05", (-0.05, 0.05)), ("SIZES: a = 2 H13", (0.0, 0.14)), ("a = 2", None)],
)
def test_the_tolerance_of_a_legend_is_that_of_the_size(legend, given):
    """H13 up to 3 mm: 0.14 (ISO 286-1, from memory)."""
    sheet = replace(lettered("a"), texts=(Text(legend, (0.0, -60.0), 2.5),))
    reading = read_sheet(sheet, ReadOptions(units="mm"))
    assert not [f for f in reading.findings if f.stops]
    assert [g.tolerances.get("width") for g in reading.part.grooves] == [given] * 2


def test_a_legend_with_another_figure_stops():
    sheet = replace(lettered("a"), texts=(Text("a = 2.5 +0.1/0", (0.0, -60.0), 2.5),))
    assert [f.code for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops] == ["dimension-contradicts"]


@pytest.mark.parametrize(
    ("text", "at", "other", "codes"),
    [
        ("A", None, "A-A", ["variants"]),
        ("A", (-10.0, 20.0), "A-A", []),
        ("A", (-10.0, 20.0), "VIEW A", []),
        ("A", (-10.0, 20.0), "A", []),
        ("A", (-10.0, 20.0), "AISI 304", ["variants"]),
        ("A", (-10.0, 20.0), "1A", ["variants"]),
        ("A H13", (-10.0, 20.0), "A-A", ["variants"]),
        ("2x A", (-10.0, 20.0), "A-A", ["variants"]),
    ],
)
def test_a_letter_alone_at_a_dimension_in_pieces_may_be_that_of_a_view_which_stands_elsewhere(text, at, other, codes):
    sheet = lettered("A")
    own = [Text(text, at, 3.0)] if at else []
    one = replace(sheet.dimensions[0], at=at, text=text)
    assert stops(replace(sheet, dimensions=(one,), texts=(*own, Text(other, (0.0, -60.0), 3.0)))) == codes


@pytest.mark.parametrize(("text", "codes"), [("A", ["dimension-contradicts"]), ("2", ["variants"])])
def test_letters_that_dimensions_have_are_no_parts(text, codes):
    """`A = 10, B = 12` gives two parts their sizes, unless A and B are sizes by letter; the groove is 2 wide."""
    one = lettered(text if text.isalpha() else "X").dimensions[0]
    other = Dimension(DimensionKind.LINEAR, ((0.0, 18.0), (-9.0, 18.0)), 0.0, 9.0, "B" if text.isalpha() else "9")
    legend = Text("A = 1.7, B = 9", (0.0, -60.0), 2.5)
    sheet = replace(lettered("A"), dimensions=(replace(one, text=text), other), texts=(legend,))
    assert stops(sheet) == codes


@pytest.mark.parametrize(("legend", "codes"), [("A = 2, B = 9", []), ("B = 9, C = 2", ["variants"]), ("A = 2", [])])
def test_a_letter_of_a_legend_that_stands_nowhere_is_no_part(legend, codes):
    """One of the others is that of a dimension: 2 is the width drawn."""
    assert stops(replace(lettered("A"), texts=(Text(legend, (0.0, -60.0), 2.5),))) == codes


def stops(sheet):
    return [f.code for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.stops]


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("2X X", "2X 1.7"),
        ("2x x", "2x 1.7"),
        ("2 x x", "2 x 1.7"),
        ("(2x) X", "(2x) 1.7"),
        ("2 OFF F", "2 OFF 1.7"),
        ("2 PLACES P", "2 PLACES 1.7"),
        ("DIA. D", "DIA. 1.7"),
    ],
)
def test_the_figure_stands_for_the_letter_and_not_for_one_of_a_count_or_a_sign(text, read):
    sheet = lettered(text, ((140.0, 60.0), "1.7", (158.0, 60.0)))
    assert with_legend(sheet).dimensions[0].text == read


@pytest.mark.parametrize(("figure", "found"), [("2", []), ("1.7", ["note-contradicts"])])
def test_a_counted_letter_that_is_written_like_the_mark_of_a_count_is_held(figure, found):
    assert stops(lettered("2X X", ((140.0, 60.0), figure, (158.0, 60.0)))) == found


@pytest.mark.parametrize("figures", [("2", "1.7"), ("1.7", "2")])
@pytest.mark.parametrize("other", [((140.0, -60.0), (158.0, -60.0)), ((140.0, 60.0), (140.0, 52.0))])
def test_two_numbers_for_one_letter_leave_its_size_open(figures, other):
    """In legends at two places, or beside the letter and under it."""
    at, place = other
    first = ((140.0, 60.0), figures[0], (158.0, 60.0))
    assert stops(lettered("B", first, (at, figures[1], place))) == ["variants"]
    told = ["dimension-contradicts"] if figures[0] == "1.7" else []
    assert stops(lettered("B", first, (at, figures[0], place))) == told


@pytest.mark.parametrize("text", ["2", "2 H13", None, "<>", "2x 2", "2 B", "REF", "TYP", "h11", "M2", "H5", "H13"])
def test_what_is_a_size_a_class_or_a_word_is_none(text):
    assert "variants" not in codes(text)


@pytest.mark.parametrize(("kind", "measured"), [(DimensionKind.RADIUS, 2.0), (DimensionKind.LEADER, 0.0)])
def test_letters_at_leaders_and_radii_name_other_things(kind, measured):
    assert "variants" not in codes("B", kind, measured)


@each_in_turn(
    ("text", "figure", "told"),
    [
        ("B", "2", []),
        ("B", "1,7", ["dimension-contradicts"]),
        ("2x B", "2,0", []),
        ("B H13", "2", []),
        ("B H13", "1.7", ["dimension-contradicts"]),
        ("ØB", "Ø31", []),
        ("ØB", "Ø30", ["dimension-contradicts"]),
        ("ØB", "30", ["dimension-contradicts"]),
        ("DIA B", "31", []),
        ("DIA B", "30", ["dimension-contradicts"]),
        ("(B)", "1.7", ["dimension-contradicts"]),
    ],
    place=[(140.0, 52.0), (158.0, 60.0)],
)
def test_the_one_number_that_a_legend_gives_for_a_letter_is_held(text, figure, told, place):
    """In the column under the letter, or in the row beside it."""
    across = text[0] in "ØD"
    ends = ((-10.0, -15.5), (-10.0, 15.5)) if across else ((-9.0, 18.0), (-11.0, 18.0))
    dimension = Dimension(DimensionKind.LINEAR, ends, 90.0 * across, 31.0 if across else 2.0, text)
    legend = (Text("B", (140.0, 60.0), 3.0), Text(figure, place, 3.0))
    sheet = sheet_of(full_outline(SHAFT), dimensions=(dimension,), texts=legend)
    reading = read_sheet(sheet, ReadOptions(units="mm"))
    assert [f.code for f in reading.findings if f.stops] == told
    given = [g.tolerances.get("width") for g in reading.part.grooves]
    assert given == [(0.0, 0.14) if "H13" in text and not told else None] * 2


def test_the_figure_of_a_dimension_is_none_of_a_legend():
    """It stands under the letter by chance."""
    ends = ((-9.0, 18.0), (-11.0, 18.0))
    sizes = (
        Dimension(DimensionKind.LINEAR, ends, 0.0, 2.0, "B"),
        Dimension(DimensionKind.LINEAR, ends, 0.0, 2.0, "2", at=(140.0, 52.0)),
    )
    texts = (Text("B", (140.0, 60.0), 3.0), Text("2", (140.0, 52.0), 3.0))
    found = read_sheet(sheet_of(full_outline(SHAFT), dimensions=sizes, texts=texts), ReadOptions(units="mm")).findings
    assert [f.code for f in found if f.stops] == ["variants"]


def tabled(*rows, turned=False, step=(18.0, 5.0), off=(0.0, 0.0), size=SHAFT):
    """The sheet with a table of cells below the view, its lines laid as columns where it is turned; no letter else."""
    places = [(i, j, cell) for i, row in enumerate(rows) for j, cell in enumerate(row)]
    texts = [
        Text(
            cell,
            (-60.0 + step[0] * (i if turned else j) + off[0] * j, -40.0 - step[1] * (j if turned else i) - off[1] * j),
            2.5,
        )
        for i, j, cell in places
    ]
    found = read_sheet(sheet_of(full_outline(size), texts=tuple(texts)), ReadOptions(units="mm")).findings
    return [f.code for f in found if f.stops]


ROWS = ["55", "36"], ["75", "36"]


@each_in_turn(
    turned=[False, True],
    heads=[["L1", "D1"], ["l", "d"], ["L", "Ø"], ["LENGTH", "DIA"], ["Länge", "Ø D"], ["L2", "Durchmesser"]],
)
def test_a_table_of_which_one_row_is_the_part_stands_for_several(heads, turned):
    assert tabled(heads, *ROWS, turned=turned) == ["variants"]
    assert tabled(["No.", *heads], ["1", *ROWS[0]], ["2", *ROWS[1]], turned=turned) == ["variants"]
    assert tabled(heads[::-1], *(row[::-1] for row in ROWS), turned=turned) == ["variants"]


NO_VARIANTS = {
    "all drawn": [["L1", "D1"], ["55", "36"], ["9", "31"], ["21", "31"]],
    "tools": [["D", "L"], ["8", "75"], ["10", "90"]],
    "places": [["X", "Y"], ["55", "36"], ["75", "36"]],
    "one row": [["L1", "D1"], ["55", "36"]],
    "one row and words": [["L1", "D1"], ["55", "36"], ["max.", "max."]],
    "other words": [["LENGTHS", "DIAL"], ["55", "36"], ["75", "36"]],
    "one groove drawn otherwise": [["NO", "L", "D", "B"], ["1", "9", "31", "2"], ["2", "22.4", "31", "2"]],
    "grooves": [["NO", "L", "D", "B"], ["1", "9", "31", "2"], ["2", "21", "31", "2"]],
}


@pytest.mark.parametrize("rows", NO_VARIANTS.values(), ids=NO_VARIANTS)
def test_what_is_no_table_of_variants(rows):
    """The rows of a table of what is on the part are all drawn there, and none of one of other things is."""
    assert "variants" not in tabled(*rows)


@pytest.mark.parametrize(("off", "told"), [(2.4, True), (2.6, False)])
def test_its_heads_and_rows_are_level_within_a_letter_height(off, told):
    assert (tabled(["L1", "D1"], *ROWS, off=(0.0, off)) == ["variants"]) is told
    assert (tabled(["L1", "D1"], *ROWS, turned=True, off=(off, 0.0)) == ["variants"]) is told


def test_diameters_are_held_against_diameters_and_lengths_against_lengths():
    """36 is a diameter and no length here, 55 a length and no diameter: no row is the part."""
    assert "variants" not in tabled(["L1", "D1"], ["36", "55"], ["36", "75"])
    assert tabled(["L1", "D1"], ["55", "36"], ["55", "40"]) == ["variants"]
    assert tabled(["L1", "D1"], ["55", "36"], ["75", "40"], ["55", "36"]) == ["variants"]


@pytest.mark.parametrize("place", [(140.0, 52.0), (158.0, 60.0)])
@pytest.mark.parametrize(
    ("figure", "given"),
    [("2 +0.1/0", (0.0, 0.1)), ("2 ±0,05", (-0.05, 0.05)), ("2 H13", (0.0, 0.14))],
)
def test_the_tolerance_of_the_one_size_under_a_letter_or_beside_it_is_read(figure, given, place):
    """Also where the dimension's own picture shows the letter. H13 up to 3 mm: 0.14 (ISO 286-1, from memory)."""
    dimension = Dimension(DimensionKind.LINEAR, ((-9.0, 18.0), (-11.0, 18.0)), 0.0, 2.0, "b1", shown="b1")
    legend = (Text("b1", (140.0, 60.0), 3.0), Text(figure, place, 3.0))
    reading = read_sheet(sheet_of(full_outline(SHAFT), dimensions=(dimension,), texts=legend), ReadOptions(units="mm"))
    assert not [f for f in reading.findings if f.stops]
    assert [g.tolerances.get("width") for g in reading.part.grooves] == [given] * 2


def test_two_such_sizes_stand_for_several_parts():
    dimension = Dimension(DimensionKind.LINEAR, ((-9.0, 18.0), (-11.0, 18.0)), 0.0, 2.0, "b1")
    cells = ("b1", (140.0, 60.0)), ("2 +0.1/0", (140.0, 52.0)), ("2.5 +0.1/0", (140.0, 44.0))
    texts = tuple(Text(words, at, 3.0) for words, at in cells)
    found = read_sheet(sheet_of(full_outline(SHAFT), dimensions=(dimension,), texts=texts), ReadOptions(units="mm"))
    assert [f.code for f in found.findings if f.stops] == ["variants"]


DASHED = ["DASH", "L", "W"], ["-01", "55", "2"], ["-02", "75", "4"]


@pytest.mark.parametrize(
    ("rows", "stop"),
    [
        (DASHED, True),
        ([["NO", "LENGTH", "B"], ["-1", "55", "2"], ["-2", "60", "2"], ["-3", "65", "2"]], True),
        ([["DASH", "W", "DIA"], ["-01", "2", "36"], ["-02", "2", "40"]], True),
        ([DASHED[0], DASHED[1]], False),
        ([DASHED[0], ["-01", "55", "2"], ["-02", "55", "4"]], False),
        ([["NO", "L", "W"], ["01", "55", "2"], ["02", "75", "4"]], False),
        ([["DASH", "QTY", "W"], ["-01", "55", "2"], ["-02", "75", "4"]], False),
        ([["DIA", "FIT", "UPPER", "LOWER"], ["36", "h6", "0", "-16"], ["31", "h11", "0", "-160"]], False),
        ([["D", "ES", "EI"], ["36", "-1", "-16"], ["31", "-2", "-33"]], False),
        ([["L", "TOL"], ["55", "-1"], ["21", "-2"]], False),
        ([["SIZE", "UPPER", "LOWER"], ["55", "0", "-16"], ["75", "0", "-19"]], False),
        # Places along Z, which are counted by nobody; and parts that are.
        ([["Z", "L"], ["-12", "55"], ["-15", "75"]], False),
        ([["GROOVE", "Z", "L"], ["1", "-12", "55"], ["2", "-30", "75"]], False),
        ([["PART", "L"], ["-1", "55"], ["-2", "75"]], True),
        ([["NO", "L"], ["-1", "55"], ["-3", "75"]], False),
        ([["PART", "L"], ["-03", "55"], ["-05", "75"]], True),
    ],
)
def test_lengths_and_diameters_by_dash_numbers_are_those_of_several_parts(rows, stop):
    """-01 behind the number of a drawing is a part of its own (common practice, no source)."""
    assert ("variants" in tabled(*rows)) is stop


@pytest.mark.parametrize(("off", "told"), [(1.2, True), (1.3, False)])
def test_a_size_is_level_with_its_dash_number_within_a_letter_height(off, told):
    """Each cell stands so much lower than the one before it; lengths are the third column: 2.5 is a letter's height."""
    rows = [[dash, "", length] for dash, length, _ in DASHED]
    assert ("variants" in tabled(*rows, step=(18.0, 7.0), off=(0.0, off))) is told


NAMED = {
    "english": [["PART NO", "-01", "-02", "-03"], ["L", "55", "65", "75"], ["GROOVES", "2", "3", "4"]],
    "german": [["Ausführung", "A", "B"], ["Länge", "55", "75"]],
    "width": [["TYPE", "A", "B"], ["GROOVE WIDTH", "2", "3"]],
    "count": [["TYP", "A", "B"], ["ANZAHL NUTEN", "2", "3"]],
    "diameter": [["SIZE", "S", "M", "L"], ["OD", "36", "40", "60"]],
    "italian": [["CODICE", "4711", "4712"], ["LUNGHEZZA", "55", "75"]],
    "russian": [["Исполнение", "1", "2"], ["Длина L", "55", "75"]],
    "polish": [["Wykonanie", "A", "B"], ["Długość", "55", "75"]],
}
UNNAMED = {
    "all as drawn": [["TYPE", "A", "B"], ["LENGTH", "55", "55"]],
    "none drawn": [["PART NO", "4711", "4712"], ["LENGTH", "120", "80"]],
    "one name": [["TYPE", "A"], ["LENGTH", "75"]],
    "quantities": [["PART NO", "4711", "4712"], ["QTY", "55", "2"]],
    "grooves": [["GROOVE", "A", "B"], ["WIDTH", "2", "3"]],
    "inspected": [["NO", "1", "2"], ["LENGTH", "55", "21"]],
}


@each_in_turn(turned=[False, True], rows=NAMED.values())
def test_names_of_parts_in_rows_or_in_columns_make_a_table_of_variants(rows, turned):
    assert tabled(*rows, turned=turned) == ["variants"]


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("rows", UNNAMED.values(), ids=UNNAMED)
def test_names_beside_figures_of_which_none_tells_two_parts_apart_make_none(rows, turned):
    assert "variants" not in tabled(*rows, turned=turned)
