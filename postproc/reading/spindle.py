"""What words say of the spindle: its speed and how that is meant, its sense, its clamp; and the step they make."""

from planner.steps import Coolant, Gear, Spindle, SpindleClamp, SpindleStop
from postproc.codes import ProgramCode
from postproc.reading.control import Control, Event
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch


class SpindleActions:
    """The actions of the spindle; `spindle_said` is true in a block that says something of it."""

    control: Control
    log: Log
    words: BlockWords

    def __init__(self) -> None:
        """Nothing said yet."""
        self.spindle_said = False

    def spindle_mode(self, event: Event) -> None:
        """G96, G97."""
        self.control.surface, self.control.surface_said = event is Act.SURFACE, True
        self.spindle_said = True

    def speed(self, event: Event) -> None:
        """S, unless the clamp took it."""
        word = self.words.take("S")
        if word is not None:
            self.control.speeds[self.control.surface] = abs(word.value)
            if not self.control.surface:
                self.control.rpm_line = self.log.line
            self.spindle_said = True
            if word.text.startswith("-"):
                self.log.stop(ProgramCode.SIGNED_AMOUNT, f"{word} has a sign; a spindle speed has none.")

    def spindle(self, event: Event) -> None:
        """M03, M04, M05."""
        if event is Switch.SPINDLE_OFF and self.control.clockwise is not None:
            self.log.halt("stops the spindle")
        self.control.clockwise = None if event is Switch.SPINDLE_OFF else event is Switch.CLOCKWISE
        self.spindle_said = True
        if event is Switch.SPINDLE_OFF:
            self.log.step(SpindleStop())

    def gear(self, event: Event) -> None:
        """M40 to M45."""
        self.log.step(Gear(self.words.gear))

    def spindle_wet(self, event: Event) -> None:
        """M13, M14: spindle and coolant in one, on machines that keep to the old code."""
        clockwise, says = event is Switch.CLOCKWISE_WET, self.words.dialect.written
        self.log.caution(
            ProgramCode.SPINDLE_WITH_COOLANT,
            f"{says(Switch(event))} was read as {event}; some machines mean another spindle by it, so see to it or "
            f"write {says(Switch.CLOCKWISE if clockwise else Switch.COUNTER)} and {says(Switch.COOLANT_ON)}.",
        )
        self.control.clockwise, self.control.wet, self.spindle_said = clockwise, True, True
        self.log.step(Coolant(True))

    def orient(self, event: Event) -> None:
        """M19: the spindle stops at an angle, which R or, taken before, S may give."""
        self.words.take("R")
        self.control.clockwise, self.spindle_said = None, True

    def tell_spindle(self) -> None:
        """Note the spindle step of a block that said something of it."""
        control = self.control
        if self.spindle_said and control.clockwise is not None and control.speed:
            speed = round(control.speed)
            self.log.step(Spindle("surface" if control.surface else "rpm", speed, control.clockwise))
            self._ask_spindle_mode()
        elif self.spindle_said and control.clockwise is not None:
            self.log.caution(
                ProgramCode.SPEED_NOT_SAID,
                "The spindle turns with no S for its mode, so the control takes what it has; give S.",
            )
        self.spindle_said = False

    def _ask_spindle_mode(self) -> None:
        """Say once that nothing tells how S is meant: after a program with G96 it would be a surface speed."""
        if not self.control.surface_said:
            self.control.surface_said = True
            says = self.words.dialect.written
            message = (
                "No word before this says whether S is a spindle speed or a surface speed; it was read as rev/min, so "
                f"say {says(Act.RPM)} or {says(Act.SURFACE)}."
            )
            self.log.caution(ProgramCode.SPINDLE_MODE_NOT_SAID, message)

    def clamp_spindle(self, word: Word) -> None:
        """S beside G50: the spindle's limit; late where it already turns without one under constant surface speed."""
        control, surface = self.control, self.words.dialect.written(Act.SURFACE)
        if control.clamp is None and control.surface and control.clockwise is not None:
            self.log.caution(
                ProgramCode.CLAMP_LATE,
                f"The spindle clamp comes after {surface} has started the spindle, which till then has no limit; "
                f"put it before {surface}.",
            )
        control.clamp, control.clamp_line = round(abs(word.value)), self.log.line
        self.log.step(SpindleClamp(control.clamp))
