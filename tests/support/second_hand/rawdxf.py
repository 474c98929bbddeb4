"""DXF text written tag by tag, in the ways of many programs; knows no DXF library.

A `Document` holds layers, blocks, what lies in model space and in paper space. A `Spelling` says how it is written:
version, header, number format, line ends, which tables are there, odd orders of group codes.
"""

import math
import struct
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from support.second_hand.marks import XY, Arc, Circle, Curve, Dim, Fill, Line, Mark, Note, Path

Tag = tuple[int, str | float | int]

OLD, R2000, R2007, R2018 = "AC1009", "AC1015", "AC1021", "AC1032"


@dataclass(frozen=True)
class Insert:
    """A block placed: shift, scales, turn in degrees."""

    block: str
    at: XY = (0.0, 0.0)
    scale: tuple[float, float] = (1.0, 1.0)
    turn: float = 0.0


@dataclass(frozen=True)
class Window:
    """A viewport of paper space: its middle and size on paper, the model point in its middle, model height shown."""

    middle: XY
    size: XY
    looks_at: XY
    height: float


@dataclass(frozen=True)
class Item:
    """One thing with its pen."""

    what: Mark | Insert | Window
    layer: str = "0"
    linetype: str = ""
    colour: int = 256


@dataclass
class Document:
    """All that one file holds; layers by name: colour, linetype."""

    layers: dict[str, tuple[int, str]] = field(default_factory=dict)
    blocks: dict[str, list[Item]] = field(default_factory=dict)
    model: list[Item] = field(default_factory=list)
    paper: list[Item] = field(default_factory=list)


@dataclass(frozen=True)
class Spelling:
    """How a program writes its files."""

    version: str = R2000
    header: tuple[Tag, ...] = ()
    digits: str = "{:.6f}"
    newline: str = "\r\n"
    pad: bool = True
    tables: bool = True
    handles: bool = True
    markers: bool = True
    binary: bool = False
    encoding: str = "cp1252"
    shuffled: bool = False
    flipped: bool = False
    splines: str = "fit"
    old_paths: bool = False
    circles_as_ellipses: bool = False
    comments: bool = False


PATTERNS = {
    "CENTER": (31.75, -6.35, 6.35, -6.35),
    "DASHED": (12.7, -6.35),
    "PHANTOM": (31.75, -6.35, 6.35, -6.35, 6.35, -6.35),
    "HIDDEN": (6.35, -3.175),
    "DASHDOT": (12.7, -6.35, 0.0, -6.35),
    "ACAD_ISO04W100": (24.0, -3.0, 0.0, -3.0),
    "ACAD_ISO02W100": (12.0, -3.0),
    "LONG_DASHED_DOTTED": (7.5, -1.0, 0.25, -1.0),
    "MITTE": (31.75, -6.35, 6.35, -6.35),
    "VERDECKT": (6.35, -3.175),
    "TRAIT_MIXTE": (24.0, -3.0, 0.5, -3.0),
    "LT7": (10.0, -2.0, 0.5, -2.0),
    "LT3": (4.0, -2.0),
}


