"""Words in the text of a groove's dimension: what changes or withholds the size is told, what is usual is not.

The texts are common practice, no source.
"""

import pytest
from support.ties import across, along, bar, tied, tolerances

from extractor.sheet import DimensionKind
from extractor.sizing.remaining.words_beside import unread_words

PART = bar((-10, -13, 34), (-30, -33, 34))
CLASS = "GENERAL TOLERANCES ISO 2768-m"

QUIET = [
    None, "", "<>", "3", "3 TYP", "<> TYP.", "3 +0.1/0", "3 H13", "(3)", "3 REF", "3 WIDE", "NUTBREITE 3", "b=3", "B 3",
    "3 mm", "3 EA", "2x 3", "3 2x", "2 PLCS 3", "3 Ra 1.6", "3 MAX", "3 NOTE 4", "3 BOTH GROOVES",
    "3 GROOVE FOR O-RING", "LARGHEZZA 3", "3 DE LARGE", "3.0 ±0.05 GROUND", "0.1181 IN",
]  # fmt: skip
FLOORS = ["Ø34", "34 DIA", "Ø34 h11", "DIA 34", "Ø34 FLOOR", "NUTGRUND Ø34", "Ø34 (-0.1)", "Ø34 TYP"]
TOLD = [
    "3 AT BOTTOM", "3 AFTER PLATING", "3 nach Beschichtung", "3 BEFORE GRINDING", "3 TBD", "t.b.d.", "?", "3 ?", "*",
    "3 *", "XX", "<> xx", "3 bis 4", "3 THRU 5", "SEE TABLE", "SEE NOTE 3", "nach Muster", "~3", "ca. 3", "3 APPROX",
    "3 DEVELOPED", "3 ON ASSEMBLY", "NTS",
]  # fmt: skip
TOLD_FLOORS = [
    "Ø34 SQ",
    "M34",
    "Ø34 THREAD",
    "Ø34 PITCH DIA",
    "Ø34 TO SUIT",
    "Ø34 PLATED",
    "Ø34 VOR HAERTEN",
    "SPH Ø34",
]


INCHES = bar((-1, -1.125, 1.25), (-2, -2.125, 1.25), diameter=1.5, length=4.0, units="in")


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("Ø1-1/4", []),
        ("Ø1 1/4", []),
        ("Ø1-3/16", ["dimension-contradicts"]),
        ("Ø1-1/4 AFTER PLATING", ["dimension-unclear"]),
    ],
)
def test_a_dash_before_a_fraction_is_no_range(words, codes):
    assert [f.code for f in tied(INCHES, across(1.25, words, z=-1.06))[1]] == codes


def unclear(dimension):
    return [f.message for f in tied(PART, dimension)[1] if f.code == "dimension-unclear"]


@pytest.mark.parametrize("words", QUIET)
def test_usual_words_say_nothing(words):
    assert unclear(along(-10, -13, words)) == []


@pytest.mark.parametrize("words", FLOORS)
def test_usual_words_at_a_floor_say_nothing(words):
    assert unclear(across(34, words, z=-11.5)) == []


@pytest.mark.parametrize("words", TOLD)
def test_what_withholds_or_changes_a_width_is_told(words):
    (message,) = unclear(along(-10, -13, words))
    assert "the width of groove 1, which was taken as drawn, 3, and" in message


def test_a_square_is_told_as_one():
    found = tied(PART, across(34, "[]34", z=-11.5))[1]
    assert [f.code for f in found if "the side of a square" in f.message] == ["note-unread"]


@pytest.mark.parametrize("words", TOLD_FLOORS)
def test_what_makes_a_floor_another_thing_is_told(words):
    assert len(unclear(across(34, words, z=-11.5))) == 1


@pytest.mark.parametrize(
    ("words", "told"), [("10", 0), ("10 TO CENTRE", 1), ("10 ... 12", 1), ("~10", 1), ("10 TYP", 0), ("10 PITCH", 0)]
)
def test_the_place_of_a_groove_as_well(words, told):
    assert len(unclear(along(0, -10, words))) == told


@pytest.mark.parametrize("words", ["60 AS CAST", "7 SEE TABLE"])
def test_sizes_of_no_groove_are_left_alone(words):
    assert unclear(along(0, -60, words)) == unclear(along(-60, -53, words)) == []


def test_a_diameter_printed_elsewhere_may_be_of_another_thing():
    """In an end view the value alone ties it to the floor."""
    assert unclear(across(34, "Ø34 TO SUIT", z=60.0, kind=DimensionKind.DIAMETER)) == []
    assert len(unclear(across(34, "Ø34 TO SUIT", z=-11.5))) == 1


def test_a_size_of_which_nobody_knows_what_it_is_gets_no_general_tolerance():
    given, withheld = (tolerances(PART, along(-10, -13, w), notes=(CLASS,))[0].get("width") for w in ("3", "3 TBD"))
    assert (given, withheld) == ((-0.1, 0.1), None)


def test_what_is_told_in_another_way_is_told_once():
    findings = tied(PART, along(-10, -13, "3 +0.1/?0.1"))[1]
    assert [f.code for f in findings] == ["tolerance-unread"]


@pytest.mark.parametrize(
    ("text", "left"),
    [("3-4", ("3-4",)), ("3 - 3.1", ()), ("12-13 TYP", ("12-13",)), ("3 +0.1", ()), ("3 -0.1", ()), ("A3-4", ())],
)
def test_from_one_figure_to_another(text, left):
    assert unread_words(text) == left
