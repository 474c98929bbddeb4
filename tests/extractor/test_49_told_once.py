"""What both halves show of one thing is told once, and answered once."""

from types import SimpleNamespace

import pytest
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet
from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.recess.recognise import _once
from extractor.viewing.axis import Axis

CLOSED = [(0, 0), (0, 20), (20, 20), (20, 17), (24, 17), (24, 20), (50, 20), (50, 0)]


def read(*, off=0.0, accept=()):
    """A part 50 long, and lines of an end that was left open behind it; those of the lower half so far to the right."""
    doc = blank()
    msp = doc.modelspace()
    for side, move in ((1, 0.0), (-1, off)):
        msp.add_lwpolyline([(x, side * y) for x, y in CLOSED])
        msp.add_lwpolyline([(50, side * 20), (80 + 2 * move, side * 20), (80 + 2 * move, side * 5)])
    msp.add_line((-6, 0), (86, 0), dxfattribs={"linetype": "CENTER"})
    return read_sheet(read_back(doc), ReadOptions(units="mm", accept=frozenset(accept)))


def stops(found):
    """The keys of its stops."""
    return [f.key for f in found.findings if f.stops]


def test_an_outline_left_open_on_both_halves_is_one_stop_with_one_answer():
    (key,) = stops(read())
    assert key == "outline-open@65,20"
    assert stops(read(accept=[key])) == []
    assert stops(read(accept=["outline-open"])) == []


@pytest.mark.parametrize(("off", "count"), [(0.018, 1), (0.021, 2)])
def test_places_of_both_halves_are_one_within_the_error_of_a_pen(off, count):
    """0.0003 of the view, which is 64.03 from corner to corner: 0.0192."""
    assert len(stops(read(off=off))) == count


@pytest.mark.parametrize(
    ("code", "at", "words", "count"),
    [
        ("outline-open", (5.0, -3.0), "Open at X5 Y-3.", 1),
        ("outline-open", (5.0, 3.0), "Open at X5 Y3.", 2),
        ("outline-unclear", (5.0, -3.0), "Open at X5 Y-3.", 2),
        ("outline-open", (5.0, -3.0), "Too narrow at X5 Y-3.", 2),
        ("outline-open", None, "Open.", 2),
    ],
)
def test_only_the_same_of_the_mirror_image_is_told_once(code, at, words, count):
    folded = SimpleNamespace(axis=Axis((0.0, 0.0), (1.0, 0.0)), pen=0.02)
    first = Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, "Open at X5 Y3.", (5.0, 3.0))
    assert len(_once(folded, [first, Finding(Level.STOP, DrawingCode(code), words, at)])) == count
