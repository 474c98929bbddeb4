"""What of a text is read and what is shown of it, at the first and last line, word and character of each rule."""

import pytest
from support.programs import run_of
from support.tongues import FIVE

from planner.increment import Increments
from postproc import find_dialect, guess_dialect, parse_program
from postproc.codes import ProgramCode
from postproc.reading.control import Control, ToolPlace
from postproc.reading.course import Course
from postproc.reading.formula import Broken, Formula, Unknown, tokens
from postproc.reading.log import Log
from postproc.reading.renaming import Renaming, _key, _text_key
from postproc.reading.run import CycleCall
from postproc.reading.sections import Sections
from postproc.reading.values import BlockWords
from postproc.reading.words import Word
from postproc.reading.zeros import slipped
from postproc.vocabulary.acts import Act

TWO_BLOCK = find_dialect("two-block")


def findings(text):
    return [(f.code, f.line) for f in parse_program(text).findings]


class TestFrames:
    @pytest.mark.parametrize(
        ("text", "lines", "told"),
        [
            ("%\nM30\n%", [2], []),
            ("M30\n%", [1], []),
            ("%\nM30", [2], []),
            ("M30", [1], []),
            ("%\nM01\n%\nM30", [2], [("frame", 4)]),
            ("M00\n%\nM01\n%", [3], [("frame", 1)]),
            ("M00\n%\nM01\n%\nM30", [3], [("frame", 1), ("frame", 5)]),
            ("%\n%\nM01\n%", [3], []),
            ("%\n%\nM01", [3], []),
            ("M01\n%\n%", [1], []),
        ],
    )
    def test_what_stands_between_the_first_two_marks_is_read(self, text, lines, told):
        assert [b.line for b in parse_program(text).blocks] == lines
        assert findings(text) == told

    @pytest.mark.parametrize("text", ["%O1\nM30", "%12 A\nM30"])
    def test_text_behind_a_mark_is_told(self, text):
        assert findings(text)[0] == ("frame", 1)
        assert findings("%12\nM30") == []


class TestShown:
    def test_so_much_of_what_has_no_shape(self):
        (told,) = parse_program("M08\n" * 10 + "G01 X1. " + "?" * 30 + " Z1.").findings
        assert f"Column 9 ({'?' * 20}) is" in told.message

    def test_so_much_of_what_speaks_to_another_program(self):
        (told,) = parse_program("[" + "A" * 60 + "]\nM30").findings
        assert told.message.startswith("[" + "A" * 29 + " is a directive")

    def test_so_much_of_what_belongs_to_no_formula(self):
        with pytest.raises(Broken, match=r"^\?{12} belongs"):
            tokens("#1=" + "?" * 30)

    def test_so_much_of_a_statement(self):
        run = run_of(f"G00X[#2+{'1+' * 40}1]\nM30", TWO_BLOCK)
        (told,) = [f for f in run.findings if f.code == ProgramCode.MACRO_VARIABLE]
        assert told.message.startswith("G00X[#2+" + "1+" * 26 + ": nothing")

    def test_fifty_oddities_are_listed_and_the_rest_counted(self):
        for count in (50, 51, 60):
            told = parse_program("M30\n" + "G1 X1.?\n" * count).findings
            assert len(told) == min(count, 51)
            assert (told[-1].message == f"There are {count - 50} more places like these from here on.") is (count > 50)
            assert told[-1].line == min(count, 51) + 1

    def test_one_note_is_enough_and_comes_first(self):
        told = parse_program("M30?\n\x11M00\n\x11M01").findings
        assert [(f.level.value, f.line) for f in told] == [("note", 2), ("stop", 1)]


class TestFormulas:
    @pytest.mark.parametrize(("text", "what"), [("#0", "gives #0 a value"), ("#[2-2]", "gives #0 a value")])
    def test_the_empty_variable_has_a_number_and_no_value(self, text, what):
        with pytest.raises(Unknown, match=what):
            Formula(tokens(text), {}).sum()

    @pytest.mark.parametrize("text", ["#[0-1]", "#[1/2]", "#1.5"])
    def test_what_is_no_number_of_a_variable(self, text):
        with pytest.raises(Broken, match="is not the number"):
            Formula(tokens(text), {1: 5.0}).sum()

    @pytest.mark.parametrize("body", ["N10 GOTO10", "N5 #1=1\nN10 GOTO5"])
    def test_a_jump_back_or_to_itself_is_counted(self, body):
        run = run_of(f"G21 G99\n{body}\nM30", TWO_BLOCK)
        assert "This loop was run 10000 times" in " ".join(f.message for f in run.findings)

    def test_a_block_number_is_no_word(self):
        run = run_of("G21 G99\n#1=50.\nN10 G00 X#1 Z5.\nM30", TWO_BLOCK)
        assert [str(w) for w in run.worked_out[3]] == ["G00", "X50.000", "Z5."]


class TestZeros:
    def test_only_the_first_other_offset_is_told(self):
        run = run_of("G21 G99\nG55\nG56\nG57\nM30", TWO_BLOCK)
        told = [(f.code, f.line) for f in run.findings if f.code in ("work-offset", "zero-shift")]
        assert told == [("work-offset", 2), ("zero-shift", 3)]
        assert "from G55 and from G56;" in next(f.message for f in run.findings if f.code == "zero-shift")

    @pytest.mark.parametrize(
        ("one", "other", "slip"),
        [
            (0, 20, False), (20, 0, False), (0, 0, False), (0, 5, False), (0, -5, False),
            (20, 20, False), (20, 200, True), (-20, -200, True),
            (20, -200, True), (120, -120, True), (120, 150, True), (120, -150, False), (120, 250, False),
            (120, 1_250, False),
        ],
    )  # fmt: skip
    def test_a_slip_is_a_point_a_sign_or_one_digit(self, one, other, slip):
        assert slipped(one, other) is slipped(other, one) is slip


