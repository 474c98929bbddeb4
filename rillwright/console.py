"""What the commands print: tables for people, one line a drawing, JSON for scripts.

Results go to standard output, messages to standard error. Text from drawings and file names is printed as it is,
never as markup, and never with characters that move a terminal's cursor.
"""

import re
from collections.abc import Iterable, Sequence
from typing import Any

import click
from rich.table import Table
from rich.text import Text

from extractor.front import FrontEnd
from extractor.side import OUTSIDE
from planner.words import spans
from postproc.conformance import Conformance
from rillwright.tables import add_row, clean, print_table, say, table

Json = dict[str, Any]

UNIT_WORDS = {"mm": "mm", "in": "inches"}
COLOURS = {"stop": "red", "caution": "yellow", "note": "cyan"}
WHICH_GROOVE = re.compile(r"^Groove \d+(?: at Z-?[\d.]+)?")
MOST_REASONS = 3
"""Reasons of a refusal that are told where one line has to do; the sheet has them all."""


def print_json(document: Any) -> None:
    """One JSON document on standard output."""
    from rillwright.jsonform import dump

    click.echo(dump(document), nl=False)


def print_lines(lines: Iterable[str]) -> None:
    """Plain lines on standard output."""
    for line in lines:
        say(line)


def finding_line(finding: Json) -> Text:
    """A finding as one line: its weight, its code, its sentence."""
    level = finding["level"]
    place = f" at ({finding['at'][0]:g}, {finding['at'][1]:g})" if finding.get("at") else ""
    line = f" line {finding['line']}" if finding.get("line") else ""
    head = Text(f"{level:8}", style=COLOURS.get(level, ""))
    return head.append(clean(f"{finding['code']}{line}{place}: {finding['message']}"), style="default")


def print_findings(findings: Sequence[Json]) -> None:
    """All findings, the weightiest first."""
    order = list(COLOURS)
    for finding in sorted(together(findings), key=lambda one: order.index(one["level"])):
        say(finding_line(finding), indent=8)


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
    shown = table("=dialect", "=control", "supports")
    for row in rows:
        add_row(shown, row["name"], row["title"], row["supports"])
    print_table(shown)


def print_conformance(title: str, told: Sequence[Conformance]) -> None:
    """What a dialect says and can't say, and what it doesn't read back; one row a step, in mm unless inch differs."""
    print_lines([title])
    shown = table("step", "=units", "=in the program", "")
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


def print_part(part: Json) -> None:
    """What was recognised in a drawing: size, grooves, sets, findings."""
    units = part["units"] or "units unknown"
    name = clean(part["drawing"]["file"])
    if part["outer_diameter"] is None:
        say(f"{name}: no turned part was recognised")
    else:
        size = f"{length(part['outer_diameter'])} across, {length(part['length'])} long ({units})"
        say(f"{name}: {size}, {counted(len(part['grooves']), 'groove')}")
        if part.get("front"):
            say(f"Z0 is {FrontEnd(**part['front']).words}")
    if part["grooves"]:
        print_table(_groove_table(part["grooves"]))
        print_lines(_tolerance_lines(part["grooves"]))
    for one in part["sets"]:
        if one["count"] > 1:
            say(f"set of {one['count']}: grooves {spans(one['grooves'])} at pitch {length(one['pitch'])}")
    print_findings(part["findings"])


def _groove_table(grooves: Sequence[Json]) -> Table:
    """Sizes of the grooves; where they are only if not all are on the outside, to stay within a narrow terminal."""
    told = [] if all(groove["where"] == OUTSIDE.where for groove in grooves) else ["=where"]
    shown = table(">groove", *told, "=shape", ">Z near", ">Z far", ">width", ">mouth", ">floor", ">depth", ">radius")
    for groove in grooves:
        sizes = ("z_near", "z_far", "width", "mouth_diameter", "floor_diameter", "depth", "corner_radius")
        words = [groove["where"]] * len(told)
        add_row(shown, groove["id"], *words, groove["shape"], *(length(groove[s]) for s in sizes))
    return shown


