"""How long moves take, for plans written down by hand: no code of the tool has a part in it but the steps' own values.

A plan is text, a word a move: `T2` calls a tool, `S120` sets the surface speed, `X42` and `Z-13` go there at rapid,
`x34` and `z-30` at the feed in force, `F0.08` sets that, `D0.2` dwells seconds, `(z-9 x38)` moves along both axes.
Diameters and places as programmed, in mm or inch.
Cutting time is the sum over short pieces of way at constant surface speed under a clamp: n = 1000 vc / (pi D), 12 in
inch, never above the clamp. A rapid takes the longer axis at the machine's rate, X as radius. Each tool call costs its
seconds and brings its feed.
"""

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from planner.increment import Increments
from planner.steps import Cut, Dwell, GrooveCycle, Rapid, Spindle, Step, ToolCall

PIECES = 200
Move = tuple[str, float | None, float | None]
"""Rapid or cut, X and Z."""


@dataclass
class HandClock:
    """A machine: clamp in rev/min, rapid rate in length a minute, seconds for a tool; `feeds` by tool."""

    feeds: Mapping[int, float]
    per_speed: float = 1000.0
    clamp: float = 3000.0
    rate: float = 10_000.0
    change: float = 3.0
    x: float = 0.0
    z: float = 0.0
    speed: float = 120.0
    feed: float = 0.0
    seconds: float = 0.0
    blocks: int = 0
    known: set[str] = field(default_factory=set)

    def run(self, text: str) -> "HandClock":
        """All words of a plan."""
        for word in re.findall(r"\([^)]*\)|\S+", text):
            self.word(word)
        return self

    def word(self, word: str) -> None:
        """One word."""
        letter, rest = word[0], word[1:]
        if letter == "T":
            self.seconds += self.change
            self.feed = self.feeds[int(rest)]
        elif letter == "S":
            self.speed = float(rest)
        elif letter == "F":
            self.feed = float(rest)
        elif letter == "D":
            self.seconds += float(rest)
            self.blocks += 1
        elif letter == "(":
            both = {one[0]: float(one[1:]) for one in rest.rstrip(")").split()}
            self.cut(both["x"], both["z"])
        elif letter in "XZ":
            self.rapid(**{letter.lower(): float(rest)})
        else:
            self.cut(**{letter: float(rest)})

    def rapid(self, x: float | None = None, z: float | None = None) -> None:
        """At rapid; the first move along an axis costs nothing: where the tool was is not known."""
        ways = [
            abs(to - at) / (2 if axis == "x" else 1)
            for axis, to, at in (("x", x, self.x), ("z", z, self.z))
            if to is not None and axis in self.known
        ]
        self.seconds += 60 * max(ways, default=0.0) / self.rate
        self._stand(x, z)

    def cut(self, x: float | None = None, z: float | None = None) -> None:
        """At feed, in short pieces."""
        x1, z1 = (self.x if x is None else x), (self.z if z is None else z)
        way = math.hypot((x1 - self.x) / 2, z1 - self.z) / PIECES
        for piece in range(PIECES):
            across = abs(self.x + (x1 - self.x) * (piece + 0.5) / PIECES)
            self.seconds += 60 * way / (self.feed * self.turning(across))
        self._stand(x, z)

    def turning(self, across: float) -> float:
        """Rev/min at a diameter."""
        return min(self.clamp, self.per_speed * self.speed / (math.pi * across)) if across else self.clamp

    def _stand(self, x: float | None, z: float | None) -> None:
        self.x, self.z = (self.x if x is None else x), (self.z if z is None else z)
        self.known |= {axis for axis, to in (("x", x), ("z", z)) if to is not None}
        self.blocks += 1


def cycle_moves(
    x: float, z: float, floor: float, end: float, peck: float, shift: float, retract: float
) -> Iterator[str]:
    """The words of a grooving cycle from x and z and back: peck after peck on the radius, groove after groove."""
    count = round(abs(end - z) / shift) if shift else 0
    way = -1.0 if floor < x else 1.0
    for place in range(count + 1):
        if place:
            yield f"Z{z + (end - z) * place / count:.5f}"
        depth = x
        while (floor - depth) * way > 1e-9:
            depth = depth + way * 2 * peck if peck and (floor - depth) * way > 2 * peck + 1e-9 else floor
            yield f"x{depth:.5f}"
            if (floor - depth) * way > 1e-9 and retract:
                back = depth - way * 2 * retract
                yield f"X{back if (back - x) * way > 0 else x:.5f}"
        yield f"X{x:.5f}"
    if count:
        yield f"Z{z:.5f}"


def as_words(steps: Iterable[Step], increments: Increments) -> Iterator[str]:
    """Planned steps as words of a hand plan; only the values of the steps are taken, nothing of what makes them."""
    length, x, z = increments.length, 0.0, 0.0
    for step in steps:
        match step:
            case ToolCall(station, offset) if offset:
                yield f"T{station}"
            case Spindle(_, speed):
                yield f"S{speed}"
            case Dwell(milliseconds):
                yield f"D{milliseconds / 1000}"
            case Rapid(to_x, to_z):
                yield from (f"{name}{length(to)}" for name, to in (("X", to_x), ("Z", to_z)) if to is not None)
            case Cut(feed, to_x, to_z):
                yield f"F{increments.feed_length(feed)}"
                both = [f"{name}{length(to)}" for name, to in (("x", to_x), ("z", to_z)) if to is not None]
                yield both[0] if len(both) == 1 else f"({' '.join(both)})"
            case GrooveCycle():
                yield f"F{increments.feed_length(step.feed)}"
                peck, shift, back = (length(one) for one in (step.peck, step.shift, step.retract))
                yield from cycle_moves(x, z, length(step.floor_x), length(step.end_z), peck, shift, back)
        if isinstance(step, Rapid | Cut):
            x, z = (x if step.x is None else length(step.x)), (z if step.z is None else length(step.z))
