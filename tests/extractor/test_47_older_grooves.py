"""What is left of an older groove: walls and floors beside the new ones, and grooves that a bore's line closes off."""

from itertools import pairwise

import pytest
from support.draw import QUARTER, Cut, Drawn, Ink, Turned, full_outline, half_profile, sheet_of, side_view
from support.sheets import blank, read_back
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet

MM = ReadOptions(units="mm")
ROUNDED = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0, 0.5), Cut(-40.0, 3.0, 34.0, 0.5)))
SHARP = Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-40.0, 3.0, 34.0)))
BULGED = Drawn(((0, 20), (-10, 20, -0.5), (-14, 20), (-60, 20)))
WAYS = [(side_view, (1, -1)), (full_outline, (1, -1)), (half_profile, (1,))]


def told(draw, part, lines, sides):
    """Codes of stops and cautions with lines (z, radius, z, radius, bulge) added on some sides of the axis."""
    ink = draw(part)
    ink.solid += [(a, s * b, c, s * d, s * e) for a, b, c, d, e in lines for s in sides]
    found = read_sheet(sheet_of(ink), MM).findings
    return {(str(f.code), str(f.level)) for f in found if f.level != "note" and f.code != "not-rectangular"}


def wall(off, corner=0.5, foot=17.0):
    """An older near wall inside the new one with its corner radius, down to the floor."""
    z = -10.0 - off
    arc = [(z, 17 + corner, z - corner, foot, -QUARTER)] if corner else []
    return [(z, 20, z, 17 + corner, 0), *arc]


@all_pairs(("draw", "sides"), WAYS, off=[0.2, 0.5, 1.0], corner=[0.5, 0.3, 0.0])
def test_a_wall_drawn_twice_in_a_groove_with_rounded_corners_stops(draw, sides, off, corner):
    assert told(draw, ROUNDED, wall(off, corner), sides) == {("lines-unexplained", "stop")}


@pytest.mark.parametrize("off", [0.2, 1.0])
def test_so_does_one_without_its_corner_and_an_older_floor_without_both(off):
    assert told(side_view, ROUNDED, wall(off)[:1], (1, -1)) == {("lines-unexplained", "stop")}
    floor = [(-10.5, 17 + off, -12.5, 17 + off, 0)]
    assert told(full_outline, ROUNDED, floor, (1, -1)) == {("lines-unexplained", "stop")}


VEE = Drawn(((0, 20), (-10, 20), (-12, 18), (-14, 20), (-60, 20)))
TAPER = Drawn(((0, 20), (-10, 20), (-11, 18), (-13, 18), (-14, 20), (-60, 20)))
ROUND = Drawn(((0, 20), (-10, 20, -1.0), (-14, 20), (-60, 20)))
CHAMFERED = Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0, chamfer=0.3), Cut(-40.0, 3.0, 34.0)))


def behind(off, near=False, foot=18):
    """An older wall and the stub of its floor in the metal, `off` behind or before a groove from -10 to -14."""
    z, at = (-10 + off, -10) if near else (-14 - off, -14)
    return [(z, 20, z, foot, 0), (z, foot, at, foot, 0)]


@all_pairs(part=[VEE, TAPER, ROUND], off=[0.2, 0.5, 1.0], near=[True, False])
def test_an_older_wall_and_the_stub_of_its_floor_beside_a_groove_with_no_straight_walls_stop(part, off, near):
    """Beside a round one they were read as a second groove."""
    assert told(side_view, part, behind(off, near), (1, -1)) == {("lines-unexplained", "stop")}
    assert told(half_profile, part, behind(off, near), (1,)) == {("outline-unclear", "stop")}
    assert told(side_view, part, [], (1, -1)) == set()


@each_in_turn(("part", "foot"), [(VEE, 18), (TAPER, 18), (ROUND, 18), (SHARP, 17)], side=[1, -1])
def test_in_one_half_alone_they_are_a_caution(part, foot, side):
    for off in (0.2, 1.0):
        for near in (True, False):
            assert told(side_view, part, behind(off, near, foot), (side,)) == {("lines-unexplained", "caution")}


