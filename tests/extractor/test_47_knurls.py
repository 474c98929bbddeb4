"""Knurls drawn line by line on a land (DIN 82, ISO 13444; from memory): texture that makes no groove and hides none."""

import math

import numpy as np
import pytest
import shapely
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing import knurls

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
OUTSIDE = [("outside", -10.0, -13.0, 34.0), ("outside", -25.0, -29.0, 34.0)]
NOTE = (Text("KNURL RGE 0.8", (-50.0, 30.0), 3.0),)
LOW, HIGH = -55.0, -32.0


def level(low=LOW, high=HIGH, heights=range(2, 20, 2)):
    """Lines along the axis, on both halves."""
    return [(low, side * r, high, side * r, 0.0) for r in heights for side in (1, -1)]


def slanting(degrees, low=LOW, high=HIGH, step=2.0, bottom=-20.0, top=20.0, ways=(1, -1), other=None):
    """Lines that lean to both sides, cut off at a box."""
    rows, box = [], shapely.box(low, bottom, high, top)
    for way in ways:
        slope = way * math.tan(math.radians(degrees if way > 0 or other is None else other))
        count = int((high - low + (top - bottom) / abs(slope)) / step) + 2
        starts = [low - (top - bottom) / abs(slope) + k * step for k in range(count)]
        lines = [shapely.LineString([(s, -way * 20), (s + 200, -way * 20 + 200 * slope)]) for s in starts]
        cut = [line.intersection(box) for line in lines]
        rows += [(*c.coords[0], *c.coords[-1], 0.0) for c in cut if c.length > 0.5]
    return rows


def across(*places):
    return [(z, -20.0, z, 20.0, 0.0) for z in places]


def read(lines, part=RING, texts=()):
    ink = side_view(part)
    ink.solid += lines
    return read_sheet(sheet_of(ink, texts=texts), ReadOptions(units="mm"))


def told(reading, level=Level.STOP):
    return [f.code for f in reading.findings if f.level is level]


