"""Metal against metal: what is drawn beyond the grooves that were read, and low lands that are left to turning."""

from dataclasses import replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from extractor.part import LeftToOthers
from extractor.side import OUTSIDE
from postproc import judge
from postproc.judging.leftover import EDGE, _Taken

TOLERANCE = 0.02
"""The shop's own in these tests (`support.moves.shop`)."""


def codes(part, moves, the_shop=None):
    return [f.code for f in judge(part, moves.run(), the_shop or shop()).findings if f.stops]


def with_hole(low=34.0, near=-30.0, far=-33.0):
    """A part with one groove that was read, and one that is drawn and was not."""
    part = part_of([(-10, -13, 34)])
    extra = ((near, 20.0), (near, low / 2), (far, low / 2), (far, 20.0))
    return replace(part, outline=tuple(sorted([*part.outline, *extra], key=lambda p: -p[0])))


def test_a_drawn_recess_that_nothing_names_and_nothing_cuts_is_told():
    part = with_hole()
    assert codes(part, Moves().plunge(-13, 34)) == ["recess-left"]
    # One that is cut is a cut in no groove, and no longer metal that is left.
    assert "recess-left" not in codes(part, Moves().plunge(-13, 34).plunge(-33, 34))


@pytest.mark.parametrize(("deep", "told"), [(0.8 * TOLERANCE, False), (3 * TOLERANCE, True)])
def test_only_what_is_deeper_than_the_tolerance_counts(deep, told):
    assert ("recess-left" in codes(with_hole(low=40.0 - deep), Moves().plunge(-13, 34))) is told


@pytest.mark.parametrize(("wide", "told"), [(0.9 * EDGE * TOLERANCE, False), (1.2 * EDGE * TOLERANCE, True)])
def test_only_what_is_wider_than_a_rim_counts(wide, told):
    assert ("recess-left" in codes(with_hole(far=-30.0 - wide), Moves().plunge(-13, 34))) is told


@pytest.mark.parametrize(("floor", "told"), [(34.0 + TOLERANCE, False), (34.001 + TOLERANCE, True)])
def test_a_recess_is_gone_if_no_more_than_the_tolerance_is_left_on_its_floor(floor, told):
    assert ("recess-left" in codes(with_hole(), Moves().plunge(-13, 34).plunge(-33, floor))) is told


LOW = (("near", -20.0), ("far", -40.0), ("floor", 36.0), ("mouth", 40.0))


def stepped(*spots):
    """A bar of 40 with a low land of 36 from Z-20 to Z-40 that is left to turning."""
    part = part_of([*spots], steps=[(0, 40), (-20, 36), (-40, 40)])
    return replace(part, left_to_others=(LeftToOthers(where=OUTSIDE.where, why="turned", **dict(LOW)),))


def wide_cut(first, last, floor, step=2.0):
    """Plunges of a 3 wide insert from one far edge to another."""
    moves, z = Moves(), first
    while z > last:
        moves.plunge(z, floor)
        z -= step
    return moves.plunge(last, floor)


def test_a_low_land_may_be_left_to_turning_or_made_whole():
    assert codes(stepped((-5, -8, 34)), Moves().plunge(-8, 34)) == []
    assert codes(stepped((-5, -8, 34)), wide_cut(-23, -40, 36).plunge(-8, 34)) == []


@pytest.mark.parametrize(("short", "told"), [(0.9 * EDGE * TOLERANCE, False), (1.1 * EDGE * TOLERANCE, True)])
def test_a_low_land_may_end_a_rim_s_breadth_before_its_walls(short, told):
    found = codes(stepped((-5, -8, 34)), wide_cut(-23 - short, -40 + short, 36).plunge(-8, 34))
    assert ("land-partly-cut" in found) is told


@pytest.mark.parametrize(("wide", "told"), [(EDGE * TOLERANCE, False), (EDGE * TOLERANCE + 0.001, True)])
def test_only_a_cut_wider_than_a_rim_is_one_into_a_low_land(wide, told):
    found = codes(stepped((-5, -8, 34)), Moves().plunge(-30, 37), shop(tool(width=wide)))
    assert ("land-partly-cut" in found) is told