@pytest.mark.parametrize(
    "lines",
    [
        [(-20, 20, -20, 17, 0), (-20, 17, -30, 17, 0), (-30, 17, -30, 20, 0)],  # a keyway, or a flat
        [(-14, 17.02, -18, 17.02, 0), (-18, 17.02, -18, 20, 0)],  # 0.02 beside the foot of the wall
        [(-14, 17, -18, 17, 0)],  # ends in the metal
        [(-14, 17, -14, 20, 0)],  # the wall itself
        [(-14, 17, -18, 20, 0)],  # from the foot of the wall to the land
    ],
)
def test_other_lines_in_one_half_are_none(lines):
    """Near is 0.0144."""
    assert "lines-unexplained" not in {code for code, _ in told(side_view, SHARP, lines, (1,))}


@pytest.mark.parametrize(("draw", "sides"), [(half_profile, (1,)), (side_view, (1,)), (full_outline, (1, -1))])
@pytest.mark.parametrize("near", [True, False])
@pytest.mark.parametrize(
    ("off", "foot", "stop"),
    [(0.2, 17, True), (1, 17, True), (3.99, 17.014, True), (4.03, 17, False), (1, 17.016, False), (1, 18, False)],
)
def test_a_second_wall_from_the_level_of_the_floor_stops(draw, sides, near, off, foot, stop):
    """No farther off than the groove is wide; alone in one half a line that ends elsewhere is a stray."""
    codes = told(draw, SHARP, behind(off, near, foot)[:1], sides)
    assert codes == ({("outline-unclear", "stop")} if stop or len(sides) > 1 else set())


def test_the_floor_of_another_groove_is_no_level_for_it():
    deeper = Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-40.0, 3.0, 30.0)))
    assert told(side_view, deeper, behind(1, foot=15)[:1], (1,)) == set()
    assert told(side_view, deeper, [(-44, 20, -44, 15, 0)], (1,)) == {("outline-unclear", "stop")}


@pytest.mark.parametrize(("draw", "end"), [(side_view, -19.7), (full_outline, -19.7), (half_profile, 0)])
@pytest.mark.parametrize("off", [0.1, 0.2, 0.5, 1.0])
def test_an_edge_line_of_a_chamfered_groove_beside_its_edge_stops(draw, end, off):
    for z in (-14 - off, -10 + off):
        assert {level for _, level in told(draw, CHAMFERED, [(z, 19.7, z, end, 0)], (1,))} == {"stop"}


@pytest.mark.parametrize("end", [19.68, 19.0, 8.0])
def test_a_line_across_that_ends_at_no_corner_is_a_stray(end):
    assert told(side_view, CHAMFERED, [(-15, end, -15, -end, 0)], (1,)) == set()
    assert told(side_view, CHAMFERED, [(-15, 19.7, -15, -end, 0)], (1,)) == set()


@pytest.mark.parametrize(
    "lines",
    [
        [(-11.0, 20, -11.0, 17.52, 0)],  # 0.02 above where the corner of a wall begins
        [(-11.0, 20, -11.0, 17.3, 0), (-11.0, 17.3, -11.3, 17.02, -QUARTER)],  # its corner ends 0.02 above the floor
        [(-11, 20, -11, 18, 0), (-11, 18, -11.5, 17, 0), (-11, 18, -11.2, 18.3, 0)],  # a third end hangs free
        [(-11.2, 18, -11.8, 18.5, 0), (-11.8, 18.5, -11.2, 19, 0)],  # a mark that touches nothing
        [(-11.5, 17, -11.2, 18, 0), (-11.2, 18, -11.8, 18, 0), (-11.8, 18, -11.5, 17, 0)],  # or the floor with its tip
    ],
)
def test_lines_that_end_in_the_air_are_marks(lines):
    """Near is 0.0144, ten times a share of 2e-5 of the view."""
    assert told(side_view, ROUNDED, lines, (1, -1)) == set()


