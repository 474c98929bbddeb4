"""Laws over all steps and dialects: written and read back they are the same; a shift moves Z words and nothing else."""

import re
from dataclasses import replace
from itertools import takewhile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.programs import plan_of

from planner.arcs import joining_radius
from planner.increment import Increments
from planner.steps import Arc, Coolant, Cut, Dwell, GrooveCycle, Rapid, Remark, Spindle, SpindleClamp, ToolCall
from postproc import Heading, find_dialect, interpret, lower, parse_program, write_program
from postproc.reading.actions.dwelling import LONG_DWELL, SHORT_DWELL

X = st.integers(-5_000, 200_000)
Z = st.integers(-300_000, 50_000)
FEED = st.integers(1, 50_000)
MAYBE = st.one_of(st.tuples(X, Z), st.tuples(X, st.none()), st.tuples(st.none(), Z))
PLAIN = st.one_of(
    st.builds(ToolCall, st.integers(1, 99), st.integers(0, 99)),
    st.builds(SpindleClamp, st.integers(1, 9_999)),
    st.builds(Spindle, st.sampled_from(["surface", "rpm"]), st.integers(1, 9_999), st.booleans()),
    st.builds(Coolant, st.booleans()),
    MAYBE.map(lambda xz: Rapid(*xz)),
    st.builds(lambda feed, xz: Cut(feed, *xz), FEED, MAYBE),
    st.builds(Dwell, st.integers(SHORT_DWELL, LONG_DWELL - 1)),
    st.builds(Remark, st.text(max_size=80)),
)  # fmt: skip


@st.composite
def cycles(draw):
    """A rapid to the start, and a row from there."""
    x, z = draw(st.integers(20_000, 90_000)), draw(st.integers(-90_000, 0))
    floor = x - draw(st.integers(1, 15_000))
    shift, number = draw(st.integers(1, 9_000)), draw(st.integers(1, 5))
    end = z + draw(st.sampled_from([-1, 1])) * shift * (number - 1)
    peck, retract = draw(st.sampled_from([0, 700, 1_000, 2_345])), draw(st.integers(0, 900))
    return [
        Rapid(x, z),
        GrooveCycle(floor_x=floor, end_z=end, peck=peck, shift=shift, retract=retract, feed=draw(FEED)),
    ]


@st.composite
def arcs(draw):
    """A rapid to a place, and arcs from there on."""
    at = draw(X), draw(Z)
    found = [Rapid(*at)]
    for _ in range(draw(st.integers(1, 4))):
        to = at[0] + draw(st.integers(-9_000, 9_000)), at[1] + draw(st.integers(-9_000, 9_000))
        to = to if to != at else (at[0] + 1, at[1])
        radius = joining_radius(at, to, draw(st.integers(0, 20_000)))
        found.append(Arc(feed=draw(FEED), x=to[0], z=to[1], radius=radius, clockwise=draw(st.booleans())))
        at = to
    return found


STEPS = st.lists(st.one_of(PLAIN.map(lambda step: [step]), cycles(), arcs()), min_size=1, max_size=6).map(
    lambda groups: [Rapid(95_000, 10_000), *(step for group in groups for step in group)]
)
DIALECTS = [find_dialect(name) for name in ("two-block", "one-block", "plunge")]
HEADING = Heading("ring.dxf", "0" * 64)


def clamped_late(steps):
    """True if the first clamp comes while constant surface speed turns the spindle already; steps come in any order."""
    said = [step for step in steps if isinstance(step, (Spindle, SpindleClamp))]
    before = list(takewhile(lambda step: isinstance(step, Spindle), said))
    return len(before) < len(said) and bool(before) and before[-1].mode == "surface"


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda d: d.name)
@settings(max_examples=60, deadline=None)
@given(STEPS, st.sampled_from(["mm", "in"]))
def test_written_and_read_back_the_steps_are_the_same(dialect, steps, units):
    program = write_program(plan_of(steps, units), dialect, HEADING)
    run = interpret(parse_program(program.text), dialect)
    assert run.steps == lower(steps, dialect)
    assert [f.code for f in run.findings] == ["clamp-late"] * clamped_late(steps)
    assert run.ended
    assert run.increments == Increments.of(units)


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda d: d.name)
@settings(max_examples=30, deadline=None)
@given(STEPS)
def test_two_dialects_move_alike(dialect, steps):
    # The cut is the same in every spelling; only retracts that a control rules may be missing.
    def cuts(spoken):
        text = write_program(plan_of(steps), spoken, HEADING).text
        run = interpret(parse_program(text), spoken)
        places = [(m.x1, m.z1, m.feed) for m in run.motions if m.kind == "feed"]
        return [place for n, place in enumerate(places) if n == 0 or places[n - 1] != place]

    assert cuts(dialect) == cuts(DIALECTS[0])


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda d: d.name)
@settings(max_examples=30, deadline=None)
@given(STEPS, st.integers(-40_000, 40_000))
def test_a_shift_moves_every_z_alike_and_nothing_else(dialect, steps, by):
    def words(moved):
        text = write_program(plan_of(moved), dialect, HEADING).text
        return re.findall(r"([A-Z])(-?[0-9.]+)", re.sub(r"\(.*?\)", "", text))

    moved = [_shifted(step, by) for step in steps]
    before, after = words(steps), words(moved)
    assert [letter for letter, _ in before] == [letter for letter, _ in after]
    for (letter, old), (_, new) in zip(before, after, strict=True):
        if letter == "Z":
            assert round(float(new) * 1000) - round(float(old) * 1000) == by
        else:
            assert new == old


def _shifted(step, by):
    """A step further along the axis."""
    if isinstance(step, GrooveCycle):
        return replace(step, end_z=step.end_z + by)
    if isinstance(step, Rapid | Cut | Arc) and step.z is not None:
        return replace(step, z=step.z + by)
    return step
