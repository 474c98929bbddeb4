"""Plans and programs from a few steps or blocks, for tests of the writer, the reader and the interpreter."""

from planner.increment import Increments
from planner.plan import Operation, Plan
from planner.shop import Material
from planner.steps import Arc, Coolant, Cut, Dwell, GrooveCycle, Rapid, Remark, Spindle, SpindleClamp, Step, ToolCall
from postproc import find_dialect, interpret, parse_program
from postproc.reading.run import Run
from support.moves import shop, tool

INSERT = tool(corner_radius=0.2)
FOUR_GROOVES: tuple[Step, ...] = (
    Rapid(150_000),
    Rapid(z=100_000),
    ToolCall(3, 3),
    SpindleClamp(3000),
    Spindle("surface", 120),
    Coolant(True),
    Rapid(z=-13_000),
    Rapid(42_000),
    GrooveCycle(floor_x=34_000, end_z=-28_000, peck=1_000, shift=5_000, retract=500, feed=800),
    Rapid(150_000),
    Rapid(z=100_000),
    Coolant(False),
)
"""Four grooves 3 wide at a pitch of 5 in a bar of 40, floors at 34, in mm."""
EVERY_KIND: tuple[Step, ...] = (
    *FOUR_GROOVES[:8],
    Remark("grooves 1-4"),
    FOUR_GROOVES[8],
    Cut(500, x=39_000),
    Dwell(250),
    Cut(500, z=-12_000),
    Arc(feed=500, x=37_000, z=-13_000, radius=1_000, clockwise=True),
    Arc(feed=500, x=39_000, z=-14_000, radius=1_001, clockwise=False),
    Spindle("rpm", 800, clockwise=False),
    *FOUR_GROOVES[9:],
)


def shop_of(units="mm", tools=(INSERT,)):
    """A shop with these inserts."""
    steel = Material("C45", 120.0, 2100.0)
    return shop(*tools, units=units, material=steel, tolerance=0.02, home_x=150.0, coolant=True)


def plan_of(steps=FOUR_GROOVES, units="mm", tools=(INSERT,), findings=()):
    """A plan of one operation with these steps."""
    operation = Operation((1,), tools[0], "cycle", 0, 0, tuple(steps), 1.0)
    return Plan(Increments.of(units), shop_of(units, tools), (), (), (operation,), (), 1.0, tuple(findings))


def run_of(text, dialect="two-block", units="mm", **how) -> Run:
    """Interpret a text; `dialect`: one, or the name of a built-in one."""
    return interpret(parse_program(text), find_dialect(dialect) if isinstance(dialect, str) else dialect, units, **how)


def run_behind(head, body, dialect="two-block", **how) -> Run:
    """Interpret blocks behind a head, with the end of the program behind them."""
    return run_of(f"{head}{body}\nM30\n", dialect, **how)


def codes(run):
    """Codes of the findings with their lines."""
    return [(finding.code, finding.line) for finding in run.findings]
