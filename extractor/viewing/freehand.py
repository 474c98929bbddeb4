"""Freehand lines round a part of a view that is broken out in section (ISO 128-2 line 01.1.18, from memory).

Such a line is one curve that sways to and fro, and it begins and ends in the middle of other lines: a curve of the
outline meets its neighbours end to end. One from a line to another along it cuts a view in two, as a break line does,
and is left.
"""

from itertools import pairwise

import numpy as np

from extractor.sheet import Floats, Ints, Segments
from extractor.viewing.tips import Tips

SWAYS = 2
"""So often at least it turns from one side to the other: an S has one such place."""

TURN = np.radians(10.0)
"""And each way by more than this."""

ALONG = 0.02
"""Sine of the angle up to which two lines run along one another."""


def freehand(segments: Segments, tips: Tips) -> frozenset[int]:
    """Labels of the strokes of freehand lines."""
    label = tips.strokes.label
    source = segments.source[label]
    curved = np.flatnonzero(np.array([s.curve for s in segments.sources], dtype=bool)[source])
    found: set[int] = set()
    for row in np.split(curved, np.flatnonzero(np.diff(source[curved])) + 1):
        if len(row) > SWAYS and _chained(tips, row) and _sways(tips.strokes.ends[row]) and _stands(tips, row):
            found |= {int(k) for k in label[row]}
    return frozenset(found)


def _chained(tips: Tips, row: Ints) -> bool:
    """True if strokes follow one another end to end."""
    ends = tips.strokes.ends[row]
    return bool((np.abs(ends[:-1, 2:] - ends[1:, :2]) <= tips.near).all())


def _sways(ends: Floats) -> bool:
    """True if a line turns from side to side."""
    d = ends[:, 2:] - ends[:, :2]
    turn = np.arctan2(d[:-1, 0] * d[1:, 1] - d[:-1, 1] * d[1:, 0], (d[:-1] * d[1:]).sum(axis=1))
    ways = np.split(turn, np.flatnonzero(np.diff(np.sign(turn))) + 1)
    clear = [np.sign(way.sum()) for way in ways if abs(way.sum()) > TURN]
    return sum(bool(one != two) for one, two in pairwise(clear)) >= SWAYS


def _stands(tips: Tips, row: Ints) -> bool:
    """True if both ends stand on other lines, in the middle of them, that don't run along one another."""
    on: list[Floats] = []
    for tip in (2 * int(row[0]), 2 * int(row[-1]) + 1):
        x, y = tips.at[tip].tolist()
        met = [k for k in tips.near_by((x, y), 2 * tips.near).tolist() if k not in row]
        if not tips.free(tip) or len(met) != 1:
            return False
        on.append(tips.strokes.ends[met[0]])
    a, b = (line[2:] - line[:2] for line in on)
    beside = abs(a[0] * b[1] - a[1] * b[0]) <= ALONG * np.hypot(*a) * np.hypot(*b)
    gap = on[1][:2] - on[0][:2]
    in_line = abs(a[0] * gap[1] - a[1] * gap[0]) <= 2 * tips.near * np.hypot(*a)
    return bool(not beside or in_line)
