"""A centre line drawn dash by dash with plain lines is one; lands in a row, hidden edges and phantom lines are none."""

import math
from itertools import pairwise

import pytest
from support.draw import Cut, Ink, Turned, full_outline, half_profile, mixed, rotated, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Pen
from extractor.viewing.chain_lines import with_chain_lines

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 32.0)))
DASH, POINT = (6.0, 1.5, 1.5, 1.5), (8.0, 1.0, 0.3, 1.0)


def dashes(start, end, pattern=DASH, y=0.0, phase=0.0):
    """Plain lines from one z to another: dash, gap and so on, the first cut short by `phase`."""
    rows, at, k = [], start - phase, 0
    while at < end:
        size = pattern[k % len(pattern)]
        if k % 2 == 0 and at + size > start:
            rows.append((max(at, start), y, min(at + size, end), y, 0.0))
        at, k = at + size, k + 1
    return rows


def marked(rows, move=lambda x, y: (x, y), pen=Pen.CENTRE):
    sheet = with_chain_lines(sheet_of(Ink(list(rows)), move))
    return int(sheet.segments.of(lambda s: s.pen is pen).sum())


def read(ink, turn=0):
    reading = read_sheet(sheet_of(ink, rotated(turn)), ReadOptions(units="mm"))
    grooves = reading.part.grooves if reading.part else ()
    return [f.code.value for f in reading.findings], [(g.z_near, g.z_far, g.floor_diameter) for g in grooves]


@all_pairs(turn=[0, 90, 33, 180], pattern=[DASH, POINT, (12.0, 2.0, 2.0, 2.0)], view=[half_profile, side_view])
def test_an_axis_in_dashes_is_read_as_one_with_its_pen(view, pattern, turn):
    drawn = view(SHAFT, None)
    drawn.solid += dashes(-65.0, 5.0, pattern)
    assert read(drawn, turn) == read(view(SHAFT, 5.0), turn)
    assert read(drawn)[1] == [pytest.approx(g) for g in [(-10.0, -13.0, 34.0), (-40.0, -44.0, 32.0)]]


@pytest.mark.parametrize("phase", [0.0, 2.0, 5.9, 6.5, 8.0])
def test_what_is_left_of_dashes_at_the_ends_belongs_to_the_line(phase):
    rows = dashes(0.0, 40.0, phase=phase)
    assert marked(rows) == len(rows)


LABYRINTH = Turned(((60.0, 40.0),), tuple(Cut(z, 1.5, 34.0) for z in (-6.0, -9.0, -16.5, -19.5, -27.0, -30.0, -37.5)))
"""Lands of 6 and of 1.5 by turns, 1.5 apart: seen alone they are a row of dashes."""


def test_lands_long_and_short_by_turns_are_lands():
    both = mixed(half_profile(LABYRINTH), half_profile(LABYRINTH).map(lambda x, y: (x, -y)))
    plain = sheet_of(both)
    assert with_chain_lines(plain) is plain
    assert len(read(both)[1]) == 7


@pytest.mark.parametrize(("gap", "dash"), [(0.59, False), (0.61, True)])
def test_lands_whose_walls_stand_a_little_off_are_lands(gap, dash):
    """Within four tenths of what lies between them; with no walls near they are dashes."""
    row = dashes(0.0, 27.0)
    shorts = [r for r in row if r[2] - r[0] == 1.5]
    walls = [(x + s * gap, 0.0, x + s * gap, -5.0, 0.0) for a, _, b, *_ in shorts for x, s in ((a, -1), (b, 1))]
    assert (marked(row + walls) > 0) is dash
    assert marked(row + walls[::2]) == len(row)


@pytest.mark.parametrize(
    ("pattern", "chain"),
    [
        ((4.0, 2.0), False),
        ((6.0, 1.5, 1.5, 1.5, 1.5, 1.5), False),
        ((6.0, 1.5, 3.1, 1.5), False),
        ((6.0, 1.5, 2.9, 1.5), True),
        ((6.0, 6.1, 1.5, 6.1), False),
        ((6.0, 5.9, 1.5, 5.9), True),
        ((6.0, 1.5, 1.5, 1.7), False),
        ((6.0, 1.5, 1.5, 1.65), True),
        ((6.0, 1.5, 1.5, 1.5, 6.8, 1.5, 1.5, 1.5), False),
        ((6.0, 1.5, 1.5, 1.5, 6.6, 1.5, 1.5, 1.5), True),
        ((6.0, 1.5, 1.5, 1.5, 6.0, 1.5, 1.8, 1.5), False),
    ],
)
def test_long_and_short_dashes_by_turns_with_even_gaps_are_a_chain_line(pattern, chain):
    """Two to one at least, and even within a tenth: hidden edges and phantom lines have dashes in another order."""
    assert (marked(dashes(0.0, 63.0, pattern)) > 0) is chain


