"""More places where a warning begins: on ways, with inserts and beside lands where another rule would hide it.

Each row has its reason in figures. Shop, insert and part as in `test_69_where_warnings_begin`; a tool set to its near
edge reaches 3 to the back of its place. Thresholds: common practice, no source.
"""

from dataclasses import replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from postproc import compare_program, judge

PART = part_of([(-10, -13, 34)])
COLLAR = part_of([(-10, -13, 16)], steps=[(0, 40), (-45, 60)])
RISES = part_of([(-50, -53, 44)], steps=[(0, 40), (-20, 50)])
BORED = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
NARROWS = replace(BORED, bore=((0.0, 12.0), (-30.0, 12.0), (-30.0, 10.0), (-60.0, 10.0)))
FACED = part_of([(0, -3, 20, {"where": "face", "mouth_diameter": 26.0})], diameter=60)
BAR = tool(where="inside", min_bore=18.0)
NEAR_BAR = tool(where="inside", min_bore=18.0, reference="near")
CURVED = {"where": "face", "face_min": 10.0, "face_max": 30.0}
POINT = {"station": 9}


def levels(found, code):
    return [f.level.value for f in found.findings if f.code == code]


def collars(*steps):
    return part_of([(-20, -23, 34)], steps=[(0, 40), *steps])


def begun(x, z, **fields):
    """A cut from a place that the program only says."""
    moves = Moves(**fields).rapid(300, -20)
    moves.at = (moves.increments.count(x), moves.increments.count(z))
    return moves.feed(34)


def narrow(v):
    return Moves().rapid(22, 20).rapid(v, -10).rapid(None, -35)


def faced(x, z):
    """Down beside a wall that stands already, in two steps of which the first is no deeper than a touch."""
    return Moves().rapid(x, 5).feed(None, -0.02).feed(None, z).rapid(None, 5)


