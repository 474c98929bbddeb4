"""The plan: evenly pitched sets, operations and their steps, and what kept a groove from being planned."""

from typing import Literal

from extractor.finding import Finding, stopped
from extractor.values import dataclass
from planner.increment import Increments
from planner.shop import Shop, Tool
from planner.steps import Step

Form = Literal["cycle", "plunges"]
Cycles = Literal["full", "own retract", "none"]
"""What grooving cycle a dialect has: one that says how far it backs off after a peck, one that leaves that to a
parameter of the control, or none, so that every peck is a block."""


@dataclass(frozen=True)
class GrooveSet:
    """Numbers of like grooves at one pitch (drawing units); a groove in no even group is a set of one, pitch 0."""

    grooves: tuple[int, ...]
    pitch: float

    @property
    def count(self) -> int:
        """How many grooves."""
        return len(self.grooves)


@dataclass(frozen=True)
class Restart:
    """How to go on from one groove of an operation: everything to be said when nothing is known of what came before.

    `steps` bring the tool out, call it, start the spindle, and cut that groove and those of the operation after it.
    """

    groove: int
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Operation:
    """One run of one tool over some grooves, start to retreat.

    `start_x` (diameter) and `start_z` are counts of the place where the first cut begins. `seconds` is the time it
    takes. `why` says what was decided, one sentence each. `restarts`: how to go on from each of its grooves.
    """

    grooves: tuple[int, ...]
    tool: Tool
    form: Form
    start_x: int
    start_z: int
    steps: tuple[Step, ...]
    seconds: float
    why: tuple[str, ...] = ()
    restarts: tuple[Restart, ...] = ()


@dataclass(frozen=True)
class Plan:
    """Everything that is to be done to one part. `before` and `after` frame the operations (home, tool, spindle, end).

    A plan with a stop finding is never written. `left_out`: grooves that the user answers for and no operation cuts.
    """

    increments: Increments
    shop: Shop
    sets: tuple[GrooveSet, ...]
    before: tuple[Step, ...]
    operations: tuple[Operation, ...]
    after: tuple[Step, ...]
    seconds: float
    findings: tuple[Finding, ...] = ()
    left_out: tuple[int, ...] = ()

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps in the order in which they run."""
        inner = tuple(step for operation in self.operations for step in operation.steps)
        return self.before + inner + self.after

    def hours(self, pieces: int, handling: float = 0.0) -> float:
        """Hours for a batch, with the given seconds of handling for each piece."""
        return pieces * (self.seconds + handling) / 3600

    @property
    def stopped(self) -> bool:
        """True if no program may be written."""
        return stopped(self.findings)
