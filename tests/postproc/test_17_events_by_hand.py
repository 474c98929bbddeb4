"""What the words of one block ask for, each rule where it alone decides: events in the order in which they act."""

from dataclasses import replace

import pytest
from support.programs import run_of
from support.tongues import FIVE

from planner.increment import Increments
from postproc import find_dialect, parse_program
from postproc.dialects import read_dialect
from postproc.reading.control import Mode, Sign
from postproc.reading.interpreter import _Walk
from postproc.reading.log import Log
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

ONE_BLOCK, TWO_BLOCK = find_dialect("one-block"), find_dialect("two-block")


def asked(block, *, dialect=TWO_BLOCK, mode=Mode.COLD, before=""):
    """The events of a block, and the codes of what is said of it, after another in a mode."""
    walk = _Walk(
        parse_program(f"{before or 'M08'}\n{block}\nM30", dialect.assigned), dialect, "mm", (0, 0), False, None
    )
    first, second, _ = walk.parsed.blocks
    walk.events.of(first.words)
    walk.log.findings.clear()
    walk.lathe.control.mode = mode
    return list(walk.events.of(second.words)), [str(f.code) for f in walk.log.findings]


class TestDwells:
    @pytest.mark.parametrize(
        ("block", "signs"),
        [
            ("G04 F2.", []),
            ("G04 S3", []),
            ("G04 F2. S500", [Sign.SPEED]),
            ("G04 P500 F.1", [Sign.FEED]),
            ("G04 X.5 S500", [Sign.SPEED]),
            ("G04 U.5 F.1 S500", [Sign.FEED, Sign.SPEED]),
            ("G04 T0303", [Sign.TOOL]),
            ("G04 F2. T0303", [Sign.TOOL]),
            ("G01 X50. F.1 S500 T0303", [Sign.FEED, Sign.SPEED, Sign.TOOL]),
        ],
    )
    def test_a_word_is_the_time_of_a_dwell_where_no_other_is(self, block, signs):
        events, _ = asked(block)
        assert {one for one in events if one in (Sign.FEED, Sign.SPEED, Sign.TOOL)} == set(signs)

    @pytest.mark.parametrize("block", ["G04 X1.", "G28 U0.", "G53 X0.", "G50 X100. Z50."])
    def test_its_axis_words_are_its_own(self, block):
        """Nothing is said of a place, and no cycle is meant."""
        events, codes = asked(block, before="G75 X34. Z-20. P1000 Q5000 F.1")
        assert (events[-1], codes) == (Sign.PLACE, [])


class TestCycleWithoutItsWord:
    @pytest.mark.parametrize(
        ("dialect", "block", "mode", "meant"),
        [
            (TWO_BLOCK, "X34. P1000", Mode.RAPID, True),
            (TWO_BLOCK, "X34. Q5000", Mode.RAPID, True),
            (TWO_BLOCK, "U-8. Q5000", Mode.RAPID, True),
            (TWO_BLOCK, "X34. P1000", Mode.CLOCKWISE, True),
            (TWO_BLOCK, "Z-20. P1000 Q5000", Mode.RAPID, False),
            (TWO_BLOCK, "X34. R.5", Mode.RAPID, False),
            (TWO_BLOCK, "X34. F.1", Mode.RAPID, False),
            (ONE_BLOCK, "X34. I1.", Mode.RAPID, True),
            (ONE_BLOCK, "X34. K1.", Mode.FEED, True),
            (ONE_BLOCK, "X34. I1.", Mode.CLOCKWISE, False),
            (ONE_BLOCK, "X34. K1.", Mode.COUNTER, False),
            (ONE_BLOCK, "Z-20. I1. K1.", Mode.RAPID, False),
        ],
    )
    def test_the_floor_and_an_amount_are_those_of_the_cycle(self, dialect, block, mode, meant):
        events, codes = asked(block, dialect=dialect, mode=mode)
        assert (Act.GROOVE in events, "cycle-word-missing" in codes) == (meant, meant)
        assert (Sign.PLACE in events) is not meant

    def test_the_words_of_a_call_are_not(self):
        assert Act.GROOVE not in asked("M98 P1000 X34.")[0]

    def test_nor_are_those_of_a_dialect_whose_cycle_has_no_g_word(self):
        assert Act.GROOVE not in asked("X34. P1000", dialect=FIVE["stored-groove"])[0]


