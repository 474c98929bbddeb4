"""Even rows: which grooves lie at one pitch, decided in whole numbers.

Every groove gives a window, the least and greatest count at which its place is still within tolerance. Some of them
form a row if there is a start and a shift with start + k * shift inside the k-th window for every k. For a given shift
q a start exists if lo_j - j q <= hi_k - k q for every pair; so each pair bounds q by itself, and the row is feasible
if and only if a whole number is left between the bounds. Windows run toward the chuck (z reversed), so counts rise.
"""

from collections.abc import Sequence
from itertools import pairwise

from extractor.values import dataclass

Window = tuple[int, int]


@dataclass(frozen=True)
class EvenRow:
    """Members (indices into the windows, rising), the count of the first and the shift; 0 where there is but one."""

    members: tuple[int, ...]
    start: int
    shift: int


@dataclass(frozen=True)
class GrowingRow:
    """A row in the making: windows so far and the bounds that they leave for the shift."""

    windows: tuple[Window, ...]
    low: int = 1
    high: int = 10**12

    def extended(self, window: Window) -> "GrowingRow | None":
        """The row with one window more, or None if no shift is left."""
        low, high, place = self.low, self.high, len(self.windows)
        for index, (before_low, before_high) in enumerate(self.windows):
            steps = place - index
            low = max(low, -((before_high - window[0]) // steps))
            high = min(high, (window[1] - before_low) // steps)
        return GrowingRow((*self.windows, window), low, high) if low <= high else None

    def reach(self) -> Window:
        """The least and greatest count at which a next member's window could begin to fit."""
        lowest = max(lo + (len(self.windows) - i) * self.low for i, (lo, _) in enumerate(self.windows))
        highest = min(hi + (len(self.windows) - i) * self.high for i, (_, hi) in enumerate(self.windows))
        return lowest, highest


class ShiftBounds:
    """The shifts left by windows added one by one, of any number.

    Of all windows before, those that bound the shift most are corners of a convex hull: the greatest slope from a
    window's high to a later low touches the lower hull of the highs, the least one the upper hull of the lows.
    """

    def __init__(self) -> None:
        """No window yet, and any shift."""
        self.low, self.high, self.count = 1, 10**12, 0
        self._highs: list[Window] = []
        self._lows: list[Window] = []

    def add(self, window: Window) -> bool:
        """Add one window; False if no shift is left."""
        low, high, place = self.low, self.high, self.count
        for before, count in self._highs:
            low = max(low, -((count - window[0]) // (place - before)))
        for before, count in self._lows:
            high = min(high, (window[1] - count) // (place - before))
        self.low, self.high, self.count = low, high, place + 1
        _add_corner(self._highs, (place, window[1]), 1)
        _add_corner(self._lows, (place, window[0]), -1)
        return low <= high


def _add_corner(hull: list[Window], point: Window, sign: int) -> None:
    """Append a point to a lower hull (sign 1) or an upper one (-1), and drop the corners that it makes idle."""
    (x, y), corners = point, hull
    while len(corners) > 1:
        (x0, y0), (x1, y1) = corners[-2:]
        if sign * ((x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)) > 0:
            break
        corners.pop()
    corners.append(point)


def narrowed(windows: Sequence[Window], aims: Sequence[float]) -> list[Window]:
    """Windows cut down to a quarter of the least distance between neighbours on either side of their aims.

    A tolerance as wide as the pitch would make a row of anything; nobody means that by one.

    >>> narrowed([(-50, 50), (50, 150), (250, 350)], [0, 100, 300])
    [(-25, 25), (75, 125), (275, 325)]
    """
    least = min((b - a for a, b in pairwise(sorted(aims))), default=0.0)
    if len(aims) < 2:
        return list(windows)
    most = int(least / 4)
    return [
        (min(max(low, round(aim) - most), high), max(min(high, round(aim) + most), low))
        for (low, high), aim in zip(windows, aims, strict=True)
    ]


def settle(members: Sequence[int], windows: Sequence[Window], aims: Sequence[float]) -> EvenRow:
    """The row's start and shift: among those allowed, the one whose greatest error from the aims is least.

    `aims` are the true places in counts. Tries the shifts next to the best fit, and all allowed if they are few.
    """
    chosen, places = [windows[m] for m in members], [aims[m] for m in members]
    if len(members) == 1:
        return EvenRow(tuple(members), _within(round(places[0]), chosen[0]), 0)
    low, high = _shift_bounds(chosen)
    best = (places[-1] - places[0]) / (len(places) - 1)
    nearest = max(low, min(high, round(best)))
    shifts = range(max(low, nearest - 2), min(high, nearest + 2) + 1)
    _error, shift, start = min(_placed(q, chosen, places) for q in shifts)
    return EvenRow(tuple(members), start, shift)


def _shift_bounds(windows: Sequence[Window]) -> Window:
    """The shifts that the windows leave; the row must be feasible."""
    bounds = ShiftBounds()
    if not all(bounds.add(window) for window in windows):
        raise ValueError("these windows hold no even row")
    return bounds.low, bounds.high


def _placed(shift: int, windows: Sequence[Window], places: Sequence[float]) -> tuple[float, int, int]:
    """Greatest error, shift and start of the best start for a shift."""
    low = max(lo - k * shift for k, (lo, _) in enumerate(windows))
    high = min(hi - k * shift for k, (_, hi) in enumerate(windows))
    offsets = [place - k * shift for k, place in enumerate(places)]
    start = _within(round((min(offsets) + max(offsets)) / 2), (low, high))
    return max(abs(start - offset) for offset in offsets), shift, start


def _within(value: int, window: Window) -> int:
    """The nearest count inside a window."""
    return max(window[0], min(window[1], value))
