"""`rillwright plan`: what would be cut and how, without writing anything; two shops held against each other."""

from pathlib import Path
from typing import Any

import click

from rillwright.options import (
    ALLOWANCE,
    AS_JSON,
    DECIMAL,
    DRAWING,
    OUT_FILE,
    PIECES,
    PREFER,
    READING,
    SHOP,
    for_batch,
    options,
)


@click.command()
@click.argument("drawing", type=DRAWING)
@click.option(
    "--against",
    type=DRAWING,
    metavar="FILE",
    help="A second shop file, to see which of the two needs fewer blocks and less time.",
)
@click.option("--csv", "table", type=OUT_FILE, metavar="OUT.csv", help="Every plunge as a row of a table.")
@options(DECIMAL, PIECES, PREFER, SHOP, READING, ALLOWANCE, AS_JSON)
def plan(
    drawing: Path,
    against: Path | None,
    table: Path | None,
    decimal: Any,
    pieces: int | None,
    prefer: str | None,
    settings: Any,
    as_json: bool,
) -> None:
    """Print the operations planned for a drawing, and why; nothing is written.

    Ends with 0 if a program could be made, 1 if it would be refused.
    """
    from dataclasses import replace

    from rillwright.allowance import within
    from rillwright.console import print_json, tell_unused
    from rillwright.outputs import refuse_overwriting, show
    from rillwright.planned import planned, planned_record, print_comparison, print_planned
    from rillwright.toml_file import read_toml_file

    settings = for_batch(settings, pieces, prefer)
    settings.check()
    if table is not None:
        refuse_overwriting("--csv", table, settings.files(drawing, against), ".csv")
    with within(settings.allowance):
        outcome = planned(drawing, settings)
    if table is not None:
        _write_table(table, outcome, decimal)
    shown = [planned_record(outcome, settings)]
    if against is not None:
        other = replace(settings, shop_text=read_toml_file(against), shop_name=show(against))
        other.check()
        with within(settings.allowance):
            shown.append(planned_record(planned(drawing, other), other))
    tell_unused(settings.options.accept, [one for plan in shown for one in plan.findings])
    if as_json:
        print_json({"schema": 1, "plans": shown} if against else shown[0])
    elif against:
        print_comparison(shown)
    else:
        print_planned(shown[0])
    raise SystemExit(0 if all(one.made for one in shown) else 1)


def _write_table(table: Path, outcome: Any, decimal: Any) -> None:
    """The plunges of a plan as a file; a refused drawing leaves none, nor an older one."""
    from rillwright.atomic import write_atomic
    from rillwright.plunges import plunges_csv

    if outcome.program is None or outcome.plan is None:
        table.unlink(missing_ok=True)
        return
    write_atomic(table, plunges_csv(outcome.plan, decimal))
