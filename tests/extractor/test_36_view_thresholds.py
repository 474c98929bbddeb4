"""Which figures make a view of a turned part, just inside and just outside of each mark; a shaft 60 long, 40 across."""

import math
from dataclasses import replace

import pytest
from support.draw import Cut, Ink, Turned, box, full_outline, half_profile, mixed, shaft, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.viewing import alike
from extractor.viewing import views as marks
from extractor.viewing.apart import DWARFED, apart
from extractor.viewing.axis import Axis, centre_lines
from extractor.viewing.clusters import prepare
from extractor.viewing.roles import assign
from extractor.viewing.views import View, is_frame, standing, views

INSIDE, OUTSIDE = 0.97, 1.03
BOTH = [(INSIDE, True), (OUTSIDE, False)]
AXIS = Axis((0.0, 0.0), (1.0, 0.0))


def found(ink):
    """The views of a sheet, best first."""
    sheet = sheet_of(ink)
    made = prepare(assign(sheet), sheet.segments)
    return apart(views(made, centre_lines(sheet.segments, made.size)))


def view(low=-60.0, high=0.0, reach=20.0, halves="both", share=1.0, **more):
    """A view on an axis along the sheet, `drawn` from and to where."""
    drawn = more.pop("drawn", ())
    axis = Axis((0.0, 0.0), (1.0, 0.0), drawn, marked=bool(drawn))
    return View(axis, low, high, reach, halves, share, (0,), **more)


@pytest.mark.parametrize(("share", "left_out"), BOTH)
def test_letters_are_no_views(share, left_out):
    """A figure of its own, symmetric and closed, but no larger than a letter beside the largest."""
    size = marks.LETTER_SIZE * math.hypot(60.0, 40.0) * share
    side = size / math.sqrt(2)
    house = [(70.0, 0.0, 0.0), (70.0 + side, 0.0, 0.0), (70.0 + side, side, 0.0), (70.0, side, 0.0)]
    seen = found(mixed(full_outline(shaft(), None), Ink().chain(house, close=True)))
    assert (len(seen) == 1) is left_out


SMALL = marks.SMALL * math.hypot(60.0, 40.0)


@pytest.mark.parametrize(
    ("count", "side", "off", "letters"),
    [
        (20, 2.0, 0.0, True),
        (19, 2.0, 0.0, False),
        (20, 2.0, 0.079, True),
        (20, 2.0, 0.084, False),
        (20, 0.97 * SMALL / math.sqrt(2), 0.0, True),
        (20, 1.03 * SMALL / math.sqrt(2), 0.0, False),
    ],
)
def test_a_score_of_small_figures_of_one_height_are_letters(count, side, off, letters):
    """One of them is higher and wider by `off`."""
    sides = [side + off, *[side] * (count - 1)]
    figures = [box(10.0 * k, 40.0, 10.0 * k + size, 40.0 + size) for k, size in enumerate(sides)]
    sheet = sheet_of(mixed(full_outline(shaft(), None), *figures))
    made = prepare(assign(sheet), sheet.segments)
    assert len(marks._in_rows(made)) == (count if letters else 0)


@pytest.mark.parametrize(("count", "share", "view"), [(20, 1.01, True), (20, 0.99, False), (19, 0.99, True)])
def test_beside_letters_nothing_as_small_as_they_are_is_a_view(count, share, view):
    """Figures 2 high and wide, 2.83 across the corners, and one more of its own size."""
    side = marks.AS_LETTERS * 2.0 * share
    figures = [box(10.0 * k, 40.0, 10.0 * k + 2.0, 42.0) for k in range(count)]
    sheet = sheet_of(mixed(full_outline(shaft(), None), *figures, box(-30.0, 60.0, side - 30.0, 60.0 + side)))
    made = prepare(assign(sheet), sheet.segments)
    assert (round(made.clusters[1].diagonal, 6), 1 in marks._big(made, ())) == (round(side * math.sqrt(2), 6), view)


def test_flat_cells_of_a_list_are_as_small_as_they_are_high():
    """Twenty cells 6 wide and 1 high beside a view 4 across: no letters 6 high."""
    figures = [box(10.0 * k, 40.0, 10.0 * k + 6.0, 41.0) for k in range(20)]
    sheet = sheet_of(mixed(full_outline(shaft(), None), *figures, box(-30.0, 60.0, -26.0, 64.0)))
    made = prepare(assign(sheet), sheet.segments)
    small = [k for k, c in enumerate(made.clusters) if math.isclose(c.diagonal, 4 * math.sqrt(2))]
    assert len(small) == 1
    assert small[0] in marks._big(made, ())


