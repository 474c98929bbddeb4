"""The profile of what is left: exact breakpoints, sloping pieces to the increment, nothing lost or invented.

Oracle: a plain array with one height per increment.
"""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from postproc.cutting.metal import FAR, UNCUT, CutProfile, Metal
from postproc.cutting.stock import beyond
from postproc.motion import Motion


def bar(length: int = 60, height: int = 40) -> Metal:
    return Metal([(-length, height, 0, height)])


def pieces(profile: CutProfile) -> list[tuple[int, int, int, int, int]]:
    inner = profile.within(-60, 0)
    return [
        (int(a), int(h), int(b), int(k), int(line))
        for a, b, h, k, line in zip(inner.u[:-1], inner.u[1:], inner.start, inner.end, inner.line, strict=True)
    ]


def test_a_plunge_leaves_a_floor_with_its_line():
    metal = bar()
    assert metal.cut((-13, 34, -10, 34), 7)
    assert pieces(metal.profile()) == [(-60, 40, -13, 40, UNCUT), (-13, 34, -10, 34, 7), (-10, 40, 0, 40, UNCUT)]


def test_what_lies_above_is_not_cut():
    metal = bar()
    assert not metal.cut((-13, 40, -10, 40), 7)
    assert not metal.cut((5, 10, 9, 10), 7)
    assert len(pieces(metal.profile())) == 1


def test_pecks_leave_only_the_deepest():
    metal = bar()
    for depth in (38, 36, 34, 36):
        metal.cut((-13, depth, -10, depth), depth)
    assert pieces(metal.profile())[1] == (-13, 34, -10, 34, 34)


def test_overlapping_plunges_join_without_a_seam():
    metal = bar()
    metal.cut((-15, 34, -12, 34), 3)
    metal.cut((-13, 34, -10, 34), 3)
    assert pieces(metal.profile())[1] == (-15, 34, -10, 34, 3)


def test_a_slope_crosses_a_floor_where_it_should():
    metal = bar()
    metal.cut((-20, 30, -10, 30), 1)
    metal.cut((-25, 40, -15, 20), 2)
    assert pieces(metal.profile())[1:4] == [(-25, 40, -20, 30, 2), (-20, 30, -15, 20, 2), (-15, 30, -10, 30, 1)]


def test_above_measures_what_stands_over_a_move():
    metal = bar()
    metal.cut((-13, 34, -10, 34), 1)
    assert metal.above((-13, 36, -10, 36)) == -2
    assert metal.above((-14, 36, -10, 36)) == 4
    assert metal.highest(-13, -10) == 34
    assert metal.highest(1, 9) == -FAR


def test_a_copy_is_cut_apart():
    metal = bar()
    twin = metal.copy()
    twin.cut((-13, 34, -10, 34), 1)
    assert metal.highest(-13, -10) == 40
    assert twin.highest(-13, -10) == 34


@pytest.mark.parametrize("pieces", [[(0, 1, 5, 1), (3, 1, 9, 1)], [(0, 1, 0, 1)], [(5, 1, 3, 1)], [(0, 1, 1 << 40, 1)]])
def test_pieces_must_follow_one_another(pieces):
    with pytest.raises(ValueError, match="follow"):
        Metal(pieces)


@pytest.mark.parametrize("place", ["x0", "z0", "x1", "z1"])
@pytest.mark.parametrize(("at", "far"), [(1_073_741_824, False), (1_073_741_825, True)])
def test_no_lathe_goes_farther_than_so_far_along_either_axis_either_way(place, at, far):
    motion = Motion("feed", 0, 0, 0, 0, line=1, station=1, offset=1)
    assert {beyond(motion._replace(**{place: way * at})) for way in (1, -1)} == {far}


@pytest.mark.parametrize(("u", "count"), [([0, 1], 2), ([3, 2, 1], 2)])
def test_a_profile_is_checked_when_built(u, count):
    arrays = [np.zeros(count, dtype=np.int64)] * 3
    with pytest.raises(ValueError, match="breakpoints"):
        CutProfile(np.array(u), *arrays)


@st.composite
def level_cuts(draw):
    left = draw(st.integers(-70, 5))
    height = draw(st.integers(1, 45))
    return (left, height, left + draw(st.integers(1, 30)), height)


@given(st.lists(level_cuts(), max_size=40))
def test_level_cuts_are_exact(cuts):
    """Outside check: an array with one cell per increment (numpy minimum)."""
    metal, cells = bar(), np.full(60, 40)
    for line, cut in enumerate(cuts, 1):
        a, b = max(cut[0], -60) + 60, min(cut[2], 0) + 60
        touched = a < b and bool((cells[a:b] > cut[1]).any())
        assert metal.cut(cut, line) is touched
        if a < b:
            cells[a:b] = np.minimum(cells[a:b], cut[1])
    profile = metal.profile().within(-60, 0)
    assert (profile.start == profile.end).all()
    assert np.repeat(profile.start, np.diff(profile.u)).tolist() == cells.tolist()
    joins = (np.diff(profile.start) != 0) | (np.diff(profile.line) != 0)
    assert joins.all()


