"""`rillwright compare`: cut a program in simulation and hold it against a drawing."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, AS_JSON, DRAWING, OUT_FILE, READING, SHOP, options


@click.command()
@click.argument("drawing", type=DRAWING)
@click.argument("program", type=DRAWING)
@click.option("--stock", type=click.FloatRange(0, min_open=True), metavar="D", help="Cut from a plain bar across D.")
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
    from rillwright.check import compare_files
    from rillwright.compare import print_verdict
    from rillwright.console import print_json
    from rillwright.jsonform import verdict_json
    from rillwright.outputs import show

    settings.check()
    with within(settings.allowance):
        made = compare_files(drawing, program, beside(drawing, settings), stock)
    if picture is not None:
        _draw(picture, made)
    if as_json:
        print_json(verdict_json(made.verdict))
    else:
        print_verdict(made.part, made.verdict, show(Path(drawing.name)), show(Path(program.name)))
    raise SystemExit(0 if made.verdict.agree else 1)


def _draw(picture: Path, made: Any) -> None:
    from extractor.errors import SettingsError
    from rillwright.atomic import write_atomic
    from rillwright.check import comparison_svg

    for given in (made.drawing, made.program):
        if picture.exists() and picture.samefile(given):
            raise SettingsError("The picture would overwrite what it is drawn from: give --picture another name.")
    write_atomic(picture, comparison_svg(made).encode("utf-8", "backslashreplace"))
