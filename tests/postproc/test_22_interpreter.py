"""What a control does with each word: moves and what is in force during them; and what it can't be trusted with."""

import pytest
from support.programs import codes, run_of

from extractor.finding import Level, stopped
from postproc.reading.interpreter import FAR_HOME

HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"


def moves(run, first=1):
    """Kind and ends of the moves from the given one on, lengths in mm."""
    return [(m.kind, m.x0 / 1000, m.z0 / 1000, m.x1 / 1000, m.z1 / 1000) for m in run.motions[first:]]


def after(text, **how):
    """The run of a text behind the usual head."""
    return run_of(f"{HEAD}{text}\nM30", **how)


def test_rapids_and_cuts():
    assert moves(after("G01 X34. F0.08\nG00 X42.\nZ-18.")) == [
        ("feed", 42, -13, 34, -13),
        ("rapid", 34, -13, 42, -13),
        ("rapid", 42, -13, 42, -18),
    ]


def test_before_any_tool_is_called_none_is_there_and_a_number_may_stand_before_other_words():
    (move,) = run_of("O1 G21 G99\nG00 X42.\nM30").motions
    assert (move.station, move.offset, move.x1) == (0, 0, 42_000)
    assert run_of("O1 G20\nG00 X1.\nM30").units == "in"


def test_what_is_in_force_rides_along():
    run = run_of(
        "G21 G99\nT0305\nG50 S2500\nG96 S120 M03\nG00 X42. Z0.\nG01 X30. F.08\nG97 S500 M04\nX20.\nM05\nX10.\nM30"
    )
    cut, slow, still = run.motions[1:]
    assert (cut.station, cut.offset, cut.feed, cut.speed, cut.surface, cut.clamp, cut.turning) == (
        3,
        5,
        800,
        120,
        True,
        2500,
        True,
    )
    assert (slow.speed, slow.surface, slow.feed, slow.turning) == (500, False, 800, True)
    assert not still.turning
    assert not cut.per_minute
    assert [m.line for m in run.motions] == [5, 6, 8, 10]
    assert run.motions[0].feed is None


def test_feed_modes():
    run = after("G98 G01 X40. F100\nG99\nX38.\nX36. F.1")
    assert [(m.feed, m.per_minute) for m in run.motions[1:]] == [(1_000_000, True), (None, False), (1_000, False)]
    assert not stopped(run.findings)


def test_a_feed_without_a_point_counts_least_increments_and_says_so():
    run = after("G01 X34. F8")
    assert run.motions[-1].feed == 8
    assert "it counts least increments: 0.0008 mm; write the point" in run.findings[0].message


def test_a_cut_with_no_feed_has_none():
    assert after("G01 X34.").motions[-1].feed is None


@pytest.mark.parametrize("word", ["F0.", "F-.1"])
def test_a_feed_is_above_zero(word):
    run = after(f"G01 X34. {word}")
    assert ("no-feed", 5) in codes(run)
    assert run.motions[-1].feed is None


def test_inches():
    run = run_of("G20 G99\nT0101\nG00 X1.6 Z-.225\nG01 X1.3 F.004\nM30", units="mm")
    assert (run.units, run.units_line) == ("in", 1)
    assert (run.motions[-1].x1, run.motions[-1].z1, run.motions[-1].feed) == (13_000, -2_250, 400)


def test_a_second_unit_word_must_agree():
    assert not codes(after("G21"))
    assert codes(after("G20")) == [("units-changed", 5)]
    assert "change to inches in the middle" in after("G20").findings[0].message


def test_moves_before_the_unit_word_are_not_trusted():
    assert codes(run_of("G00 X42. Z1.\nG21\nM30")) == [("units-late", 1)]
    assert codes(run_of("G28 U0 W0\nG21\nM30")) == []


