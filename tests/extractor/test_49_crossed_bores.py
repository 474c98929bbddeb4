"""A hole drilled across a bore, in a section through both: its mouths bulge into the bore and dip into the outside.

Two cylinders whose axes cross at right angles meet at a radius of sqrt(R^2 - a^2 + z^2), z from the hole's middle
(solid geometry). The bore has one groove and ends in the part; what lies beyond the hole is bore and no groove.
"""

import math
from types import SimpleNamespace

import pytest
from support.draw import Ink, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.recess.crossings import WIDEST_INSIDE, bridged, is_cross_hole
from extractor.recess.ghosts import _covered
from extractor.recess.shapes import Measured

OUTER, BORE, LENGTH = 20.0, 4.5, 60.0
GROOVE = (10.0, 13.0, 6.0)


def mouth(radius, hole, at, chords=24):
    """The curve of a hole's mouth on a cylinder, from the front back."""
    places = [hole - 2 * hole * k / chords for k in range(chords + 1)]
    return [(at + z, math.sqrt(max(radius**2 - hole**2 + z**2, 0.0)), 0.0) for z in places]


def section(hole=3.0, at=-40.0, deep=45.0, bulge=1.0, sides=(1, -1)):
    """Both halves; `bulge` times as deep a mouth in the bore is drawn."""
    ink = Ink(centre=[(5.0, 0.0, -LENGTH - 5, 0.0, 0.0)])
    near, far, floor = GROOVE
    for sign in sides:

        def chain(*points, sign=sign):
            ink.chain([(p[0], sign * p[1], 0.0) for p in points])

        back = [(-LENGTH, OUTER), (-LENGTH, 0)] if deep < LENGTH else [(-LENGTH, OUTER), (-LENGTH, BORE)]
        chain((-near, BORE), (0, BORE), (0, OUTER), (at + hole, OUTER))
        chain(*mouth(OUTER, hole, at))
        chain((at - hole, OUTER), *back)
        chain((-near, BORE), (-near, floor), (-far, floor), (-far, BORE), (at + hole, BORE))
        chain(*((z, BORE - bulge * (BORE - r)) for z, r, _ in mouth(BORE, hole, at)))
        chain((at - hole, BORE), (-deep, BORE), *([(-deep, 0)] if deep < LENGTH else []))
        for wall in (at + hole, at - hole):
            chain((wall, BORE), (wall, OUTER))
        for edge in (0, -near, -far):
            chain((edge, 0), (edge, BORE))
    return ink


def read(ink):
    return read_sheet(sheet_of(ink), ReadOptions(units="mm", grooved=False))


def grooves(reading):
    return [(g.where, round(g.z_near, 3), round(g.z_far, 3), round(g.floor_diameter, 3)) for g in reading.part.grooves]


@pytest.mark.parametrize(("hole", "at", "deep"), [
    (3.0, -40.0, 45.0), (3.0, -41.0, 44.5), (1.0, -30.0, 45.0), (4.2, -38.0, 45.0),
        (4.4, -38.0, 45.0),
    (3.0, -40.0, LENGTH),
])  # fmt: skip
def test_a_bore_goes_straight_on_past_a_hole_across_it(hole, at, deep):
    reading = read(section(hole, at, deep))
    assert grooves(reading) == [("inside", -10.0, -13.0, 12.0)]
    assert [f.code.value for f in reading.findings if f.stops] == []
    assert [f.code.value for f in reading.findings].count("cross-hole") == 1
    assert {r for z, r in reading.part.bore if -deep < z < -13.0} <= {BORE, GROOVE[2]}


def test_a_hole_as_wide_as_the_bore_leaves_no_groove_behind_it():
    """Its mouths meet on the axis, so the bore as drawn ends there."""
    reading = read(section(BORE, -38.0))
    assert grooves(reading) == [("inside", -10.0, -13.0, 12.0)]
    assert [f.code.value for f in reading.findings if f.stops] == []


@pytest.mark.parametrize("bulge", [0.5, 1.5])
def test_a_bulge_that_is_no_holes_mouth_stays_in_the_bore(bulge):
    """What it is cannot be told: the narrow place is metal, and what lies behind it is told as a recess."""
    reading = read(section(bulge=bulge))
    least = BORE - bulge * (BORE - math.sqrt(BORE**2 - 9.0))
    assert min(r for z, r in reading.part.bore if z > -44.9) == pytest.approx(least, abs=0.01)
    assert len(reading.part.grooves) > 1


def dip(half, mouth=BORE):
    floor = mouth - (mouth - math.sqrt(max(mouth**2 - half**2, 0.0)))
    return Measured(shape="other", z_near=half, z_far=-half, near_land=mouth, far_land=mouth, mouth=mouth, floor=floor)


@pytest.mark.parametrize(
    ("half", "inside", "outside"), [(4.0, True, True), (4.1, True, False), (4.5, True, False), (4.6, False, False)]
)
def test_a_hole_may_be_as_wide_as_the_bore_that_it_meets_but_not_as_the_part(half, inside, outside):
    assert is_cross_hole(dip(half), 1e-6, WIDEST_INSIDE) is inside
    assert is_cross_hole(dip(half), 1e-6) is outside


def test_a_bore_without_a_hole_is_its_own_line():
    assert bridged((), 1e-3) == ((), ())


@pytest.mark.parametrize(("z", "covered"), [(-3.091, True), (-3.089, False), (-13.909, True), (-13.911, False)])
def test_a_wall_of_a_hole_stands_at_an_end_of_its_mouth_though_a_curve_is_cut_short(z, covered):
    """The mouth runs from 3.1 to 13.9 behind the front; two places are one within 0.01 here."""
    assert _covered(z, SimpleNamespace(covered=[(-13.9, -3.1)]), 0.0095) is covered
