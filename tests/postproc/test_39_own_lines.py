"""Lines round the steps in a shape of the dialect's own: written, known again, and no difference in a conversion."""

import pytest

from extractor.errors import SettingsError
from planner.increment import Increments
from planner.steps import Coolant, SpindleStop
from postproc import find_dialect, interpret
from postproc.conformance import conformance
from postproc.converting.convert import convert
from postproc.dialects import read_dialect
from postproc.framed import framed
from postproc.reading.renaming import parse_as

# Invented controls, each written from the guide alone; no real one is meant.
MOOR = """
stands = ["feed", "motion"]
[words]
inch = "G270"
metric = "G271"
absolute = "G90"
incremental = "G91"
clamp_or_zero = []
per_minute = "G194"
per_rev = "G195"
surface = "G196"
rpm = "G197"
[switches]
end = "M02"
clockwise = "M103"
counter = "M104"
[numbers]
x = "radius"
point = "optional"
increments = {}
decimals = { mm = 4, in = 5 }
[blocks]
tool = "T{station} D{offset} M06"
cancel = "D0"
clamp = "SMAX={rpm}"
surface = "{g} SC={speed} {sense}"
zero = ""
home = ""
arc = "{g} X{x} Z{z} RAD={radius} F{feed}"
dwell = "{g} TS={seconds}"
[cycle]
blocks = ["M198 P77 DEEP={depth} LAST={end}? BITE={peck} EVERY={shift}? UP={retract} F{feed}"]
leaves = "last"
[program]
start = ["PROG {number:04}"]
opening = ["{units} {absolute} {per_rev}"]
comment = "<{text}>"
block_numbers = "all"
end = ["{coolant_off} {spindle_off}", "{end}", "LAST LINE"]
"""
HEATH = """
repeat = "subprogram"
other_words = "none"
[words]
groove = "G175"
inch = "G70"
metric = "G71"
[switches]
call = "M198"
[numbers]
point = "never"
increments = {}
least = { mm = 0.001, in = 0.0001 }
[blocks]
call = "{m} P{program}"
tool = "T{station}{offset:02}"
home = "{g} X{home_x}? Z{home_z}?"
[cycle]
blocks = ["{g} X{floor} C{more} W{shift:signed}? D{peck:diameter} E{retract} F{feed}"]
[program]
start = ["HEATH {number:04} {units}"]
opening = ["{per_rev}"]
subprogram = ["PART {program}", "{return}"]
comment = "* {text}"
comment_width = 20
"""
MADE = {name: read_dialect(text, name) for name, text in {"moor": MOOR, "heath": HEATH}.items()}
CANNOT = {
    "moor": {"groove in a bore", "where the tool stands", "reference point along both axes", "reference point along X"},
    "heath": set(),
}


@pytest.mark.parametrize("name", MADE)
def test_they_read_what_they_write(name):
    told = conformance(MADE[name])
    assert {(one.what, one.units): one.fault for one in told if one.fault} == {}
    assert {one.what for one in told if one.cannot} == CANNOT[name]


def test_what_their_own_lines_do_is_known():
    own = framed(MADE["moor"], Increments.of("mm"))
    assert (own.before, own.after) == ((), (Coolant(False), SpindleStop()))


@pytest.mark.parametrize(
    ("name", "line", "known"),
    [
        ("moor", "prog 12", ["O12"]),
        ("moor", "PROG 12 X5", None),
        ("moor", "G00 X5. <KEEP (OFF)> Z2.", ["G00", "X5.", "Z2."]),
        ("moor", "LAST LINE", []),
        ("moor", "LAST LINES", None),
        ("heath", "HEATH 0012 G71", ["O12", "G71"]),
        ("heath", "PART 7", ["O7"]),
        ("heath", "G00 X5 * G01 Z2", ["G00", "X5"]),
        ("heath", "G00 X5*2", None),
    ],
)
def test_only_the_very_lines_are_known(name, line, known):
    parsed = parse_as(f"G271\n{line}\n" + "G00 X10. Z10.\n" * 5, MADE[name])
    words = [str(word) for block in parsed.blocks[1:-5] for word in block.words]
    assert (words if not [f for f in parsed.findings if f.stops] else None) == known


def test_a_program_called_by_a_word_of_its_own_is_the_one_that_runs():
    text = (
        "PART 7\nG01 X3400 F80\nG00 X4200\nM99\nHEATH 1 G71\nG99\nT101\nG97 S500 M03\nG00 X4200 Z-900\nM198 P7\nM30\n"
    )
    run = interpret(parse_as(text, MADE["heath"]), MADE["heath"])
    assert [f.message for f in run.findings if f.stops] == []
    assert [(m.kind, m.x1, m.z1) for m in run.motions] == [
        ("rapid", 4_200, -900),
        ("feed", 3_400, -900),
        ("rapid", 4_200, -900),
    ]


TEXT = "O7\nG21 G99\nT0303\nG50 S2500\nG96 S120 M03\nM08\nG00 X42. Z-13.\nG01 X34. F0.08\nG00 X150.\nM09\nM30\n"


def test_lines_that_stop_the_spindle_at_the_end_are_listed_and_no_difference():
    made = convert(TEXT, find_dialect("two-block"), MADE["moor"])
    assert made.refusals == ()
    assert made.notes == ("moor has lines of its own at head or end: M09 M05",)


@pytest.mark.parametrize("line", ["G00 X10.", "G01 X30. F.1", "M00"])
def test_a_cut_in_such_lines_is_one(line):
    own = read_dialect(f'base = "two-block"\n[program]\nend = ["{line}", "{{end}}"]\n', "own")
    made = convert(TEXT, find_dialect("two-block"), own)
    assert bool(made.program) is not line.startswith("G01")


FAULTS = [
    # lines of [program], what the sentence says
    ('end = ["{nonsense}"]', "line 2: program.end has {nonsense}, which is neither a field of such a line nor a word"),
    ('end = ["{pauze} {end}"]', "(did you mean {pause}?)"),
    ('subprogram = ["O{nonsense}", "{return}"]', "nor a word (it may have {program})"),
    ('opening = ["{absolute} {units}"]', "line 2: program.opening has {absolute}, and words.absolute is missing"),
    ('opening = ["G90 {units}"]', "line 2: program.opening has G90, which [words] gives no meaning"),
    ('opening = ["{per_rev}"]', "line 2: program.opening must say the units by {units}"),
    ('opening = ["G21 {units}"]', "must say the units by {units}"),
    ('opening = ["BEGIN", "{units}"]', "has 'BEGIN', which is not a block"),
    ('end = ["{spindle_off}"]', "line 2: program.end has no word that ends the program: write {end}"),
    ('comment = "(text)"', "must have {text} once"),
    ('comment = "({text}"', "begins with a parenthesis, and must be ({text}) then"),
    ('comment = "R{text}"', "begins with 'R', as words or marks do"),
    ('base = "two-block"', "line 2: program.base belongs in the lines above the first table"),
]


@pytest.mark.parametrize(("lines", "told"), FAULTS)
def test_lines_that_can_not_be_read_back_are_faults_of_the_file(lines, told):
    with pytest.raises(SettingsError) as caught:
        read_dialect(f"[program]\n{lines}\n", "own")
    assert told in str(caught.value)


def test_a_reference_point_by_letters_that_move_nothing_is_a_fault():
    with pytest.raises(SettingsError, match=r"blocks\.home has U\{home_x\}, and U doesn't move X here"):
        read_dialect("[numbers]\nincrements = {}\n", "own")
