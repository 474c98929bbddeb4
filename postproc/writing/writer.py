"""Writer: a plan becomes the text of a program in one dialect, or a refusal that names everything it can't say."""

from collections.abc import Iterator

from extractor.errors import ProgramError
from planner.plan import Plan
from planner.steps import (
    Arc,
    Coolant,
    Cut,
    Dwell,
    GrooveCycle,
    Rapid,
    Remark,
    Spindle,
    SpindleClamp,
    Step,
    ToolCall,
)
from postproc.dialect import Dialect
from postproc.heading import UNIT_TEXTS, insert_texts
from postproc.program import Heading, Program
from postproc.writing.comments import comment_lines
from postproc.writing.lowering import lowered

PROVE_OUT = (
    "PROVE OUT BEFORE CUTTING. DRY RUN CLEAR OF THE PART,",
    "SINGLE BLOCK, RAPIDS LOW, HAND ON FEED HOLD, GUARDS SHUT.",
    "THE MANUAL OF THE MACHINE AND LOCAL RULES COME FIRST.",
)
LARGEST = 99_999_999
"""Greatest count of a word: eight digits, as controls keep them (common practice)."""


def write_program(plan: Plan, dialect: Dialect, heading: Heading) -> Program:
    """The program of a plan.

    Raises ProgramError if the plan is stopped or empty, or if the dialect can't say a step; every reason is named.
    """
    if plan.stopped or not plan.operations:
        raise ProgramError("There is nothing to write: the plan is stopped by its findings, or has no operation.")
    steps, faults = lowered(plan.steps, dialect)
    faults += [fault for step in steps for fault in (*_nonsense(step), *dialect.cannot(step))]
    if not 1 <= heading.number <= 9999:
        faults.append(f"program number {heading.number}, which is not between 1 and 9999")
    if faults:
        raise ProgramError(f"The plan can't be written in {dialect.name}: {'; '.join(dict.fromkeys(faults))}.")
    lines = [
        "%",
        f"O{heading.number:04d}",
        *_head(plan, dialect, heading),
        dialect.unit_word(plan.increments.units),
        " ".join(dialect.g(act) for act in dialect.opening),
        *(block for step in steps for block in dialect.spell(step, plan.increments)),
        "M30",
        "%",
    ]
    return Program("\n".join(lines) + "\n", dialect.name, plan.increments.units)


def _head(plan: Plan, dialect: Dialect, heading: Heading) -> Iterator[str]:
    """The comments that say where the program comes from and what it takes for granted."""
    units = plan.increments.units
    texts = [
        heading.drawing,
        f"DRAWING SHA-256 {heading.drawing_sha256[:8]}",
        f"{UNIT_TEXTS[units]} Z0 IS THE FINISHED FRONT FACE.",
        *([] if heading.front is None else [f"Z0 IS {heading.front.words}."]),
        f"X IS PROGRAMMED AS A {'DIAMETER' if dialect.diameter_x else 'RADIUS'}.",
    ]
    tools = dict.fromkeys(operation.tool for operation in plan.operations)
    texts += [text for tool in tools for text in insert_texts(tool, plan.increments)]
    if dialect.cycle is not None and dialect.cycle.retract is None:
        texts.append("RETRACT AFTER EACH PECK IS SET BY THE CONTROL, NOT HERE.")
    for text in (*texts, *PROVE_OUT):
        yield from comment_lines(text)


def _nonsense(step: Step) -> tuple[str, ...]:
    """Reasons why a step can't be said in any dialect."""
    checks: list[tuple[bool, str]] = []
    match step:
        case ToolCall(station, offset):
            checks = [(0 < station < 100 and 0 <= offset < 100, f"tool station {station} with offset {offset}")]
        case SpindleClamp(rpm) | Spindle(_, rpm):
            checks = [(0 < rpm < 100_000, f"spindle speed {rpm}")]
        case Rapid(x, z):
            checks = [(x is not None or z is not None, "a rapid along no axis"), *_small(x, z)]
        case Cut(feed, x, z):
            checks = [(x is not None or z is not None, "a cut along no axis"), *_small(x, z), (feed > 0, "no feed")]
        case Arc(feed, x, z, radius):
            checks = [*_small(x, z, radius), (feed > 0, "no feed")]
        case Dwell(milliseconds):
            checks = [(0 < milliseconds <= LARGEST, f"a dwell of {milliseconds} ms")]
        case GrooveCycle():
            checks = [(step.feed > 0, "no feed"), (step.peck > 0, f"a peck of {step.peck}"), (step.retract >= 0, "R<0")]
            checks += _small(step.floor_x, step.end_z, step.peck, step.shift, step.retract)
        case Coolant() | Remark():
            pass
    return tuple(reason for fine, reason in checks if not fine)


def _small(*counts: int | None) -> list[tuple[bool, str]]:
    """The check that every count fits a word."""
    return [(abs(c) <= LARGEST, f"a length of {c} increments") for c in counts if c is not None]
