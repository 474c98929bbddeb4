"""A program file carried over to another dialect, with what the shop file says of the machine."""

import tomllib
from pathlib import Path

from planner import parse_shop
from planner.increment import Increments
from postproc import interpret, parse_as
from postproc.converting.carry import Means
from postproc.converting.convert import Conversion, convert
from postproc.dialect import Dialect
from postproc.reading.guess import read_in
from rillwright.check import read_program
from rillwright.outputs import output_stem, program_file, show
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop, named_or_file


def converted(program: Path, to: str, source: str | None, shop: Path | None) -> tuple[Conversion, str, str]:
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
