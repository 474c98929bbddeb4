"""A zoo of small drawings, one oddity each and named for it, with what the reader must say of it.

The oddities are those of a survey of public drawings of turned parts (see the traps named in each docstring); the
parts are invented.
"""

import math
from itertools import pairwise

import pytest
from support.draw import (
    Cut,
    Drawn,
    Ink,
    Turned,
    box,
    full_outline,
    half_profile,
    mixed,
    rotated,
    section,
    shaft,
    sheet_of,
    shifted,
    side_view,
    with_centre,
)

from extractor import ReadOptions, read_sheet
from extractor.placing.laying import gap_findings
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text
from extractor.viewing.gaps import Closed

MM = ReadOptions(units="mm")
SOURCE = Source("1", "CIRCLE", "0")


def read(ink, move=lambda x, y: (x, y), options=MM, **more):
    return read_sheet(sheet_of(ink, move, **more), options)


def codes(reading, level="stop"):
    return [f.code for f in reading.findings if f.level == level]


def spans(reading):
    return [
        (g.where, g.shape, round(g.z_near, 4), round(g.z_far, 4), round(g.floor_diameter, 4))
        for g in reading.part.grooves
    ]


THREE = [("outside", "rectangular", z, z - 3, 34.0) for z in (-10.0, -18.0, -26.0)]


def assert_three(reading):
    assert codes(reading) == []
    assert spans(reading) == THREE


def test_border_and_title_block_are_no_part():
    frame = mixed(
        box(-200, -120, 150, 120), box(-195, -115, 145, 115), box(40, -115, 145, -90), box(40, -110, 145, -100)
    )
    assert_three(read(mixed(side_view(shaft()), frame)))


def test_a_border_alone_is_no_part():
    assert codes(read(mixed(box(0, 0, 297, 210), box(200, 0, 297, 40)))) == ["not-turned"]


def test_an_empty_sheet_is_told_apart():
    assert codes(read(Ink(centre=[(0, 0, 10, 0, 0.0)]))) == ["no-outline"]


def test_end_view_circles_beside_and_on_top():
    circles = tuple(Circle((x, 0.0), 20.0, SOURCE) for x in (40.0, -30.0))
    assert_three(read(full_outline(shaft()), circles=circles))


def test_a_detail_at_another_scale_is_passed_over():
    detail = Ink().chain(
        [(-80, 60, 0.0), (-60, 60, 0.0), (-60, 30, 0.0), (-30, 30, 0.0), (-30, 60, 0.0), (-10, 60, 0.0)]
    )
    assert_three(read(mixed(full_outline(shaft()), detail)))


def test_two_parts_need_a_point():
    two = mixed(full_outline(shaft()), full_outline(Turned(((80.0, 30.0),), (Cut(-20, 2, 26),))).map(shifted(0, 100)))
    assert codes(read(two)) == ["several-parts"]
    assert_three(read(two, options=ReadOptions(units="mm", at=(-30.0, 0.0))))
    assert codes(read(two, options=ReadOptions(units="mm", at=(500.0, 0.0)))) == ["nothing-there"]


def test_one_part_drawn_twice_is_read_once_with_a_caution():
    reading = read(mixed(full_outline(shaft()), side_view(shaft()).map(shifted(0, 100))))
    assert_three(reading)
    assert codes(reading, "caution") == ["drawn-again"]


def test_two_parts_on_one_axis():
    second = full_outline(Turned(((20.0, 30.0),)), None).map(shifted(-90, 0))
    reading = read(with_centre(mixed(full_outline(shaft(), None), second), Turned(((110.0, 1.0),)), 5.0))
    assert "several-parts" in codes(reading) or "in-pieces" in codes(reading)


def test_one_centre_line_through_three_views():
    ink = full_outline(shaft(), None)
    ink.centre.append((-200.0, 0.0, 120.0, 0.0, 0.0))
    circles = tuple(Circle((80.0, 0.0), r, SOURCE) for r in (20.0, 17.0))
    assert_three(read(ink, circles=circles))


def test_a_centre_line_beyond_one_face_only():
    ink = side_view(shaft(), None)
    ink.centre.append((1.0, 0.0, 17.5, 0.0, 0.0))
    assert_three(read(ink))


def test_several_parallel_centre_lines():
    ink = side_view(shaft())
    ink.centre += [(5.0, y, -65.0, y, 0.0) for y in (6.0, -6.0, 35.0)]
    assert_three(read(ink))


def test_a_solid_line_as_centre_line():
    ink = side_view(shaft(), None)
    ink.solid.append((0.0, 0.0, -60.0, 0.0, 0.0))
    assert_three(read(ink))


def test_symmetry_alone_is_read_with_a_caution():
    reading = read(full_outline(shaft(), None))
    assert_three(reading)
    assert codes(reading, "caution") == ["turned-by-symmetry"]


def test_a_diameter_sign_is_evidence_and_gives_the_axis():
    across = Dimension(DimensionKind.LINEAR, ((-50.0, 20.0), (-50.0, -20.0)), 90.0, 40.0, "Ø<>")
    reading = read(full_outline(shaft(), None), dimensions=(across,))
    assert_three(reading)
    assert codes(reading, "caution") == []


