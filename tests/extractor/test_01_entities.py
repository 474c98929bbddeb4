"""Every kind of entity becomes the segments it draws: exact where it is straight or round, chords where it isn't."""

import math

import numpy as np
import pytest
from ezdxf.math import Matrix44
from support.sheets import blank, bytes_of, codes, drawn, entities, line_tags, loaded, points, read_back, tags

from extractor.opening import splines


def radii(sheet, centre=(0.0, 0.0)):
    """Distances of all points of a sheet from a centre."""
    return np.hypot(*(points(sheet) - centre).T)


def test_a_line_is_itself():
    sheet = drawn(lambda m: m.add_line((1, 2), (3, 4)))
    assert sheet.segments.ends.tolist() == [[1, 2, 3, 4]]
    assert sheet.segments.sources[0].kind == "LINE"


def test_heights_are_dropped_but_lines_that_rise_are_named():
    sheet = drawn(lambda m: [m.add_line((k, 0, 5), (k, 9, 5)) for k in range(30)] + [m.add_line((0, 0, 0), (9, 0, 3))])
    assert len(sheet.segments) == 31
    assert [(f.code, f.level) for f in sheet.findings] == [("line-tilted", "caution")]


def test_a_wire_model_is_refused_as_three_dimensional():
    sheet = drawn(lambda m: [m.add_line((k, 0, 0), (k, 0, 9)) for k in range(5)] + [m.add_line((0, 0), (4, 0))])
    assert [(f.code, f.level) for f in sheet.findings] == [("three-d-only", "stop")]


@pytest.mark.parametrize(("start", "end"), [(0, 90), (90, 0), (-30, 45), (350, 370), (10, 190), (0, 359)])
def test_an_arc_keeps_its_radius_and_its_ends(start, end):
    sheet = drawn(lambda m: m.add_arc((5, 7), 3, start, end))
    np.testing.assert_allclose(radii(sheet, (5, 7)), 3, rtol=1e-12)
    first, last = sheet.segments.ends[0, :2], sheet.segments.ends[-1, 2:]
    for point, angle in ((first, start), (last, end)):
        expected = (5 + 3 * math.cos(math.radians(angle)), 7 + 3 * math.sin(math.radians(angle)))
        np.testing.assert_allclose(point, expected, atol=1e-12)
    assert (np.abs(sheet.segments.bulge) <= 1 + 1e-9).all()


def test_an_arc_seen_from_behind_is_mirrored():
    """Extrusion (0, 0, -1): x of the object's own plane runs to the left (DXF reference, arbitrary axis algorithm)."""
    sheet = drawn(lambda m: m.add_arc((5, 7), 3, 0, 90, dxfattribs={"extrusion": (0, 0, -1)}))
    np.testing.assert_allclose(radii(sheet, (-5, 7)), 3, rtol=1e-12)
    np.testing.assert_allclose(sheet.segments.ends[0], [-8, 7, -5, 10], atol=1e-12)
    assert sheet.segments.bulge[0] < 0


def test_a_polyline_seen_from_behind_is_mirrored():
    behind = {"extrusion": (0, 0, -1)}
    sheet = drawn(lambda m: m.add_lwpolyline([(0, 0, 1), (4, 0, 0), (4, 4, 0)], format="xyb", dxfattribs=behind))
    assert sheet.segments.ends.tolist() == [[0, 0, -4, 0], [-4, 0, -4, 4]]
    assert points(sheet)[4].tolist() == pytest.approx([-2, -2])


def test_a_circle_is_kept_apart_from_the_segments():
    sheet = drawn(lambda m: m.add_circle((1, 2), 3))
    assert len(sheet.segments) == 0
    assert [(c.centre, c.radius) for c in sheet.circles] == [((1.0, 2.0), 3.0)]


