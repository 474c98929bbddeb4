"""Recesses: found by levels, named by shape, measured; a sampled profile under water is the oracle."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from extractor.geometry.profile import Piece, tidy
from extractor.recess import shapes
from extractor.recess.crossings import is_cross_hole, split_holes
from extractor.recess.levels import levels, recesses
from extractor.recess.pairing import Paired, mean, pair
from extractor.recess.shapes import Measured, measure
from extractor.recess.threads import helical, split_threads
from extractor.recess.turnings import face_recesses, inside, turnings

FINE = 1e-3
Q = math.tan(math.pi / 8)


def profile(*corners):
    """A profile through (z, radius[, bulge]) corners, with end faces down to the axis."""
    closed = [(corners[0][0], 0.0), *corners, (corners[-1][0], 0.0)]
    return tidy([Piece(a[:2], b[:2], a[2] if len(a) > 2 else 0.0) for a, b in pairwise(closed)], FINE)


def found(*corners):
    line = profile(*corners)
    return [measure(line, r, FINE) for r in recesses(line, FINE)]


def one(*corners):
    (recess,) = found((0, 20), (-10, 20), *corners, (-20, 20), (-30, 20))
    return recess


def test_a_plain_shaft_and_open_steps_have_no_recess():
    assert found((0, 20), (-30, 20)) == []
    assert found((0, 10), (-5, 10), (-5, 15), (-9, 15), (-9, 12), (-20, 12)) == []


def test_the_floor_of_a_neck_names_its_grooves_from_front_to_back():
    """Grooves of 14 and 15 in a neck of 17 between lands of 20 and 19."""
    grooves = [
        (z - dz, r)
        for z, floor in ((-15, 14), (-20, 15), (-30, 14))
        for dz, r in zip((0, 0, 2, 2), (17, floor, floor, 17), strict=True)
    ]
    line = profile((0, 20), (-10, 20), (-10, 17), *grooves, (-40, 17), (-40, 19), (-50, 19))
    *_, neck = recesses(line, FINE)
    assert [line[inner.floor.first].start for inner in neck.inner] == [(-15, 14), (-20, 15), (-30, 14)]
    assert all(not level.filled for r in recesses(line, FINE) for level in (r.near, r.floor, r.far))


def test_rectangular():
    m = one((-10, 17), (-13, 17), (-13, 20))
    assert (m.shape, m.z_near, m.z_far, m.mouth, m.floor) == ("rectangular", -10, -13, 20, 17)
    assert (m.corners, m.chamfers) == ((0, 0), (0, 0))


def test_corner_radii_are_measured_on_their_arcs():
    m = one((-10, 17.4, -Q), (-10.4, 17), (-12.7, 17, -Q), (-13, 17.3), (-13, 20))
    assert (m.shape, m.z_near, m.z_far) == ("rectangular", -10, -13)
    assert m.corners == pytest.approx((0.4, 0.3))


def test_mouth_chamfers_and_rim_roundings_leave_the_walls_where_they_are():
    chamfered = one((-10.2, 19.8), (-10.2, 17), (-12.8, 17), (-12.8, 19.7), (-13.1, 20))
    assert (chamfered.shape, chamfered.z_near, chamfered.z_far) == ("rectangular", -10.2, -12.8)
    assert chamfered.chamfers == pytest.approx((0.2, 0.3))
    (rounded,) = found(
        (0, 20), (-10, 20, Q), (-10.5, 19.5), (-10.5, 17), (-12.5, 17), (-12.5, 19.5, Q), (-13, 20), (-30, 20)
    )
    assert (rounded.shape, rounded.z_near, rounded.z_far) == ("rectangular", -10.5, -12.5)
    assert rounded.chamfers == pytest.approx((0.5, 0.5))


@pytest.mark.parametrize(
    ("corners", "shape"),
    [
        (((-12, 18), (-14, 20)), "vee"),
        (((-11.5, 18.2), (-12.5, 18.2), (-14, 20)), "tapered"),
        (((-10, 18), (-12, 20)), "vee"),
        (((-10.5, 17), (-13, 17), (-13, 20)), "tapered"),
        (((-10, 19), (-10.5, 19), (-10.5, 17), (-13, 17), (-13, 20)), "rectangular"),
        (((-9, 17), (-14, 17), (-13, 20)), "other"),
    ],
)
def test_shapes_of_straight_walls(corners, shape):
    recess = found((0, 20), (-10, 20), *corners, (-30, 20))
    assert recess[-1].shape == shape


def test_round_recesses_with_and_without_walls():
    (bowl,) = found((0, 20), (-10, 20, -1.0), (-14, 20), (-30, 20))
    assert (bowl.shape, bowl.floor) == ("round", pytest.approx(18))
    assert (bowl.z_near, bowl.z_far) == pytest.approx((-10, -14))
    (slot,) = found((0, 20), (-10, 20), (-10, 18, -1.0), (-14, 18), (-14, 20), (-30, 20))
    assert (slot.shape, slot.floor, slot.z_near, slot.z_far) == ("round", pytest.approx(16), -10, -14)


def test_a_vee_with_a_small_radius_at_its_bottom_is_a_vee():
    side = 1 / math.sqrt(2)
    tip = 0.5
    a, b = (-12 + tip * side, 18 + tip), (-12 - tip * side, 18 + tip)
    (m,) = found((0, 20), (-10, 20 + 0.0), (*a, -Q), b, (-14, 20), (-30, 20))
    assert m.shape == "vee"


@pytest.mark.parametrize(("lean", "shape"), [(0.0, "rectangular"), (0.5, "relief")])
def test_a_recess_at_a_shoulder_reaches_up_to_the_lower_land(lean, shape):
    """With two radial walls and a level floor it is cut as any groove; with a sloping wall it is a relief."""
    (m,) = found((0, 20), (-10, 20), (-10 - lean, 18), (-12, 18), (-12, 25), (-30, 25))
    assert (m.shape, m.mouth, m.floor, m.z_near, m.z_far) == (shape, 20, 18, -10, -12)
    assert (m.near_land, m.far_land) == (20, 25)


def test_between_lands_of_slightly_unequal_diameter_it_is_a_groove_up_to_the_lower():
    (m,) = found((0, 20), (-10, 20), (-10, 16), (-13, 16), (-13, 19), (-30, 19))
    assert (m.shape, m.mouth, m.near_land, m.far_land) == ("rectangular", 19, 20, 19)


def test_a_groove_between_lands_of_one_height_on_stepped_diameters():
    rows = found((0, 10), (-5, 10), (-5, 8), (-7, 8), (-7, 10), (-9, 10), (-9, 15), (-20, 15))
    assert [(m.shape, m.mouth) for m in rows] == [("rectangular", 10)]


def test_a_neck_without_inner_grooves_is_a_groove():
    (m,) = found((0, 20), (-10, 20), (-10, 19), (-23, 19), (-23, 20), (-40, 20))
    assert (m.shape, m.z_near - m.z_far) == ("rectangular", 13)


def test_a_neck_with_inner_grooves_comes_after_them():
    rows = found(
        (0, 20), (-10, 20), (-10, 18), (-13, 18), (-13, 16), (-15, 16), (-15, 18), (-30, 18), (-30, 20), (-40, 20)
    )
    assert [(m.shape, m.inner) for m in rows] == [("rectangular", 0), ("rectangular", 1)]
    assert (rows[1].z_near, rows[1].z_far, rows[1].mouth) == (-10, -30, 20)


def test_levels_are_lands_floors_and_turning_points():
    line = profile((0, 20), (-10, 20), (-12, 18), (-14, 20), (-20, 20))
    assert [level.radius for level in levels(line, FINE)] == [0, 20, 18, 20, 0]


def test_a_groove_in_a_cone_is_measured_up_to_its_lower_rim():
    (m,) = found((0, 10), (-10, 11), (-10, 9), (-12, 9), (-12, 11.2), (-40, 14))
    assert (m.shape, m.mouth) == ("rectangular", pytest.approx(11))
    assert (m.near_land, m.far_land) == pytest.approx((11, 11.2))


@pytest.mark.parametrize(("shift", "rims"), [(0.0, (0, 0)), (0.6 * FINE, (0, 0)), (0.8 * FINE, (0, 6))])
def test_a_wide_groove_in_a_cone_has_no_broken_edge(shift, rims):
    """The line beside one mouth, 6 long, runs on to the other, 3 off, within FINE; moved at its foot, by half more."""
    (m,) = found((0, 15), (-8, 15), (-11, 16.5), (-11, 13.5), (-14, 13.5), (-14, 18 + shift), (-20, 21), (-30, 21))
    assert (m.shape, m.chamfers) == ("rectangular", pytest.approx(rims))


@pytest.mark.parametrize(
    ("run", "rise", "rim"),
    [
        (16.0, 6.0, 0.0),  # a cone of its own, on no line with that before the groove
        (12.1, 6.0, 0.0),  # longer than four times its wall, 3 high
        (11.9, 6.0, 11.9),
        (13.0, 13.0, 13.0),  # a chamfer at 45 degrees, however large
    ],
)
def test_a_long_cone_beside_a_groove_breaks_no_edge_where_the_lands_are_unlike(run, rise, rim):
    line = ((0, 13), (-30, 13), (-41, 17), (-41, 15), (-44, 15), (-44, 18), (-44 - run, 18 + rise), (-80, 18 + rise))
    (m,) = (m for m in found(*line) if m.width == pytest.approx(3.0))
    assert (m.mouth, max(m.chamfers)) == (pytest.approx(17), pytest.approx(rim))


@pytest.mark.parametrize(("foot", "lands"), [(20 - FINE / 2, (20, 20 - FINE / 2)), (20 - 2 * FINE, (20, 20.5))])
def test_a_cone_that_begins_below_the_mouth_lies_in_the_recess(foot, lands):
    """What lies between the cone and the mouth would else be nobody's: it is no land, and no groove reaches it."""
    (m,) = found((0, 20), (-10, 20), (-10, 18), (-14, 18), (-14, foot), (-22, 20.5), (-40, 20.5))
    assert (m.near_land, m.far_land, m.mouth) == pytest.approx((*lands, min(lands)), abs=1e-12)