class Writer:
    """Turns a document into tags, keeping count of handles."""

    def __init__(self, spelling: Spelling) -> None:
        self.s = spelling
        self.count = 0x50

    @property
    def modern(self) -> bool:
        """True from R2000 on, where entities carry subclass markers."""
        return self.s.version != OLD

    def handle(self) -> list[Tag]:
        """The next handle."""
        self.count += 1
        return [(5, f"{self.count:X}")] if self.s.handles or self.modern else []

    def head(self, kind: str, item: Item, paper: bool) -> list[Tag]:
        """What every entity opens with."""
        tags: list[Tag] = [(0, kind), *self.handle()]
        if self.modern and self.s.markers:
            tags.append((100, "AcDbEntity"))
        if paper:
            tags.append((67, 1))
        tags.append((8, item.layer))
        if item.linetype:
            tags.append((6, item.linetype))
        if item.colour != 256:
            tags.append((62, item.colour))
        return tags

    def mark(self, name: str) -> list[Tag]:
        """A subclass marker, where the version wants one."""
        return [(100, name)] if self.modern and self.s.markers else []

    def entity(self, item: Item, paper: bool = False) -> list[Tag]:
        """The tags of one thing."""
        what = item.what
        spell = getattr(self, f"_{type(what).__name__.lower()}")
        tags: list[Tag] = spell(what, item, paper)
        return _odd_order(tags) if self.s.shuffled else tags

    def _point(self, p: XY, code: int = 10) -> list[Tag]:
        return [(code, float(p[0])), (code + 10, float(p[1])), (code + 20, 0.0)]

    def _ocs(self, p: XY) -> XY:
        return (-p[0], p[1]) if self.s.flipped else p

    def _extrusion(self) -> list[Tag]:
        return [(210, 0.0), (220, 0.0), (230, -1.0)] if self.s.flipped else []

    def _line(self, m: Line, item: Item, paper: bool) -> list[Tag]:
        return self.head("LINE", item, paper) + self.mark("AcDbLine") + self._point(m.a) + self._point(m.b, 11)

    def _circle(self, m: Circle, item: Item, paper: bool) -> list[Tag]:
        if self.s.circles_as_ellipses and self.modern:
            return self._ellipse(m.centre, m.radius, 0.0, 2 * math.pi, item, paper)
        tags = self.head("CIRCLE", item, paper) + self.mark("AcDbCircle") + self._point(self._ocs(m.centre))
        return [*tags, (40, m.radius), *self._extrusion()]

    def _ellipse(self, centre: XY, radius: float, first: float, last: float, item: Item, paper: bool) -> list[Tag]:
        tags = self.head("ELLIPSE", item, paper) + self.mark("AcDbEllipse") + self._point(centre)
        return [*tags, (11, radius), (21, 0.0), (31, 0.0), (40, 1.0), (41, first), (42, last)]

    def _arc(self, m: Arc, item: Item, paper: bool) -> list[Tag]:
        if self.s.circles_as_ellipses and self.modern:
            first, last = math.radians(m.start % 360), math.radians(m.end % 360)
            return self._ellipse(m.centre, m.radius, first, last if last > first else last + 2 * math.pi, item, paper)
        tags = self.head("ARC", item, paper) + self.mark("AcDbCircle") + self._point(self._ocs(m.centre))
        tags.append((40, m.radius))
        tags += self._extrusion()
        ends = ((180 - m.end) % 360, (180 - m.start) % 360) if self.s.flipped else (m.start % 360, m.end % 360)
        return [*tags, *self.mark("AcDbArc"), (50, ends[0]), (51, ends[1])]

    def _path(self, m: Path, item: Item, paper: bool) -> list[Tag]:
        bulges = m.bulges or (0.0,) * len(m.points)
        points = [self._ocs(p) for p in m.points]
        if self.s.flipped:
            bulges = tuple(-b for b in bulges)
        if not self.modern or self.s.old_paths:
            return self._polyline(points, bulges, m.closed, item, paper)
        tags = self.head("LWPOLYLINE", item, paper) + self.mark("AcDbPolyline")
        tags += [(90, len(points)), (70, int(m.closed)), (43, 0.0)]
        for (x, y), bulge in zip(points, bulges, strict=False):
            tags += [(10, float(x)), (20, float(y))]
            if bulge:
                tags.append((42, bulge))
        return tags + self._extrusion()

    def _polyline(
        self, points: Sequence[XY], bulges: Sequence[float], closed: bool, item: Item, paper: bool
    ) -> list[Tag]:
        tags = self.head("POLYLINE", item, paper) + self.mark("AcDb2dPolyline")
        tags += [(66, 1), *self._point((0.0, 0.0)), (70, int(closed)), *self._extrusion()]
        for p, bulge in zip(points, bulges, strict=False):
            tags += (
                self.head("VERTEX", item, paper) + self.mark("AcDbVertex") + self.mark("AcDb2dVertex") + self._point(p)
            )
            if bulge:
                tags.append((42, bulge))
        return tags + self.head("SEQEND", item, paper)

    def _curve(self, m: Curve, item: Item, paper: bool) -> list[Tag]:
        if not self.modern or self.s.splines == "chords":
            return self._path(Path(m.points, role=m.role), item, paper)
        return self._spline(m.points, item, paper)

    def _spline(self, points: Sequence[XY], item: Item, paper: bool) -> list[Tag]:
        """A spline of degree 1 through the points, or a smooth one of degree 3 in Bezier stretches."""
        control, knots, degree = (_smooth if len(points) > 2 and self.s.splines == "fit" else _straight)(points)
        tags = self.head("SPLINE", item, paper) + self.mark("AcDbSpline")
        tags += [
            (210, 0.0),
            (220, 0.0),
            (230, 1.0),
            (70, 8),
            (71, degree),
            (72, len(knots)),
            (73, len(control)),
            (74, 0),
        ]
        tags += [(42, 1e-9), (43, 1e-10)]
        tags += [(40, k) for k in knots]
        for p in control:
            tags += self._point(p)
        return tags

    def _note(self, m: Note, item: Item, paper: bool) -> list[Tag]:
        if m.kind == "mtext" and self.modern:
            tags = self.head("MTEXT", item, paper) + self.mark("AcDbMText") + self._point(m.at)
            return [*tags, (40, m.height), (41, 0.0), (71, 1), (72, 5), (1, m.text), (7, "Standard"), (50, m.turned)]
        tags = self.head("TEXT", item, paper) + self.mark("AcDbText") + self._point(m.at)
        return [*tags, (40, m.height), (1, m.text), (50, m.turned), *self.mark("AcDbText")]

    def _dim(self, m: Dim, item: Item, paper: bool) -> list[Tag]:
        if m.factor != 1.0 and not self.modern:
            # Old entities hold no display factor of their own: their text is typed.
            m = replace(m, text=(m.text or "<>").replace("<>", f"{m.shown:.6g}"), factor=1.0)
        tags = self.head("DIMENSION", item, paper) + self.mark("AcDbDimension")
        tags += [(2, m.picture)] if m.picture else []
        tags += [*self._point(m.line), *self._point(m.line, 11), (70, 32), (1, m.text), (3, "STANDARD")]
        if m.factor != 1.0 and self.modern:
            tags += [(1001, "ACAD"), (1000, "DSTYLE"), (1002, "{"), (1070, 144), (1040, m.factor), (1002, "}")]
            data, tags = tags[-6:], tags[:-6]
        else:
            data = []
        tags += self.mark("AcDbAlignedDimension") + self._point(m.a, 13) + self._point(m.b, 14)
        return [*tags, (50, m.angle), *self.mark("AcDbRotatedDimension"), *data]

    def _fill(self, m: Fill, item: Item, paper: bool) -> list[Tag]:
        bulges = m.rim.bulges or (0.0,) * len(m.rim.points)
        tags = self.head("HATCH", item, paper) + self.mark("AcDbHatch") + self._point((0.0, 0.0))
        tags += [(210, 0.0), (220, 0.0), (230, 1.0), (2, "ANSI31"), (70, 0), (71, 0), (91, 1), (92, 3)]
        tags += [(72, 1), (73, 1), (93, len(m.rim.points))]
        for (x, y), bulge in zip(m.rim.points, bulges, strict=False):
            tags += [(10, float(x)), (20, float(y)), (42, bulge)]
        tags += [(97, 0), (75, 0), (76, 1), (52, 0.0), (41, 1.0), (77, 0), (78, 1), (53, 45.0), (43, 0.0), (44, 0.0)]
        return [*tags, (45, -2.245), (46, 2.245), (79, 0), (98, 0)]

    def _insert(self, m: Insert, item: Item, paper: bool) -> list[Tag]:
        tags = self.head("INSERT", item, paper) + self.mark("AcDbBlockReference")
        tags += [(2, m.block), *self._point(m.at)]
        return [*tags, (41, m.scale[0]), (42, m.scale[1]), (43, 1.0), (50, m.turn)]

    def _window(self, m: Window, item: Item, paper: bool) -> list[Tag]:
        tags = self.head("VIEWPORT", item, True) + self.mark("AcDbViewport") + self._point(m.middle)
        tags += [(40, m.size[0]), (41, m.size[1]), (68, 2), (69, 2)]
        if self.modern:
            tags += [(12, m.looks_at[0]), (22, m.looks_at[1]), (16, 0.0), (26, 0.0), (36, 1.0), (45, m.height)]
        return tags

    def file(self, doc: Document) -> list[Tag]:
        """All tags of the file."""
        tags: list[Tag] = [(999, "WRITTEN BY A DRAWING SYSTEM")] if self.s.comments else []
        tags += [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, self.s.version), *self.s.header, (0, "ENDSEC")]
        if self.s.tables:
            tags += self._tables(doc)
        if doc.blocks:
            tags += self._blocks(doc)
        tags += [(0, "SECTION"), (2, "ENTITIES")]
        for space, paper in ((doc.model, False), (doc.paper, True)):
            for item in space:
                tags += self.entity(item, paper)
        tags += [(0, "ENDSEC")]
        return [*tags, (0, "EOF")]

    def _tables(self, doc: Document) -> list[Tag]:
        every = [*doc.model, *doc.paper, *(i for items in doc.blocks.values() for i in items)]
        used = {t for _, t in doc.layers.values()} | {i.linetype for i in every}
        rows: list[list[Tag]] = []
        for name in sorted(used & set(PATTERNS)):
            pattern = PATTERNS[name]
            row: list[Tag] = [(2, name), (70, 0), (3, ""), (72, 65), (73, len(pattern)), (40, sum(map(abs, pattern)))]
            for dash in pattern:
                row += [(49, dash), *([(74, 0)] if self.modern else [])]
            rows.append([(0, "LTYPE"), *self._record("AcDbLinetypeTableRecord"), *row])
        tags: list[Tag] = [(0, "SECTION"), (2, "TABLES"), *self._table("LTYPE", rows)]
        rows = [
            [(0, "LAYER"), *self._record("AcDbLayerTableRecord"), (2, n), (70, 0), (62, c), (6, t or "CONTINUOUS")]
            for n, (c, t) in doc.layers.items()
        ]
        return [*tags, *self._table("LAYER", rows), (0, "ENDSEC")]

    def _record(self, kind: str) -> list[Tag]:
        return self.handle() + self.mark("AcDbSymbolTableRecord") + self.mark(kind) if self.modern else []

    def _table(self, name: str, rows: list[list[Tag]]) -> list[Tag]:
        head: list[Tag] = [
            (0, "TABLE"),
            (2, name),
            *(self.handle() if self.modern else []),
            *self.mark("AcDbSymbolTable"),
        ]
        return [*head, (70, len(rows)), *(t for row in rows for t in row), (0, "ENDTAB")]

    def _blocks(self, doc: Document) -> list[Tag]:
        tags: list[Tag] = [(0, "SECTION"), (2, "BLOCKS")]
        for name, items in doc.blocks.items():
            tags += self.head("BLOCK", Item(Line((0, 0), (0, 0))), False) + self.mark("AcDbBlockBegin")
            tags += [(2, name), (70, 0), *self._point((0.0, 0.0)), (3, name), (1, "")]
            for item in items:
                tags += self.entity(item)
            tags += self.head("ENDBLK", Item(Line((0, 0), (0, 0))), False) + self.mark("AcDbBlockEnd")
        return [*tags, (0, "ENDSEC")]