def round_chain(count, bulge=0.0, last=3.0, close=True):
    """A closed polyline with so many points on a circle of 3 about (1, 2), the last one `last` from the middle."""
    turns = [2 * math.pi * k / count for k in range(count)]
    ends = [
        (1 + r * math.cos(t), 2 + r * math.sin(t), 0, 0, bulge)
        for t, r in zip(turns, [3.0] * (count - 1) + [last], strict=True)
    ]
    return drawn(lambda m: m.add_lwpolyline(ends, close=close))


@pytest.mark.parametrize(
    ("how", "whole"),
    [
        ({"count": 2, "bulge": 1.0}, True),
        ({"count": 2, "bulge": -1.0}, True),
        ({"count": 4, "bulge": math.tan(math.pi / 8)}, True),
        ({"count": 12}, True),
        ({"count": 11}, False),
        ({"count": 6}, False),
        ({"count": 36, "last": 2.9973}, True),
        ({"count": 36, "last": 2.9963}, False),
        ({"count": 2, "bulge": 0.9}, False),
        ({"count": 2, "bulge": 1.0, "close": False}, False),
        ({"count": 36, "close": False}, False),
    ],
)
def test_a_closed_polyline_that_is_round_is_a_circle(how, whole):
    """Of twelve chords and more: the middle of each is off by 0.034 of the radius, of eleven by 0.041."""
    sheet = round_chain(**how)
    assert [len(sheet.circles), len(sheet.segments) > 0] == [whole, not whole]
    for circle in sheet.circles:
        np.testing.assert_allclose((*circle.centre, circle.radius), (1.0, 2.0, 3.0), atol=1e-4)


def test_a_closed_polyline_without_extent_is_no_circle():
    assert drawn(lambda m: m.add_lwpolyline([(1, 2)] * 3, close=True)).circles == ()


def test_an_ellipse_that_is_round_is_a_circle_or_an_arc():
    whole = drawn(lambda m: m.add_ellipse((1, 2), (3, 0), ratio=1))
    assert [(c.centre, c.radius) for c in whole.circles] == [((1.0, 2.0), 3.0)]
    part = drawn(lambda m: m.add_ellipse((0, 0), (3, 0), ratio=1, start_param=0, end_param=1))
    assert len(part.segments) == 1
    assert not part.segments.sources[0].curve
    np.testing.assert_allclose(radii(part), 3, rtol=1e-12)


@pytest.mark.parametrize("turn", [6.2832, 6.28319, 6.2831853072, 6.28318530718, 6.283185, 6.28318])
@pytest.mark.parametrize("start", [0.0, -3.14159])
def test_a_turn_written_with_few_digits_is_a_whole_one(turn, start):
    pairs = [(0, "ELLIPSE"), (10, 1.0), (20, 2.0), (30, 0.0), (11, 3.0), (21, 0.0), (31, 0.0), (40, 1.0)]
    sheet = loaded(entities(*pairs, (41, start), (42, start + turn)))
    assert [(c.centre, c.radius) for c in sheet.circles] == [((1.0, 2.0), pytest.approx(3.0))]


def test_an_ellipse_is_cut_into_chords_within_the_stated_error():
    sheet = drawn(lambda m: (m.add_ellipse((0, 0), (30, 0), ratio=0.4), m.add_line((-200, -150), (200, 150))))
    on = points(sheet)[:-9]
    off = np.abs(np.hypot(on[:, 0] / 30, on[:, 1] / 12) - 1) * 12
    (note,) = [f for f in sheet.findings if f.code == "curves-flattened"]
    assert note.level == "note"
    assert "0.001 units" in note.message
    assert off.max() <= 2e-6 * 500 * 1.05
    assert sheet.segments.sources[0].curve


def test_the_chord_error_grows_with_the_drawing():
    small = drawn(lambda m: m.add_ellipse((0, 0), (30, 0), ratio=0.4))
    large = drawn(lambda m: (m.add_ellipse((0, 0), (30, 0), ratio=0.4), m.add_line((0, 0), (5000, 0))))
    assert len(large.segments) < len(small.segments)


