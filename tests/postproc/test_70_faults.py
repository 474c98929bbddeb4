"""Every kind of fault, in a right program of every dialect that can write it: told, with the right groove or line.

A fault is an edit of the text (what a slip of the finger or a bad idea makes of it) or a shop with another insert.
"""

import re
from dataclasses import dataclass, field
from typing import Any

import pytest
from support.moves import shop, tool
from support.parts import part_of, row
from support.tongues import FIVE

from planner import parse_shop, plan_part
from postproc import Heading, State, compare_program, dialects, write_program

PART = part_of(row(4, -10, 5, 3, 34))
INSERT = tool(corner_radius=0.2)
SHOP = shop(INSERT, sharp_corner=0.2)
PLAN = plan_part(PART, SHOP)
TEXTS = {
    name: write_program(PLAN, dialect, Heading("ring.dxf", "ab" * 32)).text for name, dialect in dialects().items()
}
CYCLES, ALL = ("two-block", "one-block"), tuple(TEXTS)


@dataclass(frozen=True)
class Fault:
    """An edit, and what must come of it: `states` of grooves by number (0 for extra), or `code` on a line with `at`."""

    name: str
    edits: dict[str, tuple[str, str]]
    code: str = ""
    at: str = ""
    states: dict[int, State] = field(default_factory=dict)
    insert: dict[str, Any] = field(default_factory=dict)


def same(pattern: str, new: str, names: tuple[str, ...] = ALL) -> dict[str, tuple[str, str]]:
    """One edit for several dialects."""
    return dict.fromkeys(names, (pattern, new))


def cycle_or(cycle: tuple[str, str], plunge: tuple[str, str]) -> dict[str, tuple[str, str]]:
    """One edit for the cycle's dialects, one for single plunges."""
    return same(*cycle, CYCLES) | {"plunge": plunge}


def all_grooves(state: State) -> dict[int, State]:
    return dict.fromkeys((1, 2, 3, 4), state)


