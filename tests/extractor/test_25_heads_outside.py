"""Narrow dimensions of loose lines: heads outside, their tails, the size over one of them, shared extension lines."""

import math
from dataclasses import replace

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, half_profile, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Dimension, DimensionKind, Segments, Sheet, Source, Text
from extractor.viewing.alike import SKEW
from extractor.viewing.arrows import OUTSIDE, arrows
from extractor.viewing.loose import AT_END, Loose, upon
from extractor.viewing.roles import LETTERED, MOST_ON_LAYERS, assign, with_loose
from extractor.viewing.tips import CLEAR

MM = ReadOptions(units="mm")
SIZE = 3.0
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-18.0, 2.0, 36.0)))
GROOVES = [(-10, -13, 34), (-18, -20, 36)]


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def head(x, y, turn, lean=9.0, shorter=0.0):
    """A closed head whose tip lies on (x, y), pointing along `turn` degrees; one side is `shorter` by that share."""
    sides = [(math.radians(turn + 180 + lean), SIZE), (math.radians(turn + 180 - lean), SIZE * (1 - shorter))]
    ends = [(x + size * math.cos(t), y + size * math.sin(t)) for t, size in sides]
    return [(x, y, *ends[0]), (x, y, *ends[1]), (*ends[0], *ends[1])]


def outside(left, right, y, tail=7.0, longer=0.0, drawn=True):
    """Heads outside at `left` and `right` with their tails, the left one `longer` for the text; a line between."""
    rows = [(right + tail, y, right, y), (left, y, left - tail - longer, y)]
    rows += [(right, y, left, y)] if drawn else []
    return [*rows, *head(right, y, 180), *head(left, y, 0)]


def extension(x, y, foot):
    """From a foot on the part, a millimetre clear of it, to just beyond the dimension line."""
    way = 1.0 if y > foot else -1.0
    return (x, foot + way, x, y + 1.4 * way)


@pytest.mark.parametrize("drawn", [True, False])
@pytest.mark.parametrize("turn", [0, 37, 90])
def test_two_heads_that_point_at_one_another_over_two_extension_lines_are_a_dimension(drawn, turn):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    rows = [*outside(0, 3, 20, drawn=drawn), extension(0, 20, 5), extension(3, 20, 5), (-20, 5, 20, 5)]
    told = arrows(strokes(*[(c * a - s * b, s * a + c * b, c * d - s * e, s * d + c * e) for a, b, d, e in rows]), 1e-6)
    lines = 3 if drawn else 2
    assert told.lines == frozenset(range(lines))
    assert told.heads == frozenset(range(lines, lines + 6))
    assert told.extensions == {lines + 6, lines + 7}
    (facing,) = told.facing
    assert facing.lines == told.lines
    assert sorted(math.dist(p, (0, 0)) for p in facing.ends) == pytest.approx([20, math.hypot(3, 20)])


def through(left, right, y, turn=0.0, **more):
    """Heads outside on one line that runs from tail to tail; the right one is turned out of it."""
    return [(right + 7.0, y, left - 7.0, y), *head(right, y, 180 + turn, **more), *head(left, y, 0)]


@pytest.mark.parametrize("turn", [0, 37, 90])
def test_one_line_may_run_through_both_heads(turn):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    rows = [*through(0, 3, 20), extension(0, 20, 5), extension(3, 20, 5), (-20, 5, 20, 5)]
    told = arrows(strokes(*[(c * a - s * b, s * a + c * b, c * d - s * e, s * d + c * e) for a, b, d, e in rows]), 1e-6)
    assert (told.lines, told.heads, told.extensions) == ({0}, frozenset(range(1, 7)), {7, 8})
    (facing,) = told.facing
    assert sorted(math.dist(p, (0, 0)) for p in facing.ends) == pytest.approx([20, math.hypot(3, 20)])


FEET = [extension(0, 20, 5), extension(3, 20, 5)]


