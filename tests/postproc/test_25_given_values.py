"""Programs called with values of their own: which letter gives which, what they share, what comes back with the return.

G65 P L and the letters of the trade's macros: common practice, from memory. Values without a point are counted by their
letter, differently at different controls, so that only the letters of plain numbers may do without.
"""

import pytest
from support.programs import codes, run_of

from postproc import explain, find_dialect
from postproc.converting.carry import Means
from postproc.converting.convert import convert

HEAD = "O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-8.\n"
SUB = "O9010\nG00 Z#26\nG01 X#24 F#9\nG00 X42.\nM99\n"
# As handbooks print them side by side.
LETTERS = {
    "A": 1,
    "B": 2,
    "C": 3,
    "I": 4,
    "J": 5,
    "K": 6,
    "D": 7,
    "E": 8,
    "F": 9,
    "H": 11,
    "M": 13,
    "Q": 17,
    "R": 18,
    "S": 19,
    "T": 20,
    "U": 21,
    "V": 22,
    "W": 23,
    "X": 24,
    "Y": 25,
    "Z": 26,
}


def cuts(run):
    return [(m.x1 / 1000, m.z1 / 1000, m.feed) for m in run.motions if m.kind == "feed"]


def places(body, sub=SUB, **how):
    return cuts(run_of(f"{HEAD}{body}\nM30\n{sub}", **how))


def test_a_program_cuts_by_the_values_that_it_is_given():
    run = run_of(f"{HEAD}G65 P9010 X34. Z-13. F.08\nG65 P9010 F.1 Z-23. X36.\nM30\n{SUB}")
    assert cuts(run) == [(34, -13, 800), (36, -23, 1000)]
    assert (run.findings, run.ended) == ((), True)


@pytest.mark.parametrize(("letter", "number"), LETTERS.items())
def test_each_letter_gives_one_variable(letter, number):
    others = [n for n in range(1, 34) if n != number]
    empty = "".join(f"IF[#{n}NE#0]GOTO9\n" for n in others)
    sub = f"O9010\n{empty}G01 X#{number} F.1\nN9 M99\n"
    run = run_of(f"{HEAD}G65 P9010 {letter}34.\nM30\n{sub}")
    assert (cuts(run), [f for f in run.findings if f.stops]) == ([(34, -8, 1000)], [])


@pytest.mark.parametrize("letter", ["G", "N", "O"])
def test_other_letters_give_none(letter):
    run = run_of(f"{HEAD}G65 P9010 X34. Z-13. F.08 {letter}5\nM30\n{SUB}")
    assert ("unknown-word", 6) in codes(run)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("X34. Z-13. F.08", []),
        ("X34 Z-13. F.08", [("no-decimal-point", 6)]),
        ("X34. Z-13. F.08 A5", [("no-decimal-point", 6)]),
        ("X34. Z-13. F.08 A0", []),
        ("X34. Z-13. F.08 H5 D2 M3 S100 T4", []),
        ("X34. Z-13. F.08 H5. D2. M3. S100. T4.", []),
        ("X34. Z-13. F.08 I1. I2.", [("repeated-word", 6)]),
    ],
)
def test_a_length_that_is_given_has_its_point(words, told):
    assert codes(run_of(f"{HEAD}G65 P9010 {words}\nM30\n{SUB}")) == told


def test_whole_units_are_given_where_the_shop_says_that_the_control_reads_them_so():
    given = "G65 P9010 X34 Z-13 F.08"
    assert places(given, whole_numbers="units") == [(34, -13, 800)]
    assert places(given, whole_numbers="increments") == [(0.034, -0.013, 800)]


def test_a_program_has_variables_of_its_own_up_to_33_and_shares_the_others():
    sub = "O9010\nG01 X#1 F.1\n#1=30.\n#2=5.\n#33=9.\n#34=36.\nM99\n"
    body = "#1=40.\n#33=8.\n#34=1.\nG65 P9010 A34.\nG01 X#1\nX#34\nIF[#2NE#0]GOTO7\nIF[#33NE8]GOTO7\nX35.\nN7"
    assert [x for x, _, _ in places(body, sub)] == [34, 40, 36, 35]


def test_a_subprogram_without_values_shares_those_of_its_caller():
    sub = "O9010\nG01 X#1 F.1\n#1=30.\nM99\n"
    assert [x for x, _, _ in places("#1=40.\nM98 P9010\nG01 X#1", sub)] == [40, 30]


def test_each_repeat_begins_with_the_values_that_were_given():
    sub = "O9010\nG01 X#1 F.1\n#1=#1-2.\nG01 X#1\nM99\n"
    assert [x for x, _, _ in places("#1=1.\nG65 P9010 L2 A34.\nG01 X[#1+40.]", sub)] == [34, 32, 34, 32, 41]
    assert places("G65 P9010 L0 A34.", sub) == []


def test_programs_with_values_call_one_another():
    sub = "O9010\nG65 P9011 A[#1-1.]\nG01 X#1 F.1\nM99\nO9011\nG01 X#1 F.1\nM99\n"
    assert [x for x, _, _ in places("G65 P9010 A34.", sub)] == [33, 34]


def test_a_value_that_is_worked_out_keeps_its_decimals():
    """A third of ten, three hundred times: rounded to a count it would come out a tenth of a millimetre short."""
    sub = "O9010\n#30=0\n#31=0\nWHILE[#30LT300]DO1\n#31=#31+#7\n#30=#30+1\nEND1\nG01 X[#31/20.] F.1\nM99\n"
    assert [x for x, _, _ in places("G65 P9010 D[10./3.]", sub)] == [50]