heights = st.lists(st.integers(1, 12), min_size=3, max_size=12)


@settings(max_examples=150)
@given(heights)
def test_everything_under_water_lies_in_a_recess_and_nothing_else(steps):
    corners = [c for k, r in enumerate(steps) for c in ((-float(k), float(r)), (-float(k + 1), float(r)))]
    rows = [m for m in found(*corners) if m]
    for k, r in enumerate(steps):
        wet = r < min(max(steps[: k + 1]), max(steps[k:]))
        held = any(m.z_near >= -k - 0.5 >= m.z_far and m.floor <= r for m in rows)
        assert wet == held


def teeth(count, pitch=1.5, depth=0.9, land=0.0, r=10.0):
    """A row of vees with narrow lands between."""
    corners = [(0.0, r), (-5.0, r)]
    for k in range(count):
        z = -5 - k * pitch
        corners += [(z - (pitch - land) / 2, r - depth), (z - pitch + land, r), (z - pitch, r)]
    return [*corners, (-5 - count * pitch - 5, r)]


def test_eighteen_teeth_are_one_thread():
    kept, threads = split_threads(found(*teeth(18)), FINE)
    assert kept == ()
    assert [(t.count, round(t.pitch, 6)) for t in threads] == [(18, 1.5)]


def test_vee_belt_grooves_and_two_vees_are_no_thread():
    belt = found(*teeth(5, pitch=5.0, depth=5.0, land=1.4))
    assert split_threads(belt, FINE) == (tuple(belt), ())
    pair_of_vees = found(*teeth(2))
    assert split_threads(pair_of_vees, FINE)[1] == ()


