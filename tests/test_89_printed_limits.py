"""The tool against what drawings print: the metal that its programs leave, and how it judges other programs."""

from pathlib import Path

import pytest
from support.limits_oracle.fits import din_471, held, steps_of_sizes


@pytest.mark.parametrize("rows", [(0, 5), (5, 10)])
def test_ring_grooves_of_din_471_are_cut_and_judged_within_their_classes(tmp_path: Path, rows: tuple[int, int]) -> None:
    assert held(tmp_path, din_471(*rows), ("floor", "width")) == []


@pytest.mark.parametrize(("name", "sizes"), [("h11", (18, 18.1, 30, 30.1, 50, 50.1)), ("js13", (80, 80.1, 120, 120.1))])
def test_floors_at_both_sides_of_a_step_of_iso_286_are_cut_and_judged_within_their_class(
    tmp_path: Path, name: str, sizes: tuple[float, ...]
) -> None:
    assert held(tmp_path, steps_of_sizes(list(sizes), name)) == []
