"""Lines within the metal that nothing explains: hidden lines drawn dash by dash, and rings that sit in a groove."""

import math
import re

import pytest
from support.draw import Cut, Drawn, Ink, Turned, full_outline, half_profile, section, sheet_of, side_view
from support.sheets import blank, read_back
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet

MM = ReadOptions(units="mm")
SHAFT = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),))


def read(ink, *more, options=MM):
    ink.solid += [(*line, 0.0) for line in more]
    return read_sheet(sheet_of(ink), options)


def stops(reading):
    return [str(f.code) for f in reading.findings if f.stops]


def dashes(a, b, on=1.5, off=0.8):
    """A line from a to b drawn dash by dash."""
    whole = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / whole, (b[1] - a[1]) / whole
    starts = [k * (on + off) for k in range(math.ceil(whole / (on + off)))]
    pairs = [(t, min(t + on, whole)) for t in starts]
    return [(a[0] + ux * t, a[1] + uy * t, a[0] + ux * u, a[1] + uy * u) for t, u in pairs]


def dashed(near, far, floor, sides=(1, -1), **pattern):
    """The walls and the floor of a groove in a land of radius 20, drawn dash by dash."""
    runs = [((near, 20), (near, floor)), ((near, floor), (far, floor)), ((far, floor), (far, 20))]
    turned = [((a, s * b), (c, s * d)) for (a, b), (c, d) in runs for s in sides]
    return [dash for run in turned for dash in dashes(*run, **pattern)]


@pytest.mark.parametrize("draw", [side_view, full_outline])
@pytest.mark.parametrize(
    "drawn", [dashed(-10, -13, 17), dashed(-10, -16, 15), dashed(-10, -30, 15, on=2.0), dashed(-10, -13, 17, on=1.0)]
)
def test_a_groove_drawn_dash_by_dash_stops_and_may_be_accepted(draw, drawn):
    asked = read(draw(SHAFT), *drawn)
    assert stops(asked) == ["outline-unclear"]
    (key,) = [f.key for f in asked.findings if f.stops]
    taken = read(draw(SHAFT), *drawn, options=ReadOptions(units="mm", accept=frozenset({key})))
    assert stops(taken) == []
    assert [(g.z_near, g.z_far) for g in taken.part.grooves] == [(-40.0, -43.0)]


def test_so_is_one_in_half_a_part():
    assert stops(read(half_profile(SHAFT), *dashed(-10.3, -16, 15, sides=(1,)))) == ["outline-unclear"]


def test_a_bore_drawn_dash_by_dash_is_none_that_could_be_read():
    runs = [dash for s in (1, -1) for dash in dashes((0, s * 8), (-60, s * 8), on=3.0, off=1.5)]
    assert stops(read(side_view(SHAFT), *runs)) == ["outline-unclear"]


BORED = [((0, 8), (-41, 8)), ((-41, 8), (-41, 11)), ((-41, 11), (-47, 11)), ((-47, 11), (-47, 8)), ((-47, 8), (-60, 8))]


@pytest.mark.parametrize(("on", "off"), [(1.0, 0.5), (2.0, 1.0), (3.0, 1.5), (4.0, 2.0), (6.0, 3.0)])
@pytest.mark.parametrize("draw", [side_view, full_outline])
def test_a_bore_with_a_groove_is_told_as_hidden_lines_however_its_dashes_fall(draw, on, off):
    """A dash between the walls of one groove lies as a floor does, and one under a floor as an older one."""
    runs = [
        dash for s in (1, -1) for (a, b), (c, d) in BORED for dash in dashes((a, s * b), (c, s * d), on=on, off=off)
    ]
    (stop,) = [f for f in read(draw(SHAFT), *runs).findings if f.stops]
    assert stop.code == "outline-unclear"
    told = re.search(r"from 0 to (\S+) behind the front face, as at X-.* hidden lines of a bore", stop.message)
    assert 58.0 <= float(told[1]) <= 60.0


@pytest.mark.parametrize(("on", "code"), [(2.99, "outline-unclear"), (2.98, "lines-unexplained")])
def test_a_line_is_a_dash_of_hidden_lines_if_it_is_no_longer_than_theirs(on, code):
    """3 long under a groove's floor; the noise is 0.0144."""
    runs = [dash for s in (1, -1) for dash in dashes((0, s * 8), (-30, s * 8), on=on, off=1.5)]
    runs += [(-40.0, s * 12.0, -43.0, s * 12.0) for s in (1, -1)]
    assert stops(read(side_view(SHAFT), *runs)) == [code]


