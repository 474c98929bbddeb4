"""The arithmetic under a finishing path: arcs found again, heights cell by cell, few moves along a line."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.moves import tool as usual_tool
from support.parts import groove_of

from extractor.part import Groove
from extractor.side import INSIDE, OUTSIDE
from planner.cuts.curves import filleted, printed_radius, smooth
from planner.cuts.field import (
    closed,
    edge_of,
    least_place,
    left_standing,
    lowest_places,
    permitted,
    raster,
    sliding_max,
    spread,
)
from planner.cuts.ground import Ground
from planner.cuts.hollow import Hollow, deepened, hollow_of
from planner.cuts.roughing import rough_plunges
from planner.cuts.trace import Move, along, traced
from planner.increment import Increments

MM = Increments.of("mm")


def tool(width=3.0, radius=0.2, **more):
    return usual_tool(width=width, corner_radius=radius, max_depth=9.0, **more)


def circle(radius, first, last, count, centre=(0.0, 0.0)):
    angles = [math.radians(first + (last - first) * i / count) for i in range(count + 1)]
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)


class TestCurves:
    @given(st.floats(0.3, 60), st.floats(0, 360), st.floats(25, 170))
    def test_chords_of_an_arc_become_finer(self, radius, first, sweep):
        count = math.ceil(sweep / 7.5)
        finer = smooth(circle(radius, first, first + sweep, count), 1e-4)
        assert max(abs(math.hypot(*p) - radius) for p in finer) < 1e-7
        middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(finer)]
        assert max(radius - math.hypot(*p) for p in middles) <= 1e-4 + 1e-9

    @pytest.mark.parametrize(
        "line",
        [
            ((0, 20), (-3, 19.6), (-6, 19.6), (-9, 20)),  # an even trapezium lies on a circle too
            ((0, 20), (-5, 19.5), (-10, 20)),  # so does any triangle
            ((0, 20), (-2, 20), (-2, 17), (-6, 17), (-6, 20), (-9, 20)),
        ],
    )
    def test_lines_stay_lines(self, line):
        assert smooth(line, 1e-4) == line

    def test_an_arc_between_lines(self):
        arc = circle(1.0, 180, 270, 12, (-1.0, 18.0))
        line = ((-5.0, 20.0), (-2.0, 20.0), *arc, (3.0, 17.0))
        finer = smooth(line, 1e-4)
        assert set(line) <= set(finer)
        assert len(finer) > len(line)

    @pytest.mark.parametrize("count", range(4, 27))
    def test_every_chord_of_an_arc_between_lines_becomes_finer(self, count):
        arc = circle(9.0, 180, 180 + 5 * count, count)
        away = tuple((arc[-1][0] + k, arc[-1][1] + 3 * k * k) for k in range(1, 4))
        finer = smooth(((-9.0, 5.0), *arc, *away), 1e-3)
        ends = [finer.index(point) for point in arc]
        assert min(b - a for a, b in pairwise(ends)) > 1
        assert finer[ends[-1] + 1 :] == away

    def test_a_printed_radius_goes_into_hollow_corners_alone(self):
        square = [(-9.0, 20.0), (-4.0, 20.0), (-4.0, 17.0), (0.0, 17.0), (0.0, 20.0), (5.0, 20.0)]
        line = filleted(square, 1.0, 1e-3)
        assert {(-4.0, 20.0), (0.0, 20.0)} <= set(line), "rims stay sharp"
        assert min(math.dist(p, (-4.0, 17.0)) for p in line) == pytest.approx(math.sqrt(2) - 1, abs=2e-3)
        assert filleted(square, 2.5, 1e-3) == square, "no room"

    def test_whose_radius_is_all_corners(self):
        groove = groove_of(shape="other", corner_radius=0.5)
        assert printed_radius(groove) == 0.0
        assert printed_radius(groove_of(corner_radius=0.5)) == 0.5


class TestField:
    @given(st.lists(st.floats(-50, 50), min_size=30, max_size=60), st.integers(1, 20))
    def test_sliding(self, values, count):
        found = sliding_max(np.array(values), count)
        assert found.tolist() == [max(values[k : k + count]) for k in range(len(values) - count + 1)]

    @given(
        st.lists(st.integers(0, 60), min_size=20, max_size=60),
        st.lists(st.integers(0, 5), min_size=1, max_size=12),
    )
    def test_places_and_what_they_leave_by_the_definition(self, standing, edge):
        heights, under = np.array(standing, dtype=float), np.array(edge, dtype=float)
        places = lowest_places(heights, under)
        size = len(standing) - len(edge) + 1
        assert places.tolist() == [max(standing[z + k] - e for k, e in enumerate(edge)) for z in range(size)]
        left = left_standing(places, under)
        for cell, found in enumerate(left.tolist()):
            over = [places[cell - k] + e for k, e in enumerate(edge) if 0 <= cell - k < size]
            assert found == min(over)
            assert found >= standing[cell], "never below what must stay"

    def test_spread(self):
        least, most = spread(np.array([3.0, 1.0, 2.0, 9.0]), 1)
        assert (least.tolist(), most.tolist()) == ([1, 1, 1, 2], [3, 3, 9, 9])

    def test_a_corner_closed_is_round(self):
        wall = np.where(np.arange(2000) < 1000, 500.0, 0.0)
        filled = closed(wall, 200.0)
        # Circle of radius 200 in the corner: at 50 from the wall it stands 200 - sqrt(200^2 - 150^2) high.
        assert filled[1050] == pytest.approx(200 - math.sqrt(200**2 - 150**2), abs=2)
        assert (filled[1200:] == 0).all()
        assert (filled[:1000] == 500).all()

    def test_edges(self):
        square, nose = edge_of(tool(), MM), edge_of(tool(2.0, 0.1, edge="vee", angle=90.0), MM)
        assert square.width == 3000
        assert square.ends[0] == square.ends[-1] == 200
        assert (square.low[200:2800] == 0).all()
        assert nose.ends[0] == pytest.approx(1000 - 100 * (math.sqrt(2) - 1), abs=1e-6)

    def test_an_insert_between_two_walls(self):
        line = [(-9000.0, 5000.0), (-5000.0, 5000.0), (-5000.0, 0.0), (0.0, 0.0), (0.0, 5000.0), (4000.0, 5000.0)]
        lowest = permitted(raster(line, -9000, 13_000), edge_of(tool(), MM))
        down = np.flatnonzero(lowest == 0) - 9000
        assert (down[0], down[-1]) == (-5000, -3000), "from wall to wall, and not a count beyond"

    @pytest.mark.parametrize("insert", [tool(), tool(0.8, 0.0), tool(2.0, 0.1, edge="vee", angle=60.0)])
    @pytest.mark.parametrize("lean", [0.2, 1.0, 3.0])
    def test_the_least_place_is_known_nearly_and_never_from_above(self, insert, lean):
        line = [(-9000.0, 5000.0), (-4000.0, 5000.0), (-2000.0, 5000.0 - 2000 * lean), (0.0, 5000.0), (4000.0, 5000.0)]
        drawn, edge = raster(line, -9000, 13_000), edge_of(insert, MM)
        least = permitted(drawn, edge).min()
        assert least - 0.1 * (5000 - least) - 1 <= least_place(drawn, edge) <= least


class TestTrace:
    @given(st.integers(200, 4000), st.integers(20, 90))
    @settings(max_examples=30, deadline=None)
    def test_a_corner_is_one_arc(self, radius, degrees):
        # From the end of a slope (or a wall) round to level, then on along the floor.
        turn = math.radians(degrees)
        z = np.arange(0, -math.floor(radius * math.sin(turn)) - 1, -1.0)
        start = radius * math.sin(turn)
        height = radius - np.sqrt(np.maximum(0.0, radius**2 - (start + z) ** 2))
        floor = np.column_stack([z[-1] - np.arange(1.0, 2000.0), np.zeros(1999)])
        moves = traced(np.concatenate([np.column_stack([z, height]), floor]), 2.0)
        assert len(moves) <= 3
        arcs = [move for move in moves if move.radius]
        assert moves[-1].x == 0
        if degrees >= 45 and radius >= 800:
            (arc,) = arcs
            assert arc.radius == pytest.approx(radius, rel=0.02)
            assert arc.clockwise

    def test_moves_keep_to_the_line(self):
        z = np.arange(0.0, -5000.0, -1.0)
        line = np.column_stack([z, 1500 + 1500 * np.cos(z / -5000 * math.pi)])
        moves = traced(line, 2.0)
        corners = np.array(along((0, 6000), moves), dtype=float)
        way = np.interp(-z, -corners[:, 0], corners[:, 1] / 2)
        assert np.abs(way - line[:, 1]).max() < 4
        assert len(moves) < 12

    def test_no_move_along_one_place(self):
        assert traced(np.array([[0.0, 5.0]]), 2.0) == []

    def test_the_way_of_arcs_and_lines(self):
        way = along((0, 1600), [Move(-800, 0, 800, clockwise=True), Move(-2000, 0)])
        assert way[0] == (0, 1600)
        assert way[-2:] == [(-800, 0), (-2000, 0)]
        # All corners lie on the circle about z -800, radius 800 above the floor.
        assert max(abs(math.hypot(z + 800, x / 2 - 800) - 800) for z, x in way[:-1]) < 1.0


class TestHollow:
    LINE = ((-20.0, 20.0), (-16.0, 20.0), (-14.0, 17.0), (-10.0, 17.0), (-10.0, 20.0), (0.0, 20.0))

    def side(self):
        points = tuple(reversed(self.LINE))
        return Ground(OUTSIDE, (points[0], points[-1]), points)

    def groove(self):
        return Groove(
            id=1, where="outside", shape="other", z_near=-10.0, z_far=-16.0, mouth_diameter=40.0, floor_diameter=34.0
        )

    def test_walls_and_mouth(self):
        hollow = hollow_of(self.groove(), self.side(), MM, 1.0)
        assert hollow.mouth == (-6000.0, 0.0)
        assert hollow.leans == (pytest.approx(math.atan2(3, 2)), pytest.approx(math.pi / 2))
        assert (hollow.floor, hollow.lowest, hollow.falls) == (17_000.0, -2000.0, True)

    def test_no_land_on_one_side(self):
        side = Ground(
            OUTSIDE, ((0.0, 20.0), (-20.0, 20.0)), ((-10.0, 17.0), (-14.0, 17.0), (-16.0, 20.0), (-20.0, 20.0))
        )
        assert hollow_of(self.groove(), side, MM, 1.0) is None

    def test_a_ridge_does_not_fall(self):
        hollow = hollow_of(self.groove(), self.side(), MM, 1.0)
        line = (*hollow.line[:3], (-3000.0, 18_000.0), *hollow.line[3:])
        assert not Hollow(line, hollow.mouth, hollow.tops, hollow.leans, hollow.width, hollow.lowest).falls

    def test_aimed_wider_and_deeper(self):
        aimed = hollow_of(self.groove(), self.side(), MM, 1.0).aimed(6100, 16_950.0)
        assert aimed.mouth == (-6100.0, 0.0)
        assert aimed.floor == 16_950.0
        assert aimed.tops == (20_000.0, 20_000.0)

    @pytest.mark.parametrize("near", [-4.0, -4.1, -7.3, -20.0])
    @pytest.mark.parametrize("width", [0.6, 0.7, 2.2, 3.1])
    def test_both_feet_of_upright_walls_belong_to_the_floor(self, near, width):
        # z_near - z_far is 0.5999999999999996 where 0.6 is drawn: the far foot lay outside by that.
        far = round(near - width, 6)
        walls = ((0.0, 10.0), (near, 10.0), (near, 9.0), (far, 9.0), (far, 10.0), (-30.0, 10.0))
        groove = replace(self.groove(), shape="rectangular", z_near=near, z_far=far)
        groove = replace(groove, mouth_diameter=20.0, floor_diameter=18.0)
        hollow = hollow_of(groove, Ground(OUTSIDE, (walls[0], walls[-1]), walls), MM, 0.5)
        assert hollow.lowest == pytest.approx(-500 * width)
        aimed = hollow.aimed(round(1000 * width) + 70, 9000.0)
        assert [z for z, h in aimed.line if h == 9000.0] == pytest.approx([-1000 * width - 70, 0.0])

    def test_an_upright_wall_takes_its_corner_along(self):
        line = [(-8.0, 10.0), (-6.0, 10.0), (-3.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, 10.0), (2.0, 10.0)]
        assert deepened(line, 10.0, -1.0, -2.0) == [10.0, 10.0, -1.0, -1.0, 0.0, 10.0, 10.0]


def test_roughing_keeps_off_by_the_allowance_and_leaves_little_at_the_walls():
    lowest = np.concatenate([np.linspace(3000, 0, 4000), np.zeros(3000), np.linspace(0, 3000, 4000)])
    stock = np.full(lowest.size + 2004, 3000.0)
    rough = rough_plunges(lowest, stock, tool(2.0), MM, 0, 100, 0.5)
    for offset, rise in rough.plunges:
        beside = lowest[max(0, offset - 100) : offset + 101]
        assert rise / 2 >= beside.max() + 100
    offsets = sorted(plunge.offset for plunge in rough.plunges)
    assert max(b - a for a, b in pairwise(offsets)) <= 2000 * 0.8
    assert offsets[0] <= 1000
    assert lowest.size - offsets[-1] <= 1001


@pytest.mark.parametrize("low", [-61.0, -60.0, -45.0, -40.0, -39.9, -30.0, -20.5, -20.0, -10.0, -5.0, -1e-3, 0.0])
def test_the_way_into_a_bore_is_as_high_as_the_highest_land_on_it(low):
    # Lands of a bore by hand, heights of a hollow side below the axis; between two points a line. The oracle looks at a
    # hundred thousand places from there to the front, and at the points themselves.
    lands = (
        (0.0, -15.0),
        (-10.0, -15.0),
        (-10.0, -18.0),
        (-20.0, -18.0),
        (-20.0, -12.0),
        (-40.0, -16.0),
        (-60.0, -20.0),
    )
    ground = Ground(INSIDE, lands, ())
    z, heights = np.array([-u for u, _ in lands]), np.array([h for _, h in lands])
    looked = np.append(np.linspace(0.0, -low, 100_001), z[(z >= 0) & (z <= -low)])
    seen = [*np.interp(looked[looked <= 60.0], z, heights), *heights[np.isin(z, looked)]]
    wanted = INSIDE.up * max(seen)
    assert ground.highest(low, min(low + 3.0, 0.0)) == pytest.approx(wanted, abs=1e-3)
