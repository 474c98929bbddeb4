"""How long a plan takes: against moves written out one by one and integrated by a general library."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from support.parts import part_of, row
from support.recorder import motions_of, moves_of

from planner import default_shop, parse_shop, plan_part
from planner.cutting import spindle_speed
from planner.duration import Clock
from planner.increment import Increments
from planner.steps import Cut, Dwell, GrooveCycle, Rapid, Spindle, SpindleClamp, ToolCall

MM = Increments.of("mm")


def clock(**more):
    shop = default_shop("mm")
    return Clock(MM, shop.machine, **more)


def slow_seconds(plan):
    """Every single move: rapids by their longer axis, cuts by numerical integration over X; dwells and tool changes."""
    units, per = plan.increments.units, plan.increments.per_length
    rate = plan.shop.machine.rapid_rate
    total = 0.0
    for motion in motions_of(plan):
        x0, z0, x1, z1 = (v / per for v in (motion.x0, motion.z0, motion.x1, motion.z1))
        if motion.kind == "rapid":
            total += 60 * max(abs(x1 - x0) / 2, abs(z1 - z0)) / rate
            continue
        way, feed = math.hypot((x1 - x0) / 2, z1 - z0), motion.feed / plan.increments.per_feed

        def slowness(share, x0=x0, x1=x1, feed=feed, motion=motion):
            return 60 / (feed * spindle_speed(motion.speed, x0 + share * (x1 - x0), motion.clamp, units))

        total += way * quad(slowness, 0, 1, limit=200)[0]
    for step in moves_of(plan):
        total += step.milliseconds / 1000 if isinstance(step, Dwell) else 0
        total += plan.shop.machine.tool_change if isinstance(step, ToolCall) and step.offset else 0
    return total


@given(
    st.integers(1, 5),
    st.floats(1.5, 9),
    st.floats(1, 9),
    st.sampled_from([0.0, 0.5, 1.3]),
    st.sampled_from([0.0, 0.1]),
    st.booleans(),
)
@settings(max_examples=25, deadline=None)
def test_against_the_integral_over_every_move(count, width, depth, peck, finish, clamped):
    part = part_of(row(count, -10, width + 4, round(width, 2), round(40 - 2 * depth, 2)), length=120)
    text = f'units="mm"\n[machine]\nmax_rpm={900 if clamped else 3000}\n[[tools]]\nstation=1\nwidth=1.5\nmax_depth=12\n'
    plan = plan_part(part, parse_shop(text + f"peck={peck}\nfinish={finish}\n", "s", "mm"))
    assert plan.seconds == pytest.approx(slow_seconds(plan), rel=1e-3)


def test_the_operations_and_the_frame_make_the_whole():
    plan = plan_part(part_of([*row(4, -10, 5, 3, 34), (-50, -58, 30)]), default_shop("mm"))
    watch = Clock(plan.increments, plan.shop.machine)
    before = watch.run(plan.before)
    for operation in plan.operations:
        assert watch.run(operation.steps) == pytest.approx(operation.seconds)
    after = watch.run(plan.after)
    assert plan.seconds == pytest.approx(before + sum(o.seconds for o in plan.operations) + after)


def test_one_plunge_by_hand():
    # 40 to 34 at 0.08 mm/rev, 120 m/min: 2.1795 s (outside checks, section 6); X out again at rapid.
    watch = clock(x=40_000, z=0)
    watch.run([SpindleClamp(3000), Spindle("surface", 120)])
    assert watch.step(Cut(800, x=34_000)) == pytest.approx(2.1795, abs=1e-4)
    assert watch.step(Rapid(x=40_000)) == pytest.approx(60 * 3 / 10_000)


def test_at_a_fixed_speed():
    watch = clock(x=40_000, z=0)
    watch.step(Spindle("rpm", 955))
    assert watch.step(Cut(800, x=34_000)) == pytest.approx(2.3560, abs=1e-4)  # outside checks, section 6


def test_pecks_cut_what_the_retract_gave_back():
    # Three pecks of 1 mm with 0.5 back: 3 mm of metal and twice 0.5 mm again, at a fixed speed.
    watch = clock(x=40_000, z=0)
    watch.step(Spindle("rpm", 1000))
    seconds = watch.step(GrooveCycle(floor_x=34_000, end_z=0, peck=1000, shift=0, retract=500, feed=1000))
    assert seconds == pytest.approx(60 * (3 + 1) / (0.1 * 1000) + 60 * (1 + 3) / 10_000)
    assert (watch.x, watch.z) == (40_000, 0)


def test_a_row_comes_back_to_its_start():
    watch = clock(x=42_000, z=-10_000)
    watch.step(Spindle("surface", 120))
    watch.step(GrooveCycle(floor_x=34_000, end_z=-25_000, peck=1000, shift=5000, retract=500, feed=800))
    assert (watch.x, watch.z) == (42_000, -10_000)


def test_the_longer_axis_of_a_rapid_counts():
    assert clock(x=0, z=0).step(Rapid(x=10_000, z=-20_000)) == pytest.approx(60 * 20 / 10_000)
    assert clock(x=0, z=0).step(Rapid(x=100_000, z=-20_000)) == pytest.approx(60 * 50 / 10_000)


def test_dwell_and_tool_change():
    assert clock().step(Dwell(250)) == 0.25
    watch = clock()
    # A change takes its time; another offset of the tool at hand, or none, takes none.
    assert [watch.step(ToolCall(*call)) for call in ((1, 1), (1, 0), (2, 2), (1, 1))] == [3.0, 0.0, 3.0, 3.0]


def test_a_cut_along_the_floor():
    watch = clock(x=34_000, z=0)
    watch.run([SpindleClamp(3000), Spindle("surface", 120)])
    speed = 120_000 / (math.pi * 34)
    assert watch.step(Cut(800, z=-5000)) == pytest.approx(60 * 5 / (0.08 * speed))
    assert watch.step(Cut(800, z=-5000)) == 0.0
