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
from collections.abc import Iterable, Mapping, Sequence, Set
from itertools import pairwise, product
from operator import itemgetter
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from extractor.finding import Point
from extractor.geometry.network import Strokes
from extractor.sheet import Circle, Floats
from extractor.values import dataclass
from extractor.viewing.alike import SKEW
from extractor.viewing.dots import small_circles
from extractor.viewing.tips import Tips, tips_of

HALF = math.radians(3.0), math.radians(22.0)
"""Angle of a head's sides to its line: ISO 128 allows heads of 15 to 90 degrees; 15 to 30 in all are usual (the former
from memory, the latter common practice, no source)."""

LIKE = 0.05, math.radians(1.5)
"""The sides of a head differ by no more than this share of their length, and by this in angle."""

OUTSIDE = 8.0
"""Two heads stand outside only where there is no room between: they are not so many times their length apart, which is
room for both and for a size of six figures (common practice, no source)."""

DOT_TO_HEAD = 4.0
"""An arrow head is about so many times as long as a dot is wide where both stand on one sheet (ISO 129-1, from memory:
dots take the place of heads where there is no room)."""

LONGEST = 4.0
"""A head is not this many times longer than its line: of a narrow dimension the heads are longer than the line."""


ON_BASE = 0.02
"""A line ends on the middle of a head's base within this share of its length."""


class Facing(NamedTuple):
    """Two heads that point at one another: the labels of both tails and of lines between the tips, and the tips."""

    lines: frozenset[int]
    ends: tuple[Point, Point]


@dataclass(frozen=True)
class Arrows:
    """Labels of the strokes of arrow heads, of the dimension lines between two, and of their extension lines.

    `tips`: the straight strokes that end in a head, and where. `facing`: of the dimension lines those
    that heads point to from outside, with their tails.
    """

    heads: frozenset[int] = frozenset()
    lines: frozenset[int] = frozenset()
    extensions: frozenset[int] = frozenset()
    tips: tuple[tuple[int, Point], ...] = ()
    facing: tuple[Facing, ...] = ()

    @property
    def headed(self) -> frozenset[int]:
        """Labels of all straight strokes that end in a head."""
        return frozenset(label for label, _ in self.tips)


class _Head(NamedTuple):
    """A head: its strokes, its length, a tip at its point, the way from there back through it, whether it is closed."""

    strokes: frozenset[int]
    size: float
    tip: int
    body: Floats
    closed: bool


class _Marked(NamedTuple):
    """What heads mark as a dimension line: its strokes, its ends, its direction, the length of the longer head.

    `heads`: the strokes of two heads that point to it from outside and that it runs through.
    """

    row: frozenset[int]
    ends: tuple[Point, Point]
    along: Floats
    size: float
    heads: frozenset[int] = frozenset()


