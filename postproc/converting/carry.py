"""The steps of a run as another dialect can say them: kept, put in other words, or refused with the line.

A cycle that the other dialect can't say is written out move by move; a last short shift becomes a groove of its own;
a move to the reference point becomes one to the shop's own place where the other dialect has no word for it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field, replace

from extractor.values import dataclass
from planner.shop import WholeNumbers
from planner.steps import Arc, Cut, GrooveCycle, Home, OwnSwitch, Rapid, Remark, Standing, Step
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.run import CycleCall, Run
from postproc.vocabulary.acts import Act, Switch
from postproc.writing.lowering import lowered_parts
from postproc.writing.spelling import Speller, Unsayable


@dataclass(frozen=True)
class Means:
    """What a person gives beside the program; None where nobody gave it.

    `retract`: a control's own, in counts. `home`: a place for the reference point, x and z in counts. `whole_numbers`:
    what the program's lengths without a point count.
    """

    retract: int | None = None
    home: tuple[int, int] | None = None
    whole_numbers: WholeNumbers | None = None


@dataclass
class Carrying:
    """The walk over the steps. `steps` are those for the other dialect; `notes` and `refusals` are sentences."""

    run: Run
    target: Dialect
    means: Means
    skips: frozenset[int] = frozenset()
    """Lines whose blocks are left out where block skip is on."""
    lines: Sequence[str] = ()
    """The program as it stands, to name the blocks that can't be said."""
    asking: Callable[[int, Act | Switch], str] = lambda line, lacks: ""
    """The word of a line that asks for something, to name it where the other dialect has none for it."""
    steps: list[Step] = field(default_factory=list)
    skipped: list[bool] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    refusals: list[str] = field(default_factory=list)
    x: int | None = None
    z: int | None = None
    homeless: bool = False
    """True once a way to the reference point was put otherwise."""
    _cycles: int = 0

    def carry(self) -> None:
        """Carry over every step, with the motions that it makes."""
        run = self.run
        ends = (*run.step_motions[1:], len(run.motions))
        for motion in run.motions[: run.step_motions[0] if run.step_motions else len(run.motions)]:
            self._stray(motion)
        for step, line, first, last in zip(run.steps, run.step_lines, run.step_motions, ends, strict=True):
            self._step(step, line, run.motions[first:last])

    def _step(self, step: Step, line: int, motions: Sequence[Motion]) -> None:
        """One step; motions beyond its own belong to words that have no step."""
        own = self._own(step, motions)
        match step:
            case GrooveCycle():
                self._cycle(self.run.cycles[self._cycles], line, motions[:own])
                self._cycles += 1
            case Home():
                self._home(step, line)
            case Cut(feed=0) | Arc(feed=0):
                self._refuse(line, "no feed is in force there")
            case Remark():
                self.steps.append(step)
            case OwnSwitch():
                self._own_switch(step, line)
            case _:
                self._put(step, line)
        self.skipped += [line in self.skips] * (len(self.steps) - len(self.skipped))
        if isinstance(step, Standing):
            self.x, self.z = self.x if step.x is None else step.x, self.z if step.z is None else step.z
        for motion in motions[:own]:
            self.x, self.z = motion.x1, motion.z1
        for motion in motions[own:]:
            self._stray(motion)

    def _own(self, step: Step, motions: Sequence[Motion]) -> int:
        """How many of the motions are the step's."""
        if isinstance(step, Rapid | Cut | Home):
            return min(1, len(motions))
        if isinstance(step, Arc):
            ends = [number for number, motion in enumerate(motions, 1) if (motion.x1, motion.z1) == (step.x, step.z)]
            return ends[0] if ends else 0
        if isinstance(step, GrooveCycle):
            return sum(1 for motion in motions if motion.cycle == self._cycles)
        return 0

    def _put(self, step: Step, line: int) -> None:
        """A step as it is, if the dialect can say it from where the tool is."""
        if fault := self._fault(step):
            word = "" if fault.lacks is None else self.asking(line, fault.lacks)
            self._refuse(line, f"{self.target.name} has {fault}{f', which {word} needs' if word else ''}")
        self.steps.append(step)

    def _refuse(self, line: int, why: str) -> None:
        """What can't be carried over, with the block that asks for it."""
        block = self.lines[line - 1].strip() if 0 < line <= len(self.lines) else ""
        self.refusals.append(f"line {line}: {block or 'it'} can't be carried over: {why}")

    def _fault(self, *steps: Step) -> Unsayable | None:
        """Why the dialect can't say steps one after another; None where it can."""
        speller = Speller(self.target, self.run.increments, self.x, self.z)
        (lowered,), faults = lowered_parts([steps], self.target, (self.x, self.z))
        try:
            for step in lowered:
                speller.spell(step)
        except Unsayable as fault:
            return fault
        return Unsayable(faults[0]) if faults else None

    def _stray(self, motion: Motion) -> None:
        """A motion that no step makes: of the cycle along Z it is written out, of anything else refused."""
        if motion.foreign:
            self._refuse(motion.line, f"{motion.foreign} is not followed")
        for step in _written(motion):
            self._put(step, motion.line)
        self.skipped += [motion.line in self.skips] * (len(self.steps) - len(self.skipped))
        self.x, self.z = motion.x1, motion.z1

    def _home(self, step: Home, line: int) -> None:
        """To the reference point, or at rapid to the shop's own place, X first."""
        if not self._fault(step):
            self.steps.append(step)
        elif self.means.home is None:
            has = f"{self.target.name} has no word for the reference point"
            self._refuse(line, f"{has}; give a place by home_x and home_z in --shop")
        else:
            x, z = self.means.home
            self.steps += [Rapid(x=x)] * step.x + [Rapid(z=z)] * step.z
            self.homeless = True
            self.notes.append(f"line {line}: the way to the reference point became a rapid to the shop's own place")

    def _own_switch(self, step: OwnSwitch, line: int) -> None:
        """A switch of the machine's own by the word of the other machine that does the same."""
        self._put(step, line)
        if not self._fault(step):
            word = self.asking(line, Switch.OWN)
            self.notes.append(
                f"line {line}: {word} became {self.target.own(step.does)}, which both sides call {step.does!r}"
            )

    def _cycle(self, call: CycleCall, line: int, motions: Sequence[Motion]) -> None:
        """The grooving cycle by the other's, where that backs off as this does; else move by move."""
        if call.retract is None and call.pecks > 1 and self.means.retract is None and self._says_retract():
            says = f"the program leaves the retract after a peck to its control, and {self.target.name} says it"
            self._refuse(line, f"{says}; give it by cycle_retract in --shop")
        steps = None if self.target.cycle is None else self._as_cycle(call)
        if steps is None or self._fault(*steps):
            self.notes.append(f"line {line}: the grooving cycle is written out move by move")
            steps = [step for motion in motions for step in _written(motion)]
        elif len(steps) > 1 and call.left_over:
            self.notes.append(f"line {line}: the last short shift became a groove of its own")
        for step in steps:
            self.steps.append(step)

    def _says_retract(self) -> bool:
        """True if the target's cycle, or its lack of one, says how far to back off."""
        return self.target.cycle is None or self.target.cycle.retract is not None

    def _as_cycle(self, call: CycleCall) -> list[Step] | None:
        """The cycles that do what a call does, None where none can."""
        if call.relief or not call.feed or call.start_x == call.floor_x or not (call.x_known and call.z_known):
            return None
        retract = self.means.retract if call.retract is None else call.retract
        if not self._says_retract() and call.pecks > 1 and call.retract is not None and retract != self.means.retract:
            return None
        several = call.end_z != call.start_z
        whole = GrooveCycle(
            floor_x=call.floor_x,
            end_z=call.end_z,
            peck=call.peck or 0,
            shift=(call.shift or 0) if several else 0,
            retract=retract or 0,
            feed=call.feed,
        )
        if not call.left_over:
            return [whole, *self._stay(call, call.end_z)]
        places = call.places
        row = replace(whole, end_z=places[-2], shift=whole.shift if len(places) > 2 else 0)
        last = replace(whole, end_z=places[-1], shift=0)
        back = [] if call.stays else [Rapid(z=call.start_z)]
        return [row, Rapid(z=places[-1]), last, *back]

    def _stay(self, call: CycleCall, end_z: int) -> Iterator[Step]:
        """To the last groove again, where the control left the tool there and the other doesn't."""
        if call.stays and end_z != call.start_z:
            yield Rapid(z=end_z)


def _written(motion: Motion) -> Iterator[Step]:
    """A motion as a step."""
    x = motion.x1 if motion.x1 != motion.x0 else None
    z = motion.z1 if motion.z1 != motion.z0 else None
    if x is None and z is None:
        return
    yield Rapid(x, z) if motion.kind == "rapid" else Cut(motion.feed or 0, x, z)
