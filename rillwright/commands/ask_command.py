"""`rillwright ask`: what a drawing leaves open, one question after another, and an answers file for it."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, DRAWING, READING, options


@click.command()
@click.argument("drawing", type=DRAWING)
@options(READING, ALLOWANCE)
def ask(drawing: Path, settings: Any) -> None:
    """Ask what DRAWING leaves open, and write the answers beside it for make, compare and watch.

    Each choice says what would be read with it. Ends with 0 if all is answered, 1 if something is still open.
    """
    from rillwright.answering import ask_all

    raise SystemExit(0 if ask_all(drawing, settings) else 1)
