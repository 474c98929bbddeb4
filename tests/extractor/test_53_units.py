"""Units are weighed: one clear statement is enough, disagreement or silence is a stop that names both readings."""

from dataclasses import replace

import pytest
from support.weighing import sheet_of, weigh

from extractor.sizing.lettering.printed import parse
from extractor.sizing.scale.unit_evidence import Vote, is_ratio, size_votes
from extractor.sizing.scale.units import decide


def outcome(sheet, across=40.0):
    """Units and the code of the first finding."""
    answer = weigh(sheet, across)
    return answer.units, next((f.code for f in answer.findings), None)


NOTE_MM, NOTE_INCH = ["ALL DIMENSIONS IN MM"], ["DIMENSIONS ARE IN INCHES"]

CASES = {
    "header mm alone": (sheet_of(4), 40, ("mm", None)),
    "header mm, flag inch": (sheet_of(4, 0), 40, ("mm", None)),
    "header inch alone": (sheet_of(1, 0), 1.5, ("in", None)),
    "header inch on a small part": (sheet_of(1, 1), 1.5, ("in", None)),
    "header inch, forty across, nothing else": (sheet_of(1), 40, (None, "units-conflict")),
    "header inch, fourteen across, nothing else": (sheet_of(1), 14, (None, "units-conflict")),
    "header inch, fourteen across, inch habits": (sheet_of(1, 0, [], [(0.125, ".125")]), 14, ("in", None)),
    "header inch, eleven across": (sheet_of(1), 11, ("in", None)),
    "header mm, one across, nothing else": (sheet_of(4), 1.0, (None, "units-conflict")),
    "header mm, note inch": (sheet_of(4, 1, NOTE_INCH), 40, (None, "units-conflict")),
    "header inch, note mm": (sheet_of(1, 0, NOTE_MM), 40, (None, "units-conflict")),
    "header inch, metric habits throughout": (
        sheet_of(1, 1, ["ISO 2768-mK"], [(40, "40")]),
        40,
        (None, "units-conflict"),
    ),
    "nothing at all": (sheet_of(), 40, (None, "units-unknown")),
    "nothing but the flag": (sheet_of(0, 1), 40, (None, "units-unknown")),
    "a library's metre": (sheet_of(6, 1), 40, (None, "units-unknown")),
    "a library's metre on a small part": (sheet_of(6, 1), 1.5, (None, "units-unknown")),
    "centimetre": (sheet_of(5, 1), 4, (None, "units-unknown")),
    "metre, note mm": (sheet_of(6, 1, NOTE_MM), 40, ("mm", "units-weighed")),
    "metre, note inch": (sheet_of(6, 1, NOTE_INCH), 1.5, ("in", "units-weighed")),
    "no header, title block cell mm": (sheet_of(None, None, ["mm"]), 40, ("mm", "units-weighed")),
    "no header, ISO 2768": (sheet_of(None, None, ["General tolerances ISO 2768-mK"]), 40, ("mm", "units-weighed")),
    "no header, class in a dimension": (
        sheet_of(0, 1, [], [(40, "Ø<> h11")]),
        40,
        ("mm", "units-weighed"),
    ),
    "no header, whole sizes, metric flag": (sheet_of(0, 1, [], [(40, "Ø40"), (3, "3")]), 40, ("mm", "units-weighed")),
    "metre, whole sizes": (sheet_of(6, 1, [], [(40, "Ø40"), (3, "3")]), 40, ("mm", "units-weighed")),
    "no header, inch marks": (sheet_of(0, 1, [], [(1.5, '1.500"')]), 1.5, ("in", "units-weighed")),
    "no header, no leading zeros": (sheet_of(0, 0, [], [(0.125, ".125")]), 1.5, ("in", "units-weighed")),
    "no header, both units in notes": (sheet_of(0, 1, NOTE_MM + NOTE_INCH), 40, (None, "units-conflict")),
    "drawn in mm, printed in inch": (sheet_of(4, 1, NOTE_INCH, [(38.1, "1.500")]), 38.1, ("mm", None)),
    "drawn in mm, a sixteenth printed as .062": (sheet_of(4, 1, NOTE_INCH, [(1.5875, ".062")]), 40, ("mm", None)),
    "drawn in inch, printed in mm": (sheet_of(1, 0, NOTE_MM, [(1.5, "38.1")]), 1.5, ("in", None)),
    "drawn in mm, printed in inch, no header": (
        sheet_of(0, 1, NOTE_INCH, [(38.1, "1.500")]),
        38.1,
        ("mm", "units-weighed"),
    ),
    "no header, note inch, a class and a flag": (
        sheet_of(0, 1, NOTE_INCH, [(1.7, "1.7 H7")]),
        1.7,
        ("in", "units-weighed"),
    ),
    "dual note, inch first": (sheet_of(0, 1, ["DIMENSIONS IN INCH [MM]"]), 1.5, ("in", "units-weighed")),
    "Chinese note": (sheet_of(None, None, ["单位: mm"]), 29, ("mm", "units-weighed")),
    "French inch": (sheet_of(0, None, ["COTES EN POUCES"]), 1.7, ("in", "units-weighed")),
    "Swedish mm": (sheet_of(0, None, ["Mått i mm"]), 40, ("mm", "units-weighed")),
    "Norwegian mm": (sheet_of(0, None, ["Alle mål er i mm"]), 40, ("mm", "units-weighed")),
    "no Swedish, but how it shines": (sheet_of(0, None, ["Rand matt in mm"]), 40, (None, "units-unknown")),
    "Dutch mm": (sheet_of(0, None, ["Maten in mm"]), 40, ("mm", "units-weighed")),
    "Czech mm": (sheet_of(0, None, ["Rozměry v mm"]), 40, ("mm", "units-weighed")),
    "Swedish inch": (sheet_of(0, None, ["Mått i tum"]), 1.7, ("in", "units-weighed")),
    "Russian inch": (sheet_of(0, None, ["Размеры в дюймах"]), 1.7, ("in", "units-weighed")),
    "German mm in capitals": (sheet_of(0, None, ["ALLE MASSE IN MM"]), 40, ("mm", "units-weighed")),
    "German mm": (sheet_of(0, None, ["Maße in mm"]), 40, ("mm", "units-weighed")),
}


