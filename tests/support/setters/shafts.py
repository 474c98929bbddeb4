"""Invented turned parts with grooves, as plain numbers: what the drawing shows, and so what a right program leaves."""

import random
from dataclasses import dataclass


@dataclass(frozen=True)
class Slot:
    """A groove. Outside and inside: `near` and `far` are Z of the walls, `floor` and `land` diameters.

    Face: `near` and `far` are the outer and the inner diameter, `floor` the Z of the floor, `land` 0.
    """

    where: str
    near: float
    far: float
    floor: float
    land: float
    chamfer: float = 0.0

    @property
    def width(self):
        return (self.near - self.far) / (2 if self.where == "face" else 1)

    @property
    def depth(self):
        return -self.floor if self.where == "face" else abs(self.land - self.floor) / 2


@dataclass(frozen=True)
class Insert:
    """A grooving insert and what the shop gives it; of a face insert "near" is the outer edge."""

    station: int
    where: str
    width: float
    corner: float
    reference: str
    reach: float
    feed: float
    peck: float
    retract: float


@dataclass(frozen=True)
class Shaft:
    """A part: `steps` are (z of the end, diameter) from the front face on, `bore` a diameter or 0."""

    units: str
    steps: tuple
    bore: float
    slots: tuple
    inserts: tuple
    stick_out: float
    control: str
    tolerance: float

    @property
    def length(self):
        return -self.steps[-1][0]

    @property
    def largest(self):
        return max(across for _, across in self.steps)

    def land_at(self, z):
        return next((across for end, across in self.steps if z > end), self.steps[-1][1])


class _Drawer:
    """Draws one part at random; lengths in millimetres until `u` turns them into the part's units."""

    def __init__(self, seed, units, control):
        self.rng = random.Random(f"shaft {seed}")
        self.units = units or self.rng.choice(["mm", "mm", "in"])
        self.k = 1.0 if self.units == "mm" else 1 / 25.0
        self.control = control or self.rng.choice(["two-block", "one-block", "plunge"])
        self.slots, self.steps, self.z = [], [], 0.0

    def u(self, length):
        return self.rounded(length * self.k)

    def rounded(self, length):
        return round(length, 3 if self.units == "mm" else 4)

    def insert(self, station, where, width, corner, reach, peck, retract):
        feed = self.rng.choice([0.05, 0.06, 0.08, 0.1] if self.units == "mm" else [0.002, 0.003, 0.004])
        reference = self.rng.choice(["near", "far"])
        sizes = (self.u(width), self.u(corner), reference, self.u(reach), feed, self.u(peck), self.u(retract))
        return Insert(station, where, *sizes)

    def part(self):
        rng = self.rng
        width, reach = rng.choice([1.5, 2.0, 2.0, 2.5, 3.0, 4.0]), rng.choice([8, 10, 12, 16])
        corner, peck = rng.choice([0.1, 0.2]), rng.choice([0.5, 0.8, 1.0])
        inserts = [self.insert(rng.randint(1, 7), "outside", width, corner, reach, peck, 0.4)]
        across = rng.choice([20, 25, 30, 36, 42, 50])
        for _ in range(rng.choice([1, 1, 2, 3])):
            self.step(across, width, reach)
            across += rng.choice([4, 6, 10])
        bore = self.hollow(inserts) if rng.random() < 0.3 else 0.0
        stick_out = self.u(-self.z + rng.choice([10, 20, 30]))
        tolerance = 0.02 if self.units == "mm" else 0.001
        made = (tuple(self.steps), bore, tuple(self.slots), tuple(inserts), stick_out, self.control, tolerance)
        return Shaft(self.units, *made)

    def step(self, across, insert_width, reach):
        self.z -= self.rng.choice([4, 5, 6.5, 8])
        for _ in range(self.rng.choice([1, 1, 2])):
            self.row(across, insert_width, reach)
            self.z -= self.rng.choice([0, 1, 3])
        self.z -= self.rng.choice([3, 5])
        self.steps.append((self.u(self.z), self.u(across)))

    def row(self, across, insert_width, reach):
        rng = self.rng
        width = insert_width if rng.random() < 0.45 else insert_width + rng.choice([0.5, 1, 1.5, 2, 3, 4.5, 6])
        depth = rng.choice([0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5])
        depth = round(min(depth, 1.6 * width, across / 4, reach - 2) * 4) / 4
        between = rng.choice([2, 2.5, 3, 4, 5])
        chamfer = 0.25 if rng.random() < 0.2 and depth >= 1.25 else 0.0
        if chamfer:
            between = max(between, 4.0)
        for _ in range(rng.choice([1, 1, 2, 3, 4, 5])):
            floor, land = self.u(across - 2 * depth), self.u(across)
            self.slots.append(Slot("outside", self.u(self.z), self.u(self.z - width), floor, land, self.u(chamfer)))
            self.z -= width + between

    def hollow(self, inserts):
        """A bore with grooves, and often one in the end face, where the walls left are thick enough."""
        rng, u = self.rng, self.u
        bore = u(rng.choice([12, 14]))
        if min(slot.floor for slot in self.slots) - bore <= u(3):
            return 0.0
        inserts.append(self.insert(8, "inside", 2.0, 0.1, 4, 0.5, 0.3))
        place, width = 5.0, rng.choice([2.0, 2.5, 3.0])
        for _ in range(rng.choice([1, 2])):
            if place + width + 3 < -self.z:
                floor = self.rounded(bore + u(1.0) * 2 * rng.choice([0.5, 0.75]))
                self.slots.append(Slot("inside", u(-place), u(-place - width), floor, bore))
                place += width + 6
        front = [slot.floor for slot in self.slots if slot.where == "outside" and slot.near > -u(9.0)]
        low, high, width = bore + u(5.0), min([self.steps[0][1], *front]) - u(4.0), rng.choice([2.0, 3.0])
        if high - low > u(2 * width):
            inserts.append(self.insert(9, "face", 2.0, 0.1, 4, 0.5, 0.3))
            outer = self.rounded(low + u(2 * width))
            floor = -u(rng.choice([1.0, 1.5, 2.0]))
            self.slots.append(Slot("face", outer, self.rounded(outer - u(2 * width)), floor, 0.0))
        return bore


def random_shaft(seed, units=None, control=None):
    """One part of a seed, in either unit, for one of three controls: "two-block", "one-block", "plunge"."""
    return _Drawer(seed, units, control).part()


def shop_text(shaft):
    """The shop file that knows just the inserts of a part, as TOML."""
    mm = shaft.units == "mm"
    lines = [
        f'units = "{shaft.units}"',
        f'[machine]\ndialect = "{shaft.control}"\nmax_rpm = 3000\njaw_gap = {2.0 if mm else 0.08}',
        f"stick_out = {shaft.stick_out}\ntolerance = {shaft.tolerance}",
        f'[material]\nname = "C45 steel"\ncutting_speed = {120.0 if mm else 400.0}',
    ]
    for tool in shaft.inserts:
        lines += [
            f'[[tools]]\nstation = {tool.station}\nwhere = "{tool.where}"\nwidth = {tool.width}',
            f'corner_radius = {tool.corner}\nmax_depth = {tool.reach}\nreference = "{tool.reference}"',
            f"feed = {tool.feed}\npeck = {tool.peck}\nretract = {tool.retract}",
        ]
        if tool.where == "inside":
            lines.append(f"min_bore = {10.0 if mm else 0.4}")
        if tool.where == "face":
            lines.append(f"face_min = {8.0 if mm else 0.3}\nface_max = {100.0 if mm else 4.0}")
    return "\n".join(lines) + "\n"
