"""General tolerances ISO 2768-1 at both sides of every step, and the notes that call them up."""

import pytest
from support.ties import across, along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.sentences.general import STEPS, called_up, general_classes, linear, radius

# ISO 2768-1:1989 table 1 as three published tables give it, plus-minus mm, upper limit of step first.
TABLE = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4),
    "v": (None, 0.5, 1, 1.5, 2.5, 4, 6, 8),
}


@pytest.mark.parametrize(("name", "step"), [(name, step) for name in TABLE for step in range(8)])
def test_both_sides_of_every_step(name, step):
    value = TABLE[name][step]
    expected = None if value is None else (-value, value)
    lowest = (0.5, *(s + 0.001 for s in STEPS))[step]
    assert linear(lowest, name) == expected
    assert linear(STEPS[step], name) == expected


@pytest.mark.parametrize("size", [0.0, 0.3, 0.499, 4000.1])
def test_sizes_the_standard_leaves_out(size):
    assert linear(size, "m") is None


# Table 2: 0.5 to 3, over 3 to 6, over 6.
RADII = [("f", 0.2, 0.5, 1.0), ("m", 0.2, 0.5, 1.0), ("c", 0.4, 1.0, 2.0), ("v", 0.4, 1.0, 2.0)]


@pytest.mark.parametrize(("name", "small", "middle", "large"), RADII)
def test_radii_and_chamfers(name, small, middle, large):
    assert [radius(r, name)[1] for r in (0.5, 3, 3.1, 6, 6.1)] == [small, small, middle, middle, large]
    assert radius(0.4, name) is None


NOTES = [
    ("ISO 2768-m", "m"),
    ("ISO 2768-mK", "m"),
    ("ISO 2768 - f H", "f"),
    ("DIN ISO 2768-m", "m"),
    ("DIN ISO 2768 - 1 - c", "c"),
    ("ISO2768-mK", "m"),
    ("General tolerances ISO 2768-1 class f", "f"),
    ("Allgemeintoleranzen ISO 2768 mittel", "m"),
    ("TOLERANCES: ISO 2768 (m)", "m"),
    ("ISO 2768 medium", "m"),
    ("iso 2768-v", "v"),
    ("EN 22768-1 m", "m"),
    ("DIN EN 22768-1-f", "f"),
    ("GB/T 1804-m", "m"),
    ("未注公差按GB/T1804-2000-c", "c"),
    ("JIS B 0405-m", "m"),
    ("JIS B0405:1991 f", "f"),
    ("ISO 2768-1:1989-m", "m"),
    ("EN 22767-m", None),
    ("GB/T 1805-m", None),
    ("JIS B 0403-m", None),
    ("DIN 7168-m", None),
    ("ISO 2768", None),
    ("ISO 2768-x", None),
    ("Allgemeintoleranzen ISO 2768 mittel", "m"),
    ("Tolérances générales ISO 2768 - classe m", "m"),
    ("Tolérances ISO 2768 très grossier", "v"),
    ("Tolleranze generali ISO 2768 fine", "f"),
    ("Tolerancias ISO 2768 media", "m"),
    ("Tolerancje ogólne ISO 2768 średnia", "m"),
    ("Všeobecné tolerance ISO 2768 hrubá", "c"),
    ("Algemene toleranties ISO 2768 fijn", "f"),
    ("Generella toleranser ISO 2768 medel", "m"),
    ("ISO 2768 sehr grob", "v"),
    ("ISO 8015", None),
    ("flange, coarse thread", None),
]


@pytest.mark.parametrize(("note", "name"), NOTES)
def test_notes(note, name):
    assert general_classes([note]) == ([name] if name else [])


def test_one_class_named_twice_is_one_and_two_are_none():
    assert general_classes(["ISO 2768-m", "see ISO 2768-mK"]) == ["m"]
    assert general_classes(["ISO 2768-m", "ISO 2768-f"]) == ["f", "m"]
    assert general_classes([]) == []


