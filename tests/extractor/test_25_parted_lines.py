"""Dimension lines that their figure parts: two pieces, the figure in the gap (ISO 129-1 method 2, from memory)."""

import math
from itertools import pairwise

import numpy as np
import pytest
from support.draw import Cut, Turned, full_outline, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing import parted_lines
from extractor.viewing.parted_lines import AIR, ASIDE, HALF, IN_LINE, LONGEST

HEIGHT, WIDE = 2.5, 0.7 * 2.5
RING = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 3.0, 34.0)))


def strokes(*rows):
    data = np.array([(*row, 0.0)[:5] for row in rows], dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def parted(*rows, words="8", at=(0.0, 0.0)):
    """Which pieces of these strokes are put together about a text."""
    made, other = parted_lines.put_together(strokes(*rows), [Text(words, at, HEIGHT)], 1e-6)
    return {k: sorted(rest) for k, rest in other.items()} if len(made) < len(rows) else {}


LEFT, RIGHT = (-20.0, 1.0, -1.0, 1.0), (3.0, 1.0, 20.0, 1.0)


@pytest.mark.parametrize(
    ("rows", "words", "one"),
    [
        ((LEFT, RIGHT), "8", True),
        ((LEFT, RIGHT), "A", False),
        ((LEFT, RIGHT), "8" * LONGEST, True),
        ((LEFT, RIGHT), "8" * (LONGEST + 1), False),
        ((LEFT, RIGHT, (-1.0, 1.0, -1.0, 9.0)), "8", False),  # a corner
        ((LEFT, RIGHT, (-20.0, 1.0, -0.5, 1.0)), "8", False),  # a choice
        ((LEFT, (3.0, 1.0, 20.0, 1.0, 0.2)), "8", False),  # a bow
        ((LEFT, (1.75, 3.0, 1.75, 20.0)), "8", False),  # square to it
        ((LEFT, RIGHT, (-9.0, 1.0, 12.0, 1.0)), "8", False),  # tails of the neighbours of a third
        ((LEFT, RIGHT, (-9.0, 1.1, 12.0, 1.1)), "8", True),  # a line beside
        ((LEFT, RIGHT, (1.0, -9.0, 1.0, 12.0)), "8", True),  # one that crosses the gap
        (((-20.0, 1.0, -9.0, 1.0), (-8.0, 1.0, -1.0, 1.0)), "8", False),  # the text beside both
        ((LEFT, RIGHT, (-19.0, 1.0, -19.0, 9.0)), "8", False),  # an extension line, on which another line ends
        ((LEFT, RIGHT, (18.0, -9.0, 18.0, 1.0)), "8", False),
        ((LEFT, RIGHT, (-20.0, 1.0, -20.0, 9.0)), "8", True),  # the extension line at its own end
        ((LEFT, RIGHT, (-19.0, -9.0, -19.0, 9.0)), "8", True),  # one that crosses it
        ((LEFT, RIGHT, (-19.0, 1.1, -19.0, 9.0)), "8", True),  # one beside it
    ],
)
def test_two_pieces_in_line_with_a_size_between_them_are_one_line(rows, words, one):
    right = 0.7 * HEIGHT * (len(words) - 1)
    moved = [
        tuple(v + right * (v > 0 and k % 2 == 0) if r == 1 else v for k, v in enumerate(row))
        for r, row in enumerate(rows)
    ]
    assert (parted(*(moved if len(words) > 1 else rows), words=words) == {0: [1]}) is one


@pytest.mark.parametrize(("share", "one"), [(0.97, True), (1.03, False)])
def test_a_figure_stands_close_to_its_line_and_in_it(share, one):
    air = AIR * HEIGHT * share
    assert bool(parted((-20.0, 1.0, -air, 1.0), (WIDE + air / 2, 1.0, 20.0, 1.0))) is one
    level = 1.25 + ASIDE * HEIGHT * share  # the middle of the figure, within the margins of its box
    assert bool(parted((-20.0, level, -1.0, level), (3.0, level, 20.0, level))) is one
    turn = math.asin(IN_LINE * share)
    x, y = 17.0 * math.cos(turn), 17.0 * math.sin(turn)
    assert bool(parted(LEFT, (3.0, 1.0, 3.0 + x, 1.0 + y))) is one


def sized(words):
    """The ring with the width of its first groove under it, ticks at the ends, its figure in the gap."""
    ink = side_view(RING)
    ends = (-13.0, -10.0)
    ink.solid += [(x, -20.0, x, -42.0, 0.0) for x in ends]
    ink.solid += [(-40.0, -20.0, -40.0, -42.0, 0.0), (0.0, -20.0, 0.0, -42.0, 0.0)]
    ink.solid += [(-40.0, -40.0, -22.0, -40.0, 0.0), (-18.0, -40.0, 0.0, -40.0, 0.0)]
    ink.solid += [(x - 1, -41.0, x + 1, -39.0, 0.0) for x in (-40.0, 0.0)]
    text = Text(words, (-20.0 - WIDE * len(words) / 2, -41.2), HEIGHT)
    return read_sheet(sheet_of(ink, texts=(text,)), ReadOptions(units="mm"))


@pytest.mark.parametrize("words", ["40", "41"])
def test_such_a_size_is_heard_and_its_lines_are_no_outline(words):
    reading = sized(words)
    assert [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] == [(-10, -13, 34), (-30, -33, 34)]
    assert [f.code for f in reading.findings if f.stops and "open" in f.code] == []
    # Both pieces of the line, and the ticks across its ends.
    assert reading.ink.explained["dimension"] == pytest.approx(36.0 + 2 * math.hypot(2.0, 2.0))


WHOLE = (-20.0, 30.0, 30.0, 30.0)
"""A line clear of the text, between the ends of its extension lines."""


@pytest.mark.parametrize(
    ("rows", "rest"),
    [
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.0)], {0: [1]}),
        ([(4.0, 30.0, -20.0, 30.0), (30.0, 30.0, 4.0, 30.0)], {0: [1]}),
        ([(5.0, 30.0, 30.0, 30.0), (-20.0, 30.0, -3.0, 30.0), (-3.0, 30.0, 5.0, 30.0)], {0: [1, 2]}),
        ([WHOLE], {}),
        ([(-20.0, 30.0, 4.0, 30.0), (4.1, 30.0, 30.0, 30.0)], {}),  # a gap
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.04)], {0: [1]}),
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.06)], {}),  # a knee
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, -10.0, 30.0)], {}),  # one over the other
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.0), (4.0, 20.0, 4.0, 32.0)], {}),  # an extension line
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.0), (4.0, 20.0, 4.0, 30.0)], {}),
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.0), (3.3, 29.3, 4.7, 30.7)], {}),  # a tick
        ([(-20.0, 30.0, 4.0, 30.0), (4.0, 30.0, 30.0, 30.0, 0.2)], {}),  # a bow
    ],
)
def test_pieces_that_touch_are_one_line_where_nothing_else_passes(rows, rest):
    """In line within two thousandths of their length: 0.052 aside in 26."""
    made, other = parted_lines.put_together(strokes(*rows), [Text("8", (0.0, 0.0), HEIGHT)], 1e-6)
    assert {k: sorted(more) for k, more in other.items()} == rest
    whole = [sorted(zip(e[::2], e[1::2], strict=True)) for e in made.ends.tolist()]
    assert (len(whole) == 1 and np.allclose(whole[0], [(-20.0, 30.0), (30.0, 30.0)], atol=0.05)) is bool(
        rest or rows == [WHOLE]
    )


