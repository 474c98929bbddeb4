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