def test_heads_on_a_line_through_both_may_be_open():
    """ISO 129-1 (from memory): an arrowhead may be filled, closed or open."""
    told = arrows(strokes(*[row for k, row in enumerate(through(0, 3, 20)) if k not in (3, 6)], *FEET), 1e-6)
    assert (told.lines, told.heads, told.extensions) == ({0}, frozenset(range(1, 5)), {5, 6})


@pytest.mark.parametrize("side", [1, 2])
def test_a_side_of_an_open_head_ends_in_the_air(side):
    rows = [row for k, row in enumerate(through(0, 3, 20)) if k not in (3, 6)]
    x, y = rows[side][2:]
    for gap, known in ((0.0, False), (0.1, True)):
        line = (x, y + gap, x + 2.0, y + 10.0)
        assert bool(arrows(strokes(*rows, line, *FEET), 1e-6).facing) is known


@pytest.mark.parametrize(
    ("inside", "outside"),
    [
        ({"lean": 3.1}, {"lean": 2.9}),
        ({"lean": 21.9}, {"lean": 22.1}),
        ({"shorter": 0.045}, {"shorter": 0.055}),
        ({"turn": 1.4}, {"turn": 1.6}),
    ],
)
def test_how_a_head_on_a_line_through_both_is_drawn(inside, outside):
    for more, known in ((inside, True), (outside, False)):
        assert bool(arrows(strokes(*through(0, 3, 20, **more), *FEET), 1e-6).facing) is known


def run_on(wide=8, left=0, right=7, y=20):
    """Heads inside, their line run on to the left and to the right of them."""
    return [(-left, y, wide + right, y), *head(0, y, 180), *head(wide, y, 0), extension(0, y, 5), extension(wide, y, 5)]


@pytest.mark.parametrize("pair", [(0, 7), (7, 0), (7, 5)])
def test_a_line_between_two_heads_that_runs_on_behind_one_or_both_lies_between_their_points(pair):
    told = arrows(strokes(*run_on(left=pair[0], right=pair[1])), 1e-6)
    assert [sorted(one.ends) for one in told.facing] == [[(0, 20), (8, 20)]]
    assert (told.lines, told.extensions) == ({0}, {7, 8})
    assert told.heads == set(range(1, 7))


@pytest.mark.parametrize(("wide", "known"), [(2.02 * SIZE, True), (1.98 * SIZE, False)])
def test_between_heads_inside_there_is_room_for_both(wide, known):
    """They lie 3 sides of 9 degrees long each, 0.988 of that along the line."""
    assert bool(arrows(strokes(*run_on(wide)), 1e-6).facing) is known


def test_a_third_head_on_such_a_line_makes_it_unclear_between_which_it_lies():
    rows = [*run_on(right=12), *head(16, 20, 0), extension(16, 20, 5)]
    assert arrows(strokes(*rows), 1e-6).facing == ()


@pytest.mark.parametrize(("gap", "known"), [(0.0, False), (0.1, True)])
@pytest.mark.parametrize("left", [0, 7])
def test_the_tail_of_such_a_line_ends_in_the_air(gap, known, left):
    """A wall that is drawn from rim to rim, with the heads of its floor's size on it, ends at both lands."""
    rows = [*run_on(left=left, right=7), (15 + gap, 20, 15 + gap, 30)]
    assert bool(arrows(strokes(*rows), 1e-6).facing) is known


@pytest.mark.parametrize("foot", [0, 1])
def test_such_a_line_has_two_extension_lines(foot):
    rows = run_on()
    assert arrows(strokes(*rows[: 7 + foot], *rows[8 + foot :]), 1e-6).facing == ()


