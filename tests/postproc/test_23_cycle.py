"""The grooving cycle as a control runs it, in both spellings, with everything that can be wrong about it."""

import pytest
from support.programs import codes, run_of

from extractor.finding import Level, stopped

HEAD = {
    "mm": "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n",
    "in": "G20 G99\nT0303\nG97 S800 M03\nG00 X1.6 Z-.225\n",
}


def cycle(text, dialect="two-block", units="mm"):
    """The run of a cycle behind the usual head; the cycle begins on line 5."""
    return run_of(f"{HEAD[units]}{text}\nM30", dialect)


def floors(run):
    """Where feed moves end, deepest of each z, in the order of the text, in mm or inch."""
    deepest = {}
    for motion in run.motions:
        if motion.kind == "feed":
            deepest[motion.z1] = min(motion.x1, deepest.get(motion.z1, 10**9))
    per = run.increments.per_length
    return {z / per: x / per for z, x in deepest.items()}


@pytest.mark.parametrize(
    ("dialect", "text"),
    [("two-block", "G75 R0.5\nG75 X34. Z-28. P1000 Q5000 F.08"), ("one-block", "G75 X34. Z-28. I1. K5. F.08")],
)
def test_a_row_of_four(dialect, text):
    run = cycle(text, dialect)
    assert floors(run) == {-13: 34, -18: 34, -23: 34, -28: 34}
    assert not run.findings
    assert (run.motions[-1].x1, run.motions[-1].z1) == (42_000, -13_000)
    assert all(motion.cycle == 0 for motion in run.motions[1:])
    (call,) = run.cycles
    assert (call.start_x, call.start_z, call.floor_x, call.end_z) == (42_000, -13_000, 34_000, -28_000)
    assert (call.peck, call.shift, call.relief, call.feed, call.left_over, call.pecks) == (1_000, 5_000, 0, 800, 0, 4)
    assert call.retract == (500 if dialect == "two-block" else None)


def test_the_moves_of_one_groove_by_hand():
    # Worked by hand: from 42 to 37 is 2.5 radial; pecks of 1 end at 40, 38, then what remains; back off 0.5 radial.
    run = cycle("G75 R.5\nG75 X37. P1000 F.08")
    assert [(m.kind, m.x1) for m in run.motions[1:]] == [
        ("feed", 40_000),
        ("rapid", 41_000),
        ("feed", 38_000),
        ("rapid", 39_000),
        ("feed", 37_000),
        ("rapid", 42_000),
    ]


@pytest.mark.parametrize(("last", "number"), [("Z-.425", 2), ("Z-.825", 4)])
def test_the_inch_case_of_two_and_four_grooves(last, number):
    # Common practice, no source: from Z-0.225 to Z-0.425 at 0.200 are two grooves, to Z-0.825 four.
    run = cycle(f"G75 R.02\nG75 X1.3 {last} P400 Q2000 F.004", units="in")
    assert len(floors(run)) == number
    assert not run.findings
    assert run.cycles[0].peck == 400


def test_an_end_that_is_no_whole_number_of_shifts_cuts_one_more():
    # A third of an inch is no whole number of 0.0001 in: 3333 three times falls one short of an inch.
    run = cycle("G75 R.02\nG75 X1.3 Z-1.225 P400 Q3333 F.004", units="in")
    assert list(floors(run)) == [-0.225, -0.5583, -0.8916, -1.2249, -1.225]
    assert run.cycles[0].left_over == 1


def test_the_shift_goes_toward_the_end_whichever_way_that_is():
    run = cycle("G75 R.5\nG75 X34. Z-3. P1000 Q5000 F.08")
    assert list(floors(run)) == [-13, -8, -3]


@pytest.mark.parametrize("text", ["G75 U-8. W-15. P1000 Q5000 F.08", "G75 X34. W-15. P1000 Q5000 F.08"])
def test_ends_by_increment(text):
    assert floors(cycle(f"G75 R.5\n{text}")) == {-13: 34, -18: 34, -23: 34, -28: 34}


def test_the_retract_stays_in_force_for_later_calls():
    run = cycle("G75 R.5\nG75 X34. P1000 F.08\nG00 Z-20.\nG75 X34. P1000 F.08")
    assert [call.retract for call in run.cycles] == [500, 500]
    assert not run.findings


