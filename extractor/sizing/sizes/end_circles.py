"""What sizes at the circles of an end view measure: the diameters of the part that these circles are.

Rules: a circle of an end view stands on the axis, clear of the view, and is as large as an edge of the part; what it is
drawn by is what a size at it is held against. A size is at a circle if it runs from side to side of it, from its middle
out, or if a leader's tip lies on it.
"""

import math
from collections.abc import Iterable, Iterator

from extractor.finding import Point
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.sizing.lettering.printed import parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.ties import Tie, tie_by_value
from extractor.sizing.sizes.doubt import drawn_diameters, is_one_of
from extractor.values import dataclass

PICKED = 0.01
"""Share of the part's diameter by which the end of a size, or a leader's tip, may be off its circle."""
OTHER_SIZE = 3.0
"""A diameter led to what is more than so many times as large is of a hole there, or the zone of a tolerance of form."""


@dataclass(frozen=True)
class _Ring:
    """A circle of an end view: middle and radius on the sheet, the diameter of the part that it shows."""

    middle: Point
    radius: float
    across: float

    def off(self, place: Point) -> float:
        """How far a place of the sheet lies off the circle."""
        return abs(math.dist(place, self.middle) - self.radius)


def ties_at_circles(sheet: Sheet, dimensions: Iterable[Dimension], features: Features) -> dict[Dimension, Tie]:
    """The ties of those of some sizes that stand at circles of an end view.

    Not of a size as drawn that a land and a floor have: nobody can say which of them it is about.
    """
    rings = list(_rings(sheet, features))
    found = {}
    for dimension in dimensions if rings else ():
        at = [ring for ring in rings if _stands_at(dimension, ring, features)]
        if not at or not _is_sized(dimension, at[0].across):
            continue
        across = next((r.across for r in at if features.fits(parse(dimension.text), r.across)), at[0].across)
        tie = _tie(dimension, across, features)
        if tie is not None:
            found[dimension] = tie
    return found


def _rings(sheet: Sheet, features: Features) -> Iterator[_Ring]:
    """The circles of the end views of a part; a dashed one is the edge of what lies behind the end."""
    frame, drawn = features.frame, list(drawn_diameters(features.part))
    for circle in sheet.circles:
        (z, r), radius = frame.on_part(circle.centre), circle.radius / frame.scale
        clear = z - radius > 0 or z + radius < -features.part.length
        on_axis = abs(r) <= PICKED * features.part.outer_diameter
        if clear and on_axis and circle.is_edge and is_one_of(2 * radius, drawn):
            yield _Ring(circle.centre, circle.radius, 2 * radius)


def _stands_at(dimension: Dimension, ring: _Ring, features: Features) -> bool:
    """True for a size from side to side of a circle, from its middle to it, or with the tip of its leader on it."""
    slack = PICKED * features.part.outer_diameter * features.frame.scale
    ends = dimension.points[:2]
    if dimension.kind is DimensionKind.ANGULAR or len(ends) < 2:
        return False
    if dimension.kind is DimensionKind.LEADER:
        return ring.off(ends[0]) <= slack
    if dimension.kind is DimensionKind.RADIUS:
        return min(math.dist(p, ring.middle) for p in ends) <= slack and min(map(ring.off, ends)) <= slack
    return max(map(ring.off, ends)) <= slack and abs(math.dist(*ends) - 2 * ring.radius) <= slack


def _is_sized(dimension: Dimension, across: float) -> bool:
    """True if a text sizes the circle that it stands at."""
    printed = parse(dimension.text)
    if dimension.kind is not DimensionKind.LEADER:
        return printed.sign != "thread"
    return printed.sign == "diameter" and printed.count == 1 and across <= OTHER_SIZE * (printed.size or 0.0)


def _tie(dimension: Dimension, across: float, features: Features) -> Tie | None:
    """What has a diameter: a floor, or else a land."""
    half = dimension.kind is DimensionKind.RADIUS
    tie = tie_by_value(across, features)
    if tie is not None:
        return Tie(tie.field, tie.grooves, across, half)
    printed = parse(dimension.text)
    told = printed.measured or features.fits(printed, across, *([across / 2] if half else []))
    return None if told else Tie("land_diameter", (), across, half)
