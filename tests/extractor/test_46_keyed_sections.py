"""The cross-section of a shaft through its keyway, beside the view, is no second part (ISO 128-3, from memory)."""

from itertools import pairwise
from math import asin, cos, pi, sin, tan

import pytest
from support.draw import Cut, Ink, Turned, half_profile, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Source
from extractor.viewing.axis import centre_lines
from extractor.viewing.clusters import prepare
from extractor.viewing.end_views import without_holes
from extractor.viewing.roles import assign
from extractor.viewing.round_ends import is_keyed
from extractor.viewing.views import views

PART = Turned(((25.0, 24.0), (31.0, 34.0)), (Cut(-40.0, 3.0, 29.0),))


def keyed(width, radius=12.0, at=(60.0, 0.0), deep=4.0, both=False):
    """A circle with a keyway in its top, and in its bottom too if `both`, with crossed centre lines."""
    half = asin(width / 2 / radius)
    ends = [pi / 2 + half, 2.5 * pi - half]
    cut = [(pi / 2 + half, 1.5 * pi - half), (1.5 * pi + half, 2.5 * pi - half)] if both else [tuple(ends)]
    rows = []
    for a, b in cut:
        parts = 2 if b - a > pi else 1
        for k in range(parts):
            low, high = a + (b - a) * k / parts, a + (b - a) * (k + 1) / parts
            ring = [radius * f(turn) for turn in (low, high) for f in (cos, sin)]
            rows.append((*ring, tan((high - low) / 4)))
    for side in (1, -1) if both else (1,):
        top, floor = side * radius * cos(half), side * (radius - deep)
        corners = [(-width / 2, top), (-width / 2, floor), (width / 2, floor), (width / 2, top)]
        rows += [(*p, *q, 0.0) for p, q in pairwise(corners)]
    x, y = at
    solid = [(a + x, b + y, c + x, d + y, bulge) for a, b, c, d, bulge in rows]
    reach = radius + 3
    return Ink(solid=solid, centre=[(x - reach, y, x + reach, y, 0.0), (x, y - reach, x, y + reach, 0.0)])


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize("width", [5.0, 8.0, 10.0])
@pytest.mark.parametrize("at", [(60.0, 0.0), (-100.0, 0.0), (-12.0, -60.0)])
def test_a_section_through_a_keyway_is_no_second_part(width, at):
    """Keys of DIN 6885-1 for a shaft 24 across are 8 wide (from memory)."""
    reading = read_sheet(sheet_of(mixed(side_view(PART), keyed(width, at=at))), ReadOptions(units="mm"))
    assert stops(reading) == []
    assert [(g.z_near, g.floor_diameter) for g in reading.part.grooves] == [(-40.0, 29.0)]


def rim(width, both=False):
    """Points of the figure's rim without the floor of its keyway, which the hull doesn't touch."""
    round_about = [(12 * cos(2 * pi * k / 720), 12 * sin(2 * pi * k / 720)) for k in range(720)]
    left = [(x, y) for x, y in round_about if abs(x) >= width / 2 or (y < 0 and not both)]
    high = 12 * cos(asin(width / 24))
    edges = [(side * width / 2, up * high) for side in (1, -1) for up in ((1, -1) if both else (1,))]
    return left + edges


@pytest.mark.parametrize(("width", "keyway"), [(4.0, True), (10.7, True), (10.9, False)])
def test_how_wide_a_keyway_is_at_most(width, keyway):
    assert is_keyed(rim(width)) is keyway


def test_two_gaps_or_none_are_no_keyway():
    assert not is_keyed(rim(6.0, both=True))
    assert not is_keyed([(12 * cos(2 * pi * k / 720), 12 * sin(2 * pi * k / 720)) for k in range(720)])
    assert not is_keyed([(12 * cos(2 * pi * k / 8), 12 * sin(2 * pi * k / 8)) for k in range(8)])
    assert not is_keyed([(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)])


@pytest.mark.parametrize(("radius", "at", "alone"), [
    (17.0, (60.0, 0.0), True), (17.3, (60.0, 0.0), True), (17.4, (60.0, 0.0), False),
    (17.0, (60.0, 0.1), True), (17.0, (60.0, 1.0), False),
])  # fmt: skip
def test_a_hole_in_an_end_view_without_centre_lines_is_no_second_part(radius, at, alone):
    """A hole across the part, seen in its bore: two lines about the middle. The part is 34 across and 56 long.

    The circle is as large as the part within 2 %, 17.34, and on its axis.
    """
    ink, (x, y) = side_view(PART, None), at
    ink.solid.append((5.0, 0.0, -61.0, 0.0, 0.0))
    corners = [(x - 1.2, y - 9.0), (x + 1.2, y - 9.0), (x + 1.2, y + 9.0), (x - 1.2, y + 9.0)]
    ink.chain([(*corner, 0.0) for corner in corners], close=True)
    ink.solid += [(x, y - 22.0, x, y + 22.0, 0.0), (x - 22.0, y, x + 22.0, y, 0.0)]
    sheet = sheet_of(ink, circles=(Circle(at, radius, Source("", "CIRCLE", "0")),))
    drawn = prepare(assign(sheet), sheet.segments)
    found = views(drawn, centre_lines(sheet.segments, drawn.size))
    within = [v for v in found if v.size < 30.0]
    assert within
    left = without_holes(sheet, drawn, found)
    assert any(v in left for v in found if v.size > 60.0)
    assert any(v in left for v in within) is not alone


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("lined", [True, False])
def test_half_a_hole_in_the_outside_half_of_a_half_section_is_no_part(side, lined):
    """Its ends stand on the centre line, as those of half a ball do (common practice, no source)."""
    sleeve = Turned(((50.0, 50.0),), (Cut(-8.0, 3.0, 44.0), Cut(-36.0, 4.0, 42.0)), bore=30.0)
    ink = half_profile(sleeve, 5.0)
    lower = side_view(sleeve, None)
    ink.solid += [(a, -max(0.0, b), c, -max(0.0, d), e) for a, b, c, d, e in lower.solid if b > 0 or d > 0]
    ink.solid += [(z, 15.0, z, 0.0, 0.0) for z in (0.0, -50.0)]
    ink.solid.append((-21.0, 0.0, -31.0, 0.0, -1.0))
    ink.centre += [(-26.0, 9.0, -26.0, -9.0, 0.0)] if lined else []
    reading = read_sheet(sheet_of(ink.map(lambda x, y: (x, side * y))), ReadOptions(units="mm"))
    assert [g.floor_diameter for g in reading.part.grooves] == [44.0, 42.0]
    assert (reading.part.outer_diameter, reading.part.length) == (50.0, 50.0)
