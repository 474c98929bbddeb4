"""The parts of `support.journeymen`: lands, grooves, some with rounded floor corners, and the shop for them.

Lengths are least increments, across the part diameters.
"""

import random
from dataclasses import dataclass, replace

from extractor.part import Part, Units
from planner.shop import Material, Shop
from support import parts
from support.moves import shop, tool


@dataclass(frozen=True)
class Cut:
    """A groove to make, in least increments: walls, floor and land (diameters), drawn corner radius at the floor."""

    near: int
    far: int
    floor: int
    land: int
    corner: int = 0

    @property
    def width(self) -> int:
        return self.near - self.far

    @property
    def depth(self) -> int:
        return (self.land - self.floor) // 2


@dataclass(frozen=True)
class Bench:
    """Units and inserts: `wide` and `slim` (widths in increments), the edge that each is set to."""

    units: Units
    per_length: int
    wide: int
    slim: int
    far: bool
    corner: int

    @property
    def mm(self) -> int:
        """A millimetre in increments, or what people take for one in inches."""
        return 1_000 if self.units == "mm" else 400


def drawn(rng: random.Random, bench: Bench) -> tuple[list[tuple[int, int]], list[Cut], int]:
    """Lands (where each starts, diameter), grooves from the front back, and the length."""
    mm, grain = bench.mm, bench.mm // 20
    lands, cuts, z = [], [], 0
    for _ in range(rng.choice([1, 1, 2])):
        across = rng.randrange(30 * mm, 90 * mm, 2 * grain)
        lands.append((z, across))
        z -= rng.randrange(4 * mm, 9 * mm, grain)
        for _ in range(rng.choice([1, 2])):
            z = _some(rng, bench, cuts, z, across)
        z -= rng.randrange(3 * mm, 6 * mm, grain)
    return lands, cuts, -z + 2 * mm


def _some(rng: random.Random, bench: Bench, cuts: list[Cut], z: int, across: int) -> int:
    """A groove or a row of like ones, appended; the place behind them comes back."""
    mm, grain = bench.mm, bench.mm // 20
    depth = rng.randrange(mm, 4 * mm, grain)
    kind = rng.choice(["exact", "exact", "wide", "wide", "rounded"])
    corner = 0
    if kind == "exact":
        width = rng.choice([bench.wide, bench.slim])
    else:
        width = bench.wide + rng.randrange(mm // 2, 9 * mm, grain)
    if kind == "rounded":
        corner = bench.corner + rng.choice([6, 10, 16]) * grain // 2
        depth = max(depth, corner + mm // 2)
        width = max(width, bench.wide + 2 * corner + mm)
    count = rng.choice([1, 1, 2, 4]) if kind == "exact" else rng.choice([1, 1, 2])
    pitch = width + rng.randrange(2 * mm, 6 * mm, grain)
    for n in range(count):
        cuts.append(Cut(z - n * pitch, z - n * pitch - width, across - 2 * depth, across, corner))
    return cuts[-1].far - rng.randrange(2 * mm, 7 * mm, grain)


def part_of(bench: Bench, lands: list[tuple[int, int]], cuts: list[Cut], length: int) -> Part:
    """The drawing's own numbers, rounded corners as chords."""
    at = bench.per_length
    spots = [
        (c.near / at, c.far / at, c.floor / at, {"corner_radius": c.corner / at, "bent": c.corner > 0}) for c in cuts
    ]
    steps = [(start / at, across / at) for start, across in lands]
    return parts.part_of(spots, length=length / at, units=bench.units, steps=steps)


def shop_of(bench: Bench, length: int, dialect: str) -> Shop:
    """The two inserts in a lathe with room for the part."""
    at, metric = bench.per_length, bench.units == "mm"
    scale = 1.0 if metric else 1 / 25.4
    wide = tool(
        width=bench.wide / at,
        corner_radius=bench.corner / at,
        max_depth=30 * scale,
        reference="far" if bench.far else "near",
        feed=0.1 * scale,
        peck=scale,
        retract=0.5 * scale,
    )
    slim = replace(wide, station=5, offset=5, width=bench.slim / at)
    lengths = {"jaw_gap": 3 * scale, "stick_out": length / at + 60 * scale, "clearance": scale}
    lengths |= {"sharp_corner": 0.3 * scale, "home_x": 300.0, "home_z": 300.0}
    steel = Material("steel", 120 if metric else 400, 2000.0)
    return shop(wide, slim, units=bench.units, material=steel, dialect=dialect, **lengths)
