"""`rillwright watch`: a program for every drawing dropped into a folder."""

from dataclasses import replace
from pathlib import Path

from rillwright.collector import as_usual
from rillwright.folder.jobs import Folders, Pace
from rillwright.folder.start import start
from rillwright.given import for_batch
from rillwright.settings import Settings


def run(
    inbox: Path,
    out: Path,
    once: bool,
    settle: float,
    poll: float,
    workers: int,
    prefer: str | None,
    keep_orphaned: bool,
    settings: Settings,
) -> int:
    """Watch until stopped; 0, or with `once` as `make`."""
    as_usual()
    assert settings.allowance is not None
    pace = Pace(settle, poll, workers, settings.allowance)
    folders, told = Folders(inbox, out, keep_orphaned), for_batch(replace(settings, allowance=None), None, prefer)
    return start(folders, told, pace, once=once)
