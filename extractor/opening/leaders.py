"""Leaders as dimensions: the arrow's tip, the line behind it and the text it carries.

Rules: a LEADER knows its text by handle, or the text stands within a few letter heights of the line's end; a
MULTILEADER carries its text itself, or the attributes of its block. The tip is the first point.
"""

import math
from collections.abc import Iterable, Sequence
from typing import Any

from ezdxf.math import Matrix44, Vec3

from extractor.finding import Point
from extractor.opening.entities import flat
from extractor.opening.texts import plain_line, plain_paragraphs
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.values import dataclass

REACH = 4.0
"""Letter heights between a leader's end and the text it belongs to, at most."""
LETTER_WIDTH = 0.7
"""Heights that a letter takes along its line, with the gap behind it (about what ISO 3098 gives, from memory)."""


@dataclass(frozen=True)
class Leader:
    """A leader line: its points from the tip on, the handle of its text ("" if unknown), its own handle."""

    points: tuple[Point, ...]
    text_handle: str
    handle: str


def leader_of(entity: Any, matrix: Matrix44, handle: str) -> Leader | None:
    """The line of a LEADER entity, None where it has no length."""
    points = tuple(flat(matrix.transform(Vec3(v))) for v in entity.vertices)
    if len(points) < 2 or not _finite(points):
        return None
    return Leader(points, str(entity.dxf.get("annotation_handle", "") or ""), handle)


def multileader(entity: Any, matrix: Matrix44, handle: str) -> Iterable[Dimension]:
    """One dimension for each arrow of a MULTILEADER with text, or with a block that has attributes."""
    context = entity.context
    if context.mtext is not None:
        text = plain_paragraphs(str(context.mtext.default_content))
    else:
        values = sorted(entity.block_attribs, key=lambda one: int(one.index))
        text = " ".join(plain_line(str(one.text)) for one in values).strip() if context.block is not None else ""
    if not text:
        return
    for leader in context.leaders:
        for line in leader.lines:
            ends = [*line.vertices, leader.last_leader_point]
            points = tuple(flat(matrix.transform(Vec3(v))) for v in ends)
            if len(points) > 1 and _finite(points):
                yield _dimension(points, text, handle)


def _finite(points: Iterable[Point]) -> bool:
    return all(math.isfinite(c) for p in points for c in p)


def _dimension(points: tuple[Point, ...], text: str, handle: str) -> Dimension:
    return Dimension(DimensionKind.LEADER, points, 0.0, 0.0, text, handle=handle)


def leader_dimensions(leaders: Sequence[Leader], texts: Sequence[Text]) -> Iterable[Dimension]:
    """Leaders joined with their texts; one without a text is none."""
    by_handle = {text.handle: text for text in texts}
    for leader in leaders:
        text = by_handle.get(leader.text_handle) or _nearest(leader.points[-1], texts)
        if text is not None:
            yield _dimension(leader.points, text.text, leader.handle)


def _nearest(end: Point, texts: Sequence[Text]) -> Text | None:
    """The text whose line begins or ends nearest to the leader's end, within reach."""
    best = min(((distance(end, text), k) for k, text in enumerate(texts) if text.text), default=None)
    if best is None:
        return None
    text = texts[best[1]]
    return text if best[0] <= REACH * text.height else None


def distance(point: Point, text: Text) -> float:
    """From a point to the middle line of a text set from its insertion point to the right, 0.7 heights a letter."""
    width = LETTER_WIDTH * text.height * max((len(line) for line in text.text.split("\n")), default=0)
    along = min(max(point[0] - text.at[0], 0.0), width)
    return math.hypot(point[0] - text.at[0] - along, point[1] - text.at[1])
