"""`rillwright make`: drawings -> programs, job sheets and records."""

from pathlib import Path

import click

from rillwright.console import print_json, print_reasons, record_line, tell_unused
from rillwright.given import for_batch
from rillwright.job import is_right, sweep_up, write_index
from rillwright.many import Call, made_by
from rillwright.numbers import for_make
from rillwright.outputs import outputs_for, outputs_for_all, programs_apart
from rillwright.progress import Bar
from rillwright.records.record import Record
from rillwright.settings import Settings


def run(
    drawings: tuple[Path, ...],
    out: Path | None,
    number: int | None,
    explain: bool,
    jobs: int,
    scheduler: str | None,
    pieces: int | None,
    prefer: str | None,
    settings: Settings,
    as_json: bool,
) -> int:
    """Make the drawings; 0 if all were made and their programs are right."""
    settings = for_batch(settings, pieces, prefer)
    settings.check()
    chosen = list(outputs_for_all(drawings, out, settings.form))
    if (number or 0) + len(chosen) > 10_000:
        raise click.UsageError(f"Program numbers end at 9999: {len(chosen)} drawings from {number} are too many.")
    numbered = for_make(chosen, settings, number)
    outputs = {one: outputs_for(one, out, mine.form) for one, mine in zip(chosen, numbered, strict=True)}
    programs_apart(outputs)
    calls = [Call(drawing, out, mine) for drawing, mine in zip(chosen, numbered, strict=True)]
    records = []
    with Bar("drawings") as bar:
        for record in bar.through(made_by(calls, jobs, scheduler), len(calls)):
            records.append(record)
            bar.say(record_line(record), err=as_json)
    sweep_up(outputs.values())
    tell_unused(settings.options.accept, [one for record in records for one in record.findings])
    if explain and not as_json:
        for record in records:
            print_reasons(record)
    if out is not None and len(records) > 1:
        _put_index(out, list(zip([one.stem for one in outputs.values()], records, strict=True)))
    if as_json:
        print_json(records)
    return 0 if all(map(is_right, records)) else 1


def _put_index(out: Path, records: list[tuple[str, Record]]) -> None:
    """Put the page over a batch into its folder; one refused for the folder's sake has no sheet there."""
    if not write_index(out, [one for one in records if one[1].source is not None]):
        click.echo("The index.html there is another page and was left as it is.", err=True)