def test_a_plate_with_holes_is_no_turned_part():
    ink = Ink(solid=box(0, 0, 80, 50).solid, centre=[(-5, 25, 85, 25, 0.0), (40, -5, 40, 55, 0.0)])
    holes = tuple(Circle((x, y), 3.0, SOURCE) for x in (10.0, 70.0) for y in (10.0, 40.0))
    assert codes(read(ink, circles=holes)) == ["not-turned"]


def test_an_extruded_section_with_two_centre_lines_is_no_turned_part():
    half = [(10.0, 4.0), (10.0, 10.0), (4.0, 10.0), (4.0, 8.0), (-4.0, 8.0), (-4.0, 10.0), (-10.0, 10.0), (-10.0, 4.0)]
    ink = Ink().chain([(x, y, 0.0) for x, y in half] + [(-x, -y, 0.0) for x, y in half], close=True)
    ink.centre += [(-15, 0, 15, 0, 0.0), (0, -15, 0, 15, 0.0)]
    assert codes(read(ink)) == ["not-turned"]


def test_a_comb_heat_sink_is_no_turned_part():
    top = [(x, y, 0.0) for k in range(6) for x, y in ((6 * k, 5), (6 * k, 25), (6 * k + 2, 25), (6 * k + 2, 5))]
    ink = Ink().chain([(0, 0, 0.0), *top, (32, 0, 0.0)], close=True)
    ink.centre.append((16, -5, 16, 30, 0.0))
    assert codes(read(ink)) == ["not-round"]


def test_a_keyway_on_one_side_is_no_groove():
    corners = [(0, 20), (-20, 20), (-20, 15), (-40, 15), (-40, 20), (-60, 20)]
    ink = with_centre(Ink().chain([(z, r, 0.0) for z, r in [*corners, (-60, -20), (0, -20)]], close=True), shaft(), 5.0)
    reading = read(ink)
    assert (spans(reading), codes(reading), codes(reading, "caution")) == ([], [], ["one-sided"])


def notched(*notches):
    """An outline 60 long from -20 to 20 with notches 5 deep (front, back) in its upper edge only, and edge lines."""
    corners = [(z, r) for a, b in notches for z, r in ((a, 20), (a, 15), (b, 15), (b, 20))]
    outline = [(0, 20), *corners, (-60, 20), (-60, -20), (0, -20)]
    ink = Ink().chain([(z, r, 0.0) for z, r in outline], close=True)
    ink.solid += [(z, 15, z, -20, 0.0) for notch in notches for z in notch]
    return ink


@pytest.mark.parametrize("bored", [False, True])
def test_a_row_of_recesses_on_one_side_of_no_centre_line_may_be_one_half_of_a_part(bored):
    """A lower half with its edge lines, read alone, would be half as wide as the part and without grooves."""
    ink = notched((-10, -14), (-20, -24), (-30, -37))
    ink.hidden += [(0, r, -60, r, 0.0) for r in (4, -4)] if bored else []
    reading = read(ink)
    assert codes(reading) == ["axis-unclear" if bored else "axis-not-drawn"]
    half = "it may be one half of the part" if bored else "could be half of one about the line from X-60 Y-20"
    assert half in next(f.message for f in reading.findings if f.stops)


@pytest.mark.parametrize("notches", [((-10, -14), (-20, -24)), ((-10, -14), (-20, -24), (-30, -37))])
def test_keyways_on_one_side_of_a_centre_line_are_no_grooves(notches):
    reading = read(with_centre(notched(*notches), shaft(), 5.0))
    assert (spans(reading), codes(reading)) == ([], [])
    assert codes(reading, "caution") == ["one-sided"] * len(notches)


@pytest.mark.parametrize(
    ("notches", "rack"),
    [
        (((-10, -14), (-20, -24), (-30, -34)), True),
        (((-10, -14), (-20, -24), (-30.02, -34.02)), False),
        (((-10, -14), (-20, -24), (-30, -34.02)), False),
        (((-10, -14), (-20, -24)), False),
    ],
)
def test_three_alike_at_one_pitch_on_one_side_of_a_centre_line_are_a_rack(notches, rack):
    """Alike within ten times the noise of a view 72.1 across, 0.0144."""
    reading = read(with_centre(notched(*notches), shaft(), 5.0))
    assert codes(reading) == ["not-turned"] * rack


def bracket(near, far):
    """A bent plate 3 thick about a centre line: one leg stands up to z `near`, the other to z `far`."""
    left = [(near, 40.0), (near, 37.0), (-57.0, 37.0)] if near > -57 else [(-57.0, 40.0)]
    right = [(-57.0, -37.0), (far, -37.0), (far, -40.0)] if far > -57 else [(-57.0, -40.0)]
    corners = [*left, *right, (-60.0, -40.0), (-60.0, 40.0)]
    ink = Ink().chain([(z, r, 0.0) for z, r in corners], close=True)
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    return ink


@pytest.mark.parametrize("ends", [(-42, -57), (-57, -42), (0, -30), (-30, 0)])
def test_a_bracket_with_unlike_legs_is_no_turned_part(ends):
    stops = [f for f in read(bracket(*ends)).findings if f.code == "not-turned"]
    assert [f"end {abs(ends[0] - ends[1])} apart" in f.message for f in stops] == [True]


