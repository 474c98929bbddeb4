"""Sizes across the axis that end on a groove's floor and are no diameter and no depth: the wall that is left, and over
the axis to the land on the other side.

Common practice, no source.
"""

import pytest
from support.ties import bar, span, tied

OUTSIDE = bar((-15, -18, 32), (-30, -33, 32))
"""40 across."""
INSIDE = bar((-15, -18, 32, {"where": "inside"}), bore=26.0)


def read(part, one, other, words):
    of, findings = tied(part, span((-16.5, one), (-16.5, other), words), notes=["ISO 2768-m"])
    told = [(f.level.value, f.code.value) for f in findings if f.level.value != "note"]
    return "floor_diameter" in of.grooves[0].tolerances, told


@pytest.mark.parametrize(
    ("part", "one", "other", "drawn"),
    [(OUTSIDE, -16.0, 20.0, 36), (OUTSIDE, 16.0, -20.0, 36), (INSIDE, 16.0, 20.0, 4), (INSIDE, -16.0, 13.0, 29)],
)
def test_such_a_size_is_held_and_its_tolerance_told(part, one, other, drawn):
    assert read(part, one, other, f"{drawn}") == (True, [])
    assert read(part, one, other, f"{drawn + 1}") == (True, [("stop", "dimension-contradicts")])
    assert read(part, one, other, f"{drawn} -0.1") == (False, [("caution", "tolerance-unread")])
    assert read(part, one, other, f"{drawn + 1} -0.1") == (False, [("stop", "dimension-contradicts")])
    assert read(part, one, other, f"({drawn} -0.1)") == (False, [("caution", "tolerance-unread")])


def test_what_ends_on_no_floor_is_none():
    """Beside the groove, and from the axis."""
    of, findings = tied(OUTSIDE, span((-25, -16), (-25, 20), "37 -0.1"), notes=["ISO 2768-m"])
    assert "floor_diameter" in of.grooves[0].tolerances
    assert not any(f.stops for f in findings)


def test_a_depth_and_a_diameter_stay_what_they_are():
    assert read(OUTSIDE, 16.0, 20.0, "4")[1] == []
    of, _ = tied(OUTSIDE, span((-16.5, 16), (-16.5, -16), "Ø32 h11"))
    assert of.grooves[0].tolerances["floor_diameter"] == (-0.16, 0.0)
    of, _ = tied(OUTSIDE, span((-16.5, 16), (-16.5, 20), "4 +0.1"))
    assert of.grooves[0].tolerances["depth"] == (0.0, 0.1)


BUSH = bar((-20, -24, 34), bore=26.0)
STEPPED = bar((-10, -13, 34), steps=[(0, 40), (-30, 50)])


@pytest.mark.parametrize(
    ("part", "z", "one", "other", "drawn"),
    [
        (BUSH, -50, 13.0, 20.0, 7),  # the wall
        (BUSH, -50, -13.0, -20.0, 7),
        (BUSH, -22, 13.0, 20.0, 7),  # over the groove
        (BUSH, -50, 13.0, -20.0, 33),  # over the axis
        (BUSH, -75, 20.0, -13.0, 33),  # behind the part
        (BUSH, 9, 20.0, 13.0, 7),
        (STEPPED, -30, 20.0, 25.0, 5),
    ],
)
def test_walls_and_steps_between_two_levels_are_held(part, z, one, other, drawn):
    def told(words):
        findings = tied(part, span((z, one), (z, other), words))[1]
        return [(f.level.value, f.code.value) for f in findings if f.level.value != "note"]

    assert told(f"{drawn}") == told(f"({drawn})") == told(None) == []
    assert told(f"{drawn + 1}") == told(f"{drawn - 1} +0.1") == [("stop", "dimension-contradicts")]


@pytest.mark.parametrize(("z", "held"), [(-32.9, True), (-33.1, False), (-27.1, True), (-26.9, False)])
def test_a_level_reaches_a_gap_beside_its_end(z, held):
    """A twentieth of the part's length of 60, of the shoulder at Z-30."""
    findings = tied(STEPPED, span((z, 20.0), (z, 25.0), "6"))[1]
    assert ("dimension-contradicts" in [f.code for f in findings]) is held
