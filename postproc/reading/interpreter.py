"""The interpreter: a parsed program run as the control would run it.

The walk goes block by block through the main program (the first that no other of the file calls), into subprograms and
back. Each word becomes an event, the events of a block take effect in the order of `control.ORDER`, and `control.TABLE`
says what each does in the state at hand. Words that no cell and no action takes are stops; none is skipped in silence.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from extractor.part import Units
from planner.increment import Increments
from planner.shop import WholeNumbers
from planner.steps import Remark
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.actions import Actions
from postproc.reading.control import TABLE, Control, Event, Mode, Sign
from postproc.reading.events import Events
from postproc.reading.log import Log, Runaway
from postproc.reading.macros import Macros
from postproc.reading.meanings import Meanings
from postproc.reading.premises import check_premises, said_units
from postproc.reading.run import Run
from postproc.reading.sections import Sections
from postproc.reading.words import Block, ParsedProgram, Word
from postproc.reading.zeros import check_settings, check_zeros
from postproc.vocabulary.acts import Act, Switch

FAR_HOME = (10_000_000, 10_000_000)
"""Where an unnamed reference point is taken to be: x and z in counts, well clear of any part."""
MOST_BLOCKS = 500_000
MOST_CALLS = 8
"""How deep subprograms may call each other; controls allow four or so (common practice)."""
CORNERS = {
    "C": "asks for a chamfer where this line meets the next",
    "I": "asks for a chamfer where this line meets the next",
    "K": "asks for a chamfer where this line meets the next",
    "R": "asks for a rounding where this line meets the next",
    "A": "gives the angle of this line",
}
"""What words beside a straight cut ask for on controls that work corners out themselves (common practice)."""
CORNER = "corner by C or R"


def interpret(
    parsed: ParsedProgram,
    dialect: Dialect,
    units: Units | None = None,
    *,
    home: tuple[int, int] | None = None,
    skip: bool = False,
    own_retract: int = 0,
    whole_numbers: WholeNumbers | None = None,
) -> Run:
    """Run a program.

    `units` are used where the program has no unit word. `home`: where the tool is at power-up and at the reference
    point, x and z in counts. `own_retract`: how far a cycle backs off where the control's own parameter says it, in
    counts on the radius. `skip`: block skip is on, so blocks with / are left out. `whole_numbers`: what lengths without
    a point count, None where nobody said. Never raises for what a program says; that comes as findings of the `Run`.
    """
    walk = _Walk(parsed, dialect, units, home or FAR_HOME, skip, whole_numbers)
    walk.control.own_retract = own_retract
    return walk.run()


@dataclass
class _Caller:
    """Where a subprogram returns to, and how often it is still to run."""

    back: int
    first: int
    left: int


class _Walk:
    """One run: the place in the blocks, the calls under way, the control and its log."""

    def __init__(
        self,
        parsed: ParsedProgram,
        dialect: Dialect,
        units: Units | None,
        home: tuple[int, int],
        skip: bool,
        whole_numbers: WholeNumbers | None,
    ) -> None:
        """Find the units and the sections before anything runs."""
        self.parsed, self.dialect, self.skip = parsed, dialect, skip
        self.log = Log()
        meanings = Meanings(dialect, parsed)
        calls = frozenset(number for number, switch in dialect.m_words.items() if switch is Switch.CALL)
        self.sections = Sections.of(parsed.blocks, calls)
        said = said_units(parsed, meanings.g_words)
        self.units: Units = said[0] if said else units or "mm"
        self.units_line = said[1] if said else None
        check_premises(parsed, self.sections, said, units, dialect, self.log)
        check_zeros(parsed, meanings.g_words, dialect.written(Act.WORK_OFFSET), self.log)
        self.control = Control(*home)
        increments = Increments.of(self.units)
        self.actions = Actions(dialect, increments, self.control, self.log, home, self._trace, whole_numbers)
        self.macros = Macros(parsed.blocks, self.sections, increments, self.log)
        self.worked_out: dict[int, tuple[Word, ...]] = {}
        self.contours: dict[int, int] = {}
        self.tracing = False
        self.actions.words.late_units = said is not None
        self.events = Events(dialect, meanings, self.actions.words, self.control, self.log)
        self.callers: list[_Caller] = []
        self.called: set[int] = {self.sections.main}
        self.at = self.sections.main
        self.worded = False
        self.done = 0

    def run(self) -> Run:
        """Walk to the end, or as far as it goes."""
        try:
            self._walk()
            self._not_run()
            check_settings(self.log)
        except Runaway:
            self.log.stop(
                ProgramCode.RUNAWAY,
                "The program moves on and on from here and was followed no further; look at its "
                "repeats, pecks and shifts.",
            )
        log = self.log
        return Run(
            dialect=self.dialect.name,
            units=self.units,
            increments=Increments.of(self.units),
            motions=tuple(log.motions),
            cycles=tuple(log.cycles),
            steps=tuple(log.steps),
            step_lines=tuple(log.step_lines),
            findings=(*self.parsed.findings, *log.findings),
            units_line=self.units_line,
            ended=self.control.mode is Mode.ENDED,
            indexings=tuple(log.indexings),
            step_motions=tuple(log.step_motions),
            halts=tuple(log.halts),
            lost=log.lost,
            skipped=log.skipped,
            worked_out=self.worked_out,
            spoken_words=self.dialect.spoken_words,
        )

    def _walk(self) -> None:
        """Run block after block of the section until its end."""
        blocks = self.parsed.blocks
        while self.at < len(blocks) and not self.sections.begins(
            self.at, self.callers[-1].first if self.callers else self.sections.main
        ):
            if self.at in self.contours:
                self.at = self.contours[self.at] + 1
                continue
            self._next()
            if self.control.mode is Mode.ENDED:
                break
        if self.control.mode is Mode.ENDED:
            return
        if self.callers:
            back = self.dialect.written(Switch.RETURN)
            self.log.stop(ProgramCode.NO_RETURN, f"The subprogram ends without {back}; add it.")
        else:
            ends = " or ".join(f"M{n:02d}" for n, switch in self.dialect.m_words.items() if switch is Switch.END)
            self.log.caution(ProgramCode.NO_END, f"The program ends without {ends}; add one.")

    def _next(self) -> None:
        """Run the block that comes next."""
        at, block = self.at, self.parsed.blocks[self.at]
        self.at += 1
        self.done += 1
        if self.done > MOST_BLOCKS:
            raise Runaway
        self.log.line = block.line
        if block.skip and self.skip:
            return
        if not block.macro:
            self._block(block)
            return
        words, goto = self.macros.run(at)
        if goto is not None:
            self.at = goto
        if words:
            self.worked_out.setdefault(block.line, words)
            self._block(block._replace(words=words))

    def _trace(self, first: Word, last: Word, keep: bool) -> list[Motion] | None:
        """Run the blocks between two numbers, and come back to where the run stands.

        The moves are given back; with `keep` they count as made, and the tool stays where they end.
        """
        begin, end = (
            None if word.whole is None else self.sections.numbered(self.parsed.blocks, word.whole, self.at - 1)
            for word in (first, last)
        )
        if begin is None or end is None or end < begin or self.tracing:
            message = f"No blocks N{first.text} to N{last.text} give the contour of this cycle; mend P and Q."
            self.log.stop(ProgramCode.CONTOUR_MISSING, message)
            return None
        control, log, made = self.control, self.log, len(self.log.motions)
        back, line, steps, before = self.at, log.line, len(log.steps), control.copy()
        self.at, self.tracing = begin, True
        while begin <= self.at <= end and control.mode is not Mode.ENDED:
            self._next()
        self.at, log.line, self.tracing = back, line, False
        self.called.update(start for start in self.sections.starts if begin <= start <= end)
        path = log.motions[made:]
        if keep:
            control.mode = before.mode
        else:
            del log.motions[made:], log.steps[steps:], log.step_lines[steps:]
            control.restore(before)
            self.contours[begin] = end
        return path

    def _not_run(self) -> None:
        """Say which blocks nothing leads to."""
        blocks, starts = self.parsed.blocks, self.sections.starts
        idle = set(starts) - self.called
        if not self.callers:
            behind = range(self.at, min((start for start in starts if start >= self.at), default=len(blocks)))
            idle.update([index for index in behind if blocks[index].words][:1])
        for index in sorted(idle):
            self.log.line = blocks[index].line
            self.log.caution(ProgramCode.NOT_RUN, "Nothing leads to the blocks from here on, so they were not checked.")

    def _block(self, block: Block) -> None:
        """Run one block: its events in their order, then the question what is left over."""
        words = block.words
        if words and words[0].address == "O" and words[0].whole is not None:
            words = words[1:]
        if not words:
            for text in block.comments if self.worded else ():
                self.log.step(Remark(text))
            return
        self.worded = True
        for event in self.events.of(words):
            self._event(event, words)
        self.actions.tell_spindle()
        if leftovers := self.actions.words.leftovers():
            self._left_over(leftovers)

    def _left_over(self, leftovers: Sequence[Word]) -> None:
        """Say what is to be said of words that nothing took."""
        for word in [word for word in leftovers if self._is_corner(word)][:1]:
            self._corner(word)
        for word in [word for word in leftovers if not self._is_corner(word)]:
            message = (
                f"{word} at column {word.column} has no meaning in this block "
                f"({self.dialect.name}); correct it or take it out."
            )
            self.log.stop(ProgramCode.UNKNOWN_WORD, message)

    def _corner(self, word: Word) -> None:
        """A corner that the control works out, which a judged insert must do without; an angle leaves an end unsaid."""
        message = (
            f"{word} at column {word.column} {CORNERS[word.address.lstrip(',')]}, which is not worked out here; write "
            "each line and arc as a block of its own with its end."
        )
        if word.address.endswith("A"):
            self.log.stop(ProgramCode.CORNER_WORD, message)
            return
        self.log.caution(ProgramCode.CORNER_WORD, message)
        self.log.move(self.control, "rapid", self.control.x, self.control.z, foreign=CORNER, followed=False)

    def _is_corner(self, word: Word) -> bool:
        """True for a word that stands in a straight cut and rounds or chamfers its end, or gives its angle."""
        return self.control.mode is Mode.FEED and word.address.lstrip(",") in CORNERS

    def _event(self, event: Event, words: tuple[Word, ...]) -> None:
        """Look an event up in the table and do what the cell says."""
        if event is Sign.PLACE and not self.actions.words.has_axes:
            return
        cell = TABLE[self.control.mode].get(event)
        if cell is None:
            self.actions.words.drop()
            text = " ".join(map(str, words))
            moves = f"{self.dialect.written(Act.RAPID)} or {self.dialect.written(Act.FEED)}"
            message = f"{event.capitalize()} ({text}) can't come {self.control.mode}; put {moves} in its block."
            self.log.stop(ProgramCode.NO_MOTION_WORD, message)
            return
        if cell.action in ("call", "go_back", "end"):
            getattr(self, f"_{cell.action}")()
        else:
            self.actions.do(cell.action, event)
        self.control.mode = cell.then or self.control.mode

    def _call(self) -> None:
        """M98: into a subprogram of the same file, so many times."""
        found = self.sections.called(self.actions.words.take("P"), self.actions.words.take("L"))
        fault = found if isinstance(found, str) else self._endless(found[0])
        if fault or isinstance(found, str):
            self.log.stop(ProgramCode.SUBPROGRAM, fault)
            return
        first, times = found
        self.called.add(first)
        if times:
            self.callers.append(_Caller(self.at, first, times))
            self.at = first

    def _endless(self, first: int) -> str:
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

    def _go_back(self) -> None:
        """M99: round again, back to the caller, or in the main program from the start for ever."""
        back = self.dialect.written(Switch.RETURN)
        if (to := self.actions.words.take("P")) is not None:
            # A block of the caller on most controls, how often the program runs on others (common practice).
            message = (
                f"{to} beside {back} sends the program to another block, which is not followed; write {back} alone."
            )
            self.log.stop(ProgramCode.UNKNOWN_WORD, message)
        if not self.callers:
            message = f"{back} in the main program starts it over without end; one pass was followed."
            self.log.caution(ProgramCode.ENDLESS, message)
            self.control.mode = Mode.ENDED
            return
        caller = self.callers[-1]
        caller.left -= 1
        self.at = caller.first if caller.left else caller.back
        if not caller.left:
            self.callers.pop()

    def _end(self) -> None:
        """M02, M30."""
