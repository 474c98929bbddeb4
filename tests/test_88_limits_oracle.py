"""The oracle of printed limits, held against figures worked out by hand, a table package, and itself."""

import math
import tempfile
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from pressfit.tables import it_value
from support.limits_oracle import plain
from support.limits_oracle.byhand import Print, face, inside, outside, shaft, shop_with, wanted
from support.limits_oracle.cases import random_case
from support.limits_oracle.law import faults
from support.limits_oracle.metal import Gauge, cut
from support.limits_oracle.reading import limits, shown
from support.limits_oracle.rival import Aims, rival
from support.limits_oracle.standards import GRADES, STEPS, fit, general
from support.limits_oracle.values import Insert, Mark
from support.second_opinion import Lost, run

# Limits by hand; where a class stands, from the tables of ISO 286 and ISO 2768-1.
PRINTED = [
    ("10 +0.2/0", 10, {}, "", (10.0, 10.2)),
    ("10 +0.2/+0.1", 10, {}, "", (10.1, 10.2)),
    ("10 -0.1/-0.2", 10, {}, "", (9.8, 9.9)),
    ("10 -0.2 / -0.1", 10, {}, "", (9.8, 9.9)),
    ("<> 0/-0.1", 10, {}, "", (9.9, 10.0)),
    ("%%c19 %%p0,05", 19, {}, "", (18.95, 19.05)),
    ("10\\S+0.2^0;", 10, {}, "", (10.0, 10.2)),
    ("%%c<>{\\H0.7x;\\S+0.1^ -0.05;}", 10, {}, "", (9.95, 10.1)),
    ("30.2/30.181", 30.19, {}, "", (30.181, 30.2)),
    ("\\S30.2^30.181;", 30.19, {}, "", (30.181, 30.2)),
    ("4x 1.3 H13", 1.3, {}, "", (1.3, 1.44)),
    ("%%c19h11", 19, {}, "", (18.87, 19.0)),
    ("%%c19 h11 (0/-0.13)", 19, {}, "", (18.87, 19.0)),
    ("%%c18 js13", 18, {}, "", (17.865, 18.135)),
    ("", 10, {"dimtol": 1, "dimtp": 0.2, "dimtm": -0.1}, "", (10.1, 10.2)),
    ("%%c<>", 10, {"dimlim": 1, "dimtp": 0.2, "dimtm": 0.1}, "", (9.9, 10.2)),
    ("3x 7", 7, {}, "m", (6.8, 7.2)),
    ("30", 30, {}, "m", (29.8, 30.2)),
    ("30.1", 30.1, {}, "f", (29.95, 30.25)),
    ("7", 7, {}, "", (6.98, 7.02)),
]


@pytest.mark.parametrize(("text", "drawn", "variables", "note", "ends"), PRINTED)
def test_printed_sizes_mean_what_they_say(text, drawn, variables, note, ends):
    mark = Mark(measures=(), first=(0, 0), second=(0, 0), line=(0, 0), text=text, variables=variables, drawn=drawn)
    found = limits(mark, "mm", note, 0.02)
    assert (found.low, found.high) == pytest.approx(ends)


def test_inches_and_radii_mean_what_they_say():
    mark = Mark(measures=(), first=(0, 0), second=(0, 0), line=(0, 0), text="1.360 .000/-.005", drawn=1.36)
    assert (limits(mark, "in", "", 0.001).low, limits(mark, "in", "", 0.001).high) == pytest.approx((1.355, 1.36))
    mark = Mark(measures=(), first=(0, 0), second=(0, 0), line=(0, 0), radius=True, text="2x R0.5 %%p0.1", drawn=0.5)
    assert limits(mark, "mm", "", 0.02).high == pytest.approx(0.6)


@pytest.mark.parametrize("grade", [10, 11])
def test_the_grades_equal_those_of_a_package(grade):
    for step, micrometres in zip(STEPS, GRADES[grade], strict=True):
        assert it_value(step, grade) == micrometres
        if step < STEPS[-1]:
            assert it_value(step + 0.001, grade) > micrometres


def test_a_class_steps_just_behind_its_end():
    assert (fit("h", 11, 18), fit("h", 11, 18.001)) == ((-0.11, 0.0), (-0.13, 0.0))
    assert (general("m", 30), general("m", 30.001), general("m", 0.49)) == (0.2, 0.3, None)


def plunged(x: str, z: str, code: str = "G01") -> str:
    return f"G71\nT0101\nS500 M03\nG00 X60.\nG00 Z{z}\n{code} X{x} F0.1\nG00 X60.\n"


@pytest.mark.parametrize(("reference", "walls"), [("far", (-8.0, -10.0)), ("near", (-10.0, -12.0))])
def test_a_plunge_leaves_the_insert(reference, walls):
    piece, insert = (
        shaft(outside(8.0, 2.0, 34.0)),
        Insert(station=1, where="outside", width=2.0, corner=0.3, reference=reference),
    )
    metal = cut(piece, run(plunged("34.", "-10."), metal_alone=True), (insert,), 1e-4).metal
    gauge = Gauge(metal, outside(-walls[0], 2.0, 34.0, corner=0.3))
    assert gauge.walls(0.5) == pytest.approx(walls)
    assert gauge.floor(0.31) == pytest.approx((3.0, 3.0))
    assert gauge.corners() == pytest.approx((0.3, 0.3))


