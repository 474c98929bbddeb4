"""The profile of what is left, count by count, where every slope is a whole number of counts a count.

Oracle: for each stretch of one count the height at either end of it, which a cut makes no higher than its own there,
and the line of the cut that made it so. With whole slopes nothing is rounded, so that all of it is exact.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from postproc.cutting.insert import Piece
from postproc.cutting.metal import FAR, UNCUT, CutProfile, Metal

LONG, HIGH = 24, 60


class Counts:
    """A bar count by count: heights at both ends of each stretch, and the lines that may have left it."""

    def __init__(self) -> None:
        self.ends = [[HIGH, HIGH] for _ in range(LONG)]
        self.lines = [{UNCUT} for _ in range(LONG)]

    def cut(self, piece: Piece, line: int) -> bool:
        """Whether there was anything above."""
        gone = False
        for k in range(LONG):
            u = k - LONG
            if not piece[0] <= u < piece[2]:
                continue
            steep = (piece[3] - piece[1]) // (piece[2] - piece[0])
            new = [piece[1] + steep * (u - piece[0]), piece[1] + steep * (u + 1 - piece[0])]
            old = self.ends[k]
            if new == old:
                self.lines[k] |= {line}
            elif new[0] < old[0] or new[1] < old[1]:
                gone = True
                self.ends[k], self.lines[k] = [min(new[0], old[0]), min(new[1], old[1])], {line}
        return gone

    def above(self, piece: Piece) -> int:
        """How far anything stands over a piece at most, on the bar."""
        steep = (piece[3] - piece[1]) // (piece[2] - piece[0])
        return max(
            self.ends[u + LONG][end] - piece[1] - steep * (u + end - piece[0])
            for u in range(piece[0], piece[2])
            for end in (0, 1)
        )


def bar() -> Metal:
    return Metal([(-LONG, HIGH, 0, HIGH)])


@st.composite
def whole_slopes(draw, inside: bool = False) -> Piece:
    """Pieces that are level or rise or fall by whole counts, some beyond the bar, some from where others end."""
    start, wide = draw(st.integers(-LONG if inside else -LONG - 4, -1)), draw(st.integers(1, 9))
    end = min(start + wide, 0) if inside else start + wide
    height, steep = draw(st.integers(30, 62)), draw(st.sampled_from([0, 0, 1, -1, 2, -3]))
    return (start, height, end, height + steep * (end - start))


def seen(profile: CutProfile, u0: int = -LONG, u1: int = 0) -> list[tuple[list[int], int]]:
    """Heights at the ends of each count and its line, read off the pieces with nothing rounded."""
    found = []
    for u in range(u0, u1):
        at = next(i for i in range(len(profile)) if profile.u[i] <= u < profile.u[i + 1])
        (a, b), (start, end) = (int(v) for v in profile.u[at : at + 2]), (int(profile.start[at]), int(profile.end[at]))
        steep, rest = divmod(end - start, b - a)
        assert rest == 0
        found.append(([start + steep * (u - a), start + steep * (u + 1 - a)], int(profile.line[at])))
    return found


@given(st.lists(whole_slopes(), max_size=12), st.lists(whole_slopes(inside=True), min_size=1, max_size=6))
def test_whole_slopes_are_cut_exactly(cuts, asked):
    metal, counts = bar(), Counts()
    for line, piece in enumerate(cuts, 1):
        assert metal.cut(piece, line) is counts.cut(piece, line)
    profile = metal.profile()
    assert [ends for ends, _ in seen(profile)] == counts.ends
    assert all(line in may for (_, line), may in zip(seen(profile), counts.lines, strict=True))
    assert (profile.start[[0, -1]] == -FAR).all()
    for piece in asked:
        assert metal.above(piece) == counts.above(piece)
        stretch = counts.ends[piece[0] + LONG : piece[2] + LONG]
        assert metal.highest(piece[0], piece[2]) == max(max(ends) for ends in stretch)
    rows = [*zip(profile.u.tolist(), profile.start.tolist(), profile.end.tolist(), profile.line.tolist(), strict=False)]
    for (_, a, b, line), (_, c, d, other) in pairwise(rows):
        assert not a == b == c == d or line != other, "level neighbours of one line are one piece"


@given(st.lists(whole_slopes(), max_size=10), whole_slopes(inside=True))
def test_a_clipped_profile_is_the_whole_of_it_there(cuts, asked):
    metal, counts = bar(), Counts()
    for line, piece in enumerate(cuts, 1):
        metal.cut(piece, line)
        counts.cut(piece, line)
    whole = metal.profile()
    inner = whole.within(asked[0], asked[2])
    assert inner.u.tolist() == [asked[0], *[u for u in whole.u.tolist() if asked[0] < u < asked[2]], asked[2]]
    ends = counts.ends[asked[0] + LONG : asked[2] + LONG]
    assert (inner.start[0], inner.end[-1]) == (ends[0][0], ends[-1][1])
    assert seen(inner, asked[0], asked[2]) == seen(whole, asked[0], asked[2])


LEVEL = st.tuples(st.integers(-LONG, -1), st.integers(1, 9), st.integers(30, 62))


@given(st.lists(LEVEL, max_size=8), LEVEL, st.integers(0, 5))
def test_what_stands_thick_over_a_level_piece(cuts, asked, more):
    metal, counts = bar(), Counts()
    for line, (at, wide, height) in enumerate(cuts, 1):
        metal.cut((at, height, at + wide, height), line)
        counts.cut((at, height, at + wide, height), line)
    at, end, height = asked[0], min(asked[0] + asked[1], 0), asked[2]
    stretch = [counts.ends[u + LONG][0] for u in range(at, end)]
    assert metal.thickness((at, height, end, height), more) == sum(h > height + more for h in stretch)
    assert metal.level(at, end) == max(stretch)


def test_where_a_slope_is_thick_its_middle_tells():
    """From 60 down to 40: a piece at 48 has 2 over it at its middle at 50, and none at the end."""
    metal = bar()
    metal.cut((-20, 60, -10, 40), 1)
    assert [metal.thickness((-20, 48, -10, 48), more) for more in (0, 1, 2, 3)] == [10, 10, 0, 0]
    # A sloping piece that lies 3 below it all the way; and half of it, whose middle at 55 is 7 over 48.
    assert [metal.thickness((-20, 57, -10, 37), more) for more in (2, 3)] == [10, 0]
    assert [metal.thickness((-20, 48, -15, 48), more) for more in (7, 8)] == [5, 0]
    assert metal.level(-20, -10) is None
    assert metal.level(-24, -20) == 60
    assert metal.level(-24, -19) is None


@pytest.mark.parametrize(("height", "lines"), [(40, [9]), (41, [9, 1, 9]), (39, [9])])
def test_a_level_cut_takes_the_place_of_what_it_does_not_lie_above(height, lines):
    """In a bar of 60 a floor of 40: what only touches it takes it over, what lies above it leaves it its line."""
    metal = bar()
    metal.cut((-12, 40, -8, 40), 1)
    assert metal.cut((-16, height, -4, height), 9)
    assert metal.profile().within(-16, -4).line.tolist() == lines


@pytest.mark.parametrize(("height", "lines"), [(40, [9]), (41, [1, 9])])
def test_a_level_cut_takes_the_place_of_a_floor_beside_a_slope_as_well(height, lines):
    """A floor of 40 and a slope from there up to 50: at 40 none of it lies below the cut."""
    metal = bar()
    metal.cut((-20, 40, -15, 40), 1)
    metal.cut((-15, 40, -5, 50), 2)
    assert metal.cut((-20, height, -5, height), 9)
    found = metal.profile().within(-20, -5)
    assert [*dict.fromkeys(line for line in found.line.tolist() if line != 2)] == lines
    assert (2 in found.line.tolist()) is (height == 41)


def test_over_a_floor_and_a_slope_only_the_stretch_asked_for_counts():
    """A floor of 40 with slopes of 2 a count up from either end of it: two counts along them are 44."""
    metal = bar()
    metal.cut((-22, 60, -12, 40), 1)
    metal.cut((-12, 40, -10, 40), 2)
    metal.cut((-10, 40, 0, 60), 3)
    assert [metal.highest(*at) for at in ((-14, -11), (-11, -8), (-14, -8), (-12, -10))] == [44, 44, 44, 40]
    assert metal.above((-14, 50, -8, 50)) == -6


@pytest.mark.parametrize(("by", "left"), [(-1, False), (0, False), (1, True)])
def test_a_slope_of_one_count_over_another_is_cut_off(by, left):
    """Two slopes side by side, a count apart; with none between them the first keeps it."""
    metal = bar()
    assert metal.cut((-20, 50, -10, 40), 1)
    assert metal.cut((-20, 50 - by, -10, 40 - by), 2) is left
    inner = metal.profile().within(-20, -10)
    assert (inner.start.tolist(), inner.end.tolist()) == ([50 - max(by, 0)], [40 - max(by, 0)])
    assert inner.line.tolist() == [2 if left else 1]


@pytest.mark.parametrize(("start", "end"), [(1, 0), (0, 1), (1, 1)])
def test_a_slope_that_lies_a_count_lower_at_one_end_takes_its_place(start, end):
    metal = bar()
    metal.cut((-20, 50, -10, 40), 1)
    assert metal.cut((-20, 50 - start, -10, 40 - end), 2)
    inner = metal.profile().within(-20, -10)
    assert (inner.u.tolist(), inner.start.tolist(), inner.end.tolist()) == ([-20, -10], [50 - start], [40 - end])
    assert inner.line.tolist() == [2]


@pytest.mark.parametrize("second", [-24, -20, -9])
def test_slopes_that_were_cut_the_same_elsewhere_are_split_where_they_stand(second):
    """Two alike flanks of 3 a count, made at once; the second is cut into afterwards, and stands as its line goes."""
    metal = Metal([(-30, 60, 0, 60)])
    metal.cut_all([(((0, 60, 4, 48),), at, 7) for at in (-30, second)])
    assert [metal.above((second + k, 0, second + k + 1, 0)) for k in range(4)] == [60, 57, 54, 51]
    assert metal.cut((second + 1, 50, second + 3, 50), 8)
    assert [metal.above((second + k, 0, second + k + 1, 0)) for k in range(4)] == [60, 50, 50, 51]


def test_a_slope_that_many_cuts_lie_in_stays_on_its_line():
    """Down by one a count from -40 to -20 between two level pieces; cut once in its middle."""
    metal = Metal([(-60, 40, -40, 40), (-40, 40, -20, 20), (-20, 20, 0, 20)])
    metal.cut_all([(((0, 10, 4, 10),), -32, 9)])
    found = metal.profile().within(-60, 0)
    assert found.u.tolist() == [-60, -40, -32, -28, -20, 0]
    assert (found.start.tolist(), found.end.tolist()) == ([40, 40, 10, 28, 20], [40, 32, 10, 20, 20])


def test_slopes_that_only_begin_alike_are_cut_each_for_itself():
    """The first falls by one a count, the second by two; both are cut from the third count on to the sixth."""
    metal = Metal([(-60, 40, -50, 30), (-50, 40, -40, 40), (-40, 40, -30, 20), (-30, 40, 0, 40)])
    metal.cut_all([(((3, 15, 6, 15),), at, 9) for at in (-60, -40)])
    for at, fall in ((-60, 1), (-40, 2)):
        heights = [metal.above((at + k, 0, at + k + 1, 0)) for k in range(10)]
        assert heights == [15 if 3 <= k < 6 else 40 - fall * k for k in range(10)]


@pytest.mark.parametrize("peak", [(10, 0, 20, 50), (10, 50, 20, 0)])
def test_a_peak_between_level_ends_counts_on_whichever_side_it_falls_off(peak):
    """A slope up to 50 with a wall behind it, or before it."""
    metal = Metal([(0, 0, 10, 0), peak, (20, 0, 30, 0)])
    assert metal.above((5, 7, 25, 7)) == 43
    assert metal.highest(5, 25) == 50
    assert metal.cut((5, 50, 25, 50), 1) is False
    assert metal.cut((5, 49, 25, 49), 1) is True
    assert metal.highest(5, 25) == 49


@pytest.mark.parametrize(
    ("pieces", "begins", "left"),
    [
        # from in front of the metal into it, and from it out behind
        ([(0, 10, 20, 10)], -5, [(0, 5, 5, 5), (5, 10, 20, 10)]),
        ([(0, 10, 20, 10)], 15, [(0, 10, 15, 10), (15, 5, 20, 5)]),
        # it ends, and begins, half-way on a slope that comes down to the height of the level beside it
        ([(0, 10, 10, 10), (10, 30, 20, 10)], 5, [(0, 10, 5, 10), (5, 5, 15, 5), (15, 20, 20, 10)]),
        ([(10, 10, 20, 30), (20, 10, 30, 10)], 15, [(10, 10, 15, 20), (15, 5, 25, 5), (25, 10, 30, 10)]),
        # it ends, and begins, half-way on a slope from another height up to that of the level beside it
        ([(0, 30, 10, 30), (10, 10, 20, 30)], 5, [(0, 30, 5, 30), (5, 5, 15, 5), (15, 20, 20, 30)]),
        ([(10, 30, 20, 10), (20, 30, 30, 30)], 15, [(10, 30, 15, 20), (15, 5, 25, 5), (25, 30, 30, 30)]),
    ],
)
def test_cuts_made_all_at_once_leave_what_lies_beside_them(pieces, begins, left):
    """Ten long, at a height of 5; of what is not cut each slope goes on as it was."""
    metal = Metal(pieces)
    metal.cut_all([(((0, 5, 10, 5),), begins, 3)])
    found = metal.profile()
    rows = [row.tolist() for row in (found.u[1:-2], found.start[1:-1], found.u[2:-1], found.end[1:-1])]
    assert [*zip(*rows, strict=True)] == left
