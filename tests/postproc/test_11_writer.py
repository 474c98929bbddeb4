"""Whole programs: the frame, the comments, the words in their order, and what is refused."""

from dataclasses import replace

import pytest
from support.programs import EVERY_KIND, INSERT, plan_of

from extractor.errors import ProgramError
from extractor.finding import Finding, Level
from planner.codes import PlanCode
from planner.steps import Arc, Cut, Dwell, GrooveCycle, Rapid, Spindle, SpindleClamp, ToolCall
from postproc import Heading, dialects, find_dialect, write_program
from postproc.dialects import OURS, read_dialect, text_of

HEADING = Heading("ring.dxf", "0123456789abcdef", 12)
ALL = [find_dialect(name) for name in ("two-block", "one-block", "plunge")]
HEAD = """\
%
O0012
(RING.DXF)
(DRAWING SHA-256 01234567)
(UNITS MM. Z0 IS THE FINISHED FRONT FACE.)
(X IS PROGRAMMED AS A DIAMETER.)
(SPEEDS AND FEEDS ARE FOR C45.)
(T0303 INSERT 3. WIDE, CORNER RADIUS 0.2)
(T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE)
(T0303 SPINDLE CLOCKWISE)
{retract}(PROVE OUT BEFORE CUTTING. DRY RUN CLEAR OF THE PART,)
(SINGLE BLOCK, RAPIDS LOW, HAND ON FEED HOLD, GUARDS SHUT.)
(THE MANUAL OF THE MACHINE AND LOCAL RULES COME FIRST.)
"""
BODY = """\
G18 G40 G80
{units}
{modes}
G00 X150.
G00 Z100.
T0303
{clamp} S3000
G96 S120 M03
M08
G00 Z-13.
G00 X42.
{grooves}
G00 X150.
G00 Z100.
M09
M30
%
"""
ONE_PLUNGE = "G01 X40.{}\nG00 X41.\nG01 X38.\nG00 X39.\nG01 X36.\nG00 X37.\nG01 X34.\nG00 X42."
"""The feed of the first cut stands (ISO 6983-1)."""
FED = ONE_PLUNGE.format("")
PLUNGES = "\n".join([ONE_PLUNGE.format(" F0.08"), "G00 Z-18.", FED, "G00 Z-23.", FED, "G00 Z-28.", FED, "G00 Z-13."])
TRADE = {"units": "G21", "modes": "G99", "clamp": "G50"}
WHOLE = {
    "two-block": {**TRADE, "grooves": "G75 R0.5\nG75 X34. Z-28. P1000 Q5000 F0.08"},
    "one-block": {**TRADE, "grooves": "G75 X34. Z-28. I1. K5. F0.08"},
    "plunge": {"units": "G71", "modes": "G90 G95", "clamp": "G92", "grooves": PLUNGES},
}


@pytest.mark.parametrize("dialect", ALL, ids=lambda d: d.name)
def test_a_program_from_first_line_to_last(dialect):
    retract = "(RETRACT AFTER EACH PECK IS SET BY THE CONTROL, NOT HERE.)\n" if dialect.name == "one-block" else ""
    wanted = HEAD.format(retract=retract) + BODY.format(**WHOLE[dialect.name])
    program = write_program(plan_of(), dialect, HEADING)
    assert program.text == wanted
    assert (program.dialect, program.units) == (dialect.name, "mm")


@pytest.mark.parametrize("dialect", ALL, ids=lambda d: d.name)
def test_the_same_plan_gives_the_same_bytes(dialect):
    assert write_program(plan_of(), dialect, HEADING) == write_program(plan_of(), dialect, HEADING)


def body(steps, dialect="two-block", units="mm"):
    """The written blocks between the feed mode and the end."""
    lines = write_program(plan_of(steps, units), find_dialect(dialect), HEADING).text.split("\n")
    return lines[next(n for n, line in enumerate(lines) if line in ("G99", "G90 G95")) + 1 : -3]


