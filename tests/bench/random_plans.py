"""A thousand random parts in random shops, planned, written and compared in every dialect; prints what came of them.

Run as `python -m pytest tests/bench/random_plans.py -s`. A program that compares right, or a refusal that names what is
missing: there is no third outcome. The time of the plan is held against the run of the written program.
"""

from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.jobs import followed_jobs, jobs, odd_jobs

from planner import plan_part
from postproc import Heading, compare_program, dialects, interpret, parse_program, run_seconds, write_program

HEADING = Heading("part.dxf", "0" * 64)
SEEN: Counter[str] = Counter()
WORST = [0.0]


@settings(max_examples=1000, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.one_of(jobs(), odd_jobs(), followed_jobs()))
def test_no_third_outcome(job):
    part, shop = job
    plan = plan_part(part, shop)
    if plan.stopped:
        SEEN.update(f.code for f in plan.findings if f.stops)
        assert all(f.groove for f in plan.findings if f.stops)
        return
    for name, dialect in dialects().items():
        plan = plan_part(part, shop, cycles=dialect.cycles)
        text = write_program(plan, dialect, HEADING).text
        verdict = compare_program(part, text, shop, dialect)
        assert verdict.agree, (name, verdict)
        SEEN[f"agrees in {name}"] += 1
        run = interpret(parse_program(text), dialect, part.units)
        WORST[0] = max(WORST[0], abs(run_seconds(run, shop.machine) / plan.seconds - 1))


def test_the_figures():
    print()
    for what, count in SEEN.most_common():
        print(f"{count:6} {what}")
    print(f"plan's time against the run of the program: {100 * WORST[0]:.4f} % off at most")
    assert WORST[0] < 0.02
