"""`rillwright shop`: the built-in shop as a commented file; a shop file checked, also against a drawing."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, DRAWING, READING, options


@click.command()
@click.argument("drawing", type=DRAWING, required=False)
@click.option("--check", "check", type=DRAWING, metavar="FILE", help="Check a file of yours: every fault is named.")
@options(READING, ALLOWANCE)
def shop(drawing: Path | None, check: Path | None, settings: Any) -> None:
    """Print the built-in shop as a file to be changed; or check one, and say what its tools can cut of DRAWING.

    Ends with 0, or 2 if the file has faults: each is named.
    """
    from rillwright.shop_check import check_shop
    from rillwright.shop_text import shop_text

    if check is None:
        if drawing is not None:
            raise click.UsageError("give the shop file with --check, or leave the drawing out.")
        click.echo(shop_text(settings.options.units or "mm"), nl=False)
        return
    check_shop(check, drawing, settings)
