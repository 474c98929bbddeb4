"""What a reader makes of words where one rule alone decides: counts, columns and ways back, worked out by hand."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from support.programs import run_behind

from extractor.errors import ProgramError
from planner.increment import Increments
from planner.steps import WorkOffset
from postproc import find_dialect, guess_dialect, parse_program
from postproc.codes import ProgramCode
from postproc.motion import Motion
from postproc.reading.course import Course
from postproc.reading.formula import Formula, tokens
from postproc.reading.interpreter import _Walk
from postproc.reading.legible import check_legible
from postproc.reading.log import Log, Runaway
from postproc.reading.macros import Macros
from postproc.reading.meanings import Meanings
from postproc.reading.notebook import Notebook
from postproc.reading.rescale import in_increments
from postproc.reading.run import CycleCall, Run
from postproc.reading.seconds import _turn_minutes, _unsaid_retracts
from postproc.reading.sections import Sections
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.vocabulary.acts import Act

HEAD = "G21 G99\nG97 S500 M03\nT0303\n"
TWO_BLOCK = find_dialect("two-block")
BY_RADIUS = replace(TWO_BLOCK, diameter_x=False)
CAUTION = ProgramCode.WORK_OFFSET, "See that it puts Z0 at the front face."
MM, INCH = Increments.of("mm"), Increments.of("in")


def stops(run):
    return [f.message for f in run.findings if f.stops]


class TestNumbers:
    @pytest.mark.parametrize(
        ("text", "times", "count"), [("15000", 2, 30_000), ("15.", 2, 30_000), ("15000", 1, 15_000)]
    )
    def test_a_radius_in_least_increments_counts_twice_on_the_diameter(self, text, times, count):
        words = BlockWords(BY_RADIUS, MM, Log(), "increments", False)
        assert words.amount(Word("X", text, 1), times=times) == count

    def test_a_radius_is_no_length_along_z_that_is_spelt_alike(self):
        run = run_behind(HEAD, "G00 Z10.\nX10.\nZ10. X12.\nX12.", BY_RADIUS)
        assert [(m.x1, m.z1) for m in run.motions[1:]] == [(20_000, 10_000), (24_000, 10_000), (24_000, 10_000)]

    @pytest.mark.parametrize(("strange", "legible"), [(13, True), (14, False)])
    def test_just_65_in_a_hundred_may_be_no_words(self, strange, legible):
        """Seven characters are words: 13 of 20 are 0.65."""
        lines = ["G01 X3.", "?" * strange]
        if legible:
            check_legible(lines)
        else:
            with pytest.raises(ProgramError, match="Most of this text"):
                check_legible(lines)

    def test_words_stand_in_their_columns(self):
        assigned = parse_program("G01 FEED=0.1 X3.", frozenset({"FEED="})).blocks[0].words
        assert [(w.address, w.column) for w in assigned] == [("G", 1), ("FEED=", 5), ("X", 14)]
        spaced = parse_program("G01  X3.\t Z4.(a)F1.").blocks[0].words
        assert [(w.address, w.column) for w in spaced] == [("G", 1), ("X", 6), ("Z", 11), ("F", 17)]
        assert [(w.address, w.column) for w in parse_program(" /:123 X3.").blocks[0].words] == [("O", 3), ("X", 8)]

    @pytest.mark.parametrize(("text", "line"), [("G01 X3.;X4.", 1), ("\n\nG01 X3. ;X4.", 3)])
    def test_a_block_behind_a_semicolon_is_told_with_its_column(self, text, line):
        (told,) = parse_program(text).findings
        assert (told.line, f"at column {text.splitlines()[line - 1].index(';') + 1} " in told.message) == (line, True)


class TestOffsets:
    @pytest.mark.parametrize(
        ("word", "number"), [("G54", 1), ("G55", 2), ("G59", 6), ("G54.1 P1", 7), ("G54.1 P3", 9), ("G54.1 P.5", 6)]
    )
    def test_offsets_by_p_come_after_those_by_word(self, word, number):
        assert [
            one.number for one in run_behind(HEAD, f"{word}\nG00 X50. Z5.").steps if isinstance(one, WorkOffset)
        ] == [number]


class TestMeanings:
    @staticmethod
    def of(text):
        """What the first word of a block means in a program of the trade's words that calls a contour."""
        (block,) = parse_program(text).blocks
        return Meanings(TWO_BLOCK, parse_program("G21 G99\nG71 P1 Q2")).of(block.words[0], block.words)

    @pytest.mark.parametrize("number", [70, 71, 72, 73, 74, 76])
    @pytest.mark.parametrize("address", list("PQRUW"))
    def test_cycles_of_many_words_may_come_in_a_block_without_a_place(self, number, address):
        assert self.of(f"G{number} {address}1.") is TWO_BLOCK.foreign[number]
        assert self.of(f"G{number} F1.") is None

    @pytest.mark.parametrize("number", [32, 83, 90, 92, 94])
    def test_others_name_a_place(self, number):
        cycle = TWO_BLOCK.foreign[number]
        assert self.of(f"G{number} X1. F1.") is cycle
        assert self.of(f"G{number} P1. R1. F1.") is not cycle

    def test_a_thread_has_a_pitch(self):
        assert self.of("G92 X1.") is not Act.THREADING

    @pytest.mark.parametrize(("words", "contour"), [("P10 Q20", True), ("P10", False), ("Q20", False)])
    def test_a_contour_is_called_by_its_first_and_last_block(self, words, contour):
        """Else the number may be the unit word of the other code system."""
        one_block = find_dialect("one-block")
        known = Meanings(one_block, parse_program(f"G71 {words}")).g_words
        assert (71 not in known) is contour


