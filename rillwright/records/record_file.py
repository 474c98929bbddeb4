"""The record in a file: the one door by which records come in, for sheets, for inserts and for what lies there."""

import json
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any, TypeVar

from extractor.errors import SettingsError
from extractor.values import dataclass
from rillwright.outputs import show
from rillwright.records.jsonform import FormError, from_json
from rillwright.records.record import ProgramFile, Record
from rillwright.records.record_part import SCHEMA

MOST_BYTES = 50_000_000
"""No record is larger."""


@dataclass(frozen=True, kw_only=True)
class Origin:
    """What a record says of two files: the way to the drawing that it was made of, and the program that was written."""

    source: str | None = None
    program: ProgramFile | None = None


def read_record(path: Path) -> Record:
    """The record in a file; SettingsError where it holds none, or a damaged one, OSError where it can't be read."""
    return record_in(_bytes_of(path), show(path))


def record_in(data: bytes, name: str) -> Record:
    """The record in the bytes of a file; SettingsError where they are none."""
    record: Record = _read(Record, data, name)
    return record


def record_beside(path: Path) -> Record | None:
    """The record in a file, None where there is none that can be read."""
    return _beside(Record, path)


def origin_beside(path: Path) -> Origin | None:
    """What the record in a file says of its drawing and its program alone: to read all of it takes far longer."""
    return _beside(Origin, path)


T = TypeVar("T")


def _beside(kind: Callable[..., T], path: Path) -> T | None:
    """The record in a file as this kind, None where there is none that can be read."""
    try:
        # A pipe of that name would be waited for.
        return _read(kind, _bytes_of(path), show(path)) if path.is_file() else None
    except (OSError, SettingsError):
        return None


def _bytes_of(path: Path) -> bytes:
    """What is in the file of a record; SettingsError where that is too much."""
    if path.stat().st_size > MOST_BYTES:
        raise SettingsError(f"{show(path)} is too large for a record.")
    endless = not (path.is_file() or path.is_dir())  # a device or a pipe
    return b"" if endless else path.read_bytes()


@lru_cache(maxsize=1)  # several ask for the same one in turn
def _read(kind: Callable[..., T], data: bytes, name: str) -> T:
    """The record in the bytes of a file as this kind."""
    try:
        document: Any = json.loads(data)
    except (ValueError, RecursionError):
        document = None
    if not isinstance(document, dict) or "status" not in document or not isinstance(document.get("part"), dict):
        raise SettingsError(f"{name} is not a record: give the .json that make wrote.")
    if document.get("schema") != SCHEMA:
        raise SettingsError(
            f"{name} is a record of schema {document.get('schema')!r} and this version reads {SCHEMA}: "
            "make the drawing again."
        )
    try:
        return from_json(kind, document)
    except FormError as error:
        raise SettingsError(f"{name} is not a complete record: {error}; make the drawing again.") from None