@pytest.mark.parametrize("before", [5.0, 10.0, 25.0])
def test_a_diameter_before_the_front_whose_line_runs_on_makes_the_part_no_longer(before):
    """The extension lines run on from the floor of the groove; the figure stands on the tail."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-12.0, 8.0, 34.0),)))
    rows = [(before, -17, before, 39), *head(before, -17, 270), *head(before, 17, 90)]
    rows += [(-15.4, s * 17.0, before + 1.2, s * 17.0) for s in (1, -1)]
    ink.solid += [(*row, 0.0) for row in rows]
    size = Text("\u00d834 -0.1", (before - 0.8, 24.0), 3.0, angle=90.0)
    reading = read_sheet(sheet_of(ink, texts=(size,)), MM)
    assert reading.part.length == 60.0
    assert [f.code for f in reading.findings if f.stops] == []
    (groove,) = reading.part.grooves
    assert (groove.z_near, groove.printed) == (-12.0, {"floor_diameter"})


NO_THROUGH = {
    "looking away": [(10, 20, -7, 20), *head(3, 20, 0), *head(0, 20, 180), *FEET],
    "the right one looking away": [(10, 20, -7, 20), *head(3, 20, 0), *head(0, 20, 0), *FEET],
    "the left one looking away": [(10, 20, -7, 20), *head(3, 20, 180), *head(0, 20, 180), *FEET],
    "no extension line": [*through(0, 3, 20), FEET[0]],
    "room for both between": [
        *through(-OUTSIDE * SIZE * 1.02, 3, 20),
        extension(-OUTSIDE * SIZE * 1.02, 20, 5),
        FEET[1],
    ],
    "beside the line": [(10, 20.1, -7, 20.1), *through(0, 3, 20)[1:], *FEET],
    "one side of a head": [row for k, row in enumerate(through(0, 3, 20)) if k not in (2, 3)] + FEET,
}


@pytest.mark.parametrize("name", NO_THROUGH)
def test_what_is_no_line_through_two_heads(name):
    assert arrows(strokes(*NO_THROUGH[name]), 1e-6).facing == ()


def test_a_width_on_one_line_through_is_held_against_the_groove():
    """Printed 4 on a groove 3 wide; the number stands over the line."""
    ink = side_view(RING)
    ink.solid += [*[(*row, 0.0) for row in through(-13, -10, -32)], *[(x, -21, x, -33.4, 0.0) for x in (-13, -10)]]
    stops = [
        [f.code for f in read_sheet(sheet_of(ink, texts=(Text(words, (-12.5, -31.0), 2.5),)), MM).findings if f.stops]
        for words in ("3", "4")
    ]
    assert stops == [[], ["dimension-contradicts"]]


@pytest.mark.parametrize(("middle", "stops"), [("3", False), ("4", True)])
@pytest.mark.parametrize("aside", [0.0, 0.02])
def test_tails_that_run_into_one_another_are_no_line_of_the_size_between(middle, stops, aside):
    """Widths of 4, 3 and 4: the tails of the outer two are one stroke, which ends in a head on either side."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-20.0, 3.0, 34.0), Cut(-30.0, 4.0, 34.0))))
    rows, texts = [(-14, -32, -30, -32), (-34, -32, -44, -32), (0, -32, -10, -32)], []
    for far, near in ((-14, -10), (-23, -20), (-34, -30)):
        rows += [(near, -32, far, -32), *head(near, -32, 180), *head(far, -32, 0)]
        rows += [extension(x, -32, -20) for x in (near, far)]
    for figure, z in (("4", -12), (middle, -21.5 - aside), ("4", -32)):
        texts.append(Text(figure, at(z, -30), SIZE))
    ink.solid += [(*row, 0.0) for row in rows]
    found = read_sheet(sheet_of(ink, texts=tuple(texts)), MM).findings
    told = [f.message for f in found if f.stops]
    assert told == (
        ["A dimension prints 4 where the drawing measures 3 (width of groove 2): ask which is meant."] * stops
    )