@pytest.mark.parametrize(("sheet", "across", "expected"), CASES.values(), ids=CASES)
def test_the_balance(sheet, across, expected):
    assert outcome(sheet, across) == expected


@pytest.mark.parametrize(("against", "units"), [(3.5, "in"), (3.51, None)])
def test_a_note_that_names_the_unit_of_all_sizes_needs_hardly_a_lead(against, units):
    hints = [Vote("mm", against / 2, True, f"a hint {k}") for k in range(2)]
    assert decide([Vote("in", 4.0, True, "a note"), *hints], 1.7, None)[0] == units
    assert decide([Vote("in", 3.99, True, "a header"), *hints], 1.7, None)[0] is None


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if case[2][0] is None])
def test_a_stop_names_both_readings_and_what_to_do(name):
    sheet, across, _ = CASES[name]
    (finding,) = weigh(sheet, across).findings
    assert finding.stops
    assert f"{across:.4g} mm or {across:.4g} in across? Give --units mm or --units in." in finding.message


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", CASES)
def test_the_user_settles_it(name, units):
    sheet, across, _ = CASES[name]
    answer = weigh(sheet, across, units=units)
    assert answer.units == units
    assert not any(f.stops for f in answer.findings)


def test_the_user_is_told_what_stands_against_it():
    (finding,) = weigh(sheet_of(4), units="in").findings
    assert (finding.level, finding.code) == ("caution", "units-overridden")
    assert "the header says mm" in finding.message


def test_what_settled_it_is_said():
    (finding,) = weigh(sheet_of(6, 1, NOTE_MM)).findings
    assert "a library's default" in finding.message
    assert "DIMENSIONS IN MM" in finding.message


def test_an_outright_word_is_a_note_and_a_habit_is_a_caution():
    assert [f.level for f in weigh(sheet_of(None, None, NOTE_MM)).findings] == ["note"]
    assert [f.level for f in weigh(sheet_of(None, None, ["ISO 2768-m"])).findings] == ["caution"]


# Codes of $INSUNITS, DXF reference: only 1 and 4 are units that a lathe drawing is read in.
@pytest.mark.parametrize("code", [0, 2, 3, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 20, -1, 99])
def test_no_other_header_code_is_taken_at_its_word(code):
    assert outcome(sheet_of(code))[0] is None


WORDS_OF_NO_UNIT = [
    "SECTION A-A",
    "SHOWN IN FULL",
    "SCALE 1:1",
    "M. MUSTER",
    "3 PLACES",
    "No. 12",
]


@pytest.mark.parametrize("note", WORDS_OF_NO_UNIT)
def test_notes_that_say_nothing_of_units(note):
    assert outcome(sheet_of(0, None, [note])) == (None, "units-unknown")


INNOCENT_IN_MM = ['DETAIL "2"', "DRILL 3 IN LINE", "1/2-13 UNC", "PART IN 2 PIECES", "A 3/4 VIEW", "ASME Y14.5"]


