"""Other views of the part that was read: at which scale each is drawn, and what is measured there.

Views of one part are as large as one another, or one is drawn larger by a scale that its heading or its sizes tell
(ISO 5455, from memory: another scale than the sheet's stands at the view). What is printed at any of them holds for the
part.
"""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from extractor.finding import Point
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.sizing.notes.led_words import led_texts
from extractor.sizing.scale.sheet_scale import drawn_scale
from extractor.values import dataclass
from extractor.viewing.alike import ONE_SIZE
from extractor.viewing.axis import Axis
from extractor.viewing.views import View

IN_VIEW = 0.02
"""Share of a view by which a place may miss it and is still its own."""

BESIDE = 0.1
"""The same for both ends of a dimension in pieces: extension lines begin a gap beside the view (ISO 129-1)."""

NUMBER = r"([1-9]\d*(?:[.,]\d+)?)"
RATIO = re.compile(rf"(?<![\d:.,])(?:{NUMBER}\s*:\s*1|1\s*:\s*{NUMBER})(?![\d:.,])")
"""A scale as it is printed (ISO 5455, from memory: n:1 or 1:n)."""


@dataclass(frozen=True)
class Twin:
    """Another view of the part, as laid.

    `axis` points to its front, `front` is the front face along it; it is drawn `times` as large as the view that was
    read.
    """

    view: View
    axis: Axis
    front: float
    times: float = 1.0

    def owns(self, dimension: Dimension) -> bool:
        """True if a dimension measures something in this view."""
        if dimension.kind is DimensionKind.LEADER:
            return self.view.covers(dimension.points[0], IN_VIEW * self.view.size)
        return bool(dimensions_at([dimension], self.view))

    def brought(self, dimension: Dimension, axis: Axis, front: float) -> Dimension:
        """A dimension of this view as it would stand at the one that was read, laid along `axis` from `front`."""
        places = (self.axis.fold(np.array(dimension.points)) - (self.front, 0.0)) / self.times
        (ux, uy), (vx, vy) = self.axis.direction, axis.direction
        turn = math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))
        return replace(
            dimension,
            points=tuple(axis.unfold(front + z, r) for z, r in places.tolist()),
            angle=dimension.angle + turn,
            measured=dimension.measured / (1.0 if dimension.kind is DimensionKind.ANGULAR else self.times),
            factor=dimension.factor * self.times,
        )


def dimensions_at(dimensions: Iterable[Dimension], view: View) -> tuple[Dimension, ...]:
    """The dimensions that measure something in a view: one place of them lies in it, or both ends just beside it."""
    near, beside = IN_VIEW * view.size, BESIDE * view.size
    return tuple(
        d
        for d in dimensions
        if d.points
        and (any(view.covers(p, near) for p in d.points) or all(view.covers(p, beside) for p in d.points[:2]))
    )


def times_as_large(one: View, two: View) -> float:
    """How many times as large the second view is drawn; 1.0 for views as long as one another, and for unlike ones.

    A scrap of strokes may have no length along its axis.
    """
    if one.high <= one.low:
        return 1.0
    times = (two.high - two.low) / (one.high - one.low)
    alike = abs(times * one.reach - two.reach) <= ONE_SIZE * two.size
    return times if alike and not one.as_long(two) else 1.0


def scale_of(sheet: Sheet, view: View, other: View) -> float:
    """The drawn length of one true unit in a view, as its sizes have it, or else the heading that stands nearest."""
    sized = drawn_scale(sheet, dimensions_at(sheet.dimensions, view), 2 * view.reach)[0]
    return sized if sized != 1.0 else heading(sheet, view, other) or 1.0


def times_said(sheet: Sheet, one: View, two: View) -> float:
    """How many times as large the sheet says that the second view is; 1.0 where it is not drawn like the first."""
    return scale_of(sheet, two, one) / scale_of(sheet, one, two) if times_as_large(one, two) != 1.0 else 1.0


def heading(sheet: Sheet, view: View, other: View) -> float | None:
    """The scale printed nearer to one view than to the other, None where none is or several are."""
    found = {
        match.group(0): match
        for text in sheet.texts
        if (match := RATIO.search(text.text)) and _away(view, text.at) < _away(other, text.at)
    }
    if len(found) != 1:
        return None
    larger, smaller = next(iter(found.values())).groups()
    number = float((larger or smaller).replace(",", "."))
    return number if larger else 1 / number


def _away(view: View, at: Point) -> float:
    """How far a place lies from a view's box."""
    corners = np.array(view.corners())
    low, high = corners.min(axis=0), corners.max(axis=0)
    return float(np.hypot(*np.maximum(0.0, np.maximum(low - at, np.array(at) - high))))


def heard_at_all(sheet: Sheet, axis: Axis, front: float, twins: Sequence[Twin]) -> Sheet:
    """The sheet with what is printed at other views of the part as it would stand at the view that was read.

    Those are dimensions, and notes and sizes led there by loose lines, each as the leader that it is.
    """
    if not twins:
        return sheet
    led = [(text, leader) for text, leader in led_texts(sheet) if any(twin.owns(leader) for twin in twins)]
    dimensions = list[Dimension]()
    for d in (*sheet.dimensions, *(leader for _, leader in led)):
        twin = next((t for t in twins if d.points and t.owns(d)), None)
        dimensions.append(d if twin is None else twin.brought(d, axis, front))
    known = [text for text, _ in led]
    texts = tuple(text for text in sheet.texts if text not in known)
    return replace(sheet, dimensions=tuple(dimensions), texts=texts)
