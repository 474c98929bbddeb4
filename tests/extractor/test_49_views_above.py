"""Views of one part above one another without a centre line: no halves of a section, which each need the other.

The part is 60 by 40, so its size is 72.11, and two hundredths of that are 1.442.
"""

from dataclasses import replace

import pytest
import shapely
from support.draw import Cut, Ink, Turned, full_outline, mixed, section, sheet_of, shifted, side_view

from extractor import ReadOptions, read_sheet
from extractor.viewing.axis import Axis
from extractor.viewing.clusters import prepare
from extractor.viewing.members import FAIR, NARROW, member_of, without_others, without_twins
from extractor.viewing.roles import assign

PIN = Turned(((20.0, 20.0), (20.0, 30.0), (20.0, 40.0)), (Cut(-26.0, 3.0, 26.0),))
BETWEEN = Axis((0.0, 35.0), (1.0, 0.0))


def unlined(ink):
    """Without the centre line."""
    return Ink(ink.solid, [], ink.hidden)


def above(ink, by=70.0):
    return ink.map(shifted(0.0, by))


def inked(ink):
    sheet = sheet_of(ink)
    return prepare(assign(sheet), sheet.segments)


def read(ink):
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm"))
    return reading.part, {f.code for f in reading.findings if f.level != "note"}


@pytest.mark.parametrize("style", [full_outline, side_view])
@pytest.mark.parametrize("times", [2, 3])
def test_a_part_drawn_more_than_once_above_is_one_part(style, times):
    """The two outlines were read as a tube 110 across, without a word of warning."""
    ink = unlined(style(PIN))
    part, told = read(mixed(*(above(ink, 70.0 * k) for k in range(times))))
    assert (part.outer_diameter, part.length) == (40.0, 60.0)
    assert [(g.where, g.z_near, g.z_far, g.floor_diameter) for g in part.grooves] == [("outside", -26.0, -29.0, 26.0)]
    assert told == {"turned-by-symmetry", "drawn-again"}


@pytest.mark.parametrize("lined", [0, 1, 2])
def test_one_of_three_has_the_centre_line(lined):
    """The middle one was taken for the middle of the other two."""
    inks = [full_outline(PIN) if k == lined else unlined(full_outline(PIN)) for k in range(3)]
    part, told = read(mixed(*(above(ink, 70.0 * k) for k, ink in enumerate(inks))))
    assert (part.outer_diameter, len(part.grooves), told) == (40.0, 1, set())


def test_a_line_between_two_outlines_makes_them_halves():
    """Somebody drew it there: what lies on both sides of it is its own."""
    ink = unlined(full_outline(PIN))
    part, _ = read(mixed(ink, above(ink), Ink(centre=[(5.0, 35.0, -65.0, 35.0, 0.0)])))
    assert part.outer_diameter == 110.0


def test_halves_that_need_one_another_stay_halves():
    part, told = read(unlined(section(replace(PIN, bore=10.0))))
    assert (part.outer_diameter, len(part.grooves)) == (40.0, 1)
    assert "turned-by-symmetry" not in told


@pytest.mark.parametrize(("by", "beside"), [(1.43, True), (1.46, False)])
@pytest.mark.parametrize("way", ["longer", "higher"])
def test_another_view_is_as_long_and_as_high(by, beside, way):
    long, high = (by, 0.0) if way == "longer" else (0.0, by)
    step = {"longer": 20.0 + long}.get(way, 20.0)
    other = Turned(((step, 20.0), (20.0, 30.0), (20.0, 40.0 + high)), (Cut(-26.0 - long, 3.0, 26.0),))
    ink = inked(mixed(full_outline(PIN), above(unlined(full_outline(other)))))
    level = Axis((0.0, 0.0), (1.0, 0.0), ((-65.0, 5.0),), marked=True)
    left = without_others(ink, [0, 1], level, [level])
    assert (len(left) == 1) is beside


@pytest.mark.parametrize(("deep", "beside"), [(9.0, True), (10.5, False)])
def test_another_view_is_whole_by_itself(deep, beside):
    """A slot in one side alone takes that much of the boundary, of 60, 40, 60, 40 and twice its depth, from both."""
    lower = [(-60.0, 50.0, 0.0), (0.0, 50.0, 0.0), (0.0, 90.0, 0.0), (-20.0, 90.0, 0.0), (-20.0, 90.0 - deep, 0.0)]
    other = Ink().chain([*lower, (-22.0, 90.0 - deep, 0.0), (-22.0, 90.0, 0.0), (-60.0, 90.0, 0.0)], close=True)
    plain = Turned(((30.0, 39.9), (30.0, 40.0)))
    ink = inked(mixed(full_outline(plain), other))
    own = next(k for k, c in enumerate(ink.clusters) if c.middle[1] > 40.0)
    assert (ink.mirrored([ink.clusters[own]], Axis((0.0, 70.0), (1.0, 0.0)))[0] >= FAIR) is beside
    level = Axis((0.0, 0.0), (1.0, 0.0), ((-65.0, 5.0),), marked=True)
    assert (own not in without_others(ink, [0, 1], level, [level])) is beside


@pytest.mark.parametrize(("deep", "less", "halves"), [(1.65, 0, True), (1.62, 0, False), (1.65, 1, False)])
def test_what_is_hatched_all_along_its_middle_is_half_of_a_section(deep, less, halves):
    """Two on either side of the middle, a tenth of half the height: hatch lines lead across that in the metal.

    One that leads only from 2 above to 1.636 below ends within a tenth of its own way across, and still counts. Three
    lead across in each third of the length, or one is missing: a bore may be open there.
    """
    ink = unlined(full_outline(PIN))
    made = inked(mixed(ink, above(ink)))
    places = [-4.0, -10.0, -16.0, -24.0, -30.0, -36.0, -44.0, -50.0, -56.0][less:]
    lines = [shapely.LineString([(x, y - deep), (x, y + 15.0)]) for y in (0.0, 70.0) for x in places]
    made = replace(made, hatched=tuple(lines))
    group = [member_of(made, k, BETWEEN, 1.0) for k in (0, 1)]
    assert NARROW * 20.0 == 2.0
    assert len(without_twins(made, BETWEEN, group)) == (2 if halves else 0)


def test_a_hatched_bush_of_symmetric_halves_is_a_bush():
    """A recess in the bore as far from the ends and as deep as the groove outside: each half is whole by itself."""
    half = [(0.0, 10.0), (0.0, 20.0), (-20.0, 20.0), (-20.0, 18.0), (-23.0, 18.0), (-23.0, 20.0), (-50.0, 20.0)]
    half += [(-50.0, 10.0), (-23.0, 10.0), (-23.0, 12.0), (-20.0, 12.0), (-20.0, 10.0)]
    upper = Ink().chain([(x, y, 0.0) for x, y in half], close=True)
    hatch = Ink(solid=[(-2.0 - 4 * k, 10.0, -8.0 - 4 * k, 20.0, 0.0) for k in (*range(3), *range(6, 10))])
    lower = mixed(upper, hatch).map(lambda x, y: (x, -y))
    part, _ = read(mixed(upper, hatch, lower))
    assert (part.outer_diameter, [g.where for g in part.grooves]) == (40.0, ["inside", "outside"])