class TestRenaming:
    @pytest.mark.parametrize(
        ("fixed", "word", "key"),
        [
            ("M98", Word("M", "98", 1), ("M", "98")),
            ("P0012", Word("P", "12", 1), ("P", "12")),
            ("M00", Word("M", "0", 1), ("M", "0")),
            ("CYC=07", Word("CYC=", "7", 1), ("CYC", "7")),
        ],
    )
    def test_leading_zeros_do_not_count(self, fixed, word, key):
        assert _key(fixed) == _text_key(word) == key


@pytest.mark.parametrize(
    ("text", "name"), [("G74 R.5\nG74 Z-5. F.08", "two-block"), ("G73 R.5\nG73 Z-5. F.08", "plunge")]
)
def test_a_block_that_only_sets_the_retract_tells_of_a_cycle(text, name):
    assert guess_dialect(parse_program(text)).name == name


@pytest.mark.parametrize(
    ("text", "count", "told"),
    [
        ("99999.999", 99_999_999, False), ("100000.", 99_999_999, True), ("-99999.999", -99_999_999, False),
        ("-100000.", -99_999_999, True), ("0.0005", 1, False), ("0.0015", 2, False), ("-0.0004", 0, False),
    ],
)  # fmt: skip
def test_a_control_holds_eight_digits(text, count, told):
    log = Log()
    assert BlockWords(TWO_BLOCK, Increments.of("mm"), log, None, False).amount(Word("X", text, 1)) == count
    assert [f.code == ProgramCode.NUMBER_TOO_LONG for f in log.findings if f.stops] == [True] * told


@pytest.mark.parametrize(
    ("peck", "pecks"), [(4_000, 1), (3_999, 2), (2_000, 2), (1_999, 3), (1_000, 4), (5_000, 1), (None, 1), (0, 1)]
)
def test_pecks_of_a_cycle_reach_its_floor(peck, pecks):
    """From 42 down to 34: 4 deep on the radius."""
    call = CycleCall(
        line=1, station=3, offset=3, start_x=42_000, start_z=0, floor_x=34_000, end_z=0, peck=peck, shift=None,
        retract=None, relief=0, feed=80,
    )  # fmt: skip
    assert call.pecks == pecks


@pytest.mark.parametrize(
    ("end", "shift", "left"), [(-9_000, 3_000, 0), (-10_000, 3_000, 1_000), (9_500, 3_000, 500), (-9_000, None, 0)]
)
def test_what_is_left_of_the_span_after_whole_shifts(end, shift, left):
    call = CycleCall(
        line=1, station=3, offset=3, start_x=42_000, start_z=0, floor_x=34_000, end_z=end, peck=1_000, shift=shift,
        retract=None, relief=0, feed=80,
    )  # fmt: skip
    assert call.left_over == left


@pytest.mark.parametrize(
    ("word", "code"),
    [("Z100000.", "number-too-long"), ("Z-100000.", "number-too-long"), ("Z50", "no-decimal-point"),
     ("Z50.0001", "finer-than-increment")],
)  # fmt: skip
def test_what_is_odd_about_a_number_is_told_wherever_it_stands(word, code):
    run = run_of(f"G21 G99\nG00 {word}\nX10. {word}\nM30", TWO_BLOCK)
    assert [f.line for f in run.findings if f.code == code] == [2, 3]


def test_where_no_dialect_at_hand_has_a_cycle_a_program_is_read_peck_by_peck():
    assert guess_dialect(parse_program("G01 X1."), {}).name == "plunge"


@pytest.mark.parametrize(
    ("now", "station", "cancels", "offset", "noted"),
    [
        (0, 3, False, 0, False), (3, 3, False, 3, None), (3, 5, False, 3, False), (3, 0, False, 3, None),
        (3, 3, True, 3, True), (3, 3, True, 0, None), (3, 5, True, 3, False), (3, 0, True, 3, True),
    ],
)  # fmt: skip
def test_a_turret_turns_from_one_station_to_another(now, station, cancels, offset, noted):
    """Noted with whether it stays and only takes the offset away."""
    log, control = Log(line=7), Control(ToolPlace(1, 2, x_known=True, z_known=True), station=now, offset=offset)
    log.index(control, station, cancels)
    told = [(i.line, i.motions, i.known, i.what == "offset is cancelled") for i in log.indexings]
    assert told == ([] if noted is None else [(7, 0, True, noted)])


def test_a_subprogram_runs_as_often_as_it_is_called_and_leads_back():
    course = Course(Sections(0, {9: 5}, frozenset({0, 5}), None), at=3)
    course.enter(5, 0)
    assert (course.at, course.callers, course.called) == (3, [], {5})
    course.enter(5, 2)
    assert (course.at, course.running) == (5, 5)
    course.at = 8
    course.leave()
    assert (course.at, len(course.callers)) == (5, 1)
    course.at = 8
    course.leave()
    assert (course.at, course.callers, course.running) == (3, [], 0)


def test_a_call_without_a_g_word_may_have_a_block_of_its_own():
    tongue = FIVE["stored-groove"]
    words = parse_program("M98 P9075", tongue.assigned).blocks[0].words
    assert Renaming(tongue)(words) == ([], (Act.GROOVE,))
