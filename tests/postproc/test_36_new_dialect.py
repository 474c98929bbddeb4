"""A new dialect is tables and flags: it writes and reads at once, with no word of its own in writer or reader."""

import re

import pytest
from support.programs import EVERY_KIND, FOUR_GROOVES, plan_of
from support.tongues import FIVE

from extractor.errors import SettingsError
from planner.steps import Cut, GrooveCycle, Rapid
from postproc import Heading, explain, interpret, lower, parse_program, write_program
from postproc.dialects import BUILT_IN, read_dialect
from postproc.reading.renaming import parse_as

HEADING = Heading("ring.dxf", "0" * 64)


LETTERED = """
title = "for tests"

[words]
clamp_or_zero = "G59"
groove = "G77"
per_rev = "G39"

[numbers]
x = "radius"
increments = {}

[blocks]
dwell = "{g} X{seconds}"
home = ""

[cycle]
blocks = ["{g} H{retract}", "{g} X{floor} Z{end}? D{peck} E{shift}? F{feed}"]
"""
"""The cycle under another number and other letters, X in radii, dwell in seconds, no U and W."""

DIALECT = read_dialect(LETTERED, "lettered")


def test_it_writes():
    lines = write_program(plan_of(), DIALECT, HEADING).text.split("\n")
    assert "G39" in lines
    assert "G59 S3000" in lines
    assert lines[lines.index("G00 X21.") + 1 :][:2] == ["G77 H0.5", "G77 X17. Z-28. D1. E5. F0.08"]


@pytest.mark.parametrize("steps", [FOUR_GROOVES, EVERY_KIND])
def test_it_reads_what_it_writes(steps):
    run = interpret(parse_program(write_program(plan_of(steps), DIALECT, HEADING).text), DIALECT)
    assert run.steps == lower(steps, DIALECT)
    assert not run.findings


@pytest.mark.parametrize("name", [*BUILT_IN, *FIVE])
def test_every_word_of_every_dialect_is_explained(name):
    """With the number that it stands for: the floor is 34 across, the pecks 1 on the radius, the pitch 5."""
    dialect = BUILT_IN.get(name) or FIVE[name]
    made = explain(write_program(plan_of(EVERY_KIND), dialect, HEADING).text, dialect)
    words = {(word.text, word.meaning) for block in made.blocks for word in block.words}
    assert not [text for text, meaning in words if meaning == "not known"]
    assert not [block for block in made.blocks if "understood" in block.sentence]
    row = explain(write_program(plan_of(), dialect, HEADING).text, dialect)
    meanings = {word.meaning for block in row.blocks for word in block.words}
    if dialect.cycle is not None:
        told = (
            "34.000" if "floor" in dialect.cycle.gaps else "4.000 mm from the start",
            "1.000 mm deeper",
            "5.000 mm from plunge to plunge",
        )
        assert all(any(one in meaning for meaning in meanings) for one in told), meanings
        assert "Z-33." in row.changes[0] or "5 grooves instead of 4" in row.changes[0]


STEPPED = """
[numbers]
increments = { D = "X", E = "Z" }
[blocks]
home = "{g} D{home_x}? E{home_z}?"
"""


def test_increments_may_have_any_letters():
    dialect = read_dialect(STEPPED, "stepped")
    run = interpret(
        parse_as("G21 G99\nT0303\nG97 S800 M03\nG00 X42. Z-10.\nD-2.\nG28 D0. E0.\nM30\n", dialect), dialect
    )
    assert [(m.x1, m.z1, m.home) for m in run.motions][1:] == [(40_000, -10_000, False), (10_000_000, 10_000_000, True)]
    assert not run.findings
    stray = interpret(parse_as("G21 G39\nG00 X42. Z-10.\nU-2.\nM30\n", DIALECT), DIALECT)
    assert [f.code for f in stray.findings if f.stops] == ["unknown-word"]
    with pytest.raises(SettingsError, match=r"blocks\.home has U\{home_x\}, where numbers\.increments gives U"):
        read_dialect(STEPPED.replace("D{home_x}?", "U{home_x}?"), "stepped")


def test_its_moves_are_those_of_every_other():
    steps = [
        Rapid(42_000, -13_000),
        GrooveCycle(floor_x=34_000, end_z=-18_000, peck=1_000, shift=5_000, retract=500, feed=800),
        Cut(100, x=40_000),
    ]
    run = interpret(parse_program(write_program(plan_of(steps), DIALECT, HEADING).text), DIALECT)
    assert {m.x1 for m in run.motions if m.kind == "feed"} == {34_000, 36_000, 38_000, 40_000}


def test_it_explains_itself():
    told = explain(write_program(plan_of(), DIALECT, HEADING).text, DIALECT)
    sentence = next(block.sentence for block in told.blocks if "D1." in block.text)
    assert "D1.: 1.000 mm deeper each peck, measured on the radius: 4 pecks to the floor" in sentence
    assert "for 5 grooves instead of 4 change Z-28. to Z-33." in told.changes[0]


@pytest.mark.parametrize("block", ["G00 U-2.", "G75 X17. D1. F.1", "G99", "G77 X17. I1. F.1"])
def test_words_it_does_not_have_are_stops(block):
    run = interpret(parse_program(f"G21 G39\nG00 X21. Z-13.\n{block}\nM30"), DIALECT)
    assert "unknown-word" in [finding.code for finding in run.findings]


def test_its_amounts_need_their_point_as_ours_do():
    run = interpret(parse_program("G21 G39\nG00 X21. Z-13.\nG77 H.5\nG77 X17. D1 F.1\nM30"), DIALECT)
    assert [finding.code for finding in run.findings] == ["no-decimal-point"]


@pytest.mark.parametrize("block", ["G90", "G92 S100", "G95"])
def test_a_dialect_without_another_system_knows_none_of_its_words(block):
    alone = read_dialect('other_words = "none"\n' + LETTERED, "alone")
    run = interpret(parse_program(f"G21 G39\n{block}\nM30"), alone)
    assert [finding.code for finding in run.findings] == ["unknown-word"]


RENAMED = """
[words]
rapid = "G10"
feed = "G11"
surface = "G196"
metric = "G121"
[switches]
end = "M60"
return = "M97"
"""


def test_sentences_name_the_words_of_the_dialect():
    dialect = read_dialect(RENAMED, "renamed")
    texts = ("T0303\nX40.\nG196 S100 M03\nG50 S900\nM98 P2\nO2\nG10 X4.\n", "G121\nG10 X40.\n")
    told = " ".join(f.message for text in texts for f in interpret(parse_as(text, dialect), dialect).findings)
    for words in ("add G121 or G20", "put G10 or G11 in", "put it before G196", "ends without M97", "without M60;"):
        assert words in told
    assert not re.search(r"\b(G00|G01|G21|G96|M30|M99)\b", told)
