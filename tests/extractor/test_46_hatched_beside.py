"""A section of the part that was not read, as its outline is open: its hatching still stands in line with the view."""

import pytest
from support.draw import Cut, Turned, side_view
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))


def read(first=0.0, last=-60.0, below=100.0, outlined=False, **options):
    """The view, and under it the hatching of both halves of a section, with its outline or without."""
    doc = blank()
    msp = doc.modelspace()
    for x0, y0, x1, y1, _ in side_view(PART).solid:
        msp.add_line((x0, y0), (x1, y1))
    for y in (0.0, -below):
        msp.add_line((-66, y), (6, y), dxfattribs={"linetype": "CENTER"})
    for side in (1, -1):
        half = [(first, 8.0), (first, 20.0), (-10.0, 20.0), (-10.0, 17.0), (-13.0, 17.0), (-13.0, 20.0), (last, 20.0)]
        area = [(x, side * y - below) for x, y in (*half, (last, 8.0))]
        hatch = msp.add_hatch()
        hatch.set_pattern_fill("ANSI31")
        hatch.paths.add_polyline_path(area, is_closed=True)
        if outlined:
            msp.add_lwpolyline(area, close=True)
            msp.add_line((first, side * 8.0 - below), (first, -below))
            msp.add_line((last, side * 8.0 - below), (last, -below))
    return read_sheet(read_back(doc), ReadOptions(units="mm", **options))


def told(reading):
    return [f.code.value for f in reading.findings if "hatched figure" in f.message]


@pytest.mark.parametrize(
    ("first", "last", "word"),
    [
        (0.0, -60.0, True),
        (-1.15, -60.0, True),
        (-1.25, -60.0, False),  # 1.2 is two hundredths of its length
        (0.0, -58.75, False),
        (1.15, -60.0, True),
        (1.25, -60.0, False),
    ],
)
def test_hatching_as_long_as_the_part_in_line_with_it_is_told(first, last, word):
    assert told(read(first, last)) == ["passed-over"] * word


def test_a_section_that_is_read_is_not():
    reading = read(outlined=True)
    assert (reading.part.bore is not None, told(reading)) == (True, [])


def test_who_points_to_a_view_means_that():
    assert told(read(at=(-30.0, 0.0))) == []


@pytest.mark.parametrize(("below", "word"), [(0.0, False), (100.0, True)])
def test_hatching_of_the_view_itself_is_its_own(below, word):
    assert told(read(below=below)) == ["passed-over"] * word
