"""One table of (dialect, step, text) for both directions: the writer spells the step so, the reader finds it again.

A new dialect adds its rows here. `START` is where the tool stands before each row.
"""

from typing import get_args

import pytest
from support.programs import run_of

from planner.increment import Increments
from planner.steps import (
    Arc,
    Coolant,
    Cut,
    Dwell,
    FeedMode,
    Gear,
    GrooveCycle,
    Halt,
    Home,
    OwnSwitch,
    Rapid,
    Remark,
    Spindle,
    SpindleClamp,
    SpindleStop,
    Standing,
    Step,
    ToolCall,
    WorkOffset,
)
from postproc import dialects, find_dialect, lower
from postproc.vocabulary.acts import Act
from postproc.writing.frames import frame_lines
from postproc.writing.spelling import Speller

TRADE = ("two-block", "one-block")
MIXED = ("two-block-mixed", "one-block-mixed")
ISO = ("two-block-iso", "one-block-iso")
ALL = (*TRADE, "plunge", *MIXED, *ISO)
THREE = (*TRADE, "plunge")
TWO = tuple(name for name in ALL if name.startswith("two"))
ONE = tuple(name for name in ALL if name.startswith("one"))
START = (42_000, -13_000)


def arc(feed, x, z, radius, clockwise):
    return Arc(feed=feed, x=x, z=z, radius=radius, clockwise=clockwise)


def cycle(floor_x, end_z, peck, shift, retract, feed):
    return GrooveCycle(floor_x=floor_x, end_z=end_z, peck=peck, shift=shift, retract=retract, feed=feed)


ROWS = [
    # dialects, step, text (every dialect that is named spells it so, in mm)
    (ALL, ToolCall(3, 3), "T0303"),
    (ALL, ToolCall(12, 7), "T1207"),
    (ALL, ToolCall(3, 0), "T0300"),
    (TRADE, SpindleClamp(3000), "G50 S3000"),
    (("plunge", *MIXED, *ISO), SpindleClamp(3000), "G92 S3000"),
    (ALL, Spindle("surface", 120), "G96 S120 M03"),
    (ALL, Spindle("surface", 120, clockwise=False), "G96 S120 M04"),
    (ALL, Spindle("rpm", 955), "G97 S955 M03"),
    (ALL, Spindle("rpm", 955, clockwise=False), "G97 S955 M04"),
    (ALL, Coolant(True), "M08"),
    (ALL, Coolant(False), "M09"),
    (ALL, Rapid(42_000, -13_000), "G00 X42. Z-13."),
    (ALL, Rapid(x=42_500), "G00 X42.5"),
    (ALL, Rapid(z=1), "G00 Z0.001"),
    (ALL, Rapid(z=0), "G00 Z0."),
    (ALL, Cut(800, x=34_000), "G01 X34. F0.08"),
    (ALL, Cut(1_234, z=-13_005), "G01 Z-13.005 F0.1234"),
    (ALL, Cut(10_000, 30_000, -20_000), "G01 X30. Z-20. F1."),
    (ALL, arc(500, 38_000, -15_000, 2_000, clockwise=True), "G02 X38. Z-15. R2. F0.05"),
    (ALL, arc(500, 38_000, -15_000, 2_000, clockwise=False), "G03 X38. Z-15. R2. F0.05"),
    (ALL, arc(800, 42_000, -13_001, 1, clockwise=True), "G02 X42. Z-13.001 R0.001 F0.08"),
    (ALL, arc(1, 0, -34_000, 21_000, clockwise=False), "G03 X0. Z-34. R21. F0.0001"),
    ((*TWO, *ONE), Dwell(250), "G04 P250"),
    (("plunge",), Dwell(250), "G04 X0.25"),
    (("plunge",), Dwell(2_000), "G04 X2."),
    (ALL, Remark("GROOVES 1-4"), "(GROOVES 1-4)"),
    (TWO, cycle(34_000, -28_000, 1_000, 5_000, 500, 800),
     "G75 R0.5\nG75 X34. Z-28. P1000 Q5000 F0.08"),
    (TWO, cycle(34_000, -13_000, 1_500, 0, 0, 800), "G75 R0.\nG75 X34. P1500 F0.08"),
    (TWO, cycle(34_000, 2_000, 1, 5_000, 1, 1), "G75 R0.001\nG75 X34. Z2. P1 Q5000 F0.0001"),
    (ONE, cycle(34_000, -28_000, 1_000, 5_000, 0, 800), "G75 X34. Z-28. I1. K5. F0.08"),
    (ONE, cycle(34_000, -13_000, 1_500, 0, 0, 800), "G75 X34. I1.5 F0.08"),
    (ALL, SpindleStop(), "M05"),
    (ALL, Gear(1), "M40"),
    (ALL, Gear(3), "M42"),
    (ALL, Halt(optional=False), "M00"),
    (ALL, Halt(optional=True), "M01"),
    (ALL, WorkOffset(1), "G54"),
    (ALL, WorkOffset(3), "G56"),
    ((*TWO, *ONE), Home(x=True, z=True), "G28 U0. W0."),
    ((*TWO, *ONE), Home(x=True, z=False), "G28 U0."),
    (TRADE, Standing(42_000, -13_000), "G50 X42. Z-13."),
    (("plunge", *MIXED, *ISO), Standing(42_000, -13_000), "G92 X42. Z-13."),
    (TRADE, FeedMode(per_minute=True), "G98"),
    (("plunge", *MIXED, *ISO), FeedMode(per_minute=True), "G94"),
]  # fmt: skip
TABLE = [pytest.param(name, step, text, id=f"{name}: {text}") for names, step, text in ROWS for name in names]


