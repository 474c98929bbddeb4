"""Which program of a file is the main one, where a number is looked for, what a call runs: a case for each rule."""

import pytest
from support.programs import run_of

from postproc.reading.sections import MOST_REPEATS, Sections
from postproc.reading.words import Word, parse_program

CALLS = frozenset({98})


def sections(*lines, calls=CALLS):
    """The sections of a program whose lines are its blocks."""
    blocks = parse_program("\n".join(lines)).blocks
    assert len(blocks) == len(lines)
    return Sections.of(blocks, calls), blocks


@pytest.mark.parametrize(
    ("lines", "main"),
    [
        (["O1", "M98 P2", "M30", "O2", "M99"], 0),
        (["O2", "M99", "O1", "M98 P2", "M30"], 2),
        (["O2", "M99", "O1", "M98 P30002", "M30"], 2),
        (["O2", "M98 P3", "M99", "O3", "M99", "O1", "M98 P2", "M30"], 5),
        (["G00 X1.", "O2", "M99", "O1", "M98 P2", "M30"], 0),
        (["(a remark)", "O2", "M99", "O1", "M98 P2", "M30"], 3),
        (["O1", "M98 P2", "O2", "M98 P1"], 0),
        (["O2", "M98 P1", "O1", "M98 P2"], 0),
        (["(a remark)", "O2", "M98 P1", "O1", "M98 P2"], 1),
        (["O1", "M98 P1", "M30", "O2", "M99"], 0),
        (["O2", "M99", "O1", "G65 P2", "M30"], 2),
        (["O2", "M99", "O1", "M14 P2", "G98 P2", "M30"], 0),
        (["O2", "M99", "O1", "M98 P5", "M30"], 0),
        (["G00 X1.", "M30"], 0),
    ],
)
def test_the_main_program_is_the_first_that_no_other_one_calls(lines, main):
    assert sections(*lines)[0].main == main


def test_a_number_used_twice_is_known_and_the_first_is_called():
    found, _ = sections("O1", "M30", "O2", "M99", "O1", "M30")
    assert (found.first, found.starts, found.twice) == ({1: 0, 2: 2}, {0, 2, 4}, 4)
    assert sections("O1", "M30", "O2", "M99")[0].twice is None
    # An O further on in a block begins nothing.
    assert sections("O1", "G00 O2", "M30")[0].starts == {0}


def test_another_program_begins_where_one_starts_that_is_not_running():
    found, _ = sections("O1", "M30", "O2", "M99")
    assert [found.begins(index, 0) for index in range(4)] == [False, False, True, False]
    assert not found.begins(2, 2)


@pytest.mark.parametrize(
    ("number", "at", "index"),
    [(10, 0, 1), (10, 1, 3), (10, 3, 1), (10, 2, 3), (20, 0, None), (10, 5, 6), (20, 4, 7), (20, 7, 7), (30, 5, None)],
)
def test_a_block_number_is_looked_for_onward_in_its_own_program(number, at, index):
    # 0 O1, 1 N10, 2 N30, 3 N10, 4 O2, 5 X2., 6 N10, 7 N20
    found, blocks = sections("O1", "N10 X1.", "N30 X1.", "N10 X2.", "O2", "X2.", "N10 X3.", "N20 X4.")
    assert found.numbered(blocks, number, at) == index


def test_a_program_ends_where_the_next_one_begins():
    found, blocks = sections("O1", "X1.", "O2", "N10 X2.", "O3", "N20 X3.")
    assert [found.numbered(blocks, number, 0) for number in (10, 20)] == [None, None]
    assert [found.numbered(blocks, number, 2) for number in (10, 20)] == [3, None]


def test_words_behind_the_number_of_a_program_are_run():
    text = "G21 G99\nT0303\nG97 S500 M03\nG00 X60. Z5.\nM98 P2\nM30\nO2 G01 X50. F.1\nM99\n"
    run = run_of(text)
    assert [(m.kind, m.x1) for m in run.motions] == [("rapid", 60_000), ("feed", 50_000)]


def word(address, text):
    return Word(address, text, 1)


@pytest.mark.parametrize(
    ("number", "repeats", "wanted"),
    [
        ("2", None, (2, 1)),
        ("2", "3", (2, 3)),
        ("2", "0", (2, 0)),
        ("2", str(MOST_REPEATS), (2, MOST_REPEATS)),
        ("2", str(MOST_REPEATS + 1), "to run 10000 times"),
        ("30002", None, (2, 3)),
        ("99990002", None, (2, 9999)),
        ("100000002", None, "to run 10000 times"),
        ("30002", "3", "Subprogram 30002 is not in this file"),
        ("12345", None, (4, 1)),
        ("9999", None, "Subprogram 9999 is not in this file"),
        ("10000", None, "Subprogram 0 is not in this file"),
        ("10002", None, (2, 1)),
        ("3", None, "Subprogram 3 is not in this file"),
        ("2.", None, "names no subprogram"),
        ("2", "3.", "is not a number of repeats"),
    ],
)
def test_what_a_call_runs(number, repeats, wanted):
    found, _ = sections("O1", "M30", "O2", "M99", "O12345", "M99")
    told = found.called(word("P", number), None if repeats is None else word("L", repeats))
    if isinstance(wanted, str):
        assert wanted in told
    else:
        assert told == wanted


def test_a_call_without_a_number_runs_nothing():
    assert "names no subprogram" in sections("O1", "M30")[0].called(None, None)


def test_from_the_first_block_of_a_program_none_is_found_in_the_one_before():
    found, blocks = sections("O1", "N10 G00 X1.", "M30", "O2", "G00 X2.", "M99")
    assert [found.numbered(blocks, 10, at) for at in (2, 3, 4)] == [1, None, None]


@pytest.mark.parametrize("name", ["O<RING-5>", "<RING-5>", "o<T5_X2.0+1>", "<RING-5>(5 GROOVES)"])
def test_a_program_may_begin_with_its_name(name):
    """From memory, of controls that keep programs as files: O or none before the name."""
    found, blocks = sections("O2", "M99", name, "M98 P2", "M30", "<OTHER>", "M30")
    assert (found.main, found.starts, found.twice) == (2, {0, 2, 5}, None)
    assert blocks[2].words[0].begins
    assert "unknown-character" not in {f.code for f in run_of(f"{name}\nG00 X42. Z5.\nM30\n").findings}


@pytest.mark.parametrize(
    "line",
    ["G00 X42. <RING-5>", "<RING-5", "<>", "M98 <RING-5>", "<" + 33 * "A" + ">" + 20 * "G00 X42. Z5. ", "<html>"],
)
def test_no_other_mark_in_angle_brackets_is_a_name(line):
    assert "unknown-character" in {f.code for f in run_of(f"O1\n{line}\nM30\n").findings}
    assert "unknown-character" not in {f.code for f in run_of(f"<{32 * 'A'}>\nM30\n").findings}
