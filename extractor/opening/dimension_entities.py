"""From a DIMENSION or leader entity to a `Dimension`: what it measures, what it prints, what its variables say.

Rules: the size is measured between the definition points, never taken from the drawn text. Overrides of the entity
beat its style. Where nothing is typed, the number in its own picture is what everybody reads: one that is no rounding
of the measured size stands for a text that was typed. DIMTM holds the lower deviation with its sign turned (0.05 means
-0.05); DIMTOL on switches DIMLIM off.
`text` keeps "<>" where the measured size is printed inside other words.
"""

import math
import re
from typing import Any

from ezdxf.lldxf.const import DXFError
from ezdxf.math import OCS, Matrix44, Vec3

from extractor.decimals import half_place, places_of
from extractor.finding import Point
from extractor.grammar import fractions
from extractor.opening.entities import flat
from extractor.opening.texts import plain_paragraphs
from extractor.part import INCH
from extractor.sheet import Dimension, DimensionKind

KINDS = {
    0: DimensionKind.LINEAR,
    1: DimensionKind.ALIGNED,
    2: DimensionKind.ANGULAR,
    3: DimensionKind.DIAMETER,
    4: DimensionKind.RADIUS,
    5: DimensionKind.ANGULAR,
    6: DimensionKind.ORDINATE,
}
POINTS = {
    DimensionKind.LINEAR: ("defpoint2", "defpoint3"),
    DimensionKind.ALIGNED: ("defpoint2", "defpoint3"),
    DimensionKind.DIAMETER: ("defpoint", "defpoint4"),
    DimensionKind.RADIUS: ("defpoint", "defpoint4"),
    DimensionKind.ANGULAR: ("defpoint2", "defpoint3", "defpoint4", "defpoint"),
    DimensionKind.ORDINATE: ("defpoint", "defpoint2"),
}
THREE_POINT = 5
"""The type of an angle with its tip as the third point; of one between two lines there are four (DXF reference)."""
NUMBER = re.compile(r"\d+\.?\d*|\.\d+")
OTHERWISE = re.compile(r"[/'\"\u00b0#]|\[")
"""In the picture of a dimension: fractions, feet, a second unit, which are printed in other ways."""
STACKED = re.compile(r"(?<=\d)\s*[#^]\s*(?=\d+\s*\"?\s*$)")
"""What stands between the figures of a stacked fraction."""
COARSEST = 0.05
"""A printed number is rounded by no more than this."""
DUST = 1e-6
"""Share of a size by which numbers that are the same may differ."""
ORDINATE_IN_X = 64
"""Bit of the dimension type (group 70) set where an ordinate dimension measures x."""


def dimension_of(entity: Any, matrix: Matrix44, handle: str) -> Dimension | None:
    """The dimension an entity shows, None where its points are missing."""
    kind = KINDS.get(int(entity.dxf.get("dimtype", 0)) & 15)
    if kind is None:
        return None
    names = POINTS[kind][:3] if int(entity.dxf.get("dimtype", 0)) & 15 == THREE_POINT else POINTS[kind]
    given = [entity.dxf.get(name) for name in names]
    points = tuple(flat(matrix.transform(Vec3(p))) for p in given if p is not None)
    if len(points) < 2 or not all(map(math.isfinite, (c for p in points for c in p))):
        return None
    angle = _angle(entity, kind, points, matrix)
    style = _Variables(entity)
    measured, text = (
        _measured(kind, points, angle),
        printed_text(str(entity.dxf.get("text", "")), str(style.value("dimpost", ""))),
    )
    label = None if kind is DimensionKind.ANGULAR else label_of(entity)
    shown = "" if label is None else plain_paragraphs(label.text if label.dxftype() == "MTEXT" else str(label.dxf.text))
    if text is None or "<>" in text:
        text = other_number(shown, measured * style.factor()) or text
    return Dimension(
        kind=kind,
        points=points,
        angle=angle,
        measured=measured,
        text=text,
        factor=style.factor(),
        deviations=style.deviations(),
        handle=handle,
        decimals=int(style.number("dimdec", -1)),
        shown=shown,
        base=_base(entity, kind, matrix),
    )


def _base(entity: Any, kind: DimensionKind, matrix: Matrix44) -> Point | None:
    """A point on the line of a linear dimension (group 10, DXF reference), None of any other."""
    at = entity.dxf.get("defpoint") if kind in (DimensionKind.LINEAR, DimensionKind.ALIGNED) else None
    place = None if at is None else flat(matrix.transform(Vec3(at)))
    return place if place is not None and all(map(math.isfinite, place)) else None