class TestBarePlaces:
    @pytest.mark.parametrize(
        ("before", "told"), [("G75 X34. Z-20. P1000 Q5000 F.1", True), ("G75 R.5", True), ("G01 X50. F.1", False)]
    )
    def test_a_place_behind_the_cycle_is_told(self, before, told):
        events, codes = asked("X42.", before=before, mode=Mode.RAPID)
        assert events == [Sign.PLACE]
        assert codes == ["bare-place"] * told

    @pytest.mark.parametrize(
        ("block", "before", "mode", "told"),
        [
            ("G20 X42.", "G20", Mode.FEED, True),
            ("G20 X42.", "G20", Mode.RAPID, False),
            ("G20 X42.", "G99", Mode.FEED, False),
            ("G20 G01 X42.", "G20", Mode.FEED, False),
            ("G20 G99", "G20", Mode.FEED, False),
        ],
    )
    def test_a_place_beside_units_that_were_said_before_is_told_where_it_goes_at_feed(self, block, before, mode, told):
        """G20 is typed for G00, and the way out goes at feed."""
        _, codes = asked(block, before=before, mode=mode)
        assert codes == ["bare-place"] * told

    def test_an_unknown_word_lets_nothing_move(self):
        events, codes = asked("G00 G999 X42. S500")
        assert (events, codes) == ([Sign.SPEED], ["unknown-word"])


class TestGroups:
    @pytest.mark.parametrize(
        ("block", "told"), [("G00 G01 X1.", True), ("G96 G97 S1", True), ("G00 G97 X1.", False), ("G00 G00 X1.", False)]
    )
    def test_two_of_one_group_exclude_each_other(self, block, told):
        assert ("two-of-a-group" in asked(block)[1]) is told

    @pytest.mark.parametrize("takes", ["G53", "G28", "G50", "G04"])
    @pytest.mark.parametrize(
        ("motion", "told"), [("G02", True), ("G03", True), ("G00", False), ("G01", False), ("", False)]
    )
    def test_an_arc_has_no_word_beside_it_that_takes_its_places(self, takes, motion, told):
        """G53 G02 is no way at all; a straight word beside G28 only stays in force (common practice, no source)."""
        codes = asked(f"{takes} {motion} X1. Z1.")[1]
        assert codes == ["two-of-a-group"] * told

    def test_an_event_stands_once_however_often_it_is_asked_for(self):
        assert asked("G00 G0 X1.")[0].count(Act.RAPID) == 1


@pytest.mark.parametrize(("gear", "number"), [("M40", 1), ("M41", 2), ("M45", 6)])
def test_gears_count_by_their_order(gear, number):
    run = run_of(f"G21 G99\n{gear}\nM30", TWO_BLOCK)
    assert [one.number for one in run.steps if type(one).__name__ == "Gear"] == [number]


@pytest.mark.parametrize(
    ("words", "told"),
    [("G71 U2. R1.\nG71 P10 Q20 U0 W0 F.2", False), ("G71 P20 Q10 U0 W0 F.2", True), ("G71 P10 Q30 U0 W0 F.2", True),
     ("G71 P30 Q20 U0 W0 F.2", True), ("G71 P10 Q10 U0 W0 F.2", False)],
)  # fmt: skip
def test_a_contour_ends_where_it_begins_or_after(words, told):
    body = f"G00 X60. Z2.\n{words}\nN10 G00 X30.\nN20 G01 Z-10. F.1"
    run = run_of(f"G21 G99\nG97 S500 M03\nT0303\n{body}\nM30", TWO_BLOCK)
    assert ("contour-missing" in [f.code for f in run.findings]) is told


@pytest.mark.parametrize(
    ("word", "event"), [("G80", Sign.CYCLE_ENDS), ("G080", Sign.CYCLE_ENDS), ("G64", Act.IDLE), ("G00", Act.RAPID)]
)
def test_the_word_that_ends_a_standing_cycle_is_no_idle_one(word, event):
    standing = replace(TWO_BLOCK, cycle=replace(TWO_BLOCK.cycle, ended_by="G80"))
    assert asked(word, dialect=standing)[0] == [event]
    assert asked("G80")[0] == [Act.IDLE]


@pytest.mark.parametrize(
    ("point", "text", "count", "stop"),
    [
        ("needed", "50.", 50_000, False), ("needed", "50", 50, True), ("optional", "50.", 50_000, False),
        ("optional", "50", 50_000, False),
    ],
)  # fmt: skip
def test_a_point_is_needed_where_the_dialect_says_so(point, text, count, stop):
    """Z has a form of its own, and X the usual one, in which a number without a point counts least increments."""
    dialect = read_dialect(f'title = "for tests"\nnumbers.Z.point = "{point}"', "points")
    log = Log()
    assert BlockWords(dialect, Increments.of("mm"), log, None, False).amount(Word("Z", text, 1)) == count
    assert [f.code for f in log.findings if f.stops] == ["no-decimal-point"] * stop
