"""A program for another control: read, its steps carried over, written, read back, and proven to do the same."""

import re

from extractor.errors import ProgramError
from extractor.finding import Finding
from extractor.part import Units
from extractor.values import dataclass
from postproc.converting.carry import Carrying, Means
from postproc.converting.leftovers import HARMFUL, asking, leftovers
from postproc.converting.proof import difference
from postproc.dialect import Dialect
from postproc.framed import framed
from postproc.program import Heading, Program
from postproc.reading.interpreter import interpret
from postproc.reading.renaming import parse_as
from postproc.reading.words import ParsedProgram
from postproc.writing.lowering import lowered_parts
from postproc.writing.writer import write_steps


@dataclass(frozen=True)
class Conversion:
    """What came of a conversion: a program, or the reasons why there is none; and what was put in other words.

    `number` is that of the program.
    """

    program: Program | None
    refusals: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    number: int = 1


def convert(
    text: str, source: Dialect, target: Dialect, means: Means | None = None, units: Units | None = None
) -> Conversion:
    """The program in another dialect.

    `units` are those where it has no unit word. Raises ProgramError if the text can't be read at all.
    """
    means = means or Means()
    parsed = parse_as(text, source)
    run = interpret(parsed, source, units, own_retract=means.retract or 0, whole_numbers=means.whole_numbers)
    told = list(dict.fromkeys(leftovers(parsed, source)))
    refusals = [sentence for refused, sentence in told if refused]
    notes = [sentence for refused, sentence in told if not refused]
    refusals += [_told(f, parsed) for f in run.findings if f.stops or f.code in HARMFUL]
    if not run.motions:
        refusals.append("the program moves nothing, so there is nothing to carry over")
    if refusals:
        return Conversion(None, tuple(dict.fromkeys(refusals)), tuple(notes))
    skips = frozenset(block.line for block in parsed.blocks if block.skip)
    carrying = Carrying(run, target, means, skips, parsed.lines, asking(parsed, source))
    carrying.carry()
    notes += carrying.notes
    if carrying.refusals:
        return Conversion(None, tuple(dict.fromkeys(carrying.refusals)), tuple(notes))
    number = _number(parsed)
    program, fault = _written(carrying, number)
    if program is not None:
        fault = _unequal(parsed, source, program, carrying)
        notes += _own_lines(carrying)
    return Conversion(None if fault else program, (fault,) if fault else (), tuple(dict.fromkeys(notes)), number)


def _told(finding: Finding, parsed: ParsedProgram) -> str:
    """What the reader says against a program, with the block that it says it of."""
    block = parsed.lines[finding.line - 1].strip() if finding.line else ""
    return f"line {finding.line}: {f'{block}: ' if block else ''}{finding.message.rstrip('.')}"


def _written(carrying: Carrying, number: int) -> tuple[Program | None, str]:
    """The program, or why it can't be written."""
    target = carrying.target
    parts, faults = lowered_parts([[step] for step in carrying.steps], target)
    skipped = [skip for part, skip in zip(parts, carrying.skipped, strict=True) for _ in part]
    if faults:
        return None, faults[0]
    steps = [step for part in parts for step in part]
    places = [number for number, skip in enumerate(skipped) if skip]
    try:
        return write_steps(steps, carrying.run.increments, target, Heading("", "", number), places), ""
    except ProgramError as fault:
        return None, str(fault).rstrip(".")


def _unequal(parsed: ParsedProgram, source: Dialect, program: Program, carrying: Carrying) -> str:
    """What the new program would do otherwise, with block skip off and on; empty where it does the same."""
    target, retract, units = carrying.target, carrying.means.retract or 0, carrying.run.units
    again, own = parse_as(program.text, target), framed(target, carrying.run.increments)
    whole = carrying.means.whole_numbers
    for skip in (False, True) if any(block.skip for block in parsed.blocks) else (False,):
        was = interpret(parsed, source, units, skip=skip, own_retract=retract, whole_numbers=whole)
        now = interpret(again, target, units, skip=skip, own_retract=retract)
        stops = [f"line {f.line} of the new program: {f.message.rstrip('.')}" for f in now.findings if f.stops]
        wrong = stops[0] if stops else difference(was, now, homeless=carrying.homeless, own=own)
        if wrong:
            return f"it would not do the same{' with block skip on' if skip else ''}: {wrong}"
    return ""


def _own_lines(carrying: Carrying) -> list[str]:
    """What the other dialect's lines at head and end do by themselves, which the program didn't say."""
    own = framed(carrying.target, carrying.run.increments)
    lines = dict.fromkeys(re.sub(r"^N\d+ ", "", own.lines[line - 1]) for line in own.run.step_lines)
    said = ", ".join(lines)
    return [f"{carrying.target.name} has lines of its own at head or end: {said}"] if said else []


def _number(parsed: ParsedProgram) -> int:
    """The number of the first program of the text, 1 where it has none that a control holds."""
    first = next((word.whole for block in parsed.blocks for word in block.words if word.address == "O"), None)
    return first if first is not None and 1 <= first <= 9999 else 1
