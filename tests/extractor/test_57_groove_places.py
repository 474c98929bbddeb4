"""Places of grooves in words: held against their walls and middles, and never taken for what turns Z0.

How such notes are written: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, rotated, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

PIN = Turned(((80.0, 40.0),), (Cut(-27.0, 3.0, 34.0), Cut(-44.0, 4.0, 34.0), Cut(-56.0, 4.0, 34.0)))
"""80 long; grooves from 27 to 30, 44 to 48 and 56 to 60, so that the last begins 20 from the back."""
FIRST, LAND = (-28.5, 17.0), (-10.0, 20.0)


def told(words, tip=None, degrees=0.0):
    """Levels of what is said of a note led to a place, or standing away from the part; Z0 stays where it was."""
    move = rotated(degrees)
    led = [Dimension(DimensionKind.LEADER, (move(*tip), move(tip[0] + 9, 40.0)), 0.0, 0.0, words)] if tip else []
    texts = [] if tip else [Text(words, move(-40.0, -70.0), 2.5)]
    sheet = sheet_of(side_view(PIN), move, dimensions=tuple(led), texts=tuple(texts))
    reading = read_sheet(sheet, ReadOptions(units="mm", front="right" if not degrees else "top"))
    assert [g.z_near for g in reading.part.grooves] == pytest.approx([-27, -44, -56])
    return [f.level.value for f in reading.findings if f.code in ("note-contradicts", "note-unread")]


@pytest.mark.parametrize(
    "words",
    [
        "{} FROM FRONT FACE", "{} FROM FACE", "GROOVE {} FROM FACE", "{} von vorn", "Lage {}", "Z-{}", "Pos. {} mm",
        "{} von Vorderkante", "{} depuis la face avant", "{} dalla faccia anteriore", "{} desde la cara frontal",
        "{} da face frontal", "{} vanaf voorkant", "{} od czoła", "{} od čela", "{} från framkant", "poloha {}",
    ],
)  # fmt: skip
def test_the_place_of_the_groove_that_a_note_is_led_to_is_held(words):
    assert told(words.format("27"), FIRST) == []
    assert told(words.format("25"), FIRST) == ["stop"]


@pytest.mark.parametrize(
    ("words", "stops"),
    [("POS 12", False), ("Pos. 25", False), ("POS: 12", False), ("POS 25.5", True), ("POS. 25 FROM FRONT", True)],
)
def test_a_position_with_a_bare_whole_number_is_an_item_of_a_list(words, stops):
    """Common practice, no source: a parts list numbers its items so."""
    assert ("stop" in told(words, FIRST)) is stops


@pytest.mark.parametrize(("figure", "wrong"), [("50", False), ("53", False), ("27", True)])
def test_a_place_from_the_rear_end_is_not_one_from_the_front(figure, wrong):
    """The groove from 27 to 30 ends 50 from the back of a part 80 long."""
    assert [told(f"{figure} {end}", FIRST) for end in ("FROM REAR FACE", "von Rückseite")] == [["stop"] * wrong] * 2


@pytest.mark.parametrize(
    ("figure", "tip", "wrong"),
    [("28,5", FIRST, False), ("44", FIRST, True), ("26.9", FIRST, True), ("25", LAND, False)],
)
def test_it_is_that_of_this_groove_and_of_no_land(figure, tip, wrong):
    assert ("stop" in told(f"{figure} FROM FRONT FACE", tip)) is wrong


def test_so_it_is_on_a_part_that_stands_upright():
    assert (told("27 FROM FACE", FIRST, 90.0), told("25 FROM FACE", FIRST, 90.0)) == ([], ["stop"])


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("28,5 TO CENTRE", False), ("17 TO CENTRE", False), ("26 TO CENTRE", True), ("27 bis Mitte", True),
        ("27 al centro", True), ("28.5 DO STŘEDU", False), ("50 FROM FACE", False), ("50 FROM FRONT FACE", True),
    ],
)  # fmt: skip
def test_the_middle_of_a_groove_is_no_wall_and_the_front_is_no_back(words, wrong):
    """The middle lies 28.5 from the front, the floor 17 from the axis; 50 from the back is the far wall."""
    assert told(words, FIRST) == ["stop"] * wrong


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("GROOVES AT 27, 44 AND 56 FROM FRONT", False), ("GROOVE POSITIONS: 27 / 44 / 56", False),
        ("Nuten bei 27, 44 und 56 von vorn", False), ("GROOVES AT 27,44,56", False), ("Nutlage 27", False),
        ("GROOVES AT 12", False), ("GROOVES AT 17", True),
        ("GROOVES AT 27, 45 AND 56 FROM FRONT", True), ("GROOVE POSITIONS: 27 / 44 / 55", True),
        ("gorges à 27, 44 et 57 de la face avant", True), ("ranuras en 27, 45 y 56", True), ("Nutlage 25", True),
        ("LAST GROOVE ENDS 60 FROM FRONT FACE", False), ("LAST GROOVE ENDS 62 FROM FRONT FACE", True),
        ("LAST GROOVE ENDS 56 FROM FRONT FACE", True), ("letzte Nut endet 62 von vorn", True),
        ("ERSTE NUT 27 VON VORN", False), ("ERSTE NUT 25 VON VORN", True), ("ERSTE NUT 44 VON VORN", True),
        ("première gorge 25 de la face avant", True), ("prima gola 25 dalla faccia", True),
        ("primera ranura 25 de la cara frontal", True), ("eerste groef 25 van voorkant", True),
        ("GROOVE 2 FROM FRONT", False), ("GROOVE 3 FROM FACE", False), ("GROOVE 4 FROM FACE", False),
        ("GROOVE 5 FROM FACE", True), ("GROOVE 44 FROM FACE", False), ("GROOVES 3 WIDE", False),
        ("HOLE 25 FROM FRONT FACE", False), ("25 FROM FRONT FACE", False), ("KEYWAY AT 25", False),
        ("OIL GROOVE PER NOTE 5", False), ("GROOVES AT 25 DEG", False),
    ],
)  # fmt: skip
def test_places_in_a_note_that_stands_free_are_those_of_grooves(words, wrong):
    assert ("stop" in told(words)) is wrong
