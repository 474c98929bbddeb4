"""What stands on the layouts around a part drawn in model space: dimensions seen through windows, title-block texts.

Rules: a dimension on a layout is brought to model space through the window (VIEWPORT) that holds both its ends; the
size that it measures is the model's. Windows that look on at a slant, show nothing or are the sheet itself don't count.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import field, replace
from typing import Any

from ezdxf.layouts.layout import Layout
from ezdxf.math import Matrix44, Vec3

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point
from extractor.opening.collect import ENTITY_FAULTS, Collected, collect
from extractor.opening.dimension_entities import other_number
from extractor.opening.entities import flat
from extractor.opening.expand import MOST_ENTITIES, Walk
from extractor.opening.texts import clean
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.values import dataclass

THE_SHEET = 1
"""Number of the window that is the layout itself."""
GREATEST_SCALE = 1e6
"""A window that enlarges or shrinks more shows nothing: its view was never set."""


UNSAID = (1.0, 100.0, 1000.0)
"""Display factors that nobody chose: none, and those of libraries' default styles."""


@dataclass(frozen=True)
class LayoutWindow:
    """A window of a layout: its corners on paper, the way from paper to model space, paper per model length, twist."""

    low: Point
    high: Point
    to_model: Matrix44
    scale: float
    twist: float

    def holds(self, point: Point) -> bool:
        """True if a point on paper lies in the window."""
        return all(a <= v <= b for a, v, b in zip(self.low, point, self.high, strict=True))

    def through(self, dimension: Dimension) -> Dimension:
        """The dimension as it lies in model space; where its picture shows the size on paper, that is what it says."""
        points = tuple(flat(self.to_model.transform(Vec3(p))) for p in dimension.points)
        angle, measured = dimension.angle, dimension.measured
        if dimension.kind is not DimensionKind.ANGULAR:
            angle, measured = (angle - self.twist) % 180, measured / self.scale
        factor, text = self._factor(dimension.factor), dimension.text
        if (text is None or "<>" in text) and dimension.kind is not DimensionKind.ANGULAR:
            text = other_number(dimension.shown, measured * factor) or text
        return replace(dimension, points=points, angle=angle, measured=measured, factor=factor, text=text)

    def _factor(self, factor: float) -> float:
        """The display factor over the model's size; where paper gives none, the model's own size is shown."""
        return factor if factor in UNSAID else factor * self.scale


@dataclass
class Around:
    """What layouts add to model space, with the `scales` of their windows.

    `unplaced` counts dimensions that no window holds, `dense` names layouts.
    """

    dimensions: list[Dimension] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    scales: list[float] = field(default_factory=list)
    unplaced: int = 0
    dense: list[str] = field(default_factory=list)


def around(
    layouts: Sequence[Layout], walk: Walk, loose: Callable[[Collected], Sequence[Dimension] | None]
) -> tuple[Around, tuple[Finding, ...]]:
    """Dimensions and texts of the layouts, with a caution where dimensions could not be brought to model space.

    `loose` finds those that were exploded, and gives None where too much lies there to find any.
    """
    found = Around()
    for layout in layouts:
        if walk.weight(layout) > MOST_ENTITIES:
            continue
        paper = collect(walk.drawn(layout))
        windows = [w for entity in layout if entity.dxftype() == "VIEWPORT" and (w := _window(entity)) is not None]
        found.texts += paper.texts
        found.scales += [window.scale for window in windows]
        whole = (d for d in paper.dimensions if d.kind is not DimensionKind.LEADER)
        pieces = loose(paper) if windows else ()
        found.dense += [clean(layout.name)] if pieces is None else []
        for dimension in (*whole, *(pieces or ())):
            window = next((w for w in windows if all(map(w.holds, dimension.points[:2]))), None)
            if window is None:
                found.unplaced += 1
            else:
                found.dimensions.append(window.through(dimension))
    return found, tuple(_findings(found))


def _findings(found: Around) -> Iterator[Finding]:
    """The cautions for dimensions that stand on paper alone, and for those that could not be looked for."""
    if found.unplaced:
        some = f"{found.unplaced} dimensions stand" if found.unplaced > 1 else "1 dimension stands"
        words = f"{some} on a layout outside every window: compare sizes and tolerances there with what was read."
        yield Finding(Level.CAUTION, DrawingCode.LAYOUT_DIMENSIONS, words)
    for name in found.dense:
        words = (
            f"Too many lines lie across each other on the layout {name} to find dimensions among them: compare sizes "
            "and tolerances there with what was read."
        )
        yield Finding(Level.CAUTION, DrawingCode.LAYOUT_DIMENSIONS, words)


def _window(entity: Any) -> LayoutWindow | None:
    """The window an entity is, None where nothing of the plane can be seen through it."""
    try:
        scale = float(entity.get_scale())
        if (
            int(entity.dxf.get("id", 2)) == THE_SHEET
            or not entity.is_top_view
            or not 1 / GREATEST_SCALE < scale < GREATEST_SCALE
        ):
            return None
        low, high = entity.clipping_rect()
        matrix = entity.get_transformation_matrix()
        matrix.inverse()
        twist = float(entity.dxf.get("view_twist_angle", 0.0))
    except (*ENTITY_FAULTS, ZeroDivisionError):
        return None
    if not all(map(math.isfinite, (*low, *high, twist))):
        return None
    return LayoutWindow(flat(Vec3(low)), flat(Vec3(high)), matrix, scale, twist)
