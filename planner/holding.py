"""How the part is held: how much is left in the jaws, how far it stands out, and how far a cut pushes it aside.

Rules of thumb, each with its source beside its figure. A part in jaws alone bends as a beam fixed at one end, with a
centre as one that is propped at the other (any text on the strength of materials; the jaws are taken for rigid, so the
true figure is higher).
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from extractor.finding import Finding, Level
from extractor.limits import EPS, aims_of
from extractor.part import Groove, Part
from extractor.side import OUTSIDE
from planner.blade import stiff
from planner.choose import sensible
from planner.codes import PlanCode
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cutting import MM_PER_UNIT
from planner.fit import Fit
from planner.load import tool_force, tool_power
from planner.shop import Machine, Tool
from planner.words import figure, size

# Length in the jaws over the diameter there below which a part may work loose (common practice, no source).
LEAST_GRIP = 0.5
# Stick-out over diameter beyond which a bar held in jaws alone bends away (common practice, no source).
LONGEST = 4.0
# The same with a centre in the front face; beyond it a steady is used (common practice, no source).
LONGEST_HELD = 10.0
# Share of the cutting force that pushes across (0.3 to 0.5, from memory).
ACROSS = 0.4
# Young's modulus in N/mm2 by group, the softer of what a group holds (handbook values; plastics from memory).
MODULUS = {"P": 205e3, "M": 193e3, "K": 100e3, "N": 70e3, "S": 114e3, "H": 205e3, "plastics": 3e3}


def holding_findings(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """Findings about how the part is held."""
    yield from _grip(setting)
    yield from _overhang(setting, rows)
    yield from _bends(setting, rows)


def in_the_jaws(part: Part, machine: Machine) -> tuple[float, float] | None:
    """Length in the jaws and the diameter there, as the shop file says or as the drawing leaves; None where unknown."""
    left = part.length - machine.stick_out if machine.stick_out is not None else 0.0
    length = machine.grip_length or max(0.0, left)
    edge = -part.length + length if machine.stick_out is None else -machine.stick_out
    held = [2 * radius for z, radius in part.lands if z <= edge + EPS]
    across = machine.grip_diameter or max(held, default=0.0)
    return (length, across) if length > EPS and across > EPS else None


def _grip(setting: Setting) -> Iterator[Finding]:
    """Too little in the jaws."""
    held, units = in_the_jaws(setting.part, setting.shop.machine), setting.part.units
    if held is None or held[0] >= LEAST_GRIP * held[1] - EPS:
        return
    length, across = held
    message = (
        f"Only {size(length, units)} is left in the jaws on {figure(across, units)} across: less than {LEAST_GRIP:g} "
        "of the diameter may work loose under the cut."
    )
    yield Finding(Level.CAUTION, PlanCode.GRIP_SHORT, message)


def stands_out(setting: Setting, rows: Sequence[Placed]) -> tuple[float, bool]:
    """How far the part stands out of the jaws, and whether the shop file says so; else the least that is needed."""
    machine, length = setting.shop.machine, setting.increments.length
    if machine.stick_out is not None:
        return machine.stick_out, True
    lowest = [length(row.lowest) - (row.tool.holder_far or 0.0) for row in rows if row.side == OUTSIDE]
    return max(0.0, machine.jaw_gap - min(lowest, default=0.0)), False


def _overhang(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """A long thin part that no centre holds."""
    part, machine = setting.part, setting.shop.machine
    # The end faces lie in the lands too, down to the axis or the bore: they are no diameter of the part.
    turned = (max(one, other) for (z, one), (w, other) in pairwise(part.lands) if z != w)
    thinnest, (out, said) = 2 * min(turned, default=0.0), stands_out(setting, rows)
    held, most = ("with the centre", LONGEST_HELD) if machine.tailstock else ("with no centre", LONGEST)
    if 0 < most * thinnest < out:
        verb = "sticks out" if said else "must stick out at least"
        message = (
            f"The part {verb} {out / thinnest:.1f} times its least diameter {held}: "
            f"more than {most:g} times tends to chatter and bend."
        )
        yield Finding(Level.CAUTION, PlanCode.STICK_OUT, message)


def deflection(force: float, at: float, reach: float, stiffness: float, *, centre: bool) -> float:
    """How far a beam gives under a force, in mm: force in N, its place in mm from the jaws, length in mm, E I in N mm2.

    Jaws alone: F a^3 / (3 E I). With a centre at the end, b = L - a: F a^3 b^2 (4 L - a) / (12 E I L^3).

    >>> round(1000 * deflection(500, 100, 100, 210e3 * math.pi * 20**4 / 64, centre=False), 2)
    101.05
    """
    if not centre:
        return force * at**3 / (3 * stiffness)
    rest = max(0.0, reach - at)
    return force * at**3 * rest**2 * (4 * reach - at) / (12 * stiffness * reach**3)


def pushed_aside(groove: Groove, tool: Tool, setting: Setting, out: float) -> float | None:
    """How far a full plunge pushes the part aside at an outside groove, in drawing units; None where unknown.

    The part is taken to be as thick from the jaws on as its thinnest land there, less the bore.
    """
    shaft = _shaft(groove, setting, out)
    return None if shaft is None else shaft.aside(ACROSS * tool_force(tool, setting.shop))


class _Shaft(NamedTuple):
    """The part between jaws and a groove, in mm: where the groove is and where the part ends, its stiffness in N mm2.

    `centre`: a tailstock holds its end; `scale`: mm in a drawing unit.
    """

    at: float
    out: float
    stiffness: float
    centre: bool
    scale: float

    def aside(self, force: float) -> float:
        """How far a force in N pushes it aside at the groove, in drawing units."""
        return deflection(force, self.at, self.out, self.stiffness, centre=self.centre) / self.scale


def _shaft(groove: Groove, setting: Setting, out: float) -> _Shaft | None:
    """The part as it is held at an outside groove, None where that is unknown."""
    part, shop = setting.part, setting.shop
    modulus = MODULUS.get(shop.material.group)
    lands = setting.thinnest(out)
    behind = len(lands) - int(lands[::-1, 0].searchsorted(groove.middle))
    if modulus is None or groove.side != OUTSIDE or behind == len(lands) or out + groove.middle <= 0:
        return None
    hole = max((radius for z, radius in part.bore or () if z >= -out), default=0.0)
    scale, thick = MM_PER_UNIT[part.units], 2 * float(lands[behind, 1])
    inertia = math.pi * ((thick * scale) ** 4 - (2 * hole * scale) ** 4) / 64
    if inertia <= 0:
        return None
    return _Shaft((out + groove.middle) * scale, out * scale, modulus * inertia, bool(shop.machine.tailstock), scale)


def allowed_aside(groove: Groove, setting: Setting) -> float:
    """How far a part may give at a groove before its floor may be out: half of the diameter's room, halved again.

    What the part gives shows twice on the diameter; a floor without deviations has the shop's own tolerance.
    """
    floor = aims_of(groove, setting.shop.machine.tolerance).floor
    return (floor.high - floor.low) / 4


def _bends(setting: Setting, rows: Sequence[Placed]) -> Iterator[Finding]:
    """The groove at which the part gives most for what its floor may be off, if that is too much."""
    out, _ = stands_out(setting, rows)
    worst: tuple[float, float, Groove, Tool] | None = None
    for row in rows:
        for number in row.grooves:
            groove = setting.part.grooves[number - 1]
            aside = pushed_aside(groove, row.tool, setting, out)
            share = 0.0 if aside is None else aside / max(allowed_aside(groove, setting), EPS)
            if aside is not None and share > 1 and (worst is None or share > worst[0]):
                worst = share, aside, groove, row.tool
    if worst is not None:
        _, aside, groove, tool = worst
        units = setting.part.units
        message = (
            f"{tool.name} pushes the part about {size(aside, units)} aside at groove {groove.id}, where its floor "
            f"allows {size(allowed_aside(groove, setting), units)}: support the part, or lower the feed."
        )
        yield Finding(Level.CAUTION, PlanCode.BENDS, message, groove=groove.id)


def bearable(fits: Mapping[int, Sequence[Fit]], setting: Setting) -> dict[int, list[Fit]]:
    """The fits without those that power, blade or the stiffness of the part can't bear, as long as others are left."""
    return {number: _borne(setting.part.grooves[number - 1], some, setting) for number, some in fits.items()}


def _borne(groove: Groove, fits: Sequence[Fit], setting: Setting) -> list[Fit]:
    """Those of one groove."""
    power, out = setting.shop.machine.power, setting.shop.machine.stick_out
    borne = [fit for fit in fits if not power or tool_power(fit.tool, setting) <= power] or list(fits)
    borne = [fit for fit in borne if stiff(fit.tool, setting.shop)] or borne
    # Not at any price: a needle that takes many times the plunges bends the part as often.
    borne = sensible(borne)
    if out is None:
        return borne
    most, shaft = allowed_aside(groove, setting), _shaft(groove, setting, out)
    if shaft is None:
        return borne
    return [fit for fit in borne if shaft.aside(ACROSS * tool_force(fit.tool, setting.shop)) <= most] or borne
