"""The record of one drawing: everything that was recognised, planned, written and verified, as plain JSON."""

from dataclasses import asdict
from datetime import UTC, datetime
from typing import Any

from extractor.sheet import Sheet
from planner.plan import Plan
from postproc import restart_blocks
from rillwright.jsonform import SCHEMA, findings_json, part_json, plan_json, verdict_json
from rillwright.outcome import Outcome
from rillwright.record_extra import Stamp, extra_parts
from rillwright.settings import Settings
from rillwright.version import tool_version

Json = dict[str, Any]


def record_json(
    outcome: Outcome, settings: Settings, program_file: str, now: datetime, sheet: Sheet | None = None
) -> Json:
    """The record: `status` made or refused, and `null` for what a refused drawing did not get to.

    `now` is the aware time that the record carries; `sheet` the drawn lines, wanted where a refusal is to be shown.
    """
    program, plan = outcome.program, outcome.plan
    stamp = Stamp(now.astimezone(UTC), tool_version(), settings.digest)
    return {
        "schema": SCHEMA,
        "status": "refused" if program is None else "made",
        "part": part_json(outcome.reading, outcome.sets),
        "plan": None if plan is None else _with_restarts(plan_json(plan), plan, settings, made=program is not None),
        "program": None
        if program is None
        else {"file": program_file, "sha256": program.sha256, "dialect": program.dialect, "number": settings.number},
        "verification": None if outcome.verdict is None else verdict_json(outcome.verdict),
        "findings": findings_json(dict.fromkeys(outcome.findings)),
        "run": run_json(settings),
        "answers": {name: {"value": value, "file": file} for name, (value, file) in outcome.told.items()},
    } | extra_parts(outcome.reading, stamp, plan, outcome.motions if program else (), sheet)


def _with_restarts(form: Json, plan: Plan, settings: Settings, *, made: bool) -> Json:
    """The plan with the blocks by which each operation of a made program is taken up at each of its grooves."""
    if made:
        dialect = settings.spoken(plan.shop)
        for one, operation in zip(form["operations"], plan.operations, strict=True):
            one["restarts"] = [
                {"groove": restart.groove, "blocks": list(restart_blocks(plan, restart, dialect))}
                for restart in operation.restarts
            ]
    return form


def run_json(settings: Settings) -> Json:
    """What this run was told beside the drawing: the shop file's name, changes to it, and answers about the drawing."""
    told = {name: value for name, value in asdict(settings.options).items() if value and name != "answered"}
    told |= {"accept": sorted(settings.options.accept)} if settings.options.accept else {}
    return {"shop": settings.shop_name, "changes": list(settings.changes), "reading": told}


def refusals(record: Json) -> list[str]:
    """The sentences of a record that say why there is no program."""
    return [one["message"] for one in record["findings"] if one["level"] == "stop"]
