"""A plan as printed: what `make` would do with a drawing, and how two shops compare on it."""

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from extractor.values import dataclass
from rillwright.answers import beside
from rillwright.console import counted, print_findings, print_lines, print_plan
from rillwright.digest import file_digest
from rillwright.outcome import Outcome, work_out
from rillwright.records.record import RecordedPlan
from rillwright.records.record_part import SCHEMA, RecordedFinding, RecordedPart
from rillwright.records.recording import recorded_findings, recorded_part, recorded_plan
from rillwright.settings import Settings
from rillwright.tables import add_row, print_table, table

SAME_TIME = 0.05
"""Seconds that print as none: two times nearer than this are the same."""


@dataclass(frozen=True, kw_only=True)
class PlannedRecord:
    """What would come of a drawing; `blocks` counts those of the program."""

    schema: int = SCHEMA
    status: Literal["planned", "refused"]
    shop: str
    part: RecordedPart
    plan: RecordedPlan | None = None
    blocks: int | None = None
    findings: tuple[RecordedFinding, ...] = ()

    @property
    def made(self) -> bool:
        """True if a program could be made."""
        return self.status == "planned"


def planned(drawing: Path, settings: Settings) -> Outcome:
    """What would come of a drawing; nothing is written."""
    return work_out(drawing, file_digest(drawing), beside(drawing, settings))


def planned_record(outcome: Outcome, settings: Settings) -> PlannedRecord:
    """Part, plan, findings, and how many blocks the program would have."""
    program = outcome.program
    return PlannedRecord(
        status="refused" if program is None else "planned",
        shop=settings.shop_name,
        part=recorded_part(outcome.reading, outcome.sets),
        plan=None if outcome.plan is None else recorded_plan(outcome.plan),
        blocks=None if program is None else block_count(program.text),
        findings=recorded_findings(dict.fromkeys(outcome.findings)),
    )


def block_count(text: str) -> int:
    r"""Lines of a program that say something to the machine: neither empty, nor `%`, nor a comment alone.

    >>> block_count("%\nO0001\n(RING)\nG21\nM30\n%\n")
    3
    """
    lines = (line.strip() for line in text.splitlines())
    return sum(1 for line in lines if line and line != "%" and not line.startswith("("))


def print_planned(planned: PlannedRecord) -> None:
    """One plan: operations, reasons, findings."""
    if planned.plan is not None and planned.plan.operations and planned.part.units is not None:
        print_plan(planned.plan, planned.part.units)
    print_findings(planned.findings)


def print_comparison(plans: Sequence[PlannedRecord]) -> None:
    """Two shops beside each other: blocks, tools, time."""
    shown = table("shop", ">blocks", ">operations", ">tools", ">seconds", "")
    for one in plans:
        if not one.made or one.plan is None:
            add_row(shown, one.shop, "-", "-", "-", "-", "refused")
            continue
        tools = len({operation.tool for operation in one.plan.operations})
        add_row(shown, one.shop, one.blocks, len(one.plan.operations), tools, f"{one.plan.seconds:.1f}", "")
    print_table(shown)
    for one in plans:
        if not one.made:
            print_findings(one.findings)
    print_lines([answer(plans)])


def answer(plans: Sequence[PlannedRecord]) -> str:
    """Which of two shops needs fewer blocks and less time, in a sentence."""
    good = [(one.shop, one.blocks or 0, one.plan.seconds) for one in plans if one.made and one.plan]
    if len(good) < 2:
        return f"Only {good[0][0]} can make it." if good else "Neither shop can make it."
    fewest, fastest = min(good, key=lambda one: one[1]), min(good, key=lambda one: one[2])
    blocks, seconds = abs(good[0][1] - good[1][1]), abs(good[0][2] - good[1][2])
    shorter, faster = f"needs {counted(blocks, 'block')} fewer", f"takes {seconds:.1f} s less"
    if not blocks:
        same = "Both need as many blocks"
        return f"{same}, and {fastest[0]} {faster}." if seconds >= SAME_TIME else f"{same} and take as long."
    if seconds < SAME_TIME:
        return f"{fewest[0]} {shorter}, and both take as long."
    if fewest is fastest:
        return f"{fewest[0]} {shorter} and {faster}."
    return f"{fewest[0]} {shorter}, but {fastest[0]} {faster}."
