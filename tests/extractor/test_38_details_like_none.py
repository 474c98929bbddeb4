"""Grooves drawn larger beside the view, with sizes of their own, that are like no groove of the view.

Such details are common practice, no source. Their outline is drawn here from corners of its own.
"""

from dataclasses import replace

import pytest
from support.draw import Cut, Ink, Turned, mixed, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Source, Text

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 30.0)))
AT = (40.0, -140.0)
TOLD = ["caution detail-differs"]


def drawn(width, depth, times=5.0, side=1, radius=0.0):
    """A groove so many times as large between two lands, its corners rounded."""
    high, r = depth * side, radius * side
    floor = [(0.0, r, 0.41421356 * side), (radius, 0.0, 0.0), (width - radius, 0.0, 0.41421356 * side), (width, r, 0.0)]
    if not radius:
        floor = [(0.0, 0.0, 0.0), (width, 0.0, 0.0)]
    corners = [(-3.0, high, 0.0), (0.0, high, 0.0), *floor, (width, high, 0.0), (width + 3.0, high, 0.0)]
    return Ink().chain([(AT[0] + times * x, AT[1] + times * y, bulge) for x, y, bulge in corners])


def wide(width, text=None, times=5.0, at=0.0):
    ends = tuple((AT[0] + times * x, AT[1] + times * at) for x in (0.0, width))
    return Dimension(DimensionKind.LINEAR, ends, 0.0, times * width, text, 1.0 if text else 1 / times)


def deep(depth, text=None, times=5.0):
    ends = (AT, (AT[0], AT[1] + times * depth))
    return Dimension(DimensionKind.LINEAR, ends, 90.0, times * depth, text, 1.0 if text else 1 / times)


def read(ink, *dimensions, part=PART, texts=(), circles=(), move=lambda x, y: (x, y), turn=0.0):
    own = mixed(section(part) if part.bore else side_view(part), ink)
    sizes = tuple(replace(d, points=tuple(move(*p) for p in d.points), angle=d.angle + turn) for d in dimensions)
    sheet = sheet_of(own, move=move, dimensions=sizes, texts=tuple(texts), circles=tuple(circles))
    return [f"{f.level} {f.code}" for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.level != "note"]


@pytest.mark.parametrize(
    ("ink", "size", "more"),
    [
        (drawn(3.6, 3.0), wide(3.6), {}),
        (drawn(3.6, 3.0), wide(3.6, "3.6"), {}),
        (drawn(3.0, 2.5), deep(2.5), {}),
        (drawn(4.0, 3.0), deep(3.0, "3 +0.1"), {}),
        (drawn(3.6, 3.0, side=-1), wide(3.6), {}),
        (drawn(3.6, 3.0, times=2.5), wide(3.6, times=2.5), {}),
        (drawn(3.6, 3.0, radius=0.4), wide(3.6), {}),
        (drawn(3.6, 3.0), wide(3.6), {"part": replace(PART, bore=16.0)}),
        (drawn(3.6, 3.0), wide(3.6), {"move": lambda x, y: (-y, x), "turn": 90.0}),
        *(
            (drawn(3.6, 3.0), wide(3.6), {"texts": [Text(words, (30.0, -170.0), 3.5)]})
            for words in ("VIEW X ENLARGED 5x", "TYP. GROOVE", "X部 詳細 5:1", "5x", "(5:1)")
        ),
    ],
)
def test_a_groove_drawn_larger_with_its_size_that_no_groove_of_the_view_has_is_told(ink, size, more):
    assert read(ink, size, **more) == TOLD


@pytest.mark.parametrize(
    ("ink", "size", "more"),
    [
        (drawn(3.0, 3.0), wide(3.0), {}),
        (drawn(3.0, 3.0, radius=0.4), wide(3.0), {}),
        (drawn(4.0, 5.0), deep(5.0), {}),
        (drawn(3.0, 2.0), wide(3.0), {}),
        (drawn(27.0, 3.0, times=2.0), wide(27.0, times=2.0), {}),
        (drawn(3.6, 3.0), wide(3.6, times=7.0), {}),
        (drawn(3.6, 3.0), replace(wide(3.6), factor=1.0), {}),
        (Ink().chain([(*AT, 0.0), (AT[0] + 18.0, AT[1], 0.0)]), wide(3.6), {}),
        (drawn(3.6, 3.0), wide(2.2), {}),
    ],
    ids=["true", "rounded", "deep", "wall cut off", "land", "no usual scale", "another part", "no recess", "not at it"],
)
def test_one_like_a_groove_of_the_view_and_another_thing_are_not(ink, size, more):
    assert read(ink, size, **more) == []


def test_one_whose_heading_is_known_and_that_is_told_of_is_told_once():
    ring, letter = Circle((-11.5, 18.5), 4.0, Source("", "CIRCLE", "0")), Text("Z", (-5.0, 22.0), 3.5)
    found = read(drawn(3.6, 3.0), wide(3.6), texts=[letter, Text("DETAIL Z 5:1", (30.0, -170.0), 3.5)], circles=[ring])
    assert found == ["stop detail-differs"]


def test_a_tolerance_in_the_data_of_a_true_one_without_a_place_is_told():
    assert read(drawn(3.0, 3.0), replace(wide(3.0), deviations=(0.0, 0.1))) == ["caution tolerance-unread"]