@pytest.mark.parametrize(
    ("start", "end", "off", "within"),
    [
        (2.0, 5.0, 0.0, True),
        (2.0, 5.0, 0.0009, True),
        (2.0, 5.0, 0.0011, False),
        (5.0, 10.5, 0.0, False),
        (0.0, 9.9985, 0.0, True),
        (0.0, 9.9995, 0.0, False),
    ],
)
def test_a_line_lies_within_a_longer_one_within_a_ten_thousandth(start, end, off, within):
    whole = Dimension(DimensionKind.LINEAR, ((0.0, 0.0), (1.0, 0.0)), 0.0, 1.0, "4")
    line = Loose(0, frozenset(), whole, sure=True, says=False, away=0.0, ends=((start, off), (end, off)))
    assert upon(line, replace(line, ends=((0.0, 0.0), (10.0, 0.0)))) is within


def tick(x, y):
    """An oblique tick on an end of a dimension line."""
    return [(x - 1.0, y - 1.0, x + 1.0, y + 1.0)]


def in_gap(low, high, y, upright=False):
    """A line with heads at both ends and a gap in its middle, along the axis or across it at `y`."""
    a, b = (low + high) / 2 - 4, (low + high) / 2 + 4
    if upright:
        return [(y, low, y, a), (y, b, y, high), *head(y, low, 270), *head(y, high, 90)]
    return [(low, y, a, y), (b, y, high, y), *head(low, y, 180), *head(high, y, 0)]


def at(x, y):
    """Where a figure of one letter begins whose middle lies on a place."""
    return x - 0.35 * SIZE, y - 0.5 * SIZE


WIDE = [extension(x, -32, -20) for x in (-13, -10)]
TAILS = [(-3, -32, -10, -32), (-13, -32, -20, -32)]
LINES = {
    "runs on": [*through(-13, -10, -32), *[(x, -21, x, -50) for x in (-13, -10)]],
    "behind a tail": [*outside(-13, -10, -32, drawn=False), *WIDE],
    "behind a tail of ticks": [*TAILS, *tick(-10, -32), *tick(-13, -32), *WIDE],
    "in a gap": [*in_gap(-60, 0, -32), extension(0, -32, -20), extension(-60, -32, -20)],
    "in a gap across": in_gap(-17, 17, -11.5, upright=True),
}
"""A width of 3, the length of 60 and the floor of 34, with extension lines that run on or the figure in line."""
FIGURES = {
    "runs on": ("3", "4", (-12, -31)),
    "in a gap": ("60", "61", at(-31, -32)),
    "in a gap across": ("34", "33", at(-12.5, 0)),
}


@pytest.mark.parametrize("name", LINES)
def test_a_figure_in_line_with_its_dimension_line_is_held(name):
    """ISO 129-1 (from memory): a figure stands over its line, in a gap of it, or behind it where there is no room."""
    right, wrong, place = FIGURES.get(name, ("3", "4", at(-23, -32)))
    ink = side_view(RING)
    ink.solid += [(*row, 0.0) for row in LINES[name]]
    readings = [read_sheet(sheet_of(ink, texts=(Text(words, place, SIZE),)), MM) for words in (right, wrong)]
    assert [[f.code for f in r.findings if f.stops] for r in readings] == [[], ["dimension-contradicts"]]


@pytest.mark.parametrize(("words", "codes"), [("0.8", []), ("0.9", ["dimension-contradicts"])])
def test_ticks_may_be_far_longer_than_the_line_of_a_narrow_place(words, codes):
    """A groove 0.8 wide between ticks 2.8 long."""
    ends = (-10.0, -10.8)
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, 0.8, 38.0),)))
    rows = [
        (-5, -32, -16, -32),
        (-10.0, -32, -10.8, -32),
        *(r for x in ends for r in (extension(x, -32, -20), *tick(x, -32))),
    ]
    ink.solid += [(*row, 0.0) for row in rows[1:]]
    texts = (Text(words, (-10.4 - 1.05 * SIZE, -31.2), SIZE),)
    assert [f.code for f in read_sheet(sheet_of(ink, texts=texts), MM).findings if f.stops] == codes