def trapezes(count, pitch, crest, root, depth, r=40.0):
    """A row of recesses with sloping walls over a level floor, lands of one width between."""
    corners = [(0.0, r), (-5.0, r)]
    flank = (pitch - crest - root) / 2
    for k in range(count):
        z = -5 - k * pitch
        corners += [(z - flank, r - depth), (z - flank - root, r - depth), (z - pitch + crest, r), (z - pitch, r)]
    return [*corners, (-5 - count * pitch - 5, r)]


@pytest.mark.parametrize("pitch", [0.5, 1.5, 6.0])
def test_the_basic_profile_of_a_metric_thread_is_one(pitch):
    """ISO 68-1: crest an eighth of the pitch, root a quarter, depth 5/8 of H, H = pitch * sqrt(3) / 2."""
    deep = 5 / 8 * math.sqrt(3) / 2 * pitch
    kept, (thread,) = split_threads(found(*trapezes(12, pitch, pitch / 8, pitch / 4, deep)), FINE)
    assert kept == ()
    assert (thread.count, thread.pitch) == (12, pytest.approx(pitch))


@pytest.mark.parametrize(("top", "deep", "pitch", "lean"), [(9.7, 11, 12, 17), (12.7, 14, 15, 17), (16.3, 18, 19, 19)])
def test_grooves_of_a_belt_pulley_with_narrow_lands_are_none(top, deep, pitch, lean):
    """Widths, depths and distances like those of belt pulleys (common practice, no source; from memory)."""
    root = top - 2 * deep * math.tan(math.radians(lean))
    row = found(*trapezes(5, pitch, pitch - top, root, deep))
    assert len(row) == 5
    assert split_threads(row, FINE) == (tuple(row), ())


