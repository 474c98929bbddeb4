"""What must be clear about a program before it is run: its units, its code system, and one program for each number."""

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise

from extractor.codes import DrawingCode
from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.reading.log import Log
from postproc.reading.sections import Sections
from postproc.reading.words import Block, ParsedProgram
from postproc.vocabulary.acts import CONTOURS, LOCAL, Act, Switch
from postproc.vocabulary.numbers import UNIT_NAMES
from postproc.vocabulary.tongues import ISO_ALONE, TRADE_ALONE

JUMP = re.compile(r"GOTO\s*(\d+)", re.IGNORECASE)
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
    calls = [number for number, switch in dialect.m_words.items() if switch is Switch.CALL]
    _blocks_twice(parsed, sections, calls, log)


def _blocks_twice(parsed: ParsedProgram, sections: Sections, calls: Collection[int], log: Log) -> None:
    """Stop where something leads to a block whose number another block of its program has: controls pick differently.

    Manuals forbid it for the contour of a cycle; else some search onward, some from the start (common practice).
    """
    starts = sorted({0, *sections.starts, len(parsed.blocks)})
    for begin, end in pairwise(starts):
        blocks = parsed.blocks[begin:end]
        often = Counter(block.number for block in blocks if block.number is not None)
        if len(often) == often.total():
            continue
        led = {number: block.line for block in reversed(blocks) for number in _led_to(block, calls)}
        seen = set[int]()
        for block in blocks:
            if block.number in seen and block.number in led:
                log.line = block.line
                message = (
                    f"An earlier block is N{block.number} too, and line {led[block.number]} leads to that number: some "
                    "controls look for it onward and some from the start, so give one of the two another."
                )
                log.stop(ProgramCode.NUMBER_TWICE, message)
            seen.update(() if block.number is None else (block.number,))


def _led_to(block: Block, calls: Collection[int]) -> Iterator[int]:
    """The numbers of blocks that a block leads to: by a jump, a call of blocks, or as the contour of a cycle."""
    if block.macro:
        yield from map(int, JUMP.findall(block.macro))
    called = {word.address: word.whole for word in block.words if word.whole is not None}
    cycle = any(word.address == "G" and word.whole in CONTOURS for word in block.words) and {"P", "Q"} <= called.keys()
    local = "P" if called.get("M") == LOCAL else "H" if called.get("M") in calls and "P" not in called else ""
    yield from (called[address] for address in ("PQ" if cycle else local) if address in called)


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
