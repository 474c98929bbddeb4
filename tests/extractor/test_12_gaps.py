"""Gaps: what is closed, what is left, what is never touched."""

import math

import numpy as np
import pytest

from extractor.geometry.network import Strokes
from extractor.geometry.noding import node
from extractor.viewing.gaps import close, decimal_step, group_sizes, tolerances, typical_size

NEAR = 1e-6


def strokes(*rows, labels=None):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(
        data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64) if labels is None else np.array(labels)
    )


def box(gap=0.0, short=0.0):
    """A box 40 x 20 with a gap at one corner and a side that stops short of another."""
    return [(0, 0, 40 - gap, 0), (40, 0, 40, 20 - short), (40, 20, 0, 20), (0, 20, 0, 0)]


def faces(rows):
    closed, found, _ = close(rows, NEAR)
    return len(node(closed, NEAR).faces), found


def test_nothing_is_done_to_a_tidy_box():
    rows = strokes(*box())
    closed, found, _ = close(rows, NEAR)
    assert found == ()
    assert np.array_equal(closed.ends, rows.ends)


def test_small_gaps_are_closed_and_told_with_place_and_width():
    count, found = faces(strokes(*box(gap=0.02, short=0.01)))
    assert count == 1
    assert sorted(round(c.width, 6) for c in found) == [0.01, 0.02]
    assert all(c.at[0] == pytest.approx(40, abs=0.03) for c in found)


def test_a_gap_wider_than_the_tolerance_stays_open():
    count, found = faces(strokes(*box(gap=0.5)))
    assert (count, found) == (0, ())


def test_an_end_short_of_the_middle_of_a_line_is_brought_to_it():
    count, found = faces(strokes(*box(), (10, 0.01, 10, 20)))
    assert count == 2
    assert [round(c.width, 6) for c in found] == [0.01]


@pytest.mark.parametrize(("slope", "meets"), [(0.0201, 10.005), (0.0199, 10.0)])
def test_two_strokes_that_hardly_lean_to_one_another_meet_end_to_end(slope, meets):
    """Where their lines cross if they lean enough, else at the end of the first."""
    rise = slope / math.sqrt(1 - slope**2)
    rows = strokes((0, 0, 10, 0), (10.008, 0.003 * rise, 30, 19.995 * rise))
    closed, _, _ = close(rows, NEAR)
    assert closed.ends[:, [2, 0]].diagonal().tolist() == pytest.approx([meets, meets], abs=1e-9)


def test_an_end_short_of_an_arc_is_brought_to_it():
    rows = strokes((0, 0, 20, 0, -1.0), (0, 0, 20, 0), (10, 0, 10, 9.99))
    count, found = faces(rows)
    assert count == 2
    assert len(found) == 1


def test_a_small_chamfer_that_meets_exactly_is_never_bridged():
    rows = strokes((0, 0, 39.97, 0), (39.97, 0, 40, 0.03), (40, 0.03, 40, 20), (40, 20, 0, 20), (0, 20, 0, 0))
    closed, found, _ = close(rows, NEAR)
    assert found == ()
    assert len(node(closed, NEAR).edges) == 5


def test_centre_lines_never_move_but_others_may_end_on_them():
    rows = strokes((5, 0, 5, 10), (6, 0, 6, 10), (0, 0, 20, 0), labels=[0, 1, -1])
    closed, found, _ = close(rows, NEAR)
    assert found == ()
    assert closed.ends[2].tolist() == [0, 0, 20, 0]


def test_the_tolerance_grows_with_size_and_with_the_last_decimal_place():
    small, large = strokes(*box()), strokes(*[[10 * x for x in row] for row in box()])
    assert tolerances(large).max() == pytest.approx(10 * tolerances(small).max())
    exact = strokes((0, 0, 0.9123456, 0), (0.9123456, 0, 0.9123456, 0.3))
    coarse = strokes((0, 0, 0.912, 0), (0.912, 0, 0.912, 0.3))
    assert tolerances(exact).max() == pytest.approx(1e-3 * np.hypot(0.9123456, 0.3))
    assert tolerances(coarse).max() == pytest.approx(0.0015)


