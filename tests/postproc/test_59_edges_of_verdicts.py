"""Verdicts at their edges: each rule where only it decides, the values worked out by hand beside each test.

Shop, insert and part as in `support.moves`: tolerance 0.02 on the diameter, an insert 3 wide whose Z is that of its
edge toward the chuck. One count is 0.001.
"""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from support.moves import Moves, down_leaning_walls, shop, tool
from support.parts import part_of

from extractor.finding import Finding, Level
from extractor.part import LeftToOthers
from extractor.side import OUTSIDE
from planner.increment import Increments
from postproc import compare_program, judge, laid_over
from postproc.codes import ProgramCode
from postproc.cutting.metal import Metal
from postproc.judging.broken_edge import find_mouth
from postproc.judging.form import measure_corners
from postproc.judging.lands import general
from postproc.judging.measure import MeasuredCut
from postproc.judging.overlay import Overlay
from postproc.judging.target import target_of
from postproc.verdict import State

PART = part_of([(-10, -13, 34)])
MM = Increments.of("mm")


def stops(part, moves, *tools, **machine):
    return [f.code for f in judge(part, moves.run(), shop(*tools, **machine)).findings if f.stops]


def test_a_feed_in_air_with_the_coolant_off_is_no_dry_cut():
    way = Moves().rapid(42, -13).feed(41, wet=False).feed(34).rapid(42)
    found = judge(PART, way.run(), shop(coolant=True)).findings
    assert "coolant-off" not in {f.code for f in found}


@pytest.mark.parametrize(("first", "told"), [("G00 X34. Z-13.", True), ("G00 Z-13.", False)])
def test_a_wait_in_a_groove_is_told_where_x_was_said(first, told):
    """At the head of a program nothing has said where X is, but the word that sends it there."""
    found = compare_program(PART, f"G21 G99\nT0303\nG97 S800 M03\n{first}\nM00\nG00 X42.\nM30\n", shop())
    assert ("stopped-in-groove" in {f.code for f in found.findings}) is told


def test_findings_come_by_line_whoever_made_them():
    early = Finding(Level.CAUTION, ProgramCode.FAR_PLACE, "Later.", line=9)
    none = Finding(Level.CAUTION, ProgramCode.FAR_PLACE, "Nowhere.")
    moves = Moves().rapid(42, -13).feed(34, feed=0).rapid(42)
    found = judge(PART, moves.run(none, early), shop()).findings
    assert [f.line for f in found] == [2, 9, None]


def test_a_difference_within_rounding_is_a_plain_zero():
    """Sizes scaled from inches end in a few billionths; no minus is left before a zero."""
    part = part_of([(-9.9999999999, -13, 34)])
    (match,) = judge(part, Moves().plunge(-13, 34).run(), shop()).matches
    assert repr(match.difference["z_near"]) == "0.0"


def test_profiles_are_laid_over_each_other_from_the_back_face_to_the_front_one():
    over = laid_over(PART, Moves().plunge(-13, 34).run(), shop())
    assert (over.u[0], over.u[-1]) == (-60_000, 0)


@pytest.mark.parametrize(
    ("size", "allowed"),
    [(6, 50), (6.001, 100), (30.001, 150), (120.001, 200), (400.001, 300), (1000, 300), (1000.001, 500), (2000, 500)],
)
def test_general_tolerances_of_a_diameter(size, allowed):
    """ISO 2768-1, class f: 0.05, 0.1, 0.15, 0.2, 0.3 and 0.5 (from memory)."""
    assert general(MM.count(size), MM) == allowed


def two_lands():
    """A bar of 40 with low lands of 36 from Z-10 to Z-20 and from Z-40 to Z-50."""
    part = part_of([(-28, -31, 34)], steps=[(0, 40), (-10, 36), (-20, 40), (-40, 36), (-50, 40)])
    lands = [
        LeftToOthers(where=OUTSIDE.where, near=near, far=near - 10, floor=36.0, mouth=40.0, why="turned")
        for near in (-10.0, -40.0)
    ]
    return replace(part, left_to_others=tuple(lands))


@pytest.mark.parametrize("z", [-17, -47])
def test_each_of_two_low_lands_must_be_made_whole_once_it_is_cut(z):
    assert stops(two_lands(), Moves().plunge(-31, 34)) == []
    assert stops(two_lands(), Moves().plunge(-31, 34).plunge(z, 36)) == ["land-partly-cut"]


