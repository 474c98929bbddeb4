"""Times and sizes of single moves by hand: the time at the machine, and a run counted in other increments.

The oracle of a move under constant surface speed sums thin slices: n = 1000 v / (pi d) rev/min, v in m/min and d in mm
(common geometry), never above the clamp. 1 inch is 25.4 mm and 1 foot 0.3048 m, exactly.
"""

import math
from dataclasses import replace

import pytest

from planner import default_shop
from planner.increment import Increments
from postproc import find_dialect, interpret, parse_program, run_seconds
from postproc.motion import Motion
from postproc.reading.rescale import in_increments
from postproc.reading.seconds import motion_seconds

MM, INCH = Increments.of("mm"), Increments.of("in")
MACHINE = replace(default_shop("mm").machine, rapid_rate=600.0, tool_change=7.0, cycle_retract=0.5)
PLAIN = {"x0": 40_000, "z0": 0, "x1": 40_000, "z1": -10_000, "line": 1, "station": 1, "offset": 1}
PLAIN |= {"feed": 1_000, "speed": 600.0}


def seconds(machine=MACHINE, increments=MM, kind="feed", **more):
    """The time of 10 mm along z at 0.1 a turn and 600 rev/min, or what is said otherwise."""
    return motion_seconds(Motion(kind=kind, **(PLAIN | more)), increments, machine)


@pytest.mark.parametrize(
    ("more", "wanted"),
    [
        ({}, 10.0),
        ({"x1": 30_000, "z1": 0}, 5.0),
        ({"x1": 34_000, "z1": -4_000}, 5.0),
        ({"speed": 1.0}, 6_000.0),
        ({"speed": 0.0}, 0.0),
        ({"feed": None}, 0.0),
        ({"feed": 0}, 0.0),
        ({"per_minute": True, "feed": 1_200_000}, 5.0),
        ({"per_minute": True, "feed": 1_200_000, "speed": 0.0}, 5.0),
    ],
)
def test_a_move_at_feed(more, wanted):
    assert seconds(**more) == pytest.approx(wanted)


@pytest.mark.parametrize(
    ("rate", "more", "wanted"),
    [
        (600.0, {}, 1.0),
        (600.0, {"x1": 0, "z1": -3_000}, 2.0),
        (600.0, {"x1": 36_000, "z1": -3_000}, 0.3),
        (1.0, {}, 600.0),
        (0.0, {}, 0.0),
        (600.0, {"x0_known": False}, 0.0),
        (600.0, {"z0_known": False}, 0.0),
    ],
)
def test_a_rapid_takes_as_long_as_its_longer_axis(rate, more, wanted):
    assert seconds(replace(MACHINE, rapid_rate=rate), kind="rapid", **more) == pytest.approx(wanted)


def sliced(d0, d1, way, feed, speed, clamp, per):
    """Seconds of a straight move under surface speed, slice by slice."""
    count, total = 20_000, 0.0
    for k in range(count):
        across = abs(d0 + (d1 - d0) * (k + 0.5) / count)
        turns = per * speed / (math.pi * across)
        total += 60 * way / count / (feed * (min(turns, clamp) if clamp else turns))
    return total


@pytest.mark.parametrize("clamp", [None, 500, 1_000, 3_000])
@pytest.mark.parametrize(("d0", "d1"), [(40, 40), (40, 20), (20, 40), (40, 0), (0, 40), (10, -6), (-10, 6), (30, 28)])
def test_under_constant_surface_speed_the_time_is_that_of_thin_slices(d0, d1, clamp):
    way = math.hypot((d1 - d0) / 2, 3.0)
    wanted = sliced(d0, d1, way, 0.1, 100.0, clamp, 1_000.0)
    move = {"x0": d0 * 1_000, "x1": d1 * 1_000, "z1": -3_000, "surface": True, "speed": 100.0, "clamp": clamp}
    assert seconds(**move) == pytest.approx(wanted, rel=1e-4)
    # The same in inches: 12 v / (pi d), v in ft/min.
    wanted = sliced(d0 / 10, d1 / 10, way / 10, 0.01, 300.0, clamp, 12.0)
    move |= {"x0": d0 * 1_000, "x1": d1 * 1_000, "feed": 1_000, "speed": 300.0}
    assert seconds(increments=INCH, **move) == pytest.approx(wanted, rel=1e-4)


def run_of(*blocks, dialect="two-block", units="mm"):
    text = "\n".join(["%", "O0001", *blocks, "M30", "%"])
    return interpret(parse_program(text), find_dialect(dialect), units)