def test_a_thread_drawn_tooth_by_tooth_is_no_row_of_grooves():
    teeth = [(-20 - 1.5 * k - d, 10 - h) for k in range(18) for d, h in ((0.0, 0.0), (0.75, 0.9))]
    part = Drawn(((0, 10), *teeth, (-47, 10), (-60, 10)))
    reading = read(full_outline(part))
    assert (spans(reading), codes(reading), codes(reading, "caution")) == ([], [], ["thread"])


def test_teeth_half_a_pitch_apart_on_the_two_sides_are_a_thread_too():
    def side(shift):
        rows = [(-20 - 1.5 * k - d - shift, 10 - h) for k in range(12) for d, h in ((0.0, 0.0), (0.75, 0.9))]
        return [(0.0, 10.0), *rows, (-38.0 - shift, 10.0), (-60.0, 10.0)]

    ring = [(z, r, 0.0) for z, r in side(0.0)] + [(z, -r, 0.0) for z, r in reversed(side(0.75))]
    reading = read(with_centre(Ink().chain(ring, close=True), Drawn(((0, 10), (-60, 10))), 5.0))
    assert spans(reading) == []
    assert "thread" in codes(reading, "caution")


def test_a_thread_drawn_by_second_lines_is_no_groove():
    ink = side_view(shaft())
    ink.solid += [(-40, y, -60, y, 0.0) for y in (18.9, -18.9)] + [(-40, 20, -40, -20, 0.0)]
    reading = read(ink)
    assert spans(reading) == THREE
    assert codes(reading, "caution") == ["inner-lines"]


@pytest.mark.parametrize(
    ("words", "root", "told"),
    [
        (("M40",), 18.9, False),
        (("M40x2-6g",), 18.9, False),
        (("M42",), 18.9, False),
        (("M42.2",), 18.9, True),
        (("M39.6",), 18.9, True),
        (("M39.61",), 18.9, False),
        (("M20", "M40"), 18.9, False),
        (("M20",), 18.9, True),
        (("ITEM 30",), 18.9, True),
        (("M40",), 15.0, False),
        (("M40",), 14.9, True),
    ],
)
def test_lines_under_the_land_of_a_thread_by_its_name_are_its_roots(words, root, told):
    """The land is 40 across, drawn between 95 and 101 hundredths of the nominal diameter; a root has 75 at least."""
    ink = side_view(shaft())
    ink.solid += [(-40, y, -60, y, 0.0) for y in (root, -root)] + [(-40, 20, -40, -20, 0.0)]
    reading = read(ink, texts=[Text(one, (-55.0, 40.0 + 8 * k), 2.5) for k, one in enumerate(words)])
    assert spans(reading) == THREE
    assert codes(reading, "caution") == ["inner-lines"] * told


def test_lines_are_told_where_one_of_them_lies_under_no_thread():
    ink = side_view(Turned(((30.0, 16.0), (30.0, 40.0)), (Cut(-40.0, 3.0, 34.0),)))
    ink.solid += [(0, y, -28, y, 0.0) for y in (6.8, -6.8)] + [(-28, 8, -28, -8, 0.0)]
    assert codes(read(ink, texts=[Text("M16", (-20.0, 40.0), 2.5)]), "caution") == []
    ink.solid += [(-48, y, -60, y, 0.0) for y in (6.8, -6.8)] + [(-48, 20, -48, -20, 0.0)]
    assert codes(read(ink, texts=[Text("M16", (-20.0, 40.0), 2.5)]), "caution") == ["inner-lines"]


def threaded_section(bore, length=40.0, chamfer=1.0, root=13.2):
    """A bush 30 across with a thread's root from end to end, and a stepped line about the axis within it."""
    part = Turned(((length, 30.0),), chamfer=chamfer)
    ink = side_view(part)
    ink.solid += [(0, y, -length + 2, y, 0.0) for y in (root, -root)] + [(-length + 2, 15, -length + 2, -15, 0.0)]
    for sign in (1, -1):
        ink.chain([(z, sign * r, 0.0) for z, r in bore])
    return ink


BORED = [(0.0, 9.0), (-10.0, 9.0), (-10.0, 8.0), (-17.0, 8.0), (-30.0, 8.0), (-30.0, 0.0)]