@pytest.mark.parametrize(("share", "border"), [(OUTSIDE, True), (INSIDE, False)])
def test_a_rectangle_round_a_figure_is_a_border(share, border):
    """The border's diagonal is 500; the figure within it is just so large."""
    size = marks.FRAMED * 500.0 * share / math.sqrt(2)
    ink = mixed(box(0, 0, 400, 300), box(180.0, 140.0, 180.0 + size, 140.0 + size))
    sheet = sheet_of(ink)
    made = prepare(assign(sheet), sheet.segments)
    (large,) = [c for c in made.clusters if c.diagonal > 400]
    assert marks._is_border(made, large, ()) is border


@pytest.mark.parametrize(("share", "border"), [(OUTSIDE, True), (INSIDE, False)])
def test_a_rectangle_that_a_centre_line_reaches_is_none(share, border):
    stop = 400.0 - marks.BORDER * 500.0 * share
    sheet = sheet_of(mixed(box(0, 0, 400, 300), box(100, 100, 300, 200)))
    made = prepare(assign(sheet), sheet.segments)
    (large,) = [c for c in made.clusters if c.diagonal > 400]
    line = Axis((50.0, 150.0), (1.0, 0.0), ((0.0, stop - 50.0),), marked=True)
    assert marks._is_border(made, large, (line,)) is border


@pytest.mark.parametrize(("share", "border"), [(OUTSIDE, True), (INSIDE, False)])
@pytest.mark.parametrize("place", [0.0, 150.0, 300.0])
def test_such_a_line_runs_through_its_middle_or_along_a_side(place, share, border):
    """That of an end view may run out of a border anywhere."""
    sheet = sheet_of(mixed(box(0, 0, 400, 300), box(100, 100, 300, 200)))
    made = prepare(assign(sheet), sheet.segments)
    (large,) = [c for c in made.clusters if c.diagonal > 400]
    off = alike.ONE_PLACE * 500.0 * share
    line = Axis((50.0, abs(place - off)), (1.0, 0.0), ((0.0, 400.0),), marked=True)
    assert marks._is_border(made, large, (line,)) is border


@pytest.mark.parametrize(("share", "whole"), [(1.001, True), (0.999, False)])
def test_a_view_symmetric_to_most_of_its_boundary_ranks_first(share, whole):
    drawn = ((-65.0, 5.0),)
    assert (standing(view(share=marks.FAIR * share, drawn=drawn)).figure == 0) is whole


@pytest.mark.parametrize(("share", "fits"), BOTH)
def test_a_centre_line_drawn_for_a_view_sticks_out_a_little(share, fits):
    out = marks.STICKS_OUT * 60.0 * share
    for drawn in ((-60.0 - out, 5.0), (-65.0, out)):
        assert marks.fits(view(drawn=(drawn,))) is fits


@pytest.mark.parametrize(("share", "fits"), [(1.001, True), (0.999, False)])
def test_it_is_drawn_along_nearly_all_of_it(share, fits):
    assert marks.fits(view(drawn=((-60.0, -60.0 + marks.FITTED * 60.0 * share),))) is fits


def stands(gap):
    """A half with feet at both ends whose ends stop short of the centre line by so much."""
    ink = Ink().chain([(0.0, gap, 0.0), (0.0, 20.0, 0.0), (-60.0, 20.0, 0.0), (-60.0, gap, 0.0)])
    ink.chain(
        [(0.0, gap, 0.0), (-5.0, gap, 0.0), (-5.0, 4.0, 0.0), (-55.0, 4.0, 0.0), (-55.0, gap, 0.0), (-60.0, gap, 0.0)]
    )
    ink.centre.append((5.0, 0.0, -65.0, 0.0, 0.0))
    return ink


@pytest.mark.parametrize(("share", "touches"), BOTH)
def test_a_half_stands_on_its_axis(share, touches):
    (seen,) = found(stands(alike.ONE_PLACE * math.hypot(60.0, 20.0) * share))
    assert seen.touches is touches


@pytest.mark.parametrize(("share", "half"), BOTH)
def test_a_half_reaches_over_its_axis_by_no_more_than_a_pens_error(share, half):
    ink = stands(0.0)
    over = marks.ONE_SIDE * math.hypot(60.0, 20.0) * share
    ink = ink.map(lambda x, y: (x, y - over))
    ink.centre = [(5.0, 0.0, -65.0, 0.0, 0.0)]
    assert any(v.halves == "up" for v in found(ink)) is half


@pytest.mark.parametrize(("share", "half"), BOTH)
def test_a_half_with_lines_far_over_its_axis_is_an_open_view(share, half):
    ink = half_profile(shaft())
    ink.solid.append((0.0, 0.0, 0.0, -marks.STRAYS * 20.0 * share, 0.0))
    assert any(v.halves == "up" for v in found(ink)) is half