@pytest.mark.parametrize(("last", "end"), [(-4_250, "Z-0.425"), (-8_250, "Z-0.825")])
def test_the_inch_case_of_two_and_four_grooves(last, end):
    # Common practice, no source: 0.040 in is P400, 0.200 in is Q2000; from Z-0.225 to Z-0.425 are two grooves at
    # 0.200, to Z-0.825 four, with nothing else in the block changed; 1.500 across and 0.050 clear starts at X1.6.
    steps = [
        Rapid(z=-2_250),
        Rapid(x=16_000),
        GrooveCycle(floor_x=13_000, end_z=last, peck=400, shift=2_000, retract=200, feed=400),
    ]
    assert body(steps, units="in") == [
        "G00 Z-0.225",
        "G00 X1.6",
        "G75 R0.02",
        f"G75 X1.3 {end} P400 Q2000 F0.004",
    ]


def test_a_single_groove_names_neither_z_nor_shift():
    steps = [
        Rapid(42_000, -13_000),
        GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=0, retract=500, feed=800),
    ]
    assert body(steps)[-2:] == ["G75 R0.5", "G75 X34. P1000 F0.08"]
    assert body(steps, "one-block")[-1] == "G75 X34. I1. F0.08"


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("dialect", ALL, ids=lambda d: d.name)
def test_every_length_has_a_point_and_every_line_is_plain(dialect, units):
    text = write_program(plan_of(EVERY_KIND, units), dialect, HEADING).text
    assert text.isascii()
    for line in text.split("\n"):
        assert len(line) <= 80
        for word in "" if line.startswith("(") else line.split():
            if word[0] in "XZIKRF":
                assert "." in word
            if word[0] in "PQSTGMO":
                assert word[1:].isdigit()


def test_a_name_that_would_close_its_comment_can_not():
    text = write_program(plan_of(), ALL[0], replace(HEADING, drawing="a) G00 X0 (.dxf")).text
    assert "(A- G00 X0 -.DXF)" in text.split("\n")


def test_every_insert_is_named_with_its_edge():
    near = replace(INSERT, station=5, offset=7, width=2.15, reference="near")
    plan = plan_of(tools=(INSERT,))
    second = replace(plan.operations[0], tool=near)
    text = write_program(replace(plan, operations=(*plan.operations, second)), ALL[0], HEADING).text
    assert "(T0507 INSERT 2.15 WIDE, CORNER RADIUS 0.2)" in text
    assert "(T0507 Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE)" in text


@pytest.mark.parametrize(
    ("change", "lines"),
    [
        (
            {"where": "inside"},
            ("T0303 INSIDE INSERT 3. WIDE, CORNER RADIUS 0.2", "T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE"),
        ),
        (
            {"where": "face"},
            ("T0303 FACE INSERT 3. WIDE, CORNER RADIUS 0.2", "T0303 X IS SET TO THE INNER EDGE, TOWARD THE AXIS"),
        ),
        (
            {"where": "face", "reference": "near"},
            ("T0303 FACE INSERT 3. WIDE, CORNER RADIUS 0.2", "T0303 X IS SET TO THE OUTER EDGE, AWAY FROM THE AXIS"),
        ),
        (
            {"edge": "vee"},
            ("T0303 VEE INSERT 3. WIDE, CORNER RADIUS 0.2", "T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE"),
        ),
        (
            {"edge": "round", "corner_radius": 1.5},
            ("T0303 ROUND INSERT 3. WIDE, CORNER RADIUS 1.5", "T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE"),
        ),
    ],
)
def test_inserts_of_every_kind_are_named_with_the_edge_that_is_set(change, lines):
    text = write_program(plan_of(tools=(replace(INSERT, **change),)), ALL[0], HEADING).text
    assert [f"({line})" in text.split("\n") for line in lines] == [True, True]


def test_nothing_to_write_is_refused():
    with pytest.raises(ProgramError, match="nothing to write"):
        write_program(replace(plan_of(), operations=()), ALL[0], HEADING)
    stop = Finding(Level.STOP, PlanCode.NO_TOOL, "No insert is narrow enough.")
    with pytest.raises(ProgramError, match="stopped"):
        write_program(plan_of(findings=[stop]), ALL[0], HEADING)


