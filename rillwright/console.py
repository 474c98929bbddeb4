"""What the commands print: tables for people, one line a drawing, JSON for scripts.

Results go to standard output, messages to standard error. Text from drawings and file names is printed as it is,
never as markup, and never with characters that move a terminal's cursor.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import islice
from typing import Any

import click
from rich.text import Text

from extractor.finding import Level, key_of, same_key
from extractor.part import Units
from extractor.printable import printable
from extractor.runs import spans
from extractor.side import OUTSIDE
from postproc.conformance import Conformance
from rillwright.records.jsonform import Json, dumped
from rillwright.records.record import Record, RecordedPlan
from rillwright.records.record_part import RecordedFinding, RecordedGroove, RecordedPart
from rillwright.tables import Sentence, TextTable, add_row, print_said, print_table, say, table

UNIT_WORDS = {"mm": "mm", "in": "inches"}
COLOURS = {Level.STOP: "red", Level.CAUTION: "yellow", Level.NOTE: "cyan"}
WHICH_GROOVE = re.compile(r"^Groove \d+(?: at Z-?[\d.]+)?")
AT_ONCE = 10_000
"""Pieces of a JSON document (names, values, marks) that are written together."""
MOST_REASONS = 3
"""Reasons of a refusal that are told where one line has to do; the sheet has them all."""


def print_json(document: Any) -> None:
    """One JSON document on standard output; values of the record are put into their form."""
    pieces = dumped(document)
    while some := [*islice(pieces, AT_ONCE)]:
        click.echo("".join(some), nl=False)


def print_lines(lines: Iterable[str]) -> None:
    """Plain lines on standard output."""
    for line in lines:
        say(line)


def finding_line(finding: RecordedFinding) -> Text:
    """A finding as one line: its level, its code, its sentence."""
    place = f" at ({finding.at[0]:g}, {finding.at[1]:g})" if finding.at else ""
    line = f" line {finding.line}" if finding.line else ""
    head = Text(f"{finding.level:8}", style=COLOURS[finding.level])
    return head.append(printable(f"{finding.code}{line}{place}: {finding.message}"), style="default")


def finding_sentences(findings: Sequence[RecordedFinding]) -> list[Sentence]:
    """All findings, the weightiest first."""
    ranked = sorted(together(findings), key=lambda one: list(Level).index(one.level))
    return [Sentence(finding_line(one), indent=8) for one in ranked]


def print_findings(findings: Sequence[RecordedFinding]) -> None:
    """The same on standard output."""
    print_said(finding_sentences(findings))


def length(value: float | None) -> str:
    """A length as people write it.

    >>> length(40.0), length(0.1235), length(None)
    ('40', '0.1235', '-')
    """
    return "-" if value is None else f"{value:.4f}".rstrip("0").rstrip(".")


def counted(number: int, noun: str) -> str:
    """A number with its noun.

    >>> counted(1, "groove"), counted(0, "groove")
    ('1 groove', '0 grooves')
    """
    return f"{number} {noun}{'' if number == 1 else 's'}"


def print_dialects(rows: Sequence[Json]) -> None:
    """The dialects at hand."""
    shown = table("dialect", "control", "supports")
    for row in rows:
        add_row(shown, row["name"], row["title"], row["supports"])
    print_table(shown)


def print_conformance(title: str, told: Sequence[Conformance]) -> None:
    """What a dialect says and can't say, and what it doesn't read back; one row a step, in mm unless inch differs."""
    print_lines([title])
    shown = table("step", "units", "in the program", "")
    for one in told:
        twin = any(other.what == one.what and other.units == "mm" for other in told if other is not one)
        if one.units == "in" and twin and not one.fault:
            continue
        add_row(shown, one.what, one.units, _first_blocks(one.blocks), _conforms(one))
    print_table(shown)
    faults = [one for one in told if one.fault]
    cannot = {one.what for one in told if one.cannot}
    print_lines(
        [
            f"{counted(len({one.what for one in told}) - len(cannot), 'step')} said, {len(cannot)} not, "
            f"{counted(len(faults), 'fault')}."
        ]
    )


def _first_blocks(blocks: Sequence[str]) -> str:
    """Some blocks in one cell, the first three of many."""
    return " / ".join(blocks[:3]) + (" / ..." if len(blocks) > 3 else "") or "-"


def _conforms(one: Conformance) -> str:
    """What came of a step, in a few words."""
    return f"FAULT: {one.fault}" if one.fault else f"can't be said: {one.cannot}" if one.cannot else "read back"


def print_part(part: RecordedPart) -> None:
    """What was recognised in a drawing: size, grooves, sets, findings."""
    name = printable(part.drawing.file)
    if part.outer_diameter is None:
        say(f"{name}: no turned part was recognised")
    else:
        size = f"{length(part.outer_diameter)} across, {length(part.length)} long ({part.units or 'units unknown'})"
        say(f"{name}: {size}, {counted(len(part.grooves), 'groove')}")
        if part.front:
            say(f"Z0 is {part.front.words}")
    if part.grooves:
        print_table(_groove_table(part.grooves))
        print_lines(_tolerance_lines(part.grooves))
    for one in part.sets:
        if one.count > 1:
            say(f"set of {one.count}: grooves {spans(one.grooves)} at pitch {length(one.pitch)}")
    print_findings(part.findings)


def _groove_table(grooves: Sequence[RecordedGroove]) -> TextTable:
    """Sizes of the grooves; where they are only if not all are on the outside, to stay within a narrow terminal."""
    told = [] if all(groove.side == OUTSIDE for groove in grooves) else ["where"]
    shown = table(">groove", *told, "shape", ">Z near", ">Z far", ">width", ">mouth", ">floor", ">depth", ">radius")
    for one in grooves:
        sizes = (one.z_near, one.z_far, one.width, one.mouth_diameter, one.floor_diameter, one.depth, one.corner_radius)
        add_row(shown, one.id, *[one.where] * len(told), one.shape, *map(length, sizes))
    return shown


def _tolerance_lines(grooves: Sequence[RecordedGroove]) -> list[str]:
    """A line for grooves that share their tolerances."""
    alike: dict[str, list[int]] = {}
    for groove in grooves:
        limits = ", ".join(
            f"{name.replace('_', ' ')} {low:+g}/{high:+g}" for name, (low, high) in groove.tolerances.items()
        )
        if limits:
            alike.setdefault(limits, []).append(groove.id)
    return [f"tolerances of {grooves_in_words(numbers)}: {limits}" for limits, numbers in alike.items()]


def grooves_in_words(numbers: Sequence[int]) -> str:
    """Groove numbers after their noun.

    >>> grooves_in_words([4]), grooves_in_words([2, 3, 4, 7])
    ('groove 4', 'grooves 2 to 4, 7')
    """
    return f"groove{'s' if len(numbers) > 1 else ''} {spans(numbers)}"


def print_plan(plan: RecordedPlan, units: Units) -> None:
    """The operations of a plan and why they are so."""
    shown = table(">operation", "grooves", "tool", "form", ">start X", ">start Z", ">seconds")
    for number, one in enumerate(plan.operations, 1):
        form = one.form + (", contour" if one.contour else "")
        row = (one.tool, form, length(one.start.x), length(one.start.z), f"{one.seconds:.1f}")
        add_row(shown, number, spans(one.grooves), *row)
    print_table(shown)
    for number, one in enumerate(plan.operations, 1):
        for sentence in one.why:
            say(f"{number}: {sentence}", indent=3)
    say(f"{plan.seconds:.1f} s in all, lengths in {UNIT_WORDS[units]}")


def together(findings: Iterable[RecordedFinding]) -> list[RecordedFinding]:
    """Findings that say the same of several grooves merged into one, which names the other grooves at its end."""
    first: dict[tuple[Level, str, str], RecordedFinding] = {}
    others: dict[tuple[Level, str, str], list[int]] = {}
    for one in findings:
        key = (one.level, one.code, WHICH_GROOVE.sub("", one.message))
        if key in first and one.groove:
            others.setdefault(key, []).append(one.groove)
        else:
            first.setdefault(key, one)
    for key, more in others.items():
        words = f"{first[key].message} The same holds for {grooves_in_words(more)}."
        first[key] = replace(first[key], message=words)
    return list(first.values())


def tell_unused(accepted: Iterable[str], findings: Iterable[RecordedFinding]) -> None:
    """Say which accepted codes had nothing to accept: they may be misspelt."""
    listed = list(findings)
    there = {one.code for one in listed} | {key_of(one.code, one.at, one.groove) for one in listed}
    for code in sorted(one for one in set(accepted) if same_key(one) not in there):
        click.echo(printable(f"--accept {code}: there is no finding of that code here; was another meant?"), err=True)


def print_reasons(record: Record) -> None:
    """Why each operation of a made drawing is as it is."""
    if record.plan and record.part.units:
        print_lines(["", f"{record.part.drawing.file}:"])
        print_plan(record.plan, record.part.units)


def record_line(record: Record) -> str:
    """What became of one drawing, on one line."""
    name = record.part.drawing.file
    if record.edited is not None:
        return f"{name}: {record.edited.message}"
    if record.made and record.program and record.plan:
        grooves = sum(len(one.grooves) for one in record.operations)
        what = f"{counted(grooves, 'groove')} in {counted(len(record.operations), 'operation')}"
        what += f", {record.plan.seconds:.0f} s"
        cautions = sum(1 for one in record.findings if one.level is Level.CAUTION)
        more = f", {counted(cautions, 'caution')}: see the sheet" if cautions else ""
        return f"{name}: made {record.program.file} ({what}{more})"
    return f"{name}: refused: {why_refused(record)}"


def why_refused(record: Record) -> str:
    """The sentences of a record that say why there is no program; of many the first few, and how many more."""
    reasons = [one.message for one in together(record.findings) if one.stops]
    left = len(reasons) - MOST_REASONS
    if left > 1:
        reasons = [*reasons[:MOST_REASONS], f"And {left} more reasons: see the sheet."]
    return " ".join(reasons)