@all_pairs(
    ("words", "told"),
    [("30 \u00b10.1", []), ("31 \u00b10.1", ["dimension-contradicts"])],
    arrows=[True, False],
    broken=[(), (-22.1,), (-20.1, -10.3)],
)
def test_a_dimension_line_drawn_in_several_pieces_is_read(words, told, broken, arrows):
    ends = [-30.0, *broken, 0.0]
    rows = [(x, 21.0, x, 36.0) for x in (-30.0, 0.0)] + [(a, 34.0, b, 34.0) for a, b in pairwise(ends)]
    if arrows:
        rows += [(x, 34.0, x + to, 34.0 + up) for x, to in ((-30.0, 1.5), (0.0, -1.5)) for up in (0.4, -0.4)]
    else:
        rows += [(x - 0.7, 33.3, x + 0.7, 34.7) for x in (-30.0, 0.0)]
    view = side_view(RING)
    view.solid += [(*row, 0.0) for row in rows]
    sheet = sheet_of(view, texts=(Text(words, (-18.0, 34.5), HEIGHT),))
    reading = read_sheet(sheet, ReadOptions(units="mm"))
    assert [f.code for f in reading.findings if f.level != "note"] == told
    assert ("z_near" in reading.part.grooves[1].tolerances) is (not told)


def head(x, y, ux, uy):
    """A closed head of 3 with its tip at a place, pointing along a direction."""
    back = [(x - 3 * ux + s * 0.5 * uy, y - 3 * uy + s * 0.5 * ux) for s in (1, -1)]
    (ax, ay), (bx, by) = back
    return [(x, y, ax, ay), (x, y, bx, by), (ax, ay, bx, by)]