def test_a_rapid_over_a_low_land_that_was_turned_cuts_nothing():
    assert codes(stepped((-5, -8, 34)), Moves().plunge(-8, 34).rapid(44, -30).rapid(38.5, -30).rapid(44, -30)) == []


@pytest.mark.parametrize(("off", "told"), [(0.02, False), (0.021, True), (-0.02, False), (-0.021, True)])
def test_a_low_land_is_made_if_it_lies_within_the_tolerance(off, told):
    found = codes(stepped((-5, -8, 34)), wide_cut(-23, -40, 36 + off).plunge(-8, 34))
    assert ("land-partly-cut" in found) is told


@pytest.mark.parametrize(
    "moves",
    [wide_cut(-23, -35, 36), wide_cut(-28, -40, 36), Moves().plunge(-30, 36), wide_cut(-23, -40, 36.2)],
)
def test_a_low_land_that_is_cut_in_part_is_told(moves):
    assert codes(stepped((-5, -8, 34)), moves.plunge(-8, 34)) == ["land-partly-cut"]


def test_a_groove_in_a_low_land_is_no_cut_of_the_land():
    assert codes(stepped((-28, -31, 30)), Moves().plunge(-31, 30)) == []


@pytest.mark.parametrize(("moves", "told"), [("slanting", False), ("straight", True)])
def test_a_stroke_to_a_chamfer_is_no_cut_of_the_land_above_it(moves, told):
    """It slants through the air above the turned land; straight in beside the groove it would be a cut."""
    way = Moves().plunge(-31, 30).rapid(41, -28.5 if told else -29.0).feed(36, -28.5 if told else -31.5).rapid(44)
    assert ("land-partly-cut" in codes(stepped((-28, -31, 30)), way)) is told


@pytest.mark.parametrize(("x", "told"), [(36.0 + TOLERANCE, True), (36.001 + TOLERANCE, False), (39.0, False)])
def test_a_way_along_above_a_turned_land_is_no_cut_of_it(x, told):
    way = Moves().plunge(-31, 30).rapid(x, -31).feed(None, -25).rapid(44)
    assert ("land-partly-cut" in codes(stepped((-28, -31, 30)), way)) is told


def test_a_low_land_cut_too_deep_is_told():
    assert "land-partly-cut" in codes(stepped((-5, -8, 34)), wide_cut(-23, -40, 35.9).plunge(-8, 34))


@pytest.mark.parametrize(("over", "told"), [(0.9 * EDGE * TOLERANCE, False), (1.3 * EDGE * TOLERANCE, True)])
def test_a_cut_beside_a_low_land_may_reach_a_rim_s_width_into_it(over, told):
    moves = Moves().plunge(-20 - over, 34).plunge(-8, 34)
    assert ("land-partly-cut" in codes(stepped((-5, -8, 34)), moves)) is told


def test_what_is_said_of_a_low_land():
    (one, other) = (
        judge(stepped((-5, -8, 34)), moves.plunge(-8, 34).run(), shop()).findings
        for moves in (wide_cut(-23, -35, 36), wide_cut(-23, -40, 35.8))
    )
    (high,) = [f.message for f in one if f.code == "land-partly-cut"]
    (low,) = [f.message for f in other if f.code == "land-partly-cut"]
    assert high.startswith("The low land between Z-20 and Z-40, drawn X36, is cut into and left too high:")
    assert "is cut into and cut too deep:" in low


def test_what_is_said_of_a_recess_that_is_left():
    (found,) = judge(with_hole(), Moves().plunge(-13, 34).run(), shop()).findings
    assert found.message.startswith("The drawing goes down to X34 between Z-30 and Z-33, no groove read there does")


@pytest.mark.parametrize(
    ("stretch", "found"),
    [((50, 60), [(0, 100)]), ((19, 31), [(0, 100), (10, 20), (30, 40)]), ((20, 30), [(0, 100)]), ((100, 110), [])],
)
def test_what_is_taken_at_a_place(stretch, found):
    assert _Taken([(0, 100), (10, 20), (30, 40)]).at(stretch) == found


def test_what_is_taken_is_told_in_the_order_it_was_given():
    assert _Taken([(30, 40), (0, 100), (10, 20)]).at((19, 31)) == [(30, 40), (0, 100), (10, 20)]