def _straight(points: Sequence[XY]) -> tuple[list[XY], list[float], int]:
    count = len(points)
    return list(points), [0.0, *(float(k) for k in range(count)), float(count - 1)], 1


def _smooth(points: Sequence[XY]) -> tuple[list[XY], list[float], int]:
    """Cubic Bezier stretches through the points, tangents by neighbours (Catmull and Rom), ends by parabola."""
    n = len(points)
    slopes = [
        ((q[0] - p[0]) / 2, (q[1] - p[1]) / 2)
        for p, q in ((points[max(k - 1, 0)], points[min(k + 1, n - 1)]) for k in range(n))
    ]
    for end, near in ((0, 1), (n - 1, n - 2)):
        sign = 1 if end == 0 else -1
        slopes[end] = tuple(  # type: ignore[assignment]
            2 * sign * (points[near][i] - points[end][i]) - slopes[near][i] for i in (0, 1)
        )
    control: list[XY] = [points[0]]
    for k in range(n - 1):
        (x0, y0), (x1, y1) = points[k], points[k + 1]
        (u0, v0), (u1, v1) = slopes[k], slopes[k + 1]
        control += [(x0 + u0 / 3, y0 + v0 / 3), (x1 - u1 / 3, y1 - v1 / 3), (x1, y1)]
    inner = [float(k) for k in range(1, n - 1) for _ in range(3)]
    return control, [0.0] * 4 + inner + [float(n - 1)] * 4, 3