def test_a_flat_vee_cut_as_drawn_differs_by_nothing():
    """Three wide and 0.5 deep: 0.02 below the land on the diameter its walls stand 0.03 nearer to each other."""
    part = part_of([(-10, -13, 39, {"shape": "vee"})])
    insert = tool(edge="vee", angle=math.degrees(2 * math.atan(1.5 / 0.5)))
    (match,) = judge(part, Moves().plunge(-13, 39).run(), shop(insert)).matches
    assert match.state is State.MATCHES
    assert [match.difference[name] for name in ("z_near", "z_far", "floor_diameter")] == pytest.approx(
        [0] * 3, abs=2e-3
    )


@pytest.mark.parametrize("radius", [0.2, 0.5])
def test_in_corners_drawn_sharp_between_leaning_walls_the_insert_s_radius_may_stand(radius):
    """Walls that lean 0.5 over 3 of depth, a floor 2 wide; the shop's limit for sharp corners is for upright ones."""
    part = part_of([(-10, -13, 34, {"shape": "tapered", "run": 0.5})])
    moves = down_leaning_walls(radius)
    insert = tool(width=1.0, side_depth=3.5, corner_radius=radius)
    found = judge(part, moves.run(), shop(insert, sharp_corner=0.2))
    assert found.matches[0].state is State.MATCHES
    told = [f.message for f in found.findings if f.code == "corner-radius" and not f.stops]
    assert told == (
        ["Groove 1: T0303 leaves a corner radius of 0.5 where the drawing draws a sharp corner."]
        if radius > 0.2
        else []
    )


@pytest.mark.parametrize("way", [-1, 1])
def test_an_insert_that_only_touched_the_land_beside_leaves_no_corner_in_the_groove(way):
    """The rounder insert goes 1 deep and 0.015 past one wall, which is within the tolerance; a sharp one makes it."""
    rough = tool(station=5, offset=5, corner_radius=0.8)
    moves = Moves(station=5, offset=5).plunge(-13 + way * 0.015, 38)
    moves.fields |= {"station": 3, "offset": 3}
    found = judge(PART, moves.plunge(-13, 34).run(), shop(tool(), rough, sharp_corner=0.2))
    assert found.matches[0].state is State.MATCHES
    assert "corner-radius" not in {f.code for f in found.findings}


def test_a_step_of_the_floor_is_told_from_edge_to_edge_of_a_sharp_insert():
    part = part_of([(-10, -16, 34)])
    found = judge(part, Moves().plunge(-13, 34).plunge(-16, 34.1).run(), shop()).findings
    (message,) = [f.message for f in found if f.code == "floor-uneven"]
    assert "stands 0.1 too high on the diameter between Z-13 and Z-16;" in message


def over(*points):
    """A cut through (u, h) points over a land of 40 000 from -20 000 to 0, as an overlay."""
    line = [(-20_000, 40_000), *points, (0, 40_000)]
    pieces = [(a, ha, b, hb) for (a, ha), (b, hb) in pairwise(line) if b > a]
    return Overlay.of(Metal([(-20_000, 40_000, 0, 40_000)]).profile(), Metal(pieces).profile(), -20_000, 0)


@pytest.mark.parametrize(("deep", "broken"), [(4505, True), (4506, False)])
def test_a_bevel_leaves_a_quarter_of_the_wall_but_for_the_tolerance(deep, broken):
    """The groove is 6000 deep: three quarters are 4500, and 4 x 4505 is 3 x 6000 + 20."""
    target = target_of(PART.grooves[0], MM, 0.02)
    cut = over((-15_253, 40_000), (-13_000, 40_000 - deep), (-13_000, 34_000), (-10_000, 34_000), (-10_000, 40_000))
    assert (find_mouth(target, cut, (-15_253, -10_000), 20) is not None) is broken


def arc(wall, way, radius):
    """A quarter of a circle from a wall down to a floor of 34 000, on the diameter."""
    turns = [math.radians(4.5 * k) for k in range(21)]
    return [
        (round(wall + way * radius * (1 - math.cos(t))), round(34_000 + 2 * radius * (1 - math.sin(t)))) for t in turns
    ]


@pytest.mark.parametrize("radii", [(1000, 1000), (400, 1000), (1000, 400)])
def test_round_corners_are_held_at_either_wall(radii):
    """A radius of 1 is drawn."""
    target = target_of(part_of([(-10, -13, 34, {"corner_radius": 1.0})]).grooves[0], MM, 0.02)
    low, high = arc(-13_000, 1, radii[0]), arc(-10_000, -1, radii[1])
    cut = over((-13_000, 40_000), *low, *reversed(high), (-10_000, 40_000))
    measured = MeasuredCut(u0=-13_000, u1=-10_000, floor=34_000, state=State.MATCHES, difference={})
    found = measure_corners(target, cut, measured, 20)
    assert [f.code for f in found.findings] == (["form"] if 400 in radii else [])
