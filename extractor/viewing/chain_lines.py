"""Centre lines drawn dash by dash: long dashes in line, a short one or a dot between each two, even gaps.

So ISO 128-2 draws line 04 (from memory), and where the pieces are plain lines nothing but their row says what they are.
Rows of like dashes may be a hidden edge, those with two short ones between the long ones are no centre lines. But a
hidden edge ends where the part ends: a row of like dashes that runs out of it at both ends, square to its faces and
along their middle, is its axis.
"""

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import shapely

from extractor.geometry.stretches import DUST
from extractor.sheet import Floats, Ints, Pen, Segments, Sheet
from extractor.viewing.axis import IN_LINE

DASHES = 5
"""A row has so many at least: three long ones."""

LONGER = 2.0
"""A long dash is so many times as long as a short one at least: 4 in the standard's table, and hands draw less."""

EVEN = 0.1
"""Share by which dashes of one kind, and gaps, differ at most: a program drew them."""

OUT = 0.01
"""Share of a row of like dashes by which it runs on at either end beyond all that it meets, to be an axis: a hidden
edge ends at a face."""

TURN = 0.1
"""Radians by which directions are turned before they are rounded: level and upright ones then stand clear of a step."""

CLEAR = 0.4
"""Share of the gap within which another line may meet a short dash's end: a land that walls meet at both is no dash."""


@lru_cache(maxsize=2)
def with_chain_lines(sheet: Sheet) -> Sheet:
    """The sheet with the dashes of such rows as drawn with the pen of a centre line. The last ones are kept."""
    segments = sheet.segments
    found = sorted({k for row in _rows(segments) for k in row})
    if not found:
        return sheet
    source = segments.source.copy()
    source[found] = len(segments.sources) + np.arange(len(found))
    named = (segments.sources[k]._replace(pen=Pen.CENTRE) for k in segments.source[found].tolist())
    return replace(sheet, segments=replace(segments, source=source, sources=(*segments.sources, *named)))


def _rows(segments: Segments) -> Iterator[list[int]]:
    """The dashes of each row, in order."""
    solid = segments.of(lambda s: s.pen is Pen.SOLID and s.owner in ("", "INSERT"))
    plain = solid & segments.of(lambda s: not s.curve and s.kind != "")
    run = segments.ends[:, 2:] - segments.ends[:, :2]
    plain &= (segments.bulge == 0) & (run != 0).any(axis=1)
    if plain.sum() < DASHES:
        return
    near, rows = IN_LINE * float(np.ptp(segments.ends)), list[tuple[Ints, float]]()
    for line in _in_line(segments.ends, np.flatnonzero(plain), near):
        along = run[line[0]] / math.hypot(*run[line[0]])
        span = np.sort(segments.ends[line].reshape(-1, 2, 2) @ along, axis=1)
        order = np.argsort(span[:, 0], kind="stable")
        gaps = span[order[1:], 0] - span[order[:-1], 1]
        found = [(*row, False) for row in _even(span[order])] + [(*row, True) for row in _like(span[order])]
        mine = [(line[order[first : last + 1]], first, like) for first, last, like in found]
        rows += [
            (row, gaps[first + 1]) for row, first, like in mine if not like or _is_axis(segments.ends, row, solid, near)
        ]
    tips = shapely.STRtree(shapely.points(segments.ends.reshape(-1, 2) if rows else np.empty((0, 2))))
    for row, gap in rows:
        if not _met(tips, row[1:-1], CLEAR * float(gap)).reshape(-1, 2).all(axis=1).any():
            yield row.tolist()


def _is_axis(drawn: Floats, row: Ints, solid: npt.NDArray[np.bool_], near: float) -> bool:
    """True if like dashes run out beyond all lines that they meet, the outermost of which they halve or end.

    A face of the part lies alike on both sides of its axis, or ends on it where half of it is drawn.
    """
    ends, others = drawn[row].reshape(-1, 2), solid.copy()
    others[row] = False
    start = ends[np.argmin(ends @ (ends[-1] - ends[0]))]
    away = ends - start
    along = away[np.argmax(np.hypot(*away.T))]
    length = float(np.hypot(*along))
    ux, uy = along / length
    off = (drawn[others].reshape(-1, 2) - start).reshape(-1, 2, 2)
    run, aside = off[..., 0] * ux + off[..., 1] * uy, off[..., 1] * ux - off[..., 0] * uy
    meets = (aside.min(axis=1) <= near) & (aside.max(axis=1) >= -near) & (np.ptp(aside, axis=1) > near)
    run, aside = run[meets], aside[meets]
    share = (aside[:, 0] / (aside[:, 0] - aside[:, 1])).clip(0.0, 1.0)
    at = run[:, 0] + share * (run[:, 1] - run[:, 0])
    alike = (np.abs(aside.sum(axis=1)) <= 2 * near) | (np.abs(aside).min(axis=1) <= near)
    inside = (at > 0) & (at < length)
    if not inside.any():
        return False
    first, last = float(at[inside].min()), float(at[inside].max())
    outermost = inside & ((at <= first + near) | (at >= last - near))
    return min(first, length - last) >= OUT * length and first + near < last and bool(alike[outermost].all())


