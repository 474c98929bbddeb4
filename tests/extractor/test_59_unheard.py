"""Bare sizes beside the part that no dimension took up: a number that is no size of the part is asked about."""

import math
import re
from dataclasses import replace

import numpy as np
import pytest
from support.ties import HERE, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Segments, Sheet, Source, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.pointers import middle_of
from extractor.sizing.remaining import unheard

PART = bar((-10, -13, 34), (-30, -33, 34))
"""40 across and 60 long."""
HIGH = 2.5


def asked(words, z=-50.0, r=40.0, circle=None, dimensions=(), code="dimension-unclear", part=PART):
    """Codes of what is said of a text whose middle stands at a place; `circle` is the radius of one around it."""
    x, y = HERE.on_sheet(z, r)
    text = Text(words, (x - 0.35 * HIGH * len(words), y - 0.5 * HIGH), HIGH)
    circles = () if circle is None else (Circle((x, y), circle, Source("1", "CIRCLE", "0", Pen.SOLID)),)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, circles=circles, texts=(text,), dimensions=tuple(dimensions))
    return [f.code for f in tie_dimensions(sheet, part)[1] if f.code == code]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("3 +0.1/0", True),
        ("3 H13", True),
        ("2.95-3.05", True),
        ("Ø34 h11", False),
        ("3", False),
        ("17 ±0.1", False),
        ("Ø40 h9", False),
    ],
)
def test_a_tolerance_of_a_groove_that_no_dimension_took_up_is_told(words, told):
    assert (asked(words, code="tolerance-unread") != []) is told
    assert asked(words, code="tolerance-unread", dimensions=[along(-10, -13, words)]) == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("3.2 N8", False),
        ("3,2 (N8)", False),
        ("1.6 N7", False),
        ("12.5 N10", False),
        ("3.2 N7", True),
        ("3.2 N9", True),
        ("3.2 H8", True),
        ("3.3 N8", True),
    ],
)
def test_a_roughness_with_its_own_grade_is_no_tolerance_of_a_size_that_the_part_has_not(words, told):
    assert (asked(words, code="tolerance-unread") != []) is told


def test_a_class_written_like_a_grade_is_told_where_a_groove_is_so_wide():
    assert asked("3.2 N8", code="tolerance-unread", part=bar((-10, -13.2, 34), (-30, -33, 34))) == ["tolerance-unread"]


SKEW = ["3", "10", "13", "17", "20", "27", "30", "47", "60", "Ø34", "Ø40", "(20)", "0", "0.1181", "1.339"]
"""Lengths and diameters of the part, the last two in inches."""


@pytest.mark.parametrize(
    ("words", "units", "told"),
    [
        ("1.4305", "mm", False),
        ("1.430", "mm", True),
        ("11.4305", "mm", True),
        ("Ø1.4305", "mm", True),
        ("1.4305", "in", True),
    ],
)
def test_a_figure_as_a_steel_s_number_is_a_material_where_sizes_have_fewer_decimals(words, units, told):
    assert bool(asked(words, part=replace(PART, units=units))) is told


@pytest.mark.parametrize("words", SKEW)
def test_what_is_a_size_of_the_part_is_no_question(words):
    assert asked(words) == []


@pytest.mark.parametrize(
    "words", ["3.5", "21", "Ø33", "Ø35", "(61)", "1.175", "3.5 mm", "(Ø33 MM)", "22.5-29", "21 29.5"]
)
def test_what_is_none_is_asked_about(words):
    assert asked(words) == ["dimension-unclear"]
    told = asked(words, dimensions=[along(-10, -13, words)])
    assert told == ["dimension-unclear"] * (words == "22.5-29"), "the words of a dimension are told with it"


