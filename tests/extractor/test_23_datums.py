"""A datum's triangle on a line with a framed letter is no outline; a ridge that looks like it still stops."""

import math
from itertools import pairwise

import pytest
from support.draw import Cut, Turned, half_profile, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.viewing.roles import assign

SHAFT = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 32.0)))
HIGH, SIDE = 3.0, 5.0
CLOSED = [(0.0, -1.25), (0.0, 1.25), (2.165, 0.0), (0.0, -1.25)]
UP, DOWN, ASIDE = (0.0, 1.0), (0.0, -1.0), (1.0, 0.0)


def rows(points):
    return [(*a, *b, 0.0) for a, b in pairwise(points)]


def mark(at, way=UP, stem=5.0, knee=0.0, side=SIDE, triangle=CLOSED):
    """Triangle, line and frame (sizes from memory of ISO 5459), and the middle of the frame."""
    place = lambda p: (at[0] + way[0] * p[0] - way[1] * p[1], at[1] + way[1] * p[0] + way[0] * p[1])  # noqa: E731
    line = [(2.165, 0.0), (2.165 + stem, 0.0)] + ([(2.165 + stem, knee)] if knee else [])
    out = line[-1][0] + (0.0 if knee else side / 2)
    middle = (out, knee + math.copysign(side / 2, knee) if knee else 0.0)
    box = [
        (middle[0] + a * side / 2, middle[1] + b * side / 2) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1))
    ]
    drawn = [row for part in (triangle, line if stem else [], box) for row in rows([place(p) for p in part])]
    return drawn, place(middle)


def sheet(*marks, letter="A", high=HIGH, ink=None, more=()):
    ink = ink or side_view(SHAFT)
    ink.solid += [row for drawn, _ in marks for row in drawn] + list(more)
    texts = [Text(letter, (x - 0.3 * high, y - high / 2), high) for _, (x, y) in marks if letter]
    return sheet_of(ink, texts=tuple(texts))


def told(drawn):
    reading = read_sheet(drawn, ReadOptions(units="mm"))
    spots = [(g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves] if reading.part else []
    return [f.code.value for f in reading.findings], spots


def known(drawn):
    (claim,) = [c for c in assign(drawn).claims if "datum" in c.reason]
    return len(claim.labels)


GROOVES = [(-10.0, -13.0, 34.0), (-40.0, -44.0, 32.0)]
ON_LAND, ON_LINE = (-25.0, 20.0), (8.0, 20.0)
EXTENSION = [(0.5, 20.0, 14.0, 20.0, 0.0)]


@pytest.mark.parametrize(
    ("drawn", "strokes"),
    [
        (sheet(mark(ON_LAND)), 8),
        (sheet(mark((-25.0, -20.0), DOWN)), 8),
        (sheet(mark((0.0, 8.0), ASIDE)), 8),
        (sheet(mark(ON_LAND, stem=0.0)), 7),
        (sheet(mark(ON_LAND, knee=8.0)), 9),
        (sheet(mark(ON_LAND), letter="AB"), 8),
        (sheet(mark(ON_LINE), more=EXTENSION), 8),
        (sheet(mark(ON_LAND), mark((-5.0, 20.0))), 16),
        (sheet(mark(ON_LAND), ink=half_profile(SHAFT)), 8),
    ],
    ids=["land", "below", "face", "on its frame", "knee", "two letters", "extension line", "two", "half"],
)
def test_a_datum_on_the_outline_says_nothing(drawn, strokes):
    assert known(drawn) == strokes
    assert told(drawn) == ([], GROOVES)
    assert told(sheet(mark(ON_LAND), letter=""))[0] == ["left-out"]


@pytest.mark.parametrize("off", [0.0, 0.1, 0.6])
@pytest.mark.parametrize("deep", [1, -1], ids=["ridge", "groove"])
def test_a_ridge_with_a_framed_letter_still_stops_and_a_groove_is_one(off, deep):
    """With the land drawn through, and its other half a little off or not; but for the frame it is a datum's mark."""
    way = UP if deep > 0 else DOWN
    drawn = mark(ON_LAND, way)[0]
    image = [(x + off, -y, u + off, -v, b) for x, y, u, v, b in drawn[:3]]
    lie = sheet(mark(ON_LAND, way), more=image)
    assert known(lie) == 0
    reading = read_sheet(lie, ReadOptions(units="mm"))
    vee = [(g.z_near, g.z_far) for g in reading.part.grooves if g.shape == "vee"] if reading.part else []
    assert any(f.stops for f in reading.findings) or vee == [(-23.75, -26.25)]


@pytest.mark.parametrize(("off", "seen"), [(1.24, True), (1.26, False)])
def test_an_image_is_one_within_half_the_base(off, seen):
    drawn = mark(ON_LAND)[0]
    lie = sheet(mark(ON_LAND), more=[(x + off, -y, u + off, -v, b) for x, y, u, v, b in drawn[:3]])
    assert (known(lie) == 0) is seen


NONE = {
    "a small letter": sheet(mark(ON_LAND), letter="a"),
    "a figure": sheet(mark(ON_LAND), letter="1"),
    "a word": sheet(mark(ON_LAND), letter="ABC"),
    "no base": sheet(mark(ON_LAND, triangle=CLOSED[1:])),
    "a side missing": sheet(mark(ON_LAND, triangle=CLOSED[:3])),
    "a line more at its point": sheet(mark(ON_LAND), more=[(-25.0, 22.165, -25.1, 21.5, 0.0)]),
    "a round side": sheet(([(*row[:4], 0.2) for row in mark(ON_LAND)[0][:3]] + mark(ON_LAND)[0][3:], mark(ON_LAND)[1])),
    "the end of a line": sheet(mark((1.75, 20.0)), more=EXTENSION),
    "no line": sheet(mark((-25.0, 24.0))),
    "no centre line": sheet(mark(ON_LAND), ink=half_profile(SHAFT, None)),
    "a frame open": sheet((mark(ON_LAND)[0][:-1], mark(ON_LAND)[1])),
    "a line past the frame": sheet((mark(ON_LAND, stem=4.0)[0][:4] + mark(ON_LAND)[0][4:], mark(ON_LAND)[1])),
}


@pytest.mark.parametrize("drawn", NONE.values(), ids=NONE)
def test_what_is_no_mark(drawn):
    assert known(drawn) == 0


@pytest.mark.parametrize(("side", "fills"), [(7.4, True), (7.6, False)])
def test_a_letter_fills_its_frame(side, fills):
    assert bool(known(sheet(mark(ON_LAND, side=side)))) is fills


@pytest.mark.parametrize(("more", "fit"), [(0, True), (1, False)])
def test_of_two_pieces_at_most_from_the_triangle_to_the_frame(more, fit):
    drawn, middle = mark(ON_LAND, knee=8.0)
    line, away = drawn[4], 6.0 * more
    knee = [(*line[:2], line[0], line[3] + away, 0.0), *([(line[0], line[3] + away, line[2], line[3], 0.0)] * more)]
    bent = [*drawn[:4], *(knee if more else [line]), *drawn[5:]]
    assert bool(known(sheet((bent, middle)))) is fit
