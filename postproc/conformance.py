"""Whether a dialect reads what it writes: every kind of step, in both units, written and read back.

Each row stands in a small program of its own, after a move that places the tool. What the dialect can't say is reported
with the reason; what it says but does not read back as the very same step is a fault of the dialect.
"""

from extractor.errors import ProgramError
from extractor.part import Units
from extractor.values import dataclass
from planner import steps
from planner.increment import Increments
from postproc.codes import ProgramCode
from postproc.dialect import Dialect
from postproc.framed import framed
from postproc.program import Heading
from postproc.reading.interpreter import interpret
from postproc.reading.renaming import parse_as
from postproc.writing.lowering import lower
from postproc.writing.spelling import Speller, Unsayable
from postproc.writing.writer import write_steps

START = steps.Rapid(42_000, -13_000)
BEFORE: tuple[steps.Step, ...] = (
    steps.ToolCall(3, 3),
    steps.SpindleClamp(3_000),
    steps.Spindle("rpm", 500),
    START,
    steps.Cut(800, z=-13_500),
    START,
)
"""What stands before each row, so that it has a tool, a spindle that turns, a feed and a place to begin at."""
HARMLESS = frozenset({ProgramCode.WORK_OFFSET, ProgramCode.ZERO_SHIFT, ProgramCode.OWN_SWITCH})
"""Findings that a row may have of its own nature: it comes after a cut, where a work offset is said too late, or it
holds a word that only the machine knows."""

ROWS: tuple[tuple[str, steps.Step], ...] = (
    ("tool with its offset", steps.ToolCall(12, 7)),
    ("offset cancelled", steps.ToolCall(3, 0)),
    ("spindle clamp", steps.SpindleClamp(2_500)),
    ("constant surface speed", steps.Spindle("surface", 120)),
    ("constant surface speed, counter-clockwise", steps.Spindle("surface", 120, clockwise=False)),
    ("spindle speed", steps.Spindle("rpm", 955)),
    ("spindle speed, counter-clockwise", steps.Spindle("rpm", 955, clockwise=False)),
    ("spindle stop", steps.SpindleStop()),
    ("first gear", steps.Gear(1)),
    ("third gear", steps.Gear(3)),
    ("coolant on", steps.Coolant(True)),
    ("coolant off", steps.Coolant(False)),
    ("rapid along both axes", steps.Rapid(44_000, -20_000)),
    ("rapid along X", steps.Rapid(x=44_500)),
    ("rapid along Z", steps.Rapid(z=-1)),
    ("cut along X", steps.Cut(800, x=34_000)),
    ("cut along Z with a fine feed", steps.Cut(1_234, z=-13_005)),
    ("cut along both axes", steps.Cut(10_000, 30_000, -20_000)),
    ("X of an odd count", steps.Rapid(x=41_999)),
    ("clockwise arc", steps.Arc(feed=500, x=38_000, z=-15_000, radius=2_000, clockwise=True)),
    ("counter-clockwise arc", steps.Arc(feed=500, x=38_000, z=-15_000, radius=2_000, clockwise=False)),
    ("dwell", steps.Dwell(250)),
    ("dwell of a whole number of seconds", steps.Dwell(2_000)),
    (
        "row of grooves toward the chuck",
        steps.GrooveCycle(floor_x=34_000, end_z=-28_000, peck=1_000, shift=5_000, retract=500, feed=800),
    ),
    (
        "row of grooves toward the front face",
        steps.GrooveCycle(floor_x=34_000, end_z=2_000, peck=1_000, shift=5_000, retract=500, feed=800),
    ),
    ("single groove", steps.GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_500, shift=0, retract=500, feed=800)),
    (
        "single groove with no retract",
        steps.GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_500, shift=0, retract=0, feed=800),
    ),
    ("groove in a bore", steps.GrooveCycle(floor_x=50_000, end_z=-13_000, peck=1_000, shift=0, retract=500, feed=800)),
    ("remark", steps.Remark("GROOVES 1-4")),
    ("program stop", steps.Halt(optional=False)),
    ("optional program stop", steps.Halt(optional=True)),
    ("work offset", steps.WorkOffset(1)),
    ("third work offset", steps.WorkOffset(3)),
    ("where the tool stands", steps.Standing(42_000, -13_000)),
    ("feed per minute", steps.FeedMode(per_minute=True)),
    ("reference point along both axes", steps.Home(x=True, z=True)),
    ("reference point along X", steps.Home(x=True, z=False)),
)


@dataclass(frozen=True)
class Conformance:
    """What came of one row: the blocks that say it, or why none can; `fault` where reading back gives another step."""

    what: str
    units: Units
    blocks: tuple[str, ...] = ()
    cannot: str = ""
    fault: str = ""


def conformance(dialect: Dialect) -> tuple[Conformance, ...]:
    """Every row in both units."""
    both: tuple[Units, ...] = ("mm", "in")
    return tuple(row(dialect, what, step, units) for units in both for what, step in rows(dialect))


def rows(dialect: Dialect) -> tuple[tuple[str, steps.Step], ...]:
    """The rows of a dialect: those of all, and one for each switch of its machine's own."""
    own = dict.fromkeys(dialect.own_switches.values())
    return (*ROWS, *((f"own switch: {does}", steps.OwnSwitch(does)) for does in own))


def row(dialect: Dialect, what: str, step: steps.Step, units: Units) -> Conformance:
    """One step written and read back."""
    increments = Increments.of(units)
    lowered = lower((*BEFORE, step), dialect)
    own = lowered[len(BEFORE) :]
    speller = Speller(dialect, increments)
    try:
        for one in lowered[: len(BEFORE)]:
            speller.spell(one)
        blocks = tuple(block for one in own for block in speller.spell(one))
        text = write_steps(lowered, increments, dialect, Heading("", "")).text
    except (Unsayable, ProgramError) as fault:
        return Conformance(what, units, cannot=str(fault))
    try:
        run = interpret(parse_as(text, dialect), dialect, units)
    except ProgramError as fault:
        return Conformance(what, units, blocks, fault=str(fault))
    odd = [finding for finding in run.findings if finding.code not in HARMLESS]
    if odd:
        return Conformance(what, units, blocks, fault=f"line {odd[0].line}: {odd[0].message}")
    round_them = framed(dialect, increments)
    lowered = (*round_them.before, *lowered, *round_them.after)
    if run.steps != lowered or run.units != units:
        found = next((a for a, b in zip(run.steps, lowered, strict=False) if a != b), "steps of another number")
        return Conformance(what, units, blocks, fault=f"it is read back as {found}")
    return Conformance(what, units, blocks)
