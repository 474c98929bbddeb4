"""Dimensions of a floor in the bore whose lines begin off the groove, as with the usual gap, or end far on the axis.

ISO 129-1 has a gap between the outline and an extension line (from memory); half dimensions in half views are common
practice, no source. H12 of 18 to 30 is +0.21 (ISO 286-2, from memory).
"""

from dataclasses import replace

import pytest
from support.ties import bar, half, span, tied

from extractor.sheet import Dimension, DimensionKind

BORE = (
    (0.0, 12.0), (-26.0, 12.0), (-26.0, 13.5), (-30.0, 13.5), (-30.0, 12.0), (-40.0, 12.0), (-40.0, 15.0),
    (-60.0, 15.0),
)  # fmt: skip
PART = replace(bar((-26, -30, 27, {"where": "inside"}), bore=24.0), bore=BORE)
"""A bore of 24 with a groove 4 wide, floor 27, and of 30 behind it."""
GENERAL = ["ISO 2768-m"]


def floor(dimension, part=PART):
    of, findings = tied(part, dimension, notes=GENERAL)
    assert [f for f in findings if f.level.value != "note"] == []
    return of.grooves[0].tolerances.get("floor_diameter")


@pytest.mark.parametrize("off", [0.0, 0.9, 2.0, -0.9])
def test_the_gap_of_an_extension_line_changes_nothing(off):
    for z in (-30.0 - off, -26.0 + off):
        assert floor(span((z, 13.5), (z, -13.5), "Ø27 +0.25/0")) == (0.0, 0.25)
        assert floor(half(27, "Ø27 H12", z=z)) == (0.0, 0.21)


@pytest.mark.parametrize("far", [5.0, 30.0, 57.0, 200.0])
def test_the_end_on_the_axis_may_lie_anywhere_along_it(far):
    assert floor(span((-29.0, 13.5), (-29.0, 0.0), "Ø27 H12")) == (0.0, 0.21)
    there = span((-29.0, 13.5), (far, 0.0), "Ø27 H12")
    assert floor(replace(there, angle=90.0, measured=13.5)) == (0.0, 0.21)


def test_a_stretch_of_the_bore_as_wide_stays_one():
    """At the bore of 27 behind the groove the same figure is no floor's."""
    wider = replace(PART, bore=(*BORE[:5], (-40.0, 12.0), (-40.0, 13.5), (-60.0, 13.5)))
    assert floor(span((-55.0, 13.5), (-55.0, -13.5), "Ø27 +0.25/0"), wider) != (0.0, 0.25)
    assert floor(span((-28.0, 13.5), (-28.0, -13.5), "Ø27 +0.25/0"), wider) == (0.0, 0.25)


def test_an_end_beside_the_axis_far_off_is_still_torn_off():
    there = replace(span((-29.0, 13.5), (200.0, 0.5), "Ø27 H12"), angle=90.0, measured=13.0)
    assert "tolerance-unread" in [f.code for f in tied(PART, there, notes=GENERAL)[1]]


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize("at", [(-10.0, 12.0), (-50.0, 15.0)])
@pytest.mark.parametrize("words", ["Ø{}", "Ø{} H7", "Ø{} H7 THRU", "DIA {} THRU BORE"])
def test_a_leader_on_the_bore_s_wall_is_held_against_that(words, at, side):
    """Words for a hole right through are of the bore itself there."""
    for more in (0, 1, -1):
        tip = PART.frame.on_sheet(at[0], side * at[1])
        text = words.format(f"{2 * at[1] + more:g}")
        leader = Dimension(DimensionKind.LEADER, (tip, PART.frame.on_sheet(5.0, 38.0)), 0.0, 0.0, text)
        stops = [f.code for f in tied(PART, leader)[1] if f.stops]
        assert stops == ["dimension-contradicts"] * (more != 0)


@pytest.mark.parametrize(
    ("words", "tip"),
    [
        ("Ø5 THRU", (-50.0, 15.0)),  # less than a third: a hole drilled into it
        ("Ø14 THRU", (-50.0, 20.0)),  # on the outside, as large as you like
        ("Ø26 H7", (-10.0, 12.2)),  # in the metal
        ("R12", (-10.0, 12.0)),
        ("3 x 45°", (-10.0, 12.0)),
    ],
)
def test_what_else_a_leader_says_there_is_no_size_of_the_bore(words, tip):
    leader = Dimension(
        DimensionKind.LEADER, (PART.frame.on_sheet(*tip), PART.frame.on_sheet(5.0, 38.0)), 0.0, 0.0, words
    )
    assert [f.code for f in tied(PART, leader)[1] if f.stops] == []
