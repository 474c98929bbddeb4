"""Where warnings begin on a part in inches, each to the ten-thousandth.

The part is 1.5 across and 3 long, the insert 0.12 wide, the tolerance 0.001 on the diameter. Thresholds: common
practice, no source, as those in millimetres.
"""

from dataclasses import replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from postproc import compare_program, judge

PART = part_of([(-0.4, -0.52, 1.3)], diameter=1.5, length=3, units="in")
INCH_SHOP = {"units": "in", "stick_out": None, "clearance": 0.04, "home_x": 8.0, "home_z": 4.0}
INCH_TOOL = {"width": 0.12, "max_depth": 0.5, "feed": 0.003, "peck": 0.004, "retract": 0.02}


def levels(found, code):
    return [f.level.value for f in found.findings if f.code == code]


def started(**fields):
    return Moves(8, 4, units="in", **fields)


def indexed(x):
    return started().rapid(8, -1).rapid(x).rapid(8.1, station=4)


def fed(feed):
    moves = started().rapid(1.7, -0.52)
    return moves.feed(1.3, feed=moves.increments.feed_count(feed)).rapid(1.7)


ROWS = {
    "0.2 past the axis": ("past-axis", "stop", -0.2001, -0.2, lambda v: (started().rapid(2, 1).rapid(v), {})),
    "the turret 0.2 off": ("index-near-part", "stop", 1.9, 1.9001, lambda v: (indexed(v), {})),
    "the turret 0.4 off": ("index-near-part", "caution", 2.3, 2.3001, lambda v: (indexed(v), {})),
    "60 out": ("far-place", "caution", 60.0001, 60.0, lambda v: (started().rapid(v), {})),
    "120 along": ("far-place", "caution", 120.0001, 120.0, lambda v: (started().rapid(2, v), {})),
    "0.024 a turn": ("feed-too-great", "stop", 0.0241, 0.024, lambda v: (fed(v), {"feed": 0.006, "width": 0.2})),
    "0.15 of 0.12 wide": ("feed-too-great", "stop", 0.0181, 0.018, lambda v: (fed(v), {"feed": 0.005})),
    "0.002 into metal, however loose the shop": (
        "rapid-into-material",
        "stop",
        1.4979,
        1.498,
        lambda v: (started().rapid(1.7, -1).rapid(v).rapid(1.7), {"tolerance": 0.01}),
    ),
    "a slope of a point 0.02 below the land": (
        "tool-unknown",
        "stop",
        1.4599,
        1.46,
        lambda v: (started(station=9).rapid(1.7, -1).feed(v, -1.1).rapid(1.7), {}),
    ),
}


@pytest.mark.parametrize(("code", "level", "warned", "spared", "made"), ROWS.values(), ids=ROWS)
def test_moves_are_warned_of_from_one_count_on(code, level, warned, spared, made):
    def found(v):
        moves, more = made(v)
        machine = INCH_SHOP | {key: value for key, value in more.items() if key == "tolerance"}
        insert = INCH_TOOL | {key: value for key, value in more.items() if key in ("feed", "width")}
        return judge(PART, moves.run(), shop(tool(**insert), **machine))

    assert level in levels(found(warned), code)
    assert level not in levels(found(spared), code)


@pytest.mark.parametrize(("z", "told"), [(-2.4, False), (-2.4001, True)])
def test_a_bar_behind_the_part(z, told):
    inner = {"where": "inside", "mouth_diameter": 1.0}
    part = part_of([(-0.4, -0.52, 1.2, inner)], diameter=1.5, length=2, bore=1.0, units="in")
    moves = Moves(8, 4, units="in").rapid(0.8, 0.5).rapid(None, z).rapid(None, 0.5)
    found = judge(part, moves.run(), shop(tool(**INCH_TOOL, where="inside"), **INCH_SHOP))
    assert ("far-place" in {f.code for f in found.findings}) is told


@pytest.mark.parametrize(("x", "told"), [(1.5159, True), (1.516, False)])
def test_a_rapid_above_a_land_where_nobody_gives_the_clearance(x, told):
    """0.008 off on the radius."""
    part = part_of([(-0.4, -0.52, 1.3)], diameter=1.5, length=3, units="in")
    moves = Moves(8, 4, units="in").rapid(1.7, -0.52).rapid(x).rapid(1.7)
    used = replace(shop(tool(**INCH_TOOL), **INCH_SHOP), unsaid=frozenset({"clearance"}))
    assert bool(levels(judge(part, moves.run(), used), "no-clearance")) is told


@pytest.mark.parametrize(("start", "told"), [(1.9, False), (1.9002, True)])
def test_a_call_that_starts_in_air(start, told):
    """0.2 above the land, where 50 pecks of the tool's 0.004 would be in air."""
    part = part_of([(-0.4, -0.52, 1.3)], diameter=1.5, length=3, units="in")
    text = f"G20 G99\nT0303\nG97 S400 M03\nG00 X{start} Z-.52\nG75 R.02\nG75 X1.3 P40 F.003\nG00 X8.\nM30\n"
    found = compare_program(part, text, shop(tool(**INCH_TOOL), **INCH_SHOP))
    assert ("cycle-in-air" in {f.code for f in found.findings}) is told


@pytest.mark.parametrize(("peck", "told"), [(1510, False), (1511, True)])
def test_the_whole_way_as_one_peck(peck, told):
    part = part_of([(-0.4, -0.52, 1.3)], diameter=1.5, length=3, units="in")
    text = f"G20 G99\nT0303\nG97 S400 M03\nG00 X1.6 Z-.52\nG75 R.02\nG75 X1.3 P{peck} F.003\nG00 X8.\nM30\n"
    found = compare_program(part, text, shop(tool(**INCH_TOOL), **INCH_SHOP))
    assert ("peck-out-by-ten" in {f.code for f in found.findings}) is told
