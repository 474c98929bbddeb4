"""Each threshold of shape, just inside and just outside, on pieces laid down by the geometry in its sentence."""

import math
from itertools import pairwise

import pytest

from extractor.geometry import curves, profile
from extractor.geometry.profile import Piece, joined, sharpen, tidy
from extractor.recess import crossings, journals, shapes, threads, turnings
from extractor.recess.shapes import Measured

FINE = 1e-3
INSIDE, OUTSIDE = 0.97, 1.03
"""Shares of a threshold that are plainly on one side of it; chords and roots move it by less."""


def through(*corners, curve=False):
    """Straight pieces through corners."""
    return [Piece(a, b, 0.0, curve) for a, b in pairwise(corners)]


def on_circle(radius, angles):
    """Corners on a circle about the origin, in radians."""
    return [(radius * math.cos(a), radius * math.sin(a)) for a in angles]


def arcs(pieces, fine=FINE):
    """How many of the pieces became arcs."""
    return sum(p.bulge != 0 for p in curves.rounded(pieces, fine))


def corner_of_three(ratio):
    """A level line, three chords about a quarter circle with the middle one `ratio` times as long, and a wall."""
    directions = [math.pi - k * math.pi / 6 for k in (0.5, 1.5, 2.5)]
    corners = [(10.0, 0.0), (0.0, 0.0)]
    for direction, size in zip(directions, (1.0, ratio, 1.0), strict=True):
        x, y = corners[-1]
        corners.append((x + size * math.cos(direction), y + size * math.sin(direction)))
    x, y = corners[-1]
    return through(*corners, (x, y + 10.0))


@pytest.mark.parametrize(("share", "count"), [(INSIDE, 1), (OUTSIDE, 0)])
def test_chords_of_a_corner_are_even(share, count):
    assert arcs(corner_of_three(1 + (curves.EVEN_SIZE - 1) * share)) == count


@pytest.mark.parametrize(("share", "count"), [(0.85, 1), (1.15, 0)])
def test_corners_may_miss_the_circle_by_a_share_of_the_sagitta(share, count):
    """Corners in turn outside and inside a circle, by as much; one fitted to nine misses by a ninth more."""
    radius, step = 100.0, math.radians(20)
    sagitta = radius * (1 - math.cos(step / 2))
    off = curves.OFF_CIRCLE * sagitta * share
    corners = [on_circle(radius + off * (-1) ** k, [k * step])[0] for k in range(9)]
    assert arcs(through(*corners, curve=True), fine=1e-9) == count


@pytest.mark.parametrize(("share", "count"), [(INSIDE, 1), (OUTSIDE, 0)])
def test_a_chord_is_no_longer_than_so_many_radii(share, count):
    """The turn at corners is held lower, so the long chord lies between short ones: chord 2 r sin(a / 2)."""
    long = 2 * math.asin(curves.CHORD * share / 2)
    small = math.radians(20)
    angles = [0.0, small, 2 * small, 2 * small + long, 3 * small + long, 4 * small + long]
    assert arcs(through(*on_circle(5.0, angles), curve=True)) == count


@pytest.mark.parametrize(("share", "whole"), [(INSIDE, True), (OUTSIDE, False)])
def test_nearly_a_whole_circle_is_not_one_arc(share, whole):
    sweep = curves.MOST_SWEEP * share
    found = curves.rounded(through(*on_circle(5.0, [k * sweep / 40 for k in range(41)]), curve=True), FINE)
    assert (len(found) == 1) is whole


@pytest.mark.parametrize(("share", "count"), [(0.5, 0), (2.0, 1)])
def test_lines_that_go_straight_on_are_no_chords(share, count):
    step = curves.STRAIGHT_ON * share
    assert arcs(through(*on_circle(1e6, [k * step for k in range(8)])), fine=1e-9) == count


@pytest.mark.parametrize(("share", "count"), [(INSIDE, 1), (OUTSIDE, 2)])
def test_two_arcs_that_make_nearly_a_circle_stay_two(share, count):
    half = profile.MOST_ARC * share / 2
    a, b, c = on_circle(5.0, [0.0, half, 2 * half])
    bulge = math.tan(half / 4)
    assert len(joined([Piece(a, b, bulge), Piece(b, c, bulge)], FINE)) == count


@pytest.mark.parametrize(("share", "count"), [(0.9, 1), (1.1, 2)])
def test_a_speck_is_no_piece(share, count):
    speck = FINE * profile.SPECK * share
    assert len(joined(through((0.0, 0.0), (-1.0, 0.0), (-1.0, speck)), FINE)) == count


@pytest.mark.parametrize(("share", "count"), [(0.9, 1), (1.1, 2)])
def test_an_arc_that_ends_just_behind_its_top_is_not_split_there(share, count):
    """From the top on an arc of radius r falls by r a^2 / 2 over the angle a."""
    radius = 10.0
    past = math.sqrt(profile.LEAST_RISE * FINE / radius) * share
    start, end = math.pi / 6, math.pi / 2 + past
    a, b = on_circle(radius, [start, end])
    assert len(tidy([Piece(a, b, math.tan((end - start) / 4))], FINE)) == count


@pytest.mark.parametrize(("share", "moved"), [(INSIDE, False), (OUTSIDE, True)])
def test_lines_near_to_parallel_keep_their_corner(share, moved):
    lean = math.asin(profile.FIVE_DEGREES) * share
    slope = math.tan(lean)
    drawn = [*through((0.0, 0.0), (-10.0, 0.0)), Piece((-10.0, 0.01), (-20.0, 0.01 + 10 * slope))]
    snapped = through((0.0, 0.0), (-10.0, 0.005), (-20.0, 0.01 + 10 * slope))
    assert (sharpen(snapped, drawn, 1.0)[0].end != (-10.0, 0.005)) is moved


