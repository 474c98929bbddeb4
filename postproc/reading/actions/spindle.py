"""What words say of the spindle: its speed and how that is meant, its sense, its clamp; and the step they make."""

from typing import Literal

from planner.cutting import spindle_speed
from planner.steps import Coolant, Gear, Spindle, SpindleClamp, SpindleStop
from postproc.codes import ProgramCode
from postproc.reading.control import Event
from postproc.reading.lathe import Lathe
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act, Switch


def speed_mode(lathe: Lathe, event: Event) -> None:
    """G96, G97."""
    spindle = lathe.control.spindle
    spindle.surface, spindle.mode_said, spindle.told = event is Act.SURFACE, True, True


def speed(lathe: Lathe, event: Event) -> None:
    """S, unless the clamp took it."""
    word, spindle = lathe.words.take("S"), lathe.control.spindle
    if word is not None:
        spindle.speeds[spindle.surface] = abs(word.value)
        if not spindle.surface:
            spindle.rpm_line = lathe.log.line
        spindle.told = True
        if word.text.startswith("-"):
            lathe.log.stop(ProgramCode.SIGNED_AMOUNT, f"{word} has a sign; a spindle speed has none.")


def turn(lathe: Lathe, event: Event) -> None:
    """M03, M04, M05."""
    _turn(lathe, None if event is Switch.SPINDLE_OFF else event is Switch.CLOCKWISE)
    if event is Switch.SPINDLE_OFF:
        lathe.log.step(SpindleStop())
    else:
        lathe.log.starts.add(len(lathe.log.steps))


def _turn(lathe: Lathe, clockwise: bool | None) -> None:
    """Have the spindle turn so, None: not at all; one that turns the other way stands still on the way there."""
    spindle = lathe.control.spindle
    if spindle.clockwise is not None and clockwise is not spindle.clockwise:
        lathe.log.halt("stops the spindle" if clockwise is None else "turns the spindle the other way")
    spindle.clockwise, spindle.told = clockwise, True


def gear(lathe: Lathe, event: Event) -> None:
    """M40 to M45."""
    lathe.log.step(Gear(lathe.words.gear))


def turn_wet(lathe: Lathe, event: Event) -> None:
    """M13, M14: spindle and coolant in one, on machines that keep to the older code."""
    clockwise, says = event is Switch.CLOCKWISE_WET, lathe.dialect.written
    lathe.log.caution(
        ProgramCode.SPINDLE_WITH_COOLANT,
        f"{says(Switch(event))} was read as {event}; some machines mean another spindle by it, so check that or "
        f"write {says(Switch.CLOCKWISE if clockwise else Switch.COUNTER)} and {says(Switch.COOLANT_ON)}.",
    )
    lathe.control.wet = True
    _turn(lathe, clockwise)
    lathe.log.starts.add(len(lathe.log.steps))
    lathe.log.step(Coolant(True))


def orient(lathe: Lathe, event: Event) -> None:
    """M19: the spindle stops at an angle, which R may give, or S, taken before."""
    lathe.words.take("R")
    _turn(lathe, None)


def tell_spindle(lathe: Lathe) -> None:
    """Note the spindle step of a block that said something of it."""
    spindle = lathe.control.spindle
    if spindle.told and spindle.clockwise is not None and spindle.speed:
        mode: Literal["surface", "rpm"] = "surface" if spindle.surface else "rpm"
        lathe.log.step(Spindle(mode, round(spindle.speed), spindle.clockwise))
        _ask_mode(lathe)
    elif spindle.told and spindle.clockwise is not None and not _keeps(lathe):
        message = "The spindle turns with no S for its mode, so the control uses what it has stored; give S."
        lathe.log.caution(ProgramCode.SPEED_NOT_SAID, message)
    spindle.told = False


def _keeps(lathe: Lathe) -> bool:
    """Take the speed that the spindle has where surface speed ends with no S, as most controls do (common practice)."""
    spindle, place = lathe.control.spindle, lathe.control.place
    surface = spindle.speeds.get(True)
    if spindle.surface or not surface or not place.x_known:
        return False
    turns = spindle_speed(surface, lathe.across, spindle.clamp or None, lathe.increments.units)
    spindle.speeds[False] = turns
    lathe.log.step(Spindle("rpm", round(turns), spindle.clockwise is not False))
    says = lathe.dialect.written(Act.RPM)
    message = (
        f"{says} has no S here: most controls keep the {turns:.0f} rev/min that the spindle has at "
        f"X{lathe.increments.length(place.x):g}, some use what they have stored; give S."
    )
    lathe.log.caution(ProgramCode.SPEED_NOT_SAID, message)
    return True


def _ask_mode(lathe: Lathe) -> None:
    """Say once that nothing tells how S is meant: after a program with G96 it would be a surface speed."""
    if not lathe.control.spindle.mode_said:
        lathe.control.spindle.mode_said = True
        says = lathe.dialect.written
        message = (
            "No word before this says whether S is a spindle speed or a surface speed; it was read as rev/min, so "
            f"say {says(Act.RPM)} or {says(Act.SURFACE)}."
        )
        lathe.log.caution(ProgramCode.SPINDLE_MODE_NOT_SAID, message)


def clamp(lathe: Lathe, word: Word) -> None:
    """S beside G50: the spindle's limit; late where it already turns without one under constant surface speed."""
    spindle, surface = lathe.control.spindle, lathe.dialect.written(Act.SURFACE)
    if spindle.clamp is None and spindle.surface and spindle.clockwise is not None:
        lathe.log.caution(
            ProgramCode.CLAMP_LATE,
            f"The spindle clamp comes after {surface} has started the spindle, which till then has no limit; "
            f"put it before {surface}.",
        )
    spindle.clamp, spindle.clamp_line = round(abs(word.value)), lathe.log.line
    lathe.log.step(SpindleClamp(spindle.clamp))
