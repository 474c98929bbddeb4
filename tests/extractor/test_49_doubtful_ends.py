"""Ends and hollows that may not be those of the part: drawn as a bar's cross-section, or left from an older end."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Drawn, Turned, full_outline, mixed, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.geometry.noding import node
from extractor.placing.laying import STUB
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source
from extractor.viewing.pockets import ALONE, HALF_WAY, pockets

MM = ReadOptions(units="mm")
DOVETAIL = ((0.0, 14.0), (-8.0, 18.0), (-8.0, 0.0))
"""In the face of a bar 80 wide and 20 high: its line from the mouth in to the axis."""
DRILLED = ((0.0, 6.0), (-10.0, 6.0), (-13.6, 0.0))


def read(ink, **more):
    return read_sheet(sheet_of(ink, **more), MM)


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


def hollowed(line):
    """A rectangle with such a hollow in its face."""
    upper = [*((z, r, 0.0) for z, r in reversed(line)), (0.0, 40.0, 0.0), (-20.0, 40.0, 0.0), (-20.0, 0.0, 0.0)]
    ink = mixed(full_outline(Turned(((1.0, 1.0),))))
    ink.solid.clear()
    ink.centre[:] = [(5.0, 0.0, -25.0, 0.0, 0.0)]
    ink.chain(upper)
    return ink.chain([(z, -r, 0.0) for z, r, _ in upper])


@pytest.mark.parametrize(
    ("line", "edge", "size", "bars"),
    [
        (DOVETAIL, None, None, True),
        (DOVETAIL, None, 80.0, False),
        (DOVETAIL, -9.0, None, True),
        (DRILLED, None, None, True),
        (DRILLED, 0.0, None, False),
    ],
)
def test_a_hollow_without_the_edge_of_its_mouth_is_that_of_a_bar(line, edge, size, bars):
    """In a section the edge behind the cutting plane is seen (ISO 128-3, from memory): a line across the mouth."""
    ink = hollowed(line)
    if edge is not None:
        ink.solid.append((edge, -line[0][1], edge, line[0][1], 0.0))
    across = Dimension(DimensionKind.LINEAR, ((-20.0, 40.0), (-20.0, -40.0)), 90.0, 80.0, "%%c80")
    told = read(ink, dimensions=(across,) if size else ()).findings
    assert any(f.stops and f.code == "not-turned" and "hollow" in f.message for f in told) is bars


def stubbed(long, foot=0.0, edge=True):
    """A shaft 60 long with a chamfer of 1.5 and an older end so much before it, its land off the foot by so much."""
    r = 20.0 - 1.5 + foot
    part = Drawn(((long, r), (0.0, r), *(((0.0, 18.5),) if foot else ()), (-1.5, 20.0), (-60.0, 20.0)))
    ink = full_outline(part)
    ink.solid += [(0.0, -r, 0.0, r, 0.0)] if edge else []
    return ink


FOOT = 2 * 18.5 * STUB


@pytest.mark.parametrize(
    ("ink", "doubtful"),
    [
        (stubbed(1.5), True),
        (stubbed(FOOT * 0.97), True),
        (stubbed(FOOT * 1.03), False),
        (stubbed(1.5, foot=-1.0), False),
        (stubbed(1.5, edge=False), False),
        (side_view(Turned(((1.5, 37.0), (58.5, 40.0)))), False),
    ],
    ids=["short", "just short", "longer", "a step at its foot", "no edge", "a spigot"],
)
@pytest.mark.parametrize("turned", [False, True])
def test_a_short_land_at_the_foot_of_a_chamfer_may_be_an_older_end(ink, doubtful, turned):
    ink = ink.map(lambda x, y: (-x, -y)) if turned else ink
    assert ("outline-doubtful" in stops(read(ink))) is doubtful


def test_a_disc_as_thin_as_a_line_has_no_stub():
    assert "outline-doubtful" not in stops(read(full_outline(Turned(((0.01, 400.0),)))))


@pytest.mark.parametrize(("x", "told"), [(1.5, False), (0.0, True)])
def test_a_size_that_begins_at_the_face_bears_such_a_land_out(x, told):
    size = Dimension(DimensionKind.LINEAR, ((x, 18.5), (-60.0, 20.0)), 0.0, 60.0 + x, None)
    assert ("outline-doubtful" in stops(read(stubbed(1.5), dimensions=(size,)))) is told


def drawn_on(ink, by):
    """Every straight stroke lengthened at both ends by up to so much."""
    rng = np.random.default_rng(5)
    rows = []
    for x0, y0, x1, y1, bulge in ink.solid:
        size = math.hypot(x1 - x0, y1 - y0)
        (a, b), (ux, uy) = rng.uniform(by / 2, by, 2), ((x1 - x0) / size, (y1 - y0) / size)
        rows.append((x0 - a * ux, y0 - a * uy, x1 + b * ux, y1 + b * uy, bulge))
    ink.solid[:] = rows
    return ink


@pytest.mark.parametrize("by", [0.02, 0.05, 0.1, 0.2])
def test_corner_lines_drawn_on_beyond_their_corners_change_nothing(by):
    """A hand that draws each line a little too long; the chamfer of 0.5 is a line of 0.7."""
    part = Turned(((28.0, 30.0),), (Cut(-6.0, 3.0, 28.0),), chamfer=0.5)
    reading = read(drawn_on(side_view(part), by))
    (groove,) = reading.part.grooves
    assert stops(reading) == []
    assert (groove.z_near, groove.z_far, groove.floor_diameter) == pytest.approx((-6.0, -9.0, 28.0), abs=1e-6)
    assert (reading.part.outer_diameter, reading.part.length) == pytest.approx((30.0, 28.0), abs=1e-6)


def faced(half_way):
    """A shaft 40 across with lines across at -10 and -22 and level ones between them at so much of its radius."""
    ink = full_outline(Turned(((60.0, 40.0),)))
    for side in (1, -1):
        ink.solid += [(z, 0.0, z, 20.0 * side, 0.0) for z in (-10.0, -22.0)]
        ink.solid.append((-10.0, 20.0 * half_way * side, -22.0, 20.0 * half_way * side, 0.0))
    return ink


@pytest.mark.parametrize(
    ("share", "hexagon"), [(0.5, True), *((0.5 + s * HALF_WAY * e, e < 1) for s in (1, -1) for e in (0.97, 1.03))]
)
def test_a_strip_half_as_deep_as_the_radius_may_be_a_hexagons_faces(share, hexagon):
    """Over its corners a hexagon's edges stand at half their radius: the sine of 30 degrees."""
    assert ("groove-or-thread" in stops(read(faced(share)))) is hexagon


