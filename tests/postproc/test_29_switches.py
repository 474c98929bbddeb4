"""M words: those of the machine's own are named and let through, those that matter keep their meaning.

Which numbers builders use for chuck, bar feed and the like: common practice, no source.
"""

import pytest
from support.programs import codes, run_of

from extractor.finding import Level
from planner.steps import Coolant, Rapid, Spindle

HEAD = "G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-13.\n"


def after(text, **how):
    """The run of a text behind the usual head."""
    return run_of(f"{HEAD}{text}\nM30", **how)


def test_a_switch_of_the_machines_own_is_a_caution_once_and_its_block_runs():
    run = after("M68\nM10 G00 X40.\nM68\nM77")
    assert [(f.code, f.line, f.level) for f in run.findings] == [
        ("own-switch", 5, Level.CAUTION),
        ("own-switch", 6, Level.CAUTION),
        ("own-switch", 8, Level.CAUTION),
    ]
    assert "M68 at column 1 is this machine's own and was not checked" in run.findings[0].message
    assert run.motions[-1].x1 == 40_000


def test_switches_that_turn_or_stop_the_spindle_keep_their_meaning():
    turning = [m.turning for m in after("G00 X41.\nM19\nG00 X40.\nM14\nG00 X39.").motions[1:]]
    assert turning == [True, False, True]
    for word in ("M19", "M19 R90.", "M19 S90"):
        run = after(f"{word}\nM03\nG00 X40.")
        assert not run.findings
        assert run.motions[-1].speed == 800
    wet = after("M13\nG00 X40.")
    assert [(f.code, f.level) for f in wet.findings] == [("spindle-with-coolant", Level.CAUTION)]
    assert wet.steps[-3:] == (Coolant(True), Spindle("rpm", 800), Rapid(x=40_000))
    assert codes(after("M03 M19")) == [("two-of-a-group", 5)]


@pytest.mark.parametrize("word", ["M17", "M46", "M47", "M96", "M97", "M197", "M198", "M10000", "M3.5", "M-8"])
def test_what_may_send_the_program_elsewhere_stops(word):
    assert codes(after(word)) == [("unknown-word", 5)]


@pytest.mark.parametrize("text", ["M68 P2", "M70 Q1", "M200 B5", "M12 K3"])
def test_a_switch_with_a_word_of_its_own_may_be_a_macro_and_stops(text):
    assert codes(after(text)) == [("own-switch", 5), ("unknown-word", 5)]


def test_a_lost_return_or_end_is_still_told():
    assert ("no-return", 8) in codes(run_of(f"{HEAD}M98 P7\nM30\nO0007\nM89"))
    assert ("no-end", 5) in codes(run_of(f"{HEAD}M31"))
    assert ("unknown-word", 5) in codes(run_of(f"{HEAD}M89 P7\nM30\nO0007\nM99"))
