"""Dimensions of loose lines are held as whole ones are: upright texts, limits in two lines, diameters inside the metal.

Ways of drawing: ISO 129-1, from memory.
"""

import math
from itertools import pairwise

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


def place(z, level, feet=24.0):
    """A length from the front above the view with heads inside, without its text."""
    line = [(0.0, level, z, level), *head(0.0, level, 0), *head(z, level, 180)]
    return [*line, *((x, feet, x, level + 2.0) for x in (0.0, z))]


def over(words, ends, level, off=0.0, above=1.0):
    """A text so far beside the middle of a line and over it: a letter is 0.7 of its height wide."""
    return words, (sum(ends) / 2 - 0.35 * HIGH * len(words) + off, level + above), 0.0


@pytest.mark.parametrize(
    ("near", "far", "told"),
    [("13", "29", 0), ("29", "13", 2), ("13", "28", 1), ("14", "29", 1)],
)
def test_sizes_over_their_lines_are_of_these_though_exchanged(near, far, told):
    """The places of the two grooves, drawn 13 and 29."""
    texts = over(near, (0.0, -13.0), 32.0), over(far, (0.0, -29.0), 40.0)
    reading = read([*place(-13.0, 32.0), *place(-29.0, 40.0)], *texts)
    assert codes(reading) == ["dimension-contradicts"] * told


@pytest.mark.parametrize(
    ("off", "above", "told"),
    [(0.88, 1.0, 2), (0.92, 1.0, 0), (-0.88, 1.0, 2), (-0.92, 1.0, 0), (0.0, 2.95, 2), (0.0, 3.05, 0)],
)
def test_a_text_aside_goes_by_what_it_says(off, above, told):
    """Its middle lies no more than 0.3 of its height of 3 along the line from that one's, and 1.5 square to it."""
    texts = over("29", (0.0, -13.0), 32.0, off, above), over("13", (0.0, -29.0), 40.0, off, above)
    reading = read([*place(-13.0, 32.0), *place(-29.0, 40.0)], *texts)
    assert codes(reading) == ["dimension-contradicts"] * told


@pytest.mark.parametrize(("gaps", "told"), [((13, 3, 3, 3), []), ((13, 3, 3.5, 3), [""]), ((12, 3, 3, 3), [""])])
def test_a_close_chain_is_held_link_by_link(gaps, told):
    """The heads of neighbours stand in one another's lines: the middle of its own line tells whose a text is."""
    ends = [0.0, -13.0, -16.0, -19.0, -22.0]
    part = Turned(((72.0, 46.0),), (Cut(-13.0, 3.0, 40.0), Cut(-19.0, 3.0, 40.0)))
    ink = full_outline(part)
    rows = [(z, 24.0, z, 34.0) for z in ends]
    for a, b in pairwise(ends):
        rows += [(a, 32.0, b, 32.0), *head(a, 32.0, 180), *head(b, 32.0, 0)]
        rows += [(a, 32.0, a + 6.0, 32.0), (b, 32.0, b - 6.0, 32.0)] if a else []
    ink.solid += [(*row, 0.0) for row in rows]
    texts = [over(f"{gap:g}", ab, 32.0) for gap, ab in zip(gaps, pairwise(ends), strict=True)]
    words = tuple(Text(words, at, HIGH) for words, at, _ in texts)
    reading = read_sheet(sheet_of(ink, texts=words), ReadOptions(units="mm"))
    assert codes(reading) == ["dimension-contradicts" for _ in told]


@pytest.mark.parametrize(("words", "told"), [("2 GROOVES 3 WIDE", ["note-contradicts"]), ("2 GROOVES 2.4 WIDE", [])])
def test_the_extension_line_of_a_size_is_no_leader_of_the_note_beside_it(words, told):
    """It would lead the note to the chuck end, where no groove is."""
    rows = [(-72.0, 24.0, -72.0, 34.0), (0.0, 24.0, 0.0, 34.0), (0.0, 32.0, -72.0, 32.0)]
    rows += [*head(0.0, 32.0, 0), *head(-72.0, 32.0, 180)]
    texts = over("72", (0.0, -72.0), 32.0), (words, (-71.0, 36.0), 0.0)
    assert codes(read(rows, *texts)) == told


def test_a_text_aside_that_says_nothing_of_a_line_leaves_it_to_the_one_over_its_middle():
    texts = over("29", (0.0, -13.0), 32.0), over("13", (0.0, -29.0), 40.0), over("7", (0.0, -13.0), 32.0, off=5.0)
    told = codes(read([*place(-13.0, 32.0), *place(-29.0, 40.0)], *texts))
    assert told.count("dimension-contradicts") == 2