@pytest.mark.parametrize(("body", "code"), [("G65 P9011 A1.", "subprogram"), ("G65 A1.", "subprogram")])
def test_a_program_that_is_not_there_is_a_stop(body, code):
    assert (code, 6) in codes(run_of(f"{HEAD}{body}\nM30\n{SUB}"))


@pytest.mark.parametrize("first", ["G65 P9010 X#30 Z-13. F.08", "G65 P9010 Z-13. F.08"])
def test_a_value_that_nothing_gives_is_not_guessed(first):
    run = run_of(f"{HEAD}{first}\nM30\n{SUB}")
    assert "macro-variable" in [code for code, _ in codes(run)]
    assert cuts(run) == []


def test_a_program_that_is_called_with_values_is_not_the_main_one():
    run = run_of(f"{SUB}{HEAD}G65 P9010 X34. Z-13. F.08\nM30\n")
    assert (cuts(run), run.findings) == ([(34, -13, 800)], ())


def test_it_is_explained_with_its_values():
    blocks = {b.line: b.sentence for b in explain(f"{HEAD}G65 P9010 X34. Z-13. F.08 L2\nM30\n{SUB}").blocks}
    assert blocks[6] == "Subprogram 9010 runs, 2 times: #24 begins as 34, #26 begins as -13, #9 begins as 0.08."


def test_another_control_gets_it_written_out():
    text = f"{HEAD}G65 P9010 X34. Z-13. F.08\nG65 P9010 X36. Z-23. F.1\nM30\n{SUB}"
    made = convert(text, find_dialect("two-block"), find_dialect("plunge"), Means(500, (200_000, 100_000)), "mm")
    assert made.refusals == ()
    assert [note for note in made.notes if "written out" in note] == [
        f"line {line}: G65: the subprogram is written out at each place that calls it" for line in (6, 7)
    ]
    assert cuts(run_of(made.program.text, dialect="plunge")) == [(34, -13, 800), (36, -23, 1000)]


@pytest.mark.parametrize(
    ("block", "stops"),
    [
        ("G65 P9010 X34. Z-13. F.08", False),
        ("N50 G65 P9010 X34. Z-13. F.08", False),
        ("/G65 P9010 X34. Z-13. F.08", False),
        ("(FIRST) G65 P9010 X34. Z-13. F.08", False),
        ("G65 M05 P9010 X34. Z-13. F.08", False),
        ("M05 G65 P9010 X34. Z-13. F.08", True),
        ("N50 M03 G65 P9010 X34. Z-13. F.08", True),
        ("X34. G65 P9010 Z-13. F.08 X34.", True),
        ("G97 G65 P9010 X34. Z-13. F.08", True),
        ("P9010 G65 P9010 X34. Z-13. F.08", True),
        ("M05 G65 P9010 X[30.+4.] Z-13. F.08", True),
    ],
)
def test_values_stand_behind_the_call(block, stops):
    """A word before it is a value at some controls, and carried out at others (common practice, from memory)."""
    run = run_of(f"{HEAD}{block}\nM30\n{SUB}")
    assert [code for code, line in codes(run) if line == 6 and code != "block-skip"] == ["unknown-word"] * stops
    assert cuts(run) == [(34, -13, 800)]


@pytest.mark.parametrize(
    ("body", "known", "x"),
    [
        ("IF[#24EQ#0]GOTO5", True, 34),
        ("IF[#0EQ#24]GOTO5", True, 34),
        ("IF[#24NE#0]GOTO5", True, 36),
        ("IF[#24EQ#25]GOTO5", True, 34),
        ("IF[#24EQ2]GOTO5", True, 36),
        ("IF[#33EQ#0]GOTO5", True, 34),
        ("IF[#9EQ#0]GOTO5", True, 36),
        ("#24=#100\nIF[#24EQ#0]GOTO5", False, 36),
        ("IF[#24EQ0]GOTO5", False, 36),
        ("IF[#24LT2]GOTO5", False, 36),
        ("IF[[#24+1]EQ#0]GOTO5", False, 36),
        ("IF[#34EQ#0]GOTO5", False, 36),
        ("M98 P9011\nIF[#24EQ#0]GOTO5", True, 34),
        ("G65 P9011 X1.\nIF[#24EQ#0]GOTO5", True, 34),
        ("X[#24+40.]", False, 36),
    ],
)
def test_a_variable_of_its_own_that_a_call_leaves_out_is_vacant(body, known, x):
    """That asks for a default; whether it is 0 as well differs (common practice, from memory)."""
    sub = f"O9010\n{body}\nG01 X36. F#9\nGOTO6\nN5 G01 X34. F#9\nN6 G00 X42.\nM99\nO9011\n#30=1\nM99\n"
    run = run_of(f"{HEAD}G65 P9010 L2 F.08\nM30\n{sub}")
    assert [f.code for f in run.findings if f.stops][:1] == ["macro-variable"] * (not known)
    if known:
        assert [one for one, _, _ in cuts(run)] == [x, x]


def test_behind_a_call_the_variables_of_its_caller_are_as_before():
    run = run_of(f"{HEAD}G65 P9011\nIF[#24EQ#0]GOTO5\nN5\nM30\nO9011\nM99\n")
    assert [(f.code, f.line) for f in run.findings if f.stops] == [("macro-variable", 7)]
