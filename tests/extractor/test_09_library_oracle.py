"""Whatever nest of blocks is drawn, the segments lie where points of the entities go when each is mapped on its own.

Oracle: the reader library flattens the entities inside the block, and its reference matrices take the points to the
sheet one by one; arcs, bulges, ellipses and splines never meet a stretch, a mirror or a shear on that way.
"""

import math

import shapely
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from support.sheets import blank, points, read_back

number = st.floats(-50, 50).map(lambda v: round(v, 3))
scale = st.sampled_from([1.0, -1.0, 0.5, 2.0, -1.5, 3.0])
angle = st.sampled_from([0, 30, 45, 90, 123.4, 180, 270])


@st.composite
def references(draw):
    """Attributes of a block reference: place, turn, scales, seen from above or behind."""
    x = draw(scale)
    y = draw(st.one_of(st.just(x), st.just(-x), scale))
    return {
        "insert": (draw(number), draw(number)),
        "rotation": draw(angle),
        "xscale": x,
        "yscale": y,
        "zscale": abs(x),
        "extrusion": draw(st.sampled_from([(0, 0, 1), (0, 0, -1)])),
    }


@st.composite
def fillings(draw):
    """Functions that draw one entity of a random kind into a layout."""
    a, b, c, d = (draw(number) for _ in range(4))
    size = abs(c) + 1
    turn, span = draw(angle), draw(st.sampled_from([20, 90, 180, 300]))
    behind = {"extrusion": draw(st.sampled_from([(0, 0, 1), (0, 0, -1)]))}
    bulge = draw(st.sampled_from([0.0, 0.3, -0.8, 1.0, -2.0]))
    makers = {
        "line": lambda lay: lay.add_line((a, b), (c, d)),
        "arc": lambda lay: lay.add_arc((a, b), size, turn, turn + span, dxfattribs=behind),
        "polyline": lambda lay: lay.add_lwpolyline(
            [(a, b, bulge), (c, d, -bulge), (d, a, 0)], format="xyb", close=bulge > 0, dxfattribs=behind
        ),
        "ellipse": lambda lay: lay.add_ellipse((a, b), (size, d / 9), ratio=0.4, start_param=0.3, end_param=4),
        "spline": lambda lay: lay.add_open_spline([(a, b), (c, d), (d, a), (b, c)]),
    }
    return makers[draw(st.sampled_from(sorted(makers)))]


def flattened(entity):
    """Points along an entity of a block, by the library's own exact evaluation."""
    if entity.dxftype() == "LINE":
        return [entity.dxf.start, entity.dxf.end]
    if entity.dxftype() == "SPLINE":
        curve = entity.construction_tool()
        return list(curve.points(k * curve.max_t / 2000 for k in range(2001)))
    return list(entity.flattening(0.0005))


def mapped_lines(block, inner, outer):
    """All lines of a block, flattened and then mapped point by point through two references."""
    matrix = inner.matrix44() * outer.matrix44()
    lines = []
    for entity in block:
        parts = entity.virtual_entities() if entity.dxftype() == "LWPOLYLINE" else [entity]
        lines += [[(p.x, p.y) for p in map(matrix.transform, flattened(part))] for part in parts]
    return shapely.MultiLineString([line for line in lines if len(line) > 1])


def strokes_of(sheet):
    """The segments read, straight ones as they are, arcs as 512 chords from their bulge."""
    bent = sheet.segments.bulge != 0
    straight = sheet.segments.ends[~bent].reshape(-1, 2, 2).tolist()
    return shapely.MultiLineString(straight + points(sheet, per_arc=513, only=bent).reshape(-1, 513, 2).tolist())


@settings(max_examples=15, deadline=None, phases=(Phase.explicit, Phase.reuse, Phase.generate))
@given(st.lists(fillings(), min_size=1, max_size=3), references(), references())
def test_nested_references(fill, inner, outer):
    doc = blank()
    part = doc.blocks.new("PART")
    for add in fill:
        add(part)
    first = doc.blocks.new("GROUP").add_blockref("PART", inner["insert"], dxfattribs=inner)
    second = doc.modelspace().add_blockref("GROUP", outer["insert"], dxfattribs=outer)
    expected = mapped_lines(part, first, second)
    sheet = read_back(doc)
    slack = 0.02 + 1e-5 * math.dist(expected.bounds[:2], expected.bounds[2:])
    read = strokes_of(sheet)
    for lines, others, within in ((expected, read, slack), (read, expected, 2 * slack)):
        shapely.prepare(lines)
        assert shapely.dwithin(lines, shapely.points(shapely.get_coordinates(others)), within).all()
