"""Half a part whose faces end beside the centre line: by little the line, or the half, was drawn a little off."""

import math
import re

import pytest
from support.draw import Cut, Ink, Turned, half_profile, rotated, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)), chamfer=1.0)


def half(front, back=None, closed=False, part=SHAFT):
    """A half profile about the level line through 0, its faces ending so far above that, closed along them or not."""
    back = front if back is None else back
    points = [(0.0, front, 0.0), *part.half(), (-part.length, back, 0.0)]
    ink = Ink().chain(points, close=closed)
    ink.centre.append((5.0, 0.0, -part.length - 5.0, 0.0, 0.0))
    return ink


def told(ink, turn=0):
    reading = read_sheet(sheet_of(ink, rotated(turn)), ReadOptions(units="mm"))
    found = [
        re.search(r"both end (\S+) (short of|beyond) .* diameters are (\S+) ", f.message) for f in reading.findings
    ]
    return [(float(m[1]), m[2], float(m[3])) for m in found if m]


@pytest.mark.parametrize("turn", [0, 90, 180, 33])
@pytest.mark.parametrize(("off", "words"), [(-0.3, (0.3, "beyond", 0.6)), (-0.05, (0.05, "beyond", 0.1))])
def test_faces_that_run_a_hair_beyond_the_centre_line_are_told_with_what_that_makes(off, words, turn):
    assert told(half(off), turn) == [words]


@pytest.mark.parametrize("off", [0.01, 0.05])
def test_so_are_those_that_end_short_of_it(off):
    assert told(half(off)) == [(off, "short of", 2 * off)]


@pytest.mark.parametrize("off", [-0.05, -0.01])
def test_so_is_a_half_that_is_closed_along_their_ends(off):
    assert told(half(off, closed=True)) == [(-off, "beyond", -2 * off)]


@pytest.mark.parametrize(("off", "count"), [(-0.0014, 0), (-0.0015, 1), (-0.72, 1), (-0.73, 0), (-3.0, 0)])
def test_from_the_noise_up_to_a_hundredth_of_the_view(off, count):
    """Its size is 72.1, of 40 across and 60 long; the noise is 0.00144."""
    assert len(told(half(off))) == count


@pytest.mark.parametrize(("back", "count"), [(-0.1, 1), (-0.114, 1), (-0.115, 0), (0.0, 0)])
def test_faces_that_end_unlike_are_a_slip_of_one(back, count):
    """They are alike within ten times the noise, 0.0144."""
    assert len(told(half(-0.1, back))) == count


@pytest.mark.parametrize(
    "ink", [half(0.0), half_profile(SHAFT), side_view(SHAFT), section(Turned(((60.0, 40.0),), bore=16.0))]
)
def test_faces_that_end_on_it_or_at_a_bore_or_on_the_other_side_are_not(ink):
    assert told(ink) == []


def crossed(*line, turn=0):
    ink, move = side_view(SHAFT, 5.0), rotated(turn)
    ink.centre.append((*line, 0.0))
    ends = move(-40.0, 20.0), move(-40.0, -20.0)
    size = Dimension(DimensionKind.ALIGNED, ends, 90.0 + turn, math.dist(*ends), "\u00d840")
    reading = read_sheet(sheet_of(ink, move, dimensions=(size,)), ReadOptions(units="mm"))
    return any("drawn to its middle alone" in f.message for f in reading.findings if f.level == "caution")


@pytest.mark.parametrize("turn", [0, 90, 33])
@pytest.mark.parametrize("z", [0.0, -60.0])
def test_a_centre_line_along_an_end_face_may_halve_the_part(z, turn):
    assert crossed(z, -26.0, z, 26.0, turn=turn)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ((-60.014, -26.0, -60.014, 26.0), True),
        ((-60.015, -26.0, -60.015, 26.0), False),  # beside the face by more than 0.0144
        ((-60.0, -20.02, -60.0, 20.02), True),
        ((-60.0, -20.01, -60.0, 20.02), False),  # out on one side alone
        ((-60.0, -26.0, -60.0, 5.0), False),
        ((-11.5, -26.0, -11.5, 26.0), False),  # that of a groove
        ((-30.0, -26.0, -30.0, 26.0), False),
    ],
)
def test_other_centre_lines_across_a_part_don_t(line, told):
    assert crossed(*line) is told
