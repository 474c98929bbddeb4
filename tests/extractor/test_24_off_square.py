"""Walls and floors that are off square by less than a cut shows."""

from types import SimpleNamespace

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, rotated, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.profile import Piece
from extractor.geometry.squaring import squared
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


@pytest.mark.parametrize("draw", [side_view, full_outline, half_profile])
@pytest.mark.parametrize("floor", [False, True])
@pytest.mark.parametrize("off", [0.0012, 0.003, 0.0033, -0.003])
@pytest.mark.parametrize("turn", [0, 90])
def test_what_is_off_by_three_micrometres_is_square(draw, floor, off, turn):
    """Up to three times 2e-5 of the view, 56.57: 0.00339. The middle of the line is kept."""
    reading = read_sheet(sheet_of(moved(draw, off, floor=floor), rotated(turn)), MM)
    assert [f for f in reading.findings if f.level != "note" and f.code != "front-assumed"] == []
    groove = reading.part.grooves[0]
    assert groove.shape == "rectangular"
    wall, foot = (-10.0, 17.0 + off / 2) if floor else (-10.0 + off / 2, 17.0)
    assert (groove.z_near, groove.floor_diameter) == (pytest.approx(wall, abs=1e-4), pytest.approx(2 * foot, abs=2e-4))


@pytest.mark.parametrize("draw", [side_view, full_outline])
@pytest.mark.parametrize(("off", "code"), [(0.0036, "overhang"), (0.005, "overhang")])
def test_what_is_off_by_more_is_not(draw, off, code):
    reading = read_sheet(sheet_of(moved(draw, off, floor=False)), MM)
    assert [str(f.code) for f in reading.findings if f.stops] == [code]


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
