"""One slip each in the smallest program that has it: the code, the line and the words that say what to do.

What controls do with such blocks: common practice, no source.
"""

import pytest
from support.programs import run_of

from extractor.finding import Level

HEAD = "G21 G99\nT0303\nG97 S800 M3\n"
OVER = HEAD + "G0 X42. Z-13.\n"
CYCLE = "G75 X34. Z-23. P1000 Q5000 F.1\nM30\n"

# The program, then code and line of each finding in order, then words of the first sentence.
STOPS = {
    "a dwell with a place": (OVER + "G4 X1. Z-13.\nM30\n", [("dwell", 5)], "names a place beside G04"),
    "a dwell by its own letter with a place": (
        OVER + "G4 P500 X42.\nM30\n",
        [("dwell", 5)],
        "names a place beside G04",
    ),
    "a cycle from nowhere": (
        HEAD + "G75 R.5\n" + CYCLE,
        [("cycle-start-unknown", 5)],
        "put a G00 block before it",
    ),
    "a cycle without a floor": (
        OVER + "G75 R.5\nG75 Z-23. P1000 Q5000 F.1\nM30\n",
        [("cycle-word-missing", 6)],
        "no X, the diameter of the floor",
    ),
    "a cycle whose word is missing": (
        OVER + "G75 R.5\nX34. Z-23. P1000 Q5000 F.1\nM30\n",
        [("cycle-word-missing", 6)],
        "G75 is missing in this block",
    ),
    "a dwell of a spindle that stands": (OVER + "M5\nG4 S3\nM30\n", [("dwell", 6)], "a spindle that stands"),
    "two work offsets": ("G54\n" + OVER + "G54.1 P2\nM30\n", [("zero-shift", 6)], "from G54 and from G54.1 P2"),
    "no point, in two blocks alike": (
        HEAD + "G0 X42 Z5.\nX42\nM30\n",
        [("no-decimal-point", 4), ("no-decimal-point", 5)],
        "X42 at column 4 has no decimal point",
    ),
    "no point behind a formula": (
        OVER + "#1=40.\nG1 X#1 Z-14 F.1\nM30\n",
        [("no-decimal-point", 6)],
        "Z-14 at column 8",
    ),
    "an offset with no number": (OVER + "G54.1\nM30\n", [("unknown-word", 5)], "G54.1 at column 1 names no offset"),
    "a line by its angle": (OVER + "G1 Z-20. A45. F.1\nM30\n", [("corner-word", 5)], "gives the angle of this line"),
    "a dwell without a time": (OVER + "G4\nM30\n", [("dwell", 5)], "give X in seconds"),
    "a retract below nothing": (OVER + "G75 R-.5\n" + CYCLE, [("negative-retract", 5)], "R-.5 is below 0"),
    "a subprogram without return": (
        OVER + "M98 P100\nM30\nO0100\nG1 X34. F.1\n",
        [("no-return", 8)],
        "without M99; add it",
    ),
    "a subprogram that calls itself": (
        HEAD + "M98 P100\nM30\nO0100\nM98 P100\nM99\n",
        [("subprogram", 7)],
        "calls itself without end",
    ),
    "a subprogram in no file": (HEAD + "M98 P77\nM30\n", [("subprogram", 4)], "Subprogram 77 is not in this file"),
    "one number twice": (
        OVER + "M98 P100\nM30\nO0100\nM99\nO0100\nM99\n",
        [("number-twice", 9), ("not-run", 9)],
        "give it another number",
    ),
    "a skip mark inside": (HEAD + "G0 X42. /Z-13.\nM30\n", [("skip-inside-block", 4)], "The / at column 9"),
    "units that change": (OVER + "G20\nM30\n", [("units-changed", 5)], "change to inches"),
    "units after a length": ("G0 X42.\nG21\nM30\n", [("units-late", 1)], "say the units first"),
    "two motions": (HEAD + "G0 G1 X42. F.1\nM30\n", [("two-of-a-group", 4)], "rapid and feed at once"),
    "a word twice": (HEAD + "G0 X42. X43.\nM30\n", [("repeated-word", 4)], "X stands twice"),
    "a place before any motion": (HEAD + "X42.\nM30\n", [("no-motion-word", 4)], "put G00 or G01 in its block"),
    "a macro": (HEAD + "G65 P9010 X42.\nM30\n", [("subprogram", 4)], "9010 is not in this file"),
    "an arc without a middle": (OVER + "G2 X40. Z-14. F.1\nM30\n", [("arc", 5)], "either R or I and K"),
    "an arc too small for its ends": (OVER + "G2 X40. Z-30. R1. F.1\nM30\n", [("arc", 5)], "twice its radius"),
}
CAUTIONS = {
    "home by no axis": (HEAD + "G0 X42.\nG28\nM30\n", [("home", 5)], "write U0 and W0"),
    "no depth of a peck": (
        OVER + "G75 R.5\nG75 X34. Z-23. Q5000 F.1\nM30\n",
        [("peck-not-said", 6)],
        "no P, the depth of a peck",
    ),
    "no retract": (OVER + CYCLE, [("retract-not-said", 5)], "No R block before this cycle"),
    "a retract of a few counts": (OVER + "G75 R5\n" + CYCLE, [("small-retract", 5)], "backs off only 0.005 mm"),
    "a dwell in turns": (OVER + "G4 S4\nM30\n", [("dwell-by-turns", 5)], "a dwell of 4 turns, 0.3 s"),
    "a dwell by F": (
        OVER + "G4 F2.\nM30\n",
        [("dwell-by-turns", 5)],
        "read as a dwell of 2 s; some controls take it for",
    ),
    "another work offset": ("G56\n" + OVER + "M30\n", [("work-offset", 1)], "works from G56"),
    "one of many work offsets": ("G54.1 P12\n" + OVER + "M30\n", [("work-offset", 1)], "works from G54.1 P12"),
    "two of many work offsets": (
        "G54.1 P2\n" + OVER + "G54.1 P3\nM30\n",
        [("work-offset", 1), ("zero-shift", 6)],
        "works from G54.1 P2",
    ),
    "a spindle mode that nobody said": (
        "G21 G99\nT0303\nS800 M3\nM30\n",
        [("spindle-mode-not-said", 3)],
        "say G97 or G96",
    ),
    "a dwell for a move": (OVER + "G4 X40.\nM30\n", [("dwell-long", 5)], "G04 X40. stands still for 40 s"),
    "no speed": ("G21 G99\nT0303\nM3\nG0 X42. Z-13.\nM30\n", [("speed-not-said", 3)], "give S"),
    "a first move along Z": (
        "G21 G99\nT0303\nG97 S500 M3\nG0 Z-13.\nX42.\nM30\n",
        [("first-move-along-z", 4)],
        "say X first",
    ),
    "a first move along Z after an increment": (
        "G21 G99\nT0303\nG97 S500 M3\nG0 U8.\nZ-13.\nX42.\nM30\n",
        [("first-move-along-z", 5)],
        "no block has said at which X the tool stands",
    ),
    "a first move of two increments": (
        "G21 G99\nT0303\nG97 S500 M3\nG0 U8. W-30.\nX42. Z-13.\nM30\n",
        [("first-move-along-z", 4)],
        "no block has said at which X the tool stands",
    ),
    "a corner rounded by a word": (
        OVER + "G1 X40. R.5 F.1\nZ-20.\nM30\n",
        [("corner-word", 5)],
        "R.5 at column 9 has no minus, and the next line goes toward minus",
    ),
    "a digit too many": (HEAD + "G0 X42.0004\nM30\n", [("finer-than-increment", 4)], "X42.0004 at column 4"),
    "a main program that starts over": (HEAD + "G0 X42.\nM99\n", [("endless", 5)], "one pass was followed"),
    "no end": (OVER, [("no-end", 4)], "add one"),
}


