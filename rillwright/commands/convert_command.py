"""`rillwright convert`: the same cuts spelled for another control, proven equal."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, DRAWING, OUT_ANY, SHOP_FILE, options


@click.command()
@click.argument("program", type=DRAWING)
@click.option("--to", "to", required=True, metavar="DIALECT", help="The dialect to write: a name, or a dialect file.")
@click.option("--from", "source", metavar="DIALECT", help="The dialect of PROGRAM; otherwise told by its own words.")
@click.option("--out", type=OUT_ANY, metavar="OUT", help="File or folder of the program; else to standard output.")
@options(SHOP_FILE, ALLOWANCE)
def convert(program: Path, to: str, source: str | None, shop: Path | None, out: Path | None, settings: Any) -> None:
    """Write PROGRAM in another dialect, and prove that it cuts the same.

    Of a --shop file cycle_retract, home_x and home_z are used. In a folder the dialect gives the file its name.
    What was left out or said in other words goes to standard error. Ends with 0; 1 if something can't be said there,
    and then nothing is written; 2 if PROGRAM can't be read. Prove out the new program as any other: the control's and
    the machine's manuals, local rules and a qualified setter come first.
    """
    from extractor.printable import printable
    from rillwright.allowance import within
    from rillwright.atomic import write_atomic
    from rillwright.converted import converted
    from rillwright.outputs import new_in, refuse_overwriting

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
        raise SystemExit(1)
    if out is None:
        click.echo(made.program.text, nl=False)
        return
    write_atomic(out, made.program.text.encode("ascii"))
