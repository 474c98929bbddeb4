"""Steps become exactly those that a dialect writes."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.programs import EVERY_KIND, FOUR_GROOVES

from extractor.errors import ProgramError
from planner.steps import Arc, Cut, GrooveCycle, Rapid, Remark
from postproc import find_dialect, lower
from postproc.vocabulary.cycle import depths, groove_moves, places

TWO, ONE, PLUNGE = (find_dialect(name) for name in ("two-block", "one-block", "plunge"))
START = (42_000, -13_000)


def test_a_dialect_with_the_cycle_keeps_it():
    assert lower(FOUR_GROOVES, TWO) == FOUR_GROOVES


def test_one_block_leaves_the_retract_to_the_control():
    cycle = next(s for s in lower(FOUR_GROOVES, ONE) if isinstance(s, GrooveCycle))
    assert cycle.retract == 0
    assert cycle.peck == 1_000


def test_plunge_writes_every_peck_out():
    # A by-hand table: start 42, floor 36, peck 2 radial, retract 0.5 radial; two grooves 5 apart.
    cycle = GrooveCycle(floor_x=36_000, end_z=-18_000, peck=2_000, shift=5_000, retract=500, feed=800)
    one = (Cut(800, x=38_000), Rapid(x=39_000), Cut(800, x=36_000), Rapid(x=42_000))
    wanted = (*one, Rapid(z=-18_000), *one, Rapid(z=-13_000))
    assert lower([cycle], PLUNGE, START) == wanted


def test_the_back_off_stays_inside_the_start():
    cycle = GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=0, retract=5_000, feed=800)
    assert max(s.x for s in lower([cycle], PLUNGE, START)) == 42_000


@pytest.mark.parametrize("dialect", [TWO, ONE])
def test_the_peck_is_always_said(dialect):
    (cycle,) = lower([GrooveCycle(floor_x=34_001, end_z=-13_000, peck=0, shift=0, retract=0, feed=800)], dialect, START)
    assert cycle.peck == 4_000


def test_a_single_groove_has_no_shift():
    (cycle,) = lower(
        [GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=5_000, retract=500, feed=800)], TWO, START
    )
    assert cycle.shift == 0


def test_remarks_are_cut_to_what_a_comment_holds():
    lines = lower([Remark("größer als " * 20)], TWO)
    assert len(lines) > 1
    assert all(isinstance(line, Remark) and len(line.text) <= 60 for line in lines)
    assert lower(lines, TWO) == lines


@pytest.mark.parametrize("dialect", [TWO, ONE, PLUNGE])
def test_what_can_not_be_lowered_is_named_all_at_once(dialect):
    good = FOUR_GROOVES[8]
    uneven = GrooveCycle(floor_x=34_000, end_z=-28_001, peck=1_000, shift=5_000, retract=500, feed=800)
    with pytest.raises(ProgramError) as caught:
        lower([good, Rapid(*START), uneven], dialect)
    assert "before any block has said where it starts" in str(caught.value)
    assert "15001 increments is not a whole number of shifts of 5000" in str(caught.value)
    assert dialect.name in str(caught.value)


@pytest.mark.parametrize("dialect", [TWO, ONE, PLUNGE])
def test_lowering_twice_changes_nothing(dialect):
    once = lower(EVERY_KIND, dialect)
    assert lower(once, dialect) == once


@given(st.integers(0, 100_000), st.integers(0, 100_000), st.integers(0, 9_000))
def test_depths_go_down_by_the_peck_and_stop_short_of_the_floor(start, floor, peck):
    stops = [start, *depths(start, floor, peck), floor]
    if peck == 0 or start == floor:
        assert stops == [start, floor]
        return
    steps = [b - a for a, b in pairwise(stops)]
    sign = 1 if floor > start else -1
    assert all(s == sign * 2 * peck for s in steps[:-1])
    assert 0 < sign * steps[-1] <= 2 * peck


@given(st.integers(-90_000, 0), st.integers(-90_000, 0), st.one_of(st.none(), st.integers(1, 20_000)))
def test_places_shift_toward_the_end_and_meet_it(start, end, shift):
    at = places(start, end, shift)
    assert at[0] == start
    assert at[-1] == end
    steps = [abs(b - a) for a, b in pairwise(at)]
    assert all(s == (shift or abs(end - start)) for s in steps[:-1])
    assert all(0 < s <= (shift or abs(end - start)) for s in steps)


@given(
    st.integers(20_000, 60_000),
    st.integers(1_000, 19_000),
    st.integers(0, 9_000),
    st.integers(0, 9_000),
    st.integers(1, 5),
    st.integers(-9_000, 9_000).filter(bool),
)
def test_a_cycle_comes_back_and_never_rapids_below_what_it_cut(start_x, floor, peck, retract, number, shift):
    at = [shift * n for n in range(number)]
    x, z, reached = start_x, 0, {}
    for kind, to_x, to_z in groove_moves((start_x, 0), at, floor, peck, retract):
        assert (to_x is None) != (to_z is None)
        x, z = x if to_x is None else to_x, z if to_z is None else to_z
        if kind == "feed":
            reached[z] = min(x, reached.get(z, start_x))
        else:
            assert to_z is None or x == start_x
            assert x >= reached.get(z, start_x)
    assert (x, z) == (start_x, 0)
    assert reached == dict.fromkeys(at, floor)


@pytest.mark.parametrize("dialect", [TWO, ONE, PLUNGE])
def test_arcs_that_can_not_be_are_named(dialect):
    arc = Arc(feed=800, x=36_000, z=-15_000, radius=2_000, clockwise=True)
    assert lower([Rapid(40_000, -13_000), arc], dialect)[-1] == arc
    with pytest.raises(ProgramError, match="an arc before any block has said where it starts"):
        lower([arc], dialect)
    with pytest.raises(ProgramError, match="an arc of radius 2000 that can't join its ends"):
        lower([Rapid(44_001, -13_000), arc], dialect)
    with pytest.raises(ProgramError, match="can't join its ends"):
        lower([Rapid(36_000, -15_000), arc], dialect)
