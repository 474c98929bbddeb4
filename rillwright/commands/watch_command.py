"""`rillwright watch`: a program for every drawing dropped into a folder."""

import os
import sys
from pathlib import Path
from typing import Any

import click

from rillwright.options import ALLOWANCE, PREFER, READING, SHOP, for_batch, limit, options, out_folder
from rillwright.signals import when_ending

INBOX = click.Path(exists=True, file_okay=False, path_type=Path)


LEAST_POLL, POLL = 0.1, 5.0
"""Seconds between looks, at least and where nothing else is asked for: to list a share of many drawings takes one."""


@click.command()
@click.argument("inbox", type=INBOX)
@out_folder("Where the results go, in subfolders like those of INBOX.", required=True)
@click.option("--keep-orphaned", is_flag=True, help="Keep and list programs whose drawings were taken out of INBOX.")
@click.option("--once", is_flag=True, help="Handle what is there, then stop.")
@limit("--settle", "SECONDS", 0, 3600, 2.0, "How long a file must not change before it is taken.")
@limit(
    "--poll",
    "SECONDS",
    LEAST_POLL,
    3600,
    POLL,
    "Time between looks where the system reports no changes, as on a share.",
)
@limit("--workers", "N", 1, 64, os.cpu_count() or 1, "Drawings worked out at a time; one for each core if not given.")
@options(ALLOWANCE, PREFER, SHOP, READING)
def watch(
    inbox: Path,
    out: Path,
    once: bool,
    settle: float,
    poll: float,
    workers: int,
    prefer: str | None,
    keep_orphaned: bool,
    settings: Any,
) -> None:
    """Make a program for every drawing dropped into INBOX, until stopped.

    A shop.toml in a folder rules that folder and those below. What became of each drawing stands in DIR/index.html;
    the command history tells it all. Ends with 0; with --once as make.
    """
    # A stop that comes while the libraries are still being loaded ends it just as well.
    when_ending(lambda *_: sys.exit(0))
    from dataclasses import replace

    from rillwright.collector import as_usual
    from rillwright.folder.jobs import Folders, Pace
    from rillwright.folder.start import start

    as_usual()
    pace = Pace(settle, poll, workers, settings.allowance)
    folders, told = Folders(inbox, out, keep_orphaned), for_batch(replace(settings, allowance=None), None, prefer)
    raise SystemExit(start(folders, told, pace, once=once))
