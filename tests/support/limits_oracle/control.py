"""A control that runs a program: G00 to G03 in ISO 6983 words, and G75 as the two dialects with a cycle describe it.

Written from the public description of the dialects. X words are diameters. Gives straight legs in (z, x as a diameter).
"""

import math
import re
from dataclasses import dataclass

WORD = re.compile(r"([A-Z])\s*([+-]?(?:\d+\.?\d*|\.\d+))")
CHORDS = 48


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One straight move; x is a diameter."""

    rapid: bool
    z0: float
    x0: float
    z1: float
    x1: float
    tool: int
    line: int


class Lost(Exception):
    """A block that this control does not know."""


class Control:
    """Runs the blocks in order and keeps the legs."""

    def __init__(self, units: str, dialect: str) -> None:
        self.units, self.dialect = units, dialect
        self.least = 0.001 if units == "mm" else 0.0001
        self.legs: list[Leg] = []
        self.x = self.z = math.nan
        self.motion, self.tool, self.line, self.cycle_set = 0, 0, 0, False

    def run(self, text: str) -> list[Leg]:
        for self.line, block in enumerate(text.splitlines(), 1):
            block = re.sub(r"\([^)]*\)", "", block).strip()
            if block and block != "%" and block[0] not in "O:":
                self.block(block)
        return self.legs

    def block(self, block: str) -> None:
        words = WORD.findall(block)
        if "".join(a + b for a, b in words) != block.replace(" ", ""):
            raise Lost(f"line {self.line}: {block}")
        codes = [float(value) for letter, value in words if letter == "G"]
        values = {letter: value for letter, value in words if letter not in "GM"}
        if codes and codes[0] in (70, 71, 20, 21):
            inch = codes[0] in (70, 20)
            if inch != (self.units == "in"):
                raise Lost(f"line {self.line}: other units")
            codes = codes[1:]
        if "T" in values:
            self.tool = int(values["T"]) // 100
        known = {0, 1, 2, 3, 4, 75, 50, 92, 90, 94, 95, 96, 97, 98, 99, 40, 18, 80, 54}
        if set(codes) - known:
            raise Lost(f"line {self.line}: {block}")
        if set(codes) & {50, 92, 4}:
            return
        if 75 in codes:
            self.cycle(values)
            return
        for code in codes:
            self.motion = int(code) if code in (0, 1, 2, 3) else self.motion
        if "X" in values or "Z" in values:
            self.move({k: float(v) for k, v in values.items()})

    def move(self, values: dict[str, float]) -> None:
        x, z = values.get("X", self.x), values.get("Z", self.z)
        if self.motion < 2:
            self.leg(x, z, self.motion == 0)
            return
        if "R" in values:
            mz, mr = self.centre(x, z, values["R"])
        else:
            mz, mr = self.z + values.get("K", 0.0), self.x / 2 + values.get("I", 0.0)
        radius = math.hypot(self.z - mz, self.x / 2 - mr)
        first = math.atan2(self.x / 2 - mr, self.z - mz)
        turn = (math.atan2(x / 2 - mr, z - mz) - first) % (2 * math.pi)
        # X points up and Z to the right, seen from above the lathe: G03 turns from Z toward X.
        turn = turn if self.motion == 3 else turn - 2 * math.pi
        for step in range(1, CHORDS):
            angle = first + turn * step / CHORDS
            self.leg(2 * (mr + radius * math.sin(angle)), mz + radius * math.cos(angle), False)
        self.leg(x, z, False)

    def centre(self, x: float, z: float, radius: float) -> tuple[float, float]:
        """The centre of an arc of less than half a turn with that radius."""
        dz, dr = z - self.z, (x - self.x) / 2
        long = math.hypot(dz, dr)
        away = math.sqrt(max(0.0, radius * radius - long * long / 4)) / long
        left = 1.0 if self.motion == 3 else -1.0
        return self.z + dz / 2 - left * away * dr, self.x / 2 + dr / 2 + left * away * dz

    def leg(self, x: float, z: float, rapid: bool) -> None:
        if not any(map(math.isnan, (self.x, self.z))):
            self.legs.append(
                Leg(rapid=rapid, z0=self.z, x0=self.x, z1=z, x1=x, tool=self.tool, line=self.line),
            )
        elif not rapid:
            raise Lost(f"line {self.line}: cuts from an unknown place")
        self.x, self.z = x, z

    def cycle(self, values: dict[str, str]) -> None:
        """Plunges from the start on, one shift apart, the last one at the end; pecks change no metal."""
        if self.dialect == "two-block" and set(values) == {"R"}:
            return
        x, z = float(values["X"]), float(values.get("Z", self.z))
        start_x, start_z = self.x, self.z
        if self.dialect == "two-block":
            shift = int(values["Q"]) * self.least if "Q" in values else 0.0
        else:
            shift = float(values.get("K", 0.0))
        places, whole = [start_z], abs(z - start_z)
        while shift and whole - len(places) * shift > self.least / 10:
            places.append(start_z + math.copysign(len(places) * shift, z - start_z))
        if whole:
            places.append(z)
        for place in places:
            self.leg(start_x, place, True)
            self.leg(x, place, False)
            self.leg(start_x, place, True)
        self.leg(start_x, start_z, True)