@pytest.mark.parametrize(
    ("end", "known"), [(-4.0, True), (-9.9, True), (-10.1, False), (0.0, True), (0.019, True), (0.021, False)]
)
def test_half_a_diameter_s_line_ends_free_on_the_axis_or_a_little_beyond(end, known):
    """Half of 40 is 20; with a head and an extension line at the outline alone (ISO 129-1, from memory)."""
    codes = []
    for words in ("\u00d840", "\u00d842"):
        ink = side_view(RING)
        ink.solid += [(*row, 0.0) for row in [(10, 20, 10, end), (1, 20, 12, 20), *head(10, 20, 90)]]
        texts = (Text(words, (9.0, 6.0), SIZE, angle=90.0),)
        codes.append([f.code for f in read_sheet(sheet_of(ink, texts=texts), MM).findings if f.stops])
    assert codes == [[], ["dimension-contradicts"] * known]


@pytest.mark.parametrize("beyond", [0.0, -3.0])
def test_half_a_view_keeps_its_length_where_its_diameters_lines_end_on_the_axis(beyond):
    """Extension lines of outside and floor run out of the front, as a land there would that ends on the axis."""
    ink = half_profile(RING)
    sizes = ((40.0, 12.0, -30.0), (34.0, 20.0, -11.5))
    for d, x, z in sizes:
        rows = [(x, d / 2, x, beyond), (z, d / 2, x + 1.5, d / 2), *head(x, d / 2, 90)]
        ink.solid += [(*row, 0.0) for row in rows]
    texts = tuple(Text(f"\u00d8{d:g}", (x - 1, 6.0), SIZE, angle=90.0) for d, x, _ in sizes)
    reading = read_sheet(sheet_of(ink, texts=texts), MM)
    assert [f.code for f in reading.findings if f.stops] == []
    assert (reading.part.length, reading.part.outer_diameter) == (60.0, 40.0)
    assert "floor_diameter" in reading.part.grooves[0].printed


@pytest.mark.parametrize(("off", "in_line"), [(0.44, True), (-0.44, True), (0.46, False), (-0.46, False)])
def test_a_figure_stands_in_line_within_three_twentieths_of_its_height(off, in_line):
    """Its height is 3."""
    ink = side_view(RING)
    ink.solid += [(*row, 0.0) for row in LINES["behind a tail"]]
    (piece,) = assign(sheet_of(ink, texts=(Text("3", at(-23, -32 + off), SIZE),))).told.pieces
    assert (piece.away == 0.0) is in_line


def test_lines_that_run_into_the_next_are_widths_each():
    """Three grooves of 3, ten apart: the tail of one line ends at the head of the next."""
    ink = side_view(Turned(((60.0, 40.0),), tuple(Cut(-z, 3.0, 34.0) for z in (10.0, 20.0, 30.0))))
    texts = []
    for z in (-10, -20, -30):
        ink.solid += [(*row, 0.0) for row in (*through(z - 3, z, -32), *[extension(x, -32, -20) for x in (z - 3, z)])]
        texts.append(Text("3", at(z - 1.5, -30), SIZE))
    reading = read_sheet(sheet_of(ink, texts=tuple(texts)), MM)
    assert [f.code for f in reading.findings if f.stops] == []
    assert [sorted(g.printed) for g in reading.part.grooves] == [["width"]] * 3


@pytest.mark.parametrize("rows", [[], [extension(0, 20, 5)]])
def test_two_leaders_that_point_at_one_another_are_none(rows):
    told = arrows(strokes(*outside(0, 3, 20, drawn=False), *rows), 1e-6)
    assert (told.lines, told.extensions, told.facing) == (frozenset(), frozenset(), ())