ROWS = {
    "a shoulder 3 counts under the insert": (
        "start-below-land",
        "stop",
        -20.004,
        -20.003,
        lambda v: (collars((-20, 70)), begun(50, v)),
    ),
    "a vee of which one flank is in a shoulder": (
        "start-below-land",
        "stop",
        -20.1,
        -17.0,
        lambda v: (collars((-20, 70)), begun(50, v), tool(edge="vee", angle=90.0)),
    ),
    "12 deep and 0.02, with a higher collar farther off": (
        "beyond-reach",
        "stop",
        15.979,
        15.98,
        lambda v: (COLLAR, Moves().rapid(80).plunge(-13, v, 62).rapid(80)),
    ),
    "a shoulder 12 over the floor, with a higher one farther off": (
        "holder-near-shoulder",
        "caution",
        58.021,
        58.02,
        lambda v: (collars((-25, v), (-40, 80)), Moves().rapid(90, -23).feed(34).rapid(90)),
    ),
    "a holder known behind the insert alone": (
        "beyond-reach",
        "stop",
        -25.0,
        -25.001,
        lambda v: (collars((v, 70)), Moves().rapid(80, -23).feed(34).rapid(80), tool(holder_far=2.0)),
    ),
    "a holder known before the insert alone": (
        "beyond-reach",
        "stop",
        -16.0,
        -15.999,
        lambda v: (
            part_of([(-20, -23, 34)], steps=[(0, 70), (v, 40)]),
            Moves().rapid(80, -23).feed(34).rapid(80),
            tool(holder_near=4.0),
        ),
    ),
    "a face insert beside an outer wall in its second step": (
        "face-curve",
        "stop",
        -0.041,
        -0.04,
        lambda v: (FACED, faced(8, v), tool(where="face", face_min=20.0)),
    ),
    "one set to its outer edge beside an inner wall": (
        "face-curve",
        "stop",
        -0.041,
        -0.04,
        lambda v: (FACED, faced(46, v), tool(**CURVED, reference="near")),
    ),
    "a face insert that comes down aslant": (
        "face-curve",
        "stop",
        40.0,
        40.001,
        lambda v: (FACED, Moves().rapid(v, 5).feed(40.0, -3).rapid(None, 5), tool(**CURVED)),
    ),
    "a rapid two thirds of 1 above a land, with a collar behind": (
        "no-clearance",
        "caution",
        40.665,
        40.666,
        lambda v: (COLLAR, Moves().rapid(62, -13).rapid(v).rapid(62)),
    ),
    "a rapid along a land that rises behind": (
        "no-clearance",
        "caution",
        50.0,
        50.001,
        lambda v: (RISES, Moves().rapid(60, -5).rapid(v).rapid(None, -35)),
    ),
    "a rapid along 0.02 in the land": (
        "no-clearance",
        "caution",
        39.98,
        39.979,
        lambda v: (PART, Moves().rapid(60, -25).rapid(60, -30).feed(v).rapid(None, -32)),
    ),
    "a rapid to a land that stands but for 0.02": (
        "no-clearance",
        "caution",
        39.98,
        39.979,
        lambda v: (PART, Moves().rapid(42, -13).feed(v).rapid(42).rapid(40.1).feed(34).rapid(42)),
    ),
    "on its way from where the centre stands, if that was said": (
        "into-tailstock",
        "stop",
        True,
        False,
        lambda v: (PART, Moves(5, 0).rapid(50, x0_known=v), {"tailstock": 8.0}),
    ),
    "the turret turned 10 before the bore": (
        "index-near-part",
        "stop",
        9.999,
        10.0,
        lambda v: (BORED, Moves().rapid(22, 20).rapid(None, v).rapid(23, station=4), BAR),
    ),
    "the turret 10 before, the insert set to its near edge": (
        "index-near-part",
        "stop",
        12.999,
        13.0,
        lambda v: (PART, Moves().rapid(200, v).rapid(45).rapid(201, station=4), tool(reference="near")),
    ),
    "a point from where the jaws begin": (
        "into-jaws",
        "stop",
        -72.001,
        -72.0,
        lambda v: (PART, Moves(**POINT).rapid(45, -72).rapid(45, v)),
    ),
    "an insert from where the jaws begin": (
        "into-jaws",
        "stop",
        -72.002,
        -72.001,
        lambda v: (PART, Moves().rapid(45, -72.001).rapid(45, v)),
    ),
    "the back of a bar in the narrower bore behind": (
        "bar-strikes",
        "stop",
        15.959,
        15.96,
        lambda v: (NARROWS, narrow(v), BAR),
    ),
    "10 behind the part, the bar set to its near edge": (
        "far-place",
        "caution",
        -67.001,
        -67.0,
        lambda v: (BORED, Moves().rapid(22, 20).rapid(None, v), NEAR_BAR),
    ),
    "a bar over the part at the jaws": (
        "into-jaws",
        "stop",
        40.0,
        39.999,
        lambda v: (BORED, Moves().rapid(v, 20).rapid(None, -20), BAR, {"stick_out": 20.0}),
    ),
    "the narrower bore behind, less what a plane may be touched by": (
        "bar-strikes",
        "stop",
        -30.041,
        -30.04,
        lambda v: (NARROWS, Moves().rapid(22, 20).rapid(13, -10).rapid(None, v), BAR),
    ),
    "a bar that comes from over the part": (
        "into-jaws",
        "stop",
        40.0,
        39.999,
        lambda v: (BORED, Moves().rapid(v, 20).rapid(45, -20), BAR, {"stick_out": 20.0}),
    ),
    "a rapid that bends beside a collar behind the near edge": (
        "rapid-bends",
        "stop",
        -27.001,
        -27.0,
        lambda v: (collars((-30, 60)), Moves().rapid(41, -20).rapid(80, v), tool(reference="near")),
    ),
    "along from where nobody said, past a collar to a lower land": (
        "rapid-into-material",
        "stop",
        59.979,
        59.98,
        lambda v: (
            part_of([(-50, -53, 30)], steps=[(0, 60), (-30, 40)]),
            Moves(v, 50).rapid(None, -35, z0_known=False),
        ),
    ),
    "a wall a count beside the insert": (
        "beyond-reach",
        "stop",
        0.0,
        0.001,
        lambda v: (
            part_of([(-10, -13, 15.9)]),
            Moves().plunge(-13 - v, 16).plunge(-13 + v, 16).plunge(-13, 15.9),
        ),
    ),
    "a face insert at the tailstock": (
        "into-tailstock",
        "stop",
        0.001,
        0.0,
        lambda v: (FACED, Moves().rapid(50, v).rapid(5), tool(**CURVED), {"tailstock": 8.0}),
    ),
    "parted from beside a land that widens to the back": (
        "cut-after-parting",
        "stop",
        50.0,
        49.999,
        lambda v: (
            replace(PART, lands=((0.0, 20.0), (-40.0, 20.0), (-60.0, 25.0)), outer_diameter=50.0),
            Moves(**POINT).rapid(v, -63).feed(-1).rapid(60).rapid(None, -20).feed(30),
        ),
    ),
    "a speed of 1, and none": (
        "speed-too-small",
        "stop",
        1.0,
        0.0,
        lambda v: (PART, Moves(speed=v).plunge(-13, 34)),
    ),
    "a spindle that stands, told by its power": (
        "power",
        "caution",
        1.0,
        0.0,
        lambda v: (PART, Moves(speed=v, per_minute=True).plunge(-13, 34), {"power": 0.001}),
    ),
}


