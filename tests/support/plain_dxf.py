"""Writes DXF group codes by hand, R12 or R2000: with handles as programs of offices do, or as bare as it goes.

No library has a part in it, so a reader that leans on one library's habits is found out.
"""

import itertools
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from scipy.interpolate import BSpline

from support.ink import (
    PLAIN,
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
    Look,
    Ordinate,
    Path,
    Point,
    Role,
    Solid,
    Spline,
    Text,
    barely_exploded,
    exploded,
    hatch_lines,
    led,
    taken_apart,
)

Tag = tuple[int, str]


@dataclass(frozen=True)
class Style:
    """How one program writes its files.

    `number` spells a coordinate; `tables` writes layers and linetypes; `header` is (variable, code, value);
    `old` is R12: no LWPOLYLINE, SPLINE, MTEXT or HATCH; `blanks` pads group codes to three places.
    `bare`: no handles, nothing of a size but what it needs, hatches as entities; `drawn`: sizes have their blocks.
    `off` is a layer that is switched off.
    """

    old: bool = True
    newline: str = "\n"
    number: Callable[[float], str] = repr
    tables: bool = True
    header: tuple[tuple[str, int, str], ...] = ()
    blanks: bool = False
    bare: bool = True
    drawn: bool = True
    off: str = ""
    patterns: tuple[tuple[str, tuple[float, ...]], ...] = (
        ("CENTER", (31.75, -6.35, 6.35, -6.35)),
        ("DASHED", (12.7, -6.35)),
    )


def fixed(places: int) -> Callable[[float], str]:
    """Numbers with so many decimals, trailing zeros kept."""
    return lambda value: f"{value:.{places}f}"


def exponent(value: float) -> str:
    """Numbers as 1.2500000000E+01."""
    return f"{value:.10E}"


def terse(value: float) -> str:
    """Numbers as .5 and 12. are written by old programs."""
    text = f"{value:.9f}".rstrip("0")
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) and len(text.lstrip("-0.")) else text


def as_said(role: Role) -> Look:
    """The look of a stroke that says it; the others lie on layer 0."""
    return role if isinstance(role, Look) else PLAIN


