"""Dimensions on a part, said in the part's own z and radius, wherever and however turned the part lies on the sheet.

tied(part, along(-10, -13, "3 H13"))     -> the part with tolerances, and the findings
"""

import math
from dataclasses import replace

from extractor.finding import Finding
from extractor.part import Frame, Part
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from support.parts import part_of
from support.weighing import NO_SEGMENTS

HERE = Frame((100.0, 50.0), (1.0, 0.0), (0.0, 1.0))


def frame(turn: float = 0.0, *, mirrored: bool = False, scale: float = 1.0) -> Frame:
    """A frame turned by degrees, its radius on the other side if mirrored."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    side = -1.0 if mirrored else 1.0
    return Frame((100.0, 50.0), (c, s), (-s * side, c * side), scale)


def bar(*spots, at: Frame = HERE, **fields) -> Part:
    """A bar 40 x 60 with grooves, lying on the sheet."""
    return replace(part_of(spots or [(-10, -13, 34), (-20, -23, 34), (-40, -46, 30)], **fields), frame=at)


def span(a, b, text=None, at: Frame = HERE, kind=DimensionKind.LINEAR, **fields) -> Dimension:
    """A dimension between two places (z, radius), measuring along the line between them."""
    p, q = at.on_sheet(*a), at.on_sheet(*b)
    angle = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0]))
    return Dimension(kind, (p, q), angle, math.dist(p, q), text, **fields)


def along(z1, z2, text=None, at: Frame = HERE, r=20.0, **fields) -> Dimension:
    """A dimension along the axis."""
    return span((z1, r), (z2, r), text, at, **fields)


def across(diameter, text=None, at: Frame = HERE, z=-13.0, **fields) -> Dimension:
    """A dimension over a full diameter at one z."""
    return span((z, diameter / 2), (z, -diameter / 2), text, at, **fields)


def half(diameter, text=None, at: Frame = HERE, z=-13.0, **fields) -> Dimension:
    """A dimension from the axis to half a diameter."""
    return span((z, 0.0), (z, diameter / 2), text, at, **fields)


def tied(part: Part, *dimensions: Dimension, notes=()) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the tolerances of these dimensions, and the findings."""
    texts = tuple(Text(note, (0, 0), 2.5) for note in notes)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=dimensions, texts=texts)
    return tie_dimensions(sheet, part)


def tolerances(part: Part, *dimensions: Dimension, notes=()) -> list[dict]:
    """The tolerances of every groove, after checking that nothing was contradicted."""
    read, findings = tied(part, *dimensions, notes=notes)
    assert not [f for f in findings if f.stops], findings
    return [dict(g.tolerances) for g in read.grooves]
