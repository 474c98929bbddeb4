"""`rillwright dialects`: the control dialects at hand, a new dialect file, and the check of one."""

import re
from pathlib import Path
from typing import Any

import click

from postproc import dialects as at_hand
from postproc.conformance import conformance
from postproc.dialects import blank_text, broken, read_dialect
from rillwright.console import print_conformance, print_dialects, print_json
from rillwright.outputs import show
from rillwright.tongues import read_file


def run(new: str | None, check: Path | None, as_json: bool) -> int:
    """List the dialects, or print or check one; 0 if all is right."""
    if new is not None and check is not None:
        raise click.UsageError("give --new or --check, not both.")
    if new is not None:
        _print_new(new)
    elif check is not None:
        return _check(check, as_json)
    else:
        _list(as_json)
    return 0


def _list(as_json: bool) -> None:
    """All that are at hand; those of other packages that are broken go to standard error."""
    rows: list[dict[str, Any]] = [
        {"name": name, "title": dialect.title, "supports": dialect.summary} for name, dialect in at_hand().items()
    ]
    faults = broken()
    for sentence in faults.values():
        click.echo(sentence, err=True)
    if as_json:
        told = [{"name": name, "message": sentence} for name, sentence in faults.items()]
        print_json({"schema": 1, "dialects": rows, "broken": told})
    else:
        print_dialects(rows)


def _print_new(name: str) -> None:
    """A commented file of that name."""
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_-]{0,40}", name):
        raise click.UsageError(f"{name!r} is not a name for a dialect: use letters, digits and hyphens.")
    click.echo(blank_text(name), nl=False)


def _check(path: Path, as_json: bool) -> int:
    """The conformance table of a file."""
    name, text = read_file(path)
    dialect = read_dialect(text, name, show(path))
    told = conformance(dialect)
    if as_json:
        rows = [
            {
                "step": one.what,
                "units": one.units,
                "blocks": list(one.blocks),
                "cannot": one.cannot or None,
                "fault": one.fault or None,
            }
            for one in told
        ]
        print_json({"schema": 1, "dialect": name, "conforms": not any(one.fault for one in told), "rows": rows})
    else:
        print_conformance(dialect.title, told)
    return 1 if any(one.fault for one in told) else 0
