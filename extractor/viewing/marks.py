"""Surface-texture marks drawn as loose lines: two legs that stand on a line, one about twice as long as the other.

ISO 1302 (from memory) gives the symbol: both legs lean 60 degrees to the surface, so 60 to one another; the longer one
ends in the air or carries a line that does; a bar may close the shorter one off to a triangle. No outline has two lines
that meet like that and end in the air. The longer leg may be drawn in two pieces that join at the bar.
"""

import math

import numpy as np

from extractor.geometry.network import Strokes
from extractor.sheet import Floats
from extractor.viewing.alike import SKEW
from extractor.viewing.tips import Tips, tips_of

ANGLE = math.radians(60.0), math.radians(5.0)
"""Angle between the legs, and how far a draughtsman may be off."""

LONGER = (1.6, 3.5)
"""The long leg's length by the short one's: 2 to 2.2 in the standard's table, more where it carries much text."""

NO_LONGER = 1.1
"""The short leg is at most so many times as long as the stroke it leans from: that one may be the first piece of the
long leg, as long as the short one."""

ALONG = 0.3
"""The bar meets the long leg after at least this share of its own length."""

UP = 0.2
"""And at this share of the long leg's height or above: lower it is an edge of the outline beside the mark."""

BEYOND = 1e-3
"""Share by which the bar or the leg may fall short of where they meet."""


def texture_marks(strokes: Strokes, near: float) -> frozenset[int]:
    """Labels of the strokes of surface-texture marks; `near` is the noding distance."""
    if not len(strokes):
        return frozenset()
    tips = tips_of(strokes, near)
    marks = [_mark(tips, foot, other) for foot, other in _leaning(tips)]
    return frozenset(int(strokes.label[k]) for mark in marks for k in mark)


def _leaning(tips: Tips) -> list[tuple[int, int]]:
    """Pairs of tips at one place whose straight strokes enclose the angle of a mark, the shorter stroke first."""
    met = tips.corners
    fit = (met.first <= met.second * NO_LONGER) & (np.abs(met.turn - ANGLE[0]) <= ANGLE[1])
    return list(zip(met.one[fit].tolist(), met.two[fit].tolist(), strict=True))


def _mark(tips: Tips, foot: int, other: int) -> set[int]:
    """The strokes of a mark whose short leg begins at tip `foot` and its long one at `other`, none if it is none."""
    short, head = tips.line(foot), other ^ 1
    ends = {foot // 2, other // 2}
    onward = [t for t in tips.beside.get(head, ()) if tips.straight(t) and _in_line(tips.line(other), tips.line(t))]
    if onward:
        ends.add(onward[0] // 2)
        head = onward[0] ^ 1
    long = tips.at[head] - tips.at[other]
    if not LONGER[0] <= math.hypot(*long) / math.hypot(*short) <= LONGER[1]:
        return set()
    bars = [t for t in tips.beside.get(foot ^ 1, ()) if _is_bar(tips, t, tips.at[other], long)]
    text = [t for t in tips.beside.get(head, ()) if tips.straight(t) and tips.free(t ^ 1)]
    if len(bars) != len(tips.beside.get(foot ^ 1, ())) or len(text) != len(tips.beside.get(head, ())):
        return set()
    return ends | {t // 2 for t in (*bars, *text)}


def _in_line(one: Floats, two: Floats) -> bool:
    """True if a piece carries on in the direction of another."""
    cross = float(one[0] * two[1] - one[1] * two[0])
    return bool(abs(cross) <= SKEW * math.hypot(*one) * math.hypot(*two) and float(one @ two) > 0)


def _is_bar(tips: Tips, tip: int, base: Floats, long: Floats) -> bool:
    """True if a stroke runs from the short leg's head to the long leg's side and stops there, or a little beyond."""
    if not tips.straight(tip):
        return False
    line, start = tips.line(tip), tips.at[tip]
    cross = line[0] * long[1] - line[1] * long[0]
    if not np.isfinite(cross) or cross == 0:
        return False
    gap = base - start
    along = (gap[0] * long[1] - gap[1] * long[0]) / cross
    up = (gap[0] * line[1] - gap[1] * line[0]) / cross
    return bool(ALONG <= along <= 1 + BEYOND and UP <= up <= 1 + BEYOND)
