"""Outlines that are nearly right, one oddity each: the code, the place on the sheet and the sentence that tell it."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.draw import (
    Cut,
    Drawn,
    Ink,
    Turned,
    box,
    full_outline,
    half_profile,
    mixed,
    section,
    sheet_of,
    shifted,
    side_view,
    with_centre,
)

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.sheet import Dimension, DimensionKind, Pen, Source

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
GROOVE = [(-10.0, -13.0, 34.0)]


def read(ink, options=MM, **more):
    return read_sheet(sheet_of(ink, **more), options)


def spans(reading):
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves]


def told(reading):
    return [(f.level, f.code) for f in reading.findings]


def halves(upper, lower):
    """A part whose two halves are drawn apart."""
    below = half_profile(lower, None).map(lambda x, y: (x, -y))
    return with_centre(mixed(half_profile(upper, None), below), upper, 5.0)


def bored(*bore):
    """A section of a plain sleeve with this bore, both halves."""
    corners = [(0.0, 20.0), (-60.0, 20.0), *reversed(bore)]
    upper = Ink().chain([(z, r, 0.0) for z, r in corners], close=True)
    return with_centre(mixed(upper, upper.map(lambda x, y: (x, -y))), RING, 5.0)


def leaning(by):
    """The ring with the front wall of its groove out of true by so much."""
    return Drawn(((0, 20), (-10, 20), (-10 - by, 17), (-13, 17), (-13, 20), (-60, 20)))


@pytest.mark.parametrize("by", [0.005, 0.02])
@pytest.mark.parametrize("upper_is_true", [True, False])
def test_halves_a_little_unlike_give_the_true_one_and_a_caution(by, upper_is_true):
    pair = (RING, leaning(by)) if upper_is_true else (leaning(by), RING)
    reading = read(halves(*pair))
    assert spans(reading) == GROOVE
    (finding,) = reading.findings
    assert (finding.level, finding.code, finding.at) == (Level.CAUTION, "halves-unlike", (-11.5, 17.0))
    assert "recess at X-11.5 Y17" in finding.message
    assert "the one with straight walls was read" in finding.message


@pytest.mark.parametrize("by", [0.3, 1.4])
@pytest.mark.parametrize("upper_is_true", [True, False])
def test_halves_of_which_one_plainly_leans_are_a_stop(by, upper_is_true):
    pair = (RING, leaning(by)) if upper_is_true else (leaning(by), RING)
    (finding,) = [f for f in read(halves(*pair)).findings if f.stops]
    assert (finding.code, finding.at) == ("halves-disagree", (-11.5, 17.0))
    assert "recess at X-11.5 Y17 with radial walls and the other with sloping ones; draw both alike" in finding.message


# How far the lower half's groove is off in place, in width and in its floor's radius.
DISAGREEING = {
    "place, just beyond the pen": (0.04, 0.0, 0.0),
    "place": (1.0, 0.0, 0.0),
    "place, by nearly the width": (2.9, 0.0, 0.0),
    "width": (0.0, 0.5, 0.0),
    "floor, just beyond the pen": (0.0, 0.0, 0.04),
    "floor": (0.0, 0.0, 1.0),
}


@pytest.mark.parametrize(("place", "width", "floor"), DISAGREEING.values(), ids=DISAGREEING)
def test_halves_that_nearly_agree_on_a_groove_stop_with_both_figures(place, width, floor):
    other = Turned(RING.steps, (Cut(-10.0 - place, 3.0 + width, 34.0 + 2 * floor), Cut(-40.0, 3.0, 34.0)))
    both = Turned(RING.steps, (*RING.cuts, Cut(-40.0, 3.0, 34.0)))
    reading = read(halves(both, other))
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, stop.at) == ("halves-disagree", (-11.5, 17.0))
    assert "10 to 13 behind the front face, 17 from the axis" in stop.message
    there = f"{10 + place:g} to {13 + place + width:g} behind the front face, {17 + floor:g} from the axis"
    assert there in stop.message


def test_halves_apart_by_no_more_than_the_pen_are_one_groove():
    """Drawn one by one by a hand: their lands do not end quite alike either."""
    land = tuple((length + 0.01, across) for length, across in RING.steps)
    reading = read(halves(RING, Turned(land, (Cut(-10.02, 3.0, 34.0),))))
    assert told(reading) == []
    ((near, far, floor),) = spans(reading)
    assert (near, far, floor) == pytest.approx((-10.01, -13.01, 34.0))


def test_recesses_that_share_no_length_are_notches_of_their_own():
    reading = read(halves(RING, Turned(RING.steps, (Cut(-13.5, 3.0, 34.0),))))
    assert spans(reading) == []
    assert told(reading) == [(Level.CAUTION, "one-sided")] * 2


@pytest.mark.parametrize("count", [2, 3])
def test_recesses_between_one_another_on_the_two_sides_are_a_helix(count):
    upper, lower = (Turned(((60.0, 40.0),), tuple(Cut(z - 8 * k, 2, 36) for k in range(count))) for z in (-10, -14))
    reading = read(halves(upper, lower))
    assert spans(reading) == []
    (finding,) = reading.findings
    assert (finding.level, finding.code, finding.at) == (Level.CAUTION, "helix", (-10.0, 20.0))
    assert "From X-10 Y20" in finding.message
    assert "not as grooves" in finding.message


FOLDED = {
    "a counterbore under its step": ((0, 8), (-20, 8), (-20, 10), (-15, 10), (-15, 12), (-60, 12)),
    "a step that leans over": ((0, 6), (-20, 6), (-15, 8), (-60, 8)),
    "a step that leans back": ((0, 8), (-20, 8), (-15, 6), (-60, 6)),
}


@pytest.mark.parametrize("bore", FOLDED.values(), ids=FOLDED)
def test_a_bore_that_folds_back_in_both_halves_is_one_stop(bore):
    reading = read(bored(*bore))
    at = next(p for p, q in pairwise(bore) if q[0] > p[0])
    assert told(reading) == [(Level.STOP, "outline-unclear")]
    assert [f.at for f in reading.findings] == [at]
    assert f"The outline at X{at[0]:g} Y{at[1]:g} folds back on itself" in reading.findings[0].message


@pytest.mark.parametrize("pen", [Pen.SOLID, Pen.PHANTOM])
def test_jaws_at_the_part_are_asked_about_unless_they_are_phantom_lines(pen):
    """The line of what is beside a part is 05 (ISO 128-2, from memory)."""
    ink = full_outline(Turned(((60.0, 40.0), (30.0, 30.0)), RING.cuts))
    sheet = sheet_of(mixed(ink, box(-80, 15, -100, 30), box(-80, -30, -100, -15)))
    lines = sheet.segments
    x, y = ((lines.ends[:, :2] + lines.ends[:, 2:]) / 2).T
    source = np.where((x <= -80) & (np.abs(y) >= 15), len(lines.sources), lines.source)
    sources = (*lines.sources, Source("J", "LWPOLYLINE", "0", pen))
    reading = read_sheet(replace(sheet, segments=replace(lines, source=source, sources=sources)), MM)
    stops = {f.code: f.message for f in reading.findings if f.stops}
    assert bool(stops) is (pen is Pen.SOLID)
    assert all("as phantom lines" in message for message in stops.values())
    assert spans(reading) == GROOVE or stops


def test_a_bore_with_plain_steps_does_not_fold():
    assert told(read(bored((0, 8), (-20, 8), (-20, 6), (-60, 6)))) == []


@pytest.mark.parametrize("drawn", [full_outline(RING), section(Turned(RING.steps, RING.cuts, bore=10.0))])
def test_a_box_on_one_half_alone_is_left_out_with_a_caution(drawn):
    reading = read(mixed(drawn, box(-40, 20, -36, 25)))
    assert spans(reading) == GROOVE
    (finding,) = reading.findings
    assert (finding.level, finding.code, finding.at) == (Level.CAUTION, "left-out", (-38.0, 22.5))
    assert "Closed lines at X-38 Y22.5" in finding.message


def cells(count, depths):
    """Cells one wide side by side under the land, each as deep as the next of `depths`."""
    deep = [depths[k % len(depths)] for k in range(count)]
    walls = [max(pair) for pair in pairwise([0.0, *deep, 0.0])]
    floors = [(-30.0 - k, 20 - d, -31.0 - k, 20 - d, 0.0) for k, d in enumerate(deep)]
    upper = Ink(solid=[*floors, *((-30.0 - k, 20.0, -30.0 - k, 20 - d, 0.0) for k, d in enumerate(walls))])
    return mixed(upper, upper.map(lambda x, y: (x, -y)))


@pytest.mark.parametrize("depths", [(1.0, 0.8), (1.0, 0.8, 0.6)])
def test_a_row_of_cells_under_the_land_is_a_knurl(depths):
    reading = read(mixed(full_outline(RING), cells(9, depths)))
    assert spans(reading) == GROOVE
    (finding,) = reading.findings
    assert (finding.level, finding.code) == (Level.CAUTION, "knurl")
    assert finding.at == pytest.approx((-30.5, 19.5), abs=0.45)
    assert f"cells at X{finding.at[0]:.4g} Y{finding.at[1]:.4g}" in finding.message


def test_a_row_of_cells_on_one_line_is_no_row_of_grooves():
    """The line that runs on below them says that no insert made them."""
    assert spans(read(mixed(full_outline(RING), cells(9, (1.0,))))) == GROOVE


def test_a_turned_view_without_a_centre_line_is_passed_over_for_one_that_has_it():
    pin = full_outline(Turned(((40.0, 20.0),)), None).map(shifted(0, 80))
    across = Dimension(DimensionKind.LINEAR, ((-20.0, 90.0), (-20.0, 70.0)), 90.0, 20.0, "Ø<>")
    sheet = mixed(side_view(RING), pin)
    reading = read(sheet, dimensions=(across,))
    assert spans(reading) == GROOVE
    (finding,) = [f for f in reading.findings if f.code == "passed-over"]
    assert (finding.level, finding.at) == (Level.CAUTION, (-20.0, 80.0))
    assert "The view at X-20 Y80" in finding.message
    assert "--at" in finding.message
    pointed = read(sheet, ReadOptions(units="mm", at=finding.at), dimensions=(across,))
    assert (pointed.part.outer_diameter, pointed.part.grooves) == (20.0, ())
    assert "passed-over" not in {f.code for f in pointed.findings}


def crossed(*signs, options=MM):
    """A ring alike from both sides, two centre lines across each other, and diameter signs on one or both."""
    sizes = {
        "across": Dimension(DimensionKind.LINEAR, ((-50.0, 20.0), (-50.0, -20.0)), 90.0, 40.0, "Ø<>"),
        "along": Dimension(DimensionKind.LINEAR, ((0.0, 10.0), (-60.0, 10.0)), 0.0, 60.0, "Ø<>"),
    }
    ink = full_outline(Turned(((60.0, 40.0),), (Cut(-28.5, 3.0, 34.0),)), None)
    ink.centre += [(5.0, 0.0, -65.0, 0.0, 0.0), (-30.0, -35.0, -30.0, 35.0, 0.0)]
    return read(ink, options, dimensions=tuple(sizes[sign] for sign in signs))


@pytest.mark.parametrize(("front", "across"), [("right", 40.0), ("left", 40.0), ("top", 60.0), ("bottom", 60.0)])
def test_the_end_that_is_z0_says_which_of_two_centre_lines_is_the_axis(front, across):
    reading = crossed("across", "along", options=replace(MM, front=front))
    assert told(reading) == [(Level.CAUTION, "axis-unclear")]
    assert (reading.part.outer_diameter, reading.front.end) == (across, front)


def test_two_centre_lines_that_both_may_be_the_axis_are_a_stop():
    reading = crossed("across", "along")
    assert reading.part is None
    (finding,) = reading.findings
    assert (finding.level, finding.code) == (Level.STOP, "axis-unclear")
    assert finding.at == pytest.approx((-30.0, 0.0))
    assert "The view at X-30 Y0" in finding.message
    assert "take the other line away" in finding.message


def test_one_diameter_sign_says_which_of_two_centre_lines_is_the_axis():
    reading = crossed("across")
    assert told(reading) == []
    assert spans(reading) == [(-28.5, -31.5, 34.0)]


def test_a_picture_made_of_strokes_is_refused_soon():
    """Two thousand slanting strokes, each across nearly all others."""
    rising = [(k / 100, 0.0, k / 100 + 50, 100.0, 0.0) for k in range(1100)]
    falling = [(0.0, k / 100, 100.0, k / 100 + 50, 0.0) for k in range(1100)]
    reading = read(Ink(solid=[*rising, *falling]))
    assert reading.part is None
    assert told(reading) == [(Level.STOP, "too-dense")]
    assert "send the part's view alone" in reading.findings[0].message
