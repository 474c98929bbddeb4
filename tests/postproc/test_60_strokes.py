"""Strokes made in one go against the same moves watched one by one: findings, lines that cut and metal are the same.

Oracle: the watch with the short way taken from it, whose every bound the tests beside this hold to values by hand.
"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.moves import Moves, shop, tool
from support.parts import part_of

from planner.increment import Increments
from postproc import find_dialect, interpret, parse_program
from postproc.cutting.stock import Bench
from postproc.judging.strokes import PlainStrokes
from postproc.judging.watch import MotionWatch
from postproc.reading.notebook import Notebook
from postproc.reading.run import Indexing, Standstill

PARTS = [
    part_of([(-10, -13, 34)]),
    part_of([(-10, -13, 34), (-20, -23, 20)], steps=[(0, 40), (-15, 50), (-30, 44)]),
    part_of([(-10, -13, 34, {"edge_chamfer": 0.3})], bore=12.0),
]
CONE = replace(PARTS[0], lands=((0.0, 19.0), (-60.0, 20.0)))
PARTS.append(CONE)


def watched(run, part, tools, stock, indexings, halts, **machine):
    """Findings, lines that cut, and the metal that is left outside."""
    told = shop(*tools, **machine)
    bench = Bench(part, told.tools, Increments.of("mm"), stock)
    notebook = Notebook(bench.increments)
    watch = MotionWatch(bench, told.machine, notebook, run.cycles, (), indexings, halts)
    cutting = watch.run(run.motions)
    left = bench.outside.profile()
    return notebook.findings, cutting, [np.asarray(row).tolist() for row in (left.u, left.start, left.end, left.line)]


def both_ways(run, part, tools=(), stock=None, indexings=(), halts=(), **machine):
    """The watch as it is, and move by move."""
    short = watched(run, part, tools or (tool(),), stock, indexings, halts, **machine)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(PlainStrokes, "make", lambda *_: 0)
        return short, watched(run, part, tools or (tool(),), stock, indexings, halts, **machine)


EDGES = [
    x + d for x in (20, 34, 38, 40, 41, 42, 44, 50, 52) for d in (-0.021, -0.02, -0.001, 0, 0, 0, 0.001, 0.02, 0.021)
]
HEIGHTS = st.one_of(st.sampled_from(EDGES), st.integers(14_000, 54_000).map(lambda n: n / 1000), st.just(1600.0))
ZS = st.sampled_from([-13.0, -13.0, -12.0, -11.0, -23.0, -20.0, -58.0, -74.0, 2.0, -16.0])
FIELDS = st.sampled_from([{}] * 20 + [
    {"station": 5, "offset": 5}, {"offset": 4}, {"home": True}, {"foreign": "turning cycle"}, {"followed": False},
    {"compensated": True}, {"x0_known": False}, {"z0_known": False}, {"line": 3}, {"turning": False},
])  # fmt: skip
STROKE = st.tuples(st.sampled_from(["rapid", "feed", "feed"]), HEIGHTS, FIELDS)
PLUNGES = st.tuples(ZS, st.lists(STROKE, min_size=1, max_size=9))
TOOLS = st.sampled_from(
    [
        (tool(),),
        (tool(max_depth=2.0),),
        (tool(overhang=3.0),),
        (tool(peck=0.0, width=1.0),),
        (tool(width=1.0, reference="near", holder_far=2.0, max_depth=4.0), tool(station=5, offset=5)),
        (tool(edge="vee", width=3.0),),
        (tool(), tool(station=5, offset=5, where="inside", min_bore=10.0, width=2.0)),
        (tool(where="face", width=3.0),),
    ]
)
MACHINES = st.sampled_from(
    [{}, {"tailstock": 41.0}, {"clearance": 0.0}, {"clearance": 6.0}, {"tolerance": 0.5}, {"stick_out": 30.0}]
)
WAITS = st.lists(st.integers(0, 30), max_size=2).map(sorted)


@settings(max_examples=200, deadline=None)
@given(st.lists(PLUNGES, min_size=1, max_size=4), st.sampled_from(PARTS), TOOLS, MACHINES, WAITS, WAITS, st.booleans())
def test_in_one_go_and_one_by_one_are_the_same(plunges, part, tools, machine, turns, waits, from_bar):
    moves = Moves(60, 5)
    for z, strokes in plunges:
        moves.rapid(60).rapid(None, z)
        for kind, x, fields in strokes:
            getattr(moves, kind)(x, **fields)
    indexings = [Indexing(900 + n, n, True) for n in turns]
    halts = [Standstill(950 + n, n, "waits", False) for n in waits]
    stock = 54.0 if from_bar else None
    short, long = both_ways(moves.run(), part, tools, stock, indexings, halts, **machine)
    assert short == long


@pytest.mark.parametrize("cycle", ["G75 X{x} Z{z} P{p} Q{q} F0.08", "G75 X{x} P{p} F0.08"])
@settings(max_examples=60, deadline=None)
@given(st.data())
def test_pecks_of_cycles_are_the_same(cycle, data):
    pick = lambda *values: data.draw(st.sampled_from(values))  # noqa: E731
    words = {
        "x": pick(34.0, 34.001, 20.0, 41.0),
        "z": pick(-13.0, -18.0, -30.0),
        "p": pick(400, 1000, 30_000),
        "q": 5000,
    }
    text = f"G21 G99\nT0303\nG97 S900 M03\nG00 X{pick(42.0, 40.0, 39.0, 60.0)} Z{pick(-13.0, -12.0)}\nG75 R0.5\n"
    run = interpret(parse_program(text + cycle.format(**words) + "\nG00 X60.\nM30"), find_dialect("two-block"))
    short, long = both_ways(run, PARTS[0])
    assert short == long


def made_in_one_go(monkeypatch, moves, *tools, part=PARTS[0], **machine):
    """How many moves are made in one go."""
    made, own = [], PlainStrokes.make

    def counted(*given):
        made.append(own(*given))
        return made[-1]

    monkeypatch.setattr(PlainStrokes, "make", counted)
    watched(moves.run(), part, tools or (tool(),), None, (), (), **machine)
    return sum(made)


def pecked():
    """To a place over the groove, and a first peck to 38; the touch is 0.02, the clearance told of a third of 1."""
    return Moves().rapid(42, -13).rapid(41.0).feed(38)


BY_HAND = pytest.mark.parametrize(
    ("moves", "number"),
    [
        (pecked(), 2),
        (pecked().rapid(39).feed(36).rapid(42), 5),
        # A rapid in metal up to the touch, and a count more.
        (pecked().rapid(37.98).rapid(42), 3),
        (pecked().rapid(37.98).feed(37.979), 4),
        (pecked().rapid(37.98).feed(37.98), 3),
        (pecked().rapid(39).rapid(38.02).rapid(42), 4),
        (pecked().rapid(39).rapid(38.021).rapid(42), 5),
        (pecked().rapid(38).rapid(42), 4),
        (pecked().rapid(37.979).rapid(42), 2),
        # A rapid down to the land: 0.666 is told of, 0.667 is not; below the land by more than the touch neither.
        (pecked().rapid(42).rapid(40.666), 4),
        (pecked().rapid(42).rapid(40.665), 3),
        (pecked().rapid(42).rapid(39.979), 4),
        (pecked().rapid(42).rapid(39.98), 3),
        # A cut that starts in metal by the touch, and by a count more.
        (pecked().rapid(37.98).feed(37), 4),
        (pecked().feed(36, line=99).feed(36.5).feed(35.0), 5),
        # Places 1500 out are far.
        (pecked().rapid(1500), 3),
        (pecked().rapid(1500.001), 2),
        (pecked().rapid(42).rapid(None, -14).rapid(43), 4),
        (pecked().rapid(42).rapid(None, -14).rapid(43, -14.001), 3),
        (pecked().rapid(42, home=True).rapid(43), 2),
        (pecked().rapid(42, compensated=True), 2),
        (pecked().rapid(42, foreign="turning cycle"), 2),
        (pecked().rapid(42, followed=False), 2),
        (pecked().rapid(42, x0_known=False), 2),
        (pecked().rapid(42, z0_known=False), 2),
        (pecked().rapid(42, cycle=0), 2),
        (pecked().rapid(42, offset=4), 2),
        (pecked().rapid(42, station=5), 2),
        (pecked().rapid(42).rapid(40.665).rapid(40.665), 4),
        (Moves(offset=4).rapid(42, -13).rapid(41.0).feed(38), 0),
    ],
)


@BY_HAND
def test_only_moves_of_which_nothing_is_said_are_strokes(monkeypatch, moves, number):
    assert made_in_one_go(monkeypatch, moves) == number


@BY_HAND
def test_these_moves_are_the_same_one_by_one(moves, number):
    short, long = both_ways(moves.run(), PARTS[0])
    assert short == long


@pytest.mark.parametrize(
    ("fields", "moves", "number"),
    [
        # The insert reaches 2 below the highest metal, and the touch of 0.02 on the diameter.
        ({"max_depth": 2.0}, pecked().feed(35.98), 3),
        ({"max_depth": 2.0}, pecked().feed(35.979), 2),
        ({"overhang": 2.0}, pecked().feed(36.0), 3),
        ({"overhang": 2.0}, pecked().feed(35.999), 2),
        # A cut twice as deep as wide and the touch deeper is told of.
        ({"width": 1.0}, pecked().feed(33.98), 3),
        ({"width": 1.0}, pecked().feed(33.979), 2),
        ({"edge": "vee"}, pecked(), 0),
        ({"where": "face"}, pecked(), 0),
        ({"where": "inside", "min_bore": 10.0}, pecked(), 0),
    ],
)
def test_what_the_insert_bears_in_one_go(monkeypatch, fields, moves, number):
    assert made_in_one_go(monkeypatch, moves, tool(**fields)) == number


@pytest.mark.parametrize(("end", "number"), [(40.021, 4), (40.02, 3)])
def test_with_no_clearance_asked_a_rapid_onto_the_land_is_told(monkeypatch, end, number):
    """Within the touch of 0.02 a rapid ends on the metal."""
    assert made_in_one_go(monkeypatch, pecked().rapid(42).rapid(end), clearance=0.0) == number


def elsewhere():
    """A move that begins where none ended."""
    moves = pecked()
    moves.at = (43_000, -13_000)
    return moves.rapid(42).rapid(43)


@pytest.mark.parametrize(
    ("moves", "halts", "codes"),
    [
        (Moves().rapid(1600, -13).rapid(42).feed(38), (), {"far-place"}),
        (Moves().rapid(2_000_000, -13).rapid(42).feed(38), (), {"too-far"}),
        (pecked().feed(37).rapid(42), (4,), {"stopped-in-groove"}),
        (elsewhere(), (), set()),
        (Moves(offset=4).rapid(42, -13).feed(38), (), {"offset"}),
    ],
)
def test_what_is_told_beside_strokes_is_told(moves, halts, codes):
    short, long = both_ways(moves.run(), PARTS[0], halts=[Standstill(9, n, "waits", False) for n in halts])
    assert short == long
    assert codes <= {str(finding.code) for finding in short[0]}


def test_sloping_metal_is_watched_move_by_move(monkeypatch):
    assert made_in_one_go(monkeypatch, pecked()) == 2
    assert made_in_one_go(monkeypatch, pecked(), part=CONE) == 0


def test_moves_before_the_face_are_strokes_where_no_centre_stands(monkeypatch):
    """The insert, 3 wide and set to its far edge, reaches to the face from Z-3."""
    moves = {z: Moves().rapid(42, z).rapid(41.0).feed(38) for z in (-3.0, -2.999)}
    assert [made_in_one_go(monkeypatch, moves[z], tailstock=10.0) for z in moves] == [2, 0]
    assert [made_in_one_go(monkeypatch, moves[z]) for z in moves] == [2, 2]
