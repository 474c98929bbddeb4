"""Rough cuts along a contour, threads, waits and tool words at the edge of each rule, worked out by hand beside each.

What controls do there is common practice, no source.
"""

import pytest
from support.programs import run_of
from support.tongues import FIVE

from planner.steps import Arc, Dwell, ToolCall
from postproc.dialects import read_dialect

HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X44. Z2.\n"


def moves(text, head=HEAD, skip=1):
    return [(m.kind, m.x1 / 1000, m.z1 / 1000) for m in run_of(f"{head}{text}\nM30").motions[skip:]]


def told(text, head=HEAD):
    return [(str(f.code), f.line) for f in run_of(f"{head}{text}\nM30").findings]


def test_a_pass_ends_where_a_sloping_contour_comes_up_to_it():
    """From 36 at the face to 44 behind by 16: 40 lies half-way, 38 and 42 a quarter from either end."""
    shape = "N1 G00 X36.\nG01 Z0. F.1\nN2 X44. Z-16."
    found = moves(f"G71 U1. R1.\nG71 P1 Q2 U0 W0 F.3\n{shape}")
    assert [(x, z) for kind, x, z in found if kind == "feed" and z < -3][::2] == [(42, -12), (40, -8), (38, -4)]
    assert found[:4] == [("rapid", 42, 2), ("feed", 42, -12), ("feed", 44, -11), ("rapid", 44, 2)]


def test_a_contour_that_begins_where_the_tool_stands_is_cut_from_outside():
    shape = "N1 G00 X44.\nG01 Z-4. F.1\nN2 X36. Z-10."
    assert moves(f"G71 U2. R1.\nG71 P1 Q2 U0 W0 F.3\n{shape}") == [
        ("rapid", 40, 2),
        ("feed", 40, -10),
        ("feed", 42, -9),
        ("rapid", 42, 2),
        ("rapid", 44, 2),
        ("feed", 44, -4),
        ("feed", 36, -10),
        ("rapid", 44, 2),
    ]
    assert told(f"G71 U2. R1.\nG71 P1 Q2 U0 W0 F.3\n{shape}") == [("contour-turns-back", 6)]


def test_a_pass_shorter_than_the_retract_backs_off_no_further_than_it_began():
    """From 2 before the face to 1.5 before it are 0.5, less than the 1 that it backs off; then to the contour."""
    shape = "N1 G00 X36.\nG01 Z1.5 F.1\nN2 X44."
    assert moves(f"G71 U2. R1.\nG71 P1 Q2 U0 W0 F.3\n{shape}")[:4] == [
        ("rapid", 40, 2),
        ("feed", 40, 1.5),
        ("feed", 42, 2),
        ("rapid", 36, 2),
    ]


@pytest.mark.parametrize(("corners", "told_of"), [("X40.\nN2 X44.", False), ("X40.\nX42.\nN2 X44.", True)])
def test_a_rough_cycle_makes_twenty_thousand_moves_and_the_last_one_back(corners, told_of):
    """From 56 down to 36 by 0.004: 4,999 passes of four moves, four or five corners, and the way back."""
    head = HEAD.replace("X44.", "X56.")
    shape = f"N1 G00 X36.\nG01 Z-10. F.1\n{corners}"
    run = run_of(f"{head}G71 U.002 R.001\nG71 P1 Q2 U0 W0 F.3\n{shape}\nM30")
    assert ("runaway" in [str(f.code) for f in run.findings]) is told_of
    assert len(run.motions) == 1 + 4 * 4999 + 5


@pytest.mark.parametrize(("slope", "way"), [("", 0), ("R0", 0), ("R-1.", -2), ("R.25", 0.5)])
def test_a_tapered_thread_begins_beside_its_end(slope, way):
    """0.5 deep in one pass: a taper of 1 on the radius is 2 on the diameter."""
    found = moves(f"G76 P010060 Q100 R0\nG76 X43. Z-20. {slope} P500 Q500 F1.5")
    assert found == [("rapid", 43 + way, 2), ("feed", 43, -20), ("rapid", 44, -20), ("rapid", 44, 2)]


@pytest.mark.parametrize(("words", "long"), [("X4.999", False), ("X5.", True), ("P4999", False), ("P5000", True)])
def test_a_dwell_of_five_seconds_is_long(words, long):
    assert told(f"G04 {words}") == ([("dwell-long", 5)] if long else [])


