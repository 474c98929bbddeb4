"""Recesses that no line bounds: filled, drawn as a wide stroke, or shown by hidden lines. The reading says so."""

import math

import ezdxf
import pytest
from support.sheets import blank, drawn, read_back
from support.varied import each_in_turn

from extractor import ReadOptions, read_sheet

MM = ReadOptions(units="mm")
HALF = [(0, 0), (0, 20), (20, 20), (20, 17), (24, 17), (24, 20), (80, 20), (80, 0)]
GROOVE = (56.0, 60.0)


def shaft(extra, *, width=0.0, sides=(1, -1), options=MM):
    """A shaft 80 long and 40 across with one groove, and what `extra` draws on each half."""
    doc = blank()
    msp = doc.modelspace()
    for side in sides:
        msp.add_lwpolyline([(x, side * y) for x, y in HALF], dxfattribs={"const_width": width})
        extra(msp, side)
    msp.add_line((-6, 0), (86, 0), dxfattribs={"linetype": "CENTER"})
    found = read_sheet(read_back(doc), options)
    assert found.part is not None
    assert [(-g.z_near, -g.z_far) for g in found.part.grooves] == [pytest.approx(GROOVE)]
    return found


def told(found):
    """The places of what is said of recesses without edges; lines that are none end loose in the metal."""
    unclear = (f for f in found.findings if f.code == "outline-unclear" and f.level == "stop")
    return [f.at for f in unclear if not f.message.startswith(("A line that begins", "A hidden line ends loose"))]


def area(places):
    """A solid hatch over places given for the upper half."""

    def fill(msp, side):
        msp.add_hatch().paths.add_polyline_path([(x, side * y) for x, y in places], is_closed=True)

    return fill


def stroke(*places, **look):
    """A line through places given for the upper half."""
    return lambda msp, side: msp.add_lwpolyline([(x, side * y) for x, y in places], dxfattribs=look)


def hidden(*places):
    """A hidden line through places given for the upper half."""
    return stroke(*places, linetype="HIDDEN")


RECESS = (40, 20), (40, 17), (44, 17), (44, 20)


@each_in_turn(
    extra=[
        area(RECESS),
        stroke((42, 20), (42, 17), const_width=4.0),
        stroke((40, 18.5), (44, 18.5), const_width=3.0),
        lambda msp, side: msp.add_line((42, side * 20), (42, side * 17), dxfattribs={"lineweight": 200}),
        hidden(*RECESS),
        hidden((40, 20), (42, 17), (44, 20)),
    ],
    sides=[(1, -1), (1,)],
)
def test_a_recess_without_edges_stops_and_may_be_accepted(extra, sides):
    (at,) = told(shaft(extra, sides=sides))
    assert at == pytest.approx((42, 18.5), abs=1.6)
    taken = shaft(extra, sides=sides, options=ReadOptions(units="mm", accept=("outline-unclear",)))
    assert told(taken) == []


def test_an_arc_may_bound_what_is_filled():
    def fill(msp, side):
        path = msp.add_hatch().paths.add_edge_path()
        path.add_arc((42, side * 20), 2, *((180, 360) if side > 0 else (0, 180)))
        path.add_line((44, side * 20), (40, side * 20))

    assert len(told(shaft(fill))) == 1


def test_one_half_alone_is_no_groove():
    """A keyway stands on one side; so does a mark."""
    for extra in (area(RECESS), hidden(*RECESS)):
        assert told(shaft(lambda msp, side, extra=extra: extra(msp, side) if side > 0 else None)) == []


def test_a_section_filled_all_over_a_ring_in_the_groove_and_heads_are_none():
    ring = [(22 + 1.8 * math.cos(k / 8 * math.pi), 18.5 + 1.4 * math.sin(k / 8 * math.pi)) for k in range(16)]
    heads = (50, 20), (50.7, 16), (49.3, 16)
    pieces = [*HALF[:3], (20, 17), (22, 17), (22, 0)], [(22, 0), (22, 17), (24, 17), *HALF[5:]]
    halves = [lambda msp, side: [area(p)(msp, side) for p in pieces], area(HALF), area(ring), area(heads)]
    assert [told(shaft(extra)) for extra in halves] == [[], [], [], []]


