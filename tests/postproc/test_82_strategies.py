"""Ever other ways to cut a part right are no alarm; a block left out or two exchanged are told if it matters.

Outside check: the slow simulation with polygons (shapely) says whether it matters.
"""

import random

from support.slow_cut import crashes, differs
from support.strategies import strategy_programs

from postproc import compare_program, find_dialect, interpret, parse_program

PROGRAMS = tuple(strategy_programs(60, seed=5))


def test_no_false_alarm():
    for program in PROGRAMS:
        found = compare_program(program.part, program.text, program.shop)
        assert found.agree, (program.name, program.text, found)


def edited(text: str, rng: random.Random) -> str:
    """A block left out, or two neighbours exchanged."""
    lines = text.split("\n")
    at = rng.randrange(lines.index("O0077") + 3, len(lines) - 6)
    if rng.random() < 0.5:
        del lines[at]
    else:
        lines[at], lines[at + 1] = lines[at + 1], lines[at]
    return "\n".join(lines)


def test_blocks_left_out_or_exchanged():
    """Told whenever it cuts otherwise or a rapid goes through metal."""
    rng, told, mattered = random.Random(8), 0, 0
    for n in range(70):
        program = PROGRAMS[n % len(PROGRAMS)]
        text = edited(program.text, rng)
        run = interpret(parse_program(text), find_dialect("plunge"), "mm")
        hurt = crashes(program.part, run, program.shop, 0.021)
        otherwise = differs(program.part, run, program.shop, 0.0204)
        found = compare_program(program.part, text, program.shop, find_dialect("plunge"))
        told += not found.agree
        mattered += bool(hurt or otherwise)
        if hurt or otherwise:
            assert not found.agree, (program.name, text, hurt, found)
        if hurt:
            assert set(hurt[:1]) <= {f.line for f in found.findings if f.stops}
    assert mattered > 10
    assert told >= mattered
