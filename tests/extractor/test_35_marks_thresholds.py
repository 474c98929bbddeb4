"""Hatch lines and surface-texture marks, just inside and just outside of what they are told by."""

import math

import numpy as np
import pytest

from extractor.geometry.network import Strokes
from extractor.sheet import Text
from extractor.viewing import alike, hatching, marks
from extractor.viewing.hatching import loose_hatching
from extractor.viewing.leaders import leaders
from extractor.viewing.marks import texture_marks
from extractor.viewing.tips import tips_of

NEAR = 1e-6
FRAME = [(0, 0, 100, 0), (100, 0, 100, 20), (100, 20, 0, 20), (0, 20, 0, 0)]
INSIDE, OUTSIDE = 0.97, 1.03


def strokes(*rows):
    """Straight strokes, labelled in order."""
    data = np.array(rows, dtype=float)
    return Strokes(data, np.zeros(len(data)), np.arange(len(data), dtype=np.int64))


def hatched(*rows, near=NEAR):
    """How many of the rows, drawn in a frame, are hatch lines."""
    return len(loose_hatching(strokes(*FRAME, *rows), near))


def slanting(x, degrees=45.0, size=10.0, y=5.0):
    """A line that ends in the air, from (x, y) up."""
    turn = math.radians(degrees)
    return x, y, x + size * math.cos(turn), y + size * math.sin(turn)


@pytest.mark.parametrize(("share", "found"), [(0.9, 7), (1.1, 6)])
def test_a_short_hatch_line_leans_by_what_rounding_turns_it(share, found):
    """It is a hatch line while the noding distance at one end turns it so far."""
    near, size = 0.004, 0.3
    lean = math.degrees(near / size) * share
    assert lean > math.degrees(hatching.STRAY_SLANT)
    rows = [slanting(10 + 4 * k) for k in range(7)]
    assert hatched(*rows[:6], slanting(34, 45 + lean, size=size), near=near) == found


@pytest.mark.parametrize(("count", "found"), [(hatching.LEAST, 4), (hatching.LEAST - 1, 0)])
def test_four_lines_are_a_hatching(count, found):
    assert hatched(*(slanting(10 + 4 * k) for k in range(count))) == found


@pytest.mark.parametrize(("share", "found"), [(OUTSIDE, 6), (INSIDE, 0)])
@pytest.mark.parametrize("from_quarter", [False, True])
def test_hatch_lines_slant(share, found, from_quarter):
    lean = math.degrees(hatching.SLANT) * share
    lean = 90 - lean if from_quarter else lean
    assert hatched(*(slanting(10 + 4 * k, lean) for k in range(6))) == found


@pytest.mark.parametrize(("share", "found"), [(OUTSIDE, 6), (INSIDE, 0)])
def test_hatch_lines_are_no_dust(share, found):
    near, step = 0.1, 1.6
    size = hatching.SHORTEST * near * share
    assert hatched(*(slanting(20 + step * k, size=size, y=15 - step * k) for k in range(6)), near=near) == found


@pytest.mark.parametrize(("share", "found"), [(INSIDE, 8), (OUTSIDE, 0)])
def test_lines_of_one_slant_are_one_hatching(share, found):
    """Four lean so, four by a little more: together they stand evenly, each four alone does not."""
    lean = math.degrees(hatching.ONE_SLANT) * share
    assert hatched(*(slanting(10 + 4 * k, 45 + lean * (k in (2, 4, 5, 7)), size=12) for k in range(8))) == found


@pytest.mark.parametrize(("share", "found"), [(INSIDE, 7), (OUTSIDE, 0)])
def test_lines_stand_at_even_spacings(share, found):
    """Three of seven stand off by so much: both spacings beside each of them are uneven."""
    off = hatching.OFF_STEP * share
    places = [k + (off if k in (1, 3, 5) else 0.0) for k in range(7)]
    assert hatched(*(slanting(10 + 6 * p, size=14) for p in places)) == found