@pytest.mark.parametrize(
    ("step", "reason"),
    [
        (ToolCall(100, 1), "tool station 100"),
        (ToolCall(0, 1), "tool station 0"),
        (SpindleClamp(0), "spindle speed 0"),
        (Spindle("rpm", -5), "spindle speed -5"),
        (Rapid(), "a rapid along no axis"),
        (Cut(100), "a cut along no axis"),
        (Cut(0, x=10), "no feed"),
        (Rapid(x=100_000_000), "a length of 100000000 increments"),
        (Arc(feed=0, x=40_000, z=-14_000, radius=1_000, clockwise=True), "no feed"),
        (Arc(feed=800, x=40_000, z=-14_000, radius=0, clockwise=True), "an arc of radius 0 that can't join its ends"),
        (Arc(feed=800, x=40_000, z=-14_000, radius=100_000_000, clockwise=True), "a length of 100000000 increments"),
        (Dwell(0), "a dwell of 0 ms"),
        (GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=0, retract=-1, feed=800), "R<0"),
        (GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=0, retract=1, feed=0), "no feed"),
    ],
)
def test_what_no_dialect_can_say_is_refused(step, reason):
    with pytest.raises(ProgramError, match=reason):
        write_program(plan_of([Rapid(42_000, -13_000), step]), ALL[0], HEADING)


@pytest.mark.parametrize("number", [0, 10_000, -1])
def test_program_numbers_have_four_digits(number):
    with pytest.raises(ProgramError, match=f"program number {number}"):
        write_program(plan_of(), ALL[0], replace(HEADING, number=number))


MUTE = read_dialect('numbers.x = "radius"\n[words]\ndwell = []\nsurface = []\narc_counter = []', "mute")
"""A dialect in radii with no word for dwell and surface speed."""


@pytest.mark.parametrize(("x", "decimals", "said"), [(42_001, 3, False), (42_000, 3, True), (42_001, 4, True)])
def test_an_odd_diameter_needs_one_decimal_more_on_the_radius(x, decimals, said):
    figures = f'numbers.x = "radius"\nnumbers.X.decimals = {{ mm = {decimals}, in = 5 }}\n'
    tongue = read_dialect(figures, "radii")
    steps = [Rapid(42_000, 0), Rapid(x)]
    if said:
        assert f"X{x / 2000:g}" in write_program(plan_of(steps), tongue, HEADING).text.replace("21.\n", "21\n")
        return
    with pytest.raises(ProgramError, match=r"half an increment on the radius \(42\.001 across\)"):
        write_program(plan_of(steps), tongue, HEADING)


def test_everything_a_dialect_has_no_word_for_is_named_in_one_sentence():
    counter = Arc(feed=800, x=40_000, z=1_000, radius=1_000, clockwise=False)
    steps = [Rapid(42_001, 0), Rapid(42_000), counter, replace(counter, x=41_001, clockwise=True), Dwell(100)]
    steps.append(Spindle("surface", 100))
    with pytest.raises(ProgramError) as caught:
        write_program(plan_of(steps), MUTE, HEADING)
    message = str(caught.value)
    assert "half an increment on the radius (42.001 across); if the control takes a finer X, give it more" in message
    assert "no word for counter-clockwise arc" in message
    assert "no word for clockwise arc" not in message
    assert "no word for dwell" in message
    assert "no word for constant surface speed" in message


def test_a_dialect_in_radii_halves_x():
    text = write_program(plan_of([Rapid(42_000, -13_000), Cut(800, x=34_000)]), MUTE, HEADING).text
    assert "(X IS PROGRAMMED AS A RADIUS.)" in text
    assert "G00 X21. Z-13.\nG01 X17. F0.08" in text


def test_no_dialect_is_longer_than_a_page():
    assert set(OURS) == set(dialects(()))
    assert all(len(text_of(name).splitlines()) <= 40 for name in OURS)
