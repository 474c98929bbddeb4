"""What a program leaves of the metal, read and cut by nothing of this project: words, state and shapes are its own.

The lathe of the whole programs (`support.wholes.lathe`) follows the words; shapely sweeps the insert through the half
section. What it can't follow with certainty it says (`Lost`); such a program proves nothing.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from planner.shop import Tool
from support.second_opinion import FAR_OUT, Lost, swept_out
from support.setters import Work
from support.wholes.lathe import AWAY, Lathe, Leg

KNOWN = frozenset({0, 1, 2, 3, 4, 18, 20, 21, 28, 40, 50, *range(54, 60), 75, 80, 96, 97, 98, 99})
ISO = frozenset({70, 71, 90, 92, 94, 95})
"""What these mean besides in ISO 6983: inch, mm, absolute, clamp, feed per minute and per turn."""
HAIR = 1e-4
LOST = (Lost, RuntimeError, LookupError, StopIteration, ValueError, ArithmeticError, TypeError, SyntaxError, NameError)
"""What following a text that is no program any more may raise."""


@dataclass
class Reader(Lathe):
    """That lathe, which asks for feed and spindle before a cut and takes no word that it has no meaning for."""

    feed: float = 0.0
    turning: bool = False

    def value(self, text: str) -> float:
        return super().value(re.sub(r"\s*(EQ|NE|GT|LT|GE|LE)\s*", r" \1 ", text))

    def number(self, text: str) -> float:
        return float(text) * (1 if "." in text else self.least)

    def block(self, words: dict[str, list[str]]) -> bool:
        codes = {int(float(text)) for text in words.get("G", ())}
        if codes - KNOWN - (ISO if self.iso else set()) or not all(map(str.isdigit, words.get("T", ()))):
            raise Lost(f"line {self.at}")
        self.least = 0.0001 if codes & {20, 70} else 0.001 if codes & {21, 71} else self.least
        switches = {int(text) for text in words.get("M", ())}
        self.turning = (self.turning or bool(switches & {3, 4})) and 5 not in switches
        self.feed = float(words["F"][0]) if "F" in words else self.feed
        return super().block(words)

    def call(self, words: dict[str, list[str]]) -> None:
        whole = words["P"][0]
        super().call({"P": [whole[-4:]], "L": [whole[:-4]]} if len(whole) > 4 else words)

    def go(self, kind: str, x: float, z: float) -> None:
        if kind == "feed" and not (self.feed > 0 and self.turning):
            raise Lost(f"line {self.at}: a cut with no feed or no spindle")
        super().go(kind, x, z)

    def row(self, floor: float, last: float, peck: float, shift: float, back: float) -> None:
        super().row(floor, last, 0.0, shift, back)  # pecks change no metal


def tip(tool: Tool) -> Polygon:
    """A sharp insert and the space behind it, its programmed point at (0, 0)."""
    low = 0.0 if tool.reference == "far" else -tool.width
    heights = (-2 * FAR_OUT, 0) if tool.where == "inside" else (0, 2 * FAR_OUT)
    return box(low, heights[0], low + tool.width, heights[1])


@dataclass
class Metal:
    """A half section (z, radius), with the bar that goes on behind it."""

    work: Work
    drawn: BaseGeometry = field(init=False)

    def __post_init__(self) -> None:
        self.stock = box(-self.work.length - 1000, self.work.bore / 2, 0, self.work.across / 2)
        self.drawn = self.stock
        for groove in self.work.grooves:
            self.drawn = self.drawn.difference(self._recess(*groove))

    def _recess(self, near: float, far: float, floor: float, chamfer: float) -> Polygon:
        if self.work.bore:
            return box(far, 0, near, floor / 2)
        top, out = self.work.across / 2, self.work.across
        rims = [(far, top - chamfer), (far - chamfer, top), (far - chamfer, out)]
        walls = [
            (near + chamfer, out),
            (near + chamfer, top),
            (near, top - chamfer),
            (near, floor / 2),
            (far, floor / 2),
        ]
        return Polygon([*walls, *rims])

    def faults(self, text: str) -> Iterator[str]:
        """What a program leaves otherwise than drawn, or runs into; raises one of LOST where that can't be told."""
        legs: list[Leg] = Reader(text).run().legs
        tools = self.work.shop.tools
        left, crashes = swept_out(self.stock, legs, {tool.station: tip(tool) for tool in tools}, HAIR)
        yield from (f"line {leg.line}: a rapid through {area:.4f} of metal" for leg, area in crashes)
        thin = self.work.shop.machine.tolerance
        edges = [box(z - 0.75, 0, z + 0.75, AWAY) for *walls, _, chamfer in self.work.grooves if chamfer for z in walls]
        off = left.symmetric_difference(self.drawn)
        for edge in edges:
            # A broken edge may be 0.2 off: ISO 2768-1 m (from memory).
            if not (wrong := off.intersection(edge).buffer(-0.11, join_style="mitre")).is_empty:
                yield f"an edge at {wrong.bounds}"
            off = off.difference(edge)
        for piece in getattr(off, "geoms", [off]):
            if not piece.buffer(-0.75 * thin, join_style="mitre").is_empty:
                yield f"metal at {piece.bounds}"
