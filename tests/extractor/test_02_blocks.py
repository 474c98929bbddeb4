"""Blocks are resolved as a CAD shows them: nested, scaled, mirrored, stretched, in arrays; runaway ones end early."""

import math
import resource
from itertools import pairwise

import numpy as np
import pytest
from support.sheets import blank, codes, entities, line_tags, loaded, points, read_back, tags

from extractor.opening.arrays import MANY_COPIES, without_arrays
from extractor.opening.expand import Walk
from extractor.reading import read_sheet


def with_block(fill, **insert):
    """A document with one block reference; returns the document."""
    doc = blank()
    fill(doc.blocks.new("PART"))
    doc.modelspace().add_blockref("PART", insert.pop("at", (0, 0)), dxfattribs=insert)
    return doc


def corner(block):
    """An L of two lines with an arc between, plain to see when mirrored."""
    block.add_lwpolyline([(0, 0, 0), (4, 0, 0.5), (5, 1, 0), (5, 3, 0)], format="xyb")


PLACES = {
    "as it is": ({}, lambda p: p),
    "moved": ({"at": (10, 20)}, lambda p: p + np.array((10, 20))),
    "scaled": ({"xscale": 2, "yscale": 2, "zscale": 2}, lambda p: p * 2),
    "turned": ({"rotation": 90}, lambda p: p[:, ::-1] * (-1, 1)),
    "mirrored in x": ({"xscale": -1}, lambda p: p * (-1, 1)),
    "mirrored in y": ({"yscale": -1}, lambda p: p * (1, -1)),
    "seen from behind": ({"extrusion": (0, 0, -1)}, lambda p: p * (-1, 1)),
    "z scale 0, common in old files": ({"zscale": 0}, lambda p: p),
    "scale 0, taken as none": ({"xscale": 0}, lambda p: p),
}


@pytest.mark.parametrize(("insert", "place"), PLACES.values(), ids=PLACES)
def test_a_reference_places_the_block(insert, place):
    plain = points(read_back(with_block(corner)))
    sheet = read_back(with_block(corner, **insert))
    np.testing.assert_allclose(points(sheet), place(plain), atol=1e-9)
    assert not any(s.curve for s in sheet.segments.sources)
    assert {s.owner for s in sheet.segments.sources} == {"INSERT"}


def test_a_stretched_arc_becomes_the_ellipse_that_it_is():
    sheet = read_back(with_block(lambda b: b.add_arc((0, 0), 5, 0, 90), xscale=2))
    on = points(sheet)
    assert sheet.segments.sources[0].curve
    np.testing.assert_allclose(np.hypot(on[:, 0] / 10, on[:, 1] / 5), 1, atol=1e-5)


def test_a_stretched_bulge_becomes_the_ellipse_that_it_is():
    """A half circle of radius 2 from (0, 0) to (4, 0), stretched three times in y."""
    block = lambda b: b.add_lwpolyline([(0, 0, 1), (4, 0, 0)], format="xyb")  # noqa: E731
    on = points(read_back(with_block(block, yscale=3)))
    np.testing.assert_allclose(np.hypot((on[:, 0] - 2) / 2, on[:, 1] / 6), 1, atol=1e-5)
    assert on[:, 1].min() == pytest.approx(-6, abs=1e-4)


def test_an_ellipse_stretched_back_to_a_circle_is_a_circle():
    sheet = read_back(with_block(lambda b: b.add_ellipse((0, 0), (4, 0), ratio=0.5), yscale=2))
    assert [c.radius for c in sheet.circles] == [pytest.approx(4)]


def test_a_circle_tilted_edge_on_is_a_line():
    def fill(block):
        block.add_circle((0, 0), 3, dxfattribs={"extrusion": (0, 1, 0)})

    sheet = read_back(with_block(fill))
    (ends,) = sheet.segments.ends.tolist()
    assert sorted([ends[0], ends[2]]) == pytest.approx([-3, 3])
    assert ends[1] == ends[3] == pytest.approx(0)


