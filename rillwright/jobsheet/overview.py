"""The page over a watched folder's results: a line each, the newest first, with the way to the job sheet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rillwright.jobsheet.sheet import page, page_parts
from rillwright.jobsheet.view import time_of

KINDS = {"made": "good", "agrees": "good", "refused": "bad", "differs": "bad"}
"""How a state is coloured; the others ask for a look."""
STATES = ("made", "refused", "failed")


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One line. `link` is the address of the sheet from the page, empty where there is none; `finished` UTC as ISO."""

    name: str
    state: str
    link: str
    program: str
    finished: str
    words: str

    @property
    def kind(self) -> str:
        """Good, bad, or to be looked at."""
        return KINDS.get(self.state, "part")

    @property
    def time(self) -> str:
        """When, as people read it."""
        return time_of(self.finished)


def render_overview(
    counts: Mapping[str, int],
    results: Sequence[Entry],
    checks: Sequence[Entry],
    untaken: Sequence[tuple[str, str]] = (),
) -> str:
    """The page: how many drawings ended how, the results, and the programs that were held against their drawings.

    `untaken`: files of the inbox that nothing is made of, each with the reason.
    """
    told = ", ".join(f"{counts[state]} {state}" for state in STATES if counts.get(state))
    total = sum(counts.values())
    values = {"results": results, "checks": checks, "counts": told, "total": total, "older": total - len(results)}
    values |= {"untaken": untaken}
    return page("overview.html", values | page_parts(""))
