"""Two figures with a stroke between them, led to a groove: its width by its depth, unless they are something else.

The groove is 4 wide and 3 deep in a shaft of 40. The form: common practice, no source; roughnesses ISO 1302.
"""

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view, with_centre

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text

SHAFT = Turned(((80.0, 40.0),), (Cut(-20.0, 4.0, 34.0),))
STOP, CAUTION = ["note-contradicts"], ["note-unread"]


def told(words, tip=(-22.0, 17.0), ink=None):
    """Codes of what is said of a note at a leader, stops and cautions."""
    led = Dimension(DimensionKind.LEADER, (tip, (10.0, 60.0)), 0.0, 0.0, words)
    found = read_sheet(sheet_of(ink or side_view(SHAFT), dimensions=(led,)), ReadOptions(units="mm")).findings
    return [f.code for f in found if f.code.startswith("note-")]


@pytest.mark.parametrize("words", ["4/2.5", "4 / 2,5", "4/2", "4.5/3", "5/3", "4/4", "4/6"])
def test_a_width_by_a_depth_of_which_one_is_drawn_is_held(words):
    assert told(words) == STOP


@pytest.mark.parametrize("words", ["5/2", "6/3.2"])
def test_one_of_which_none_is_drawn_may_be_something_else(words):
    assert told(words) == CAUTION


@pytest.mark.parametrize(
    "words",
    ["4/3", "4 / 3", "3/4", "1/2", "3/16", "4/34", "4/3.9", "4.1/4", "1.6/0.8", "3.2/1.6", "1/3"],
)
def test_what_is_drawn_a_fraction_limits_and_roughnesses_are_quiet(words):
    """3/4 and 1/2 are fractions of an inch; 4/3.9 are nearer than a tolerance of grade 16 (ISO 286-1)."""
    assert told(words) == []


def test_one_led_to_a_land_or_standing_free_gives_no_groove_s_sizes():
    assert told("4/2.5", tip=(-50.0, 20.0)) == []
    sheet = sheet_of(side_view(SHAFT), texts=(Text("4/2.5", (40.0, -60.0), 2.5),))
    assert [f.code for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.level != "note"] == []


def test_in_a_bore_as_well():
    half = [(0, 30, 0), (0, 15, 0), (-20, 15, 0), (-20, 18, 0), (-24, 18, 0), (-24, 15, 0), (-60, 15, 0), (-60, 30, 0)]
    upper = Ink().chain(half, close=True)
    ink = with_centre(mixed(upper, upper.map(lambda x, y: (x, -y))), SHAFT, 5.0)
    assert [told(words, (-22.0, 18.0), ink) for words in ("4/3", "4/2.5")] == [[], STOP]
