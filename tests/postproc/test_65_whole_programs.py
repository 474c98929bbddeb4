"""Whole programs: roughing, facing, drilling, threading by other tools, then the grooves.

What those cycles do: common practice, no source. Their paths are worked out by hand from their words.
"""

import pytest
from support.moves import shop, tool
from support.parts import part_of
from support.programs import codes, run_of

from extractor.finding import Level
from postproc import compare_program, explain

PART = part_of([(-10, -13, 34)], length=60)
SHOP = shop(tool(corner_radius=0.2), sharp_corner=0.2)
HEAD = "%\nO1\nG21 G99 G40\nG28 U0 W0\nT0101\nG50 S2500\nG96 S180 M03\n"
ROUGH = "G00 X44. Z2.\nG71 U2. R1.\nG71 P10 Q20 U.4 W.1 F.25\nN10 G00 X39.2\nG01 Z0 F.1\nX40. Z-.4\nN20 Z-60.\n"
FINISH = "G00 X150. Z50.\nT0202\nG00 X44. Z2.\nG70 P10 Q20\nG00 X150. Z50.\n"
GROOVE = "T0303\nG50 S2500\nG96 S110 M03\nG00 Z-13.\nX42.\nG01 X34. F.08\nG00 X42.\nX150.\nZ50.\n"
TAIL = "M05\nM30\n%\n"
THREAD = "T0404\nG97 S600 M03\nG00 X44. Z4.\nG76 P010060 Q50 R.02\nG76 X38.16 Z-8. P920 Q200 F1.5\nG00 X150. Z50.\n"
PASSES = "T0404\nG97 S600 M03\nG00 X44. Z4.\nG92 X39.4 Z-8. F1.5\nX39.\nX38.6\nX38.16\nG00 X150. Z50.\n"
DRILL = "T0606\nG97 S900 M03\nG00 X0 Z3.\nG74 R1.\nG74 Z-30. Q5000 F.1\nG00 X150. Z50.\n"
HOLE = "T0606\nG97 S900 M03\nG00 X0 Z3.\nG83 Z-30. Q5000 F.1\nG80\nG00 X150. Z50.\n"
CORNERS = "G00 X30. Z2.\nG01 Z0 F.1\nX40. ,C.3\nZ-60.\nX46. ,R.2\nZ-62.\nG00 X150. Z50.\n"
BOXES = "G00 X46. Z2.\nG90 X43. Z-60. F.2\nX41.5\nX40.\nG94 X-1. Z0 F.15\nG00 X150. Z50.\n"


def compared(text):
    return compare_program(PART, text, SHOP)


@pytest.mark.parametrize(
    "text",
    [
        HEAD + ROUGH + FINISH + GROOVE + TAIL,
        HEAD + ROUGH + "G70 P10 Q20\nG00 X150. Z50.\n" + GROOVE + THREAD + TAIL,
        HEAD + ROUGH + FINISH + GROOVE + PASSES + TAIL,
        HEAD + ROUGH + FINISH + DRILL + GROOVE + TAIL,
        HEAD + ROUGH + FINISH + HOLE + GROOVE + TAIL,
        HEAD + BOXES + GROOVE + TAIL,
    ],
    ids=["roughed", "thread", "thread in passes", "drilled by G74", "drilled by G83", "boxes"],
)
def test_cycles_of_other_tools_are_followed_as_a_point(text):
    found = compared(text)
    assert found.agree, found.findings
    cautions = {f.code for f in found.findings if f.level is Level.CAUTION}
    assert cautions - {"depth-not-said", "thread-not-held"} == {"tool-not-followed"}
    assert ("thread-not-held" in cautions) is (THREAD in text or PASSES in text)
    assert found.followed.as_point > 0 == found.followed.not_followed
    assert compared(text.replace("G01 X34.", "G01 X33.")).matches[0].state.value == "depth"


@pytest.mark.parametrize(
    ("cycle", "code"),
    [
        ("G94 X34. Z-13. F.08\n", None),
        ("G83 X34. Z-13. F.08\n", "rapid-into-material"),
        ("G90 X34. Z-13. F.08\n", "rapid-into-material"),
        ("G92 X34. Z-15. F1.5\n", "cycle-not-followed"),
    ],
)
def test_a_judged_insert_in_such_a_cycle_is_judged_by_its_moves(cycle, code):
    found = compared(HEAD + ROUGH + FINISH + GROOVE.replace("G01 X34. F.08\n", cycle) + TAIL)
    assert code in ({f.code for f in found.findings if f.stops} or {None})
    assert found.agree is (code is None)


