"""A ring drawn in its groove, hatched, on a part that is seen from outside (common practice, no source)."""

import pytest
from support.draw import Cut, Turned, side_view
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet

SHAFT = Turned(((80.0, 40.0),), (Cut(-12.0, 3.0, 34.0), Cut(-50.0, 4.0, 34.0)))


def read(near=-12.2, far=-14.8, foot=17.0, head=22.0, hatched=True, lines=()):
    """The shaft with a ring on both halves."""
    doc = blank()
    msp = doc.modelspace()
    for x0, y0, x1, y1, _ in (*side_view(SHAFT).solid, *lines):
        msp.add_line((x0, y0), (x1, y1))
    for side in (1, -1):
        ring = [(near, side * foot), (near, side * head), (far, side * head), (far, side * foot)]
        msp.add_lwpolyline(ring, close=True)
        if hatched:
            hatch = msp.add_hatch()
            hatch.set_pattern_fill("ANSI31")
            hatch.paths.add_polyline_path(ring, is_closed=True)
    msp.add_line((-86, 0), (6, 0), dxfattribs={"linetype": "CENTER"})
    return read_sheet(read_back(doc), ReadOptions(units="mm"))


def grooves(reading):
    return [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves]


def told(reading):
    return [(f.code.value, f.level.value) for f in reading.findings if f.level != "note"]


@pytest.mark.parametrize(
    ("near", "far"), [(-12.2, -14.8), (-12.0, -14.5), (-12.0, -15.0)], ids=["clear", "at one wall", "tight"]
)
def test_a_ring_in_its_groove_is_left_out_with_a_caution(near, far):
    """It was one part put on another; accepted as one part it made a groove of each slit beside it."""
    reading = read(near, far)
    assert grooves(reading) == [(-12.0, -15.0, 34.0), (-50.0, -54.0, 34.0)]
    assert told(reading) == [("left-out", "caution")] * 1


@pytest.mark.parametrize(
    "change", [{"hatched": False}, {"near": -30.0, "far": -33.0, "foot": 20.0}], ids=["no hatching", "on a land"]
)
def test_what_is_not_hatched_or_stands_in_no_groove_is_none(change):
    assert ("left-out", "caution") not in told(read(**change))


@pytest.mark.parametrize(("head", "left"), [(20.0, False), (20.01, True)])
def test_a_ring_stands_out_of_its_groove(head, left):
    """What ends level with the land is metal of the part, as a hardened rim is; noise is 0.0018."""
    assert (("left-out", "caution") in told(read(-12.0, -15.0, head=head))) is left


@pytest.mark.parametrize(("aside", "left"), [(0.98, True), (1.02, False)])
def test_its_groove_is_no_wider_than_the_ring_on_either_side(aside, left):
    """So far from either wall of the groove, which is 3 wide, the ring is 3 less twice that wide."""
    assert (("left-out", "caution") in told(read(-12.0 - aside, -15.0 + aside))) is left


@pytest.mark.parametrize("wide", [0.0016, 0.0017])
def test_a_hatched_sliver_is_no_ring(wide):
    """No wider than noise, which is 0.0018: between it and its land lay less than nothing."""
    assert grooves(read(-12.2, -12.2 - wide))[1] == (-50.0, -54.0, 34.0)
