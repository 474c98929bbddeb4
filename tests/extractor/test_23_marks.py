"""What is drawn on the outline and is none of it: surface-texture marks, hatching that ends at corners."""

import math
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, half_profile, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing.hatching import loose_hatching
from extractor.viewing.marks import texture_marks

MM = ReadOptions(units="mm")
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def mark(x, y, size, turn=0.0, bar=True, split=False, text=False):
    """A mark of ISO 1302 (proportions from memory) standing on (x, y), turned by degrees."""
    left, up = size * math.cos(math.radians(120)), size * math.sin(math.radians(120))
    rows = [(0, 0, left, up), *([(0, 0, -left, up), (-left, up, -2 * left, 2 * up)] if split else [])]
    rows += [] if split else [(0, 0, -2 * left, 2 * up)]
    rows += [(left, up, -left, up)] if bar else []
    rows += [(-2 * left, 2 * up, -5 * left, 2 * up)] if text else []
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    place = lambda a, b: (x + c * a - s * b, y + s * a + c * b)  # noqa: E731
    return [(*place(*row[:2]), *place(*row[2:])) for row in rows]


FRAME = [(0, 0, 40, 0), (40, 0, 40, 20), (40, 20, 0, 20), (0, 20, 0, 0)]


@pytest.mark.parametrize("turn", [0, 90, 180, 33])
@pytest.mark.parametrize("kind", [{}, {"bar": False}, {"split": True}, {"text": True}, {"split": True, "text": True}])
def test_a_texture_mark_is_told_from_the_line_that_it_stands_on(turn, kind):
    rows = mark(12, 20, 3, turn, **kind)
    assert texture_marks(strokes(*FRAME, *rows), 1e-6) == frozenset(range(4, 4 + len(rows)))


def test_a_vee_a_thread_and_a_triangle_are_no_marks():
    vee = [(0, 20, 10, 20), (10, 20, 13, 14.8), (13, 14.8, 16, 20), (16, 20, 40, 20)]
    uneven = [(0, 20, 10, 20), (10, 20, 13, 14.8), (13, 14.8, 20, 26.92), (20, 26.92, 40, 26.92)]
    triangle = [(5, 0, 8, 5.2), (8, 5.2, 2, 5.2), (2, 5.2, 5, 0)]
    for rows in (vee, uneven, triangle, vee[1:3]):
        assert texture_marks(strokes(*rows), 1e-6) == frozenset()
    assert texture_marks(Strokes(np.zeros((0, 4)), np.zeros(0), np.zeros(0, dtype=np.int64)), 1e-6) == frozenset()


@pytest.mark.parametrize("at", [-2.0, -20.0, -57.0])
@pytest.mark.parametrize("draw", [side_view, half_profile])
def test_marks_whose_bars_close_boxes_with_the_outline_change_nothing(draw, at):
    ink = draw(RING)
    ink.solid += [(*row, 0.0) for x in (at, at - 5.0) for row in mark(x, 20.0, 4.0)]
    ink.solid += [(0.0, 20.0, 0.0, 40.0, 0.0), (-60.0, 20.0, -60.0, 40.0, 0.0), (0.0, 40.0, -60.0, 40.0, 0.0)]
    reading = read_sheet(sheet_of(ink, texts=(Text("60", (-30.0, 41.0), 3.0),)), MM)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert (reading.part.outer_diameter, reading.part.length) == (40, 60)
    assert not [f for f in reading.findings if f.stops]


def test_most_of_a_section_may_be_hatching():
    """Lines so close that they are longer together than all of the outline."""
    lines = [(0.5 * k, 0, 0.5 * k + 20, 20) for k in range(40)]
    assert loose_hatching(strokes(*FRAME, *lines), 1e-6) >= frozenset(range(5, 43))


def test_a_hatch_line_that_ends_at_a_corner_is_one_too_and_a_chamfer_is_not():
    lines = [(4 * k + 1, 0, 4 * k + 11, 10) for k in range(7)]
    corner, chamfer, beside = (29, 0, 40, 11), (37, 0, 40, 3), (31.5, 0, 40, 8.5)
    rows = [(0, 0, 37, 0), (40, 3, 40, 20), *FRAME[2:], chamfer, (40, 11, 42, 11), *lines, corner, beside]
    found = loose_hatching(strokes(*rows), 1e-6)
    assert found >= frozenset(range(6, 14))
    assert 4 not in found


def test_hatch_lines_drawn_twice_are_hatching_still():
    lines = [(4 * k + 1, 0, 4 * k + 11, 10) for k in range(7)]
    assert loose_hatching(strokes(*FRAME, *lines, *lines[::2]), 1e-6) == frozenset(range(4, 15))


def test_a_half_section_keeps_both_halves_where_marks_stand_out_of_its_end():
    sleeve = Ink().chain(
        [*[(z, r, b) for z, r, b in RING.half() if r > 0], (-60.0, 8.0, 0.0), (0.0, 8.0, 0.0)], close=True
    )
    below = side_view(RING)
    below.solid = [(x0, min(y0, 0.0), x1, min(y1, 0.0), b) for x0, y0, x1, y1, b in below.solid if min(y0, y1) < 0]
    ink = mixed(sleeve, below)
    ink.solid += [(*row, 0.0) for row in mark(0.0, 20.0, 4.0)]
    reading = read_sheet(sheet_of(ink), MM)
    assert len(reading.part.grooves) == 2
    assert reading.part.bore == ((0, 8), (-60, 8))


