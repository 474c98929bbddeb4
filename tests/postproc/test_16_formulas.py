"""Formulas and statements of macro variables: values, loops, jumps, and what stays unknown.

Order of operations, degrees, ROUND, FIX and FUP: common practice of the trade's macros, no source. Oracle for values:
Python's own arithmetic, written out beside each formula.
"""

import math
import random

import pytest
from support.programs import run_behind, run_of

from postproc.reading.formula import Formula, Unknown, tokens

HEAD = "G21 G99\nG97 S500 M03\nT0303\nG00 X60. Z5.\n"


def value(text, **values):
    return Formula(tokens(text), {int(name[1:]): number for name, number in values.items()}).sum()


def places(run):
    return [(m.x1 / 1000, m.z1 / 1000) for m in run.motions]


def stops(run):
    return [(f.code, f.line) for f in run.findings if f.stops]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1+2*3", 7),
        ("[1+2]*3", 9),
        ("-2+5", 3),
        ("10-2-3", 5),
        ("12/2/3", 2),
        ("-#1", -4),
        ("#1*-2", -8),
        ("#[1+1]", 7),
        ("##3", 4),
        ("7 MOD 4", 3),
        ("6 AND 3", 2),
        ("6 OR 3", 7),
        ("6 XOR 3", 5),
        ("SQRT[#1]", 2),
        ("ABS[1-#1]", 3),
        ("SIN[30]", 0.5),
        ("COS[60.]", 0.5),
        ("TAN[45]", 1),
        ("ASIN[.5]", 30),
        ("ACOS[.5]", 60),
        ("ATAN[1]", 45),
        ("ATAN[1]/[-1]", 135),
        ("ROUND[2.4]", 2),
        ("ROUND[2.5]", 3),
        ("ROUND[-2.5]", -3),
        ("FIX[-2.7]", -2),
        ("FUP[2.1]", 3),
        ("FUP[-2.1]", -3),
    ],
)
def test_a_formula_has_its_value(text, wanted):
    assert value(text, v1=4.0, v2=7.0, v3=1.0) == pytest.approx(wanted)


@pytest.mark.parametrize(
    "text", ["1+", "[1", "1]2[", "FOO[1]", "*2", "#", "#1.5", "1..2", "$1", "[" * 40 + "1" + "]" * 40]
)
def test_what_is_no_formula_is_broken(text):
    run = run_behind(HEAD, f"#2={text}")
    assert stops(run) == [("macro-variable", 5)]


@pytest.mark.parametrize("text", ["#9", "1/[#1-4]", "SQRT[-1]", "ASIN[2]", "5 MOD 0"])
def test_what_has_no_value_is_unknown(text):
    with pytest.raises(Unknown):
        value(text, v1=4.0)


def test_brackets_beside_one_another_leave_no_room_for_deeper_ones():
    deep = "[" * 40 + "1" + "]" * 40
    assert (
        stops(run_behind(HEAD, "#2=" + "[1]+" * 20 + deep))
        == stops(run_behind(HEAD, "#2=" + deep))
        == [("macro-variable", 5)]
    )
    assert stops(run_behind(HEAD, "#2=" + "[1]+" * 40 + "1")) == []


def test_random_formulas_come_out_as_in_python():
    """Oracle: Python's eval of the same text with its brackets changed."""
    rng = random.Random(4)

    def grow(depth):
        if not depth or rng.random() < 0.2:
            return rng.choice(["1.5", "2.", "#1", "#2", ".25"])
        return rng.choice(["[{}+{}]", "[{}-{}]", "{}*{}", "{}/{}", "-{}", "ABS[{}]"]).format(
            grow(depth - 1), grow(depth - 1)
        )

    for _ in range(300):
        text = grow(4)
        python = (
            text.replace("ABS", "abs").replace("[", "(").replace("]", ")").replace("#1", "3.0").replace("#2", "7.0")
        )
        try:
            wanted = eval(python)
        except ZeroDivisionError:
            continue
        assert value(text, v1=3.0, v2=7.0) == pytest.approx(wanted)


