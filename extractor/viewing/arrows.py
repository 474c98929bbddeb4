"""Arrow heads drawn as loose lines, and the dimension lines that they end: neither is ever outline.

A head is two strokes of one length that leave the end of a line at a small angle on either side of it, with a third
across them or with ends in the air; or a dot, a small circle about the end. A line with a head at both ends is a
dimension line; the lines that end at or just beyond its ends and are square to it are its extension lines. Heads of a
narrow dimension stand outside and point at one another from beyond its ends, each on a tail or on none (ISO 129-1, from
memory): without tails they count where both ends have one, and with tails the line between may be left out. One line
may run through from tail to tail.

            |    |
    ----->--|----|--<-----  4
      tail  |    |   tail
"""

import math
from collections.abc import Mapping, Sequence, Set
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.geometry.network import Strokes
from extractor.sheet import Circle, Floats
from extractor.values import dataclass
from extractor.viewing.tips import Tips, tips_of

HALF = math.radians(3.0), math.radians(22.0)
"""Angle of a head's sides to its line: ISO 128 allows heads of 15 to 90 degrees; 15 to 30 in all are usual (the former
from memory, the latter common practice, no source)."""

LIKE = 0.05, math.radians(1.5)
"""The sides of a head differ by no more than this share of their length, and by this in angle."""

SQUARE = 1e-3
"""Sine of the angle by which lines in line, or cosine by which lines square to one another, may be off."""

OUTSIDE = 8.0
"""Two heads stand outside only where there is no room between: they are not so many times their length apart, which is
room for both and for a size of six figures (common practice, no source)."""

DOT = 0.02
"""A dot is no wider than this share of the diagonal of all that is drawn: larger circles are holes."""

DOT_TO_HEAD = 4.0
"""An arrow head is about so many times as long as a dot is wide where both stand on one sheet (ISO 129-1, from memory:
dots take the place of heads where there is no room)."""

LONGEST = 4.0
"""A head is not this many times longer than its line: of a narrow dimension the heads are longer than the line."""


class Facing(NamedTuple):
    """Two heads that point at one another: the labels of both tails and of lines between the tips, and the tips."""

    lines: frozenset[int]
    ends: tuple[Point, Point]


@dataclass(frozen=True)
class Arrows:
    """Labels of the strokes of arrow heads, of the dimension lines between two, and of their extension lines.

    `headed` are all straight strokes that end in a head. `facing`: of the dimension lines those that heads point to
    from outside, with their tails.
    """

    heads: frozenset[int] = frozenset()
    lines: frozenset[int] = frozenset()
    extensions: frozenset[int] = frozenset()
    headed: frozenset[int] = frozenset()
    facing: tuple[Facing, ...] = ()