@st.composite
def sloping_cuts(draw):
    left = draw(st.integers(-7000, 500))
    return (left, draw(st.integers(1, 4500)), left + draw(st.integers(1, 3000)), draw(st.integers(1, 4500)))


@given(st.lists(sloping_cuts(), max_size=25))
def test_sloping_cuts_are_within_an_increment_or_two(cuts):
    """Outside check: heights worked out in floating point at every hundredth place (numpy interp)."""
    metal = bar(6000, 4000)
    places = np.arange(-6000, 0, 7) + 0.5
    heights = np.full(len(places), 4000.0)
    for line, cut in enumerate(cuts, 1):
        metal.cut(cut, line)
        inside = (places > cut[0]) & (places < cut[2])
        slope = np.interp(places, (cut[0], cut[2]), (cut[1], cut[3]))
        heights = np.where(inside, np.minimum(heights, slope), heights)
    profile = metal.profile().within(-6000, 0)
    k = np.searchsorted(profile.u, places) - 1
    share = (places - profile.u[k]) / (profile.u[k + 1] - profile.u[k])
    found = profile.start[k] + (profile.end[k] - profile.start[k]) * share
    steep = max((abs(c[3] - c[1]) / (c[2] - c[0]) for c in cuts), default=0.0)
    assert np.abs(found - heights).max() <= 2.0 + steep


@st.composite
def pieces_to_cut(draw):
    """Straight pieces, level or sloping, here and there along a bar, with their lines."""
    start, width = draw(st.integers(-60, -2)), draw(st.integers(1, 12))
    near, far = draw(st.integers(5, 40)), draw(st.integers(5, 40))
    return (start, near, min(start + width, 0), far if draw(st.booleans()) else near), draw(st.integers(1, 3))


@example([((-2, 5, -1, 5), 1), ((-5, 5, -3, 5), 1)], [((-4, 5, -2, 5), 2)], 0)
@given(st.lists(pieces_to_cut(), max_size=25), st.lists(pieces_to_cut(), max_size=5), st.integers(0, 20))
def test_many_cuts_at_once_leave_what_they_leave_one_by_one(cuts, before, again):
    # The same once more farther on: what is cut in the same way may be cut once, and what only looks so may not.
    cuts += [((u0 + again, h0, u1 + again, h1), line) for (u0, h0, u1, h1), line in cuts[::2] if u1 + again <= 0]
    one_by_one, at_once = bar(), bar()
    for metal in (one_by_one, at_once):
        for piece, line in before:
            metal.cut(piece, line)
    for piece, line in cuts:
        one_by_one.cut(piece, line)
    at_once.cut_all([(((0, h0, u1 - u0, h1),), u0, line) for (u0, h0, u1, h1), line in cuts])
    assert pieces(at_once.profile()) == pieces(one_by_one.profile())
    assert at_once.profile().u.tolist() == one_by_one.profile().u.tolist()
    # What stands inside a slope hangs on the whole line it is of.
    assert [at_once.above((u, 0, u + 1, 0)) for u in range(-60, 0)] == [
        one_by_one.above((u, 0, u + 1, 0)) for u in range(-60, 0)
    ]


@pytest.mark.parametrize(
    ("slope", "by"), [(0, (8, 8)), (20, ()), (0, (8, 7))], ids=["alike", "one slopes", "other lines"]
)
def test_only_what_is_alike_is_cut_once(slope, by):
    def metal() -> Metal:
        made = Metal([(-60, 40, -40, 40), (-40, 40, -30, 40 - slope), (-30, 40, 0, 40)])
        for at, line in zip((-60, -40), by, strict=False):
            made.cut((at, 38, at + 10, 38), line)
        return made

    one_by_one, at_once, shape = metal(), metal(), ((0, 5, 5, 35), (5, 35, 10, 39))
    for at in (-60, -40):
        for u0, h0, u1, h1 in shape:
            one_by_one.cut((at + u0, h0, at + u1, h1), 9)
    at_once.cut_all([(shape, at, 9) for at in (-60, -40)])
    assert pieces(at_once.profile()) == pieces(one_by_one.profile())


def test_a_slope_that_ends_where_level_metal_goes_on_is_a_piece_of_its_own():
    metal = bar()
    metal.cut_all([(((0, 40, 10, 35),), -50, 9)])
    assert pieces(metal.profile()) == [(-60, 40, -50, 40, UNCUT), (-50, 40, -40, 35, 9), (-40, 40, 0, 40, UNCUT)]
