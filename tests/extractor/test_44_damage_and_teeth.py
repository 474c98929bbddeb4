"""What must not pass in silence: drawn lines that are damaged in the file, teeth that are no thread."""

import re
from itertools import pairwise

import pytest
from support.draw import Drawn, full_outline, sheet_of
from support.sheets import entities, line_tags, loaded

from extractor import ReadOptions, read_sheet
from extractor.finding import Level

OUTLINE = [(0, 0), (0, 20), (-47, 20), (-47, 17), (-50, 17), (-50, 20), (-60, 20), (-60, 0)]


def rows():
    """The tags of a shaft with one groove, line by line, and of its centre line."""
    for side in (1, -1):
        for (x0, y0), (x1, y1) in pairwise(OUTLINE):
            yield line_tags(x0, side * y0, x1, side * y1)
    yield tuple((8, "CENTER") if pair == (8, "0") else pair for pair in line_tags(5, 0, -65, 0))


def with_damage(kind, *groups):
    return loaded(entities(*(pair for row in rows() for pair in row), (0, kind), (8, "0"), *groups))


@pytest.mark.parametrize(
    ("kind", "groups", "place"),
    [
        ("LINE", ((10, -20.0), (20, 20.0), (30, 0.0)), (-20.0, 20.0)),
        ("LINE", ((11, -20.0), (21, 20.0), (31, 0.0)), (-20.0, 20.0)),
        ("ARC", ((10, -20.0), (20, 20.0), (50, 0.0), (51, 90.0)), (-20.0, 20.0)),
        ("CIRCLE", ((40, 5.0),), None),
    ],
)
def test_a_drawn_line_that_can_t_be_read_stops_and_may_be_answered_for(kind, groups, place):
    """One group code of a file gone wrong; the grooves that are left look right."""
    sheet = with_damage(kind, *groups)
    stop = next(f for f in sheet.findings if f.stops)
    assert (stop.code, stop.at) == ("entity-damaged", place)
    assert f"1 {kind}" in stop.message
    assert place is None or "near X-20 Y20" in stop.message
    reading = read_sheet(sheet, ReadOptions(units="mm", accept=frozenset({"entity-damaged"})))
    assert not any(f.stops for f in reading.findings)
    assert len(reading.part.grooves) == 1


def test_damage_to_what_is_no_outline_is_a_caution():
    sheet = with_damage("TEXT", (10, float("nan")), (20, 1.0), (40, 2.5), (1, "NOTE"))
    assert [(f.level, f.code) for f in sheet.findings] == [(Level.CAUTION, "annotation-damaged")]


def barb(rise, root=0.0):
    """Four teeth of pitch 4 with one steep side each, behind them a shank and a collar."""
    teeth = [(z, r) for k in range(4) for z, r in ((-4.0 * k - root, 8.0), (-4.0 * k - 4.0, 8.0 + rise))]
    return Drawn((*teeth, (-16.0, 8.0), (-40.0, 8.0), (-40.0, 12.0), (-50.0, 12.0)))


def zigzag(rise):
    """Six sharp teeth with two like flanks."""
    teeth = [(z, r) for k in range(6) for z, r in ((-2.0 * k, 8.0), (-2.0 * k - 1.0, 8.0 - rise))]
    return Drawn((*teeth, (-12.0, 8.0), (-40.0, 8.0)))


@pytest.mark.parametrize("rise", [1.0, 1.6, 2.0])
def test_the_teeth_of_a_hose_barb_are_listed_and_no_thread(rise):
    reading = read_sheet(sheet_of(full_outline(barb(rise))), ReadOptions(units="mm"))
    assert "thread" not in {f.code for f in reading.findings}
    assert len([g for g in reading.part.grooves if g.shape != "rectangular"]) == 3


@pytest.mark.parametrize("rise", [0.5, 0.9, 1.5])
def test_sharp_teeth_with_like_flanks_are_a_thread_whatever_their_angle(rise):
    reading = read_sheet(sheet_of(full_outline(zigzag(rise))), ReadOptions(units="mm"))
    assert ([f.code for f in reading.findings], reading.part.grooves) == (["thread"], ())
    assert re.search(r"from X0 Y-?8 to X-12 Y-?8 are read as a thread", reading.findings[0].message)