def test_a_number_at_a_leader_is_no_dimension():
    """It is no size for want of a sign, so the text that carries it is still asked about."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-11, 17), HERE.on_sheet(-50, 40)), 0.0, 0.0, "3.5")
    assert asked("3.5", dimensions=[leader]) == ["dimension-unclear"]


@pytest.mark.parametrize("words", ["21/29", "21-29", "21 29", "21 m", "A 21"])
def test_what_is_no_bare_size_is_no_question(words):
    """Two whole numbers may be those of a sheet or of an order."""
    assert asked(words) == []


@pytest.mark.parametrize(("words", "told"), [("3.3", True), ("6.7", True), ("10", False), ("50", False)])
def test_lengths_between_the_points_of_a_curve_are_no_sizes_of_the_part(words, told):
    """A hollow from 40 to 50 behind the front face, as chords that meet at 43.3."""
    hollow = ((-40.0, 20.0), (-43.3, 18.2), (-46.6, 18.1), (-50.0, 20.0))
    part = replace(PART, outline=(*PART.outline[:-1], *hollow, PART.outline[-1]))
    assert bool(asked(words, part=part)) is told


@pytest.mark.parametrize(
    "words", ["3.2", "6.3", "12.5", "A", "R5", "M8", "1x45°", "SCALE 2", "+0.1", "5.5 kg", "REV 4"]
)
def test_finishes_and_other_texts_are_none(words):
    """Roughness is printed in preferred values of Ra (ISO 1302, from memory)."""
    assert asked(words) == []


@pytest.mark.parametrize(
    ("words", "line", "r", "told"),
    [
        ("12.5", (-52.0, -40.0, 0.5), 40.0, True), ("12.5", (-52.0, -40.0, 2.3), 40.0, True),
        ("12.5", (-52.0, -40.0, 2.7), 40.0, False), ("12.5", (-52.0, -40.0, -0.5), 40.0, False),
        ("12.5", (-52.0, -52.0 + 37.4, 0.5), 40.0, True), ("12.5", (-52.0, -52.0 + 37.6, 0.5), 40.0, False),
        ("12.5", (-40.0, -28.0, 0.5), 40.0, False), ("6.3", (-52.0, -45.0, 0.5), -40.0, True),
        ("12.5", (-52.0, -40.0, 0.5), 15.0, False), ("12.5", None, 40.0, False),
        ("50", (-55.0, -5.0, 0.5), 40.0, False),
    ],
)  # fmt: skip
def test_one_that_stands_on_a_line_about_as_long_is_a_size(words, line, r, told):
    """From end to end and how far below the figure; up to three times as long, and its height below. 50 is drawn."""
    x, y = HERE.on_sheet(-49.5, r)
    text = Text(words, (x, y), HIGH)
    rows = [] if line is None else [(*HERE.on_sheet(line[0], r - line[2]), *HERE.on_sheet(line[1], r - line[2]))]
    rows = np.array(rows).reshape(-1, 4)
    source = np.zeros(len(rows), dtype=np.int64)
    segments = Segments(rows, np.zeros(len(rows)), source, (Source("1", "LINE", "0", Pen.SOLID),))
    sheet = Sheet("x.dxf", "0" * 64, segments, texts=(text,))
    found = [f for f in tie_dimensions(sheet, bar((-10, -13, 34), (-32, -35, 34)))[1] if f.code == "dimension-unclear"]
    assert bool(found) is told


@pytest.mark.parametrize(("words", "told"), [("0.31", True), ("0.29", False), ("0.02", False)])
def test_a_figure_far_below_every_length_of_the_part_is_a_tolerance_of_form(words, told):
    """A fifth of the half width of the grooves, 1.5."""
    assert bool(asked(words)) is told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Nutgrund Ø34", False),
        ("Nutgrund Ø35", True),
        ("GROOVE FLOOR TO BE Ø33.5 AFTER GRINDING", True),
        ("GROOVE Ø42.4", True),
        ("GROOVE Ø42.6", False),
        ("GROOVE Ø27.3", True),
        ("GROOVE Ø27.1", False),
        ("BAR Ø45", False),
        ("GROOVE 1: Ø34", False),
        ("GROOVE 2: Ø34", True),
        ("GROOVE 2: Ø35", False),
        ("GROOVE 2: Ø40", False),
        ("GROOVE NO. 1 = Ø35", True),
        ("GROOVE 3: Ø34", False),
    ],
)
def test_a_note_that_gives_a_groove_another_diameter_is_asked_about_wherever_it_stands(words, told):
    """42.5 is a quarter more than the floor of 34, 27.2 a fifth less; a note may number the grooves from the front."""
    part = bar((-10, -13, 34), (-30, -33, 35)) if any(c.isdigit() for c in words.split("Ø")[0]) else PART
    assert len(asked(words, z=200.0, r=200.0, part=part)) == told


@pytest.mark.parametrize(("circle", "told"), [(7.4, False), (7.6, True)])
def test_a_number_in_a_circle_is_a_label(circle, told):
    """Three letter heights of 2.5."""
    assert bool(asked("21", circle=circle)) is told


@pytest.mark.parametrize(
    ("z", "r", "told"),
    [
        (39.5, 0.0, True),
        (40.5, 0.0, False),
        (-99.5, 0.0, True),
        (-100.5, 0.0, False),
        (-5, 59.5, True),
        (-5, 60.5, False),
    ],
)
def test_sizes_stand_within_a_diameter_of_the_part(z, r, told):
    assert bool(asked("21.7", z=z, r=r)) is told


def test_the_lengths_are_those_between_any_two_places_of_an_oracle():
    """Every figure up to the part's length in steps of a half, against the corners of the outline written down anew."""
    along_z, radii = [0, 10, 11.5, 13, 30, 31.5, 33, 60], [0, 17, 20]
    own = {abs(a - b) for row in (along_z, radii) for a in row for b in row} | {34, 40}
    for figure in np.arange(0.5, 61.0, 0.5).tolist():
        inch = any(
            math.isclose(figure * 25.4, size, abs_tol=0.7) or math.isclose(figure / 25.4, size, abs_tol=0.03)
            for size in own
        )
        if not inch and figure not in (12.5, 25.0, 50.0):
            assert bool(asked(f"{figure:g}")) is (figure not in own), figure


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("+0.1", True), ("-0,2", True), ("+.004", True), ("±0.05", True), ("± 1", True), ("+0", True),
        ("+1.5", False), ("-10", False), ("0.1", False), ("0", False), ("+0.1 A", False),
        ("P9", True), ("n6", True), ("N6", False), ("N7", False), ("h5", True), ("H14", True), ("js10", True),
        ("H4", False), ("H15", False), ("M6", False), ("D8", False), ("A H7", False),
    ],
)  # fmt: skip
def test_a_deviation_or_a_class_that_stands_alone_at_the_part_is_told(words, told):
    """A figure of one and more with one sign may be a height or a place along the axis, M6 a thread, D8 a diameter."""
    assert asked(words, code="tolerance-unread") == ["tolerance-unread"] * told
    assert asked(words, r=100.0, code="tolerance-unread") == ["tolerance-unread"] * words.startswith("±")


