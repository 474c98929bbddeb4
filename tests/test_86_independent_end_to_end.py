"""Drawing in, program out, through the command line: the second reader finds the drawing's grooves in the metal."""

from pathlib import Path

import pytest
from support.independent.made import DIALECTS, made, plain_grooves
from support.independent.offices import compose
from support.independent.outcomes import outcome


@pytest.mark.parametrize("family", ["base", "dressed", "placed", "scaled"])
@pytest.mark.parametrize("seed", [1, 2])
def test_what_is_read_right_is_cut_right(tmp_path: Path, family: str, seed: int) -> None:
    case = compose(plain_grooves(family, seed))
    assert case.part is not None
    assert case.part.grooves
    assert outcome(case).word == "right"
    for dialect in DIALECTS:
        assert made(case, dialect, "far" if seed % 2 else "near", tmp_path) == ("made", []), dialect
