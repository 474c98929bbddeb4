"""Rows of tests of several parameters: not the whole product of them, which takes long and shows no more.

Two that go wrong together are seldom three: `all_pairs` has each two values of any two parameters in some row.
`each_in_turn` has each value in some row, and the values of the shorter ones come again in turn.
"""

from collections.abc import Collection, Sequence
from itertools import combinations, product
from typing import Any

import pytest


def _parametrize(names: Sequence[str], first: Sequence[Any], axes: Sequence[Collection[Any]], picks: Any) -> Any:
    """The mark for rows that are picked by their numbers along each axis; `names` of the first axis in one value."""
    values = [list(axis) for axis in axes]
    rows = [[values[k][n] for k, n in enumerate(pick)] for pick in picks]
    return pytest.mark.parametrize(names, [(*row[0], *row[1:]) if first else tuple(row) for row in rows])


def each_in_turn(names: Sequence[str] = (), rows: Collection[Any] = (), /, **axes: Collection[Any]) -> Any:
    """A mark with as many rows as the longest axis has values; `rows` holds several parameters, `names`, at once."""
    every = [rows, *axes.values()] if names else [*axes.values()]
    picks = [[k % len(axis) for axis in every] for k in range(max(map(len, every)))]
    return _parametrize([*names, *axes], names, every, picks)


def all_pairs(names: Sequence[str] = (), rows: Collection[Any] = (), /, **axes: Collection[Any]) -> Any:
    """A mark with rows in which each two values of any two axes meet."""
    every = [rows, *axes.values()] if names else [*axes.values()]
    whole = list(product(*(range(len(axis)) for axis in every)))
    left = {pair for row in whole for pair in combinations(enumerate(row), 2)}
    picks = []
    while left:
        picks.append(max(whole, key=lambda row: len(left & {*combinations(enumerate(row), 2)})))
        left -= {*combinations(enumerate(picks[-1]), 2)}
    return _parametrize([*names, *axes], names, every, picks)
