"""A writer of drawings in plain group codes, R12 or R2000, that shares nothing with the reader or other writers here.

Lengths are page units, angles degrees. R12 has no LWPOLYLINE, MTEXT or HATCH: what it lacks is written as it was then.
The codes are those of the published DXF reference, from memory.
"""

import math
from dataclasses import dataclass, field
from pathlib import Path

Point = tuple[float, float]
Vertex = tuple[float, float, float]  # with the bulge of the edge that follows
Tag = tuple[int, str]

PATTERNS = {"CONTINUOUS": (), "CENTER": (12.5, -2.5, 2.5, -2.5), "HIDDEN": (2.5, -1.25)}
HEAD_SHARE, HEAD_ANGLE = 1.0, math.radians(9.5)  # an arrow head as long as a letter is high, 1 : 3 (common practice)
GAP, PAST = 0.4, 0.6  # an extension line's gap at the part and what it runs past the line, in letter heights
ROOM = 0.8  # the width of a letter in its height


def figure(value: float, places: int = 3, comma: bool = False) -> str:
    """A number without needless noughts."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    text = "0" if text in ("-0", "") else text
    return text.replace(".", ",") if comma else text


def _at(point: Point, base: int = 10) -> list[Tag]:
    return [(base, figure(point[0], 9)), (base + 10, figure(point[1], 9)), (base + 20, "0")]


@dataclass(frozen=True)
class Entity:
    """One entity: its kind, its subclass, its codes and its layer."""

    kind: str
    subclass: str
    tags: tuple[Tag, ...]
    layer: str


@dataclass
class Space:
    """What a block or model space holds; each method draws one thing on a layer."""

    old: bool
    ink: list[Entity] = field(default_factory=list)

    def _put(self, kind: str, subclass: str, tags: list[Tag], layer: str) -> None:
        self.ink.append(Entity(kind, subclass, tuple(tags), layer))

    def line(self, start: Point, end: Point, layer: str) -> None:
        """A straight line."""
        self._put("LINE", "AcDbLine", _at(start) + _at(end, 11), layer)

    def circle(self, centre: Point, radius: float, layer: str) -> None:
        """A circle."""
        self._put("CIRCLE", "AcDbCircle", [*_at(centre), (40, figure(radius, 9))], layer)

    def arc(self, start: Vertex, end: Vertex, layer: str) -> None:
        """The arc that a bulge stands for: four times its arc tangent is the angle."""
        chord, bulge = math.dist(start[:2], end[:2]), start[2]
        away = chord * (1 - bulge**2) / (4 * bulge)
        across = (-(end[1] - start[1]) / chord, (end[0] - start[0]) / chord)
        centre = tuple((start[k] + end[k]) / 2 + away * across[k] for k in (0, 1))
        turns = [math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) % 360 for p in (start, end)]
        first, last = turns if bulge > 0 else turns[::-1]
        tags = [*_at((centre[0], centre[1])), (40, figure(math.dist(start[:2], centre), 9)), (100, "AcDbArc")]
        self._put("ARC", "AcDbCircle", [*tags, (50, figure(first, 9)), (51, figure(last, 9))], layer)

    def chain(self, corners: list[Vertex], layer: str, closed: bool = False) -> None:
        """Loose lines and arcs from corner to corner."""
        for start, end in zip(corners, corners[1:] + corners[:1] if closed else corners[1:], strict=False):
            if start[2]:
                self.arc(start, end, layer)
            elif math.dist(start[:2], end[:2]) > 1e-9:
                self.line(start[:2], end[:2], layer)

    def outline(self, corners: list[Vertex], layer: str) -> None:
        """A closed polyline: LWPOLYLINE, or POLYLINE with VERTEX in R12."""
        if not self.old:
            tags: list[Tag] = [(90, str(len(corners))), (70, "1")]
            for x, y, bulge in corners:
                tags += [(10, figure(x, 9)), (20, figure(y, 9)), (42, figure(bulge, 9))]
            self._put("LWPOLYLINE", "AcDbPolyline", tags, layer)
            return
        self._put("POLYLINE", "", [(66, "1"), *_at((0, 0)), (70, "1")], layer)
        for x, y, bulge in corners:
            self._put("VERTEX", "", [*_at((x, y)), (42, figure(bulge, 9))], layer)
        self._put("SEQEND", "", [], layer)

    def text(self, middle: Point, words: str, layer: str, height: float = 2.5, turn: float = 0) -> None:
        """A line of TEXT about its middle."""
        tags = [*_at(middle), (40, figure(height)), (1, words), (50, figure(turn)), (72, "1"), *_at(middle, 11)]
        self._put("TEXT", "AcDbText", [*tags, (100, "AcDbText")], layer)

    def insert(self, block: str, place: Point, scale: Point = (1, 1), turn: float = 0) -> None:
        """A block reference, mirrored where a scale is negative."""
        tags = [(2, block), *_at(place), (41, figure(scale[0])), (42, figure(scale[1])), (50, figure(turn))]
        self._put("INSERT", "AcDbBlockReference", tags, "0")

    def head(self, tip: Point, towards: Point, layer: str, size: float) -> None:
        """A solid arrow head at its tip, the line going off towards the second point."""
        turn = math.atan2(towards[1] - tip[1], towards[0] - tip[0])
        back = [
            (tip[0] + size * math.cos(turn + side), tip[1] + size * math.sin(turn + side))
            for side in (HEAD_ANGLE, -HEAD_ANGLE)
        ]
        tags = _at(tip) + _at(back[0], 11) + _at(back[1], 12) + _at(back[1], 13)
        self._put("SOLID", "AcDbTrace", tags, layer)

    def leader(self, tip: Point, knee: Point, words: str) -> None:
        """A leader of two lines with its head, and the words on its shelf."""
        side = 1 if knee[0] >= tip[0] else -1
        shelf = (knee[0] + side * (len(words) * 2.5 * ROOM + 2), knee[1])
        self.line(tip, knee, "DIM")
        self.line(knee, shelf, "DIM")
        self.head(tip, knee, "DIM", 2.5)
        self.text(((knee[0] + shelf[0]) / 2, knee[1] + 1), words, "DIM")

    def size(self, ends: tuple[Point, Point], along: Point, words: str, entity: bool, height: float = 2.5) -> None:
        """A linear size level with or upright at the place `along`, as an entity with its text or as strokes."""
        upright = math.isclose(ends[0][0], ends[1][0]) and not math.isclose(ends[0][1], ends[1][1])
        feet = tuple((along[0], p[1]) if upright else (p[0], along[1]) for p in ends)
        if entity:
            tags = [*_at(feet[1]), (70, "32"), (1, words), (3, "STANDARD"), (100, "AcDbAlignedDimension")]
            tags += [*_at(ends[0], 13), *_at(ends[1], 14), (50, "90" if upright else "0")]
            self._put("DIMENSION", "AcDbDimension", [*tags, (100, "AcDbRotatedDimension")], "DIM")
            return
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
            self.head(tip, far, "DIM", height * HEAD_SHARE)
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
    """A whole file: model space, blocks, units ($INSUNITS, R2000 only) and the layers' line types."""

    old: bool
    units: int = 4
    blocks: dict[str, Space] = field(default_factory=dict)
    model: Space = field(init=False)

    def __post_init__(self) -> None:
        self.model = Space(self.old)

    def block(self, name: str) -> Space:
        """A new block."""
        self.blocks[name] = Space(self.old)
        return self.blocks[name]

    def save(self, path: Path) -> None:
        """Write the file."""
        tags = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009" if self.old else "AC1015")]
        tags += [] if self.old else [(9, "$INSUNITS"), (70, str(self.units)), (9, "$HANDSEED"), (5, "FFFFF")]
        tags += [(0, "ENDSEC"), *self._tables(), (0, "SECTION"), (2, "BLOCKS")]
        handle = 0x200
        for name, space in self.blocks.items():
            marks: list[Tag] = [] if self.old else [(100, "AcDbEntity")]
            begin: list[Tag] = [] if self.old else [(100, "AcDbBlockBegin")]
            close: list[Tag] = [] if self.old else [(100, "AcDbBlockEnd")]
            tags += [(0, "BLOCK"), *marks, (8, "0"), *begin, (2, name), (70, "0"), *_at((0, 0)), (3, name)]
            tags += [*self._entities(space, handle), (0, "ENDBLK"), *marks, (8, "0"), *close]
            handle += len(space.ink)
        tags += [(0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES"), *self._entities(self.model, handle)]
        text = "".join(f"{code:>3}\n{value}\n" for code, value in [*tags, (0, "ENDSEC"), (0, "EOF")])
        path.write_text(text, encoding="cp1252")

    def _entities(self, space: Space, handle: int) -> list[Tag]:
        tags: list[Tag] = []
        for k, one in enumerate(space.ink):
            tags.append((0, one.kind))
            if self.old:
                tags += [(8, one.layer), *(t for t in one.tags if t[0] != 100)]
            else:
                tags += [(5, f"{handle + k:X}"), (100, "AcDbEntity"), (8, one.layer), (100, one.subclass), *one.tags]
        return tags

    def _tables(self) -> list[Tag]:
        tags: list[Tag] = [(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, str(len(PATTERNS)))]
        for name, dashes in PATTERNS.items():
            tags += [(0, "LTYPE"), (2, name), (70, "0"), (3, ""), (72, "65"), (73, str(len(dashes)))]
            tags += [(40, figure(sum(map(abs, dashes)))), *((49, figure(d)) for d in dashes)]
        tags += [(0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, "5")]
        for name in ("0", "OUTLINE", "DIM", "CENTER", "HIDDEN"):
            kind = name if name in PATTERNS else "CONTINUOUS"
            tags += [(0, "LAYER"), (2, name), (70, "0"), (62, "7"), (6, kind)]
        return [*tags, (0, "ENDTAB"), (0, "ENDSEC")]
