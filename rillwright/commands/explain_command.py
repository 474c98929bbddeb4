"""`rillwright explain`: a program block by block in words, and the grooves that it would cut."""

from pathlib import Path

from extractor.part import Units
from rillwright.allowance import within
from rillwright.check import read_program
from rillwright.console import print_json
from rillwright.explained import explained, explanation_json, print_explanation
from rillwright.outputs import show
from rillwright.settings import Settings


def run(program: Path, asked: Units | None, settings: Settings, as_json: bool) -> int:
    """Explain; 0 if it could be read."""
    with within(settings.allowance):
        made = explained(read_program(program), settings, asked, program)
    if as_json:
        print_json(explanation_json(made, show(Path(program.name))))
    else:
        print_explanation(made)
    return 0
