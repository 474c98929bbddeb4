"""A ring of a detail that is no circle: an oval by hand, as a spline, an ellipse or a line of many points.

The letter at the ring: ISO 128-3, from memory. The detail is the first groove from its own numbers, five times as
large; it is 3 wide, 34 across at its floor.
"""

import math

import ezdxf
import pytest
from support.draw import Cut, Ink, Turned, mixed, side_view, write_dxf
from support.varied import each_in_turn

from extractor import read_drawing
from extractor.sizing.details.enlarged import DetailRing, in_ring

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))
RING, AT, TIMES, HIGH = (-11.5, 18.5), (40.0, -140.0), 5.0, 2.5


def place(z, r):
    return AT[0] + TIMES * (z - RING[0]), AT[1] + TIMES * (r - RING[1])


def oval(count, long=5.0, short=4.0):
    """Points on an oval round the groove's mouth, the first once more at the end."""
    turns = [2 * math.pi * k / count for k in range(count)]
    points = [(RING[0] + long * math.cos(a), RING[1] + short * math.sin(a)) for a in turns]
    return [*points, points[0]]


def spline(msp):
    msp.add_spline(oval(12))


def ellipse(msp):
    msp.add_ellipse(RING, (5.0, 0.0), 0.8)


def polyline(msp, count=16, **sizes):
    msp.add_lwpolyline(oval(count, **sizes))


def rounded(msp):
    """Two straight sides and two half circles."""
    (z, r), b = RING, 1.0
    msp.add_lwpolyline([(z - 1, r - 4, 0), (z + 1, r - 4, b), (z + 1, r + 4, 0), (z - 1, r + 4, b)], "xyb", close=True)


def read(tmp_path, draw, letter=6.0, far=-13.0, name="Z"):
    corners = [(-15.0, 20.0), (far, 20.0), (far, 17.0), (-10.0, 17.0), (-10.0, 20.0), (-8.0, 20.0)]
    path = write_dxf(mixed(side_view(PART), Ink().chain([(*place(*at), 0.0) for at in corners])), tmp_path / "part.dxf")
    doc = ezdxf.readfile(path)
    msp = doc.modelspace()
    draw(msp)
    msp.add_text(name, height=HIGH).set_placement((RING[0] + letter, RING[1]))
    msp.add_text("Z (5:1)", height=HIGH).set_placement((30.0, -120.0))
    ends = place(far, 20.0), place(-10.0, 20.0)
    msp.add_linear_dim((0, -110.0), *ends, text="3 +0.06/+0.02", dimstyle="EZDXF", override={"dimlfac": 0.2}).render()
    doc.saveas(path)
    return read_drawing(path)


def width(reading):
    return reading.part.grooves[0].tolerances.get("width")


@pytest.mark.parametrize("draw", [spline, ellipse, polyline, rounded])
def test_an_oval_with_a_letter_is_the_ring_of_a_detail(tmp_path, draw):
    assert width(read(tmp_path, draw)) == pytest.approx((0.02, 0.06))


def test_a_detail_that_is_drawn_otherwise_than_within_its_oval_stops(tmp_path):
    assert "detail-differs" in [f.code for f in read(tmp_path, spline, far=-13.5).findings if f.stops]


@pytest.mark.parametrize(("letter", "held"), [(12.4, True), (12.6, False)])
def test_the_letter_stands_within_three_heights_of_the_line(tmp_path, letter, held):
    """The oval goes 5 from its middle."""
    assert (width(read(tmp_path, spline, letter=letter)) is not None) is held


@pytest.mark.parametrize(("count", "held"), [(9, True), (8, False)])
def test_a_ring_of_nine_corners_is_round_and_one_of_eight_a_frame(tmp_path, count, held):
    """They turn by 40 and by 45 degrees."""
    reading = read(tmp_path, lambda msp: polyline(msp, count, long=4.5, short=4.5))
    assert (width(reading) is not None) is held


def test_an_oval_that_another_letter_names_or_that_is_open_is_no_ring_of_it(tmp_path):
    assert width(read(tmp_path, spline, name="Y")) is None
    assert width(read(tmp_path, lambda msp: msp.add_lwpolyline(oval(16)[:-2]))) is None


@each_in_turn(("letter", "told"), [(6.0, False), (12.6, True)], draw=[spline, ellipse, polyline, rounded])
def test_the_ring_of_a_detail_that_is_held_is_no_figure_left_out(tmp_path, draw, letter, told):
    """With no letter at it nothing says what it is."""
    codes = [f.code for f in read(tmp_path, draw, letter=letter).findings]
    assert ("left-out" in codes) is told


@pytest.mark.parametrize(("x", "within"), [(4.99, True), (5.01, False)])
def test_what_was_left_out_beside_a_ring_is_none_of_it(x, within):
    """The ring goes 5 from its middle."""
    assert in_ring((RING[0] + x, RING[1]), DetailRing(RING, 4.0, 5.0)) is within