def test_constants_stand_for_numbers_in_words():
    run = run_behind(HEAD, "#101=42.\n#102=-13\nG00 X#101 Z#102\nG01 X[#101-8.] F#103\n".replace("F#103", "F.08"))
    assert stops(run) == []
    assert places(run)[1:] == [(42.0, -13.0), (34.0, -13.0)]


def test_signs_and_blanks_and_small_letters():
    run = run_behind(HEAD, "#1=13.\n#2=42.\ng00 x #2 z-#1\nG00X[#2]Z-[#1+1.]\n")
    assert places(run)[1:] == [(42.0, -13.0), (42.0, -14.0)]


def test_the_number_of_a_block_may_be_worked_out_and_is_no_word_of_it():
    run = run_behind(HEAD, "#1=10\nN#1 X50. Z3.\n")
    assert (places(run)[1:], stops(run)) == ([(50.0, 3.0)], [])


def test_a_feed_that_is_worked_out_keeps_what_a_place_would_lose():
    run = run_behind(HEAD, "#1=.0825\nG01 X[50.+#1/2] F#1\n")
    assert [(m.x1, run.increments.feed_length(m.feed)) for m in run.motions[1:]] == [(50_041, 0.0825)]


def test_a_loop_runs_while_it_holds():
    run = run_behind(HEAD, "#1=0\nWHILE[#1 LT 3]DO1\nG00 Z[-10.-5.*#1]\n#1=#1+1\nEND1\nG00 X100.")
    assert [z for _, z in places(run)[1:4]] == [-10.0, -15.0, -20.0]
    assert stops(run) == []


def test_a_loop_with_nothing_in_it_is_one_too():
    run = run_behind(HEAD, "#1=5\nWHILE[#1 LT 3]DO1\nEND1\nG00 Z#1")
    assert (places(run)[1:], stops(run)) == ([(60.0, 5.0)], [])
    assert [code for code, _ in stops(run_behind(HEAD, "WHILE[1 EQ 1]DO1\nEND1"))] == ["runaway"]


def test_loops_of_one_number_stand_one_behind_the_other():
    loop = "WHILE[#1 LT {}]DO1\nG00 Z#1\n#1=#1+1\nEND1\n"
    run = run_behind(HEAD, "#1=0\n" + loop.format(2) + loop.format(4) + loop.format(3) + "G00 X70.")
    assert places(run)[1:] == [(60.0, 0.0), (60.0, 1.0), (60.0, 2.0), (60.0, 3.0), (70.0, 3.0)]
    assert stops(run) == []


def test_loops_stand_inside_one_another():
    body = "#1=0\nWHILE[#1 LT 2]DO1\n#2=0\nWHILE[#2 LT 2]DO2\nG00 Z[#1*10.+#2]\n#2=#2+1\nEND2\n#1=#1+1\nEND1"
    assert [z for _, z in places(run_behind(HEAD, body))[1:]] == [0.0, 1.0, 10.0, 11.0]


def test_if_goes_on_elsewhere_or_sets():
    run = run_behind(HEAD, "#1=5.\nIF[#1 GT 3.] THEN #1=3.\nIF[#1 EQ 3.] GOTO 20\nG00 X99.\nN20 G00 Z#1")
    assert places(run)[1:] == [(60.0, 3.0)]


def test_goto_looks_onward_first_then_from_the_top():
    run = run_behind(HEAD, "#1=0\nN10 #1=#1+1\nG00 Z#1\nIF[#1 LT 3] GOTO 10\nG00 X70.")
    assert [z for _, z in places(run)[1:]] == [1.0, 2.0, 3.0, 3.0]


def test_an_empty_variable_is_told_from_a_set_one():
    run = run_behind(HEAD, "#1=2.\nIF[#1 EQ #0] GOTO 5\nG00 Z#1\nN5 G00 X70.")
    assert places(run)[1:] == [(60.0, 2.0), (70.0, 2.0)]


def test_whole_words_get_whole_numbers():
    run = run_behind(HEAD, "#1=3.\n#2=1000.4\nT[#1*100+3]\nG75 R.5\nG00 X42. Z-13.\nG75 X34. P#2 F.08")
    assert stops(run) == []
    assert run.cycles[0].peck == 1000
    assert run.cycles[0].station == 3


