"""Which control's dialect a program is read in, and the findings where nobody named it."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from extractor.finding import Finding, Level
from extractor.part import Units
from planner.shop import WholeNumbers
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.dialects import BUILT_IN
from postproc.reading.guess import PECKING, read_in
from postproc.reading.interpreter import interpret
from postproc.reading.run import Run
from postproc.reading.words import ParsedProgram
from postproc.verdict import State, Verdict
from postproc.vocabulary.tongues import ISO_ALONE, PER_MINUTE, SETTINGS_OR_CYCLES, TRADE_ALONE

DOUBTFUL = SETTINGS_OR_CYCLES | {PER_MINUTE}
"""G numbers by which a program may be read two ways where nothing else tells."""
POINTLESS = ProgramCode.NO_DECIMAL_POINT


def guessed_note(verdict: Verdict) -> Finding:
    """The note on the dialect that a program was read in when nobody named its control: told by its words, or usual."""
    by = "by its own words" if verdict.told else "as nothing in it tells"
    read = f"the program was read as {verdict.spoken}, {by}"
    message = f"Nobody named the control: {read}; give --dialect if it is for another."
    return Finding(Level.NOTE, ProgramCode.DIALECT_GUESSED, message)


def better_note(text: str, verdict: Verdict, spoken: Dialect, units: Units) -> Iterator[Finding]:
    """A note where words mean nothing in the dialect that was named, and all do in the one that they tell."""
    if ProgramCode.UNKNOWN_WORD not in {finding.code for finding in verdict.findings}:
        return
    parsed, other, told = read_in(text, None)
    found = {finding.code for finding in interpret(parsed, other, units).findings}
    if told and other.name != spoken.name and ProgramCode.UNKNOWN_WORD not in found:
        message = (
            f"Read as {spoken.name} the program has words that mean nothing; its own words are those of {other.name}, "
            f"where none is without a meaning: give --dialect {other.name} if it is for that control."
        )
        yield Finding(Level.NOTE, ProgramCode.DIALECT_GUESSED, message)


def other_tongue(
    parsed: ParsedProgram, run: Run, spoken: Dialect, units: Units, whole_numbers: WholeNumbers | None
) -> Iterator[Finding]:
    """A stop if another dialect reads the program as well as the one guessed, and cuts something else."""
    used = parsed.uses("G", DOUBTFUL)
    if not used or run.lost or bool(parsed.uses("G", TRADE_ALONE)) is not bool(parsed.uses("G", ISO_ALONE)):
        return
    faults = {finding.code for finding in run.findings if finding.stops}
    for dialect in (replace(BUILT_IN["two-block"], other_system={}), BUILT_IN["plunge"]):
        if (dialect.cycle is None) is (spoken.cycle is None) or (dialect.cycle is None and parsed.uses("G", PECKING)):
            continue
        other = interpret(parsed, dialect, units, whole_numbers=whole_numbers)
        if {finding.code for finding in other.findings if finding.stops} - faults or _ways(other) == _ways(run):
            continue
        first = parsed.first(used)
        words = ", ".join(f"G{number}" for number in sorted(used))
        message = (
            f"{words} mean other things at other controls, and this program cuts differently as {spoken.name} and as "
            f"{dialect.name}; name the control with --dialect or in the shop file."
        )
        yield Finding(Level.STOP, ProgramCode.TONGUE_UNCLEAR, message, line=first and first[1])
        return


def _ways(run: Run) -> list[tuple[object, ...]]:
    """Where a run goes and at what kind of feed."""
    return [(m.kind, m.x0, m.z0, m.x1, m.z1, m.feed, m.per_minute) for m in run.motions]


def whole_numbers_said(verdict: Verdict, judged: Callable[..., Verdict]) -> tuple[Finding, ...]:
    """The findings of a verdict; those about missing points in one, where whole units make sense of the part.

    `judged` runs the program again with `whole` as told.
    """
    pointless = [finding for finding in verdict.findings if finding.code == POINTLESS]
    if not pointless:
        return verdict.findings
    other = judged(whole="units")
    right, other_right = (_right(found) for found in (verdict, other))
    if other_right <= right and not (other.agree and other_right == right):
        return verdict.findings
    first = pointless[0]
    kept = [finding for finding in other.findings if finding.code != POINTLESS]
    word, more = first.message.split(" at column")[0], len(pointless) - 1
    none = f"{word} and {more} more {'words' if more > 1 else 'word'} have" if more else f"{word} has"
    message = (
        f"{none} no decimal point and make{'' if more else 's'} sense of this drawing as whole units, not as least "
        f"increments; write the point{'s' if more else ''}, or say "
        'whole_numbers = "units" in the shop file if this control reads them so.'
    )
    return (Finding(Level.STOP, POINTLESS, message, line=first.line), *kept)


def _right(verdict: Verdict) -> int:
    """How many grooves match."""
    return sum(match.state is State.MATCHES for match in verdict.matches)