def test_a_bulged_polyline_closes_on_itself():
    sheet = drawn(lambda m: m.add_lwpolyline([(0, 0, 0), (4, 0, 1), (4, 4, 0), (0, 4, 0)], format="xyb", close=True))
    assert sheet.segments.ends.tolist() == [[0, 0, 4, 0], [4, 0, 4, 4], [4, 4, 0, 4], [0, 4, 0, 0]]
    assert sheet.segments.bulge.tolist() == [0, 1, 0, 0]


def test_widths_and_zero_length_edges_of_a_polyline_change_nothing():
    sheet = drawn(lambda m: m.add_lwpolyline([(0, 0, 0.5, 0.5), (4, 0, 0.5, 0.5), (4, 0, 1, 1), (4, 4, 1, 1)]))
    assert sheet.segments.ends.tolist() == [[0, 0, 4, 0], [4, 0, 4, 0], [4, 0, 4, 4]]


def test_an_old_polyline_is_read_like_a_new_one():
    old = drawn(lambda m: m.add_polyline2d([(0, 0, 0), (4, 0, 1), (4, 4, 0)], format="xyb", close=True), "R12")
    new = drawn(lambda m: m.add_lwpolyline([(0, 0, 0), (4, 0, 1), (4, 4, 0)], format="xyb", close=True))
    np.testing.assert_allclose(old.segments.ends, new.segments.ends)
    np.testing.assert_allclose(old.segments.bulge, new.segments.bulge)


def test_points_that_only_steer_a_fitted_polyline_are_not_on_it():
    def fitted(m):
        line = m.add_polyline2d([(0, 0), (5, 50), (4, 0), (9, 0)])
        line.vertices[1].dxf.flags = 16

    assert drawn(fitted, "R12").segments.ends.tolist() == [[0, 0, 4, 0], [4, 0, 9, 0]]


def test_a_three_dimensional_polyline_is_seen_from_above():
    assert drawn(lambda m: m.add_polyline3d([(0, 0, 1), (4, 0, 1)])).segments.ends.tolist() == [[0, 0, 4, 0]]


def test_a_mesh_is_a_body():
    sheet = drawn(lambda m: (m.add_polymesh((2, 2)), m.add_line((0, 0), (5, 0))))
    assert len(sheet.segments) == 1
    assert codes(sheet) == {"bodies-left-out"}


@pytest.mark.parametrize("kind", ["add_solid", "add_trace"])
def test_filled_shapes_give_their_edges_in_turn(kind):
    """Corners three and four stand crosswise in the file (DXF reference)."""
    sheet = drawn(lambda m: getattr(m, kind)([(0, 0), (4, 0), (0, 2), (4, 2)]))
    assert sheet.segments.ends.tolist() == [[0, 0, 4, 0], [4, 0, 4, 2], [4, 2, 0, 2], [0, 2, 0, 0]]


def test_bodies_alone_are_refused_by_name():
    sheet = drawn(lambda m: m.add_3dface([(0, 0, 0), (4, 0, 0), (4, 2, 5)]))
    (finding,) = sheet.findings
    assert (finding.code, finding.level) == ("three-d-only", "stop")
    assert "3DFACE" in finding.message


@pytest.mark.parametrize("kind", ["REGION", "3DSOLID", "BODY"])
def test_a_body_beside_a_drawing_is_named_and_left_out(kind):
    doc = blank()
    doc.modelspace().add_line((0, 0), (5, 0))
    data = bytes_of(doc).replace(b"\r\n", b"\n")
    end = data.index(b"ENDSEC", data.index(b"AcDbLine\n"))
    markers = ((100, "AcDbEntity"), (8, "0"), (100, "AcDbModelerGeometry"), (70, 1), (1, "body"))
    body = tags((0, kind), (5, "FF0"), *markers).removeprefix(b"  0\n") + b"  0\n"
    sheet = loaded(data[:end] + body + data[end:])
    assert [(f.code, f.level) for f in sheet.findings] == [("bodies-left-out", "caution")]
    assert kind in sheet.findings[0].message


