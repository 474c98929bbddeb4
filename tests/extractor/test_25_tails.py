"""Narrow dimensions of loose lines side by side: each on one line from tail to tail, the tails over the next line."""

import math

import numpy as np
import pytest
from support.draw import Cut, Turned, half_profile, sheet_of, side_view
from support.varied import all_pairs, each_in_turn

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Circle, Source, Text
from extractor.viewing.arrows import arrows, to_points
from extractor.viewing.in_line import past_mark, through_ticks
from extractor.viewing.tips import tips_of

HIGH = 3.0
WIDTHS = ((-10.0, -14.0), (-20.0, -23.0), (-27.5, -33.0))


def strokes(*rows):
    data = np.array(rows, dtype=float)
    return Strokes(data, np.zeros(len(data)), np.arange(len(data), dtype=np.int64))


def ticks(near, far, y):
    return [(x - 1, y - 1, x + 1, y + 1) for x in (near, far)]


def head(x, y, toward, long=2.5):
    """A closed head with its tip on (x, y) that points to the left (-1) or right (1)."""
    corners = [(x, y), (x - long * toward, y + 0.4), (x - long * toward, y - 0.4)]
    return [(*corners[k], *corners[(k + 1) % 3]) for k in range(3)]


def heads(near, far, y):
    return head(near, y, -1) + head(far, y, 1)


def row_of(marks, words, tail, y=-32.0):
    """A shaft with three grooves whose widths stand in one row."""
    ink, texts = side_view(Turned(((60.0, 40.0),), tuple(Cut(n, n - f, 34.0) for n, f in WIDTHS))), []
    for (near, far), text in zip(WIDTHS, words, strict=True):
        rows = [(near + tail, y, far - tail, y), *marks(near, far, y), *((x, -20.8, x, y - 1.2) for x in (near, far))]
        ink.solid += [(*row, 0.0) for row in rows]
        texts.append(Text(text, ((near + far) / 2 - 0.35 * HIGH * len(text), y + 0.6), HIGH))
    return read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm"))


@all_pairs(
    ("words", "stops"),
    [
        (("4", "3", "5.5"), []),
        (("4 +0.1/0", "3 +0.05/0", "5.5 +0.2/0"), []),
        (("4", "3.5", "5.5"), ["dimension-contradicts"]),
        (("5", "3", "5.5"), ["dimension-contradicts"]),
    ],
    marks=[ticks, heads],
    tail=[4.0, 6.0, 7.5],
)
def test_widths_side_by_side_are_each_held_and_kept(marks, tail, words, stops):
    """With tails of 6 one ends at the next tick, with 7.5 the first and the third leave a gap amid the second."""
    reading = row_of(marks, words, tail)
    assert [f.code for f in reading.findings if f.stops] == stops
    if not stops:
        assert [g.width for g in reading.part.grooves] == [4.0, 3.0, 5.5]
        assert all("width" in g.printed for g in reading.part.grooves)
        upper = [float(w.split("+")[1][:-2]) if "+" in w else None for w in words]
        assert [g.tolerances.get("width", (0, None))[1] for g in reading.part.grooves] == upper
        assert not [f.code for f in reading.findings if f.code in ("tolerance-unread", "lines-unexplained")]


def test_heads_back_to_back_with_one_base_are_two():
    """4 wide, then 3, heads of 2.5 in a land of 5 between them."""
    rows = [(-8, 20, 10, 20), *heads(4, 0, 20), (1, 20, 18, 20), *heads(12, 9, 20)]
    rows += [(x, 5, x, 21) for x in (0, 4, 9, 12)]
    told = arrows(strokes(*rows), 1e-6)
    assert sorted(sorted(x for x, _ in one.ends) for one in told.facing) == [[0, 4], [9, 12]]


