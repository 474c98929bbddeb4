"""The words of one block as values: taken one by one, so that any left over is noticed at the end."""

import math
from collections.abc import Sequence
from fractions import Fraction

from planner.increment import Increments
from planner.shop import WholeNumbers
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.control import ToolPlace
from postproc.reading.log import Log
from postproc.reading.words import Word
from postproc.vocabulary.numbers import Counted, counted
from postproc.vocabulary.pattern import DIAMETERS, Gap

LARGEST = 99_999_999
"""Counts that a control can hold: eight digits (common practice)."""


class Exact(dict[str, int]):
    """Counts of lengths by their text; KeyError for one without a point, finer than a count or too long to be held."""

    def __init__(self, per_length: int) -> None:
        """`per_length`: counts in a unit of length."""
        self._per_length = per_length

    def __missing__(self, text: str) -> int:
        """The count of a text that was not met before."""
        number = counted(text, self._per_length)
        if "." not in text or not number.exact or abs(number.count) > LARGEST:
            raise KeyError(text)
        self[text] = number.count
        return number.count


class BlockWords:
    """The words of a block besides G and M, by address; a repeated address is a stop and the later one counts."""

    def __init__(
        self, dialect: Dialect, increments: Increments, log: Log, whole_numbers: WholeNumbers | None, late_units: bool
    ) -> None:
        """Make it once for a run; `fill` it for each block. `whole_numbers` as somebody says it of the control.

        `late_units`: a unit word comes, and lengths before it run in the units that the control was left in.
        """
        self.dialect = dialect
        self._increments = increments
        self._log = log
        self._axes = dialect.axes
        self._steps = {a: tuple(s for s, moved in dialect.axes.items() if moved == a != s) for a in "XZ"}
        self._plain, self._factor = dialect.plain, 1 if dialect.diameter_x else 2
        self.exact = Exact(increments.per_length)
        self.feeds: dict[str, int] = {}
        """Counts of feeds above 0 with a point, by their text."""
        self._told = whole_numbers is not None
        self._in_units = whole_numbers == "units" if self._told else not dialect.point_needed
        self._left: dict[str, Word] = {}
        self.late_units = late_units
        self.gear = 1
        """Which gear of the spindle the block names, by its order."""
        self.offset = 1
        """Which work offset the block names, by its order."""
        self.own_switch = ""
        """What the block's switch of the machine's own does, empty where nobody says it."""

    def fill(self, words: Sequence[Word]) -> None:
        """Take the words of the next block."""
        self._left = {w.address: w for w in words}
        if len(self._left) < len(words):
            twice = next(w for w in words if self._left[w.address] is not w)
            either = "a control takes one of them or stops with an alarm"
            message = f"{twice.address} stands twice in the block, and {either}; keep one."
            self._log.stop(ProgramCode.REPEATED_WORD, message)

    def has(self, address: str) -> bool:
        """True if the word is there and not yet taken."""
        return address in self._left

    @property
    def addresses(self) -> frozenset[str]:
        """The addresses that are left."""
        return frozenset(self._left)

    @property
    def has_axes(self) -> bool:
        """True if any axis word is left."""
        return not self._left.keys().isdisjoint(self._axes)

    def says(self, axis: str) -> bool:
        """True if a word is left that moves an axis, to a place or by an increment, or has any other address."""
        left = self._left
        return axis in left or any(step in left for step in self._steps.get(axis, ()))

    def take(self, address: str) -> Word | None:
        """The word, which then counts as understood."""
        return self._left.pop(address, None)

    def drop(self) -> None:
        """Give up on the rest of the block, where a finding already says why."""
        self._left = {}

    def leftovers(self) -> list[Word]:
        """Words that nothing in the block took."""
        return list(self._left.values())

    def amount(self, word: Word | None, whole: bool = False, times: int = 1) -> int | None:
        """Counts of a length word, multiplied (2 makes a diameter of a radius).

        `whole`: least increments are meant, and a point is what is wrong with it.
        """
        if word is None:
            return None
        per_unit = times * self._increments.per_length
        if self._told and not (whole or word.pointed):
            if self._in_units:
                return self._within(word, int(word.text) * per_unit)
            return self._within(word, self._counted(word, per_unit, whole, times))
        if self._plain:
            return self._within(word, self._counted(word, per_unit, whole, times))
        figure = self.dialect.figure(word.address)
        if word.pointed or (figure.point == "needed" and not whole):
            return self._within(word, self._counted(word, per_unit, whole, times))
        return self._within(word, self._rounded(word, figure.read(word.text, self._increments.units, whole) * per_unit))

    def _rounded(self, word: Word, counts: Fraction) -> int:
        """Whole counts, with a finding for what had to be rounded."""
        if counts.denominator != 1:
            self._log.caution(
                ProgramCode.FINER_THAN_INCREMENT,
                f"{word} at column {word.column} is finer than the least increment and was rounded; give fewer digits.",
            )
        return math.floor(counts + Fraction(1, 2))

    def measured(self, word: Word | None, gap: Gap) -> int | None:
        """Counts of a word by the gap that it fills: on the radius, where the gap has a measure at all."""
        count = self.amount(word, gap.whole)
        if word is None or count is None:
            return None
        if gap.measure == "diameter":
            count = self._rounded(word, Fraction(count, 2))
        return -count if gap.sign == "minus" else count

    def radius(self) -> int | None:
        """The radius of an arc."""
        gap = self.dialect.gap("arc", "radius")
        word = self.take("R")
        return self.amount(word) if gap is None else self.measured(word, gap)

    def centre(self, start: tuple[int, int]) -> tuple[int | None, int | None]:
        """From the start (x, z) of an arc to its centre, radial and axial; None where no word says it."""
        across, along = self.dialect.gap("arc", "centre_x"), self.dialect.gap("arc", "centre_z")
        if across is None or along is None:
            gap, word = self.dialect.gap("arc", "i"), self.take("I")
            return self.amount(word) if gap is None else self.measured(word, gap), self.amount(self.take("K"))
        word, other = self.take(across.address), self.take(along.address)
        x, z = self.amount(word, times=self.times(across)), self.amount(other)
        return None if x is None else (x - start[0]) // 2, None if z is None else z - start[1]

    def times(self, gap: Gap) -> int:
        """The factor that makes a diameter of what a gap along X holds; 1 for any other gap."""
        along_x = gap.field in DIAMETERS
        on_diameter = gap.measure == "diameter" or (not gap.measure and self.dialect.diameter_x)
        return 2 if along_x and not on_diameter else 1

    def _within(self, word: Word, count: int) -> int:
        """The count, cut down to what a control can hold; more is a slip of the finger and a stop."""
        if abs(count) <= LARGEST:
            return count
        message = f"{word} at column {word.column} is longer than any control takes; check its digits."
        self._log.stop(ProgramCode.NUMBER_TOO_LONG, message)
        return LARGEST if count > 0 else -LARGEST

    def feed(self, word: Word, per_minute: bool) -> int:
        """Counts of a feed; per minute a whole number needs no point (common practice)."""
        if word.pointed:
            count = self._counted(word, self._increments.per_feed, False)
            if count > 0:
                self.feeds[word.text] = count
            return count
        figure = self.dialect.figure("F")
        if per_minute or self._in_units:
            return int(word.text) * self._increments.per_feed
        if figure.point == "never":
            return self._rounded(word, figure.read(word.text, self._increments.units) * self._increments.per_feed)
        return self._counted(word, self._increments.per_feed, False)

    def _counted(self, word: Word, per_unit: int, whole: bool, times: int = 1) -> int:
        """Counts of a number, with findings for a missing point, a rounded digit and a unit not yet said."""
        number = counted(word.text, per_unit)
        if times != 1 and not word.pointed:
            number = Counted(times * number.count, True)
        if number.count and not whole and not word.pointed and not self._told:
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

    def target(self, place: ToolPlace) -> tuple[int, int]:
        """Where the axis words of the block point to from a place, in counts, x on the diameter."""
        return self._axis("X", place.x, place.incremental), self._axis("Z", place.z, place.incremental)

    @property
    def exact_places(self) -> bool:
        """True if places are counted as they are written: X on the diameter, with no form of their own."""
        return self._plain and self._factor == 1

    def _place(self, word: Word, factor: int) -> int:
        """Counts of a place."""
        if self._plain and factor == 1 and not self.late_units:
            try:
                return self.exact[word.text]
            except KeyError:
                pass  # there is something to remark
        return self.amount(word, times=factor) or 0

    def _axis(self, axis: str, now: int, incremental: bool) -> int:
        """The end of the move along one axis: absolute, by increment, or where it is."""
        factor = self._factor if axis == "X" else 1
        place, end = self.take(axis), now
        if place is not None:
            end = self._place(place, factor) + (now if incremental else 0)
        for address in self._steps[axis]:
            if (step := self.take(address)) is not None:
                if place is not None:
                    self._log.stop(ProgramCode.REPEATED_WORD, f"{place} and {step} both move {axis}; keep one of them.")
                end = now + self._place(step, factor)
        return end
