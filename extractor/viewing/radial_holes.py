"""Holes drilled from the side into one half of a section: their two walls part the land and the bore between them.

The mouths are drawn open, so neither half closes. They are closed here, each by the line of its land run on to the
other wall, where all of this shows a hole: a centre line of its own runs through the middle, past both mouths; both
walls are alike; the lands run away from it on both sides; and the other half has a line right across at both mouths.
Lengths are in drawing units.
"""

import numpy as np

from extractor.finding import Point
from extractor.geometry.network import Strokes
from extractor.sheet import Floats
from extractor.values import dataclass
from extractor.viewing.alike import SKEW
from extractor.viewing.axis import Axis


@dataclass(frozen=True)
class RadialHole:
    """A hole whose mouths were closed: the middle of its outer mouth on the sheet, and its width."""

    at: Point
    width: float


def with_mouths(strokes: Strokes, centres: Floats, near: float) -> tuple[Strokes, tuple[RadialHole, ...]]:
    """The strokes with the mouths of such holes closed, and the holes. `centres` float (n, 4): the centre lines."""
    ends, found = strokes.ends.copy(), []
    lengths = np.hypot(*(centres[:, 2:] - centres[:, :2]).T)
    along = (centres[:, 2:] - centres[:, :2]) / lengths[:, None]
    for k, (x0, y0, x1, y1) in enumerate(centres.tolist()):
        longer = centres[(np.abs(along @ along[k]) < SKEW) & (lengths > lengths[k])]
        own = Axis(((x0 + x1) / 2, (y0 + y1) / 2), (float(along[k, 0]), float(along[k, 1])))
        crossed = own.fold(longer.reshape(-1, 2)).reshape(-1, 4)
        axes = crossed[crossed[:, 1] * crossed[:, 3] < 0][:, 0::2].mean(axis=1)
        if len(axes):
            found += _closed(strokes, ends, own, float(lengths[k]) / 2, axes.tolist(), near)
    return (Strokes(ends, strokes.bulge, strokes.label) if found else strokes), tuple(found)


def _closed(
    strokes: Strokes, ends: Floats, own: Axis, reach: float, axes: list[float], near: float
) -> list[RadialHole]:
    """The hole about a centre line, its mouths closed in `ends`; none where something of it is missing.

    The line runs so far to both sides of its middle, and those that it may be square to cross it at `axes`.
    """
    (x, y), (ux, uy) = own.at, own.up
    across = (strokes.ends[:, 0] - x) * ux + (strokes.ends[:, 1] - y) * uy
    leaning = (strokes.ends[:, 2] - strokes.ends[:, 0]) * ux + (strokes.ends[:, 3] - strokes.ends[:, 1]) * uy
    along = np.flatnonzero((np.abs(leaning) <= near) & (np.abs(across) > near) & (strokes.bulge == 0))
    walls = own.fold(strokes.ends[along].reshape(-1, 2)).reshape(-1, 4)
    low, high = np.minimum(walls[:, 0], walls[:, 2]), np.maximum(walls[:, 0], walls[:, 2])
    within = (low > near - reach) & (high < reach - near) & (high - low > near)
    walls, low, high = walls[within], low[within], high[within]
    for one in np.flatnonzero(walls[:, 1] > 0).tolist():
        half, mouths = float(walls[one, 1]), (float(low[one]), float(high[one]))
        twin = (np.abs(walls[:, 1] + half) <= near) & (np.abs(low - mouths[0]) <= near)
        if not (twin & (np.abs(high - mouths[1]) <= near)).any():
            continue
        laid = own.fold(strokes.ends.reshape(-1, 2)).reshape(-1, 4)
        level = np.flatnonzero((strokes.bulge == 0) & (np.abs(laid[:, 0] - laid[:, 2]) <= near))
        for axis in (a for a in axes if (mouths[0] - a) * (mouths[1] - a) > 0):
            lands = [_land(laid[level], half, s, 2 * axis - s, near) for s in mouths]
            if None in lands:
                continue
            for (row, end), s in zip((m for m in lands if m is not None), mouths, strict=True):
                ends[level[row], end : end + 2] = own.unfold(s, -half)
            return [RadialHole(own.unfold(max(mouths, key=lambda s: abs(s - axis)), 0.0), 2 * half)]
    return []


def _land(rows: Floats, half: float, at: float, image: float, near: float) -> tuple[int, int] | None:
    """The row, and where its end stands in it, that begins at the mouth `at`; None where that is no mouth.

    A land runs away from each wall, nothing runs across between them, and a line runs right across at the `image`.
    """
    left, right = np.minimum(rows[:, 1], rows[:, 3]), np.maximum(rows[:, 1], rows[:, 3])
    here, there = np.abs(rows[:, 0] - at) <= near, np.abs(rows[:, 0] - image) <= near
    after = here & (np.abs(left - half) <= near)
    before = here & (np.abs(right + half) <= near)
    between = here & (left < half - near) & (right > near - half)
    whole = there & (left < near - half) & (right > half - near)
    if not (after.any() and before.any() and whole.any()) or between.any():
        return None
    row = int(np.flatnonzero(after)[0])
    return row, 0 if rows[row, 1] < rows[row, 3] else 2
