"""Random parts in random shops: a plan that cuts the part right, or a refusal that names what is missing; no more."""

from hypothesis import HealthCheck, given, settings
from support.draw import Drawn, full_outline, sheet_of
from support.jobs import followed_jobs, jobs, odd_jobs
from support.rapids import needless_rapids
from support.recorder import run_of

from extractor import ReadOptions, read_sheet
from planner import parse_shop, plan_part
from planner.steps import Cut, GrooveCycle, Rapid
from postproc import judge

NAMED = {"groove-too-narrow", "groove-too-deep", "corner-too-sharp", "corner-smaller", "jaws"}
ODDLY_NAMED = {"recess-not-planned", "bore-too-small", "tailstock", "power", "face-curve", "no-tool"}


SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much]


@settings(max_examples=25, deadline=None, suppress_health_check=SLOW)
@given(jobs())
def test_a_program_that_compares_right_or_a_refusal_with_a_name(job):
    _no_third_outcome(*job, NAMED)


@settings(max_examples=25, deadline=None, suppress_health_check=SLOW)
@given(odd_jobs())
def test_every_shape_on_every_side(job):
    _no_third_outcome(*job, NAMED | ODDLY_NAMED)


@settings(max_examples=5, deadline=None, suppress_health_check=SLOW)
@given(followed_jobs())
def test_recesses_that_must_be_followed(job):
    _no_third_outcome(*job, NAMED | ODDLY_NAMED | {"groove-too-small"})


def _no_third_outcome(part, shop, codes):
    plan = plan_part(part, shop)
    if plan.stopped:
        stops = [f for f in plan.findings if f.stops]
        assert {f.code for f in stops} <= codes
        assert all(f.groove is not None and any(c.isdigit() for c in f.message) for f in stops)
        assert not plan.operations
        return
    verdict = judge(part, run_of(plan), shop)
    assert [m for m in verdict.matches if m.state != "matches"] == []
    assert [f for f in verdict.findings if f.stops] == []
    assert verdict.agree
    _sound(part, plan)


def _sound(part, plan):
    """Every groove once; every span a whole number of shifts; rapids along Z only above the lands on their way."""
    assert sorted(n for o in plan.operations for n in o.grooves) == [g.id for g in part.grooves]
    assert sorted(n for s in plan.sets for n in s.grooves) == [g.id for g in part.grooves]
    assert needless_rapids(plan.steps) == []
    x = z = None
    for step in plan.steps:
        if isinstance(step, GrooveCycle):
            assert step.shift == 0 or (step.end_z - z) % step.shift == 0
            assert step.floor_x != x
            assert (step.shift == 0) == (step.end_z == z)
        if isinstance(step, Rapid | Cut):
            assert step.x is None or step.z is None or isinstance(step, Cut), "one axis at a time"
            # The last of a way beside a shoulder is fed.
            x, z = step.x or x, z if step.z is None else step.z


LEAN = (
    (0, 27.83),
    (-8, 27.83),
    (-8, 27.19, -(2**0.5 - 1)),
    (-8.5, 26.69),
    (-10.88, 26.82),
    (-15.38, 27.83),
    (-40, 27.83),
)
"""A wall, a corner of a quarter circle, a floor that rises by 3 degrees and a cone of 13 degrees up to the land."""


def test_a_relief_that_runs_out_in_a_cone_below_the_land():
    drawing = sheet_of(full_outline(Drawn(tuple((*map(float, corner), 0.0)[:3] for corner in LEAN))))
    part = read_sheet(drawing, ReadOptions(units="mm")).part
    text = "[machine]\ntolerance = 0.02\n[[tools]]\nstation = 1\nwidth = 0.5\ncorner_radius = 0.2\nmax_depth = 20\n"
    _no_third_outcome(part, parse_shop(f'units = "mm"\n{text}', "s", "mm"), NAMED | ODDLY_NAMED | {"groove-too-small"})
