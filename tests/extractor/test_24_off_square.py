"""Walls and floors that are off square by less than a cut shows."""

from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, full_outline, half_profile, rotated, sheet_of, side_view, with_centre
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.geometry.profile import Piece
from extractor.geometry.squaring import SLOPED, sloppy, squared, upright
from extractor.viewing.outline import Folded

MM = ReadOptions(units="mm")
SHAFT = Turned(((40.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-24.0, 4.0, 34.0)))


def moved(draw, off, *, floor, sides=(1, -1)):
    """The shaft with the foot of its first wall, or an end of its first floor, so far off in some halves."""
    ink, rows = draw(SHAFT), []
    for a, b, c, d, bulge in ink.solid:
        for s in sides:
            if not floor and a == c == -10.0 and {b, d} == {17.0 * s, 20.0 * s}:
                a, c = (a + off, c) if abs(b) == 17.0 else (a, c + off)
            if floor and b == d == 17.0 * s and {a, c} == {-10.0, -14.0}:
                b, d = (b + off * s, d) if a == -10.0 else (b, d + off * s)
        rows.append((a, b, c, d, bulge))
    ink.solid = rows
    return ink


@all_pairs(
    draw=[side_view, full_outline, half_profile],
    floor=[False, True],
    off=[0.0012, 0.003, 0.0033, -0.003],
    turn=[0, 90],
)
def test_what_is_off_by_three_micrometres_is_square(draw, floor, off, turn):
    """Up to three times 2e-5 of the view, 56.57: 0.00339. The middle of the line is kept."""
    reading = read_sheet(sheet_of(moved(draw, off, floor=floor), rotated(turn)), MM)
    assert [f for f in reading.findings if f.level != "note" and f.code != "front-assumed"] == []
    groove = reading.part.grooves[0]
    assert groove.shape == "rectangular"
    wall, foot = (-10.0, 17.0 + off / 2) if floor else (-10.0 + off / 2, 17.0)
    assert (groove.z_near, groove.floor_diameter) == (pytest.approx(wall, abs=1e-4), pytest.approx(2 * foot, abs=2e-4))


@pytest.mark.parametrize("draw", [side_view, full_outline, half_profile])
@pytest.mark.parametrize("off", [0.0036, 0.01, 0.0169])
def test_a_wall_that_leans_back_by_no_more_than_the_pen_errs_is_told(draw, off):
    """By 0.01697 here. One that leans the other way can be cut as it is drawn."""
    reading = read_sheet(sheet_of(moved(draw, off, floor=False)), MM)
    (told,) = [f for f in reading.findings if f.level != "note" and f.code != "front-assumed"]
    assert told.code == "off-square"
    assert f"by up to {off:.2g}" in told.message
    groove = reading.part.grooves[0]
    assert (groove.shape, groove.floor_diameter) == ("rectangular", 34.0)
    assert (groove.z_near, groove.z_far) == (pytest.approx(-10.0 + off / 2, abs=1e-4), -14.0)
    slanted = read_sheet(sheet_of(moved(draw, -off, floor=False)), MM).part.grooves[0]
    assert slanted.shape == "tapered"


@pytest.mark.parametrize("draw", [side_view, full_outline])
@pytest.mark.parametrize("off", [0.0171, 0.05])
def test_what_is_off_by_more_is_not(draw, off):
    reading = read_sheet(sheet_of(moved(draw, off, floor=False)), MM)
    assert [str(f.code) for f in reading.findings if f.stops] == ["overhang"]


FRONT_TO_BACK = [(0.0, 20.0), (-10.0, 20.0), (-9.99, 17.0), (-14.0, 17.0), (-13.992, 18.0), (-20.0, 18.0)]


def test_walls_that_run_back_are_upright_about_their_middles():
    rows, off = upright([Piece(a, b) for a, b in pairwise(FRONT_TO_BACK)], 0.001, 0.02)
    upright_ones = [(0.0, 20.0), (-9.995, 20.0), (-9.995, 17.0), (-13.996, 17.0), (-13.996, 18.0)]
    assert [p.start for p in rows] == [pytest.approx(at) for at in upright_ones]
    assert off == pytest.approx(0.01)