def test_a_printed_radius_has_the_class_of_radii_and_never_less_than_a_sharp_corner():
    """ISO 2768-1 table 2: radii of 0.5 to 3 mm are within 0.2 in class f and m, 0.4 in c."""
    assert called_up([Text("ISO 2768-m", (0.0, 0.0), 2.5)])[0].radius(0.8, 1.0) == (-0.2, 0.2)
    assert called_up([Text("ISO 2768-c", (0.0, 0.0), 2.5)])[0].radius(0.5, 1.0) == (-0.4, 0.4)
    assert called_up([Text("ISO 2768-v", (0.0, 0.0), 2.5)])[0].radius(4.0, 1.0) == (-1.0, 1.0)
    assert called_up([Text("ISO 2768-m", (0.0, 0.0), 2.5)])[0].radius(0.4, 1.0) is None
    assert called_up([Text("ISO 2768-m", (0.0, 0.0), 2.5)])[0].radius(1.0 / 25.4, 25.4) == pytest.approx(
        (-0.2 / 25.4, 0.2 / 25.4)
    )
    assert called_up([Text("GENERAL TOLERANCE ±0.3", (0.0, 0.0), 2.5)])[0].radius(0.2, 1.0) == (-0.2, 0.3)
    assert called_up([Text("GENERAL TOLERANCE ±0.3", (0.0, 0.0), 2.5)])[0].radius(0.5, 1.0) == (-0.3, 0.3)


@pytest.mark.parametrize(
    ("size", "general"),
    [
        (along(-10, -13, "3"), True),
        (along(-10, -13, "3 ?0.1"), False),
        (along(-10, -13, "3 T6"), False),  # begins above 24 in ISO 286-2
        (along(-10, -13, "4"), True),
        (along(-10, -13, "4 +0.1/0"), False),
        (along(-10, -13, "4 h11"), False),
        (along(-10, -13, "4", deviations=(0.0, 0.1)), False),
    ],
)
def test_none_stands_for_a_size_whose_own_tolerance_is_printed_and_was_not_applied(size, general):
    """A printed tolerance may be the closer one: ISO 2768-m allows 0.1 either way at 3."""
    part, _ = tied(bar(), size, notes=("ISO 2768-m",))
    assert part.grooves[0].tolerances.get("width") == ((-0.1, 0.1) if general else None)
    assert part.grooves[0].tolerances["floor_diameter"] == (-0.3, 0.3)


@pytest.mark.parametrize(("words", "general"), [("3 +0.1/0", False), ("3.5 +0.1/0", True)])
def test_none_stands_for_a_size_that_a_note_limits_and_nothing_ties_to_its_groove(words, general):
    """Three grooves are 3 wide, so nobody can tell which of them the note beside the part limits."""
    note = Text(words, (87.0, 80.0), 2.5)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(note, Text("ISO 2768-m", (0.0, 0.0), 2.5)))
    part, findings = tie_dimensions(sheet, bar((-10, -13, 34), (-20, -23, 34), (-40, -44, 30)))
    assert [g.tolerances.get("width") for g in part.grooves] == [*[(-0.1, 0.1) if general else None] * 2, (-0.1, 0.1)]
    assert "tolerance-unread" in [f.code for f in findings]


TWO_NOTES = {
    "two classes": (["ISO 2768-m", "GENERAL TOLERANCES ISO 2768-f"], "ISO 2768-f and ISO 2768-m"),
    "a class and a figure": (["ISO 2768-m", "UNLESS OTHERWISE STATED TOLERANCE +/-0.05"], "ISO 2768-m and ±0.05"),
    "two figures": (["GENERAL TOLERANCE ±0.3", "GENERAL TOLERANCE ±0.1"], "±0.1 and ±0.3"),
}

TWO_NOTES |= {
    note: ([note], named)
    for note, named in {
        "UNLESS STATED: LENGTHS ±0.1, DIAMETERS ±0.2": "UNLESS STATED: LENGTHS ±0.1 and DIAMETERS ±0.2",
        "GENERAL TOLERANCE ±0.1 ON DIAMETERS": "GENERAL TOLERANCE ±0.1 ON DIAMETERS",
        "UNLESS STATED: UP TO 6 ±0.1, 6 TO 30 ±0.2": "UNLESS STATED: UP TO 6 ±0.1 and 6-30 ±0.2",
        "TOLERANCES OVER 30 ±0,3": "TOLERANCES OVER 30 ±0.3",
        "Tolerances: .XX ±.01, .XX ±.02": ".XX ±.01 and .XX ±.02",
        "GENERAL TOLERANCES ±0.3, .XX ±0.05": ".XX ±0.05 and ±0.3",
        "TOLERANCES .X DIAMETERS ±0.1": "TOLERANCES .X DIAMETERS ±0.1",
        "ALL DIAMETERS h11": "ALL DIAMETERS h11",
        "1. ALL TURNED DIAMETERS +0/-0.05 UNLESS STATED": "ALL TURNED DIAMETERS +0/-0.05",
        "Alle Durchmesser h9": "ALLE DURCHMESSER h9",
        "TOUS LES DIAMETRES h11": "TOUS LES DIAMETRES h11",
        "TUTTI I DIAMETRI H8": "TUTTI I DIAMETRI H8",
        "ALL DIMENSIONS +0.1/-0": "ALL DIMENSIONS +0.1/-0",
        "ALL DIAMETERS -0.1": "ALL DIAMETERS -0.1",
        "DIAMETERS 0/-0.1": "DIAMETERS 0/-0.1",
        "WIDTHS ±0.02": "WIDTHS ±0.02",
        "ISO 2768-m, ALL DIAMETERS h11": "ISO 2768-m and ALL DIAMETERS h11",
    }.items()
}


