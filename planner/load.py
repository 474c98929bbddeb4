"""What a cut asks of machine and insert, as figures and as sentences: force, power, torque, and where a clamp rules."""

from collections.abc import Iterator
from math import pi

from planner.cuts.moves import Setting
from planner.cutting import PER_SPEED_UNIT, clamp_diameter, cutting_force, cutting_power, torque
from planner.shop import Shop, Tool
from planner.words import figure


def tool_force(tool: Tool, shop: Shop) -> float:
    """Cutting force of a full plunge in N."""
    material = shop.material
    return cutting_force(material.specific_cutting_force, material.force_exponent, tool.width, tool.feed, shop.units)


def tool_power(tool: Tool, setting: Setting) -> float:
    """Power of a full plunge in kW."""
    return cutting_power(tool_force(tool, setting.shop), setting.surface_speed(tool), setting.shop.units)


def load_reasons(tool: Tool, largest: float, smallest: float, setting: Setting) -> Iterator[str]:
    """Force, power and torque of a full plunge between two diameters, and below which the spindle clamp rules."""
    units, shop = setting.part.units, setting.shop
    force, power = tool_force(tool, shop), tool_power(tool, setting)
    turns = [(torque(force, across, units), across) for across in (largest, smallest)]
    turn = " and ".join(f"{turning:.{0 if turning >= 10 else 1}f} Nm on {figure(d, units)}" for turning, d in turns)
    yield f"A full plunge takes about {round(force, -1):.0f} N, {power:.1f} kW, {turn}, give or take a third."
    surface, most = setting.surface_speed(tool), shop.machine.max_rpm
    knee = clamp_diameter(surface, most, units)
    if smallest < knee:
        left = pi * smallest * most / PER_SPEED_UNIT[units]
        falls = f"the cutting speed falls to {left:.0f} {'m/min' if units == 'mm' else 'ft/min'}"
        yield f"Below {figure(knee, units)} across the spindle turns at its limit of {most} rev/min, and {falls}."