@pytest.mark.parametrize(("others", "told"), [(["+0.1", "Ra 1.6"], True), (["±0.2"], False), (["8 ±0.2"], False)])
def test_the_only_deviation_of_both_signs_may_be_for_all_sizes_wherever_it_stands(others, told):
    texts = [Text(words, HERE.on_sheet(90.0, -100.0 - 10 * k), HIGH) for k, words in enumerate(["±0.1", *others])]
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(texts)), PART)[1]
    assert ["±0.1" in f.message for f in found if f.code == "tolerance-unread"] == [True] * told


def test_a_deviation_in_a_box_of_general_tolerances_is_none_of_a_size():
    x, y = HERE.on_sheet(-50.0, 40.0)
    texts = Text("GENERAL TOLERANCE", (x, y + 4.0), HIGH), Text("±0.1", (x, y), HIGH)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts), PART)[1]
    assert [f.code for f in found] == ["general-tolerances"]


@pytest.mark.parametrize(
    ("cells", "told"),
    [
        (["30 H7", "+0.021", "0"], False),
        (["40", "h6", "0", "-0.016"], False),
        (["40", "h6", "0/-0.016"], False),
        (["30 H7", "+0.021"], True),
        (["40", "h6"], True),
        (["+0.021", "0"], True),
    ],
)
def test_deviations_and_classes_in_a_row_of_a_table_of_fits_have_their_size_there(cells, told):
    x, y = HERE.on_sheet(-55.0, 40.0)
    texts = tuple(Text(words, (x + 15.0 * k, y), HIGH) for k, words in enumerate(cells))
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts), PART)[1]
    assert any("looks like a tolerance" in f.message for f in found) is told


