"""`rillwright compare`: cut a program in simulation and hold it against a drawing."""

from pathlib import Path

from rillwright.allowance import within
from rillwright.answers import beside
from rillwright.atomic import write_atomic
from rillwright.check import compare_files, comparison_svg
from rillwright.compare import print_verdict
from rillwright.console import print_json
from rillwright.outputs import refuse_overwriting, show
from rillwright.records.recording import verification
from rillwright.settings import Settings


def run(
    drawing: Path, program: Path, stock: float | None, picture: Path | None, settings: Settings, as_json: bool
) -> int:
    """Compare; 0 if they agree."""
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
    return 0 if made.verdict.agree else 1