def test_a_call_with_no_retract_block_goes_by_what_the_control_has():
    run = cycle("G75 X34. P1000 F.08")
    assert [(f.code, f.level) for f in run.findings] == [("retract-not-said", Level.CAUTION)]
    assert run.cycles[0].retract is None
    assert floors(run) == {-13: 34}


@pytest.mark.parametrize(("text", "count"), [("R500", 500), ("R.5", 500), ("R0.5", 500), ("R0", 0)])
def test_the_retract_may_be_a_decimal_or_not(text, count):
    run = cycle(f"G75 {text}\nG75 X34. P1000 F.08")
    assert run.cycles[0].retract == count
    assert not run.findings


def test_a_retract_that_is_hardly_meant():
    run = cycle("G75 R1\nG75 X34. P1000 F.08")
    assert [(f.code, f.level) for f in run.findings] == [("small-retract", Level.CAUTION)]
    assert "0.001 mm" in run.findings[0].message


def test_relief_at_the_floor_is_followed_and_told():
    # Against the direction of the shift, after the floor is reached (a trade page on the two-block form).
    run = cycle("G75 R.5\nG75 X34. Z-18. P4000 Q5000 R.2 F.08")
    assert run.cycles[0].relief == 200
    assert [(m.x1, m.z1) for m in run.motions if m.kind == "feed"] == [
        (34_000, -13_000),
        (34_000, -12_800),
        (34_000, -18_000),
        (34_000, -17_800),
    ]
    assert (run.motions[-1].x1, run.motions[-1].z1) == (42_000, -13_000)
    assert cycle("G75 R.5\nG75 X34. P4000 R0 F.08").cycles[0].relief == 0


@pytest.mark.parametrize(
    ("dialect", "text", "code"),
    [
        ("two-block", "G75 X34. P1. F.08", "point-in-whole-word"),
        ("two-block", "G75 X34. Z-28. P1000 Q5. F.08", "point-in-whole-word"),
        ("two-block", "G75 X34. P-1000 F.08", "signed-amount"),
        ("two-block", "G75 X34. Z-28. P1000 Q-5000 F.08", "signed-amount"),
        ("two-block", "G75 X34. Z-28. P1000 F.08", "cycle-word-missing"),
        ("two-block", "G75 X34. Z-28. P1000 Q0 F.08", "cycle-word-missing"),
        ("two-block", "G75 Z-28. P1000 Q5000 F.08", "cycle-word-missing"),
        ("two-block", "G75 P1000", "cycle-word-missing"),
        ("two-block", "G75", "cycle-word-missing"),
        ("two-block", "G75 X42. P1000 F.08", "cycle-without-motion"),
        ("two-block", "G75 U0 W0 P1000 F.08", "cycle-without-motion"),
        ("two-block", "G75 X34 P1000 F.08", "no-decimal-point"),
        ("two-block", "G75 X34. Z-28 P1000 Q5000 F.08", "no-decimal-point"),
        ("two-block", "G75 X34. P1000 I1. F.08", "unknown-word"),
        ("two-block", "G75 X34. P1000 D.2 F.08", "unknown-word"),
        ("one-block", "G75 X34. I1 F.08", "no-decimal-point"),
        ("one-block", "G75 X34. Z-28. I1. K5 F.08", "no-decimal-point"),
        ("one-block", "G75 X34. I-1. F.08", "signed-amount"),
        ("one-block", "G75 X34. Z-28. I1. K-5. F.08", "signed-amount"),
        ("one-block", "G75 X34. Z-28. I1. F.08", "cycle-word-missing"),
        ("one-block", "G75 X34. I1. R.5 F.08", "unknown-word"),
        ("one-block", "G75 R.5", "cycle-word-missing"),
        ("one-block", "G75 X34. P1000 F.08", "unknown-word"),
        ("plunge", "G75 X34. P1000 F.08", "unknown-word"),
    ],
)
def test_calls_that_are_wrong_are_stops_on_their_line(dialect, text, code):
    retract = "G75 R.5\n" if dialect == "two-block" else ""
    run = cycle(retract + text, dialect)
    stops = [(f.code, f.line) for f in run.findings if f.level is Level.STOP]
    assert (code, 6 if retract else 5) in stops
    assert {found for found, _ in stops} == {code}