def test_a_grid_of_whole_millimetres_is_no_rounding():
    whole = strokes(*box())
    assert tolerances(whole).max() == pytest.approx(1e-3 * np.hypot(40, 20))


@pytest.mark.parametrize(("value", "step"), [(3.0, 1.0), (3.5, 0.1), (0.125, 0.001), (1 / 3, 0.0)])
def test_the_last_decimal_place(value, step):
    assert decimal_step(np.array([[1.0, 2.0, 4.0, value]])) == step


def test_groups_are_sized_each_for_itself():
    rows = strokes(*box(), (1000, 1000, 1003, 1004))
    sizes = group_sizes(rows)
    assert sizes[0] == pytest.approx(np.hypot(40, 20))
    assert sizes[-1] == pytest.approx(5.0)
    assert typical_size(rows) == pytest.approx(np.hypot(40, 20))


@pytest.mark.parametrize("short", [(0.01, 0.02), (0.03, 0.0), (0.0, 0.03)])
def test_walls_meet_where_their_lines_cross_and_none_is_tilted(short):
    """A corner at (40, 20) of which both lines, or one, stop short."""
    side, top = short
    closed, found, _ = close(strokes((0, 0, 40, 0), (40, 0, 40, 20 - side), (40 - top, 20, 0, 20), (0, 20, 0, 0)), NEAR)
    assert len(found) == 1
    for x0, y0, x1, y1 in closed.ends.tolist():
        assert min(abs(x1 - x0), abs(y1 - y0)) == pytest.approx(0.0, abs=1e-12)
    assert (40.0, 20.0) in {tuple(np.round(p, 9)) for p in closed.ends.reshape(-1, 2).tolist()}


def test_an_end_meets_a_slanting_line_without_leaving_its_own():
    closed, found, _ = close(strokes(*box(), (10, 0, 30, 20), (0, 8, 17.98, 8)), NEAR)
    assert [round(c.width, 6) for c in found] == [0.02]
    assert closed.ends[5].tolist() == pytest.approx([0, 8, 18, 8])


@pytest.mark.parametrize(("lean", "joined"), [(0.0, False), (0.19, False), (2.0, True)])
def test_a_stroke_is_not_joined_to_its_own_double(lean, joined):
    """A second line over 10 of the box's bottom, level or nearly so; one that leans by a fifth is another line."""
    closed, found, _ = close(strokes(*box(), (10, 0.005 + lean, 20, 0.005)), NEAR)
    assert bool(found) == joined
    assert (closed.ends[4].tolist() != [10, 0.005 + lean, 20, 0.005]) == joined


@pytest.mark.parametrize(
    ("lines", "aside"),
    [
        ([(20, 10, 20, 19.97)], 0.0),  # to a line ahead of it
        ([(0.02, 10, 0.02, 20.01)], 0.0),  # past one
        ([(-0.03, 10, -0.03, 20)], 0.03),  # to the corner beside it, and so it leans
        ([(50, 0, 50, 10), (60, 10, 50.03, 10)], 0.0),  # two ends that meet where their lines cross
        ([(50, 0, 50, 10), (50.015, 10.005, 50.015, 20)], 0.015),  # two that run on beside one another
    ],
)
def test_it_is_told_how_far_off_its_own_line_an_end_was_moved(lines, aside):
    _, found, _ = close(strokes(*box(), *lines), NEAR)
    assert max((c.aside for c in found), default=0.0) == pytest.approx(aside, abs=1e-9)


@pytest.mark.parametrize("order", [(0, 1, 2), (1, 0, 2), (2, 1, 0)])
@pytest.mark.parametrize("short", [0.005, 0.02])
def test_a_wall_its_floor_and_the_edge_behind_it_meet_where_they_cross(short, order):
    """Every one of them ends short of the corner; the edge runs on in line with the wall."""
    three = [(0, 20, 0, short), (short, 0, 10, 0), (0, -short, 0, -20)]
    _, found, _ = close(strokes(*(three[k] for k in order)), NEAR)
    assert len(found) == 1
    assert found[0].at == pytest.approx((0.0, 0.0))
    assert found[0].aside == pytest.approx(0.0)
