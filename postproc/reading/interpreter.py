"""The interpreter: a parsed program run as the control would run it.

The walk goes block by block through the main program (the first that no other of the file calls), into subprograms and
back. Each word becomes an event, the events of a block take effect in the order of `table.ORDER`, and `table.TABLE`
says what each does in the state at hand. Words that no cell and no action takes are stops; none is skipped in silence.
"""

from collections.abc import Sequence
from dataclasses import replace

from extractor.part import Units
from planner.increment import Increments
from planner.shop import WholeNumbers
from planner.steps import Remark
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.actions.corner import await_corner
from postproc.reading.actions.spindle import tell_spindle
from postproc.reading.actions.steering import after_move, stand
from postproc.reading.control import Control, Event, Mode, Sign, ToolPlace
from postproc.reading.course import Course
from postproc.reading.events import Events
from postproc.reading.lathe import CORNERS, Lathe
from postproc.reading.log import Log, Runaway
from postproc.reading.macros import Macros
from postproc.reading.meanings import Meanings
from postproc.reading.plain_moves import PlainMoves
from postproc.reading.premises import check_premises, said_units
from postproc.reading.run import ENDS, Run
from postproc.reading.sections import Sections
from postproc.reading.table import TABLE
from postproc.reading.values import BlockWords
from postproc.reading.words import Block, ParsedProgram, Word
from postproc.reading.zeros import check_settings, check_zeros
from postproc.vocabulary.acts import OTHER_AXES, TURN, Act, Switch

FAR_HOME = (10_000_000, 10_000_000)
"""Where an unnamed reference point is taken to be: x and z in counts, well clear of any part."""
MOST_BLOCKS = 500_000
OTHER_AXIS = "move of another axis"
AT_CENTRE = frozenset("CHY")
"""Axes that at 0 leave the insert over the centre, where it cuts as it always does: the spindle's angle, and Y."""


def interpret(
    parsed: ParsedProgram,
    dialect: Dialect,
    units: Units | None = None,
    *,
    home: tuple[int, int] | None = None,
    skip: bool = False,
    own_retract: int = 0,
    whole_numbers: WholeNumbers | None = None,
    equal: bool = False,
    guard: bool | None = None,
) -> Run:
    """Run a program.

    `units` are used where the program has no unit word. `home`: where the tool is at power-up and at the reference
    point, x and z in counts. `own_retract`: how far a cycle backs off where the control's own parameter says it, in
    counts on the radius. `skip`: block skip is on, so blocks with / are left out. `whole_numbers`: what lengths without
    a point count, None where nobody said. `equal`: formulas that compare values which are all but equal take them for
    equal. `guard`: whether the one IF that asks about a variable which the program doesn't set is taken to hold, None
    where it loses the way. Never raises for what a program says; that comes as findings of the `Run`.
    """
    walk = _Walk(parsed, dialect, units, home or FAR_HOME, skip, whole_numbers, equal, guard)
    walk.lathe.control.cycles.own_retract = own_retract
    try:
        return walk.run()
    finally:
        vars(walk).clear()  # it and its lathe refer to each other, which would keep all of a long program in memory


