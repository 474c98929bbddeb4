"""Writes DXF group codes by hand, as small and old programs do: R12 or R2000, as bare as they get away with.

No library has a part in it, so a reader that leans on one library's habits is found out.
"""

import itertools
import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from scipy.interpolate import BSpline

from support.independent.ink import Arc, Circle, Dim, Hatch, Ink, Insert, Line, Look, Note, Path, Spline

Tag = tuple[int, str]


@dataclass(frozen=True)
class Style:
    """How one program writes its files.

    `number` spells a coordinate; `tables` writes layers and linetypes; `header` is (variable, code, value);
    `old` is R12: no LWPOLYLINE, SPLINE, MTEXT or HATCH; `blanks` pads group codes to three places.
    """

    old: bool = True
    newline: str = "\n"
    number: Callable[[float], str] = repr
    tables: bool = True
    header: tuple[tuple[str, int, str], ...] = ()
    blanks: bool = False
    lower: bool = False
    encoding: str = "cp1252"
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


def layer_styles(ink: Iterable[Ink]) -> dict[str, str]:
    """Each layer used, with the linetype that its strokes carry most plainly (the layer's own)."""
    found: dict[str, str] = {}
    for item in ink:
        found.setdefault(item.look.layer, "CONTINUOUS")
    return found


