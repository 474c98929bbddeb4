"""`rillwright sheet`: rebuild the job sheet from a record."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import DECIMAL, DRAWING, OUT_FILE, options


@click.command()
@click.argument("record", type=DRAWING)
@click.option("--out", type=OUT_FILE, metavar="OUT.html", help="Where the sheet goes; beside the record if not given.")
@click.option("--csv", type=OUT_FILE, metavar="OUT.csv", help="The inspection table as well, for a spreadsheet.")
@options(DECIMAL)
def sheet(record: Path, out: Path | None, csv: Path | None, decimal: Any) -> None:
    """Rebuild the job sheet from RECORD, the .json that make wrote."""
    from rillwright.console import print_lines
    from rillwright.jobsheet.file import rebuild_sheet
    from rillwright.outputs import show

    print_lines([f"written {show(rebuild_sheet(record, out, csv, decimal))}"])
