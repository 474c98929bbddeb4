"""Rebuilding a sheet from files: the record, and the program beside it if it is still the one verified."""

import json
from pathlib import Path
from typing import Any

from jinja2 import TemplateError

from extractor.errors import SettingsError
from rillwright.atomic import write_atomic
from rillwright.digest import program_text
from rillwright.jobsheet.inspection import inspection_csv
from rillwright.jobsheet.sheet import render_sheet
from rillwright.jsonform import SCHEMA
from rillwright.outputs import refuse_overwriting, show
from rillwright.spreadsheet import Decimal

Json = dict[str, Any]

FAULTS = (LookupError, TypeError, ValueError, AttributeError, ArithmeticError, TemplateError)
"""What a record with a hole in it can make of the rendering."""


def rebuild_sheet(
    record_file: Path, out: Path | None = None, csv: Path | None = None, decimal: Decimal = "point"
) -> Path:
    """Write the sheet of a record, and its inspection rows to `csv`; where the sheet is now.

    SettingsError where the file is no record; OSError where it can't be read or a file can't be written.
    """
    record = read_record(record_file)
    target = out or record_file.with_suffix(".html")
    refuse_overwriting("--out", target, [record_file], ".html")
    if csv:
        refuse_overwriting("--csv", csv, [record_file, target], ".csv")
    try:
        page, rows = render_sheet(record, _beside(record_file, record)), inspection_csv(record, decimal)
    except FAULTS as error:
        raise SettingsError(f"{show(record_file)} is no whole record: {error!r}; make the drawing again.") from error
    write_atomic(target, page.encode("utf-8", "backslashreplace"))
    if csv:
        write_atomic(csv, rows)
    return target


def read_record(record_file: Path) -> Json:
    """The record in a file; SettingsError where it holds none."""
    try:
        record = json.loads(record_file.read_bytes())
    except (ValueError, RecursionError) as error:
        raise SettingsError(f"{show(record_file)} is no record: give the .json that make wrote.") from error
    if not isinstance(record, dict) or "status" not in record or not isinstance(record.get("part"), dict):
        raise SettingsError(f"{show(record_file)} is no record: give the .json that make wrote.")
    if record.get("schema") != SCHEMA:
        raise SettingsError(
            f"{show(record_file)} is a record of schema {record.get('schema')!r} and this version reads {SCHEMA}: "
            "make the drawing again."
        )
    return record


def _beside(record_file: Path, record: Json) -> str | None:
    """The program that lies beside the record under the name the record gives; None where there is none."""
    name = (record.get("program") or {}).get("file")
    return program_text(record_file.with_name(Path(name).name)) if name else None
