"""The record in a file: the one door by which records come in, for sheets, for inserts and for what lies there."""

import json
from functools import lru_cache
from pathlib import Path
from typing import Any

from extractor.errors import SettingsError
from rillwright.jsonform import FormError, from_json
from rillwright.outputs import show
from rillwright.record import Record
from rillwright.record_part import SCHEMA

MOST_BYTES = 50_000_000
"""No record is larger."""


def read_record(path: Path) -> Record:
    """The record in a file; SettingsError where it holds none, or a damaged one, OSError where it can't be read."""
    if path.stat().st_size > MOST_BYTES:
        raise SettingsError(f"{show(path)} is too large for a record.")
    endless = not (path.is_file() or path.is_dir())  # a device or a pipe
    return record_in(b"" if endless else path.read_bytes(), show(path))


@lru_cache(maxsize=1)  # several ask for the same one in turn
def record_in(data: bytes, name: str) -> Record:
    """The record in the bytes of a file; SettingsError where they are none."""
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
        return from_json(Record, document)
    except FormError as error:
        raise SettingsError(f"{name} is not a complete record: {error}; make the drawing again.") from None


def record_beside(path: Path) -> Record | None:
    """The record in a file, None where there is none that can be read."""
    try:
        # A pipe of that name would be waited for.
        return read_record(path) if path.is_file() else None
    except (OSError, SettingsError):
        return None
