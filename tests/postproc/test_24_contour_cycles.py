"""Roughing, finishing, box, thread and drill cycles as moves, with every place worked out by hand.

What each does: common practice of the trade, no source. Depth law of G76: each pass takes the same area, so depths grow
with the root of the number of the pass (common practice).
"""

import pytest
from support.programs import run_behind

HEAD = "G21 G99\nG97 S500 M03\nT0101\nG00 X44. Z2.\n"


def run_of(body, dialect="two-block", head=HEAD):
    return run_behind(head, body, dialect)


def ways(run, skip=1):
    return [(m.kind[0], m.x1 / 1000, m.z1 / 1000) for m in run.motions[skip:]]


def codes(run):
    return [f.code for f in run.findings]


SHAPE = "N1 G00 X36.\nG01 Z-10. F.1\nN2 X44."


def test_roughing_along_z_goes_pass_by_pass_and_once_along_the_shape():
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U1. W.5 F.3\n" + SHAPE)
    assert codes(run) == []
    assert ways(run) == [
        ("r", 40.0, 2.0),
        ("f", 40.0, -9.5),
        ("f", 42.0, -8.5),
        ("r", 42.0, 2.0),
        ("r", 37.0, 2.5),
        ("f", 37.0, -9.5),
        ("f", 45.0, -9.5),
        ("r", 44.0, 2.0),
    ]
    assert {m.feed for m in run.motions if m.kind == "feed"} == {3000}


def test_the_level_of_the_shape_itself_is_left_to_the_last_cut():
    deepest = [w for w in ways(run_of("G71 U1.75 R1.\nG71 P1 Q2 U1. W0. F.3\n" + SHAPE)) if w[1] < 37.5]
    assert deepest == [("r", 37.0, 2.0), ("f", 37.0, -10.0)]


def test_a_pass_on_the_level_of_a_land_ends_where_the_next_one_rises():
    """From 44 by 2 on the radius: the first pass lies on the land of 40, and 44 comes at Z-20."""
    shape = "N1 G00 X36.\nG01 Z-10. F.1\nX40.\nZ-20.\nX44.\nN2 Z-30."
    assert ways(run_of("G71 U2. R1.\nG71 P1 Q2 U0 W0 F.3\n" + shape))[:2] == [("r", 40.0, 2.0), ("f", 40.0, -20.0)]


def test_each_step_of_a_program_with_a_traced_shape_keeps_its_line_and_its_moves():
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U1. W.5 F.3\n" + SHAPE.replace("G01", "M08 G01"))
    assert len(run.steps) == len(run.step_lines) == len(run.step_motions)


def test_roughing_along_x_goes_plane_by_plane():
    run = run_of("G72 W2. R.5\nG72 P1 Q2 U0 W.2 F.2\nN1 G00 Z-4.\nG01 X30. F.1\nZ0.\nN2 Z2.")
    assert ways(run)[:8] == [
        ("r", 44.0, 0.0),
        ("f", 30.0, 0.0),
        ("f", 31.0, 0.5),
        ("r", 44.0, 0.5),
        ("r", 44.0, -2.0),
        ("f", 30.0, -2.0),
        ("f", 31.0, -1.5),
        ("r", 44.0, -1.5),
    ]
    assert ways(run)[8:] == [("r", 44.0, -3.8), ("f", 30.0, -3.8), ("f", 30.0, 0.2), ("f", 30.0, 2.2), ("r", 44.0, 2.0)]


def test_roughing_beside_a_shape_comes_nearer_each_time():
    run = run_of("G73 U2. W1. R3\nG73 P1 Q2 U0 W0 F.2\n" + SHAPE)
    begins = [w for w in ways(run) if w[0] == "r" and w[1] < 44]
    assert begins == [("r", 40.0, 3.0), ("r", 38.0, 2.5), ("r", 36.0, 2.0)]


