r"""Views drawn shortened between break lines are refused; what only crosses the axis aslant is not taken for one.

  ____________   ________           ______________
 |           |   |       |         |      \       |
 |            >  >       |         |       \      |      a straight line aslant: no break
-+- - - - - -<- <- - - - +-       -+- - - - \ - - +-
 |           |   |       |         |         \    |
 |___________|   |_______|         |__________\___|
"""

import math

import numpy as np
import pytest
from support.draw import Ink, Turned, mixed, rotated, sheet_of, side_view, with_centre

from extractor import ReadOptions, read_sheet
from extractor.placing.in_pieces import TORN
from extractor.sheet import Dimension, DimensionKind
from extractor.viewing.breaks import BEND, MIRRORED, _goes_on, _mirrored

MM = ReadOptions(units="mm")
SHAFT = Turned(((30.0, 30.0), (60.0, 20.0)))


def zigzag(at, r, sway, over=1.0):
    """A straight line across the axis with a sharp wave in its middle (ISO 128-3; from memory)."""
    half = [(at, over * r), (at, 0.1 * r), (at - sway, 0.05 * r)]
    return [*half, *((2 * at - z, -y) for z, y in reversed(half))]


def waves(at, r, sway, count=1, steps=24):
    """A free curve across the axis in chords, `count` whole waves."""
    shares = [k / steps for k in range(steps + 1)]
    return [(at + sway * math.sin(2 * math.pi * count * s), r * (1 - 2 * s)) for s in shares]


def piece(front, back, r, *ends):
    """One piece of a shaft between two z; `ends` replace its front or back face."""
    lines = {0: [(front, r), (front, -r)], 1: [(back, r), (back, -r)]}
    lines.update(dict(ends))
    ink = Ink()
    for line in lines.values():
        ink = ink.chain([(z, y, 0.0) for z, y in line])
    for side in (1, -1):
        ink = ink.chain([(lines[0][0][0], side * r, 0.0), (lines[1][0][0], side * r, 0.0)])
    return ink


def codes(ink, options=MM, **move):
    return [f.code for f in read_sheet(sheet_of(ink, **move), options).findings if f.stops]


@pytest.mark.parametrize("turn", [0.0, 90.0, 33.0])
@pytest.mark.parametrize("line", [zigzag, waves, lambda z, r, sway: waves(z, r, sway, 3)])
def test_two_pieces_with_break_lines(line, turn):
    ink = piece(0.0, -30.0, 10.0, (1, line(-30.0, 10.0, 0.8)))
    other = piece(-33.0, -60.0, 10.0, (0, line(-33.0, 10.0, 0.8)))
    both = with_centre(mixed(ink, other), SHAFT, 5.0)
    assert codes(both, move=rotated(turn)) == ["broken-view"]
    assert "broken-view" in codes(both, ReadOptions(units="mm", at=rotated(turn)(-10.0, 1.0)), move=rotated(turn))


def peak(at, r, sway):
    """A zigzag with a corner on the axis, not quite its own mirror image."""
    return [(at, r), (at - sway, 0.5 * r), (at + sway, 0.0), (at - 0.9 * sway, -0.5 * r), (at, -r)]


def cup(at, r, sway):
    """A freehand line that bows to one side."""
    return [(at, r), (at - sway, 0.5 * r), (at - 1.2 * sway, 0.0), (at - sway, -0.5 * r), (at, -r)]


def ends(line, sway, other):
    """Two pieces that end toward one another in such lines, 8 apart."""
    ink = piece(0.0, -30.0, 10.0, (1, line(-30.0, 10.0, sway)))
    return with_centre(mixed(ink, piece(-38.0, -60.0, 10.0, (0, line(-38.0, 10.0, other)))), SHAFT, 5.0)


@pytest.mark.parametrize("turn", [0.0, 90.0])
@pytest.mark.parametrize("line", [peak, cup])
def test_what_one_piece_lacks_of_a_straight_end_the_other_has(line, turn):
    """So no two parts end toward one another, but for a ball and its cup; ends of one part in two views neither."""
    assert codes(ends(line, 0.8, 0.8), move=rotated(turn)) == ["broken-view"]
    assert codes(ends(line, 0.8, -0.8), move=rotated(turn)) == ["several-parts"]
    assert codes(ends(line, 0.0, 0.0), move=rotated(turn)) == ["several-parts"]