def test_amounts_that_are_wrong_are_cut_as_they_stand():
    assert cycle("G75 R.5\nG75 X34. P1. F.08").cycles[0].peck == 1_000
    assert cycle("G75 R.5\nG75 X34. Z-18. P1000 Q-5000 F.08").cycles[0].places == (-13_000, -18_000)
    assert cycle("G75 X34. I1 F.08", "one-block").cycles[0].peck == 1
    assert len(floors(cycle("G75 R.5\nG75 X34. Z-28. P1000 F.08"))) == 2
    assert cycle("G75 R.5\nG75 X34. P1. F.08").cycles[0].peck_text == "P1."


@pytest.mark.parametrize("dialect", ["two-block", "one-block"])
def test_a_call_with_no_peck_goes_straight_to_the_floor(dialect):
    run = cycle("G75 R.5\nG75 X34. F.08" if dialect == "two-block" else "G75 X34. F.08", dialect)
    assert [(f.code, f.level) for f in run.findings] == [("peck-not-said", Level.CAUTION)]
    assert run.cycles[0].peck is None
    assert [(m.kind, m.x1) for m in run.motions[1:]] == [("feed", 34_000), ("rapid", 42_000)]


def test_a_start_that_is_not_said_is_a_stop():
    run = run_of("G21 G99\nT0303\nG00 Z-13.\nG75 R.5\nG75 X34. P1000 F.08\nM30")
    assert codes(run) == [("first-move-along-z", 3), ("cycle-start-unknown", 5)]


def test_no_feed_rides_along_as_none():
    run = cycle("G75 R.5\nG75 X34. P1000")
    assert run.cycles[0].feed is None
    assert {m.feed for m in run.motions if m.kind == "feed"} == {None}


def test_the_word_in_force_before_the_cycle_is_in_force_after_it():
    run = cycle("G75 R.5\nG75 X34. P1000 F.08\nX100.")
    assert (run.motions[-1].kind, run.motions[-1].x1) == ("rapid", 100_000)
    assert [(f.code, f.level) for f in run.findings] == [("bare-place", Level.CAUTION)]
    assert not cycle("G75 R.5\nG75 X34. P1000 F.08\nG00 X100.").findings


@pytest.mark.parametrize("block", ["G28 U0 W0", "G28 U0.", "G30 P2 U0 W0", "G53 X0 Z0", "G04 X1.", "G50 X42. Z-13."])
def test_axis_words_of_another_g_word_are_no_bare_place(block):
    run = cycle(f"G75 R.5\nG75 X34. P1000 F.08\n{block}")
    assert "bare-place" not in {f.code for f in run.findings}


@pytest.mark.parametrize(
    ("words", "advice"),
    [
        ("P1000 Q5000.", "write Q5000 if"),
        ("P1000. Q5000", "write P1000 if"),
        ("P1000 Q5.", "write Q5000 if"),
        ("P1. Q5000", "write P1000 if"),
        ("P1000 Q50.", "write Q50000 if"),
        ("P0.5 Q5000", "write P500 if"),
    ],
)
def test_the_number_that_is_meant_by_a_point_too_much(words, advice):
    stops = [f.message for f in cycle(f"G75 R.5\nG75 X34. Z-28. {words} F.08").findings if f.level is Level.STOP]
    assert len(stops) == 1
    assert advice in stops[0]


def test_a_shift_with_a_point_and_no_row_to_hold_it_to():
    stops = [f.message for f in cycle("G75 R.5\nG75 X34. P1000 Q5000. F.08").findings if f.level is Level.STOP]
    assert "write Q5000 if" in stops[0]


def test_a_groove_inside_a_bore_goes_outward():
    run = run_of("G21 G99\nT0303\nG00 X18. Z-13.\nG75 R.5\nG75 X24. Z-18. P1000 Q5000 F.08\nM30")
    assert max(m.x1 for m in run.motions[1:]) == 24_000
    assert {m.x1 for m in run.motions[1:] if m.kind == "rapid"} == {19_000, 21_000, 18_000}
    assert not stopped(run.findings)


def test_a_cycle_of_countless_pecks_is_bounded(monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 5_000)
    run = cycle("G75 R.5\nG75 X1. Z-1013. P1 Q1 F.08")
    assert ("runaway", 6) in codes(run)
    assert len(run.motions) == 5_000


def test_a_retract_below_nought_is_stopped():
    """Common practice, no source: the retract is a radius without a sign; controls differ in what a sign does."""
    run = cycle("G75 R-0.5\nG75 X34. P1000 F.08")
    assert [(f.code, f.level) for f in run.findings] == [("negative-retract", Level.STOP)]