@pytest.mark.parametrize(("notes", "named"), TWO_NOTES.values(), ids=TWO_NOTES)
def test_several_that_a_sheet_names_are_told_and_none_is_applied(notes, named):
    part, findings = tied(bar(), notes=tuple(notes))
    (told,) = [f for f in findings if f.code == "general-tolerances"]
    why = "and nothing says which applies" if " and " in named else "that are not read here"
    assert (told.level, f"general tolerances, {named}, {why}: none" in told.message) == ("caution", True), told.message
    assert part.grooves[0].tolerances == {}


@pytest.mark.parametrize(
    "note",
    [
        "ALL DIMENSIONS ±0.1",
        "TOL. ±0.1",
        "TOLERANCE ±0.1 EXCEPT AS NOTED",
        "±0.1 UNLESS OTHERWISE STATED",
        "1. MATERIAL C45 2. GENERAL TOLERANCES ±0.1",
        "UNLESS OTHERWISE STATED: LINEAR ±0.1 ANGULAR ±0.5°",
        "LINEAR ±0.1 ANGULAR ±0.5°",
        "LINEAR ±0.1, ANGULAR ±0.5",
        "TOLERANZEN: ±0,1 WINKEL ±1",
        "Nicht tolerierte Maße ±0,1",
        "Maße ohne Toleranzangabe ±0,1",
        "TOUTES COTES NON TOLERANCEES ±0,1",
        "QUOTE SENZA TOLLERANZA +/-0,1",
        "Wymiary nietolerowane ±0,1",
        "Algemene toleranties ±0,1",
    ],
)
def test_one_for_all_sizes_is_applied(note):
    part, _ = tied(bar(), notes=(note,))
    assert part.grooves[0].tolerances == {"width": (-0.1, 0.1), "floor_diameter": (-0.1, 0.1)}


UNREAD = {
    "DIN 7168 mittel": "DIN 7168 mittel",
    "GENERAL TOLERANCE ISO 2368-m": "ISO 2368-m",
    "General tolerances in full accordance with ISO 13920-B": "ISO 13920-B",
    "Allgemeintoleranzen WN 471": "WN 471",
    "Tolerances general: JIS B 0403": "JIS B 0403",
    "General tolerances ISO 2768": "ISO 2768",
    "ISO 2768-x": "ISO 2768-x",
    "Freimaßtoleranz mittel": "Freimasstoleranz mittel",
    "Allgemeintoleranzen: Klasse grob": "Allgemeintoleranzen: Klasse grob",
    "GENERAL TOLERANCES: HOLES H14, SHAFTS h14, OTHERS ±IT14/2": "IT14/2",
    "H14, h14, ±IT14/2": "H14, h14, ±IT14/2",
    "H14; h14": "H14; h14",
    "Tol. gen. js13": "Tol. gen. js13",
    "0.5-6 ±0.1, 6-30 ±0.2, 30-120 ±0.3": "0.5-6 ±0.1, 6-30 ±0.2, 30-120 ±0.3",
    "普通公差 中級": "普通公差 中級",
    "未注尺寸公差": "未注尺寸公差",
}


@pytest.mark.parametrize(("note", "named"), UNREAD.items())
def test_a_standard_of_general_tolerances_that_is_not_read_is_told(note, named):
    part, findings = tied(bar(), notes=(note,))
    (told,) = [f for f in findings if f.code == "general-tolerances"]
    assert (told.level, f"general tolerances, {named}, that are not read here: none" in told.message) == (
        "caution",
        True,
    )
    assert part.grooves[0].tolerances == {}


