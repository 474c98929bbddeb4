"""The tool against what drawings print: the metal that its programs leave, and how it judges other programs."""

from pathlib import Path

import pytest
from support.limits_oracle import noted, overhangs, places, seen, stepped
from support.limits_oracle.cases import random_case
from support.limits_oracle.fits import din_471, held, steps_of_sizes
from support.limits_oracle.points import POINTS
from support.limits_oracle.weighing import made

# The modules enter their points; the bench prints all of them.
KINDS = (noted, overhangs, places, seen, stepped)
SEEDS = range(6)
NAMES = [
    "a dovetail is a stop that can be accepted",
    "a half dovetail is a stop that can be accepted",
    "a T-slot is a stop that can be accepted",
    "a relief that reaches into the shoulder's face is a stop that can be accepted",
    "a pocket under one wall is a stop that can be accepted",
    "a 6 wide slot in the floor of a 14 wide recess",
    "a 3 wide slot in the floor of an 8 wide recess",
    "a 6 wide slot in the floor of a 30 wide recess",
    "a land 4 +0.2/+0.1 between two grooves is kept",
    "10 +0.2/0 from the front face to the near wall means 10.0 to 10.2",
    "10 -0.1/-0.2 to the near wall means 9.8 to 9.9",
    "dimension variables on a near wall mean the same as text",
    "13 +0.2/+0.1 to the far wall means 13.1 to 13.2",
    "an inch place 1.000 +.008/.000 means 1.000 to 1.008",
    "a centre 11.5 +0.2/+0.1 from the front face is kept",
    "63 +0.2/+0.1 from the back face to the near wall is kept",
    "a bare near wall does not move where the width has +0.3/+0.1",
    "a bare far wall does not move where the width has +0.3/+0.1",
    "a pitch 3x 7 +0.2/+0.1 holds for each space and adds up along the row",
    "a face groove's outer wall 40 +0.2/+0.1 is kept",
    "a face groove's wall printed 41 on a drawn 40 is reported",
    "a class holds a face groove's depth, width and diameters",
    "five like grooves of which one carries the tolerances are all cut within them",
    "like grooves with tolerances of their own are each cut within them",
    "like grooves whose tolerances do not overlap are each cut within their own",
    "R0.5 +/-0.1 is kept, whatever the insert's corner",
    "R0.5 +/-0.1 left by RE 0.4 or 0.6 agrees, by 0.05, 0.39 or 0.61 differs",
    "a note led to a groove limits its width and its floor, and those of grooves drawn alike",
    "a note that counts grooves limits each, and a depth counts twice on the diameter",
    "a bare inch width led to a groove is limited",
    "a note in a bore makes the floor greater",
    "a bare nought in an inch diameter 1.360 .000/-.005 is a limit",
]


@pytest.mark.parametrize("name", NAMES)
def test_what_small_drawings_print_is_kept_judged_or_stopped_at(tmp_path: Path, name: str) -> None:
    assert POINTS[name](tmp_path) == []


@pytest.mark.parametrize("rows", [(0, 5), (5, 10)])
def test_ring_grooves_of_din_471_are_cut_and_judged_within_their_classes(tmp_path: Path, rows: tuple[int, int]) -> None:
    assert held(tmp_path, din_471(*rows), ("floor", "width")) == []


@pytest.mark.parametrize(("name", "sizes"), [("h11", (18, 18.1, 30, 30.1, 50, 50.1)), ("js13", (80, 80.1, 120, 120.1))])
def test_floors_at_both_sides_of_a_step_of_iso_286_are_cut_and_judged_within_their_class(
    tmp_path: Path, name: str, sizes: tuple[float, ...]
) -> None:
    assert held(tmp_path, steps_of_sizes(list(sizes), name)) == []


@pytest.mark.parametrize("seed", SEEDS)
def test_random_drawings_are_made_within_every_printed_limit_or_refused_with_a_fact(tmp_path: Path, seed: int) -> None:
    case = random_case(seed)
    verdict = made(case, case.save(tmp_path), tmp_path)
    assert not verdict.wrong, verdict.facts
