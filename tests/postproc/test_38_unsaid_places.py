"""Stops and cautions about a program that leaves for the reference point never name where that is taken to be."""

import re

import pytest
from support.moves import shop, tool
from support.parts import part_of, row

from postproc import compare_program

PART = part_of(row(4, -10, 5, 3, 34))
HEAD = "G21 G99\nT0303\nG97 S900 M03\nG00 Z-13.\nX42.\nG01 X34. F.08\n"


@pytest.mark.parametrize(
    "blocks",
    [
        "G28 U0 W0",
        "G28 W0",
        "G28 W0\nG28 U0",
        "G53 X0 Z0",
        "G53 Z0",
        "G28 U0 W0\nG00 X20.\nG00 Z-20.",
        "G28 U0\nG00 W-5.\nG00 X20.",
        "G28 W0\nG00 U-5.\nG00 Z-5.",
        "G28 U0 W0\nG00 U-5. W-5.",
        "G28 U0 W0\nG01 Z-14. X30. F.1",
        "G28 U0 W0\nT0404\nG00 Z-20. X30.",
    ],
)
def test_the_reference_point_is_named_and_not_numbered(blocks):
    found = compare_program(PART, f"{HEAD}{blocks}\nM30", shop(tool())).findings
    said = [number for f in found for number in re.findall(r"[0-9.]*[0-9]", f.message)]
    assert not [number for number in said if float(number) > 900]


def test_a_rapid_home_out_of_a_groove_says_where_it_goes():
    (hit,) = [f for f in compare_program(PART, f"{HEAD}G28 U0 W0\nM30", shop(tool())).findings if f.stops]
    assert "The rapid from X34. Z-13. to the reference point runs 3 deep into metal" in hit.message


@pytest.mark.parametrize(
    ("home", "line", "told"),
    [
        ("G28 W0", 7, "from X44. Z-13. to the reference point runs 3 deep into metal"),
        ("G28 U0", 7, "from X44. Z-13. to the reference point runs into metal"),
        ("G28 U0\nG28 W0", 8, "The rapid to the reference point runs into metal"),
    ],
)
def test_a_bar_home_through_the_wall_is_given_no_depth_that_nobody_knows(home, line, told):
    """Along the axis it stays 3 deep in the wall; outward nothing says how far it goes."""
    part = part_of([(-10, -13, 44, {"where": "inside", "mouth_diameter": 38.0})], diameter=80, bore=38.0)
    head = HEAD.replace("G00 Z-13.\nX42.\nG01 X34.", "G00 X36.\nZ-13.\nG01 X44.")
    found = compare_program(part, f"{head}{home}\nM30", shop(tool(where="inside"))).findings
    (message,) = [f.message for f in found if f.code == "rapid-into-material" and f.line == line]
    assert told in message