def _met(tips: shapely.STRtree, dashes: Ints, reach: float) -> npt.NDArray[np.bool_]:
    """Whether another segment's end lies near the tips of some, (2m,); `tips` are two of each segment."""
    mine = np.column_stack([2 * dashes, 2 * dashes + 1]).ravel()
    at, other = tips.query(tips.geometries[mine], "dwithin", reach)
    return np.bincount(at[other // 2 != mine[at] // 2], minlength=len(mine)) > 0


def _in_line(ends: Floats, rows: Ints, near: float) -> Iterator[Ints]:
    """The straight segments among some that lie on one line, where there are enough of them."""
    run = ends[rows, 2:] - ends[rows, :2]
    turn = np.round((np.arctan2(run[:, 1], run[:, 0]) + TURN) % math.pi, 3)
    by_turn = np.argsort(turn, kind="stable")
    for mine in np.split(by_turn, np.flatnonzero(np.diff(turn[by_turn])) + 1):
        if len(mine) < DASHES:
            continue
        x, y = run[mine[np.hypot(*run[mine].T).argmax()]]
        off = (ends[rows[mine], :2] * (-y, x)).sum(axis=1) / math.hypot(x, y)
        order = np.argsort(off, kind="stable")
        lines = np.split(mine[order], np.flatnonzero(np.diff(off[order]) > near) + 1)
        yield from (rows[line] for line in lines if len(line) >= DASHES)


def _even(span: Floats) -> Iterator[tuple[int, int]]:
    """The first and last of each row of dashes, long and short by turns, that begins and ends with a long one.

    `span` float (n, 2) is where each begins and ends, in order.
    """
    size, gap = np.diff(span, axis=1)[:, 0], span[1:, 0] - span[:-1, 1]
    ratio = size[1:] / size[:-1]
    turn = np.where(ratio >= LONGER, 1, np.where(ratio * LONGER <= 1, -1, 0))
    link = (gap > DUST) & (gap <= np.maximum(size[1:], size[:-1])) & (turn != 0)
    goes_on = link[1:] & link[:-1] & (turn[1:] == -turn[:-1]) & _alike(gap[1:], gap[:-1]) & _alike(size[2:], size[:-2])
    for run in np.split(np.arange(len(goes_on)), np.flatnonzero(~goes_on)):
        run = run[goes_on[run]] if len(run) else run
        if len(run):
            first, last = int(run[0]), int(run[-1]) + 2
            first, last = first + (turn[first] > 0), last - (turn[last - 1] < 0)
            if last - first + 1 >= DASHES:
                yield _with_ends(first, last, size, gap)


def _like(span: Floats) -> Iterator[tuple[int, int]]:
    """The first and last of each row of dashes of one length with even gaps, no longer than they are."""
    size, gap = np.diff(span, axis=1)[:, 0], span[1:, 0] - span[:-1, 1]
    link = (gap > DUST) & (gap <= size[1:] + DUST) & _alike(size[1:], size[:-1])
    goes_on = link[1:] & link[:-1] & _alike(gap[1:], gap[:-1])
    for run in np.split(np.arange(len(goes_on)), np.flatnonzero(~goes_on)):
        run = run[goes_on[run]] if len(run) else run
        if len(run) and run[-1] + 3 - run[0] >= DASHES:
            yield _with_ends(int(run[0]), int(run[-1]) + 2, size, gap)


def _with_ends(first: int, last: int, size: Floats, gap: Floats) -> tuple[int, int]:
    """A row with what is left at either end of a short dash, a long one, or both."""
    even, long = gap[first], size[first] * (1 + EVEN)
    for _ in range(2):
        if first > 0 and _alike(gap[first - 1], even) and size[first - 1] <= long:
            first -= 1
        if last < len(gap) and _alike(gap[last], even) and size[last + 1] <= long:
            last += 1
    return first, last


def _alike(one: Floats | float, two: Floats | float) -> npt.NDArray[np.bool_]:
    """Which lengths are one but for little."""
    fit: npt.NDArray[np.bool_] = np.abs(one - two) <= EVEN * np.maximum(one, two)
    return fit
