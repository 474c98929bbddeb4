"""A second, simple reader of grooving programs, to hold the tool's own against.

Written from the public contract and from common practice on number words, and from nothing else of this project:
X is a diameter, P, I and R of the cycle are radial; P and Q without a point count the least increment; the cycle
pecks from where the tool stands, shifts toward the end, shortens the last shift, and comes back to its start. The
insert is a sharp rectangle open to the outside; Z is set to its near or far edge.
"""

import math
import re
from dataclasses import dataclass, field

from shapely import Polygon, box, unary_union

FAR_OUT = 10_000.0
WORD = re.compile(r"([A-Z])([-+]?(?:\d+\.?\d*|\.\d+))")
XZ = tuple[float, float]


class Lost(Exception):
    """A word or a block that this reader has no meaning for."""


@dataclass(frozen=True)
class Leg:
    """One straight move of the reference edge: radius and z at both ends, the block it came from."""

    rapid: bool
    a: XZ
    b: XZ
    tool: int
    line: int


@dataclass
class Control:
    """What a lathe control keeps in mind; `legs` are the moves so far. Radii inside, diameters in the text.

    `metal_alone`: cycles cut without pecks, which change no metal, and in a bore outward as well.
    """

    x: float = FAR_OUT
    z: float = FAR_OUT
    motion: int = 0
    metric: bool | None = None
    tool: int = 0
    retract: float = 0.0
    feed: float = 0.0
    spindle: bool = False
    clamp: bool = False
    legs: list[Leg] = field(default_factory=list)
    line: int = 0
    metal_alone: bool = False

    def length(self, text: str) -> float:
        """A length word: with a point as it stands, without one in least increments."""
        if "." in text:
            return float(text)
        if self.metric is None:
            raise Lost(f"line {self.line}: a length before G20 or G21")
        return float(text) * (0.001 if self.metric else 0.0001)

    def go(self, rapid: bool, x: float, z: float) -> None:
        if not rapid and not (self.feed and self.spindle):
            raise Lost(f"line {self.line}: a cut without feed or with the spindle stopped")
        self.legs.append(Leg(rapid, (self.x, self.z), (x, z), self.tool, self.line))
        self.x, self.z = x, z

    def block(self, text: str) -> None:
        words = WORD.findall(text)
        left = WORD.sub("", text).strip()
        if left:
            raise Lost(f"line {self.line}: {left!r} is no word")
        codes = [int(float(v)) for k, v in words if k == "G"]
        given = {k: v for k, v in words if k not in "GMNO"}
        for code in codes:
            if code in (20, 21, 70, 71):  # inch and mm: the trade's and ISO 6983's words
                self.metric = code in (21, 71)
            elif code in (0, 1, 2, 3, 75):
                self.motion = code
            elif code not in (4, 18, 28, 40, 50, 54, 80, 90, 92, 94, 95, 96, 97, 98, 99):
                raise Lost(f"line {self.line}: G{code}")
        self.machine(codes, [int(v) for k, v in words if k == "M"], given)
        if 28 in codes:
            self.go(True, FAR_OUT, self.z)
            self.go(True, FAR_OUT, FAR_OUT)
        elif 75 in codes:
            self.cycle(given)
        elif not {4, 50, 92} & set(codes) and given.keys() & set("XZUW"):
            self.move(given)

    def machine(self, codes: list[int], modes: list[int], given: dict[str, str]) -> None:
        """Turret, feed and spindle: constant surface speed asks for a clamp first."""
        if {50, 92} & set(codes) and "S" in given:
            self.clamp = True
        if 96 in codes and not self.clamp:
            raise Lost(f"line {self.line}: G96 without a clamp")
        self.spindle = (self.spindle or 3 in modes or 4 in modes) and 5 not in modes
        self.feed = float(given["F"]) if "F" in given else self.feed
        if self.feed < 0:
            raise Lost(f"line {self.line}: a feed below nought")
        if "T" in given and not given["T"].isdigit():
            raise Lost(f"line {self.line}: a tool word that is not a whole number")
        if "T" in given and int(given["T"]) % 100:
            self.tool = int(given["T"]) // 100

    def move(self, given: dict[str, str]) -> None:
        x = self.length(given["X"]) / 2 if "X" in given else self.x + self.length(given.get("U", "0.")) / 2
        z = self.length(given["Z"]) if "Z" in given else self.z + self.length(given.get("W", "0."))
        if self.motion == 75:
            raise Lost(f"line {self.line}: a move while the cycle is modal")
        if self.motion in (2, 3):
            self.arc(x, z, given)
        else:
            self.go(self.motion == 0, x, z)

    def arc(self, x: float, z: float, given: dict[str, str]) -> None:
        """An arc in chords of a degree and a half; G02 is clockwise with x up and z to the right."""
        side = 1 if self.motion == 2 else -1
        mid = self.centre(x, z, self.length(given["R"]), side) if "R" in given else None
        mid = mid or (self.z + self.length(given.get("K", "0.")), self.x + self.length(given.get("I", "0.")))
        radius = math.hypot(self.z - mid[0], self.x - mid[1])
        begin = math.atan2(self.x - mid[1], self.z - mid[0])
        turn = side * (begin - math.atan2(x - mid[1], z - mid[0])) % math.tau
        parts = max(1, math.ceil(turn / math.radians(1.5)))
        for k in range(1, parts):
            angle = begin - side * turn * k / parts
            self.go(False, mid[1] + radius * math.sin(angle), mid[0] + radius * math.cos(angle))
        self.go(False, x, z)

    def centre(self, x: float, z: float, radius: float, side: int) -> XZ:
        """z and radius of the centre of an arc of less than half a turn."""
        dz, dx = z - self.z, x - self.x
        far = math.hypot(dz, dx)
        if not 0 < far <= 2 * radius + 1e-9:
            raise Lost(f"line {self.line}: an arc whose R does not reach")
        rise = side * math.sqrt(max(0.0, radius**2 - far**2 / 4)) / far
        return (self.z + z) / 2 + dx * rise, (self.x + x) / 2 - dz * rise

    def cycle(self, given: dict[str, str]) -> None:
        if "X" not in given:
            self.retract = self.length(given["R"])
            return
        radial, shift, back = given.get("P", given.get("I")), given.get("Q", given.get("K")), self.retract
        if "I" in given or ("P" not in given and "K" in given):
            back = self.length(given["R"]) if "R" in given else back
        floor, peck = self.length(given["X"]) / 2, self.length(radial or "0.")
        if peck < 0 or self.length(shift or "0.") < 0 or back < 0 or (self.x < floor and not self.metal_alone):
            raise Lost(f"line {self.line}: a cycle that runs backward")
        end, pitch = self.length(given["Z"]) if "Z" in given else self.z, self.length(shift or "0.")
        start = (self.x, self.z)
        for z in stops(start[1], end, pitch):
            self.go(True, start[0], z)
            self.peck(floor, 0.0 if self.metal_alone else peck, back)
        self.go(True, *start)

    def peck(self, floor: float, peck: float, back: float) -> None:
        """Down to the floor, backing off after each peck."""
        top = depth = self.x
        while abs(depth - floor) > 1e-9:
            depth = max(floor, depth - peck) if peck else floor
            self.go(False, depth, self.z)
            if depth > floor + 1e-9:
                self.go(True, min(top, depth + back), self.z)
        self.go(True, top, self.z)