@pytest.mark.parametrize("foot", [17.0, 17.014])
def test_a_wall_is_whole_where_it_ends_within_ten_times_the_noise_of_the_floor(foot):
    assert told(side_view, ROUNDED, wall(1.0, 0.3, foot), (1, -1)) == {("lines-unexplained", "stop")}


@pytest.mark.parametrize(("draw", "sides"), [*WAYS, (full_outline, (1,)), (full_outline, (-1,))])
@pytest.mark.parametrize(("at", "bulge"), [(17.0, -0.2), (17.0, -0.05), (16.5, -0.2), (16.5, 0.2)])
def test_a_round_floor_under_the_floor_stops(draw, sides, at, bulge):
    """From wall to wall, 0.2 or 0.05 of half its width deeper in the middle than at its ends."""
    assert ("halves-disagree", "stop") in told(draw, SHARP, [(-10, at, -14, at, bulge)], sides)


def test_a_round_floor_is_as_deep_as_its_middle():
    """Or as the middle of its middle chord: its bulge is 0.4."""
    ink = full_outline(SHARP)
    ink.solid.append((-10.0, 17.0, -14.0, 17.0, -0.2))
    (stop,) = [f for f in read_sheet(sheet_of(ink), MM).findings if f.stops]
    assert "3.392 deep, where its floor is 3 deep" in stop.message


@pytest.mark.parametrize(("draw", "sides"), WAYS)
@pytest.mark.parametrize(("near", "far"), [(-9.5, -14.5), (-9, -15), (-30, -34)])
def test_a_round_groove_left_in_the_metal_stops(draw, sides, near, far):
    """Round the new one or far from it."""
    assert told(draw, BULGED, [(near, 20, far, 20, -0.5)], sides) == {("lines-unexplained", "stop")}


@pytest.mark.parametrize(
    "lines",
    [
        [(-30, 20, -34, 19.98, -0.5)],  # its ends are not as far from the axis
        [(-30, 19.98, -34, 19.98, -0.5)],  # ends in the metal
        [(0, 18.5, -10, 18.5, 0.014 / 5)],  # from the end face to a groove, 0.014 off straight
    ],
)
def test_other_arcs_in_the_metal_are_none(lines):
    """Near is 0.0144."""
    assert told(full_outline, SHARP, lines, (1, -1)) == set()
    bent = [(0, 18.5, -10, 18.5, 0.0146 / 5)]
    assert told(full_outline, SHARP, bent, (1, -1)) == {("lines-unexplained", "stop")}
    assert told(full_outline, BULGED, [(-30, 20, -34, 20, -0.5)], (1,)) == set(), "a keyway stands on one side"


@pytest.mark.parametrize(("draw", "sides"), WAYS)
@pytest.mark.parametrize(("off", "stop"), [(0.014, False), (0.0148, True), (0.03, True), (0.07, True), (0.1, True)])
def test_a_floor_that_a_closed_gap_lays_on_the_new_one_is_no_double(draw, sides, off, stop):
    """Gaps of up to 0.072 are closed in this view; two lines are one within 0.0144."""
    found = told(draw, SHARP, [(-10, 17 - off, -14, 17 - off, 0)], sides)
    assert ({level for _, level in found} == {"stop"}) is stop
    assert bool(found) is stop


BORE = [(0, 8), (-10, 8), (-10, 10), (-13, 10), (-13, 8), (-22, 8), (-22, 10), (-25, 10), (-25, 8), (-60, 8)]