@pytest.mark.parametrize(("words", "short"), [("P4", True), ("X.004", True), ("P5", False), ("P0", False)])
def test_a_dwell_in_which_no_spindle_makes_a_turn_is_told(words, short):
    assert told(f"G04 {words}") == ([("dwell", 5)] if short else [])


@pytest.mark.parametrize(
    ("words", "what"),
    [
        ("M05", ["stops the spindle"]),
        ("M04", ["turns the spindle the other way"]),
        ("M03", []),
        ("M19", ["stops the spindle"]),
        ("M05\nM03", ["stops the spindle"]),
    ],
)
def test_a_spindle_stands_where_it_is_stopped_or_turned_round(words, what):
    run = run_of(f"{HEAD}{words}\nM30")
    assert [(one.what, one.line) for one in run.halts if one.line < 7 and "spindle" in one.what] == [
        (one, 5) for one in what
    ]


@pytest.mark.parametrize(("across", "turns"), [("X0", 31_830_989), ("X.001", 31_830_989), ("X.002", 15_915_494)])
def test_the_speed_that_surface_speed_ends_with_on_the_axis_is_that_of_one_count(across, turns):
    """100 m/min over pi times 0.001 mm; 0.001 is the least increment."""
    head = HEAD.replace("G97 S800", "G96 S100").replace("X44.", across)
    (found,) = [f for f in run_of(f"{head}G97\nM30").findings if f.code == "speed-not-said"]
    assert f"the {turns} rev/min" in found.message


@pytest.mark.parametrize(
    ("words", "codes"),
    [("G28 X0 W0", ["home"]), ("G28 X5. W0", []), ("G28 U0 W0", []), ("G28", ["home"])],
)
def test_a_way_home_over_the_axis_is_told_where_no_place_was_said(words, codes):
    assert [code for code, _ in told(words, "G21 G99\nT0303\nG97 S800 M03\n")] == codes
    known = [code for code, _ in told(words)]
    assert known == (["home"] if words == "G28" else [])


def test_a_station_of_its_own_word_has_no_offset():
    text = "G71\nG90 G95\nT1 D1\nG97 S800 M03\nG00 X60. Z5.\nT3\nX50.\nM30\n"
    run = run_of(text, FIVE["turned-tools"])
    assert [s for s in run.steps if isinstance(s, ToolCall)] == [ToolCall(1, 1), ToolCall(3, 0)]
    assert [(m.station, m.offset) for m in run.motions] == [(1, 1), (3, 0)]


@pytest.mark.parametrize(
    ("words", "what"),
    [
        ("T0305", []),
        ("T0305 X40.", []),
        ("T0300", ["offset is cancelled"]),
        ("T0300 X40.", []),
        ("T0505", ["turret is indexed"]),
        ("T0500 X40.", ["turret is indexed"]),
        ("T0303", []),
    ],
)
def test_what_a_tool_word_does_to_turret_and_offset(words, what):
    run = run_of(f"{HEAD}{words}\nM30")
    assert [one.what for one in run.indexings if one.line == 5] == what


@pytest.mark.parametrize(("word", "feed", "stop"), [("F.0001", 1, False), ("F0", None, True), ("F-.1", None, True)])
def test_a_feed_is_one_count_or_more(word, feed, stop):
    run = run_of(f"{HEAD}G01 X43. {word}\nM30")
    assert run.motions[-1].feed == feed
    assert [str(f.code) for f in run.findings if f.stops] == ["no-feed"] * stop


@pytest.mark.parametrize(("speed", "stands"), [("S0", True), ("S1", False)])
def test_a_spindle_that_turns_once_a_minute_turns(speed, stands):
    head = HEAD.replace("S800", speed)
    assert ("dwell" in [code for code, _ in told("G04 S1", head)]) is stands


@pytest.mark.parametrize(
    ("text", "second"),
    [("Z-30.", (40, -30)), ("X38.", (38, -20)), ("X38. Z-30.", (38, -30)), ("U-8.", (36, -20)), ("W-7.", (40, -5))],
)
def test_a_box_keeps_what_the_next_block_leaves_out(text, second):
    x, z = second
    assert moves(f"G90 X40. Z-20. F.2\n{text}")[4:] == [
        ("rapid", x, 2),
        ("feed", x, z),
        ("feed", 44, z),
        ("rapid", 44, 2),
    ]


