"""The words of one block as values: taken one by one, so that what nobody took is noticed at the end."""

from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.control import Control
from postproc.reading.log import Log
from postproc.reading.words import Word
from postproc.vocabulary.numbers import counted

AXES = "XZUW"
LARGEST = 99_999_999
"""Counts that a control can hold: eight digits (common practice)."""


class BlockWords:
    """The words of a block besides G and M, by address; a repeated address is a stop and the later one counts."""

    def __init__(self, dialect: Dialect, increments: Increments, log: Log) -> None:
        """Make it once for a run; `fill` it for each block."""
        self._dialect = dialect
        self._increments = increments
        self._log = log
        self._left: dict[str, Word] = {}
        self.late_units = False

    def fill(self, words: list[Word]) -> None:
        """Take the words of the next block."""
        self._left = {w.address: w for w in words}
        if len(self._left) < len(words):
            twice = next(w for w in words if self._left[w.address] is not w)
            message = f"{twice.address} stands twice in the block, and a control takes one of them or alarms; keep one."
            self._log.stop(ProgramCode.REPEATED_WORD, message)

    def has(self, address: str) -> bool:
        """True if the word is there and not yet taken."""
        return address in self._left

    @property
    def has_axes(self) -> bool:
        """True if any axis word is left."""
        return any(address in self._left for address in AXES)

    def take(self, address: str) -> Word | None:
        """The word, which then counts as understood."""
        return self._left.pop(address, None)

    def drop(self) -> None:
        """Give up on the rest of the block, where a finding already says why."""
        self._left = {}

    def leftovers(self) -> list[Word]:
        """Words that nothing in the block took."""
        return list(self._left.values())

    def amount(self, word: Word | None, whole: bool = False) -> int | None:
        """Counts of a length word. `whole`: least increments are meant, and a point is what is wrong with it."""
        if word is None:
            return None
        if not (whole or word.pointed) and not self._dialect.point_needed:
            return self._within(word, int(word.text) * self._increments.per_length)
        return self._within(word, self._counted(word, self._increments.per_length, whole))

    def _within(self, word: Word, count: int) -> int:
        """The count, cut down to what a control can hold; more is a slip of the finger and a stop."""
        if abs(count) <= LARGEST:
            return count
        message = f"{word} at column {word.column} is longer than any control takes; check its digits."
        self._log.stop(ProgramCode.NUMBER_TOO_LONG, message)
        return LARGEST if count > 0 else -LARGEST

    def feed(self, word: Word, per_minute: bool) -> int:
        """Counts of a feed; per minute a whole number needs no point (common practice)."""
        if not word.pointed and (per_minute or not self._dialect.point_needed):
            return int(word.text) * self._increments.per_feed
        return self._counted(word, self._increments.per_feed, False)

    def _counted(self, word: Word, per_unit: int, whole: bool) -> int:
        """Counts of a number, with findings for a missing point, a rounded digit and a unit not yet said."""
        number = counted(word.text, per_unit)
        if number.count and not whole and not word.pointed:
            unit = self._increments.units
            message = (
                f"{word} at column {word.column} has no decimal point, so it counts least increments: "
                f"{number.count / per_unit:g} {unit}; write the point."
            )
            self._log.stop(ProgramCode.NO_DECIMAL_POINT, message)
        if not number.exact and word.address != "F":
            message = (
                f"{word} at column {word.column} is finer than the least increment and was rounded; give fewer digits."
            )
            self._log.caution(ProgramCode.FINER_THAN_INCREMENT, message)
        if self.late_units and number.count:
            self.late_units = False
            message = (
                "This length comes before the unit word and runs in the units that the control was "
                "left in; say the units first."
            )
            self._log.stop(ProgramCode.UNITS_LATE, message)
        return number.count

    def target(self, control: Control) -> tuple[int, int]:
        """Where the axis words of the block point to, in counts, x on the diameter."""
        return self._axis("X", control.x, control.incremental), self._axis("Z", control.z, control.incremental)

    def _axis(self, axis: str, now: int, incremental: bool) -> int:
        """The end of the move along one axis: absolute, by increment, or where it is."""
        factor = 2 if axis == "X" and not self._dialect.diameter_x else 1
        place, end = self.take(axis), now
        if place is not None:
            end = factor * (self.amount(place) or 0) + (now if incremental else 0)
        for address, moved in self._dialect.increments.items():
            if moved == axis and (step := self.take(address)) is not None:
                if place is not None:
                    self._log.stop(ProgramCode.REPEATED_WORD, f"{place} and {step} both move {axis}; keep one of them.")
                end = now + factor * (self.amount(step) or 0)
        return end
