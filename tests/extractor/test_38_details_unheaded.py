"""Grooves drawn larger beside the view whose heading is a letter alone, or that nothing on the view names.

Such details are common practice, no source. They are drawn here from the groove's own numbers.
"""

from dataclasses import replace

import pytest
from support.draw import Cut, Ink, Turned, mixed, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Circle, Dimension, DimensionKind, Source, Text

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 30.0)))
AT = (40.0, -140.0)


def place(z, r, times=5.0):
    return AT[0] + times * (z + 11.5), AT[1] + times * (r - 18.5)


def enlarged(times=5.0, near=-10.0, side=1):
    """The first groove and a little of the lands beside it; `side` -1 as it is below the axis."""
    corners = [(-15.0, 20.0), (-13.0, 20.0), (-13.0, 17.0), (near, 17.0), (near, 20.0), (-8.0, 20.0)]
    placed = [place(z, r, times) for z, r in corners]
    return Ink().chain([(x, AT[1] + side * (y - AT[1]), 0.0) for x, y in placed])


def width(text, times=5.0, factor=1.0, side=1):
    ends = [(x, AT[1] + side * (y - AT[1])) for x, y in (place(-13.0, 20.0, times), place(-10.0, 20.0, times))]
    return Dimension(DimensionKind.LINEAR, (*ends,), 0.0, 3.0 * times, text, factor)


def depth(text):
    ends = place(-13.0, 17.0), place(-13.0, 20.0)
    return Dimension(DimensionKind.LINEAR, ends, 90.0, 15.0, text)


def read(*dimensions, drawn=None, texts=(), circles=(), move=lambda x, y: (x, y), part=PART):
    ink = mixed(section(part) if part.bore else side_view(part), drawn or enlarged())
    dimensions = tuple(
        replace(d, points=tuple(move(*p) for p in d.points), angle=d.angle + move.__defaults__[0])
        if move.__defaults__
        else d
        for d in dimensions
    )
    sheet = sheet_of(ink, move=move, dimensions=dimensions, texts=tuple(texts), circles=tuple(circles))
    return read_sheet(sheet, ReadOptions(units="mm"))


def upright(x, y, turn=90.0):
    return -y, x


def codes(reading):
    return [f"{f.level} {f.code}" for f in reading.findings if f.level != "note"]


STOP, TOLD = ["stop dimension-contradicts"], ["caution dimension-unclear"]
RING = Circle((-11.5, 18.5), 4.0, Source("", "CIRCLE", "0"))
HEAD, AT_RING = Text("Z", (30.0, -165.0), 3.5), Text("Z", (-5.0, 22.0), 3.5)


@pytest.mark.parametrize(
    ("texts", "drawn", "size", "told"),
    [
        ((HEAD, AT_RING), enlarged(), "3 +0.1/0", []),
        ((HEAD, AT_RING), enlarged(), "3.5", STOP),
        ((HEAD, AT_RING), enlarged(near=-9.5), "3.5", TOLD),
        ((replace(HEAD, text="Д"), replace(AT_RING, text="Д")), enlarged(near=-9.5), "3.5", TOLD),
        ((HEAD, replace(AT_RING, text="Y")), enlarged(near=-9.5), "3.5", []),
        ((replace(HEAD, at=(300.0, -165.0)), AT_RING), enlarged(near=-9.5), "3.5", []),
    ],
)
def test_a_letter_alone_heads_a_detail_where_a_ring_on_the_view_has_it(texts, drawn, size, told):
    reading = read(width(size), drawn=drawn, texts=texts, circles=[RING])
    assert codes(reading) == told
    held = [pytest.approx((0.0, 0.1)), None] if "+" in size else [None, None]
    assert [g.tolerances.get("width") for g in reading.part.grooves] == held


