"""Each warning begins at one place, to the count: there it is told, and one least increment before it is not.

Each row has its reason beside it, in figures: the shop gives tolerance 0.02 on the diameter, clearance 1, jaw gap 3,
stick-out 75, 120 m/min, 0.08 a turn; the insert is 3 wide, its Z is that of its edge toward the chuck, it reaches 12.
The part is 40 across and 60 long with a groove from Z-10 to Z-13. Thresholds: common practice, no source.
"""

from dataclasses import replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from postproc import judge

PART = part_of([(-10, -13, 34)])
DEEP = part_of([(-10, -13, 20)])
WIDE = part_of([(-10, -20, 34)])
BROAD = part_of([(-8, -13, 34)])
LARGE = part_of([(-10, -13, 34)], length=700, diameter=400)
THICK = part_of([(-10, -13, 34)], diameter=300)
HOLLOW = part_of([(-10, -13, 34)], bore=20.0)
BORED = part_of([(-10, -13, 28, {"where": "inside", "mouth_diameter": 24.0})], bore=24.0)
FALLS = part_of([(-50, -53, 34)], steps=[(0, 50), (-20, 40)])
SMALL = part_of([(-10, -13, 10)], diameter=14)
TINY = part_of([(-10, -13, 6)], diameter=9)
FACED = part_of([(0, -3, 20, {"where": "face", "mouth_diameter": 26.0})])
CURVED = tool(where="face", face_min=10.0, face_max=30.0)
BAR = tool(where="inside", min_bore=18.0)
KNOWN = tool(holder_near=4.0, holder_far=2.0)
POINT = {"station": 9}
CENTRE = {"tailstock": 8.0}
PER_TURN = {"surface": False, "clamp": None}


def stepped(z, across, front=40):
    return part_of([(-20, -23, 34)], steps=[(0, front), (z, across)])


def levels(found, code):
    return [f.level.value for f in found.findings if f.code == code]


def moved(part, moves, *tools, unsaid=(), **machine):
    used = replace(shop(*(tools or (tool(),)), **machine), unsaid=frozenset(unsaid))
    return judge(part, moves.run(), used)


def cut(x=34.0, start=42.0, feed=None, **fields):
    """The groove in one plunge."""
    moves = Moves(**fields)
    return moves.plunge(-13, x, start) if feed is None else fed(moves, feed)


def fed(moves, feed):
    return moves.rapid(42, -13).feed(34, feed=moves.increments.feed_count(feed)).rapid(42)


def placed(x, z):
    """A move from a place that the program only says."""
    moves = Moves().rapid(300, -20)
    moves.at = (moves.increments.count(x), moves.increments.count(z))
    return moves.feed(34)


def indexed(x, z=-20.0):
    return Moves().rapid(200, z).rapid(x).rapid(201, station=4)


def bar(x, z):
    return Moves().rapid(22, 20).rapid(None, z).rapid(x).rapid(22).rapid(None, 5)


def parted(to=-1.0, x0=44.0, z=-63.0, then=(30.0, -20.0)):
    return Moves(**POINT).rapid(x0, z).feed(to).rapid(44).rapid(None, then[1]).feed(then[0])


