"""What loose lines lead to a place in a detail, and what loose dimensions size there, is heard at the view.

The detail is the first groove from its own numbers, four times as large; the groove is 3 wide, its floor 34 across.
"""

import math

import pytest
from support.draw import Cut, Ink, Turned, groove_points, mixed, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Source, Text

RING, AT, TIMES, HIGH = (-11.5, 18.5), (40.0, -140.0), 4.0, 2.5
HEADING = Text("DETAIL Z (4:1)", (30.0, -115.0), 3.5), Text("Z", (-5.5, 18.5), 3.5)


def place(z, r):
    return AT[0] + TIMES * (z - RING[0]), AT[1] + TIMES * (r - RING[1])


def closed_head(x, y, u, v):
    """A filled head, as the three lines round it; (u, v) is the way back from its point."""
    sides = [(x + 2.0 * (u - s * 0.167 * v), y + 2.0 * (v + s * 0.167 * u)) for s in (-1, 1)]
    return [(x, y, *sides[0]), (x, y, *sides[1]), (*sides[0], *sides[1])]


def read(rows, *texts, corner, at_view=()):
    cut = Cut(-10.0, 3.0, 34.0, corner)
    shown = [(-8.0, 20.0, 0.0), *groove_points(cut, 20.0), (-15.0, 20.0, 0.0)]
    detail = Ink().chain([(*place(z, r), bulge) for z, r, bulge in shown])
    ink = mixed(side_view(Turned(((60.0, 40.0),), (cut, Cut(-40.0, 2.5, 30.0, corner)))), detail)
    ink.solid += [(*row, 0.0) for row in (*rows, *at_view)]
    rings = (Circle(RING, 4.0, Source("", "CIRCLE", "0")),)
    sheet = sheet_of(ink, texts=(*HEADING, *texts), circles=rings)
    return read_sheet(sheet, ReadOptions(units="mm"))


def radius(words, tip, size):
    """A shelf under a text, a leg, and a head on the arc of a corner of that radius, or on the corner drawn sharp."""
    s, inward = math.sqrt(0.5), size * TIMES * (1 - math.sqrt(0.5))
    x, y = tip[0] - inward, tip[1] + inward
    rows = [(x, y, x + 6.0, y - 6.0), (x + 6.0, y - 6.0, x + 8.0, y - 6.0), *closed_head(x, y, s, -s)]
    return rows, Text(words, (x + 8.6, y - 6.8), HIGH)


@pytest.mark.parametrize(
    ("words", "corner", "told"),
    [
        ("R0.3", 0.3, []),
        ("R1", 0.3, ["dimension-contradicts"]),
        ("R0.5", 0.0, ["corner-not-drawn"]),
        ("R0.3 MAX", 0.3, []),
    ],
)
def test_a_radius_led_to_a_corner_in_a_detail_is_held_against_it(words, corner, told):
    rows, text = radius(words, place(-10.0, 17.0), corner)
    reading = read(rows, text, corner=corner)
    assert [f.code for f in reading.findings] == told
    if words.endswith("MAX"):
        assert reading.part.grooves[0].tolerances["corner_radius"] == pytest.approx((-0.3, 0.0))


@pytest.mark.parametrize(("words", "told"), [("R0.3", []), ("R1", ["dimension-contradicts"])])
def test_the_same_words_at_the_view_are_still_held(words, told):
    """The second groove has its own leader at the view, with a corner of 0.3."""
    rows, text = radius(words, place(-10.0, 17.0), 0.3)
    corner = (-40.0 - 0.3 * (1 - math.sqrt(0.5)), -15.0 - 0.3 * (1 - math.sqrt(0.5)))
    x, y = corner
    lines = [(x, y, x + 8.0, y - 16.0), (x + 8.0, y - 16.0, x + 12.0, y - 16.0)]
    lines += closed_head(x, y, 8 / math.hypot(8, 16), -16 / math.hypot(8, 16))
    other = Text(words, (x + 12.5, y - 16.8), HIGH)
    reading = read(rows, text, other, corner=0.3, at_view=lines)
    assert [f.code for f in reading.findings] == 2 * told
    assert sorted(f.groove for f in reading.findings if f.stops) == [1, 2][: 2 * len(told)]


@all_pairs(
    ("words", "told"),
    [("3 +0.1/0", []), ("3.5 +0.1/0", ["dimension-contradicts"])],
    above=[3.6, 10.0],
    between=[True, False],
)
def test_a_width_over_a_tail_in_a_detail_is_held_and_its_tolerance_kept(words, told, between, above):
    """Its extension lines may be far shorter than the heads of both."""
    (left, land), (right, _) = place(-13.0, 20.0), place(-10.0, 20.0)
    y = land + above
    rows = [(x, land + 0.5, x, y + 1.0) for x in (left, right)]
    rows += [(left - 4.0, y, left, y), (right, y, right + 16.0, y), *([(left, y, right, y)] if between else [])]
    rows += closed_head(left, y, -1.0, 0.0) + closed_head(right, y, 1.0, 0.0)
    reading = read(rows, Text(words, (right + 4.0, y + 0.8), HIGH), corner=0.0)
    assert [f.code for f in reading.findings] == told
    if not told:
        assert [g.tolerances.get("width") for g in reading.part.grooves] == [pytest.approx((0.0, 0.1)), None]


def noted(words):
    """What is told of a note that a shelf and a leg lead to the floor of the groove in the detail, and its part."""
    x, y = place(-11.5, 17.0)
    rows = [(x, y, x + 14.0, y - 10.0), (x + 14.0, y - 10.0, x + 18.0, y - 10.0)]
    reading = read(rows, Text(words, (x + 18.6, y - 10.8), HIGH), corner=0.0)
    return [(f.code.value, f.groove) for f in reading.findings], dict(reading.part.grooves[0].tolerances)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("3 WIDE x 3 DEEP", []),
        ("3 WIDE x 2 DEEP", [("note-contradicts", 1)]),
        ("GROOVE 3 WIDE 2 DEEP", [("note-contradicts", 1)]),
        ("NUT 3 TIEF 2", [("note-contradicts", 1)]),
        ("NUT 3 TIEF 3", []),
        ("3x2", [("note-contradicts", 1)]),
        ("4 WIDE", [("note-contradicts", 1)]),
        ("DELETED", [("note-unread", 1)]),
        ("POLISHED", []),
    ],
)
def test_a_note_led_to_a_groove_in_a_detail_is_held_against_it_and_told_once(words, told):
    assert noted(words)[0] == told


@pytest.mark.parametrize("words", ["3 H13 x 3", "GROOVE 3 H13 WIDE", "3 H13 x Ø34"])
def test_its_tolerance_is_kept(words):
    """H13 up to 3 mm is +0.14/0 (ISO 286-1)."""
    assert noted(words) == ([], {"width": (0.0, 0.14)})
