"""What tools followed as points do while the spindle stands or at rapid on the drawn part, and a bar drawn out.

Turning needs a turning spindle; a bar puller grips the bar behind the piece that was parted off, the spindle stopped,
and draws it out of the chuck; a bar stop touches the face: common practice, no source. Part: 40 across, 60 long, a
groove at Z-10 to Z-13. Touched is what lies nearer than the tolerance of the shop, 0.02 on the diameter.
"""

from dataclasses import replace

import pytest
from support.moves import shop, tool
from support.parts import part_of

from postproc import compare_program

PART = part_of([(-10, -13, 34)], length=60)
HOLLOW = part_of([(-10, -13, 34)], length=60, bore=20.0)
SHOP = shop(tool(corner_radius=0.2), sharp_corner=0.2, tolerance=0.02)
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\nM05\n"
OFF = "T0505\nG97 S800 M03\nG00 X44. Z-63.\nG01 X-1. F.05\nG00 X44.\nX150. Z50.\n"
AWAY = "G00 X150.\nZ50.\n"
PULL = "T0707\nM05\nG00 X0. Z5.\nG00 Z-55.\nG01 Z-75. F1.\nM69\nG01 Z-10. F2.\nM68\nG00 Z5.\n" + AWAY


def compared(cuts, part=PART, **more):
    text = "G21 G99 G40\nG28 U0 W0\n" + cuts + "M30\n"
    return compare_program(part, text, SHOP, **more)


def codes(found, *wanted):
    return [(f.code, f.level.value, f.line) for f in found.findings if f.code in wanted]


@pytest.mark.parametrize("spindle", ["M05", "M03 S800"])
@pytest.mark.parametrize(
    ("cuts", "part", "bad"),
    [
        ("G00 X40. Z2.\nG01 Z-59. F.2\n", PART, True),
        ("G00 X40.02 Z2.\nG01 Z-59. F.2\n", PART, True),
        ("G00 X40.021 Z2.\nG01 Z-59. F.2\n", PART, False),
        ("G00 X40. Z-59.\nG01 Z2. F2.\n", PART, False),
        ("G00 X44. Z0.\nG01 X-1. F.1\n", PART, True),
        ("G00 X44. Z.021\nG01 X-1. F.1\n", PART, False),
        ("G00 X0. Z5.\nG01 Z0. F1.\n", PART, False),
        ("G00 X20. Z2.\nG01 Z-59. F.1\nX18.\nG00 Z2.\n", HOLLOW, True),
        ("G00 X19.979 Z2.\nG01 Z-59. F.1\nX18.\nG00 Z2.\n", HOLLOW, False),
        ("G00 X44. Z2.\nG90 X41. Z-59. F.2\n", PART, True),
        ("G00 X44. Z4.\nG92 X39. Z-8. F1.5\n", PART, True),
    ],
)
def test_a_tool_that_turns_needs_a_spindle_that_turns(spindle, cuts, part, bad):
    found = compared(f"T0101\nG97 {spindle}\n{cuts}G00 X150.\nZ50.\n{GROOVE}", part)
    wanted = [("spindle-off", "stop", 6)] if bad and spindle == "M05" else []
    assert codes(found, "spindle-off") == wanted


def test_metal_of_the_bar_is_turned_by_a_spindle_that_turns():
    cut = "T0101\nM05\nG00 X44. Z2.\nG01 X42. F.2\nZ-59.\n" + AWAY
    assert codes(compared(cut + GROOVE, stock=46.0), "spindle-off") == [("spindle-off", "stop", 7)]
    assert codes(compared(cut + GROOVE), "spindle-off") == []
    assert codes(compared(cut.replace("X42.", "X46.") + GROOVE, stock=46.0), "spindle-off") == []


def test_a_hole_that_is_drilled_by_a_standing_spindle_is_to_be_looked_at():
    """A driven tool does so, and a rigid tap, whose spindle the control starts."""
    drill = "T0101\n{}\nG00 X0. Z5.\nG83 Z-20. F.1\nG80\n" + AWAY
    assert codes(compared(drill.format("M05") + GROOVE), "spindle-off") == [("spindle-off", "caution", 6)]
    assert codes(compared(drill.format("G97 S800 M03") + GROOVE), "spindle-off") == []


