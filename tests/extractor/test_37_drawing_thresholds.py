"""Thresholds of opening a drawing and of recesses that no other test stands beside: just inside and just outside."""

import ezdxf
import pytest
from ezdxf.math import Matrix44
from support.draw import Drawn, Ink, full_outline, sheet_of, with_centre

from extractor import ReadOptions, read_sheet
from extractor.opening.entities import tilted
from extractor.opening.leaders import distance
from extractor.opening.windows import _window
from extractor.sheet import Text


@pytest.mark.parametrize(("rise", "out"), [(0.0099, False), (0.0101, True)])
def test_a_line_ten_long_that_rises_out_of_the_sheet(rise, out):
    line = ezdxf.new().modelspace().add_line((0, 0, 0), (10, 0, rise))
    assert tilted(line, Matrix44()) == out


@pytest.mark.parametrize(("size", "shown"), [(0.9e6, True), (1.1e6, False), (1.1e-6, True), (0.9e-6, False)])
def test_a_window_that_shows_anything(size, shown):
    page = ezdxf.new().layout("Layout1")
    window = page.add_viewport(center=(0, 0), size=(size, size), view_center_point=(0, 0), view_height=1.0)
    window.dxf.id = 2
    assert (_window(window) is not None) is shown


@pytest.mark.parametrize(("x", "away"), [(5.6, 0.0), (6.0, 0.4), (-0.5, 0.5)])
def test_how_long_a_text_is_taken_to_be(x, away):
    # Four letters 2 high, 0.7 of their height each: 5.6.
    assert distance((x, 0.0), Text("ABCD", (0.0, 0.0), 2.0)) == pytest.approx(away)


def read(*corners):
    """A shaft 60 long and 50 across."""
    return read_sheet(
        sheet_of(full_outline(Drawn(tuple((float(z), float(r), 0.0) for z, r in corners)))), ReadOptions(units="mm")
    )


# Three in ten thousand of the view, 60 long and 50 high: its diagonal is 78.1, so 0.0234.
DEEP = [(0.0225, False), (0.0245, True)]


def codes(reading):
    return [f.code for f in reading.findings]


@pytest.mark.parametrize(("depth", "groove"), DEEP)
def test_a_dip_no_deeper_than_the_pen_errs_is_no_groove(depth, groove):
    low = 25 - depth
    reading = read((0, 15), (-10, 15), (-10, 25), (-20, 25), (-20, low), (-23, low), (-23, 25), (-60, 25))
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == ([(-20.0, -23.0)] if groove else [])
    assert codes(reading) == ([] if groove else ["pen-slip"])
    assert (min(r for z, r in reading.part.outline if -60 < z < -15) == 25) is not groove  # no program need leave it


@pytest.mark.parametrize(("lean", "relief"), DEEP)
def test_nor_is_a_shoulder_that_leans_as_little_a_relief(lean, relief):
    reading = read((0, 15), (-30, 15), (-30 + lean, 25), (-40, 25), (-40, 20), (-43, 20), (-43, 25), (-60, 25))
    assert [g.where for g in reading.part.grooves] == (["face", "outside"] if relief else ["outside"])
    assert codes(reading) == ["face-groove" if relief else "off-square"]


@pytest.mark.parametrize(("depth", "groove"), DEEP)
def test_nor_is_a_dip_of_a_bore(depth, groove):
    deep = 10 + depth
    wall = [(0, 10), (-20, 10), (-20, deep), (-23, deep), (-23, 10), (-60, 10), (-60, 25), (0, 25)]
    upper = Ink().chain([(float(z), float(r), 0.0) for z, r in wall], close=True)
    both = Ink(solid=[*upper.solid, *upper.map(lambda x, y: (x, -y)).solid])
    reading = read_sheet(sheet_of(with_centre(both, Drawn(((0.0, 1.0), (-60.0, 1.0))), 5.0)), ReadOptions(units="mm"))
    assert [(g.where, g.z_near) for g in reading.part.grooves] == ([("inside", -20.0)] if groove else [])
    assert ("pen-slip" in codes(reading)) is not groove
    assert (max(r for _, r in reading.part.bore) == 10) is not groove
