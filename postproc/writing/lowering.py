"""Lowering: planned steps to exactly those that a dialect writes, so that reading back gives the very same ones.

A dialect without a cycle gets every peck as a cut, a retract and at the end of a groove the way back to the start;
one that has the cycle gets it in its one canonical form:

- the peck is always said: 0 (straight to the floor) becomes the whole radial depth;
- a single groove has no shift;
- where the control rules the retract, it is 0, which says nothing;
- where the control leaves the tool above the last groove, the way back to the start follows;
- a remark is cut to the lines that a comment can hold.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from extractor.errors import ProgramError
from planner.arcs import joins
from planner.steps import Arc, Cut, GrooveCycle, Home, Rapid, Remark, Standing, Step
from postproc.dialect import Dialect
from postproc.vocabulary.cycle import groove_moves, places
from postproc.writing.comments import comment_texts

Place = tuple[int | None, int | None]
"""X on the diameter and Z in counts, None where nothing has said it yet."""


@dataclass
class _Lowering:
    """The walk over the steps: where the tool is, and what could not be lowered."""

    dialect: Dialect
    x: int | None = None
    z: int | None = None
    faults: list[str] = field(default_factory=list)

    def step(self, step: Step) -> Iterator[Step]:
        """The written steps for one planned step."""
        match step:
            case Remark(text):
                yield from (Remark(line) for line in comment_texts(text, self.dialect.frame))
            case GrooveCycle():
                yield from self.cycle(step)
            case Rapid(x, z) | Cut(_, x, z) | Standing(x, z):
                self.x = self.x if x is None else x
                self.z = self.z if z is None else z
                yield step
            case Arc():
                self.arc(step)
                yield step
            case Home(x, z):
                self.x, self.z = None if x else self.x, None if z else self.z
                yield step
            case _:
                yield step

    def arc(self, step: Arc) -> None:
        """Move along an arc; of one that can't be there is a fault."""
        if self.x is None or self.z is None:
            self.faults.append("an arc before any block has said where it starts")
        elif not joins((self.x, self.z), (step.x, step.z), step.radius):
            self.faults.append(f"an arc of radius {step.radius} that can't join its ends, in increments")
        self.x, self.z = step.x, step.z

    def cycle(self, step: GrooveCycle) -> Iterator[Step]:
        """The cycle in its canonical form, or written out."""
        if self.x is None or self.z is None:
            self.faults.append("a grooving cycle before any block has said where it starts")
            return
        span = abs(step.end_z - self.z)
        if span and (step.shift <= 0 or span % step.shift):
            self.faults.append(
                f"a grooving cycle whose span of {span} increments is not a whole number of shifts of {step.shift}"
            )
            return
        depth = -(-abs(self.x - step.floor_x) // 2)
        whole = replace(step, peck=step.peck or depth, shift=step.shift if span else 0)
        form = self.dialect.cycle
        if form is None:
            yield from written_out(whole, self.x, self.z)
            return
        yield whole if form.retract else replace(whole, retract=0)
        if form.leaves == "last" and span:
            yield Rapid(z=self.z)


def written_out(cycle: GrooveCycle, x: int, z: int) -> Iterator[Rapid | Cut]:
    """The moves of a grooving cycle from x and z, block by block, back to there."""
    at = places(z, cycle.end_z, cycle.shift)
    for move in groove_moves((x, z), at, cycle.floor_x, cycle.peck, cycle.retract):
        yield Rapid(move.x, move.z) if move.kind == "rapid" else Cut(cycle.feed, move.x, move.z)


def lowered_parts(
    parts: Iterable[Sequence[Step]], dialect: Dialect, start: Place = (None, None)
) -> tuple[list[tuple[Step, ...]], list[str]]:
    """The steps of each part as written, one part after the other, and a fragment for each that can't be lowered."""
    walk = _Lowering(dialect, *start)
    return [tuple(written for step in steps for written in walk.step(step)) for steps in parts], walk.faults


def lower(steps: Sequence[Step], dialect: Dialect, start: Place = (None, None)) -> tuple[Step, ...]:
    """The steps exactly as `write_program` writes them in a dialect; `start` is where the tool stands before.

    Raises ProgramError that names every step which can't be lowered.
    """
    (written,), faults = lowered_parts([steps], dialect, start)
    if faults:
        raise ProgramError(f"The plan can't be written in {dialect.name}: {'; '.join(faults)}.")
    return written
