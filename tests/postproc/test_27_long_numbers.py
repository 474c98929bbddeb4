"""Lengths of more digits than a control holds: a slip of the finger is told with its line and column.

Eight digits: common practice, no source.
"""

import pytest
from support.programs import run_of

from extractor.finding import Level

ROW = "G21 G99\nG00 X42. Z-13.\nG75 R.5\nG75 X34. Z-23. P{peck} Q5000 F.1\nM30\n"


def stops(text, units="mm"):
    return [(f.code, f.line, f.message) for f in run_of(text, units=units).findings if f.level is Level.STOP]


@pytest.mark.parametrize(
    ("units", "word"), [("mm", "X100000."), ("mm", "Z-100000."), ("in", "X10000."), ("in", "Z-10000.0001")]
)
def test_a_length_of_nine_digits_is_a_stop(units, word):
    unit = {"mm": "G21", "in": "G20"}[units]
    (stop,) = stops(f"{unit}\nG00 {word}\nM30\n", units)
    assert stop == ("number-too-long", 2, f"{word} at column 5 is longer than any control takes; check its digits.")


@pytest.mark.parametrize(("units", "word"), [("mm", "X99999.999"), ("mm", "Z-99999.999"), ("in", "X9999.9999")])
def test_a_length_of_eight_digits_is_none(units, word):
    unit = {"mm": "G21", "in": "G20"}[units]
    assert stops(f"{unit}\nG00 {word}\nM30\n", units) == []


def test_a_peck_of_nine_digits_is_a_stop_in_its_cycle():
    (stop,) = stops(ROW.format(peck="100000000"))
    assert stop[:2] == ("number-too-long", 4)
    assert stop[2].startswith("P100000000 at column 16 ")
    assert stops(ROW.format(peck="1000")) == []


def test_the_tool_goes_no_farther_than_a_control_can_say():
    """Nothing behind the reader need fear a number without end."""
    run = run_of("G21\nG00 X42. Z5.\nX" + "9" * 40 + ".\nM30\n")
    assert max(abs(n) for m in run.motions for n in (m.x0, m.x1, m.z0, m.z1)) < 10**9
    assert any(f.level is Level.STOP and f.line == 3 for f in run.findings)
