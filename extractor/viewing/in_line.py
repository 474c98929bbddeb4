"""Texts that stand behind or over a tail of their dimension line, whose ends are marked from outside by heads or ticks.

                                       3
    --->|  |<--- 3      -/|  |/- 3   --->|  |<-----

The size of a narrow place stands so (ISO 129-1, from memory), and any other where its text was moved aside. One behind
a tail is of that line before any other, whatever is near.
"""

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely

from extractor.finding import Point
from extractor.remembered import remembered
from extractor.sheet import Flags, Floats, Ints, Text
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips

TICK = math.radians(25.0), math.radians(65.0)
"""Slant of an oblique tick against its dimension line: 45 degrees, give or take (ISO 129-1, from memory)."""
TICK_AMID = 0.2
"""A tick's middle lies on the end of its line within this share of the tick."""
IN_LINE = 0.15
"""Letter heights that a text's middle, or its foot where that is given for it, lies off the line that it stands in."""
OVER = 2.0
"""Letter heights from a tail to the middle of a text that runs along it, at most: one, and where a text hangs on its
upper edge, which is not known, one more."""
BESIDE = 0.8
"""Letter heights from a tail to a text square to it that stands beside it, at most: it is not turned with its line."""
HOME = 0.3, 1.5
"""Letter heights along a text and square to it from its middle to that of its line, at most."""


def places(text: Text) -> tuple[Point, Point]:
    """Where a text begins, and about its middle: a size with a tolerance is far longer than a narrow groove is wide."""
    (x, y), (u, v) = text.at, text.end
    return text.at, ((x + u) / 2, (y + v) / 2)


def amid(text: Text, ends: tuple[Point, Point]) -> bool:
    """True for a text over the middle of a line, or in it."""
    (along, up), (long, _) = text.seen(np.mean(ends, axis=0)), text.seen(text.end)
    return abs(along - long / 2) <= HOME[0] * text.height and abs(up - text.height / 2) <= HOME[1] * text.height


class DimensionLine(NamedTuple):
    """What may be a dimension line: its strokes (by index, the first stands for all), and its ends.

    `in_line` if the ends are marked and the text stands behind one of its tails. `through`: its stroke runs on through
    the ticks at its ends. `marked`: tails end at both from outside, and the text stands behind or over one.
    """

    strokes: tuple[int, ...]
    ends: tuple[Point, Point]
    in_line: bool = False
    through: bool = False
    marked: bool = False

    @property
    def size(self) -> float:
        """Its length."""
        return math.dist(*self.ends)

    @property
    def along(self) -> Floats:
        """Its direction."""
        along: Floats = np.subtract(self.ends[1], self.ends[0]) / self.size
        return along


def own(tips: Tips, line: DimensionLine, text: Text) -> DimensionLine:
    """A line that heads point to from outside, marked if a text stands behind one of its tails."""
    behind = len(line.strokes) > 1 and any(_level(tips, k, text) for k in line.strokes)
    return line._replace(in_line=behind)


