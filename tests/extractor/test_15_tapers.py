"""Heads of loose dimensions as programs and converters write them: whatever entity fills a triangle, it is a head.

Sheets are written by a library. The truth is the part's: 40 across, 60 long, two grooves 3 wide with floors of 34. A
tapering polyline is drawn as the quadrilateral between its widths at both ends (DXF reference, codes 40 and 41).
"""

import math

import ezdxf
import pytest
from ezdxf.math import Vec2
from support.draw import Cut, Turned, side_view
from support.varied import each_in_turn

from extractor import ReadOptions, read_drawing
from extractor.opening.strokes import Chain
from extractor.opening.tapers import with_tapers

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))
SIZE, WIDE = 3.0, 1.0


def corners(tip, back):
    """The point of a head and both ends of its base."""
    along = (Vec2(back) - Vec2(tip)).normalize()
    base = Vec2(tip) + along * SIZE
    return Vec2(tip), base + along.orthogonal() * WIDE / 2, base - along.orthogonal() * WIDE / 2


def solid(msp, tip, back):
    a, b, c = corners(tip, back)
    msp.add_solid([a, b, c, c])


def taper(msp, tip, back):
    base = Vec2(tip) + (Vec2(back) - Vec2(tip)).normalize() * SIZE
    msp.add_lwpolyline([(*tip, 0.0, WIDE), (*base, 0.0, 0.0)], format="xyse")


def taper_back(msp, tip, back):
    base = Vec2(tip) + (Vec2(back) - Vec2(tip)).normalize() * SIZE
    msp.add_lwpolyline([(*base, WIDE, 0.0), (*tip, WIDE, WIDE)], format="xyse")


def heavy_taper(msp, tip, back):
    base = Vec2(tip) + (Vec2(back) - Vec2(tip)).normalize() * SIZE
    msp.add_polyline2d([(*tip, 0.0, WIDE), (*base, 0.0, 0.0)], format="xyse")


def hatch(msp, tip, back):
    msp.add_hatch().paths.add_polyline_path(corners(tip, back), is_closed=True)


def hatch_by_edges(msp, tip, back):
    path, (a, b, c) = msp.add_hatch().paths.add_edge_path(), corners(tip, back)
    for one, two in ((a, b), (b, c), (c, a)):
        path.add_line(one, two)


def block(msp, tip, back):
    """Two sides and a piece of the line, as what is left of an exploded dimension."""
    a, b, c = corners(tip, back)
    for end in (b, c, (b + c) / 2):
        msp.add_line(a, end)


HEADS = [solid, taper, taper_back, heavy_taper, hatch, hatch_by_edges, block]


def sheet(folder, head, first, floor, tail=0.0):
    """The part with four sizes on one layer, extension lines without a gap; the first stands on a `tail`."""
    doc = ezdxf.new(setup=True)
    doc.header["$INSUNITS"] = 4
    msp, ink = doc.modelspace(), side_view(RING)
    for x0, y0, x1, y1, _ in ink.solid:
        msp.add_line((x0, y0), (x1, y1))
    for x0, y0, x1, y1, _ in ink.centre:
        msp.add_line((x0, y0), (x1, y1), dxfattribs={"linetype": "CENTER"})
    for a, b, y, words in ((-10, 0, 30, first), (-60, 0, -30, "60"), (-30, 0, 44, "30")):
        for x in (a, b):
            msp.add_line((x, math.copysign(20, y)), (x, y + math.copysign(1, y)))
        msp.add_line((a, y), (b, y))
        head(msp, (a, y), (b, y))
        head(msp, (b, y), (a, y))
        moved = (words == first) * tail
        if moved:
            msp.add_line((a, y), (a - moved, y))
        msp.add_text(words, height=2.5, dxfattribs={"insert": (a - moved + 1 if moved else (a + b) / 2 - 2, y + 0.8)})
    for r in (17, -17):
        msp.add_line((-13, r), (-81, r))
        head(msp, (-80, r), (-80, -r))
    msp.add_line((-80, -17), (-80, 17))
    msp.add_text(floor, height=2.5, dxfattribs={"insert": (-80.8, -8), "rotation": 90})
    path = folder / "heads.dxf"
    doc.saveas(path)
    return read_drawing(path, ReadOptions(units="mm"))


@each_in_turn(tail=[0.0, 9.0], head=HEADS)
def test_whatever_fills_a_head_its_sizes_are_read(tmp_path, head, tail):
    reading = sheet(tmp_path, head, "10", "%%c34 -0.04/-0.12", tail)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert (reading.part.outer_diameter, reading.part.length) == (40, 60)
    assert [f.code.value for f in reading.findings if f.level != "note"] == []
    assert reading.part.grooves[0].tolerances["floor_diameter"] == pytest.approx((-0.12, -0.04))


@pytest.mark.parametrize("head", HEADS)
def test_and_false_ones_are_told(tmp_path, head):
    for first, floor in (("11", "%%c34"), ("10", "%%c35")):
        stops = [f.code.value for f in sheet(tmp_path, head, first, floor).findings if f.stops]
        assert stops == ["dimension-contradicts"]


LINE = Chain(((0.0, 0.0), (3.0, 0.0), (9.0, 0.0)), (0.0, 0.0))


@pytest.mark.parametrize(("widths", "made"), [
    ([(0.0, 0.0)] * 3, [LINE]),
    ([(1.0, 1.0)] * 3, [LINE]),
    ([(1.0, 0.5), (0.0, 0.0), (0.0, 0.0)], [LINE]),
    ([(0.0, 1.0), (0.0, 0.0), (0.0, 0.0)], [
        Chain(((0.0, 0.0), (3.0, 0.5), (3.0, -0.5), (0.0, 0.0)), (0.0,) * 3), Chain(((3.0, 0.0), (9.0, 0.0)), (0.0,)),
    ]),
    ([(0.0, 0.0), (1.0, 0.0), (0.0, 0.0)], [
        Chain(((0.0, 0.0), (3.0, 0.0)), (0.0,)), Chain(((9.0, 0.0), (3.0, 0.5), (3.0, -0.5), (9.0, 0.0)), (0.0,) * 3),
    ]),
])  # fmt: skip
def test_an_edge_that_tapers_to_a_point_is_a_triangle_and_the_rest_a_line(widths, made):
    """The widths of the last corner draw nothing."""
    assert with_tapers([LINE], widths) == made


def test_an_arc_that_tapers_stays_a_line():
    bow = Chain(((0.0, 0.0), (3.0, 0.0)), (0.3,))
    assert with_tapers([bow], [(0.0, 1.0), (0.0, 0.0)]) == [bow]
