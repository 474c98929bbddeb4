"""One danger each in an otherwise right program: the code, the line or groove, and the figures that the sentence names.

The part is 40 across with one groove 3 wide and 3 deep; the right program is the first row. Common practice, no source.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from extractor.finding import Level
from postproc import compare_program
from postproc.motion import Motion

PART = part_of([(-10, -13, 34)])
SHARPER = part_of([(-10, -13, 34, {"corner_radius": 0.1})])
HEAD = "%\nO0100\nG21 G99\nT0303\nG50 S2500\nG96 S110 M03\n"
CUT = "G0 X42. Z-13.\nG1 X34. F.08\nG0 X42.\n"
TAIL = "G00 X150.\nG28 U0 W0\nM30\n%\n"
RIGHT = HEAD + CUT + TAIL


def compared(text, part=PART, **machine):
    return compare_program(part, text, shop(tool(corner_radius=0.2), sharp_corner=0.2, **machine))


def without(words):
    assert words in RIGHT
    return RIGHT.replace(words, "", 1)


def instead(words, others):
    assert words in RIGHT
    return RIGHT.replace(words, others, 1)


# The program, the code, its line, and words of its sentence.
STOPS = {
    "rapid into the land": (instead("G1 X34. F.08", "G0 X34."), "rapid-into-material", 8, ["X42. Z-13.", "3 deep"]),
    "rapid through a wall": (
        instead("F.08\nG0 X42.", "F.08\nG0 Z-20."),
        "rapid-into-material",
        9,
        ["from X34. Z-13. to X34. Z-20."],
    ),
    "no spindle": (without("G96 S110 M03\n"), "spindle-off", 7, ["M03"]),
    "no feed": (without(" F.08"), "no-feed", 8, ["give F"]),
    "no clamp": (without("G50 S2500\n"), "no-clamp", 7, ["give the highest speed before G96"]),
    "a clamp beyond the chuck's": (instead("S2500", "S9000"), "over-speed", 5, ["9000", "3000"]),
    "deeper than the insert reaches": (instead("X34.", "X10."), "beyond-reach", 8, ["T0303", "15 deep", "reaches 12"]),
    "a place that no lathe has": (instead("G00 X150.", "G00 X90000."), "too-far", 10, ["X90000"]),
    "a place far behind every chuck": (instead("G00 X150.", "G00 Z-31000."), "too-far", 10, ["Z-31000"]),
    "radius compensation": (instead("G1 X34.", "G42 G1 X34."), "radius-compensation", 8, ["T0303", "G40"]),
    "nothing that moves": ("%\nO1\nG21\nM30\n%\n", "no-moves", None, ["is it the right file?"]),
}
CAUTIONS = {
    "a speed far from the shop's": (instead("S110", "S280"), "speed-unusual", 8, ["280 m/min", "gives 120"]),
    "a place far out": (instead("G00 X150.", "G00 X4200."), "far-place", 10, ["X4200"]),
    "a place far along": (instead("G00 X150.", "G00 X150. Z4200."), "far-place", 10, ["Z4200"]),
    "a first place far out": (instead(CUT, "G0 X4200.\nG0 Z-13.\nG0 X42.\n" + CUT), "far-place", 7, ["X4200"]),
    "a last place far out": (without("G28 U0 W0\n").replace("X150.", "X4200."), "far-place", 10, ["X4200"]),
    "a skipped cut": (instead("G1 X34.", "/G1 X34."), "block-skip", 8, ["no longer agrees"]),
    "a retract of 9": (
        instead(CUT, "G0 X42. Z-13.\nG75 R9.\nG75 X34. P1000 F.08\nG0 X42.\n"),
        "retract-unusual",
        9,
        ["backs off 9", "gives T0303 0.5"],
    ),
    "a cut behind the part": (
        instead(TAIL, "G0 Z-65.\nG1 X30. F.05\nG0 X42.\n" + TAIL),
        "cuts-behind-part",
        11,
        ["Z-62", "X30", "Z-60"],
    ),
}


def test_the_right_program_is_let_alone():
    found = compared(RIGHT)
    assert found.agree
    assert found.findings == ()


@pytest.mark.parametrize(("text", "code", "line", "words"), STOPS.values(), ids=STOPS)
def test_a_danger_stops(text, code, line, words):
    found = compared(text)
    assert not found.agree
    (finding, *_) = [f for f in found.findings if f.code == code]
    assert (finding.level, finding.line) == (Level.STOP, line)
    assert [w for w in words if w not in finding.message] == []


@pytest.mark.parametrize(("text", "code", "line", "words"), CAUTIONS.values(), ids=CAUTIONS)
def test_what_may_be_meant_is_a_caution_and_agrees(text, code, line, words):
    found = compared(text)
    assert found.agree, found.findings
    (finding,) = [f for f in found.findings if f.code == code]
    assert (finding.level, finding.line) == (Level.CAUTION, line)
    assert [w for w in words if w not in finding.message] == []


def test_the_jaws_are_told_with_what_is_missing():
    (finding,) = compared(RIGHT, stick_out=14.0).findings
    assert (finding.level, finding.code, finding.line) == (Level.STOP, "into-jaws", 7)
    assert finding.message == "The tool comes to Z-13; the jaws with their gap begin at Z-11: stick out 2 more."
    assert compared(RIGHT, stick_out=16.0).agree


def test_a_corner_that_is_too_big_is_told_for_its_groove():
    (finding,) = compared(RIGHT, SHARPER).findings
    assert (finding.level, finding.code, finding.groove) == (Level.STOP, "corner-radius", 1)
    assert "leaves a corner radius of 0.2, the drawing has 0.1" in finding.message


# From the edge to the back of a bar for a bore of 18 it is 18, so in a bore of 24 the edge may come to 18 - 12 = 6 from
# the axis, X12 (by hand); the judge takes 0.04 on the diameter for nothing.
@pytest.mark.parametrize(
    ("x", "bar", "safe"),
    [("22.", 18.0, True), ("12.", 18.0, True), ("11.97", 18.0, True), ("11.9", 18.0, False), ("8.", 0.0, True)],
)
def test_the_back_of_a_bar_clears_the_wall_across(x, bar, safe):
    part = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
    text = HEAD + f"G0 X22. Z5.\nZ-13.\nG1 X28. F.05\nG0 X{x}\nG0 X22.\nZ5.\n" + TAIL
    inside = shop(tool(corner_radius=0.2, where="inside", min_bore=bar), sharp_corner=0.2)
    found = [f for f in compare_program(part, text, inside).findings if f.code == "bar-strikes"]
    assert [f.line for f in found] == ([] if safe else [10])
    assert all("stay above X12" in f.message for f in found)


# The bore is 24 wide in a part 40 across: a rapid of both axes from beside it must turn round the edge of the face. The
# insert's back edge, which the offset sets, is its hindmost point, so at Z0 nothing of it is in the bore yet.
@pytest.mark.parametrize(
    ("moves", "told"),
    [
        ("G0 X22. Z-5.\n", [(7, "rapid-bends", True)]),
        ("G28 U0 W0\nG0 X22. Z-5.\n", [(8, "rapid-bends", True)]),
        ("G0 X22. Z-.001\n", [(7, "rapid-bends", True)]),
        ("G0 X22. Z0.\n", []),
        ("G0 Z5.\nG28 U0\nG0 X22. Z-5.\n", [(9, "rapid-bends", True)]),
        ("G0 X22. Z5.\nG28 W0\nG0 Z-5.\n", []),
        ("G28 U0 W0\nG0 X22.\nZ-5.\n", []),
        ("G28 U0 W0\nG0 Z-5.\n", [(8, "rapid-into-material", False)]),
        ("G0 X30. Z5.\nX22. Z-.1\n", [(8, "rapid-bends", False)]),
        ("G0 X200. Z100.\nX22. Z-5.\n", [(8, "rapid-into-material", False)]),
    ],
)
def test_a_rapid_of_both_axes_into_the_bore_from_beside_the_part_is_told(moves, told):
    part = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
    text = HEAD + moves + "X22.\nZ-13.\nG1 X28. F.05\nG0 X22.\nZ5.\n" + TAIL
    findings = compare_program(part, text, shop(tool(corner_radius=0.2, where="inside"), sharp_corner=0.2)).findings
    found = [f for f in findings if f.code in ("rapid-bends", "rapid-into-material")]
    assert [(f.line, f.code, "move X in front of the face first, then Z" in f.message) for f in found] == told


def test_beside_the_outside_either_axis_may_go_first():
    text = HEAD + CUT + "G28 U0 W0\nG0 X38. Z-13.\nX42.\n" + TAIL
    found = [f for f in compared(text).findings if f.code == "rapid-bends"]
    assert [f.line for f in found] == [11]
    assert "move one axis after the other" in found[0].message


# The part is 60 long with a bore of 24 right through; a bar may come out behind it by the room of an index, 10 mm.
@pytest.mark.parametrize(
    ("moves", "told"),
    [
        ("G0 Z-69.\nZ5.\n", []),
        ("G0 Z-71.\nZ5.\n", [("far-place", 12)]),
        ("G0 Z-71.\nX200.\n", [("far-place", 12), ("into-jaws", 13)]),
        ("G0 X200. Z-71.\n", [("into-jaws", 12)]),
        ("G0 Z5.\nX200.\nZ-71.\n", [("into-jaws", 14)]),
    ],
)
def test_a_bar_that_leaves_the_bore_behind_the_part_is_told(moves, told):
    part = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0, length=60)
    text = HEAD + "G0 X22. Z5.\nZ-13.\nG1 X28. F.05\nG0 X22.\nZ-12.\n" + moves + TAIL
    found = compare_program(part, text, shop(tool(corner_radius=0.2, where="inside"), sharp_corner=0.2)).findings
    assert sorted((f.code, f.line) for f in found if f.code in ("far-place", "into-jaws")) == told


@pytest.mark.parametrize(("x", "z", "safe"), [(60, -15.0, True), (60, -20.1, False), (22, -20.1, True)])
def test_a_bar_outside_the_part_keeps_clear_of_the_jaws_too(x, z, safe):
    """20 stick out, 3 mm of gap before the jaws: Z-17; in the bore it may go on."""
    part = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0, length=60)
    text = HEAD + f"G0 X{x}. Z5.\nZ{z}\nZ5.\n" + TAIL
    inside = shop(tool(corner_radius=0.2, where="inside"), sharp_corner=0.2, stick_out=20.0)
    assert [f.line for f in compare_program(part, text, inside).findings if f.code == "into-jaws"] == (
        [] if safe else [8]
    )


@pytest.mark.parametrize(("z", "safe"), [(-15.0, True), (-17.1, False)])
def test_a_face_insert_keeps_clear_of_the_jaws_as_well(z, safe):
    """20 stick out, 3 mm of gap before the jaws: Z-17."""
    part = part_of([(0, -3, 24, {"where": "face", "mouth_diameter": 30.0})])
    text = HEAD + f"G0 X60. Z5.\nZ{z}\nZ5.\n" + TAIL
    inserts = tool(corner_radius=0.2, where="face", face_max=90.0)
    found = compare_program(part, text, shop(inserts, sharp_corner=0.2, stick_out=20.0)).findings
    assert [f.line for f in found if f.code == "into-jaws"] == ([] if safe else [8])


# Where X was never given, the bar stands wherever the last job left it: no depth, reach or speed follows from that.
@pytest.mark.parametrize(
    ("spin", "told"), [("G97 S900", ["place-unknown 7"]), ("G97 S9000", ["place-unknown 7", "speed-too-great 10"])]
)
def test_no_figure_is_told_of_a_cut_at_a_place_that_nobody_said(spin, told):
    part = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
    moves = "G1 Z-1. F.05\nG0 X20.\nZ-13.\nG1 X28.\nG0 X20.\nZ5.\n"
    text = HEAD.replace("G96 S110", spin) + moves + TAIL
    tools = shop(tool(corner_radius=0.2, where="inside"), sharp_corner=0.2, max_rpm=9999, power=0.01)
    found = compare_program(part, text, tools).findings
    assert [f"{f.code} {f.line}" for f in found if f.stops and f.line] == told
    assert [f.line for f in found if f.code == "power"] == [10]


@pytest.mark.parametrize(
    ("ends", "known", "placed"),
    [
        ((0, 0, 0, 5), (False, True), False),
        ((0, 0, 1, 5), (False, True), True),
        ((0, 0, 0, 5), (True, False), True),
        ((0, 0, 5, 0), (True, False), False),
        ((0, 0, 5, 1), (False, False), True),
    ],
)
def test_a_move_has_a_place_if_both_axes_were_said_or_move(ends, known, placed):
    motion = Motion("feed", *ends, line=1, station=3, offset=3, x0_known=known[0], z0_known=known[1])
    assert motion.placed is placed


@pytest.mark.parametrize(
    ("wanted", "word", "line"),
    [
        # Where the shop file says none, any may be called; a program that calls none works from the first.
        (0, "", None),
        (0, "G55", None),
        (1, "", None),
        (1, "G54", None),
        (2, "G55", None),
        (3, "G56", None),
        (1, "G55", 4),
        (2, "G54", 4),
        (2, "G56", 4),
        (1, "G54.1 P1", 4),
        (2, "", 0),
    ],
)
def test_another_work_offset_than_that_of_the_shop_file_is_a_stop(wanted, word, line):
    """G54 to G59 are the first to the sixth (common practice)."""
    found = compared(RIGHT.replace("T0303\n", f"{word}\nT0303\n"), work_offset=wanted)
    told = [f.line for f in found.findings if f.code == "work-offset" and f.stops]
    assert told == ([] if line is None else [line or None])
    assert found.agree is (line is None)


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        (RIGHT.replace("X42", "X-42").replace("X34", "X-34"), True),
        (RIGHT.replace("X", "X-"), True),
        (instead("X34.", "X-34."), False),
        (instead("G00 X150.", "G01 X38. Z-13.\nG00 X150.").replace("X42", "X-42").replace("X34", "X-34"), False),
    ],
)
def test_a_program_beyond_the_axis_all_through_is_told_once_and_not_judged(text, whole):
    found = compared(text)
    stops = [(f.code, f.line) for f in found.findings if f.stops]
    assert (stops == [("past-axis", 8)] and not found.matches) is whole
    assert not found.agree