LAST_PLUNGE = r"G00 Z-28\.\n(?:G0. X.*\n)+?G00 X42\.\n"
FAULTS = [
    Fault("end of the row off", same(r"Z-28\.", "Z-28.2", CYCLES), "span-not-whole", "G75", {4: State.WIDTH}),
    Fault("last groove off", {"plunge": (r"Z-28\.", "Z-28.2")}, states={4: State.POSITION}),
    Fault("first groove off", {"plunge": (r"Z-13\.", "Z-13.1")}, states={1: State.POSITION}),
    Fault("start of the row off", same(r"Z-13\.", "Z-12.9", CYCLES), "span-not-whole", "G75"),
    Fault("one groove too many", same(r"Z-28\.", "Z-33.", CYCLES), states={0: State.EXTRA}),
    Fault("one groove too few", same(r"Z-28\.", "Z-23.", CYCLES), states={4: State.MISSING}),
    Fault("a plunge left out", {"plunge": (LAST_PLUNGE, "G00 X42.\n")}, states={4: State.MISSING}),
    Fault("floor too high", same(r"X34\.", "X34.2"), states=all_grooves(State.DEPTH)),
    Fault("floor too low", same(r"X34\.", "X33.8"), states=all_grooves(State.DEPTH)),
    Fault("radius for diameter", same(r"X34\.", "X17."), states=all_grooves(State.DEPTH)),
    Fault(
        "shift too long",
        {"two-block": ("Q5000", "Q5100"), "one-block": (r"K5\.", "K5.1")},
        "span-not-whole",
        "G75",
        {2: State.POSITION, 3: State.POSITION},
    ),
    Fault(
        "insert set to the other edge",
        same("^%", "%"),
        states=all_grooves(State.POSITION),
        insert={"reference": "near"},
    ),
    Fault("insert too narrow", same("^%", "%"), states=all_grooves(State.WIDTH), insert={"width": 2.5}),
    Fault("insert too wide", same("^%", "%"), states=all_grooves(State.WIDTH), insert={"width": 3.1}),
    Fault("insert too short", same("^%", "%"), "beyond-reach", "", insert={"max_depth": 2.0}),
    Fault("starts below the land", cycle_or((r"G00 X42\.", "G00 X39."), ("$^", "")), "start-below-land", "G75"),
    Fault(
        "rapid for feed", {"plunge": (r"G01 X40\. F0\.08\nG00 X41\.\nG01", "G00")}, "rapid-into-material", "G00 X38."
    ),
    Fault("no feed", same(r" F0\.08", ""), "no-feed", "X"),
    Fault(
        "feed per minute",
        same("G99", "G98", CYCLES) | {"plunge": ("G95", "G94")},
        "feed-per-minute",
        "F0.08",
    ),
    Fault("feed out by ten", same(r"F0\.08", "F0.8"), "feed-too-great", "F0.8"),
    Fault("feed meant per minute", same(r"F0\.08", "F80."), "feed-too-great", "F80."),
    Fault("no clamp", same(r"G(50|92) S\d+\n", ""), "no-clamp", "X"),
    Fault("spindle not started", same(" M03", ""), "spindle-off", "X"),
    Fault("a tool that isn't there", same("T0303", "T0505"), "tool-unknown", "X"),
    Fault("another tool's offset", same("T0303", "T0301"), "offset", "X"),
    Fault("inch for millimetre", same("G21", "G20", CYCLES) | {"plunge": ("G71", "G70")}, "units-differ", "G"),
    Fault(
        "peck out by ten", {"two-block": ("P1000", "P10000"), "one-block": (r"I1\.", "I10.")}, "peck-out-by-ten", "G75"
    ),
    Fault("peck a tenth", {"two-block": ("P1000", "P100"), "one-block": (r"I1\.", "I.1")}, "peck-out-by-ten", "G75"),
    Fault("point in a whole word", {"two-block": ("P1000", "P1000.")}, "point-in-whole-word", "G75"),
    Fault("point in the shift", {"two-block": ("Q5000", "Q5000.")}, "point-in-whole-word", "G75"),
    Fault("no point in a length", same(r"X34\.", "X34"), "no-decimal-point", "X34"),
    Fault("relief at the floor", {"two-block": ("Q5000", "Q5000 R0.2")}, "relief-at-floor", "R0.2"),
    Fault(
        "out of the groove aslant",
        {"plunge": (r"G00 X42\.\nG00 Z-13\.\nG00 X200\.", "G00 X200. Z100.")},
        "rapid-into-material",
        "Z100.",
    ),
    Fault("sideways in solid", {"plunge": (r"G00 X42\.\nG00 Z-18\.", "G01 Z-18. F0.08")}, "sideways-in-solid", "Z-18."),
    Fault("into the jaws", cycle_or((r"Z-28\.", "Z-73."), (r"Z-28\.", "Z-73.")), "into-jaws", ""),
    Fault("deeper than the reach", same(r"X34\.", "X4."), "beyond-reach", ""),
    Fault("a word nobody knows", same(r"X34\.", "X34. V1."), "unknown-word", "V1."),
    Fault("a minus left out", same(r"Z-28\.", "Z28."), states={4: State.MISSING}),
    Fault("a comment not closed", same(r"CHUCK SIDE\)", "CHUCK SIDE"), "comment", "CHUCK"),
    Fault(
        "back through the part",
        same(r"G00 X200\.\nG00 Z100\.\n(?=T0300|M)", "G00 Z100.\nG00 X36.\nG00 Z-5.\n"),
        "rapid-into-material",
        "Z-5.",
    ),
    Fault("stays in the groove", {"plunge": (r"G00 X42\.\nG00 Z-18\.", "G00 Z-18.")}, "rapid-into-material", "Z-18."),
]
CASES = [(fault, name) for fault in FAULTS for name in fault.edits if name in ALL and fault.edits[name][0] != "$^"]


def test_there_are_many_kinds_and_all_dialects():
    assert len({fault.name for fault in FAULTS}) >= 35
    assert {name for _, name in CASES} == set(ALL)


@pytest.mark.parametrize("name", ALL)
def test_the_programs_are_right_before(name):
    assert compare_program(PART, TEXTS[name], SHOP, dialects()[name]).agree


def stands(at, lines):
    """True if a feed that was given once is told on the line that first cuts with it."""
    given = [line for line in lines if "F" in line and not line.startswith("(")]
    return at.startswith("F") and "F" not in lines[-1] and at in given[-1]


