"""Revision clouds: rings of arcs round what was changed, no outline. Their shape is common practice, no source."""

import math

import numpy as np
import pytest
from support.sheets import blank, read_back
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.viewing.clouds import clouds

NEAR = 1e-6


def box(x0, y0, x1, y1, across, up):
    """Places round a rectangle, so many steps along each side."""
    return [
        *((x0 + (x1 - x0) * k / across, y0) for k in range(across)),
        *((x1, y0 + (y1 - y0) * k / up) for k in range(up)),
        *((x1 - (x1 - x0) * k / across, y1) for k in range(across)),
        *((x0, y1 - (y1 - y0) * k / up) for k in range(up)),
    ]


def ring(places, half=53.0):
    """Arcs from each place to the next, their tangents `half` degrees off their chords."""
    ends = np.array([(*a, *b) for a, b in zip(places, [*places[1:], places[0]], strict=True)])
    count = len(places)
    return Strokes(ends, np.full(count, math.tan(math.radians(half / 2))), np.arange(count, dtype=np.int64))


def told(strokes):
    """How many of the strokes are those of a cloud."""
    return len(clouds(strokes, NEAR))


def polygon(corners, between):
    """Places along a regular polygon of radius 10: its corners, and the middles of so many of its sides."""
    at = [(10 * math.cos(k * math.tau / corners), 10 * math.sin(k * math.tau / corners)) for k in range(corners)]
    middle = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in zip(at, [*at[1:], at[0]], strict=True)]
    return [p for k in range(corners) for p in (at[k], *([middle[k]] if k < between else []))]


def test_a_ring_of_arcs_is_a_cloud_whichever_way_it_is_drawn():
    arcs = ring(box(0, 0, 30, 12, 5, 2))
    back = Strokes(arcs.ends[:, [2, 3, 0, 1]], -arcs.bulge, arcs.label)
    mixed = np.arange(len(arcs)) % 2 == 0
    some = Strokes(np.where(mixed[:, None], arcs.ends, back.ends), np.where(mixed, arcs.bulge, back.bulge), arcs.label)
    assert [told(one) for one in (arcs, back, some)] == [14, 14, 14]


def test_a_ring_of_half_circles_is_a_cloud_and_one_of_lines_is_none():
    arcs = ring(box(0, 0, 30, 12, 5, 2))
    counts = [told(Strokes(arcs.ends, np.full(14, bulge), arcs.label)) for bulge in (1.0, -1.0, 0.0)]
    assert counts == [14, 0, 0]


def test_a_ring_with_one_arc_turned_inward_or_one_missing_is_none():
    arcs = ring(box(0, 0, 30, 12, 5, 2))
    inward = arcs.bulge.copy()
    inward[3] *= -1
    assert told(Strokes(arcs.ends, inward, arcs.label)) == 0
    assert told(arcs.pick(np.arange(len(arcs)) != 3)) == 0


def test_two_rings_that_touch_are_none():
    """Three arcs end at one place: nobody can say which ring they belong to."""
    one, two = ring(box(0, 0, 30, 12, 5, 2)), ring(box(30, 12, 60, 24, 5, 2))
    assert told(one.plus(Strokes(two.ends, two.bulge, two.label + 100))) == 0


@pytest.mark.parametrize(("places", "count"), [(box(0, 0, 6, 5, 2, 2), 8), (box(0, 0, 6, 5, 2, 2)[:-1], 0)])
def test_eight_arcs_are_a_cloud(places, count):
    """These turn back at the corners as well."""
    assert told(ring(places, 60.0)) == count


@pytest.mark.parametrize(("half", "count"), [(10.5, 24), (9.5, 0)])
def test_arcs_of_a_cloud_turn_back_by_more_than_twenty_degrees(half, count):
    """On a straight run they turn back by twice what each turns to one side."""
    assert told(ring(box(0, 0, 24, 12, 8, 4), half)) == count


@pytest.mark.parametrize(("half", "count"), [(10.5, 24), (9.5, 0)])
def test_so_do_those_of_which_every_other_is_drawn_the_other_way(half, count):
    arcs = ring(box(0, 0, 24, 12, 8, 4), half)
    back = np.arange(len(arcs)) % 2 == 1
    ends = np.where(back[:, None], arcs.ends[:, [2, 3, 0, 1]], arcs.ends)
    assert told(Strokes(ends, np.where(back, -arcs.bulge, arcs.bulge), arcs.label)) == count