def arrows(strokes: Strokes, near: float, circles: Sequence[Circle] = ()) -> Arrows:
    """All arrow heads with what belongs to them; `near` is the noding distance, `circles` those of the sheet."""
    if not len(strokes):
        return Arrows()
    tips = tips_of(strokes, near)
    drawn = _heads(tips)
    heads, beyond = _on_lines(tips, drawn)
    heads |= {tip: head for tip, head in beyond.items() if tip ^ 1 in heads or tip ^ 1 in beyond}
    through = [*_through(tips, drawn, heads), *_run_on(tips, drawn, heads)]
    # Where one runs into the next, the heads at its ends are those of its neighbours.
    heads = {tip: head for tip, head in heads.items() if not any(tip // 2 in run.row for run in through)}
    used = frozenset(k for head in heads.values() for k in head.strokes).union(*(run.heads for run in through))
    heads = _dots(tips, circles) | heads
    whole = [_marked(tips, tip, tip ^ 1, heads) for tip in heads if tip % 2 == 0 and tip ^ 1 in heads]
    known = used.union(*(one.row for one in whole))
    facing = [_marked(tips, one, two, heads, used) for one, two in _facing(tips, heads)]
    # Two leaders may point at one another, but nothing ends at their tips.
    facing = [one for one in facing if all(_feet(tips, at, one, known) for at in one.ends)]
    lines = known.union(*(one.row for one in (*facing, *through))) - used
    feet = {k for one in (*whole, *facing, *through) for at in one.ends for k in _feet(tips, at, one, known)}
    rows = (used, lines, feet - used - lines)
    names = [frozenset(strokes.label[list(row)].tolist()) for row in (*rows, *(one.row for one in (*facing, *through)))]
    outside = (Facing(name, one.ends) for name, one in zip(names[3:], (*facing, *through), strict=True))
    ending = ((int(strokes.label[tip // 2]), tips.place(tip)) for tip in heads)
    return Arrows(names[0], names[1], names[2], tuple(ending), tuple(outside))


def to_points(strokes: Strokes, near: float) -> Strokes:
    """The strokes, those that end on the base of a closed head drawn on to its point.

    Many CAD programs trim a dimension line there, where the filled head hides it (common practice, no source). A head
    with a line that ends at its point has its own, and so has a line that ends there.
    """
    tips = tips_of(strokes, near)
    at = tips.at.copy()
    drawn = [head for head in _heads(tips) if head.closed]
    ending = _on_lines(tips, drawn)[0]
    lined = {id(head) for head in ending.values()}
    for head in (head for head in drawn if id(head) not in lined):
        reach = max(2 * near, ON_BASE * head.size)
        base = tips.at[head.tip] + head.body / 2
        for k in tips.near_by((float(base[0]), float(base[1])), reach).tolist():
            for tip in (2 * k, 2 * k + 1):
                fit = k not in head.strokes and tip not in ending and tips.straight(tip)
                fit = fit and np.hypot(*(tips.at[tip] - base)) <= reach
                if fit and abs(_turn(tips.line(tip), head.body)) <= LIKE[1] / 2:
                    at[tip] = tips.at[head.tip]
    same = np.array_equal(at, tips.at)
    return strokes if same else Strokes(at.reshape(-1, 4), strokes.bulge, strokes.label)


def _heads(tips: Tips) -> list[_Head]:
    """All heads of two sides as long as one another: closed, or with ends in the air."""
    met = tips.corners
    alike = np.abs(met.first - met.second) <= LIKE[0] * np.maximum(met.first, met.second)
    fit = alike & (met.one < met.two) & (2 * HALF[0] <= met.turn) & (met.turn <= 2 * HALF[1])
    found = []
    for one, two in zip(met.one[fit].tolist(), met.two[fit].tolist(), strict=True):
        ends = [{tip // 2 for tip in tips.beside.get(side ^ 1, ())} for side in (one, two)]
        base = ends[0] & ends[1]
        if base or not (ends[0] or ends[1]):
            size, body = max(tips.length(one), tips.length(two)), tips.line(one) + tips.line(two)
            sides = frozenset({one // 2, two // 2, *base, *_filling(tips, one, two)})
            found.append(_Head(sides, size, one, body, bool(base)))
    return found


def _filling(tips: Tips, one: int, two: int) -> list[int]:
    """The strokes that fill a head as a fan: from its point to its base, each with its mirror image, one amid them.

    A single one amid both sides may be the line that the head ends.
    """
    body = (tips.line(one) + tips.line(two)) / 2
    square, half = float(body @ body), abs(_turn(tips.line(one), body))
    met = [t for t in tips.beside[one] if t not in (one, two) and tips.straight(t) and tips.free(t ^ 1)]
    based = [t for t in met if abs(float(tips.line(t) @ body) - square) <= LIKE[0] * square]
    leans = {t: _turn(body, tips.line(t)) for t in based if abs(_turn(body, tips.line(t))) < half}
    paired = any(a > LIKE[1] and abs(a + b) <= LIKE[1] for a, b in product(leans.values(), repeat=2))
    return [t // 2 for t in leans] if paired else _shaft(tips, (one, two), body)


def _shaft(tips: Tips, sides: tuple[int, int], body: Floats) -> list[int]:
    """The strokes amid the sides of a head and as long as it, where a longer one is the line that it ends.

    So the heads of exploded dimensions are drawn, with a piece of the line in the block of each, and nothing else: at
    the far end of a narrow dimension's own line stands its extension line.
    """
    size, level = float(np.hypot(*body)), LIKE[1] / 2
    beside = [t for t in tips.beside[sides[0]] if t not in sides and tips.straight(t)]
    leans = [(t, abs(_turn(body, tips.line(t)))) for t in beside]
    amid = {t // 2 for t, lean in leans if lean <= level}
    if any(level < lean <= 2 * HALF[1] for _, lean in leans):
        return []
    like = (t for t, lean in leans if lean <= level and abs(tips.length(t) - size) <= LIKE[0] * size)
    short = [t // 2 for t in like if {*tips.near_by(tips.place(t ^ 1), 2 * tips.near).tolist()} <= amid]
    return short if len(short) < len(amid) else []


def _on_lines(tips: Tips, drawn: Iterable[_Head]) -> tuple[dict[int, _Head], dict[int, _Head]]:
    """For the tip of each straight stroke the head that ends it there, and the one that stands beyond it.

    The latter is closed, or ends a tail there.
    """
    back: dict[int, _Head] = {}
    beyond: dict[int, _Head] = {}
    for head in drawn:
        met = [tip for tip in tips.beside[head.tip] if tip // 2 not in head.strokes and tips.straight(tip)]
        met = [tip for tip in met if head.size <= LONGEST * tips.length(tip)]
        leans = [(tip, abs(_turn(tips.line(tip), head.body))) for tip in met]
        ended = [tip for tip, lean in leans if lean <= LIKE[1] / 2 and (head.closed or head.size <= tips.length(tip))]
        back = dict.fromkeys(ended, head) | back
        if head.closed or ended:
            beyond = {tip: head for tip, lean in leans if math.pi - lean <= LIKE[1] / 2} | beyond
    return back, beyond


def _dots(tips: Tips, circles: Sequence[Circle]) -> dict[int, _Head]:
    """For the tip of each straight stroke that a small circle is drawn about that dot, as long as a head beside it."""
    small = small_circles(tips, circles)
    if not small:
        return {}
    straight = np.flatnonzero(np.repeat(tips.strokes.bulge == 0, 2))
    middles, ends = shapely.points([c.centre for c in small]), shapely.points(tips.at[straight])
    pairs = shapely.STRtree(middles).query(ends, predicate="dwithin", distance=2 * tips.near).T.tolist()
    sizes = [(int(straight[i]), DOT_TO_HEAD * 2 * small[j].radius) for i, j in pairs]
    return {tip: _Head(frozenset(), size, tip, tips.line(tip), True) for tip, size in sizes}


def _marked(tips: Tips, one: int, two: int, heads: Mapping[int, _Head], used: frozenset[int] = frozenset()) -> _Marked:
    """The dimension line between two headed tips: their strokes, and straight ones from tip to tip but for `used`."""
    first, last = ({t // 2 for t in tips.beside.get(tip, ()) if tips.straight(t)} for tip in (one, two))
    row = frozenset({one // 2, two // 2} | ((first & last) - used))
    size = max(heads[one].size, heads[two].size)
    return _Marked(row, (tips.place(one), tips.place(two)), tips.line(one) / tips.length(one), size)


def _cross(a: Floats, b: Floats) -> float:
    """The cross product of two vectors."""
    return float(a[0] * b[1] - a[1] * b[0])


def _turn(line: Floats, side: Floats) -> float:
    """The angle from a line to a side, signed."""
    return math.atan2(_cross(line, side), float(line @ side))


def _facing(tips: Tips, heads: Mapping[int, _Head]) -> list[tuple[int, int]]:
    """Pairs of headed tips of two lines that point at one another in line, each the nearest that the other has."""
    alone = [tip for tip in heads if tip ^ 1 not in heads]
    points = shapely.points(tips.at[alone])
    reach = [OUTSIDE * heads[tip].size for tip in alone]
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
    beside = max(2 * tips.near, SKEW * apart)
    in_line = abs(_cross(back, across)) <= beside * size and abs(_cross(back, other)) <= SKEW * size * far
    return in_line and -float(across @ back) > 2 * tips.near * size and float(other @ back) < 0


def _through(tips: Tips, drawn: Iterable[_Head], ending: Mapping[int, _Head]) -> list[_Marked]:
    """The lines that run through two heads which point at one another, with extension lines at both.

    An extension line may run on to the next dimension farther out. Of the heads none ends another line, `ending`: a
    tail may run on over the heads of the next dimension.
    """
    heads = {k for head in ending.values() for k in head.strokes}
    found = [
        row
        for row in _amid(tips, _run_through(tips, drawn))
        if all(_square_to(tips, at, row.along) - heads - row.row - row.heads for at in row.ends)
    ]
    while True:
        lines = {k for row in found for k in row.row}
        others = {k for tip, head in ending.items() if tip // 2 not in lines for k in head.strokes}
        kept = [row for row in found if not row.heads & others]
        if len(kept) == len(found):
            return kept
        found = kept


def _run_on(tips: Tips, drawn: Iterable[_Head], ending: Mapping[int, _Head]) -> list[_Marked]:
    """The lines between two heads that point away from one another, run on beyond the point of one or of both.

    The figure then stands on that tail, which ends in the air: an edge ends at others. There is room for both heads
    between, extension lines pass both points, and no more heads are on the line.
    """
    found = []
    for k, row in _lying_on(tips, drawn).items():
        ended = ((float(tip % 2), ending[tip]) for tip in (2 * k, 2 * k + 1) if tip in ending)
        row += [(at, float(tips.line(2 * k) @ head.body) > 0, head) for at, head in ended]
        (start, onward, one), (end, back, two) = min(row, key=itemgetter(0)), max(row, key=itemgetter(0))
        roomy = (end - start) * tips.length(2 * k) >= one.size + two.size
        if len(row) == 2 and onward and not back and roomy:
            ends, along = (tips.place(one.tip), tips.place(two.tip)), tips.line(2 * k) / tips.length(2 * k)
            pair = one.strokes | two.strokes
            tails = [tip for tip, runs_on in ((2 * k, start > 0.0), (2 * k + 1, end < 1.0)) if runs_on]
            free = all(tips.hangs(tip, pair) for tip in tails)
            if free and all(_square_to(tips, at, along) - pair - {k} for at in ends):
                found.append(_Marked(frozenset({k}), ends, along, max(one.size, two.size), pair))
    return found


def _lying_on(tips: Tips, drawn: Iterable[_Head], *, ends: bool = False) -> dict[int, list[tuple[float, bool, _Head]]]:
    """The heads along each line whose points lie on it between its ends: the share of it there, if they point back.

    With `ends` those at an end too, with 0.0 or 1.0 for their share.
    """
    rows: dict[int, list[tuple[float, bool, _Head]]] = {}
    for head in drawn:
        for k in tips.near_by(tips.place(head.tip), 2 * tips.near).tolist():
            run = tips.line(2 * k)
            at = float(run @ (tips.at[head.tip] - tips.at[2 * k])) / float(run @ run)
            level = abs(math.sin(_turn(run, head.body))) <= math.sin(LIKE[1])
            if ends and min(abs(at), abs(at - 1.0)) <= 2 * tips.near / tips.length(2 * k):
                at = float(round(at))
            if k not in head.strokes and tips.straight(2 * k) and level and (ends or 0.0 < at < 1.0):
                rows.setdefault(k, []).append((at, float(run @ head.body) > 0, head))
    return rows


def _run_through(tips: Tips, drawn: Iterable[_Head]) -> list[_Marked]:
    """The lines that run through two heads that point at one another; at one of these another piece may go on."""
    found = []
    for k, row in _lying_on(tips, drawn, ends=True).items():
        length, along = tips.length(2 * k), tips.line(2 * k) / tips.length(2 * k)
        for (start, back, one), (end, onward, two) in pairwise(sorted(row, key=itemgetter(0))):
            size, ends = max(one.size, two.size), (tips.place(one.tip), tips.place(two.tip))
            if onward and not back and 2 * tips.near < (end - start) * length <= OUTSIDE * size:
                beside = [_onward(tips, tip) for tip, at in ((2 * k, start), (2 * k + 1, end)) if not 0.0 < at < 1.0]
                if len(beside) < len(ends) and all(beside):
                    whole = frozenset({k}).union(*beside)
                    found.append(_Marked(whole, ends, along, size, one.strokes | two.strokes))
    return found


def _onward(tips: Tips, tip: int) -> list[int]:
    """The straight strokes that go on from a tip in line with its own."""
    turns = ((t, abs(_turn(tips.line(t), tips.line(tip)))) for t in tips.beside.get(tip, ()) if tips.straight(t))
    return [t // 2 for t, turn in turns if math.pi - turn <= LIKE[1] / 2]


def _amid(tips: Tips, found: Sequence[_Marked]) -> list[_Marked]:
    """One for each line and each pair of heads, those first that stand nearest to the middle of their line.

    Tails are about as long as one another, and may run on over the heads of the next dimension.
    """
    kept, used = list[_Marked](), set[int | Point]()
    middles = tips.strokes.ends.reshape(-1, 2, 2).mean(axis=1)
    for one in sorted(found, key=lambda one: math.dist(np.mean(one.ends, axis=0), middles[min(one.row)])):
        # A head is known by its point: two that stand back to back have one base.
        if used.isdisjoint((*one.row, *one.ends)):
            kept.append(one)
            used.update((*one.row, *one.ends))
    return kept


def _square(tips: Tips, along: Floats) -> npt.NDArray[np.bool_]:
    """Which strokes are straight and square to a direction."""
    run = tips.strokes.ends[:, 2:] - tips.strokes.ends[:, :2]
    square: npt.NDArray[np.bool_] = (tips.strokes.bulge == 0) & (np.abs(run @ along) <= SKEW * np.hypot(*run.T))
    return square


def _square_to(tips: Tips, at: Point, along: Floats) -> set[int]:
    """The straight strokes square to a direction that pass a place."""
    square = _square(tips, along)
    return {k for k in tips.near_by(at, 2 * tips.near).tolist() if square[k]}


def _feet(tips: Tips, at: Point, line: _Marked, known: Set[int]) -> set[int]:
    """Straight strokes square to a dimension line that run from one of its ends, or from just beyond it, away.

    There they meet nothing but heads and dimension lines, `known`, and others in line with them, which end elsewhere: a
    wall that an arrow points to meets a groove's floor.
    """
    ends, square = tips.strokes.ends, _square(tips, line.along)
    one, two = (np.hypot(*(ends[:, side : side + 2] - at).T) for side in (0, 2))
    square &= np.abs((at - ends[:, :2]) @ line.along) <= 10 * tips.near
    fit = square & (np.minimum(one, two) <= line.size) & (np.maximum(one, two) > 2 * line.size)
    beside = {*known, *line.row, *line.heads, *np.flatnonzero(square).tolist()}
    return {k for k in np.flatnonzero(fit).tolist() if tips.hangs(2 * k + int(two[k] < one[k]), beside, line.size)}
