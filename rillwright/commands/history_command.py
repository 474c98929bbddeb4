"""`rillwright history`: what became of the drawings of a watched folder."""

from pathlib import Path

from rillwright.console import print_json
from rillwright.folder.history import entries, print_history
from rillwright.folder.ledger import Ledger


def run(folder: Path, name: str | None, as_json: bool) -> int:
    """Print the results."""
    with Ledger(folder, create=False) as ledger:
        rows = entries(ledger, name)
    if as_json:
        print_json({"schema": 1, "results": rows})
    else:
        print_history(rows)
    return 0