class TestGuess:
    @pytest.mark.parametrize("motion", ["G0", "G1", "G2", "G03"])
    def test_absolute_places_with_a_motion_are_no_cycle(self, motion):
        assert guess_dialect(parse_program(f"G21 G99\n{motion} G90 X38. Z-20.")).name == "plunge"
        assert guess_dialect(parse_program(f"G21 G99\n{motion} X38.\nG90 X38. Z-20.")).name == "two-block"


class TestWaysBack:
    def test_a_loop_whose_begin_stands_behind_its_end_has_none(self):
        for body in ("END1\nWHILE[1 EQ 1]DO1", "G00 X60.\nEND1\nWHILE[1 EQ 1]DO1"):
            blocks = parse_program(body).blocks
            macros = Macros(blocks, Course.of(Sections.of(blocks, frozenset())), MM, Log())
            macros.run(len(blocks) - 2)
            assert ["WHILE with DO1 is missing" in f.message for f in macros._log.findings] == [True]

    def test_a_loop_may_begin_in_the_first_block(self):
        blocks = parse_program("WHILE[1 EQ 1]DO1\nG00 X60.\nEND1").blocks
        assert Macros(blocks, Course.of(Sections.of(blocks, frozenset())), MM, Log()).run(2).goto == 0

    @pytest.mark.parametrize(
        ("number", "found"), [(12, "12 is not in"), (9999, "9999 is not in"), (10012, "12 is not in")]
    )
    def test_a_subprogram_that_is_not_there_is_told_by_its_own_number(self, number, found):
        assert f"Subprogram {found}" in Sections(0, {}, frozenset(), None).called(Word("P", str(number), 1), None)

    @pytest.mark.parametrize(("number", "called"), [(30012, (4, 3)), (12, (4, 1)), (90012, (7, 1))])
    def test_repeats_before_a_number_of_four_digits(self, number, called):
        assert Sections(0, {12: 4, 90012: 7}, frozenset(), None).called(Word("P", str(number), 1), None) == called

    def test_the_contour_of_a_cycle_is_the_next_one_of_its_numbers(self):
        """The numbers stand before the cycle too, at the cycle itself, and in the block right behind it: it is told."""
        shape = "N10 G00 X30.\nG01 Z-10. F.1\nN20 X50."
        run = run_behind(
            HEAD, f"G00 X60. Z2.\nN10 G01 X58. F.1\nN20 X60.\nN10 G71 U2. R1.\nN10 G71 P10 Q20 U0 W0 F.2\n{shape}"
        )
        assert {f.code for f in run.findings if f.stops} == {"number-twice"}
        assert min(m.x1 for m in run.motions if m.kind == "feed") == 30_000


