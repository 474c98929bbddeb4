"""`rillwright convert`: the same cuts spelled for another control, proven equal."""

from pathlib import Path

import click

from extractor.printable import printable
from rillwright.allowance import within
from rillwright.atomic import write_atomic
from rillwright.converted import converted
from rillwright.outputs import new_in, refuse_overwriting
from rillwright.settings import Settings


def run(program: Path, to: str, source: str | None, shop: Path | None, out: Path | None, settings: Settings) -> int:
    """Convert; 0 if all could be said."""
    with within(settings.allowance):
        made, read_as, file = converted(program, to, source, shop)
    if out is not None and out.is_dir():
        out = new_in(out, file)
    elif out is not None:
        refuse_overwriting("--out", out, [program, *([shop] if shop else [])], ".nc")
    if source is None:
        click.echo(f"Read as {read_as}; if it is another, name it with --from.", err=True)
    for sentence in made.notes:
        click.echo(printable(f"{sentence}."), err=True)
    for sentence in made.refusals:
        click.echo(printable(f"Can't be said: {sentence}."), err=True)
    if made.program is None:
        return 1
    if out is None:
        click.echo(made.program.text, nl=False)
    else:
        write_atomic(out, made.program.text.encode("ascii"))
    return 0