def test_even_rectangular_grooves_are_no_thread():
    corners = [(0.0, 10.0)]
    for k in range(8):
        corners += [(-2.0 - 2 * k, 10.0), (-2.0 - 2 * k, 9.0), (-3.0 - 2 * k, 9.0), (-3.0 - 2 * k, 10.0)]
    row = found(*corners, (-40.0, 10.0))
    assert split_threads(row, FINE) == (tuple(row), ())


def groove(z=-10.0, width=3.0, floor=17.0, shape="rectangular", **more):
    return Measured(
        shape=shape, z_near=z, z_far=z - width, mouth=20.0, floor=floor, near_land=20.0, far_land=20.0, **more
    )


def test_halves_are_paired_and_averaged():
    paired = pair([groove(), groove(-20)], [groove(-10.002, floor=17.002), groove(-20)], 0.01, 0.01)
    assert paired.single == ()
    assert paired.both[0].z_near == pytest.approx(-10.001)
    assert paired.both[0].floor == pytest.approx(17.001)


def test_what_one_half_shows_alone_is_single():
    paired = pair([groove(), groove(-20)], [groove()], 0.01, 0.01)
    assert (len(paired.both), paired.single) == (1, (groove(-20),))


def test_two_shapes_at_one_place_clash_and_one_without_a_name_gives_way():
    vee, round_, other = (groove(shape=shape) for shape in ("vee", "round", "other"))
    assert pair([groove()], [vee], 0.01, 0.01) == Paired((), (), clashing=((groove(), vee),))
    assert pair([round_], [vee], 0.01, 0.01).clashing == ((round_, vee),)
    for one, two in ((round_, other), (other, round_)):
        assert pair([one], [two], 0.01, 0.01) == Paired((round_,), (), unlike=(round_,))
    assert pair([groove(-9.0)], [vee], 0.01, 0.01).crossing == ((groove(-9.0), vee),)
    apart = pair([groove(-9.0)], [groove(-12.0)], 0.01, 0.01)
    assert (len(apart.single), apart.crossing) == (2, ())


def test_the_mean_takes_the_smaller_corner_and_the_larger_chamfer():
    m = mean(groove(corners=(0.4, 0.4), chamfers=(0.1, 0.1)), groove(corners=(0.2, 0.4), chamfers=(0.3, 0.1)))
    assert (m.corners, m.chamfers) == ((0.2, 0.4), (0.3, 0.1))


