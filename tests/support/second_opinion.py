"""A second, simple reader of grooving programs, to hold the tool's own against.

The lathe of the whole programs grown strict: what it has no meaning for, or would have to take for granted, it says.
From the public contract and from common practice on number words, and from nothing else of this project:
X is a diameter, P, I and R of the cycle are radial; P and Q without a point count the least increment; the cycle
pecks from where the tool stands, shifts toward the end, shortens the last shift, and comes back to its start. The
insert is a sharp rectangle open to the outside; Z is set to its near or far edge.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from shapely import Polygon, box, unary_union
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from support.wholes.lathe import AWAY, WORD, Lathe, Leg

FAR_OUT = AWAY / 2
KNOWN = frozenset({0, 1, 2, 3, 4, 18, 20, 21, 28, 40, 50, 54, 70, 71, 75, 80, 90, 92, *range(94, 100)})
"""G words that a grooving program may have; 70 and 71 are inch and mm in ISO 6983."""


class Lost(Exception):
    """A word or a block that this reader has no meaning for."""


@dataclass
class Control(Lathe):
    """A lathe that takes nothing for granted: units, feed, spindle and clamp are said before they are needed.

    `metal_alone`: cycles cut without pecks, which change no metal, and in a bore outward as well.
    """

    iso: bool = True
    back: float = 0.0
    feed: float = 0.0
    spindle: bool = False
    clamp: bool = False
    metric: bool | None = None
    metal_alone: bool = False

    def lost(self, words: str) -> Lost:
        return Lost(f"line {self.at}: {words}")

    def number(self, text: str) -> float:
        """A length word: with a point as it stands, without one in least increments."""
        if "." not in text and self.metric is None:
            raise self.lost("a length before G20 or G21")
        return float(text) * (1 if "." in text else self.least)

    def macro(self, line: str) -> bool:
        raise self.lost("a variable")

    def words(self, line: str) -> dict[str, list[str]]:
        found = super().words(line)
        if WORD.sub("", line).strip() or any(not text.strip("-.") for texts in found.values() for text in texts):
            raise self.lost(f"{line!r} is not all words")
        if any(len(texts) > 1 for letter, texts in found.items() if letter not in "GM"):
            raise self.lost("one word twice")
        return found

    def block(self, words: dict[str, list[str]]) -> bool:
        codes, switches = ([int(float(text)) for text in words.get(letter, ())] for letter in "GM")
        if unknown := set(codes) - KNOWN or {98, 99} & set(switches):
            raise self.lost(f"G or M{unknown.pop()}")
        for code in {20, 21, 70, 71} & set(codes):
            self.metric = code in (21, 71)
            self.least = 0.001 if self.metric else 0.0001
        self.mode = 75 if 75 in codes else self.mode
        self.machine(codes, switches, words)
        return super().block(words)

    def machine(self, codes: Sequence[int], switches: Sequence[int], words: dict[str, list[str]]) -> None:
        """Turret, feed and spindle: constant surface speed asks for a clamp first."""
        self.clamp = self.clamp or ("S" in words and bool({50, 92} & set(codes)))
        if 96 in codes and not self.clamp:
            raise self.lost("G96 without a clamp")
        self.spindle = (self.spindle or bool({3, 4} & set(switches))) and 5 not in switches
        self.feed = float(words["F"][0]) if "F" in words else self.feed
        if self.feed < 0:
            raise self.lost("a feed below nought")
        if "T" in words and not words["T"][0].isdigit():
            raise self.lost("a tool word that is not a whole number")

    def go(self, kind: str, x: float, z: float) -> None:
        if kind == "feed" and not (self.feed and self.spindle):
            raise self.lost("a cut without feed or with the spindle stopped")
        super().go(kind, x, z)

    def move(self, words: dict[str, list[str]]) -> None:
        if self.mode == 75:
            raise self.lost("a move while the cycle is modal")
        super().move(words)

    def rise(self, far: float, radius: float) -> float:
        if not 0 < far <= 2 * radius + 1e-9:
            raise self.lost("an arc whose R does not reach")
        return super().rise(far, radius)

    def row(self, floor: float, last: float, peck: float, shift: float, back: float) -> None:
        if min(peck, shift, back) < 0 or (self.x < floor and not self.metal_alone):
            raise self.lost("a cycle that runs backward")
        if not shift and abs(last - self.z) > 1e-9:
            raise self.lost("a row without a shift")
        super().row(floor, last, 0.0 if self.metal_alone else peck, shift, back)


def run(text: str, metal_alone: bool = False) -> list[Leg]:
    """Every move that a program asks for."""
    return Control(text, metal_alone=metal_alone).run().legs


@dataclass(frozen=True)
class Insert:
    """A grooving insert: its width, and which edge Z is set to."""

    width: float
    reference: str

    @property
    def tip(self) -> Polygon:
        """The insert and the space outside it, its programmed point at (0, 0)."""
        low = 0.0 if self.reference == "far" else -self.width
        return box(low, 0.0, low + self.width, FAR_OUT * 2)


@dataclass(frozen=True)
class Cut:
    """One piece of metal that the program took: walls at half depth, and the floor."""

    z_near: float
    z_far: float
    floor_diameter: float


def swept_out(
    metal: BaseGeometry, legs: Iterable[Leg], tips: Mapping[int, Polygon], hair: float
) -> tuple[BaseGeometry, list[tuple[Leg, float]]]:
    """The metal (z, radius) that tips leave, and the rapids through more than a hair of it, each with how much."""
    crashes = []
    for leg in legs:
        if leg.tool not in tips:
            continue
        swept = unary_union([translate(tips[leg.tool], z, radius) for radius, z in (leg.a, leg.b)]).convex_hull
        taken = swept.intersection(metal).area
        if leg.rapid and taken > hair:
            crashes.append((leg, taken))
        metal = metal.difference(swept) if taken else metal
    return metal, crashes


def machined(stock: Polygon, legs: list[Leg], inserts: dict[int, Insert]) -> tuple[list[Cut], list[str]]:
    """What the moves take of a half section (z, radius), and every rapid that went through metal."""
    metal, crashes = swept_out(stock, legs, {station: insert.tip for station, insert in inserts.items()}, 1e-7)
    taken = stock.difference(metal)
    pieces = [p for p in getattr(taken, "geoms", [taken]) if p.area > 1e-6]
    told = [f"line {leg.line}: rapid through {area:.4f} of metal" for leg, area in crashes]
    return sorted((_cut(p) for p in pieces), key=lambda c: -c.z_near), told


def _cut(piece: Polygon) -> Cut:
    low_z, floor, high_z, mouth = piece.bounds
    middle = piece.intersection(
        box(low_z - 1, floor + (mouth - floor) * 0.49, high_z + 1, floor + (mouth - floor) * 0.51)
    )
    return Cut(middle.bounds[2], middle.bounds[0], 2 * floor)