@pytest.mark.parametrize(("code", "level", "warned", "spared", "made"), ROWS.values(), ids=ROWS)
def test_moves_are_warned_of_from_one_count_on_here_too(code, level, warned, spared, made):
    def found(v):
        part, moves, *more = made(v)
        machine = {} if not more or not isinstance(more[-1], dict) else more[-1]
        tools = [one for one in more if one is not machine]
        return judge(part, moves.run(), shop(*(tools or (tool(),)), **machine))

    assert level in levels(found(warned), code)
    assert level not in levels(found(spared), code)


def test_a_tool_comes_to_the_tailstock_from_one_count_before_the_face():
    found = judge(PART, Moves().rapid(50, -2.999).rapid(5).run(), shop(tailstock=8.0)).findings
    (told,) = [f.message for f in found if f.code == "into-tailstock"]
    assert told.startswith("The tool comes to X5. Z-2.999, where")


@pytest.mark.parametrize(("reference", "z"), [("far", -13), ("near", -10)])
@pytest.mark.parametrize(("x", "told"), [(39.96, False), (39.959, True)])
def test_a_wait_is_in_the_groove_from_twice_the_tolerance_on(reference, z, x, told):
    text = f"G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z{z}.\nG01 X{x} F.08\nM00\nG00 X42.\nM30\n"
    part = part_of([(-10, -13, 34)], steps=[(0, 36), (-9, 40)])
    found = compare_program(part, text, shop(tool(reference=reference)))
    assert ("stopped-in-groove" in {f.code for f in found.findings}) is told


def test_a_part_is_judged_where_its_cycle_is_not_known():
    """A move says that it is of a cycle, and the run holds none."""
    found = judge(PART, Moves(cycle=0).plunge(-13, 34).run(), shop())
    assert found.agree


@pytest.mark.parametrize(
    ("spindle", "reverse", "code"),
    [("ccw", False, "stop"), ("ccw", True, None), ("cw", True, "stop"), ("cw", False, None), (None, True, "caution")],
)
def test_the_spindle_turns_as_the_shop_file_says(spindle, reverse, code):
    found = judge(PART, Moves(reverse=reverse).plunge(-13, 34).run(), shop(tool(spindle=spindle)))
    assert levels(found, "spindle-reverse") == ([code] if code else [])