@pytest.mark.parametrize("chamfer", [0.0, 1.0])
@pytest.mark.parametrize(("root", "is_root"), [(13.2, True), (11.3, True), (11.2, False)])
def test_a_bore_with_its_groove_within_a_thread_s_root_is_read(chamfer, root, is_root):
    """A section without hatching: the root alone closes off all that reaches the axis, at 0.75 of the land at least."""
    line = [*BORED[:4], (-17.0, 9.5), (-22.0, 9.5), (-22.0, 8.0), *BORED[4:]]
    ink = threaded_section(line, chamfer=chamfer, root=root)
    ink.solid += [(z, -r, z, r, 0.0) for z, r in ((-10.0, 8.0), (-17.0, 8.0), (-22.0, 8.0))]
    reading = read(ink)
    found = [(g.where, g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves]
    assert (found == [("inside", -17.0, -22.0, 19.0)]) is is_root
    assert not is_root or codes(reading, "caution") == ["inner-lines", "inside-groove"]


@pytest.mark.parametrize("bore", [[(0.0, 8.0), (-30.0, 8.0), (-30.0, 0.0)], [(-10.0, 8.0), (-30.0, 8.0)]])
def test_a_plain_line_within_a_thread_s_root_may_be_another_root(bore):
    """It has no step of its own that says it is a bore, or opens in no end face."""
    reading = read(threaded_section(bore, chamfer=0.0))
    assert spans(reading) == []
    assert reading.part.bore is None
    assert "inner-lines" in codes(reading, "caution")


def test_mouth_lines_that_run_on_across_the_grooves():
    ink = side_view(shaft())
    ink.solid += [(0, y, -60, y, 0.0) for y in (20, -20)]
    reading = read(ink)
    assert_three(reading)
    assert set(codes(reading, "caution")) == {"mouth-line"}


def test_grooves_drawn_as_closed_rectangles():
    body = full_outline(Turned(((60.0, 40.0),)))
    rects = [box(z, s * 17, z - 3, s * 20) for z in (-10, -18, -26) for s in (1, -1)]
    reading = read(mixed(body, *rects))
    assert_three(reading)


CLOSED = {
    "upright walls": (((-10, 20), (-10, 17), (-15, 17), (-15, 20)), True),
    "one wall aslant": (((-10, 20), (-10, 17), (-12, 17), (-15, 20)), False),
    "far edge broken by less than a quarter": (((-10, 20), (-10, 17), (-13.8, 17), (-13.8, 19), (-15, 20)), True),
    "far edge broken by more": (((-10, 20), (-10, 17), (-13.7, 17), (-13.7, 19), (-15, 20)), False),
    "near edge broken by less than a quarter": (((-10, 20), (-11.2, 19), (-11.2, 17), (-15, 17), (-15, 20)), True),
    "near edge broken by more": (((-10, 20), (-11.3, 19), (-11.3, 17), (-15, 17), (-15, 20)), False),
    "a vee that leans by less than a fiftieth": (((-10, 20), (-12.455, 17), (-15, 20)), True),
    "a vee that leans by more": (((-10, 20), (-12.445, 17), (-15, 20)), False),
}


def closed(corners, *more):
    """A bar with a recess under a line right across its mouth, and more level lines (z, z, radius) on both halves."""
    ink = full_outline(Drawn(((0, 20), *corners, (-60, 20))))
    ink.solid += [(z0, s * r, z1, s * r, 0.0) for z0, z1, r in ((-10, -15, 20), *more) for s in (1, -1)]
    return read(ink)


@pytest.mark.parametrize(("corners", "groove"), CLOSED.values(), ids=CLOSED)
def test_what_a_mouth_line_closes_is_a_groove_or_stops(corners, groove):
    reading = closed(corners)
    leans = len(corners) == 3 or any(a[0] != b[0] and a[1] != b[1] for a, b in pairwise(corners))
    assert codes(reading) == ([] if groove else ["lines-unexplained"] * leans + ["not-turned"])
    assert ("mouth-line" in codes(reading, "caution")) is groove


def test_a_recess_under_a_mouth_line_whose_floor_runs_on_stops():
    assert codes(closed(CLOSED["upright walls"][0], (-15, -25, 17))) == ["not-turned"]


@pytest.mark.parametrize("outer", [(-4, 20), (-4, 18.8)])
def test_a_groove_in_an_end_face_is_closed_by_the_line_of_that_face(outer):
    """As a section shows it; a broken edge may take a quarter of its width."""
    rim = [outer] if outer[1] == 20 else [outer, (-1, outer[1])]
    corners = [(0, 6), (0, 15), (-4, 15), *rim, (0, 20), (0, 30), (-40, 30), (-40, 6)]
    half = Ink().chain([(*corner, 0.0) for corner in corners], close=True)
    half.solid.append((0, 15, 0, 20, 0.0))
    reading = read(with_centre(mixed(half, half.map(lambda x, y: (x, -y))), Drawn(((0, 1), (-40, 1))), 5.0))
    assert codes(reading) == []
    assert spans(reading) == [("face", "rectangular", 0.0, -4.0, 30.0)]


def test_a_long_strip_under_a_mouth_line_may_be_a_thread():
    body = side_view(Turned(((60.0, 40.0),)))
    strip = [box(-20, s * 19, -40, s * 20) for s in (1, -1)]
    assert codes(read(mixed(body, *strip))) == ["groove-or-thread"]


@pytest.mark.parametrize("near", [0.0, -1.0, -20.0])
def test_a_strip_with_no_land_beside_it_is_a_thread(near):
    """From the face, or from the edge of its chamfer, no land is left in front: a groove has one on either side."""
    body = side_view(Turned(((60.0, 40.0),), chamfer=1.0))
    body.solid += [(min(near, -1.0), s * 20.0 - s * 0.9, -30.0, s * 20.0 - s * 0.9, 0.0) for s in (1, -1)]
    body.solid += [(z, -20.0, z, 20.0, 0.0) for z in ((-30.0,) if near > -2 else (-30.0, near))]
    reading = read(body)
    assert codes(reading) == ["groove-or-thread"] * (near < -2)
    assert reading.part.length == 60.0


def test_silhouettes_not_broken_at_the_crossings():
    ink = with_centre(Ink(), shaft(), 5.0)
    z = 0.0
    for far in (-10.0, -18.0, -26.0, -60.0):
        ink.solid += [(z, y, far, y, 0.0) for y in (20.0, -20.0)]
        z = far - 3
    ink.solid += [(near, y, near - 3, y, 0.0) for near in (-10.0, -18.0, -26.0) for y in (17.0, -17.0)]
    ink.solid += [(z, -20, z, 20, 0.0) for z in (0, -10, -13, -18, -21, -26, -29, -60)]
    assert_three(read(ink))


def test_loose_hatching_cuts_nothing_up():
    part = shaft(bore=16.0)
    ink = section(part)
    for k in range(30):
        x = -2.0 * k - 1
        ink.solid.append((x, 8.0, x - 6.0, 14.0, 0.0))
    reading = read(ink)
    assert_three(reading)
    assert reading.part.bore == ((0.0, 8.0), (-60.0, 8.0))


def test_hidden_lines_show_a_bore():
    ink = side_view(shaft())
    ink.hidden += [(0, y, -60, y, 0.0) for y in (6, -6)]
    reading = read(ink)
    assert_three(reading)
    assert {r for _, r in reading.part.bore} == {6.0}


def test_a_blind_bore_in_a_section():
    ring = [(0, 5), (0, 20), (-60, 20), (-60, 0), (-25, 0), (-25, 5)]
    upper = Ink().chain([(z, r, 0.0) for z, r in ring])
    upper.solid.append((-25, 5, 0, 5, 0.0))
    ink = with_centre(mixed(upper, upper.map(lambda x, y: (x, -y))), shaft(), 5.0)
    assert read(ink).part.bore == ((0.0, 5.0), (-25.0, 5.0), (-25.0, 0.0), (-60.0, 0.0))


def test_inside_grooves_of_a_section_are_listed_with_a_caution():
    loop = [(0, 10), (0, 20), (-60, 20), (-60, 10), (-33, 10), (-33, 12), (-30, 12), (-30, 10)]
    half = Ink().chain([(z, r, 0.0) for z, r in loop], close=True)
    reading = read(with_centre(mixed(half, half.map(lambda x, y: (x, -y))), shaft(), 5.0))
    assert spans(reading) == [("inside", "rectangular", -30.0, -33.0, 24.0)]
    assert codes(reading, "caution") == ["inside-groove"]


def test_a_face_groove_is_listed_with_a_caution():
    part = Drawn(((0, 8), (-3, 8), (-3, 12), (0, 12), (0, 20), (-60, 20)))
    reading = read(full_outline(part))
    (groove,) = reading.part.grooves
    assert (groove.where, groove.z_near, groove.z_far) == ("face", 0.0, -3.0)
    assert (groove.mouth_diameter, groove.floor_diameter) == (24.0, 16.0)
    assert codes(reading, "caution") == ["face-groove"]


def test_a_half_section_is_one_view():
    part = shaft(bore=16.0)
    upper, lower = half_profile(part, None), side_view(shaft(), None)
    lower = Ink([e for e in lower.solid if min(e[1], e[3]) < 0])
    lower = Ink([(x0, min(y0, 0), x1, min(y1, 0), b) for x0, y0, x1, y1, b in lower.solid])
    reading = read(with_centre(mixed(upper, lower), part, 5.0))
    assert_three(reading)
    assert reading.part.bore == ((0.0, 8.0), (-60.0, 8.0))


def test_the_lower_half_alone():
    assert_three(read(half_profile(shaft()).map(lambda x, y: (x, -y))))


@pytest.mark.parametrize("degrees", [90, 30, 12.5, 180, 271, 45])
def test_an_axis_at_any_angle(degrees):
    part = Turned(((60.0, 40.0),), (Cut(-10, 3, 34), Cut(-40, 2, 36)))
    reading = read(side_view(part), rotated(degrees, 300, -50))
    assert codes(reading) == []
    ends = {tuple(round(g.z_near, 4) for g in reading.part.grooves)}
    assert ends <= {(-10.0, -40.0), (-18.0, -47.0)}


def test_the_front_face_is_where_the_user_says():
    part = Turned(((60.0, 40.0),), (Cut(-10, 3, 34),))
    left = read(side_view(part), options=ReadOptions(units="mm", front="left"))
    assert spans(left) == [("outside", "rectangular", -47.0, -50.0, 34.0)]
    top = read(side_view(part), rotated(90), options=ReadOptions(units="mm", front="bottom"))
    assert spans(top) == [("outside", "rectangular", -47.0, -50.0, 34.0)]
    assert codes(read(side_view(part), options=ReadOptions(units="mm", front="top"))) == ["front-impossible"]


def test_a_groove_at_a_shoulder_and_a_neck():
    part = Drawn(
        ((0, 10), (-18, 10), (-18, 9), (-20, 9), (-20, 15), (-40, 15), (-40, 14), (-53, 14), (-53, 15), (-70, 15))
    )
    reading = read(side_view(part))
    assert spans(reading) == [
        ("outside", "rectangular", -18.0, -20.0, 18.0),
        ("outside", "rectangular", -40.0, -53.0, 28.0),
    ]
    assert codes(reading, "caution") == []


def test_a_journal_with_grooves_of_its_own_is_a_land():
    part = Drawn(
        ((0, 20), (-10, 20), (-10, 15), (-20, 15), (-20, 12), (-23, 12), (-23, 15), (-50, 15), (-50, 22), (-70, 22))
    )
    reading = read(side_view(part))
    assert spans(reading) == [("outside", "rectangular", -20.0, -23.0, 24.0)]
    assert codes(reading, "caution") == ["journal"]
    assert min(r for z, r in reading.part.lands if -50 < z < -10) == 15.0


def test_open_steps_beside_a_collar_are_no_grooves():
    part = Drawn(((0, 8), (-12, 8), (-12, 14), (-18, 14), (-18, 9), (-35, 9)))
    assert spans(read(side_view(part))) == []


def test_an_axis_drawn_a_little_beside_the_middle_shifts_no_diameter():
    ink = full_outline(shaft(), None)
    ink.centre.append((5.0, 0.03, -65.0, 0.03, 0.0))
    reading = read(ink)
    assert_three(reading)
    assert reading.part.outer_diameter == pytest.approx(40.0)


def test_a_stray_line_out_of_the_body_and_a_dot_change_nothing():
    ink = side_view(shaft())
    ink.solid += [(-35, 5, -30, 33, 0.0), (-50, 3, -50, 3, 0.0), (-45, -40, -44, 40, 0.0)]
    assert_three(read(ink))


def test_gaps_are_closed_with_a_note_and_left_open_with_a_stop():
    tidy = full_outline(shaft())
    near = Ink(
        [(x0, y0, x1 + (0.02 if k == 3 else 0), y1, b) for k, (x0, y0, x1, y1, b) in enumerate(tidy.solid)], tidy.centre
    )
    reading = read(near)
    assert_three(reading)
    assert codes(reading, "note") == ["gaps-closed"]
    missing = Ink(tidy.solid[:3] + tidy.solid[4:], tidy.centre)
    assert codes(read(missing)) != []


def test_a_line_that_one_half_alone_lacks_is_asked_about_and_the_other_read():
    tidy = full_outline(shaft())
    reading = read(Ink(tidy.solid[:3] + tidy.solid[4:], tidy.centre))
    assert (spans(reading), codes(reading)) == (THREE, ["outline-unclear"])


@pytest.mark.parametrize(("width", "level"), [(0.0019, "note"), (0.0021, "caution")])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_a_gap_in_inches_may_hold_a_broken_edge_from_two_thousandths_on(width, level, scale):
    (told,) = gap_findings([Closed((0.0, 0.0), width * scale)], "in", scale, 0.0)
    assert told.level == level


@pytest.mark.parametrize(("ends", "named"), [(4, True), (5, False)])
def test_a_few_loose_ends_are_named_and_many_are_a_sketch(ends, named):
    star = [(0.0, 0.0, 10 * math.cos(k), 10 * math.sin(k), 0.0) for k in range(ends)]
    (stop,) = read(Ink(star, [])).findings
    assert stop.code == "no-turned-part"
    assert ("the largest figure is open at" in stop.message) is named


@pytest.mark.parametrize(("share", "stop"), [(0.245, []), (0.255, ["several-parts"])])
def test_the_frame_of_a_letter_is_small_beside_the_view(share, stop):
    """A view 72.1 across, and a square on a centre line that a letter fills."""
    side = share * math.hypot(60, 40) / math.sqrt(2)
    frame = box(40, 40, 40 + side, 40 + side)
    frame.centre.append((38, 40 + side / 2, 42 + side, 40 + side / 2, 0.0))
    ring = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),)))
    reading = read(mixed(ring, frame), texts=(Text("A", (44, 44), 0.5 * side),))
    assert codes(reading, "stop") == stop


