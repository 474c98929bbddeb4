"""What costs much and can be no outline leaves before it is cut up; too many entities before they are loaded."""

import math
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from support.drawings import draw_ring

from extractor import dxf
from extractor.codes import DrawingCode
from extractor.dxf import load_sheet, open_document
from extractor.opening.census import listed
from extractor.opening.expand import Walk
from extractor.opening.patterns import MANY, MOST_OVALS, without_patterns
from extractor.opening.splines import Curve
from extractor.opening.strokes import Chain, Conic
from extractor.sheet import Source

TURN = 2 * math.pi
DRAWN, HATCH = Source("1", "ELLIPSE", "0"), Source("2", "HATCH", "0", owner="HATCH")
LAND = Chain(((0.0, 15.0), (-60.0, 15.0)), (0.0,))
OVAL = Conic((4.0, 5.0), (2.0, 0.0), (0.0, 1.0), 0.0, TURN)
OTHERS = {
    "circle": Conic((4.0, 5.0), (2.0, 0.0), (0.0, 2.0), 0.0, TURN),
    "open": Conic((4.0, 5.0), (2.0, 0.0), (0.0, 1.0), 0.0, 0.999 * TURN),
    "edge on": Conic((4.0, 5.0), (2.0, 0.0), (1.0, 0.0), 0.0, TURN),
}


def kept(*strokes, source=DRAWN):
    """What is kept of strokes, and the cautions."""
    left, said = without_patterns([(stroke, source) for stroke in strokes], 0.01)
    return [stroke for stroke, _ in left], said


@pytest.mark.parametrize(("more", "left"), [(0, MOST_OVALS + 1), (1, 1)])
def test_ovals_by_the_thousand_leave_and_are_said_once(more, left):
    strokes, said = kept(LAND, *[OVAL] * (MOST_OVALS + more))
    assert (len(strokes), strokes[0]) == (left, LAND)
    assert [(f.code, f.at) for f in said] == [(DrawingCode.LEFT_OUT, (4.0, 5.0))] * more
    assert not more or "2,001 whole ellipses were left out, the first at X4 Y5" in said[0].message


@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_only_closed_ellipses_are_ovals(other):
    """An arc of one may be a rounded corner seen in a stretched block, and one seen from its edge is a line."""
    assert kept(*[other] * (MOST_OVALS + 1))[0] == [other] * (MOST_OVALS + 1)
    assert kept(other, *[OVAL] * (MOST_OVALS + 1))[0] == [other]


def curve(count):
    """A curve of so many control points."""
    control = np.column_stack([np.arange(count) % 7 - 3.0, np.arange(count) % 2 - 0.5])
    knots = np.concatenate([[0.0] * 2, np.arange(count - 1.0), [count - 2.0] * 2])
    return Curve(2, knots, control, np.ones(count))


@pytest.mark.parametrize(("count", "source", "left"), [(MANY, HATCH, 0), (MANY - 1, HATCH, 1), (MANY, DRAWN, 1)])
def test_a_long_curve_round_a_hatch_leaves_and_one_that_is_drawn_does_not(count, source, left):
    strokes, said = kept(curve(count), source=source)
    assert (len(strokes), len(said)) == (left, 1 - left)
    assert left or said[0].message.startswith(f"The border of a hatch at X0 Y0 is a curve of {MANY:,} points")


@pytest.mark.parametrize(("most", "refused"), [(21, False), (20, True)])
def test_a_sheet_of_too_many_entities_is_refused_before_it_is_loaded(most, refused, tmp_path, monkeypatch):
    """What hangs on another entity (vertices, attributes) and what stands on a layout is not counted."""
    doc = ezdxf.new("R12")
    space = doc.modelspace()
    for k in range(20):
        space.add_line((0, k), (5, k))
    space.add_polyline2d([(0, 0), (1, 1), (2, 0)])
    doc.layout("Layout1").add_line((0, 0), (1, 1))
    path = tmp_path / "many.dxf"
    doc.saveas(path)
    assert listed(path.read_bytes()) == 21
    monkeypatch.setattr(dxf, "MOST_ENTITIES", most)
    monkeypatch.setattr(dxf, "open_document", open_document if not refused else None)
    # The vertices weigh too, so both are refused; only one of them without the library.
    sheet = load_sheet(path)
    assert [f.code for f in sheet.findings if f.stops] == [DrawingCode.TOO_MANY_ENTITIES]
    assert ("about 21 lines" in sheet.findings[0].message) is refused


@pytest.mark.parametrize("name", sorted(path.name for path in Path("drawings").glob("*.dxf")))
def test_no_more_are_counted_than_the_library_finds(name):
    data = (Path("drawings") / name).read_bytes()
    doc, _ = open_document(data, name)
    assert 0 < listed(data) <= Walk(doc).weight(doc.modelspace())


def test_lines_may_end_as_windows_ends_them(tmp_path):
    draw_ring(tmp_path / "ring.dxf", ((-10, -13, 34),))
    data = (tmp_path / "ring.dxf").read_bytes().replace(b"\r\n", b"\n")
    assert listed(data) == listed(data.replace(b"\n", b"\r\n")) > 0
