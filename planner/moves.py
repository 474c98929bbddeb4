"""Placed rows to steps: how the tool comes, cuts and goes, always clear of the lands.

Coming and from set to set: X to a height above everything on the way, then Z, then X down to the start. At the end X
out before Z back. The start of a cycle is a clearance above the highest land that the insert passes or stands beside.
"""

import math
from dataclasses import dataclass

from extractor.part import Part
from planner.clearance import highest_land
from planner.increment import Increments
from planner.place import Placed
from planner.shop import Shop, Tool
from planner.steps import Coolant, Rapid, Spindle, SpindleClamp, Step, ToolCall


@dataclass(frozen=True)
class Spot:
    """Where the tool is, as counts: X diameter, Z of the reference edge, and the insert's width and edge."""

    x: int
    z: int


@dataclass(frozen=True)
class Setting:
    """What all moves of one plan share."""

    part: Part
    shop: Shop
    increments: Increments

    @property
    def home(self) -> Spot:
        """Where tools change: as the shop says, but never lower than well above the part."""
        machine = self.shop.machine
        above = self.part.outer_diameter + 20 * machine.clearance
        return Spot(self.increments.count(max(machine.home_x, above)), self.increments.count(machine.home_z))

    def above(self, far: int, near: int, beside: float = 0.0) -> int:
        """Diameter count a clearance above the lands between two z counts, and `beside` so much to either side."""
        length, machine = self.increments.length, self.shop.machine
        land = highest_land(self.part.lands, length(far) - beside, length(near) + beside)
        up = math.ceil(land * self.increments.per_length - 1e-3)
        return up + 2 * self.increments.count(machine.clearance)


def calls(tool: Tool, setting: Setting) -> tuple[Step, ...]:
    """Tool, spindle clamp before surface speed, coolant."""
    speed = tool.cutting_speed or setting.shop.material.cutting_speed
    return (
        ToolCall(tool.station, tool.offset),
        SpindleClamp(setting.shop.machine.max_rpm),
        Spindle("surface", max(1, int(speed + 1e-6))),
        *((Coolant(True),) if setting.shop.machine.coolant else ()),
    )


def go_home(setting: Setting) -> tuple[Step, ...]:
    """X out before Z back."""
    return Rapid(x=setting.home.x), Rapid(z=setting.home.z)


def start_of(placed: Placed, setting: Setting) -> Spot:
    """Where the first cut of a row begins."""
    near = placed.places[0] + placed.width
    height = setting.above(placed.lowest, near, setting.shop.machine.clearance / 2)
    return Spot(height, placed.reference(placed.places[0] - placed.layout.order[0]))


def hop(spot: Spot, to: Spot, widths: tuple[int, int], setting: Setting) -> tuple[Step, ...]:
    """From one place to another over the highest land between, with room for inserts of these widths on either side."""
    widest = max(widths)
    low, high = min(spot.z, to.z) - widest, max(spot.z, to.z) + widest
    height = max(setting.above(low, high), to.x)
    steps: list[Step] = []
    x = spot.x
    if x < height:
        steps.append(Rapid(x=height))
        x = height
    if spot.z != to.z:
        steps.append(Rapid(z=to.z))
    if x != to.x:
        steps.append(Rapid(x=to.x))
    return tuple(steps)