@pytest.mark.parametrize(("sides", "stop"), [((1, -1), True), ((1,), False)])
def test_dashes_of_one_half_alone_are_a_keyway(sides, stop):
    assert (stops(read(side_view(SHAFT), *dashed(-10, -16, 15, sides=sides))) == ["outline-unclear"]) is stop


@pytest.mark.parametrize(("off", "stop"), [(0.03, True), (1.49, True), (1.51, False), (0.01, False)])
def test_dashes_are_no_farther_apart_than_long(off, stop):
    """1.5 long; what is no farther apart than 0.0144, ten times a share of 2e-5 of the view, is one line."""
    row = dashes((-10, 12), (-10 - 2 * 1.5 - off, 12), off=off)
    row += dashes((-20, 12), (-20 - 2 * 1.5 - off, 12), off=off)
    lines = [*row, *((a, -b, c, -d) for a, b, c, d in row)]
    assert (stops(read(side_view(SHAFT), *lines)) == ["outline-unclear"]) is stop


@pytest.mark.parametrize(
    ("count", "told"), [(1, []), (2, ["lines-unexplained"]), (3, ["lines-unexplained"]), (4, None)]
)
@pytest.mark.parametrize("draw", [side_view, full_outline, section])
def test_four_dashes_a_side_are_a_hidden_line_and_two_may_be(draw, count, told):
    """The floor of a narrow groove in a bore has room for two alone."""
    row = dashes((-10, 12), (-10 - count * 1.5 - (count - 1) * 0.8, 12))
    assert len(row) == count
    part = SLEEVE if draw is section else SHAFT
    reading = read(draw(part), *row, *((a, -b, c, -d) for a, b, c, d in row))
    assert stops(reading) == ([] if told is not None else ["outline-unclear"])
    if told is not None:
        assert [
            f.code.value for f in reading.findings if f.level == "caution" and f.code in ("lines-unexplained",)
        ] == told


def test_two_dashes_of_one_half_are_not_told():
    assert [f for f in read(side_view(SHAFT), *dashes((-10, 12), (-13.8, 12))).findings if f.level != "note"] == []


def collar(top, foot, *, land=20.0, faces=False):
    """A collar 10 long on a shaft with a groove, and lines along it, with its faces down to them or not."""
    corners = ((0, land), (-10, land), (-10, top), (-20, top), (-20, land), (-40, land), (-40, 17), (-43, 17))
    part = Drawn((*corners, (-43, land), (-60, land)))
    lines = [(-10, s * foot, -20, s * foot) for s in (1, -1)]
    lines += [(z, s * foot, z, s * land) for z in (-10, -20) for s in (1, -1)] if faces else []
    return (full_outline if faces else side_view)(part), *lines


@pytest.mark.parametrize(
    ("top", "foot", "faces", "stop"),
    [
        (23.0, 18.0, False, True),
        (25.0, 15.05, False, True),  # a flat 20 off the axis has its edges at sqrt(25^2 - 20^2) = 15
        (25.0, 15.0, False, False),
        (24.0, 12.0, False, False),  # a hexagon 48 over its corners
        (25.0, 12.0, True, True),
        (25.0, 12.0, False, False),
        (23.0, 21.0, False, False),  # the root of a thread
    ],
)
def test_a_line_along_a_collar_that_is_no_edge_of_a_flat_is_a_ring_in_a_groove(top, foot, faces, stop):
    assert (stops(read(*collar(top, foot, faces=faces))) == ["lines-unexplained"]) is stop


SLEEVE = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),), bore=16.0)
OUTER_WALLS = [(-10, 20, -10, 17), (-13, 20, -13, 17)]
BORE_WALLS = [(-10, 8, -10, 11), (-13, 8, -13, 11)]
HUNG = {
    "a floor is missing": (OUTER_WALLS, True),
    "one half has it": ([(z, -r, a, -b) for z, r, a, b in OUTER_WALLS], True),
    "the floor of a bore's groove": (BORE_WALLS, True),
    "a floor too short": ([*OUTER_WALLS, (-10, 17, -12.5, 17)], True),
    "a wall too short": ([OUTER_WALLS[0], (-10, 17, -13, 17), (-13, 17, -13, 19)], True),
    "walls that lean": ([(-10, 20, -11, 17), (-14, 20, -13, 17)], True),
    "one stray": (OUTER_WALLS[:1], False),
    "a thread's root, on both sides": ([(0, 18, -20, 18), (0, -18, -20, -18)], False),
    "lines that begin in the metal": ([(-10, 19, -10, 15), (-13, 19, -13, 15)], False),
}


