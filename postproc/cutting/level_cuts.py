"""Many level cuts into level metal at once, as whole arrays: what most programs for grooves are made of.

A level cut leaves its height wherever metal stood higher, so their order tells only which line left a height: the first
that came so low. Where a cut or the metal slopes, heights are rounded in the order of the cuts, and `metal` makes them
one by one; there a later cut that takes anything off is named for all of its length, also where it only grazes.
"""

from collections.abc import Iterable
from itertools import chain
from typing import NamedTuple

import numpy as np

from extractor.sheet import Ints
from extractor.side import Side
from postproc.cutting.insert import Insert
from postproc.cutting.metal import FARTHEST, CutProfile
from postproc.cutting.stock import Bench
from postproc.motion import Motion

COLUMNS = 7
"""Numbers of a move that tell what it sweeps."""


class LevelCuts(NamedTuple):
    """Level cuts in the order in which they are made, in the frame of one side: int (n,) each."""

    left: Ints
    right: Ints
    height: Ints
    line: Ints


def level_cuts(motions: Iterable[Motion], bench: Bench, side: Side) -> LevelCuts | None:
    """What the feed moves of a program sweep on one side; None where one slopes, or is not made by an insert."""
    feeds = [m for m in motions if m.kind == "feed"]
    tools = {(m.station, m.offset): bench.tool_at(m.station, m.offset) for m in feeds}
    inserts = {kept: bench.insert_for(tool) for kept, tool in tools.items() if tool is not None}
    if len(inserts) < len(tools) or not all(one.flat for one in inserts.values()):
        return None
    numbers = chain.from_iterable((m.x0, m.z0, m.x1, m.z1, m.line, m.station, m.offset) for m in feeds)
    try:
        rows = np.fromiter(numbers, np.int64, COLUMNS * len(feeds)).reshape(-1, COLUMNS)
    except OverflowError:
        return None
    ends = rows[:, :4]
    sloping = (rows[:, 0] != rows[:, 2]) & (rows[:, 1] != rows[:, 3])
    if sloping.any() or (len(ends) and np.abs(ends).max() > FARTHEST):
        return None
    return _on_side(rows, inserts, side)


def _on_side(rows: Ints, inserts: dict[tuple[int, int], Insert], side: Side) -> LevelCuts:
    """The cuts of the rows that are made by inserts of one side."""
    left, right = np.zeros(len(rows), np.int64), np.zeros(len(rows), np.int64)
    here = np.zeros(len(rows), bool)
    for (station, offset), insert in inserts.items():
        if insert.where == side.where:
            its = (rows[:, 5] == station) & (rows[:, 6] == offset)
            here |= its
            left[its], right[its] = insert.left, insert.right
    rows, left, right = rows[here], left[here], right[here]
    u, h = (rows[:, (1, 3)], side.sign * rows[:, (0, 2)]) if side.axial else (rows[:, (0, 2)], rows[:, (1, 3)])
    return LevelCuts(u.min(axis=1) + left, u.max(axis=1) + right, h.min(axis=1), rows[:, 4])


def is_level(metal: CutProfile) -> bool:
    """True for metal without a slope."""
    return bool((metal.start == metal.end).all())


def cut_levels(metal: CutProfile, cuts: LevelCuts) -> CutProfile:
    """What level cuts leave of level metal."""
    u = np.unique(np.concatenate((metal.u, cuts.left, cuts.right)))
    before = np.searchsorted(metal.u, u[:-1], side="right") - 1
    height, line = metal.start[before], metal.line[before]
    order = np.argsort(cuts.height, kind="stable")
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    lowest = _least(np.searchsorted(u, cuts.left), np.searchsorted(u, cuts.right), rank, len(height))
    made = np.flatnonzero(lowest < len(order))
    by = order[lowest[made]]
    deeper = cuts.height[by] < height[made]
    made, by = made[deeper], by[deeper]
    height[made], line[made] = cuts.height[by], cuts.line[by]
    kept = np.append(True, (height[1:] != height[:-1]) | (line[1:] != line[:-1]))
    return CutProfile(np.append(u[:-1][kept], u[-1]), height[kept], height[kept], line[kept])


def _least(first: Ints, behind: Ints, number: Ints, n: int) -> Ints:
    """For each of n places the least number of the ranges that hold it, from first to behind; their count for none.

    Each range is two that overlap, as long as a power of two; each of these is then two of half its length, and so on.
    """
    power = np.frexp(behind - first)[1] - 1
    least = np.full(n, len(number))
    for p in range(int(power.max(initial=0)), -1, -1):
        its = power == p
        np.minimum.at(least, first[its], number[its])
        np.minimum.at(least, behind[its] - (1 << p), number[its])
        if p:
            half, whole = 1 << (p - 1), least.copy()
            np.minimum(least[half:], whole[:-half], out=least[half:])
    return least
