"""Arrow heads drawn as loose lines, and the dimension lines that they end: neither is ever outline.

A head is two strokes of one length that leave the end of a line at a small angle on either side of it, with a third
across them or with ends in the air. A line with a head at both ends is a dimension line; the lines that end at or just
beyond its ends and are square to it are its extension lines. Heads of a narrow dimension point inward from beyond its
ends, each on a tail or on none (ISO 129-1, from memory): without tails they count where both ends have one.
"""

import math
from collections.abc import Set
from dataclasses import dataclass

import numpy as np

from extractor.geometry.network import Strokes
from extractor.sheet import Floats
from extractor.viewing.tips import Tips

HALF = math.radians(3.0), math.radians(22.0)
"""Angle of a head's sides to its line: ISO 128 allows heads of 15 to 90 degrees; 15 to 30 in all are usual (the former
from memory, the latter common practice, no source)."""

LIKE = 0.05, math.radians(1.5)
"""The sides of a head differ by no more than this share of their length, and by this in angle."""


LONGEST = 4.0
"""A head is not this many times longer than its line: of a narrow dimension the heads are longer than the line."""


@dataclass(frozen=True)
class Arrows:
    """Labels of the strokes of arrow heads, of the dimension lines between two, and of their extension lines.

    `headed` are all straight strokes that end in a head.
    """

    heads: frozenset[int] = frozenset()
    lines: frozenset[int] = frozenset()
    extensions: frozenset[int] = frozenset()
    headed: frozenset[int] = frozenset()


def arrows(strokes: Strokes, near: float) -> Arrows:
    """All arrow heads with what belongs to them; `near` is the noding distance."""
    if not len(strokes):
        return Arrows()
    tips = Tips(strokes, near)
    heads: dict[int, set[int]] = {}
    for tip, sides in _sides(tips).items():
        head = _head(tips, tip, sides)
        if head:
            heads[tip] = head
    beyond = {tip: head for tip, sides in _sides(tips, -1).items() if (head := _head(tips, tip, sides, -1))}
    heads |= {tip: head for tip, head in beyond.items() if tip ^ 1 in heads or tip ^ 1 in beyond}
    lines = {tip // 2 for tip in heads if tip ^ 1 in heads}
    sizes = {k: max(_length(tips, 2 * s) for t in (2 * k, 2 * k + 1) for s in heads[t]) for k in lines}
    used = {k for head in heads.values() for k in head}
    feet = {j for k in lines for j in _feet(tips, k, sizes[k], used | lines)}
    label = strokes.label.tolist()
    named = [
        frozenset(label[k] for k in row) for row in (used, lines - used, feet - used - lines, {t // 2 for t in heads})
    ]
    return Arrows(*named)


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


def _head(tips: Tips, tip: int, sides: list[int], way: int = 1) -> set[int]:
    """The strokes of a head at a tip, none if two of the sides make none; beyond the end (`way` -1) it is closed."""
    line = way * tips.line(tip)
    for i, one in enumerate(sides):
        for two in sides[i + 1 :]:
            a, b = _turn(line, tips.line(one)), _turn(line, tips.line(two))
            lengths = _length(tips, one), _length(tips, two)
            if abs(a + b) > LIKE[1] or abs(lengths[0] - lengths[1]) > LIKE[0] * max(lengths):
                continue
            base = {t // 2 for t in tips.beside.get(one ^ 1, ())} & {t // 2 for t in tips.beside.get(two ^ 1, ())}
            open_ended = tips.free(one ^ 1) and tips.free(two ^ 1) and max(lengths) <= _length(tips, tip)
            if base or (open_ended and way > 0):
                return {one // 2, two // 2, *base}
    return set()


def _turn(line: Floats, side: Floats) -> float:
    """The angle from a line to a side, signed."""
    return math.atan2(line[0] * side[1] - line[1] * side[0], float(line @ side))


def _length(tips: Tips, tip: int) -> float:
    """Length of the stroke of a tip."""
    return float(np.hypot(*tips.line(tip)))


def _feet(tips: Tips, line: int, head: float, known: Set[int]) -> set[int]:
    """Straight strokes square to a dimension line that run from one of its ends, or from just beyond it, away.

    There they meet nothing but heads and dimension lines, `known`: a groove's floor that an arrow points to does.
    """
    ends = tips.strokes.ends
    d = ends[:, 2:] - ends[:, :2]
    size = np.hypot(*d.T)
    along = tips.line(2 * line) / _length(tips, 2 * line)
    square = (tips.strokes.bulge == 0) & (np.abs(d @ along) <= 1e-3 * size)
    found: set[int] = set()
    for tip in tips.at[2 * line : 2 * line + 2]:
        one, two = np.hypot(*(ends[:, :2] - tip).T), np.hypot(*(ends[:, 2:] - tip).T)
        off = np.abs((tip - ends[:, :2]) @ along)
        fit = square & (off <= 10 * tips.near) & (np.minimum(one, two) <= head) & (np.maximum(one, two) > 2 * head)
        found |= {k for k in np.flatnonzero(fit).tolist() if tips.hangs(2 * k + int(two[k] < one[k]), known)}
    return found
