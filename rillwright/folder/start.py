"""Starts a watch: checks the folders, takes the locks, opens the ledger, sweeps up after a killed one."""

import os
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from extractor.errors import SettingsError
from rillwright.atomic import sweep
from rillwright.folder.jobs import Folders, Pace
from rillwright.folder.ledger import Ledger
from rillwright.folder.lock import FolderLock
from rillwright.folder.log import WatchLog
from rillwright.folder.wake import Waker
from rillwright.folder.watch import Watch
from rillwright.outputs import show
from rillwright.settings import Settings


def start(given: Folders, settings: Settings, pace: Pace, *, once: bool = False, log: WatchLog | None = None) -> int:
    """Run a watch to its end; the exit status. SettingsError where it can't begin."""
    settings.check()
    folders = _resolved(given)
    with (
        closing(Waker()) as waker,
        closing(FolderLock(folders.out, may_write=True)),
        closing(FolderLock(folders.inbox, may_write=False)),
    ):
        waker.on_signals()
        sweep_all(folders.out)
        with Ledger(folders.out) as ledger:
            if not once:
                waker.watch(folders.inbox)
            return Watch(folders, settings, pace, once, log or WatchLog(), ledger, waker).run()


def _resolved(given: Folders) -> Folders:
    """The folders, that of the results made where it is missing; SettingsError where they can't be told apart."""
    inbox = given.inbox.resolve()
    given.out.mkdir(parents=True, exist_ok=True)
    out = given.out.resolve()
    if out == inbox:
        raise SettingsError("The results need a folder other than the inbox: give --out another one.")
    if out in inbox.parents:
        raise SettingsError(f"The inbox {show(inbox)} lies inside the folder of results: keep the two apart.")
    return replace(given, inbox=inbox, out=out)


def sweep_all(out: Path) -> int:
    """Remove what a killed watch left half written in the folder and below it; returns how many files."""
    folders = [Path(folder) for folder, _, _ in os.walk(out)]
    return sum(sweep(folder) for folder in folders)
