"""The bytes of files: those of a plain one, the hash that tells them apart, and a program's bytes as text."""

import hashlib
from pathlib import Path


def plain_bytes(path: Path, most: int) -> bytes:
    """The bytes of a file, one more than `most` at most; OSError where it can't be read.

    A device or a pipe is none: it may have no end, or nobody who writes into it.
    """
    if path.exists() and not (path.is_file() or path.is_dir()):
        raise OSError(None, "it is a pipe or a device; give a file", str(path))
    with path.open("rb") as stream:
        return stream.read(most + 1)


def file_digest(path: Path) -> str:
    """SHA-256 of a file's bytes, of nothing where it can't be read."""
    try:
        if not path.is_file():
            raise OSError
        with path.open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError:
        return hashlib.sha256(b"").hexdigest()


def program_text(program: Path) -> str | None:
    """The program in a file, whatever its bytes; None where there is no plain file."""
    return program.read_bytes().decode("utf-8", "surrogateescape") if program.is_file() else None
