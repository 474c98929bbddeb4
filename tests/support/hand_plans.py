"""Twenty parts and a plan for each as a good setter writes it down, move by move, before he has seen any other.

Habits (common practice, no source): home X200 Z100, Z to the groove, X down to a millimetre a side above the land
beside it, two millimetres where he takes round figures; up to a depth of the insert's width in steel and cast iron he
plunges in one go, else in pecks with a short retract; along a shoulder he comes down a millimetre off the face and
feeds sideways to it. Z is the edge on the chuck's side. Tools of the shop: T1 2 wide, T2 3, T3 4, T4 4 with a full
radius, T5 3 in a bore, T6 3 on a face; their feeds stand in `FEEDS`, C45 at 120 m/min, 90 in bores and on faces.

`least`: seconds that no plan can go below: the metal alone, plunge by plunge, and the tool calls; worked out below from
how many plunges the width needs. It leaves out every rapid and all air.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from extractor.part import Part
from support.hand_clock import HandClock
from support.parts import part_of, row

FEEDS = {1: 0.06, 2: 0.08, 3: 0.10, 4: 0.08, 5: 0.06, 6: 0.06}
SHOP = Path(__file__).with_suffix(".toml").read_text("utf-8")
"""Their shop file; the material and one tool's further keys are left open."""
END = "X200 Z100"


@dataclass(frozen=True)
class HandPlan:
    """A part, the moves for it, and the full plunges that it needs at least as (tool, from diameter, to diameter)."""

    name: str
    part: Part
    moves: str
    metal: Sequence[tuple[int, float, float]]
    material: str = "C45"
    more: str = ""
    speed: float = 120.0

    @property
    def shop(self) -> str:
        """The text of the shop file."""
        return SHOP.format(material=self.material, more=self.more)

    def clock(self) -> HandClock:
        """A machine before anything has moved."""
        return HandClock(FEEDS, speed=self.speed)

    @property
    def seconds(self) -> float:
        """How long the plan takes."""
        return self.clock().run(f"X200 Z100 {self.moves} {END}").seconds

    @property
    def plunges(self) -> int:
        """How many plunges it needs."""
        return len(self.metal)

    @property
    def least(self) -> float:
        """A time that no plan can go below."""
        seconds = 3.0 * len({tool for tool, *_ in self.metal})
        for tool, outer, inner in self.metal:
            clock = self.clock()
            clock.x, clock.feed = outer, clock.feeds[tool]
            clock.cut(x=inner)
            seconds += clock.seconds
        return seconds


def each(places: Sequence[float], words: str) -> str:
    """The same words at one place after another: `@` stands for the place."""
    return " ".join(words.replace("@", f"{place:g}") for place in places)


def pecked(start: float, mouth: float, floor: float, peck: float, back: float) -> str:
    """Down in pecks of so much on the radius, counted from the mouth, and out to the start."""
    words, depth = [], mouth
    while depth - 2 * peck > floor + 1e-9:
        depth -= 2 * peck
        words += [f"x{depth:.3f}", f"X{depth + 2 * back:.3f}"]
    return " ".join([*words, f"x{floor:g}", f"X{start:g}"])


def _round(z: float) -> tuple[Any, ...]:
    """A round groove of radius 2 to its middle depth, its near edge at z."""
    return (z, z - 4, 36, {"shape": "round", "corner_radius": 2.0})


INSIDE = {"where": "inside"}
FACE = {"where": "face", "mouth_diameter": 46.0, "near_land_diameter": 46.0, "far_land_diameter": 40.0}
STEP = ((0.0, 40.0), (-30.0, 60.0))

