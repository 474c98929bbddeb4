"""What lies on a sheet beside the outline: hatching, loose dimensions, centre lines, clusters, views."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from support.draw import (
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
)

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.recess.journals import is_journal
from extractor.recess.shapes import Measured
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.viewing.apart import apart
from extractor.viewing.axis import Axis, centre_lines, dimensioned_axes, direction_of
from extractor.viewing.clusters import prepare as prepared
from extractor.viewing.evidence import says_diameter, weigh
from extractor.viewing.hatching import hatch_shapes, is_hatched, loose_hatching
from extractor.viewing.roles import assign
from extractor.viewing.symmetry import symmetry_axes
from extractor.viewing.views import standing, views


def prepare(sheet):
    return prepared(assign(sheet), sheet.segments)


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


FRAME = [(0, 0, 40, 0), (40, 0, 40, 20), (40, 20, 0, 20), (0, 20, 0, 0)]


def test_evenly_spaced_slanting_lines_that_end_on_others_are_hatching():
    lines = [(4 * k + 1, 0, 4 * k + 11, 10, 0) for k in range(7)]
    assert loose_hatching(strokes(*FRAME, *lines), 1e-6) == frozenset(range(4, 11))


def test_walls_of_vees_are_no_hatching():
    zigzag = [(4.0 * k + x, y) for k in range(8) for x, y in ((0, 20.0), (2, 16.0))]
    rows = [(*a, *b) for a, b in pairwise(zigzag)]
    assert loose_hatching(strokes(*FRAME, *rows), 1e-6) == frozenset()


def test_three_lines_uneven_lines_and_upright_lines_are_no_hatching():
    assert loose_hatching(strokes(*FRAME, *[(k, 0, k + 10, 10) for k in (1, 5, 9)]), 1e-6) == frozenset()
    assert loose_hatching(strokes(*FRAME, *[(k, 0, k + 5, 5) for k in (1, 2, 6.3, 17.1, 19.9)]), 1e-6) == frozenset()
    assert loose_hatching(strokes(*FRAME, *[(k, 0, k, 20) for k in range(1, 9)]), 1e-6) == frozenset()


@pytest.mark.parametrize(("x", "hatched"), [(26.0, True), (26.5, False)])
def test_a_piece_at_a_corner_may_stand_beside_another_such_piece_alone(x, hatched):
    """A corner of a section cuts off a hatch line, another one the next; the short one has no whole line beside it."""
    row = [(k, 0, k + 10, 10) for k in (4, 7, 10, 13)]
    corners = [(16, 0, 16, -5), (16, 0, 20, 0), (x + 0.5, 7.5, 40, 7.5), (x + 0.5, 7.5, x + 0.5, 0)]
    drawn = strokes((0, -5, 60, -5), (0, -5, 0, 20), *corners, *row, (16, 0, 27, 11), (x + 0.5, 7.5, x + 1.5, 8.5))
    assert loose_hatching(drawn, 1e-6) == frozenset([*range(6, 11), *([11] if hatched else [])])


def test_what_is_hatched_is_told_by_polygon_or_by_lines():
    face = shapely.box(0, 0, 10, 10)
    assert is_hatched(face, [shapely.box(-5, -5, 20, 20)])
    lines = [shapely.LineString([(k, 0), (k + 3, 3)]) for k in range(4)]
    assert is_hatched(face, lines)
    assert not is_hatched(face, lines[:2])
    assert hatch_shapes(sheet_of(Ink(solid=[(0, 0, 1, 1, 0)])).segments, frozenset({0}))[0].geom_type == "LineString"


@pytest.mark.parametrize(("from_edge", "hatched"), [(0.0, True), (0.24, True), (0.26, False), (2.0, False)])
def test_a_narrow_face_is_hatched_by_lines_that_run_right_across_it(from_edge, hatched):
    """A band 2 high; at 45 degrees a line that ends 0.248 below its edge ends a tenth of its piece, 2.48, off that."""
    band, ends = shapely.box(0, 10, 40, 12), 12 - from_edge
    lines = [shapely.LineString([(k, 0), (k + ends, ends)]) for k in (2, 6, 10)]
    assert is_hatched(band, lines) is hatched
    assert not is_hatched(band, lines[:2])


def test_a_dimension_drawn_as_lines_is_known_by_its_number():
    part = [(0, 0, 40, 0, 0), (0, 0, 0, -20, 0), (40, 0, 40, -20, 0), (0, -20, 40, -20, 0)]
    ink = Ink(solid=[(0, 0, 0, 30, 0), (40, 0, 40, 30, 0), (0, 30, 40, 30, 0), *part])
    sheet = sheet_of(ink, texts=(Text("40", (20, 31), 3.0),))
    assert assign(sheet).aside == {0, 1, 2}
    other = sheet_of(ink, texts=(Text("41", (20, 31), 3.0),))
    assert assign(other).aside == frozenset()


def test_lines_that_others_hang_on_are_no_dimension_whatever_number_stands_beside():
    """The top and the sides of a rectangle: without them its bottom would end in the air."""
    ink = Ink(solid=[(0, 0, 0, 30, 0), (40, 0, 40, 30, 0), (0, 30, 40, 30, 0), (0, 0, 40, 0, 0)])
    sheet = sheet_of(ink, texts=(Text("40", (20, 31), 3.0),))
    assert assign(sheet).told.pieces == ()


def test_pieces_of_a_centre_line_are_one_line_longest_first():
    ink = Ink(centre=[(0, 0, 10, 0, 0), (14, 0, 30, 0, 0), (5, -4, 5, 4, 0)])
    lines = centre_lines(sheet_of(ink).segments, 100.0)
    assert len(lines) == 2
    assert lines[0].marked
    assert lines[0].drawn_within(-22, 8) == pytest.approx(26 / 30)


def test_a_diameter_dimension_has_the_axis_in_its_middle():
    dims = (
        Dimension(DimensionKind.LINEAR, ((3.0, 20.0), (8.0, -10.0)), 90.0, 30.0, "Ø30"),
        Dimension(DimensionKind.LINEAR, ((0.0, 0.0), (9.0, 0.0)), 0.0, 9.0, "9"),
    )
    (axis,) = dimensioned_axes(dims, says_diameter)
    assert axis.stated
    assert axis.direction == pytest.approx((1.0, 0.0))
    assert axis.fold(np.array([(0.0, 5.0)]))[0, 1] == pytest.approx(0.0)


@pytest.mark.parametrize(
    ("line", "stated"),
    [
        ((0.0, 0.0, 60.0, 0.0), 0),
        ((0.0, 50.0, 60.0, 50.0), 0),
        ((0.0, 9.5e-4, 60.0, 9.5e-4), 0),
        ((0.0, 1.05e-3, 60.0, 1.05e-3), 1),
        ((0.0, 25.0, 60.0, 25.0), 1),
        ((10.0, -5.0, 10.0, 60.0), 1),
    ],
)
@pytest.mark.parametrize("turned", [False, True])
def test_half_a_diameter_from_a_centre_line_has_no_axis_in_its_middle(line, stated, turned):
    """Within two hundred-thousandths of its length of 50, at either end; along the axis that it implies."""
    ends = ((10.0, 50.0), (10.0, 0.0))
    half = Dimension(DimensionKind.LINEAR, ends[::-1] if turned else ends, 90.0, 50.0, "Ø100")
    centres = centre_lines(sheet_of(Ink(centre=[(*line, 0.0)])).segments, 100.0)
    assert len(dimensioned_axes([half], says_diameter, centres)) == stated


@pytest.mark.parametrize(("text", "codes"), [("Ø100", []), ("Ø98", ["dimension-contradicts"])])
def test_a_ring_s_cut_face_over_its_centre_line_is_dimensioned_from_there(text, codes):
    ink = Ink(centre=[(-5.0, 0.0, 35.0, 0.0, 0.0)])
    top = [(0.0, 30.0), (30.0, 30.0), (30.0, 50.0), (12.0, 50.0), (12.0, 47.0), (8.0, 47.0), (8.0, 50.0), (0.0, 50.0)]
    ink.chain([(x, y, 0.0) for x, y in top], close=True)
    half = Dimension(DimensionKind.LINEAR, ((20.0, 0.0), (20.0, 50.0)), 90.0, 50.0, text)
    reading = read_sheet(sheet_of(ink, dimensions=(half,)), ReadOptions(units="mm"))
    assert [f.code for f in reading.findings if f.stops] == codes
    assert [g.floor_diameter for g in reading.part.grooves] == [94.0]


@pytest.mark.parametrize("text", ["Ø40", "%%c40", "⌀ 12 h7", "40 dia", "DIA. 12", "Ø<>"])
def test_signs_of_a_diameter(text):
    assert says_diameter(text)


@pytest.mark.parametrize("text", ["40", "R5", "M20", "diagonal", ""])
def test_no_signs_of_a_diameter(text):
    assert not says_diameter(text)


def test_mirroring_twice_changes_nothing():
    axis = Axis((3.0, 4.0), direction_of((0, 0), (2, 1)))
    points = np.array([(1.0, 2.0), (-7.0, 3.0)])
    assert np.allclose(axis.mirror(axis.mirror(points)), points)
    assert axis.unfold(*axis.fold(points)[0]) == pytest.approx((1.0, 2.0))
    assert axis.angle_to((-0.5, 1.0)) == pytest.approx(math.pi / 2)
    assert axis.angle_to((-2.0, -1.0)) == pytest.approx(0.0)


def seen(ink, **more):
    sheet = sheet_of(ink, **more)
    made = prepare(sheet)
    centres = centre_lines(sheet.segments, made.size)
    return sheet, made, centres, apart(views(made, centres))


@pytest.mark.parametrize(
    ("style", "halves"), [(full_outline, "both"), (side_view, "both"), (section, "both"), (half_profile, "up")]
)
def test_each_style_makes_one_view(style, halves):
    part = shaft(bore=10.0) if style is section else shaft()
    _, _, _, found = seen(style(part))
    assert [(v.halves, round(v.high - v.low, 6), round(v.reach, 6)) for v in found] == [(halves, 60.0, 20.0)]
    assert found[0].covers((-30.0, 10.0))
    assert not found[0].covers((-30.0, 25.0))


def test_a_marked_axis_ranks_before_symmetry_alone():
    _, _, _, marked = seen(full_outline(shaft()))
    _, _, _, bare = seen(full_outline(shaft(), None))
    assert standing(marked[0]).figure > standing(bare[0]).figure


@pytest.mark.parametrize(("turn", "along"), [(0.0, (1.0, 0.0)), (36.869898, (0.8, 0.6))])
def test_symmetry_axes_of_a_plain_box_are_its_middle_lines(turn, along):
    made = prepare(sheet_of(box(0, 0, 40, 20), move=rotated(turn)))
    middles = {tuple(round(abs(x), 6) for x in a.direction) for a in symmetry_axes(made, [0], 0.75)}
    assert middles == {along, along[::-1]}


def test_evidence_is_told_in_words():
    sheet, made, centres, (view, *_) = seen(side_view(shaft()))
    evidence = weigh(sheet, made, view, centres)
    assert evidence.turned
    assert evidence.words == "a centre line, edge lines right across"
    sheet, made, centres, (view, *_) = seen(full_outline(shaft(), None))
    assert weigh(sheet, made, view, centres).words == "symmetry alone"


def test_a_plain_rectangle_is_known_at_any_angle():
    turn = math.radians(30)
    tilted = box(0, 0, 40, 20).map(
        lambda x, y: (x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn))
    )
    assert prepare(sheet_of(tilted)).clusters[0].plain
    assert not prepare(sheet_of(full_outline(shaft()))).clusters[0].plain


def test_clusters_are_largest_first_and_letters_come_last():
    made = prepare(sheet_of(mixed(full_outline(shaft()), box(0, 0, 1, 1).map(shifted(50, 50)))))
    assert [round(c.diagonal, 3) for c in made.clusters] == [round(math.hypot(60, 40), 3), round(math.sqrt(2), 3)]


def valley(width, depth, near=20.0, far=20.0, inner=0):
    low = min(near, far)
    return Measured(
        shape="rectangular",
        z_near=0.0,
        z_far=-width,
        mouth=low,
        floor=low - depth,
        near_land=near,
        far_land=far,
        inner=inner,
    )


@pytest.mark.parametrize(
    ("m", "units", "journal"),
    [
        (valley(16.1, 1.0), "mm", True),
        (valley(15.9, 1.0), "mm", False),
        (valley(17.0, 5.0), "mm", False),
        (valley(6.1, 1.0, far=25.0), "mm", True),
        (valley(5.9, 1.0, far=25.0), "mm", False),
        (valley(7.0, 3.0, far=25.0), "mm", False),
        (valley(0.64, 0.1), "in", True),
        (valley(0.62, 0.1), "in", False),
        (valley(16.1, 1.0, inner=1), "mm", True),
        (valley(15.9, 1.0, inner=1), "mm", False),
    ],
)
def test_journals_by_width_and_depth(m, units, journal):
    assert is_journal(m, units, 1.0) == journal


def test_a_view_drawn_double_size_is_judged_at_its_true_size():
    assert not is_journal(valley(20.0, 1.0), "mm", 2.0)


def test_a_bore_makes_a_section_of_two_halves():
    sheet, made, centres, (view, *_) = seen(section(Turned(((60.0, 40.0),), bore=12.0)))
    assert "a section in two halves" in weigh(sheet, made, view, centres).strong
