"""An operation taken up at any of its grooves: what is written runs with nothing known of what stood before it.

The simulation begins with those blocks; the grooves before are taken to be cut, the others must all come out right.
"""

import pytest
from support.hand_plans import PLANS
from support.parts import part_of, row

from planner import parse_shop, plan_part
from planner.assembly import MOST_RESTARTS
from planner.steps import Halt, Remark, ToolCall
from postproc import Heading, compare_program, dialects, lower, restart_blocks, write_program
from postproc.writing.writer import write_steps

HEADING = Heading("a.dxf", "0" * 64)
NAMES = ("ten wide and deep", "at a shoulder", "three in a bore", "two sizes", "at odd places", "toleranced floor")
JOBS = {hand.name: (hand.part, hand.shop) for hand in PLANS if hand.name in NAMES}
SHOP = next(iter(JOBS.values()))[1]
JOBS["two rows, pecked"] = (part_of([*row(3, -8, 8, 3, 30), *row(2, -40, 9, 4, 34)], length=70), SHOP)
FACE = {"where": "face", "mouth_diameter": 38.0, "near_land_diameter": 40.0, "far_land_diameter": 0.0}
JOBS["a face and a row"] = (
    part_of([(0, -3, 32, FACE), *row(2, -20, 9, 3, 34)], diameter=50, length=70),
    SHOP,
)


def planned(job, dialect, *changes):
    part, text = JOBS[job]
    plan = plan_part(part, parse_shop(text, "s", "mm", changes), cycles=dialect.cycles)
    assert not plan.stopped, plan.findings
    return part, plan


@pytest.mark.parametrize("job", JOBS)
def test_every_restart_cuts_what_is_left(job):
    for name, dialect in dialects().items():
        part, plan = planned(job, dialect)
        done: set[int] = set()
        for place, operation in enumerate(plan.operations):
            assert [restart.groove for restart in operation.restarts] == list(operation.grooves)
            following = [step for other in plan.operations[place + 1 :] for step in other.steps]
            for index, restart in enumerate(operation.restarts):
                steps = lower([*restart.steps, *following, *plan.after], dialect)
                text = write_steps(steps, plan.increments, dialect, HEADING).text
                before = done | set(operation.grooves[:index])
                verdict = compare_program(part, text, plan.shop, dialect, left_out=tuple(before))
                assert verdict.agree, (name, restart.groove, [f.message for f in verdict.findings if f.stops])
                blocks = restart_blocks(plan, restart, dialect)
                assert "\n".join(blocks) in text.replace("\r\n", "\n")
            done |= set(operation.grooves)


@pytest.mark.parametrize("name", dialects())
def test_stops_by_choice_between_operations_with_the_tool_away(name):
    dialect = dialects()[name]
    part, plan = planned("two rows, pecked", dialect, "optional_stops=true", "remarks=true")
    assert len(plan.operations) > 1
    for operation in plan.operations:
        assert isinstance(operation.steps[0], Remark)
    for operation in plan.operations[1:]:
        halt = operation.steps.index(Halt(optional=True))
        assert isinstance(operation.steps[halt + 1], ToolCall)
    text = write_program(plan, dialect, HEADING).text
    assert text.count("M01") == len(plan.operations) - 1
    verdict = compare_program(part, text, plan.shop, dialect)
    assert verdict.agree, verdict.findings
    assert not [f for f in verdict.findings if f.level == "caution"]


@pytest.mark.parametrize(("number", "restarts"), [(MOST_RESTARTS, MOST_RESTARTS), (MOST_RESTARTS + 1, 1)])
def test_a_very_long_row_is_begun_again_from_its_first_alone(number, restarts):
    part = part_of(row(number, -5, 4, 3, 94), diameter=100, length=4 * number + 20)
    plan = plan_part(part, parse_shop(SHOP, "s", "mm", ("stick_out=250",)), cycles="full")
    assert [len(operation.grooves) for operation in plan.operations] == [number], plan.findings
    assert [len(operation.restarts) for operation in plan.operations] == [restarts]