@pytest.mark.parametrize("own", [True, False])
def test_a_line_with_a_head_of_its_own_is_not_drawn_on_through_the_base_of_another(own):
    rows = [(20, 0, 2.5, 0), *head(0, 0, -1), *(head(2.5, 0, -1) if own else [])]
    assert to_points(strokes(*rows), 1e-3).ends[0].tolist() == [20, 0, 2.5 if own else 0, 0]


def slanted(x, turn=math.pi / 4, off=0.0, long=2.0):
    """A stroke across a place, its middle `off` above it."""
    c, s = math.cos(turn) * long / 2, math.sin(turn) * long / 2
    return (x - c, off - s, x + c, off + s)


def between(*marks, line=(-10.0, 0.0, 14.0, 0.0)):
    found = through_ticks(tips_of(strokes(line, *marks), 1e-6), 0)
    return found and [round(x, 9) for x, _ in found.ends]


@pytest.mark.parametrize(
    ("marks", "ends"),
    [
        ([slanted(0), slanted(4)], [0, 4]),
        ([slanted(0)], None),
        ([slanted(-10), slanted(0), slanted(4)], [0, 4]),
        ([slanted(0), slanted(4), slanted(8), slanted(12)], [0, 4]),
        ([slanted(-8), slanted(-4), slanted(0), slanted(4)], [0, 4]),
        ([slanted(-10), slanted(0), slanted(4), slanted(14)], None),
        ([slanted(0), slanted(0), slanted(4)], [0, 4]),
        ([slanted(0), slanted(16)], None),
    ],
)
def test_a_line_through_ticks_lies_between_the_two_nearest_to_its_middle(marks, ends):
    assert between(*marks) == ends


@pytest.mark.parametrize(
    ("inside", "outside"),
    [
        ({"turn": math.radians(25.5)}, {"turn": math.radians(24.5)}),
        ({"turn": math.radians(64.5)}, {"turn": math.radians(65.5)}),
        ({"off": 0.39}, {"off": 0.41}),
    ],
)
def test_how_a_tick_stands_on_a_line_through_it(inside, outside):
    """Slanted by 25 to 65 degrees, its middle within a fifth of its length, which is 2 here."""
    assert between(slanted(0), slanted(4, **inside)) == [0, 4]
    assert between(slanted(0), slanted(4, **outside)) is None


def crowded(step, high, *, limits, left=0.0, sizes=("4", "4", "4")):
    """A shaft with three grooves 4 wide, a step apart: their widths in one row, each with two tails 2.5 long.

    Limits stand over one another, or deviations behind the size; all begin `left` letter heights before their place.
    """
    places = [(-10.0 - step * k, -14.0 - step * k) for k in range(3)]
    ink, texts, y = side_view(Turned(((60.0, 40.0),), tuple(Cut(n, n - f, 34.0) for n, f in places))), [], 32.0
    for (near, far), size in zip(places, sizes, strict=True):
        rows = [*head(near, y, -1), *head(far, y, 1), (near, y, far, y), (near + 2.5, y, near + 5, y)]
        rows += [(far - 2.5, y, far - 5, y), *((x, 20.8, x, y + 1.2) for x in (near, far))]
        ink.solid += [(*row, 0.0) for row in rows]
        words = [f"{size}.10", f"{size}.00"] if limits else [f"{size} +0.1/0"]
        begin = (near + far) / 2 - 0.35 * high * len(words[0]) - left * high
        texts += [Text(t, (begin, y + up * high), high) for t, up in zip(words, (2.0, 0.44), strict=False)]
    return read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm"))


@each_in_turn(
    ("step", "high", "limits"),
    [(s, h, True) for s in (10.0, 12.0) for h in (2.0, 2.5, 3.0)]
    + [(s, h, False) for s in (14.0, 16.0) for h in (2, 2.5)],
    left=[0.0, 0.2, 0.4],
)
def test_a_size_that_begins_over_the_tail_of_the_next_line_is_that_of_its_own(step, high, limits, left):
    reading = crowded(step, high, limits=limits, left=left)
    assert [g.tolerances.get("width") for g in reading.part.grooves] == [pytest.approx((0.0, 0.1))] * 3
    assert all("width" in g.printed for g in reading.part.grooves)
    assert [f.code for f in reading.findings if f.level != "note"] == []