class TestAtMost:
    def test_a_run_of_half_a_million_moves_is_followed_and_one_more_is_not(self):
        log, motion = Log(), Motion("rapid", 0, 0, 1, 1, 1, 3, 3)
        log.motions = [motion] * 499_999
        log.move(motion)
        assert len(log.motions) == 500_000
        with pytest.raises(Runaway):
            log.move(motion)

    def test_so_are_half_a_million_blocks(self):
        walk = _Walk(parse_program("G04 P1\nG04 P1\nM30"), TWO_BLOCK, "mm", (0, 0), False, None)
        walk.done = 499_999
        walk._next()
        with pytest.raises(Runaway):
            walk._next()

    def test_twenty_findings_of_one_code_are_listed_and_the_rest_counted(self):
        log = Log()
        for line in range(1, 25):
            log.line = line
            log.caution(*CAUTION)
        assert [f.line for f in log.findings] == list(range(1, 22))
        assert [f.line for f in log.findings if f.message.startswith("There are more")] == [21]

    def test_an_unnamed_reference_point_is_ten_metres_off(self):
        first = run_behind(HEAD, "G00 X50. Z5.").motions[0]
        assert (first.x0, first.z0) == (10_000_000, 10_000_000)


class TestTimes:
    CALL = CycleCall(
        line=1, station=3, offset=3, start_x=42_000, start_z=0, floor_x=34_000, end_z=-9_000, peck=1_000, shift=3_000,
        retract=None, relief=500, feed=80,
    )  # fmt: skip

    @staticmethod
    def back(*places, kind="feed", cycle=0, call=CALL):
        ends = [Motion(kind, *a, *b, 1, 3, 3, cycle=cycle) for a, b in pairwise(places)]
        run = Run(dialect="x", units="mm", increments=MM, motions=tuple(ends), cycles=(call,))
        return [(m.kind, m.x0, m.z0, m.x1, m.z1) for m in _unsaid_retracts(run, 500)]

    def test_between_two_pecks_the_tool_backs_off_and_comes_again(self):
        pecks = (42_000, 0), (40_000, 0), (38_000, 0)
        assert self.back(*pecks) == [("rapid", 40_000, 0, 41_000, 0), ("feed", 41_000, 0, 40_000, 0)]

    def test_no_farther_than_to_where_the_cycle_starts(self):
        pecks = (42_000, 0), (41_400, 0), (38_000, 0)
        assert self.back(*pecks) == [("rapid", 41_400, 0, 42_000, 0), ("feed", 42_000, 0, 41_400, 0)]

    def test_in_a_bore_toward_the_axis(self):
        call = replace(self.CALL, start_x=20_000, floor_x=28_000)
        pecks = (20_000, 0), (22_000, 0), (24_000, 0)
        assert self.back(*pecks, call=call) == [("rapid", 22_000, 0, 21_000, 0), ("feed", 21_000, 0, 22_000, 0)]

    @pytest.mark.parametrize(
        "places",
        [
            ((34_000, 0), (34_000, 500), (34_000, 0)),  # aside at the floor and back
            ((42_000, 0), (38_000, 0), (34_000, 500)),  # aslant
        ],
    )
    def test_what_is_no_second_peck_is_none(self, places):
        assert self.back(*places) == []

    def test_nor_is_one_of_a_cycle_that_says_how_far(self):
        pecks = (42_000, 0), (40_000, 0), (38_000, 0)
        assert self.back(*pecks, call=replace(self.CALL, retract=500)) == []
        assert self.back(*pecks, kind="rapid") == []
        assert self.back(*pecks, cycle=None) == []

    @pytest.mark.parametrize(
        ("d0", "d1", "clamp", "minutes"),
        [
            (40.0, 40.0, None, 0.04),
            (40.0, 40.0, 50, 0.04),
            (10.0, 10.0, 50, 0.02),
            (20.0, 40.0, None, 0.03),
            (40.0, 0.0, None, 0.02),
            # From 0 to 20 at 50 turns a minute, 0.02 each; then on to 40 by 0.03 on the mean.
            (0.0, 40.0, 50, 0.025),
            (40.0, -20.0, None, (2 * 0.02 + 0.01) / 3),
            (40.0, -20.0, 50, (2 * 0.025 + 0.02) / 3),
        ],
    )
    def test_the_mean_time_of_a_turn_on_the_way_between_two_diameters(self, d0, d1, clamp, minutes):
        """The free speed on d is 1000 / d."""
        assert _turn_minutes(d0, d1, 1000.0, clamp) == pytest.approx(minutes)
        assert _turn_minutes(d1, d0, 1000.0, clamp) == pytest.approx(minutes)


