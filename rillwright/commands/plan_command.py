"""`rillwright plan`: what would be cut and how, without writing anything; two shops held against each other."""

from dataclasses import replace
from pathlib import Path

from rillwright.allowance import within
from rillwright.atomic import write_atomic
from rillwright.console import print_json, tell_unused
from rillwright.given import for_batch
from rillwright.outcome import Outcome
from rillwright.outputs import refuse_overwriting, show
from rillwright.planned import planned, planned_record, print_comparison, print_planned
from rillwright.plunges import plunges_csv
from rillwright.settings import Settings
from rillwright.spreadsheet import Decimal
from rillwright.toml_file import read_toml_file


def run(
    drawing: Path,
    against: Path | None,
    table: Path | None,
    decimal: Decimal,
    pieces: int | None,
    prefer: str | None,
    settings: Settings,
    as_json: bool,
) -> int:
    """Plan; 0 if a program could be made."""
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
    return 0 if all(one.made for one in shown) else 1


def _write_table(table: Path, outcome: Outcome, decimal: Decimal) -> None:
    """The plunges of a plan as a file; a refused drawing leaves none, nor an older one."""
    if outcome.program is None or outcome.plan is None:
        table.unlink(missing_ok=True)
        return
    write_atomic(table, plunges_csv(outcome.plan, decimal))