def test_a_bore_is_roughed_outward():
    head = HEAD.replace("X44. Z2.", "X18. Z2.")
    run = run_of("G71 U1. R.5\nG71 P1 Q2 U-.4 W0 F.2\nN1 G00 X24.\nG01 Z-10. F.1\nN2 X18.", head=head)
    assert ways(run)[:4] == [("r", 20.0, 2.0), ("f", 20.0, -10.0), ("f", 19.0, -9.5), ("r", 19.0, 2.0)]
    assert ("f", 23.6, -10.0) in ways(run)


def test_the_cycle_in_one_block_has_its_depth_there():
    whole = run_of("G71 P1 Q2 U1. W0 D2000 F.3\n" + SHAPE)
    pointed = run_of("G71 P1 Q2 U1. W0 D2. F.3\n" + SHAPE)
    assert ways(whole) == ways(pointed)
    assert ways(whole)[0] == ("r", 40.0, 2.0)


def test_finishing_runs_the_shape_at_its_own_feed_and_comes_back():
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U1. W0 F.3\n" + SHAPE + "\nG70 P1 Q2")
    last = [m for m in run.motions if m.line in (7, 8, 9, 10)]
    assert [(m.line, m.x1 / 1000, m.z1 / 1000, m.feed) for m in last] == [
        (7, 36.0, 2.0, None),
        (8, 36.0, -10.0, 1000),
        (9, 44.0, -10.0, 1000),
        (10, 44.0, 2.0, None),
    ]


def test_the_shape_itself_is_not_run_again_after_the_roughing():
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U1. W0 F.3\n" + SHAPE + "\nG00 X50.")
    assert {m.line for m in run.motions} == {4, 6, 10}


def test_arcs_and_increments_stand_in_a_shape():
    run = run_of("G71 U5. R1.\nG71 P1 Q2 U0 W0 F.3\nN1 G00 X30.\nG01 W-2. F.1\nG03 X34. Z-2. R2.\nN2 G01 U10.")
    assert ways(run)[-2:] == [("f", 44.0, -2.0), ("r", 44.0, 2.0)]
    assert len(ways(run)) > 8


def test_a_depth_that_nobody_gives_is_a_caution_and_one_cut():
    run = run_of("G71 P1 Q2 U1. W0 F.3\n" + SHAPE)
    assert codes(run) == ["depth-not-said"]
    assert ways(run)[0] == ("r", 37.0, 2.0)


def test_a_shape_that_turns_back_is_a_caution():
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U0 W0 F.3\nN1 G00 X36.\nG01 Z-5. F.1\nX34.\nZ-10.\nN2 X44.")
    assert codes(run) == ["contour-turns-back"]


@pytest.mark.parametrize("call", ["G71 P1 Q9 U1. W0 F.3", "G71 P2 Q1 U1. W0 F.3", "G70 P1 Q9", "G72 P7 Q8 U0 W0"])
def test_a_shape_that_is_not_there_is_a_stop(call):
    assert "contour-missing" in codes(run_of("G71 U2. R1.\n" + call + "\n" + SHAPE))


@pytest.mark.parametrize("dialect", ["two-block", "one-block", "plunge"])
def test_with_p_and_q_it_is_a_contour_in_every_tongue(dialect):
    run = run_of("G71 U2. R1.\nG71 P1 Q2 U1. W.5 F.3\n" + SHAPE + "\nG70 P1 Q2", dialect)
    assert run.units == "mm"
    assert ("r", 40.0, 2.0) in ways(run)


def test_without_p_and_q_it_is_a_unit_word_where_the_dialect_has_it():
    run = run_of("G00 X30.", "plunge", "G70 G95\nG97 S500 M03\nT0101\nG00 X1.5 Z.2\n")
    assert run.units == "in"


def test_too_many_passes_are_a_stop():
    assert "runaway" in codes(run_of("G71 U.001 R0\nG71 P1 Q2 U0 W0 F.3\n" + SHAPE.replace("X36.", "X1.")))


