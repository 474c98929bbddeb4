"""Golden programs: every sample in every dialect as it was last looked at and found good.

    python -m pytest tests/test_92_golden.py --renew

writes them anew; read the difference before committing it.
"""

import difflib
from pathlib import Path

import pytest
from support.drawings import DIALECTS, SAMPLES
from support.forms import make_drawing

from rillwright.settings import Settings

GOLDEN = Path(__file__).parent / "golden"


def difference(golden, made):
    """The difference as a setter would mark it, empty if there is none."""
    lines = difflib.unified_diff(golden.splitlines(), made.splitlines(), "golden", "made", lineterm="", n=1)
    return "\n".join(lines) if golden != made else ""


@pytest.mark.parametrize("dialect", DIALECTS)
@pytest.mark.parametrize("drawing", SAMPLES, ids=lambda path: path.stem)
def test_the_program_is_the_golden_one(drawing, dialect, tmp_path, request):
    make_drawing(drawing, tmp_path, Settings(dialect=dialect))
    made = (tmp_path / f"{drawing.stem}.nc").read_text("ascii")
    golden = GOLDEN / f"{drawing.stem}.{dialect}.nc"
    if request.config.getoption("--renew"):
        golden.write_text(made, "ascii")
    assert not difference(golden.read_text("ascii"), made), difference(golden.read_text("ascii"), made)


def test_the_comparison_can_fail():
    golden = (GOLDEN / "piston.two-block.nc").read_text("ascii")
    changed = golden.replace("Q", "K", 1)
    assert difference(golden, golden) == ""
    assert "+" in difference(golden, changed)
    assert difference(golden, golden + "\n")


def test_no_golden_program_is_left_of_a_sample_that_is_gone():
    wanted = {f"{drawing.stem}.{dialect}.nc" for drawing in SAMPLES for dialect in DIALECTS}
    assert {path.name for path in GOLDEN.glob("*.nc")} == wanted
