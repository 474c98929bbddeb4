"""`rillwright read`: what is recognised in a drawing."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, AS_JSON, DRAWING, OUT_FILE, READING, options


@click.command()
@click.argument("drawing", type=DRAWING)
@click.option("--overlay", type=OUT_FILE, metavar="OUT.dxf", help="Copy of the drawing with what was recognised on it.")
@options(READING, ALLOWANCE, AS_JSON)
def read(drawing: Path, overlay: Path | None, settings: Any, as_json: bool) -> None:
    """Print the part, its grooves, the evenly pitched sets and every finding.

    Ends with 0 if it was read, 1 if a stop was found, 2 if the file can't be read.
    """
    from extractor.opening.expand import OVERLAY_PREFIX
    from extractor.overlay import write_overlay
    from rillwright.allowance import within
    from rillwright.console import print_json, print_part, tell_unused
    from rillwright.outputs import refuse_overwriting
    from rillwright.questions import read_and_ask

    if overlay is not None:
        refuse_overwriting("--overlay", overlay, settings.files(drawing), ".dxf", OVERLAY_PREFIX.encode())
    with within(settings.allowance):
        asked = read_and_ask(drawing, settings)
        if overlay is not None:
            write_overlay(drawing, asked.reading, [one.grooves for one in asked.sets], overlay)
    part = asked.recorded
    tell_unused(settings.options.accept, part.findings)
    if as_json:
        print_json(part)
    else:
        print_part(part)
    raise SystemExit(1 if any(one.stops for one in part.findings) else 0)
