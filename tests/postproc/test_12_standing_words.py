"""Words that stand are said once where the dialect says that they stay; the program means the same either way."""

import pytest
from support.hand_plans import PLANS
from support.programs import run_of

from planner import parse_shop, plan_part
from postproc import Heading, compare_program, write_program
from postproc.dialects import read_dialect

HEADING = Heading("a.dxf", "0" * 64)
ROWS = next(hand for hand in PLANS if hand.name == "at odd places")
SIZES = next(hand for hand in PLANS if hand.name == "two sizes")


def written(hand, stands):
    tongue = read_dialect(f'title = "own"\nbase = "two-block"\nstands = {stands}\n', "own")
    plan = plan_part(hand.part, parse_shop(hand.shop, "s", "mm"), cycles=tongue.cycles)
    return write_program(plan, tongue, HEADING).text, plan, tongue


@pytest.mark.parametrize(
    ("stands", "retracts", "feeds"),
    [("[]", 3, 3), ('["retract"]', 1, 3), ('["feed"]', 3, 1), ('["feed", "retract"]', 1, 1)],
)
def test_they_are_said_once(stands, retracts, feeds):
    text, _, _ = written(ROWS, stands)
    assert text.count("G75 R0.2") == retracts
    assert text.count("F0.08") == feeds


@pytest.mark.parametrize("hand", [ROWS, SIZES], ids=lambda hand: hand.name)
def test_what_is_left_out_means_the_same(hand):
    plain, plan, tongue = written(hand, "[]")
    short, _, shorter = written(hand, '["motion", "feed", "retract"]')
    assert len(short) < len(plain)
    runs = [run_of(text, one) for text, one in ((plain, tongue), (short, shorter))]
    moves = [[(m.kind, m.x1, m.z1, m.feed) for m in run.motions] for run in runs]
    assert moves[0] == moves[1]
    assert compare_program(hand.part, short, plan.shop, shorter).agree


def test_another_tool_says_all_of_it_again():
    text, _, _ = written(SIZES, '["feed", "retract"]')
    first, second = text.split("T0202\n")[-1], text.split("T0202\n")[0]
    assert "R0.2" in first
    assert "F0.08" in first
    assert "R0.16" in second
