"""Plans against those that a setter wrote down by hand, move by move, before the planner was made to meet them."""

import pytest
from support.hand_clock import HandClock
from support.hand_plans import END, FEEDS, PLANS

HANDS = pytest.mark.parametrize("hand", PLANS, ids=lambda hand: hand.name)


@HANDS
def test_no_hand_plan_beats_the_metal_and_none_dawdles(hand):
    # Air of a millimetre or two a side, a few rapids, short retracts: never so much as the metal again.
    assert hand.least < hand.seconds < 2.1 * hand.least


def test_the_clock_of_the_hand_plans():
    # t = pi (D^2 - d^2) / (4000 f vc) min from 40 to 34 at 0.08 and 120 m/min: 2.1795 s; n capped at 3000 below 12.7.
    assert HandClock(FEEDS).run("T2 X40 x34").seconds == pytest.approx(3 + 2.1795, abs=1e-3)
    assert HandClock(FEEDS).run("T2 X10 x4").seconds == pytest.approx(3 + 60 * 3 / (0.08 * 3000), abs=1e-6)
    # 100 mm along Z and 40 in radius along X at 10 m/min.
    assert HandClock(FEEDS).run("X200 Z100 X120 Z0").seconds == pytest.approx(0.24 + 0.6)
    assert HandClock(FEEDS).run(f"X200 Z100 T2 D0.5 {END}").blocks == 5