def test_heads_beside_one_another_or_looking_away_are_no_pair():
    beside = [*head(0, 20, 0), (0, 20, -7, 20), *head(3, 20.1, 180), (3, 20.1, 10, 20.1)]
    away = [*head(0, 20, 180), (0, 20, 2, 20), *head(30, 20, 0), (30, 20, 28, 20)]
    for rows in (beside, away):
        feet = [extension(0, 20, 5), extension(3, 20, 5), extension(30, 20, 5)]
        assert arrows(strokes(*rows, *feet), 1e-6).facing == ()


@pytest.mark.parametrize(
    ("apart", "beside", "known"),
    [
        (0.99 * OUTSIDE * SIZE, 0.0, True),
        (1.01 * OUTSIDE * SIZE, 0.0, False),
        (3.0, 2.9 * SKEW, True),
        (3.0, 3.1 * SKEW, False),
    ],
)
def test_heads_outside_stand_near_one_another_and_in_line(apart, beside, known):
    rows = [(-7, 20, 0, 20), *head(0, 20, 0), (apart + 7, 20 + beside, apart, 20 + beside)]
    rows += [*head(apart, 20 + beside, 180), extension(0, 20, 5), extension(apart, 20 + beside, 5)]
    assert bool(arrows(strokes(*rows), 1e-6).facing) is known


def row_of_widths(side):
    """Both widths in one row, where the tail of one lies over the other, and the places from the front below it."""
    y = side * 30
    rows = [*outside(-13, -10, y, longer=3.0), *outside(-20, -18, y, longer=3.0)]
    rows += [extension(x, y, side * 20) for x in (-10, -13, -18, -20)]
    for x, at in ((-10, 38), (-18, 46)):
        rows += [(0, side * at, x, side * at), *head(0, side * at, 0), *head(x, side * at, 180)]
        rows += [extension(0, side * at, side * 20), extension(x, side * at, side * 20)]
    texts = [("3", (-22, y + 0.8)), ("2", (-29, y + 0.8)), ("10", (-5, side * 38 + 0.8)), ("18", (-9, side * 46 + 0.8))]
    return [(*row, 0.0) for row in rows], tuple(Text(text, at, SIZE) for text, at in texts)


@pytest.mark.parametrize("side", [1, -1])
def test_a_row_of_narrow_widths_is_no_outline_and_says_what_it_says(side):
    ink = side_view(RING)
    more, texts = row_of_widths(side)
    ink.solid += more
    reading = read_sheet(sheet_of(ink, texts=texts), MM)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == GROOVES
    assert [f.code for f in reading.findings if f.stops] == []
    assert [(sorted(g.printed), len(g.places)) for g in reading.part.grooves] == [(["width"], 1)] * 2


