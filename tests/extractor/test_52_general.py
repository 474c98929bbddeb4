"""General tolerances ISO 2768-1 at both sides of every step, and the notes that call them up."""

import pytest
from support.ties import along, bar, tied
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.general import STEPS, called_up, general_classes, linear, radius

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
    assert called_up(["ISO 2768-m"])[0].radius(0.8, 1.0) == (-0.2, 0.2)
    assert called_up(["ISO 2768-c"])[0].radius(0.5, 1.0) == (-0.4, 0.4)
    assert called_up(["ISO 2768-v"])[0].radius(4.0, 1.0) == (-1.0, 1.0)
    assert called_up(["ISO 2768-m"])[0].radius(0.4, 1.0) is None
    assert called_up(["ISO 2768-m"])[0].radius(1.0 / 25.4, 25.4) == pytest.approx((-0.2 / 25.4, 0.2 / 25.4))
    assert called_up(["GENERAL TOLERANCE ±0.3"])[0].radius(0.2, 1.0) == (-0.2, 0.3)
    assert called_up(["GENERAL TOLERANCE ±0.3"])[0].radius(0.5, 1.0) == (-0.3, 0.3)


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
    words: ([words], named)
    for words, named in {
        "TOLERANCES: .XXX = ±.005": ".XXX ±.005",
        "UNLESS NOTED .XXX ±.005": ".XXX ±.005",
        "3 PLACE DECIMALS ±.005": ".XXX ±.005",
        "UNLESS OTHERWISE SPECIFIED: .XX ±.01 .XXX ±.005": ".XX ±.01 and .XXX ±.005",
        "DECIMALS .XX ± .010, .XXX ± .005": ".XX ±.010 and .XXX ±.005",
    }.items()
}


@pytest.mark.parametrize(("notes", "named"), TWO_NOTES.values(), ids=TWO_NOTES)
def test_several_that_a_sheet_names_are_told_and_none_is_applied(notes, named):
    part, findings = tied(bar(), notes=tuple(notes))
    (told,) = [f for f in findings if f.code == "general-tolerances"]
    assert (told.level, f"general tolerances, {named}, of which" in told.message) == ("caution", True)
    assert part.grooves[0].tolerances == {}