def test_points_rays_and_construction_lines_draw_nothing():
    sheet = drawn(lambda m: (m.add_point((1, 1)), m.add_ray((0, 0), (1, 0)), m.add_xline((0, 0), (0, 1))))
    assert len(sheet.segments) == 0


SPLINES = {
    "a straight one": ([(0, 0), (1, 0.5), (2, 1), (4, 2)], 1),
    "a bent one": ([(0, 0), (10, 20), (20, -10), (30, 5)], 20),
}


@pytest.mark.parametrize(("control", "at_least"), SPLINES.values(), ids=SPLINES)
def test_a_spline_is_a_line_only_where_it_is_one(control, at_least):
    sheet = drawn(lambda m: m.add_open_spline(control))
    assert len(sheet.segments) >= at_least
    assert sheet.segments.sources[0].curve is (at_least > 1)


def test_a_spline_stays_within_the_stated_error():
    """Oracle: the library's own evaluation at 4,000 parameters; distance from each to the nearest chord."""
    doc = blank()
    spline = doc.modelspace().add_open_spline([(0, 0), (10, 20), (20, -10), (30, 5)])
    sheet = read_back(doc)
    curve = spline.construction_tool()
    truth = np.array([(p.x, p.y) for p in curve.points(np.linspace(0, curve.max_t, 4000))])
    a, b = sheet.segments.ends[:, :2], sheet.segments.ends[:, 2:]
    chord, arm = (b - a)[None], truth[:, None] - a[None]
    t = np.clip((arm * chord).sum(-1) / (chord**2).sum(-1), 0, 1)
    nearest = np.linalg.norm(arm - t[..., None] * chord, axis=-1).min(axis=1)
    assert nearest.max() < 2e-6 * 60


def test_a_rational_spline_that_is_a_quarter_circle_becomes_an_arc():
    """The quarter circle as a rational quadratic: weights 1, cos 45 degrees, 1 (any text on such splines)."""
    sheet = drawn(lambda m: m.add_rational_spline([(5, 0), (5, 5), (0, 5)], [1, math.sqrt(0.5), 1], degree=2))
    assert len(sheet.segments) == 1
    assert not sheet.segments.sources[0].curve
    assert sheet.segments.bulge[0] == pytest.approx(math.tan(math.pi / 8))
    np.testing.assert_allclose(radii(sheet), 5, rtol=1e-9)


@pytest.mark.parametrize(
    ("degree", "off", "drawn_as", "stop"), [(1, 0.0, 0, []), (1, 0.001, 1, []), (2, 0.001, 0, ["entity-damaged"])]
)
def test_an_edge_about_as_small_as_the_digits_that_are_written_is_what_its_points_are(degree, off, drawn_as, stop):
    """Its knots round to one value: of degree 1 it runs from point to point all the same, of another nobody can say."""

    def draw(m):
        spline = m.add_spline(degree=degree)
        spline.control_points = [(5, 5 + off, 0), (5, 5, 0), (5, 5, 0)][: degree + 1]
        spline.knots = [0.25] * (2 * degree + 2)
        m.add_line((0, 0), (10, 0))

    sheet = drawn(draw)
    assert [f.code for f in sheet.findings if f.stops] == stop
    assert len(sheet.segments) == 1 + drawn_as
    assert [[5, 5 + off, 5, 5]] * drawn_as == [row for row in sheet.segments.ends.tolist() if row[2] == 5]


