"""A writer of plain text: group codes and values, R12 or R2000, with no library behind it."""

import math
from collections.abc import Iterable

from support.office.ink import (
    Arc,
    Block,
    Callout,
    Circle,
    Curve,
    Dim,
    Hatch,
    Ink,
    Leader,
    Line,
    Ordinate,
    Path,
    Point,
    Solid,
    Text,
    exploded,
    led,
    taken_apart,
)
from support.office.style import OFF, PATTERNS, FileKind, Office

Tag = tuple[int, str]


def _num(value: float) -> str:
    text = f"{value:.8f}".rstrip("0")
    return text + "0" if text.endswith(".") else text


def _xy(code: int, p: Point) -> list[Tag]:
    return [(code, _num(p[0])), (code + 10, _num(p[1]))]


def _xyz(code: int, p: Point) -> list[Tag]:
    return [*_xy(code, p), (code + 20, "0.0")]


class PlainWriter:
    def __init__(self, office: Office, kind: FileKind) -> None:
        self.office, self.kind = office, kind
        self.old = kind.version == "R12"
        self.handle = 0x30
        self.blocks: list[Tag] = []

    def text(self, ink: Iterable[Ink]) -> str:
        body = [tag for item in ink for tag in self.item(item)]
        tags = [*self._header(), *self._tables()]
        tags += [(0, "SECTION"), (2, "BLOCKS"), *self.blocks, (0, "ENDSEC")]
        tags += [(0, "SECTION"), (2, "ENTITIES"), *body, (0, "ENDSEC"), (0, "EOF")]
        return "".join(f"{code:3d}\n{value}\n" for code, value in tags)

    def _header(self) -> list[Tag]:
        tags: list[Tag] = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009" if self.old else "AC1015")]
        if self.kind.insunits is not None:
            tags += [(9, "$INSUNITS"), (70, str(self.kind.insunits))]
        return [*tags, (0, "ENDSEC")]

    def _tables(self) -> list[Tag]:
        tags: list[Tag] = [(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, str(len(PATTERNS) + 1))]
        for name, pattern in {"CONTINUOUS": (), **PATTERNS}.items():
            tags += [
                (0, "LTYPE"),
                *self._mark("AcDbSymbolTableRecord", "AcDbLinetypeTableRecord"),
                (2, name),
                (70, "0"),
                (3, name),
            ]
            tags += [(72, "65"), (73, str(len(pattern))), (40, _num(sum(abs(v) for v in pattern)))]
            tags += [tag for v in pattern for tag in ([(49, _num(v))] if self.old else [(49, _num(v)), (74, "0")])]
        tags += [(0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, "12")]
        for name, kind in {"0": "CONTINUOUS", **self.office.layer_types()}.items():
            tags += [
                (0, "LAYER"),
                *self._mark("AcDbSymbolTableRecord", "AcDbLayerTableRecord"),
                (2, name),
                (70, "0"),
                (62, "-7" if name == OFF else "7"),
                (6, kind),
            ]
        return [*tags, (0, "ENDTAB"), (0, "ENDSEC")]

    def _mark(self, *classes: str) -> list[Tag]:
        """Handle and subclass markers of newer files."""
        if self.old:
            return []
        self.handle += 1
        return [(5, f"{self.handle:X}"), *((100, name) for name in classes)]

    def _start(self, name: str, role: str, marker: str) -> list[Tag]:
        tags: list[Tag] = [(0, name)]
        if not self.old:
            self.handle += 1
            tags += [(5, f"{self.handle:X}"), (100, "AcDbEntity")]
        tags.append((8, self.office.layer(role)))
        kind = self.office.linetype(role)
        if kind:
            tags.append((6, kind))
        return tags if self.old else [*tags, (100, marker)]

    def item(self, item: Ink) -> list[Tag]:
        match item:
            case Line(a, b, role):
                return [*self._start("LINE", role, "AcDbLine"), *_xyz(10, a), *_xyz(11, b)]
            case Arc(c, r, start, end, role):
                tags = [*self._start("ARC", role, "AcDbCircle"), *_xyz(10, c), (40, _num(r))]
                tags += [] if self.old else [(100, "AcDbArc")]
                return [*tags, (50, _num(start)), (51, _num(end))]
            case Circle(c, r, role):
                return [*self._start("CIRCLE", role, "AcDbCircle"), *_xyz(10, c), (40, _num(r))]
            case Path(points, closed, role):
                return self._path(points, closed, role)
            case Curve(points, role):
                return self._path(points, False, role)
            case Solid((a, b, c), role):
                tags = self._start("SOLID", role, "AcDbTrace")
                return [*tags, *_xyz(10, a), *_xyz(11, b), *_xyz(12, c), *_xyz(13, c)]
            case Text():
                return self._text(item)
            case Dim():
                return self._dim(item)
            case Ordinate():
                return self._ordinate(item)
            case Leader():
                return self._leader(item)
            case Callout():
                return [tag for part in taken_apart(item) for tag in self.item(part)]
            case Block():
                return self._insert(item)
            case Hatch():
                return [tag for line in hatch_lines(item) for tag in self.item(line)]
        raise TypeError(item)

    def _path(self, points: tuple[Point, ...], closed: bool, role: str) -> list[Tag]:
        flag = (70, "1" if closed else "0")
        if not self.old:
            tags = [*self._start("LWPOLYLINE", role, "AcDbPolyline"), (90, str(len(points))), flag]
            return [*tags, *(tag for p in points for tag in _xy(10, p))]
        tags = [*self._start("POLYLINE", role, ""), (66, "1"), flag, *_xyz(10, (0, 0))]
        for p in points:
            tags += [*self._start("VERTEX", role, ""), *_xyz(10, p)]
        return [*tags, (0, "SEQEND"), (8, self.office.layer(role))]

    def _text(self, item: Text) -> list[Tag]:
        tags = [
            *self._start("TEXT", item.role, "AcDbText"),
            *_xyz(10, item.at),
            (40, _num(item.height)),
            (1, item.text),
        ]
        if item.angle:
            tags.append((50, _num(item.angle)))
        if item.middle:
            tags += [(72, "4"), *_xyz(11, item.at)]
        return tags if self.old else [*tags, (100, "AcDbText")]

    def _block(self, ink: list[Ink], base: Point = (0, 0), name: str = "", flag: str = "1") -> str:
        name = name or f"*D{len([t for t in self.blocks if t == (0, 'BLOCK')])}"
        head = [*self._mark("AcDbEntity"), (8, "0"), *([] if self.old else [(100, "AcDbBlockBegin")])]
        self.blocks += [(0, "BLOCK"), *head, (2, name), (70, flag), *_xyz(10, base), (3, name), (1, "")]
        self.blocks += [tag for part in ink for tag in self.item(part)]
        self.blocks += [
            (0, "ENDBLK"),
            *self._mark("AcDbEntity"),
            (8, "0"),
            *([] if self.old else [(100, "AcDbBlockEnd")]),
        ]
        return name

    def _insert(self, item: Block) -> list[Tag]:
        name = self._block(list(item.items), item.at, f"PART{len(self.blocks)}", "0")
        tags = [*self._start("INSERT", item.role, "AcDbBlockReference"), (2, name), *_xyz(10, item.at)]
        return [*tags, (41, "1.0"), (42, "-1.0" if item.mirrored else "1.0"), (43, "1.0")]

    def _dim(self, item: Dim) -> list[Tag]:
        name = self._block(exploded(item, "solid"))
        a, b = ((item.a[0], item.base[1]), (item.b[0], item.base[1])) if item.angle == 0 else (
            (item.base[0], item.a[1]), (item.base[0], item.b[1]))  # fmt: skip
        tags = [*self._start("DIMENSION", item.role, "AcDbDimension"), (2, name), *_xyz(10, b)]
        tags += [*_xyz(11, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)), (70, "32" if not self.old else "0"), (1, item.text)]
        tags += [] if self.old else [(42, _num(item.measured())), (100, "AcDbAlignedDimension")]
        tags += [*_xyz(13, item.a), *_xyz(14, item.b), (50, _num(item.angle))]
        return tags if self.old else [*tags, (100, "AcDbRotatedDimension")]

    def _ordinate(self, item: Ordinate) -> list[Tag]:
        shown = Text(item.end, item.text, item.height, 90.0 if item.along_x else 0.0, role=item.role)
        name = self._block([Line(item.feature, item.end, item.role), shown])
        tags = [*self._start("DIMENSION", item.role, "AcDbDimension"), (2, name), *_xyz(10, item.origin)]
        tags += [
            *_xyz(11, item.end),
            (70, str((64 if item.along_x else 0) + 6 + (0 if self.old else 32))),
            (1, item.text),
        ]
        tags += [] if self.old else [(100, "AcDbOrdinateDimension")]
        return [*tags, *_xyz(13, item.feature), *_xyz(14, item.end)]

    def _leader(self, item: Leader) -> list[Tag]:
        if self.old:
            return [tag for part in led(item) for tag in self.item(part)]
        tags = [
            *self._start("LEADER", item.role, "AcDbLeader"),
            (3, "STANDARD"),
            (71, "1"),
            (72, "0"),
            (73, "3"),
            (74, "0"),
        ]
        return [*tags, (76, str(len(item.points))), *(tag for p in item.points for tag in _xyz(10, p))]


def hatch_lines(item: Hatch) -> list[Line]:
    """Loose strokes at 45 degrees inside the loops."""
    from shapely.geometry import LineString, MultiPolygon, Polygon
    from shapely.ops import unary_union

    area = unary_union([Polygon(loop).buffer(0) for loop in item.loops])
    x0, y0, x1, y1 = area.bounds
    found: list[Line] = []
    step, tall = item.spacing * math.sqrt(2), y1 - y0
    for k in range(int((x1 - x0 + tall) / step) + 1):
        x = x0 - tall + (k + 0.37) * step
        shape = area if isinstance(area, MultiPolygon) else MultiPolygon([area])
        cut = LineString([(x, y0), (x + tall, y1)]).intersection(shape)
        for part in getattr(cut, "geoms", [cut]):
            if part.geom_type == "LineString" and not part.is_empty:
                ends = list(part.coords)
                found.append(Line(ends[0], ends[-1], item.role))
    return found
