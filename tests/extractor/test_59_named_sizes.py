"""Texts that name one thing of the part with its size: held against what is drawn of it.

The words, and which of them a hole across the part may have too: common practice, no source.
"""

import pytest
from support.draw import Cut, Ink, Turned, mixed, section, sheet_of, side_view, with_centre

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text

BUSH = Turned(((60.0, 60.0),), (Cut(-20.0, 4.0, 54.0),), bore=30.0)
"""60 long and across, with a bore of 30: the wall is 15, and 12 under the groove."""
STOP, CAUTION = ("stop", "note-contradicts"), ("caution", "note-unread")


STEPPED = Ink().chain([(0, 18, 0), (0, 30, 0), (-60, 30, 0), (-60, 15, 0), (-20, 15, 0), (-20, 18, 0)], close=True)
"""Half of a bush with a bore of 36 for 20, and of 30 behind: the wall is 12 and 15."""


def told(*words, ink=None, circles=()):
    """Levels and codes of what is said of notes that stand away from the part."""
    notes = tuple(Text(one, (-30.0, -70.0 - 8 * k), 2.5) for k, one in enumerate(words))
    sheet = sheet_of(ink or section(BUSH), texts=notes, circles=circles)
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    return [(f.level.value, f.code.value) for f in found if f.code.value.startswith("note-") and f.level != "note"]


@pytest.mark.parametrize(
    "words",
    [
        "BORE Ø32", "ID 31", "I.D. Ø32 H7", "THRU BORE 28 DIA", "BORE 28 THRU", "Ø29 BORE", "Innendurchmesser 32",
        "alésage Ø32 H7", "diamètre intérieur 32", "alesaggio Ø32", "diámetro interior 28", "diâmetro interno 32",
        "binnendiameter 32", "średnica wewnętrzna 32", "vnitřní průměr 32", "innerdiameter 32",
        "WALL THICKNESS 14", "14 WALL", "Wanddicke 14", "Wandstärke 14", "épaisseur de paroi 14", "spessore parete 14",
        "espesor de pared 14", "wanddikte 16", "grubość ścianki 14", "tloušťka stěny 14", "godstjocklek 14",
    ],
)  # fmt: skip
def test_a_bore_or_a_wall_of_another_size_stops(words):
    assert told(words) == [STOP]


@pytest.mark.parametrize(
    "words", ["Bohrung Ø32 H7", "DRILL 28 THRU", "Ø28 THRU HOLE", "foro passante Ø32", "otwór Ø32", "hål Ø28", "gat 32"]
)
def test_one_by_a_name_that_a_hole_across_may_have_is_a_caution(words):
    assert told(words) == [CAUTION]


def test_one_that_is_drawn_end_on_is_there():
    hole = Circle((90.0, 0.0), 16.0, Source("FF", "CIRCLE", "0", Pen.SOLID))
    assert told("Bohrung Ø32", circles=(hole,)) == []
    assert told("BORE Ø32", circles=(hole,)) == [STOP]


@pytest.mark.parametrize(
    "words",
    [
        "BORE Ø30", "BORE 30 H7", "Bohrung Ø30 +0.021", "ID 30", "DRILL 30 THRU", "WALL 15", "Wanddicke 12", "30 BORE",
        "4x DRILL 5", "DRILL 5 THRU", "Bohrung Ø5 quer", "CROSS HOLE Ø28", "TAP M32", "Bohrung M32", "BORE M32x1.5",
        "PILOT BORE Ø28", "HOUSING BORE Ø32", "BAR Ø65", "TUBE 60x14", "CENTRE DRILL Ø5", "FOR BORE Ø32",
        "BORE LIGHTLY OILED",
    ],
)  # fmt: skip
def test_what_is_as_drawn_or_of_another_thing_is_not(words):
    assert told(words) == []


@pytest.mark.parametrize(
    ("words", "level"),
    [("BORE Ø30", ""), ("BORE Ø36 H8", ""), ("WALL 12", ""), ("BORE Ø34", "stop"), ("WALL 14", "stop")],
)
def test_of_several_bores_a_text_gives_one(words, level):
    lower = STEPPED.map(lambda x, y: (x, -y))
    ink = with_centre(mixed(STEPPED, lower), BUSH, 5.0)
    assert [one for one, _ in told(words, ink=ink)] == [level] * bool(level)


def test_beside_one_as_drawn_another_may_be_of_a_fellow():
    assert told("BORE Ø32", "BORE Ø30") == [CAUTION]


@pytest.mark.parametrize(
    "words", ["BORE Ø32", "I.D. 20", "ALESAGE 20", "Innendurchmesser 30", "WALL 14", "DRILL 28 THRU"]
)
def test_a_bore_or_a_wall_where_no_bore_is_drawn_is_a_caution(words):
    assert told(words, ink=side_view(BUSH)) == [CAUTION]


@pytest.mark.parametrize("words", ["ID 32", "DRILL 28", "FORO 12", "HEAD Ø60", "BORE 61"])
def test_but_a_number_a_hole_across_or_a_land_is_not(words):
    assert told(words, ink=side_view(BUSH)) == []


