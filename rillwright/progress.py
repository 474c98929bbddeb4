"""A bar on a terminal, nothing otherwise."""

import sys
from collections.abc import Iterator, Sequence
from typing import TypeVar

Item = TypeVar("Item")


def tracked(items: Sequence[Item], noun: str) -> Iterator[Item]:
    """The items, with a bar on standard error where that is a terminal and there is more than one."""
    if len(items) < 2 or not sys.stderr.isatty():
        yield from items
        return
    from rich.console import Console
    from rich.progress import track

    yield from track(items, description=noun, console=Console(stderr=True), transient=True)
