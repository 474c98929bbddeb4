"""When a file has arrived: it has stopped changing for a while and its end looks like an end.

Time is monotonic seconds handed in by the caller, so that setting the clock back or forward changes nothing.
"""

from dataclasses import dataclass, field
from pathlib import Path

from rillwright.folder.scan import DRAWING_ENDINGS, InboxFile, Signature

PATIENCE = 10
"""How many times the settling time a drawing without an end is waited for before it is taken as it is."""

TAIL = 256


@dataclass
class Settling:
    """Files under watch and since when each has looked the same. `wait`: seconds without a change.

    `late` are those still changing, or that can't be opened, after `longest`: a run that is to end leaves them. That
    is decided by what a look finds and never by time alone, since a busy machine may look seldom.
    """

    wait: float
    late: set[Path] = field(default_factory=set)
    _endless: dict[Path, Signature] = field(default_factory=dict)
    _since: dict[Path, tuple[Signature, float]] = field(default_factory=dict)
    _first: dict[Path, float] = field(default_factory=dict)

    @property
    def longest(self) -> float:
        """Seconds after which a run that is to end no longer waits for a file that keeps changing."""
        return self.wait * 3 * PATIENCE + 5

    def arrived(self, inbox: Path, found: InboxFile, now: float) -> bool:
        """True once the file has been the same for long enough and can be opened."""
        if self._has_arrived(inbox, found, now):
            self.late.discard(found.name)
            return True
        if now - self._first.setdefault(found.name, now) > self.longest:
            self.late.add(found.name)
        return False

    def _has_arrived(self, inbox: Path, found: InboxFile, now: float) -> bool:
        known = self._since.get(found.name)
        if known is None or known[0] != found.signature:
            self._since[found.name] = (found.signature, now)
            return False
        quiet = now - known[1]
        if quiet < self.wait:
            return False
        return quiet >= self.wait * PATIENCE or _whole(inbox / found.name)

    def lacks_end(self, inbox: Path, found: InboxFile, now: float) -> str:
        """Why a drawing that no longer changes is still waited for, once for each state of it; "" if it isn't."""
        known = self._since.get(found.name)
        quiet = now - known[1] if known is not None and known[0] == found.signature else 0.0
        if quiet < self.wait or self._endless.get(found.name) == found.signature or _whole(inbox / found.name):
            return ""
        self._endless[found.name] = found.signature
        return (
            "Its end mark (EOF) is missing, so it may still be on its way: it is taken as it is after "
            f"{self.wait * PATIENCE:g} s without a change."
        )

    def forget(self, names: set[Path]) -> None:
        """Drop whatever is no longer among the names."""
        for gone in self._since.keys() - names:
            del self._since[gone]
            self._first.pop(gone, None)
            self._endless.pop(gone, None)
            self.late.discard(gone)

    def next_look(self, now: float) -> float | None:
        """Seconds until the first file may have arrived, None if there is nothing to wait for."""
        quiet = [now - since for _, since in self._since.values() if now - since < self.wait * PATIENCE]
        # One that lacks its end is looked at again after another settling time.
        return min((self.wait - one % self.wait for one in quiet), default=None) if self.wait else None


def _whole(path: Path) -> bool:
    """True if the file can be opened and, for a drawing, ends as a DXF does: with EOF."""
    try:
        with path.open("rb") as stream:
            if path.suffix.lower() not in DRAWING_ENDINGS:
                return True
            stream.seek(0, 2)
            stream.seek(max(0, stream.tell() - TAIL))
            return b"EOF" in stream.read(TAIL)
    except OSError:
        return False
