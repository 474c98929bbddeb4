"""Subprograms of the same file: called, repeated, nested, and bounded."""

import pytest
from support.programs import codes, run_of

HEAD = "O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-8.\n"
SUB = "O1000\nG00 W-5.\nG01 X34. F.08\nG00 X42.\nM99\n"


def floors(run):
    return [m.z1 / 1000 for m in run.motions if m.kind == "feed"]


@pytest.mark.parametrize("call", ["M98 P1000 L4", "M98 P41000", "M98 P00041000", "m98p1000l4", "M98 L4 P1000"])
def test_a_subprogram_runs_so_often(call):
    run = run_of(f"{HEAD}{call}\nM30\n{SUB}")
    assert floors(run) == [-13, -18, -23, -28]
    assert not run.findings
    assert run.ended
    assert {m.line for m in run.motions if m.kind == "feed"} == {10}


@pytest.mark.parametrize(("call", "times"), [("M98 P1000", 1), ("M98 P1000 L1", 1), ("M98 P1000 L0", 0)])
def test_once_or_not_at_all(call, times):
    assert len(floors(run_of(f"{HEAD}{call}\nM30\n{SUB}"))) == times


def test_what_follows_the_call_goes_on():
    run = run_of(f"{HEAD}M98 P1000 L2\nG00 X100.\nM30\n{SUB}")
    assert run.motions[-1].x1 == 100_000


def test_a_program_of_that_very_number_goes_before_repeats():
    run = run_of(f"{HEAD}M98 P41000\nM30\n{SUB}O41000\nG01 X40. F.08\nM99\n")
    assert floors(run) == [-8]


def test_subprograms_call_subprograms():
    outer = "O2000\nM98 P1000 L2\nG00 W-10.\nM99\n"
    run = run_of(f"{HEAD}M98 P2000 L2\nM30\n{SUB}{outer}")
    assert floors(run) == [-13, -18, -33, -38]
    assert not run.findings


def test_a_move_in_the_block_of_the_call_comes_first():
    run = run_of(f"{HEAD}G00 Z-20. M98 P1000\nM30\n{SUB}")
    assert floors(run) == [-25]


@pytest.mark.parametrize(
    ("call", "says"),
    [
        ("M98 P1001", "Subprogram 1001 is not in this file"),
        ("M98", "names no subprogram"),
        ("M98 P1000.", "names no subprogram"),
        ("M98 P1000 L10000", "is to run 10000 times, more than the 9999 that a control takes; check L10000"),
        ("M98 P1000 L99999999", "is to run 99999999 times"),
        ("M98 P1000 L-1", "L-1 is not a number of repeats"),
        ("M98 P1", "calls itself without end"),
    ],
)
def test_a_call_that_leads_nowhere_says_why(call, says):
    run = run_of(f"{HEAD}{call}\nM30\n{SUB}")
    (finding,) = [f for f in run.findings if f.code == "subprogram"]
    assert finding.line == 6
    assert says in finding.message


@pytest.mark.parametrize(("deep", "told"), [(8, False), (9, True)])
def test_too_many_calls_within_calls(deep, told):
    last = 9 + deep
    chain = "".join(f"O{n}\nM98 P{n + 1}\nM99\n" for n in range(10, last))
    found = run_of(f"{HEAD}M98 P10\nM30\n{chain}O{last}\nG00 W-1.\nM99").findings
    assert ["more than 8 deep" in f.message for f in found if f.level == "stop"] == [True] * told


def test_one_that_calls_itself_is_stopped():
    run = run_of(f"{HEAD}M98 P3000\nM30\nO3000\nG00 W-1.\nM98 P3000\nM99")
    assert ("subprogram", 10) in codes(run)
    assert run.ended


def test_one_without_a_return():
    run = run_of(f"{HEAD}M98 P3000\nM30\nO3000\nG00 W-1.\nO4000\nG00 X0.\nM99")
    assert codes(run) == [("no-return", 9), ("not-run", 10)]
    assert run.motions[-1].x1 == 42_000


def test_the_main_program_ends_where_the_next_begins():
    run = run_of("O1\nG21\nG00 X42. Z1.\nO2\nG00 X0.\nM30")
    assert codes(run) == [("no-end", 3), ("not-run", 4)]
    assert len(run.motions) == 1


def test_remarks_may_stand_before_the_number():
    run = run_of("(RING)\nO1\nG21\nG00 X42. Z1.\nM30")
    assert len(run.motions) == 1
    assert not run.findings


def test_what_nothing_leads_to_is_told():
    run = run_of(f"{HEAD}M30\nG00 X1.\n{SUB}")
    assert codes(run) == [("not-run", 7), ("not-run", 8)]
    assert codes(run_of(f"{HEAD}M30\n(END)\nN5\nG00 X1.")) == [("not-run", 9)]
    assert codes(run_of(f"{HEAD}M30\n(END)\nN5\n")) == []


def test_one_number_for_two_programs():
    run = run_of(f"{HEAD}M98 P1000\nM30\n{SUB}O1000\nG00 X0.\nM99")
    assert codes(run) == [("number-twice", 13), ("not-run", 13)]
    assert floors(run) == [-13]


def test_m99_in_the_main_program_starts_over():
    run = run_of("O1\nG21\nG00 X42. Z1.\nM99")
    assert codes(run) == [("endless", 4)]
    assert (len(run.motions), run.ended) == (1, True)


@pytest.mark.parametrize("sub", ["O9\nM99", "O9\nG04 P1\nM99"])
def test_a_program_that_goes_on_and_on_without_moving_is_bounded(sub, monkeypatch):
    monkeypatch.setattr("postproc.reading.interpreter.MOST_BLOCKS", 5_000)
    middle = "\n".join(f"O{n}\nM98 P{n + 1} L9999\nM99" for n in range(2, 5))
    text = f"O1\nG21\nM98 P2 L9999\nM30\n{middle}\n{sub.replace('O9', 'O5')}"
    run = run_of(text)
    assert "runaway" in [code for code, _ in codes(run)]


def test_findings_in_a_subprogram_are_told_once():
    run = run_of(f"{HEAD}M98 P1000 L50\nM30\nO1000\nG00 W-5\nM99")
    assert codes(run) == [("no-decimal-point", 9)]


def test_a_return_to_a_block_is_refused_and_says_why():
    run = run_of(f"{HEAD}M98 P1000\nM30\n{SUB.replace('M99', 'M99 P100')}")
    (stop,) = [finding for finding in run.findings if finding.stops]
    assert "P100 beside M99 sends the program to another block, which is not followed" in stop.message
    assert not [finding for finding in run_of(f"{HEAD}M98 P1000\nM30\n{SUB}").findings if finding.stops]
