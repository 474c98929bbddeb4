"""Even rows among very many like grooves: good and fast instead of exact.

Differences between near neighbours vote for pitches. For each of the favourites every groove is linked to the one a
pitch farther on; the longest chains that are even rows on the grid are taken, and the vote is held anew. What is left
in no chain of three is paired with its neighbour.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from planner.rows.even import Window

Ints = npt.NDArray[np.int64]
Members = tuple[int, ...]
NEIGHBOURS = 40
FAVOURITES = 16


def long_rows(windows: Sequence[Window]) -> list[Members]:
    """Rows that take every window once; windows rise.

    >>> long_rows([(i * 100 - 1, i * 100 + 1) for i in range(5)])
    [(0, 1, 2, 3, 4)]
    """
    bounds = np.array(windows, dtype=np.int64)
    left = np.arange(len(windows))
    rows: list[Members] = []
    while len(left) > 2:
        chains = _best_chains(bounds[left])
        if not chains:
            break
        rows += [tuple(int(i) for i in left[chain]) for chain in chains]
        left = np.delete(left, np.concatenate(chains))
    return rows + [tuple(int(i) for i in left[k : k + 2]) for k in range(0, len(left), 2)]


def _best_chains(bounds: Ints) -> list[Ints]:
    """The longest chains of one pitch, at least three long, none sharing a member."""
    best: list[Ints] = []
    length = 2
    for pitch, slack in _pitches(bounds):
        chains = _chains(bounds, pitch, slack, length + 1)
        longest = max((len(chain) for chain in chains), default=0)
        if longest > length:
            length, best = longest, [chain for chain in chains if len(chain) == longest]
    return best


def _pitches(bounds: Ints) -> list[tuple[float, float]]:
    """The pitches that most pairs of near neighbours have, each with its slack; the smaller first among equals."""
    middle = bounds.mean(axis=1)
    slack = float((bounds[:, 1] - bounds[:, 0]).max()) + 1.0
    lags = range(1, min(NEIGHBOURS, len(bounds) - 1) + 1)
    differences = np.concatenate([middle[lag:] - middle[:-lag] for lag in lags])
    values, votes = np.unique(np.round(differences / slack).astype(np.int64), return_counts=True)
    order = np.lexsort((values, -votes))[:FAVOURITES]
    return [(float(np.median(differences[np.round(differences / slack) == v])), slack) for v in values[order]]


def _chains(bounds: Ints, pitch: float, slack: float, least: int) -> list[Ints]:
    """Chains of one pitch of at least so many members, cut where they stop being even on the grid."""
    following = _followers(bounds, pitch, slack)
    taken = [False] * len(bounds)
    chains = []
    for head in range(len(bounds)):
        chain, after = [], head
        while after >= 0 and not taken[after]:
            chain.append(after)
            after = following[after]
        if len(chain) >= least:
            row = chain[: even_prefix(bounds[chain])]
            for member in row:
                taken[member] = True
            chains.append(np.array(row))
    return chains


def _followers(bounds: Ints, pitch: float, slack: float) -> list[int]:
    """For each window the one whose middle lies nearest to a pitch farther on, -1 where none is within the slack."""
    middle = bounds.mean(axis=1)
    wanted = middle + pitch
    right = np.clip(np.searchsorted(middle, wanted), 1, len(middle) - 1)
    nearest = np.where(wanted - middle[right - 1] <= middle[right] - wanted, right - 1, right)
    fits = (np.abs(middle[nearest] - wanted) <= slack) & (nearest > np.arange(len(middle)))
    return [int(n) if ok else -1 for n, ok in zip(nearest, fits, strict=True)]


def even_prefix(bounds: Ints) -> int:
    """How many of these windows, from the first, form one even row on whole counts (see `planner.rows.even`).

    >>> even_prefix(np.array([[0, 0], [10, 10], [20, 20], [31, 31]]))
    3
    """
    low, high = 1, 2**62
    for place in range(1, len(bounds)):
        steps = np.arange(place, 0, -1)
        low = max(low, int((-((bounds[:place, 1] - bounds[place, 0]) // steps)).max()))
        high = min(high, int(((bounds[place, 1] - bounds[:place, 0]) // steps).min()))
        if low > high:
            return place
    return len(bounds)
