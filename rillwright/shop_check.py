"""Checking a shop file: its faults, what it leaves open, and what its tools can cut of a drawing."""

from dataclasses import replace
from pathlib import Path

from extractor import read_drawing
from extractor.errors import DrawingError, SettingsError
from planner.settings.settled import settled
from rillwright.allowance import within
from rillwright.answers import answered_or_refused, beside
from rillwright.digest import file_digest
from rillwright.outputs import show
from rillwright.settings import Settings
from rillwright.shop_text import able_lines
from rillwright.tables import say
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop


def check_shop(file: Path, drawing: Path | None, settings: Settings) -> None:
    """Say what a shop file gives, and which grooves of the drawing each tool can cut, if there is one.

    SettingsError names every fault of the file, or says that its material is not known and has no figures.
    """
    text = read_toml_file(file)
    settings = replace(settings, shop_text=text, shop_name=show(file), tongues=beside_shop(text, file))
    shop = settings.shop("mm")
    for finding in settled(shop)[1]:
        if finding.stops:
            raise SettingsError(finding.message)
    count = len(shop.tools)
    tools = (
        "no tools, so the built-in ones stand in" if "tools" in shop.built_in else f"{count} tool{'s' * (count != 1)}"
    )
    say(f"{show(file)} is in order: dialect {shop.machine.dialect}, {tools}.")
    if drawing is not None:
        with within(settings.allowance):
            _against(drawing, settings)


def _against(drawing: Path, settings: Settings) -> None:
    """Hold each tool against the drawing's grooves, and say what none can cut."""
    given = answered_or_refused(beside(drawing, settings), file_digest(drawing))
    reading = read_drawing(drawing, given.settings.options)
    part = reading.part
    if part is None:
        raise DrawingError(" ".join(f.message for f in reading.findings if f.stops))
    for line in able_lines(part, settings.shop(part.units)):
        say(line, indent=2)
