"""Half a section over half an outside view whose edges meet on the axis: one figure, and still two halves.

Half sections show the cut above the axis and the outside below it (ISO 128-3, from memory). An edge of the outside
that stands at the same place as one of the bore makes both halves one figure. The truth are the numbers drawn.
"""

import math
import random

import pytest
from support.draw import Ink, rotated, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.viewing.axis import centre_lines
from extractor.viewing.clusters import prepare
from extractor.viewing.roles import assign
from extractor.viewing.views import ONE_LENGTH, views

LENGTH, OUTER, BORE = 50.0, 20.0, 10.0


def run(recesses, level):
    """The line of the outside or the bore with recesses (place, width, floor) in it, from the front back."""
    points = [(0.0, level)]
    for z, wide, floor in recesses:
        points += [(z, level), (z, floor), (z - wide, floor), (z - wide, level)]
    return [*points, (-LENGTH, level)]


def half_section(outside, inside, sign=1, edges=True, ends=True, other=OUTER):
    """The cut on one side and the outside on the other, which is as high as `other`.

    `edges`: of the recesses in the bore, `ends`: those of the bore itself, seen behind the cut.
    """
    ink = Ink(centre=[(5.0, 0.0, -LENGTH - 5, 0.0, 0.0)])

    def chain(points, side):
        ink.chain([(z, side * r, 0.0) for z, r in points])

    chain(run(outside, OUTER), sign)
    chain(run(inside, BORE), sign)
    for z in (0.0, -LENGTH):
        chain([(z, BORE), (z, OUTER)], sign)
        chain([(z, 0.0), (z, BORE)], sign) if ends else None
        chain([(z, 0.0), (z, other)], -sign)
    for z, wide, _ in inside if edges else ():
        chain([(z, 0.0), (z, BORE)], sign)
        chain([(z - wide, 0.0), (z - wide, BORE)], sign)
    chain([(z, r - OUTER + other) for z, r in run(outside, OUTER)], -sign)
    for z, wide, floor in outside:
        chain([(z, 0.0), (z, floor - OUTER + other)], -sign)
        chain([(z - wide, 0.0), (z - wide, floor - OUTER + other)], -sign)
    return ink


def read(ink, degrees=0):
    return read_sheet(sheet_of(ink, rotated(degrees, 100.0, 50.0)), ReadOptions(units="mm"))


def found(reading):
    grooves = reading.part.grooves if reading.part else ()
    return sorted((g.where, round(g.z_near, 3), round(g.z_far, 3), round(g.floor_diameter, 3)) for g in grooves)


def meant(outside, inside):
    rows = [("outside", *row) for row in outside] + [("inside", *row) for row in inside]
    return sorted((where, z, z - wide, 2 * floor) for where, z, wide, floor in rows)


@pytest.mark.parametrize("degrees", [0, 90])
@pytest.mark.parametrize("sign", [1, -1])
def test_walls_in_line_on_both_sides_of_the_axis(sign, degrees):
    outside, inside = [(-12.0, 3.0, 17.5)], [(-15.0, 4.2, 11.5)]
    for ends in (True, False):
        reading = read(half_section(outside, inside, sign, ends=ends), degrees)
        assert found(reading) == meant(outside, inside)
        assert not [f for f in reading.findings if f.stops]


def test_random_half_sections_with_walls_in_line_are_read():
    for seed in range(40):
        rng = random.Random(seed)
        outside = [(-float(z), 3.0, 17.5) for z in sorted(rng.sample(range(3, 44, 5), 3))]
        inside = [
            (z - step, wide, 12.0) for z, *_ in outside for step, wide in [rng.choice([(0, 3), (3, 1.5), (1, 1)])]
        ]
        ink = half_section(outside, inside, rng.choice([1, -1]), edges=rng.random() < 0.7, ends=rng.random() < 0.5)
        reading = read(ink)
        assert found(reading) == meant(outside, inside), seed
        assert not [f for f in reading.findings if f.stops], seed


@pytest.mark.parametrize(("other", "stops"), [(OUTER, False), (18.0, True), (9.0, True)])
def test_two_sides_of_unlike_heights_are_no_turned_part(other, stops):
    """A bracket across a centre line hangs together as well: then the lands differ, or no view is found."""
    reading = read(half_section([(-12.0, 3.0, 17.5)], [(-15.0, 4.2, 11.5)], other=other, ends=False))
    assert bool([f for f in reading.findings if f.stops]) is stops


@pytest.mark.parametrize(("share", "joined"), [(0.99, True), (1.01, False)])
def test_the_two_sides_of_one_figure_are_as_high(share, joined):
    """An outline across its own centre line: 60 long, open below but for a foot, so not its own mirror image."""
    least = ONE_LENGTH * math.hypot(60.0, 40.0) * share
    low = -20.0 + least
    corners = [(0, 20), (-60, 20), (-60, low), (-57, low), (-57, 10), (-3, 10), (-3, low), (0, low)]
    ink = Ink(centre=[(5.0, 0.0, -65.0, 0.0, 0.0)]).chain([(z, r, 0.0) for z, r in corners], close=True)
    sheet = sheet_of(ink)
    prepared = prepare(assign(sheet), sheet.segments)
    found = views(prepared, centre_lines(sheet.segments, prepared.size))
    assert any(v.joined for v in found) is joined