@dataclass
class Writer:
    """One file being written. `layers` gives linetypes to layers, the rest are continuous; `look` a look to a role."""

    style: Style
    layers: Mapping[str, str]
    look: Callable[[Role], Look] = as_said
    blocks: list[Tag] = field(default_factory=list)
    handle: int = 0x30
    names: set[str] = field(default_factory=set)

    def text(self, ink: Iterable[Ink]) -> str:
        """The file of some ink."""
        ink = list(ink)
        body = [tag for item in ink for tag in self.entity(item)]
        tags = self.header() + (self.tables(ink) if self.style.tables else [])
        tags += [(0, "SECTION"), (2, "BLOCKS"), *self.blocks, (0, "ENDSEC")] if self.blocks else []
        tags += [(0, "SECTION"), (2, "ENTITIES"), *body, (0, "ENDSEC"), (0, "EOF")]
        spell = (lambda c: f"{c:>3}") if self.style.blanks else str
        return "".join(f"{spell(code)}{self.style.newline}{value}{self.style.newline}" for code, value in tags)

    def header(self) -> list[Tag]:
        if not self.style.header and self.style.old and self.style.bare:
            return []
        tags = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009" if self.style.old else "AC1015")]
        for name, code, value in self.style.header:
            tags += [(9, name), (code, value)]
        return [*tags, (0, "ENDSEC")]

    def tables(self, ink: list[Ink]) -> list[Tag]:
        kinds = (("CONTINUOUS", ()), *self.style.patterns)
        tags: list[Tag] = [(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, str(len(kinds)))]
        for name, dashes in kinds:
            tags += [*self.record("LTYPE", name), (3, ""), (72, "65"), (73, str(len(dashes)))]
            tags.append((40, repr(float(sum(map(abs, dashes))))))
            tags += [tag for d in dashes for tag in ((49, repr(d)), *self.newer((74, "0")))]
        names = {self.look(item.role).layer: "CONTINUOUS" for item in ink} | {"0": "CONTINUOUS"} | dict(self.layers)
        tags += [(0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, str(len(names)))]
        for name, kind in names.items():
            tags += [*self.record("LAYER", name), (62, "-7" if name == self.style.off else "7"), (6, kind)]
        return [*tags, (0, "ENDTAB"), (0, "ENDSEC")]

    def newer(self, *tags: Tag) -> list[Tag]:
        """What no R12 file and no bare one has."""
        return [] if self.style.old or self.style.bare else list(tags)

    def own(self) -> list[Tag]:
        """The next handle, in files that have them."""
        self.handle += 1
        return self.newer((5, f"{self.handle:X}"))

    def marks(self, *names: str) -> list[Tag]:
        """Names of subclasses, which came with R2000."""
        return [] if self.style.old else [(100, name) for name in names]

    def record(self, table: str, name: str) -> list[Tag]:
        kind = "AcDbLinetypeTableRecord" if table == "LTYPE" else "AcDbLayerTableRecord"
        marks = self.newer((100, "AcDbSymbolTableRecord"), (100, kind))
        return [(0, table), *self.own(), *marks, (2, name), (70, "0")]

    def start(self, kind: str, role: Role, *marks: str) -> list[Tag]:
        """What every entity begins with."""
        look = self.look(role)
        line = [(6, look.linetype)] if look.linetype else []
        return [(0, kind), *self.own(), *self.marks("AcDbEntity"), (8, look.layer), *line, *self.marks(*marks)]

    def number(self, code: int, value: float) -> Tag:
        return code, self.style.number(value)

    def turns(self, *angles: float) -> list[Tag]:
        """Angles of an arc as they are drawn, below a full turn in bare files."""
        return [self.number(50 + k, a % 360 if self.style.bare else a) for k, a in enumerate(angles)]

    def flat(self, point: Point, offset: int = 0) -> list[Tag]:
        return [self.number(10 + offset, point[0]), self.number(20 + offset, point[1])]

    def at(self, point: Point, offset: int = 0) -> list[Tag]:
        tags = self.flat(point, offset)
        return [*tags, (30 + offset, "0.0")] if self.style.old or not self.style.bare else tags

    def entity(self, item: Ink) -> list[Tag]:
        """The tags of one thing; a block that it needs is put with the others."""
        match item:
            case Line(a, b, role):
                return self.start("LINE", role, "AcDbLine") + self.at(a) + self.at(b, 1)
            case Circle(centre, radius, role):
                return [*self.start("CIRCLE", role, "AcDbCircle"), *self.at(centre), self.number(40, radius)]
            case Arc(centre, radius, start, end, role):
                tags = [*self.start("ARC", role, "AcDbCircle"), *self.at(centre), self.number(40, radius)]
                return [*tags, *self.marks("AcDbArc"), *self.turns(start, end)]
            case Solid((a, b, c), role):
                tags = self.start("SOLID", role, "AcDbTrace")
                return tags + [tag for k, p in enumerate((a, b, c, c)) for tag in self.at(p, k)]
            case Curve(points, role):
                return self.path(Path(points, role=role))
            case Callout():
                return [tag for part in taken_apart(item) for tag in self.entity(part)]
        return self.drawer(item)(item)

    def drawer(self, item: Ink) -> Callable[[Any], list[Tag]]:
        """Who writes what takes more than one group of codes."""
        found = {Path: self.path, Spline: self.spline, Text: self.note, Hatch: self.hatch, Dim: self.dimension}
        return {**found, Block: self.insert, Ordinate: self.ordinate, Leader: self.leader}[type(item)]

    def path(self, item: Path) -> list[Tag]:
        closed = (70, "1" if item.closed else "0")
        if self.style.old or item.old:
            tags = [*self.start("POLYLINE", item.role, "AcDb2dPolyline"), (66, "1"), *self.at((0.0, 0.0)), closed]
            for x, y, *bulge in item.points:
                tags += self.start("VERTEX", item.role, "AcDbVertex", "AcDb2dVertex") + self.at((x, y))
                tags += [(42, repr(b)) for b in bulge if b]
            return tags + self.start("SEQEND", item.role)
        tags = [*self.start("LWPOLYLINE", item.role, "AcDbPolyline"), (90, str(len(item.points))), closed]
        for x, y, *bulge in item.points:
            tags += self.flat((x, y)) + [(42, repr(b)) for b in bulge if b]
        return tags

    def spline(self, item: Spline) -> list[Tag]:
        """A SPLINE, or in R12, which has none, its points as a polyline."""
        if self.style.old:
            return self.path(Path(tuple(spline_points(item)), False, item.role))
        counts = [(70, "8" if not item.weights else "12"), (71, str(item.degree)), (72, str(len(item.knots)))]
        tags = self.start("SPLINE", item.role, "AcDbSpline") + counts + [(73, str(len(item.poles))), (74, "0")]
        tags += [(40, repr(k)) for k in item.knots] + [(41, repr(w)) for w in item.weights]
        return tags + [tag for pole in item.poles for tag in [*self.flat(pole), (30, "0.0")]]

    def note(self, item: Text) -> list[Tag]:
        if item.multi and not self.style.old:
            tags = self.start("MTEXT", item.role, "AcDbMText") + self.at(item.at)
            return [*tags, self.number(40, item.height), (71, "1"), (1, item.text)]
        tags = [*self.start("TEXT", item.role, "AcDbText"), *self.at(item.at), self.number(40, item.height)]
        tags += [(1, item.text)] + ([self.number(50, item.angle)] if item.angle else [])
        tags += [(72, "4"), *self.at(item.at, 1)] if item.middle else []
        return tags + self.marks("AcDbText")

    def hatch(self, item: Hatch) -> list[Tag]:
        """Loose lines where they have a spacing; else a HATCH of one closed path, which R12 leaves out."""
        if item.spacing:
            return [tag for line in hatch_lines(item) for tag in self.entity(line)]
        if self.style.old:
            return []
        (points,) = item.loops
        tags = [*self.start("HATCH", item.role, "AcDbHatch"), (10, "0.0"), (20, "0.0"), (30, "0.0"), (210, "0.0")]
        tags += [(220, "0.0"), (230, "1.0"), (2, "ANSI31"), (70, "0"), (71, "0"), (91, "1"), (92, "3"), (72, "1")]
        tags += [(73, "1"), (93, str(len(points)))]
        for x, y, bulge in points:
            tags += [(10, repr(x)), (20, repr(y)), (42, repr(bulge))]
        tags += [(97, "0"), (75, "0"), (76, "1"), (52, "0.0"), (41, "1.0"), (77, "0"), (78, "1"), (53, "45.0")]
        return [*tags, (43, "0.0"), (44, "0.0"), (45, "-2.2"), (46, "2.2"), (79, "0"), (98, "0")]

    def dimension(self, item: Dim) -> list[Tag]:
        (a, b), style = item.feet(), self.style
        name = self.sized(barely_exploded(item) if style.bare else exploded(item, "solid"))
        foot, middle = (item.base, item.base) if style.bare else (b, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))
        tags = [*self.start("DIMENSION", item.role, "AcDbDimension"), *name, *self.at(foot), *self.at(middle, 1)]
        tags += [(70, "0" if style.old else "32"), (1, item.text), *self.newer(self.number(42, item.measured()))]
        tags += self.marks("AcDbAlignedDimension") + self.at(item.a, 3) + self.at(item.b, 4)
        return [*tags, self.number(50, item.angle % 360), *self.marks("AcDbRotatedDimension")]

    def ordinate(self, item: Ordinate) -> list[Tag]:
        shown = Text(item.end, item.text, item.height, 90.0 if item.along_x else 0.0, role=item.role)
        name = self.sized([Line(item.feature, item.end, item.role), shown])
        tags = [*self.start("DIMENSION", item.role, "AcDbDimension"), *name, *self.at(item.origin)]
        kind = (64 if item.along_x else 0) + 6 + (0 if self.style.old else 32)
        tags += [*self.at(item.end, 1), (70, str(kind)), (1, item.text), *self.marks("AcDbOrdinateDimension")]
        return tags + self.at(item.feature, 3) + self.at(item.end, 4)

    def sized(self, ink: Iterable[Ink]) -> list[Tag]:
        """The name of the anonymous block that holds the strokes of a size, in files that have one."""
        return [(2, self.block(ink))] if self.style.drawn else []

    def leader(self, item: Leader) -> list[Tag]:
        if self.style.old:
            return [tag for part in led(item) for tag in self.entity(part)]
        tags = [*self.start("LEADER", item.role, "AcDbLeader"), (3, "STANDARD"), (71, "1"), (72, "0"), (73, "3")]
        return [*tags, (74, "0"), (76, str(len(item.points))), *(tag for p in item.points for tag in self.at(p))]

    def block(self, items: Iterable[Ink], base: Point = (0.0, 0.0), name: str = "") -> str:
        """Its name; a size's own has none but a number."""
        flag, name = "0" if name else "1", name or f"*D{len(self.names)}"
        if name in self.names:
            return name
        self.names.add(name)
        inner = [tag for item in items for tag in self.entity(item)]
        tags = [*self.start("BLOCK", Look("0"), "AcDbBlockBegin"), (2, name), (70, flag), *self.at(base), (3, name)]
        self.blocks += [*tags, *inner, *self.start("ENDBLK", Look("0"), "AcDbBlockEnd")]
        return name

    def insert(self, item: Block) -> list[Tag]:
        name = self.block(item.items, item.base, item.name or f"PART{len(self.names)}")
        tags = [*self.start("INSERT", item.role, "AcDbBlockReference"), (2, name), *self.at(item.at)]
        return [*tags, (41, repr(item.size[0])), (42, repr(item.size[1])), self.number(50, item.turned % 360)]


def spline_points(item: Spline, steps: int = 4) -> list[Point]:
    """Points along a spline, so many in each of its spans; evaluated by scipy."""
    spans = sorted(set(item.knots))
    places = [low + (high - low) * k / steps for low, high in itertools.pairwise(spans) for k in range(steps)]
    weights = item.weights or (1.0,) * len(item.poles)
    poles = [(x * w, y * w, w) for (x, y), w in zip(item.poles, weights, strict=True)]
    curve = BSpline(item.knots, poles, item.degree)([*places, spans[-1]])
    return [(float(x / w), float(y / w)) for x, y, w in curve]
