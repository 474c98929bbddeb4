"""Right programs in many hands agree with their drawings: no false alarm."""

import re
from itertools import pairwise

from support.hands.style import hand_programs

from postproc import compare_program, find_dialect

PROGRAMS = tuple(hand_programs(90, seed=23))
# What some of these hands do on purpose: deep plunges in one go, words that only look like blocks in a remark, M04.
REMARKS = {"stopped-in-groove", "no-pecks", "words-in-remark", "spindle-reverse", "coolant-off", "block-skip"}


def test_no_false_alarm():
    for program in PROGRAMS:
        found = compare_program(program.part, program.text, program.shop)
        assert found.agree, (program.name, program.text, found)
        assert {f.code for f in found.findings} <= REMARKS, (program.name, program.text, found.findings)
        if any(f.code == "spindle-reverse" for f in found.findings):
            assert re.search(r"M\s*0*1?4", program.text.upper()), program.text
        for told in (f for f in found.findings if f.code == "block-skip"):
            assert "loses its coolant" in told.message
            assert re.search(r"/.*M\s*0*8", program.text.upper()), program.text


def test_the_verdict_is_the_same_every_time_and_with_the_dialect_named():
    for program in PROGRAMS[:30]:
        once = compare_program(program.part, program.text, program.shop)
        assert compare_program(program.part, program.text, program.shop) == once
        named = compare_program(program.part, program.text, program.shop, find_dialect(program.dialect))
        assert named.matches == once.matches


def test_against_another_drawing_it_is_told():
    """The alarm can ring: each program is held against the next one's drawing."""
    for program, other in pairwise(PROGRAMS[:30]):
        if program.part.grooves != other.part.grooves and program.units == other.units:
            assert not compare_program(other.part, program.text, program.shop).agree
