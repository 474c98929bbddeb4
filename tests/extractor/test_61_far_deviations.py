"""Deviations farther off than any tolerance, or that leave no groove, are a slip: a stop, and none of them is kept."""

import pytest
from support.ties import across, along, bar, span, tied

FAR = [
    # Grade 18 of ISO 286-1, from memory: 1.4 up to 3, 3.3 up to 30, 3.9 up to 50.
    (across(34, "Ø34 0/-3.9"), False),
    (across(34, "Ø34 0/-3.91"), True),
    (across(34, "Ø34 +3.9/0"), False),
    (across(34, "Ø34 +3.91/0"), True),
    (along(-10, -13, "3 +1.4/0"), False),
    (along(-10, -13, "3 +1.41/0"), True),
    (along(0, -20, "20 ±3.3"), False),
    (along(0, -20, "20 ±3.31"), True),
    (across(34, None, deviations=(-9.0, -8.0)), True),
    (across(34, None, deviations=(-0.09, -0.08)), False),
]


@pytest.mark.parametrize(("dimension", "stop"), FAR)
def test_no_deviation_lies_beyond_the_coarsest_grade(dimension, stop):
    part, findings = tied(bar(), dimension)
    assert [f.code for f in findings if f.stops] == ["dimension-contradicts"] * stop
    assert any(g.tolerances or g.places for g in part.grooves) is not stop


def test_the_stop_shows_the_text_as_it_is_seen():
    (stop,) = (f for f in tied(bar(), across(34, "Ø<>", deviations=(-9.0, -8.0)))[1] if f.stops)
    assert 'limits of "Ø34" lie -9 to -8 about the size that is drawn, 34, as those of no tolerance do' in stop.message


def test_beyond_the_table_the_last_grade_holds():
    """9.7 at 400 to 500 (ISO 286-1, from memory)."""
    for low, stop in ((-9.7, False), (-9.71, True)):
        part = bar((-10, -13, 600), diameter=640)
        assert any(f.stops for f in tied(part, across(600, None, deviations=(low, 0.0)))[1]) is stop


def test_inches_are_held_in_inches():
    """1.5 in is 38.1 mm, whose grade 18 is 3.9 mm or 0.1535 in."""
    for high, stop in ((0.153, False), (0.154, True)):
        part = bar((-1.0, -1.2, 1.5), diameter=2.0, length=3.0, units="in")
        assert any(f.stops for f in tied(part, across(1.5, None, z=-1.1, deviations=(0.0, high)))[1]) is stop


GONE = [
    ((-10, -13, 38), across(38, "Ø38 +1.9/0"), None),
    ((-10, -13, 38), across(38, "Ø38 +2/0"), "depth"),
    ((-10, -13, 38), span((-11, 19), (-11, 20), "1 0/-0.9"), None),
    ((-10, -13, 38), span((-11, 19), (-11, 20), deviations=(-1.0, 0.0)), "depth"),
    ((-10, -11, 34), along(-10, -11, "1 ±0.9"), None),
    ((-10, -11, 34), along(-10, -11, deviations=(-1.0, 1.0)), "width"),
]


@pytest.mark.parametrize(("groove", "dimension", "without"), GONE)
def test_a_groove_that_may_be_none_is_asked_about(groove, dimension, without):
    stops = [f for f in tied(bar(groove), dimension)[1] if f.stops]
    assert [f.message for f in stops] == (
        [f"By its tolerance groove 1 may have no {without} at all: ask which tolerance is meant."] if without else []
    )
    assert all((f.code, f.groove) == ("dimension-contradicts", 1) and f.at is not None for f in stops)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Ø33.5/33.0", ["dimension-unclear"]), ("33.0 - 33.5", ["dimension-unclear"]), ("Ø33.95/33.88", []),
        ("Ø33.92/33.87", []), ("Ø34/33.5", []), ("Ø34.2/33.5", []), ("Ø34.6/34.2", ["dimension-unclear"]),
        ("Ø33.881/33.80", []), ("Ø33.879/33.80", ["dimension-unclear"]),
    ],
)  # fmt: skip
def test_limits_that_leave_out_the_drawn_size_are_kept_and_told(text, told):
    """c11 of 30 to 40 lies 0.12 off its nominal (ISO 286-1, from memory); what is farther off is no usual fit's."""
    part, findings = tied(bar(), across(34, text))
    assert [f.code for f in findings if f.code == "dimension-unclear"] == told
    assert part.grooves[0].tolerances["floor_diameter"] is not None