@pytest.mark.parametrize(("fault", "name"), CASES, ids=[f"{f.name}-{n}" for f, n in CASES])
def test_a_fault_is_told_with_its_groove_or_line(fault, name):
    pattern, new = fault.edits[name]
    text, count = re.subn(pattern, new, TEXTS[name], flags=re.MULTILINE)
    assert count
    insert = tool(**({"corner_radius": 0.2} | fault.insert))
    found = compare_program(PART, text, shop(insert, sharp_corner=0.2), dialects()[name])
    assert not found.agree
    states = {match.drawing or 0: match.state for match in found.matches}
    for groove, state in fault.states.items():
        assert states[groove] is state
    if fault.code:
        lines = text.split("\n")
        stops = [f for f in found.findings if f.stops and f.code == fault.code]
        assert stops, found.findings
        assert all(f.line and (fault.at in lines[f.line - 1] or stands(fault.at, lines[: f.line])) for f in stops)


@pytest.mark.parametrize("name", ALL)
def test_without_naming_the_dialect_the_answer_is_the_same(name):
    named = compare_program(PART, TEXTS[name], SHOP, dialects()[name])
    assert compare_program(PART, TEXTS[name], SHOP) == named


def test_block_skip_that_changes_what_is_cut_is_a_caution():
    text = TEXTS["plunge"].replace("G01 X34.", "/G01 X34.", 1)
    found = compare_program(PART, text, SHOP)
    assert found.agree
    (finding,) = [f for f in found.findings if f.code == "block-skip"]
    assert text.split("\n")[finding.line - 1].startswith("/")
    assert finding.message.endswith("set the switch as meant.")
    skipped = TEXTS["plunge"].replace("G00 X42.", "/G00 X42.")
    lines = skipped.split("\n")
    crash = next(n for n, line in enumerate(lines, 1) if "G00 Z" in line and n > finding.line)
    # Where the feed mode is left out a cut before it is doubtful too.
    for text in (skipped, skipped.replace("\nG90 G95\n", "\n/G90 G95\n")):
        (finding,) = [f for f in compare_program(PART, text, SHOP).findings if f.code == "block-skip"]
        assert f"Line {crash} then: The rapid from" in finding.message
    harmless = TEXTS["plunge"].replace("M09", "/M09")
    assert not compare_program(PART, harmless, SHOP).findings


BAR = "O1\nG21 G99\nT0303\nG97 S900 M03\nG00 X60.\nZ-13.\nX42.\nG01 X34. F.08\nG00 X42.\nG28 U0\nG28 W0\n"


@pytest.mark.parametrize(
    ("text", "idle"),
    [
        (BAR + "/M99\nM30\n", []),
        (BAR.replace("G21", "/M98 P9\nG21") + "M30\nO9\nM08\nM99\n", []),
        (BAR.replace("G21", "/M98 P9\nG21") + "/M99\nM30\nO9\nM08\nM99\n", []),
        (BAR + "/M99\nM30\nO9\nM08\nM99\n", [14]),
        (BAR + "M99\n/M08\nM30\n", [13]),
        (BAR + "M30\n", []),
        (BAR.replace("G21", "/GOTO5\nM98 P8\nGOTO6\nN5 M98 P9\nN6 G21") + "M30\nO8\nM08\nM99\nO9\nM08\nM99\n", []),
        (BAR.replace("G21", "/GOTO5\nM98 P9\nGOTO6\nN5 M98 P8\nN6 G21") + "M30\nO8\nM08\nM99\nO9\nM08\nM99\n", []),
    ],
)
def test_blocks_to_which_either_setting_of_block_skip_leads_are_run(text, idle):
    """A bar is worked off by M99, and M30 behind it ends the last piece, the skip on (common practice, no source)."""
    found = compare_program(part_of([(-10, -13, 34)]), text, SHOP)
    assert [f.line for f in found.findings if f.code == "not-run"] == idle
    assert "Nothing leads" not in " ".join(f.message for f in found.findings if f.code == "block-skip")


def test_blocks_behind_those_that_block_skip_leads_to_are_told():
    found = compare_program(part_of([(-10, -13, 34)]), BAR + "/M99\nM30\nG00 X50.\n", SHOP)
    (told,) = [f.message for f in found.findings if f.code == "block-skip"]
    assert "Line 14 then: Nothing leads to the blocks from here on" in told


