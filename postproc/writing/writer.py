"""Writer: a plan becomes the text of a program in one dialect, or a refusal that names everything it can't say."""

from collections.abc import Collection, Iterator, Sequence
from itertools import groupby

from extractor.errors import ProgramError
from extractor.values import dataclass
from planner.increment import Increments
from planner.plan import Operation, Plan, Restart
from planner.steps import Arc, Cut, Dwell, GrooveCycle, Rapid, Spindle, SpindleClamp, Step, ToolCall
from postproc.dialect import Dialect
from postproc.heading import UNIT_TEXTS, insert_texts, material_texts
from postproc.program import Heading, Program
from postproc.writing.comments import comment_lines
from postproc.writing.frames import Numbering, frame_lines
from postproc.writing.lowering import lower, lowered_parts
from postproc.writing.repeats import Section, shortened
from postproc.writing.spelling import Speller, Unsayable

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
    parts, faults = lowered_parts([plan.before, *(one.steps for one in plan.operations), plan.after], dialect)
    faults += [fault for part in parts for step in part for fault in _nonsense(step)]
    if not 1 <= heading.number <= 9999:
        faults.append(f"program number {heading.number}, which is not between 1 and 9999")
    before, *inner, after = parts
    sections = [Section(before), *(_section(n, one, steps, dialect) for n, (one, steps) in
                                   enumerate(zip(plan.operations, inner, strict=True), 1)), Section(after)]  # fmt: skip
    return _program(sections, faults, _Writing(plan.increments, dialect, heading), list(_head(plan, dialect, heading)))


def write_steps(
    steps: Sequence[Step],
    increments: Increments,
    dialect: Dialect,
    heading: Heading,
    skipped: Collection[int] = (),
) -> Program:
    """The program of steps already lowered, with no heading but the drawing's name. Raises ProgramError.

    `skipped`: the places of steps in the row whose blocks are left out where block skip is on.
    """
    faults = [fault for step in steps for fault in _nonsense(step)]
    head = list(comment_lines(heading.drawing, dialect.frame)) if heading.drawing else []
    runs = groupby(enumerate(steps), key=lambda one: one[0] in skipped)
    sections = [Section(tuple(step for _, step in run), skip=skip) for skip, run in runs]
    return _program(sections, faults, _Writing(increments, dialect, heading), head)


def restart_blocks(plan: Plan, restart: Restart, dialect: Dialect) -> tuple[str, ...]:
    """The blocks that restart an operation at one of its grooves, on a control that knows nothing of the program.

    They stand for the operation's own blocks; the program goes on with the next operation. Raises ProgramError.
    """
    units, speller = plan.increments.units, Speller(dialect, plan.increments)
    opening = frame_lines(dialect.frame.opening, dialect, {"number": "1", "units": dialect.unit_word(units)})
    try:
        blocks = [block for step in lower(restart.steps, dialect) for block in speller.spell(step)]
    except Unsayable as fault:
        raise ProgramError(f"The restart can't be written in {dialect.name}: {fault}.") from fault
    return (*opening, *blocks)


@dataclass(frozen=True)
class _Writing:
    """What one program is written with."""

    increments: Increments
    dialect: Dialect
    heading: Heading


def _section(number: int, operation: Operation, steps: tuple[Step, ...], dialect: Dialect) -> Section:
    """The steps of an operation between the lines that the dialect puts round one."""
    words = {"operation": str(number), "tool": operation.tool.name}
    frame = dialect.frame
    return Section(steps, tuple(frame_lines(frame.operation_start, dialect, words)),
                   tuple(frame_lines(frame.operation_end, dialect, words)), number)  # fmt: skip


def _program(sections: Sequence[Section], faults: list[str], how: _Writing, head: Sequence[str]) -> Program:
    """The text of sections, or the refusal that names all that can't be said."""
    dialect, frame, units = how.dialect, how.dialect.frame, how.increments.units
    speller = Speller(dialect, how.increments)
    blocks, more = shortened(sections, speller, faults, how.heading.number)
    if faults:
        raise ProgramError(f"The plan can't be written in {dialect.name}: {'; '.join(dict.fromkeys(faults))}.")
    words = {"number": str(how.heading.number), "units": dialect.unit_word(units)}
    numbering = Numbering(frame)
    inside = [*frame_lines(frame.opening, dialect, words), *blocks]
    end = list(frame_lines(frame.end, dialect, words))
    tail = [line for line in end if line.startswith("%")]
    lines = [
        *frame_lines(frame.start, dialect, words),
        *head,
        *numbering.lines(inside),
        *numbering.lines(line for line in end if line not in tail),
        *numbering.lines(more),
        *tail,
    ]
    return Program(frame.line_end.join(lines) + frame.line_end, dialect.name, units)


def _head(plan: Plan, dialect: Dialect, heading: Heading) -> Iterator[str]:
    """The comments that say where the program comes from and what it takes for granted."""
    units = plan.increments.units
    texts = [
        heading.drawing,
        f"DRAWING SHA-256 {heading.drawing_sha256[:8]}",
        f"{UNIT_TEXTS[units]} Z0 IS THE FINISHED FRONT FACE.",
        *([] if heading.front is None else [f"Z0 IS {heading.front.words}."]),
        *([f"THE USER ACCEPTED {', '.join(heading.accepted)}."] if heading.accepted else []),
        f"X IS PROGRAMMED AS A {'DIAMETER' if dialect.diameter_x else 'RADIUS'}.",
    ]
    tools = dict.fromkeys(operation.tool for operation in plan.operations)
    texts += material_texts(plan.shop)
    texts += [text for tool in tools for text in insert_texts(tool, Increments.of(units))]
    pecked = any(isinstance(step, GrooveCycle) and step.peck for step in plan.steps)
    if pecked and dialect.cycle is not None and dialect.cycle.retract is None:
        texts.append("RETRACT AFTER EACH PECK IS SET BY THE CONTROL, NOT HERE.")
    for text in (*texts, *PROVE_OUT):
        yield from comment_lines(text, dialect.frame)


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
        case Arc(feed=feed, x=x, z=z, radius=radius):
            checks = [*_small(x, z, radius), (feed > 0, "no feed")]
        case Dwell(milliseconds):
            checks = [(0 < milliseconds <= LARGEST, f"a dwell of {milliseconds} ms")]
        case GrooveCycle():
            checks = [(step.feed > 0, "no feed"), (step.peck > 0, f"a peck of {step.peck}"), (step.retract >= 0, "R<0")]
            checks += _small(step.floor_x, step.end_z, step.peck, step.shift, step.retract)
        case _:
            pass
    return tuple(reason for fine, reason in checks if not fine)


def _small(*counts: int | None) -> list[tuple[bool, str]]:
    """The check that every count fits a word."""
    return [(abs(c) <= LARGEST, f"a length of {c} increments") for c in counts if c is not None]
