"""Formulas of turning and grooving: speed, time, force, power, torque. Floats in, floats out; sources at each.

Metric: diameters in mm, feed in mm/rev, cutting speed in m/min. Inch: inch, inch/rev, ft/min. Seconds, N, kW, Nm.
"""

import math

from extractor.part import Units

# Lengths in one unit of cutting speed: mm in a metre, inches in a foot.
PER_SPEED_UNIT: dict[Units, float] = {"mm": 1000.0, "in": 12.0}
MM_PER_UNIT: dict[Units, float] = {"mm": 1.0, "in": 25.4}
# Exact, the international foot of 1959.
METRE_PER_FOOT = 0.3048


def spindle_speed(surface: float, diameter: float, clamp: float | None, units: Units) -> float:
    """Rev/min at a diameter: n = 1000 vc / (pi D), in inch 12 V / (pi D), never above the clamp (handbook formula).

    >>> round(spindle_speed(60, 5, None, "in"), 2)
    45.84
    """
    limit = math.inf if clamp is None else clamp
    return min(limit, PER_SPEED_UNIT[units] * surface / (math.pi * diameter)) if diameter > 0 else limit


def clamp_diameter(surface: float, clamp: float, units: Units) -> float:
    """The diameter below which the clamp rules: Dc = 1000 vc / (pi N).

    >>> round(clamp_diameter(150, 3000, "mm"), 3)
    15.915
    """
    return PER_SPEED_UNIT[units] * surface / (math.pi * clamp)


def plunge_seconds(outer: float, inner: float, feed: float, surface: float, clamp: float | None, units: Units) -> float:
    """Time to feed along X between two diameters at constant surface speed, in closed form with the clamp.

    t = pi (D^2 - d^2) / (4000 f vc) min above the clamp diameter, (Dc - d) / (2 f N) below it; inch 48 for 4000. The
    integral of dx / (f n(x)), checked by numerical quadrature. The way may run in either direction.

    >>> round(plunge_seconds(40, 34, 0.08, 120, 3000, "mm"), 4)
    2.1795
    """
    low, high = sorted((abs(outer), abs(inner)))
    knee = 0.0 if clamp is None else min(high, max(low, clamp_diameter(surface, clamp, units)))
    upper = max(knee, low)
    seconds = 60 * math.pi * (high**2 - upper**2) / (4 * PER_SPEED_UNIT[units] * feed * surface)
    return seconds + (60 * (upper - low) / (2 * feed * clamp) if clamp else 0.0)


def feed_seconds(length: float, feed: float, speed: float) -> float:
    """Time to feed a length at a fixed speed in rev/min: L / (f n).

    >>> round(feed_seconds(3.0, 0.08, 955), 3)
    2.356
    """
    return 60 * length / (feed * speed)


def dwell_seconds(turns: float, speed: float) -> float:
    """Time of k turns of the spindle: 60 k / n (common practice: 1 to 3 turns at the floor)."""
    return 60 * turns / speed


def specific_force(kc11: float, mc: float, feed: float, units: Units) -> float:
    """Specific cutting force kc = kc1.1 h^-mc in N/mm2, h the feed in mm (Kienzle; groups of VDI 3323).

    >>> round(specific_force(1675, 0.24, 0.08, "mm"))
    3071
    """
    return kc11 * math.pow(feed * MM_PER_UNIT[units], -mc)


def cutting_force(kc11: float, mc: float, width: float, feed: float, units: Units) -> float:
    """Cutting force of a plunge in N: Fc = kc1.1 b h^(1-mc), b the insert's width (Kienzle).

    >>> round(cutting_force(1675, 0.24, 3, 0.08, "mm"), 1)
    737.0
    """
    scale = MM_PER_UNIT[units]
    return specific_force(kc11, mc, feed, units) * width * feed * scale**2


def cutting_power(force: float, surface: float, units: Units) -> float:
    """Power at the cut in kW: P = Fc vc / 60000, vc in m/min (ft/min where units are inch).

    >>> round(cutting_power(737.0, 120, "mm"), 3)
    1.474
    """
    return force * surface * (METRE_PER_FOOT if units == "in" else 1.0) / 60_000


def torque(force: float, diameter: float, units: Units) -> float:
    """Torque on the spindle in Nm at a diameter: M = Fc D / 2000."""
    return force * diameter * MM_PER_UNIT[units] / 2000