def test_recesses_that_interleave_on_both_sides_are_a_helix():
    up, down = [groove(-10.0 - 4 * k, 2) for k in range(3)], [groove(-12.0 - 4 * k, 2) for k in range(3)]
    assert helical(up, down, FINE)
    assert not helical(up[:1], down, FINE)
    assert not helical(up, [groove(-12.0, 3.0), groove(-16.0, 2.0)], FINE)


@pytest.mark.parametrize(("apart", "wound"), [(0.98, False), (1.02, True), (2.98, True), (3.02, False), (0.5, False)])
def test_grooves_that_two_halves_show_a_little_apart_are_no_helix(apart, wound):
    """Of a pitch of 4 those of a helix stand between one quarter and three, on either side of the others."""
    up = [groove(-20.0 - 4 * k, 2) for k in range(3)]
    for way in (1, -1):
        assert helical(up, [groove(-20.0 + way * apart - 4 * k, 2) for k in range(3)], FINE) is wound


@pytest.mark.parametrize(("radius", "hole"), [(10.0, 1.5), (20.65, 1.6), (8.0, 4.0)])
def test_a_cross_hole_is_known_by_its_depth(radius, hole):
    dip = radius - math.sqrt(radius**2 - hole**2)
    made = Measured(
        shape="round", z_near=hole, z_far=-hole, mouth=radius, floor=radius - dip, near_land=radius, far_land=radius
    )
    deeper = Measured(
        shape="round",
        z_near=hole,
        z_far=-hole,
        mouth=radius,
        floor=radius - 1.3 * dip,
        near_land=radius,
        far_land=radius,
    )
    assert is_cross_hole(made, 1e-4)
    assert not is_cross_hole(deeper, 1e-4)
    assert split_holes([made, deeper], 1e-4)[1] == (made,)


def test_a_bore_is_searched_inside_out():
    bore = [Piece((0, 8), (-5, 8)), Piece((-5, 8), (-5, 9)), Piece((-5, 9), (-7, 9)), Piece((-7, 9), (-7, 8))]
    (m,) = inside([*bore, Piece((-7, 8), (-20, 8))], FINE)
    assert (m.shape, m.z_near, m.z_far, m.mouth, m.floor) == ("rectangular", -5, -7, 8, 9)


def test_a_groove_between_two_places_as_wide_as_the_part_is_in_no_face():
    outside = [(0, 0), (0, 20), (-10, 20), (-10, 15), (-13, 15), (-13, 20), (-30, 20)]
    behind = [(-30, 15), (-28, 15), (-28, 12), (-30, 12), (-30, 0)]
    turned = turnings(tuple(Piece(a, b) for a, b in pairwise([*outside, *behind])), FINE)
    (back,) = face_recesses(turned, FINE)
    assert (back.z_face, back.z_floor, back.outer, back.inner) == (-30, -28, 15, 12)
    assert [r.mouth for r in turned.recesses] == [20]


def test_grooves_in_both_end_faces():
    corners = [
        (0, 0),
        (0, 10),
        (-2, 10),
        (-2, 13),
        (0, 13),
        (0, 20),
        (-30, 20),
        (-30, 15),
        (-28, 15),
        (-28, 12),
        (-30, 12),
        (-30, 0),
    ]
    turned = turnings(tuple(Piece(a, b) for a, b in pairwise(corners)), FINE)
    front, back = face_recesses(turned, FINE)
    assert (front.shape, front.z_face, front.z_floor, front.outer, front.inner) == ("rectangular", 0, -2, 13, 10)
    assert (back.z_face, back.z_floor, back.outer, back.inner) == (-30, -28, 15, 12)
    assert turned.recesses == ()


def test_where_no_lands_are_of_one_height_a_steep_line_above_a_wall_is_no_land():
    near = [Piece((0.0, 0.0), (0.0, 1.0)), Piece((0.0, 1.0), (3.0, 2.0))]
    far = [Piece((1.0, 0.0), (1.0, 5.0))]
    assert [side.land for side in shapes._level(near, far, 1.0, 1e-3)] == [2.0, 5.0]