@pytest.mark.parametrize(("floor", "count"), [(0, 0), (10, 1)])
def test_metal_below_that_is_filled_by_itself_is_none_left(floor, count):
    def fill(msp, side):
        area([(40, 20), (40, 15), (44, 15), (44, 20)])(msp, side)
        area([(40, 15), (40, floor), (44, floor), (44, 15)])(msp, side)

    assert len(told(shaft(fill))) == count


def test_hidden_lines_about_a_centre_line_across_are_holes():
    def holes(msp, side):
        hidden((48, 20), (48, 10), (52, 10), (52, 20))(msp, side)
        msp.add_line((50, side * 24), (50, side * 6), dxfattribs={"linetype": "CENTER"})

    assert told(shaft(holes)) == []
    assert len(told(shaft(hidden((48, 20), (48, 10), (52, 10), (52, 20))))) == 1


@pytest.mark.parametrize(("gap", "count"), [(0.08, 1), (0.11, 0)])
def test_hidden_lines_may_stop_a_hair_before_the_outside(gap, count):
    """A gap of a thousandth of the view, 89 from corner to corner, is closed as one of the outline is."""
    walls = [((40, 20 - gap), (40, 17)), ((44, 20 - gap), (44, 17)), ((40, 17), (44, 17))]
    assert len(told(shaft(lambda msp, side: [hidden(*wall)(msp, side) for wall in walls]))) == count


@pytest.mark.parametrize(("gap", "count"), [(0.02, 1), (0.27, 1), (0.28, 0)])
def test_what_is_filled_may_end_short_of_the_outside_by_a_tenth_of_its_height(gap, count):
    """3 below the outside: 0.2727 of the 2.7273 that are left of it."""
    assert len(told(shaft(area([(40, 20 - gap), (40, 17), (44, 17), (44, 20 - gap)])))) == count


@pytest.mark.parametrize(("name", "count"), [("*D77", 0), ("NOTCH", 1)])
def test_a_wide_stroke_of_a_dimension_is_none_of_the_part(name, count):
    def stroked(msp, side):
        blocks = msp.doc.blocks
        block = blocks.get(name) or blocks.new(name)
        block.add_lwpolyline([(42, side * 20), (42, side * 17)], dxfattribs={"const_width": 4.0})
        if side < 0:
            msp.add_blockref(name, (0, 0))

    assert len(told(shaft(stroked))) == count


@pytest.mark.parametrize(("width", "outline", "count"), [(1.04, 0.7, 0), (1.06, 0.7, 1), (0.75, 0.5, 0)])
def test_a_wide_stroke_is_more_than_half_as_wide_again_as_the_outline(width, outline, count):
    assert len(told(shaft(stroke((42, 20), (42, 17), const_width=width), width=outline))) == count


@pytest.mark.parametrize(("first", "count"), [(0.7, 0), (0.0, 1)])
def test_every_line_of_the_outline_counts_the_first_one_drawn_as_well(first, count):
    doc = blank()
    msp = doc.modelspace()
    msp.add_lwpolyline(HALF[:2], dxfattribs={"const_width": first})
    msp.add_lwpolyline(HALF[1:])
    msp.add_lwpolyline([(x, -y) for x, y in HALF])
    msp.add_line((-6, 0), (86, 0), dxfattribs={"linetype": "CENTER"})
    for side in (1, -1):
        stroke((42, 20), (42, 17), const_width=1.0)(msp, side)
    assert len(told(read_sheet(read_back(doc), MM))) == count


@pytest.mark.parametrize(("width", "count"), [(0.66, 0), (0.69, 1)])
def test_a_wide_stroke_is_wider_than_a_pen_draws(width, count):
    """Half as wide again as 0.005 of the view, which is 89.44 from corner to corner: 0.671."""
    assert len(told(shaft(stroke((42, 20), (42, 17), const_width=width)))) == count


@pytest.mark.parametrize(
    ("middle", "look", "count"), [(18.25, {}, 1), (18.15, {}, 0), (18.5, {"linetype": "CENTER"}, 0)]
)
def test_a_wide_stroke_reaches_half_its_width_to_either_side(middle, look, count):
    """3 wide it reaches 19.7, a tenth short of 20, from 18.2; a wide centre line is no stroke of a pen that fills."""
    assert len(told(shaft(stroke((40, middle), (44, middle), const_width=3.0, **look)))) == count