HEAD = ("G21 G18 G40 G99", "T0101", "G97 S600 M03", "G00 X42. Z-13.")


def test_dwells_and_tool_changes_count():
    # From X42 to X40 1 mm at 60 mm/min, twice; a dwell of 1.5 s; the tool is changed to 1, to 2 and back to 1.
    still = replace(MACHINE, rapid_rate=0.0)
    run = run_of(*HEAD, "G01 X40. F0.1", "G04 U1.5", "T0202", "G00 X42.", "T0101", "G01 X40.", "G01 X40.5")
    assert run_seconds(run, still) == pytest.approx(1.0 + 1.5 + 3 * 7.0 + 1.0 + 0.25)


def test_a_feed_without_a_point_counts_least_increments():
    # Common practice, no source: F8 where points are needed is 8 ten-thousandths of a millimetre.
    run = run_of(*HEAD, "G01 X40. F8")
    assert run.motions[-1].feed == 8
    (stop,) = [f for f in run.findings if f.code == "no-decimal-point"]
    assert "0.0008 mm" in stop.message


def test_a_cycle_whose_retract_the_control_sets_backs_off_between_its_pecks():
    # 4 mm in pecks of 1 mm: three times back by half a millimetre at 10 mm a second and down again at 1.
    run = run_of(*HEAD, "G75 X34. I1. F0.1", dialect="one-block")
    assert run.cycles[0].retract is None
    assert run_seconds(run, MACHINE) == pytest.approx(4.0 + 3 * (0.05 + 0.5) + 0.4 + 7.0)
    # Never back beyond where the cycle began: 0.9 is no 2.
    run = run_of(*HEAD, "G75 X38. I0.9 F0.1", dialect="one-block")
    far = replace(MACHINE, cycle_retract=2.0)
    back = 0.9 + 1.8
    assert run_seconds(run, far) == pytest.approx(2.0 + back / 10 + back + 0.2 + 7.0)


CYCLE = ("G50 S2000", "T0303", "G96 S400 M03", "G00 X1.7 Z-.5", "G75 R.02", "G75 X1.25 Z-.7 P400 Q2000 F.003")


def test_an_inch_run_in_millimetres():
    run = run_of("G20 G18 G40 G99", *CYCLE, units="in")
    told = in_increments(run, MM)
    assert told.increments == MM
    assert in_increments(run, INCH) is run
    # 10,000 counts an inch and 1,000 a millimetre: 2.54 to one, feeds alike.
    for one, other in zip(run.motions, told.motions, strict=True):
        for name in ("x0", "z0", "x1", "z1"):
            assert getattr(other, name) == round(getattr(one, name) * 2.54)
        assert other.feed == (None if one.feed is None else round(one.feed * 2.54))
        assert other.speed == pytest.approx(one.speed * 0.3048)
    (one,), (other,) = run.cycles, told.cycles
    assert (one.start_x, one.floor_x, one.end_z, one.peck, one.shift, one.retract) == (
        17000,
        12500,
        -7000,
        400,
        2000,
        200,
    )
    sizes = (other.start_x, other.start_z, other.floor_x, other.end_z, other.peck, other.shift, other.retract)
    assert sizes == (43180, -12700, 31750, -17780, 1016, 5080, 508)
    assert (one.feed, other.feed) == (300, 762)


def test_a_millimetre_run_in_inches():
    run = run_of(*HEAD, "G96 S120", "G75 R.5", "G75 X34. Z-18. P1000 Q5000 F.08")
    told = in_increments(run, INCH)
    assert [m.x1 for m in told.motions] == [round(m.x1 / 2.54) for m in run.motions]
    assert [m.speed for m in told.motions if m.surface] == pytest.approx([120 / 0.3048] * len(told.motions[1:]))
    (call,) = told.cycles
    assert (call.floor_x, call.end_z, call.peck, call.shift, call.feed) == (13386, -7087, 394, 1969, 315)


def test_finer_increments_of_the_same_units_change_no_speed():
    run = run_of("G21 G18 G40 G99", "T0303", "G96 S120 M03", "G00 X42. Z-13.", "G01 X34. F0.08")
    finer = in_increments(run, Increments("mm", 10_000, 1_000_000))
    assert [(m.x1, m.feed, m.speed) for m in finer.motions] == [
        (10 * m.x1, None if m.feed is None else 100 * m.feed, m.speed) for m in run.motions
    ]
