"""What must be plain of a program before it is run: its units, one zero for all places, one program for each number."""

from collections.abc import Mapping

from extractor.codes import DrawingCode
from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.reading.log import Log
from postproc.reading.meanings import act_of
from postproc.reading.sections import Sections
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.acts import Act
from postproc.vocabulary.numbers import UNIT_NAMES

_UNITS: Mapping[Act, Units] = {Act.METRIC: "mm", Act.INCH: "in"}
_USUAL_ZERO = "G54"
"""The work offset that is in force where a program names none (common practice)."""


def said_units(parsed: ParsedProgram, g_words: Mapping[int, Act]) -> tuple[Units, int] | None:
    """The units of the first unit word of a text, and its line; None if there is none."""
    by_number = {number: _UNITS[act] for number, act in g_words.items() if act in _UNITS}
    first = parsed.first("G", by_number)
    return (by_number[first[0]], first[1]) if first else None


def check_premises(
    parsed: ParsedProgram, sections: Sections, said: tuple[Units, int] | None, asked: Units | None, log: Log
) -> None:
    """Note what is not plain; `said` are the program's own units, `asked` those that its reader gives."""
    if said is None:
        log.line = parsed.blocks[0].line
        _no_units(asked, log)
    if sections.twice is not None:
        log.line = parsed.blocks[sections.twice].line
        log.stop(ProgramCode.NUMBER_TWICE, "A program of this number is already in the file; give it another number.")


def check_zeros(parsed: ParsedProgram, g_words: Mapping[int, Act], log: Log) -> None:
    """Say which work offset is used where it isn't the usual one, and stop where there are two."""
    found = _said_zeros(parsed, g_words)
    for name, line in [*found.items()][:1]:
        log.line = line
        if name != _USUAL_ZERO:
            message = (
                f"The program works from {name}, an offset set at the machine; see that it puts Z0 at the front face."
            )
            log.caution(ProgramCode.WORK_OFFSET, message)
    for name, line in [*found.items()][1:2]:
        log.line = line
        pair = f"{next(iter(found))} and from {name}"
        log.stop(
            ProgramCode.ZERO_SHIFT, f"The program works from {pair}; how far they are apart is not said, so use one."
        )


def _said_zeros(parsed: ParsedProgram, g_words: Mapping[int, Act]) -> Mapping[str, int]:
    """The work offsets of a program, each with the first line that names it."""
    found: dict[str, int] = {}
    for block in parsed.blocks:
        for word in block.words:
            if word.address != "G" or act_of(word, g_words) is not Act.WORK_OFFSET:
                continue
            number = next((f" {other}" for other in block.words if other.address == "P"), "")
            if word.whole is not None:
                found.setdefault(f"G{word.whole}", block.line)
            elif number:
                found.setdefault(f"G{word.text}{number}", block.line)
    return found


def _no_units(asked: Units | None, log: Log) -> None:
    """Say what a program without a unit word is read in."""
    if asked is None:
        log.stop(
            DrawingCode.UNITS_UNKNOWN, "The program has no unit word and nothing else says mm or inch; add G21 or G20."
        )
    else:
        message = (
            f"The program has no unit word and was read in {UNIT_NAMES[asked]}; say the units, or it runs in what "
            "the control was left in."
        )
        log.caution(ProgramCode.UNITS_NOT_SAID, message)
