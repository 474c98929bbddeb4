"""An end view drawn larger than its view: its own centre line is no axis of a ring round it, other lines may be."""

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Pen, Source

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 32.0)))
GROOVES = [(-10.0, -13.0, 34.0), (-40.0, -44.0, 32.0)]
MIDDLE, RADIUS = 60.0, 44.0


def read(upright=44.0, level=44.0, radius=RADIUS, off=0.0, pen=Pen.SOLID, second=False, middle=MIDDLE):
    """A shaft with its axis, beyond its end two crossed lines of half these lengths, and a circle round the middle."""
    ink = full_outline(SHAFT)
    ink.centre += [(middle + x, -upright, middle + x, upright, 0.0) for x in ((0.0, off) if second else (0.0,))]
    if level:
        ink.centre.append((middle - level, 0.0, middle + level, 0.0, 0.0))
    circles = (Circle((middle + off, 0.0), radius, Source("C", "CIRCLE", "0", pen)),) if radius else ()
    reading = read_sheet(sheet_of(ink, circles=circles), ReadOptions(units="mm"))
    grooves = [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] if reading.part else []
    return [f.code.value for f in reading.findings], grooves


@pytest.mark.parametrize("pen", [Pen.SOLID, Pen.HIDDEN])
@pytest.mark.parametrize(("upright", "middle"), [(44.0, MIDDLE), (50.0, MIDDLE), (65.9, MIDDLE), (50.0, 44.1)])
def test_the_line_of_an_end_view_drawn_larger_is_no_axis(upright, middle, pen):
    codes, grooves = read(upright, pen=pen, middle=middle)
    assert grooves == GROOVES
    assert codes == (["views-differ"] if pen is Pen.SOLID else [])


@pytest.mark.parametrize(
    "more",
    [
        {"radius": 0.0},
        {"upright": 66.1},
        {"level": 0.0},
        {"off": 1.0},
        {"off": 1.0, "second": True},
        {"pen": Pen.PHANTOM},
        {"middle": 43.9},
        {"middle": 0.0},
    ],
    ids=[
        "no circle",
        "a longer line",
        "no line across",
        "beside it",
        "round another",
        "of another pen",
        "on the view",
        "on its end",
    ],
)
def test_about_another_line_the_view_may_be_a_ring(more):
    """A ring shown in half section, alike from both ends, has its axis so."""
    codes, _ = read(**more)
    assert codes[0] == ("not-turned" if more.get("middle") == 0.0 else "axis-unclear")


def test_the_lines_of_a_circle_on_the_view_may_both_be_its_axis():
    """A spool as long as it is high, behind a circle as large."""
    ink = full_outline(Turned(((40.0, 40.0),), (Cut(-18.0, 4.0, 30.0),)))
    ink.centre.append((-20.0, -22.0, -20.0, 22.0, 0.0))
    circles = (Circle((-20.0, 0.0), 20.0, Source("C", "CIRCLE", "0")),)
    reading = read_sheet(sheet_of(ink, circles=circles), ReadOptions(units="mm"))
    assert [f.code for f in reading.findings if f.stops] == ["axis-unclear"]
