"""The page over everything that a watch has made: `index.html` in the folder of results, renewed while it works.

It is drawn from the ledger alone. Thousands of drawings that arrive together must not be slowed by it: it is renewed
at most so often that it takes a small share of the time, and shows the newest results only.
"""

import os
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote

from rillwright.atomic import write_atomic
from rillwright.folder.ledger import LastCheck, Ledger, Result
from rillwright.folder.log import WatchLog
from rillwright.folder.placing import outputs_of
from rillwright.jobsheet.index import is_free
from rillwright.jobsheet.overview import Entry, render_overview

PAGE = "index.html"
MOST = 500
"""Results that the page shows; the command history knows them all."""
REST = 30.0
"""How many times as long as a renewal took nothing is renewed."""
LEAST = 2.0
"""Seconds between two renewals at least."""


@dataclass
class Overview:
    """The page of one folder of results. `due` is true while it is behind the ledger."""

    out: Path
    log: WatchLog
    clock: Callable[[], float]
    due: bool = True
    not_before: float = float("-inf")
    failed: bool = False
    untaken: dict[str, str] = field(default_factory=dict)

    def show_untaken(self, untaken: dict[str, str]) -> None:
        """Say on the page which files of the inbox are not taken, and why."""
        self.due = self.due or untaken != self.untaken
        self.untaken = untaken

    def wait(self, now: float) -> float | None:
        """Seconds until it is to be renewed; None if it is up to date."""
        return max(0.0, self.not_before - now) if self.due else None

    def renew(self, ledger: Ledger, *, at_once: bool = False) -> None:
        """Bring it up to date if it is time, or at once; that it can't be written is told once and stops nothing."""
        began = self.clock()
        if not self.due or (began < self.not_before and not at_once):
            return
        self.due = False
        try:
            self._write(ledger)
            self.failed = False
        except (OSError, sqlite3.Error) as error:
            self.due = True
            if not self.failed:
                self.log.event("cannot-write", drawing=PAGE, reason=getattr(error, "strerror", None) or str(error))
            self.failed = True
        now = self.clock()
        self.not_before = now + max(LEAST, REST * (now - began))

    def _write(self, ledger: Ledger) -> None:
        # Where the share is away there is no ledger, and nothing may be written in its place.
        ledger.path.stat()
        path = self.out / PAGE
        # A drawing of that name has its sheet there, and a page of somebody's own is not ours to replace.
        if not is_free(path):
            return
        results = [_entry(ledger, self.out, one) for one in ledger.newest(MOST)]
        checks = [_check(one) for one in ledger.newest_checks(MOST)]
        if not results and not checks and not self.untaken:
            return
        untaken = list(self.untaken.items())[:MOST]
        page = render_overview(ledger.counts(), results, checks, untaken).encode("utf-8", "backslashreplace")
        if not path.is_file() or path.read_bytes() != page:
            write_atomic(path, page)


def _entry(ledger: Ledger, out: Path, one: Result) -> Entry:
    sheet = outputs_of(ledger, one.drawing, out).sheet.relative_to(out)
    words = " ".join((one.reason, *one.changes)).strip()
    return Entry(
        name=one.name,
        state=one.state,
        link=quote(os.fsencode(sheet)),
        program=one.program_file or "",
        finished=one.finished,
        words=words,
    )


def _check(one: LastCheck) -> Entry:
    state = "not judged" if one.agree is None else "agrees" if one.agree else "differs"
    return Entry(name=one.name, state=state, link="", program="", finished=one.finished, words=one.reason)
