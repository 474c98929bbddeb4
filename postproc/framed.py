"""The steps that a dialect's own lines make round a program: those of its head, and those of its end."""

from typing import NamedTuple

from planner.increment import Increments
from planner.steps import Step
from postproc.dialect import Dialect
from postproc.program import Heading
from postproc.reading.interpreter import interpret
from postproc.reading.renaming import parse_as
from postproc.reading.run import Run
from postproc.writing.writer import write_steps


class Framed(NamedTuple):
    """The run of a program that has the dialect's own lines alone; `head` is how many lines come before all steps."""

    run: Run
    head: int
    lines: tuple[str, ...]

    @property
    def before(self) -> tuple[Step, ...]:
        """The steps of the head."""
        return tuple(step for step, line in zip(self.run.steps, self.run.step_lines, strict=True) if line <= self.head)

    @property
    def after(self) -> tuple[Step, ...]:
        """The steps of the end."""
        return self.run.steps[len(self.before) :]


def framed(dialect: Dialect, increments: Increments) -> Framed:
    """What a program of a dialect does that has no step. Raises ProgramError if its lines can't be read."""
    text = write_steps((), increments, dialect, Heading("", "")).text
    parsed = parse_as(text, dialect)
    head = len(dialect.frame.start) + len(dialect.frame.opening)
    return Framed(interpret(parsed, dialect, increments.units), head, parsed.lines)
