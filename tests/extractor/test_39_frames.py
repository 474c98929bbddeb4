"""A frame round a drawing changes nothing of what is read of the part, however finely its roundings are drawn."""

from itertools import pairwise
from math import cos, pi, sin

import numpy as np
import pytest
from support.draw import Drawn, box, full_outline, mixed, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.geometry.network import Strokes
from extractor.viewing.gaps import noding_distance


def rounded(centre, radius, first, last, chords):
    """The corners of a rounding as a chain of chords; angles in quarter turns."""
    turns = [pi / 2 * (first + (last - first) * k / chords) for k in range(chords + 1)]
    return [(centre[0] + radius * cos(turn), centre[1] + radius * sin(turn), 0.0) for turn in turns]


def drawn(radius, chords, length=60.0, reach=20.0):
    """A bar with a groove from Z-9 to Z-13.8, 2.5 deep, with floor radii as chords, and a shoulder behind."""
    floor = reach - 2.5
    corners = [(0.0, reach, 0.0), (-9.0, reach, 0.0)]
    corners += rounded((-9.0 - radius, floor + radius), radius, 0, -1, chords)
    corners += rounded((-13.8 + radius, floor + radius), radius, -1, -2, chords)
    corners += [(-13.8, reach, 0.0), (-30.0, reach, 0.0), (-30.0, reach + 5, 0.0), (-length, reach + 5, 0.0)]
    return full_outline(Drawn(tuple(corners)))


def read(ink):
    return read_sheet(sheet_of(ink), ReadOptions(units="mm"))


FRAMES = [(420, 297), (841, 594), (1189, 841), (1682, 1189)]
"""Formats of ISO 216 (from memory)."""


@pytest.mark.parametrize(("radius", "chords"), [(0.4, 16), (0.5, 16), (0.5, 48), (2.0, 32), (2.0, 90)])
def test_roundings_drawn_as_chords_are_read_alike_in_every_frame(radius, chords):
    ink = drawn(radius, chords)
    alone = read(ink)
    (groove,) = alone.part.grooves
    assert (groove.floor_diameter, groove.corner_radius) == pytest.approx((35.0, radius), abs=2e-3)
    for wide, high in FRAMES:
        framed = read(mixed(ink, box(-wide / 2, -high / 2, wide / 2, high / 2)))
        assert [f.code for f in framed.findings] == [f.code for f in alone.findings]
        for one, two in zip(alone.part.grooves, framed.part.grooves, strict=True):
            for name in ("z_near", "z_far", "floor_diameter", "mouth_diameter", "corner_radius"):
                assert getattr(two, name) == pytest.approx(getattr(one, name), abs=1e-3)


def strokes(*ends):
    made = np.array(ends, dtype=float)
    return Strokes(made, np.zeros(len(made)), np.arange(len(made)))


ROW = [(x, 0.0, x + 10.0, 0.0) for x in (0.0, 10.0, 20.0)]


def test_the_noding_distance_is_a_hundred_thousandth_of_what_is_drawn():
    assert noding_distance(strokes(*ROW)) == pytest.approx(3e-4)


def square(x, y, half, parts=1):
    """A square round a place, each side in some strokes."""
    ends = [
        (x - half, y - half),
        (x + half, y - half),
        (x + half, y + half),
        (x - half, y + half),
        (x - half, y - half),
    ]
    return [
        (a + (c - a) * k / parts, b + (d - b) * k / parts, a + (c - a) * (k + 1) / parts, b + (d - b) * (k + 1) / parts)
        for (a, b), (c, d) in pairwise(ends)
        for k in range(parts)
    ]


def test_what_hangs_together_round_the_rest_says_nothing():
    assert noding_distance(strokes(*ROW, *square(15, 0, 500))) == pytest.approx(3e-4)


@pytest.mark.parametrize(("whole", "frame"), [(1400.0, True), (1430.0, False)])
def test_a_frame_is_half_as_large_as_all_that_is_drawn(whole, frame):
    """A square 707 from corner to corner; a short line ends so far from its lower left corner."""
    x, y = whole / 2**0.5 - 10, whole / 2**0.5 - 250
    drawn = strokes(*ROW, *square(240, 0, 250, 2), (x - 1, y - 1, x, y))
    assert (noding_distance(drawn) < 1e-3) is frame


@pytest.mark.parametrize(("outside", "frame"), [(2, True), (3, False)])
def test_a_frame_holds_most_of_the_others(outside, frame):
    rest = [(600.0, 30.0 * k, 605.0, 30.0 * k) for k in range(outside)]
    drawn = strokes(*ROW, *square(15, 0, 500), *rest)
    assert (noding_distance(drawn) < 1e-3) is frame


@pytest.mark.parametrize("chord", [0.014, 0.016])
def test_a_short_stroke_bounds_it(chord):
    """Two of eleven strokes are short: 0.02 of one is less than 3e-4 below 0.015."""
    row = [(x, 0.0, x + 30.0 / 9, 0.0) for x in np.arange(9) * 30.0 / 9]
    short = [(x, 0.0, x + chord, 0.0) for x in (3.0, 5.0)]
    assert noding_distance(strokes(*row, *short)) == pytest.approx(min(3e-4, 0.02 * chord))
