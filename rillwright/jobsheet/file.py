"""Rebuilding a sheet from files: the record, and the program beside it if it is still the one verified."""

from pathlib import Path

from jinja2 import TemplateError

from extractor.errors import SettingsError
from rillwright.atomic import write_atomic
from rillwright.digest import program_text
from rillwright.jobsheet.inspection import inspection_csv
from rillwright.jobsheet.sheet import render_sheet
from rillwright.outputs import refuse_overwriting, show
from rillwright.records.record import Record
from rillwright.records.record_file import read_record
from rillwright.spreadsheet import Decimal

FAULTS = (LookupError, ValueError, ArithmeticError, TemplateError)
"""What figures that are each fine and don't fit together can make of the rendering."""


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
        message = f"{show(record_file)} is not a complete record: {error!r}; make the drawing again."
        raise SettingsError(message) from error
    write_atomic(target, page.encode("utf-8", "backslashreplace"))
    if csv:
        write_atomic(csv, rows)
    return target


def _beside(record_file: Path, record: Record) -> str | None:
    """The program that lies beside the record under the name the record gives; None where there is none."""
    return program_text(record_file.with_name(Path(record.program.file).name)) if record.program else None