@pytest.mark.parametrize(("end", "chain"), [(27.0, 5), (26.9, 5), (16.5, 0)])
def test_three_long_dashes_are_a_row(end, chain):
    assert marked(dashes(0.0, end)) == chain


@pytest.mark.parametrize(("off", "chain"), [(0.0005, 7), (0.01, 0)])
def test_dashes_lie_in_line(off, chain):
    rows = [(a, y + (k % 2) * off, b, y + (k % 2) * off, 0.0) for k, (a, y, b, *_) in enumerate(dashes(0.0, 36.0))]
    assert marked(rows) == chain


def test_arcs_and_lines_of_other_pens_are_no_dashes():
    assert marked([(*row[:4], 0.1) for row in dashes(0.0, 40.0)]) == 0
    sheet = sheet_of(Ink([], [], dashes(0.0, 40.0)))
    assert with_chain_lines(sheet) is sheet
    assert marked(dashes(0.0, 40.0), lambda x, y: (x * math.cos(2.0), x * math.sin(2.0))) == 8


@all_pairs(
    turn=[0, 90, 33, 180],
    pattern=[(3.0, 1.5), (6.0, 3.0), (1.0, 1.0), (10.0, 2.0)],
    view=[half_profile, side_view, full_outline],
)
def test_an_axis_in_dashes_of_one_length_is_read_as_one_with_its_pen(view, pattern, turn):
    drawn = view(SHAFT, None)
    drawn.solid += dashes(-66.0, 6.0, pattern)
    assert read(drawn, turn) == read(view(SHAFT, 6.0), turn)


def faces(*rows):
    """A row of 14 dashes of 2, 1 apart, from 0 to 41, the last one included, and other lines: how many are marked."""
    return marked([*dashes(0.0, 41.0, (2.0, 1.0)), *((*row, 0.0) for row in rows)])


WHOLE, UPPER = (4.0, -9.0, 4.0, 9.0), (4.0, 0.0, 4.0, 9.0)


@pytest.mark.parametrize(
    ("rows", "axis"),
    [
        ([WHOLE, (30.0, -9.0, 30.0, 9.0)], True),
        ([UPPER, (30.0, 9.0, 30.0, 0.0)], True),
        ([WHOLE, (30.0, -9.0, 30.0, 9.1)], False),  # no middle of this face
        ([UPPER, (30.0, 1.0, 30.0, 9.0)], False),  # clear of it
        ([WHOLE], False),  # one face alone
        ([], False),
        ([WHOLE, (15.0, -3.0, 15.0, 9.0), (30.0, -9.0, 30.0, 9.0)], True),  # a keyway's wall between
        ([(0.42, -9.0, 0.42, 9.0), (30.0, -9.0, 30.0, 9.0)], True),
        ([(0.4, -9.0, 0.4, 9.0), (30.0, -9.0, 30.0, 9.0)], False),
        ([(4.0, -9.0, 4.0, 9.0), (40.6, -9.0, 40.6, 9.0)], False),
        ([(4.0, -9.0, 4.0, 9.0), (40.58, -9.0, 40.58, 9.0)], True),
        ([(-5.0, -9.0, -5.0, 9.0), WHOLE, (30.0, -9.0, 30.0, 9.0), (50.0, -2.0, 50.0, 9.0)], True),  # beyond its ends
    ],
)
def test_like_dashes_that_run_out_at_both_faces_along_their_middle_are_an_axis(rows, axis):
    """By a hundredth of their 41, which is 0.41."""
    assert faces(*rows) == 14 * axis


@pytest.mark.parametrize(
    ("pattern", "end", "axis"),
    [
        ((2.0, 1.0), 14.0, True),
        ((2.0, 1.0), 11.0, False),  # four
        ((2.0, 1.99), 30.0, True),
        ((2.0, 2.01), 30.0, False),  # farther apart than long
        ((2.0, 1.0, 2.19, 1.0), 29.0, True),
        ((2.0, 1.0, 2.23, 1.0), 29.0, False),  # unlike by more than a tenth
    ],
)
def test_like_dashes_are_five_of_one_length_and_no_farther_apart(pattern, end, axis):
    walls = [(x, -9.0, x, 9.0, 0.0) for x in (2.5, end - 2.5)]
    assert bool(marked([*dashes(0.0, end, pattern), *walls])) is axis


def test_a_hidden_edge_in_like_dashes_is_no_axis():
    rows = [dash for y in (8.0, -8.0) for dash in dashes(-60.0, 0.0, (3.0, 1.5), y)]
    drawn = side_view(SHAFT, 5.0)
    assert marked([*drawn.solid, *rows]) == 0


def test_lands_of_one_length_are_lands():
    even = Turned(((60.0, 40.0),), tuple(Cut(-3.0 - 6.0 * k, 3.0, 34.0) for k in range(9)))
    assert marked(side_view(even, None).solid) == 0