@pytest.mark.parametrize("words", ["P1", "Q2"])
def test_a_finishing_cycle_says_both_ends_of_its_contour(words):
    assert ("contour-missing", 5) in told(f"G70 {words}\nN1 G00 X36.\nG01 Z-10. F.1\nN2 X44.")


@pytest.mark.parametrize(
    ("settings", "passes"),
    [
        ("G71 U2. R1.", [("rapid", 40, 2), ("feed", 40, -10), ("feed", 42, -9), ("rapid", 42, 2)]),
        ("G71 U2.", [("rapid", 40, 2), ("feed", 40, -10), ("rapid", 40, 2)]),
        ("G71 R1.", []),
    ],
)
def test_a_rough_cycle_without_a_depth_or_a_retract_makes_none_up(settings, passes):
    shape = "N1 G00 X36.\nG01 Z-10. F.1\nN2 X44."
    assert moves(f"{settings}\nG71 P1 Q2 U0 W0 F.3\n{shape}") == [
        *passes,
        ("rapid", 36, 2),
        ("feed", 36, -10),
        ("feed", 44, -10),
        ("rapid", 44, 2),
    ]


@pytest.mark.parametrize(("words", "aside"), [("U1.", (2, 0)), ("W1.", (0, 1)), ("U1. W1.", (2, 1))])
def test_the_first_of_two_passes_beside_a_contour_lies_aside_by_what_is_said(words, aside):
    """U is on the radius, and so twice that on the diameter."""
    shape = "N1 G00 X36.\nG01 Z-10. F.1\nN2 X42."
    x, z = aside
    assert moves(f"G73 {words} R2\nG73 P1 Q2 U0 W0 F.3\n{shape}")[:3] == [
        ("rapid", 36 + x, 2 + z),
        ("feed", 36 + x, -10 + z),
        ("feed", 42 + x, -10 + z),
    ]


@pytest.mark.parametrize(
    ("dialect", "cycle", "text", "ways"),
    [
        ("two-block", "X40. Z-20. R-1. F.2", "Z-30.", [(38, 2), (40, -30)]),
        ("two-block", "X40. Z-20. R-1. F.2", "Z-30. R-2.", [(36, 2), (40, -30)]),
        ("two-block", "X40. Z-20. F.2", "Z-30. R-2.", [(36, 2), (40, -30)]),
        ("one-block", "X40. Z-20. I-1. F.2", "Z-30.", [(38, 2), (40, -30)]),
    ],
)
def test_a_box_keeps_its_taper_till_another_is_said(dialect, cycle, text, ways):
    run = run_of(f"{HEAD}G90 {cycle}\n{text}\nM30", dialect)
    assert [(m.x1 / 1000, m.z1 / 1000) for m in run.motions[1:]][4:6] == ways


def test_the_taper_of_a_facing_box_is_along_z():
    run = run_of(f"{HEAD}G94 X30. Z-2. K-1. F.2\nM30", "one-block")
    assert [(m.x1 / 1000, m.z1 / 1000) for m in run.motions[1:]] == [(44, -3), (30, -2), (30, 2), (44, 2)]


@pytest.mark.parametrize(("first", "passes"), [(71, 199), (70, 200), (69, 200)])
def test_a_thread_has_two_hundred_passes_at_most(first, passes):
    """1 high: the root of the number of the pass times 0.071 reaches it with the 199th, times 0.070 with the 205th."""
    run = run_of(f"{HEAD}G76 P010060 Q100 R0\nG76 X40. Z-20. P1000 Q{first} F1.5\nM30")
    assert [str(f.code) for f in run.findings if f.stops] == []
    assert sum(m.kind == "feed" for m in run.motions) == passes


@pytest.mark.parametrize(
    ("start", "contour", "back"),
    [
        ("44.", "N1 G00 X36.\nG01 Z-5. F.1\nX40.\nX39.999 Z-7.\nN2 X44.", True),
        ("44.", "N1 G00 X36.\nG01 Z-5. F.1\nX40.\nX40. Z-7.\nN2 X44.", False),
        ("18.", "N1 G00 X30.\nG01 Z-5. F.1\nX24.\nX24.001 Z-7.\nN2 X18.", True),
        ("18.", "N1 G00 X30.\nG01 Z-5. F.1\nX24.\nX24. Z-7.\nN2 X18.", False),
    ],
)
def test_a_contour_that_turns_back_by_a_count_is_told(start, contour, back):
    """Outside it turns back where it goes in again, in a bore where it goes out again."""
    head = HEAD.replace("X44.", f"X{start}")
    found = [code for code, _ in told(f"G71 U1. R.5\nG71 P1 Q2 U0 W0 F.3\n{contour}", head)]
    assert found == ["contour-turns-back"] * back