def test_nested_blocks_and_base_points():
    doc = blank()
    inner = doc.blocks.new("INNER", base_point=(1, 0))
    inner.add_line((1, 0), (2, 0))
    doc.blocks.new("OUTER").add_blockref("INNER", (10, 0), dxfattribs={"rotation": 90})
    doc.modelspace().add_blockref("OUTER", (100, 0), dxfattribs={"xscale": 2, "yscale": 2, "zscale": 2})
    np.testing.assert_allclose(read_back(doc).segments.ends, [[120, 0, 120, 2]], atol=1e-12)


def test_an_array_of_references():
    array = {"column_count": 3, "row_count": 2, "column_spacing": 10, "row_spacing": 5}
    sheet = read_back(with_block(lambda b: b.add_line((0, 0), (1, 0)), **array))
    starts = sorted(tuple(row[:2]) for row in sheet.segments.ends.tolist())
    assert starts == [(x, y) for x in (0, 10, 20) for y in (0, 5)]


def test_attributes_are_texts_where_they_stand():
    doc = with_block(corner, at=(10, 0))
    (insert,) = doc.modelspace().query("INSERT")
    insert.add_attrib("NOTE", "Ø20 h11", (12, 3))
    (text,) = read_back(doc).texts
    assert (text.text, text.at) == ("Ø20 h11", (12.0, 3.0))


def test_a_reference_to_nothing_is_named():
    lost = ((0, "INSERT"), (8, "0"), (2, "GONE"), (10, 0.0), (20, 0.0))
    sheet = loaded(entities(*line_tags(0, 0, 1, 0), *lost))
    assert "block-missing" in codes(sheet) or "file-repaired" in codes(sheet)


def test_a_block_inside_itself_ends():
    doc = blank()
    block = doc.blocks.new("LOOP")
    block.add_line((0, 0), (1, 0))
    block.add_blockref("LOOP", (1, 1))
    doc.modelspace().add_blockref("LOOP", (0, 0))
    sheet = read_back(doc)
    assert len(sheet.segments) <= 1
    assert {"block-cycle", "file-repaired", "block-missing"} & codes(sheet)


def multiplying(levels, width):
    """Blocks that each hold `width` references to the next."""
    doc = blank()
    doc.blocks.new("B0").add_line((0, 0), (1, 0))
    for level in range(1, levels):
        block = doc.blocks.new(f"B{level}")
        for k in range(width):
            block.add_blockref(f"B{level - 1}", (k, level))
    doc.modelspace().add_blockref(f"B{levels - 1}", (0, 0))
    return doc


@pytest.mark.parametrize(("levels", "width"), [(7, 12), (60, 2), (12, 10)])
def test_blocks_that_multiply_end_in_a_stop_at_once(levels, width):
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    sheet = read_back(multiplying(levels, width))
    assert [(f.code, f.level) for f in sheet.findings] == [("too-many-entities", "stop")]
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 500_000


def test_an_array_of_a_million_ends_at_once():
    array = {"column_count": 1000, "row_count": 1000, "column_spacing": 1, "row_spacing": 1}
    sheet = read_back(with_block(corner, **array))
    assert codes(sheet) == {"too-many-entities"}
    assert "more than a million" in sheet.findings[0].message


