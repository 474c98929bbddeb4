"""Drawings that are gone from the inbox: what was made of them is set aside, or kept as orphaned by choice."""

import os
from collections.abc import Iterator
from pathlib import Path

from rillwright.digest import file_digest
from rillwright.folder.jobs import Folders
from rillwright.folder.ledger import GONE, Ledger, Result
from rillwright.folder.log import time_of_day
from rillwright.folder.placing import clear
from rillwright.folder.scan import Sight
from rillwright.folder.standing import StandingPrograms
from rillwright.outputs import show


def see_off(folders: Folders, standing: StandingPrograms, sight: Sight, ledger: Ledger, now: float) -> Iterator[Result]:
    """Put away what was made of each drawing that is gone; returns the entries."""
    gone = standing.gone(sight, ledger, now)
    new = _digests_of_new(folders.inbox, standing, sight) if gone else {}
    orphaned = [standing.latest[one] for one in standing.due if standing.latest[one].state == "orphaned"]
    for last in [*gone, *orphaned]:
        renamed = new.get(last.cause.drawing_sha256)
        if os.fsencode(last.name) in {os.fsencode(name) for name in sight.drawings}:
            continue
        reason = "The drawing was taken out of the inbox" if renamed is None else f"The drawing is {show(renamed)} now"
        keep = folders.keep_orphaned and renamed is None and last.state in ("made", "orphaned")
        entered = clear(ledger, last, folders.out, "orphaned" if keep else "removed", reason, time_of_day())
        if renamed is not None:
            ledger.renamed(last.drawing, os.fsencode(renamed))
        standing.entered(entered, ledger)
        yield entered


def _digests_of_new(inbox: Path, standing: StandingPrograms, sight: Sight) -> dict[str, Path]:
    """Drawings that nothing was made of yet, by their hash."""
    known = {name for name, one in standing.latest.items() if one.state not in GONE}
    return {file_digest(inbox / name): name for name in sight.drawings if os.fsencode(name) not in known}
