"""Dialect files that are at fault: every fault with its line, the nearest key, and nothing that reads two ways."""

import re
import tomllib

import pytest

from extractor.errors import SettingsError
from postproc.conformance import conformance
from postproc.dialects import OURS, blank_text, read_dialect, text_of
from postproc.vocabulary.acts import Switch

CYCLE = '[words]\ngroove = "G75"\n[cycle]\nblocks = ['

FAULTS = [
    # text, what the sentence says
    ("titel = 'x'", "line 1: titel is not a key of a dialect (did you mean title?)"),
    ('\n[words]\nrapit = "G00"', "line 3: words.rapit is not a key of a dialect (did you mean rapid?)"),
    ('[words]\nrapid = "X00"', "line 2: words.rapid has 'X00', and must have words like G04"),
    ('[words]\nrapid = []', "words.rapid is missing, and no program can do without it"),
    ('[words]\nhome = ["G28", "G28"]', "has one word twice"),
    ('[numbers]\nx = "radii"', "line 2: numbers.x is 'radii', and must be \"diameter\" or \"radius\""),
    ('[numbers]\ndigits = 0', "line 2: numbers.digits is 0, and must be a whole number from 1 to 15"),
    ('[numbers]\ndigits = 16', "from 1 to 15"),
    ('[numbers]\nleast = { mm = 0.002, in = 0.0001 }', "must be a decimal step for each"),
    ('[numbers]\ndecimals = { mm = 3 }', "must be whole numbers like"),
    ('[numbers.P]\npoints = "never"', "line 2: numbers.P.points is not a key of a dialect (did you mean point?)"),
    ('[blocks]\ncut = "{g} X{x}? Z{z}?"', "line 2: blocks.cut lacks {feed}"),
    ('[blocks]\ncut = "{g} X{x}? Z{z}? F{feed} Q{peck}"', "has {peck}, which this kind of block doesn't have"),
    ('[blocks]\ncut = "{g} X{x}? X{z}? F{feed}"', "has the address X twice"),
    ('[blocks]\ncut = "{g} U{x}? Z{z}? F{feed}"', "must have its places as X{x} and Z{z}"),
    ('[blocks]\ncut = "{g} X{x}? Z{z}? S{feed}"', "and S is already rpm"),
    ('[blocks]\ntool = "T{station}{offset}"', "whose numbers run into each other"),
    ('[blocks]\ntool = "T{offset:02}{station:02}"', "must have the station before the offset"),
    ('[blocks]\ndwell = "{g} P{ms} X{seconds}"', "must have one of {ms} and {seconds}"),
    ('[blocks]\narc = "{g} X{x} Z{z} R{radius} I{i} F{feed}"', "must have one of {radius}"),
    ('[blocks]\nrapid = "G00?"', "only a word with a field can be left out"),
    ('[blocks]\nrapid = "{g} X{x:wide}"', "is none of radius, diameter"),
    ('[blocks]\nrapid = "go to X"', "'go', which is not a word"),
    (CYCLE + '"{g} X{floor} F{feed}"]', "must say a row by {shift}"),
    (CYCLE + '"{g} X{floor} Z{end} Q{shift} F{feed}"]', "must always say {peck} and {feed}"),
    (CYCLE + '"{g} X{floor} Z{end}? P{peck} Q{shift} F{feed}"]', "leaves out only one of {shift} and the end"),
    (CYCLE + '"{g} X{floor} W{depth} Z{end} P{peck} Q{shift} F{feed}"]', "must say how deep once"),
    (CYCLE + '"{g} R{retract} X{floor} Z{end} P{peck} Q{shift} F{feed}", "{g} F{feed}"]', "in two blocks"),
    (CYCLE + '"{g} P{peck}?", "{g} X{floor} Z{end} Q{shift} F{feed}"]', "where the value of an earlier call would"),
    (CYCLE + '"R{retract}", "{g} X{floor} Z{end} P{peck} Q{shift} F{feed}"]', "can't be told from a move"),
    (CYCLE + '"{g} U{floor} Z{end} P{peck} Q{shift} F{feed}"]', "and U is an increment"),
    ('[blocks]\ndwell = "{g} W{ms}"', "line 2: blocks.dwell has W{ms}, and W is an increment"),
    ('[blocks]\nclamp = "{g} U{rpm}"', "and U is an increment; take it out of numbers.increments"),
    ('[blocks]\ndwell = "D{ms}"', "line 2: blocks.dwell can't be told from other blocks: begin it with {g}"),
    ('[blocks]\nsurface = "{g} R{speed} {sense}"', "has R for several things (radius, speed)"),
    ('[blocks]\ncut = "{g} X{x}? Z{z}? R{feed}"', "has R for several things (feed, radius)"),
    ('[blocks]\ntool = "T{station} D{offset}"\ncancel = "D0"\ndwell = "{g} D{ms}"', "has D for several things"),
    ('[blocks]\nclamp = "LIMIT={rpm}"\nrpm = "{g} LIMIT={speed} {sense}"', "has no {g}, and its LIMIT= stands"),
    ('[blocks]\narc = "{g} X{x} Z{z} H{centre_x} R{centre_z} F{feed}"', "has R for its centre"),
    (CYCLE + '"{g} X{floor} Z{end} P{peck:diameter} Q{shift:radius} F{feed}"]', "is neither radius nor diameter"),
    (CYCLE + '"{g} X{floor} Z{end} P{peck:signed} Q{shift} F{feed}"]', "only shift and depth have a direction"),
    ('[cycle]\nblocks = ["{g} X{floor} Z{end} P{peck} Q{shift} F{feed}"]', "words.groove is missing"),
    ('[cycle]\nblocks = ["X{floor} Z{end} P{peck} Q{shift} F{feed}"]', "has no word that calls the cycle"),
    ('repeat = "modal"', "line 1: repeat is modal, and [cycle] gives no ended_by"),
    ('repeat = "subprogram"', "needs blocks.call and the two lines"),
    ('[own_switches]\nG68 = "x"', "line 2: own_switches.G68 has 'G68', and must have words like M08"),
    ('[own_switches]\nM68 = " "', "line 2: own_switches.M68 must say in quotes what the word does"),
    (f'[own_switches]\nM68 = "{61 * "x"}"', "in at most 60 characters"),
    ('[own_switches]\nM68 = ["x"]', "must say in quotes what the word does"),
    ('[own_switches]\nM68 = "x"\nM068 = "y"', "line 3: own_switches.M068 stands for x as well"),
    ('[switches]\ngear = "M68"\n[own_switches]\nM68 = "x"', "own_switches.M68 stands for gear of the spindle as well"),
    ('[own_switches]\nM30 = "door"\nM02 = "lamp"', "program.end has {end}, and switches.end is missing"),
    ('base = "no-such"', "line 1: base is 'no-such', which is not a dialect at hand"),
    ("title = ", "not valid TOML"),
    ('words = "G00"', "line 1: words must be a table"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), FAULTS)