@pytest.mark.parametrize("note", INNOCENT_IN_MM)
def test_notes_that_do_not_shake_a_metric_header(note):
    assert outcome(sheet_of(4, 1, [note])) == ("mm", None)


INNOCENT_IN_INCH = [
    "ISO 9001 CERTIFIED",
    "DIN EN ISO 9001",
    "ZONE F6",
    "ITEM N7",
    "M6 TAPPED",
    "EN 10204 CERT",
    "REV H7",
]


@pytest.mark.parametrize("note", INNOCENT_IN_INCH)
def test_notes_that_do_not_shake_an_inch_header(note):
    assert outcome(sheet_of(1, 0, [note]), across=1.5) == ("in", None)


SAYS_INCH = ['Ø1.500"', '1 1/2"', ".500''", "1.5 in", "1.5 IN. DIA", "3/4 inch", '5/8"']


@pytest.mark.parametrize("text", SAYS_INCH)
def test_numbers_marked_as_inches(text):
    assert outcome(sheet_of(0, None, [text]), across=1.5) == ("in", "units-weighed")


SAYS_MM = ["ISO 2768-m", "DIN 471", "GB/T 894", "DIN EN ISO 13715", "8mm rod", "Ø30 h11", "20H7", "JIS B 0401"]


@pytest.mark.parametrize("text", SAYS_MM)
def test_metric_habits(text):
    assert outcome(sheet_of(0, None, [text]), across=30) == ("mm", "units-weighed")


def test_fractions_as_sizes_are_inches():
    assert outcome(sheet_of(0, None, [], [(0.375, "3/8"), (1.5, "1 1/2")]), across=1.5) == ("in", "units-weighed")


@pytest.mark.parametrize(
    ("text", "true", "other"),
    [(".042", 0.042499, True), (".040", 0.040499, False), ("1.50", 1.5049, True), ("1.50", 1.5051, False)],
)
def test_a_size_of_few_digits_is_the_other_units_within_its_rounding(text, true, other):
    """Half of its last digit, up to 0.012 of the size and 0.002 at least."""
    printed = parse(text)
    assert is_ratio(true * 25.4 / printed.size, 25.4, printed.rounded(printed.size)) is other


@pytest.mark.parametrize(
    ("across", "votes"),
    [
        (24.1, [("mm", 2.0)]),
        (23.9, [("mm", 1.6)]),
        (12.1, [("mm", 1.6)]),
        (11.9, [("mm", 0.5)]),
        (8.1, [("mm", 0.5)]),
        (7.9, []),
        (4.1, []),
        (3.9, [("in", 0.5)]),
        (1.61, [("in", 0.5)]),
        (1.59, [("in", 2.0)]),
    ],
)
def test_what_a_diameter_makes_likely(across, votes):
    assert [(v.units, pytest.approx(v.weight)) for v in size_votes(across)] == votes


@pytest.mark.parametrize(
    ("note", "asked"),
    [
        ("ALL DIMENSIONS IN CM", True),
        ("Alle Maße in cm", True),
        ("DIMENSIONS IN CENTIMETRES", True),
        ("Cotes en cm", True),
        ("UNIT: METER", True),
        ("DIMENSIONS IN THOU", True),
        ("ALL SIZES IN THOUSANDTHS", True),
        ("Dimensions in mils.", True),
        ("DIMENSIONS IN MM, COATING 2 MILS", False),
        ("COATING 2 MILS", False),
        ("Dimensions without tolerance: ISO 2768-m", False),
        ("UNITS MM, VOLUME 12 CM3", False),
        ("DIMENSIONS MM, SURFACE IN CM²", False),
        ("Masse in mm; Länge 2 cm", False),
        ("SURFACE 40 CM2", False),
        ("UNITS: METRIC", False),
        (f"DIMENSIONS {38 * 'x'} CM", True),
        (f"DIMENSIONS {39 * 'x'} CM", False),
    ],
)
def test_a_note_on_another_unit_is_asked_about(note, asked):
    inside = sheet_of(4, 1, [note])
    for sheet in (inside, replace(inside, texts=(), around=inside.texts)):
        answer = weigh(sheet, 40.0)
        told = [f.message for f in answer.findings if "a unit that is not read here: 40 mm or 40 in" in f.message]
        assert (answer.units is None, len(told)) == (asked, asked)


@pytest.mark.parametrize(("unit", "across", "units"), [("MM", 40.0, "mm"), ("IN.", 1.5, "in")])
def test_a_unit_is_of_what_stands_at_most_forty_letters_before_it(unit, across, units):
    """A gap on both sides of the word between them makes 40 of 38."""
    for long, wanted in ((38, units), (39, None)):
        assert weigh(sheet_of(0, 1, [f"DIMENSIONS {long * 'x'} {unit}"]), across).units == wanted


