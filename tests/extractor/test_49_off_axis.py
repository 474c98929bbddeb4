"""An outline a hair off its centre line, and a centre line beside the middle of the view."""

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, rotated, section, sheet_of, shifted, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind

MM = ReadOptions(units="mm")
SHAFT = Turned(((40.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-24.0, 4.0, 34.0)))
LINE = (5.0, 0.0, -45.0, 0.0, 0.0)


def told(reading):
    return [(str(f.level), str(f.code)) for f in reading.findings if f.code == "outline-doubtful"]


def solid_half(gap):
    """Half the shaft, closed along a line of its own, so far off the centre line."""
    ink = half_profile(SHAFT, None)
    ink.solid.append((0.0, 0.0, -40.0, 0.0, 0.0))
    ink = ink.map(shifted(0.0, gap))
    ink.centre.append(LINE)
    return ink


@pytest.mark.parametrize(("gap", "stopped"), [(0.1, True), (0.2, True), (0.408, True), (0.4085, False), (2.0, False)])
@pytest.mark.parametrize("turn", [0, 90, 180])
def test_half_a_solid_part_off_its_centre_line_is_no_bored_one(gap, stopped, turn):
    """A bore of less than a fiftieth of the diameter, 40 and twice the gap, is a gap: up to 0.408."""
    reading = read_sheet(sheet_of(solid_half(gap), rotated(turn)), MM)
    assert told(reading) == [("stop", "outline-doubtful")] * stopped
    accepted = ReadOptions(units="mm", accept=frozenset({"outline-doubtful"}))
    assert not [f for f in read_sheet(sheet_of(solid_half(gap)), accepted).findings if f.stops]


@pytest.mark.parametrize(("bore", "stopped"), [(0.78, True), (0.82, False)])
def test_so_are_two_halves_that_stand_apart(bore, stopped):
    assert told(read_sheet(sheet_of(section(Turned(SHAFT.steps, SHAFT.cuts, bore=bore))), MM)) == (
        [("stop", "outline-doubtful")] * stopped
    )


@pytest.mark.parametrize(("off", "stopped"), [(0.0, False), (0.01, False), (0.02, True)])
def test_a_bore_that_a_size_gives_is_meant(off, stopped):
    """Within ten times 2e-5 of the view, 56.6: 0.0113."""
    across = Dimension(DimensionKind.LINEAR, ((0.0, 0.2), (0.0, -0.2)), 90.0, 0.4 + off, None)
    assert told(read_sheet(sheet_of(solid_half(0.2), dimensions=(across,)), MM)) == (
        [("stop", "outline-doubtful")] * stopped
    )


def test_a_narrow_bore_with_a_wider_place_is_meant():
    ink = solid_half(0.2)
    (bore,) = [line for line in ink.solid if line[1] == line[3] == 0.2]
    ink.solid.remove(bore)
    corners = [(0.0, 0.2), (-20.0, 0.2), (-20.0, 0.22), (-40.0, 0.22), (-40.0, 0.2)]
    ink.chain([(*at, 0.0) for at in corners])
    assert told(read_sheet(sheet_of(ink), MM)) == []


BESIDE = {
    "far beside": ([(5, -1, -45, -1)], 1),
    "above": ([(5, 3, -45, 3)], 1),
    "to its ends": ([(0, -1, -40, -1)], 1),
    "not to its ends": ([(0, -1, -39.98, -1)], 0),
    "nor from them": ([(-0.02, -1, -40, -1)], 0),
    "of holes on both sides": ([(5, 8, -45, 8), (5, -8, -45, -8)], 0),
    "of none": ([(5, 8, -45, 8), (5, -8.02, -45, -8.02)], 1),
    "and the middle": ([(5, -1, -45, -1), (5, 0, -45, 0)], 0),
    "in the middle": ([(5, 0, -45, 0)], 0),
}


@all_pairs(("lines", "count"), BESIDE.values(), draw=[side_view, full_outline], turn=[0, 90])
def test_a_centre_line_beside_the_middle_of_the_view_is_a_caution(lines, count, draw, turn):
    """Ends and images within ten times 2e-5 of the view, 56.6: 0.0113."""
    ink = draw(SHAFT, None)
    ink.centre += [(*map(float, line), 0.0) for line in lines]
    reading = read_sheet(sheet_of(ink, rotated(turn)), MM)
    assert told(reading) == [("caution", "outline-doubtful")] * count
    assert [g.floor_diameter for g in reading.part.grooves] == [pytest.approx(34.0)] * 2


@pytest.mark.parametrize(("off", "count"), [(19.9, 1), (20.1, 0)])
def test_a_line_beyond_the_outside_is_that_of_something_else(off, count):
    ink = side_view(SHAFT, None)
    ink.centre.append((5.0, off, -45.0, off, 0.0))
    across = tuple(
        Dimension(DimensionKind.LINEAR, ((z, 20.0), (z, -20.0)), 90.0, 40.0, "\u00d840") for z in (-5.0, -35.0)
    )
    reading = read_sheet(sheet_of(ink, dimensions=across), MM)
    assert told(reading) == [("caution", "outline-doubtful")] * count
