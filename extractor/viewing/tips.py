"""The ends of strokes, and which of them lie at one place: lines of an outline meet end to end, others don't."""

from collections.abc import Set
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np
import shapely

from extractor.finding import Point
from extractor.geometry.crowds import close_pairs, refuse_crowds
from extractor.geometry.network import Strokes
from extractor.grouping import grouped
from extractor.sheet import Floats, Ints
from extractor.values import dataclass

CLEAR = 0.02
"""Letter heights by which a free end is clear of all else: less is a gap that a pen or a rounding left (ISO 129-1, from
memory: a gap that is meant is about as wide as eight lines, a third of a letter's height)."""


class Corners(NamedTuple):
    """Tips of straight strokes at one place, (m,) each: both, the angle between the strokes, and how long both are."""

    one: Ints
    two: Ints
    turn: Floats
    first: Floats
    second: Floats


@dataclass(frozen=True)
class Tips:
    """Both ends of every stroke: tip 2k is the start of stroke k, tip 2k + 1 its end. `near` is the noding distance."""

    strokes: Strokes
    near: float

    @cached_property
    def at(self) -> Floats:
        """Where the tips lie, float (2n, 2)."""
        return self.strokes.ends.reshape(-1, 2)

    @cached_property
    def pairs(self) -> Ints:
        """Tips of two strokes at one place, int (2, m), each pair both ways round. Raises TooDenseError."""
        refuse_crowds(self.at, 2 * self.near)
        pairs = close_pairs(self.at, 2 * self.near)
        return pairs[:, pairs[0] // 2 != pairs[1] // 2]

    @cached_property
    def corners(self) -> Corners:
        """The pairs of straight strokes among `pairs`."""
        straight = (self.strokes.bulge == 0)[self.pairs // 2].all(axis=0)
        one, two = self.pairs[:, straight]
        a, b = self.at[one ^ 1] - self.at[one], self.at[two ^ 1] - self.at[two]
        turn = np.arctan2(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]), (a * b).sum(axis=1))
        return Corners(one, two, turn, np.hypot(*a.T), np.hypot(*b.T))

    @cached_property
    def beside(self) -> dict[int, list[int]]:
        """The other strokes' tips at the place of each tip that has any."""
        return grouped(self.pairs.T.tolist())

    def line(self, tip: int) -> Floats:
        """The vector of a stroke from one of its tips to the other."""
        line: Floats = self.at[tip ^ 1] - self.at[tip]
        return line

    def place(self, tip: int) -> Point:
        """Where one tip lies."""
        x, y = self.at[tip].tolist()
        return x, y

    def length(self, tip: int) -> float:
        """How far apart both ends of a stroke lie."""
        return float(np.hypot(*self.line(tip)))

    @cached_property
    def sizes(self) -> Floats:
        """How far apart both ends of each stroke lie, float (n,)."""
        return self.strokes.chord_lengths

    def toward(self, k: int, along: Floats) -> float:
        """Cosine between a stroke and a direction."""
        return float(self.line(2 * k) @ along) / float(self.sizes[k])

    @cached_property
    def middles(self) -> list[Point]:
        """The middle between the ends of each stroke."""
        return [(x, y) for x, y in ((self.at[::2] + self.at[1::2]) / 2).tolist()]

    def straight(self, tip: int) -> bool:
        """True if the stroke of a tip is straight."""
        return bool(self.strokes.bulge[tip // 2] == 0)

    def free(self, tip: int) -> bool:
        """True if no other stroke ends at a tip."""
        return not self.beside.get(tip)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """All strokes as chords, to ask what lies at a place."""
        return shapely.STRtree(shapely.linestrings(self.strokes.ends.reshape(-1, 2, 2)))

    def near_by(self, place: Point, reach: float) -> Ints:
        """The strokes that pass a place within a distance."""
        # In a row of one: a point of its own is made twice as slowly.
        found: Ints = self.tree.query(shapely.points([place]), predicate="dwithin", distance=reach)[1]
        return found

    def hangs(self, tip: int, beside: Set[int] = frozenset(), height: float = 0.0) -> bool:
        """True if a tip lies on no other stroke, not even in its middle; strokes in `beside` don't count.

        `height`: that of the letters or heads beside it, to which small gaps in an outline are nothing.
        """
        return set(self.near_by(self.place(tip), max(2 * self.near, CLEAR * height)).tolist()) <= {tip // 2, *beside}


@lru_cache(maxsize=4)
def tips_of(strokes: Strokes, near: float) -> Tips:
    """The ends of some strokes, the same for all who ask: the rules of a sheet do one after the other."""
    return Tips(strokes, near)
