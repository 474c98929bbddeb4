"""Ends and hollows that may not be those of the part: drawn as a bar's cross-section, or left from an older end."""

import math

import numpy as np
import pytest
from support.draw import Cut, Drawn, Turned, full_outline, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.laying import STUB
from extractor.sheet import Dimension, DimensionKind

MM = ReadOptions(units="mm")
DOVETAIL = ((0.0, 14.0), (-8.0, 18.0), (-8.0, 0.0))
"""In the face of a bar 80 wide and 20 high: its line from the mouth in to the axis."""
DRILLED = ((0.0, 6.0), (-10.0, 6.0), (-13.6, 0.0))


def read(ink, **more):
    return read_sheet(sheet_of(ink, **more), MM)


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


def hollowed(line):
    """A rectangle with such a hollow in its face."""
    upper = [*((z, r, 0.0) for z, r in reversed(line)), (0.0, 40.0, 0.0), (-20.0, 40.0, 0.0), (-20.0, 0.0, 0.0)]
    ink = mixed(full_outline(Turned(((1.0, 1.0),))))
    ink.solid.clear()
    ink.centre[:] = [(5.0, 0.0, -25.0, 0.0, 0.0)]
    ink.chain(upper)
    return ink.chain([(z, -r, 0.0) for z, r, _ in upper])


@pytest.mark.parametrize(
    ("line", "edge", "size", "bars"),
    [
        (DOVETAIL, None, None, True),
        (DOVETAIL, None, 80.0, False),
        (DOVETAIL, -9.0, None, True),
        (DRILLED, None, None, True),
        (DRILLED, 0.0, None, False),
    ],
)
def test_a_hollow_without_the_edge_of_its_mouth_is_that_of_a_bar(line, edge, size, bars):
    """In a section the edge behind the cutting plane is seen (ISO 128-3, from memory): a line across the mouth."""
    ink = hollowed(line)
    if edge is not None:
        ink.solid.append((edge, -line[0][1], edge, line[0][1], 0.0))
    across = Dimension(DimensionKind.LINEAR, ((-20.0, 40.0), (-20.0, -40.0)), 90.0, 80.0, "%%c80")
    told = read(ink, dimensions=(across,) if size else ()).findings
    assert any(f.stops and f.code == "not-turned" and "hollow" in f.message for f in told) is bars


def stubbed(long, foot=0.0, edge=True):
    """A shaft 60 long with a chamfer of 1.5 and an older end so much before it, its land off the foot by so much."""
    r = 20.0 - 1.5 + foot
    part = Drawn(((long, r), (0.0, r), *(((0.0, 18.5),) if foot else ()), (-1.5, 20.0), (-60.0, 20.0)))
    ink = full_outline(part)
    ink.solid += [(0.0, -r, 0.0, r, 0.0)] if edge else []
    return ink


FOOT = 2 * 18.5 * STUB


@pytest.mark.parametrize(
    ("ink", "doubtful"),
    [
        (stubbed(1.5), True),
        (stubbed(FOOT * 0.97), True),
        (stubbed(FOOT * 1.03), False),
        (stubbed(1.5, foot=-1.0), False),
        (stubbed(1.5, edge=False), False),
        (side_view(Turned(((1.5, 37.0), (58.5, 40.0)))), False),
    ],
    ids=["short", "just short", "longer", "a step at its foot", "no edge", "a spigot"],
)
@pytest.mark.parametrize("turned", [False, True])
def test_a_short_land_at_the_foot_of_a_chamfer_may_be_an_older_end(ink, doubtful, turned):
    ink = ink.map(lambda x, y: (-x, -y)) if turned else ink
    assert ("outline-doubtful" in stops(read(ink))) is doubtful


@pytest.mark.parametrize(("x", "told"), [(1.5, False), (0.0, True)])
def test_a_size_that_begins_at_the_face_bears_such_a_land_out(x, told):
    size = Dimension(DimensionKind.LINEAR, ((x, 18.5), (-60.0, 20.0)), 0.0, 60.0 + x, None)
    assert ("outline-doubtful" in stops(read(stubbed(1.5), dimensions=(size,)))) is told


def drawn_on(ink, by):
    """Every straight stroke lengthened at both ends by up to so much."""
    rng = np.random.default_rng(5)
    rows = []
    for x0, y0, x1, y1, bulge in ink.solid:
        size = math.hypot(x1 - x0, y1 - y0)
        (a, b), (ux, uy) = rng.uniform(by / 2, by, 2), ((x1 - x0) / size, (y1 - y0) / size)
        rows.append((x0 - a * ux, y0 - a * uy, x1 + b * ux, y1 + b * uy, bulge))
    ink.solid[:] = rows
    return ink


@pytest.mark.parametrize("by", [0.02, 0.05, 0.1, 0.2])
def test_corner_lines_drawn_on_beyond_their_corners_change_nothing(by):
    """A hand that draws each line a little too long; the chamfer of 0.5 is a line of 0.7."""
    part = Turned(((28.0, 30.0),), (Cut(-6.0, 3.0, 28.0),), chamfer=0.5)
    reading = read(drawn_on(side_view(part), by))
    (groove,) = reading.part.grooves
    assert stops(reading) == []
    assert (groove.z_near, groove.z_far, groove.floor_diameter) == pytest.approx((-6.0, -9.0, 28.0), abs=1e-6)
    assert (reading.part.outer_diameter, reading.part.length) == pytest.approx((30.0, 28.0), abs=1e-6)