def test_an_unknown_value_is_one_stop_and_nothing_that_follows_from_it():
    run = run_behind(HEAD, "G00 X42. Z-13.\nG01 X#500 F.08\nG01 U-500.\nG00 X#500\nG91 G5 Q1")
    assert stops(run) == [("macro-variable", 6)]
    assert run.lost
    assert run.skipped == 2
    assert "#500" in run.findings[-1].message


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("GOTO 10", "N10"),
        ("WHILE[1 EQ 1]DO1\nG00 X1.", "END1"),
        ("END2", "DO2"),
        ("IF[1 EQ 1]", "GOTO or THEN"),
        ("#1=", "more"),
        ("G00 X[1", "]"),
        ("R1=42.", "="),
        ("#1=2.5\nGOTO #1", "2.5"),
        ("T[#1*303.4]".replace("#1", "1"), "not a whole number"),
        ("T[303.00001]", "not a whole number"),
        ("#0=5", "always empty"),
        ("#1=" + "9" * 400 + "\n#[#1]=2", "not the number of a variable"),
        ("#1=" + "9" * 400 + "\n#2=[#1 OR 1]", "too great"),
        ("#1=" + "9" * 400 + "\nZ[#1-#1+5.]", "greater value"),
        ("#1=[" + "-" * 2000 + "5]", "nested too deep"),
        ("X[1000000001]", "greater value"),
    ],
)
def test_what_cannot_be_run_says_why(body, said):
    run = run_behind(HEAD, body)
    assert stops(run)[0][0] == "macro-variable"
    assert said in run.findings[-1].message


def test_what_formulas_leave_of_a_whole_number_is_none_and_the_greatest_value_is_one():
    run = run_behind(HEAD, "T[303.0000005]\nG00 X[1000000000.] Z1.")
    assert "macro-variable" not in {f.code for f in run.findings}


def test_a_loop_may_run_ten_thousand_times_and_no_more():
    body = "#1=0\nWHILE[#1 LT {}]DO1\n#1=#1+1\nEND1\nG00 X70."
    assert stops(run_behind(HEAD, body.format(10_000))) == []
    assert stops(run_behind(HEAD, body.format(10_001))) == [("runaway", 8)]


def test_the_words_of_a_loop_are_those_of_its_first_round():
    run = run_behind(HEAD, "#1=7.\nWHILE[#1 GT 5.]DO1\nG00 Z#1\n#1=#1-1.\nEND1")
    assert [str(word) for word in run.worked_out[7]] == ["G00", "Z7.000"]


def test_rounding_is_to_the_least_increment():
    assert places(run_behind(HEAD, "#1=10./3.\nG00 X#1"))[-1][0] == pytest.approx(3.333)
    assert math.isclose(places(run_behind(HEAD, "#1=20./3.\nG00 Z#1"))[-1][1], 6.667)


def test_a_bracket_with_words_is_a_directive_and_no_variable():
    run = run_behind(HEAD, "[BILLET X60. Z-80.\n[FACE]\nG00 X50.")
    assert stops(run) == []
    assert [(f.code, f.line) for f in run.findings] == [("directive", 5), ("directive", 6)]
    assert places(run)[1:] == [(50.0, 5.0)]


def test_block_skip_leaves_a_statement_out():
    text = HEAD + "#1=50.\n/#1=70.\nG00 X#1\nM30\n"
    runs = [run_of(text, skip=skip) for skip in (False, True)]
    assert [places(run)[-1][0] for run in runs] == [70.0, 50.0]


@pytest.mark.parametrize(
    ("formula", "why"),
    [
        ("#7", "nothing in the program gives #7 a value here, so what it does is not known"),
        ("1/0", "a division by 0 has no value, so what it does is not known"),
        ("SQRT[-1]", "SQRT of -1 has no value, so what it does is not known"),
    ],
)
def test_a_formula_without_a_value_says_why(formula, why):
    (told,) = [f.message for f in run_behind(HEAD, f"G00 X[{formula}]").findings if f.stops]
    assert told == f"G00 X[{formula}]: {why}; write the numbers out."