FLOOR = [*head(9.5, -13.0, 0, -1), *head(9.5, 13.0, 0, 1), (9.5, -10.0, 9.5, 10.0)]
PLACE = [*head(0.0, -25.0, -1, 0), *head(7.5, -25.0, 1, 0), (3.0, -25.0, 4.5, -25.0)]
WIDTH = [*head(7.5, 25.0, 1, 0), *head(11.5, 25.0, -1, 0), (7.5, 25.0, 11.5, 25.0)]
TAILS = [(4.5, 25.0, 1.5, 25.0), (14.5, 25.0, 17.5, 25.0)]
SIDES = [(0.0, -15.8, 0.0, -26.5), (7.5, -15.8, 7.5, -26.5), (7.5, 15.8, 7.5, 26.5), (11.5, 15.8, 11.5, 26.5)]


def test_extension_lines_on_both_sides_of_a_part_with_a_size_in_it_are_two():
    """The floor's figure stands in the part, in line with one wall's extension lines below and above."""
    view = full_outline(Turned(((60.0, 30.0),), (Cut(-7.5, 4.0, 26.0),), chamfer=1.0)).map(lambda x, y: (-x, -y))
    view.solid += [(*row, 0.0) for row in (*FLOOR, *PLACE, *WIDTH, *TAILS, *SIDES)]
    texts = (
        Text("\u00d826 0/-0.21", (7.2, -11.55), 3.0, angle=90.0),
        Text("4 +0.18/0", (0.05, 27.3), 3.0),
        Text("7.5", (0.6, -22.7), 3.0),
    )
    (groove,) = read_sheet(sheet_of(view, texts=texts), ReadOptions(units="mm", front="left")).part.grooves
    assert groove.tolerances == {"width": (0.0, 0.18), "floor_diameter": (-0.21, 0.0)}


@pytest.mark.parametrize(("share", "one"), [(0.97, True), (1.03, False)])
def test_a_level_figure_lies_across_its_line_with_its_middle_half(share, one):
    """A text of 20 letters that is narrower, or wider, than is guessed."""
    off = HALF * 20 * WIDE / 2 * share
    rows = [(0.0, 3.0, 0.0, 20.0), (0.0, -20.0, 0.0, -1.0)]
    for side in (1, -1):
        at = (-10 * WIDE + side * off, 0.0)
        assert bool(parted(*rows, words="2x 24 H11 (+0.13/0) ", at=at)) is one


@pytest.mark.parametrize("letter", [0.5, 0.6, 0.7])
@pytest.mark.parametrize("turned", [True, False])
@pytest.mark.parametrize(("words", "limits"), [
    ("%s", None), ("%s -0.04^-0.12", (-0.12, -0.04)), ("2x %s +0.1^0", (0.0, 0.1)), ("%s h11 (0/-0.16)", (-0.16, 0.0)),
])  # fmt: skip
@pytest.mark.parametrize(("size", "told"), [("\u00d834", False), ("\u00d835", True)])
def test_the_size_of_a_floor_in_a_break_of_its_line_beside_the_part_is_held(size, told, words, limits, turned, letter):
    """Its extension lines run over the lands from a groove. Letters are this wide over their height.

    Deviations over each other are as wide as the longer one (ISO 129-1, from memory). 34 is the floor drawn.
    """
    before, behind = (words % size).split("^") if "^" in words else (words % size, "")
    tail = before.rsplit(" ", 1)[-1] if behind else ""
    wide = letter * HEIGHT * (len(before) - len(tail) + max(len(tail), len(behind)))
    gap = (wide if turned else HEIGHT) / 2 + 0.8
    ink = side_view(RING)
    for r in (17.0, -17.0):
        ink.solid += [(-13.9, r, -80.0, r, 0.0), (-79.0, r, -79.0, math.copysign(gap, r), 0.0)]
        ink.solid += [(-79.0, r, -79.0 + x, r - math.copysign(2.5, r), 0.0) for x in (0.4, -0.4)]
    at = (-79.0 + HEIGHT / 2, -wide / 2) if turned else (-79.0 - wide / 2, -HEIGHT / 2)
    text = Text(words % size, at, HEIGHT, angle=90.0 if turned else 0.0)
    reading = read_sheet(sheet_of(ink, texts=(text,)), ReadOptions(units="mm"))
    codes = {f.code.value for f in reading.findings if f.level != "note"}
    assert codes <= ({"dimension-contradicts", "note-contradicts"} if told else set())
    assert bool(codes) is told
    first = reading.part.grooves[0]
    assert first.tolerances.get("floor_diameter") == (None if told or limits is None else pytest.approx(limits))
