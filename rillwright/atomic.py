"""Files that are whole or not there: temporary file in the same folder, fsync, rename, fsync of the folder.

Whatever goes wrong on the way, the temporary file is removed; only a killed process can leave one behind, and its
name starts with `TEMPORARY` so that a later run can sweep it up.
"""

import os
import secrets
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path

TEMPORARY = ".rillwright-"
"""What the name of every temporary file starts with."""

STALE = ".stale"
"""What is put behind the name of a program that must not be run any more."""


LEFT = 600.0
"""Seconds after which a temporary file is none of a run that is still at work."""

BINARY = getattr(os, "O_BINARY", 0)
"""Where a system would write another end of line than the one given, it is told not to."""


def write_atomic(path: Path, data: bytes) -> None:
    """Put the bytes at `path`, replacing what is there, or leave everything as it was and raise OSError."""
    with staged([(path, data)]) as put:
        put()


@contextmanager
def staged(files: Iterable[tuple[Path, bytes]]) -> Iterator[Callable[[], None]]:
    """Write files beside their places; the function that the block is given puts all in place, in order.

    A full disk shows before the block begins, while nothing has changed yet. What is not in place by the end of the
    block is removed. OSError if something can't be written.
    """
    ready: list[tuple[Path, Path]] = []
    try:
        for path, data in files:
            # A name of its own length would not do: the target's may be as long as the file system allows.
            temporary = path.parent / f"{TEMPORARY}{secrets.token_hex(8)}.tmp"
            try:
                descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | BINARY, 0o666)
            except OSError as error:
                error.filename = str(path)  # that is the name that the user knows
                raise
            ready.append((temporary, path))
            try:
                _write_all(descriptor, data)
                os.fsync(descriptor)
            finally:
                os.close(descriptor)
        yield lambda: _put(ready)
    finally:
        for temporary, _ in ready:
            with suppress(OSError):
                temporary.unlink()


def _put(ready: list[tuple[Path, Path]]) -> None:
    """Rename each to its place; what is in place is no longer ready."""
    while ready:
        temporary, path = ready[0]
        os.replace(temporary, path)
        del ready[0]
        sync_folder(path.parent)


def make_folder(folder: Path) -> None:
    """Make a folder, and any missing ones above it, so that they survive a power cut."""
    if folder.is_dir():
        return
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for one in reversed(missing):
        sync_folder(one.parent)


def _write_all(descriptor: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        view = view[os.write(descriptor, view) :]


def sync_folder(folder: Path) -> None:
    """Make renames in the folder survive a power cut, where the file system can do that."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def set_aside(path: Path) -> Path | None:
    """Rename a program so that nobody runs it by mistake; where it is now, or None if there was none.

    One that was set aside before keeps its bytes, under a number of its own.
    """
    stale = path.with_name(path.name + STALE)
    if not os.path.lexists(path):
        return None
    if os.path.lexists(stale) and not _alike(stale, path):
        numbered = (stale.with_name(f"{stale.name}.{number}") for number in count(2))
        os.replace(stale, next(free for free in numbered if not os.path.lexists(free)))
    os.replace(path, stale)
    sync_folder(path.parent)
    return stale


def _alike(one: Path, other: Path) -> bool:
    try:
        return one.is_file() and other.is_file() and one.read_bytes() == other.read_bytes()
    except OSError:
        return False


def remove(path: Path) -> None:
    """Take a file away for good, if it is there."""
    with suppress(FileNotFoundError):
        path.unlink()
        sync_folder(path.parent)


def sweep(folder: Path, beside: Path | None = None) -> int:
    """Remove temporary files that a killed run left in a folder; how many there were.

    Where other runs may be at work there, `beside` is a file just written: what is not `LEFT` older than it stays.
    """
    found = [path for path in folder.glob(f"{TEMPORARY}*.tmp") if path.is_file() and not path.is_symlink()]
    if found and beside is not None:
        # By the file system's own clock: this machine's may be another one, or wrong.
        now = beside.stat().st_mtime
        found = [path for path in found if now - path.stat().st_mtime > LEFT]
    for path in found:
        remove(path)
    return len(found)
