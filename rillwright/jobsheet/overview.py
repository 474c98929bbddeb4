"""The page over a watched folder's results: a line each, the newest first, with the way to sheet and program."""

from collections.abc import Mapping, Sequence
from dataclasses import field
from datetime import datetime

from extractor.values import dataclass
from rillwright.jobsheet.sheet import page, page_parts

WRONG = "edited, wrong"
"""The state of a drawing whose program was edited and does not make it."""
KINDS = {"made": "good", "agrees": "good", "refused": "bad", "differs": "bad", WRONG: "bad"}
"""How a state is coloured; the others ask for a look."""
STATES = ("made", "refused", "failed", "orphaned", "removed")
MOST_NAMED = 20
"""Drawings that wait and are named; the rest is counted."""


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One line. `link`, `program_link`: addresses of sheet and program from the page, empty where there is none.

    `finished` is UTC as ISO. `cautions` counts those on the sheet, `questions` what the sheet asks.
    """

    name: str
    state: str
    link: str
    program: str
    finished: str
    words: str
    program_link: str = ""
    cautions: int = 0
    questions: int = 0

    @property
    def kind(self) -> str:
        """Good, bad, or to be looked at."""
        return KINDS.get(self.state, "part")

    @property
    def time(self) -> str:
        """When it finished, in local time."""
        return local_time(self.finished)


@dataclass(frozen=True, kw_only=True)
class Life:
    """Whether the watch is at work or stopped, and since when; UTC as ISO.

    `sign` is when it last wrote the page. A watch at work writes it again within `longest` seconds.
    """

    at_work: bool
    since: str
    sign: str
    longest: float

    @property
    def words(self) -> str:
        """The same in one sentence."""
        return f"The watch {'is at work' if self.at_work else 'was stopped'} since {local_time(self.since)}."

    @property
    def lost(self) -> str:
        """What the page says once nothing has been written for too long."""
        return (
            f"No sign of life since {local_time(self.sign)}: load the page again; if this stays, the watch has ended."
        )

    @property
    def signed(self) -> float:
        """`sign` as seconds since 1970."""
        return datetime.fromisoformat(self.sign).timestamp()


@dataclass(frozen=True, kw_only=True)
class OverviewPage:
    """What one page over a watched folder shows.

    `counts`: drawings by state. `edited`: programs that somebody changed or took away. `kept`: programs that no drawing
    stands for. `untaken`: files in the inbox that nothing is made from, with the reason. `waiting`: drawings in line.
    `trouble`: what holds the watch up. `pages`: (name, address), the address empty for this one.
    """

    counts: Mapping[str, int]
    results: Sequence[Entry]
    checks: Sequence[Entry] = ()
    edited: Sequence[Entry] = ()
    kept: Sequence[Entry] = ()
    untaken: Sequence[tuple[str, str]] = ()
    waiting: Sequence[str] = ()
    trouble: Sequence[str] = ()
    life: Life | None = None
    pages: Sequence[tuple[str, str]] = field(default=())


def local_time(iso: str) -> str:
    """A UTC time in local time; a text that is no time stays as it is."""
    try:
        return f"{datetime.fromisoformat(iso).astimezone():%Y-%m-%d %H:%M:%S}"
    except ValueError:
        return iso


def zone() -> str:
    """How far local time is ahead of UTC now."""
    return f"{datetime.now().astimezone():%z}"


def render_overview(shown: OverviewPage) -> str:
    """The page."""
    told = ", ".join(f"{shown.counts[state]} {state}" for state in STATES if shown.counts.get(state))
    more = len(shown.waiting) - MOST_NAMED
    named = [*shown.waiting[:MOST_NAMED], *([f"and {more} more"] if more > 0 else [])]
    values = {"shown": shown, "told": told, "total": sum(shown.counts.values()), "waiting": named, "zone": zone()}
    return page("overview.html", values | page_parts("overview.js"))
