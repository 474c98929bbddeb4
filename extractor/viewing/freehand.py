"""Freehand lines round a part of a view that is broken out in section (ISO 128-2 line 01.1.18, from memory).

Such a line is one curve, or one run of short chords, that sways to and fro, and it begins and ends in the middle of
other lines: a curve of the outline meets its neighbours end to end. One from a line to another along it cuts a view in
two, as a break line does, and is left.
"""

from itertools import pairwise

import numpy as np

from extractor.sheet import Floats, Ints, Segments
from extractor.viewing.alike import PARALLEL
from extractor.viewing.tips import Tips

SWAYS = 2
"""So often at least it turns from one side to the other: an S has one such place."""

TURN = np.radians(10.0)
"""And each way by more than this."""

CHORDS = 8
"""A freehand line in chords has at least so many: a groove with broken edges that is drawn as one line has five."""

SOFT = np.radians(45.0)
"""And most of its corners turn by no more than this: those of an outline are square."""


def freehand(segments: Segments, tips: Tips) -> frozenset[int]:
    """Labels of the strokes of freehand lines."""
    label = tips.strokes.label
    source = segments.source[label]
    found: set[int] = set()
    cuts = np.concatenate([[0], np.flatnonzero(np.diff(source)) + 1, [len(source)]])
    for k in np.flatnonzero(np.diff(cuts) > SWAYS).tolist():
        row = np.arange(cuts[k], cuts[k + 1])
        if not _chained(tips, row):
            continue
        turn = _turns(tips.strokes.ends[row])
        drawn = segments.sources[source[row[0]]].curve or (len(row) >= CHORDS and np.median(np.abs(turn)) <= SOFT)
        if drawn and _sways(turn) and _stands(tips, row):
            found |= {int(k) for k in label[row]}
    return frozenset(found)


def _chained(tips: Tips, row: Ints) -> bool:
    """True if strokes follow one another end to end."""
    ends = tips.strokes.ends[row]
    return bool((np.abs(ends[:-1, 2:] - ends[1:, :2]) <= tips.near).all())


def _turns(ends: Floats) -> Floats:
    """By how much a line turns from each stroke to the next, signed."""
    d = ends[:, 2:] - ends[:, :2]
    turn: Floats = np.arctan2(d[:-1, 0] * d[1:, 1] - d[:-1, 1] * d[1:, 0], (d[:-1] * d[1:]).sum(axis=1))
    return turn


def _sways(turn: Floats) -> bool:
    """True if a line turns from side to side."""
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
    beside = abs(a[0] * b[1] - a[1] * b[0]) <= PARALLEL * np.hypot(*a) * np.hypot(*b)
    gap = on[1][:2] - on[0][:2]
    in_line = abs(a[0] * gap[1] - a[1] * gap[0]) <= 2 * tips.near * np.hypot(*a)
    return bool(not beside or in_line)