def arrows(strokes: Strokes, near: float, circles: Sequence[Circle] = ()) -> Arrows:
    """All arrow heads with what belongs to them; `near` is the noding distance, `circles` those of the sheet."""
    if not len(strokes):
        return Arrows()
    tips = tips_of(strokes, near)
    heads = {tip: head for tip, sides in _sides(tips).items() if (head := _head(tips, tip, sides))}
    beyond = {tip: head for tip, sides in _sides(tips, -1).items() if (head := _head(tips, tip, sides, -1))}
    heads |= {tip: head for tip, head in beyond.items() if tip ^ 1 in heads or tip ^ 1 in beyond}
    through = _of_their_own(_through(tips, {k for head in heads.values() for k in head}), heads)
    # Where one runs into the next, the heads at its ends are those of its neighbours.
    heads = {tip: head for tip, head in heads.items() if tip // 2 not in {run.line for run, _ in through}}
    used = {k for head in heads.values() for k in head}
    dots = {tip: radius for tip, radius in _dots(tips, circles).items() if tip not in heads}
    sizes = {tip: max(_length(tips, 2 * s) for s in head) for tip, head in heads.items()}
    sizes |= {tip: DOT_TO_HEAD * 2 * radius for tip, radius in dots.items()}
    heads |= {tip: set() for tip in dots}
    whole = [(tip, tip ^ 1) for tip in heads if tip % 2 == 0 and tip ^ 1 in heads]
    lines, facing = {tip // 2 for tip, _ in whole}, list[Facing]()
    known, label = used | lines, strokes.label.tolist()
    feet: set[int] = set()
    for pair in whole:
        feet.update(*(_feet(tips, tip, max(sizes[t] for t in pair), known) for tip in pair))
    for pair in _facing(tips, sizes):
        row = {tip // 2 for tip in pair} | (_between(tips, *pair) - used)
        one, two = (_feet(tips, tip, max(sizes[t] for t in pair), known | row) for tip in pair)
        if one and two:  # two leaders may point at one another, but nothing ends at their tips
            lines |= row
            feet |= one | two
            facing.append(Facing(frozenset(label[k] for k in row), (_place(tips, pair[0]), _place(tips, pair[1]))))
    for run, ends in through:
        used |= run.heads
        lines.add(run.line)
        feet |= ends
        facing.append(Facing(frozenset({label[run.line]}), run.ends))
    rows = (used, lines - used, feet - used - lines, {t // 2 for t in heads})
    named = [frozenset(label[k] for k in row) for row in rows]
    return Arrows(named[0], named[1], named[2], named[3], tuple(facing))


def _place(tips: Tips, tip: int) -> Point:
    """Where a tip lies."""
    x, y = tips.at[tip].tolist()
    return x, y


def _sides(tips: Tips, way: int = 1) -> dict[int, list[int]]:
    """For the tip of each straight stroke the tips there of shorter ones that may be the sides of a head on it.

    `way`: 1 for heads on the stroke, -1 for those beyond its end.
    """
    one, two = tips.pairs
    a, b = way * (tips.at[one ^ 1] - tips.at[one]), tips.at[two ^ 1] - tips.at[two]
    turn = np.arctan2(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]), (a * b).sum(axis=1))
    straight = (tips.strokes.bulge[one // 2] == 0) & (tips.strokes.bulge[two // 2] == 0)
    shorter = np.hypot(*b.T) <= LONGEST * np.hypot(*a.T)
    fit = straight & shorter & (turn >= HALF[0]) & (turn <= HALF[1])
    found: dict[int, list[int]] = {}
    for i, j in tips.pairs[:, fit].T.tolist():
        found.setdefault(i, []).append(j)
    return found


def _dots(tips: Tips, circles: Sequence[Circle]) -> dict[int, float]:
    """For the tip of each straight stroke that a small circle is drawn about the radius of that circle."""
    most = DOT / 2 * float(np.hypot(*np.ptp(tips.at, axis=0)))
    small = [c for c in circles if c.radius <= most]
    if not small:
        return {}
    straight = np.flatnonzero(np.repeat(tips.strokes.bulge == 0, 2))
    middles, ends = shapely.points([c.centre for c in small]), shapely.points(tips.at[straight])
    one, two = shapely.STRtree(middles).query(ends, predicate="dwithin", distance=2 * tips.near)
    return {int(straight[i]): small[j].radius for i, j in zip(one.tolist(), two.tolist(), strict=True)}


def _head(tips: Tips, tip: int, sides: list[int], way: int = 1) -> set[int]:
    """The strokes of a head at a tip, none if two of the sides make none; beyond the end (`way` -1) it is closed."""
    line = way * tips.line(tip)
    for i, one in enumerate(sides):
        for two in sides[i + 1 :]:
            a, b = _turn(line, tips.line(one)), _turn(line, tips.line(two))
            lengths = _length(tips, one), _length(tips, two)
            if abs(a + b) > LIKE[1] or abs(lengths[0] - lengths[1]) > LIKE[0] * max(lengths):
                continue
            base = _base(tips, one, two)
            open_ended = tips.free(one ^ 1) and tips.free(two ^ 1) and max(lengths) <= _length(tips, tip)
            if base or (open_ended and way > 0):
                return {one // 2, two // 2, *base}
    return set()


def _base(tips: Tips, one: int, two: int) -> set[int]:
    """The strokes that close a head: from the far end of one of its sides to that of the other."""
    first, last = ({t // 2 for t in tips.beside.get(tip ^ 1, ())} for tip in (one, two))
    return first & last


def _turn(line: Floats, side: Floats) -> float:
    """The angle from a line to a side, signed."""
    return math.atan2(_cross(line, side), float(line @ side))


def _cross(a: Floats, b: Floats) -> float:
    """The cross product of two vectors."""
    return float(a[0] * b[1] - a[1] * b[0])


def _length(tips: Tips, tip: int) -> float:
    """Length of the stroke of a tip."""
    return float(np.hypot(*tips.line(tip)))


def _facing(tips: Tips, sizes: Mapping[int, float]) -> list[tuple[int, int]]:
    """Pairs of headed tips of two lines that point at one another in line, each the nearest that the other has.

    `sizes`: the length of the head at each tip that has one.
    """
    alone = [tip for tip in sizes if tip ^ 1 not in sizes]
    points = shapely.points(tips.at[alone])
    reach = [OUTSIDE * sizes[tip] for tip in alone]
    pairs = shapely.STRtree(points).query(points, predicate="dwithin", distance=reach)
    nearest: dict[int, tuple[float, int]] = {}
    for tip, other in ((alone[i], alone[j]) for i, j in pairs.T.tolist()):
        if _point_at_another(tips, tip, other):
            apart = float(np.hypot(*(tips.at[other] - tips.at[tip])))
            nearest[tip] = min(nearest.get(tip, (math.inf, -1)), (apart, other))
    return [(a, b) for a, (_, b) in nearest.items() if a < b and nearest.get(b, (0.0, -1))[1] == a]


def _point_at_another(tips: Tips, one: int, two: int) -> bool:
    """True if two headed lines lie in line, each behind its own tip as seen from the other."""
    back, across, other = tips.line(one), tips.at[two] - tips.at[one], tips.line(two)
    size, apart, far = (float(np.hypot(*way)) for way in (back, across, other))
    beside = max(2 * tips.near, SQUARE * apart)
    in_line = abs(_cross(back, across)) <= beside * size and abs(_cross(back, other)) <= SQUARE * size * far
    return in_line and -float(across @ back) > 2 * tips.near * size and float(other @ back) < 0


class Through(NamedTuple):
    """A line that runs through two heads from outside: its stroke and theirs, its direction, their size, the tips."""

    line: int
    heads: frozenset[int]
    along: Floats
    size: float
    ends: tuple[Point, Point]


def _through(tips: Tips, heads: Set[int]) -> list[tuple[Through, set[int]]]:
    """The lines that run through two heads which point at one another, each with the extension lines that end there.

    An extension line may run on to the next dimension farther out.
    """
    found = []
    for row in _run_through(tips):
        known = {row.line, *row.heads, *heads}
        met = [_square_to(tips, np.array(at), row.along) - known for at in row.ends]
        feet = [_feet_at(tips, np.array(at), row.along, row.size, known) for at in row.ends]
        if all(met):
            found.append((row, feet[0] | feet[1]))
    return found


def _of_their_own(
    through: list[tuple[Through, set[int]]], heads: Mapping[int, set[int]]
) -> list[tuple[Through, set[int]]]:
    """Those whose heads end no other line: a tail may run on over the heads of the next dimension."""
    while True:
        lines = {row.line for row, _ in through}
        others = {k for tip, head in heads.items() if tip // 2 not in lines for k in head}
        kept = [(row, feet) for row, feet in through if not row.heads & others]
        if len(kept) == len(through):
            return kept
        through = kept


def _run_through(tips: Tips) -> list[Through]:
    """The lines that run through two heads which point at one another, each between its own ends."""
    rows: dict[int, list[tuple[float, bool, set[int], float, Point]]] = {}
    for one, two in _like_sides(tips):
        head, size = _lone_head(tips, one, two), max(_length(tips, one), _length(tips, two))
        place = _place(tips, one)
        for k in tips.near_by(place, 2 * tips.near).tolist() if head else ():
            run, off = tips.line(2 * k), tips.at[one] - tips.at[2 * k]
            at, body = float(run @ off) / float(run @ run), tips.line(one) + tips.line(two)
            level = abs(math.sin(_turn(run, body))) <= math.sin(LIKE[1])
            if k not in head and tips.straight(2 * k) and level and 0.0 < at < 1.0:
                rows.setdefault(k, []).append((at, float(run @ body) > 0, head, size, place))
    found = []
    for k, row in rows.items():
        length, along = _length(tips, 2 * k), tips.line(2 * k) / _length(tips, 2 * k)
        for one_head, other in pairwise(sorted(row, key=lambda head: head[0])):
            size, apart = max(one_head[3], other[3]), (other[0] - one_head[0]) * length
            if other[1] and not one_head[1] and 2 * tips.near < apart <= OUTSIDE * size:
                found.append(Through(k, frozenset(one_head[2] | other[2]), along, size, (one_head[4], other[4])))
    return _amid(tips, found)


def _amid(tips: Tips, found: Sequence[Through]) -> list[Through]:
    """One for each line and each pair of heads, those first that stand nearest to the middle of their line.

    Tails are about as long as one another, and may run on over the heads of the next dimension.
    """
    kept, lines, heads = list[Through](), set[int](), set[int]()
    middles = tips.strokes.ends.reshape(-1, 2, 2).mean(axis=1)
    for one in sorted(found, key=lambda one: math.dist(np.mean(one.ends, axis=0), middles[one.line])):
        if one.line not in lines and not one.heads & heads:
            kept.append(one)
            lines.add(one.line)
            heads |= one.heads
    return kept


def _like_sides(tips: Tips) -> list[tuple[int, int]]:
    """Pairs of tips at one place whose straight strokes are as long as one another and enclose the angle of a head."""
    one, two = tips.pairs[:, tips.pairs[0] < tips.pairs[1]]
    a, b = tips.at[one ^ 1] - tips.at[one], tips.at[two ^ 1] - tips.at[two]
    turn = np.arctan2(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]), (a * b).sum(axis=1))
    straight = (tips.strokes.bulge[one // 2] == 0) & (tips.strokes.bulge[two // 2] == 0)
    sizes = np.hypot(*a.T), np.hypot(*b.T)
    alike = np.abs(sizes[0] - sizes[1]) <= LIKE[0] * np.maximum(*sizes)
    fit = straight & alike & (2 * HALF[0] <= turn) & (turn <= 2 * HALF[1])
    return list(zip(one[fit].tolist(), two[fit].tolist(), strict=True))


def _lone_head(tips: Tips, one: int, two: int) -> set[int]:
    """The strokes of a closed or an open head of two sides, none where they are no head."""
    base = _base(tips, one, two)
    open_ended = tips.free(one ^ 1) and tips.free(two ^ 1)
    return {one // 2, two // 2, *base} if base or open_ended else set()


def _between(tips: Tips, one: int, two: int) -> set[int]:
    """The straight strokes that run from one of two tips to the other."""
    first, last = ({t // 2 for t in tips.beside.get(tip, ()) if tips.straight(t)} for tip in (one, two))
    return (first & last) - {one // 2, two // 2}


def _feet(tips: Tips, tip: int, head: float, known: Set[int]) -> set[int]:
    """Straight strokes square to a dimension line that run from one of its tips, or from just beyond it, away.

    There they meet nothing but heads and dimension lines, `known`, and others in line with them, which end elsewhere: a
    wall that an arrow points to meets a groove's floor.
    """
    return _feet_at(tips, tips.at[tip], tips.line(tip) / _length(tips, tip), head, known)


def _square(tips: Tips, along: Floats) -> npt.NDArray[np.bool_]:
    """Which strokes are straight and square to a direction."""
    run = tips.strokes.ends[:, 2:] - tips.strokes.ends[:, :2]
    square: npt.NDArray[np.bool_] = (tips.strokes.bulge == 0) & (np.abs(run @ along) <= SQUARE * np.hypot(*run.T))
    return square


def _square_to(tips: Tips, at: Floats, along: Floats) -> set[int]:
    """The straight strokes square to a direction that pass a place."""
    square = _square(tips, along)
    return {k for k in tips.near_by((float(at[0]), float(at[1])), 2 * tips.near).tolist() if square[k]}


def _feet_at(tips: Tips, at: Floats, along: Floats, head: float, known: Set[int]) -> set[int]:
    """The same at a place of a dimension line, `along` its direction."""
    ends, square = tips.strokes.ends, _square(tips, along)
    one, two = np.hypot(*(ends[:, :2] - at).T), np.hypot(*(ends[:, 2:] - at).T)
    off = np.abs((at - ends[:, :2]) @ along)
    square &= off <= 10 * tips.near
    fit = square & (np.minimum(one, two) <= head) & (np.maximum(one, two) > 2 * head)
    beside = known | set(np.flatnonzero(square).tolist())
    return {k for k in np.flatnonzero(fit).tolist() if tips.hangs(2 * k + int(two[k] < one[k]), beside, head)}