@pytest.mark.parametrize(
    "note",
    [
        "ISO 2768-K",
        "ISO 2768-2 H",
        "Tolerances ISO 8015",
        "General tolerances ISO 8015",
        "GENERAL TOLERANCES ASME Y14.5-2018",
        "GENERAL TOLERANCES ISO 22",
        "GENERAL NOTES ISO 2368",
        "GENERAL TOLERANCES: MEDIUMS",
        "Freimaßtoleranzen siehe Tabelle",
        "General tolerances as agreed in full accordance with ISO 2368",
        "H7/h6",
        "h14, H14",
        "Ø34 H14",
        "3-4 ±0.1",
    ],
)
def test_a_standard_of_form_or_of_rules_gives_no_size_a_tolerance(note):
    assert called_up([Text(note, (0.0, 0.0), 2.5)]) == []


def test_one_that_is_read_stands_beside_one_that_is_not():
    texts = [Text(words, (0.0, 0.0), 2.5) for words in ("ISO 2768-m", "General tolerances ISO 13920-B")]
    assert [one.words for one in called_up(texts)] == ["ISO 2768-m"]


@pytest.mark.parametrize(
    "note",
    [
        "3 ±0.1 ALL GROOVES",
        "ALL 3 ±0.1",
        "34 ±0.1 TOLERANCE",
        "2.0 2 PLACES ±0.1",
        "CONCENTRICITY ±0.05",
        "HARDNESS 58 ±2",
        "ALL ANGLES ±1°",
        "UNLESS STATED ANGLES ±30'",
        "0.00 ±0.05",
        "UNLESS STATED GROOVES ±0.05",
        "ALL DIAMETERS CONCENTRIC WITHIN 0.05",
        "ALL DIAMETERS Ra 1.6",
        "ALL DIAMETERS N7",
        "ALL HOLES H7",
        "ALL THREADS 6g",
        "DIAMETERS 34 -0.1",
        "2 DIAMETERS 34 h11",
        "DIAMETERS A AND B RUN TRUE 0.02",
        "ALL DIMENSIONS FROM FACE A 12-14",
        "WIDTHS ACROSS FLATS",
        "ALL GROOVE DIAMETERS h11",
        "GENERAL TOLERANCE: WIDTH OF GROOVES ±0.05",
    ],
)
def test_what_is_of_one_size_or_of_none_is_no_general_tolerance(note):
    assert called_up([Text(note, (0.0, 0.0), 2.5)]) == []


BY_PLACES = {
    "X.X ±0.2, X.XX ±0.05": {1: 0.2, 2: 0.05},
    "X ±0.5 X.X ±0.2": {0: 0.5, 1: 0.2},
    "X,X ±0,2   X,XX ±0,05": {1: 0.2, 2: 0.05},
    "UNLESS STATED 0.0 ±0.2  0.00 ±0.1": {1: 0.2, 2: 0.1},
    "TOLERANCES: .XXX = ±.005": {3: 0.005},
    "3 PLACE DECIMALS ±.005": {3: 0.005},
    "UNLESS OTHERWISE SPECIFIED: .XX ±.01 .XXX ±.005": {2: 0.01, 3: 0.005},
    "GENERAL TOLERANCES ONE PLACE ±0.2, TWO PLACE ±0.05": {1: 0.2, 2: 0.05},
    "TOLERANCES: 0 DEC ±0.5, 1 DEC ±0.2, 2 DEC PL ±0.1": {0: 0.5, 1: 0.2, 2: 0.1},
    "TOLERANCES: 1 DP ±0.2 2 D.P. ±0.05": {1: 0.2, 2: 0.05},
    "DIMENSIONS ARE IN INCHES TOLERANCES ARE: FRACTIONS ±1/32 DECIMALS .XX ±.01 ANGLES ±1°": {2: 0.01, 6: 0.03125},
}


@pytest.mark.parametrize(("note", "figures"), BY_PLACES.items())
def test_those_by_the_decimals_of_a_size(note, figures):
    (found,) = called_up([Text(note, (0.0, 0.0), 2.5)])
    assert found.figures == figures


PLACED = ("X.X ±0.2, X.XX ±0.05",)


def general_of(*dimensions):
    """The tolerances of two like grooves by `PLACED`, and the cautions."""
    read, findings = tied(bar((-10, -13, 34), (-20, -23, 34)), *dimensions, notes=PLACED)
    told = [f.message for f in findings if f.code == "general-tolerances" and f.level == "caution"]
    return [dict(g.tolerances) for g in read.grooves], told


