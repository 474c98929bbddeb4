"""Walks a layout and the blocks it refers to, and hands out each entity with its way to the sheet.

Rules: what is invisible or not plotted is left out and counted by cause; block references are resolved here and only
here; entities are counted before anything is expanded, so that blocks which multiply each other cost nothing.
"""

import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import field
from typing import Any, NamedTuple

from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.math import Matrix44, Vec3

from extractor.opening.line_rows import LineRow, count_of
from extractor.opening.linetypes import pen_of, role_of_layer
from extractor.opening.texts import clean
from extractor.sheet import INCHES, Pen, Source
from extractor.values import dataclass

MOST_ENTITIES = 100_000
"""Lines, vertices and curve points of one sheet at most; real sheets reach 20,000 where letters became strokes."""
MOST_UNSEEN = 2000
"""So many lines that are not shown are looked at: more are another drawing under this one."""
CORNERS = 4
"""Of an array."""
DEEPEST = 40
"""Blocks inside blocks at most."""
DIMENSION_BLOCK = re.compile(r"\*D\d+", re.I)
"""Blocks that hold a dimension's lines; exploded by some writers to a reference."""
NEVER_PLOTS = "defpoints"
WEIGHTS = {False: 100.0, True: 2540.0}
"""Lineweights to a drawing unit, in a file of millimetres and in one of inches (DXF reference, from memory)."""
BY_LAYER, BY_BLOCK = -1, -2
"""Lineweights that stand for those of the layer, and of the reference; a smaller one for the plotter's own."""
OVERLAY_PREFIX = "RILLWRIGHT-"
"""Layers that an overlay of ours adds; never part of a drawing."""


class Drawn(NamedTuple):
    """An entity, the matrix from its own coordinates to the sheet, and where it came from."""

    entity: Any
    matrix: Matrix44
    source: Source


@dataclass(frozen=True)
class Context:
    """What an entity inherits from the block references around it."""

    matrix: Matrix44
    layer: str = ""
    pen: Pen = Pen.SOLID
    owner: str = ""
    width: float = 0.0
    handle: str = ""
    trail: tuple[str, ...] = ()