@pytest.mark.parametrize(("value", "taken"), [("1000000000", True), ("1000000001", False), ("-1000000001", False)])
def test_values_that_no_word_holds_are_not_put_into_one(value, taken):
    told = [f.message for f in run_behind(HEAD, f"#1={value}\nG00 Z#1").findings if f.stops]
    assert any("greater value than any word holds" in message for message in told) is not taken


@pytest.mark.parametrize(("deep", "taken"), [(20, True), (21, False)])
def test_brackets_stand_so_deep_inside_one_another(deep, taken):
    run = run_behind(HEAD, f"G00 X{'[' * deep}34.{']' * deep}")
    assert ([f.code for f in run.findings if f.stops] == []) is taken


@pytest.mark.parametrize(
    ("words", "told"),
    [("Z-5.0004", 1), ("Z-.0004", 1), ("Z-5.004", 0), ("Z-.004", 0), ("Z-[.0004]", 0), ("Z-[5.0004]", 0)],
)
def test_a_number_beside_a_formula_is_taken_as_it_is_written(words, told):
    """One that is worked out is rounded to what the control holds, and nothing is to be said of it."""
    run = run_behind(HEAD, f"#1=40.\nG01 X#1 {words} F.1")
    assert [f.code for f in run.findings] == ["finer-than-increment"] * told


def test_a_feed_that_is_worked_out_has_two_places_more_than_a_length():
    run = run_behind(HEAD, "G01 X[40/3] F[1/8+1/10000]")
    assert run.findings == ()
    assert (run.motions[-1].x1, run.motions[-1].feed) == (13_333, 1_251)


@pytest.mark.parametrize(("number", "whole"), [("1.0000009", True), ("1.0000015", False), ("0.9999985", False)])
def test_what_a_formula_leaves_of_a_whole_number_is_a_millionth_at_most(number, whole):
    run = run_behind(HEAD, f"G[{number}] X40. F.1")
    assert (stops(run) == []) is whole
    assert places(run)[-1][0] == (40.0 if whole else 60.0)


@pytest.mark.parametrize(
    ("left", "sign", "right", "raw", "equal", "close"),
    [
        ("0.1+0.2", "GT", "0.3", True, False, True),
        ("0.1+0.2", "EQ", "0.3", False, True, True),
        ("0.1+0.2", "LE", "0.3", False, True, True),
        ("1.0000009", "GT", "1.", True, False, True),
        ("1.000002", "GT", "1.", True, True, False),
        ("0.5+0.25", "GE", "0.75", True, True, False),
        ("0.000001", "GT", "0.", True, True, False),
        ("0.0000009", "GT", "0.", True, False, True),
        ("0.000001", "LE", "0.", False, False, False),
        ("0.0000009", "LE", "0.", False, True, True),
    ],
)
def test_values_that_are_all_but_equal(left, sign, right, raw, equal, close):
    """A millionth is less than any control counts, and far more than sums of doubles are off."""
    text = f"[{left}{sign}{right}]"
    for taken, holds in ((False, raw), (True, equal)):
        formula = Formula(tokens(text), {}, taken)
        assert formula.condition() is holds
        assert formula.close is close


@pytest.mark.parametrize("number", [1000, 1099, 1133, 2003, 2203, 3005, 5202, 5222, 5322, 11003, 100001])
def test_a_program_that_writes_into_the_data_of_its_control_is_stopped(number):
    """Variables from 1000 on are the control's: offsets, zeros, inputs (common practice, no source)."""
    assert stops(run_behind(HEAD, f"#{number}=-1.")) == [("control-data", 5)]
    assert stops(run_behind(HEAD, f"#1=1.\nIF[#1EQ1.]THEN #{number}=-1.")) == [("control-data", 6)]
    assert stops(run_behind(HEAD, f"#1=2.\nIF[#1EQ1.]THEN #{number}=-1.")) == []


@pytest.mark.parametrize("number", [1, 33, 100, 199, 500, 999, 3001, 3002, 3901, 3902])
def test_the_variables_of_a_program_clocks_and_counts_of_parts_are_free(number):
    run = run_behind(HEAD, f"#{number}=-1.")
    assert [f.code for f in run.findings] == []


