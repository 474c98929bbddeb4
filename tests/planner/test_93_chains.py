"""Grooves that hang on one another, of any shape and cut as wide as may be: the lands between them stay."""

from itertools import pairwise

import pytest
from support.parts import part_of
from support.recorder import run_of

from extractor.distance import Distance, Place
from extractor.places import with_distances
from planner import parse_shop, plan_part
from planner.steps import GrooveCycle
from postproc import judge


def chain(spots, land):
    """Grooves with lands between them, a chain from the front: each from the last."""
    ends = [Distance(start=Place(groove=0, spot="front"), end=Place(groove=1, spot="near"), nominal=-spots[0][0])]
    for number in range(1, len(spots)):
        start, end = Place(groove=number, spot="far"), Place(groove=number + 1, spot="near")
        ends.append(Distance(start=start, end=end, nominal=land))
    return with_distances(part_of(spots), ends)


def three(wide, upper, land):
    """Three grooves `wide` +upper/0."""
    starts = [-5 - k * (wide + land) for k in range(3)]
    return chain([(at, at - wide, 34.0, {"tolerances": {"width": (0.0, upper)}}) for at in starts], land)


HEAD = 'units = "mm"\n[machine]\nstick_out = 200\n'
SQUARE = "[[tools]]\nstation = 1\nwidth = 3\nmax_depth = 20\n"


@pytest.mark.parametrize(("upper", "land"), [(0.05, 4.0), (0.08, 4.0), (0.05, 2.6), (0.02, 4.0)])
def test_lands_between_grooves_that_one_plunge_makes_are_as_wide_as_printed(upper, land):
    """An insert of 3 is as wide as the least width; aimed at the middle of that, the lands grow by half of the rest."""
    part, tools = three(3.0, upper, land), parse_shop(HEAD + SQUARE, "s", "mm")
    plan = plan_part(part, tools)
    verdict = judge(part, run_of(plan), tools)
    assert verdict.agree, verdict.findings
    (cycle,) = [step for step in plan.steps if isinstance(step, GrooveCycle)]
    assert cycle.shift == round(1000 * (3.0 + land))


def gaps(part, text):
    """The lands that the plan leaves between neighbours; it must agree with the drawing."""
    tools = parse_shop(HEAD + text, "s", "mm")
    verdict = judge(part, run_of(plan_part(part, tools)), tools)
    assert verdict.agree, verdict.findings
    cut = [match.program for match in verdict.matches]
    return [one.z_far - other.z_near for one, other in pairwise(cut)]


def test_lands_between_grooves_that_two_plunges_make_are_as_wide_as_printed():
    """An insert of 2 makes the middle of the width's limits, so the lands keep theirs without any of this."""
    narrow = "[[tools]]\nstation = 1\nwidth = 2\nmax_depth = 20\n"
    assert gaps(three(3.0, 0.05, 4.0), narrow) == pytest.approx([4.0, 4.0], abs=0.0011)


LIMITS = {"tolerances": {"width": (0.0, 0.05)}}


@pytest.mark.parametrize(
    ("spot", "text"),
    [
        ((-5, -7, 38, {"shape": "vee"}), 'edge = "vee"\nangle = 90\nwidth = 4\n'),
        ((-5, -7.8284, 38, {"shape": "round", "corner_radius": 1.5}), 'edge = "round"\nwidth = 3\n'),
        ((-5, -11, 34, {"shape": "tapered", "run": 1.0}), "width = 2\n"),
    ],
)
def test_the_land_beside_a_recess_that_is_not_as_wide_as_its_insert(spot, text):
    """A vee 2 wide by an insert 4 wide, an arc 1 deep by one of 3, slopes beside a core of 4."""
    first, second = spot[1] - 4, spot[1] - 11
    part = chain([spot, (first, first - 3, 34, LIMITS), (second, second - 3, 34, LIMITS)], 4.0)
    tools = f"{SQUARE}[[tools]]\nstation = 2\nmax_depth = 20\n{text}"
    assert gaps(part, tools) == pytest.approx([4.0, 4.0], abs=0.0025)


def test_a_chain_behind_a_groove_in_the_face_is_as_wide_as_its_own_insert():
    """On the face 3 wide counts as 6 across the diameter; beside it the lands of 4 stay all the same."""
    face = (0, -4, 30, {"where": "face", "mouth_diameter": 36})
    part = part_of([face, (-12, -15, 34, LIMITS), (-19, -22, 34, LIMITS), (-26, -29, 34, LIMITS)])
    ends = [Distance(start=Place(groove=0, spot="front"), end=Place(groove=2, spot="near"), nominal=12)]
    for number in (2, 3):
        start, end = Place(groove=number, spot="far"), Place(groove=number + 1, spot="near")
        ends.append(Distance(start=start, end=end, nominal=4.0))
    across = '[[tools]]\nstation = 2\nwhere = "face"\nwidth = 3\nmax_depth = 12\nface_min = 20\nface_max = 100\n'
    tools = parse_shop(HEAD + SQUARE + across, "s", "mm")
    plan = plan_part(with_distances(part, ends), tools)
    cut = [match.program for match in judge(part, run_of(plan), tools).matches]
    assert [(one.z_near, one.z_far) for one in cut] == [(0, -4), (-12, -15), (-19, -22), (-26, -29)]
