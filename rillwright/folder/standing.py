"""What lies in the folder of results, held at each look against what the ledger says lies there.

A program that somebody edited, took away or put there is found by its size and times, and known by its hash. A
drawing that is gone from the inbox is told from a share that is away by what the system knows its folder by.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from rillwright.digest import file_digest
from rillwright.folder.ledger import GONE, Ledger, Result, Underneath
from rillwright.folder.placing import last_outputs, outputs_of
from rillwright.folder.scan import InboxFile, Sight, Signature, signature_of
from rillwright.folder.settle import Settling
from rillwright.lying import NOT_PLAIN


@dataclass
class StandingPrograms:
    """The programs of every drawing in the ledger. `due`: drawings whose program is to be looked into."""

    out: Path
    wait: float
    due: set[bytes] = field(default_factory=set)
    latest: dict[bytes, Result] = field(default_factory=dict)
    underneath: dict[bytes, Underneath] = field(default_factory=dict)
    _programs: dict[bytes, Path] = field(default_factory=dict)
    _seen: dict[bytes, Signature | None] = field(default_factory=dict)
    _moving: set[bytes] = field(default_factory=set)
    _later: set[bytes] = field(default_factory=set)
    _absent: dict[bytes, float] = field(default_factory=dict)
    _folders: dict[bytes, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Set up what tells whether a file still changes."""
        self.settling = Settling(self.wait)

    def load(self, ledger: Ledger) -> None:
        """Take in what the ledger knows."""
        self.latest = {one.drawing: one for one in ledger.newest()}
        self.underneath, self._folders = ledger.underneath(), ledger.folders()
        self._programs.clear()
        self._seen.clear()

    def entered(self, result: Result, ledger: Ledger) -> None:
        """Take in a new result."""
        self.latest[result.drawing] = result
        self.renew(result.drawing, ledger)

    def renew(self, drawing: bytes, ledger: Ledger) -> None:
        """Look at a drawing's program anew, with what the ledger says of it now."""
        found = ledger.underneath_of(drawing)
        if found is not None:
            self.underneath[drawing] = found
        for known in (self._programs, self._seen, self._absent):
            known.pop(drawing, None)
        self.due.discard(drawing)

    def changed(self, ledger: Ledger, now: float, ready: Callable[[bytes], bool]) -> list[tuple[bytes, str]]:
        """Drawings whose program is not what the ledger says, each with the hash of what lies there, "" for nothing.

        Those that are not `ready`, since a new program may be on its way, are left for a later look.
        """
        found = []
        self._later = {name for name, one in self.latest.items() if one.state != "removed" and not ready(name)}
        for drawing, result in self.latest.items():
            if result.state == "removed" or drawing in self.due or drawing in self._later:
                continue
            path = self._program(drawing, ledger)
            signature = _signature(path)
            if drawing in self._seen and self._seen[drawing] == signature:
                continue
            if signature is not None and not self._still(path, signature, now):
                late = path.relative_to(self.out) in self.settling.late
                (self._moving.discard if late else self._moving.add)(drawing)
                continue
            self._moving.discard(drawing)
            self._seen[drawing] = signature
            digest = "" if signature is None else _digest(path)
            told = self.underneath.get(drawing, Underneath(result.program_sha256 or ""))
            if digest != told.sha256:
                found.append((drawing, digest))
        return found

    @property
    def quiet(self) -> bool:
        """True if every program was looked at as it is now, and no drawing that is away is still waited for."""
        return not (self._moving or self._absent or self._later)

    def wanted(self, drawing: bytes, signature: Signature) -> bool:
        """True if a drawing is to be made again: its program changed, or was taken away and the drawing came again."""
        found = self.underneath.get(drawing)
        away = found is not None and not found.sha256 and found.state not in ("", str(signature))
        return drawing in self.due or away

    def refused(self, name: Path) -> bool:
        """True if the drawing's last result is a refusal."""
        one = self.latest.get(os.fsencode(name))
        return one is not None and one.state == "refused"

    def _still(self, path: Path, signature: Signature, now: float) -> bool:
        """True once a program has not changed for the settling time."""
        return self.settling.arrived(self.out, InboxFile(path.relative_to(self.out), signature), now)

    def _program(self, drawing: bytes, ledger: Ledger) -> Path:
        last = self.latest.get(drawing)
        if last is not None and last.program_file:
            return last_outputs(ledger, last, self.out).program
        if drawing not in self._programs:
            self._programs[drawing] = outputs_of(ledger, drawing, self.out).program
        return self._programs[drawing]

    def next_look(self, now: float, *, busy: bool) -> float | None:
        """Seconds until a changed program may have settled, or a drawing that is away has been away for long enough.

        Where nobody is `busy` with what is to come, programs left for a later look get it at once.
        """
        waits = [] if busy or not self._later else [0.0]
        waits += [self.wait - (now - since) for since in self._absent.values()]
        quiet = self.settling.next_look(now)
        waits += [quiet] if quiet is not None else []
        return max(0.0, min(waits)) if waits else None

    def gone(self, sight: Sight, ledger: Ledger, now: float) -> list[Result]:
        """The last results of drawings that have been away for the settling time, and whose folder is not."""
        for folder in {folder for drawing in sight.drawings for folder in drawing.parents} & sight.folders.keys():
            name, identity = os.fsencode(folder), sight.folders[folder]
            if self._folders.get(name) != identity:
                ledger.saw_folder(name, identity)
                self._folders[name] = identity
        here = {os.fsencode(name) for name in sight.drawings}
        away = [one for name, one in self.latest.items() if name not in here and one.state not in GONE]
        away = [one for one in away if self._believed(Path(one.name).parent, sight)]
        since = {one.drawing: self._absent.get(one.drawing, now) for one in away}
        self._absent = since
        return [one for one in away if now - since[one.drawing] >= self.wait]

    def _believed(self, folder: Path, sight: Sight) -> bool:
        """True if a folder can be trusted to hold no more than was seen in it.

        It is the one that the drawings lay in, or it was taken out of such a one.
        """
        for one in (folder, *folder.parents):
            known = self._folders.get(os.fsencode(one))
            if one in sight.folders:
                return known == sight.folders[one] or (known is None and bool(sight.drawings))
            if one in sight.closed:
                return False
        return False


def _signature(path: Path) -> Signature | None:
    try:
        return signature_of(os.lstat(path))
    except OSError:
        return None


def _digest(path: Path) -> str:
    return file_digest(path) if path.is_file() and not path.is_symlink() else NOT_PLAIN
