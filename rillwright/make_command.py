"""`rillwright make`: drawings -> programs, job sheets and records."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from rillwright.options import AS_JSON, DRAWING, FOLDER, READING, SHOP, options


@click.command()
@click.argument("drawings", type=DRAWING, nargs=-1, required=True, metavar="DRAWING...")
@click.option("--out", type=FOLDER, metavar="DIR", help="Where the results go; beside each drawing if not given.")
@click.option("--number", type=click.IntRange(1, 9999), help="Program number of the first, counted on.")
@click.option("--explain", is_flag=True, help="Say for each operation why it is so.")
@options(SHOP, READING, AS_JSON)
def make(
    drawings: tuple[Path, ...], out: Path | None, number: int | None, explain: bool, settings: Any, as_json: bool
) -> None:
    """Make a program, a job sheet and a record of each drawing.

    Ends with 0 if every drawing was made, 1 if one or more were refused (the rest are made).
    Prove out every program as the machine's manual, local rules and a qualified setter require.
    """
    from rillwright.console import message, print_json, print_lines, print_plan, record_line
    from rillwright.job import write_index
    from rillwright.outputs import outputs_for_all

    settings.check()
    outputs = outputs_for_all(drawings, out)
    chosen = list(outputs)
    if (number or 0) + len(chosen) > 10_000:
        raise click.UsageError(f"Program numbers end at 9999: {len(chosen)} drawings from {number} are too many.")
    # Not counted on unasked: a drawing made again by itself must get the program that it got among others.
    numbered = [replace(settings, number=number + n if number else 1) for n in range(len(chosen))]
    records = []
    for record in _each(chosen, out, numbered):
        records.append(record)
        if as_json:
            message(record_line(record))
            continue
        print_lines([record_line(record)])
        if explain and record["plan"]:
            print_plan(record["plan"], record["part"]["units"])
    if out is not None and len(records) > 1:
        write_index(out, [(one.stem, record) for one, record in zip(outputs.values(), records, strict=True)])
    if as_json:
        print_json(records)
    raise SystemExit(0 if all(record["status"] == "made" for record in records) else 1)


def _each(drawings: list[Path], out: Path | None, settings: list[Any]) -> Iterator[dict[str, Any]]:
    """The record of one drawing after the other, with a bar on a terminal."""
    from rillwright.job import make_drawing
    from rillwright.progress import tracked

    for drawing, mine in tracked(list(zip(drawings, settings, strict=True)), "drawings"):
        yield make_drawing(drawing, out, mine)