@each_in_turn(("lines", "stop"), HUNG.values(), draw=[full_outline, section])
def test_lines_that_begin_at_the_edge_and_end_in_the_metal_may_be_a_groove_that_is_not_closed(draw, lines, stop):
    """Without the bore the walls of its groove begin at no edge."""
    stop = stop and not (draw is full_outline and lines is BORE_WALLS)
    part = SLEEVE if draw is section else SHAFT
    asked = read(draw(part), *lines)
    assert ("outline-unclear" in stops(asked)) is stop
    if stop:
        (key,) = [f.key for f in asked.findings if f.stops]
        taken = read(draw(part), *lines, options=ReadOptions(units="mm", accept=frozenset({key})))
        assert (stops(taken), len(taken.part.grooves)) == ([], 1)


@pytest.mark.parametrize(("off", "stop"), [(0.0143, True), (0.0146, False)])
def test_such_lines_begin_at_the_edge_within_ten_times_the_noise(off, stop):
    """0.0144 for this view; what begins farther off hangs on nothing."""
    lines = [(z, 20 - off, z, 17) for z in (-10, -13)]
    assert ("outline-unclear" in stops(read(full_outline(SHAFT), *lines))) is stop


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("line", "stop"), [
    ((-9.2, 8.0, -9.2, 10.0), True),  # a second wall in one half
    ((-13.5, 8.0, -13.5, 10.0), True),
    ((-6.9, 8.0, -6.9, 10.0), False),  # farther off than the groove is wide
    ((-9.2, 8.0, -9.2, 12.0), False),  # longer than a wall
    ((-9.2, 20.0, -9.2, 17.0), False),  # as deep as a groove of the outside that is elsewhere
])  # fmt: skip
def test_a_line_beside_a_groove_of_a_bore_as_long_as_its_wall_is_no_stray(line, stop, sign):
    """The wall was moved in one half, and the edge behind it left (hand-drawn; the groove is 3 wide and 2 deep)."""
    ink = Ink(centre=[(5.0, 0.0, -65.0, 0.0, 0.0)])
    for s in (1, -1):
        ink.chain([(float(z), float(s * r), 0.0) for z, r in IN_BORE])
        ink.chain([(0.0, s * 8.0, 0.0), (0.0, s * 20.0, 0.0), (-60.0, s * 20.0, 0.0), (-60.0, s * 8.0, 0.0)])
        ink.solid += [(z, 0.0, z, s * 8.0, 0.0) for z in (0.0, -10.0, -13.0, -60.0)]
    a, b, c, d = line
    reading = read(ink, (a, sign * b, c, sign * d))
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-10.0, -13.0)]
    assert (stops(reading) == ["outline-unclear"]) is stop


BUSH = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),), 16.0)
IN_BORE = (0, 8), (-10, 8), (-10, 10), (-13, 10), (-13, 8), (-60, 8)


def bush(*more, hatched=True, ends=False):
    """A bush with a groove in its bore before which the bore's line runs on, its end faces drawn across or not."""
    doc = blank()
    msp = doc.modelspace()
    for side in (1, -1):
        metal = [*IN_BORE, (-60, 20), (-43, 20), (-43, 17), (-40, 17), (-40, 20), (0, 20)]
        edge = [(x, side * y) for x, y in metal]
        msp.add_lwpolyline(edge, close=True)
        msp.add_line((-10, side * 8), (-13, side * 8))
        for a, b, c, d in more:
            msp.add_line((a, side * b), (c, side * d))
        if hatched:
            hatch = msp.add_hatch()
            hatch.set_pattern_fill("ANSI31")
            hatch.paths.add_polyline_path(edge, is_closed=True)
    for z in (0, -60) if ends else ():
        msp.add_line((z, -8), (z, 8))
    msp.add_line((-66, 0), (6, 0), dxfattribs={"linetype": "CENTER"})
    return read_sheet(read_back(doc), MM)


@pytest.mark.parametrize("ends", [True, False])
@pytest.mark.parametrize(("hatched", "inside"), [(True, [(-10.0, -13.0, 20.0)]), (False, [])])
def test_a_groove_in_a_bore_behind_a_line_is_read_in_a_section_and_told_of_elsewhere(ends, hatched, inside):
    found = bush(hatched=hatched, ends=ends)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in found.part.grooves if g.where == "inside"] == inside
    assert ("inner-lines" in [f.code for f in found.findings]) is not hatched


@pytest.mark.parametrize("ends", [True, False])
def test_what_is_hatched_beside_a_bore_is_metal(ends):
    found = bush((-20, 8, -20, 12), (-30, 8, -30, 12), (-20, 12, -30, 12), ends=ends)
    assert [(g.z_near, g.z_far) for g in found.part.grooves] == [(-10.0, -13.0), (-40.0, -43.0)]
    assert (found.part.outer_diameter, found.part.length) == (40.0, 60.0)