def test_each_fault_is_told_with_its_line(text, told):
    with pytest.raises(SettingsError) as caught:
        read_dialect(text, "own", "own.toml")
    assert str(caught.value).startswith("own.toml can't be used as a dialect: ")
    assert told in str(caught.value)


def test_keys_and_patterns_at_fault_are_told_at_once_and_a_slip_in_a_field_as_what_it_is():
    text = 'titel = "x"\n[words]\nrapid = "X1"\n[blocks]\ndwell = "{g} P{mss}"\n[numbers]\ndecimals = "many"\n'
    cycle = '[cycle]\nblocks = ["{g} X{flor} Z{end}? P{peck#} Q{shift#}? F{feed}"]\n'
    with pytest.raises(SettingsError) as caught:
        read_dialect(text + cycle, "own")
    told = str(caught.value)
    for part in ("titel is not a key", "words.rapid has 'X1'", "has {mss}, which", "(did you mean {ms}?)"):
        assert part in told
    assert "line 7: numbers.decimals is 'many'" in told
    assert "line 9: cycle.blocks has {flor}, which this kind of block doesn't have (did you mean {floor}?)" in told
    assert "must" not in told.partition("cycle.blocks")[2]


def test_a_word_claimed_for_one_thing_is_no_longer_another():
    with pytest.raises(SettingsError, match=r"words\.feed is missing"):
        read_dialect('[words]\nrapid = "G01"', "own")


