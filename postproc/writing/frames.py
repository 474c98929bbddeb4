"""Lines round the steps: fields filled, acts spelled, N words put before them."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import FRAME_GAP, ProgramFrame

OPERATION = "\t"
"""Marks the first block of an operation till its number is put before it."""


def frame_lines(lines: Iterable[str], dialect: Dialect, words: Mapping[str, str]) -> Iterator[str]:
    """The lines of a frame with their fields filled: those of `words`, else the word of an act or a switch.

    Raises KeyError for a field that is neither; a loaded dialect has none.
    """

    def said(gap: re.Match[str]) -> str:
        """The text of one field."""
        if gap[1] in words:
            return words[gap[1]].zfill(int(gap[2] or 0))
        name = gap[1].upper()
        return dialect.m(Switch[name]) if name in Switch.__members__ else dialect.g(Act[name])

    return (FRAME_GAP.sub(said, line) for line in lines)


@dataclass
class Numbering:
    """Puts N words before blocks: none, the first of each operation, or all; comments and O lines get none."""

    frame: ProgramFrame
    _next: int | None = None

    def lines(self, lines: Iterable[str]) -> Iterator[str]:
        """The lines with their numbers."""
        how, frame = self.frame.numbers, self.frame
        names = (line.split("{")[0] for line in frame.names)
        bares = tuple(filter(None, (frame.remark[0], "%", "O", ":", "N", *names)))
        for line in lines:
            first, text = line.startswith(OPERATION), line.lstrip(OPERATION)
            bare = not text or text.startswith(bares)
            wanted = how.every == "all" or (how.every == "operation" and first)
            yield text if bare or not wanted else f"N{self._number()} {text}"

    def _number(self) -> int:
        """The next number."""
        how = self.frame.numbers
        self._next = how.first if self._next is None else self._next + how.step
        return self._next