@pytest.mark.parametrize(
    ("back", "high", "kept"),
    [
        (0.00099, 3.0, True),
        (0.00101, 3.0, False),
        (0.0199, 3.0, False),
        (0.0201, 3.0, True),
        (0.0087, 1.0, False),
        (0.0088, 1.0, True),
        (-0.01, 3.0, True),
    ],
)
@pytest.mark.parametrize("way", [1, -1])
def test_how_far_a_wall_may_run_back(back, high, kept, way):
    """More than the noise, no more than the pen errs by, and by less than half a degree; up and down alike."""
    wall = [Piece((0.0, 20.0), (back, 20.0 + way * high))]
    assert (upright(wall, 0.001, 0.02)[0] == wall) is kept
    for other in ([wall[0]._replace(bulge=0.1)], [wall[0]._replace(curve=True)]):
        assert upright(other, 0.001, 0.02) == (other, 0.0)


@pytest.mark.parametrize("off", [0.003, -0.003])
@pytest.mark.parametrize("draw", [side_view, full_outline])
def test_a_floor_of_one_half_that_is_off_so_little_disagrees_with_nothing(draw, off):
    assert [
        f.code for f in read_sheet(sheet_of(moved(draw, off, floor=True, sides=(1,))), MM).findings if f.stops
    ] == []


WALL = Piece((0.0, 20.0), (0.003, 17.0))


def square(line, *, fine=0.001, most=0.0035):
    return squared([line], [line], fine, most)[1][0]


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        (Piece((0.0, 20.0), (0.00099, 17.0)), True),
        (Piece((0.0, 20.0), (0.00101, 17.0)), False),
        (Piece((0.0, 20.0), (0.00349, 17.0)), False),
        (Piece((0.0, 20.0), (0.00351, 17.0)), True),
        (Piece((0.0, 20.0), (0.003, 18.501)), True),
        (Piece((0.0, 20.0), (0.003, 18.499)), False),
        (Piece((0.0, 20.0), (0.003, 17.0), 0.001), True),
    ],
)
def test_by_how_much_and_how_steeply_a_line_may_be_off(line, kept):
    """More than the noise, no more than is told, and by no more than two thousandths of its length."""
    assert (square(line) == line) is kept


def test_it_is_made_square_about_its_middle():
    assert square(WALL) == Piece((0.0015, 20.0), (0.0015, 17.0))
    assert square(Piece((0.0, 20.0), (-3.0, 20.001953125))) == Piece((0.0, 20.0009765625), (-3.0, 20.0009765625))


@pytest.mark.parametrize(
    ("fine", "inch", "most"),
    [(0.001, False, 0.003), (0.1, False, 0.0035), (0.0000125, True, 0.0000375), (0.1, True, 0.00014)],
)
def test_it_is_three_times_the_noise_but_no_more_than_no_cut_shows(fine, inch, most):
    view = SimpleNamespace(fine=fine, inch=inch)
    assert Folded.off_square.fget(view) == pytest.approx(most)


def test_pieces_of_one_line_and_what_they_meet_keep_their_corners_together():
    pieces = [
        Piece((4.0, 20.0), (0.0, 20.0)),
        Piece((0.0, 20.0), (0.0015, 18.5)),
        Piece((0.0015, 18.5), (0.003, 17.0)),
        Piece((0.003, 17.0), (-1.0, 16.0), 0.4),
    ]
    rows, _ = squared(pieces, [pieces[0], WALL, WALL, pieces[3]], 0.001, 0.0035)
    assert rows == [
        Piece((4.0, 20.0), (0.0015, 20.0)),
        Piece((0.0015, 20.0), (0.0015, 18.5)),
        Piece((0.0015, 18.5), (0.0015, 17.0)),
        Piece((0.0015, 17.0), (-1.0, 16.0), 0.4),
    ]


def test_pieces_apart_from_one_another_stay_so():
    """As where a hidden line went on between them."""
    before = Piece((4.0, 20.0), (0.5, 20.0))
    assert squared([before, WALL], [before, WALL], 0.001, 0.0035)[0] == [before, Piece((0.0015, 20.0), (0.0015, 17.0))]


POINTS = [
    (0, 20),
    (-10, 20),
    (-10, 17),
    (-14, 17),
    (-14, 20),
    (-24, 20),
    (-24, 18.5),
    (-28, 18.5),
    (-28, 20),
    (-40, 20),
]


def careless(by, lean=0.0, walls=1, lands=1, turn=0):
    """The shaft with each corner moved to and fro, so that each line is off by so much and its middle stays.

    The front wall of its second groove leans outward by so much more. Without its walls, or its lands, only the others
    are off.
    """
    corners = [(z + walls * s * by / 2, r + lands * s * by / 2) for (z, r), s in zip(POINTS, [1, -1] * 5, strict=True)]
    corners[5] = (corners[5][0] + lean, corners[5][1])
    ends = [(-walls * by / 2, 0.0), *corners, (-40.0 + walls * by / 2, 0.0)]
    ink = Ink()
    for s in (1, -1):
        ink.chain([(z, s * r, 0.0) for z, r in ends])
    return sheet_of(with_centre(ink, SHAFT, 5.0), rotated(turn))