@all_pairs(("step", "limits"), [(10.0, True), (16.0, False)], high=[2.0, 2.5], odd=[0, 1, 2])
def test_one_that_contradicts_is_told_of_its_own_line(odd, step, limits, high):
    sizes = ["5" if k == odd else "4" for k in range(3)]
    told = [f for f in crowded(step, high, limits=limits, sizes=sizes).findings if f.stops]
    assert {(str(f.code), f.groove) for f in told} == {("dimension-contradicts", odd + 1)}


@all_pairs(tick=[1.0, 1.5, 2.0, 2.4], wide=[2.0, 3.0], aside=[-0.5, 0.5])
def test_ticks_across_the_walls_of_a_narrow_groove_are_those_of_its_floor_alone(aside, wide, tick):
    """The walls, drawn right across as edges, lie within a fifth of a tick from its middle; the text lies between."""
    ink = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, wide, 34.0),)))
    z = -10.0 - wide / 2
    rows = [(z, -17.0, z, 17.0), *((z - tick, r - tick, z + tick, r + tick) for r in (17.0, -17.0))]
    ink.solid += [(*row, 0.0) for row in rows]
    text = Text("\u00d834 0/-0.2", (z + aside, -10.0), 2.5, angle=90.0)
    (groove,) = read_sheet(sheet_of(ink, texts=(text,)), ReadOptions(units="mm")).part.grooves
    assert groove.tolerances == {"floor_diameter": (-0.2, 0.0)}


def between_sizes(inner, outer):
    """Half a shaft with two grooves, the width of the first over it, and the way to the wall of it farther out.

    Both extension lines at that wall begin at the land; the lines stand so far from it.
    """
    ink = half_profile(Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-30.0, 4.0, 34.0))))
    rows = [(x, 20.6, x, 20.0 + inner + 1.2) for x in (-10.0, -14.0)]
    rows += [(x, 20.6, x, 20.0 + outer + 1.2) for x in (-10.0, 0.0)]
    rows += [(-14.0, 20.0 + inner, -10.0, 20.0 + inner), (-10.0, 20.0 + outer, 0.0, 20.0 + outer)]
    rows += [*head(-14.0, 20.0 + inner, 1), *head(-10.0, 20.0 + inner, -1)]
    rows += [(-16.5, 20.0 + inner, -19.0, 20.0 + inner), (-7.5, 20.0 + inner, -5.0, 20.0 + inner)]
    rows += [*head(-10.0, 20.0 + outer, -1), *head(0.0, 20.0 + outer, 1)]
    ink.solid += [(*row, 0.0) for row in rows]
    texts = (Text("4 H13", (-16.4, 20.5 + inner), 2.5), Text("10", (-6.75, 20.5 + outer), 2.5))
    return read_sheet(sheet_of(ink, texts=texts), ReadOptions(units="mm"))


@pytest.mark.parametrize("inner", [2.0, 3.0, 6.0])
@pytest.mark.parametrize("outer", [14.0, 24.0, 60.0])
def test_a_width_begins_where_its_own_extension_lines_do(inner, outer):
    """Not at the far end of the next size's, which runs on beyond the width's line and out of the view."""
    reading = between_sizes(inner, outer)
    groove = reading.part.grooves[0]
    assert groove.tolerances["width"] == (0.0, 0.18)
    assert ("width" in groove.printed, [d.nominal for d in reading.part.distances]) == (True, [10.0])
    assert [f.code for f in reading.findings if f.level != "note"] == []


