"""Land taken down between grooves is a stop, corners left sharper than drawn are said; each with its line or groove."""

import pytest
from support.moves import shop, tool
from support.parts import part_of

from extractor.finding import Level
from postproc import compare_program

HEAD = "%\nO0100\nG21 G99\nT0303\nG50 S2500\nG96 S110 M03\n"
TAIL = "G00 X150.\nG28 U0 W0\nM30\n%\n"
PAIR = part_of([(-10, -13, 34), (-20, -23, 34)])
INSERT = tool(corner_radius=0.2)


def plunge(z):
    return f"G0 X42. Z{z}.\nG1 X34. F.08\nG0 X42.\n"


def drag(diameter, to):
    """Down onto the land between the two grooves and along it."""
    return f"G0 X42. Z-21.\nG1 X{diameter} F.08\nZ{to} F.1\nG0 X42.\n"


def compared(cuts, part=PAIR, inserts=None):
    return compare_program(part, HEAD + cuts + TAIL, inserts or shop(INSERT, sharp_corner=0.2))


@pytest.mark.parametrize("diameter", [39.9, 39.0, 37.5])
def test_land_taken_down_over_both_grooves_is_a_stop_with_its_line(diameter):
    found = compared(plunge(-13) + plunge(-23) + drag(diameter, -13.0))
    assert not found.agree
    (finding,) = [f for f in found.findings if f.code == "land-cut"]
    line = (HEAD + plunge(-13) + plunge(-23)).count("\n") + 2
    assert finding.level is Level.STOP
    assert finding.line in (line, line + 1)
    assert finding.message == "The land between Z-13 and Z-20 is cut down below the drawing."
    assert [m.state.value for m in found.matches] == ["matches", "matches"]


def test_a_pass_along_the_land_itself_takes_nothing():
    found = compared(plunge(-13) + plunge(-23) + drag(40.0, -13.0))
    assert found.agree
    assert found.findings == ()


def test_corners_sharper_than_drawn_are_a_note_for_their_groove():
    found = compared(plunge(-13), part_of([(-10, -13, 34, {"corner_radius": 0.5})]))
    assert found.agree
    (finding,) = found.findings
    assert (finding.level, finding.code, finding.groove) == (Level.NOTE, "corner-sharper", 1)
    assert finding.message == "Groove 1: T0303 leaves a corner radius of 0.2, sharper than the 0.5 drawn."


def test_like_grooves_share_the_note():
    corner = {"corner_radius": 0.5}
    found = compared(plunge(-13) + plunge(-23), part_of([(-10, -13, 34, corner), (-20, -23, 34, corner)]))
    (finding,) = found.findings
    assert (finding.code, finding.groove) == ("corner-sharper", None)
    assert finding.message.startswith("Grooves 1, 2: ")


@pytest.mark.parametrize(
    ("drawn", "lower", "said"),
    [(0.2, None, None), (0.5, -0.3, None), (0.5, -0.29, "corner-smaller"), (0.25, None, "corner-sharper")],
)
def test_a_corner_within_its_tolerance_is_not_called_sharper(drawn, lower, said):
    tolerances = {} if lower is None else {"corner_radius": (lower, 0.0)}
    part = part_of([(-10, -13, 34, {"corner_radius": drawn, "tolerances": tolerances})])
    found = {f.code: f.level for f in compared(plunge(-13), part).findings if f.code.startswith("corner")}
    # A limit that the drawing prints is a stop, a radius without one only a note.
    assert found == ({} if said is None else {said: "stop" if lower else "note"})
