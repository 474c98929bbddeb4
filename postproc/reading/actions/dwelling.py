"""Dwells: how long a block stands still, in seconds, milliseconds, turns of the spindle, or a form of the dialect."""

from fractions import Fraction

from planner.cutting import spindle_speed
from planner.steps import Dwell
from postproc.codes import ProgramCode
from postproc.reading.control import Event
from postproc.reading.lathe import Lathe
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

LONG_DWELL = 5_000
"""Milliseconds from which a dwell was hardly meant: a few turns of the spindle break a chip (common practice)."""
SHORT_DWELL = 5
"""Milliseconds below which a dwell was hardly meant: no spindle of a lathe makes a turn in them (common practice)."""


def dwell(lathe: Lathe, event: Event) -> None:
    """G04: P in whole milliseconds, X, U or F in seconds, or S in turns of the spindle (common practice)."""
    own = _own_dwell(lathe)
    if own is not None:
        _dwell(lathe, *own)
    else:
        _trade_dwell(lathe)
    if lathe.words.has_axes:
        words = (
            f"This block names a place beside {lathe.dialect.written(Act.DWELL)}: some controls move there, others "
            "don't; give a move its own word, or take the place out."
        )
        lathe.log.stop(ProgramCode.DWELL, words)


def _trade_dwell(lathe: Lathe) -> None:
    """A dwell as the trade writes it."""
    word = next((w for a in "PXUF" if (w := lathe.words.take(a)) is not None), None)
    if word is None and (turns := lathe.words.take("S")) is not None:
        _dwell_by_turns(lathe, turns)
    elif word is None:
        lathe.log.stop(ProgramCode.DWELL, "The dwell says no time; give X in seconds.")
    else:
        milliseconds = round(abs(word.value) * 1000) if word.pointed else abs(int(word.text))
        if word.address == "F":
            _in_doubt(lathe, word, f"{milliseconds / 1000:g} s", "a feed")
        _dwell(lathe, milliseconds, str(word))


def _own_dwell(lathe: Lathe) -> tuple[int, str] | None:
    """Milliseconds of a dwell in the dialect's own form, where that isn't the trade's; None for any other."""
    gap = lathe.dialect.gap("dwell", "seconds") or lathe.dialect.gap("dwell", "ms")
    if gap is None:
        return None
    figure = lathe.dialect.figure(gap.address)
    if figure.point == "needed" and gap.address in (("P",) if gap.field == "ms" else ("X", "U")):
        return None
    word = lathe.words.take(gap.address)
    if word is None:
        return None
    value = Fraction(word.text) if gap.field == "ms" else 1000 * figure.read(word.text, lathe.increments.units)
    return round(abs(value)), str(word)


def _dwell(lathe: Lathe, milliseconds: int, word: str) -> None:
    """Note a dwell, and whether it is too long to be meant: G04 with X looks like a move."""
    lathe.log.step(Dwell(milliseconds))
    if "-" in word:
        lathe.log.stop(ProgramCode.SIGNED_AMOUNT, f"{word} has a sign, and a dwell has none.")
    if milliseconds >= LONG_DWELL:
        said = f"{lathe.dialect.written(Act.DWELL)} {word}"
        message = f"{said} stands still for {milliseconds / 1000:g} s; is a dwell meant here, or a move?"
        lathe.log.caution(ProgramCode.DWELL_LONG, message)
    if 0 < milliseconds < SHORT_DWELL:
        said = f"{lathe.dialect.written(Act.DWELL)} {word}"
        message = f"{said} stands still for only {milliseconds / 1000:g} s; are seconds meant, or another number?"
        lathe.log.caution(ProgramCode.DWELL, message)


def _dwell_by_turns(lathe: Lathe, word: Word) -> None:
    """Stand still for so many turns at the speed that the spindle has here."""
    spindle, units = lathe.control.spindle, lathe.increments.units
    speed = (
        spindle_speed(spindle.speed, lathe.across, spindle.clamp or None, units) if spindle.surface else spindle.speed
    )
    if spindle.clockwise is None or speed <= 0:
        lathe.log.stop(ProgramCode.DWELL, f"{word} is a dwell in turns of a spindle that stands; give X in seconds.")
        return
    milliseconds = max(1, round(60_000 * abs(word.value) / speed))
    _in_doubt(lathe, word, f"{abs(word.value):g} turns, {milliseconds / 1000:g} s", "a spindle speed")
    _dwell(lathe, milliseconds, str(word))


def _in_doubt(lathe: Lathe, word: Word, read: str, else_taken: str) -> None:
    """Say how a dwell by S or F was read: which of the two is its time hangs on the control (common practice)."""
    message = (
        f"{word} beside {lathe.dialect.written(Act.DWELL)} was read as a dwell of {read}; some controls take it for "
        f"{else_taken}, so give X in seconds."
    )
    lathe.log.caution(ProgramCode.DWELL_BY_TURNS, message)
