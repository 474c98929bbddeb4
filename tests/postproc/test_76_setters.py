"""Right programs in setters' habits, and what one slip makes of them: the metal is held against another reading.

Outside check: `support.metal_oracle` reads words and cuts polygons (shapely) with nothing of this project. The sweep
over all slips is `tests/bench/setter_slips.py`.
"""

import pytest
from support.metal_oracle import LOST, Metal
from support.setters import PROGRAMS

from postproc import compare_program


@pytest.mark.parametrize("name", PROGRAMS)
def test_a_right_program_agrees_without_a_caution_in_every_habit(name):
    work, text = PROGRAMS[name]
    assert list(Metal(work).faults(text)) == []
    found = compare_program(work.part, text, work.shop)
    assert (found.agree, [f for f in found.findings if f.level.value != "note"]) == (True, [])


@pytest.mark.parametrize(
    ("name", "right", "wrong", "cuts_right"),
    [
        ("cycles", "Z-49.", "Z-45.", False),
        ("cycles", "X42.", "X21.", False),
        ("cycles", "Q3600", "Q3400", True),
        ("cycles", "Z-36.", "W-20.", True),
        ("no blanks", "q10000", "q1000", False),
        ("three calls by L", "L3", "L4", False),
        ("three calls in P", "W-10.", "Z-10.", False),
        ("a call for each", "G00 X53.\nM99", "G00 U11.\nM99", True),
        ("increments", "G00 U11.\nW-10.", "G00 U1.\nW-10.", False),
        ("modal cuts", "G01 X42. F.1\nX53.", "G01 X42. F.1\nG00 X53.", False),
        ("finished from both walls", "Z-54.\nX40.5", "Z-54.\nX39.5", False),
        ("variables", "#4=4.", "#4=3.", False),
        ("loops", "#2=#2-10.", "#2=#2-5.", False),
        ("jumps", "#11 LT 42.", "#11 LT 41.", False),
        ("another insert", "T0606", "T0202", False),
        ("chamfers by a call", "W-4.5", "W-4.", False),
        ("chamfers by a call", "W3.", "W4.", False),
        ("a plunge in the bore", "G00 X38.\nZ50.", "Z50.", False),
        ("inch increments", "G01 U-.35 F.003\nG00 U.35\nW-.4", "G01 U-.35 F.003\nG00 U.3\nW-.4", False),
    ],
)
def test_a_slip_is_told_where_the_metal_is_another_and_only_there(name, right, wrong, cuts_right):
    work, text = PROGRAMS[name]
    assert right in text
    text = text.replace(right, wrong, 1)
    try:
        assert (list(Metal(work).faults(text)) == []) is cuts_right
    except LOST:
        assert not cuts_right
    assert compare_program(work.part, text, work.shop).agree is cuts_right
