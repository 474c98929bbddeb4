"""Sizes at the circles of an end view: held against the diameters of the part, and given to its floors."""

import math
from dataclasses import replace

import pytest
from support.draw import Cut, Turned, rotated, sheet_of, shifted, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.finding import Level
from extractor.limits import deviations
from extractor.sheet import Circle, Dimension, DimensionKind, Pen, Source, Text

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 34.0)))
LINED = Source("1", "CIRCLE", "0")
FAR = 200.0
"""Where the end view stands, so far out that its sizes are none of the view's."""


def read(*dimensions, at=FAR, move=lambda x, y: (x, y), off=0.0, radii=(20.0, 17.0), source=LINED, texts=(), ink=None):
    circles = tuple(Circle(move(at, off), r, source) for r in radii)
    moved = tuple(replace(d, points=tuple(move(*p) for p in d.points)) for d in dimensions)
    sheet = sheet_of(ink or side_view(RING), move, circles=circles, dimensions=moved, texts=texts)
    return read_sheet(sheet, ReadOptions(units="mm"))


def told(*dimensions, level=Level.STOP, **more):
    return [f.code for f in read(*dimensions, **more).findings if f.level is level]


def size(kind, radius, text, turn=45.0, at=FAR, **more):
    """From side to side of a circle, or from its middle out; a leader's tip on it."""
    x, y = radius * math.cos(math.radians(turn)), radius * math.sin(math.radians(turn))
    back = {DimensionKind.RADIUS: (at, 0.0), DimensionKind.LEADER: (at + 60.0, 60.0)}.get(kind, (at - x, -y))
    measured = {DimensionKind.RADIUS: radius, DimensionKind.LEADER: 0.0}.get(kind, 2 * radius)
    points = ((at + x, y), back)
    return Dimension(kind, points, turn, measured, text, **more)


DIAMETER, RADIUS, LEADER = DimensionKind.DIAMETER, DimensionKind.RADIUS, DimensionKind.LEADER


@all_pairs(
    ("kind", "radius", "text", "odd"),
    [
        (DIAMETER, 20.0, "\u00d842", True),
        (DIAMETER, 20.0, "\u00d840", False),
        (DIAMETER, 20.0, None, False),
        (DIAMETER, 20.0, "42", True),
        (DIAMETER, 17.0, "\u00d833", True),
        (DIAMETER, 17.0, "\u00d834", False),
        (LEADER, 17.0, "\u00d833", True),
        (LEADER, 17.0, "\u00d834", False),
        (LEADER, 20.0, "\u00d842", True),
        (DimensionKind.LINEAR, 20.0, "\u00d842", True),
        (DimensionKind.ALIGNED, 17.0, "\u00d833", True),
        (RADIUS, 20.0, "21", True),
        (RADIUS, 20.0, "20", False),
    ],
    at=[FAR, 50.0, -120.0],
    move=[lambda x, y: (x, y), shifted(300, 100), rotated(90.0, 0.0, 0.0)],
)
def test_a_size_at_a_circle_is_held_against_it(kind, radius, text, odd, move, at):
    assert told(size(kind, radius, text, at=at), at=at, move=move) == (["dimension-contradicts"] if odd else [])


@pytest.mark.parametrize(
    ("text", "odd"),
    [
        ("33", False),  # a number that may be that of a part
        ("R33", False),
        ("4x \u00d86", False),
        ("4x \u00d833", False),
        ("\u00d811", False),  # a hole there: 34 is more than three times as large
        ("\u00d811.4", True),
        ("33 HOLES", False),
    ],
)
def test_what_is_led_to_a_circle_and_is_no_size_of_it_says_nothing(text, odd):
    assert ("dimension-contradicts" in told(size(LEADER, 17.0, text))) is odd


@pytest.mark.parametrize(("off", "odd"), [(0.0, True), (0.39, True), (0.41, False)])
def test_a_tip_is_on_a_circle_within_a_hundredth_of_the_part(off, odd):
    """0.4 on 40."""
    assert ("dimension-contradicts" in told(size(LEADER, 17.0 + off, "\u00d833"))) is odd
    assert ("dimension-contradicts" in told(size(DimensionKind.LINEAR, 17.0 + off / 2, "\u00d833"))) is (off < 0.4)


