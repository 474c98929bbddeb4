"""What the sheet prints of another outline than the one read is a stop; drawings with few diameters are left alone."""

import pytest
from support.draw import Cut, Turned, sheet_of, side_view
from support.ties import across, along, bar, frame, half, span, tied

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind


def doubts(*dimensions, notes=(), part=None):
    """Codes of the stops."""
    return [f.code for f in tied(part or bar(), *dimensions, notes=notes)[1] if f.stops]


def elsewhere(size, text, **fields):
    """A dimension far from the part."""
    return span((500, 0), (500, size), text, **fields)


WRONG = {
    "a smaller diameter on another view": [elsewhere(12, "Ø12")],
    "measured with its sign": [elsewhere(12, "Ø<>")],
    "two of them": [elsewhere(12, "Ø12"), elsewhere(8, "Ø8 h11")],
    "a diameter dimension": [elsewhere(12, "Ø12", kind=DimensionKind.DIAMETER)],
}


@pytest.mark.parametrize("dimensions", WRONG.values(), ids=WRONG)
def test_diameters_of_another_part(dimensions):
    assert doubts(*dimensions) == ["outline-doubtful"]


@pytest.mark.parametrize("note", ["Ø12", "dia 12", "Ø12 h11", "4x Ø12"])
def test_a_bare_text_may_name_a_hole_and_is_a_caution(note):
    """Besides, the size itself is asked about where it stands alone."""
    (finding,) = [f for f in tied(bar(), notes=[note])[1] if f.code != "dimension-unclear"]
    assert (finding.code, finding.level) == ("outline-doubtful", "caution")


def test_several_texts_none_of_which_is_on_the_part_are_a_stop():
    assert doubts(notes=["Ø12", "Ø8"]) == ["outline-doubtful"]
    assert doubts(notes=["Ø38", "Ø34"]) == []


def test_a_dimension_that_measures_another_size_than_it_prints_is_a_caution():
    (finding,) = tied(bar(), elsewhere(17, "Ø12"))[1]
    assert finding.level == "caution"


def test_the_sentence_names_both_diameters():
    (stop,) = tied(bar(), elsewhere(12, "Ø12"))[1]
    assert "No printed size says 40 across; the largest diameter printed, 12," in stop.message


@pytest.mark.parametrize(
    ("sizes", "stop"),
    [
        ((64, 50), True),
        ((64, 64), False),  # one of a hole or a pitch circle says nothing
        ((64, 50, 34), False),  # two grooves have a floor of 34
        ((64,), False),
    ],
)
def test_diameters_about_the_axis_that_the_part_has_none_of_are_those_of_another_outline(sizes, stop):
    """Larger than the part, which no other rule asks about: what was read may be a keyway on a shaft."""
    about = [across(size, f"Ø{size}", z=200 + k) for k, size in enumerate(sizes)]
    assert doubts(*about) == ["outline-doubtful"] * stop
    beside = [span((200, 5), (200, 5 - size), f"Ø{size}") for size in (64, 50)]
    assert doubts(*beside) == []


@pytest.mark.parametrize(
    ("others", "stop"),
    [
        ([(300, 290), (300, 280)], True),
        ([(300, 290)], False),  # two sizes are few: an end view may have them
        ([(300, 290), (-10, -13)], False),  # the width of a groove: it is the part that is sized
    ],
)
def test_one_such_diameter_is_enough_where_several_sizes_are_measured_and_none_at_the_part(others, stop):
    """A half circle on the axis was read as half a ball, within the part that has the sizes."""
    assert doubts(across(64, "Ø64", z=200), *(along(*ends) for ends in others)) == ["outline-doubtful"] * stop


RIGHT = {
    "nothing printed": [],
    "its own diameter": [across(40, "Ø40", z=-30), elsewhere(12, "Ø12")],
    "its own diameter without a sign": [across(40, None, z=-30), elsewhere(12, "Ø12")],
    "half its diameter": [half(40, None, z=-30), elsewhere(12, "Ø12")],
    "only a floor": [across(30, "Ø30", z=-46)],
    "a larger one": [elsewhere(64, "Ø64")],
    "no diameter": [along(-10, -13, "3"), elsewhere(12, "12")],
    "a thread": [elsewhere(12, "M12")],
    "in inches": [elsewhere(40, "Ø1.575")],
}


