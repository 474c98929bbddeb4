"""Projections of true solids: lines from a solid kernel's hidden-line removal, the truth from the part."""

import pytest
from support.independent.outcomes import outcome
from support.independent.solid_recipes import solid_recipe
from support.independent.solid_sheets import solid_case


@pytest.mark.parametrize("seed", range(12))
def test_projected_solids_are_read_right_or_refused(seed: int) -> None:
    found = outcome(solid_case(solid_recipe(seed)))
    assert found.word in ("right", "refused", "refused-ok"), found.why


def test_most_projected_solids_are_read() -> None:
    words = [outcome(solid_case(solid_recipe(seed))).word for seed in range(100, 112)]
    assert words.count("right") >= len(words) * 3 // 4, words
