"""Placed rows to steps: how the tool comes, cuts and goes, always clear of the lands.

In, and from set to set: X to a height above everything on the way, then Z, then X down to the start. At the end X
out before Z back. Where a row begins is worked out in `planner.cuts.beside`.
"""

import math
from functools import cached_property
from itertools import pairwise

import numpy as np

from extractor.limits import EPS
from extractor.part import Part
from extractor.rounding import ROUNDING
from extractor.sheet import Floats
from extractor.side import OUTSIDE, Side
from extractor.values import dataclass
from planner.cuts.ground import Ground
from planner.cuts.place import Placed
from planner.cutting import spindle_speed
from planner.duration import Clock
from planner.increment import Increments
from planner.plan import Cycles
from planner.shop import Shop, Tool
from planner.steps import Coolant, Home, Rapid, Spindle, SpindleClamp, Step, ToolCall

# Share of the cutting speed inside and on faces (trade rule, tool catalogues: 20 to 30 % less).
INNER_SPEED = 0.75
# A clamp is a figure of so many digits and else noughts, in rev/min.
CLAMP_DIGITS = 2
# Counts by which an insert may reach into the line of a face: rounding alone.
TOUCH = 2
# A land so little of an increment above a count, by rounding, asks for no further count of clearance.
HAIR = 1e-3


@dataclass(frozen=True)
class Spot:
    """Where the tool is, as counts: X diameter, Z of the reference edge."""

    x: int
    z: int


@dataclass(frozen=True)
class Setting:
    """What all moves of one plan share.

    `drawn` is the part as drawn; in `part` a recess with sloping walls is only its core over the floor. `cycles`: what
    the control has.
    """

    part: Part
    shop: Shop
    increments: Increments
    drawn: Part
    cycles: Cycles = "full"

    @cached_property
    def turned(self) -> Floats:
        """The lands along the axis, float (n, 3): z of both ends and the greater radius; end faces are none."""
        rows = [(z, w, max(one, other)) for (z, one), (w, other) in pairwise(self.part.lands) if z != w]
        return np.array(rows).reshape(-1, 3)

    def thinnest(self, out: float) -> Floats:
        """Lands that begin nearer the front than `out`, float (n, 2): back end, least radius of it and all behind."""
        if ("thinnest", out) not in self.part.worked_out:
            lands = self.turned[self.turned[:, 0] > -out]
            least = np.minimum.accumulate(lands[::-1, 2])[::-1]
            self.part.worked_out["thinnest", out] = np.column_stack((lands[:, 1], least))
        found: Floats = self.part.worked_out["thinnest", out]
        return found

    @property
    def home(self) -> Spot:
        """Where tools change: as the shop says, but never lower than well above the part."""
        machine = self.shop.machine
        above = max(self.part.outer_diameter, machine.tailstock) + 20 * machine.clearance
        return Spot(self.increments.count(max(machine.home_x, above)), self.increments.count(machine.home_z))

    def above(self, ground: Ground, low: int, high: int, beside: float = 0.0) -> int:
        """Height count a clearance off the lands between two counts along u, and a length `beside` to either side."""
        length, reach = self.increments.length, ground.side.along * beside
        return self._off(ground, ground.beside(length(low) - reach, length(high) + reach))

    def way_in(self, row: Placed) -> int:
        """Height count a clearance off all lands that a row's tool passes, in a bore from the front on.

        A step that it only comes to stand beside is not on the way.
        """
        length = self.increments.length
        return self._off(row.ground, row.ground.highest(length(row.lowest + TOUCH), length(row.places[0] + row.width)))

    def _off(self, ground: Ground, land: float) -> int:
        """A height count a clearance above a land."""
        machine, side = self.shop.machine, ground.side
        return math.ceil(land * self.increments.per_length - HAIR) + side.up * self.increments.count(machine.clearance)

    def clock(self) -> Clock:
        """A clock before anything has moved, which knows how far cycles back off."""
        own = self.increments.count(self.shop.machine.cycle_retract) if self.cycles == "own retract" else None
        return Clock(self.increments, self.shop.machine, cycle_retract=own)

    def surface_speed(self, tool: Tool) -> float:
        """The tool's own cutting speed, else the material's, less inside and on faces where chips have no room."""
        inner = INNER_SPEED if tool.where != OUTSIDE.where else 1.0
        return tool.cutting_speed or inner * self.shop.material.cutting_speed


