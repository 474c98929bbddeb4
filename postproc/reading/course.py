"""Where a run is in the blocks of its file: the block that comes next, and the callers to return to."""

from dataclasses import dataclass, field

from postproc.reading.sections import Sections

MOST_CALLS = 8
"""How deep subprograms may call each other; controls allow four or so (common practice)."""


@dataclass
class Caller:
    """Where a subprogram returns to, and how often it is still to run."""

    back: int
    first: int
    left: int


@dataclass
class Course:
    """`at` is the block that comes next, `called` the programs that have been run.

    `contours`: blocks that only a cycle follows, as first and last. `tracing`: such a contour is being followed.
    """

    sections: Sections
    at: int
    callers: list[Caller] = field(default_factory=list)
    called: set[int] = field(default_factory=set)
    contours: dict[int, int] = field(default_factory=dict)
    tracing: bool = False

    @classmethod
    def of(cls, sections: Sections) -> "Course":
        """From the start of the main program."""
        return cls(sections, sections.main, called={sections.main})

    @property
    def running(self) -> int:
        """Where the program that runs begins."""
        return self.callers[-1].first if self.callers else self.sections.main

    def enter(self, first: int, times: int) -> None:
        """Enter a subprogram, to run it a given number of times."""
        self.called.add(first)
        if times:
            self.callers.append(Caller(self.at, first, times))
            self.at = first

    def leave(self) -> None:
        """Leave a subprogram at its end: round again, or back to the caller."""
        caller = self.callers[-1]
        caller.left -= 1
        self.at = caller.first if caller.left else caller.back
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