@pytest.mark.parametrize(("odd", "found"), [(1, 8), (2, 0)])
def test_most_lines_stand_at_even_spacings(odd, found):
    """One of eight lines off its place makes two of seven spacings uneven, two make four."""
    assert (2 * odd / 7 < 1 - hatching.MOST_EVEN) is bool(found)
    places = [k + (0.4 if k in (2, 5)[:odd] else 0.0) for k in range(8)]
    assert hatched(*(slanting(10 + 6 * p, size=14) for p in places)) == found


@pytest.mark.parametrize(("share", "found"), [(INSIDE, 6), (OUTSIDE, 5)])
@pytest.mark.parametrize("what", ["step", "slant"])
def test_a_line_that_ends_at_a_corner_joins_a_hatching_that_it_fits(what, share, found):
    """Five lines in the air, and one more whose upper end meets a corner of the outline."""
    rows = [slanting(10 + 4 * k) for k in range(5)]
    x = 30.0
    lean = 45.0
    if what == "step":
        x += 4 * hatching.STRAY_STEP * share
    else:
        lean += math.degrees(hatching.STRAY_SLANT) * share
    x0, y0, x1, y1 = slanting(x, lean)
    turned = (x0 + x1) / 2 - 30.0 - 5 * math.cos(math.pi / 4)  # the middle stays on its place in the row
    x0, x1 = (x0 - turned, x1 - turned) if what == "slant" else (x0, x1)
    corner = [(x1, y1, x1 + 30, y1), (x1, y1, x1, y1 - 3)]
    assert hatched(*rows, (x0, y0, x1, y1), *corner) == found


@pytest.mark.parametrize(("share", "found"), [(OUTSIDE, 5), (INSIDE, 0)])
def test_lines_beside_one_another_share_some_of_their_stretch(share, found):
    """Each begins so far up along its slant that it overlaps the one before by just that share."""
    step, size = 3.0, 10.0
    rows = []
    for k in range(5):
        along = k * size * (1 - hatching.BESIDE * share)
        x = 10 + along * math.cos(math.pi / 4) + k * step
        y = 1 + along * math.sin(math.pi / 4) - k * step
        rows.append((x, y, x + size * math.cos(math.pi / 4), y + size * math.sin(math.pi / 4)))
    assert hatched(*rows) == found


@pytest.mark.parametrize(("gap", "found"), [(OUTSIDE, 4), (INSIDE, 0)])
def test_lines_side_by_side_at_next_to_no_distance_are_one(gap, found):
    near = 0.02
    across = hatching.LEAST_GAP * near * gap / math.sin(math.pi / 4)
    assert hatched(*(slanting(20 + across * k) for k in range(4)), near=near) == found


def mark(size=3.0, angle=60.0, longer=2.0, bar_at=1.0, bar_reach=1.0, second=0.0):
    """A mark of ISO 1302 (from memory) standing on (50, 20): its short leg to the left, the long one to the right."""
    right = math.radians(90 - angle / 2)
    left = math.radians(90 + angle / 2)
    head = (50 + size * math.cos(left), 20 + size * math.sin(left))
    rows = [(50, 20, *head)]
    long = size * longer
    top = (50 + long * math.cos(right), 20 + long * math.sin(right))
    if second:
        middle = (50 + long / 2 * math.cos(right), 20 + long / 2 * math.sin(right))
        turned = right + second
        top = (middle[0] + long / 2 * math.cos(turned), middle[1] + long / 2 * math.sin(turned))
        rows += [(50, 20, *middle), (*middle, *top)]
    else:
        rows.append((50, 20, *top))
    if bar_at:
        meets = (50 + size * bar_at * math.cos(right), 20 + size * bar_at * math.sin(right))
        run = (meets[0] - head[0], meets[1] - head[1])
        rows.append((*head, head[0] + run[0] * bar_reach, head[1] + run[1] * bar_reach))
    return rows


