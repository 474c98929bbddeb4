"""Files that are whole or not there: temporary file in the same folder, fsync, rename, fsync of the folder.

Whatever goes wrong on the way, the temporary file is taken away again; only a killed process can leave one, and its
name starts with `TEMPORARY` so that a later run can sweep it up.
"""

import os
import secrets
from contextlib import suppress
from pathlib import Path

TEMPORARY = ".rillwright-"
"""What the name of every temporary file starts with."""

STALE = ".stale"
"""What is put behind the name of a program that must not be run any more."""


BINARY = getattr(os, "O_BINARY", 0)
"""Where a system would write another end of line than the one given, it is told not to."""


def write_atomic(path: Path, data: bytes) -> None:
    """Put the bytes at `path`, replacing what is there, or leave everything as it was and raise OSError."""
    # A name of its own length would not do: the target's may already be as long as the file system allows.
    temporary = path.parent / f"{TEMPORARY}{secrets.token_hex(8)}.tmp"
    descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | BINARY, 0o666)
    try:
        try:
            _write_all(descriptor, data)
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
        os.replace(temporary, path)
    except BaseException:
        with suppress(OSError):
            temporary.unlink()
        raise
    sync_folder(path.parent)


def _write_all(descriptor: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        view = view[os.write(descriptor, view) :]


def sync_folder(folder: Path) -> None:
    """Make renames in the folder outlast a power cut, where the file system can do that."""
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
        numbered = (stale.with_name(f"{stale.name}.{number}") for number in range(2, 100_000))
        os.replace(stale, next(free for free in numbered if not os.path.lexists(free)))
    os.replace(path, stale)
    sync_folder(path.parent)
    return stale


def _alike(one: Path, other: Path) -> bool:
    try:
        return one.read_bytes() == other.read_bytes()
    except OSError:
        return False


def remove(path: Path) -> None:
    """Take a file away for good, if it is there."""
    with suppress(FileNotFoundError):
        path.unlink()
        sync_folder(path.parent)


def sweep(folder: Path) -> int:
    """Remove temporary files that a killed run left in a folder; how many there were."""
    found = [path for path in folder.glob(f"{TEMPORARY}*.tmp") if path.is_file() and not path.is_symlink()]
    for path in found:
        remove(path)
    return len(found)