def ringed(*cells):
    """A disc with a bore in section, the line of its end face drawn across the mouth of each cell."""
    upper = [(0.0, 6.0), *(place for cell in cells for place in cell), (0.0, 60.0), (-40.0, 60.0), (-40.0, 6.0)]
    ink = mixed(full_outline(Turned(((1.0, 1.0),))))
    ink.solid.clear()
    ink.centre[:] = [(5.0, 0.0, -45.0, 0.0, 0.0)]
    for side in (1, -1):
        ink.chain([(z, side * r, 0.0) for z, r in upper], close=True)
        ink.solid += [(0.0, side * cell[0][1], 0.0, side * cell[-1][1], 0.0) for cell in cells]
    return ink


def leaning(r):
    """A groove 5 wide in an end face with one wall that leans."""
    return ((0.0, r), (-4.0, r), (-4.0, r + 2.0), (0.0, r + 5.0))


@pytest.mark.parametrize("count", [1, ALONE, ALONE + 1])
def test_a_few_cells_in_an_end_face_are_grooves_though_a_wall_leans(count):
    """More of them are cells of a hatching drawn by hand."""
    reading = read(ringed(*(leaning(12.0 + 9 * k) for k in range(count))))
    assert len([g for g in reading.part.grooves if g.where == "face"]) == (count if count <= ALONE else 0)


@pytest.mark.parametrize("top", [18.8, 18.7])
def test_a_groove_in_an_end_face_may_have_a_broken_edge_as_wide_as_it_likes(top):
    cell = ((0.0, 15.0), (-4.0, 15.0), (-4.0, top), (top - 20.0, top), (0.0, 20.0))
    (groove,) = read(ringed(cell)).part.grooves
    assert (groove.where, groove.z_far) == ("face", -4.0)


@pytest.mark.parametrize(("floor", "rings"), [((35.0, 40.0), 1), ((15.0, 40.0), 0)])
def test_cells_in_a_face_with_a_wall_between_them_are_no_grooves(floor, rings):
    """A groove has metal on either side; an edge seen from outside runs on across what hidden lines show plain."""
    run = [(0, 0), (0, 60), (-50, 60), (-50, 0), (0, 0)]
    lines = [*pairwise(run), ((0, 15), (-50, 15)), *(((0, r), (-3, r)) for r in (35, 40))]
    lines.append(((-3, floor[0]), (-3, floor[1])))
    ends = np.array([[*a, *b] for a, b in lines], dtype=float)
    network = node(Strokes(ends, np.zeros(len(ends)), np.arange(len(ends))), 1e-3)
    found = pockets(network, network.faces, 1e-3).rings
    assert [face.polygon.bounds for face in found] == [(-3.0, 35.0, 0.0, 40.0)] * rings