@pytest.mark.parametrize(
    ("words", "cut", "stopped"),
    [
        ("G50 X60. Z5.", "X50.", False),
        ("G50 X60. Z5.", "Z4.", False),
        ("G50 X60.", "X50.", True),
        ("G50 X60.", "Z4.", False),
        ("G50 Z5.", "Z4.", True),
        ("G50 Z5.", "X50.", False),
    ],
)
def test_a_zero_says_where_the_tool_stands_along_the_axes_that_it_names(words, cut, stopped):
    run = run_of(f"G21 G99\nT0303\nG97 S800 M03\n{words}\nG01 {cut} F.1\nM30")
    assert [str(f.code) for f in run.findings if f.stops] == ["place-unknown"] * stopped


@pytest.mark.parametrize(("words", "first"), [("G28 U0", False), ("G28 W0", True), ("G28 U0 W0", False)])
def test_a_first_move_along_z_is_no_riddle_from_home_along_x(words, first):
    codes = [code for code, _ in told(f"{words}\nG00 Z5.", "G21 G99\nT0303\nG97 S800 M03\n")]
    assert ("first-move-along-z" in codes) is first


@pytest.mark.parametrize(
    ("place", "said"), [("G00 X44. Z2.\n", "G97 has no S here"), ("", "The spindle turns with no S for its mode")]
)
def test_no_speed_is_kept_from_a_diameter_that_nobody_said(place, said):
    head = f"G21 G99\nT0303\nG50 S2000\nG96 S100 M03\n{place}"
    (found,) = [f for f in run_of(f"{head}G97\nM30").findings if f.code == "speed-not-said"]
    assert found.message.startswith(said)


@pytest.mark.parametrize("words", ["P1", "Q2"])
@pytest.mark.parametrize("cycle", ["G71", "G72", "G73"])
def test_a_rough_cycle_says_both_ends_of_its_contour(cycle, words):
    """Without the one it was taken for a block of settings, and the blocks of the contour for plain moves."""
    found = run_of(f"{HEAD}{cycle} {words} U.5 W.1\nN1 G00 X36.\nG01 Z-10. F.1\nN2 X44.\nM30").findings
    assert [(str(f.code), f.line) for f in found] == [("contour-missing", 5)]
    assert found[0].message == "The roughing cycle doesn't say where its contour stands; give P and Q."


@pytest.mark.parametrize(("across", "milliseconds"), [("X0", 600), ("X.001", 600), ("X.002", 1200), ("X-.002", 1200)])
def test_a_dwell_in_turns_on_the_axis_is_at_the_speed_of_one_count(across, milliseconds):
    """100 m/min over pi times 0.001 mm are 31,830,989 turns a minute, and 318,310 of those are 0.6 s."""
    head = HEAD.replace("G97 S800", "G96 S100").replace("X44.", across)
    assert Dwell(milliseconds) in run_of(f"{head}G04 S318310\nM30").steps


@pytest.mark.parametrize(("speed", "milliseconds"), [("S200000", 1), ("S40000", 2), ("S20000", 3)])
def test_a_dwell_in_turns_lasts_a_millisecond_at_least(speed, milliseconds):
    assert Dwell(milliseconds) in run_of(f"{HEAD.replace('S800', speed)}G04 S1\nM30").steps


@pytest.mark.parametrize(
    ("words", "arc"),
    [
        ("R2.", Arc(feed=0, x=44_000, z=-2_000, radius=2_000, clockwise=True)),
        ("R2. F.1", Arc(feed=1_000, x=44_000, z=-2_000, radius=2_000, clockwise=True)),
        ("R2. I0 K-2. F.1", None),
        ("R2. K-2. F.1", None),
        ("F.1", None),
    ],
)
def test_an_arc_has_a_radius_or_a_centre_and_its_own_feed(words, arc):
    """From Z2 to Z-2 on one diameter with a radius of 2: half a turn."""
    run = run_of(f"{HEAD}G02 X44. Z-2. {words}\nM30")
    assert [one for one in run.steps if isinstance(one, Arc)] == ([] if arc is None else [arc])
    assert ("arc" in [f.code for f in run.findings]) is (arc is None)


