"""`rillwright dialects`: the control dialects at hand, a new dialect file, and the check of one."""

import re
from pathlib import Path
from typing import Any

import click

from rillwright.options import AS_JSON, DRAWING, options


@click.command()
@click.option("--new", "new", metavar="NAME", help="Print a commented dialect file to begin with.")
@click.option("--check", "check", type=DRAWING, metavar="FILE", help="Check a file of yours: every fault is named.")
@options(AS_JSON)
def dialects(new: str | None, check: Path | None, as_json: bool) -> None:
    """List the control dialects that programs can be written and read in.

    With --check every step is written by the file and read back: it ends with 0 if each that the dialect says comes
    back as it was written, 1 if one does not, 2 if the file is at fault.
    """
    if new is not None and check is not None:
        raise click.UsageError("give --new or --check, not both.")
    if new is not None:
        _print_new(new)
    elif check is not None:
        raise SystemExit(_check(check, as_json))
    else:
        _list(as_json)


def _list(as_json: bool) -> None:
    """All that are at hand; those of other packages that are broken go to standard error."""
    from postproc import dialects as at_hand
    from postproc.dialects import broken
    from rillwright.console import print_dialects, print_json

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
    from postproc.dialects import blank_text

    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_-]{0,40}", name):
        raise click.UsageError(f"{name!r} is not a name for a dialect: use letters, digits and hyphens.")
    click.echo(blank_text(name), nl=False)


def _check(path: Path, as_json: bool) -> int:
    """The conformance table of a file."""
    from postproc.conformance import conformance
    from postproc.dialects import read_dialect
    from rillwright.console import print_conformance, print_json
    from rillwright.outputs import show
    from rillwright.tongues import read_file

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