def left(*texts, part=PART):
    """The figures that are asked about, of texts at places on the sheet."""
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(Text(words, (x, y), HIGH) for words, x, y in texts))
    return [f.message.split('"')[1] for f in tie_dimensions(sheet, part)[1] if f.code == "dimension-unclear"]


@pytest.mark.parametrize(
    ("figures", "asked_about"),
    [
        (["4", "5", "6", "7"], []),
        (["4", "5", "6", "7", "8"], []),
        (["4", "5", "6"], ["4", "5", "6"]),
        (["4", "5", "7", "8"], ["4", "5", "7", "8"]),
        (["7", "6", "5", "4"], []),
        (["8", "9", "11", "12"], ["8", "9", "11", "12"]),
    ],
)
@pytest.mark.parametrize("upright", [False, True])
def test_figures_that_count_up_in_even_steps_are_zones(figures, asked_about, upright):
    """ISO 5457, from memory; four at least."""
    x, y = HERE.on_sheet(-50.0, 30.0)
    row = [(words, x, y + 8 * k) if upright else (words, x + 12 * k, y) for k, words in enumerate(figures)]
    assert left(*row) == asked_about


@pytest.mark.parametrize(("lower", "kept"), [(1.2, False), (1.3, True)])
def test_zones_stand_in_one_line_within_half_a_letter(lower, kept):
    x, y = HERE.on_sheet(-50.0, 30.0)
    assert bool(left(*((f"{4 + k}", x + 12 * k, y - lower * (k == 3)) for k in range(4)))) is kept


@pytest.mark.parametrize(
    ("places", "kept"),
    [((0, 12, 24, 36, 48), ""), ((0, 5, 17, 29, 41), "4"), ((0, 12, 30, 36, 48), "45678"), ((0, 12, 24, 36, 53), "8")],
)
def test_only_those_of_even_steps_are_zones(places, kept):
    x, y = HERE.on_sheet(-50.0, 30.0)
    assert "".join(left(*((f"{4 + k}", x + off, y) for k, off in enumerate(places)))) == kept


def test_zones_that_begin_again_are_zones_as_well():
    """As along the other border; a figure in line with them that does not count on is none."""
    x, y = HERE.on_sheet(-50.0, 30.0)
    again = [(f"{4 + k % 4}", x + 3 * k, y) for k in range(8)]
    assert left(*again) == []
    assert left(*again[:4], ("9", x + 14, y)) == ["9"]


def test_thousands_of_equal_figures_are_each_looked_at_a_few_times(monkeypatch):
    looked = []
    monkeypatch.setattr(unheard, "middle_of", lambda text: looked.append(text) or middle_of(text))
    texts = [Text(f"{4 + k % 2}", (1000.0 + 3 * k, 500.0), HIGH) for k in range(2000)]
    assert list(unheard._zones(texts)) == []
    assert len(looked) == len(texts)


@pytest.mark.parametrize(("off", "kept"), [(1.2, False), (1.3, True)])
def test_the_steps_of_zones_are_even_within_half_a_letter(off, kept):
    x, y = HERE.on_sheet(-50.0, 30.0)
    row = [(f"{4 + k}", x + 12 * k + off * (k == 3), y) for k in range(4)]
    assert bool(left(*row)) is kept


