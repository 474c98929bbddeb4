"""What the pencil of `hands_pieces` leaves on paper: strokes, and sizes written as people write them.

Lengths are page units, angles degrees; layers are OUTLINE, CENTER, HIDDEN and DIM.
"""

import math
from dataclasses import dataclass, field
from pathlib import Path

from support.ink import Block, Dim, Ink, Line, Look, Point, Text, Vertex, arrow, number, strokes
from support.ink import Path as Polyline
from support.plain_dxf import Style, Writer

PATTERNS = (("CENTER", (12.5, -2.5, 2.5, -2.5)), ("HIDDEN", (2.5, -1.25)))
GAP, PAST = 0.4, 0.6  # an extension line's gap at the part and what it runs past the line, in letter heights
ROOM = 0.8  # the width of a letter in its height


@dataclass
class Space:
    """What a block or model space holds; each method draws one thing on a layer."""

    ink: list[Ink] = field(default_factory=list)

    def line(self, start: Point, end: Point, layer: str) -> None:
        """A straight line."""
        self.ink.append(Line(start, end, Look(layer)))

    def chain(self, corners: list[Vertex], layer: str, closed: bool = False) -> None:
        """Loose lines and arcs from corner to corner."""
        self.ink += strokes(corners, closed, Look(layer))

    def outline(self, corners: list[Vertex], layer: str) -> None:
        """A closed polyline."""
        self.ink.append(Polyline(tuple(corners), True, Look(layer)))

    def text(self, middle: Point, words: str, layer: str, height: float = 2.5, turn: float = 0) -> None:
        """A line of text about its middle."""
        self.ink.append(Text(middle, words, height, turn, True, Look(layer)))

    def insert(self, name: str, block: "Space", place: Point, size: Point = (1.0, 1.0)) -> None:
        """What another space holds as a block, mirrored where a size is negative."""
        self.ink.append(Block(tuple(block.ink), place, size=size, role=Look("0"), name=name))

    def leader(self, tip: Point, knee: Point, words: str) -> None:
        """A leader of two lines with its head, and the words on its shelf."""
        side = 1 if knee[0] >= tip[0] else -1
        shelf = (knee[0] + side * (len(words) * 2.5 * ROOM + 2), knee[1])
        self.line(tip, knee, "DIM")
        self.line(knee, shelf, "DIM")
        self.ink += arrow(tip, knee, 2.5, Look("DIM"), "solid")
        self.text(((knee[0] + shelf[0]) / 2, knee[1] + 1), words, "DIM")

    def size(self, ends: tuple[Point, Point], along: Point, words: str, entity: bool, height: float = 2.5) -> None:
        """A linear size level with or upright at the place `along`, as an entity with its text or as strokes."""
        upright = math.isclose(ends[0][0], ends[1][0]) and not math.isclose(ends[0][1], ends[1][1])
        if entity:
            self.ink.append(Dim(*ends, along, 90 if upright else 0, words, height, Look("DIM")))
            return
        feet = tuple((along[0], p[1]) if upright else (p[0], along[1]) for p in ends)
        for end, foot in zip(ends, feet, strict=True):
            run = math.dist(end, foot)
            if run > GAP * height:
                ahead = ((foot[0] - end[0]) / run, (foot[1] - end[1]) / run)
                near = (end[0] + GAP * height * ahead[0], end[1] + GAP * height * ahead[1])
                self.line(near, (foot[0] + PAST * height * ahead[0], foot[1] + PAST * height * ahead[1]), "DIM")
        self._written(feet[0], feet[1], words, upright, height)

    def _written(self, first: Point, last: Point, words: str, upright: bool, height: float) -> None:
        """The line, its heads and its text: inside where there is room, else on a shelf beyond the second end."""
        run, room = math.dist(first, last), len(words) * height * ROOM
        ahead = ((last[0] - first[0]) / run, (last[1] - first[1]) / run)
        tight = run < 2.6 * height
        tail = 2.5 * height if tight else 0.0
        self.line(first, last, "DIM")
        for tip, side in ((first, -1 if tight else 1), (last, 1 if tight else -1)):
            far = (tip[0] + side * 2.5 * height * ahead[0], tip[1] + side * 2.5 * height * ahead[1])
            self.ink += arrow(tip, far, height, Look("DIM"), "solid")
            if tight:
                self.line(tip, far, "DIM")
        middle, off = run / 2, 0.8 * height
        if run < room:
            middle = run + tail + room / 2 + 0.2 * height
            ends = [(last[0] + t * ahead[0], last[1] + t * ahead[1]) for t in (tail, tail + room + 0.4 * height)]
            self.line(ends[0], ends[1], "DIM")
        place = (first[0] + middle * ahead[0], first[1] + middle * ahead[1])
        place = (place[0] - off, place[1]) if upright else (place[0], place[1] + off)
        self.text(place, words, "DIM", height, 90 if upright else 0)


@dataclass
class Drawing:
    """A whole file: model space, and units ($INSUNITS, R2000 only)."""

    old: bool
    units: int = 4
    model: Space = field(default_factory=Space)

    def save(self, path: Path) -> None:
        """Write the file; its sizes have no blocks of strokes."""
        header = () if self.old else (("$INSUNITS", 70, str(self.units)), ("$HANDSEED", 5, "FFFFF"))
        style = Style(self.old, number=lambda value: number(value, 9), header=header, blanks=True, bare=False,
                      drawn=False, patterns=PATTERNS)  # fmt: skip
        path.write_text(Writer(style, {name: name for name, _ in PATTERNS}).text(self.model.ink), encoding="cp1252")