def quarter(radius, off):
    """Control points of a cubic quarter turn that strays by `off` from the circle through its ends and its middle."""
    t = np.linspace(0, 1, 401)[:, None]

    def control(handle):
        return radius * np.array([[1, 0], [1, handle], [handle, 1], [0, 1]])

    def strays(handle):
        a, b, c, d = control(handle)
        run = (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t**2 * (1 - t) * c + t**3 * d
        ends = 2 * np.array([run[200] - a, d - a])
        centre = a + np.linalg.solve(ends, [(p - a) @ (p - a) for p in (run[200], d)])
        radii = np.hypot(*(run - centre).T)
        return np.abs(radii - radii.mean()).max()

    low, high = 0.5523, 0.7
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if strays(middle) < off else (low, middle)
    return control(low)


@pytest.mark.parametrize(("radius", "most"), [(8.0, splines.ARC_FIT), (0.1, 0.1 * splines.LARGEST_SLACK)])
@pytest.mark.parametrize(("share", "curve"), [(0.9, False), (1.1, True)])
def test_a_spline_fitted_to_an_arc_becomes_the_arc(radius, most, share, curve):
    """Modelling kernels fit arcs to 0.001 (measured on a CAD program's sheets); more is a curve of its own."""
    points = [(20 + x, 20 + y) for x, y in quarter(radius, most * share)]
    sheet = drawn(lambda m: m.add_open_spline(points))
    assert sheet.segments.sources[0].curve is curve
    assert (len(sheet.segments) > 1) is curve


def test_a_polygon_written_as_a_spline_of_degree_one_becomes_lines():
    sheet = drawn(lambda m: m.add_open_spline([(0, 0), (4, 0), (4, 4), (9, 4)], degree=1))
    assert [[round(v, 9) for v in row] for row in sheet.segments.ends] == [[0, 0, 4, 0], [4, 0, 4, 4], [4, 4, 9, 4]]
    assert not any(source.curve for source in sheet.segments.sources)


def test_impossible_coordinates_are_left_out_with_a_caution():
    sheet = loaded(entities(*line_tags(0, 0, 10, 0), *line_tags(0, 0, 1e300, 0), *line_tags(0, 0, math.nan, 0)))
    assert len(sheet.segments) == 1
    assert codes(sheet) == {"entity-damaged"}


@pytest.mark.parametrize(("code", "value"), [(40, "nan"), (50, "nan"), (51, "inf"), (10, "1e300"), (40, "1e308")])
def test_an_arc_with_an_impossible_number_is_left_out(code, value):
    arc = ((0, "ARC"), (8, "0"), (10, 1.0), (20, 2.0), (30, 0.0), (40, 3.0), (50, 10.0), (51, 80.0))
    changed = tuple((c, value if c == code else v) for c, v in arc)
    sheet = loaded(entities(*line_tags(0, 0, 10, 0), *changed))
    assert sheet.segments.ends.tolist() == [[0, 0, 10, 0]]
    assert codes(sheet) == {"entity-damaged"}


@pytest.mark.parametrize("missing", [10, 11, 21])
def test_a_line_that_lacks_an_end_is_damaged_not_guessed(missing):
    cut = tuple(pair for pair in line_tags(3, 4, 5, 6) if pair[0] != missing)
    sheet = loaded(entities(*line_tags(0, 0, 10, 0), *cut))
    assert [row for row in sheet.segments.ends.tolist() if row != [0, 0, 10, 0]] == []
    assert "entity-damaged" in codes(sheet)


@pytest.mark.parametrize("turn", [0.0, 0.3, math.pi / 2])
def test_turning_the_drawing_turns_every_point(turn):
    def draw(m):
        m.add_lwpolyline([(0, 0, 0.3), (4, 1, -0.7), (7, 7, 0)], format="xyb")
        m.add_arc((2, 2), 3, 20, 200)
        m.add_ellipse((0, 0), (3, 1), ratio=0.5)

    doc = blank()
    draw(doc.modelspace())
    plain = points(read_back(doc))
    matrix = Matrix44.z_rotate(turn)
    for entity in doc.modelspace():
        entity.transform(matrix)
    expected = plain @ np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    np.testing.assert_allclose(points(read_back(doc)), expected, atol=1e-9)