@pytest.mark.parametrize(("top", "count"), [(22.9, 1), (23, 0), (23.1, 0)])
def test_more_than_half_of_what_is_filled_lies_in_the_metal(top, count):
    assert len(told(shaft(area([(40, top), (40, 17), (44, 17), (44, top)])))) == count


@pytest.mark.parametrize(("mouth", "count"), [(0.7, 1), (0.6, 0)])
def test_what_is_filled_stands_at_the_outside_along_a_quarter_of_its_length(mouth, count):
    """4 long at its floor and 0.667 at its mouth, it is 1 long a tenth of its height below that."""
    assert len(told(shaft(area([(40, 17), (44, 17), (42 + mouth / 2, 20), (42 - mouth / 2, 20)])))) == count


@pytest.mark.parametrize(("floor", "count"), [(1.9, 1), (1.7, 0)])
def test_a_tenth_of_metal_is_left_below(floor, count):
    """Of 20 filled down to 1.82 a tenth of what is filled is left."""
    assert len(told(shaft(area([(40, 20), (40, floor), (44, floor), (44, 20)])))) == count


@pytest.mark.parametrize(("floor", "count"), [(11.1, 1), (10.8, 0)])
def test_in_a_bush_the_metal_below_ends_at_its_bore(floor, count):
    """Bored to a radius of 10, of 10 filled down to 10.91 a tenth of what is filled is left."""

    def fill(msp, side):
        area([(40, 20), (40, floor), (44, floor), (44, 20)])(msp, side)
        msp.add_line((0, side * 10), (80, side * 10))

    assert len(told(shaft(fill))) == count


def test_a_small_area_is_one():
    assert len(told(shaft(area([(42, 20), (42, 19.2), (43, 19.2), (43, 20)])))) == 1


def test_a_wider_area_on_the_other_half_is_no_mirror_image():
    def fill(msp, side):
        area([(40, 20), (40, 17), (44 if side > 0 else 45, 17), (44 if side > 0 else 45, 20)])(msp, side)

    assert told(shaft(fill)) == []


@pytest.mark.parametrize(("off", "count"), [(0.38, 1), (0.42, 0)])
def test_nine_tenths_of_what_is_filled_lie_on_its_mirror_image(off, count):
    def fill(msp, side):
        move = off if side > 0 else 0.0
        area([(x + move, y) for x, y in RECESS])(msp, side)

    assert len(told(shaft(fill))) == count


def widths(sheet):
    """How wide the lines of a sheet are drawn, by layer."""
    return {s.layer: s.width for s in sheet.segments.sources}


def test_polylines_are_as_wide_as_where_they_are_narrowest():
    def draw(msp):
        msp.add_lwpolyline([(0, 0), (9, 0)], dxfattribs={"layer": "A", "const_width": 0.5})
        ends = [(0, 5, 3, 2), (9, 5, 4, 4), (9, 9, 0, 0)]
        msp.add_lwpolyline(ends, format="xyse", dxfattribs={"layer": "B"})
        msp.add_lwpolyline([(0, 7, 3, 0), (9, 7, 4, 4)], format="xyse", dxfattribs={"layer": "C"})
        msp.add_lwpolyline(ends, format="xyse", close=True, dxfattribs={"layer": "D"})
        msp.add_polyline2d(ends, format="xyse", dxfattribs={"layer": "E"})
        whole = {"layer": "F", "default_start_width": 0.6, "default_end_width": 0.7}
        msp.add_polyline2d([(0, 8), (9, 8)], dxfattribs=whole)

    assert widths(drawn(draw)) == {"A": 0.5, "B": 2.0, "C": 0.0, "D": 0.0, "E": 2.0, "F": 0.6}


