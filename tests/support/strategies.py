"""Right programs that cut the same part in ever other ways, at random but seeded.

    for program in strategy_programs(200, seed=1): ...

A part with grooves on one or several lands is drawn first, then for every groove a way to cut it: one plunge, pecks
with a retract of any kind, overlapping plunges in any order, turning from side to side in layers, roughing with a
finishing pass down both walls. Right by construction: rapids between grooves run above everything on the way.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass, field

from extractor.part import Part
from planner.shop import Shop, Tool
from support.moves import shop, tool
from support.parts import part_of


@dataclass(frozen=True)
class StrategyProgram:
    """A right program, its part and its shop."""

    name: str
    text: str
    part: Part
    shop: Shop


@dataclass(frozen=True)
class Spot:
    """A groove to cut: walls, floor and the land it starts from, in thousandths."""

    near: int
    far: int
    floor: int
    land: int

    @property
    def width(self) -> int:
        return self.near - self.far


def strategy_programs(count: int, seed: int) -> Iterator[StrategyProgram]:
    """So many programs."""
    for n in range(count):
        yield strategy_program(seed * 100_019 + n)


def strategy_program(seed: int) -> StrategyProgram:
    """The program of a seed."""
    rng = random.Random(seed)
    steps, spots, length = _part(rng)
    inserts = _inserts(rng, min(spot.width for spot in spots))
    writer = _Writer(rng, max(across for _, across in steps))
    for insert in inserts:
        mine = [spot for spot in spots if _best(inserts, spot) is insert]
        if mine:
            writer.groove_all(insert, rng.sample(mine, len(mine)) if rng.random() < 0.4 else mine)
    part = part_of(
        [(s.near / 1000, s.far / 1000, s.floor / 1000) for s in spots],
        steps=[(z / 1000, across / 1000) for z, across in steps],
        length=length / 1000,
    )
    made = shop(*inserts, stick_out=None, sharp_corner=0.4)
    return StrategyProgram(f"strategy-{seed}", writer.text(), part, made)


def _part(rng: random.Random) -> tuple[list[tuple[int, int]], list[Spot], int]:
    """Lands (where each starts, diameter), grooves and length."""
    steps, spots, z = [], [], 0
    for _ in range(rng.choice([1, 1, 2, 3])):
        across = rng.randrange(30_000, 80_000, 100)
        steps.append((z, across))
        z -= rng.randrange(2_000, 6_000, 50)
        for _ in range(rng.choice([1, 2, 3])):
            width = rng.choice([2_000, 3_000, 3_000, 5_000, 8_000, rng.randrange(2_000, 12_000, 10)])
            depth = rng.randrange(500, 5_000, 10)
            spots.append(Spot(z, z - width, across - 2 * depth, across))
            z -= width + rng.randrange(1_000, 6_000, 50)
        z -= rng.randrange(1_000, 3_000, 50)
    return steps, spots, -z


def _inserts(rng: random.Random, least: int) -> list[Tool]:
    """Inserts of which one fits the narrowest groove, each set to one of its edges."""
    widths = {least / 1000 if rng.random() < 0.5 else 2.0}
    if rng.random() < 0.5:
        widths.add(3.0)
    return [
        tool(
            station=n,
            offset=n,
            width=width,
            corner_radius=rng.choice([0.0, 0.1, 0.2]),
            max_depth=30.0,
            reference=rng.choice(["near", "far"]),
            holder_near=0.0,
            holder_far=0.0,
        )
        for n, width in enumerate(sorted(widths, reverse=True), start=2)
    ]


def _best(inserts: list[Tool], spot: Spot) -> Tool:
    """The widest insert that goes in."""
    return next(one for one in inserts if round(one.width * 1000) <= spot.width)


@dataclass
class _Writer:
    """Writes blocks; `x` and `z` are where the tool is, in thousandths, z of the far edge."""

    rng: random.Random
    highest: int
    lines: list[str] = field(default_factory=list)
    insert: Tool = field(default_factory=tool)
    x: int = 150_000
    z: int = 50_000

    def __post_init__(self) -> None:
        self.lines += ["%", "O0077", "G21 G40", "G28 U0 W0"]
        self.clear = self.highest + self.rng.choice([1_000, 2_000, 5_000])
        self.feed = self.rng.choice([0.05, 0.08, 0.1, 0.12])
        self.minute = self.rng.random() < 0.2

    @property
    def width(self) -> int:
        return round(self.insert.width * 1000)

    @property
    def overlap(self) -> int:
        return round(2000 * self.insert.corner_radius)

    def text(self) -> str:
        """The whole program."""
        return "\n".join([*self.lines, "G0 X150.", "G28 U0 W0", "M05", "M30", "%", ""])

    def groove_all(self, insert: Tool, spots: list[Spot]) -> None:
        """Call an insert and cut its grooves."""
        if self.lines[-1] != "G28 U0 W0":
            self.lines += ["G0 X150.", "G0 Z50."]
        self.insert, self.x, self.z = insert, 150_000, 50_000
        self.lines.append(f"T{insert.station:02d}{insert.offset:02d}")
        mode = ["G98 G97 S1000 M3"] if self.minute else ["G99", "G50 S2500", "G96 S110 M3"]
        self.lines += mode
        for number, spot in enumerate(spots):
            if not number:
                self.come(spot)
            self.cut_one(spot)

    def come(self, spot: Spot) -> None:
        """From the reference point to above a groove: Z first, or both axes."""
        place = self.rng.choice([spot.far, spot.near - self.width])
        if self.rng.random() < 0.5:
            self.rapid(z=place)
            self.rapid(x=self.clear)
        else:
            self.rapid(x=self.clear, z=place)

    def cut_one(self, spot: Spot) -> None:
        """One groove, in one of the ways that it can be cut; ends above everything."""
        ways = [self.plunges]
        if spot.width >= self.width + 500 and spot.land - spot.floor > 800:
            ways += [self.layers, self.rough_and_finish]
        if spot.width < self.width + 500:
            ways = [self.plunges]
        self.rng.choice(ways)(spot)
        self.rapid(x=self.clear)

    def plunges(self, spot: Spot) -> None:
        """Overlapping plunges in any order."""
        for place in self.places(spot.far, spot.near):
            self.over(place)
            self.peck(spot.land, spot.floor)

    def places(self, far: int, near: int) -> list[int]:
        """Where the far edge stands at each plunge: both walls and between them with overlap."""
        span = near - far - self.width
        if span <= 0:
            return [far]
        step = max(200, self.width - self.overlap - self.rng.randrange(0, self.width // 3))
        count = -(-span // step)
        found = [far + round(span * i / count) for i in range(count + 1)]
        order = self.rng.choice(["up", "down", "any"])
        return found if order == "up" else found[::-1] if order == "down" else self.rng.sample(found, len(found))

    def peck(self, land: int, floor: int) -> None:
        """To the floor in pecks, or straight, and out."""
        depth, reached = self.rng.choice([300, 600, 1_000, 20_000]) * 2, land
        while reached > floor:
            reached = max(floor, reached - depth)
            self.cut(x=reached)
            if reached > floor:
                back = self.rng.choice([reached + 200, reached + 600, self.clear])
                self.rapid(x=min(back, self.clear))
                if self.rng.random() < 0.3 and self.x > reached:
                    self.rapid(x=reached + self.rng.choice([0, 100, 200]))
        self.rapid(x=self.clear) if self.rng.random() < 0.9 else self.cut(x=self.clear)

    def layers(self, spot: Spot) -> None:
        """Side to side in layers that the insert bears, both ends at the walls."""
        ends = [spot.far, spot.near - self.width]
        self.rng.shuffle(ends)
        layer = self.rng.randrange(self.width // 4, self.width * 7 // 10)
        self.over(ends[0])
        reached = spot.land
        while reached > spot.floor:
            reached = max(spot.floor, reached - layer)
            self.cut(x=reached)
            self.cut(z=ends[1])
            ends.reverse()

    def rough_and_finish(self, spot: Spot) -> None:
        """Plunges with an allowance all round, then down one wall, over the floor, and down the other wall."""
        left = self.rng.choice([100, 150, 200])
        rough = Spot(spot.near - left, spot.far + left, spot.floor + 2 * left, spot.land)
        self.plunges(rough)
        middle = (spot.far + spot.near - self.width) // 2
        over = min(200, (spot.near - spot.far - self.width) // 2)
        for wall, stop in ((spot.far, middle + over), (spot.near - self.width, middle - over)):
            self.over(wall)
            self.cut(x=spot.floor)
            self.cut(z=stop)
            self.cut(x=spot.floor + 100)
            self.rapid(x=self.clear)

    def over(self, place: int) -> None:
        """Above a place, along at the clear height."""
        if self.x < self.clear:
            self.rapid(x=self.clear)
        self.rapid(z=place)

    def rapid(self, x: int | None = None, z: int | None = None) -> None:
        """A rapid block."""
        self.block("G00" if self.rng.random() < 0.5 else "G0", x, z)

    def cut(self, x: int | None = None, z: int | None = None) -> None:
        """A cutting block."""
        feed = f" F{1000 * self.feed:.1f}" if self.minute else f" F{self.feed}"
        self.block("G01", x, z, feed)

    def block(self, word: str, x: int | None, z: int | None, rest: str = "") -> None:
        """One block; the Z written is that of the reference edge."""
        edge = 0 if self.insert.reference == "far" else self.width
        words = [word]
        if x is not None:
            self.x = x
            words.append(f"X{x / 1000:.3f}")
        if z is not None:
            self.z = z
            words.append(f"Z{(z + edge) / 1000:.3f}")
        self.lines.append(" ".join(words) + rest)
