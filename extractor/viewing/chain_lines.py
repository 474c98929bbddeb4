"""Centre lines drawn dash by dash: long dashes in line, a short one or a dot between each two, even gaps.

So ISO 128-2 draws line 04 (from memory), and where the pieces are plain lines nothing but their row says what they are.
With two short dashes between the long ones it is line 05, that of a neighbour, a blank or a limit of travel: its
shorter sides have too few dashes to tell, and go with the rest of it. Rows of like dashes may be a hidden edge. But it
ends where the part ends: a row of like dashes that runs out of it at both ends, square to its faces and along their
middle, is its axis.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import shapely

from extractor.sheet import Floats, Ints, Pen, Segments, Sheet
from extractor.viewing.axis import IN_LINE
from extractor.viewing.dash_rhythms import DASHES, alike_all, long_and_short, two_short
from extractor.viewing.phantom_sides import going_on

OUT = 0.01
"""Share of a row of like dashes by which it runs on at either end beyond all that it meets, to be an axis: a hidden
edge ends at a face."""

TURN = 0.1
"""Radians by which directions are turned before they are rounded: level and upright ones then stand clear of a step."""

CLEAR = 0.4
"""Share of the gap within which another line may meet a short dash's end: a land that walls meet at both is no dash."""


@lru_cache(maxsize=2)
def with_chain_lines(sheet: Sheet) -> Sheet:
    """The sheet with the dashes of such rows as drawn with the pen of such a line. The last ones are kept."""
    segments = sheet.segments
    pens = {k: pen for row, pen in _rows(segments) for k in row}
    if Pen.PHANTOM in pens.values():
        rest = going_on(segments, [k for k, pen in pens.items() if pen is Pen.PHANTOM])
        pens = dict.fromkeys(rest, Pen.PHANTOM) | pens
    if not pens:
        return sheet
    found, source = sorted(pens), segments.source.copy()
    source[found] = len(segments.sources) + np.arange(len(found))
    named = (segments.sources[segments.source[k]]._replace(pen=pens[k]) for k in found)
    return replace(sheet, segments=replace(segments, source=source, sources=(*segments.sources, *named)))


def _rows(segments: Segments) -> Iterator[tuple[list[int], Pen]]:
    """The dashes of each row, in order, and the pen of such a line."""
    solid = segments.of(lambda s: s.pen is Pen.SOLID and s.owner in ("", "INSERT"))
    plain = solid & segments.of(lambda s: not s.curve and s.kind != "")
    run = segments.ends[:, 2:] - segments.ends[:, :2]
    plain &= (segments.bulge == 0) & (run != 0).any(axis=1)
    if plain.sum() < DASHES:
        return
    near, rows = IN_LINE * float(np.ptp(segments.ends)), list[tuple[Ints, float, Pen]]()
    for line in _in_line(segments.ends, np.flatnonzero(plain), near):
        along = run[line[0]] / math.hypot(*run[line[0]])
        span = np.sort(segments.ends[line].reshape(-1, 2, 2) @ along, axis=1)
        order = np.argsort(span[:, 0], kind="stable")
        gaps = span[order[1:], 0] - span[order[:-1], 1]
        for rhythm, pen in RHYTHMS.items():
            found = [(line[order[first : last + 1]], gaps[first + 1]) for first, last in rhythm(span[order])]
            found = [row for row in found if pen or _is_axis(segments.ends, row[0], solid, near)]
            rows += [(row, gap, pen or Pen.CENTRE) for row, gap in found]
    tips = shapely.STRtree(shapely.points(segments.ends.reshape(-1, 2) if rows else np.empty((0, 2))))
    for row, gap, pen in rows:
        if not _met(tips, row[1:-1], CLEAR * float(gap)).reshape(-1, 2).all(axis=1).any():
            yield row.tolist(), pen


RHYTHMS: dict[Callable[[Floats], Iterator[tuple[int, int]]], Pen | None] = {
    long_and_short: Pen.CENTRE,
    two_short: Pen.PHANTOM,
    alike_all: None,
}
"""How the dashes of a line follow, and its pen; None where only what it meets says that it is an axis."""


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
