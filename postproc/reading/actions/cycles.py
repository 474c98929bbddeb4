"""The actions of the grooving cycle, across the axis and along it, in the form of the dialect."""

from dataclasses import replace

from postproc.codes import ProgramCode
from postproc.reading.actions.foreign import drilling
from postproc.reading.actions.grooving import read_call, read_settings, run_call, run_face
from postproc.reading.actions.moving import ask_feed_mode, straight
from postproc.reading.control import Event
from postproc.reading.lathe import Lathe
from postproc.reading.words import Word
from postproc.vocabulary.pattern import Gap, Pattern

SMALL_RETRACT = 50
"""Retracts below this many increments, with no point, were hardly meant (common practice)."""


def groove(lathe: Lathe, event: Event) -> None:
    """G75 in the form of the dialect: its retract block, or a call."""
    form = lathe.dialect.cycle
    if form is None:
        lathe.log.stop(ProgramCode.UNKNOWN_WORD, "The dialect has no grooving cycle.")
    elif (block := form.setting(lathe.words.addresses, lathe.dialect.axes)) is not None:
        _settings(lathe, block)
    else:
        call = read_call(lathe, form)
        if call is not None:
            ask_feed_mode(lathe)
            lathe.control.cycles.call = call
            run_call(lathe, call)


def groove_again(lathe: Lathe, event: Event) -> None:
    """A place while the grooving cycle is in force: at rapid there, and the same groove once more."""
    call = lathe.control.cycles.call
    if call is None:
        return
    straight(lathe, "rapid")
    place = lathe.control.place
    again = replace(call, line=lathe.log.line, start_x=place.x, start_z=place.z, end_z=place.z, shift=None)
    run_call(lathe, replace(again, x_known=place.x_known, z_known=place.z_known))


def face(lathe: Lathe, event: Event) -> None:
    """G74 in the form of the dialect's grooving cycle: its retract block, or a call along Z."""
    form = lathe.dialect.cycle
    if form is None and not lathe.words.says("Z"):
        lathe.words.drop()  # only the retract of the call that follows
    elif form is None:
        drilling(lathe, event)
    elif (block := form.setting(lathe.words.addresses, lathe.dialect.axes)) is not None:
        _settings(lathe, block)
    else:
        ask_feed_mode(lathe)
        run_face(lathe, form)


def _settings(lathe: Lathe, block: Pattern) -> None:
    """What a block sets for the calls of the cycle after it."""
    word = read_settings(lathe, block).get("retract")
    if word is not None:
        _retract(lathe, word, block.gaps["retract"])


def _retract(lathe: Lathe, word: Word, gap: Gap) -> None:
    """How far the cycles back off after a peck; one without a point is told only where it is small."""
    needed = lathe.dialect.figure(word.address).point == "needed"
    count = lathe.words.measured(word, replace(gap, whole=True) if needed and not word.pointed else gap) or 0
    lathe.control.cycles.retract = abs(count)
    if count < 0:
        lathe.log.stop(ProgramCode.NEGATIVE_RETRACT, f"{word} is below 0, and a retract has no sign; write it without.")
    if needed and not gap.whole and not word.pointed and 0 < count < SMALL_RETRACT:
        shown = f"{lathe.increments.length(count):g} {lathe.increments.units}"
        message = f"{word} has no decimal point and backs off only {shown}; write the point if more is meant."
        lathe.log.caution(ProgramCode.SMALL_RETRACT, message)