@all_pairs(
    ("words", "stops"),
    [("3", []), ("4", ["dimension-contradicts"])],
    gap=[0.0, 0.5],
    second=[(), (12.0,)],
    step=[7.0, 10.0, 13.0],
)
def test_ticks_in_even_steps_are_no_hatching_and_tails_no_outline(step, second, gap, words, stops):
    """Rows of sizes as far above the part as below it, each line with a tail at either end, or two over one another."""
    ink, texts = side_view(Turned(((60.0, 40.0),), tuple(Cut(n, 3.0, 34.0) for n in (-10.0, -30.0)))), []
    sizes = [(-10, 0, 30, "10"), (-30, -10, 30 + step, "20"), (-13, -10, 30 + 2 * step, words)]
    for a, b, y, text in (*sizes, (-60, 0, -30, "60"), (-30, 0, -30 - step, "30")):
        up = math.copysign(1.0, y)
        rows = [(x, up * (20.0 + gap), x, y + up) for x in (a, b)]
        rows += [(x - 0.8, y - 0.8, x + 0.8, y + 0.8) for x in (a, b)]
        rows += [(a, y, b, y), (b, y, b + 5.0, y), *((a - long, y, a, y) for long in (5.0, *second))]
        ink.solid += [(*row, 0.0) for row in rows]
        texts.append(Text(text, ((a + b) / 2 - 1.0, y + 0.8), 2.0))
    reading = read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm"))
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert (reading.part.outer_diameter, reading.part.length) == (40, 60)
    assert [f.code.value for f in reading.findings if f.level != "note"] == stops


@all_pairs(
    ("width", "place", "stops"),
    [
    ("3", "10", []), ("4", "10", ["dimension-contradicts"]), ("3", "11", ["dimension-contradicts"]),
],
    over=[1.0, 3.0],
    centre=[5.0, None],
    up=[1, -1],
)  # fmt: skip
def test_a_width_under_a_size_farther_out_from_the_same_place_is_held(width, place, stops, up, centre, over):
    """Its extension line lies under that of the other, and runs on by `over` with letters 2.5 high.

    Without a centre line of its own pen the axis is a plain line out of the part, as many programs export it.
    """
    ink, texts = side_view(Turned(((60.0, 40.0),), tuple(Cut(n, 3.0, 34.0) for n in (-10.0, -30.0))), centre), []
    ink.solid += [] if centre else [(5.0, 0.0, -65.0, 0.0, 0.0)]
    for a, b, y, words in ((-13.0, -10.0, 30.0, width), (-10.0, 0.0, 45.0, place)):
        ink.solid += [(x, up * 20.8, x, up * (y + over), 0.0) for x in (a, b)]
        ink.solid += [(*row, 0.0) for row in (*head(a, up * y, 1), *head(b, up * y, -1))]
        ink.solid += [
            (a, up * y, b, up * y, 0.0),
            (a, up * y, a - 15.0, up * y, 0.0),
            (b, up * y, b + 6.0, up * y, 0.0),
        ]
        texts.append(Text(words, (a - 13.0, up * y + 0.8), 2.5))
    reading = read_sheet(sheet_of(ink, texts=tuple(texts)), ReadOptions(units="mm"))
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert [f.code.value for f in reading.findings if f.stops] == stops


