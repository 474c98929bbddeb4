"""Twelve more parts, and a plan for each with no slack in it, written down before any other was seen.

Habits (common practice, no source): a tool comes and goes along one axis at a time, because a rapid along both need not
run straight; it starts and lifts a millimetre a side above the highest land that it passes (0.05 in), no more, as
`clearance` of the shop says; from the last floor it goes home at once. In steel it plunges in one go down to the width
of the insert; elsewhere and deeper in pecks counted from the mouth, no more of them than the tool's own, with a fifth
of the peck as retract. A groove wider than the insert is cut in as few plunges as its flat edge meets both walls in.
The moves are in the words of `hand_clock`.
"""

from dataclasses import dataclass, replace

from extractor.part import Part, Units
from support.hand_clock import HandClock
from support.hand_plans import HandPlan, each, pecked
from support.parts import part_of, row

TOOLS = {
    1: "width = 1.0\ncorner_radius = 0.05\nmax_depth = 3.0\nfeed = 0.04\npeck = 0.5",
    2: "width = 2.0\ncorner_radius = 0.2\nmax_depth = 10.0\nfeed = 0.06\npeck = 0.8",
    3: "width = 3.0\ncorner_radius = 0.2\nmax_depth = 20.0\nfeed = 0.08\npeck = 1.0",
    4: "width = 4.0\ncorner_radius = 0.2\nmax_depth = 30.0\nfeed = 0.10\npeck = 1.2",
    5: "width = 4.0\ncorner_radius = 0.2\nmax_depth = 30.0\nfeed = 0.10\npeck = 1.2\nfinish = 0.1",
    6: "width = 6.0\ncorner_radius = 0.2\nmax_depth = 30.0\nfeed = 0.12\npeck = 1.5",
    7: 'where = "inside"\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 6.0\nmin_bore = 20.0\nfeed = 0.06\npeck = 0.8',
    8: 'where = "face"\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 8.0\nfeed = 0.06\npeck = 0.8\n'
       "face_min = 20.0\nface_max = 80.0",
    9: "width = 0.125\ncorner_radius = 0.008\nmax_depth = 0.5\nfeed = 0.003\npeck = 0.04",
}  # fmt: skip
FEEDS = {1: 0.04, 2: 0.06, 3: 0.08, 4: 0.10, 5: 0.10, 6: 0.12, 7: 0.06, 8: 0.06, 9: 0.003}
INSIDE = {"where": "inside", "mouth_diameter": 36.0, "near_land_diameter": 36.0, "far_land_diameter": 36.0}
FACE = {"where": "face", "mouth_diameter": 50.0, "near_land_diameter": 50.0, "far_land_diameter": 40.0}
BEHIND = ((0.0, 15.0), (-20.0, 15.0), (-20.0, 18.0), (-60.0, 18.0))
ODD = (-5, -9.5, -14.2, -20, -24.7, -31, -36.3, -40, -47.1, -52, -58.6, -63, -69.9, -75)


@dataclass(frozen=True)
class TightPlan(HandPlan):
    """A hand plan with the tools that it may take, in its own units, from its own place for changing them."""

    tools: tuple[int, ...] = (2, 3, 4, 6)
    units: Units = "mm"
    home: str = "X200 Z100"

    @property
    def shop(self) -> str:
        """The text of the shop file."""
        across, along = (word[1:] for word in self.home.split())
        tools = "".join(f"[[tools]]\nstation = {number}\n{TOOLS[number]}\n" for number in self.tools)
        return (
            f'units = "{self.units}"\n[machine]\nstick_out = {0.8 * self.part.length}\n'
            f"grip_length = {self.part.outer_diameter}\n"
            f"home_x = {across}\nhome_z = {along}\n"
            f'[material]\nname = "{self.material}"\ncutting_speed = {self.speed}\n{tools}'
        )

    def clock(self) -> HandClock:
        """A machine before anything has moved, at the speed of the first tool."""
        inch = self.units == "in"
        inner = 0.75 if {7, 8} & set(self.tools) else 1.0
        return HandClock(
            FEEDS, per_speed=12.0 if inch else 1000.0, rate=400.0 if inch else 10_000.0, speed=inner * self.speed
        )

    @property
    def seconds(self) -> float:
        """How long the plan takes."""
        return self.clock().run(f"{self.home} {self.moves} {self.home}").seconds