def test_a_size_has_the_one_of_the_decimals_that_it_is_printed_with_and_so_have_those_like_it():
    found, told = general_of(along(-10, -13, "3.0"), across(34, "2x Ø34.00"), along(0, -10, "10.00"))
    sizes = {"width": (-0.2, 0.2), "floor_diameter": (-0.05, 0.05)}
    assert (found, told) == ([{"z_near": (-0.05, 0.05), **sizes}, sizes], [])


def test_one_whose_decimals_differ_among_like_grooves_is_told():
    three = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))
    part, findings = tied(three, along(-10, -13, "3.0"), along(-20, -23, "3.00"), across(34, "Ø34.0"), notes=PLACED)
    assert [g.tolerances.get("width") for g in part.grooves] == [(-0.2, 0.2), (-0.05, 0.05), None]
    assert any("the width of groove 3: none was applied" in f.message for f in findings)


@pytest.mark.parametrize(
    ("size", "width"),
    [
        (along(-10, -13, "3"), None),
        (along(-10, -13, "3.000"), None),
        (along(-10, -13), None),
        (along(-10, -13, shown="3.00"), (-0.05, 0.05)),
        (along(-10, -13, "<>", shown="3.0"), (-0.2, 0.2)),
        (along(-10, -13, "3.0 +0.1/0"), (0.0, 0.1)),
    ],
)
def test_decimals_are_those_on_paper(size, width):
    found, told = general_of(size, across(34, "2x Ø34.0"))
    assert [one.get("width") for one in found] == [width, width]
    assert any("tell nothing here of the width of groove 1 and width of groove 2" in one for one in told) == (not width)


def test_a_distance_without_them_is_told():
    found, told = general_of(along(-10, -13, "3.0"), across(34, "2x Ø34.0"), along(0, -10, "10"))
    assert "z_near" not in found[0]
    assert ["of the distance of 10: none" in one for one in told] == [True]


HIGH = 2.5
TENTHS = (0.1, 0.2, 0.3)
BOX = [("TOLERANCES", (0.0, 0.0)), ("X.X", (0.0, -6.0)), ("±0.2", (14.0, -6.0)), ("X.XX", (0.0, -12.0))]


@pytest.mark.parametrize(
    ("texts", "figures"),
    [
        ([*BOX, ("±0.05", (14.0, -12.0))], [{1: 0.2, 2: 0.05}]),
        (
            [("UNLESS OTHERWISE STATED", (0.0, 0.0)), ("LINEAR ±0.1", (0.0, -4.0)), ("ANGULAR ±1°", (0.0, -8.0))],
            [{None: 0.1}],
        ),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (0.0, -6.2))], [{None: 0.1}]),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (0.0, -6.3))], []),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (27.2, 0.0))], [{None: 0.1}]),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (27.3, 0.0))], []),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (20.0, 1.2))], [{None: 0.1}]),
        ([("GENERAL", (0.0, 0.0)), ("±0.1", (20.0, 1.3))], []),
        ([("GENERAL", (0.0, 0.0)), ("3 ±0.1", (20.0, 0.0))], []),
        ([("BREAK ALL EDGES", (0.0, 0.0)), ("LIMITS ±.005", (0.0, -4.0))], [{None: 0.005}]),
        ([("BREAK ALL EDGES", (0.0, 0.0)), ("±.005", (0.0, -4.0))], []),
        ([("GENERAL", (0.0, 0.0)), ("ANGULAR ±1°", (0.0, -4.0)), ("LINEAR ±0.1", (0.0, -8.0))], [{None: 0.1}]),
        ([("DEBURR", (0.0, 0.0)), ("GENERAL", (12.0, 0.0)), ("±0.1", (25.0, 0.0))], [{None: 0.1}]),
        ([("DEBURR", (0.0, 0.0)), ("GENERAL", (0.0, -3.0)), ("±0.1", (0.0, -6.0))], [{None: 0.1}]),
        ([("GENERAL ±0.1", (0.0, 0.0)), ("±0.2", (0.0, -4.0)), ("±0.3", (0.0, -8.0))], [{None: n} for n in TENTHS]),
        ([("±0.1", (0.0, 0.0)), ("±0.2", (0.0, -4.0))], []),
        ([("GENERAL ±0", (0.0, 0.0))], []),
        ([("±0.1", (0.0, 0.0)), ("GENERAL", (10.0, 0.0))], []),
        ([("GENERAL", (0.0, 1.3)), ("±0.1", (0.0, 0.0))], [{None: 0.1}]),
        ([("GENERAL", (0.0, 1.2)), ("±0.1", (0.0, 0.0))], []),
        ([("GENERAL", (2.4, 0.0)), ("±0.1", (0.0, -4.0))], [{None: 0.1}]),
        ([("GENERAL", (2.6, 0.0)), ("±0.1", (0.0, -4.0))], []),
        ([("X.XX", (0.0, 0.0)), ("LINEAR ±0.1", (0.0, -4.0))], [{None: 0.1}]),
        ([("GENERAL", (0.0, 0.0)), ("LENGTHS ±0.1", (0.0, -4.0)), ("DIA ±0.2", (0.0, -8.0))], [{}, {}]),
    ],
)
def test_the_cells_of_a_box_are_read_together(texts, figures):
    assert [one.figures for one in called_up([Text(words, at, HIGH) for words, at in texts])] == figures