@pytest.mark.parametrize(
    ("size", "more"),
    [
        (width("3.5"), {}),
        (depth("2.5"), {}),
        (width(None, factor=1 / 6), {}),
        (width("3.5", side=-1), {"drawn": enlarged(side=-1)}),
        (width("3.5", times=2.5), {"drawn": enlarged(2.5)}),
        (width("3.5"), {"move": upright}),
        (width("3.5"), {"part": replace(PART, bore=16.0)}),
        (width("3.5"), {"texts": [Text("X (5:1)", (30.0, -165.0), 3.5)]}),
    ],
)
def test_a_groove_drawn_larger_that_nothing_names_is_held_by_its_shape(size, more):
    assert codes(read(size, **more)) == STOP


@pytest.mark.parametrize(
    ("size", "more"),
    [
        (width("3"), {}),
        (width("15"), {}),
        (width(None), {}),
        (width(None, factor=0.2), {}),
        (width("4", times=7.0), {"drawn": enlarged(7.0)}),
        (width("3.5"), {"drawn": Ink().chain([(*place(-13.0, 20.0), 0.0), (*place(-10.0, 20.0), 0.0)])}),
    ],
    ids=["true", "a piece of its own", "measured", "measured at its scale", "no usual scale", "no groove"],
)
def test_what_prints_the_same_or_shows_another_thing_is_not(size, more):
    assert codes(read(size, **more)) == []


@pytest.mark.parametrize(
    ("drawn", "told"), [(enlarged(near=-9.5), TOLD), (Ink().chain([(*AT, 0.0), (AT[0] + 30, AT[1], 0.0)]), [])]
)
def test_a_scale_whose_letter_stands_nowhere_heads_a_detail_where_a_recess_is_drawn(drawn, told):
    assert codes(read(drawn=drawn, texts=[Text("X (5:1)", (30.0, -165.0), 3.5)])) == told


LED = Dimension(DimensionKind.LEADER, ((-11.5, 18.0), (0.0, 40.0)), 0.0, 0.0, "Z")


@pytest.mark.parametrize("words", ["Z 5:1", "DETAIL Z 5:1", "Z (5:1)"])
@pytest.mark.parametrize(
    ("drawn", "size", "told"),
    [(enlarged(), "3 +0.1/0", []), (enlarged(), "3.5", STOP), (enlarged(near=-9.5), "3", ["stop detail-differs"])],
)
def test_a_leader_with_the_letter_of_a_detail_shows_its_place(words, drawn, size, told):
    reading = read(width(size), LED, drawn=drawn, texts=[Text(words, (30.0, -165.0), 3.5)])
    assert codes(reading) == told
    assert reading.part.grooves[0].tolerances.get("width") == (pytest.approx((0.0, 0.1)) if "+" in size else None)


@pytest.mark.parametrize("words", ["DETAIL Z 5:1", "EINZELHEIT Z 5:1", "Z 5:1"])
@pytest.mark.parametrize("letter", [(), [Text("Z", (-12.5, 24.0), 3.5)]])
@pytest.mark.parametrize(
    ("size", "quiet"),
    [(width(None, factor=0.2), True), (width("3"), True), (width("3.5"), False), (width("3 H11"), False)],
)
def test_a_true_detail_without_a_place_is_quiet(words, letter, size, quiet):
    assert (codes(read(size, texts=[Text(words, (30.0, -165.0), 3.5), *letter])) == []) is quiet


@pytest.mark.parametrize(
    "more",
    [
        {"drawn": enlarged(near=-9.5)},
        {"drawn": enlarged(4.0)},
        {"texts": [Text("DETAIL Z", (30.0, -165.0), 3.5)], "drawn": enlarged(near=-9.5)},
    ],
    ids=["wider", "at another scale", "no scale"],
)
def test_one_that_shows_no_groove_of_the_view_is_told(more):
    more = {"texts": [Text("DETAIL Z 5:1", (30.0, -165.0), 3.5)], **more}
    assert codes(read(**more)) == TOLD