def behind_a_shoulder() -> Part:
    """A groove in a bore that is wider behind a collar."""
    part = part_of([(-35, -38, 42, INSIDE)], diameter=60, bore=30.0)
    return replace(part, bore=BEHIND)


TIGHT = (
    TightPlan("wide roughing", part_of([(-12, -24, 32)]),
              "T6 Z-18 X42 x32 X42 Z-24 x32 X42 Z-21 x32", [(6, 40, 32)] * 2),
    TightPlan("nearly parted", part_of([(-25, -28, 8)]), "T3 Z-28 X42 " + pecked(200, 40, 8, 1.0, 0.2), [(3, 40, 8)]),
    TightPlan("wide in a face", part_of([(0, -3, 40, FACE)], diameter=60),
              "T8 X44 Z1 z-3 Z1 X40 z-3 Z100", [], tools=(2, 8)),
    TightPlan("in a bore behind a collar", behind_a_shoulder(), "T7 X28 Z-38 X34 x42 X28 Z100", [(7, 36, 42)],
              tools=(3, 7)),
    TightPlan("fourteen at odd places", part_of([(z, z - 2, 37) for z in ODD], length=110),
              "T2 Z-7 X42 " + each([z - 2 for z in ODD], "Z@ x37 X42"), [(2, 40, 37)] * 14),
    TightPlan("for O-rings in titanium", part_of(row(2, -10, 15, 3.6, 25.6, corner_radius=0.3), diameter=30),
              "T3 Z-13 X32 " + each([-13, -13.6, -28, -28.6], "Z@ " + pecked(32, 30, 25.6, 1.0, 0.2)),
              [(3, 30, 25.6)] * 2, material="TiAl6V4", speed=40.0),
    TightPlan("tiny ones in brass", part_of(row(6, -3, 2.5, 1, 11), diameter=12, length=30),
              "T1 Z-4 X14 " + each([-4 - 2.5 * k for k in range(6)], "Z@ x11 X14"), [(1, 12, 11)] * 6,
              material="CuZn39Pb3", speed=150.0, tools=(1,)),
    TightPlan("a large roll", part_of(row(5, -40, 40, 8, 388), diameter=400, length=600),
              "T6 Z-46 X402 " + each([-46 - 40 * k for k in range(5)], "Z@ x388 X402")
              + each([-208, -168, -128, -88, -48], " Z@ x388 X402"), [(6, 400, 388)] * 5, home="X500 Z100"),
    TightPlan("on three lands", part_of([(-10, -13, 26), (-30, -33, 36), (-55, -58, 46)], length=80,
              steps=((0.0, 30.0), (-20.0, 40.0), (-45.0, 50.0))),
              "T3 Z-13 X32 x26 X42 Z-33 x36 X52 Z-58 x46", [(3, 30, 26), (3, 40, 36), (3, 50, 46)]),
    TightPlan("with chamfers", part_of([(-10, -14, 34, {"edge_chamfer": 0.5})]),
              "T4 Z-14 X42 x34 X42 Z-12.383 (z-14 x38.766) X42 Z-15.617 (z-14 x38.766)", [(4, 40, 34)]),
    TightPlan("with a finishing pass", part_of([(-20, -30, 34)]),
              "T5 Z-24.1 X42 x34.2 X42 Z-29.9 x34.2 X42 Z-27 x34.2 X42 "
              "Z-24 x34 z-29.8 X42 Z-30 x34 z-29.6", [(5, 40, 34)] * 2, tools=(5,)),
    TightPlan("in inch", part_of(row(4, -0.5, 0.375, 0.125, 1.3), diameter=1.5, length=3.0, units="in"),
              "T9 Z-0.625 X1.6 " + each([-0.625 - 0.375 * k for k in range(4)], "Z@ x1.3 X1.6"),
              [(9, 1.5, 1.3)] * 4, material="C45", speed=400.0, tools=(9,), units="in", home="X8 Z4"),
)  # fmt: skip