@pytest.mark.parametrize(("gap", "level"), [(0.049, "note"), (0.051, "caution")])
def test_a_gap_that_could_hold_an_edge_break_is_a_caution(gap, level):
    # Common practice, no source: an edge break of less than 0.05 mm is not drawn.
    tidy = full_outline(shaft())
    gaping = [(x0, y0, x1 + (gap if k == 3 else 0), y1, b) for k, (x0, y0, x1, y1, b) in enumerate(tidy.solid)]
    assert "gaps-closed" in codes(read(Ink(gaping, tidy.centre)), level)


@pytest.mark.parametrize("ends", [[(-30.0, 20.05)], [(-30.0, 20.05), (-40.0, 20.03)], [(0.05, 19.0)]])
def test_lines_that_begin_a_hair_beside_the_outline_leave_no_gap_in_it(ends):
    """Extension lines begin so (ISO 129-1, from memory); an end of the outline's own moved to meet them is one."""
    ink = full_outline(shaft())
    out = [(x, y, x + 20.0 * (x > 0), y + 20.0 * (x < 0), 0.0) for x, y in ends]
    reading = read(Ink([*ink.solid, *out], ink.centre))
    assert_three(reading)
    assert "gaps-closed" not in [f.code for f in reading.findings]


def test_outline_pieces_on_a_dimension_layer_still_count():
    from dataclasses import replace as changed

    sheet = sheet_of(side_view(shaft()))
    ends = sheet.segments.ends
    aside = Source("D", "LINE", "DIMENSIONS", Pen.SOLID, role="dimension")
    source = sheet.segments.source.copy()
    source[(abs(ends[:, 0] - ends[:, 2]) < 1e-9) & ((ends[:, 0] == 0) | (ends[:, 0] == -60))] = len(
        sheet.segments.sources
    )
    segments = changed(sheet.segments, source=source, sources=(*sheet.segments.sources, aside))
    assert_three(read_sheet(changed(sheet, segments=segments), MM))