@pytest.mark.parametrize(
    ("row", "column", "kept"),
    [
        ((12.0, 0.0), (0.0, 7.5), False),
        ((-12.0, 1.2), (-1.2, 7.5), False),
        ((12.0, 1.3), (0.0, 7.5), True),
        ((12.0, 0.0), (1.3, 7.5), True),
        ((12.0, 0.0), (12.0, 7.5), True),
        ((0.0, 7.5), (0.0, -7.5), True),
        ((0.0, 0.0), (0.0, 0.0), True),
    ],
)
def test_a_figure_with_words_in_its_row_and_in_its_column_is_of_a_list(row, column, kept):
    """Level, or in line upright, within half a letter of 2.5."""
    x, y = HERE.on_sheet(-50.0, 30.0)
    words = [("STEEL", x + row[0], y + row[1]), ("QTY", x + column[0], y + column[1])]
    assert bool(left(("4", x, y), *words)) is kept
    for other in ("M6", "Ra"):
        assert left(("4", x, y), *((other, *at) for _, *at in words)) == ["4"]


SIZED = bar((-10, -13, 34), (-30, -35, 30))
"""Grooves 3 and 5 wide, and 3 and 5 deep."""
ALIKE_DEEP = bar((-10, -13, 34), (-30, -35, 34))
"""The same both 3 deep."""


def beside(one, two, part=SIZED, at=(-11.5, -32.5), r=25.0, lines=NO_SEGMENTS):
    """What is said of two texts that stand at two places, and of which groove."""
    texts = []
    for words, z in zip((one, two), at, strict=True):
        x, y = HERE.on_sheet(z, r)
        texts.append(Text(words, (x - 0.35 * HIGH * len(words), y - 0.5 * HIGH), HIGH))
    sheet = Sheet("x.dxf", "0" * 64, lines, texts=tuple(texts))
    found = tie_dimensions(sheet, part)[1]
    told = [f.message for f in found if f.code == "dimension-unclear" and "of each at the other" in f.message]
    return [int(re.search(r"at groove (\d+)", message)[1]) for message in told]


@pytest.mark.parametrize("r", [25.0, -25.0, 19.0, 5.0])
@pytest.mark.parametrize(
    ("one", "two", "part", "told"),
    [
        ("3", "5", SIZED, []),
        ("5", "3", SIZED, [1, 2]),
        ("5", "3", ALIKE_DEEP, [1]),
        ("3", "5", ALIKE_DEEP, []),
        ("Ø34", "Ø30", SIZED, []),
        ("Ø30", "Ø34", SIZED, [1, 2]),
        ("Ø30 h11", "Ø34 h11", SIZED, [1, 2]),
        ("5", "5", SIZED, []),
        ("5", "7", SIZED, []),
        ("R5", "R3", SIZED, []),
        ("Ø40", "Ø34", SIZED, []),
    ],
)
def test_two_sizes_that_stand_at_one_another_s_grooves_are_told(one, two, part, told, r):
    """Each that is no size of its own groove; one that is the depth of its own may be meant so."""
    assert beside(one, two, part, r=r) == told


@pytest.mark.parametrize(("z", "told"), [(-10.01, True), (-12.99, True), (-9.99, False), (-13.01, False)])
def test_a_size_stands_at_a_groove_between_its_walls(z, told):
    assert bool(beside("5", "3", at=(z, -32.5))) is told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("5 ±0.05", True), ("2x 5 ±0.05", True), ("3x 15 ±0.1", True),
        ("Ø33.3 0/-0.1", True), ("8 P9", False), ("17 ±0.1", False), ("2x 17 ±0.1", False),
        ("60 ±0.2", False), ("2x 60 ±0.2", True), ("GAP 5 ±0.05", False),
    ],
)  # fmt: skip
def test_a_size_with_deviations_that_is_none_of_the_part_is_asked_about(words, told):
    """17 is from one groove to the next, 20 from wall to wall; what is counted is of grooves or from one to another."""
    codes = ("dimension-unclear", "note-unread", "tolerance-unread")
    assert sum(len(asked(words, code=code)) for code in codes) == told