@pytest.mark.parametrize(("off", "odd"), [(0.39, True), (0.41, False), (-0.39, True), (-0.41, False)])
def test_a_circle_is_on_the_axis_within_a_hundredth_of_the_part(off, odd):
    one = size(LEADER, 17.0, "\u00d833")
    moved = replace(one, points=tuple((x, y + off) for x, y in one.points))
    assert ("dimension-contradicts" in told(moved, off=off)) is odd


@pytest.mark.parametrize(("at", "odd"), [(17.1, True), (16.9, False), (-77.1, True), (-76.9, False)])
def test_a_circle_stands_clear_before_or_behind_the_view(at, odd):
    """17 about its middle, and a part 60 long."""
    assert ("dimension-contradicts" in told(size(LEADER, 17.0, "\u00d833", at=at), at=at, radii=(17.0,))) is odd


@pytest.mark.parametrize(("off", "odd"), [(0.39, True), (0.41, False)])
def test_a_radius_runs_to_its_circle_within_the_same(off, odd):
    assert ("dimension-contradicts" in told(size(RADIUS, 17.0 + off, "16.5"))) is odd


def test_what_is_led_there_and_counts_gives_a_floor_no_tolerance():
    """Four holes on a circle as large as the floor, say."""
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
    reading = read(size(LEADER, 17.0, "4x \u00d834 h9"), ink=side_view(part))
    assert reading.part is not None
    assert deviations(reading.part.grooves[0]) == {}


def test_a_tip_between_two_circles_is_on_either():
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-25.0, 4.0, 33.0)))
    for text, odd in (("\u00d833", False), ("\u00d834", False), ("\u00d835", True)):
        one = size(LEADER, 16.75, text)
        found = told(one, radii=(20.0, 17.0, 16.5), ink=side_view(part))
        assert ("dimension-contradicts" in found) is odd


@pytest.mark.parametrize(
    "more",
    [
        {"radii": (20.0,)},  # no circle of 34
        {"source": Source("2", "CIRCLE", "0", Pen.PHANTOM)},
        {"at": -30.0},  # within the view
    ],
)
def test_no_edge_of_an_end_view(more):
    one = size(LEADER, 17.0, "\u00d833", at=more.get("at", FAR))
    assert "dimension-contradicts" not in told(one, **more)


def test_a_circle_as_large_as_no_edge_is_not_held():
    """Something else there, of which others tell."""
    assert "dimension-contradicts" not in told(size(DIAMETER, 15.0, "\u00d833"), radii=(20.0, 17.0, 15.0))


def test_a_thread_s_size_is_none_of_its_circle():
    assert "dimension-contradicts" not in told(size(DIAMETER, 17.0, "M36"))


def test_a_dashed_circle_is_an_edge_behind_the_end():
    assert told(size(LEADER, 17.0, "\u00d833"), source=Source("2", "CIRCLE", "0", Pen.HIDDEN)) == [
        "dimension-contradicts"
    ]


def test_a_tolerance_at_a_floor_s_circle_is_the_floor_s():
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
    reading = read(size(LEADER, 17.0, "\u00d834 h9"), ink=side_view(part))
    assert reading.part is not None
    assert deviations(reading.part.grooves[0]) == {"floor_diameter": pytest.approx((-0.062, 0.0))}


def test_a_land_as_large_as_a_floor_leaves_its_tolerance_unread():
    """A neck of 34 and a floor of 34: nobody can say which is meant, but 33 is neither."""
    part = Turned(((50.0, 40.0), (10.0, 34.0)), (Cut(-10.0, 3.0, 34.0),))
    right = read(size(DIAMETER, 17.0, "\u00d834 h9"), ink=side_view(part))
    assert right.part is not None
    assert "floor_diameter" not in deviations(right.part.grooves[0])
    assert "dimension-contradicts" in told(size(DIAMETER, 17.0, "\u00d833"), ink=side_view(part))


def test_a_bare_text_with_a_loose_leader_is_a_size_there():
    ink = side_view(RING)
    ink.solid += [(FAR, 17.0, FAR + 30.0, 40.0, 0.0)]
    text = Text("\u00d833", (FAR + 31.0, 39.0), 2.5)
    assert told(texts=(text,), ink=ink) == ["dimension-contradicts"]
    assert told(texts=(replace(text, text="\u00d834"),), ink=ink) == []