def test_cycles_and_plunges_leave_the_same_metal():
    piece, insert = (
        shaft(outside(8.0, 6.0, 34.0)),
        Insert(station=1, where="outside", width=2.0, corner=0.0, reference="far"),
    )
    start = "G21\nT0101\nS500 M03\nG00 X50.\nG00 Z-10.\n"
    two = run(start + "G75 R0.5\nG75 X34. Z-14. P1000 Q1500 F0.1\n", metal_alone=True)
    one = run(start + "G75 X34. Z-14. I1. K1.5 F0.1\n", metal_alone=True)
    places = [leg.b[1] for leg in two if not leg.rapid]
    assert places == pytest.approx([-10.0, -11.5, -13.0, -14.0])
    assert [replace(leg, line=0) for leg in two] == [replace(leg, line=0) for leg in one]
    assert Gauge(cut(piece, two, (insert,), 1e-4).metal, piece.recesses[0]).walls(0.5) == pytest.approx((-8.0, -14.0))


def test_an_arc_is_followed_by_centre_and_by_radius():
    start = "G21\nT0101\nS500 M03\nG00 X20.\nG00 Z0.\n"
    for block in ("G03 X20. Z-10. I0. K-5. F0.1", "G03 X20. Z-10. R5. F0.1"):
        legs = run(start + block)[2:]
        assert max(leg.b[0] for leg in legs) == pytest.approx(15.0, abs=0.005)
        assert all(math.hypot(leg.b[1] + 5, leg.b[0] - 10) == pytest.approx(5.0) for leg in legs)


def test_an_unknown_block_is_not_followed():
    with pytest.raises(Lost):
        run("G21\nG00 X10.\nG83 Z-1.")


@pytest.mark.parametrize("seed", [1, 5, 8, 11, 18, 28])
def test_a_program_at_each_limit_keeps_all_and_one_beyond_breaks_that_one(seed):
    case = random_case(seed)
    listed = list(case.wanted)
    aims = Aims(case.piece, listed)
    middle = aims.solve()
    assert middle is not None
    shop = case.shop
    for one in aims.wanted[:4]:
        for upper in (True, False):
            state = aims.solve(one, upper)
            text = rival(case.piece, listed, shop, state) if state else None
            assert text is None or faults(case.piece, listed, shop, text) == []
            state = aims.solve(one, upper, beyond=True)
            text = rival(case.piece, listed, shop, state) if state else None
            broken = faults(case.piece, listed, shop, text) if text else []
            assert text is None or [(f.what, f.recess) for f in broken] == [(one.measure.name, one.measure.recess)]


@pytest.mark.parametrize("where", ["outside", "inside", "face"])
def test_the_law_sees_a_rapid_through_metal_and_a_cut_elsewhere(where):
    recess = {"outside": outside(10.0, 3.0, 34.0), "inside": inside(10.0, 3.0, 28.0), "face": face(36.0, 30.0, 3.0)}[
        where
    ]
    piece, shop = shaft(recess, bore=24.0 if where == "inside" else 0.0), shop_with(**{where: (2.0, 0.1)})
    printed = Print(piece).put("near", 0, "").put("width", 0, "").put("floor", 0, "")
    text = rival(piece, wanted(printed, shop), shop, piece.state())
    assert text is not None
    assert faults(piece, wanted(printed, shop), shop, text) == []
    assert any("rapid" in f.what for f in faults(piece, wanted(printed, shop), shop, text.replace("G01", "G00")))
    moved = text.replace("G00 Z-1", "G00 Z-2") if where != "face" else text.replace("G01 Z-3.", "G01 Z-9.")
    assert faults(piece, wanted(printed, shop), shop, moved)


@pytest.mark.parametrize("styled", [True, False])
@pytest.mark.parametrize("seed", [3, 4, 6])
def test_the_plain_writer_says_what_a_library_reads(seed, styled):
    case = random_case(seed)
    with tempfile.TemporaryDirectory() as folder:
        plain.write(case.sheet, Path(folder) / "plain.dxf", styled)
        space = ezdxf.readfile(Path(folder) / "plain.dxf").modelspace()
    sizes = space.query("DIMENSION")
    assert len(sizes) == len(case.marks)
    assert len(space.query("LINE ARC")) == len(case.sheet.drawn)
    for size, mark in zip(sizes, case.marks, strict=True):
        assert mark.drawn == pytest.approx(size.get_measurement(), abs=1e-6)
        assert {name: size.override().get(name) for name in mark.variables} == pytest.approx(mark.variables)
        assert size.dxf.text == mark.text
        assert shown(mark)
