"""Macro statements as they run: variables set, loops and jumps taken, words with formulas worked out.

    #101=42.    X[#101-2.]    WHILE [..] DO1 ... END1    IF [..] GOTO 100    IF [..] THEN #1=..    GOTO 100

Where a value is not known, nothing more can be said of the program: one stop, and nothing that only follows from it.
"""

import math
from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.reading.course import Course
from postproc.reading.formula import EMPTY, Broken, Formula, Unknown, Unset, places, tokens
from postproc.reading.log import Log, Runaway
from postproc.reading.words import Block, Word
from postproc.vocabulary.acts import MACRO

MOST_ROUNDS = 10_000
"""How often one jump may go back before the loop counts as endless."""
MOST_VALUE = 1e9
"""Greater values than any word holds are not put into one."""
GIVEN_PLACES = 9
"""Decimals of a value that is given to a program: far below a count, so that sums of many stay right."""
NAMES = frozenset("GMNOT")
"""Addresses whose numbers name something: a value between two names is neither."""
WHOLE_WITHIN = 1e-6
"""What formulas leave of a whole number (common practice: controls round such remainders)."""
WHOLE = frozenset("GMNOPQTSLD")
"""Addresses whose worked out values are whole numbers: codes, tools, speeds, and counts of increments."""
FIRST_OF_CONTROL = 1000
"""Variables from here on are the control's own: its offsets, zeros, signals and clocks (common practice, no source)."""
ALARM, MESSAGE = 3000, 3006
"""What halts the control for good, and what halts it until somebody starts it again, each with a message."""
INHIBITS = frozenset({3003, 3004})
"""What switches single block, feed hold and override off: the hands on them do nothing."""
OUTPUTS = range(1100, 1133)
"""Signals to the machine, which do what its builder gave them to do, as an M word does."""
COUNTS = frozenset({3001, 3002, 3901, 3902})
"""Clocks and counts of parts: nothing that moves depends on them, unless a formula asks for them."""


class Effect(NamedTuple):
    """What a statement comes to: words of an ordinary block, and the block that comes next where it isn't the next."""

    words: tuple[Word, ...] = ()
    goto: int | None = None