@pytest.mark.parametrize("coolant", ["coolant = true\n", "coolant = false\n", ""])
def test_coolant_that_block_skip_leaves_out_is_a_caution(coolant):
    machine = parse_shop(f'units = "mm"\n[machine]\n{coolant}[[tools]]\nstation = 3\nwidth = 3\n', "s", "mm")
    head = "G21 G99\nT0303\nG97 S900 M03\nG00 X60.\nZ-13.\nX42.\n"
    cuts = "G01 X34. F.08\nX33.99\nG00 X42.\nG28 U0\nM30"
    part = part_of([(-10, -13, 34)])

    def told(text):
        found = compare_program(part, text, machine)
        assert found.agree
        return [(f.line, f.message) for f in found.findings if f.code == "block-skip"]

    ((line, message),) = told(f"{head}/M08\n{cuts}")
    assert line == 7
    assert "left out and the cut of line 8 loses its coolant; set the switch as meant" in message
    assert told(f"{head}/M01\n{cuts}") == told(f"{head}M08\n/M01\n{cuts}") == told(f"{head}M08\n/M08\n{cuts}") == []
    assert told(f"/M08\n{head}M08\n{cuts}") == told(f"{head}M08\n/M09\n{cuts}") == []
    assert told(f"{head}/M09\n{cuts}") == []


@pytest.mark.parametrize(
    ("head", "out", "line", "then"),
    [
        ("G21 G99", "/G00 X200.", 9, "Line 10 then: The program ends at X42. Z-13., beside the part"),
        ("G21\n/G99", "G00 X200.", 2, "Line 8 then: No word before this cut says feed per revolution"),
        ("G21\n/G99\nG99", "G00 X200.", None, ""),
    ],
)
def test_block_skip_that_makes_a_right_program_doubtful_is_a_caution(head, out, line, then):
    """Within 10 of the part, 60 across, a hand that takes it out meets the insert."""
    text = f"{head}\nT0303\nG97 S900 M03\nG00 X60.\nZ-13.\nX42.\nG01 X34. F.08\nG00 X42.\n{out}\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), text, SHOP)
    assert found.agree
    told = [f for f in found.findings if f.code == "block-skip"]
    assert [f.line for f in told] == ([line] if line else [])
    assert all(then in f.message and "left out and more is to be looked at; set" in f.message for f in told)


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("X60.002", "G00 X60.002\n/G00 X200.", 10),
        ("G97 S900 M03", "G97 S900 M03\n/G97 S901", 4),
        ("G01 X34. F.08", "/F.081\nG01 X34.", 7),
        ("X60.002", "/M09\nX60.002", None),
        ("\nX42.", "\nX42.\n/X42.", None),
        ("\nX42.", "\n/X42.\nX42.", None),
    ],
)
def test_block_skip_by_which_the_same_grooves_are_cut_otherwise_is_a_note(old, new, line):
    head = "G21 G99 F.08\nT0303\nG97 S900 M03\nG00 X60.\nZ-13.\nX42.\nG01 X34. F.08\nG00 X42.\nX60.002\nM30"
    found = compare_program(part_of([(-10, -13, 34)]), head.replace(old, new), SHOP)
    assert found.agree
    told = [(f.line, f.level.value) for f in found.findings if f.code == "block-skip"]
    assert told == ([(line, "note")] if line else [])


EVERY = {**dialects(), **FIVE}


@pytest.mark.parametrize("name", EVERY)
def test_a_word_left_out_of_a_block_that_cuts_to_the_floor_is_told(name):
    """In each dialect, those of the tests as well: no such program falls over, and none agrees in silence."""
    text = write_program(plan_part(PART, SHOP, cycles=EVERY[name].cycles), EVERY[name], Heading("a.dxf", "0" * 64)).text
    lines = text.split("\n")
    floor = re.compile(r"^[^(;]*(\b[A-Z]+=?(34|17)(000)?\b|#10\d=|G87)")
    cuts = [number for number, line in enumerate(lines) if floor.match(line)]
    assert compare_program(PART, text, SHOP, EVERY[name]).agree
    assert cuts
    for number in cuts:
        for word in (one for one in lines[number].split() if one[0] != "N"):
            left = lines[number].replace(word, "", 1)
            without = "\n".join([*lines[:number], left, *lines[number + 1 :]])
            found = compare_program(PART, without, SHOP, EVERY[name])
            assert not found.agree or any(f.level.value != "note" for f in found.findings), (lines[number], word)
