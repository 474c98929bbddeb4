"""Metal hatched in two ways: one part is hatched in one (ISO 128-3, from memory)."""

import math
from dataclasses import replace
from itertools import pairwise, product

import ezdxf
import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, section, sheet_of

from extractor import ReadOptions, read_drawing, read_sheet
from extractor.sheet import Segments, Source


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


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(
    ("low", "high", "halves", "told"),
    [
        (17.0, 20.0, (1,), True),
        (17.0, 20.0, (1, -1), True),
        (17.0, 19.3, (-1,), True),  # more than three quarters of the groove
        (17.0, 19.2, (1,), False),
        (17.0, 17.0, (1,), False),  # its border goes round the groove
    ],
)
def test_a_hatch_that_runs_over_a_groove_is_told(low, high, halves, told, upright):
    """One groove of two, 3 deep; the hatch is a half's border, or ends in the groove."""
    bush = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)), bore=16.0)
    rim = [(0, 8), (0, 20), (-10, 20), (-10, high), (-13, high), (-13, 20), (-30, 20), (-30, 17), (-33, 17), (-33, 20)]
    borders = {s: high if s in halves else low for s in (1, -1)}
    rows = []
    for s, top in borders.items():
        line = [(z, s * (top if (z, r) in {(-10, high), (-13, high)} else r)) for z, r in (*rim, (-60, 20), (-60, 8))]
        rows += [(*a, *b) for a, b in pairwise([*line, line[0]]) if a != b]
    turn = np.array([[0.0, 1.0], [-1.0, 0.0]]) if upright else np.eye(2)
    sheet = sheet_of(section(bush).map(lambda x, y: tuple(np.array((x, y)) @ turn)))
    hatch = np.array(rows, dtype=float).reshape(-1, 2) @ turn
    source = Source("H", "HATCH", "0", owner="HATCH")
    segments = Segments(
        np.vstack([sheet.segments.ends, hatch.reshape(-1, 4)]),
        np.append(sheet.segments.bulge, np.zeros(len(rows))),
        np.append(sheet.segments.source, np.full(len(rows), len(sheet.segments.sources))),
        (*sheet.segments.sources, source),
    )
    reading = read_sheet(replace(sheet, segments=segments), ReadOptions(units="mm"))
    assert [f.code for f in reading.findings] == ["halves-unlike"] * told
    assert len(reading.part.grooves) == 2


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
