"""`rillwright history`: what became of the drawings of a watched folder."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import AS_JSON, options


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.argument("name", required=False)
@options(AS_JSON)
def history(folder: Path, name: str | None, as_json: bool) -> None:
    """Print every result in the ledger of DIR, oldest first; with NAME, those of one drawing."""
    from rillwright.console import print_json
    from rillwright.folder.history import entries, print_history
    from rillwright.folder.ledger import Ledger

    with Ledger(folder, create=False) as ledger:
        rows: list[dict[str, Any]] = entries(ledger, name)
    if as_json:
        print_json({"schema": 1, "results": rows})
    else:
        print_history(rows)