@dataclass(frozen=True)
class Writer:
    """One file being written. `layers` gives linetypes to layers; the rest are continuous."""

    style: Style
    layers: dict[str, str]

    def text(self, ink: list[Ink]) -> str:
        body: list[Tag] = []
        blocks: list[Tag] = []
        for index, item in enumerate(ink):
            tags, block = self.entity(item, index)
            body += tags
            blocks += block
        tags = self.header() + (self.tables(ink) if self.style.tables else [])
        tags += [(0, "SECTION"), (2, "BLOCKS"), *blocks, (0, "ENDSEC")] if blocks else []
        tags += [(0, "SECTION"), (2, "ENTITIES"), *body, (0, "ENDSEC"), (0, "EOF")]
        spell = (lambda c: f"{c:>3}") if self.style.blanks else str
        return "".join(f"{spell(code)}{self.style.newline}{value}{self.style.newline}" for code, value in tags)

    def header(self) -> list[Tag]:
        if not self.style.header and self.style.old:
            return []
        tags = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009" if self.style.old else "AC1015")]
        for name, code, value in self.style.header:
            tags += [(9, name), (code, value)]
        return [*tags, (0, "ENDSEC")]

    def tables(self, ink: list[Ink]) -> list[Tag]:
        tags: list[Tag] = [(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, "9")]
        tags += [(0, "LTYPE"), (2, "CONTINUOUS"), (70, "0"), (3, ""), (72, "65"), (73, "0"), (40, "0.0")]
        for name, dashes in self.style.patterns:
            total = sum(abs(d) for d in dashes)
            tags += [(0, "LTYPE"), (2, name), (70, "0"), (3, ""), (72, "65"), (73, str(len(dashes))), (40, repr(total))]
            tags += [(49, repr(d)) for d in dashes]
        tags += [(0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, "9")]
        for name in {**layer_styles(ink), **self.layers, "0": "CONTINUOUS"}:
            tags += [(0, "LAYER"), (2, self.name(name)), (70, "0"), (62, "7"), (6, self.layers.get(name, "CONTINUOUS"))]
        return [*tags, (0, "ENDTAB"), (0, "ENDSEC")]

    def name(self, layer: str) -> str:
        return layer.lower() if self.style.lower else layer

    def common(self, kind: str, look: Look, *marks: str) -> list[Tag]:
        new = [] if self.style.old else [(100, "AcDbEntity")]
        line = [(6, look.linetype)] if look.linetype else []
        return [
            (0, kind),
            *new,
            (8, self.name(look.layer)),
            *line,
            *([] if self.style.old else [(100, m) for m in marks]),
        ]

    def at(self, point: tuple[float, float], offset: int = 0) -> list[Tag]:
        tags = [(10 + offset, self.style.number(point[0])), (20 + offset, self.style.number(point[1]))]
        return [*tags, (30 + offset, "0.0")] if self.style.old else tags

    def entity(self, item: Ink, index: int) -> tuple[list[Tag], list[Tag]]:
        """Tags of the entity, and of the block it needs."""
        match item:
            case Line():
                return self.common("LINE", item.look, "AcDbLine") + self.at(item.a) + self.at(item.b, 1), []
            case Arc():
                return self.arc(item), []
            case Circle():
                tags = self.common("CIRCLE", item.look, "AcDbCircle") + self.at(item.centre)
                return [*tags, (40, self.style.number(item.radius))], []
            case Path():
                return self.path(item), []
            case Spline():
                return self.spline(item), []
            case Note():
                return self.note(item), []
            case Hatch():
                return ([] if self.style.old else self.hatch(item)), []
            case Dim():
                return self.dimension(item, index)
            case Insert():
                return self.insert(item)

    def arc(self, item: Arc) -> list[Tag]:
        tags = self.common("ARC", item.look, "AcDbCircle") + self.at(item.centre)
        tags += [(40, self.style.number(item.radius))] + ([] if self.style.old else [(100, "AcDbArc")])
        return [*tags, (50, self.style.number(item.start % 360)), (51, self.style.number(item.end % 360))]

    def path(self, item: Path) -> list[Tag]:
        closed = "1" if item.closed else "0"
        if self.style.old or item.old:
            tags = [
                *self.common("POLYLINE", item.look, "AcDb2dPolyline"),
                (66, "1"),
                *self.at((0.0, 0.0)),
                (70, closed),
            ]
            for x, y, bulge in item.points:
                tags += self.common("VERTEX", item.look, "AcDbVertex", "AcDb2dVertex") + self.at((x, y))
                tags += [(42, repr(bulge))] if bulge else []
            return tags + self.common("SEQEND", item.look)
        tags = [*self.common("LWPOLYLINE", item.look, "AcDbPolyline"), (90, str(len(item.points))), (70, closed)]
        for x, y, bulge in item.points:
            tags += self.at((x, y)) + ([(42, repr(bulge))] if bulge else [])
        return tags

    def spline(self, item: Spline) -> list[Tag]:
        """A SPLINE, or in R12, which has none, its points as a polyline."""
        if self.style.old:
            points = tuple((x, y, 0.0) for x, y in spline_points(item))
            return self.path(Path(points, False, item.look))
        counts = [(70, "8" if not item.weights else "12"), (71, str(item.degree)), (72, str(len(item.knots)))]
        tags = self.common("SPLINE", item.look, "AcDbSpline") + counts + [(73, str(len(item.poles))), (74, "0")]
        tags += [(40, repr(k)) for k in item.knots] + [(41, repr(w)) for w in item.weights]
        return tags + [tag for pole in item.poles for tag in [*self.at(pole), (30, "0.0")]]

    def note(self, item: Note) -> list[Tag]:
        if item.multi and not self.style.old:
            tags = self.common("MTEXT", item.look, "AcDbMText") + self.at(item.at)
            return [*tags, (40, self.style.number(item.height)), (71, "1"), (1, item.text)]
        tags = self.common("TEXT", item.look, "AcDbText") + self.at(item.at)
        tags += [(40, self.style.number(item.height)), (1, item.text)]
        tags += [(50, self.style.number(item.turned))] if item.turned else []
        return [*tags, (100, "AcDbText")] if not self.style.old else tags

    def hatch(self, item: Hatch) -> list[Tag]:
        tags = [*self.common("HATCH", item.look, "AcDbHatch"), (10, "0.0"), (20, "0.0"), (30, "0.0"), (210, "0.0")]
        tags += [
            (220, "0.0"),
            (230, "1.0"),
            (2, "ANSI31"),
            (70, "0"),
            (71, "0"),
            (91, "1"),
            (92, "3"),
            (72, "1"),
            (73, "1"),
        ]
        tags += [(93, str(len(item.points)))]
        for x, y, bulge in item.points:
            tags += [(10, repr(x)), (20, repr(y)), (42, repr(bulge))]
        tags += [(97, "0"), (75, "0"), (76, "1"), (52, "0.0"), (41, "1.0"), (77, "0"), (78, "1"), (53, "45.0")]
        return [*tags, (43, "0.0"), (44, "0.0"), (45, "-2.2"), (46, "2.2"), (79, "0"), (98, "0")]

    def dimension(self, item: Dim, index: int) -> tuple[list[Tag], list[Tag]]:
        name = f"*D{index}"
        tags = [*self.common("DIMENSION", item.look, "AcDbDimension"), (2, name)]
        tags += self.at(item.at) + self.at(item.at, 1) + [(70, "0" if self.style.old else "32"), (1, item.text)]
        tags += [] if self.style.old else [(100, "AcDbAlignedDimension")]
        tags += self.at(item.a, 3) + self.at(item.b, 4) + [(50, self.style.number(item.angle % 360))]
        tags += [] if self.style.old else [(100, "AcDbRotatedDimension")]
        return tags, self.block(name, dimension_strokes(item), anonymous=True)

    def block(self, name: str, items: Iterable[Ink], anonymous: bool = False) -> list[Tag]:
        tags = [*self.common("BLOCK", Look("0"), "AcDbBlockBegin"), (2, name), (70, "1" if anonymous else "0")]
        tags += [*self.at((0.0, 0.0)), (3, name)]
        for index, item in enumerate(items):
            tags += self.entity(item, index)[0]
        return tags + self.common("ENDBLK", Look("0"), "AcDbBlockEnd")

    def insert(self, item: Insert) -> tuple[list[Tag], list[Tag]]:
        tags = [*self.common("INSERT", item.look, "AcDbBlockReference"), (2, item.name), *self.at(item.at)]
        tags += [(41, repr(item.size[0])), (42, repr(item.size[1])), (50, self.style.number(item.turned % 360))]
        return tags, self.block(item.name, item.items)