DISC = Turned(((30.0, 120.0),), (Cut(-12.0, 3.0, 110.0),))
BEHIND = {
    "the floor's line runs across": (((35.0, 40.0, 3.0),), 40.0, ["face-unclear"], [(-3.0, 80.0)]),
    "two of them": (
        ((35.0, 40.0, 3.0), (21.0, 25.0, 2.5)),
        40.0,
        ["face-unclear"],
        [(-3.0, 80.0), (-2.5, 50.0)],
    ),
    "as deep": (((35.0, 40.0, 3.0), (21.0, 25.0, 3.0)), 40.0, ["face-unclear"], [(-3.0, 50.0), (-3.0, 80.0)]),
    "an edge that runs on to the outline, as a chamfer's": (((35.0, 40.0, 3.0),), 60.0, [], []),
    "as long as a thread": (((36.0, 37.0, 4.0),), 37.0, [], []),
    "just not": (((36.0, 37.0, 3.9),), 37.0, ["face-unclear"], []),
    "deeper than wide, as a socket": (((35.0, 40.0, 5.01),), 40.0, ["face-unclear"], []),
    "no deeper than wide": (((35.0, 40.0, 5.0),), 40.0, ["face-unclear"], [(-5.0, 80.0)]),
}


def behind(rings, reach, pen):
    """A solid disc with each ring as two walls and the edge of its floor, from outside a line from side to side."""
    ink = full_outline(DISC)
    for near, far, deep in rings:
        for side in (1, -1):
            getattr(ink, pen).extend((0.0, side * r, -deep, side * r, 0.0) for r in (near, far))
        half = reach if (near, far) == rings[0][:2] else far
        getattr(ink, pen).append((-deep, -half, -deep, half, 0.0))
    return ink


def rings_of(reading):
    return sorted((g.z_far, g.mouth_diameter) for g in reading.part.grooves if g.where == "face")


@pytest.mark.parametrize(("rings", "reach", "told", "read_as"), BEHIND.values(), ids=BEHIND)
@pytest.mark.parametrize("pen", ["solid", "hidden"])
def test_a_groove_in_the_face_of_a_solid_disc_seen_from_outside_is_asked_for(pen, rings, reach, told, read_as):
    """Hidden lines show one no deeper than wide without doubt; a deeper one may be a socket with lobes, or a spline."""
    reading = read(behind(rings, reach, pen))
    assert stops(reading) == ([] if pen == "hidden" and read_as else told)
    assert rings_of(reading) == (read_as if pen == "hidden" else [])


def with_corner_radii(pen, *edges):
    """A disc with chamfers and a groove in its face, corner radii of 0.5 in it; its floor runs on, with more edges."""
    ink = full_outline(replace(DISC, chamfer=1.0))
    ink.solid.append((-1.0, -60.0, -1.0, 60.0, 0.0))
    bulge, drawn = math.tan(math.pi / 8), getattr(ink, pen)
    for side in (1, -1):
        for r, inward in ((40.0, -0.5), (35.0, 0.5)):
            drawn.append((0.0, side * r, -2.5, side * r, 0.0))
            turn = bulge * side * (1 if inward < 0 else -1)
            drawn.append((-2.5, side * r, -3.0, side * (r + inward), turn))
    drawn += [(-3.0, -39.5, -3.0, 39.5, 0.0), *edges]
    return ink


@pytest.mark.parametrize("edges", [True, False])
def test_such_a_groove_with_corner_radii_in_plain_lines_is_asked_for(edges):
    """What lies within was a bore, and the corner radius a groove in that."""
    tangent = [(-2.5, side * 35.0, -2.5, side * 40.0, 0.0) for side in (1, -1)]
    assert stops(read(with_corner_radii("solid", *(tangent if edges else ())))) == ["face-unclear"]


def test_edges_of_a_chamfer_and_of_corner_radii_that_run_across_as_well_change_nothing():
    """As a CAD program draws hidden lines: the edges of corner radii of 0.5 too, from outer wall to outer wall."""
    reading = read(with_corner_radii("hidden", (-2.5, -40.0, -2.5, 40.0, 0.0), (-2.5, -35.0, -2.5, 35.0, 0.0)))
    assert rings_of(reading) == [(-3.0, 80.0)]
    assert [g.corner_radius for g in reading.part.grooves if g.where == "face"] == [0.5]
    assert stops(reading) == []


@pytest.mark.parametrize("chamfer", [2.9, 3.0, 3.1])
def test_the_edge_of_a_chamfer_as_wide_as_the_groove_is_deep_hides_its_floor(chamfer):
    """A line that is drawn twice is one, and that of the edge; the groove was passed over in silence."""
    ink = behind(((35.0, 40.0, 3.0),), 40.0, "hidden")
    ink.solid[:] = [*full_outline(replace(DISC, chamfer=chamfer)).solid, (-chamfer, -60.0, -chamfer, 60.0, 0.0)]
    assert rings_of(read(ink)) == [(-3.0, 80.0)]


