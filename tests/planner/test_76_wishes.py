"""What an insert that the shop does not have would save, held against a hand clock and against a shop with it."""

import re

import pytest
from support.hand_clock import HandClock
from support.parts import part_of, row

from planner import parse_shop, plan_part
from planner.choose import WORTH_A_BATCH
from planner.wish import LEAST_SECONDS, WORTH_BUYING

NARROW = "[[tools]]\nstation = 1\nwidth = 1.6\ncorner_radius = 0.1\nmax_depth = 8\nfeed = 0.05\npeck = 0.6\n"
WIDE = NARROW.replace("station = 1", "station = 2").replace("1.6", "8.0")


def planned(part, tools=NARROW, machine=""):
    text = f'units = "mm"\n[machine]\nstick_out = {part.length}\n{machine}\n[material]\nname = "C45"\n{tools}'
    plan = plan_part(part, parse_shop(text, "s", "mm"))
    assert not plan.stopped
    return plan, [f.message for f in plan.findings if f.code == "insert-saves"]


SIXTY = part_of(row(60, -5, 11, 8, 37), length=680)


def test_sixty_wide_grooves_and_one_narrow_insert():
    plan, (told,) = planned(SIXTY)
    with_it, none = planned(SIXTY, NARROW + WIDE)
    assert told.startswith(
        "Grooves 1 to 60: an insert 8.000 mm wide that reaches 1.500 mm, which the shop file doesn't"
    )
    minutes = int(re.search(r"about (\d+) min a piece at the same feed", told)[1])
    assert minutes == pytest.approx((plan.seconds - with_it.seconds) / 60, rel=0.05)
    assert none == []


def test_by_the_batch():
    (told,) = planned(SIXTY, machine="batch = 20")[1]
    alone = int(re.search(r"about (\d+) min a piece", planned(SIXTY)[1][0])[1])
    assert int(re.search(r"about (\d+) min a batch of 20", told)[1]) == pytest.approx(20 * alone, rel=0.05)


def by_hand(floor):
    """Seconds of two plunges of three, which a 3 wide insert spares: at feed from 42 and out at rapid."""
    clock = HandClock({1: 0.05})
    clock.x, clock.feed = 42.0, 0.05
    clock.cut(x=floor)
    return 2 * (clock.seconds + 60 * (42 - floor) / 2 / 10_000)


def test_from_how_many_seconds_it_is_worth_a_word():
    # A 1.6 wide insert takes three plunges in 3 mm: two flats of 1.4, lapping, don't reach over 1.4.
    floors = [40 - 0.02 * k for k in range(2, 300)]
    just = next(floor for floor in floors if 6 * by_hand(floor) >= LEAST_SECONDS)
    told = [planned(part_of(row(6, -6, 7, 3, floor)))[1] for floor in (just + 0.02, just)]
    assert [len(some) for some in told] == [0, 1]
    assert "an insert 3.000 mm wide" in told[1][0]


def test_from_what_share_it_is_worth_a_word():
    # Some grooves as wide as the insert, and one that a wider one would spare two of three plunges. The share is of
    # what the choice of inserts reckons with, which leaves out ways and pecks: a little less than the plan takes.
    def share(count, floor):
        part = part_of([*row(count, -5, 4, 1.6, 33), (-100, -103, floor)], length=150)
        plan, told = planned(part, machine="batch = 1000")
        return (by_hand(floor) - 3.0) / plan.seconds, bool(told)

    found = [share(count, 34.0) for count in range(1, 14)]
    assert all((saved >= WORTH_BUYING) is told for saved, told in found if abs(saved - WORTH_BUYING) > 0.03), found
    assert {told for _, told in found} == {True, False}


@pytest.mark.parametrize(("pieces", "told"), [(0, True), (5, False), (20, True)])
def test_a_batch_too_small_for_it(pieces, told):
    part = part_of(row(8, -4, 6, 3, 36.4))
    assert 8 * by_hand(36.4) > LEAST_SECONDS
    assert 5 * 8 * by_hand(36.4) < WORTH_A_BATCH < 20 * 8 * by_hand(36.4)
    assert bool(planned(part, machine=f"batch = {pieces}")[1]) is told


def test_none_that_the_spindle_or_the_part_does_not_bear():
    # Kienzle at 0.05 and 120 m/min: 0.344 kW a millimetre of width.
    (told,) = planned(SIXTY, machine="power = 1.1")[1]
    assert float(re.search(r"insert (\d\.\d+) mm", told)[1]) <= 3.2


def test_the_built_in_list_wishes_for_nothing():
    part = part_of(row(60, -5, 11, 8.4, 36), length=680)
    plan = plan_part(part, parse_shop('units = "mm"', "s", "mm"))
    assert "insert-saves" not in {f.code for f in plan.findings}


def test_slopes_of_one_recess_say_nothing_of_an_insert_for_others():
    """An insert that makes the plain ones in one plunge is named, whatever sloping recess lies behind them."""
    sloping = (-670, -676, 37, {"shape": "tapered", "run": 1.0})
    told = planned(part_of([*row(60, -5, 11, 8, 37), sloping], length=690))[1]
    assert [one[:40] for one in told] == ["Grooves 1 to 60: an insert 8.000 mm wide"]