MOVED = {
    "a rapid deeper than 0.02": ("rapid-into-material", "stop", 39.979, 39.98, lambda v: (PART, cut(start=v))),
    "a rapid within a third of the clearance": (
        "no-clearance",
        "caution",
        40.665,
        40.666,
        lambda v: (PART, cut(start=v)),
    ),
    "a rapid that ends 0.02 in": ("no-clearance", "caution", 39.98, 39.979, lambda v: (PART, cut(start=v))),
    "a tolerance of one count": (
        "rapid-into-material",
        "stop",
        39.998,
        39.999,
        lambda v: (PART, cut(start=v), {"tolerance": 0.001}),
    ),
    "a rapid along the land behind a lower one": (
        "no-clearance",
        "caution",
        50.0,
        50.001,
        lambda v: (FALLS, Moves().rapid(60, -35).rapid(v).rapid(None, -5)),
    ),
    "the turret 5 off": ("index-near-part", "stop", 50.0, 50.001, lambda v: (PART, indexed(v))),
    "the turret 10 off": ("index-near-part", "caution", 60.0, 60.001, lambda v: (PART, indexed(v))),
    "the turret 10 before": ("index-near-part", "stop", 9.999, 10.0, lambda v: (PART, indexed(45, v))),
    "behind jaw gap less stick-out": ("into-jaws", "stop", -72.002, -72.001, lambda v: (PART, Moves().rapid(45, v))),
    "a point behind it": ("into-jaws", "stop", -72.001, -72.0, lambda v: (PART, Moves(**POINT).rapid(45, v))),
    "a point over the bar": (
        "into-jaws",
        "stop",
        40.0,
        39.999,
        lambda v: (PART, Moves(**POINT).rapid(v).rapid(v, -73)),
    ),
    "below the centre": (
        "into-tailstock",
        "stop",
        7.999,
        8.0,
        lambda v: (PART, Moves().rapid(v, 5), CENTRE),
    ),
    "the front edge at Z0": (
        "into-tailstock",
        "stop",
        -2.999,
        -3.0,
        lambda v: (PART, Moves().rapid(50, v).rapid(5), CENTRE),
    ),
    "on its way from there": ("into-tailstock", "stop", -2.999, -3.0, lambda v: (PART, Moves(5, v).rapid(50), CENTRE)),
    "a face insert behind it": ("into-jaws", "stop", -72.002, -72.001, lambda v: (FACED, Moves().rapid(45, v), CURVED)),
    "a holder 5 behind the insert": (
        "into-jaws",
        "stop",
        -67.002,
        -67.001,
        lambda v: (PART, Moves().rapid(45, v), tool(holder_far=5.0)),
    ),
    "2 x 18 less the bore of 24, less 0.04": (
        "bar-strikes",
        "stop",
        11.959,
        11.96,
        lambda v: (BORED, bar(v, -13), BAR),
    ),
    "its edge 0.04 in the bore": ("bar-strikes", "stop", -0.041, -0.04, lambda v: (BORED, bar(2, v), BAR)),
    "10 behind the part": ("far-place", "caution", -70.001, -70.0, lambda v: (BORED, bar(22, v), BAR)),
    "outside the bore there": ("into-jaws", "stop", 24.041, 24.04, lambda v: (BORED, bar(v, -70.5), BAR)),
    "farther out than lathes go": ("far-place", "caution", 1500.001, 1500.0, lambda v: (PART, Moves().rapid(v))),
    "ten times as far": ("too-far", "stop", 15000.001, 15000.0, lambda v: (PART, Moves().rapid(v))),
    "farther along": ("far-place", "caution", 3000.001, 3000.0, lambda v: (PART, Moves().rapid(60, v))),
    "ten times as far along": ("too-far", "stop", 30000.001, 30000.0, lambda v: (PART, Moves().rapid(60, v))),
    "5 times a large part": ("far-place", "caution", 2000.001, 2000.0, lambda v: (LARGE, Moves(500).rapid(v))),
    "5 times a long part": ("far-place", "caution", 3500.001, 3500.0, lambda v: (LARGE, Moves(500).rapid(600, v))),
    "5 times a long stick-out": (
        "far-place",
        "caution",
        3500.001,
        3500.0,
        lambda v: (PART, Moves().rapid(60, v), {"stick_out": 700.0}),
    ),
    "twice a far home": (
        "far-place",
        "caution",
        1600.001,
        1600.0,
        lambda v: (PART, Moves().rapid(v), {"home_x": 800.0}),
    ),
    "twice a far home along": (
        "far-place",
        "caution",
        3200.001,
        3200.0,
        lambda v: (PART, Moves().rapid(60, v), {"home_z": 1600.0}),
    ),
    "a zero 10 beside the part": ("zero-beside-part", "stop", 60.0, 60.001, lambda v: (PART, placed(v, -20))),
    "a zero before the part": ("zero-beside-part", "stop", -0.001, 0.0, lambda v: (PART, placed(45, v))),
    "5 past the axis": ("past-axis", "stop", -5.001, -5.0, lambda v: (PART, Moves().rapid(50, 20).rapid(v))),
    "5 past the axis, from the axis": (
        "past-axis",
        "stop",
        -5.001,
        -5.0,
        lambda v: (PART, Moves().rapid(50, 20).rapid(0).rapid(v)),
    ),
    "from the axis, not from beyond it": (
        "past-axis",
        "stop",
        0.0,
        -0.001,
        lambda v: (PART, Moves(v, 20).rapid(-6)),
    ),
    "a cut begun 0.02 in": ("start-below-land", "stop", 39.979, 39.98, lambda v: (PART, placed(v, -20))),
    "12 deep, and 0.02": ("beyond-reach", "stop", 15.979, 15.98, lambda v: (DEEP, cut(v))),
    "12 deep, nobody gave it": (
        "reach-unknown",
        "caution",
        15.979,
        15.98,
        lambda v: (DEEP, cut(v), {"unsaid": ["T0303 max_depth"]}),
    ),
    "8 out of the turret": ("turret", "stop", 23.999, 24.0, lambda v: (DEEP, cut(v), tool(overhang=8.0))),
    "twice as deep as wide": ("no-pecks", "caution", 27.979, 27.98, lambda v: (DEEP, cut(v))),
    "sideways 0.75 of 3 deep": (
        "sideways-in-solid",
        "stop",
        35.479,
        35.48,
        lambda v: (WIDE, Moves().rapid(42, -13).feed(v).feed(v, -17).rapid(42)),
    ),
    "sideways a tenth of 3 wide": (
        "sideways-in-solid",
        "stop",
        -13.301,
        -13.3,
        lambda v: (WIDE, Moves().rapid(42, -13).feed(34).feed(34, v).rapid(42)),
    ),
    "sideways 2.25 deep, and 0.01, beside a wall": (
        "sideways-in-solid",
        "caution",
        38.52,
        38.521,
        lambda v: (
            part_of([(-50, -53, 30)], steps=[(0, v), (-20, 45)]),
            Moves().rapid(50, -10).feed(34).feed(34, -20.2).rapid(50),
        ),
    ),
    "a face insert 40 out, whose curve ends at 30": (
        "face-curve",
        "stop",
        39.999,
        40.0,
        lambda v: (FACED, Moves().rapid(v, 5).feed(None, -3).rapid(None, 5), CURVED),
    ),
    "a face insert in metal": (
        "face-curve",
        "stop",
        -0.021,
        -0.02,
        lambda v: (FACED, Moves().rapid(8, 5).feed(None, v).rapid(None, 5), tool(where="face", face_min=20.0)),
    ),
    "a shoulder 12 over the floor": (
        "holder-near-shoulder",
        "caution",
        58.021,
        58.02,
        lambda v: (stepped(-25, v), Moves().rapid(80, -23).feed(34).rapid(80)),
    ),
    "a shoulder 2 behind the edge": (
        "holder-near-shoulder",
        "caution",
        -25.0,
        -25.001,
        lambda v: (stepped(v, 70), Moves().rapid(80, -23).feed(34).rapid(80)),
    ),
    "a holder 4 before the insert": (
        "beyond-reach",
        "stop",
        -16.0,
        -15.999,
        lambda v: (stepped(v, 40, 70), Moves().rapid(80, -23).feed(34).rapid(80), KNOWN),
    ),
    "a holder 2 behind it": (
        "beyond-reach",
        "stop",
        -25.0,
        -25.001,
        lambda v: (stepped(v, 70), Moves().rapid(80, -23).feed(34).rapid(80), KNOWN),
    ),
    "twice the speed": ("speed-unusual", "caution", 240.1, 240.0, lambda v: (PART, cut(speed=v))),
    "3 times the speed": ("speed-too-great", "stop", 360.1, 360.0, lambda v: (PART, cut(speed=v))),
    "8 times the speed": ("speed-too-great", "stop", 960.1, 960.0, lambda v: (PART, cut(speed=v, clamp=900))),
    "a fifth of the speed": ("speed-unusual", "caution", 23.99, 24.0, lambda v: (PART, cut(speed=v))),
    "an eighth of the speed": ("speed-too-small", "stop", 14.99, 15.0, lambda v: (PART, cut(speed=v))),
    "a fifth, held lower by the clamp": (
        "speed-unusual",
        "caution",
        23.99,
        24.0,
        lambda v: (SMALL, cut(10, 16, speed=v, clamp=375)),
    ),
    "an eighth, held lower by the clamp": (
        "speed-too-small",
        "stop",
        14.99,
        15.0,
        lambda v: (TINY, cut(6, 11, speed=v, clamp=375)),
    ),
    "S 0.3 over the speed": ("speed-mode", "stop", 156.0, 156.1, lambda v: (PART, cut(speed=v, **PER_TURN))),
    "S 0.3 under the speed": ("speed-mode", "stop", 84.0, 83.9, lambda v: (PART, cut(speed=v, **PER_TURN))),
    "pi x 106.1 x 0.12 is a third of 120": (
        "speed-mode",
        "stop",
        106.1,
        106.2,
        lambda v: (part_of([(-10, -13, 34)], diameter=v - 2), cut(start=v, speed=120.0, **PER_TURN)),
    ),
    "pi x 212.2 x 0.12 is two thirds": (
        "speed-mode",
        "caution",
        212.2,
        212.3,
        lambda v: (part_of([(-10, -13, 34)], diameter=v - 2), cut(start=v, speed=120.0, **PER_TURN)),
    ),
    "pi x 0.042 x 303.1 is a third of 120": ("speed-too-small", "stop", 303, 304, lambda v: (PART, cut(clamp=v))),
    "a clamp of an eighth of 3000": (
        "speed-too-small",
        "stop",
        374,
        375,
        lambda v: (PART, cut(clamp=v), tool(cutting_speed=200.0)),
    ),
    "0.6 a turn": ("feed-too-great", "stop", 0.6001, 0.6, lambda v: (BROAD, cut(feed=v), tool(width=5.0))),
    "0.15 of 3 wide": ("feed-too-great", "stop", 0.4501, 0.45, lambda v: (PART, cut(feed=v))),
    "8 times a fine feed": ("feed-too-great", "stop", 0.1601, 0.16, lambda v: (PART, cut(feed=v), tool(feed=0.02))),
    "3 times a coarse feed": ("feed-too-great", "stop", 0.7501, 0.75, lambda v: (PART, cut(feed=v), tool(feed=0.25))),
    "3 times the feed": ("feed-unusual", "caution", 0.2401, 0.24, lambda v: (PART, cut(feed=v))),
    "an eighth of the feed": ("feed-unusual", "caution", 0.01, 0.0101, lambda v: (PART, cut(feed=v))),
    "0.004 of 1000 turns": (
        "feed-per-minute",
        "stop",
        3.9,
        4.0,
        lambda v: (PART, cut(feed=v, per_minute=True, speed=1000.0, **PER_TURN)),
    ),
    "3000 turns": ("over-speed", "stop", 3001, 3000, lambda v: (PART, cut(clamp=v))),
    "more than 3000 turns near the axis": (
        "no-clamp",
        "stop",
        12.732,
        12.733,
        lambda v: (PART, Moves(clamp=None, **POINT).rapid(50, 0).feed(v)),
    ),
    "any turns at the axis": (
        "no-clamp",
        "stop",
        -14.0,
        14.0,
        lambda v: (PART, Moves(clamp=None, **POINT).rapid(50, 0).feed(v)),
    ),
    "more than 3000 turns on the far side of the axis": (
        "no-clamp",
        "stop",
        -12.732,
        -12.733,
        lambda v: (PART, Moves(-50, 5, clamp=None, **POINT).rapid(-50, 0).feed(v)),
    ),
    "3000 turns of 0.0094248 m/min on one count across": (
        "no-clamp",
        "stop",
        0.00943,
        0.00942,
        lambda v: (PART, Moves(clamp=None, speed=v, **POINT).rapid(50, 0).feed(-14)),
    ),
    "a feed at one turn": ("feed-too-great", "stop", 1.0, 0.0, lambda v: (PART, cut(feed=0.9, speed=v))),
    "parted at the back": ("cut-after-parting", "stop", -60.0, -59.999, lambda v: (PART, parted(z=v))),
    "parted to the axis": ("cut-after-parting", "stop", 0.0, 0.001, lambda v: (PART, parted(v))),
    "parted to the bore": ("cut-after-parting", "stop", 20.0, 20.001, lambda v: (HOLLOW, parted(v))),
    "parted from the land": ("cut-after-parting", "stop", 40.0, 39.999, lambda v: (PART, parted(x0=v))),
    "cut before where it was parted": (
        "cut-after-parting",
        "stop",
        -62.999,
        -63.0,
        lambda v: (PART, parted(then=(30.0, v))),
    ),
    "parted to the back end of a bore that widens": (
        "cut-after-parting",
        "stop",
        22.0,
        22.001,
        lambda v: (replace(HOLLOW, bore=((0.0, 10.0), (-59.0, 10.0), (-60.0, 11.0))), parted(v)),
    ),
    "cut from behind where it was parted": (
        "cut-after-parting",
        "stop",
        -62.999,
        -63.0,
        lambda v: (PART, parted(then=(30.0, -70.0)).feed(None, v)),
    ),
    "cut from before the face on": (
        "cut-after-parting",
        "stop",
        0.0,
        0.001,
        lambda v: (PART, parted(then=(30.0, 5.0)).feed(None, v)),
    ),
    "cut below its land": ("cut-after-parting", "stop", 39.999, 40.0, lambda v: (PART, parted(then=(v, -20.0)))),
    "a third of what S asks for, where no shop gives a speed": (
        "speed-unusual",
        "caution",
        303,
        304,
        lambda v: (PART, cut(clamp=v), {"unsaid": ["cutting_speed"]}),
    ),
    "a clamp of an eighth, where no shop gives a speed": (
        "speed-unusual",
        "caution",
        374,
        375,
        lambda v: (PART, cut(clamp=v, speed=200.0), {"unsaid": ["cutting_speed"]}),
    ),
}


@pytest.mark.parametrize(("code", "level", "warned", "spared", "made"), MOVED.values(), ids=MOVED)
def test_moves_are_warned_of_from_one_count_on(code, level, warned, spared, made):
    def found(v):
        part, moves, *more = made(v)
        machine = {} if not more or not isinstance(more[-1], dict) else more[-1]
        return moved(part, moves, *[one for one in more if one is not machine], **machine)

    assert level in levels(found(warned), code)
    assert level not in levels(found(spared), code)
