"""Drawing in, program out, through the command line: the second reader finds the drawing's grooves in the metal."""

from pathlib import Path

import pytest
from support.independent.made import DIALECTS, made, plain_grooves
from support.independent.offices import compose
from support.independent.outcomes import outcome


@pytest.mark.parametrize(("number", "family"), [*enumerate(["base", "dressed", "placed", "scaled"] * 2)])
def test_what_is_read_right_is_cut_right(tmp_path: Path, number: int, family: str) -> None:
    """The dialects take turns: test_84 holds each of them against each part."""
    seed, dialect = 1 + number // 4, DIALECTS[number % len(DIALECTS)]
    case = compose(plain_grooves(family, seed))
    assert case.part is not None
    assert case.part.grooves
    assert outcome(case).word == "right"
    assert made(case, dialect, "far" if seed % 2 else "near", tmp_path) == ("made", [])
