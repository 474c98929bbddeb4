"""`rillwright compare`: cut a program in simulation and hold it against a drawing."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, AS_JSON, DRAWING, OUT_FILE, READING, SHOP, options


@click.command()
@click.argument("drawing", type=DRAWING)
@click.argument("program", type=DRAWING)
@click.option(
    "--stock", type=click.FloatRange(0, min_open=True), metavar="D", help="Start from a plain bar of diameter D."
)
@click.option("--picture", type=OUT_FILE, metavar="OUT.svg", help="Both profiles over each other, differences marked.")
@options(SHOP, READING, ALLOWANCE, AS_JSON)
def compare(
    drawing: Path, program: Path, stock: float | None, picture: Path | None, settings: Any, as_json: bool
) -> None:
    """Read PROGRAM as the control would, cut it, and say groove by groove whether it makes DRAWING.

    Ends with 0 if they agree, 1 if they differ or a move is unsafe, 2 if one of them can't be read.
    """
    from rillwright.allowance import within
    from rillwright.answers import beside
    from rillwright.atomic import write_atomic
    from rillwright.check import compare_files, comparison_svg
    from rillwright.compare import print_verdict
    from rillwright.console import print_json
    from rillwright.outputs import refuse_overwriting, show
    from rillwright.recording import verification

    settings.check()
    if picture is not None:
        refuse_overwriting("--picture", picture, settings.files(drawing, program), ".svg")
    with within(settings.allowance):
        made = compare_files(drawing, program, beside(drawing, settings), stock)
    if picture is not None:
        write_atomic(picture, comparison_svg(made).encode("utf-8", "backslashreplace"))
    if as_json:
        print_json(verification(made.verdict))
    else:
        print_verdict(made.part, made.verdict, show(Path(drawing.name)), show(Path(program.name)))
    raise SystemExit(0 if made.verdict.agree else 1)
