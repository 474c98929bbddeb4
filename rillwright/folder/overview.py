"""The pages over everything that a watch has made: `index.html` in the folder of results, renewed while it works.

They are drawn from the ledger and what lies there. Thousands of drawings that arrive together must not be slowed by it:
it is renewed only so often that it takes a small share of the time. Older results stand on `index.2.html` and so on.
"""

import sqlite3
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from rillwright.atomic import remove, write_atomic
from rillwright.folder.entries import check_entry, edited_entries, kept_entries, result_entry
from rillwright.folder.ledger import Ledger
from rillwright.folder.log import WatchLog, time_of_day
from rillwright.jobsheet.index import is_free
from rillwright.jobsheet.overview import Life, OverviewPage, render_overview

PAGE = "index.html"
MOST = 500
"""Results on one page."""
REST = 30.0
"""How many times as long as a renewal took nothing is renewed."""
LEAST = 2.0
"""Seconds between two renewals at least."""
BEAT = 60.0
"""Seconds after which a watch at work renews the page to show that it lives."""
PATIENCE = 3.0
"""How many beats may be missed on a busy machine before the page says that there is no sign of life."""


@dataclass
class Overview:
    """The pages of one folder of results. `due` is true while they are behind.

    `since`: when the watch began, UTC as ISO, "" for a single run, which shows no life. `stopped`: when it ended.
    """

    out: Path
    log: WatchLog
    clock: Callable[[], float]
    due: bool = True
    not_before: float = float("-inf")
    failed: bool = False
    since: str = ""
    stopped: str = ""
    untaken: dict[str, str] = field(default_factory=dict)
    waiting: tuple[str, ...] = ()
    trouble: tuple[str, ...] = ()
    _beat: float = float("-inf")
    _every: float = BEAT

    def show_untaken(self, untaken: dict[str, str]) -> None:
        """Say on the page which files of the inbox are not taken, and why."""
        self.due = self.due or untaken != self.untaken
        self.untaken = untaken

    def show_line(self, waiting: Sequence[str], trouble: Sequence[str]) -> None:
        """Say on the page which drawings are in line, and what holds the watch up."""
        self.due = self.due or (self.waiting, self.trouble) != (tuple(waiting), tuple(trouble))
        self.waiting, self.trouble = tuple(waiting), tuple(trouble)

    def end(self) -> None:
        """Say on the page that the watch has now stopped."""
        self.stopped, self.due = time_of_day(), True

    def wait(self, now: float) -> float | None:
        """Seconds until it is to be renewed; None if it is up to date and need not show life."""
        if self.due:
            return max(0.0, self.not_before - now)
        return max(0.0, self._beat + self._every - now) if self.since else None

    def renew(self, ledger: Ledger, *, at_once: bool = False) -> None:
        """Bring it up to date if it is time, or at once; failure to write it is reported once and stops nothing."""
        began = self.clock()
        beat = bool(self.since) and began >= self._beat + self._every
        if not (self.due or beat) or (began < self.not_before and not at_once):
            return
        self.due, self._beat = False, began
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
        self._every = max(BEAT, self.not_before - now)

    def _write(self, ledger: Ledger) -> None:
        # Where the share is away there is no ledger, and nothing may be written in its place.
        ledger.path.stat()
        counts, latest = ledger.counts(), ledger.newest()
        count = max(1, -(-len(latest) // MOST))
        checks = [check_entry(one) for one in ledger.newest_checks(MOST)]
        first = OverviewPage(
            counts=counts,
            results=(),
            checks=checks,
            edited=edited_entries(ledger, self.out, latest),
            kept=kept_entries(ledger, self.out, latest)[:MOST],
            untaken=list(self.untaken.items())[:MOST],
            waiting=self.waiting,
            trouble=self.trouble,
            life=self._life(),
        )
        if not latest and not checks and not self.untaken and not self.waiting:
            return
        lies = ledger.underneath()
        for number in range(count, 0, -1):
            shown = first if number == 1 else OverviewPage(counts=counts, results=(), life=first.life)
            part = latest[(number - 1) * MOST : number * MOST]
            results = [result_entry(ledger, self.out, one, lies.get(one.drawing)) for one in part]
            pages = [(str(one), "" if one == number else page_name(one)) for one in range(1, count + 1)]
            self._put(number, replace(shown, results=results, pages=pages))
        self._take_away(count + 1)

    def _life(self) -> Life | None:
        if not self.since:
            return None
        longest = PATIENCE * self._every
        return Life(at_work=not self.stopped, since=self.stopped or self.since, sign=time_of_day(), longest=longest)

    def _put(self, number: int, shown: OverviewPage) -> None:
        path = self.out / page_name(number)
        # A page of somebody's own is not ours to replace.
        if not is_free(path):
            return
        page = render_overview(shown).encode("utf-8", "backslashreplace")
        if not path.is_file() or path.read_bytes() != page:
            write_atomic(path, page)

    def _take_away(self, number: int) -> None:
        """Take away pages that are needed no more."""
        while (path := self.out / page_name(number)).is_file() and is_free(path):
            remove(path)
            number += 1


def page_name(number: int) -> str:
    """The file of a page; no drawing's results have such a name.

    >>> page_name(1), page_name(2)
    ('index.html', 'index.2.html')
    """
    return PAGE if number == 1 else f"index.{number}.html"
