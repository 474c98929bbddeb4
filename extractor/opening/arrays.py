"""Arrays with more lines than are read are set aside before they are expanded, each with the box that it covers.

Rules: only a reference that shows its block a hundred times or more is one, since no view is drawn so often, or one to
a block of nothing but such, and only where the rest of the sheet can be read. What stands in its box is not known, so
a part there is not read either.
"""

from collections.abc import Iterable
from typing import Any

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.opening.collect import FARTHEST, collect
from extractor.opening.expand import DEEPEST, MOST_ENTITIES, Walk
from extractor.opening.patterns import box
from extractor.opening.segments import reach
from extractor.sheet import Box

MANY_COPIES = 100
"""Copies from which on a reference is an array that no view is drawn with."""


def without_arrays(layout: Iterable[Any], walk: Walk) -> tuple[list[Any], tuple[Box, ...]]:
    """What is left of a layout without such arrays, and the box of each; all of it where the rest is too much too."""
    entities = list(layout)
    known: dict[str, bool] = {}
    arrays = [e for e in entities if _repeats(e, walk, known) and walk.weight([e]) > MOST_ENTITIES]
    gone = set(map(id, arrays))
    rest = [e for e in entities if id(e) not in gone]
    corners = Walk(walk.doc, corners=True)
    if not rest or walk.weight(rest) + corners.weight(arrays) > MOST_ENTITIES:
        return entities, ()
    return rest, tuple(found for array in arrays if (found := _box(corners, array)) is not None)


def _repeats(entity: Any, walk: Walk, known: dict[str, bool], deep: int = DEEPEST) -> bool:
    """True for a reference that shows its block so often, or whose block holds nothing but such references."""
    if entity.dxftype() != "INSERT" or not deep:
        return False
    name = str(entity.dxf.get("name", "")).lower()
    if name not in known:
        known[name] = False  # a block inside itself is none
        block = walk.doc.blocks.get(name)
        known[name] = block is not None and len(block) > 0 and all(_repeats(e, walk, known, deep - 1) for e in block)
    return known[name] or bool(entity.mcount >= MANY_COPIES)


def _box(corners: Walk, array: Any) -> Box | None:
    """The box of what an array shows, None where that is nothing."""
    boxes = [box(stroke) for stroke, _ in collect(corners.drawn([array])).strokes if reach(stroke) <= FARTHEST]
    if not boxes:
        return None
    low, high = np.array(boxes)[:, :2].min(axis=0), np.array(boxes)[:, 2:].max(axis=0)
    return (*low.tolist(), *high.tolist())


def told(boxes: Iterable[Box]) -> Iterable[Finding]:
    """The caution for each array that was set aside."""
    for x0, y0, x1, y1 in boxes:
        at: Point = (x0 + x1) / 2, (y0 + y1) / 2
        words = (
            f"An array of references at {place_words(at)} comes to over {MOST_ENTITIES:,} lines and was left out: its "
            f"box of {x1 - x0:.4g} by {y1 - y0:.4g} was not read."
        )
        yield Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words, at)