def sides(corners, pattern=(8.0, 1.0, 1.0, 1.0, 1.0, 1.0)):
    """Lines from corner to corner in dashes, above the axis and mirrored below it."""
    rows = []
    for (ax, ay), (bx, by) in pairwise(corners):
        size = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / size, (by - ay) / size
        rows += [(ax + a * ux, ay + a * uy, ax + b * ux, ay + b * uy) for a, _, b, _, _ in dashes(0.0, size, pattern)]
    return [(a, s * b, c, s * d, 0.0) for a, b, c, d in rows for s in (1, -1)]


BESIDE = {
    "a blank round it": [(2.0, 0.0), (2.0, 23.0), (-62.0, 23.0), (-62.0, 0.0)],
    "a ring on a land": [(-15.0, 20.0), (-15.0, 32.0), (-38.0, 32.0), (-38.0, 20.0)],
    "a ring from groove to groove": [(-13.0, 20.0), (-13.0, 32.0), (-40.0, 32.0), (-40.0, 20.0)],
    "a plate at the face": [(0.0, 20.0), (0.0, 40.0), (25.0, 40.0), (25.0, 0.0)],
    "a cutting plane": [(-25.0, 0.0), (-25.0, 32.0)],
}


@all_pairs(
    turn=[0, 90, 33],
    pattern=[(8.0, 1.0, 1.0, 1.0, 1.0, 1.0), (5.0, 0.7, 0.7, 0.7, 0.7, 0.7)],
    view=[side_view, full_outline],
    corners=BESIDE.values(),
)
def test_what_stands_beside_the_part_in_dashes_of_phantom_lines_is_none_of_it(corners, view, pattern, turn):
    drawn = view(SHAFT, 5.0)
    drawn.solid += sides(corners, pattern)
    assert read(drawn, turn) == read(view(SHAFT, 5.0), turn)


@pytest.mark.parametrize(
    ("pattern", "end", "phantom"),
    [
        ((6.0, 1.0, 1.5, 1.0, 1.5, 1.0), 20.5, True),  # long, two short, long, short
        ((6.0, 1.0, 1.5, 1.0, 1.5, 1.0), 18.0, False),
        ((1.5, 1.0, 1.5, 1.0, 6.0, 1.0), 17.0, False),  # one long amid short ones
        ((3.05, 1.0, 1.5, 1.0, 1.5, 1.0), 30.0, True),
        ((2.95, 1.0, 1.5, 1.0, 1.5, 1.0), 30.0, False),  # long ones are twice as long
        ((6.0, 1.0, 1.5, 1.0, 1.36, 1.0), 30.0, True),
        ((6.0, 1.0, 1.5, 1.0, 1.34, 1.0), 30.0, False),  # short ones are alike
        ((6.0, 1.0, 1.5, 1.09, 1.5, 1.0), 30.0, True),
        ((6.0, 1.0, 1.5, 1.15, 1.5, 1.0), 30.0, False),  # so are gaps
        ((6.0, 5.9, 1.5, 5.9, 1.5, 5.9), 60.0, True),
        ((6.0, 6.1, 1.5, 6.1, 1.5, 6.1), 60.0, False),
        ((6.0, 1.0, 1.5, 1.0, 1.5, 1.0, 1.5, 1.0), 50.0, False),  # three short ones
    ],
)
def test_a_long_and_two_short_dashes_by_turns_are_a_phantom_line(pattern, end, phantom):
    rows = dashes(0.0, end, pattern)
    assert marked(rows, pen=Pen.PHANTOM) == phantom * len(rows)


ROW = dashes(0.0, 29.0, (8.0, 1.0, 1.0, 1.0, 1.0, 1.0), y=0.0)
"""Thirteen by turns: two whole turns and a long one less 1, from 0 to 29."""


@pytest.mark.parametrize(
    ("rows", "more"),
    [
        ([(0.0, 0.0, 0.0, 5.0)], 1),  # round a corner
        ([(0.0, 0.0, 0.0, 8.7)], 1),
        ([(0.0, 0.0, 0.0, 8.9)], 0),  # longer than the long ones by more than a tenth
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 5.0, 0.0, 7.0)], 0),  # another line ends where it does, and it may be an edge
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 5.0, -9.0, 5.0), (0.0, 5.0, 20.0, 5.0)], 1),  # a corner without it
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 0.0, -9.0, 0.0)], 0),  # not free where it would go on
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 6.0, 0.0, 7.0), (0.0, 8.0, 0.0, 9.0)], 3),  # dash by dash
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 6.0, 3.0, 6.0)], 1),  # not in line over a gap
        ([(0.0, 0.0, 0.0, 5.0), (0.0, 6.2, 0.0, 7.0)], 1),  # over a wider one
        ([(0.0, 2.0, 0.0, 5.0)], 0),
    ],
)
def test_short_sides_go_with_the_rest_of_a_phantom_figure(rows, more):
    found = marked([*ROW, *((*row, 0.0) for row in rows)], pen=Pen.PHANTOM)
    assert found == len(ROW) + more
