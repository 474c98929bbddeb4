"""Even rows among very many like grooves: good and fast instead of exact.

Differences between near neighbours vote for pitches. For each of the favourites every groove is linked to the one a
pitch farther on; the longest chains that are even rows on the grid are taken. Chains only get shorter as grooves go, so
a pitch whose last count can't beat the best one isn't counted again. When a share of the grooves is gone, the vote is
taken again. What lies in no chain of a favourite is searched for any three at one pitch, and the rest is paired.
"""

from collections.abc import Iterable, Sequence

import numpy as np
import numpy.typing as npt

from extractor.sheet import Ints
from planner.rows.even import ShiftBounds, Window

Members = tuple[int, ...]
NEIGHBOURS = 40
FAVOURITES = 16
# Share of the grooves that must be left for the last vote to stand.
VOTE_STANDS = 0.9


def long_rows(windows: Sequence[Window]) -> list[Members]:
    """Rows that take every window once; windows rise.

    >>> long_rows([(i * 100 - 1, i * 100 + 1) for i in range(5)])
    [(0, 1, 2, 3, 4)]
    """
    left = np.arange(len(windows))
    rows: list[Members] = []
    while len(left) > 2:
        found = _by_favourites([windows[i] for i in left.tolist()])
        if not found:
            break
        rows += [tuple(int(left[i]) for i in row) for row in found]
        left = np.delete(left, [i for row in found for i in row])
    threes = _threes([windows[i] for i in left.tolist()])
    rows += [tuple(int(left[i]) for i in row) for row in threes]
    left = np.delete(left, [i for row in threes for i in row])
    return rows + [tuple(int(i) for i in left[k : k + 2]) for k in range(0, len(left), 2)]


def _by_favourites(windows: Sequence[Window]) -> list[Members]:
    """Rows of at least three by the favourite pitches of one vote, longest first, until the vote no longer stands."""
    bounds = np.array(windows, dtype=np.int64)
    links = [_followers(bounds, pitch, slack) for pitch, slack in _pitches(bounds)]
    free = np.ones(len(bounds), dtype=bool)
    most = [int(_lengths(link, free).max()) for link in links]
    rows: list[Members] = []
    while links and free.sum() >= VOTE_STANDS * len(bounds):
        length, best = 2, list[Members]()
        for place in sorted(range(len(links)), key=lambda i: -most[i]):
            if most[place] <= length:
                break
            chains = _chains(windows, links[place], free, length + 1)
            most[place] = max(map(len, chains), default=2)
            if most[place] > length:
                length, best = most[place], [chain for chain in chains if len(chain) == most[place]]
        if not best:
            break
        rows += best
        free[[i for row in best for i in row]] = False
    return rows


def _pitches(bounds: Ints) -> list[tuple[float, float]]:
    """The pitches that most pairs of near neighbours have, each with its slack; the smaller first among equals."""
    middle = bounds.mean(axis=1)
    slack = float((bounds[:, 1] - bounds[:, 0]).max()) + 1.0
    lags = range(1, min(NEIGHBOURS, len(bounds) - 1) + 1)
    differences = np.sort(np.concatenate([middle[lag:] - middle[:-lag] for lag in lags]))
    starts = np.flatnonzero(np.diff(np.round(differences / slack), prepend=-1.0))
    votes = np.diff(starts, append=len(differences))
    order = np.argsort(-votes, kind="stable")[:FAVOURITES]
    return [(float(differences[starts[i] + votes[i] // 2]), slack) for i in order]


def _followers(bounds: Ints, pitch: float, slack: float) -> Ints:
    """For each window the one whose middle lies nearest to a pitch farther on, their number where none is near."""
    middle, count = bounds.mean(axis=1), len(bounds)
    wanted = middle + pitch
    right = np.clip(np.searchsorted(middle, wanted), 1, count - 1)
    nearest = np.where(wanted - middle[right - 1] <= middle[right] - wanted, right - 1, right)
    fits = (np.abs(middle[nearest] - wanted) <= slack) & (nearest > np.arange(count))
    return np.where(fits, nearest, count)


def _lengths(following: Ints, free: npt.NDArray[np.bool_]) -> Ints:
    """How many free windows the chain from each one on has, by doubling the steps."""
    count = len(following)
    after = np.append(np.where(free, following, count), count)
    after[:count][~np.append(free, False)[after[:count]]] = count
    lengths = np.append(free, False).astype(np.int64)
    while (after < count).any():
        lengths = lengths + lengths[after]
        after = after[after]
    return lengths[:count]


def _chains(windows: Sequence[Window], following: Ints, free: npt.NDArray[np.bool_], least: int) -> list[Members]:
    """Chains of at least so many free members, cut where they stop being even on the grid; none share one."""
    heads = np.flatnonzero(_lengths(following, free) >= least)
    after, open_ones = following.tolist(), [*free.tolist(), False]
    chains: list[Members] = []
    for head in heads.tolist():
        row = _even_from(head, after, open_ones, windows)
        if len(row) >= least:
            chains.append(tuple(row))
            for member in row:
                open_ones[member] = False
    return chains


def _even_from(head: int, after: Sequence[int], open_ones: Sequence[bool], windows: Sequence[Window]) -> list[int]:
    """The chain from a head on, as far as it is even."""
    row: list[int] = []
    bounds = ShiftBounds()
    while open_ones[head] and bounds.add(windows[head]):
        row.append(head)
        head = after[head]
    return row


def _threes(windows: Sequence[Window]) -> list[Members]:
    """Any three at one pitch, each taken once; those whose members have the fewest others go first."""
    bounds, found = np.array(windows, dtype=np.int64).reshape(-1, 2), list[Ints]()
    for lag in range(1, len(bounds) - 1):
        first, second = bounds[: -lag or None], bounds[lag:]
        # start + 2 shift lies between these two, whatever start and shift are; not every count there does.
        low, high = 2 * second[:, 0] - first[:, 1], 2 * second[:, 1] - first[:, 0]
        third = np.searchsorted(bounds[:, 1], low)
        fits = third < len(bounds)
        fits[fits] = bounds[third[fits], 0] <= high[fits]
        places = np.flatnonzero(fits & (third > np.arange(lag, len(bounds))))
        found.append(np.stack([places, places + lag, third[places]], axis=1))
    return _apart(np.concatenate(found), windows) if found else []


def _apart(threes: Ints, windows: Sequence[Window]) -> list[Members]:
    """Threes that are even and share no member, the least wanted first."""
    wanted = np.bincount(threes.ravel(), minlength=len(windows))
    taken, chosen = set[int](), list[Members]()
    for three in threes[np.argsort(wanted[threes].sum(axis=1), kind="stable")].tolist():
        if taken.isdisjoint(three) and even_prefix(windows[i] for i in three) == 3:
            taken.update(three)
            chosen.append(tuple(three))
    return chosen


def even_prefix(windows: Iterable[Window]) -> int:
    """How many of these windows, from the first, form one even row on whole counts (see `planner.rows.even`).

    >>> even_prefix([(0, 0), (10, 10), (20, 20), (31, 31)])
    3
    """
    bounds, count = ShiftBounds(), 0
    for window in windows:
        if not bounds.add(window):
            break
        count += 1
    return count