def sleeve(bore=8.0):
    """The upper half of a bored ring in section."""
    run = [*[(z, r, b) for z, r, b in RING.half() if r > 0], (-60.0, bore, 0.0), (0.0, bore, 0.0)]
    return Ink().chain(run, close=True)


@pytest.mark.parametrize("at", [-12.0, -20.0, -31.0, -45.0])
@pytest.mark.parametrize("lean", [11.0, -17.0])
def test_a_helper_line_out_of_the_axis_and_the_part_changes_nothing(at, lean):
    below = side_view(RING)
    below.solid = [(x0, min(y0, 0.0), x1, min(y1, 0.0), b) for x0, y0, x1, y1, b in below.solid if min(y0, y1) < 0]
    ink = mixed(sleeve(), below)
    ink.solid += [(-5.0, 0.0, -5.0, 8.0, 0.0), (-50.0, 0.0, -50.0, 8.0, 0.0), (at, 0.0, at + lean, 32.0, 0.0)]
    reading = read_sheet(sheet_of(ink), MM)
    assert [(g.z_near, g.z_far, g.shape) for g in reading.part.grooves] == [
        (-10, -13, "rectangular"),
        (-30, -33, "rectangular"),
    ]
    assert {r for _, r in reading.part.bore} == {8}
    assert not [f for f in reading.findings if f.level != "note"]


def test_lines_of_an_outline_drawn_too_long_still_close_it():
    """A cone and two chamfers whose lines stick out at both ends."""
    corners = [(0.0, 10.0), (-3.0, 14.0), (-20.0, 14.0), (-20.0, 10.0), (-23.0, 10.0), (-23.0, 14.0), (-40.0, 18.0)]
    ink = Ink(centre=[(5.0, 0.0, -45.0, 0.0, 0.0)])
    for side in (1, -1):
        run = [(z, side * r) for z, r in [(0.0, 0.0), *corners, (-40.0, 0.0)]]
        for (x0, y0), (x1, y1) in pairwise(run):
            over = 0.15 if x0 != x1 and y0 != y1 else 0.0
            dx, dy = over * (x1 - x0), over * (y1 - y0)
            ink.solid.append((x0 - dx, y0 - dy, x1 + dx, y1 + dy, 0.0))
    reading = read_sheet(sheet_of(ink), MM)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-20, -23, 20)]
    assert (reading.part.outer_diameter, reading.part.length) == (36, 40)


def leader(x, text):
    """A leader of loose lines that points to (x, -20), and its text."""
    lines = [(x, -20.0, x + 8.0, -36.0, 0.0), (x + 8.0, -36.0, x + 26.0, -36.0, 0.0)]
    return lines, Text(text, (x + 9.0, -35.0), 2.5)


def test_leaders_whose_lines_run_into_one_another_enclose_nothing():
    ink, texts = mixed(sleeve(), sleeve().map(lambda x, y: (x, -y))), []
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    for x, text in ((-40.0, "N7"), (-26.0, "Ra 1.6"), (-15.0, "2x45")):
        lines, note = leader(x, text)
        ink.solid += lines
        texts.append(note)
    reading = read_sheet(sheet_of(ink, texts=tuple(texts)), MM)
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-10, -13), (-30, -33)]
    assert reading.part.outer_diameter == 40


@pytest.mark.parametrize("head", [True, False])
@pytest.mark.parametrize("shelf", [(26.0,), (10.0, 26.0), (10.0, 14.0, 26.0)])
def test_a_leader_over_the_axis_of_half_a_part_on_a_shelf_in_pieces(head, shelf):
    """Programs draw a short landing and the line under the text as two (common practice, no source)."""
    ink = half_profile(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 36.0), Cut(-30.0, 3.0, 36.0))))
    ink.solid.append((-11.5, 18.0, 8.0, -26.0, 0.0))
    ink.solid += [(a, -26.0, b, -26.0, 0.0) for a, b in pairwise((8.0, *shelf))]
    ink.solid += [(-11.5, 18.0, x, y, 0.0) for x, y in ((-11.0, 15.5), (-9.9, 15.8))] if head else []
    texts = (Text("2x %%c36", (15.0, -25.0), 2.5),)
    reading = read_sheet(sheet_of(ink, texts=texts), MM)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 36), (-30, -33, 36)]
    assert not [f for f in reading.findings if f.stops]


def test_a_helper_line_across_the_corner_of_a_groove_cuts_nothing_off():
    ink = half_profile(RING)
    ink.solid.append((-19.3, 0.0, -8.3, 32.0, 0.0))
    reading = read_sheet(sheet_of(ink), MM)
    assert [(g.z_near, g.z_far, g.shape) for g in reading.part.grooves] == [
        (-10, -13, "rectangular"),
        (-30, -33, "rectangular"),
    ]