def test_no_unit_word():
    said = run_of("G00 X42. Z1.\nM30", units="in")
    assert [(f.code, f.level) for f in said.findings] == [("units-not-said", Level.CAUTION)]
    assert said.units == "in"
    assert "was read in inches" in said.findings[0].message
    assert [(f.code, f.level) for f in run_of("G00 X42.\nM30", units=None).findings] == [("units-unknown", Level.STOP)]


@pytest.mark.parametrize("word", ["X42", "Z-13", "U8", "W-5", "F8"])
def test_a_length_without_a_point_counts_increments_and_is_a_stop(word):
    run = after(f"G01 {word} F.08" if word[0] != "F" else f"G01 X30. {word}")
    (finding,) = run.findings
    assert (finding.code, finding.line, finding.level) == ("no-decimal-point", 5, Level.STOP)
    assert f"{word} at column" in finding.message
    ends = {"X42": (42, -13_000), "Z-13": (42_000, -13), "U8": (42_008, -13_000), "W-5": (42_000, -13_005)}
    assert (run.motions[-1].x1, run.motions[-1].z1) == ends.get(word, (30_000, -13_000))
    assert run.motions[-1].feed == (8 if word == "F8" else 800)


@pytest.mark.parametrize("word", ["X0", "Z0", "U0", "W-0", "Z00"])
def test_nothing_is_nothing_with_or_without_a_point(word):
    assert not after(f"G00 {word}").findings


def test_more_digits_than_the_control_keeps():
    run = after("G00 X41.9996")
    assert [(f.code, f.level) for f in run.findings] == [("finer-than-increment", Level.CAUTION)]
    assert run.motions[-1].x1 == 42_000
    assert not after("G00 X41.999000").findings


def test_increments_by_u_and_w():
    assert moves(after("G01 U-8. F.08\nG00 U8. W-5.")) == [("feed", 42, -13, 34, -13), ("rapid", 34, -13, 42, -18)]


def test_increments_by_g91_where_the_dialect_has_it():
    text = "G71 G90 G95\nG00 X42. Z-13.\nG91\nG01 X-8. F.08\nG00 X8. Z-5.\nG90\nG00 X100.\nM30"
    assert moves(run_of(text, "plunge")) == [
        ("feed", 42, -13, 34, -13),
        ("rapid", 34, -13, 42, -18),
        ("rapid", 42, -18, 100, -18),
    ]


def test_an_axis_said_twice():
    assert codes(after("G00 X40. U-2.")) == [("repeated-word", 5)]
    assert codes(after("G00 X40. X41.")) == [("repeated-word", 5)]
    assert after("G00 X40. X41.").motions[-1].x1 == 41_000


def test_the_first_place_is_unknown_until_it_is_said():
    run = run_of("G21 G99\nT0101\nG00 Z-13.\nG00 X42.\nZ-20.\nM30")
    known = [(m.x0_known, m.z0_known) for m in run.motions]
    assert known == [(False, False), (False, True), (True, True)]
    assert (run.motions[0].x0, run.motions[0].z0) == FAR_HOME
    assert run_of("G21\nG00 Z0.\nM30", home=(300_000, 200_000)).motions[0].x0 == 300_000


def test_an_increment_from_an_unknown_place_is_unknown_too():
    run = run_of("G21 G99\nT0101\nG97 S500 M03\nG00 U-10. Z-5.\nG01 U-4. F.1\nX20.\nM30")
    assert [m.x0_known for m in run.motions] == [False, False, False]
    assert [(f.code, f.line) for f in run.findings] == [("first-move-along-z", 4), ("place-unknown", 5)]
    assert "made at X that the program never gave" in run.findings[1].message
    both = run_of("G21 G99\nG28 U0 W0\nG97 S500 M03\nG03 U-4. W-2. R2. F.1\nM30")
    assert "X and Z" in both.findings[0].message


