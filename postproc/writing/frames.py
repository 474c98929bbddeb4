"""Lines round the steps: fields filled, acts spelled, N words put before them."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planner.steps import Halt, Remark, Step, WorkOffset
from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import BlockNumbers

_GAP = re.compile(r"\{([a-z_]+)(?::(\d+))?\}")
_FIXED = re.compile(r"([GM])0*(\d+)(?![\d.])")
_REMARK = re.compile(r"\(([^()]*)\)|;(.*)")
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

    return (_GAP.sub(said, line) for line in lines)


def frame_steps(lines: Iterable[str], dialect: Dialect) -> Iterator[Step]:
    """The steps that lines round an operation make: waits, work offsets and remarks; no other word asks for one."""
    offsets = [number for number, act in dialect.g_words.items() if act is Act.WORK_OFFSET]
    for line in frame_lines(lines, dialect, {"operation": "1", "tool": ""}):
        if remark := _REMARK.fullmatch(line.strip()):
            yield Remark((remark[1] or remark[2]).strip())
            continue
        for letter, digits in _FIXED.findall(re.sub(r"\([^()]*\)|;.*", "", line)):
            number = int(digits)
            switch = dialect.m_words.get(number) if letter == "M" else None
            if switch in (Switch.PAUSE, Switch.OPTIONAL_PAUSE):
                yield Halt(switch is Switch.OPTIONAL_PAUSE)
            elif letter == "G" and number in offsets:
                yield WorkOffset(offsets.index(number) + 1)


@dataclass
class Numbering:
    """Puts N words before blocks: at none, at the first of each operation, or at all; comments and O lines get none."""

    how: BlockNumbers
    comment: str
    _next: int | None = None

    def lines(self, lines: Iterable[str]) -> Iterator[str]:
        """The lines with their numbers."""
        opens = self.comment.split("{text}")[0]
        for line in lines:
            first, text = line.startswith(OPERATION), line.lstrip(OPERATION)
            bare = not text or text.startswith((opens, "%", "O", ":", "N"))
            wanted = self.how.every == "all" or (self.how.every == "operation" and first)
            yield text if bare or not wanted else f"N{self._number()} {text}"

    def _number(self) -> int:
        """The next number."""
        self._next = self.how.first if self._next is None else self._next + self.how.step
        return self._next
