"""An outline drawn a second time a hair beside the first, as a slip of the hand or of an import leaves it."""

import numpy as np
import pytest
from support.draw import Cut, Ink, Turned, mixed, rotated, section, shifted, side_view, write_dxf

from extractor.opening.copies import NEARLY, TINY, without_copies
from extractor.reading import read_drawing
from extractor.sheet import Pen, Segments, Source

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-20.0, 4.0, 32.0, corner=0.4), Cut(-40.0, 3.0, 34.0)))
BUSH = Turned(PART.steps, PART.cuts, bore=20.0)
FRAME = [(0, 0, 80, 0), (80, 0, 80, 60), (80, 60, 0, 60), (0, 60, 0, 0)]
"""100 across."""


def beside(rows, x, y=0.0):
    return [(a + x, b + y, c + x, d + y) for a, b, c, d in rows]


def is_told(rows):
    """True if lines are told to be drawn twice; the first of them stay."""
    sources = (Source("1", "LINE", "0", Pen.SOLID),)
    drawn = Segments(np.array(rows, dtype=float), np.zeros(len(rows)), np.zeros(len(rows), dtype=np.int64), sources)
    kept, told = without_copies(drawn)
    assert len(kept) == len(rows) - sum(int(f.message.split()[0]) for f in told)
    assert kept.ends[: len(FRAME)].tolist() == drawn.ends[: len(FRAME)].tolist()
    return bool(told)


@pytest.mark.parametrize(
    ("draw", "part", "off", "turn"),
    [
        (side_view, PART, (0.005, 0.003), 0),
        (side_view, PART, (-0.02, 0.01), 90),
        (section, BUSH, (0.0, -0.01), 0),
        (side_view, PART, (0.003, 0.0), 37),
    ],
)
def test_a_part_drawn_twice_is_read_from_the_first(draw, part, off, turn, tmp_path):
    once = draw(part).map(rotated(turn))
    again = Ink(solid=once.solid).map(shifted(*off))
    one, two = (read_drawing(write_dxf(ink, tmp_path / "part.dxf")) for ink in (once, mixed(once, again)))
    assert two.part.grooves == one.part.grooves
    assert {f.code for f in two.findings} - {f.code for f in one.findings} == {"drawn-twice"}


@pytest.mark.parametrize(("share", "told"), [(0.98 * TINY, True), (1.02 * TINY, False)])
def test_a_copy_lies_a_hair_beside_the_first(share, told):
    assert is_told([*FRAME, *beside(FRAME, 100 * share)]) is told


@pytest.mark.parametrize(("others", "told"), [(4, True), (5, False)])
def test_nearly_all_of_what_looks_alike_is_drawn_twice(others, told):
    """Forty lines that are, of forty-four or forty-five: nine in ten are 39.6 and 40.5."""
    twice = [row for k in range(5) for row in beside(FRAME, 90.0 * k)]
    assert 40 / 44 > NEARLY > 40 / 45
    assert (
        is_told([*twice, *beside(twice, 0.01), *((7.0 * k, 5.0, 7.0 * k + k + 1, 9.0) for k in range(others))]) is told
    )


@pytest.mark.parametrize(
    "rows",
    [
        [*FRAME[:3], *beside(FRAME[:3], 0.01)],
        [(0, y, 80, y) for k in range(10) for y in (6.0 * k, 6.0 * k + 0.01)],
        [*FRAME, *((x, y, 80 - x, 60 - y) for x, y in ((0.01, 0.01), (0.02, 0.02), (0.03, 0.03), (0.04, 0.04)))],
        [*FRAME, *beside(FRAME[:2], 0.01), *beside(FRAME[2:], -0.01)],
        [*FRAME, *beside(FRAME, 0.01), *beside(FRAME, 0.02)],
        [*FRAME, *((x * 1.0001, y * 1.0001, u * 1.0001, v * 1.0001) for x, y, u, v in FRAME)],
    ],
    ids=["few lines", "one direction", "other lines", "two shifts", "three times", "larger"],
)
def test_what_is_no_copy_stays(rows):
    assert not is_told(rows)
