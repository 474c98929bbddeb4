"""What a program leaves of the metal, against a slow simulation with polygons, and against Pappus' theorem.

Outside checks: shapely's union of swept rectangles; the volume of a solid of revolution by Pappus' centroid theorem;
scipy's numerical integral for the time of a cut.
"""

import random
import time
from itertools import pairwise
from math import pi

import numpy as np
import pytest
from scipy.integrate import quad
from shapely import Polygon, box
from support.moves import Moves, shop, tool
from support.parts import part_of, row
from support.slow_cut import AIR, left_over, metal_of

from extractor.side import FACE, INSIDE, OUTSIDE
from planner.increment import Increments
from postproc import cut_profile, run_seconds
from postproc.cutting.metal import CutProfile
from postproc.cutting.stock import _upper, part_pieces
from postproc.cutting.turned import Turned
from postproc.reading.seconds import motion_seconds

MM = Increments.of("mm")
TOOLS = (tool(), tool(station=5, offset=5, width=1.5, reference="near"))
STEPPED = part_of(row(3, -5, 5, 3, 34), steps=[(0, 40), (-30, 56)], length=60)
CONE = part_of([], diameter=40)


def polygon(profile: CutProfile, back: float = -60.0) -> Polygon:
    """The metal under a profile along the drawn part, in (z, diameter)."""
    inner = profile.within(MM.count(back), 0)
    points = []
    for a, b, h, k in zip(inner.u[:-1], inner.u[1:], inner.start, inner.end, strict=True):
        points += [(a / 1000, h / 1000), (b / 1000, k / 1000)]
    return Polygon([(back, -AIR), *points, (0.0, -AIR)]).intersection(box(back, 0, 0, AIR))


def random_moves(rng: random.Random, count: int, sloping: bool) -> Moves:
    """Plunges, sideways cuts and slopes anywhere over the part, to the increment."""
    moves = Moves(60.0, 5.0)
    for _ in range(count):
        which = {"station": 3, "offset": 3} if rng.random() < 0.6 else {"station": 5, "offset": 5}
        x, z = rng.randrange(20_000, 60_000) / 1000, rng.randrange(-58_000, 2_000) / 1000
        moves.rapid(60.0, **which).rapid(None, z, **which).feed(x, **which)
        if rng.random() < 0.5:
            along = rng.randrange(-58_000, 2_000) / 1000
            moves.feed(rng.randrange(20_000, 60_000) / 1000 if sloping else None, along, **which)
    return moves


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("sloping", [False, True], ids=["level", "sloping"])
def test_random_programs_leave_what_the_slow_simulation_leaves(seed, sloping):
    """Twenty-five programs a seed, five hundred level and five hundred sloping ones in all."""
    rng = random.Random(seed)
    for _ in range(25):
        moves = random_moves(rng, rng.randint(1, 12), sloping)
        found = polygon(cut_profile(moves.motions, TOOLS, STEPPED, MM))
        slow = left_over(STEPPED, moves.run(), shop(*TOOLS)).intersection(box(-60, 0, 0, AIR))
        off = found.symmetric_difference(slow)
        # A split slope is rounded to an increment of height; level cuts are exact.
        allowed = 0.1 if sloping else 1e-6
        assert off.area <= allowed
        assert off.buffer(-0.002).is_empty