def calls(tool: Tool, fastest: int, setting: Setting) -> tuple[Step, ...]:
    """Tool, spindle clamp before surface speed, coolant; `fastest` is the clamp in rev/min."""
    speed = max(1, int(setting.surface_speed(tool) + EPS))
    return (
        ToolCall(tool.station, tool.offset),
        SpindleClamp(fastest),
        Spindle("surface", speed, clockwise=tool.spindle != "ccw"),
        *((Coolant(True),) if setting.shop.machine.coolant else ()),
    )


def clamp_for(tool: Tool, least: float, setting: Setting) -> int:
    """The spindle clamp for cuts down to a diameter: what the cutting speed asks for there, and no more.

    Rounded up to `CLAMP_DIGITS`, never above the machine's own limit.
    """
    most, units = setting.shop.machine.max_rpm, setting.part.units
    needed = spindle_speed(setting.surface_speed(tool), least, None, units) if least > 0 else math.inf
    if needed >= most:
        return most
    step = int(10 ** max(1, math.floor(math.log10(needed)) + 1 - CLAMP_DIGITS))
    return min(most, step * math.ceil(needed / step - ROUNDING))


def go_home(setting: Setting, tool: Tool | None = None) -> tuple[Step, ...]:
    """X out before Z back; from a bore or a face the other way round. To the reference point where the shop says so."""
    if setting.shop.machine.retreat == "reference":
        ways: tuple[Step, Step] = (Home(x=True, z=False), Home(x=False, z=True))
    else:
        ways = (Rapid(x=setting.home.x), Rapid(z=setting.home.z))
    return ways if tool is None or tool.where == OUTSIDE.where else ways[::-1]


def come(to: Spot, row: Placed, setting: Setting) -> tuple[Step, ...]:
    """From home to a row's start: high above all along the bottom, then down; inside X first, then into the bore.

    Where the bore is narrower on the way, the tool goes in along the middle of that, and then to the start.
    """
    x, z = Rapid(x=to.x), Rapid(z=to.z)
    if row.side == OUTSIDE:
        return (z, x)
    return (*_narrow(row, to, setting), z, x) if row.side.hollow and _narrow(row, to, setting) else (x, z)


def leave(at: Spot, row: Placed, setting: Setting) -> tuple[Step, ...]:
    """From a row home, out of a bore by the way that the tool came in."""
    return (*(_narrow(row, at, setting) if row.side.hollow else ()), *go_home(setting, row.tool))


def _narrow(row: Placed, start: Spot, setting: Setting) -> tuple[Step, ...]:
    """The way to where the narrowest bore up to a row lets the tool pass, none where its start lies there."""
    height = setting.way_in(row)
    return (_rapid(row.side, height=height),) if height > row.side.frame(start.x, start.z)[1] else ()


def hop(spot: Spot, to: Spot, row: Placed, setting: Setting) -> tuple[Step, ...]:
    """From row to row of one tool over the highest land between, with room for the insert on either side."""
    side = row.side
    (u, h), (u1, h1) = side.frame(spot.x, spot.z), side.frame(to.x, to.z)
    height = max(setting.above(row.ground, min(u, u1) - row.width, max(u, u1) + row.width), h1)
    steps: list[Step] = []
    if h < height:
        h = height
        steps.append(_rapid(side, height=h))
    if u != u1:
        steps.append(_rapid(side, along=u1))
    if h != h1:
        steps.append(_rapid(side, height=h1))
    return tuple(steps)


def _rapid(side: Side, along: int | None = None, height: int | None = None) -> Rapid:
    """A rapid along one axis of a side's frame, of the reference edge."""
    x, z = side.machine(along or 0, height or 0)
    moves_x = (height is not None) == side.axial
    return Rapid(x=x) if moves_x else Rapid(z=z)