@pytest.mark.parametrize(("words", "is_told"), [("GAT 8", True), ("HAL 5", True), ("ID 34", True), ("FORO 12", False)])
def test_a_name_that_no_rule_holds_there_is_as_other_words_are(words, is_told):
    found = read_sheet(sheet_of(side_view(BUSH), texts=(Text(words, (-30.0, -50.0), 2.5),)), ReadOptions(units="mm"))
    assert [(f.level.value, words in f.message) for f in found.findings if f.code == "note-unread"] == (
        [("note", True)] * is_told
    )


def led_told(words, ink, tip):
    """Levels and codes of what is said of a note whose leader ends at a place of the part."""
    led = Dimension(DimensionKind.LEADER, (tip, (20.0, 60.0)), 0.0, 0.0, words)
    found = read_sheet(sheet_of(ink, dimensions=(led,)), ReadOptions(units="mm")).findings
    return [(f.level.value, f.code.value) for f in found if f.code.value.startswith("note-") and f.level != "note"]


FLOOR, BORED, LAND = (-22.0, 27.0), (-40.0, 15.0), (-40.0, 30.0)


@pytest.mark.parametrize(
    ("words", "ink", "tip"),
    [
        ("ID 54", side_view(BUSH), FLOOR), ("BORE 20", side_view(BUSH), FLOOR), ("GAT 8", side_view(BUSH), FLOOR),
        ("ID 34", side_view(BUSH), LAND), ("BORE 20", side_view(BUSH), LAND), ("ID 31", section(BUSH), FLOOR),
        ("WALL 14", section(BUSH), FLOOR), ("ALESAGE 54", section(BUSH), FLOOR), ("Bohrung 31", section(BUSH), BORED),
    ],
)  # fmt: skip
def test_one_led_to_what_it_can_not_name_is_a_caution(words, ink, tip):
    assert led_told(words, ink, tip) == [CAUTION]


@pytest.mark.parametrize(
    ("words", "tip", "expected"),
    [
        ("BORE 31", BORED, [STOP]), ("ID 28", BORED, [STOP]), ("BORE 30", BORED, []), ("ID 30", FLOOR, []),
    ],
)  # fmt: skip
def test_one_led_to_the_bore_is_held(words, tip, expected):
    assert led_told(words, section(BUSH), tip) == expected


def test_one_led_to_a_groove_in_the_bore_may_give_its_floor():
    half = [(0, 30, 0), (0, 15, 0), (-20, 15, 0), (-20, 18, 0), (-24, 18, 0), (-24, 15, 0), (-60, 15, 0), (-60, 30, 0)]
    upper = Ink().chain(half, close=True)
    ink = with_centre(mixed(upper, upper.map(lambda x, y: (x, -y))), BUSH, 5.0)
    assert led_told("BORE 36", ink, (-22.0, 18.0)) == []
    assert led_told("BORE 37", ink, (-22.0, 18.0)) == [CAUTION]


@pytest.mark.parametrize(
    ("size", "level"),
    [
        ("12", "caution"),
        ("9", ""),
        ("24", "stop"),
        ("23", "caution"),
        ("37", "stop"),
        ("38", "caution"),
        ("60", "caution"),
    ],
)
def test_a_whole_number_behind_id_may_be_that_of_the_part(size, level):
    assert [one for one, _ in told(f"ID {size}")] == [level] * bool(level)


@pytest.mark.parametrize(
    ("size", "level"), [("10.1", "stop"), ("9.9", "caution"), ("59.9", "stop"), ("60.1", ""), ("4711", "")]
)
def test_a_size_of_a_third_may_be_of_another_bore_and_one_larger_than_the_part_is(size, level):
    assert [one for one, _ in told(f"ID {size}")] == [level] * bool(level)


@pytest.mark.parametrize(("size", "is_told"), [("24.1", True), ("23.9", False), ("37.4", True), ("37.6", False)])
def test_a_hole_that_is_not_nearly_as_large_is_another(size, is_told):
    assert told(f"DRILL {size}") == [CAUTION] * is_told


HEADED = side_view(Turned(((30.0, 30.0), (50.0, 40.0)), (Cut(-45.0, 4.0, 34.0),), chamfer=1.0))
"""A shank of 30, its end broken by 1, and a head of 40."""


@pytest.mark.parametrize(
    "words",
    [
        "SHANK Ø32", "SHANK Ø28 h6", "Bund Ø42", "Kopf Ø42", "tête Ø42", "gambo Ø32", "vástago Ø32", "haste Ø32",
        "kraag Ø42", "kołnierz Ø42", "dřík Ø32", "skaft Ø32", "Ø42 COLLAR", "HEAD DIA 42",
    ],
)  # fmt: skip
def test_a_land_by_its_name_of_another_diameter_stops(words):
    assert STOP in told(words, ink=HEADED)


@pytest.mark.parametrize(
    "words",
    [
        "SHANK Ø30", "SHANK Ø30 h6", "Bund Ø40", "Kopf Ø40", "Ø40 COLLAR", "BAR Ø42", "RING Ø42", "TOOL SHANK Ø32",
        "FLANGE OF HOUSING Ø42", "SHOULDER SCREW M8", "HEAD M42", "SHAFT COLLAR TO SUIT",
    ],
)  # fmt: skip
def test_but_one_as_drawn_or_of_another_thing_does_not(words):
    assert STOP not in told(words, ink=HEADED)