INCH_SHEETS = [
    "DIMENSIONS IN [ ] ARE MM", "DIMENSIONS IN BRACKETS ARE MILLIMETERS", "INCHES [MILLIMETERS]", "INCH [MM]",
    "DIMENSIONS IN PARENTHESES ARE IN MM FOR REFERENCE", "MM VALUES IN BRACKETS", "METRIC EQUIVALENTS IN BRACKETS",
    "DIMENSIONS IN INCHES, MM IN BRACKETS", "DIMENSIONS ARE IN INCHES [MM]",
]  # fmt: skip
METRIC_SHEETS = [
    "INCH DIMENSIONS IN BRACKETS", "DIMENSIONS IN [ ] ARE INCHES", "DIMENSIONS IN MM (INCHES IN BRACKETS)",
    "MILLIMETRES [INCHES]", "INCH VALUES IN PARENTHESES",
]  # fmt: skip


@pytest.mark.parametrize(
    ("note", "sheet", "across", "units"),
    [(note, (1, 1), 1.6, "in") for note in INCH_SHEETS] + [(note, (4, 1), 40.0, "mm") for note in METRIC_SHEETS],
)
def test_the_unit_of_what_stands_in_brackets_is_not_that_of_the_others(note, sheet, across, units):
    assert outcome(sheet_of(*sheet, [note]), across) == (units, None)
    assert outcome(sheet_of(0, None, [note]), across)[0] == units


@pytest.mark.parametrize("note", [".XX +/-.01 .XXX +/-.005", "FRACTIONS +/-1/64", "SURFACES 125 MICROINCHES", "63 µin"])
def test_how_inches_are_toleranced_shakes_a_header_in_mm(note):
    """Its lead over a habit is 3.5 - 2, and the diameter's weight: below 1.5 it is asked, below 3 told."""
    found = [outcome(sheet_of(4, 1, [note]), across) for across in (1.6, 3.9, 4.1, 11.9, 12.1)]
    assert found == [
        (None, "units-conflict"), (None, "units-conflict"), ("mm", "units-weighed"), ("mm", "units-weighed"),
        ("mm", None),
    ]  # fmt: skip
    assert outcome(sheet_of(1, 0, [note]), 1.6) == ("in", None)


@pytest.mark.parametrize("note", ["X.XX ±0.01", "±0.05", "±.05", "R.5", "3/8 OF THE LENGTH", "VOLUME 1 MICRO LITRE"])
def test_what_only_looks_like_it_does_not(note):
    assert outcome(sheet_of(4, 1, [note]), 4.1) == ("mm", None)


def test_a_length_of_something_else_is_no_note_on_all_sizes_and_is_quoted_whole():
    assert outcome(sheet_of(4, 1, ["PIPE 2 INCH"]), 40.0) == ("mm", None)
    (conflict,) = weigh(sheet_of(1, 1, ["PLASTIC SPACER 20 MM LONG"]), 1.6).findings
    assert 'a text reads "20 MM"' in conflict.message
    (told,) = weigh(sheet_of(0, 0, ["ASME Y14.5", '1.5"']), 1.5).findings
    assert '"ASME Y14.5"' in told.message


@pytest.mark.parametrize(
    ("words", "units"),
    [
        ("M6 SCREW 20 MM LONG", "in"),
        ("M6 x 1 x 20 MM", "in"),
        ("SCREW 20 MM LONG", None),
        ("M6 SCREW|PLATE 20 MM THICK", None),
    ],
)
def test_a_length_beside_a_thread_is_that_of_a_screw(words, units):
    """The sheet is in inches, the part 1.6 across; what is bought by its thread has a unit of its own."""
    assert weigh(sheet_of(1, 1, words.split("|")), 1.6).units == units
    for_mm = weigh(sheet_of(4, 0, ["1/4-20 UNC SCREW 1 INCH LONG"]), 40)
    assert (for_mm.units, for_mm.findings) == ("mm", ())


@pytest.mark.parametrize(
    ("words", "units"),
    [
        ("DIM. EN MM", "mm"), ("Dim. in mm", "mm"), ("DIMS. MM", "mm"), ("Abm. in mm", "mm"), ("WYM. W MM", "mm"),
        ("DIM. IN INCHES", "in"), ("DIM. IN IN.", "in"), ("DIM. EN CM", None), ("SEE DIM. TABLE. MM", None),
    ],
)  # fmt: skip
def test_what_a_note_on_units_speaks_of_may_be_cut_short(words, units):
    assert outcome(sheet_of(None, None, [words]), 1.5 if units == "in" else 40)[0] == units