def test_a_box_goes_in_along_out_and_back():
    run = run_of("G90 X40. Z-10. F.2\nX38.\nG00 X60.\nG90 X36. Z-5.")
    assert ways(run)[:4] == [("r", 40.0, 2.0), ("f", 40.0, -10.0), ("f", 44.0, -10.0), ("r", 44.0, 2.0)]
    assert ways(run)[5] == ("f", 38.0, -10.0)
    assert ways(run)[-3:] == [("f", 36.0, -5.0), ("f", 60.0, -5.0), ("r", 60.0, 2.0)]


def test_a_taper_is_on_the_radius_at_the_start_of_the_cut():
    assert ways(run_of("G90 X40. Z-10. R-2. F.2"))[:2] == [("r", 36.0, 2.0), ("f", 40.0, -10.0)]
    assert ways(run_of("G94 X40. Z-10. R-1. F.2"))[:2] == [("r", 44.0, -11.0), ("f", 40.0, -10.0)]


def test_a_facing_box_goes_along_first():
    assert ways(run_of("G94 X10. Z0. F.2")) == [
        ("r", 44.0, 0.0),
        ("f", 10.0, 0.0),
        ("f", 10.0, 2.0),
        ("r", 44.0, 2.0),
    ]


def test_a_thread_box_leaves_at_rapid():
    run = run_of("G92 X39. Z-20. F1.5\nX38.5")
    assert ways(run) == [
        ("r", 39.0, 2.0),
        ("f", 39.0, -20.0),
        ("r", 44.0, -20.0),
        ("r", 44.0, 2.0),
        ("r", 38.5, 2.0),
        ("f", 38.5, -20.0),
        ("r", 44.0, -20.0),
        ("r", 44.0, 2.0),
    ]
    assert [m.thread for m in run.motions[1:5]] == [False, True, False, False]


def test_a_whole_thread_takes_less_each_pass():
    run = run_of("G76 P020060 Q50 R.02\nG76 X38. Z-20. P1000 Q500 F1.5")
    cut = [x for kind, x, z in ways(run) if kind == "f" and z == -20.0]
    assert cut == pytest.approx([39.0, 38.586, 38.268, 38.0])


def test_a_whole_thread_in_one_block_says_the_same():
    one = run_of("G76 X38. Z-20. K1. D500 F1.5 A60")
    assert ways(one) == ways(run_of("G76 P020060 Q50 R.02\nG76 X38. Z-20. P1000 Q500 F1.5"))


def test_a_single_pass_of_a_thread_stays_in_force_till_another_word():
    run = run_of("G00 X39.\nG32 Z-20. F1.5\nX41. Z-22.\nG00 X44.")
    assert [m.thread for m in run.motions[2:]] == [True, True, False]


def test_a_drill_goes_in_and_comes_back():
    run = run_of("G00 X0.\nG83 Z-30. Q5000 F.1\nG80\nG00 Z5.")
    assert ways(run, 2) == [("f", 0.0, -30.0), ("r", 0.0, 2.0), ("r", 0.0, 5.0)]


def test_the_x_of_a_drill_is_the_place_of_its_hole():
    """X (or U) is where the hole is, and the way there is at rapid (common practice, from memory)."""
    run = run_of("G00 X10.\nG83 X0. Z-30. Q5000 F.1\nG80\nG00 Z5.")
    assert ways(run, 2) == [("r", 0.0, 2.0), ("f", 0.0, -30.0), ("r", 0.0, 2.0), ("r", 0.0, 5.0)]


@pytest.mark.parametrize(
    ("words", "told"), [("X34. Q1000 F.1", True), ("U-6. F.1", True), ("Z-30. F.1", False), ("W-30. F.1", False)]
)
def test_a_drill_that_says_no_depth_is_a_stop(words, told):
    assert ("cycle-word-missing" in codes(run_of(f"G00 X0.\nG83 {words}\nG80"))) is told


