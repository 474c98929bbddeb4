"""A program called after each block that moves, by G66 till G67 (common practice of macros, from memory)."""

import pytest
from support.programs import codes, run_of

from postproc import explain, find_dialect
from postproc.converting.carry import Means
from postproc.converting.convert import convert

HEAD = "O1\nG21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-8.\n"
PLUNGE = "M30\nO9\n#1=#24\nG01 X#1 F#9\nG00 X42.\nM99\n"


def floors(run):
    """Where the program goes at feed, as (x, z)."""
    return [(m.x1 / 1000, m.z1 / 1000) for m in run.motions if m.kind == "feed"]


@pytest.mark.parametrize(
    ("blocks", "wanted"),
    [
        ("G66 P9 X34. F.08\nZ-13.\nZ-18.\nG67\nZ-23.", [(34, -13), (34, -18)]),
        ("G66 P9 X34. F.08\nG67\nZ-23.", []),
        # Blocks that don't move call nothing; new values hold from their block on.
        ("G66 P9 X34. F.08\nM08\nG04 P100\nZ-13.\nG66 P9 X32. F.08\nW-5.\nG67", [(34, -13), (32, -18)]),
        ("G66 P9 L2 X34. F.08\nZ-13.\nG67", [(34, -13), (34, -13)]),
        ("G66 P9 X34. F.08\nG00 Z-13.\nG00 Z-18. M08\nG67\nG01 X40. F.1", [(34, -13), (34, -18), (40, -18)]),
        # A program called between is left alone, and its moves call nothing.
        ("G66 P9 X34. F.08\nM98 P8\nG00 Z-18.\nG67", [(34, -18)]),
    ],
)
def test_it_runs_after_each_block_that_moves(blocks, wanted):
    run = run_of(f"{HEAD}{blocks}\n{PLUNGE}O8\nG00 Z-30.\nG00 Z-31.\nM99\n")
    assert floors(run) == wanted
    assert [code for code in codes(run) if code[0] != "not-run"] == []


@pytest.mark.parametrize(
    ("blocks", "code"),
    [
        ("G66 P7 X34. F.08\nZ-13.", "subprogram"),
        ("G66 X34. F.08\nZ-13.", "subprogram"),
        ("G66 P9 F.08\nZ-13.", "macro-variable"),
    ],
)
def test_what_names_no_program_or_leaves_a_value_out_is_a_stop(blocks, code):
    assert code in {told for told, _ in codes(run_of(f"{HEAD}{blocks}\nG67\n{PLUNGE}"))}


def test_it_is_explained_and_written_out():
    text = f"{HEAD}G66 P9 X34. F.08\nZ-13.\nZ-18.\nG67\n{PLUNGE}"
    said = {block.line: block.sentence for block in explain(text).blocks}
    assert (
        said[6] == "After each block that moves from here on, subprogram 9 runs: #24 begins as 34, #9 begins as 0.08."
    )
    assert said[9] == "Nothing more runs after each block that moves."
    made = convert(text, find_dialect("two-block"), find_dialect("plunge"), Means(500, (200_000, 100_000)), "mm")
    assert floors(run_of(made.program.text, dialect="plunge")) == [(34, -13), (34, -18)]


@pytest.mark.parametrize(("call", "wanted"), [("M98 H90", [-13]), ("M98 H90 L2", [-13, -18]), ("M98 H0090 L1", [-13])])
def test_a_subprogram_call_with_h_alone_begins_at_a_block_of_its_own_program(call, wanted):
    run = run_of(f"{HEAD}{call}\nM30\nN90 G00 W-5.\nG01 X34. F.08\nG00 X42.\nM99\n")
    assert ([z for _, z in floors(run)], codes(run)) == (wanted, [])


@pytest.mark.parametrize("call", ["M98 H91", "M98 P9 H90", "M98 H-90"])
def test_a_call_to_a_block_that_is_not_there_or_of_another_program_is_a_stop(call):
    run = run_of(f"{HEAD}{call}\n{PLUNGE}")
    assert {code for code, line in codes(run) if line == 6} & {"subprogram", "unknown-word"}


def test_a_number_that_two_blocks_have_is_a_stop_where_h_leads_to_it():
    run = run_of(f"{HEAD}M98 H90\nM30\nN90 G01 X34. F.08\nG00 X42.\nM99\nN90 M99\n")
    assert ("number-twice", 11) in codes(run)


@pytest.mark.parametrize(
    ("sets", "known"),
    [
        # A vacant value stays vacant where it is put by itself; a formula with one is a number at some controls.
        ("#30=#25", True),
        ("#30=#0", True),
        ("#30=#25\n#30=#30", True),
        ("#100=#25\n#30=#100", True),
        ("#30=#25+1.", False),
        ("#30=#100", False),
        ("#30=-#25", False),
    ],
)
def test_a_variable_that_gets_a_vacant_value_is_vacant(sets, known):
    program = f"O9\n{sets}\nIF[#30EQ#0]GOTO5\nG01 X#24 F#9\nN5 G00 X42.\nM99\n"
    run = run_of(f"{HEAD}G65 P9 X34. F.08\nM30\n{program}")
    assert codes(run) == ([] if known else [("macro-variable", 10 + sets.count("\n"))])


def test_a_switch_behind_a_call_with_values_is_explained_as_a_value():
    text = f"{HEAD}G65 P9 X34. F.08 M8 T4 S3\n{PLUNGE}"
    said = {block.line: block.sentence for block in explain(text).blocks}
    assert said[6].endswith("#24 begins as 34, #9 begins as 0.08, #13 begins as 8, #20 begins as 4, #19 begins as 3.")