@pytest.mark.parametrize(
    "wrong",
    [
        ROUGH.replace("N20 Z-60.", "Z-30.\nX36.\nN20 Z-60."),
        BOXES.replace("X40.\n", "X36.\n"),
        BOXES.replace("G94 X-1. Z0", "G94 X-1. Z-3."),
    ],
    ids=["contour too small", "box too small", "faced too far"],
)
def test_another_tool_that_cuts_into_the_part_is_still_told(wrong):
    found = compared(HEAD + wrong + "G00 X150. Z50.\n" + GROOVE + TAIL)
    assert "tool-unknown" in {f.code for f in found.findings if f.stops}


def ends(text, first):
    """Kind and end of the moves of the lines from the given one on, in mm."""
    run = run_of(f"G21 G99\nT0101\nG97 S800 M03\nG00 X44. Z2.\n{text}\nM30")
    return run, [(m.kind, m.x1 / 1000, m.z1 / 1000) for m in run.motions if m.line >= first]


def test_a_turning_cycle_goes_round_its_box_and_keeps_what_a_block_leaves_out():
    run, moves = ends("G90 X40. Z-20. F.2\nX38.\nG00 X50.", 5)
    box = [("rapid", 40, 2), ("feed", 40, -20), ("feed", 44, -20), ("rapid", 44, 2)]
    again = [("rapid", 38, 2), ("feed", 38, -20), ("feed", 44, -20), ("rapid", 44, 2)]
    assert moves == [*box, *again, ("rapid", 50, 2)]
    assert codes(run) == []


def test_a_facing_cycle_goes_round_the_other_way():
    assert ends("G94 X-1. Z0 F.2", 5)[1] == [("rapid", 44, 0), ("feed", -1, 0), ("feed", -1, 2), ("rapid", 44, 2)]


def test_a_roughing_cycle_comes_back_to_where_it_began():
    run, moves = ends("G71 P10 Q20 F.2\nN10 G00 X36.\nN20 G01 Z-20.\nG70 P10 Q20\nG00 W1.", 6)
    assert moves == [("rapid", 36, 2), ("feed", 36, -20), ("rapid", 44, 2), ("rapid", 44, 3)]
    assert codes(run) == [("depth-not-said", 5)]


def test_a_contour_without_its_end_is_a_stop():
    run, _ = ends("G71 P10 Q20 F.2\nN10 G00 X36.\nN21 G01 Z-20.", 5)
    assert codes(run) == [("contour-missing", 5)]


def test_threads_end_where_they_began_and_leave_their_pitch_in_force():
    run, moves = ends("G92 X39. Z-8. F1.5\nX38.5\nG76 X38. Z-8. P900 Q200 F1.5\nG01 X43.", 5)
    assert moves[3] == moves[7] == moves[-2] == ("rapid", 44, 2)
    assert run.motions[-1].feed == 15_000


def test_their_blocks_are_explained():
    told = explain(HEAD + ROUGH + FINISH + THREAD + TAIL)
    sentences = {block.text: block.sentence for block in told.blocks}
    assert sentences["G71 U2. R1."] == (
        "Roughing cycle: along Z, pass by pass, as far as a contour; U2.: 2.000 mm deep each pass, measured on the "
        "radius; R1.: back off 1.000 mm after each pass."
    )
    assert sentences["G70 P10 Q20"] == (
        "Finishing cycle: once along a contour and back; P10: the contour begins at block N10; "
        "Q20: the contour ends at block N20."
    )
    assert "a thread 0.920 mm high" in sentences["G76 X38.16 Z-8. P920 Q200 F1.5"]


def test_corners_by_a_word_are_turned_and_a_plunge_has_none():
    found = compared(HEAD + CORNERS + GROOVE + TAIL)
    assert found.agree, found.findings
    assert {f.code for f in found.findings} == {"tool-not-followed"}
    assert found.followed.not_followed == 0
    cut = compared(HEAD + CORNERS.replace(",C.3", ",C3.") + GROOVE + TAIL)
    assert {f.code for f in cut.findings if f.stops} == {"land-cut", "tool-unknown"}
    for word in ("R.3", ",C.3", "C-.3"):
        found = compared(HEAD + CORNERS + GROOVE.replace("G01 X34.", f"G01 X34. {word}") + TAIL)
        assert [f.code for f in found.findings if f.stops] == ["corner-word"]