def grooves(reading):
    found = [(g.where, g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] if reading.part else []
    return sorted(found, key=lambda row: -row[1])


def box_of(heights, low=LOW, high=HIGH):
    """A strip of a straight knurl below the land, with the lines that bound it."""
    foot = min(heights) - 1.0
    walls = [(z, side * foot, z, side * 20.0, 0.0) for z in (low, high) for side in (1, -1)]
    return [*level(low, high, heights), *walls, *level(low, high, [foot])]


ROUND = [20 * math.sin(math.radians(a)) for a in range(8, 90, 8)]
BORDER = across(LOW, HIGH)
RIM = [(LOW + 3, 18.0, HIGH - 3, 19.9, 0.0), (LOW + 3, 19.9, HIGH - 3, 18.0, 0.0)]
DRAWN = {
    "crossed, two lines at its rim that lean less": [*slanting(45), *BORDER, *RIM],
    "straight, bounded": [*level(), *BORDER],
    "straight, bounded on one side": [*level(-60), *across(HIGH)],
    "straight, as seen round the part": [*level(heights=ROUND), *BORDER],
    "straight, from a groove to the end": level(-60, -29),
    "straight, round, to the end": level(-60, -29, ROUND),
    "straight, each line twice": [*level(-60, -29), *level(-60, -29)],
    "a strip": box_of([14, 15, 16, 17, 18]),
    "diamond of 30 degrees": [*slanting(30), *BORDER],
    "diamond of 45 degrees": [*slanting(45, step=1.5), *BORDER],
    "diamond, from a groove to the end": slanting(45, -60, -29),
    "diamond between three borders": [*slanting(30, LOW, -44), *slanting(30, -42, HIGH), *BORDER, *across(-44, -42)],
}


@pytest.mark.parametrize("drawn", DRAWN.values(), ids=DRAWN)
def test_a_knurl_is_set_aside_with_a_caution(drawn):
    """Nothing of it is left unexplained."""
    reading = read(drawn)
    assert (told(reading), told(reading, Level.CAUTION), grooves(reading)) == ([], ["knurl"], OUTSIDE)
    assert reading.ink.unexplained == pytest.approx(0.0, abs=1e-6)


def test_a_knurl_that_the_sheet_names_needs_no_caution():
    reading = read(DRAWN["straight, bounded"], texts=NOTE)
    assert (told(reading, Level.CAUTION), told(reading, Level.NOTE)) == ([], ["knurl"])


ROWS = {
    "even lines right across": across(*(-32 - 1.5 * k for k in range(16))),
    "one with a leader at it": [*across(*(-32 - 1.5 * k for k in range(16))), (-42.5, 20.0, -38.0, 30.0, 0.0)],
    "and their border": across(*(-32 - 1.5 * k for k in range(16)), -55.1),
    "one slant": [*slanting(30, ways=(1,)), *BORDER],
    "strips that don't cross": [
        *(s for y in (-20, 10) for s in slanting(45, bottom=y, top=y + 10, ways=(1 if y < 0 else -1,))),
        *BORDER,
    ],
}


@pytest.mark.parametrize("drawn", ROWS.values(), ids=ROWS)
def test_other_lines_on_a_land_are_a_knurl_only_by_a_word(drawn):
    assert [told(read(drawn, texts=texts)) for texts in ((), NOTE)] == [["lines-unexplained"], []]
    assert grooves(read(drawn, texts=NOTE)) == OUTSIDE


def test_a_knurl_is_known_by_its_word():
    names = ["KNURL", "R\u00e4ndel", "RAENDEL DIN 82", "moletage", "zigrinatura", "godronado", "ISO 13444-RGE 30"]
    assert all(knurls.says_knurl([Text(name, (0.0, 0.0), 3.0)]) for name in names)
    assert not any(knurls.says_knurl([Text(name, (0.0, 0.0), 3.0)]) for name in ("KNUT", "DIN 820", "ROUGH"))


def test_an_edge_right_across_a_knurl_is_none_of_its_own():
    assert told(read([*DRAWN["diamond of 30 degrees"], *across(-40.3)])) == ["lines-unexplained"]


@pytest.mark.parametrize("bounded", [True, False])
def test_hatch_lines_that_cross_are_a_knurl_where_a_line_right_across_ends_them(bounded):
    """Two ways of hatch lines in a section are a material (ISO 128-3, from memory)."""
    outline = [(-60, 20, 0, 20), (-60, -20, 0, -20), *((row[:4]) for row in BORDER if bounded)]
    strokes = Strokes(np.array(outline, dtype=float), np.zeros(len(outline)), np.arange(len(outline)))
    hatching = [shapely.LineString([row[:2], row[2:4]]) for row in slanting(30)]
    assert bool(knurls.knurls(strokes, hatching, 1e-3, said=False).stretches) is bounded


def test_a_groove_between_two_knurled_lands_is_read():
    part = Turned(RING.steps, (RING.cuts[0], Cut(-40.0, 3.0, 36.0)))
    for field in (level, lambda low, high: slanting(30, low, high)):
        reading = read([*field(-40, -16), *field(-60, -43), *across(-16)], part, NOTE)
        assert (told(reading), grooves(reading)) == ([], [OUTSIDE[0], ("outside", -40.0, -43.0, 36.0)])


def test_rings_in_a_face_are_no_knurl():
    """Eight walls of one length in even steps, but each meets the floors end to end."""
    half = [(-60.0, 0.0), (-60.0, 20.0), (0.0, 20.0)]
    for r in (16, 12, 8, 4):
        half += [(0.0, r + 1.0), (-4.0, r + 1.0), (-4.0, r - 1.0), (0.0, r - 1.0)]
    half.append((0.0, 0.0))
    ink = Ink().chain([(z, r, 0.0) for z, r in half])
    ink = mixed(ink, ink.map(lambda x, y: (x, -y)))
    ink.centre.append((-65.0, 0.0, 5.0, 0.0, 0.0))
    reading = read_sheet(sheet_of(ink, texts=NOTE), ReadOptions(units="mm"))
    assert [g.where for g in reading.part.grooves] == ["face"] * 4
    assert "knurl" not in told(reading, Level.NOTE)


@pytest.mark.parametrize(
    ("lines", "knurled"),
    [
        (level(heights=[4, 8, 12, 16]), False),  # four lines
        (level(heights=[3, 6, 9, 12, 15]), True),  # five
        (level(-47, -34.9, heights=range(3, 20, 4)), True),  # three spacings long, and less
        (level(-47, -35.1, heights=range(3, 20, 4)), False),
        (level(heights=[3, 6, 9.42, 12, 15]), True),  # 0.14 and 0.16 of the spacing off
        (level(heights=[3, 6, 9.48, 12, 15]), False),
        (slanting(15.5, step=6), True),
        (slanting(14.5, step=6), False),
        (slanting(30, other=30.25), True),
        (slanting(30, other=30.35), False),
    ],
)
def test_how_many_lines_in_what_order_are_a_knurl(lines, knurled):
    """What bounds them is explained if they are one."""
    low, high = min(line[0] for line in lines), max(line[2] for line in lines)
    reading = read([*lines, *across(low, high)])
    assert ("knurl" in told(reading, Level.CAUTION)) is knurled


@pytest.mark.parametrize(("height", "shift", "knurled"), [(1.6, 0.0, True), (1.2, 0.5, False)])
def test_each_line_of_a_diamond_knurl_crosses_three_others(height, shift, knurled):
    """Ten lines each way, one apart; two of the second way cross each, or three."""
    rows = [(k, 5.0, k + height, 5.0 + height) for k in range(10)]
    rows += [(k + shift, 5.0 + height, k + shift + height, 5.0) for k in range(10)]
    strokes = Strokes(np.array(rows, dtype=float), np.zeros(20), np.arange(20))
    assert bool(knurls.knurls(strokes, (), 1e-3, said=False).labels) is knurled


def test_a_thousand_slanting_lines_are_not_looked_at(monkeypatch):
    drawn = [*slanting(30), *BORDER]
    for most, knurled in ((len(drawn) - 2, True), (len(drawn) - 3, False)):
        monkeypatch.setattr(knurls, "MOST", most)
        assert (told(read(drawn)) == []) is knurled


@pytest.mark.parametrize("words", ["KNURL RGE 0.8", "RGE 0.8", "RKV 1,2", "RAA 0.5"])
def test_two_lines_right_across_a_land_are_the_ends_of_a_knurl_that_the_sheet_names(words):
    reading = read(across(-52.0, -35.0), texts=(Text(words, (-50.0, 30.0), 3.0),))
    assert (grooves(reading), told(reading)) == (OUTSIDE, [])
    assert told(reading, Level.NOTE) == ["knurl"]


ENDS = {
    "no note": (across(-52.0, -35.0), ()),
    "other letters": (across(-52.0, -35.0), (Text("RGX 0.8", (-50.0, 30.0), 3.0),)),
    "three lines": (across(-52.0, -44.0, -35.0), NOTE),
    "one line": (across(-44.0), NOTE),
    "a groove between them": (across(-35.0, -20.0), NOTE),
    "of another height": ([(z, -r, z, r, 0.0) for z, r in ((-52.0, 20.0), (-35.0, 19.0))], NOTE),
}


@pytest.mark.parametrize(("lines", "texts"), ENDS.values(), ids=ENDS)
def test_other_lines_right_across_are_no_ends_of_one(lines, texts):
    assert told(read(lines, texts=texts)) == ["lines-unexplained"]