def read(sheet):
    reading = read_sheet(sheet, MM)
    grooves = reading.part.grooves if reading.part else ()
    told = [str(f.code) for f in reading.findings if f.stops or f.code == "off-square"]
    return told, [(g.shape, g.z_near, g.z_far, g.floor_diameter) for g in grooves]


TRUE = [("rectangular", -10.0, -14.0, 34.0), ("rectangular", -24.0, -28.0, 37.0)]


@pytest.mark.parametrize("turn", [0, 90])
@pytest.mark.parametrize("by", [0.004, 0.01, 0.0125])
def test_a_view_whose_lines_are_all_off_a_little_is_read_square_and_told(by, turn):
    """A wall of 1.5 slopes from 0.0131 on, which is half a degree, and the pen errs by 0.01697 in a view of 56.57."""
    told, grooves = read(careless(by, turn=turn))
    assert told == ["off-square"]
    assert [g[0] for g in grooves] == ["rectangular"] * 2
    assert [g[1:] for g in grooves] == [pytest.approx(g[1:], abs=1e-4) for g in TRUE]


def test_what_is_off_by_no_more_than_a_cut_shows_is_not_told():
    assert read(careless(0.0028))[0] == []


@pytest.mark.parametrize(
    ("by", "more", "codes", "shape"),
    [
        (0.01, {"walls": 0}, [], {"other"}),
        (0.01, {"lands": 0}, ["off-square"], {"rectangular"}),
        (0.018, {"lands": 0}, ["overhang"] * 2, set()),
    ],
)
def test_lands_alone_that_lean_are_meant_and_walls_that_lean_back_by_more_than_the_pen_errs(by, more, codes, shape):
    """Both walls of each groove lean back; a floor aslant is no plain shape."""
    told, grooves = read(careless(by, **more))
    assert ([code for code in told if code != "not-turned"], {g[0] for g in grooves}) == (codes, shape)


@pytest.mark.parametrize(("lean", "shape"), [(0.0125, "rectangular"), (0.0135, "tapered")])
def test_a_wall_of_half_a_degree_slopes_in_a_careless_view_too(lean, shape):
    """0.0131 of 1.5; the corner is moved back by as much as the hand moves it, so that the wall has just this lean."""
    told, grooves = read(careless(0.006, lean + 0.006))
    assert (told, [g[0] for g in grooves]) == (["off-square"], ["rectangular", shape])


LINES = np.array([(0, 20, 10, 20.01), (0, 17, 4, 17.01), (0, 0, 0.01, 20), (4, 17, 4.01, 20)], dtype=float)


@pytest.mark.parametrize(
    ("more", "most"),
    [
        ([], 0.01),
        ([(0, 0, 10, 0), (0, 5, 10, 5)], 0.0035),
        ([(0, 0, 10, 0)], 0.01),
        ([(0, 0, 10, 0.005)] * 9 + [(0, 0, 10, 0)] * 10, 0.01),
        ([(0, 0, 10, 0.002)] * 3, 0.01),
        ([(0, 0, 0, 9), (5, 0, 5, 9)], 0.0035),
        ([(0, 0, 0, 9)], 0.01),
        ([(0, 0, 8, 9), (0, 0, 1, 0.009)] * 3, 0.01),
        ([(0, 0, 5, 0.0201)] * 2, 0.0035),
        ([(0, 0, 5, 0.0201), (0, 0, 5, 0.0199)], 0.0199),
    ],
)
def test_a_view_is_careless_if_most_of_its_lines_are_off_both_along_and_across(more, most):
    """What leans by half a degree is neither; what is off by more than the pen's error, 0.02, is no slip of it."""
    lines = np.concatenate([LINES, np.array(more, dtype=float).reshape(-1, 4)])
    assert sloppy(lines, 0.001, 0.0035, 0.02) == pytest.approx(most)


def test_the_chords_of_a_curve_stay_in_a_careless_view():
    chord = Piece((0.0, 20.0), (-3.0, 20.01), 0.0, True)
    assert squared([chord], [chord], 0.001, 0.02, SLOPED)[1] == [chord]
    line, y = chord._replace(curve=False), (20.0 + 20.01) / 2
    assert squared([line], [line], 0.001, 0.02, SLOPED)[1] == [Piece((0.0, y), (-3.0, y))]
