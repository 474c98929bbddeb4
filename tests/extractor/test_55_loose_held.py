"""Dimensions of loose lines are held as whole ones are: upright texts, limits in two lines, diameters inside the metal.

Ways of drawing: ISO 129-1, from memory.
"""

import math

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.two_limits import are_limits

SHAFT = Turned(((72.0, 46.0),), (Cut(-13.0, 2.4, 40.0), Cut(-29.0, 2.4, 40.0), Cut(-48.0, 5.0, 37.0)))
"""Two grooves 2.4 wide with a floor of 40, one 5 wide with a floor of 37."""
HIGH = 3.0


def head(x, y, turn):
    """A closed head with its tip at a place, pointing along `turn` degrees."""
    back = [math.radians(turn + 180 + lean) for lean in (9.5, -9.5)]
    a, b = ((x + 3.0 * math.cos(t), y + 3.0 * math.sin(t)) for t in back)
    return [(x, y, *a), (x, y, *b), (*a, *b)]


def width(near, far, linked=True):
    """A width over the view with heads from outside, without its text; `linked`: with the line between them."""
    tails = [(near, 32.0, near + 8.0, 32.0), (far, 32.0, far - 8.0, 32.0)]
    feet = [(z, 24.0, z, 34.0) for z in (near, far)]
    return [*feet, *tails, *head(near, 32.0, 180), *head(far, 32.0, 0)] + ([(near, 32.0, far, 32.0)] if linked else [])


def across(z, diameter):
    """A diameter at one place of the axis, without extension lines and without its text."""
    r = diameter / 2
    return [(z, r, z, -r), *head(z, r, 90), *head(z, -r, 270)]


def read(rows, *texts):
    ink = full_outline(SHAFT)
    ink.solid += [(*row, 0.0) for row in rows]
    words = tuple(Text(words, at, HIGH, angle=angle) for words, at, angle in texts)
    return read_sheet(sheet_of(ink, texts=words), ReadOptions(units="mm"))


def codes(reading):
    return [f.code for f in reading.findings if f.level != "note"]


def limits(reading, field):
    return [g.tolerances.get(field) for g in reading.part.grooves]


@pytest.mark.parametrize(
    ("words", "told", "given"),
    [
        ("2.4 H13", [], (0.0, 0.14)),
        ("2x2.4 H13", [], (0.0, 0.14)),
        ("2.5 H13", ["dimension-contradicts"], None),
        ("2x2.5 H13", ["note-contradicts"], None),
        ("2.5", ["dimension-contradicts"], None),
    ],
)
def test_an_upright_size_over_a_narrow_place_is_held(words, told, given):
    """H13 up to 3: 0.14 (ISO 286-1, table 1)."""
    reading = read(width(-13.0, -15.4), (words, (-14.2 + HIGH / 2, 33.5), 90.0))
    assert codes(reading) == told
    assert limits(reading, "width") == [given, given, None]


@pytest.mark.parametrize(("off", "held"), [(0.70, True), (0.80, False), (-0.70, True), (-0.80, False)])
def test_it_stands_amid_its_line_or_is_a_running_size_at_an_extension_line(off, held):
    """Clear of either end by 0.45, which is 0.15 of its height: the line is 2.4 long."""
    reading = read(width(-13.0, -15.4), ("2.5", (-14.2 + HIGH / 2 + off, 33.5), 90.0))
    assert ("dimension-contradicts" in codes(reading)) is held


@pytest.mark.parametrize("linked", [True, False])
@pytest.mark.parametrize(
    ("upper", "lower"), [((-16.6, 36.6), (-16.6, 33.0)), ((-16.6, 33.0), (-16.6, 28.0)), ((-4.5, 32.3), (-4.5, 28.7))]
)
@pytest.mark.parametrize(
    ("most", "least", "told", "given"),
    [
        ("2.5", "2.4", [], (0.0, 0.1)),
        ("2.45", "2.35", [], (-0.05, 0.05)),
        ("2.9", "2.8", ["dimension-contradicts"], None),
    ],
)
def test_limits_in_two_lines_are_those_of_the_width(linked, upper, lower, most, least, told, given):
    """Over the line, on both sides of it, or behind a tail."""
    reading = read(width(-13.0, -15.4, linked), (most, upper, 0.0), (least, lower, 0.0))
    assert codes(reading) == told
    assert limits(reading, "width") == [given, given, None]


@pytest.mark.parametrize(("above", "alone", "limits"), [(0.8, False, False), (0.8, True, True), (-3.8, False, True)])
def test_two_sizes_on_one_side_of_a_line_are_limits_only_where_one_has_no_line_of_its_own(above, alone, limits):
    """The line lies along X; the second size stands above it."""
    one, other = Text("2.5", (0.0, above), HIGH), Text("2.4", (0.0, 4.0 if above > 0 else 0.8), HIGH)
    assert are_limits(one, other, ((-5.0, 0.0), (5.0, 0.0)), alone=alone) is limits


@pytest.mark.parametrize("z", [-22.0, -40.0, -65.0, 12.0])
@pytest.mark.parametrize(
    ("diameter", "words", "told", "given"),
    [
        (40.0, "Ø40 h9", [], [(-0.062, 0.0), (-0.062, 0.0), None]),
        (37.0, "Ø37 -0.1", [], [None, None, (-0.1, 0.0)]),
        (39.0, "Ø40 h9", ["off-outline"], [None] * 3),
        (39.0, "Ø39 h9", ["off-outline"], [None] * 3),
    ],
)
def test_a_floor_s_diameter_in_the_metal_or_in_the_air_is_held_at_what_it_measures(z, diameter, words, told, given):
    """h9 of 30 to 50: 0.062 (ISO 286-1, table 1)."""
    reading = read(across(z, diameter), (words, (z - 1.0, -8.0), 90.0))
    assert codes(reading) == told
    assert limits(reading, "floor_diameter") == given


@pytest.mark.parametrize(("z", "beside"), [(22.9, True), (23.1, False)])
def test_beside_the_part_it_is_one_of_it_within_half_a_diameter(z, beside):
    """The part is 46 across; farther off other views stand."""
    reading = read(across(z, 39.0), ("Ø39", (z - 1.0, -8.0), 90.0))
    assert ("off-outline" in codes(reading)) is beside


@pytest.mark.parametrize(("z", "diameter", "words"), [(-14.2, 40.0, "Ø37 ±0.2"), (-50.5, 37.0, "Ø40 h9")])
def test_a_tolerance_goes_to_no_groove_but_the_one_that_its_line_measures(z, diameter, words):
    reading = read(across(z, diameter), (words, (z - 1.0, -8.0), 90.0))
    assert codes(reading) == ["dimension-contradicts"]
    assert limits(reading, "floor_diameter") == [None] * 3


def test_one_that_was_given_is_not_told_as_given_to_none():
    reading = read(across(-22.0, 40.0), ("Ø40 h9", (-23.0, -8.0), 90.0))
    assert not [f for f in reading.findings if "given to none" in f.message]


@pytest.mark.parametrize("away", [0.0, 300.0])
def test_a_diameter_at_another_view_is_known_by_its_value(away):
    """A line in pieces that measures nothing of this view leaves its text to be heard."""
    rows = [(away - 14.2, 20.0, away - 14.2, -20.0), *head(away - 14.2, 20.0, 90), *head(away - 14.2, -20.0, 270)]
    reading = read(rows, ("Ø40 h9", (away - 15.2, -8.0), 90.0))
    assert limits(reading, "floor_diameter")[:2] == [(-0.062, 0.0)] * 2
