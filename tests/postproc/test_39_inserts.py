"""Which insert a program was written for, by shop file, heading or what lies beside it; never an invented one."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.moves import shop as shop_of
from support.moves import tool as tool_of
from support.parts import part_of, row

from extractor.finding import Level
from planner import default_shop, parse_shop, plan_part
from planner.increment import Increments
from postproc import Heading, compare_program, dialects, explain, parse_program, write_program
from postproc.heading import UNIT_TEXTS, insert_texts, said_inserts
from postproc.vocabulary.forms import ProgramFrame
from postproc.writing.comments import comment_lines

PART = part_of(row(4, -10, 5, 3, 34))
NO_SHOP = default_shop("mm")
HAND = "O1\n(RING, T0303 GROOVING 3MM)\nG21 G99\nT0303\nG97 S900 M03\nG00 X42. Z-13.\nG75 R.5\n"
HAND += "G75 X34. Z-28. P1000 Q5000 F.08\nG00 X100.\nZ50.\nM30\n"


def ours(dialect="two-block", **insert):
    """A program of our own for the part, written for the shop's own insert."""
    plan = plan_part(PART, shop_of(tool_of(**insert)))
    assert not plan.stopped
    return write_program(plan, dialects()[dialect], Heading("ring.dxf", "0" * 64)).text


def heading_of(tool, units, width=60):
    """The comments of a heading about one tool, folded to a width."""
    texts = (f"{UNIT_TEXTS[units]} Z0 IS THE FINISHED FRONT FACE.", *insert_texts(tool, Increments.of(units)))
    return "\n".join(line for text in texts for line in comment_lines(text, ProgramFrame(width=width))) + "\nG21\nM30\n"


tools = st.builds(
    lambda width, share, **rest: replace(
        tool_of(), width=width / 1000, corner_radius=round(width * share / 2) / 1000, **rest
    ),
    st.integers(300, 15_000),
    st.floats(0, 0.99),
    station=st.integers(1, 99),
    offset=st.integers(1, 99),
    reference=st.sampled_from(["near", "far"]),
    where=st.sampled_from(["outside", "inside", "face"]),
    edge=st.sampled_from(["square", "vee", "round"]),
    angle=st.integers(30, 120).map(float),
)


@given(
    tools,
    st.sampled_from(["mm", "in"]),
    st.sampled_from([str, str.lower, lambda text: text.replace(" ", "")]),
    st.sampled_from([60, 24, 8]),
)
def test_what_is_written_is_read_again(tool, units, transfer, width):
    (said,) = said_inserts(parse_program(transfer(heading_of(tool, units, width))))
    assert (said.name, said.where, said.edge, said.reference) == (tool.name, tool.where, tool.edge, tool.reference)
    assert said.width == pytest.approx(tool.width, abs=1e-9)
    assert said.corner_radius == pytest.approx(tool.corner_radius, abs=1e-9)
    assert said.units == units
    if tool.edge == "vee":
        assert said.angle == tool.angle


@pytest.mark.parametrize("edge", ["near", "far"])
@pytest.mark.parametrize("dialect", sorted(dialects()))
def test_our_own_program_is_judged_by_its_heading(dialect, edge):
    text = ours(dialect, width=2.5, reference=edge)
    assert "T0303 INSERT 2.5 WIDE" in text
    found = compare_program(PART, text, NO_SHOP)
    assert found.agree
    assert not [f for f in found.findings if f.code not in ("reach-unknown", "coolant-off")]
    with_shop = compare_program(PART, text, shop_of(tool_of(width=2.5, reference=edge)))
    assert found.matches == with_shop.matches


def test_a_change_of_such_a_program_shows():
    found = compare_program(PART, ours(width=2.5).replace("X34.", "X33.9"), NO_SHOP)
    assert not found.agree
    assert all(match.program is not None for match in found.matches)


def test_a_hand_program_is_not_held_to_an_invented_insert():
    found = compare_program(PART, HAND, NO_SHOP)
    assert not found.agree
    assert not found.matches
    (stop,) = [f for f in found.findings if f.stops]
    assert (stop.code, stop.line) == ("insert-unknown", 8)
    assert "Nothing says what insert T0303 is: give --shop FILE" in stop.message


def test_each_station_is_named_once():
    two = HAND.replace("G00 X100.", "G00 X100. T0505\nG00 X42. Z-13.\nG01 X34. F.1\nG01 X42.\nG00 X100.")
    found = compare_program(PART, two, NO_SHOP)
    assert [f.message[:39] for f in found.findings if f.code == "insert-unknown"] == [
        "Nothing says what insert T0303 is: give",
        "Nothing says what insert T0505 is: give",
    ]


