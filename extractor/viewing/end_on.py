"""Holes drilled across the axis and seen end-on: circles on the axis within the part that hide the lines behind them.

Visible edges end at the edge of a hole (ISO 128-3, from memory). What it hides is put back as if it ran straight on:
lines in line with one another join, but for the mouth of a groove between two walls; one alone runs on to a wall or to
the axis, and two meet. Where this is not plain, all stays as it is drawn. A circle that is not whole is none of a hole:
the arcs of a round cavity end at the bore. Nor is one round which nothing lies: a ball stands on a shaft so. Lengths
are in drawing units, laid along z.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.arcs import chords, circular, distance, meet_lines
from extractor.geometry.network import Strokes
from extractor.sheet import Floats, Ints
from extractor.values import dataclass
from extractor.viewing.alike import PARALLEL

TELLING = 0.5
"""An arc of so much of a turn, radians, tells its middle: rounded ends move that of a shorter one."""

TIPS = 24
"""More lines than this end at no hole, and more circles of one size about one place are none: a matter of speed."""

STEP = 0.02
"""A circle is looked at in steps of this angle, radians: a chord of it is a twenty-thousandth of the radius off."""


Line = tuple[Point, Point]


class _Circle(NamedTuple):
    """The strokes of a circle and those seen through it, the tips of others at it, and whether others cross it.

    A tip is 2k for the start of stroke k, 2k + 1 for its end. Nothing that lies on the axis counts.
    """

    strokes: list[int]
    tips: list[int]
    crossed: bool


@dataclass(frozen=True)
class EndOn:
    """A hole seen end-on: where along z, its radius, the labels of its circle, and whether it meets lines.

    `plain`: how these run on is plain, and the circle was left out.
    """

    z: float
    radius: float
    labels: frozenset[int]
    meets: bool
    plain: bool


def without_holes_end_on(
    laid: Strokes, signs: Sequence[int], near: float, fine: float
) -> tuple[Strokes, tuple[EndOn, ...]]:
    """The strokes without the circles of such holes, with the lines that end at these run on; and the holes.

    `signs`: the halves drawn. Two places are one within `near`, and lines are in line within `fine`.
    """
    circles = _on_axis(laid, near)
    if not circles:
        return laid, ()
    ends, holes = laid.ends.copy(), list[EndOn]()
    tree = shapely.STRtree(shapely.linestrings(laid.ends.reshape(-1, 2, 2)))
    gone, top = np.zeros(len(laid), dtype=bool), float(np.abs(laid.ends[:, 1::2]).max()) + near
    for z, radius in circles:
        around = tree.query(shapely.Point(z, 0.0), "dwithin", radius + near)
        drawn = _at(laid, around[~gone[around]], (z, radius), signs, near)
        rays = [shapely.LineString([(z, s * (radius + near)), (z, s * top)]) for s in signs]
        if drawn is None or len(drawn.tips) > TIPS or not all(len(tree.query(ray, "intersects")) for ray in rays):
            continue
        sides = _slot(laid, drawn.tips, (z, radius), circles, near)
        if sides:  # the circle is an end of it, and crosses nothing but its other end
            drawn = drawn._replace(strokes=[*drawn.strokes, *sides], tips=[], crossed=False)
        straight = not laid.bulge[[t // 2 for t in drawn.tips]].any()
        moved = _run_on(ends.reshape(-1, 2), drawn.tips, (z, radius), fine) if straight else None
        for tip, place in (moved or {}).items():
            ends.reshape(-1, 2)[tip] = place
        gone[drawn.strokes] = moved is not None
        labels = frozenset(laid.label[drawn.strokes].tolist())
        holes.append(EndOn(z, radius, labels, meets=drawn.crossed or bool(drawn.tips), plain=moved is not None))
    return Strokes(ends, laid.bulge, laid.label).pick(~gone), tuple(holes)


def _on_axis(laid: Strokes, near: float) -> list[tuple[float, float]]:
    """Place and radius of the arcs about the axis, the smallest first, each once."""
    found, once = list[tuple[float, float]](), list[tuple[float, float]]()
    for k in np.flatnonzero(np.abs(4 * np.arctan(laid.bulge)) >= TELLING).tolist():
        a, b, c, d = laid.ends[k].tolist()
        (z, r), radius, *_ = circular((a, b), (c, d), float(laid.bulge[k]))
        found += [(radius, z)] if abs(r) <= near < radius / 2 else []
    for radius, z in sorted(found):
        if not any(max(abs(z - at), abs(radius - size)) <= near for at, size in once[-TIPS:]):
            once.append((z, radius))
    return once


def _at(laid: Strokes, around: Ints, circle: tuple[float, float], signs: Sequence[int], near: float) -> _Circle | None:
    """What is drawn at a circle, None where it is not whole on the halves drawn."""
    (z, radius), mine, tips, drawn, crossed = circle, list[int](), list[int](), list[shapely.Geometry](), False
    for k in around.tolist():
        a, b, c, d = laid.ends[k].tolist()
        line = np.array(chords((a, b), (c, d), float(laid.bulge[k]), STEP)) - (z, 0.0)
        away = np.hypot(*line.T) - radius
        if away.max() <= near:
            mine.append(k)
            drawn += [shapely.LineString(line)] if away.min() >= -near else []
        elif np.abs(line[:, 1]).max() > near:
            outside = shapely.distance(shapely.LineString(line), shapely.Point(0.0, 0.0)) >= radius - near
            tips += [2 * k + end for end in (0, 1) if outside and abs(away[-end]) <= near]
            crossed |= not outside
    turns = np.multiply.outer(signs, np.arange(0.0, math.pi, STEP)).ravel()
    places = shapely.points(radius * np.cos(turns), radius * np.sin(turns))
    whole = bool(shapely.dwithin(places, shapely.union_all(drawn), near).all())
    return _Circle(mine, tips, crossed) if whole else None


def _slot(
    laid: Strokes, tips: Sequence[int], circle: tuple[float, float], circles: Sequence[tuple[float, float]], near: float
) -> set[int]:
    """The strokes that lead from a circle to another of its size, both its tangents, and all that end at it; else none.

    So a slot or a keyway lies whose rounded ends are drawn as whole circles, which may cross.
    """
    z, radius = circle
    for other in (at for at, size in circles if abs(size - radius) <= near < abs(at - z)):
        arcs = {t // 2 for t in tips if _lies_on(laid, t // 2, (other, radius), near)}
        sides = sorted({t // 2 for t in tips} - arcs)
        rows = laid.ends[sides]
        far = rows[:, [0, 2]][np.arange(len(rows)), np.abs(rows[:, [0, 2]] - z).argmax(axis=1)]
        level = not laid.bulge[sides].any() and np.ptp(np.abs(rows[:, 1::2]), axis=1).max(initial=0.0) <= near
        tangent = np.abs(np.abs(rows[:, 1]) - radius).max(initial=0.0) <= near
        if level and tangent and len({*np.sign(rows[:, 1])}) == BOTH and np.abs(far - other).max() <= near:
            return set(sides)
    return set()


BOTH = 2
"""A slot has a side on either side of the axis."""


def _lies_on(laid: Strokes, k: int, circle: tuple[float, float], near: float) -> bool:
    """True for a stroke that is an arc of a circle about a place on the axis."""
    (z, radius), (a, b, c, d) = circle, laid.ends[k].tolist()
    away = np.hypot(*(np.array(chords((a, b), (c, d), float(laid.bulge[k]), STEP)) - (z, 0.0)).T) - radius
    return bool(laid.bulge[k]) and float(np.abs(away).max()) <= near


def _run_on(places: Floats, tips: Sequence[int], circle: tuple[float, float], fine: float) -> dict[int, Point] | None:
    """Where tips at a circle go to, so that what it hides runs straight on; None where that is not plain.

    `places`: where the tips of all strokes are, float (n, 2).
    """
    (z, radius), left = circle, list(tips)
    rows = {t: (_point(places[t ^ 1]), _point(places[t])) for t in tips}
    level, across = list[tuple[int, int]](), list[tuple[int, int]]()
    for t in tips:
        if t in left:
            others = [o for o in left if o != t]
            other = next((o for o in others if _in_line(rows[t], rows[o], fine)), None)
            if other is not None:
                (across if rows[t][1][1] * rows[other][1][1] < 0 else level).append((t, other))
                left = [o for o in others if o != other]
    walls: list[Line] = [(rows[t][1], rows[o][1]) for t, o in across]
    moved = {t: rows[o][1] for t, o in across}
    for t, o in level:
        spots = _met((rows[t][1], rows[o][1]), walls, circle)
        if len(spots) not in (0, 2):
            return None
        moved |= {t: spots[0], o: spots[1]} if spots else {t: rows[o][1]}
    for sign in (1, -1):
        half = [t for t in left if rows[t][1][1] * sign > 0]
        for t in half:
            spots = [s for s in _met(rows[t][::-1], walls, circle) if s[1] * sign > fine]
            moved |= {t: spots[0]} if spots else {}
        half = [t for t in half if t not in moved]
        pair = [rows[t] for t in half] + [((z - radius, 0.0), (z + radius, 0.0))] * (len(half) == 1)
        if half:
            spot = meet_lines(*pair[0], *pair[1], PARALLEL) if len(pair) == 2 else None
            if spot is None or distance(spot, (z, 0.0)) >= radius or spot[1] * sign < -fine:
                return None
            moved |= dict.fromkeys(half, spot)
    return moved


def _met(line: Line, walls: Sequence[Line], circle: tuple[float, float]) -> list[Point]:
    """Where the line on from a place crosses walls within a circle, the nearest to that place first."""
    spots = (meet_lines(*line, *wall, PARALLEL) for wall in walls)
    within = [s for s in spots if s is not None and distance(s, (circle[0], 0.0)) < circle[1]]
    return sorted(within, key=lambda s: distance(s, line[0]))


def _point(row: Floats) -> Point:
    """A row of two numbers as a place."""
    x, y = row.tolist()
    return x, y


def _in_line(one: Line, two: Line, fine: float) -> bool:
    """True if two lines, each given by its far end and its tip, lie in line with their tips between their far ends."""
    (a, b), (d, c) = one, two
    span = distance(a, d)
    if span <= fine:
        return False
    ux, uy = (d[0] - a[0]) / span, (d[1] - a[1]) / span
    rows = [(ux * (x - a[0]) + uy * (y - a[1]), ux * (y - a[1]) - uy * (x - a[0])) for x, y in (b, c)]
    (s, off), (t, aside) = rows
    return 0 < s < t < span and max(abs(off), abs(aside)) <= fine
