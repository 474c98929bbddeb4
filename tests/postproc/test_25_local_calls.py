"""Blocks of a program called by its own number: M97 P L, as some controls have it (common practice, from memory)."""

import pytest
from support.programs import codes, run_of

from postproc import explain, find_dialect
from postproc.converting.carry import Means
from postproc.converting.convert import convert

HEAD = "O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-8.\n"
LOCAL = "N900 G00 W-5.\nG01 X34. F.08\nG00 X42.\nM99\n"


def floors(run):
    return [m.z1 / 1000 for m in run.motions if m.kind == "feed"]


@pytest.mark.parametrize(
    ("call", "wanted"),
    [
        ("M97 P900", [-13]),
        ("M97 P900 L3", [-13, -18, -23]),
        ("m97 l2 p0900", [-13, -18]),
        ("M97 P900 L0", []),
        ("M97 P900\nG00 Z-30.\nM97 P900", [-13, -35]),
    ],
)
def test_the_blocks_from_a_number_on_run_so_often_up_to_the_return(call, wanted):
    run = run_of(f"{HEAD}{call}\nM30\n{LOCAL}")
    assert floors(run) == wanted
    assert (codes(run), run.ended) == ([], True) or not wanted


def test_a_number_is_one_of_the_program_that_calls_it():
    """Each of two programs has its N900."""
    other = "O2\nM97 P900\nM99\n" + LOCAL.replace("W-5.", "W-7.")
    run = run_of(f"{HEAD}M98 P2\nM97 P900\nM30\n{LOCAL}{other}")
    assert (floors(run), codes(run)) == ([-15, -20], [])


def test_local_calls_stand_inside_one_another_and_inside_a_subprogram():
    twice = "N800 M97 P900 L2\nG00 W-10.\nM99\n"
    run = run_of(f"{HEAD}M97 P800 L2\nM30\n{LOCAL}{twice}")
    assert (floors(run), codes(run)) == ([-13, -18, -33, -38], [])


@pytest.mark.parametrize(
    ("call", "code"),
    [
        ("M97 P901", "subprogram"),
        ("M97 P-900", "subprogram"),
        ("M97 P900 L1.5", "subprogram"),
        ("M97", "unknown-word"),
        ("M97 L2", "unknown-word"),
    ],
)
def test_what_calls_no_block_is_a_stop(call, code):
    run = run_of(f"{HEAD}{call}\nM30\n{LOCAL}")
    assert floors(run) == []
    assert (code, 6) in codes(run)


def test_one_that_calls_itself_is_a_stop():
    assert ("subprogram", 8) in codes(run_of(f"{HEAD}M97 P900\nM30\nN900 M97 P900\nM99\n"))


def test_called_blocks_behind_the_end_are_run():
    assert codes(run_of(f"{HEAD}M97 P900\nM30\n{LOCAL}")) == []
    assert [line for code, line in codes(run_of(f"{HEAD}M30\n{LOCAL}")) if code == "not-run"] == [7]
    assert [line for code, line in codes(run_of(f"{HEAD}M97 P900\nM30\nG00 X1.\n{LOCAL}")) if code == "not-run"] == [8]


def test_without_its_return_it_runs_to_the_end_of_the_file():
    assert "no-return" in [code for code, _ in codes(run_of(f"{HEAD}M97 P900\nM30\n{LOCAL.replace('M99', 'M09')}"))]


def test_it_is_explained_and_written_out_for_another_control():
    text = f"{HEAD}M97 P900 L2\nM30\n{LOCAL}"
    (said,) = [block.sentence for block in explain(text).blocks if block.line == 6]
    assert said == "Blocks of this program run up to a return, and then it goes on here."
    made = convert(text, find_dialect("two-block"), find_dialect("plunge"), Means(500, (200_000, 100_000)), "mm")
    assert [note for note in made.notes if "written out" in note] == [
        "line 6: M97: the subprogram is written out at each place that calls it"
    ]
    assert floors(run_of(made.program.text, dialect="plunge")) == [-13, -18]


TWICE = "N900 G00 X42.\n"


@pytest.mark.parametrize(
    ("leads", "line"),
    [
        ("M97 P900", 12),
        ("GOTO 900", 12),
        ("IF [1 EQ 1] GOTO 900", 12),
        ("IF[2EQ1]GOTO0900", 12),
        ("G71 U2. R.5\nG71 P900 Q901 U.4 W.1 F.2", 13),
        ("G70 P800 Q900", 12),
        # Nothing leads to that number, or what does is of another program.
        ("G04 P900", None),
        ("M97 P901", None),
        ("M98 P900", None),
        ("GOTO 90", None),
    ],
)
def test_a_number_that_two_blocks_have_is_a_stop_where_something_leads_to_it(leads, line):
    run = run_of(f"{HEAD}{leads}\nM30\n{LOCAL}{TWICE}M99\n")
    assert [where for code, where in codes(run) if code == "number-twice"] == ([line] if line else [])


def test_two_programs_may_have_one_block_number_each():
    run = run_of(f"{HEAD}M97 P900\nM30\n{LOCAL}O2\n{TWICE}M99\n")
    assert "number-twice" not in {code for code, _ in codes(run)}
