"""What lies in an inbox: drawings, shop files, programs beside drawings. Links are not followed.

Looks only at names and sizes; `rillwright.folder.settle` decides when a file may be opened.
"""

import os
from collections.abc import Iterator
from dataclasses import field, replace
from pathlib import Path

from extractor.values import dataclass
from rillwright.answers import owner

SHOP_FILE = "shop.toml"
DRAWING_ENDINGS = frozenset({".dxf"})
NEVER_PROGRAMS = frozenset({".html", ".json", ".bak", ".log", ".md", ".csv"})
MODELS = frozenset({".step", ".stp", ".iges", ".igs"})
PICTURES = frozenset({".png", ".jpg", ".jpeg", ".tif", ".tiff", ".bmp", ".svg"})
ARCHIVES = frozenset({".zip", ".7z", ".gz", ".rar", ".tar"})
UNREAD = frozenset({".toml", ".dwg", ".pdf"}) | MODELS | PICTURES | ARCHIVES
"""Kinds of files that people drop hoping for a program, and that nothing here reads."""

# Names that editors, CAD and copy tools give to what is not a finished file (common practice, no source).
TEMPORARY_STARTS = ("~$", "~", ".", "#")
TEMPORARY_ENDINGS = (".tmp", ".temp", ".part", ".partial", ".crdownload", ".lck", ".lock", ".dwl", ".dwl2", ".swp", "~")

Signature = tuple[int, int, int, int]
"""Size, time of change in ns, inode and its own time of change: another one means another content."""


@dataclass(frozen=True)
class InboxFile:
    """One file in the inbox: its path below it, and its signature."""

    name: Path
    signature: Signature

    @property
    def size(self) -> int:
        """Bytes."""
        return self.signature[0]

    @property
    def newness(self) -> int:
        """Grows with the time of change."""
        return self.signature[1]


@dataclass(frozen=True)
class Sight:
    """One look at the inbox. `odd` names what was left out for being a link or no plain file.

    `answers` are answers files, by their folder and whose they are; `unread` are files of kinds that are never read.
    `folders` are those looked into with what the system knows each by; `closed` those that can't be looked into.
    """

    drawings: dict[Path, InboxFile]
    shops: dict[Path, InboxFile]
    others: dict[Path, InboxFile]
    odd: tuple[Path, ...]
    answers: dict[tuple[Path, str], list[InboxFile]] = field(default_factory=dict)
    unread: list[Path] = field(default_factory=list)
    folders: dict[Path, str] = field(default_factory=dict)
    closed: set[Path] = field(default_factory=set)

    def answers_to(self, drawing: Path) -> list[InboxFile]:
        """The answers files that may speak of a drawing: its folder's, then its own, the newest last."""
        own = self.answers.get((drawing.parent, drawing.stem.casefold()), [])
        return [*self.answers.get((drawing.parent, ""), []), *sorted(own, key=lambda one: one.newness)]


def is_temporary(name: str) -> bool:
    """True if a file of this name is a copy in progress, a lock or an editor's.

    >>> [is_temporary(name) for name in ("~$ring.dxf", "ring.dxf.tmp", "ring.dxf")]
    [True, True, False]
    """
    lower = name.lower()
    return lower.startswith(TEMPORARY_STARTS) or lower.endswith(TEMPORARY_ENDINGS)


def look(inbox: Path, leave_out: Path | None = None) -> Sight:
    """Everything in the inbox and below it but `leave_out`; OSError where the inbox itself can't be read."""
    sight = Sight({}, {}, {}, ())
    odd = []
    for name, entry in _walk(inbox, Path(), leave_out, sight):
        try:
            if entry.is_symlink() or not entry.is_file(follow_symlinks=False):
                odd.append(name)
                continue
            status = entry.stat(follow_symlinks=False)
        except OSError:
            # Gone again between the listing and here: the next look will tell.
            continue
        _sort(sight, InboxFile(name, signature_of(status)))
    return replace(sight, odd=tuple(odd))


def _sort(sight: Sight, found: InboxFile) -> None:
    ending, whose = found.name.suffix.lower(), owner(found.name.name)
    if ending in DRAWING_ENDINGS:
        sight.drawings[found.name] = found
    elif whose is not None:
        sight.answers.setdefault((found.name.parent, whose), []).append(found)
    elif found.name.name.lower() == SHOP_FILE:
        sight.shops[found.name] = found
    elif ending in UNREAD:
        sight.unread.append(found.name)
    elif ending not in NEVER_PROGRAMS:
        sight.others[found.name] = found


def signature_of(status: os.stat_result) -> Signature:
    """What tells one content of a file from another."""
    return status.st_size, status.st_mtime_ns, status.st_ino, status.st_ctime_ns


def _walk(inbox: Path, below: Path, leave_out: Path | None, sight: Sight) -> Iterator[tuple[Path, "os.DirEntry[str]"]]:
    try:
        status = os.stat(inbox / below)
        with os.scandir(inbox / below) as listing:
            entries = sorted(listing, key=lambda entry: entry.name)
    except OSError:
        if below == Path():
            raise
        sight.closed.add(below)
        return
    sight.folders[below] = f"{status.st_dev}:{status.st_ino}"
    for entry in entries:
        name = below / entry.name
        if is_temporary(entry.name) or (leave_out is not None and inbox / name == leave_out):
            continue
        if entry.is_dir(follow_symlinks=False) and entry.name.lower() != SHOP_FILE:
            yield from _walk(inbox, name, leave_out, sight)
        else:
            yield name, entry


def shop_file_of(name: Path, shops: dict[Path, InboxFile]) -> Path | None:
    """The shop file that rules a drawing: the nearest in its folder or above.

    >>> shop_file_of(Path("lathe/ring.dxf"), {Path("shop.toml"): InboxFile(Path("shop.toml"), (0, 0, 0, 0))})
    PosixPath('shop.toml')
    """
    by_folder = {path.parent: path for path in shops}
    return next((by_folder[folder] for folder in name.parents if folder in by_folder), None)


def pair_key(name: Path) -> tuple[Path, str]:
    """What a drawing and a program that belongs to it have in common: folder and name, whatever the letters' case."""
    return name.parent, name.stem.casefold()