def test_no_cell_stands_before_itself():
    """A text that is turned downwards ends where it begins along the row."""
    row = [Text("GENERAL", (0.0, 0.0), HIGH, angle=270.0), Text("±0.1", (12.0, 0.0), HIGH, angle=270.0)]
    assert [one.figures for one in called_up(row)] == [{None: 0.1}]


def test_a_long_column_of_tolerances_without_a_heading_is_none():
    """It ended in a traceback: each was looked for behind the one above it, a call within a call."""
    assert called_up([Text("±0.1", (0.0, -4.0 * k), HIGH) for k in range(1200)]) == []


@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("GENERAL TOLERANCES ±0.1", ["General tolerances ±0.1 stand for the sizes without a tolerance of their own."]),
        ("ISO 2768-v", ["General tolerances ISO 2768-v stand for the sizes without a tolerance of their own."]),
        ("TOLERANCES .XXX ±0.05", []),  # 3 and 34 are printed with no decimals
    ],
)
def test_those_that_stand_for_some_sizes_are_noted(note, told):
    """Of the class v the standard gives none up to 3."""
    _, findings = tied(bar((-10, -13, 34)), along(-10, -13, "3"), across(34, "Ø34"), notes=(note,))
    said = [f for f in findings if f.code == "general-tolerances"]
    assert [f.message for f in said if f.level == "note"] == told
    assert any("go by the decimals" in f.message for f in said) is (not told)


def loose(*texts, size=None):
    """The widths of two like grooves where bare sizes stand over the part, by `PLACED`."""
    notes = [Text(words, (0.0, 0.0), HIGH) for words in PLACED]
    notes += [Text(words, (70.0 + 8 * k, 80.0), HIGH) for k, words in enumerate(texts)]
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(notes), dimensions=() if size is None else (size,))
    return [g.tolerances.get("width") for g in tie_dimensions(sheet, bar((-10, -13, 34), (-20, -23, 34)))[0].grooves]


@pytest.mark.parametrize(
    ("texts", "width"),
    [
        (["3.0"], (-0.2, 0.2)),
        (["3.00"], (-0.05, 0.05)),
        (["3.0", "3.0"], (-0.2, 0.2)),
        (["3.0", "3.00"], None),
        (["(3.0)"], None),
        (["3.5"], None),
        (["PIN 3.0"], None),
        (["3"], None),
    ],
)
def test_a_bare_size_beside_the_part_shows_the_decimals_where_no_dimension_does(texts, width):
    assert loose(*texts) == [width, width]


def test_a_dimension_shows_its_own_whatever_stands_beside_the_part():
    assert loose("3.00", size=along(-10, -13, "3.0"))[0] == (-0.2, 0.2)


def test_a_bare_size_and_a_dimension_of_a_like_groove_that_differ_leave_it_open():
    assert loose("3.00", size=along(-10, -13, "3.0")) == [(-0.2, 0.2), None]


def test_a_size_printed_without_decimals_that_can_be_told_has_not_those_of_a_like_one():
    found, _ = general_of(along(-10, -13), along(-20, -23, "3.0"), across(34, "2x Ø34.0"))
    assert [one.get("width") for one in found] == [None, (-0.2, 0.2)]


def test_a_bare_size_far_from_the_part_shows_nothing():
    sheet = [Text(PLACED[0], (0.0, 0.0), HIGH), Text("3.0", (70.0, 150.0), HIGH)]
    part, _ = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(sheet)), bar((-10, -13, 34)))
    assert "width" not in part.grooves[0].tolerances
