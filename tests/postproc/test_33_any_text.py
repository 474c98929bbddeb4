"""Whatever is typed, the interpreter answers with findings: no text makes it fail, hang or fall silent."""

import random
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.hands.style import hand_program
from support.programs import run_of

from extractor.errors import ProgramError
from extractor.finding import stopped
from postproc import dialects, explain, find_dialect, guess_dialect, interpret, parse_program

NUMBER = st.sampled_from(
    ["0", "1", "2", "3", "00", "28", "75", "90", "99", ".5", "-1.", "1000", "42.", "-13.", "98", "1"]
)
WORD = st.tuples(st.sampled_from("GGGGMMXZUWIKRPQFSTNOLJ#/%(;E"), NUMBER).map("".join)
BLOCK = st.lists(WORD, max_size=5).map(" ".join)
TEXT = st.lists(BLOCK, min_size=1, max_size=12).map("\n".join)


@pytest.fixture(autouse=True)
def _short_patience(monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 3_000)
    monkeypatch.setattr("postproc.reading.interpreter.MOST_BLOCKS", 3_000)


@pytest.mark.parametrize("name", list(dialects(())))
@settings(max_examples=30, deadline=None)
@given(text=TEXT, skip=st.booleans())
def test_any_words_are_run_to_an_end(name, text, skip):
    try:
        parsed = parse_program(text)
    except ProgramError:
        return
    run = interpret(parsed, find_dialect(name), "mm", skip=skip)
    assert len(run.steps) == len(run.step_lines)
    assert all(1 <= m.line <= len(parsed.lines) for m in run.motions)
    assert not any(f.stops and f.code.acceptable for f in run.findings)
    assert all(f.line is not None and 1 <= f.line <= len(parsed.lines) for f in run.findings)
    if not parsed.uses("G", (50, 92)):
        assert all((a.x1, a.z1) == (b.x0, b.z0) for a, b in pairwise(run.motions))


@settings(max_examples=40, deadline=None)
@given(TEXT)
def test_any_words_are_explained(text):
    try:
        told = explain(text)
    except ProgramError:
        return
    assert all(block.sentence for block in told.blocks)


@pytest.mark.parametrize("seed", range(16))
def test_one_character_wrong_is_either_told_or_means_the_same_or_moves_otherwise(seed):
    """A slip never leaves the program unreadable without a word about it."""
    rng = random.Random(seed)
    program = hand_program(5_000 + seed)
    dialect = find_dialect(program.dialect)
    for _ in range(25):
        at = rng.randrange(len(program.text))
        mutant = program.text[:at] + rng.choice("0123456789.-GXZPQRFMNTS ;()/,#\nO") + program.text[at + 1 :]
        run = run_of(mutant, dialect, program.units)
        clean = not stopped(run.findings)
        words = [w for b in parse_program(mutant).blocks for w in b.words]
        assert not clean or all(w.address in "GMXZUWIKRPQFSTOL" for w in words)
        assert guess_dialect(parse_program(mutant)) is not None