@pytest.mark.parametrize(
    "blocks",
    [
        'dwell = "{g} U{seconds}"',  # common practice, no source
        'dwell = "WAIT={ms}"',
        'clamp = "LIMIT={rpm}"\nrpm = "{g} VC={speed} {sense}"\nsurface = "{g} VC={speed} {sense}"',
        'arc = "{g} X{x} Z{z} I{centre_x} K{centre_z} F{feed}"',
        'tool = "T{station} D{offset}"\ncancel = "D0"\ndwell = "{g} P{ms}"',
    ],
)
def test_what_only_looks_like_two_things_is_taken_and_read_back(blocks):
    made = read_dialect(f"[blocks]\n{blocks}", "own")
    assert [(one.what, one.fault) for one in conformance(made) if one.fault] == []


def test_what_a_word_of_the_machine_does_may_be_as_long_as_a_line():
    long = 60 * "x"
    made = read_dialect(f'[own_switches]\nM68 = "{long}"\nM41 = "Bar  Feed"\nM17 = "door"', "own")
    assert made.own_switches == {68: long, 41: "bar feed", 17: "door"}
    # What is given to the machine's own is no gear any more, nor the end of a subprogram.
    assert [made.switch(number) for number in (40, 41, 17)] == [Switch.GEAR, Switch.OWN, Switch.OWN]


def test_all_faults_are_told_at_once():
    with pytest.raises(SettingsError) as caught:
        read_dialect('titel = ""\n[numbers]\nx = 3\n[program]\nend = 5', "own")
    assert re.findall(r"line (\d+):", str(caught.value)) == ["1", "3", "5"]


def test_a_blank_file_shows_each_number_as_it_is_without_it():
    frame, figure = read_dialect("", "own").frame, read_dialect("", "own").figures[""]
    for said in (
        f"comment_width = {frame.width} ",
        f"first_number = {frame.numbers.first} ",
        f"number_step = {frame.numbers.step} ",
        f"digits = {figure.digits} ",
    ):
        assert f"# {said}" in blank_text("own")


def test_a_blank_file_is_a_dialect_as_it_is_and_with_everything_in_it_said():
    assert read_dialect(blank_text("own"), "own").title == "own"
    said = "\n".join(re.sub(r"^# (?=(\[cycle\]|[a-zA-Z_]+ = ))", "", line) for line in blank_text("own").split("\n"))
    whole = tomllib.loads(said)
    assert {"words", "switches", "numbers", "blocks", "cycle", "program"} <= set(whole)
    modal = re.sub(r"^ended_by = .*$", 'ended_by = "G80"', said, flags=re.M)
    modal = re.sub(r"^comment_without = .*$", "", modal, flags=re.M)
    assert read_dialect(modal, "own").cycle.retract == "R"


def test_no_built_in_dialect_is_longer_than_forty_lines():
    assert max(len(text_of(name).splitlines()) for name in OURS) <= 40


@pytest.mark.parametrize("name", ["two-block", "trade"])
def test_a_file_may_not_take_the_name_of_one_of_ours(name):
    with pytest.raises(SettingsError, match="has the name of a built-in dialect"):
        read_dialect("", name)


@pytest.mark.parametrize(
    ("numbers", "steps"),
    [
        ("", (1_000, 10_000)),
        ("decimals = { mm = 2, in = 3 }", (100, 1_000)),
        ("decimals = { mm = 5, in = 6 }", (1_000, 10_000)),
        # Half of what X can say on the radius: an odd step of the diameter has no number.
        ('x = "radius"', (500, 5_000)),
        ('x = "radius"\ndecimals = { mm = 4, in = 5 }', (1_000, 10_000)),
        ('point = "never"\nleast = { mm = 0.01, in = 0.001 }', (100, 1_000)),
        # The shift of the cycle is a whole number of least steps, and so is every distance that it makes.
        ("least = { mm = 0.01, in = 0.001 }", (100, 1_000)),
        # However fine it writes, the usual steps are fine enough; and none is coarser than a whole unit.
        ('x = "radius"\ndecimals = { mm = 5, in = 6 }', (1_000, 10_000)),
        ("decimals = { mm = 0, in = 0 }", (1, 1)),
        ('x = "radius"\ndecimals = { mm = 0, in = 0 }', (1, 1)),
    ],
)
def test_the_steps_that_a_control_takes_for_places(numbers, steps):
    made = read_dialect(f'base = "two-block"\n[numbers]\n{numbers}', "own")
    assert (made.grid("mm").per_length, made.grid("in").per_length) == steps
