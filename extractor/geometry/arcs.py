"""Arithmetic of straight and arc segments in the bulge form: points in, points out, no tolerances of the trade.

A segment is its two ends and a bulge: the tangent of a quarter of the included angle, positive counter-clockwise
from start to end, 0 for a straight one (the DXF meaning). Angles are in radians, lengths as drawn.
"""

import math
from typing import NamedTuple

import numpy as np

from extractor.finding import Point
from extractor.rounding import ROUNDING
from extractor.sheet import Floats


def distance(a: Point, b: Point) -> float:
    """Length between two points."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


class Circular(NamedTuple):
    """Centre, radius, start angle and signed sweep of an arc segment."""

    centre: Point
    radius: float
    start: float
    sweep: float

    def at(self, t: float) -> Point:
        """Point at share `t` of the sweep, 0 at the start and 1 at the end."""
        angle = self.start + self.sweep * t
        return self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle)

    def share(self, p: Point) -> float:
        """Share of the sweep at which the direction of `p` lies; outside 0..1 where it lies beyond an end."""
        angle = math.atan2(p[1] - self.centre[1], p[0] - self.centre[0])
        turn = math.remainder(angle - self.start - self.sweep / 2, math.tau)
        return 0.5 + turn / self.sweep


def circular(a: Point, b: Point, bulge: float) -> Circular:
    """The circle under an arc segment.

    >>> circular((0.0, 0.0), (2.0, 0.0), 1.0).centre
    (1.0, 0.0)
    """
    chord = distance(a, b)
    offset = (1 - bulge * bulge) / (4 * bulge)
    centre = (
        (a[0] + b[0]) / 2 - (b[1] - a[1]) * offset,
        (a[1] + b[1]) / 2 + (b[0] - a[0]) * offset,
    )
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    return Circular(centre, radius, math.atan2(a[1] - centre[1], a[0] - centre[0]), 4 * math.atan(bulge))


def part_of(bulge: float, t0: float, t1: float) -> float:
    """Bulge of the piece of an arc between two shares of its sweep.

    >>> part_of(0.0, 0.25, 0.5)
    0.0
    """
    return math.tan(math.atan(bulge) * (t1 - t0))


def chords(a: Point, b: Point, bulge: float, step: float = math.pi / 24) -> list[Point]:
    """Points along a segment from `a` to `b` inclusive, arcs in chords of at most `step` of turn.

    An arc flatter than arithmetic is exact has no centre that could be told.
    """
    if abs(bulge) <= ROUNDING:
        return [a, b]
    arc = circular(a, b, bulge)
    count = max(2, math.ceil(abs(arc.sweep) / step))
    return [a, *(arc.at(i / count) for i in range(1, count)), b]


def middle(a: Point, b: Point, bulge: float) -> Point:
    """Point half-way along a segment."""
    return (
        (a[0] + b[0]) / 2 + bulge * (b[1] - a[1]) / 2,
        (a[1] + b[1]) / 2 - bulge * (b[0] - a[0]) / 2,
    )


def length(a: Point, b: Point, bulge: float) -> float:
    """Length along a segment."""
    if bulge == 0:
        return distance(a, b)
    arc = circular(a, b, bulge)
    return abs(arc.sweep) * arc.radius


def lengths(ends: Floats, bulges: Floats) -> Floats:
    """Length along each of many segments, float (n,), by their ends (n, 4) and bulges (n,).

    >>> lengths(np.array([(0.0, 0.0, 3.0, 4.0), (0.0, 0.0, 2.0, 0.0)]), np.array([0.0, -1.0])).round(4).tolist()
    [5.0, 3.1416]
    """
    size: Floats = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    bent = bulges != 0
    bulge = np.abs(bulges[bent])
    size[bent] *= np.arctan(bulge) * (1 + bulge * bulge) / bulge
    return size


def meet_lines(a: Point, b: Point, c: Point, d: Point, least: float) -> Point | None:
    """Where the line through `a` and `b` crosses that through `c` and `d`; None where the sine between is no more."""
    (ux, uy), (vx, vy) = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    cross = ux * vy - uy * vx
    if abs(cross) <= least * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    return a[0] + t * ux, a[1] + t * uy


def meet_line_arc(a: Point, b: Point, arc: Circular, near: float) -> list[Point]:
    """Where the line through `a` and `b` meets the full circle of `arc`; one point if it grazes it within `near`."""
    span = distance(a, b)
    ux, uy = (b[0] - a[0]) / span, (b[1] - a[1]) / span
    along = (arc.centre[0] - a[0]) * ux + (arc.centre[1] - a[1]) * uy
    foot = (a[0] + along * ux, a[1] + along * uy)
    off = distance(foot, arc.centre)
    if off > arc.radius + near:
        return []
    half = math.sqrt(max(0.0, arc.radius**2 - off**2))
    if abs(off - arc.radius) <= near:
        return [foot]
    return [(foot[0] - half * ux, foot[1] - half * uy), (foot[0] + half * ux, foot[1] + half * uy)]


def meet_arcs(one: Circular, two: Circular, near: float) -> list[Point]:
    """Where two full circles meet; nothing for circles that share a centre or are the same."""
    gap = distance(one.centre, two.centre)
    if gap <= near or gap > one.radius + two.radius + near or gap < abs(one.radius - two.radius) - near:
        return []
    ux, uy = (two.centre[0] - one.centre[0]) / gap, (two.centre[1] - one.centre[1]) / gap
    along = (gap**2 + one.radius**2 - two.radius**2) / (2 * gap)
    half = math.sqrt(max(0.0, one.radius**2 - along**2))
    foot = (one.centre[0] + along * ux, one.centre[1] + along * uy)
    if half <= near:
        return [foot]
    return [(foot[0] - half * uy, foot[1] + half * ux), (foot[0] + half * uy, foot[1] - half * ux)]