def test_the_middle_of_a_face_groove_is_a_diameter_of_the_part():
    part = bar((0, -4, 30, {"where": "face", "mouth_diameter": 40.0}), diameter=60)
    assert doubts(across(35, "Ø35 ±0.1", z=0), part=part) == []
    assert doubts(across(36, "Ø36 ±0.1", z=0), part=part) == ["off-outline"]
    assert doubts(across(36, "Ø36 ±0.1", z=2.9), part=part) == ["off-outline"]  # within a twentieth of the part
    assert doubts(across(36, "Ø36 ±0.1", z=3.1), part=part) == ["outline-doubtful"]


@pytest.mark.parametrize("dimensions", RIGHT.values(), ids=RIGHT)
def test_what_raises_no_doubt(dimensions):
    assert doubts(*dimensions) == []


def test_a_bore_is_a_diameter_of_the_part():
    assert doubts(elsewhere(12, "Ø12"), part=bar((-10, -13, 34), bore=12.0)) == []


def test_long_notes_are_no_sizes():
    assert doubts(notes=["DRILL AND REAM THE DOWEL HOLE DIA 12 AT ASSEMBLY ONLY"]) == []


@pytest.mark.parametrize("turn", [0, 90, 180, 217])
def test_a_length_is_no_half_of_a_diameter(turn):
    at = frame(turn)
    other, part = elsewhere(12, "Ø12"), bar(at=at)
    assert doubts(span((-10, 30), (-30, 30), "20", at), other, part=part) == ["outline-doubtful"]
    assert doubts(span((-10, 0), (-10, 20), "20", at), other, part=part) == []
    assert doubts(span((-10, 30), (-50, 30), "40", at), other, part=part) == []


LENGTH = bar().length
TURNED = {
    "its length in a text": (bar(), [f"Ø{LENGTH:g}"]),
    "its length beside a length": (bar(), [f"Ø{LENGTH:g}", "40"]),
    "half its width": (bar(), ["Ø20"]),
    "its wall": (bar(bore=12.0), ["Ø14"]),
}


@pytest.mark.parametrize(("part", "notes"), TURNED.values(), ids=TURNED)
def test_a_diameter_that_is_a_length_of_the_part_means_another_axis(part, notes):
    (stop,) = (f for f in tied(part, notes=notes)[1] if f.stops)
    assert stop.code == "outline-doubtful"
    assert "the turning axis may be another" in stop.message


@pytest.mark.parametrize("notes", [[f"Ø{LENGTH:g}", "Ø40"], [f"{LENGTH:g}", "Ø40"], [f"{LENGTH:g}"]])
def test_a_diameter_of_the_part_speaks_for_its_axis(notes):
    assert doubts(notes=notes) == []


@pytest.mark.parametrize(
    "words",
    ["Alle Durchmesser h9", "ALL DIA h9", "ALL Ø h9", "ALL DIAMETERS h9", "Alle Ø IT9", "TOUS LES DIAMÈTRES h9"],
)
def test_a_class_of_all_diameters_is_no_diameter(words):
    """It is told as general tolerances that are not read."""
    assert [f.code for f in tied(bar(), notes=[words])[1]] == ["general-tolerances"]


@pytest.mark.parametrize(("off", "told"), [(32.4, ["outline-doubtful"]), (32.6, []), (90.0, [])])
def test_a_diameter_measured_clear_of_the_view_says_nothing_of_its_axis(off, told):
    """26 across and 40 long: sizes to three quarters of the former from the axis are at the view; 40 is elsewhere."""
    part = Turned(((40.0, 26.0),), (Cut(-10.0, 3.0, 20.0),))
    ends = (-20.0, -13.0 + off), (-20.0, 27.0 + off)
    size = Dimension(DimensionKind.LINEAR, ends, 90.0, 40.0, "Ø40")
    found = read_sheet(sheet_of(side_view(part), dimensions=(size,)), ReadOptions(units="mm")).findings
    assert [f.code for f in found if f.stops] == told
