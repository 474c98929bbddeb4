"""Texts that stand behind a tail of their dimension line, whose ends are marked from outside by heads or ticks.

    --->|  |<--- 3      -/|  |/- 3

The size of a narrow place stands so (ISO 129-1, from memory). It is of that line before any other, whatever is near.
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from extractor.finding import Point
from extractor.sheet import LETTER, Floats, Text
from extractor.values import dataclass
from extractor.viewing.tips import Tips

TICK = math.radians(25.0), math.radians(65.0)
"""Slant of an oblique tick against its dimension line: 45 degrees, give or take (ISO 129-1, from memory)."""
TICK_AMID = 0.2
"""A tick's middle lies on the end of its line within this share of the tick."""
IN_LINE = 0.15
"""Letter heights that a text's middle, or its foot where that is given for it, lies off the line that it stands in."""
SQUARE = 1e-3
"""Share by which lines in line may be off, or cosine below which two are square to one another."""


def places(text: Text) -> tuple[Point, Point]:
    """Where a text begins, and about its middle: a size with a tolerance is far longer than a narrow groove is wide."""
    half, turn = LETTER * text.height * len(text.text) / 2, math.radians(text.angle)
    return text.at, (text.at[0] + half * math.cos(turn), text.at[1] + half * math.sin(turn))


class DimensionLine(NamedTuple):
    """What may be a dimension line: its strokes (by index, the first stands for all), and its ends.

    `in_line` if the ends are marked and the text stands behind one of its tails.
    """

    strokes: tuple[int, ...]
    ends: tuple[Point, Point]
    in_line: bool = False

    @property
    def size(self) -> float:
        """Its length."""
        return math.dist(*self.ends)

    @property
    def along(self) -> Floats:
        """Its direction."""
        along: Floats = np.subtract(self.ends[1], self.ends[0]) / self.size
        return along


@dataclass(frozen=True)
class InLine:
    """The strokes of a sheet, their lengths, and which of them are straight."""

    tips: Tips
    size: Floats
    straight: npt.NDArray[np.bool_]

    def own(self, line: DimensionLine, text: Text) -> DimensionLine:
        """A line that heads point to from outside, marked if a text stands behind one of its tails."""
        behind = len(line.strokes) > 1 and any(self._level(k, text) for k in line.strokes)
        return line._replace(in_line=behind)

    def between_ticks(self, near: Sequence[int], text: Text) -> Iterator[DimensionLine]:
        """The lines between two ticks that tails end at from outside, a text behind one of these."""
        yield from (tails for k in near if self._level(k, text) and (tails := self._tails(k)) is not None)

    def _tails(self, k: int) -> DimensionLine | None:
        """The line between two ticks that a stroke ends at from outside, as another does in line with it."""
        for tip in (2 * k, 2 * k + 1):
            if not self.ticked(tip) or self.ticked(tip ^ 1):
                continue
            at, along = self.tips.at[tip], self.tips.line(tip) / self.size[k]
            for j in self.tips.near_by((float(at[0]), float(at[1])), float(self.size[k])).tolist():
                for other in (2 * j, 2 * j + 1):
                    away = self.tips.at[other] - at
                    apart = -float(away @ along)
                    level = abs(float(away[0] * along[1] - away[1] * along[0])) <= SQUARE * float(self.size[k])
                    facing = self.straight[j] and self.toward(j, along) ** 2 >= (1 - SQUARE) ** 2
                    if j != k and level and facing and apart > 0 and self.ticked(other) and not self.ticked(other ^ 1):
                        ends = [tuple(self.tips.at[t].tolist()) for t in (tip, other)]
                        return DimensionLine((k, j), (ends[0], ends[1]), in_line=True)
        return None

    def _level(self, k: int, text: Text) -> bool:
        """True if a text stands in line with a stroke, not over it: its middle or its foot lies on that line."""
        turn, middle = math.radians(text.angle), places(text)[1]
        for up in (0.0, 0.5):
            at = np.array(middle) + up * text.height * np.array([-math.sin(turn), math.cos(turn)])
            off, along = at - self.tips.at[2 * k], self.tips.line(2 * k) / self.size[k]
            run = float(off @ along)
            beyond = not 0.0 <= run <= float(self.size[k])
            if abs(float(off[0] * along[1] - off[1] * along[0])) <= IN_LINE * text.height and beyond:
                return True
        return False

    def ticked(self, tip: int) -> bool:
        """True if a short slanting stroke has its middle at a tip: an oblique tick (ISO 129-1, from memory)."""
        k, at = tip // 2, self.tips.at[tip]
        along = self.tips.line(tip) / self.size[k]
        for j in self.tips.near_by((float(at[0]), float(at[1])), 2 * self.tips.near).tolist():
            slant = math.acos(min(1.0, abs(self.toward(j, along)))) if j != k and self.straight[j] else 0.0
            amid = math.dist(self.middle(j), at.tolist()) <= TICK_AMID * self.size[j]
            if TICK[0] <= slant <= TICK[1] and amid and float(self.size[j]) <= 2 * float(self.size[k]):
                return True
        return False

    def toward(self, j: int, along: Floats) -> float:
        """Cosine between a stroke and a direction."""
        return float((self.tips.at[2 * j + 1] - self.tips.at[2 * j]) @ along) / float(self.size[j])

    def middle(self, k: int) -> Point:
        """The middle of a stroke."""
        x, y = ((self.tips.at[2 * k] + self.tips.at[2 * k + 1]) / 2).tolist()
        return x, y