@pytest.mark.parametrize(("share", "told"), [(0.5099, True), (0.4901, True), (0.5101, False), (0.4899, False)])
def test_hidden_edges_at_half_the_radius_may_be_those_of_a_hexagon_s_socket(share, told):
    reading = read(behind(((40.0 * share, 40.0, 3.0),), 40.0, "hidden"))
    assert (stops(reading) == ["face-unclear"]) is told
    assert bool(rings_of(reading)) is not told


@pytest.mark.parametrize("deep", [20.0, 3.0, 2.0])
def test_what_ends_at_the_edge_of_the_floor_keeps_it(deep):
    """The bottom of a bore as deep as the groove is that line; one that is less deep has a bottom of its own."""
    ink = behind(((35.0, 40.0, 3.0),), 40.0, "hidden")
    ink.hidden += [(0.0, side * 10.0, -deep, side * 10.0, 0.0) for side in (1, -1)]
    ink.hidden.append((-deep, -10.0, -deep, 10.0, 0.0))
    reading = read(ink)
    assert stops(reading) == []
    assert rings_of(reading) == [(-3.0, 80.0)]
    assert min(z for z, r in reading.part.bore if r == 10.0) == -deep


RINGS = ((35.0, 40.0, 3.0, 3.0), (21.0, 25.0, 2.5, 2.5))
"""Grooves in a face: from radius to radius, and how deep each of the two walls is."""
CUT_UP = {
    "both": (RINGS, (1, -1), ["face-unclear"]),
    "one wall deeper, as a bore's behind a wider one": (tuple((*r, d + 0.2, d) for *r, d, _ in RINGS), (1, -1), []),
    "within the pen's error": (tuple((*r, d + 1e-3, d) for *r, d, _ in RINGS), (1, -1), ["face-unclear"]),
    "on one side alone": (RINGS, (1,), []),
}


@pytest.mark.parametrize(("rings", "sides", "told"), CUT_UP.values(), ids=CUT_UP)
def test_it_is_asked_for_though_edges_of_a_chamfer_and_of_a_bore_cut_up_what_lies_between_its_walls(rings, sides, told):
    """As a CAD program draws them that has hidden lines in the pen of edges: the numbers are made up."""
    ink = full_outline(replace(DISC, chamfer=1.0))
    ink.solid.append((-1.0, -60.0, -1.0, 60.0, 0.0))
    for side in (1, -1):
        ink.solid += [(0.0, 12.0 * side, -20.0, 12.0 * side, 0.0), (-20.0, 0.0, -20.0, 12.0 * side, 0.0)]
    for near, far, *deep in rings:
        ink.solid += [
            (0.0, side * r, -d, side * r, 0.0) for side in sides for r, d in zip((near, far), deep, strict=True)
        ]
        ink.solid.append((-deep[1], -far if len(sides) == 2 else 0.0, -deep[1], far, 0.0))
    reading = read(ink)
    assert stops(reading) == told
    assert [f.code for f in reading.findings].count("inner-lines") == 1


@pytest.mark.parametrize(("across", "told"), [((120, 80, 70), True), ((120, 70), True), ((120, 110), False)])
def test_circles_of_an_end_view_that_the_view_shows_nothing_of_are_told(across, told):
    """A groove in the face has two walls; one circle is a bore's, but for that of the groove's floor."""
    rings = tuple(Circle((120.0, 0.0), d / 2, Source("1", "CIRCLE", "0", Pen.SOLID)) for d in across)
    reading = read_sheet(sheet_of(side_view(DISC), circles=rings), MM)
    assert ("face-unclear" in [f.code for f in reading.findings]) is told
    assert not any(f.stops for f in reading.findings)


@pytest.mark.parametrize(
    ("foot", "top", "faces"),
    [(0.0, 20.0, 0), (9.0, 14.0, 1), (9.0, 20.0, 1)],
    ids=["right across", "its floor alone", "beyond the outer wall"],
)
def test_edges_that_end_at_a_line_through_the_metal_are_no_walls_of_a_ring(foot, top, faces):
    """So a spline ends, seen from outside, or a flat (common practice, no source); a floor ends at its walls."""
    part = Turned(((60.0, 40.0),), (Cut(-12.0, 3.0, 34.0),))
    ink = full_outline(part)
    ink.solid += [(-42.0, s * r, -60.0, s * r, 0.0) for s in (1, -1) for r in (9.0, 14.0)]
    ink.solid += [(-42.0, s * foot, -42.0, s * top, 0.0) for s in (1, -1)]
    assert [g.where for g in read(ink).part.grooves] == ["outside", *["face"] * faces]
