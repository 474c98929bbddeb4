"""`rillwright dialects`: the control dialects at hand, with what each supports."""

from typing import Any

import click

from rillwright.options import AS_JSON, options


@click.command()
@options(AS_JSON)
def dialects(as_json: bool) -> None:
    """List the control dialects that programs can be written and read in."""
    from postproc import dialects as at_hand
    from rillwright.console import print_dialects, print_json

    rows: list[dict[str, Any]] = [
        {"name": name, "title": dialect.title, "supports": dialect.summary} for name, dialect in at_hand().items()
    ]
    if as_json:
        print_json({"schema": 1, "dialects": rows})
    else:
        print_dialects(rows)
