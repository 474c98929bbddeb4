"""`rillwright read`: what is recognised in a drawing."""

from pathlib import Path

from extractor.opening.expand import OVERLAY_PREFIX
from extractor.overlay import write_overlay
from rillwright.allowance import within
from rillwright.console import print_json, print_part, tell_unused
from rillwright.outputs import refuse_overwriting
from rillwright.questions import read_and_ask
from rillwright.settings import Settings


def run(drawing: Path, overlay: Path | None, settings: Settings, as_json: bool) -> int:
    """Read; 0 if nothing stops."""
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
    return 1 if any(one.stops for one in part.findings) else 0