def from_outside(tips: Tips, near: Sequence[int], text: Text, marked: Callable[[int], bool]) -> Iterator[DimensionLine]:
    """The lines between two `marked` tips that tails end at from outside, a text behind one of these or over it."""
    for tip in (tip for k in near for tip in (2 * k, 2 * k + 1) if marked(tip) and not marked(tip ^ 1)):
        level = _level(tips, tip // 2, text)
        other = _facing(tips, tip, marked) if level or _along(tips, tip, text) else None
        if other is not None:
            amid = {t // 2 for t in tips.beside.get(tip, ())} & {t // 2 for t in tips.beside.get(other, ())}
            strokes = (*sorted(k for k in amid if tips.straight(2 * k)), *sorted((tip // 2, other // 2)))
            yield DimensionLine(strokes, (tips.place(tip), tips.place(other)), in_line=level, marked=True)


def on_tail(tips: Tips, near: Sequence[int], text: Text, whole: Callable[[int], bool]) -> Iterator[DimensionLine]:
    """The lines with marks at both ends, `whole`, of which a text stands over a tail that runs on, or behind it."""
    for tip in (tip for k in near for tip in (2 * k, 2 * k + 1) if tips.straight(2 * k) and not whole(k)):
        along = tips.line(tip) / tips.length(tip)
        level = _level(tips, tip // 2, text)
        for other in tips.beside.get(tip, ()) if level or _along(tips, tip, text) else ():
            runs_on = tips.straight(other) and float(tips.line(other) @ along) <= -math.cos(SKEW) * tips.length(other)
            if runs_on and whole(other // 2):
                ends = tips.place(other ^ 1), tips.place(other)
                yield DimensionLine((other // 2, tip // 2), ends, in_line=level, marked=True)


def _facing(tips: Tips, tip: int, marked: Callable[[int], bool]) -> int | None:
    """The nearest tip ahead of a tail that another one ends at from the other side, in line with it."""
    size, away = tips.length(tip), tips.at - tips.at[tip]
    along, tails = tips.line(tip) / size, np.repeat(tips.at[::2] - tips.at[1::2], 2, axis=0)
    apart, beside = -(away @ along), np.abs(away[:, 0] * along[1] - away[:, 1] * along[0])
    leans = np.abs(tails[:, 0] * along[1] - tails[:, 1] * along[0]) <= SKEW * np.repeat(tips.sizes, 2)
    fit = np.flatnonzero((apart > 2 * tips.near) & (beside <= SKEW * (size + apart)) & leans)
    ahead = (t for t in fit[np.argsort(apart[fit])].tolist() if tips.straight(t) and tips.line(t) @ along < 0)
    return next((t for t in ahead if marked(t) and not marked(t ^ 1)), None)


def _along(tips: Tips, tip: int, text: Text) -> bool:
    """True if a text runs along a tail that ends at a tip and has its middle over it, or stands right beside it."""
    return _run_over(tips, tip, text) is not None


def _run_over(tips: Tips, tip: int, text: Text) -> float | None:
    """How far from a tip the middle of such a text is along its tail, None where it does not stand so."""
    (x, y), turn = places(text)[1], math.radians(text.angle)
    middle = np.array((x, y)) + text.height / 2 * np.array([-math.sin(turn), math.cos(turn)])
    size = tips.length(tip)
    along, off = tips.line(tip) / size, middle - tips.at[tip]
    run, up = float(off @ along), abs(float(off[0] * along[1] - off[1] * along[0]))
    turned = abs(along[0] * math.sin(turn) - along[1] * math.cos(turn))
    if turned >= math.cos(SKEW):
        over = 0.0 < run < size and 0.0 <= up - text.width / 2 <= BESIDE * text.height
    else:
        over = turned <= SKEW and 0.0 < run < size + text.height and up <= OVER * text.height
    return run if over else None


@remembered
def through_ticks(tips: Tips, k: int) -> DimensionLine | None:
    """The line between two ticks that a stroke runs through, those nearest to its middle: its tails are about alike.

    Those of its neighbours may lie on its tails. What runs from tick to tick is a line of its own, or a chain.
    """
    if ticked(tips, 2 * k) and ticked(tips, 2 * k + 1):
        return None
    start, size = tips.at[2 * k], float(tips.sizes[k])
    along = tips.line(2 * k) / size
    pairs = [pair for pair in pairwise(_ticks_on(tips, k)) if pair[1] - pair[0] > 2 * tips.near]
    if not pairs:
        return None
    one, two = (tuple((start + run * along).tolist()) for run in min(pairs, key=lambda pair: abs(sum(pair) - size)))
    return DimensionLine((k,), (one, two), through=True)


def _ticks_on(tips: Tips, k: int) -> list[float]:
    """How far from its start a stroke runs through ticks, in order."""
    start, size = tips.at[2 * k], float(tips.sizes[k])
    along = tips.line(2 * k) / size
    met = tips.tree.query(tips.tree.geometries[k], predicate="dwithin", distance=2 * tips.near)
    met = met[(met != k) & (tips.strokes.bulge[met] == 0)]
    lines, off = tips.at[2 * met + 1] - tips.at[2 * met], (tips.at[2 * met] + tips.at[2 * met + 1]) / 2 - start
    slant = np.arccos(np.minimum(1.0, np.abs(lines @ along) / tips.sizes[met]))
    across, run = np.abs(off[:, 0] * along[1] - off[:, 1] * along[0]), off @ along
    fit = (TICK[0] <= slant) & (slant <= TICK[1]) & (across <= TICK_AMID * tips.sizes[met]) & (run > 0) & (run < size)
    fit[fit] = [not _is_others(tips, int(j), k, along) for j in met[fit]]
    return sorted(run[fit].tolist())


def past_mark(
    tips: Tips, near: Sequence[int], text: Text, marked: Callable[[int], bool], dots: Floats
) -> Iterator[DimensionLine]:
    """The lines from a `marked` tip to a tick or one of some dots that they run on through, a text over or behind that.

    There is no other mark on such a line. `dots`: the middles of small circles, float (n, 2).
    """
    for tip in (tip for k in near for tip in (2 * k, 2 * k + 1) if marked(tip) and not marked(tip ^ 1)):
        size, far = tips.length(tip), _run_over(tips, tip, text)
        along = tips.line(tip) / size
        if far is None:
            continue
        off = dots - tips.at[tip]
        on = np.abs(off[:, 0] * along[1] - off[:, 1] * along[0]) <= 2 * tips.near
        runs = [*(size - run if tip % 2 else run for run in _ticks_on(tips, tip // 2)), *(off @ along)[on].tolist()]
        amid = [run for run in runs if 2 * tips.near < run < size - 2 * tips.near]
        if len(amid) == 1 and far > amid[0]:
            x, y = (tips.at[tip] + amid[0] * along).tolist()
            yield DimensionLine((tip // 2,), (tips.place(tip), (x, y)), marked=True)


def _is_others(tips: Tips, tick: int, k: int, along: Floats) -> bool:
    """True for a tick with its middle on another stroke in the direction of one, and not on that: a wall beside it."""
    amid = tips.near_by(tips.middles[tick], 2 * tips.near).tolist()
    level = [j for j in amid if tips.straight(2 * j) and abs(tips.toward(j, along)) >= math.cos(SKEW)]
    return bool(level) and k not in level


def _level(tips: Tips, k: int, text: Text) -> bool:
    """True if a text stands in line with a stroke, not over it: its middle or its foot lies on that line."""
    turn, middle = math.radians(text.angle), places(text)[1]
    for up in (0.0, 0.5):
        at = np.array(middle) + up * text.height * np.array([-math.sin(turn), math.cos(turn)])
        off, along = at - tips.at[2 * k], tips.line(2 * k) / tips.sizes[k]
        run = float(off @ along)
        beyond = not 0.0 <= run <= float(tips.sizes[k])
        if abs(float(off[0] * along[1] - off[1] * along[0])) <= IN_LINE * text.height and beyond:
            return True
    return False


@remembered
def ticked(tips: Tips, tip: int) -> bool:
    """True if an oblique tick stands at a tip."""
    return next(ticks_at(tips, tips.place(tip), tips.line(tip) / tips.sizes[tip // 2]), None) is not None


def ticks_at(tips: Tips, at: Point, along: Floats) -> Iterator[int]:
    """The straight strokes that slant against a line and have their middle at its end: ticks (ISO 129-1).

    No other stroke ends where a tick does, as at a land that a leader ends on.
    """
    for j in tips.near_by(at, 2 * tips.near).tolist():
        alone = tips.straight(2 * j) and tips.free(2 * j) and tips.free(2 * j + 1)
        slant = math.acos(min(1.0, abs(tips.toward(j, along)))) if alone else 0.0
        if TICK[0] <= slant <= TICK[1] and math.dist(tips.middles[j], at) <= TICK_AMID * tips.sizes[j]:
            yield j


@remembered
def loose_ticks(tips: Tips) -> tuple[int, ...]:
    """The straight strokes that slant across the end of another one and hang free on both sides of it, as ticks do.

    One more passes there, or ends: that end's extension line. No edge of a part lies so: it ends at another edge.
    """
    alone = np.bincount(tips.pairs[0], minlength=len(tips.at)) == 0
    free = np.flatnonzero((tips.strokes.bulge == 0) & alone.reshape(-1, 2).all(axis=1))
    if not len(free):
        return ()
    middles, ends = shapely.points(np.array(tips.middles).reshape(-1, 2)[free]), shapely.points(tips.at)
    which, tip = shapely.STRtree(ends).query(middles, "dwithin", TICK_AMID * tips.sizes[free])
    found = dict[int, set[int]]()
    # The stroke that ends there is one of those met: in a grid of a thousand lines across a thousand none leans.
    leans = _lean(tips, free[which], tip // 2)
    for k, t in np.column_stack([free[which], tip])[leans].tolist():
        if t // 2 not in found.get(k, ()):
            met = tips.near_by(tips.place(t), 2 * tips.near)
            others = met[met != k]
            if len(others) < len(met) and _lean(tips, np.full_like(others, k), others).all():
                found.setdefault(k, set()).update(others.tolist())
    return tuple(k for k, met in found.items() if len(met) > 1 and tips.hangs(2 * k) and tips.hangs(2 * k + 1))


def between_ticks(tips: Tips) -> Iterator[int]:
    """The straight strokes at both whose ends such ticks have their middle: dimension lines, whatever they print.

    And those that run on from them at a tick and hang free: their tails.
    """
    ticks = sorted(loose_ticks(tips))
    if not ticks:
        return
    middles = shapely.points(np.array(tips.middles)[ticks])
    _, tip = shapely.STRtree(shapely.points(tips.at)).query(middles, "dwithin", TICK_AMID * tips.sizes[ticks])
    for k, ends in Counter(t // 2 for t in np.unique(tip).tolist() if t // 2 not in ticks).items():
        if ends > 1 and ticked(tips, 2 * k) and ticked(tips, 2 * k + 1):
            yield k
            yield from (tail for tip in (2 * k, 2 * k + 1) for tail in _tails(tips, tip))


def _tails(tips: Tips, tip: int) -> Iterator[int]:
    """The straight strokes that run on from a tip in line with its own and hang free, but for one another."""
    along = tips.line(tip) / tips.length(tip)
    level = (o for o in tips.beside.get(tip, ()) if tips.straight(o))
    found = [o for o in level if float(tips.line(o) @ along) <= -math.cos(SKEW) * tips.length(o)]
    beside = {o // 2 for o in found}
    yield from (o // 2 for o in found if tips.hangs(o ^ 1, beside))


def _lean(tips: Tips, one: Ints, other: Ints) -> Flags:
    """Which pairs of strokes are straight and lean against one another as a tick does against its line."""
    a, b = (tips.at[2 * some + 1] - tips.at[2 * some] for some in (one, other))
    turn = np.arctan2(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]), np.abs((a * b).sum(axis=1)))
    straight = tips.strokes.bulge == 0
    leaning: Flags = straight[one] & straight[other] & (turn >= TICK[0]) & (turn <= TICK[1])
    return leaning