def test_the_way_to_the_reference_point():
    run = after("G28 U0 W0\nG00 X50.", home=(300_000, 200_000))
    assert moves(run) == [("rapid", 42, -13, 300, 200), ("rapid", 300, 200, 50, 200)]
    assert (run.motions[-1].x0_known, run.motions[-1].z0_known) == (False, False)
    over = after("G28 X60. Z5.", home=(300_000, 200_000))
    assert moves(over) == [("rapid", 42, -13, 60, 5), ("rapid", 60, 5, 300, 200)]
    only_x = after("G00 G28 U0.", home=(300_000, 200_000))
    assert moves(only_x) == [("rapid", 42, -13, 300, -13)]
    assert codes(after("G28")) == [("home", 5)]
    assert moves(after("G30 P2 U0 W0", home=(300_000, 200_000))) == [("rapid", 42, -13, 300, 200)]
    assert moves(after("G00 G53 X0 Z0", home=(300_000, 200_000))) == [("rapid", 42, -13, 300, 200)]


def test_g50_with_s_clamps_and_with_axes_says_where_the_tool_stands():
    assert after("G50 S2000\nG00 X40.").motions[-1].clamp == 2_000
    run = run_of("G21\nG50 X200. Z100.\nG00 X42.\nX200.\nM30")
    assert moves(run, 0)[:1] == [("rapid", 200, 100, 42, 100)]
    assert run.motions[0].x0_known
    assert not run.findings
    both = run_of("G21\nG50 X200. Z100. S1500\nG00 X42.\nM30")
    assert (both.motions[0].x0, both.motions[0].clamp) == (200_000, 1_500)
    assert codes(after("G50 X50. Z0.")) == [("zero-shift", 5)]
    assert codes(after("G50 U1.")) == [("zero-shift", 5)]
    assert not codes(after("G50 X42. Z-13."))
    assert codes(after("G50")) == [("unknown-word", 5)]


def test_work_offsets():
    assert not run_of("G21\nG54\nG00 X42.\nG54\nM30").findings
    assert codes(run_of("G21\nG55\nG00 X42.\nM30")) == [("work-offset", 2)]
    assert codes(run_of("G21\nG54\nG00 X42.\nG055\nM30")) == [("zero-shift", 4)]


@pytest.mark.parametrize(
    ("word", "station", "offset"), [("T0303", 3, 3), ("T303", 3, 3), ("T1201", 12, 1), ("T0300", 3, 0), ("T0000", 3, 0)]
)
def test_tools(word, station, offset):
    run = after(f"{word}\nG00 X50.")
    assert (run.motions[-1].station, run.motions[-1].offset) == (station, offset)
    assert not run.findings


def test_tool_words_that_are_not_plain():
    assert [(f.code, f.level) for f in after("T3").findings] == [("tool-word", Level.CAUTION)]
    for word in ("T030303", "T3.", "T-303"):
        assert [(f.code, f.level) for f in after(word).findings] == [("tool-word", Level.STOP)]


def test_words_of_one_block_take_effect_in_the_order_of_the_control():
    run = run_of("G21 G99\nM05 X42. G00 Z5. M03 S700 G97 T0404\nM30")
    assert (run.motions[0].station, run.motions[0].speed, run.motions[0].turning) == (4, 700, True)
    assert codes(run) == [("two-of-a-group", 2)]


def test_the_end_ends():
    run = after("M30\nG00 X0.")
    assert run.ended
    assert [(f.code, f.line, f.level) for f in run.findings] == [("not-run", 6, Level.CAUTION)]
    assert len(run.motions) == 1
    assert codes(run_of("G21\nG00 X42.")) == [("no-end", 2)]