def test_a_width_that_is_printed_otherwise_than_drawn_is_still_held_against_it():
    ink = side_view(RING)
    more, texts = row_of_widths(-1)
    ink.solid += more
    wrong = (Text("3.4", texts[0].at, SIZE), *texts[1:])
    reading = read_sheet(sheet_of(ink, texts=wrong), MM)
    assert "dimension-contradicts" in [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize(("gap", "taken"), [(CLEAR * SIZE * 0.9, False), (CLEAR * SIZE * 1.1, True)])
def test_a_floor_drawn_with_gaps_at_its_ends_is_no_extension_line(gap, taken):
    """A dimension across the part ends at the near end of a floor that touches no wall by a pen's breadth."""
    rows = [(0, 15, 0, -15), *head(0, 15, 90), *head(0, -15, -90)]
    walls = [(-gap, 15, -gap, 20), (8 + gap, 15, 8 + gap, 20)]
    told = arrows(strokes(*rows, (0, 15, 8, 15), *walls), 1e-6)
    assert bool(told.extensions) is taken


def on_layers(dimension, border):
    """A line of 10 on the outline's layer, and so much on layers named for dimensions and for the frame."""
    roles = ("", "dimension", "border")
    sources = tuple(Source(f"{k}", "LINE", role or "0", role=role) for k, role in enumerate(roles))
    ends = np.array([(0, 0, 10, 0), (0, 5, dimension, 5), (0, -50, border, -50)], dtype=float)
    return Sheet("hand.dxf", "0" * 64, Segments(ends, np.zeros(3), np.arange(3), sources))


@pytest.mark.parametrize("border", [1.0, 900.0])
def test_a_border_does_not_say_that_the_names_of_the_other_layers_are_wrong(border):
    inside = 10 * MOST_ON_LAYERS / (1 - MOST_ON_LAYERS)
    for length, named in ((0.99 * inside, True), (1.01 * inside, False)):
        roles = assign(on_layers(length, border))
        assert (1 in roles.by_layer) is named


@pytest.mark.parametrize(("share", "named"), [(0.99, True), (1.01, False)])
def test_letters_drawn_as_lines_do_not_say_that_the_names_of_layers_are_wrong(share, named):
    """Strokes of a fiftieth of the diagonal, 21.9 here, or a little less, a thousand of them."""
    sources = tuple(Source(f"{k}", "LINE", role or "0", role=role) for k, role in enumerate(("", "dimension")))
    lines = [(0.0, 0.0, 20.0, 0.0), (0.0, 5.0, 20.0, 5.0), (0.0, 9.0, 20.0, 9.0)]
    lines += [(x, 1.0, x + share * LETTERED * math.hypot(20.0, 9.0), 1.0) for x in np.linspace(0.0, 19.0, 1000)]
    source = np.array([0, 0, *(1,) * 1001])
    sheet = Sheet("hand.dxf", "0" * 64, Segments(np.array(lines), np.zeros(len(lines)), source, sources))
    assert (2 in assign(sheet).by_layer) is named


@pytest.mark.parametrize(("share", "reached"), [(0.9, True), (1.1, False)])
def test_an_extension_line_passes_the_end_of_its_dimension_line(share, reached):
    """One beside the end is none of it, and the dimension then begins at the line itself."""
    beside = share * AT_END * 20
    rows = [(0, 30, 20, 30), *head(0, 30, 180), *head(20, 30, 0), (beside, 10, beside, 32), (20, 10, 20, 32)]
    laid = sheet_of(Ink([(*row, 0.0) for row in rows]), texts=(Text("20", (8, 30.8), SIZE),))
    (told,) = with_loose(laid).dimensions
    assert told.points[0][1] == (10 if reached else 30)


@pytest.mark.parametrize("size", [0.9, 3.0])
def test_a_leader_with_a_head_takes_nothing_of_the_outline_that_it_leads_to(size):
    """The foot stands where two small strokes of an outline meet, or two larger ones."""
    leg, shelf = (20, 20, 24, 34), (24, 34, 30, 34)
    outline = [(20 - size, 20 + size, 20, 20), (20, 20, 20 + size, 20 + size)]
    turn = math.degrees(math.atan2(-14, -4))
    rows = [leg, shelf, *outline, *head(20, 20, turn), (20 - size, 20 + size, -9, 25), (20 + size, 20 + size, 50, 22)]
    ink = Ink([(*row, 0.0) for row in rows])
    roles = assign(sheet_of(ink, texts=(Text("%%c34", (25, 34.5), SIZE),)))
    assert roles.aside == {0, 1}


def test_each_pair_of_heads_is_of_the_line_that_has_it_in_its_middle():
    """Three widths in a row, their tails so long that each runs on over the heads of its neighbours."""
    spans = [(0.0, 2.0), (5.5, 7.5), (11.0, 15.0)]
    rows = [row for low, high in spans for row in through(low, high, 20)]
    rows[::7] = [(low - 7.0, 20.0, high + 7.0, 20.0) for low, high in spans]
    told = arrows(strokes(*rows, *(extension(x, 20, 5) for span in spans for x in span)), 1e-6)
    ends = {tuple(sorted(x for x, _ in facing.ends)): facing.lines for facing in told.facing}
    assert ends == {span: frozenset({7 * k}) for k, span in enumerate(spans)}
