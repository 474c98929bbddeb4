"""Answers that are kept while one sheet is read: all rules ask the same of its texts and lines, one after the other."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any, TypeVar

MOST = 100_000
"""So many answers of each kind are kept: more than a sheet that is read in time has texts."""

Asked = TypeVar("Asked", bound=Callable[..., Any])
_forget: list[Callable[[], None]] = []


def remembered(asked: Asked) -> Asked:
    """The same function, which gives the same answer to whoever asks it again; it takes only what can be a key.

    >>> told = remembered(lambda words: words.split())
    >>> told("4 x 2") is told("4 x 2")
    True
    >>> before = told("4 x 2"); forget(); told("4 x 2") is before
    False
    """
    kept: Any = lru_cache(maxsize=MOST)(asked)
    _forget.append(kept.cache_clear)
    same: Asked = kept
    return same


def forget() -> None:
    """Let go of all answers: those of one sheet are of no use to the next, and a folder of them fills the memory."""
    for clear in _forget:
        clear()
