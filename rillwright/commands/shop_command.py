"""`rillwright shop`: the built-in shop as a commented file; a shop file checked, also against a drawing."""

from pathlib import Path

import click

from rillwright.settings import Settings
from rillwright.shop_check import check_shop
from rillwright.shop_text import shop_text


def run(drawing: Path | None, check: Path | None, settings: Settings) -> int:
    """Print the built-in shop, or check one."""
    if check is None:
        if drawing is not None:
            raise click.UsageError("give the shop file with --check, or leave the drawing out.")
        click.echo(shop_text(settings.options.units or "mm"), nl=False)
    else:
        check_shop(check, drawing, settings)
    return 0