class _Walk:
    """One run: its blocks, and the lathe that they work on."""

    def __init__(
        self,
        parsed: ParsedProgram,
        dialect: Dialect,
        units: Units | None,
        home: tuple[int, int],
        skip: bool,
        whole_numbers: WholeNumbers | None,
        equal: bool = False,
        guard: bool | None = None,
    ) -> None:
        """Find the units and the sections before anything runs."""
        self.parsed, self.dialect, self.skip = parsed, dialect, skip
        self.log = log = Log()
        meanings = Meanings(dialect, parsed)
        calls = frozenset(number for number, switch in dialect.m_words.items() if switch is Switch.CALL)
        sections = Sections.of(parsed.blocks, calls)
        said = said_units(parsed, meanings.g_words)
        self.units: Units = said[0] if said else units or "mm"
        self.units_line = said[1] if said else None
        check_premises(parsed, sections, said, units, dialect, log)
        check_zeros(parsed, meanings.g_words, dialect.written(Act.WORK_OFFSET), log)
        increments = Increments.of(self.units)
        words = BlockWords(dialect, increments, log, whole_numbers, late_units=said is not None)
        self.course = course = Course.of(sections, parsed.blocks)
        self.lathe = Lathe(dialect, increments, Control(ToolPlace(*home)), log, words, course, home, self._trace)
        self.macros = Macros(parsed.blocks, course, increments, log, equal, guard)
        self.events = Events(meanings, self.lathe)
        self.plain = PlainMoves(parsed.blocks, self.lathe, meanings.g_words, self.events.renaming.idle)
        self.worked_out: dict[int, tuple[Word, ...]] = {}
        self.worded = False
        self.axes: set[str] = set()
        self.done = 0

    def run(self) -> Run:
        """Walk to the end, or as far as it goes."""
        try:
            self._walk()
            self.lathe.no_corner("and no straight cut comes next")
            self._not_run()
            self._not_called()
            check_settings(self.log, self.lathe.increments.per_length)
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
            ended=self.lathe.control.mode is Mode.ENDED,
            indexings=tuple(log.indexings),
            step_motions=tuple(log.step_motions),
            starts=frozenset(log.starts),
            halts=tuple(log.halts),
            lost=log.lost,
            skipped=log.skipped,
            close=log.close,
            guard=log.guard,
            alarm=log.alarm,
            worked_out=self.worked_out,
            spoken_words=self.dialect.spoken_words,
        )

    def _walk(self) -> None:
        """Run block after block of the section until its end."""
        blocks, course = self.parsed.blocks, self.course
        while course.at < len(blocks) and not course.sections.begins(course.at, course.running):
            if course.at in course.contours:
                course.at = course.contours[course.at] + 1
                continue
            if self._plain_moves():
                continue
            self._next()
            if self.lathe.control.mode is Mode.ENDED:
                return
        if course.callers:
            back = self.dialect.written(Switch.RETURN)
            self.log.stop(ProgramCode.NO_RETURN, f"The subprogram ends without {back}; add it.")
        else:
            ends = " or ".join(f"M{n:02d}" for n, switch in self.dialect.m_words.items() if switch is Switch.END)
            self.log.caution(ProgramCode.NO_END, f"The program ends without {ends}; add one.")
            stand(self.lathe, ENDS)

    def _plain_moves(self) -> bool:
        """Run the plain moves that come next in one go; False if there are none."""
        control = self.lathe.control
        if self.events.after_cycle or control.corner is not None or control.called is not None:
            return False  # a place without a motion word is to be asked about, and something is to be done after it
        course = self.course
        ends = len(self.parsed.blocks), course.at + MOST_BLOCKS - self.done
        end = min([*ends, *(at for at in course.contours if at > course.at)])
        made, control.mode = self.plain.make(course.at, end, control.mode)
        course.at += made
        self.done += made
        return made > 0

    def _next(self) -> None:
        """Run the block that comes next."""
        at, block = self.course.at, self.parsed.blocks[self.course.at]
        self.course.at += 1
        self.done += 1
        if self.done > MOST_BLOCKS:
            raise Runaway
        self.log.line = block.line
        if block.skip and self.skip:
            return
        if not block.macro:
            self._run_block(block)
            return
        words, goto = self.macros.run(at)
        if goto is not None:
            self.course.at = goto
        if words:
            self.worked_out.setdefault(block.line, words)
            self._run_block(block._replace(words=words))

    def _run_block(self, block: Block) -> None:
        """Run the words of a block, and what is called after each that moves."""
        before, depth = len(self.log.motions), len(self.course.callers)
        self._block(block)
        if len(self.log.motions) > before and len(self.course.callers) == depth:
            after_move(self.lathe)

    def _trace(self, first: Word, last: Word, keep: bool) -> list[Motion] | None:
        """Run the blocks between two numbers, and come back to where the run stands.

        The moves are given back; with `keep` they count as made, and the tool stays where they end.
        """
        course, log, lathe = self.course, self.log, self.lathe
        self._strays(lathe.words.leftovers())  # the blocks of the contour have words of their own
        lathe.words.drop()
        begin, end = (None if word.whole is None else course.numbered(word.whole) for word in (first, last))
        if begin is None or end is None or end < begin or course.tracing:
            message = f"No blocks N{first.text} to N{last.text} give the contour of this cycle; mend P and Q."
            log.stop(ProgramCode.CONTOUR_MISSING, message)
            return None
        back, line, made, steps, before = course.at, log.line, len(log.motions), len(log.steps), lathe.control.copy()
        course.at, course.tracing = begin, True
        while begin <= course.at <= end and lathe.control.mode is not Mode.ENDED:
            self._next()
        lathe.no_corner("and no straight cut comes next")
        course.at, log.line, course.tracing = back, line, False
        course.called.update(start for start in course.sections.starts if begin <= start <= end)
        path = log.motions[made:]
        if keep:
            before = replace(lathe.control, mode=before.mode)
        else:
            del log.motions[made:], log.steps[steps:], log.step_lines[steps:], log.step_motions[steps:]
            course.contours[begin] = end
        lathe.control = before
        return path

    def _not_run(self) -> None:
        """Say which blocks nothing leads to."""
        blocks, course = self.parsed.blocks, self.course
        starts = course.sections.starts
        idle = set(starts) - course.called
        if not course.callers:
            ends = (start for start in (*starts, *course.called) if start >= course.at)
            behind = range(course.at, min(ends, default=len(blocks)))
            idle.update([index for index in behind if blocks[index].words][:1])
        for index in sorted(idle):
            self.log.line = blocks[index].line
            self.log.caution(ProgramCode.NOT_RUN, "Nothing leads to the blocks from here on, so they were not checked.")

    def _not_called(self) -> None:
        """Say which cycles of other tools are set and never called."""
        waiting = self.lathe.control.cycles.waiting
        for line, event in {line: event for (event, _), line in waiting.items()}.items():
            self.log.line = line
            message = (
                f"This block only sets up the {event}, which no block calls; add the one with its X and Z or P and Q."
            )
            self.log.stop(ProgramCode.CONTOUR_MISSING, message)

    def _block(self, block: Block) -> None:
        """Run one block: its events in their order, then the question what is left over."""
        words = block.words
        if words and words[0].begins:
            words = words[1:]
        if not words:
            for text in block.comments if self.worded else ():
                self.log.step(Remark(text))
            return
        self.worded = True
        for event in self.events.of(words):
            self._event(event, words)
        tell_spindle(self.lathe)
        if leftovers := self.lathe.words.leftovers():
            self._left_over(leftovers, words)

    def _left_over(self, leftovers: Sequence[Word], words: Sequence[Word]) -> None:
        """Say what is to be said of words of a block that nothing took."""
        moves = any(word.address in self.dialect.axes for word in words)
        corners = [word for word in leftovers if self._is_corner(word, moves)]
        switches = any(word.address == "M" for word in words)  # any word beside one may be its own
        others = [] if switches else [w for w in leftovers if self._leaves_the_tool(w) and w not in corners]
        for word in corners[:1]:
            await_corner(self.lathe, word)
        for word in others[:1]:
            self._other_axis(word, moves and (word.value != 0 or word.address not in AT_CENTRE))
        self._strays([word for word in leftovers if word not in corners[:1] and word not in others])

    def _leaves_the_tool(self, word: Word) -> bool:
        """True for a place of another axis that moves no insert off the centre, as one along Y does; home is at 0."""
        if word.address == TURN:
            return word.value == 0 or "C" in self.axes
        return word.address in OTHER_AXES and (word.address != "Y" or word.value == 0)

    def _other_axis(self, word: Word, moves: bool) -> None:
        """A place of another axis, told once: alone it moves no tool, and beside X or Z a judged insert is lost."""
        if word.address not in self.axes:
            self.axes.add(word.address)
            message = (
                f"{word} at column {word.column} moves an axis of this machine that is not followed here; look up what "
                "it moves, and see that the tool and the part are clear of it."
            )
            self.log.caution(ProgramCode.OTHER_AXIS, message)
        if moves:
            place = self.lathe.control.place
            self.lathe.move("rapid", place.x, place.z, foreign=OTHER_AXIS, followed=False)

    def _strays(self, words: Sequence[Word]) -> None:
        """A stop for each word that means nothing in its block."""
        for word in words:
            message = (
                f"{word} at column {word.column} has no meaning in this block "
                f"({self.dialect.name}); correct it or take it out."
            )
            self.log.stop(ProgramCode.UNKNOWN_WORD, message)

    def _is_corner(self, word: Word, moves: bool) -> bool:
        """True for a word that stands in a straight cut and rounds or chamfers its end, or gives its angle.

        A letter of an axis is none where its block moves neither X nor Z, where no spindle turns the work, where the
        program has moved that axis before, and where a hand gives it 0, at which no chamfer is.
        """
        if self.lathe.control.mode is not Mode.FEED or word.address.lstrip(",") not in CORNERS:
            return False
        turned = moves and self.lathe.control.spindle.clockwise is not None and word.address not in self.axes
        by_hand = self.log.line not in self.worked_out
        return word.address not in OTHER_AXES or (turned and not (by_hand and word.value == 0))

    def _event(self, event: Event, words: tuple[Word, ...]) -> None:
        """Look an event up in the table and do what the cell says."""
        lathe = self.lathe
        if event is Sign.PLACE and not lathe.words.has_axes:
            return
        if event is Switch.RETURN and not self.course.callers:
            event = Sign.STARTS_OVER
        cell = TABLE[lathe.control.mode].get(event)
        if cell is None:
            lathe.words.drop()
            text = " ".join(map(str, words))
            moves = f"{self.dialect.written(Act.RAPID)} or {self.dialect.written(Act.FEED)}"
            message = f"{event.capitalize()} ({text}) can't come {lathe.control.mode}; put {moves} in its block."
            self.log.stop(ProgramCode.NO_MOTION_WORD, message)
            return
        cell.action(lathe, event)
        lathe.control.mode = cell.then or lathe.control.mode