def test_where_no_cycle_is_said_the_retract_of_a_drill_is_none_of_its_calls():
    run = run_of("G00 X0.\nG74 R1.\nG74 Z-30. Q5000 F.1\nG00 Z5.", dialect="plunge")
    assert (codes(run), ways(run, 2)) == ([], [("f", 0.0, -30.0), ("r", 0.0, 2.0), ("r", 0.0, 5.0)])


def test_a_bare_place_after_a_drill_needs_its_motion_word():
    assert "no-motion-word" in codes(run_of("G00 X0.\nG83 Z-30. Q5000 F.1\nZ-40."))


def test_a_cycle_beside_its_contour_with_nothing_set_before_goes_along_it_once():
    assert ways(run_of("G73 P1 Q2 U0 W0 F.2\n" + SHAPE)) == ways(run_of("G73 U0 W0 R1\nG73 P1 Q2 U0 W0 F.2\n" + SHAPE))


@pytest.mark.parametrize(
    ("words", "lead"),
    [
        ("G33 Z-20. K2.", 2.0),
        ("G33 X20. I1.5", 1.5),
        ("G33 Z-20. K2. F1.25", 1.25),
        ("G33 Z-20. F1.25", 1.25),
        ("G32 Z-20.", 0.1),
    ],
)
def test_the_lead_of_a_thread_is_k_or_i_where_its_block_has_no_f(words, lead):
    """K is the lead along Z and I along X (ISO 6983-1, G33); the feed of the cut after it is the one before."""
    run = run_of(f"F.1\n{words}\nG01 X60.")
    assert [run.increments.feed_length(m.feed) for m in run.motions[1:]] == [lead, 1.25 if "F" in words else 0.1]
    assert codes(run) == []


FOREIGN = {
    "G71 U2. R1.\nG71 P1 Q2 U1. W0 F.3\n" + SHAPE: "roughing cycle along Z",
    "G72 W2. R1.\nG72 P1 Q2 U1. W0 F.3\n" + SHAPE: "roughing cycle along X",
    "G73 U2. W0 R2\nG73 P1 Q2 U1. W0 F.3\n" + SHAPE: "roughing cycle beside a contour",
    "G70 P1 Q2\n" + SHAPE: "finishing cycle",
    "G90 X40. Z-20. F.2": "turning cycle",
    "G94 X30. Z-1. F.2": "facing cycle",
    "G92 X39. Z-20. F1.5": "threading cycle",
    "G76 P020060 Q50 R.02\nG76 X38. Z-20. P1000 Q500 F1.5": "threading cycle in many passes",
    "G83 Z-20. Q5000 F.1": "drilling cycle",
}


@pytest.mark.parametrize("place", ["G28 U0 W0", "G28 U0 W0\nG00 X44.", "G28 U0 W0\nG00 Z2."])
@pytest.mark.parametrize("cycle", FOREIGN)
def test_a_cycle_of_another_tool_begins_where_a_block_has_said(cycle, place):
    """It cuts from its start and comes back to it, so at the reference point it would cut all the way (common practice,
    no source)."""
    run = run_of(f"{place}\n{cycle}")
    told = [f for f in run.findings if f.code == "cycle-start-unknown"]
    assert [f.stops for f in told] == [True]
    assert told[0].message.startswith(f"The {FOREIGN[cycle]} begins before any block has given X and Z")
    assert "cycle-start-unknown" not in codes(run_of("G28 U0 W0\nG00 X44. Z2.\n" + cycle))


