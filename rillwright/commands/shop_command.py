"""`rillwright shop`: the built-in shop as a commented file; a shop file checked, also against a drawing."""

from dataclasses import replace
from pathlib import Path

import click

from extractor import read_drawing
from extractor.errors import DrawingError, SettingsError
from planner.settings.settled import settled
from rillwright.allowance import within
from rillwright.answers import answered_or_refused, beside
from rillwright.digest import file_digest
from rillwright.outputs import show
from rillwright.settings import Settings
from rillwright.shop_text import able_lines, shop_text
from rillwright.tables import say
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop


def run(drawing: Path | None, check: Path | None, settings: Settings) -> int:
    """Print the built-in shop, or say what a shop file gives, and which grooves of a drawing each tool can cut.

    SettingsError names every fault of the file, or says that its material is not known and has no figures.
    """
    if check is None:
        if drawing is not None:
            raise click.UsageError("give the shop file with --check, or leave the drawing out.")
        click.echo(shop_text(settings.options.units or "mm"), nl=False)
        return 0
    text = read_toml_file(check)
    settings = replace(settings, shop_text=text, shop_name=show(check), tongues=beside_shop(text, check))
    shop = settings.shop("mm")
    for finding in settled(shop)[1]:
        if finding.stops:
            raise SettingsError(finding.message)
    count = len(shop.tools)
    tools = (
        "no tools, so the built-in ones stand in" if "tools" in shop.built_in else f"{count} tool{'s' * (count != 1)}"
    )
    say(f"{show(check)} is in order: dialect {shop.machine.dialect}, {tools}.")
    if drawing is not None:
        with within(settings.allowance):
            _against(drawing, settings)
    return 0


def _against(drawing: Path, settings: Settings) -> None:
    """Hold each tool against the drawing's grooves, and say what none can cut."""
    given = answered_or_refused(beside(drawing, settings), file_digest(drawing))
    reading = read_drawing(drawing, given.settings.options)
    part = reading.part
    if part is None:
        raise DrawingError(" ".join(f.message for f in reading.findings if f.stops))
    for line in able_lines(part, settings.shop(part.units)):
        say(line, indent=2)
