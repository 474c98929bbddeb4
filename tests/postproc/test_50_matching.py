"""Which recess is which groove: recesses found, joined and parted, and the optimal assignment.

Outside check: scipy's linear_sum_assignment on the full cost table.
"""

import random

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment
from support.moves import Moves, tool
from support.parts import part_of, row

from extractor.side import OUTSIDE
from planner.increment import Increments
from postproc.cutting.metal import Metal
from postproc.cutting.stock import part_pieces
from postproc.cutting.whole_run import cut_profile
from postproc.judging.matching import _TargetsByPlace, find_recesses, pair
from postproc.judging.overlay import Overlay
from postproc.judging.target import Target, target_of

MM = Increments.of("mm")


def targets(*walls: tuple[float, float], floor: float = 34) -> list[Target]:
    part = part_of([(near, far, floor) for near, far in walls], length=400)
    return [target_of(groove, MM, 0.02) for groove in part.grooves]


def stretch(near: float, far: float) -> tuple[int, int]:
    return MM.count(far), MM.count(near)


def test_right_grooves_pair_off():
    found = pair(targets((-10, -13), (-20, -23)), [stretch(-20, -23), stretch(-10, -13)], 20)
    assert found.pairs == ((0, 1), (1, 0))
    assert not found.missing
    assert not found.extra


def test_a_row_off_by_its_pitch_has_one_missing_and_one_extra():
    drawn = targets(*((-10 - 5 * i, -13 - 5 * i) for i in range(4)))
    cut = [stretch(-15 - 5 * i, -18 - 5 * i) for i in range(4)]
    found = pair(drawn, cut, 20)
    assert found.pairs == ((1, 0), (2, 1), (3, 2))
    assert found.missing == (0,)
    assert found.extra == (3,)


def test_a_row_off_by_the_insert_keeps_its_order():
    drawn = targets(*((-10 - 5 * i, -13 - 5 * i) for i in range(4)))
    cut = [stretch(-7 - 5 * i, -10 - 5 * i) for i in range(4)]
    assert pair(drawn, cut, 20).pairs == ((0, 0), (1, 1), (2, 2), (3, 3))


@pytest.mark.parametrize(("off", "paired"), [(4.5, True), (4.501, False), (30.0, False)])
def test_farther_away_than_a_width_and_a_half_is_missing_and_extra(off, paired):
    found = pair(targets((-10, -13)), [stretch(-10 - off, -13 - off)], 20)
    assert (found.pairs, found.missing, found.extra) == ((((0, 0),), (), ()) if paired else ((), (0,), (0,)))


@pytest.mark.parametrize(
    ("groove", "near", "paired"),
    [(-50, -11.5, True), (-50, -11.499, False), (-10, -31.5, True), (-10, -31.501, False)],
)
def test_beside_a_recess_wider_than_every_groove_its_own_width_counts(groove, near, paired):
    """Middles 30 apart, one and a half times 20; the groove is 3 wide."""
    found = pair(targets((groove, groove - 3)), [stretch(near, near - 20)], 20)
    assert found.pairs == (((0, 0),) if paired else ())


def test_a_right_groove_is_never_given_away():
    """Without that, shifting both by one place would cost no more in sum."""
    found = pair(targets((-10, -13), (-14, -17)), [stretch(-14, -17), stretch(-18, -21)], 20)
    assert (1, 0) in found.pairs


