"""Projections of true solids: lines from a solid kernel's hidden-line removal, the truth from the part."""

import pytest
from support.independent.outcomes import outcome
from support.independent.solid_recipes import solid_recipe
from support.independent.solid_sheets import solid_case


@pytest.mark.parametrize("seed", range(2))
def test_projected_solids_are_read_right_or_refused(seed: int) -> None:
    found = outcome(solid_case(solid_recipe(seed)))
    assert found.word in ("right", "refused", "refused-ok"), found.why


def test_most_projected_solids_are_read() -> None:
    found = [outcome(solid_case(solid_recipe(seed))) for seed in range(100, 104)]
    # An end view that shows flats may be that of a bar: it is asked whether they are cut after turning.
    asked = [one for one in found if one.word == "refused" and "flats are cut after turning" in (one.why or "")]
    assert len(asked) <= len(found) // 3
    rest = [one.word for one in found if one not in asked]
    assert rest.count("right") >= len(rest) * 3 // 4, rest