class TestOtherIncrements:
    def test_an_inch_run_in_millimetres(self):
        """25.4 mm are an inch and 0.3048 m a foot; mm count thousandths, inches ten thousandths."""
        motion = Motion("feed", 10_000, 20_000, 5_000, -10_000, 1, 3, 3, feed=40, speed=500.0, surface=True)
        call = replace(TestTimes.CALL, start_x=10_000, floor_x=5_000, end_z=-2_000, peck=400, shift=1_000, feed=40)
        run = Run(dialect="x", units="in", increments=INCH, motions=(motion,), cycles=(call,))
        told = in_increments(run, MM)
        assert MM.per_length / INCH.per_length == 0.1
        (one,), (cycle,) = told.motions, told.cycles
        assert (one.x0, one.z0, one.x1, one.z1) == (25_400, 50_800, 12_700, -25_400)
        assert one.speed == pytest.approx(152.4)
        assert one.feed == round(40 / INCH.per_feed * 25.4 * MM.per_feed)
        assert (cycle.start_x, cycle.floor_x, cycle.end_z) == (25_400, 12_700, -5_080)
        assert (cycle.peck, cycle.shift, cycle.retract, cycle.feed) == (1_016, 2_540, None, one.feed)
        back = in_increments(told, INCH)
        assert [m[:6] for m in back.motions] == [motion[:6]]
        assert back.motions[0].speed == pytest.approx(500.0)

    def test_finer_increments_of_the_same_unit(self):
        fine = replace(MM, per_length=10 * MM.per_length)
        motion = Motion("feed", 1_000, 2_000, 500, -1_000, 1, 3, 3, feed=40, speed=500.0, surface=True)
        run = Run(dialect="x", units="mm", increments=MM, motions=(motion,))
        (one,) = in_increments(run, fine).motions
        assert (one.x0, one.z0, one.x1, one.z1, one.speed, one.feed) == (10_000, 20_000, 5_000, -10_000, 500.0, 40)
        assert in_increments(run, MM) is run
        assert run.not_followed == 0
        assert replace(run, motions=(motion._replace(followed=False),), skipped=2).not_followed == 3


class TestNotebook:
    def test_half_of_an_odd_count_has_no_more_digits_than_a_program(self):
        book = Notebook(MM)
        assert [book.radial(n) for n in (3_000, 3_001, 3_002)] == ["1.5", "1.501", "1.501"]

    def test_findings_without_a_line_come_last(self):
        book = Notebook(MM)
        code, message = CAUTION
        for line in (None, 900_000, 3):
            book.caution(code, line, message)
        assert [f.line for f in book.findings] == [3, 900_000, None]

    @pytest.mark.parametrize(
        ("x", "z", "known", "said"),
        [
            ((5, 5), (7, 9), (False, False), "Z.009"),
            ((5, 6), (7, 7), (False, True), "X.006 Z.007"),
            ((5, 5), (7, 7), (False, False), "where it was"),
        ],
    )
    def test_a_move_ends_where_the_program_has_said(self, x, z, known, said):
        motion = Motion("rapid", x[0], z[0], x[1], z[1], 1, 3, 3, x0_known=known[0], z0_known=known[1])
        assert Notebook(MM).end(motion).replace("0.", ".") == said


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("ATAN[1]/[-1]", 135.0), ("ATAN[1]", 45.0), ("ASIN[.5]", 30.0), ("ACOS[.5]", 60.0), ("ROUND[-2.5]", -3.0),
        ("FIX[-2.9]", -2.0), ("FUP[2.1]", 3.0), ("FUP[-2.1]", -3.0), ("5 MOD 3", 2.0), ("6 AND 3", 2.0),
        ("6 OR 3", 7.0), ("6 XOR 3", 5.0), ("2+3*4", 14.0), ("7-2-1", 4.0), ("8/4/2", 1.0), ("-2*-3", 6.0),
    ],
)  # fmt: skip
def test_formulas_by_hand(text, value):
    assert math.isclose(Formula(tokens(text), {}).sum(), value)