def test_a_dimension_drawn_as_loose_lines_is_no_part_of_the_outline():
    from extractor.sheet import Text

    ink = side_view(shaft())
    ink.solid += [(-60, 20, -85, 20, 0.0), (-60, -20, -85, -20, 0.0), (-85, 20, -85, -20, 0.0)]
    reading = read(ink, texts=(Text("40", (-85.5, 0.0), 2.5),))
    assert_three(reading)
    assert reading.part.length == pytest.approx(60.0)


WIDE = Drawn(((0, 20), (-10, 20), (-10, 15), (-30.7, 15), (-30.7, 20), (-60, 20)))


def test_a_wide_low_land_is_turned_with_a_caution_unless_the_user_wants_it_grooved():
    turned = read(side_view(WIDE))
    assert (spans(turned), codes(turned, "caution")) == ([], ["journal"])
    assert min(r for z, r in turned.part.lands if -31 < z < -9) == 15.0
    grooved = read(side_view(WIDE), options=ReadOptions(units="mm", grooved=True))
    assert spans(grooved) == [("outside", "rectangular", -10.0, -30.7, 30.0)]
    assert {r for _, r in grooved.part.lands} == {0.0, 20.0}


def size(*ends):
    """A size from place to place, along the axis or across it."""
    (za, ra), (zb, rb) = ends
    along = ra == rb
    return Dimension(DimensionKind.LINEAR, ends, 0.0 if along else 90.0, abs(za - zb) if along else abs(ra - rb), None)