PLANS = (
    HandPlan("one groove", part_of([(-10, -13, 34)]), "T2 Z-13 X42 x34 X42", [(2, 40, 34)]),
    HandPlan("four alike", part_of(row(4, -10, 8, 3, 35)),
             "T2 Z-13 X44 " + each([-13, -21, -29, -37], "Z@ x35 X44"), [(2, 40, 35)] * 4),
    HandPlan("eight narrow ones", part_of(row(8, -6, 5, 2, 37)),
             "T1 Z-8 X42 " + each([-8 - 5 * k for k in range(8)], "Z@ x37 X42"), [(1, 40, 37)] * 8),
    HandPlan("six wide", part_of([(-12, -18, 34)]), "T3 Z-18 X42 x34 X42 Z-16 x34 X42", [(3, 40, 34)] * 2),
    HandPlan("ten wide and deep", part_of([(-12, -22, 29)]),
             "T3 X44 " + each([-22, -16, -19], "Z@ " + pecked(44, 40, 29, 1.2, 0.3)), [(3, 40, 29)] * 3),
    HandPlan("deep", part_of([(-20, -23, 20)]), "T2 Z-23 X42 " + pecked(42, 40, 20, 1.0, 0.2), [(2, 40, 20)]),
    HandPlan("at a shoulder", part_of([(-27, -30, 34)], steps=STEP),
             "T2 Z-29 X42 z-30 x34 X42 Z-29", [(2, 40, 34)]),
    HandPlan("behind a flange", part_of([(-20, -23, 34)], steps=((0.0, 60.0), (-20.0, 40.0))),
             "T2 Z-24 X62 X42 z-23 x34 X42 Z-24 X62", [(2, 40, 34)]),
    HandPlan("at a high shoulder", part_of([(-26, -30, 36)], steps=((0.0, 40.0), (-30.0, 90.0)), length=60),
             "T3 Z-29 X42 z-30 x36 X42 Z-29", [(3, 40, 36)]),
    HandPlan("round", part_of([_round(-10)]), "T4 Z-14 X42 x36 X42", [(4, 40, 36)]),
    HandPlan("five round ones", part_of([_round(-8 - 9 * k) for k in range(5)]),
             "T4 X44 " + each([-12 - 9 * k for k in range(5)], "Z@ x36 X44"), [(4, 40, 36)] * 5),
    HandPlan("three in a bore", part_of([(z, z - 3, 35, INSIDE) for z in (-8, -18, -28)], diameter=50, bore=30.0),
             "T5 S90 X26 Z-11 " + each([-11, -21, -31], "Z@ x35 X26") + " Z100", [(5, 30, 35)] * 3, speed=90.0),
    HandPlan("two sizes", part_of([*row(3, -8, 8, 2, 36.8), *row(2, -34, 9, 3, 35)]),
             "T1 Z-10 X42 " + each([-10, -18, -26], "Z@ x36.8 X42")
             + " X200 Z100 T2 Z-37 X44 x35 X44 Z-46 x35 X44", [(1, 40, 36.8)] * 3 + [(2, 40, 35)] * 2),
    HandPlan("toleranced floor", part_of([(-10, -13, 34, {"tolerances": {"floor_diameter": (-0.1, 0.1)}})]),
             "T2 Z-13 X42 x34 D0.18 X42", [(2, 40, 34)], more="dwell = 3.0"),
    HandPlan("at odd places", part_of([(z, z - 3, 35) for z in (-6, -13, -24, -31, -45)]),
             "T2 X44 " + each([-9, -16, -27, -34, -48], "Z@ x35 X44"), [(2, 40, 35)] * 5),
    HandPlan("stainless", part_of([(-10, -13, 34), (-20, -23, 34)]),
             "T2 X42 " + each([-13, -23], "Z@ " + pecked(42, 40, 34, 1.0, 0.3)), [(2, 40, 34)] * 2, material="1.4301"),
    HandPlan("grey iron", part_of(row(3, -10, 10, 3, 34)), "T2 X44 " + each([-13, -23, -33], "Z@ x34 X44"),
             [(2, 40, 34)] * 3, material="EN-GJL-250"),
    HandPlan("aluminium", part_of(row(2, -10, 10, 3, 35)),
             "T2 X42 " + each([-13, -23], "Z@ " + pecked(42, 40, 35, 1.0, 0.5)), [(2, 40, 35)] * 2, material="6082"),
    HandPlan("on either side of a flange", part_of([(-8, -11, 34), (-40, -43, 34)], length=60,
             steps=((0.0, 40.0), (-20.0, 70.0), (-30.0, 40.0))),
             "T2 Z-11 X42 x34 X42 X74 Z-43 X42 x34 X42", [(2, 40, 34)] * 2),
    HandPlan("pairs in pecks", part_of(row(4, -8, 9, 3, 30)),
             "T2 X42 " + each([-11, -20, -29, -38], "Z@ " + pecked(42, 40, 30, 1.0, 0.3)), [(2, 40, 30)] * 4),
)  # fmt: skip
