"""The hand-written DXF text says what was drawn; ezdxf, a general library, is the outside check of it."""

import math
from collections import Counter
from pathlib import Path

import ezdxf
import pytest
from support.independent.move import Move
from support.independent.offices import OFFICES, Recipe, compose
from support.independent.recipes import FAMILIES
from support.ink import Arc, Block, Circle, Dim, Hatch, Line, Look, Text, bulge_arc
from support.ink import Path as Polyline
from support.plain_dxf import Style, Writer, exponent, fixed, terse

SQUARE = ((0.0, 0.0, 0.0), (4.0, 0.0, 1.0), (4.0, 4.0, 0.0), (0.0, 4.0, 0.0))
INK = [
    Line((0.0, 1.5), (-2.25, 3.0), Look("A", "DASHED")),
    Arc((1.0, 2.0), 3.0, 30.0, 120.0),
    Circle((5.0, 5.0), 2.5),
    Polyline(SQUARE, True),
    Text((1.0, 1.0), "%%c40 h11"),
    Dim((0.0, 0.0), (7.5, 0.0), (0.0, 5.0), 0.0, "<> H13"),
    Hatch((SQUARE,)),
    Block((Line((0.0, 0.0), (1.0, 1.0)),), (10.0, 10.0), (1.0, 3.0), (2.0, -1.0), 90.0, name="PART"),
]


@pytest.mark.parametrize("number", [repr, fixed(4), exponent, terse])
@pytest.mark.parametrize("old", [True, False])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_library_reads_what_was_drawn(tmp_path: Path, old: bool, newline: str, number: object) -> None:
    path = tmp_path / "plain.dxf"
    style = Style(old=old, newline=newline, number=number, header=(("$INSUNITS", 70, "4"),))  # type: ignore[arg-type]
    path.write_text(Writer(style, {}).text(list(INK)), encoding="cp1252", newline="")
    document = ezdxf.readfile(path)
    found = document.modelspace()
    kinds = Counter(entity.dxftype() for entity in found)
    expected = {"LINE": 1, "ARC": 1, "CIRCLE": 1, "TEXT": 1, "DIMENSION": 1, "INSERT": 1}
    expected |= {"POLYLINE": 1} if old else {"LWPOLYLINE": 1, "HATCH": 1}
    assert kinds == expected
    line, arc = found.query("LINE").first, found.query("ARC").first
    assert tuple(line.dxf.start)[:2] == pytest.approx((0.0, 1.5), abs=1e-4)
    assert tuple(line.dxf.end)[:2] == pytest.approx((-2.25, 3.0), abs=1e-4)
    assert (line.dxf.layer, line.dxf.linetype) == ("A", "DASHED")
    assert (arc.dxf.radius, arc.dxf.start_angle, arc.dxf.end_angle) == pytest.approx((3.0, 30.0, 120.0))
    circle, insert = found.query("CIRCLE").first, found.query("INSERT").first
    assert (tuple(circle.dxf.center)[:2], circle.dxf.radius) == (pytest.approx((5.0, 5.0)), pytest.approx(2.5))
    assert (insert.dxf.xscale, insert.dxf.yscale, insert.dxf.rotation) == (2.0, -1.0, 90.0)
    assert tuple(insert.block().block.dxf.base_point)[:2] == pytest.approx((1.0, 3.0))
    assert found.query("DIMENSION").first.get_measurement() == pytest.approx(7.5)
    assert document.header["$INSUNITS"] == 4
    assert not document.audit().errors


@pytest.mark.parametrize("bulge", [0.3, 1.0, -0.3, -1.0, 2.5])
def test_arc_of_a_bulge_runs_between_its_ends(bulge: float) -> None:
    """Against ezdxf's own conversion of bulges."""
    a, b = (1.0, 2.0), (4.0, -1.0)
    arc = bulge_arc(a, b, bulge)
    centre, start, end, radius = ezdxf.math.bulge_to_arc(a, b, bulge)
    assert arc.centre == pytest.approx(tuple(centre), abs=1e-12)
    assert arc.radius == pytest.approx(radius)
    turned = [math.remainder(math.radians(x) - y, math.tau) for x, y in ((arc.start, start), (arc.end, end))]
    assert turned == pytest.approx([0.0, 0.0], abs=1e-12)


@pytest.mark.parametrize("mirror", [True, False])
def test_moving_an_arc_moves_its_ends(mirror: bool) -> None:
    move = Move((3.0, -7.0), 30.0, 2.0, mirror)
    arc = Arc((1.0, 2.0), 3.0, 20.0, 100.0)
    ends = {_rounded(move.point(_on(arc, angle))) for angle in (arc.start, arc.end)}
    moved = move.arc(arc)
    assert {_rounded(_on(moved, angle)) for angle in (moved.start, moved.end)} == ends


def _on(arc: Arc, degrees: float) -> tuple[float, float]:
    angle = math.radians(degrees)
    return arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle)


def _rounded(point: tuple[float, float]) -> tuple[float, float]:
    return round(point[0], 9), round(point[1], 9)


@pytest.mark.parametrize("office", OFFICES)
def test_every_office_writes_sound_files(tmp_path: Path, office: str) -> None:
    for old in (True, False):
        path = tmp_path / f"{old}.dxf"
        compose(Recipe(seed=3, office=office, old=old, extras=frozenset({"overall", "title"}))).save(str(path))
        document = ezdxf.readfile(path)
        assert not document.audit().errors
        texts = {e.dxf.text for e in document.modelspace().query("TEXT")}
        assert OFFICES[office].words.title in texts


@pytest.mark.parametrize("family", FAMILIES)
def test_a_recipe_draws_the_same_sheet_twice(family: str) -> None:
    assert compose(FAMILIES[family](5)).text == compose(FAMILIES[family](5)).text