def marked(rows):
    """True if all of the rows are a mark's."""
    return texture_marks(strokes(*FRAME, *rows), NEAR) == frozenset(range(4, 4 + len(rows)))


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("share", "found"), [(INSIDE, True), (OUTSIDE, False)])
def test_the_legs_stand_60_degrees_apart(sign, share, found):
    middle, off = map(math.degrees, marks.ANGLE)
    assert marked(mark(angle=middle + sign * off * share, bar_at=0.0)) is found


@pytest.mark.parametrize(
    ("longer", "found"),
    [(marks.LONGER[0] * 0.99, False), (marks.LONGER[0] * 1.01, True),
     (marks.LONGER[1] * 0.99, True), (marks.LONGER[1] * 1.01, False)],
)  # fmt: skip
def test_the_long_leg_is_about_twice_as_long(longer, found):
    assert marked(mark(longer=longer, bar_at=0.0)) is found


@pytest.mark.parametrize(("share", "found"), [(0.9, True), (1.1, False)])
def test_a_leg_in_two_pieces_goes_straight_on(share, found):
    assert marked(mark(longer=2.0, bar_at=0.0, second=alike.SKEW * share)) is found


@pytest.mark.parametrize(("share", "found"), [(0.99, True), (1.01, False)])
def test_the_first_piece_of_the_long_leg_is_nearly_as_long_as_the_short_leg(share, found):
    """Of 2 / NO_LONGER short legs in two halves each is 1 / NO_LONGER long."""
    assert marked(mark(longer=2.0 / (marks.NO_LONGER * share), bar_at=0.0, second=1e-9)) is found


@pytest.mark.parametrize(("reach", "found"), [(1 - 0.9e-3, True), (1 - 1.1e-3, False), (3.3, True), (3.4, False)])
def test_a_bar_ends_at_the_long_leg_or_a_little_beyond(reach, found):
    """1 / ALONG times the way to the leg is the farthest; BEYOND the most that it may fall short."""
    assert (pytest.approx(3.333, abs=1e-3), 1e-3) == (1 / marks.ALONG, marks.BEYOND)
    assert marked(mark(bar_at=0.8, bar_reach=reach)) is found


@pytest.mark.parametrize(("share", "found"), [(1.01, True), (0.99, False)])
def test_a_bar_meets_the_long_leg_well_above_the_line(share, found):
    assert marked(mark(longer=2.0, bar_at=2.0 * marks.UP * share)) is found


@pytest.mark.parametrize(("share", "found"), [(1 + 0.9e-3, True), (1 + 1.1e-3, False), (1.5, False)])
def test_a_bar_meets_no_place_beyond_the_long_leg_s_end(share, found):
    assert marked(mark(longer=2.0, bar_at=2.0 * share)) is found


@pytest.mark.parametrize(
    ("degrees", "found"), [(2.6, set()), (3.1, {4, 5}), (45.0, {4, 5}), (86.8, {4, 5}), (87.4, set()), (90.0, set())]
)
def test_a_leader_without_a_head_leads_off_its_shelf_by_three_degrees_at_least_and_not_square(degrees, found):
    """A shelf under a text, and a leg from its end that ends within an outline."""
    turn = math.radians(degrees)
    end = 60.0 - 50 * math.cos(turn), 10.0 - 50 * math.sin(turn)
    rows = strokes(*FRAME, (60.0, 10.0, *end), (*end, end[0] - 30, end[1]))
    assert leaders((Text("FRONT FACE", (end[0] - 29, end[1] + 1.0), 3.5),), tips_of(rows, NEAR)) == found


@pytest.mark.parametrize(("lean", "found"), [(0.9e-3, True), (1.1e-3, False)])
def test_a_shelf_in_pieces_goes_straight_on(lean, found):
    """Its second piece may be off by a thousandth."""
    rows = strokes((0.0, 50.0, 20.0, 20.0), (20.0, 20.0, 30.0, 20.0), (30.0, 20.0, 60.0, 20.0 + 30.0 * lean))
    mine = leaders((Text("FRONT FACE", (31.0, 21.0), 3.5),), tips_of(rows, NEAR))
    assert (len(mine) == 3) is found
