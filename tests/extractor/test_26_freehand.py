"""Freehand lines round a part broken out in section: no edge of the part, whatever they enclose."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Turned, full_outline, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Pen, Segments, Source
from extractor.viewing.freehand import freehand
from extractor.viewing.tips import Tips

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
FREE = Source("F", "SPLINE", "THIN", Pen.SOLID, curve=True)


def swaying(start, end, sway=1.5, times=3.0, count=60):
    """A line between two places that turns from side to side, in chords."""
    (ax, ay), (bx, by) = start, end
    size = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / size, (by - ay) / size
    t = np.linspace(0.0, 1.0, count + 1)
    off = sway * np.sin(times * math.pi * t)
    at = np.column_stack([ax + t * size * ux - off * uy, ay + t * size * uy + off * ux]).tolist()
    return [(*a, *b, 0.0) for a, b in pairwise(at)]


def zigzag(degrees):
    """From the front face to the land in five straight lines that turn so far to either side."""
    (ax, ay), (bx, by) = (0.0, 15.0), (-20.0, 20.0)
    ways = np.exp(1j * math.radians(degrees) * np.array([0, 1, 0, 1, 0]))
    places = np.append(0, np.cumsum(ways)) / ways.sum() * complex(bx - ax, by - ay) + complex(ax, ay)
    return [(a.real, a.imag, b.real, b.imag, 0.0) for a, b in pairwise(places)]


def sheet_with(*lines, part=RING, draw=side_view):
    """The ring with free curves."""
    ink = draw(part)
    plain = len(ink.solid)
    sheet = sheet_of(replace(ink, solid=[*ink.solid, *(piece for line in lines for piece in line)]))
    source, sources = sheet.segments.source.copy(), [*sheet.segments.sources]
    for line in lines:
        source[plain : plain + len(line)] = len(sources)
        sources.append(FREE._replace(handle=f"F{len(sources)}"))
        plain += len(line)
    return replace(sheet, segments=replace(sheet.segments, source=source, sources=tuple(sources)))


def claimed(*lines, **more):
    segments = sheet_with(*lines, **more).segments
    strokes = Strokes(segments.ends, segments.bulge, np.arange(len(segments)))
    return len(freehand(segments, Tips(strokes, 1e-3)))


def in_chords(degrees, count=8):
    """As many chords from the front face to the land that turn so far to either side, two by two."""
    turns = np.tile([0, 1, 2, 1], count)[:count] * math.radians(degrees)
    places = np.append(0, np.cumsum(np.exp(1j * turns)))
    places = places / places[-1] * complex(-20.0, 5.0) + complex(0.0, 15.0)
    return [(a.real, a.imag, b.real, b.imag, 0.0) for a, b in pairwise(places)]


@pytest.mark.parametrize(
    ("degrees", "count", "free"), [(44.0, 8, True), (46.0, 8, False), (44.0, 7, False), (44.0, 12, True)]
)
def test_a_run_of_short_chords_that_sways_is_drawn_freehand_too(monkeypatch, degrees, count, free):
    """An export gives a free curve as one polyline; a groove drawn as one has fewer corners, and square ones."""
    monkeypatch.setitem(globals(), "FREE", Source("F", "LWPOLYLINE", "THIN", Pen.SOLID))
    assert (claimed(in_chords(degrees, count), draw=full_outline) == count) is free


ROUND_A_HOLE = swaying((0.0, 15.0), (-20.0, 20.0))
HOLE = [(0.0, 3.0, -15.0, 3.0, 0.0), (-15.0, 3.0, -15.0, -3.0, 0.0), (-15.0, -3.0, 0.0, -3.0, 0.0)]


@pytest.mark.parametrize("draw", [side_view, full_outline])
def test_a_part_broken_out_round_a_hole_is_read(draw):
    ink = draw(RING)
    reading = read_sheet(
        sheet_with(ROUND_A_HOLE, draw=lambda part: replace(ink, solid=[*ink.solid, *HOLE])), ReadOptions(units="mm")
    )
    assert [f.code for f in reading.findings if f.stops] == []
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-25, -29, 34)]


@pytest.mark.parametrize(
    ("line", "free"),
    [
        (ROUND_A_HOLE, True),
        (swaying((0.0, 15.0), (-20.0, 20.0), times=1.0), False),  # one bow
        (swaying((0.0, 15.0), (-20.0, 20.0), times=2.0), False),  # an S
        (swaying((0.0, 15.0), (-20.0, 20.0), sway=0.15), False),  # turns of 7 degrees
        (swaying((0.0, 20.0), (-20.0, 20.0)), False),  # from a corner
        (swaying((0.0, 15.0), (-20.0, 18.0)), False),  # ends in the air
        (swaying((-35.0, 20.0), (-35.0, -20.0)), False),  # right across the part, as a break line
        (swaying((-35.0, 20.0), (-55.0, 20.0), sway=-2.0), True),  # back to the land
        (ROUND_A_HOLE[:20] + ROUND_A_HOLE[21:], False),  # with a gap in it
        (zigzag(9.0), False),
        (zigzag(11.0), True),
    ],
)
def test_what_sways_from_the_middle_of_one_line_to_another_is_drawn_freehand(line, free):
    assert claimed(line, draw=full_outline) == len(line) * free


@pytest.mark.parametrize(("lean", "free"), [(0.18, False), (0.22, True)])
def test_lines_on_which_it_stands_run_along_one_another(lean, free):
    """Two lines 20 apart, one of which leans by that on 10."""
    line = swaying((0.0, 0.0), (0.0, 20.0))
    ends = np.array([*line, (-10, 0, 10, 0, 0), (-10, 20 - lean, 10, 20 + lean, 0)])[:, :4]
    source = np.array([0] * len(line) + [1, 1])
    plain = Source("1", "LINE", "0")
    segments = Segments(ends, np.zeros(len(ends)), source, (FREE, plain))
    strokes = Strokes(ends, np.zeros(len(ends)), np.arange(len(ends)))
    assert bool(freehand(segments, Tips(strokes, 1e-3))) is free