@pytest.mark.parametrize(("share", "one"), BOTH)
def test_two_halves_of_one_part_are_as_long(share, one):
    up, down = view(halves="up"), view(halves="down")
    for end in ("low", "high"):
        off = marks.ONE_LENGTH * up.size * share
        other = view(halves="down", **{end: getattr(down, end) + off})
        assert (marks._joined(up, other) is not None) is one


@pytest.mark.parametrize(("share", "one"), [(0.99, True), (1.01, False)])
def test_two_halves_of_one_part_are_about_as_high(share, one):
    low = 20.0 * (1 - marks.UNLIKE_REACH * share)
    joined = marks._joined(view(halves="up"), view(halves="down", reach=low))
    assert (joined is not None) is one
    assert joined is None or (joined.joined and joined.reach == 20.0)


@pytest.mark.parametrize(("share", "kept"), [(INSIDE, False), (OUTSIDE, True)])
def test_a_small_frame_beside_a_view_is_none(share, kept):
    """It lies clear of an axis that is not drawn along it; only what is drawn of it counts, not the way to the axis."""
    large = view(drawn=((-65.0, 5.0),))
    wide = DWARFED * large.size * share
    small = View(Axis((200.0, 0.0), (0.0, 1.0)), 0.0, wide, 50.0, "up", 0.0, (1,), touches=False)
    assert (small in apart([large, small])) is kept


WITHIN = {"low": -30.0, "high": -10.0, "reach": 5.0, "drawn": ((-65.0, 5.0),), "joined": True}


@pytest.mark.parametrize(
    ("around", "kept"),
    [
        ({}, False),
        ({"low": -29.0}, True),
        ({"high": -11.0}, True),
        ({"reach": 4.0}, True),
        ({"halves": "up"}, True),
        ({"low": -200.0, "high": 100.0, "reach": 90.0}, True),  # a border: the centre line ends far within it
    ],
)
def test_two_unlike_halves_within_a_view_are_lines_of_it(around, kept):
    """The lines of a keyway on the axis, the ends of which lie on a layer for sizes, rest on it as two halves do."""
    lines, whole = replace(view(**WITHIN), members=(1,)), view(**{"drawn": WITHIN["drawn"], **around})
    assert (lines in apart([lines, whole])) is kept
    assert lines in apart([lines, replace(whole, joined=True)])
    assert replace(lines, joined=False) in apart([replace(lines, joined=False), whole])
    one_half = replace(lines, joined=False, halves="down")
    assert (one_half in apart([one_half, whole])) is kept


def test_plain_rectangles_clear_of_an_axis_are_a_frame():
    ink = mixed(full_outline(Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))), box(-40.0, 50.0, -20.0, 60.0))
    sheet = sheet_of(ink)
    made = prepare(assign(sheet), sheet.segments)
    (plain,) = [k for k, c in enumerate(made.clusters) if c.plain]
    table = View(AXIS, -40.0, -20.0, 60.0, "up", 0.2, (plain,), touches=False)
    assert is_frame(made, table)
    assert not is_frame(made, View(AXIS, -40.0, -20.0, 60.0, "up", 0.2, (plain,)))


@pytest.mark.parametrize(("beside", "bored"), [(0.0005, False), (0.029, False), (0.031, True)])
def test_a_centre_line_drawn_beside_the_middle_by_a_pens_error_bounds_no_bore(beside, bored):
    """0.0003 of a view 100 long: 0.03. The line is plain, as where a program knows no line types."""
    part = Turned(((100.0, 40.0),), (Cut(-30.0, 3.0, 34.0),))
    ink = full_outline(part)
    ink.solid += [(5.0, beside, -105.0, beside, 0.0), (0.0, 20.0, 0.0, -20.0, 0.0)]
    reading = read_sheet(sheet_of(ink), ReadOptions(units="mm"))
    assert [g.floor_diameter for g in reading.part.grooves] == [34.0]
    assert (reading.part.bore is not None) is bored


@pytest.mark.parametrize(("share", "seen"), [(0.99, False), (1.01, True)])
def test_a_half_is_one_where_the_axis_is_drawn_along_most_of_it(share, seen):
    """The shaft is 60 long. What is seen as a half is asked about; where none is seen there is no view at all."""
    ink = half_profile(shaft())
    ink.solid = [stroke for stroke in ink.solid if stroke[1] or stroke[3]]
    ink.centre = [(0.0, 0.0, -60.0 * marks.MOSTLY * share, 0.0, 0.0)]
    told = read_sheet(sheet_of(ink), ReadOptions(units="mm")).findings
    assert [f.code for f in told] == (["not-turned"] if seen else ["no-turned-part"])