@all_pairs(
    ("words", "stops"),
    [
    ("%s", []), ("%s \u00b10.1", []), ("%s TYP", []), ("false", ["dimension-contradicts"]),
],
    marks=[ticks, heads],
    side=[1, -1],
    upright=[False, True],
)  # fmt: skip
def test_a_size_on_a_tail_that_runs_on_from_its_marked_line_is_held(words, stops, upright, side, marks):
    """The heads stand inside, or ticks at the ends, and the figure on a tail beside, as where there is no room.

    The floor of the first groove, 34, upright beside the part; the place of its wall, 10, under it.
    """
    ink = side_view(Turned(((60.0, 40.0),), tuple(Cut(n, 3.0, 34.0) for n in (-10.0, -30.0))))
    size, false = ("\u00d834", "\u00d835") if upright else ("10", "11")
    text = false if words == "false" else words % size
    if upright:
        lines = [(-80.0, -17.0, -80.0, 17.0), (-80.0, side * 17.0, -80.0, side * 50.0)]
        for s in (1, -1):
            point, back = (-80.0, s * 17.0), s * 14.5
            lines += [(-13.5, s * 17.0, -81.0, s * 17.0)]
            lines += [(-81.0, s * 17.0 - 1, -79.0, s * 17.0 + 1)] if marks is ticks else []
            lines += (
                [(*point, -80.4, back), (*point, -79.6, back), (-80.4, back, -79.6, back)] if marks is heads else []
            )
        at, angle = (-80.8, 20.0 if side > 0 else -48.0), 90.0
    else:
        y = -34.0
        lines = [(x, -20.8, x, y - 1.2) for x in (-10.0, 0.0)] + [(-10.0, y, 0.0, y)]
        lines += [(0.0, y, 34.0, y)] if side > 0 else [(-10.0, y, -44.0, y)]
        lines += ticks(0.0, -10.0, y) if marks is ticks else [*head(0.0, y, 1), *head(-10.0, y, -1)]
        at, angle = (3.0 if side > 0 else -42.0, y + 0.8), 0.0
    ink.solid += [(*row, 0.0) for row in lines]
    reading = read_sheet(sheet_of(ink, texts=(Text(text, at, HIGH, angle=angle),)), ReadOptions(units="mm"))
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert [f.code.value for f in reading.findings if f.stops] == stops


def moved_aside(pieces, toward, words, wide=8.0, more=()):
    """A shaft with a groove 8 wide from Z-10 whose size stands over a tail of its line, which lies in some pieces.

    Its heads point out of the groove (1) or into it (-1).
    """
    ink, y = side_view(Turned(((60.0, 40.0),), (Cut(-10.0, wide, 34.0),))), -32.0
    near, far = -10.0, -10.0 - wide
    rows = [*head(near, y, toward), *head(far, y, -toward), *((x, -20.8, x, y - 1.2) for x in (near, far))]
    rows += [(a, y, b, y) for a, b in pieces]
    ink.solid += [(*row, 0.0) for row in (*rows, *more)]
    tail = max(x for piece in pieces for x in piece)
    at = tail - 12.0 if tail > near else min(x for piece in pieces for x in piece)
    return read_sheet(sheet_of(ink, texts=(Text(words, (at, y + 0.8), 2.5),)), ReadOptions(units="mm"))


IN_PIECES = [
    # The heads point out of the groove, and the line runs on past one of them.
    ([(-18.0, 6.0)], 1), ([(-34.0, -10.0)], 1), ([(6.0, -18.0)], 1), ([(-34.0, -18.0), (-18.0, -10.0)], 1),
    # They point into it: one line, two pieces that meet at a head, or three.
    ([(-24.0, 6.0)], -1), ([(-24.0, -18.0), (-18.0, 6.0)], -1), ([(-24.0, -10.0), (-10.0, 6.0)], -1),
    ([(-34.0, -18.0), (-18.0, -4.0)], -1), ([(-24.0, -18.0), (-18.0, -10.0), (-10.0, 6.0)], -1),
    ([(-24.0, -18.0), (-10.0, 6.0)], -1),
]  # fmt: skip


@pytest.mark.parametrize(("pieces", "toward"), IN_PIECES)
def test_a_size_over_a_tail_is_that_between_the_heads_however_its_line_is_cut(pieces, toward):
    """Where a line is cut into pieces is the hand's or the program's choice (common practice, no source)."""
    reading = moved_aside(pieces, toward, "8 +0.1/0")
    assert [g.tolerances for g in reading.part.grooves] == [{"width": (0.0, 0.1)}]
    assert [f.code for f in reading.findings if f.level != "note"] == []


@pytest.mark.parametrize(("pieces", "toward"), IN_PIECES)
def test_a_false_one_is_told(pieces, toward):
    assert [f.code for f in moved_aside(pieces, toward, "9 +0.1/0").findings if f.stops] == ["dimension-contradicts"]


