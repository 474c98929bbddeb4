"""Patterns that are compiled when they are first asked: a small sheet asks few of hundreds, and its run is short."""

import re
from typing import Any

ASKED = ("search", "match", "fullmatch", "sub", "subn", "split", "findall", "finditer")
"""What a pattern is asked for."""


def late(pattern: str, flags: int = 0) -> re.Pattern[str]:
    r"""The pattern that `re.compile` makes of these.

    >>> late(r"\d+").sub("n", "12 x 3")
    'n x n'
    """
    made: Any = _Late(pattern, flags)
    return made  # type: ignore[no-any-return]


class _Late:
    """Such a pattern: once it is compiled, its methods are this one's."""

    def __init__(self, pattern: str, flags: int) -> None:
        """Take what it is compiled of."""
        self.pattern, self._flags = pattern, flags

    def __getattr__(self, name: str) -> Any:
        """What nobody asked for before."""
        if name not in ASKED:
            raise AttributeError(name)
        compiled = re.compile(self.pattern, self._flags)
        vars(self).update((one, getattr(compiled, one)) for one in ASKED)
        return getattr(compiled, name)
