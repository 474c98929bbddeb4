"""`rillwright watch`: a program for every drawing dropped into a folder."""

import os
import signal
import sys
from pathlib import Path
from typing import Any

import click

from rillwright.options import READING, SHOP, options

INBOX = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command()
@click.argument("inbox", type=INBOX)
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), required=True, metavar="DIR")
@click.option("--once", is_flag=True, help="Handle what is there and end.")
@click.option(
    "--settle",
    type=click.FloatRange(0, 3600),
    default=2.0,
    show_default=True,
    metavar="SECONDS",
    help="How long a file must not change before it is taken.",
)
@click.option(
    "--poll",
    type=click.FloatRange(0.1, 3600),
    default=5.0,
    show_default=True,
    metavar="SECONDS",
    help="Time between looks where the system doesn't tell of changes, as on network shares.",
)
@click.option(
    "--workers",
    type=click.IntRange(1, 64),
    default=os.cpu_count() or 1,
    metavar="N",
    help="Drawings worked out at a time; one for each core if not given.",
)
@click.option(
    "--time-limit",
    type=click.FloatRange(1, 86400),
    default=120.0,
    show_default=True,
    metavar="SECONDS",
    help="Most time for one drawing.",
)
@click.option(
    "--memory-limit",
    type=click.IntRange(64, 1_000_000),
    default=1024,
    show_default=True,
    metavar="MIB",
    help="Most memory for one drawing.",
)
@options(SHOP, READING)
def watch(
    inbox: Path,
    out: Path,
    once: bool,
    settle: float,
    poll: float,
    workers: int,
    time_limit: float,
    memory_limit: int,
    settings: Any,
) -> None:
    """Make a program for every drawing dropped into INBOX, until stopped.

    A shop.toml in a folder rules that folder and those below. What became of each drawing stands in the ledger in DIR:
    see the command history. Ends with 0; with --once as make.
    """
    # A stop that comes while the libraries are still being loaded ends it just as well.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    from rillwright.folder.jobs import Pace
    from rillwright.folder.start import start
    from rillwright.folder.worker import Limits

    pace = Pace(settle, poll, workers, Limits(time_limit, memory_limit))
    raise SystemExit(start(inbox, out, settings, pace, once=once))