def bored(boxes, *, clear=True, filled=True, grooves=True, edges=True, sides=(1, -1)):
    """A bush in section, with grooves in its bore or none, and boxes (near, far, radius) that its line closes off.

    `filled`: hatched; `clear`: the boxes are left out of the hatch.
    """
    doc = blank()
    msp = doc.modelspace()
    line = BORE if grooves else [BORE[0], BORE[-1]]
    holed = sorted((p for a, b, r in boxes for p in ((a, 8), (a, r), (b, r), (b, 8))), key=lambda p: -p[0])
    for side in (1, -1):
        metal = [(x, side * y) for x, y in [*line, (-60, 20), (0, 20)]]
        msp.add_lwpolyline(metal, close=True)
        for a, b, r in boxes if side in sides else ():
            for p, q in pairwise([(a, 8), (a, r), (b, r), (b, 8)]):
                msp.add_line((p[0], side * p[1]), (q[0], side * q[1]))
        if filled:
            edge = [*line[:-1], *(holed if clear else ()), line[-1], (-60, 20), (0, 20)]
            hatch = msp.add_hatch()
            hatch.set_pattern_fill("ANSI31")
            hatch.paths.add_polyline_path([(x, side * y) for x, y in edge], is_closed=True)
    for z in [z for z, _ in line[1:-1:2]] if edges else ():
        msp.add_line((z, -8), (z, 8))
    for z in (0, -60):
        msp.add_line((z, -8), (z, 8))
    msp.add_line((-66, 0), (6, 0), dxfattribs={"linetype": "CENTER"})
    return read_sheet(read_back(doc), MM)


def loud(reading):
    return [(str(f.code), str(f.level)) for f in reading.findings if f.level != "note" and f.code != "inside-groove"]


@each_in_turn(edges=[True, False], box=[(-46, -49, 10), (-46, -51, 12), (-16, -19, 9), (-28, -29, 13)])
def test_a_groove_that_a_bore_s_line_closes_off_stops_where_others_are_open(edges, box):
    if box[0] < -25:
        found = bored([box], edges=edges)
        assert loud(found) == [("groove-or-thread", "stop")]
    (stop,) = [f for f in bored([box], clear=False, edges=edges).findings if f.stops]
    assert stop.code == "lines-unexplained"
    assert f"X{sum(box[:2]) / 2:.4g} " in stop.message
    assert loud(bored([], edges=edges)) == []


def test_where_none_is_open_it_is_read_with_a_caution():
    found = bored([(-46, -49, 10)], grooves=False)
    assert loud(found) == [("mouth-line", "caution")]
    assert [(g.z_near, g.z_far) for g in found.part.grooves] == [(-46.0, -49.0)]


@pytest.mark.parametrize(("far", "stop"), [(-37.9, True), (-38.1, False)])
def test_a_thread_s_root_in_a_bore_is_no_groove(far, stop):
    """Four times as long as it lies deep, and it may be one."""
    assert bool(loud(bored([(-30, far, 10)], clear=False))) is stop


def test_what_stands_beside_a_bore_in_one_half_alone_is_no_groove():
    assert loud(bored([(-46, -49, 10)], clear=False, sides=(1,))) == []


def test_the_bore_of_a_section_whose_ends_are_not_drawn_across_is_looked_beside_as_well():
    """Where edges of its grooves are, some of the bore is closed off."""
    ink = Ink()
    for s in (1, -1):
        ink.chain([(z, s * r, 0) for z, r in [*BORE, (-60, 20), (0, 20)]], close=True)
        ink.chain([(z, s * r, 0) for z, r in [(-46, 8), (-46, 10), (-49, 10), (-49, 8)]])
    ink.solid += [(z, -8.0, z, 8.0, 0.0) for z in (-10.0, -13.0, -22.0, -25.0)]
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    assert loud(read_sheet(sheet_of(ink), MM)) == [("inner-lines", "caution")]


@pytest.mark.parametrize(("off", "level"), [(0.0214, "note"), (0.0219, "caution"), (0.045, "caution")])
def test_a_wall_s_edge_line_that_a_closed_gap_moves_sideways_is_told(off, level):
    """The far wall stands elsewhere in the lower half alone; halves may differ by 0.0216, 3e-4 of the view."""
    ink = full_outline(SHARP)
    ink.solid = [
        (a - off * (a == -14 and b < 0), b, c - off * (c == -14 and d < 0), d, e) for a, b, c, d, e in ink.solid
    ]
    ink.solid.append((-14.0, 20.0, -14.0, -20.0, 0.0))
    assert [str(f.level) for f in read_sheet(sheet_of(ink), MM).findings if f.code == "gaps-closed"] == [level]