@pytest.mark.parametrize(("units", "unit"), [(4, 1.0), (1, 25.4), (0, 1.0)])
def test_lineweights_are_hundredths_of_a_millimetre(units, unit):
    """DXF reference, group code 370, from memory; -1 by the layer, -2 by the reference, -3 the plotter's own."""
    doc = blank(units=units)
    doc.layers.add("HEAVY", lineweight=140)
    block = doc.blocks.new("PART")
    block.add_line((0, 0), (1, 9), dxfattribs={"layer": "BY-BLOCK", "lineweight": -2})
    block.add_lwpolyline([(0, 0), (5, 9)], dxfattribs={"layer": "WIDE", "const_width": 0.3})
    msp = doc.modelspace()
    msp.add_blockref("PART", (0, 0), dxfattribs={"lineweight": 70, "xscale": 2, "yscale": 2})
    msp.add_line((0, 5), (9, 5), dxfattribs={"layer": "HEAVY"})
    msp.add_line((0, 6), (9, 6), dxfattribs={"layer": "OWN", "lineweight": 35})
    msp.add_line((0, 7), (9, 7), dxfattribs={"layer": "LEFT", "lineweight": -3})
    found = {layer: width for layer, width in widths(read_back(doc)).items() if layer != "WIDE"}
    in_mm = {"BY-BLOCK": 0.7, "HEAVY": 1.4, "OWN": 0.35, "LEFT": 0.0}
    assert found == pytest.approx({layer: width / unit for layer, width in in_mm.items()})
    assert widths(read_back(doc))["WIDE"] == pytest.approx(0.6)


def test_solid_hatches_are_filled_and_patterns_are_not():
    def draw(msp):
        for layer, pattern in (("SOLID", None), ("LINES", "ANSI31")):
            hatch = msp.add_hatch(dxfattribs={"layer": layer})
            hatch.paths.add_polyline_path([(0, 0), (9, 0), (9, 9), (0, 9)], is_closed=True)
            if pattern:
                hatch.set_pattern_fill(pattern)

    assert {(s.layer, s.filled) for s in drawn(draw).segments.sources} == {("SOLID", True), ("LINES", False)}


def test_a_wide_line_over_a_thin_one_is_kept():
    def draw(msp):
        msp.add_lwpolyline([(0, 0), (9, 0)])
        msp.add_lwpolyline([(0, 0), (9, 0)], dxfattribs={"const_width": 2.0})

    assert [s.width for s in drawn(draw, ezdxf.DXF2000).segments.sources] == [0.0, 2.0]


def bush(*lines, hatched=True):
    """A bush 80 long, bored 16 across, cut along its axis, and hidden lines in it, for the upper half."""
    doc = blank()
    msp = doc.modelspace()
    for side in (1, -1):
        edge = [(x, side * y) for x, y in ((0, 8), (0, 20), (80, 20), (80, 8))]
        msp.add_lwpolyline(edge, close=True)
        if hatched:
            hatch = msp.add_hatch()
            hatch.set_pattern_fill("ANSI31")
            hatch.paths.add_polyline_path(edge, is_closed=True)
        for sides, line in lines:
            if side in sides:
                hidden(*line)(msp, side)
    msp.add_line((-6, 0), (86, 0), dxfattribs={"linetype": "CENTER"})
    return read_sheet(read_back(doc), MM)


@pytest.mark.parametrize("hatched", [True, False])
@pytest.mark.parametrize(
    ("lines", "count"),
    [
        ([((1, -1), ((40, 8), (40, 10), (44, 10), (44, 8)))], 1),
        ([((1,), ((40, 8), (40, 10), (44, 10), (44, 8)))], 0),
        ([((1, -1), ((40, 0), (40, 8)))], 0),
    ],
)
def test_nothing_hides_a_groove_in_the_bore_of_a_section(lines, count, hatched):
    """A keyway stands on one side, and what crosses the bore is behind it."""
    found = bush(*lines, hatched=hatched)
    assert len(told(found)) == count
    assert ["in the bore at X42 Y10" in f.message for f in found.findings if f.stops] == [True] * count


@pytest.mark.parametrize("off", [100.0, 150.0, 250.0])
def test_a_figure_in_thin_lines_beside_a_shaft_in_wide_ones_is_none(off):
    """Seen from the figure the shaft is nothing but wide strokes, of which sides lie along one another."""
    corners = [(off, -70), (off + 20, -70), (off + 20, -60), (off, -60), (off, -70)]

    def once(msp, side):
        if side > 0:
            msp.add_lwpolyline(corners)

    assert told(shaft(once, width=0.5)) == []
