"""Sorts what a walk over the sheet hands out: strokes, dimensions, texts, and kinds that no outline can use."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from ezdxf.lldxf.const import DXFError
from ezdxf.math import Vec3

from extractor.dimension_entities import dimension_of
from extractor.entities import BODY_KINDS, UNREADABLE_KINDS, flat, strokes_of, tilted
from extractor.expand import Drawn
from extractor.hatches import hatch_strokes
from extractor.leaders import Leader, leader_dimensions, leader_of, multileader
from extractor.sheet import Dimension, Source, Text
from extractor.splines import Stroke
from extractor.texts import plain_line, plain_paragraphs

ENTITY_FAULTS = (DXFError, ValueError, TypeError, LookupError, AttributeError, ArithmeticError, AssertionError)
"""What a damaged entity raises when it is asked for its geometry."""


@dataclass
class Collected:
    """All that was found on one layout; `bodies` and `broken` count kinds left out, `tilted` lines out of the plane."""

    strokes: list[tuple[Stroke, Source]] = field(default_factory=list)
    dimensions: list[Dimension] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)
    tilted: int = 0
    bodies: Counter[str] = field(default_factory=Counter)
    broken: Counter[str] = field(default_factory=Counter)
    unreadable: Counter[str] = field(default_factory=Counter)


def collect(drawn: Iterable[Drawn]) -> Collected:
    """Strokes, dimensions and texts of everything drawn."""
    found = Collected()
    for item in drawn:
        kind = item.entity.dxftype()
        try:
            _sort(item, kind, found)
        except ENTITY_FAULTS:
            found.broken[kind] += 1
    found.dimensions += leader_dimensions(found.leaders, found.texts)
    return found


def _sort(item: Drawn, kind: str, found: Collected) -> None:
    if kind in BODY_KINDS:
        found.bodies[kind] += 1
    elif kind == "DIMENSION":
        dimension = dimension_of(item.entity, item.matrix, item.source.handle)
        if dimension is not None:
            found.dimensions.append(dimension)
    elif kind in ("TEXT", "ATTRIB", "MTEXT"):
        found.texts.append(_text(item, kind))
    elif kind == "LEADER":
        leader = leader_of(item.entity, item.matrix, item.source.handle)
        found.leaders += [leader] if leader is not None else []
    elif kind in ("MULTILEADER", "MLEADER"):
        found.dimensions += multileader(item.entity, item.matrix, item.source.handle)
    elif kind in ("HATCH", "MPOLYGON"):
        source = replace(item.source, owner="HATCH")
        found.strokes += [(stroke, source) for stroke in hatch_strokes(item.entity, item.matrix)]
    elif kind in UNREADABLE_KINDS:
        found.unreadable[kind] += 1
    else:
        found.tilted += tilted(item.entity, item.matrix)
        found.strokes += [(stroke, item.source) for stroke in strokes_of(item.entity, item.matrix)]


def _text(item: Drawn, kind: str) -> Text:
    """A note with its place; the height follows the block's scale."""
    entity = item.entity
    body = plain_paragraphs(entity.text) if kind == "MTEXT" else plain_line(str(entity.dxf.get("text", "")))
    height = float(entity.dxf.get("char_height" if kind == "MTEXT" else "height", 0.0))
    tall = item.matrix.transform_direction(Vec3(0, height, 0)).magnitude
    at = flat(item.matrix.transform(Vec3(entity.dxf.get("insert", (0, 0, 0)))))
    return Text(text=body, at=at, height=tall, layer=item.source.layer, handle=item.source.handle)