@pytest.mark.parametrize(("name", "step", "text"), TABLE)
def test_the_writer_spells_it_so(name, step, text):
    dialect = find_dialect(name)
    assert "\n".join(Speller(dialect, Increments.of("mm"), *START).spell(step)) == text


@pytest.mark.parametrize(("name", "step", "text"), TABLE)
def test_the_reader_finds_it_again(name, step, text):
    dialect = find_dialect(name)
    opening = frame_lines(dialect.frame.opening, dialect, {"units": dialect.unit_word("mm")})
    lines = [*opening, "G00 X42. Z-13.", "G01 F0.05"]
    run = run_of("\n".join([*lines, text, "M30"]), name)
    assert run.steps[1:] == (step,)
    assert {finding.code for finding in run.findings} <= {"work-offset"}
    assert run.step_lines[1:] == (len(lines) + text.count("\n") + 1,)


@pytest.mark.parametrize(("name", "step", "text"), TABLE)
def test_the_row_is_in_the_form_that_lower_gives(name, step, text):
    assert lower([step], find_dialect(name), START) == (step,)


def test_every_step_has_a_row_in_every_dialect_that_can_say_it():
    # What the words of a machine's own do only a file of the shop's can say.
    kinds = set(get_args(Step)) - {OwnSwitch}
    for name, dialect in dialects(()).items():
        has = {type(step) for names, step, _ in ROWS if name in names}
        assert has == kinds - (set() if dialect.says(Act.GROOVE) else {GrooveCycle, Home}), name


HABITS = [
    # dialects, as a person may write it, step
    (THREE, "g0x42.z-13.", Rapid(42_000, -13_000)),
    (THREE, "G00X42.0Z-13.000", Rapid(42_000, -13_000)),
    (THREE, "G000 X+42. Z-13.", Rapid(42_000, -13_000)),
    (THREE, "X42.", Rapid(x=42_000)),
    (THREE, "N5 G0 X.5", Rapid(x=500)),
    (THREE, "G0 X-.5", Rapid(x=-500)),
    (THREE, "/G00 X42.", Rapid(x=42_000)),
    (THREE, "G00 X 42. (to the start)", Rapid(x=42_000)),
    (THREE, "Z-13. G00 ; first groove", Rapid(z=-13_000)),
    (THREE, "G00 W-2.", Rapid(z=-15_000)),
    (THREE, "G00 U-2. W5.", Rapid(40_000, -8_000)),
    (THREE, "G1 X34. F.08", Cut(800, x=34_000)),
    (THREE, "F.08 X34. G1", Cut(800, x=34_000)),
    (THREE, "G01 U-8. F0.0800", Cut(800, x=34_000)),
    (THREE, "G40 G01 X34. F.08", Cut(800, x=34_000)),
    (THREE, "G2X38.Z-15.R2.F.05", arc(500, 38_000, -15_000, 2_000, clockwise=True)),
    (THREE, "F.05 R2.0 Z-15. X38. G03", arc(500, 38_000, -15_000, 2_000, clockwise=False)),
    (THREE, "G02 U-4. W-2. R2. F.05", arc(500, 38_000, -15_000, 2_000, clockwise=True)),
    (THREE, "G02 W-2. R2. F.05", arc(500, 42_000, -15_000, 2_000, clockwise=True)),
    (THREE, "G03 X38. R2. F.05", arc(500, 38_000, -13_000, 2_000, clockwise=False)),
    (THREE, "T303", ToolCall(3, 3)),
    (THREE, "t0303", ToolCall(3, 3)),
    (THREE, "M3 S955 G97", Spindle("rpm", 955)),
    (THREE, "S955 M3", Spindle("rpm", 955)),
    (THREE, "M7", Coolant(True)),
    (THREE, "G4 P250", Dwell(250)),
    (THREE, "G4 X.25", Dwell(250)),
    (THREE, "G4 U0.25", Dwell(250)),
    (TRADE, "G92 S3000", SpindleClamp(3000)),
    (("plunge",), "G50 S3000", SpindleClamp(3000)),
    (("plunge",), "G91 G01 X-8. F.08", Cut(800, x=34_000)),
    (("two-block",), "G75 R.5\nG75 U-8. W-15. P1000 Q5000 F.08", cycle(34_000, -28_000, 1_000, 5_000, 500, 800)),
    (("two-block",), "G75 R500\nG75 X34. Z-13. P01000 F.08", cycle(34_000, -13_000, 1_000, 0, 500, 800)),
    (("two-block",), "G75 R.5\nG75 X34. Z-28. P1000 Q5000 R0 F.08",
     cycle(34_000, -28_000, 1_000, 5_000, 500, 800)),
    (("one-block",), "G75 U-8. W-15. I1.0 K5.0 F.08", cycle(34_000, -28_000, 1_000, 5_000, 0, 800)),
]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "text", "step"),
    [pytest.param(name, text, step, id=f"{name}: {text}") for names, text, step in HABITS for name in names],
)
def test_habits_are_read(name, text, step):
    units, mode = ("G71", "G95") if "G91" in text else ("G21", "" if "G92" in text else "G99")
    run = run_of(f"{units}\n{mode}\nG97 G01 F0.05\nG00 X42. Z-13.\n{text}\nM30", name)
    assert run.steps[1:] == (step,)
    assert not run.findings