def test_what_lies_beside_tells_it():
    assert compare_program(PART, HAND, NO_SHOP, beside=(tool_of(),)).agree
    near = compare_program(PART, HAND, NO_SHOP, beside=(tool_of(reference="near"),))
    assert {m.state.value for m in near.matches} == {"position"}


def test_the_heading_goes_before_what_lies_beside():
    assert compare_program(PART, ours(width=2.5), NO_SHOP, beside=(tool_of(width=4.0),)).agree


def test_the_reach_is_known_from_beside_or_not_at_all():
    short = tool_of(max_depth=2.0)
    text = ours()
    assert "beyond-reach" in {f.code for f in compare_program(PART, text, NO_SHOP, beside=(short,)).findings}
    assert "beyond-reach" not in {f.code for f in compare_program(PART, text, NO_SHOP).findings}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", "(T0303 GROOVING INSERT 3. WIDE, CORNER RADIUS 0.2)"),
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", "(T0303 INSERT 3. WIDE)"),
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", "(T0303 INSERT 3. WIDE, CORNER RADIUS 2.)"),
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", "(T0303 INSERT 0. WIDE, CORNER RADIUS 0.)"),
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", ""),
        ("(T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE)", ""),
        ("(T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE)", "(T0303 Z IS SET TO THE MIDDLE)"),
        ("(T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE)", "(T0303 X IS SET TO THE INNER EDGE, TOWARD THE AXIS)"),
        ("(T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE)", "(T0404 Z IS SET TO THE FAR EDGE, CHUCK SIDE)"),
        ("(T0303 Z IS", "(T0303 INSERT 4. WIDE, CORNER RADIUS 0.2)\n(T0303 Z IS"),
        ("(UNITS MM. Z0 IS THE FINISHED FRONT FACE.)", ""),
        ("(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)", "G21\n(T0303 INSERT 3. WIDE, CORNER RADIUS 0.)"),
    ],
)
def test_half_a_heading_or_another_says_nothing(old, new):
    text = ours()
    assert old in text
    found = compare_program(PART, text.replace(old, new), NO_SHOP)
    assert [f.code for f in found.findings if f.stops] == ["insert-unknown"]


def test_another_tool_called_than_the_heading_names():
    found = compare_program(PART, ours().replace("\nT0303", "\nT0404"), NO_SHOP)
    assert not found.agree
    assert not [m for m in found.matches if m.program is not None]


def test_a_shop_file_rules_and_a_heading_against_it_is_a_stop():
    text, wide = ours(), shop_of(tool_of(width=3.2))
    found = compare_program(PART, text, wide)
    (caution,) = [f for f in found.findings if f.code == "insert-differs"]
    assert caution.level is Level.STOP
    assert "says that T0303 is 3 wide with corner radius 0 and Z set to its far edge" in caution.message
    assert "the shop file that it is 3.2 wide" in caution.message
    assert {m.state.value for m in found.matches} == {"width"}
    assert "insert-differs" not in {f.code for f in compare_program(PART, text, shop_of(tool_of())).findings}
    same = compare_program(PART, HAND.replace("O1\n", "O1\n(T0303 INSERT 9. WIDE, CORNER RADIUS 0.2)\n"), wide)
    assert "A remark gives T0303 a width of 9, and the shop file one of 3.2" in told(same, "insert-differs")[0]


def told(found, code):
    """The messages of one code, each behind the letter of its level and its line."""
    return [f"{f.message} [{f.level.value} {f.line}]" for f in found.findings if f.code == code]


@pytest.mark.parametrize(
    ("width", "differs"), [("2.93", True), ("2.95", False), ("3.", False), ("3.05", False), ("3.07", True)]
)
def test_a_sentence_of_a_heading_that_stands_alone_is_a_remark(width, differs):
    text = HAND.replace("O1\n", f"O1\n(T0303 INSERT {width} WIDE, CORNER RADIUS 0.)\n")
    found = told(compare_program(PART, text, shop_of(tool_of())), "insert-differs")
    assert [message[-8:] for message in found] == (["[stop 2]"] if differs else [])


