"""How long an arc takes: against the integral over the true arc by a general library, and against the read program."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from support.programs import plan_of

from planner import default_shop
from planner.arcs import joining_radius
from planner.cutting import spindle_speed
from planner.duration import Clock
from planner.increment import Increments
from planner.steps import Arc, Rapid, Spindle, SpindleClamp
from postproc import Heading, find_dialect, interpret, parse_program, run_seconds, write_program

MM = Increments.of("mm")


def seconds(spindle, clamp, arc, start):
    """The time of an arc from a start (x, z) as the plan's clock has it."""
    clock = Clock(MM, default_shop("mm").machine)
    clock.run([*([SpindleClamp(clamp)] if clamp else []), spindle, Rapid(*start)])
    return clock.step(arc)


@given(st.floats(1, 30), st.floats(-3, 3), st.floats(0.2, 2.0), st.booleans(), st.sampled_from([None, 600, 3000]))
@settings(max_examples=30, deadline=None)
def test_constant_surface_speed_on_an_arc(radius, begin, turn, clockwise, clamp):
    # Textbook: time is the integral of 60 ds / (f n) along the arc, with n = 1000 v / (pi d) up to the clamp;
    # the ends are off by half a count each.
    centre = 40.0
    way = -turn if clockwise else turn

    def diameter(angle):
        return 2 * (centre + radius * math.sin(angle))

    def slowness(share):
        return 60 / (0.1 * spindle_speed(120, diameter(begin + share * way), clamp, "mm"))

    wanted = radius * turn * quad(slowness, 0, 1, limit=200)[0]
    start = MM.count(diameter(begin)), MM.count(radius * math.cos(begin))
    end = MM.count(diameter(begin + way)), MM.count(radius * math.cos(begin + way))
    arc = Arc(feed=1_000, x=end[0], z=end[1], radius=joining_radius(start, end, 1_000 * radius), clockwise=clockwise)
    assert seconds(Spindle("surface", 120), clamp, arc, start) == pytest.approx(
        wanted, rel=0.001 + 0.0015 / (radius * turn)
    )


def test_a_quarter_turn_at_a_fixed_speed():
    # By hand: a quarter of a circle of radius 2 is pi long; at 0.1 mm/rev and 600 rev/min that is 60 pi / 60 s.
    arc = Arc(feed=1_000, x=36_000, z=-12_000, radius=2_000, clockwise=True)
    assert seconds(Spindle("rpm", 600), None, arc, (40_000, -10_000)) == pytest.approx(math.pi, rel=1e-3)


def test_an_arc_that_can_not_be_counts_as_straight():
    arc = Arc(feed=1_000, x=36_000, z=-12_000, radius=1_000, clockwise=True)
    assert seconds(Spindle("rpm", 600), None, arc, (40_000, -10_000)) == pytest.approx(math.hypot(2, 2))


@pytest.mark.parametrize("dialect", ["two-block", "one-block", "plunge"])
def test_the_read_program_takes_exactly_as_long(dialect):
    steps = [
        Spindle("surface", 120),
        Rapid(40_000, -10_000),
        Arc(feed=800, x=37_000, z=-11_500, radius=1_500, clockwise=False),
        Arc(feed=400, x=36_001, z=-13_007, radius=8_123, clockwise=True),
    ]
    machine = default_shop("mm").machine
    text = write_program(plan_of(steps), find_dialect(dialect), Heading("a.dxf", "0" * 64)).text
    run = interpret(parse_program(text), find_dialect(dialect))
    planned = Clock(MM, machine).run(steps)
    assert run_seconds(run, machine) == pytest.approx(planned, rel=1e-12)