def array_of(copies, lines, at=(100.0, 50.0), more=()):
    """A document with an array of a block of some upright lines, 1 high and 0.001 apart, and other lines."""
    doc = blank()
    block = doc.blocks.new("TILE")
    for k in range(lines):
        block.add_line((0.001 * k, 0), (0.001 * k, 1))
    array = {"row_count": copies // 10, "column_count": 10, "row_spacing": 2.0, "column_spacing": 3.0}
    doc.modelspace().add_blockref("TILE", at, dxfattribs=array)
    for line in more:
        doc.modelspace().add_line(*line)
    return doc


LAND = ((0, 15), (-60, 15))


@pytest.mark.parametrize(
    ("copies", "lines", "more", "aside"),
    [
        (MANY_COPIES, 1_000, [LAND], True),
        (MANY_COPIES, 999, [LAND], False),
        (MANY_COPIES - 10, 1_200, [LAND], False),
        (MANY_COPIES, 1_000, [], False),
    ],
    ids=["too many lines", "just not too many", "fewer copies", "nothing else"],
)
def test_an_array_of_too_many_lines_is_set_aside_where_there_is_something_else(copies, lines, more, aside):
    doc = array_of(copies, lines, more=more)
    left, boxes = without_arrays(doc.modelspace(), Walk(doc))
    assert len(left) == len(more) + (not aside)
    assert [*boxes] == ([pytest.approx((100, 50, 100 + 9 * 3 + 0.999, 50 + 9 * 2 + 1))] if aside else [])


def test_arrays_within_an_array_are_set_aside_with_it():
    doc = array_of(MANY_COPIES, 100, more=[LAND])
    doc.blocks.new("WALL").add_entity(doc.modelspace().query("INSERT").first.copy())
    doc.modelspace().delete_entity(doc.modelspace().query("INSERT").first)
    wide = {"row_count": 40, "column_count": 40, "row_spacing": 100.0, "column_spacing": 100.0, "rotation": 90.0}
    doc.modelspace().add_blockref("WALL", (0, 0), dxfattribs=wide)
    _, (box,) = without_arrays(doc.modelspace(), Walk(doc))
    # A quarter turn takes x to y and y to -x.
    assert box == pytest.approx((-50 - 19 - 3900, 100, -50, 100 + 27.099 + 3900))


@pytest.mark.parametrize("more", [False, True])
def test_a_block_of_arrays_alone_is_set_aside_as_they_are(more):
    doc = array_of(MANY_COPIES, 1_000, more=[LAND])
    array = doc.modelspace().query("INSERT").first
    block = doc.blocks.new("WALL")
    block.add_entity(array.copy())
    if more:
        block.add_line((0, 0), (1, 0))
    doc.modelspace().delete_entity(array)
    doc.modelspace().add_blockref("WALL", (0, 0))
    left, boxes = without_arrays(doc.modelspace(), Walk(doc))
    assert (len(left), len(boxes)) == ((2, 0) if more else (1, 1))


@pytest.mark.parametrize(("at", "stops"), [((100.0, 50.0), set()), ((-40.0, 10.0), {"too-many-entities"})])
def test_a_part_is_read_beside_such_an_array_and_not_where_it_stands(at, stops):
    step = [(0, 0), (0, 15), (-10, 15), (-10, 12), (-13, 12), (-13, 15), (-60, 15), (-60, 0)]
    shaft = [((x0, s * y0), (x1, s * y1)) for (x0, y0), (x1, y1) in pairwise(step) for s in (1, -1)]
    reading = read_sheet(read_back(array_of(MANY_COPIES, 1_000, at, shaft)))
    assert reading.part is not None
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-10, -13)]
    assert {f.code for f in reading.findings if f.stops} - {"units-unknown"} == stops
    (said,) = [f for f in reading.findings if f.code == "left-out"]
    assert "comes to over 100,000 lines and was left out: its box of 28 by 19 was not read" in said.message


def test_a_chain_of_blocks_deeper_than_any_drawing_ends():
    assert codes(read_back(multiplying(200, 1))) == {"too-many-entities"}


def test_a_header_and_blocks_written_by_hand():
    """R12 tags as the DXF reference lists them, with a block on layer 0 placed on another layer."""
    block = ((0, "BLOCK"), (8, "0"), (2, "B"), (70, 0), (10, 0.0), (20, 0.0), (30, 0.0), (3, "B"))
    blocks = ((0, "SECTION"), (2, "BLOCKS"), *block, *line_tags(0, 0, 1, 0), (0, "ENDBLK"), (8, "0"), (0, "ENDSEC"))
    insert = ((0, "INSERT"), (8, "BODY"), (2, "B"), (10, 5.0), (20, 0.0), (41, 2.0), (42, 2.0), (50, 180.0))
    sheet = loaded(tags(*blocks) + entities(*insert))
    np.testing.assert_allclose(sheet.segments.ends, [[5, 0, 3, 0]], atol=1e-12)
    assert sheet.segments.sources[0].layer == "BODY"


def test_arcs_survive_any_turn_and_mirror_of_a_block():
    for quarter in range(8):
        turn = {"rotation": 45 * quarter, "xscale": -1 if quarter % 2 else 1}
        sheet = read_back(with_block(lambda b: b.add_arc((0, 0), 5, 10, 100), **turn))
        assert len(sheet.segments) == 1
        assert abs(sheet.segments.bulge[0]) == pytest.approx(math.tan(math.radians(90) / 4))
        np.testing.assert_allclose(np.hypot(*points(sheet).T), 5)
