"""`rillwright sheet`: rebuild the job sheet from a record."""

from pathlib import Path

from rillwright.console import print_lines
from rillwright.jobsheet.file import rebuild_sheet
from rillwright.outputs import show
from rillwright.spreadsheet import Decimal


def run(record: Path, out: Path | None, csv: Path | None, decimal: Decimal) -> int:
    """Write the sheet."""
    print_lines([f"written {show(rebuild_sheet(record, out, csv, decimal))}"])
    return 0
