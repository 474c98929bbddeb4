"""Grooves that hang on one another, cut narrower than the middle of their width: the lands between them stay."""

import pytest
from support.parts import part_of
from support.recorder import run_of

from extractor.distance import Distance, Place
from extractor.places import with_distances
from planner import parse_shop, plan_part
from planner.steps import GrooveCycle
from postproc import judge


def chain(wide, upper, land):
    """Three grooves `wide` +upper/0 with lands between them, a chain from the front: each from the last."""
    spots, at = [], -5.0
    for _ in range(3):
        spots.append((at, at - wide, 34.0, {"tolerances": {"width": (0.0, upper)}}))
        at -= wide + land
    ends = [Distance(start=Place(groove=0, spot="front"), end=Place(groove=1, spot="near"), nominal=5.0)]
    for number in (1, 2):
        start, end = Place(groove=number, spot="far"), Place(groove=number + 1, spot="near")
        ends.append(Distance(start=start, end=end, nominal=land))
    return with_distances(part_of(spots), ends)


@pytest.mark.parametrize(("upper", "land"), [(0.05, 4.0), (0.08, 4.0), (0.05, 2.6), (0.02, 4.0)])
def test_lands_between_grooves_that_one_plunge_makes_are_as_wide_as_printed(upper, land):
    """An insert of 3 is as wide as the least width; aimed at the middle of that, the lands grow by half of the rest."""
    text = 'units = "mm"\n[machine]\nstick_out = 200\n[[tools]]\nstation = 1\nwidth = 3\nmax_depth = 20\n'
    part, tools = chain(3.0, upper, land), parse_shop(text, "s", "mm")
    plan = plan_part(part, tools)
    verdict = judge(part, run_of(plan), tools)
    assert verdict.agree, verdict.findings
    (cycle,) = [step for step in plan.steps if isinstance(step, GrooveCycle)]
    assert cycle.shift == round(1000 * (3.0 + land))


def test_lands_between_grooves_that_two_plunges_make_are_as_wide_as_printed():
    """An insert of 2 makes the middle of the width's limits, so the lands keep theirs without any of this."""
    text = 'units = "mm"\n[machine]\nstick_out = 200\n[[tools]]\nstation = 1\nwidth = 2\nmax_depth = 20\n'
    part, tools = chain(3.0, 0.05, 4.0), parse_shop(text, "s", "mm")
    verdict = judge(part, run_of(plan_part(part, tools)), tools)
    assert verdict.agree, verdict.findings
