"""`rillwright convert`: the same cuts spelled for another control, proven equal."""

import tomllib
from pathlib import Path

import click

from extractor.printable import printable
from planner import parse_shop
from planner.increment import Increments
from postproc import interpret, parse_as
from postproc.converting.carry import Means
from postproc.converting.convert import Conversion, convert
from postproc.dialect import Dialect
from postproc.reading.guess import read_in
from rillwright.allowance import within
from rillwright.atomic import write_atomic
from rillwright.check import read_program
from rillwright.outputs import new_in, output_stem, program_file, refuse_overwriting, show
from rillwright.settings import Settings
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop, named_or_file


def run(program: Path, to: str, source: str | None, shop: Path | None, out: Path | None, settings: Settings) -> int:
    """Convert; 0 if all could be said."""
    with within(settings.allowance):
        made, read_as, file = _converted(program, to, source, shop)
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


def _converted(program: Path, to: str, source: str | None, shop: Path | None) -> tuple[Conversion, str, str]:
    """The conversion, the name of the dialect that the program was read in, and that of a file for the new one.

    Raises ProgramError for what can't be read, SettingsError for an unknown dialect or a shop file at fault.
    """
    texts = beside_shop(read_toml_file(shop), shop) if shop else ()
    text, target = read_program(program), named_or_file(to, texts)
    _, spoken, _ = read_in(text, named_or_file(source, texts) if source else None)
    made = convert(text, spoken, target, _means(text, spoken, shop))
    file = program_file(target.frame.file_form(made.number), output_stem(program.name))
    return made, spoken.name, file


def _means(text: str, spoken: Dialect, shop: Path | None) -> Means:
    """What the shop file says, in the program's increments; only what is written in it counts."""
    if shop is None:
        return Means()
    units = interpret(parse_as(text, spoken), spoken, "mm").units
    told = read_toml_file(shop)
    machine = parse_shop(told, show(shop), units).machine
    said = tomllib.loads(told).get("machine", {})
    count = Increments.of(units).count
    home = {"home_x", "home_z"} <= set(said)
    return Means(
        count(machine.cycle_retract) if "cycle_retract" in said else None,
        (count(machine.home_x), count(machine.home_z)) if home else None,
        machine.whole_numbers,
    )
