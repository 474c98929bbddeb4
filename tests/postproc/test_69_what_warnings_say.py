"""What is said of a move beside the code of the warning, and which moves a warning leaves alone.

Shop, insert and part as in `test_69_where_warnings_begin`. Figures by hand.
"""

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from postproc import compare_program, judge

PART = part_of([(-10, -13, 34)])
DEEP = part_of([(-10, -13, 20)])
BORED = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
BAR = tool(where="inside", min_bore=18.0)
POINT = {"station": 9}


def messages(found, code):
    return [f.message for f in found.findings if f.code == code]


@pytest.mark.parametrize(
    ("part", "insert", "moves", "said"),
    [
        # Out along Z through the wall of a groove 3 deep on the radius, home or not.
        (PART, tool(), Moves().rapid(42, -13).feed(34).rapid(None, 100, home=True), "runs 3 deep into metal"),
        (PART, tool(), Moves().rapid(42, -13).feed(34).rapid(None, 100), "runs 3 deep into metal"),
        # 1 into the wall of a bore of 24, on the radius.
        (BORED, BAR, Moves().rapid(22, 20).rapid(None, -13).rapid(26).rapid(22), "runs 1 deep into metal"),
        (
            BORED,
            BAR,
            Moves().rapid(22, 20).rapid(None, -13).feed(26).rapid(None, 100, home=True),
            "runs 1 deep into metal",
        ),
        (BORED, BAR, Moves().rapid(22, 20).rapid(None, -13).rapid(200, home=True), "runs into metal"),
        # Where a bar's home lies across the wall nobody says.
        (
            BORED,
            BAR,
            Moves().rapid(22, 20).rapid(None, -13).rapid(200, home=True, x0_known=False),
            "runs into metal",
        ),
    ],
)
def test_how_deep_a_rapid_runs_is_said_where_its_end_is_known(part, insert, moves, said):
    (told,) = messages(judge(part, moves.run(), shop(insert)), "rapid-into-material")
    assert said in told


def test_a_land_turned_aslant_is_told_where_it_is_farthest_off():
    """0.2 is gone at Z-20 and nothing at Z-40: at both ends of one cut, and the end toward the face is the worse."""
    moves = Moves(**POINT).rapid(44, -20).feed(39.8).feed(40, -40).feed(44).rapid(200, 100)
    (told,) = messages(judge(PART, moves.run(), shop()), "land-cut")
    assert "at Z-20 is turned to X39.8" in told


def test_a_cycle_with_no_peck_is_told_by_its_call_alone():
    """7.5 on the radius and 3 wide in one go."""
    text = "G21 G99\nT0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG75 R0.5\nG75 X27. Z-13. P7500 F0.08\nG00 X200.\n"
    assert len(messages(compare_program(DEEP, text + "M30\n", shop()), "no-pecks")) == 1


def test_a_cut_aslant_wants_no_pecks():
    """The chip of a ramp is as long either way; a count along Z is enough to make it one."""
    straight, aslant = (Moves().rapid(42, z).feed(20, -13).rapid(42) for z in (-13, -13.001))
    assert messages(judge(DEEP, straight.run(), shop()), "no-pecks")
    assert not messages(judge(DEEP, aslant.run(), shop()), "no-pecks")


@pytest.mark.parametrize(("x", "said"), [("40.", True), ("40.001", False)])
def test_a_cycle_that_starts_on_the_land_is_told_as_that(x, said):
    text = f"G21 G99\nT0303\nG50 S3000\nG96 S120 M03\nG00 X{x} Z-13.\nG75 R0.5\nG75 X34. Z-13. P1000 F0.08\nG00 X200.\n"
    found = messages(compare_program(PART, text + "M30\n", shop()), "no-clearance")
    assert any("The cycle starts at X40, on the metal itself" in one for one in found) is said


@pytest.mark.parametrize(("x", "said"), [("0.02", False), ("0.021", True)])
def test_a_face_turned_to_the_axis_opens_the_way_there(x, said):
    """Turned to 0.02 beside the axis at Z-0.02, the part may be touched there, 0.01 farther in too."""
    face = f"T0101\nG97 S800 M03\nG00 X44. Z-.02\nG01 X{x} F.1\nG00 Z2.\nX0.\nZ-.03\nZ2.\nX150. Z50.\n"
    groove = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nM30\n"
    found = messages(compare_program(PART, "G21 G99\n" + face + groove, shop()), "rapid-into-material")
    assert any("nothing has drilled before" in one for one in found) is said


