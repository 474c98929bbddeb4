"""Rhythms of dashes in line: which of them, in order, make one line.

Each gives the first and the last of every row it finds; `span` float (n, 2) is where each dash begins and ends.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from extractor.geometry.stretches import DUST
from extractor.sheet import Floats

DASHES = 5
"""A row has so many at least: three long ones, or two with what stands between them and the next."""

LONGER = 2.0
"""A long dash is so many times as long as a short one at least: 4 in the standard's table, and hands draw less."""

EVEN = 0.1
"""Share by which dashes of one kind, and gaps, differ at most: a program drew them."""


def long_and_short(span: Floats) -> Iterator[tuple[int, int]]:
    """Long and short by turns; with what is left of a dash at either end."""
    size, gap = np.diff(span, axis=1)[:, 0], span[1:, 0] - span[:-1, 1]
    ratio = size[1:] / size[:-1]
    turn = np.where(ratio >= LONGER, 1, np.where(ratio * LONGER <= 1, -1, 0))
    link = (gap > DUST) & (gap <= np.maximum(size[1:], size[:-1])) & (turn != 0)
    goes_on = link[1:] & link[:-1] & (turn[1:] == -turn[:-1]) & alike(gap[1:], gap[:-1]) & alike(size[2:], size[:-2])
    for first, last in _runs(goes_on, 2):
        first, last = first + (turn[first] > 0), last - (turn[last - 1] < 0)
        if last - first + 1 >= DASHES:
            yield _with_ends(first, last, size, gap)


def alike_all(span: Floats) -> Iterator[tuple[int, int]]:
    """Of one length, with even gaps no longer than they are."""
    size, gap = np.diff(span, axis=1)[:, 0], span[1:, 0] - span[:-1, 1]
    link = (gap > DUST) & (gap <= size[1:] + DUST) & alike(size[1:], size[:-1])
    goes_on = link[1:] & link[:-1] & alike(gap[1:], gap[:-1])
    for first, last in _runs(goes_on, 2):
        if last - first + 1 >= DASHES:
            yield _with_ends(first, last, size, gap)


def two_short(span: Floats) -> Iterator[tuple[int, int]]:
    """One long and two short ones by turns, with even gaps no longer than the long one."""
    size, gap = np.diff(span, axis=1)[:, 0], span[1:, 0] - span[:-1, 1]
    long = np.maximum(np.maximum(size[:-2], size[1:-1]), size[2:])
    rest = np.sort(np.column_stack([size[:-2], size[1:-1], size[2:]]), axis=1)[:, :2]
    three = (long >= LONGER * rest[:, 1]) & alike(rest[:, 0], rest[:, 1]) & alike(gap[1:], gap[:-1])
    three &= (gap[1:] > DUST) & (gap[1:] <= long)
    goes_on = three[1:] & three[:-1] & alike(size[3:], size[:-3])
    for first, last in _runs(goes_on, 3):
        long_ones = size[first : last + 1] >= LONGER * size[first : last + 1].min()
        if last - first + 1 >= DASHES and long_ones.sum() > 1:
            yield _with_ends(first, last, size, gap)


def _runs(goes_on: npt.NDArray[np.bool_], ahead: int) -> Iterator[tuple[int, int]]:
    """The first and last dash of each run along which a rhythm goes on, each place looking so many dashes ahead."""
    turns = np.flatnonzero(np.diff(goes_on, prepend=False, append=False)).tolist()
    for first, behind in zip(turns[::2], turns[1::2], strict=True):
        yield first, behind - 1 + ahead


def _with_ends(first: int, last: int, size: Floats, gap: Floats) -> tuple[int, int]:
    """A row with what is left at either end of a short dash, a long one, or both."""
    even, long = gap[first], size[first] * (1 + EVEN)
    for _ in range(2):
        if first > 0 and alike(gap[first - 1], even) and size[first - 1] <= long:
            first -= 1
        if last < len(gap) and alike(gap[last], even) and size[last + 1] <= long:
            last += 1
    return first, last


def alike(one: Floats | float, two: Floats | float) -> npt.NDArray[np.bool_]:
    """Which lengths are one but for little."""
    fit: npt.NDArray[np.bool_] = np.abs(one - two) <= EVEN * np.maximum(one, two)
    return fit
