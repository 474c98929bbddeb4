"""Texts that stand behind a tail of their dimension line, whose ends are marked from outside by heads or ticks.

    --->|  |<--- 3      -/|  |/- 3

The size of a narrow place stands so (ISO 129-1, from memory). It is of that line before any other, whatever is near.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from extractor.finding import Point
from extractor.sheet import Floats, Text
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips

TICK = math.radians(25.0), math.radians(65.0)
"""Slant of an oblique tick against its dimension line: 45 degrees, give or take (ISO 129-1, from memory)."""
TICK_AMID = 0.2
"""A tick's middle lies on the end of its line within this share of the tick."""
IN_LINE = 0.15
"""Letter heights that a text's middle, or its foot where that is given for it, lies off the line that it stands in."""
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
    the ticks at its ends.
    """

    strokes: tuple[int, ...]
    ends: tuple[Point, Point]
    in_line: bool = False
    through: bool = False

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


def between_ticks(tips: Tips, near: Sequence[int], text: Text) -> Iterator[DimensionLine]:
    """The lines between two ticks that tails end at from outside, a text behind one of these."""
    yield from (tails for k in near if _level(tips, k, text) and (tails := _tails(tips, k)) is not None)


def _tails(tips: Tips, k: int) -> DimensionLine | None:
    """The line between two ticks that a stroke ends at from outside, as another does in line with it."""
    for tip in (2 * k, 2 * k + 1):
        if not ticked(tips, tip) or ticked(tips, tip ^ 1):
            continue
        at, along = tips.at[tip], tips.line(tip) / tips.sizes[k]
        for j in tips.near_by(tips.place(tip), float(tips.sizes[k])).tolist():
            for other in (2 * j, 2 * j + 1):
                away = tips.at[other] - at
                apart = -float(away @ along)
                level = abs(float(away[0] * along[1] - away[1] * along[0])) <= SKEW * float(tips.sizes[k])
                facing = tips.straight(2 * j) and tips.toward(j, along) ** 2 >= (1 - SKEW) ** 2
                if j != k and level and facing and apart > 0 and ticked(tips, other) and not ticked(tips, other ^ 1):
                    ends = [tuple(tips.at[t].tolist()) for t in (tip, other)]
                    return DimensionLine((k, j), (ends[0], ends[1]), in_line=True)
    return None


def through_ticks(tips: Tips, k: int) -> DimensionLine | None:
    """The line between two ticks that a stroke runs through, those nearest to its middle: its tails are about alike.

    Those of its neighbours may lie on its tails. What runs from tick to tick is a line of its own, or a chain.
    """
    if ticked(tips, 2 * k) and ticked(tips, 2 * k + 1):
        return None
    start, size = tips.at[2 * k], float(tips.sizes[k])
    along = tips.line(2 * k) / size
    met = tips.tree.query(tips.tree.geometries[k], predicate="dwithin", distance=2 * tips.near)
    met = met[(met != k) & (tips.strokes.bulge[met] == 0)]
    lines, off = tips.at[2 * met + 1] - tips.at[2 * met], (tips.at[2 * met] + tips.at[2 * met + 1]) / 2 - start
    slant = np.arccos(np.minimum(1.0, np.abs(lines @ along) / tips.sizes[met]))
    across, run = np.abs(off[:, 0] * along[1] - off[:, 1] * along[0]), off @ along
    fit = (TICK[0] <= slant) & (slant <= TICK[1]) & (across <= TICK_AMID * tips.sizes[met]) & (run > 0) & (run < size)
    places: list[float] = run[fit].tolist()
    pairs = [pair for pair in pairwise(sorted(places)) if pair[1] - pair[0] > 2 * tips.near]
    if not pairs:
        return None
    one, two = (tuple((start + run * along).tolist()) for run in min(pairs, key=lambda pair: abs(sum(pair) - size)))
    return DimensionLine((k,), (one, two), through=True)


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


def ticked(tips: Tips, tip: int) -> bool:
    """True if a short slanting stroke has its middle at a tip: an oblique tick (ISO 129-1, from memory)."""
    k, at = tip // 2, tips.at[tip]
    along = tips.line(tip) / tips.sizes[k]
    for j in tips.near_by(tips.place(tip), 2 * tips.near).tolist():
        slant = math.acos(min(1.0, abs(tips.toward(j, along)))) if j != k and tips.straight(2 * j) else 0.0
        amid = math.dist(tips.middles[j], at.tolist()) <= TICK_AMID * tips.sizes[j]
        if TICK[0] <= slant <= TICK[1] and amid:
            return True
    return False