def called(words, *tip):
    """A note led to a place."""
    return Dimension(DimensionKind.LEADER, (tip, (-15.0, 40.0)), 0.0, 0.0, words)


FLOOR, WALLS = size((-20, 15), (-20, -15)), size((-10, 20), (-30.7, 20))
SIZED = {
    "width and floor": ((FLOOR, WALLS), True),
    "width alone": ((WALLS,), False),
    "floor alone": ((FLOOR,), False),
    "lengths from the end": ((FLOOR, size((0, 20), (-10, 20)), size((0, 20), (-30.7, 20))), False),
    "the land's diameter": ((WALLS, size((-40, 20), (-40, -20))), False),
    "picked a hair off": ((FLOOR, size((-10, 20), (-30.735, 20))), True),
    "picked beside": ((FLOOR, size((-10, 20), (-30.737, 20))), False),
    "a standard's groove led to the floor": ((called("DIN 76-A", -20, 15),), True),
    "led to the other half": ((called("DIN 76-B", -20, -15.035),), True),
    "led between the walls": ((called("DIN 509-E 0.8 x 0.3", -9.965, 18),), True),
    "led to a land": ((called("DIN 76-A", -9.96, 20),), False),
    "led below the floor": ((called("DIN 76-A", -20, 14.96),), False),
    "led above the land": ((called("DIN 76-A", -20, 20.04),), False),
    "another note led to the floor": ((called("TURNED", -20, 15),), False),
}


@pytest.mark.parametrize(("sizes", "groove"), SIZED.values(), ids=SIZED)
def test_a_wide_recess_sized_as_a_groove_is_one(sizes, groove):
    """Half a thousandth of a view 72.1 across is 0.036."""
    reading = read(side_view(WIDE), dimensions=sizes)
    assert spans(reading) == ([("outside", "rectangular", -10.0, -30.7, 30.0)] if groove else [])
    assert ("journal" in codes(reading, "caution")) is not groove


def test_a_roundish_part_is_no_end_view():
    part = Turned(((6.0, 16.0), (6.0, 26.0), (14.9, 28.0), (6.0, 16.0)), (Cut(-15.0, 1.0, 27.0), Cut(-17.0, 1.0, 27.0)))
    assert len(read(full_outline(part)).part.grooves) == 2


def test_a_nut_seen_from_its_end_is_no_part():
    import math

    corners = [(10 * math.cos(k * math.pi / 3), 10 * math.sin(k * math.pi / 3), 0.0) for k in range(6)]
    ink = Ink().chain(corners, close=True)
    ink.centre += [(-14, 0, 14, 0, 0.0), (0, -14, 0, 14, 0.0)]
    assert codes(read(ink)) != []


