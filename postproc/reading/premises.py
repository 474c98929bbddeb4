"""What must be clear about a program before it is run: its units, its code system, and one program for each number."""

from collections.abc import Mapping

from extractor.codes import DrawingCode
from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.log import Log
from postproc.reading.sections import Sections
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.acts import Act
from postproc.vocabulary.numbers import UNIT_NAMES
from postproc.vocabulary.tongues import ISO_ALONE, TRADE_ALONE

_UNITS: Mapping[Act, Units] = {Act.METRIC: "mm", Act.INCH: "in"}


def said_units(parsed: ParsedProgram, g_words: Mapping[int, Act]) -> tuple[Units, int] | None:
    """The units of the first unit word of a text, and its line; None if there is none."""
    by_number = {number: _UNITS[act] for number, act in g_words.items() if act in _UNITS}
    first = parsed.first(by_number)
    return (by_number[first[0]], first[1]) if first else None


def check_premises(
    parsed: ParsedProgram,
    sections: Sections,
    said: tuple[Units, int] | None,
    asked: Units | None,
    dialect: Dialect,
    log: Log,
) -> None:
    """Note what is not clear; `said` are the program's own units, `asked` those that its reader gives."""
    if said is None:
        log.line = parsed.blocks[0].line
        _no_units(asked, dialect, log)
    _two_systems(parsed, dialect, log)
    if sections.twice is not None:
        log.line = parsed.blocks[sections.twice].line
        log.stop(ProgramCode.NUMBER_TWICE, "A program of this number is already in the file; give it another number.")


def _two_systems(parsed: ParsedProgram, dialect: Dialect, log: Log) -> None:
    """Say that a program has words that no one control is sure to take, where its dialect reads both as its own."""
    known = dialect.g_words.keys()
    trade, iso = (parsed.first(alone & known) for alone in (TRADE_ALONE, ISO_ALONE))
    if trade is None or iso is None:
        return
    (early, _), (late, log.line) = sorted((trade, iso), key=lambda found: found[1])
    message = f"G{late} is of another code system than G{early} before it; see that the control takes both."
    log.caution(ProgramCode.CODE_SYSTEMS_MIXED, message)


def _no_units(asked: Units | None, dialect: Dialect, log: Log) -> None:
    """Say what a program without a unit word is read in."""
    if asked is None:
        words = f"{dialect.unit_word('mm')} or {dialect.unit_word('in')}"
        log.stop(
            DrawingCode.UNITS_UNKNOWN,
            f"The program has no unit word and nothing else says mm or inch; add {words}.",
        )
    else:
        message = (
            f"The program has no unit word and was read in {UNIT_NAMES[asked]}; say the units, or it runs in what "
            "the control was left in."
        )
        log.caution(ProgramCode.UNITS_NOT_SAID, message)