@pytest.mark.parametrize("seed", range(40))
def test_the_assignment_is_optimal(seed):
    """Outside check: the same gains, full matrix, solved by scipy."""
    rng = random.Random(seed)
    places = sorted(rng.sample(range(2, 60), rng.randint(2, 8)))
    drawn = targets(*((-5.0 * p, -5.0 * p - rng.choice([2, 3, 4])) for p in places))
    cut = []
    for target in drawn:
        if rng.random() < 0.85:
            shift, grow = rng.randrange(-4000, 4000), rng.randrange(-500, 500)
            cut.append((target.u0 + shift, target.u1 + shift + grow))
    rng.shuffle(cut)
    gains = np.zeros((len(drawn), max(len(cut), 1)))
    for t, target in enumerate(drawn):
        for r, (a, b) in enumerate(cut):
            apart = abs(target.u0 + target.u1 - a - b) / 2
            overlap = target.u0 < b and a < target.u1
            if overlap or apart <= 1.5 * max(target.u1 - target.u0, b - a):
                cost = abs(a - target.u0) + abs(b - target.u1)
                gains[t, r] = max(1, 4 * (target.u1 - target.u0 + b - a) - cost)
    rows, columns = linear_sum_assignment(-gains)
    found = pair(drawn, cut, 0)
    assert sum(gains[t, r] for t, r in found.pairs) == gains[rows, columns].sum()


def test_a_thousand_shifted_grooves_are_paired_in_order():
    drawn = targets(*((-2.0 * i - 1, -2.0 * i - 2) for i in range(190)))
    cut = [(t.u0 + 300, t.u1 + 300) for t in drawn]
    assert pair(drawn, cut, 20).pairs == tuple((i, i) for i in range(190))


def overlay_of(part, moves: Moves) -> Overlay:
    land = Metal(part_pieces(part, MM, OUTSIDE)).profile()
    return Overlay.of(land, cut_profile(moves.motions, [tool()], part, MM), -60_000, 0)


def test_pieces_parted_by_a_rib_inside_a_groove_are_one_recess():
    part = part_of([(-10, -17, 34)])
    laid = overlay_of(part, Moves().plunge(-13, 34).plunge(-17, 34))
    assert find_recesses(laid, [target_of(part.grooves[0], MM, 0.02)], 20, 20).recesses == ((-17_000, -10_000),)


def test_the_same_pieces_are_two_where_nothing_is_drawn():
    part = part_of([(-40, -43, 34)])
    laid = overlay_of(part, Moves().plunge(-13, 34).plunge(-17, 34))
    assert find_recesses(laid, [target_of(part.grooves[0], MM, 0.02)], 20, 20).recesses == (
        (-17_000, -14_000),
        (-13_000, -10_000),
    )


def test_a_shallow_cut_over_several_grooves_is_taken_apart():
    part = part_of(row(3, -10, 5, 3, 34))
    moves = Moves().rapid(42, -30).feed(39).feed(None, -8)
    for z in (-13, -18, -23):
        moves.plunge(z, 34)
    drawn = [target_of(groove, MM, 0.02) for groove in part.grooves]
    found = find_recesses(overlay_of(part, moves), drawn, 20, 20)
    assert found.recesses == ((-23_000, -20_000), (-18_000, -15_000), (-13_000, -10_000))
    assert found.shaved == ((-30_000, -23_000), (-20_000, -18_000), (-15_000, -13_000), (-10_000, -5_000))


def test_targets_at_a_place_are_those_that_a_look_at_each_finds():
    """Oracle: every target held against the stretch, in the order in which they are given."""
    rng = random.Random(4)
    for _ in range(200):
        # Walls in any order, wide ones over narrow ones too.
        walls = [(-a, -a - b) for a, b in ((rng.randrange(1, 60), rng.randrange(1, 30)) for _ in range(8))]
        given = [t for near, far in walls for t in targets((near, far))]
        places = _TargetsByPlace(given)
        for _ in range(20):
            low, slack = rng.randrange(-90_000, 0, 500), rng.choice((0, 20, 500))
            one = (low, low + rng.randrange(500, 20_000, 500))
            assert places.over(one) == [t for t in given if t.u0 < one[1] and one[0] < t.u1]
            held = [t for t in given if t.u0 - slack <= one[0] and one[1] <= t.u1 + slack]
            assert places.around(one, slack) == (held[0] if held else None)