def test_two_crossing_centre_lines_of_a_part_alike_from_both_sides_are_not_guessed_at():
    part = Turned(((60.0, 40.0),), (Cut(-28.5, 3, 34),))
    ink = full_outline(part, None)
    ink.centre += [(5.0, 0, -65.0, 0, 0.0), (-30.0, -25, -30.0, 25, 0.0)]
    assert codes(read(ink)) in (["not-turned"], ["axis-unclear"])
    edges = side_view(part, None)
    edges.centre = ink.centre
    assert spans(read(edges)) == [("outside", "rectangular", -28.5, -31.5, 34.0)]


def test_a_half_closed_along_its_centre_line_wins_over_the_line_across_it():
    half = half_profile(Turned(((40.0, 60.0),), (Cut(-18.5, 3, 50),)), None)
    half.solid.append((0.0, 0.0, -40.0, 0.0, 0.0))
    half.centre += [(5.0, 0, -45.0, 0, 0.0), (-20.0, -35, -20.0, 35, 0.0)]
    assert spans(read(half)) == [("outside", "rectangular", -18.5, -21.5, 50.0)]


def test_a_cross_hole_dips_the_outline_and_is_no_groove():
    import math

    depth = 20 - math.sqrt(400 - 4)
    bulge = math.tan(math.asin(2 / ((4 + depth**2) / (2 * depth))) / 2)
    corners = ((0, 20), (-30, 20, -bulge), (-34, 20), (-60, 20))
    reading = read(full_outline(Drawn(corners)))
    assert (spans(reading), codes(reading, "caution")) == ([], ["cross-hole"])


def test_rounded_corners_drawn_in_chords_are_measured_as_arcs():
    import math

    turns = [math.pi / 2 * k / 8 for k in range(9)]
    near = [(-10 - 0.5 + 0.5 * math.cos(t), 17.5 - 0.5 * math.sin(t)) for t in turns]
    far = [(-13 + 0.5 - 0.5 * math.sin(t), 17.5 - 0.5 * math.cos(t)) for t in turns]
    reading = read(full_outline(Drawn(((0, 20), (-10, 20), *near, *far, (-13, 20), (-60, 20)))))
    (groove,) = reading.part.grooves
    assert (groove.shape, groove.z_near, groove.width) == ("rectangular", -10.0, 3.0)
    assert groove.corner_radius == pytest.approx(0.5, abs=1e-4)


def test_a_corner_view_beside_is_passed_over_with_a_caution():
    slanted = full_outline(Turned(((60.0, 40.0),)), None).map(rotated(30, 0, 150))
    across = Dimension(DimensionKind.LINEAR, ((-50.0, 20.0), (-50.0, -20.0)), 90.0, 40.0, "Ø<>")
    reading = read(mixed(side_view(shaft()), slanted), dimensions=(across,))
    assert_three(reading)


def test_a_tee_slot_is_left_to_another_tool():
    slot = ((0, 20), (-10, 20), (-10, 18), (-8, 18), (-8, 15), (-18, 15), (-18, 18), (-16, 18), (-16, 20), (-60, 20))
    reading = read(full_outline(Drawn(slot)))
    assert reading.part.grooves == ()
    assert codes(reading) == ["overhang"]
    assert [(one.why, one.near, one.far) for one in reading.part.left_to_others] == [("overhang", -10.0, -16.0)]


def test_a_dovetail_is_left_to_another_tool():
    reading = read(full_outline(Drawn(((0, 20), (-10, 20), (-9, 17), (-15, 17), (-14, 20), (-60, 20)))))
    assert reading.part.grooves == ()
    assert [(one.why, one.near, one.far) for one in reading.part.left_to_others] == [("overhang", -10.0, -14.0)]


def test_three_lines_on_top_of_one_another_leave_no_sliver():
    ink = full_outline(shaft())
    ink.solid += [(0.0, 20.00002, -9.0, 19.99998, 0.0), (-4.0, 19.99997, -10.0, 20.00003, 0.0)]
    assert_three(read(ink))


@pytest.mark.parametrize("style", [full_outline, side_view])
def test_an_outline_with_one_line_forgotten_is_never_read_short(style):
    tidy = style(shaft())
    for gone in range(len(tidy.solid)):
        reading = read(Ink(tidy.solid[:gone] + tidy.solid[gone + 1 :], tidy.centre))
        if not codes(reading) and not codes(reading, "caution"):
            assert_three(reading)
            assert reading.part.length == pytest.approx(60.0)


@pytest.mark.parametrize(
    ("sides", "told"), [((1,), {"one-sided"}), ((-1,), {"one-sided"}), ((1, -1), {"mouth-line"})], ids=str
)
def test_a_line_across_a_mouth_is_told_where_a_groove_is_read(sides, told):
    """Two cautions said that a hole for a screw was read as a notch, and as a groove all the same."""
    ink = side_view(shaft())
    ink.solid += [(z0, s * r0, z1, s * r1, 0.0) for s in sides for z0, r0, z1, r1 in (
        (-40, 20, -40, 15), (-40, 15, -44, 15), (-44, 15, -44, 20),
    )]  # fmt: skip
    assert set(codes(read(ink), "caution")) == told
