"""Motions and runs built by hand, for tests of the simulation that need no program text.

tool(width=3.0)                              a grooving insert in station 3, Z set to its far edge
shop(tool(), ...)                            a lathe in millimetres with these tools
Moves().rapid(42, -13).feed(34).rapid(42)    moves in drawing units, line numbers counted from 1
"""

import math
from dataclasses import replace
from typing import Any

from extractor.finding import Finding
from extractor.part import Units
from planner.increment import Increments
from planner.shop import Machine, Material, Shop, Tool
from postproc.motion import Motion
from postproc.reading.run import CycleCall, Run


def tool(**fields: Any) -> Tool:
    """A 3 mm insert, or what the fields say."""
    usual = Tool(
        station=3,
        offset=3,
        width=3.0,
        corner_radius=0.0,
        max_depth=12.0,
        reference="far",
        feed=0.08,
        peck=1.0,
        retract=0.5,
    )
    return replace(usual, **fields)


STEEL = Material("C45 steel", 120.0, 2100.0)


def shop(*tools: Tool, units: Units = "mm", material: Material = STEEL, **machine: Any) -> Shop:
    """A lathe with these tools, that cuts dry."""
    usual = Machine(
        dialect="two-block",
        max_rpm=3000,
        jaw_gap=3.0,
        stick_out=75.0,
        clearance=1.0,
        tolerance=0.02 if units == "mm" else 0.001,
        home_x=200.0,
        home_z=100.0,
        coolant=False,
    )
    return Shop(units, replace(usual, **machine), material, tools or (tool(),))


class Moves:
    """A path of moves that begins at a known place; every move is one more program line."""

    def __init__(self, x: float = 200.0, z: float = 100.0, units: Units = "mm", **fields: Any) -> None:
        """Start at a place in drawing units; `fields` go into every motion."""
        self.increments = Increments.of(units)
        self.at = (self.increments.count(x), self.increments.count(z))
        usual = {"station": 3, "offset": 3, "speed": 120.0, "surface": True, "clamp": 3000, "wet": True}
        self.fields: dict[str, Any] = usual | fields
        self.motions: list[Motion] = []

    def rapid(self, x: float | None = None, z: float | None = None, **fields: Any) -> "Moves":
        """Move at rapid; an axis left out stays."""
        return self._move("rapid", x, z, fields)

    def feed(self, x: float | None = None, z: float | None = None, **fields: Any) -> "Moves":
        """Move at feed; an axis left out stays."""
        return self._move("feed", x, z, {"feed": self.increments.feed_count(0.08)} | fields)

    def plunge(self, z: float, floor: float, start: float = 42.0) -> "Moves":
        """Rapid to a place above the land, cut to the floor, rapid back."""
        return self.rapid(start, z).feed(floor).rapid(start)

    def run(self, *findings: Finding, cycles: tuple[CycleCall, ...] = ()) -> Run:
        """The run that makes these moves."""
        units = self.increments.units
        return Run(
            dialect="plunge",
            units=units,
            increments=self.increments,
            motions=tuple(self.motions),
            cycles=cycles,
            findings=findings,
        )

    def _move(self, kind: Any, x: float | None, z: float | None, fields: dict[str, Any]) -> "Moves":
        """Add one motion."""
        x1 = self.at[0] if x is None else self.increments.count(x)
        z1 = self.at[1] if z is None else self.increments.count(z)
        line = len(self.motions) + 1
        values: dict[str, Any] = {"line": line} | self.fields | fields
        x0, z0 = self.at
        self.motions.append(Motion(kind=kind, x0=x0, z0=z0, x1=x1, z1=z1, **values))
        self.at = (x1, z1)
        return self


def down_leaning_walls(radius: float) -> Moves:
    """Cuts of an insert 1 wide into a groove from Z-10 to Z-13 on 40, its floor 34, its walls leaning 0.5 over 3.

    Down a wall that leans by a, the insert's corner stands radius (1 + tan a - 1 / cos a) off it: so far the path is
    moved out.
    """
    out = radius * (1 + 0.5 / 3 - math.hypot(3, 0.5) / 3)
    moves = Moves().rapid(42, -12.5).feed(34).feed(None, -11.5).rapid(42)
    moves.rapid(None, -13.0 - out).feed(40).feed(34, -12.5 - out).rapid(42)
    return moves.rapid(None, -11.0 + out).feed(40).feed(34, -11.5 + out).rapid(42)