def _odd_order(tags: list[Tag]) -> list[Tag]:
    """Layer and colour after the coordinates, where nothing forbids it: single-valued entities only."""
    if tags[0][1] not in ("LINE", "CIRCLE", "ARC", "TEXT") or any(code == 100 for code, _ in tags):
        return tags
    late = [t for t in tags[1:] if t[0] in (8, 6, 62)]
    return [tags[0], *(t for t in tags[1:] if t not in late), *late]


def write(doc: Document, spelling: Spelling) -> bytes:
    """The file's bytes."""
    tags = Writer(spelling).file(doc)
    if spelling.binary:
        return b"AutoCAD Binary DXF\r\n\x1a\x00" + b"".join(_binary(tags, spelling))
    lines: list[str] = []
    for code, value in tags:
        lines.append(f"{code:>3}" if spelling.pad else str(code))
        lines.append(_number(value, spelling.digits) if isinstance(value, float) else str(value))
    encoding = "utf-8" if spelling.version in (R2007, R2018) else spelling.encoding
    return (spelling.newline.join(lines) + spelling.newline).encode(encoding, errors="replace")


def _number(value: float, digits: str) -> str:
    return repr(value) if digits == "repr" else digits.format(value)


def _binary(tags: Iterable[Tag], spelling: Spelling) -> Iterator[bytes]:
    for code, value in tags:
        if spelling.version == OLD:
            yield bytes([code]) if code < 255 else b"\xff" + struct.pack("<H", code)
        else:
            yield struct.pack("<H", code)
        if 10 <= code <= 59 or 110 <= code <= 149 or 210 <= code <= 239 or 1010 <= code <= 1059:
            yield struct.pack("<d", float(value))
        elif 60 <= code <= 79 or 170 <= code <= 179 or 270 <= code <= 289 or 1060 <= code <= 1070:
            yield struct.pack("<h", int(value))
        elif 90 <= code <= 99 or code == 1071:
            yield struct.pack("<l", int(value))
        else:
            encoding = "utf-8" if spelling.version in (R2007, R2018) else spelling.encoding
            yield str(value).encode(encoding, errors="replace") + b"\x00"


def plain(spelling: Spelling) -> Spelling:
    """The same program without its oddest habits, for drawings that test something else."""
    return replace(spelling, shuffled=False, flipped=False, circles_as_ellipses=False)