@pytest.mark.parametrize(("x", "told"), [(39.96, False), (39.959, True)])
@pytest.mark.parametrize(
    ("reference", "z", "steps"),
    [("near", -10, [(0, 36), (-12, 40)]), ("far", -13, [(0, 40), (-12, 36)])],
    ids=["the far end of its width", "the near end of its width"],
)
def test_a_wait_is_looked_at_over_all_of_the_insert(reference, z, steps, x, told):
    """It stands from Z-13 to Z-10 whichever edge is named; the higher land is over one end of that alone."""
    text = f"G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z{z}.\nG01 X{x} F.08\nM00\nG00 X42.\nM30\n"
    found = compare_program(part_of([(-30, -33, 34)], steps=steps), text, shop(tool(reference=reference)))
    assert bool(messages(found, "stopped-in-groove")) is told


def test_of_a_run_that_was_lost_it_is_not_said_that_it_may_be_in_another_tongue():
    """G90 with X and Z turns at some controls, and at others asks for absolute places; the loop has no end."""
    turned = "G21\nG97 S800 M03\nT0101\nG00 X44. Z2.\nG90 X40. Z-59. F.2\nG00 X150. Z50.\n"
    groove = "T0303\nG97 S900 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\n"
    whole, lost = (
        compare_program(PART, turned + groove + end, shop()) for end in ("M30\n", "WHILE[1 EQ 1]DO1\nEND1\nM30\n")
    )
    assert {f.code for f in whole.findings if f.stops} == {"tongue-unclear"}
    assert {f.code for f in lost.findings if f.stops} == {"runaway"}


@pytest.mark.parametrize(("back", "told"), [("X20.\n", []), ("", [2])])
def test_a_zero_is_held_against_what_comes_before_the_next_one(back, told):
    """To X20 for 200 the program never comes back; after another zero it does, which is no matter."""
    cut = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\n"
    before, after = f"X200. Z50.\n{back}", "X200. Z50.\nX20.\nX200.\nM30\n"
    found = compare_program(PART, f"G21 G99\nG50 X20. Z50.\n{cut}{before}G50 X200. Z50.\n{cut}{after}", shop())
    assert [f.line for f in found.findings if f.code == "zero-slip" and f.stops] == told


@pytest.mark.parametrize(
    ("head", "end", "told"),
    [
        ("G50 X200. Z100.\n", "G00 X100. Z50.\n", "X200. Z100., and the program ends at X100. Z50.:"),
        ("G50 X200. Z100.\n", "G00 X200. Z100.\n", None),
        ("G50 X200. Z100.\n", "G00 X200. Z99.999\n", "Z100., and the program ends at Z99.999:"),
        ("G50 X200. Z100.\n", "G00 X199.999 Z100.\n", "X200., and the program ends at X199.999:"),
        ("G50 X2500.\n", "G00 X120. Z100.\n", "X2500., and the program ends at X120.:"),
        ("G50 X2500.\n", "G00 X120.\nZ100.\n", "X2500., and the program ends at X120.:"),
        ("G50 Z100.\n", "G00 Z90.\nX120.\n", "Z100., and the program ends at Z90.:"),
        ("G50 Z100.\n", "G00 X120. Z90.\n", "Z100., and the program ends at Z90.:"),
        ("G50 X200.\nG50 Z100.\n", "G00 X200. Z90.\n", "Z100., and the program ends at Z90.:"),
        ("G50 X200.\n", "G00 X200. Z90.\n", None),
        # The reference point is where the next piece starts too; where that lies no number says.
        ("G28 U0 W0\nG50 X200. Z100.\n", "G00 X100. Z50.\n", None),
        ("G50 X200. Z100.\n", "G00 X100. Z50.\nG28 U0 W0\n", None),
        ("G50 X200. Z100.\n", "G28 U0 W0\nG00 X100. Z50.\n", "X200. Z100., and the program ends at X100. Z50.:"),
        ("G50 X200. Z100.\n", "G28 U0\nG00 Z50.\n", "Z100., and the program ends at Z50.:"),
        ("G50 X200. Z100.\n", "G28 W0\nG00 X50.\n", "X200., and the program ends at X50.:"),
        ("G50 X200. Z100.\nG28 U0 W0\nG50 X200. Z100.\n", "G00 X100. Z50.\n", None),
        # A zero that the program moves by itself is a stop, which says more.
        ("G50 X200. Z100.\nG50 U1.\n", "G00 X100. Z50.\n", None),
    ],
)
def test_a_program_that_ends_off_the_place_it_begins_at_is_told(head, end, told):
    text = "G21 G99\n" + head + f"T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\n{end}M30\n"
    found = [f for f in compare_program(PART, text, shop()).findings if f.code == "zero-slip"]
    assert [f.level.name for f in found] == ([] if told is None else ["CAUTION"])
    assert all(f"stands at {told}" in f.message and f.line == 2 for f in found)
