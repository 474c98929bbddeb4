"""How long steps take: every move at rapid or feed, pecks and retracts, dwell, tool change; a walk over the steps.

Cutting time is the closed form of `planner.cutting`; a rapid takes the longer of its two axes at the machine's rate,
with no acceleration. Spindle and feed are those in force when the move begins.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from extractor.part import Units
from planner.arcs import by_radius, joins
from planner.cutting import feed_seconds, plunge_seconds, spindle_speed
from planner.increment import Increments
from planner.shop import Machine
from planner.steps import Arc, Cut, Dwell, GrooveCycle, Home, Rapid, Spindle, SpindleClamp, Step, ToolCall

RAPID_RATE: dict[Units, float] = {"mm": 10_000.0, "in": 400.0}


@dataclass
class Clock:
    """Where the tool is and how the spindle turns while steps go by; places in counts, None before the first word.

    `cycle_retract` is how far a cycle backs off where no word of the program says it, None where the step's own counts.
    """

    increments: Increments
    machine: Machine
    x: int | None = None
    z: int | None = None
    surface: bool = True
    speed: float = 1.0
    clamp: int | None = None
    cycle_retract: int | None = None
    station: int = 0

    def run(self, steps: Iterable[Step]) -> float:
        """Seconds that the steps take."""
        return sum(self.step(step) for step in steps)

    def step(self, step: Step) -> float:
        """Seconds of one step; moves the tool along."""
        match step:
            case ToolCall(station, _):
                changed, self.station = station != self.station, station
                return self.machine.tool_change if changed else 0.0
            case Home(x, z):
                # Where the reference point lies is the machine's own: the way there is not counted.
                self.x, self.z = None if x else self.x, None if z else self.z
            case SpindleClamp(rpm):
                self.clamp = rpm
            case Spindle(mode, speed):
                self.surface, self.speed = mode == "surface", speed
            case Dwell(milliseconds):
                return milliseconds / 1000
            case Rapid(x, z):
                return self.rapid(x, z)
            case Cut(feed, x, z):
                return self.cut(feed, x, z)
            case Arc():
                return self.arc(step)
            case GrooveCycle():
                return self.cycle(step)
        return 0.0

    def rapid(self, x: int | None, z: int | None) -> float:
        """A rapid: both axes move at once and the longer way counts; X moves half its diameter."""
        dx = abs((x if x is not None else self.x or 0) - (self.x if self.x is not None else x or 0)) / 2
        dz = abs((z if z is not None else self.z or 0) - (self.z if self.z is not None else z or 0))
        self.x = self.x if x is None else x
        self.z = self.z if z is None else z
        rate = self.machine.rapid_rate or RAPID_RATE[self.increments.units]
        return 60 * self.increments.length(1) * max(dx, dz) / rate

    def cut(self, feed: int, x: int | None, z: int | None) -> float:
        """A straight cut; along a slope each stretch takes as long as its share of X does."""
        x0, z0 = self.x or 0, self.z or 0
        x1, z1 = x0 if x is None else x, z0 if z is None else z
        self.x, self.z = x1, z1
        length, per_turn = self.increments.length, self.increments.feed_length(feed)
        radial, way = abs(x1 - x0) / 2, hypot((x1 - x0) / 2, z1 - z0)
        if not way:
            return 0.0
        if not self.surface:
            return feed_seconds(length(1) * way, per_turn, self.speed)
        if not radial:
            turning = spindle_speed(self.speed, abs(length(x0)), self.clamp, self.increments.units)
            return feed_seconds(length(1) * way, per_turn, turning)
        seconds = plunge_seconds(length(x0), length(x1), per_turn, self.speed, self.clamp, self.increments.units)
        return seconds * way / radial

    def arc(self, arc: Arc) -> float:
        """An arc, by the same chords in which a program is run; straight where no arc can join its ends."""
        start, end = (self.x or 0, self.z or 0), (arc.x, arc.z)
        chords = by_radius(start, end, arc.radius, arc.clockwise) if joins(start, end, arc.radius) else (end,)
        return sum(self.cut(arc.feed, x, z) for x, z in chords)

    def cycle(self, cycle: GrooveCycle) -> float:
        """A grooving cycle: the first groove's time for every groove, and the shifts between them and back."""
        start_x, start_z = self.x or 0, self.z or 0
        shift = cycle.shift if cycle.end_z > start_z else -cycle.shift
        places = range(start_z, cycle.end_z + (1 if shift > 0 else -1), shift) if shift else (start_z,)
        # Every groove begins and ends at the start diameter, so that one takes as long as another.
        seconds, each = 0.0, self.groove(cycle, start_x)
        for z in places:
            seconds += self.rapid(None, z) + each
        return seconds + self.rapid(None, start_z)

    def groove(self, cycle: GrooveCycle, start_x: int) -> float:
        """One groove in pecks, from the start diameter and back to it."""
        inward = -1 if cycle.floor_x < start_x else 1
        retract = cycle.retract if self.cycle_retract is None else self.cycle_retract
        seconds, depth = 0.0, start_x
        while depth != cycle.floor_x:
            left = abs(cycle.floor_x - depth)
            depth += inward * min(left, 2 * cycle.peck if cycle.peck else left)
            seconds += self.cut(cycle.feed, depth, None)
            if depth != cycle.floor_x:
                seconds += self.rapid(depth - inward * min(2 * retract, abs(start_x - depth)), None)
        return seconds + self.rapid(start_x, None)
