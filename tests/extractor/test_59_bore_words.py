"""Words of a bore that say more than its diameter, held against the one that was read. Common practice, no source."""

import pytest
from support.draw import Cut, Ink, Turned, section, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

BUSH = Turned(((64.0, 60.0),), (Cut(-10.0, 3.0, 54.0),), bore=32.0)


def told(words, part=BUSH):
    """What is said of a note beside the section of a bush."""
    ink: Ink = section(part)
    sheet = sheet_of(ink, texts=(Text(words, (-60.0, -70.0), 3.5),))
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    return [str(f.level) for f in found if "see whether it is about this part" in f.message]


@pytest.mark.parametrize("words", [
    "BLIND BORE 40 DEEP", "BOHRUNG 50 TIEF", "BORE Ø32 x 40 DEEP", "SACKLOCH 40 TIEF", "ALESAGE PROFONDEUR 45",
    "BORE M32x1.5", "TAPPED BORE M48", "M30 IN BORE", "BORE TAPER 1:50", "TAPERED BORE", "KEGELIGE BOHRUNG 1:20",
    "BORE 1:50", "KEYWAY IN BORE 10 JS9", "PASSFEDERNUT 10 IN BOHRUNG", "BLIND BORE 64 DEEP",
])  # fmt: skip
def test_what_the_bore_does_not_show_is_a_caution(words):
    assert told(words) == ["caution"]


@pytest.mark.parametrize("words", [
    "BORE 64 DEEP", "BOHRUNG 64 TIEF", "BORE M34x2", "BORE M36", "BORE Ø32 H7", "BORE AND GROOVES CONCENTRIC 0.03",
    "GROOVE 3 DEEP", "KEYWAY 10 JS9 ON SHAFT", "TAPER 1:50 ON PART 2", "4 HOLES M6 12 DEEP", "DEBURR BORE",
])  # fmt: skip
def test_what_it_shows_and_what_is_of_another_thing_says_nothing(words):
    assert told(words) == []


def test_how_far_a_core_may_be_from_the_thread():
    """ISO 68-1 (from memory): d1 = d - 1.0825 P: 2.165 for a pitch of 2; from 1.1 to 2.8 is taken."""
    rows = {bore: told("BORE M34x2", Turned(((64.0, 60.0),), (Cut(-10.0, 3.0, 54.0),), bore=bore)) for bore in
            (31.1, 31.3, 32.8, 33.0)}  # fmt: skip
    assert rows == {31.1: ["caution"], 31.3: [], 32.8: [], 33.0: ["caution"]}


@pytest.mark.parametrize(("size", "expected"), [("42.6", []), ("42.7", ["caution"])])
def test_without_a_pitch_the_core_is_no_more_than_a_quarter_below(size, expected):
    """The bore is 32, which is three quarters of 42.67."""
    assert told(f"BORE M{size}") == expected