@pytest.mark.parametrize("axis", [True, False])
def test_a_hole_beside_the_axis_that_runs_in_from_the_end_is_no_fold(axis):
    """Cut in one half alone, as a stepped section shows it."""
    ink = half_profile(BUSH, None)
    ink.solid += [(a, -b, c, -d, e) for a, b, c, d, e in ink.solid]
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    ink.centre += [(3.0, 15.0, -33.0, 15.0, 0.0)] if axis else []
    found = read(ink, (0, 13, -30, 13), (-30, 13, -30, 17), (-30, 17, 0, 17))
    assert stops(found) == ([] if axis else ["lands-disagree"])
    assert ("cross-hole" in [f.code for f in found.findings]) is axis


@pytest.mark.parametrize(
    ("foot", "off", "lines", "told"),
    [
        (17, 0.0, 2, ["caution"]),
        (10, 0.0, 2, ["caution"]),
        (1.71, 0.0, 2, ["caution"]),
        (1.69, 0.0, 2, ["stop"]),  # a tenth of the floor's radius
        (0.015, 0.0, 2, ["stop"]),
        (0.014, 0.0, 2, []),  # lines along the axis, drawn twice
        (17, 0.01, 2, ["caution"]),
        (17, 0.02, 2, []),
        (17, 0.0, 1, []),
    ],
)
def test_two_lines_that_cross_from_wall_to_wall_mark_a_flat(foot, off, lines, told):
    """Near is 0.0144, ten times a share of 2e-5 of the view; the lines of a flat may end within its faces."""
    crossed = [(-40, foot, -43 + off, -foot), (-43 + off, foot, -40, -foot)][:lines]
    reading = read(side_view(SHAFT), *crossed)
    assert [f.level for f in reading.findings if f.code == "milled-flats"] == told


@pytest.mark.parametrize("short", [0.0, 0.01])
@pytest.mark.parametrize(("walls", "stop"), [(1, False), (2, True)])
def test_lines_from_edge_to_edge_hang_on_both_and_are_none_of_them(short, walls, stop):
    """Two from the outside to the bore, whole or short of both by less than 0.0144; beside walls that hang."""
    through = [(z, 20 - short, z, 8 + short) for z in (-20, -23)]
    hung = [(-10, 20, -10, 17), (-13, 20, -13, 17)]
    assert ("outline-unclear" in stops(read(section(SLEEVE), *through, *hung[:walls]))) is stop


@pytest.mark.parametrize(
    ("deep", "end", "sides", "stop"),
    [
        (1.0, -18.0, (1, -1), []),
        (1.0, -17.9, (1, -1), ["lines-unexplained"]),  # it ends elsewhere
        (1.0, -18.0, (), ["lines-unexplained"]),  # no root
        (1.0, -18.0, (1,), ["lines-unexplained"]),  # on one side
        (4.4, -18.0, (1, -1), []),
        (4.6, -18.0, (1, -1), ["lines-unexplained"]),  # a quarter of its 18 is 4.5
    ],
)
def test_a_thread_s_root_on_the_layer_of_dimensions_explains_the_line_at_its_end(deep, end, sides, stop):
    """Many have one layer for all thin lines."""
    doc = blank()
    msp = doc.modelspace()
    for x0, y0, x1, y1, _ in [*side_view(SHAFT, 5.0).solid, (-18.0, -20.0, -18.0, 20.0, 0.0)]:
        msp.add_line((x0, y0), (x1, y1), dxfattribs={"layer": "OUTLINE"})
    for s in sides:
        msp.add_line((0.0, s * (20.0 - deep)), (end, s * (20.0 - deep)), dxfattribs={"layer": "DIMENSIONS"})
    msp.add_line((5.0, 0.0), (-65.0, 0.0), dxfattribs={"linetype": "CENTER"})
    assert stops(read_sheet(read_back(doc), MM)) == stop


@pytest.mark.parametrize("sides", [(1,), (1, -1)])
@pytest.mark.parametrize(("land", "floor", "stop"), [
    (1.0, 1.0, False), (None, 1.0, True), (1.02, 1.0, True), (1.0, 1.02, True),
])  # fmt: skip
def test_the_edge_of_a_plane_through_a_groove_is_no_second_floor(land, floor, stop, sides):
    """A plane 16 from the axis meets a cylinder of R at sqrt(R^2 - 16^2) from it as drawn (solid geometry).

    So the step of a section in two planes shows on the land beside the groove as well; what is 2 % off does not. On
    both halves it may be a ring in the groove as well.
    """
    h, lines = 16.0, []
    for s in sides:
        on_floor = s * floor * math.sqrt(17.0**2 - h**2)
        lines += [(-40.0, on_floor, -43.0, on_floor)]
        if land:
            on_land = s * land * math.sqrt(20.0**2 - h**2)
            lines += [(-40.0, on_land, -30.0, on_land), (-43.0, on_land, -50.0, on_land)]
    told = stops(read(side_view(SHAFT), *lines))
    assert bool(told) is (stop or len(sides) > 1)


