"""Programs written out by hand against drawings of a plain script: right ones agree, spoilt ones never do.

Nothing of `support.plain` knows the tool: the faults are of the trade (common practice, no source), and each must keep
the program from agreeing, whether its control is named or guessed.
"""

import pytest
from support.plain import PROGRAMS, faults, text_of
from support.plain.sheets import PARTS, draw

from extractor import read_drawing
from planner import parse_shop
from postproc import compare_program, find_dialect

CONTROLS = {"sleeve": "one-block", "nozzle-iso": "plunge"}
FAULTS = faults()


@pytest.fixture(scope="module")
def parts(tmp_path_factory):
    folder = tmp_path_factory.mktemp("plain")
    return {name: read_drawing(draw(name, folder)).part for name in PARTS}


def compared(parts, program, text, named):
    part = parts[PROGRAMS[program]]
    shop = parse_shop(text_of(f"{PROGRAMS[program]}.toml"), "shop.toml", part.units)
    return compare_program(part, text, shop, find_dialect(CONTROLS.get(program, "two-block")) if named else None)


@pytest.mark.parametrize("named", [False, True])
@pytest.mark.parametrize("program", PROGRAMS)
def test_the_right_program_agrees(parts, program, named):
    found = compared(parts, program, text_of(program), named)
    assert found.agree, found.findings
    assert found.followed.not_followed == 0


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_no_fault_agrees(parts, fault):
    assert not compared(parts, fault.program, fault.text, named=len(fault.name) % 2 == 0).agree


def test_there_are_a_hundred_faults_each_of_its_own_kind():
    assert len({fault.name for fault in FAULTS}) == len(FAULTS) >= 100
