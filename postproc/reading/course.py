"""Where a run is in the blocks of its file: the block that comes next, and the callers to return to."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from postproc.reading.sections import Sections
from postproc.reading.words import Block

LOCALS = range(1, 34)
"""Variables that a program called with values has for itself (common practice)."""
MOST_CALLS = 8
"""How deep subprograms may call each other; controls allow four or so (common practice)."""


@dataclass
class Caller:
    """Where a subprogram returns to, and how often it is still to run.

    `given`: the values that it begins with each time, `held`: those that its caller had; None if it shares them.
    """

    back: int
    first: int
    left: int
    given: Mapping[int, float] | None = None
    held: Mapping[int, float] | None = None


@dataclass
class Course:
    """`at` is the block of `blocks` that comes next, `called` those at which what has been run begins.

    `values` are those of the variables, by number, which begin without any; no number is that of a vacant one.
    `contours`: blocks that only a cycle follows, as first and last. `tracing`: such a contour is being followed.
    """

    sections: Sections
    at: int
    blocks: Sequence[Block] = ()
    callers: list[Caller] = field(default_factory=list)
    called: set[int] = field(default_factory=set)
    contours: dict[int, int] = field(default_factory=dict)
    tracing: bool = False
    values: dict[int, float] = field(default_factory=dict)

    @classmethod
    def of(cls, sections: Sections, blocks: Sequence[Block] = ()) -> "Course":
        """From the start of the main program."""
        return cls(sections, sections.main, blocks, called={sections.main})

    def numbered(self, number: int) -> int | None:
        """The block that bears a number in the program that runs."""
        return self.sections.numbered(self.blocks, number, self.at - 1)

    @property
    def running(self) -> int:
        """Where the program that runs begins."""
        return self.callers[-1].first if self.callers else self.sections.main

    def enter(self, first: int, times: int, given: Mapping[int, float] | None = None) -> None:
        """Enter a subprogram, to run it a given number of times; `given` as in `Caller`."""
        self.called.add(first)
        if times:
            given = None if given is None else dict.fromkeys(LOCALS, math.nan) | dict(given)
            held = None if given is None else self._swap(given)
            self.callers.append(Caller(self.at, first, times, given, held))
            self.at = first

    def _swap(self, values: Mapping[int, float]) -> Mapping[int, float]:
        """Give the variables of one program alone these values; returns those that they had."""
        held = {number: self.values.pop(number) for number in LOCALS if number in self.values}
        self.values.update(values)
        return held

    def leave(self) -> None:
        """Leave a subprogram at its end: round again, or back to the caller."""
        caller = self.callers[-1]
        caller.left -= 1
        self.at = caller.first if caller.left else caller.back
        if (values := caller.given if caller.left else caller.held) is not None:
            self._swap(values)
        if not caller.left:
            self.callers.pop()

    def endless(self, first: int) -> str:
        """Why the program that begins at a block can't be called from here, empty where it can."""
        if first == self.sections.main or any(caller.first == first for caller in self.callers):
            return (
                "The program called here is one that is still running, so it calls itself without end; mend the call."
            )
        if len(self.callers) >= MOST_CALLS:
            return (
                f"Subprograms call one another more than {MOST_CALLS} deep here, which no control takes; write it out."
            )
        return ""
