"""Where a view seen from outside is broken out in section: the groove in the bore that stands there."""

import math

import pytest
from support.draw import Cut, Ink, Turned, full_outline, mixed, rotated, sheet_of, side_view

from extractor import ReadOptions, read_sheet

SHAFT = Turned(((60.0, 60.0),), (Cut(-46.0, 4.0, 54.0),))
NOTCH = [(-15.0, 15.0, 0.0), (-26.0, 15.0, 0.0), (-26.0, 17.0, 0.0), (-30.0, 17.0, 0.0), (-30.0, 15.0, 0.0)]
END = (-35.0, 15.0, 0.0)
FORMS = {
    "square": (*NOTCH, END),
    "to the end face": ((0.0, 15.0, 0.0), *NOTCH[1:], END),
    "leaning walls": (*NOTCH[:2], (-26.5, 17.0, 0.0), (-29.5, 17.0, 0.0), NOTCH[-1], END),
    "vee": (*NOTCH[:2], (-28.0, 17.0, 0.0), NOTCH[-1], END),
    "round": (NOTCH[0], (-26.0, 15.0, 0.5), NOTCH[-1], END),
    "unlike lands": (*NOTCH[:4], (-30.0, 14.0, 0.0), (-35.0, 14.0, 0.0)),
}
NONE = {
    "a bore": (NOTCH[0], END),
    "a step": (*NOTCH[:3], (-35.0, 17.0, 0.0)),
    "a ridge": (NOTCH[0], (-26.0, 15.0, 0.0), (-26.0, 13.0, 0.0), (-30.0, 13.0, 0.0), NOTCH[-1], END),
    "a slot": (*NOTCH[1:], NOTCH[1]),
    "a tapped hole": ((0.0, 8.0, 0.0), (-20.0, 8.0, 0.0), (-24.6, 0.0, 0.0)),
    "a hole from outside": ((-20.0, 30.0, 0.0), (-20.0, 20.0, 0.0), (-24.0, 20.0, 0.0), (-24.0, 30.0, 0.0)),
}


def read(*forms, draw=side_view, turn=0, side=1, part=SHAFT, hidden=()):
    broken = Ink(hidden=[(a, side * r, b, side * r, 0.0) for a, b, r in hidden])
    for form in forms:
        broken.chain([(z, side * r, side * b) for z, r, b in form])
    return read_sheet(sheet_of(mixed(draw(part), broken), rotated(turn)), ReadOptions(units="mm"))


def told(*forms, **more):
    return [f for f in read(*forms, **more).findings if "dip away" in f.message]


@pytest.mark.parametrize(("side", "turn", "draw"), [(1, 0, side_view), (-1, 90, full_outline)])
@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_a_dip_within_the_metal_stops(form, side, turn, draw):
    (stop,) = told(form, side=side, turn=turn, draw=draw)
    assert (stop.level, stop.code) == ("stop", "outline-unclear")
    assert f"X{stop.at[0]:.4g} Y{stop.at[1]:.4g}" in stop.message


@pytest.mark.parametrize("form", NONE.values(), ids=NONE)
def test_what_has_no_dip_between_lines_along_the_axis_does_not(form):
    assert told(form) == []


@pytest.mark.parametrize(("long", "count"), [(1.75, 1), (1.65, 0)])
def test_the_lines_beside_it_are_longer_than_a_fiftieth_of_the_view(long, count):
    """That is 1.70 of the diagonal of 84.85."""
    assert len(told([(-26.0 + long, 15.0, 0.0), *NOTCH[1:], END])) == count


def test_a_curve_in_chords_is_none():
    """The mouth of a hole across the axis: its chords at the top are level within what is one place."""
    turns = [math.radians(6.0 * k) for k in range(61)]
    assert told([(-20.0 + 2.0 * math.cos(t), 20.0 + math.sin(t), 0.0) for t in turns]) == []


@pytest.mark.parametrize(("deep", "count"), [(0.019, 1), (0.016, 0)])
def test_it_dips_by_more_than_ten_times_drawing_noise(deep, count):
    """That is 0.017 here, a share of 2e-5 of the view's diagonal."""
    assert len(told([(z, min(r, 15.0 + deep), b) for z, r, b in FORMS["square"]])) == count


BEFORE, BEHIND, WHOLE = (0.0, -15.0, 15.0), (-35.0, -60.0, 15.0), (0.0, -60.0, -15.0)


def inside(reading):
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves if g.where == "inside"]


def odd(reading):
    return [f.code for f in reading.findings if f.level != "note" and f.code != "inside-groove"]


@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize(
    ("form", "hidden"), [("square", (BEFORE, BEHIND, WHOLE)), ("to the end face", (BEHIND, WHOLE))]
)
def test_what_is_broken_out_of_a_hidden_bore_is_read_and_told(form, hidden, side, turn):
    reading = read(FORMS[form], hidden=hidden, side=side, turn=turn)
    assert inside(reading) == [pytest.approx((-26.0, -30.0, 34.0))]
    assert odd(reading) == ["halves-unlike"]


def test_of_forms_that_are_read():
    for form in ("leaning walls", "vee", "round"):
        reading = read(FORMS[form], hidden=(BEFORE, BEHIND, WHOLE))
        assert (len(inside(reading)), odd(reading)) == (1, ["halves-unlike"])


@pytest.mark.parametrize("form", ["square", "round"])
def test_a_line_straight_over_its_mouth_shuts_one_of_any_form(form):
    """In the half that shows it; the arc of a round one ends where such a line does, and is none."""
    reading = read(FORMS[form], hidden=(BEFORE, BEHIND, WHOLE, (-26.0, -30.0, 15.0)))
    assert (inside(reading), odd(reading)) == ([], ["outline-unclear"])


def test_in_both_halves_it_is_no_matter():
    both = [[(z, s * r, b) for z, r, b in FORMS["square"]] for s in (1, -1)]
    rest = [(a, b, s * r) for a, b, r in (BEFORE, BEHIND) for s in (1, -1)]
    reading = read(*both, hidden=rest)
    assert (inside(reading), odd(reading)) == ([pytest.approx((-26.0, -30.0, 34.0))], [])


@pytest.mark.parametrize(
    ("forms", "hidden"),
    [
        # each half is broken out elsewhere, and nothing says that the other leaves that out
        (
            (FORMS["square"], [(z - 20.0, -r, b) for z, r, b in NOTCH] + [(-55.0, -15.0, 0.0)]),
            (BEFORE, BEHIND, (0.0, -35.0, -15.0), (-55.0, -60.0, -15.0)),
        ),
        # full lines show both
        (
            (FORMS["square"], [(-15.0, -15.0, 0.0), (-35.0, -15.0, 0.0)]),
            (BEFORE, BEHIND, (0.0, -15.0, -15.0), (-35.0, -60.0, -15.0)),
        ),
        # hidden lines alone differ
        ((), (BEFORE, (-15.0, -60.0, 14.0), WHOLE)),
    ],
)
def test_other_bores_that_are_unlike_stop(forms, hidden):
    assert "halves-disagree" in odd(read(*forms, hidden=hidden))