@pytest.mark.parametrize(("z", "told"), [("-.04", False), ("-.041", True)])
def test_a_wait_with_a_face_insert_in_its_groove_is_told_too(z, told):
    text = f"G21 G99\nT0303\nG97 S800 M03\nG00 X20. Z5.\nG01 Z{z} F.08\nM00\nG00 Z5.\nM30\n"
    found = compare_program(FACED, text, shop(tool(where="face")))
    assert ("stopped-in-groove" in {f.code for f in found.findings}) is told


@pytest.mark.parametrize(("fields", "z"), [({}, -72.002), (POINT, -72.001)])
def test_a_tool_that_is_among_the_jaws_is_told_once(fields, z):
    found = judge(PART, Moves(**fields).rapid(45, z).rapid(45, -73).run(), shop())
    assert [f.line for f in found.findings if f.code == "into-jaws"] == [1]


def test_where_nobody_gives_the_stick_out_no_jaws_are_known():
    assert levels(judge(PART, Moves(**POINT).rapid(45, -90).run(), shop(stick_out=None)), "into-jaws") == []


def test_a_rapid_at_one_speed_ends_its_slope_where_the_shorter_axis_is_there():
    """It rises 60 over the first collar; the second one, 160 across, would be met only on a slope that went on."""
    part = part_of([(-70, -73, 30)], steps=[(0, 160), (-20, 100), (-30, 40)], length=90)
    moves = Moves().rapid(210).rapid(None, -62.9).rapid(41).rapid(230, -32.9)
    assert levels(judge(part, moves.run(), shop(stick_out=None)), "rapid-bends") == ["caution"]


@pytest.mark.parametrize(
    ("first", "insert", "x", "told"),
    [
        # Half of the 2 that the insert goes down stands beside its outer edge, or a count less.
        ((14, -1), {"face_min": 20.0}, 8, True),
        ((14, -1.001), {"face_min": 20.0}, 8, False),
        # The metal beside its inner edge is gone, that on the other side stands.
        ((34, -2), {"face_min": 10.0, "face_max": 30.0, "reference": "near"}, 46, False),
    ],
)
def test_a_wall_beside_a_face_insert_stands_at_half_its_depth(first, insert, x, told):
    moves = Moves(station=5, offset=5).rapid(first[0], 5).feed(None, first[1]).rapid(None, 5).rapid(200, 100)
    moves.fields |= {"station": 3, "offset": 3}
    moves.rapid(x, 5).feed(None, -2).rapid(None, 5)
    tools = tool(where="face", **insert), tool(where="face", station=5, offset=5)
    assert bool(levels(judge(FACED, moves.run(), shop(*tools)), "face-curve")) is told


@pytest.mark.parametrize(("x", "told"), [(40.399, True), (40.4, False)])
def test_a_rapid_ends_a_fifth_off_the_land_where_nobody_gives_the_clearance(x, told):
    """0.2 on the radius (common practice, no source)."""
    used = replace(shop(), unsaid=frozenset({"clearance"}))
    found = judge(PART, Moves().rapid(42, -13).rapid(x).rapid(42).run(), used)
    assert bool(levels(found, "no-clearance")) is told


def test_how_far_an_insert_stands_out_of_the_turret_is_said_as_the_shop_file_has_it():
    part = part_of([(-10, -13, 20)])
    found = judge(part, Moves().plunge(-13, 20).run(), shop(tool(overhang=8.0))).findings
    (told,) = [f.message for f in found if f.code == "turret"]
    assert told.startswith("T0303 goes 10 below the part's largest diameter and stands 8 out of the turret")


@pytest.mark.parametrize(
    ("x", "said"),
    [
        (40.2, "turned to X40.2 and drawn as 40: 0.2 left on the diameter"),
        (39.8, "turned to X39.8 and drawn as 40: 0.2 too much off the diameter"),
    ],
)
def test_what_is_said_of_a_land_that_is_off(x, said):
    moves = Moves(**POINT).rapid(44, 2).rapid(x).feed(None, -59).feed(44).rapid(200, 100)
    found = judge(PART, moves.run(), shop()).findings
    assert any(said in f.message for f in found), found