def spline_points(item: Spline, steps: int = 4) -> list[tuple[float, float]]:
    """Points along a spline, so many in each of its spans; evaluated by scipy."""
    spans = sorted(set(item.knots))
    places = [low + (high - low) * k / steps for low, high in itertools.pairwise(spans) for k in range(steps)]
    weights = item.weights or (1.0,) * len(item.poles)
    poles = [(x * w, y * w, w) for (x, y), w in zip(item.poles, weights, strict=True)]
    curve = BSpline(item.knots, poles, item.degree)([*places, spans[-1]])
    return [(float(x / w), float(y / w)) for x, y, w in curve]


def dimension_strokes(item: Dim) -> Iterator[Ink]:
    """What a dimension looks like: extension lines, the dimension line, its arrows as short strokes, its text."""
    c, s = math.cos(math.radians(item.angle)), math.sin(math.radians(item.angle))
    feet = []
    for p in (item.a, item.b):
        along = (p[0] - item.at[0]) * c + (p[1] - item.at[1]) * s
        feet.append((item.at[0] + along * c, item.at[1] + along * s))
        yield Line(p, feet[-1], replace(item.look, linetype=""))
    yield Line(feet[0], feet[1], item.look)
    size = max(0.2, math.dist(*feet) * 0.03)
    for foot, sign in zip(feet, (1, -1), strict=True):
        for lean in (0.3, -0.3):
            tip = (foot[0] + sign * size * (c - lean * s), foot[1] + sign * size * (s + lean * c))
            yield Line(foot, tip, item.look)
    shown = f"{math.dist(*feet):g}"
    text = item.text.replace("<>", shown) if item.text else shown
    yield Note(text, ((feet[0][0] + feet[1][0]) / 2, (feet[0][1] + feet[1][1]) / 2), look=item.look)
