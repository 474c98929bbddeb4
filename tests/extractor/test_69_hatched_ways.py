"""Metal hatched in two ways: one part is hatched in one (ISO 128-3, from memory)."""

import math
from itertools import product

import ezdxf
import pytest
from support.draw import Ink, sheet_of

from extractor import ReadOptions, read_drawing, read_sheet


@pytest.mark.parametrize(("degrees", "several"), [(45, False), (36, False), (34, True), (-45, True)])
def test_metal_hatched_another_way_than_the_metal_beside_it_is_another_part(degrees, several):
    """Two rings in section, the first hatched at 45 degrees."""
    ink = Ink(centre=[(5.0, 0.0, -25.0, 0.0, 0.0)])
    for (z, top, lean), s in product(((0, 20, 45), (-10, 16, degrees)), (1, -1)):
        ink.chain([(z, s * 8, 0.0), (z, s * top, 0.0), (z - 10, s * top, 0.0), (z - 10, s * 8, 0.0)], close=True)
        rise = 2 * math.tan(math.radians(lean))
        places = (s * 12 + 0.8 * k for k in range(-2, 3))
        ink.solid += [(z - 7, y - rise, z - 3, y + rise, 0.0) for y in places]
    assert (
        "assembly" in {f.code.value for f in read_sheet(sheet_of(ink), ReadOptions(units="mm")).findings if f.stops}
    ) is several


@pytest.mark.parametrize(("turned", "several"), [(0, False), (9, False), (11, True), (90, True)])
@pytest.mark.parametrize("mirrored", [False, True])
def test_two_hatches_of_the_file_that_run_two_ways_are_two_parts(tmp_path, turned, several, mirrored):
    """The same two rings; the pattern has its lines at 45 degrees, and each half is hatched by itself."""
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 4
    rings = doc.blocks.new("RINGS")
    rings.add_line((5, 0), (-25, 0), dxfattribs={"linetype": "CENTER"})
    for (z, top, angle), s in product(((0, 20, 0), (-10, 16, turned)), (1, -1)):
        corners = [(z, s * 8), (z, s * top), (z - 10, s * top), (z - 10, s * 8)]
        rings.add_lwpolyline(corners, close=True)
        hatch = rings.add_hatch()
        hatch.set_pattern_fill("ANSI31", scale=0.5, angle=angle)
        hatch.paths.add_polyline_path(corners, is_closed=True)
    doc.modelspace().add_blockref("RINGS", (0, 0), dxfattribs={"xscale": -1.0 if mirrored else 1.0})
    doc.saveas(tmp_path / "x.dxf")
    found = read_drawing(tmp_path / "x.dxf").findings
    assert ("assembly" in {f.code.value for f in found if f.stops}) is several
