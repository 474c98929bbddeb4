"""Dwells: how long a block stands still, in seconds, milliseconds, turns of the spindle, or a form of the dialect."""

from fractions import Fraction

from planner.cutting import spindle_speed
from planner.increment import Increments
from planner.steps import Dwell
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.control import Control, Event
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

LONG_DWELL = 5_000
"""Milliseconds from which a dwell was hardly meant: a few turns of the spindle break a chip (common practice)."""


class Dwells:
    """The action of a dwell."""

    control: Control
    dialect: Dialect
    increments: Increments
    log: Log
    words: BlockWords

    def dwell(self, event: Event) -> None:
        """G04: P in whole milliseconds, X, U or F in seconds, or S in turns of the spindle (common practice)."""
        own = self._own_dwell()
        if own is not None:
            self._dwell(*own)
            return
        word = next((w for a in "PXUF" if (w := self.words.take(a)) is not None), None)
        if word is None and (turns := self.words.take("S")) is not None:
            self._dwell_by_turns(turns)
        elif word is None:
            self.log.stop(ProgramCode.DWELL, "The dwell says no time; give X in seconds.")
        else:
            self._dwell(round(abs(word.value) * 1000) if word.pointed else abs(int(word.text)), str(word))

    def _own_dwell(self) -> tuple[int, str] | None:
        """Milliseconds of a dwell in the dialect's own form, where that isn't the trade's; None for any other."""
        gap = self.dialect.gap("dwell", "seconds") or self.dialect.gap("dwell", "ms")
        trade = gap is None or gap.address in (("P",) if gap.field == "ms" else ("X", "U"))
        figure = self.dialect.figure(gap.address) if gap is not None else None
        if gap is None or figure is None or (trade and figure.point == "needed"):
            return None
        word = self.words.take(gap.address)
        if word is None:
            return None
        value = Fraction(word.text) if gap.field == "ms" else 1000 * figure.read(word.text, self.increments.units)
        return round(abs(value)), str(word)

    def _dwell(self, milliseconds: int, word: str) -> None:
        """Note a dwell, and whether it is too long to be meant: G04 with X looks like a move."""
        self.log.step(Dwell(milliseconds))
        if milliseconds >= LONG_DWELL:
            said = f"{self.dialect.written(Act.DWELL)} {word}"
            message = f"{said} stands still for {milliseconds / 1000:g} s; is a dwell meant here, or a move?"
            self.log.caution(ProgramCode.DWELL_LONG, message)

    def _dwell_by_turns(self, word: Word) -> None:
        """Stand still for so many turns at the speed that the spindle has here."""
        control, units = self.control, self.increments.units
        across = max(self.increments.length(abs(control.x)), self.increments.length(1))
        speed = spindle_speed(control.speed, across, control.clamp, units) if control.surface else control.speed
        if control.clockwise is None or speed <= 0:
            self.log.stop(ProgramCode.DWELL, f"{word} is a dwell in turns of a spindle that stands; give X in seconds.")
            return
        milliseconds = max(1, round(60_000 * abs(word.value) / speed))
        message = (
            f"{word} beside {self.dialect.written(Act.DWELL)} was read as a dwell of {abs(word.value):g} turns, "
            f"{milliseconds / 1000:g} s; some "
            "controls take it for a spindle speed, so give X in seconds."
        )
        self.log.caution(ProgramCode.DWELL_BY_TURNS, message)
        self._dwell(milliseconds, str(word))
