"""Calls of the grooving cycle, and tools that are followed as a point: each warning begins at one place, to the count.

Shop, insert and part as in `test_69_where_warnings_begin`. Lands may be off by 0.15 on the diameter (ISO 2768-1 f, 30
to 120) or 0.1 (6 to 30). A thread of a lead of 1.5 may be 0.9 of it deep, 2.7 on the diameter; one 0.9 deep is too
shallow for a lead of 12.86, of which that is 0.07. The other thresholds: common practice, no source.
"""

from dataclasses import replace

import pytest
from support.moves import shop, tool
from support.parts import part_of, row
from support.programs import run_of

from postproc import compare_program, judge

PART = part_of([(-10, -13, 34)])
DEEP = part_of([(-10, -13, 20)])
WIDE = part_of([(-10, -20, 34)])
FOUR = part_of(row(4, -10, 5, 3, 34))
HOLLOW = part_of([(-10, -13, 34)], bore=20.0)
HUNDRED = part_of([(-40, -43, 94)], diameter=100)
CONED = replace(HOLLOW, bore=((0.0, 11.0), (-1.0, 10.0), (-60.0, 10.0)))
STEPPED = replace(HOLLOW, bore=((0.0, 12.0), (-30.0, 12.0), (-30.0, 10.0), (-60.0, 10.0)))


def levels(found, code):
    return [f.level.value for f in found.findings if f.code == code]


HEAD = "G21 G99\nT0303\nG50 S3000\nG96 S120 M03\nG00 X200. Z-13.\n"
OWN = "X34. Z-28. P1000 Q5000 F0.08"


def called(part, *tools, start="X42. Z-13.", retract="0.5", words=OWN):
    text = f"{HEAD}G00 {start}\nG75 R{retract}\nG75 {words}\nG00 X200.\nM30\n"
    run = run_of(text)
    return judge(part, run, shop(*(tools or (tool(),))))


def plunge(x="34.", peck=1.0, more=""):
    return f"X{x} Z-13. P{round(1000 * peck)}{more} F0.08"


CALLED = {
    "a start 0.02 in": ("start-below-land", "stop", 39.979, 39.98, lambda v: called(FOUR, start=f"X{v} Z-13.")),
    "a start 5 above, three pecks of 1": (
        "cycle-in-air",
        "caution",
        50.002,
        50.001,
        lambda v: called(FOUR, start=f"X{v} Z-13."),
    ),
    "three pecks in 10 of air": (
        "cycle-in-air",
        "caution",
        3.333,
        3.334,
        lambda v: called(FOUR, start="X60. Z-13.", words=f"X34. Z-28. P{round(v * 1000)} Q5000 F.08"),
    ),
    "a ninth of the peck": ("peck-out-by-ten", "stop", 0.111, 0.112, lambda v: called(PART, words=plunge(peck=v))),
    "nine pecks": ("peck-out-by-ten", "stop", 9.0, 8.999, lambda v: called(DEEP, words=plunge("20.", v))),
    "nine pecks, deeper than one and a half": (
        "peck-out-by-ten",
        "stop",
        36.998,
        36.999,
        lambda v: called(DEEP, words=plunge(v, 9.0)),
    ),
    "all of a way of 4 and a step": (
        "peck-out-by-ten",
        "stop",
        4.011,
        4.01,
        lambda v: called(PART, tool(peck=0.3), words=plunge(peck=v)),
    ),
    "all of a way, deeper than wide": (
        "peck-out-by-ten",
        "stop",
        33.998,
        34.0,
        lambda v: called(DEEP, tool(peck=0.3), words=plunge(v, (42 - v) / 2)),
    ),
    "no peck, deeper than wide": ("no-pecks", "caution", 33.998, 33.999, lambda v: called(DEEP, words=plunge(v, 4.5))),
    "a ninth of a peck of 0.9": (
        "peck-out-by-ten",
        "stop",
        0.1,
        0.101,
        lambda v: called(PART, tool(peck=0.9), words=plunge(peck=v)),
    ),
    "a ninth of a peck, in more than one": (
        "peck-out-by-ten",
        "stop",
        39.798,
        39.8,
        lambda v: called(PART, tool(peck=0.9), words=plunge(v, 0.1)),
    ),
    "all of the depth as one peck, deeper than wide": (
        "no-pecks",
        "caution",
        3.001,
        3.0,
        lambda v: called(DEEP, words=plunge("33.998", v)),
    ),
    "a shift of 0.05 of the width": (
        "shift-out-by-ten",
        "stop",
        0.149,
        0.15,
        lambda v: called(WIDE, words=f"X34. Z-20. P1000 Q{round(v * 1000)} F.08"),
    ),
    "more than 20 plunges": (
        "shift-out-by-ten",
        "stop",
        -15.0,
        -14.9,
        lambda v: called(WIDE, words=f"X34. Z{v} P1000 Q100 F.08"),
    ),
    "a retract of the whole depth": ("retract-unusual", "caution", 4.001, 4.0, lambda v: called(FOUR, retract=v)),
    "4 times the retract": (
        "retract-unusual",
        "caution",
        8.001,
        8.0,
        lambda v: called(FOUR, tool(retract=2.0), retract=v),
    ),
    "no retract, and one peck": (
        "retract-unusual",
        "caution",
        3.999,
        4.0,
        lambda v: called(FOUR, retract="0", words=f"X34. Z-28. P{round(v * 1000)} Q5000 F.08"),
    ),
    "a twentieth of the retract": ("retract-unusual", "caution", 0.024, 0.025, lambda v: called(FOUR, retract=v)),
}


