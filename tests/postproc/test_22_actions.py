"""What words do, at the edge of each rule: zero settings, tools with an offset word, arcs beside their circle, dwells.

Worked out by hand beside each case; what controls do there is common practice, no source.
"""

import pytest
from support.programs import run_of
from support.tongues import FIVE

from planner.steps import Dwell
from postproc import find_dialect

HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X60. Z5.\n"


def found(text, dialect="two-block", units="mm"):
    """{code: level} of what the interpreter says of a program."""
    named = FIVE.get(dialect) or find_dialect(dialect)
    return {f.code: f.level.value for f in run_of(text, named, units).findings}


@pytest.mark.parametrize(
    ("block", "moved"),
    [
        ("G50 X60. Z5.", False),
        ("G50 X60.", False),
        ("G50 Z5.", False),
        ("G50 X50. Z5.", True),
        ("G50 X60. Z6.", True),
        ("G50 X50.", True),
        ("G50 Z6.", True),
    ],
)
def test_a_zero_is_moved_where_one_axis_is_said_to_stand_elsewhere(block, moved):
    assert ("zero-shift" in found(f"{HEAD}{block}\nM30\n")) is moved


@pytest.mark.parametrize(
    ("word", "stops"),
    [
        ("T99 D99", False),
        ("T100 D3", True),
        ("T3 D100", True),
        ("T3 D3", False),
        ("D100", True),
        ("T3. D3", True),
        ("T3", False),
        ("T99", False),
        ("T100", True),
        ("T3.", True),
    ],
)
def test_a_station_and_an_offset_of_their_own_words_have_two_digits(word, stops):
    text = f"G71\nG90 G95\nT1 D1\n{word}\nG97 S800 M03\nG00 X60. Z5.\nM30\n"
    assert (found(text, "turned-tools").get("tool-word") == "stop") is stops


@pytest.mark.parametrize(
    ("units", "size", "off", "code"),
    [
        ("mm", 5.0, 0.001, None),
        ("mm", 5.0, 0.019, "arc-off-circle"),
        ("mm", 5.0, 0.021, "arc"),
        ("in", 0.2, 0.0001, None),
        ("in", 0.2, 0.0007, "arc-off-circle"),
        ("in", 0.2, 0.0009, "arc"),
    ],
)
def test_an_arc_ends_on_its_circle_up_to_a_fiftieth_of_a_millimetre(units, size, off, code):
    """A quarter about a centre in front of it: its end lies beside the circle by what it is too far out."""
    head = HEAD if units == "mm" else HEAD.replace("G21", "G20").replace("X60. Z5.", "X2.4 Z.2")
    text = f"{head}G00 X{2 * size} Z0.\nG03 X{4 * size + 2 * off:.4f} Z-{size} I0. K-{size} F.1\nM30\n"
    codes = {one for one in found(text, units=units) if one.startswith("arc")}
    assert codes == ({code} if code else set())


@pytest.mark.parametrize(("speed", "code"), [("S800 M03", False), ("S0 M03", True), ("S800 M05", True)])
def test_a_dwell_in_turns_needs_a_spindle_that_turns(speed, code):
    text = f"G21 G99\nT0303\nG97 {speed}\nG00 X60. Z5.\nG04 S3\nM30\n"
    assert ("dwell" in found(text)) is code


def test_a_clamp_of_0_stops_no_spindle():
    """It clamps nothing, so on 60 across 188.5 m/min are 1000 turns a minute: three of them last 180 ms."""
    text = "G21 G99\nT0303\nG50 S0\nG96 S188.5 M03\nG00 X60. Z5.\nG04 S3\nM30\n"
    assert "dwell" not in found(text)
    assert Dwell(180) in run_of(text).steps


@pytest.mark.parametrize(("block", "passes"), [("G73 U2. W1.", 1), ("G73 U2. W1. R1", 1), ("G73 U2. W1. R3", 3)])
def test_a_cycle_beside_a_contour_goes_as_often_as_it_is_told_and_else_once(block, passes):
    contour = "N10 G00 X40.\nG01 Z-20. F.2\nN20 X46."
    text = f"{HEAD}G00 X50. Z2.\n{block}\nG73 P10 Q20 U0 W0 F.2\n{contour}\nM30\n"
    run = run_of(text)
    lines = [m for m in run.motions if m.kind == "feed" and m.x0 == m.x1 and m.z0 - m.z1 > 15_000]
    assert len(lines) == passes
    assert lines[-1].x1 == 40_000


@pytest.mark.parametrize(("block", "ends"), [("G73 U2. R3", {-20_000}), ("G73 W1. R2", {-19_000, -20_000})])
def test_a_way_aside_that_is_not_said_is_none(block, ends):
    contour = "N10 G00 X40.\nG01 Z-20. F.2\nN20 X46."
    text = f"{HEAD}G00 X50. Z2.\n{block}\nG73 P10 Q20 U0 W0 F.2\n{contour}\nM30\n"
    run = run_of(text)
    assert {m.z1 for m in run.motions if m.kind == "feed" and m.x0 == m.x1 and m.z0 - m.z1 > 15_000} == ends


def test_passes_beside_a_contour_come_nearer_by_even_steps():
    """2 on the radius over three passes: 4, 2 and 0 on the diameter."""
    contour = "N10 G00 X40.\nG01 Z-20. F.2\nN20 X46."
    text = f"{HEAD}G00 X50. Z2.\nG73 U2. W0 R3\nG73 P10 Q20 U0 W0 F.2\n{contour}\nM30\n"
    run = run_of(text)
    lines = [m.x1 for m in run.motions if m.kind == "feed" and m.x0 == m.x1]
    assert lines == [44_000, 42_000, 40_000]


@pytest.mark.parametrize(("start", "root", "way"), [(22, 18.16, 1), (16, 21.84, -1)])
def test_passes_of_a_thread_come_from_the_side_that_it_starts_at(start, root, way):
    """0.92 high, its first pass 0.5 deep: that stands 0.42 on the radius before the root, outside and in a bore."""
    text = f"{HEAD}G00 X{start}. Z3.\nG76 P010060 Q100 R0\nG76 X{root} Z-20. P920 Q500 F1.5\nM30\n"
    run = run_of(text)
    passes = [m.x1 for m in run.motions if m.kind == "feed"]
    assert passes[0] == round(1000 * root) + way * 840
    assert passes[-1] == round(1000 * root)