@pytest.mark.parametrize(
    ("cuts", "slides"),
    [
        ("G00 X40. Z2.\nG00 Z-59.\nX44.\n", True),
        ("G00 X40.02 Z2.\nG00 Z-59.\nX44.\n", True),
        ("G00 X40.021 Z2.\nG00 Z-59.\nX44.\n", False),
        ("G00 X40. Z2.\nG01 Z-59. F.2\nG00 Z2.\nX44.\n", False),
        ("G00 X44. Z0.\nX-1.\nZ5.\n", True),
        ("G00 X44. Z.021\nX-1.\nZ5.\n", False),
        ("G00 X44. Z0.\nG01 X-1. F.1\nG00 X44.\n", False),
    ],
)
def test_a_rapid_along_the_drawn_part_as_a_cut_goes_has_no_clearance(cuts, slides):
    found = compared("T0101\nG97 S800 M03\n" + cuts + AWAY + GROOVE)
    assert codes(found, "no-clearance") == [("no-clearance", "caution", 6)] * slides
    assert found.agree


@pytest.mark.parametrize(
    ("cuts", "told"),
    [
        ("G00 X0. Z5.\nG01 Z-20. F1.\n", True),
        ("G00 X0. Z5.\nG01 Z-.021 F1.\n", True),
        ("G00 X0. Z5.\nG01 Z-.02 F1.\n", False),
        ("G00 X.02 Z5.\nG01 Z-20. F1.\n", True),
        ("G97 S800 M03\nG00 X0. Z5.\nG01 Z-20. F.1\nG01 Z5.\nM05\nG01 Z-20. F1.\n", False),
        ("G97 S800 M03\nG00 X0. Z5.\nG01 Z-20. F.1\nG01 Z5.\nM05\nG01 Z-20.01 F1.\n", True),
    ],
)
def test_a_way_into_solid_metal_along_the_axis_is_to_be_looked_at_while_the_spindle_stands(cuts, told):
    """A puller does so where no piece was parted off before."""
    found = codes(compared("T0101\nM05\n" + cuts + AWAY + GROOVE), "spindle-off")
    assert [level for _, level, _ in found] == ["caution"] * told
    assert not codes(compared("T0101\nM05\nG00 X0. Z5.\nG01 Z-20. F1.\n" + AWAY + GROOVE, HOLLOW), "spindle-off")


def test_a_bar_is_drawn_out_where_the_piece_was_that_is_parted_off():
    found = compared(GROOVE + OFF + PULL)
    assert (found.agree, [f.message for f in found.findings if f.stops]) == (True, [])
    assert "rapid-into-material" in [f.code for f in compared(GROOVE + PULL).findings]


def test_what_is_parted_off_is_not_cut_again_by_a_spindle_that_turns():
    again = PULL.replace("M05", "G97 S800 M03")
    assert [code for code, *_ in codes(compared(GROOVE + OFF + again), "cut-after-parting", "rapid-into-material")] == [
        "rapid-into-material",
        "cut-after-parting",
    ]


def test_a_tap_that_a_threading_block_drives_along_the_axis_is_no_thread_too_deep():
    tap = "T0101\nG97 S300 M03\nG00 X0. Z5.\nG32 Z-15. F1.\nG32 Z5. F1.\n" + AWAY
    assert [f.code for f in compared(tap + GROOVE).findings if f.stops] == []


@pytest.mark.parametrize(("across", "deep"), [("X.02", False), ("X.021", True), ("X-.02", False), ("X-.021", True)])
def test_a_threading_block_is_on_the_axis_within_the_tolerance(across, deep):
    """That of the shop, 0.02: farther off it would be a thread in solid metal."""
    tap = f"T0101\nG97 S300 M03\nG00 {across} Z5.\nG32 Z-15. F1.\nG32 Z5. F1.\n" + AWAY
    assert bool(codes(compared(tap + GROOVE), "thread-too-deep")) is deep