@pytest.mark.parametrize(
    ("height", "first", "told"), [(3000, 1000, False), (3001, 1000, True), (2000, 0, False), (2001, 0, True)]
)
def test_a_thread_is_no_higher_than_its_way_from_the_start(height, first, told):
    """From 44 to 40 are 2 on the radius: its first pass leaves that and no more."""
    text = f"G76 P010060 Q100 R0\nG76 X40. Z-20. P{height} Q{first} F1.5"
    assert [str(f.code) for f in run_of(f"{HEAD}{text}\nM30").findings] == ["thread-height"] * told


@pytest.mark.parametrize(("end", "code"), [(-10.002, []), (-10.003, ["arc-off-circle"]), (-9.997, ["arc-off-circle"])])
def test_an_end_two_counts_beside_its_circle_comes_of_whole_counts_alone(end, code):
    """About a centre 5 behind the start, on one diameter: half a turn ends 10 behind it."""
    run = run_of(f"{HEAD}G01 Z0 F.1\nG02 X44. Z{end} I0 K-5.\nM30")
    assert [str(f.code) for f in run.findings] == code


def test_a_thread_without_a_first_depth_is_cut_in_one_pass():
    found = moves("G76 P010060 Q100 R0\nG76 X43. Z-20. P500 F1.5")
    assert found == [("rapid", 43, 2), ("feed", 43, -20), ("rapid", 44, -20), ("rapid", 44, 2)]


@pytest.mark.parametrize(
    ("words", "lacks"),
    [
        ("P500 Q200", None),
        ("K.5 D200", None),
        ("P500", "the depth of the first pass by Q or D"),
        ("Q200", "the height of the thread by P or K"),
        ("", "the height of the thread by P or K and the depth of the first pass by Q or D"),
    ],
)
def test_a_thread_in_many_passes_says_how_high_it_is_and_how_deep_its_first_pass(words, lacks):
    """A control that isn't told so ends with an alarm, or cuts all of it at once (common practice, no source)."""
    found = run_of(f"{HEAD}G76 P010060 Q100 R0\nG76 X43. Z-20. {words} F1.5\nM30").findings
    assert [str(f.code) for f in found] == ([] if lacks is None else ["cycle-word-missing"])
    assert lacks is None or f"lacks {lacks}, so" in found[0].message


@pytest.mark.parametrize(("measure", "start", "x"), [("diameter", "44.", 37), ("radius", "22.", 38)])
def test_an_allowance_is_measured_as_x_is(measure, start, x):
    """1 on the diameter, or on the radius 2 on the diameter: the last pass is along 36 with that on it."""
    tongue = read_dialect(f'base = "two-block"\n[numbers]\nx = "{measure}"\n', "measured")
    near, far = ("36.", "44.") if measure == "diameter" else ("18.", "22.")
    text = HEAD.replace("X44.", f"X{start}")
    text += f"G71 U4. R1.\nG71 P1 Q2 U1. W.5 F.3\nN1 G00 X{near}\nG01 Z-10. F.1\nN2 X{far}\nM30\n"
    run = run_of(text, tongue)
    assert [(m.kind, m.x1 / 1000, m.z1 / 1000) for m in run.motions][-4:] == [
        ("rapid", x, 2.5),
        ("feed", x, -9.5),
        ("feed", x + 8, -9.5),
        ("rapid", 44, 2),
    ]


@pytest.mark.parametrize(("word", "passes"), [("D2000", 2), ("D1000", 4), ("D-2000", 2), ("D0", 0), ("", 1)])
def test_a_depth_in_the_block_of_the_cycle_is_taken_over_that_of_the_block_before(word, passes):
    """From 44 to 36 are 4 on the radius; a level that lies on the contour itself is left to its last pass."""
    shape = "N1 G00 X35.\nG01 Z-10. F.1\nN2 X44."
    found = moves(f"G71 U3. R1.\nG71 P1 Q2 U0 W0 {word} F.3\n{shape}")
    assert len([one for one in found if one[0] == "feed" and one[2] == -10]) == passes + 2