def hole(half, depth, mouth=10.0):
    """A recess with round walls, `half` its half width."""
    return Measured(
        shape="round", z_near=half, z_far=-half, near_land=mouth, far_land=mouth, mouth=mouth, floor=mouth - depth
    )


@pytest.mark.parametrize("half", [1.5, 5.0])
@pytest.mark.parametrize(("share", "is_hole"), [(INSIDE, True), (OUTSIDE, False)])
def test_a_cross_hole_is_as_deep_as_its_width_asks(half, share, is_hole):
    depth = 10.0 - math.sqrt(100.0 - half * half)
    for sign in (1, -1):
        found = hole(half, depth * (1 + sign * crossings.LIKE_HOLE * share))
        assert crossings.is_cross_hole(found, 1e-9) is is_hole


@pytest.mark.parametrize(("share", "is_hole"), [(0.99, True), (1.01, False)])
def test_a_hole_that_would_part_the_piece_is_none(share, is_hole):
    half = 10.0 * crossings.WIDE_HOLE * share
    assert crossings.is_cross_hole(hole(half, 10.0 - math.sqrt(100.0 - half * half)), 1e-9) is is_hole


def tooth(z, width=2.0, depth=1.732, mouth=10.0):
    """One gap between teeth at 60 degrees (ISO 68-1), its near end at z."""
    middle = z - width / 2
    return Measured(
        shape="vee", z_near=z, z_far=z - width, near_land=mouth, far_land=mouth, mouth=mouth, floor=mouth - depth,
        foot=(middle, middle),
    )  # fmt: skip


@pytest.mark.parametrize(("share", "found"), [(INSIDE, 1), (OUTSIDE, 0)])
@pytest.mark.parametrize("what", ["pitch", "width", "depth"])
def test_teeth_of_a_thread_are_alike(what, share, found):
    off = 1 - threads.ALIKE * share
    row = [tooth(0.0), tooth(-2.0), tooth(-4.0)]
    row[2] = {
        "pitch": tooth(-2.0 - 2.0 * (2 - off)),
        "width": tooth(-4.0, width=2.0 * off),
        "depth": tooth(-4.0, depth=1.732 * off),
    }[what]
    assert len(threads.split_threads(row, 1e-9)[1]) == found


@pytest.mark.parametrize(("share", "kept"), [(INSIDE, 0), (OUTSIDE, 1)])
def test_a_run_out_touches_its_thread(share, kept):
    small = tooth(-8.0 - threads.TOUCHING * 2.0 * share, width=1.5, depth=1.0)
    row = [tooth(-2.0 * k) for k in range(4)]
    assert len(threads.split_threads([*row, small], 1e-9)[0]) == kept


@pytest.mark.parametrize(("share", "level"), [(INSIDE, True), (OUTSIDE, False)])
def test_lands_of_one_height_are_held_to_the_wider_mark(share, level):
    """9 wide and 2 deep is a journal between unlike lands (over 6 and three times its depth), not between like ones."""
    far = 20.0 * (1 + journals.ONE_HEIGHT * share)
    m = Measured(shape="rectangular", z_near=-10.0, z_far=-19.0, near_land=20.0, far_land=far, mouth=20.0, floor=18.0)
    assert journals.is_journal(m, "mm", 1.0) is not level


@pytest.mark.parametrize(("share", "corner"), [(INSIDE, True), (OUTSIDE, False)])
def test_a_corner_turns_by_little_more_than_a_right_angle(share, corner):
    """The arc leaves the floor level, so its centre stands over the place where the floor ends."""
    turn = shapes.MOST_CORNER * share
    end = (math.sin(turn), 1 - math.cos(turn))
    arc = Piece((0.0, 0.0), end, math.tan(turn / 4))
    assert bool(shapes._corner([arc], 1e-9)) is corner


@pytest.mark.parametrize(("share", "corner"), [(INSIDE, True), (OUTSIDE, False)])
def test_the_centre_of_a_corner_stands_over_the_end_of_the_floor(share, corner):
    lean = math.asin(shapes.OFF_LEVEL * share)
    start = (math.sin(lean), 1 - math.cos(lean))
    arc = Piece(start, (1.0, 1.0), math.tan((math.pi / 2 - lean) / 4))
    assert bool(shapes._corner([arc], 1e-9)) is corner


@pytest.mark.parametrize(("share", "spans"), [(INSIDE, True), (OUTSIDE, False)])
def test_a_place_beside_a_rim_belongs_to_the_recess(share, spans):
    recess = turnings.FaceRecess(
        shape="rectangular", z_face=0.0, z_floor=-3.0, outer=20.0, inner=16.0, corner=0.0, chamfer=0.0,
        bevelled=(False, False),
    )  # fmt: skip
    off = turnings.BESIDE * 4.0 * share
    places = ((-1.0, 20.0 + off), (-1.0, 16.0 - off), (off, 18.0), (-3.0 - off, 18.0))
    assert [recess.spans(place) for place in places] == [spans] * 4


@pytest.mark.parametrize(("share", "both"), [(1.01, True), (0.99, False)])
def test_the_smaller_rim_of_a_face_groove_has_the_chamfer_too_if_it_is_as_large(share, both):
    m = Measured(
        shape="rectangular", z_near=-16.0, z_far=-20.0, near_land=0.0, far_land=0.0, mouth=0.0, floor=-3.0,
        chamfers=(0.5, 0.5 * turnings.FULL_LEG * share), bevels=(True, True),
    )  # fmt: skip
    assert turnings._face(m, 1.0).bevelled == (both, True)
