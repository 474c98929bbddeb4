"""Sorts what a walk over the sheet yields: strokes, dimensions, texts, and kinds that are of no use to an outline."""

import contextlib
import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from operator import attrgetter
from typing import Any

from ezdxf.lldxf.const import DXFError
from ezdxf.math import X_AXIS, Vec3

from extractor.finding import Point
from extractor.opening.dimension_entities import dimension_of, label_of
from extractor.opening.entities import BODY_KINDS, UNREADABLE_KINDS, drawn_width, flat, strokes_of, tilted
from extractor.opening.expand import Drawn
from extractor.opening.hatches import hatch_lean, hatch_strokes, is_triangle
from extractor.opening.leaders import Leader, leader_dimensions, leader_of, multileader
from extractor.opening.splines import Stroke
from extractor.opening.stacked import with_deviations
from extractor.opening.texts import plain_line, plain_paragraphs
from extractor.sheet import LETTER, Box, Dimension, Source, Text

FARTHEST = 1e9
"""Coordinates beyond this are damage, not drawing."""
ENTITY_FAULTS = (DXFError, ValueError, TypeError, LookupError, AttributeError, ArithmeticError, AssertionError)
"""What a damaged entity raises when it is asked for its geometry."""


@dataclass
class Collected:
    """All that was found on one layout; `bodies` and `broken` count kinds left out, `tilted` lines out of the plane.

    `around` holds the texts of other layouts, `windows` the scales of what these show, `damaged` the places of what is
    in `broken`, where they are known, `arrays` the boxes of those that were left out, `labels` the only text in the
    picture of a dimension, by its number, `unseen` and `masks` what a sheet has of them.
    """

    strokes: list[tuple[Stroke, Source]] = field(default_factory=list)
    dimensions: list[Dimension] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    around: list[Text] = field(default_factory=list)
    windows: list[float] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)
    tilted: int = 0
    bodies: Counter[str] = field(default_factory=Counter)
    broken: Counter[str] = field(default_factory=Counter)
    damaged: dict[str, Point] = field(default_factory=dict)
    unreadable: Counter[str] = field(default_factory=Counter)
    arrays: tuple[Box, ...] = ()
    labels: dict[int, Text] = field(default_factory=dict)
    unseen: tuple[tuple[float, float, float, float], ...] = ()
    masks: list[tuple[Point, ...]] = field(default_factory=list)


def collect(drawn: Iterable[Drawn]) -> Collected:
    """Strokes, dimensions and texts of everything drawn."""
    found = Collected()
    for item in drawn:
        kind = item.entity.dxftype()
        try:
            _sort(item, kind, found)
        except ENTITY_FAULTS:
            found.broken[kind] += 1
            place = _place(item)
            if place is not None:
                found.damaged.setdefault(kind, place)
    # Ink drawn twice counts once, as with lines.
    once = [*{_said(t): t for t in reversed(found.texts)}.values()][::-1]
    found.texts, labels = with_deviations(once, list(found.labels.values()))
    for (k, label), whole in zip(found.labels.items(), labels, strict=True):
        d, behind = found.dimensions[k], whole.text[len(label.text) :]
        found.dimensions[k] = replace(d, text=f"{d.text or '<>'}{behind}", shown=d.shown + behind) if behind else d
    found.dimensions += leader_dimensions(found.leaders, found.texts)
    found.dimensions = [*{_shown(d): d for d in reversed(found.dimensions)}.values()][::-1]
    return found


_said = attrgetter("text", "at", "height", "layer", "angle")
"""All of a text but its handle."""

_shown = attrgetter("kind", "points", "angle", "measured", "text", "factor", "deviations", "decimals", "at")
"""All of a dimension but its handle."""


def _sort(item: Drawn, kind: str, found: Collected) -> None:
    if kind in BODY_KINDS or (kind == "POLYLINE" and item.entity.get_mode() in MESHES):
        found.bodies[kind] += 1
    elif kind == "DIMENSION":
        dimension = dimension_of(item.entity, item.matrix, item.source.handle)
        if dimension is not None:
            found.dimensions.append(dimension)
            label = label_of(item.entity) if dimension.shown and dimension.deviations is None else None
            if label is not None:
                found.labels[len(found.dimensions) - 1] = _text(item._replace(entity=label), label.dxftype())
    elif kind in ("TEXT", "ATTRIB", "MTEXT") or _is_constant(item, kind):
        found.texts.append(_text(item, kind))
    elif kind == "LEADER":
        leader = leader_of(item.entity, item.matrix, item.source.handle)
        found.leaders += [leader] if leader is not None else []
    elif kind in ("MULTILEADER", "MLEADER"):
        found.dimensions += multileader(item.entity, item.matrix, item.source.handle)
    elif kind in ("HATCH", "MPOLYGON"):
        filled = bool(vars(item.entity.dxf).get("solid_fill", 0))
        source = item.source._replace(owner="HATCH", lean=hatch_lean(item.entity, item.matrix), filled=filled)
        strokes = hatch_strokes(item.entity, item.matrix)
        # A filled triangle is one whatever fills it: the head of an arrow, as a rule.
        source = item.source if filled and is_triangle(strokes) else source
        found.strokes += [(stroke, source) for stroke in strokes]
    elif kind == "WIPEOUT":
        found.masks.append(tuple(map(flat, item.matrix.transform_vertices(item.entity.boundary_path_wcs()))))
    elif kind in UNREADABLE_KINDS:
        found.unreadable[kind] += 1
    else:
        found.tilted += tilted(item.entity, item.matrix)
        wide = drawn_width(item.entity, item.matrix)
        source = item.source._replace(width=wide) if wide else item.source
        found.strokes += [(stroke, source) for stroke in strokes_of(item.entity, item.matrix)]


