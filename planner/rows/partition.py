"""The fewest even rows: like grooves shared out so that each is in exactly one evenly pitched row.

Exact for up to EXACT_UP_TO grooves: every row that fits is listed, and a depth-first search with growing budget finds
the least number of rows that take every groove once; it begins from a greedy answer and only looks for a smaller one.
Lower bound: a groove whose longest row has n members can't cost less than 1/n of a row.
Beyond that `planner.rows.long_rows` answers: good and fast. Up to BETTERED_UP_TO its rows are improved once more: the
grooves of some short rows at a time are shared out anew, exactly.
"""

from collections.abc import Sequence
from math import lcm

from planner.rows.even import EvenRow, GrowingRow, Window, settle
from planner.rows.long_rows import Members, long_rows

EXACT_UP_TO = 24
BETTERED_UP_TO = 120
# Grooves that are shared out anew at a time, and how many shares are tried.
SHARE = 22
SHARES = 60


def fewest_rows(windows: Sequence[Window], aims: Sequence[float]) -> tuple[EvenRow, ...]:
    """Divide all into the fewest rows. `windows` rise toward the chuck; `aims` are the true places in counts.

    >>> [r.members for r in fewest_rows([(0, 0), (30, 30), (50, 50), (100, 100)], [0, 30, 50, 100])]
    [(0, 2, 3), (1,)]
    """
    if len(windows) <= EXACT_UP_TO:
        rows = _exact(windows)
    else:
        rows = long_rows(windows)
        rows = _bettered(rows, windows) if len(windows) <= BETTERED_UP_TO else rows
    return tuple(settle(row, windows, aims) for row in sorted(rows))


def _exact(windows: Sequence[Window]) -> list[Members]:
    """The fewest rows of a few windows."""
    return _Search(_all_rows(windows), len(windows)).best(_greedy(windows))


def _bettered(rows: Sequence[Members], windows: Sequence[Window]) -> list[Members]:
    """Rows of which some short ones at a time were shared out into fewer, as long as that was found."""
    best, first = sorted(rows, key=lambda row: (len(row), row)), 0
    for _ in range(SHARES):
        some = _share(best, first)
        if len(some) < 2:
            break
        members = sorted(member for row in some for member in row)
        fewer = [tuple(members[i] for i in row) for row in _exact([windows[m] for m in members])]
        if len(fewer) < len(some):
            kept = [row for row in best if row not in some]
            best, first = sorted([*kept, *fewer], key=lambda row: (len(row), row)), 0
        else:
            first += 1
    return best


def _share(rows: Sequence[Members], first: int) -> list[Members]:
    """Rows from a place on, the shorter first, as many as make a share."""
    some: list[Members] = []
    for row in rows[first:]:
        if sum(map(len, some)) + len(row) <= SHARE:
            some.append(row)
    return some


def _all_rows(windows: Sequence[Window]) -> list[Members]:
    """Every row of two or more, as members."""
    found: list[Members] = []

    def grow(members: Members, chain: GrowingRow) -> None:
        """Add every row that goes on from this one."""
        reach = chain.reach()
        for index in range(members[-1] + 1, len(windows)):
            if windows[index][0] > reach[1]:
                break
            longer = chain.extended(windows[index])
            if longer is not None:
                found.append((*members, index))
                grow((*members, index), longer)

    for first in range(len(windows)):
        grow((first,), GrowingRow((windows[first],)))
    return found


def _greedy(windows: Sequence[Window]) -> list[Members]:
    """Longest row first, then the nearest pitch, then the nearest to the front; what is left goes one by one."""
    left = list(range(len(windows)))
    rows: list[Members] = []
    while left:
        best = _longest(windows, left)
        rows.append(best)
        left = [index for index in left if index not in best]
    return rows


def _longest(windows: Sequence[Window], left: Sequence[int]) -> Members:
    """The longest row among those left."""
    best: tuple[int, int, Members] = (-1, 0, (left[0],))
    for row in _all_rows([windows[i] for i in left]):
        pitch = windows[left[row[1]]][0] - windows[left[row[0]]][0]
        best = min(best, (-len(row), pitch, tuple(left[i] for i in row)))
    return best[2]


class _Search:
    """Depth-first search for an exact partition into fewer rows, on bit masks; costs in parts of a row, all whole."""

    def __init__(self, rows: Sequence[Members], count: int) -> None:
        """List the rows by their first member, longest first, each with what its grooves cost at least."""
        self.full = (1 << count) - 1
        longest = [1] * count
        singles = [(i,) for i in range(count)]
        for row in rows:
            for i in row:
                longest[i] = max(longest[i], len(row))
        self.row = lcm(*longest)
        cost = [self.row // n for n in longest]
        self.starting: list[list[tuple[int, int, Members]]] = [[] for _ in range(count)]
        for row in sorted([*rows, *singles], key=lambda row: (-len(row), row)):
            self.starting[row[0]].append((sum(1 << i for i in row), sum(cost[i] for i in row), row))
        self.total = sum(cost)
        self.dead: dict[int, int] = {}

    def best(self, rows: list[Members]) -> list[Members]:
        """A partition into fewer rows than these if there is one, else these."""
        for budget in range(-(-self.total // self.row), len(rows)):
            self.dead.clear()
            found = self.within(0, self.total, budget)
            if found is not None:
                return found
        return rows

    def within(self, taken: int, owed: int, budget: int) -> list[Members] | None:
        """A partition of what is not taken into at most `budget` rows; `owed` is what that costs at least."""
        if taken == self.full:
            return []
        if owed > budget * self.row or self.dead.get(taken, -1) >= budget:
            return None
        first = (~taken & (taken + 1)).bit_length() - 1
        for mask, cost, row in self.starting[first]:
            if not mask & taken:
                rest = self.within(taken | mask, owed - cost, budget - 1)
                if rest is not None:
                    return [row, *rest]
        self.dead[taken] = budget
        return None