@pytest.mark.parametrize(
    ("settings", "call"),
    [
        ("G71 U2. R1.", "G71 P1 Q2 U1. W0 F.3"),
        ("G72 W2. R1.", "G72 P1 Q2 U1. W0 F.3"),
        ("G73 U2. W0 R2", "G73 P1 Q2 U1. W0 F.3"),
        ("G76 P020060 Q50 R.02", "G76 X38. Z-20. P1000 Q500 F1.5"),
    ],
)
def test_a_cycle_that_is_set_and_never_called_is_a_stop_at_the_block_that_sets_it(settings, call):
    """Without its call the contour is cut at once and full depth, or no thread at all; set again at once, it is only
    corrected (common practice, no source)."""

    def told(text):
        return [(f.line, f.stops) for f in run_of(text).findings if f.code == "contour-missing"]

    assert told(f"{settings}\n{call}\n{SHAPE}") == []
    assert told(f"{settings}\n{SHAPE}") == [(5, True)]
    assert told(f"{settings}\n{settings}\n{call}\n{SHAPE}") == []
    assert told(f"{settings}\n{settings}\n{SHAPE}") == [(6, True)]
    assert told(f"{settings}\nG00 X45.\n{settings}\n{call}\n{SHAPE}") == [(5, True)]
    assert told(f"{settings}\n{call}\n{SHAPE}\nG00 X44. Z2.\n{settings}") == [(11, True)]
    assert told(f"{call}\n{SHAPE}") == []


@pytest.mark.parametrize("call", ["G71 P1 Q2 U1. W.5 F.3", "G72 P1 Q2 U1. W.5 F.3", "G70 P1 Q2 F.1"])
@pytest.mark.parametrize("stray", ["X.4", "Z.1", "I.4", "K.1", "H2"])
def test_a_word_that_a_cycle_along_a_contour_has_no_use_for_is_a_stop(call, stray):
    """U typed as X leaves no allowance; the words of the contour's own blocks are theirs."""
    text = f"G71 U2. R1.\nG72 W2. R1.\nG71 P1 Q2 U1. W.5 F.3\n{SHAPE}\nG72 P1 Q2 U1. W.5 F.3\nG01 X44. F.2\n"
    told = [(f.line, f.stops) for f in run_of(f"{text}{call} {stray}").findings if f.code == "unknown-word"]
    assert told == [(13, True)]
    assert "unknown-word" not in codes(run_of(text + call))


@pytest.mark.parametrize(
    ("cycle", "told"),
    [
        ("G71 U10. R1.\nG71 P1 Q2 U0 W0 F.3", False),
        ("G71 U10.001 R1.\nG71 P1 Q2 U0 W0 F.3", True),
        ("G71 U20. R1.\nG71 P1 Q2 U0 W0 F.3", True),
        ("G71 U20. R1.\nG71 P1 Q2 U4. W0 F.3", False),
        ("G71 U20. R1.\nG71 P1 Q2 U3.998 W0 F.3", True),
        ("G72 W10. R1.\nG72 P1 Q2 U0 W0 F.3", False),
        ("G72 W10.001 R1.\nG72 P1 Q2 U0 W0 F.3", True),
        ("G73 U20. W0 R2\nG73 P1 Q2 U0 W0 F.3", False),
    ],
)
def test_a_pass_deeper_than_any_turning_tool_bears(cycle, told):
    """From 44 to 20 are 12 a side, with 4 left on the diameter 10; tools bear 10 (common practice, no source)."""
    run = run_of(f"{cycle}\nN1 G00 X20. Z-12.\nG01 X44. Z2. F.1\nN2 X46.")
    assert ("depth-unusual" in codes(run)) is told


@pytest.mark.parametrize(("depth", "told"), [("0.4", False), ("0.4001", True)])
def test_a_pass_in_inches_is_as_deep(depth, told):
    head = "G20 G99\nG97 S500 M03\nT0101\nG00 X4. Z.1\n"
    run = run_behind(head, f"G71 U{depth} R.04\nG71 P1 Q2 U0 W0 F.01\nN1 G00 X1.\nG01 Z-1. F.004\nN2 X4.", units="in")
    assert ("depth-unusual" in codes(run)) is told
