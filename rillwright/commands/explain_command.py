"""`rillwright explain`: a program block by block in words, and the grooves that it would cut."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, AS_JSON, DRAWING, SHOP, options, units_option


@click.command()
@click.argument("program", type=DRAWING)
@options(units_option("Units where the program has no unit word.", "asked"), SHOP, ALLOWANCE, AS_JSON)
def explain(program: Path, asked: Any, settings: Any, as_json: bool) -> None:
    """Tell what each block of PROGRAM does, with the numbers worked out.

    Where the inserts are known the grooves get their walls: from --shop, the program's own heading or the record
    beside it. Ends with 0, or 2 if it can't be read.
    """
    from rillwright.allowance import within
    from rillwright.check import read_program
    from rillwright.console import print_json
    from rillwright.explained import explained, explanation_json, print_explanation
    from rillwright.outputs import show

    with within(settings.allowance):
        made = explained(read_program(program), settings, asked, program)
    if as_json:
        print_json(explanation_json(made, show(Path(program.name))))
    else:
        print_explanation(made)
