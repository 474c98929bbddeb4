"""How long a run takes at the machine: every move at its own spindle speed, dwells, tool changes.

At feed f per turn the time is the way over f n. Under constant surface speed v the speed on diameter d is
n = 1000 v / (pi d), 12 v / (pi d) in feet and inches, and never above the clamp; on a straight move d changes evenly,
so the integral has a closed form in two pieces, below the clamp and at it. A cycle whose retract the control sets backs
off by the machine's `cycle_retract`: those moves are not in the program, but they take their time.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot, pi

from planner.cutting import PER_SPEED_UNIT
from planner.increment import Increments
from planner.shop import Machine
from planner.steps import Dwell
from postproc.motion import Motion
from postproc.reading.run import Run


def run_seconds(run: Run, machine: Machine) -> float:
    """Seconds of a whole run; `machine` must be in the run's units. Rapids count for nothing if no rate is known."""
    motions = (*run.motions, *_unsaid_retracts(run, run.increments.count(machine.cycle_retract)))
    moves = sum(motion_seconds(motion, run.increments, machine) for motion in motions)
    dwells = sum(step.milliseconds / 1000 for step in run.steps if isinstance(step, Dwell))
    stations = [motion.station for motion in run.motions if motion.station]
    changes = sum(a != b for a, b in zip([0, *stations], stations, strict=False))
    return moves + dwells + changes * machine.tool_change


def _unsaid_retracts(run: Run, retract: int) -> Iterator[Motion]:
    """Back at rapid and down again at feed between two pecks of a cycle that doesn't say how far; `retract` radial."""
    for peck, following in pairwise(run.motions):
        call = None if peck.cycle is None or peck.cycle != following.cycle else run.cycles[peck.cycle]
        if call is None or call.retract is not None or {peck.kind, following.kind} != {"feed"}:
            continue
        if following.x0 != following.x1 and peck.z0 == following.z1:
            back = min(2 * retract, abs(call.start_x - peck.x1))
            up = peck.x1 + (back if call.start_x >= call.floor_x else -back)
            yield peck._replace(kind="rapid", x0=peck.x1, x1=up)
            yield following._replace(x0=up, x1=peck.x1)


def motion_seconds(motion: Motion, increments: Increments, machine: Machine) -> float:
    """Seconds of one move; 0 for a feed move that has no feed or no speed and so never ends."""
    length = increments.length
    d0, d1 = length(motion.x0), length(motion.x1)
    if motion.kind == "rapid":
        return _rapid(motion, increments, machine)
    way = hypot((d1 - d0) / 2, length(motion.z1 - motion.z0))
    feed = increments.feed_length(motion.feed or 0)
    if feed <= 0 or (motion.speed <= 0 and not motion.per_minute):
        return 0.0
    if motion.per_minute:
        return 60 * way / feed
    if not motion.surface:
        return 60 * way / (feed * motion.speed)
    return 60 * way / feed * _turn_minutes(d0, d1, PER_SPEED_UNIT[increments.units] * motion.speed / pi, motion.clamp)


def _rapid(motion: Motion, increments: Increments, machine: Machine) -> float:
    """The longer axis at the rapid rate; nothing from a place that the program never said."""
    if machine.rapid_rate <= 0 or not (motion.x0_known and motion.z0_known):
        return 0.0
    ways = abs(motion.x1 - motion.x0) / 2, abs(motion.z1 - motion.z0)
    return 60 * increments.length(1) * max(ways) / machine.rapid_rate


def _turn_minutes(d0: float, d1: float, rate: float, clamp: int | None) -> float:
    """Mean minutes of one turn between two diameters, where the free speed on d is `rate` / d."""
    low, high = sorted((abs(d0), abs(d1)))
    if d0 * d1 < 0:
        share = low / (low + high)
        return share * _turn_minutes(0, low, rate, clamp) + (1 - share) * _turn_minutes(0, high, rate, clamp)
    knee = min(max(rate / clamp, low), high) if clamp else low
    if high == low:
        return max(high / rate, 1 / clamp) if clamp else high / rate
    free = (high**2 - knee**2) / (2 * rate)
    return (free + ((knee - low) / clamp if clamp else 0.0)) / (high - low)
