"""A bar on a terminal, nothing otherwise, and lines that do not run into it."""

import sys
from collections.abc import Iterable, Iterator
from types import TracebackType
from typing import Any, TypeVar

import click
from rich.console import Console
from rich.text import Text

from extractor.printable import printable
from rillwright.loaded import loaded
from rillwright.tables import say

Item = TypeVar("Item")


class Bar:
    """Goes through items; shows how far on standard error where that is a terminal and there is more than one."""

    def __init__(self, noun: str) -> None:
        """Nothing is shown yet; `noun` says what the items are."""
        self._noun = noun
        self._progress: Any = None
        self._terminal = False

    def __enter__(self) -> "Bar":
        """The bar itself."""
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """Take the bar away, however it ended."""
        if self._progress is not None:
            self._progress.stop()

    def through(self, items: Iterable[Item], total: int) -> Iterator[Item]:
        """The items one after the other, `total` of them."""
        if total < 2 or not sys.stderr.isatty():
            yield from items
            return
        # Asked before the bar stands: while it does, what takes the place of the stream may say that it is none.
        self._terminal = sys.stdout.isatty()
        self._progress = loaded("rich.progress:Progress")(console=Console(stderr=True), transient=True)
        self._progress.start()
        yield from self._progress.track(items, total=total, description=self._noun)

    def say(self, line: str, err: bool = False) -> None:
        """One line on standard output (or error): above the bar and folded between words where that is a terminal."""
        if self._progress is not None and (err or self._terminal):
            self._progress.console.print(Text(printable(line)))
        elif err:
            click.echo(printable(line), err=True)
        else:
            say(line)