def test_a_place_needs_a_motion_word_and_the_sentence_names_both():
    (finding,) = run_of("G21\nX42. Z-13.\nM30").findings
    assert finding.code == "no-motion-word"
    assert (
        finding.message
        == "A place without a motion word (X42. Z-13.) can't come before any motion word; put G00 or G01 in its block."
    )
    assert finding.line == 2


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("N5 G10 P9000", "G10 (setting of data) at column 4"),
        ("G94", "G94 (facing cycle)"),
        ("G71", "G71 (roughing cycle along Z)"),
        ("G92 X100. Z50.", "G92 (threading cycle)"),
        ("G31 Z-20. F.1", "G31 at column 1"),
        ("G10 L2 P1", "G10 (setting of data)"),
        ("G54.2 P1", "G54.2 at column 1"),
        ("G-1", "G-1 at column 1"),
        ("G1000", "G1000"),
        ("M97", "M97 (call of a subprogram) at column 1"),
        ("M198 P5", "M198 (call of a program in another store)"),
        ("M17", "M17 (end of a subprogram)"),
        ("M10000", "M10000"),
        ("M3.5", "M3.5"),
        ("G00 X40. E5", "E5 at column 10"),
        ("G00 X40. R.5", "R.5 at column 10"),
        ("G00 X40. ,C.5", ",C.5 at column 10"),
        ("G00 X40. O5", "O5 at column 10"),
        ("G00 X40. N20", "N20 at column 10"),
        ("P1000", "P1000 at column 1"),
        ("D3", "D3 at column 1"),
        ("G00 X40. H2", "H2 at column 10"),
        ("M08 P2", "P2 at column 5"),
    ],
)
def test_words_that_mean_nothing_known_are_stops_with_line_and_column(text, part):
    run = after(text)
    (finding,) = run.findings
    assert (finding.code, finding.line, finding.level) == ("unknown-word", 5, Level.STOP)
    assert part in finding.message
    assert "two-block" in finding.message


def test_a_block_with_an_unknown_g_moves_nothing():
    assert len(after("G31 Z-20. F1.5").motions) == 1
    assert len(after("G10 G00 X0.").motions) == 1


@pytest.mark.parametrize(
    "text", ["G00 G01 X40. F.1", "G21 G20", "G96 G97 S100", "G98 G99", "M03 M04 S100", "G04 G28 U0"]
)
def test_words_of_one_group_exclude_each_other(text):
    assert "two-of-a-group" in [code for code, _ in codes(after(text))]


@pytest.mark.parametrize(
    "text",
    ["G40 G18 G80 G49", "G64", "G61", "G69", "M00", "M01", "M06", "M42", "G00 G40 X42. M08", "G00 G96 S100 X42."],
)
def test_words_that_move_nothing_are_taken(text):
    assert not after(text).findings


@pytest.mark.parametrize(
    ("word", "ms"), [("P250", 250), ("X.25", 250), ("U0.25", 250), ("X250", 250), ("P.25", 250), ("F.25", 250)]
)
def test_dwell(word, ms):
    run = after(f"G04 {word}")
    assert run.steps[-1].milliseconds == ms
    assert len(run.motions) == 1
    assert codes(after("G04")) == [("dwell", 5)]
    assert after("F.25 G04").steps[-1].milliseconds == 250
    assert after("G04 P250 F.2\nG01 X40.").motions[-1].feed == 2_000


def test_a_spindle_that_turns_with_no_speed():
    assert codes(run_of("G21\nM03\nM30")) == [("speed-not-said", 2)]
    assert not codes(run_of("G21\nG97\nS500 M03\nM30"))
    assert codes(run_of("G21\nG97 S-500 M03\nM30")) == [("signed-amount", 2)]


def test_each_spindle_mode_keeps_its_own_speed():
    run = after("G96 S120\nG00 X40.\nG97\nG00 X42.\nG96\nX41.")
    assert [(m.speed, m.surface) for m in run.motions[1:]] == [(120, True), (800, False), (120, True)]


def test_feed_mode_is_asked_for_once():
    run = run_of("G21\nT0101\nG00 X42. Z0.\nG01 X40. F.1\nX38.\nM30")
    assert [(f.code, f.line, f.level) for f in run.findings] == [("feed-mode-not-said", 4, Level.CAUTION)]
    cycle = run_of("G21\nT0101\nG00 X42. Z0.\nG75 R.5\nG75 X40. P1000 F.1\nM30")
    assert [(f.code, f.line) for f in cycle.findings] == [("feed-mode-not-said", 5)]