def _is_constant(item: Drawn, kind: str) -> bool:
    """True for an attribute with one value for all references of its block, which the block itself shows."""
    return kind == "ATTDEF" and bool(item.source.owner and item.entity.is_const and not item.entity.is_invisible)


PLACES = ("start", "center", "end", "insert", "location", "defpoint")
"""Attributes that say where an entity lies, best first."""


def _place(item: Drawn) -> Point | None:
    """Where a damaged entity lies, as far as its numbers say."""
    for name in PLACES:
        with contextlib.suppress(*ENTITY_FAULTS):
            if item.entity.dxf.hasattr(name):
                x, y = flat(item.matrix.transform(Vec3(item.entity.dxf.get(name))))
                if math.isfinite(x) and math.isfinite(y) and max(abs(x), abs(y)) <= FARTHEST:
                    return x, y
    return None


def _text(item: Drawn, kind: str) -> Text:
    """A note with the place where its first line begins; the height follows the block's scale."""
    own, long = vars(item.entity.dxf), kind == "MTEXT"
    body = plain_paragraphs(item.entity.text) if long else plain_line(str(own.get("text", "")))
    height = float(own.get("char_height" if long else "height", 0.0))
    tall = item.matrix.transform_direction(Vec3(0, height, 0)).magnitude
    width = LETTER * height * max(map(len, body.split("\n")))
    place, share = _anchor(own, long)
    up = _over_anchor(own, body.count("\n"), long=long) * height
    turn = item.entity.get_rotation() if long else own.get("rotation", 0.0)
    direction = Vec3(1, 0).rotate(math.radians(float(turn))) if turn else X_AXIS
    line = item.matrix.transform_direction(direction)
    at = flat(item.matrix.transform(place - direction * (share * width) + direction.orthogonal() * up))
    if not all(map(math.isfinite, at)):
        raise ValueError("a text without a place")
    angle = math.degrees(math.atan2(line.y, line.x)) + 0.0
    tag = str(own.get("tag", "")) if kind == "ATTRIB" else ""
    return Text(body, at, tall, item.source.layer, item.source.handle, angle, tag)


def _anchor(own: Mapping[str, Any], long: bool) -> tuple[Vec3, float]:
    """The point a text hangs on and the share of its width left of it; justified texts hang on their second point."""
    insert = Vec3(own.get("insert", (0, 0, 0)))
    if long:
        return insert, ((int(own.get("attachment_point", 1)) - 1) % 3) / 2
    across = int(own.get("halign", 0))
    justified = across or int(own.get("valign", 0))
    if not justified or across in FITTED or "align_point" not in own:
        return insert, 0.0
    return Vec3(own["align_point"]), {2: 1.0, 1: 0.5, 4: 0.5}.get(across, 0.0)


def _over_anchor(own: Mapping[str, Any], more: int, *, long: bool) -> float:
    """How far the first line stands over the point that a text hangs on, in letter heights; `more` lines follow it."""
    if long:
        below = more * LEADING
        return (-1.0, (below - 1.0) / 2, below)[(int(own.get("attachment_point", 1)) - 1) // 3 % 3]
    if "align_point" not in own or int(own.get("halign", 0)) in FITTED:
        return 0.0
    middle = int(own.get("halign", 0)) == MIDDLE
    return {3: -1.0, 2: -0.5}.get(int(own.get("valign", 0)), -0.5 if middle else 0.0)


MESHES = frozenset({"AcDbPolygonMesh", "AcDbPolyFaceMesh"})
"""Old polylines that are bodies."""
LEADING = 5 / 3
"""Letter heights from one line of a paragraph to the next (DXF reference, MTEXT: single spacing)."""
MIDDLE = 4
"""Horizontal justification of a text about its own middle (group 72)."""
FITTED = frozenset({3, 5})
"""Horizontal justifications that stretch a text between both its points (group 72)."""