@pytest.mark.parametrize(
    ("moves", "wanted"),
    [
        ("G00 X30. Z5.\nG00 Z-80.\nG00 Z5.\n", ["rapid-into-material"] * 2),
        ("G00 X30. Z5.\nG00 Z-63.\nG00 Z5.\n", []),
        ("G00 X41.97 Z5.\nG00 Z-65.\nG00 X44.\n", ["rapid-into-material"] * 2),
        ("G00 X42. Z5.\nG00 Z-65.\nG00 X44.\n", []),
        ("G00 X0. Z5.\nG00 Z-63.03\nG00 Z5.\n", ["rapid-into-material"]),
        ("G00 X0. Z5.\nG00 Z-63.\nG00 Z5.\n", []),
        ("G00 X44. Z5.\nG00 Z-70.\nG00 X10.\nG00 X44.\n", ["rapid-into-material"] * 2),
        ("G00 X44. Z5.\nG00 Z-30.\nG00 X0.\nG00 X44.\n", []),
        ("G00 X60. Z5.\nG00 Z-71.99\nG00 X60.\n", []),
        ("G00 X60. Z5.\nG00 Z-72.01\nG00 X60.\n", ["into-jaws"]),
        ("G00 X60. Z5.\nG01 Z-73. F1.\nG00 X60.\n", ["into-jaws"]),
        ("G00 X44. Z-60.\nG01 X41. Z-70. F1.\nG00 X60.\n", ["spindle-off"]),
        ("G00 X30. Z5.\nG01 Z-70. F1.\nG01 Z-10.\nG00 Z5.\n", []),
        ("G00 X30. Z5.\nG01 Z-75. F1.\nG01 Z-10.\nG00 Z5.\n", []),
        ("G00 X30. Z5.\nG01 Z-75.01 F1.\nG01 Z-10.\nG00 Z5.\n", ["into-jaws"]),
        ("G00 X0. Z5.\nG01 Z-70. F1.\nG01 Z-110.\nG01 Z-10.\nG00 Z5.\n", ["into-jaws"]),
    ],
)
def test_the_bar_that_is_left_and_the_jaws_stand_after_parting_with_the_spindle_stopped(moves, wanted):
    """Parted at Z-63; of a bar of 42, 75 of it out of the chuck, the jaws begin with their gap of 3 at Z-72."""
    machine = replace(SHOP.machine, stick_out=75.0, jaw_gap=3.0)
    text = "G21 G99 G40\nG28 U0 W0\n" + GROOVE + OFF + "T0707\nM05\n" + moves + AWAY + "M30\n"
    found = compare_program(PART, text, replace(SHOP, machine=machine), stock=42.0)
    stops = [f.code for f in found.findings if f.stops]
    assert stops == wanted


@pytest.mark.parametrize(("x", "slides"), [("46.", False), ("42.", False), ("41.999", True), ("-1.", True)])
@pytest.mark.parametrize("z", ["0.", ".02", "-.02"])
def test_a_rapid_to_the_face_that_stays_outside_the_bar_slides_along_nothing(x, slides, z):
    """The bar is 42 across; the tool comes down from X150 in front of it and faces the part at feed."""
    face = f"T0101\nG97 S800 M03\nG00 X150. Z{z}\nG00 X{x}\nG01 X-1.6 F.1\nG00 Z2.\n"
    told = codes(compared(face + AWAY + GROOVE, stock=42.0), "no-clearance")
    assert [one for one in told if one[2] < 9] == [("no-clearance", "caution", 6)] * slides


@pytest.mark.parametrize(
    ("ways", "stops"),
    [
        ("G00 X60.\n", []),
        ("G00 Z-64.\nG00 X60.\n", []),
        ("G00 Z5.\n", []),
        ("G00 X60. Z5.\n", []),
        ("G00 Z-75.\nG01 X60.\n", ["rapid-into-material"]),
        ("G00 X10.\nG01 X60.\n", ["rapid-into-material"]),
        ("G00 X60.\nG00 X30.\nG01 X60.\n", ["rapid-into-material"]),
        ("G00 X39.9\nG01 X60.\n", ["rapid-into-material"]),
        ("G00 X40. Z5.\nG00 X60.\n", []),
    ],
)
def test_a_puller_that_holds_the_bar_from_beside_leaves_it_at_rapid(ways, stops):
    """Its jaws stand round the bar of 40, to X30: off it they come outward or forward, and never nearer or farther in.

    Parted at Z-63, drawn from Z-80 to Z-70, the jaws farther in.
    """
    wide = replace(SHOP, machine=replace(SHOP.machine, stick_out=120.0))
    pull = f"T0707\nM05\nG00 X60. Z-80.\nG98\nG01 X30. F500\nM69\nG01 Z-70. F2000\nM68\n{ways}G99\n{AWAY}"
    text = "G21 G99 G40\nG28 U0 W0\n" + GROOVE + OFF + pull + "M30\n"
    assert [f.code for f in compare_program(PART, text, wide, stock=40.0).findings if f.stops] == stops