@pytest.mark.parametrize(("share", "torn"), [(1.02, True), (0.98, False)])
def test_how_far_such_ends_sway(share, torn):
    sway = TORN * 20.0 * share

    def line(at, r, by):
        return [(at, r), (at, 0.5 * r), (at - by, 0.0), (at, -0.5 * r), (at, -r)]

    assert (codes(ends(line, sway, sway)) == ["broken-view"]) is torn


@pytest.mark.parametrize(("share", "torn"), [(0.98, True), (1.02, False)])
def test_how_far_they_may_be_unlike(share, torn):
    def line(at, r, by):
        return [(at, r), (at, 0.5 * r), (at - by, 0.0), (at, -0.5 * r), (at, -r)]

    assert (codes(ends(line, 1.2, 1.2 + TORN * 10.0 * share)) == ["broken-view"]) is torn


def test_a_size_across_the_break_ends_a_little_beside_the_part():
    """Extension lines begin with a gap (ISO 129-1, from memory)."""
    ink = ends(lambda at, r, by: [(at, r), (at, -r)], 0.0, 0.0)
    for gap, told in ((0.5, ["in-pieces"]), (1.5, ["several-parts"])):
        across = Dimension(DimensionKind.LINEAR, ((0.0, 10.0 + gap), (-60.0, 10.0 + gap)), 0.0, 60.0, "850")
        found = [f.code for f in read_sheet(sheet_of(ink, dimensions=(across,)), MM).findings if f.stops]
        assert found == told, gap


def test_one_zigzag_through_a_whole_outline():
    ink = side_view(SHAFT).chain([(z, y, 0.0) for z, y in zigzag(-60.0, 10.0, 1.0, over=1.15)])
    assert codes(ink)[0] == "broken-view"


def crossed(*lines):
    """The shaft with more lines in it."""
    ink = side_view(SHAFT)
    for line in lines:
        ink = ink.chain([(z, y, 0.0) for z, y in line])
    return ink


@pytest.mark.parametrize(
    "lines",
    [
        [[(-40.0, 10.0), (-50.0, -10.0)], [(-40.0, -10.0), (-50.0, 10.0)]],
        [[(-40.0, 6.0), (-45.0, 6.0), (-45.0, -6.0), (-40.0, -6.0), (-40.0, 6.0)]],
        [[(z, 10.0), (z - 1.0, 5.0), (z - 2.0, 0.0), (z - 3.0, -5.0), (z - 4.0, -10.0)] for z in (-40.0, -48.0, -56.0)],
        [
            [(-42.0, 10.0), (-46.0, 5.0), (-42.01, 0.01)],
            [(-42.01, 0.01), (-42.0, -0.01), (-46.0, -5.0), (-42.0, -10.0)],
        ],
    ],
    ids=["crossed lines of a flat", "a slot", "a helix", "diagonals that meet at the axis"],
)
def test_other_lines_across_the_axis_are_no_break(lines):
    assert "broken-view" not in codes(crossed(*lines))


def pinched(line):
    """A shaft whose outline dips to a tip on both sides, and a line between the tips."""
    half = [(0.0, 10.0), (-38.0, 10.0), (-40.0, 8.0), (-42.0, 10.0), (-90.0, 10.0)]
    ink = Ink().chain([(z, r, 0.0) for z, r in (*half, *((z, -r) for z, r in reversed(half)))], close=True)
    return with_centre(ink.chain([(z, y, 0.0) for z, y in line]), SHAFT, 5.0)


@pytest.mark.parametrize(
    "line", [zigzag, waves, lambda z, r, sway: [(z, r), (z + sway, 3.0), (z - sway, -3.0), (z, -r)]]
)
def test_a_break_line_between_two_tips_of_the_outline_is_no_edge_of_a_vee(line):
    assert codes(pinched(line(-40.0, 8.0, 0.8))) == ["broken-view"]
    assert codes(pinched([(-40.0, 8.0), (-40.0, -8.0)])) == []


@pytest.mark.parametrize(("off", "broken"), [(0.39, True), (0.41, False)])
def test_a_break_line_ends_alike_on_both_sides_within_a_twentieth_of_the_radius(off, broken):
    """0.4 of 8: the line from tip to tip is straight but for its wave, and no other place on it lies so."""
    line = [(-40.0, 8.0), (-39.0, 2.0), (-41.0, -2.0), (-40.0 + off, -8.0)]
    ink = crossed(line)
    assert ("broken-view" in codes(ink)) is broken


