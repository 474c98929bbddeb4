"""Hatch boundaries are kept as segments of their own kind, whichever way they are stored."""

import math

import ezdxf
import numpy as np
import pytest
from ezdxf.math import Matrix44
from support.sheets import drawn, points

from extractor.opening.hatches import hatch_lean

RECTANGLE = [(0, 0), (4, 0), (4, 2), (0, 2)]


def hatched(fill, **attributes):
    """The sheet of one hatch."""

    def draw(m):
        hatch = m.add_hatch(dxfattribs=attributes)
        fill(hatch.paths)

    return drawn(draw)


def test_a_polyline_boundary():
    sheet = hatched(lambda paths: paths.add_polyline_path(RECTANGLE))
    assert sheet.segments.ends.tolist() == [[0, 0, 4, 0], [4, 0, 4, 2], [4, 2, 0, 2], [0, 2, 0, 0]]
    assert {(s.kind, s.owner) for s in sheet.segments.sources} == {("HATCH", "HATCH")}


def test_bulges_of_a_polyline_boundary():
    sheet = hatched(lambda paths: paths.add_polyline_path([(0, 0, 1), (4, 0, 0), (4, 2, 0)]))
    assert sheet.segments.bulge.tolist() == [1, 0, 0]


def test_edges_of_every_kind():
    def fill(paths):
        path = paths.add_edge_path()
        path.add_line((0, 0), (4, 0))
        path.add_arc((4, 2), 2, start_angle=-90, end_angle=90)
        path.add_ellipse((2, 4), (2, 0), ratio=0.5, start_angle=0, end_angle=180)
        path.add_spline(
            control_points=[(0, 4), (-1, 3), (-1, 1), (0, 0)], degree=3, knot_values=[0, 0, 0, 0, 1, 1, 1, 1]
        )

    sheet = hatched(fill)
    on = points(sheet)
    assert sheet.segments.ends[0].tolist() == [0, 0, 4, 0]
    assert on[:, 0].max() == pytest.approx(6)
    assert on[:, 1].max() == pytest.approx(5, abs=1e-4)
    assert on[:, 0].min() == pytest.approx(-0.75, abs=1e-4)


@pytest.mark.parametrize("ccw", [True, False])
def test_arc_edges_run_either_way_round(ccw):
    """Held counter-clockwise by the library; a quarter from 20 to 110 degrees either way."""
    sheet = hatched(lambda paths: paths.add_edge_path().add_arc((0, 0), 5, start_angle=20, end_angle=110, ccw=ccw))
    angles = np.degrees(np.arctan2(*points(sheet).T[::-1]))
    assert (angles.min(), angles.max()) == (pytest.approx(20), pytest.approx(110))
    np.testing.assert_allclose(np.hypot(*points(sheet).T), 5)


def test_a_hatch_seen_from_behind_is_mirrored():
    sheet = hatched(lambda paths: paths.add_polyline_path(RECTANGLE), extrusion=(0, 0, -1))
    assert points(sheet)[:, 0].min() == -4
    assert points(sheet)[:, 0].max() == 0


def test_a_full_circle_edge_is_a_circle():
    sheet = hatched(lambda paths: paths.add_edge_path().add_arc((1, 1), 2, start_angle=0, end_angle=360))
    assert [(c.radius, c.source.owner) for c in sheet.circles] == [(2.0, "HATCH")]
    assert math.isclose(sheet.circles[0].centre[0], 1)


def test_the_pattern_inside_is_not_drawn():
    def draw(m):
        m.add_hatch().paths.add_polyline_path(RECTANGLE)
        m[0].set_pattern_fill("ANSI31", scale=0.1)

    assert len(drawn(draw).segments) == 4


@pytest.mark.parametrize(
    ("angles", "turn", "lean"),
    [
        ((45,), 0, 45),
        ((45, 225.05), 0, 45),
        ((45, 45.2), 0, None),
        ((45, 135), 0, None),
        ((170,), 30, 20),
        ((), 0, None),
    ],
)
def test_a_hatch_keeps_which_way_its_lines_run(angles, turn, lean):
    """The angle of a pattern's line counts from the sheet's own x (DXF reference, group code 53, from memory)."""
    hatch = ezdxf.new().modelspace().add_hatch()
    if angles:
        hatch.set_pattern_fill("ANSI31", definition=[[a, (0, 0), (0, 3), []] for a in angles])
    told = hatch_lean(hatch, Matrix44.z_rotate(math.radians(turn)))
    assert told is None if lean is None else math.degrees(told) == pytest.approx(lean, abs=1e-6)