@pytest.mark.parametrize(("code", "level", "warned", "spared", "found"), CALLED.values(), ids=CALLED)
def test_calls_of_the_cycle_are_warned_of_from_one_count_on(code, level, warned, spared, found):
    assert level in levels(found(warned), code)
    assert level not in levels(found(spared), code)


FIRST = "G21 G99 G40\nG28 U0 W0\nT0101\nG97 S800 M03\n"
AWAY = "G00 X150. Z50.\n"
GROOVE = "T0303\nG50 S3000\nG96 S120 M03\nG00 X42. Z-13.\nG01 X34. F.08\nG00 X42.\nX150. Z50.\nM30\n"
SLOPE = "G00 X44. Z-20.\nG01 X{} Z-22. F.2\nX44.\n"
BORE = "G00 X18. Z2.\nG01 Z-30. F.1\n"

FOLLOWED = {
    "a rapid 0.02 in": ("rapid-into-material", "stop", 39.979, 39.98, PART, "G00 X44. Z-20.\nX{}\nX44.\n"),
    "a rapid 0.02 into the face": ("rapid-into-material", "stop", -0.021, -0.02, PART, "G00 X30. Z5.\nZ{}\nZ5.\n"),
    "a rapid past what was drilled": (
        "rapid-into-material",
        "stop",
        -20.021,
        -20.02,
        PART,
        "G00 X0. Z2.\nG01 Z-20. F.1\nG00 Z2.\nZ{}\nZ2.\n",
    ),
    "a rapid beside a drilled axis": (
        "rapid-into-material",
        "stop",
        0.021,
        0.02,
        PART,
        "G00 X0. Z2.\nG01 Z-20. F.1\nG00 X{}\nX0.\nZ2.\n",
    ),
    "a rapid from a little below": (
        "rapid-into-material",
        "stop",
        39.979,
        39.98,
        PART,
        "G00 X44. Z-20.\nG01 X{} F.2\nG00 X44. Z-25.\n",
    ),
    "a rapid back into a slot": (
        "rapid-into-material",
        "stop",
        39.969,
        39.97,
        PART,
        "G00 X44. Z-20.\nG01 X39.97 F.2\nZ-21.\nX44.\nG00 X{}\nX44.\n",
    ),
    "a rapid back into a slot fed into again, not so deep": (
        "rapid-into-material",
        "stop",
        39.969,
        39.97,
        PART,
        "G00 X44. Z-20.\nG01 X39.97 F.2\nX41.\nX40.5\nG00 X{}\nX44.\n",
    ),
    "a rapid beside a slot, as deep as that": (
        "rapid-into-material",
        "stop",
        -20.001,
        -20.0,
        PART,
        "G00 X44. Z-20.\nG01 X39.97 F.2\nX44.\nG00 Z{}\nX39.97\nX44.\n",
    ),
    "a rapid into a bore nearer to the axis than half of it": (
        "rapid-into-material",
        "stop",
        9.999,
        10.0,
        HOLLOW,
        "G00 X{} Z2.\nZ-20.\nZ2.\n",
    ),
    "across from a drilled axis": (
        "tool-unknown",
        "stop",
        0.021,
        0.02,
        PART,
        "G00 X0. Z2.\nG01 Z-20. F.1\nX{}\nX0.\nG00 Z2.\n",
    ),
    "a point from 130 down to a land of 100": (
        "tool-unknown",
        "stop",
        99.849,
        99.85,
        HUNDRED,
        "G00 X130. Z-20.\nG01 X{} F.2\nX130.\n",
    ),
    "a rapid back into a slot in a bore": (
        "rapid-into-material",
        "stop",
        20.031,
        20.03,
        HOLLOW,
        BORE + "X20.03 F.1\nZ-31.\nX18.\nG00 X{}\nX18.\nZ5.\n",
    ),
    "a way along half of a bore that is wider at the face": (
        "drill-off-axis",
        "stop",
        10.999,
        11.0,
        CONED,
        "G00 X{} Z2.\nG01 Z-62. F.1\nG00 Z2.\n",
    ),
    "a rapid into a bore's wall": ("rapid-into-material", "stop", 20.021, 20.02, HOLLOW, BORE + "G00 X{}\nX18.\nZ5.\n"),
    "a thread too deep": ("thread-too-deep", "stop", 37.279, 37.28, PART, "G00 X44. Z4.\nG92 X{} Z-8. F1.5\n"),
    "a thread too shallow": (
        "thread-lead",
        "stop",
        12.865,
        12.864,
        PART,
        "G00 X44. Z4.\nG92 X39. Z-8. F{}\nX38.2\n",
    ),
    "a thread in air": ("thread-in-air", "stop", 40.021, 40.02, PART, "G00 X44. Z4.\nG92 X{} Z-8. F1.5\n"),
    "a point below the land": ("tool-unknown", "stop", 39.849, 39.85, PART, "G00 X44. Z-20.\nG01 X{} F.2\nX44.\n"),
    "a point below the face": ("tool-unknown", "stop", -0.021, -0.02, PART, "G00 X44. Z2.\nG01 Z{} F.2\nX20.\n"),
    "a point before the back": ("tool-unknown", "stop", -59.999, -60.0, PART, "G00 X44. Z{}\nG01 X20. F.2\nG00 X44.\n"),
    "a point over the bore": ("tool-unknown", "stop", 20.101, 20.1, HOLLOW, BORE + "X{}\nX18.\nG00 Z5.\n"),
    "a drill beside the axis": ("drill-off-axis", "stop", 0.021, 0.02, HOLLOW, "G00 X{} Z2.\nG83 Z-62. F.1\n"),
    "a way along half the bore": (
        "drill-off-axis",
        "stop",
        9.999,
        10.0,
        HOLLOW,
        "G00 X{} Z2.\nG01 Z-62. F.1\nG00 Z2.\n",
    ),
    "a drill 0.02 beside the axis of a solid part": (
        "tool-unknown",
        "stop",
        0.021,
        0.02,
        PART,
        "G00 X{} Z2.\nG01 Z-20. F.1\nG00 Z2.\n",
    ),
    "a shoulder faced in a bore": (
        "tool-unknown",
        "stop",
        -30.021,
        -30.0,
        STEPPED,
        "G00 X18. Z2.\nG01 Z{} F.1\nX24.\nX18.\nG00 Z5.\n",
    ),
    "a way along beside the axis on its far side": (
        "drill-off-axis",
        "stop",
        -9.999,
        -10.0,
        HOLLOW,
        "G00 X{} Z2.\nG01 Z-62. F.1\nG00 Z2.\n",
    ),
    "a thread 0.02 deep": ("thread-lead", "stop", 39.979, 39.98, PART, "G00 X44. Z4.\nG92 X{} Z-8. F1.5\n"),
    "a drill at surface speed": (
        "drill-speed",
        "stop",
        -0.001,
        0.0,
        PART,
        "G50 S2500\nG96 S60\nG00 X0. Z2.\nG01 Z{} F.1\nG00 Z2.\n",
    ),
    "a land too high": ("land-left", "stop", 40.151, 40.15, PART, "G00 X44. Z2.\nG90 X{} Z-59. F.2\n"),
    "a land a little high": ("land-differs", "caution", 40.021, 40.02, PART, "G00 X44. Z2.\nG90 X{} Z-59. F.2\n"),
    "a land too low": ("land-cut", "stop", 39.849, 39.85, PART, "G00 X44. Z2.\nG90 X{} Z-59. F.2\n"),
    "the end of a land": ("land-cut", "stop", -0.801, -0.8, PART, "G00 X44. Z2.\nG90 X39.7 Z{} F.2\n"),
}


