"""Turned pieces as they truly are, and their views: what is right is known before anything is drawn.

Lengths are in the piece's units, z runs from the front face into the piece, diameters are full diameters.
"""

import math
from dataclasses import dataclass, field

from hands_ink import Space
from support.ink import Point, Vertex

QUARTER = math.tan(math.pi / 8)  # the bulge of a quarter turn
Limits = tuple[float, float]  # lower and upper deviation


@dataclass(frozen=True)
class Cut:
    """One rectangular groove: its near wall, width, floor diameter, corner radius and limits."""

    z: float
    width: float
    floor: float
    radius: float = 0.0
    inside: bool = False
    width_limits: Limits | None = None
    floor_limits: Limits | None = None

    @property
    def far(self) -> float:
        """The far wall."""
        return self.z + self.width


@dataclass(frozen=True)
class Piece:
    """Lands from the front as (end, diameter), a bore through or none, and the grooves of both."""

    lands: tuple[tuple[float, float], ...]
    cuts: tuple[Cut, ...]
    bore: float = 0.0
    unit: str = "mm"

    @property
    def length(self) -> float:
        """From the front face to the back."""
        return self.lands[-1][0]

    @property
    def across(self) -> float:
        """The greatest diameter."""
        return max(d for _, d in self.lands)

    def land(self, z: float) -> float:
        """The diameter of the land at z."""
        return next(d for end, d in self.lands if z <= end)

    def outside(self) -> list[Vertex]:
        """The outer line from the front to the back as (z, radius, bulge)."""
        line: list[Vertex] = []
        begin = 0.0
        for end, diameter in self.lands:
            line.append((begin, diameter / 2, 0))
            for cut in self.cuts:
                if not cut.inside and begin <= cut.z < end:
                    line += _round(cut, diameter / 2, 1)
            line.append((end, diameter / 2, 0))
            begin = end
        return line

    def inside(self) -> list[Vertex]:
        """The bore's line from the front to the back; empty where there is none."""
        if not self.bore:
            return []
        line: list[Vertex] = [(0, self.bore / 2, 0)]
        for cut in self.cuts:
            line += _round(cut, self.bore / 2, -1) if cut.inside else []
        return [*line, (self.length, self.bore / 2, 0)]

    def half(self) -> list[Vertex]:
        """The closed line of one half in section."""
        within = self.inside() or [(0, 0, 0), (self.length, 0, 0)]
        bulges = [0.0, *(-b for _, _, b in within[-2::-1])]
        back = [(z, r, b) for (z, r, _), b in zip(within[::-1], [*bulges[1:], 0.0], strict=True)]
        return self.outside() + back


def _round(cut: Cut, land: float, inward: int) -> list[Vertex]:
    """A groove's corners; inward is 1 in the outside and -1 in a bore."""
    floor, r = cut.floor / 2, cut.radius
    bulge = inward * QUARTER
    if not r:
        return [(cut.z, land, 0), (cut.z, floor, 0), (cut.far, floor, 0), (cut.far, land, 0)]
    low = floor + inward * r
    floor_line: list[Vertex] = [(cut.z, low, bulge), (cut.z + r, floor, 0), (cut.far - r, floor, bulge)]
    return [(cut.z, land, 0), *floor_line, (cut.far, low, 0), (cut.far, land, 0)]


@dataclass
class View:
    """One view of a piece: its front face at `place`, to the right of the rest, or to the left."""

    space: Space
    piece: Piece
    place: Point
    entity: bool = True
    left: bool = False
    letter: float = 2.5
    rows: dict[int, int] = field(default_factory=lambda: {1: 0, -1: 0})

    def at(self, z: float, radius: float) -> Point:
        """The place on the sheet of a point of the piece."""
        return (self.place[0] + (z if self.left else -z), self.place[1] + radius)

    def _drawn(self, line: list[Vertex], half: int) -> list[Vertex]:
        turn = half * (1 if self.left else -1)
        return [(*self.at(z, half * r), turn * b) for z, r, b in line]

    def centre(self) -> None:
        """The centre line, a little longer than the piece."""
        over = 2 * self.letter
        self.space.line(self.at(-over, 0), self.at(self.piece.length + over, 0), "CENTER")

    def seen(self, halves: tuple[int, ...] = (1, -1)) -> None:
        """The piece from outside, with an edge across at every corner."""
        line = self.piece.outside()
        for half in halves:
            self.space.chain(self._drawn(line, half), "OUTLINE")
        low, high = (min(halves) if min(halves) < 0 else 0), (max(halves) if max(halves) > 0 else 0)
        edges: dict[float, float] = {}
        for k, (z, r, bulge) in enumerate(line):
            if not bulge and not (k and line[k - 1][2]):
                edges[z] = max(r, edges.get(z, 0))
        for z, r in edges.items():
            self.space.line(self.at(z, low * r), self.at(z, high * r), "OUTLINE")

    def cut_open(self, halves: tuple[int, ...] = (1, -1), closed: bool = False) -> None:
        """The piece in section; the edges of the bore behind stand between the halves."""
        for half in halves:
            drawn = self._drawn(self.piece.half(), half)
            if closed:
                self.space.outline(drawn, "OUTLINE")
            else:
                self.space.chain(drawn, "OUTLINE", closed=True)
        low, high = min(*halves, 0), max(*halves, 0)
        for z in {z for z, r, _ in self.piece.inside() if math.isclose(r, self.piece.bore / 2)}:
            radius = self.piece.bore / 2
            self.space.line(self.at(z, low * radius), self.at(z, high * radius), "OUTLINE")

    def hidden(self) -> None:
        """The bore dashed behind the outside."""
        for half in (1, -1):
            self.space.chain(self._drawn(self.piece.inside(), half), "HIDDEN")

    def along(self, ends: tuple[float, float], words: str, side: int = 1, radii: Limits | None = None) -> None:
        """A length on the next row above the piece (side 1) or below it (-1)."""
        self.rows[side] += 1
        row = self.place[1] + side * (self.piece.across / 2 + self.rows[side] * 4 * self.letter)
        r = radii or (self.piece.land(ends[0]) / 2, self.piece.land(ends[1]) / 2)
        first, last = self.at(ends[0], side * r[0]), self.at(ends[1], side * r[1])
        pair = (first, last) if first[0] < last[0] else (last, first)
        self.space.size(pair, (0, row), words, self.entity, self.letter)

    def across(self, z: float, diameter: float, words: str, off: float = 0.0) -> None:
        """A diameter at z, its line `off` beyond that place."""
        ends = (self.at(z, -diameter / 2), self.at(z, diameter / 2))
        self.space.size(ends, (ends[0][0] + off, 0), words, self.entity, self.letter)