def test_a_cloud_stands_among_arcs_that_are_none():
    loose = np.array([(100.0 + 3 * k, 0.0, 102.0 + 3 * k, 0.0) for k in range(16)])
    arcs = ring(box(0, 0, 30, 12, 5, 2))
    beside = Strokes(loose, np.full(16, 0.5), np.arange(100, 116, dtype=np.int64))
    assert clouds(beside.plus(arcs), NEAR) == frozenset(range(14))


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(("bent", "count"), [(8, 16), (7, 0)])
def test_where_a_ring_passes_level_on_its_way_its_joints_count_alike(bent, count, way):
    """An octagon of sides bent out by a degree in the middle, one of them where its line turns from up to down."""
    places = [(x * 1.004 if k % 2 else x, y * 1.004 if k % 2 else y) for k, (x, y) in enumerate(polygon(8, 8))]
    by = math.radians(22.5)
    places = [(x * math.cos(by) - y * math.sin(by), x * math.sin(by) + y * math.cos(by)) for x, y in places]
    places = [p for k, p in enumerate(places) if k % 2 == 0 or (k // 2 - 5) % 8 < bent]
    arcs = ring(places, 12.0)
    mirrored = Strokes(arcs.ends * (1, way, 1, way), way * arcs.bulge, arcs.label)
    assert told(mirrored) == count


@pytest.mark.parametrize(("between", "count"), [(8, 16), (7, 0)])
def test_half_of_the_joints_are_cusps(between, count):
    """At the corners of an octagon these arcs run on, as its corner turns by more than they turn back."""
    assert told(ring(polygon(8, between), 12.0)) == count


@pytest.mark.parametrize(("wide", "count"), [(3.2, 22), (3.0, 22), (2.8, 0)])
def test_a_row_of_beads_is_no_cloud(wide, count):
    """Arcs 2 long lie one and a half of them apart across the row."""
    assert told(ring(box(0, 0, 20, wide, 10, 1))) == count


@pytest.mark.parametrize("middle", [(0, 0), (100, -50)])
@pytest.mark.parametrize(("share", "count"), [(0.94, 16), (0.96, 0)])
def test_lobes_about_one_middle_are_no_cloud(share, count, middle):
    angles = [k * math.tau / 16 for k in range(16)]
    radii = [10.0 if k % 2 == 0 else 10.0 * share for k in range(16)]
    x, y = middle
    places = [(x + r * math.cos(a), y + r * math.sin(a)) for r, a in zip(radii, angles, strict=True)]
    assert told(ring(places)) == count


def shaft(places, *, arcs):
    """A shaft 80 long and 40 across with a groove, and a cloud in one piece or in arcs, all on one layer."""
    doc = blank()
    msp = doc.modelspace()
    half = [(0, 0), (0, 20), (20, 20), (20, 17), (24, 17), (24, 20), (80, 20), (80, 0)]
    for side in (1, -1):
        msp.add_lwpolyline([(x, side * y) for x, y in half])
    msp.add_line((-6, 0), (86, 0), dxfattribs={"linetype": "CENTER"})
    if places and not arcs:
        msp.add_lwpolyline([(x, y, 0.5) for x, y in places], format="xyb", close=True)
    for a, b in zip(places, [*places[1:], *places[:1]], strict=True) if arcs else ():
        msp.add_lwpolyline([(*a, 0.5), (*b, 0.0)], format="xyb")
    return read_sheet(read_back(doc), ReadOptions(units="mm"))


@each_in_turn(
    arcs=[False, True],
    places=[
        box(18, 10, 28, 26, 2, 3),
        box(16, -25, 30, 25, 3, 9),
        box(-10, -30, 90, 30, 17, 10),
        box(70, -10, 100, 10, 6, 4),
        box(72, -5, 90, 25, 3, 5),
    ],
)
def test_a_cloud_changes_nothing_of_what_is_read(places, arcs):
    """At a groove, across both halves, round the part, over its end on the axis, and at a corner."""
    plain, clouded = shaft([], arcs=False), shaft(places, arcs=arcs)
    assert plain.part is not None
    assert clouded.part == plain.part
    assert clouded.findings == plain.findings