@pytest.mark.parametrize(
    ("remark", "differs"),
    [
        ("T0303 Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE", True),
        ("T0303 Z is set to the near edge,front face side", True),
        ("T0303 X IS SET TO THE INNER EDGE, TOWARD THE AXIS", True),
        ("T0303 Z IS SET TO THE FAR EDGE, CHUCK SIDE", False),
        ("T0404 Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE", False),
        ("T0303 NEAR EDGE", False),
    ],
)
def test_a_remark_about_the_other_edge(remark, differs):
    text = HAND.replace("O1\n", f"O1\n({remark})\n")
    found = told(compare_program(PART, text, shop_of(tool_of())), "insert-differs")
    assert [message[-8:] for message in found] == (["[stop 2]"] if differs else [])
    if differs:
        assert "the shop file has Z set to its far edge; see how its offset was set." in found[0]


@pytest.mark.parametrize(
    ("remark", "differs"),
    [
        ("T0303 GROOVING R0.2", False),
        ("T0303 GROOVING R0.26", False),
        ("T0303 GROOVING R0.27", True),
        ("T03 groover 3 wide r.8", True),
        ("T0303 CORNER RADIUS 0,8", True),
        ("T0303 RE=0.8", True),
        ("T0303 RADIUS .031 IN", True),
        ("T0303 RADIUS .008 IN", False),
        ("T0303 R1.5", True),
        ("T0303 R1.6", False),
        ("T0303 GROOVE R0.8", False),
        ("T0303 BREAK EDGES R0.8", False),
        ("T0303 CHAMFER R0.8", False),
        ("T0303 R.H. TOOL", False),
        ("T0404 R0.8", False),
    ],
)
def test_a_remark_about_another_corner_radius(remark, differs):
    """The shop's insert is 3 wide with corners of 0.2."""
    text = HAND.replace("O1\n", f"O1\n({remark})\n")
    found = told(compare_program(PART, text, shop_of(tool_of(corner_radius=0.2))), "insert-differs")
    assert [message[-8:] for message in found] == (["[stop 2]"] if differs else [])
    assert all("a corner radius of" in message and "the shop file one of 0.2" in message for message in found)


def test_a_whole_heading_is_held_once():
    near = told(compare_program(PART, ours(), shop_of(tool_of(reference="near"))), "insert-differs")
    wide = told(compare_program(PART, ours(), shop_of(tool_of(width=4.0))), "insert-differs")
    assert [message[:16] for message in near + wide] == ["The heading says"] * 2


@pytest.mark.parametrize(
    ("said", "runs", "wanted", "stops"),
    [
        ("CLOCKWISE", "M03", None, []),
        ("COUNTER-CLOCKWISE", "M04", None, []),
        ("COUNTER-CLOCKWISE", "M03", None, ["The heading says that the spindle turns counter-clockwise for T0303"]),
        ("CLOCKWISE", "M04", None, ["The heading says that the spindle turns clockwise for T0303"]),
        ("COUNTER-CLOCKWISE", "M03", "cw", ["The heading says that the spindle turns counter-clockwise for T0303"]),
        ("COUNTER-CLOCKWISE", "M03", "ccw", ["Metal is cut while the spindle turns clockwise (M03), and the shop"]),
        ("THE OTHER WAY", "M03", None, []),
        ("COUNTER-CLOCKWISE", "M05", None, []),
        ("CLOCKWISE)\n(T0303 SPINDLE COUNTER-CLOCKWISE", "M03", None, []),
    ],
)
def test_the_spindle_of_the_heading_is_held_against_the_program(said, runs, wanted, stops):
    text = ours().replace("SPINDLE CLOCKWISE", f"SPINDLE {said}").replace(" M03", f" {runs}")
    found = compare_program(PART, text, shop_of(tool_of(spindle=wanted)))
    lines = [f.message for f in found.findings if f.code == "spindle-reverse" and f.stops]
    assert len(lines) == len(stops)
    assert all(map(str.startswith, lines, stops))
    if wanted is None:
        alone = compare_program(PART, text, NO_SHOP)
        assert [f.message for f in alone.findings if f.code == "spindle-reverse" and f.stops] == lines


def test_each_cut_is_held_to_the_spindle_of_the_heading():
    end = "G00 X42. Z-13.\nM05\nM04\nG01 X34.\nG00 X42.\nM30"
    found = compare_program(PART, ours().replace("M30", end), NO_SHOP)
    lines = ours().replace("M30", end).splitlines()
    told = [f.line for f in found.findings if f.code == "spindle-reverse" and f.stops]
    assert told == [lines.index("M04") + 2]


