"""Letters drawn stroke by stroke beside a part: thousands of lines that are passed over and take nothing along."""

from dataclasses import replace

import numpy as np
import pytest
from support.draw import Cut, Turned, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.viewing.alike import SKEW
from extractor.viewing.axis import Axis
from extractor.viewing.letters import MANY, without_letters
from extractor.viewing.symmetry import NEAR_LINE, fresh

MM = ReadOptions(units="mm")
PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-30.0, 1.0, 38.0)))


def scribbles(count, rng):
    """So many letters of 40 strokes in rows below the part."""
    at = np.array([(-60 + 3.0 * (k % 40), -60 - 4.0 * (k // 40)) for k in range(count)])
    start = np.repeat(at, 40, axis=0) + rng.random((40 * count, 2)) * (1.5, 2.0)
    turn = rng.random(40 * count) * 2 * np.pi
    ends = start + 0.5 * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    return [(*row, 0.0) for row in np.hstack([start, ends]).tolist()]


def strokes(rows):
    data = np.array(rows, dtype=float)
    return Strokes(data[:, :4], data[:, 4], np.arange(len(data), dtype=np.int64))


def test_a_part_among_letters_is_read_as_without_them():
    rng = np.random.default_rng(5)
    ink = side_view(PART)
    ink.solid += scribbles(500, rng)
    assert len(ink.solid) > MANY
    reading = read_sheet(sheet_of(ink), MM)
    assert [(g.z_near, g.z_far) for g in reading.part.grooves] == [(-10, -13), (-30, -31)]
    # Nobody knows what such letters print, a scale among it.
    assert [f.code for f in reading.findings if f.stops] == ["sheet-scale"]
    as_drawn = read_sheet(sheet_of(ink), replace(MM, scale=1.0))
    assert as_drawn.part.grooves == reading.part.grooves
    assert not [f for f in as_drawn.findings if f.stops]


def test_small_pieces_that_touch_an_outline_or_a_centre_line_stay():
    rng = np.random.default_rng(6)
    outline = [(0, 0, 0, 20, 0), (0, 20, -60, 20, 0), (-60, 20, -60, 0, 0)]
    pocket = [(-20, 20, -20, 18, 0), (-20, 18, -21, 18, 0), (-21, 18, -21, 20, 0)]
    small = [(100, 50, 101, 50, 0), (101, 50, 101, 51, 0)]
    letters = scribbles(400, rng)
    every = strokes([*outline, *pocket, *small, *letters])
    none = np.zeros((0, 4))
    assert without_letters(every, none).label.tolist() == [0, 1, 2, 3, 4, 5]
    assert without_letters(every, np.array([[95.0, 50.5, 110.0, 50.5]])).label.tolist() == list(range(8))


def test_a_sheet_of_few_lines_keeps_its_letters():
    few = strokes([(0, 0, 100, 0, 0), *scribbles(20, np.random.default_rng(7))])
    assert len(without_letters(few, np.zeros((0, 4)))) == len(few)


def same_line(one, two, size):
    """True if two axes are one line: nearly parallel, and the middle of one nearly on the other."""
    return one.angle_to(two.direction) < SKEW and abs(one.fold(np.array([two.at]))[0, 1]) <= NEAR_LINE * size


@pytest.mark.parametrize("size", [10.0, 1e4])
def test_axes_on_one_line_are_one_whichever_way_it_is_asked(size):
    rng = np.random.default_rng(8)
    turns = rng.choice([0.0, 5e-4, 0.01, np.pi / 2], 60)
    axes = [
        Axis((float(x), float(y)), (float(np.cos(t)), float(np.sin(t))))
        for x, y, t in zip(rng.choice([0.0, 1.0], 60), rng.choice([0.0, 1e-5, 0.2], 60), turns, strict=True)
    ]
    slow = []
    for axis in axes:
        if not any(same_line(axis, other, size) for other in slow):
            slow.append(axis)
    assert fresh(axes, size) == slow
    assert fresh(axes, size, slow) == []
    assert fresh(axes, size, slow[:1]) == slow[1:]
