"""Plans against those that a setter wrote down by hand, move by move, before the planner was made to meet them."""

from dataclasses import replace
from itertools import pairwise

import pytest
from support.hand_clock import HandClock, as_words
from support.hand_plans import END, FEEDS, PLANS
from support.parts import part_of
from support.tight_plans import FEEDS as TIGHT_FEEDS
from support.tight_plans import TIGHT

from planner import parse_shop, plan_part
from planner.plan import Cycles
from planner.steps import Cut, Rapid
from postproc import compare_program, find_dialect, write_program
from postproc.program import Heading

HANDS = pytest.mark.parametrize("hand", PLANS, ids=lambda hand: hand.name)
TIGHTS = pytest.mark.parametrize("hand", TIGHT, ids=lambda hand: hand.name)


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


def planned(hand, cycles: Cycles = "full"):
    """The tool's plan, and what the clock of the hand plans makes of it."""
    plan = plan_part(hand.part, parse_shop(hand.shop, "s", hand.part.units), cycles=cycles)
    assert not plan.stopped, plan.findings
    return plan, hand.clock().run(" ".join(as_words(plan.steps, plan.increments)))


@pytest.mark.parametrize("cycles", ["full", "none"])
@HANDS
def test_no_plan_is_slower_than_by_hand(hand, cycles):
    plan, clock = planned(hand, cycles)
    assert hand.least < clock.seconds <= 1.05 * hand.seconds
    assert clock.seconds == pytest.approx(plan.seconds, rel=2e-3), "the two clocks share nothing"
    if cycles == "none":
        by_hand = hand.clock().run(f"X200 Z100 {hand.moves} {END}")
        assert clock.blocks <= by_hand.blocks


def test_half_of_the_plans_are_faster():
    faster = [hand.name for hand in PLANS if planned(hand)[1].seconds < hand.seconds - 0.01]
    assert len(faster) >= len(PLANS) / 2, faster


@TIGHTS
def test_the_tight_plans_dawdle_nowhere(hand):
    # Of a time that is no tool change and no rapid, the metal has nearly all but the millimetre above it.
    clock = hand.clock().run(f"{hand.home} {hand.moves} {hand.home}")
    assert hand.least < clock.seconds < 3.2 * hand.least or not hand.metal
    assert set(hand.tools) <= set(TIGHT_FEEDS)


@pytest.mark.parametrize("cycles", ["full", "none"])
@TIGHTS
def test_no_plan_is_slower_than_the_tight_ones(hand, cycles):
    plan, clock = planned(hand, cycles)
    assert hand.least < clock.seconds <= 1.05 * hand.seconds
    assert clock.seconds == pytest.approx(plan.seconds, rel=2e-3), "the two clocks share nothing"
    if cycles == "none":
        assert clock.seconds <= 1.02 * hand.seconds
        assert clock.blocks <= hand.clock().run(f"{hand.home} {hand.moves} {hand.home}").blocks


def test_written_out_the_tool_goes_from_the_front_to_the_chuck():
    hand = next(one for one in TIGHT if one.name == "fourteen at odd places")
    plan, _ = planned(hand, "none")
    down = [step.z for step in plan.steps if isinstance(step, Rapid) and step.z is not None and step.z < 0]
    assert down == sorted(down, reverse=True)
    assert len(down) == 14
    full, _ = planned(hand, "full")
    assert plan.sets == full.sets, "what is read as evenly pitched stays so"
    assert [operation.grooves for operation in plan.operations] == [tuple(range(1, 15))]


def test_a_row_beyond_a_shoulder_is_no_part_of_that_run():
    part = part_of([(z, z - 3, 35) for z in (-4, -13, -17.3, -22, -60)], length=90,
                   steps=((0.0, 40.0), (-34.0, 60.0), (-44.0, 40.0)))  # fmt: skip
    plan, _ = planned(replace(PLANS[0], part=part), "none")
    assert [operation.grooves for operation in plan.operations] == [(1, 2, 3, 4), (5,)]
    assert {operation.start_x for operation in plan.operations} == {42_000}


def test_a_collar_on_the_way_in_is_passed_in_its_middle():
    # The bore is 30 across as far as Z-20 and 36 behind it: in at X28, 1 mm off all round, then to 1 mm off the wall.
    hand = next(one for one in TIGHT if one.name == "in a bore behind a collar")
    plan, _ = planned(hand)
    x, z, places = 0, 0, []
    for step in plan.steps:
        if isinstance(step, Rapid | Cut):
            x, z = x if step.x is None else step.x, z if step.z is None else step.z
            places.append((x, z))
    assert (34_000, -38_000) in places, "the start beside the wall at hand"
    for (x0, z0), (x1, z1) in pairwise(places[1:]):
        assert x0 == x1 or z0 == z1, "one axis at a time"
        assert max(x0, x1) <= 28_000 or max(z0, z1) <= -23_000 or min(z0, z1) >= 1_000


@HANDS
def test_the_plunges_are_no_more_than_the_metal_asks_for(hand):
    plan, _ = planned(hand, "none")
    floors = {round(1000 * inner) for _, _, inner in hand.metal}
    down = [step for step in plan.steps if isinstance(step, Cut) and step.x in floors]
    assert len(down) == hand.plunges


BESIDE = [hand for hand in PLANS if "shoulder" in hand.name or "flange" in hand.name or hand.name == "round"]


@pytest.mark.parametrize(
    "name", ["two-block", "one-block", "plunge", "two-block-iso", "two-block-mixed", "one-block-iso", "one-block-mixed"]
)
def test_every_dialect_writes_them_and_agrees(name):
    dialect = find_dialect(name)
    for hand in BESIDE:
        plan, _ = planned(hand, dialect.cycles)
        text = write_program(plan, dialect, Heading("a.dxf", "0" * 64)).text
        verdict = compare_program(hand.part, text, plan.shop, dialect)
        assert verdict.agree, (hand.name, verdict.findings)
        assert not [f for f in verdict.findings if f.level == "caution"], hand.name


class TestBesideAShoulder:
    """The tool comes down a clearance off the face, and never at rapid along the start height to within that of it."""

    @pytest.mark.parametrize(
        ("gap", "sideways"), [(0.0, True), (0.4, True), (0.499, True), (0.501, False), (2.0, False)]
    )
    def test_how_near_counts_as_beside(self, gap, sideways):
        hand = next(one for one in PLANS if one.name == "at a shoulder")
        shoulder = replace(hand, part=part_of([(-27, -30, 34)], steps=((0.0, 40.0), (-30.0 - gap, 60.0))))
        plan, _ = planned(shoulder)
        assert any(isinstance(step, Cut) and step.z is not None for step in plan.steps) is sideways
        assert min(s.x for s in plan.steps if isinstance(s, Rapid) and s.x is not None) == 42_000

    def test_between_two_faces_there_is_no_way_round(self):
        part = part_of([(-20, -23, 34)], steps=((0.0, 60.0), (-20.0, 40.0), (-23.0, 60.0)))
        hand = replace(PLANS[0], part=part)
        plan, _ = planned(hand)
        assert plan.operations[0].start_x == 62_000