@pytest.mark.parametrize(("sway", "told"), [(0.094, False), (0.099, True)])
def test_a_wave_that_crosses_the_axis_nearly_square_is_no_break(sway, told):
    """Its chords there lean by 0.029 and by 0.031."""
    assert ("broken-view" in codes(crossed(waves(-45.0, 10.0, sway)))) is told


def snake(at, r, sway):
    """Two arcs of a quarter each, bowed to one side above the axis and to the other below (S-break)."""
    bow = math.tan(math.pi / 8)
    return [(at, r, bow), (at, 0.0, -bow), (at, -r, 0.0)]


def loop(at, r, sway):
    """The S-break of a round bar: a loop above the axis, and below it the half of one (ISO 128-3; from memory)."""
    return [(at, 0.0, 1.0), (at, r, 1.0), (at, 0.0, 1.0), (at, -r, 0.0)]


def ripple(at, r, sway):
    """Waves of unlike height, whose corner lies on the axis, and which end a little aside below."""
    row = (0.0, 1.0, 1.1, 0.15, -0.9, -1.15, -0.3, 0.8, 1.2, 0.5, -0.45)
    return [(at + sway * z, r * (1 - k / 5), 0.0) for k, z in enumerate(row)]


def uneven(at, r, sway):
    """A free curve in fine chords that sways more to one side above the axis than to the other below."""
    row = [(k / 200, math.sin(6 * math.pi * k / 200)) for k in range(201)]
    return [(at + sway * (w - 0.6 * (1 - abs(2 * s - 1))), r * (1 - 2 * s), 0.0) for s, w in row]


@pytest.mark.parametrize("turn", [0.0, 90.0])
@pytest.mark.parametrize("line", [snake, loop, ripple, uneven])
@pytest.mark.parametrize("places", [(-40.0, -46.0), (-50.0,)])
def test_curved_break_lines_over_an_outline_that_runs_on(line, turn, places):
    ink = side_view(SHAFT)
    for at in places:
        ink = ink.chain(line(at, 10.0, 1.0))
    assert codes(ink, move=rotated(turn))[0] == "broken-view"


@pytest.mark.parametrize(
    "line",
    [
        [(-40.0, 10.0, 0.4), (-40.0, 0.0, 0.4), (-40.0, -10.0, 0.0)],
        [(-40.0, 10.0, 0.3), (-40.0, -10.0, 0.0)],
        [(-40.0, 0.0, 1.0), (-48.0, 0.0, 1.0), (-40.0, 0.0, 0.0)],
        [(-40.0, 10.0, 0.0), (-43.0, 6.0, 0.0), (-40.5, 2.0, 0.0), (-40.0, 0.0, 0.0)],
        [(-40.0, 10.0, 0.05), (-44.0, 0.0, -0.05), (-48.0, -10.0, 0.0)],
    ],
    ids=["arcs that are images", "one arc", "a circle", "one half alone", "a helix"],
)
def test_curves_across_the_axis_that_are_no_break(line):
    assert "broken-view" not in codes(side_view(SHAFT).chain(line))


@pytest.mark.parametrize(("share", "told"), [(0.98, True), (1.02, False)])
def test_how_sharp_a_wave_bends_on_the_axis(share, told):
    """Each half bends by half a right angle; where both meet on the axis the line bends by BEND times that at most."""
    first, lean = BEND * share * math.pi / 8, math.pi / 4
    rows = [(0.0, 0.0), (math.tan(first), 1.0), (math.tan(first) + math.tan(first - lean), 2.0)]
    assert _goes_on(rows, [(z, -r) for z, r in rows], [math.tan(first)] * 2) is told
    assert not _goes_on(rows[:2], [(z, -r) for z, r in rows], [math.tan(first)] * 2)


@pytest.mark.parametrize(("share", "told"), [(1.02, True), (0.98, False)])
def test_how_unlike_its_halves_are(share, told):
    """MIRRORED of the most that the line leaves its middle: 1 below the axis, less above it."""
    line = [(z, r) for z, r in ((0.0, -10.0), (-1.0, -5.0), (0.0, 0.0), (-1.0 + MIRRORED * share, 5.0), (0.0, 10.0))]
    assert _mirrored(np.array(line)) is not told
