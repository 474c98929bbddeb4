"""Printed angles held against what they measure: those of the walls of a groove, or of a cone.

An angular dimension holds two points on each of its legs, or the tip and one on each. It may print the angle between
the lines, or the other one beside it.
"""

import math
import re
from collections.abc import Iterable, Iterator

from extractor.codes import DrawingCode
from extractor.decimals import half_place, places_of
from extractor.finding import Finding, Level, Point
from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.printed import NUMBER, normalised
from extractor.sizing.ties import Features

ANGLE = re.compile(rf"\W*(?:\d+\s*[x×X]\s*)?({NUMBER})\s*°(?!\s*\d)")
"""An angle in degrees; minutes behind it are read by nobody here."""
PEN = 0.02
"""Degrees by which lines may be off that are drawn as printed: places have four decimals, and legs are short."""


def angle_findings(dimensions: Iterable[Dimension], features: Features) -> Iterator[Finding]:
    """A stop for each dimension at the view that prints an angle other than the one it measures."""
    for dimension in dimensions:
        said = ANGLE.match(normalised(dimension.text or ""))
        if dimension.kind is not DimensionKind.ANGULAR or said is None or len(dimension.points) < 4:
            continue
        places = [features.frame.on_part(p) for p in dimension.points[:4]]
        drawn = list(_drawn(places))
        slack = half_place(places_of(said[1])) + PEN
        at_view = all(features.in_view(*p) for p in places[:3])
        if at_view and drawn and all(abs(float(said[1]) - angle) > slack for angle in drawn):
            words = (
                f"A dimension prints the angle {float(said[1]):g} where the drawing measures {drawn[0]:.4g}: "
                "ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, at=dimension.points[0])


def _drawn(places: list[Point]) -> Iterator[float]:
    """The angles in degrees that a dimension with these points may measure: of two lines, or of a tip and two legs."""
    one, two, tip, arc = places
    for legs in ((_way(one, two), _way(tip, arc)), (_way(tip, one), _way(tip, two))):
        if 0.0 not in (math.hypot(*legs[0]), math.hypot(*legs[1])):
            turn = abs(math.degrees(math.atan2(*legs[0]) - math.atan2(*legs[1]))) % 360
            yield from (turn, abs(180 - turn), 360 - turn)


def _way(a: Point, b: Point) -> Point:
    return b[0] - a[0], b[1] - a[1]