@pytest.mark.parametrize(("code", "level", "warned", "spared", "part", "cuts"), FOLLOWED.values(), ids=FOLLOWED)
def test_what_is_followed_as_a_point_is_warned_of_from_one_count_on(code, level, warned, spared, part, cuts):
    used = shop(tool(corner_radius=0.2), sharp_corner=0.2)

    def found(v):
        return compare_program(part, FIRST + cuts.format(f"{v:.3f}") + AWAY + GROOVE, used)

    assert level in levels(found(warned), code)
    assert level not in levels(found(spared), code)


@pytest.mark.parametrize(
    ("cuts", "code"),
    [("G92 X40.2 Z-8. F1.5\nX40.2\n", "thread-in-air"), ("G92 X39.9 Z-8. F1.5\nX39.9\n", "thread-lead")],
)
def test_of_passes_of_one_depth_the_first_is_told(cuts, code):
    text = f"{FIRST}G00 X44. Z4.\n{cuts}{AWAY}{GROOVE}"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    assert [f.line for f in found.findings if f.code == code] == [6]


@pytest.mark.parametrize(("x", "said"), [("0.02", True), ("0.021", False)])
def test_up_to_the_tolerance_beside_the_axis_a_rapid_is_one_down_an_undrilled_hole(x, said):
    text = f"{FIRST}G00 X{x} Z2.\nZ-5.\nZ2.\n{AWAY}{GROOVE}"
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    told = [f.message for f in found.findings if f.code == "rapid-into-material"]
    assert any("nothing has drilled before" in one for one in told) is said
    text = text.replace("Z-5.", "G01 Z-20. F.1\nG00 Z2.\nZ-19.")
    found = compare_program(PART, text, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    assert found.agree is said, "where it was drilled so, it may go"


@pytest.mark.parametrize(
    ("cuts", "part", "code"),
    [
        ("G00 X44. Z4.\nG92 X39. Z-8. F12.8\nX38.2\nX39.8\n", PART, "thread-lead"),
        ("G00 X19. Z2.\nG01 Z-62. F.1\nG00 X18.\nZ5.\nX9.\nG01 Z-62.\nG00 Z5.\n", HOLLOW, "drill-off-axis"),
    ],
    ids=["a shallower pass behind the deepest", "beside the axis where the bore was opened"],
)
def test_what_went_before_counts(cuts, part, code):
    found = compare_program(part, FIRST + cuts + AWAY + GROOVE, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    assert levels(found, code) == []


def test_a_turret_that_turns_with_a_point_in_the_bore_is_told_as_that():
    found = compare_program(HOLLOW, FIRST + BORE + GROOVE, shop(tool(corner_radius=0.2), sharp_corner=0.2))
    (told,) = [f.message for f in found.findings if f.code == "index-near-part"]
    assert "inside the part; bring the tool out of the bore first" in told