@dataclass
class Walk:
    """One walk over a document; `skipped` counts what was left out, by cause and name.

    `unseen` are the ends of lines on layers that are off or frozen, of model space as long as that alone was walked.
    `corners`: of an array only the copies at its corners are seen, which is enough to know how far it reaches.
    """

    doc: Drawing
    corners: bool = False
    skipped: Counter[tuple[str, str]] = field(default_factory=Counter)
    unseen: list[tuple[float, float, float, float]] = field(default_factory=list)
    _weights: dict[str, int] = field(default_factory=dict)
    _layers: dict[str, tuple[str, str, Pen, float, str]] = field(default_factory=dict)
    _pens: dict[str, Pen] = field(default_factory=dict)

    def drawn(self, layout: Iterable[DXFEntity]) -> Iterator[Drawn]:
        """Every visible entity of a layout, blocks resolved."""
        return self._walk(layout, Context(Matrix44()))

    def weight(self, entities: Iterable[DXFEntity], trail: tuple[str, ...] = ()) -> int:
        """Number of entities, vertices and curve points after expansion; over the limit where blocks go too deep."""
        return sum(self._weight_of(entity, trail) for entity in entities)

    def _weight_of(self, entity: Any, trail: tuple[str, ...]) -> int:
        kind = entity.dxftype()
        if kind == "INSERT":
            name = str(entity.dxf.get("name", "")).lower()
            copies = max(1, int(entity.mcount))
            if self.corners:
                copies = min(copies, CORNERS)
            return copies * (1 + self._block_weight(name, trail))
        if kind == "LWPOLYLINE":
            return int(max(1, len(entity)))
        if kind == "POLYLINE":
            return max(1, len(entity.vertices))
        if kind == "LINE":
            return count_of(entity)
        if kind == "HATCH":
            return 1 + sum(len(path.vertices if hasattr(path, "vertices") else path.edges) for path in entity.paths)
        if kind == "SPLINE":
            return max(1, int(entity.control_point_count() + entity.fit_point_count()))
        return 1

    def _block_weight(self, name: str, trail: tuple[str, ...]) -> int:
        if name in self._weights:
            return self._weights[name]
        if name in trail or len(trail) > DEEPEST:
            return 0 if name in trail else MOST_ENTITIES + 1
        block = self.doc.blocks.get(name)
        self._weights[name] = weight = 0 if block is None else self.weight(block, (*trail, name))
        return weight

    def _walk(self, entities: Iterable[DXFEntity], context: Context) -> Iterator[Drawn]:
        for entity in entities:
            if isinstance(entity, LineRow) and context.trail:
                yield from self._walk(entity.lines(), context)
                continue
            layer = effective_layer(entity, context)
            source = self._source(entity, layer, context)
            if self._hidden(entity, layer, source):
                self._keep(entity, layer, context.matrix)
                continue
            if entity.dxftype() == "INSERT":
                yield from self._insert(entity, source, context)
            elif entity.dxftype() == "ACAD_TABLE":
                yield from self._table(entity, source, context)
            else:
                yield Drawn(entity, context.matrix, source)

    def _insert(self, insert: Any, source: Source, context: Context) -> Iterator[Drawn]:
        """What a block reference shows: its attributes and, for each copy of an array, the block."""
        for attribute in insert.attribs:
            if not attribute.is_invisible:
                yield Drawn(attribute, context.matrix, source._replace(kind="ATTRIB"))
        name = str(insert.dxf.get("name", ""))
        block = self.doc.blocks.get(name)
        if block is None or name.lower() in context.trail or len(context.trail) > DEEPEST:
            self.skipped["block" if block is None else "cycle", clean(name)] += 1
            return
        if block.block_record.is_xref:
            self.skipped["xref", clean(name)] += 1
        array = _corners_of(insert) if self.corners else insert
        for copy in array.multi_insert() if insert.mcount > 1 else (insert,):
            inner = Context(
                matrix=copy.matrix44() * context.matrix,
                layer=effective_layer(insert, context),
                pen=source.pen,
                width=source.width,
                owner=context.owner or ("DIMENSION" if DIMENSION_BLOCK.fullmatch(name) else "INSERT"),
                handle=source.handle,
                trail=(*context.trail, name.lower()),
            )
            yield from self._walk(block, inner)

    def _table(self, table: Any, source: Source, context: Context) -> Iterator[Drawn]:
        """A table shows a block of its own, set down at its insertion point."""
        name = str(table.dxf.get("geometry", ""))
        block = self.doc.blocks.get(name)
        if (
            block is not None
            and name.lower() not in context.trail
            and self._block_weight(name.lower(), ()) < MOST_ENTITIES
        ):
            at = Matrix44.translate(*Vec3(table.dxf.get("insert", (0, 0, 0))))
            trail = (*context.trail, name.lower())
            inner = Context(at * context.matrix, source.layer, source.pen, "TABLE", source.width, source.handle, trail)
            yield from self._walk(block, inner)

    def _source(self, entity: Any, layer: str, context: Context) -> Source:
        _, role, layer_pen, layer_width, name = self._layer(layer)
        linetype = attribute(entity, "linetype", "BYLAYER")
        pen = {"bylayer": layer_pen, "byblock": context.pen}.get(linetype.lower())
        weight = int(vars(entity.dxf).get("lineweight", BY_LAYER))
        width = {BY_LAYER: layer_width, BY_BLOCK: context.width}.get(weight)
        return Source(
            handle=context.handle or str(entity.dxf.handle or ""),
            kind=entity.dxftype(),
            layer=name,
            pen=self.pen(linetype) if pen is None else pen,
            owner=context.owner,
            role=role,
            width=self._width(weight) if width is None else width,
        )

    def _hidden(self, entity: Any, layer: str, source: Source) -> bool:
        """True if the entity is not to be seen; a block on a layer switched off still shows what lies on others."""
        state = self._layer(layer)[0]
        if attribute(entity, "invisible", "0") not in ("0", ""):
            self.skipped["invisible", "entity"] += count_of(entity)
            return True
        if state and not (entity.dxftype() == "INSERT" and state != "frozen"):
            self.skipped[state, source.layer] += count_of(entity)
            return True
        return False

    def _keep(self, entity: Any, layer: str, matrix: Matrix44) -> None:
        """Keep the ends of the lines of an entity on a layer that is off or frozen, as long as they are few."""
        if self._layer(layer)[0] not in ("off", "frozen") or len(self.unseen) + count_of(entity) > MOST_UNSEEN:
            return
        for line in entity.lines() if isinstance(entity, LineRow) else [entity] * (entity.dxftype() == "LINE"):
            (ax, ay, _), (bx, by, _) = matrix.transform_vertices((line.dxf.start, line.dxf.end))
            self.unseen += [(ax, ay, bx, by)] if all(map(math.isfinite, (ax, ay, bx, by))) else []

    def _width(self, weight: int) -> float:
        """A lineweight, hundredths of a millimetre, in drawing units; 0.0 for one that is left to the plotter."""
        return max(weight, 0) / WEIGHTS[self.doc.header.get("$INSUNITS") == INCHES]

    def _layer(self, name: str) -> tuple[str, str, Pen, float, str]:
        """State ("" where it shows), role, pen and width of a layer, and its name as it is shown."""
        if name not in self._layers:
            self._layers[name] = (*self._look_up_layer(name), clean(name))
        return self._layers[name]

    def _look_up_layer(self, name: str) -> tuple[str, str, Pen, float]:
        role = role_of_layer(name)
        state = "non-plotting" if name.lower() == NEVER_PLOTS or name.upper().startswith(OVERLAY_PREFIX) else ""
        if name not in self.doc.layers:
            return state, role, Pen.SOLID, 0.0
        layer = self.doc.layers.get(name)
        if layer.is_frozen():
            state = "frozen"
        elif layer.is_off():
            state = "off"
        elif not layer.dxf.get("plot", 1):
            state = "non-plotting"
        width = self._width(int(layer.dxf.get("lineweight", 0)))
        return state, role, self.pen(str(layer.dxf.get("linetype", "Continuous"))), width

    def pen(self, linetype: str) -> Pen:
        """The pen of a named linetype."""
        key = linetype.lower()
        if key not in self._pens:
            elements: list[float] = []
            if linetype in self.doc.linetypes:
                tags = self.doc.linetypes.get(linetype).pattern_tags.tags
                elements = [float(tag.value) for tag in tags if tag.code == 49]
            self._pens[key] = Pen.SOLID if key == "continuous" else pen_of(linetype, elements)
        return self._pens[key]


def _corners_of(insert: Any) -> Any:
    """An array of the same reach that has no copies but those at its corners."""
    array = insert.copy()
    for axis in ("row", "column"):
        count = int(insert.dxf.get(f"{axis}_count", 1))
        if count > 1:
            array.dxf.set(f"{axis}_count", 2)
            array.dxf.set(f"{axis}_spacing", (count - 1) * insert.dxf.get(f"{axis}_spacing", 0.0))
    return array


def attribute(entity: Any, name: str, default: str) -> str:
    """A DXF attribute as text, straight from the entity's own values; some exotic entities have none."""
    value = vars(entity.dxf).get(name)
    return default if value is None else str(value)


def effective_layer(entity: Any, context: Context) -> str:
    """The layer an entity takes its properties from: inside a block, layer 0 stands for the reference's own."""
    layer = attribute(entity, "layer", "0")
    return context.layer if layer == "0" and context.layer else layer
