"""A plan for the eye: what `make` would do with a drawing, and how two shops compare at it."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from rillwright.answers import beside
from rillwright.console import counted, print_findings, print_lines, print_plan
from rillwright.digest import file_digest
from rillwright.jsonform import findings_json, part_json, plan_json
from rillwright.outcome import Outcome, work_out
from rillwright.settings import Settings
from rillwright.tables import add_row, print_table, table

Json = dict[str, Any]


def planned(drawing: Path, settings: Settings) -> Outcome:
    """What would come of a drawing; nothing is written."""
    return work_out(drawing, file_digest(drawing), beside(drawing, settings))


def planned_json(outcome: Outcome, settings: Settings) -> Json:
    """Part, plan, findings, and how many blocks the program would have."""
    program = outcome.program
    return {
        "schema": 1,
        "status": "refused" if program is None else "planned",
        "shop": settings.shop_name,
        "part": part_json(outcome.reading, outcome.sets),
        "plan": None if outcome.plan is None else plan_json(outcome.plan),
        "blocks": None if program is None else block_count(program.text),
        "findings": findings_json(dict.fromkeys(outcome.findings)),
    }


def block_count(text: str) -> int:
    r"""Lines of a program that say something to the machine: neither empty, nor `%`, nor a comment alone.

    >>> block_count("%\nO0001\n(RING)\nG21\nM30\n%\n")
    3
    """
    lines = (line.strip() for line in text.splitlines())
    return sum(1 for line in lines if line and line != "%" and not line.startswith("("))


def print_planned(planned: Json) -> None:
    """One plan: operations, reasons, findings."""
    if planned["plan"] is not None and planned["plan"]["operations"]:
        print_plan(planned["plan"], planned["part"]["units"])
    print_findings(planned["findings"])


def print_comparison(plans: Sequence[Json]) -> None:
    """Two shops beside each other: blocks, tools, time."""
    shown = table("shop", ">blocks", ">operations", ">tools", ">seconds", "")
    for one in plans:
        if one["status"] != "planned":
            add_row(shown, one["shop"], "-", "-", "-", "-", "refused")
            continue
        operations = one["plan"]["operations"]
        tools = len({operation["tool"] for operation in operations})
        add_row(shown, one["shop"], one["blocks"], len(operations), tools, f"{one['plan']['seconds']:.1f}", "")
    print_table(shown)
    for one in plans:
        if one["status"] != "planned":
            print_findings(one["findings"])
    print_lines([answer(plans)])


def answer(plans: Sequence[Json]) -> str:
    """Which of two shops needs fewer blocks and less time, in a sentence."""
    good = [one for one in plans if one["status"] == "planned"]
    if len(good) < 2:
        return f"Only {good[0]['shop']} can make it." if good else "Neither shop can make it."
    fewest = min(good, key=lambda one: one["blocks"])
    fastest = min(good, key=lambda one: one["plan"]["seconds"])
    blocks = abs(good[0]["blocks"] - good[1]["blocks"])
    seconds = abs(good[0]["plan"]["seconds"] - good[1]["plan"]["seconds"])
    shorter, faster = f"needs {counted(blocks, 'block')} fewer", f"takes {seconds:.1f} s less"
    if not blocks:
        same = "Both need as many blocks"
        return f"{same}, and {fastest['shop']} {faster}." if seconds >= 0.05 else f"{same} and take as long."
    if seconds < 0.05:
        return f"{fewest['shop']} {shorter}, and both take as long."
    if fewest is fastest:
        return f"{fewest['shop']} {shorter} and {faster}."
    return f"{fewest['shop']} {shorter}, but {fastest['shop']} {faster}."
