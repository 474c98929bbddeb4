"""The bytes of files: the hash that tells them apart, and a program's bytes as text."""

import hashlib
from pathlib import Path


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