@pytest.mark.parametrize("seed", range(20))
def test_the_line_that_left_a_height_is_the_first_that_came_so_low(seed):
    """Against a row of cells that each move goes through; places on a coarse raster, so that many cuts come alike."""
    rng = random.Random(seed)
    moves = Moves(60.0, 5.0)
    bar = [(56, 0)] * 60
    for _ in range(rng.randint(1, 25)):
        z, x, along = rng.randrange(-56, 0), rng.randrange(40, 60, 4), rng.choice((0, 0, 1, 7, 20, 33))
        moves.rapid(60.0).rapid(None, z).feed(x).feed(None, max(z - along, -56))
        for cell in range(max(z - along, -56), z + 3):
            # The plunge comes before the way along, on a line of its own.
            line = moves.motions[-2].line if z <= cell < z + 3 else moves.motions[-1].line
            if cell < 0 and x < bar[cell][0]:
                bar[cell] = x, line
    part = part_of([], diameter=56, length=60)
    found = cut_profile(moves.motions, [tool()], part, MM).within(-60_000, 0)
    spread = np.repeat(np.column_stack((found.start // 1000, found.line)), np.diff(found.u) // 1000, axis=0)
    assert [tuple(one) for one in spread.tolist()] == bar


@pytest.mark.parametrize(("x", "cuts"), [(1 << 30, True), ((1 << 30) + 1, False), (1 << 80, False)])
def test_a_move_farther_than_a_lathe_travels_cuts_nothing(x, cuts):
    """One that begins beyond any lathe is no cut, the others of its program are, whatever way it is worked out."""
    moves = Moves(42.0, -20.0).feed(34.0)
    far = moves.motions[-1]._replace(x0=x, x1=30_000, z0=-40_000, z1=-40_000)
    profile = cut_profile([*moves.motions, far], [tool()], part_of([], diameter=56, length=60), MM)
    assert profile.within(-20_000, -17_000).start.tolist() == [34_000]
    assert profile.within(-40_000, -37_000).start.tolist() == [30_000 if cuts else 56_000]


@pytest.mark.parametrize("seed", range(10))
def test_removed_volume_is_that_of_pappus(seed):
    """Volume = 2 pi times the centroid's radius times the area (Pappus), against the sum of frusta."""
    moves = random_moves(random.Random(seed), 8, sloping=True)
    profile = cut_profile(moves.motions, TOOLS, STEPPED, MM).within(-60_000, 0)
    whole = sum(pi * abs(z0 - z1) * r**2 for (z0, r), (z1, _) in pairwise(STEPPED.lands) if z0 != z1)
    width = np.diff(profile.u) / 1000
    a, b = profile.start / 2000, profile.end / 2000
    left = float((pi * width * (a * a + a * b + b * b) / 3).sum())
    removed = metal_of(STEPPED).difference(left_over(STEPPED, moves.run(), shop(*TOOLS)))
    half = removed.intersection(box(-60, 0, 0, AIR))
    pappus = 2 * pi * (half.centroid.y / 2) * (half.area / 2)
    assert whole - left == pytest.approx(pappus, rel=2e-4)


def test_a_bar_goes_on_behind_the_part_and_may_be_thicker():
    stock = part_pieces(STEPPED, MM, OUTSIDE, stock=70.0)
    assert stock[0][0] < -60_000
    assert {piece[1] for piece in stock} == {70_000}
    lands = part_pieces(STEPPED, MM, OUTSIDE)
    assert [(p[1], p[3]) for p in lands] == [(56_000, 56_000), (56_000, 56_000), (40_000, 40_000)]


def test_a_bore_is_cut_from_inside():
    part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
    moves = Moves(18, 5).rapid(18, -13).feed(26).rapid(18)
    profile = cut_profile(moves.motions, [tool(where="inside")], part, MM, side=INSIDE).within(-60_000, 0)
    assert profile.u.tolist() == [-60_000, -13_000, -10_000, 0]
    assert profile.start.tolist() == [-20_000, -26_000, -20_000]


def test_the_face_is_seen_from_the_front():
    part = part_of([], steps=[(0, 40), (-30, 56)], bore=10.0)
    assert part_pieces(part, MM, FACE) == [(10_000, 0, 40_000, 0), (40_000, -30_000, 56_000, -30_000)]


def test_moves_of_a_station_without_a_tool_cut_nothing():
    moves = Moves().rapid(42, -13, station=9).feed(34, station=9)
    profile = cut_profile(moves.motions, TOOLS, STEPPED, MM)
    assert profile.within(-13_000, -10_000).start.tolist() == [40_000]


def test_a_side_that_no_tool_cuts_has_no_metal_taken():
    profile = cut_profile(Moves().motions, TOOLS, STEPPED, MM, side=INSIDE)
    assert len(profile) >= 1


def test_a_hundred_thousand_moves_take_no_quadratic_time():
    """Ten times the moves may take some twenty times the time, never a hundred: a ratio, no seconds."""
    rng = random.Random(1)
    long_bar = part_of([], length=20_000)

    def seconds(count: int) -> float:
        moves = Moves(42.0, 0.0)
        for i in range(count):
            moves.rapid(42.0, -i * 0.06).feed(rng.randrange(30_000, 40_000) / 1000)
        start = time.perf_counter()
        cut_profile(moves.motions, TOOLS, long_bar, MM)
        return time.perf_counter() - start

    assert seconds(20_000) < 40 * max(seconds(2_000), 0.002)


@pytest.mark.parametrize(
    ("d0", "d1", "feed", "speed", "clamp", "expected"),
    [
        # outside-checks section 6, computed there by scipy.integrate.quad and in closed form
        (40, 34, 0.08, 120, 3000, 2.1795),
        (100, 60, 0.12, 150, None, 16.7552),
        (20, 10, 0.05, 150, 3000, 2.1048),
        (40, 0, 0.1, 120, 3000, 6.9198),
        (40, 0, 0.1, 120, None, 6.2832),
    ],
)
def test_cutting_time_at_constant_surface_speed(d0, d1, feed, speed, clamp, expected):
    moves = Moves(d0, -10.0).feed(d1, feed=round(feed * 10_000), speed=float(speed), clamp=clamp)
    assert motion_seconds(moves.motions[0], MM, shop().machine) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("clamp", [None, 900, 2500])
@pytest.mark.parametrize("ends", [(40, -10, 34, -10), (40, -10, 20, -25), (34, -10, 34, -20), (10, 0, -4, 0)])
def test_cutting_time_against_the_integral(ends, clamp):
    """Outside check: scipy.integrate.quad over the way."""
    x0, z0, x1, z1 = ends
    motion = Moves(x0, z0).feed(x1, z1, speed=150.0, clamp=clamp).motions[0]

    def minutes(t: float) -> float:
        across = abs(x0 + (x1 - x0) * t)
        free = 1000 * 150.0 / (pi * max(across, 1e-12))
        return 1 / min(free, clamp or 1e12)

    way = np.hypot((x1 - x0) / 2, z1 - z0)
    integral, _ = quad(minutes, 0, 1, points=[0.2, 0.5, 5 / 7], limit=400)
    assert motion_seconds(motion, MM, shop().machine) == pytest.approx(60 * way / 0.08 * integral, rel=1e-6)


def test_cutting_time_in_inch_feed_per_minute_and_at_fixed_speed():
    inch = Increments.of("in")
    cut = Moves(2.0, -1.0, units="in").feed(1.5, feed=400, speed=300.0, clamp=None).motions[0]
    assert motion_seconds(cut, inch, shop(units="in").machine) == pytest.approx(5.7269, abs=1e-4)
    fixed = Moves(40, -10).feed(34, feed=800, speed=955.0, surface=False).motions[0]
    assert motion_seconds(fixed, MM, shop().machine) == pytest.approx(2.3560, abs=1e-4)
    minute = Moves(40, -10).feed(34, feed=1_000_000, per_minute=True).motions[0]
    assert motion_seconds(minute, MM, shop().machine) == pytest.approx(60 * 3 / 100)


def test_a_run_counts_rapids_and_tool_changes():
    machine = shop(rapid_rate=6000.0, tool_change=3.0).machine
    moves = Moves(40, 0).rapid(40, -60).rapid(40, 0, station=5, offset=5)
    assert run_seconds(moves.run(), machine) == pytest.approx(0.6 + 0.6 + 6.0)
    assert run_seconds(moves.run(), shop(rapid_rate=0.0).machine) == pytest.approx(6.0)


def line_at(piece, u):
    """The height of a straight piece at a place, no counts."""
    u0, h0, u1, h1 = piece
    return h0 + (h1 - h0) * (u - u0) / (u1 - u0)


def test_what_a_point_takes_off_lies_over_the_land_and_over_its_way():
    """Oracle: the higher of the two lines at every tenth of a count, which share nothing with the pieces given."""
    rng = random.Random(42)
    crossed = 0
    for _ in range(400):
        piece, land = (
            (u := rng.randrange(-90, 40), rng.randrange(0, 90), u + rng.randrange(20, 90), rng.randrange(0, 90))
            for _ in range(2)
        )
        taken = _upper(piece, land)
        first, last = max(piece[0], land[0]), min(piece[2], land[2])
        if first >= last:
            assert taken == []
            continue
        assert (taken[0][0], taken[-1][2]) == (first, last)
        assert all(a[2:] == b[:2] for a, b in pairwise(taken))
        crossed += len(taken) == 2
        steep = max(abs((h1 - h0) / (u1 - u0)) for u0, h0, u1, h1 in (piece, land))
        for one in taken:
            assert one[0] < one[2]
            for k in range(10 * (one[2] - one[0]) + 1):
                u = one[0] + k / 10
                higher = max(line_at(piece, u), line_at(land, u))
                assert abs(line_at(one, u) - higher) <= 1.0 + steep
    assert crossed > 40


@pytest.mark.parametrize(
    ("x", "z0", "inside"), [(18, 5, True), (18, 0, True), (18, 0.001, True), (42, 0, False), (42, 5, False)]
)
def test_a_point_that_comes_from_the_face_itself_is_in_the_bore(x, z0, inside):
    """Between a bore of 20 and 40 outside the way in is below 30."""
    turned = Turned(part_of([], bore=20.0), MM)
    moves = Moves(x, z0, station=9, offset=9).feed(None, -10)
    assert turned.follow(moves.motions[0]) is inside
