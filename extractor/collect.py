"""Sorts what a walk over the sheet hands out: strokes, dimensions, texts, and kinds that no outline can use."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from ezdxf.lldxf.const import DXFError
from ezdxf.math import Vec3

from extractor.dimension_entities import dimension_of
from extractor.entities import BODY_KINDS, flat, strokes_of
from extractor.expand import Drawn, attribute
from extractor.sheet import Dimension, Source, Text
from extractor.strokes import Stroke
from extractor.texts import plain_line, plain_paragraphs

ENTITY_FAULTS = (DXFError, ValueError, TypeError, KeyError, IndexError, AttributeError, ArithmeticError, AssertionError)
"""What a damaged entity raises when it is asked for its geometry."""


@dataclass
class Collected:
    """All that was found on one layout; `bodies` and `broken` count kinds left out."""

    strokes: list[tuple[Stroke, Source]] = field(default_factory=list)
    dimensions: list[Dimension] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    bodies: Counter[str] = field(default_factory=Counter)
    broken: Counter[str] = field(default_factory=Counter)


def collect(drawn: Iterable[Drawn]) -> Collected:
    """Strokes, dimensions and texts of everything drawn."""
    found = Collected()
    for item in drawn:
        kind = item.entity.dxftype()
        try:
            _sort(item, kind, found)
        except ENTITY_FAULTS:
            found.broken[kind] += 1
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
    else:
        found.strokes += [(stroke, item.source) for stroke in strokes_of(item.entity, item.matrix)]


def _text(item: Drawn, kind: str) -> Text:
    """A note with its place; the height follows the block's scale."""
    entity = item.entity
    body = plain_paragraphs(entity.text) if kind == "MTEXT" else plain_line(str(entity.dxf.get("text", "")))
    height = float(entity.dxf.get("char_height" if kind == "MTEXT" else "height", 0.0))
    tall = item.matrix.transform_direction(Vec3(0, height, 0)).magnitude
    at = flat(item.matrix.transform(Vec3(entity.dxf.get("insert", (0, 0, 0)))))
    return Text(text=body, at=at, height=tall, layer=item.source.layer, handle=item.source.handle)


def owned(source: Source, owner: str) -> Source:
    """The source as part of a composite."""
    return replace(source, owner=owner)


__all__ = ["Collected", "attribute", "collect", "owned"]
