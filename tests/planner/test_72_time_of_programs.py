"""The time of a plan against the interpreter's own integral over the written program, in every dialect.

Within two in a hundred: tool changes, dwells, pecks, constant surface speed with its clamp, finishing, slopes, faces.
"""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from support.jobs import jobs, odd_jobs
from support.parts import part_of, row
from support.programs import run_of

from planner import default_shop, parse_shop, plan_part
from planner.steps import ToolCall
from postproc import Heading, dialects, find_dialect, run_seconds, write_program

HEADING = Heading("part.dxf", "0" * 64)


def both_times(part, shop, dialect):
    """Seconds as planned for a dialect, and of the run of its text."""
    plan = plan_part(part, shop, cycles=dialect.cycles)
    if plan.stopped:
        return 0.0, 0.0
    run = run_of(write_program(plan, dialect, HEADING).text, dialect, part.units)
    return plan.seconds, run_seconds(run, shop.machine)


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.one_of(jobs(), odd_jobs()),
    st.sampled_from(list(dialects().values())),
    st.integers(150, 4000),
    st.sampled_from([0.0, 0.1, 0.5, 3.0]),
)
def test_a_plan_takes_as_long_as_its_program(job, dialect, most, retract):
    part, shop = job
    scale = 1 if part.units == "mm" else 1 / 25.4
    machine = replace(shop.machine, max_rpm=most, cycle_retract=retract * scale, tool_change=1.7)
    planned, run = both_times(part, replace(shop, machine=machine), dialect)
    assume(planned)
    assert run == pytest.approx(planned, rel=0.02)


@pytest.mark.parametrize("name", dialects())
def test_two_tools_a_dwell_and_many_pecks(name):
    text = (
        'units="mm"\n[machine]\nmax_rpm=700\ncycle_retract=0.8\n[[tools]]\nstation=1\nwidth=3\nmax_depth=12\npeck=0.4\n'
        "dwell=2\nlast_feed=0.5\n[[tools]]\nstation=2\nwidth=1.3\nmax_depth=3\npeck=0\n"
    )
    toleranced = {"tolerances": {"floor_diameter": (-0.1, 0.0)}}
    part = part_of([*row(3, -10, 8, 3, 18, **toleranced), (-50, -51.3, 37)])
    shop = parse_shop(text, "s", "mm")
    plan = plan_part(part, shop, cycles=find_dialect(name).cycles)
    assert len([step for step in plan.steps if isinstance(step, ToolCall) and step.offset]) == 2
    planned, run = both_times(part, shop, find_dialect(name))
    assert planned > 60
    assert run == pytest.approx(planned, rel=0.02)


class TestTheRetractOfTheControl:
    PART = part_of(row(4, -10, 5, 3, 24))

    def seconds(self, text, cycles="own retract"):
        return plan_part(self.PART, parse_shop(text, "s", "mm"), cycles=cycles).seconds

    def test_it_counts_where_the_program_can_t_say_it(self):
        near, far = (self.seconds(f'units="mm"\n[machine]\ncycle_retract={r}\n') for r in (0.1, 1.0))
        assert far > near + 1

    def test_it_counts_for_nothing_where_the_program_says_it(self):
        near, far = (self.seconds(f'units="mm"\n[machine]\ncycle_retract={r}\n', cycles="full") for r in (0.1, 1.0))
        assert near == far

    def test_by_hand(self):
        # 40 + 2 down to 24, nine pecks of 1, at 120 m/min and 0.08 a turn: the tool goes back 0.5 eight times.
        base, more = (self.seconds(f'units="mm"\n[machine]\nmax_rpm=1000\ncycle_retract={r}\n') for r in (0.0, 0.5))
        diameters = [42 - 2 * k for k in range(1, 9)]
        speeds = [min(1000, 120_000 / (3.14159265 * (d + 0.5))) for d in diameters]
        by_hand = 4 * sum(60 * 0.5 / (0.08 * n) + 60 * 0.5 / 10_000 for n in speeds)
        assert more - base == pytest.approx(by_hand, rel=0.01)

    def test_that_it_is_taken_for_granted_is_said(self):
        silent = parse_shop("", "s", "mm")
        notes = [
            f for f in plan_part(self.PART, silent, cycles="own retract").findings if f.code == "cycle-retract-unknown"
        ]
        assert "the time was worked out with 0.500 mm, because the shop file gives no cycle_retract" in notes[0].message
        told = parse_shop('units="mm"\n[machine]\ncycle_retract=0.3\n', "s", "mm")
        for shop, cycles in ((silent, "full"), (silent, "none"), (told, "own retract")):
            codes = {f.code for f in plan_part(self.PART, shop, cycles=cycles).findings}
            assert "cycle-retract-unknown" not in codes

    def test_in_inches_it_has_a_default_of_its_own(self):
        assert default_shop("in").machine.cycle_retract == 0.02