def places(run):
    return [(f.code, f.line) for f in run.findings]


@pytest.mark.parametrize(("text", "wanted", "said"), STOPS.values(), ids=STOPS)
def test_a_slip_that_stops(text, wanted, said):
    run = run_of(text)
    assert places(run) == wanted
    assert run.findings[0].level is Level.STOP
    assert said in run.findings[0].message


@pytest.mark.parametrize(("text", "wanted", "said"), CAUTIONS.values(), ids=CAUTIONS)
def test_a_slip_that_must_be_looked_at(text, wanted, said):
    run = run_of(text)
    assert places(run) == wanted
    assert run.findings[0].level is Level.CAUTION
    assert said in run.findings[0].message


@pytest.mark.parametrize("text", [row[0] for row in (*STOPS.values(), *CAUTIONS.values())])
def test_lines_before_a_slip_move_its_place_and_nothing_else(text):
    plain, moved = run_of(text), run_of("(one)\n\n(two)\n" + text)
    assert [(c, n and n - 3) for c, n in places(moved)] == places(plain)
    assert [f.message for f in moved.findings] == [f.message for f in plain.findings]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("P4000.", "P4000"), ("P4001.", "P4001000"), ("P100.", "P100"), ("P99.", "P99000"), ("P1.", "P1000")],
)
def test_a_point_too_many_is_told_with_the_number_that_fits_the_way(typed, meant):
    """The way down is 4 mm on the radius, 4000 counts; below 100 counts nobody means a peck (common practice)."""
    (stop,) = [
        f for f in run_of(OVER + f"G75 R.5\nG75 X34. {typed} F.1\nM30\n").findings if f.code == "point-in-whole-word"
    ]
    assert f"write {meant} if that is meant" in stop.message


def test_characters_of_a_tape_are_a_note():
    (note,) = run_of(HEAD + "G0 \x7fX42.\nM30\n").findings
    assert (note.level, note.code, note.line) == (Level.NOTE, "tape-character", 4)


def test_the_same_blocks_without_a_slip_say_nothing():
    assert run_of(OVER + "G75 R.5\n" + CYCLE).findings == ()
    assert run_of(OVER + "M98 P100\nM30\nO0100\nG1 X34. F.1\nM99\n").findings == ()