class Macros:
    """The variables of one run and the way through its loops."""

    def __init__(
        self,
        blocks: Sequence[Block],
        course: Course,
        increments: Increments,
        log: Log,
        equal: bool = False,
        guard: bool | None = None,
    ) -> None:
        """The variables are those of the course; `equal` as in `Formula`, `guard` as in `interpret`."""
        self._blocks, self._sections, self._log, self._equal = blocks, course.sections, log, equal
        self._guard = guard
        self._places = len(str(increments.per_length)) - 1
        self._values = course.values
        self._rounds: Counter[int] = Counter()

    def run(self, at: int) -> Effect:
        """Run the statement of a block; if that can't be done, what follows is lost, and the block is left out."""
        block = self._blocks[at]
        try:
            formula = Formula(tokens(block.macro), self._values, self._equal)
            effect = self._statement(at, formula)
            if formula.close and self._log.close is None:
                self._log.close = block.line
            return effect
        except Unknown as unknown:
            why = f"{unknown}, so what it does is not known"
        except Broken as broken:
            why = f"{broken}, so this formula can't be worked out"
        except (OverflowError, ValueError, RecursionError):
            why = "its numbers are too great or it is nested too deep, so this formula can't be worked out"
        self._log.lose(ProgramCode.MACRO_VARIABLE, f"{block.macro.strip()[:60]}: {why}; write the numbers out.")
        self._log.skipped += 1
        return Effect()

    def _statement(self, at: int, formula: Formula) -> Effect:
        """One statement of any kind."""
        if formula.next == "N" and len(formula.found) > 2 and formula.found[1].isdigit():
            formula.at = 2
        if formula.next == "#":
            return self._set(formula)
        if formula.next == "WHILE":
            return self._while(at, formula)
        if formula.next == "IF":
            return self._if(at, formula)
        if formula.next == "END":
            formula.take()
            return Effect(goto=self._back(at, formula.number()))
        if formula.next == "GOTO":
            formula.take()
            return Effect(goto=self._jump(at, formula.number()))
        return Effect(self._words(self._blocks[at].macro, formula))

    def _set(self, formula: Formula) -> Effect:
        """#n = formula; of a value that is not known #n has none, and a message of the control waits there."""
        formula.take("#")
        number = formula.number()
        if number == EMPTY:
            raise Broken(f"#{EMPTY} is always empty, so nothing can be put into it")
        formula.take("=")
        formula.bare = True
        source = formula.found[formula.at :]
        value = formula.sum()
        if formula.next:
            raise Broken(f"{formula.next} stands behind the formula")
        if number >= FIRST_OF_CONTROL:
            self._tell_control(number, value)
        elif math.isnan(value) and not self._vacant(source):
            self._values.pop(number, None)
        else:
            self._values[number] = value
        return Effect((Word("M", "00", 1),) if number == MESSAGE else ())

    def _vacant(self, source: Sequence[str]) -> bool:
        """True for a variable alone that is known to have no value: what it is put into is vacant as well."""
        named = int(source[1]) if source[0] == "#" and len(source) == 2 and source[1].isdigit() else None
        return named is not None and (named == EMPTY or named in self._values)

    def _tell_control(self, number: int, value: float) -> None:
        """What a program says to its control by a variable: where that moves a zero, nothing says it."""
        said = f"#{number}" if math.isnan(value) else f"#{number}={value:g}"
        if number in COUNTS or number == MESSAGE or (number in INHIBITS and value == 0):
            return
        if number in INHIBITS:
            message = (
                f"{said} switches off single block, feed hold or override from here on; take it out for the prove-out."
            )
            self._log.caution(ProgramCode.CONTROL_DATA, message)
        elif number in OUTPUTS:
            message = f"{said} sets one of the machine's own signals, which was not checked; look it up in its manual."
            self._log.caution(ProgramCode.CONTROL_DATA, message)
        elif number == ALARM:
            message = f"{said} stops the control with an alarm, so no block after it runs; correct what leads to it."
            self._log.alarm = len(self._log.motions) if self._log.alarm is None else self._log.alarm
            self._log.stop(ProgramCode.CONTROL_DATA, message)
        else:
            message = (
                f"{said} writes to the control's own data, offsets and zeros among them, so it is not known where the "
                "tool goes from here; take it out, and set such data at the machine."
            )
            self._log.stop(ProgramCode.CONTROL_DATA, message)

    def _while(self, at: int, formula: Formula) -> Effect:
        """WHILE [..] DO n: on into the loop, or behind its end."""
        formula.take()
        holds = formula.condition()
        formula.take("DO")
        end = self._end_of(at, formula.number())
        return Effect() if holds else Effect(goto=end + 1)

    def _if(self, at: int, formula: Formula) -> Effect:
        """IF [..] GOTO n, IF [..] THEN #n = formula."""
        formula.take()
        unset, holds = self._asked(self._blocks[at], formula)
        if formula.take("GOTO", "THEN") == "GOTO":
            goto = self._jump(at, formula.number()) if holds or unset else at
            if unset and goto <= at:
                raise unset  # a loop that hangs on it is not followed either way
            return Effect(goto=goto) if holds else Effect()
        return self._set(formula) if holds else Effect()

    def _asked(self, block: Block, formula: Formula) -> tuple[Unset | None, bool]:
        """Whether a condition holds, and why nobody knows where it is taken as the caller asked: one in a program."""
        try:
            return None, formula.condition()
        except Unset as unset:
            guard = (block.line, block.macro.strip())
            ends = [k for k, token in enumerate(formula.found) if token in ("GOTO", "THEN")]
            vacant = ("#", str(EMPTY)) in pairwise(formula.found)  # that answer is the same however often it is asked
            if self._guard is None or not ends or self._log.guard not in (None, guard if vacant else None):
                raise
            self._log.guard, formula.at = guard, ends[0]
            return unset, self._guard

    def _end_of(self, at: int, loop: int) -> int:
        """The index of the END of a loop."""
        for index in range(at + 1, len(self._blocks)):
            if tokens(self._blocks[index].macro)[-2:] == ("END", str(loop)):
                return index
        raise Broken(f"END{loop} is missing")

    def _back(self, at: int, loop: int) -> int:
        """From the END of a loop to its WHILE."""
        self._round(at)
        for index in range(at - 1, -1, -1):
            found = tokens(self._blocks[index].macro)
            if "WHILE" in found and found[-2:] == ("DO", str(loop)):
                return index
        raise Broken(f"WHILE with DO{loop} is missing")

    def _jump(self, at: int, number: int) -> int:
        """The block of a number, looked for onward and then from the start of the program."""
        target = self._sections.numbered(self._blocks, number, at)
        if target is None:
            raise Broken(f"no block N{number} is there to go on at")
        if any(begin < target <= end and not begin < at <= end for begin, end in self._loops):
            raise Broken(f"block N{number} stands inside a loop, and no jump from outside may lead there")
        if target <= at:
            self._round(at)
        return target

    @cached_property
    def _loops(self) -> tuple[tuple[int, int], ...]:
        """The first and the last block of each loop; one that is broken is told where it runs."""
        loops = []
        for index in (n for n, block in enumerate(self._blocks) if "WHILE" in block.macro.upper()):
            with suppress(Broken):
                found = tokens(self._blocks[index].macro)
                if found[-2:-1] == ("DO",) and found[-1].isdigit():
                    loops.append((index, self._end_of(index, int(found[-1]))))
        return tuple(loops)

    def _round(self, at: int) -> None:
        """Count a way back; too many are a loop without end."""
        self._rounds[at] += 1
        if self._rounds[at] > MOST_ROUNDS:
            self._log.lose(ProgramCode.RUNAWAY, f"This loop was run {MOST_ROUNDS} times and has no end; mend it.")
            raise Runaway

    def _words(self, text: str, formula: Formula) -> tuple[Word, ...]:
        """The words of an ordinary block, those with formulas worked out."""
        words, columns, given = [], places(text), False
        while formula.next:
            column, address = columns[formula.at], formula.take()
            if len(address) != 1 or not address.isalpha():
                raise Broken(f"{address} stands where a word is needed")
            sign = formula.take() if formula.next in ("+", "-") else ""
            if formula.next[:1].isdigit() or formula.next[:1] == ".":
                text = sign + formula.take()
            else:
                value = formula.factor()
                text = self._text(address, -value if sign == "-" else value, given and address not in "PL")
            words.append(Word(address, text, column))
            given = given or (address == "G" and words[-1].whole == MACRO)
        return tuple(words[1:] if words and words[0].address == "N" else words)

    def _text(self, address: str, value: float, given: bool = False) -> str:
        """A worked out value as its word has it; one that is `given` to a program is no word of its letter there."""
        if not abs(value) <= MOST_VALUE:
            raise Broken(f"{address} would have a greater value than any word holds")
        if given:
            return f"{value:.{GIVEN_PLACES}f}"
        if address in NAMES and abs(value - round(value)) > WHOLE_WITHIN:
            raise Broken(f"{address} would be {value:g}, which is not a whole number")
        if address in WHOLE:
            return str(round(value))
        places = self._places + 2 * (address == "F")
        return f"{value:.{places}f}"
