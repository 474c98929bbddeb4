"""Putting things together by what they share."""

from collections.abc import Iterable
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


def grouped(pairs: Iterable[tuple[K, V]]) -> dict[K, list[V]]:
    """The values of each key, in the order in which they come.

    >>> grouped([("a", 1), ("b", 2), ("a", 3)])
    {'a': [1, 3], 'b': [2]}
    """
    found: dict[K, list[V]] = {}
    for key, value in pairs:
        found.setdefault(key, []).append(value)
    return found