def _tolerance_lines(grooves: Sequence[Json]) -> list[str]:
    """A line for grooves that share their tolerances."""
    alike: dict[str, list[int]] = {}
    for groove in grooves:
        limits = ", ".join(
            f"{name.replace('_', ' ')} {low:+g}/{high:+g}" for name, (low, high) in groove["tolerances"].items()
        )
        if limits:
            alike.setdefault(limits, []).append(groove["id"])
    return [f"tolerances of {grooves_in_words(numbers)}: {limits}" for limits, numbers in alike.items()]


def grooves_in_words(numbers: Sequence[int]) -> str:
    """Groove numbers after their noun.

    >>> grooves_in_words([4]), grooves_in_words([2, 3, 4, 7])
    ('groove 4', 'grooves 2 to 4, 7')
    """
    return f"groove{'s' if len(numbers) > 1 else ''} {spans(numbers)}"


def print_plan(plan: Json, units: str) -> None:
    """The operations of a plan and why they are so."""
    shown = table(">operation", "grooves", "=tool", "=form", ">start X", ">start Z", ">seconds")
    for number, one in enumerate(plan["operations"], 1):
        grooves = spans(one["grooves"])
        start = one["start"]
        form = one["form"] + (", contour" if one.get("contour") else "")
        row = (one["tool"], form, length(start["x"]), length(start["z"]), f"{one['seconds']:.1f}")
        add_row(shown, number, grooves, *row)
    print_table(shown)
    for number, one in enumerate(plan["operations"], 1):
        for sentence in one.get("why", ()):
            say(f"{number}: {sentence}", indent=3)
    say(f"{plan['seconds']:.1f} s in all, lengths in {UNIT_WORDS[units]}")


def together(findings: Sequence[Json]) -> list[Json]:
    """Findings that say the same of several grooves as one, which names the others at its end."""
    first: dict[tuple[str, str, str], Json] = {}
    others: dict[tuple[str, str, str], list[int]] = {}
    for finding in findings:
        key = (finding["level"], finding["code"], WHICH_GROOVE.sub("", finding["message"]))
        if key in first and finding.get("groove"):
            others.setdefault(key, []).append(finding["groove"])
        else:
            first.setdefault(key, finding)
    return [
        one
        | (
            {"message": f"{one['message']} The same holds for {grooves_in_words(others[key])}."}
            if key in others
            else {}
        )
        for key, one in first.items()
    ]


def tell_unused(accepted: Iterable[str], told: Iterable[Json]) -> None:
    """Say of accepted codes that there was nothing of the kind to accept: they may be misspelt."""
    seen = {one["code"] for document in told for one in document["findings"]}
    for code in sorted(set(accepted) - seen):
        click.echo(clean(f"--accept {code}: there is no finding of that code here; was another meant?"), err=True)


def print_reasons(record: Json) -> None:
    """Why each operation of a made drawing is as it is."""
    if record["plan"]:
        print_lines(["", f"{record['part']['drawing']['file']}:"])
        print_plan(record["plan"], record["part"]["units"])


def record_line(record: Json) -> str:
    """What became of one drawing, on one line."""
    name = record["part"]["drawing"]["file"]
    if "edited" in record:
        return f"{name}: {record['edited']['message']}"
    if record["status"] == "made":
        operations = record["plan"]["operations"]
        grooves = sum(len(one["grooves"]) for one in operations)
        what = f"{counted(grooves, 'groove')} in {counted(len(operations), 'operation')}"
        what += f", {record['plan']['seconds']:.0f} s"
        cautions = sum(1 for one in record["findings"] if one["level"] == "caution")
        more = f", {counted(cautions, 'caution')}: see the sheet" if cautions else ""
        return f"{name}: made {record['program']['file']} ({what}{more})"
    return f"{name}: refused: {why_refused(record)}"


def why_refused(record: Json) -> str:
    """The sentences of a record that say why there is no program; of many the first few, and how many more."""
    reasons = [one["message"] for one in together(record["findings"]) if one["level"] == "stop"]
    left = len(reasons) - MOST_REASONS
    if left > 1:
        reasons = [*reasons[:MOST_REASONS], f"And {left} more reasons: see the sheet."]
    return " ".join(reasons)
