"""Roughing and finishing along a contour that the program's own blocks give: G71, G72, G73 and G70 with P and Q.

The blocks from P to Q are run once to learn the contour, and what they move is taken back; then the cycle is cut. The
finishing runs them for good (common practice: depth and retract in a block before, allowances beside P and Q).
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.motion import Motion
from postproc.reading.contours import Corner, Way, X, Z, along, beside, passes, rises, shifted
from postproc.reading.control import Control, Event
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

MOST_MOVES = 20_000
"""Of one cycle; more passes are a slip of the finger."""


@dataclass(frozen=True)
class RoughSettings:
    """What the first block of a roughing cycle sets: depth of a pass or the way aside (x, z), retract, number."""

    depth: int = 0
    aside: tuple[int, int] = (0, 0)
    back: int = 0
    times: int = 1


class Roughing:
    """The actions of the contour cycles. `trace` runs the blocks between two numbers and gives their moves back."""

    control: Control
    log: Log
    words: BlockWords
    dialect: Dialect
    trace: Callable[[Word, Word, bool], list[Motion] | None]

    def __init__(self) -> None:
        """No cycle has been set up."""
        self._rough: dict[Event, RoughSettings] = {}

    def roughing(self, event: Event) -> None:
        """G71, G72, G73: their settings, or with P and Q the cycle."""
        first, last = self.words.take("P"), self.words.take("Q")
        if first is None or last is None:
            self._set_up(event)
            return
        settings = self._in_one_block(event)
        allowance = self._allowance()
        start = self.control.x, self.control.z
        traced = self.trace(first, last, False)
        if not traced:
            return
        bare = [Corner(motion.x1, motion.z1, motion.kind == "rapid") for motion in traced]
        contour = shifted(bare, allowance)
        if event is Act.ROUGHING_BESIDE:
            self._cut(event, beside(start, contour, settings.aside, settings.times))
            return
        axis = X if event is Act.ROUGHING else Z
        self._weigh(event, settings, rises(contour, start, axis))
        self._cut(event, passes(start, contour, axis, settings.depth, settings.back))

    def _weigh(self, event: Event, settings: RoughSettings, rising: bool) -> None:
        """What controls take differently."""
        if not settings.depth:
            message = "No block gives the depth of a pass, so the control takes what it has; give it before the cycle."
            self.log.caution(ProgramCode.DEPTH_NOT_SAID, message)
        if not rising:
            message = (
                "The contour goes back toward the axis on its way; some controls cut such a hollow pass by pass, some "
                "in one cut and some alarm: see which yours does."
            )
            self.log.caution(ProgramCode.CONTOUR_TURNS_BACK, message)

    def finishing(self, event: Event) -> None:
        """G70: along the contour at its own feeds, and back to the start."""
        first, last = self.words.take("P"), self.words.take("Q")
        start = self.control.x, self.control.z
        for address in "UW":
            self.words.take(address)
        if first is None or last is None:
            self.log.stop(
                ProgramCode.CONTOUR_MISSING, "The finishing cycle doesn't say where its contour stands; give P and Q."
            )
            self.words.drop()
        elif self.trace(first, last, True):
            self._cut(event, along(start, ()))

    def _set_up(self, event: Event) -> None:
        """The block before the cycle."""
        amounts = {a: self.words.amount(self.words.take(a)) for a in "UW"}
        retract = self.words.take("R")
        deep = amounts["W" if event is Act.ROUGHING_ACROSS else "U"]
        if event is Act.ROUGHING_BESIDE:
            # The number of passes is whole; with a point, a few controls count it in thousands (common practice).
            times = round(abs(retract.value)) if retract is not None else 1
            aside = 2 * (amounts["U"] or 0), amounts["W"] or 0
            self._rough[event] = RoughSettings(aside=aside, times=max(1, times))
            return
        self._rough[event] = RoughSettings(abs(deep or 0), back=abs(self.words.amount(retract) or 0))

    def _in_one_block(self, event: Event) -> RoughSettings:
        """The settings in force, with D of a cycle in one block over them."""
        settings, word = self._rough.get(event, RoughSettings()), self.words.take("D")
        if word is not None:
            depth = abs(self.words.amount(word, whole=True) or 0)
            settings = RoughSettings(depth, back=settings.back)
        self.words.take("R")
        return settings

    def _allowance(self) -> tuple[int, int]:
        """What is left on the contour, x on the diameter."""
        factor = 1 if self.dialect.diameter_x else 2
        across, lengthwise = (self.words.amount(self.words.take(address)) or 0 for address in "UW")
        return factor * across, lengthwise

    def _cut(self, event: Event, ways: Iterator[Way]) -> None:
        """Make the moves of a cycle."""
        for number, (kind, x, z) in enumerate(ways):
            if number > MOST_MOVES:
                self.log.stop(
                    ProgramCode.RUNAWAY, "This cycle has more passes than any part needs; check the depth of a pass."
                )
                return
            if (x, z) != (self.control.x, self.control.z):
                self.log.move(self.control, kind, x, z, foreign=str(event))