def stops(first: float, last: float, pitch: float) -> list[float]:
    """Where the cycle plunges: every pitch from the first toward the last, and the last itself."""
    if abs(last - first) < 1e-9:
        return [first]
    if not pitch:
        raise Lost("a row without a shift")
    count = math.floor(abs(last - first) / pitch + 1e-7)
    places = [first + math.copysign(pitch * index, last - first) for index in range(count + 1)]
    return places if abs(places[-1] - last) < 1e-7 else [*places, last]


def run(text: str, metal_alone: bool = False) -> list[Leg]:
    """Every move that a program asks for."""
    control = Control(metal_alone=metal_alone)
    for number, line in enumerate(text.splitlines(), 1):
        plain = re.sub(r"\([^()]*\)", "", line).strip()
        control.line = number
        if plain and plain != "%":
            control.block(plain)
    return control.legs


@dataclass(frozen=True)
class Insert:
    """A grooving insert: its width, and which edge Z is set to."""

    width: float
    reference: str

    def swept(self, leg: Leg) -> Polygon:
        """Everything that the insert and the space outside it pass over on one move."""
        low, high = (0.0, self.width) if self.reference == "far" else (-self.width, 0.0)
        ends = [box(z + low, x, z + high, FAR_OUT * 2) for x, z in (leg.a, leg.b)]
        return unary_union(ends).convex_hull


@dataclass(frozen=True)
class Cut:
    """One piece of metal that the program took: walls at half depth, and the floor."""

    z_near: float
    z_far: float
    floor_diameter: float


def machined(stock: Polygon, legs: list[Leg], inserts: dict[int, Insert]) -> tuple[list[Cut], list[str]]:
    """What the moves take of a half section (z, radius), and every rapid that went through metal."""
    metal, crashes = stock, []
    for leg in legs:
        if leg.tool not in inserts:
            continue
        touched = inserts[leg.tool].swept(leg).intersection(metal)
        if touched.area < 1e-7:
            continue
        if leg.rapid:
            crashes.append(f"line {leg.line}: rapid through {touched.area:.4f} of metal")
        metal = metal.difference(inserts[leg.tool].swept(leg))
    taken = stock.difference(metal)
    pieces = [p for p in getattr(taken, "geoms", [taken]) if p.area > 1e-6]
    return sorted((_cut(p) for p in pieces), key=lambda c: -c.z_near), crashes


def _cut(piece: Polygon) -> Cut:
    low_z, floor, high_z, mouth = piece.bounds
    middle = piece.intersection(
        box(low_z - 1, floor + (mouth - floor) * 0.49, high_z + 1, floor + (mouth - floor) * 0.51)
    )
    return Cut(middle.bounds[2], middle.bounds[0], 2 * floor)
