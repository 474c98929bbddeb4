"""Programs for known parts, followed by a second reader written from the contract's words alone."""

import re

import pytest
from shapely import box
from support.independent.programs import faults, inserts, planned, told, written
from support.independent.stock import Wishes, random_part
from support.second_opinion import Insert, Lost, machined, run
from support.wholes.lathe import AWAY, Leg, stops

DIALECTS = ("two-block", "one-block", "plunge")
CYCLE = """%
O0001 (RING)
G21
G50 S3000
T0303
G96 S120 M03
G00 Z-13.
X42.
G75 R0.5
G75 X34. Z-28. P1000 Q5000 F0.08
G00 X100.
M30
%
"""


@pytest.mark.parametrize("seed", range(12))
def test_programs_cut_the_part_they_were_made_for(seed: int) -> None:
    part = random_part(seed, Wishes(units="in" if seed % 3 == 0 else "mm", plain=seed % 4 == 0))
    reference = "far" if seed % 2 else "near"
    plan = planned(told(part), reference, peck=(1.0, 0.0, 0.4)[seed % 3])
    if not part.grooves:
        assert [f.code for f in plan.findings if f.stops] == ["no-grooves"]
        return
    assert not plan.stopped, plan.findings
    for dialect in DIALECTS:
        assert faults(written(plan, dialect), part, reference) == [], dialect


@pytest.mark.parametrize("seed", [1, 2, 5, 7])
def test_a_floor_cut_deeper_is_noticed(seed: int) -> None:
    """The check above can fail: the first cut to a floor, a quarter millimetre deeper."""
    part = random_part(seed, Wishes())
    text = written(planned(told(part), "far"), "plunge")
    floors = {g.floor_diameter for g in part.grooves}
    cuts = [
        m for m in re.finditer(r"G01 X(\d+\.\d*)", text) if any(abs(float(m[1]) - floor) < 1e-6 for floor in floors)
    ]
    assert cuts
    start, end = cuts[0].span(1)
    assert faults(text[:start] + f"{float(cuts[0][1]) - 0.25:.3f}" + text[end:], part, "far") != []


@pytest.mark.parametrize("seed", [1, 2, 5, 7])
def test_a_program_moved_along_the_axis_is_noticed(seed: int) -> None:
    part = random_part(seed, Wishes())
    text = written(planned(told(part), "far"), "plunge")
    body = text.index("G00")
    moved = re.sub(r"Z(-?\d+\.\d*)", lambda m: f"Z{float(m[1]) - 0.25:.3f}", text[body:])
    assert faults(text[:body] + moved, part, "far") != []


def test_cycle_of_the_contract_cuts_four_grooves() -> None:
    """Common practice, no source: from Z-13 to Z-28 by 5 are four grooves 3 wide to diameter 34."""
    cuts, crashes = machined(box(-60.0, 0.0, 0.0, 20.0), run(CYCLE), {3: Insert(3.0, "far")})
    assert crashes == []
    places = [figure for c in cuts for figure in (c.z_near, c.z_far, c.floor_diameter)]
    assert places == pytest.approx([-10, -13, 34, -15, -18, 34, -20, -23, 34, -25, -28, 34])


def test_a_last_shift_that_is_no_whole_one_cuts_one_more() -> None:
    assert stops(-13.0, -28.0, 5.0) == [-13.0, -18.0, -23.0, -28.0]
    assert stops(-13.0, -28.0, 4.999) == pytest.approx([-13.0, -17.999, -22.998, -27.997, -28.0])


def test_rapid_through_metal_is_seen() -> None:
    legs = [Leg("rapid", 44.0, -5.0, 36.0, -5.0, 3, 7), Leg("rapid", AWAY, 0.0, 44.0, -5.0, 3, 6)]
    _, crashes = machined(box(-60.0, 0.0, 0.0, 20.0), legs, inserts("mm", "far"))
    assert len(crashes) == 1
    assert crashes[0].startswith("line 7")


@pytest.mark.parametrize("block", ["G77 X10.", "X5.", "G01 X30. F0.1", "G21 X5 ?", "G96 S100 M03"])
def test_what_it_has_no_meaning_for_is_said(block: str) -> None:
    text = "G21\nG75 R0.5\n" + block if block == "X5." else "G21\n" + block
    with pytest.raises(Lost):
        run(text)
