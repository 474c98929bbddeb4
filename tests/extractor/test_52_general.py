"""General tolerances ISO 2768-1 at both sides of every step, and the notes that call them up."""

import pytest

from extractor.sizing.general import STEPS, called_up, general_class, linear, radius

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
    ("ISO 8015", None),
    ("flange, coarse thread", None),
]


@pytest.mark.parametrize(("note", "name"), NOTES)
def test_notes(note, name):
    assert general_class([note]) == name


def test_one_class_named_twice_is_one_and_two_are_none():
    assert general_class(["ISO 2768-m", "see ISO 2768-mK"]) == "m"
    assert general_class(["ISO 2768-m", "ISO 2768-f"]) is None
    assert general_class([]) is None


def test_a_printed_radius_has_the_class_of_radii_and_never_less_than_a_sharp_corner():
    """ISO 2768-1 table 2: radii of 0.5 to 3 mm are within 0.2 in class f and m, 0.4 in c."""
    assert called_up(["ISO 2768-m"]).radius(0.8, 1.0) == (-0.2, 0.2)
    assert called_up(["ISO 2768-c"]).radius(0.5, 1.0) == (-0.4, 0.4)
    assert called_up(["ISO 2768-v"]).radius(4.0, 1.0) == (-1.0, 1.0)
    assert called_up(["ISO 2768-m"]).radius(0.4, 1.0) is None
    assert called_up(["ISO 2768-m"]).radius(1.0 / 25.4, 25.4) == pytest.approx((-0.2 / 25.4, 0.2 / 25.4))
    assert called_up(["GENERAL TOLERANCE ±0.3"]).radius(0.2, 1.0) == (-0.2, 0.3)
    assert called_up(["GENERAL TOLERANCE ±0.3"]).radius(0.5, 1.0) == (-0.3, 0.3)