@pytest.mark.parametrize(("off", "level"), [(0.0, True), (1.0, False)])
def test_pieces_are_one_line_where_they_are_in_line(off, level):
    """A tail that leans away is another line: 1 in 14 is far more than drawn lines are off."""
    ink = [(-24.0, 0.0, -18.0, 0.0), (-18.0, 0.0, -4.0, off), *head(-18, 0, 1), *head(-10, 0.0, -1)]
    told = arrows(strokes(*ink, *((x, -5, x, 1.2) for x in (-10, -18))), 1e-6)
    assert bool(told.facing) == level


@pytest.mark.parametrize("long", [4.0, 6.0, 7.5, 9.0])
def test_a_tail_over_the_heads_of_the_next_line_is_no_line_to_them(long):
    """Each line has two tails and its middle; those of 6 and more end at the next head or run on over it."""

    def tails(near, far, y):
        return [*heads(near, far, y), (near, y, near + long, y), (far, y, far - long, y)]

    reading = row_of(tails, ("4 +0.1/0", "3 +0.05/0", "5.5 +0.2/0"), 0.0)
    assert [g.tolerances.get("width") for g in reading.part.grooves] == [(0.0, 0.1), (0.0, 0.05), (0.0, 0.2)]


def marked_at(mark, x, y):
    """A tick through a place, or nothing where a dot is drawn about it."""
    return [(x - 1.0, y - 1.0, x + 1.0, y + 1.0, 0.0)] if mark == "tick" else []


def past(mark, size="\u00d834 -0.1", *, along=10.0, marks=(-17.0, 17.0), feet=(1, -1), end=39.0):
    """A shaft whose groove's floor is sized before the front: the line begins at a mark and runs on through one."""
    x, ink = 10.0, side_view(Turned(((60.0, 40.0),), (Cut(-12.0, 8.0, 34.0),)))
    ink.solid += [(x, -17.0, x, end, 0.0), *(line for y in marks for line in marked_at(mark, x, y))]
    ink.solid += [(-15.4, s * 17.0, x + 1.2, s * 17.0, 0.0) for s in feet]
    dots = tuple(Circle((x, y), 0.4, Source("1", "CIRCLE", "0")) for y in marks if mark == "dot")
    words = (Text(size, (x - 0.8, 17.0 + along - 5.0), 2.5, angle=90.0),)
    return read_sheet(sheet_of(ink, texts=words, circles=dots), ReadOptions(units="mm"))


@pytest.mark.parametrize("mark", ["tick", "dot"])
def test_a_size_over_a_tail_that_runs_on_through_a_tick_or_a_dot_is_that_of_its_line(mark):
    reading = past(mark)
    assert (reading.part.length, [f.code for f in reading.findings if f.stops]) == (60.0, [])
    (groove,) = reading.part.grooves
    assert groove.tolerances["floor_diameter"] == pytest.approx((-0.1, 0.0))


@pytest.mark.parametrize("mark", ["tick", "dot"])
@pytest.mark.parametrize(
    "change", [{"marks": (-17.0, 17.0, 30.0)}, {"marks": (17.0,)}], ids=["a third mark", "no mark at its end"]
)
def test_a_line_that_is_not_marked_so_has_no_such_tail(mark, change):
    (groove,) = past(mark, **change).part.grooves
    assert "floor_diameter" not in groove.tolerances


@pytest.mark.parametrize(("over", "known"), [(-0.1, False), (0.1, True)])
def test_the_middle_of_the_figure_stands_over_the_tail(over, known):
    """The line runs on through a tick at 8."""
    tips = tips_of(strokes((0, 0, 20, 0), slanted(0), slanted(8)), 1e-6)
    text = Text("1234", (8.0 - 0.5 * Text("1234", (0.0, 0.0), 2.0).width + over, 0.6), 2.0)
    found = list(past_mark(tips, [0], text, lambda tip: tip == 0, np.empty((0, 2))))
    assert bool(found) is known
    assert all(one.ends == ((0.0, 0.0), (8.0, 0.0)) for one in found)
