"""Right programs in many hands are read without a stop and plunge exactly where they mean to."""

import pytest
from support.hands.style import hand_programs
from support.programs import run_of

from extractor.finding import stopped
from postproc import guess_dialect, parse_program

PROGRAMS = tuple(hand_programs(300, seed=7))


def floors(run, cuts):
    """Where feed moves reach a floor meant: x and z in order, each once in a row."""
    meant = {x for x, _ in cuts}
    reached = [(m.x1, m.z1) for m in run.motions if m.kind == "feed" and m.x1 in meant and m.x1 != m.x0]
    return tuple(place for n, place in enumerate(reached) if n == 0 or reached[n - 1] != place)


@pytest.mark.parametrize("skip", [False, True])
def test_hand_programs_run_as_meant(skip):
    for program in PROGRAMS:
        run = run_of(program.text, program.dialect, program.units, skip=skip)
        assert not stopped(run.findings), (program.name, run.findings, program.text)
        assert run.units == program.units
        assert run.ended
        reached = floors(run, program.cuts)
        assert [c for c in reached if c in program.cuts] == list(program.cuts), (program.name, program.text)


def test_the_dialect_of_hand_programs_is_guessed():
    for program in PROGRAMS:
        guessed = guess_dialect(parse_program(program.text))
        has_cycle = any("75" in line.replace(" ", "") and "g" in line.lower() for line in program.text.split("\n"))
        assert guessed is not None
        if program.dialect == guessed.name or has_cycle is False:
            continue
        run = run_of(program.text, guessed, program.units)
        assert not stopped(run.findings), (program.name, guessed.name, run.findings, program.text)


def test_the_programs_differ():
    assert len({p.text for p in PROGRAMS}) == len(PROGRAMS)
    assert {p.dialect for p in PROGRAMS} == {"two-block", "one-block", "plunge"}