def test_an_alarm_stops_and_a_message_waits_as_a_programmed_stop_does():
    """#3000 halts for good, #3006 as M00 does (common practice, no source)."""
    assert stops(run_behind(HEAD, "#3000=1(NO BAR)")) == [("control-data", 5)]
    assert [(halt.line, halt.what) for halt in run_behind(HEAD, "#3006=1(TURN PART)").halts][:1] == [
        (halt.line, halt.what) for halt in run_behind(HEAD, "M00").halts
    ][:1]


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("#3003=1", True),
        ("#3004=7", True),
        ("#3003=0", False),
        ("#3004=0", False),
        ("#1100=1", True),
        ("#1132=1", True),
    ],
)
def test_hands_that_are_taken_off_and_signals_are_cautioned_of(statement, told):
    run = run_behind(HEAD, statement)
    assert [(f.code, f.line, f.stops) for f in run.findings] == [("control-data", 5, False)] * told


def test_a_variable_of_no_known_value_loses_nothing_until_something_asks_for_it():
    """A count of parts kept by the control, which no word of the program depends on."""
    run = run_behind(HEAD, "#500=#500+1\n#2=#4012*2.\nG00 X50. Z3.")
    assert (places(run)[1:], stops(run)) == ([(50.0, 3.0)], [])
    assert stops(run_behind(HEAD, "#1=5.\n#1=#500+1\nG00 X#1")) == [("macro-variable", 7)]
    assert stops(run_behind(HEAD, "#2=#500+")) == [("macro-variable", 5)]


@pytest.mark.parametrize("text", ["FIX[#9]", "ABS[#9]", "#9AND3", "3OR#9", "ATAN[#9]/[1]", "#9+1"])
def test_what_comes_of_a_variable_without_a_value_has_none(text):
    """It may be set so, as long as nothing asks for it."""
    formula = Formula(tokens(text), {})
    formula.bare = True
    assert math.isnan(formula.sum())


def test_a_variable_without_a_value_numbers_no_other():
    formula = Formula(tokens("#[#9]"), {})
    formula.bare = True
    with pytest.raises(Unknown, match="gives a value to the variable that numbers another"):
        formula.sum()


@pytest.mark.parametrize(
    ("body", "inside"),
    [
        ("#1=1\nGOTO 9\nWHILE[#1 LE 2] DO1\nN9 #1=#1+1\nEND1", True),
        ("#1=1\nGOTO 9\nWHILE[#1 LE 2] DO1\n#1=#1+1\nN9 END1", True),
        ("#1=1\nIF[#1 EQ 1] GOTO 9\nWHILE[#1 LE 2] DO1\nN9 #1=#1+1\nEND1", True),
        ("#1=1\nWHILE[#1 LE 2] DO1\nN9 #1=#1+1\nEND1\nIF[#1 LT 9] GOTO 9", True),
        ("#1=1\nWHILE[#1 LE 2] DO1\nWHILE[#1 LE 2] DO2\nN9 #1=#1+1\nEND2\nIF[#1 LT 9] GOTO 9\nEND1", True),
        # Out of a loop, to its head, and from place to place inside it.
        ("#1=1\nWHILE[#1 LE 2] DO1\nIF[#1 EQ 2] GOTO 9\n#1=#1+1\nEND1\nN9 G04 P1", False),
        ("#1=1\nGOTO 9\nN9 WHILE[#1 LE 2] DO1\n#1=#1+1\nEND1", False),
        ("#1=1\nWHILE[#1 LE 2] DO1\nGOTO 9\nG04 P1\nN9 #1=#1+1\nEND1", False),
        ("#1=1\nGOTO 9\nWHILE[#1 LE 2] DO1\nG04 P1\nN9 #1=#1+1", False),
    ],
)
def test_no_jump_from_outside_leads_into_a_loop(body, inside):
    """Controls stop with an alarm there (common practice of macros, from memory)."""
    messages = [f.message for f in run_behind(HEAD, body).findings if f.stops]
    assert any("stands inside a loop" in message for message in messages) is inside