@pytest.mark.parametrize(("low", "told"), [(7.0, True), (7.02, True), (7.1, True), (7.2, False)])
def test_a_thread_s_root_that_ends_beside_the_corner_of_a_chamfer_runs_along_the_axis(low, told):
    """The chamfer ends at 7: an end beside its corner is put there, and the root leans by that."""
    pin = Turned(((40.0, 16.0), (25.0, 20.0), (72.0, 43.0)), (Cut(-118.0, 1.5, 40.0),), chamfer=1.0)
    roots = [(0.0, s * low, -37.5, s * low) for s in (1, -1)]
    reading = read(side_view(pin), *roots, (-37.5, 8.0, -37.5, -8.0))
    assert [str(f.code) for f in reading.findings] == ["inner-lines"] * told


@pytest.mark.parametrize(("lean", "stop"), [(0.0, False), (0.0028, False), (0.0030, True)])
def test_a_line_that_is_drawn_aslant_is_no_root(lean, stop):
    """Drawing noise is 0.00287, two hundred-thousandths of a part 143.6 from corner to corner."""
    pin = Turned(((40.0, 16.0), (25.0, 20.0), (72.0, 43.0)), (Cut(-118.0, 1.5, 40.0),), chamfer=0.5)
    roots = [(0.0, s * (6.5 + lean), -37.5, s * 6.5) for s in (1, -1)]
    reading = read(side_view(pin), *roots, (-37.5, 8.0, -37.5, -8.0))
    assert ("lines-unexplained" in stops(reading)) is stop


@each_in_turn(
    ("ends", "foot", "stop"),
    [
        (-38.0, 0.0, False),
        (-39.98, 0.0, False),
        (-39.99, 0.0, True),
        (-40.0, 0.0, True),
        (-40.0, 15.4, False),
        (-40.0, 15.2, True),
    ],
    solid=[True, False],
)
def test_an_edge_before_which_the_hatching_of_a_broken_out_section_ends_is_one_from_outside(ends, foot, stop, solid):
    """Up to the edge hatching says that another part begins behind it; within ten times the noise, 0.0144, it is.

    The edge goes from 17 to the axis: no more than a tenth of it may be met, at its corner.
    """
    shaft = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0),))
    doc = blank()
    msp = doc.modelspace()
    bore = [(0.0, 8.0), (-25.0, 8.0), (-25.0, 0.0)]
    for x0, y0, x1, y1, _ in side_view(shaft).solid:
        msp.add_line((x0, y0), (x1, y1))
    for side in (1, -1):
        msp.add_lwpolyline([(x, side * y) for x, y in bore])
        hatch = msp.add_hatch()
        hatch.set_solid_fill() if solid else hatch.set_pattern_fill("ANSI31")
        area = [(0.0, 20.0), (ends, 20.0), (ends, foot), (-38.0, foot), (-38.0, 0.0), *bore[::-1]]
        hatch.paths.add_polyline_path([(x, side * y) for x, y in area], is_closed=True)
    msp.add_line((-66, 0), (6, 0), dxfattribs={"linetype": "CENTER"})
    assert ("lines-unexplained" in stops(read_sheet(read_back(doc), MM))) is stop


@pytest.mark.parametrize(("begin", "stop"), [(0.5, False), (0.0, False), (1.0, True)])
def test_the_edge_of_a_plane_beside_a_chamfered_groove_begins_at_its_wall_or_its_chamfer(begin, stop):
    """A plane 16 from the axis, as above; the chamfer is half a unit, and the flat's edge on it is a curve."""
    floor, land = math.sqrt(17.0**2 - 16.0**2), math.sqrt(20.0**2 - 16.0**2)
    near, far = -40.0 + begin, -43.0 - begin
    lines = [(-40.0, floor, -43.0, floor), (near, land, -30.0, land), (far, land, -50.0, land)]
    chamfered = Turned(((60.0, 40.0),), (Cut(-40.0, 3.0, 34.0, chamfer=0.5),))
    assert bool(stops(read(side_view(chamfered), *lines))) is stop