@pytest.mark.parametrize("dialect", ["two-block", "one-block"])
def test_the_other_code_system_is_read_where_it_stands_alone(dialect):
    text = "G21 G90 G95\nG92 S2500\nG96 S120 M03\nG00 X42. Z-13.\nG91 G01 X-8. F.08\nG90 G00 X42.\nM30"
    run = run_of(text, dialect)
    assert not run.findings
    assert run.motions[1].x1 == 34_000
    assert run.motions[1].clamp == 2_500


@pytest.mark.parametrize(
    "text", ["G50 S2000\nG94", "G98\nG92", "G99\nG91", "G99\nG92 X40. Z-5.", "G99\nG92 S9 X1.", "G21\nG71"]
)
def test_the_two_code_systems_do_not_mix(text):
    assert "unknown-word" in [code for code, _ in codes(run_of(f"G21\n{text}\nM30"))]


def test_units_by_the_other_code_system():
    run = run_of("G71 G95\nG00 X42.\nM30")
    assert (run.units, run.units_line, run.findings) == ("mm", 1, ())
    assert run_of("G70 G90\nG00 X1.\nM30", units="mm").units == "in"
    assert "unknown-word" in [code for code, _ in codes(run_of("G00 X42. Z0.\nG71 U1. R.5\nM30"))]


def test_words_that_can_only_be_meant_one_way_are_taken_beside_with_a_caution():
    run = run_of("G21 G90 G99\nG92 S2500\nG95\nG96 S120 M03\nG00 X42. Z-13.\nG50 S2400\nM30")
    assert [(f.code, f.line, f.level) for f in run.findings] == [
        ("code-systems-mixed", 1, Level.CAUTION),
        ("code-systems-mixed", 2, Level.CAUTION),
        ("code-systems-mixed", 3, Level.CAUTION),
    ]
    assert run.motions[0].clamp == 2_500


def test_a_bare_place_after_such_a_word_could_be_a_turning_cycle():
    assert ("no-motion-word", 6) in codes(after("G90\nX40. Z-20."))
    assert len(after("G90\nX40. Z-20.").motions) == 1


def test_block_skip():
    text = "/G00 X40.\nG00 Z-20."
    assert [m.x1 for m in after(text).motions[1:]] == [40_000, 40_000]
    assert [m.x1 for m in after(text, skip=True).motions[1:]] == [42_000]


def test_radius_dialects_double_x():
    from postproc.dialects import read_dialect

    radius = read_dialect('numbers.x = "radius"', "radius")
    run = run_of("G21 G99\nG00 X21. Z0.\nG01 U-4. F.1\nM30", radius)
    assert [(m.x1) for m in run.motions] == [42_000, 34_000]


def test_dialects_that_need_no_point():
    from postproc.dialects import read_dialect

    whole = read_dialect('numbers.point = "optional"', "whole")
    run = run_of("G21 G99\nG00 X42 Z-1\nG01 X40.5 F1\nM30", whole)
    assert [(m.x1, m.z1, m.feed) for m in run.motions] == [(42_000, -1_000, None), (40_500, -1_000, 10_000)]
    assert not run.findings


def test_findings_of_one_kind_are_not_a_flood():
    run = after("\n".join(f"G00 X{n + 10}" for n in range(100)))
    assert len(run.findings) == 21
    assert "more places" in run.findings[-1].message
    assert run.motions[-1].x1 == 109


def test_a_clamp_that_comes_after_the_spindle_turns_is_a_caution():
    late = run_of("G21 G99\nT0303\nG96 S120 M03\nG50 S2500\nG00 X42. Z-13.\nM30")
    assert [(f.level, f.code, f.line) for f in late.findings] == [("caution", "clamp-late", 4)]
    for before in ("G50 S2500\nG96 S120 M03", "G97 S500 M03\nG50 S2500\nG96 S120"):
        assert not run_of(f"G21 G99\nT0303\n{before}\nG00 X42. Z-13.\nM30").findings