@pytest.mark.parametrize("spindle", ["M05", "M03"])
@pytest.mark.parametrize(
    ("before", "way", "cuts"),
    [
        ("G00 X44. Z0.\nG01 X-1. F100\n", "G01 X39.9 F100\n", True),
        ("G00 X44. Z0.\nG01 X-1. F100\n", "G01 X39.98 F100\n", False),
        ("G00 X44. Z0.\nG01 X-1. F100\n", "G01 X39.97 F100\n", True),
        ("G00 X44. Z10.\n", "G01 X30. F100\n", False),
        ("G00 X44. Z0.\nG01 X-1. F100\n", "G01 X30. Z-70. F100\n", True),
        ("G00 X44. Z0.\nG01 X-1. F100\n", "G01 X44. Z-70. F100\n", False),
    ],
)
def test_a_tool_that_turned_before_is_no_puller_and_goes_straight_in_with_a_turning_spindle(before, way, cuts, spindle):
    """The bar of 40 that is left is faced at Z-65 behind where the piece was parted off."""
    face = f"T0101\nG97 S800 M03\nG98\n{before}G00 X44.\n{AWAY}"
    again = f"T0101\n{spindle}\nG00 X44. Z-65.\n{way}G00 X44.\nG99\n{AWAY}"
    found = codes(compared(face + GROOVE + OFF + again, stock=40.0), "spindle-off")
    assert [level for _, level, _ in found] == ["stop"] * (cuts and spindle == "M05")


EDGE = ((0.0, 19.0), (-1.0, 20.0))
EDGED = replace(PART, outline=(*EDGE, *PART.outline[1:]), lands=(*EDGE, *PART.lands[1:]))
"""The same with a chamfer of 1 at 45 degrees at its front edge: 38 across at the face."""


@pytest.mark.parametrize(
    ("way", "slides"),
    [
        ("G00 X38. Z0.\nG00 X40. Z-1.\nG01 Z-59. F.2\n", True),
        ("G00 X36. Z1.\nG00 X40. Z-1.\nG01 Z-59. F.2\n", True),
        ("G00 X36.02 Z1.\nG00 X40.02 Z-1.\nG01 Z-59. F.2\n", True),
        ("G00 X36.021 Z1.\nG00 X40.021 Z-1.\nG01 Z-59. F.2\n", False),
        ("G00 X36. Z1.\nG01 X40. Z-1. F.2\nZ-59.\n", False),
        ("G00 X40. Z1.\nG00 X40.2 Z-1.\nG01 Z-59. F.2\n", False),
        ("G00 X60. Z9.\nG00 X40. Z-1.\nG01 Z-59. F.2\n", False),
    ],
)
def test_a_rapid_along_a_drawn_chamfer_slides_along_it(way, slides):
    """A rapid that only comes down to the chamfer's end is none."""
    found = codes(compared("T0101\nG97 S800 M03\n" + way + "G00 X60.\n" + AWAY + GROOVE, EDGED), "no-clearance")
    assert [level for _, level, _ in found] == ["caution"] * slides


@pytest.mark.parametrize(
    ("cuts", "told"),
    [
        ("M05\nG00 X0. Z5.\nG01 Z1. F200.\n", [6]),
        ("M05\nG00 X0. Z5.\nG98 G01 Z1. F200.\nG99\n", []),
        ("M05\nG00 X0. Z5.\nG01 Z1. F200.\nZ5. F.1\n", [6]),
        ("G97 S800 M03\nG00 X0. Z5.\nG01 Z1. F1.\n", []),
        ("G97 S800 M03\nG00 X0. Z5.\nG01 Z1. F1.\nM05\nG01 Z5.\n", [8]),
        ("M05\nG00 X0. Z5.\nG00 Z1.\n", []),
        ("M05\nG00 X44. Z-20.\nG01 X30. Z-40. F.1\n", []),
    ],
)
def test_a_feed_for_each_turn_of_a_standing_spindle_waits(cuts, told):
    """Common practice, no source; where a tool cuts so, that alone is told. Not at rapid, nor per minute."""
    found = compared("T0101\n" + cuts + AWAY + GROOVE)
    assert codes(found, "feed-waits") == [("feed-waits", "caution", line) for line in told]
