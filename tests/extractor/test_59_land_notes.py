"""Notes about lands: their length, their shoulders, their chamfers, their radius, held against what is drawn.

The shaft is 80 long: a shank of 30 across and 30 long with its edge broken by 1, and a head of 40 that is 50 long.
Words: common practice, no source.
"""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

SHAFT = Turned(((30.0, 30.0), (50.0, 40.0)), (Cut(-17.0, 3.0, 26.0), Cut(-56.0, 4.0, 34.0)), chamfer=1.0)
PLAIN = Turned(((80.0, 40.0),), (Cut(-56.0, 4.0, 34.0),))
STOP, CAUTION = [("stop", "note-contradicts")], [("caution", "note-unread")]
SHANK, HEAD = (-8.0, 15.0), (-40.0, 20.0)


def told(words, tip=None, part=SHAFT):
    """Levels and codes of what is said of a note, free or led to a place, but for mere notes."""
    texts = () if tip else (Text(words, (-60.0, -70.0), 2.5),)
    leaders = (Dimension(DimensionKind.LEADER, (tip, (20.0, 60.0)), 0.0, 0.0, words),) if tip else ()
    found = read_sheet(sheet_of(side_view(part), texts=texts, dimensions=leaders), ReadOptions(units="mm")).findings
    return [(f.level.value, f.code.value) for f in found if f.level != "note"]


@pytest.mark.parametrize(
    "words",
    [
        "SHOULDER AT 32", "SHOULDER 32 FROM FRONT FACE", "SHOULDER 50 FROM FRONT FACE", "Absatz bei 32",
        "épaulement à 32", "spallamento 32 dalla faccia anteriore", "Absatz 32 von Vorderseite", "schouder op 32",
        "Ø30 x 32 LONG", "Ø30 x 28 LG", "Ø30 x 32 lang", "HEAD Ø40 x 52", "SHANK Ø30 x 32", "Kopf Ø40 x 52",
        "tête Ø40 x 47",
    ],
)  # fmt: skip
def test_a_shoulder_or_a_length_that_is_not_so_stops(words):
    assert told(words) == STOP


@pytest.mark.parametrize(
    "words",
    [
        "SHOULDER AT 30", "SHOULDER AT 50", "SHOULDER 30 FROM FRONT FACE", "Absatz bei 30",
        "SHOULDER 50 FROM REAR FACE",
        "Ø30 x 30 LONG", "Ø30 x 29 LONG", "Ø30 x 17 LG", "HEAD Ø40 x 50", "SHANK Ø30 x 30", "Kopf Ø40 x 50",
        "SHOULDER 32", "SHOULDER A 0.02", "Ø45 x 85 LONG", "Ø40 x 85 LONG", "Ø26 x 3 LG", "Ø30 x 32", "CHAMFERS 1x45°",
        "CHAMFERS 0.5x45°", "BOTH ENDS 1x45°", "CHAMFER HOLES 2x45°", "R16", "2x45°",
    ],
)  # fmt: skip
def test_what_is_so_or_may_be_of_another_thing_is_quiet(words):
    assert told(words) == []


@pytest.mark.parametrize(
    "words",
    [
        "CHAMFERS 2x45°", "BOTH ENDS 2x45°", "BOTH ENDS 0.5x45°", "FASEN 2x45°", "2x45° BOTH ENDS", "chanfreins 2x45°",
        "beidseitig 2x45°", "smussi 2x45°",
    ],
)  # fmt: skip
def test_chamfers_of_another_leg_are_a_caution(words):
    assert told(words) == CAUTION


@pytest.mark.parametrize(
    ("words", "tip", "codes"),
    [
        ("Ø30 x 35", SHANK, CAUTION), ("Ø30 x 30", SHANK, []), ("R16", SHANK, CAUTION), ("R15", SHANK, []),
        ("R18", HEAD, CAUTION), ("R20", HEAD, []), ("R1", SHANK, []), ("R16", (-30.0, 15.0), []),
        ("TURN TO 30", SHANK, []), ("TURN TO Ø30 h6", SHANK, []), ("TURN TO 32", SHANK, STOP),
        ("drehen auf 40", HEAD, []),
        ("tourner à 38", HEAD, STOP), ("tornire a 40", HEAD, []), ("TURN TO 34", (-58.0, 17.0), []),
    ],
)  # fmt: skip
def test_at_a_leader_it_is_that_land_s(words, tip, codes):
    assert told(words, tip) == codes


@pytest.mark.parametrize(("figure", "is_near"), [("37.4", True), ("37.6", False), ("24.1", True), ("23.9", False)])
def test_a_length_that_is_not_nearly_so_may_be_another_s(figure, is_near):
    """0.8 and 1.25 times 30."""
    assert told(f"Ø30 x {figure} LONG") == (STOP if is_near else CAUTION)


@pytest.mark.parametrize(("figure", "codes"), [("1.7", STOP), ("1.5", [])])
def test_what_is_no_place_is_a_tolerance(figure, codes):
    """A fiftieth of 80 is 1.6."""
    assert told(f"SHOULDER AT {figure}") == codes


def test_a_shoulder_where_none_is_drawn_is_a_caution():
    assert told("SHOULDER AT 32", part=PLAIN) == CAUTION