def _angle(entity: Any, kind: DimensionKind, points: tuple[Point, ...], matrix: Matrix44) -> float:
    """Direction of measuring on the sheet, degrees."""
    if kind is DimensionKind.ORDINATE:
        along_x = int(entity.dxf.get("dimtype", 0)) & ORDINATE_IN_X
        turn = -math.radians(float(entity.dxf.get("horizontal_direction", 0.0)))
        axis = Vec3(1, 0) if along_x else Vec3(0, 1)
        direction = matrix.transform_direction(axis.rotate(turn))
    elif kind is DimensionKind.LINEAR:
        turn = math.radians(float(entity.dxf.get("angle", 0.0)))
        plane = OCS(entity.dxf.extrusion)
        direction = matrix.transform_direction(plane.to_wcs(Vec3(math.cos(turn), math.sin(turn))))
    else:
        direction = Vec3(points[1]) - Vec3(points[0])
    return math.degrees(math.atan2(direction.y, direction.x)) if direction.magnitude else 0.0


def _measured(kind: DimensionKind, points: tuple[Point, ...], angle: float) -> float:
    """Size between the definition points in drawing units."""
    dx, dy = points[1][0] - points[0][0], points[1][1] - points[0][1]
    if kind in (DimensionKind.LINEAR, DimensionKind.ORDINATE):
        turn = math.radians(angle)
        return abs(dx * math.cos(turn) + dy * math.sin(turn))
    return 0.0 if kind is DimensionKind.ANGULAR else math.hypot(dx, dy)


def label_of(entity: Any) -> Any | None:
    """The only text entity in a dimension's own picture, None where it has none or several."""
    texts = [e for e in entity.get_geometry_block() or () if e.dxftype() in ("TEXT", "MTEXT")]
    return texts[0] if len(texts) == 1 else None


def other_number(shown: str, measured: float) -> str:
    """What a dimension's own picture shows if no number in it is the measured size, rounded as printed."""
    line, fraction = fractions(STACKED.sub("/", shown.replace(",", ".")))
    line = line.replace('"', "") if fraction else line
    numbers = NUMBER.findall(line)
    if not numbers or OTHERWISE.search(line):
        return ""
    # A fraction may be rounded to the next of its style, which is told by nothing in it.
    slack = [COARSEST if fraction else min(half_place(places_of(n)), COARSEST) for n in numbers]
    meant = (measured, measured / INCH) if fraction else (measured,)
    off = min(abs(float(n) - size) - most for n, most in zip(numbers, slack, strict=True) for size in meant)
    return STACKED.sub("/", shown) if off > DUST * max(1.0, measured) else ""


def printed_text(override: str, postfix: str) -> str | None:
    """What a dimension prints, None where it is the measured size alone.

    `postfix`: DIMPOST, words around the measured size ("<>" in it, or a bare suffix).

    >>> printed_text("", ""), printed_text("%%c<> h11", ""), printed_text("", "%%c<>")
    (None, 'Ø<> h11', 'Ø<>')
    """
    body = plain_paragraphs(override) or ("<>" if not override else "")
    around = plain_paragraphs(postfix.replace("[]", ""))
    if around and "<>" in body:
        body = body.replace("<>", around if "<>" in around else f"<>{around}", 1)
    return None if body == "<>" else body


class _Variables:
    """Dimension variables of one entity: its own overrides, then its style."""

    def __init__(self, entity: Any) -> None:
        try:
            self._override = entity.override()
        except (DXFError, AttributeError, KeyError, ValueError, TypeError):
            self._override = None

    def value(self, name: str, default: Any) -> Any:
        """A variable, the default where neither the entity nor the style sets it."""
        try:
            value = self._override.get(name) if self._override is not None else None
        except (DXFError, AttributeError, KeyError, ValueError, TypeError):
            value = None
        return default if value is None else value

    def number(self, name: str, default: float) -> float:
        """A variable that must be a finite number."""
        try:
            value = float(self.value(name, default))
        except (TypeError, ValueError):
            return default
        return value if math.isfinite(value) else default

    def factor(self) -> float:
        """Display factor; a negative one counts in paper space only (DXF reference, DIMLFAC)."""
        factor = self.number("dimlfac", 1.0)
        return factor if factor > 0 else 1.0

    def deviations(self) -> tuple[float, float] | None:
        """Lower and upper deviation, as given, if DIMTOL or DIMLIM is on and either differs from 0."""
        if not (self.number("dimtol", 0) or self.number("dimlim", 0)):
            return None
        upper, lower = self.number("dimtp", 0.0), -self.number("dimtm", 0.0)
        return (lower, upper) if lower or upper else None
