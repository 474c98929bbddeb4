"""A groove, or the view, that a hand crossed out: two free lines that cross in their middles over it."""

import math
from itertools import pairwise

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, rotated, section, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
MM = ReadOptions(units="mm")


def cross(z, r, half=4.0, lean=45.0, *, other=None, long=1.0, aside=0.0):
    """Two lines of a half length about a place: one leans by some degrees, the other back, or by an angle of its own.

    The second is so many times as long and has its middle aside along z.
    """
    turns = math.radians(lean), math.radians(180.0 - lean if other is None else other)
    rows = zip(turns, (half, half * long), (z, z + aside), strict=True)
    return [(x - h * math.cos(t), r - h * math.sin(t), x + h * math.cos(t), r + h * math.sin(t)) for t, h, x in rows]


def read(*lines, draw=side_view, turn=0, **options):
    ink = draw(SHAFT)
    ink.solid += [(*line, 0.0) for line in lines]
    return read_sheet(sheet_of(ink, rotated(turn)), ReadOptions(units="mm", **options))


def told(*lines, **more):
    return [f.message.split(" at X")[0] for f in read(*lines, **more).findings if "crossed out" in f.message]


GROOVE, VIEW = ["Two lines cross over the groove"], ["Two lines cross over the view"]


@all_pairs(turn=[0, 90, 33], draw=[side_view, full_outline, half_profile], sides=[(1,), (1, -1)])
def test_a_groove_that_is_crossed_out_on_one_side_or_both_is_asked_about(sides, draw, turn):
    sides = sides if draw is not half_profile else (1,)
    lines = [line for s in sides for line in cross(-27.0, s * 18.6)]
    assert told(*lines, draw=draw, turn=turn) == GROOVE


def test_one_cross_over_both_sides_of_a_groove_is_over_it():
    assert told(*cross(-27.3, 0.4, 19.3, 80.0, other=101.0)) == []  # too steep
    assert told(*cross(-27.3, 0.4, 19.3, 74.0)) == GROOVE


def test_it_may_be_accepted():
    (stop,) = [f for f in read(*cross(-27.0, 18.6)).findings if f.stops]
    assert stop.code == "outline-unclear"
    assert [f for f in read(*cross(-27.0, 18.6), accept=frozenset({stop.key})).findings if f.stops] == []


@pytest.mark.parametrize(("half", "out"), [(45.0, VIEW), (17.0, VIEW), (15.5, [])])
def test_a_cross_over_half_the_view_or_more_is_over_it(half, out):
    """At 30 degrees half of 60 is reached with 17.32 to either side; beside the grooves."""
    assert told(*cross(-44.0, 0.7, half, 27.5)) == out


@pytest.mark.parametrize(
    ("how", "out"),
    [
        ({"lean": 15.5}, GROOVE),
        ({"lean": 14.5}, []),
        ({"lean": 74.5}, GROOVE),
        ({"lean": 75.5}, []),
        ({"other": 60.0}, []),  # both lean one way
        ({"other": 110.0}, GROOVE),
        ({"long": 1.24}, GROOVE),
        ({"long": 1.26}, []),
        ({"aside": 0.79}, GROOVE),  # a tenth of 8
        ({"aside": 0.81}, []),
    ],
)
def test_a_cross_is_two_lines_alike_that_lean_against_one_another(how, out):
    assert told(*cross(-27.0, 18.6, **how)) == out


@pytest.mark.parametrize(
    "lines",
    [
        cross(-40.0, 18.6),  # on a land
        cross(-27.0, 32.0),  # beside the part
        cross(-27.0, 18.6)[:1],  # one line
        [*cross(-27.0, 18.6), (-30.0, 21.4284, -20.0, 21.4284)],  # an end on a line
        [(-27.0 - 4, 18.6, -27.0 + 4, 18.6), (-27.0, 14.6, -27.0, 22.6)],  # along and across
        [(-25.0, -17.0, -29.0, 17.0), (-25.0, 17.0, -29.0, -17.0)],  # the diagonals of a flat
    ],
)
def test_other_lines_cross_nothing_out(lines):
    assert told(*lines) == []


def test_a_groove_in_a_bore_is_crossed_out_like_any():
    bored = Turned(((60.0, 40.0),), bore=16.0)
    ink = section(bored)
    ink.solid = [e for e in ink.solid if not (e[1] == e[3] and abs(e[1]) == 8.0)]
    for s in (1, -1):
        inner = [(0, 8), (-20, 8), (-20, 11), (-25, 11), (-25, 8), (-60, 8)]
        ink.solid += [(a, s * b, c, s * d, 0.0) for (a, b), (c, d) in pairwise(inner)]
    ink.solid += [(*line, 0.0) for line in cross(-22.5, 9.4)]
    messages = [f.message for f in read_sheet(sheet_of(ink), MM).findings]
    assert any(m.startswith("Two lines cross over the groove") for m in messages)