@pytest.mark.parametrize("remark", ["T0505 9. WIDE", "T0505 Z IS SET TO THE NEAR EDGE, FRONT FACE SIDE"])
def test_a_remark_about_an_insert_that_stays_in_the_turret_is_not_held(remark):
    text = HAND.replace("O1\n", f"O1\n({remark})\n")
    spare = tool_of(station=5, offset=5)
    assert not told(compare_program(PART, text, shop_of(tool_of(), spare)), "insert-differs")
    assert told(compare_program(PART, text.replace("T0303\n", "T0505\n"), shop_of(spare)), "insert-differs")


@pytest.mark.parametrize(
    ("remark", "differs"),
    [
        ("UNITS INCHES", True),
        ("UNITS: INCH", True),
        ("ALL UNITS ARE IN INCHES", True),
        ("UNITS MM.", False),
        ("UNITS IN MILLIMETRES", False),
        ("INCHES", False),
    ],
)
def test_the_units_of_the_heading_are_held_against_the_program(remark, differs):
    text = HAND.replace("O1\n", f"O1\n({remark})\n")
    found = told(compare_program(PART, text, shop_of(tool_of())), "units-differ")
    said = "The heading says that the program is in inches, and it is read in millimetres; correct the heading or the "
    assert found == ([f"{said}unit word. [caution 2]"] if differs else [])
    behind = HAND.replace("G21 G99\n", f"G21 G99\n({remark})\n")
    assert not told(compare_program(PART, behind, shop_of(tool_of())), "units-differ")


@pytest.mark.parametrize(
    ("remark", "units", "differs"),
    [
        ("T0303 INSERT .118 IN WIDE", "in", False),
        ("T0303 INSERT .1209 IN WIDE", "in", False),
        ("T0303 INSERT .1211 IN WIDE", "in", True),
        ("T0303 INSERT 3.0 MM WIDE", "in", False),
        ("T0303 INSERT 4.0 MM WIDE", "in", True),
        ("T0303 CUTTER WIDTH 3,05", "mm", False),
        ("T0303 CUTTER WIDTH 3.07", "mm", True),
        ("T0303 FINISH GROOVE 5.0 WIDE", "mm", False),
    ],
)
def test_a_remark_gives_a_width_in_its_own_units_and_none_of_a_groove(remark, units, differs):
    # The program and the drawing don't matter here: the shop's tool is 3 mm or 0.118 in wide.
    per, width = (1.0, 3.0) if units == "mm" else (25.4, 0.118)
    part = part_of([(-10 / per, -13 / per, 34 / per)], diameter=40 / per, length=60 / per, units=units)
    shop = parse_shop(f'units = "{units}"\n[[tools]]\nstation = 3\nwidth = {width}\nmax_depth = 0.4\n', "s", units)
    text = f"O1\n({remark})\nG21 G99\nT0303\nG97 S500 M03\nG00 X42. Z-13.\nG01 X34. F.1\nG00 X42.\nG00 Z5.\nM30\n"
    found = compare_program(part, text, shop)
    assert ("insert-differs" in {f.code for f in found.findings}) is differs


def test_inches_are_converted():
    inch = replace(tool_of(), width=0.125, corner_radius=0.008)
    text = heading_of(inch, "in").split("G21")[0]
    program = text + "G20 G99\nT0303\nG97 S900 M03\nG00 X1.65 Z-.5\nG01 X1.34 F.003\nG00 X1.65\nG00 X4.\nM30\n"
    found = compare_program(part_of([(-9.525, -12.7, 34.036)]), program, NO_SHOP)
    assert [m.state.value for m in found.matches] == ["matches"]


def test_a_program_that_cuts_nothing_or_with_no_tool_is_judged_as_ever():
    assert "no-tool" in {f.code for f in compare_program(PART, HAND.replace("T0303\n", ""), NO_SHOP).findings}
    idle = compare_program(PART, "G21\nT0303\nG00 X42. Z-13.\nM30", NO_SHOP)
    assert {m.state.value for m in idle.matches} == {"missing"}


def test_explain_gives_grooves_their_walls_from_the_heading():
    made = explain(ours())
    assert [(g.z_near, g.z_far) for g in made.grooves] == [(-10, -13), (-15, -18), (-20, -23), (-25, -28)]
    assert not made.findings
    assert [g.z_near for g in explain(HAND, beside=(tool_of(),)).grooves] == [-10, -15, -20, -25]
    hand = explain(HAND)
    assert not hand.grooves
    assert [(f.code, f.level) for f in hand.findings] == [("insert-unknown", Level.NOTE)]
    told = explain(ours(), tools=(tool_of(width=4.0),))
    assert [f.code for f in told.findings] == ["insert-differs"]
